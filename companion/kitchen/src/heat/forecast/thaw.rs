//! Through the plateau of thawing.
//!
//! A frozen piece takes heat at a rate by what it stands in; its water takes
//! far more of it than its temperature shows. Bodies of one temperature are
//! weighed by how well they explain the readings so far: sharp ones that stand
//! at one temperature until their ice is gone, and gradual ones whose ice goes
//! as 1 − Tf/T (Q. T. Pham's form, from memory); how much heat the ice takes is
//! known beforehand within a factor only, wide enough for the middle of a thick
//! piece, which waits for the front.

use super::posterior::Guess;
use super::readings::Readings;

/// Heat that thawing takes, in degrees of the frozen food's own warming: 250
/// kJ/kg over 2 kJ/(kg K) for lean food; its middle and its spread (a
/// logarithm) leave room for water, for fat, and for fronts. Estimates.
const LATENT: f64 = 120.0;
const LATENT_SPREAD: f64 = 0.7;
/// How much more heat a degree takes once it is thawed.
const THAWED: f64 = 1.8;
/// Where its ice begins to go, °C: a little below water's, by salt and sugar.
const BEGINS: [f64; 3] = [-0.5, -1.0, -1.7];
/// Unlikeness of any such body to a real one, °C.
const UNLIKE: f64 = 0.35;
/// Beyond this unlikeness it is not thawing that goes on, °C.
const UNFIT: f64 = 1.2;
/// Readings count as at most so many: what a body does wrong it does wrong at
/// each of them.
const COUNTED: f64 = 12.0;
/// Standard doubt of any of these bodies, as a share of the time to go.
const DOUBT: f64 = 0.2;
/// Nodes of a normal distribution in its deviations, with weights.
const NODES: [(f64, f64); 5] = [
    (-1.8, 0.08),
    (-0.9, 0.24),
    (0.0, 0.36),
    (0.9, 0.24),
    (1.8, 0.08),
];
const RATES: u32 = 40;
/// The most readings that a body is held against.
const MOST_LOOKED_AT: usize = 24;

/// The course of a body whose rate is one: how far it is, and how warm.
fn course(
    from: f64,
    begins: f64,
    latent: f64,
    gradual: bool,
    far: f64,
    top: f64,
) -> Vec<(f64, f64)> {
    const STEPS: u32 = 32;
    let mut along = vec![(0.0, from)];
    let mut time = 0.0;
    let mut warm = |to: f64, start: f64, heat: &dyn Fn(f64) -> f64, time: &mut f64| {
        let step = (to - start) / f64::from(STEPS);
        for i in 0..STEPS {
            let middle = start + step * (f64::from(i) + 0.5);
            *time += heat(middle) * step / (far - middle);
            along.push((*time, start + step * f64::from(i + 1)));
        }
    };
    let ice = |c: f64| {
        if gradual {
            1.0 + latent * -begins / (c * c)
        } else {
            1.0
        }
    };
    warm(begins, from, &ice, &mut time);
    if !gradual {
        time += latent / (far - begins);
        warm(begins + 1e-9, begins, &|_| 1.0, &mut time);
    }
    warm(top, begins, &|_| THAWED, &mut time);
    along
}

fn at(along: &[(f64, f64)], time: f64) -> f64 {
    let place = along
        .partition_point(|p| p.0 <= time)
        .clamp(1, along.len() - 1);
    let ((t0, a), (t1, b)) = (along[place - 1], along[place]);
    a + (b - a) * ((time - t0) / (t1 - t0).max(1e-12)).clamp(0.0, 1.0)
}

/// One body: hours to go, and its weight (a logarithm). `None` where it never
/// gets there.
struct Body {
    to_go: Option<f64>,
    log: f64,
}

