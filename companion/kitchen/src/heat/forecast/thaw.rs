//! Through the plateau of thawing.
//!
//! A frozen piece warms to a little below 0 °C and then stays there while a front
//! of thaw goes inward; how long, nothing on the plateau shows. What may be known
//! beforehand is known of the piece and of what it stands in: some hundred pieces
//! are drawn from that, plates, cylinders and balls of any size, conductivity and
//! share of water, in air or in water; each is carried through by its heat content
//! in layers (the enthalpy method: V. R. Voller and C. R. Swaminathan, 1991, from
//! memory; ice goes at one temperature, or as 1 − Tf/T: Q. T. Pham, from memory),
//! and is weighed by how well its middle explains the readings. A piece twice as
//! thick takes the same course in another time, so time is scaled and not drawn.

use super::posterior::Guess;
use super::readings::{Bin, Readings};
use statrs::function::erf::erfc_inv;

/// How many pieces are drawn.
const PIECES: u32 = 420;
/// How many courses of three parts, how long they stand and how slowly they go on,
/// in the time of the first.
const COURSES: u32 = 280;
/// What such courses weigh beforehand, all together.
const PARTS: f64 = 0.5;
const STANDS: (f64, f64) = (0.5, 25.0);
const AFTER: (f64, f64) = (0.7, 8.0);
/// What a piece may be: Biot number (of its thawed half thickness), heat of its ice
/// in degrees of the frozen piece's warming (165 to 300 kJ/kg over 1.8 to 2.2
/// kJ/(kg K); middle and a logarithm's deviation, with room for fat, wrapping and
/// drip), heat and conduction of thawed and frozen food as ratios, where its ice
/// begins to go, °C. Ranges of published food properties, from memory.
const BIOT: (f64, f64) = (0.08, 12.0);
const LATENT: (f64, f64) = (125.0, 0.45);
const THAWED: (f64, f64) = (1.55, 2.0);
const FROZEN_CONDUCTS: (f64, f64) = (1.0, 3.6);
const BEGINS: (f64, f64) = (-2.0, -0.3);
/// How far from the middle the probe may be, as a share of the half thickness; it is
/// nearer to it more often.
const OFF_MIDDLE: f64 = 0.6;
/// By how much the probe may be out, °C.
const PROBE: f64 = 0.3;
/// Layers from the middle to the face; fewer where it conducts far better than it
/// is warmed.
const LAYERS: usize = 6;
const FEW_LAYERS: usize = 3;
const FEW_BELOW: f64 = 0.4;
/// Unlikeness of any such piece to a real one, °C.
const UNLIKE: f64 = 0.35;
/// Beyond this unlikeness it is not thawing that goes on, °C.
const UNFIT: f64 = 1.2;
/// Readings count as at most so many: what a piece does wrong it does wrong at
/// each of them.
const COUNTED: f64 = 12.0;
/// Standard doubt of any of these pieces, as a share of the time to go.
const DOUBT: f64 = 0.06;
/// Each side of an interval as a share of what the pieces say (of a logarithm): they
/// are drawn wider apart than what is thawed in kitchens. Chosen on made-up kitchens.
const OF_THE_PIECES: f64 = 0.85;
/// The probabilities of an interval's early end, of the likely time and of its late
/// end, which hold together 8 times in ten: the end of a plateau shows when it has come
/// and not before, so that the early end lies farther out. Chosen on made-up kitchens.
pub(super) const ENDS: [f64; 3] = [0.05, 0.5, 0.87];
/// Paces looked at, and the least of the whole way that may lie behind.
const PACES: u32 = 64;
const LEAST_DONE: f64 = 0.02;
/// The most readings that a piece is held against.
const MOST_LOOKED_AT: usize = 24;
/// The most steps that a piece is carried.
const MOST_STEPS: usize = 60_000;
/// Points that a course is kept at: whenever the middle has moved by this, °C, or
/// the time has grown by this share.
const KEPT_EVERY: (f64, f64) = (0.2, 0.01);

/// Times, in any unit, and temperatures, °C.
type Course = Vec<(f64, f64)>;

