//! Heat logs against the Food Code's limits, and lethality against its own
//! definition and published rates.

use evenhand_kitchen::heat::*;
use evenhand_kitchen::limits::{Limits, Region, Standing};
use evenhand_kitchen::probe::ProbeDoubt;
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

fn findings(log: &HeatLog, limit: &str) -> Vec<Finding> {
    check(log, Limits::food_code().named(limit).unwrap())
}

/// The answers alone, without what is said beside them.
fn answers(log: &HeatLog, limit: &str) -> Vec<Outcome> {
    outcomes(log, limit)
        .into_iter()
        .filter(|outcome| *outcome != Outcome::Noted)
        .collect()
}

fn rewarmed(log: &HeatLog) -> Vec<(f64, bool)> {
    findings(log, "cooling")
        .into_iter()
        .filter_map(|finding| match finding.found {
            Found::Rewarmed {
                highest, restarted, ..
            } => Some((highest.celsius(), restarted)),
            _ => None,
        })
        .collect()
}

// 57 to 21 degC takes 50 min, then 110 min after it was warmed to 65 degC for over half an hour.
#[test]
fn warming_again_starts_the_clock_again_and_is_seen() {
    let log = sampled(&[(0, 70.0), (60, 30.0), (90, 65.0), (120, 57.0), (230, 21.0)]);
    assert_eq!(answers(&log, "cooling"), [Outcome::Kept, Outcome::Running]);
    assert_eq!(rewarmed(&log), [(65.0, true)]);
    let words = findings(&log, "cooling")[0].to_string();
    assert!(
        words.contains("and 1 h 50 min, limit 2 h 00 min"),
        "{words}"
    );
}

// Each log cools too slowly, by hand: the limit is passed before anything else happens.
#[test]
fn a_breach_never_disappears() {
    use Outcome::*;
    let slow = [(0, 90.0), (30, 57.0), (210, 21.0), (370, 6.0)];
    let after = |more: &[(i64, f64)]| {
        let mut corners = slow.to_vec();
        corners.extend_from_slice(more);
        sampled(&corners)
    };
    let first = |log: &HeatLog| answers(log, "cooling")[0];
    assert_eq!(first(&sampled(&slow)), Broken);
    // One stray reading of 58 degC.
    let mut stray = sampled(&slow);
    let last = stray.points().last().unwrap().at;
    for (minutes, celsius) in [(1, 58.0), (2, 6.0), (3, 5.9)] {
        stray
            .push(LogPoint {
                at: last + SignedDuration::from_mins(minutes),
                temperature: Temperature::from_celsius(celsius).unwrap(),
            })
            .unwrap();
    }
    assert_eq!(first(&stray), Broken);
    assert_eq!(
        rewarmed(&stray).len(),
        2,
        "above 57 and above 21 degC: both are said"
    );
    // Reheated for an hour and cooled fast: the second cooling is within, the first is not.
    let reheated = after(&[
        (375, 80.0),
        (435, 80.0),
        (445, 57.0),
        (505, 21.0),
        (645, 4.0),
    ]);
    assert_eq!(answers(&reheated, "cooling"), [Broken, Kept]);
    assert_eq!(rewarmed(&reheated), [(80.0, true)]);
    let words = findings(&reheated, "cooling")[0].to_string();
    assert!(
        words.contains("the worst of 2 coolings in the log, number 1"),
        "{words}"
    );
    // And the other way round.
    let second = sampled(&[
        (0, 90.0),
        (30, 57.0),
        (90, 21.0),
        (200, 4.0),
        (210, 80.0),
        (270, 80.0),
        (280, 57.0),
        (430, 21.0),
        (600, 4.0),
    ]);
    assert_eq!(answers(&second, "cooling"), [Broken, Kept]);
    // Put into the log with a gap before it, a hot reading starts nothing anew.
    let mut gap = sampled(&slow);
    let last = gap.points().last().unwrap().at;
    for (minutes, celsius) in [(60, 58.0), (120, 5.0)] {
        gap.push(LogPoint {
            at: last + SignedDuration::from_mins(minutes),
            temperature: Temperature::from_celsius(celsius).unwrap(),
        })
        .unwrap();
    }
    assert_eq!(first(&gap), Broken);
}

