//! Made-up loads and disturbances of a kitchen's bench, in grams, sample by sample.
//!
//! The ranges are estimates, no source: a 1 kg cell with 0.02 g rms of white noise a sample
//! at 80 samples a second; hum of up to 0.15 g; footfall and chopping of 1 to 20 g that die
//! away over 0.2 to 0.5 s; an extractor of some tenths of a gram at 10 to 25 Hz; a hand of 50
//! to 2 000 g that wanders.
#![allow(dead_code, clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::SeedableRng;
use rand_distr::{Distribution, Exp, Normal, Uniform};
use std::f64::consts::TAU;

/// Samples a second.
pub const RATE: f64 = 80.0;
/// White noise of a sample, grams rms.
pub const WHITE: f64 = 0.02;
/// Counts of the empty pan.
pub const ZERO_COUNTS: i32 = 84_000;
/// Counts a gram: a 1 mV/V cell of 1 kg and a 24-bit converter over ±20 mV.
pub const COUNTS_PER_GRAM: f64 = 2_097.152;

/// A source of random numbers with a name.
pub struct Dice(ChaCha8Rng);

impl Dice {
    pub fn new(seed: u64) -> Self {
        Self(ChaCha8Rng::seed_from_u64(seed))
    }

    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        Uniform::new(low, high).unwrap().sample(&mut self.0)
    }

    /// Evenly spread on a logarithmic scale.
    pub fn about(&mut self, low: f64, high: f64) -> f64 {
        self.between(low.ln(), high.ln()).exp()
    }

    pub fn normal(&mut self, deviation: f64) -> f64 {
        Normal::new(0.0, deviation).unwrap().sample(&mut self.0)
    }

    pub fn wait(&mut self, mean: f64) -> f64 {
        Exp::new(1.0 / mean).unwrap().sample(&mut self.0)
    }
}

/// Which disturbances are there besides white noise.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// None.
    White,
    /// Mains hum of 0.05 to 0.15 g, 50 or 60 Hz give or take 0.1 %.
    Hum,
    /// Somebody walks by every few seconds: sways of 1 to 4 Hz, 1 to 20 g, that die away.
    Footfall,
    /// Somebody chops at the same table for seconds on end: 1 to 4 strokes a second, 1 to
    /// 20 g, each ringing at 8 to 25 Hz and dying away.
    Chopping,
    /// An extractor: two tones of 0.1 to 0.3 g, 10 to 25 Hz.
    Extractor,
    /// Zero drift of 0.5 g in ten minutes, and creep of 0.05 % of the load.
    Drift,
    /// Hum, footfall, chopping and extractor together.
    Kitchen,
}

/// The table is pushed and comes to rest again. It pushes the scale by its acceleration, and
/// what is at rest before and after pushes up as much as down: the second derivative of
/// t² exp(-t/τ) sin ωt has neither a mean nor a jump.
struct Ring {
    start: f64,
    scale: f64,
    decay: f64,
    turn: f64,
}

impl Ring {
    /// Peaks at `peak` grams and has died away after some six `decay`s.
    fn new(start: f64, peak: f64, decay: f64, frequency: f64) -> Self {
        let mut ring = Self {
            start,
            scale: 1.0,
            decay: decay / 2.0,
            turn: TAU * frequency,
        };
        let highest = (0..2_000)
            .map(|i| ring.at(start + f64::from(i) * decay * 3.0 / 2_000.0).abs())
            .fold(0.0, f64::max);
        ring.scale = peak / highest;
        ring
    }

    fn at(&self, time: f64) -> f64 {
        let t = time - self.start;
        if t < 0.0 {
            return 0.0;
        }
        // With λ = -1/τ + iω the second derivative of t² exp λt is (2 + 4λt + λ²t²) exp λt.
        let (re, im) = (-1.0 / self.decay, self.turn);
        let polynomial_re = 2.0 + 4.0 * re * t + (re * re - im * im) * t * t;
        let polynomial_im = 4.0 * im * t + 2.0 * re * im * t * t;
        let (sin, cos) = (im * t).sin_cos();
        self.scale * (re * t).exp() * (polynomial_re * sin + polynomial_im * cos)
    }
}

struct Tone {
    frequency: f64,
    amplitude: f64,
    phase: f64,
}

