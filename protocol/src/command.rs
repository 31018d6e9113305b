//! Messages from the desktop to the instrument.

use crate::{Goal, GoalError, Mode, PortionId, RunId, UnixMillis, Version};
use serde::{Deserialize, Serialize};

/// What the desktop may ask. Each is answered by a
/// [`Report::Reply`](crate::Report::Reply) that cites the command's sequence
/// number, except [`Command::Hello`] (answered by a hello) and
/// [`Command::Acknowledge`] (not answered). A command sent again with the
/// sequence number of the last one is answered again and not carried out
/// again.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Command {
    /// Who calls. The first message on every connection.
    Hello {
        /// The version that the desktop speaks.
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
}

/// Why the instrument did not do as it was asked.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
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
    /// The instrument does not know this command.
    Unknown,
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
                "this instrument is older than the program and does not know that command",
            ),
        }
    }
}
