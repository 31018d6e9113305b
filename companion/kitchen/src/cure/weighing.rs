//! Getting a small dose right: whether the scale can, and the check that it
//! was.

use super::{Curing, CuringAgent, Ingoing, NitriteFraction};
use crate::brine::{above_zero, not_negative};
use crate::units::InputError;
use evenhand_protocol::Mass;

/// The most a scale's expanded uncertainty may be of a dose: a twentieth.
/// A choice of ours, so that weighing stays the smallest of the doubts; no
/// source.
pub const MOST_DOUBT: f64 = 0.05;

/// Why a dose cannot be weighed, and what can be done.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TooSmall {
    /// The dose.
    pub dose: Mass,
    /// The scale's expanded uncertainty (k = 2).
    pub within: Mass,
    /// The least dose this scale weighs well enough.
    pub least: Mass,
    /// A dilution that can be weighed.
    pub dilution: Dilution,
    /// How many times the batch for the dose to be weighable as it is; whole,
    /// rounded up.
    pub times_the_batch: u32,
}

/// A solution of the agent to weigh from: both weighings in making it and the
/// one out of it are within their share of the allowed doubt.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Dilution {
    /// Agent to weigh.
    pub agent: Mass,
    /// Water to dissolve it in.
    pub water: Mass,
    /// Of the solution, stirred until clear, weigh this in place of the dose.
    pub take: Mass,
}

impl core::fmt::Display for TooSmall {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        write!(
            f,
            "this scale is good to {:.3} g, which is {:.0} % of a dose of {:.3} g; from {:.2} g up it is good \
             enough. Dissolve {:.2} g of the agent in {:.1} g of water and take {:.2} g of that, mark what is \
             left or pour it away; or make {} times the batch",
            self.within.grams(),
            self.within.grams() / self.dose.grams() * 100.0,
            self.dose.grams(),
            self.least.grams(),
            self.dilution.agent.grams(),
            self.dilution.water.grams(),
            self.dilution.take.grams(),
            self.times_the_batch,
        )
    }
}

impl std::error::Error for TooSmall {}

/// Whether a scale of an expanded uncertainty (k = 2) can weigh a dose, by
/// [`MOST_DOUBT`]; if not, what to do.
///
/// # Errors
/// A dose of nothing or less, a negative uncertainty. The answer that it
/// cannot is inside.
pub fn weighable(dose: Mass, within: Mass) -> Result<Result<(), TooSmall>, InputError> {
    above_zero("dose", dose)?;
    not_negative("scale uncertainty", within)?;
    let least = within.grams() / MOST_DOUBT;
    if dose.grams() >= least {
        return Ok(Ok(()));
    }
    // Two weighings then carry the doubt, the agent into the water and the solution out of it: each gets half of it,
    // which is less than the root of a half that adding in squares would allow.
    let each = 2.0 * least;
    let strength = (each / dose.grams()).ceil();
    let mass = |grams: f64| {
        Mass::from_fractional_grams(grams).ok_or_else(|| {
            InputError::new(
                "scale uncertainty",
                &format!("{} g", within.grams()),
                problem!("scale-useless"),
                expected!("kitchen-scale"),
            )
        })
    };
    Ok(Err(TooSmall {
        dose,
        within,
        least: mass(least)?,
        dilution: Dilution {
            agent: mass(each)?,
            water: mass(each * (strength - 1.0))?,
            take: mass(dose.grams() * strength)?,
        },
        times_the_batch: (least / dose.grams()).ceil().min(f64::from(u32::MAX)) as u32,
    }))
}

/// A dose of curing agent on its way into a batch: it must be confirmed by
/// the label, weighed, and pass before the batch can be ready.
#[derive(Debug, Clone, PartialEq)]
pub struct Dosing {
    agent: CuringAgent,
    curing: Curing,
    dose: Mass,
    within: Mass,
    confirmed: bool,
    weighed: Option<Mass>,
}

