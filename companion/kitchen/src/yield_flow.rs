//! What became of a purchase: whole, trimmed, portioned, and where the rest
//! went, by name.

use crate::tin::PortionsPossible;
use crate::units::{CostPerMass, InputError, Money, Ratio};
use evenhand_protocol::{Goal, Mass};

/// A loss on the way from what was bought to what was portioned.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Loss {
    /// Bones, skin, fat, peel.
    Trim,
    /// Water and fat that went in cooking.
    Cook,
    /// Liquid pressed or drained out.
    Press,
    /// What fell or was thrown out.
    Spill,
    /// What was tasted.
    Tasting,
}

impl Loss {
    /// Every loss, in the order of the work.
    pub const ALL: [Self; 5] = [
        Self::Trim,
        Self::Cook,
        Self::Press,
        Self::Spill,
        Self::Tasting,
    ];

    /// Its word.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Trim => "trim",
            Self::Cook => "cook",
            Self::Press => "press",
            Self::Spill => "spill",
            Self::Tasting => "tasting",
        }
    }

    /// Reads its word. `field` says where it was typed, for the error.
    ///
    /// # Errors
    /// Anything that is none of the words.
    pub fn parse(field: &str, text: &str) -> Result<Self, InputError> {
        Self::ALL
            .into_iter()
            .find(|loss| loss.word() == text.trim().to_lowercase())
            .ok_or_else(|| {
                InputError::new(
                    field,
                    text,
                    problem!("no-loss-here"),
                    expected!("loss-here"),
                )
            })
    }
}

impl core::fmt::Display for Loss {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.pad(self.word())
    }
}

/// One of the places where a purchase goes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Destination {
    /// A loss with a name.
    Lost(Loss),
    /// On plates.
    Portioned,
    /// Left, as weighed.
    Left,
    /// Left by what is on record, not weighed.
    ShouldBeLeft,
    /// Nobody said where.
    Unaccounted,
}

/// Where a purchase went.
///
/// ```
/// use evenhand_kitchen::yield_flow::{Loss, YieldFlow};
/// use evenhand_protocol::Mass;
/// let g = Mass::from_grams;
/// let mut flow = YieldFlow::new(g(5000), g(3000));
/// flow.lose(Loss::Trim, g(1200));
/// flow.left = Some(g(700));
/// assert_eq!(flow.trimmed(), g(3800));
/// assert_eq!(flow.unaccounted(), Some(g(100)));
/// assert_eq!(flow.portioned_yield().unwrap().to_string(), "60.0%");
/// ```
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct YieldFlow {
    /// What was bought; above zero.
    pub bought: Mass,
    /// What was portioned.
    pub portioned: Mass,
    /// What was weighed as left, where it was; `None` where it was not.
    pub left: Option<Mass>,
    losses: [Mass; 5],
}

impl YieldFlow {
    /// Of so much bought, so much portioned, nothing known of the rest.
    #[must_use]
    pub const fn new(bought: Mass, portioned: Mass) -> Self {
        Self {
            bought,
            portioned,
            left: None,
            losses: [Mass::ZERO; 5],
        }
    }

    /// Notes that so much more was lost that way.
    pub fn lose(&mut self, loss: Loss, mass: Mass) {
        self.losses[loss as usize] += mass;
    }

    /// What was lost that way.
    #[must_use]
    pub const fn lost(&self, loss: Loss) -> Mass {
        self.losses[loss as usize]
    }

    /// Every loss with a name, together.
    #[must_use]
    pub fn lost_in_all(&self) -> Mass {
        Loss::ALL
            .into_iter()
            .fold(Mass::ZERO, |sum, loss| sum + self.lost(loss))
    }

    /// What is there after trimming.
    #[must_use]
    pub fn trimmed(&self) -> Mass {
        self.bought - self.lost(Loss::Trim)
    }

    /// What there was to portion: after trimming, cooking and pressing.
    #[must_use]
    pub fn ready(&self) -> Mass {
        self.trimmed() - self.lost(Loss::Cook) - self.lost(Loss::Press)
    }

    /// What should be left by what is on record: never below zero, as a tin
    /// can hold more than it says.
    #[must_use]
    pub fn should_be_left(&self) -> Mass {
        (self.bought - self.portioned - self.lost_in_all()).max(Mass::ZERO)
    }

    /// What is left: as weighed, else as it should be.
    #[must_use]
    pub fn left_or_reckoned(&self) -> Mass {
        self.left.unwrap_or_else(|| self.should_be_left())
    }

    /// What went without anybody naming where: bought less portioned, lost and
    /// left. Negative where more came out than went in, which says that a
    /// weighing is missing or wrong. `None` until what is left was weighed.
    #[must_use]
    pub fn unaccounted(&self) -> Option<Mass> {
        Some(self.bought - self.portioned - self.lost_in_all() - self.left?)
    }

    /// Whether more came out than was bought.
    #[must_use]
    pub fn more_came_out(&self) -> bool {
        self.portioned + self.lost_in_all() + self.left.unwrap_or(Mass::ZERO) > self.bought
    }

