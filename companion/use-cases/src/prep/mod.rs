//! The prep clock over what is on record: the menu, what was told of its steps,
//! what the bench saw, and where the oven is going.

mod deliveries;
mod file_words;
mod label;
mod list;
mod made_for;
mod menus;
mod order;
mod order_words;
mod par_words;
mod plan_words;
mod printed;
mod served;
mod supply;
mod timeline;
mod week;
mod who;
mod words;

pub use deliveries::{
    Delivery, DeliveryRisk, LEAST_DELIVERIES, delivery_risks, delivery_words, risk_words, risks,
};
pub use file_words::{
    file_error_words, file_refused_words, order_error_words, take_off_words, what_if_words,
};
pub use label::{Label, Line};
pub use list::{day_list, length};
pub use made_for::{MadeFor, MadeForError};
pub(crate) use menus::ONLY;
pub use menus::{
    FileRefused, GOODS, KeptMenu, MENUS, MenuOnRecord, MenuToKeep, TakeOffError, goods_files,
    goods_of_file, goods_text, menu_and_text_of_file, menu_files, menu_name, menu_of_file,
    menu_text, menus, take_off,
};
pub use order::{
    Missing, OrderError, OrderLine, OrderQuestion, OrderSheet, SupplierOrder, Use, goods_on_record,
};
pub use order_words::{
    Remedies, amount_words, lasts_words, line_words, missing_words, order_csv, order_pdf,
    order_words, packs_words, placed_order_words, supplier_words, taken_back_words,
};
pub use par_words::{ParTold, par_words};
pub use plan_words::plan_words;
pub use printed::lists_pdf;
pub use served::{
    OfWeekday, open_stock, past_of_weekday, past_services, portion_as_served, recent_purchases,
};
pub use supply::{Supplied, date_marking};
pub use timeline::{BandWaitedFor, Bar, Lane, LaneOf, OvenCourse, Timeline};
pub use week::{Cell, Week, cell_words, week_notes, week_page};
pub use who::{AtOpening, NoSuchHand, hand_list, opening_words};
pub use words::{
    dish_off, error_words, latest_words, lots_words, mend, moment, needs, not_known, note_words,
    remedy, shortage, standing_word, stock_words, supply_words, troubles, warnings, who_words,
};

use crate::heat::HeatNow;
use crate::times;
use evenhand_kitchen::heat::{
    AfterDoor, Aim, Band, Door, Forecast, HeatLog, LEAST_OPENINGS, Likely, LogName, Marker,
    Surroundings, When, Why, after_lighting, forecast, forecast_each, mornings,
};
use evenhand_kitchen::limits::Limits;
use evenhand_kitchen::prep::{
    BandStretch, Board, By, Course, DoneBy, Effort, Expected, FileError, HandName, Happened,
    InBand, Lasts, Mend, OvenAction, OvenAdvice, OvenTimes, Plan, Progress, StepRef, Trouble,
    Unwanted, WhatIfError, serves_on,
};
use evenhand_kitchen::service::CookFigures;
use evenhand_protocol::Temperature;
use evenhand_store::{Store, StoreError};
use evenhand_words::Language;
use jiff::civil::Date;
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp, ToSpan};
use std::collections::{BTreeMap, HashMap, HashSet};
use std::sync::Arc;
use supply::{DayBoard, OnRecord, supply};

/// How many days after a service others are looked at whose work may begin on
/// its day: what lies in brine or freezes is begun days before.
pub const DAYS_AHEAD: i32 = 4;

