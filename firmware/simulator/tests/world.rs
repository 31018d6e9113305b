//! The physical model: chance from the seed alone, noise as large as stated,
//! loads as true as the truth says.

use evenhand_protocol::{Mass, Mode};
use evenhand_simulator::scenario::{SHIPPED, Scenario};
use evenhand_simulator::world::{Cue, Moment, World};
use proptest::prelude::*;

const WATCHED: Cue = Cue {
    running: true,
    steady: true,
};

/// A scenario with nothing in the way of the plain noise.
fn quiet(extra: &str) -> Scenario {
    Scenario::from_toml(&format!(
        r#"
        title = "Quiet"
        mode = "adding"
        dish = "Nothing"
        [goal]
        target_grams = 30
        tolerance_grams = 1
        [portions]
        masses_grams = [30]
        [dishes]
        grams = 100
        [cook]
        start_after_seconds = 3600
        [cell]
        nonlinearity_percent = 0
        hysteresis_percent = 0
        creep_percent = 0
        zero_drift_percent = 0
        wander_grams = 0
        {extra}
        "#
    ))
    .unwrap()
}

fn moments(world: &mut World, count: usize) -> Vec<Moment> {
    (0..count).map(|_| world.next(WATCHED)).collect()
}

/// Mean and standard deviation.
fn spread(values: impl Iterator<Item = f64> + Clone) -> (f64, f64) {
    let n = values.clone().count() as f64;
    let mean = values.clone().sum::<f64>() / n;
    let squares: f64 = values.map(|value| (value - mean).powi(2)).sum();
    (mean, (squares / (n - 1.0)).sqrt())
}

#[test]
fn the_same_seed_gives_the_same_world_and_another_seed_another() {
    let scenario = Scenario::shipped("rough-night").unwrap();
    let run = |seed| moments(&mut World::new(&scenario, seed), 8_000);
    let first = run(3);
    assert_eq!(first, run(3));
    assert_ne!(first, run(4));
}

#[test]
fn what_the_instrument_shows_changes_when_portions_are_made_and_not_what_they_weigh() {
    for name in ["rough-night", "rough-night-taking"] {
        let scenario = Scenario::shipped(name).unwrap();
        let run = |every: usize| {
            let mut world = World::new(&scenario, 8);
            let mut n = 0_usize;
            while !world.is_over() {
                n += 1;
                world.next(Cue {
                    running: true,
                    steady: n % every > every / 4,
                });
            }
            world.truth().to_vec()
        };
        let (eager, hesitant) = (run(1_000), run(300));
        assert_eq!(eager.len(), scenario.portion_count());
        assert!(
            eager
                .iter()
                .zip(&hesitant)
                .all(|(a, b)| (a.number, a.mass, a.dish) == (b.number, b.mass, b.dish))
        );
        assert!(
            eager
                .iter()
                .zip(&hesitant)
                .any(|(a, b)| a.at_micros != b.at_micros)
        );
    }
}

// 90 nV rms at 80 conversions a second and 50 nV at 10, gain 128: HX711 data
// sheet. With 1 mV/V at 1 kg and 5 V that is 5 uV a gram.
#[test]
fn noise_is_as_large_as_stated() {
    for (rate, nanovolts) in [(80, 90.0), (10, 50.0)] {
        let scenario = quiet(&format!(
            "capacity_grams = 1000\nmillivolts_per_volt = 1\n[converter]\nsamples_a_second = {rate}\n[surroundings]\nhum_grams = 0"
        ));
        let mut world = World::new(&scenario, 5);
        let calibration = world.first_calibration();
        let counts_a_gram =
            f64::from(calibration.span_counts - calibration.zero_counts) / calibration.mass.grams();
        let grams = nanovolts / 5_000.0;
        assert!((world.noise().grams() / grams - 1.0).abs() < 0.001);
        let n = 20_000;
        let (mean, sd) = spread(
            moments(&mut world, n)
                .iter()
                .map(|moment| f64::from(moment.counts))
                .collect::<Vec<_>>()
                .into_iter(),
        );
        // A sample standard deviation of n values is uncertain by 1/sqrt(2 n): 0.5 %.
        assert!((sd / counts_a_gram / grams - 1.0).abs() < 0.02, "{sd}");
        assert!(
            (mean - f64::from(calibration.zero_counts)).abs() < 4.0 * sd / (n as f64).sqrt() + 0.5
        );
    }
}

