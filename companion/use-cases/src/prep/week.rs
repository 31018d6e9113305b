//! A week as a table: day by preparation, what is made and what comes from stock.

use super::supply::{OnRecord, Supplied, supply};
use super::words::{remedy, stock_words, supply_words};
use super::{PrepError, PrepQuestion};
use crate::times;
use crate::words::say;
use evenhand_kitchen::limits::Limits;
use evenhand_kitchen::prep::{OfPreparation, Step, WhyMade};
use evenhand_store::Store;
use evenhand_words::Language;
use jiff::ToSpan;
use jiff::civil::Date;
use jiff::tz::TimeZone;
use std::fmt::Write;

/// What one day is to one preparation.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Cell {
    /// So many batches are made for it; `known`: the record says that they must.
    Make {
        /// How many.
        batches: u32,
        /// Whether stock and need are known: else it is made to be sure.
        known: bool,
    },
    /// It comes from stock, where so many portions keep to it.
    Stock {
        /// How many.
        portions: u32,
    },
    /// Its own batch is finished.
    Made,
    /// None is needed.
    NoneNeeded,
    /// Not on the menu, or no service.
    Off,
}

/// A week.
#[derive(Debug, Clone)]
pub struct Week {
    /// Its days.
    pub days: Vec<Date>,
    /// Guests expected on each; `None` where that is not on record.
    pub covers: Vec<Option<u32>>,
    /// Each preparation with a cell a day, in the order of the menu.
    pub rows: Vec<(String, Vec<Cell>)>,
    /// What feeds each service, for preparations that are made in batches.
    pub supplied: Vec<Supplied>,
}

impl Week {
    /// Works it out from what is on record: the day asked for and those ahead.
    ///
    /// # Errors
    /// [`PrepError`]; [`PrepError::NoMenu`] where no day of it has one.
    pub fn of(
        store: &Store,
        question: &PrepQuestion<'_>,
        limits: &Limits,
    ) -> Result<Self, PrepError> {
        let mut record = OnRecord::read(store, question)?;
        let mut days = Vec::new();
        let mut boards = Vec::new();
        for ahead in 0..=question.days_ahead.max(0) {
            let Ok(day) = question.day.checked_add(ahead.days()) else {
                break;
            };
            days.push(day);
            boards.extend(record.board(day)?);
        }
        let covers = days
            .iter()
            .map(|day| store.covers(*day))
            .collect::<Result<_, _>>()?;
        if boards.is_empty() {
            return Err(PrepError::NoMenu(question.day));
        }
        let supplied = supply(&mut record, &mut boards, limits)?;
        let mut rows: Vec<(String, Vec<Cell>)> = Vec::new();
        for day in &boards {
            let first = |(_, step): &(_, &Step)| day.board.batch_of(&step.preparation).1 == 1;
            for (_, step) in day.board.steps().filter(first) {
                if !rows.iter().any(|(name, _)| *name == step.preparation) {
                    rows.push((step.preparation.clone(), vec![Cell::Off; days.len()]));
                }
            }
        }
        for (name, cells) in &mut rows {
            for (cell, day) in cells.iter_mut().zip(&days) {
                let Some(board) = boards.iter().find(|board| board.day == *day) else {
                    continue;
                };
                if !board
                    .board
                    .steps()
                    .any(|(_, step)| step.preparation == *name)
                {
                    continue;
                }
                let fed = supplied
                    .iter()
                    .find(|s| s.supply.day == *day && s.preparation == *name);
                *cell = match (fed, board.board.of_preparation(name)) {
                    (Some(fed), _) => cell_of(fed),
                    (None, OfPreparation::Finished { .. }) => Cell::Made,
                    (None, _) => Cell::Make {
                        batches: 1,
                        known: true,
                    },
                };
            }
        }
        Ok(Self {
            days,
            covers,
            rows,
            supplied,
        })
    }
}

fn cell_of(fed: &Supplied) -> Cell {
    match (fed.supply.make, fed.supply.needed) {
        (Some((batches, why)), _) => Cell::Make {
            batches,
            known: matches!(why, WhyMade::Short | WhyMade::Begun),
        },
        (None, _) if fed.supply.own.finished > 0 => Cell::Made,
        (None, Ok(0)) => Cell::NoneNeeded,
        (None, _) => Cell::Stock {
            portions: fed.supply.in_stock(),
        },
    }
}

