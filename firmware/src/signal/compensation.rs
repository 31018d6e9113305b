//! What a cell's temperature and its creep do to a load, taken off again.

use super::ratio::{PartsPerMillion, scaled};
use evenhand_protocol::{Mass, Temperature};
use serde::{Deserialize, Serialize};

/// How zero and span change with the bridge's temperature.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct TemperatureCompensation {
    /// How much more the empty pan reads for each degree warmer.
    pub zero_per_degree: Mass,
    /// How much more a load reads for each degree warmer.
    pub span_per_degree: PartsPerMillion,
}

/// What the scale read at one temperature, without compensation.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct TemperatureReading {
    /// The bridge's temperature.
    pub temperature: Temperature,
    /// The empty pan, from the calibrated zero.
    pub empty: Mass,
    /// With the same load on as at the other temperature.
    pub loaded: Mass,
}

/// Why two readings make no compensation.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub enum CompensationError {
    /// Less than 3 °C apart: the result would be mostly noise.
    TooClose,
    /// The load was too light, or was another one: the two spans differ by
    /// more than a per cent.
    NotTheSameLoad,
}

impl core::fmt::Display for CompensationError {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(match self {
            Self::TooClose => "the two temperatures must be at least 3 degrees C apart",
            Self::NotTheSameLoad => "the same weight must be on the pan at both temperatures",
        })
    }
}

impl core::error::Error for CompensationError {}

impl TemperatureCompensation {
    /// From readings of the empty pan and of one load at two temperatures.
    ///
    /// # Errors
    /// [`CompensationError`] where the readings do not tell.
    pub fn from_readings(
        first: &TemperatureReading,
        second: &TemperatureReading,
    ) -> Result<Self, CompensationError> {
        let degrees = second.temperature.celsius() - first.temperature.celsius();
        if libm::fabs(degrees) < 3.0 {
            return Err(CompensationError::TooClose);
        }
        let span = |reading: &TemperatureReading| (reading.loaded - reading.empty).grams();
        let (before, after) = (span(first), span(second));
        if before <= 0.0 || libm::fabs(after - before) > before / 100.0 {
            return Err(CompensationError::NotTheSameLoad);
        }
        Ok(Self {
            zero_per_degree: scaled(second.empty - first.empty, 1.0 / degrees),
            span_per_degree: PartsPerMillion::from_value((after - before) / before / degrees)
                .ok_or(CompensationError::NotTheSameLoad)?,
        })
    }

    /// A load as it would have been read at the temperature of the
    /// calibration.
    #[must_use]
    pub fn correct(&self, load: Mass, now: Temperature, calibrated: Temperature) -> Mass {
        let degrees = now.celsius() - calibrated.celsius();
        let without_zero = load - scaled(self.zero_per_degree, degrees);
        scaled(
            without_zero,
            1.0 / (1.0 + self.span_per_degree.value() * degrees),
        )
    }
}

/// How a cell creeps: a load reads more (or less) and more over minutes, and
/// when it is taken off, what it added goes away as slowly.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct CreepCompensation {
    /// What a load has crept by in the end, as a part of it.
    pub share: PartsPerMillion,
    /// The time in which it creeps 63 % of the way, in seconds; above zero.
    pub time_constant_seconds: u16,
}

impl CreepCompensation {
    /// From a load that was put on a rested scale: what it read at once, and
    /// what it read after so many seconds, with an assumed time constant.
    /// `None` where the load or the time is zero, or the creep is more than
    /// half a per cent, which is no creep.
    #[must_use]
    pub fn from_readings(
        at_once: Mass,
        later: Mass,
        after_seconds: u16,
        time_constant_seconds: u16,
    ) -> Option<Self> {
        if at_once <= Mass::ZERO || after_seconds == 0 || time_constant_seconds == 0 {
            return None;
        }
        let done = 1.0 - libm::exp(-f64::from(after_seconds) / f64::from(time_constant_seconds));
        let share = (later - at_once).grams() / at_once.grams() / done;
        if libm::fabs(share) > 0.005 {
            return None;
        }
        Some(Self {
            share: PartsPerMillion::from_value(share)?,
            time_constant_seconds,
        })
    }
}

/// What has crept by now.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Creep {
    model: CreepCompensation,
    /// Grams.
    crept: f64,
}

impl Creep {
    pub(super) const fn new(model: CreepCompensation) -> Self {
        Self { model, crept: 0.0 }
    }

