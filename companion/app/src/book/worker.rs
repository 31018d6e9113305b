//! What the book's screens ask of the record, answered beside the thread that
//! draws.

use super::counts::Counted;
use super::cut::CutDish;
use super::formula::{InTheBook, LinedUp};
use super::plates::PlatesOnRecord;
use super::yields::{MadeTitle, SideBySide};
use super::{BookObstacle, BookRefusal};
use crate::worker;
use evenhand_kitchen::batch::{Batch, BatchId, Yields};
use evenhand_kitchen::book::{StagedFormula, Trials};
use evenhand_kitchen::dish::DishName;
use evenhand_kitchen::dough::MixedDough;
use evenhand_kitchen::plate::{Plate, Plates};
use evenhand_kitchen::service::{Assumptions, ServiceCalendar};
use evenhand_kitchen::units::Currency;
use evenhand_kitchen::uptake::{IntoBath, OutOfBath, Soak};
use evenhand_store::Store;
use evenhand_use_cases::book;
use evenhand_use_cases::costs;
use evenhand_use_cases::handover::{self, Handover};
use evenhand_use_cases::limits;
use evenhand_use_cases::lots::{self, ListedLot};
use evenhand_use_cases::plain_files::write_whole;
use evenhand_use_cases::review::{Night, words};
use evenhand_use_cases::uptake::{self, Asked, InBath};
use evenhand_words::Language;
use jiff::Timestamp;
use jiff::tz::TimeZone;
use std::io;
use std::path::{Path, PathBuf};

/// Something asked of the record, or for it.
#[derive(Debug)]
pub(super) enum Question {
    /// The pieces that lie in a bath.
    Pieces,
    /// What is expected of one.
    Soak(Box<IntoBath>, Asked),
    /// Put one on record.
    PutIn(Box<IntoBath>, Timestamp),
    /// Put on record that one came out.
    TakeOut(BatchId, OutOfBath, Timestamp),
    /// The book's formulas, and titles of batches.
    Book,
    /// The doughs that were measured of a formula.
    Doughs(String),
    /// Put a formula into the book, over the one of its name or not.
    Keep(Box<StagedFormula>, bool),
    /// Take the formula of this name out of the book.
    Remove(String),
    /// Put a dough of a formula on record.
    Mixed(String, MixedDough, Timestamp),
    /// The service as it stands.
    Counts(Language, Timestamp),
    /// So many portions of a dish went out.
    CountOut(DishName, i32, Language, Timestamp),
    /// So many portions of a dish stand ready at opening.
    AtOpening(DishName, u32, Language, Timestamp),
    /// Write the page for tomorrow.
    HandoverPage(Language, Timestamp),
    /// Line up the batches of a title by shares of what is named.
    Trials(String, Vec<String>),
    /// The titles of batches that something came out of.
    YieldTitles,
    /// What came out of the batches of a title, over an ingredient: the first
    /// that was weighed in, where none is named.
    Yields(String, Option<String>),
    /// The lots in the folder, and how each stands.
    Lots(Timestamp),
    /// Write the page of the lot in this file.
    LotPage(PathBuf, Language, Timestamp),
    /// The plates on record, and what they cost.
    Plates(Language),
    /// Put these plates on record in place of those there.
    KeepPlates(Plates, Language, Timestamp),
    /// The dishes that can be cut.
    CutDishes,
    /// What a piece of this dish weighs, and what the last ones say of the next.
    CutDish(DishName),
}

impl worker::Question for Question {
    fn changes(&self) -> bool {
        matches!(
            self,
            Self::PutIn(..)
                | Self::TakeOut(..)
                | Self::Keep(..)
                | Self::Remove(..)
                | Self::Mixed(..)
                | Self::CountOut(..)
                | Self::AtOpening(..)
                | Self::HandoverPage(..)
                | Self::LotPage(..)
                | Self::KeepPlates(..)
        )
    }
}

