//! What was foretold, held against what came.

use super::forecast::{Band, Forecast, When};
use super::log::HeatLog;
use super::outlook::{Alarm, Outlook};
use evenhand_protocol::Temperature;
use jiff::{SignedDuration, Timestamp};

/// What an interval was told of; each kind has a record of its own.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ToldOf {
    /// When a band is entered.
    Band,
    /// Whether a limit is met: "in time" is an interval that ends at the deadline, "late" one
    /// that begins there.
    Limit,
}

/// An interval that was told: a level will be reached between two moments.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ToldInterval {
    /// What it was told of.
    pub of: ToldOf,
    /// When it was told.
    pub at: Timestamp,
    /// The level.
    pub level: Temperature,
    /// Whether the temperature was above it then.
    pub falling: bool,
    /// Early end, middle and late end.
    pub when: When,
}

/// What came of a told interval.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Came {
    /// The level was reached within it.
    Held,
    /// It was reached before, or was not there at its late end.
    Missed,
    /// Nobody can say, or it was overtaken: a gap in the readings, or a marker
    /// that says that something was done to it.
    NotCounted,
}

/// Tells of one log lie at least so far apart to be counted: the next second's
/// says the same again.
pub const TOLD_EVERY: SignedDuration = SignedDuration::from_mins(10);

impl ToldInterval {
    /// The interval in a forecast for a band, told at a moment from a
    /// temperature. `None` where the forecast has none to enter it.
    #[must_use]
    pub fn of(forecast: Forecast, band: Band, here: Temperature, at: Timestamp) -> Option<Self> {
        let Forecast::Coming { enters, .. } = forecast else {
            return None;
        };
        let falling = here > band.high();
        Some(Self {
            of: ToldOf::Band,
            at,
            level: if falling { band.high() } else { band.low() },
            falling,
            when: enters,
        })
    }

    /// What an outlook says of a limit, told at a moment from a temperature: that a level will be
    /// there before the deadline or after it, or, where there is none, when. `None` where it says
    /// neither, as where the interval has the deadline within it, and where it asks to act now:
    /// whoever does so changes what comes.
    #[must_use]
    pub fn of_outlook(outlook: &Outlook, here: Temperature, at: Timestamp) -> Option<Self> {
        if outlook.alarm == Alarm::Act {
            return None;
        }
        let expected = outlook.expected?;
        let level = outlook.going.level()?;
        let when = match outlook.deadline {
            None => expected,
            Some(deadline) if expected.late.is_some_and(|late| late <= deadline) => When {
                early: at.min(expected.likely),
                likely: expected.likely,
                late: Some(deadline),
            },
            Some(deadline) if expected.early > deadline => When {
                early: deadline,
                likely: expected.likely,
                late: None,
            },
            Some(_) => return None,
        };
        Some(Self {
            of: ToldOf::Limit,
            at,
            level,
            falling: here > level,
            when,
        })
    }

    /// What came of it by a log of readings since then; `None` while it may
    /// still come.
    #[must_use]
    pub fn came(&self, log: &HeatLog, now: Timestamp) -> Option<Came> {
        let there = |t: Temperature| {
            if self.falling {
                t <= self.level
            } else {
                t >= self.level
            }
        };
        let points = log.points();
        let since = points.partition_point(|p| p.at <= self.at).max(1) - 1;
        let overtaken = |until: Timestamp| {
            log.markers
                .iter()
                .any(|marker| marker.at > self.at && marker.at <= until)
        };
        for pair in points.get(since..).unwrap_or_default().windows(2) {
            let (before, point) = (pair[0], pair[1]);
            if log.is_gap(&before, &point) || overtaken(point.at) {
                return Some(Came::NotCounted);
            }
            if there(point.temperature) {
                let passed = passing(&before, &point, self.level);
                let in_time = self.when.late.is_none_or(|late| passed <= late);
                return Some(if passed >= self.when.early && in_time {
                    Came::Held
                } else {
                    Came::Missed
                });
            }
            if self.when.late.is_some_and(|late| point.at > late) {
                return Some(Came::Missed);
            }
            // "Late" has come true once the deadline is past, whenever it gets there.
            let late_as_told = self.of == ToldOf::Limit && self.when.late.is_none();
            if late_as_told && point.at > self.when.early {
                return Some(Came::Held);
            }
        }
        let silent = points
            .last()
            .is_none_or(|last| now.duration_since(last.at) > log.longest_step);
        silent.then_some(Came::NotCounted)
    }
}

