//! What the mixing screens show, as plain data.

use super::Page;
use evenhand_kitchen::batch::BatchId;
use evenhand_kitchen::cure::Contents;
use evenhand_protocol::{Goal, Mass, Verdict};

/// Everything on the mixing screens.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct MixView {
    /// Which is shown.
    pub page: Page,
    /// What is being typed, over any of them.
    pub entry: Option<EntryView>,
    /// Titles that can be mixed again, the latest first.
    pub titles: Vec<String>,
    /// The book's bowls: as many as have room.
    pub book: Vec<BookRow>,
    /// Files of the book that are not understood, by name and reason.
    pub book_trouble: Vec<String>,
    /// What is due with every batch, soonest first.
    pub due: Vec<BatchRow>,
    /// Whether a mix is under way that can be gone back to.
    pub under_way: Option<String>,
    /// A mix that was under way when the program was stopped.
    pub unfinished: Option<UnfinishedView>,
    /// The ratio being put together.
    pub recipe_draft: RecipeDraftView,
    /// The ratio on the scale.
    pub pouring: Option<PouringView>,
    /// Weighing without a ratio.
    pub capture: Option<CaptureView>,
    /// Batches, the latest first: as many as have room.
    pub batches: Vec<BatchRow>,
    /// Which of them all these are.
    pub leaf: String,
    /// Whether there are later ones.
    pub has_later: bool,
    /// Whether there are earlier ones.
    pub has_earlier: bool,
    /// One batch.
    pub batch: Option<BatchView>,
    /// Batches side by side.
    pub compare: Option<CompareView>,
    /// Strengths.
    pub brine: BrineView,
    /// Vessels.
    pub vessels: VesselView,
}

/// One bowl of a formula in the book.
#[derive(Debug, Clone, PartialEq)]
pub struct BookRow {
    /// The formula.
    pub name: String,
    /// The stage that is made beforehand, or `None` for the last bowl.
    pub stage: Option<String>,
    /// What goes into it, with its share of the base in per cent.
    pub about: Vec<(String, f64)>,
}

/// What is typed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum EntryKind {
    /// Words.
    Words,
    /// A number with a unit or a sign.
    Number,
    /// A time of day.
    Time,
}

/// Something being typed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct EntryView {
    /// What is asked for.
    pub caption: String,
    /// What is there so far.
    pub text: String,
    /// What kind.
    pub kind: EntryKind,
    /// What stands behind a number.
    pub unit: String,
    /// More about it.
    pub hint: String,
    /// Words that can be chosen instead of typed.
    pub picks: Vec<String>,
}

/// A mix that was under way when the program was stopped.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct UnfinishedView {
    /// Its batch.
    pub id: BatchId,
    /// What is mixed.
    pub title: String,
    /// How much of it is done, and since when.
    pub about: String,
}

/// One line of a ratio.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SketchLine {
    /// The ingredient; a curing agent with its mark.
    pub name: String,
    /// Its number with its unit, or that it is whatever there is.
    pub number: String,
    /// How much that is, where an amount was set.
    pub amount: String,
    /// Whether its number can be changed.
    pub typed: bool,
    /// Whether it can be taken out.
    pub can_go: bool,
    /// Whether it is a curing agent.
    pub curing: bool,
    /// Whether it counts as flour, where there is flour.
    pub flour: Option<bool>,
}

/// A ratio being put together.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RecipeDraftView {
    /// What is mixed.
    pub title: String,
    /// In which way it is said.
    pub form: String,
    /// Its lines.
    pub lines: Vec<SketchLine>,
    /// How close is close enough.
    pub closeness: String,
    /// The vessels, and which is chosen.
    pub vessels: Vec<(String, bool)>,
    /// Why it cannot go onto the scale yet, or what it comes to.
    pub verdict: Result<String, String>,
    /// Whether an amount was set.
    pub is_set: bool,
    /// The cure, where it is one.
    pub cure: Option<CureView>,
}

