//! Does the ice in a brine melt, and how cold is it then?
//!
//! A heat balance: water, salt and ice bring in what they hold, and what comes
//! of them holds as much. Where the brine would end below its own freezing
//! point, only part of the ice melts, and ice and liquid stay together at the
//! temperature at which that liquid freezes. The pot, the air and the time it
//! takes are left out: it is where a well stirred pot goes to.

use super::mixing::{Recipe, grams};
use super::strength::{Strength, not_negative};
use super::tables;
use crate::source::Publication;
use crate::units::InputError;
use crate::units::Reason;
use evenhand_protocol::{Mass, Temperature};
use interp::{InterpMode, interp};

/// Where the heats come from.
pub const HEATS: Publication = Publication::from_memory(
    "CRC Handbook of Chemistry and Physics: ice melts at 333.6 kJ/kg; specific heats of water, \
     ice, salt and sugar; salt dissolves at 3.88 kJ/mol",
);
/// Where the specific heat of brine comes from.
pub const BRINE_HEAT: Publication =
    Publication::read("CoolProp 8.0, INCOMP::MNA (Melinder), specific heat at 5 degC");

/// Heat that ice takes to melt, kJ/kg.
const MELTING: f64 = 333.6;
/// Specific heats, kJ/(kg K): water between 0 and 40 °C, ice near −10 °C, salt
/// and sugar as they are weighed.
const WATER: f64 = 4.19;
const ICE: f64 = 2.07;
const SALT: f64 = 0.864;
const SUGAR: f64 = 1.24;
/// Specific heat of brine, kJ/(kg K), by per cent of solution ([`BRINE_HEAT`];
/// the first is water's, the last goes on as the table does).
const PERCENTS: [f64; 7] = [0.0, 2.0, 5.0, 10.0, 15.0, 20.0, 27.0];
const BRINE: [f64; 7] = [WATER, 4.078, 3.916, 3.698, 3.529, 3.392, 3.2];
/// Heat that salt takes to dissolve at 25 °C, kJ/kg: 3.88 kJ/mol over 58.44
/// g/mol, in much water. At a kitchen's strengths it is up to a fifth less,
/// which moves the end by a few tenths of a degree.
const DISSOLVING: f64 = 66.4;
/// The temperature that holds for, °C; heats are counted from there.
const COUNTED_FROM: f64 = 25.0;

/// How far the end may be from what is worked out, °C: heats, and salt that is
/// not as warm as the water. An estimate, no source.
pub const GIVE_OR_TAKE: f64 = 1.0;

/// What becomes of ice in a brine.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Iced {
    /// Ice that melts.
    pub melted: Mass,
    /// Ice that stays; zero where all of it melts. More than was put in where
    /// water freezes onto it.
    pub left: Mass,
    /// Where the pot ends, within [`GIVE_OR_TAKE`].
    pub ends_at: Temperature,
    /// How strong the liquid is then, its sugar left out.
    pub liquid: Strength,
}

/// What is in the pot, in kilograms.
#[derive(Debug, Clone, Copy)]
struct Pot {
    salt: f64,
    sugar: f64,
    water: f64,
    ice: f64,
}

impl Pot {
    /// Heat brought in, kJ.
    fn brought(self, water_at: f64, ice_at: f64) -> f64 {
        let dry = self.salt * SALT + self.sugar * SUGAR + self.water * WATER;
        dry * (water_at - COUNTED_FROM) + self.ice * (ICE * ice_at - MELTING - WATER * COUNTED_FROM)
    }

    /// Heat held with so much of the ice melted, at a temperature, kJ.
    fn held(self, melted: f64, celsius: f64) -> f64 {
        let brine = self.salt + self.water + melted;
        let left = self.ice - melted;
        let heat = interp(
            &PERCENTS,
            &BRINE,
            self.percent(melted),
            &InterpMode::FirstLast,
        );
        (brine * heat + self.sugar * SUGAR) * (celsius - COUNTED_FROM)
            + self.salt * DISSOLVING
            + left * (ICE * celsius - MELTING - WATER * COUNTED_FROM)
    }

    /// Salt in per cent of the liquid without its sugar.
    fn percent(self, melted: f64) -> f64 {
        100.0 * self.salt / (self.salt + self.water + melted)
    }

