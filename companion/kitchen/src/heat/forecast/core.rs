//! The middle of a plate, a cylinder or a sphere that goes into an oven or a
//! cold store.
//!
//! Its temperature excess is a series of exponentials in the Fourier number
//! (F. P. Incropera and D. P. DeWitt, Fundamentals of Heat and Mass Transfer,
//! sections 5.5 and 5.6, from memory): with ζₙ the roots of ζ tan ζ = Bi for a
//! plate, ζ J₁(ζ) = Bi J₀(ζ) for a cylinder, 1 − ζ cot ζ = Bi for a sphere.

use std::sync::LazyLock;

/// A shape and how well its surface takes heat: squares of the roots and the
/// coefficients of the series at the middle.
#[derive(Debug, Clone)]
pub(super) struct Core {
    terms: Vec<(f64, f64)>,
}

/// Biot numbers looked at; the first stands for a surface that is at the
/// oven's temperature at once.
const BIOT: [f64; 4] = [1e4, 6.0, 2.0, 0.7];
const TERMS: usize = 7;
/// Before this Fourier number less than one part in ten thousand has come to
/// the middle of any of them (erfc of 1 / (2 √Fo)), and the series is too short.
const UNTOUCHED: f64 = 0.02;

/// Plates, cylinders and spheres at every [`BIOT`].
pub(super) static CORES: LazyLock<Vec<Core>> = LazyLock::new(|| {
    BIOT.iter()
        .flat_map(|biot| {
            [
                Core::of(
                    |z| z * z.sin() - biot * z.cos(),
                    |z| 4.0 * z.sin() / (2.0 * z + (2.0 * z).sin()),
                ),
                Core::of(
                    |z| z * bessel(1, z) - biot * bessel(0, z),
                    |z| {
                        let (j0, j1) = (bessel(0, z), bessel(1, z));
                        2.0 * j1 / (z * (j0 * j0 + j1 * j1))
                    },
                ),
                Core::of(
                    |z| (1.0 - biot) * z.sin() - z * z.cos(),
                    |z| 4.0 * (z.sin() - z * z.cos()) / (2.0 * z - (2.0 * z).sin()),
                ),
            ]
        })
        .collect()
});

impl Core {
    fn of(root: impl Fn(f64) -> f64, coefficient: impl Fn(f64) -> f64) -> Self {
        let mut terms = Vec::with_capacity(TERMS);
        let width = 0.05;
        let mut left = width;
        while terms.len() < TERMS {
            let (mut low, mut high) = (left, left + width);
            left = high;
            if root(low) * root(high) > 0.0 {
                continue;
            }
            for _ in 0..50 {
                let middle = f64::midpoint(low, high);
                if root(low) * root(middle) > 0.0 {
                    low = middle;
                } else {
                    high = middle;
                }
            }
            terms.push((low * low, coefficient(low)));
        }
        Self { terms }
    }

    /// How much of the way the middle has gone after a time in units of the
    /// slowest exponential's.
    pub fn gone(&self, time: f64) -> f64 {
        let slowest = self.terms[0].0;
        if time < UNTOUCHED * slowest {
            return 0.0;
        }
        let last = self.terms.len() - 1;
        let left: f64 = self
            .terms
            .iter()
            .enumerate()
            // The terms alternate: half the last one is nearer than all of it.
            .map(|(n, (square, c))| {
                let share = if n == last { 0.5 } else { 1.0 };
                share * c * (-square / slowest * time).exp()
            })
            .sum();
        (1.0 - left).clamp(0.0, 1.0)
    }
}

/// The Bessel function of the first kind by its power series, which does up to
/// the seventh root (M. Abramowitz and I. A. Stegun, 9.1.10).
fn bessel(order: u32, z: f64) -> f64 {
    let half = z / 2.0;
    let mut term = if order == 0 { 1.0 } else { half };
    let mut sum = term;
    for k in 1..80_u32 {
        term *= -half * half / (f64::from(k) * f64::from(k + order));
        sum += term;
    }
    sum
}

#[cfg(test)]
mod tests {
    use super::*;

    // Incropera and DeWitt, table 5.1 (from memory): Bi = 1.0: plate 0.8603 and 1.1191, cylinder
    // 1.2558 and 1.2071, sphere 1.5708 and 1.2732. Abramowitz and Stegun, table 9.5: the first
    // zero of J0 is 2.404826.
    #[test]
    fn the_first_terms_are_the_tables() {
        let plate = Core::of(
            |z| z * z.sin() - z.cos(),
            |z| 4.0 * z.sin() / (2.0 * z + (2.0 * z).sin()),
        );
        assert!((plate.terms[0].0.sqrt() - 0.8603).abs() < 1e-4);
        assert!((plate.terms[0].1 - 1.1191).abs() < 1e-4);
        let (root, coefficient) = CORES[1].terms[0];
        assert!((root.sqrt() - 2.404_826).abs() < 1e-3, "{root}");
        assert!((coefficient - 1.6020).abs() < 1e-3, "{coefficient}");
        let (root, coefficient) = CORES[2].terms[0];
        assert!((root.sqrt() - std::f64::consts::PI).abs() < 1e-3);
        assert!((coefficient - 2.0).abs() < 1e-3);
    }

    // A plate whose surface is at once at the oven's temperature: at a Fourier number of 0.2 the
    // first term alone is within 2 % (Incropera and DeWitt, 5.5.2, from memory); before anything
    // reached the middle nothing is gone.
    #[test]
    fn nothing_is_gone_at_first() {
        for core in CORES.iter() {
            assert!(core.gone(0.05) < 0.05, "{}", core.gone(0.05));
            assert!(core.gone(0.0) < 1e-4);
            assert!(core.gone(20.0) > 0.999);
        }
        let plate = &CORES[0];
        let fourier = 0.2 * plate.terms[0].0;
        let first = 1.0 - plate.terms[0].1 * (-fourier).exp();
        assert!((plate.gone(fourier) - first).abs() < 0.02);
    }
}
