//! How far a probe may be out.

use crate::source::Publication;
use evenhand_protocol::Temperature;

/// Where the tolerances of thermocouples come from.
pub const TOLERANCES: Publication =
    Publication::from_memory("IEC 60584-1, tolerance classes of thermocouples");

/// A type of thermocouple.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum ThermocoupleType {
    /// Copper and constantan.
    T,
    /// Nickel-chromium and nickel-aluminium.
    K,
    /// Nickel-chromium-silicon and nickel-silicon.
    N,
    /// Iron and constantan.
    J,
}

/// What a measuring chain is made of. Each figure is a half-width: what its
/// maker promises not to exceed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Chain {
    /// The thermocouple's type,
    pub thermocouple: ThermocoupleType,
    /// and its tolerance class: 1 or 2.
    pub class: u8,
    /// The converter, in °C.
    pub converter: f64,
    /// Its cold junction, in °C.
    pub cold_junction: f64,
}

/// A doubt about a probe that makes no sense.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum ProbeError {
    /// The uncertainty.
    #[error("the probe is good to {0} degC, expected 0 to 20 degC")]
    Within(f64),
    /// The class.
    #[error("the probe's class is {0}, expected 1 or 2")]
    Class(u8),
}

/// A probe's expanded uncertainty (coverage factor 2): how far a reading may
/// lie from the truth.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ProbeDoubt(Temperature);

impl ProbeDoubt {
    /// So many °C either way.
    ///
    /// # Errors
    /// [`ProbeError::Within`] outside 0 to 20.
    pub fn new(celsius: f64) -> Result<Self, ProbeError> {
        if !(0.0..=20.0).contains(&celsius) {
            return Err(ProbeError::Within(celsius));
        }
        Temperature::from_celsius(celsius)
            .map(Self)
            .ok_or(ProbeError::Within(celsius))
    }

    /// Of a measuring chain at a temperature: the parts are taken as evenly
    /// spread within their limits and combined as JCGM 100 does.
    ///
    /// # Errors
    /// [`ProbeError`] for a class other than 1 or 2, or an absurd part.
    pub fn of_chain(chain: Chain, at: Temperature) -> Result<Self, ProbeError> {
        use ThermocoupleType::{J, K, N, T};
        // The larger of a fixed tolerance and a share of the temperature.
        let (fixed, share) = match (chain.thermocouple, chain.class) {
            (T, 1) => (0.5, 0.004),
            (T, 2) => (1.0, 0.007_5),
            (K | N | J, 1) => (1.5, 0.004),
            (K | N | J, 2) => (2.5, 0.007_5),
            (_, other) => return Err(ProbeError::Class(other)),
        };
        let thermocouple = f64::max(fixed, share * at.celsius().abs());
        let squares = [thermocouple, chain.converter, chain.cold_junction]
            .into_iter()
            .map(|half_width| half_width * half_width / 3.0)
            .sum::<f64>();
        Self::new(2.0 * squares.sqrt())
    }

    /// The uncertainty, as a difference counted from 0 °C.
    #[must_use]
    pub const fn within(self) -> Temperature {
        self.0
    }
}

impl core::fmt::Display for ProbeDoubt {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        write!(f, "{:.1} degC", self.0.celsius())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    // Worked by hand with JCGM 100, 4.3.7: u = a / sqrt(3); U = 2 sqrt(sum u^2).
    #[test]
    fn a_chain_adds_up_in_squares() {
        let chain = |thermocouple, class| Chain {
            thermocouple,
            class,
            converter: 0.25,
            cold_junction: 2.0,
        };
        let at = |celsius: f64| Temperature::from_celsius(celsius).unwrap();
        for (chain, celsius, expected) in [
            (chain(ThermocoupleType::K, 2), 57.0, 3.708),
            (chain(ThermocoupleType::T, 1), 5.0, 2.398),
            // 0.0075 of 400 degC is 3.0.
            (chain(ThermocoupleType::K, 2), 400.0, 4.173),
        ] {
            let doubt = ProbeDoubt::of_chain(chain, at(celsius)).unwrap();
            assert!(
                (doubt.within().celsius() - expected).abs() < 0.002,
                "{doubt:?} {expected}"
            );
        }
        assert_eq!(
            ProbeDoubt::of_chain(chain(ThermocoupleType::K, 3), at(0.0)),
            Err(ProbeError::Class(3))
        );
        assert!(ProbeDoubt::new(-0.1).is_err() && ProbeDoubt::new(f64::NAN).is_err());
    }
}