    /// Everything that became of it, in the order in which it went: losses,
    /// portions, what is left, and what nobody accounts for (negative where
    /// more came out than went in). Losses of nothing are left out.
    #[must_use]
    pub fn parts(&self) -> Vec<(Destination, Mass)> {
        let mut parts: Vec<(Destination, Mass)> = Loss::ALL
            .into_iter()
            .map(|loss| (Destination::Lost(loss), self.lost(loss)))
            .filter(|(_, mass)| *mass > Mass::ZERO)
            .collect();
        parts.push((Destination::Portioned, self.portioned));
        match self.unaccounted() {
            None => parts.push((Destination::ShouldBeLeft, self.left_or_reckoned())),
            Some(gone) => {
                parts.push((Destination::Left, self.left_or_reckoned()));
                parts.push((Destination::Unaccounted, gone));
            }
        }
        parts
    }

    /// The share of what was bought that was portioned.
    #[must_use]
    pub fn portioned_yield(&self) -> Option<Ratio> {
        self.share(self.portioned)
    }

    /// The share of what was bought that is there after trimming.
    #[must_use]
    pub fn trimmed_yield(&self) -> Option<Ratio> {
        self.share(self.trimmed())
    }

    /// A mass as a share of what was bought; `None` where nothing was.
    #[must_use]
    pub fn share(&self, mass: Mass) -> Option<Ratio> {
        if self.bought <= Mass::ZERO {
            return None;
        }
        Ratio::new(mass.grams() / self.bought.grams())
    }

    /// What reaches plates or is left to: bought less every named loss and less
    /// what nobody accounts for, where that is known.
    #[must_use]
    pub fn servable(&self) -> Mass {
        let gone = self.unaccounted().unwrap_or(Mass::ZERO).max(Mass::ZERO);
        self.bought - self.lost_in_all() - gone
    }

    /// What a gram on a plate costs: all that was paid, laid on what reaches
    /// plates; `None` where nothing does.
    #[must_use]
    pub fn cost_as_portioned(&self, price: Money) -> Option<CostPerMass> {
        CostPerMass::of_purchase(price, self.servable())
    }

    /// What the food that nobody accounts for would have cost on plates: `None`
    /// until what is left was weighed.
    #[must_use]
    pub fn unaccounted_cost(&self, price: Money) -> Option<Money> {
        let gone = self.unaccounted()?.max(Mass::ZERO);
        let cost = CostPerMass::of_purchase(price, self.servable() + gone)?;
        Some(cost.of(gone))
    }

    /// How many portions what is left still makes.
    #[must_use]
    pub fn portions_possible(&self, goal: Goal) -> PortionsPossible {
        PortionsPossible::of(self.left_or_reckoned(), goal)
    }
}

/// Several purchases together, such as a week's: every gram bought is on
/// plates, lost by name, left, or not accounted for.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Ledger {
    /// What was bought.
    pub bought: Mass,
    /// What was portioned.
    pub portioned: Mass,
    /// What is left, as weighed.
    pub left_weighed: Mass,
    /// What should be left of purchases whose rest nobody weighed.
    pub left_by_record: Mass,
    /// What went without a name; negative where more came out than went in.
    pub unaccounted: Mass,
    /// How many purchases.
    pub purchases: usize,
    /// How many of them nobody weighed the rest of.
    pub not_weighed: usize,
    /// What was portioned from no purchase on record: beside the sum.
    pub from_no_purchase: Mass,
    losses: [Mass; 5],
}

impl Ledger {
    /// The purchases together.
    #[must_use]
    pub fn of<'f>(flows: impl IntoIterator<Item = &'f YieldFlow>, from_no_purchase: Mass) -> Self {
        let mut ledger = Self {
            from_no_purchase,
            ..Self::default()
        };
        for flow in flows {
            ledger.purchases += 1;
            ledger.bought += flow.bought;
            ledger.portioned += flow.portioned;
            for loss in Loss::ALL {
                ledger.losses[loss as usize] += flow.lost(loss);
            }
            match (flow.left, flow.unaccounted()) {
                (Some(left), Some(gone)) => {
                    ledger.left_weighed += left;
                    ledger.unaccounted += gone;
                }
                _ => {
                    ledger.not_weighed += 1;
                    let rest = flow.bought - flow.portioned - flow.lost_in_all();
                    if rest.is_negative() {
                        ledger.unaccounted += rest;
                    } else {
                        ledger.left_by_record += rest;
                    }
                }
            }
        }
        ledger
    }

    /// What was lost that way.
    #[must_use]
    pub const fn lost(&self, loss: Loss) -> Mass {
        self.losses[loss as usize]
    }
}

