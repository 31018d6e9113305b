//! Volts to temperature and back by the ITS-90 reference functions.
//!
//! A thermocouple gives the difference between the voltages that its hot and
//! its cold junction would give against ice. So the cold junction is
//! compensated in voltage and never by adding temperatures: the reference
//! function of the cold junction's temperature is added to what was measured,
//! and the sum is inverted, in the range that the *sum* lies in.
//!
//! ```
//! use evenhand_firmware::thermocouple::{Emf, Kind};
//! use evenhand_protocol::Temperature;
//!
//! // 1.1 mV from a type K whose cold junction is at 23 °C.
//! let measured = Emf::from_nanovolts(1_100_000);
//! let hot = Kind::K.hot_junction(measured, Temperature::from_millicelsius(23_000))?;
//! assert_eq!(hot.millicelsius(), 49_908);
//! # Ok::<(), evenhand_firmware::thermocouple::OutOfRange>(())
//! ```
//!
//! Source: NIST Standard Reference Database 60 (ITS-90 Thermocouple Database),
//! after NIST Monograph 175. The published inverse polynomials are off by up to
//! 0.06 °C; two steps of Newton's method on the reference function take that
//! away. What is left, over the whole of each type's range and against the
//! reference functions, is the rounding to whole nanovolts and millidegrees: at
//! most 1 m°C, which the tests assert. A [`Curve`] is the same in whole numbers,
//! for a processor that has no double precision.

mod curve;
mod emf;
mod kinds;
mod reference;

pub use curve::Curve;
pub use emf::Emf;

use core::ops::RangeInclusive;
use evenhand_protocol::Temperature;
use reference::Tables;
use serde::{Deserialize, Serialize};

/// A letter-designated type of thermocouple.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Kind {
    /// Nickel-chromium against nickel-aluminium; the usual kitchen probe.
    #[default]
    K,
    /// Copper against copper-nickel.
    T,
    /// Iron against copper-nickel.
    J,
    /// Nickel-chromium-silicon against nickel-silicon.
    N,
    /// Nickel-chromium against copper-nickel.
    E,
    /// Platinum-10 % rhodium against platinum.
    S,
    /// Platinum-13 % rhodium against platinum.
    R,
    /// Platinum-30 % rhodium against platinum-6 % rhodium; only for 250 °C and
    /// more.
    B,
}

/// Why there is no temperature for a voltage.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub enum OutOfRange {
    /// The cold junction is outside the range of the type's reference function.
    ColdJunction(Temperature),
    /// The measured voltage and the cold junction's come to a sum outside the
    /// range in which the type's reference function is inverted.
    Sum(Emf),
}

impl core::fmt::Display for OutOfRange {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        match self {
            Self::ColdJunction(cold) => write!(
                f,
                "the cold junction at {} degC is outside the thermocouple's range",
                cold.celsius()
            ),
            Self::Sum(sum) => write!(
                f,
                "the voltage of {} mV, cold junction included, is outside the thermocouple's range",
                sum.millivolts()
            ),
        }
    }
}

impl core::error::Error for OutOfRange {}

impl Kind {
    /// Every type.
    pub const ALL: [Self; 8] = [
        Self::K,
        Self::T,
        Self::J,
        Self::N,
        Self::E,
        Self::S,
        Self::R,
        Self::B,
    ];