/// A frozen piece; temperatures in °C, heat in degrees of its frozen warming,
/// lengths in its half thickness, its thawed conductivity is one.
#[derive(Debug, Clone, Copy)]
struct Piece {
    /// 0 a plate, 1 a cylinder, 2 a ball.
    shape: i32,
    biot: f64,
    latent: f64,
    /// Heat a degree takes once it is thawed.
    thawed: f64,
    frozen_conducts: f64,
    begins: f64,
    /// Whether its ice goes gradually.
    gradual: bool,
    far: f64,
    /// Where the probe is, as a share of the way from the middle to the face.
    probe: f64,
}

impl Piece {
    /// The temperature by the heat content, counted from where all is thawed.
    fn celsius(&self, heat: f64) -> f64 {
        if heat >= 0.0 {
            return self.begins + heat / self.thawed;
        }
        if self.gradual {
            let b = self.begins + self.latent + heat;
            return 0.5 * (b - (b * b - 4.0 * self.latent * self.begins).sqrt());
        }
        self.begins + (heat + self.latent).min(0.0)
    }

    fn heat(&self, celsius: f64) -> f64 {
        if celsius >= self.begins {
            (celsius - self.begins) * self.thawed
        } else if self.gradual {
            celsius - self.begins - self.latent * (1.0 - self.begins / celsius)
        } else {
            celsius - self.begins - self.latent
        }
    }

    /// Heat that a degree takes, at least.
    fn capacity(&self, celsius: f64) -> f64 {
        if celsius >= self.begins {
            self.thawed
        } else if self.gradual {
            1.0 - self.latent * self.begins / (celsius * celsius)
        } else {
            1.0
        }
    }

    fn conducts(&self, celsius: f64) -> f64 {
        if celsius < self.begins {
            self.frozen_conducts
        } else {
            1.0
        }
    }

    /// The course of its middle from one temperature all through to another:
    /// times and temperatures. `None` where that takes too many steps.
    fn course(&self, from: f64, to: f64) -> Option<Course> {
        let count = if self.biot < FEW_BELOW {
            FEW_LAYERS
        } else {
            LAYERS
        };
        let n = count as f64;
        let mut heat = [self.heat(from); LAYERS];
        let mut celsius = [from; LAYERS];
        let mut area = [0.0; LAYERS + 1];
        let mut volume = [0.0; LAYERS];
        let power = f64::from(self.shape + 1);
        for i in 0..count {
            let (inner, outer) = (i as f64 / n, (i + 1) as f64 / n);
            area[i + 1] = outer.powi(self.shape);
            volume[i] = (outer.powf(power) - inner.powf(power)) / power;
        }
        let seen = ((self.probe * n) as usize).min(count - 1);
        let mut along = vec![(0.0, from)];
        let (mut time, mut kept) = (0.0, (0.0, from));
        for _ in 0..MOST_STEPS {
            let mut flow = [0.0; LAYERS + 1];
            let mut step = f64::INFINITY;
            for i in 0..count {
                let here = self.conducts(celsius[i]);
                let resists = if i + 1 < count {
                    0.5 / n * (1.0 / here + 1.0 / self.conducts(celsius[i + 1]))
                } else {
                    0.5 / n / here + 1.0 / self.biot
                };
                let outside = if i + 1 < count {
                    celsius[i + 1]
                } else {
                    self.far
                };
                let gain = area[i + 1] / resists;
                flow[i + 1] = gain * (outside - celsius[i]);
                let inward = area[i] * n * here;
                let stays = self.capacity(celsius[i]) * volume[i] / (gain + inward);
                step = step.min(stays);
            }
            step *= 0.7;
            time += step;
            for i in 0..count {
                heat[i] += step * (flow[i + 1] - flow[i]) / volume[i];
                celsius[i] = self.celsius(heat[i]);
            }
            let shown = celsius[seen];
            let is_there = shown >= to;
            if is_there || shown - kept.1 > KEPT_EVERY.0 || time > kept.0 * (1.0 + KEPT_EVERY.1) {
                kept = (time, shown);
                along.push(kept);
            }
            if is_there {
                return Some(along);
            }
        }
        None
    }
}