/// Why a step of dosing was refused.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum DosingRefusal {
    /// The label was not read again yet.
    #[error("confirm first: read the nitrite fraction from the label of {0}")]
    NotConfirmed(String),
    /// What was read is not what was reckoned with.
    #[error(
        "the label says {read}, the dose was worked out for {expected}; nothing is to be weighed"
    )]
    OtherLabel {
        /// What was read now.
        read: NitriteFraction,
        /// What was entered before.
        expected: NitriteFraction,
    },
    /// The scale cannot weigh so little.
    #[error(transparent)]
    TooSmall(Box<TooSmall>),
    /// An amount that makes no sense.
    #[error(transparent)]
    Input(#[from] InputError),
}

/// What the check weighing came to.
#[derive(Debug, Clone, PartialEq)]
pub struct CheckWeighing {
    /// What was worked out.
    pub computed: Mass,
    /// What was weighed.
    pub weighed: Mass,
    /// The nitrite that goes in with what was weighed.
    pub ingoing: Ingoing,
    /// Whether the weighed amount is the computed one, to within
    /// [`MOST_DOUBT`].
    pub agrees: bool,
}

impl CheckWeighing {
    /// Whether the batch may be marked ready as far as the agent goes: it is
    /// the amount that was worked out, and within the limit.
    #[must_use]
    pub const fn lets_pass(&self) -> bool {
        self.agrees && self.ingoing.verdict.lets_pass()
    }
}

impl core::fmt::Display for CheckWeighing {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        write!(
            f,
            "weighed {:.2} g, worked out {:.2} g: {}; {}",
            self.weighed.grams(),
            self.computed.grams(),
            if self.agrees {
                "they agree"
            } else {
                "they do not agree, not ready"
            },
            self.ingoing
        )
    }
}

impl Dosing {
    /// A dose worked out for a batch, to be weighed on a scale of an expanded
    /// uncertainty (k = 2).
    ///
    /// # Errors
    /// A dose the scale cannot weigh well enough.
    pub fn new(
        agent: CuringAgent,
        curing: Curing,
        dose: Mass,
        within: Mass,
    ) -> Result<Self, DosingRefusal> {
        weighable(dose, within)?
            .map_err(|too_small| DosingRefusal::TooSmall(Box::new(too_small)))?;
        Ok(Self {
            agent,
            curing,
            dose,
            within,
            confirmed: false,
            weighed: None,
        })
    }

    /// The agent.
    #[must_use]
    pub const fn agent(&self) -> &CuringAgent {
        &self.agent
    }

    /// What to weigh.
    #[must_use]
    pub const fn dose(&self) -> Mass {
        self.dose
    }

    /// The nitrite fraction as read from the packet in the hand, now.
    ///
    /// # Errors
    /// Another fraction than the dose was worked out for.
    pub fn confirm(&mut self, read: NitriteFraction) -> Result<(), DosingRefusal> {
        let expected = self.agent.nitrite();
        self.confirmed = (read.parts() - expected.parts()).abs() < 1e-9;
        if self.confirmed {
            Ok(())
        } else {
            Err(DosingRefusal::OtherLabel { read, expected })
        }
    }

    /// Whether the label was confirmed.
    #[must_use]
    pub const fn is_confirmed(&self) -> bool {
        self.confirmed
    }

    /// The agent was weighed; on a second weighing the last one counts.
    ///
    /// # Errors
    /// A label that was not confirmed, less than nothing weighed.
    pub fn weigh(&mut self, weighed: Mass) -> Result<CheckWeighing, DosingRefusal> {
        if !self.confirmed {
            return Err(DosingRefusal::NotConfirmed(self.agent.to_string()));
        }
        let ingoing = self.curing.ingoing(&self.agent, weighed, self.within)?;
        self.weighed = Some(weighed);
        let off = (weighed - self.dose).abs().grams();
        Ok(CheckWeighing {
            computed: self.dose,
            weighed,
            ingoing,
            agrees: off <= self.dose.grams() * MOST_DOUBT,
        })
    }

