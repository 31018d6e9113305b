//! Ingoing nitrite from what is weighed, and what to weigh for so much of it.

use super::method::Sum;
use super::{CuringAgent, Limit, Method, PickUp, Ppm, USUAL_MINIMUM};
use crate::brine::{above_zero, not_negative};
use crate::units::InputError;
use evenhand_protocol::Mass;

/// What there is to reckon with, not all of it needed for every method.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Amounts {
    /// Raw weight of the meat, without bone where there is much of it.
    pub meat: Option<Mass>,
    /// The pickle without the curing agent: water, salt, sugar and all.
    pub pickle: Option<Mass>,
    /// The share of its raw weight that the meat takes up.
    pub pick_up: Option<PickUp>,
    /// Whether it is bacon with the skin on.
    pub skin_on: bool,
}

/// One way of curing with all that its sum needs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Curing {
    method: Method,
    amounts: Amounts,
    basis: BasisOfSum,
}

/// What a sum divides by, without the agent.
#[derive(Debug, Clone, Copy, PartialEq)]
enum BasisOfSum {
    Meat(f64),
    Pickle { grams: f64, pick_up: f64 },
    Both(f64),
}

impl BasisOfSum {
    fn ppm(self, agent: f64, nitrite: f64) -> f64 {
        let nitrite = agent * nitrite * 1e6;
        match self {
            Self::Meat(meat) => nitrite / meat,
            Self::Pickle { grams, pick_up } => nitrite * pick_up / (grams + agent),
            Self::Both(both) => nitrite / (both + agent),
        }
    }

    /// The agent for so much, in grams; negative or infinite where no amount
    /// reaches it.
    fn agent(self, ppm: f64, nitrite: f64) -> f64 {
        match self {
            Self::Meat(meat) => ppm * meat / (1e6 * nitrite),
            Self::Pickle { grams, pick_up } => ppm * grams / (1e6 * nitrite * pick_up - ppm),
            Self::Both(both) => ppm * both / (1e6 * nitrite - ppm),
        }
    }
}

impl Curing {
    /// A way of curing so much.
    ///
    /// # Errors
    /// An amount that the method needs and is missing, an amount of nothing
    /// or less, skin on meat that is no bacon.
    pub fn new(method: Method, amounts: Amounts) -> Result<Self, InputError> {
        if amounts.skin_on && !method.is_bacon() {
            return Err(InputError::new(
                "skin on",
                method.name(),
                "is not bacon",
                "the rule for skin is one for bacon",
            ));
        }
        let missing = |field: &str, expected: &str| {
            InputError::new(field, "", format!("is missing for {method}"), expected)
        };
        let checked = |field: &str, mass: Option<Mass>| match mass {
            Some(mass) => above_zero(field, mass).map(|()| Some(mass.grams())),
            None => Ok(None),
        };
        let meat = checked("meat", amounts.meat)?;
        let pickle = checked("pickle", amounts.pickle)?;
        let meat = || meat.ok_or_else(|| missing("meat", "the raw weight of the meat is needed"));
        let pickle = || {
            pickle.ok_or_else(|| {
                missing(
                    "pickle",
                    "the weight of the water, salt and sugar is needed",
                )
            })
        };
        let basis = match method.sum() {
            Sum::OnMeat => BasisOfSum::Meat(meat()?),
            Sum::Together => BasisOfSum::Both(meat()? + pickle()?),
            Sum::ByPickUp => BasisOfSum::Pickle {
                grams: pickle()?,
                pick_up: amounts
                    .pick_up
                    .ok_or_else(|| {
                        missing(
                            "pickup",
                            "the share of its raw weight that the meat takes up is needed",
                        )
                    })?
                    .parts(),
            },
        };
        Ok(Self {
            method,
            amounts,
            basis,
        })
    }

    /// The way of curing.
    #[must_use]
    pub const fn method(&self) -> Method {
        self.method
    }

    /// The limit that holds.
    #[must_use]
    pub fn limit(&self) -> Limit {
        let limit = Limit::of(self.method);
        if self.amounts.skin_on {
            limit.with_skin()
        } else {
            limit
        }
    }

