//! The prep clock: a day, or four, worked backward from service.
//!
//! A [`Board`] is what must be done before service: preparations made of
//! [`Step`]s that wait for each other, share [`Resource`]s and take their time.
//! [`Board::plan`] lays it out as late as it will go (food is best fresh), says
//! what to do now and what will be late, and names the chain that decides.
//!
//! Everything shown comes from one schedule in which hands, ovens and places are
//! really shared, within hours and an oven's temperature: lateness, when to begin
//! each step, how late each can begin. The schedule with the least lateness is
//! found by a constraint solver; where its effort does not suffice, the plan says
//! how far it may be from the best.

mod batches;
mod board;
mod calendar;
mod day;
mod draft;
mod effort;
mod file;
mod goods;
mod greedy;
mod keeping;
mod mend;
mod order;
mod oven;
mod par;
mod plan;
mod record;
mod remarks;
mod solve;
mod step;
mod stock;
mod supply;
mod table;
mod unwanted;
mod what_if;
mod who;

pub use batches::{MOST_BATCHES, batch_name};
pub use board::{Board, BoardError, Extra, Instead, StepRef};
pub use calendar::{Hours, Resource, ResourceError};
pub use draft::{MenuChanges, MenuDraft, MenuKey, MenuPlace, MenuRefused};
pub use effort::{Effort, Unwanted};
pub use file::{FileError, menu_period, serves_on};
pub use goods::{
    Counted, Goods, GoodsDraft, GoodsKey, GoodsList, GoodsPlace, GoodsRefused, GoodsTold, NewUse,
    NextDelivery, PlacedOrder, Supplier, UsedFor,
};
pub use keeping::{Keeping, KeepingError, UseBy, date_mark_ends};
pub use mend::{Mend, NotKnown, Shortage, Trouble};
pub use order::{Asked, DishNeed, Each, GoodsNeed, InHand, Packs, packs};
pub use oven::{
    BandStretch, Course, Expected, Lasts, Otherwise, OvenAction, OvenAdvice, OvenTimes,
};
pub use par::{
    AsBought, ENOUGH_NIGHTS, KnownYield, Par, ParError, ParQuestion, PastService, Stock, Yield,
    par, portions_ready,
};
pub use plan::{Because, DishOutlook, Plan, PlannedStep, StepState, Turned};
pub use record::{By, Event, Happened, OfPreparation, OutsideService, SeenBatch, SeenRun};
pub use step::{InBand, Need, Progress, Step, Takes, TakesError, TickedBy};
pub use stock::{BatchStock, InStock, MadeBatch, Taken, TakenBy};
pub use supply::{BatchOf, Coming, NeedNotKnown, Needs, Own, Supply, WhyMade};
pub use table::WrittenMenu;
pub use what_if::WhatIfError;
pub use who::{DoneBy, Hand, HandName};