/// The disturbances of one bench.
pub struct Kitchen {
    pub dice: Dice,
    index: u64,
    tones: Vec<Tone>,
    rings: Vec<Ring>,
    footfall: bool,
    next_walk: f64,
    chopping: bool,
    next_chop: f64,
    chop_until: f64,
    chop_rate: f64,
    chop_frequency: f64,
    chop_peak: f64,
    drift_per_second: f64,
    crept: f64,
    creep: bool,
    shaken: f64,
}

impl Kitchen {
    pub fn new(kind: Kind, seed: u64) -> Self {
        let mut dice = Dice::new(seed);
        let has = |kinds: &[Kind]| kind == Kind::Kitchen || kinds.contains(&kind);
        let mut tones = Vec::new();
        if has(&[Kind::Hum]) {
            let mains = if dice.between(0.0, 1.0) < 0.5 {
                50.0
            } else {
                60.0
            };
            tones.push(Tone {
                frequency: mains * dice.between(0.999, 1.001),
                amplitude: dice.between(0.05, 0.15),
                phase: dice.between(0.0, TAU),
            });
        }
        if has(&[Kind::Extractor]) {
            for _ in 0..2 {
                tones.push(Tone {
                    frequency: dice.between(10.0, 25.0),
                    amplitude: dice.between(0.1, 0.3),
                    phase: dice.between(0.0, TAU),
                });
            }
        }
        let drifts = kind == Kind::Drift;
        Self {
            index: 0,
            tones,
            rings: Vec::new(),
            footfall: has(&[Kind::Footfall]),
            next_walk: dice.wait(3.0),
            chopping: has(&[Kind::Chopping]),
            next_chop: dice.wait(5.0),
            chop_until: 0.0,
            chop_rate: 1.0,
            chop_frequency: 10.0,
            chop_peak: 1.0,
            drift_per_second: if drifts {
                0.5 / 600.0
                    * if dice.between(0.0, 1.0) < 0.5 {
                        1.0
                    } else {
                        -1.0
                    }
            } else {
                0.0
            },
            crept: 0.0,
            shaken: 0.0,
            creep: drifts,
            dice,
        }
    }

    /// Seconds since the start.
    pub fn time(&self) -> f64 {
        self.index as f64 / RATE
    }

    /// Slow errors that no filter can take off: drift and creep.
    pub fn slow(&self) -> f64 {
        self.drift_per_second * self.time() + self.crept
    }

    /// What footfall and chopping made of the last sample.
    pub fn shaken(&self) -> f64 {
        self.shaken
    }

    /// What the cell feels under a true load, in grams.
    pub fn feel(&mut self, load: f64) -> f64 {
        let time = self.time();
        self.index += 1;
        if self.creep {
            // Five minutes to creep most of the way.
            self.crept += (0.000_5 * load - self.crept) / (300.0 * RATE);
        }
        if self.footfall && time >= self.next_walk {
            let steps = self.dice.between(3.0, 8.0) as usize;
            let pace = self.dice.between(1.5, 2.2);
            let peak = self.dice.about(1.0, 20.0);
            let frequency = self.dice.between(1.0, 4.0);
            for step in 0..steps {
                self.rings.push(Ring::new(
                    time + step as f64 / pace,
                    peak * self.dice.between(0.5, 1.0),
                    self.dice.between(0.2, 0.5),
                    frequency * self.dice.between(0.9, 1.1),
                ));
            }
            self.next_walk = time + steps as f64 / pace + self.dice.wait(4.0);
        }
        if self.chopping && time >= self.next_chop {
            if time >= self.chop_until {
                self.chop_until = time + self.dice.between(5.0, 20.0);
                self.chop_rate = self.dice.between(1.0, 4.0);
                self.chop_frequency = self.dice.between(8.0, 25.0);
                self.chop_peak = self.dice.about(1.0, 20.0);
            }
            self.rings.push(Ring::new(
                time,
                self.chop_peak * self.dice.between(0.5, 1.0),
                self.dice.between(0.2, 0.5),
                self.chop_frequency,
            ));
            self.next_chop = time + self.dice.between(0.8, 1.2) / self.chop_rate;
            if self.next_chop >= self.chop_until {
                self.next_chop = self.chop_until + self.dice.wait(15.0);
            }
        }
        self.rings
            .retain(|ring| time - ring.start < 24.0 * ring.decay);
        let rings: f64 = self.rings.iter().map(|ring| ring.at(time)).sum();
        self.shaken = rings;
        let tones: f64 = self
            .tones
            .iter()
            .map(|tone| tone.amplitude * (TAU * tone.frequency * time + tone.phase).sin())
            .sum();
        load + rings + tones + self.slow() + self.dice.normal(WHITE)
    }
}

