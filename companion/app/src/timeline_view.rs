//! A day laid out in time, as plain data: places are shares of the time shown.

use super::words::{Language, say};
use evenhand_kitchen::heat::Band;
use evenhand_kitchen::moment::show_time;
use evenhand_kitchen::prep::StepState;
use evenhand_protocol::Temperature;
use evenhand_use_cases::heat::{band_words, log_words};
use evenhand_use_cases::prep::{Bar, LaneOf, OvenCourse, PrepNow, Timeline, standing_word};
use evenhand_use_cases::times;
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp, Unit};

/// A day laid out.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct TimelineView {
    /// The full hours and where they stand, from 0 to 1.
    pub hours: Vec<(f32, String)>,
    /// Where now is.
    pub now: f32,
    /// When service opens, and where that is.
    pub opens: (f32, String),
    /// The lanes.
    pub lanes: Vec<LaneView>,
    /// The ovens.
    pub ovens: Vec<OvenView>,
    /// What is not seen in it, in words.
    pub notes: Vec<String>,
}

/// A lane.
#[derive(Debug, Clone, PartialEq)]
pub struct LaneView {
    /// Whose, or of what.
    pub name: String,
    /// Its bars, in order of when they begin.
    pub bars: Vec<BarView>,
}

/// A step in its time.
#[derive(Debug, Clone, PartialEq)]
pub struct BarView {
    /// Where it begins; below 0 where that is before what is shown.
    pub from: f32,
    /// Where it ends; above 1 where that is after it.
    pub until: f32,
    /// Its name.
    pub name: String,
    /// How it stands.
    pub standing: StepState,
    /// All of it in words.
    pub spoken: String,
}

/// An oven.
#[derive(Debug, Clone, PartialEq)]
pub struct OvenView {
    /// Which.
    pub name: String,
    /// What was measured: place in time, and height from 0 to 1.
    pub measured: Vec<(f32, f32)>,
    /// The temperatures at the bottom and the top.
    pub ends: (String, String),
    /// Bands that steps wait for.
    pub bands: Vec<BandView>,
}

/// A band that a step waits for.
#[derive(Debug, Clone, PartialEq)]
pub struct BandView {
    /// Its lower and upper end, from 0 to 1.
    pub ends: (f32, f32),
    /// The step and the band.
    pub words: String,
    /// When the oven is in it: hardly before, likely from, likely until, hardly after.
    pub stretches: Vec<[f32; 4]>,
}

/// The day, to be shown.
#[must_use]
pub fn view(
    timeline: &Timeline,
    prep: &PrepNow,
    now: Timestamp,
    zone: &TimeZone,
    language: Language,
) -> TimelineView {
    let place = TimeAxis::of(timeline);
    let mut notes = Vec::new();
    if !timeline.without_time.is_empty() {
        let steps = timeline.without_time.join(", ");
        notes.push(say!(language, "prep-timeline-without-time", steps = steps).into_owned());
    }
    if timeline.later > 0 {
        let count = timeline.later;
        notes.push(say!(language, "prep-timeline-later", count = count).into_owned());
    }
    let opens = show_time(timeline.service, zone);
    TimelineView {
        hours: hours(timeline, &place, zone),
        now: place.at(now),
        opens: (
            place.at(timeline.service),
            say!(language, "prep-timeline-opens", time = opens).into_owned(),
        ),
        lanes: timeline
            .lanes
            .iter()
            .map(|lane| LaneView {
                name: match &lane.of {
                    LaneOf::Hand(name) | LaneOf::Shared(name) => name.clone(),
                    LaneOf::Nobody => say!(language, "prep-lane-nobody").into_owned(),
                    LaneOf::Rests => say!(language, "prep-lane-rests").into_owned(),
                },
                bars: lane
                    .bars
                    .iter()
                    .map(|bar| bar_view(bar, &place, now, zone, language))
                    .collect(),
            })
            .collect(),
        ovens: timeline
            .ovens
            .iter()
            .map(|oven| oven_view(oven, prep, &place, language))
            .collect(),
        notes,
    }
}

/// Where moments stand in the time that is shown.
struct TimeAxis {
    from: Timestamp,
    seconds: f64,
}

