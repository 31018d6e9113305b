//! What a piece lies in: water, salt, and sauces or pastes with a salt of their
//! own.

use crate::source::Publication;
use crate::units::Reason;
use crate::units::{InputError, Ratio, mass_positive, parse_percent};
use crate::written_name;
use evenhand_protocol::Mass;

/// Labels that give sodium: salt is 2.5 times as much.
pub const SALT_OF_SODIUM: Publication =
    Publication::quoted("Regulation (EU) No 1169/2011, annex I: salt is sodium times 2.5");
const OF_SODIUM: f64 = 2.5;

/// A sauce or a paste, by its label.
#[derive(Debug, Clone, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct Labelled {
    name: String,
    #[serde(rename = "micrograms")]
    mass: Mass,
    salt_percent: f64,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    water_percent: Option<f64>,
}

impl Labelled {
    /// So much of it, with so much salt and so much water in it. Where nobody
    /// knows the water, what is not salt counts as water: the bath is then
    /// weaker on paper than it is.
    ///
    /// # Errors
    /// A name or a mass that is none, salt that is none or over 50 %, salt and
    /// water over 100 % together.
    pub fn new(
        name: &str,
        mass: Mass,
        salt_percent: f64,
        water_percent: Option<f64>,
    ) -> Result<Self, InputError> {
        let name = written_name::name("name", name, 60, "light soy sauce")?;
        let field = |what: &str| format!("{name}, {what}");
        if mass <= Mass::ZERO {
            return Err(InputError::new(
                &field("mass"),
                &format!("{} g", mass.grams()),
                problem!("not-above-zero"),
                expected!("goes-in"),
            ));
        }
        if !(salt_percent > 0.0 && salt_percent <= 50.0) {
            return Err(InputError::new(
                &field("salt"),
                &format!("{salt_percent} %"),
                problem!("no-sauce"),
                expected!("label-salt"),
            ));
        }
        if let Some(water) = water_percent
            && !(water >= 0.0 && water + salt_percent <= 100.0)
        {
            return Err(InputError::new(
                &field("water"),
                &format!("{water} %"),
                problem!("not-with-its-salt"),
                expected!("salt-and-water"),
            ));
        }
        Ok(Self {
            name,
            mass,
            salt_percent,
            water_percent,
        })
    }

    /// Reads `soy sauce=150g,salt=16%,water=65%`; `sodium=6.4%` where the label
    /// gives that, and `water` left out where nobody knows.
    ///
    /// # Errors
    /// Anything else, with what was expected; otherwise as for
    /// [`Labelled::new`].
    pub fn parse(field: &str, text: &str) -> Result<Self, InputError> {
        let wrong =
            |problem: Reason| InputError::new(field, text, problem, expected!("as-its-label"));
        let mut parts = text.split(',');
        let (name, mass) = parts
            .next()
            .and_then(|first| first.split_once('='))
            .ok_or_else(|| wrong(problem!("no-name-with-mass")))?;
        let mass = mass_positive(field, mass)?;
        let (mut salt, mut water) = (None, None);
        for part in parts {
            let (key, value) = part
                .split_once('=')
                .ok_or_else(|| wrong(problem!("not-understood")))?;
            let value = parse_percent(field, value)?;
            let known = match key.trim() {
                "salt" => &mut salt,
                "sodium" => {
                    if salt.replace(value * OF_SODIUM).is_some() {
                        return Err(wrong(problem!("salt-twice")));
                    }
                    continue;
                }
                "water" => &mut water,
                _ => return Err(wrong(problem!("neither-salt-nor-water"))),
            };
            if known.replace(value).is_some() {
                return Err(wrong(problem!("same-twice")));
            }
        }
        let salt = salt.ok_or_else(|| wrong(problem!("no-salt-said")))?;
        Self::new(name, mass, salt, water)
    }

    /// Its name.
    #[must_use]
    pub fn name(&self) -> &str {
        &self.name
    }

    /// Whether somebody said how much of it is water.
    #[must_use]
    pub const fn water_is_known(&self) -> bool {
        self.water_percent.is_some()
    }

