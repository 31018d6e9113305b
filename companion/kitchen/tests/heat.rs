//! Heat logs against the Food Code's limits, and lethality against its own
//! definition and published rates.

#![allow(clippy::unwrap_used)]

use evenhand_kitchen::heat::*;
use evenhand_kitchen::limits::Limits;
use evenhand_protocol::Temperature;
use jiff::{SignedDuration, Timestamp};

const START: i64 = 1_800_000_000;

fn log(points: &[(i64, f64)]) -> HeatLog {
    let mut log = HeatLog::new("pan of stock");
    for (minutes, celsius) in points {
        log.push(LogPoint {
            at: Timestamp::from_second(START + minutes * 60).unwrap(),
            temperature: Temperature::from_celsius(*celsius).unwrap(),
        })
        .unwrap();
    }
    log
}

/// Every five minutes, straight between the given corners.
fn sampled(corners: &[(i64, f64)]) -> HeatLog {
    let mut points = Vec::new();
    for pair in corners.windows(2) {
        let ((t0, c0), (t1, c1)) = (pair[0], pair[1]);
        for t in (t0..t1).step_by(5) {
            points.push((t, c0 + (c1 - c0) * (t - t0) as f64 / (t1 - t0) as f64));
        }
    }
    points.push(*corners.last().unwrap());
    log(&points)
}

fn outcomes(log: &HeatLog, limit: &str) -> Vec<Outcome> {
    let limits = Limits::food_code();
    check(log, limits.named(limit).unwrap())
        .into_iter()
        .map(|f| f.outcome)
        .collect()
}

// US FDA Food Code 2022, 3-501.14(A): 57 to 21 degC within 2 h and to 5 degC within 6 h in all
// (from memory).
#[test]
fn cooling_in_two_stages() {
    use Outcome::*;
    let quick = sampled(&[(0, 90.0), (30, 57.0), (140, 21.0), (380, 5.0), (400, 4.0)]);
    assert_eq!(outcomes(&quick, "cooling"), [Kept, Kept]);
    let slow_start = sampled(&[(0, 90.0), (30, 57.0), (170, 21.0), (380, 5.0), (400, 4.0)]);
    assert_eq!(outcomes(&slow_start, "cooling"), [Broken, Kept]);
    let slow_end = sampled(&[(0, 90.0), (30, 57.0), (140, 21.0), (420, 5.0), (430, 4.0)]);
    assert_eq!(outcomes(&slow_end, "cooling"), [Kept, Broken]);
    let going_on = sampled(&[(0, 90.0), (30, 57.0), (90, 40.0)]);
    assert_eq!(outcomes(&going_on, "cooling"), [Running, Running]);
    let still_hot = sampled(&[(0, 90.0), (30, 60.0)]);
    assert_eq!(outcomes(&still_hot, "cooling"), [Running]);
}

#[test]
fn a_log_that_hides_the_crossing_cannot_tell() {
    use Outcome::*;
    // From 56 to 20 degC the pan took 1 h 50 surely, but it may have fallen below 57 up to 40
    // minutes before the first reading under it.
    let hidden = log(&[(0, 80.0), (40, 56.0), (150, 20.0), (155, 19.0)]);
    assert_eq!(outcomes(&hidden, "cooling")[0], CannotTell);
    // A log that begins at 50 degC does not show when cooling began.
    let late = sampled(&[(0, 50.0), (60, 20.0)]);
    assert_eq!(outcomes(&late, "cooling")[0], CannotTell);
    // But three hours from 50 to 20 are too long whenever it began.
    let surely = sampled(&[(0, 50.0), (180, 20.0)]);
    assert_eq!(outcomes(&surely, "cooling")[0], Broken);
}

#[test]
fn warming_again_starts_the_clock_again_and_is_seen() {
    let log = sampled(&[(0, 70.0), (60, 30.0), (90, 65.0), (120, 57.0), (230, 21.0)]);
    let limits = Limits::food_code();
    let findings = check(&log, limits.named("cooling").unwrap());
    assert_eq!(findings[0].outcome, Outcome::Kept);
    assert!(findings[0].sentence.contains("limit 2 h 00 min"));
}

// 3-501.16(A): at most 5 degC, at least 57 degC (read as adopted by Delaware and Washington).
#[test]
fn holding() {
    assert_eq!(
        outcomes(&sampled(&[(0, 4.0), (60, 5.0)]), "cold-holding"),
        [Outcome::Kept]
    );
    assert_eq!(
        outcomes(&sampled(&[(0, 4.0), (60, 5.1)]), "cold-holding"),
        [Outcome::Broken]
    );
    assert_eq!(
        outcomes(&log(&[(0, 4.0), (60, 4.0)]), "cold-holding"),
        [Outcome::CannotTell],
        "an hour without readings hides what was between"
    );
    assert_eq!(
        outcomes(&sampled(&[(0, 60.0), (60, 56.9)]), "hot-holding"),
        [Outcome::Broken]
    );
}