/// Hours to a level above freezing: early, likely and late, each by the
/// probability asked for; `None` where no such body explains the readings, or
/// it likely does not get there.
pub(super) fn hours_to(
    readings: &Readings,
    guesses: &[Guess],
    level: f64,
    shares: [f64; 3],
) -> Option<[f64; 3]> {
    let lowest = readings
        .bins
        .iter()
        .map(|b| b.celsius)
        .fold(f64::INFINITY, f64::min);
    // The middle of a thick piece does not move at first.
    let moved = lowest + 0.25 * (-3.0 - lowest);
    let start = readings.bins.iter().position(|b| b.celsius > moved)?;
    let every = (readings.bins.len() - start).div_ceil(MOST_LOOKED_AT);
    let mut bins: Vec<_> = readings.bins[start..].iter().rev().step_by(every).collect();
    bins.reverse();
    let (first, last) = (*bins.first()?, *bins.last()?);
    if bins.len() < 8 || first.celsius > -3.0 {
        return None;
    }
    let length = last.hours - first.hours;
    let count = (COUNTED / bins.len() as f64).min(1.0);
    let mut bodies = Vec::new();
    let mut fit = f64::INFINITY;
    for guess in guesses {
        for (deviation, weight) in NODES {
            let far = guess.celsius + deviation * guess.spread;
            if far < 0.5 {
                continue;
            }
            let reaches = level < far - 0.02 * (far + 1.0);
            let top = if reaches {
                level
            } else {
                far - 0.05 * (far + 1.0)
            };
            for i in -4_i32..=4 {
                let off = f64::from(i) * 0.4;
                let latent = LATENT * off.exp();
                let heat = -0.5 * (off / LATENT_SPREAD).powi(2);
                for begins in BEGINS {
                    for gradual in [false, true] {
                        let along = course(first.celsius, begins, latent, gradual, far, top);
                        let whole = along.last()?.0;
                        for r in 0..RATES {
                            // From three hundredths of the way by now to all of it.
                            let share =
                                0.03 * (1.0_f64 / 0.03).powf(f64::from(r) / f64::from(RATES));
                            let rate = share * whole / length;
                            let (mut misfit, mut square) = (0.0, 0.0);
                            for bin in &bins {
                                let is = at(&along, rate * (bin.hours - first.hours));
                                let off = (bin.celsius - is).powi(2);
                                misfit += off / (bin.variance + UNLIKE * UNLIKE);
                                square += off;
                            }
                            fit = f64::min(fit, square / bins.len() as f64);
                            bodies.push(Body {
                                to_go: reaches.then(|| whole / rate - length),
                                log: -0.5 * count * misfit + heat + (weight * guess.weight).ln(),
                            });
                        }
                    }
                }
            }
        }
    }
    if fit.sqrt() > UNFIT {
        return None;
    }
    let best = bodies.iter().fold(f64::NEG_INFINITY, |m, b| m.max(b.log));
    let mut comes: Vec<(f64, f64)> = Vec::new();
    let (mut total, mut never) = (0.0, 0.0);
    for body in bodies {
        let weight = (body.log - best).exp();
        match body.to_go {
            Some(hours) if hours > 0.0 => {
                total += weight;
                comes.push((hours, weight));
            }
            _ => never += weight,
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
        let off = (ends.max(1e-3) / likely).ln().abs();
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

    // Worked by hand: 10 degrees of frozen food under an excess that falls from 30 to 20 degrees
    // take ln(30/20) of a time constant, the ice 150/20 more, and from -1 to 4 with 1.8 times the
    // heat 1.8 ln(20/15), in surroundings of 19 degC.
    #[test]
    fn a_sharp_body_takes_the_time_of_its_three_parts() {
        let along = course(-11.0, -1.0, 150.0, false, 19.0, 4.0);
        let whole = along.last().unwrap().0;
        let expected = (30.0_f64 / 20.0).ln() + 150.0 / 20.0 + 1.8 * (20.0_f64 / 15.0).ln();
        assert!((whole - expected).abs() < 0.01, "{whole} {expected}");
        assert!((at(&along, 4.0) + 1.0).abs() < 1e-6);
    }
}
