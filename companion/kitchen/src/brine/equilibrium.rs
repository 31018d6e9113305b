//! Brines and dry cures in which all of the salt ends up shared out: so much
//! salt on the meat, or on meat and water together.

use super::meat_water::MeatWater;
use super::mixing::grams;
use super::strength::{Strength, above_zero};
use crate::source::Publication;
use crate::units::Reason;
use crate::units::{InputError, bare_number, parse_percent_of_salt};
use evenhand_protocol::Mass;
use jiff::SignedDuration;

/// Salt as per cent of what it is shared out over: the meat, or meat and water
/// together. From just above nothing to 15.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, serde::Serialize)]
#[serde(transparent)]
pub struct SharedPercent(f64);

impl SharedPercent {
    /// So many per cent.
    ///
    /// # Errors
    /// Not a finite number, not above zero, or above 15.
    pub fn new(value: f64) -> Result<Self, InputError> {
        Self::named("salt, per cent of what it is shared over", value)
    }

    fn named(field: &str, value: f64) -> Result<Self, InputError> {
        let wrong = |problem: Reason| {
            Err(InputError::new(
                field,
                &value.to_string(),
                problem,
                expected!("shared-salt"),
            ))
        };
        if !value.is_finite() {
            wrong(problem!("no-number"))
        } else if value <= 0.0 {
            wrong(problem!("not-above-zero"))
        } else if value > 15.0 {
            wrong(problem!("too-salty"))
        } else {
            Ok(Self(value))
        }
    }

    /// Reads a number of per cent, with or without the sign.
    ///
    /// # Errors
    /// As for [`SharedPercent::new`], something that is no number, and a bare
    /// number that may be a fraction of one, such as 0.06.
    pub fn parse(field: &str, text: &str) -> Result<Self, InputError> {
        Self::named(field, parse_percent_of_salt(field, text)?)
    }

    /// In per cent.
    #[must_use]
    pub const fn percent(self) -> f64 {
        self.0
    }
}

/// Salt for an equilibrium brine: by weight of meat and water together, so
/// that meat and brine end up alike and the meat cannot be oversalted however
/// long it stays.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EquilibriumBrine {
    /// Salt to weigh.
    pub salt: Mass,
    /// How strong the brine is when the meat goes in.
    pub at_first: Strength,
    /// Salt over everything, in per cent, once it is shared out.
    pub in_the_end: SharedPercent,
    meat: Mass,
    water: Mass,
}

/// Salt in the meat and in the brine around it once it is shared out: alike in
/// the water of both, so less of the meat than of the brine.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct InTheMeat {
    /// Per cent of the salted meat's mass, by the middle of the meat's water,
    pub of_meat: f64,
    /// and from the least to the most by its range.
    pub of_meat_range: (f64, f64),
    /// Salt over the water of either, in per cent, by the middle,
    pub of_water: f64,
    /// and from the least to the most.
    pub of_water_range: (f64, f64),
}

impl EquilibriumBrine {
    /// What the meat comes to by the water in it.
    #[must_use]
    pub fn in_the_meat(&self, water: &MeatWater) -> InTheMeat {
        let (salt, meat, around) = (self.salt.grams(), self.meat.grams(), self.water.grams());
        let ends = |part: f64| {
            let of_water = salt / (around + part * meat);
            let in_meat = of_water * part * meat;
            (100.0 * in_meat / (meat + in_meat), 100.0 * of_water)
        };
        let (least, most) = water.range();
        let (middle, low, high) = (ends(water.percent / 100.0), ends(least), ends(most));
        InTheMeat {
            of_meat: middle.0,
            of_meat_range: (low.0, high.0),
            of_water: middle.1,
            // More water in the meat, weaker water.
            of_water_range: (high.1, low.1),
        }
    }
}

