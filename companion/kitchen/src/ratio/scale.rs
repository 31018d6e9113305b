//! What the scale says, and how far it is to be believed.

use crate::units::{MassUnit, format_mass};
use evenhand_protocol::{AccuracyClass, Mass, Uptime, VerificationInterval};

/// One look at the scale.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ScaleLook {
    /// When, on the scale's own clock.
    pub at: Uptime,
    /// Everything that stands on it.
    pub mass: Mass,
    /// Whether the load is in stable equilibrium.
    pub stable: bool,
}

/// How far a scale that is in use may be out at a load, taken as its expanded
/// uncertainty (coverage factor 2): the largest error that OIML R 76-1 permits
/// an instrument of class III in service ([`AccuracyClass::in_service`]). A
/// scale that was never verified may be worse.
///
/// For a load beyond what the class can have, the largest of its limits.
#[must_use]
pub fn in_service(interval: VerificationInterval, load: Mass) -> Mass {
    AccuracyClass::III
        .in_service(load, interval)
        .unwrap_or_else(|| interval.mass().times(3))
}

/// How well a scale weighs: what is known of its expanded uncertainty (coverage
/// factor 2).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ScaleError {
    /// The same at every load, as somebody has found or says.
    Within(Mass),
    /// What is permitted in service at each load ([`in_service`]).
    InService(VerificationInterval),
}

impl ScaleError {
    /// At a load. For what is poured onto a scale that has something on it
    /// already, the load is what is poured: the limits hold for the net load
    /// whatever was tared (OIML R 76-1:2006, 3.5.3, from memory).
    #[must_use]
    pub fn at(self, load: Mass) -> Mass {
        match self {
            Self::Within(mass) => mass,
            Self::InService(interval) => in_service(interval, load),
        }
    }
}

/// What to say beside a figure that follows from an interval which the scale
/// did not tell.
#[must_use]
pub fn untold(interval: VerificationInterval) -> Option<String> {
    (!interval.is_told()).then(|| {
        format!(
            "the scale does not say its verification interval: taken as {}, ten steps of its display, \
             the coarsest that can be",
            format_mass(interval.mass(), MassUnit::Gram)
        )
    })
}

/// How long a load has been at rest.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(super) struct Rest(pub(super) Option<(Uptime, Mass)>);

impl Rest {
    /// Takes in a look; says for how many milliseconds it has rested on about
    /// the same mass, `None` while it moves.
    pub(super) fn take(&mut self, look: ScaleLook, about: Mass) -> Option<u64> {
        if !look.stable {
            self.0 = None;
            return None;
        }
        match self.0 {
            Some((since, mass)) if (look.mass - mass).abs() <= about && since <= look.at => {
                Some(look.at.millis() - since.millis())
            }
            _ => {
                self.0 = Some((look.at, look.mass));
                Some(0)
            }
        }
    }

    pub(super) const fn clear(&mut self) {
        self.0 = None;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// OIML R 76-1:2006, Table 6 and 3.5.2 (read from a page that quotes it), class III with
    /// e = 1 g: 1 g up to 500 g, 2 g up to 2 kg, 3 g above.
    #[test]
    fn the_permitted_error_goes_up_in_steps_of_the_load() {
        let told = VerificationInterval::told(Mass::from_grams(1));
        for (grams, most) in [
            (0, 1),
            (500, 1),
            (501, 2),
            (2_000, 2),
            (2_001, 3),
            (99_000, 3),
        ] {
            let load = Mass::from_grams(grams);
            assert_eq!(in_service(told, load), Mass::from_grams(most), "{grams} g");
        }
        assert_eq!(untold(told), None);
    }

    /// The display's step is not the verification interval: by it, a scale with d = 0.1 g would be
    /// good to 0.1 g at 6 g, and is permitted 1 g.
    #[test]
    fn a_scale_that_does_not_tell_its_interval_is_taken_for_the_coarsest() {
        let untold_interval = VerificationInterval::coarsest(Mass::from_milligrams(100));
        let dose = Mass::from_grams(6);
        assert_eq!(in_service(untold_interval, dose), Mass::from_grams(1));
        let said = untold(untold_interval).unwrap();
        assert!(said.contains("taken as 1.0 g"), "{said}");
    }
}
