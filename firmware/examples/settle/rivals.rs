//! Other filters, all with the same rule of rest: stable once the output has stayed within a
//! band for a while.
//!
//! Each is set so that its error on white noise is about that of the chain: a mean of 32, a
//! median of 51 (a median needs pi/2 as many), a second-order low-pass of the same noise
//! bandwidth. The tapered windows are as long as shocks ask for; the Kalman filter knows a load
//! that stands still and begins anew where a generalised likelihood ratio speaks for a change.

use super::Method;
use super::kitchen::{RATE, WHITE};
use biquad::{Biquad as _, Coefficients, DirectForm1, Q_BUTTERWORTH_F64, ToHertz, Type};
use std::collections::VecDeque;
use std::f64::consts::TAU;

/// The rule of rest: stable once the output has stayed within so many grams for so many samples.
#[derive(Debug, Clone, Copy)]
pub struct Rest {
    pub within: f64,
    pub samples: usize,
}

impl Rest {
    pub const USUAL: Self = Self {
        within: 0.03,
        samples: 16,
    };
}

struct Band(Rest, VecDeque<f64>);

impl Band {
    const fn new(rest: Rest) -> Self {
        Self(rest, VecDeque::new())
    }

    fn stable(&mut self, value: f64) -> bool {
        self.1.push_back(value);
        if self.1.len() > self.0.samples {
            self.1.pop_front();
        }
        let low = self.1.iter().fold(f64::INFINITY, |a, b| a.min(*b));
        let high = self.1.iter().fold(f64::NEG_INFINITY, |a, b| a.max(*b));
        self.1.len() == self.0.samples && high - low <= self.0.within
    }
}

/// A mean of the newest samples, each with its weight.
pub struct Window(Vec<f64>, VecDeque<f64>, Band);

impl Window {
    fn of(length: usize, rest: Rest, weight: impl Fn(f64) -> f64) -> Self {
        let weights: Vec<f64> = (0..length)
            .map(|i| weight(TAU * (i as f64 + 0.5) / length as f64))
            .collect();
        let sum: f64 = weights.iter().sum();
        let weights = weights.iter().map(|weight| weight / sum).collect();
        Self(weights, VecDeque::new(), Band::new(rest))
    }

    pub fn plain(length: usize, rest: Rest) -> Self {
        Self::of(length, rest, |_| 1.0)
    }

    pub fn hann(length: usize, rest: Rest) -> Self {
        Self::of(length, rest, |turn| 1.0 - turn.cos())
    }

    pub fn blackman(length: usize, rest: Rest) -> Self {
        Self::of(length, rest, |turn| {
            0.42 - 0.5 * turn.cos() + 0.08 * (2.0 * turn).cos()
        })
    }
}

impl Method for Window {
    fn take(&mut self, _: u64, felt: f64) -> (f64, bool) {
        self.1.push_back(felt);
        if self.1.len() > self.0.len() {
            self.1.pop_front();
        }
        if self.1.len() < self.0.len() {
            return (felt, false);
        }
        let mean = self.0.iter().zip(&self.1).map(|(w, x)| w * x).sum();
        (mean, self.2.stable(mean))
    }
}

pub struct Median(VecDeque<f64>, Band);

impl Median {
    pub const fn new(rest: Rest) -> Self {
        Self(VecDeque::new(), Band::new(rest))
    }
}

impl Method for Median {
    fn take(&mut self, _: u64, felt: f64) -> (f64, bool) {
        self.0.push_back(felt);
        if self.0.len() > 51 {
            self.0.pop_front();
        }
        let mut sorted: Vec<f64> = self.0.iter().copied().collect();
        sorted.sort_by(f64::total_cmp);
        let median = sorted[sorted.len() / 2];
        (median, self.1.stable(median))
    }
}

pub struct Biquad(DirectForm1<f64>, Band);

impl Biquad {
    pub fn new(rest: Rest) -> Self {
        // Noise bandwidth of a second-order Butterworth: 1.11 of its corner. A mean of 32 at
        // 80 a second has 1.25 Hz.
        let corner = RATE / 32.0 / 2.0 / 1.11;
        let coefficients = Coefficients::<f64>::from_params(
            Type::LowPass,
            RATE.hz(),
            corner.hz(),
            Q_BUTTERWORTH_F64,
        )
        .unwrap();
        Self(DirectForm1::<f64>::new(coefficients), Band::new(rest))
    }
}

impl Method for Biquad {
    fn take(&mut self, _: u64, felt: f64) -> (f64, bool) {
        let out = self.0.run(felt);
        (out, self.1.stable(out))
    }
}

/// A Kalman filter of a load that stands still, in noise as large as the newest second shows
/// it, with a generalised likelihood ratio over the newest eight samples for a change.
pub struct Kalman {
    load: f64,
    variance: f64,
    newest: VecDeque<f64>,
    band: Band,
}

impl Kalman {
    pub const fn new(rest: Rest) -> Self {
        Self {
            load: 0.0,
            variance: 1e9,
            newest: VecDeque::new(),
            band: Band::new(rest),
        }
    }
}

impl Method for Kalman {
    fn take(&mut self, _: u64, felt: f64) -> (f64, bool) {
        self.newest.push_back(felt);
        if self.newest.len() > RATE as usize {
            self.newest.pop_front();
        }
        let pairs = self.newest.iter().zip(self.newest.iter().skip(1));
        let rough: f64 = pairs.map(|(a, b)| (a - b) * (a - b) / 2.0).sum();
        let noise = (rough / self.newest.len() as f64).max(WHITE * WHITE);
        let late: Vec<f64> = self.newest.iter().rev().take(8).copied().collect();
        let mean = late.iter().sum::<f64>() / late.len() as f64;
        let spread = noise / late.len() as f64 + self.variance;
        if (mean - self.load).powi(2) > 30.0 * spread {
            self.load = mean;
            self.variance = noise / late.len() as f64;
        } else {
            // It creeps by a hundredth of a gram in a second.
            let before = self.variance + 1e-4 / RATE;
            let gain = before / (before + noise);
            self.load += gain * (felt - self.load);
            self.variance = (1.0 - gain) * before;
        }
        (self.load, self.band.stable(self.load))
    }
}
