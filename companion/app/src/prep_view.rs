//! What the prep screen shows, as plain data, and how it is made.

use super::timeline_view::TimelineView;
use super::week_view::WeekView;
use super::words::{Language, say};
use evenhand_kitchen::moment::show_time;
use evenhand_kitchen::prep::{PlannedStep, Progress, Standing, Step};
use evenhand_use_cases::prep::{
    PrepNow, dish_off, length, mend, needs, not_known, note_words, opening_words, shortage,
    standing_word, supply_words, warnings, who_words,
};
use evenhand_use_cases::times;
use jiff::Timestamp;
use jiff::civil::Date;
use jiff::tz::TimeZone;

/// What-ifs on offer at a time.
const MOST_WHAT_IFS: usize = 2;

/// Everything on the prep screen.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct PrepView {
    /// The service: `Friday 8 May: opens 18:00, in 7 h 20`.
    pub title: String,
    /// Why there is no board; or what would mend a day that cannot be made.
    pub trouble: Option<String>,
    /// Which dish is off until when, where one is.
    pub late: Option<String>,
    /// What is to be done, the most pressing first.
    pub rows: Vec<PrepRow>,
    /// What feeds the service: from stock, or why a batch is made; and what is no stock.
    pub stock: Vec<String>,
    /// What is handed over when service opens.
    pub handover: Vec<String>,
    /// The hands that the menu names.
    pub hands: Vec<String>,
    /// The chain that decides the day, in words.
    pub chain: String,
    /// What can be asked.
    pub what_ifs: Vec<WhatIf>,
    /// The last step that was ticked here, to take back.
    pub last_tick: Option<String>,
    /// The day laid out in time.
    pub timeline: Option<TimelineView>,
    /// The week, where it was asked for.
    pub week: Option<WeekView>,
}

/// One step to do.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PrepRow {
    /// The service that it is for.
    pub day: Date,
    /// Its name there.
    pub step: String,
    /// Its name here, with the service's day where that is another.
    pub name: String,
    /// How it stands.
    pub standing: Standing,
    /// How it stands, in a word.
    pub word: String,
    /// Whether it was begun.
    pub begun: bool,
    /// When to begin, or since when it goes on.
    pub start: String,
    /// How long it takes, and time to spare.
    pub spare: String,
    /// Who does it, where the menu names hands.
    pub who: Vec<String>,
    /// What to know beside it.
    pub note: String,
    /// Whether it is on the chain that decides the day.
    pub decides: bool,
}

/// Something that may be late.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WhatIf {
    /// What is asked: `fish +1h`.
    pub text: String,
    /// What it is about.
    pub what: String,
    /// Whether the board shows it.
    pub on: bool,
}

/// The board as it stands, to be shown.
#[must_use]
pub fn view(
    prep: &PrepNow,
    what_if: Option<&str>,
    last_tick: Option<String>,
    now: Timestamp,
    zone: &TimeZone,
    language: Language,
) -> PrepView {
    let local = |at: Timestamp| at.to_zoned_datetime(zone.clone());
    let service = prep.board.service;
    let day = times::capital(&times::day(language, prep.day));
    let time = show_time(service, zone);
    let title = if service > now {
        let length = length(service.duration_since(now));
        say!(
            language,
            "prep-title",
            day = day,
            time = time,
            length = length
        )
    } else {
        let length = length(now.duration_since(service));
        say!(
            language,
            "prep-title-open",
            day = day,
            time = time,
            length = length
        )
    };
    // By the end of the service's own day, or of today where that comes later.
    let last = local(service).date().min(local(now).date()).max(prep.day);
    let today = local(now).date();
    let mut rows: Vec<(Standing, PrepRow)> = prep
        .plan
        .steps
        .iter()
        .filter(|planned| planned.standing != Standing::Done)
        .filter(|planned| {
            let soon = planned.standing == Standing::Late
                || planned.standing == Standing::Now
                || planned.standing == Standing::UnderWay;
            soon || planned
                .start_by
                .is_none_or(|at| local(at).date() <= today.max(last))
        })
        .filter_map(|planned| row(prep, planned, now, zone, language))
        .map(|row| (row.standing, row))
        .collect();
    // The order within a standing is the plan's own: by when to begin.
    rows.sort_by_key(|(standing, _)| *standing);
    PrepView {
        title: title.into_owned(),
        trouble: trouble(prep, now, zone, language),
        late: late(prep, now, zone, language),
        rows: rows.into_iter().map(|(_, row)| row).collect(),
        stock: stock(prep, today, zone, language),
        handover: if prep.board.hands().next().is_some() {
            opening_words(prep, language, now, zone)
        } else {
            Vec::new()
        },
        hands: prep.board.hands().map(|hand| hand.name.clone()).collect(),
        chain: chain(prep, language),
        what_ifs: what_ifs(prep, what_if),
        last_tick,
        timeline: None,
        week: None,
    }
}

/// What cannot be served first, then what feeds the service.
fn stock(prep: &PrepNow, today: Date, zone: &TimeZone, language: Language) -> Vec<String> {
    let fed = || {
        prep.supplied
            .iter()
            .filter(|fed| fed.supply.day == prep.day)
    };
    let mut lines: Vec<String> = fed()
        .flat_map(|fed| warnings(language, fed, today, zone))
        .collect();
    let told = fed().filter(|fed| fed.is_fed() || fed.is_told());
    lines.extend(told.map(|fed| supply_words(language, fed, today, zone)));
    lines
}

