//! Ingoing nitrite from what is weighed, and what to weigh for so much of it.

use super::limits::plain;
use super::method::Sum;
use super::{CountedAs, CuringAgent, Method, NitriteLimit, PickUp, Ppm};
use crate::brine::{above_zero, not_negative};
use crate::units::InputError;
use crate::units::Reason;
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

/// One way of curing with all that its sum needs, and the limit that holds.
#[derive(Debug, Clone, PartialEq)]
pub struct Curing {
    method: Method,
    amounts: Amounts,
    basis: BasisOfSum,
    limit: NitriteLimit,
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
    /// A way of curing so much, held against a limit: that of the limits in
    /// force for the way of curing.
    ///
    /// # Errors
    /// An amount that the method needs and is missing, an amount of nothing
    /// or less, skin on meat that is no bacon.
    pub fn new(method: Method, amounts: Amounts, limit: &NitriteLimit) -> Result<Self, InputError> {
        if amounts.skin_on && !method.is_bacon() {
            return Err(InputError::new(
                "skin on",
                method.name(),
                problem!("not-bacon"),
                expected!("bacon-rule"),
            ));
        }
        let basis = Self::basis(method, amounts)?;
        let limit = limit.clone();
        Ok(Self {
            method,
            amounts,
            basis,
            limit: if amounts.skin_on {
                limit.with_skin()
            } else {
                limit
            },
        })
    }

    fn basis(method: Method, amounts: Amounts) -> Result<BasisOfSum, InputError> {
        let missing = |field: &str, expected: Reason| {
            InputError::new(
                field,
                "",
                problem!("missing-for", method = method),
                expected,
            )
        };
        let checked = |field: &str, mass: Option<Mass>| match mass {
            Some(mass) => above_zero(field, mass).map(|()| Some(mass.grams())),
            None => Ok(None),
        };
        let meat = checked("meat", amounts.meat)?;
        let pickle = checked("pickle", amounts.pickle)?;
        let meat = || meat.ok_or_else(|| missing("meat", expected!("meat-needed")));
        let pickle = || pickle.ok_or_else(|| missing("pickle", expected!("pickle-needed")));
        Ok(match method.sum() {
            Sum::OnMeat => BasisOfSum::Meat(meat()?),
            Sum::Together => BasisOfSum::Both(meat()? + pickle()?),
            Sum::ByPickUp => BasisOfSum::Pickle {
                grams: pickle()?,
                pick_up: amounts
                    .pick_up
                    .ok_or_else(|| missing("pickup", expected!("pick-up-needed")))?
                    .parts(),
            },
        })
    }

    /// The way of curing.
    #[must_use]
    pub const fn method(&self) -> Method {
        self.method
    }

    /// The limit that holds.
    #[must_use]
    pub const fn limit(&self) -> &NitriteLimit {
        &self.limit
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
        self.ingoing_of(&[(agent.clone(), weighed)], within)
    }

    /// Ingoing nitrite with all the agents that went in together, each weighed
    /// to within the same expanded uncertainty.
    ///
    /// # Errors
    /// As for [`Curing::ingoing`].
    pub fn ingoing_of(
        &self,
        agents: &[(CuringAgent, Mass)],
        within: Mass,
    ) -> Result<Ingoing, InputError> {
        not_negative("scale uncertainty", within)?;
        let (mut grams, mut nitrite, mut strongest) = (0.0, 0.0, 0.0_f64);
        for (agent, weighed) in agents {
            not_negative("agent", *weighed)?;
            grams += weighed.grams();
            nitrite += weighed.grams() * agent.nitrite().parts();
            strongest = strongest.max(agent.nitrite().parts());
        }
        // With so much more of the strongest of them.
        let with = |more: f64| {
            let total = grams + more;
            if total > 0.0 {
                self.basis.ppm(total, (nitrite + more * strongest) / total)
            } else {
                0.0
            }
        };
        let ppm = with(0.0);
        // The worst case: every agent weighed short by as much.
        let doubt = with(within.grams() * agents.len() as f64) - ppm;
        // Masses are kept to a microgram, so a figure is no better known than this.
        let step = with(1e-6 * agents.len() as f64) - ppm;
        let (most, least) = (self.limit.at_most().value(), self.limit.at_least());
        let under = |ppm: f64| least.is_some_and(|least| ppm < least.value() - step);
        let over = |ppm: f64| ppm > most + step;
        let usual = self.limit.usual_minimum.as_ref();
        let verdict = if over(ppm) {
            Verdict::OverLimit
        } else if under(ppm) {
            Verdict::UnderRequired
        } else if within > Mass::ZERO && (over(ppm + doubt) || under(ppm - doubt)) {
            Verdict::TooCloseToLimit
        } else if usual.is_some_and(|usual| ppm < usual.ppm.value() - step) {
            Verdict::UnderUsualMinimum
        } else {
            Verdict::WithinLimit
        };
        Ok(Ingoing {
            method: self.method,
            ppm: Ppm::new("agent", ppm)?,
            doubt: Ppm::new("scale uncertainty", doubt)?,
            limit: self.limit.clone(),
            verdict,
            other_way: self.other_way(grams, nitrite),
        })
    }