    /// Where ice and liquid stay together, °C.
    fn freezes_at(self, melted: f64) -> f64 {
        -tables::ice_below_zero(self.percent(melted))
    }
}

impl Recipe {
    /// What becomes of so much of its water put in as ice, the rest of it and
    /// the salt as warm as `water_at`.
    ///
    /// # Errors
    /// Less ice than none or more than the recipe has water, water outside 0
    /// to 100 °C, ice outside −40 to 0 °C, and so much cold that the salt
    /// would fall out.
    pub fn iced(
        &self,
        ice: Mass,
        water_at: Temperature,
        ice_at: Temperature,
    ) -> Result<Iced, InputError> {
        not_negative("ice", ice)?;
        let (rest, ice) = self.with_ice(ice)?;
        let between = |field: &str, at: Temperature, low: f64, high: f64, what: Reason| {
            if (low..=high).contains(&at.celsius()) {
                return Ok(at.celsius());
            }
            Err(InputError::new(
                field,
                &format!("{} degC", at.celsius()),
                what,
                expected!("degrees-between", low = low, high = high),
            ))
        };
        let water_at = between(
            "water's temperature",
            water_at,
            0.0,
            100.0,
            problem!("no-water-temperature"),
        )?;
        let ice_at = between(
            "ice's temperature",
            ice_at,
            -40.0,
            0.0,
            problem!("no-ice-temperature"),
        )?;
        let kilograms = |mass: Mass| mass.grams() / 1000.0;
        let pot = Pot {
            salt: kilograms(self.salt),
            sugar: kilograms(self.sugar),
            water: kilograms(rest.water),
            ice: kilograms(ice),
        };
        let brought = pot.brought(water_at, ice_at);
        let ends = |melted: f64, celsius: f64| {
            let melted_mass = grams("ice", melted * 1000.0)?;
            Ok(Iced {
                melted: melted_mass,
                left: ice - melted_mass,
                ends_at: Temperature::from_celsius(celsius).ok_or_else(|| {
                    InputError::new(
                        "ice",
                        &celsius.to_string(),
                        problem!("no-temperature"),
                        expected!("less-ice"),
                    )
                })?,
                liquid: Strength::from_part("salt", pot.percent(melted) / 100.0)?,
            })
        };
        // All melted: the temperature at which as much is held as was brought.
        let at_zero = pot.held(pot.ice, 0.0);
        let per_degree = pot.held(pot.ice, 1.0) - at_zero;
        let celsius = (brought - at_zero) / per_degree;
        if pot.percent(pot.ice) > tables::EUTECTIC_PERCENT && celsius < 0.0 {
            return Err(too_cold(ice));
        }
        if pot.ice == 0.0 || celsius >= pot.freezes_at(pot.ice) {
            return ends(pot.ice, celsius);
        }
        // The least liquid that still holds all of the salt; there the pot is as cold as it gets.
        let eutectic = tables::EUTECTIC_PERCENT / 100.0;
        let least = (pot.salt / eutectic - pot.salt - pot.water).max(-0.999 * pot.water);
        let off = |melted: f64| brought - pot.held(melted, pot.freezes_at(melted));
        if off(least) < 0.0 {
            return Err(too_cold(ice));
        }
        let (mut low, mut high) = (least, pot.ice);
        for _ in 0..60 {
            let middle = f64::midpoint(low, high);
            if off(middle) > 0.0 {
                low = middle;
            } else {
                high = middle;
            }
        }
        ends(low, pot.freezes_at(low))
    }
}

