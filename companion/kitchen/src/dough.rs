//! How warm a dough is mixed, and the water that makes it so.
//!
//! A dough's temperature is a balance of heat: what flour, water and what was
//! made beforehand bring in, and what mixing and the room add. The last is
//! nobody's to know beforehand: it is measured on the kitchen's own doughs
//! ([`MixedDough::rise`]) and comes with its spread. Where none was measured yet
//! the trade's arithmetic ([`water_by_rule`]) answers with a friction that
//! somebody says.

use crate::book::StagedFormula;
use crate::source::Publication;
use crate::statistics::{Confidence, next_within};
use crate::units::InputError;
use evenhand_protocol::{Mass, Temperature};

/// Where the specific heats come from.
pub const HEATS: Publication = Publication::from_memory(
    "Singh and Heldman, Introduction to Food Engineering: wheat flour near 14 % moisture 1.8 kJ/(kg K); \
     water 4.19 kJ/(kg K); ice melts at 334 kJ/kg",
);
/// Where the trade's arithmetic comes from.
pub const RULE: Publication = Publication::quoted(
    "San Francisco Baking Institute, Artisan I, handed out 2009: base temperature less room, flour and friction",
);

const FLOUR: f64 = 1.8;
const WATER: f64 = 4.19;
const MELTING: f64 = 334.0;

/// Doughs that are needed before a spread is said.
pub const LEAST_FOR_SPREAD: usize = 3;
/// How often the interval of a rise holds.
pub const HOLDS: f64 = 0.8;
/// The warmest water that is proposed, °C: yeast takes harm from hotter water
/// that it meets by itself. Common practice, no source.
pub const WARMEST_WATER: Temperature = Temperature::from_millicelsius(43_000);
/// The last doughs of a kind that count: mixers, rooms and hands change.
pub const LAST_DOUGHS: usize = 20;

/// What goes into a dough, by what it takes to warm it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
pub struct Going {
    /// Flour and everything dry.
    #[serde(rename = "flour_micrograms")]
    pub flour: Mass,
    /// How warm it is.
    #[serde(rename = "flour_millicelsius")]
    pub flour_at: Temperature,
    /// Water and everything that is mostly water, ice counted.
    #[serde(rename = "water_micrograms")]
    pub water: Mass,
    /// What was made beforehand, where there is any.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub before: Option<Before>,
}

/// What was made beforehand and goes into a dough.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
pub struct Before {
    /// Flour in it.
    #[serde(rename = "flour_micrograms")]
    pub flour: Mass,
    /// Water in it.
    #[serde(rename = "water_micrograms")]
    pub water: Mass,
    /// How warm it is.
    #[serde(rename = "millicelsius")]
    pub at: Temperature,
}

/// A dough that was mixed and measured.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
pub struct MixedDough {
    /// What went in.
    pub going: Going,
    /// How warm the water was.
    #[serde(rename = "water_millicelsius")]
    pub water_at: Temperature,
    /// How much of it was ice.
    #[serde(rename = "ice_micrograms", default)]
    pub ice: Mass,
    /// How warm the dough came out.
    #[serde(rename = "dough_millicelsius")]
    pub dough_at: Temperature,
}

/// The water for a dough.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum WaterFor {
    /// Water as warm as this does it.
    Water {
        /// How warm.
        at: Temperature,
    },
    /// The coldest water at hand is too warm: so much of it as ice.
    Ice {
        /// How much of the water is ice.
        ice: Mass,
        /// The rest, as cold as it comes.
        water: Mass,
    },
    /// The water would have to be hotter than yeast bears: flour or room must be
    /// warmer.
    TooCold {
        /// How warm the water would have to be.
        at: Temperature,
    },
    /// All of the water as ice is not enough: flour or what was made beforehand
    /// must be colder.
    TooWarm,
}

/// What mixing and the room add to a dough, in kelvin, from doughs that were
/// measured.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rise {
    /// The mean, K.
    pub kelvin: f64,
    /// How many doughs it is from.
    pub doughs: usize,
    /// Half of the interval that the next dough's rise lies in eight times in
    /// ten, K; `None` with fewer than [`LEAST_FOR_SPREAD`] doughs.
    pub give_or_take: Option<f64>,
}

