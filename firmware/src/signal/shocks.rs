//! A load on a table that is chopped on.
//!
//! Cuts follow each other so soon that no plain mean ever comes to rest between
//! them. They ring fast, though, and push up as much as down: a mean with tapered
//! ends over 0.8 s leaves nothing of them. A hand wanders slowly, and is told from them
//! by von Neumann's ratio: how far successive values are apart, as a share of how far
//! they are from their mean, is near one for what is fast and near nought for what is
//! slow.

use super::filter::{Estimate, PARTS};
use super::twentieths::Twentieths;

/// Twentieths of a second that the load is the mean of.
const LONG: usize = 16;
/// For so many the mean must have stayed where it is.
const HOLD: usize = 16;
/// Von Neumann's ratio of what is fast, at least: of the means, or of the samples to the
/// means, where what rings nearly twenty times a second leaves a slow beat.
const FAST: f32 = 0.7;
const FAST_SAMPLES: f32 = 0.4;
/// Shocks are larger than this, in wanders of a stable mean; less may be noise over a
/// hand that rests.
const SHOCK: f32 = 3.0;

/// A Hann window, in parts that add up to one: 1 - cos(2 pi (i + 1/2) / n), over n.
const WEIGHTS: [f32; LONG] = {
    let mut weights = [0.0; LONG];
    let mut i = 0;
    while i < LONG {
        let turn = core::f64::consts::TAU * (i as f64 + 0.5) / LONG as f64;
        weights[i] = ((1.0 - cosine(turn)) / LONG as f64) as f32;
        i += 1;
    }
    weights
};

/// By its series, from 0 to a whole turn.
const fn cosine(turn: f64) -> f64 {
    let x = turn - core::f64::consts::PI;
    let (mut term, mut sum, mut n) = (1.0, 1.0, 1.0);
    while n < 30.0 {
        term *= -x * x / (n * (n + 1.0));
        sum += term;
        n += 2.0;
    }
    -sum
}

/// The load under fast shocks, where it stands: `most` counts is how far a stable
/// mean may wander.
pub(super) fn look(means: &Twentieths, most: f32) -> Option<Estimate> {
    if means.len() < LONG + HOLD {
        return None;
    }
    let reference = means.mean(0);
    let tapered = |before: usize| {
        WEIGHTS
            .iter()
            .zip(before..)
            .map(|(weight, i)| weight * (means.mean(i) - reference))
            .sum::<f32>()
    };
    let spread = spread(HOLD, tapered);
    if spread > most || !is_fast(means, most * SHOCK) {
        return None;
    }
    Some(Estimate {
        mean: ((tapered(0) + reference) * PARTS as f32) as i64,
        uncertainty: (((spread + most) / 4.0) * PARTS as f32) as u32,
        stable: true,
        calm: true,
    })
}

/// Whether what moves the load is fast, over all that the mean and its rest come from.
fn is_fast(means: &Twentieths, shock: f32) -> bool {
    let n = LONG + HOLD;
    let reference = means.mean(0);
    let (mut sum, mut squares, mut steps, mut rough) = (0.0, 0.0, 0.0, 0.0);
    for i in 0..n {
        let value = means.mean(i) - reference;
        sum += value;
        squares += value * value;
        rough += means.roughness(i);
        if i > 0 {
            let step = means.mean(i) - means.mean(i.saturating_sub(1));
            steps += step * step;
        }
    }
    let about_mean = squares - sum * sum / n as f32;
    rough >= shock * shock * n as f32
        && (steps / 2.0 >= FAST * about_mean || rough >= FAST_SAMPLES * about_mean)
}

/// How far apart the lowest and the highest of so many are.
fn spread(count: usize, of: impl Fn(usize) -> f32) -> f32 {
    let (mut low, mut high) = (f32::INFINITY, f32::NEG_INFINITY);
    for before in 0..count {
        let value = of(before);
        low = low.min(value);
        high = high.max(value);
    }
    high - low
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_weights_are_those_of_a_hann_window() {
        for (i, weight) in WEIGHTS.iter().enumerate() {
            let turn = core::f32::consts::TAU * (i as f32 + 0.5) / LONG as f32;
            let wanted = (1.0 - libm::cosf(turn)) / LONG as f32;
            assert!(
                (weight - wanted).abs() < 1e-6,
                "{i}: {weight}, not {wanted}"
            );
        }
        assert!((WEIGHTS.iter().sum::<f32>() - 1.0).abs() < 1e-6);
    }

    fn shaken(hertz: f32) -> Option<Estimate> {
        let mut means = Twentieths::new();
        for i in 0..240 {
            let turn = core::f32::consts::TAU * hertz * i as f32 / 80.0;
            means.take((40_000.0 + 3_000.0 * libm::sinf(turn)) as i32, 8);
        }
        look(&means, 60.0)
    }

    #[test]
    fn what_rings_fast_leaves_the_load_and_what_is_slow_does_not() {
        for hertz in [8.0, 11.0, 15.0, 24.0] {
            let load = shaken(hertz).expect("a load");
            let off = (load.mean / PARTS - 40_000).abs();
            assert!(off <= 30, "{hertz} Hz: {off} counts");
        }
        for hertz in [0.5, 1.0, 2.0] {
            assert!(shaken(hertz).is_none(), "{hertz} Hz");
        }
    }
}
