//! Every body weighed by how well it explains the readings.

use super::body::{Body, Course, Far, SPLITS, State, run};
use super::core::{CORES, Core};
use super::readings::Bin;
use statrs::function::erf::{erfc, erfc_inv};

/// A guess at the far surroundings: weight, °C, standard deviation.
#[derive(Debug, Clone, Copy)]
pub(super) struct Guess {
    pub weight: f64,
    pub celsius: f64,
    pub spread: f64,
}

/// One body with what is known of it.
#[derive(Debug, Clone, Copy)]
struct Component {
    body: Body,
    state: State,
    weight: f64,
}

/// Bodies with their weights, which sum to one.
#[derive(Debug, Clone)]
pub(super) struct Posterior {
    parts: Vec<Component>,
}

/// Rates looked at, in units of one over the length of the readings.
const SLOWEST: f64 = 0.03;
const FASTEST: f64 = 30.0;
/// Cells along each rate before any is divided.
const SINGLE_CELLS: u32 = 20;
const PAIR_CELLS: u32 = 9;
/// Sizes of the pushes: over the whole length, as a share of the range, with
/// the weight each has beforehand.
const PUSHES: [(f64, f64); 5] = [
    (0.0, 0.30),
    (0.02, 0.15),
    (0.1, 0.2),
    (0.4, 0.2),
    (1.5, 0.15),
];
/// Multiples of the noise's variance, with the weight each has beforehand.
const NOISES: [(f64, f64); 2] = [(0.8, 0.6), (2.5, 0.4)];
/// What one plain exponential and a core weigh beforehand, beside two rates.
const PLAIN: f64 = 0.25;
const CORE: f64 = 0.2;
/// A cell that holds more of the weight than this is divided.
const COARSE: f64 = 0.04;
/// The most divisions of a slice of the grid.
const MOST_DIVISIONS: usize = 20;
/// What is less likely than the best by more than this (a logarithm) is left out.
const NEGLIGIBLE: f64 = 7.0;

/// A cell of the grid of rates: logarithms of its middle and its half widths.
#[derive(Debug, Clone, Copy)]
struct Cell {
    middle: [f64; 2],
    half: [f64; 2],
    body: Body,
    state: State,
    log: f64,
    /// The states at the splits, and the logarithms there.
    splits: [(State, f64); SPLITS],
}

/// What a slice of the grid holds.
#[derive(Debug, Clone, Copy)]
enum Kind {
    Plain,
    Core(&'static Core),
    /// Two rates, with pushes of a size in °C/√h.
    Pair(f64),
}

/// The grid at one size of the pushes and one noise.
struct Slice<'a> {
    along: Course<'a>,
    kind: Kind,
    noise: f64,
    wide: (f64, f64),
    near: f64,
}

impl Slice<'_> {
    fn cell(&self, middle: [f64; 2], half: [f64; 2]) -> Option<Cell> {
        let near = middle[0].exp();
        // Two equal rates have another closed form; next to equal is near enough.
        let far = if (middle[0] - middle[1]).abs() < 1e-3 {
            near * 1.002
        } else {
            middle[1].exp()
        };
        let body = Body {
            near,
            far: match self.kind {
                Kind::Plain => Far::Same,
                Kind::Core(shape) => Far::Core {
                    shape,
                    since: self.along.readings.since,
                },
                Kind::Pair(pushes) => Far::Followed { rate: far, pushes },
            },
        };
        let begin = |first: &_| State::begin(first, self.wide, self.near, self.noise);
        let seen = run(body, self.along, begin, self.noise)?;
        let area = (half[0] * if self.is_pair() { half[1] } else { 1.0 }).ln();
        Some(Cell {
            middle,
            half,
            body,
            state: seen.last.0,
            log: seen.last.1 + area,
            splits: seen.splits.map(|(state, log)| (state, log + area)),
        })
    }

    const fn is_pair(&self) -> bool {
        matches!(self.kind, Kind::Pair(_))
    }

    fn cells(&self) -> Vec<Cell> {
        let length = self.along.readings.length();
        let (low, high) = ((SLOWEST / length).ln(), (FASTEST / length).ln());
        let n = if self.is_pair() {
            PAIR_CELLS
        } else {
            SINGLE_CELLS
        };
        let half = (high - low) / f64::from(n) / 2.0;
        let middle = |i: u32| low + half * f64::from(2 * i + 1);
        let mut cells: Vec<Cell> = (0..n)
            .flat_map(|i| {
                let second = if self.is_pair() { 0..n } else { 0..1 };
                second.map(move |j| (i, j))
            })
            .filter_map(|(i, j)| self.cell([middle(i), middle(j)], [half, half]))
            .collect();
        let most = match self.kind {
            // The sharpest peak of all.
            Kind::Pair(0.0) => 4 * MOST_DIVISIONS,
            _ => MOST_DIVISIONS,
        };
        for _ in 0..most {
            let best = cells.iter().fold(f64::NEG_INFINITY, |m, c| m.max(c.log));
            let total: f64 = cells.iter().map(|c| (c.log - best).exp()).sum();
            let Some(place) =
                (0..cells.len()).max_by(|a, b| cells[*a].log.total_cmp(&cells[*b].log))
            else {
                break;
            };
            if (cells[place].log - best).exp() / total < COARSE {
                break;
            }
            let whole = cells.swap_remove(place);
            let [x, y] = whole.middle;
            let [hx, hy] = whole.half;
            if !self.is_pair() {
                for side in [-2.0, 0.0, 2.0] {
                    cells.extend(self.cell([x + side * hx / 3.0, y], [hx / 3.0, hy]));
                }
            } else {
                for (sx, sy) in [(-1.0, -1.0), (-1.0, 1.0), (1.0, -1.0), (1.0, 1.0)] {
                    cells.extend(
                        self.cell([x + sx * hx / 2.0, y + sy * hy / 2.0], [hx / 2.0, hy / 2.0]),
                    );
                }
            }
        }
        cells
    }
}

