//! The link with an instrument that does as the test says.

use evenhand_kitchen::dish::DishName;
use evenhand_kitchen::portion::{RecordedPortion, StrikeReason};
use evenhand_link::live::{LinkState, LiveScale, NotDone, TroubleKind};
use evenhand_link::{Link, Request, Ticket, Unmet};
use evenhand_protocol::report::Doubts;
use evenhand_protocol::{
    CapturedPortion, Command, DeviceId, Epoch, Goal, GoalError, Mass, Mode, Notice, PortionId,
    Refusal, RunId, Tolerance, Uptime,
};
use evenhand_scripted_instrument::{Bench, DEVICE, Peer, Scripted};
use evenhand_store::{DataFolder, NewRun, Query, RefusedPortion, Store};
use jiff::{SignedDuration, Timestamp};
use std::sync::Arc;
use std::time::{Duration, Instant};
use tempfile::TempDir;

/// Longer than anything here takes on a busy machine.
const PATIENCE: Duration = Duration::from_secs(60);

fn goal() -> Goal {
    Goal::new(
        Mass::from_grams(30),
        Tolerance::symmetric(Mass::from_grams(1)),
    )
    .unwrap()
}

fn shrimp() -> DishName {
    DishName::new("dish", "brown shrimp").unwrap()
}

fn new_run() -> NewRun {
    NewRun {
        dish: shrimp(),
        goal: goal(),
        mode: Mode::Taking,
        cook: None,
        tin: None,
    }
}

fn start() -> Request {
    Request::StartRun {
        run: new_run(),
        resume: false,
        count: None,
    }
}

struct Desktop {
    far: Scripted,
    link: Option<Link>,
    folder: TempDir,
}

impl Desktop {
    fn new(peer: Peer) -> Self {
        Self::with(Scripted::new(peer), None)
    }

    fn with(far: Scripted, first: Option<Request>) -> Self {
        let folder = tempfile::tempdir().unwrap();
        let mut store = open(&folder);
        store
            .set_dish(&shrimp(), goal(), Mode::Taking, None, Timestamp::UNIX_EPOCH)
            .unwrap();
        let mut desktop = Self {
            far,
            link: None,
            folder,
        };
        desktop.open(first);
        desktop
    }

    /// A desktop whose instrument is in a run.
    fn in_run() -> Self {
        let desktop = Self::with(Scripted::new(Peer::Instrument), Some(start()));
        desktop.until(|bench| bench.run().is_some() && answered(bench, Ticket(0)));
        desktop
    }

    fn open(&mut self, first: Option<Request>) {
        let store = open(&self.folder);
        self.link = Some(Link::open(self.far.dial(), store, first, || {}).unwrap());
    }

    fn link(&self) -> &Link {
        self.link.as_ref().unwrap()
    }

    fn until(&self, holds: impl Fn(&LiveScale) -> bool) -> Arc<LiveScale> {
        let begun = Instant::now();
        loop {
            let bench = self.link().live();
            if holds(&bench) {
                return bench;
            }
            assert!(begun.elapsed() < PATIENCE, "it never came: {bench:#?}");
            std::thread::sleep(Duration::from_millis(1));
        }
    }

    fn until_far(&self, holds: impl Fn(&Bench) -> bool) {
        let begun = Instant::now();
        while !self.far.at(|bench| holds(bench)) {
            assert!(begun.elapsed() < PATIENCE, "it never came at the far end");
            std::thread::sleep(Duration::from_millis(1));
        }
    }

    /// Asks and waits for the answer.
    fn ask(&self, request: Request) -> Result<(), NotDone> {
        let ticket = self.link().ask(request).unwrap();
        let bench = self.until(|bench| answered(bench, ticket));
        let (_, answer) = bench.answer().unwrap();
        answer.map_err(Clone::clone)
    }

    fn portions(&self) -> Vec<RecordedPortion> {
        open(&self.folder).portions(&Query::default()).unwrap()
    }

    fn until_recorded(&self, count: usize) {
        self.until_far(|bench| bench.unsent() == 0);
        assert_eq!(self.portions().len(), count);
    }
}

fn open(folder: &TempDir) -> Store {
    Store::open(&DataFolder::choose(Some(folder.path())).unwrap()).unwrap()
}

