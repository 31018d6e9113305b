//! What the prep screen shows, as plain data, and how it is made.

use super::book::{FieldView, FootView, Sheet};
use super::intent::Intent;
use super::kitchen::KitchenIntent;
use super::state::Screen;
use super::timeline_view::TimelineView;
use super::week_view::WeekView;
use super::words::{Language, say};
use evenhand_kitchen::moment::show_time;
use evenhand_kitchen::prep::{Mend, PlannedStep, Progress, Step, StepState};
use evenhand_use_cases::prep::{
    DeliveryRisk, PrepNow, dish_off, length, mend, needs, not_known, note_words, opening_words,
    risk_words, risks, shortage, standing_word, supply_words, troubles, warnings, who_words,
};
use evenhand_use_cases::times;
use jiff::civil::Date;
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp};

/// What-ifs on offer at a time.
const MOST_WHAT_IFS: usize = 1;

/// Everything on the prep screen.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct PrepView {
    /// The moment that it was worked out for.
    pub as_of: Timestamp,
    /// The service: `Friday 8 May: opens 18:00, in 7 h 20`.
    pub title: String,
    /// Why there is no board; or what would mend a day that cannot be made.
    pub trouble: Option<String>,
    /// Which dish is off until when, where one is.
    pub late: Option<String>,
    /// What is shown as if it were so, where something is.
    pub supposed: Option<String>,
    /// What to decide by when, as a delivery may come too late; and what there is in its place.
    pub risks: Vec<RiskView>,
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
    /// What can be tried, and what the day would be.
    pub trying: Sheet<Intent>,
    /// Every step of the day and what else is on the list, done or not, to be told of.
    pub steps: Vec<StepTile>,
    /// What was printed last, in words.
    pub printed: Option<String>,
    /// The last step that was ticked here, to take back.
    pub last_tick: Option<String>,
    /// The day laid out in time.
    pub timeline: Option<TimelineView>,
    /// The week, where it was asked for.
    pub week: Option<WeekView>,
}

impl PrepView {
    /// Whether what is shown as if it were so can be put on record.
    #[must_use]
    pub fn can_keep(&self) -> bool {
        let later = self.what_ifs.iter().any(|what_if| what_if.on);
        later
            || (self.supposed.is_some() && self.trying.foot.iter().any(|it| it.main && it.enabled))
    }
}

/// A delivery that may come too late.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RiskView {
    /// By when to decide, why, and what else there is.
    pub words: String,
    /// What there is in its place, to be tried.
    pub instead: Mend,
}

/// So many of them stand above the rows, the others at their rows.
pub const MOST_RISKS: usize = 2;

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
    pub standing: StepState,
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

/// A step that something can be told of.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StepTile {
    /// The service that it is for.
    pub day: Date,
    /// Its name there.
    pub step: String,
    /// How it stands, in words.
    pub about: String,
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
    let mut rows: Vec<(StepState, PrepRow)> = prep
        .plan
        .steps
        .iter()
        .filter(|planned| planned.standing != StepState::Done)
        .filter(|planned| {
            let soon = planned.standing == StepState::Late
                || planned.standing == StepState::Now
                || planned.standing == StepState::UnderWay;
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
        as_of: now,
        title: title.into_owned(),
        trouble: trouble(prep, now, zone, language),
        late: late(prep, now, zone, language),
        supposed: None,
        risks: risks_of_the_day(prep, now)
            .map(|risk| RiskView {
                words: risk_words(language, prep, &risk, now, zone),
                instead: risk.instead,
            })
            .collect(),
        rows: rows.into_iter().map(|(_, row)| row).collect(),
        stock: stock(prep, today, zone, language),
        handover: if prep.board.hands().next().is_some() {
            opening_words(prep, language, now, zone)
        } else {
            Vec::new()
        },
        hands: prep.board.hands().map(|hand| hand.name.clone()).collect(),
        chain: chain(prep, language),
        steps: steps(prep, now, zone, language),
        printed: None,
        what_ifs: what_ifs(prep, what_if),
        trying: Sheet::default(),
        last_tick,
        timeline: None,
        week: None,
    }
}

/// Every step of the day that is shown, and what else is ticked or to be begun by then: what is
/// open first.
fn steps(prep: &PrepNow, now: Timestamp, zone: &TimeZone, language: Language) -> Vec<StepTile> {
    let today = now.to_zoned_datetime(zone.clone()).date();
    let near = |at: Timestamp| times::near(language, at, today, zone);
    let mut all: Vec<(bool, StepTile)> = prep
        .plan
        .steps
        .iter()
        .filter_map(|planned| {
            let (day, step) = prep.of_service.get(&planned.step)?.clone();
            let progress = prep.board.step(planned.step).ok()?.progress;
            let soon = planned
                .start_by
                .is_some_and(|at| at.to_zoned_datetime(zone.clone()).date() <= today.max(prep.day));
            if day != prep.day && progress == Progress::Waiting && !soon {
                return None;
            }
            let word = standing_word(language, planned.standing);
            let since = match progress {
                Progress::Begun(at) | Progress::Done(at) => Some(at),
                Progress::Waiting => None,
            };
            let about = match since {
                Some(at) => format!("{word}, {}", near(at)),
                None => word,
            };
            let done = planned.standing == StepState::Done;
            Some((done, StepTile { day, step, about }))
        })
        .collect();
    all.sort_by_key(|(done, _)| *done);
    all.into_iter().map(|(_, tile)| tile).collect()
}

