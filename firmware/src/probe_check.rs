//! Checking a probe against ice and against boiling water.
//!
//! Melting ice is at 0 °C, and water boils at a temperature that the pressure
//! of the air decides. A probe that is held in one of them until it rests
//! either reads what it should, within a limit, or is told how far it is out.
//!
//! - **Ice**: crushed ice, filled up with water, stirred; the tip in the middle
//!   and off the walls (common practice, no source).
//! - **Boiling water**: a rolling boil, the tip in the water and off the bottom;
//!   the pressure of the air, or the height of the place. Fresh water: salt
//!   raises the boiling point.
//!
//! The check says what was measured against which limit. It does not say that
//! food is safe, and it says nothing about temperatures far from the two points.
//!
//! ```
//! use evenhand_firmware::probe_check::{Bath, Difference, Outcome, Progress, ProbeCheck};
//! use evenhand_firmware::sensor::ProbeSample;
//! use evenhand_protocol::{Temperature, Uptime};
//!
//! let mut check = ProbeCheck::new(Bath::Ice, Difference::ONE_DEGREE);
//! let sample = ProbeSample {
//!     hot: Temperature::from_millicelsius(1_750),
//!     cold: Temperature::from_millicelsius(24_000),
//! };
//! let verdict = (0..200).find_map(|n| match check.add(Uptime::from_millis(n * 125), sample) {
//!     Progress::Done(verdict) => Some(verdict),
//!     Progress::Settling => None,
//! });
//! let verdict = verdict.unwrap();
//! assert_eq!(verdict.outcome, Outcome::Outside);
//! assert_eq!(verdict.error, Difference::from_millidegrees(1_750));
//! ```

mod boiling;

pub use boiling::{AirPressure, Height};

use evenhand_protocol::{Temperature, Uptime};

use crate::sensor::ProbeSample;

/// A difference of temperatures in whole thousandths of a degree Celsius.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Difference(i32);

impl Difference {
    /// The limit that the US FDA Food Code sets for food thermometers: ±1 °C in
    /// the range of use (2022, 4-203.11; from memory). Local codes go first.
    pub const ONE_DEGREE: Self = Self(1_000);

    /// A difference of so many thousandths of a degree Celsius.
    #[must_use]
    pub const fn from_millidegrees(millidegrees: i32) -> Self {
        Self(millidegrees)
    }

    /// From one temperature to another.
    #[must_use]
    pub const fn between(from: Temperature, to: Temperature) -> Self {
        Self(to.millicelsius().saturating_sub(from.millicelsius()))
    }

    /// This difference in thousandths of a degree Celsius.
    #[must_use]
    pub const fn millidegrees(self) -> i32 {
        self.0
    }

    /// This difference in degrees Celsius.
    #[must_use]
    pub fn degrees(self) -> f64 {
        f64::from(self.0) / 1e3
    }

    /// The size of this difference without its sign.
    #[must_use]
    pub const fn abs(self) -> Self {
        Self(self.0.saturating_abs())
    }
}

/// What the probe is held in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Bath {
    /// Melting ice.
    Ice,
    /// Water at a rolling boil.
    BoilingWater(AirPressure),
}

/// How well ice and water made in a kitchen keep 0 °C, in millidegrees, k = 2
/// (estimate, no source).
const ICE_MILLIDEGREES: f64 = 100.0;
/// How well boiling water keeps to its surface's boiling point, in
/// millidegrees, k = 2: ten centimetres of water over the tip add 10 hPa, which
/// is 0.28 °C (estimate).
const BOIL_MILLIDEGREES: f64 = 200.0;

impl Bath {
    /// The temperature of the bath.
    #[must_use]
    pub fn temperature(self) -> Temperature {
        match self {
            Self::Ice => Temperature::from_millicelsius(0),
            Self::BoilingWater(pressure) => pressure.boiling_point(),
        }
    }

    /// How well it is known (k = 2), in millidegrees.
    fn uncertainty(self) -> f64 {
        match self {
            Self::Ice => ICE_MILLIDEGREES,
            Self::BoilingWater(pressure) => {
                libm::hypot(BOIL_MILLIDEGREES, pressure.boiling_point_uncertainty())
            }
        }
    }
}

/// What a check came to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Outcome {
    /// The error and its uncertainty are within the limit.
    Within,
    /// The error is out of the limit by more than its uncertainty.
    Outside,
    /// The limit lies within the uncertainty: it cannot be said (JCGM 106). A
    /// pressure read at the place, instead of the height alone, says more.
    CannotBeSaid,
}

/// The answer of a check.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Verdict {
    /// The temperature of the bath.
    pub expected: Temperature,
    /// What the probe read, at rest.
    pub measured: Temperature,
    /// How far the probe is out: positive where it reads too high.
    pub error: Difference,
    /// Expanded uncertainty of the error (k = 2): of the bath, of the reading's
    /// restlessness and of its steps.
    pub uncertainty: Difference,
    /// The limit that it was checked against.
    pub limit: Difference,
    /// What it comes to.
    pub outcome: Outcome,
    /// The probe reads the instrument's own temperature and not the bath's:
    /// its wires probably touch before the tip.
    pub looks_shorted: bool,
}