fn answered(bench: &LiveScale, ticket: Ticket) -> bool {
    bench.answer().is_some_and(|(number, _)| number == ticket.0)
}

fn carried_out(bench: &Bench, kind: impl Fn(&Command) -> bool) -> usize {
    bench
        .carried_out
        .iter()
        .filter(|command| kind(command))
        .count()
}

// Another instrument, and what no instrument sends.

const OTHER: DeviceId = DeviceId(0xe2);

#[test]
fn another_instrument_on_the_port_is_asked_about_and_nothing_of_it_is_taken() {
    let mut desktop = Desktop::in_run();
    desktop.far.at(|bench| bench.capture(30_000));
    desktop.until_recorded(1);
    // Another is plugged in, in a run of its own.
    let sent = desktop.far.at(|bench| {
        bench.replaced_by(OTHER);
        bench.run = Some(RunId(77));
        bench.capture(25_000);
        bench.sent_portions
    });
    let bench = desktop.until(|bench| matches!(bench.link(), LinkState::OtherInstrument { .. }));
    assert_eq!(
        bench.link(),
        &LinkState::OtherInstrument {
            port: "the test's port".to_owned(),
            known: DEVICE,
            found: OTHER,
        }
    );
    // It sends its portion again and again, and tells where it is.
    desktop.until_far(|bench| bench.sent_portions > sent + 3);
    assert!(matches!(
        desktop.ask(Request::Tare).unwrap_err(),
        NotDone::NotLinked(LinkState::OtherInstrument { .. })
    ));
    let commands = desktop.far.at(|bench| {
        let tares = carried_out(bench, |command| *command == Command::Tare);
        let runs = carried_out(bench, |command| matches!(command, Command::StartRun { .. }));
        (tares, runs)
    });
    // The run begun was the first one's.
    assert_eq!(commands, (0, 1));
    assert_eq!(desktop.portions().len(), 1);
    assert_eq!(desktop.far.at(|bench| bench.unsent()), 1);
    // The first one back: it goes on.
    desktop.far.at(|bench| bench.replaced_by(DEVICE));
    desktop.until(|bench| bench.link().is_linked());
    // The other again, and somebody chooses its port: what it holds is taken
    // for what it is, no dish of the first one's run.
    desktop.link = None;
    desktop.far.at(|bench| {
        bench.replaced_by(OTHER);
        bench.run = Some(RunId(77));
        bench.capture(25_000);
    });
    desktop.open(None);
    desktop.until_recorded(2);
    let dishes: Vec<_> = desktop.portions().into_iter().map(|p| p.dish).collect();
    assert_eq!(dishes, [Some(shrimp()), None]);
}

#[test]
fn a_portion_that_another_instrument_captured_is_evidence_and_no_more() {
    let desktop = Desktop::in_run();
    let run = desktop.far.at(|bench| bench.run).unwrap();
    desktop.far.at(|bench| {
        bench.send_portion(CapturedPortion {
            id: PortionId {
                device: OTHER,
                epoch: Epoch(1),
                number: 1,
            },
            run,
            at: Uptime::from_millis(1_000),
            unix: None,
            mode: Mode::Taking,
            mass: Mass::from_grams(30),
            goal: goal(),
            temperature: None,
            replaces: None,
            doubts: Doubts::NONE,
            uncertainty: None,
            left: None,
            chain_link: None,
        });
    });
    let bench = desktop.until(|bench| bench.store_trouble().is_some());
    assert_eq!(
        bench.store_trouble().unwrap().kind,
        TroubleKind::Refused(RefusedPortion::OtherInstrument)
    );
    assert_eq!(desktop.portions().len(), 0);
    assert!(!desktop.far.at(|bench| {
        bench
            .heard
            .iter()
            .any(|command| matches!(command, Command::Acknowledge(_)))
    }));
    // Its own portions are taken as ever.
    desktop.far.at(|bench| bench.capture(30_000));
    desktop.until_recorded(1);
}

#[test]
fn a_flood_of_hellos_is_written_down_once() {
    let desktop = Desktop::in_run();
    desktop.far.at(|bench| bench.say_hello(300));
    // What comes after them was heard after them.
    desktop.far.at(|bench| bench.capture(30_000));
    desktop.until_recorded(1);
    let met = open(&desktop.folder).instruments().unwrap();
    assert_eq!(met[0].first_seen, met[0].last_seen);
}

