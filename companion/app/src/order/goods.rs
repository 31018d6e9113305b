//! The screens of the list of goods: suppliers, goods, and what they are for.

use super::controller::{News, Orders, Written};
use super::refusal::refused_words;
use super::sheets::{Field, Foot, Page, Row, back};
use super::typed::caption;
use super::{Asked, OrderPage, OrderWish};
use crate::book::{FieldView, FootView, Sheet};
use crate::menus::weekday;
use crate::words::{Language, say};
use evenhand_kitchen::prep::{GoodsDraft, GoodsKey, GoodsPlace, NewUse};

impl Orders {
    pub(super) fn of_draft(&self, page: OrderPage, written: &Written) -> Page {
        let draft = &written.draft;
        let mut sheet = match page {
            OrderPage::SupplierOf(n) => self.supplier_of(draft, n),
            OrderPage::Days(n) => self.days(draft, n),
            OrderPage::Item(n) => self.item(draft, n),
            OrderPage::Use(n, u) => self.one_use(draft, n, u),
            _ => self.goods(written),
        };
        sheet.loud = self.loud(page, written);
        sheet
    }

    /// What was last done with the list, or why it cannot be kept yet.
    fn loud(&self, page: OrderPage, written: &Written) -> Option<String> {
        let language = self.language;
        match &written.news {
            Some(News::Kept) => return Some(say!(language, "orders-kept").into_owned()),
            Some(News::From(path)) => {
                let path = path.display().to_string();
                return Some(say!(language, "menus-read", path = path).into_owned());
            }
            None => {}
        }
        let draft = &written.draft;
        if let Err(refused) = draft.written() {
            let of_it = match (page, refused.at) {
                (OrderPage::Goods, _) | (_, None) => true,
                (OrderPage::SupplierOf(n), Some((GoodsPlace::Supplier(at), _))) => n == at,
                (OrderPage::Item(n), Some((GoodsPlace::Goods(at) | GoodsPlace::Use(at, _), _))) => {
                    n == at
                }
                (OrderPage::Use(n, u), Some((GoodsPlace::Use(at, nth), _))) => (n, u) == (at, nth),
                _ => false,
            };
            return of_it.then(|| {
                let why = refused_words(language, draft, &refused);
                say!(language, "menus-not-yet", why = why).into_owned()
            });
        }
        None
    }

    fn said(&self, draft: &GoodsDraft, place: GoodsPlace, key: GoodsKey) -> Field {
        let asked = Asked::Said(place, key);
        let value = draft.said(place, key);
        FieldView::new(
            caption(self.language, asked),
            value.map_or_else(
                || say!(self.language, "book-not-said").into_owned(),
                |value| self.shown(key, value),
            ),
            OrderWish::Ask(asked),
        )
    }

    /// What is said as it stands on a screen: amounts with the language's decimal mark and word
    /// for pieces.
    fn shown(&self, key: GoodsKey, value: String) -> String {
        match key {
            GoodsKey::Pack
            | GoodsKey::Price
            | GoodsKey::Piece
            | GoodsKey::Takes
            | GoodsKey::PerCover => {
                let pieces = say!(self.language, "orders-pieces");
                let (number, unit) = value.split_once(' ').unwrap_or((&value, ""));
                let unit = match unit {
                    "pieces" | "piece" | "pcs" => &*pieces,
                    unit => unit,
                };
                format!("{} {unit}", self.language.figure(number))
                    .trim_end()
                    .to_owned()
            }
            _ => value,
        }
    }

