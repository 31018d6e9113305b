//! The bridge converter's analogue half: averaging, noise, counts.

use crate::random::{Draws, Stream};
use crate::scenario;
use std::collections::VecDeque;

/// Ticks of the model in one conversion at 80 a second.
const TICKS_AT_80: u32 = 8;
/// Counts from nought to either end of the range.
const FULL_SCALE: f64 = 8_388_608.0;
/// Gain and supply: ±0.5 of the excitation, divided by the gain of 128, is
/// the whole range. The excitation cancels out of the load, as the converter
/// measures against the voltage that feeds the bridge; its own noise weighs the
/// more the lower that is.
const GAIN: f64 = 128.0;

/// The converter with the bridge that feeds it.
#[derive(Debug)]
pub(super) struct Converter {
    /// Ticks in one conversion.
    pub(super) ticks: u32,
    /// Microseconds from one conversion to the next.
    pub(super) period_micros: u32,
    counts_a_gram: f64,
    zero_counts: f64,
    noise_counts: f64,
    noise: Draws,
    nonlinearity: f64,
    flicker: Flicker,
    bursts: Bursts,
    /// Impulse response of the averaging, newest first.
    weights: Vec<f64>,
    recent: VecDeque<f64>,
}

impl Converter {
    pub(super) fn new(
        table: &scenario::Converter,
        cell: &scenario::Cell,
        seed: u64,
        draws: &mut Draws,
    ) -> Self {
        let ticks = TICKS_AT_80 * 80 / table.samples_a_second.max(1);
        let nominal = 1e6 / f64::from(table.samples_a_second.max(1));
        let error = table.rate_error_percent.draw(draws) / 100.0;
        let period_micros = (nominal * (1.0 + error)).round() as u32;
        // From the HX711's data sheet: 50 nV rms at 10 a second, 90 nV at 80.
        let noise_nanovolts = match table.noise_nanovolts {
            Some(range) => range.draw(draws),
            None if table.samples_a_second == 10 => 50.0,
            None => 90.0,
        };
        let excitation = table.excitation_volts * 1e9;
        let counts_a_nanovolt = 2.0 * GAIN * FULL_SCALE / excitation;
        let nanovolts_a_gram =
            cell.millivolts_per_volt.draw(draws) / 1e3 * excitation / cell.capacity_grams;
        let counts_a_gram = nanovolts_a_gram * counts_a_nanovolt;
        let zero_counts =
            cell.zero_offset_percent.draw(draws) / 100.0 * cell.capacity_grams * counts_a_gram;
        let weights = averaging(ticks);
        let mut more = Draws::new(seed, Stream::Flicker);
        Self {
            ticks,
            period_micros,
            counts_a_gram,
            zero_counts,
            noise_counts: noise_nanovolts * counts_a_nanovolt,
            noise: Draws::new(seed, Stream::Noise),
            nonlinearity: table.nonlinearity_ppm.draw(&mut more) / 1e6,
            flicker: Flicker::new(
                seed,
                table.flicker_nanovolts.draw(&mut more) * counts_a_nanovolt,
            ),
            bursts: Bursts::new(table, seed),
            recent: VecDeque::from(vec![0.0; weights.len()]),
            weights,
        }
    }

    /// One tick's worth of input, in grams.
    pub(super) fn take(&mut self, grams: f64, seconds: f64) {
        let grams = grams + self.bursts.at(seconds);
        self.recent.pop_back();
        self.recent.push_front(grams);
    }

    /// A conversion ends.
    pub(super) fn convert(&mut self) -> i32 {
        let mean: f64 = self
            .weights
            .iter()
            .zip(&self.recent)
            .map(|(weight, grams)| weight * grams)
            .sum();
        let noise = self.noise.normal() * self.noise_counts;
        let flicker = self.flicker.next(f64::from(self.period_micros) / 1e6);
        limit(self.bent(self.zero_counts + mean * self.counts_a_gram) + noise + flicker)
    }

    /// What the mean of many conversions of a steady load would be.
    pub(super) fn calm(&self, grams: f64) -> i32 {
        limit(self.bent(self.zero_counts + grams * self.counts_a_gram))
    }

