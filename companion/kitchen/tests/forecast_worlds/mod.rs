//! Made-up kitchens in which forecasts are tried: what is simulated, what is
//! seen of it, and how a forecast is scored against it.
//!
//! [`tuning`], [`second`], [`judging`], [`fresh`] and [`reported`] are what the figures
//! of the forecast were chosen on; [`later`] is a set of worlds written after that,
//! with other equations, ranges, noise and sampling, that it is reported on.

#![allow(clippy::unwrap_used, dead_code)]

/// The families that an interval has to hold on, each by the function of that name in the
/// module that calls this: the same in every set of worlds.
macro_rules! families {
    () => {
        pub const FAMILIES: [$crate::forecast_worlds::Family; 15] = {
            const fn family(
                name: &'static str,
                smooth: bool,
                make: fn(&mut Draw) -> World,
            ) -> $crate::forecast_worlds::Family {
                $crate::forecast_worlds::Family { name, smooth, make }
            }
            [
                family("one exponential", true, one),
                family("two exponentials", true, two),
                family("cycling fridge", true, cycling),
                family("evaporating pan", true, evaporating),
                family("core of a slab", true, slab),
                family("core of a cylinder", true, cylinder),
                family("thawing", false, thawing),
                family("joint that stalls", false, stalling),
                family("door opened three times", false, door),
                family("raked out", false, raked),
                family("lid off", false, lid_off),
                family("lid on", false, lid_on),
                family("into an ice bath", false, ice_bath),
                family("fridge, unsaid", false, fridge_unsaid),
                family("fourth morning", false, fourth_morning),
            ]
        };
    };
}

pub mod fresh;
pub mod judging;
pub mod later;
pub mod pans;
pub mod reported;
pub mod second;
pub mod tuning;

use evenhand_kitchen::heat::{
    Band, Forecast, Habit, HeatLog, LogPoint, Surroundings, When, forecast,
};
use evenhand_protocol::Temperature;
use jiff::Timestamp;
use rand_chacha::ChaCha8Rng;
use rand_core::{Rng, SeedableRng};

const START: i64 = 1_800_000_000;

/// Repeatable draws.
pub struct Draw(ChaCha8Rng);

impl Draw {
    /// From a seed and a stream, which keeps families apart.
    pub fn new(seed: u64, stream: u64) -> Self {
        let mut rng = ChaCha8Rng::seed_from_u64(seed);
        rng.set_stream(stream);
        Self(rng)
    }

    /// From 0 to 1.
    pub fn unit(&mut self) -> f64 {
        (self.0.next_u64() >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// Evenly between two.
    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.unit()
    }

    /// Evenly between two on a logarithmic scale.
    pub fn scale(&mut self, low: f64, high: f64) -> f64 {
        self.between(low.ln(), high.ln()).exp()
    }

    /// Standard normal (G. E. P. Box and M. E. Muller, 1958).
    pub fn normal(&mut self) -> f64 {
        let (a, b) = (self.unit().max(1e-12), self.unit());
        (-2.0 * a.ln()).sqrt() * (std::f64::consts::TAU * b).cos()
    }

    /// One of some.
    pub fn one_of<T: Copy>(&mut self, all: &[T]) -> T {
        all[((self.unit() * all.len() as f64) as usize).min(all.len() - 1)]
    }
}

/// How a probe sees: a reading every so many minutes, with noise, in steps.
#[derive(Debug, Clone, Copy)]
pub struct Probe {
    pub every: f64,
    pub noise: f64,
    pub step: f64,
}

impl Probe {
    /// The readings of a true course up to a minute.
    pub fn sees(self, truth: &Truth, draw: &mut Draw) -> Vec<(f64, f64)> {
        let mut seen = Vec::new();
        let mut minute = 0.0;
        while minute <= truth.end() {
            let celsius = truth.at(minute) + self.noise * draw.normal();
            let stepped = if self.step > 0.0 {
                (celsius / self.step).round() * self.step
            } else {
                celsius
            };
            seen.push((minute, stepped));
            minute += self.every;
        }
        seen
    }
}

/// A true course of temperature, closely spaced.
#[derive(Debug, Clone)]
pub struct Truth {
    pub step: f64,
    pub celsius: Vec<f64>,
}

impl Truth {
    pub fn of(step: f64, length: f64, at: impl Fn(f64) -> f64) -> Self {
        let n = (length / step) as usize;
        Self {
            step,
            celsius: (0..=n).map(|i| at(i as f64 * step)).collect(),
        }
    }

