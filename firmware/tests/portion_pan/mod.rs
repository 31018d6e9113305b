//! A pan whose load is told as a timeline, watched by a portion machine:
//! either with ideal weights, or through the signal chain with noise.
#![allow(dead_code, clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use evenhand_firmware::portion::{Draft, Event, PortionSettings, Portioning};
use evenhand_firmware::sensor::Counts;
use evenhand_firmware::signal::{Calibration, Chain, Point, Settings, Weight};
use evenhand_protocol::{Goal, Mass, Mode, Notice, Phase, Tolerance, Uptime};
use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::SeedableRng;
use rand_distr::{Distribution, Normal, Uniform};
use std::collections::VecDeque;

/// Noise of a sample, in grams: 90 nV rms on a 1 kg cell of 1 mV/V at 5 V, a
/// little less than 0.02 g.
const NOISE: f64 = 0.02;
const ZERO_COUNTS: f64 = 84_000.0;
const COUNTS_PER_GRAM: f64 = 2_097.0;
/// Eighty conversions a second.
const STEP_MICROS: u64 = 12_500;
/// Ten.
const SLOW_STEP_MICROS: u64 = 100_000;

pub fn grams(grams: f64) -> Mass {
    Mass::from_fractional_grams(grams).unwrap()
}

pub fn goal(target: f64, tolerance: f64) -> Goal {
    Goal::new(grams(target), Tolerance::symmetric(grams(tolerance))).unwrap()
}

enum Source {
    /// Exact, and stable when nothing changed for 0.4 s.
    Ideal(VecDeque<f64>),
    Chain(Box<Chain>, Normal<f64>),
}

pub struct Pan {
    source: Source,
    rng: ChaCha8Rng,
    pub machine: Portioning,
    micros: u64,
    step_micros: u64,
    /// The true load, in grams.
    pub load: f64,
    next_number: u32,
    pub drafts: Vec<(u32, Draft)>,
    pub notices: Vec<Notice>,
    pub phases: Vec<Phase>,
    pub last: Option<Weight>,
    blind: bool,
}

impl Pan {
    pub fn new(mode: Mode, goal: Goal, seed: Option<u64>) -> Self {
        Self::at_rate(mode, goal, seed, STEP_MICROS)
    }

    /// Through a chain with ten conversions a second.
    pub fn slow(mode: Mode, goal: Goal, seed: u64) -> Self {
        Self::at_rate(mode, goal, Some(seed), SLOW_STEP_MICROS)
    }

    fn at_rate(mode: Mode, goal: Goal, seed: Option<u64>, step_micros: u64) -> Self {
        let source = match seed {
            None => Source::Ideal(VecDeque::new()),
            Some(_) => {
                let calibration = Calibration::from_points(&[
                    Point::exact(Mass::ZERO, Counts(ZERO_COUNTS as i32)),
                    Point::exact(
                        Mass::from_grams(1_000),
                        Counts((ZERO_COUNTS + 1_000.0 * COUNTS_PER_GRAM) as i32),
                    ),
                ])
                .unwrap();
                let settings = Settings {
                    capacity: Mass::from_grams(2_000),
                    rate: (1_000_000 / step_micros) as u16,
                    ..Settings::BENCH_1KG
                };
                Source::Chain(
                    Box::new(Chain::new(settings, Some(calibration))),
                    Normal::new(0.0, NOISE).unwrap(),
                )
            }
        };
        let mut pan = Self {
            source,
            rng: ChaCha8Rng::seed_from_u64(seed.unwrap_or(0)),
            machine: Portioning::new(mode, goal, PortionSettings::BENCH),
            micros: 0,
            step_micros,
            load: 0.0,
            next_number: 1,
            drafts: Vec::new(),
            notices: Vec::new(),
            phases: Vec::new(),
            last: None,
            blind: false,
        };
        pan.hold(1.5);
        pan
    }

    fn sample(&mut self, grams_now: f64) {
        self.micros += self.step_micros;
        let at = Uptime::from_millis(self.micros / 1_000);
        let weight = match &mut self.source {
            Source::Ideal(past) => {
                past.push_back(grams_now);
                if past.len() > 32 {
                    past.pop_front();
                }
                let least = past.iter().copied().fold(f64::MAX, f64::min);
                let most = past.iter().copied().fold(f64::MIN, f64::max);
                let newest = || past.iter().copied().skip(16);
                let level = newest().fold(f64::MIN, f64::max) - newest().fold(f64::MAX, f64::min);
                Ok(Weight {
                    calm: past.len() == 32 && level < 0.1,
                    at,
                    gross: grams(grams_now),
                    stable: past.len() == 32 && most - least < 0.1,
                    noise: Mass::from_milligrams(5),
                })
            }
            Source::Chain(chain, noise) => {
                chain.hold_zero(!self.machine.zero_may_follow());
                let noisy = grams_now + noise.sample(&mut self.rng);
                let counts = ZERO_COUNTS + noisy * COUNTS_PER_GRAM;
                chain.take(at, Counts(counts.round() as i32))
            }
        };
        match weight {
            Ok(weight) => {
                let events = self.machine.take(&weight);
                self.last = Some(weight);
                self.keep(&events);
            }
            Err(_) => self.machine.interrupted(at),
        }
        let phase = self.machine.phase();
        if self.phases.last() != Some(&phase) {
            self.phases.push(phase);
        }
    }

    fn keep(&mut self, events: &[Event]) {
        for event in events {
            match event {
                Event::Portion(draft) => {
                    self.machine.numbered(Some(self.next_number));
                    self.drafts.push((self.next_number, *draft));
                    self.next_number += 1;
                }
                Event::Notice(notice) => self.notices.push(*notice),
            }
        }
    }

