//! What a cook wishes for on the screens of what to order, carried out.

use super::refusal::{OrderRefusal, refused_words};
use super::typed::{Typing, units_beside};
use super::wish::{Leaving, OrdersOf, WhyBack};
use super::worker::{self, Answer, Known, Question, Worker};
use super::{Asked, OrderPage, OrderView, OrderWish};
use crate::mixing::EntryView;
use crate::state::Screen;
use crate::words::{Language, say};
use evenhand_kitchen::portion::{StrikeReason, Struck};
use evenhand_kitchen::prep::{GoodsDraft, GoodsKey, GoodsPlace, GoodsTold, NewUse, PlacedOrder};
use evenhand_kitchen::units::{InputError, Money};
use evenhand_store::Store;
use evenhand_use_cases::prep::{
    OrderLine, OrderSheet, SupplierOrder, amount_words, order_error_words,
};
use jiff::Timestamp;
use jiff::civil::Date;
use jiff::tz::TimeZone;
use std::io;
use std::path::PathBuf;

/// Currencies that a price can be touched in where no goods have one yet.
const CURRENCIES: [&str; 3] = ["EUR", "GBP", "USD"];

/// The list of goods being written.
#[derive(Debug, Default)]
pub(super) struct Written {
    pub(super) draft: GoodsDraft,
    /// As it is on record; `None` where none is.
    kept: Option<GoodsDraft>,
    /// Its text as it was read, with the draft that it is.
    text: Option<(String, GoodsDraft)>,
    /// What was last done with it.
    pub(super) news: Option<News>,
}

/// What was last done with a list.
#[derive(Debug)]
pub(super) enum News {
    /// It was kept.
    Kept,
    /// It was brought in from a file.
    From(PathBuf),
}

impl Written {
    /// Whether something of it is not on record.
    pub(super) fn is_changed(&self) -> bool {
        match &self.kept {
            Some(kept) => *kept != self.draft,
            None => self.draft != GoodsDraft::default(),
        }
    }
}

/// What was ordered at one moment and stands, or was taken back.
#[derive(Debug)]
pub(super) struct Placed<'a> {
    pub(super) at: Timestamp,
    pub(super) taken_back: Option<&'a Struck>,
    pub(super) orders: Vec<(&'a OrderLine, &'a PlacedOrder)>,
}

/// What is asked of the cook before something is done.
#[derive(Debug, Clone, Copy)]
pub(super) enum Asking {
    /// Is everything ordered?
    Order,
    /// Take back what was put down at this moment, or put it back?
    Turn(Timestamp),
    /// Take this out?
    Remove(GoodsPlace),
    /// Leave what is not kept?
    Leave(Leaving),
}

/// Everything a cook is in the middle of with orders.
#[derive(Debug)]
pub struct Orders {
    pub(super) page: OrderPage,
    entry: Option<Typing>,
    pub(super) asking: Option<Asking>,
    /// What to order, or why nobody knows.
    pub(super) sheet: Option<Result<OrderSheet, String>>,
    supplier: String,
    line: String,
    pub(super) printed: Option<PathBuf>,
    pub(super) written: Option<Written>,
    /// The goods to edit once the list was read.
    to_edit: Option<String>,
    known: Known,
    pub(super) files: Vec<PathBuf>,
    worker: Worker,
    /// The other screen that somebody goes to.
    gone: Option<Screen>,
    today: Date,
    pub(super) language: Language,
    pub(super) zone: TimeZone,
}

impl Orders {
    /// Nothing under way. `changed` is called, from another thread, when something was
    /// answered.
    ///
    /// # Errors
    /// Where the system gives no thread.
    pub fn start(
        store: Store,
        zone: TimeZone,
        changed: impl Fn() + Send + 'static,
    ) -> io::Result<Self> {
        Ok(Self {
            page: OrderPage::default(),
            entry: None,
            asking: None,
            sheet: None,
            supplier: String::new(),
            line: String::new(),
            printed: None,
            written: None,
            to_edit: None,
            known: Known::default(),
            files: Vec::new(),
            worker: worker::start(store, zone.clone(), changed)?,
            gone: None,
            today: Date::MIN,
            language: Language::default(),
            zone,
        })
    }