/// The share of the way of one step of a sequence that fills a cube evenly (the
/// powers of a generalised golden ratio; M. Roberts, 2018, from memory).
fn evenly(nth: u32, dimension: i32) -> f64 {
    // The root of x^9 = x + 1, for eight dimensions.
    const RATIO: f64 = 1.085_070_245_491_450_8;
    (0.5 + f64::from(nth) * RATIO.powi(-dimension)).fract()
}

fn normal(share: f64) -> f64 {
    std::f64::consts::SQRT_2 * erfc_inv(2.0 * (1.0 - share.clamp(1e-6, 1.0 - 1e-6)))
}

fn between((low, high): (f64, f64), share: f64) -> f64 {
    low + (high - low) * share
}

/// What the surroundings are where so much of all that is known of them lies below.
fn drawn_from(guesses: &[Guess], share: f64) -> f64 {
    let total: f64 = guesses.iter().map(|g| g.weight).sum();
    let mut left = share * total;
    for guess in guesses {
        if left <= guess.weight {
            return guess.celsius + guess.spread * normal(left / guess.weight);
        }
        left -= guess.weight;
    }
    guesses.last().map_or(0.0, |g| g.celsius)
}

fn piece(nth: u32, guesses: &[Guess]) -> Piece {
    let share = |dimension| evenly(nth, dimension);
    let spread = (BIOT.1 / BIOT.0).ln();
    Piece {
        shape: (nth % 3).cast_signed(),
        biot: BIOT.0 * (spread * share(1)).exp(),
        latent: LATENT.0 * (LATENT.1 * normal(share(2))).exp(),
        thawed: between(THAWED, share(3)),
        frozen_conducts: between(FROZEN_CONDUCTS, share(4)),
        begins: between(BEGINS, share(5)),
        gradual: nth.is_multiple_of(2),
        far: drawn_from(guesses, share(6)),
        probe: OFF_MIDDLE * share(8).powi(2),
    }
}

/// A course of three parts that no piece is behind: it nears where its ice goes,
/// stands there, and nears what it stands in, each in a time of its own.
fn by_parts(nth: u32, guesses: &[Guess], from: f64, to: f64) -> Option<(Course, bool)> {
    const POINTS: u32 = 24;
    let share = |dimension| evenly(nth, dimension);
    let begins = between(BEGINS, share(1));
    let far = drawn_from(guesses, share(2));
    let scale = |(low, high): (f64, f64), share: f64| low * (high / low).powf(share);
    let (stands, after) = (scale(STANDS, share(3)), scale(AFTER, share(4)));
    // What it goes toward at first: where the ice goes, or what it stands in.
    let toward = begins + 0.05 + (far - begins).max(0.0) * share(5).powi(3);
    let most = far - 0.04 * (far - begins);
    if far < begins + 0.5 || from > begins - 1.0 {
        return None;
    }
    let top = to.min(most);
    let nears = |from: f64, to: f64, toward: f64, i: u32| {
        let there = from + (to - from) * f64::from(i) / f64::from(POINTS);
        (((toward - from) / (toward - there)).ln(), there)
    };
    let mut along: Course = (0..=POINTS)
        .map(|i| {
            let steps = f64::from(i) / f64::from(POINTS);
            let last = ((toward - from) / (toward - begins)).ln();
            let time = last * steps;
            (time, toward + (from - toward) * (-time).exp())
        })
        .collect();
    let end = along.last()?.0 + stands;
    along.push((end, begins + 0.05));
    along.extend((1..=POINTS).map(|i| {
        let (time, there) = nears(begins + 0.05, top, far, i);
        (end + after * time, there)
    }));
    Some((along, to < most))
}

fn at(along: &[(f64, f64)], time: f64) -> f64 {
    let place = along
        .partition_point(|p| p.0 <= time)
        .clamp(1, along.len() - 1);
    let ((t0, a), (t1, b)) = (along[place - 1], along[place]);
    a + (b - a) * ((time - t0) / (t1 - t0).max(1e-12)).clamp(0.0, 1.0)
}

