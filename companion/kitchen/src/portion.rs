//! Portions as they are kept.

use crate::dish::DishName;
use crate::units::Reason;
use crate::units::{CostPerMass, InputError};
use crate::written_name::one_spelling;
use evenhand_protocol::report::Doubts;
use evenhand_protocol::{
    DeviceId, Epoch, Goal, Mass, Mode, PortionId, RunId, Temperature, Verdict,
};
use jiff::Timestamp;

/// Reads a portion's identity as it is printed: `DEVICE-EPOCH-NUMBER`, the
/// first two in hexadecimal. `field` says where it was typed, for the error.
///
/// # Errors
/// Anything else.
pub fn parse_portion_id(field: &str, text: &str) -> Result<PortionId, InputError> {
    let parse = || {
        let mut parts = text.trim().split('-');
        let device = u64::from_str_radix(parts.next()?, 16).ok()?;
        let epoch = u32::from_str_radix(parts.next()?, 16).ok()?;
        let number = parts.next()?.parse().ok()?;
        parts.next().is_none().then_some(PortionId {
            device: DeviceId(device),
            epoch: Epoch(epoch),
            number,
        })
    };
    parse().ok_or_else(|| {
        InputError::new(
            field,
            text,
            problem!("not-portion-id"),
            expected!("portion-id"),
        )
    })
}

/// How a portion's time is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum TimeSource {
    /// The instrument knew the wall's clock when it captured the portion.
    Instrument,
    /// Computed from the instrument's uptime, in the same start of it.
    Uptime,
    /// No instrument's: as the table said that it was brought in from.
    Imported,
    /// The instrument had restarted before the portion could be dated: this is
    /// when it was recorded, and it was captured before that.
    Recorded,
}

/// Why a portion does not count, in the cook's words: one to two hundred
/// characters.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StrikeReason(String);

impl StrikeReason {
    /// A reason. `field` says where it was typed, for the error.
    ///
    /// # Errors
    /// An empty reason, or one longer than two hundred characters.
    pub fn new(field: &str, text: &str) -> Result<Self, InputError> {
        let wrong = |problem: Reason| InputError::new(field, text, problem, expected!("reason"));
        let reason: String = one_spelling(text)
            .chars()
            .filter(|c| !c.is_control())
            .collect();
        if reason.is_empty() {
            return Err(wrong(problem!("empty")));
        }
        if reason.chars().count() > 200 {
            return Err(wrong(problem!("too-long", longest = 200)));
        }
        Ok(Self(reason))
    }

    /// The reason of a portion undone right after it was made.
    #[must_use]
    pub fn undone() -> Self {
        Self("undone".to_owned())
    }

    /// The reason's words.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

/// That a portion was struck out: it stays on record and counts no more.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Struck {
    /// Why.
    pub reason: StrikeReason,
    /// When.
    pub at: Timestamp,
}

/// A portion on record.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RecordedPortion {
    /// Which portion it is, for ever.
    pub id: PortionId,
    /// The run it belongs to.
    pub run: RunId,
    /// What it is of. `None` where the run was begun by another store.
    pub dish: Option<DishName>,
    /// How it was made.
    pub mode: Mode,
    /// The food in it.
    pub mass: Mass,
    /// What it should have weighed.
    pub goal: Goal,
    /// When it was captured, as well as that is known.
    pub time: Timestamp,
    /// How that is known.
    pub time_source: TimeSource,
    /// The probe's temperature at capture.
    pub temperature: Option<Temperature>,
    /// Doubts that the instrument had.
    pub doubts: Doubts,
    /// Expanded uncertainty of `mass` (coverage factor 2), where the
    /// instrument stated one.
    pub uncertainty: Option<Mass>,
    /// What was left on the pan after it: the tin, when taking.
    pub left: Option<Mass>,
    /// What its food costs on the plate, where it is known: its tin's price with
    /// every loss laid on what can be served, else its
    /// dish's cost.
    pub cost: Option<CostPerMass>,
    /// Struck out, with the reason.
    pub struck: Option<Struck>,
    /// The earlier portion that this one corrects.
    pub replaces: Option<PortionId>,
    /// The later portion that corrects this one.
    pub replaced_by: Option<PortionId>,
}

impl RecordedPortion {
    /// How its mass stands against its goal.
    #[must_use]
    pub fn verdict(&self) -> Verdict {
        self.goal.judge(self.mass)
    }

    /// Whether it counts: neither struck out nor corrected by a later one.
    #[must_use]
    pub fn counts(&self) -> bool {
        self.struck.is_none() && self.replaced_by.is_none()
    }

    /// Whether its uncertainty reaches over a limit of its tolerance, so that
    /// the verdict could be either (JCGM 100: the interval of coverage factor
    /// 2). Of a portion without a stated uncertainty the instrument's own word
    /// is taken.
    #[must_use]
    pub fn straddles_limit(&self) -> bool {
        straddles_limit(self.mass, self.goal, self.uncertainty, self.doubts)
    }

    /// What was given away with it: its mass above the target, or nothing.
    #[must_use]
    pub fn given_away(&self) -> Mass {
        (self.mass - self.goal.target()).max(Mass::ZERO)
    }
}

/// As [`RecordedPortion::straddles_limit`], of a portion told by its figures.
#[must_use]
pub fn straddles_limit(mass: Mass, goal: Goal, uncertainty: Option<Mass>, doubts: Doubts) -> bool {
    uncertainty.map_or(doubts.contains(Doubts::STRADDLES_LIMIT), |uncertainty| {
        goal.judge(mass - uncertainty) != goal.judge(mass + uncertainty)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_id_reads_back_as_it_is_printed() {
        let id = PortionId {
            device: DeviceId(0xa1b2_c3d4_e5f6_0718),
            epoch: Epoch(0xdead_beef),
            number: 17,
        };
        assert_eq!(parse_portion_id("ID", &id.to_string()), Ok(id));
        for bad in ["", "17", "a1-1", "a1-1-x", "a1-1-2-3", "xyz-1-2", "a1-1--2"] {
            assert!(parse_portion_id("ID", bad).is_err(), "{bad:?}");
        }
    }

    #[test]
    fn a_reason_is_asked_for_and_kept_short() {
        assert_eq!(
            StrikeReason::new("--reason", " fell \n down ")
                .unwrap()
                .as_str(),
            "fell down"
        );
        assert!(StrikeReason::new("--reason", " ").is_err());
        assert!(StrikeReason::new("--reason", &"x".repeat(201)).is_err());
    }
}
