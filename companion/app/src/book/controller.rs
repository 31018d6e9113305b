//! What a cook wishes for on the book's screens, carried out.

use super::counts::CountSheet;
use super::cut::CutSheet;
use super::entry::Typing;
use super::formula::FormulaSheet;
use super::lots::LotSheet;
use super::moment::clock;
use super::plates::PlateSheet;
use super::soak::SoakSheet;
use super::worker::{self, Answer, Question, Worker};
use super::yields::YieldSheet;
use super::{BookField, BookObstacle, BookPage, BookRefusal, BookView, BookWish, Pan};
use crate::words::Language;
use evenhand_kitchen::plate::Plates;
use evenhand_store::Store;
use jiff::Timestamp;
use jiff::tz::TimeZone;
use std::io;

/// Everything a cook is in the middle of in the book.
#[derive(Debug)]
pub struct Book {
    page: BookPage,
    entry: Option<Typing>,
    soak: SoakSheet,
    formula: FormulaSheet,
    counts: CountSheet,
    yields: YieldSheet,
    lots: LotSheet,
    plates: PlateSheet,
    cut: CutSheet,
    worker: Worker,
    /// The number of the latest question about a soak.
    soak_asked: Option<u64>,
    /// The minute that times on the screen are told of.
    minute: i64,
    language: Language,
    zone: TimeZone,
}

impl Book {
    /// Nothing under way. `changed` is called, from another thread, when
    /// something was answered.
    ///
    /// # Errors
    /// Where the system gives no thread.
    pub fn start(
        store: Store,
        zone: TimeZone,
        changed: impl Fn() + Send + 'static,
    ) -> io::Result<Self> {
        Ok(Self {
            page: BookPage::default(),
            entry: None,
            soak: SoakSheet::default(),
            formula: FormulaSheet::default(),
            counts: CountSheet::default(),
            yields: YieldSheet::default(),
            lots: LotSheet::default(),
            plates: PlateSheet::default(),
            cut: CutSheet::default(),
            worker: worker::start(store, zone.clone(), changed)?,
            soak_asked: None,
            minute: 0,
            language: Language::default(),
            zone,
        })
    }

    /// Speaks this language from now on; what was answered in another is asked
    /// for again.
    ///
    /// # Errors
    /// Where nobody answers any more.
    pub fn speak(&mut self, language: Language, now: Timestamp) -> Result<(), BookRefusal> {
        let differs = self.language != language;
        let asks_again = differs && self.page == BookPage::Counts;
        self.language = language;
        if differs && self.page.is_of_plates() {
            self.ask(Question::Plates(language))?;
        }
        if asks_again {
            self.ask(Question::Counts(language, now))?;
        }
        Ok(())
    }

    /// Carries out a wish.
    ///
    /// # Errors
    /// Why it came to nothing.
    pub fn carry_out(&mut self, wish: BookWish, now: Timestamp) -> Result<(), BookRefusal> {
        match wish {
            BookWish::Show(page) => self.show(page, now)?,
            // The mixing screens are shown by whoever shows screens.
            BookWish::Done | BookWish::BackToService => self.entry = None,
            BookWish::Ask(field) if self.page.is_of_a_cut() => {
                self.entry = Some(Typing::new(field));
            }
            BookWish::CutDish(dish) => {
                self.page = BookPage::Cut;
                self.ask(Question::CutDish(dish))?;
            }
            BookWish::Ask(field) if self.page.is_of_plates() => self.ask_of_plate(field),
            BookWish::Ask(field) => {
                self.entry = Some(Typing::of(field, self.formula.written(field)));
            }
            BookWish::Type(text) => {
                if let Some(entry) = &mut self.entry {
                    entry.text = text;
                }
            }
            BookWish::Leave => self.entry = None,
            BookWish::Enter => self.enter(now)?,
            BookWish::AnotherDay => {
                let local = clock(now, &self.zone);
                self.soak.turn_day(self.page, &local);
                self.ask_soak(now)?;
            }
            BookWish::Shape => {
                self.soak.turn_shape();
                self.ask_soak(now)?;
            }
            BookWish::Meat(nth) => {
                self.soak.choose_meat(nth);
                self.show(BookPage::IntoBath, now)?;
            }
            BookWish::NoSauce => {
                self.soak.no_sauce();
                self.ask_soak(now)?;
            }
            BookWish::PutIn => {
                let at = self.soak.goes_in_at(&clock(now, &self.zone))?;
                let into = Box::new(self.soak.to_go_in()?);
                self.ask(Question::PutIn(into, at))?;
            }
            BookWish::Piece(id) => {
                if !self.soak.choose(id) {
                    return Err(BookObstacle::NotInBath.into());
                }
                self.show(BookPage::OutOfBath, now)?;
            }
            BookWish::TakeOut => {
                let at = self.soak.comes_out_at(&clock(now, &self.zone))?;
                let (id, out) = self.soak.out_of_bath()?;
                self.ask(Question::TakeOut(id, out, at))?;
            }
            BookWish::Plate(_)
            | BookWish::PlatePart(_)
            | BookWish::PlateDish(_)
            | BookWish::TakeOffPlate
            | BookWish::RemovePlate => self.on_a_plate(wish, now)?,
            wish => self.on_a_formula(wish, now)?,
        }
        Ok(())
    }

