//! What a cook may wish for on the mixing screens.

use crate::book::BookPage;
use evenhand_kitchen::batch::BatchId;
use evenhand_kitchen::cure::{Contents, Method};
use evenhand_kitchen::ratio::Form;

/// Which of the mixing screens is shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Page {
    /// What there is to do.
    #[default]
    Start,
    /// Putting a ratio together.
    RecipeDraft,
    /// The way of curing, the label and the dose.
    Cure,
    /// The ratio on the scale.
    Pouring,
    /// Weighing without a ratio.
    Capture,
    /// The kitchen's own book of formulas.
    Book,
    /// Every batch.
    Batches,
    /// One batch.
    Batch,
    /// Batches of one thing side by side.
    Compare,
    /// Strengths of brine, and telling one by weight.
    Brine,
    /// Vessels of known volume.
    Vessels,
}

/// A strength said in one of its ways.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Said {
    /// Per cent of the water.
    OfWater,
    /// Per cent of the whole brine.
    OfSolution,
    /// Salometer degrees.
    Salometer,
    /// A density.
    Density,
}

/// Something that is typed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Field {
    /// What is mixed.
    Title,
    /// The name of an ingredient to add; its number comes next.
    NewName,
    /// Another name for an ingredient.
    Rename(usize),
    /// The number of an ingredient.
    Number(usize),
    /// How much there is to be of an ingredient.
    Amount(usize),
    /// The name of something weighed.
    SlotName(u32),
    /// What a curing agent is called on its packet.
    AgentName,
    /// Its nitrite fraction, from its label.
    Fraction,
    /// The same read again, before it is weighed.
    LabelAgain,
    /// How much ingoing nitrite.
    Ppm,
    /// The share the meat takes up.
    PickUp,
    /// A word about a batch.
    Note,
    /// What it tasted like, with a mark.
    Tasting(u8),
    /// In how many hours or days it is due out.
    DueIn,
    /// How often it is turned, in hours.
    TurnEvery,
    /// How much of its weight it is to lose.
    Loss,
    /// By how many per cent an ingredient changes, next time.
    Change(usize),
    /// A strength.
    Strength(Said),
    /// The temperature a strength is told at.
    BrineAt,
    /// Sugar in the brine.
    Sugar,
    /// A strength to correct to, per cent of water.
    CorrectTo,
    /// How much brine there is to correct.
    BrineMass,
    /// The name of a vessel to fill.
    VesselName,
}

/// One step of filling a vessel, or of telling a brine's strength.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum VesselStep {
    /// The empty vessel stands on the scale.
    Empty,
    /// The full one does.
    Full,
}

/// One wish.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Wish {
    /// Show a screen.
    Show(Page),
    /// Show a screen of the kitchen's own book.
    OpenBook(BookPage),
    /// Type something.
    Ask(Field),
    /// What is typed is now this.
    Type(String),
    /// It is right like that.
    Enter,
    /// Leave it as it was.
    Leave,

    /// Begin a new ratio, said in this way.
    RecipeDraft(Form),
    /// Begin a new cure, done in this way.
    SketchCure(Method),
    /// Choose another way of curing.
    AnotherCure,
    /// The ratio of the latest batch of this title.
    AsLastTime(String),
    /// This bowl of the book's formulas, by its place on the leaf that is shown.
    FromBook(usize),
    /// This flour counts as flour, or no longer.
    Flour(usize),
    /// Take an ingredient out of the ratio.
    Drop(usize),
    /// Take the set amount off again.
    AnyAmount,
    /// Come closer to each target, or less close.
    Closer,
    /// Use this vessel, or whichever stands there.
    InVessel(Option<usize>),
    /// What the agent's label says is in it.
    AgentContents(Contents),
    /// Bacon with its skin on, or not.
    Skin,
    /// Onto the scale.
    Weigh,

    /// Pour this one next.
    Choose(usize),
    /// What was poured last was this.
    ThatWas(usize),
    /// Say what it really was that was poured last, or no longer.
    Mistaken,
    /// Go on without waiting.
    GoOn,
    /// Begin with the scale as it is.
    AsItStands,
    /// Some of it all was taken out.
    TakenOut,
    /// Mark it ready and put it away.
    Finish,
    /// Leave it; what was weighed stays on record.
    Abandon,

    /// Go on with this batch's mix, begun before the program was stopped.
    Resume(BatchId),
    /// Do not go on with it; what was weighed stays on record.
    PutAside(BatchId),

    /// Begin to weigh without a ratio.
    Capture,
    /// What came on since the program was stopped went into it.
    ThatWentIn,
    /// What came last is more of what came before.
    MoreOfThat,

    /// Show a batch.
    Open(BatchId),
    /// It was turned, or looked at.
    Turned,
    /// It came out.
    CameOut,
    /// It is on the scale: what it weighs now.
    Reweigh,
    /// A mark from 1 to 9 for how it tasted.
    Mark(u8),
    /// Mix it again, as it was.
    Again,
    /// Mix it again with more of one ingredient, in per cent; at once.
    AgainWith(usize, i8),
    /// Log its cold store with the probe, or no longer.
    LogStore,
    /// Put it side by side with the others of its title.
    Compare,
    /// Plot this ingredient.
    Plot(usize),
    /// Shares of the whole, or of the first ingredient.
    ShareOf,

    /// Earlier batches.
    Earlier,
    /// Later batches.
    Later,

    /// Mix a brine of the strength that is shown.
    MixThis,
    /// Tell the strength with the probe's temperature, or a typed one.
    UseProbe,
    /// Nobody knows whether there is sugar in it.
    SugarUnknown,
    /// A step of telling the strength by weight.
    Check(VesselStep),
    /// A step of filling a vessel.
    Fill(VesselStep),
    /// What the vessel that is filled is made of.
    Material,
    /// Take a vessel out of use.
    Retire(usize),
}

impl Wish {
    /// Whether the scale is needed for it, so that nothing else may be going
    /// on there.
    #[must_use]
    pub const fn takes_the_scale(&self) -> bool {
        matches!(
            self,
            Self::Weigh | Self::Resume(_) | Self::Capture | Self::Again | Self::AgainWith(..)
        )
    }
}
