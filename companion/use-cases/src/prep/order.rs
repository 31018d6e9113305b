//! The order sheet: what to buy, by supplier, until the delivery after the next.

use super::served::{
    covers_of_weekday, open_stock, past_of_weekday, past_services, portion_as_served,
    recent_purchases,
};
use super::supply::{DayBoard, OnRecord, Supplied, supply};
use super::words::remedy;
use super::{PrepError, PrepQuestion};
use evenhand_kitchen::dish::DishName;
use evenhand_kitchen::limits::Limits;
use evenhand_kitchen::prep::{
    Asked, Counted, DishNeed, ENOUGH_NIGHTS, Each, FileError, Goods, GoodsList, GoodsNeed, InHand,
    KnownYield, NextDelivery, Packs, PastService, PlacedOrder, Stock, Supplier, TickedBy, UsedFor,
    WhyMade, packs,
};
use evenhand_kitchen::units::{Amount, Money};
use evenhand_protocol::Mass;
use evenhand_store::{Store, StoreError};
use evenhand_words::Language;
use jiff::civil::{Date, Time};
use jiff::tz::TimeZone;
use jiff::{Timestamp, ToSpan};

/// Services so far ahead are looked at: to the delivery after the next one, at most.
const MOST_AHEAD: i32 = 28;

/// Why there is no order sheet.
#[derive(Debug, thiserror::Error)]
pub enum OrderError {
    /// The record or the menu does not answer.
    #[error(transparent)]
    Prep(#[from] PrepError),
    /// No list of goods is on record.
    #[error(
        "no list of what the kitchen buys is on record; keep one with `evenhand prep goods --keep \
         FILE` (MENU.md says how it is written)"
    )]
    NoGoods,
    /// The list cannot be read.
    #[error(transparent)]
    Goods(#[from] FileError),
    /// Nothing comes from a supplier of that name.
    #[error("nothing comes from {wanted:?} by the list of goods; goods come from: {known}")]
    NoSuchSupplier {
        /// Who was asked for.
        wanted: String,
        /// Who there is.
        known: String,
    },
}

impl From<StoreError> for OrderError {
    fn from(error: StoreError) -> Self {
        Self::Prep(error.into())
    }
}

/// What is asked for.
#[derive(Clone, Copy)]
pub struct OrderQuestion<'a> {
    /// Only what comes from this supplier, by the name in any case.
    pub supplier: Option<&'a str>,
    /// How many days what comes from a supplier without delivery days is to last.
    pub days: i32,
    /// The moment.
    pub now: Timestamp,
    /// The kitchen's time.
    pub zone: &'a TimeZone,
    /// The language of what is said.
    pub language: Language,
}

/// What is not known of a line, or only roughly.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Missing {
    /// No dish of that name is on record.
    Dish(String),
    /// How many guests come on a day.
    Covers(Date),
    /// What past services of a dish served.
    Past(String),
    /// There is a single past night of a dish: how far the next lies from it is not known.
    OneNight(String),
    /// There are so many past nights of a dish: a kind of night that is not among them is not in
    /// what suffices.
    FewNights(String, usize),
    /// No yield of a dish is on record.
    Yield(String),
    /// A single purchase of a dish tells its yield.
    OneYield(String),
    /// What a batch needs, in the words of the week.
    Batch(String),
    /// On no menu of these days.
    OffMenu(String),
    /// Nobody counted what is in hand.
    NotCounted,
    /// So many services opened since it was counted.
    OldCount(usize),
}

/// What goods are for, with what is known of it.
#[derive(Debug, Clone, PartialEq)]
pub struct Use {
    /// What.
    pub of: UsedFor,
    /// Portions or guests that are likely, and enough of them; batches to be made.
    pub wanted: Option<(f64, Option<f64>)>,
    /// The most past nights that tell a service's portions; none where they were said.
    pub nights: usize,
    /// Portions that are ready.
    pub ready: u32,
    /// What a portion weighs, over so many; by the target over none.
    pub portion: Option<(Mass, usize)>,
    /// What is open of it, in its own state.
    pub open: Stock,
    /// The yield, and over how many purchases.
    pub yields: Option<(KnownYield, usize)>,
}

