//! Heat, prep and melt for the screens: worked out off the screen's thread, and
//! published only where what is shown differs.
//!
//! The probe is looked at once a second while it is recorded, or while a run
//! goes on; else this thread wakes once a minute. What it keeps goes to the
//! store at once.

use super::bench_view::Tone;
use super::heat_view::{self, HeatView};
use super::melt_view::{self, LossView, MeltView};
use super::prep_view::{self, PrepView, Supposed};
use super::telling::Telling;
use super::timeline_view::{self, TimelineView};
use super::week_view::{self, WeekView};
use super::words::{Language, say};
use super::worker::{Looking, Publisher};
use evenhand_kitchen::heat::{Aim, Band, LogName, Marker, Sampling};
use evenhand_kitchen::limits::Limits;
use evenhand_kitchen::melt::LossWatch;
use evenhand_kitchen::prep::{Board, HandName, Happened, Mend, Unwanted};
use evenhand_link::Link;
use evenhand_link::live::{LiveScale, NotDone};
use evenhand_protocol::{Mass, Phase, Reading, Temperature};
use evenhand_store::{DataFolder, Store, StoreError};
use evenhand_use_cases::heat::{HeatNow, Recorder, follow, log_words, probes};
use evenhand_use_cases::instrument;
use evenhand_use_cases::limits::{self, LimitsError};
use evenhand_use_cases::melt::melt_clock;
use evenhand_use_cases::plain_files::write_whole;
use evenhand_use_cases::prep::{
    DAYS_AHEAD, PrepNow, PrepQuestion, Timeline, Week, error_words, lists_pdf, service_day,
    take_off, take_off_words,
};
use evenhand_use_cases::times;
use jiff::Timestamp;
use jiff::civil::Date;
use jiff::tz::TimeZone;
use std::io;
use std::path::PathBuf;
use std::sync::Arc;
use std::sync::atomic::{AtomicU64, Ordering};
use std::time::{Duration, Instant};

/// How often the probe is looked at while it matters.
const LOOK: Duration = Duration::from_secs(1);

/// What a cook asks of the kitchen's clocks.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum KitchenIntent {
    /// Show this log.
    ChooseLog(LogName),
    /// Record the probe into the log shown, or stop.
    Record(bool),
    /// Put a word at this moment of the log shown.
    Mark(String),
    /// Watch the log shown for a band.
    AimBand(Temperature, Temperature),
    /// Watch the log shown for a limit.
    AimLimit(String),
    /// Tell something of a step of a service.
    Tick(Date, String, Happened),
    /// The same, told of a pair of hands.
    TickBy(Date, String, Happened, String),
    /// Something told of a step that was at another time than now.
    TellAt(Telling),
    /// Write the day's lists as PDF.
    PrintLists,
    /// Take the last thing told back.
    UndoTick,
    /// Show what would be if; `None` for how it is.
    WhatIf(Option<String>),
    /// Show what would be with this change.
    TryMend(Mend),
    /// What is shown as what-if is how it is: put it on record.
    KeepWhatIf,
    /// The scoops went back into the cold.
    BackInCold,
    /// So many more guests are expected on a day, or fewer.
    MoreCovers(Date, i32),
    /// Show the week from now on.
    LookAtWeek,
}

/// What is seen of the kitchen's clocks.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct KitchenSeen {
    /// The heat screen.
    pub heat: HeatView,
    /// The prep screen.
    pub prep: PrepView,
    /// The melt clock of the run going on.
    pub melt: Option<MeltView>,
    /// What lies on the pan loses so much.
    pub loss: Option<LossView>,
    /// Why the last wish could not be carried out, with a number that goes up.
    pub complaint: Option<(u64, String)>,
}

#[derive(Debug)]
enum Wish {
    Link(Option<Arc<Link>>),
    Do(KitchenIntent),
    Speak(Language),
    LookAgain,
}

/// The thread's handle.
#[derive(Debug)]
pub struct KitchenWatch {
    /// Counts what was asked: a plan for an older question is given up.
    asked: Arc<AtomicU64>,
    watching: Publisher<Wish, KitchenSeen>,
}

fn limits(folder: &DataFolder) -> Result<Limits, LimitsError> {
    limits::in_force(folder.path())
}