#[test]
fn hum_comes_through_where_it_aliases_and_as_weak_as_the_averaging_leaves_it() {
    // 50 Hz at 80 conversions a second: four running means of a conversion
    // each leave (sin(pi 50/80) / (8 sin(pi 50/640)))^4 of it, at 30 Hz.
    let scenario = quiet(
        "capacity_grams = 1000\nmillivolts_per_volt = 1\n[converter]\nnoise_nanovolts = 0\nrate_error_percent = 0\n[surroundings]\nhum_grams = 10\nmains_hertz = 50",
    );
    let mut world = World::new(&scenario, 6);
    let counts: Vec<f64> = moments(&mut world, 1_600)
        .iter()
        .skip(80)
        .map(|m| f64::from(m.counts))
        .collect();
    let calibration = world.first_calibration();
    let counts_a_gram =
        f64::from(calibration.span_counts - calibration.zero_counts) / calibration.mass.grams();
    let x = std::f64::consts::PI * 50.0 / 640.0;
    let amplitude = 10.0 * ((8.0 * x).sin() / (8.0 * x.sin())).powi(4);
    let at = |hertz: f64| {
        let (mut re, mut im) = (0.0, 0.0);
        let (mean, _) = spread(counts.iter().copied());
        for (n, value) in counts.iter().enumerate() {
            let angle = std::f64::consts::TAU * hertz * n as f64 / 80.0;
            re += (value - mean) * angle.cos();
            im += (value - mean) * angle.sin();
        }
        2.0 * re.hypot(im) / counts.len() as f64 / counts_a_gram
    };
    assert!(
        (at(30.0) / amplitude - 1.0).abs() < 0.02,
        "{} {amplitude}",
        at(30.0)
    );
    assert!(at(20.0) < amplitude / 50.0);
}

#[test]
fn a_calibrated_load_reads_true() {
    let text = r#"
        title = "One dish"
        mode = "adding"
        dish = "Lead"
        [goal]
        target_grams = 500
        tolerance_grams = 1
        [portions]
        masses_grams = [500]
        [dishes]
        grams = 100
        [cook]
        start_after_seconds = 1
        patience_seconds = 600
        [cell]
        nonlinearity_percent = 0
        hysteresis_percent = 0
        creep_percent = 0
        zero_drift_percent = 0
        span_drift_percent = 0
        off_centre_percent = 0
        wander_grams = 0
        [surroundings]
        hum_grams = 0
    "#;
    let scenario = Scenario::from_toml(text).unwrap();
    let mut world = World::new(&scenario, 9);
    let mut last = Vec::new();
    // Never steady: the cook stands still with a full dish for a minute.
    for _ in 0..(65 * 80) {
        last.push(
            world
                .next(Cue {
                    running: true,
                    steady: false,
                })
                .counts,
        );
    }
    assert_eq!(world.load(), Mass::from_grams(100));
    let calibration = world.first_calibration();
    let counts_a_gram =
        f64::from(calibration.span_counts - calibration.zero_counts) / calibration.mass.grams();
    let (mean, _) = spread(
        last[last.len() - 800..]
            .iter()
            .map(|counts| f64::from(*counts)),
    );
    let grams = (mean - f64::from(calibration.zero_counts)) / counts_a_gram;
    assert!((grams - 100.0).abs() < 0.01, "{grams}");
}

