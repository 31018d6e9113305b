//! Keeping, correcting and looking ahead of heat logs.

use evenhand_kitchen::heat::*;
use evenhand_kitchen::limits::{Limits, Side};
use evenhand_kitchen::probe::{Probe, ProbeDoubt};
use evenhand_protocol::Temperature;
use jiff::{SignedDuration, Timestamp};
use proptest::prelude::*;

const START: i64 = 1_800_000_000;

fn moment(seconds: f64) -> Timestamp {
    Timestamp::from_millisecond(START * 1000 + (seconds * 1000.0).round() as i64).unwrap()
}

fn point(seconds: f64, celsius: f64) -> LogPoint {
    LogPoint {
        at: moment(seconds),
        temperature: Temperature::from_celsius(celsius).unwrap(),
    }
}

/// Everything that a sampler keeps, as a log.
fn sampled(rule: Sampling, readings: &[LogPoint]) -> HeatLog {
    let mut sampler = Sampler::new(rule);
    let mut log = HeatLog::new("oven");
    let mut kept = Vec::new();
    for reading in readings {
        kept.extend(sampler.take(*reading).unwrap());
    }
    kept.extend(sampler.break_off());
    for kept in kept {
        if kept.after_gap {
            log.break_here();
        }
        log.push(kept.point).unwrap();
    }
    log
}

/// A log's temperature at a moment, straight from reading to reading.
fn drawn(log: &HeatLog, at: Timestamp) -> f64 {
    let after = log.points().iter().position(|p| p.at >= at).unwrap();
    let b = log.points()[after];
    if b.at == at {
        return b.temperature.celsius();
    }
    let a = log.points()[after - 1];
    let share = at.duration_since(a.at).as_secs_f64() / b.at.duration_since(a.at).as_secs_f64();
    a.temperature.celsius() + share * (b.temperature.celsius() - a.temperature.celsius())
}

proptest! {
    // What the rule promises: the line between kept readings misses no reading by more than it
    // allows, and none is further from the next than it allows.
    #[test]
    fn the_kept_line_misses_no_reading(
        steps in prop::collection::vec((1.0..15.0f64, -3.0..3.0f64), 2..200),
        within in 0.1..2.0f64,
    ) {
        let every = SignedDuration::from_secs(60);
        let rule = Sampling::new(within, every).unwrap();
        let (mut at, mut celsius) = (0.0, 180.0);
        let readings: Vec<LogPoint> = steps
            .iter()
            .map(|(step, change)| {
                at += step;
                celsius += change;
                point(at, celsius)
            })
            .collect();
        let log = sampled(rule, &readings);
        for reading in &readings {
            let off = (drawn(&log, reading.at) - reading.temperature.celsius()).abs();
            // Temperatures are kept to a thousandth.
            prop_assert!(off <= within + 0.002, "{off}");
        }
        for pair in log.points().windows(2) {
            prop_assert!(pair[1].at.duration_since(pair[0].at) <= every);
        }
        prop_assert_eq!(log.points().last(), readings.last());
    }
}

#[test]
fn a_still_probe_costs_one_reading_a_minute_and_a_moving_one_what_it_takes() {
    let still: Vec<_> = (0..36_000)
        .map(|i| {
            point(
                f64::from(i) * 0.1,
                4.0 + if i % 2 == 0 { 0.25 } else { 0.0 },
            )
        })
        .collect();
    let kept = sampled(Sampling::KITCHEN, &still).points().len();
    assert!((60..=63).contains(&kept), "{kept} in an hour");
    let door: Vec<_> = (0..600)
        .map(|i| {
            point(
                f64::from(i),
                if (300..330).contains(&i) { 9.0 } else { 4.0 },
            )
        })
        .collect();
    let log = sampled(Sampling::KITCHEN, &door);
    assert!((drawn(&log, moment(300.0)) - 9.0).abs() <= 0.4);
    assert!((drawn(&log, moment(299.0)) - 4.0).abs() <= 0.4);
}

