//! Has something changed? A reading that no body foretold, and the next ones
//! too, begins a new stretch.

use super::body::{Body, Far, State, TimeStep, log_density};
use super::readings::{Bin, Readings};

const CELLS: u32 = 7;
const SLOWEST: f64 = 0.1;
const FASTEST: f64 = 30.0;
const PUSHES: [f64; 3] = [0.0, 0.1, 0.6];
/// Readings to learn from before one may surprise.
const LEARN: usize = 6;
/// A surprise beyond so many standard deviations is not learnt from.
const STARTLING: f64 = 4.5;
/// Two in a row of that kind on one side are a change, and so is this much
/// of lesser surprises on one side beyond [`DRIFT`] each.
const CUMULATED: f64 = 12.0;
const DRIFT: f64 = 1.2;

/// The bin at which the last change began, by a bank of filters that is asked
/// before each reading what it expects; `None` where nothing surprised.
pub(super) fn last_change(readings: &Readings) -> Option<usize> {
    let mut from = 0;
    let mut found = None;
    while let Some(at) = next_change(readings, from) {
        found = Some(at);
        from = at;
    }
    found
}

/// Where a bank of bodies that nothing pushes would rather have begun anew, as
/// a rule of thumb: the bin with the most likely halves.
pub(super) fn likeliest_split(readings: &Readings) -> Option<usize> {
    const EDGE: usize = 5;
    const PLACES: usize = 16;
    let count = readings.bins.len();
    if count < 3 * EDGE {
        return None;
    }
    let along = |from: usize| {
        let mut bank = bank(readings, from, &[0.0, 0.02]);
        let mut before = readings.bins[from].hours;
        let mut evidence = Vec::with_capacity(count - from);
        evidence.push(0.0);
        for bin in &readings.bins[from + 1..] {
            let step = bin.hours - before;
            before = bin.hours;
            for filter in &mut bank {
                filter.advance(step);
                let surprise = filter.state.surprise(bin, 1.5);
                filter.log += log_density(surprise);
                filter.state.learn(surprise);
            }
            let best = bank.iter().fold(f64::NEG_INFINITY, |m, f| m.max(f.log));
            let sum: f64 = bank.iter().map(|f| (f.log - best).exp()).sum();
            evidence.push(best + sum.ln());
        }
        evidence
    };
    let whole = along(0);
    let every = ((count - 2 * EDGE) / PLACES).max(1);
    (EDGE..count - EDGE)
        .step_by(every)
        .filter_map(|at| Some((at, whole[at] + along(at).last()?)))
        .max_by(|a, b| a.1.total_cmp(&b.1))
        .map(|(at, _)| at)
}

/// The bins at which something disturbed a body that stays the same: each
/// startles, and is taken for a kick.
pub(super) fn kicks(readings: &Readings) -> Vec<usize> {
    let mut bank = bank(readings, 0, &PUSHES[..2]);
    let mut kicks = Vec::new();
    let mut before = readings.bins[0].hours;
    for (nth, bin) in readings.bins.iter().enumerate().skip(1) {
        let step = bin.hours - before;
        before = bin.hours;
        let kept: Vec<State> = bank.iter().map(|f| f.state).collect();
        if expect(&mut bank, bin, step).abs() > STARTLING && nth >= LEARN {
            for (filter, state) in bank.iter_mut().zip(kept) {
                filter.state = state;
                filter.state.kick(readings.range);
            }
            kicks.push(nth);
            expect(&mut bank, bin, step);
        }
        for filter in &mut bank {
            let surprise = filter.state.surprise(bin, 1.5);
            filter.log += log_density(surprise);
            filter.state.learn(surprise);
        }
    }
    kicks
}

/// The time in which what was reached before a kick was not yet reached again,
/// as a share of the rest.
pub(super) fn lost(readings: &Readings, kicks: &[usize]) -> f64 {
    let bins = &readings.bins;
    let length = readings.length();
    let (Some(first), Some(last)) = (bins.first(), bins.last()) else {
        return 0.0;
    };
    let rises = last.celsius > first.celsius;
    let mut lost = 0.0;
    let mut until = 0;
    for kick in kicks.iter().filter(|kick| **kick > 0) {
        if *kick <= until {
            continue;
        }
        let before = bins[kick - 1];
        let again = (*kick..bins.len())
            .find(|i| (bins[*i].celsius >= before.celsius) == rises)
            .unwrap_or(bins.len() - 1);
        lost += bins[again].hours - before.hours;
        until = again;
    }
    lost / (length - lost).max(0.1 * length)
}

/// Moves a bank on by a step and says by how many standard deviations the next
/// bin is off.
fn expect(bank: &mut [Filter], bin: &Bin, step: f64) -> f64 {
    let best = bank.iter().fold(f64::NEG_INFINITY, |m, f| m.max(f.log));
    let (mut total, mut mean, mut square) = (0.0, 0.0, 0.0);
    for filter in bank {
        filter.advance(step);
        let (off, variance) = filter.state.surprise(bin, 1.5);
        let weight = (filter.log - best).exp();
        total += weight;
        mean += weight * off;
        square += weight * (variance + off * off);
    }
    mean /= total;
    let variance = square / total - mean * mean;
    mean / variance.max(1e-12).sqrt()
}

