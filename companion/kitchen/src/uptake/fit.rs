//! What the kitchen's own batches say about the next one.
//!
//! Diffusion coefficients of cuts are drawn around one of the kitchen's, and
//! those of batches around their cut's (thickness misjudged, fibre, fat); how
//! wide either spreads is learned with them. What is published is where it
//! begins. All of it is summed over a grid, so the same batches give the same
//! answer.

use super::gain::{self, GainExpected};
use super::{Course, Cut, IntoBath, Soak};
use crate::source::Publication;
use crate::units::Ratio;
use evenhand_protocol::Temperature;
use jiff::SignedDuration;

/// What is published of salt's diffusion in meat and fish.
pub const PUBLISHED: [Publication; 3] = [
    crate::brine::DIFFUSION,
    Publication::read(
        "Hansen and others, Meat Science 80 (2008) 851, abstract: pork, by magnetic resonance, \
         3 to 7 e-10 m2/s",
    ),
    Publication::read(
        "Journal of Cookery Science of Japan 25 (1992) 283, abstract: fish fillets, inner side, \
         1 to 10 e-11 m2/s",
    ),
];
/// Where the kitchen's begins, m²/s at 5 °C: between the three above, one
/// standard deviation a factor of two either way.
const BEGINS_AT: f64 = 2e-10;
const BEGINS_WITHIN: f64 = 0.7;
/// How warmth speeds it up, J/mol: salt in water from 5 to 25 °C, 0.9 to 1.5
/// e-9 m²/s (from memory); water across pork's fibre is published with 15 to
/// 32 kJ/mol (Gómez and others 2017, abstract, read).
const ACTIVATION: f64 = 20_000.0;
const GAS: f64 = 8.314;

/// Batches whose salt is known that are needed before a time is said.
pub const LEAST_WITH_SALT: usize = 3;
/// How often an interval holds.
pub const HOLDS: f64 = 0.8;
/// The last batches that count.
pub const LAST_SOAKS: usize = 40;

/// Times beyond three years are none, s.
const LONGEST: f64 = 1e8;
/// As a share of it.
const END_OF_ITS_OWN: f64 = 0.02;

/// Pieces are neither slabs nor cylinders and baths not all stirred: the next
/// batch's coefficient is as much wider, as a logarithm. Chosen on made-up
/// kitchens (tests/uptake_coverage.rs).
const NOT_BY_THE_BOOK: f64 = 0.2;

const CELLS: usize = 60;
/// From 1.2 e-11 to 4 e-9 m²/s.
const LOWEST: f64 = -25.15;
const STEP: f64 = 0.098;
const BATCHES: [f64; 4] = [0.15, 0.28, 0.45, 0.7];
const CUTS: [f64; 3] = [0.1, 0.3, 0.6];
/// What is evened out in the end, in standard deviations, with weights: a
/// normal distribution by five of its places (Gauss and Hermite). It is off
/// alike in all of a kitchen's batches; from one to the next it differs by as
/// much as [`END_OF_ITS_OWN`].
const ENDS: [(f64, f64); 5] = [
    (-2.857, 0.011_257),
    (-1.355_6, 0.222_076),
    (0.0, 0.533_333),
    (1.355_6, 0.222_076),
    (2.857, 0.011_257),
];

/// By how much warmth speeds diffusion up against 5 °C.
pub(super) fn warmer(at: Temperature) -> f64 {
    let kelvin = at.celsius() + 273.15;
    (-ACTIVATION / GAS * (1.0 / kelvin - 1.0 / 278.15)).exp()
}

fn cell(place: usize) -> f64 {
    LOWEST + STEP * place as f64
}

/// A quantity that is expected: the middle, and between what it lies eight
/// times in ten.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Middle {
    /// As often above as below.
    pub middle: Ratio,
    /// One in ten lies below.
    pub from: Ratio,
    /// One in ten lies above.
    pub to: Ratio,
}