impl TimeAxis {
    fn of(timeline: &Timeline) -> Self {
        Self {
            from: timeline.from,
            seconds: timeline
                .to
                .duration_since(timeline.from)
                .as_secs_f64()
                .max(1.0),
        }
    }

    fn at(&self, moment: Timestamp) -> f32 {
        (moment.duration_since(self.from).as_secs_f64() / self.seconds) as f32
    }
}

fn bar_view(
    bar: &Bar,
    place: &TimeAxis,
    now: Timestamp,
    zone: &TimeZone,
    language: Language,
) -> BarView {
    let today = now.to_zoned_datetime(zone.clone()).date();
    let time = |at: Timestamp| times::within_a_week(language, at, today, zone);
    BarView {
        from: place.at(bar.from),
        until: place.at(bar.until),
        name: bar.name.clone(),
        standing: bar.standing,
        spoken: say!(
            language,
            "prep-bar",
            step = bar.name.as_str(),
            standing = standing_word(language, bar.standing),
            from = time(bar.from),
            until = time(bar.until)
        )
        .into_owned(),
    }
}

/// Full hours, thinned so that their labels stand apart.
fn hours(timeline: &Timeline, place: &TimeAxis, zone: &TimeZone) -> Vec<(f32, String)> {
    let length = timeline.to.duration_since(timeline.from).as_hours();
    let step = match length {
        ..=9 => 1,
        _ => 2,
    };
    let Ok(first) = timeline
        .from
        .to_zoned_datetime(zone.clone())
        .round(Unit::Hour)
    else {
        return Vec::new();
    };
    (0..=length + 1)
        .step_by(step)
        .filter_map(|hour| {
            let at = first
                .timestamp()
                .checked_add(SignedDuration::from_hours(hour));
            at.ok()
        })
        .filter(|at| *at >= timeline.from && *at < timeline.to)
        .map(|at| (place.at(at), show_time(at, zone)))
        .collect()
}

/// So many degrees are shown beyond the coolest and the hottest thing of an oven.
const ROOM: f64 = 10.0;

fn oven_view(oven: &OvenCourse, prep: &PrepNow, place: &TimeAxis, language: Language) -> OvenView {
    let all = || {
        let measured = oven.measured.iter().map(|point| point.temperature);
        let ends = oven.bands.iter().flat_map(|band| [band.low, band.high]);
        measured.chain(ends).map(Temperature::celsius)
    };
    let (low, high) = (
        all().fold(f64::INFINITY, f64::min) - ROOM,
        all().fold(f64::NEG_INFINITY, f64::max) + ROOM,
    );
    let height = |celsius: f64| ((celsius - low) / (high - low)) as f32;
    OvenView {
        name: log_words(language, &oven.log),
        measured: oven
            .measured
            .iter()
            .map(|point| (place.at(point.at), height(point.temperature.celsius())))
            .collect(),
        ends: (format!("{low:.0} °C"), format!("{high:.0} °C")),
        bands: oven
            .bands
            .iter()
            .map(|band| {
                let step = prep
                    .board
                    .step(band.step)
                    .map_or_else(|_| String::new(), evenhand_kitchen::prep::Step::full_name);
                let range = Band::new(band.low, band.high)
                    .map_or_else(|_| String::new(), |range| band_words(language, range));
                let words = if band.stretches.is_empty() {
                    say!(
                        language,
                        "prep-oven-unknown",
                        step = step.as_str(),
                        band = range
                    )
                } else {
                    say!(
                        language,
                        "prep-oven-band",
                        step = step.as_str(),
                        band = range
                    )
                };
                BandView {
                    ends: (height(band.low.celsius()), height(band.high.celsius())),
                    words: words.into_owned(),
                    stretches: band
                        .stretches
                        .iter()
                        .map(|stretch| {
                            let leaves = stretch.leaves;
                            [
                                place.at(stretch.enters.early),
                                place.at(stretch.enters.likely),
                                leaves.map_or(1.0, |leaves| place.at(leaves.likely)),
                                leaves
                                    .and_then(|leaves| leaves.late)
                                    .map_or(1.0, |late| place.at(late)),
                            ]
                        })
                        .collect(),
                }
            })
            .collect(),
    }
}