fn too_cold(ice: Mass) -> InputError {
    InputError::new(
        "ice",
        &format!("{} g", ice.grams()),
        problem!("salt-falls-out"),
        expected!("less-ice"),
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::brine::{
        Amount, Composition, Freezing, PercentOfSolution, PercentOfWater, SugarPercent,
    };

    fn celsius(t: f64) -> Temperature {
        Temperature::from_celsius(t).unwrap()
    }

    fn recipe(percent_of_water: f64, water: i64) -> Recipe {
        let salt = PercentOfWater::new(percent_of_water).unwrap();
        let composition = Composition::of_water(salt, SugarPercent::NONE).unwrap();
        Recipe::new(composition, Amount::Water(Mass::from_grams(water))).unwrap()
    }

    // The schoolbook's mixture (J. Black's, 1762, from memory): as much ice at 0 degC as water at
    // 80 degC makes twice as much water at 0 degC: 333.6 / 4.19 = 79.6.
    #[test]
    fn ice_and_as_much_water_at_eighty_degrees_end_at_nought() {
        let pot = recipe(0.0, 2000);
        let iced = |at| {
            pot.iced(Mass::from_grams(1000), celsius(at), celsius(0.0))
                .unwrap()
        };
        let warm = iced(90.0);
        assert_eq!(warm.left, Mass::ZERO);
        assert!((warm.ends_at.celsius() - (90.0 - 79.6) / 2.0).abs() < 0.05);
        let cool = iced(40.0);
        assert!((cool.ends_at.celsius()).abs() < 1e-3);
        // 40 x 4.19 / 333.6 of the kilogram melts.
        assert!((cool.melted.grams() - 502.4).abs() < 1.0, "{cool:?}");
        assert_eq!(cool.melted + cool.left, Mass::from_grams(1000));
    }

    // Worked by hand: 5 kg of water at 15 degC, 400 g of salt, 1 kg of it as ice at 0 degC. From
    // 15 degC: ice takes 1 x 333.6 + 1 x 4.19 x 15 = 396.5 kJ, the salt 0.4 x 66 = 26 kJ at 25 degC;
    // the 5.4 kg of 7.4 % brine give 5.4 x 3.81 = 20.6 kJ a degree: some 15 - 423 / 20.6 = -5.5,
    // which is under the -4.7 degC at which it freezes; a little ice stays.
    #[test]
    fn what_cannot_melt_is_told_and_stays_on_the_freezing_curve() {
        let pot = recipe(8.0, 5000);
        let iced = pot
            .iced(Mass::from_grams(1000), celsius(15.0), celsius(0.0))
            .unwrap();
        assert!(
            iced.left > Mass::ZERO && iced.left < Mass::from_grams(120),
            "{iced:?}"
        );
        let Freezing::Ice(at) = iced.liquid.freezing() else {
            panic!("ice expected")
        };
        assert!((at.celsius() - iced.ends_at.celsius()).abs() < 0.01);
        // From warmer water all of it melts, and colder ice leaves more.
        let warm = pot
            .iced(Mass::from_grams(1000), celsius(25.0), celsius(0.0))
            .unwrap();
        assert_eq!(warm.left, Mass::ZERO);
        assert!(
            (warm.liquid.of_water().percent() - 8.0).abs() < 1e-6,
            "{warm:?}"
        );
        let colder = pot
            .iced(Mass::from_grams(1000), celsius(15.0), celsius(-20.0))
            .unwrap();
        assert!(colder.left > iced.left);
    }

    #[test]
    fn nonsense_is_refused_by_name() {
        let pot = recipe(8.0, 5000);
        let kilo = Mass::from_grams(1000);
        for (ice, water, cold, field) in [
            (Mass::from_grams(-1), 15.0, 0.0, "ice"),
            (Mass::from_grams(5001), 15.0, 0.0, "ice"),
            (kilo, -1.0, 0.0, "water's temperature"),
            (kilo, 101.0, 0.0, "water's temperature"),
            (kilo, 15.0, 1.0, "ice's temperature"),
            (kilo, 15.0, -80.0, "ice's temperature"),
        ] {
            let error = pot.iced(ice, celsius(water), celsius(cold)).unwrap_err();
            assert_eq!(error.field(), field, "{error}");
        }
        // Near saturation with almost everything as ice from a deep freezer.
        let strong =
            Composition::of_solution(PercentOfSolution::new(24.0).unwrap(), SugarPercent::NONE)
                .unwrap();
        let strong = Recipe::new(strong, Amount::Water(Mass::from_grams(1000))).unwrap();
        let error = strong
            .iced(Mass::from_grams(990), celsius(1.0), celsius(-40.0))
            .unwrap_err();
        assert!(
            error.problem().in_english().contains("salt falls out"),
            "{error}"
        );
    }

    #[test]
    fn without_ice_the_salt_cools_the_water_by_itself() {
        // 66 kJ/kg over a tenth of the brine and 3.7 kJ/(kg K): 1.8 degC.
        let iced = recipe(11.11, 5000)
            .iced(Mass::ZERO, celsius(25.0), celsius(0.0))
            .unwrap();
        assert!(
            (25.0 - iced.ends_at.celsius() - 1.8).abs() < 0.1,
            "{iced:?}"
        );
    }
}
