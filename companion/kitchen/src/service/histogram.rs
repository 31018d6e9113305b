//! How many portions are of which mass.

use evenhand_protocol::Mass;

/// One bar: the masses from `from` (inclusive) to `to` (exclusive; the last bar
/// holds its end as well), and how many there are.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct HistogramBar {
    /// Where it begins.
    pub from: Mass,
    /// Where it ends.
    pub to: Mass,
    /// How many masses lie in it.
    pub count: usize,
}

impl HistogramBar {
    /// Its middle.
    #[must_use]
    pub fn middle(&self) -> Mass {
        let half = (self.to - self.from).micrograms() / 2;
        self.from + Mass::from_micrograms(half)
    }
}

/// Bars of one width from `least` to `most`, as many as said: every mass is in
/// one of them, those beyond an end in the bar at that end. Nothing comes of no
/// bars, or where `most` is not above `least`.
#[must_use]
pub fn histogram(
    masses: impl IntoIterator<Item = Mass>,
    least: Mass,
    most: Mass,
    bars: usize,
) -> Vec<HistogramBar> {
    let (count, wide) = (bars as i128, i128::from((most - least).micrograms()));
    if bars == 0 || wide <= 0 {
        return Vec::new();
    }
    let edge = |nth: usize| {
        let along = nth as i128 * wide / count;
        least + Mass::from_micrograms(along as i64)
    };
    let mut found: Vec<HistogramBar> = (0..bars)
        .map(|nth| HistogramBar {
            from: edge(nth),
            to: edge(nth + 1),
            count: 0,
        })
        .collect();
    for mass in masses {
        let past = found.partition_point(|bar| bar.from <= mass);
        if let Some(bar) = found.get_mut(past.saturating_sub(1)) {
            bar.count += 1;
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn mg(milligrams: i64) -> Mass {
        Mass::from_milligrams(milligrams)
    }

    #[test]
    fn each_mass_is_in_the_bar_it_belongs_to() {
        let masses = [10, 11, 19, 20, 29, 30, 5, 99].map(mg);
        let bars = histogram(masses, mg(10), mg(30), 2);
        let counts: Vec<_> = bars.iter().map(|bar| bar.count).collect();
        // 10, 11, 19 and the one below; 20, 29, 30 and the one above.
        assert_eq!(counts, [4, 4]);
        assert_eq!(bars[1].middle(), mg(25));
        assert!(histogram(masses, mg(10), mg(30), 0).is_empty());
        assert!(histogram(masses, mg(30), mg(30), 3).is_empty());
    }

    proptest! {
        #[test]
        fn none_is_lost_and_none_counted_twice(
            masses in prop::collection::vec(-5_000i64..90_000, 0..200),
            bars in 1usize..60,
        ) {
            let found = histogram(masses.iter().copied().map(mg), mg(0), mg(80_000), bars);
            let counted: usize = found.iter().map(|bar| bar.count).sum();
            prop_assert_eq!(counted, masses.len());
            prop_assert!(found.windows(2).all(|two| two[0].to == two[1].from));
            for bar in &found[1..found.len() - usize::from(found.len() > 1)] {
                let within = masses.iter().filter(|mass| (bar.from..bar.to).contains(&mg(**mass)));
                prop_assert_eq!(within.count(), bar.count);
            }
        }
    }
}
