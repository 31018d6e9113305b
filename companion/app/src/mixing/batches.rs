//! Batches on record as the screens show them.

use super::recipe_draft::short;
use super::view::{BatchRow, BatchView, CompareView, MarkedPoint};
use super::{NoLimits, Scene};
use crate::controller::sentence;
use crate::figures;
use crate::words::{Language, say};
use evenhand_kitchen::batch::{Batch, BatchId, Comparison, STORE_STEP, ShareOf, What, due_with};
use evenhand_kitchen::limits::Limits;
use evenhand_kitchen::units::Ratio;
use evenhand_protocol::Mass;
use evenhand_use_cases::limits::{caution, source_words};
use evenhand_use_cases::mixing::batch::{
    due_words, loss_words, mark_words, outcome_words, store_words,
};
use evenhand_use_cases::mixing::cure;
use evenhand_use_cases::mixing::mix::ingredient_words;
use evenhand_use_cases::times;
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp};

/// How often the cold store is written down while the probe is in it.
pub(super) const STORE_EVERY: SignedDuration = SignedDuration::from_mins(15);

/// What every row and line is shown with.
#[derive(Debug, Clone, Copy)]
pub(super) struct Lists<'a> {
    pub(super) now: Timestamp,
    pub(super) interval: Mass,
    pub(super) zone: &'a TimeZone,
    pub(super) language: Language,
}

impl Lists<'_> {
    fn grams(&self, mass: Mass) -> String {
        figures::grams(mass, self.interval, self.language)
    }
}

fn title(batch: &Batch, language: Language) -> String {
    batch.title().map_or_else(
        || say!(language, "mixing-no-name").into_owned(),
        str::to_owned,
    )
}

fn about(batch: &Batch, lists: &Lists<'_>) -> String {
    let mut parts = Vec::new();
    let day = |at| times::day_and_time(lists.language, at, lists.zone);
    parts.extend(batch.begun().map(day));
    if batch.total() > Mass::ZERO {
        parts.push(lists.grams(batch.total()));
    }
    parts.join(" \u{b7} ")
}

/// What is to be done first, or how it stands.
fn standing(batch: &Batch, lists: &Lists<'_>) -> (String, bool) {
    let language = lists.language;
    if let Some(due) = batch.due(lists.now).first() {
        return (due_words(language, due), due.is_overdue());
    }
    let words = if batch.came_out().is_some() {
        match batch.tastings().last() {
            Some(tasting) => {
                let mark = mark_words(language, tasting.mark);
                say!(language, "batches-out-tasted", mark = mark)
            }
            None => say!(language, "batches-out"),
        }
    } else if batch.is_ready() {
        say!(language, "batches-ready")
    } else {
        say!(language, "batches-not-ready")
    };
    (words.into_owned(), false)
}

pub(super) fn row(id: BatchId, batch: &Batch, lists: &Lists<'_>) -> BatchRow {
    let (due, overdue) = standing(batch, lists);
    BatchRow {
        id,
        title: title(batch, lists.language),
        about: about(batch, lists),
        due,
        overdue,
    }
}

/// What is due with every batch, soonest first.
pub(super) fn due(batches: &[(BatchId, Batch)], lists: &Lists<'_>) -> Vec<BatchRow> {
    let mut rows: Vec<BatchRow> = Vec::new();
    for (id, batch, _) in due_with(batches, lists.now) {
        if rows.iter().all(|row| row.id != id) {
            rows.push(row(id, batch, lists));
        }
    }
    rows
}

/// Titles, the latest first, each once.
pub(super) fn titles(batches: &[(BatchId, Batch)]) -> Vec<String> {
    let mut titles: Vec<String> = Vec::new();
    let weighed = batches
        .iter()
        .filter(|(_, batch)| !batch.weighed_in().is_empty());
    for title in weighed.filter_map(|(_, batch)| batch.title()) {
        if !titles
            .iter()
            .any(|other| other.to_lowercase() == title.to_lowercase())
        {
            titles.push(title.to_owned());
        }
    }
    titles
}

