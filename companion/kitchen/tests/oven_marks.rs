//! What lighting an oven and opening its door did, learned from marks: against logs worked by hand.

use evenhand_kitchen::heat::*;
use evenhand_protocol::Temperature;
use jiff::{SignedDuration, Timestamp};

fn at(day: i64, minutes: f64) -> Timestamp {
    let midnight: Timestamp = "2026-05-04T00:00:00Z".parse().unwrap();
    midnight + SignedDuration::from_secs(day * 86_400 + (minutes * 60.0).round() as i64)
}

fn push(log: &mut HeatLog, at: Timestamp, celsius: f64) {
    let temperature = Temperature::from_millicelsius((celsius * 1e3).round() as i32);
    log.push(LogPoint { at, temperature }).unwrap();
}

fn mark(log: &mut HeatLog, at: Timestamp, text: &str) {
    let text = text.to_owned();
    log.markers.push(Marker { at, text });
}

fn band(low: f64, high: f64) -> Band {
    let celsius = |it: f64| Temperature::from_millicelsius((it * 1e3) as i32);
    Band::new(celsius(low), celsius(high)).unwrap()
}

// By hand: lit at six, 400 degC at eight, then a fall of 1 degC a minute: into 204 to 216 after 184
// min of it and out after 196, so 304 and 316 min after six. On other days an hour later, or earlier.
#[test]
fn when_an_oven_comes_to_its_band_after_it_is_lit_worked_by_hand() {
    let mut log = HeatLog::new("oven");
    for (day, later) in [(0, 0.0), (1, 10.0), (2, 20.0)] {
        assert_eq!(after_lighting(&log, band(204.0, 216.0)), None);
        mark(&mut log, at(day, 360.0), LIT);
        for minute in 0..400 {
            let since = f64::from(minute);
            let celsius = if since < 120.0 + later {
                20.0 + 380.0 * since / (120.0 + later)
            } else {
                400.0 - (since - 120.0 - later)
            };
            push(&mut log, at(day, 360.0 + since), celsius.max(20.0));
        }
    }
    let (enters, leaves) = after_lighting(&log, band(204.0, 216.0)).unwrap();
    // 304, 314 and 324: the mean is 314, the standard deviation 10; Student's t with two degrees of
    // freedom is 1.8856 for eight in ten, times 10 times sqrt(4/3) is 21.77.
    for (found, expected) in [
        (enters.likely, 314.0),
        (enters.low, 292.23),
        (enters.high, 335.77),
        (leaves.likely, 326.0),
    ] {
        assert!((found - expected).abs() < 0.05, "{found}, not {expected}");
    }
    // A band that it was never above tells nothing.
    assert_eq!(after_lighting(&log, band(450.0, 500.0)), None);
}

// By hand: above a room of 25 degC an oven has 400 degC, and loses half of that every 120 min. After
// 60 min its door is open for 10, which leaves it with eight tenths of what it would have had. On a
// further morning after 60 min it has 282.84 left; opened for 10 min then, it is at 180 degC, 155 above
// the room, when it would have 193.75: 120 * log2(282.84 / 193.75) = 65.5 min on; and at 140 degC, when
// it would have 143.75: 117.2 min on.
#[test]
fn what_opening_the_door_does_worked_by_hand() {
    let mut log = HeatLog::new("oven");
    let fall = |minutes: f64| 400.0 * 0.5_f64.powf(minutes / 120.0);
    let (around, below) = (Surroundings::KITCHEN, band(140.0, 180.0));
    let now = |day| at(day, 60.0);
    let opened = |log: &HeatLog, day| {
        let (today, habit) = mornings(log, now(day));
        Door::learn(log, around).opened_now(&today, below, around, &habit, now(day))
    };
    for day in 0..4 {
        for minute in 0..=60 {
            push(
                &mut log,
                at(day, f64::from(minute)),
                25.0 + fall(f64::from(minute)),
            );
        }
        assert_eq!(Door::learn(&log, around).openings(), day as usize);
        assert_eq!(opened(&log, day).is_empty(), day < 3, "{day} openings");
        if day == 3 {
            break;
        }
        for minute in 70..=360 {
            let left = 0.8 * fall(f64::from(minute));
            push(&mut log, at(day, f64::from(minute)), 25.0 + left);
        }
        mark(&mut log, at(day, 60.0), DOOR_OPEN);
        mark(&mut log, at(day, 70.0), "Door shut");
    }
    let all = opened(&log, 3);
    let ten = SignedDuration::from_mins(10);
    let found = all.iter().find(|it| it.open == ten).unwrap();
    let minutes = |at: Timestamp| at.duration_since(now(3)).as_secs_f64() / 60.0;
    for (when, by_hand) in [(found.enters, 65.5), (found.leaves, 117.2)] {
        let (early, likely) = (minutes(when.early), minutes(when.likely));
        let late = minutes(when.late.unwrap());
        assert!((likely - by_hand).abs() < 4.0, "{likely}, not {by_hand}");
        assert!((early..=late).contains(&by_hand), "{early} to {late}");
    }
    // Six minutes to fifteen, as ten were marked; and the longer, the sooner.
    let lengths: Vec<i64> = all.iter().map(|it| it.open.as_mins()).collect();
    assert_eq!(lengths, [6, 8, 10, 12, 15]);
    assert!(all.is_sorted_by(|a, b| a.enters.likely >= b.enters.likely));
    // A door that nobody marked as shut tells nothing, nor does an oven that is much hotter.
    let hotter = mornings(&log, at(3, 0.0));
    let known = Door::learn(&log, around);
    let none = known.opened_now(&hotter.0, below, around, &hotter.1, at(3, 0.0));
    assert_eq!(none, []);
    log.markers.retain(|marker| marker.text == DOOR_OPEN);
    assert_eq!(Door::learn(&log, around).openings(), 0);
}
