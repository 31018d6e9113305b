//! Checking a probe against ice and boiling water: the boiling point against
//! steam tables (CoolProp, IAPWS-95) and the ICAO standard atmosphere
//! (ambiance) in `data/boiling_points.csv`, and the verdicts.

use evenhand_firmware::probe_check::{
    AirPressure, Bath, Difference, Height, Outcome, ProbeCheck, Progress, Verdict,
};
use evenhand_firmware::sensor::ProbeSample;
use evenhand_protocol::{Temperature, Uptime};
use proptest::prelude::*;

fn celsius(celsius: f64) -> Temperature {
    Temperature::from_celsius(celsius).unwrap()
}

#[test]
fn the_boiling_point_is_that_of_the_steam_table_at_every_height() {
    let rows: Vec<(i32, f64, f64)> = csv::ReaderBuilder::new()
        .comment(Some(b'#'))
        .from_reader(include_str!("data/boiling_points.csv").as_bytes())
        .deserialize()
        .map(Result::unwrap)
        .collect();
    assert_eq!(rows.len(), 28);
    for (metres, pascals, boils) in rows {
        let pressure = AirPressure::standard_at(Height::from_metres(metres).unwrap());
        assert!(
            (f64::from(pressure.pascals()) - pascals).abs() <= 1.5,
            "{metres} m: {} Pa, table {pascals}",
            pressure.pascals()
        );
        let found = pressure.boiling_point().celsius();
        assert!(
            (found - boils).abs() <= 0.01,
            "{metres} m: {found} degC, table {boils}"
        );
        let read = AirPressure::from_hectopascals(pascals / 100.0).unwrap();
        assert!((read.boiling_point().celsius() - boils).abs() <= 0.01);
    }
}

// ISO 2533, table of the standard atmosphere, hPa at 1 000, 2 000 and 3 000 m
// (from memory: 898.75, 794.95, 701.09).
#[test]
fn standard_pressures() {
    for (metres, pascals) in [
        (0, 101_325),
        (1_000, 89_875),
        (2_000, 79_495),
        (3_000, 70_109),
    ] {
        let pressure = AirPressure::standard_at(Height::from_metres(metres).unwrap());
        assert!(pressure.pascals().abs_diff(pascals) <= 1, "{metres} m");
    }
}

#[test]
fn a_pressure_reduced_to_sea_level_is_brought_back_to_the_place() {
    let height = Height::from_metres(1_000).unwrap();
    let reported = AirPressure::reduced_to_sea_level(1_013.25, height).unwrap();
    assert_eq!(
        reported.pascals(),
        AirPressure::standard_at(height).pascals()
    );
    // But better known than from the height alone.
    assert!(
        reported.uncertainty_pascals() < AirPressure::standard_at(height).uncertainty_pascals()
    );
}

#[test]
fn pressures_and_heights_that_do_not_exist_are_refused() {
    for hectopascals in [
        f64::NAN,
        f64::INFINITY,
        -1.0,
        0.0,
        29.92,
        760.0e3,
        499.9,
        1_100.1,
    ] {
        assert_eq!(AirPressure::from_hectopascals(hectopascals), None);
    }
    for hectopascals in [f64::NAN, 0.0, 899.0, 1_101.0] {
        let height = Height::SEA_LEVEL;
        assert_eq!(
            AirPressure::reduced_to_sea_level(hectopascals, height),
            None
        );
    }
    for metres in [i32::MIN, -401, 5_001, i32::MAX] {
        assert_eq!(Height::from_metres(metres), None);
    }
}

/// Samples eight a second, as `reading` gives them against the time in seconds.
fn check(bath: Bath, reading: impl Fn(f64) -> f64) -> Option<(f64, Verdict)> {
    let mut check = ProbeCheck::new(bath, Difference::ONE_DEGREE);
    (0_u32..960).find_map(|n| {
        let seconds = f64::from(n) / 8.0;
        let sample = ProbeSample {
            hot: celsius((reading(seconds) * 4.0).round() / 4.0),
            cold: celsius(24.0),
        };
        match check.add(Uptime::from_millis(u64::from(n) * 125), sample) {
            Progress::Done(verdict) => Some((seconds, verdict)),
            Progress::Settling => None,
        }
    })
}

fn boiling_at(hectopascals: f64) -> Bath {
    Bath::BoilingWater(AirPressure::from_hectopascals(hectopascals).unwrap())
}

#[test]
fn a_good_probe_is_within_the_limit_in_both_baths() {
    for bath in [Bath::Ice, boiling_at(1_013.25), boiling_at(750.0)] {
        let truth = bath.temperature().celsius();
        let (_, verdict) = check(bath, |_| truth + 0.2).unwrap();
        assert_eq!(verdict.outcome, Outcome::Within, "{verdict:?}");
        assert_eq!(verdict.expected, bath.temperature());
        assert!((verdict.error.degrees() - 0.2).abs() <= 0.126);
        assert!(!verdict.looks_shorted);
    }
}

