//! What comes first of a dish: its doubt, else what was found, and the aim.

use super::{DishReview, FailedTest, Finding, PutRight};
use crate::statistics::ConclusionKind;
use crate::units::Ratio;

/// What a cook is told first of a dish. The aim, or why there is none, is the
/// review's own.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lead {
    /// Why the weights are not to be relied on, where many are not.
    pub doubt: Option<LeadDoubt>,
    /// The one finding that matters most.
    pub finding: Option<Finding>,
}

/// A doubt that goes before everything else.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum LeadDoubt {
    /// The scale read wrong.
    ScaleOff {
        /// How much too much it read, of the load; negative too little.
        over: Ratio,
        /// What put it right; `None` where nothing has.
        put_right: Option<PutRight>,
        /// How many of the portions were weighed around that.
        portions: usize,
    },
    /// Some weights lie far from all the others.
    Far {
        /// How many.
        portions: usize,
    },
    /// The instrument doubts more than one weight in ten.
    Weights {
        /// How many.
        portions: usize,
    },
}

impl Lead {
    /// What comes first of a dish. `failed_tests` are those that touch its
    /// portions.
    #[must_use]
    pub fn of(review: &DishReview, failed_tests: &[FailedTest]) -> Self {
        let scale = failed_tests
            .iter()
            .max_by_key(|failed| failed.before + failed.after)
            .filter(|failed| failed.before + failed.after > 0);
        let doubt = match scale {
            Some(failed) => {
                let test = &failed.test;
                Ratio::new(test.error().grams() / test.known.grams()).map(|over| {
                    LeadDoubt::ScaleOff {
                        over,
                        put_right: failed.put_right,
                        portions: failed.before + failed.after,
                    }
                })
            }
            None => {
                let (portions, far) = (review.doubts.weights(), review.far.len());
                if portions * 10 > review.spread.n() {
                    Some(LeadDoubt::Weights { portions })
                } else {
                    (far > 0).then_some(LeadDoubt::Far { portions: far })
                }
            }
        };
        Self {
            doubt,
            finding: review
                .findings
                .iter()
                .min_by_key(|finding| weight(finding.conclusion.kind))
                .copied(),
        }
    }
}

/// What matters most first: what can be mended on the night, then what the night
/// was.
const fn weight(kind: ConclusionKind) -> usize {
    match kind {
        ConclusionKind::LeftUsual => 0,
        ConclusionKind::Moved => 1,
        ConclusionKind::OffUsual => 2,
        ConclusionKind::EvennessMoved => 3,
        ConclusionKind::EvennessOffUsual => 4,
    }
}
