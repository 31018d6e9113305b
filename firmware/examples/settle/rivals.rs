//! The usual filters, each with the usual rule: stable once the output has stayed within a
//! band for a while.
//!
//! Each is set so that its error on white noise is about that of the chain: a mean of 32, a
//! median of 51 (a median needs π/2 as many), a second-order low-pass of the same noise
//! bandwidth.

use super::Method;
use super::kitchen::RATE;
use biquad::{Biquad as _, Coefficients, DirectForm1, Q_BUTTERWORTH_F64, ToHertz, Type};
use std::collections::VecDeque;

/// Stable once the output has stayed within 0.03 g for 0.2 s.
#[derive(Default)]
struct Band(VecDeque<f64>);

impl Band {
    fn stable(&mut self, value: f64) -> bool {
        self.0.push_back(value);
        if self.0.len() > 16 {
            self.0.pop_front();
        }
        let low = self.0.iter().fold(f64::INFINITY, |a, b| a.min(*b));
        let high = self.0.iter().fold(f64::NEG_INFINITY, |a, b| a.max(*b));
        self.0.len() == 16 && high - low <= 0.03
    }
}

pub struct MovingAverage(VecDeque<f64>, Band);

impl MovingAverage {
    pub fn new() -> Self {
        Self(VecDeque::new(), Band::default())
    }
}

impl Method for MovingAverage {
    fn take(&mut self, _: u64, felt: f64) -> (f64, bool) {
        self.0.push_back(felt);
        if self.0.len() > 32 {
            self.0.pop_front();
        }
        let mean = self.0.iter().sum::<f64>() / self.0.len() as f64;
        (mean, self.1.stable(mean))
    }
}

pub struct Median(VecDeque<f64>, Band);

impl Median {
    pub fn new() -> Self {
        Self(VecDeque::new(), Band::default())
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
    pub fn new() -> Self {
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
        Self(DirectForm1::<f64>::new(coefficients), Band::default())
    }
}

impl Method for Biquad {
    fn take(&mut self, _: u64, felt: f64) -> (f64, bool) {
        let out = self.0.run(felt);
        (out, self.1.stable(out))
    }
}
