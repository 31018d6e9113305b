//! What a plan says, in words: the same on paper, in a terminal and on a
//! screen.

use super::file_words::{file_error_words, what_if_words};
use super::{DoorTold, Note, OvenNote, PrepError, PrepNow, Supplied, length};
use crate::heat::{log_words, why_words};
use crate::record::store_error_words;
use crate::times;
use crate::words::say;
use evenhand_kitchen::heat::{LEAST_OPENINGS, LogName};
use evenhand_kitchen::moment::show_time;
use evenhand_kitchen::prep::{
    DishOutlook, InStock, MOST_BATCHES, Mend, Need, NeedNotKnown, NotKnown, OvenAction, OvenAdvice,
    PlannedStep, Shortage, Step, StepRef, StepState, Trouble, WhyMade,
};
use evenhand_words::Language;
use jiff::civil::{Date, Time};
use jiff::tz::TimeZone;
use jiff::{Timestamp, ToSpan};

/// A time of day in the kitchen's time, with its day where that is not today.
#[must_use]
pub fn moment(language: Language, at: Timestamp, now: Timestamp, zone: &TimeZone) -> String {
    let today = now.to_zoned_datetime(zone.clone()).date();
    times::near(language, at, today, zone)
}

/// How a step stands, in a word.
#[must_use]
pub fn standing_word(language: Language, standing: StepState) -> String {
    let standing = match standing {
        StepState::Late => "late",
        StepState::Now => "now",
        StepState::UnderWay => "under-way",
        StepState::Next => "next",
        StepState::Later => "later",
        StepState::Done => "done",
    };
    say!(language, "prep-standing", standing = standing).into_owned()
}

/// The latest that a step can begin, its time being given in words: `about 15:30` where a later
/// one may do, since not every schedule was tried.
#[must_use]
pub fn latest_words(language: Language, planned: &PlannedStep, time: &str) -> String {
    if planned.latest_is_proven {
        time.to_owned()
    } else {
        say!(language, "prep-latest-about", time = time).into_owned()
    }
}

/// What a step needs, by the kitchen's names: `2 hands, oven`.
#[must_use]
pub fn needs(step: &Step) -> Option<String> {
    // One place with a skill says the same as the place and the skill.
    let skilled = |need: &Need| {
        let with = format!("{} (", need.resource);
        need.places == 1 && step.needs.iter().any(|n| n.resource.starts_with(&with))
    };
    let needs: Vec<String> = step
        .needs
        .iter()
        .filter(|need| !skilled(need))
        .map(Need::to_string)
        .collect();
    (!needs.is_empty()).then(|| needs.join(", "))
}

/// Why there is no board.
#[must_use]
pub fn error_words(language: Language, error: &PrepError) -> String {
    match error {
        PrepError::NoMenu(day) => {
            say!(language, "prep-no-menu", day = times::day(language, *day)).into_owned()
        }
        PrepError::Store(error) => store_error_words(language, error),
        PrepError::Menu { day, error } => say!(
            language,
            "prep-menu-refused",
            day = times::day(language, *day),
            why = file_error_words(language, error)
        )
        .into_owned(),
        PrepError::WhatIf(error) => what_if_words(language, error),
    }
}

fn action(language: Language, action: OvenAction) -> String {
    match action {
        OvenAction::OpenDoor(by) => say!(language, "prep-open-door", length = length(by)),
        OvenAction::Relight => say!(language, "prep-relight"),
    }
    .into_owned()
}

/// What to do about a step and its oven: `begin from 10:25, done by 10:47`.
fn oven_advice(language: Language, advice: OvenAdvice, at: impl Fn(Timestamp) -> String) -> String {
    let action = |known| action(language, known);
    let within = |from, until: Option<Timestamp>| {
        let from = at(from);
        match until {
            None => say!(language, "prep-begin", from = from),
            Some(until) => say!(language, "prep-begin-done", from = from, until = at(until)),
        }
        .into_owned()
    };
    match advice {
        OvenAdvice::Fits {
            from,
            until,
            otherwise: None,
        } => within(from, until),
        OvenAdvice::Fits {
            from,
            until,
            otherwise: Some(otherwise),
        } => say!(
            language,
            "prep-begin-else",
            begin = within(from, until),
            action = action(otherwise.action),
            then = within(otherwise.from, otherwise.until)
        )
        .into_owned(),
        OvenAdvice::NowOrNotToday { latest } => {
            say!(language, "prep-now-or-not", latest = at(latest)).into_owned()
        }
        OvenAdvice::Only {
            action: known,
            from,
            until,
        } => say!(
            language,
            "prep-action-then",
            action = action(known),
            begin = within(from, until)
        )
        .into_owned(),
        OvenAdvice::No => say!(language, "prep-oven-too-short").into_owned(),
    }
}

