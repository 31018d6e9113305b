//! A load on a table that sways.
//!
//! A boat, a trolley or a floor on long beams moves the load up and down, one to
//! three times a second and without end: no mean of a short while is the load, and
//! a growing one never comes to rest. The sway is one slow tone, though, and stays
//! the same while the load changes. So where nothing else comes to rest, the load
//! and the tone are fitted together (least squares) over at least a whole period,
//! and what remains must be noise: a hand wanders in several ways at once and
//! does not pass.

use super::filter::{Estimate, PARTS};
use super::twentieths::Twentieths;

/// Fewest that a load is fitted over.
const FEWEST: usize = 18;
/// Fewest that a tone is found in: a hand that wanders hardly wanders in one tone for so
/// long.
const FEWEST_TO_FIND: usize = 48;
/// Fewest periods of it.
const FEWEST_PERIODS: f32 = 2.0;
/// Fewest that a known tone is made better by.
const FEWEST_TO_REFINE: usize = 32;
/// The slowest and the fastest tone, in radians in a twentieth of a second: 0.64
/// and 6 Hz. Faster ones vanish in means.
const SLOWEST: f32 = 0.2;
const FASTEST: f32 = 1.9;
/// A whole turn.
const TURN: f32 = core::f32::consts::TAU;
/// The tone is looked for when nothing has come to rest for so many twentieths, and
/// then once in so many: that takes a processor without floating point a while.
const PATIENCE: usize = 20;
const EVERY: usize = 8;
/// And forgotten when something has come to rest without it for so many.
const FORGET: usize = 24;
/// A mean is uncertain by this share of the sway that was taken off, which is never
/// quite one tone.
const IMPURITY: f32 = 0.006;
/// What remains of twentieths is not quite independent.
const INFLATION: f32 = 2.0;

/// The tone, and how long it has been looked for.
#[derive(Debug, Clone)]
pub(super) struct Sway {
    /// Radians in a twentieth of a second; `None` while no tone is known.
    turn: Option<f32>,
    /// Twentieths since the load was last at rest without a tone, and for which it
    /// has been.
    unrest: usize,
    rest: usize,
}

/// A load and a tone.
#[derive(Debug, Clone, Copy)]
struct Fit {
    load: f32,
    amplitude: f32,
    /// What remains, root mean square.
    remains: f32,
    /// Standard uncertainty of the load.
    uncertainty: f32,
    /// What remains of the newest mean.
    newest: f32,
}

impl Sway {
    pub(super) const fn new() -> Self {
        Self {
            turn: None,
            unrest: 0,
            rest: 0,
        }
    }

    /// Whether there is a tone: what looks at rest without it only turns round.
    pub(super) const fn is_known(&self) -> bool {
        self.turn.is_some()
    }

    /// Takes that there is a newest twentieth of a second, and whether the load is
    /// stable without a tone. Gives what the load is where it stands under one with
    /// at most `most` counts left over.
    pub(super) fn take(&mut self, means: &Twentieths, stable: bool, most: f32) -> Option<Estimate> {
        self.watch(stable);
        self.look(means, most)
    }

    /// Keeps account of whether the load comes to rest by itself.
    fn watch(&mut self, stable: bool) {
        if stable {
            self.unrest = 0;
            self.rest = self.rest.saturating_add(1);
            if self.rest >= FORGET {
                self.turn = None;
            }
        } else {
            self.rest = 0;
            self.unrest = self.unrest.saturating_add(1);
        }
    }

    /// Looks for a load under a tone.
    fn look(&mut self, means: &Twentieths, most: f32) -> Option<Estimate> {
        let due = self.unrest >= PATIENCE && self.unrest.is_multiple_of(EVERY);
        if self.turn.is_none() && due {
            // In all that is kept, or else in what came since the load may have changed.
            self.turn = if (self.unrest / EVERY).is_multiple_of(2) {
                find(means, means.len(), most)
            } else {
                find(means, FEWEST_TO_FIND, most)
            };
        }
        let turn = self.turn?;
        let (fit, n) = longest(means, turn, most)?;
        if n >= FEWEST_TO_REFINE {
            self.turn = Some(refined(means, turn, n));
        }
        // A tone as small as what remains is none; the load that changes now is no load.
        if fit.amplitude < most || fit.newest.abs() > (fit.remains * 4.0).max(most) {
            return None;
        }
        let uncertainty = fit.uncertainty * INFLATION + fit.amplitude * IMPURITY;
        Some(Estimate {
            mean: (fit.load * PARTS as f32) as i64,
            uncertainty: (uncertainty * PARTS as f32) as u32,
            stable: true,
            calm: true,
        })
    }
}

