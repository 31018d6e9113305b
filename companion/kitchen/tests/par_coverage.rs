//! "Five evenings in six" held against evenings that are made up: portions a
//! cover drawn from several families, few past services and many.

#![allow(clippy::unwrap_used)]

use evenhand_kitchen::prep::{ParQuestion, PastService, Stock, par};
use evenhand_protocol::Mass;
use rand_chacha::ChaCha8Rng;
use rand_core::SeedableRng;
use rand_distr::{Beta, Binomial, Distribution, LogNormal, Normal};

const NIGHTS: u32 = 6_000;
const COVERS: u32 = 1_000;

/// How often what is ready is enough, with `n` past services.
fn suffices(n: usize, seed: u64, mut portions: impl FnMut(&mut ChaCha8Rng) -> u32) -> f64 {
    let mut rng = ChaCha8Rng::seed_from_u64(seed);
    let enough = (0..NIGHTS)
        .filter(|_| {
            let past: Vec<PastService> = (0..n)
                .map(|_| PastService {
                    covers: COVERS,
                    portions: portions(&mut rng),
                })
                .collect();
            let answer = par(&ParQuestion {
                covers: COVERS,
                past: &past,
                target: Mass::from_grams(100),
                yields: None,
                stock: Stock::NONE,
                left: 0,
            });
            answer.unwrap().ready >= portions(&mut rng)
        })
        .count();
    enough as f64 / f64::from(NIGHTS)
}

// Of 6000 nights five sixths are 0.8333, with a standard error of 0.0048: three are 0.0144. The normal
// family must agree within that; the others may differ by as much as is said.
#[test]
fn five_evenings_in_six_hold_with_two_past_services_and_more() {
    for n in [2, 3, 5, 12] {
        let normal = Normal::new(500.0, 60.0).unwrap();
        let seen = suffices(n, 1, |rng| normal.sample(rng) as u32);
        assert!((seen - 5.0 / 6.0).abs() < 0.0144, "normal, {n}: {seen}");
        // Nights that differ by more than chance: a share of its own each night.
        let share = Beta::new(12.0, 18.0).unwrap();
        let seen = suffices(n, 2, |rng| {
            let own = Binomial::new(u64::from(COVERS), share.sample(rng)).unwrap();
            own.sample(rng) as u32
        });
        assert!((0.80..0.87).contains(&seen), "overdispersed, {n}: {seen}");
        // Skewed nights: now and then a great run on the dish.
        let skewed = LogNormal::new(6.0, 0.4).unwrap();
        let seen = suffices(n, 3, |rng| skewed.sample(rng) as u32);
        assert!((0.80..0.88).contains(&seen), "skewed, {n}: {seen}");
    }
}