/// How one supposition of what happened explains the readings.
#[derive(Debug, Clone)]
pub(super) struct Fit {
    /// Bodies with the logarithms of their likelihoods.
    parts: Vec<(Body, State, f64)>,
    /// The logarithm of the probability of the readings after the split.
    pub evidence: f64,
    /// How far the last reading is from what was expected of it earlier, in
    /// standard deviations: above is positive.
    pub surprises: Vec<f64>,
}

impl Fit {
    /// Weighs every body. `None` where the readings do not bear a fit.
    pub fn of(along: Course<'_>, guesses: &[Guess]) -> Option<Self> {
        let readings = along.readings;
        if readings.bins.len() < 4 || readings.length() <= 0.0 {
            return None;
        }
        let last = readings.bins.last()?.celsius;
        let wide = (last, 150.0 + 3.0 * readings.range);
        let near = 0.5 * readings.range + 1.0;
        let mut cells: Vec<Cell> = Vec::new();
        let length = readings.length();
        let pair = |(size, weight): (f64, f64)| {
            let pushes = size * readings.range / length.sqrt();
            (Kind::Pair(pushes), weight * (1.0 - PLAIN - CORE))
        };
        let shares = 1.0 / CORES.len() as f64;
        // A core that was disturbed is none of those.
        let cores = if along.kicks.is_empty() {
            CORES.as_slice()
        } else {
            &[]
        };
        let kinds: Vec<(Kind, f64)> = std::iter::once((Kind::Plain, PLAIN))
            .chain(cores.iter().map(|shape| (Kind::Core(shape), CORE * shares)))
            .chain(PUSHES.map(pair))
            .collect();
        for (noise, noise_weight) in NOISES {
            for (kind, weight) in &kinds {
                let slice = Slice {
                    along,
                    kind: *kind,
                    noise,
                    wide,
                    near,
                };
                // The area of the whole grid is the same for all of a kind.
                let span = (FASTEST / SLOWEST).ln() / 2.0;
                let whole = if slice.is_pair() { span * span } else { span };
                let log = (weight * noise_weight / whole).ln();
                cells.extend(slice.cells().into_iter().map(|mut cell| {
                    cell.log += log;
                    for split in &mut cell.splits {
                        split.1 += log;
                    }
                    cell
                }));
            }
        }
        let with_guesses = |found: &dyn Fn(&Cell) -> (State, f64)| {
            let best = cells
                .iter()
                .fold(f64::NEG_INFINITY, |m, c| m.max(found(c).1));
            cells
                .iter()
                .map(|cell| (cell.body, found(cell)))
                .filter(|(_, (_, log))| *log > best - NEGLIGIBLE - 6.0)
                .flat_map(|(body, (state, log))| {
                    guesses.iter().filter_map(move |guess| {
                        let (state, change) = told(&state, wide, *guess)?;
                        Some((body, state, log + change + guess.weight.ln()))
                    })
                })
                .collect::<Vec<_>>()
        };
        let parts = with_guesses(&|cell| (cell.state, cell.log));
        let before = with_guesses(&|cell| cell.splits[0]);
        let evidence = sum(&parts) - sum(&before);
        let end = readings.bins.last()?;
        let surprises = (1..SPLITS)
            .filter(|nth| along.splits[*nth] > 0)
            .map(|nth| {
                let begun = &readings.bins[along.splits[nth]];
                surprise(&with_guesses(&|cell| cell.splits[nth]), begun, end)
            })
            .collect();
        (evidence.is_finite() && !parts.is_empty()).then_some(Self {
            parts,
            evidence,
            surprises,
        })
    }