impl Default for RecipeDraftView {
    fn default() -> Self {
        Self {
            title: String::new(),
            form: String::new(),
            lines: Vec::new(),
            closeness: String::new(),
            vessels: Vec::new(),
            verdict: Err(String::new()),
            is_set: false,
            cure: None,
        }
    }
}

/// A cure being set up.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CureView {
    /// The way.
    pub method: String,
    /// How the sum is done.
    pub reckoning: String,
    /// What is on the packet.
    pub agent: String,
    /// What the label says is in it.
    pub contents: Contents,
    /// The nitrite fraction from its label.
    pub fraction: String,
    /// The target.
    pub ppm: String,
    /// The share taken up, where the method asks.
    pub pick_up: Option<String>,
    /// Whether the skin is on, where it may be.
    pub skin: Option<bool>,
    /// The limit and its source.
    pub limit: String,
    /// The dose, or why there is none.
    pub dose: Result<String, String>,
    /// What stands beside every answer.
    pub caution: String,
}

/// One ingredient of a mix on the scale.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PouringLine {
    /// Its name; a curing agent with its mark.
    pub name: String,
    /// How much went in.
    pub poured: String,
    /// How much it should be.
    pub target: String,
    /// How it stands against that; `None` while nothing went in or nothing is
    /// known.
    pub verdict: Option<Verdict>,
    /// Whether it is being poured.
    pub now: bool,
    /// Whether it is a curing agent.
    pub curing: bool,
}

/// A curing agent's label that is to be read again.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LabelView {
    /// What to do.
    pub words: String,
    /// Whether reading the label again helps.
    pub can_confirm: bool,
}

/// A mix that is done.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FinishView {
    /// What was found, line by line.
    pub found: Vec<String>,
    /// Why it is not ready, line by line; empty where it is.
    pub not_ready: Vec<String>,
}

/// The ratio on the scale.
#[derive(Debug, Clone, PartialEq)]
pub struct PouringView {
    /// What is mixed.
    pub title: String,
    /// What to do.
    pub prompt: String,
    /// More about it: that it goes on by itself, or waits.
    pub aside: String,
    /// How much of the ingredient at hand is in; `None` paints dashes.
    pub so_far: Option<Mass>,
    /// The scale's smallest step.
    pub interval: Mass,
    /// Whether the load is steady.
    pub stable: Option<bool>,
    /// What the ingredient at hand should come to, with how close is close
    /// enough.
    pub goal: Option<Goal>,
    /// The verdict on it.
    pub verdict: Option<Verdict>,
    /// The ingredients.
    pub lines: Vec<PouringLine>,
    /// What the cook should know: over-pours, room, limits.
    pub notices: Vec<String>,
    /// What it comes to and what the vessel holds.
    pub total: String,
    /// Something stands in the way of the curing agent.
    pub label: Option<LabelView>,
    /// Whether the vessel is awaited.
    pub awaits_vessel: bool,
    /// Whether the cook is to say what came on since the last weighing on
    /// record.
    pub came_meanwhile: bool,
    /// Whether the cook is saying what was poured by mistake.
    pub mistaken: bool,
    /// Whether some of it can be taken out to make room.
    pub can_take_out: bool,
    /// Whether it is done.
    pub finish: Option<FinishView>,
}

/// One thing weighed without a ratio.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CaptureLine {
    /// Its number.
    pub slot: u32,
    /// Its name, once somebody said.
    pub name: Option<String>,
    /// How much.
    pub mass: String,
    /// Its share of everything.
    pub share: String,
}

/// Weighing without a ratio.
#[derive(Debug, Clone, PartialEq)]
pub struct CaptureView {
    /// What it is, once somebody said.
    pub title: Option<String>,
    /// What to do.
    pub prompt: String,
    /// What came on since the last rest.
    pub live: Option<Mass>,
    /// The scale's smallest step.
    pub interval: Mass,
    /// Whether the load is steady.
    pub stable: Option<bool>,
    /// What was weighed.
    pub lines: Vec<CaptureLine>,
    /// All together.
    pub total: String,
    /// Whether the vessel is awaited.
    pub awaits_vessel: bool,
    /// How much more the scale shows than is on record of a batch that was
    /// begun before, and is to be gone on with.
    pub came_meanwhile: Option<Mass>,
}