/// What to know beside a step.
#[must_use]
pub fn note_words(language: Language, note: &Note, zone: &TimeZone) -> String {
    let at = |moment| show_time(moment, zone);
    let (log, oven, surprise) = match note {
        Note::SeenDone { at: seen } => {
            return say!(language, "prep-seen-done", time = at(*seen)).into_owned();
        }
        Note::Oven {
            log,
            oven,
            surprise,
        } => (log, oven, surprise),
    };
    if let Some(surprise) = surprise {
        let plain = Note::Oven {
            log: log.clone(),
            oven: *oven,
            surprise: None,
        };
        return say!(
            language,
            "prep-oven-surprise",
            note = note_words(language, &plain, zone),
            way = if surprise.faster { "faster" } else { "slower" },
            then = at(surprise.foretold_at),
            was = oven_advice(language, surprise.was, at)
        )
        .into_owned();
    }
    let log = LogName::new("log", log).map_or_else(|_| log.clone(), |it| log_words(language, &it));
    match *oven {
        OvenNote::NoSuchName => say!(language, "prep-oven-no-name", log = log),
        OvenNote::NotRecorded => say!(language, "prep-oven-not-recorded", log = log),
        OvenNote::NoBand => say!(language, "prep-oven-no-band", log = log),
        OvenNote::Coming {
            enters,
            advice,
            door,
        } => {
            let advice = oven_advice(language, advice, at);
            let words = match enters.late {
                Some(late) => say!(
                    language,
                    "prep-oven-coming",
                    log = log,
                    likely = at(enters.likely),
                    early = at(enters.early),
                    late = at(late),
                    advice = advice
                ),
                None => say!(
                    language,
                    "prep-oven-perhaps-never",
                    log = log,
                    likely = at(enters.likely),
                    early = at(enters.early),
                    advice = advice
                ),
            };
            let not_known = match door {
                DoorTold::InTheAdvice => return words.into_owned(),
                DoorTold::TooFew { openings } => say!(
                    language,
                    "prep-oven-door-too-few",
                    openings = openings,
                    least = LEAST_OPENINGS
                ),
                DoorTold::NotOfThis { openings } => {
                    say!(language, "prep-oven-door-not-of-this", openings = openings)
                }
            };
            format!("{words}; {not_known}").into()
        }
        OvenNote::Inside { leaves, advice } => {
            let advice = oven_advice(language, advice, at);
            match leaves {
                None => say!(language, "prep-oven-inside", log = log, advice = advice),
                Some(leaves) => say!(
                    language,
                    "prep-oven-inside-until",
                    log = log,
                    leaves = at(leaves.likely),
                    advice = advice
                ),
            }
        }
        OvenNote::NotComing => say!(language, "prep-oven-not-coming", log = log),
        OvenNote::NotComingAlone { advice } => say!(
            language,
            "prep-oven-not-coming-alone",
            log = log,
            advice = oven_advice(language, advice, at)
        ),
        OvenNote::Unknown(why) => say!(
            language,
            "prep-oven-unknown",
            log = log,
            why = why_words(language, why)
        ),
    }
    .into_owned()
}

