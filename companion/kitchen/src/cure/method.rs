//! The ways of curing, and how each is reckoned.

use crate::units::{InputError, parse_percent};
use evenhand_protocol::Mass;

/// A way of bringing nitrite into meat. Immersion is reckoned in one of two
/// ways whose answers differ much, so the way is part of the name.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Method {
    /// Ground or chopped meat, the agent mixed in.
    Comminuted,
    /// Pickle pumped, injected or massaged in; not bacon.
    Pumped,
    /// Lain in pickle, reckoned by the weight it picks up; not bacon.
    #[serde(rename = "immersion-pickup")]
    ImmersionPickUp,
    /// Lain in pickle until meat and pickle are alike; not bacon.
    ImmersionEquilibrium,
    /// Rubbed dry; not bacon.
    #[serde(rename = "dry")]
    DryCure,
    /// Bacon, pumped.
    BaconPumped,
    /// Bacon lain in pickle, reckoned by the weight it picks up.
    #[serde(rename = "bacon-immersion-pickup")]
    BaconImmersionPickUp,
    /// Bacon lain in pickle until bacon and pickle are alike.
    BaconImmersionEquilibrium,
    /// Bacon rubbed dry.
    #[serde(rename = "bacon-dry")]
    BaconDryCure,
}

/// How the sum is done.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Sum {
    /// Nitrite over the raw meat.
    OnMeat,
    /// Nitrite in the pickle, times the share of its weight the meat takes up.
    ByPickUp,
    /// Nitrite over raw meat and pickle together.
    Together,
}

impl Method {
    /// Every one.
    pub const ALL: [Self; 9] = [
        Self::Comminuted,
        Self::Pumped,
        Self::ImmersionPickUp,
        Self::ImmersionEquilibrium,
        Self::DryCure,
        Self::BaconPumped,
        Self::BaconImmersionPickUp,
        Self::BaconImmersionEquilibrium,
        Self::BaconDryCure,
    ];

    /// Its name on the command line and on record.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Comminuted => "comminuted",
            Self::Pumped => "pumped",
            Self::ImmersionPickUp => "immersion-pickup",
            Self::ImmersionEquilibrium => "immersion-equilibrium",
            Self::DryCure => "dry",
            Self::BaconPumped => "bacon-pumped",
            Self::BaconImmersionPickUp => "bacon-immersion-pickup",
            Self::BaconImmersionEquilibrium => "bacon-immersion-equilibrium",
            Self::BaconDryCure => "bacon-dry",
        }
    }

    /// How it is reckoned, as a sentence beside the answer.
    #[must_use]
    pub const fn reckoning(self) -> &'static str {
        match self.sum() {
            Sum::OnMeat => "nitrite x 1000000 / raw weight of the meat",
            Sum::ByPickUp => {
                "nitrite x share of its weight the meat takes up x 1000000 / weight of the pickle"
            }
            Sum::Together => "nitrite x 1000000 / (raw weight of the meat + weight of the pickle)",
        }
    }

    /// What else the rule asks of this way, where it does.
    #[must_use]
    pub const fn also(self) -> Option<&'static str> {
        match self {
            Self::BaconPumped => Some(
                "pumped bacon also takes 550 ppm of sodium ascorbate or erythorbate (9 CFR 424.22(b)(1), \
                 read as quoted); weigh it as an ingredient of its own",
            ),
            _ => None,
        }
    }

    /// Whether it is for bacon.
    #[must_use]
    pub const fn is_bacon(self) -> bool {
        matches!(
            self,
            Self::BaconPumped
                | Self::BaconImmersionPickUp
                | Self::BaconImmersionEquilibrium
                | Self::BaconDryCure
        )
    }

    /// Whether the sum asks for the raw weight of the meat.
    #[must_use]
    pub const fn asks_meat(self) -> bool {
        matches!(self.sum(), Sum::OnMeat | Sum::Together)
    }

    /// Whether the sum asks for the weight of the pickle.
    #[must_use]
    pub const fn asks_pickle(self) -> bool {
        matches!(self.sum(), Sum::ByPickUp | Sum::Together)
    }

    /// Whether the sum asks for the share of its weight that the meat takes
    /// up.
    #[must_use]
    pub const fn asks_pick_up(self) -> bool {
        matches!(self.sum(), Sum::ByPickUp)
    }

    pub(super) const fn sum(self) -> Sum {
        match self {
            Self::Comminuted | Self::DryCure | Self::BaconDryCure => Sum::OnMeat,
            Self::Pumped
            | Self::ImmersionPickUp
            | Self::BaconPumped
            | Self::BaconImmersionPickUp => Sum::ByPickUp,
            Self::ImmersionEquilibrium | Self::BaconImmersionEquilibrium => Sum::Together,
        }
    }

    /// The same immersion reckoned the other way.
    pub(super) const fn other_way(self) -> Option<Self> {
        match self {
            Self::ImmersionPickUp => Some(Self::ImmersionEquilibrium),
            Self::ImmersionEquilibrium => Some(Self::ImmersionPickUp),
            Self::BaconImmersionPickUp => Some(Self::BaconImmersionEquilibrium),
            Self::BaconImmersionEquilibrium => Some(Self::BaconImmersionPickUp),
            _ => None,
        }
    }
}