/// When a course first comes to a temperature.
fn comes_to(along: &[(f64, f64)], celsius: f64) -> f64 {
    along
        .windows(2)
        .find(|w| w[1].1 >= celsius)
        .map_or(0.0, |w| {
            let ((t0, a), (t1, b)) = (w[0], w[1]);
            t0 + (t1 - t0) * ((celsius - a) / (b - a).max(1e-12)).clamp(0.0, 1.0)
        })
}

/// One piece at one pace: hours to go, and its weight (a logarithm). `None` where
/// it never gets there.
struct Weighed {
    to_go: Option<f64>,
    log: f64,
}

/// What the readings say of thawing: those from where the middle began to move.
struct Looked<'a> {
    bins: Vec<&'a Bin>,
    lowest: f64,
}

fn looked(readings: &Readings) -> Option<Looked<'_>> {
    let lowest = readings
        .bins
        .iter()
        .map(|b| b.celsius)
        .fold(f64::INFINITY, f64::min);
    // Whether it stood in the cold before, and for how long, is not known.
    let moved = lowest + 0.15 * (-3.0 - lowest);
    let start = readings.bins.iter().position(|b| b.celsius > moved)?;
    let every = (readings.bins.len() - start).div_ceil(MOST_LOOKED_AT);
    let mut bins: Vec<_> = readings.bins[start..].iter().rev().step_by(every).collect();
    bins.reverse();
    (bins.len() >= 8 && bins.first()?.celsius < -3.0).then_some(Looked { bins, lowest })
}

/// Hours to a level above freezing: early, likely and late, each by the
/// probability asked for; `None` where no such piece explains the readings, or
/// it likely does not get there.
pub(super) fn hours_to(
    readings: &Readings,
    guesses: &[Guess],
    level: f64,
    shares: [f64; 3],
) -> Option<[f64; 3]> {
    let Looked { bins, lowest } = looked(readings)?;
    let (first, last) = (*bins.first()?, *bins.last()?);
    let length = last.hours - first.hours;
    let count = (COUNTED / bins.len() as f64).min(1.0);
    let mut all = Vec::new();
    let mut fit = f64::INFINITY;
    for nth in 0..PIECES + COURSES {
        let out = PROBE * normal(evenly(nth, 7));
        let (level, first_at, from) = (level - out, first.celsius - out, lowest - out);
        let found = if nth < PIECES {
            let piece = piece(nth, guesses);
            let most = piece.far - 0.04 * (piece.far - piece.begins);
            if piece.far < piece.begins + 0.5 {
                continue;
            }
            piece
                .course(from, level.min(most))
                .map(|along| (along, level < most))
        } else {
            by_parts(nth, guesses, from, level)
        };
        let Some((along, reaches)) = found else {
            continue;
        };
        let beforehand = if nth < PIECES {
            (1.0 - PARTS) / f64::from(PIECES)
        } else {
            PARTS / f64::from(COURSES)
        };
        let begun = comes_to(&along, first_at);
        let whole = along.last()?.0 - begun;
        for r in 0..PACES {
            let done = LEAST_DONE.powf(f64::from(r) / f64::from(PACES));
            let pace = done * whole / length;
            let (mut misfit, mut square) = (0.0, 0.0);
            for bin in &bins {
                let is = out + at(&along, begun + pace * (bin.hours - first.hours));
                let off = (bin.celsius - is).powi(2);
                misfit += off / (bin.variance + UNLIKE * UNLIKE);
                square += off;
            }
            fit = f64::min(fit, square / bins.len() as f64);
            all.push(Weighed {
                to_go: reaches.then(|| whole / pace - length),
                log: beforehand.ln() - 0.5 * count * misfit,
            });
        }
    }
    if fit.sqrt() > UNFIT {
        return None;
    }
    quantiles(&all, shares)
}

