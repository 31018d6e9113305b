//! What the bench screen shows, as plain data: nothing here is computed while
//! drawing.

use super::words::{Language, say};
use evenhand_protocol::{Goal, Mass, Mode, PortionId, Temperature, Verdict};
use jiff::Timestamp;

/// Everything on the bench screen.
#[derive(Debug, Clone, PartialEq)]
pub struct BenchView {
    /// The connection, in plain words.
    pub link: LinkView,
    /// The large figure.
    pub mass: MassView,
    /// What the instrument waits for, as an instruction.
    pub prompt: String,
    /// What just happened, for a few seconds.
    pub notice: Option<String>,
    /// When something that the scale saw was last not counted.
    pub refused: Option<Timestamp>,
    /// The run going on, or the last one.
    pub run: Option<RunView>,
    /// The probe.
    pub probe: ProbeView,
    /// Today's portions of the dish at hand (or of all dishes without one).
    pub today: Option<SpreadView>,
    /// The most that the scale may weigh, where it has said so.
    pub capacity: Option<Mass>,
    /// What can be asked of the instrument now.
    pub can: Can,
}

impl BenchView {
    /// Before anything is known.
    #[must_use]
    pub fn unplugged(language: Language) -> Self {
        Self {
            link: LinkView {
                tone: Tone::Attention,
                words: say!(language, "link-unplugged").into_owned(),
            },
            mass: MassView {
                caption: say!(language, "mass-no-reading").into_owned(),
                shown: None,
                interval: Mass::from_milligrams(100),
                stable: None,
                verdict: None,
                of: Of::Load,
            },
            prompt: String::new(),
            notice: None,
            refused: None,
            run: None,
            probe: ProbeView::Unknown,
            today: None,
            capacity: None,
            can: Can::default(),
        }
    }

    /// The run going on.
    #[must_use]
    pub fn running(&self) -> Option<&RunView> {
        self.run.as_ref().filter(|run| run.going_on)
    }
}

/// How loud a line is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Tone {
    /// All is well.
    Quiet,
    /// Something wants a look.
    Attention,
    /// Weighing has stopped.
    Stop,
}

/// The connection, or the fault that matters most, in one line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LinkView {
    /// How loud.
    pub tone: Tone,
    /// What happened and what to do; empty while all is well.
    pub words: String,
}

/// The large figure.
#[derive(Debug, Clone, PartialEq)]
pub struct MassView {
    /// What the figure is: in the dish, out of the tin, on the pan.
    pub caption: String,
    /// The figure; `None` paints dashes, because it is not known.
    pub shown: Option<Mass>,
    /// The instrument's smallest step; above zero. Sets the decimals.
    pub interval: Mass,
    /// Whether the load is steady; `None` where it is not known.
    pub stable: Option<bool>,
    /// The verdict on the figure, where it is a portion's.
    pub verdict: Option<Verdict>,
    /// What the figure is of.
    pub of: Of,
}

/// What the large figure is of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Of {
    /// What is on the pan now, or the portion being made.
    Load,
    /// The portion captured last: it stays until the next one is begun.
    Captured {
        /// What is on the pan meanwhile.
        pan: Mass,
    },
    /// The portion captured last, which was struck out.
    Struck {
        /// What is on the pan meanwhile.
        pan: Mass,
    },
}

impl Of {
    /// What is on the pan, where the large figure is something else.
    #[must_use]
    pub const fn pan(self) -> Option<Mass> {
        match self {
            Self::Load => None,
            Self::Captured { pan } | Self::Struck { pan } => Some(pan),
        }
    }
}

/// A run.
#[derive(Debug, Clone, PartialEq)]
pub struct RunView {
    /// Whether it is going on.
    pub going_on: bool,
    /// The dish.
    pub dish: String,
    /// How portions are made.
    pub mode: Mode,
    /// What they should weigh.
    pub goal: Goal,
    /// Every portion in order of time, struck ones too.
    pub portions: Vec<PortionView>,
    /// Count, mean and spread of those that count.
    pub spread: SpreadView,
    /// The tin, when portions are taken from one.
    pub tin: Option<TinView>,
}

/// Whether a portion counts.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum PortionState {
    /// It does.
    Counts,
    /// It was struck out, with this reason.
    Struck(String),
    /// A later weighing of the same dish took its place.
    Corrected,
}

/// One portion.
#[derive(Debug, Clone, PartialEq)]
pub struct PortionView {
    /// Which portion it is, for ever.
    pub id: PortionId,
    /// Its number within the run, from 1.
    pub number: u32,
    /// What it weighs.
    pub mass: Mass,
    /// What it should have weighed.
    pub goal: Goal,
    /// When, as a time of day.
    pub at: String,
    /// Whether it counts.
    pub standing: PortionState,
    /// What speaks against trusting it, where something does.
    pub doubt: Option<String>,
}

impl PortionView {
    /// The verdict on its mass.
    #[must_use]
    pub fn verdict(&self) -> Verdict {
        self.goal.judge(self.mass)
    }

    /// Whether it counts.
    #[must_use]
    pub fn counts(&self) -> bool {
        self.standing == PortionState::Counts
    }
}

/// Count, mean and spread.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct SpreadView {
    /// Portions that count.
    pub count: usize,
    /// How many of their weights are in doubt.
    pub in_doubt: usize,
    /// The mean of those that can be relied on; `None` without any.
    pub mean: Option<Mass>,
    /// Their standard deviation (n - 1); `None` below two.
    pub deviation: Option<Mass>,
    /// The same of all that count, where any is in doubt.
    pub of_all: Option<(Option<Mass>, Option<Mass>)>,
}

/// What is left in the tin.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TinView {
    /// What the figure is.
    pub caption: String,
    /// Food left; `None` while it is not known.
    pub left: Option<Mass>,
    /// How many portions that makes, in words, where it can be told.
    pub portions: Option<String>,
}

/// The probe.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum ProbeView {
    /// It reads this.
    Reads(Temperature),
    /// It has a fault: what happened and what to do.
    Fault {
        /// A few words for the badge.
        short: String,
        /// The whole sentence.
        words: String,
    },
    /// The instrument has none.
    Absent,
    /// Nothing is known, because nothing is heard.
    Unknown,
}

/// What can be asked of the instrument now.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[expect(clippy::struct_excessive_bools, reason = "each a button, on or off")]
pub struct Can {
    /// Tare.
    pub tare: bool,
    /// Take the tare off.
    pub clear_tare: bool,
    /// Zero.
    pub zero: bool,
    /// Undo the last portion.
    pub undo: bool,
    /// Start, stop and change a run.
    pub run: bool,
    /// Be calibrated: it is heard and has no run.
    pub calibrate: bool,
}