/// Why there is no board.
#[derive(Debug, thiserror::Error)]
pub enum PrepError {
    /// The store.
    #[error(transparent)]
    Store(#[from] StoreError),
    /// The menu.
    #[error("the menu for {day}: {error}")]
    Menu {
        /// Its day.
        day: Date,
        /// What is wrong.
        error: FileError,
    },
    /// There is none.
    #[error("no menu is on record for {0}; keep one with `evenhand prep menu --keep FILE`")]
    NoMenu(Date),
    /// A what-if.
    #[error(transparent)]
    WhatIf(#[from] WhatIfError),
}

impl PrepError {
    /// Whether what was asked is at fault, and not the store.
    #[must_use]
    pub const fn is_bad_input(&self) -> bool {
        match self {
            Self::Store(error) => error.is_bad_input(),
            Self::Menu { .. } | Self::NoMenu(_) | Self::WhatIf(_) => true,
        }
    }
}

/// What is asked for.
#[derive(Clone, Copy)]
pub struct PrepQuestion<'a> {
    /// The service.
    pub day: Date,
    /// A menu to use in place of the one on record, for every day.
    pub menu: Option<&'a str>,
    /// How many days after it other services are looked at.
    pub days_ahead: i32,
    /// Guests expected at it, in place of what is on record.
    pub covers: Option<u32>,
    /// What if: `fish +1h`.
    pub what_if: &'a [String],
    /// The moment.
    pub now: Timestamp,
    /// The kitchen's time.
    pub zone: &'a TimeZone,
    /// What the days of other services are called in.
    pub language: Language,
    /// Tells when the answer is no longer wanted: planning is then ended early, and what
    /// comes back is to be thrown away.
    pub unwanted: Option<&'a Unwanted>,
}

/// Of the budget, in percent: for the order that the day had before anything happened.
const ORDER_PERCENT: u64 = 20;

impl PrepQuestion<'_> {
    fn effort(&self, percent: u64) -> Effort {
        let effort = Effort::new(Effort::USUAL / 100 * percent);
        match self.unwanted {
            Some(unwanted) => effort.while_wanted(Arc::clone(unwanted)),
            None => effort,
        }
    }
}

/// What to know beside a step.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Note {
    /// The bench saw that it was done.
    SeenDone {
        /// When.
        at: Timestamp,
    },
    /// It waits for an oven.
    Oven {
        /// The name of its log.
        log: String,
        /// How that stands.
        oven: OvenNote,
        /// It does otherwise than was foretold a while ago.
        surprise: Option<Box<Surprise>>,
    },
}

/// An oven was read outside the interval that was foretold for it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Surprise {
    /// When it was foretold.
    pub foretold_at: Timestamp,
    /// Whether it fell faster; else slower.
    pub faster: bool,
    /// What was said of the step then.
    pub was: OvenAdvice,
}

/// How an oven stands to the band that a step waits for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum OvenNote {
    /// No log can have such a name.
    NoSuchName,
    /// No log is kept under its name.
    NotRecorded,
    /// The band makes no sense.
    NoBand,
    /// It comes to its band.
    Coming {
        /// When.
        enters: When,
        /// What to do.
        advice: OvenAdvice,
        /// What is known of its door, where it is hotter than its band.
        door: DoorTold,
    },
    /// It is in its band.
    Inside {
        /// Until when; `None` where it stays.
        leaves: Option<When>,
        /// What to do.
        advice: OvenAdvice,
    },
    /// As it goes now it does not come to its band.
    NotComing,
    /// As it goes now it does not, but it can be made to.
    NotComingAlone {
        /// What to do.
        advice: OvenAdvice,
    },
    /// Nobody can tell.
    Unknown(Why),
}

/// What is known of opening an oven's door.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DoorTold {
    /// The advice says what there is to say.
    InTheAdvice,
    /// It was marked too few times, if ever.
    TooFew {
        /// How many openings tell.
        openings: usize,
    },
    /// The openings that were marked tell nothing of the oven as it is now.
    NotOfThis {
        /// How many they are.
        openings: usize,
    },
}

/// The board as it stands, and its plan.
#[derive(Debug, Clone)]
pub struct PrepNow {
    /// The service asked for.
    pub day: Date,
    /// The steps of it and of the services after it.
    pub board: Board,
    /// Laid out.
    pub plan: Plan,
    /// Why the day cannot be made, where it cannot, and what would mend it.
    pub trouble: Option<Trouble>,
    /// What feeds the services, for preparations that are made in batches: from stock, or a
    /// new batch.
    pub supplied: Vec<Supplied>,
    /// Who does what, where the menu names hands.
    pub who: BTreeMap<StepRef, DoneBy>,
    /// Who really did a step or is at it, where that was told and the kitchen does not hide
    /// names.
    pub did: BTreeMap<StepRef, HandName>,
    /// Deliveries that are still to come, with when they usually do.
    pub deliveries: BTreeMap<StepRef, Delivery>,
    /// The plan as it was before anything happened: its order is kept where
    /// nothing forces another.
    untouched: Plan,
    /// What to know beside a step: why it waits for the oven, who ticked it.
    pub notes: HashMap<StepRef, Note>,
    /// The service that each step is for, with its name there.
    pub of_service: HashMap<StepRef, (Date, String)>,
    /// Steps that something was told of and that are on no menu any more.
    pub unknown: Vec<String>,
    /// What the what-ifs moved.
    pub moved: Vec<String>,
}