/// Whether a check is done.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Progress {
    /// The probe has not come to rest yet.
    Settling,
    /// Done.
    Done(Verdict),
}

/// A probe at rest moves by no more than this, in millidegrees: two steps of
/// the coarser converter.
const REST_MILLIDEGREES: i32 = 500;
/// So long it must be at rest before it is believed: a probe with a time
/// constant of 3 s is then within 0.02 °C.
const REST_MILLIS: u64 = 10_000;
/// And so long it is averaged after that, at rest.
const AVERAGE_MILLIS: u64 = 5_000;
/// With so many samples at least.
const AVERAGE_SAMPLES: u32 = 10;
/// Samples further apart than this are not one rest.
const GAP_MILLIS: u64 = 2_000;
/// The steps of the coarser converter, in millidegrees.
const STEP_MILLIDEGREES: f64 = 250.0;
/// A probe this close to the instrument's own temperature, in millidegrees...
const SHORTED_MILLIDEGREES: i32 = 1_000;
/// ...and this far from the bath looks shorted.
const ASTRAY_MILLIDEGREES: i32 = 5_000;

/// A stretch in which the probe rests.
#[derive(Debug, Clone, Copy)]
struct Rest {
    since: Uptime,
    last: Uptime,
    lowest: i32,
    highest: i32,
    /// Of the samples that are averaged.
    sum: i64,
    samples: u32,
}

/// A check under way: give it samples until it is done.
#[derive(Debug, Clone, Copy)]
pub struct ProbeCheck {
    bath: Bath,
    limit: Difference,
    rest: Option<Rest>,
}

impl ProbeCheck {
    /// A check in a bath against a limit, whose sign does not matter.
    #[must_use]
    pub const fn new(bath: Bath, limit: Difference) -> Self {
        Self {
            bath,
            limit: limit.abs(),
            rest: None,
        }
    }

    /// The probe gave a fault instead of a sample: its rest begins anew.
    pub const fn interrupted(&mut self) {
        self.rest = None;
    }

    /// Takes one sample.
    pub fn add(&mut self, at: Uptime, sample: ProbeSample) -> Progress {
        let hot = sample.hot.millicelsius();
        let rest = match self.rest {
            Some(rest)
                if at > rest.last
                    && at.since(rest.last) <= GAP_MILLIS
                    && rest.highest.max(hot).saturating_sub(rest.lowest.min(hot))
                        <= REST_MILLIDEGREES =>
            {
                Rest {
                    last: at,
                    lowest: rest.lowest.min(hot),
                    highest: rest.highest.max(hot),
                    ..rest
                }
            }
            _ => Rest {
                since: at,
                last: at,
                lowest: hot,
                highest: hot,
                sum: 0,
                samples: 0,
            },
        };
        let averaged = at.since(rest.since) >= REST_MILLIS;
        let rest = Rest {
            sum: rest
                .sum
                .saturating_add(if averaged { i64::from(hot) } else { 0 }),
            samples: rest.samples.saturating_add(u32::from(averaged)),
            ..rest
        };
        self.rest = Some(rest);
        if rest.samples < AVERAGE_SAMPLES || at.since(rest.since) < REST_MILLIS + AVERAGE_MILLIS {
            return Progress::Settling;
        }
        Progress::Done(self.verdict(rest, sample.cold))
    }

    fn verdict(&self, rest: Rest, cold: Temperature) -> Verdict {
        let samples = i64::from(rest.samples.max(1));
        let mean = (rest.sum + samples / 2).div_euclid(samples);
        let measured = Temperature::from_millicelsius(i32::try_from(mean).unwrap_or(rest.highest));
        let expected = self.bath.temperature();
        let error = Difference::between(expected, measured);
        // A step is a rectangle of its width: its standard uncertainty is the
        // width over the root of twelve (JCGM 100, 4.3.7), here with k = 2.
        let steps = 2.0 * STEP_MILLIDEGREES / libm::sqrt(12.0);
        let restless = f64::from(rest.highest - rest.lowest) / 2.0;
        let uncertainty = libm::sqrt(
            self.bath.uncertainty() * self.bath.uncertainty() + steps * steps + restless * restless,
        );
        let uncertainty = Difference(libm::ceil(uncertainty) as i32);
        let outcome = if error.abs().0.saturating_add(uncertainty.0) <= self.limit.0 {
            Outcome::Within
        } else if error.abs().0.saturating_sub(uncertainty.0) > self.limit.0 {
            Outcome::Outside
        } else {
            Outcome::CannotBeSaid
        };
        Verdict {
            expected,
            measured,
            error,
            uncertainty,
            limit: self.limit,
            outcome,
            looks_shorted: Difference::between(cold, measured).abs().0 <= SHORTED_MILLIDEGREES
                && error.abs().0 > ASTRAY_MILLIDEGREES,
        }
    }
}
