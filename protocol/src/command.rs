//! Messages from the desktop to the instrument.

use crate::{
    CalibrationError, Goal, GoalError, KnownWeight, Mode, PortionId, RunId, SelfTestRefusal,
    Setting, UnixMillis, Version,
};
use postcard::experimental::max_size::MaxSize;
use serde::{Deserialize, Serialize};

/// What the desktop may ask. Each is answered by a
/// [`Report::Reply`](crate::Report::Reply) that cites the command's sequence
/// number, except [`Command::Hello`] (answered by a hello) and
/// [`Command::Acknowledge`] (not answered). A command sent again with the
/// sequence number of the last one is answered again and not carried out
/// again.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, MaxSize)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub enum Command {
    /// Who calls. The first message on every connection.
    Hello {
        /// The highest version of the link that the desktop speaks.
        version: Version,
        /// The desktop's clock, so that portions get true times.
        now: UnixMillis,
    },
    /// Take what is on the pan as the tare. Needs stable equilibrium.
    Tare,
    /// Weigh gross again.
    ClearTare,
    /// Take the empty pan as zero. Needs stable equilibrium and a load within
    /// the zero-setting range.
    Zero,
    /// Change the target and tolerance, in a run or outside one.
    SetGoal(Goal),
    /// Begin a run; ends the one that was going on. The same run begun twice
    /// goes on.
    StartRun {
        /// The desktop's number for the run; every portion carries it.
        run: RunId,
        /// How portions are made.
        mode: Mode,
        /// What they should weigh.
        goal: Goal,
    },
    /// End the run.
    StopRun,
    /// Set the instrument's idea of the wall clock.
    SetTime(UnixMillis),
    /// This portion is recorded and need not be sent again.
    Acknowledge(PortionId),
    /// Begin a calibration, from version 1.1. Not within a run. One that was
    /// going on begins anew; the scale weighs by its old calibration until the
    /// new one is finished.
    BeginCalibration,
    /// This known weight, or nothing, lies on the pan now: take it as a point.
    /// Needs stable equilibrium. One of the same load as the last takes its
    /// place.
    TakePoint(KnownWeight),
    /// Make the calibration from the points taken and weigh by it from now on.
    FinishCalibration,
    /// Give the calibration up; the old one stays.
    CancelCalibration,
    /// This known weight lies on the zeroed pan now: say how far out the scale
    /// is. Needs stable equilibrium; not within a run.
    TestWeight(KnownWeight),
    /// Set a setting.
    Set(Setting),
    /// From version 1.4. Send every acknowledged portion that is still held
    /// once more, the oldest first: the desktop lost its record. Not within a
    /// run.
    #[cfg(feature = "upkeep")]
    Recall,
    /// From version 1.4. Say how the instrument itself is.
    #[cfg(feature = "upkeep")]
    Diagnose,
}

/// Why the instrument did not do as it was asked.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, MaxSize)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub enum Refusal {
    /// The load was moving.
    NotStable,
    /// The load is beyond the zero-setting range.
    BeyondZeroRange,
    /// The load is below zero, so it cannot be a tare.
    NegativeTare,
    /// A fault stops weighing.
    Faulty,
    /// The goal is senseless.
    Goal(GoalError),
    /// There is no run to stop.
    NoRun,
    /// The instrument does not know this command, or is made without what it
    /// asks for.
    Unknown,
    /// Not while a run goes on.
    Running,
    /// No calibration is going on.
    NotCalibrating,
    /// The points make no calibration.
    Calibration(CalibrationError),
    /// The test would say nothing.
    Test(SelfTestRefusal),
    /// The setting is outside its range.
    Setting,
}

impl core::fmt::Display for Refusal {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        match self {
            Self::NotStable => {
                f.write_str("the load was moving: wait until it is steady and ask again")
            }
            Self::BeyondZeroRange => {
                f.write_str("too much is on the pan to call it zero: empty it, or tare instead")
            }
            Self::NegativeTare => f.write_str("the load is below zero: empty the pan and zero it"),
            Self::Faulty => f.write_str("the scale has a fault that stops weighing"),
            Self::Goal(error) => error.fmt(f),
            Self::NoRun => f.write_str("no run is going on"),
            Self::Unknown => f.write_str(
                "this scale does not know that command: it is older than the program, or made without it",
            ),
            Self::Running => f.write_str("a run is going on: end it first"),
            Self::NotCalibrating => f.write_str("no calibration is going on: begin one first"),
            Self::Calibration(error) => error.fmt(f),
            Self::Test(refusal) => refusal.fmt(f),
            Self::Setting => f.write_str(
                "the place is nowhere on land: latitude -90 to 90 degrees, height -500 to 9000 m",
            ),
        }
    }
}

impl core::error::Error for Refusal {
    fn source(&self) -> Option<&(dyn core::error::Error + 'static)> {
        match self {
            Self::Goal(error) => Some(error),
            Self::Calibration(error) => Some(error),
            Self::Test(refusal) => Some(refusal),
            _ => None,
        }
    }
}