    fn on_a_plate(&mut self, wish: BookWish, now: Timestamp) -> Result<(), BookRefusal> {
        self.entry = None;
        let kept = match wish {
            BookWish::Plate(nth) => {
                self.plates.begin(nth);
                self.page = BookPage::Plate;
                if nth.is_none() {
                    self.ask_of_plate(BookField::PlateName);
                }
                return Ok(());
            }
            BookWish::PlatePart(nth) => {
                self.plates.begin_part(nth);
                self.page = BookPage::PlatePart;
                if nth.is_none() {
                    self.ask_of_plate(BookField::PartName);
                }
                return Ok(());
            }
            BookWish::PlateDish(dish) => {
                self.page = BookPage::Plate;
                self.plates.put_dish(dish)
            }
            BookWish::TakeOffPlate => {
                self.page = BookPage::Plate;
                self.plates.take_off()
            }
            _ => {
                self.page = BookPage::Plates;
                Ok(self.plates.take_out())
            }
        };
        self.keep_plates(kept.map_err(BookRefusal::Formula)?, now)
    }

    fn ask_of_plate(&mut self, field: BookField) {
        self.entry = Some(Typing {
            currency: self.plates.currency(),
            ..Typing::new(field)
        });
    }

    fn keep_plates(&mut self, plates: Option<Plates>, now: Timestamp) -> Result<(), BookRefusal> {
        if let Some(plates) = plates {
            self.ask(Question::KeepPlates(plates, self.language, now))?;
        }
        Ok(())
    }

    fn on_a_formula(&mut self, wish: BookWish, now: Timestamp) -> Result<(), BookRefusal> {
        match wish {
            BookWish::Formula(nth) => {
                self.formula.begin(nth);
                self.show(BookPage::Formula, now)?;
                if nth.is_none() {
                    self.entry = Some(Typing::new(BookField::FormulaName));
                }
            }
            BookWish::Ingredient(nth) => {
                self.formula.show_line(nth);
                self.page = BookPage::Ingredient;
            }
            BookWish::CountsAsBase => self.formula.turn_base(),
            BookWish::DropIngredient => {
                self.formula.drop_line();
                self.page = BookPage::Formula;
            }
            BookWish::Stage(nth) => {
                self.formula.show_stage(nth);
                self.page = BookPage::Stage;
            }
            BookWish::StarterFlour => self.formula.turn_starter_flour(),
            BookWish::DropStage => {
                self.formula.drop_stage();
                self.page = BookPage::Formula;
            }
            BookWish::GoesInto(into) => {
                self.formula.put_stage_into(into);
                self.page = BookPage::Stage;
            }
            BookWish::Work(nth) => {
                self.formula.show_work(nth);
                self.page = BookPage::Work;
            }
            BookWish::MoveWork(way) => self.formula.move_work(way),
            BookWish::DropWork => {
                self.formula.drop_work();
                self.page = BookPage::How;
            }
            BookWish::LimitApplies(name) => self.formula.turn_limit(&name),
            BookWish::Remove => {
                let name = self.formula.to_take_out();
                let name = name.ok_or(BookObstacle::NotSaid(BookField::FormulaName))?;
                self.ask(Question::Remove(name))?;
            }
            BookWish::OfThing => self.formula.turn_of(),
            BookWish::Keep => {
                let (formula, over) = self.formula.to_keep()?;
                self.ask(Question::Keep(formula, over))?;
            }
            BookWish::Mixed => {
                let (name, dough) = self.formula.mixed()?;
                self.ask(Question::Mixed(name, dough, now))?;
            }
            BookWish::TrialsOf(nth) => {
                let title = self.formula.nth_title(nth);
                self.formula.begin_trials();
                if let Some(title) = title {
                    self.ask(Question::Trials(title, Vec::new()))?;
                }
                self.page = BookPage::Trials;
            }
            BookWish::TrialBase(nth) => {
                self.formula.toggle_base(nth);
                if let Some(title) = self.formula.title().map(str::to_owned) {
                    let bases = self.formula.bases.clone();
                    self.ask(Question::Trials(title, bases))?;
                }
            }
            BookWish::YieldsOf(nth) => {
                if let Some(title) = self.yields.begin(nth) {
                    self.ask(Question::Yields(title, None))?;
                    self.page = BookPage::Yields;
                }
            }
            BookWish::YieldsOver => {
                if let Some((title, of)) = self.yields.next_base() {
                    self.ask(Question::Yields(title, Some(of)))?;
                }
            }
            BookWish::Lot(nth) => {
                if !self.lots.choose(nth) {
                    return Err(BookObstacle::NoLot.into());
                }
                self.page = BookPage::Lot;
            }
            BookWish::LotPage => {
                let file = self.lots.file().ok_or(BookObstacle::NoLot)?;
                self.ask(Question::LotPage(file, self.language, now))?;
            }
            BookWish::YieldBatch(nth) => self.yields.choose(nth),
            BookWish::CountAtOpening(dish) => {
                self.counts.begin_counting(dish);
                self.entry = Some(Typing::new(BookField::AtOpening));
            }
            BookWish::GoesOut(dish) => {
                self.counts.goes_out(&dish);
                self.ask(Question::CountOut(dish, 1, self.language, now))?;
            }
            BookWish::TakeBack => {
                let dish = self.counts.taken_back()?;
                self.ask(Question::CountOut(dish, -1, self.language, now))?;
            }
            BookWish::HandoverPage => {
                self.ask(Question::HandoverPage(self.language, now))?;
            }
            BookWish::Freeze => {
                let formula = self.formula.freeze()?;
                self.ask(Question::Keep(formula, false))?;
            }
            // Everything else was carried out before.
            _ => {}
        }
        Ok(())
    }