    /// With its own nonlinearity: a parabola from nought to either end of the
    /// range.
    fn bent(&self, counts: f64) -> f64 {
        let part = (counts / FULL_SCALE).abs().min(1.0);
        counts + self.nonlinearity * FULL_SCALE * 4.0 * part * (1.0 - part)
    }

    /// Standard deviation of the noise of one conversion, in grams.
    pub(super) fn noise_grams(&self) -> f64 {
        self.noise_counts / self.counts_a_gram
    }
}

/// Noise that is the larger the slower it is: three first-order processes a
/// decade apart, of like size, which make about 1/f in between.
#[derive(Debug)]
struct Flicker {
    each: f64,
    states: [f64; 3],
    draws: Draws,
}

impl Flicker {
    const SECONDS: [f64; 3] = [0.3, 3.0, 30.0];

    fn new(seed: u64, counts: f64) -> Self {
        Self {
            each: counts / 3.0_f64.sqrt(),
            states: [0.0; 3],
            draws: Draws::new(seed, Stream::Flicker),
        }
    }

    fn next(&mut self, period: f64) -> f64 {
        for (state, seconds) in self.states.iter_mut().zip(Self::SECONDS) {
            let stays = (-period / seconds).exp();
            *state =
                *state * stays + self.each * (1.0 - stays * stays).sqrt() * self.draws.normal();
        }
        self.states.iter().sum()
    }
}

/// A telephone or a hob beside the wires: for a moment everything is as much
/// heavier or lighter.
#[derive(Debug)]
struct Bursts {
    a_second: f64,
    grams: scenario::Range,
    next: f64,
    until: f64,
    size: f64,
    draws: Draws,
}

impl Bursts {
    fn new(table: &scenario::Converter, seed: u64) -> Self {
        let mut draws = Draws::new(seed, Stream::Bursts);
        let a_second = table.bursts_a_minute / 60.0;
        Self {
            next: draws.wait(a_second),
            a_second,
            grams: table.burst_grams,
            until: 0.0,
            size: 0.0,
            draws,
        }
    }

    fn at(&mut self, seconds: f64) -> f64 {
        if seconds >= self.next {
            let sign = if self.draws.chance(0.5) { -1.0 } else { 1.0 };
            self.size = sign * self.grams.draw(&mut self.draws);
            self.until = self.next + self.draws.between(0.1, 1.0);
            self.next = self.until + self.draws.wait(self.a_second);
        }
        if seconds < self.until { self.size } else { 0.0 }
    }
}

fn limit(counts: f64) -> i32 {
    // The cast itself saturates.
    counts.round().clamp(-FULL_SCALE, FULL_SCALE - 1.0) as i32
}

/// Four running means in a row, each one conversion long: the usual averaging
/// of a delta-sigma converter. It is what makes the output valid only four
/// conversions after a step, as the data sheet has it.
fn averaging(ticks: u32) -> Vec<f64> {
    let width = ticks as usize;
    let mut weights = vec![1.0];
    for _ in 0..4 {
        let mut wider = vec![0.0; weights.len() + width - 1];
        for (place, weight) in weights.iter().enumerate() {
            for tick in 0..width {
                wider[place + tick] += weight / f64::from(ticks);
            }
        }
        weights = wider;
    }
    weights
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_averaging_passes_a_steady_load_and_is_over_after_four_conversions() {
        for ticks in [8, 64] {
            let weights = averaging(ticks);
            assert!((weights.iter().sum::<f64>() - 1.0).abs() < 1e-12);
            assert_eq!(weights.len(), 4 * ticks as usize - 3);
        }
    }

    /// The gain of four running means is the fourth power of one's,
    /// sin(n x) / (n sin x) with x = pi f / (n rate): textbook result.
    #[test]
    fn hum_comes_through_as_four_running_means_let_it() {
        let weights = averaging(8);
        for hertz in [50.0, 60.0, 80.0, 25.0] {
            let x = std::f64::consts::PI * hertz / 640.0;
            let expected = ((8.0 * x).sin() / (8.0 * x.sin())).abs().powi(4);
            let (mut re, mut im) = (0.0, 0.0);
            for (tick, weight) in weights.iter().enumerate() {
                let angle = 2.0 * x * tick as f64;
                re += weight * angle.cos();
                im += weight * angle.sin();
            }
            assert!((re.hypot(im) - expected).abs() < 1e-9, "{hertz}");
        }
    }
}