#[test]
fn when_a_run_has_ended_the_stores_one_file_holds_it() {
    let desktop = Desktop::in_run();
    for _ in 0..3 {
        desktop.far.at(|bench| bench.capture(30_000));
    }
    desktop.until_far(|bench| bench.sent_portions >= 3 && bench.unsent() == 0);
    let file = desktop.folder.path().join("evenhand.sqlite3");
    let log = desktop.folder.path().join("evenhand.sqlite3-wal");
    assert!(std::fs::metadata(&log).unwrap().len() > 0);
    desktop.ask(Request::StopRun).unwrap();
    assert_eq!(std::fs::metadata(&log).unwrap().len(), 0);
    let alone = tempfile::tempdir().unwrap();
    std::fs::copy(file, alone.path().join("evenhand.sqlite3")).unwrap();
    assert_eq!(open(&alone).portions(&Query::default()).unwrap().len(), 3);
}

// Who is at the other end.

#[test]
fn an_instrument_is_linked_and_its_readings_come() {
    let desktop = Desktop::new(Peer::Instrument);
    let bench = desktop.until(|bench| bench.last_reading().is_some());
    assert_eq!(
        bench.link(),
        &LinkState::Linked {
            port: "the test's port".to_owned(),
            device: DEVICE
        }
    );
    assert_eq!(bench.hello().unwrap().device, DEVICE);
    desktop.until(|_| {
        let met = open(&desktop.folder).instruments().unwrap();
        met.first().is_some_and(|met| met.device == DEVICE)
    });
}

#[test]
fn silence_is_said_and_an_answer_later_still_counts() {
    let desktop = Desktop::new(Peer::Nobody);
    desktop.until(|bench| matches!(bench.link(), LinkState::Silent { .. }));
    desktop.far.at(|bench| bench.peer = Peer::Instrument);
    desktop.until(|bench| bench.link().is_linked());
}

#[test]
fn what_is_not_ours_is_told_apart_from_silence() {
    let desktop = Desktop::new(Peer::Babbler);
    let bench = desktop.until(|bench| matches!(bench.link(), LinkState::NotOurs { .. }));
    assert!(bench.reading(Instant::now()).is_none());
}

#[test]
fn another_version_is_refused_without_a_word_more() {
    let desktop = Desktop::new(Peer::Version(2));
    let bench =
        desktop.until(|bench| matches!(bench.link(), LinkState::OtherVersion { theirs: 2, .. }));
    assert!(bench.hello().is_none() && bench.last_reading().is_none());
    // The instrument is replaced by one of this version: it is tried again.
    desktop.far.at(|bench| bench.peer = Peer::Instrument);
    desktop.until(|bench| bench.link().is_linked());
}

#[test]
fn an_echo_is_no_instrument() {
    let desktop = Desktop::new(Peer::Echo);
    desktop.until(|bench| matches!(bench.link(), LinkState::DesktopAtOtherEnd { .. }));
}

#[test]
fn garbage_between_frames_does_not_break_the_link() {
    let far = Scripted::new(Peer::Instrument);
    far.at(|bench| bench.noise = vec![0x55, 0xff, 0, 3, 0, 0x10, 0]);
    let desktop = Desktop::with(far, Some(start()));
    desktop.until(|bench| answered(bench, Ticket(0)));
    for _ in 0..10 {
        desktop.far.at(|bench| bench.capture(30_000));
    }
    desktop.until_recorded(10);
}

// Portions.

#[test]
fn a_portion_is_on_record_before_it_is_acknowledged_and_only_once() {
    let desktop = Desktop::in_run();
    desktop.far.at(|bench| {
        bench.hears_acknowledgements = false;
        bench.capture(30_200);
        bench.capture(28_000);
    });
    // Sent again and again, as no acknowledgement arrives.
    desktop.until_far(|bench| bench.sent_portions > 10);
    assert_eq!(desktop.portions().len(), 2);
    desktop.far.at(|bench| bench.hears_acknowledgements = true);
    desktop.until_recorded(2);
    let bench = desktop.until(|bench| bench.run().is_some_and(|run| run.count() == 2));
    assert_eq!(
        bench.run().unwrap().spread().heaviest(),
        Some(Mass::from_milligrams(30_200))
    );
    let acknowledged = desktop.far.at(|bench| {
        bench
            .heard
            .iter()
            .filter(|heard| matches!(heard, Command::Acknowledge(_)))
            .count()
    });
    assert!(acknowledged > 2, "each coming is acknowledged");
}