/// A cell in a word or two.
#[must_use]
pub fn cell_words(language: Language, cell: Cell) -> String {
    match cell {
        Cell::Make { batches, known } => {
            let mark = if known { "" } else { "?" };
            let times = if batches > 1 {
                format!(" {batches}x")
            } else {
                String::new()
            };
            format!("{}{times}{mark}", say!(language, "prep-week-make"))
        }
        Cell::Stock { portions } => say!(language, "prep-week-stock", portions = portions).into(),
        Cell::Made => say!(language, "prep-week-made").into(),
        Cell::NoneNeeded => say!(language, "prep-week-none").into(),
        Cell::Off => String::from("-"),
    }
}

/// A cell's width, and the widest name that stands on the line of its cells.
const CELL: usize = 9;
const NAME: usize = 16;

/// The week as plain text, at most 80 columns for seven days: the table, then what is in stock,
/// and why something is made that perhaps need not be.
#[must_use]
pub fn week_page(week: &Week, language: Language, today: Date, zone: &TimeZone) -> String {
    let mut text = String::new();
    // Writing to a text cannot fail.
    let mut line = |words: &str| {
        let _ = writeln!(text, "{}", words.trim_end());
    };
    if let (Some(first), Some(last)) = (week.days.first(), week.days.last()) {
        let heading = say!(
            language,
            "prep-week-heading",
            first = times::day(language, *first),
            last = times::day(language, *last)
        );
        line(&heading);
    }
    let head: String = week
        .days
        .iter()
        .map(|day| {
            format!(
                "{:CELL$}",
                format!("{} {}", times::weekday(language, *day), day.day())
            )
        })
        .collect();
    line(&format!("{:NAME$} {head}", ""));
    for (name, cells) in &week.rows {
        let cells: String = cells
            .iter()
            .map(|cell| format!("{:CELL$}", cell_words(language, *cell)))
            .collect();
        if name.chars().count() > NAME {
            line(name);
            line(&format!("{:NAME$} {cells}", ""));
        } else {
            line(&format!("{name:NAME$} {cells}"));
        }
    }
    let notes = week_notes(week, language, today, zone, |fed| remedy(language, fed));
    if !notes.is_empty() {
        line("");
    }
    for note in &notes {
        for part in textwrap::wrap(note, textwrap::Options::new(80).subsequent_indent("  ")) {
            line(&part);
        }
    }
    text
}

/// What is in stock, and why something is made that perhaps need not be, a line each.
/// `mended_by` says what would mend that, where the reader has no other way to do it.
#[must_use]
pub fn week_notes(
    week: &Week,
    language: Language,
    today: Date,
    zone: &TimeZone,
    mended_by: impl Fn(&Supplied) -> Option<String>,
) -> Vec<String> {
    let mut notes: Vec<String> = Vec::new();
    let mut seen: Vec<&str> = Vec::new();
    for fed in &week.supplied {
        if !seen.contains(&fed.preparation.as_str()) {
            seen.push(&fed.preparation);
            notes.extend(stock_words(language, fed, today, zone));
        }
    }
    // What is so on several days is told once, with what would mend the first of them.
    let mut told: Vec<(String, String, Vec<String>)> = Vec::new();
    for fed in week.supplied.iter().filter(|fed| fed.is_told()) {
        let day = times::weekday(language, fed.supply.day);
        let mut plain = fed.clone();
        plain.on_board.clone_from(&fed.preparation);
        let words = supply_words(language, &plain, today, zone);
        match told.iter_mut().find(|(known, ..)| *known == words) {
            Some((.., days)) => days.push(day),
            None => {
                let remedy = mended_by(fed).map_or_else(String::new, |it| format!(" {it}"));
                told.push((words, remedy, vec![day]));
            }
        }
    }
    for (words, remedy, days) in told {
        notes.push(format!("{}: {words}{remedy}", days.join(", ")));
    }
    notes
}
