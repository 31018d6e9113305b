//! The thread that ties the conversation to the store and the live bench.

mod portions;
mod rate;
mod requests;
mod runs;

use super::clock_watch::ClockWatch;
use super::handle::Shared;
use super::line::{Dial, Line, LineEnd};
use super::request::{Request, Ticket};
use super::session::{Conversation, Heard, Session};
use crate::live::{LinkState, LiveScale, Now, Trouble, TroubleKind};
use crossbeam_channel::{Receiver, RecvTimeoutError};
use evenhand_kitchen::instrument_clock::InstrumentClock;
use evenhand_protocol::{Command, DeviceId, Epoch, Hello, Report, RunId, UnixMillis};
use evenhand_store::{ClockStep, InstrumentMoment, Store};
use jiff::{SignedDuration, Timestamp};
use rate::Rate;
use requests::Purpose;
use runs::{Stopping, Wanted};
use std::sync::Arc;
use std::sync::atomic::Ordering;
use std::time::{Duration, Instant};

/// How long one wait for bytes may last; requests wait no longer than this.
const READ_PATIENCE: Duration = Duration::from_millis(30);
/// How often to try a port that cannot be opened.
const DIAL_EVERY: Duration = Duration::from_millis(700);
/// How long to leave a peer of another version alone.
const OTHER_VERSION_PAUSE: Duration = Duration::from_secs(5);
/// How often to compare this computer's two clocks.
const CLOCK_EVERY: Duration = Duration::from_secs(1);
/// How often to tell the instrument the time, whose own clock drifts.
const TIME_EVERY: Duration = Duration::from_secs(15 * 60);

/// How many portions may come at once, more than a scale holds for a desktop
/// that was away, and how many a second then: nobody portions faster.
const PORTIONS: (u32, u32) = (2_500, 20);
/// How often to note again that an instrument was met.
const MEET_EVERY: Duration = Duration::from_secs(60);
/// How long nothing may have come before the store's log is put into its file.
const IDLE: Duration = Duration::from_secs(5);

/// An open line with its conversation.
struct Open {
    line: Box<dyn Line>,
    session: Session,
    /// Whether a reading came since the instrument last said who it is.
    reading_seen: bool,
}

/// Everything the thread owns.
pub(super) struct Worker {
    dial: Box<dyn Dial>,
    store: Store,
    asked: Receiver<(Ticket, Request)>,
    shared: Arc<Shared>,
    wake: Box<dyn Fn() + Send>,
    bench: LiveScale,
    published: Option<u64>,
    open: Option<Open>,
    dial_at: Option<Instant>,
    was_linked: bool,
    /// A request that waits for the link.
    first: Option<(Ticket, Request)>,
    purposes: Vec<(Ticket, Purpose)>,
    next_own: u64,
    wanted: Option<Wanted>,
    stopping: Option<Stopping>,
    /// The instrument's run that was looked up in the store last.
    considered: Option<RunId>,
    clock: Option<InstrumentClock>,
    clock_watch: Option<(ClockWatch, Instant)>,
    /// When the instrument was last told the time.
    time_told: Option<Instant>,
    store_retry: Option<Instant>,
    /// The instrument that this link is with: the first that answered.
    instrument: Option<DeviceId>,
    /// Another that answers in its place. Nothing of it is taken.
    stranger: Option<DeviceId>,
    portions: Rate,
    /// What was met last, and when.
    met: Option<(DeviceId, Epoch, Instant)>,
    /// When something was recorded last that the store's log still holds.
    in_log: Option<Instant>,
}

impl Worker {
    pub(super) fn new(
        dial: Box<dyn Dial>,
        store: Store,
        first: Option<(Ticket, Request)>,
        asked: Receiver<(Ticket, Request)>,
        shared: Arc<Shared>,
        wake: Box<dyn Fn() + Send>,
    ) -> Self {
        let mut bench = LiveScale::new();
        bench.link_is(LinkState::Calling {
            port: dial.place().to_owned(),
        });
        Self {
            dial,
            store,
            asked,
            shared,
            wake,
            bench,
            published: None,
            open: None,
            dial_at: None,
            was_linked: false,
            first,
            purposes: Vec::new(),
            next_own: 1 << 63,
            wanted: None,
            stopping: None,
            considered: None,
            clock: None,
            clock_watch: None,
            time_told: None,
            store_retry: None,
            instrument: None,
            stranger: None,
            portions: Rate::new(PORTIONS.0, PORTIONS.1),
            met: None,
            in_log: None,
        }
    }

    /// Runs until the handle says stop.
    pub(super) fn run(mut self) {
        while !self.shared.stop.load(Ordering::Relaxed) {
            if self.open.is_some() {
                while let Ok((ticket, request)) = self.asked.try_recv() {
                    self.take_request(ticket, request);
                }
                self.turn();
            } else {
                self.dial_or_wait();
            }
            self.empty_log_when_idle();
            self.publish();
        }
    }

