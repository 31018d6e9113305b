//! What is subtracted as the dish.

use super::Weight;
use evenhand_protocol::{Mass, Refusal};

/// The tare: zero until something is tared.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Tare(Mass);

impl Tare {
    /// Nothing tared.
    pub const NONE: Self = Self(Mass::ZERO);

    /// Takes what is on the pan as the tare (OIML R 76-1, 4.6: only at stable
    /// equilibrium, and not a negative load).
    ///
    /// # Errors
    /// [`Refusal::NotStable`] and [`Refusal::NegativeTare`]; the old tare
    /// stays.
    pub fn set(&mut self, weight: &Weight) -> Result<(), Refusal> {
        if !weight.stable {
            return Err(Refusal::NotStable);
        }
        if weight.gross.is_negative() {
            return Err(Refusal::NegativeTare);
        }
        self.0 = weight.gross;
        Ok(())
    }

    /// Weighs gross again.
    pub fn clear(&mut self) {
        self.0 = Mass::ZERO;
    }

    /// The mass that is subtracted.
    #[must_use]
    pub const fn mass(self) -> Mass {
        self.0
    }

    /// A gross load without the tare.
    #[must_use]
    pub fn net(self, gross: Mass) -> Mass {
        gross - self.0
    }
}