/// What is expected of a batch, all as shares of its raw weight.
#[derive(Debug, Clone, PartialEq)]
pub struct Expected {
    /// What it gains; `None` before [`super::LEAST_WEIGHED`] were weighed.
    pub gain: Option<Middle>,
    /// The salt that goes in; `None` before [`LEAST_WITH_SALT`] had theirs
    /// known.
    pub salt: Option<Middle>,
    /// The salt of the core, likewise.
    pub core: Option<Middle>,
    /// The water that goes in: what it gains less the salt.
    pub water: Option<Middle>,
    /// What salt comes to all through if it stays in for ever, and within how
    /// much of itself (one standard deviation).
    pub in_the_end: (Ratio, Ratio),
    /// How many more batches with their salt known are needed.
    pub more_with_salt: usize,
    /// How many more batches weighed in and out are needed.
    pub more_weighed: usize,
}

/// When the core comes to a share of salt.
#[derive(Debug, Clone, PartialEq)]
pub enum When {
    /// Too few batches have their salt known.
    NotKnownYet {
        /// How many more are needed.
        more: usize,
        /// Between what times nine in ten lie by what is published alone: no
        /// plan, but why there is none. `None` where it is years.
        published: (Option<SignedDuration>, Option<SignedDuration>),
    },
    /// The bath is too weak: so much is where it would end.
    Never {
        /// Where it ends.
        ends_at: Ratio,
    },
    /// After so long.
    After {
        /// As often earlier as later.
        middle: SignedDuration,
        /// One in ten is there earlier.
        from: SignedDuration,
        /// One in ten is there later; `None` where one in ten never is.
        to: Option<SignedDuration>,
        /// The core would go on to this, were it left in.
        ends_at: Ratio,
        /// The whole piece's salt at the middle time, which the core comes to
        /// once it has evened out.
        salt_then: Ratio,
    },
}

/// The kitchen's own soaks, the latest last.
#[derive(Debug, Clone, Default)]
pub struct OwnSoaks {
    soaks: Vec<Soak>,
    /// How likely each coefficient makes the salt of each, where that is known.
    likely: Vec<Option<[Vec<f64>; 5]>>,
}

/// What they say of one cut.
#[derive(Debug, Clone)]
pub struct OfCut<'s> {
    own: &'s OwnSoaks,
    fastness: Fastness,
}

/// Where a coefficient lies, cell by cell, for each of [`ENDS`].
#[derive(Debug, Clone)]
struct Fastness {
    weights: Vec<Vec<f64>>,
}

impl OwnSoaks {
    /// The last of them count.
    #[must_use]
    pub fn new(mut soaks: Vec<Soak>) -> Self {
        soaks.drain(..soaks.len().saturating_sub(LAST_SOAKS));
        let likely = soaks.iter().map(likely).collect();
        Self { soaks, likely }
    }

    /// Those that count.
    #[must_use]
    pub fn soaks(&self) -> &[Soak] {
        &self.soaks
    }

    /// How many of them have their salt known.
    #[must_use]
    pub fn with_salt(&self) -> usize {
        self.likely.iter().flatten().count()
    }