    /// The time at the bench.
    fn now(&self) -> Now {
        let of_line = self.open.as_ref().and_then(|open| open.line.now());
        of_line.unwrap_or_else(|| Now {
            steady: Instant::now(),
            wall: Timestamp::now(),
        })
    }

    fn publish(&mut self) {
        if self.published != Some(self.bench.changes()) {
            self.published = Some(self.bench.changes());
            self.shared.publish(self.bench.clone());
            (self.wake)();
        }
    }

    // Opening and losing the line.

    fn dial_or_wait(&mut self) {
        let now = Instant::now();
        let due = self.dial_at.unwrap_or(now);
        let over = *self.bench.link() == LinkState::ScenarioOver;
        if now >= due && !over {
            self.dial(now);
            return;
        }
        let wait = due
            .saturating_duration_since(now)
            .clamp(READ_PATIENCE, DIAL_EVERY);
        match self.asked.recv_timeout(wait) {
            Ok((ticket, request)) => self.take_request(ticket, request),
            Err(RecvTimeoutError::Timeout) => {}
            // The handle is gone without saying stop.
            Err(RecvTimeoutError::Disconnected) => self.shared.stop.store(true, Ordering::Relaxed),
        }
    }

    fn dial(&mut self, now: Instant) {
        match self.dial.dial() {
            Ok(line) => {
                let at_line = line.now().map_or(now, |at_line| at_line.steady);
                // Any number does that the program before is unlikely to have
                // used last.
                let sequence = Timestamp::now().as_microsecond() as u16;
                self.open = Some(Open {
                    line,
                    session: Session::new(at_line, sequence),
                    reading_seen: false,
                });
                self.clock_watch = None;
            }
            Err(state) => {
                self.dial_at = now.checked_add(DIAL_EVERY);
                let gone = self.was_linked && matches!(state, LinkState::NoPort { .. });
                if !gone {
                    self.bench.link_is(state);
                }
            }
        }
    }

    fn line_ended(&mut self, end: LineEnd) {
        let now = self.now();
        if let Some(mut open) = self.open.take() {
            open.session.line_gone();
            for heard in open.session.take_heard() {
                self.hear(heard, now);
            }
        }
        self.dial_at = Instant::now().checked_add(DIAL_EVERY);
        if end == LineEnd::Over {
            self.end_run_with_scenario(now);
        }
        let port = self.dial.place().to_owned();
        self.bench.link_is(match end {
            LineEnd::Over => LinkState::ScenarioOver,
            LineEnd::Gone if self.was_linked => LinkState::Lost { port },
            LineEnd::Gone => LinkState::NoPort { port },
        });
    }

    // One turn with an open line.

    fn turn(&mut self) {
        let mut buffer = [0; 4096];
        let Some(open) = &mut self.open else {
            return;
        };
        let count = match open.line.read(&mut buffer, READ_PATIENCE) {
            Ok(count) => count,
            Err(end) => {
                self.line_ended(end);
                return;
            }
        };
        let now = self.now();
        if let Some(open) = &mut self.open {
            open.session
                .bytes(buffer.get(..count).unwrap_or_default(), now.steady);
        }
        self.hear_all(now);
        self.look_at_clocks(now);
        self.settle_runs(now);
        if let Some(open) = &mut self.open {
            let wall = UnixMillis::from_millis(now.wall.as_millisecond());
            open.session.tick(now.steady, wall);
        }
        self.hear_all(now);
        let Some(open) = &mut self.open else {
            return;
        };
        let out = open.session.take_out();
        if !out.is_empty()
            && let Err(end) = open.line.write(&out)
        {
            self.line_ended(end);
            return;
        }
        self.take_standing();
    }

    fn hear_all(&mut self, now: Now) {
        let heard = match &mut self.open {
            Some(open) => open.session.take_heard(),
            None => return,
        };
        for heard in heard {
            self.hear(heard, now);
        }
    }

    fn hear(&mut self, heard: Heard, now: Now) {
        if self.stranger.is_some() && matches!(heard, Heard::Report(_) | Heard::Portion(_)) {
            return;
        }
        match heard {
            Heard::Hello(hello) => self.hear_hello(&hello, now),
            Heard::Report(report) => {
                if let (Report::Reading(_), Some(open)) = (&report, &mut self.open) {
                    open.reading_seen = true;
                }
                self.record_scale(&report, now);
                self.bench.take_report(&report, now);
            }
            Heard::Portion(portion) => self.hear_portion(&portion, now),
            Heard::Answer(ticket, outcome) => self.hear_answer(ticket, outcome, now),
        }
    }

    /// Puts on record what was found with known weights.
    fn record_scale(&mut self, report: &Report, now: Now) {
        let Some(hello) = self.bench.hello() else {
            return;
        };
        let of = |at| InstrumentMoment {
            device: hello.device,
            epoch: hello.epoch,
            at,
        };
        let recorded = match report {
            Report::Tested { at, test } => self.store.record_test(of(*at), test, now.wall),
            Report::Calibration { at, standing } => match &standing.made {
                Some(made) => self.store.record_calibration(of(*at), made, now.wall),
                None => return,
            },
            _ => return,
        };
        if let Err(error) = recorded {
            self.store_failed(&error, now);
        }
    }