/// One line of the sheet.
#[derive(Debug, Clone, PartialEq)]
pub struct OrderLine {
    /// What to buy.
    pub goods: Goods,
    /// How much is needed in all, in what the pack is counted in.
    pub need: GoodsNeed,
    /// How much of that is for services that the delivery is there for.
    pub after: GoodsNeed,
    /// What was counted and ordered.
    pub counted: Counted,
    /// Every order of it as it was put down, the last first; those that were taken back, too.
    pub orders: Vec<PlacedOrder>,
    /// What is in hand with what is open, as bought.
    pub in_hand: InHand,
    /// What it is for.
    pub uses: Vec<Use>,
    /// How many packs.
    pub packs: Packs,
    /// What they cost, where that and the number are known.
    pub cost: Option<Money>,
    /// What is in hand likely does not last until the delivery.
    pub runs_out: bool,
    /// What is not known.
    pub missing: Vec<Missing>,
}

/// What to order of one supplier.
#[derive(Debug, Clone, PartialEq)]
pub struct SupplierOrder {
    /// The supplier.
    pub name: String,
    /// The delivery that it is for; `None` where no delivery days are written.
    pub delivery: Option<NextDelivery>,
    /// The services that what is in hand and what is ordered are to last for.
    pub services: Vec<Date>,
    /// Those of them that the delivery is there for: its packs are for these.
    pub after: Vec<Date>,
    /// What to order; what is not known first.
    pub lines: Vec<OrderLine>,
    /// What it costs, where every line's price and number are known.
    pub cost: Option<Money>,
}

/// The sheet.
#[derive(Debug, Clone, PartialEq)]
pub struct OrderSheet {
    /// When this was.
    pub at: Timestamp,
    /// By supplier, whose order is due first before others.
    pub suppliers: Vec<SupplierOrder>,
}

/// The list of goods on record.
///
/// # Errors
/// [`OrderError::NoGoods`] and [`OrderError::Goods`].
pub fn goods_on_record(store: &Store) -> Result<GoodsList, OrderError> {
    let text = store.goods()?.ok_or(OrderError::NoGoods)?;
    Ok(GoodsList::from_toml(&text)?)
}

impl OrderSheet {
    /// Works it out from what is on record.
    ///
    /// # Errors
    /// [`OrderError`].
    pub fn of(
        store: &Store,
        question: &OrderQuestion<'_>,
        limits: &Limits,
    ) -> Result<Self, OrderError> {
        let list = goods_on_record(store)?;
        let mut names: Vec<&str> = Vec::new();
        for goods in &list.goods {
            let known = |it: &&str| it.to_lowercase() == goods.supplier.to_lowercase();
            if !names.iter().any(known) {
                names.push(&goods.supplier);
            }
        }
        if let Some(wanted) = question.supplier {
            let known = names.join(", ");
            names.retain(|name| name.to_lowercase() == wanted.trim().to_lowercase());
            if names.is_empty() {
                let wanted = wanted.to_owned();
                return Err(OrderError::NoSuchSupplier { wanted, known });
            }
        }
        let sheet = Kitchen::read(store, question, limits)?;
        let suppliers = names.iter().map(|name| sheet.supplier(&list, name));
        let mut suppliers = suppliers.collect::<Result<Vec<_>, _>>()?;
        suppliers.sort_by_key(|it| {
            let by = it.delivery.and_then(|delivery| delivery.order_by);
            (by.is_none(), by)
        });
        Ok(Self {
            at: question.now,
            suppliers,
        })
    }
}

/// What is on record that every line is made from.
struct Kitchen<'a> {
    store: &'a Store,
    question: &'a OrderQuestion<'a>,
    today: Date,
    /// The services to come, in order.
    boards: Vec<DayBoard>,
    supplied: Vec<Supplied>,
    /// When services of the last weeks opened.
    opened: Vec<Timestamp>,
}

/// The services of one supplier's order.
struct Window {
    all: Vec<Date>,
    after: Vec<Date>,
}