    /// Nothing happens for so many seconds.
    pub fn hold(&mut self, seconds: f64) -> &mut Self {
        self.force(seconds, |_| 0.0)
    }

    /// Besides the load a force acts, in grams at each time since its start.
    pub fn force(&mut self, seconds: f64, mut force: impl FnMut(f64) -> f64) -> &mut Self {
        let samples = (seconds / (self.step_micros as f64 * 1e-6)).round() as u64;
        for sample in 0..samples {
            let time = sample as f64 * self.step_micros as f64 * 1e-6;
            let now = self.load + force(time);
            self.sample(now);
        }
        self
    }

    /// The load changes evenly by so much over so many seconds.
    pub fn change(&mut self, by: f64, seconds: f64) -> &mut Self {
        let from = self.load;
        self.force(seconds, |time| by * time / seconds);
        self.load = from + by;
        self
    }

    /// A thing is put on the pan, with the little knock it gives.
    pub fn put(&mut self, mass: f64) -> &mut Self {
        self.change(mass, 0.15);
        let knock = (mass.abs() * 0.1).min(20.0);
        self.force(0.3, |time| {
            knock * (-time / 0.06).exp() * (time * 40.0).sin()
        })
    }

    /// Everything on the pan is lifted off.
    pub fn lift(&mut self) -> &mut Self {
        let load = self.load;
        self.change(-load, 0.2)
    }

    /// Food is put in with a spoon that pushes for a moment.
    pub fn add(&mut self, mass: f64) -> &mut Self {
        self.force(0.3, |time| 60.0 * (time * 10.0).sin().abs());
        self.change(mass, 0.2);
        self.hold(1.2)
    }

    /// A spoon goes in, pushes, and takes so much out.
    pub fn spoon(&mut self, mass: f64) -> &mut Self {
        self.force(0.5, |time| 150.0 * (time * 9.0).sin().abs());
        self.change(-mass, 0.25);
        self.hold(1.2)
    }

    /// A hand leans on the pan and is never still.
    pub fn lean(&mut self, seconds: f64, heaviest: f64) -> &mut Self {
        let random = Uniform::new(0.5, 1.5).unwrap();
        let (a, b) = (random.sample(&mut self.rng), random.sample(&mut self.rng));
        self.force(seconds, |time| {
            let envelope = (time / 0.1).min((seconds - time) / 0.1).clamp(0.0, 1.0);
            envelope
                * heaviest
                * (0.6 + 0.25 * (a * 7.0 * time).sin() + 0.15 * (b * 17.0 * time).cos())
        })
    }

    /// A hand comes, rests dead still and leaves.
    pub fn rest_hand(&mut self, seconds: f64, force: f64) -> &mut Self {
        self.force(0.2, |time| force * time / 0.2);
        self.force(seconds, |_| force);
        self.force(0.2, |time| force * (1.0 - time / 0.2))
    }

    /// Somebody bumps the table.
    pub fn bump(&mut self, peak: f64, hertz: f64) -> &mut Self {
        self.force(1.5, |time| {
            peak * (-time / 0.3).exp() * (core::f64::consts::TAU * hertz * time).sin()
        })
    }

    /// Weighing is interrupted while the load changes.
    pub fn blind(&mut self, seconds: f64, by: f64) -> &mut Self {
        self.load += by;
        let until = self.micros + (seconds * 1e6) as u64;
        while self.micros < until {
            self.micros += self.step_micros;
            self.machine
                .interrupted(Uptime::from_millis(self.micros / 1_000));
        }
        match &mut self.source {
            Source::Ideal(past) => past.clear(),
            Source::Chain(chain, _) => chain.restart_filter(),
        }
        self
    }

    /// The run ends.
    pub fn finish(&mut self) -> &mut Self {
        let events = self
            .machine
            .finish(Uptime::from_millis(self.micros / 1_000));
        self.keep(&events);
        self
    }

    /// The portions that count in the end, in the order they were first made:
    /// number and grams.
    pub fn portions(&self) -> Vec<f64> {
        let mut counted: Vec<(u32, Draft)> = Vec::new();
        for (number, draft) in &self.drafts {
            match draft.replaces {
                Some(old) => {
                    let place = counted
                        .iter_mut()
                        .find(|(number, _)| *number == old)
                        .expect("a portion replaces one that counts");
                    *place = (*number, *draft);
                }
                None => counted.push((*number, *draft)),
            }
        }
        counted
            .iter()
            .map(|(_, draft)| draft.mass.grams())
            .collect()
    }

    /// Checks that exactly these portions count, each within a tenth of a
    /// gram.
    #[track_caller]
    pub fn expect(&self, portions: &[f64]) {
        let got = self.portions();
        let same = got.len() == portions.len()
            && got
                .iter()
                .zip(portions)
                .all(|(got, true_mass)| (got - true_mass).abs() < 0.1);
        assert!(
            same,
            "made {portions:?}, counted {got:?}; notices {:?}; drafts {:?}",
            self.notices, self.drafts
        );
    }

    pub fn notified(&self, test: impl Fn(&Notice) -> bool) -> usize {
        self.notices.iter().filter(|notice| test(notice)).count()
    }
}

/// Runs a story with ideal weights and with the chain at several seeds.
pub fn everywhere(mode: Mode, goal: Goal, story: impl Fn(&mut Pan)) {
    let seeds: &[Option<u64>] = if cfg!(miri) {
        // An interpreter takes minutes for a chain with its noise.
        &[None]
    } else {
        &[None, Some(1), Some(2), Some(3)]
    };
    for seed in seeds.iter().copied() {
        let mut pan = Pan::new(mode, goal, seed);
        story(&mut pan);
    }
}