struct Filter {
    body: Body,
    state: State,
    log: f64,
    /// The last step in time, and its hours.
    step: (f64, TimeStep),
}

impl Filter {
    fn advance(&mut self, hours: f64) {
        if (hours - self.step.0).abs() > 1e-9 {
            self.step = (hours, self.body.step(hours));
        }
        self.state.advance(&self.step.1);
    }
}

fn bank(readings: &Readings, from: usize, sizes: &[f64]) -> Vec<Filter> {
    let first = &readings.bins[from];
    let length = readings.length();
    let wide = (first.celsius, 150.0 + 3.0 * readings.range);
    let near = 0.5 * readings.range + 1.0;
    let rate = |i: u32| {
        let share = (f64::from(i) + 0.5) / f64::from(CELLS);
        SLOWEST * (FASTEST / SLOWEST).powf(share) / length
    };
    let mut bank = Vec::new();
    for i in 0..CELLS {
        for j in 0..CELLS {
            for pushes in sizes {
                let body = Body {
                    near: rate(i),
                    far: Far::Followed {
                        rate: rate(j) * 1.01,
                        pushes: pushes * readings.range / length.sqrt(),
                    },
                };
                bank.push(Filter {
                    body,
                    state: State::begin(first, wide, near, 1.0),
                    log: 0.0,
                    step: (0.0, body.step(0.0)),
                });
            }
        }
    }
    bank
}

fn next_change(readings: &Readings, from: usize) -> Option<usize> {
    let mut bank = bank(readings, from, &PUSHES);
    let mut before = readings.bins[from].hours;
    let mut startled: Option<(usize, f64)> = None;
    let mut sums = [(0.0, from); 2];
    for (nth, bin) in readings.bins.iter().enumerate().skip(from + 1) {
        let dt = bin.hours - before;
        before = bin.hours;
        let z = expect(&mut bank, bin, dt);
        if nth < from + LEARN {
            startled = None;
        } else {
            if z.abs() > STARTLING {
                match startled {
                    Some((at, other)) if other * z > 0.0 => return Some(at),
                    _ => {
                        startled = Some((nth, z));
                        continue;
                    }
                }
            }
            startled = None;
            for (side, (sum, since)) in [1.0, -1.0].into_iter().zip(&mut sums) {
                if *sum == 0.0 {
                    *since = nth;
                }
                *sum = f64::max(0.0, *sum + side * z - DRIFT);
                if *sum > CUMULATED {
                    return Some(*since);
                }
            }
        }
        for filter in &mut bank {
            let surprise = filter.state.surprise(bin, 1.5);
            filter.log += log_density(surprise);
            filter.state.learn(surprise);
        }
    }
    None
}

/// Blocks that the pace is taken over.
const BLOCKS: usize = 12;
/// How much quicker than before counts.
const QUICKER: f64 = 1.5;
/// And by how many standard deviations.
const SURELY: f64 = 5.0;

/// What is left alone in one place slows down for good once it slows down. The
/// bin from which it quickened again: the surface dried, the ice thawed, the
/// lid came off. `None` where it did not.
pub(super) fn quickened(readings: &Readings) -> Option<usize> {
    let bins = &readings.bins;
    if bins.len() < 2 * BLOCKS {
        return None;
    }
    let size = bins.len() / BLOCKS;
    let offset = bins.len() - size * BLOCKS;
    let paces: Vec<(f64, f64)> = (0..BLOCKS)
        .map(|i| pace(&bins[offset + i * size..(offset + (i + 1) * size + 1).min(bins.len())]))
        .collect();
    let (last, _) = *paces.last()?;
    let sign = last.signum();
    let quickest_before = |i: usize| paces[..i].iter().map(|p| p.0 * sign).fold(0.0, f64::max);
    let slowest =
        (1..BLOCKS - 1).min_by(|a, b| (paces[*a].0 * sign).total_cmp(&(paces[*b].0 * sign)))?;
    let (slow, doubt) = (paces[slowest].0 * sign, paces[slowest].1);
    let quickest_after = paces[slowest + 1..]
        .iter()
        .map(|p| p.0 * sign)
        .fold(0.0, f64::max);
    let clear = |quick: f64| quick > QUICKER * slow.max(0.0) && quick - slow > SURELY * doubt;
    (clear(quickest_before(slowest)) && clear(quickest_after)).then_some(offset + slowest * size)
}

/// Degrees an hour by least squares, with its standard deviation.
fn pace(bins: &[Bin]) -> (f64, f64) {
    let n = bins.len() as f64;
    let mx = bins.iter().map(|b| b.hours).sum::<f64>() / n;
    let my = bins.iter().map(|b| b.celsius).sum::<f64>() / n;
    let xx: f64 = bins.iter().map(|b| (b.hours - mx).powi(2)).sum();
    let xy: f64 = bins.iter().map(|b| (b.hours - mx) * (b.celsius - my)).sum();
    let noise = bins.iter().map(|b| b.variance).sum::<f64>() / n;
    (xy / xx, (noise / xx).sqrt())
}