impl<'a> Kitchen<'a> {
    fn read(
        store: &'a Store,
        question: &'a OrderQuestion<'a>,
        limits: &Limits,
    ) -> Result<Self, OrderError> {
        let calendar = store.service_calendar(question.zone.clone())?;
        let today = calendar.day_of(question.now);
        let asked = PrepQuestion {
            day: today,
            menu: None,
            covers: None,
            days_ahead: MOST_AHEAD,
            what_if: &[],
            now: question.now,
            zone: question.zone,
            language: question.language,
            unwanted: None,
        };
        let mut record = OnRecord::read(store, &asked)?;
        let (mut boards, mut opened) = (Vec::new(), Vec::new());
        for ahead in -MOST_AHEAD..=MOST_AHEAD {
            let Ok(day) = today.checked_add(ahead.days()) else {
                continue;
            };
            let Some(board) = record.board(day)? else {
                continue;
            };
            // A service under way takes what it takes: what it still will nobody knows.
            if board.board.service <= question.now {
                opened.push(board.board.service);
            } else if ahead >= 0 {
                boards.push(board);
            }
        }
        if boards.is_empty() {
            return Err(PrepError::NoMenu(today).into());
        }
        let supplied = supply(&mut record, &mut boards, limits)?;
        Ok(Self {
            store,
            question,
            today,
            boards,
            supplied,
            opened,
        })
    }

    fn opens(&self, day: Date) -> Option<Time> {
        let board = self.boards.iter().find(|board| board.day == day)?;
        let opens = board.board.service;
        Some(opens.to_zoned_datetime(self.question.zone.clone()).time())
    }

    fn window(&self, supplier: Option<&Supplier>, delivery: Option<NextDelivery>) -> Window {
        let days = self.boards.iter().map(|board| board.day);
        let (Some(supplier), Some(delivery)) = (supplier, delivery) else {
            let first = self.boards.first().map_or(self.today, |board| board.day);
            let end = first.saturating_add(self.question.days.days());
            let all: Vec<Date> = days.filter(|day| *day < end).collect();
            return Window {
                after: all.clone(),
                all,
            };
        };
        let there_for = |of: Date, day: Date| {
            let there = self
                .opens(of)
                .is_none_or(|opens| supplier.comes_before(opens));
            if there { day >= of } else { day > of }
        };
        let all: Vec<Date> = days.filter(|day| !there_for(delivery.next, *day)).collect();
        Window {
            after: all
                .iter()
                .filter(|day| there_for(delivery.day, **day))
                .copied()
                .collect(),
            all,
        }
    }

    fn supplier(&self, list: &GoodsList, name: &str) -> Result<SupplierOrder, OrderError> {
        let supplier = list.supplier(name);
        let delivery =
            supplier.and_then(|it| it.next_delivery(self.question.now, self.question.zone));
        let window = self.window(supplier, delivery);
        let of_it = list
            .goods
            .iter()
            .filter(|goods| goods.supplier.to_lowercase() == name.to_lowercase());
        let lines = of_it.map(|goods| self.line(goods, supplier, &window));
        let mut lines = lines.collect::<Result<Vec<_>, _>>()?;
        lines.sort_by_key(|line| line.packs.number().is_some());
        let cost = lines
            .iter()
            .map(|line| line.cost)
            .reduce(|all, more| all?.plus(more?))
            .flatten();
        Ok(SupplierOrder {
            name: name.to_owned(),
            delivery,
            services: window.all,
            after: window.after,
            lines,
            cost,
        })
    }