/// An answer.
#[derive(Debug)]
pub(super) enum Answer {
    Pieces(Vec<InBath>),
    Soak(uptake::Answer),
    WentIn(InBath),
    CameOut(Box<Soak>),
    Book(InTheBook),
    Doughs(String, Vec<MixedDough>),
    Kept(Box<StagedFormula>),
    Removed(String, PathBuf),
    Rose(f64),
    Trials(LinedUp),
    YieldTitles(Vec<MadeTitle>),
    Yields(Box<SideBySide>),
    Counts(Box<Counted>),
    Written(PathBuf),
    Lots(Vec<ListedLot>),
    LotWritten(PathBuf),
    Plates(Box<PlatesOnRecord>),
    CutDishes(Vec<DishName>),
    CutDish(CutDish),
}

/// The thread that answers.
pub(super) type Worker = worker::Worker<Question, Result<Answer, BookRefusal>>;

/// Starts the thread. `changed` is called, from it, after each answer.
pub(super) fn start(
    mut store: Store,
    zone: TimeZone,
    changed: impl Fn() + Send + 'static,
) -> io::Result<Worker> {
    let answers = move |question| answer(&mut store, &zone, question);
    Worker::start("evenhand-book", answers, changed)
}

fn answer(store: &mut Store, zone: &TimeZone, question: Question) -> Result<Answer, BookRefusal> {
    Ok(match question {
        Question::Pieces => Answer::Pieces(uptake::in_baths(store)?),
        Question::Soak(into, asked) => {
            Answer::Soak(uptake::ask(&uptake::own_soaks(store)?, &into, asked))
        }
        Question::PutIn(into, since) => {
            let id = uptake::put_in(store, None, &into, since)?;
            let into = *into;
            Answer::WentIn(InBath { id, into, since })
        }
        Question::TakeOut(id, out, at) => {
            Answer::CameOut(Box::new(uptake::take_out(store, id, out, at)?))
        }
        Question::Book => Answer::Book(in_the_book(store)?),
        Question::Doughs(name) => {
            let doughs = book::doughs(store, &name)?;
            Answer::Doughs(name, doughs)
        }
        Question::Keep(formula, over) => {
            book::keep(folder_of(store), &formula, over)?;
            Answer::Kept(formula)
        }
        Question::Remove(name) => {
            let path = book::take_out(folder_of(store), &name)?;
            Answer::Removed(name, path)
        }
        Question::Mixed(name, dough, at) => {
            book::put_mixed(store, None, &name, dough, at)?;
            Answer::Rose(dough.rise())
        }
        Question::Counts(language, now) => counts(store, zone, language, now)?,
        Question::CountOut(dish, portions, language, now) => {
            let day = store.service_calendar(zone.clone())?.day_of(now);
            handover::count_out(store, day, &dish, portions, now)?;
            counts(store, zone, language, now)?
        }
        Question::AtOpening(dish, portions, language, now) => {
            let day = store.service_calendar(zone.clone())?.day_of(now);
            handover::ready_at_opening(store, day, &dish, portions, now)?;
            counts(store, zone, language, now)?
        }
        Question::HandoverPage(language, now) => {
            Answer::Written(handover_page(store, zone, language, now)?)
        }
        Question::Lots(now) => Answer::Lots(listed_lots(store, zone, now)?),
        Question::LotPage(file, language, now) => {
            Answer::LotWritten(lot_page(store, zone, &file, language, now)?)
        }
        Question::Trials(title, bases) => Answer::Trials(lined_up(store, title, &bases)?),
        Question::Plates(language) => plates(store, zone, language)?,
        Question::CutDishes => Answer::CutDishes(in_use(store)?),
        Question::CutDish(name) => {
            let dish = store.known_dish(&name)?;
            Answer::CutDish(CutDish {
                correction: costs::correction(store, &dish.name)?,
                target: dish.goal.target(),
                dish: dish.name,
            })
        }
        Question::KeepPlates(changed, language, now) => {
            store.keep_plates(&changed, now)?;
            plates(store, zone, language)?
        }
        Question::YieldTitles => Answer::YieldTitles(made_titles(store)?),
        Question::Yields(title, of) => Answer::Yields(Box::new(side_by_side(store, title, of)?)),
    })
}

/// The dishes that are not retired.
fn in_use(store: &Store) -> Result<Vec<DishName>, BookRefusal> {
    let dishes = store.dishes_in_use()?.into_iter();
    Ok(dishes.map(|dish| dish.name).collect())
}