impl Rise {
    /// From the doughs that were measured, the latest last; `None` without any.
    /// Only the last [`LAST_DOUGHS`] count.
    #[must_use]
    pub fn of(doughs: &[MixedDough]) -> Option<Self> {
        let last = &doughs[doughs.len().saturating_sub(LAST_DOUGHS)..];
        let rises: Vec<f64> = last.iter().map(|dough| dough.rise()).collect();
        let n = rises.len();
        if n == 0 {
            return None;
        }
        let mean = rises.iter().sum::<f64>() / n as f64;
        let give_or_take = Confidence::new(HOLDS)
            .ok()
            .and_then(|holds| next_within(&rises, holds))
            .map(|(_, half)| half);
        Some(Self {
            kelvin: mean,
            doughs: n,
            give_or_take,
        })
    }
}

impl Going {
    /// What goes into the last bowl of a formula with so much of its base in
    /// all. What is not water counts as flour.
    ///
    /// # Errors
    /// As for [`Going::new`], a formula without water in its last bowl, stages
    /// whose temperature is not said, and a temperature of stages where there is
    /// none.
    pub fn of(
        formula: &StagedFormula,
        base: Mass,
        flour_at: Temperature,
        before_at: Option<Temperature>,
    ) -> Result<Self, InputError> {
        let mass = |field: &str, share: f64| {
            Mass::from_fractional_grams(base.grams() * share).ok_or_else(|| {
                InputError::new(
                    field,
                    &format!("{} g", base.grams() * share),
                    problem!("no-dough-mass"),
                    expected!("another-size"),
                )
            })
        };
        let (dry, water) = formula.dry_and_water_in_last_bowl();
        let (before_dry, before_water) = formula.dry_and_water_in_stages();
        let before = match (before_dry + before_water > 0.0, before_at) {
            (false, None) => None,
            (true, Some(at)) => Some(Before {
                flour: mass("flour made beforehand", before_dry)?,
                water: mass("water made beforehand", before_water)?,
                at,
            }),
            (true, None) => {
                return Err(InputError::new(
                    "temperature of what was made beforehand",
                    "nothing",
                    problem!("not-said"),
                    expected!("measure-stages"),
                ));
            }
            (false, Some(at)) => {
                return Err(InputError::new(
                    "temperature of what was made beforehand",
                    &format!("{} degC", at.celsius()),
                    problem!("said-of-nothing"),
                    expected!("no-stages"),
                ));
            }
        };
        Self::new(mass("flour", dry)?, flour_at, mass("water", water)?, before)
    }

    /// What goes in, checked.
    ///
    /// # Errors
    /// No flour or no water, and temperatures outside −30 to 60 °C, which
    /// nothing that goes into a dough has.
    pub fn new(
        flour: Mass,
        flour_at: Temperature,
        water: Mass,
        before: Option<Before>,
    ) -> Result<Self, InputError> {
        crate::brine::above_zero("flour", flour)?;
        crate::brine::above_zero("water", water)?;
        in_a_bakery("flour's temperature", flour_at)?;
        if let Some(before) = &before {
            in_a_bakery("temperature of what was made beforehand", before.at)?;
            for (field, mass) in [
                ("flour made beforehand", before.flour),
                ("water made beforehand", before.water),
            ] {
                if mass.is_negative() {
                    return Err(InputError::new(
                        field,
                        &format!("{} g", mass.grams()),
                        problem!("below-nothing"),
                        expected!("how-much"),
                    ));
                }
            }
        }
        Ok(Self {
            flour,
            flour_at,
            water,
            before,
        })
    }

