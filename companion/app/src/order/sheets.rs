//! The screens of what to order: of whom, what, and one line of it.

use super::controller::{Asking, Orders, Placed};
use super::typed::caption;
use super::wish::{Leaving, OrdersOf, WhyBack};
use super::{Asked, OrderPage, OrderWish};
use crate::book::{FieldView, FootView, RowView, Sheet};
use crate::words::{Language, say};
use evenhand_kitchen::prep::PlacedOrder;
use evenhand_kitchen::units::Amount;
use evenhand_use_cases::prep::{
    GOODS, OrderLine, Remedies, SupplierOrder, amount_words, lasts_words, line_words,
    missing_words, packs_words, placed_order_words, taken_back_words,
};
use evenhand_use_cases::times;

pub(super) type Field = FieldView<OrderWish>;
pub(super) type Row = RowView<OrderWish>;
pub(super) type Foot = FootView<OrderWish>;
pub(super) type Page = Sheet<OrderWish>;

pub(super) fn back(language: Language, page: OrderPage) -> Foot {
    FootView::plain(say!(language, "back"), OrderWish::Show(page))
}

impl Orders {
    pub(super) fn sheet(&self) -> Page {
        if let Some(asking) = self.asking {
            return self.question(asking);
        }
        match (self.page, &self.written) {
            (OrderPage::Supplier, _) => self
                .order()
                .map_or_else(|| self.suppliers(), |it| self.supplier(it)),
            (OrderPage::Line, _) => self
                .line()
                .map_or_else(|| self.suppliers(), |it| self.one_line(it)),
            (OrderPage::Orders(of), _) => self.list_of_orders(of),
            (OrderPage::Files, _) => self.files(),
            (OrderPage::Suppliers, _) => self.suppliers(),
            (page, Some(written)) => self.of_draft(page, written),
            (_, None) => Sheet {
                heading: say!(self.language, "orders-goods").into_owned(),
                prompt: self.waiting(),
                foot: vec![back(self.language, OrderPage::Suppliers)],
                ..Sheet::default()
            },
        }
    }

    fn suppliers(&self) -> Page {
        let language = self.language;
        let mut sheet = Sheet {
            heading: say!(language, "orders-heading").into_owned(),
            foot: vec![
                FootView::plain(say!(language, "back"), OrderWish::Done),
                FootView::plain(
                    say!(language, "orders-goods"),
                    OrderWish::Show(OrderPage::Goods),
                ),
            ],
            ..Sheet::default()
        };
        match &self.sheet {
            None => sheet.prompt = self.waiting(),
            Some(Err(why)) => sheet.loud = Some(why.clone()),
            Some(Ok(order)) => {
                sheet.prompt = say!(language, "orders-touch-supplier").into_owned();
                sheet.rows = order
                    .suppliers
                    .iter()
                    .map(|order| Row {
                        name: order.name.clone(),
                        about: self.supplier_about(order),
                        wish: OrderWish::OpenSupplier(order.name.clone()),
                    })
                    .collect();
                sheet.lines = self.below();
                sheet.foot.push(FootView::main(
                    say!(language, "menus-pdf"),
                    OrderWish::Pdf,
                    true,
                ));
            }
        }
        sheet
    }

    /// What was printed, and what the numbers go by.
    fn below(&self) -> Vec<String> {
        let language = self.language;
        let printed = self.printed.as_ref().map(|path| {
            let path = path.display().to_string();
            say!(language, "menus-written", path = path).into_owned()
        });
        let basis = say!(language, "orders-basis").into_owned();
        printed.into_iter().chain([basis]).collect()
    }

    /// By when to order, when it comes, and how much is to be done.
    fn supplier_about(&self, order: &SupplierOrder) -> String {
        let language = self.language;
        let unknown = order.lines.iter().filter(|it| it.packs.number().is_none());
        let wanted = order.lines.iter().filter(|it| it.packs.number() > Some(0));
        let lines = say!(
            language,
            "orders-lines",
            wanted = wanted.count(),
            unknown = unknown.count()
        );
        format!("{}. {lines}", self.when(order))
    }

    fn when(&self, order: &SupplierOrder) -> String {
        let language = self.language;
        let Some(delivery) = order.delivery else {
            return say!(language, "orders-no-days").into_owned();
        };
        let day = times::day(language, delivery.day);
        match delivery.order_by {
            Some(by) => say!(
                language,
                "orders-by",
                by = times::day_and_time(language, by, &self.zone),
                day = day
            ),
            None => say!(language, "orders-no-time", day = day),
        }
        .into_owned()
    }

    fn supplier(&self, order: &SupplierOrder) -> Page {
        let language = self.language;
        let rows = order.lines.iter().map(|line| Row {
            name: bare_packs(language, line),
            about: line_about(language, line),
            wish: OrderWish::OpenLine(line.goods.name.clone()),
        });
        let mut lines = vec![lasts_words(language, order)];
        if let Some(cost) = order.cost.filter(|cost| cost.millionths() > 0) {
            lines.push(say!(language, "orders-total", cost = cost.to_string()).into_owned());
        }
        Sheet {
            heading: order.name.clone(),
            prompt: self.when(order),
            rows: rows.collect(),
            lines,
            foot: vec![
                back(language, OrderPage::Suppliers),
                FootView::plain(
                    say!(language, "orders-placed"),
                    OrderWish::Show(OrderPage::Orders(OrdersOf::Supplier)),
                ),
                FootView::main(
                    say!(language, "orders-all-ordered"),
                    OrderWish::AskToOrder,
                    self.to_order().next().is_some(),
                ),
            ],
            ..Sheet::default()
        }
    }