#[test]
fn a_portion_that_cannot_be_recorded_stays_with_the_instrument() {
    let desktop = Desktop::in_run();
    let path = open(&desktop.folder).path().to_owned();
    let raw = rusqlite::Connection::open(path).unwrap();
    raw.execute_batch(
        "CREATE TRIGGER broken BEFORE INSERT ON portion BEGIN SELECT RAISE(ABORT, 'broken'); END",
    )
    .unwrap();
    desktop.far.at(|bench| bench.capture(30_000));
    let bench = desktop.until(|bench| bench.store_trouble().is_some());
    let trouble = bench.store_trouble().unwrap();
    // SQLITE_CONSTRAINT_TRIGGER, by SQLite's list of result codes (from memory).
    assert!(
        matches!(&trouble.kind, TroubleKind::Store(why) if why.contains("code 1811")),
        "{trouble:?}"
    );
    desktop.until_far(|bench| bench.sent_portions > 5);
    assert_eq!(desktop.far.at(|bench| bench.unsent()), 1);
    assert!(desktop.portions().is_empty());

    raw.execute_batch("DROP TRIGGER broken").unwrap();
    desktop.until_recorded(1);
    desktop.until(|bench| bench.store_trouble().is_none());
}

#[test]
fn a_correction_is_shown_instead_of_what_it_corrects() {
    let desktop = Desktop::in_run();
    desktop.far.at(|bench| {
        bench.capture(33_000);
        bench.capture_correction(30_000, Some(1));
    });
    let bench = desktop.until(|bench| bench.run().is_some_and(|run| run.portions().len() == 2));
    let run = bench.run().unwrap();
    assert_eq!(
        (run.count(), run.last().unwrap().mass),
        (1, Mass::from_grams(30))
    );
}

#[test]
fn a_pulled_cable_loses_nothing() {
    let desktop = Desktop::in_run();
    desktop.far.at(|bench| bench.capture(30_000));
    desktop.until_recorded(1);
    desktop.far.at(|bench| bench.plugged = false);
    let bench = desktop.until(|bench| matches!(bench.link(), LinkState::Lost { .. }));
    assert!(matches!(bench.link(), LinkState::Lost { .. }));
    desktop.far.at(|bench| {
        for _ in 0..5 {
            bench.capture(30_500);
        }
        bench.plugged = true;
    });
    desktop.until_recorded(6);
    let bench = desktop.until(|bench| bench.run().is_some_and(|run| run.count() == 6));
    assert!(bench.link().is_linked());
    // The run went on: it was not started anew.
    assert_eq!(
        desktop
            .far
            .at(|bench| carried_out(bench, |c| matches!(c, Command::StartRun { .. }))),
        1
    );
}

#[test]
fn an_instrument_that_falls_silent_is_lost_and_comes_back() {
    let desktop = Desktop::in_run();
    desktop.far.at(|bench| bench.peer = Peer::Nobody);
    desktop.until(|bench| matches!(bench.link(), LinkState::Lost { .. }));
    desktop.far.at(|bench| {
        bench.capture(30_000);
        bench.peer = Peer::Instrument;
    });
    desktop.until(|bench| bench.link().is_linked());
    desktop.until_recorded(1);
}

#[test]
fn an_instrument_that_restarted_is_put_back_into_its_run() {
    for says_hello in [true, false] {
        let desktop = Desktop::in_run();
        desktop.far.at(|bench| bench.capture(30_000));
        desktop.until_recorded(1);
        let run = desktop.far.at(|bench| bench.run);
        desktop.far.at(|bench| bench.restart(says_hello));
        desktop.until_far(|bench| bench.run == run);
        desktop.far.at(|bench| bench.capture(31_000));
        desktop.until_recorded(2);
        // Dated by the clock that the instrument was told again.
        let times: Vec<_> = desktop
            .portions()
            .iter()
            .map(|portion| portion.time)
            .collect();
        assert!(times[0] < times[1], "{times:?}");
    }
}

