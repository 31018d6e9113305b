//! Plates as they go out: what is on each, its price, and what it costs at the weights
//! really served. Every change is put on record as soon as it is whole.

use super::refusal::caption;
use super::view::{FieldView, FootView, RowView, Sheet};
use super::{BookField, BookPage, BookWish};
use crate::words::{Language, say};
use evenhand_kitchen::dish::DishName;
use evenhand_kitchen::plate::{Component, FixedText, Plate, Plates};
use evenhand_kitchen::units::{Currency, InputError, Money};
use evenhand_use_cases::review::words;

/// What the worker read of the record.
#[derive(Debug, Default)]
pub(super) struct PlatesOnRecord {
    pub(super) plates: Plates,
    /// What each comes to by its name, a line each; the first is its heading.
    pub(super) costs: Vec<(String, Vec<String>)>,
    /// The dishes that can be put on one.
    pub(super) dishes: Vec<DishName>,
    /// The currency that is usual, by its code; `None` where nothing has a cost.
    pub(super) currency: Option<&'static str>,
}

/// Something of a fixed weight that is being written.
#[derive(Debug, Default, Clone)]
struct Part {
    name: String,
    weight: String,
    cost: String,
    yielded: Option<String>,
    waste: Option<String>,
    /// Whether it is a dish's portions, of which nothing is written.
    portioned: bool,
}

/// Everything on the plates' screens.
#[derive(Debug, Default)]
pub(super) struct PlateSheet {
    on_record: PlatesOnRecord,
    /// The plate that is shown, by its name.
    shown: Option<String>,
    part: Part,
}

impl PlateSheet {
    pub(super) fn gathered(&mut self, on_record: PlatesOnRecord) {
        self.on_record = on_record;
    }

