//! What is going to happen by a limit, and what to do: codes and figures,
//! which a face puts into words.

use super::forecast::Why;
use crate::limits::Side;
use evenhand_protocol::Temperature;
use jiff::SignedDuration;

/// Where one thing that a limit asks for is going.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Going {
    /// The cooling clock has not started.
    NotStarted {
        /// The latest reading.
        here: Temperature,
        /// The temperature below which it starts.
        from: Temperature,
    },
    /// A stage of cooling goes on.
    Cooling {
        /// What is to be reached.
        to: Temperature,
        /// How it goes.
        pace: Pace,
        /// What to do about it.
        remedy: Remedy,
        /// Whether the log shows when cooling began. Where it does not, time
        /// is counted from its first reading and the true time left is less.
        start_seen: bool,
    },
    /// Held cold or hot.
    Holding {
        /// On which side of the limit it should be.
        side: Side,
        /// The limit.
        limit: Temperature,
        /// The latest reading.
        here: Temperature,
        /// What becomes of it.
        next: HoldingNext,
    },
    /// Out of the cold or off the heat, for a time.
    Out {
        /// So far.
        out: SignedDuration,
        /// How long it may be.
        allowed: SignedDuration,
        /// How much of that is left; negative where the time is up.
        left: SignedDuration,
    },
    /// To be held at a temperature for a time.
    Hold {
        /// On which side of it.
        side: Side,
        /// The temperature.
        at: Temperature,
        /// How long it is to be held.
        asked: SignedDuration,
        /// The latest reading.
        here: Temperature,
        /// How far that has come.
        stage: HoldStage,
    },
}

/// How a stage of cooling goes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Pace {
    /// The time is up.
    Overdue {
        /// For so long.
        by: SignedDuration,
        /// The latest reading.
        here: Temperature,
    },
    /// It will be there in time.
    InTime {
        /// So long before the limit.
        before: SignedDuration,
    },
    /// It will likely be there in time, and may be late.
    PerhapsLate {
        /// Likely so long before the limit.
        before: SignedDuration,
        /// At worst so late; `None` where it may never get there.
        latest: Option<SignedDuration>,
    },
    /// It will be there late.
    Late {
        /// So late.
        by: SignedDuration,
        /// At best so late; negative where it may be in time.
        earliest: SignedDuration,
        /// At worst so late; `None` where it may never get there.
        latest: Option<SignedDuration>,
    },
    /// It will not be there in time.
    Missed,
    /// It may not become cold enough.
    NotEnough {
        /// So long is left.
        left: SignedDuration,
    },
    /// Nobody can tell.
    Unknown {
        /// Why.
        why: Why,
        /// So long is left.
        left: SignedDuration,
    },
}

/// What to do about a pan that cools.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Remedy {
    /// Nothing.
    Nothing,
    /// Stir it, and look again soon.
    LookAgain,
    /// Too close to say, and later ice may come too late: ice it if it
    /// matters, or look again in some minutes.
    IceIfItMatters,
    /// Split the pan and ice it. Common practice, no source: a smaller and
    /// shallower mass cools faster, ice takes heat faster than air.
    Ice,
}

/// What becomes of food that is held cold or hot.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum HoldingNext {
    /// It is beyond the limit, for up to so long: something has to be done.
    Beyond {
        /// From the last reading on the right side.
        up_to: SignedDuration,
    },
    /// It reads beyond the limit by no more than the probe may be out.
    TooClose {
        /// What the probe is good to.
        within: Temperature,
    },
    /// It will pass the limit.
    Passes {
        /// In so long.
        within: SignedDuration,
        /// Whether something has to be done.
        remedy: bool,
    },
    /// Nobody can tell.
    Unknown(Why),
    /// It stays within the limit.
    Keeps,
}

/// How far a hold has come.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum HoldStage {
    /// It is held.
    Lasting {
        /// For so long.
        lasted: SignedDuration,
    },
    /// It will begin.
    Ahead {
        /// Likely in so long.
        likely: SignedDuration,
        /// In so long at the earliest.
        early: SignedDuration,
        /// In so long at the latest; `None` where it may never begin.
        late: Option<SignedDuration>,
    },
    /// Nobody can tell.
    Unknown(Why),
    /// At this rate it does not begin.
    NotComing,
}

impl Going {
    /// The level that it is on the way to, where it is.
    #[must_use]
    pub const fn level(&self) -> Option<Temperature> {
        match self {
            Self::Cooling { to: level, .. }
            | Self::Holding { limit: level, .. }
            | Self::Hold { at: level, .. } => Some(*level),
            Self::NotStarted { .. } | Self::Out { .. } => None,
        }
    }

    /// Its code for other programs: which of the sentences it is.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::NotStarted { .. } => "not-started",
            Self::Cooling { pace, .. } => match pace {
                Pace::Overdue { .. } => "overdue",
                Pace::InTime { .. } => "in-time",
                Pace::PerhapsLate { .. } => "perhaps-late",
                Pace::Late { .. } => "late",
                Pace::Missed => "missed",
                Pace::NotEnough { .. } => "not-enough",
                Pace::Unknown { .. } => "unknown",
            },
            Self::Holding { next, .. } => match next {
                HoldingNext::Beyond { .. } => "beyond",
                HoldingNext::TooClose { .. } => "too-close",
                HoldingNext::Passes { .. } => "passes",
                HoldingNext::Unknown(_) => "unknown",
                HoldingNext::Keeps => "keeps",
            },
            Self::Out { left, .. } if left.is_negative() => "time-up",
            Self::Out { .. } => "time-left",
            Self::Hold { stage, asked, .. } => match stage {
                HoldStage::Lasting { lasted } if lasted.as_secs() >= asked.as_secs() => "held",
                HoldStage::Lasting { .. } => "holding",
                HoldStage::Ahead { .. } => "hold-ahead",
                HoldStage::Unknown(_) => "unknown",
                HoldStage::NotComing => "not-coming",
            },
        }
    }
}