impl core::fmt::Display for Method {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.pad(self.name())
    }
}

impl core::str::FromStr for Method {
    type Err = InputError;
    fn from_str(text: &str) -> Result<Self, InputError> {
        Self::ALL
            .into_iter()
            .find(|method| method.name() == text)
            .ok_or_else(|| {
                let names: Vec<&str> = Self::ALL.iter().map(|method| method.name()).collect();
                InputError::new(
                    "method",
                    text,
                    if text == "immersion" || text == "bacon-immersion" {
                        problem!("two-ways")
                    } else {
                        problem!("no-method")
                    },
                    expected!("one-of", names = names.join(", ")),
                )
            })
    }
}

/// The share of its raw weight that meat takes up of the pickle, pumped in or
/// soaked up: above nothing, at most all.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, serde::Serialize, serde::Deserialize)]
#[serde(try_from = "f64", into = "f64")]
pub struct PickUp(f64);

impl TryFrom<f64> for PickUp {
    type Error = InputError;
    fn try_from(percent: f64) -> Result<Self, InputError> {
        Self::from_percent("pickup", percent)
    }
}

impl From<PickUp> for f64 {
    /// In per cent.
    fn from(pick_up: PickUp) -> Self {
        pick_up.0 * 100.0
    }
}

impl PickUp {
    /// So many per cent of the raw weight.
    ///
    /// # Errors
    /// Not a finite number, not above zero, or above 100.
    pub fn from_percent(field: &str, value: f64) -> Result<Self, InputError> {
        if value.is_finite() && value > 0.0 && value <= 100.0 {
            Ok(Self(value / 100.0))
        } else {
            Err(InputError::new(
                field,
                &value.to_string(),
                if value <= 0.0 {
                    problem!("not-above-zero")
                } else {
                    problem!("no-pick-up")
                },
                expected!("pick-up"),
            ))
        }
    }

    /// Reads a number of per cent, with or without the sign.
    ///
    /// # Errors
    /// As for [`PickUp::from_percent`], and something that is no number.
    pub fn parse(field: &str, text: &str) -> Result<Self, InputError> {
        Self::from_percent(field, parse_percent(field, text)?)
    }

    /// From weighing the meat raw and again, drained, after curing.
    ///
    /// # Errors
    /// No meat, or meat that did not gain.
    pub fn weighed(raw: Mass, cured: Mass) -> Result<Self, InputError> {
        crate::brine::above_zero("raw weight", raw)?;
        Self::from_percent(
            "weight after curing",
            (cured - raw).grams() / raw.grams() * 100.0,
        )
        .map_err(|_| {
            InputError::new(
                "weight after curing",
                &format!("{} g", cured.grams()),
                problem!("no-gain", raw = raw.grams()),
                expected!("gain"),
            )
        })
    }

    /// In parts of one.
    #[must_use]
    pub const fn parts(self) -> f64 {
        self.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_read_back() {
        for method in Method::ALL {
            assert_eq!(method.name().parse(), Ok(method));
            let json = format!("\"{}\"", method.name());
            // The name on record is the name on the command line.
            assert_eq!(serde_plain(method), json);
        }
        let error = "immersion".parse::<Method>().unwrap_err();
        assert!(error.to_string().contains("two ways"), "{error}");
        assert!(
            "brining"
                .parse::<Method>()
                .unwrap_err()
                .to_string()
                .contains("immersion-pickup")
        );
    }

    fn serde_plain(method: Method) -> String {
        let value = toml::Value::try_from(method).unwrap();
        value.to_string()
    }

    #[test]
    fn pick_up_is_a_gain() {
        let grams = Mass::from_grams;
        assert!((PickUp::weighed(grams(1000), grams(1100)).unwrap().parts() - 0.1).abs() < 1e-12);
        assert!(PickUp::weighed(grams(1000), grams(1000)).is_err());
        assert!(PickUp::weighed(grams(1000), grams(950)).is_err());
        assert!(PickUp::weighed(Mass::ZERO, grams(950)).is_err());
        assert!(PickUp::parse("--pickup", "0").is_err());
        assert!(PickUp::parse("--pickup", "101%").is_err());
    }
}