    /// Heat capacity of everything but the water, in kJ/K, and the heat in it
    /// above 0 °C, in kJ.
    fn without_water(&self) -> (f64, f64) {
        let flour = kilograms(self.flour) * FLOUR;
        let before = self.before.map_or((0.0, 0.0), |before| {
            let takes = kilograms(before.flour) * FLOUR + kilograms(before.water) * WATER;
            (takes, takes * before.at.celsius())
        });
        (flour + before.0, flour * self.flour_at.celsius() + before.1)
    }

    /// How warm it is without what mixing and the room add, with its water so
    /// warm and so much of it ice, in °C.
    fn balance(&self, water_at: Temperature, ice: Mass) -> f64 {
        let (takes, brought) = self.without_water();
        let ice = kilograms(ice);
        let water = kilograms(self.water);
        let heat = brought + (water - ice) * WATER * water_at.celsius() - ice * MELTING;
        heat / (takes + water * WATER)
    }

    /// The water that makes a dough as warm as wanted, with what mixing and the
    /// room add and the coldest water at hand.
    ///
    /// # Errors
    /// Temperatures outside −30 to 60 °C; a coldest water below 0 °C.
    pub fn water_for(
        &self,
        wanted: Temperature,
        rise_kelvin: f64,
        coldest: Temperature,
    ) -> Result<WaterFor, InputError> {
        in_a_bakery("dough's temperature", wanted)?;
        if coldest.celsius() < 0.0 {
            return Err(InputError::new(
                "coldest water",
                &format!("{} degC", coldest.celsius()),
                problem!("ice-not-water"),
                expected!("coldest-water"),
            ));
        }
        in_a_bakery("coldest water", coldest)?;
        let (takes, brought) = self.without_water();
        let water = kilograms(self.water);
        let needed = (takes + water * WATER) * (wanted.celsius() - rise_kelvin) - brought;
        let at = needed / (water * WATER);
        if at > WARMEST_WATER.celsius() {
            return Ok(WaterFor::TooCold {
                at: Temperature::from_celsius(at).unwrap_or(WARMEST_WATER),
            });
        }
        if at >= coldest.celsius() {
            return Temperature::from_celsius(at)
                .map(|at| WaterFor::Water { at })
                .ok_or_else(|| no_temperature(at));
        }
        let ice =
            (water * WATER * coldest.celsius() - needed) / (WATER * coldest.celsius() + MELTING);
        match Mass::from_fractional_grams(ice * 1000.0) {
            Some(ice) if ice <= self.water => Ok(WaterFor::Ice {
                ice,
                water: self.water - ice,
            }),
            _ => Ok(WaterFor::TooWarm),
        }
    }
}

impl MixedDough {
    /// A dough that was measured, checked.
    ///
    /// # Errors
    /// Temperatures that no water and no dough has, more ice than water.
    pub fn new(
        going: Going,
        water_at: Temperature,
        ice: Mass,
        dough_at: Temperature,
    ) -> Result<Self, InputError> {
        if !(0.0..=100.0).contains(&water_at.celsius()) {
            return Err(InputError::new(
                "water's temperature",
                &format!("{} degC", water_at.celsius()),
                problem!("no-water-temperature"),
                expected!("water-not-ice"),
            ));
        }
        if ice.is_negative() || ice > going.water {
            return Err(InputError::new(
                "ice",
                &format!("{} g", ice.grams()),
                problem!("ice-not-part"),
                expected!("part-of-water", water = going.water.grams()),
            ));
        }
        in_a_bakery("dough's temperature", dough_at)?;
        let mixed = Self {
            going,
            water_at,
            ice,
            dough_at,
        };
        let rise = mixed.rise();
        if !(-25.0..=25.0).contains(&rise) {
            return Err(InputError::new(
                "dough's temperature",
                &format!("{} degC", dough_at.celsius()),
                problem!("no-mixing", kelvin = format!("{rise:.0}")),
                expected!("dough-again"),
            ));
        }
        Ok(mixed)
    }

    /// What mixing and the room added, in kelvin.
    #[must_use]
    pub fn rise(&self) -> f64 {
        self.dough_at.celsius() - self.going.balance(self.water_at, self.ice)
    }
}

