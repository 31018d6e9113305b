//! What feeds each service to come: the stock of batches on record, or a new batch.

use super::served::past_services;
use super::{PrepError, PrepQuestion};
use crate::times;
use evenhand_kitchen::dish::DishName;
use evenhand_kitchen::limits::{Demand, Limit, Limits};
use evenhand_kitchen::prep::{
    BatchOf, BatchStock, Board, Coming, Event, FileError, Happened, Keeping, MOST_BATCHES,
    MadeBatch, NeedNotKnown, Needs, OfPreparation, Own, SeenBatch, SeenRun, Step, Supply, Taken,
    TakenBy, WhyMade, batch_name, portions_ready, serves_on,
};
use evenhand_kitchen::service::ServiceCalendar;
use evenhand_store::{Store, StoreError};
use jiff::civil::Date;
use jiff::{SignedDuration, Timestamp, ToSpan};
use std::collections::BTreeMap;

/// The name of the limit on how many days food is kept.
const DATE_MARKING: &str = "date-marking";

/// Services further ahead than this are planned without regard to stock.
const MOST_AHEAD: i32 = 40;

/// The limit on how many days food is kept that was made here, with its days.
#[must_use]
pub fn date_marking(limits: &Limits) -> Option<(u32, &Limit)> {
    let limit = limits.named(DATE_MARKING)?;
    match limit.demand {
        Demand::Days { days, .. } => Some((days, limit)),
        _ => None,
    }
}

/// How one preparation comes to one service.
#[derive(Debug, Clone)]
pub struct Supplied {
    /// The preparation, as the menu of the day calls it.
    pub preparation: String,
    /// Its name on the board, with the service's day where that is another.
    pub on_board: String,
    /// A batch of it, with as many portions as the last ones really came to.
    pub batch: BatchOf,
    /// Over how many batches on record that is; none: as many as the menu says.
    pub batches_on_record: usize,
    /// What is in stock of it now.
    pub stock: BatchStock,
    /// What feeds the service.
    pub supply: Supply,
}

impl Supplied {
    /// Whether the service is fed from stock and none of its own steps is begun.
    #[must_use]
    pub fn is_fed(&self) -> bool {
        self.supply.make.is_none() && self.supply.own.finished == 0
    }

    /// How many of its own batches the plan holds: those made and those to be made.
    fn batches(&self) -> u32 {
        let open = self.supply.make.map_or(0, |(batches, _)| batches);
        open.saturating_add(self.supply.own.finished)
    }

    /// Batches to be made for which the plan has no steps, because they are too many.
    #[must_use]
    pub fn beyond_the_plan(&self) -> u32 {
        self.batches().saturating_sub(MOST_BATCHES)
    }

    /// Whether it must be told why a batch is made, or that one does not suffice: its steps
    /// alone do not say so.
    #[must_use]
    pub fn is_told(&self) -> bool {
        self.supply.short > 0
            || self.beyond_the_plan() > 0
            || match self.supply.make {
                Some((batches, WhyMade::Short)) => batches > 1,
                Some((_, why)) => !matches!(why, WhyMade::Begun),
                None => false,
            }
    }
}

/// The board of one service, as far as it has come.
pub(super) struct DayBoard {
    pub day: Date,
    /// What stands before the names of its preparations.
    pub label: Option<String>,
    pub board: Board,
    /// The same before anything happened.
    pub alone: Board,
    pub events: Vec<Event>,
    /// Told of, and on no menu.
    pub unknown: Vec<String>,
    menu: String,
}

/// What is on record that boards are made from.
pub(super) struct OnRecord<'a> {
    pub store: &'a Store,
    pub question: &'a PrepQuestion<'a>,
    pub calendar: ServiceCalendar,
    runs: Vec<SeenRun>,
    batches: Vec<SeenBatch>,
}

/// A board reaches back as far as its longest rests do: a month.
const A_MONTH: i32 = 31;

impl<'a> OnRecord<'a> {
    pub fn read(store: &'a Store, question: &'a PrepQuestion<'a>) -> Result<Self, PrepError> {
        let mut record = Self {
            store,
            question,
            calendar: store.service_calendar(question.zone.clone())?,
            runs: Vec::new(),
            batches: Vec::new(),
        };
        record.look_back(A_MONTH)?;
        Ok(record)
    }