    /// The currency that a bare amount is in, by its code; `None` where nothing tells it.
    pub(super) fn currency(&self) -> Option<&'static str> {
        let mut plates = self.on_record.plates.all().iter();
        let priced = plates.find_map(Plate::currency).map(Currency::code);
        priced.or(self.on_record.currency)
    }

    /// Shows a plate of the list; `None` to begin a new one.
    pub(super) fn begin(&mut self, nth: Option<usize>) {
        let plates = self.on_record.plates.all();
        self.shown = nth
            .and_then(|nth| plates.get(nth))
            .map(|plate| plate.name.clone());
    }

    /// Shows what is on the plate; `None` for something new.
    pub(super) fn begin_part(&mut self, nth: Option<usize>) {
        let component = nth.and_then(|nth| self.plate()?.components.get(nth));
        self.part = component.map_or_else(Part::default, Part::of);
    }

    fn plate(&self) -> Option<&Plate> {
        let shown = self.shown.as_ref()?;
        let mut plates = self.on_record.plates.all().iter();
        plates.find(|plate| plate.name == *shown)
    }

    /// Changes the plate that is shown, and gives what is to be kept. What is shown is
    /// the change at once, so that the next one is made of it.
    fn changed(
        &mut self,
        change: impl FnOnce(&mut Plate) -> Result<(), InputError>,
    ) -> Result<Option<Plates>, InputError> {
        let Some(shown) = &self.shown else {
            return Ok(None);
        };
        let mut plates = self.on_record.plates.clone();
        change(plates.plate("name", shown)?)?;
        self.on_record.plates = plates.clone();
        Ok(Some(plates))
    }

    /// A dish's portions go on the plate.
    pub(super) fn put_dish(&mut self, dish: DishName) -> Result<Option<Plates>, InputError> {
        self.changed(|plate| {
            plate.put(Component::Portioned(dish));
            Ok(())
        })
    }

    /// What is shown goes off the plate.
    pub(super) fn take_off(&mut self) -> Result<Option<Plates>, InputError> {
        let name = self.part.name.clone();
        self.changed(|plate| {
            plate.take_off(&name);
            Ok(())
        })
    }

    /// The plate that is shown goes off the record.
    pub(super) fn take_out(&mut self) -> Option<Plates> {
        let mut plates = self.on_record.plates.clone();
        let shown = self.shown.take()?;
        plates.take_out(&shown).then(|| {
            self.on_record.plates = plates.clone();
            plates
        })
    }

    /// What is typed is about this.
    pub(super) fn about(&self, field: BookField) -> Option<String> {
        match field {
            BookField::PlatePrice => self.shown.clone(),
            BookField::PartWeight
            | BookField::PartCost
            | BookField::PartYield
            | BookField::PartWaste => Some(self.part.name.clone()),
            _ => None,
        }
    }

    /// Takes in what was typed: what comes next, and what is to be kept.
    pub(super) fn enter(
        &mut self,
        field: BookField,
        text: &str,
    ) -> Result<(Option<BookField>, Option<Plates>), InputError> {
        let said = (!text.is_empty()).then(|| text.to_owned());
        let mut part = self.part.clone();
        match field {
            BookField::PlateName => {
                let mut plates = self.on_record.plates.clone();
                let name = plates.plate("name", text)?.name.clone();
                self.shown = Some(name);
                self.on_record.plates = plates.clone();
                return Ok((None, Some(plates)));
            }
            BookField::PlatePrice => {
                let price = said.map(|text| Money::parse("price", &text)).transpose()?;
                let kept = self.changed(|plate| {
                    plate.price = price;
                    Ok(())
                })?;
                return Ok((None, kept));
            }
            BookField::PartName => text.clone_into(&mut part.name),
            BookField::PartWeight => text.clone_into(&mut part.weight),
            BookField::PartCost => text.clone_into(&mut part.cost),
            BookField::PartYield => part.yielded = said,
            _ => part.waste = said,
        }
        // What is not said yet is held against something that can be.
        let or = |text: &str, other: &'static str| {
            if text.is_empty() {
                other.to_owned()
            } else {
                text.to_owned()
            }
        };
        let typed = text.is_empty() && matches!(field, BookField::PartWeight | BookField::PartCost);
        let weight = if typed {
            String::new()
        } else {
            or(&part.weight, "1 g")
        };
        let cost = if typed {
            String::new()
        } else {
            or(&part.cost, "1 EUR/kg")
        };
        let component = Component::fixed(&FixedText {
            name: &part.name,
            weight: &weight,
            cost: &cost,
            yielded: part.yielded.as_deref(),
            waste: part.waste.as_deref(),
        })?;
        component.name().clone_into(&mut part.name);
        let next = if part.weight.is_empty() {
            Some(BookField::PartWeight)
        } else if part.cost.is_empty() {
            Some(BookField::PartCost)
        } else {
            None
        };
        if next.is_some() {
            self.part = part;
            return Ok((next, None));
        }
        self.part = Part::of(&component);
        let kept = self.changed(|plate| {
            plate.put(component);
            Ok(())
        })?;
        Ok((None, kept))
    }

    pub(super) fn view(&self, page: BookPage, language: Language) -> Sheet {
        match page {
            BookPage::Plates => self.list(language),
            BookPage::PlatePart => self.part_view(language),
            BookPage::PlateDishes => self.dishes_view(language),
            BookPage::PlateRemove => self.remove_view(language),
            _ => self.plate_view(language),
        }
    }

    fn list(&self, language: Language) -> Sheet {
        let plates = self.on_record.plates.all();
        Sheet {
            heading: say!(language, "plates-heading").into_owned(),
            prompt: if plates.is_empty() {
                say!(language, "plates-none")
            } else {
                say!(language, "plates-touch")
            }
            .into_owned(),
            rows: plates
                .iter()
                .enumerate()
                .map(|(nth, plate)| RowView {
                    name: plate.name.clone(),
                    about: about(plate, language),
                    wish: BookWish::Plate(Some(nth)),
                })
                .collect(),
            foot: vec![
                FootView::plain(say!(language, "back"), BookWish::BackToService),
                FootView::main(say!(language, "plates-new"), BookWish::Plate(None), true),
            ],
            ..Sheet::default()
        }
    }

    fn plate_view(&self, language: Language) -> Sheet {
        let back = FootView::plain(say!(language, "back"), BookWish::Show(BookPage::Plates));
        let Some(plate) = self.plate() else {
            return Sheet {
                heading: say!(language, "plates-heading").into_owned(),
                foot: vec![back],
                ..Sheet::default()
            };
        };
        let price = plate.price.map_or_else(
            || say!(language, "plates-no-price").into_owned(),
            |price| words::money(language, price),
        );
        let mut fields = vec![FieldView::new(
            caption(language, BookField::PlatePrice),
            price,
            BookWish::Ask(BookField::PlatePrice),
        )];
        fields.extend(plate.components.iter().enumerate().map(|(nth, component)| {
            FieldView::new(
                component_about(component, language),
                component.name().to_owned(),
                BookWish::PlatePart(Some(nth)),
            )
        }));
        let mut costs = self.on_record.costs.iter();
        let lines = costs
            .find(|(name, _)| *name == plate.name)
            .map(|(_, lines)| lines);
        Sheet {
            heading: plate.name.clone(),
            prompt: say!(language, "plates-touch-part").into_owned(),
            fields,
            lines: lines.cloned().unwrap_or_default(),
            foot: vec![
                back,
                FootView::plain(
                    say!(language, "plates-put-dish"),
                    BookWish::Show(BookPage::PlateDishes),
                ),
                FootView::main(
                    say!(language, "plates-put-part"),
                    BookWish::PlatePart(None),
                    true,
                ),
                FootView::plain(
                    say!(language, "plates-remove"),
                    BookWish::Show(BookPage::PlateRemove),
                ),
            ],
            ..Sheet::default()
        }
    }

    fn part_view(&self, language: Language) -> Sheet {
        let part = &self.part;
        let not_said = || say!(language, "book-not-said").into_owned();
        let field = |field: BookField, text: &str| {
            let value = if text.is_empty() {
                not_said()
            } else {
                language.figure(text)
            };
            FieldView::new(caption(language, field), value, BookWish::Ask(field))
        };
        let share = |of: BookField, said: Option<&String>, otherwise: &str| {
            field(of, said.map_or(otherwise, String::as_str))
        };
        Sheet {
            heading: part.name.clone(),
            prompt: if part.portioned {
                say!(language, "plates-portioned-about")
            } else {
                say!(language, "plates-part-about")
            }
            .into_owned(),
            fields: if part.portioned {
                Vec::new()
            } else {
                vec![
                    field(BookField::PartWeight, &part.weight),
                    field(BookField::PartCost, &part.cost),
                    share(BookField::PartYield, part.yielded.as_ref(), "100 %"),
                    share(BookField::PartWaste, part.waste.as_ref(), "0 %"),
                ]
            },
            foot: vec![
                FootView::plain(say!(language, "back"), BookWish::Show(BookPage::Plate)),
                FootView::plain(say!(language, "plates-take-off"), BookWish::TakeOffPlate),
            ],
            ..Sheet::default()
        }
    }

    fn dishes_view(&self, language: Language) -> Sheet {
        let dishes = &self.on_record.dishes;
        Sheet {
            heading: say!(language, "plates-put-dish").into_owned(),
            prompt: if dishes.is_empty() {
                say!(language, "plates-no-dish")
            } else {
                say!(language, "plates-touch-dish")
            }
            .into_owned(),
            rows: dishes
                .iter()
                .map(|dish| RowView {
                    name: dish.as_str().to_owned(),
                    about: String::new(),
                    wish: BookWish::PlateDish(dish.clone()),
                })
                .collect(),
            foot: vec![FootView::plain(
                say!(language, "back"),
                BookWish::Show(BookPage::Plate),
            )],
            ..Sheet::default()
        }
    }

    fn remove_view(&self, language: Language) -> Sheet {
        Sheet {
            heading: self.shown.clone().unwrap_or_default(),
            prompt: say!(language, "plates-remove-ask").into_owned(),
            foot: vec![
                FootView::plain(say!(language, "back"), BookWish::Show(BookPage::Plate)),
                FootView::plain(say!(language, "plates-remove"), BookWish::RemovePlate),
            ],
            ..Sheet::default()
        }
    }
}