// Down to 20 degC in an hour, warmed to 35 and down again: 3 h from 57 to 21 for good.
#[test]
fn a_pan_that_warms_again_on_its_way_has_not_cooled() {
    use Outcome::*;
    let log = sampled(&[
        (0, 80.0),
        (20, 57.0),
        (80, 20.0),
        (120, 35.0),
        (200, 20.9),
        (340, 4.0),
        (350, 3.9),
    ]);
    assert_eq!(answers(&log, "cooling"), [Broken, Kept]);
    assert_eq!(rewarmed(&log), [(35.0, false)]);
    // The same within two hours is kept, and said.
    let quick = sampled(&[
        (0, 80.0),
        (20, 57.0),
        (50, 20.0),
        (80, 35.0),
        (120, 20.0),
        (340, 4.0),
        (350, 3.9),
    ]);
    assert_eq!(answers(&quick, "cooling"), [Kept, Kept]);
    assert_eq!(rewarmed(&quick), [(35.0, false)]);
    // Cold for good and warmed later: cooling was kept; that it warmed is said.
    let later = sampled(&[
        (0, 80.0),
        (20, 57.0),
        (80, 20.0),
        (200, 4.0),
        (220, 4.0),
        (300, 30.0),
    ]);
    assert_eq!(answers(&later, "cooling"), [Kept, Kept]);
    assert_eq!(rewarmed(&later), [(30.0, false)]);
}

// Exactly two and six hours are within; a second more is not, and is printed so.
#[test]
fn cooling_at_its_very_limit() {
    use Outcome::*;
    let at = |second_stage: i64, total: i64| {
        let mut log = HeatLog::new("pan");
        log.longest_step = SignedDuration::from_hours(6);
        for (seconds, celsius) in [
            (-1, 57.0),
            (0, 56.9),
            (second_stage - 1, 21.1),
            (second_stage, 21.0),
            (total - 1, 5.1),
            (total, 5.0),
            (total + 60, 4.0),
        ] {
            log.push(LogPoint {
                at: Timestamp::from_second(START + seconds).unwrap(),
                temperature: Temperature::from_celsius(celsius).unwrap(),
            })
            .unwrap();
        }
        log
    };
    // The clock began up to a second before, so it took up to a second longer.
    assert_eq!(answers(&at(7_199, 21_599), "cooling"), [Kept, Kept]);
    assert_eq!(answers(&at(7_202, 21_599), "cooling"), [Broken, Kept]);
    assert_eq!(answers(&at(7_199, 21_602), "cooling"), [Kept, Broken]);
    assert_eq!(
        answers(&at(7_201, 21_601), "cooling"),
        [CannotTell, CannotTell]
    );
    let words = findings(&at(7_202, 21_599), "cooling")[0].to_string();
    assert!(words.contains("2 h 00 min 01 s"), "{words}");
}

// Raw food that is cooked and then cooled: warming up is no cooling.
#[test]
fn warming_up_for_cooking_is_no_cooling() {
    use Outcome::*;
    let roast = sampled(&[
        (0, 5.0),
        (300, 56.0),
        (310, 60.0),
        (320, 56.0),
        (400, 20.0),
        (500, 4.0),
    ]);
    assert_eq!(answers(&roast, "cooling"), [Kept, Kept]);
    let on_the_way = sampled(&[(0, 5.0), (300, 40.0), (340, 60.0)]);
    assert_eq!(answers(&on_the_way, "cooling"), [Running]);
}