impl PrepNow {
    /// Works it out from what is on record.
    ///
    /// # Errors
    /// [`PrepError`].
    pub fn of(
        store: &Store,
        question: &PrepQuestion<'_>,
        limits: &Limits,
    ) -> Result<Self, PrepError> {
        let now = question.now;
        let mut record = OnRecord::read(store, question)?;
        let mut days = Vec::new();
        for ahead in 0..=question.days_ahead.max(0) {
            let Ok(day) = question.day.checked_add(ahead.days()) else {
                break;
            };
            // The day asked for is taken as asked; others as their menu says.
            match record.board_if(day, ahead > 0)? {
                Some(board) => days.push(board),
                None if ahead == 0 => return Err(PrepError::NoMenu(day)),
                None => {}
            }
        }
        let supplied = supply(&mut record, &mut days, limits)?;
        let mut whole: Option<(Board, Board)> = None;
        let mut names: HashMap<String, (Date, String)> = HashMap::new();
        let mut seen: HashMap<String, Timestamp> = HashMap::new();
        let mut did: HashMap<String, HandName> = HashMap::new();
        let mut by_menu = deliveries::ByMenu::new();
        let mut unknown = Vec::new();
        for day in days {
            for event in &day.events {
                if event.what == Happened::Done && event.by == By::Bench {
                    seen.insert(day.full(&event.step), event.at);
                }
            }
            told_by(&day, &mut did);
            by_menu.extend(
                day.alone
                    .steps()
                    .filter_map(|(_, step)| Some((day.full(&step.full_name()), step.not_before?))),
            );
            for (_, step) in day.board.steps() {
                let name = step.full_name();
                names.insert(day.full(&name), (day.day, name));
            }
            let not_wanted: Vec<String> = supplied
                .iter()
                .filter(|fed| fed.supply.day == day.day)
                .flat_map(|fed| day.not_wanted(fed))
                .collect();
            let (mut board, mut alone) = (day.board, day.alone);
            unknown.extend(day.unknown);
            for batch in not_wanted {
                board = board.without_batch(&batch);
                alone = alone.without_batch(&batch);
            }
            match &mut whole {
                None => whole = Some((board, alone)),
                Some((first, first_alone)) => {
                    let label = times::weekday(question.language, day.day);
                    first.and_for(&board, &label);
                    first_alone.and_for(&alone, &label);
                }
            }
        }
        let (mut board, alone) = whole.ok_or(PrepError::NoMenu(question.day))?;
        let early = board
            .service
            .checked_sub(SignedDuration::from_hours(24 * i64::from(DAYS_AHEAD + 1)))
            .unwrap_or(now);
        // Only its order is asked for.
        let untouched = alone.plan_within(early, None, &question.effort(ORDER_PERCENT));
        let mut notes = HashMap::new();
        for (name, at) in seen {
            if let Some(step) = board.named(&name)
                && let Ok(known) = board.step(step)
                && known.progress == Progress::Done(at)
            {
                notes.insert(step, Note::SeenDone { at });
            }
        }
        if store.cook_figures()? == CookFigures::Hidden {
            did.clear();
        }
        let did = did
            .into_iter()
            .filter_map(|(name, who)| Some((board.named(&name)?, who)))
            .collect();
        wait_for_ovens(store, &mut board, &mut notes, &names, question, limits)?;
        let mut moved = Vec::new();
        for what_if in question.what_if {
            moved.extend(board.what_if(what_if, now)?);
        }
        let of_service: HashMap<_, _> = board
            .steps()
            .filter_map(|(step, known)| Some((step, names.get(&known.full_name())?.clone())))
            .collect();
        let effort = question.effort(100 - ORDER_PERCENT);
        let awaited = deliveries::awaited(&record, &board, &by_menu, &of_service)?;
        deliveries::count_on_late_ends(&mut board, &awaited, now, &effort);
        let plan = board.plan_within(now, Some(&untouched), &effort);
        let deliveries = deliveries::deliveries(awaited, &board, &plan);
        let mut prep = Self {
            day: question.day,
            trouble: board.trouble_within(&plan, now, &effort),
            plan,
            supplied,
            who: BTreeMap::new(),
            did,
            deliveries,
            untouched,
            board,
            notes,
            of_service,
            unknown,
            moved,
        };
        prep.who = prep.board.who(&prep.plan, now);
        prep.leave_out();
        Ok(prep)
    }
}