#[cfg(test)]
mod tests {
    #[test]
    fn the_parts_come_to_what_was_bought() {
        let g = Mass::from_grams;
        let mut flow = YieldFlow::new(g(5_000), g(3_000));
        flow.lose(Loss::Cook, g(700));
        flow.lose(Loss::Trim, g(500));
        let whole = |flow: &YieldFlow| {
            let parts = flow.parts();
            let sum = parts.iter().fold(Mass::ZERO, |sum, (_, mass)| sum + *mass);
            assert_eq!(sum, flow.bought);
            parts.iter().map(|(part, _)| *part).collect::<Vec<_>>()
        };
        let gone = [
            Destination::Lost(Loss::Trim),
            Destination::Lost(Loss::Cook),
            Destination::Portioned,
        ];
        assert_eq!(
            whole(&flow),
            [&gone[..], &[Destination::ShouldBeLeft]].concat()
        );
        flow.left = Some(g(900));
        assert_eq!(
            whole(&flow),
            [&gone[..], &[Destination::Left, Destination::Unaccounted]].concat()
        );
    }

    use super::*;
    use evenhand_protocol::Tolerance;
    use proptest::prelude::*;

    const fn g(grams: i64) -> Mass {
        Mass::from_grams(grams)
    }

    // The arithmetic of a butcher's yield test: cost as bought over yield is
    // cost as portioned (common practice, no source).
    #[test]
    fn a_hogget_neck_from_bone_to_plate() {
        let mut flow = YieldFlow::new(g(10_000), g(0));
        flow.lose(Loss::Trim, g(2_000));
        flow.lose(Loss::Cook, g(2_400));
        flow.lose(Loss::Cook, g(600));
        assert_eq!((flow.trimmed(), flow.ready()), (g(8_000), g(5_000)));
        let price = Money::parse("price", "120 EUR").unwrap();
        assert_eq!(
            flow.cost_as_portioned(price).unwrap().to_string(),
            "24.00 EUR/kg"
        );
        let goal = Goal::new(g(180), Tolerance::symmetric(g(6))).unwrap();
        assert_eq!(flow.portions_possible(goal).on_target, 27);
        assert_eq!(flow.unaccounted(), None);
        flow.portioned = g(4_700);
        flow.left = Some(g(350));
        assert_eq!(flow.unaccounted(), Some(g(-50)));
        assert!(flow.more_came_out());
    }

    // Worked by hand: 10 kg at 38 EUR/kg, of which 2 750 g trimmed, 100 g tasted,
    // 205.3 g not accounted for: 380 EUR over 6 944.7 g is 54.72 EUR/kg.
    #[test]
    fn a_gram_on_a_plate_bears_every_loss() {
        let mut flow = YieldFlow::new(g(10_000), g(6_000));
        flow.lose(Loss::Trim, g(2_750));
        flow.lose(Loss::Tasting, g(100));
        let price = Money::parse("price", "380 EUR").unwrap();
        // Until the rest is weighed, nothing is known to have vanished.
        assert_eq!(flow.servable(), g(7_150));
        assert_eq!(flow.unaccounted_cost(price), None);
        flow.left = Some(Mass::from_milligrams(944_700));
        assert_eq!(
            flow.cost_as_portioned(price).unwrap().to_string(),
            "54.72 EUR/kg"
        );
        // 380 EUR x 205.3 / 7 150.
        assert_eq!(
            flow.unaccounted_cost(price).unwrap().to_string(),
            "10.91 EUR"
        );
    }

    proptest! {
        #[test]
        fn a_week_adds_up_to_the_gram(
            flows in prop::collection::vec(
                (1i64..10_000, 0i64..9_000, prop::option::of(0i64..5000),
                    prop::array::uniform5(0i64..2000)),
                0..12,
            ),
        ) {
            let flows: Vec<YieldFlow> = flows
                .into_iter()
                .map(|(bought, portioned, left, losses)| {
                    let mut flow = YieldFlow::new(g(bought), g(portioned));
                    flow.left = left.map(g);
                    for (loss, mass) in Loss::ALL.into_iter().zip(losses) {
                        flow.lose(loss, g(mass));
                    }
                    flow
                })
                .collect();
            let ledger = Ledger::of(&flows, g(7));
            let lost = Loss::ALL
                .into_iter()
                .fold(Mass::ZERO, |sum, loss| sum + ledger.lost(loss));
            prop_assert_eq!(
                ledger.portioned + lost + ledger.left_weighed + ledger.left_by_record
                    + ledger.unaccounted,
                ledger.bought
            );
            prop_assert_eq!(ledger.purchases, flows.len());
        }

        #[test]
        fn nothing_is_lost_between_the_lines(
            bought in 1i64..10_000, portioned in 0i64..5000, left in 0i64..5000,
            losses in prop::array::uniform5(0i64..2000),
        ) {
            let mut flow = YieldFlow::new(g(bought), g(portioned));
            flow.left = Some(g(left));
            for (loss, mass) in Loss::ALL.into_iter().zip(losses) {
                flow.lose(loss, g(mass));
            }
            prop_assert_eq!(
                flow.portioned + flow.lost_in_all() + g(left) + flow.unaccounted().unwrap(),
                flow.bought
            );
        }
    }
}
