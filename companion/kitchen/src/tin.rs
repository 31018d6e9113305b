//! Tins and batches: a bought quantity of one food, used up portion by
//! portion.

use crate::dish::DishName;
use crate::units::{CostPerMass, InputError, Money};
use crate::written_name;
use evenhand_protocol::{Goal, Mass};
use jiff::Timestamp;
use std::fmt;

/// Which tin, within one store; from 1 up.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct TinId(pub i64);

impl fmt::Display for TinId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(f)
    }
}

/// What a purchase is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Default)]
pub enum TinKind {
    /// A tin, tub or tray, bought ready to portion.
    #[default]
    Tin,
    /// A whole fish.
    Fish,
    /// A cut of meat.
    Cut,
    /// A batch made here.
    Batch,
}

impl TinKind {
    /// Every kind.
    pub const ALL: [Self; 4] = [Self::Tin, Self::Fish, Self::Cut, Self::Batch];

    /// Its word.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Tin => "tin",
            Self::Fish => "fish",
            Self::Cut => "cut",
            Self::Batch => "batch",
        }
    }
}

/// The longest label, in characters.
const LONGEST_LABEL: usize = 200;

/// Reads what is written on a purchase, in one spelling; empty where nothing
/// is. `field` says where it was typed, for the error.
///
/// # Errors
/// A label that is too long, over several lines, or with control characters.
pub fn label(field: &str, text: &str) -> Result<String, InputError> {
    if text.trim().is_empty() {
        return Ok(String::new());
    }
    written_name::name(field, text, LONGEST_LABEL, "lot 4711")
}

/// A tin, tub, tray, fish, cut or batch of a dish's food.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Tin {
    /// Which tin.
    pub id: TinId,
    /// What it is.
    pub kind: TinKind,
    /// What is portioned from it.
    pub dish: DishName,
    /// What is written on it: lot, supplier's mark, date; may be empty.
    pub label: String,
    /// Its food as bought, without the tin; above zero.
    pub net: Mass,
    /// What was paid for it, where it is known.
    pub price: Option<Money>,
    /// When it was opened.
    pub opened: Timestamp,
    /// When it was used up or thrown out, if it was.
    pub closed: Option<Timestamp>,
}

impl Tin {
    /// What its food costs, where the price is known.
    #[must_use]
    pub fn cost(&self) -> Option<CostPerMass> {
        CostPerMass::of_purchase(self.price?, self.net)
    }

    /// What should be left after `taken` was portioned from it; never below
    /// zero, as a tin can hold more than it says.
    #[must_use]
    pub fn left(&self, taken: Mass) -> Mass {
        (self.net - taken).max(Mass::ZERO)
    }
}

/// How many whole portions a mass makes.
///
/// The fewest, when every portion comes out as heavy as the tolerance allows,
/// and the most, when every one comes out as light.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PortionsPossible {
    /// With every portion at the heaviest allowed.
    pub fewest: u64,
    /// With every portion on the target.
    pub on_target: u64,
    /// With every portion at the lightest allowed.
    pub most: u64,
}

/// `12 to 13 portions`; `12 portions` where it makes no difference how heavy.
impl fmt::Display for PortionsPossible {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match (self.fewest, self.most) {
            (1, 1) => f.write_str("1 portion"),
            (fewest, most) if fewest == most => write!(f, "{most} portions"),
            (fewest, most) => write!(f, "{fewest} to {most} portions"),
        }
    }
}

impl PortionsPossible {
    /// How many portions of `goal` a mass of `left` makes; none where nothing
    /// is left.
    #[must_use]
    pub fn of(left: Mass, goal: Goal) -> Self {
        let whole = |portion: Mass| {
            // Above zero for every goal made with `Goal::new`.
            let portion = portion.micrograms().max(1);
            (left.micrograms().max(0) / portion) as u64
        };
        Self {
            fewest: whole(goal.heaviest()),
            on_target: whole(goal.target()),
            most: whole(goal.lightest()),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use evenhand_protocol::Tolerance;

    #[test]
    fn a_kilogram_of_shrimp_in_thirty_gram_rolls() {
        let g = Mass::from_grams;
        let goal = Goal::new(g(30), Tolerance::symmetric(g(1))).unwrap();
        assert_eq!(
            PortionsPossible::of(g(1000), goal),
            PortionsPossible {
                fewest: 32,
                on_target: 33,
                most: 34
            }
        );
        let words = |left| PortionsPossible::of(left, goal).to_string();
        assert_eq!(words(g(1000)), "32 to 34 portions");
        assert_eq!(words(g(-5)), "0 portions");
        assert_eq!(words(g(31)), "1 portion");
    }

    #[test]
    fn a_tin_knows_its_cost_and_what_is_left() {
        let tin = Tin {
            id: TinId(1),
            kind: TinKind::Tin,
            dish: DishName::new("dish", "brown shrimp").unwrap(),
            label: String::new(),
            net: Mass::from_grams(500),
            price: Some(Money::parse("price", "90 EUR").unwrap()),
            opened: Timestamp::UNIX_EPOCH,
            closed: None,
        };
        assert_eq!(tin.cost().unwrap().to_string(), "180.00 EUR/kg");
        assert_eq!(tin.left(Mass::from_grams(120)), Mass::from_grams(380));
        assert_eq!(tin.left(Mass::from_grams(510)), Mass::ZERO);
    }
}