impl PrepNow {
    /// What is fed from stock has no steps to show.
    fn leave_out(&mut self) {
        let board = &self.board;
        self.plan.steps.retain(|step| !board.is_left_out(step.step));
        let made: HashSet<&str> = board
            .steps()
            .filter(|(step, _)| !board.is_left_out(*step))
            .map(|(_, step)| step.preparation.as_str())
            .collect();
        self.plan
            .dishes
            .retain(|dish| made.contains(dish.preparation.as_str()));
    }

    /// As if a change were made: a preparation left off, bought in or swapped, or one more place
    /// of a resource for a while. Other changes leave everything as it is. Where the answer is
    /// no longer wanted the rest of the planning is left out.
    pub fn suppose(&mut self, mend: &Mend, now: Timestamp, unwanted: Option<&Unwanted>) {
        match mend {
            Mend::Swap { preparation, .. }
            | Mend::BuyIn { preparation }
            | Mend::Drop { preparation } => self.board = self.board.without(preparation),
            Mend::MorePlaces(extra) => {
                // Of a resource that another menu has, nothing more is there.
                let _ = self.board.add_places(extra.clone());
            }
            Mend::Oven { .. } | Mend::Later(_) => return,
        }
        let effort = Effort::default();
        self.lay_out_within(
            now,
            &match unwanted {
                Some(unwanted) => effort.while_wanted(Arc::clone(unwanted)),
                None => effort,
            },
        );
        self.deliveries
            .retain(|step, _| !self.board.is_left_out(*step));
    }

    /// Lays the board out again after it was changed.
    pub fn lay_out(&mut self, now: Timestamp) {
        self.lay_out_within(now, &Effort::default());
    }

    fn lay_out_within(&mut self, now: Timestamp, effort: &Effort) {
        self.plan = self.board.plan_within(now, Some(&self.untouched), effort);
        self.trouble = self.board.trouble_within(&self.plan, now, effort);
        self.who = self.board.who(&self.plan, now);
        self.leave_out();
    }
}

/// Who was last told to have done or begun each step of a day, by its name on the board.
fn told_by(day: &DayBoard, did: &mut HashMap<String, HandName>) {
    let mut events: Vec<_> = day.events.iter().filter(|it| it.by == By::Hand).collect();
    events.sort_by_key(|event| event.at);
    for event in events {
        let name = || {
            let step = day.board.named(&event.step)?;
            Some(day.full(&day.board.step(step).ok()?.full_name()))
        };
        match (event.what, &event.who) {
            (Happened::Begun | Happened::Done, Some(who)) => {
                did.extend(name().map(|name| (name, who.clone())));
            }
            (Happened::Undone, _) => {
                name().and_then(|name| did.remove(&name));
            }
            _ => {}
        }
    }
}

/// Steps of the service asked for that wait for a band are held to when the
/// log is in it.
fn wait_for_ovens(
    store: &Store,
    board: &mut Board,
    notes: &mut HashMap<StepRef, Note>,
    names: &HashMap<String, (Date, String)>,
    question: &PrepQuestion<'_>,
    limits: &Limits,
) -> Result<(), PrepError> {
    let bands: Vec<(StepRef, InBand)> = board
        .bands()
        .map(|(step, band)| (step, band.clone()))
        .collect();
    for (reference, wanted) in bands {
        let Ok(step) = board.step(reference) else {
            continue;
        };
        let today = names
            .get(&step.full_name())
            .is_some_and(|(day, _)| *day == question.day);
        if !today || step.progress != Progress::Waiting {
            continue;
        }
        let needed = step.takes.needed();
        let (oven, surprise, times) = oven(store, &wanted, needed, question.now, limits)?;
        let log = wanted.log.clone();
        notes.insert(
            reference,
            Note::Oven {
                log,
                oven,
                surprise: surprise.map(Box::new),
            },
        );
        if let Some(times) = times {
            // The step is on the board: it came from it.
            let _ = board.set_oven_times(reference, times);
        }
    }
    Ok(())
}