    /// What they say of the next batch of a cut.
    #[must_use]
    pub fn of_cut(&self, cut: &Cut) -> OfCut<'_> {
        OfCut {
            own: self,
            fastness: if self.with_salt() < LEAST_WITH_SALT {
                Fastness::published()
            } else {
                self.fastness(cut)
            },
        }
    }

    /// What a batch comes to after so long.
    #[must_use]
    pub fn expected(&self, asked: &IntoBath, lasting: SignedDuration) -> Expected {
        self.of_cut(&asked.cut).expected(asked, lasting)
    }

    /// When the core of a batch comes to a share of salt, of its raw weight.
    #[must_use]
    pub fn when(&self, asked: &IntoBath, core: Ratio) -> When {
        self.of_cut(&asked.cut).when(asked, core)
    }

    /// The coefficient of the next batch of a cut.
    fn fastness(&self, asked: &Cut) -> Fastness {
        let mut cuts: Vec<(&Cut, Vec<&[Vec<f64>; 5]>)> = vec![(asked, Vec::new())];
        for (soak, likely) in self.soaks.iter().zip(&self.likely) {
            let Some(likely) = likely else { continue };
            let cut = &soak.into.cut;
            match cuts.iter_mut().find(|(known, _)| known.is_same(cut)) {
                Some((_, there)) => there.push(likely),
                None => cuts.push((cut, vec![likely])),
            }
        }
        let mut parts = Vec::new();
        for (end, (_, share)) in ENDS.iter().enumerate() {
            for within in BATCHES {
                let of_batches = bell(within);
                // What each cut's batches say of the cut's own coefficient, as logarithms.
                let of_cuts: Vec<Vec<f64>> = cuts
                    .iter()
                    .map(|(_, batches)| {
                        let mut sum = vec![0.0; CELLS];
                        for batch in batches {
                            for (so_far, of) in
                                sum.iter_mut().zip(blurred(&batch[end], &of_batches))
                            {
                                *so_far += of.max(1e-300).ln();
                            }
                        }
                        sum
                    })
                    .collect();
                for between in CUTS {
                    let (next, height) = next(&of_cuts, &of_batches, &bell(between));
                    parts.push((end, height + share.ln(), next));
                }
            }
        }
        Fastness::of_parts(&parts)
    }
}

impl OfCut<'_> {
    /// What a batch of the cut comes to after so long.
    #[must_use]
    pub fn expected(&self, asked: &IntoBath, lasting: SignedDuration) -> Expected {
        let seconds = lasting.as_secs_f64();
        let gain = gain::expected(&self.own.soaks, asked, seconds);
        let more_with_salt = LEAST_WITH_SALT.saturating_sub(self.own.with_salt());
        let salted = (more_with_salt == 0).then_some(&self.fastness);
        let course = Course::new(asked.shape, asked.bath_over_piece());
        let share =
            |of: &dyn Fn(f64) -> f64| salted.map(|fastness| fastness.spread(asked, of, seconds));
        let salt = share(&|fourier| course.taken_up(fourier).fraction());
        let core = share(&|fourier| course.core(fourier).fraction());
        let water = gain
            .as_ref()
            .zip(salt.as_ref())
            .map(|(gain, salt)| less(gain, salt));
        Expected {
            water,
            gain: gain.map(|gain| {
                let often = (1.0 - HOLDS) / 2.0;
                middle(gain.below(0.5), gain.below(often), gain.below(1.0 - often))
            }),
            salt: salt.map(|salt| salt.middle()),
            core: core.map(|core| core.middle()),
            in_the_end: (ratio(asked.in_the_end()), ratio(asked.in_the_end_doubt())),
            more_with_salt,
            more_weighed: gain::LEAST_WEIGHED.saturating_sub(self.own.soaks.len()),
        }
    }

    /// When its core comes to a share of salt, of its raw weight.
    #[must_use]
    pub fn when(&self, asked: &IntoBath, core: Ratio) -> When {
        let ends_at = asked.in_the_end();
        if core.fraction() >= ends_at {
            return When::Never {
                ends_at: ratio(ends_at),
            };
        }
        let course = Course::new(asked.shape, asked.bath_over_piece());
        let pace = warmer(asked.at) / asked.depth().powi(2);
        let ends: Vec<Option<f64>> = ENDS
            .iter()
            .map(|(off, _)| course.when_core(ratio(core.fraction() / asked.end(*off))))
            .collect();
        let spread = Spread::new(self.fastness.cells().map(|(speed, end, weight)| {
            let seconds = ends[end].map_or(f64::INFINITY, |fourier| fourier / (speed * pace));
            (seconds, weight)
        }));
        let span = |seconds: f64| {
            (seconds < LONGEST).then(|| SignedDuration::from_secs(seconds.round() as i64))
        };
        let often = (1.0 - HOLDS) / 2.0;
        let more = LEAST_WITH_SALT.saturating_sub(self.own.with_salt());
        if more > 0 {
            return When::NotKnownYet {
                more,
                published: (span(spread.below(0.05)), span(spread.below(0.95))),
            };
        }
        let Some((middle, from)) = span(spread.below(0.5)).zip(span(spread.below(often))) else {
            return When::Never {
                ends_at: ratio(ends_at),
            };
        };
        When::After {
            middle,
            from,
            to: span(spread.below(1.0 - often)),
            ends_at: ratio(ends_at),
            salt_then: self
                .fastness
                .spread(
                    asked,
                    |fourier| course.taken_up(fourier).fraction(),
                    middle.as_secs_f64(),
                )
                .middle()
                .middle,
        }
    }
}