    /// Ingoing nitrite with so much of the agent, weighed to within an
    /// expanded uncertainty (coverage factor 2); zero where it is not asked.
    ///
    /// # Errors
    /// Less agent than none, a negative uncertainty.
    pub fn ingoing(
        &self,
        agent: &CuringAgent,
        weighed: Mass,
        within: Mass,
    ) -> Result<Ingoing, InputError> {
        not_negative("agent", weighed)?;
        not_negative("scale uncertainty", within)?;
        let nitrite = agent.nitrite().parts();
        let of = |grams: f64| self.basis.ppm(grams, nitrite);
        let ppm = of(weighed.grams());
        let doubt = (of(weighed.grams() + within.grams()) - ppm).abs();
        let (limit, minimum) = (self.limit(), USUAL_MINIMUM);
        // A hair for arithmetic: far below what any scale could tell.
        let hair = 1e-6;
        let verdict = if ppm > limit.at_most.value() + hair {
            Verdict::OverLimit
        } else if within > Mass::ZERO && ppm + doubt > limit.at_most.value() + hair {
            Verdict::TooCloseToLimit
        } else if ppm < minimum.at_most.value() - hair {
            Verdict::UnderUsualMinimum
        } else {
            Verdict::WithinLimit
        };
        Ok(Ingoing {
            method: self.method,
            ppm: Ppm::new("agent", ppm)?,
            doubt: Ppm::new("scale uncertainty", doubt)?,
            limit,
            minimum,
            verdict,
            other_way: self.other_way(weighed, nitrite),
        })
    }

    /// The same immersion reckoned the other way, where there is enough to do
    /// it with.
    fn other_way(&self, weighed: Mass, nitrite: f64) -> Option<(Method, Ppm)> {
        let other = Self::new(self.method.other_way()?, self.amounts).ok()?;
        let ppm = Ppm::new("agent", other.basis.ppm(weighed.grams(), nitrite)).ok()?;
        Some((other.method, ppm))
    }

    /// How much of the agent brings so much ingoing nitrite; rounded down, so
    /// that it is never over.
    ///
    /// # Errors
    /// A target of nothing, over the limit, or more than the pickle could
    /// bring if it were all curing agent.
    pub fn dose(&self, agent: &CuringAgent, target: Ppm) -> Result<Mass, InputError> {
        let wrong = |problem: String, expected: String| {
            Err(InputError::new(
                "target",
                &target.to_string(),
                problem,
                expected,
            ))
        };
        let limit = self.limit();
        if target.value() <= 0.0 {
            return wrong(
                "is no nitrite at all".to_owned(),
                "it must be above zero".to_owned(),
            );
        }
        if target > limit.at_most {
            return wrong(
                format!("is over the limit for {}", self.method),
                format!("at most {} by {}", limit.at_most, limit.source),
            );
        }
        let grams = self.basis.agent(target.value(), agent.nitrite().parts());
        if !(grams.is_finite() && grams > 0.0) {
            return wrong(
                "is more than this agent can bring that way".to_owned(),
                "take an agent with more nitrite, or let the meat take up more pickle".to_owned(),
            );
        }
        // Down to a whole microgram.
        match Mass::from_fractional_grams((grams * 1e6).floor() / 1e6) {
            Some(mass) if mass > Mass::ZERO => Ok(mass),
            _ => wrong(
                "needs less agent than a microgram, or more than can be held".to_owned(),
                "check the amounts".to_owned(),
            ),
        }
    }

    /// The amount of what the sum divides by, meat or pickle or both, that so
    /// much agent would be right for at the limit: what it would take to bring
    /// an overdose down, where there is more to be had.
    #[must_use]
    pub fn would_need(&self, agent: &CuringAgent, weighed: Mass) -> Option<Mass> {
        let nitrite = weighed.grams() * agent.nitrite().parts() * 1e6;
        let limit = self.limit().at_most.value();
        let grams = match self.basis {
            BasisOfSum::Meat(_) => nitrite / limit,
            BasisOfSum::Pickle { pick_up, .. } => nitrite * pick_up / limit - weighed.grams(),
            BasisOfSum::Both(_) => nitrite / limit - weighed.grams(),
        };
        Mass::from_fractional_grams(grams.max(0.0))
    }
}

/// What a figure of ingoing nitrite comes to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Verdict {
    /// Above the limit.
    OverLimit,
    /// Not above it, but the scale's uncertainty reaches over it.
    TooCloseToLimit,
    /// Below what is usual for meat kept refrigerated.
    UnderUsualMinimum,
    /// Neither.
    WithinLimit,
}

