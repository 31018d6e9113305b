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
    #[serde(alias = "T")]
    T,
    /// Nickel-chromium and nickel-aluminium.
    #[serde(alias = "K")]
    K,
    /// Nickel-chromium-silicon and nickel-silicon.
    #[serde(alias = "N")]
    N,
    /// Iron and constantan.
    #[serde(alias = "J")]
    J,
}

impl core::fmt::Display for ThermocoupleType {
    /// Its letter.
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.pad(match self {
            Self::T => "T",
            Self::K => "K",
            Self::N => "N",
            Self::J => "J",
        })
    }
}

impl core::str::FromStr for ThermocoupleType {
    type Err = ProbeError;
    fn from_str(text: &str) -> Result<Self, ProbeError> {
        match text.trim().to_ascii_lowercase().as_str() {
            "t" => Ok(Self::T),
            "k" => Ok(Self::K),
            "n" => Ok(Self::N),
            "j" => Ok(Self::J),
            _ => Err(ProbeError::Type(text.trim().to_owned())),
        }
    }
}

/// What a measuring chain is made of. Each figure is a half-width: what its
/// maker promises not to exceed.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct Chain {
    /// The thermocouple's type,
    #[serde(rename = "type")]
    pub thermocouple: ThermocoupleType,
    /// and its tolerance class: 1 or 2.
    pub class: u8,
    /// The converter, in °C.
    #[serde(rename = "converter-celsius")]
    pub converter: f64,
    /// Its cold junction, in °C.
    #[serde(rename = "cold-junction-celsius")]
    pub cold_junction: f64,
}

impl core::fmt::Display for Chain {
    /// `type K class 2, converter 0.25 degC, cold junction 2 degC`.
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        write!(
            f,
            "type {} class {}, converter {} degC, cold junction {} degC",
            self.thermocouple, self.class, self.converter, self.cold_junction
        )
    }
}

/// What is known of a kitchen's probe.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Probe {
    /// How far it may be out (k = 2), as its certificate or its maker says.
    Within(ProbeDoubt),
    /// What it is made of; how far it may be out follows.
    Chain(Chain),
}

impl Probe {
    /// Of a chain whose parts make sense.
    ///
    /// # Errors
    /// As for [`ProbeDoubt::of_chain`].
    pub fn of_chain(chain: Chain) -> Result<Self, ProbeError> {
        ProbeDoubt::of_chain(chain, Temperature::from_millicelsius(0))?;
        Ok(Self::Chain(chain))
    }

    /// How far it may be out at a temperature.
    ///
    /// # Errors
    /// [`ProbeError`] where the chain's parts make no sense.
    pub fn doubt(self, at: Temperature) -> Result<ProbeDoubt, ProbeError> {
        match self {
            Self::Within(doubt) => Ok(doubt),
            Self::Chain(chain) => ProbeDoubt::of_chain(chain, at),
        }
    }
}

/// A doubt about a probe that makes no sense.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum ProbeError {
    /// The thermocouple's type.
    #[error("the probe's type is {0:?}, expected T, K, N or J")]
    Type(String),
    /// The converter or its cold junction.
    #[error("the probe's {part} may be out by {celsius} degC, expected 0 to 20 degC")]
    Part {
        /// Which.
        part: &'static str,
        /// Its value.
        celsius: f64,
    },
    /// The uncertainty.
    #[error("the probe is good to {0} degC, expected 0 to 20 degC")]
    Within(f64),
    /// The class.
    #[error("the probe's class is {0}, expected 1 or 2")]
    Class(u8),
}

impl ProbeError {
    /// A name for it that does not change.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::Type(_) => "type",
            Self::Part { .. } => "part",
            Self::Within(_) => "within",
            Self::Class(_) => "class",
        }
    }
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
        for (part, celsius) in [
            ("converter", chain.converter),
            ("cold junction", chain.cold_junction),
        ] {
            if !(0.0..=20.0).contains(&celsius) {
                return Err(ProbeError::Part { part, celsius });
            }
        }
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
        let parts = |converter, cold_junction| Chain {
            converter,
            cold_junction,
            ..chain(ThermocoupleType::K, 2)
        };
        for wrong in [parts(-0.25, 2.0), parts(0.25, f64::NAN), parts(0.25, 25.0)] {
            let error = Probe::of_chain(wrong).unwrap_err();
            assert!(matches!(error, ProbeError::Part { .. }), "{error}");
        }
        assert!("R".parse::<ThermocoupleType>().is_err());
        assert_eq!("k".parse(), Ok(ThermocoupleType::K));
        assert!(ProbeDoubt::new(-0.1).is_err() && ProbeDoubt::new(f64::NAN).is_err());
    }
}