/// A change that makes the day.
#[must_use]
pub fn mend(
    language: Language,
    mend: &Mend,
    prep: &PrepNow,
    now: Timestamp,
    zone: &TimeZone,
) -> String {
    match mend {
        Mend::Oven {
            step,
            action: known,
        } => {
            let step = prep
                .board
                .step(*step)
                .map_or_else(|_| String::new(), Step::full_name);
            let action = action(language, *known);
            say!(language, "prep-mend-oven", step = step, action = action)
        }
        Mend::MorePlaces(extra) => say!(
            language,
            "prep-mend-more",
            resource = extra.resource.as_str(),
            from = moment(language, extra.from, now, zone),
            to = moment(language, extra.to, now, zone)
        ),
        Mend::Swap {
            preparation,
            fallback,
        } => say!(
            language,
            "prep-mend-swap",
            fallback = fallback.as_str(),
            preparation = preparation.as_str()
        ),
        Mend::BuyIn { preparation } => {
            say!(
                language,
                "prep-mend-buy",
                preparation = preparation.as_str()
            )
        }
        Mend::Drop { preparation } => {
            say!(
                language,
                "prep-mend-drop",
                preparation = preparation.as_str()
            )
        }
        Mend::Later(by) => say!(language, "prep-mend-later", length = length(*by)),
    }
    .into_owned()
}

/// What the day runs out of.
#[must_use]
pub fn shortage(language: Language, short_of: &[Shortage]) -> String {
    let [first, ..] = short_of else {
        return say!(language, "prep-more-hands").into_owned();
    };
    let resource = first.resource.as_str();
    match first.late_by_even_so {
        None => say!(language, "prep-short-of", resource = resource),
        Some(late) => say!(
            language,
            "prep-short-and-late",
            resource = resource,
            late = length(late)
        ),
    }
    .into_owned()
}

/// A dish that is not ready when it is due: `trout is off until 18:40`.
#[must_use]
pub fn dish_off(
    language: Language,
    dish: &DishOutlook,
    now: Timestamp,
    zone: &TimeZone,
) -> Option<String> {
    let late = dish.late_by?;
    let said = say!(
        language,
        "prep-dish-off",
        dish = dish.preparation.as_str(),
        ready = moment(language, dish.ready, now, zone),
        late = length(late)
    );
    Some(said.into_owned())
}

/// Everything that is wrong with a day, in the order in which to read it:
/// how late, which dishes, what it runs out of, what would mend it. Empty for
/// a day that can be made.
#[must_use]
pub fn troubles(
    language: Language,
    prep: &PrepNow,
    now: Timestamp,
    zone: &TimeZone,
) -> Vec<String> {
    let plan = &prep.plan;
    let mut lines = Vec::new();
    if let Some(late) = plan.late_by {
        lines.push(say!(language, "prep-list-late", late = length(late)).into_owned());
        if plan.gap.is_positive() {
            let least = length(late.saturating_sub(plan.gap));
            lines.push(say!(language, "prep-list-late-perhaps", least = least).into_owned());
        }
        lines.extend(
            plan.dishes
                .iter()
                .filter_map(|d| dish_off(language, d, now, zone)),
        );
    }
    for planned in &plan.steps {
        if planned.standing == StepState::Done {
            continue;
        }
        let Ok(step) = prep.board.step(planned.step) else {
            continue;
        };
        if planned.no_time {
            let step = step.full_name();
            lines.push(say!(language, "prep-list-no-time", step = step).into_owned());
        }
    }
    if let Some(trouble) = &prep.trouble {
        if trouble.late_by.is_some() {
            lines.push(shortage(language, &trouble.short_of));
        }
        if trouble.mends.is_empty() && trouble.not_known.is_empty() {
            lines.push(say!(language, "prep-list-no-mend").into_owned());
        } else if trouble.mends.is_empty() {
            lines.push(say!(language, "prep-list-no-known-mend").into_owned());
        } else {
            lines.push(say!(language, "prep-list-mends").into_owned());
            let each = trouble.mends.iter();
            lines.extend(each.map(|known| format!("  {}", mend(language, known, prep, now, zone))));
        }
        lines.extend(not_known(language, trouble, prep));
    }
    lines
}

/// What was not worked out of what would mend a day, by name; `None` where everything was.
#[must_use]
pub fn not_known(language: Language, trouble: &Trouble, prep: &PrepNow) -> Option<String> {
    let open: Vec<String> = trouble
        .not_known
        .iter()
        .map(|open| {
            match open {
                NotKnown::Shortage(resource) => {
                    say!(language, "prep-open-shortage", resource = resource.as_str())
                }
                NotKnown::MorePlaces(resource) => {
                    say!(language, "prep-open-more", resource = resource.as_str())
                }
                NotKnown::Oven(step) => {
                    let name = prep.board.step(*step).map(Step::full_name);
                    say!(language, "prep-open-oven", step = name.unwrap_or_default())
                }
                NotKnown::Without(preparation) => {
                    say!(
                        language,
                        "prep-open-without",
                        preparation = preparation.as_str()
                    )
                }
            }
            .into_owned()
        })
        .collect();
    (!open.is_empty()).then(|| say!(language, "prep-open", open = open.join(", ")).into_owned())
}