#[test]
fn portions_are_drawn_with_the_mean_and_spread_asked_for() {
    let text = |seed: u64| {
        let scenario = Scenario::from_toml(
            r#"
            title = "Many"
            mode = "adding"
            dish = "Shrimp"
            [goal]
            target_grams = 30
            tolerance_grams = 1
            [portions]
            count = 400
            mean_grams = 30.5
            spread_grams = 0.8
            [dishes]
            grams = 100
            [cook]
            seconds_a_portion = 1
            reaction_seconds = 0
            "#,
        )
        .unwrap();
        let mut world = World::new(&scenario, seed);
        while !world.is_over() {
            world.next(WATCHED);
        }
        world.truth().to_vec()
    };
    let portions: Vec<_> = [1, 2, 3].into_iter().flat_map(text).collect();
    assert_eq!(portions.len(), 1_200);
    let (mean, sd) = spread(
        portions
            .iter()
            .map(|portion| portion.mass.grams())
            .collect::<Vec<_>>()
            .into_iter(),
    );
    // Four standard errors of the mean, and of the standard deviation.
    assert!((mean - 30.5).abs() < 4.0 * 0.8 / 1_200_f64.sqrt(), "{mean}");
    assert!(
        (sd - 0.8).abs() < 4.0 * 0.8 / 2_400_f64.sqrt() + 0.01,
        "{sd}"
    );
}

#[test]
fn masses_on_the_pan_are_conserved() {
    for (name, _) in SHIPPED {
        let scenario = Scenario::shipped(name).unwrap();
        let mut world = World::new(&scenario, scenario.seed());
        let mut highest = Mass::ZERO;
        let mut tin_first = None;
        while !world.is_over() {
            world.next(WATCHED);
            highest = highest.max(world.load());
            if tin_first.is_none() && world.load() > Mass::ZERO {
                tin_first = Some(world.load());
            }
        }
        let truth = world.truth();
        assert_eq!(truth.len(), scenario.portion_count(), "{name}");
        assert!(
            truth
                .iter()
                .map(|portion| portion.number)
                .eq(1..=truth.len() as u32)
        );
        match scenario.mode() {
            Mode::Adding => assert_eq!(world.load(), Mass::ZERO, "{name}: every dish is off again"),
            Mode::Taking => {
                let taken: Mass = truth.iter().map(|portion| portion.mass).sum();
                assert!(highest <= scenario.capacity());
                if name.contains("saltmarsh-shrimp") {
                    // One tin lasts.
                    assert_eq!(world.load() + taken, tin_first.unwrap(), "{name}");
                }
            }
        }
    }
}

#[test]
fn the_probe_follows_what_it_stands_in_with_its_lag() {
    let scenario = quiet(
        "[surroundings]\ncelsius = 20\nwarming_celsius_an_hour = 0\n[probe]\nlag_seconds = 10\n[[probe.medium]]\nat_seconds = 0\ncelsius = 90",
    );
    let mut world = World::new(&scenario, 1);
    let at = |world: &mut World, seconds: u64| {
        while world.next(WATCHED).at_micros < seconds * 1_000_000 {}
        world.probe_tip().celsius()
    };
    // One time constant takes a first-order lag 1 - 1/e of the way.
    let one = at(&mut world, 10);
    let expected = 90.0 - 70.0 / std::f64::consts::E;
    assert!((one - expected).abs() < 0.3, "{one} {expected}");
    assert!((at(&mut world, 90) - 90.0).abs() < 0.1);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(16))]

    /// Counts stay within the converter's 24 bits whatever leans on it.
    #[test]
    fn counts_stay_in_range(seed: u64, grams in 0.0..20_000.0_f64) {
        let scenario = quiet(&format!(
            "[[event]]\nkind = \"lean\"\nat_seconds = 0.1\nfor_seconds = 2\ngrams = {grams}"
        ));
        let mut world = World::new(&scenario, seed);
        for moment in moments(&mut world, 200) {
            prop_assert!((-0x80_0000..=0x7F_FFFF).contains(&moment.counts));
        }
    }
}