/// The plates, and what they cost at the weights of the latest service.
fn plates(store: &Store, zone: &TimeZone, language: Language) -> Result<Answer, BookRefusal> {
    let plates = store.plates()?;
    let calendar = store.service_calendar(zone.clone())?;
    let latest = store.service_days(&calendar, None, 1)?.first().copied();
    let night = latest
        .map(|day| Night::gather(store, &calendar, day, Assumptions::default()))
        .transpose()?;
    let costs = match &night {
        Some(night) => costs::of_plates(night, &plates),
        None => plates.iter().map(|plate| plate.cost(|_| None)).collect(),
    };
    let dishes = store.dishes()?;
    let priced = plates.iter().filter_map(Plate::currency);
    let currency = priced
        .chain(dishes.iter().filter_map(|dish| {
            let cost = dish.cost?;
            Some(cost.for_kilogram().currency())
        }))
        .next();
    Ok(Answer::Plates(Box::new(PlatesOnRecord {
        costs: plates
            .iter()
            .zip(&costs)
            .map(|(plate, cost)| (plate.name.clone(), words::plate(language, plate, cost)))
            .collect(),
        plates: Plates::new(plates),
        dishes: in_use(store)?,
        currency: currency.map(Currency::code),
    })))
}

/// Where what is kept beside the store lies.
fn folder_of(store: &Store) -> &Path {
    store.path().parent().unwrap_or_else(|| Path::new(""))
}

fn in_the_book(store: &Store) -> Result<InTheBook, BookRefusal> {
    let mut found = InTheBook {
        limits: Some(limits::in_force(folder_of(store))),
        ..InTheBook::default()
    };
    for page in book::pages(folder_of(store))? {
        match page.formula {
            Ok(formula) => found.formulas.push(formula),
            Err(error) => found.trouble.push(error),
        }
    }
    for (_, batch) in store.batches()? {
        let weighed = batch.weighed_in().len() > 1;
        if let Some(title) = batch.title().filter(|_| weighed)
            && found
                .titles
                .iter()
                .all(|there| there.to_lowercase() != title.to_lowercase())
        {
            found.titles.push(title.to_owned());
        }
    }
    Ok(found)
}

fn lined_up(store: &Store, title: String, bases: &[String]) -> Result<LinedUp, BookRefusal> {
    let batches: Vec<Batch> = store
        .batches_titled(&title)?
        .into_iter()
        .map(|(_, batch)| batch)
        .collect();
    let mut names: Vec<String> = Vec::new();
    for slot in batches.iter().flat_map(Batch::weighed_in) {
        if let Some(ingredient) = slot.ingredient
            && !names.iter().any(|name| name == ingredient.name())
        {
            names.push(ingredient.name().to_owned());
        }
    }
    let trials = (!bases.is_empty()).then(|| Trials::new(&batches, bases));
    Ok(LinedUp {
        title,
        bases: bases.to_vec(),
        names,
        trials,
    })
}

/// The titles of which something came out, that of the latest batch first.
fn made_titles(store: &Store) -> Result<Vec<MadeTitle>, BookRefusal> {
    let mut batches = store.batches()?;
    batches.sort_by_key(|(id, batch)| std::cmp::Reverse((batch.begun(), id.0)));
    let mut made: Vec<MadeTitle> = Vec::new();
    for (_, batch) in batches {
        let came = batch.yielded();
        let Some(title) = batch.title().filter(|_| !came.is_empty()) else {
            continue;
        };
        let same = |known: &str, name: &str| known.to_lowercase() == name.to_lowercase();
        let place = made.iter().position(|known| same(&known.title, title));
        let place = place.unwrap_or_else(|| {
            made.push(MadeTitle {
                title: title.to_owned(),
                batches: 0,
                names: Vec::new(),
            });
            made.len() - 1
        });
        if let Some(of_title) = made.get_mut(place) {
            of_title.batches += 1;
            for out in came {
                if !of_title.names.iter().any(|known| same(known, out.name())) {
                    of_title.names.push(out.name().to_owned());
                }
            }
        }
    }
    Ok(made)
}