/// What is read now is held against what was foretold so long ago.
const FORETOLD: SignedDuration = SignedDuration::from_mins(30);
/// The least that an oven that falls is looked for to have fallen since, °C.
const FALLEN: i32 = 1_000;

/// Whether an oven that falls is read outside the interval in which it was foretold to be so cold,
/// and nothing was marked that would tell why.
fn surprise(
    whole: &HeatLog,
    around: Surroundings,
    band: Band,
    needed: SignedDuration,
    now: Timestamp,
) -> Option<Surprise> {
    let foretold_at = now.checked_sub(FORETOLD).unwrap_or(now);
    let (log, habit) = mornings(whole, foretold_at);
    let (last, then) = (whole.points().last()?, log.points().last()?);
    let done_since = |marker: &Marker| marker.at > foretold_at && marker.at <= now;
    if whole.markers.iter().any(done_since) || then.temperature <= band.high() {
        return None;
    }
    let fallen = Temperature::from_millicelsius(then.temperature.millicelsius() - FALLEN);
    let level = last.temperature.min(fallen);
    let at_level = Band::new(level, level).ok()?;
    let [
        Forecast::Coming { enters: due, .. },
        Forecast::Coming { enters, leaves },
    ] = forecast_each(&log, [at_level, band], around, &habit, foretold_at)
    else {
        return None;
    };
    let faster = level == last.temperature && last.at < due.early;
    let slower = due.late.is_some_and(|late| last.at > late);
    let times = OvenTimes {
        stretches: vec![BandStretch {
            enters: expected(enters),
            leaves: leaves.map(expected),
        }],
        courses: Vec::new(),
    };
    (faster || slower).then(|| Surprise {
        foretold_at,
        faster,
        was: times.advice(needed, foretold_at),
    })
}

/// What was done to an oven before, and what came of it.
struct Done {
    /// Minutes from lighting it until it falls into the band, and out of it.
    lighting: Option<(Likely, Likely)>,
    /// How many openings of its door tell something.
    openings: usize,
    /// What opening the door now does, the shortest first.
    opening: Vec<AfterDoor>,
    /// Its door is open, or was shut a moment ago.
    opened: Option<AfterDoor>,
}

fn expected(when: When) -> Expected {
    Expected {
        early: when.early,
        likely: when.likely,
        late: when.late,
    }
}

fn after_door(after: &AfterDoor) -> BandStretch {
    BandStretch {
        enters: expected(after.enters),
        leaves: Some(expected(after.leaves)),
    }
}

impl Done {
    fn to(standing: &HeatNow, band: Band, around: Surroundings, now: Timestamp) -> Self {
        let door = Door::learn(&standing.whole, around);
        let (log, habit) = (&standing.log, &standing.habit);
        Self {
            lighting: after_lighting(&standing.whole, band),
            openings: door.openings(),
            opening: door.opened_now(log, band, around, habit, now),
            opened: door.is_open(log, band, around, habit, now),
        }
    }

    /// What else an oven can be made to do, the least trouble first.
    fn courses(&self, now: Timestamp) -> Vec<Course> {
        let lasts = |known: Likely| {
            let of = |minutes: f64| {
                SignedDuration::try_from_secs_f64(minutes * 60.0).unwrap_or(SignedDuration::ZERO)
            };
            Lasts {
                least: of(known.low),
                likely: of(known.likely),
                most: of(known.high),
            }
        };
        let lit = |(enters, leaves)| Course::lit(lasts(enters), lasts(leaves), now);
        let opened = self.opening.iter().map(|after| Course {
            action: OvenAction::OpenDoor(after.open),
            stretches: vec![after_door(after)],
        });
        opened.chain(self.lighting.map(lit)).collect()
    }

    /// What there is to say of the door beside an advice.
    const fn told(&self, advice: &OvenAdvice) -> DoorTold {
        let openings = self.openings;
        let fits = matches!(advice, OvenAdvice::Fits { .. } | OvenAdvice::Only { .. });
        if !self.opening.is_empty() || self.opened.is_some() || (openings == 0 && fits) {
            DoorTold::InTheAdvice
        } else if openings < LEAST_OPENINGS {
            DoorTold::TooFew { openings }
        } else {
            DoorTold::NotOfThis { openings }
        }
    }
}

