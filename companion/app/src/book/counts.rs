//! The handover: counts of each dish going down as portions go out, who is
//! where, and the page for tomorrow.

use super::view::{FieldView, FootView, Sheet};
use super::{BookObstacle, BookRefusal, BookWish};
use crate::words::{Language, say};
use evenhand_kitchen::dish::DishName;
use evenhand_kitchen::service::ServiceCalendar;
use evenhand_use_cases::handover::{DishCount, Handover, beside_the_dishes};
use std::path::PathBuf;

/// As many dishes as have room.
const ROOM: usize = 12;

/// Everything on the handover's screen.
#[derive(Debug, Default)]
pub(super) struct CountSheet {
    handover: Option<(Handover, ServiceCalendar)>,
    /// What went out last on this screen.
    last: Option<DishName>,
    written: Option<PathBuf>,
}

impl CountSheet {
    pub(super) fn gathered(&mut self, handover: Handover, calendar: ServiceCalendar) {
        self.handover = Some((handover, calendar));
    }

    pub(super) fn written(&mut self, path: PathBuf) {
        self.written = Some(path);
    }

    /// The dish of which one goes out.
    pub(super) fn goes_out(&mut self, nth: usize) -> Result<DishName, BookRefusal> {
        let (handover, _) = self.handover.as_ref().ok_or(BookObstacle::NoDish)?;
        let count = handover.dishes.get(nth).ok_or(BookObstacle::NoDish)?;
        self.last = Some(count.dish.clone());
        self.written = None;
        Ok(count.dish.clone())
    }

    /// The dish of which one is taken back: what went out last.
    pub(super) fn taken_back(&mut self) -> Result<DishName, BookRefusal> {
        Ok(self.last.take().ok_or(BookObstacle::NoDish)?)
    }

    pub(super) fn view(&self, language: Language) -> Sheet {
        let back = FootView::plain(say!(language, "back"), BookWish::Done);
        let heading = say!(language, "counts-heading").into_owned();
        let Some((handover, calendar)) = &self.handover else {
            return Sheet {
                heading,
                foot: vec![back],
                ..Sheet::default()
            };
        };
        let mut lines: Vec<String> = self
            .written
            .iter()
            .map(|path| {
                let path = path.display().to_string();
                say!(language, "counts-written", path = path).into_owned()
            })
            .collect();
        if handover.dishes.len() > ROOM {
            let more = handover.dishes.len() - ROOM;
            lines.push(say!(language, "counts-more", count = more).into_owned());
        }
        lines.extend(
            beside_the_dishes(language, handover, calendar)
                .into_iter()
                .map(|(_, line)| line),
        );
        if lines.is_empty() {
            lines.push(say!(language, "counts-nothing-else").into_owned());
        }
        Sheet {
            heading,
            prompt: if handover.dishes.is_empty() {
                say!(language, "counts-none").into_owned()
            } else {
                say!(language, "counts-touch").into_owned()
            },
            fields: handover
                .dishes
                .iter()
                .take(ROOM)
                .enumerate()
                .map(|(nth, count)| {
                    FieldView::new(
                        about(count, language),
                        say!(
                            language,
                            "counts-ready",
                            dish = count.dish.as_str(),
                            count = count.ready()
                        )
                        .into_owned(),
                        BookWish::GoesOut(nth),
                    )
                })
                .collect(),
            lines,
            foot: vec![
                back,
                FootView {
                    enabled: self.last.is_some(),
                    ..FootView::plain(say!(language, "counts-take-back"), BookWish::TakeBack)
                },
                FootView::main(say!(language, "counts-page"), BookWish::HandoverPage, true),
            ],
            ..Sheet::default()
        }
    }
}

fn about(count: &DishCount, language: Language) -> String {
    match count.to_weigh().filter(|more| *more > 0) {
        Some(more) => say!(
            language,
            "counts-about-more",
            weighed = count.weighed,
            out = count.out,
            more = more
        ),
        None => say!(
            language,
            "counts-about",
            weighed = count.weighed,
            out = count.out
        ),
    }
    .into_owned()
}
