//! What comes first of a dish: its doubt, else that much of it left outside its
//! tolerance, what was found, and the aim.

use super::{DishReview, FailedTest, Finding, PutRight};
use crate::spread::Spread;
use crate::statistics::ConclusionKind;
use crate::units::Ratio;
use evenhand_protocol::{Goal, Mass, Verdict};

/// What a cook is told first of a dish. The aim, or why there is none, is the
/// review's own.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lead {
    /// Why the weights are not to be relied on, where many are not.
    pub doubt: Option<LeadDoubt>,
    /// Where much of the dish left outside its tolerance.
    pub off: Option<OffTarget>,
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

/// Fewer portions out of tolerance than this say nothing of a dish.
const FEWEST_OFF: usize = 3;
/// One portion in so many out of tolerance, on one side, leads.
const ONE_IN: usize = 4;

/// A dish of which a quarter or more was short, or heavy, and which was so on
/// average. That is a count of the night, not a conclusion: it is in no rate of
/// false alarms.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct OffTarget {
    /// Short or heavy.
    pub verdict: Verdict,
    /// How many of the portions that can be relied on.
    pub portions: usize,
    /// How many those are.
    pub of: usize,
    /// How far their mean is from the target, on that side; above zero.
    pub by: Mass,
}

impl OffTarget {
    /// `None` where less of it was out of tolerance, or it was so on both sides
    /// alike.
    #[must_use]
    pub fn of(relied: &Spread, goal: Goal) -> Option<Self> {
        let of = relied.n();
        let above = relied.mean()? - goal.target();
        let (short, heavy) = (relied.count(Verdict::Short), relied.count(Verdict::Heavy));
        let (verdict, portions, by) = if short > heavy {
            (Verdict::Short, short, -above)
        } else {
            (Verdict::Heavy, heavy, above)
        };
        (portions >= FEWEST_OFF && portions * ONE_IN >= of && by > Mass::ZERO).then_some(Self {
            verdict,
            portions,
            of,
            by,
        })
    }
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
            off: OffTarget::of(&review.relied, review.goal),
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

#[cfg(test)]
mod tests {
    use super::*;
    use evenhand_protocol::Tolerance;

    fn night(grams: &[i64]) -> Option<OffTarget> {
        let tolerance = Tolerance::symmetric(Mass::from_grams(3));
        let goal = Goal::new(Mass::from_grams(100), tolerance).unwrap();
        let mut spread = Spread::new();
        for mass in grams {
            spread.add(Mass::from_grams(*mass), goal, None);
        }
        OffTarget::of(&spread, goal)
    }

    // By hand: the band is 97 to 103 g.
    #[test]
    fn what_left_outside_its_tolerance_is_counted_on_its_side() {
        let light = night(&[80, 81, 79, 80]).unwrap();
        assert_eq!(
            (light.verdict, light.portions, light.of, light.by),
            (Verdict::Short, 4, 4, Mass::from_grams(20))
        );
        let heavy = night(&[104, 104, 104, 100, 100, 100, 100, 100, 100, 100, 100, 100]).unwrap();
        assert_eq!(
            (heavy.verdict, heavy.portions, heavy.of, heavy.by),
            (Verdict::Heavy, 3, 12, Mass::from_grams(1))
        );
    }

    #[test]
    fn a_dish_within_its_tolerance_or_off_on_both_sides_is_not_off() {
        assert_eq!(night(&[]), None);
        assert_eq!(night(&[100, 99, 101, 97, 103]), None);
        // Two portions, and three in thirteen.
        assert_eq!(night(&[90, 90]), None);
        assert_eq!(night(&[&[104; 3][..], &[100; 10]].concat()), None);
        // As many short as heavy, about the target; more short, but heavy on average.
        assert_eq!(night(&[90, 90, 90, 110, 110, 110]), None);
        assert_eq!(night(&[96, 96, 96, 96, 130, 130, 130]), None);
    }
}
