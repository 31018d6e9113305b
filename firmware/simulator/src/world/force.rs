//! What presses on the pan for a while and is gone again.

use crate::random::Draws;
use std::f64::consts::{PI, TAU};

/// A force in grams, as a function of time.
#[derive(Debug, Clone)]
pub(super) struct Force {
    /// When it begins, in seconds.
    pub(super) from: f64,
    /// How long it lasts, in seconds.
    pub(super) lasts: f64,
    /// It is somebody else's hand, in the cook's way.
    pub(super) in_the_way: bool,
    shape: Shape,
}

#[derive(Debug, Clone)]
enum Shape {
    /// A hand or a spoon: comes on, wanders, goes off.
    Press { peak: f64, wander: [Sway; 3] },
    /// A step on the floor or a cut on the board: rings and dies away.
    Ring { peak: f64, hertz: f64, decay: f64 },
    /// A bump: half a wave.
    Knock { peak: f64 },
}

#[derive(Debug, Clone, Copy)]
struct Sway {
    grams: f64,
    hertz: f64,
    phase: f64,
}

impl Force {
    /// A hand that rests on the pan, or a spoon that works in the tin. Wanders
    /// by about `unrest` of its size (standard deviation).
    pub(super) fn press(from: f64, lasts: f64, grams: f64, unrest: f64, draws: &mut Draws) -> Self {
        // Three sways of equal size add up to the unrest: each has a mean
        // square of half its amplitude's square.
        let each = grams * unrest * (2.0_f64 / 3.0).sqrt();
        let wander = [(0.3, 0.9), (0.9, 2.5), (2.5, 6.0)].map(|(low, high)| Sway {
            grams: each,
            hertz: draws.between(low, high),
            phase: draws.between(0.0, TAU),
        });
        Self {
            from,
            lasts,
            in_the_way: false,
            shape: Shape::Press {
                peak: grams,
                wander,
            },
        }
    }

    /// A shock that rings at `hertz`, peaks at so many grams and dies away within three
    /// times `decay`. It pushes up as much as down: the table is at rest before and after,
    /// so its acceleration has no mean.
    pub(super) fn ring(from: f64, grams: f64, hertz: f64, decay: f64) -> Self {
        let shape = |peak| Shape::Ring {
            peak,
            hertz,
            // It takes a while to swell.
            decay: decay * 0.75,
        };
        // Down to a thousandth.
        let lasts = 7.0 * decay;
        let ring = |peak| Self {
            from,
            lasts,
            in_the_way: false,
            shape: shape(peak),
        };
        let unit = ring(1.0);
        let highest = (0..500)
            .map(|i| unit.at(from + lasts * f64::from(i) / 500.0).abs())
            .fold(f64::MIN_POSITIVE, f64::max);
        ring(grams / highest)
    }

    /// A single knock.
    pub(super) const fn knock(from: f64, lasts: f64, grams: f64) -> Self {
        Self {
            from,
            lasts,
            in_the_way: false,
            shape: Shape::Knock { peak: grams },
        }
    }

    /// The force at a time, in grams.
    pub(super) fn at(&self, seconds: f64) -> f64 {
        let local = seconds - self.from;
        if !(0.0..self.lasts).contains(&local) {
            return 0.0;
        }
        match &self.shape {
            Shape::Press { peak, wander } => {
                let edge = (self.lasts / 3.0).min(0.25);
                let window = smooth(local / edge) * smooth((self.lasts - local) / edge);
                let sway: f64 = wander
                    .iter()
                    .map(|sway| sway.grams * (TAU * sway.hertz * local + sway.phase).sin())
                    .sum();
                (peak + sway) * window
            }
            // The derivative of t exp(-t / decay) sin(turn t), which begins and ends at nothing.
            Shape::Ring { peak, hertz, decay } => {
                let turn = TAU * hertz;
                let (sin, cos) = (turn * local).sin_cos();
                let along = (1.0 - local / decay) * sin + turn * local * cos;
                peak * (-local / decay).exp() * along
            }
            Shape::Knock { peak } => peak * (PI * local / self.lasts).sin(),
        }
    }

    /// Whether it is over.
    pub(super) fn is_over(&self, seconds: f64) -> bool {
        seconds >= self.from + self.lasts
    }
}

/// From 0 to 1 without a corner.
pub(super) fn smooth(part: f64) -> f64 {
    let part = part.clamp(0.0, 1.0);
    part * part * (3.0 - 2.0 * part)
}
