//! "Five evenings in six" held against evenings that are made up: portions a
//! cover drawn from several families, few past services and many.

use evenhand_kitchen::prep::{ParQuestion, PastService, Stock, par};
use evenhand_protocol::Mass;
use rand_chacha::ChaCha8Rng;
use rand_core::SeedableRng;
use rand_distr::{Bernoulli, Beta, Binomial, Distribution, Gamma, LogNormal, Normal, StudentT};

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

type Draw = Box<dyn Fn(&mut ChaCha8Rng) -> f64>;

/// Portions of a night, by how nights differ: families that nothing was chosen on.
fn families() -> Vec<(&'static str, Draw)> {
    let normal = Normal::new(500.0, 60.0).unwrap();
    let own = Beta::new(12.0, 18.0).unwrap();
    let long = LogNormal::new(6.0, 0.4).unwrap();
    let busy = Gamma::new(4.0, 100.0).unwrap();
    let quiet = Gamma::new(4.0, 60.0).unwrap();
    let tail = StudentT::new(3.0).unwrap();
    let (week, feast) = (
        Normal::new(300.0, 30.0).unwrap(),
        Normal::new(600.0, 60.0).unwrap(),
    );
    let often = Bernoulli::new(0.8).unwrap();
    vec![
        ("even", Box::new(move |rng| normal.sample(rng))),
        (
            "a share of its own each night",
            Box::new(move |rng| {
                let guests = Binomial::new(u64::from(COVERS), own.sample(rng)).unwrap();
                guests.sample(rng) as f64
            }),
        ),
        ("a run now and then", Box::new(move |rng| long.sample(rng))),
        ("skewed to busy", Box::new(move |rng| busy.sample(rng))),
        (
            "skewed to quiet",
            Box::new(move |rng| 900.0 - quiet.sample(rng)),
        ),
        (
            "with a tail",
            Box::new(move |rng| 500.0 + 50.0 * tail.sample(rng)),
        ),
        (
            "of two kinds",
            Box::new(move |rng| {
                let of = if often.sample(rng) { week } else { feast };
                of.sample(rng)
            }),
        ),
    ]
}

const PAST: [usize; 8] = [2, 3, 4, 5, 6, 8, 12, 20];

/// Of 6000 nights five sixths are 0.833, with a standard error of 0.005; the table is kept in
/// `ORDER-COVERAGE.md`. No family falls more than three hundredths short of it, whatever the nights
/// are like and however few are on record; from five on none more than two, which is the most that
/// chance makes of so many figures.
#[test]
fn five_evenings_in_six_hold_from_two_past_services_on() {
    println!("| nights | {PAST:?} past services |");
    for (family, draw) in families() {
        let seen: Vec<f64> = PAST
            .iter()
            .map(|n| suffices(*n, 100 + *n as u64, |rng| draw(rng).clamp(0.0, 9e5) as u32))
            .collect();
        println!("| {family} | {seen:.2?} |");
        for (n, seen) in PAST.iter().zip(&seen) {
            let least = if *n < 5 { 0.80 } else { 0.815 };
            assert!(*seen > least, "{family}, {n}: {seen}");
        }
    }
}