// JCGM 100: a reading whose interval straddles a limit is neither within nor over.
#[test]
fn the_probes_own_uncertainty_is_in_the_comparison() {
    use Outcome::*;
    let doubted = |log: &HeatLog, celsius: f64| {
        let mut log = log.clone();
        log.doubt = Some(ProbeDoubt::new(celsius).unwrap());
        log
    };
    for (celsius, doubt, expected) in [
        (58.1, 1.0, Kept),
        (57.5, 1.0, TooClose),
        (56.5, 1.0, TooClose),
        (55.9, 1.0, Broken),
        (56.99, 0.0, Broken),
        (57.0, 0.0, Kept),
    ] {
        let log = doubted(&sampled(&[(0, celsius), (60, celsius)]), doubt);
        assert_eq!(
            answers(&log, "hot-holding"),
            [expected],
            "{celsius} {doubt}"
        );
    }
    let words = findings(
        &doubted(&sampled(&[(0, 56.99), (60, 56.99)]), 0.0),
        "hot-holding",
    )[0]
    .to_string();
    assert!(
        words.contains("56.99 degC") && !words.contains("57.0 degC"),
        "{words}"
    );
    let words = findings(
        &doubted(&sampled(&[(0, 57.5), (60, 57.5)]), 1.0),
        "hot-holding",
    )[0]
    .to_string();
    assert!(words.contains("good to 1.0 degC (k = 2)"), "{words}");
    // A pan that is at 21.9 degC after an hour and a half and at 21 only after two and a quarter.
    let pan = sampled(&[
        (0, 70.0),
        (10, 57.0),
        (100, 21.9),
        (150, 20.9),
        (300, 3.0),
        (310, 2.0),
    ]);
    assert_eq!(answers(&pan, "cooling")[0], Broken);
    assert_eq!(answers(&doubted(&pan, 1.0), "cooling")[0], TooClose);
}

#[test]
fn gaps_are_said() {
    let log = log(&[
        (0, 80.0),
        (5, 56.0),
        (60, 20.0),
        (65, 19.0),
        (70, 4.0),
        (75, 4.0),
    ]);
    let gap = findings(&log, "cooling").pop().unwrap();
    assert_eq!(gap.outcome, Outcome::Noted);
    assert!(
        gap.to_string()
            .contains("0 h 55 min without readings in 1 gap"),
        "{gap}"
    );
}

// 3-403.11(A), (D): 74 degC for 15 s within 2 h of leaving 5 degC (Delaware, read).
#[test]
fn reheating_is_hot_enough_and_fast_enough() {
    use Outcome::*;
    let reheat = |corners: &[(i64, f64)]| answers(&sampled(corners), "reheating");
    assert_eq!(
        reheat(&[(0, 4.0), (10, 4.0), (100, 75.0), (110, 76.0)]),
        [Kept]
    );
    assert_eq!(
        reheat(&[(0, 4.0), (10, 4.0), (150, 75.0), (160, 76.0)]),
        [Broken]
    );
    assert_eq!(
        reheat(&[(0, 4.0), (10, 4.0), (150, 70.0), (160, 70.0)]),
        [Broken]
    );
    assert_eq!(reheat(&[(0, 4.0), (10, 4.0), (60, 70.0)]), [Running]);
    assert_eq!(
        reheat(&[(0, 20.0), (60, 75.0), (70, 75.0)]),
        [CannotTell],
        "the start is not seen"
    );
    assert_eq!(reheat(&[(0, 4.0), (60, 4.0)]), [Running], "not begun");
    // Slow the first time, fast the second: the first stays.
    assert_eq!(
        reheat(&[
            (0, 4.0),
            (150, 75.0),
            (160, 75.0),
            (260, 4.0),
            (300, 75.0),
            (310, 76.0)
        ]),
        [Broken]
    );
    // One reading at 74 degC is no 15 s.
    assert_eq!(reheat(&[(0, 4.0), (5, 4.0), (60, 74.0)]), [Running]);
}

// 3-501.14(B): 5 degC within 4 h of being made (Delaware and Washington, read).
#[test]
fn salad_of_things_at_room_temperature() {
    use Outcome::*;
    let salad = |corners: &[(i64, f64)]| answers(&sampled(corners), "cooling-from-ambient");
    assert_eq!(salad(&[(0, 20.0), (235, 5.0), (250, 4.0)]), [Kept]);
    assert_eq!(salad(&[(0, 20.0), (250, 5.0), (260, 4.0)]), [Broken]);
    assert_eq!(
        salad(&[(0, 20.0), (100, 4.0), (150, 12.0), (260, 4.0)]),
        [Broken],
        "it warmed again"
    );
    assert_eq!(salad(&[(0, 20.0), (100, 10.0)]), [Running]);
}