    fn show(&mut self, page: BookPage, now: Timestamp) -> Result<(), BookRefusal> {
        self.page = page;
        self.entry = None;
        if page == BookPage::Pieces {
            self.ask(Question::Pieces)?;
        }
        if matches!(
            page,
            BookPage::Formulas | BookPage::Titles | BookPage::Limits
        ) {
            self.ask(Question::Book)?;
        }
        if page == BookPage::YieldTitles {
            self.ask(Question::YieldTitles)?;
        }
        if matches!(page, BookPage::Counts | BookPage::Opening) {
            self.ask_counts(now)?;
        }
        if page.is_of_lots() {
            self.minute = minute(now);
            self.ask(Question::Lots(now))?;
        }
        if page == BookPage::CutDishes {
            self.ask(Question::CutDishes)?;
        }
        if page == BookPage::Plates {
            self.ask(Question::Plates(self.language))?;
        }
        if page == BookPage::Water {
            let name = self.formula.name().to_owned();
            self.ask(Question::Doughs(name))?;
        }
        self.ask_soak(now)
    }

    fn ask_counts(&mut self, now: Timestamp) -> Result<(), BookRefusal> {
        self.minute = minute(now);
        self.ask(Question::Counts(self.language, now))?;
        Ok(())
    }

    fn ask(&mut self, question: Question) -> Result<u64, BookRefusal> {
        Ok(self.worker.ask(question)?)
    }

    /// Asks anew what is expected of the piece on the screen.
    fn ask_soak(&mut self, now: Timestamp) -> Result<(), BookRefusal> {
        self.minute = minute(now);
        match self.soak.question(self.page, &clock(now, &self.zone)) {
            Some((into, asked)) => {
                self.soak_asked = Some(self.ask(Question::Soak(Box::new(into), asked))?);
            }
            None => {
                self.soak_asked = None;
                self.soak.unsaid();
            }
        }
        Ok(())
    }

    fn enter(&mut self, now: Timestamp) -> Result<(), BookRefusal> {
        let Some(entry) = &self.entry else {
            return Ok(());
        };
        let field = entry.field;
        let text = entry.typed(self.language);
        let cannot = |entry: &Typing| BookRefusal::Typed {
            field,
            text: entry.text.trim().to_owned(),
        };
        if field == BookField::AtOpening {
            let (dish, portions) = self.counts.counted(&text).map_err(|_| cannot(entry))?;
            self.entry = None;
            self.ask(Question::AtOpening(dish, portions, self.language, now))?;
            return Ok(());
        }
        if self.page.is_of_a_cut() {
            let next = self.cut.enter(field, &text).map_err(|_| cannot(entry))?;
            self.entry = next.map(Typing::new);
            return Ok(());
        }
        if self.page.is_of_plates() {
            let (next, kept) = self.plates.enter(field, &text).map_err(|_| cannot(entry))?;
            self.entry = None;
            if let Some(next) = next {
                self.ask_of_plate(next);
            }
            return self.keep_plates(kept, now);
        }
        if matches!(field, BookField::InAt | BookField::OutAt) {
            let now = clock(now, &self.zone);
            self.soak
                .say_time(self.page, &text, &now)
                .map_err(BookRefusal::Moment)?;
            self.entry = None;
            return self.ask_soak(now.timestamp());
        }
        let next = if self.page.is_of_a_soak() {
            self.soak.enter(field, &text)
        } else {
            self.formula.enter(field, &text)
        };
        let next = next.map_err(|_| cannot(entry))?;
        self.entry = next.map(Typing::new);
        if field == BookField::NewStage {
            self.page = BookPage::Stage;
        }
        if field == BookField::MeatWater {
            self.page = BookPage::IntoBath;
        }
        self.ask_soak(now)
    }