#[test]
fn a_program_killed_in_the_middle_goes_on_with_the_run() {
    let mut desktop = Desktop::in_run();
    desktop.far.at(|bench| bench.capture(30_000));
    desktop.until_recorded(1);
    let run = desktop.far.at(|bench| bench.run);
    // Dropped without a word to the instrument, as a killed program is.
    desktop.link = None;
    desktop.far.at(|bench| bench.capture(31_000));
    desktop.open(Some(Request::StartRun {
        run: new_run(),
        resume: true,
        count: None,
    }));
    desktop.until(|bench| answered(bench, Ticket(0)));
    let bench = desktop.until(|bench| bench.run().is_some_and(|run| run.count() == 2));
    assert_eq!(Some(bench.run().unwrap().run.id), run);
    // Without a request it is taken up as well, for a screen.
    desktop.link = None;
    desktop.open(None);
    let bench = desktop.until(|bench| bench.run().is_some());
    assert_eq!(Some(bench.run().unwrap().run.id), run);
    assert!(desktop.ask(Request::StopRun).is_ok());
    assert_eq!(desktop.far.at(|bench| bench.run), None);
}

#[test]
fn a_run_ends_by_itself_when_enough_portions_count() {
    let first = Request::StartRun {
        run: new_run(),
        resume: false,
        count: Some(2),
    };
    let desktop = Desktop::with(Scripted::new(Peer::Instrument), Some(first));
    desktop.until(|bench| bench.run().is_some());
    desktop.until_far(|bench| bench.run.is_some());
    desktop.far.at(|bench| {
        bench.capture(33_000);
        bench.capture_correction(30_000, Some(1));
    });
    desktop.until_recorded(2);
    assert!(
        desktop.far.at(|bench| bench.run.is_some()),
        "two came, one counts"
    );
    desktop.far.at(|bench| bench.capture(30_000));
    let bench = desktop.until(|bench| bench.run().is_some_and(|run| run.run.ended.is_some()));
    assert_eq!(bench.run().unwrap().count(), 2);
    assert_eq!(desktop.far.at(|bench| bench.run), None);
}

// Commands.

#[test]
fn a_command_without_reply_is_sent_again_and_carried_out_once() {
    let desktop = Desktop::new(Peer::Instrument);
    desktop.until(|bench| bench.last_reading().is_some());
    desktop.far.at(|bench| bench.replies = false);
    let ticket = desktop.link().ask(Request::Tare).unwrap();
    desktop.until_far(|bench| bench.heard.iter().filter(|c| **c == Command::Tare).count() >= 3);
    desktop.far.at(|bench| bench.replies = true);
    desktop.until(|bench| answered(bench, ticket));
    assert_eq!(
        desktop
            .far
            .at(|bench| carried_out(bench, |c| *c == Command::Tare)),
        1
    );
}

#[test]
fn a_command_that_is_never_answered_is_given_up() {
    let desktop = Desktop::new(Peer::Instrument);
    desktop.until(|bench| bench.last_reading().is_some());
    desktop.far.at(|bench| bench.replies = false);
    let answer = desktop.ask(Request::Zero).unwrap_err();
    assert_eq!(answer, NotDone::Unmet(Unmet::NoReply));
}

#[test]
fn a_refusal_is_told_in_words() {
    let desktop = Desktop::new(Peer::Instrument);
    desktop.until(|bench| bench.last_reading().is_some());
    desktop
        .far
        .at(|bench| bench.refuse = Some(Refusal::NotStable));
    let answer = desktop.ask(Request::Tare).unwrap_err();
    assert_eq!(answer, NotDone::Unmet(Unmet::Refused(Refusal::NotStable)));

    // A run that is refused is not a run.
    desktop
        .far
        .at(|bench| bench.refuse = Some(Refusal::Goal(GoalError::BeyondCapacity)));
    let answer = desktop.ask(start()).unwrap_err();
    assert_eq!(
        answer,
        NotDone::Unmet(Unmet::Refused(Refusal::Goal(GoalError::BeyondCapacity)))
    );
    let bench = desktop.link().live();
    assert!(bench.run().unwrap().run.ended.is_some());
}

