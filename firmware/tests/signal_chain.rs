//! The signal chain on made-up samples: a 1 kg cell at 2 097 counts a gram and 0.02 g of
//! white noise a sample, 80 samples a second.

use evenhand_firmware::sensor::Counts;
use evenhand_firmware::signal::{Calibration, Chain, Point, Settings, Tare, Weight};
use evenhand_protocol::{Fault, Mass, Refusal, Uptime};
use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::SeedableRng;
use rand_distr::{Distribution, Normal};

const ZERO_COUNTS: i32 = 84_000;
const COUNTS_PER_GRAM: f64 = 2_097.0;

fn calibration() -> Calibration {
    Calibration::from_points(&[
        Point::exact(Mass::ZERO, Counts(ZERO_COUNTS)),
        Point::exact(Mass::from_grams(1_000), Counts(ZERO_COUNTS + 2_097_000)),
    ])
    .unwrap()
}

struct Bench {
    chain: Chain,
    millis_x2: u64,
    rng: ChaCha8Rng,
    noise: Normal<f64>,
}

impl Bench {
    fn new(seed: u64) -> Self {
        Self {
            chain: Chain::new(Settings::BENCH_1KG, Some(calibration())),
            millis_x2: 0,
            rng: ChaCha8Rng::seed_from_u64(seed),
            noise: Normal::new(0.0, 0.02).unwrap(),
        }
    }

    fn sample(&mut self, grams: f64) -> Result<Weight, Fault> {
        self.millis_x2 += 25;
        let noisy = grams + self.noise.sample(&mut self.rng);
        let counts = f64::from(ZERO_COUNTS) + noisy * COUNTS_PER_GRAM;
        self.chain.take(
            Uptime::from_millis(self.millis_x2 / 2),
            Counts(counts.round() as i32),
        )
    }

    fn run(&mut self, grams: f64, samples: usize) -> Weight {
        let mut last = None;
        for _ in 0..samples {
            last = Some(self.sample(grams).unwrap());
        }
        last.unwrap()
    }

    /// Samples until stable, and the weight then.
    fn settle(&mut self, grams: f64) -> (usize, Weight) {
        for n in 1..2_000 {
            let weight = self.sample(grams).unwrap();
            if weight.stable {
                return (n, weight);
            }
        }
        panic!("never stable at {grams} g");
    }
}

fn off(weight: &Weight, grams: f64) -> f64 {
    (weight.gross.grams() - grams).abs()
}

#[test]
fn a_step_is_captured_true_and_soon() {
    for seed in 0..20 {
        let mut bench = Bench::new(seed);
        bench.run(0.0, 100);
        for grams in [180.0, 210.0, 210.4, 30.0, 0.0] {
            assert!(!bench.sample(grams).unwrap().stable || grams == 210.4);
            let (n, weight) = bench.settle(grams);
            assert!(n <= 45, "seed {seed}: {n} samples to {grams} g");
            assert!(off(&weight, grams) < 0.05, "seed {seed}: {weight:?}");
        }
    }
}

#[test]
fn single_spikes_change_nothing() {
    let mut bench = Bench::new(1);
    bench.run(250.0, 200);
    for spike in [3.0, -40.0, 700.0, -180.0] {
        bench.sample(250.0 + spike).unwrap();
        let weight = bench.sample(250.0).unwrap();
        assert!(off(&weight, 250.0) < 0.03, "{weight:?}");
        bench.run(250.0, 50);
    }
}

#[test]
fn what_is_on_the_pan_at_start_is_zeroed_only_within_two_per_cent() {
    let mut bench = Bench::new(2);
    bench.run(15.0, 100);
    assert!(off(&bench.run(15.0, 1), 0.0) < 0.05);
    // A dish on the pan when power comes back stays a dish.
    let mut bench = Bench::new(3);
    bench.run(60.0, 100);
    assert!(off(&bench.run(60.0, 1), 60.0) < 0.05);
    assert!(off(&bench.run(0.0, 100), 0.0) < 0.05);
}

#[test]
fn zero_is_set_at_rest_and_near_zero_only() {
    let mut bench = Bench::new(4);
    bench.run(0.0, 100);
    bench.run(15.0, 100);
    assert_eq!(bench.chain.zero(), Ok(()));
    assert!(off(&bench.run(15.0, 50), 0.0) < 0.05);
    bench.run(40.0, 100);
    assert_eq!(bench.chain.zero(), Err(Refusal::BeyondZeroRange));
    bench.sample(0.0).unwrap();
    bench.sample(5.0).unwrap();
    bench.sample(9.0).unwrap();
    assert_eq!(bench.chain.zero(), Err(Refusal::NotStable));
}

