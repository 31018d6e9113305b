//! What the service screen shows and can be asked for, and what stands behind
//! it.

mod reviewer;
mod stretch;

pub use reviewer::Reviewer;
pub use stretch::Stretch;

use evenhand_kitchen::service::{Dot, Dots};
use evenhand_kitchen::yield_flow::Destination;
use evenhand_protocol::{Goal, Mass, PortionId};
use jiff::Timestamp;
use jiff::civil::Date;
use std::sync::Arc;

/// How a service is looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Look {
    /// One dish: its dots in time, and how its masses are spread.
    #[default]
    Night,
    /// Every dish, small.
    Dishes,
    /// One dish beside the ten services before.
    Beside,
    /// What one dish was made from: from tin to plate.
    Yield,
    /// What plates cost, what would save most, and every gram of the week.
    Money,
    /// Everything on record.
    Everything,
}

/// One wish.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum ServiceWish {
    /// The service before.
    Earlier,
    /// The service after.
    Later,
    /// This dish, by its place.
    Dish(usize),
    /// Look at it this way.
    Look(Look),
    /// Look at what was made between these moments; `None` for all of it.
    Span(Option<(Timestamp, Timestamp)>),
    /// Show this stretch of time only; `None` for all of it.
    Window(Option<Stretch>),
    /// Look at one portion.
    Pick(Option<PortionId>),
    /// Look at the portion after the one looked at, or where `false` at the
    /// one before; at the first one shown where none is looked at.
    Step(bool),
    /// The portion looked at should not count: ask why. `false` to let it be.
    AskWhy(bool),
    /// The reason is this.
    Reason(String),
    /// Strike the portion looked at out, with the reason.
    StrikeOut,
    /// Count the portion looked at again.
    CountAgain,
    /// Show what the first sentence leans on, or fold it away.
    Evidence(bool),
    /// Let aims lie below what the guest is promised, or not.
    BelowPromise(bool),
    /// Make and change plates.
    Plates,
}

/// The service screen, as plain data.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct ServiceView {
    /// Which service: `Sat 16 May 2026`; empty where nothing is on record.
    pub title: String,
    /// Its orders and what was given away in all.
    pub summary: String,
    /// Whether there is a service before.
    pub earlier: bool,
    /// Whether there is a service after.
    pub later: bool,
    /// How it is looked at.
    pub look: Look,
    /// Its dishes.
    pub dishes: Vec<DishView>,
    /// The dishes of which no portion counts any more, a sentence each.
    pub none_counts: Vec<String>,
    /// The place of the dish looked at.
    pub chosen: usize,
    /// The stretch of time that is shown; `None` for all of it.
    pub window: Option<Stretch>,
    /// The stretch of time whose figures are told.
    pub span: Option<(Timestamp, Timestamp)>,
    /// What that stretch comes to, or the portion picked: a line each.
    pub told: Vec<String>,
    /// The portion picked.
    pub picked: Option<PortionId>,
    /// Whether the portion picked is struck out.
    pub picked_is_struck: bool,
    /// The reason to strike the picked one out, as far as it is said; `None`
    /// while nobody wants to.
    pub why: Option<String>,
    /// Whether what the first sentence leans on is shown.
    pub evidence: bool,
    /// Whether aims may lie below what the guest is promised.
    pub below_promise: bool,
    /// What plates cost and what would save most; empty unless it is looked at.
    pub money: MoneyView,
    /// Everything on record.
    pub everything: Everything,
    /// How far the clock on the wall is ahead of UTC, in seconds.
    pub ahead: i64,
}

/// What plates cost at the weights really served, and where money went.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct MoneyView {
    /// Each plate: its heading, and a line for each thing on it.
    pub plates: Vec<Vec<String>>,
    /// What would save most, the most first.
    pub savings: Vec<String>,
    /// Every gram of the seven days up to this service: a heading, and where it went.
    pub week: Vec<String>,
}

/// Everything on record, as far as it is known yet.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Everything {
    /// Its figures, dish by dish, a line each.
    pub figures: Vec<String>,
    /// Every portion that counts, in order of time; `None` while they are read.
    pub dots: Option<Arc<Dots>>,
}

/// One dish of a service.
#[derive(Debug, Clone, PartialEq)]
pub struct DishView {
    /// Its name.
    pub name: String,
    /// What a portion should weigh.
    pub goal: Goal,
    /// Its portions that count, in order of time.
    pub dots: Arc<Dots>,
    /// Which portion each dot is.
    pub ids: Arc<Vec<PortionId>>,
    /// Its portions that were struck out, in order of time.
    pub struck: Arc<Vec<StruckDot>>,
    /// What the review found, a sentence a line.
    pub found: Vec<String>,
    /// What casts doubt on it, then what changed since the services before, a sentence a
    /// line.
    pub changed: Vec<String>,
    /// From when to when a failed test of the scale casts doubt on what was
    /// weighed; `None` for an end that is not on record.
    pub in_doubt: Vec<(Option<Timestamp>, Option<Timestamp>)>,
    /// The services before and this one last: their days, means and spreads.
    pub services: Vec<ServiceSpread>,
    /// What it was made from.
    pub flows: Vec<FlowView>,
}

/// A portion that was struck out.
#[derive(Debug, Clone, PartialEq)]
pub struct StruckDot {
    /// Which portion it is.
    pub id: PortionId,
    /// What it weighed, and when.
    pub dot: Dot,
    /// Why it does not count.
    pub reason: String,
}

/// A dish's spread in one service.
#[derive(Debug, Clone, PartialEq)]
pub struct ServiceSpread {
    /// The service's day.
    pub day: Date,
    /// Of those that can be relied on; of all that count where none can.
    pub relied: MeanSpread,
    /// Of all that count, where any is in doubt.
    pub of_all: Option<MeanSpread>,
    /// How many are in doubt.
    pub in_doubt: usize,
}

/// A mean, and how far portions lie about it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MeanSpread {
    /// The mean.
    pub mean: Mass,
    /// The standard deviation; `None` of a single portion.
    pub deviation: Option<Mass>,
}

/// What became of a purchase.
#[derive(Debug, Clone, PartialEq)]
pub struct FlowView {
    /// What it is: `cut 22, lot 56`.
    pub title: String,
    /// What was bought.
    pub bought: Mass,
    /// Where it went, in order.
    pub parts: Vec<(Destination, Mass)>,
    /// Each part as a share of what was bought, in words.
    pub shares: Vec<String>,
    /// What it cost, and how many portions are left in it.
    pub notes: Vec<String>,
}
