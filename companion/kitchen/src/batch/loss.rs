//! Weight lost in drying, against a target.

use crate::units::InputError;
use evenhand_protocol::Mass;

/// What something that dries is to lose: a share of what it weighed at first.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, serde::Deserialize)]
#[serde(try_from = "OnRecord", into = "OnRecord")]
pub struct LossTarget {
    green: Mass,
    percent: f64,
}

#[derive(serde::Serialize, serde::Deserialize)]
struct OnRecord {
    green_micrograms: Mass,
    percent: f64,
}

impl TryFrom<OnRecord> for LossTarget {
    type Error = InputError;
    fn try_from(record: OnRecord) -> Result<Self, InputError> {
        Self::new(record.green_micrograms, record.percent)
    }
}

impl From<LossTarget> for OnRecord {
    fn from(target: LossTarget) -> Self {
        Self {
            green_micrograms: target.green,
            percent: target.percent,
        }
    }
}

impl LossTarget {
    /// So many per cent of what it weighed at first.
    ///
    /// # Errors
    /// A first weight of nothing or less; a loss that is not above 0 and below
    /// 80 per cent, the water in meat being some three quarters of it.
    pub fn new(green: Mass, percent: f64) -> Result<Self, InputError> {
        crate::brine::above_zero("first weight", green)?;
        if percent > 0.0 && percent < 80.0 {
            Ok(Self { green, percent })
        } else {
            Err(InputError::new(
                "loss",
                &format!("{percent} %"),
                problem!("no-loss"),
                expected!("loss"),
            ))
        }
    }

    /// What it weighed at first.
    #[must_use]
    pub const fn green(&self) -> Mass {
        self.green
    }

    /// How much of that it is to lose, in per cent.
    #[must_use]
    pub const fn percent(&self) -> f64 {
        self.percent
    }

    /// What it is to come down to.
    #[must_use]
    pub fn down_to(&self) -> Mass {
        Mass::from_fractional_grams(self.green.grams() * (1.0 - self.percent / 100.0))
            .unwrap_or(Mass::ZERO)
    }

    /// How far it is with a weighing.
    #[must_use]
    pub fn at(&self, now: Mass) -> Loss {
        Loss { target: *self, now }
    }
}

/// How far drying is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Loss {
    target: LossTarget,
    now: Mass,
}

impl Loss {
    /// What it is to lose.
    #[must_use]
    pub const fn target(&self) -> LossTarget {
        self.target
    }

    /// How much of its first weight it lost, in per cent; below zero where it
    /// gained.
    #[must_use]
    pub fn percent(&self) -> f64 {
        (self.target.green - self.now).grams() / self.target.green.grams() * 100.0
    }

    /// How much is still to be lost; nothing once it is down.
    #[must_use]
    pub fn to_go(&self) -> Mass {
        (self.now - self.target.down_to()).max(Mass::ZERO)
    }

    /// Whether it is down to its target.
    #[must_use]
    pub fn is_down(&self) -> bool {
        self.now <= self.target.down_to()
    }
}

impl core::fmt::Display for Loss {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        let (lost, aim) = (self.percent(), self.target.percent);
        if lost < 0.0 {
            return write!(
                f,
                "{:.1} % heavier than at first: look at what was weighed",
                -lost
            );
        }
        write!(f, "{lost:.1} % lost of {aim:.1} %")?;
        if self.is_down() {
            write!(f, ", down")
        } else {
            write!(f, ", {:.0} g to go", self.to_go().grams())
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn loss_is_held_against_its_target() {
        let target = LossTarget::new(Mass::from_grams(1520), 30.0).unwrap();
        assert_eq!(target.down_to(), Mass::from_grams(1064));
        let loss = target.at(Mass::from_grams(1196));
        assert_eq!(loss.to_string(), "21.3 % lost of 30.0 %, 132 g to go");
        assert!(target.at(Mass::from_grams(1064)).is_down());
        assert!(
            target
                .at(Mass::from_grams(1530))
                .to_string()
                .contains("heavier")
        );
    }

    #[test]
    fn senseless_targets_are_refused() {
        for (grams, percent) in [
            (0, 30.0),
            (-1, 30.0),
            (100, 0.0),
            (100, 80.0),
            (100, f64::NAN),
        ] {
            assert!(LossTarget::new(Mass::from_grams(grams), percent).is_err());
        }
    }
}