impl KitchenWatch {
    /// Starts the thread. `changed` is called, from the thread, when what is
    /// seen has changed.
    ///
    /// # Errors
    /// Where the system gives no thread.
    pub fn start(
        folder: DataFolder,
        store: Store,
        zone: TimeZone,
        changed: impl Fn() + Send + 'static,
    ) -> io::Result<Self> {
        let asked = Arc::new(AtomicU64::new(0));
        let watching = Watching {
            asked: Arc::clone(&asked),
            anew: true,
            superseded: false,
            folder,
            store,
            zone,
            language: Language::default(),
            link: None,
            chosen: None,
            recorder: None,
            what_if: None,
            to_try: Vec::new(),
            last_tick: None,
            printed: None,
            week: false,
            complaint: None,
            looked: None,
            minute: None,
            losing: LossWatch::default(),
            prep: PrepView::default(),
            heat: HeatView::default(),
        };
        let first = KitchenSeen::default();
        Ok(Self {
            asked,
            watching: Publisher::start("evenhand-kitchen", watching, first, changed)?,
        })
    }

    /// Looks at another link's probe, or none's.
    pub fn watch(&self, link: Option<Arc<Link>>) {
        self.wish(Wish::Link(link));
    }

    /// Tells what is seen in this language from now on.
    pub fn speak(&self, language: Language) {
        self.wish(Wish::Speak(language));
    }

    /// Looks again at what is on record: somebody else has changed it.
    pub fn look_again(&self) {
        self.wish(Wish::LookAgain);
    }

    /// Carries something out.
    pub fn ask(&self, intent: KitchenIntent) {
        self.wish(Wish::Do(intent));
    }

    fn wish(&self, wish: Wish) {
        self.watching.tell(wish);
        self.asked.fetch_add(1, Ordering::SeqCst);
    }

    /// What was seen last.
    #[must_use]
    pub fn seen(&self) -> Arc<KitchenSeen> {
        self.watching.seen()
    }
}

impl Drop for KitchenWatch {
    fn drop(&mut self) {
        self.watching.close();
        // No plan is waited for.
        self.asked.fetch_add(1, Ordering::SeqCst);
    }
}

/// What the bench showed when it was last looked at; anything else calls for a
/// new look at the board.
#[derive(PartialEq, Eq)]
struct Looked {
    run: Option<u32>,
    portions: usize,
    ended: bool,
}

struct Watching {
    asked: Arc<AtomicU64>,
    /// Something was told, so that all is looked at.
    anew: bool,
    /// The plan being worked out was given up for a newer question.
    superseded: bool,
    folder: DataFolder,
    store: Store,
    zone: TimeZone,
    language: Language,
    link: Option<Arc<Link>>,
    chosen: Option<LogName>,
    recorder: Option<Recorder>,
    what_if: Option<Supposed>,
    /// Changes that can be tried, by the plan as it is.
    to_try: Vec<Mend>,
    /// The service and step that something was last told of here.
    last_tick: Option<(Date, String)>,
    /// Where the lists were written last.
    printed: Option<PathBuf>,
    /// Whether the week was asked for.
    week: bool,
    complaint: Option<(u64, String)>,
    looked: Option<Looked>,
    minute: Option<i64>,
    losing: LossWatch,
    prep: PrepView,
    heat: HeatView,
}

/// The step that is reckoned with before the instrument has said its own.
const USUAL_STEP: Mass = Mass::from_milligrams(100);

/// What lies on the pan at rest, or in a dish that food is added to.
fn at_rest(reading: &Reading) -> Option<Mass> {
    match reading.phase {
        _ if !reading.stable => None,
        Phase::Weighing => reading.net(),
        Phase::Filling => reading.amount,
        _ => None,
    }
}

impl Watching {
    fn complain(&mut self, words: String) {
        let number = self.complaint.as_ref().map_or(0, |(n, _)| n + 1);
        self.complaint = Some((number, words));
    }
}

impl Looking for Watching {
    type Told = Wish;
    type Seen = KitchenSeen;