    fn line(
        &self,
        goods: &Goods,
        supplier: Option<&Supplier>,
        window: &Window,
    ) -> Result<OrderLine, OrderError> {
        let told = self.store.told_goods(&goods.name)?;
        let comes = |day: Date| {
            let at = supplier.and_then(|it| it.at).unwrap_or(Time::midnight());
            let at = self.question.zone.to_timestamp(day.to_datetime(at));
            at.unwrap_or(self.question.now)
        };
        let counted = goods.in_hand(&told, &self.opened, comes, self.question.now);
        let mut missing = Vec::new();
        let measure = goods.pack.measure();
        let nothing = GoodsNeed::exactly(Amount::new(measure, 0.0));
        let (mut all, mut after, mut before) = (nothing, nothing, nothing);
        let early: Vec<Date> = window
            .all
            .iter()
            .filter(|day| !window.after.contains(day))
            .copied()
            .collect();
        let mut uses = Vec::new();
        for used in &goods.uses {
            let (of_all, one) = self.used(goods, used, &window.all, true, &mut missing)?;
            all = all.and(of_all);
            uses.push(one);
            // What is ready goes to the services before the delivery first.
            let first = early.is_empty();
            let mut told = Vec::new();
            after = after.and(self.used(goods, used, &window.after, first, &mut told)?.0);
            before = before.and(self.used(goods, used, &early, true, &mut told)?.0);
        }
        let open = uses
            .iter()
            .fold(Mass::ZERO, |sum, it| sum + it.open.as_bought);
        let open = goods.in_packs_measure(Amount::of_mass(open));
        let with_open = |amount: Amount| {
            let open = open.map_or(0.0, Amount::number);
            Amount::new(amount.measure(), amount.number() + open)
        };
        let in_hand = InHand {
            least: with_open(counted.in_hand.least),
            most: counted.in_hand.most.map(with_open),
        };
        let needs_any = all.enough.is_none_or(|enough| enough.number() > 0.0);
        let in_hand_known = match (counted.in_hand.most, counted.services_since) {
            (None, _) => Some(Missing::NotCounted),
            (Some(most), since) if most != counted.in_hand.least => Some(Missing::OldCount(since)),
            _ => None,
        };
        missing.extend(in_hand_known.filter(|_| needs_any));
        // Several uses may lack the same.
        let mut said = Vec::new();
        for it in missing {
            if !said.contains(&it) {
                said.push(it);
            }
        }
        let packs = packs(goods.pack, &all, &after, in_hand);
        let cost = goods.price.zip(packs.number()).map(|(price, packs)| {
            let millionths = price.millionths().saturating_mul(i64::from(packs));
            Money::from_millionths(millionths, price.currency())
        });
        let on_the_way = goods.pack.times(f64::from(counted.on_the_way)).number();
        let runs_out = before
            .likely
            .zip(in_hand.most)
            .is_some_and(|(likely, most)| {
                !early.is_empty() && likely.number() > most.number() - on_the_way
            });
        Ok(OrderLine {
            goods: goods.clone(),
            need: all,
            after,
            counted,
            orders: self.store.placed_orders(Some(&goods.name))?,
            in_hand,
            uses,
            packs,
            cost,
            runs_out,
            missing: said,
        })
    }

    /// What one use asks for at some services. `ready`: what is ready is theirs.
    fn used(
        &self,
        goods: &Goods,
        used: &UsedFor,
        days: &[Date],
        ready: bool,
        missing: &mut Vec<Missing>,
    ) -> Result<(GoodsNeed, Use), OrderError> {
        let mut one = Use {
            of: used.clone(),
            wanted: None,
            nights: 0,
            ready: 0,
            portion: None,
            open: Stock::NONE,
            yields: None,
        };
        let need = match used {
            UsedFor::Batch { preparation, takes } => {
                self.batches(preparation, *takes, days, &mut one, missing)
            }
            UsedFor::Cover { takes } => self.covers(*takes, days, &mut one, missing)?,
            UsedFor::Dish { dish, takes } => {
                self.dish(dish, *takes, days, ready, &mut one, missing)?
            }
        };
        let measure = goods.pack.measure();
        let in_packs = |need: GoodsNeed| {
            need.each(|amount| {
                let said = goods.in_packs_measure(amount);
                said.unwrap_or(Amount::new(measure, 0.0))
            })
        };
        let need = need.map_or(GoodsNeed::not_known(measure), in_packs);
        Ok((need, one))
    }