/// Portions of batches: `12 from Fri 8 May, use by Tue 12 May, 16:00`.
#[must_use]
pub fn lots_words(language: Language, lots: &[InStock], today: Date, zone: &TimeZone) -> String {
    let lots: Vec<String> = lots
        .iter()
        .map(|lot| {
            let ready = times::near(language, lot.ready, today, zone);
            let by = match lot.use_by {
                // The end of a day is told as that day.
                Some(by) if by.to_zoned_datetime(zone.clone()).time() == Time::midnight() => {
                    let last = by
                        .to_zoned_datetime(zone.clone())
                        .date()
                        .saturating_sub(1.day());
                    say!(language, "prep-end-of", day = times::day(language, last)).into_owned()
                }
                Some(by) => times::near(language, by, today, zone),
                None => say!(language, "prep-not-known").into_owned(),
            };
            say!(
                language,
                "prep-lot",
                portions = lot.portions,
                ready = ready,
                by = by
            )
            .into_owned()
        })
        .collect();
    lots.join("; ")
}

/// What feeds a service: `necks: in stock: 12 from ...`, or why a batch is made.
#[must_use]
pub fn supply_words(language: Language, fed: &Supplied, today: Date, zone: &TimeZone) -> String {
    let supply = &fed.supply;
    let name = fed.on_board.as_str();
    let stock = supply.in_stock();
    if supply.short > 0 {
        return say!(
            language,
            "prep-supply-made-short",
            name = name,
            short = supply.short
        )
        .into_owned();
    }
    let Some((batches, why)) = supply.make else {
        return match supply.needed {
            _ if supply.own.finished > 0 => say!(language, "prep-supply-made", name = name),
            Ok(0) => say!(language, "prep-supply-none-needed", name = name),
            _ => {
                let lots = lots_words(language, &supply.stock, today, zone);
                say!(language, "prep-supply-stock", name = name, lots = lots)
            }
        }
        .into_owned();
    };
    let why = match why {
        WhyMade::Begun => say!(language, "prep-why-begun"),
        WhyMade::KeepingNotKnown => say!(language, "prep-why-keeping"),
        WhyMade::StockNotKnown { since } => say!(
            language,
            "prep-why-stock",
            day = times::day(language, since)
        ),
        WhyMade::NeedNotKnown { needs } => match needs {
            NeedNotKnown::Covers => say!(language, "prep-why-covers"),
            NeedNotKnown::Dish => say!(language, "prep-why-dish", dish = fed.batch.dish.as_str()),
            NeedNotKnown::Past => say!(language, "prep-why-past", dish = fed.batch.dish.as_str()),
        },
        WhyMade::Short => match supply.needed {
            Ok(needed) => say!(language, "prep-why-short", needed = needed, stock = stock),
            Err(_) => say!(language, "prep-why-begun"),
        },
    };
    let made = say!(
        language,
        "prep-supply-make",
        name = name,
        batches = batches,
        portions = fed.batch.portions
    );
    let mut said = format!("{made} {why}");
    let mut more = |words: &str| {
        said.push(' ');
        said.push_str(words);
    };
    if fed.batches_on_record > 0 {
        more(&say!(
            language,
            "prep-supply-record",
            count = fed.batches_on_record,
            portions = fed.batch.portions
        ));
    }
    if fed.beyond_the_plan() > 0 {
        more(&say!(
            language,
            "prep-supply-beyond",
            most = MOST_BATCHES,
            more = fed.beyond_the_plan()
        ));
    }
    said
}