/// When the straight line between two readings passes a level.
fn passing(
    before: &super::log::LogPoint,
    after: &super::log::LogPoint,
    level: Temperature,
) -> Timestamp {
    let (a, b) = (before.temperature.celsius(), after.temperature.celsius());
    if a == b {
        return after.at;
    }
    let share = ((level.celsius() - a) / (b - a)).clamp(0.0, 1.0);
    let whole = after.at.duration_since(before.at).as_secs_f64();
    SignedDuration::try_from_secs_f64(whole * share)
        .ok()
        .and_then(|after_it| before.at.checked_add(after_it).ok())
        .unwrap_or(after.at)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::heat::{LogPoint, Marker};

    fn moment(minutes: i64) -> Timestamp {
        Timestamp::from_second(1_800_000_000 + minutes * 60).unwrap()
    }

    fn celsius(c: i32) -> Temperature {
        Temperature::from_millicelsius(c * 1000)
    }

    /// A degree a minute down from 90, read every five minutes.
    fn log(minutes: i64) -> HeatLog {
        let mut log = HeatLog::new("oven");
        for at in (0..=minutes).step_by(5) {
            let temperature = celsius(90 - at as i32);
            log.push(LogPoint {
                at: moment(at),
                temperature,
            })
            .unwrap();
        }
        log
    }

    fn told(early: i64, late: Option<i64>) -> ToldInterval {
        let when = When {
            likely: moment(30),
            early: moment(early),
            late: late.map(moment),
        };
        let band = Band::new(celsius(50), celsius(58)).unwrap();
        let forecast = Forecast::Coming {
            enters: when,
            leaves: None,
        };
        ToldInterval::of(forecast, band, celsius(80), moment(10)).unwrap()
    }

    // 58 degC is passed at minute 32, between two readings.
    #[test]
    fn what_came_is_held_against_what_was_told() {
        let now = moment(60);
        assert_eq!(told(31, Some(33)).came(&log(60), now), Some(Came::Held));
        assert_eq!(told(20, None).came(&log(60), now), Some(Came::Held));
        assert_eq!(told(33, Some(40)).came(&log(60), now), Some(Came::Missed));
        assert_eq!(told(20, Some(31)).came(&log(60), now), Some(Came::Missed));
        // Not there yet, and its late end is past or not.
        assert_eq!(
            told(15, Some(18)).came(&log(20), moment(20)),
            Some(Came::Missed)
        );
        assert_eq!(told(25, Some(40)).came(&log(20), moment(20)), None);
    }

    #[test]
    fn gaps_markers_and_silence_are_not_counted() {
        let mut marked = log(60);
        marked.markers.push(Marker {
            at: moment(22),
            text: "lid off".to_owned(),
        });
        let now = moment(60);
        assert_eq!(
            told(31, Some(33)).came(&marked, now),
            Some(Came::NotCounted)
        );
        // A marker from before it was told is nothing against it.
        marked.markers[0].at = moment(9);
        assert_eq!(told(31, Some(33)).came(&marked, now), Some(Came::Held));
        let mut gapped = log(60);
        gapped.longest_step = SignedDuration::from_mins(4);
        assert_eq!(
            told(31, Some(33)).came(&gapped, now),
            Some(Came::NotCounted)
        );
        assert_eq!(
            told(31, Some(33)).came(&log(20), now),
            Some(Came::NotCounted)
        );
    }

    #[test]
    fn only_an_interval_is_told() {
        let band = Band::new(celsius(50), celsius(58)).unwrap();
        assert_eq!(
            ToldInterval::of(Forecast::NotComing, band, celsius(80), moment(0)),
            None
        );
    }
}