// 3-501.19(B), (C): begins at 5 degC or below or 57 degC or above, 4 h; begins at 5 degC or below, 6 h, never above
// 21 degC (Delaware, read).
#[test]
fn time_alone_begins_cold_or_hot() {
    use Outcome::*;
    let time = |corners: &[(i64, f64)], limit| answers(&sampled(corners), limit);
    assert_eq!(time(&[(0, 5.0), (240, 20.0)], "time-only"), [Running, Kept]);
    assert_eq!(time(&[(0, 57.0), (245, 20.0)], "time-only"), [Broken, Kept]);
    assert_eq!(
        time(&[(0, 12.0), (60, 20.0)], "time-only"),
        [Running, Broken]
    );
    assert_eq!(
        time(&[(0, 5.0), (360, 21.0)], "time-only-cold"),
        [Running, Kept, Kept]
    );
    assert_eq!(
        time(&[(0, 5.0), (365, 21.1)], "time-only-cold"),
        [Broken, Kept, Broken]
    );
    assert_eq!(
        time(&[(0, 57.0), (60, 60.0)], "time-only-cold"),
        [Running, Broken, Broken]
    );
}

// 3-401.11(B), by Florida's list (read): 60.0 degC for 12 min, 65.0 degC for 85 s, 70.0 degC at once.
#[test]
fn a_roast_by_any_line_of_its_table() {
    use Outcome::*;
    for (celsius, minutes, expected) in [
        (60.0, 15, Kept),
        (60.0, 10, Running),
        (59.9, 15, Running),
        (58.9, 20, Kept),
        (54.4, 115, Kept),
        (54.3, 200, Running),
        (70.0, 0, Kept),
    ] {
        let mut log = sampled(&[
            (0, 20.0),
            (60, celsius),
            (60 + minutes, celsius),
            (65 + minutes, 20.0),
        ]);
        log.longest_step = SignedDuration::from_hours(1);
        // Between the corners it falls by degrees at once, so that nothing but the hold is long.
        assert_eq!(
            answers(&log, "cook-roast"),
            [expected],
            "{celsius} for {minutes} min"
        );
    }
}

// 3-401.11(A)(2): 68 degC (155 degF) for 17 s (Florida, read); (A)(3): 74 degC at once (from memory); (A)(1): 63 degC
// for 15 s (a page for Michigan, read).
#[test]
fn cooking_by_its_own_temperature() {
    use Outcome::*;
    let held = |celsius: f64, seconds: i64, limit| {
        let mut log = HeatLog::new("core");
        for (at, celsius) in [
            (0, 40.0),
            (60, celsius),
            (60 + seconds, celsius),
            (61 + seconds, 40.0),
        ] {
            log.push(LogPoint {
                at: Timestamp::from_second(START + at).unwrap(),
                temperature: Temperature::from_celsius(celsius).unwrap(),
            })
            .unwrap();
        }
        answers(&log, limit)[0]
    };
    for (celsius, seconds, limit, expected) in [
        (68.0, 17, "cook-minced", Kept),
        (68.0, 16, "cook-minced", Running),
        (67.9, 17, "cook-minced", Running),
        (66.0, 60, "cook-minced", Kept),
        (63.0, 180, "cook-minced", Kept),
        (63.0, 179, "cook-minced", Running),
        (70.0, 1, "cook-minced", Kept),
        (74.0, 1, "cook-poultry", Kept),
        (73.9, 60, "cook-poultry", Running),
        (63.0, 15, "cook-fish-whole-cut", Kept),
        (63.0, 14, "cook-fish-whole-cut", Running),
        (62.9, 60, "cook-fish-whole-cut", Running),
    ] {
        assert_eq!(
            held(celsius, seconds, limit),
            expected,
            "{celsius} {seconds} {limit}"
        );
    }
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
        answers(&log(&[(0, 4.0), (60, 4.0)]), "cold-holding"),
        [Outcome::CannotTell],
        "an hour without readings hides what was between"
    );
    assert_eq!(
        outcomes(&sampled(&[(0, 60.0), (60, 56.9)]), "hot-holding"),
        [Outcome::Broken]
    );
}

