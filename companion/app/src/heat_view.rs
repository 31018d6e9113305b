//! What the heat screen shows, as plain data, and how it is made.

use super::bench_view::Tone;
use super::figures::celsius;
use super::words::{Language, say};
use evenhand_kitchen::heat::{Alarm, Band, Forecast, HeatLog, LogName};
use evenhand_kitchen::limits::{Demand, Limit, Limits};
use evenhand_kitchen::moment::show_time;
use evenhand_protocol::Temperature;
use evenhand_store::ListedHeatLog;
use evenhand_use_cases::heat::{
    HeatNow, Records, USUAL_LOGS, band_words, forecast_words, limit_record_words, log_words,
    marker_words, outlook_words, probe_words, record_words,
};
use evenhand_use_cases::limits::{caution, limit_words, source_words};
use evenhand_use_cases::sheet::with_degree_signs;
use jiff::Timestamp;
use jiff::tz::TimeZone;

/// As many as fit side by side.
const MOST_LOGS: usize = 5;
/// More points than a wide screen has pixels to tell apart are thinned.
const MOST_POINTS: usize = 600;

/// Everything on the heat screen.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct HeatView {
    /// The logs to choose from.
    pub logs: Vec<HeatTile>,
    /// The one that is shown.
    pub shown: Option<HeatShown>,
    /// The log that the probe is recorded into, in words.
    pub recording: Option<String>,
    /// Whether a probe reads now.
    pub probe: bool,
    /// The limits that a log can be watched for.
    pub limits: Vec<LimitTile>,
    /// Why there are none: the kitchen's own file cannot be used, and nothing
    /// is judged until it can.
    pub limits_trouble: Option<String>,
}

/// One limit to choose.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LimitTile {
    /// Its name on record.
    pub name: String,
    /// What it is called.
    pub words: String,
    /// Where in its source it stands.
    pub section: String,
}

/// One log to choose.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct HeatTile {
    /// Its name on record.
    pub name: LogName,
    /// What it is called.
    pub words: String,
    /// Its last reading and when that was, or that it is not begun.
    pub last: String,
    /// Whether it is the one shown.
    pub chosen: bool,
}

/// One log, shown.
#[derive(Debug, Clone, PartialEq)]
pub struct HeatShown {
    /// Its name on record.
    pub name: LogName,
    /// What it is called.
    pub words: String,
    /// The latest reading, large; `None` where nothing fresh is known.
    pub figure: Option<String>,
    /// The same in the other unit.
    pub other_unit: String,
    /// Readings, stretch by stretch between gaps: hours from now, °C.
    pub lines: Vec<Vec<[f64; 2]>>,
    /// The band aimed at, °C.
    pub band: Option<(f64, f64)>,
    /// Levels of the limit kept to, °C.
    pub levels: Vec<f64>,
    /// When it reaches a level: hours from now (early, likely, late) and °C.
    pub arrivals: Vec<Arrival>,
    /// Words at moments: hours from now.
    pub markers: Vec<(f64, String)>,
    /// The first and last moment in sight, hours from now.
    pub hours: (f64, f64),
    /// The lowest and highest temperature in sight, °C.
    pub range: (f64, f64),
    /// What hours are counted from.
    pub now: Timestamp,
    /// The zone that times of day are told in.
    pub zone: TimeZone,
    /// What to know and do, the loudest first.
    pub says: Vec<(Tone, String)>,
    /// Where a limit comes from, and the caution.
    pub foot: String,
    /// The band's ends as they are set, where one is aimed at.
    pub aim: Option<(Temperature, Temperature)>,
    /// The limit's name, where one is aimed at.
    pub limit: Option<String>,
}

/// When a level is reached.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Arrival {
    /// The level, °C.
    pub celsius: f64,
    /// The early end of the interval, hours from now.
    pub early: f64,
    /// As likely before as after.
    pub likely: f64,
    /// The late end; `None` where it may never come.
    pub late: Option<f64>,
}

/// The logs to choose from: those on record, the one read last first, and the
/// usual ones.
#[must_use]
pub fn tiles(
    logs: &[ListedHeatLog],
    chosen: Option<&LogName>,
    zone: &TimeZone,
    language: Language,
) -> Vec<HeatTile> {
    let mut tiles: Vec<HeatTile> = logs
        .iter()
        .map(|log| HeatTile {
            name: log.name.clone(),
            words: log_words(language, &log.name),
            last: log
                .last
                .map_or_else(
                    || say!(language, "heat-log-no-reading"),
                    |p| {
                        say!(
                            language,
                            "heat-log-last",
                            temperature = celsius(p.temperature, language),
                            time = show_time(p.at, zone)
                        )
                    },
                )
                .into_owned(),
            chosen: false,
        })
        .collect();
    for usual in USUAL_LOGS {
        if let Ok(name) = LogName::new("name", usual)
            && !tiles.iter().any(|tile| tile.name.key() == name.key())
        {
            tiles.push(HeatTile {
                words: log_words(language, &name),
                name,
                last: say!(language, "heat-log-not-begun").into_owned(),
                chosen: false,
            });
        }
    }
    tiles.truncate(MOST_LOGS);
    for tile in &mut tiles {
        tile.chosen = chosen.is_some_and(|chosen| chosen.key() == tile.name.key());
    }
    tiles
}

