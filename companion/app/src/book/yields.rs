//! Batches that were soaked, steeped, pressed or strained, side by side by what
//! came out of them.

use super::view::{BarView, Bars, FootView, RowView, Sheet};
use super::{BookPage, BookWish};
use crate::words::{Language, say};
use evenhand_kitchen::batch::{YieldRow, Yields};
use evenhand_use_cases::mixing::yields::{row_words, usual_words};
use evenhand_use_cases::times;
use evenhand_use_cases::yield_picture::{figures_words, lost_words, row_figures};
use jiff::tz::TimeZone;

/// A title of which something came out.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct MadeTitle {
    pub(super) title: String,
    pub(super) batches: usize,
    /// What came out of any of them.
    pub(super) names: Vec<String>,
}

/// The batches of one title by what came out of them.
#[derive(Debug)]
pub(super) struct SideBySide {
    pub(super) title: String,
    /// What everything is told over.
    pub(super) of: String,
    /// What else it could be told over, with that.
    pub(super) bases: Vec<String>,
    pub(super) found: Yields,
}

/// Everything on the screens of what came out.
#[derive(Debug, Default)]
pub(super) struct YieldSheet {
    titles: Option<Vec<MadeTitle>>,
    shown: Option<SideBySide>,
    /// The batch whose figures are told; the latest, where nobody chose.
    chosen: Option<usize>,
}

impl YieldSheet {
    pub(super) fn listed(&mut self, titles: Vec<MadeTitle>) {
        self.titles = Some(titles);
    }

    pub(super) fn lined_up(&mut self, shown: SideBySide) {
        self.chosen = None;
        self.shown = Some(shown);
    }

    /// The title of that place in the list; what was shown before is so no more.
    pub(super) fn begin(&mut self, nth: usize) -> Option<String> {
        self.shown = None;
        let titles = self.titles.as_ref()?;
        Some(titles.get(nth)?.title.clone())
    }

    pub(super) fn choose(&mut self, nth: usize) {
        self.chosen = Some(nth);
    }

    /// The title that is shown, with what it is to be told over next.
    pub(super) fn next_base(&self) -> Option<(String, String)> {
        let shown = self.shown.as_ref()?;
        let place = shown.bases.iter().position(|base| *base == shown.of);
        let next = place.map_or(0, |place| place + 1) % shown.bases.len().max(1);
        Some((shown.title.clone(), shown.bases.get(next)?.clone()))
    }

    pub(super) fn view(&self, page: BookPage, language: Language, zone: &TimeZone) -> Sheet {
        match (page, &self.shown) {
            (BookPage::Yields, Some(shown)) => self.side_by_side(shown, language, zone),
            (BookPage::Yields, None) => Sheet {
                heading: say!(language, "yields-heading").into_owned(),
                foot: vec![FootView::plain(
                    say!(language, "back"),
                    BookWish::Show(BookPage::YieldTitles),
                )],
                ..Sheet::default()
            },
            _ => self.list(language),
        }
    }

    fn list(&self, language: Language) -> Sheet {
        let titles = self.titles.as_deref().unwrap_or_default();
        let none = self.titles.as_ref().is_some_and(Vec::is_empty);
        Sheet {
            heading: say!(language, "yields-heading").into_owned(),
            prompt: if titles.is_empty() {
                String::new()
            } else {
                say!(language, "yields-choose").into_owned()
            },
            lines: if none {
                vec![say!(language, "yields-none").into_owned()]
            } else {
                Vec::new()
            },
            rows: titles
                .iter()
                .enumerate()
                .map(|(nth, made)| RowView {
                    name: made.title.clone(),
                    about: say!(
                        language,
                        "yields-about",
                        count = made.batches,
                        names = made.names.join(", ")
                    )
                    .into_owned(),
                    wish: BookWish::YieldsOf(nth),
                })
                .collect(),
            foot: vec![FootView::plain(say!(language, "back"), BookWish::Done)],
            ..Sheet::default()
        }
    }

    fn side_by_side(&self, shown: &SideBySide, language: Language, zone: &TimeZone) -> Sheet {
        let found = &shown.found;
        let chosen = self.chosen.unwrap_or(found.rows.len().saturating_sub(1));
        let day = |row: &YieldRow| {
            row.begun.map_or_else(
                || say!(language, "yields-no-day").into_owned(),
                |at| {
                    let day = at.to_zoned_datetime(zone.clone()).date();
                    times::short_day_of_year(language, day)
                },
            )
        };
        let mut lines = usual_words(language, found, &shown.of);
        if let Some(row) = found.rows.get(chosen) {
            let figures = row_words(language, found, row, &shown.of).join(" ");
            lines.push(
                say!(language, "yields-batch", day = day(row), figures = figures).into_owned(),
            );
        }
        Sheet {
            heading: shown.title.clone(),
            prompt: say!(language, "yields-touch").into_owned(),
            bars: Some(Bars {
                legend: found.names.clone(),
                lost: lost_words(language),
                figures: figures_words(language, &shown.of),
                bars: found
                    .rows
                    .iter()
                    .enumerate()
                    .map(|(nth, row)| BarView {
                        name: day(row),
                        into: row.into.fraction() as f32,
                        out: row
                            .out
                            .iter()
                            .map(|out| out.map_or(0.0, |out| out.fraction() as f32))
                            .collect(),
                        figures: row_figures(language, row),
                        chosen: nth == chosen,
                        wish: BookWish::YieldBatch(nth),
                    })
                    .collect(),
            }),
            lines,
            foot: vec![
                FootView::plain(
                    say!(language, "back"),
                    BookWish::Show(BookPage::YieldTitles),
                ),
                FootView {
                    enabled: shown.bases.len() > 1,
                    ..FootView::plain(
                        say!(language, "yields-over", name = shown.of.as_str()),
                        BookWish::YieldsOver,
                    )
                },
            ],
            ..Sheet::default()
        }
    }
}
