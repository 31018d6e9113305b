//! Corrections of a log: added beside it, never written over it.

use super::log::{HeatLog, LogPoint};
use evenhand_protocol::Temperature;
use jiff::Timestamp;

/// What is wrong with a stretch of a log.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Amendment {
    /// The probe was not where the log says: its readings do not count and
    /// leave a gap.
    LeaveOut,
    /// The probe read wrong by as much: the difference to add, written as a
    /// temperature counted from 0 °C.
    Add(Temperature),
}

/// A correction in force.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Correction {
    /// The first moment that it touches
    pub from: Timestamp,
    /// and the last.
    pub to: Timestamp,
    /// What is wrong.
    pub what: Amendment,
    /// Why, in the cook's words.
    pub reason: String,
}

/// A correction made no sense.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum CorrectionError {
    /// It ends before it begins.
    #[error("the correction ends at {to}, before it begins at {from}")]
    Reversed {
        /// Its beginning.
        from: Timestamp,
        /// Its end.
        to: Timestamp,
    },
    /// No reason was given.
    #[error("the reason is empty: say why the log is corrected")]
    NoReason,
    /// A probe wrong by more than 50 °C is broken, not off.
    #[error(
        "the difference is {0} degC, expected -50 to 50 degC and not 0: leave the stretch out instead"
    )]
    TooMuch(String),
}

impl CorrectionError {
    /// A name for it that does not change.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::Reversed { .. } => "reversed",
            Self::NoReason => "no-reason",
            Self::TooMuch(_) => "too-much",
        }
    }
}

impl Correction {
    /// A correction.
    ///
    /// # Errors
    /// [`CorrectionError`] where the end lies before the beginning, the reason
    /// is empty, or the difference is nothing or more than 50 °C.
    pub fn new(
        from: Timestamp,
        to: Timestamp,
        what: Amendment,
        reason: &str,
    ) -> Result<Self, CorrectionError> {
        if to < from {
            return Err(CorrectionError::Reversed { from, to });
        }
        if reason.trim().is_empty() {
            return Err(CorrectionError::NoReason);
        }
        if let Amendment::Add(by) = what
            && !(1..=50_000).contains(&by.millicelsius().unsigned_abs())
        {
            return Err(CorrectionError::TooMuch(by.celsius().to_string()));
        }
        Ok(Self {
            from,
            to,
            what,
            reason: reason.trim().to_owned(),
        })
    }

    fn touches(&self, point: &LogPoint) -> bool {
        (self.from..=self.to).contains(&point.at)
    }
}

impl HeatLog {
    /// The log with corrections: what is left out becomes a gap, what is off
    /// is moved. Differences add up where corrections overlap. A reading moved
    /// beyond what any probe reads is left out.
    #[must_use]
    pub fn corrected(&self, corrections: &[Correction]) -> Self {
        let mut log = Self::new(self.name.clone());
        log.longest_step = self.longest_step;
        log.doubt = self.doubt;
        log.markers.clone_from(&self.markers);
        for point in self.points() {
            if self.follows_break(point) {
                log.break_here();
            }
            let moved = corrections
                .iter()
                .filter(|c| c.touches(point))
                .try_fold(point.temperature.celsius(), |celsius, c| match c.what {
                    Amendment::LeaveOut => None,
                    Amendment::Add(by) => Some(celsius + by.celsius()),
                })
                .and_then(Temperature::from_celsius);
            let taken = moved.is_some_and(|temperature| {
                log.push(LogPoint {
                    at: point.at,
                    temperature,
                })
                .is_ok()
            });
            if !taken {
                log.break_here();
            }
        }
        log
    }
}
