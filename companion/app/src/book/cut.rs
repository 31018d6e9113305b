//! A slab to be cut: how many pieces it gives beside the ends put aside, and what the
//! last pieces say of the next cut.

use super::refusal::caption;
use super::shown::{grams, on_scale};
use super::view::{FieldView, FootView, RowView, Sheet};
use super::{BookField, BookPage, BookWish, Pan};
use crate::words::{Language, say};
use evenhand_kitchen::cutting::{Correction, CutError, CutPlan, FEWEST_TO_CORRECT, Slab};
use evenhand_kitchen::dish::DishName;
use evenhand_kitchen::units::{InputError, mass_not_negative, mass_positive};
use evenhand_kitchen::{expected, problem};
use evenhand_protocol::Mass;

/// What is on record of a dish that is cut.
#[derive(Debug)]
pub(super) struct CutDish {
    pub(super) dish: DishName,
    /// What a piece should weigh.
    pub(super) target: Mass,
    /// What the last pieces say of the next.
    pub(super) correction: Correction,
}

/// Everything on the screens of cutting.
#[derive(Debug, Default)]
pub(super) struct CutSheet {
    whole: Option<Mass>,
    ends: Option<Mass>,
    each: Option<Mass>,
    pieces: Option<u32>,
    dish: Option<CutDish>,
    /// The dishes there are.
    pub(super) dishes: Vec<DishName>,
}

impl CutSheet {
    /// What a piece weighs is the dish's now.
    pub(super) fn is_of(&mut self, dish: CutDish) {
        self.each = Some(dish.target);
        self.pieces = None;
        self.dish = Some(dish);
    }

    /// Takes in what was typed, and tells what comes next.
    pub(super) fn enter(
        &mut self,
        field: BookField,
        text: &str,
    ) -> Result<Option<BookField>, InputError> {
        let said = (!text.is_empty()).then_some(text);
        match field {
            BookField::SlabMass => {
                self.whole = Some(mass_positive("slab", text)?);
                return Ok(Some(BookField::SlabEnds));
            }
            BookField::SlabEnds => {
                self.ends = said
                    .map(|text| mass_not_negative("ends", text))
                    .transpose()?;
            }
            BookField::PieceMass => {
                self.each = Some(mass_positive("piece", text)?);
                self.pieces = None;
            }
            _ => {
                let wrong = || {
                    InputError::new(
                        "pieces",
                        text,
                        problem!("no-count"),
                        expected!("from-to", low = 1, high = 500),
                    )
                };
                self.pieces = Some(text.parse().map_err(|_| wrong())?);
            }
        }
        Ok(None)
    }

    /// How it is cut; `None` while something is not said.
    fn plan(&self) -> Option<Result<CutPlan, CutError>> {
        let slab = Slab {
            whole: self.whole?,
            ends: self.ends.unwrap_or(Mass::ZERO),
        };
        match (self.pieces, self.each) {
            (Some(pieces), _) => Some(slab.in_pieces(pieces)),
            (None, Some(each)) => Some(slab.pieces_of(each)),
            (None, None) => None,
        }
    }

    pub(super) fn view(&self, page: BookPage, pan: &Pan, language: Language) -> Sheet {
        if page == BookPage::CutDishes {
            return self.dishes_view(language);
        }
        let not_said = || say!(language, "book-not-said").into_owned();
        let mass = |field: BookField, mass: Option<Mass>| {
            let value = mass.map_or_else(not_said, |mass| grams(mass, language));
            FieldView::new(caption(language, field), value, BookWish::Ask(field))
        };
        let plan = self.plan();
        let (mut lines, mut loud) = (Vec::new(), None);
        match &plan {
            Some(Ok(plan)) => lines.push(
                say!(
                    language,
                    "cut-plan",
                    count = plan.pieces,
                    each = grams(plan.each, language),
                    over = grams(plan.rest, language),
                    ends = grams(self.ends.unwrap_or(Mass::ZERO), language)
                )
                .into_owned(),
            ),
            Some(Err(why)) => loud = Some(cannot(language, why)),
            None => {}
        }
        lines.extend(
            self.dish
                .as_ref()
                .map(|dish| corrected(language, &dish.correction)),
        );
        let dish = self
            .dish
            .as_ref()
            .map_or_else(not_said, |dish| dish.dish.as_str().to_owned());
        Sheet {
            heading: say!(language, "cut-heading").into_owned(),
            prompt: on_scale(pan, language),
            fields: vec![
                mass(BookField::SlabMass, self.whole),
                mass(BookField::SlabEnds, self.ends),
                FieldView::new(
                    say!(language, "cut-dish"),
                    dish,
                    BookWish::Show(BookPage::CutDishes),
                ),
                mass(
                    BookField::PieceMass,
                    self.each.filter(|_| self.pieces.is_none()),
                ),
                FieldView::new(
                    caption(language, BookField::PieceCount),
                    self.pieces
                        .map_or_else(not_said, |pieces| pieces.to_string()),
                    BookWish::Ask(BookField::PieceCount),
                ),
            ],
            loud,
            lines,
            foot: vec![FootView::plain(say!(language, "back"), BookWish::Done)],
            ..Sheet::default()
        }
    }

    fn dishes_view(&self, language: Language) -> Sheet {
        Sheet {
            heading: say!(language, "cut-dish").into_owned(),
            prompt: if self.dishes.is_empty() {
                say!(language, "cut-no-dish")
            } else {
                say!(language, "cut-touch-dish")
            }
            .into_owned(),
            rows: self
                .dishes
                .iter()
                .map(|dish| RowView {
                    name: dish.as_str().to_owned(),
                    about: String::new(),
                    wish: BookWish::CutDish(dish.clone()),
                })
                .collect(),
            foot: vec![FootView::plain(
                say!(language, "back"),
                BookWish::Show(BookPage::Cut),
            )],
            ..Sheet::default()
        }
    }
}

fn cannot(language: Language, why: &CutError) -> String {
    match why {
        CutError::NothingBetween => say!(language, "cut-nothing-between"),
        CutError::NoPiece | CutError::NotAboveZero(_) => say!(language, "cut-no-piece"),
        CutError::TooMany => say!(language, "cut-too-many"),
    }
    .into_owned()
}

/// What the last pieces say of the next one.
fn corrected(language: Language, correction: &Correction) -> String {
    match correction {
        Correction::TooFew(pieces) => say!(
            language,
            "cut-too-few",
            count = *pieces,
            fewest = FEWEST_TO_CORRECT
        ),
        Correction::None { .. } => say!(language, "cut-as-meant"),
        Correction::Cut { by, offset, pieces } => {
            let (by, low, high) = (
                grams(by.abs(), language),
                grams(offset.low, language),
                grams(offset.high, language),
            );
            if offset.high.is_negative() {
                say!(
                    language,
                    "cut-next-over",
                    count = *pieces,
                    by = by,
                    low = low,
                    high = high
                )
            } else {
                say!(
                    language,
                    "cut-next-under",
                    count = *pieces,
                    by = by,
                    low = low,
                    high = high
                )
            }
        }
    }
    .into_owned()
}