    fn salt(&self) -> f64 {
        self.mass.grams() * self.salt_percent / 100.0
    }

    fn water(&self) -> f64 {
        let percent = self.water_percent.unwrap_or(100.0 - self.salt_percent);
        self.mass.grams() * percent / 100.0
    }
}

/// A brine or a marinade, as it was made.
#[derive(Debug, Clone, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct Bath {
    #[serde(rename = "water_micrograms")]
    water: Mass,
    #[serde(rename = "salt_micrograms")]
    salt: Mass,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    labelled: Vec<Labelled>,
}

impl Bath {
    /// Water, salt, and what has a salt of its own.
    ///
    /// # Errors
    /// No salt in any of it, no water, or more salt than the water dissolves.
    pub fn new(water: Mass, salt: Mass, labelled: Vec<Labelled>) -> Result<Self, InputError> {
        let bath = Self {
            water,
            salt,
            labelled,
        };
        let (salt, water) = (bath.salt_grams(), bath.water_grams());
        let said = format!("{salt:.1} g of salt in {water:.1} g of water");
        if salt <= 0.0 {
            return Err(InputError::new(
                "salt",
                &said,
                problem!("no-salt"),
                expected!("write-the-salt"),
            ));
        }
        // 26.395 % of solution is saturation at 60 °F, 35.86 g to 100 g of water: brine/strength.
        if water <= 0.0 || salt / water > 0.3586 {
            return Err(InputError::new(
                "water",
                &said,
                problem!("more-than-dissolves"),
                expected!("more-water"),
            ));
        }
        Ok(bath)
    }

    /// What has a salt of its own.
    #[must_use]
    pub fn labelled(&self) -> &[Labelled] {
        &self.labelled
    }

    /// All of it.
    #[must_use]
    pub fn mass(&self) -> Mass {
        self.water + self.salt + self.labelled.iter().map(|part| part.mass).sum::<Mass>()
    }

    /// Salt over all of the bath's mass.
    #[must_use]
    pub fn strength(&self) -> Ratio {
        Ratio::new(self.salt_grams() / self.grams()).unwrap_or(Ratio::ZERO)
    }

    pub(super) fn salt_grams(&self) -> f64 {
        self.salt.grams() + self.labelled.iter().map(Labelled::salt).sum::<f64>()
    }

    pub(super) fn water_grams(&self) -> f64 {
        self.water.grams() + self.labelled.iter().map(Labelled::water).sum::<f64>()
    }

    pub(super) fn grams(&self) -> f64 {
        self.mass().grams()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_label_counts_by_its_salt_and_its_water() {
        let soy = Labelled::parse("--with", "light soy=150g, sodium=6.4%,water=65 %").unwrap();
        assert_eq!(
            soy,
            Labelled::new("light soy", Mass::from_grams(150), 16.0, Some(65.0)).unwrap()
        );
        let paste = Labelled::parse("--with", "bean paste=100g,salt=12%").unwrap();
        assert!(!paste.water_is_known());
        let bath = Bath::new(Mass::from_grams(350), Mass::ZERO, vec![soy, paste]).unwrap();
        // By hand: 24 and 12 g of salt; 350, 97.5 and 88 g of water.
        assert!((bath.salt_grams() - 36.0).abs() < 1e-9);
        assert!((bath.water_grams() - 535.5).abs() < 1e-9);
        assert!((bath.strength().percent() - 6.0).abs() < 1e-9);
        for bad in [
            "soy",
            "soy=150g",
            "soy=150g,salt=60%",
            "soy=150g,salt=16%,water=90%",
            "soy=150g,salt=16%,salt=16%",
            "soy=150g,salt=16%,sodium=6%",
            "soy=150g,fat=3%",
            "soy=-1g,salt=3%",
            "=10g,salt=3%",
        ] {
            assert!(Labelled::parse("--with", bad).is_err(), "{bad}");
        }
        assert!(Bath::new(Mass::from_grams(100), Mass::from_grams(40), vec![]).is_err());
        assert!(Bath::new(Mass::from_grams(100), Mass::ZERO, vec![]).is_err());
    }
}