    fn goods(&self, written: &Written) -> Page {
        let language = self.language;
        let draft = &written.draft;
        let fields = draft.suppliers().enumerate().map(|(n, name)| {
            FieldView::new(
                self.delivers_words(draft, n),
                name.to_owned(),
                OrderWish::Show(OrderPage::SupplierOf(n)),
            )
        });
        let rows = draft.goods().enumerate().map(|(n, (name, supplier))| {
            let pack = draft.said(GoodsPlace::Goods(n), GoodsKey::Pack);
            let pack = pack.map_or_else(String::new, |pack| self.shown(GoodsKey::Pack, pack));
            Row {
                name: name.to_owned(),
                about: [supplier.to_owned(), pack, self.uses_words(draft, n)]
                    .into_iter()
                    .filter(|part| !part.is_empty())
                    .collect::<Vec<_>>()
                    .join(" \u{b7} "),
                wish: OrderWish::Show(OrderPage::Item(n)),
            }
        });
        let mut foot = vec![
            back(language, OrderPage::Suppliers),
            FootView::plain(
                say!(language, "menus-files"),
                OrderWish::Show(OrderPage::Files),
            ),
            FootView::plain(
                say!(language, "orders-add-supplier"),
                OrderWish::Ask(Asked::NewSupplier),
            ),
            FootView::plain(
                say!(language, "orders-add-goods"),
                OrderWish::Ask(Asked::NewGoods),
            ),
        ];
        if draft.written().is_err_and(|refused| refused.at.is_some()) {
            foot.push(FootView::plain(
                say!(language, "menus-show-wrong"),
                OrderWish::ShowWrong,
            ));
        }
        foot.push(FootView::main(
            say!(language, "menus-keep"),
            OrderWish::Keep,
            written.is_changed(),
        ));
        let fields: Vec<Field> = fields.collect();
        Sheet {
            heading: say!(language, "orders-goods").into_owned(),
            prompt: if fields.is_empty() {
                say!(language, "orders-none").into_owned()
            } else {
                String::new()
            },
            fields,
            rows: rows.collect(),
            foot,
            ..Sheet::default()
        }
    }

    fn delivers_words(&self, draft: &GoodsDraft, n: usize) -> String {
        let language = self.language;
        let days = (0..7).filter(|day| draft.delivers(n, *day));
        let days: Vec<String> = days.map(|day| weekday(language, day)).collect();
        if days.is_empty() {
            say!(language, "orders-no-days").into_owned()
        } else {
            days.join(" ")
        }
    }

    /// What goods are for, in a few words.
    fn uses_words(&self, draft: &GoodsDraft, n: usize) -> String {
        let uses = (0..draft.uses(n)).map(|u| self.use_name(draft, n, u));
        uses.collect::<Vec<_>>().join(", ")
    }

    fn use_name(&self, draft: &GoodsDraft, n: usize, u: usize) -> String {
        let place = GoodsPlace::Use(n, u);
        let said = |key| draft.said(place, key).unwrap_or_default();
        match draft.kind_of(n, u) {
            Some(NewUse::Dish) => said(GoodsKey::Dish),
            Some(NewUse::Batch) => said(GoodsKey::Batch),
            Some(NewUse::Cover) | None => {
                let takes = self.shown(GoodsKey::PerCover, said(GoodsKey::PerCover));
                say!(self.language, "orders-a-guest", takes = takes).into_owned()
            }
        }
    }

    fn supplier_of(&self, draft: &GoodsDraft, n: usize) -> Page {
        let language = self.language;
        let place = GoodsPlace::Supplier(n);
        let delivers = FieldView::new(
            caption(language, Asked::Said(place, GoodsKey::Delivers)),
            self.delivers_words(draft, n),
            OrderWish::Show(OrderPage::Days(n)),
        );
        let mut fields = vec![self.said(draft, place, GoodsKey::Name), delivers];
        let mut keys = vec![GoodsKey::At, GoodsKey::OrderBy];
        if draft.said(place, GoodsKey::OrderBy).is_some() {
            keys.push(GoodsKey::DaysBefore);
        }
        fields.extend(keys.into_iter().map(|key| self.said(draft, place, key)));
        Sheet {
            heading: draft.said(place, GoodsKey::Name).unwrap_or_default(),
            fields,
            foot: vec![back(language, OrderPage::Goods), self.take_out(place)],
            ..Sheet::default()
        }
    }

    fn take_out(&self, place: GoodsPlace) -> Foot {
        FootView::plain(
            say!(self.language, "menus-take-out"),
            OrderWish::AskToRemove(place),
        )
    }

    fn days(&self, draft: &GoodsDraft, n: usize) -> Page {
        let language = self.language;
        let fields = (0..7).map(|day| FieldView {
            chosen: draft.delivers(n, day),
            ..FieldView::new("", weekday(language, day), OrderWish::TurnDay(n, day))
        });
        Sheet {
            heading: caption(
                language,
                Asked::Said(GoodsPlace::Supplier(n), GoodsKey::Delivers),
            ),
            prompt: say!(language, "menus-touch-days").into_owned(),
            fields: fields.collect(),
            foot: vec![back(language, OrderPage::SupplierOf(n))],
            ..Sheet::default()
        }
    }

