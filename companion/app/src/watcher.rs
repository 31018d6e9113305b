//! Watching the bench off the screen's thread, so that the screen is painted
//! only when something on it changes.
//!
//! Ten readings a second come from a still bench and all look alike. They wake
//! this thread, not the screen; it works out what the screen would show, and
//! asks for a new picture only where that differs. Clocks and stale readings
//! wake it at the moment they change something.

use super::bench_view::BenchView;
use super::calm::Calm;
use super::sound::{Ear, Scene};
use super::words::Language;
use super::{live, today};
use crossbeam_channel::{Receiver, Sender, TrySendError, select};
use evenhand_kitchen::dish::DishName;
use evenhand_kitchen::moment::show_time;
use evenhand_kitchen::service::{DoubtedSpread, FailedTest};
use evenhand_link::Link;
use evenhand_link::live::{LiveScale, NotDone, Now};
use evenhand_protocol::RunId;
use evenhand_store::Store;
use jiff::tz::TimeZone;
use jiff::{Timestamp, civil::Date};
use std::io;
use std::sync::{Arc, Mutex, PoisonError};
use std::thread::JoinHandle;
use std::time::{Duration, Instant};

/// What the screen shows of the bench and the clock.
#[derive(Debug, Clone, PartialEq)]
pub struct Seen {
    /// The bench.
    pub bench: BenchView,
    /// The time of day.
    pub clock: String,
    /// The outcome of the latest thing asked, by its number.
    pub answer: Option<(u64, Result<(), NotDone>)>,
}

/// What wakes the thread.
enum Wake {
    /// Something may have changed.
    Look,
    /// Another link, or none.
    Link(Option<Arc<Link>>),
    /// The program ends.
    End,
}

/// A way to make the thread look again. Never blocks.
#[derive(Debug, Clone)]
pub struct Nudge(Sender<()>);

impl Nudge {
    /// Has it look again soon; one look covers any number of nudges.
    pub fn nudge(&self) {
        match self.0.try_send(()) {
            Ok(()) | Err(TrySendError::Full(()) | TrySendError::Disconnected(())) => {}
        }
    }
}

/// The thread that watches the bench.
#[derive(Debug)]
pub struct Watcher {
    looks: Sender<()>,
    links: Sender<Option<Arc<Link>>>,
    language: Arc<Mutex<Language>>,
    ear: Arc<Mutex<Option<Ear>>>,
    seen: Arc<Mutex<Arc<Seen>>>,
    thread: Option<JoinHandle<()>>,
}

impl Watcher {
    /// Starts watching. `store` is for today's portions; `changed` is called,
    /// from the thread, when what is seen has changed.
    ///
    /// # Errors
    /// Where the system gives no thread.
    pub fn start(
        store: Store,
        zone: TimeZone,
        changed: impl Fn() + Send + 'static,
    ) -> io::Result<Self> {
        let (looks, looked) = crossbeam_channel::bounded(1);
        let (links, linked) = crossbeam_channel::unbounded();
        let first = Seen {
            bench: BenchView::unplugged(Language::default()),
            clock: show_time(Timestamp::now(), &zone),
            answer: None,
        };
        let seen = Arc::new(Mutex::new(Arc::new(first)));
        let language = Arc::new(Mutex::new(Language::default()));
        let ear = Arc::new(Mutex::new(None));
        let mut watching = Watching {
            looked,
            linked,
            link: None,
            store,
            zone,
            today: None,
            calm: Calm::default(),
            language: Arc::clone(&language),
            ear: Arc::clone(&ear),
            seen: Arc::clone(&seen),
        };
        let thread = std::thread::Builder::new()
            .name("evenhand-watch".to_owned())
            .spawn(move || watching.run(&changed))?;
        Ok(Self {
            looks,
            links,
            language,
            ear,
            seen,
            thread: Some(thread),
        })
    }

    /// A way to make it look again.
    #[must_use]
    pub fn nudge(&self) -> Nudge {
        Nudge(self.looks.clone())
    }

    /// Watches another link, or none.
    pub fn watch(&self, link: Option<Arc<Link>>) {
        // It ends only when this handle does.
        let _ = self.links.send(link);
    }

    /// Tells what is seen in this language from now on.
    pub fn speak(&self, language: Language) {
        *self.language.lock().unwrap_or_else(PoisonError::into_inner) = language;
        self.nudge().nudge();
    }

    /// Tells what is seen to be heard, from now on.
    pub(super) fn let_hear(&self, ear: Option<Ear>) {
        *self.ear.lock().unwrap_or_else(PoisonError::into_inner) = ear;
        self.nudge().nudge();
    }

    /// What was seen last.
    #[must_use]
    pub fn seen(&self) -> Arc<Seen> {
        Arc::clone(&self.seen.lock().unwrap_or_else(PoisonError::into_inner))
    }
}

impl Drop for Watcher {
    fn drop(&mut self) {
        let (gone, _) = crossbeam_channel::bounded(0);
        self.links = gone;
        if let Some(thread) = self.thread.take() {
            // Nothing is lost with it.
            let _ = thread.join();
        }
    }
}