    /// Takes in what was answered since; returns why something came to nothing.
    pub fn take_in(&mut self, now: Timestamp) -> Vec<BookRefusal> {
        let mut refused = Vec::new();
        while let Some((number, answer)) = self.worker.answer() {
            match answer {
                Ok(answer) => refused.extend(self.answered(number, answer, now).err()),
                Err(refusal) => refused.push(refusal),
            }
        }
        // What is expected of a piece goes on with the clock.
        if self.page == BookPage::OutOfBath && self.minute != minute(now) {
            refused.extend(self.ask_soak(now).err());
        }
        // Portions are weighed while this is looked at.
        if matches!(self.page, BookPage::Counts | BookPage::Opening) && self.minute != minute(now) {
            refused.extend(self.ask_counts(now).err());
        }
        // A step that goes on is read while this is looked at.
        if self.page.is_of_lots() && self.minute != minute(now) {
            self.minute = minute(now);
            refused.extend(self.ask(Question::Lots(now)).err());
        }
        refused
    }

    fn answered(&mut self, number: u64, answer: Answer, now: Timestamp) -> Result<(), BookRefusal> {
        match answer {
            Answer::Pieces(pieces) => self.soak.pieces = pieces,
            Answer::Soak(answer) if self.soak_asked == Some(number) => self.soak.answered(answer),
            // Of a question that was asked anew since.
            Answer::Soak(_) => {}
            Answer::WentIn(piece) => {
                self.soak.went_in(piece);
                self.ask(Question::Pieces)?;
                self.show(BookPage::OutOfBath, now)?;
            }
            Answer::Counts(counted) => self.counts.gathered(*counted),
            Answer::Lots(lots) => self.lots.listed(lots),
            Answer::LotWritten(path) => self.lots.written(path),
            Answer::CutDishes(dishes) => self.cut.dishes = dishes,
            Answer::CutDish(dish) => self.cut.is_of(dish),
            Answer::Plates(on_record) => self.plates.gathered(*on_record),
            Answer::Written(path) => self.counts.written(path),
            Answer::Book(book) => self.formula.read(book),
            Answer::Doughs(name, doughs) => self.formula.measured(&name, doughs),
            Answer::Kept(formula) => {
                self.formula.kept(&formula);
                self.show(BookPage::Formula, now)?;
            }
            Answer::Removed(name, path) => {
                self.formula.is_out(name, path);
                self.show(BookPage::Formulas, now)?;
            }
            Answer::Rose(kelvin) => {
                self.formula.rose(kelvin);
                let name = self.formula.name().to_owned();
                self.ask(Question::Doughs(name))?;
            }
            Answer::Trials(lined_up) => self.formula.lined_up(lined_up),
            Answer::YieldTitles(titles) => self.yields.listed(titles),
            Answer::Yields(side_by_side) => self.yields.lined_up(*side_by_side),
            Answer::CameOut(soak) => {
                self.soak.is_out(*soak);
                self.ask(Question::Pieces)?;
            }
        }
        Ok(())
    }

    /// What the screens show.
    #[must_use]
    pub fn view(&self, pan: &Pan, now: Timestamp) -> BookView {
        BookView {
            page: self.page,
            entry: self.entry.as_ref().map(|entry| {
                let picks = if self.page.is_of_a_soak() {
                    self.soak.picks(entry.field, self.language)
                } else {
                    self.formula.picks(entry.field, self.language)
                };
                let about = self.formula.about(entry.field);
                let about = about
                    .or_else(|| self.counts.about(entry.field))
                    .or_else(|| self.plates.about(entry.field));
                entry.view(about, picks, pan, self.language)
            }),
            sheet: if self.page.is_of_a_soak() {
                self.soak
                    .view(self.page, pan, now, (self.language, &self.zone))
            } else if self.page.is_of_yields() {
                self.yields.view(self.page, self.language, &self.zone)
            } else if self.page.is_of_lots() {
                self.lots.view(self.page, self.language, &self.zone)
            } else if self.page.is_of_a_cut() {
                self.cut.view(self.page, pan, self.language)
            } else if self.page.is_of_plates() {
                self.plates.view(self.page, self.language)
            } else if self.page == BookPage::Counts {
                self.counts.view(self.language)
            } else if self.page == BookPage::Opening {
                self.counts.opening_view(self.language)
            } else {
                self.formula.view(self.page, pan, self.language)
            },
        }
    }
}

fn minute(now: Timestamp) -> i64 {
    now.as_second().div_euclid(60)
}