    fn look_back(&mut self, days: i32) -> Result<(), PrepError> {
        let back = SignedDuration::from_hours(24 * i64::from(days));
        let since = self
            .question
            .now
            .checked_sub(back)
            .unwrap_or(Timestamp::MIN);
        self.runs = self.store.seen_runs(since)?;
        self.batches = self.store.seen_batches(since)?;
        Ok(())
    }

    pub fn today(&self) -> Date {
        self.calendar.day_of(self.question.now)
    }

    /// The menu for a day; of one that is past, as it stood then.
    fn menu(&self, day: Date) -> Result<Option<String>, PrepError> {
        if let Some(menu) = self.question.menu {
            return Ok(Some(menu.to_owned()));
        }
        Ok(if day < self.today() {
            self.store.menu_at(day, self.calendar.span(day).1)?
        } else {
            self.store.menu(day)?
        })
    }

    /// The board of a day, where there is service by its menu.
    pub fn board(&self, day: Date) -> Result<Option<DayBoard>, PrepError> {
        self.board_if(day, true)
    }

    /// The board of a day; `as_served`: only where there is service by its menu.
    pub fn board_if(&self, day: Date, as_served: bool) -> Result<Option<DayBoard>, PrepError> {
        let Some(menu) = self.menu(day)? else {
            return Ok(None);
        };
        let wrong = |error: FileError| PrepError::Menu { day, error };
        if as_served && !serves_on(&menu, day).map_err(wrong)? {
            return Ok(None);
        }
        self.built(day, menu, &BTreeMap::new(), "").map(Some)
    }

    /// The board of a day with the batch of a name on it: `necks (2)`.
    pub fn board_of(&self, day: Date, batch: &str) -> Result<Option<DayBoard>, PrepError> {
        let menu = self.menu(day)?;
        menu.map(|menu| self.built(day, menu, &BTreeMap::new(), batch))
            .transpose()
    }

    /// The board of a day by its menu, with so many batches of preparations, those that were told
    /// of, and the one that is named.
    fn built(
        &self,
        day: Date,
        menu: String,
        batches: &BTreeMap<String, u32>,
        named: &str,
    ) -> Result<DayBoard, PrepError> {
        let wrong = |error: FileError| PrepError::Menu { day, error };
        let mut board = Board::from_menu(&menu, day, self.question.zone.clone()).map_err(wrong)?;
        for (preparation, batches) in batches {
            board.make_batches(preparation, *batches);
        }
        board.add_batch_named(named);
        let told = self.store.told_steps(day)?;
        for event in &told {
            board.add_batch_named(&event.step);
        }
        if day < self.today() {
            self.add_batches_seen(&mut board);
        }
        let alone = board.clone();
        let mut events = board.sightings(&self.runs, &self.batches);
        events.extend(told);
        let unknown = board.replay(&events);
        Ok(DayBoard {
            day,
            label: (day != self.question.day).then(|| times::weekday(self.question.language, day)),
            board,
            alone,
            events,
            unknown,
            menu,
        })
    }

    /// Gives a board as many batches as are made for its day; whether it had fewer.
    fn give_batches(&self, day: &mut DayBoard, supplied: &[Supplied]) -> Result<bool, PrepError> {
        let wanted: BTreeMap<String, u32> = day
            .board
            .batches()
            .map(|(name, _)| {
                let made = supplied
                    .iter()
                    .filter(|fed| fed.supply.day == day.day && fed.preparation == name)
                    .map(|fed| fed.batches().min(MOST_BATCHES));
                let there = day.board.batches_of(name);
                (name.to_owned(), made.fold(there, u32::max))
            })
            .collect();
        let more = |(name, batches): (&String, &u32)| *batches > day.board.batches_of(name);
        if !wanted.iter().any(more) {
            return Ok(false);
        }
        *day = self.built(day.day, day.menu.clone(), &wanted, "")?;
        Ok(true)
    }