#[test]
fn nothing_is_asked_of_a_scale_that_is_not_there() {
    let desktop = Desktop::new(Peer::Nobody);
    let ticket = desktop.link().ask(Request::Tare).unwrap();
    let bench = desktop.until(|bench| answered(bench, ticket));
    assert!(bench.answer().unwrap().1.is_err());
    let answer = desktop.ask(start()).unwrap_err();
    assert!(
        matches!(&answer, NotDone::NotLinked(LinkState::NoPort { port } | LinkState::Silent { port } | LinkState::Calling { port }) if port == "the test's port"),
        "{answer:?}"
    );
}

#[test]
fn a_goal_changed_in_a_run_holds_from_then_on() {
    let desktop = Desktop::in_run();
    desktop.far.at(|bench| bench.capture(30_000));
    desktop.until_recorded(1);
    let other = Goal::new(
        Mass::from_grams(40),
        Tolerance::symmetric(Mass::from_grams(2)),
    )
    .unwrap();
    assert!(desktop.ask(Request::SetGoal(other)).is_ok());
    let bench = desktop.link().live();
    assert_eq!(bench.goal(), Some(other));
    assert_eq!(bench.run().unwrap().portions()[0].goal, goal());
}

#[test]
fn striking_out_and_undoing_show_at_once() {
    let desktop = Desktop::in_run();
    for _ in 0..3 {
        desktop.far.at(|bench| bench.capture(30_000));
    }
    desktop.until_recorded(3);
    desktop.until(|bench| bench.run().is_some_and(|run| run.count() == 3));
    assert!(desktop.ask(Request::UndoLast).is_ok());
    assert_eq!(desktop.link().live().run().unwrap().count(), 2);
    let id = desktop.portions()[0].id;
    let reason = StrikeReason::new("reason", "dropped").unwrap();
    assert!(desktop.ask(Request::Strike(id, reason.clone())).is_ok());
    assert_eq!(desktop.link().live().run().unwrap().count(), 1);
    let again = desktop.ask(Request::Strike(id, reason)).unwrap_err();
    assert!(
        matches!(&again, NotDone::Store(why) if why.contains("struck out already")),
        "{again:?}"
    );
    assert!(desktop.ask(Request::LiftStrike(id)).is_ok());
    assert_eq!(desktop.link().live().run().unwrap().count(), 2);
    assert_eq!(desktop.portions().len(), 3);
}

// Clocks, notices, the end.

#[test]
fn a_clock_set_back_is_noted_and_the_instrument_told() {
    let desktop = Desktop::in_run();
    desktop.far.at(|bench| bench.capture(30_000));
    desktop.until_recorded(1);
    desktop
        .far
        .at(|bench| bench.wall_step = SignedDuration::from_mins(-30));
    let bench = desktop.until(|bench| bench.clock_trouble().is_some());
    let TroubleKind::ClockBack(by) = bench.clock_trouble().unwrap().kind else {
        panic!("{:?}", bench.clock_trouble());
    };
    assert_eq!(by.as_mins(), 30);
    desktop.until_far(|bench| carried_out(bench, |c| matches!(c, Command::SetTime(_))) > 0);
    desktop.far.at(|bench| bench.capture(31_000));
    desktop.until_recorded(2);
    let portions = desktop.portions();
    assert!(
        portions[0].time > portions[1].time,
        "true to the clock as it was"
    );
    assert_eq!(
        portions[1].mass,
        Mass::from_grams(31),
        "and in the order made"
    );
    assert!(!open(&desktop.folder).clock_steps().unwrap().is_empty());
}

#[test]
fn notices_reach_the_bench() {
    let desktop = Desktop::in_run();
    desktop
        .far
        .at(|bench| bench.notice(Notice::Refilled(Mass::from_grams(200))));
    let bench = desktop.until(|bench| bench.notices().count() > 0);
    let seen = bench.notices().next_back().unwrap();
    assert_eq!(seen.notice, Notice::Refilled(Mass::from_grams(200)));
}

#[test]
fn the_end_of_a_scenario_is_an_end() {
    let desktop = Desktop::in_run();
    desktop.far.at(|bench| bench.over = true);
    desktop.until(|bench| *bench.link() == LinkState::ScenarioOver);
    let dialled = desktop.far.at(|bench| bench.dialled);
    // A line that is gone is dialled again after 0.7 s.
    let watched = Instant::now();
    while watched.elapsed() < Duration::from_millis(1_500) {
        assert_eq!(desktop.far.at(|bench| bench.dialled), dialled);
        std::thread::sleep(Duration::from_millis(1));
    }
}