impl Part {
    fn of(component: &Component) -> Self {
        match component {
            Component::Portioned(dish) => Self {
                name: dish.as_str().to_owned(),
                portioned: true,
                ..Self::default()
            },
            Component::Fixed {
                name,
                weight,
                cost,
                yielded,
                wasted,
            } => {
                let share = |share: f64| format!("{} %", (share * 1e6).round() / 1e4);
                Self {
                    name: name.clone(),
                    weight: format!("{} g", weight.grams()),
                    cost: format!("{}/kg", cost.for_kilogram().in_full()),
                    yielded: (*yielded < 1.0).then(|| share(*yielded)),
                    waste: (*wasted > 0.0).then(|| share(*wasted)),
                    portioned: false,
                }
            }
        }
    }
}

/// A plate's price and how much is on it.
fn about(plate: &Plate, language: Language) -> String {
    let count = plate.components.len();
    match plate.price {
        Some(price) => say!(
            language,
            "plates-about-price",
            count = count,
            price = words::money(language, price)
        ),
        None => say!(language, "plates-about", count = count),
    }
    .into_owned()
}

fn component_about(component: &Component, language: Language) -> String {
    match component {
        Component::Portioned(_) => say!(language, "plates-portioned").into_owned(),
        Component::Fixed { weight, cost, .. } => say!(
            language,
            "plates-fixed",
            weight = words::grams(language, *weight),
            cost = language.figure(cost.to_string())
        )
        .into_owned(),
    }
}
