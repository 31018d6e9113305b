//! A service: the evening that portions were made for, and what it comes to.
//!
//! 1. [`ServiceCalendar`]: which service a moment belongs to. A service that
//!    runs past midnight is one service, so its day begins later than the
//!    calendar's;
//! 2. [`Service`]: a date with its first and last order;
//! 3. [`CookFigures`]: who may see whose figures;
//! 4. [`review_service`]: how even each dish was, what it cost, what is said of
//!    it within one rate of false alarms, and what to aim at;
//!    [`Lead`] is what comes first of it, [`savings`] what would save most;
//! 5. [`FailedTest`] and [`WeightDoubt`]: the portions that a failed test of the
//!    scale, or the instrument itself, casts doubt on;
//! 6. [`histogram`]: how many portions are of which mass;
//! 7. [`Dots`]: portions in time, thinned for a screen so that no extreme is hidden.

mod calendar;
mod cooks;
mod dots;
mod doubt;
mod failed_test;
mod histogram;
mod lead;
mod review;
mod savings;

pub use calendar::{DayBegins, Service, ServiceCalendar};
pub use cooks::{CookFigures, CookLabel, label_cooks};
pub use dots::{Bin, Dot, Dots};
pub use doubt::{DoubtCounts, DoubtedSpread, WeightDoubt};
pub use failed_test::{FailedTest, Found, PutRight, ScaleFinding, Side};
pub use histogram::{HistogramBar, histogram};
pub use lead::{Lead, LeadDoubt, OffTarget};
pub use review::{
    Advice, AdviceBasis, Assumptions, DishRecord, DishReview, Finding, LeftOut, NoAdvice,
    ShortRemedy, UsualWeight, review_service,
};
pub use savings::{Saving, SavingKind, savings};
