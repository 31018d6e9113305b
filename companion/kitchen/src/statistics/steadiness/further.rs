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

/// How far nights may differ, as supposed before any is seen: as likely as
/// (1 + difference / `small`) to the power of -`falls`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Supposed {
    /// Above nought.
    pub(super) small: f64,
    /// One or more.
    pub(super) falls: f64,
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
    /// the nights. `None` where a variance is not above nought, or nothing tells
    /// the usual figure.
    pub(super) fn after(
        before: &[(f64, f64)],
        own: f64,
        supposed: Supposed,
        known: Option<f64>,
    ) -> Option<Self> {
        let positive = |value: f64| value > 0.0 && value.is_finite();
        if !positive(own)
            || !positive(supposed.small)
            || before.iter().any(|(_, own)| !positive(*own))
            || (before.is_empty() && known.is_none())
        {
            return None;
        }
        let cases: Vec<(f64, Case)> = (0..STEPS)
            .map(|step| supposed.case(step, before, own, known))
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

impl Supposed {
    /// One difference of nights, and the logarithm of how likely it is after the
    /// nights before.
    fn case(self, step: usize, before: &[(f64, f64)], own: f64, known: Option<f64>) -> (f64, Case) {
        let along = (step as f64 + 0.5) / STEPS as f64 * (1.0 + WIDEST / self.small).ln();
        let differ = (self.small * along.exp_m1()).powi(2);
        let weights: f64 = before.iter().map(|(_, own)| 1.0 / (differ + own)).sum();
        let sum: f64 = before
            .iter()
            .map(|(figure, own)| figure / (differ + own))
            .sum();
        let usual = known.unwrap_or(sum / weights);
        // Of even steps of the logarithm.
        let mut log = (1.0 - self.falls) * along;
        for (figure, own) in before {
            let variance = differ + own;
            log -= 0.5 * (variance.ln() + (figure - usual).powi(2) / variance);
        }
        let mut variance = differ + own;
        if known.is_none() {
            log -= 0.5 * weights.ln();
            variance += 1.0 / weights;
        }
        (
            log,
            Case {
                weight: 0.0,
                usual,
                variance,
            },
        )
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
            let supposed = Supposed { small: 1e-3, falls };
            let further = Further::after(&before, 1e-10, supposed, None).unwrap();
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
        };
        let further = Further::after(&before, 1.0, supposed, None).unwrap();
        assert!((further.within(0.95) - 1.959_964 * 1.2_f64.sqrt()).abs() < 0.01);
        assert!((further.deviate(2.0 * 1.2_f64.sqrt()) - 2.0).abs() < 0.01);
    }

    #[test]
    fn nothing_is_made_of_nothing() {
        let supposed = Supposed {
            small: 0.1,
            falls: 2.0,
        };
        assert_eq!(Further::after(&[], 1.0, supposed, None), None);
        assert_eq!(Further::after(&[(1.0, 1.0)], 0.0, supposed, None), None);
        assert_eq!(Further::after(&[(1.0, 0.0)], 1.0, supposed, None), None);
    }
}