#[test]
fn a_silence_is_a_gap_however_short() {
    let mut sampler = Sampler::new(Sampling::KITCHEN);
    assert_eq!(sampler.take(point(0.0, 200.0)).unwrap().len(), 1);
    assert!(sampler.take(point(5.0, 199.9)).unwrap().is_empty());
    let last = sampler.break_off().unwrap();
    assert_eq!(last.point, point(5.0, 199.9));
    let next = sampler.take(point(20.0, 198.0)).unwrap();
    assert!(next[0].after_gap);
    // After a restart the record's last reading is known; a silence since is one too.
    let mut sampler = Sampler::after(Sampling::KITCHEN, Some(point(20.0, 198.0)));
    assert!(sampler.take(point(600.0, 150.0)).unwrap()[0].after_gap);
    // A short restart is none.
    let mut sampler = Sampler::after(Sampling::KITCHEN, Some(point(20.0, 198.0)));
    assert!(sampler.take(point(30.0, 197.9)).unwrap().is_empty());
    // A clock set back is refused and the record goes on when it has caught up.
    assert!(sampler.take(point(10.0, 197.9)).is_err());
    assert!(sampler.take(point(31.0, 197.9)).is_ok());
}

#[test]
fn corrections_leave_the_record_as_it_is() {
    let mut log = HeatLog::new("pan of stock");
    for minute in 0..10 {
        log.push(point(f64::from(minute) * 60.0, 50.0)).unwrap();
    }
    let correction = |from: f64, to: f64, what| {
        Correction::new(moment(from * 60.0), moment(to * 60.0), what, "probe out").unwrap()
    };
    let two = Temperature::from_millicelsius(-2_000);
    let corrected = log.corrected(&[
        correction(2.0, 3.0, Amendment::LeaveOut),
        correction(5.0, 9.0, Amendment::Add(two)),
    ]);
    assert_eq!(log.points().len(), 10);
    assert_eq!(corrected.points().len(), 8);
    assert_eq!(corrected.gaps().len(), 1);
    assert_eq!(corrected.points()[7].temperature.millicelsius(), 48_000);
    let new =
        |from, to, what, reason: &str| Correction::new(moment(from), moment(to), what, reason);
    assert!(new(1.0, 0.0, Amendment::LeaveOut, "x").is_err());
    assert!(new(0.0, 1.0, Amendment::LeaveOut, " ").is_err());
    assert!(new(0.0, 1.0, Amendment::Add(Temperature::default()), "x").is_err());
}

#[test]
fn a_short_gap_comes_back_from_a_table() {
    let mut log = HeatLog::new("oven");
    log.push(point(0.0, 200.0)).unwrap();
    log.break_here();
    log.push(point(60.0, 190.0)).unwrap();
    let back = read_table("oven", &write_table(&log)).unwrap();
    assert_eq!(back, log);
    assert_eq!(back.gaps().len(), 1);
}

#[test]
fn lines_left_out_are_named_and_leave_a_gap() {
    let text = "time,celsius\n2026-05-01T10:00:00Z,80\n2026-05-01T10:05:00Z,5000\n\
                2026-05-01T09:00:00Z,79\n2026-05-01T10:06:00Z,176F\n2026-05-01T10:10:00Z,78\n";
    assert!(read_table("x", text).is_err());
    let (log, left_out) = read_table_leaving_out("x", text).unwrap();
    let words: Vec<String> = left_out.iter().map(ToString::to_string).collect();
    assert_eq!(log.points().len(), 2);
    assert_eq!(log.gaps().len(), 1);
    for (line, what) in [
        ("line 3", "5000"),
        ("line 4", "goes back"),
        ("line 5", "176F"),
    ] {
        assert!(
            words.iter().any(|w| w.contains(line) && w.contains(what)),
            "{words:?}"
        );
    }
    assert!(read_table_leaving_out("x", "time,celsius\nsoon,1\n").is_err());
}

/// A pan in a cold store of 3 °C from 90 °C with a time constant in minutes, a
/// reading every two minutes, up to a minute.
fn pan(time_constant: f64, until: f64) -> HeatLog {
    let mut log = HeatLog::new("pan of stock");
    let mut minute = 0.0;
    while minute <= until {
        log.push(point(
            minute * 60.0,
            3.0 + 87.0 * (-minute / time_constant).exp(),
        ))
        .unwrap();
        minute += 2.0;
    }
    log
}