fn quantiles(all: &[Weighed], shares: [f64; 3]) -> Option<[f64; 3]> {
    let best = all.iter().fold(f64::NEG_INFINITY, |m, b| m.max(b.log));
    let mut comes: Vec<(f64, f64)> = Vec::new();
    let (mut total, mut never) = (0.0, 0.0);
    for one in all {
        let weight = (one.log - best).exp();
        match one.to_go {
            Some(hours) if hours > 0.0 => {
                total += weight;
                comes.push((hours, weight));
            }
            Some(_) => {}
            None => never += weight,
        }
    }
    if total < never || comes.is_empty() {
        return None;
    }
    comes.sort_by(|a, b| a.0.total_cmp(&b.0));
    let quantile = |share: f64| {
        let mut sum = 0.0;
        comes
            .iter()
            .find(|(_, weight)| {
                sum += weight;
                sum >= share * total
            })
            .map(|c| c.0)
    };
    let likely = quantile(shares[1])?.max(1e-3);
    let wider = |ends: f64, sign: f64| {
        let off = (ends.max(1e-3) / likely).ln().abs() * OF_THE_PIECES;
        likely * (sign * off.hypot(super::NORMAL_UPPER * DOUBT)).exp()
    };
    Some([
        wider(quantile(shares[0])?, -1.0),
        likely,
        wider(quantile(shares[2])?, 1.0),
    ])
}

#[cfg(test)]
mod tests {
    use super::*;

    const PLATE: Piece = Piece {
        shape: 0,
        biot: 0.1,
        latent: 150.0,
        thawed: 1.8,
        frozen_conducts: 3.0,
        begins: -1.0,
        gradual: false,
        far: 19.0,
        probe: 0.0,
    };

    // Worked by hand: a thin plate warms all through. 10 degrees of frozen food under an excess
    // that falls from 30 to 20 degrees take ln(30/20) of a time constant, the ice 150/20 more, and
    // from -1 to 4 with 1.8 times the heat 1.8 ln(20/15), in surroundings of 19 degC; a time constant
    // is 1/Bi, and what its thickness delays is a third of a Biot number.
    #[test]
    fn a_thin_plate_takes_the_time_of_its_three_parts() {
        let thin = Piece {
            biot: 0.01,
            ..PLATE
        };
        let whole = thin.course(-11.0, 4.0).unwrap().last().unwrap().0 * thin.biot;
        let expected = (30.0_f64 / 20.0).ln() + 150.0 / 20.0 + 1.8 * (20.0_f64 / 15.0).ln();
        assert!((whole / expected - 1.0).abs() < 0.015, "{whole} {expected}");
    }

    // R. Plank's equation (1913, from memory): a plate that is at its freezing point thaws in
    // L / ΔT (1/2 + 1/Bi) of a diffusion time, its sensible heat left out; a cylinder in a half
    // and a ball in a third of that. With a large latent heat the sensible heat hardly counts.
    #[test]
    fn a_front_takes_planks_time() {
        for shape in 0..3 {
            let piece = Piece {
                shape,
                biot: 2.0,
                latent: 2_000.0,
                ..PLATE
            };
            let whole = piece.course(-1.01, -0.9).unwrap().last().unwrap().0;
            let expected = 2_000.0 / 20.0 * (0.5 + 0.5) / f64::from(shape + 1);
            assert!((whole / expected - 1.0).abs() < 0.05, "{whole} {expected}");
        }
    }

    #[test]
    fn heat_and_temperature_are_each_others_inverse() {
        for gradual in [false, true] {
            let piece = Piece { gradual, ..PLATE };
            for celsius in [-20.0, -5.0, -1.01, -0.5, 3.0] {
                let back = piece.celsius(piece.heat(celsius));
                assert!((back - celsius).abs() < 1e-9, "{celsius} {back}");
            }
        }
    }

    #[test]
    fn what_is_drawn_fills_its_range() {
        for dimension in 1..=8 {
            let mut shares: Vec<f64> = (0..PIECES).map(|nth| evenly(nth, dimension)).collect();
            shares.sort_by(f64::total_cmp);
            let widest = shares.windows(2).map(|w| w[1] - w[0]).fold(0.0, f64::max);
            assert!(widest < 0.02, "{dimension} {widest}");
        }
    }
}