    /// Euler steps of a state until its first value passes a level or the time
    /// is up: `change` gives rates a minute.
    pub fn stepped<const N: usize>(
        step: f64,
        length: f64,
        mut state: [f64; N],
        change: impl Fn(f64, &[f64; N]) -> [f64; N],
    ) -> Self {
        let n = (length / step) as usize;
        let mut celsius = Vec::with_capacity(n + 1);
        for i in 0..=n {
            celsius.push(state[0]);
            let by = change(i as f64 * step, &state);
            for (value, by) in state.iter_mut().zip(by) {
                *value += by * step;
            }
        }
        Self { step, celsius }
    }

    fn end(&self) -> f64 {
        (self.celsius.len() - 1) as f64 * self.step
    }

    pub fn at(&self, minute: f64) -> f64 {
        let place = (minute / self.step).max(0.0);
        let i = (place as usize).min(self.celsius.len() - 1);
        let j = (i + 1).min(self.celsius.len() - 1);
        let share = (place - i as f64).min(1.0);
        self.celsius[i] + share * (self.celsius[j] - self.celsius[i])
    }

    /// When a level is first passed.
    pub fn reaches(&self, level: f64) -> Option<f64> {
        self.celsius.windows(2).enumerate().find_map(|(i, w)| {
            let passes = (w[0] - level) * (w[1] - level) <= 0.0 && w[0] != w[1];
            passes.then(|| (i as f64 + (level - w[0]) / (w[1] - w[0])) * self.step)
        })
    }
}

/// One thing to be foretold.
#[derive(Debug, Clone)]
pub struct World {
    pub truth: Truth,
    pub probe: Probe,
    pub level: f64,
    /// What the cook said of the surroundings.
    pub told: Option<(f64, f64)>,
    /// The minutes at which something is done to it, unsaid.
    pub events: Vec<f64>,
    /// Earlier mornings.
    pub earlier: Vec<Vec<(f64, f64)>>,
}

pub fn celsius(c: f64) -> Temperature {
    Temperature::from_celsius(c).unwrap()
}

pub fn moment(minutes: f64) -> Timestamp {
    Timestamp::from_millisecond(START * 1000 + (minutes * 60_000.0).round() as i64).unwrap()
}

pub fn minutes(at: Timestamp) -> f64 {
    (at.as_millisecond() - START * 1000) as f64 / 60_000.0
}

pub fn log(points: &[(f64, f64)]) -> HeatLog {
    let mut log = HeatLog::new("pan of stock");
    for (minutes, c) in points {
        log.push(LogPoint {
            at: moment(*minutes),
            temperature: celsius(*c),
        })
        .unwrap();
    }
    log
}

pub fn surroundings(told: Option<(f64, f64)>) -> Surroundings {
    told.map_or(Surroundings::UNKNOWN, |(c, give)| {
        Surroundings::about(celsius(c), give).unwrap()
    })
}

/// One answer beside the truth, in minutes from the asking.
#[derive(Debug, Clone, Copy)]
pub struct Answer {
    pub asked_at: f64,
    pub remaining: f64,
    /// Early, likely, late, where an interval was given.
    pub interval: Option<(f64, f64, Option<f64>)>,
    pub forecast: Forecast,
    /// Whether every event lies before the asking.
    pub after_events: bool,
}

impl Answer {
    pub fn held(&self) -> Option<bool> {
        self.interval.map(|(early, _, late)| {
            early <= self.remaining && late.is_none_or(|late| late >= self.remaining)
        })
    }
}

/// Shares of the time until the truth at which is asked: past the first quarter.
const ASKED: [f64; 5] = [0.28, 0.42, 0.57, 0.73, 0.88];

impl World {
    /// Asks along the way; empty where the level is never reached.
    pub fn ask(&self, draw: &mut Draw) -> Vec<Answer> {
        let Some(there) = self.truth.reaches(self.level) else {
            return Vec::new();
        };
        let points = self.probe.sees(&self.truth, draw);
        let band = Band::new(celsius(self.level), celsius(self.level)).unwrap();
        let mut habit = Habit::default();
        for morning in &self.earlier {
            habit.learn(&log(morning));
        }
        ASKED
            .iter()
            .filter_map(|share| {
                let upto = points.partition_point(|p| p.0 <= share * there);
                let seen = &points[..upto];
                let asked_at = seen.last()?.0;
                let answer = forecast(
                    &log(seen),
                    band,
                    surroundings(self.told),
                    &habit,
                    moment(asked_at),
                );
                let interval = match answer {
                    Forecast::Coming { enters, .. } => Some(in_minutes(enters, asked_at)),
                    _ => None,
                };
                Some(Answer {
                    asked_at,
                    remaining: there - asked_at,
                    interval,
                    forecast: answer,
                    after_events: self.events.iter().all(|e| *e < asked_at),
                })
            })
            .collect()
    }
}

fn in_minutes(when: When, from: f64) -> (f64, f64, Option<f64>) {
    (
        minutes(when.early) - from,
        minutes(when.likely) - from,
        when.late.map(|late| minutes(late) - from),
    )
}

/// What came of one family.
#[derive(Debug, Clone, Default)]
pub struct Score {
    pub asked: usize,
    pub answered: usize,
    pub held: usize,
    /// The same, of those asked after the last event.
    pub asked_after: usize,
    pub answered_after: usize,
    pub held_after: usize,
    pub said_never: usize,
    /// Missed because it came before the early end.
    pub came_before: usize,
    /// Width over the time remaining; infinite where it may never come.
    widths: Vec<f64>,
    /// The same of those asked after the last event.
    widths_after: Vec<f64>,
    /// Error of the likely time over the time remaining.
    errors: Vec<f64>,
    errors_after: Vec<f64>,
}

impl Score {
    pub fn add(&mut self, answers: &[Answer]) {
        for answer in answers {
            self.asked += 1;
            self.asked_after += usize::from(answer.after_events);
            self.said_never += usize::from(answer.forecast == Forecast::NotComing);
            let (Some(held), Some((early, likely, late))) = (answer.held(), answer.interval) else {
                continue;
            };
            self.answered += 1;
            self.held += usize::from(held);
            self.came_before += usize::from(answer.remaining < early);
            if answer.after_events {
                self.answered_after += 1;
                self.held_after += usize::from(held);
            }
            let width = late.map_or(f64::INFINITY, |late| late - early) / answer.remaining;
            let error = (likely - answer.remaining) / answer.remaining;
            self.widths.push(width);
            self.errors.push(error);
            if answer.after_events {
                self.widths_after.push(width);
                self.errors_after.push(error);
            }
        }
    }