    fn batches(
        &self,
        preparation: &str,
        takes: Amount,
        days: &[Date],
        one: &mut Use,
        missing: &mut Vec<Missing>,
    ) -> Option<GoodsNeed> {
        let same = |name: &str| name.to_lowercase() == preparation.to_lowercase();
        let of_days = || self.boards.iter().filter(|board| days.contains(&board.day));
        let mut batches = 0u32;
        let mut known = true;
        let mut fed = self
            .supplied
            .iter()
            .filter(|it| days.contains(&it.supply.day) && same(&it.preparation))
            .peekable();
        if fed.peek().is_none() {
            // Made anew for each service that has it.
            batches = of_days()
                .filter(|day| day.board.steps().any(|(_, step)| same(&step.preparation)))
                .map(|_| 1)
                .sum();
            if batches == 0 && !days.is_empty() {
                missing.push(Missing::OffMenu(preparation.to_owned()));
            }
        }
        for fed in fed {
            match fed.supply.make {
                Some((_, WhyMade::Begun)) | None => {}
                // What is begun has what it takes.
                Some((_, WhyMade::Short)) => {
                    batches = batches.saturating_add(fed.supply.to_begin());
                }
                Some(_) => {
                    known = false;
                    let words = remedy(self.question.language, fed).map(Missing::Batch);
                    missing.extend(words);
                }
            }
        }
        let amount = takes.times(f64::from(batches));
        if known {
            one.wanted = Some((f64::from(batches), None));
            return Some(GoodsNeed::exactly(amount));
        }
        Some(GoodsNeed {
            likely: None,
            enough: None,
            at_least: amount,
        })
    }

    fn covers(
        &self,
        takes: Amount,
        days: &[Date],
        one: &mut Use,
        missing: &mut Vec<Missing>,
    ) -> Result<Option<GoodsNeed>, OrderError> {
        let mut asked = Vec::new();
        for day in days {
            if let Some(covers) = self.store.covers(*day)? {
                asked.push(Asked::Exactly(covers));
                continue;
            }
            let before = covers_of_weekday(self.store, *day, (*day).min(self.today))?;
            if before.len() < 2 {
                missing.push(Missing::Covers(*day));
                return Ok(None);
            }
            one.nights = one.nights.max(before.len());
            // A share of one guest each: the figures themselves.
            let past = before.iter().map(|(_, covers)| PastService {
                covers: 1,
                portions: *covers,
            });
            group(&mut asked, past.collect(), 1);
        }
        let need = DishNeed {
            asked,
            ready: 0,
            each: Each::Takes(takes),
        };
        Ok(told_portions(&need, one).ok())
    }

