//! The kitchen's own book on the mixing screens: each bowl of each formula, to
//! be mixed on the scale.

use super::view::BookRow;
use crate::words::Language;
use evenhand_kitchen::ratio::{Formula, Part};
use evenhand_use_cases::book::{self, BookError};
use std::path::Path;

/// One bowl that can be mixed.
#[derive(Debug)]
struct BowlOf {
    /// The formula.
    name: String,
    /// The stage, or `None` for the last bowl.
    stage: Option<String>,
    ratio: Formula,
}

/// The book as it was read last.
#[derive(Debug, Default)]
pub(super) struct BookSheet {
    bowls: Vec<BowlOf>,
    trouble: Vec<BookError>,
}

impl BookSheet {
    /// Reads the book in a data folder. What is not understood is trouble, and
    /// hides nothing else.
    pub(super) fn read(data: &Path) -> Self {
        let mut sheet = Self::default();
        let pages = match book::pages(data) {
            Ok(pages) => pages,
            Err(error) => {
                sheet.trouble.push(error);
                return sheet;
            }
        };
        for page in pages {
            match page.formula {
                Ok(formula) => {
                    sheet
                        .bowls
                        .extend(
                            formula
                                .bowl_ratios()
                                .into_iter()
                                .map(|(stage, ratio)| BowlOf {
                                    name: formula.name().to_owned(),
                                    stage: stage.map(str::to_owned),
                                    ratio,
                                }),
                        );
                }
                Err(error) => sheet.trouble.push(error),
            }
        }
        sheet
    }

    pub(super) const fn len(&self) -> usize {
        self.bowls.len()
    }

    /// What a bowl is titled on record, and its ratio. The last bowl is the
    /// thing itself, so that batches of it are compared with one another.
    pub(super) fn bowl(&self, place: usize) -> Option<(String, &Formula)> {
        let bowl = self.bowls.get(place)?;
        let title = match &bowl.stage {
            Some(stage) => format!("{}, {stage}", bowl.name),
            None => bowl.name.clone(),
        };
        Some((title, &bowl.ratio))
    }

    /// So many bowls from one on.
    pub(super) fn rows(&self, from: usize, count: usize) -> Vec<BookRow> {
        self.bowls
            .iter()
            .skip(from)
            .take(count)
            .map(|bowl| BookRow {
                name: bowl.name.clone(),
                stage: bowl.stage.clone(),
                about: bowl
                    .ratio
                    .items()
                    .iter()
                    .map(|item| match item.part() {
                        Part::Parts(percent) | Part::OfFree(percent) => {
                            (item.ingredient().name().to_owned(), percent)
                        }
                        Part::Free => (item.ingredient().name().to_owned(), 0.0),
                    })
                    .collect(),
            })
            .collect()
    }

    /// Each thing that is not understood, in words.
    pub(super) fn trouble(&self, language: Language) -> Vec<String> {
        self.trouble
            .iter()
            .map(|error| book::book_refused_words(language, error))
            .collect()
    }
}