// 3-402.11(A): -20 degC for 168 h or -35 degC for 15 h (from memory).
#[test]
fn freezing_either_way() {
    let mut log = HeatLog::new("freezer");
    for hour in 0..=15 {
        log.push(LogPoint {
            at: Timestamp::from_second(START + hour * 3600).unwrap(),
            temperature: Temperature::from_celsius(-36.0).unwrap(),
        })
        .unwrap();
    }
    log.longest_step = SignedDuration::from_hours(1);
    assert_eq!(outcomes(&log, "raw-fish-freezing"), [Outcome::Kept]);
    log.longest_step = SignedDuration::from_mins(30);
    assert_eq!(outcomes(&log, "raw-fish-freezing"), [Outcome::CannotTell]);
}

#[test]
fn no_answer_ever_says_safe() {
    let limits = Limits::food_code();
    for points in [&[(0, 90.0), (5, 3.0)][..], &[(0, -36.0)][..], &[]] {
        for limit in limits.iter() {
            for finding in check(&log(points), limit) {
                assert!(!finding.sentence.to_lowercase().contains("safe"));
            }
        }
    }
}

#[test]
fn tables_come_back_as_they_went() {
    let before = sampled(&[(0, 80.0), (30, 57.25)]);
    let after = read_table("pan of stock", &write_table(&before)).unwrap();
    assert_eq!(before, after);
}

#[test]
fn bad_tables_are_refused_by_line_and_field() {
    let refuse = |text: &str| read_table("x", text).unwrap_err().to_string();
    assert!(refuse("when,temp\n").contains("when,temp"));
    assert!(refuse("time,celsius\n").contains("no readings"));
    let line2 = "time,celsius\n2026-05-01T10:00:00Z,80\n";
    assert!(refuse(&format!("{line2}2026-05-01T09:00:00Z,79\n")).contains("line 3"));
    assert!(refuse(&format!("{line2}2026-05-01T10:00:00Z,79\n")).contains("twice"));
    assert!(refuse(&format!("{line2}2026-05-01T10:05:00Z,79F\n")).contains("79F"));
    assert!(refuse(&format!("{line2}2026-05-01T10:05:00Z,NaN\n")).contains("celsius"));
    assert!(refuse(&format!("{line2}2026-05-01T10:05:00Z,5000\n")).contains("5000"));
    assert!(refuse(&format!("{line2}yesterday,79\n")).contains("yesterday"));
    assert!(refuse(&format!("{line2}2026-05-01T10:05:00Z\n")).contains("line 3"));
}

#[test]
fn a_table_in_fahrenheit_says_so_in_its_header() {
    let log = read_table("oven", "time,fahrenheit\n2026-05-01T10:00:00Z,550\n").unwrap();
    assert_eq!(log.points()[0].temperature.millicelsius(), 287_778);
}

// Lethal rates against 250 degF (121.11 degC) with z = 18 degF: 0.278 at 240 degF, 0.077 at
// 230 degF (lethal-rate table of thermal-process texts, from memory).
#[test]
fn lethal_rates_of_the_tables() {
    let reference = Reference::new(
        Temperature::from_fahrenheit(250.0).unwrap(),
        10.0,
        "lethal-rate table, z = 18 degF, 250 degF",
    )
    .unwrap();
    for (fahrenheit, rate) in [(250.0, 1.0), (240.0, 0.278), (230.0, 0.077)] {
        let ours = reference.rate(Temperature::from_fahrenheit(fahrenheit).unwrap());
        assert!((ours - rate).abs() < 0.001, "{ours} {rate}");
    }
}

// scipy.integrate.quad(lambda t: 10**((60 + t - 70) / 7.5), 0, 10) -> 3.1060 minutes at 70 degC
// over ten minutes rising one degree a minute from 60 degC.
#[test]
fn a_rising_core_adds_up() {
    let reference =
        Reference::new(Temperature::from_celsius(70.0).unwrap(), 7.5, "an example").unwrap();
    let log = sampled(&[(0, 60.0), (10, 70.0)]);
    let got = lethality(&log, &reference);
    assert!((got.equivalent_minutes - 3.106_022_382_946_754_6).abs() < 1e-9);
    let level = log_of_gap();
    let got = lethality(&level, &reference);
    assert!(
        (got.equivalent_minutes - 5.0).abs() < 1e-9,
        "only the unbroken five minutes count"
    );
    assert_eq!(got.not_counted, SignedDuration::from_mins(55));
}

fn log_of_gap() -> HeatLog {
    log(&[(0, 70.0), (5, 70.0), (60, 70.0)])
}

#[test]
fn lethality_wants_its_source() {
    let at = Temperature::from_celsius(70.0).unwrap();
    assert_eq!(Reference::new(at, 7.5, " "), Err(LethalityError::NoSource));
    assert_eq!(Reference::new(at, 0.0, "x"), Err(LethalityError::BadZ(0.0)));
}