    /// How many batches a past service was to have is not on record: those that the bench saw
    /// finished are there.
    fn add_batches_seen(&self, board: &mut Board) {
        let ticked = |name: &str| {
            let of_it = |(step, known): (_, &Step)| {
                known.preparation == name && board.ticker(step).is_some()
            };
            board.steps().any(of_it)
        };
        let names: Vec<String> = board
            .batches()
            .map(|(name, _)| name.to_owned())
            .filter(|name| ticked(name))
            .collect();
        for name in names {
            for nth in board.batches_of(&name) + 1..=MOST_BATCHES {
                let mut more = board.clone();
                more.make_batches(&name, nth);
                let mut seen = more.clone();
                seen.replay(&more.sightings(&self.runs, &self.batches));
                let last = seen.of_preparation(&batch_name(&name, nth));
                if !matches!(last, OfPreparation::Finished { .. }) {
                    break;
                }
                *board = more;
            }
        }
    }
}

impl DayBoard {
    /// The name of something of this day on the board of several.
    pub fn full(&self, name: &str) -> String {
        match &self.label {
            None => name.to_owned(),
            Some(label) => format!("{label} {name}"),
        }
    }

    /// Whether a step is of a preparation of this day.
    fn is_of(&self, step: &str, preparation: &str) -> bool {
        self.board
            .named(step)
            .and_then(|step| self.board.step(step).ok())
            .is_some_and(|step| step.preparation == preparation)
    }

    /// When what was left of a batch of this day was told to be gone.
    fn gone(&self, batch: &str, ready: Timestamp) -> Option<Timestamp> {
        let of_it = |event: &&Event| event.what == Happened::Gone && self.is_of(&event.step, batch);
        let gone = self.events.iter().filter(of_it).map(|event| event.at);
        gone.max().filter(|gone| *gone >= ready)
    }

    /// How far the batches of a preparation have come.
    fn own(&self, preparation: &str) -> Own {
        let mut own = Own::default();
        for name in self.board.batch_names(preparation) {
            match self.board.of_preparation(&name) {
                OfPreparation::Open => {}
                OfPreparation::Begun { .. } => own.begun += 1,
                OfPreparation::Finished { .. } => own.finished += 1,
            }
        }
        own
    }

    /// Batches of a preparation that are not begun and beyond those to be made.
    pub fn not_wanted(&self, fed: &Supplied) -> Vec<String> {
        let open = fed.supply.to_begin() as usize;
        self.board
            .batch_names(&fed.preparation)
            .filter(|name| self.board.of_preparation(name) == OfPreparation::Open)
            .skip(open)
            .collect()
    }
}

/// A batch that was finished, and how many of its portions were captured where portioning is a
/// step of it.
struct Made {
    batch: MadeBatch,
    captured: Option<u32>,
}

/// What feeds the services of boards to come, from today on. `boards` are those asked for, in
/// order of their days; each gets as many batches of a preparation as are made for it.
pub(super) fn supply(
    record: &mut OnRecord<'_>,
    boards: &mut [DayBoard],
    limits: &Limits,
) -> Result<Vec<Supplied>, PrepError> {
    let batches: BTreeMap<String, BatchOf> = boards
        .iter()
        .rev()
        .flat_map(|day| day.board.batches())
        .map(|(name, batch)| (name.to_owned(), batch.clone()))
        .collect();
    let (Some(last), false) = (boards.last().map(|day| day.day), batches.is_empty()) else {
        return Ok(Vec::new());
    };
    let today = record.today();
    if last > today.saturating_add(MOST_AHEAD.days()) {
        return Ok(Vec::new());
    }
    let back = look_back(&batches);
    if back > A_MONTH {
        record.look_back(back)?;
    }
    // Those before, which tell the stock, and those between today and the day asked for.
    let mut days = Vec::new();
    let mut day = today.saturating_sub(back.days());
    while day <= last {
        if !boards.iter().any(|known| known.day == day) {
            days.extend(record.board(day)?);
        }
        day = day.saturating_add(1.day());
    }
    let asked: Vec<Date> = boards.iter().map(|day| day.day).collect();
    let mark = date_marking(limits).map(|(days, _)| days);
    // What the bench saw of a second batch is known once the board has one. Each time some board
    // gets a batch more, of a few at most.
    loop {
        let mut all: Vec<&DayBoard> = days.iter().chain(boards.iter()).collect();
        all.sort_by_key(|day| day.day);
        let mut supplied = Vec::new();
        for (name, batch) in &batches {
            let one = Preparation {
                name,
                batch,
                mark: mark.filter(|_| batch.date_marked),
                dish: DishName::new("dish", &batch.dish).ok(),
                record,
                limit: mark,
            };
            supplied.extend(one.supply(&all)?);
        }
        let mut more = false;
        for day in days.iter_mut().chain(boards.iter_mut()) {
            more |= record.give_batches(day, &supplied)?;
        }
        if !more {
            supplied.retain(|fed| asked.contains(&fed.supply.day));
            supplied.sort_by(|a, b| {
                (a.supply.day, &a.preparation).cmp(&(b.supply.day, &b.preparation))
            });
            return Ok(supplied);
        }
    }
}

