//! Which portions' weights can be relied on.

use super::FailedTest;
use crate::portion::RecordedPortion;
use evenhand_protocol::report::Doubts;

/// Why a portion's weight is not to be relied on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum WeightDoubt {
    /// It was weighed around a test of the scale that failed.
    FailedTest,
    /// It may be two portions.
    MaybeTwo,
    /// The tin was off the pan while it was taken.
    TakenOffPan,
    /// The instrument doubted it for another reason: something touched the pan,
    /// or the bench was restless.
    Instrument,
}

impl WeightDoubt {
    /// Every reason, the one that says most first.
    pub const ALL: [Self; 4] = [
        Self::FailedTest,
        Self::MaybeTwo,
        Self::TakenOffPan,
        Self::Instrument,
    ];

    /// Why a portion's weight is in doubt; `None` where nothing speaks against
    /// it. That a weight lies so near a limit that the verdict could be either
    /// is no doubt of the weight.
    #[must_use]
    pub fn of(portion: &RecordedPortion, failed_tests: &[FailedTest]) -> Option<Self> {
        if failed_tests
            .iter()
            .any(|failed| failed.place_of(portion).is_some())
        {
            return Some(Self::FailedTest);
        }
        let doubts = portion.doubts;
        if doubts.contains(Doubts::MAYBE_TWO) {
            Some(Self::MaybeTwo)
        } else if doubts.contains(Doubts::TAKEN_OFF_PAN) {
            Some(Self::TakenOffPan)
        } else if doubts.0 & !Doubts::STRADDLES_LIMIT.0 != 0 {
            Some(Self::Instrument)
        } else {
            None
        }
    }
}

/// How many portions are in doubt, by reason, and how many verdicts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct DoubtCounts {
    by_reason: [usize; 4],
    /// Weights that can be relied on, but so near a limit that the verdict
    /// could be either.
    pub straddling: usize,
}

impl DoubtCounts {
    pub(super) fn count(&mut self, doubt: WeightDoubt) {
        self.by_reason[doubt as usize] += 1;
    }

    /// How many are in doubt for this reason, its first.
    #[must_use]
    pub const fn of(&self, doubt: WeightDoubt) -> usize {
        self.by_reason[doubt as usize]
    }

    /// How many weights are in doubt.
    #[must_use]
    pub fn weights(&self) -> usize {
        self.by_reason.iter().sum()
    }
}