    /// Goes on by so much time under a load (as read, creep included) and
    /// gives the load without its creep.
    pub(super) fn take_off(&mut self, load: Mass, elapsed_millis: u64) -> Mass {
        let without = load.grams() - self.crept;
        let goal = without * self.model.share.value();
        let millis = f64::from(self.model.time_constant_seconds.max(1)) * 1e3;
        let part = (elapsed_millis as f64 / millis).min(1.0);
        self.crept += (goal - self.crept) * part;
        load - Mass::from_fractional_grams(self.crept).unwrap_or(Mass::ZERO)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn celsius(degrees: f64) -> Temperature {
        Temperature::from_celsius(degrees).unwrap()
    }

    /// A data sheet's way to say it, worked by hand: zero 0.05 % of 1 kg and span 0.02 % in
    /// 10 °C. At 32 °C instead of 22 °C the empty pan reads 0.5 g and 400 g read 400.58 g.
    #[test]
    fn two_temperatures_give_the_cell_s_figures_and_take_them_off() {
        let cold = TemperatureReading {
            temperature: celsius(22.0),
            empty: Mass::ZERO,
            loaded: Mass::from_grams(400),
        };
        let warm = TemperatureReading {
            temperature: celsius(32.0),
            empty: Mass::from_milligrams(500),
            loaded: Mass::from_milligrams(400_580),
        };
        let found = TemperatureCompensation::from_readings(&cold, &warm).unwrap();
        assert_eq!(found.zero_per_degree, Mass::from_milligrams(50));
        assert_eq!(found.span_per_degree, PartsPerMillion(20));
        let corrected = found.correct(warm.loaded, celsius(32.0), celsius(22.0));
        assert!(
            (corrected - cold.loaded).abs() < Mass::from_micrograms(100),
            "{corrected:?}"
        );
        let at_home = found.correct(cold.loaded, celsius(22.0), celsius(22.0));
        assert_eq!(at_home, cold.loaded);
    }

    #[test]
    fn readings_that_tell_nothing_are_refused() {
        let reading = |degrees, loaded| TemperatureReading {
            temperature: celsius(degrees),
            empty: Mass::ZERO,
            loaded: Mass::from_grams(loaded),
        };
        assert_eq!(
            TemperatureCompensation::from_readings(&reading(20.0, 400), &reading(22.0, 400)),
            Err(CompensationError::TooClose)
        );
        assert_eq!(
            TemperatureCompensation::from_readings(&reading(20.0, 400), &reading(30.0, 500)),
            Err(CompensationError::NotTheSameLoad)
        );
    }

    /// The response of the usual model, load x share x (1 - exp(-t/τ)), solved in closed form,
    /// put in and taken off again; and its recovery.
    #[test]
    fn creep_is_taken_off_as_it_comes_and_as_it_goes() {
        let model = CreepCompensation {
            share: PartsPerMillion(500),
            time_constant_seconds: 600,
        };
        let mut creep = Creep::new(model);
        let mut worst = 0.0_f64;
        for step in 0..4 * 3_600 * 10_u32 {
            let seconds = f64::from(step) / 10.0;
            // 900 g on for an hour, off for an hour, and again.
            let phase = (seconds / 3_600.0).floor() as i32;
            let since = seconds - f64::from(phase) * 3_600.0;
            let full = 900.0 * 0.000_5;
            // Within a thousandth: what six time constants leave is left out.
            let (load, crept) = if phase % 2 == 0 {
                (900.0, full * (1.0 - (-since / 600.0).exp()))
            } else {
                (0.0, full * (-since / 600.0).exp())
            };
            let read = Mass::from_fractional_grams(load + crept).unwrap();
            let left = creep.take_off(read, 100).grams() - load;
            worst = worst.max(left.abs());
        }
        assert!(worst < 0.004, "{worst}");
    }

    #[test]
    fn a_creep_test_finds_the_share() {
        let at_once = Mass::from_grams(800);
        let share = 0.000_4;
        let later = at_once.grams() * (1.0 + share * (1.0 - (-1_800.0_f64 / 900.0).exp()));
        let found = CreepCompensation::from_readings(
            at_once,
            Mass::from_fractional_grams(later).unwrap(),
            1_800,
            900,
        )
        .unwrap();
        assert_eq!(found.share, PartsPerMillion(400));
        assert_eq!(
            CreepCompensation::from_readings(at_once, Mass::from_grams(810), 1_800, 900),
            None
        );
    }
}