// 3-402.11(A), by Washington and Minnesota (read): -20 degC for 168 h; or -35 degC until solid, then -35 degC for 15 h
// or -20 degC for 24 h.
#[test]
fn freezing_in_three_ways() {
    use Outcome::*;
    let frozen = |hours: &[(i64, f64)], solid: Option<i64>| {
        let mut log = HeatLog::new("freezer");
        log.longest_step = SignedDuration::from_hours(1);
        for pair in hours.windows(2) {
            for hour in pair[0].0..pair[1].0 {
                log.push(LogPoint {
                    at: Timestamp::from_second(START + hour * 3600).unwrap(),
                    temperature: Temperature::from_celsius(pair[0].1).unwrap(),
                })
                .unwrap();
            }
        }
        log.markers.extend(solid.map(|hour| Marker {
            at: Timestamp::from_second(START + hour * 3600).unwrap(),
            text: "Solid all through".to_owned(),
        }));
        answers(&log, "raw-fish-freezing")[0]
    };
    // The last hour of each is the last reading, so 169 readings are 168 h.
    assert_eq!(frozen(&[(0, -20.0), (169, 0.0)], None), Kept);
    assert_eq!(frozen(&[(0, -20.0), (168, 0.0)], None), Running);
    assert_eq!(frozen(&[(0, -19.9), (200, 0.0)], None), Running);
    // Nobody said that it is solid.
    assert_eq!(frozen(&[(0, -36.0), (16, 0.0)], None), CannotTell);
    assert_eq!(frozen(&[(0, -36.0), (16, 0.0)], Some(0)), Kept);
    assert_eq!(
        frozen(&[(0, -36.0), (16, 0.0)], Some(1)),
        Running,
        "14 h since it is solid"
    );
    assert_eq!(frozen(&[(0, -36.0), (4, -21.0), (28, 0.0)], Some(3)), Kept);
    assert_eq!(
        frozen(&[(0, -36.0), (4, -21.0), (27, 0.0)], Some(3)),
        Running
    );
    assert_eq!(
        frozen(&[(0, -25.0), (40, 0.0)], Some(3)),
        Running,
        "never at -35 degC until solid"
    );
    let mut gaps = HeatLog::new("freezer");
    for hour in 0..=15 {
        gaps.push(LogPoint {
            at: Timestamp::from_second(START + hour * 3600).unwrap(),
            temperature: Temperature::from_celsius(-36.0).unwrap(),
        })
        .unwrap();
    }
    assert_eq!(answers(&gaps, "raw-fish-freezing"), [CannotTell]);
}

// Regulation (EC) No 853/2004, annex III, VIII, III, D: -20 degC for 24 h or -35 degC for 15 h (from memory).
#[test]
fn the_european_way_of_freezing() {
    let limits = Limits::published(Region::Eu);
    let limit = limits.named("raw-fish-freezing").unwrap();
    for (celsius, hours, expected) in [
        (-20.0, 24, Outcome::Kept),
        (-20.0, 23, Outcome::Running),
        (-35.0, 15, Outcome::Kept),
        (-34.9, 15, Outcome::Running),
    ] {
        let mut frozen = HeatLog::new("freezer");
        frozen.longest_step = SignedDuration::from_hours(1);
        for hour in 0..=hours {
            frozen
                .push(LogPoint {
                    at: Timestamp::from_second(START + hour * 3600).unwrap(),
                    temperature: Temperature::from_celsius(celsius).unwrap(),
                })
                .unwrap();
        }
        assert_eq!(
            check(&frozen, limit)[0].outcome,
            expected,
            "{celsius} {hours}"
        );
    }
}