/// The coefficient of the next batch of the first of the cuts, and how likely
/// all of it is, as a logarithm.
fn next(of_cuts: &[Vec<f64>], of_batches: &[f64], of_kitchen: &[f64]) -> (Vec<f64>, f64) {
    let mut kitchen: Vec<f64> = (0..CELLS)
        .map(|place| -((cell(place) - BEGINS_AT.ln()) / BEGINS_WITHIN).powi(2) / 2.0)
        .collect();
    for of in of_cuts.iter().skip(1) {
        let (likely, most) = out_of_logarithms(of);
        for (so_far, of) in kitchen.iter_mut().zip(blurred(&likely, of_kitchen)) {
            *so_far += of.max(1e-300).ln() + most;
        }
    }
    let (kitchen, most) = out_of_logarithms(&kitchen);
    let (own, most_own) = of_cuts
        .first()
        .map_or_else(|| (vec![1.0; CELLS], 0.0), |own| out_of_logarithms(own));
    let cut: Vec<f64> = blurred(&kitchen, of_kitchen)
        .iter()
        .zip(&own)
        .map(|(a, b)| a * b)
        .collect();
    let next = blurred(&blurred(&cut, of_batches), &bell(NOT_BY_THE_BOOK));
    (next, most + most_own)
}

/// How likely each coefficient makes the salt that a batch took up, for each of
/// [`ENDS`].
fn likely(soak: &Soak) -> Option<[Vec<f64>; 5]> {
    let found = soak.salt()?;
    let into = &soak.into;
    let course = Course::new(into.shape, into.bath_over_piece());
    let pace = warmer(into.at) * soak.lasted.as_secs_f64() / into.depth().powi(2);
    let taken: Vec<f64> = (0..CELLS)
        .map(|place| course.taken_up(cell(place).exp() * pace).fraction())
        .collect();
    Some(ENDS.map(|(off, _)| {
        let end = into.end(off);
        taken
            .iter()
            .map(|taken| {
                let salt = taken * end;
                let within = found.uncertainty.fraction().hypot(END_OF_ITS_OWN * salt);
                let off = (found.share.fraction() - salt) / within;
                (-off * off / 2.0).exp() / within
            })
            .collect()
    }))
}

/// A bell curve over the cells to either side.
fn bell(deviation: f64) -> Vec<f64> {
    let mut bell: Vec<f64> = (0..CELLS)
        .map(|apart| {
            let off = STEP * apart as f64 / deviation;
            (-off * off / 2.0).exp()
        })
        .collect();
    let sum = 2.0 * bell.iter().sum::<f64>() - bell[0];
    for of in &mut bell {
        *of /= sum;
    }
    bell
}

fn blurred(cells: &[f64], bell: &[f64]) -> Vec<f64> {
    (0..CELLS)
        .map(|to| {
            cells
                .iter()
                .enumerate()
                .map(|(from, of)| of * bell[to.abs_diff(from)])
                .sum()
        })
        .collect()
}

fn out_of_logarithms(of: &[f64]) -> (Vec<f64>, f64) {
    let most = of.iter().copied().fold(f64::MIN, f64::max);
    (of.iter().map(|of| (of - most).exp()).collect(), most)
}