/// The longest stretch up to now that is a load under this tone.
fn longest(means: &Twentieths, turn: f32, most: f32) -> Option<(Fit, usize)> {
    let period = (TURN / turn) as usize;
    let fewest = FEWEST.max(period.saturating_add(1));
    let mut best = None;
    let mut n = fewest;
    while n <= means.len() {
        let Some(fit) = fitted(means, turn, n).filter(|fit| fit.remains <= most) else {
            break;
        };
        best = Some((fit, n));
        n = n.saturating_add(6);
    }
    best
}

/// The tone of the newest means, where there is one: y(t + k) + y(t - k) of a tone
/// is 2 cos(k turn) y(t), and tells the turn best where that is nought.
fn find(means: &Twentieths, n: usize, most: f32) -> Option<f32> {
    if n < FEWEST_TO_FIND || n > means.len() {
        return None;
    }
    let mut turn = by_lag(means, 1, n);
    for _ in 0..2 {
        let lag = (TURN / 4.0 / turn) as usize;
        turn = by_lag(means, lag.clamp(1, 8), n);
    }
    // Worth a closer look where most of it is this tone.
    let rough = fitted(means, turn, n)?;
    if rough.remains > rough.amplitude / 2.0 {
        return None;
    }
    for _ in 0..3 {
        turn = refined(means, turn, n);
    }
    let periods = turn * n as f32 / TURN;
    let fit = fitted(means, turn, n)?;
    (periods >= FEWEST_PERIODS && fit.remains <= most && fit.amplitude > most).then_some(turn)
}

fn by_lag(means: &Twentieths, lag: usize, n: usize) -> f32 {
    let reference = means.mean(0);
    let at = |before: usize| means.mean(before) - reference;
    let (mut sum_x, mut sum_y, mut sum_xx, mut sum_xy, mut count) = (0.0, 0.0, 0.0, 0.0, 0.0);
    let mut i = lag;
    while i.saturating_add(lag) < n {
        let x = at(i);
        let y = at(i.saturating_sub(lag)) + at(i.saturating_add(lag));
        sum_x += x;
        sum_y += y;
        sum_xx += x * x;
        sum_xy += x * y;
        count += 1.0;
        i = i.saturating_add(1);
    }
    let across = count * sum_xx - sum_x * sum_x;
    if across <= 0.0 {
        return SLOWEST;
    }
    let slope = (count * sum_xy - sum_x * sum_y) / across;
    let turn = libm::acosf((slope / 2.0).clamp(-1.0, 1.0)) / lag as f32;
    turn.clamp(SLOWEST, FASTEST)
}

/// A turn near this one that leaves less: the bottom of a parabola through three.
fn refined(means: &Twentieths, turn: f32, n: usize) -> f32 {
    let step = 0.6 / n as f32;
    let left = |turn| fitted(means, turn, n).map(|fit| fit.remains * fit.remains);
    let (Some(low), Some(here), Some(high)) = (left(turn - step), left(turn), left(turn + step))
    else {
        return turn;
    };
    let bend = low + high - 2.0 * here;
    let shift = if bend > 0.0 {
        (step * (low - high) / (2.0 * bend)).clamp(-2.0 * step, 2.0 * step)
    } else if low < high {
        -step
    } else {
        step
    };
    (turn + shift).clamp(SLOWEST, FASTEST)
}