    const fn tables(self) -> &'static Tables {
        match self {
            Self::K => &kinds::k::TABLES,
            Self::T => &kinds::t::TABLES,
            Self::J => &kinds::j::TABLES,
            Self::N => &kinds::n::TABLES,
            Self::E => &kinds::e::TABLES,
            Self::S => &kinds::s::TABLES,
            Self::R => &kinds::r::TABLES,
            Self::B => &kinds::b::TABLES,
        }
    }

    /// The letter.
    #[must_use]
    pub const fn letter(self) -> char {
        match self {
            Self::K => 'K',
            Self::T => 'T',
            Self::J => 'J',
            Self::N => 'N',
            Self::E => 'E',
            Self::S => 'S',
            Self::R => 'R',
            Self::B => 'B',
        }
    }

    /// The temperatures that a voltage can be turned into: the range of the
    /// published inverse functions. The reference function itself goes down to
    /// −270 °C for types E, K, N and T and to 0 °C for type B, where it is too
    /// flat to be inverted.
    #[must_use]
    pub fn range(self) -> RangeInclusive<Temperature> {
        let tables = self.tables();
        let whole = |celsius| Temperature::from_celsius(celsius).unwrap_or_default();
        whole(tables.inverse_lowest)..=whole(tables.highest())
    }

    /// The reference function: the voltage with the hot junction at a
    /// temperature and the cold one at 0 °C. `None` outside its range.
    #[must_use]
    pub fn emf(self, hot: Temperature) -> Option<Emf> {
        let (millivolts, _) = self.tables().forward(hot.celsius())?;
        Emf::from_millivolts(millivolts)
    }

    /// The inverse: the hot junction's temperature from the voltage with the
    /// cold one at 0 °C. `None` outside [`Kind::range`].
    #[must_use]
    pub fn temperature(self, emf: Emf) -> Option<Temperature> {
        Temperature::from_celsius(self.tables().inverse(emf.millivolts())?)
    }

    /// The hot junction's temperature from the voltage measured with the cold
    /// junction at `cold`.
    ///
    /// # Errors
    ///
    /// [`OutOfRange`] where the cold junction or the sum of the voltages is
    /// outside what the type is defined for.
    pub fn hot_junction(self, measured: Emf, cold: Temperature) -> Result<Temperature, OutOfRange> {
        let reference = self.emf(cold).ok_or(OutOfRange::ColdJunction(cold))?;
        let sum = measured + reference;
        self.temperature(sum).ok_or(OutOfRange::Sum(sum))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::vec::Vec;

    /// A stretch of a published inverse in °C, the error that NIST SRD 60 states
    /// for it, and the unit of the digits it is stated in.
    struct Published(Kind, f64, f64, f64, f64, f64);

    const PUBLISHED: [Published; 23] = [
        Published(Kind::K, -200.0, 0.0, -0.02, 0.04, 0.01),
        Published(Kind::K, 0.0, 500.0, -0.05, 0.04, 0.01),
        Published(Kind::K, 500.0, 1372.0, -0.05, 0.06, 0.01),
        Published(Kind::T, -200.0, 0.0, -0.02, 0.04, 0.01),
        Published(Kind::T, 0.0, 400.0, -0.03, 0.03, 0.01),
        Published(Kind::J, -210.0, 0.0, -0.05, 0.03, 0.01),
        Published(Kind::J, 0.0, 760.0, -0.04, 0.04, 0.01),
        Published(Kind::J, 760.0, 1200.0, -0.04, 0.03, 0.01),
        Published(Kind::N, -200.0, 0.0, -0.02, 0.03, 0.01),
        Published(Kind::N, 0.0, 600.0, -0.02, 0.03, 0.01),
        Published(Kind::N, 600.0, 1300.0, -0.04, 0.02, 0.01),
        Published(Kind::E, -200.0, 0.0, -0.01, 0.03, 0.01),
        Published(Kind::E, 0.0, 1000.0, -0.02, 0.02, 0.01),
        Published(Kind::S, -50.0, 250.0, -0.02, 0.02, 0.01),
        Published(Kind::S, 250.0, 1064.0, -0.01, 0.01, 0.01),
        Published(Kind::S, 1064.0, 1664.5, -0.000_2, 0.000_2, 0.000_1),
        Published(Kind::S, 1664.5, 1768.1, -0.002, 0.002, 0.001),
        Published(Kind::R, -50.0, 250.0, -0.02, 0.02, 0.01),
        // Published to 1200; used to where the next begins.
        Published(Kind::R, 250.0, 1064.0, -0.005, 0.005, 0.002),
        Published(Kind::R, 1064.0, 1664.5, -0.000_5, 0.001, 0.000_5),
        Published(Kind::R, 1664.5, 1768.1, -0.001, 0.002, 0.001),
        Published(Kind::B, 250.0, 700.0, -0.02, 0.03, 0.01),
        Published(Kind::B, 700.0, 1820.0, -0.01, 0.02, 0.01),
    ];

    /// A thousand temperatures in a stretch, less what rounding its ends to the
    /// microvolt may have cut off.
    fn within(kind: Kind, from: f64, to: f64) -> impl Iterator<Item = f64> {
        let rounding = |end| 0.001 / kind.tables().forward(end).unwrap().1;
        let (first, last) = (from + rounding(from), to - rounding(to));
        (0..=1000).map(move |n| first + (last - first) * f64::from(n) / 1000.0)
    }

    // A wrong digit in any coefficient of any inverse would show here.
    #[test]
    fn the_published_inverses_err_as_published() {
        for Published(kind, from, to, low, high, unit) in PUBLISHED {
            let tables = kind.tables();
            let errors: Vec<f64> = within(kind, from, to)
                .map(|celsius| {
                    let (millivolts, _) = tables.forward(celsius).unwrap();
                    tables.published_inverse(millivolts).unwrap() - celsius
                })
                .collect();
            let lowest = errors.iter().copied().fold(f64::INFINITY, f64::min);
            let highest = errors.iter().copied().fold(f64::NEG_INFINITY, f64::max);
            // Stated to one digit, rounded now to the nearest and now outward.
            let as_stated = |found: f64, stated: f64| {
                (-unit..=unit * 0.5).contains(&(found.abs() - stated.abs()))
            };
            assert!(
                as_stated(lowest, low) && as_stated(highest, high),
                "{kind:?} {from}..{to}: {lowest}..{highest}, published {low}..{high}"
            );
        }
    }

    #[test]
    fn the_slope_is_the_reference_functions_own() {
        for kind in Kind::ALL {
            let tables = kind.tables();
            for n in 1..1000 {
                let celsius =
                    tables.lowest + (tables.highest() - tables.lowest) * f64::from(n) / 1000.0;
                let (_, slope) = tables.forward(celsius).unwrap();
                let step = 1e-3;
                let rise = tables.forward(celsius + step).unwrap().0
                    - tables.forward(celsius - step).unwrap().0;
                assert!(
                    (slope - rise / (2.0 * step)).abs() < 1e-6,
                    "{kind:?} at {celsius}"
                );
            }
        }
    }
}