#[test]
fn a_probe_that_is_out_is_told_by_how_much() {
    for off in [-3.0, -1.75, 1.75, 3.0] {
        let (_, verdict) = check(Bath::Ice, |_| off).unwrap();
        assert_eq!(verdict.outcome, Outcome::Outside, "{off}");
        assert_eq!(
            verdict.error,
            Difference::from_millidegrees((off * 1e3) as i32)
        );
    }
}

#[test]
fn what_the_uncertainty_does_not_let_be_said_is_not_said() {
    let (_, verdict) = check(Bath::Ice, |_| 1.0).unwrap();
    assert_eq!(verdict.outcome, Outcome::CannotBeSaid);
    // By the height alone the boiling point is known to about 0.6 degC: an
    // error of three quarters of a degree may be the weather's.
    let by_height = Bath::BoilingWater(AirPressure::standard_at(Height::SEA_LEVEL));
    let (_, verdict) = check(by_height, |_| 100.75).unwrap();
    assert_eq!(verdict.outcome, Outcome::CannotBeSaid);
    assert!((0.5..0.8).contains(&verdict.uncertainty.degrees()));
    // The same with a barometer, and nothing to read into it.
    let (_, verdict) = check(boiling_at(1_013.25), |_| 100.5).unwrap();
    assert_eq!(verdict.outcome, Outcome::Within);
    assert!(verdict.uncertainty.degrees() < 0.4);
}

#[test]
fn it_waits_until_the_probe_rests() {
    // From a warm room into ice with a time constant of 3 s.
    let (seconds, verdict) = check(Bath::Ice, |t| 24.0 * (-t / 3.0).exp()).unwrap();
    assert!(seconds > 20.0, "{seconds}");
    assert_eq!(verdict.error, Difference::from_millidegrees(0));
    // Taken out, or stirred about: never.
    assert_eq!(check(Bath::Ice, |t| (t * 0.7).sin()), None);
    assert_eq!(check(Bath::Ice, |t| t * 0.06), None);
}

#[test]
fn a_slow_converter_is_waited_for() {
    // One sample in 1.9 s: after 15 s there are only three to average.
    let mut check = ProbeCheck::new(Bath::Ice, Difference::ONE_DEGREE);
    let sample = ProbeSample {
        hot: celsius(0.0),
        cold: celsius(24.0),
    };
    let done = (0..100).find(|n| {
        let at = Uptime::from_millis(n * 1_900);
        matches!(check.add(at, sample), Progress::Done(_))
    });
    // The seventh sample is the first at 10 s or later, and ten are needed.
    assert_eq!(done, Some(6 + 9));
}

#[test]
fn a_fault_or_a_gap_begins_the_rest_anew() {
    let mut check = ProbeCheck::new(Bath::Ice, Difference::ONE_DEGREE);
    let sample = ProbeSample {
        hot: celsius(0.0),
        cold: celsius(24.0),
    };
    for n in 0..100 {
        assert_eq!(
            check.add(Uptime::from_millis(n * 125), sample),
            Progress::Settling
        );
    }
    check.interrupted();
    for n in 100..200 {
        assert_eq!(
            check.add(Uptime::from_millis(n * 125), sample),
            Progress::Settling
        );
    }
    // Nothing for three seconds.
    for n in 224..344 {
        assert_eq!(
            check.add(Uptime::from_millis(n * 125), sample),
            Progress::Settling
        );
    }
    let done = check.add(Uptime::from_millis(344 * 125), sample);
    assert!(matches!(done, Progress::Done(_)));
}

#[test]
fn a_probe_that_reads_the_instruments_temperature_looks_shorted() {
    for bath in [Bath::Ice, boiling_at(1_013.25)] {
        let (_, verdict) = check(bath, |_| 24.25).unwrap();
        assert_eq!(verdict.outcome, Outcome::Outside);
        assert!(verdict.looks_shorted);
        let (_, verdict) = check(bath, |_| 40.0).unwrap();
        assert!(!verdict.looks_shorted);
    }
}

proptest! {
    #[test]
    fn any_sample_is_survived(
        samples in proptest::collection::vec(
            (0_u64..2_500, prop_oneof![Just(i32::MIN), Just(i32::MAX), -600..600], any::<i32>()),
            0..100,
        ),
        start: u64,
        limit: i32,
    ) {
        let mut check = ProbeCheck::new(Bath::Ice, Difference::from_millidegrees(limit));
        let mut at = start;
        for (step, hot, cold) in samples {
            at = at.wrapping_add(step);
            let _ = check.add(Uptime::from_millis(at), ProbeSample {
                hot: Temperature::from_millicelsius(hot),
                cold: Temperature::from_millicelsius(cold),
            });
        }
    }
}
