//! Making a brine of a strength, and putting one right.

use super::composition::Composition;
use super::strength::{Strength, above_zero, not_negative};
use crate::units::{InputError, Volume};
use evenhand_protocol::{Mass, Temperature};

/// How much brine is wanted.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Amount {
    /// So much of it, at the temperature it will have then.
    Volume(Volume, Temperature),
    /// As much as so much water makes.
    Water(Mass),
    /// So much of it by weight.
    Brine(Mass),
}

/// What to weigh for a brine, and what it makes. Always by weight: a spoon or
/// a cup of salt is a different mass with every brand and grain.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Recipe {
    /// Salt to weigh.
    pub salt: Mass,
    /// Sugar to weigh.
    pub sugar: Mass,
    /// Water to weigh.
    pub water: Mass,
    /// What they are together.
    pub composition: Composition,
}

impl Recipe {
    /// What to weigh for so much of a brine.
    ///
    /// # Errors
    /// An amount of nothing or less; for a volume, a temperature outside 0 to
    /// 40 °C.
    pub fn new(composition: Composition, amount: Amount) -> Result<Self, InputError> {
        let brine = match amount {
            Amount::Volume(volume, at) => composition.density(at)?.kg_per_m3() * volume.litres(),
            Amount::Water(water) => {
                above_zero("water", water)?;
                water.grams() / composition.water_part()
            }
            Amount::Brine(brine) => {
                above_zero("brine", brine)?;
                brine.grams()
            }
        };
        Ok(Self {
            salt: grams("salt", brine * composition.salt_part())?,
            sugar: grams("sugar", brine * composition.sugar_part())?,
            water: grams("water", brine * composition.water_part())?,
            composition,
        })
    }

    /// All of it together.
    #[must_use]
    pub fn brine(&self) -> Mass {
        self.salt + self.sugar + self.water
    }

    /// The room it takes at a temperature.
    ///
    /// # Errors
    /// A temperature outside 0 to 40 °C, or one at which not all of the salt
    /// stays dissolved.
    pub fn volume(&self, at: Temperature) -> Result<Volume, InputError> {
        volume(self.brine(), self.composition, at)
    }

    /// The same with part of its water put in as ice, to cool it at once. The
    /// strength is that of the recipe when the ice has melted; before that
    /// the liquid is stronger.
    ///
    /// # Errors
    /// More ice than the recipe has water, or less than none.
    pub fn with_ice(&self, ice: Mass) -> Result<(Self, Mass), InputError> {
        not_negative("ice", ice)?;
        if ice > self.water {
            return Err(InputError::new(
                "ice",
                &format!("{} g", ice.grams()),
                problem!("more-ice-than-water"),
                expected!("grams-most", most = self.water.grams()),
            ));
        }
        Ok((
            Self {
                water: self.water - ice,
                ..*self
            },
            ice,
        ))
    }
}

/// The room a mass of brine takes.
fn volume(brine: Mass, composition: Composition, at: Temperature) -> Result<Volume, InputError> {
    Volume::from_millilitres(
        "volume",
        brine.grams() / composition.density(at)?.kg_per_m3() * 1e3,
    )
}

pub(super) fn grams(field: &str, grams: f64) -> Result<Mass, InputError> {
    Mass::from_fractional_grams(grams).ok_or_else(|| {
        InputError::new(
            field,
            &format!("{grams} g"),
            problem!("beyond-held"),
            expected!("kitchen-mass"),
        )
    })
}

/// A brine there already is: so much of such a strength, salt and water only.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StandingBrine {
    mass: Mass,
    strength: Strength,
}

/// How to bring a standing brine to a strength.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Correction {
    /// It is there already, to the last microgram that could be added.
    None,
    /// Stir in so much salt.
    AddSalt {
        /// Salt to add.
        salt: Mass,
        /// What there is then.
        makes: Mass,
    },
    /// Pour in so much water.
    AddWater {
        /// Water to add.
        water: Mass,
        /// What there is then.
        makes: Mass,
    },
    /// The vessel cannot take it: take brine out first, then put in the same
    /// mass of salt.
    ReplaceWithSalt {
        /// Brine to take out, and salt to put in.
        each: Mass,
    },
    /// The vessel cannot take it: take brine out first, then put in the same
    /// mass of water.
    ReplaceWithWater {
        /// Brine to take out, and water to put in.
        each: Mass,
    },
}