    /// The same so many hours later.
    pub fn later(mut self, hours: f64) -> Self {
        for (body, state, _) in &mut self.parts {
            match &mut body.far {
                Far::Core { since, .. } => *since += hours,
                _ => state.advance(&body.step(hours)),
            }
        }
        self
    }
}

/// By how many standard deviations a bin is above what was expected of it at an
/// earlier one.
fn surprise(parts: &[(Body, State, f64)], begun: &Bin, end: &Bin) -> f64 {
    let best = parts.iter().fold(f64::NEG_INFINITY, |m, p| m.max(p.2));
    let (mut below, mut total) = (0.0, 0.0);
    for (body, state, log) in parts {
        let weight = (log - best).exp();
        let (mean, variance) = match body.far {
            // A core's state is that at its beginning.
            Far::Core { .. } => state.probe_after(&body.step(0.0)),
            _ => state.probe_after(&body.step(end.hours - begun.hours)),
        };
        let doubt = REPLAY_DOUBT * (mean - begun.celsius);
        let spread = (variance + end.variance + doubt * doubt).max(1e-8);
        below += weight * 0.5 * erfc((mean - end.celsius) / (2.0 * spread).sqrt());
        total += weight;
    }
    let share = (below / total).clamp(1e-12, 1.0 - 1e-12);
    -std::f64::consts::SQRT_2 * erfc_inv(2.0 * share)
}

/// Standard doubt about any fit, as a share of the way, when it is held against
/// what came.
const REPLAY_DOUBT: f64 = 0.02;

/// The logarithm of a sum of likelihoods.
fn sum(parts: &[(Body, State, f64)]) -> f64 {
    let best = parts.iter().fold(f64::NEG_INFINITY, |m, p| m.max(p.2));
    best + parts.iter().map(|p| (p.2 - best).exp()).sum::<f64>().ln()
}

impl Posterior {
    /// Suppositions, each with its weight.
    pub fn of(fits: Vec<(Fit, f64)>) -> Option<Self> {
        let mut parts: Vec<(Body, State, f64)> = Vec::new();
        for (fit, weight) in fits {
            let whole = sum(&fit.parts);
            let add = weight.ln() - whole;
            parts.extend(fit.parts.into_iter().map(|(b, s, log)| (b, s, log + add)));
        }
        let best = parts.iter().fold(f64::NEG_INFINITY, |m, p| m.max(p.2));
        parts.retain(|p| p.2 > best - NEGLIGIBLE);
        let total: f64 = parts.iter().map(|p| (p.2 - best).exp()).sum();
        (total > 0.0 && best.is_finite()).then(|| Self {
            parts: parts
                .into_iter()
                .map(|(body, state, log)| Component {
                    body,
                    state,
                    weight: (log - best).exp() / total,
                })
                .collect(),
        })
    }

