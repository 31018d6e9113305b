//! What the command line and the screens ask of the kitchen's record, answered in one place.
//!
//! 1. [`limits`]: those in force, out of the data folder;
//! 2. [`heat`]: recording a probe, and how a log stands;
//! 3. [`prep`]: the prep clock over what is on record;
//! 4. [`melt`]: how long scoops have been out of the cold;
//! 5. [`review`]: a service in sentences, and on a page for the wall;
//! 6. [`costs`]: where the food and the money went, over days and on plates;
//! 7. [`demo`]: a made-up kitchen to look at;
//! 8. [`scale_test`]: what a known weight showed of the scale;
//! 9. [`instrument`]: its faults, notices and refusals, and the link's, in words;
//! 10. [`lots`]: one food through all its steps, and the sheet of it;
//! 11. [`times`]: days and lengths of time in words;
//! 12. [`book`]: the kitchen's own formulas, and the water for a dough;
//! 13. [`uptake`]: what a piece takes up in a brine or a marinade;
//! 14. [`colours`]: those that screens and pages share, [`sheet`] and [`printing`];
//! 15. [`mixing`]: ratios, brines, cures and batches in words;
//! 16. [`handover`]: a service under way, for whoever takes over;
//! 17. [`yield_picture`]: batches by what came out of them, in one picture;
//! 18. [`record`]: what the record and the files beside it refuse, in words;
//! 19. [`demand`]: what a limit asks, in words;
//! 20. [`input`]: what was typed and cannot be used, in words;
//! 21. [`gather`]: several desktops, one record: the store and the plain files beside it.
//!
//! Sentences stand in `words/FEATURE/LANGUAGE.ftl`.
#![forbid(unsafe_code)]

pub mod book;
pub mod colours;
pub mod costs;
pub mod demand;
pub mod demo;
pub mod gather;
pub mod handover;
pub mod heat;
pub mod input;
pub mod instrument;
pub mod limits;
pub mod lots;
pub mod melt;
pub mod mixing;
pub mod plain_files;
pub mod prep;
pub mod printing;
pub mod record;
pub mod review;
pub mod scale_test;
pub mod sheet;
pub mod times;
pub mod uptake;
mod words;
pub mod yield_picture;
