//! A forecast of something that really cooled.
//!
//! `recorded/mug.csv` is the data set "CoolingWater" of the R package mosaicData, as the collection
//! Rdatasets holds it (read): boiling water poured into a mug, a probe in it, every minute for
//! 221 minutes, recorded by S. Wagon for a course on where Newton's law of cooling fails. The room
//! is not on record.
//!
//! One curve is no measure of coverage, and its askings are not independent. It shows whether
//! the intervals are of the right size on something that no program made.

use evenhand_kitchen::heat::{
    Band, Forecast, Habit, HeatLog, LogPoint, Surroundings, When, forecast,
};
use evenhand_protocol::Temperature;
use jiff::Timestamp;

const START: i64 = 1_800_000_000;

fn celsius(c: f64) -> Temperature {
    Temperature::from_celsius(c).unwrap()
}

fn moment(minutes: usize) -> Timestamp {
    Timestamp::from_second(START + 60 * i64::try_from(minutes).unwrap()).unwrap()
}

fn minutes(at: Timestamp) -> f64 {
    (at.as_second() - START) as f64 / 60.0
}

fn recorded() -> Vec<f64> {
    let mut table = csv::Reader::from_reader(&include_bytes!("recorded/mug.csv")[..]);
    table
        .deserialize::<(usize, f64)>()
        .enumerate()
        .map(|(row, read)| {
            let (minute, degrees) = read.unwrap();
            assert_eq!(minute, row);
            degrees
        })
        .collect()
}

/// When it is foretold to reach what it truly reached at the minute `then`, by what was seen up to
/// the minute `now`.
fn foretold(mug: &[f64], around: Surroundings, now: usize, then: usize) -> Option<When> {
    let mut seen = HeatLog::new("mug");
    for (minute, degrees) in mug.iter().enumerate().take(now + 1) {
        seen.push(LogPoint {
            at: moment(minute),
            temperature: celsius(*degrees),
        })
        .unwrap();
    }
    let level = Band::new(celsius(mug[then]), celsius(mug[then])).unwrap();
    match forecast(&seen, level, around, &Habit::default(), moment(now)) {
        Forecast::Coming { enters, .. } => Some(enters),
        _ => None,
    }
}

#[test]
fn a_recorded_mug_is_foretold_as_often_as_is_said() {
    let mug = recorded();
    assert_eq!(mug.len(), 222);
    for (told, around) in [
        ("nothing", Surroundings::UNKNOWN),
        ("a room", Surroundings::about(celsius(22.0), 3.0).unwrap()),
    ] {
        let (mut asked, mut answered, mut held, mut near) = (0, 0, 0, 0);
        for now in (20..=140).step_by(5) {
            for ahead in [15, 30, 60] {
                let then = now + ahead;
                asked += 1;
                let Some(when) = foretold(&mug, around, now, then) else {
                    continue;
                };
                answered += 1;
                let truth = then as f64;
                // The record is in whole minutes and tenths of a degree: half a step of either.
                let slack = 0.5 + 0.05 / (mug[then - 1] - mug[then + 1]).max(0.1) * 2.0;
                let late = when.late.map_or(f64::INFINITY, minutes);
                held += usize::from(minutes(when.early) - slack <= truth && truth <= late + slack);
                near += usize::from(
                    (minutes(when.likely) - truth).abs() <= 0.25 * ahead as f64 + slack,
                );
            }
        }
        println!("told of {told}: asked {asked}, answered {answered}, held {held}, near {near}");
        // Three of four answered, seven of ten and more held, and the likely time within a quarter of what was left.
        assert!(4 * answered >= 3 * asked, "{told}: {answered} of {asked}");
        assert!(10 * held >= 7 * answered, "{told}: {held} of {answered}");
        assert!(10 * near >= 8 * answered, "{told}: {near} of {answered}");
    }
}