/// Water by the trade's arithmetic: the wanted temperature once for each thing
/// known and once for the water, less what is known and the friction. `known`
/// are flour, room and, where there is one, what was made beforehand; friction
/// and answer are in degrees of one scale.
///
/// It gives every part the same weight, whatever there is of it, so a friction
/// found with cold water errs with warm: the balance of heat is better where
/// doughs of one's own were measured.
///
/// # Errors
/// Nothing known, a friction outside −20 to 40 K, and an answer that is no
/// temperature.
pub fn water_by_rule(
    wanted: Temperature,
    known: &[Temperature],
    friction_kelvin: f64,
) -> Result<Temperature, InputError> {
    if known.is_empty() {
        return Err(InputError::new(
            "known temperatures",
            "none",
            problem!("too-few"),
            expected!("flour-and-room"),
        ));
    }
    if !(-20.0..=40.0).contains(&friction_kelvin) {
        return Err(InputError::new(
            "friction",
            &format!("{friction_kelvin} K"),
            problem!("no-mixers"),
            expected!("friction"),
        ));
    }
    let known_sum: f64 = known.iter().map(|at| at.celsius()).sum();
    let at = wanted.celsius() * (known.len() + 1) as f64 - known_sum - friction_kelvin;
    Temperature::from_celsius(at).ok_or_else(|| no_temperature(at))
}

fn kilograms(mass: Mass) -> f64 {
    mass.grams() / 1000.0
}

fn no_temperature(celsius: f64) -> InputError {
    InputError::new(
        "water",
        &format!("{celsius} degC"),
        problem!("no-temperature"),
        expected!("look-again"),
    )
}