    fn take_in(&mut self, wish: Wish) {
        self.anew = true;
        match wish {
            Wish::Link(link) => self.link = link,
            Wish::Speak(language) => {
                self.language = language;
                // The days in its names are called otherwise now.
                self.what_if = None;
            }
            Wish::LookAgain => {}
            Wish::Do(intent) => {
                if let Err(words) = self.carry_out(intent) {
                    self.complain(words);
                }
            }
        }
    }

    fn end(&mut self) {
        if let Some(recorder) = self.recorder.take() {
            // The last reading of at most a minute; all others are kept.
            let _ = recorder.close(&mut self.store);
        }
    }

    fn look(&mut self) -> (KitchenSeen, Duration) {
        let anew = std::mem::take(&mut self.anew) || self.superseded;
        let now = Timestamp::now();
        let bench = self
            .link
            .as_ref()
            .map_or_else(|| Arc::new(LiveScale::new()), |link| link.live());
        let reading = bench.reading(Instant::now());
        let read = reading.and_then(|reading| probes(reading).first().copied().flatten());
        let kept = match &mut self.recorder {
            Some(recorder) => match recorder.take(&mut self.store, now, read) {
                Ok(kept) => !kept.is_empty(),
                Err(error) => {
                    let words = say!(
                        self.language,
                        "heat-not-recorded",
                        log = log_words(self.language, recorder.name()),
                        why = error.to_string()
                    )
                    .into_owned();
                    if self.complaint.as_ref().map(|(_, said)| said) != Some(&words) {
                        self.complain(words);
                    }
                    false
                }
            },
            None => false,
        };
        let run = bench.run();
        let looked = Looked {
            run: run.map(|live| live.run.id.0),
            portions: run.map_or(0, |live| live.portions().len()),
            ended: run.is_some_and(|live| live.run.ended.is_some()),
        };
        let minute = now.as_second().div_euclid(60);
        let stale = self.minute != Some(minute);
        let bench_changed = self.looked.as_ref() != Some(&looked);
        if anew || stale || bench_changed {
            let view = self.prep_view(now);
            self.superseded = view.is_none();
            if let Some(view) = view {
                self.prep = view;
            }
        }
        if anew || stale || kept {
            self.heat = self.heat_view(now);
        }
        self.heat.probe = read.is_some();
        self.minute = Some(minute);
        let clock = run
            .filter(|live| live.run.ended.is_none())
            .and_then(|live| melt_clock(&self.store, live).ok().flatten());
        self.looked = Some(looked);
        let step = bench
            .hello()
            .map_or(USUAL_STEP, |hello| hello.interval)
            .max(Mass::from_milligrams(1));
        self.losing.take(now, reading.and_then(at_rest), step);
        let loss = self
            .losing
            .loss(step)
            .and_then(|loss| melt_view::losing(&loss, self.language));
        let seen = KitchenSeen {
            heat: self.heat.clone(),
            prep: self.prep.clone(),
            melt: clock
                .as_ref()
                .map(|clock| melt_view::view(clock, now, self.language)),
            loss,
            complaint: self.complaint.clone(),
        };
        if self.superseded {
            return (seen, Duration::ZERO);
        }
        let mut wait = super::watcher::to_next_minute(now);
        if self.recorder.is_some() || self.link.is_some() {
            wait = wait.min(LOOK);
        }
        if let Some(clock) = &clock {
            wait = wait.min(melt_view::changes_in(clock, now));
        }
        (seen, wait)
    }
}

impl Watching {
    fn heat_view(&mut self, now: Timestamp) -> HeatView {
        let logs = self.store.heat_logs().unwrap_or_default();
        if self.chosen.is_none() {
            self.chosen = logs.first().map(|log| log.name.clone());
        }
        let recording = self.recorder.as_ref().map(|r| r.name().clone());
        let in_force = limits(&self.folder);
        let shown = self.chosen.as_ref().and_then(|name| {
            let standing = HeatNow::of(&self.store, name, in_force.as_ref().ok(), now).ok()?;
            let records = recording.as_ref().is_some_and(|r| r.key() == name.key());
            let record = follow(&mut self.store, name, &standing, now).ok();
            let mut shown = heat_view::shown(
                name,
                &standing,
                records,
                record,
                now,
                &self.zone,
                self.language,
            );
            if let Err(trouble) = &in_force {
                shown.says.insert(0, (Tone::Stop, format!("{trouble}.")));
            }
            Some(shown)
        });
        HeatView {
            logs: heat_view::tiles(&logs, self.chosen.as_ref(), &self.zone, self.language),
            shown,
            recording: recording.map(|name| log_words(self.language, &name)),
            probe: self.heat.probe,
            limits: in_force
                .as_ref()
                .map(|limits| heat_view::limit_tiles(limits, self.language))
                .unwrap_or_default(),
            limits_trouble: in_force.err().map(|trouble| format!("{trouble}.")),
        }
    }