// What was met is no longer waited for: not a thing said in the same breath as "within".
#[test]
fn what_was_held_is_not_foretold_any_more() {
    let limits = Limits::food_code();
    let ahead = |log: &HeatLog, name: &str| {
        let now = log.points().last().unwrap().at;
        outlook(
            log,
            limits.named(name).unwrap(),
            Surroundings::KITCHEN,
            &Habit::default(),
            now,
        )
    };
    let poultry = sampled(&[(0, 60.0), (20, 75.0), (40, 65.0)]);
    assert_eq!(answers(&poultry, "cook-poultry"), [Outcome::Kept]);
    assert_eq!(ahead(&poultry, "cook-poultry"), []);
    let raw = sampled(&[(0, 40.0), (20, 60.0)]);
    assert_eq!(answers(&raw, "cook-poultry"), [Outcome::Running]);
    assert_eq!(ahead(&raw, "cook-poultry").len(), 1);
    let fish = sampled(&[(0, -21.0), (169 * 60, -21.0)]);
    assert_eq!(answers(&fish, "raw-fish-freezing"), [Outcome::Kept]);
    assert_eq!(ahead(&fish, "raw-fish-freezing"), []);
}

// Every limit stands there with its figures, and none claims to have been read where it was quoted.
#[test]
fn every_limit_is_there_with_its_figures_and_standing() {
    let limits = Limits::food_code();
    let figures = |name: &str| limits.named(name).unwrap().demand.to_string();
    for (name, shown) in [
        (
            "cooling",
            "from 57 degC (135 degF), to 21 degC (70 degF) within 2 h, to 5 degC (41 degF) within 6 h",
        ),
        (
            "cooling-from-ambient",
            "at most 5 degC (41 degF) for an instant, reached within 4 h of being made",
        ),
        ("cold-holding", "at most 5 degC (41 degF)"),
        ("hot-holding", "at least 57 degC (135 degF)"),
        (
            "reheating",
            "at least 74 degC (165 degF) for 15 s, reached within 2 h of leaving 5 degC (41 degF)",
        ),
        (
            "time-only",
            "at most 4 h, beginning at 5 degC (41 degF) or below or 57 degC (135 degF) or above",
        ),
        (
            "time-only-cold",
            "at most 6 h, beginning at 5 degC (41 degF) or below, never above 21 degC (70 degF)",
        ),
        (
            "date-marking",
            "at most 7 days at 5 degC (41 degF) or below, the first counted",
        ),
        (
            "cook-fish-whole-cut",
            "at least 63 degC (145 degF) for 15 s",
        ),
        ("cook-poultry", "at least 74 degC (165 degF) for an instant"),
        ("receiving-cold", "at most 5 degC (41 degF)"),
        ("receiving-hot", "at least 57 degC (135 degF)"),
        ("salt-roe", "at least 5 % of salt in the food's water"),
        (
            "salt-smoked-fish-vacuum",
            "at least 3.5 % of salt in the food's water",
        ),
    ] {
        assert_eq!(figures(name), shown, "{name}");
    }
    assert!(figures("cook-minced").starts_with("at least 68 degC (155 degF) for 17 s; or "));
    assert!(
        figures("cook-roast")
            .contains("54.4 degC (130 degF) for 112 min; or 55 degC (131 degF) for 89 min")
    );
    assert_eq!(
        figures("raw-fish-freezing"),
        "at most -20 degC (-4 degF) for 168 h; or -35 degC (-31 degF) until solid, then -35 degC (-31 degF) for 15 h; \
         or -35 degC (-31 degF) until solid, then -20 degC (-4 degF) for 24 h"
    );
    let about = |name: &str| &limits.named(name).unwrap().about;
    for word in ["tenderised", "injected", "155 degF"] {
        assert!(about("cook-minced").contains(word), "{word}");
    }
    for (name, word) in [
        ("raw-fish-exempt", "skein"),
        ("raw-fish-exempt", "pelleted"),
        ("raw-fish-exempt", "molluscan"),
        ("raw-fish-records", "90 days"),
        ("shellfish-tags", "90 days"),
        ("variance", "curing"),
        ("vacuum-packing", "sous vide"),
        ("time-only", "marked"),
    ] {
        assert!(about(name).contains(word), "{name}: {word}");
    }
    for limit in limits.iter() {
        assert_ne!(limit.source.standing, Standing::Read, "{}", limit.name);
        assert!(!limit.source.section.is_empty());
    }
}