/// How much salt, for so much meat and water to end up with so much of it.
/// The meat is weighed without bone, which takes up next to none.
///
/// # Errors
/// No meat, no water, or so little water that the salt would not dissolve in
/// it.
pub fn equilibrium_brine(
    meat: Mass,
    water: Mass,
    salt: SharedPercent,
) -> Result<EquilibriumBrine, InputError> {
    above_zero("meat", meat)?;
    above_zero("water", water)?;
    let together = meat.grams() + water.grams();
    let weighed = grams("salt", together * salt.0 / 100.0)?;
    let at_first = Strength::of(weighed, water).map_err(|_| {
        InputError::new(
            "water",
            &format!("{} g", water.grams()),
            problem!("too-little-water", salt = weighed.grams()),
            expected!("more-water-or-dry"),
        )
    })?;
    Ok(EquilibriumBrine {
        salt: weighed,
        at_first,
        in_the_end: SharedPercent(100.0 * salt.0 / (100.0 + salt.0)),
        meat,
        water,
    })
}

/// How much salt for so much meat, rubbed on dry.
///
/// # Errors
/// No meat.
pub fn dry_salting(meat: Mass, salt: SharedPercent) -> Result<Mass, InputError> {
    above_zero("meat", meat)?;
    grams("salt", meat.grams() * salt.0 / 100.0)
}

/// A thickness above zero and at most half a metre.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, serde::Serialize)]
#[serde(transparent)]
pub struct Thickness(f64);

impl Thickness {
    /// So many millimetres, measured where the piece is thickest.
    ///
    /// # Errors
    /// Not a finite number, not above zero, or above 500.
    pub fn from_millimetres(field: &str, millimetres: f64) -> Result<Self, InputError> {
        if millimetres.is_finite() && millimetres > 0.0 && millimetres <= 500.0 {
            Ok(Self(millimetres))
        } else {
            Err(InputError::new(
                field,
                &format!("{millimetres} mm"),
                problem!("no-thickness"),
                expected!("thickness"),
            ))
        }
    }

    /// Reads a number of millimetres.
    ///
    /// # Errors
    /// As for [`Thickness::from_millimetres`], and something that is no
    /// number.
    pub fn parse(field: &str, text: &str) -> Result<Self, InputError> {
        Self::from_millimetres(field, bare_number(field, text, expected!("millimetres"))?)
    }

    /// In millimetres.
    #[must_use]
    pub const fn millimetres(self) -> f64 {
        self.0
    }
}

/// The trade's rule for curing time.
pub const TIME_RULE: Publication = Publication::common_practice(
    "6 to 7 mm of depth a day from each face, and up to two days more for good measure",
);

/// The diffusion of salt in meat.
pub const DIFFUSION: Publication = Publication::read(
    "Influence of Brine Concentration on Moisture and NaCl Transport During Meat Salting, in Water \
     Stress in Biological, Chemical, Pharmaceutical and Food Systems, Springer 2015: pork loin at \
     5 degC, (1.90 +/- 0.28) e-10 m2/s",
);

/// An estimate of how long a piece takes: a rule of thumb with its spread,
/// never a measurement and never a reason to leave out tasting or a check.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TimeEstimate {
    /// The trade's rule, shorter end ([`TIME_RULE`]).
    pub rule_from: SignedDuration,
    /// The trade's rule, longer end.
    pub rule_to: SignedDuration,
    /// Until salt is nine tenths of the way to even through a flat piece, at
    /// 5 °C, by diffusion ([`DIFFUSION`]), faster end of its spread.
    pub even_from: SignedDuration,
    /// The slower end of its spread.
    pub even_to: SignedDuration,
}

/// How long a piece of a thickness takes, salted from both faces in a cold
/// store.
#[must_use]
pub fn time_by_thickness(thickness: Thickness) -> TimeEstimate {
    const DAY: f64 = 86_400.0;
    // 1 - (8/pi^2) exp(-pi^2 Fo / 4) = 0.9, the first term of Fick's series for a slab with both
    // faces salted (Crank, The Mathematics of Diffusion; from memory).
    const FOURIER_NUMBER: f64 = 0.848;
    const SLOWEST: f64 = (1.90 - 2.0 * 0.28) * 1e-10;
    const FASTEST: f64 = (1.90 + 2.0 * 0.28) * 1e-10;
    let half = thickness.0 / 2.0;
    let seconds = |s: f64| SignedDuration::from_secs(s.round() as i64);
    let even = |diffusivity: f64| seconds(FOURIER_NUMBER * (half * 1e-3).powi(2) / diffusivity);
    TimeEstimate {
        rule_from: seconds(half / 7.0 * DAY),
        rule_to: seconds((half / 6.0 + 2.0) * DAY),
        even_from: even(FASTEST),
        even_to: even(SLOWEST),
    }
}

