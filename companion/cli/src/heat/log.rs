//! `evenhand heat log`, `mark` and `correct`.

use super::super::fields::happened;
use super::super::output::Telling;
use super::super::period::PeriodArguments;
use super::super::written::to_file;
use super::super::{Data, Failure, output};
use super::source::{no_table, time};
use super::text_of;
use crate::failure::{Kind, Spoken};
use crate::words::{bad_input, said, say};
use clap::Args;
use evenhand_kitchen::heat::{
    Amendment, Correction, HeatLog, LogName, LogPoint, Marker, TableError, read_table,
    read_table_leaving_out, write_table,
};
use evenhand_kitchen::moment::show_date_and_time_to_the_second;
use evenhand_kitchen::units::{excerpt, parse_temperature_difference};
use evenhand_store::{ListedHeatLog, RecordedCorrection};
use evenhand_use_cases::heat::{
    band_words, correction_error_words, marker_words, table_error_words,
};
use evenhand_words::Language;
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp};
use serde_json::{Value, json};
use std::io::Write;
use std::path::{Path, PathBuf};

#[derive(Debug, Args)]
pub(crate) struct LogArguments {
    /// The log; the list of them, if not said.
    #[arg(long, value_name = "NAME")]
    name: Option<String>,
    #[command(flatten)]
    period: PeriodArguments,
    /// As it was measured, without corrections.
    #[arg(long)]
    as_recorded: bool,
    /// Write it to this file, as time,celsius with times by RFC 3339.
    #[arg(long, value_name = "FILE.csv", requires = "name")]
    out: Option<PathBuf>,
    /// Write over a file that is there.
    #[arg(long, requires = "out")]
    force: bool,
    /// Take a log in from this file.
    #[arg(
        long = "in",
        value_name = "FILE.csv",
        requires = "name",
        conflicts_with = "out"
    )]
    from_file: Option<PathBuf>,
    /// Leave lines out that cannot be used, naming each, instead of refusing the file.
    #[arg(long, requires = "from_file")]
    leave_out: bool,
    /// The longest step between readings of the file that is no gap, for a log that is new: 15 min.
    #[arg(long, value_name = "TIME", requires = "from_file")]
    longest_step: Option<String>,
    /// JSON: one object a log, or a reading.
    #[arg(long)]
    json: bool,
}

pub(super) fn run(data: &Data, arguments: &LogArguments) -> Result<(), Failure> {
    let Some(name) = &arguments.name else {
        return list(data, arguments.json);
    };
    let name = LogName::new("--name", name)?;
    if let Some(path) = &arguments.from_file {
        return take_in(data, &name, path, arguments);
    }
    let now = Timestamp::now().to_zoned_datetime(TimeZone::system());
    let (from, to) = arguments.period.period(&now)?;
    let before = |to: Timestamp| to.checked_sub(SignedDuration::from_millis(1)).unwrap_or(to);
    let stored = data.existing()?.heat_log(
        &name,
        from.unwrap_or(Timestamp::MIN),
        to.map_or(Timestamp::MAX, before),
    )?;
    let log = if arguments.as_recorded {
        stored.recorded.clone()
    } else {
        stored.corrected()
    };
    if let Some(path) = &arguments.out {
        to_file(data, "--out", path, arguments.force, |file| {
            file.write_all(write_table(&log).as_bytes())
        })?;
        return output::line(&say!(
            data.language,
            "heat-written-out",
            count = log.points().len(),
            name = name.as_str(),
            path = path.display().to_string()
        ));
    }
    if arguments.json {
        return output::json(&log_json(&log, &stored.corrections));
    }
    show(data.language, &log, &stored.corrections)
}

fn list(data: &Data, as_json: bool) -> Result<(), Failure> {
    let logs = data.existing()?.heat_logs()?;
    let language = data.language;
    for log in &logs {
        if as_json {
            output::json(&json!({
                "name": log.name.as_str(),
                "last_time": log.last.map(|p| p.at),
                "last_celsius": log.last.map(|p| p.temperature.celsius()),
                "longest_step_seconds": log.longest_step.as_secs(),
                "watched_for": watched_for(Language::English, log),
            }))?;
        } else {
            let last = log.last.map_or_else(
                || say!(language, "heat-no-reading"),
                |p| {
                    say!(
                        language,
                        "heat-last-reading",
                        celsius = celsius(language, p),
                        at = local(p.at)
                    )
                },
            );
            let name = log.name.as_str();
            output::line(&match watched_for(language, log) {
                None => say!(language, "heat-listed", name = name, last = last),
                Some(aim) => say!(
                    language,
                    "heat-listed-for",
                    name = name,
                    last = last,
                    aim = aim
                ),
            })?;
        }
    }
    output::nothing_yet(logs.is_empty(), as_json, &say!(language, "heat-no-log"))
}

