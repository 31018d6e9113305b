//! A guided conversation: the person at the keyboard, the scale at its port.

use crate::portion::{give_up, link_failure, wake_up};
use crate::words::{failed, say};
use crate::{Data, Failure};
use crossbeam_channel::Receiver;
use evenhand_link::live::LiveScale;
use evenhand_link::{Endpoint, Link, Pace, Request};
use evenhand_protocol::{
    Calibrating, CalibrationMade, Diagnosis, Mass, Notice, PointTaken, SelfTest, Uptime,
};
use evenhand_use_cases::instrument;
use evenhand_words::Language;
use std::io::{self, BufRead, Write};
use std::sync::Arc;
use std::time::{Duration, Instant};

/// How long an answer may take: the scale waits up to a quarter of a minute
/// for a steady load.
const ANSWER_PATIENCE: Duration = Duration::from_secs(25);
/// How often to look when nothing wakes.
const LOOK_EVERY: Duration = Duration::from_millis(100);
/// How long a weight on the simulated bench is left to come to rest, on the
/// scale's clock.
const REST_MILLIS: u64 = 3_000;

/// The conversation.
pub(super) struct Conversation {
    link: Link,
    woken: Receiver<()>,
    language: Language,
}

impl Conversation {
    /// Opens the link and waits for the scale.
    pub(super) fn open(data: &Data, place: Endpoint, pace: Pace) -> Result<Self, Failure> {
        let data = data.of_scale(&place);
        data.tell_simulated()?;
        let store = data.store()?;
        let (wake, woken) = crossbeam_channel::bounded(1);
        let link = Link::open(place.dial(pace), store, None, move || wake_up(&wake))
            .map_err(|error| failed!("portion-no-link", why = &error))?;
        let talk = Self {
            link,
            woken,
            language: data.language,
        };
        let begun = Instant::now();
        loop {
            let bench = talk.wait();
            if bench.link().is_linked() && bench.last_reading().is_some() {
                return Ok(talk);
            }
            give_up(bench.link(), begun)?;
        }
    }

    fn wait(&self) -> Arc<LiveScale> {
        // A timeout is as good as a waking.
        let _ = self.woken.recv_timeout(LOOK_EVERY);
        self.link.live()
    }

    /// Says something to the person.
    pub(super) fn say(&self, words: &str) {
        if self.link.hand().is_none() {
            eprintln!("{words}");
        }
    }

    /// Tells the person what to put on the pan, and waits until they say that
    /// it is done. On a simulated bench its hand does it.
    pub(super) fn place(&self, step: &str, mass: Mass) -> Result<(), Failure> {
        if let Some(hand) = self.link.hand() {
            eprintln!("{}", say!(self.language, "scale-hand", step = step));
            let since = self.uptime();
            hand.place(mass);
            return self.until("still", |bench| {
                let now = bench.last_reading().map(|(_, reading)| reading.at);
                now.filter(|now| now.since(since) >= REST_MILLIS).map(drop)
            });
        }
        eprint!("{}", say!(self.language, "scale-enter", step = step));
        // Only a prompt; nothing hangs on its being seen at once.
        let _ = io::stderr().flush();
        let mut line = String::new();
        match io::stdin().lock().read_line(&mut line) {
            Ok(0) => Err(failed!("scale-nobody")),
            Ok(_) => Ok(()),
            Err(error) => Err(failed!("scale-keyboard", why = &error)),
        }
    }

    /// Takes the weight off a simulated pan.
    pub(super) fn place_nothing(&self) {
        if let Some(hand) = self.link.hand() {
            hand.place(Mass::ZERO);
        }
    }

    fn uptime(&self) -> Uptime {
        let bench = self.link.live();
        bench
            .last_reading()
            .map_or(Uptime::default(), |(_, reading)| reading.at)
    }

