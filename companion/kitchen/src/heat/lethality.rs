//! Lethality: the heat that reached a core, as minutes at a reference
//! temperature.
//!
//! F = ∫ 10^((T − Tref) / z) dt (C. O. Ball; general method of Bigelow, 1920; as
//! in the process-lethality tables of the USDA FSIS Appendix A guidance and in
//! food-engineering texts). A figure to compare with a process that somebody
//! licensed has set; it says nothing of the food by itself.

use super::log::HeatLog;
use evenhand_protocol::Temperature;
use jiff::SignedDuration;

/// What lethality is counted against: both figures belong to an organism and a
/// food, and are the user's to give, with their source.
#[derive(Debug, Clone, PartialEq)]
pub struct Reference {
    /// The reference temperature.
    pub at: Temperature,
    /// Degrees Celsius that change the rate tenfold.
    z: f64,
    /// Where both come from.
    pub source: String,
}

/// Why lethality was not computed.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum LethalityError {
    /// z is not a plausible figure.
    #[error("z is {0} degC, expected 3 to 30 degC")]
    BadZ(f64),
    /// No source was given.
    #[error("the source of z and of the reference temperature is empty: name it")]
    NoSource,
}

impl Reference {
    /// A reference.
    ///
    /// # Errors
    /// [`LethalityError`] where z is not from 3 to 30 °C or the source is empty.
    pub fn new(
        at: Temperature,
        z_celsius: f64,
        source: impl Into<String>,
    ) -> Result<Self, LethalityError> {
        let source = source.into();
        if !(3.0..=30.0).contains(&z_celsius) {
            return Err(LethalityError::BadZ(z_celsius));
        }
        if source.trim().is_empty() {
            return Err(LethalityError::NoSource);
        }
        Ok(Self {
            at,
            z: z_celsius,
            source,
        })
    }

    /// Degrees Celsius that change the rate tenfold.
    #[must_use]
    pub const fn z_celsius(&self) -> f64 {
        self.z
    }

    /// Minutes at the reference temperature that one minute here is worth.
    #[must_use]
    pub fn rate(&self, temperature: Temperature) -> f64 {
        10f64.powf((temperature.celsius() - self.at.celsius()) / self.z)
    }
}

/// What was counted.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lethality {
    /// Minutes at the reference temperature.
    pub equivalent_minutes: f64,
    /// Time that lies in gaps of the log and was counted as nothing.
    pub not_counted: SignedDuration,
}

/// Integrates a log, temperature going straight from reading to reading; gaps
/// count as nothing.
#[must_use]
pub fn lethality(log: &HeatLog, reference: &Reference) -> Lethality {
    let mut minutes = 0.0;
    let mut not_counted = SignedDuration::ZERO;
    for (a, b) in log.steps() {
        let step = b.at.duration_since(a.at);
        if log.is_gap(a, b) {
            not_counted += step;
            continue;
        }
        let (first, last) = (reference.rate(a.temperature), reference.rate(b.temperature));
        // The exact integral of an exponential between two ends; its limit for equal ends.
        let mean = if (last / first - 1.0).abs() < 1e-9 {
            first
        } else {
            (last - first) / (last / first).ln()
        };
        minutes += mean * step.as_secs_f64() / 60.0;
    }
    Lethality {
        equivalent_minutes: minutes,
        not_counted,
    }
}