/// How many days back a batch may have been made that still tells something.
fn look_back(batches: &BTreeMap<String, BatchOf>) -> i32 {
    let keeps = batches
        .values()
        .filter_map(|batch| batch.keeps.as_ref())
        .map(Keeping::lasts)
        .max()
        .unwrap_or(SignedDuration::ZERO);
    i32::try_from(keeps.as_hours() / 24).unwrap_or(0) + 9
}

/// So many of the last batches tell what a batch comes to, and no fewer than
const BATCHES_LOOKED_AT: usize = 6;
/// these.
const LEAST_BATCHES: usize = 2;

/// How many portions a batch comes to by those that were captured, on average and in whole ones,
/// and over how many; `None` with too few to tell.
fn portions_of_batches(made: &[Made]) -> Option<(u32, usize)> {
    let mut known: Vec<(Timestamp, u32)> = made
        .iter()
        .filter_map(|one| Some((one.batch.ready, one.captured?)))
        .collect();
    known.sort_unstable();
    let last = &known[known.len().saturating_sub(BATCHES_LOOKED_AT)..];
    let count = u32::try_from(last.len()).ok()?;
    if last.len() < LEAST_BATCHES {
        return None;
    }
    let all = last.iter().map(|(_, portions)| *portions);
    Some((
        (all.fold(0, u32::saturating_add) / count).max(1),
        last.len(),
    ))
}

struct Preparation<'a> {
    name: &'a str,
    batch: &'a BatchOf,
    /// The most days that date marking allows, where it applies.
    mark: Option<u32>,
    dish: Option<DishName>,
    record: &'a OnRecord<'a>,
    /// The most days that date marking allows.
    limit: Option<u32>,
}

