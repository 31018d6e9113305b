//! Which portions' weights can be relied on.

use super::FailedTest;
use crate::portion::RecordedPortion;
use crate::spread::Spread;
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
        Self::of_instrument(portion.doubts)
    }

    /// Why the instrument itself doubts a weight; `None` where it does not.
    #[must_use]
    pub const fn of_instrument(doubts: Doubts) -> Option<Self> {
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
    /// Counts so many more in doubt for this reason.
    pub const fn count(&mut self, doubt: WeightDoubt, portions: usize) {
        self.by_reason[doubt as usize] += portions;
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

    /// Counts everything that another count has as well.
    pub fn merge(&mut self, other: &Self) {
        for (count, more) in self.by_reason.iter_mut().zip(other.by_reason) {
            *count += more;
        }
        self.straddling += other.straddling;
    }
}

/// The spread of portions with and without those whose weight is in doubt.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct DoubtedSpread {
    /// Of all that count.
    pub all: Spread,
    /// Of those only whose weight can be relied on.
    pub relied: Spread,
    /// How many are in doubt, and why.
    pub doubts: DoubtCounts,
}

impl DoubtedSpread {
    /// Those of one standing: all in doubt for one reason, or relied on, where they may
    /// be so near a limit that the verdict could be either.
    #[must_use]
    pub fn of(spread: Spread, doubt: Option<WeightDoubt>, straddling: bool) -> Self {
        let mut doubts = DoubtCounts::default();
        let relied = match doubt {
            Some(doubt) => {
                doubts.count(doubt, spread.n());
                Spread::new()
            }
            None => spread.clone(),
        };
        if doubt.is_none() && straddling {
            doubts.straddling = spread.n();
        }
        Self {
            all: spread,
            relied,
            doubts,
        }
    }

    /// Those that count, each held against the failed tests of the scale.
    #[must_use]
    pub fn of_portions<'p>(
        portions: impl IntoIterator<Item = &'p RecordedPortion>,
        failed_tests: &[FailedTest],
    ) -> Self {
        let mut doubted = Self::default();
        for portion in portions.into_iter().filter(|portion| portion.counts()) {
            let doubt = WeightDoubt::of(portion, failed_tests);
            let one = Spread::of([portion]);
            doubted.merge(&Self::of(one, doubt, portion.straddles_limit()));
        }
        doubted
    }

    /// Counts everything that another one counts as well.
    pub fn merge(&mut self, other: &Self) {
        self.all.merge(&other.all);
        self.relied.merge(&other.relied);
        self.doubts.merge(&other.doubts);
    }
}