/// What would make known what is not; `None` where all is.
#[must_use]
pub fn remedy(language: Language, fed: &Supplied) -> Option<String> {
    let (_, why) = fed.supply.make?;
    let dish = fed.batch.dish.as_str();
    let said = match why {
        WhyMade::Begun | WhyMade::Short => return None,
        WhyMade::KeepingNotKnown => say!(language, "prep-remedy-keeping"),
        WhyMade::StockNotKnown { since } => {
            say!(
                language,
                "prep-remedy-left",
                dish = dish,
                date = since.to_string()
            )
        }
        WhyMade::NeedNotKnown { needs } => match needs {
            NeedNotKnown::Covers => {
                say!(
                    language,
                    "prep-remedy-covers",
                    date = fed.supply.day.to_string()
                )
            }
            NeedNotKnown::Dish => say!(language, "prep-remedy-dish"),
            NeedNotKnown::Past => say!(language, "prep-remedy-past"),
        },
    };
    Some(said.into_owned())
}

/// What is in stock of a preparation, and what is no stock and why not; nothing where there is
/// nothing to say.
#[must_use]
pub fn stock_words(
    language: Language,
    fed: &Supplied,
    today: Date,
    zone: &TimeZone,
) -> Vec<String> {
    let name = fed.preparation.as_str();
    let stock = &fed.stock;
    let lots = |lots| lots_words(language, lots, today, zone);
    let mut lines = Vec::new();
    if !stock.known.is_empty() {
        let lots = lots(&stock.known);
        lines.push(say!(language, "prep-supply-stock", name = name, lots = lots).into_owned());
    }
    lines.extend(warnings(language, fed, today, zone));
    lines
}

/// What is no stock of a preparation, and why not.
#[must_use]
pub fn warnings(language: Language, fed: &Supplied, today: Date, zone: &TimeZone) -> Vec<String> {
    let name = fed.preparation.as_str();
    let stock = &fed.stock;
    let lots = |lots| lots_words(language, lots, today, zone);
    let mut lines = Vec::new();
    let mut tell = |words: std::borrow::Cow<'_, str>| lines.push(words.into_owned());
    if !stock.past.is_empty() {
        tell(say!(
            language,
            "prep-stock-past",
            name = name,
            lots = lots(&stock.past)
        ));
    }
    if !stock.no_keeping.is_empty() {
        let lots = lots(&stock.no_keeping);
        tell(say!(
            language,
            "prep-stock-no-keeping",
            name = name,
            lots = lots
        ));
    }
    if let (Some(since), false) = (stock.unsure_since, stock.unsure.is_empty()) {
        let lots = lots(&stock.unsure);
        let day = times::day(language, since);
        tell(say!(
            language,
            "prep-stock-unsure",
            name = name,
            lots = lots,
            day = day
        ));
    }
    if stock.beyond > 0 {
        tell(say!(
            language,
            "prep-stock-beyond",
            name = name,
            portions = stock.beyond
        ));
    }
    lines
}

/// Who does a step: `Ana, Bo`, and how many nobody is free for; nothing where the menu names no
/// hands for it.
#[must_use]
pub fn who_words(language: Language, prep: &PrepNow, step: StepRef) -> Option<String> {
    let done = prep.who.get(&step)?;
    let mut all = done.hands.clone();
    if done.missing > 0 {
        all.push(say!(language, "prep-who-missing", missing = done.missing).into_owned());
    }
    (!all.is_empty()).then(|| all.join(", "))
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;
    use evenhand_kitchen::prep::{Board, Effort};

    const DAY: &str = r#"
        opens = "18:00"
        [[resource]]
        name = "hands"
        places = 1
        [[preparation]]
        name = "soup"
        step = [{ name = "cut", takes = "1 h", needs = "hands" }]
        [[preparation]]
        name = "bread"
        step = [{ name = "knead", takes = "2 h", needs = "hands" }]
    "#;

    /// A latest that no effort was spent on is told as what it is.
    #[test]
    fn a_latest_that_is_not_proven_is_about() {
        let now = "2026-05-08T09:00:00Z".parse().unwrap();
        let board = Board::from_menu(DAY, jiff::civil::date(2026, 5, 8), TimeZone::UTC).unwrap();
        let said = |effort: u64| -> Vec<String> {
            let plan = board.plan_within(now, None, &Effort::new(effort));
            plan.steps
                .iter()
                .map(|planned| latest_words(Language::English, planned, "15:30"))
                .collect()
        };
        assert_eq!(said(Effort::USUAL), ["15:30", "15:30"]);
        assert!(said(0).contains(&"about 15:30".to_owned()), "{:?}", said(0));
    }
}
