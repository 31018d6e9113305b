//! A week of services, as plain data.

use super::words::Language;
use evenhand_use_cases::prep::{Cell, Week, cell_words, week_notes};
use evenhand_use_cases::times;
use jiff::civil::Date;
use jiff::tz::TimeZone;

/// A week.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct WeekView {
    /// Its days: `Fri 8`.
    pub days: Vec<String>,
    /// The day and the guests expected on it; `None` where that is not on record.
    pub covers: Vec<(Date, Option<u32>)>,
    /// Each preparation with a cell a day.
    pub rows: Vec<(String, Vec<WeekCell>)>,
    /// What is in stock, and why something is made that perhaps need not be.
    pub notes: Vec<String>,
}

/// What one day is to one preparation.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WeekCell {
    /// In a word or two.
    pub words: String,
    /// What it asks of somebody.
    pub weight: CellWeight,
}

/// What a cell asks of somebody.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CellWeight {
    /// Something is to be made.
    Make,
    /// It is there.
    There,
    /// Nothing.
    Nothing,
}

/// The week, to be shown.
#[must_use]
pub fn view(week: &Week, today: Date, zone: &TimeZone, language: Language) -> WeekView {
    let day = |day: &Date| format!("{} {}", times::weekday(language, *day), day.day());
    let cell = |cell: &Cell| WeekCell {
        words: cell_words(language, *cell),
        weight: match cell {
            Cell::Make { .. } => CellWeight::Make,
            Cell::Stock { .. } | Cell::Made => CellWeight::There,
            Cell::NoneNeeded | Cell::Off => CellWeight::Nothing,
        },
    };
    WeekView {
        days: week.days.iter().map(day).collect(),
        covers: week
            .days
            .iter()
            .copied()
            .zip(week.covers.iter().copied())
            .collect(),
        rows: week
            .rows
            .iter()
            .map(|(name, cells)| (name.clone(), cells.iter().map(cell).collect()))
            .collect(),
        // What is not known can be put down on this screen.
        notes: week_notes(week, language, today, zone, |_| None),
    }
}