    fn item(&self, draft: &GoodsDraft, n: usize) -> Page {
        let language = self.language;
        let place = GoodsPlace::Goods(n);
        let keys = [
            GoodsKey::Name,
            GoodsKey::Supplier,
            GoodsKey::Pack,
            GoodsKey::Price,
            GoodsKey::Piece,
        ];
        let rows = (0..draft.uses(n)).map(|u| {
            let takes = draft.said(GoodsPlace::Use(n, u), GoodsKey::Takes);
            let about = match (draft.kind_of(n, u), takes) {
                (_, Some(takes)) => say!(
                    language,
                    "orders-takes",
                    takes = self.shown(GoodsKey::Takes, takes)
                )
                .into_owned(),
                (Some(NewUse::Dish), None) => say!(language, "orders-by-yield").into_owned(),
                _ => String::new(),
            };
            Row {
                name: self.use_name(draft, n, u),
                about,
                wish: OrderWish::Show(OrderPage::Use(n, u)),
            }
        });
        let add = |words: std::borrow::Cow<'_, str>, kind| {
            FootView::plain(words, OrderWish::Ask(Asked::NewUse(n, kind)))
        };
        Sheet {
            heading: draft.said(place, GoodsKey::Name).unwrap_or_default(),
            prompt: say!(language, "orders-what-for").into_owned(),
            fields: keys
                .into_iter()
                .map(|key| self.said(draft, place, key))
                .collect(),
            rows: rows.collect(),
            foot: vec![
                back(language, OrderPage::Goods),
                self.take_out(place),
                add(say!(language, "orders-add-dish"), NewUse::Dish),
                add(say!(language, "orders-add-batch"), NewUse::Batch),
                add(say!(language, "orders-add-cover"), NewUse::Cover),
            ],
            ..Sheet::default()
        }
    }

    fn one_use(&self, draft: &GoodsDraft, n: usize, u: usize) -> Page {
        let language = self.language;
        let place = GoodsPlace::Use(n, u);
        let (keys, lines) = match draft.kind_of(n, u) {
            Some(NewUse::Dish) => (
                vec![GoodsKey::Dish, GoodsKey::Takes],
                vec![say!(language, "orders-by-yield-about").into_owned()],
            ),
            Some(NewUse::Batch) => (vec![GoodsKey::Batch, GoodsKey::Takes], Vec::new()),
            Some(NewUse::Cover) | None => (vec![GoodsKey::PerCover], Vec::new()),
        };
        Sheet {
            heading: draft
                .said(GoodsPlace::Goods(n), GoodsKey::Name)
                .unwrap_or_default(),
            prompt: self.use_name(draft, n, u),
            fields: keys
                .into_iter()
                .map(|key| self.said(draft, place, key))
                .collect(),
            lines,
            foot: vec![back(language, OrderPage::Item(n)), self.take_out(place)],
            ..Sheet::default()
        }
    }

    pub(super) fn ask_remove(&self, place: GoodsPlace) -> Page {
        let language: Language = self.language;
        let draft = self.written.as_ref().map(|it| &it.draft);
        let name = |place| draft.and_then(|it| it.said(place, GoodsKey::Name));
        let (thing, gone) = match (place, draft) {
            (GoodsPlace::Use(n, u), Some(draft)) => (self.use_name(draft, n, u), 0),
            (GoodsPlace::Supplier(_), Some(draft)) => {
                let supplier = name(place).unwrap_or_default();
                let of_it = draft
                    .goods()
                    .filter(|(_, of)| of.to_lowercase() == supplier.to_lowercase());
                let count = of_it.count();
                (supplier, count)
            }
            (place, _) => (name(place).unwrap_or_default(), 0),
        };
        Sheet {
            heading: say!(language, "menus-remove", thing = thing.as_str()).into_owned(),
            loud: (gone > 0)
                .then(|| say!(language, "orders-remove-goods", count = gone).into_owned()),
            foot: vec![
                FootView::plain(say!(language, "menus-leave-in"), OrderWish::Stay),
                FootView::main(
                    say!(language, "menus-take-out"),
                    OrderWish::Remove(place),
                    true,
                ),
            ],
            ..Sheet::default()
        }
    }
}
