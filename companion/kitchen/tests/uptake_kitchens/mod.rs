//! Made-up kitchens that soak, whose physics is not the program's: cells and
//! small steps, fibre and film, thickness misjudged, coefficients that fall as
//! salt comes in, pieces that are neither slab nor cylinder.

use evenhand_kitchen::brine::{MeatWater, Thickness};
use evenhand_kitchen::uptake::{Bath, Cut, IntoBath, OutOfBath, SaltKnown, Shape, Soak};
use evenhand_protocol::{Mass, Temperature};
use jiff::SignedDuration;
use rand_chacha::ChaCha8Rng;
use rand_distr::{Distribution, Normal, StudentT, Uniform};

/// One kind of kitchen.
pub struct Kitchen {
    pub name: &'static str,
    /// The kitchen's coefficient at 5 °C, e-10 m²/s, and how far cuts and
    /// batches are from it and from one another, as logarithms.
    pub speed: f64,
    pub cuts: f64,
    pub batches: f64,
    /// Whether a batch now and then is far off.
    pub wild: bool,
    /// How fast the coefficient falls with salt: by so much a per cent.
    pub falls: f64,
    /// What a piece is like: 1 a slab, 2 a cylinder; recorded as a slab.
    pub like: f64,
    /// How far thickness is misjudged, as a logarithm.
    pub misjudged: f64,
    /// Resistance at the surface: a Biot number.
    pub film: f64,
    /// How much of the piece's water takes salt.
    pub takes: f64,
    /// How far the bath's strength is misread, percentage points.
    pub misread: f64,
    /// What a piece gains in the end and how far cuts and batches differ.
    pub gain: (f64, f64, f64),
    /// What a bath stronger by one percentage point adds to it.
    pub by_strength: f64,
}

pub struct Piece {
    pub into: IntoBath,
    speed: f64,
    depth: f64,
    gains: f64,
}

fn normal(rng: &mut ChaCha8Rng, deviation: f64) -> f64 {
    deviation * Normal::new(0.0, 1.0).unwrap().sample(rng)
}

fn between(rng: &mut ChaCha8Rng, from: f64, to: f64) -> f64 {
    Uniform::new(from, to).unwrap().sample(rng)
}

/// A cut of a kitchen: its own speed and gain.
#[derive(Clone, Copy)]
pub struct TrueCut {
    number: usize,
    speed: f64,
    gains: f64,
}

impl Kitchen {
    /// A kitchen's cuts.
    pub fn cuts(&self, many: usize, rng: &mut ChaCha8Rng) -> Vec<TrueCut> {
        (0..many)
            .map(|number| TrueCut {
                number,
                speed: self.speed.ln() + normal(rng, self.cuts),
                gains: self.gain.0 + normal(rng, self.gain.1),
            })
            .collect()
    }

    /// A piece to be soaked.
    pub fn piece(&self, cut: TrueCut, rng: &mut ChaCha8Rng) -> Piece {
        let off = if self.wild {
            self.batches * StudentT::new(3.0).unwrap().sample(rng)
        } else {
            normal(rng, self.batches)
        };
        let thick = between(rng, 15.0, 50.0);
        let judged = thick * normal(rng, self.misjudged).exp();
        let mass = between(rng, 400.0, 2500.0);
        let water = mass * between(rng, 1.0, 3.0);
        let strength = between(rng, 0.03, 0.10);
        let grams = |grams: f64| Mass::from_fractional_grams(grams).unwrap();
        let at = between(rng, 2.0, 7.0);
        let into = IntoBath::new(
            Cut::new("cut", &format!("cut {}", cut.number)).unwrap(),
            grams(mass),
            (
                Shape::Slab,
                Thickness::from_millimetres("thickness", judged).unwrap(),
            ),
            &MeatWater::parse("kind", "lean-muscle").unwrap(),
            Bath::new(grams(water), grams(water * strength), vec![]).unwrap(),
            Temperature::from_celsius(at).unwrap(),
        )
        .unwrap();
        let faster = (-2200.0 * (1.0 / (at + 273.15) - 1.0 / 278.15_f64)).exp();
        Piece {
            into,
            speed: (cut.speed + off).exp() * 1e-10 * faster,
            depth: thick / 2000.0,
            gains: cut.gains
                + normal(rng, self.gain.2)
                + self.by_strength * (100.0 * strength / (1.0 + strength) - 6.0),
        }
    }

