//! What Saltmarsh has in its book and what it is made of: a loaf with its trials and doughs,
//! what a brine gave, what beans came to, and what was handed over last night.

use super::today::Day;
use super::{DemoError, PARFAIT, SHRIMP, grams};
use crate::book::{FOLDER, file_of};
use evenhand_kitchen::batch::{What, Yielded};
use evenhand_kitchen::book::StagedFormula;
use evenhand_kitchen::brine::{MeatWater, Thickness};
use evenhand_kitchen::dish::DishName;
use evenhand_kitchen::dough::{Going, MixedDough};
use evenhand_kitchen::units::{InputError, Volume};
use evenhand_kitchen::uptake::{Bath, Cut, IntoBath, OutOfBath, SaltKnown, Shape};
use evenhand_kitchen::{expected, problem};
use evenhand_protocol::{Mass, Temperature};
use jiff::{SignedDuration, Timestamp};
use std::f64::consts::PI;

const LOAF: &str = include_str!("estuary-loaf.toml");

/// Batches of the loaf: on which day from the night on, how much water to 2 kg of flours, its
/// mark, what was said of it; how warm the flour and the water were, and the dough.
const LOAVES: [(i32, f64, u8, &str, [f64; 3]); 7] = [
    (-13, 1_300.0, 4, "tight crumb", [19.0, 26.0, 25.1]),
    (-11, 1_340.0, 5, "still tight", [19.5, 25.0, 24.8]),
    (-9, 1_380.0, 6, "better; a little dry", [20.0, 25.0, 25.3]),
    (-7, 1_420.0, 7, "open, and keeps", [20.5, 24.0, 25.0]),
    (-4, 1_450.0, 8, "as it should be", [21.0, 23.5, 25.2]),
    (
        -2,
        1_470.0,
        8,
        "as it should be; sticky to shape",
        [21.0, 23.0, 24.7],
    ),
    (0, 1_440.0, 8, "as it should be", [20.5, 24.0, 25.1]),
];

/// Mutton steaks in brine: on which day they went in, for how many hours, how far from the
/// middle of all salt went in (its coefficient, 1e-10 m2/s), and what they came to over their
/// raw weight.
const SOAKS: [(i32, i64, f64, f64); 5] = [
    (-12, 14, 2.4, 1.031),
    (-10, 18, 2.1, 1.036),
    (-7, 12, 2.8, 1.029),
    (-4, 16, 2.3, 1.034),
    (-2, 15, 2.6, 1.033),
];
const STEAKS: f64 = 3_000.0;
const THICK: &str = "40";
const SALT: f64 = 420.0;
const WATER: f64 = 6_000.0;

/// Milk of field beans: on which day, milk and pulp in grams, milk in millilitres, its mark.
const MILKS: [(i32, f64, f64, f64, u8); 4] = [
    (-8, 3_060.0, 690.0, 3_000.0, 6),
    (-5, 3_010.0, 735.0, 2_950.0, 6),
    (-3, 3_125.0, 655.0, 3_060.0, 7),
    (-1, 3_090.0, 670.0, 3_030.0, 7),
];

pub(super) fn make(day: &mut Day<'_>) -> Result<(), DemoError> {
    let loaf = StagedFormula::from_toml(LOAF)?;
    write(day, &loaf)?;
    loaves(day, &loaf)?;
    soaks(day)?;
    milks(day)?;
    handed_over(day)
}

/// The formula is a file beside the store.
fn write(day: &Day<'_>, loaf: &StagedFormula) -> Result<(), DemoError> {
    let Some(data) = day.store.path().parent() else {
        return Ok(());
    };
    let failed = |error: std::io::Error| DemoError::Senseless(error.to_string());
    std::fs::create_dir_all(data.join(FOLDER)).map_err(failed)?;
    std::fs::write(file_of(data, loaf.name()), LOAF).map_err(failed)
}

fn celsius(value: f64) -> Result<Temperature, DemoError> {
    Temperature::from_celsius(value)
        .ok_or_else(|| DemoError::Senseless(format!("{value} is no temperature")))
}

fn loaves(day: &mut Day<'_>, loaf: &StagedFormula) -> Result<(), DemoError> {
    for (on, water, mark, note, [flour_at, water_at, dough_at]) in LOAVES {
        let weighed = [
            ("bread flour", 1_700.0),
            ("dark rye", 300.0),
            ("water", water),
            ("salt", 40.0),
        ];
        let before = Some(celsius(26.0)?);
        let going = Going::of(loaf, grams(2_000.0)?, celsius(flour_at)?, before)?;
        let dough = MixedDough::new(going, celsius(water_at)?, Mass::ZERO, celsius(dough_at)?)?;
        let mixed = day.at(on, 9, 20)?;
        day.batch(loaf.name(), mixed, &weighed, |day| {
            Ok(vec![
                (mixed, What::DoughMixed { dough }),
                (day.at(on, 17, 30)?, super::today::tasted(mark, note)?),
            ])
        })?;
    }
    Ok(())
}

