//! Lethality and cooling against a published table and a worked example.

use evenhand_kitchen::heat::*;
use evenhand_protocol::Temperature;
use jiff::{SignedDuration, Timestamp};

fn fahrenheit(degrees: f64) -> Temperature {
    Temperature::from_fahrenheit(degrees).unwrap()
}

fn log(points: impl IntoIterator<Item = (f64, Temperature)>) -> HeatLog {
    let mut log = HeatLog::new("core");
    log.longest_step = SignedDuration::from_hours(3);
    for (minutes, temperature) in points {
        let at = Timestamp::from_second(1_800_000_000).unwrap()
            + SignedDuration::from_secs_f64(minutes * 60.0);
        log.push(LogPoint { at, temperature }).unwrap();
    }
    log
}

// USDA FSIS, Compliance Guidelines for Meeting Lethality Performance Standards, Appendix A (June
// 1999), cooked and roast beef: degF and the time at it for a 6.5-log10 reduction of Salmonella
// (read in a page quoting it). The table falls tenfold in 10 degF, so by that z every line is worth
// as many minutes at 140 degF as the table gives there, 12, but for its rounding to whole minutes.
#[test]
fn every_line_of_the_published_lethality_table_counts_the_same() {
    let reference = Reference::new(
        fahrenheit(140.0),
        10.0 / 1.8,
        "USDA FSIS Appendix A, June 1999, its own slope",
    )
    .unwrap();
    for (degrees, seconds) in [
        (130.0, 112 * 60),
        (132.0, 71 * 60),
        (135.0, 36 * 60),
        (138.0, 18 * 60),
        (140.0, 12 * 60),
        (142.0, 8 * 60),
        (145.0, 4 * 60),
        (146.0, 169),
        (148.0, 107),
        (150.0, 67),
        (153.0, 34),
        (155.0, 22),
    ] {
        let minutes = f64::from(seconds) / 60.0;
        let held = log([(0.0, fahrenheit(degrees)), (minutes, fahrenheit(degrees))]);
        let counted = lethality(&held, &reference);
        assert_eq!(counted.not_counted, SignedDuration::ZERO);
        let worth = counted.equivalent_minutes;
        assert!((worth - 12.0).abs() < 1.2, "{degrees} degF: {worth}");
    }
}

// The same table: each line is 6.5 log10 of Salmonella, at temperatures on either side of the one that D is for. Whole
// minutes make up to half a step of difference.
#[test]
fn every_line_of_the_published_table_is_the_same_log_reduction() {
    let salmonella = Organism::named("Salmonella-beef").unwrap();
    for (degrees, seconds) in [
        (130.0, 112 * 60),
        (135.0, 36 * 60),
        (140.0, 12 * 60),
        (146.0, 169),
        (153.0, 34),
    ] {
        let minutes = f64::from(seconds) / 60.0;
        let held = log([(0.0, fahrenheit(degrees)), (minutes, fahrenheit(degrees))]);
        let counted = log_reductions(&held, &salmonella);
        assert!(
            (counted.log10 - 6.5).abs() < 0.7,
            "{degrees} degF: {}",
            counted.log10
        );
    }
}

// A core that is never above 59 degC, below every reference temperature, is counted: 55 degC for 89 min is a line of
// the Food Code's table for roasts (131 degF), made for the same 6.5 log10.
#[test]
fn below_the_reference_temperature_it_counts_too() {
    let salmonella = Organism::named("salmonella-beef").unwrap();
    let at = Temperature::from_celsius(55.0).unwrap();
    let counted = log_reductions(&log([(0.0, at), (89.0, at)]), &salmonella);
    assert!((counted.log10 - 6.5).abs() < 0.7, "{}", counted.log10);
    // D at 135 degF of 5.8 min in fatty beef (the same abstract): 5.8 min there is about one step.
    let listeria = Organism::named("listeria-fatty-beef").unwrap();
    let at = fahrenheit(135.0);
    let counted = log_reductions(&log([(0.0, at), (5.8, at)]), &listeria);
    assert!((counted.log10 - 1.0).abs() < 0.4, "{}", counted.log10);
    // 6 log10 in 2 minutes at 70 degC (quoted).
    let at = Temperature::from_celsius(70.0).unwrap();
    let counted = log_reductions(
        &log([(0.0, at), (2.0, at)]),
        &Organism::named("listeria-meat").unwrap(),
    );
    assert!((counted.log10 - 6.0).abs() < 1e-9, "{}", counted.log10);
    assert_eq!(Organism::named("botulism"), None);
}

// Newton's law of cooling, a worked example on a question-and-answer page (read): a cake of
// 300 degF is at 200 degF after 10 minutes in a room of 60 degF, and at 75 degF after 51.44.
#[test]
fn the_worked_cake_is_foretold() {
    let rate = (240.0_f64 / 140.0).ln() / 10.0;
    assert!((rate - 0.0539).abs() < 5e-5);
    let cake = |minutes: f64| fahrenheit(60.0 + 240.0 * (-rate * minutes).exp());
    let mut seen = log((0..=12).map(|nth| (f64::from(nth) * 2.0, cake(f64::from(nth) * 2.0))));
    seen.longest_step = HeatLog::USUAL_STEP;
    let now = seen.points().last().unwrap().at;
    let level = Band::new(fahrenheit(75.0), fahrenheit(75.0)).unwrap();
    let around = Surroundings::about(fahrenheit(60.0), 0.5).unwrap();
    let Forecast::Coming { enters, .. } = forecast(&seen, level, around, &Habit::default(), now)
    else {
        unreachable!("it is on its way");
    };
    let minutes = |at: Timestamp| at.duration_since(seen.points()[0].at).as_secs_f64() / 60.0;
    assert!((minutes(enters.likely) - 51.44).abs() < 2.0, "{enters:?}");
    assert!(minutes(enters.early) < 51.44 && minutes(enters.late.unwrap()) > 51.44);
}