    /// When the probe first passes a level, as far as `longest` hours ahead;
    /// `below` where past is below.
    pub fn arrival(&self, level: f64, below: bool, shortest: f64, longest: f64) -> Arrival<'_> {
        let mut hours = vec![0.0];
        let mut next = shortest;
        while next < longest {
            hours.push(next);
            next *= GROWTH;
        }
        hours.push(longest);
        let mut passed: Vec<Vec<f64>> = Vec::with_capacity(hours.len());
        for h in &hours {
            let row = self
                .parts
                .iter()
                .enumerate()
                .map(|(i, part)| {
                    let before = passed.last().map_or(0.0, |row| row[i]);
                    part.past(*h, level, below).max(before)
                })
                .collect();
            passed.push(row);
        }
        Arrival {
            parts: &self.parts,
            level,
            below,
            hours,
            passed,
        }
    }

    /// How likely it is a core of a regular shape.
    pub fn core(&self) -> f64 {
        self.share(|far| matches!(far, Far::Core { .. }))
    }

    /// How likely it is one plain exponential.
    pub fn plain(&self) -> f64 {
        self.share(|far| matches!(far, Far::Same))
    }

    fn share(&self, is: impl Fn(&Far) -> bool) -> f64 {
        let parts = self.parts.iter().filter(|p| is(&p.body.far));
        parts.map(|p| p.weight).sum()
    }

    /// The far surroundings: mean and standard deviation.
    pub fn far(&self) -> (f64, f64) {
        let mean: f64 = self.parts.iter().map(|p| p.weight * p.state.mean[2]).sum();
        let square: f64 = self
            .parts
            .iter()
            .map(|p| p.weight * (p.state.cov[2][2] + (p.state.mean[2] - mean).powi(2)))
            .sum();
        (mean, square.max(0.0).sqrt())
    }
}

/// Steps in time that an arrival is looked for in grow by this.
const GROWTH: f64 = 1.25;

impl Component {
    /// The probability that the probe is past a level after so many hours.
    fn past(&self, hours: f64, level: f64, below: bool) -> f64 {
        let (mean, variance) = self.state.probe_after(&self.body.step(hours));
        let off = if below { level - mean } else { mean - level };
        0.5 * erfc(-off / (2.0 * variance.max(1e-8)).sqrt())
    }
}

/// The distribution of the time at which a level is passed. What a body once
/// passed it has passed, even if it is pushed back.
pub(super) struct Arrival<'a> {
    parts: &'a [Component],
    level: f64,
    below: bool,
    hours: Vec<f64>,
    passed: Vec<Vec<f64>>,
}

impl Arrival<'_> {
    fn share(&self, row: &[f64]) -> f64 {
        self.parts.iter().zip(row).map(|(p, s)| p.weight * s).sum()
    }

    /// The probability that it is ever passed.
    pub fn ever(&self) -> f64 {
        self.passed.last().map_or(0.0, |row| self.share(row))
    }

    /// The probability that it is passed within so many hours.
    pub fn within(&self, hours: f64) -> f64 {
        let place = self.hours.partition_point(|h| *h <= hours).max(1) - 1;
        self.from(place, hours)
    }

    fn from(&self, place: usize, hours: f64) -> f64 {
        self.parts
            .iter()
            .zip(&self.passed[place])
            .map(|(part, passed)| {
                part.weight * part.past(hours, self.level, self.below).max(*passed)
            })
            .sum()
    }

    /// The hours within which it is passed with a probability; `None` where it
    /// never is.
    pub fn hours_to(&self, probability: f64) -> Option<f64> {
        let place = self
            .passed
            .iter()
            .position(|row| self.share(row) >= probability)?;
        if place == 0 {
            return Some(0.0);
        }
        let (mut early, mut late) = (self.hours[place - 1], self.hours[place]);
        for _ in 0..10 {
            let middle = f64::midpoint(early, late);
            if self.from(place - 1, middle) < probability {
                early = middle;
            } else {
                late = middle;
            }
        }
        Some(late)
    }
}

/// A state that was found with nothing known of the far surroundings, as it is
/// with a guess at them; and the logarithm of what the guess adds to its
/// likelihood.
fn told(state: &State, wide: (f64, f64), guess: Guess) -> Option<(State, f64)> {
    let before = 1.0 / (wide.1 * wide.1);
    let after = 1.0 / state.cov[2][2];
    let found = (after - before).max(0.0);
    let at = state.mean[2] - wide.0;
    let supposed = 1.0 / (guess.spread * guess.spread);
    let off = guess.celsius - wide.0;
    let precision = found + supposed;
    let mean = (after * at + off * supposed) / precision;
    let change = 0.5
        * ((supposed / precision).ln() - (before / after).ln() + precision * mean * mean
            - off * off * supposed
            - after * at * at);
    let mut told = *state;
    let gain = [0, 1, 2].map(|i| state.cov[i][2] * after);
    for i in 0..3 {
        told.mean[i] += gain[i] * (mean - at);
        for j in 0..3 {
            told.cov[i][j] -= gain[i] * gain[j] * (1.0 / after - 1.0 / precision);
        }
    }
    change.is_finite().then_some((told, change))
}