    /// Speaks this language from now on.
    ///
    /// # Errors
    /// Where the worker has ended.
    pub fn speak(&mut self, language: Language, now: Timestamp) -> Result<(), OrderRefusal> {
        self.language = language;
        if self.sheet.is_some() {
            self.ask(Question::Sheet(now, language))?;
        }
        Ok(())
    }

    /// Whether a list is being written that is not kept as it is.
    #[must_use]
    pub fn is_unkept(&self) -> bool {
        self.written.as_ref().is_some_and(Written::is_changed)
    }

    /// Asks whether to leave what is not kept for another screen.
    pub fn ask_to_leave(&mut self, screen: Screen) {
        self.entry = None;
        self.asking = Some(Asking::Leave(Leaving::To(screen)));
    }

    /// The other screen that somebody goes to, once.
    pub const fn gone(&mut self) -> Option<Screen> {
        self.gone.take()
    }

    /// The order of the supplier shown.
    pub(super) fn order(&self) -> Option<&SupplierOrder> {
        let sheet = self.sheet.as_ref()?.as_ref().ok()?;
        sheet.suppliers.iter().find(|it| it.name == self.supplier)
    }

    /// The line of the goods shown.
    pub(super) fn line(&self) -> Option<&OrderLine> {
        let mut lines = self.order()?.lines.iter();
        lines.find(|line| line.goods.name == self.line)
    }

    /// Carries out a wish.
    ///
    /// # Errors
    /// Why it came to nothing.
    pub fn carry_out(&mut self, wish: OrderWish, now: Timestamp) -> Result<(), OrderRefusal> {
        self.today = now.to_zoned_datetime(self.zone.clone()).date();
        match wish {
            OrderWish::Show(page) => self.show(page, now)?,
            OrderWish::Done => self.leave(Leaving::To(Screen::Prep), now)?,
            OrderWish::Ask(asked) => {
                let said = match (asked, &self.written) {
                    (Asked::Said(place, key), Some(written)) => written.draft.said(place, key),
                    _ => None,
                };
                self.entry = Some(Typing::with(asked, said));
            }
            OrderWish::Type(text) => {
                if let Some(entry) = &mut self.entry {
                    entry.text = text;
                }
            }
            OrderWish::Leave => self.entry = None,
            OrderWish::Enter => self.enter(now)?,
            OrderWish::OpenSupplier(name) => {
                self.supplier = name;
                self.printed = None;
                self.page = OrderPage::Supplier;
            }
            OrderWish::OpenLine(name) => {
                self.line = name;
                self.page = OrderPage::Line;
            }
            OrderWish::AskToOrder => match self.order().and_then(|order| order.delivery) {
                Some(_) => self.asking = Some(Asking::Order),
                None => self.entry = Some(Typing::new(Asked::AllCome)),
            },
            OrderWish::Order => {
                self.asking = None;
                let comes = self.order().and_then(|order| order.delivery);
                if let Some(comes) = comes {
                    self.order_all(comes.day, now)?;
                }
            }
            OrderWish::AskToTurn(at) => self.asking = Some(Asking::Turn(at)),
            OrderWish::TakeBack(why) => {
                let reason = match why {
                    WhyBack::Mistake => say!(self.language, "orders-by-mistake"),
                    WhyBack::DoesNotCome => say!(self.language, "orders-does-not-come"),
                };
                let reason = StrikeReason::new("reason", &reason).ok();
                self.turn(reason, now)?;
            }
            OrderWish::PutBack => self.turn(None, now)?,
            OrderWish::Pdf => {
                if let Some(Ok(sheet)) = &self.sheet {
                    let sheet = Box::new(sheet.clone());
                    self.ask(Question::Print(sheet, self.language))?;
                }
            }
            OrderWish::Edit => {
                self.to_edit = Some(self.line.clone());
                self.show(OrderPage::Goods, now)?;
            }
            OrderWish::Import(nth) => {
                if let Some(path) = self.files.get(nth).cloned() {
                    self.ask(Question::Import(path))?;
                }
            }
            OrderWish::ImportFile(path) => {
                if self.is_unkept() {
                    return Err(OrderRefusal::Unkept);
                }
                self.ask(Question::Import(path))?;
            }
            OrderWish::TurnDay(supplier, day) => {
                if let Some(written) = &mut self.written {
                    written.news = None;
                    written.draft.turn_delivers(supplier, day);
                }
            }
            OrderWish::AskToRemove(place) => self.asking = Some(Asking::Remove(place)),
            OrderWish::Remove(place) => {
                self.asking = None;
                if let Some(written) = &mut self.written {
                    written.news = None;
                    written.draft.remove(place);
                }
                self.page = match place {
                    GoodsPlace::Use(n, _) => OrderPage::Item(n),
                    GoodsPlace::Supplier(_) | GoodsPlace::Goods(_) => OrderPage::Goods,
                };
            }
            OrderWish::ShowWrong => {
                let wrong = self.written.as_ref().map(|it| it.draft.written());
                if let Some(Err(refused)) = wrong
                    && let Some((place, _)) = refused.at
                {
                    self.page = page_of(place);
                }
            }
            OrderWish::Keep => self.keep(now)?,
            OrderWish::Drop => {
                let Some(Asking::Leave(leaving)) = self.asking.take() else {
                    return Ok(());
                };
                self.written = None;
                self.leave(leaving, now)?;
            }
            OrderWish::Stay => self.asking = None,
        }
        Ok(())
    }