    fn dish(
        &self,
        dish: &str,
        takes: Option<Amount>,
        days: &[Date],
        ready: bool,
        one: &mut Use,
        missing: &mut Vec<Missing>,
    ) -> Result<Option<GoodsNeed>, OrderError> {
        let (store, zone) = (self.store, self.question.zone);
        let known = DishName::new("dish", dish)
            .ok()
            .map(|name| store.known_dish(&name));
        let known = match known {
            Some(Ok(known)) => known,
            None | Some(Err(StoreError::UnknownDish { .. })) => {
                missing.push(Missing::Dish(dish.to_owned()));
                return Ok(None);
            }
            Some(Err(error)) => return Err(error.into()),
        };
        let on_menu = |day: &&Date| {
            let board = self.boards.iter().find(|board| board.day == **day);
            board.is_some_and(|board| has_dish(board, dish))
        };
        let served: Vec<Date> = days.iter().filter(on_menu).copied().collect();
        let zero = takes.unwrap_or(Amount::of_mass(Mass::ZERO)).times(0.0);
        if served.is_empty() {
            if !days.is_empty() {
                missing.push(Missing::OffMenu(dish.to_owned()));
            }
            return Ok(Some(GoodsNeed::exactly(zero)));
        }
        let mut asked = Vec::new();
        let before = self.today;
        for day in &served {
            let (covers, past) = match store.covers(*day)? {
                Some(covers) => (covers, past_services(store, &known.name, before, zone)?),
                None => match past_of_weekday(store, &known.name, *day, before, zone)? {
                    Some(known) => (known.covers, known.past),
                    None => {
                        missing.push(Missing::Covers(*day));
                        return Ok(None);
                    }
                },
            };
            match past.len() {
                0 => {
                    missing.push(Missing::Past(dish.to_owned()));
                    return Ok(None);
                }
                1 => missing.push(Missing::OneNight(dish.to_owned())),
                few if few < ENOUGH_NIGHTS => {
                    let few = Missing::FewNights(dish.to_owned(), few);
                    if !missing.contains(&few) {
                        missing.push(few);
                    }
                }
                _ => {}
            }
            one.nights = one.nights.max(past.len());
            group(&mut asked, past, covers);
        }
        one.open = open_stock(store, &known.name)?;
        if ready {
            one.ready = self.ready(&known.name, &served)?;
        }
        let each = match takes {
            Some(takes) => Each::Takes(takes),
            None => {
                let weighed = portion_as_served(store, &known.name, before, zone)?;
                let portion = weighed.unwrap_or((known.goal.target(), 0));
                one.portion = Some(portion);
                let purchases = recent_purchases(store, &known.name)?;
                match purchases.len() {
                    0 => missing.push(Missing::Yield(dish.to_owned())),
                    1 => missing.push(Missing::OneYield(dish.to_owned())),
                    _ => {}
                }
                let yields = KnownYield::of_purchases(&purchases).ok().flatten();
                one.yields = yields.map(|yields| (yields, purchases.len()));
                Each::Served {
                    portion: portion.0,
                    ready: if ready { one.open.ready } else { Mass::ZERO },
                    purchases,
                }
            }
        };
        let need = DishNeed {
            asked,
            ready: one.ready,
            each,
        };
        let Ok(need) = told_portions(&need, one) else {
            missing.push(Missing::Past(dish.to_owned()));
            return Ok(None);
        };
        if need.enough.is_some_and(|enough| enough.number() == 0.0) {
            // What is not needed hangs on no yield.
            missing.retain(|it| !matches!(it, Missing::Yield(_) | Missing::OneYield(_)));
        }
        Ok(Some(need))
    }

    /// Portions of a dish that are ready: of batches in stock, else what the service before left.
    fn ready(&self, dish: &DishName, served: &[Date]) -> Result<u32, OrderError> {
        let of_it = |it: &&Supplied| it.batch.dish.to_lowercase() == dish.as_str().to_lowercase();
        if let Some(fed) = self.supplied.iter().find(of_it) {
            return Ok(fed.supply.in_stock());
        }
        let first = served.first().copied().unwrap_or(self.today);
        let before = first.saturating_sub(1.day());
        Ok(self.store.left_over(before, dish)?.unwrap_or(0))
    }
}

/// Adds a service; one that the same nights foretell belongs to the same sample.
fn group(asked: &mut Vec<Asked>, past: Vec<PastService>, covers: u32) {
    for known in asked.iter_mut() {
        if let Asked::AsBefore {
            past: nights,
            covers: others,
        } = known
            && *nights == past
        {
            others.push(covers);
            return;
        }
    }
    asked.push(Asked::AsBefore {
        past,
        covers: vec![covers],
    });
}

/// What a dish asks for, with how many portions that is.
fn told_portions(
    need: &DishNeed,
    one: &mut Use,
) -> Result<GoodsNeed, evenhand_kitchen::prep::ParError> {
    let portions = DishNeed {
        asked: need.asked.clone(),
        ready: 0,
        each: Each::Takes(Amount::new(evenhand_kitchen::units::Measure::Pieces, 1.0)),
    };
    let portions = portions.need()?;
    let likely = portions.likely.map(Amount::number);
    one.wanted = likely.map(|likely| (likely, portions.enough.map(Amount::number)));
    need.need()
}

/// Whether a day's menu has a dish: under its own name, as what a batch becomes, or as what
/// portioning ticks.
fn has_dish(day: &DayBoard, dish: &str) -> bool {
    let same = |name: &str| name.to_lowercase() == dish.to_lowercase();
    day.board.batches().any(|(_, batch)| same(&batch.dish))
        || day.board.steps().any(|(step, known)| {
            same(&known.preparation)
                || matches!(
                    day.board.ticker(step),
                    Some(TickedBy::Portions { dish, .. }) if same(dish)
                )
        })
}