/// One batch in a list.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BatchRow {
    /// Its number.
    pub id: BatchId,
    /// What it is.
    pub title: String,
    /// When it was begun, how much it is.
    pub about: String,
    /// What is to be done with it, in words.
    pub due: String,
    /// Whether that is overdue.
    pub overdue: bool,
}

/// What is in a batch: a name, how much, its share of the whole.
pub type Ingredients = Vec<(String, String, String)>;

/// One batch.
#[derive(Debug, Clone, PartialEq)]
pub struct BatchView {
    /// Its number.
    pub id: BatchId,
    /// What it is.
    pub title: String,
    /// When it was begun, how much it is.
    pub about: String,
    /// What is in it.
    pub ingredients: Ingredients,
    /// What is due, each with whether it is overdue.
    pub due: Vec<(String, bool)>,
    /// Everything else that is to be known: ready or why not, drying, store,
    /// tasting.
    pub lines: Vec<String>,
    /// The latest mark.
    pub mark: Option<u8>,
    /// Whether its cold store is being logged.
    pub logs_store: bool,
    /// Whether the probe reads.
    pub probe: bool,
    /// Whether it dries against a target.
    pub drying: bool,
    /// Whether it has a plan and is not out.
    pub planned: bool,
    /// How many batches there are of this title.
    pub of_title: usize,
    /// What the scale shows, where it is steady and something is on it.
    pub on_scale: Option<String>,
}

/// One point of the plot: a share in per cent and a mark.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MarkedPoint {
    /// In per cent.
    pub share: f64,
    /// From 1 to 9.
    pub mark: u8,
    /// Whether it is the latest batch.
    pub latest: bool,
}

/// Batches side by side.
#[derive(Debug, Clone, PartialEq)]
pub struct CompareView {
    /// What they are.
    pub title: String,
    /// What shares are of.
    pub of: String,
    /// Their ingredients.
    pub ingredients: Vec<String>,
    /// Which of them is plotted.
    pub plotted: usize,
    /// Each batch: when, the shares, the mark, the note; and whether it is the
    /// best.
    pub rows: Vec<(String, Vec<String>, String, String, bool)>,
    /// The plotted points.
    pub points: Vec<MarkedPoint>,
}

/// A brine told by weight, step by step.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CheckView {
    /// The vessel at hand.
    pub vessel: Option<String>,
    /// The empty vessel's weight.
    pub empty: String,
    /// What is known of sugar.
    pub sugar: String,
    /// What to do next.
    pub prompt: String,
    /// What was told, line by line, or why nothing was.
    pub found: Result<Vec<String>, String>,
}

impl Default for CheckView {
    fn default() -> Self {
        Self {
            vessel: None,
            empty: String::new(),
            sugar: String::new(),
            prompt: String::new(),
            found: Ok(Vec::new()),
        }
    }
}

/// Strengths of brine.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct BrineView {
    /// One strength in every way: a caption, a value, and the field it is
    /// typed in.
    pub ways: Vec<(String, String)>,
    /// At which temperature.
    pub at: String,
    /// Whether that is the probe's.
    pub by_probe: bool,
    /// Its freezing point.
    pub freezing: String,
    /// The sources of the figures.
    pub sources: String,
    /// Telling a strength by weight.
    pub check: CheckView,
    /// Putting the told brine right, in words.
    pub correction: Option<String>,
    /// What it is to be put right to, and how much there is.
    pub correct_to: String,
    /// How much brine there is.
    pub brine_mass: String,
}

/// One vessel.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct VesselRow {
    /// Its name.
    pub name: String,
    /// Its volume and doubt.
    pub volume: String,
    /// What it weighs empty, and how it was filled.
    pub about: String,
}

/// Vessels of known volume.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct VesselView {
    /// Those in use.
    pub known: Vec<VesselRow>,
    /// The one being filled.
    pub filling: Option<String>,
    /// What it is made of.
    pub material: String,
    /// What to do.
    pub prompt: String,
    /// Whether the empty one was weighed.
    pub has_empty: bool,
}