    /// The same immersion reckoned the other way, where there is enough to do
    /// it with.
    fn other_way(&self, grams: f64, nitrite: f64) -> Option<(Method, Ppm)> {
        let other = self.method.other_way()?;
        let basis = Self::basis(other, self.amounts).ok()?;
        let fraction = if grams > 0.0 { nitrite / grams } else { 0.0 };
        let ppm = Ppm::new("agent", basis.ppm(grams, fraction)).ok()?;
        Some((other, ppm))
    }

    /// How much of the agent brings so much ingoing nitrite; rounded down, so
    /// that it is never over.
    ///
    /// # Errors
    /// A target of nothing, over the limit, or more than the pickle could
    /// bring if it were all curing agent.
    pub fn dose(&self, agent: &CuringAgent, target: Ppm) -> Result<Mass, DoseRefusal> {
        let limit = || Box::new(self.limit.clone());
        let method = self.method;
        if target.value() <= 0.0 {
            return Err(DoseRefusal::Nothing { target });
        }
        if target > self.limit.aim() {
            let limit = limit();
            return Err(DoseRefusal::OverLimit {
                target,
                method,
                limit,
            });
        }
        if self.limit.at_least().is_some_and(|least| target < least) {
            let limit = limit();
            return Err(DoseRefusal::UnderRequired {
                target,
                method,
                limit,
            });
        }
        let grams = self.basis.agent(target.value(), agent.nitrite().parts());
        if !(grams.is_finite() && grams > 0.0) {
            return Err(DoseRefusal::BeyondAgent { target });
        }
        // Down to a whole microgram.
        match Mass::from_fractional_grams((grams * 1e6).floor() / 1e6) {
            Some(mass) if mass > Mass::ZERO => Ok(mass),
            _ => Err(DoseRefusal::BeyondMass { target }),
        }
    }

    /// The amount of what the sum divides by, meat or pickle or both, that so
    /// much agent would be right for at the limit: what it would take to bring
    /// an overdose down, where there is more to be had.
    #[must_use]
    pub fn would_need(&self, agent: &CuringAgent, weighed: Mass) -> Option<Mass> {
        let nitrite = weighed.grams() * agent.nitrite().parts() * 1e6;
        let limit = self.limit.aim().value();
        let grams = match self.basis {
            BasisOfSum::Meat(_) => nitrite / limit,
            BasisOfSum::Pickle { pick_up, .. } => nitrite * pick_up / limit - weighed.grams(),
            BasisOfSum::Both(_) => nitrite / limit - weighed.grams(),
        };
        Mass::from_fractional_grams(grams.max(0.0))
    }
}

/// Why there is no dose for a target.
#[derive(Debug, Clone, PartialEq)]
pub enum DoseRefusal {
    /// The target is no nitrite at all.
    Nothing {
        /// What was asked for.
        target: Ppm,
    },
    /// The target is over the limit.
    OverLimit {
        /// What was asked for.
        target: Ppm,
        /// The way of curing.
        method: Method,
        /// The limit that holds for it.
        limit: Box<NitriteLimit>,
    },
    /// The target is less than must go in.
    UnderRequired {
        /// What was asked for.
        target: Ppm,
        /// The way of curing.
        method: Method,
        /// The limit that holds for it.
        limit: Box<NitriteLimit>,
    },
    /// No amount of this agent brings as much.
    BeyondAgent {
        /// What was asked for.
        target: Ppm,
    },
    /// It would be less than a microgram, or more than can be held.
    BeyondMass {
        /// What was asked for.
        target: Ppm,
    },
}

