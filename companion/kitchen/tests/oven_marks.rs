//! What lighting an oven did, learned from marks: against logs worked by hand.

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