    fn one_line(&self, line: &OrderLine) -> Page {
        let language = self.language;
        let today = self.day_of_sheet();
        let in_hand = FieldView::new(
            caption(language, Asked::InHand),
            hand_words(language, line),
            OrderWish::Ask(Asked::InHand),
        );
        let on_the_way = say!(
            language,
            "orders-on-the-way",
            packs = line.counted.on_the_way
        );
        let ordered = FieldView::new(
            caption(language, Asked::Ordered),
            on_the_way.into_owned(),
            OrderWish::Ask(Asked::Ordered),
        );
        let mut said = line_words(language, line, Remedies::InWords, today, &self.zone);
        let unknown = line.packs.number().is_none();
        if unknown && !line.missing.is_empty() {
            // What would make it known stands above.
            said.pop();
        }
        Sheet {
            heading: line.goods.name.clone(),
            prompt: bare_packs(language, line),
            fields: vec![in_hand, ordered],
            loud: unknown.then(|| know(language, line)),
            lines: said,
            foot: vec![
                back(language, OrderPage::Supplier),
                FootView::plain(
                    say!(language, "orders-placed"),
                    OrderWish::Show(OrderPage::Orders(OrdersOf::Line)),
                ),
                FootView::plain(say!(language, "orders-edit"), OrderWish::Edit),
            ],
            ..Sheet::default()
        }
    }

    /// What was ordered, the last first, to be taken back by a touch.
    fn list_of_orders(&self, of: OrdersOf) -> Page {
        let language = self.language;
        let orders = self.orders(of);
        let day = |placed: &Placed<'_>| {
            let comes = placed.orders.first().map(|(_, order)| order.comes);
            comes.map_or_else(String::new, |day| times::day(language, day))
        };
        let rows = orders.iter().map(|placed| {
            let name = say!(language, "orders-placed-for", day = day(placed));
            let all: Vec<String> = placed
                .orders
                .iter()
                .map(|it| packs_of(language, *it))
                .collect();
            let at = times::day_and_time(language, placed.at, &self.zone);
            let about = match placed.taken_back {
                Some(struck) => taken_back_words(language, struck, &self.zone),
                None => say!(language, "orders-placed-at", at = at).into_owned(),
            };
            Row {
                name: name.into_owned(),
                about: format!("{about}: {}", all.join(", ")),
                wish: OrderWish::AskToTurn(placed.at),
            }
        });
        let (heading, page) = match of {
            OrdersOf::Supplier => (self.order().map(|it| it.name.clone()), OrderPage::Supplier),
            OrdersOf::Line => (self.line().map(|it| it.goods.name.clone()), OrderPage::Line),
        };
        let rows: Vec<Row> = rows.collect();
        let prompt = if rows.is_empty() {
            say!(language, "orders-none-placed")
        } else {
            say!(language, "orders-touch-placed")
        };
        let heading = heading.unwrap_or_default();
        Sheet {
            heading: say!(language, "orders-placed-heading", name = heading).into_owned(),
            prompt: prompt.into_owned(),
            rows,
            foot: vec![back(language, page)],
            ..Sheet::default()
        }
    }

    /// Is what was put down to be taken back, or put back?
    fn ask_turn(&self) -> Page {
        let language = self.language;
        let Some(placed) = self.to_turn() else {
            return self.suppliers();
        };
        let orders = placed.orders.iter();
        let mut lines: Vec<String> = orders
            .map(|(line, order)| placed_order_words(language, order, Some(&line.goods), &self.zone))
            .collect();
        let mut foot = vec![FootView::plain(
            say!(language, "orders-leave-it"),
            OrderWish::Stay,
        )];
        let heading = if placed.taken_back.is_some() {
            foot.push(FootView::main(
                say!(language, "orders-put-back"),
                OrderWish::PutBack,
                true,
            ));
            say!(language, "orders-ask-put-back")
        } else {
            for (words, why) in [
                (say!(language, "orders-by-mistake"), WhyBack::Mistake),
                (say!(language, "orders-does-not-come"), WhyBack::DoesNotCome),
            ] {
                foot.push(FootView::plain(words, OrderWish::TakeBack(why)));
            }
            lines.push(say!(language, "orders-call-them").into_owned());
            say!(language, "orders-ask-take-back")
        };
        Sheet {
            heading: heading.into_owned(),
            lines,
            foot,
            ..Sheet::default()
        }
    }

    fn day_of_sheet(&self) -> jiff::civil::Date {
        let at = self.sheet.as_ref().and_then(|it| it.as_ref().ok());
        at.map_or(jiff::civil::Date::MIN, |sheet| {
            sheet.at.to_zoned_datetime(self.zone.clone()).date()
        })
    }

    fn files(&self) -> Page {
        let language = self.language;
        let rows = self.files.iter().enumerate().map(|(nth, path)| Row {
            name: path
                .file_name()
                .unwrap_or_default()
                .to_string_lossy()
                .into_owned(),
            about: say!(language, "menus-file-about").into_owned(),
            wish: OrderWish::Import(nth),
        });
        Sheet {
            heading: say!(language, "menus-files").into_owned(),
            rows: rows.collect(),
            lines: vec![say!(language, "orders-files-where", folder = GOODS).into_owned()],
            foot: vec![
                back(language, OrderPage::Goods),
                FootView::plain(
                    say!(language, "menus-look-again"),
                    OrderWish::Show(OrderPage::Files),
                ),
            ],
            ..Sheet::default()
        }
    }

    fn question(&self, asking: Asking) -> Page {
        let language = self.language;
        match asking {
            Asking::Order => {
                let name = self.order().map_or("", |order| order.name.as_str());
                let day = self.order().and_then(|order| order.delivery);
                let day = day.map_or_else(String::new, |it| times::day(language, it.day));
                let lines = self.to_order();
                let unknown = self.order().is_some_and(|order| {
                    let mut lines = order.lines.iter();
                    lines.any(|line| line.packs.number().is_none())
                });
                Sheet {
                    heading: say!(
                        language,
                        "orders-ask-ordered",
                        supplier = name,
                        day = day.as_str()
                    )
                    .into_owned(),
                    loud: unknown.then(|| say!(language, "orders-unknown-left").into_owned()),
                    lines: lines.map(|(line, _)| bare_packs(language, line)).collect(),
                    foot: vec![
                        FootView::plain(say!(language, "orders-not-yet"), OrderWish::Stay),
                        FootView::main(say!(language, "orders-is-ordered"), OrderWish::Order, true),
                    ],
                    ..Sheet::default()
                }
            }
            Asking::Turn(_) => self.ask_turn(),
            Asking::Remove(place) => self.ask_remove(place),
            Asking::Leave(Leaving::ToSuppliers | Leaving::To(_)) => Sheet {
                heading: say!(language, "orders-not-kept").into_owned(),
                loud: Some(say!(language, "menus-not-kept-about").into_owned()),
                foot: vec![
                    FootView::plain(say!(language, "menus-go-on"), OrderWish::Stay),
                    FootView::plain(say!(language, "menus-drop"), OrderWish::Drop),
                    FootView::main(say!(language, "menus-keep"), OrderWish::Keep, true),
                ],
                ..Sheet::default()
            },
        }
    }
}

