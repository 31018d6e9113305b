//! The pull of gravity at a place: a scale weighs force, and force per mass
//! differs by half a per cent between the equator and the poles.

use serde::{Deserialize, Serialize};

/// Where a scale stands, as far as gravity cares.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Place {
    latitude_millidegrees: i32,
    height_metres: i16,
}

/// Why a place was refused.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub enum PlaceError {
    /// The latitude is not between -90° and 90°.
    Latitude,
    /// The height is not between -500 m and 9 000 m.
    Height,
}

impl core::fmt::Display for PlaceError {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(match self {
            Self::Latitude => "the latitude must be between -90 and 90 degrees",
            Self::Height => "the height above the sea must be between -500 m and 9000 m",
        })
    }
}

impl core::error::Error for PlaceError {}

impl Place {
    /// A place by its latitude, in thousandths of a degree (south is
    /// negative), and its height above the sea in metres.
    ///
    /// # Errors
    /// [`PlaceError`] where either is nowhere on land.
    pub fn new(latitude_millidegrees: i32, height_metres: i16) -> Result<Self, PlaceError> {
        if !(-90_000..=90_000).contains(&latitude_millidegrees) {
            return Err(PlaceError::Latitude);
        }
        if !(-500..=9_000).contains(&height_metres) {
            return Err(PlaceError::Height);
        }
        Ok(Self {
            latitude_millidegrees,
            height_metres,
        })
    }

    /// Latitude in thousandths of a degree.
    #[must_use]
    pub const fn latitude_millidegrees(self) -> i32 {
        self.latitude_millidegrees
    }

    /// Height above the sea in metres.
    #[must_use]
    pub const fn height_metres(self) -> i16 {
        self.height_metres
    }

    /// The acceleration of gravity here, by the formula that weighing
    /// instruments are adjusted with in Europe (WELMEC gravity zones, 2000).
    /// Mountains and rock below make it wrong by up to 5 parts in 100 000.
    #[must_use]
    pub fn gravity(self) -> Gravity {
        let radians = f64::from(self.latitude_millidegrees) / 1e3 * core::f64::consts::PI / 180.0;
        let sine = sine(radians);
        let sine_squared = sine * sine;
        let double_squared = 4.0 * sine_squared * (1.0 - sine_squared);
        let height = f64::from(self.height_metres);
        let metres_per_second_squared = 9.780_318
            * (1.0 + 0.005_302_4 * sine_squared - 0.000_005_8 * double_squared)
            - 0.000_003_085 * height;
        Gravity(metres_per_second_squared)
    }
}

/// The sine of up to a quarter turn, by its series: what is left out is less
/// than 1e-8. The library's own takes any number of turns and three kilobytes
/// for it.
fn sine(radians: f64) -> f64 {
    let square = radians * radians;
    let mut term = radians;
    let mut sum = radians;
    for n in 1..7_u8 {
        let even = f64::from(2 * n);
        term = -term * square / (even * (even + 1.0));
        sum += term;
    }
    sum
}

/// An acceleration of gravity.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct Gravity(f64);

impl Gravity {
    /// In metres per second squared.
    #[must_use]
    pub const fn metres_per_second_squared(self) -> f64 {
        self.0
    }

    /// By what a load must be multiplied that a scale indicates here, when it
    /// was calibrated where gravity is `there`.
    #[must_use]
    pub fn correction(self, there: Self) -> f64 {
        there.0 / self.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_series_is_the_library_s_sine() {
        for degrees in -90..=90_i8 {
            let radians = f64::from(degrees).to_radians();
            assert!((sine(radians) - radians.sin()).abs() < 1e-8, "{degrees}");
        }
    }

    fn gravity(degrees: f64, metres: i16) -> f64 {
        Place::new((degrees * 1e3).round() as i32, metres)
            .unwrap()
            .gravity()
            .metres_per_second_squared()
    }

    /// The Python package AHRS, `welmec_gravity(52.3, 80.0)`, as its documentation prints it.
    #[test]
    fn it_is_the_formula_of_the_gravity_zones() {
        assert!((gravity(52.3, 80) - 9.812_483_709_897_048).abs() < 1e-7);
    }

    /// Normal gravity of WGS 84 by Somigliana's formula (NIMA TR8350.2, chapter 4): constants
    /// and the value at the pole as printed there.
    #[test]
    fn it_agrees_with_the_ellipsoid_s_gravity_at_sea_level() {
        let somigliana = |degrees: f64| {
            let sine = (degrees * std::f64::consts::PI / 180.0).sin();
            9.780_325_335_9 * (1.0 + 0.001_931_852_652_41 * sine * sine)
                / (1.0 - 0.006_694_379_990_13 * sine * sine).sqrt()
        };
        assert!((somigliana(90.0) - 9.832_184_937_8).abs() < 1e-9);
        for degrees in [-90.0, -45.0, 0.0, 15.0, 30.0, 45.0, 60.0, 75.0, 90.0] {
            assert!(
                (gravity(degrees, 0) / somigliana(degrees) - 1.0).abs() < 2e-6,
                "{degrees}"
            );
        }
    }

    /// Measured values from a teaching table (Haverford College): place, latitude, height, g
    /// to a thousandth; latitudes are given in whole degrees only.
    #[test]
    fn it_agrees_with_gravity_as_measured() {
        for (place, latitude, height, measured) in [
            ("Brussels", 51.0, 102, 9.811),
            ("Stockholm", 59.0, 45, 9.818),
            ("New York", 41.0, 38, 9.803),
            ("Denver", 40.0, 1_638, 9.796),
            ("San Francisco", 38.0, 114, 9.800),
            ("Canal Zone", 9.0, 6, 9.782),
        ] {
            let g = gravity(latitude, height);
            assert!((g - measured).abs() < 0.001_2, "{place}: {g}");
        }
    }

    #[test]
    fn a_scale_from_the_north_reads_light_at_the_equator() {
        let helsinki = Place::new(60_170, 20).unwrap().gravity();
        let quito = Place::new(-180, 2_850).unwrap().gravity();
        let factor = quito.correction(helsinki);
        assert!((1.004..1.006).contains(&factor), "{factor}");
    }

    #[test]
    fn nowhere_is_refused() {
        assert_eq!(Place::new(90_001, 0), Err(PlaceError::Latitude));
        assert_eq!(Place::new(0, 9_001), Err(PlaceError::Height));
    }
}