/// Steaks that go into the brine.
fn steaks() -> Result<IntoBath, InputError> {
    let grams = |value| {
        super::grams(value).map_err(|_| {
            let (problem, expected) = (problem!("too-large"), expected!("kitchen-mass"));
            InputError::new("mass", &value.to_string(), problem, expected)
        })
    };
    IntoBath::new(
        Cut::new("cut", "mutton steak")?,
        grams(STEAKS)?,
        (Shape::Slab, Thickness::parse("thickness", THICK)?),
        &MeatWater::parse("kind", "74%")?,
        Bath::new(grams(WATER)?, grams(SALT)?, Vec::new())?,
        Temperature::from_millicelsius(4_000),
    )
}

fn soaks(day: &mut Day<'_>) -> Result<(), DemoError> {
    for (on, hours, coefficient, gained) in SOAKS {
        let into = steaks()?;
        // A slab far from even takes up 2/l sqrt(D t / pi) of all that it would.
        let seconds = hours as f64 * 3_600.0;
        let share = 2.0 / 0.02 * (coefficient * 1e-10 * seconds / PI).sqrt();
        let (end, _) = into.ends_at();
        let taken = share * end.fraction() * STEAKS;
        let left = WATER + SALT + STEAKS * (1.0 - gained);
        let strength = 100.0 * (SALT - taken) / left;
        let out = OutOfBath {
            mass: grams((STEAKS * gained).round())?,
            salt: SaltKnown::BathAfter {
                percent_of_solution: (strength * 100.0).round() / 100.0,
                within: 0.1,
                mass: None,
            },
        };
        let at = day.at(on, 18, 0)?;
        soak(
            day,
            at,
            into,
            Some((at + SignedDuration::from_hours(hours), out)),
        )?;
    }
    // Since last night, and still in it.
    let at = day.at(0, 23, 30)?;
    soak(day, at, steaks()?, None)
}

fn soak(
    day: &mut Day<'_>,
    at: Timestamp,
    into: IntoBath,
    out: Option<(Timestamp, OutOfBath)>,
) -> Result<(), DemoError> {
    let title = into.cut.name().to_owned();
    day.batch(&title, at, &[], |_| {
        let into = What::IntoBath {
            into: Box::new(into),
        };
        let out = out.map(|(at, out)| (at, What::OutOfBath { out }));
        Ok(std::iter::once((at, into)).chain(out).collect())
    })
}

fn milks(day: &mut Day<'_>) -> Result<(), DemoError> {
    for (on, milk, pulp, millilitres, mark) in MILKS {
        let weighed = [("field beans", 500.0), ("water", 3_500.0)];
        let at = day.at(on, 10, 40)?;
        let volume = Volume::from_millilitres("volume", millilitres)?;
        let milk = Yielded::new("bean milk", grams(milk)?, Some(volume))?;
        let pulp = Yielded::new("pulp", grams(pulp)?, None)?;
        day.batch("Field bean milk", at, &weighed, |day| {
            let pressed = day.at(on, 11, 30)?;
            Ok(vec![
                (pressed, What::Yielded { out: milk }),
                (pressed, What::Yielded { out: pulp }),
                (
                    day.at(on, 12, 0)?,
                    super::today::tasted(mark, "strained through cloth")?,
                ),
            ])
        })?;
    }
    Ok(())
}

/// What was left after the last order, what was said for the morning, and what went out.
fn handed_over(day: &mut Day<'_>) -> Result<(), DemoError> {
    let night = day.night;
    let closed = day.at(1, 0, 40)?;
    for (dish, left) in [(SHRIMP, 6), (PARFAIT, 4)] {
        let dish = DishName::new("dish", dish)?;
        day.store.note_left_over(night, &dish, left, closed)?;
        let went = [(19, 10, 18), (20, 40, 24), (22, 15, 12)];
        for (hour, minute, portions) in went {
            let at = day.at(0, hour, minute)?;
            day.store.count_out(night, &dish, portions, at)?;
        }
    }
    let told = [
        (closed, "eel comes an hour later than usual"),
        (
            day.at(1, 7, 0)?,
            "the oven's left side runs hot: turn the trays",
        ),
    ];
    day.batch("For the morning", closed, &[], |_| {
        Ok(told
            .map(|(at, text)| {
                let text = text.to_owned();
                (at, What::Noted { text })
            })
            .to_vec())
    })
}
