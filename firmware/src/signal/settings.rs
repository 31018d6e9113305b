//! What kind of scale the chain serves.

use evenhand_protocol::{Mass, VerificationInterval};
use serde::{Deserialize, Serialize};

/// The scale's own figures. `d` and `e` are the letters of OIML R 76-1.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Settings {
    /// Max: the most that may be weighed. Above zero.
    pub capacity: Mass,
    /// The display interval, `d`. Above zero.
    pub interval: Mass,
    /// The verification interval, `e`: what the error limits are counted in.
    /// From `d` to 10 `d`.
    pub verification_interval: Mass,
    /// Conversions per second that the bridge converter gives; 1 to 320.
    pub rate: u16,
    /// How long a load must have been still before it is called stable, in
    /// milliseconds, 50 to 1 600. Longer is surer and slower.
    pub settle_millis: u16,
    /// The same after the load has moved for longer than a fifth of a second,
    /// as under a hand or a spoon. Not shorter.
    pub settle_after_motion_millis: u16,
    /// The largest standard uncertainty from noise that a stable reading may
    /// have. Above zero.
    pub steadiness: Mass,
    /// Whether the zero follows a slow drift of the empty pan.
    pub zero_tracking: bool,
    /// Whether the empty pan is taken as zero at start.
    pub initial_zero: bool,
}

impl Settings {
    /// A bench scale on a 1 kg single-point cell and a 24-bit converter at 80
    /// conversions a second.
    pub const BENCH_1KG: Self = Self {
        capacity: Mass::from_grams(1_000),
        interval: Mass::from_milligrams(100),
        verification_interval: Mass::from_grams(1),
        rate: 80,
        settle_millis: 400,
        settle_after_motion_millis: 600,
        steadiness: Mass::from_milligrams(10),
        zero_tracking: true,
        initial_zero: true,
    };

    /// These settings, checked.
    ///
    /// # Errors
    /// [`SettingsError`] names the first figure that is out of its range.
    pub fn checked(self) -> Result<Self, SettingsError> {
        if self.capacity <= Mass::ZERO {
            return Err(SettingsError::Capacity);
        }
        if self.interval <= Mass::ZERO || self.interval > self.capacity {
            return Err(SettingsError::Interval);
        }
        if self.verification_interval < self.interval
            || self.verification_interval > self.interval.times(10)
        {
            return Err(SettingsError::VerificationInterval);
        }
        if !(1..=320).contains(&self.rate) {
            return Err(SettingsError::Rate);
        }
        if !(50..=1_600).contains(&self.settle_millis)
            || !(self.settle_millis..=1_600).contains(&self.settle_after_motion_millis)
        {
            return Err(SettingsError::Settle);
        }
        if self.steadiness <= Mass::ZERO {
            return Err(SettingsError::Steadiness);
        }
        Ok(self)
    }

    /// The verification interval as what error limits are counted in.
    #[must_use]
    pub const fn verification(&self) -> VerificationInterval {
        VerificationInterval::told(self.verification_interval)
    }

    /// So many per cent of the capacity.
    pub(super) fn part_of_capacity(&self, percent: i64) -> Mass {
        self.capacity.fraction(percent, 100).unwrap_or(Mass::ZERO)
    }

    /// The most that a load may change in so many milliseconds by drift alone:
    /// `d`/50 a second, which follows a warming cell and is a twenty-fifth of
    /// what zero tracking may do by OIML R 76-1. Counts a second at most.
    pub(super) fn slow_change(&self, millis: u64) -> Mass {
        let millis = millis.min(1_000) as i64;
        Mass::from_micrograms(self.interval.times(millis).micrograms() / 50_000)
    }

    /// Samples in a tenth of a second, at least one. A mean over a whole
    /// number of these holds whole periods of 50 and of 60 Hz, so both cancel,
    /// aliased or not.
    #[must_use]
    pub const fn block(&self) -> u16 {
        let block = self.rate / 10;
        if block == 0 { 1 } else { block }
    }
}

impl Default for Settings {
    fn default() -> Self {
        Self::BENCH_1KG
    }
}

/// Which of the settings is out of its range.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub enum SettingsError {
    /// [`Settings::capacity`].
    Capacity,
    /// [`Settings::interval`].
    Interval,
    /// [`Settings::verification_interval`].
    VerificationInterval,
    /// [`Settings::rate`].
    Rate,
    /// [`Settings::settle_millis`] or [`Settings::settle_after_motion_millis`].
    Settle,
    /// [`Settings::steadiness`].
    Steadiness,
}

impl core::fmt::Display for SettingsError {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(match self {
            Self::Capacity => "the capacity must be above zero",
            Self::Interval => "the display interval must be above zero and below the capacity",
            Self::VerificationInterval => {
                "the verification interval must be from one to ten display intervals"
            }
            Self::Rate => "the conversions per second must be from 1 to 320",
            Self::Settle => {
                "the settling times must be from 50 to 1600 ms, and not shorter after motion"
            }
            Self::Steadiness => "the steadiness must be above zero",
        })
    }
}

impl core::error::Error for SettingsError {}