    /// The last check weighing.
    #[must_use]
    pub fn last(&self) -> Option<CheckWeighing> {
        self.clone().weigh(self.weighed?).ok()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cure::{Amounts, Contents, Method, Ppm, Verdict};
    use crate::limits::Limits;

    fn agent() -> CuringAgent {
        let nitrite = NitriteFraction::new("nitrite", 0.0625).unwrap();
        CuringAgent::from_label("curing salt", Contents::SodiumNitrite, nitrite).unwrap()
    }

    fn curing(meat_grams: i64) -> Curing {
        Curing::new(
            Method::DryCure,
            Amounts {
                meat: Some(Mass::from_grams(meat_grams)),
                ..Amounts::default()
            },
            &Limits::food_code().nitrite(Method::DryCure).unwrap(),
        )
        .unwrap()
    }

    fn dosing(meat_grams: i64, within_milligrams: i64) -> Result<Dosing, DosingRefusal> {
        let curing = curing(meat_grams);
        let dose = curing
            .dose(&agent(), Ppm::new("t", 150.0).unwrap())
            .unwrap();
        Dosing::new(
            agent(),
            curing,
            dose,
            Mass::from_milligrams(within_milligrams),
        )
    }

    #[test]
    fn a_dose_the_scale_cannot_weigh_is_refused_with_a_way_out() {
        // 2.4 g for a kilogram; a scale good to 0.5 g is good from 10 g up.
        let Err(DosingRefusal::TooSmall(too_small)) = dosing(1000, 500) else {
            panic!("too small a dose was let through")
        };
        assert_eq!(too_small.least, Mass::from_grams(10));
        assert_eq!(too_small.times_the_batch, 5);
        let dilution = too_small.dilution;
        // What is taken holds the dose, and each weighing is within half of the allowed doubt.
        let share = dilution.agent.grams() / (dilution.agent + dilution.water).grams();
        assert!((dilution.take.grams() * share - too_small.dose.grams()).abs() < 1e-5);
        for weighed in [dilution.agent, dilution.take] {
            assert!(
                0.5 / weighed.grams() <= MOST_DOUBT / 2.0 + 1e-12,
                "{weighed:?}"
            );
        }
        assert!(
            too_small.to_string().contains("5 times the batch"),
            "{too_small}"
        );
        assert!(dosing(5000, 500).is_ok());
    }

    #[test]
    fn weighing_waits_for_the_label() {
        let mut dosing = dosing(5000, 100).unwrap();
        let dose = dosing.dose();
        assert!(matches!(
            dosing.weigh(dose),
            Err(DosingRefusal::NotConfirmed(_))
        ));
        let other = NitriteFraction::new("nitrite", 0.005).unwrap();
        assert!(matches!(
            dosing.confirm(other),
            Err(DosingRefusal::OtherLabel { .. })
        ));
        assert!(!dosing.is_confirmed());
        dosing.confirm(agent().nitrite()).unwrap();
        let check = dosing.weigh(dose).unwrap();
        assert!(check.lets_pass(), "{check}");
        assert_eq!(dosing.last(), Some(check));
    }

    #[test]
    fn another_amount_or_too_much_does_not_pass() {
        let mut dosing = dosing(5000, 100).unwrap();
        dosing.confirm(agent().nitrite()).unwrap();
        let dose = dosing.dose();
        let less = dosing.weigh(dose.fraction(9, 10).unwrap()).unwrap();
        assert!(!less.agrees && !less.lets_pass(), "{less}");
        let tenfold = dosing.weigh(dose.times(10)).unwrap();
        assert_eq!(tenfold.ingoing.verdict, Verdict::OverLimit);
        assert!(!tenfold.lets_pass());
        assert!(tenfold.to_string().contains("not ready"), "{tenfold}");
    }

    #[test]
    fn a_perfect_scale_weighs_anything() {
        assert_eq!(weighable(Mass::from_micrograms(1), Mass::ZERO), Ok(Ok(())));
        assert!(weighable(Mass::ZERO, Mass::ZERO).is_err());
        assert!(weighable(Mass::from_grams(1), Mass::from_grams(-1)).is_err());
    }
}