// By Newton's law of cooling a pan toward 3 degC takes its time constant times ln(54 / 18) =
// 1.0986 from 57 to 21 degC. US FDA Food Code 2022, 3-501.14(A): within 2 h (from memory). So a
// time constant of 132 min is 25 min late, and one of 80 min is 32 min early.
#[test]
fn a_pan_that_cools_too_slowly_is_told_while_ice_still_helps() {
    let limits = Limits::food_code();
    let limit = limits.named("cooling").unwrap();
    let around = Surroundings::about(Temperature::from_celsius(3.0).unwrap(), 1.0).unwrap();
    let look = |time_constant: f64, until: f64| {
        let log = pan(time_constant, until);
        let now = log.points().last().unwrap().at;
        outlook(&log, limit, around, &Habit::default(), now)
    };
    // It is at 57 degC after 63 minutes. Half an hour later it is to be looked at; in three
    // quarters of an hour, with over an hour left, the call stands.
    let early = look(132.0, 94.0);
    assert_eq!(early[0].alarm, Alarm::Look, "{:?}", early[0]);
    assert_eq!(early[0].going.code(), "late", "{:?}", early[0]);
    let slow = look(132.0, 110.0);
    assert_eq!(slow[0].alarm, Alarm::Act, "{:?}", slow[0]);
    let late = slow[0]
        .expected
        .unwrap()
        .likely
        .duration_since(slow[0].deadline.unwrap());
    // The deadline counts from the last reading above 57, up to two minutes before.
    assert!((20..=32).contains(&late.as_mins()), "{late:#}");
    let Going::Cooling { pace, remedy, .. } = slow[0].going else {
        panic!("{:?}", slow[0]);
    };
    assert!(
        matches!(pace, Pace::Late { by, .. } if (20..=32).contains(&by.as_mins())),
        "{pace:?}"
    );
    assert_eq!(remedy, Remedy::Ice);
    let quick = look(80.0, 70.0);
    assert_ne!(quick[0].alarm, Alarm::Act, "{:?}", quick[0]);
    let hot = look(132.0, 30.0);
    assert_eq!((hot.len(), hot[0].alarm), (1, Alarm::Quiet));
    // Past the deadline nothing is foretold any more.
    assert_eq!(look(300.0, 300.0)[0].alarm, Alarm::Over);
}

// One stray reading of 58 degC, a probe taken out or a lid touched, is no new start: the pan that
// was overdue before it is overdue after it (57 to 21 degC within 2 h, as above).
#[test]
fn a_stray_hot_reading_does_not_begin_the_clock_anew() {
    let limits = Limits::food_code();
    let limit = limits.named("cooling").unwrap();
    let slow = |stray: bool| {
        let mut log = HeatLog::new("pan");
        for minute in (0..300).step_by(5) {
            let celsius = if stray && minute == 280 {
                58.0
            } else {
                65.0 - 0.12 * f64::from(minute)
            };
            log.push(point(f64::from(minute) * 60.0, celsius)).unwrap();
        }
        let now = log.points().last().unwrap().at;
        outlook(&log, limit, Surroundings::UNKNOWN, &Habit::default(), now)
    };
    let (without, with) = (slow(false), slow(true));
    assert_eq!(without[0].alarm, Alarm::Over);
    assert_eq!(with[0].alarm, Alarm::Over);
    assert_eq!(with[0].deadline, without[0].deadline);
}

