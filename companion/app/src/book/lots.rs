//! Lots: one food through all its steps, each held against its limit, and the sheet of it.

use super::view::{FootView, RowView, Sheet};
use super::{BookPage, BookWish};
use crate::words::{Language, say};
use evenhand_kitchen::heat::Outcome;
use evenhand_use_cases::lots::{
    ListedLot, LotNow, lot_words, lots_error_words, mark_words, stands_words,
};
use jiff::tz::TimeZone;
use std::path::PathBuf;

/// The lots' screens.
#[derive(Debug, Default)]
pub(super) struct LotSheet {
    /// Those in the folder; `None` until the worker has looked.
    listed: Option<Vec<ListedLot>>,
    /// The file of the one that is shown.
    chosen: Option<PathBuf>,
    /// The sheet that was written last.
    written: Option<PathBuf>,
}

impl LotSheet {
    pub(super) fn listed(&mut self, lots: Vec<ListedLot>) {
        self.listed = Some(lots);
    }

    /// Shows a lot of the list; whether it is there.
    pub(super) fn choose(&mut self, nth: usize) -> bool {
        self.written = None;
        let lots = self.listed.as_deref().unwrap_or_default();
        self.chosen = lots.get(nth).map(|lot| lot.path.clone());
        self.chosen.is_some()
    }

    /// The file of the lot that is shown.
    pub(super) fn file(&self) -> Option<PathBuf> {
        self.shown().map(|lot| lot.path.clone())
    }

    pub(super) fn written(&mut self, path: PathBuf) {
        self.written = Some(path);
    }

    fn shown(&self) -> Option<&ListedLot> {
        let chosen = self.chosen.as_ref()?;
        self.listed.iter().flatten().find(|lot| lot.path == *chosen)
    }

    pub(super) fn view(&self, page: BookPage, language: Language, zone: &TimeZone) -> Sheet {
        match (page, self.shown()) {
            (BookPage::Lot, Some(listed)) => self.lot(listed, language, zone),
            _ => self.list(language),
        }
    }

    fn list(&self, language: Language) -> Sheet {
        let lots = self.listed.as_deref().unwrap_or_default();
        let (rows, refused): (Vec<_>, Vec<_>) = lots
            .iter()
            .enumerate()
            .partition(|(_, listed)| listed.lot.is_ok());
        let rows = rows.into_iter().filter_map(|(nth, listed)| {
            let now = listed.lot.as_ref().ok()?;
            Some(RowView {
                name: now.lot.title.clone(),
                about: about(now, language),
                wish: BookWish::Lot(nth),
            })
        });
        let refused = refused.into_iter().filter_map(|(_, listed)| {
            let error = listed.lot.as_ref().err()?;
            Some(format!(
                "{}: {}.",
                listed.file(),
                lots_error_words(language, error)
            ))
        });
        Sheet {
            heading: say!(language, "lots-heading").into_owned(),
            prompt: match &self.listed {
                None => String::new(),
                Some(lots) if lots.is_empty() => say!(language, "lots-none").into_owned(),
                Some(_) => say!(language, "lots-touch").into_owned(),
            },
            rows: rows.collect(),
            lines: if lots.is_empty() && self.listed.is_some() {
                vec![say!(language, "lots-how").into_owned()]
            } else {
                refused.collect()
            },
            foot: vec![FootView::plain(say!(language, "back"), BookWish::Done)],
            ..Sheet::default()
        }
    }

    fn lot(&self, listed: &ListedLot, language: Language, zone: &TimeZone) -> Sheet {
        let back = FootView::plain(say!(language, "back"), BookWish::Show(BookPage::Lots));
        let now = match &listed.lot {
            Ok(now) => now,
            Err(error) => {
                return Sheet {
                    heading: say!(language, "lots-heading").into_owned(),
                    loud: Some(lots_error_words(language, error)),
                    foot: vec![back],
                    ..Sheet::default()
                };
            }
        };
        let written = self.written.iter().map(|path| {
            let path = path.display().to_string();
            say!(language, "lots-written", path = path).into_owned()
        });
        let stands = stands_words(language, now, zone);
        let within = now.outcome == Some(Outcome::Kept);
        // The title stands above, and so does how it stands where it is not within.
        let said = lot_words(language, now, zone).into_iter().skip(2);
        let said = said.map(|(_, words)| evenhand_use_cases::sheet::with_degree_signs(&words));
        Sheet {
            heading: now.lot.title.clone(),
            prompt: if within {
                stands.clone()
            } else {
                String::new()
            },
            loud: (!within).then_some(stands),
            lines: written.chain(said).collect(),
            foot: vec![
                back,
                FootView::main(say!(language, "lots-page"), BookWish::LotPage, true),
            ],
            ..Sheet::default()
        }
    }
}

/// How a lot stands in a row: its mark, and which step that is by where it is not within.
fn about(now: &LotNow, language: Language) -> String {
    let mark = mark_words(language, now.outcome);
    let by = now
        .steps
        .iter()
        .find(|step| step.found.outcome == now.outcome && now.outcome != Some(Outcome::Kept));
    match by {
        Some(step) => say!(
            language,
            "lots-about-step",
            mark = mark,
            step = step.step.name.as_str()
        ),
        None => say!(language, "lots-about", mark = mark, steps = now.steps.len()),
    }
    .into_owned()
}