/// Names of plain ingredients in use, the latest first.
pub(super) fn names(batches: &[(BatchId, Batch)], language: Language) -> Vec<String> {
    let mut names: Vec<String> = Vec::new();
    let used = batches.iter().flat_map(|(_, batch)| {
        batch
            .weighed_in()
            .into_iter()
            .filter_map(|slot| slot.ingredient)
            .filter(|ingredient| ingredient.agent().is_none())
            .map(|ingredient| ingredient.name().to_owned())
            .collect::<Vec<_>>()
    });
    // What nearly everything is made of, for the first day (common practice, no source).
    let common = [
        say!(language, "mixing-water"),
        say!(language, "mixing-salt"),
        say!(language, "mixing-sugar"),
        say!(language, "mixing-flour"),
    ]
    .map(std::borrow::Cow::into_owned);
    for name in used.chain(common) {
        if !names
            .iter()
            .any(|other| other.to_lowercase() == name.to_lowercase())
        {
            names.push(name);
        }
    }
    names
}

/// The batches of a title, the latest first.
fn of_title<'b>(batches: &'b [(BatchId, Batch)], title: &str) -> Vec<&'b (BatchId, Batch)> {
    let title = title.to_lowercase();
    batches
        .iter()
        .filter(|(_, batch)| {
            batch
                .title()
                .is_some_and(|other| other.to_lowercase() == title)
        })
        .collect()
}

/// The latest batch of a title.
pub(super) fn latest<'b>(batches: &'b [(BatchId, Batch)], title: &str) -> Option<&'b Batch> {
    of_title(batches, title)
        .into_iter()
        .map(|(_, batch)| batch)
        .find(|batch| batch.as_formula().is_ok())
}

/// What one batch is shown with.
pub(super) struct Around<'a> {
    pub(super) batches: &'a [(BatchId, Batch)],
    pub(super) scene: &'a Scene,
    pub(super) lists: Lists<'a>,
    pub(super) logs_store: bool,
    pub(super) limits: Result<&'a Limits, &'a NoLimits>,
}

pub(super) fn view(id: BatchId, batch: &Batch, around: &Around<'_>) -> BatchView {
    let lists = &around.lists;
    let language = lists.language;
    let total = batch.total();
    let ingredients = batch
        .weighed_in()
        .into_iter()
        .filter(|slot| slot.mass > Mass::ZERO)
        .map(|slot| {
            (
                slot.ingredient.map_or_else(
                    || say!(language, "mixing-no-name").into_owned(),
                    |ingredient| ingredient_words(language, &ingredient),
                ),
                lists.grams(slot.mass),
                language.figure(format!(
                    "{:.2} %",
                    slot.mass.grams() / total.grams() * 100.0
                )),
            )
        })
        .collect();
    BatchView {
        id,
        title: title(batch, language),
        about: about(batch, lists),
        ingredients,
        due: batch
            .due(lists.now)
            .iter()
            .map(|due| (due_words(language, due), due.is_overdue()))
            .collect(),
        lines: lines(batch, around),
        mark: batch.tastings().last().map(|tasting| tasting.mark.value()),
        logs_store: around.logs_store,
        probe: around.scene.probe.is_some(),
        drying: batch.loss_target().is_some(),
        planned: !batch.due(lists.now).is_empty(),
        of_title: batch
            .title()
            .map_or(1, |title| of_title(around.batches, title).len()),
        on_scale: around
            .scene
            .look
            .filter(|look| look.stable && look.mass >= Mass::from_grams(5))
            .map(|look| lists.grams(look.mass)),
    }
}

