//! Tables of earlier weighings: refused as a whole with a reason, or every line
//! is a weighing with a sensible mass and time, or a bad line with its number.
#![no_main]

use evenhand_kitchen::dish::DishName;
use evenhand_kitchen::units::MassUnit;
use evenhand_kitchen::weighings_file::{Columns, Defaults, Line, Weighings};
use evenhand_protocol::{Mass, Mode, Tolerance};
use jiff::Timestamp;
use jiff::tz::TimeZone;
use libfuzzer_sys::fuzz_target;
use std::collections::HashMap;
use std::sync::LazyLock;

static ZONE: LazyLock<TimeZone> =
    LazyLock::new(|| TimeZone::get("Europe/Berlin").expect("in the bundled database"));

fuzz_target!(|bytes: &[u8]| {
    let Some((choice, bytes)) = bytes.split_first() else {
        return;
    };
    // The map is the first line, where it is one.
    let (map, table) = match bytes.iter().position(|byte| *byte == b'\n') {
        Some(end) if choice & 1 == 1 => {
            let (map, table) = bytes.split_at(end);
            (String::from_utf8_lossy(map).into_owned(), &table[1..])
        }
        _ => (
            "time=When,mass=Weight,dish=Dish,cook=Cook,target=Target".to_owned(),
            bytes,
        ),
    };
    let columns = match Columns::parse("--map", &map) {
        Ok(columns) => columns,
        Err(error) => {
            assert_eq!(error.field(), "--map");
            return;
        }
    };
    let defaults = Defaults {
        unit: [
            MassUnit::Gram,
            MassUnit::Kilogram,
            MassUnit::Ounce,
            MassUnit::Pound,
        ][usize::from(choice >> 1 & 3)],
        dish: (choice & 8 != 0).then(|| DishName::new("--dish", "Parfait").expect("a name")),
        target: (choice & 16 != 0).then(|| Mass::from_grams(45)),
        tolerance: Tolerance::symmetric(Mass::from_grams(1)),
        mode: Mode::Adding,
        zone: if choice & 32 == 0 {
            TimeZone::UTC
        } else {
            ZONE.clone()
        },
        now: Timestamp::from_second(1_900_000_000).expect("a time"),
    };
    let none = HashMap::new();
    let lines = match Weighings::open(table, &columns, &defaults, &none) {
        Ok(lines) => lines,
        Err(error) => {
            assert!(!error.to_string().is_empty());
            return;
        }
    };
    for line in lines {
        match line {
            Ok(Line::Weighing(_, weighing)) => {
                assert!(!weighing.mass.is_negative());
                assert!(weighing.time <= defaults.now);
                assert!(!weighing.dish.as_str().is_empty());
            }
            Ok(Line::Bad(bad)) => {
                assert!(bad.line >= 1);
                assert!(!bad.reason.to_string().is_empty());
            }
            Err(error) => assert!(!error.to_string().is_empty()),
        }
    }
});