    /// What is asked of the service of a day, as the record has it.
    const fn question(&self, day: Date, now: Timestamp) -> PrepQuestion<'_> {
        PrepQuestion {
            day,
            menu: None,
            covers: None,
            days_ahead: DAYS_AHEAD,
            what_if: &[],
            now,
            zone: &self.zone,
            language: self.language,
            unwanted: None,
        }
    }

    fn prep_now(
        &self,
        now: Timestamp,
        what_if: &[String],
        unwanted: Option<&Unwanted>,
    ) -> Result<PrepNow, String> {
        let day = service_day(&self.store, now, &self.zone)
            .map_err(|error| error_words(self.language, &error))?;
        let question = PrepQuestion {
            what_if,
            unwanted,
            ..self.question(day, now)
        };
        let limits = limits(&self.folder).map_err(|error| format!("{error}."))?;
        PrepNow::of(&self.store, &question, &limits)
            .map_err(|error| error_words(self.language, &error))
    }

    /// What the prep screen shows; `None` where something newer was asked meanwhile.
    fn prep_view(&mut self, now: Timestamp) -> Option<PrepView> {
        let what_if: Vec<String> = match &self.what_if {
            Some(Supposed::Later(text)) => vec![text.clone()],
            Some(Supposed::Mend(_)) | None => Vec::new(),
        };
        let (asked, this) = (Arc::clone(&self.asked), self.asked.load(Ordering::SeqCst));
        let unwanted: Unwanted = Arc::new(move || asked.load(Ordering::SeqCst) != this);
        let mut prep = self.prep_now(now, &what_if, Some(&unwanted));
        if let (Ok(prep), Some(Supposed::Mend(mend))) = (&mut prep, &self.what_if) {
            prep.suppose(mend, now, Some(&unwanted));
        }
        if unwanted() {
            return None;
        }
        Some(match prep {
            Ok(prep) => {
                if self.what_if.is_none() {
                    self.to_try = prep_view::to_try(&prep, now);
                }
                let on = self.what_if.as_ref();
                let (zone, language) = (&self.zone, self.language);
                let mut view = prep_view::view(
                    &prep,
                    match on {
                        Some(Supposed::Later(text)) => Some(text.as_str()),
                        Some(Supposed::Mend(_)) | None => None,
                    },
                    self.last_tick.as_ref().map(|(_, step)| step.clone()),
                    now,
                    &self.zone,
                    self.language,
                );
                view.printed = self.printed.as_ref().map(|path| {
                    let path = path.display().to_string();
                    say!(language, "prep-printed", path = path).into_owned()
                });
                view.supposed =
                    on.map(|on| prep_view::supposed_words(&prep, on, now, zone, language));
                view.trying = prep_view::trying(&prep, on, &self.to_try, now, zone, language);
                match self.timeline(&prep, now) {
                    Ok(timeline) => view.timeline = Some(timeline),
                    Err(why) => view.trouble = Some(why),
                }
                view.week = self.week.then(|| self.week(prep.day, now));
                view
            }
            Err(error) => PrepView {
                trouble: Some(error),
                ..PrepView::default()
            },
        })
    }

    /// The week from a service on.
    fn week(&self, from: Date, now: Timestamp) -> WeekView {
        let question = PrepQuestion {
            days_ahead: 6,
            ..self.question(from, now)
        };
        let week = limits(&self.folder)
            .map_err(|error| format!("{error}."))
            .and_then(|limits| {
                Week::of(&self.store, &question, &limits)
                    .map_err(|error| error_words(self.language, &error))
            });
        match week {
            Ok(week) => {
                let today = now.to_zoned_datetime(self.zone.clone()).date();
                week_view::view(&week, today, &self.zone, self.language)
            }
            Err(why) => WeekView {
                notes: vec![why],
                ..WeekView::default()
            },
        }
    }

    fn timeline(&self, prep: &PrepNow, now: Timestamp) -> Result<TimelineView, String> {
        let timeline = Timeline::of(prep, &self.store, now).map_err(|error| format!("{error}."))?;
        Ok(timeline_view::view(
            &timeline,
            prep,
            now,
            &self.zone,
            self.language,
        ))
    }

    fn carry_out(&mut self, intent: KitchenIntent) -> Result<(), String> {
        let now = Timestamp::now();
        let said = |error: StoreError| format!("{error}.");
        match intent {
            KitchenIntent::ChooseLog(name) => {
                self.chosen = Some(name);
                Ok(())
            }
            KitchenIntent::Record(true) => {
                let name = self.begun(now)?;
                self.stop_recording()?;
                let rule = Sampling::KITCHEN;
                let recorder = Recorder::open(&mut self.store, name, rule, now).map_err(said)?;
                self.recorder = Some(recorder);
                Ok(())
            }
            KitchenIntent::Record(false) => self.stop_recording(),
            KitchenIntent::Mark(text) => {
                let name = self.begun(now)?;
                self.store
                    .mark_heat(&name, &Marker { at: now, text }, now)
                    .map_err(said)
            }
            KitchenIntent::AimBand(low, high) => {
                let band = Band::new(low, high).map_err(|error| format!("{error}."))?;
                self.aim(&Aim::band_of(band, None), now)
            }
            KitchenIntent::AimLimit(limit) => {
                limits(&self.folder).map_err(|error| format!("{error}."))?;
                self.aim(&Aim::limit_of(limit, None), now)
            }
            KitchenIntent::Tick(day, step, what) => {
                self.store
                    .tell_step(day, &step, now, what, now)
                    .map_err(said)?;
                self.last_tick = Some((day, step));
                Ok(())
            }
            KitchenIntent::TickBy(day, step, what, who) => {
                let who = HandName::new("by", &who).map_err(|error| format!("{error}."))?;
                self.store
                    .tell_step_of(day, &step, now, (what, who), now)
                    .map_err(said)?;
                self.last_tick = Some((day, step));
                Ok(())
            }
            KitchenIntent::TellAt(telling) => self.tell_at(telling, now),
            KitchenIntent::PrintLists => self.print_lists(now),
            KitchenIntent::UndoTick => {
                let Some((day, step)) = self.last_tick.take() else {
                    return Ok(());
                };
                self.store
                    .tell_step(day, &step, now, Happened::Undone, now)
                    .map_err(said)
            }
            KitchenIntent::MoreCovers(day, more) => {
                // A count that nobody has put down yet begins at none.
                let before = self.store.covers(day).map_err(said)?.unwrap_or(0);
                let covers = before.saturating_add_signed(more);
                self.store.note_covers(day, covers, now).map_err(said)
            }
            KitchenIntent::LookAtWeek => {
                self.week = true;
                Ok(())
            }
            KitchenIntent::WhatIf(what_if) => {
                self.what_if = what_if.map(Supposed::Later);
                Ok(())
            }
            KitchenIntent::TryMend(mend) => {
                self.what_if = Some(Supposed::Mend(mend));
                Ok(())
            }
            KitchenIntent::KeepWhatIf => self.keep_what_if(now),
            KitchenIntent::BackInCold => {
                let run = self
                    .link
                    .as_ref()
                    .and_then(|link| link.live().run().map(|live| live.run.id));
                match run {
                    Some(run) => self.store.back_in_cold(run, now).map_err(said),
                    None => Err(instrument::not_done(self.language, &NotDone::NoRun)),
                }
            }
        }
    }

    /// Puts down what was at another time, where that can have been so.
    fn tell_at(&mut self, telling: Telling, now: Timestamp) -> Result<(), String> {
        let said = |error: StoreError| format!("{error}.");
        let at = telling.at();
        let Telling {
            of: (day, step),
            what,
            by,
            ..
        } = telling;
        let menu = self.store.menu(day).map_err(said)?;
        let board = menu.and_then(|menu| Board::from_menu(&menu, day, self.zone.clone()).ok());
        if board.is_some_and(|board| board.can_be_told(at).is_err()) {
            let today = now.to_zoned_datetime(self.zone.clone()).date();
            let time = times::near(self.language, at, today, &self.zone);
            let day = times::day(self.language, day);
            return Err(say!(
                self.language,
                "prep-tell-outside",
                step = step.as_str(),
                time = time,
                day = day
            )
            .into_owned());
        }
        let by = by.map(|by| HandName::new("by", &by)).transpose();
        match by.map_err(|error| format!("{error}."))? {
            Some(by) => self.store.tell_step_of(day, &step, at, (what, by), now),
            None => self.store.tell_step(day, &step, at, what, now),
        }
        .map_err(said)?;
        self.last_tick = (what != Happened::Undone).then_some((day, step));
        Ok(())
    }

    /// Writes the lists of the day, everybody's and each pair of hands' own.
    fn print_lists(&mut self, now: Timestamp) -> Result<(), String> {
        let prep = self.prep_now(now, &[], None)?;
        let not_written = |why: &dyn std::fmt::Display| {
            let why = why.to_string();
            say!(self.language, "menus-not-written", why = why).into_owned()
        };
        let pdf = lists_pdf(self.language, &prep, None, now, &self.zone);
        let pdf = pdf.map_err(|error| not_written(&error))?;
        let path = self.folder.path().join(format!("prep-{}.pdf", prep.day));
        write_whole(&path, &pdf).map_err(|error| not_written(&error))?;
        self.printed = Some(path);
        Ok(())
    }

    /// The log shown, begun where it is not.
    fn begun(&mut self, now: Timestamp) -> Result<LogName, String> {
        let name = match &self.chosen {
            Some(name) => name.clone(),
            None => LogName::new("name", "oven").map_err(|error| format!("{error}."))?,
        };
        let step = evenhand_kitchen::heat::HeatLog::USUAL_STEP;
        self.store
            .open_heat_log(&name, step, now)
            .map_err(|error| format!("{error}."))?;
        self.chosen = Some(name.clone());
        Ok(name)
    }

    fn stop_recording(&mut self) -> Result<(), String> {
        match self.recorder.take() {
            Some(recorder) => recorder
                .close(&mut self.store)
                .map(drop)
                .map_err(|error| format!("{error}.")),
            None => Ok(()),
        }
    }

    fn aim(&mut self, aim: &Aim, now: Timestamp) -> Result<(), String> {
        let name = self.begun(now)?;
        let toward = self
            .store
            .heat_aim(&name)
            .ok()
            .flatten()
            .and_then(|before| before.toward);
        let mut aim = aim.clone();
        aim.toward = toward;
        self.store
            .aim_heat(&name, &aim, now)
            .map_err(|error| format!("{error}."))
    }

    /// Puts what the what-if moved on record as delays.
    fn keep_what_if(&mut self, now: Timestamp) -> Result<(), String> {
        let what_if = match self.what_if.take() {
            Some(Supposed::Later(text)) => text,
            Some(Supposed::Mend(
                Mend::Swap { preparation, .. }
                | Mend::BuyIn { preparation }
                | Mend::Drop { preparation },
            )) => {
                let day = service_day(&self.store, now, &self.zone)
                    .map_err(|error| error_words(self.language, &error))?;
                return take_off(&mut self.store, day, &preparation, now, &self.zone)
                    .map(drop)
                    .map_err(|error| take_off_words(self.language, &error));
            }
            Some(Supposed::Mend(_)) | None => return Ok(()),
        };
        let said = |error: &dyn std::fmt::Display| format!("{error}.");
        let moved = self.prep_now(now, std::slice::from_ref(&what_if), None)?;
        for name in &moved.moved {
            let Some(step) = moved.board.named(name) else {
                continue;
            };
            let (Some((day, there)), Ok(known)) =
                (moved.of_service.get(&step), moved.board.step(step))
            else {
                continue;
            };
            if let Some(until) = known.not_before {
                self.store
                    .tell_step(*day, there, now, Happened::Delayed { until }, now)
                    .map_err(|error| said(&error))?;
            }
        }
        Ok(())
    }
}
