//! What a figure of a further night may be, given those of the nights before.
//!
//! Nights are draws around one usual figure, each seen with an error that is
//! known: what its own portions give it. How much nights differ beyond that error
//! is not known, and a few nights show it badly, so everything is averaged over
//! what it may be, in proportion to how well it goes with the nights before (a
//! normal random-effects model; Gelman et al., Bayesian Data Analysis, 5.4, from
//! memory). Where nights differ by no more than their errors, this knows a usual
//! night far better than their scatter alone does.

use super::scores::{normal_quantile, upper_tail};

/// How finely the difference of nights is cut.
const STEPS: usize = 48;
/// The widest difference of nights reckoned with, in spreads.
const WIDEST: f64 = 30.0;
/// Below this, in spreads, differences are cut evenly; above it, their logarithm.
const FINE: f64 = 0.08;

/// The logarithm of how well each difference of nights, in spreads, goes with some
/// nights.
pub(super) type Told = [f64; STEPS];
/// Where other nights tell nothing of these.
pub(super) const NOTHING_BORROWED: Told = [0.0; STEPS];

/// How far nights may differ, as supposed before any is seen: as likely as
/// (1 + difference / `small`) to the power of -`falls`, both in spreads.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Supposed {
    /// Above nought.
    pub(super) small: f64,
    /// One or more.
    pub(super) falls: f64,
    /// One spread, in the unit of the figures; above nought.
    pub(super) spread: f64,
}

/// What a further night's figure may be.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Further {
    cases: Vec<Case>,
    usual: f64,
    variance: f64,
}

/// One difference of nights: how likely it is, the usual figure that goes with
/// it, and the variance of a further night about that.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Case {
    weight: f64,
    usual: f64,
    variance: f64,
}

impl Further {
    /// From nights before, each figure with the variance of its own error; `own`
    /// is that of the further one. The usual figure is `known`, or taken from
    /// the nights. What is `borrowed` counts with what these nights tell. `None` where a variance is not above nought, or nothing tells
    /// the usual figure.
    pub(super) fn after(
        before: &[(f64, f64)],
        own: f64,
        supposed: Supposed,
        known: Option<f64>,
        borrowed: &Told,
    ) -> Option<Self> {
        let positive = |value: f64| value > 0.0 && value.is_finite();
        if !positive(own)
            || !positive(supposed.small)
            || !positive(supposed.spread)
            || before.iter().any(|(_, own)| !positive(*own))
            || (before.is_empty() && known.is_none())
        {
            return None;
        }
        let cases: Vec<(f64, Case)> = (0..STEPS)
            .zip(borrowed)
            .map(|(step, borrowed)| {
                let (told, case) = Case::of(step, supposed.spread, before, own, known);
                (told + borrowed + supposed.likely(step), case)
            })
            .collect();
        let best = cases.iter().map(|(log, _)| *log).fold(f64::MIN, f64::max);
        let all: f64 = cases.iter().map(|(log, _)| (log - best).exp()).sum();
        let cases: Vec<Case> = cases
            .into_iter()
            .map(|(log, case)| Case {
                weight: (log - best).exp() / all,
                ..case
            })
            .collect();
        let usual: f64 = cases.iter().map(|case| case.weight * case.usual).sum();
        let variance = cases
            .iter()
            .map(|case| case.weight * (case.variance + (case.usual - usual).powi(2)))
            .sum();
        Some(Self {
            cases,
            usual,
            variance,
        })
    }

    /// The usual figure.
    pub(super) const fn usual(&self) -> f64 {
        self.usual
    }

    /// One standard deviation of a further figure.
    pub(super) fn deviation(&self) -> f64 {
        self.variance.sqrt()
    }

    /// The chance of a figure above this one.
    fn above(&self, figure: f64) -> f64 {
        self.cases
            .iter()
            .map(|case| case.weight * upper_tail((figure - case.usual) / case.variance.sqrt()))
            .sum::<f64>()
            .clamp(0.0, 1.0)
    }

    /// The chance of a figure as far from the usual, either way.
    pub(super) fn chance(&self, figure: f64) -> f64 {
        let above = self.above(figure);
        (2.0 * above.min(1.0 - above)).min(1.0)
    }

    /// The normal deviate as unlikely as this figure, with its sign.
    pub(super) fn deviate(&self, figure: f64) -> f64 {
        -normal_quantile(self.above(figure).clamp(1e-15, 1.0 - 1e-15))
    }

    /// The average of something that depends on a further figure's standard
    /// deviation.
    pub(super) fn averaged(&self, of: impl Fn(f64) -> f64) -> f64 {
        self.cases
            .iter()
            .map(|case| case.weight * of(case.variance.sqrt()))
            .sum()
    }

    /// How far from the usual a further figure lies at most, with this
    /// probability.
    pub(super) fn within(&self, probability: f64) -> f64 {
        let (mut low, mut high) = (0.0, 50.0 * self.deviation());
        for _ in 0..60 {
            let middle = f64::midpoint(low, high);
            if self.chance(self.usual + middle) > 1.0 - probability {
                low = middle;
            } else {
                high = middle;
            }
        }
        high
    }
}

/// How far nights differ by some of them, whatever was supposed: for
/// [`Further::after`] of other nights.
pub(super) fn told_by(before: &[(f64, f64)], spread: f64) -> Told {
    core::array::from_fn(|step| Case::of(step, spread, before, 0.0, None).0)
}

