//! Vessels that a kitchen knows: filled with water once, weighed with brine
//! ever after.

use super::{Doubt, Vessel, VesselMaterial};
use crate::units::InputError;
use crate::written_name;
use evenhand_protocol::{Mass, Temperature};
use jiff::Timestamp;

/// The longest name, in characters.
const LONGEST: usize = 40;

/// A vessel's name: one to forty characters on one line. Two names that
/// differ only in upper and lower case are the same vessel.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct VesselName(String);

impl VesselName {
    /// A name. `field` says where it was typed, for the error.
    ///
    /// # Errors
    /// An empty name, one that is too long, or one with control characters.
    pub fn new(field: &str, text: &str) -> Result<Self, InputError> {
        written_name::name(field, text, LONGEST, "blue jug").map(Self)
    }

    /// The name as it was written.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.0
    }

    /// What two names of the same vessel have in common.
    #[must_use]
    pub fn key(&self) -> String {
        self.0.to_lowercase()
    }
}

impl core::fmt::Display for VesselName {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.pad(&self.0)
    }
}

/// A vessel filled to its mark or brim with fresh water, weighed in air.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Filling {
    /// When.
    pub at: Timestamp,
    /// How much water it held; above zero.
    pub water: Mass,
    /// How warm that water was; from 0 to 40 °C.
    pub temperature: Temperature,
    /// What the vessel is made of.
    pub material: VesselMaterial,
    /// How well it was weighed, filled and measured (coverage factor 2).
    pub doubt: Doubt,
    /// What the empty vessel weighs, where that was weighed; above zero.
    pub empty: Option<Mass>,
}

impl Filling {
    /// The vessel's volume that follows.
    ///
    /// # Errors
    /// As for [`Vessel::filled_with_water`], and an empty vessel of nothing or
    /// less.
    pub fn vessel(&self) -> Result<Vessel, InputError> {
        if let Some(empty) = self.empty {
            super::above_zero("empty vessel", empty)?;
        }
        Vessel::filled_with_water(self.water, self.temperature, self.material, self.doubt)
    }
}

/// A vessel on record, by its latest filling.
#[derive(Debug, Clone, PartialEq)]
pub struct KnownVessel {
    /// Its name.
    pub name: VesselName,
    /// Its latest filling.
    pub filling: Filling,
    /// Since when it is out of use, where it is.
    pub retired: Option<Timestamp>,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_tidied_and_nonsense_is_refused() {
        let name = VesselName::new("--name", "  Blue \u{200b} jug\n").unwrap();
        assert_eq!(
            (name.as_str(), name.key().as_str()),
            ("Blue jug", "blue jug")
        );
        for bad in ["", "  ", "\u{7}", "blue\njug", &"x".repeat(41)] {
            assert_eq!(
                VesselName::new("--name", bad).unwrap_err().field(),
                "--name"
            );
        }
    }

    #[test]
    fn a_filling_gives_the_volume_and_refuses_an_empty_vessel_of_nothing() {
        // 1 litre of water at 20 degC, 998.21 kg/m3 (Kell 1975, as in the tables), shows 997.15 g in air.
        let mut filling = Filling {
            at: Timestamp::UNIX_EPOCH,
            water: Mass::from_milligrams(997_150),
            temperature: Temperature::from_millicelsius(20_000),
            material: VesselMaterial::Steel,
            doubt: Doubt::COMMON,
            empty: Some(Mass::from_grams(310)),
        };
        let volume = filling.vessel().unwrap().volume().unwrap();
        assert!((volume.millilitres() - 1_000.0).abs() < 0.05, "{volume}");
        filling.empty = Some(Mass::ZERO);
        assert_eq!(filling.vessel().unwrap_err().field(), "empty vessel");
    }
}