fn side_by_side(
    store: &Store,
    title: String,
    of: Option<String>,
) -> Result<SideBySide, BookRefusal> {
    let mut batches = store.batches_titled(&title)?;
    batches.sort_by_key(|(id, batch)| (batch.begun(), id.0));
    let batches: Vec<Batch> = batches.into_iter().map(|(_, batch)| batch).collect();
    let mut bases: Vec<String> = Vec::new();
    for batch in batches.iter().filter(|batch| !batch.yielded().is_empty()) {
        for slot in batch.weighed_in() {
            if let Some(ingredient) = slot.ingredient
                && !bases
                    .iter()
                    .any(|known| known.to_lowercase() == ingredient.name().to_lowercase())
            {
                bases.push(ingredient.name().to_owned());
            }
        }
    }
    let of = of
        .or_else(|| bases.first().cloned())
        .ok_or(BookObstacle::NothingNamed)?;
    let found = Yields::new(&batches, &of).map_err(|_| BookObstacle::NothingNamed)?;
    Ok(SideBySide {
        title,
        of,
        bases,
        found,
    })
}

fn gathered(
    store: &Store,
    zone: &TimeZone,
    language: Language,
    now: Timestamp,
) -> Result<(Handover, ServiceCalendar), BookRefusal> {
    let calendar = store.service_calendar(zone.clone())?;
    let limits = limits::in_force(folder_of(store)).map_err(BookRefusal::Limits)?;
    let day = calendar.day_of(now);
    let handover = Handover::gather(store, &limits, &calendar, day, now, language)?;
    Ok((handover, calendar))
}

fn counts(
    store: &Store,
    zone: &TimeZone,
    language: Language,
    now: Timestamp,
) -> Result<Answer, BookRefusal> {
    let (handover, calendar) = gathered(store, zone, language, now)?;
    let opening = handover::at_opening(store, handover.day)?;
    Ok(Answer::Counts(Box::new(Counted {
        handover,
        calendar,
        opening,
    })))
}

fn listed_lots(
    store: &Store,
    zone: &TimeZone,
    now: Timestamp,
) -> Result<Vec<ListedLot>, BookRefusal> {
    let folder = folder_of(store);
    let limits = limits::in_force(folder).map_err(BookRefusal::Limits)?;
    let now = now.to_zoned_datetime(zone.clone());
    lots::in_folder(store, folder, &limits, &now)
        .map_err(|error| BookRefusal::Lots(Box::new(error)))
}

/// Writes the page of a lot beside the store, over the one of the same lot.
fn lot_page(
    store: &Store,
    zone: &TimeZone,
    file: &Path,
    language: Language,
    now: Timestamp,
) -> Result<PathBuf, BookRefusal> {
    let not_written = |why: &dyn std::fmt::Display| BookRefusal::LotPage(why.to_string());
    let listed = listed_lots(store, zone, now)?;
    let lot = listed.into_iter().find(|lot| lot.path == file);
    let lot = lot.ok_or(BookObstacle::NoLot)?.lot;
    let lot = lot.map_err(|error| BookRefusal::Lots(Box::new(error)))?;
    let page = lots::pdf(language, &lot, zone).map_err(|why| not_written(&why))?;
    let stem = file.file_stem().unwrap_or_default().to_string_lossy();
    let path = folder_of(store).join(format!("lot-{stem}.pdf"));
    write_whole(&path, &page).map_err(|why| not_written(&why))?;
    Ok(path)
}

/// Writes the page beside the store; a page of the same day is written over.
fn handover_page(
    store: &Store,
    zone: &TimeZone,
    language: Language,
    now: Timestamp,
) -> Result<PathBuf, BookRefusal> {
    let (handover, calendar) = gathered(store, zone, language, now)?;
    let not_written = |why: &dyn std::fmt::Display| BookRefusal::Page(why.to_string());
    let page = handover::pdf(language, &handover, &calendar).map_err(|why| not_written(&why))?;
    let folder = folder_of(store);
    let path = folder.join(format!("handover-{}.pdf", handover.day));
    write_whole(&path, &page).map_err(|why| not_written(&why))?;
    Ok(path)
}