/// How far along the cut one difference of nights is, and that difference in
/// spreads.
fn difference(step: usize) -> (f64, f64) {
    let along = (step as f64 + 0.5) / STEPS as f64 * (1.0 + WIDEST / FINE).ln();
    (along, FINE * along.exp_m1())
}

impl Supposed {
    /// The logarithm of how likely one difference of nights is before any is seen.
    fn likely(self, step: usize) -> f64 {
        let (along, difference) = difference(step);
        // Of even steps of the logarithm.
        along - self.falls * (difference / self.small).ln_1p()
    }
}

impl Case {
    /// One difference of nights, and the logarithm of how well it goes with the
    /// nights before.
    fn of(
        step: usize,
        spread: f64,
        before: &[(f64, f64)],
        own: f64,
        known: Option<f64>,
    ) -> (f64, Self) {
        let differ = (difference(step).1 * spread).powi(2);
        let weights: f64 = before.iter().map(|(_, own)| 1.0 / (differ + own)).sum();
        let sum: f64 = before
            .iter()
            .map(|(figure, own)| figure / (differ + own))
            .sum();
        let usual = known.unwrap_or(sum / weights);
        let mut told = 0.0;
        for (figure, own) in before {
            let variance = differ + own;
            told -= 0.5 * (variance.ln() + (figure - usual).powi(2) / variance);
        }
        let mut variance = differ + own;
        if known.is_none() {
            told -= 0.5 * weights.ln();
            variance += 1.0 / weights;
        }
        let case = Self {
            weight: 0.0,
            usual,
            variance,
        };
        (told, case)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use statrs::distribution::{ContinuousCDF, StudentsT};

    // Where the nights' own errors are next to nothing, a difference supposed as its
    // power of -p gives Student's t of m - 2 + p degrees around the mean of m nights,
    // by the normal theory (Gelman et al., 3.2; from memory).
    #[test]
    fn nights_seen_without_error_give_students_t() {
        let figures = [1.2, -0.4, 2.0, 0.3, -1.1, 0.8, 1.6];
        let m = figures.len() as f64;
        let mean = figures.iter().sum::<f64>() / m;
        let squares: f64 = figures.iter().map(|f| (f - mean).powi(2)).sum();
        let before = figures.map(|figure| (figure, 1e-10));
        for falls in [1.0, 2.0] {
            let supposed = Supposed {
                small: 1e-3,
                falls,
                spread: 1.0,
            };
            let further =
                Further::after(&before, 1e-10, supposed, None, &NOTHING_BORROWED).unwrap();
            let degrees = m - 2.0 + falls;
            let scale = (squares / degrees * (1.0 + 1.0 / m)).sqrt();
            let t = StudentsT::new(0.0, 1.0, degrees).unwrap();
            for away in [0.5, 1.5, 3.0, 5.0] {
                let theirs = 2.0 * t.sf(away / scale);
                let ours = further.chance(mean + away);
                assert!((ours / theirs - 1.0).abs() < 0.02, "{ours} {theirs}");
            }
        }
    }

    // With no difference of nights in the record or supposed, a normal prediction:
    // variances of a further night and of the mean of the nights before add.
    #[test]
    fn nights_that_do_not_differ_are_known_by_their_errors() {
        let before = [0.0, 0.1, -0.1, 0.05, -0.05].map(|figure| (figure, 1.0));
        let supposed = Supposed {
            small: 1e-3,
            falls: 4.0,
            spread: 1.0,
        };
        let further = Further::after(&before, 1.0, supposed, None, &NOTHING_BORROWED).unwrap();
        assert!((further.within(0.95) - 1.959_964 * 1.2_f64.sqrt()).abs() < 0.01);
        assert!((further.deviate(2.0 * 1.2_f64.sqrt()) - 2.0).abs() < 0.01);
    }

    #[test]
    fn nothing_is_made_of_nothing() {
        let supposed = Supposed {
            small: 0.1,
            falls: 2.0,
            spread: 1.0,
        };
        let after =
            |before: &[_], own| Further::after(before, own, supposed, None, &NOTHING_BORROWED);
        assert_eq!(after(&[], 1.0), None);
        assert_eq!(after(&[(1.0, 1.0)], 0.0), None);
        assert_eq!(after(&[(1.0, 0.0)], 1.0), None);
    }

    // Nights of two dishes count as nights of one where what one tells is borrowed
    // whole; a usual figure of its own for each takes one night away.
    #[test]
    fn what_is_borrowed_counts_as_nights_do() {
        let own = 1e-10;
        let before = [0.6, -0.4, -0.2].map(|figure| (figure, own));
        let others = [5.2, 4.1, 4.8, 5.5, 5.4].map(|figure| (figure, own));
        let supposed = Supposed {
            small: 1e-3,
            falls: 1.0,
            spread: 1.0,
        };
        let told = told_by(&others, 1.0);
        let further = Further::after(&before, own, supposed, None, &told).unwrap();
        // By hand: squares about both means, 2 + 4 of them free.
        let squares = 0.56 + 1.3;
        let scale = (squares / 6.0 * (1.0 + 1.0 / 3.0_f64)).sqrt();
        let t = StudentsT::new(0.0, 1.0, 6.0).unwrap();
        for away in [0.5, 1.0, 2.0] {
            let theirs = 2.0 * t.sf(away / scale);
            let ours = further.chance(away);
            assert!((ours / theirs - 1.0).abs() < 0.03, "{ours} {theirs}");
        }
    }
}