/// Of an oven that does not come to its band as it goes: what can be done to it.
fn not_coming(
    done: &Done,
    needed: SignedDuration,
    now: Timestamp,
) -> (OvenNote, Option<OvenTimes>) {
    let times = OvenTimes {
        stretches: Vec::new(),
        courses: done.courses(now),
    };
    let note = match times.advice(needed, now) {
        OvenAdvice::No => OvenNote::NotComing,
        advice => OvenNote::NotComingAlone { advice },
    };
    (note, Some(times))
}

/// What a log says of a band, whether it does otherwise than was foretold, and when it is there.
fn oven(
    store: &Store,
    wanted: &InBand,
    needed: SignedDuration,
    now: Timestamp,
    limits: &Limits,
) -> Result<(OvenNote, Option<Surprise>, Option<OvenTimes>), PrepError> {
    let Ok(name) = LogName::new("log", &wanted.log) else {
        return Ok((OvenNote::NoSuchName, None, None));
    };
    let standing = match HeatNow::of(store, &name, Some(limits), now) {
        Ok(standing) => standing,
        Err(StoreError::UnknownHeatLog { .. }) => return Ok((OvenNote::NotRecorded, None, None)),
        Err(error) => return Err(error.into()),
    };
    let Ok(band) = Band::new(wanted.low, wanted.high) else {
        return Ok((OvenNote::NoBand, None, None));
    };
    let around = standing
        .aim
        .as_ref()
        .map_or_else(|| Aim::default().surroundings(), Aim::surroundings);
    let surprise = surprise(&standing.whole, around, band, needed, now);
    let (note, times) = comes_to(&standing, around, band, needed, now);
    Ok((note, surprise, times))
}

/// How an oven as it stands comes to a band, by itself or by what can be done to it.
fn comes_to(
    standing: &HeatNow,
    around: Surroundings,
    band: Band,
    needed: SignedDuration,
    now: Timestamp,
) -> (OvenNote, Option<OvenTimes>) {
    let done = Done::to(standing, band, around, now);
    if let Some(after) = &done.opened {
        // Its course since the door was opened is not the one that it was on.
        let times = OvenTimes {
            stretches: vec![after_door(after)],
            courses: Vec::new(),
        };
        let advice = times.advice(needed, now);
        let (enters, door) = (after.enters, DoorTold::InTheAdvice);
        let note = OvenNote::Coming {
            enters,
            advice,
            door,
        };
        return (note, Some(times));
    }
    let times = |enters: Expected, leaves: Option<When>| {
        let stretches = vec![BandStretch {
            enters,
            leaves: leaves.map(expected),
        }];
        OvenTimes {
            courses: done.courses(now),
            stretches,
        }
    };
    let cold = standing
        .log
        .points()
        .last()
        .is_some_and(|point| point.temperature < band.low());
    match forecast(&standing.log, band, around, &standing.habit, now) {
        // It stands still below its band, and what lighting it does is known.
        Forecast::Unknown(Why::Still) if cold && done.lighting.is_some() => {
            not_coming(&done, needed, now)
        }
        Forecast::Coming { enters, leaves } => {
            let times = times(expected(enters), leaves);
            let advice = times.advice(needed, now);
            let door = if cold {
                DoorTold::InTheAdvice
            } else {
                done.told(&advice)
            };
            (
                OvenNote::Coming {
                    enters,
                    advice,
                    door,
                },
                Some(times),
            )
        }
        Forecast::Inside { leaves } => {
            let times = times(Expected::known(now), leaves);
            let advice = times.advice(needed, now);
            (OvenNote::Inside { leaves, advice }, Some(times))
        }
        Forecast::NotComing => not_coming(&done, needed, now),
        Forecast::Unknown(why) => (OvenNote::Unknown(why), None),
    }
}

/// The service to show at a moment: that of the day by the calendar, or the
/// next one with service within a week.
///
/// # Errors
/// [`PrepError`] where the store cannot be read, or a menu not understood.
pub fn service_day(store: &Store, now: Timestamp, zone: &TimeZone) -> Result<Date, PrepError> {
    let today = store.service_calendar(zone.clone())?.day_of(now);
    for ahead in 0..7 {
        let Ok(day) = today.checked_add(ahead.days()) else {
            break;
        };
        if let Some(menu) = store.menu(day)?
            && serves_on(&menu, day).map_err(|error| PrepError::Menu { day, error })?
        {
            return Ok(day);
        }
    }
    Ok(today)
}
