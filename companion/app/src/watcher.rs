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
use super::worker::{Looking, Nudge, Publisher};
use super::{live, today};
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

/// The thread that watches the bench.
#[derive(Debug)]
pub struct Watcher {
    language: Arc<Mutex<Language>>,
    ear: Arc<Mutex<Option<Ear>>>,
    watching: Publisher<Option<Arc<Link>>, Seen>,
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
        let first = Seen {
            bench: BenchView::unplugged(Language::default()),
            clock: show_time(Timestamp::now(), &zone),
            answer: None,
        };
        let language = Arc::new(Mutex::new(Language::default()));
        let ear = Arc::new(Mutex::new(None));
        let watching = Watching {
            link: None,
            store,
            zone,
            today: None,
            calm: Calm::default(),
            language: Arc::clone(&language),
            ear: Arc::clone(&ear),
        };
        Ok(Self {
            language,
            ear,
            watching: Publisher::start("evenhand-watch", watching, first, changed)?,
        })
    }

    /// A way to make it look again.
    #[must_use]
    pub fn nudge(&self) -> Nudge {
        self.watching.nudge()
    }

    /// Watches another link, or none.
    pub fn watch(&self, link: Option<Arc<Link>>) {
        self.watching.tell(link);
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
        self.watching.seen()
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
    link: Option<Arc<Link>>,
    store: Store,
    zone: TimeZone,
    today: Option<Today>,
    calm: Calm,
    language: Arc<Mutex<Language>>,
    ear: Arc<Mutex<Option<Ear>>>,
}

impl Watching {
    fn language(&self) -> Language {
        *self.language.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

impl Looking for Watching {
    type Told = Option<Arc<Link>>;
    type Seen = Seen;

    fn take_in(&mut self, link: Option<Arc<Link>>) {
        self.link = link;
    }

    fn look(&mut self) -> (Seen, Duration) {
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
        let language = self.language();
        let mut view = live::view(&bench, now, figures, &self.zone, language);
        view.probe = self.calm.settle(view.probe, now.steady);
        let seen = Seen {
            bench: view,
            clock: show_time(now.wall, &self.zone),
            answer: bench
                .answer()
                .map(|(number, outcome)| (number, outcome.map_err(Clone::clone))),
        };
        let minute = to_next_minute(now.wall);
        let wait = live::changes_in(&bench, now).map_or(minute, |bench| bench.min(minute));
        (seen, wait)
    }

    fn published(&self, seen: &Seen) {
        if let Some(ear) = &*self.ear.lock().unwrap_or_else(PoisonError::into_inner) {
            let not_done = seen.answer.as_ref().filter(|(_, outcome)| outcome.is_err());
            let not_done = not_done.map(|(number, _)| *number);
            ear.hear(Scene::of(&seen.bench, not_done, self.language()));
        }
    }
}

impl Watching {
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
