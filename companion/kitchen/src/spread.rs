//! The spread: how even the portions are, and what the unevenness costs.

use crate::portion::RecordedPortion;
use crate::units::{CostPerMass, Money, Ratio};
use evenhand_protocol::{Goal, Mass, Verdict};

/// The spread of a set of portions.
///
/// Masses are whole micrograms, so sums and sums of squares are kept exactly,
/// in integers: the order of portions does not matter and nothing cancels,
/// however small the spread is beside the mean. The only rounding is at the
/// end.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Spread {
    n: usize,
    sum: i128,
    squares: i128,
    short: usize,
    on: usize,
    heavy: usize,
    lightest: Option<Mass>,
    heaviest: Option<Mass>,
    given_away: Mass,
    costed: usize,
    lost: Lost,
}

/// What a [`Spread`] counted. Masses in micrograms, squares in their squares.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Sums {
    /// How many portions.
    pub n: usize,
    /// The sum of their masses.
    pub sum: i128,
    /// The sum of their masses' squares.
    pub squares: i128,
    /// How many were short.
    pub short: usize,
    /// How many were on.
    pub on: usize,
    /// How many were heavy.
    pub heavy: usize,
    /// The lightest.
    pub lightest: Option<Mass>,
    /// The heaviest.
    pub heaviest: Option<Mass>,
    /// Everything above the targets together.
    pub given_away: Mass,
    /// How many had a known cost.
    pub costed: usize,
    /// What was given away in money; `None` where no cost is known, or costs
    /// are in several currencies.
    pub lost: Option<Money>,
}

/// The money given away, as far as it can be summed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
enum Lost {
    /// Nothing with a cost yet.
    #[default]
    Nothing,
    /// So much.
    Sum(Money),
    /// Costs in more than one currency.
    Mixed,
}

impl Spread {
    /// The spread of no portions.
    #[must_use]
    pub fn new() -> Self {
        Self::default()
    }

