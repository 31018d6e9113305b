//! Batches on record as the screens show them.

use super::Scene;
use super::sketch::short;
use super::view::{BatchRow, BatchView, CompareView, MarkedPoint};
use crate::desk::sentence;
use crate::figures;
use crate::words::Language;
use evenhand_kitchen::batch::{Batch, BatchId, Comparison, STORE_STEP, ShareOf, What, due_with};
use evenhand_kitchen::limits::{CAUTION, Limits};
use evenhand_kitchen::units::Ratio;
use evenhand_protocol::Mass;
use evenhand_use_cases::times;
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp};

/// How often the cold store is written down while the probe is in it.
pub(super) const STORE_EVERY: SignedDuration = SignedDuration::from_mins(15);

fn title(batch: &Batch) -> String {
    batch.title().unwrap_or("No name yet").to_owned()
}

fn day(at: Timestamp, zone: &TimeZone) -> String {
    times::day_and_time(Language::English, at, zone)
}

fn about(batch: &Batch, interval: Mass, zone: &TimeZone) -> String {
    let mut parts = Vec::new();
    parts.extend(batch.begun().map(|begun| day(begun, zone)));
    if batch.total() > Mass::ZERO {
        parts.push(figures::grams(batch.total(), interval, Language::English));
    }
    parts.join(" \u{b7} ")
}

/// What is to be done first, or how it stands.
fn standing(batch: &Batch, now: Timestamp) -> (String, bool) {
    if let Some(due) = batch.due(now).first() {
        return (sentence(&due.to_string()), due.is_overdue());
    }
    let words = if batch.came_out().is_some() {
        match batch.tastings().last() {
            Some(tasting) => format!("Out, {}.", tasting.mark),
            None => "Out, not tasted.".to_owned(),
        }
    } else if batch.is_ready() {
        "Ready.".to_owned()
    } else {
        "Not marked ready.".to_owned()
    };
    (words, false)
}

pub(super) fn row(
    id: BatchId,
    batch: &Batch,
    now: Timestamp,
    interval: Mass,
    zone: &TimeZone,
) -> BatchRow {
    let (due, overdue) = standing(batch, now);
    BatchRow {
        id,
        title: title(batch),
        about: about(batch, interval, zone),
        due,
        overdue,
    }
}

/// What is due with every batch, soonest first.
pub(super) fn due(
    batches: &[(BatchId, Batch)],
    now: Timestamp,
    interval: Mass,
    zone: &TimeZone,
) -> Vec<BatchRow> {
    let mut rows: Vec<BatchRow> = Vec::new();
    for (id, batch, _) in due_with(batches, now) {
        if rows.iter().all(|row| row.id != id) {
            rows.push(row(id, batch, now, interval, zone));
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
pub(super) fn names(batches: &[(BatchId, Batch)]) -> Vec<String> {
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
    let common = ["water", "salt", "sugar", "flour"].map(str::to_owned);
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
    pub(super) now: Timestamp,
    pub(super) zone: &'a TimeZone,
    pub(super) logs_store: bool,
    pub(super) limits: Result<&'a Limits, &'a String>,
}

pub(super) fn view(id: BatchId, batch: &Batch, around: &Around<'_>) -> BatchView {
    let interval = around.scene.interval;
    let total = batch.total();
    let ingredients = batch
        .weighed_in()
        .into_iter()
        .filter(|slot| slot.mass > Mass::ZERO)
        .map(|slot| {
            (
                slot.ingredient
                    .map_or_else(|| "No name yet".to_owned(), |name| name.to_string()),
                figures::grams(slot.mass, interval, Language::English),
                format!("{:.2} %", slot.mass.grams() / total.grams() * 100.0),
            )
        })
        .collect();
    BatchView {
        id,
        title: title(batch),
        about: about(batch, interval, around.zone),
        ingredients,
        due: batch
            .due(around.now)
            .iter()
            .map(|due| (sentence(&due.to_string()), due.is_overdue()))
            .collect(),
        lines: lines(batch, around),
        mark: batch.tastings().last().map(|tasting| tasting.mark.value()),
        logs_store: around.logs_store,
        probe: around.scene.probe.is_some(),
        drying: batch.loss_target().is_some(),
        planned: !batch.due(around.now).is_empty(),
        of_title: batch
            .title()
            .map_or(1, |title| of_title(around.batches, title).len()),
        on_scale: around
            .scene
            .look
            .filter(|look| look.stable && look.mass >= Mass::from_grams(5))
            .map(|look| figures::grams(look.mass, interval, Language::English)),
    }
}

fn lines(batch: &Batch, around: &Around<'_>) -> Vec<String> {
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
        (true, Some(nitrite)) => lines.push(format!(
            "Ready: {:.1} of ingoing nitrite, at most {} for {}.",
            nitrite.ppm, nitrite.at_most, nitrite.method
        )),
        (true, None) => lines.push("Marked ready.".to_owned()),
        (false, _) => lines.push("Not marked ready.".to_owned()),
    }
    match (batch.loss(), batch.loss_target()) {
        (Some(loss), _) => lines.push(format!("Drying: {loss}.")),
        (None, Some(target)) => lines.push(format!(
            "Drying: to lose {} %, down to {}; not weighed again yet.",
            short(target.percent()),
            figures::grams(target.down_to(), around.scene.interval, Language::English)
        )),
        (None, None) => {}
    }
    match around.limits {
        Ok(limits) => {
            let findings = batch.store_check(limits, STORE_STEP);
            if let Some(limit) = limits.named("cold-holding")
                && !findings.is_empty()
            {
                for finding in &findings {
                    lines.push(format!(
                        "Cold store: {}: {finding}",
                        finding.outcome.words()
                    ));
                }
                lines.push(format!("By {}.", limit.source));
                lines.push(CAUTION.to_owned());
            }
        }
        Err(trouble) => lines.push(format!("{trouble}.")),
    }
    for tasting in batch.tastings().iter().rev().take(2) {
        lines.push(format!("{}: {}", tasting.mark, tasting.note));
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
    zone: &TimeZone,
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
    let share = |share: &Option<Ratio>| {
        share.map_or_else(
            || "\u{2013}".to_owned(),
            |share| format!("{:.2}", share.percent()),
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
            ShareOf::Total => "per cent of the whole".to_owned(),
            ShareOf::Ingredient(name) => format!("per cent of {name}"),
        },
        ingredients: comparison.ingredients.clone(),
        plotted,
        rows: comparison
            .rows
            .iter()
            .enumerate()
            .map(|(nth, row)| {
                (
                    row.begun.map_or_else(String::new, |begun| {
                        times::short_day(
                            Language::English,
                            begun.to_zoned_datetime(zone.clone()).date(),
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