/// What the converter makes of a felt load.
pub fn counts(grams: f64) -> i32 {
    let counts = f64::from(ZERO_COUNTS) + grams * COUNTS_PER_GRAM;
    counts.round().clamp(-8_388_608.0, 8_388_607.0) as i32
}

/// The milliseconds of a sample on a clock that knows only whole ones.
pub fn millis(index: u64) -> u64 {
    (index as f64 * 1_000.0 / RATE) as u64
}

/// A hand that leans on the pan.
pub struct Hand {
    force: f64,
    until: f64,
    start: f64,
    rise: f64,
    wander: [Tone; 4],
    tremor: Tone,
}

impl Hand {
    /// A hand that comes down at `start`. Its force wanders smoothly by some per cent,
    /// slower than 2 Hz; `tremor` adds 8 to 12 Hz.
    pub fn new(dice: &mut Dice, start: f64, tremor: bool) -> Self {
        let force = dice.about(50.0, 2_000.0);
        let share = dice.between(0.005, 0.03);
        let wander = [0; 4].map(|_| Tone {
            frequency: dice.between(0.3, 2.0),
            amplitude: force * share * dice.between(0.5, 1.0),
            phase: dice.between(0.0, TAU),
        });
        Self {
            force,
            start,
            until: start + dice.between(0.3, 5.0),
            rise: dice.between(0.05, 0.3),
            wander,
            tremor: Tone {
                frequency: dice.between(8.0, 12.0),
                amplitude: if tremor {
                    force * dice.between(0.002, 0.01)
                } else {
                    0.0
                },
                phase: 0.0,
            },
        }
    }

    pub fn ends(&self) -> f64 {
        self.until + self.rise
    }

    /// Its force at a time.
    pub fn at(&self, time: f64) -> f64 {
        let on = ((time - self.start) / self.rise).clamp(0.0, 1.0)
            * ((self.ends() - time) / self.rise).clamp(0.0, 1.0);
        let tone = |tone: &Tone| tone.amplitude * (TAU * tone.frequency * time + tone.phase).sin();
        on * (self.force + self.wander.iter().map(tone).sum::<f64>() + tone(&self.tremor))
    }
}

/// A pan on a springy cell, read by a converter that averages over four conversions: what
/// becomes of a load set down within a moment.
pub struct Pan {
    position: f64,
    speed: f64,
    natural: f64,
    damping: f64,
    recent: [f64; 29],
}

impl Pan {
    const TICKS: usize = 8;

    /// A pan that rings at 25 to 60 Hz with 2 to 6 % of critical damping.
    pub fn new(dice: &mut Dice, load: f64) -> Self {
        Self {
            position: load,
            speed: 0.0,
            natural: TAU * dice.between(25.0, 60.0),
            damping: dice.between(0.02, 0.06),
            recent: [load; 29],
        }
    }

    /// One conversion, while the load goes as `load` says from 0 to 1.
    pub fn convert(&mut self, load: impl Fn(f64) -> f64) -> f64 {
        let tick = 1.0 / (RATE * Self::TICKS as f64);
        for n in 0..Self::TICKS {
            let target = load((n + 1) as f64 / Self::TICKS as f64);
            // Fine steps: the spring is fast.
            for _ in 0..20 {
                let pull = self.natural * self.natural * (target - self.position)
                    - 2.0 * self.damping * self.natural * self.speed;
                self.speed += pull * tick / 20.0;
                self.position += self.speed * tick / 20.0;
            }
            self.recent.rotate_right(1);
            self.recent[0] = self.position;
        }
        let mut weights = vec![1.0];
        for _ in 0..4 {
            let mut wider = vec![0.0; weights.len() + Self::TICKS - 1];
            for (i, weight) in weights.iter().enumerate() {
                for slot in &mut wider[i..i + Self::TICKS] {
                    *slot += weight / Self::TICKS as f64;
                }
            }
            weights = wider;
        }
        weights.iter().zip(&self.recent).map(|(w, x)| w * x).sum()
    }
}