    fn show(&mut self, page: OrderPage, now: Timestamp) -> Result<(), OrderRefusal> {
        if self.page.is_of_the_draft() && !page.is_of_the_draft() && self.is_unkept() {
            self.asking = Some(Asking::Leave(Leaving::ToSuppliers));
            return Ok(());
        }
        self.page = page;
        self.entry = None;
        match page {
            OrderPage::Suppliers => {
                self.written = None;
                self.ask(Question::Sheet(now, self.language))?;
            }
            OrderPage::Goods if self.written.is_none() => self.ask(Question::Goods(now))?,
            OrderPage::Files => self.ask(Question::Files)?,
            _ => {}
        }
        Ok(())
    }

    fn leave(&mut self, leaving: Leaving, now: Timestamp) -> Result<(), OrderRefusal> {
        if self.is_unkept() {
            self.asking = Some(Asking::Leave(leaving));
            return Ok(());
        }
        self.written = None;
        self.entry = None;
        match leaving {
            Leaving::ToSuppliers => self.show(OrderPage::Suppliers, now),
            Leaving::To(screen) => {
                self.page = OrderPage::Suppliers;
                self.gone = Some(screen);
                Ok(())
            }
        }
    }

    /// Lines whose number of packs is known and not nothing.
    pub(super) fn to_order(&self) -> impl Iterator<Item = (&OrderLine, u32)> {
        let lines = self.order().into_iter().flat_map(|order| &order.lines);
        lines.filter_map(|line| {
            let packs = line.packs.number().filter(|packs| *packs > 0)?;
            Some((line, packs))
        })
    }

    /// Puts everything down as ordered that is known.
    fn order_all(&mut self, comes: Date, now: Timestamp) -> Result<(), OrderRefusal> {
        let told = self
            .to_order()
            .map(|(line, packs)| (line.goods.name.clone(), GoodsTold::Ordered { packs, comes }))
            .collect();
        self.ask(Question::Tell(told, now))
    }