fn watched_for(language: Language, log: &ListedHeatLog) -> Option<String> {
    let aim = log.aim.as_ref()?;
    match (aim.band(), &aim.limit) {
        (Ok(Some(band)), _) => Some(band_words(language, band)),
        (_, Some(limit)) => Some(limit.clone()),
        _ => None,
    }
}

fn celsius(language: Language, point: LogPoint) -> String {
    language.figure(format!("{:.1}", point.temperature.celsius()))
}

fn local(at: Timestamp) -> String {
    show_date_and_time_to_the_second(at, &TimeZone::system())
}

fn log_json(log: &HeatLog, corrections: &[RecordedCorrection]) -> Value {
    let readings: Vec<Value> = log
        .points()
        .iter()
        .map(|p| json!({ "time": p.at, "celsius": p.temperature.celsius() }))
        .collect();
    let markers: Vec<Value> = log
        .markers
        .iter()
        .map(|m| json!({ "time": m.at, "words": m.text }))
        .collect();
    let gaps: Vec<Value> = log
        .gaps()
        .iter()
        .map(|g| json!({ "from": g.from, "to": g.to }))
        .collect();
    json!({
        "name": log.name,
        "readings": readings,
        "gaps": gaps,
        "markers": markers,
        "corrections": corrections.iter().map(correction_json).collect::<Vec<_>>(),
    })
}

fn correction_json(c: &RecordedCorrection) -> Value {
    json!({
        "correction": c.id,
        "from": c.correction.from,
        "to": c.correction.to,
        "add_celsius": match c.correction.what {
            Amendment::LeaveOut => None,
            Amendment::Add(by) => Some(by.celsius()),
        },
        "left_out": c.correction.what == Amendment::LeaveOut,
        "reason": c.correction.reason,
        "recorded": c.recorded,
        "lifted": c.lifted,
    })
}

fn show_marker(language: Language, marker: &Marker) -> Result<(), Failure> {
    let words = marker_words(language, &marker.text);
    output::line(&format!("{}  -- {words}", local(marker.at)))
}

fn show(
    language: Language,
    log: &HeatLog,
    corrections: &[RecordedCorrection],
) -> Result<(), Failure> {
    let mut markers = log.markers.iter().peekable();
    let mut before: Option<&LogPoint> = None;
    for point in log.points() {
        while let Some(marker) = markers.next_if(|m| m.at <= point.at) {
            show_marker(language, marker)?;
        }
        if let Some(before) = before
            && log.is_gap(before, point)
        {
            output::line(&format!(
                "{:21}{}",
                "",
                say!(
                    language,
                    "heat-gap",
                    seconds = point.at.duration_since(before.at).as_secs().to_string()
                )
            ))?;
        }
        output::line(&format!(
            "{}  {:>7} degC",
            local(point.at),
            celsius(language, *point)
        ))?;
        before = Some(point);
    }
    for marker in markers {
        show_marker(language, marker)?;
    }
    for c in corrections {
        let what = match c.correction.what {
            Amendment::LeaveOut => say!(language, "heat-left-out"),
            Amendment::Add(by) => say!(
                language,
                "heat-added",
                by = language.figure(format!("{:+.1}", by.celsius()))
            ),
        };
        let number = c.id.to_string();
        let (from, to) = (local(c.correction.from), local(c.correction.to));
        let reason = c.correction.reason.as_str();
        output::line(&match c.lifted {
            None => say!(
                language,
                "heat-correction",
                number = number,
                from = from,
                to = to,
                what = what,
                reason = reason
            ),
            Some(_) => say!(
                language,
                "heat-correction-lifted",
                number = number,
                from = from,
                to = to,
                what = what,
                reason = reason
            ),
        })?;
    }
    Ok(())
}

fn take_in(
    data: &Data,
    name: &LogName,
    path: &Path,
    arguments: &LogArguments,
) -> Result<(), Failure> {
    let language = data.language;
    let step = match &arguments.longest_step {
        None => HeatLog::USUAL_STEP,
        Some(text) => match text.trim().parse::<SignedDuration>() {
            Ok(step) if step.is_positive() && step <= SignedDuration::from_hours(24) => step,
            _ => {
                return Err(bad_input!("heat-no-step", text = format!("{text:?}")));
            }
        },
    };
    let text = text_of("--in", path)?;
    let refused = |error: TableError| no_table("--in", path, &error);
    let (log, left_out) = if arguments.leave_out {
        read_table_leaving_out(name.as_str(), &text).map_err(refused)?
    } else {
        (
            read_table(name.as_str(), &text).map_err(refused)?,
            Vec::new(),
        )
    };
    let mut store = data.store()?;
    let id = store.open_heat_log(name, step, Timestamp::now())?;
    let added = store.import_heat(id, &log)?;
    if arguments.json {
        return output::json(&json!({
            "name": name.as_str(),
            "readings": log.points().len(),
            "new": added,
            "gaps": log.gaps().len(),
            "left_out": left_out.iter().map(ToString::to_string).collect::<Vec<_>>(),
        }));
    }
    for error in &left_out {
        let why = table_error_words(language, error);
        output::line(&say!(language, "heat-line-left-out", why = why))?;
    }
    output::line(&say!(
        language,
        "heat-taken-in",
        added = added,
        name = name.as_str(),
        there = log.points().len() - added,
        gaps = log.gaps().len()
    ))
}

