//! What the cold does to brine, and how much salt it holds.

use super::strength::{PercentOfSolution, Strength};
use super::tables;
use evenhand_protocol::Temperature;

/// What happens first as a brine is cooled, and where.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Freezing {
    /// Ice begins to form; what stays liquid grows stronger.
    Ice(Temperature),
    /// Salt begins to fall out, as its hydrate below 0.1 °C; what stays
    /// liquid grows weaker.
    Salt(Temperature),
}

impl Freezing {
    pub(super) fn of(strength: Strength) -> Self {
        let percent = strength.of_solution().percent();
        // Every value of the tables is a small number of degrees, so it is a temperature.
        let at = |celsius: f64| Temperature::from_millicelsius((celsius * 1e3).round() as i32);
        if percent <= tables::EUTECTIC_PERCENT {
            Self::Ice(at(-tables::ice_below_zero(percent)))
        } else {
            Self::Salt(at(tables::salt_falls_out_below(percent)))
        }
    }

    /// Where it happens.
    #[must_use]
    pub const fn temperature(self) -> Temperature {
        match self {
            Self::Ice(at) | Self::Salt(at) => at,
        }
    }
}

impl core::fmt::Display for Freezing {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        match self {
            Self::Ice(at) => write!(f, "ice forms below {:.1} \u{b0}C", at.celsius()),
            Self::Salt(at) => write!(f, "salt falls out below {:.1} \u{b0}C", at.celsius()),
        }
    }
}

/// The strongest brine possible at a temperature; warmer than 60 °F it is kept
/// at the end of the salometer's scale, which is as far as this goes.
///
/// Below the coldest line of the table, −21.11 °C, there is no brine; the last
/// line is given.
#[must_use]
pub fn saturation(at: Temperature) -> PercentOfSolution {
    let percent = tables::saturated_percent(at.celsius());
    Strength::from_part("salt", percent / 100.0)
        .unwrap_or(Strength::SATURATED)
        .of_solution()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn beyond_the_eutectic_salt_falls_out_instead() {
        let at = |percent: f64| Strength::from(PercentOfSolution::new(percent).unwrap()).freezing();
        assert!(matches!(at(23.3), Freezing::Ice(_)));
        assert!(matches!(at(23.4), Freezing::Salt(_)));
        assert_eq!(at(0.0).temperature().millicelsius(), 0);
        assert_eq!(at(10.0).to_string(), "ice forms below -6.6 \u{b0}C");
        assert_eq!(at(26.29).to_string(), "salt falls out below 0.0 \u{b0}C");
    }

    #[test]
    fn saturation_grows_with_warmth_up_to_the_scale() {
        let at = |celsius| saturation(Temperature::from_celsius(celsius).unwrap()).percent();
        assert!((at(0.0) - 26.29).abs() < 1e-9);
        assert!((at(15.56) - 26.395).abs() < 1e-9);
        assert!((at(60.0) - 26.395).abs() < 1e-9);
        assert!(at(-10.0) < at(0.0));
    }
}
