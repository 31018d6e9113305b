//! The boiling point of water at the pressure of the air.

use evenhand_protocol::Temperature;

/// The pressure of the air where the water boils, in whole pascals, and how
/// well it is known.
///
/// It is the pressure at the place itself, not one that a weather report has
/// reduced to sea level; for that use [`AirPressure::reduced_to_sea_level`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct AirPressure {
    pascals: u32,
    /// Expanded uncertainty, k = 2.
    uncertainty: u32,
}

/// A height above mean sea level in whole metres, −400 to 5 000.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Height(i16);

impl Height {
    /// Mean sea level.
    pub const SEA_LEVEL: Self = Self(0);

    /// A height in metres; `None` outside −400 to 5 000, below and above which
    /// nobody cooks.
    #[must_use]
    pub const fn from_metres(metres: i32) -> Option<Self> {
        match metres {
            -400..=5_000 => Some(Self(metres as i16)),
            _ => None,
        }
    }

    /// This height in metres.
    #[must_use]
    pub const fn metres(self) -> i32 {
        self.0 as i32
    }
}

/// Standard pressure at sea level in pascals (ICAO Doc 7488, ISO 2533).
const STANDARD_PASCALS: f64 = 101_325.0;
/// How far the weather takes the pressure from the standard, k = 2 (estimate,
/// no source).
const WEATHER_PASCALS: u32 = 2_000;
/// What a report or a household barometer is good for, k = 2 (estimate, no
/// source).
const READING_PASCALS: u32 = 200;

impl AirPressure {
    /// A pressure read at the place itself, in hectopascals (the same as
    /// millibars); taken to be right within 2 hPa. `None` outside 500 to 1 100.
    #[must_use]
    pub fn from_hectopascals(hectopascals: f64) -> Option<Self> {
        (500.0..=1_100.0).contains(&hectopascals).then(|| Self {
            pascals: libm::round(hectopascals * 100.0) as u32,
            uncertainty: READING_PASCALS,
        })
    }

    /// The pressure of the ICAO standard atmosphere at a height. The weather is
    /// not in it: it takes the pressure up or down by some 20 hPa and with it
    /// the boiling point by 0.6 °C, which the uncertainty says.
    #[must_use]
    pub fn standard_at(height: Height) -> Self {
        Self {
            pascals: libm::round(STANDARD_PASCALS * share_left_at(height)) as u32,
            uncertainty: WEATHER_PASCALS,
        }
    }

    /// The pressure at a height where the weather report, which reduces to sea
    /// level, says so many hectopascals. `None` outside 900 to 1 100.
    #[must_use]
    pub fn reduced_to_sea_level(hectopascals: f64, height: Height) -> Option<Self> {
        (900.0..=1_100.0).contains(&hectopascals).then(|| Self {
            pascals: libm::round(hectopascals * 100.0 * share_left_at(height)) as u32,
            uncertainty: READING_PASCALS,
        })
    }

    /// This pressure in pascals.
    #[must_use]
    pub const fn pascals(self) -> u32 {
        self.pascals
    }

    /// Its expanded uncertainty in pascals (k = 2).
    #[must_use]
    pub const fn uncertainty_pascals(self) -> u32 {
        self.uncertainty
    }

    /// The boiling point of water at this pressure, within 0.01 °C.
    #[must_use]
    pub fn boiling_point(self) -> Temperature {
        let celsius = saturation_celsius(f64::from(self.pascals));
        // Every pressure that can be made here boils water between 70 and 110 °C.
        Temperature::from_celsius(celsius).unwrap_or_default()
    }

    /// How far the uncertainty of the pressure takes the boiling point, in
    /// thousandths of a degree (k = 2).
    pub(super) fn boiling_point_uncertainty(self) -> f64 {
        let pascals = f64::from(self.pascals);
        let span = f64::from(self.uncertainty);
        500.0 * (saturation_celsius(pascals + span) - saturation_celsius(pascals - span))
    }
}

/// The share of the pressure at sea level that is left at a height, in the
/// troposphere of the ICAO standard atmosphere (Doc 7488; ISO 2533):
/// (1 - 0.0065 h / 288.15)^5.25588, h the geopotential height in metres, which
/// up here differs from the geometric one by less than 4 m.
fn share_left_at(height: Height) -> f64 {
    libm::pow(1.0 - 0.0065 * f64::from(height.0) / 288.15, 5.255_88)
}

/// The temperature at which water boils at a pressure in pascals: the backward
/// equation of region 4 of the IAPWS Industrial Formulation 1997 (IAPWS R7-97,
/// equation 31), good from 611 Pa to 22 MPa. The coefficients were copied by
/// program from the PyPI package iapws 1.5.5.
fn saturation_celsius(pascals: f64) -> f64 {
    const N: [f64; 10] = [
        0.116_705_214_527_67e4,
        -0.724_213_167_032_06e6,
        -0.170_738_469_400_92e2,
        0.120_208_247_024_70e5,
        -0.323_255_503_223_33e7,
        0.149_151_086_135_30e2,
        -0.482_326_573_615_91e4,
        0.405_113_405_420_57e6,
        -0.238_555_575_678_49,
        0.650_175_348_447_98e3,
    ];
    let beta = libm::sqrt(libm::sqrt(pascals * 1e-6));
    let square = beta * beta;
    let e = square + N[2] * beta + N[5];
    let f = N[0] * square + N[3] * beta + N[6];
    let g = N[1] * square + N[4] * beta + N[7];
    let d = 2.0 * g / (-f - libm::sqrt(f * f - 4.0 * e * g));
    let sum = N[9] + d;
    let kelvin = (sum - libm::sqrt(sum * sum - 4.0 * (N[8] + N[9] * d))) / 2.0;
    kelvin - 273.15
}

#[cfg(test)]
mod tests {
    use super::*;

    // IAPWS R7-97, Table 36: T_sat at 0.1, 1 and 10 MPa (the last also read in
    // the PyPI package iapws; the others from memory).
    #[test]
    fn the_formulations_own_check_values() {
        for (megapascals, kelvin) in [(0.1, 372.755_919), (1.0, 453.035_632), (10.0, 584.149_488)] {
            let found = saturation_celsius(megapascals * 1e6) + 273.15;
            assert!((found - kelvin).abs() < 1e-6, "{megapascals}: {found}");
        }
    }
}
