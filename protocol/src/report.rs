//! Messages from the instrument to the desktop.

#[cfg(feature = "upkeep")]
use crate::Diagnosis;
use crate::fault::FaultSet;
use crate::{
    Calibrating, ChainLink, DeviceId, Epoch, Fault, Goal, Mass, Mode, PortionId, Refusal, RunId,
    SelfTest, Temperature, UnixMillis, Uptime, Verdict, VerificationInterval, Version,
};
use postcard::experimental::max_size::MaxSize;
use serde::{Deserialize, Serialize};

/// What the instrument may say.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, MaxSize)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub enum Report {
    /// Who answers. Sent at start and whenever a hello comes in.
    Hello(Hello),
    /// The state of the bench now. Never queued: a newer one replaces it.
    Reading(Reading),
    /// A portion, sent until acknowledged.
    Portion(CapturedPortion),
    /// Something happened that a cook may want to know. Sent once.
    Notice {
        /// When.
        at: Uptime,
        /// What.
        notice: Notice,
    },
    /// A fault came or went. The faults that hold are in every reading too.
    Fault {
        /// When.
        at: Uptime,
        /// Which.
        fault: Fault,
        /// Whether it came (true) or went.
        present: bool,
    },
    /// The answer to a command.
    Reply {
        /// The command's sequence number.
        to: u16,
        /// Done, or why not.
        outcome: Result<(), Refusal>,
    },
    /// How a calibration stands, from version 1.1.
    Calibration {
        /// When it last changed.
        at: Uptime,
        /// How it stands.
        standing: Calibrating,
    },
    /// What a test with a known weight found, from version 1.1. Sent three
    /// times; the moment tells one test from another.
    Tested {
        /// When.
        at: Uptime,
        /// What.
        test: SelfTest,
    },
    /// How the instrument itself is, from version 1.4: answers
    /// [`Command::Diagnose`](crate::Command::Diagnose).
    #[cfg(feature = "upkeep")]
    Diagnosis(Diagnosis),
}

/// What an instrument says of itself.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, MaxSize)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Hello {
    /// The highest version of the link that it speaks.
    pub version: Version,
    /// Which instrument it is.
    pub device: DeviceId,
    /// Which of its starts this is.
    pub epoch: Epoch,
    /// Its clock at the moment of sending; with it the desktop can date
    /// portions that were captured before it knew the wall clock.
    pub at: Uptime,
    /// What it can do.
    pub capabilities: Capabilities,
    /// The most it may weigh.
    pub capacity: Mass,
    /// The display interval, `d` in OIML R 76-1: the smallest step it displays.
    pub interval: Mass,
    /// How many unacknowledged portions it can keep.
    pub outbox: u16,
    /// The verification interval, `e` in OIML R 76-1, which its error limits
    /// are counted in; from `d` to 10 `d`. From version 1.3; `None` from an
    /// instrument that does not tell it. See [`Hello::verification`].
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub verification_interval: Option<Mass>,
}

impl Hello {
    /// The interval that its error limits are counted in: as it told, or the
    /// coarsest that its display interval allows.
    #[must_use]
    pub fn verification(&self) -> VerificationInterval {
        match self.verification_interval {
            Some(interval) if interval >= self.interval => VerificationInterval::told(interval),
            _ => VerificationInterval::coarsest(self.interval),
        }
    }
}

/// What an instrument can do, as a set of bits. A later minor version may add
/// bits; a reader ignores the ones it does not know.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, MaxSize)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Capabilities(pub u32);

impl Capabilities {
    /// It portions by itself, adding and taking.
    pub const PORTIONS: Self = Self(1);
    /// It has a temperature probe.
    pub const PROBE: Self = Self(1 << 1);
    /// It keeps unacknowledged portions over a power cut.
    pub const KEEPS_PORTIONS: Self = Self(1 << 2);
    /// It has lamps or a buzzer for the verdict.
    pub const SIGNALS: Self = Self(1 << 3);
    /// From version 1.5. Its portions form a hash chain.
    pub const HASH_CHAIN: Self = Self(1 << 4);

    /// What is in either set.
    #[must_use]
    pub const fn union(self, other: Self) -> Self {
        Self(self.0 | other.0)
    }

    /// Whether everything in `other` is in this set.
    #[must_use]
    pub const fn contains(self, other: Self) -> bool {
        self.0 & other.0 == other.0
    }
}

/// The state of the bench at one moment.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, MaxSize)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Reading {
    /// When.
    pub at: Uptime,
    /// Everything on the pan. `None` while a fault stops weighing: a blank
    /// display, not a zero.
    pub gross: Option<Mass>,
    /// What is subtracted as the dish; zero when nothing is tared.
    pub tare: Mass,
    /// Whether the load is in stable equilibrium.
    pub stable: bool,
    /// Food in the portion being made: in the dish when adding, out of the tin
    /// when taking. `None` when none is being made.
    pub amount: Option<Mass>,
    /// The live verdict on `amount`.
    pub verdict: Option<Verdict>,
    /// What the instrument waits for.
    pub phase: Phase,
    /// The run going on.
    pub run: Option<RunId>,
    /// The probe's temperature; `None` with a fault or without a probe.
    pub temperature: Option<Temperature>,
    /// The faults that hold.
    pub faults: FaultSet,
    /// Portions captured and not yet acknowledged.
    pub unsent: u16,
    /// Portions lost in this epoch because the outbox was full.
    pub lost: u32,
}

impl Reading {
    /// What is on the pan without the tare.
    #[must_use]
    pub fn net(&self) -> Option<Mass> {
        self.gross.map(|gross| gross - self.tare)
    }
}