    /// The orders that the page lists, as they were put down: together where that was at once.
    pub(super) fn orders(&self, of: OrdersOf) -> Vec<Placed<'_>> {
        let lines: Vec<&OrderLine> = match of {
            OrdersOf::Supplier => self
                .order()
                .map_or_else(Vec::new, |it| it.lines.iter().collect()),
            OrdersOf::Line => self.line().into_iter().collect(),
        };
        let mut all: Vec<Placed<'_>> = Vec::new();
        for (line, order) in lines
            .iter()
            .flat_map(|line| line.orders.iter().map(move |order| (*line, order)))
        {
            let together = all.iter_mut().find(|it| {
                it.at == order.at && it.taken_back.is_some() == order.taken_back.is_some()
            });
            match together {
                Some(placed) => placed.orders.push((line, order)),
                None => all.push(Placed {
                    at: order.at,
                    taken_back: order.taken_back.as_ref(),
                    orders: vec![(line, order)],
                }),
            }
        }
        all.sort_by_key(|placed| std::cmp::Reverse(placed.at));
        all
    }

    /// What is asked to be taken back or put back.
    pub(super) fn to_turn(&self) -> Option<Placed<'_>> {
        let (Some(Asking::Turn(at)), OrderPage::Orders(of)) = (self.asking, self.page) else {
            return None;
        };
        self.orders(of).into_iter().find(|placed| placed.at == at)
    }

    fn turn(&mut self, reason: Option<StrikeReason>, now: Timestamp) -> Result<(), OrderRefusal> {
        let numbers = self.to_turn().map(|placed| {
            let orders = placed.orders.iter();
            orders.map(|(_, order)| order.number).collect::<Vec<_>>()
        });
        self.asking = None;
        match numbers {
            Some(numbers) => self.ask(Question::Turn(numbers, reason, now)),
            None => Ok(()),
        }
    }

    fn keep(&mut self, now: Timestamp) -> Result<(), OrderRefusal> {
        let Some(written) = &self.written else {
            return Ok(());
        };
        let list = match written.draft.written() {
            Ok(list) => list,
            Err(refused) => {
                // What is wrong is to be seen; nothing of it is lost.
                self.asking = None;
                let why = refused_words(self.language, &written.draft, &refused);
                return Err(OrderRefusal::Draft(why));
            }
        };
        // What was not changed keeps its text, remarks and all.
        let text = match &written.text {
            Some((text, read)) if *read == written.draft => text.clone(),
            written => {
                let before = written.as_ref().map_or("", |(text, _)| text.as_str());
                let text = list.to_toml_like(before);
                text.map_err(|why| OrderRefusal::NotWritten(why.to_string()))?
            }
        };
        self.ask(Question::Keep(text, now))
    }

    fn ask(&mut self, question: Question) -> Result<(), OrderRefusal> {
        self.worker.ask(question)?;
        Ok(())
    }

    fn enter(&mut self, now: Timestamp) -> Result<(), OrderRefusal> {
        let Some(entry) = self.entry.clone() else {
            return Ok(());
        };
        let text = entry.typed(self.language);
        let asked = entry.asked;
        let cannot = || OrderRefusal::Typed {
            asked,
            text: entry.text.trim().to_owned(),
            taken: false,
        };
        match asked {
            Asked::InHand => {
                let Some(goods) = self.line().map(|line| line.goods.clone()) else {
                    self.entry = None;
                    return Ok(());
                };
                let amount = goods.amount_of(&text).map_err(|_| cannot())?;
                self.entry = None;
                let told = vec![(goods.name, GoodsTold::Counted { amount })];
                return self.ask(Question::Tell(told, now));
            }
            Asked::Ordered => {
                let packs: u32 = text.parse().map_err(|_| cannot())?;
                if packs > 100_000 {
                    return Err(cannot());
                }
                let comes = self.order().and_then(|order| order.delivery);
                self.entry = None;
                match comes {
                    Some(comes) => return self.ordered(packs, comes.day, now),
                    None => {
                        self.entry = Some(Typing {
                            packs,
                            ..Typing::new(Asked::Comes)
                        });
                    }
                }
                return Ok(());
            }
            Asked::Comes | Asked::AllCome => {
                let comes: Date = text.parse().map_err(|_| cannot())?;
                if comes < self.today {
                    return Err(cannot());
                }
                self.entry = None;
                return match asked {
                    Asked::Comes => self.ordered(entry.packs, comes, now),
                    _ => self.order_all(comes, now),
                };
            }
            _ => {}
        }
        let Some(written) = &mut self.written else {
            self.entry = None;
            return Ok(());
        };
        written.news = None;
        let draft = &mut written.draft;
        let refused = |error: InputError| OrderRefusal::Typed {
            asked,
            text: entry.text.trim().to_owned(),
            taken: error.problem().code() == "there-already",
        };
        let said = |place, key| Some(Typing::new(Asked::Said(place, key)));
        // What is to be typed next.
        let next = match asked {
            Asked::NewSupplier => {
                let nth = draft.add_supplier(&text).map_err(refused)?;
                self.page = OrderPage::SupplierOf(nth);
                None
            }
            Asked::NewGoods => {
                let nth = draft.add_goods(&text, "").map_err(refused)?;
                self.page = OrderPage::Item(nth);
                said(GoodsPlace::Goods(nth), GoodsKey::Supplier)
            }
            Asked::NewUse(n, kind) => {
                let nth = draft.add_use(n, kind, &text).map_err(refused)?;
                let place = GoodsPlace::Use(n, nth);
                match kind {
                    NewUse::Cover => None,
                    // How much a dish takes may go by its yield.
                    NewUse::Dish | NewUse::Batch => {
                        self.page = OrderPage::Use(n, nth);
                        said(place, GoodsKey::Takes).filter(|_| kind == NewUse::Batch)
                    }
                }
            }
            Asked::Said(place, key) => {
                draft.say(place, key, &text).map_err(refused)?;
                match (place, key) {
                    // New goods need a pack, too.
                    (GoodsPlace::Goods(_), GoodsKey::Supplier)
                        if draft.said(place, GoodsKey::Pack).is_none() =>
                    {
                        said(place, GoodsKey::Pack)
                    }
                    (_, GoodsKey::OrderBy) if draft.said(place, key).is_some() => {
                        said(place, GoodsKey::DaysBefore)
                    }
                    _ => None,
                }
            }
            Asked::InHand | Asked::Ordered | Asked::Comes | Asked::AllCome => None,
        };
        self.entry = next;
        Ok(())
    }

    /// Puts packs of the goods shown down as ordered.
    fn ordered(&mut self, packs: u32, comes: Date, now: Timestamp) -> Result<(), OrderRefusal> {
        let told = vec![(self.line.clone(), GoodsTold::Ordered { packs, comes })];
        self.ask(Question::Tell(told, now))
    }

    /// Takes in what was answered since; returns why something came to nothing.
    pub fn take_in(&mut self, now: Timestamp) -> Vec<OrderRefusal> {
        let mut refused = Vec::new();
        while let Some((_, answer)) = self.worker.answer() {
            match answer {
                Ok(answer) => refused.extend(self.answered(answer, now).err()),
                Err(refusal) => refused.push(refusal),
            }
        }
        refused
    }

    fn answered(&mut self, answer: Answer, now: Timestamp) -> Result<(), OrderRefusal> {
        match answer {
            Answer::Sheet(sheet) => {
                let language = self.language;
                self.sheet = Some(sheet.map_err(|error| order_error_words(language, &error)));
            }
            Answer::Told => {
                self.printed = None;
                self.ask(Question::Sheet(now, self.language))?;
            }
            Answer::Goods(list, known) => {
                self.known = known;
                self.written = Some(match list {
                    Some((list, text)) => {
                        let draft = GoodsDraft::of(&list);
                        Written {
                            kept: Some(draft.clone()),
                            text: Some((text, draft.clone())),
                            draft,
                            news: None,
                        }
                    }
                    None => Written::default(),
                });
                self.edit();
            }
            Answer::Kept => {
                if let Some(written) = &mut self.written {
                    written.kept = Some(written.draft.clone());
                    written.news = Some(News::Kept);
                }
                self.ask(Question::Sheet(now, self.language))?;
                if let Some(Asking::Leave(leaving)) = self.asking.take() {
                    self.leave(leaving, now)?;
                }
            }
            Answer::Files(files) => self.files = files,
            Answer::Imported(path, list, text) => {
                if self.is_unkept() {
                    return Err(OrderRefusal::Unkept);
                }
                let draft = GoodsDraft::of(&list);
                self.written = Some(Written {
                    kept: None,
                    text: Some((text, draft.clone())),
                    draft,
                    news: Some(News::From(path)),
                });
                self.entry = None;
                self.page = OrderPage::Goods;
            }
            Answer::Printed(path) => self.printed = Some(path),
        }
        Ok(())
    }

    /// Shows the goods that were to be edited.
    fn edit(&mut self) {
        let Some(name) = self.to_edit.take() else {
            return;
        };
        let written = self.written.as_ref();
        let nth = written.and_then(|it| it.draft.goods().position(|(known, _)| known == name));
        if let Some(nth) = nth {
            self.page = OrderPage::Item(nth);
        }
    }

    /// What the screens show.
    #[must_use]
    pub fn view(&self) -> OrderView {
        OrderView {
            page: self.page,
            entry: match self.asking {
                Some(_) => None,
                None => self.entry.as_ref().map(|entry| {
                    let units = self.units(entry.asked);
                    let about = self.about(entry.asked);
                    let picks = (self.picks(entry.asked), units.as_slice());
                    let view = entry.view(&about, picks, self.today, self.language);
                    match self.understood(entry) {
                        Some(hint) => EntryView { hint, ..view },
                        None => view,
                    }
                }),
            },
            sheet: self.sheet(),
        }
    }

    /// What was typed of a count means this; or, without a unit, what it may mean.
    fn understood(&self, entry: &Typing) -> Option<String> {
        let language = self.language;
        let goods = &self.line().filter(|_| entry.asked == Asked::InHand)?.goods;
        let typed = entry.typed(language);
        if let Ok(amount) = goods.amount_of(&typed) {
            let amount = amount_words(language, amount);
            return Some(say!(language, "orders-understood", amount = amount).into_owned());
        }
        let packs = goods.amount_of(&format!("{typed} packs")).ok()?;
        let said = say!(
            language,
            "orders-of-what",
            number = entry.text.trim(),
            amount = amount_words(language, packs)
        );
        Some(said.into_owned())
    }

    /// What is asked about.
    fn about(&self, asked: Asked) -> String {
        let name = |place| {
            let written = self.written.as_ref();
            let said = written.and_then(|it| it.draft.said(place, GoodsKey::Name));
            said.unwrap_or_default()
        };
        match asked {
            Asked::InHand | Asked::Ordered | Asked::Comes => self.line.clone(),
            Asked::AllCome => self.supplier.clone(),
            Asked::Said(GoodsPlace::Use(n, _), _) | Asked::NewUse(n, _) => {
                name(GoodsPlace::Goods(n))
            }
            Asked::Said(place, _) => name(place),
            Asked::NewSupplier | Asked::NewGoods => String::new(),
        }
    }

    /// What an amount can be in.
    fn units(&self, asked: Asked) -> Vec<&'static str> {
        let pack = |n| {
            let written = self.written.as_ref();
            written.and_then(|it| it.draft.said(GoodsPlace::Goods(n), GoodsKey::Pack))
        };
        match asked {
            Asked::InHand => {
                let pack = self.line().map(|line| line.goods.pack.to_string());
                let units = units_beside(&pack.unwrap_or_default());
                std::iter::once("packs").chain(units).collect()
            }
            Asked::Said(_, GoodsKey::Piece) => vec!["g", "kg"],
            Asked::Said(GoodsPlace::Use(n, _), _) | Asked::NewUse(n, _) => {
                units_beside(&pack(n).unwrap_or_default())
            }
            _ => units_beside(""),
        }
    }

    /// What is known and can be chosen instead of typed.
    fn picks(&self, asked: Asked) -> Vec<String> {
        const MOST: usize = 5;
        let mut known = match asked {
            Asked::Ordered => {
                let packs = self.line().and_then(|line| line.packs.number());
                packs.map(|packs| packs.to_string()).into_iter().collect()
            }
            Asked::Said(GoodsPlace::Goods(_), GoodsKey::Supplier) => {
                let written = self.written.iter();
                let names = written.flat_map(|it| it.draft.suppliers());
                names.map(str::to_owned).collect()
            }
            Asked::Said(_, GoodsKey::Price) => self.currencies(),
            Asked::Said(_, GoodsKey::DaysBefore) => ["0", "1", "2", "3"].map(str::to_owned).into(),
            Asked::Said(_, GoodsKey::Dish) | Asked::NewUse(_, NewUse::Dish) => {
                self.known.dishes.clone()
            }
            Asked::Said(_, GoodsKey::Batch) | Asked::NewUse(_, NewUse::Batch) => {
                self.known.preparations.clone()
            }
            _ => Vec::new(),
        };
        known.truncate(MOST);
        known
    }

    /// The currencies that the list's prices are in.
    fn currencies(&self) -> Vec<String> {
        let mut known: Vec<String> = Vec::new();
        if let Some(written) = &self.written {
            for n in 0..written.draft.goods().count() {
                let price = written.draft.said(GoodsPlace::Goods(n), GoodsKey::Price);
                let price = price.and_then(|it| Money::parse("price", &it).ok());
                let code = price.map(|it| it.currency().code().to_owned());
                known.extend(code.filter(|code| !known.contains(code)));
            }
        }
        if known.is_empty() {
            known = CURRENCIES.map(str::to_owned).into();
        }
        known
    }

    /// What is said where there is no sheet yet.
    pub(super) fn waiting(&self) -> String {
        say!(self.language, "orders-waiting").into_owned()
    }
}

/// The screen that a thing is said on.
const fn page_of(place: GoodsPlace) -> OrderPage {
    match place {
        GoodsPlace::Supplier(n) => OrderPage::SupplierOf(n),
        GoodsPlace::Goods(n) => OrderPage::Item(n),
        GoodsPlace::Use(n, u) => OrderPage::Use(n, u),
    }
}