    /// The median width after the last event, as a share of the time remaining.
    pub fn width(&self) -> f64 {
        quantile(&self.widths_after, 0.5)
    }

    /// The errors' own spread as an interval of the same confidence: from their
    /// tenth to their ninetieth hundredth.
    pub fn spread(&self) -> f64 {
        quantile(&self.errors_after, 0.9) - quantile(&self.errors_after, 0.1)
    }
}

fn quantile(values: &[f64], share: f64) -> f64 {
    let mut sorted = values.to_vec();
    sorted.sort_by(f64::total_cmp);
    if sorted.is_empty() {
        return f64::NAN;
    }
    sorted[((sorted.len() - 1) as f64 * share).round() as usize]
}

/// A family of worlds.
#[derive(Clone, Copy)]
pub struct Family {
    pub name: &'static str,
    /// One that no event disturbs and that an answer is owed on.
    pub smooth: bool,
    pub make: fn(&mut Draw) -> World,
}

/// Scores a family on some seeds.
pub fn score(family: &Family, stream: u64, seeds: std::ops::Range<u64>) -> Score {
    let mut score = Score::default();
    for seed in seeds {
        let mut draw = Draw::new(seed, stream);
        let world = (family.make)(&mut draw);
        let answers = world.ask(&mut draw);
        score.add(&answers);
    }
    score
}