    fn hear_hello(&mut self, hello: &Hello, now: Now) {
        self.was_linked = true;
        if let Some(open) = &mut self.open {
            open.reading_seen = false;
        }
        self.considered = None;
        let known = *self.instrument.get_or_insert(hello.device);
        self.stranger = Some(hello.device).filter(|device| *device != known);
        if self.stranger.is_some() {
            self.other_instrument();
            return;
        }
        self.stop_not_promised();
        self.time_told = Some(now.steady);
        self.clock = Some(InstrumentClock::new(
            hello.device,
            hello.epoch,
            hello.at,
            now.wall,
        ));
        self.bench.take_report(&Report::Hello(*hello), now);
        let known = self.met.is_some_and(|(device, epoch, at)| {
            (device, epoch) == (hello.device, hello.epoch)
                && now.steady.saturating_duration_since(at) < MEET_EVERY
        });
        if !known {
            self.met = Some((hello.device, hello.epoch, now.steady));
            // Only a record of acquaintance: when it fails, so will the first
            // portion, and that is said.
            let _ = self.store.meet(hello, now.wall);
        }
    }

    /// Says that another instrument answers than the one that was linked.
    fn other_instrument(&mut self) {
        if let (Some(known), Some(found)) = (self.instrument, self.stranger) {
            let port = self.dial.place().to_owned();
            self.bench
                .link_is(LinkState::OtherInstrument { port, known, found });
        }
    }

    /// Puts the store's log into its file where nothing has come for a while.
    fn empty_log_when_idle(&mut self) {
        if let Some(last) = self.in_log
            && last.elapsed() > IDLE
        {
            self.empty_log();
        }
    }

    /// Puts the store's log into its file, so that a copy of it is whole.
    fn empty_log(&mut self) {
        // Where somebody is reading just now, or it failed: at the next time.
        self.in_log = match self.store.checkpoint() {
            Ok(true) => None,
            Ok(false) | Err(_) => Some(Instant::now()),
        };
    }

    fn take_standing(&mut self) {
        let Some(open) = &self.open else {
            return;
        };
        let port = self.dial.place().to_owned();
        let refused_before = matches!(self.bench.link(), LinkState::OtherVersion { .. });
        if self.stranger.is_some() && matches!(open.session.standing(), Conversation::Linked(_)) {
            self.other_instrument();
            return;
        }
        let state = match open.session.standing() {
            Conversation::Linked(device) => LinkState::Linked { port, device },
            // It is tried again now and then without a word.
            Conversation::Calling if refused_before => return,
            Conversation::Calling => LinkState::Calling { port },
            Conversation::Silent if self.was_linked => LinkState::Lost { port },
            Conversation::Silent => LinkState::Silent { port },
            Conversation::NotOurs => LinkState::NotOurs { port },
            Conversation::DesktopAtOtherEnd => LinkState::DesktopAtOtherEnd { port },
            Conversation::OtherVersion(theirs) => {
                self.open = None;
                self.dial_at = Instant::now().checked_add(OTHER_VERSION_PAUSE);
                LinkState::OtherVersion { port, theirs }
            }
        };
        self.bench.link_is(state);
    }

    // The wall's clock.

    fn look_at_clocks(&mut self, now: Now) {
        let (mut watch, last) = match self.clock_watch {
            None => {
                self.clock_watch = Some((ClockWatch::new(now), now.steady));
                return;
            }
            Some(watching) => watching,
        };
        if now.steady.saturating_duration_since(last) < CLOCK_EVERY {
            return;
        }
        if let Some(by) = watch.look(now) {
            self.clock_was_set(by, now);
        } else if self
            .time_told
            .is_none_or(|told| now.steady.saturating_duration_since(told) > TIME_EVERY)
        {
            self.tell_time(now);
        }
        self.clock_watch = Some((watch, now.steady));
    }

    fn tell_time(&mut self, now: Now) {
        if !self.bench.link().is_linked() {
            return;
        }
        self.time_told = Some(now.steady);
        let time = UnixMillis::from_millis(now.wall.as_millisecond());
        self.ask_for(Purpose::Time, Command::SetTime(time));
    }

    fn clock_was_set(&mut self, by: SignedDuration, now: Now) {
        if let (Some(hello), Some((_, reading))) = (self.bench.hello(), self.bench.last_reading()) {
            self.clock = Some(InstrumentClock::new(
                hello.device,
                hello.epoch,
                reading.at,
                now.wall,
            ));
        }
        self.tell_time(now);
        // Kept for whoever wonders about the times later; the order of portions
        // does not hang on it.
        let _ = self.store.note_clock_step(ClockStep { at: now.wall, by });
        if by.is_negative() {
            self.bench.clock_trouble_is(Some(Trouble {
                since: now.wall,
                kind: TroubleKind::ClockBack(by.abs()),
            }));
        }
    }
}
