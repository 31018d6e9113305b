//! The cumulative sum of portions against a level that is known, with a limit
//! designed by its run length.
//!
//! Page's scheme (Biometrika 41 (1954) 100): what lies above the level by more
//! than a reference value is summed, never below nought, and likewise what lies
//! below; the sum is looked at after every portion.

/// What lies within so much of the level, in standard deviations, is let go:
/// half a shift of one.
pub(super) const REFERENCE: f64 = 0.5;

/// States that the sum's range is cut into, for its run length.
const STATES: usize = 60;

/// A limit for the sum, in standard deviations.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CusumLimit {
    reference: f64,
    limit: f64,
}

impl CusumLimit {
    /// A limit with its reference value, both in standard deviations; `None`
    /// unless both are above zero and below 50.
    #[must_use]
    pub fn new(reference: f64, limit: f64) -> Option<Self> {
        let sensible = |value: f64| value > 0.0 && value < 50.0;
        (sensible(reference) && sensible(limit)).then_some(Self { reference, limit })
    }

    /// The limit that a steady night of so many portions crosses, on either
    /// side, with a probability of `rate` (above 0, below 1).
    pub(super) fn for_night(portions: usize, rate: f64) -> Self {
        let (mut low, mut high) = (0.1, 40.0);
        for _ in 0..24 {
            let limit = f64::midpoint(low, high);
            let scheme = Self {
                reference: REFERENCE,
                limit,
            };
            // Either side by itself; both together at most twice as often.
            if 2.0 * scheme.crossed_within(portions, 0.0) > rate {
                low = limit;
            } else {
                high = limit;
            }
        }
        Self {
            reference: REFERENCE,
            limit: high,
        }
    }

    /// The limit, in standard deviations.
    #[must_use]
    pub const fn limit(self) -> f64 {
        self.limit
    }

    /// How many portions pass on average until the upper sum crosses its limit,
    /// where the portions lie `shift` standard deviations above the level.
    #[must_use]
    pub fn average_run_length(self, shift: f64) -> f64 {
        // Summed until next to nothing is left; the tail is geometric.
        let chain = Chain::of(self, shift);
        let mut states = chain.start();
        let (mut length, mut left, mut portions) = (0.0, 1.0, 0);
        loop {
            length += left;
            let next = chain.step(&mut states);
            portions += 1;
            let kept = next / left;
            if next < 1e-12 {
                return length;
            }
            // The ratio settles long before the states are empty.
            if portions > 400 {
                return length + next / (1.0 - kept);
            }
            left = next;
        }
    }

    /// The probability that the upper sum crosses its limit within so many
    /// portions `shift` standard deviations above the level.
    #[must_use]
    pub fn crossed_within(self, portions: usize, shift: f64) -> f64 {
        let chain = Chain::of(self, shift);
        let mut states = chain.start();
        let mut left = 1.0;
        for _ in 0..portions {
            left = chain.step(&mut states);
        }
        1.0 - left
    }

    /// Where standardised portions cross the limit first: the portion at which
    /// they do, the first portion of the sum that did, both from 0, and whether
    /// it was the upper side.
    pub(super) fn crossing(self, portions: impl IntoIterator<Item = f64>) -> Option<Crossing> {
        let mut sums = [(0.0_f64, 0_usize); 2];
        for (place, z) in portions.into_iter().enumerate() {
            for ((sum, since), side) in sums.iter_mut().zip([1.0, -1.0]) {
                *sum += z * side - self.reference;
                if *sum <= 0.0 {
                    (*sum, *since) = (0.0, place + 1);
                } else if *sum > self.limit {
                    return Some(Crossing {
                        place,
                        since: *since,
                        up: side > 0.0,
                    });
                }
            }
        }
        None
    }
}

/// That a sum crossed its limit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Crossing {
    pub(super) place: usize,
    pub(super) since: usize,
    pub(super) up: bool,
}

/// The sum as a chain of states (Brook and Evans, Biometrika 59 (1972) 539).
struct Chain {
    /// From each state to each.
    steps: Vec<[f64; STATES]>,
}

impl Chain {
    fn of(scheme: CusumLimit, shift: f64) -> Self {
        // State 0 is a sum of nought; the others are centred on multiples of the width.
        let width = 2.0 * scheme.limit / (2.0 * STATES as f64 - 1.0);
        let below = |sum: f64| 1.0 - super::scores::upper_tail(sum - shift + scheme.reference);
        let steps = (0..STATES)
            .map(|from| {
                let from = from as f64 * width;
                let mut row = [0.0; STATES];
                let mut under = 0.0;
                for (to, chance) in row.iter_mut().enumerate() {
                    let upper = below((to as f64 + 0.5) * width - from);
                    *chance = upper - under;
                    under = upper;
                }
                row
            })
            .collect();
        Self { steps }
    }

    fn start(&self) -> [f64; STATES] {
        let mut states = [0.0; STATES];
        states[0] = 1.0;
        states
    }

    /// One portion more; returns the probability of not having crossed yet.
    fn step(&self, states: &mut [f64; STATES]) -> f64 {
        let mut next = [0.0; STATES];
        for (held, row) in states.iter().zip(&self.steps) {
            for (to, chance) in next.iter_mut().zip(row) {
                *to += held * chance;
            }
        }
        *states = next;
        next.iter().sum()
    }
}