/// Today's portions, and what they were worked out from.
struct Today {
    of: TodayKey,
    spread: Option<DoubtedSpread>,
    failed_tests: Vec<FailedTest>,
}

/// Today's portions are counted anew when any of this changes.
#[derive(PartialEq, Eq)]
struct TodayKey {
    day: Date,
    dish: Option<DishName>,
    run: Option<RunId>,
    portions: usize,
    counting: usize,
}

struct Watching {
    looked: Receiver<()>,
    linked: Receiver<Option<Arc<Link>>>,
    link: Option<Arc<Link>>,
    store: Store,
    zone: TimeZone,
    today: Option<Today>,
    calm: Calm,
    language: Arc<Mutex<Language>>,
    ear: Arc<Mutex<Option<Ear>>>,
    seen: Arc<Mutex<Arc<Seen>>>,
}

impl Watching {
    fn run(&mut self, changed: &impl Fn()) {
        loop {
            let wait = self.look(changed);
            match self.sleep(wait) {
                Wake::Look => {}
                Wake::Link(link) => self.link = link,
                Wake::End => return,
            }
        }
    }

    fn sleep(&self, wait: Duration) -> Wake {
        select! {
            recv(self.looked) -> looked => match looked {
                Ok(()) => Wake::Look,
                // Links still come; those end the thread.
                Err(_) => self.linked.recv().map_or(Wake::End, Wake::Link),
            },
            recv(self.linked) -> linked => linked.map_or(Wake::End, Wake::Link),
            default(wait) => Wake::Look,
        }
    }

    /// Looks at the bench; returns how long until something changes by itself.
    fn look(&mut self, changed: &impl Fn()) -> Duration {
        let now = Now {
            steady: Instant::now(),
            wall: Timestamp::now(),
        };
        let bench = self
            .link
            .as_ref()
            .map_or_else(|| Arc::new(LiveScale::new()), |link| link.live());
        self.count_today(&bench, now.wall);
        let figures = match &self.today {
            Some(today) => (today.spread.as_ref(), today.failed_tests.as_slice()),
            None => (None, [].as_slice()),
        };
        let language = *self.language.lock().unwrap_or_else(PoisonError::into_inner);
        let mut view = live::view(&bench, now, figures, &self.zone, language);
        view.probe = self.calm.settle(view.probe, now.steady);
        let seen = Seen {
            bench: view,
            clock: show_time(now.wall, &self.zone),
            answer: bench
                .answer()
                .map(|(number, outcome)| (number, outcome.map_err(Clone::clone))),
        };
        let mut before = self.seen.lock().unwrap_or_else(PoisonError::into_inner);
        let differs = **before != seen;
        let seen = Arc::new(seen);
        if differs {
            *before = Arc::clone(&seen);
        }
        drop(before);
        if differs {
            if let Some(ear) = &*self.ear.lock().unwrap_or_else(PoisonError::into_inner) {
                let not_done = seen.answer.as_ref().filter(|(_, outcome)| outcome.is_err());
                let not_done = not_done.map(|(number, _)| *number);
                ear.hear(Scene::of(&seen.bench, not_done, language));
            }
            changed();
        }
        let minute = to_next_minute(now.wall);
        live::changes_in(&bench, now).map_or(minute, |bench| bench.min(minute))
    }

    fn count_today(&mut self, bench: &LiveScale, now: Timestamp) {
        let run = bench.run();
        let of = TodayKey {
            day: now.to_zoned_datetime(self.zone.clone()).date(),
            dish: run.and_then(|live| live.run.dish.clone()),
            run: run.map(|live| live.run.id),
            portions: run.map_or(0, |live| live.portions().len()),
            counting: run.map_or(0, evenhand_link::live::LiveRun::count),
        };
        if self.today.as_ref().is_some_and(|today| today.of == of) {
            return;
        }
        // Nothing is told of a scale that fails its test now but by its next portion.
        let failed_tests = today::failed_tests(&self.store);
        let dish = of.dish.clone();
        let spread = today::spread(&self.store, dish, now, &self.zone, &failed_tests);
        self.today = Some(Today {
            of,
            spread,
            failed_tests,
        });
    }
}

/// Just past the next full minute. Every zone in use is whole minutes from
/// UTC.
pub(super) fn to_next_minute(now: Timestamp) -> Duration {
    let into = now.as_millisecond().rem_euclid(60_000);
    Duration::from_millis(60_000_u64.saturating_sub(into.unsigned_abs()) + 1)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_next_minute_is_after_this_moment_and_within_one() {
        for (text, expected) in [
            ("2026-03-14T19:42:00Z", 60_001),
            ("2026-03-14T19:42:59.5Z", 501),
            ("2026-03-14T19:42:00.001Z", 60_000),
        ] {
            let now: Timestamp = text.parse().unwrap();
            assert_eq!(to_next_minute(now).as_millis(), expected, "{text}");
        }
    }
}