impl StandingBrine {
    /// So much brine of such a strength.
    ///
    /// # Errors
    /// A mass of nothing or less.
    pub fn new(mass: Mass, strength: Strength) -> Result<Self, InputError> {
        above_zero("brine", mass)?;
        Ok(Self { mass, strength })
    }

    /// How much there is.
    #[must_use]
    pub const fn mass(&self) -> Mass {
        self.mass
    }

    /// How strong it is.
    #[must_use]
    pub const fn strength(&self) -> Strength {
        self.strength
    }

    /// The same after so much ice has melted in it.
    ///
    /// # Errors
    /// Less ice than none.
    pub fn with_melted_ice(&self, ice: Mass) -> Result<Self, InputError> {
        self.with_water("ice", ice)
    }

    /// The same with so much water poured in.
    ///
    /// # Errors
    /// Less water than none.
    pub fn with_more_water(&self, water: Mass) -> Result<Self, InputError> {
        self.with_water("water", water)
    }

    fn with_water(&self, field: &str, added: Mass) -> Result<Self, InputError> {
        not_negative(field, added)?;
        let mass = self.mass + added;
        let salt = self.mass.grams() * self.strength.part() / mass.grams();
        Ok(Self {
            mass,
            strength: Strength::from_part("brine", salt)?,
        })
    }