#[test]
fn no_answer_ever_says_safe() {
    let limits = Limits::food_code();
    for points in [&[(0, 90.0), (5, 3.0)][..], &[(0, -36.0)][..], &[]] {
        for limit in limits.iter() {
            for finding in check(&log(points), limit) {
                assert!(!finding.to_string().to_lowercase().contains("safe"));
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

// A store that may stand above its limit for half an hour (a limit of the kitchen's own): by hand,
// readings beyond it from the first to the last are surely so long, from the last within it to the
// next possibly. At the half hour itself it is within.
#[test]
fn a_limit_that_allows_some_time_is_passed_after_it() {
    let mut limit = Limits::food_code().named("cold-holding").unwrap().clone();
    limit.allowance = SignedDuration::from_mins(30);
    let outcome = |warm: std::ops::RangeInclusive<i64>| {
        let points: Vec<(i64, f64)> = (0..=24)
            .map(|nth| nth * 5)
            .map(|minute| (minute, if warm.contains(&minute) { 7.0 } else { 4.0 }))
            .collect();
        check(&log(&points), &limit)[0].outcome
    };
    assert_eq!(outcome(10..=25), Outcome::Kept);
    assert_eq!(outcome(10..=30), Outcome::Kept);
    assert_eq!(outcome(10..=35), Outcome::CannotTell);
    assert_eq!(outcome(10..=40), Outcome::CannotTell);
    assert_eq!(outcome(10..=45), Outcome::Broken);
    assert_eq!(outcome(10..=80), Outcome::Broken);
    limit.allowance = SignedDuration::ZERO;
    let once = log(&[(0, 4.0), (5, 7.0), (10, 4.0)]);
    assert_eq!(check(&once, &limit)[0].outcome, Outcome::Broken);
}

// Seven days, the first counted (US FDA Food Code 2022, 3-501.17, from memory): six whole days after
// the first may be the last of them or one too many by the kitchen's midnight, seven are too many.
#[test]
fn days_are_counted_with_the_first() {
    let kept = |hours: i64| {
        let points: Vec<(i64, f64)> = (0..=hours).map(|hour| (hour * 60, 4.0)).collect();
        findings(&log(&points), "date-marking")[0].outcome
    };
    assert_eq!(kept(40), Outcome::Running);
    assert_eq!(kept(6 * 24), Outcome::Running);
    assert_eq!(kept(6 * 24 + 1), Outcome::CannotTell);
    assert_eq!(kept(7 * 24 - 1), Outcome::CannotTell);
    assert_eq!(kept(7 * 24), Outcome::Broken);
}

// A probe that touches ice for one reading has not cooled the pan: what is too slow stays so, and
// what is in time without that reading is in time with it.
#[test]
fn one_stray_cold_reading_is_not_cooled() {
    use Outcome::*;
    let with_stray = |corners: &[(i64, f64)]| {
        let mut points: Vec<(i64, f64)> = sampled(corners)
            .points()
            .iter()
            .map(|p| ((p.at.as_second() - START) / 60, p.temperature.celsius()))
            .collect();
        let stray = points.iter().position(|p| p.0 == 200).unwrap();
        points[stray].1 = 3.0;
        log(&points)
    };
    let slow = [(0, 90.0), (30, 57.0), (140, 21.0), (430, 5.0), (445, 4.0)];
    assert_eq!(outcomes(&sampled(&slow), "cooling"), [Kept, Broken]);
    assert_eq!(outcomes(&with_stray(&slow), "cooling")[..2], [Kept, Broken]);
    let quick = [(0, 90.0), (30, 57.0), (140, 21.0), (370, 5.0), (385, 4.0)];
    assert_eq!(outcomes(&with_stray(&quick), "cooling")[..2], [Kept, Kept]);
    // A pan that is taken out cold long after is no longer cooling.
    let used = [
        (0, 90.0),
        (30, 57.0),
        (140, 21.0),
        (370, 5.0),
        (420, 4.0),
        (430, 9.0),
        (700, 9.0),
    ];
    assert_eq!(outcomes(&sampled(&used), "cooling")[..2], [Kept, Kept]);
}