fn lines(batch: &Batch, around: &Around<'_>) -> Vec<String> {
    let language = around.lists.language;
    let mut lines = Vec::new();
    let nitrite = batch
        .entries()
        .filter(|(_, struck)| !struck)
        .filter_map(|(entry, _)| match &entry.what {
            What::Ready { nitrite } => Some(*nitrite),
            _ => None,
        })
        .last();
    match (batch.is_ready(), nitrite.flatten()) {
        (true, Some(nitrite)) => lines.push(
            say!(
                language,
                "batches-ready-nitrite",
                ppm = language.figure(format!("{:.1}", nitrite.ppm.value())),
                most = language.figure(short(nitrite.at_most.value())),
                method = cure::method_words(language, nitrite.method),
            )
            .into_owned(),
        ),
        (true, None) => lines.push(say!(language, "batches-marked-ready").into_owned()),
        (false, _) => lines.push(say!(language, "batches-not-ready").into_owned()),
    }
    match (batch.loss(), batch.loss_target()) {
        (Some(loss), _) => {
            let loss = loss_words(language, &loss);
            lines.push(say!(language, "batches-drying", loss = loss).into_owned());
        }
        (None, Some(target)) => lines.push(
            say!(
                language,
                "batches-to-dry",
                percent = language.figure(short(target.percent())),
                mass = around.lists.grams(target.down_to()),
            )
            .into_owned(),
        ),
        (None, None) => {}
    }
    match around.limits {
        Ok(limits) => {
            let findings = batch.store_check(limits, STORE_STEP);
            if let Some(limit) = limits.named("cold-holding")
                && !findings.is_empty()
            {
                lines.extend(findings.iter().map(|finding| {
                    say!(
                        language,
                        "batches-store",
                        outcome = outcome_words(language, finding.outcome),
                        found = store_words(language, finding),
                    )
                    .into_owned()
                }));
                let source = source_words(language, &limit.source);
                lines.push(say!(language, "mixing-by", source = source).into_owned());
                lines.push(caution(language));
            }
        }
        Err(none) => lines.push(sentence(&none.in_words(language))),
    }
    for tasting in batch.tastings().iter().rev().take(2) {
        let mark = mark_words(language, tasting.mark);
        lines.push(
            say!(
                language,
                "batches-tasted",
                mark = mark,
                note = tasting.note.as_str(),
            )
            .into_owned(),
        );
    }
    let notes = batch.entries().filter(|(_, struck)| !struck);
    let notes: Vec<&String> = notes
        .filter_map(|(entry, _)| match &entry.what {
            What::Noted { text } => Some(text),
            _ => None,
        })
        .collect();
    lines.extend(notes.iter().rev().take(2).map(|text| sentence(text)));
    lines
}

pub(super) fn compare(
    batches: &[(BatchId, Batch)],
    title: &str,
    of_first: bool,
    plotted: usize,
    lists: &Lists<'_>,
) -> CompareView {
    let of_title = of_title(batches, title);
    let first = of_title.iter().find_map(|(_, batch)| {
        batch
            .weighed_in()
            .into_iter()
            .find_map(|slot| slot.ingredient)
    });
    let of = match (of_first, first) {
        (true, Some(first)) => ShareOf::Ingredient(first.name().to_owned()),
        _ => ShareOf::Total,
    };
    let comparison = Comparison::new(of_title.iter().map(|(_, batch)| batch), of.clone());
    let best = comparison.best();
    let language = lists.language;
    let share = |share: &Option<Ratio>| {
        share.map_or_else(
            || "\u{2013}".to_owned(),
            |share| language.figure(format!("{:.2}", share.percent())),
        )
    };
    let points = comparison
        .rows
        .iter()
        .enumerate()
        .filter_map(|(nth, row)| {
            Some(MarkedPoint {
                share: row.shares.get(plotted).copied().flatten()?.percent(),
                mark: row.mark?.value(),
                latest: nth == 0,
            })
        })
        .collect();
    CompareView {
        title: title.to_owned(),
        of: match of {
            ShareOf::Total => say!(language, "compare-of-the-whole").into_owned(),
            ShareOf::Ingredient(name) => say!(language, "compare-of", name = name).into_owned(),
        },
        ingredients: comparison
            .kinds
            .iter()
            .map(|kind| ingredient_words(language, kind))
            .collect(),
        plotted,
        rows: comparison
            .rows
            .iter()
            .enumerate()
            .map(|(nth, row)| {
                (
                    row.begun.map_or_else(String::new, |begun| {
                        times::short_day(
                            language,
                            begun.to_zoned_datetime(lists.zone.clone()).date(),
                        )
                    }),
                    row.shares.iter().map(share).collect(),
                    row.mark
                        .map_or_else(|| "\u{2013}".to_owned(), |mark| mark.value().to_string()),
                    row.note.clone().unwrap_or_default(),
                    best == Some(nth),
                )
            })
            .collect(),
        points,
    }
}
