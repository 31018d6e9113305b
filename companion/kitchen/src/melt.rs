//! What melts: how long scoops have been out of the cold, and what a load loses
//! while it lies on the scale.

use evenhand_protocol::Mass;
use jiff::{SignedDuration, Timestamp};
use statrs::distribution::{ContinuousCDF, StudentsT};
use std::collections::VecDeque;

/// Time since the first scoop of a run left the cold, against a limit that the
/// cook sets.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct MeltClock {
    first_out: Timestamp,
    limit: SignedDuration,
}

/// The limit is not from ten seconds to two hours.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[error("the melt limit is {} s, expected 10 s to 2 h", .0.as_secs())]
pub struct BadMeltLimit(pub SignedDuration);

/// How the scoops stand.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Melt {
    /// So much time is left.
    Left(SignedDuration),
    /// The limit passed so long ago: back into the cold before the next step.
    Over(SignedDuration),
}

impl MeltClock {
    /// Starts a clock.
    ///
    /// # Errors
    /// [`BadMeltLimit`] outside ten seconds to two hours.
    pub fn start(first_out: Timestamp, limit: SignedDuration) -> Result<Self, BadMeltLimit> {
        if limit < SignedDuration::from_secs(10) || limit > SignedDuration::from_hours(2) {
            return Err(BadMeltLimit(limit));
        }
        Ok(Self { first_out, limit })
    }

    /// The clock of a run: from the first of `portions` made after they last
    /// went back into the cold. `None` where there is none.
    ///
    /// # Errors
    /// As for [`MeltClock::start`].
    pub fn of_run(
        portions: impl IntoIterator<Item = Timestamp>,
        last_in_cold: Option<Timestamp>,
        limit: SignedDuration,
    ) -> Result<Option<Self>, BadMeltLimit> {
        portions
            .into_iter()
            .filter(|at| last_in_cold.is_none_or(|cold| *at > cold))
            .min()
            .map(|first| Self::start(first, limit))
            .transpose()
    }

    /// The limit.
    #[must_use]
    pub const fn limit(&self) -> SignedDuration {
        self.limit
    }

    /// When the time is up.
    #[must_use]
    pub fn until(&self) -> Timestamp {
        self.first_out
            .checked_add(self.limit)
            .unwrap_or(Timestamp::MAX)
    }

    /// How long they have been out; never negative, even when a clock is set
    /// back.
    #[must_use]
    pub fn out(&self, now: Timestamp) -> SignedDuration {
        now.duration_since(self.first_out).max(SignedDuration::ZERO)
    }

    /// How they stand now.
    #[must_use]
    pub fn stands(&self, now: Timestamp) -> Melt {
        let left = self.limit - self.out(now);
        if left.is_negative() {
            Melt::Over(left.abs())
        } else {
            Melt::Left(left)
        }
    }
}

/// How far apart readings are kept.
const APART: SignedDuration = SignedDuration::from_secs(5);
/// How many are kept: the last ten minutes.
const KEPT: usize = 120;
/// Fewest that anything is said by: a minute.
const FEWEST: usize = 13;
/// The scale's own steps that a load changes by at once only where a hand changed it.
const HAND: i64 = 20;
/// The most alike that neighbouring readings are taken to be.
const MOST_ALIKE: f64 = 0.9;

/// Watches what lies on the pan lose weight: melting, dripping, drying.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct LossWatch {
    began: Option<(Timestamp, Mass)>,
    readings: VecDeque<(Timestamp, Mass)>,
}

/// What a load has lost while it lay there, as far as its readings tell.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Loss {
    /// Since it was laid down.
    pub since: Timestamp,
    /// So much; negative where it gained.
    pub lost: Mass,
    /// So much a minute lately, over at most ten minutes; negative where it gains.
    pub a_minute: Mass,
    /// The true rate lies within this of it, with a confidence of 95 %, if the
    /// scale itself stands still.
    pub within: Mass,
}

impl Loss {
    /// Whether the readings tell a loss from standing still.
    #[must_use]
    pub fn is_seen(&self) -> bool {
        self.a_minute > self.within
    }
}