impl core::fmt::Display for TimeEstimate {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        let days = |duration: SignedDuration| duration.as_hours() as f64 / 24.0;
        write!(
            f,
            "rule of thumb: {:.1} to {:.1} days ({}); evened out right through only after {:.0} to {:.0} days",
            days(self.rule_from),
            days(self.rule_to),
            TIME_RULE,
            days(self.even_from),
            days(self.even_to),
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn salt_is_taken_on_meat_and_water_together() {
        let brine = equilibrium_brine(
            Mass::from_grams(6000),
            Mass::from_grams(4000),
            SharedPercent::new(2.0).unwrap(),
        )
        .unwrap();
        assert_eq!(brine.salt, Mass::from_grams(200));
        assert!((brine.at_first.of_water().percent() - 5.0).abs() < 1e-9);
        assert!((brine.in_the_end.percent() - 100.0 * 200.0 / 10_200.0).abs() < 1e-9);
        assert_eq!(
            dry_salting(Mass::from_grams(2000), SharedPercent::new(2.5).unwrap()).unwrap(),
            Mass::from_grams(50)
        );
    }

    // Worked by hand: 200 g over 4 kg and 70 % of 6 kg, 8.2 kg of water, are 2.439 % of it; the meat
    // holds 4.2 kg x 2.439 % = 102.4 g in 6102.4 g, 1.679 %, not the 1.96 % of everything.
    #[test]
    fn the_meat_comes_to_less_than_the_whole_by_its_water() {
        let brine = equilibrium_brine(
            Mass::from_grams(6000),
            Mass::from_grams(4000),
            SharedPercent::new(2.0).unwrap(),
        )
        .unwrap();
        let meat = brine.in_the_meat(&MeatWater::parse("kind", "70%").unwrap());
        assert!((meat.of_water - 2.439).abs() < 1e-3, "{meat:?}");
        assert!((meat.of_meat - 1.679).abs() < 1e-3, "{meat:?}");
        let belly = brine.in_the_meat(&MeatWater::parse("kind", "pork-belly").unwrap());
        assert!(belly.of_meat_range.0 < belly.of_meat && belly.of_meat < belly.of_meat_range.1);
        assert!(belly.of_water_range.0 < belly.of_water);
        assert!(belly.of_meat < meat.of_meat);
    }

    #[test]
    fn nothing_to_salt_and_too_little_water_are_refused() {
        let three = SharedPercent::new(3.0).unwrap();
        let kilo = Mass::from_grams(1000);
        assert_eq!(
            equilibrium_brine(Mass::ZERO, kilo, three)
                .unwrap_err()
                .field(),
            "meat"
        );
        assert_eq!(dry_salting(Mass::ZERO, three).unwrap_err().field(), "meat");
        let error =
            equilibrium_brine(Mass::from_grams(10_000), Mass::from_grams(500), three).unwrap_err();
        assert_eq!(error.field(), "water");
        assert!(SharedPercent::new(0.0).is_err());
        assert!(SharedPercent::parse("--salt", "20").is_err());
    }

    #[test]
    fn twice_as_thick_takes_four_times_as_long_to_even_out() {
        let thick = |mm| time_by_thickness(Thickness::from_millimetres("t", mm).unwrap());
        let (thin, twice) = (thick(25.0), thick(50.0));
        assert!((twice.even_to.as_secs_f64() / thin.even_to.as_secs_f64() - 4.0).abs() < 1e-3);
        assert!(thin.rule_from < thin.rule_to && thin.even_from < thin.even_to);
        assert!(thin.to_string().starts_with("rule of thumb"));
        assert!(Thickness::from_millimetres("t", 0.0).is_err());
        assert!(Thickness::from_millimetres("t", f64::NAN).is_err());
    }

    // The first term of the series against the sum of many: at this Fourier number they agree.
    #[test]
    fn nine_tenths_are_nine_tenths() {
        let share: f64 = (0..200)
            .map(|n| {
                let odd = f64::from(2 * n + 1) * core::f64::consts::PI;
                8.0 / (odd * odd) * (-odd * odd * 0.848 / 4.0).exp()
            })
            .sum();
        assert!((1.0 - share - 0.9).abs() < 1e-3, "{share}");
    }
}