impl Verdict {
    /// Whether a batch may be marked ready for the next step with it.
    #[must_use]
    pub const fn lets_pass(self) -> bool {
        !matches!(self, Self::OverLimit | Self::TooCloseToLimit)
    }
}

/// Ingoing nitrite, what was worked out and against what.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ingoing {
    /// The way it was reckoned.
    pub method: Method,
    /// How much.
    pub ppm: Ppm,
    /// Expanded uncertainty (k = 2) from weighing the agent.
    pub doubt: Ppm,
    /// The limit.
    pub limit: Limit,
    /// The usual minimum.
    pub minimum: Limit,
    /// What it comes to.
    pub verdict: Verdict,
    /// The same immersion reckoned the other way, for comparison.
    pub other_way: Option<(Method, Ppm)>,
}

impl core::fmt::Display for Ingoing {
    /// One or two sentences that say what was found against which limit.
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        let Self {
            ppm,
            limit,
            minimum,
            ..
        } = self;
        match self.verdict {
            Verdict::OverLimit => write!(
                f,
                "over the limit: {ppm:.1} of ingoing nitrite, at most {} for {} by {}; not ready",
                limit.at_most, self.method, limit.source
            ),
            Verdict::TooCloseToLimit => write!(
                f,
                "too close to the limit: {ppm:.1} of ingoing nitrite, give or take {:.1}, at most {} for {} by {}; \
                 not ready",
                self.doubt, limit.at_most, self.method, limit.source
            ),
            Verdict::UnderUsualMinimum => write!(
                f,
                "under the usual minimum: {ppm:.1} of ingoing nitrite; {} is usual for cured meat kept refrigerated \
                 by {}; at most {} for {} by {}",
                minimum.at_most, minimum.source, limit.at_most, self.method, limit.source
            ),
            Verdict::WithinLimit => write!(
                f,
                "{ppm:.1} of ingoing nitrite, at most {} for {} by {}",
                limit.at_most, self.method, limit.source
            ),
        }?;
        if let Some((other, ppm)) = self.other_way {
            write!(f, "; reckoned as {other} it would be {ppm:.1}")?;
            if ppm > limit.at_most {
                f.write_str(", which is over the limit")?;
            }
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cure::{Contents, NitriteFraction};

    fn agent(percent: f64) -> CuringAgent {
        let nitrite = NitriteFraction::new("nitrite", percent / 100.0).unwrap();
        CuringAgent::from_label("curing salt", Contents::SodiumNitrite, nitrite).unwrap()
    }

    fn amounts() -> Amounts {
        Amounts {
            meat: Some(Mass::from_grams(5000)),
            pickle: Some(Mass::from_grams(3000)),
            pick_up: Some(PickUp::from_percent("pickup", 10.0).unwrap()),
            skin_on: false,
        }
    }

    #[test]
    fn every_dose_gives_back_its_target() {
        for method in Method::ALL {
            let curing = Curing::new(method, amounts()).unwrap();
            for nitrite in [0.6, 6.25, 100.0] {
                for part in [0.2, 0.7, 1.0] {
                    let target = Ppm::new("t", curing.limit().at_most.value() * part).unwrap();
                    let Ok(dose) = curing.dose(&agent(nitrite), target) else {
                        // The weakest agent cannot bring a pumped pickle to the limit.
                        assert!(nitrite < 1.0, "{method} {nitrite} {part}");
                        continue;
                    };
                    let ingoing = curing.ingoing(&agent(nitrite), dose, Mass::ZERO).unwrap();
                    assert!(
                        (ingoing.ppm.value() - target.value()).abs() < 1e-2
                            && ingoing.ppm.value() <= target.value() + 1e-9,
                        "{method} {nitrite} {target:.3}: {ingoing}"
                    );
                    assert!(ingoing.verdict.lets_pass());
                }
            }
        }
    }

    #[test]
    fn over_the_limit_is_not_ready_and_says_why() {
        let curing = Curing::new(Method::Comminuted, amounts()).unwrap();
        let ingoing = curing
            .ingoing(&agent(6.25), Mass::from_grams(20), Mass::ZERO)
            .unwrap();
        assert_eq!(ingoing.verdict, Verdict::OverLimit);
        assert!(!ingoing.verdict.lets_pass());
        let words = ingoing.to_string();
        assert!(
            words.contains("250.0 ppm")
                && words.contains("at most 156 ppm")
                && words.contains("424.21"),
            "{words}"
        );
        assert_eq!(
            curing
                .would_need(&agent(6.25), Mass::from_grams(20))
                .unwrap()
                .grams()
                .round(),
            8013.0
        );
        assert_eq!(
            curing
                .dose(&agent(6.25), Ppm::new("t", 157.0).unwrap())
                .unwrap_err()
                .field(),
            "target"
        );
    }

    #[test]
    fn a_straddling_weighing_is_not_ready_either() {
        let curing = Curing::new(Method::Comminuted, amounts()).unwrap();
        let dose = curing
            .dose(&agent(6.25), Ppm::new("t", 156.0).unwrap())
            .unwrap();
        let ingoing = curing
            .ingoing(&agent(6.25), dose, Mass::from_milligrams(100))
            .unwrap();
        assert_eq!(ingoing.verdict, Verdict::TooCloseToLimit);
        assert!((ingoing.doubt.value() - 1.25).abs() < 1e-9);
    }

    #[test]
    fn under_the_usual_minimum_is_said() {
        let curing = Curing::new(Method::DryCure, amounts()).unwrap();
        let ingoing = curing
            .ingoing(&agent(6.25), Mass::from_grams(5), Mass::ZERO)
            .unwrap();
        assert_eq!(ingoing.verdict, Verdict::UnderUsualMinimum);
        assert!(
            ingoing.to_string().contains("120 ppm is usual"),
            "{ingoing}"
        );
        assert!(ingoing.verdict.lets_pass());
    }

    #[test]
    fn the_two_ways_of_immersion_are_both_shown() {
        let curing = Curing::new(Method::ImmersionPickUp, amounts()).unwrap();
        let ingoing = curing
            .ingoing(&agent(6.25), Mass::from_grams(20), Mass::ZERO)
            .unwrap();
        let (other, ppm) = ingoing.other_way.unwrap();
        assert_eq!(other, Method::ImmersionEquilibrium);
        assert!((ingoing.ppm.value() - 1.25 * 0.1 * 1e6 / 3020.0).abs() < 1e-9);
        assert!((ppm.value() - 1.25e6 / 8020.0).abs() < 1e-9);
    }

    #[test]
    fn skin_takes_a_tenth_off_the_limit_of_bacon_alone() {
        let skin_on = Amounts {
            skin_on: true,
            ..amounts()
        };
        let limit = Curing::new(Method::BaconDryCure, skin_on).unwrap().limit();
        assert!((limit.at_most.value() - 180.0).abs() < 1e-9);
        assert!(Curing::new(Method::DryCure, skin_on).is_err());
    }

    #[test]
    fn what_is_missing_is_named() {
        for (method, without, field) in [
            (
                Method::Comminuted,
                Amounts {
                    meat: None,
                    ..amounts()
                },
                "meat",
            ),
            (
                Method::Comminuted,
                Amounts {
                    meat: Some(Mass::ZERO),
                    ..amounts()
                },
                "meat",
            ),
            (
                Method::Pumped,
                Amounts {
                    pickle: None,
                    ..amounts()
                },
                "pickle",
            ),
            (
                Method::Pumped,
                Amounts {
                    pick_up: None,
                    ..amounts()
                },
                "pickup",
            ),
            (
                Method::ImmersionEquilibrium,
                Amounts {
                    pickle: None,
                    ..amounts()
                },
                "pickle",
            ),
        ] {
            assert_eq!(
                Curing::new(method, without).unwrap_err().field(),
                field,
                "{method}"
            );
        }
        let curing = Curing::new(Method::Comminuted, amounts()).unwrap();
        assert!(
            curing
                .ingoing(&agent(6.25), Mass::from_grams(-1), Mass::ZERO)
                .is_err()
        );
        assert!(
            curing
                .dose(&agent(6.25), Ppm::new("t", 0.0).unwrap())
                .is_err()
        );
        // An agent with hardly any nitrite, hardly taken up.
        let weak = Amounts {
            pick_up: Some(PickUp::from_percent("pickup", 1.0).unwrap()),
            ..amounts()
        };
        let error = Curing::new(Method::Pumped, weak)
            .unwrap()
            .dose(&agent(0.6), Ppm::new("t", 200.0).unwrap())
            .unwrap_err();
        assert!(
            error.to_string().contains("more than this agent can bring"),
            "{error}"
        );
    }
}