/// Load and tone by least squares over the `n` newest means.
fn fitted(means: &Twentieths, turn: f32, n: usize) -> Option<Fit> {
    let reference = means.mean(0);
    let (sin, cos) = libm::sincosf(turn);
    let (mut s, mut c) = (0.0_f32, 1.0_f32);
    // Sums of 1, cos and sin with each other and with the means.
    let (mut k, mut kk_c, mut kk_s, mut cc, mut cs, mut ss) = (0.0, 0.0, 0.0, 0.0, 0.0, 0.0);
    let (mut y1, mut yc, mut ys, mut yy) = (0.0, 0.0, 0.0, 0.0);
    for i in 0..n {
        let y = means.mean(i) - reference;
        k += 1.0;
        kk_c += c;
        kk_s += s;
        cc += c * c;
        cs += c * s;
        ss += s * s;
        y1 += y;
        yc += y * c;
        ys += y * s;
        yy += y * y;
        (c, s) = (c * cos - s * sin, s * cos + c * sin);
    }
    // Cofactors of the symmetric matrix (k, kk_c, kk_s; kk_c, cc, cs; kk_s, cs, ss).
    let m11 = cc * ss - cs * cs;
    let m12 = cs * kk_s - kk_c * ss;
    let m13 = kk_c * cs - cc * kk_s;
    let m22 = k * ss - kk_s * kk_s;
    let m23 = kk_c * kk_s - k * cs;
    let m33 = k * cc - kk_c * kk_c;
    let determinant = k * m11 + kk_c * m12 + kk_s * m13;
    if determinant <= k * k * k * 1e-4 || n <= 4 {
        return None;
    }
    let load = (m11 * y1 + m12 * yc + m13 * ys) / determinant;
    let a = (m12 * y1 + m22 * yc + m23 * ys) / determinant;
    let b = (m13 * y1 + m23 * yc + m33 * ys) / determinant;
    let left = (yy - load * y1 - a * yc - b * ys).max(0.0);
    let variance = left / (k - 4.0);
    Some(Fit {
        load: load + reference,
        amplitude: libm::sqrtf(a * a + b * b),
        remains: libm::sqrtf(variance),
        uncertainty: libm::sqrtf(variance * m11 / determinant),
        newest: -load - a,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Loads in tenths of a count with a tone of 1 to 3 Hz, at 80 samples a second.
    fn play(hertz: f32, seconds: usize, load: impl Fn(f32) -> f32) -> (Sway, Option<Estimate>) {
        let mut sway = Sway::new();
        let mut means = Twentieths::new();
        let mut last = None;
        for i in 0..seconds * 80 {
            let time = i as f32 / 80.0;
            let tone = 2_000.0 * libm::sinf(TURN * hertz * time + 0.4);
            let noise = 30.0 * libm::sinf(i as f32 * 37.0) * libm::sinf(i as f32 * 11.0);
            let sample = load(time) + tone + noise;
            if means.take(sample as i32, 8) {
                last = sway.take(&means, false, 100.0);
            }
        }
        (sway, last)
    }

    #[test]
    fn a_load_under_a_tone_is_found() {
        for hertz in [0.9, 1.0, 1.4, 2.0, 2.7, 3.2] {
            let (_, last) = play(hertz, 6, |_| 50_000.0);
            let last = last.expect("a load");
            let off = (last.mean / PARTS - 50_000).abs();
            assert!(off < 25, "{hertz} Hz: {off} counts");
            assert!(i64::from(last.uncertainty) / PARTS < 40, "{last:?}");
        }
    }

    #[test]
    fn a_load_that_changes_is_found_again_within_two_periods() {
        for hertz in [1.0, 2.0, 3.0] {
            let change = |time: f32| if time < 6.0 { 50_000.0 } else { 80_000.0 };
            let (_, before) = play(hertz, 6, change);
            assert!(before.is_some(), "{hertz} Hz");
            let (_, after) = play(hertz, 8, change);
            let after = after.expect("a load");
            assert!((after.mean / PARTS - 80_000).abs() < 25, "{after:?}");
        }
    }

    #[test]
    fn two_tones_and_a_slope_are_no_load() {
        let (_, two) = play(1.2, 8, |time| 50_000.0 + 900.0 * libm::sinf(time * 4.5));
        assert!(two.is_none());
        let (_, slope) = play(1.2, 8, |time| 50_000.0 + 500.0 * time);
        assert!(slope.is_none());
    }
}