/// The limits that a log can be watched for.
#[must_use]
pub fn limit_tiles(limits: &Limits, language: Language) -> Vec<LimitTile> {
    limits
        .iter()
        // What is looked at once, as it is delivered, is not watched; nor is what is not foretold.
        .filter(|limit| {
            !limit.name.starts_with("receiving")
                && matches!(
                    limit.demand,
                    Demand::Cooling { .. }
                        | Demand::AtMost(_)
                        | Demand::AtLeast(_)
                        | Demand::TimeOnly { .. }
                        | Demand::Frozen(_)
                        | Demand::Cooked(_)
                )
        })
        .map(|limit| LimitTile {
            name: limit.name.clone(),
            words: limit_words(language, &limit.name),
            section: limit.source.section.clone(),
        })
        .collect()
}

/// A log as it stands, to be shown.
#[must_use]
pub fn shown(
    name: &LogName,
    standing: &HeatNow,
    recording: bool,
    record: Option<Records>,
    now: Timestamp,
    zone: &TimeZone,
    language: Language,
) -> HeatShown {
    let hours = |at: Timestamp| at.duration_since(now).as_secs_f64() / 3600.0;
    let log = &standing.log;
    let band = standing
        .aim
        .as_ref()
        .and_then(|aim| aim.band().ok().flatten());
    let levels = standing
        .limit
        .as_ref()
        .map_or_else(Vec::new, |(limit, _)| levels(limit));
    let mut arrivals = Vec::new();
    if let (Some(band), Some(forecast)) = (band, standing.forecast) {
        let falling = log
            .points()
            .last()
            .is_some_and(|last| last.temperature > band.high());
        let (near, far) = if falling {
            (band.high(), band.low())
        } else {
            (band.low(), band.high())
        };
        let (enters, leaves) = match forecast {
            Forecast::Coming { enters, leaves } => (Some(enters), leaves),
            Forecast::Inside { leaves } => (None, leaves),
            Forecast::NotComing | Forecast::Unknown(_) => (None, None),
        };
        for (when, level) in [(enters, near), (leaves, far)] {
            arrivals.extend(when.map(|when| Arrival {
                celsius: level.celsius(),
                early: hours(when.early),
                likely: hours(when.likely),
                late: when.late.map(hours),
            }));
        }
    }
    if let Some((_, outlooks)) = &standing.limit {
        for (outlook, level) in outlooks
            .iter()
            .zip(levels.iter().rev().take(outlooks.len()).rev())
        {
            arrivals.extend(outlook.expected.map(|when| Arrival {
                celsius: *level,
                early: hours(when.early),
                likely: hours(when.likely),
                late: when.late.map(hours),
            }));
        }
    }
    let fresh = log
        .points()
        .last()
        .filter(|last| now.duration_since(last.at) <= log.longest_step);
    let mut says = sentences(standing, recording, record, zone, language);
    if fresh.is_none() {
        let words = match log.points().last() {
            Some(last) => say!(language, "heat-silent", time = show_time(last.at, zone)),
            None => say!(language, "heat-no-reading"),
        };
        says.insert(0, (Tone::Attention, words.into_owned()));
    }
    let lines = lines(log, hours);
    let (range, sight) = in_sight(&lines, band, &levels, &arrivals);
    HeatShown {
        name: name.clone(),
        words: log_words(language, name),
        figure: fresh.map(|p| celsius(p.temperature, language)),
        other_unit: fresh.map_or_else(String::new, |p| {
            format!("{:.0} °F", p.temperature.fahrenheit())
        }),
        lines,
        band: band.map(|band| (band.low().celsius(), band.high().celsius())),
        levels,
        arrivals,
        markers: log
            .markers
            .iter()
            .map(|marker| (hours(marker.at), marker_words(language, &marker.text)))
            .collect(),
        hours: sight,
        range,
        now,
        zone: zone.clone(),
        says: says
            .into_iter()
            .map(|(tone, words)| (tone, with_degree_signs(&words)))
            .collect(),
        foot: standing.limit.as_ref().map_or_else(
            || {
                match band {
                    Some(band) => {
                        let band = band_words(language, band);
                        say!(language, "heat-watched-band", band = band)
                    }
                    None => say!(language, "heat-watched-nothing"),
                }
                .into_owned()
            },
            |(limit, _)| {
                say!(
                    language,
                    "heat-limit-from",
                    source = source_words(language, &limit.source),
                    probe = with_degree_signs(&probe_words(language, log, standing.probe)),
                    caution = caution(language),
                )
                .into_owned()
            },
        ),
        aim: band.map(|band| (band.low(), band.high())),
        limit: standing.limit.as_ref().map(|(limit, _)| limit.name.clone()),
    }
}