impl Fastness {
    /// Parts by the end that they are of, how likely each is, and its cells.
    fn of_parts(parts: &[(usize, f64, Vec<f64>)]) -> Self {
        let most = parts.iter().map(|part| part.1).fold(f64::MIN, f64::max);
        let mut weights = vec![vec![0.0; CELLS]; ENDS.len()];
        for (end, height, cells) in parts {
            let weight = (height - most).exp();
            for (so_far, of) in weights[*end].iter_mut().zip(cells) {
                *so_far += weight * of;
            }
        }
        Self { weights }
    }

    /// By what is published alone: cuts and batches spread as well.
    fn published() -> Self {
        let width = BEGINS_WITHIN.hypot(0.3).hypot(0.3);
        let cells = |share: f64| {
            (0..CELLS)
                .map(|place| {
                    share * (-((cell(place) - BEGINS_AT.ln()) / width).powi(2) / 2.0).exp()
                })
                .collect()
        };
        Self {
            weights: ENDS.iter().map(|(_, share)| cells(*share)).collect(),
        }
    }

    /// Coefficients, the end that each is with, and weights.
    fn cells(&self) -> impl Iterator<Item = (f64, usize, f64)> + '_ {
        self.weights.iter().enumerate().flat_map(|(end, weights)| {
            weights
                .iter()
                .enumerate()
                .map(move |(place, weight)| (cell(place).exp(), end, *weight))
        })
    }

    fn spread(&self, asked: &IntoBath, part: impl Fn(f64) -> f64, seconds: f64) -> Spread {
        let pace = warmer(asked.at) * seconds / asked.depth().powi(2);
        let parts: Vec<f64> = (0..CELLS)
            .map(|place| part(cell(place).exp() * pace))
            .collect();
        Spread::new(
            self.weights
                .iter()
                .zip(ENDS)
                .flat_map(|(weights, (off, _))| {
                    let end = asked.end(off);
                    weights
                        .iter()
                        .zip(&parts)
                        .map(move |(weight, part)| (part * end, *weight))
                }),
        )
    }
}

/// Values by how likely they are.
struct Spread {
    values: Vec<(f64, f64)>,
}

impl Spread {
    fn new(values: impl Iterator<Item = (f64, f64)>) -> Self {
        let mut values: Vec<(f64, f64)> = values.filter(|(_, weight)| *weight > 0.0).collect();
        values.sort_by(|a, b| a.0.total_cmp(&b.0));
        Self { values }
    }

    /// Below what they lie so often, between the values on either side.
    fn below(&self, often: f64) -> f64 {
        let all: f64 = self.values.iter().map(|(_, weight)| weight).sum();
        let wanted = often * all;
        let mut so_far = 0.0;
        let mut before: Option<(f64, f64)> = None;
        for (value, weight) in &self.values {
            let here = so_far + weight / 2.0;
            if here >= wanted {
                return match before {
                    Some((at, last)) if value.is_finite() && here > at => {
                        last + (value - last) * (wanted - at) / (here - at)
                    }
                    _ => *value,
                };
            }
            before = Some((here, *value));
            so_far += weight;
        }
        self.values.last().map_or(0.0, |(value, _)| *value)
    }

    fn middle(&self) -> Middle {
        let often = (1.0 - HOLDS) / 2.0;
        middle(self.below(0.5), self.below(often), self.below(1.0 - often))
    }
}

/// What is gained less what of it is salt, each at nineteen places alike in
/// weight.
fn less(gain: &GainExpected, salt: &Spread) -> Middle {
    let places: Vec<f64> = (1..20).map(|place| f64::from(place) / 20.0).collect();
    let salts: Vec<f64> = places.iter().map(|place| salt.below(*place)).collect();
    let gains: Vec<f64> = places.iter().map(|place| gain.below(*place)).collect();
    Spread::new(
        gains
            .iter()
            .flat_map(|gain| salts.iter().map(move |salt| (gain - salt, 1.0))),
    )
    .middle()
}

fn middle(middle: f64, from: f64, to: f64) -> Middle {
    Middle {
        middle: ratio(middle),
        from: ratio(from),
        to: ratio(to),
    }
}

fn ratio(value: f64) -> Ratio {
    Ratio::new(value).unwrap_or(Ratio::ZERO)
}