impl From<DoseRefusal> for InputError {
    fn from(refusal: DoseRefusal) -> Self {
        let (target, problem, expected) = match refusal {
            DoseRefusal::Nothing { target } => {
                (target, problem!("no-nitrite"), expected!("above-zero"))
            }
            DoseRefusal::OverLimit {
                target,
                method,
                limit,
            } => (
                target,
                problem!("over-limit-for", method = method),
                expected!("limit-by", limit = &limit, source = &limit.source),
            ),
            DoseRefusal::UnderRequired {
                target,
                method,
                limit,
            } => (
                target,
                problem!("less-than-required", method = method),
                expected!("limit-by", limit = &limit, source = &limit.source),
            ),
            DoseRefusal::BeyondAgent { target } => (
                target,
                problem!("beyond-agent"),
                expected!("stronger-agent"),
            ),
            DoseRefusal::BeyondMass { target } => {
                (target, problem!("beyond-mass"), expected!("check-amounts"))
            }
        };
        Self::new("target", &target.to_string(), problem, expected)
    }
}

impl core::fmt::Display for DoseRefusal {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        InputError::from(self.clone()).fmt(f)
    }
}

impl std::error::Error for DoseRefusal {}

/// Ingoing nitrite of so much in so much, in parts per million of sodium
/// nitrite, held against nothing.
///
/// # Errors
/// As for [`Curing::new`].
pub(crate) fn ingoing_ppm(
    method: Method,
    amounts: Amounts,
    agents: &[(CuringAgent, Mass)],
) -> Result<f64, InputError> {
    let grams: f64 = agents.iter().map(|(_, mass)| mass.grams()).sum();
    let nitrite: f64 = agents
        .iter()
        .map(|(agent, mass)| mass.grams() * agent.nitrite().parts())
        .sum();
    let fraction = if grams > 0.0 { nitrite / grams } else { 0.0 };
    Ok(Curing::basis(method, amounts)?.ppm(grams, fraction))
}

/// What a figure of ingoing nitrite comes to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Verdict {
    /// Above the limit.
    OverLimit,
    /// Below a level that is required.
    UnderRequired,
    /// Neither, but the scale's uncertainty reaches beyond the limit.
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
        matches!(self, Self::UnderUsualMinimum | Self::WithinLimit)
    }
}

/// Ingoing nitrite, what was worked out and against what.
#[derive(Debug, Clone, PartialEq)]
pub struct Ingoing {
    /// The way it was reckoned.
    pub method: Method,
    /// How much, as sodium nitrite.
    pub ppm: Ppm,
    /// Expanded uncertainty (k = 2) from weighing the agent.
    pub doubt: Ppm,
    /// The limit.
    pub limit: NitriteLimit,
    /// What it comes to.
    pub verdict: Verdict,
    /// The same immersion reckoned the other way, for comparison.
    pub other_way: Option<(Method, Ppm)>,
}

impl Ingoing {
    /// The figure of [`Self::ppm`] with as many decimals as keep it on the side
    /// of the limit that the verdict says, one at least.
    #[must_use]
    pub fn figure(&self) -> String {
        let value = self.ppm.value();
        let over = self.verdict == Verdict::OverLimit;
        let under = self.verdict == Verdict::UnderRequired;
        let (most, least) = (self.limit.at_most().value(), self.limit.at_least());
        for decimals in 1..=5 {
            let rounded = format!("{value:.decimals$}");
            let printed: f64 = rounded.parse().unwrap_or(value);
            if (printed > most) == over
                && least.is_none_or(|least| (printed < least.value()) == under)
            {
                return rounded;
            }
        }
        format!("{value:.6}")
    }

    fn shown(&self) -> String {
        let text = self.figure();
        match self.limit.counted_as {
            CountedAs::SodiumNitrite => format!("{text} ppm of ingoing nitrite"),
            CountedAs::NitriteIon => format!(
                "{text} ppm of ingoing sodium nitrite ({:.1} of nitrite ion)",
                self.limit.counted(self.ppm).value()
            ),
        }
    }
}