/// Changes on offer for a day that cannot be made.
const MOST_MENDS: usize = 3;

/// What would mend the day, or what was ticked that is on no menu.
fn trouble(prep: &PrepNow, now: Timestamp, zone: &TimeZone, language: Language) -> Option<String> {
    if let Some(trouble) = &prep.trouble {
        let mends = trouble
            .mends
            .iter()
            .take(MOST_MENDS)
            .map(|known| mend(language, known, prep, now, zone))
            .reduce(|one, other| say!(language, "prep-or", one = one, other = other).into_owned());
        let said = if let Some(mends) = mends {
            say!(language, "prep-mends", mends = mends)
        } else if let Some(open) = not_known(language, trouble, prep) {
            say!(language, "prep-no-known-mend", open = open)
        } else {
            say!(language, "prep-no-mend")
        };
        return Some(said.into_owned());
    }
    (!prep.unknown.is_empty()).then(|| {
        let steps = prep.unknown.join(", ");
        say!(language, "prep-ticked-unknown", steps = steps).into_owned()
    })
}

/// What is not ready in time, where something is not: the dish that is latest.
fn late(prep: &PrepNow, now: Timestamp, zone: &TimeZone, language: Language) -> Option<String> {
    let worst = prep.plan.dishes.iter().max_by_key(|dish| dish.late_by)?;
    let short_of = prep
        .trouble
        .as_ref()
        .map_or_else(String::new, |known| shortage(language, &known.short_of));
    dish_off(language, worst, now, zone).map(|off| format!("{off} {short_of}"))
}

fn row(
    prep: &PrepNow,
    planned: &PlannedStep,
    now: Timestamp,
    zone: &TimeZone,
    language: Language,
) -> Option<PrepRow> {
    let step: &Step = prep.board.step(planned.step).ok()?;
    let (day, name) = prep.of_service.get(&planned.step)?.clone();
    let today = now.to_zoned_datetime(zone.clone()).date();
    let local = |at: Timestamp| times::within_a_week(language, at, today, zone);
    let start = match (step.progress, planned.start_by) {
        (Progress::Begun(at), _) => say!(language, "prep-since", time = local(at)),
        (_, Some(at)) => say!(language, "prep-by", time = local(at)),
        (_, None) => say!(language, "prep-no-place"),
    };
    let takes = length(step.takes.needed());
    let spare = if planned.slack.is_negative() {
        let late = length(-planned.slack);
        say!(language, "prep-late", takes = takes, late = late)
    } else {
        let spare = length(planned.slack);
        if planned.latest_is_proven {
            say!(language, "prep-spare", takes = takes, spare = spare)
        } else {
            say!(
                language,
                "prep-spare-at-least",
                takes = takes,
                spare = spare
            )
        }
    };
    let mut notes = Vec::new();
    notes.extend(who_words(language, prep, planned.step));
    let note = prep.notes.get(&planned.step);
    notes.extend(note.map(|note| note_words(language, note, zone)));
    notes.extend(
        planned
            .over_rest
            .map(|over| say!(language, "prep-rests-longer", over = length(over)).into_owned()),
    );
    notes.extend(needs(step).map(|needs| say!(language, "prep-needs", needs = needs).into_owned()));
    Some(PrepRow {
        day,
        step: name,
        name: step.full_name(),
        standing: planned.standing,
        word: standing_word(language, planned.standing),
        begun: planned.standing == Standing::UnderWay
            || matches!(step.progress, Progress::Begun(_)),
        start: start.into_owned(),
        spare: spare.into_owned(),
        who: prep
            .who
            .get(&planned.step)
            .map_or_else(Vec::new, |done| done.hands.clone()),
        note: notes.join("; "),
        decides: planned.decides.is_some(),
    })
}

fn chain(prep: &PrepNow, language: Language) -> String {
    prep.plan
        .chain
        .iter()
        .filter_map(|step| prep.board.step(*step).ok().map(Step::full_name))
        .reduce(|first, next| say!(language, "prep-then", first = first, next = next).into_owned())
        .map_or_else(String::new, |steps| {
            say!(language, "prep-chain", steps = steps).into_owned()
        })
}

/// What has a time of its own, such as a delivery, can be an hour late; else
/// what the day hangs on.
fn what_ifs(prep: &PrepNow, on: Option<&str>) -> Vec<WhatIf> {
    let mut about: Vec<String> = Vec::new();
    let waits = |step: &Step| step.progress == Progress::Waiting;
    let deliveries = prep
        .board
        .steps()
        .filter(|(reference, step)| {
            waits(step)
                && prep
                    .of_service
                    .get(reference)
                    .is_some_and(|(day, _)| *day == prep.day)
                && step.not_before.is_some()
                && !prep.board.bands().any(|(band, _)| band == *reference)
        })
        .map(|(_, step)| step.preparation.clone());
    let first = prep
        .plan
        .chain
        .iter()
        .filter_map(|step| prep.board.step(*step).ok())
        .filter(|step| waits(step))
        .map(|step| step.preparation.clone());
    for name in deliveries.chain(first) {
        if !about.contains(&name) && about.len() < MOST_WHAT_IFS {
            about.push(name);
        }
    }
    about
        .into_iter()
        .map(|what| {
            let text = format!("{what} +1h");
            WhatIf {
                on: on == Some(text.as_str()),
                text,
                what,
            }
        })
        .collect()
}
