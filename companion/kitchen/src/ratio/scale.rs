//! What the scale says, and how far it is to be believed.

use evenhand_protocol::{Mass, Uptime};

/// One look at the scale.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Look {
    /// When, on the scale's own clock.
    pub at: Uptime,
    /// Everything that stands on it.
    pub mass: Mass,
    /// Whether the load is in stable equilibrium.
    pub stable: bool,
}

/// How far a scale that is in use may be out at a load, taken as its expanded
/// uncertainty (coverage factor 2): one, two or three of its smallest steps up
/// to 500, up to 2000 and above 2000 steps.
///
/// These are the largest errors permitted in service of an instrument of class
/// III by OIML R 76-1 (from memory), for one whose smallest step is also its
/// verification step. A scale that was never verified may be worse.
#[must_use]
pub fn in_service(interval: Mass, load: Mass) -> Mass {
    let steps = load.abs().micrograms() / interval.micrograms().max(1);
    interval.times(match steps {
        0..=500 => 1,
        501..=2_000 => 2,
        _ => 3,
    })
}

/// How long a load has been at rest.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(super) struct Rest(pub(super) Option<(Uptime, Mass)>);

impl Rest {
    /// Takes in a look; says for how many milliseconds it has rested on about
    /// the same mass, `None` while it moves.
    pub(super) fn take(&mut self, look: Look, about: Mass) -> Option<u64> {
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

    #[test]
    fn the_permitted_error_goes_up_in_steps_of_the_load() {
        let e = Mass::from_milligrams(100);
        for (grams, steps) in [(0, 1), (50, 1), (51, 2), (200, 2), (201, 3), (900, 3)] {
            assert_eq!(in_service(e, Mass::from_grams(grams)), e.times(steps));
        }
        // Class III, e = 1 g: 2 g in service at 1.5 kg (OIML R 76-1, table 6, from memory).
        assert_eq!(
            in_service(Mass::from_grams(1), Mass::from_grams(1_500)),
            Mass::from_grams(2)
        );
    }
}
