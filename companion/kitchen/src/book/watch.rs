//! Which way the record leans: what whoever takes over is told to watch.

use crate::units::Ratio;
use statrs::distribution::{ContinuousCDF, StudentsT};

/// Services or batches that are needed before anything is said of them.
pub const LEAST_FOR_LEAN: usize = 4;
/// What is smaller is not told, however sure: a hundredth.
const NOT_WORTH_TELLING: f64 = 0.01;
/// How often a record that does not lean is said to, at most: 2 in a hundred to
/// either side.
const FALSE: f64 = 0.04;

/// By how much something is usually more, or less, than it is to be.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lean {
    /// The mean, of what it is to be; below nothing where it is less.
    pub mean: Ratio,
    /// The lower end of its interval, which holds 96 times in a hundred where
    /// services differ as the normal distribution has it,
    pub low: Ratio,
    /// and the upper end.
    pub high: Ratio,
    /// From how many services or batches.
    pub of: usize,
}

impl Lean {
    /// From one figure for each service or batch, by how much of itself it was
    /// more than it is to be. `None` where there are too few, or nothing that
    /// stands apart from chance and is worth telling. Student's t: services
    /// count as one each, however many portions they had, as portions of one
    /// evening are alike.
    #[must_use]
    pub fn of(figures: &[f64]) -> Option<Self> {
        let n = figures.len();
        if n < LEAST_FOR_LEAN {
            return None;
        }
        let mean = figures.iter().sum::<f64>() / n as f64;
        let squares: f64 = figures.iter().map(|figure| (figure - mean).powi(2)).sum();
        let freedom = (n - 1) as f64;
        let student = StudentsT::new(0.0, 1.0, freedom).ok()?;
        let half = student.inverse_cdf(1.0 - FALSE / 2.0) * (squares / freedom / n as f64).sqrt();
        let (low, high) = (mean - half, mean + half);
        if mean.abs() < NOT_WORTH_TELLING || (low <= 0.0 && high >= 0.0) {
            return None;
        }
        Some(Self {
            mean: Ratio::new(mean)?,
            low: Ratio::new(low)?,
            high: Ratio::new(high)?,
            of: n,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use rand_chacha::ChaCha8Rng;
    use rand_core::SeedableRng;
    use rand_distr::{Distribution, Normal, StudentT};

    // Mean 3 %, s = 1 %, n = 4: t(0.98; 3) = 3.482 (a table of Student's t, from memory), times s / 2 is 1.74 %.
    #[test]
    fn a_lean_is_told_with_its_interval() {
        let lean = Lean::of(&[0.02, 0.03, 0.04, 0.03 + 1e-12]).unwrap();
        let deviation = (2.0_f64 / 3.0).sqrt() * 0.01;
        assert!((lean.mean.percent() - 3.0).abs() < 1e-6);
        assert!(
            (lean.low.fraction() - (0.03 - 3.482 * deviation / 2.0)).abs() < 1e-4,
            "{lean:?}"
        );
        assert_eq!(Lean::of(&[0.02, 0.03, 0.04]), None);
        assert_eq!(Lean::of(&[0.009; 10]), None);
        assert_eq!(Lean::of(&[-0.05, 0.09, 0.02, 0.04]), None);
    }

    // 3000 records that do not lean: 4 % has a standard error of 0.36 in a hundred.
    #[test]
    fn a_record_that_does_not_lean_is_rarely_said_to() {
        let mut rng = ChaCha8Rng::seed_from_u64(4);
        for services in [4, 8, 20] {
            let (mut even, mut wild) = (0, 0);
            for _ in 0..3000 {
                let normal = Normal::new(0.0, 0.04).unwrap();
                let figures: Vec<f64> = (0..services).map(|_| normal.sample(&mut rng)).collect();
                even += u32::from(Lean::of(&figures).is_some());
                let t = StudentT::new(4.0).unwrap();
                let figures: Vec<f64> = (0..services).map(|_| 0.04 * t.sample(&mut rng)).collect();
                wild += u32::from(Lean::of(&figures).is_some());
            }
            println!("{services} services: {even} and {wild} of 3000");
            assert!(even <= 155 && wild <= 155, "{services}: {even} {wild}");
        }
    }
}