#[test]
fn a_pan_zeroed_with_a_cup_on_it_at_start_can_be_zeroed_without() {
    let mut bench = Bench::new(5);
    bench.run(18.0, 100);
    for _ in 0..100 {
        let _ = bench.sample(-10.0);
    }
    assert_eq!(bench.sample(-10.0), Err(Fault::NegativeLoad));
    assert_eq!(bench.chain.zero(), Ok(()));
    assert!(off(&bench.run(-10.0, 2), 0.0) < 0.05);
}

#[test]
fn the_zero_follows_a_warming_cell_but_not_food() {
    let mut bench = Bench::new(6);
    bench.run(0.0, 100);
    // 0.5 g in half an hour.
    let samples = 30 * 60 * 80;
    for i in 0..samples {
        bench
            .sample(0.5 * f64::from(i) / f64::from(samples))
            .unwrap();
    }
    assert!(off(&bench.run(0.5, 1), 0.0) < 0.05);

    // 2 g dribbled in at 0.05 g a second, which is 0.5 d a second.
    let mut bench = Bench::new(7);
    bench.run(0.0, 800);
    for i in 0..3_200 {
        bench.sample(2.0 * f64::from(i) / 3_200.0).unwrap();
    }
    let weight = bench.run(2.0, 100);
    assert!(off(&weight, 2.0) < 0.08, "{weight:?}");
}

#[test]
fn a_held_zero_does_not_move() {
    let mut bench = Bench::new(8);
    bench.run(0.0, 100);
    bench.chain.hold_zero(true);
    for i in 0..80_000 {
        bench.sample(0.4 * f64::from(i) / 80_000.0).unwrap();
    }
    let held = bench.run(0.4, 1);
    assert!(off(&held, 0.4) < 0.03, "{held:?}");
}

#[test]
fn faults_are_told_and_go() {
    let mut bench = Bench::new(9);
    bench.run(0.0, 100);
    bench.run(1_008.0, 100);
    for _ in 0..10 {
        let _ = bench.sample(1_010.0);
    }
    assert_eq!(bench.sample(1_010.0), Err(Fault::Overload));
    for _ in 0..4 {
        let _ = bench.sample(900.0);
    }
    let (_, weight) = bench.settle(900.0);
    assert!(off(&weight, 900.0) < 0.05);

    let mut uncalibrated = Chain::new(Settings::BENCH_1KG, None);
    assert_eq!(
        uncalibrated.take(Uptime::from_millis(5), Counts(1)),
        Err(Fault::Uncalibrated)
    );
    assert_eq!(uncalibrated.zero(), Err(Refusal::Faulty));
}

#[test]
fn a_calibration_comes_from_the_chain_s_own_settled_counts() {
    let mut bench = Bench::new(10);
    bench.chain = Chain::new(Settings::BENCH_1KG, None);
    let mut settled = |grams: f64| {
        for _ in 0..200 {
            let _ = bench.sample(grams);
        }
        bench.chain.settled_counts().expect("still for 2.5 s")
    };
    let points = [0.0, 500.0].map(|grams| {
        let counts = settled(grams);
        Point {
            load: Mass::from_fractional_grams(grams).unwrap(),
            counts: counts.mean,
            counts_uncertainty: counts.uncertainty,
            load_uncertainty: Mass::ZERO,
        }
    });
    let calibration = Calibration::from_points(&points).unwrap();
    assert!((calibration.counts_per_gram() / COUNTS_PER_GRAM - 1.0).abs() < 2e-5);
}

#[test]
fn a_tare_needs_rest_and_a_load_above_zero() {
    let mut bench = Bench::new(11);
    bench.run(0.0, 100);
    let mut tare = Tare::NONE;
    let moving = Weight {
        stable: false,
        ..bench.run(120.0, 1)
    };
    assert_eq!(tare.set(&moving), Err(Refusal::NotStable));
    let (_, dish) = bench.settle(120.0);
    assert_eq!(tare.set(&dish), Ok(()));
    assert_eq!(tare.net(dish.gross), Mass::ZERO);
    let (_, below) = bench.settle(-5.0);
    assert_eq!(tare.set(&below), Err(Refusal::NegativeTare));
    assert_eq!(tare.mass(), dish.gross);
}

/// The emulated board has 16 KiB of RAM to spend on everything.
#[test]
fn the_chain_is_small() {
    let bytes = size_of::<Chain>();
    assert!(bytes <= 3 * 1_024, "{bytes}");
}

