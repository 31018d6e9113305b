//! The labels of what is made in batches for a service: one a tub, on paper or as a picture.

use super::typed::caption;
use super::worker::{Paper, Question};
use super::{Asked, MenuPage, MenuWish};
use crate::book::{FieldView, FootView, RowView, Sheet};
use crate::words::{Language, say};
use evenhand_use_cases::prep::Label;
use evenhand_use_cases::sheet::with_degree_signs;
use evenhand_use_cases::times;
use jiff::Timestamp;
use jiff::civil::Date;
use jiff::tz::TimeZone;
use std::path::PathBuf;

/// More labels at a time than this are a slip: as on the command line.
const MOST_TUBS: u32 = 200;

/// Everything on the screens of labels.
#[derive(Debug, Default)]
pub(super) struct LabelSheet {
    day: Option<Date>,
    labels: Vec<Label>,
    shown: usize,
    tubs: u32,
    written: Vec<PathBuf>,
}

impl LabelSheet {
    pub(super) fn read(&mut self, day: Date, labels: Vec<Label>) {
        self.day = Some(day);
        self.labels = labels;
    }

    /// What is in the tub shown.
    pub(super) fn about(&self) -> String {
        let label = self.labels.get(self.shown);
        label.map_or_else(String::new, |label| label.made.preparation.clone())
    }

    pub(super) const fn day(&self) -> Option<Date> {
        self.day
    }

    pub(super) fn show(&mut self, nth: usize) {
        self.shown = nth;
        self.tubs = 1;
        self.written.clear();
    }

    pub(super) fn written(&mut self, paths: Vec<PathBuf>) {
        self.written = paths;
    }

    /// How many tubs get one.
    pub(super) fn say_tubs(&mut self, text: &str) -> bool {
        let tubs: Option<u32> = text.parse().ok();
        match tubs.filter(|tubs| (1..=MOST_TUBS).contains(tubs)) {
            Some(tubs) => {
                self.tubs = tubs;
                self.written.clear();
                true
            }
            None => false,
        }
    }

    pub(super) fn print(&self, png: bool, language: Language) -> Option<Question> {
        let label = self.labels.get(self.shown)?;
        let paper = if png {
            Paper::Png
        } else {
            Paper::Pdf(self.tubs.max(1))
        };
        Some(Question::Print(Box::new(label.clone()), paper, language))
    }

    /// What was left of the one shown is gone: thrown out, or used otherwise.
    pub(super) fn gone(&self, now: Timestamp) -> Option<Question> {
        let made = &self.labels.get(self.shown)?.made;
        let last_step = made.last_step.clone();
        Some(Question::Gone(made.day, last_step, now))
    }

    /// So many portions of the dish shown are left after its service.
    pub(super) fn left(&self, portions: u32, now: Timestamp) -> Option<Question> {
        let made = &self.labels.get(self.shown)?.made;
        let dish = made.batch.dish.clone();
        Some(Question::Left(made.day, dish, portions, now))
    }

    pub(super) fn list(&self, language: Language, zone: &TimeZone) -> Sheet<MenuWish> {
        let day = self.day.map(|day| times::day(language, day));
        let rows = self.labels.iter().enumerate();
        let mut foot = vec![FootView::plain(say!(language, "back"), MenuWish::Done)];
        for (words, day) in [
            (
                say!(language, "menus-day-before"),
                self.day.and_then(|day| day.yesterday().ok()),
            ),
            (
                say!(language, "menus-day-after"),
                self.day.and_then(|day| day.tomorrow().ok()),
            ),
        ] {
            foot.extend(day.map(|day| FootView::plain(words, MenuWish::LabelsOf(day))));
        }
        Sheet {
            heading: match &day {
                Some(day) => say!(language, "menus-labels-of", day = day.as_str()).into_owned(),
                None => say!(language, "menus-labels").into_owned(),
            },
            prompt: if self.labels.is_empty() {
                say!(language, "menus-no-labels").into_owned()
            } else {
                say!(language, "menus-touch-a-label").into_owned()
            },
            rows: rows
                .map(|(nth, label)| RowView {
                    name: label.made.preparation.clone(),
                    about: label
                        .lines(language, (1, 1), zone)
                        .into_iter()
                        .skip(1)
                        .take(3)
                        .map(|(_, words)| words)
                        .collect::<Vec<_>>()
                        .join(" \u{b7} "),
                    wish: MenuWish::LabelOf(nth),
                })
                .collect(),
            foot,
            ..Sheet::default()
        }
    }

    pub(super) fn label(&self, language: Language, zone: &TimeZone) -> Sheet<MenuWish> {
        let Some(label) = self.labels.get(self.shown) else {
            return self.list(language, zone);
        };
        let tubs = self.tubs.max(1);
        let mut lines: Vec<String> = self
            .written
            .iter()
            .map(|path| {
                let path = path.display().to_string();
                say!(language, "menus-written", path = path).into_owned()
            })
            .collect();
        let said = label.lines(language, (1, tubs), zone).into_iter().skip(1);
        lines.extend(said.map(|(_, words)| with_degree_signs(&words)));
        let mut png = FootView::plain(say!(language, "menus-png"), MenuWish::Png);
        png.enabled = tubs == 1;
        let mut gone = FootView::plain(say!(language, "menus-gone"), MenuWish::AskGone);
        gone.enabled = label.ready.is_some();
        Sheet {
            heading: label.made.preparation.clone(),
            prompt: say!(language, "menus-label-prompt").into_owned(),
            fields: vec![
                FieldView::new(
                    caption(language, Asked::Tubs),
                    tubs.to_string(),
                    MenuWish::Ask(Asked::Tubs),
                ),
                FieldView::new(
                    caption(language, Asked::Left),
                    say!(language, "menus-put-down").into_owned(),
                    MenuWish::Ask(Asked::Left),
                ),
            ],
            lines,
            foot: vec![
                FootView::plain(say!(language, "back"), MenuWish::Show(MenuPage::Labels)),
                gone,
                png,
                FootView::main(say!(language, "menus-pdf"), MenuWish::Pdf, true),
            ],
            ..Sheet::default()
        }
    }
}