    /// The spread of those portions that count.
    pub fn of<'p>(portions: impl IntoIterator<Item = &'p RecordedPortion>) -> Self {
        let mut spread = Self::new();
        for portion in portions {
            if portion.counts() {
                spread.add(portion.mass, portion.goal, portion.cost);
            }
        }
        spread
    }

    /// Counts one portion more, against its goal, with what its food costs
    /// where that is known.
    pub fn add(&mut self, mass: Mass, goal: Goal, cost: Option<CostPerMass>) {
        let micrograms = i128::from(mass.micrograms());
        self.n += 1;
        self.sum = self.sum.saturating_add(micrograms);
        self.squares = self.squares.saturating_add(micrograms * micrograms);
        match goal.judge(mass) {
            Verdict::Short => self.short += 1,
            Verdict::On => self.on += 1,
            Verdict::Heavy => self.heavy += 1,
        }
        self.lightest = Some(self.lightest.map_or(mass, |least| least.min(mass)));
        self.heaviest = Some(self.heaviest.map_or(mass, |most| most.max(mass)));
        let over = (mass - goal.target()).max(Mass::ZERO);
        self.given_away += over;
        if let Some(cost) = cost {
            self.costed += 1;
            let money = cost.of(over);
            self.lost = match self.lost {
                Lost::Nothing => Lost::Sum(money),
                Lost::Sum(sum) => sum.plus(money).map_or(Lost::Mixed, Lost::Sum),
                Lost::Mixed => Lost::Mixed,
            };
        }
    }

    /// Counts everything that another spread counts as well, as if its
    /// portions had been added one by one.
    pub fn merge(&mut self, other: &Self) {
        self.n += other.n;
        self.sum = self.sum.saturating_add(other.sum);
        self.squares = self.squares.saturating_add(other.squares);
        self.short += other.short;
        self.on += other.on;
        self.heavy += other.heavy;
        let least = [self.lightest, other.lightest].into_iter().flatten().min();
        let most = [self.heaviest, other.heaviest].into_iter().flatten().max();
        (self.lightest, self.heaviest) = (least, most);
        self.given_away += other.given_away;
        self.costed += other.costed;
        self.lost = match (self.lost, other.lost) {
            (Lost::Nothing, lost) | (lost, Lost::Nothing) => lost,
            (Lost::Sum(one), Lost::Sum(two)) => one.plus(two).map_or(Lost::Mixed, Lost::Sum),
            (Lost::Mixed, _) | (_, Lost::Mixed) => Lost::Mixed,
        };
    }

    /// What it counted, to be kept and put together again.
    #[must_use]
    pub const fn sums(&self) -> Sums {
        Sums {
            n: self.n,
            sum: self.sum,
            squares: self.squares,
            short: self.short,
            on: self.on,
            heavy: self.heavy,
            lightest: self.lightest,
            heaviest: self.heaviest,
            given_away: self.given_away,
            costed: self.costed,
            lost: self.given_away_money(),
        }
    }

    /// The spread that counted this.
    #[must_use]
    pub const fn of_sums(sums: &Sums) -> Self {
        Self {
            n: sums.n,
            sum: sums.sum,
            squares: sums.squares,
            short: sums.short,
            on: sums.on,
            heavy: sums.heavy,
            lightest: sums.lightest,
            heaviest: sums.heaviest,
            given_away: sums.given_away,
            costed: sums.costed,
            lost: match (sums.lost, sums.costed) {
                (Some(money), _) => Lost::Sum(money),
                (None, 0) => Lost::Nothing,
                (None, _) => Lost::Mixed,
            },
        }
    }

    /// How many portions.
    #[must_use]
    pub const fn n(&self) -> usize {
        self.n
    }

    /// The mean, rounded to the nearest microgram; `None` without portions.
    #[must_use]
    pub fn mean(&self) -> Option<Mass> {
        let n = i128::try_from(self.n).ok().filter(|n| *n > 0)?;
        let half = if self.sum < 0 { -n / 2 } else { n / 2 };
        i64::try_from((self.sum + half) / n)
            .ok()
            .map(Mass::from_micrograms)
    }

    /// The sample standard deviation in micrograms, divisor n - 1; `None` with
    /// fewer than two portions.
    fn deviation_micrograms(&self) -> Option<f64> {
        let n = i128::try_from(self.n).ok().filter(|n| *n > 1)?;
        // With sum = n m + r, the sum of squared deviations from the mean is
        // squares - n m^2 - 2 m r - r^2 / n: all but the last term whole, and
        // the last below n.
        let (m, r) = (self.sum / n, self.sum % n);
        let whole = self.squares.saturating_sub(
            m.saturating_mul(self.sum)
                .saturating_add(m.saturating_mul(r)),
        );
        let squared = whole as f64 - (r as f64) * (r as f64) / n as f64;
        Some((squared.max(0.0) / (n - 1) as f64).sqrt())
    }

    /// The sample standard deviation, divisor n - 1, rounded to the nearest
    /// microgram; `None` with fewer than two portions.
    #[must_use]
    pub fn standard_deviation(&self) -> Option<Mass> {
        Mass::from_fractional_grams(self.deviation_micrograms()? / 1e6)
    }

    /// The coefficient of variation: standard deviation over mean. `None` with
    /// fewer than two portions or a mean that is not above zero.
    #[must_use]
    pub fn coefficient_of_variation(&self) -> Option<Ratio> {
        let mean = self.sum as f64 / self.n as f64;
        if mean > 0.0 {
            Ratio::new(self.deviation_micrograms()? / mean)
        } else {
            None
        }
    }

    /// The lightest portion; `None` without portions.
    #[must_use]
    pub const fn lightest(&self) -> Option<Mass> {
        self.lightest
    }

    /// The heaviest portion; `None` without portions.
    #[must_use]
    pub const fn heaviest(&self) -> Option<Mass> {
        self.heaviest
    }

    /// How many portions had this verdict.
    #[must_use]
    pub const fn count(&self, verdict: Verdict) -> usize {
        match verdict {
            Verdict::Short => self.short,
            Verdict::On => self.on,
            Verdict::Heavy => self.heavy,
        }
    }

    /// The share of portions with this verdict; zero without portions.
    #[must_use]
    pub fn share(&self, verdict: Verdict) -> Ratio {
        Ratio::of(self.count(verdict), self.n)
    }

    /// Everything above the targets together: the sum over all portions of
    /// max(0, mass - target). Short portions do not make up for heavy ones, as
    /// the guest who got less does not get it back.
    #[must_use]
    pub const fn given_away(&self) -> Mass {
        self.given_away
    }

    /// What was given away in money, over those portions whose cost is known;
    /// `None` where no cost is known or costs are in several currencies.
    #[must_use]
    pub const fn given_away_money(&self) -> Option<Money> {
        match self.lost {
            Lost::Sum(money) => Some(money),
            Lost::Nothing | Lost::Mixed => None,
        }
    }

    /// How many portions had a known cost.
    #[must_use]
    pub const fn costed(&self) -> usize {
        self.costed
    }

    /// The food in all portions together.
    #[must_use]
    pub fn total(&self) -> Mass {
        Mass::from_micrograms(i64::try_from(self.sum).unwrap_or(if self.sum < 0 {
            i64::MIN
        } else {
            i64::MAX
        }))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use evenhand_protocol::Tolerance;
    use proptest::prelude::*;

    fn counted(portions: &[(i64, Option<usize>)]) -> Spread {
        let goal = Goal::new(
            Mass::from_grams(30),
            Tolerance::symmetric(Mass::from_grams(1)),
        )
        .unwrap();
        let costs = ["1800 EUR/kg", "900 EUR/kg", "2000 USD/kg"]
            .map(|text| CostPerMass::parse("cost", text).unwrap());
        let mut spread = Spread::new();
        for (milligrams, cost) in portions {
            spread.add(
                Mass::from_milligrams(*milligrams),
                goal,
                cost.map(|nth| costs[nth]),
            );
        }
        spread
    }

    proptest! {
        #[test]
        fn together_as_one_by_one(
            all in prop::collection::vec((0i64..60_000, prop::option::of(0usize..3)), 0..60),
            at in 0usize..60,
        ) {
            let (one, two) = all.split_at(at.min(all.len()));
            let mut merged = counted(one);
            merged.merge(&counted(two));
            prop_assert_eq!(&merged, &counted(&all));
            prop_assert_eq!(Spread::of_sums(&merged.sums()), merged);
        }
    }
}