    /// Salt of a piece after so many seconds, as a share of its raw weight; and
    /// when the core came to `wanted`.
    pub fn soaked(&self, piece: &Piece, seconds: f64, wanted: f64) -> (f64, Option<f64>) {
        const CELLS: usize = 24;
        let raw = piece.into.mass.grams();
        // Lean muscle is 75 ± 2 % water.
        let water = 0.75 * self.takes * raw;
        // Finer towards the surface.
        let places: Vec<f64> = (0..=CELLS)
            .map(|n| 1.0 - (1.0 - n as f64 / CELLS as f64).powi(2))
            .collect();
        let sizes: Vec<f64> = places
            .windows(2)
            .map(|pair| pair[1].powf(self.like) - pair[0].powf(self.like))
            .collect();
        let middle = |n: usize| (places[n] + places[n + 1]) / 2.0;
        let strength = piece.into.bath.strength().fraction();
        let bath_water = raw_of(&piece.into, strength);
        let mut bath = strength / (1.0 - strength);
        let mut cells = [0.0_f64; CELLS];
        let pace = piece.speed / piece.depth.powi(2);
        let (mut fourier, mut step) = (0.0, 2e-5);
        let (mut at_seconds, mut reached) = (None, None);
        while fourier < 3.0 && (at_seconds.is_none() || reached.is_none()) {
            let slower = |salt: f64| (-self.falls * 100.0 * salt).exp();
            // How easily salt goes from each cell outward, at what is in them now.
            let easy: Vec<f64> = (0..CELLS)
                .map(|n| {
                    let face = self.like * places[n + 1].powf(self.like - 1.0);
                    if n + 1 < CELLS {
                        let salt = (cells[n] + cells[n + 1]) / 2.0;
                        face * slower(salt) / (middle(n + 1) - middle(n))
                    } else {
                        let d = slower((cells[n] + bath) / 2.0);
                        face / ((1.0 - middle(n)) / d + 1.0 / self.film)
                    }
                })
                .collect();
            // One backward step: a matrix of three diagonals, from the core outward.
            let (mut above, mut right) = ([0.0; CELLS], [0.0; CELLS]);
            for n in 0..CELLS {
                let inner = if n > 0 {
                    step * easy[n - 1] / sizes[n]
                } else {
                    0.0
                };
                let outer = step * easy[n] / sizes[n];
                let known = cells[n] + if n + 1 == CELLS { outer * bath } else { 0.0 };
                let (before, of) = if n > 0 {
                    (right[n - 1], above[n - 1])
                } else {
                    (0.0, 0.0)
                };
                let pivot = 1.0 + inner + outer - inner * of;
                above[n] = if n + 1 < CELLS { outer / pivot } else { 0.0 };
                right[n] = (known + inner * before) / pivot;
            }
            let inside = |cells: &[f64; CELLS]| -> f64 {
                cells
                    .iter()
                    .zip(&sizes)
                    .map(|(salt, size)| salt * size)
                    .sum()
            };
            let was = inside(&cells);
            cells[CELLS - 1] = right[CELLS - 1];
            for n in (0..CELLS - 1).rev() {
                cells[n] = right[n] + above[n] * cells[n + 1];
            }
            bath -= (inside(&cells) - was) * water / bath_water;
            fourier += step;
            step = (step * 1.06).min(0.005);
            let now = fourier / pace;
            let core = cells[0] * water / raw;
            if reached.is_none() && core >= wanted {
                reached = Some(now);
            }
            if at_seconds.is_none() && now >= seconds {
                at_seconds = Some(inside(&cells) * water / raw);
            }
        }
        (at_seconds.unwrap_or(cells[0] * water / raw), reached)
    }

    /// What the piece gains, of its raw weight.
    pub fn gained(&self, piece: &Piece, seconds: f64) -> f64 {
        // Rises and levels off as a Peleg curve does, the thicker the slower.
        let half = 1800.0 * (piece.depth / 0.01).powi(2);
        piece.gains * seconds / (seconds + half)
    }

    /// As it gets onto the record; `tried` says whether the bath was tried.
    pub fn recorded(
        &self,
        piece: &Piece,
        seconds: f64,
        tried: bool,
        rng: &mut ChaCha8Rng,
    ) -> Option<Soak> {
        let (salt, _) = self.soaked(piece, seconds, 1.0);
        let raw = piece.into.mass.grams();
        let out = raw * (1.0 + self.gained(piece, seconds)) + normal(rng, 1.0);
        let strength = piece.into.bath.strength().fraction();
        let water = raw_of(&piece.into, strength);
        let bath = water / (1.0 - strength);
        let left = bath + raw - out;
        let after = 100.0 * (bath * strength - salt * raw) / left + normal(rng, self.misread);
        let salt = if tried {
            SaltKnown::BathAfter {
                percent_of_solution: after.max(0.0),
                within: 0.1,
                mass: None,
            }
        } else {
            SaltKnown::Nothing
        };
        Soak::new(
            piece.into.clone(),
            OutOfBath {
                mass: Mass::from_fractional_grams(out)?,
                salt,
            },
            SignedDuration::from_secs(seconds as i64),
        )
        .ok()
    }
}

/// A bath's water: what was poured in is not public, so it comes from the way
/// baths are made here.
fn raw_of(into: &IntoBath, strength: f64) -> f64 {
    into.bath.mass().grams() * (1.0 - strength)
}

/// Between half an hour and a night.
pub fn seconds(rng: &mut ChaCha8Rng) -> f64 {
    3600.0 * between(rng, 0.5_f64.ln(), 14.0_f64.ln()).exp()
}