// 3-501.16: at least 57 degC hot. A probe that is good to 1 degC cannot tell 56.99 from it; 55.9
// is below it whatever the probe.
#[test]
fn what_the_probe_cannot_tell_from_the_limit_is_too_close_ahead_of_time_too() {
    let limits = Limits::food_code();
    let limit = limits.named("hot-holding").unwrap();
    for (celsius, doubt, alarm, code) in [
        (56.99, Some(1.0), Alarm::Close, "too-close"),
        (55.9, Some(1.0), Alarm::Over, "beyond"),
        (56.99, None, Alarm::Over, "beyond"),
    ] {
        let mut log = HeatLog::new("soup");
        for minute in 0..40 {
            log.push(point(f64::from(minute) * 60.0, celsius)).unwrap();
        }
        log.doubted_by(doubt.map(|within| Probe::Within(ProbeDoubt::new(within).unwrap())));
        let now = log.points().last().unwrap().at;
        let ahead = outlook(&log, limit, Surroundings::KITCHEN, &Habit::default(), now);
        assert_eq!(
            (ahead[0].alarm, ahead[0].going.code()),
            (alarm, code),
            "{celsius}"
        );
    }
}

// 3-501.19(B): four hours under time control (from memory); 3-501.16: at least 57 degC hot, at
// most 5 degC cold; 3-402.11(A): -20 degC for 168 h.
#[test]
fn clocks_of_holding_time_and_freezing() {
    let limits = Limits::food_code();
    let look = |log: &HeatLog, name: &str, now: f64| {
        let limit = limits.named(name).unwrap();
        outlook(
            log,
            limit,
            Surroundings::KITCHEN,
            &Habit::default(),
            moment(now * 60.0),
        )
    };
    let level = |celsius: f64, minutes: i32| {
        let mut log = HeatLog::new("x");
        for minute in (0..=minutes).step_by(5) {
            log.push(point(f64::from(minute) * 60.0, celsius)).unwrap();
        }
        log
    };
    let time_only = look(&level(20.0, 60), "time-only", 60.0);
    assert_eq!(time_only[0].deadline, Some(moment(4.0 * 3600.0)));
    assert!(
        matches!(time_only[0].going, Going::Out { left, .. } if left.as_mins() == 180),
        "{:?}",
        time_only[0]
    );
    assert_eq!(
        look(&level(20.0, 60), "time-only", 250.0)[0].alarm,
        Alarm::Over
    );
    let cold = look(&level(20.0, 60), "time-only-cold", 60.0);
    assert_eq!(cold.len(), 2, "the clock and the ceiling of 21 degC");
    let beyond = look(&level(50.0, 60), "hot-holding", 60.0);
    assert_eq!(beyond[0].alarm, Alarm::Over);
    assert_eq!(
        look(&level(60.0, 60), "hot-holding", 60.0)[0].alarm,
        Alarm::Quiet
    );
    let frozen = look(&level(-21.0, 120), "raw-fish-freezing", 120.0);
    assert!(
        matches!(
            frozen[0].going,
            Going::Hold { asked, stage: HoldStage::Lasting { lasted }, .. }
                if (asked - lasted).as_hours() == 166
        ),
        "{:?}",
        frozen[0]
    );
    // Falling from 66 degC by a degree in five minutes: 57 is ten minutes or a little more away.
    let mut falling = HeatLog::new("x");
    for step in 0..8 {
        falling
            .push(point(f64::from(step) * 300.0, 66.0 - f64::from(step)))
            .unwrap();
    }
    let soon = look(&falling, "hot-holding", 35.0);
    assert_eq!(soon[0].alarm, Alarm::Act, "{:?}", soon[0]);
    assert!(
        matches!(
            soon[0].going,
            Going::Holding {
                side: Side::AtLeast,
                next: HoldingNext::Passes { remedy: true, .. },
                ..
            }
        ),
        "{:?}",
        soon[0]
    );
}

#[test]
fn earlier_mornings_come_out_of_one_long_log() {
    let mut log = HeatLog::new("oven");
    let day = 24.0 * 3600.0;
    for morning in 0..4 {
        let start = f64::from(morning) * day;
        let until = if morning == 3 { 60 } else { 240 };
        for minute in 0..until {
            let celsius = 25.0 + 260.0 * (-f64::from(minute) / 300.0).exp();
            log.push(point(start + f64::from(minute) * 60.0, celsius))
                .unwrap();
        }
    }
    let now = log.points().last().unwrap().at;
    let (today, habit) = mornings(&log, now);
    assert_eq!(today.points().len(), 60);
    assert_eq!(habit.mornings(), 3);
}