impl LossWatch {
    /// Takes in a reading: what lies there at rest, `None` where nothing does or it
    /// is not at rest; with the scale's step. A hand that adds or takes something
    /// begins the watch anew.
    pub fn take(&mut self, at: Timestamp, load: Option<Mass>, step: Mass) {
        let Some(load) = load.filter(|load| *load > step.times(HAND)) else {
            *self = Self::default();
            return;
        };
        if let Some((last, before)) = self.readings.back() {
            // A clock that was set back tells nothing of a rate.
            if (load - *before).abs() > step.times(HAND) || at < *last {
                *self = Self::default();
            } else if at.duration_since(*last) < APART {
                return;
            }
        }
        self.began.get_or_insert((at, load));
        self.readings.push_back((at, load));
        if self.readings.len() > KEPT {
            self.readings.pop_front();
        }
    }

    /// What the load has lost; `None` before it has lain for a minute.
    #[must_use]
    pub fn loss(&self, step: Mass) -> Option<Loss> {
        let (since, first) = self.began?;
        let n = self.readings.len();
        if n < FEWEST {
            return None;
        }
        let origin = self.readings.front()?.0;
        let points: Vec<(f64, f64)> = self
            .readings
            .iter()
            .map(|(at, load)| {
                let minutes = at.duration_since(origin).as_secs_f64() / 60.0;
                (minutes, load.grams())
            })
            .collect();
        let count = n as f64;
        let mean = |of: fn(&(f64, f64)) -> f64| points.iter().map(of).sum::<f64>() / count;
        let (middle, level) = (mean(|point| point.0), mean(|point| point.1));
        let across: f64 = points.iter().map(|(x, _)| (x - middle).powi(2)).sum();
        let slope = points
            .iter()
            .map(|(x, y)| (x - middle) * (y - level))
            .sum::<f64>()
            / across;
        let left: Vec<f64> = points
            .iter()
            .map(|(x, y)| y - level - slope * (x - middle))
            .collect();
        let squares: f64 = left.iter().map(|e| e * e).sum();
        // Readings in steps are no finer known than a step's own standard deviation
        // (JCGM 100, F.2.2.1).
        let rounded = step.grams().powi(2) / 12.0;
        let variance = (squares / (count - 2.0)).max(rounded);
        // Neighbours that are alike tell less (the usual factor of a first-order
        // autoregression), and a line taken out hides part of it.
        let products: f64 = left.windows(2).map(|pair| pair[0] * pair[1]).sum();
        let alike = if squares > 0.0 {
            (products / squares + 4.0 / count).clamp(0.0, MOST_ALIKE)
        } else {
            0.0
        };
        let wider = (1.0 + alike) / (1.0 - alike);
        let degrees = ((count - 2.0) / wider).max(2.0);
        let student = StudentsT::new(0.0, 1.0, degrees).ok()?.inverse_cdf(0.975);
        let last = self.readings.back()?.0;
        let now = level + slope * (last.duration_since(origin).as_secs_f64() / 60.0 - middle);
        Some(Loss {
            since,
            lost: first - Mass::from_fractional_grams(now)?,
            a_minute: Mass::from_fractional_grams(-slope)?,
            within: Mass::from_fractional_grams(student * (variance * wider / across).sqrt())?,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn it_counts_down_and_then_up() {
        let zero = Timestamp::UNIX_EPOCH;
        let after = |s| zero + SignedDuration::from_secs(s);
        let clock = MeltClock::start(zero, SignedDuration::from_mins(6)).unwrap();
        assert_eq!(
            clock.stands(after(60)),
            Melt::Left(SignedDuration::from_mins(5))
        );
        assert_eq!(clock.stands(after(360)), Melt::Left(SignedDuration::ZERO));
        assert_eq!(
            clock.stands(after(420)),
            Melt::Over(SignedDuration::from_mins(1))
        );
        assert_eq!(
            clock.stands(after(-60)),
            Melt::Left(SignedDuration::from_mins(6))
        );
        assert!(MeltClock::start(zero, SignedDuration::ZERO).is_err());
    }

    #[test]
    fn back_in_the_cold_it_starts_again_with_the_next_scoop() {
        let at = |s| Timestamp::UNIX_EPOCH + SignedDuration::from_secs(s);
        let limit = SignedDuration::from_mins(6);
        let clock = |cold| MeltClock::of_run([at(10), at(40), at(700)], cold, limit).unwrap();
        assert_eq!(clock(None).unwrap().until(), at(370));
        assert_eq!(clock(Some(at(40))).unwrap().until(), at(1_060));
        assert_eq!(clock(Some(at(700))), None);
    }

    const STEP: Mass = Mass::from_milligrams(100);

    fn after(seconds: i64) -> Timestamp {
        Timestamp::UNIX_EPOCH + SignedDuration::from_secs(seconds)
    }

    fn step_of(grams: f64) -> Mass {
        Mass::from_fractional_grams((grams * 10.0).round() / 10.0).unwrap()
    }

    #[test]
    fn a_scoop_that_loses_a_gram_a_minute_is_seen_to() {
        let mut watch = LossWatch::default();
        for second in 0..=180 {
            let load = step_of(80.0 - second as f64 / 60.0);
            watch.take(after(second), Some(load), STEP);
            if second == 55 {
                assert_eq!(watch.loss(STEP), None);
            }
        }
        let loss = watch.loss(STEP).unwrap();
        assert_eq!(loss.since, after(0));
        assert!((loss.lost.grams() - 3.0).abs() < 0.1, "{loss:?}");
        assert!((loss.a_minute.grams() - 1.0).abs() < 0.05, "{loss:?}");
        assert!(loss.is_seen() && loss.within < Mass::from_milligrams(200));
    }

    #[test]
    fn a_hand_or_a_clock_set_back_begins_the_watch_anew() {
        let mut watch = LossWatch::default();
        let lie = |watch: &mut LossWatch, from: i64, grams: f64| {
            for second in 0..=70 {
                watch.take(after(from + second), Some(step_of(grams)), STEP);
            }
        };
        lie(&mut watch, 0, 80.0);
        assert!(watch.loss(STEP).is_some_and(|loss| !loss.is_seen()));
        watch.take(after(80), Some(step_of(110.0)), STEP);
        assert_eq!(watch.loss(STEP), None);
        lie(&mut watch, 100, 110.0);
        assert_eq!(watch.loss(STEP).unwrap().since, after(80));
        watch.take(after(20), Some(step_of(110.0)), STEP);
        assert_eq!(watch.loss(STEP), None);
        lie(&mut watch, 200, 110.0);
        watch.take(after(300), None, STEP);
        assert_eq!(watch.loss(STEP), None);
    }

    /// Of made-up scoops whose loss is known and whose readings wander and come in
    /// steps, how many have their rate within what is said, in 400.
    fn covered(alike: f64, noise: f64, rate: f64, minutes: i64, seed: u64) -> usize {
        use rand_chacha::ChaCha8Rng;
        use rand_core::{Rng, SeedableRng};
        (0..400)
            .filter(|run| {
                let mut random = ChaCha8Rng::seed_from_u64(seed);
                random.set_stream(*run);
                // A sum of twelve evens is as good as normal here.
                let mut normal = || {
                    (0..12)
                        .map(|_| f64::from(random.next_u32()) / f64::from(u32::MAX))
                        .sum::<f64>()
                        - 6.0
                };
                let mut wander = normal();
                let mut watch = LossWatch::default();
                for fifth in 0..=12 * minutes {
                    wander = alike * wander + (1.0 - alike * alike).sqrt() * normal();
                    let grams = 80.0 - rate * fifth as f64 / 12.0 + noise * wander;
                    watch.take(after(5 * fifth), Some(step_of(grams)), STEP);
                }
                let loss = watch.loss(STEP).unwrap();
                (loss.a_minute.grams() - rate).abs() <= loss.within.grams()
            })
            .count()
    }

    // Of 400 at a true 95 of 100, fewer than 368 come up once in 100 such tests
    // (binomial). Readings that wander slowly are kept in somewhat fewer.
    #[test]
    fn the_rate_lies_within_what_is_said() {
        for (seed, (alike, noise, rate, minutes, least)) in (9_001..).zip([
            (0.0, 0.05, 0.7, 2, 368),
            (0.0, 0.2, 1.5, 5, 368),
            (0.0, 0.01, 0.05, 8, 368),
            (0.4, 0.1, 0.3, 4, 360),
            (0.7, 0.1, 0.3, 8, 340),
        ]) {
            let held = covered(alike, noise, rate, minutes, seed);
            assert!(held >= least, "{held} of 400: alike {alike}, {minutes} min");
        }
    }
}
