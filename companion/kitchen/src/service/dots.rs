//! Portions as dots in time, few enough to be drawn.

use evenhand_protocol::{Goal, Mass, Verdict};
use jiff::Timestamp;

/// A portion as a dot.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Dot {
    /// When it was captured.
    pub time: Timestamp,
    /// The food in it.
    pub mass: Mass,
    /// What it should have weighed.
    pub goal: Goal,
}

/// What the dots of one stretch of time come to: the places of its lightest
/// and heaviest one, and how many there are of each verdict.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Bin {
    /// Place of the lightest dot (the first of several), in what was given.
    pub lightest: usize,
    /// Place of the heaviest dot (the first of several).
    pub heaviest: usize,
    /// How many dots there are.
    pub count: usize,
    /// How many of them are short.
    pub short: usize,
    /// How many of them are heavy.
    pub heavy: usize,
}

/// Sorts dots into `bins` stretches of equal length from `from` (inclusive) to
/// `to` (exclusive), keeping of each its two extremes: whatever lies far out is
/// still there, however many dots share a stretch. Bins without a dot are left
/// out. `dots` are in order of time; only those between `from` and `to` are
/// looked at. Nothing comes of no bins, or where `to` is not after `from`.
///
/// Extremes are by distance from each dot's own target, so that a change of
/// goal does not hide a portion that was far off its own.
#[must_use]
pub fn decimate(dots: &[Dot], from: Timestamp, to: Timestamp, bins: usize) -> Vec<Bin> {
    let (begin, end) = (from.as_millisecond(), to.as_millisecond());
    let length = i128::from(end) - i128::from(begin);
    if bins == 0 || length <= 0 {
        return Vec::new();
    }
    let first = dots.partition_point(|dot| dot.time < from);
    let last = first + dots[first..].partition_point(|dot| dot.time < to);
    let bins = bins as i128;
    // The first millisecond of bin k is begin + ceil(k * length / bins).
    let starts = |bin: i128| begin + ((bin * length + bins - 1) / bins) as i64;
    let mut found: Vec<Bin> = Vec::with_capacity(last.saturating_sub(first).min(bins as usize));
    // Of the bin that is being filled: where the next one begins, and how far off its extremes are.
    let mut next = Timestamp::MIN;
    let (mut least, mut most) = (0, 0);
    for (place, dot) in dots.iter().enumerate().take(last).skip(first) {
        let off = (dot.mass - dot.goal.target()).micrograms();
        let (short, heavy) = match dot.goal.judge(dot.mass) {
            Verdict::Short => (1, 0),
            Verdict::On => (0, 0),
            Verdict::Heavy => (0, 1),
        };
        match found.last_mut().filter(|_| dot.time < next) {
            Some(bin) => {
                if off < least {
                    (least, bin.lightest) = (off, place);
                }
                if off > most {
                    (most, bin.heaviest) = (off, place);
                }
                bin.count += 1;
                bin.short += short;
                bin.heavy += heavy;
            }
            None => {
                let moment = dot.time.as_millisecond();
                let bin = (i128::from(moment) - i128::from(begin)) * bins / length;
                next = Timestamp::from_millisecond(starts(bin + 1)).unwrap_or(Timestamp::MAX);
                (least, most) = (off, off);
                found.push(Bin {
                    lightest: place,
                    heaviest: place,
                    count: 1,
                    short,
                    heavy,
                });
            }
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;
    use evenhand_protocol::Tolerance;
    use proptest::prelude::*;

    fn goal() -> Goal {
        Goal::new(
            Mass::from_grams(30),
            Tolerance::symmetric(Mass::from_grams(1)),
        )
        .unwrap()
    }

    fn at(millis: i64) -> Timestamp {
        Timestamp::from_millisecond(millis).unwrap()
    }

    fn dot(millis: i64, milligrams: i64) -> Dot {
        Dot {
            time: at(millis),
            mass: Mass::from_milligrams(milligrams),
            goal: goal(),
        }
    }

    #[test]
    fn one_portion_far_out_among_a_million_is_still_there() {
        let mut dots: Vec<Dot> = (0..1_000_000).map(|n| dot(n, 30_000 + n % 7)).collect();
        dots[123_456].mass = Mass::from_milligrams(44_000);
        dots[654_321].mass = Mass::from_milligrams(3_000);
        let bins = decimate(&dots, at(0), at(1_000_000), 800);
        assert_eq!(bins.len(), 800);
        assert!(bins.iter().any(|bin| bin.heaviest == 123_456));
        assert!(bins.iter().any(|bin| bin.lightest == 654_321));
    }

    #[test]
    fn senseless_spans_hold_nothing() {
        let dots = [dot(5, 30_000)];
        assert!(decimate(&dots, at(0), at(10), 0).is_empty());
        assert!(decimate(&dots, at(10), at(0), 5).is_empty());
        assert!(decimate(&[], at(0), at(10), 5).is_empty());
    }

    proptest! {
        // Beside the plain way: look at every dot for every bin.
        #[test]
        fn as_found_by_looking_at_everything(
            mut raw in prop::collection::vec((0i64..1000, 20_000i64..40_000), 0..200),
            from in -50i64..500, length in 1i64..1200, bins in 1usize..60,
        ) {
            raw.sort_unstable();
            let dots: Vec<Dot> = raw.iter().map(|(t, m)| dot(*t, *m)).collect();
            let plain: Vec<Bin> = (0..bins as i64).filter_map(|nth| {
                let within: Vec<usize> = (0..dots.len()).filter(|place| {
                    let since = dots[*place].time.as_millisecond() - from;
                    (0..length).contains(&since) && since * bins as i64 / length == nth
                }).collect();
                let first = *within.first()?;
                let extreme = |better: fn(Mass, Mass) -> bool| within.iter().fold(first, |best, place|
                    if better(dots[*place].mass, dots[best].mass) { *place } else { best });
                let count = |verdict| within.iter()
                    .filter(|place| goal().judge(dots[**place].mass) == verdict).count();
                Some(Bin {
                    lightest: extreme(|a, b| a < b),
                    heaviest: extreme(|a, b| a > b),
                    count: within.len(),
                    short: count(Verdict::Short),
                    heavy: count(Verdict::Heavy),
                })
            }).collect();
            prop_assert_eq!(decimate(&dots, at(from), at(from + length), bins), plain);
        }
    }
}