/// How many packs of what were ordered.
fn packs_of(language: Language, (line, order): (&OrderLine, &PlacedOrder)) -> String {
    say!(
        language,
        "orders-packs-of",
        packs = order.packs.to_string(),
        pack = amount_words(language, line.goods.pack),
        goods = line.goods.name.as_str()
    )
    .into_owned()
}

/// How many packs, without the mark that is for a pen.
fn bare_packs(language: Language, line: &OrderLine) -> String {
    let words = packs_words(language, line);
    let bare = words.trim_start_matches("[ ] ").trim_start_matches("[?] ");
    bare.to_owned()
}

/// What would make a line known.
fn know(language: Language, line: &OrderLine) -> String {
    let missing = line.missing.iter();
    let all: Vec<String> = missing
        .map(|it| missing_words(language, it, &line.goods.name, Remedies::InWords))
        .collect();
    say!(language, "orders-know", what = all.join("; ")).into_owned()
}

/// The first thing that would make a line known, with how many more there are; else what is
/// enough and what is in hand.
fn line_about(language: Language, line: &OrderLine) -> String {
    if line.packs.number().is_none()
        && let Some(first) = line.missing.first()
    {
        let first = missing_words(language, first, &line.goods.name, Remedies::InWords);
        let more = line.missing.len() - 1;
        return say!(language, "orders-know-first", first = first, more = more).into_owned();
    }
    let amount = |known: Option<Amount>| {
        known.map_or_else(|| "?".to_owned(), |it| amount_words(language, it))
    };
    let about = if line.after == line.need {
        say!(
            language,
            "orders-line",
            enough = amount(line.need.enough),
            hand = hand_words(language, line)
        )
    } else {
        say!(
            language,
            "orders-line-after",
            after = amount(line.after.enough),
            enough = amount(line.need.enough),
            hand = hand_words(language, line)
        )
    };
    if line.runs_out {
        let risk = say!(language, "orders-runs-out");
        return format!("{risk} {about}");
    }
    about.into_owned()
}

/// What is in hand as bought, in a few words.
fn hand_words(language: Language, line: &OrderLine) -> String {
    let amount = |it| amount_words(language, it);
    match line.in_hand.most {
        None => say!(language, "orders-not-counted").into_owned(),
        Some(most) if most == line.in_hand.least => amount(most),
        Some(most) => say!(
            language,
            "orders-from-to",
            least = amount(line.in_hand.least),
            most = amount(most)
        )
        .into_owned(),
    }
}
