//! What is ordered "suffices five times in six", held against made-up kitchens that nothing was
//! tuned on: skewed nights, nights of two kinds, few past nights and few purchases, one service
//! or three until the delivery after the next. The table in `ORDER-COVERAGE.md` is printed by
//! `cargo test -p evenhand-kitchen --test kitchen order_coverage -- --nocapture`.

use evenhand_kitchen::prep::{Asked, DishNeed, Each, PastService};
use evenhand_protocol::Mass;
use rand_chacha::ChaCha8Rng;
use rand_core::SeedableRng;
use rand_distr::{Bernoulli, Beta, Distribution, Gamma, LogNormal, Normal, Uniform};

const ORDERS: u32 = 4_000;
const COVERS: u32 = 1_000;
/// A portion as served, in grams.
const PORTION: i64 = 150;

type Draw = Box<dyn Fn(&mut ChaCha8Rng) -> f64>;

/// Portions of a night, by how nights differ.
fn nights() -> Vec<(&'static str, Draw)> {
    let even = Normal::new(500.0, 80.0).unwrap();
    let skewed = LogNormal::new(6.0, 0.5).unwrap();
    let busy = Gamma::new(3.0, 120.0).unwrap();
    let quiet = Gamma::new(3.0, 70.0).unwrap();
    let (common, feast) = (
        Normal::new(280.0, 35.0).unwrap(),
        Normal::new(650.0, 70.0).unwrap(),
    );
    let often = Bernoulli::new(0.75).unwrap();
    vec![
        ("even", Box::new(move |rng| even.sample(rng))),
        ("skewed", Box::new(move |rng| skewed.sample(rng))),
        ("skewed to busy", Box::new(move |rng| busy.sample(rng))),
        (
            "skewed to quiet",
            Box::new(move |rng| 900.0 - quiet.sample(rng)),
        ),
        (
            "of two kinds",
            Box::new(move |rng| {
                let of = if often.sample(rng) { common } else { feast };
                of.sample(rng)
            }),
        ),
    ]
}

/// The share of a purchase that is there to serve, by what is bought.
fn yields() -> Vec<(&'static str, Draw)> {
    let braise = Beta::new(40.0, 45.0).unwrap();
    let fish = Uniform::new(0.38, 0.52).unwrap();
    vec![
        ("braise", Box::new(move |rng| braise.sample(rng))),
        ("fish", Box::new(move |rng| fish.sample(rng))),
    ]
}

/// How often what suffices by `n` past nights and `n` purchases did, for so many services.
fn suffices(n: usize, services: usize, night: &Draw, yielded: &Draw, seed: u64) -> f64 {
    let mut rng = ChaCha8Rng::seed_from_u64(seed);
    let bought = Mass::from_grams(10_000);
    let enough = (0..ORDERS)
        .filter(|_| {
            let mut portions = || night(&mut rng).clamp(1.0, 9e5) as u32;
            let past = (0..n).map(|_| PastService {
                covers: COVERS,
                portions: portions(),
            });
            let past = past.collect();
            let wanted: u32 = (0..services).map(|_| portions()).sum();
            let mut served = || yielded(&mut rng).clamp(0.05, 1.0);
            let purchases = (0..n)
                .map(|_| Mass::from_fractional_grams(10_000.0 * served()).unwrap())
                .map(|served| (bought, served))
                .collect();
            let takes = f64::from(wanted) * PORTION as f64 / served();
            let need = DishNeed {
                asked: vec![Asked::AsBefore {
                    past,
                    covers: vec![COVERS; services],
                }],
                ready: 0,
                each: Each::Served {
                    portion: Mass::from_grams(PORTION),
                    ready: Mass::ZERO,
                    purchases,
                },
            };
            need.need().unwrap().enough.unwrap().number() >= takes
        })
        .count();
    enough as f64 / f64::from(ORDERS)
}

const PAST: [usize; 7] = [2, 3, 4, 5, 6, 8, 10];

/// Of 4000 orders five sixths are 0.833, with a standard error of 0.006. The measured ends are told
/// in `ORDER-COVERAGE.md`, and held here to three standard errors: with few nights of two kinds, or
/// skewed ones, and several services to come nobody can know of the other kind, which the sheet says
/// beside it.
#[test]
fn what_is_ordered_suffices_five_times_in_six() {
    println!("| nights | bought | services | {PAST:?} past nights and purchases |");
    for (kind, night) in nights() {
        for (food, yielded) in yields() {
            for services in [1, 3] {
                let seen: Vec<f64> = PAST
                    .iter()
                    .map(|n| suffices(*n, services, &night, &yielded, 7_000 + *n as u64))
                    .collect();
                println!("| {kind} | {food} | {services} | {seen:.2?} |");
                for (n, seen) in PAST.iter().zip(&seen) {
                    let least = match (kind, services, n) {
                        ("even" | "skewed to quiet", ..) => 0.815,
                        (_, 1, _) => 0.78,
                        (_, _, 5..) => 0.78,
                        ("of two kinds", ..) => 0.69,
                        _ => 0.74,
                    };
                    assert!(*seen > least, "{kind}, {food}, {services}, {n}: {seen}");
                }
            }
        }
    }
}