fn in_a_bakery(field: &str, at: Temperature) -> Result<(), InputError> {
    if (-30.0..=60.0).contains(&at.celsius()) {
        return Ok(());
    }
    Err(InputError::new(
        field,
        &format!("{} degC", at.celsius()),
        problem!("not-in-a-dough"),
        expected!("dough-degrees"),
    ))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn fahrenheit(degrees: f64) -> Temperature {
        Temperature::from_fahrenheit(degrees).unwrap()
    }

    fn celsius(degrees: f64) -> Temperature {
        Temperature::from_celsius(degrees).unwrap()
    }

    fn plain(flour_at: f64) -> Going {
        Going::new(
            Mass::from_grams(1000),
            celsius(flour_at),
            Mass::from_grams(700),
            None,
        )
        .unwrap()
    }

    /// Wanted 75 °F, flour 65, room 65, friction 8: water at 87 °F. Quoted: a
    /// baker's notes of the source named in [`RULE`].
    /// Wanted 80, flour 65, room 75, friction 35: 65 °F. Read: a trade
    /// magazine's page on finished dough temperature, 2018.
    /// Wanted 75, room, flour and starter 71, friction 20: 67 °F. Read: a
    /// cooking magazine's page on water temperature for a loaf.
    #[test]
    fn the_rule_gives_what_published_examples_give() {
        for (wanted, known, friction, water) in [
            (75.0, &[65.0, 65.0][..], 8.0, 87.0),
            (80.0, &[65.0, 75.0], 35.0, 65.0),
            (75.0, &[71.0, 71.0, 71.0], 20.0, 67.0),
        ] {
            let known: Vec<Temperature> = known.iter().map(|at| fahrenheit(*at)).collect();
            let at = water_by_rule(fahrenheit(wanted), &known, friction / 1.8).unwrap();
            assert!(
                (at.fahrenheit() - water).abs() < 0.02,
                "{}",
                at.fahrenheit()
            );
        }
    }

    /// A kilogram of flour at 20 °C (1.8 kJ/K) and 700 g of water at 30 °C
    /// (2.933 kJ/K) meet at (36 + 87.99) / 4.733 = 26.197 °C, by hand.
    #[test]
    fn a_balance_done_by_hand() {
        let at = plain(20.0).balance(celsius(30.0), Mass::ZERO);
        assert!((at - 26.197).abs() < 0.001, "{at}");
    }

    #[test]
    fn the_water_that_is_asked_for_makes_the_dough_that_was_wanted() {
        for (flour_at, wanted, rise, coldest) in [
            (20.0, 24.0, 3.0, 8.0),
            (28.0, 24.0, 6.0, 16.0),
            (5.0, 26.0, 1.0, 10.0),
        ] {
            let going = plain(flour_at);
            let (at, ice) = match going
                .water_for(celsius(wanted), rise, celsius(coldest))
                .unwrap()
            {
                WaterFor::Water { at } => (at, Mass::ZERO),
                WaterFor::Ice { ice, water } => {
                    assert_eq!(ice + water, going.water);
                    (celsius(coldest), ice)
                }
                other => panic!("{other:?}"),
            };
            let dough = going.balance(at, ice) + rise;
            assert!((dough - wanted).abs() < 0.01, "{dough} for {wanted}");
        }
    }

    /// The trade's rule for ice: water times the degrees it is too warm, over
    /// the tap's degrees and 80. From memory. It is for water by itself, so the
    /// balance must come to the same where nothing else is warmed or cooled.
    #[test]
    fn ice_comes_to_what_the_trade_reckons() {
        let going = Going::new(
            Mass::from_micrograms(1),
            celsius(10.0),
            Mass::from_grams(1000),
            None,
        )
        .unwrap();
        let WaterFor::Ice { ice, .. } = going.water_for(celsius(10.0), 0.0, celsius(20.0)).unwrap()
        else {
            panic!("no ice");
        };
        assert!((ice.grams() - 1000.0 * 10.0 / 100.0).abs() < 1.0, "{ice:?}");
    }

    #[test]
    fn what_water_cannot_do_is_said() {
        // 300 g of ice take 100 kJ in; (1.8 + 1.257) * (5 - 20) - 1.8 * 55 asks for 145.
        let little_water = Going::new(
            Mass::from_grams(1000),
            celsius(55.0),
            Mass::from_grams(300),
            None,
        )
        .unwrap();
        assert_eq!(
            little_water
                .water_for(celsius(5.0), 20.0, celsius(15.0))
                .unwrap(),
            WaterFor::TooWarm
        );
        assert!(matches!(
            plain(0.0)
                .water_for(celsius(35.0), 0.0, celsius(15.0))
                .unwrap(),
            WaterFor::TooCold { .. }
        ));
        assert!(
            plain(20.0)
                .water_for(celsius(90.0), 0.0, celsius(15.0))
                .is_err()
        );
        assert!(
            plain(20.0)
                .water_for(celsius(24.0), 0.0, celsius(-2.0))
                .is_err()
        );
        assert!(water_by_rule(celsius(24.0), &[], 5.0).is_err());
        assert!(water_by_rule(celsius(24.0), &[celsius(20.0)], f64::NAN).is_err());
    }

    #[test]
    fn a_rise_comes_from_doughs_that_were_measured() {
        let going = plain(20.0);
        let mixed = |rise: f64| {
            let out = going.balance(celsius(15.0), Mass::ZERO) + rise;
            MixedDough::new(going, celsius(15.0), Mass::ZERO, celsius(out)).unwrap()
        };
        assert_eq!(Rise::of(&[]), None);
        let two = Rise::of(&[mixed(4.0), mixed(6.0)]).unwrap();
        assert_eq!((two.doughs, two.give_or_take), (2, None));
        assert!((two.kelvin - 5.0).abs() < 0.002);
        // Mean 5, s = 1, n = 3: t(0.9; 2) = 1.886 (a table of Student's t, from
        // memory) times sqrt(1 + 1/3).
        let three = Rise::of(&[mixed(4.0), mixed(5.0), mixed(6.0)]).unwrap();
        assert!((three.give_or_take.unwrap() - 1.886 * (4.0f64 / 3.0).sqrt()).abs() < 0.01);
        assert!(
            MixedDough::new(going, celsius(15.0), Mass::ZERO, celsius(58.0))
                .unwrap_err()
                .to_string()
                .contains("which no mixing does")
        );
    }
}
