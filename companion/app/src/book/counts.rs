//! The handover: counts of each dish going down as portions go out, who is
//! where, and the page for tomorrow.

use super::view::{FieldView, FootView, Sheet};
use super::{BookField, BookObstacle, BookPage, BookRefusal, BookWish};
use crate::words::{Language, say};
use evenhand_kitchen::dish::DishName;
use evenhand_kitchen::service::ServiceCalendar;
use evenhand_kitchen::units::InputError;
use evenhand_kitchen::{expected, problem};
use evenhand_use_cases::handover::{DishCount, Handover, beside_the_dishes};
use std::path::PathBuf;

/// More than stand ready of any dish.
const MOST_READY: u32 = 10_000;

/// What the worker gathered of the service.
#[derive(Debug)]
pub(super) struct Counted {
    pub(super) handover: Handover,
    pub(super) calendar: ServiceCalendar,
    pub(super) opening: Vec<(DishName, Option<u32>)>,
}

/// Everything on the handover's screen.
#[derive(Debug, Default)]
pub(super) struct CountSheet {
    handover: Option<(Handover, ServiceCalendar)>,
    /// What stands ready of each dish at opening, where somebody counted.
    opening: Vec<(DishName, Option<u32>)>,
    /// The dish that is being counted.
    counting: Option<DishName>,
    /// What went out last on this screen.
    last: Option<DishName>,
    written: Option<PathBuf>,
}

impl CountSheet {
    pub(super) fn gathered(&mut self, counted: Counted) {
        self.handover = Some((counted.handover, counted.calendar));
        self.opening = counted.opening;
    }

    pub(super) fn begin_counting(&mut self, dish: DishName) {
        self.counting = Some(dish);
    }

    /// The dish that is being counted, as what is typed is about.
    pub(super) fn about(&self, field: BookField) -> Option<String> {
        let dish = self.counting.as_ref()?;
        (field == BookField::AtOpening).then(|| dish.as_str().to_owned())
    }

    /// The dish that was counted, and how many of it stand ready.
    pub(super) fn counted(&self, text: &str) -> Result<(DishName, u32), InputError> {
        let wrong = || {
            InputError::new(
                "portions",
                text,
                problem!("no-count"),
                expected!("from-to", low = 0, high = 10000),
            )
        };
        let portions = text.parse().ok().filter(|portions| *portions <= MOST_READY);
        let dish = self.counting.clone();
        dish.zip(portions).ok_or_else(wrong)
    }

    pub(super) fn written(&mut self, path: PathBuf) {
        self.written = Some(path);
    }

    /// One of a dish goes out.
    pub(super) fn goes_out(&mut self, dish: &DishName) {
        self.last = Some(dish.clone());
        self.written = None;
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
                .map(|count| {
                    FieldView::new(
                        about(count, language),
                        say!(
                            language,
                            "counts-ready",
                            dish = count.dish.as_str(),
                            count = count.ready()
                        )
                        .into_owned(),
                        BookWish::GoesOut(count.dish.clone()),
                    )
                })
                .collect(),
            lines,
            foot: vec![
                back,
                FootView::plain(
                    say!(language, "counts-opening"),
                    BookWish::Show(BookPage::Opening),
                ),
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

impl CountSheet {
    pub(super) fn opening_view(&self, language: Language) -> Sheet {
        Sheet {
            heading: say!(language, "counts-opening").into_owned(),
            prompt: if self.opening.is_empty() {
                say!(language, "counts-opening-none").into_owned()
            } else {
                say!(language, "counts-opening-touch").into_owned()
            },
            fields: self
                .opening
                .iter()
                .map(|(dish, ready)| {
                    let ready = ready.map_or_else(
                        || say!(language, "counts-opening-not-said").into_owned(),
                        |ready| say!(language, "counts-opening-ready", count = ready).into_owned(),
                    );
                    let wish = BookWish::CountAtOpening(dish.clone());
                    FieldView::new(ready, dish.as_str().to_owned(), wish)
                })
                .collect(),
            lines: vec![
                say!(language, "counts-opening-about").into_owned(),
                say!(language, "counts-opening-caution").into_owned(),
            ],
            foot: vec![FootView::plain(
                say!(language, "back"),
                BookWish::Show(BookPage::Counts),
            )],
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