/// What the instrument waits for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize, MaxSize)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub enum Phase {
    /// No run: it only weighs.
    Weighing,
    /// Adding: for an empty dish.
    AwaitDish,
    /// Adding: for the dish to settle, to be tared.
    DishSettling,
    /// Adding: for food, until the dish is lifted off.
    Filling,
    /// Taking: for a tin.
    AwaitTin,
    /// Taking: for the tin to settle.
    TinSettling,
    /// Taking: for a spoonful.
    Ready,
    /// Taking: for the spoonful's end and a steady tin.
    Spooning,
    /// Taking: for the tin to come back.
    TinAway,
    /// For a fault to go.
    Blocked,
}

/// Something that a cook may want to know.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, MaxSize)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub enum Notice {
    /// A run began.
    RunStarted(RunId),
    /// A run ended.
    RunStopped(RunId),
    /// An empty dish of this mass was tared.
    DishTared(Mass),
    /// A dish that was already counted came back; lifting it again corrects
    /// the portion of this number and counts none.
    DishReturned(u32),
    /// The dish was lifted before it was steady, so what was in it is not
    /// known and was not counted.
    LiftedUnsettled,
    /// The dish was lifted with nothing in it.
    LiftedEmpty,
    /// The tin was refilled by this much.
    Refilled(Mass),
    /// The tin was lifted off.
    TinAway,
    /// The tin came back, heavier or (negative) lighter by this much than
    /// before; no portion.
    TinBack(Mass),
    /// So much left the tin that it cannot be a portion; it was not counted.
    Unaccounted(Mass),
    /// The instrument set its zero.
    Zeroed,
    /// From version 1.2. The power came back within a run of adding and this
    /// much was on the pan: a dish that may have food in it, and is not counted.
    FoundOnPan(Mass),
    /// From version 1.3. The tin became heavier by this much while a spoon worked
    /// in it: what was taken meanwhile cannot be known and was not counted.
    FilledWhileTaken(Mass),
    /// From version 1.4. So many acknowledged portions were sent again and
    /// acknowledged again; no more are held.
    #[cfg(feature = "upkeep")]
    Recalled(u32),
}

/// A portion, as captured at stable equilibrium.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, MaxSize)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct CapturedPortion {
    /// Which portion it is, for ever.
    pub id: PortionId,
    /// The run that it belongs to.
    pub run: RunId,
    /// When it was captured, on the instrument's clock.
    pub at: Uptime,
    /// The same on the wall's clock, where the instrument knew it.
    pub unix: Option<UnixMillis>,
    /// How it was made.
    pub mode: Mode,
    /// The food in it.
    pub mass: Mass,
    /// What it should have weighed.
    pub goal: Goal,
    /// The probe's temperature at capture.
    pub temperature: Option<Temperature>,
    /// The number, in the same epoch, of the portion that this one corrects:
    /// its dish was put back, or a little was added to or returned from it.
    pub replaces: Option<u32>,
    /// Doubts about it.
    pub doubts: Doubts,
    /// Expanded uncertainty of `mass` (coverage factor 2), where the
    /// instrument states one.
    pub uncertainty: Option<Mass>,
    /// What was left on the pan: the tin when taking. `None` when adding.
    pub left: Option<Mass>,
    /// Where it stands in its instrument's hash chain. From version 1.5;
    /// `None` from an instrument that makes none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub chain_link: Option<ChainLink>,
}

impl CapturedPortion {
    /// The verdict on its mass.
    #[must_use]
    pub fn verdict(&self) -> Verdict {
        self.goal.judge(self.mass)
    }
}

/// Doubts about a captured portion, as a set of bits. A later minor version may
/// add bits; a reader keeps the ones it does not know, records them, and treats
/// the portion as doubted ([`Doubts::unknown`]).
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, MaxSize)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Doubts(pub u32);

impl Doubts {
    /// None.
    pub const NONE: Self = Self(0);
    /// So much left the tin at once that it may be two portions.
    pub const MAYBE_TWO: Self = Self(1);
    /// Its uncertainty reaches over a limit of the tolerance, so the verdict
    /// could be either.
    pub const STRADDLES_LIMIT: Self = Self(1 << 1);
    /// The tin was off the pan while it was taken.
    pub const TAKEN_OFF_PAN: Self = Self(1 << 2);
    /// From version 1.3. It was weighed in a moment of calm that was too short
    /// to be called steady: the dish or the portion did not wait.
    pub const HASTY: Self = Self(1 << 3);
    /// From version 1.3. The load changed a little by itself while it was made,
    /// as under an apron or a cable that touches the pan.
    pub const TOUCHED: Self = Self(1 << 4);
    /// From version 1.3. Something left the pan or came back to it afterwards
    /// that may or may not belong to it: a taste, a half portion, a dish that
    /// came back lighter.
    pub const MAYBE_CHANGED: Self = Self(1 << 5);

    /// Every doubt that this version names.
    pub const KNOWN: Self = Self::MAYBE_TWO
        .union(Self::STRADDLES_LIMIT)
        .union(Self::TAKEN_OFF_PAN)
        .union(Self::HASTY)
        .union(Self::TOUCHED)
        .union(Self::MAYBE_CHANGED);

    /// The doubts that this version does not name: the instrument speaks a
    /// later one. They cannot be explained, and must not be dropped.
    #[must_use]
    pub const fn unknown(self) -> Self {
        Self(self.0 & !Self::KNOWN.0)
    }

    /// What is in either set.
    #[must_use]
    pub const fn union(self, other: Self) -> Self {
        Self(self.0 | other.0)
    }

    /// Whether everything in `other` is in this set.
    #[must_use]
    pub const fn contains(self, other: Self) -> bool {
        self.0 & other.0 == other.0
    }
}