impl core::fmt::Display for Ingoing {
    /// One or two sentences that say what was found against which limit.
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        let found = self.shown();
        let (limit, method) = (&self.limit, self.method);
        let against = format!("{} for {method} by {}", limit.ingoing(), limit.source);
        match self.verdict {
            Verdict::OverLimit => write!(f, "over the limit: {found}, {against}; not ready"),
            Verdict::UnderRequired => {
                write!(f, "under the level required: {found}, {against}; not ready")
            }
            Verdict::TooCloseToLimit => write!(
                f,
                "too close to the limit: {found}, give or take {:.1}, {against}; not ready",
                self.doubt
            ),
            Verdict::UnderUsualMinimum => match &limit.usual_minimum {
                Some(usual) => write!(
                    f,
                    "under the usual minimum: {found}; {} ppm is usual for cured meat kept refrigerated by {}; \
                     {against}",
                    plain(usual.ppm),
                    usual.source
                ),
                None => write!(f, "{found}, {against}"),
            },
            Verdict::WithinLimit => write!(f, "{found}, {against}"),
        }?;
        if let Some((other, ppm)) = self.other_way {
            write!(f, "; reckoned as {other} it would be {ppm:.1}")?;
            if ppm > limit.at_most() {
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
    use crate::limits::{Limits, Region};

    fn agent(percent: f64) -> CuringAgent {
        let nitrite = NitriteFraction::new("nitrite", percent / 100.0).unwrap();
        CuringAgent::read_again("curing salt", Contents::SodiumNitrite, nitrite, nitrite).unwrap()
    }

    fn curing(region: Region, method: Method, amounts: Amounts) -> Result<Curing, InputError> {
        let limits = Limits::published(region);
        Curing::new(method, amounts, &limits.nitrite(method).unwrap())
    }

    fn us(method: Method, amounts: Amounts) -> Curing {
        curing(Region::Us, method, amounts).unwrap()
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
            let curing = us(method, amounts());
            for nitrite in [0.6, 6.25, 100.0] {
                for part in [0.2, 0.7, 1.0] {
                    let target = Ppm::new("t", curing.limit().aim().value() * part).unwrap();
                    if curing
                        .limit()
                        .at_least()
                        .is_some_and(|least| target < least)
                    {
                        assert!(curing.dose(&agent(nitrite), target).is_err());
                        continue;
                    }
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
        let curing = us(Method::Comminuted, amounts());
        let ingoing = curing
            .ingoing(&agent(6.25), Mass::from_grams(20), Mass::ZERO)
            .unwrap();
        assert_eq!(ingoing.verdict, Verdict::OverLimit);
        assert!(!ingoing.verdict.lets_pass());
        let words = ingoing.to_string();
        assert!(
            words.contains("250.0 ppm")
                && words.contains("at most 156.25 ppm of sodium nitrite (1/4 oz to 100 lb")
                && words.contains("424.21"),
            "{words}"
        );
        assert_eq!(
            curing
                .would_need(&agent(6.25), Mass::from_grams(20))
                .unwrap(),
            Mass::from_grams(8000)
        );
        assert!(matches!(
            curing.dose(&agent(6.25), Ppm::new("t", 157.0).unwrap()),
            Err(DoseRefusal::OverLimit { .. })
        ));
    }

    #[test]
    fn a_straddling_weighing_is_not_ready_either() {
        let curing = us(Method::Comminuted, amounts());
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
        let curing = us(Method::DryCure, amounts());
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
        let curing = us(Method::ImmersionPickUp, amounts());
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
        let bacon = us(Method::BaconDryCure, skin_on);
        assert!((bacon.limit().at_most().value() - 180.0).abs() < 1e-9);
        assert!(curing(Region::Us, Method::DryCure, skin_on).is_err());
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
                curing(Region::Us, method, without).unwrap_err().field(),
                field,
                "{method}"
            );
        }
        let curing = us(Method::Comminuted, amounts());
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
        let error = us(Method::Pumped, weak)
            .dose(&agent(0.6), Ppm::new("t", 200.0).unwrap())
            .unwrap_err();
        assert!(
            error.to_string().contains("more than this agent can bring"),
            "{error}"
        );
    }
}