    /// How to bring it to a strength. Where `room` says how much the vessel
    /// takes in all and that would not do, brine is to be taken out first.
    ///
    /// # Errors
    /// A target of plain water, which no addition reaches; a vessel that
    /// holds less than there is.
    pub fn corrected_to(
        &self,
        target: Strength,
        room: Option<Mass>,
    ) -> Result<Correction, InputError> {
        if let Some(room) = room
            && room < self.mass
        {
            return Err(InputError::new(
                "room",
                &format!("{} g", room.grams()),
                problem!("too-little-room", brine = self.mass.grams()),
                expected!("vessels-room"),
            ));
        }
        let (now, wanted) = (self.strength.part(), target.part());
        let fits = |makes: Mass| room.is_none_or(|room| makes <= room);
        let mass = self.mass.grams();
        if wanted > now {
            let salt = grams("salt", mass * (wanted - now) / (1.0 - wanted))?;
            let makes = self.mass + salt;
            if salt == Mass::ZERO {
                return Ok(Correction::None);
            }
            if fits(makes) {
                return Ok(Correction::AddSalt { salt, makes });
            }
            let each = grams("salt", mass * (wanted - now) / (1.0 - now))?;
            return Ok(Correction::ReplaceWithSalt { each });
        }
        if wanted <= 0.0 {
            if now <= 0.0 {
                return Ok(Correction::None);
            }
            return Err(InputError::new(
                "target",
                "0 %",
                problem!("not-by-water"),
                expected!("above-zero"),
            ));
        }
        let water = grams("water", mass * (now / wanted - 1.0))?;
        let makes = self.mass + water;
        if water == Mass::ZERO {
            Ok(Correction::None)
        } else if fits(makes) {
            Ok(Correction::AddWater { water, makes })
        } else {
            let each = grams("water", mass * (1.0 - wanted / now))?;
            Ok(Correction::ReplaceWithWater { each })
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::brine::{PercentOfSolution, PercentOfWater, SugarPercent};

    fn of_solution(percent: f64) -> Strength {
        Strength::from(PercentOfSolution::new(percent).unwrap())
    }

    fn standing(grams: i64, percent: f64) -> StandingBrine {
        StandingBrine::new(Mass::from_grams(grams), of_solution(percent)).unwrap()
    }

    #[test]
    fn water_in_the_recipe_is_the_water_asked_for() {
        let composition = Composition::of_water(
            PercentOfWater::new(8.0).unwrap(),
            SugarPercent::new(4.0).unwrap(),
        )
        .unwrap();
        let recipe = Recipe::new(composition, Amount::Water(Mass::from_grams(5000))).unwrap();
        assert_eq!(recipe.water, Mass::from_grams(5000));
        assert_eq!(recipe.salt, Mass::from_grams(400));
        assert_eq!(recipe.sugar, Mass::from_grams(200));
        let (iced, ice) = recipe.with_ice(Mass::from_grams(1500)).unwrap();
        assert_eq!(iced.water + ice, recipe.water);
        assert!(recipe.with_ice(Mass::from_grams(5001)).is_err());
    }

    #[test]
    fn a_volume_comes_back_as_that_volume() {
        let composition =
            Composition::of_solution(PercentOfSolution::new(10.0).unwrap(), SugarPercent::NONE)
                .unwrap();
        let at = Temperature::from_celsius(4.0).unwrap();
        let five = Volume::from_millilitres("--volume", 5000.0).unwrap();
        let recipe = Recipe::new(composition, Amount::Volume(five, at)).unwrap();
        assert!((recipe.volume(at).unwrap().millilitres() - 5000.0).abs() < 1e-5);
    }

    // Each correction is carried out with masses and must arrive at the target.
    #[test]
    fn corrections_arrive() {
        for (now, wanted) in [
            (3.0, 6.0),
            (6.0, 3.0),
            (0.0, 5.0),
            (20.0, 19.9),
            (1.0, 26.0),
        ] {
            let brine = standing(4000, now);
            let salt = 4000.0 * now / 100.0;
            let (salt, mass) = match brine.corrected_to(of_solution(wanted), None).unwrap() {
                Correction::AddSalt { salt: added, makes } => (salt + added.grams(), makes.grams()),
                Correction::AddWater { makes, .. } => (salt, makes.grams()),
                other => panic!("{other:?}"),
            };
            assert!(
                (salt / mass * 100.0 - wanted).abs() < 1e-6,
                "{now} to {wanted}"
            );
        }
    }

    #[test]
    fn a_full_vessel_gives_up_brine_first() {
        let room = Some(Mass::from_grams(4000));
        let Correction::ReplaceWithSalt { each } = standing(4000, 3.0)
            .corrected_to(of_solution(6.0), room)
            .unwrap()
        else {
            panic!("salt expected")
        };
        let salt = (4000.0 - each.grams()) * 0.03 + each.grams();
        assert!((salt / 4000.0 - 0.06).abs() < 1e-9);
        let Correction::ReplaceWithWater { each } = standing(4000, 6.0)
            .corrected_to(of_solution(3.0), room)
            .unwrap()
        else {
            panic!("water expected")
        };
        assert_eq!(each, Mass::from_grams(2000));
        assert!(
            standing(4000, 6.0)
                .corrected_to(of_solution(3.0), Some(Mass::from_grams(3999)))
                .is_err()
        );
    }

    #[test]
    fn melted_ice_weakens_and_salt_makes_it_good() {
        let iced = standing(4000, 6.0)
            .with_melted_ice(Mass::from_grams(1000))
            .unwrap();
        assert!((iced.strength().of_solution().percent() - 4.8).abs() < 1e-9);
        assert_eq!(iced.mass(), Mass::from_grams(5000));
        let Correction::AddSalt { salt, .. } = iced.corrected_to(of_solution(6.0), None).unwrap()
        else {
            panic!("salt expected")
        };
        assert!((salt.grams() - 5000.0 * 0.012 / 0.94).abs() < 1e-6);
        assert_eq!(
            standing(4000, 6.0)
                .corrected_to(of_solution(6.0), None)
                .unwrap(),
            Correction::None
        );
        assert!(
            standing(4000, 6.0)
                .corrected_to(Strength::WATER, None)
                .is_err()
        );
    }
}