impl Preparation<'_> {
    fn supply(&self, all: &[&DayBoard]) -> Result<Vec<Supplied>, PrepError> {
        let now = self.record.question.now;
        let mut made: Vec<Made> = Vec::new();
        let mut taken = Vec::new();
        let mut coming = Vec::new();
        for day in all {
            let Some((_, of_day)) = day.board.batches().find(|(name, _)| *name == self.name) else {
                // A batch that the menu of then did not call one is one by the menu of now.
                if day
                    .board
                    .steps()
                    .any(|(_, step)| step.preparation == self.name)
                {
                    made.extend(self.made(day, self.batch, false));
                    taken.extend(self.taken(day)?);
                }
                continue;
            };
            made.extend(self.made(day, of_day, of_day.portioned_ahead));
            match self.taken(day)? {
                Some(known) => taken.push(known),
                None => coming.push((*day, of_day, self.of(of_day).coming(day)?)),
            }
        }
        for one in &mut made {
            one.batch.use_by = self.use_by(one.batch.ready);
        }
        let came_to = portions_of_batches(&made);
        let made: Vec<MadeBatch> = made.into_iter().map(|one| one.batch).collect();
        let stock = BatchStock::at(&made, &taken, now);
        let mut left = stock.clone();
        let mut supplied = Vec::new();
        for (day, of_day, service) in &coming {
            // What is in stock carries over to another menu; what a batch makes is that menu's,
            // or as many as the last ones came to.
            let mut batch = (*of_day).clone();
            let on_record = came_to.filter(|_| batch.portioned_ahead);
            if let Some((portions, _)) = on_record {
                batch.portions = portions;
            }
            let supply = batch.feed(&mut left, service);
            supplied.push(Supplied {
                preparation: self.name.to_owned(),
                on_board: day.full(self.name),
                batch,
                batches_on_record: on_record.map_or(0, |(_, batches)| batches),
                stock: stock.clone(),
                supply,
            });
        }
        Ok(supplied)
    }

    /// The same preparation by another day's menu.
    fn of<'b>(&'b self, batch: &'b BatchOf) -> Preparation<'b> {
        Preparation {
            name: self.name,
            batch,
            mark: self.mark_of(batch),
            dish: DishName::new("dish", &batch.dish).ok(),
            record: self.record,
            limit: self.limit,
        }
    }

    fn mark_of(&self, batch: &BatchOf) -> Option<u32> {
        self.limit.filter(|_| batch.date_marked)
    }

    /// The batches of a day that are finished, each with how many portions it came to: those that
    /// were captured where portioning is a step of it, else as many as the menu says.
    fn made(&self, day: &DayBoard, batch: &BatchOf, portioned_ahead: bool) -> Vec<Made> {
        let mut finished: Vec<(Timestamp, Timestamp, String)> = day
            .board
            .batch_names(self.name)
            .filter_map(|name| match day.board.of_preparation(&name) {
                OfPreparation::Finished { since, ready } => Some((ready, since, name)),
                OfPreparation::Open | OfPreparation::Begun { .. } => None,
            })
            .collect();
        finished.sort();
        // What is done tells no more when it was begun: that was told or seen.
        for (_, since, name) in &mut finished {
            let of_it = day
                .events
                .iter()
                .filter(|event| matches!(event.what, Happened::Begun | Happened::Done))
                .filter(|event| day.is_of(&event.step, name));
            *since = of_it.map(|event| event.at).fold(*since, Timestamp::min);
        }
        let mut open: Vec<Timestamp> = Vec::new();
        let count = finished.len();
        let of_batches = |run: &&SeenRun| {
            let within = |at: &Timestamp| {
                let of_one = |(ready, since, _): &(Timestamp, Timestamp, String)| {
                    (*since..=*ready).contains(at)
                };
                finished.iter().any(of_one)
            };
            run.dish.eq_ignore_ascii_case(&batch.dish) && run.portions.iter().any(within)
        };
        if portioned_ahead {
            // A run that goes on when as many are weighed as the menu wants is of the same batch.
            let runs = self.record.runs.iter().filter(of_batches);
            open.extend(runs.flat_map(|run| &run.portions));
            open.retain(|at| *at <= self.record.question.now);
            open.sort_unstable();
        }
        let mut made = Vec::with_capacity(count);
        for (nth, (ready, since, name)) in finished.iter().enumerate() {
            // Each has what was captured until it was ready and is of none before it; the last has
            // what comes after, too.
            open.retain(|at| at >= since);
            let own = if nth + 1 == count {
                open.len()
            } else {
                open.partition_point(|at| at <= ready)
            };
            open.drain(..own);
            let captured = u32::try_from(own).ok().filter(|captured| *captured > 0);
            made.push(Made {
                batch: MadeBatch {
                    of: day.day,
                    ready: *ready,
                    portions: captured.unwrap_or(batch.portions),
                    use_by: None,
                    gone: day.gone(name, *ready),
                },
                captured,
            });
        }
        made
    }

    fn use_by(&self, ready: Timestamp) -> Option<Timestamp> {
        let zone = self.record.question.zone;
        let keeps = self.batch.keeps.as_ref()?;
        Some(keeps.use_by(ready, self.mark, zone).at)
    }

    /// Portions of the dish that were captured on a service's day.
    fn captured(&self, day: Date) -> u32 {
        let (from, to) = self.record.calendar.span(day);
        let count = self
            .portions()
            .filter(|at| (from..to).contains(at) && *at <= self.record.question.now)
            .count();
        u32::try_from(count).unwrap_or(u32::MAX)
    }

    fn portions(&self) -> impl Iterator<Item = Timestamp> {
        let of_dish = |run: &&SeenRun| run.dish.eq_ignore_ascii_case(&self.batch.dish);
        let runs = self.record.runs.iter().filter(of_dish);
        runs.flat_map(|run| &run.portions).copied()
    }

    fn left(&self, day: Date) -> Result<Option<u32>, StoreError> {
        match &self.dish {
            Some(dish) => self.record.store.left_over(day, dish),
            None => Ok(None),
        }
    }

    /// Portions of the dish that were counted out to guests in a service.
    fn counted_out(&self, day: Date) -> Result<u32, StoreError> {
        let Some(dish) = &self.dish else {
            return Ok(0);
        };
        let out = self.record.store.gone_out(day)?;
        let of_it = out.iter().filter(|(name, _)| name == dish);
        let out: i64 = of_it.map(|(_, portions)| portions).sum();
        Ok(u32::try_from(out.max(0)).unwrap_or(u32::MAX))
    }

    /// What a service took; `None` where it is not over.
    fn taken(&self, day: &DayBoard) -> Result<Option<TakenBy>, PrepError> {
        let today = self.record.today();
        let left = if day.day > today {
            None
        } else {
            self.left(day.day)?
        };
        if day.day >= today && left.is_none() {
            return Ok(None);
        }
        // Where the dish is portioned on the scale, portions left were captured before.
        let weighed = !self.batch.portioned_ahead && self.portions().next().is_some();
        let captured = self.captured(day.day);
        let taken = match left {
            _ if weighed && (captured > 0 || left.is_some()) => {
                let before = self.left(day.day.saturating_sub(1.day()))?.unwrap_or(0);
                let all = captured.saturating_add(before);
                Taken::Portions(all.saturating_sub(left.unwrap_or(0)))
            }
            Some(left) if !weighed => Taken::Left(left),
            // What was counted out, where nobody said what was left.
            None if !weighed => match self.counted_out(day.day)? {
                0 => Taken::NotKnown,
                out => Taken::Portions(out),
            },
            _ => Taken::NotKnown,
        };
        let (_, ends) = self.record.calendar.span(day.day);
        let over = day.board.closing().unwrap_or(ends).min(ends);
        Ok(Some(TakenBy {
            day: day.day,
            opened: day.board.service,
            over: over.min(self.record.question.now),
            taken,
        }))
    }

    fn coming(&self, day: &DayBoard) -> Result<Coming, PrepError> {
        let question = self.record.question;
        let begins = day.day.to_zoned_datetime(question.zone.clone());
        let begins = begins.map_or(day.board.service, |begins| begins.timestamp());
        let captured = if self.batch.portioned_ahead {
            0
        } else {
            self.captured(day.day)
        };
        let taken = captured.max(self.counted_out(day.day)?);
        Ok(Coming {
            day: day.day,
            needed: self.needed(day.day)?.map(|needed| needed.max(taken)),
            until: day.board.closing().unwrap_or(day.board.service),
            own: day.own(self.name),
            use_by: self.use_by(begins),
        })
    }

    fn needed(&self, day: Date) -> Result<Result<u32, NeedNotKnown>, PrepError> {
        let question = self.record.question;
        let covers = match question.covers {
            Some(covers) if day == question.day => Some(covers),
            _ => self.record.store.covers(day)?,
        };
        let share = match (self.batch.needs, covers) {
            (Needs::Portions(portions), _) => return Ok(Ok(portions)),
            (_, None) => return Ok(Err(NeedNotKnown::Covers)),
            (Needs::PerCover(share), Some(covers)) => {
                // Covers fit u32 and a share is at most a hundred: this saturates.
                return Ok(Ok((share * f64::from(covers) - 1e-9).ceil() as u32));
            }
            (Needs::OnRecord, Some(covers)) => covers,
        };
        let Some(dish) = &self.dish else {
            return Ok(Err(NeedNotKnown::Dish));
        };
        match self.record.store.known_dish(dish) {
            Ok(_) => {}
            Err(StoreError::UnknownDish { .. }) => return Ok(Err(NeedNotKnown::Dish)),
            Err(error) => return Err(error.into()),
        }
        let before = day.min(self.record.today());
        let past = past_services(self.record.store, dish, before, question.zone)?;
        Ok(match portions_ready(share, &past) {
            Ok((_, ready)) => Ok(ready),
            Err(_) => Err(NeedNotKnown::Past),
        })
    }
}
