//! What a formula has besides its shares: where a stage goes, how it is done, what it is held
//! to; and how it leaves the book.

use super::super::view::{FieldView, FootView, RowView, Sheet};
use super::super::{BookField, BookPage, BookWish};
use super::FormulaSheet;
use crate::words::{Language, say};
use evenhand_use_cases::limits::{caution, limit_words, source_words};
use evenhand_use_cases::times::capital;
use std::path::PathBuf;

/// Which way something goes in a list.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Way {
    /// Nearer to the first.
    Earlier,
    /// Nearer to the last.
    Later,
}

impl FormulaSheet {
    /// What stands in a field already, to be written on at.
    pub(in super::super) fn written(&self, field: BookField) -> String {
        let text = match field {
            BookField::RenameStage => self.draft.stages.get(self.stage).map(|stage| &stage.name),
            BookField::Rename(nth) => self.draft.lines.get(nth).map(|line| &line.name),
            BookField::Work(nth) => self.draft.how.get(nth),
            _ => None,
        };
        text.cloned().unwrap_or_default()
    }

    /// What a field is about, where its words alone do not tell.
    pub(in super::super) fn about(&self, field: BookField) -> Option<String> {
        match field {
            BookField::Percent(nth) | BookField::WaterIn(nth) | BookField::Takes(nth) => {
                self.draft.lines.get(nth).map(|line| line.name.clone())
            }
            _ => None,
        }
    }

    /// Puts the stage on the screen into another, or into the last bowl.
    pub(in super::super) fn put_stage_into(&mut self, into: Option<usize>) {
        self.stage = self.draft.put_into(self.stage, into);
        self.saved = false;
    }

    pub(in super::super) const fn show_work(&mut self, nth: usize) {
        self.work = nth;
    }

    pub(in super::super) fn move_work(&mut self, way: Way) {
        let to = match way {
            Way::Earlier => self.work.checked_sub(1),
            Way::Later => self.work.checked_add(1),
        };
        let fits = |to: &usize| *to < self.draft.how.len();
        if let Some(to) = to.filter(fits)
            && self.work < self.draft.how.len()
        {
            self.draft.how.swap(self.work, to);
            self.work = to;
            self.saved = false;
        }
    }

    pub(in super::super) fn drop_work(&mut self) {
        if self.work < self.draft.how.len() {
            self.draft.how.remove(self.work);
            self.saved = false;
        }
    }

    /// A limit applies to the formula, or no longer.
    pub(in super::super) fn turn_limit(&mut self, name: &str) {
        let before = self.draft.limits.len();
        self.draft
            .limits
            .retain(|there| !there.eq_ignore_ascii_case(name));
        if self.draft.limits.len() == before {
            self.draft.limits.push(name.to_owned());
        }
        self.saved = false;
    }

    /// The formula to be taken out of the book: the one that is kept, whatever is written now.
    pub(in super::super) fn to_take_out(&self) -> Option<String> {
        self.kept_as.clone()
    }

    /// It is out of the book.
    pub(in super::super) fn is_out(&mut self, name: String, path: PathBuf) {
        self.begin(None);
        self.taken_out = Some((name, path));
    }

    // What is shown.

    pub(super) fn taken_out_words(&self, language: Language) -> Vec<String> {
        let words = self.taken_out.as_ref().map(|(name, path)| {
            let path = path.display().to_string();
            say!(
                language,
                "formula-removed",
                name = name.as_str(),
                path = path
            )
            .into_owned()
        });
        words.into_iter().collect()
    }

    /// A changed name makes another formula of it: the one before stays.
    pub(super) fn beside_the_old(&self, language: Language) -> Option<String> {
        let kept = self.kept_as.as_ref()?;
        let renamed = kept.to_lowercase() != self.draft.name.to_lowercase();
        renamed.then(|| say!(language, "formula-beside", name = kept.as_str()).into_owned())
    }

    pub(super) fn method_fields(&self, language: Language) -> [FieldView; 2] {
        let (how, limits) = (self.draft.how.len(), self.draft.limits.len());
        [
            FieldView::new(
                say!(language, "formula-how"),
                say!(language, "formula-how-count", count = how).into_owned(),
                BookWish::Show(BookPage::How),
            ),
            FieldView::new(
                say!(language, "formula-limits"),
                say!(language, "formula-limits-count", count = limits).into_owned(),
                BookWish::Show(BookPage::Limits),
            ),
        ]
    }

    /// A stage by its name; the last bowl where it is none.
    pub(super) fn stage_words(&self, stage: Option<usize>, language: Language) -> String {
        match stage.and_then(|nth| self.draft.stages.get(nth)) {
            Some(stage) => stage.name.clone(),
            None => say!(language, "formula-last-bowl").into_owned(),
        }
    }

    pub(super) fn goes_into_view(&self, language: Language) -> Sheet {
        let now = self.draft.goes_into(self.stage);
        let others = self.draft.can_go_into(self.stage);
        let back = FootView::plain(say!(language, "back"), BookWish::Show(BookPage::Stage));
        Sheet {
            heading: say!(
                language,
                "formula-goes-into-heading",
                name = self
                    .draft
                    .stages
                    .get(self.stage)
                    .map_or("", |stage| stage.name.as_str())
            )
            .into_owned(),
            fields: std::iter::once(None)
                .chain(others.into_iter().map(Some))
                .map(|into| FieldView {
                    chosen: into == now,
                    ..FieldView::new(
                        "",
                        self.stage_words(into, language),
                        BookWish::GoesInto(into),
                    )
                })
                .collect(),
            lines: vec![say!(language, "formula-goes-into-about").into_owned()],
            foot: vec![back],
            ..Sheet::default()
        }
    }