/// Deliveries for the service that is shown which may come too late.
fn risks_of_the_day(prep: &PrepNow, now: Timestamp) -> impl Iterator<Item = DeliveryRisk> {
    risks(prep, now).into_iter().filter(|risk| {
        let of = prep.of_service.get(&risk.step);
        of.is_some_and(|(day, _)| *day == prep.day)
    })
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
    // When it comes, where that is known; what is to be decided stands above the rows.
    let known = prep.deliveries.get(&planned.step);
    let mut above = risks_of_the_day(prep, now).take(MOST_RISKS);
    if let Some(delivery) = known
        && let Some((from, to)) = delivery.comes
        && !above.any(|risk| risk.step == planned.step)
    {
        let said = say!(
            language,
            "prep-comes",
            from = local(from),
            to = local(to),
            needed = local(delivery.needed_by)
        );
        notes.push(said.into_owned());
    }
    notes.extend(needs(step).map(|needs| say!(language, "prep-needs", needs = needs).into_owned()));
    Some(PrepRow {
        day,
        step: name,
        name: step.full_name(),
        standing: planned.standing,
        word: standing_word(language, planned.standing),
        begun: planned.standing == StepState::UnderWay
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

/// What can be an hour late, the first ones.
fn what_ifs(prep: &PrepNow, on: Option<&str>) -> Vec<WhatIf> {
    may_be_late(prep)
        .into_iter()
        .take(MOST_WHAT_IFS)
        .map(|what| {
            let text = so_late(&what, AN_HOUR);
            WhatIf {
                on: on == Some(text.as_str()),
                text,
                what,
            }
        })
        .collect()
}

/// What has a time of its own, such as a delivery, then what the day hangs on, then all else of
/// the day that is still to be begun.
fn may_be_late(prep: &PrepNow) -> Vec<String> {
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
    let others = prep
        .plan
        .steps
        .iter()
        .filter(|planned| {
            let day = prep.of_service.get(&planned.step).map(|(day, _)| *day);
            day == Some(prep.day)
        })
        .filter_map(|planned| prep.board.step(planned.step).ok())
        .filter(|step| waits(step))
        .map(|step| step.preparation.clone());
    for name in deliveries.chain(first).chain(others) {
        if !about.contains(&name) {
            about.push(name);
        }
    }
    about
}

/// What the board shows as if it were so.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Supposed {
    /// Something comes later: `fish +1h`.
    Later(String),
    /// A change that mends the day.
    Mend(Mend),
}

impl Supposed {
    /// In words.
    fn in_words(
        &self,
        prep: &PrepNow,
        now: Timestamp,
        zone: &TimeZone,
        language: Language,
    ) -> String {
        match self {
            Self::Later(text) => later_words(text, language),
            Self::Mend(known) => mend(language, known, prep, now, zone),
        }
    }

    /// What is later, and by how many minutes.
    fn later(&self) -> Option<(&str, i64)> {
        match self {
            Self::Later(text) => {
                let (what, by) = text.rsplit_once(" +")?;
                let by: SignedDuration = by.parse().ok()?;
                Some((what, by.as_secs() / 60))
            }
            Self::Mend(_) => None,
        }
    }

    /// Whether it can be put on record as it is.
    #[must_use]
    pub const fn can_be_kept(&self) -> bool {
        match self {
            Self::Later(_)
            | Self::Mend(Mend::Swap { .. } | Mend::BuyIn { .. } | Mend::Drop { .. }) => true,
            Self::Mend(Mend::MorePlaces(_) | Mend::Oven { .. } | Mend::Later(_)) => false,
        }
    }
}

/// The question of something so many minutes late, as the command line writes it.
fn so_late(what: &str, minutes: i64) -> String {
    if minutes == AN_HOUR {
        format!("{what} +1h")
    } else {
        format!("{what} +{minutes}min")
    }
}

/// The same in words.
fn later_words(text: &str, language: Language) -> String {
    let later = Supposed::Later(text.to_owned());
    match later.later() {
        None => text.to_owned(),
        Some((what, AN_HOUR)) => say!(language, "prep-hour-late", what = what).into_owned(),
        Some((what, minutes)) => {
            let by = length(SignedDuration::from_mins(minutes));
            say!(language, "prep-so-late", what = what, by = by).into_owned()
        }
    }
}

/// Changes that can be tried on a board: what mends it, and every swap that its menu has.
#[must_use]
pub fn to_try(prep: &PrepNow, now: Timestamp) -> Vec<Mend> {
    let mut all: Vec<Mend> = risks_of_the_day(prep, now).map(|it| it.instead).collect();
    let mends = prep.trouble.iter().flat_map(|trouble| &trouble.mends);
    all.extend(mends.cloned());
    let of_today = prep.plan.steps.iter().filter(|planned| {
        let day = prep.of_service.get(&planned.step).map(|(day, _)| *day);
        day == Some(prep.day) && planned.standing != StepState::Done
    });
    for planned in of_today {
        let Ok(step) = prep.board.step(planned.step) else {
            continue;
        };
        let instead = prep.board.instead(&step.preparation);
        if let Some(fallback) = instead.and_then(|it| it.fallback.clone()) {
            all.push(Mend::Swap {
                preparation: step.preparation.clone(),
                fallback,
            });
        }
    }
    let mut known: Vec<Mend> = Vec::new();
    for it in all {
        // What is done to an oven, and opening later, is no change of the board.
        let tried = !matches!(it, Mend::Oven { .. } | Mend::Later(_));
        if tried && !known.contains(&it) {
            known.push(it);
        }
    }
    known
}

/// What is asked first of something late, in minutes.
const AN_HOUR: i64 = 60;
/// By how many minutes that is changed at a touch.
const STEPS: [i64; 3] = [-5, 5, 30];
/// Nothing is later by more: two days.
const MOST_LATE: i64 = 2 * 24 * 60;

/// Everything that can be tried by touch, and what the day would be by what is tried.
#[must_use]
pub fn trying(
    prep: &PrepNow,
    on: Option<&Supposed>,
    mends: &[Mend],
    now: Timestamp,
    zone: &TimeZone,
    language: Language,
) -> Sheet<Intent> {
    let kitchen = Intent::Kitchen;
    let field = |words: String, supposed: Option<Supposed>, wish: KitchenIntent| {
        let chosen = supposed.as_ref() == on;
        FieldView {
            chosen,
            ..FieldView::new("", words, kitchen(wish))
        }
    };
    let mut fields = vec![field(
        say!(language, "prep-as-it-is").into_owned(),
        None,
        KitchenIntent::WhatIf(None),
    )];
    for known in mends {
        fields.push(field(
            mend(language, known, prep, now, zone),
            Some(Supposed::Mend(known.clone())),
            KitchenIntent::TryMend(known.clone()),
        ));
    }
    let later = on.and_then(Supposed::later);
    for what in may_be_late(prep) {
        let minutes = match later {
            Some((known, minutes)) if known == what => minutes,
            _ => AN_HOUR,
        };
        let text = so_late(&what, minutes);
        fields.push(field(
            later_words(&text, language),
            Some(Supposed::Later(text.clone())),
            KitchenIntent::WhatIf(Some(text)),
        ));
    }
    let mut lines = troubles(language, prep, now, zone);
    if lines.is_empty() {
        lines.push(say!(language, "prep-all-in-time").into_owned());
    }
    let today = now.to_zoned_datetime(zone.clone()).date();
    let in_time = prep
        .plan
        .dishes
        .iter()
        .filter(|dish| dish.late_by.is_none());
    lines.extend(in_time.map(|dish| {
        say!(
            language,
            "prep-dish-ready",
            dish = dish.preparation.as_str(),
            ready = times::near(language, dish.ready, today, zone)
        )
        .into_owned()
    }));
    let keep = on.is_some_and(Supposed::can_be_kept);
    let mut foot = vec![FootView::plain(
        say!(language, "back"),
        Intent::Go(Screen::Prep),
    )];
    if let Some((what, minutes)) = later {
        for by in STEPS {
            let to = (minutes + by).clamp(5, MOST_LATE);
            let words = say!(
                language,
                "prep-later-by",
                sign = if by < 0 { "\u{2212}" } else { "+" },
                minutes = by.abs().to_string()
            );
            let wish = KitchenIntent::WhatIf(Some(so_late(what, to)));
            foot.push(FootView {
                enabled: to != minutes,
                ..FootView::plain(words, kitchen(wish))
            });
        }
    }
    foot.push(FootView::main(
        say!(language, "prep-it-is-so-keep"),
        kitchen(KitchenIntent::KeepWhatIf),
        keep,
    ));
    Sheet {
        heading: say!(language, "prep-what-if").into_owned(),
        prompt: on.map_or_else(
            || say!(language, "prep-touch-what-if").into_owned(),
            |on| on.in_words(prep, now, zone, language),
        ),
        fields,
        lines,
        foot,
        ..Sheet::default()
    }
}

/// The banner of what is shown as if it were so.
#[must_use]
pub fn supposed_words(
    prep: &PrepNow,
    on: &Supposed,
    now: Timestamp,
    zone: &TimeZone,
    language: Language,
) -> String {
    let what = on.in_words(prep, now, zone, language);
    say!(language, "prep-supposed", what = what).into_owned()
}