#[derive(Debug, Args)]
pub(crate) struct MarkArguments {
    /// The word: "fire out", "lit".
    text: String,
    /// The log.
    #[arg(long, value_name = "NAME")]
    name: String,
    /// When; now, if not said.
    #[arg(long, value_name = "TIME")]
    at: Option<String>,
    #[command(flatten)]
    telling: Telling,
}

/// The longest word at a moment, in characters.
const LONGEST_WORD: usize = 60;

/// A marker's words.
pub(super) fn words(flag: &str, text: &str) -> Result<String, Failure> {
    let words = text.split_whitespace().collect::<Vec<_>>().join(" ");
    if words.is_empty() || words.chars().count() > LONGEST_WORD {
        return Err(bad_input!(
            "heat-marker-wrong",
            flag = flag,
            text = format!("{:?}", excerpt(text))
        ));
    }
    Ok(words)
}

pub(super) fn mark(data: &Data, arguments: &MarkArguments) -> Result<(), Failure> {
    let name = LogName::new("--name", &arguments.name)?;
    let now = Timestamp::now();
    let marker = Marker {
        at: match &arguments.at {
            Some(_) => happened("--at", arguments.at.as_deref())?,
            None => now,
        },
        text: words("TEXT", &arguments.text)?,
    };
    data.store()?.mark_heat(&name, &marker, now)?;
    arguments.telling.tell(
        &say!(
            data.language,
            "heat-marked",
            name = name.as_str(),
            word = marker_words(data.language, &marker.text),
            at = local(marker.at)
        ),
        &json!({ "name": name.as_str(), "at": marker.at, "text": marker.text }),
    )
}

#[derive(Debug, Args)]
pub(crate) struct CorrectArguments {
    /// The log.
    #[arg(long, value_name = "NAME", required_unless_present = "lift")]
    name: Option<String>,
    /// The first moment that is wrong.
    #[arg(long, value_name = "TIME", required_unless_present = "lift")]
    from: Option<String>,
    /// The last.
    #[arg(long, value_name = "TIME", required_unless_present = "lift")]
    to: Option<String>,
    /// The probe was elsewhere: leave the stretch out.
    #[arg(long, conflicts_with = "add")]
    leave_out: bool,
    /// The probe read wrong: the difference to add, 1.5degC.
    #[arg(long, value_name = "DIFFERENCE", allow_hyphen_values = true)]
    add: Option<String>,
    /// Why.
    #[arg(long, value_name = "TEXT", required_unless_present = "lift")]
    reason: Option<String>,
    /// Lift a correction, by its number; it stays on record.
    #[arg(long, value_name = "N", conflicts_with_all = ["name", "from", "to", "leave_out", "add", "reason"])]
    lift: Option<String>,
    #[command(flatten)]
    telling: Telling,
}

pub(super) fn correct(data: &Data, arguments: &CorrectArguments) -> Result<(), Failure> {
    let now = Timestamp::now();
    if let Some(text) = &arguments.lift {
        let id: i64 = text
            .trim()
            .parse()
            .map_err(|_| bad_input!("heat-no-correction-number", text = format!("{text:?}")))?;
        data.existing()?.lift_heat_correction(id, now)?;
        return arguments.telling.tell(
            &say!(data.language, "heat-lifted", number = id.to_string()),
            &json!({ "correction": id, "lifted": true }),
        );
    }
    let given = |text: &Option<String>| text.clone().unwrap_or_default();
    let name = LogName::new("--name", &given(&arguments.name))?;
    let what = match &arguments.add {
        Some(text) => Amendment::Add(parse_temperature_difference("--add", text)?),
        None if arguments.leave_out => Amendment::LeaveOut,
        None => {
            return Err(bad_input!("heat-correction-needed"));
        }
    };
    let correction = Correction::new(
        time("--from", &given(&arguments.from))?,
        time("--to", &given(&arguments.to))?,
        what,
        &given(&arguments.reason),
    )
    .map_err(|error| {
        let why = Spoken::each(|language| correction_error_words(language, &error));
        let said = said!("heat-correction-refused", why = why);
        Failure::Said(Kind::Input, said.with("reason", error.code()))
    })?;
    let id = data.existing()?.correct_heat(&name, &correction, now)?;
    arguments.telling.tell(
        &say!(
            data.language,
            "heat-corrected",
            number = id.to_string(),
            name = name.as_str()
        ),
        &json!({ "correction": id, "lifted": false, "name": name.as_str() }),
    )
}