fn levels(limit: &Limit) -> Vec<f64> {
    let temperatures = limit.demand.temperatures();
    temperatures.iter().map(|at| at.celsius()).collect()
}

fn sentences(
    standing: &HeatNow,
    recording: bool,
    record: Option<Records>,
    zone: &TimeZone,
    language: Language,
) -> Vec<(Tone, String)> {
    let mut says = Vec::new();
    if let Some((_, outlooks)) = &standing.limit {
        let mut all: Vec<_> = outlooks.iter().collect();
        all.sort_by_key(|outlook| std::cmp::Reverse(outlook.alarm));
        for outlook in all {
            let tone = match outlook.alarm {
                Alarm::Quiet => Tone::Quiet,
                Alarm::Look | Alarm::Close => Tone::Attention,
                Alarm::Act | Alarm::Over => Tone::Stop,
            };
            says.push((tone, outlook_words(language, outlook)));
        }
        if let Some(records) = record
            && outlooks.iter().any(|outlook| outlook.expected.is_some())
        {
            let words = limit_record_words(language, records.limits);
            says.push((Tone::Quiet, words));
        }
    }
    let band = standing
        .aim
        .as_ref()
        .and_then(|aim| aim.band().ok().flatten());
    if let (Some(forecast), Some(band)) = (standing.forecast, band) {
        let here = standing.log.points().last().map(|p| p.temperature);
        let tone = match forecast {
            Forecast::NotComing | Forecast::Unknown(_) => Tone::Attention,
            Forecast::Coming { .. } | Forecast::Inside { .. } => Tone::Quiet,
        };
        for words in forecast_words(language, forecast, band, here, zone) {
            says.push((tone, words));
        }
        if let (Some(records), Forecast::Coming { .. }) = (record, forecast) {
            says.push((Tone::Quiet, record_words(language, records.bands)));
        }
        let mornings = standing.habit.mornings();
        if mornings > 0 && tone == Tone::Quiet {
            let words = say!(language, "heat-mornings", count = mornings);
            says.push((Tone::Quiet, words.into_owned()));
        }
    }
    if standing.corrections > 0 {
        let words = say!(language, "heat-corrections", count = standing.corrections);
        says.push((Tone::Quiet, words.into_owned()));
    }
    if !recording && says.is_empty() {
        let words = say!(language, "heat-begin");
        says.push((Tone::Quiet, words.into_owned()));
    }
    says
}

/// Readings between gaps, thinned.
fn lines(log: &HeatLog, hours: impl Fn(Timestamp) -> f64) -> Vec<Vec<[f64; 2]>> {
    let step = log.points().len().div_ceil(MOST_POINTS).max(1);
    log.points()
        .chunk_by(|a, b| !log.is_gap(a, b))
        .map(|run| {
            let last = run.len().saturating_sub(1);
            run.iter()
                .enumerate()
                .filter(|(nth, _)| nth % step == 0 || *nth == last)
                .map(|(_, p)| [hours(p.at), p.temperature.celsius()])
                .collect()
        })
        .collect()
}

/// What range of temperature and time is in sight: the last three hours, or
/// what there is, and as far ahead as something is foretold.
fn in_sight(
    lines: &[Vec<[f64; 2]>],
    band: Option<Band>,
    levels: &[f64],
    arrivals: &[Arrival],
) -> ((f64, f64), (f64, f64)) {
    let first = lines.iter().flatten().map(|p| p[0]).fold(0.0, f64::min);
    let from = first.clamp(-12.0, -0.5);
    let ahead = arrivals
        .iter()
        .map(|a| a.late.unwrap_or(a.likely).max(a.likely))
        .fold(0.25, f64::max);
    let to = ahead.min(6.0) * 1.08;
    let mut low = f64::INFINITY;
    let mut high = f64::NEG_INFINITY;
    let mut see = |celsius: f64| {
        low = low.min(celsius);
        high = high.max(celsius);
    };
    for point in lines.iter().flatten() {
        see(point[1]);
    }
    if let Some(band) = band {
        see(band.low().celsius());
        see(band.high().celsius());
    }
    // A limit's levels are in sight where it is on the way to them.
    let measured: Vec<f64> = lines.iter().flatten().map(|p| p[1]).collect();
    for level in levels {
        let near = measured.is_empty() || measured.iter().any(|c| (c - level).abs() < 60.0);
        if near {
            see(*level);
        }
    }
    if !low.is_finite() {
        (low, high) = (0.0, 100.0);
    }
    let margin = ((high - low) * 0.12).max(2.0);
    ((low - margin, high + margin), (from, to))
}