    pub(super) fn how_view(&self, language: Language) -> Sheet {
        let how = &self.draft.how;
        Sheet {
            heading: say!(language, "formula-how").into_owned(),
            prompt: if how.is_empty() {
                say!(language, "formula-how-none").into_owned()
            } else {
                self.draft.name.clone()
            },
            rows: how
                .iter()
                .enumerate()
                .map(|(nth, sentence)| RowView {
                    name: format!("{}. {sentence}", nth + 1),
                    about: String::new(),
                    wish: BookWish::Work(nth),
                })
                .collect(),
            foot: vec![
                FootView::plain(say!(language, "back"), BookWish::Show(BookPage::Formula)),
                FootView::main(
                    say!(language, "formula-add-work"),
                    BookWish::Ask(BookField::NewWork),
                    true,
                ),
            ],
            ..Sheet::default()
        }
    }

    pub(super) fn work_view(&self, language: Language) -> Sheet {
        let Some(sentence) = self.draft.how.get(self.work) else {
            return self.how_view(language);
        };
        let nth = self.work;
        Sheet {
            heading: say!(
                language,
                "formula-work-heading",
                nth = (nth + 1).to_string(),
                of = self.draft.how.len().to_string()
            )
            .into_owned(),
            rows: vec![RowView {
                name: sentence.clone(),
                about: String::new(),
                wish: BookWish::Ask(BookField::Work(nth)),
            }],
            prompt: say!(language, "formula-work-touch").into_owned(),
            foot: vec![
                FootView::plain(say!(language, "back"), BookWish::Show(BookPage::How)),
                FootView {
                    enabled: nth > 0,
                    ..FootView::plain(
                        say!(language, "formula-earlier"),
                        BookWish::MoveWork(Way::Earlier),
                    )
                },
                FootView {
                    enabled: nth + 1 < self.draft.how.len(),
                    ..FootView::plain(
                        say!(language, "formula-later"),
                        BookWish::MoveWork(Way::Later),
                    )
                },
                FootView::plain(say!(language, "formula-drop"), BookWish::DropWork),
            ],
            ..Sheet::default()
        }
    }

    pub(super) fn limits_view(&self, language: Language) -> Sheet {
        let held_to = &self.draft.limits;
        let applies = |name: &str| held_to.iter().any(|it| it.eq_ignore_ascii_case(name));
        let (in_force, loud) = match &self.book.limits {
            Some(Ok(limits)) => (limits.iter().collect(), None),
            Some(Err(error)) => (Vec::new(), Some(error.to_string())),
            None => (Vec::new(), None),
        };
        let mut fields: Vec<FieldView> = in_force
            .iter()
            .map(|limit| FieldView {
                chosen: applies(&limit.name),
                ..FieldView::new(
                    limit.source.section.clone(),
                    capital(&limit_words(language, &limit.name)),
                    BookWish::LimitApplies(limit.name.clone()),
                )
            })
            .collect();
        let mut lines = Vec::new();
        for name in held_to {
            let words = capital(&limit_words(language, name));
            match in_force
                .iter()
                .find(|limit| limit.name.eq_ignore_ascii_case(name))
            {
                Some(limit) => {
                    let source = source_words(language, &limit.source);
                    lines.push(format!("{words}: {source}"));
                }
                None => {
                    let not = say!(
                        language,
                        "formula-limit-not-in-force",
                        name = words.as_str()
                    );
                    lines.push(not.into_owned());
                    let not = say!(language, "formula-not-in-force").into_owned();
                    fields.push(FieldView {
                        chosen: true,
                        ..FieldView::new(not, words, BookWish::LimitApplies(name.clone()))
                    });
                }
            }
        }
        if lines.is_empty() {
            lines.push(say!(language, "formula-limits-none").into_owned());
        }
        lines.push(caution(language));
        Sheet {
            heading: say!(language, "formula-limits").into_owned(),
            prompt: say!(language, "formula-limits-touch").into_owned(),
            fields,
            loud,
            lines,
            foot: vec![FootView::plain(
                say!(language, "back"),
                BookWish::Show(BookPage::Formula),
            )],
            ..Sheet::default()
        }
    }

    /// Asks before it is taken out. What does it stands where no button of the screen before
    /// did, so that a second touch of a wet glove does nothing.
    pub(super) fn remove_view(&self, language: Language) -> Sheet {
        let name = self.kept_as.as_deref().unwrap_or_default();
        Sheet {
            heading: say!(language, "formula-remove-heading", name = name).into_owned(),
            fields: vec![FieldView::new(
                "",
                say!(language, "formula-remove-it", name = name).into_owned(),
                BookWish::Remove,
            )],
            lines: vec![say!(language, "formula-remove-about").into_owned()],
            foot: vec![FootView::main(
                say!(language, "formula-remove-leave"),
                BookWish::Show(BookPage::Formula),
                true,
            )],
            ..Sheet::default()
        }
    }
}