/// A dish on the pan at the start, on a scale whose zero has moved since it was calibrated: the
/// zero is set when the pan is first empty, and not while a portion holds it.
#[test]
fn a_zero_that_could_not_be_set_at_start_is_set_when_the_pan_is_first_empty() {
    let mut bench = Bench::new(12);
    bench.run(112.6, 100);
    assert!(off(&bench.run(112.6, 1), 112.6) < 0.05);
    bench.chain.hold_zero(true);
    assert!(off(&bench.run(0.6, 100), 0.6) < 0.05);
    assert_eq!(bench.chain.zero_offset(), Mass::ZERO);
    bench.chain.hold_zero(false);
    assert!(off(&bench.run(0.6, 100), 0.0) < 0.05);
    assert!((bench.chain.zero_offset().grams() - 0.6).abs() < 0.05);
    // Once: what is put on later is not zeroed away.
    assert!(off(&bench.run(5.6, 400), 5.0) < 0.05);
}

/// Converters of other speeds: the load is stable after the same time, as true.
#[test]
fn slow_and_fast_converters_settle_in_the_same_time() {
    for (rate, noise) in [(10, 0.011), (20, 0.014), (80, 0.02), (320, 0.04)] {
        let settings = Settings {
            rate,
            ..Settings::BENCH_1KG
        }
        .checked()
        .unwrap();
        let mut rng = ChaCha8Rng::seed_from_u64(u64::from(rate));
        let normal = Normal::new(0.0, noise).unwrap();
        let mut chain = Chain::new(settings, Some(calibration()));
        let mut n = 0_u64;
        let mut sample = |grams: f64| {
            n += 1;
            let noisy = grams + normal.sample(&mut rng);
            let counts = f64::from(ZERO_COUNTS) + noisy * COUNTS_PER_GRAM;
            let at = Uptime::from_millis(n * 1_000 / u64::from(rate));
            chain.take(at, Counts(counts.round() as i32)).unwrap()
        };
        for _ in 0..5 * rate {
            sample(0.0);
        }
        for grams in [150.0, 180.3, 30.0, 31.0] {
            let first = sample(grams).at;
            let settled = (0..2 * rate)
                .map(|_| sample(grams))
                .find(|weight| weight.stable && off(weight, grams) < 0.4)
                .expect("stable within two seconds");
            let took = settled.at.since(first);
            assert!(
                (250..=700).contains(&took),
                "{rate}: {took} ms to {grams} g"
            );
            assert!(
                off(&settled, grams) < 0.04,
                "{rate}: {settled:?} at {grams} g"
            );
        }
    }
}

#[test]
fn settings_out_of_range_are_named() {
    use evenhand_firmware::signal::SettingsError;
    let good = Settings::BENCH_1KG;
    assert_eq!(good.checked(), Ok(good));
    for (bad, error) in [
        (
            Settings {
                capacity: Mass::ZERO,
                ..good
            },
            SettingsError::Capacity,
        ),
        (
            Settings {
                interval: Mass::from_grams(-1),
                ..good
            },
            SettingsError::Interval,
        ),
        (
            Settings {
                verification_interval: Mass::from_grams(2),
                ..good
            },
            SettingsError::VerificationInterval,
        ),
        (Settings { rate: 0, ..good }, SettingsError::Rate),
        (Settings { rate: 321, ..good }, SettingsError::Rate),
        (
            Settings {
                settle_millis: 700,
                ..good
            },
            SettingsError::Settle,
        ),
        (
            Settings {
                steadiness: Mass::ZERO,
                ..good
            },
            SettingsError::Steadiness,
        ),
    ] {
        assert_eq!(bad.checked(), Err(error));
    }
}

/// Values that no driver should hand on, and settings that nobody checked, are survived.
#[test]
fn nothing_panics() {
    let wild = Settings {
        capacity: Mass::from_micrograms(i64::MAX),
        interval: Mass::from_micrograms(i64::MAX),
        verification_interval: Mass::from_micrograms(i64::MIN),
        rate: u16::MAX,
        settle_millis: u16::MAX,
        settle_after_motion_millis: 0,
        steadiness: Mass::from_micrograms(i64::MIN),
        ..Settings::BENCH_1KG
    };
    for settings in [Settings::BENCH_1KG, Settings { rate: 0, ..wild }, wild] {
        for calibration in [None, Some(calibration())] {
            let mut chain = Chain::new(settings, calibration);
            let mut state = 7_u32;
            for i in 0..20_000_u64 {
                state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
                let counts = match i / 500 % 4 {
                    0 => i32::MAX - (state & 1) as i32,
                    1 => i32::MIN + (state >> 30) as i32,
                    2 => state as i32,
                    _ => 0,
                };
                // The clock stands, steps, jumps ahead and back.
                let at = Uptime::from_millis(match i % 1_000 {
                    0 => u64::MAX,
                    1 => 0,
                    _ => i * 12,
                });
                let _ = chain.take(at, Counts(counts));
                if i % 97 == 0 {
                    let _ = chain.zero();
                }
            }
        }
    }
}