    /// Asks the scale for something and waits for its answer.
    pub(super) fn ask(&mut self, request: Request) -> Result<(), Failure> {
        let ticket = self
            .link
            .ask(request)
            .ok_or_else(|| failed!("scale-too-much"))?;
        let answer = self.until("answer", |bench| {
            bench
                .answer()
                .filter(|(number, _)| *number == ticket.0)
                .map(|(_, outcome)| outcome.map_err(Clone::clone))
        })?;
        answer.map_err(|why| {
            let why = instrument::not_done(self.language, &why);
            let why = why.trim_end_matches('.');
            let mut letters = why.chars();
            let first = letters.next().into_iter().flat_map(char::to_lowercase);
            let why: String = first.chain(letters).collect();
            failed!("scale-not-done", why = why)
        })
    }

    /// The last test heard of.
    pub(super) fn tested(&self) -> Option<(Uptime, SelfTest)> {
        self.link.live().tested()
    }

    /// The result of a test after `before`.
    pub(super) fn await_test(
        &self,
        before: Option<(Uptime, SelfTest)>,
    ) -> Result<SelfTest, Failure> {
        self.until("found", |bench| {
            let tested = bench.tested().filter(|tested| Some(*tested) != before);
            tested.map(|(_, test)| test)
        })
    }

    /// The point of this number.
    pub(super) fn await_point(&self, number: usize) -> Result<PointTaken, Failure> {
        self.until("read", |bench| {
            let (_, Calibrating { points, last, .. }) = bench.calibration()?;
            last.filter(|_| usize::from(points) == number)
        })
    }

    /// The finished calibration.
    pub(super) fn await_made(&self) -> Result<CalibrationMade, Failure> {
        self.until("made", |bench| bench.calibration()?.1.made)
    }

    /// What the scale says of its own health.
    pub(super) fn await_diagnosis(&self) -> Result<Diagnosis, Failure> {
        self.until("health", |bench| bench.diagnosis().copied())
    }

    /// The scale's capacity, and the step of its display.
    pub(super) fn sizes(&self) -> Option<(Mass, Mass)> {
        let live = self.link.live();
        live.hello().map(|hello| (hello.capacity, hello.interval))
    }

    /// The step of the scale's display.
    pub(super) fn interval(&self) -> Option<Mass> {
        self.link.live().hello().map(|hello| hello.interval)
    }

    /// How many notices came so far.
    pub(super) fn notices_seen(&self) -> u64 {
        self.link.live().notices_seen()
    }

    /// How many portions were sent again, once all were. As long as any come,
    /// it waits; `seen` notices came before.
    pub(super) fn await_recalled(&self, seen: u64) -> Result<u32, Failure> {
        let mut changed = (0, Instant::now());
        loop {
            let bench = self.wait();
            let recalled = bench.notices().rev().find_map(|seen| match seen.notice {
                Notice::Recalled(many) => Some(many),
                _ => None,
            });
            if bench.notices_seen() > seen
                && let Some(many) = recalled
            {
                return Ok(many);
            }
            if !bench.link().is_linked() && bench.link().is_final() {
                return Err(link_failure(bench.link()));
            }
            if bench.changes() != changed.0 {
                changed = (bench.changes(), Instant::now());
            }
            if changed.1.elapsed() > ANSWER_PATIENCE {
                return Err(failed!("scale-not-all-sent"));
            }
        }
    }

    fn until<T>(
        &self,
        or_else: &str,
        mut look: impl FnMut(&LiveScale) -> Option<T>,
    ) -> Result<T, Failure> {
        let begun = Instant::now();
        loop {
            let bench = self.wait();
            if let Some(found) = look(&bench) {
                return Ok(found);
            }
            if !bench.link().is_linked()
                && (bench.link().is_final() || begun.elapsed() > ANSWER_PATIENCE)
            {
                return Err(link_failure(bench.link()));
            }
            if begun.elapsed() > ANSWER_PATIENCE {
                return Err(failed!("scale-silent", what = or_else));
            }
        }
    }

    /// Ends the link.
    pub(super) fn close(self) {
        self.link.close();
    }
}
