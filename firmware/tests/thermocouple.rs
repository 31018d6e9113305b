//! Thermocouple voltages and temperatures against the ITS-90 reference
//! functions (NIST Standard Reference Database 60) as an independent
//! implementation gives them: `data/thermocouple_emf.csv`, written by
//! `data/thermocouple_emf.py` with the PyPI package `thermocouples_reference`
//! 0.20.

use evenhand_firmware::thermocouple::{Emf, Kind, OutOfRange};
use evenhand_protocol::Temperature;

struct Row {
    kind: Kind,
    hot: Temperature,
    millivolts: f64,
}

fn table() -> Vec<Row> {
    let rows: Vec<Row> = csv::ReaderBuilder::new()
        .comment(Some(b'#'))
        .from_reader(include_str!("data/thermocouple_emf.csv").as_bytes())
        .deserialize::<(char, f64, f64)>()
        .map(|row| {
            let (letter, celsius, millivolts) = row.unwrap();
            Row {
                kind: kind(letter),
                hot: Temperature::from_celsius(celsius).unwrap(),
                millivolts,
            }
        })
        .collect();
    assert!(rows.len() > 1_000, "the table is there");
    rows
}

fn kind(letter: char) -> Kind {
    Kind::ALL
        .into_iter()
        .find(|kind| kind.letter() == letter)
        .unwrap()
}

fn celsius(celsius: f64) -> Temperature {
    Temperature::from_celsius(celsius).unwrap()
}

#[test]
fn voltages_are_the_reference_functions_to_the_nanovolt() {
    for row in table() {
        let emf = row.kind.emf(row.hot).unwrap();
        // Half a nanovolt of rounding, and a hair for the last digit written.
        assert!(
            (emf.millivolts() - row.millivolts).abs() <= 0.502e-6,
            "type {} at {} degC: {} mV, table {}",
            row.kind.letter(),
            row.hot.celsius(),
            emf.millivolts(),
            row.millivolts
        );
    }
}

#[test]
fn temperatures_are_exact_to_a_millidegree_over_every_range() {
    let mut inverted = 0;
    for row in table() {
        if !row.kind.range().contains(&row.hot) {
            continue;
        }
        let emf = Emf::from_millivolts(row.millivolts).unwrap();
        let hot = row.kind.temperature(emf).unwrap();
        let error = hot.millicelsius() - row.hot.millicelsius();
        assert!(
            error.abs() <= 1,
            "type {} at {} degC is out by {error} mdegC",
            row.kind.letter(),
            row.hot.celsius()
        );
        inverted += 1;
    }
    assert!(inverted > 1_000, "{inverted}");
}

#[test]
fn there_and_back_is_within_a_millidegree_everywhere() {
    for kind in Kind::ALL {
        let mut worst = 0;
        let range = kind.range();
        for millicelsius in (range.start().millicelsius()..=range.end().millicelsius()).step_by(173)
        {
            let hot = Temperature::from_millicelsius(millicelsius);
            let back = kind.temperature(kind.emf(hot).unwrap()).unwrap();
            worst = worst.max((back.millicelsius() - millicelsius).abs());
        }
        assert!(worst <= 1, "type {}: {worst} mdegC", kind.letter());
    }
}

// Read in the documentation of thermocouples_reference 0.20, which compares it
// with the NIST table: 1.694 mV.
#[test]
fn type_k_at_42_degrees() {
    let emf = Kind::K.emf(celsius(42.0)).unwrap();
    assert_eq!(emf, Emf::from_nanovolts(1_693_848));
}

// The worked example in the same documentation: 1.1 mV with the voltmeter at
// 23 degC is 49.907928030075773 degC.
#[test]
fn cold_junction_worked_example() {
    let measured = Emf::from_nanovolts(1_100_000);
    let hot = Kind::K.hot_junction(measured, celsius(23.0)).unwrap();
    assert_eq!(hot.millicelsius(), 49_908);
}

// In the documentation of the PyPI package thermocouple-its90 1.0.2: 4.096 mV
// (100 degC in the NIST table) measured with the terminals at 25 degC is
// 124.3 degC, and not 125 as adding temperatures would have it.
#[test]
fn the_cold_junction_is_added_in_volts() {
    let hot = Kind::K
        .hot_junction(Emf::from_nanovolts(4_096_000), celsius(25.0))
        .unwrap();
    assert!((hot.celsius() - 124.3).abs() < 0.05, "{}", hot.celsius());
}

// The range of the inverse is that of the sum. Were it that of the measured
// voltage, the reading would jump where the hot junction passes the cold one.
#[test]
fn there_is_no_jump_where_hot_passes_cold() {
    for kind in Kind::ALL {
        if kind == Kind::B {
            continue; // not usable at room temperature
        }
        let cold = celsius(23.0);
        for millicelsius in (-5_000..60_000).step_by(50) {
            let hot = Temperature::from_millicelsius(millicelsius);
            let measured = kind.emf(hot).unwrap() - kind.emf(cold).unwrap();
            let read = kind.hot_junction(measured, cold).unwrap();
            let error = read.millicelsius() - millicelsius;
            assert!(error.abs() <= 1, "type {}: {error}", kind.letter());
        }
    }
}

#[test]
fn what_no_thermocouple_can_give_is_refused() {
    for kind in Kind::ALL {
        for millivolts in [-12.0, 80.0, 1e6, -1e6] {
            let emf = Emf::from_millivolts(millivolts).unwrap();
            assert_eq!(kind.temperature(emf), None, "{kind:?} {millivolts}");
        }
        for extreme in [i64::MIN, i64::MAX] {
            let emf = Emf::from_nanovolts(extreme);
            let cold = celsius(20.0);
            assert!(matches!(
                kind.hot_junction(emf, cold),
                Err(OutOfRange::Sum(_))
            ));
        }
        for outside in [
            Temperature::ABSOLUTE_ZERO,
            celsius(1_900.0),
            Temperature::from_millicelsius(i32::MAX),
            Temperature::from_millicelsius(i32::MIN),
        ] {
            assert_eq!(kind.emf(outside), None);
            assert_eq!(
                kind.hot_junction(Emf::ZERO, outside),
                Err(OutOfRange::ColdJunction(outside))
            );
        }
    }
    for number in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, 1e13] {
        assert_eq!(Emf::from_millivolts(number), None);
    }
}

// Type B says the same at 0 and at 42 degC, so below 250 degC it says nothing.
#[test]
fn type_b_is_refused_where_it_has_two_answers() {
    let emf = Kind::B.emf(celsius(30.0)).unwrap();
    assert_eq!(Kind::B.temperature(emf), None);
    assert_eq!(
        Kind::B.hot_junction(Emf::ZERO, celsius(25.0)),
        Err(OutOfRange::Sum(Kind::B.emf(celsius(25.0)).unwrap()))
    );
}

#[test]
fn refusals_say_what_was_out_of_range() {
    assert_eq!(
        OutOfRange::ColdJunction(celsius(1_900.0)).to_string(),
        "the cold junction at 1900 degC is outside the thermocouple's range"
    );
    assert_eq!(
        OutOfRange::Sum(Emf::from_nanovolts(80_000_000)).to_string(),
        "the voltage of 80 mV, cold junction included, is outside the thermocouple's range"
    );
}
