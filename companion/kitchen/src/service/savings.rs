//! Which gram, which dish, which habit would save most.

use super::{Assumptions, DishReview};
use crate::units::Money;
use crate::yield_flow::YieldFlow;
use evenhand_protocol::Mass;

/// What would save money.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SavingKind {
    /// One gram less on every portion: what a gram of this dish is worth.
    OneGram,
    /// The mean brought down to the aim.
    AimAsAdvised {
        /// By how much.
        by: Mass,
    },
    /// A narrower spread, with the aim that it allows.
    Narrower {
        /// By how much.
        by: Mass,
    },
    /// Nothing going without a name.
    Unaccounted {
        /// What went so, in this service.
        mass: Mass,
    },
}

/// Money that a change would save in a month.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Saving {
    /// Which of the dishes, by its place.
    pub dish: usize,
    /// What it takes.
    pub kind: SavingKind,
    /// What it saves, at the services a month that were supposed.
    pub a_month: Money,
}

/// What would save money, the most first. Each saving is by itself: a mean
/// brought down and a narrower spread overlap. Dishes without a cost have none.
#[must_use]
pub fn savings(
    dishes: &[(&DishReview, &[(Money, YieldFlow)])],
    assumptions: &Assumptions,
) -> Vec<Saving> {
    let mut found = Vec::new();
    for (dish, (review, purchases)) in dishes.iter().enumerate() {
        let mut add = |kind, a_month: Option<Money>| {
            found.extend(
                a_month
                    .filter(|money| money.millionths() > 0)
                    .map(|a_month| Saving {
                        dish,
                        kind,
                        a_month,
                    }),
            );
        };
        let months = |money: Money, times: i64| {
            Money::from_millionths(money.millionths().saturating_mul(times), money.currency())
        };
        let services = i64::from(assumptions.services_a_month);
        let portions = i64::try_from(review.spread.n())
            .unwrap_or(i64::MAX)
            .saturating_mul(services);
        let each = |grams: Mass| Some(months(review.cost?.of(grams), portions));
        add(SavingKind::OneGram, each(Mass::from_grams(1)));
        if let Ok(advice) = &review.advice {
            // Only where the mean is above the aim beyond what chance does.
            if let (Some(mean), Some(interval)) = (review.relied.mean(), &review.mean)
                && interval.low > advice.aim.aim
            {
                let by = mean - advice.aim.aim;
                add(SavingKind::AimAsAdvised { by }, each(by));
            }
            add(
                SavingKind::Narrower {
                    by: advice.narrower_by,
                },
                advice.saving,
            );
        }
        for (price, flow) in *purchases {
            if let (Some(mass), Some(cost)) = (flow.unaccounted(), flow.unaccounted_cost(*price)) {
                add(
                    SavingKind::Unaccounted { mass },
                    Some(months(cost, services)),
                );
            }
        }
    }
    found.sort_by_key(|saving| core::cmp::Reverse(saving.a_month.millionths()));
    found
}
