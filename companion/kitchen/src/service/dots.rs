//! Portions as dots in time, few enough to be drawn.

use evenhand_protocol::{Goal, Mass};
use jiff::Timestamp;
use std::ops::Deref;

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

impl Dot {
    /// Micrograms from its target.
    fn off(&self) -> i64 {
        (self.mass - self.goal.target()).micrograms()
    }
}

/// What the dots of one stretch of time come to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Bin {
    /// Place of the lightest dot (the first of several) in [`Dots`].
    pub lightest: usize,
    /// Place of the heaviest dot (the first of several) in [`Dots`].
    pub heaviest: usize,
    /// How many dots there are.
    pub count: usize,
}

/// How many dots share an entry of the index: few enough that the ends of a
/// stretch, looked at dot by dot, cost no more than the entries between them.
const SHARE: usize = 32;

/// The extremes of so many neighbouring dots.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Extremes {
    /// When the first of the dots was captured.
    begins: Timestamp,
    least: i64,
    lightest: usize,
    most: i64,
    heaviest: usize,
}

impl Extremes {
    fn of(place: usize, dot: &Dot) -> Self {
        let off = dot.off();
        Self {
            begins: dot.time,
            least: off,
            lightest: place,
            most: off,
            heaviest: place,
        }
    }

    /// Of these and the ones that follow.
    fn with(mut self, next: Self) -> Self {
        if next.least < self.least {
            (self.least, self.lightest) = (next.least, next.lightest);
        }
        if next.most > self.most {
            (self.most, self.heaviest) = (next.most, next.heaviest);
        }
        self
    }
}

/// Dots in order of time, a slice of them, with an index that lets a screen thin a million of
/// them anew for every frame.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Dots {
    dots: Vec<Dot>,
    index: Vec<Extremes>,
}

impl Dots {
    /// Puts dots in order of time; those of one moment stay as they are given.
    #[must_use]
    pub fn new(mut dots: Vec<Dot>) -> Self {
        dots.sort_by_key(|dot| dot.time);
        let index = dots
            .chunks(SHARE)
            .enumerate()
            .filter_map(|(nth, share)| extremes(share, nth * SHARE))
            .collect();
        Self { dots, index }
    }

    /// How many were captured before a moment.
    #[must_use]
    pub fn before(&self, time: Timestamp) -> usize {
        let share = self.index.partition_point(|entry| entry.begins < time);
        // The last entry that begins before it may hold later ones.
        let from = share.saturating_sub(1) * SHARE;
        let to = (from + SHARE).min(self.dots.len());
        from + self.dots[from..to].partition_point(|dot| dot.time < time)
    }

    /// Sorts the dots into `bins` stretches of equal length from `from`
    /// (inclusive) to `to` (exclusive), keeping of each its two extremes:
    /// whatever lies far out is still there, however many dots share a stretch.
    /// Bins without a dot are left out. Nothing comes of no bins, or where `to`
    /// is not after `from`.
    ///
    /// Extremes are by distance from each dot's own target, so that a change of
    /// goal does not hide a portion that was far off its own.
    #[must_use]
    pub fn thinned(&self, from: Timestamp, to: Timestamp, bins: usize) -> Vec<Bin> {
        let (begin, end) = (from.as_millisecond(), to.as_millisecond());
        let length = i128::from(end) - i128::from(begin);
        if bins == 0 || length <= 0 {
            return Vec::new();
        }
        let bins = bins as i128;
        let mut found = Vec::new();
        let mut first = self.before(from);
        let last = self.before(to);
        while let Some(dot) = self.dots[..last].get(first) {
            // The bin that the next dot is in, and the first millisecond after it.
            let since = i128::from(dot.time.as_millisecond()) - i128::from(begin);
            let bin = since * bins / length;
            let after = begin + (((bin + 1) * length + bins - 1) / bins) as i64;
            let until = match Timestamp::from_millisecond(after) {
                Ok(time) if time < to => self.before(time),
                _ => last,
            };
            if let Some(extremes) = self.within(first, until) {
                found.push(Bin {
                    lightest: extremes.lightest,
                    heaviest: extremes.heaviest,
                    count: until - first,
                });
            }
            first = until;
        }
        found
    }

    /// The extremes of the dots at these places: by the index where it has
    /// whole entries, dot by dot before and after.
    fn within(&self, first: usize, until: usize) -> Option<Extremes> {
        let whole = first.div_ceil(SHARE)..until / SHARE;
        if whole.is_empty() {
            return extremes(&self.dots[first..until], first);
        }
        let (from, to) = (whole.start * SHARE, whole.end * SHARE);
        extremes(&self.dots[first..from], first)
            .into_iter()
            .chain(self.index[whole].iter().copied())
            .chain(extremes(&self.dots[to..until], to))
            .reduce(Extremes::with)
    }
}

impl Deref for Dots {
    type Target = [Dot];

    fn deref(&self) -> &[Dot] {
        &self.dots
    }
}

/// The extremes of neighbouring dots, the first of which is at a place.
fn extremes(dots: &[Dot], first: usize) -> Option<Extremes> {
    dots.iter()
        .zip(first..)
        .map(|(dot, place)| Extremes::of(place, dot))
        .reduce(Extremes::with)
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
        let bins = Dots::new(dots).thinned(at(0), at(1_000_000), 800);
        assert_eq!(bins.len(), 800);
        assert!(bins.iter().any(|bin| bin.heaviest == 123_456));
        assert!(bins.iter().any(|bin| bin.lightest == 654_321));
    }

    #[test]
    fn senseless_spans_hold_nothing() {
        let dots = Dots::new(vec![dot(5, 30_000)]);
        assert!(dots.thinned(at(0), at(10), 0).is_empty());
        assert!(dots.thinned(at(10), at(0), 5).is_empty());
        assert!(Dots::default().thinned(at(0), at(10), 5).is_empty());
    }

    proptest! {
        // Beside the plain way: look at every dot for every bin.
        #[test]
        fn as_found_by_looking_at_everything(
            raw in prop::collection::vec((0i64..1000, 20_000i64..40_000), 0..400),
            from in -50i64..500, length in 1i64..1200, bins in 1usize..60,
        ) {
            let sorted = Dots::new(raw.iter().map(|(t, m)| dot(*t, *m)).collect());
            let dots: &[Dot] = &sorted;
            let plain: Vec<Bin> = (0..bins as i64).filter_map(|nth| {
                let within: Vec<usize> = (0..dots.len()).filter(|place| {
                    let since = dots[*place].time.as_millisecond() - from;
                    (0..length).contains(&since) && since * bins as i64 / length == nth
                }).collect();
                let first = *within.first()?;
                let extreme = |better: fn(Mass, Mass) -> bool| within.iter().fold(first, |best, place|
                    if better(dots[*place].mass, dots[best].mass) { *place } else { best });
                Some(Bin {
                    lightest: extreme(|a, b| a < b),
                    heaviest: extreme(|a, b| a > b),
                    count: within.len(),
                })
            }).collect();
            prop_assert_eq!(sorted.thinned(at(from), at(from + length), bins), plain);
            let earlier = dots.iter().filter(|dot| dot.time < at(from)).count();
            prop_assert_eq!(sorted.before(at(from)), earlier);
        }
    }
}
