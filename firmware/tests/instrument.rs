//! The instrument as a whole, from samples and commands to reports.

use evenhand_firmware::instrument::{Instrument, Setup};
use evenhand_firmware::portion::PortionSettings;
use evenhand_firmware::remembered::Remembered;
use evenhand_firmware::sensor::{BridgeFault, Counts, ProbeFault, ProbeSample};
use evenhand_firmware::signal::{Calibration, CellFigures, Point, Settings};
#[cfg(feature = "hash-chain")]
use evenhand_protocol::ChainLink;
use evenhand_protocol::report::Capabilities;
use evenhand_protocol::{
    CapturedPortion, Command, DeviceId, Envelope, Epoch, Fault, FrameError, Goal, GoalError, Mass,
    Mode, Notice, Phase, Reading, Refusal, Report, RunId, Temperature, Tolerance, UnixMillis,
    Uptime, Verdict, Version,
};
use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::SeedableRng;
use rand_distr::{Distribution, Normal};

const ZERO: f64 = 84_000.0;
const PER_GRAM: f64 = 2_097.0;

fn goal(target: i64) -> Goal {
    Goal::new(
        Mass::from_grams(target),
        Tolerance::symmetric(Mass::from_grams(1)),
    )
    .unwrap()
}

fn setup() -> Setup {
    Setup {
        device: DeviceId(0xA1),
        epoch: Epoch(9),
        settings: Settings::BENCH_1KG,
        calibration: Some(
            Calibration::from_points(&[
                Point::exact(Mass::ZERO, Counts(ZERO as i32)),
                Point::exact(
                    Mass::from_grams(1_000),
                    Counts((ZERO + 1_000.0 * PER_GRAM) as i32),
                ),
            ])
            .unwrap(),
        ),
        portion: PortionSettings::BENCH,
        capabilities: Capabilities::PROBE.union(Capabilities::SIGNALS),
        remembered: Remembered::NOTHING,
        figures: CellFigures::TYPICAL_1KG,
    }
}

/// An instrument on a bench, with everything that it said.
struct Bench<const PLACES: usize = 64> {
    instrument: Instrument<PLACES>,
    micros: u64,
    grams: f64,
    rng: ChaCha8Rng,
    noise: Normal<f64>,
    sequence: u16,
    said: Vec<Report>,
    listening: bool,
}

impl Bench {
    fn new() -> Self {
        Self::with(setup())
    }
}

impl<const PLACES: usize> Bench<PLACES> {
    fn with(setup: Setup) -> Self {
        let mut bench = Self {
            instrument: Instrument::new(setup),
            micros: 0,
            grams: 0.0,
            rng: ChaCha8Rng::seed_from_u64(5),
            noise: Normal::new(0.0, 0.02).unwrap(),
            sequence: 100,
            said: Vec::new(),
            listening: true,
        };
        bench.hold(1.5);
        bench
    }

    fn now(&self) -> Uptime {
        Uptime::from_millis(self.micros / 1_000)
    }

    fn hear(&mut self) {
        let now = self.now();
        while self.listening
            && let Some(report) = self.instrument.next_report(now)
        {
            self.said.push(report);
        }
    }

    fn tick(&mut self, counts: Option<i32>) {
        self.micros += 12_500;
        let now = self.now();
        match counts {
            Some(counts) => self.instrument.take_counts(now, Counts(counts)),
            None => self
                .instrument
                .take_bridge_fault(now, BridgeFault::HighRail),
        }
        self.hear();
    }

    fn hold(&mut self, seconds: f64) -> &mut Self {
        for _ in 0..(seconds * 80.0) as u32 {
            let grams = self.grams + self.noise.sample(&mut self.rng);
            self.tick(Some((ZERO + grams * PER_GRAM).round() as i32));
        }
        self
    }

    fn put(&mut self, grams: f64) -> &mut Self {
        for _ in 0..10 {
            self.grams += grams / 10.0;
            self.hold(0.0125);
        }
        self.hold(1.2)
    }

    fn fault(&mut self, seconds: f64) -> &mut Self {
        for _ in 0..(seconds * 80.0) as u32 {
            self.tick(None);
        }
        self
    }

    fn say_as(&mut self, sequence: u16, message: Command) -> Option<Result<(), Refusal>> {
        let before = self.said.len();
        let now = self.now();
        self.instrument
            .take_command(now, Envelope { sequence, message });
        self.hear();
        self.said[before..].iter().find_map(|report| match report {
            Report::Reply { to, outcome } if *to == sequence => Some(*outcome),
            _ => None,
        })
    }

    fn say(&mut self, message: Command) -> Option<Result<(), Refusal>> {
        self.sequence += 1;
        self.say_as(self.sequence, message)
    }

    fn start(&mut self, mode: Mode) -> &mut Self {
        let started = self.say(Command::StartRun {
            run: RunId(4),
            mode,
            goal: goal(30),
        });
        assert_eq!(started, Some(Ok(())));
        self
    }

    fn reading(&self) -> Reading {
        self.instrument.reading(self.now())
    }

    /// Every portion heard, once.
    fn portions(&self) -> Vec<CapturedPortion> {
        let mut portions: Vec<CapturedPortion> = Vec::new();
        for report in &self.said {
            if let Report::Portion(portion) = report
                && !portions.iter().any(|known| known.id == portion.id)
            {
                portions.push(*portion);
            }
        }
        portions
    }

    fn notices(&self) -> Vec<Notice> {
        self.said
            .iter()
            .filter_map(|report| match report {
                Report::Notice { notice, .. } => Some(*notice),
                _ => None,
            })
            .collect()
    }

    fn faults_told(&self) -> Vec<(Fault, bool)> {
        self.said
            .iter()
            .filter_map(|report| match report {
                Report::Fault { fault, present, .. } => Some((*fault, *present)),
                _ => None,
            })
            .collect()
    }
}

fn near(mass: Mass, grams: f64) -> bool {
    (mass.grams() - grams).abs() < 0.1
}

#[test]
fn it_says_hello_first_and_then_reads_ten_times_a_second() {
    let mut bench = Bench::new();
    match bench.said.first() {
        Some(Report::Hello(hello)) => {
            assert_eq!(hello.version, Version::CURRENT);
            assert_eq!(hello.device, DeviceId(0xA1));
            assert_eq!(hello.epoch, Epoch(9));
            assert_eq!(hello.outbox, 64);
            assert!(hello.capabilities.contains(Capabilities::PORTIONS));
            assert!(hello.capabilities.contains(Capabilities::PROBE));
        }
        other => panic!("first it said {other:?}"),
    }
    bench.said.clear();
    bench.hold(10.0);
    let readings = bench.said.len();
    assert!((80..=110).contains(&readings), "{readings} in ten seconds");
    assert!(
        bench
            .said
            .iter()
            .all(|report| matches!(report, Report::Reading(_)))
    );
}

#[test]
fn readings_are_replaced_and_never_queued() {
    let mut bench = Bench::new();
    bench.listening = false;
    bench.hold(30.0).put(100.0);
    bench.listening = true;
    bench.said.clear();
    bench.hear();
    assert_eq!(bench.said.len(), 1);
    match bench.said[0] {
        Report::Reading(reading) => {
            assert_eq!(reading.at, bench.now());
            assert!(near(reading.gross.unwrap(), 100.0));
        }
        other => panic!("{other:?}"),
    }
}

#[test]
fn a_run_from_start_to_stop() {
    let mut bench = Bench::new();
    assert_eq!(bench.reading().phase, Phase::Weighing);
    bench.start(Mode::Adding);
    assert_eq!(bench.reading().phase, Phase::AwaitDish);
    bench.put(240.0);
    let reading = bench.reading();
    assert_eq!(reading.phase, Phase::Filling);
    assert!(near(reading.tare, 240.0));
    bench.put(20.0);
    let reading = bench.reading();
    assert!(near(reading.amount.unwrap(), 20.0) && near(reading.net().unwrap(), 20.0));
    assert_eq!(reading.verdict, Some(Verdict::Short));
    bench.put(10.2);
    assert_eq!(bench.reading().verdict, Some(Verdict::On));
    bench.put(-270.2);
    assert_eq!(bench.say(Command::StopRun), Some(Ok(())));
    assert_eq!(bench.reading().run, None);
    let portions = bench.portions();
    assert_eq!(portions.len(), 1);
    let portion = portions[0];
    assert!(near(portion.mass, 30.2));
    assert_eq!(portion.run, RunId(4));
    assert_eq!(portion.mode, Mode::Adding);
    assert_eq!(portion.goal, goal(30));
    assert_eq!(portion.id.number, 1);
    assert_eq!(portion.id.device, DeviceId(0xA1));
    assert_eq!(portion.left, None);
    assert_eq!(portion.verdict(), Verdict::On);
    assert!(portion.uncertainty.unwrap() < Mass::from_milligrams(200));
    let notices = bench.notices();
    assert_eq!(notices.first(), Some(&Notice::RunStarted(RunId(4))));
    assert_eq!(notices.last(), Some(&Notice::RunStopped(RunId(4))));
}

#[test]
fn a_portion_is_sent_again_until_it_is_acknowledged() {
    let mut bench = Bench::new();
    bench.start(Mode::Taking).put(500.0).hold(2.0);
    bench.put(-30.0).hold(2.0);
    let times = |bench: &Bench| {
        bench
            .said
            .iter()
            .filter(|report| matches!(report, Report::Portion(_)))
            .count()
    };
    assert!(times(&bench) >= 3);
    let id = bench.portions()[0].id;
    assert_eq!(bench.reading().unsent, 1);
    assert_eq!(bench.say(Command::Acknowledge(id)), None, "not answered");
    assert_eq!(bench.reading().unsent, 0);
    let before = times(&bench);
    bench.hold(3.0);
    assert_eq!(times(&bench), before);
}

#[test]
fn more_portions_than_places_are_counted_as_lost() {
    let mut bench = Bench::<2>::with(setup());
    bench.start(Mode::Taking).put(500.0).hold(2.0);
    bench.listening = false;
    for _ in 0..3 {
        bench.put(-30.0).hold(1.0);
    }
    let reading = bench.reading();
    assert_eq!((reading.unsent, reading.lost), (2, 1));
    assert!(reading.faults.contains(Fault::PortionsLost));
    assert!(!reading.faults.stops_weighing());
    bench.listening = true;
    bench.hold(0.1);
    for portion in bench.portions() {
        bench.say(Command::Acknowledge(portion.id));
    }
    // The next has the number that the lost one would have had.
    bench.put(-30.0);
    let numbers: Vec<u32> = bench.portions().iter().map(|p| p.id.number).collect();
    assert_eq!(numbers, [1, 2, 3]);
    let reading = bench.reading();
    assert_eq!(reading.lost, 1);
    assert!(!reading.faults.contains(Fault::PortionsLost));
}

#[test]
fn a_repeated_command_is_answered_again_and_not_done_again() {
    let mut bench = Bench::new();
    let start = Command::StartRun {
        run: RunId(4),
        mode: Mode::Adding,
        goal: goal(30),
    };
    assert_eq!(bench.say_as(7, start), Some(Ok(())));
    assert_eq!(bench.say_as(8, Command::StopRun), Some(Ok(())));
    assert_eq!(bench.say_as(8, Command::StopRun), Some(Ok(())));
    assert_eq!(bench.say_as(9, Command::StopRun), Some(Err(Refusal::NoRun)));
    let stopped = bench
        .notices()
        .iter()
        .filter(|notice| matches!(notice, Notice::RunStopped(_)))
        .count();
    assert_eq!(stopped, 1);
}

/// A desktop of 1.2 refuses a hello with a field that it does not know, so it must never get one.
/// `e` is 1 g for this scale and `d` 0.1 g.
#[test]
fn a_desktop_is_told_only_what_its_version_knows() {
    let mut bench = Bench::new();
    let hello = |bench: &mut Bench, minor| {
        bench.said.clear();
        bench.say(Command::Hello {
            version: Version { major: 1, minor },
            now: UnixMillis::from_millis(1_700_000_000_000),
        });
        let hello = bench.said.iter().find_map(|report| match report {
            Report::Hello(hello) => Some(*hello),
            _ => None,
        });
        hello.expect("a hello is answered by a hello")
    };
    // Whoever has not said hello yet may be an old one.
    let unasked = bench.said.iter().find_map(|report| match report {
        Report::Hello(hello) => Some(hello.verification_interval),
        _ => None,
    });
    assert_eq!(unasked, Some(None));
    for (minor, told) in [
        (2, None),
        (3, Some(Mass::from_grams(1))),
        (0, None),
        (9, Some(Mass::from_grams(1))),
    ] {
        let hello = hello(&mut bench, minor);
        assert_eq!(hello.verification_interval, told, "1.{minor}");
        assert_eq!(hello.interval, Mass::from_milligrams(100));
    }
}

/// Before a hello comes the link is told: a portion that is recorded without it stays without.
#[cfg(feature = "hash-chain")]
#[test]
fn a_portion_tells_its_place_in_the_hash_chain_to_who_knows_of_it() {
    let mut bench = Bench::new();
    assert!(
        bench
            .instrument
            .hello(bench.now())
            .capabilities
            .contains(Capabilities::HASH_CHAIN)
    );
    bench.start(Mode::Taking).put(500.0).hold(2.0);
    bench.put(-30.0).hold(1.0);
    let told = |bench: &mut Bench| {
        bench.said.clear();
        bench.hold(1.0);
        bench.portions()[0].chain_link
    };
    assert_eq!(told(&mut bench), Some(ChainLink::FIRST));
    for (minor, link) in [
        (4, None),
        (5, Some(ChainLink::FIRST)),
        (2, None),
        (9, Some(ChainLink::FIRST)),
    ] {
        bench.say(Command::Hello {
            version: Version { major: 1, minor },
            now: UnixMillis::from_millis(1_700_000_000_000),
        });
        assert_eq!(told(&mut bench), link, "1.{minor}");
    }
    // The wall's clock has been told meanwhile, and is no part of the digest.
    let first = bench.portions()[0];
    assert!(first.unix.is_some());
    let undated = CapturedPortion {
        unix: None,
        ..first
    };
    bench.put(-30.0).hold(1.0);
    let second = bench.portions()[1];
    assert_eq!(second.chain_link, undated.next_link());
}

#[test]
fn a_new_caller_may_count_from_the_same_number() {
    let mut bench = Bench::new();
    let hello = Command::Hello {
        version: Version::CURRENT,
        now: UnixMillis::from_millis(1_700_000_000_000),
    };
    let start = |run| Command::StartRun {
        run: RunId(run),
        mode: Mode::Adding,
        goal: goal(30),
    };
    bench.say_as(0, hello);
    assert_eq!(bench.say_as(1, start(1)), Some(Ok(())));
    assert_eq!(bench.say_as(2, Command::StopRun), Some(Ok(())));
    bench.say_as(1, hello);
    assert_eq!(bench.say_as(2, Command::StopRun), Some(Err(Refusal::NoRun)));
    assert_eq!(bench.say_as(3, start(2)), Some(Ok(())));
    assert_eq!(bench.reading().run, Some(RunId(2)));
}

#[test]
fn the_same_run_begun_twice_goes_on() {
    let mut bench = Bench::new();
    bench.start(Mode::Adding).put(240.0).put(29.0);
    bench.start(Mode::Adding);
    bench.put(1.0).put(-270.0);
    assert!(near(bench.portions()[0].mass, 30.0));
    let started = bench
        .notices()
        .iter()
        .filter(|notice| matches!(notice, Notice::RunStarted(_)))
        .count();
    assert_eq!(started, 1);
}

#[test]
fn a_goal_that_makes_no_sense_is_refused() {
    let mut bench = Bench::new();
    assert_eq!(
        bench.say(Command::SetGoal(goal(1_200))),
        Some(Err(Refusal::Goal(GoalError::BeyondCapacity)))
    );
    let start = Command::StartRun {
        run: RunId(1),
        mode: Mode::Adding,
        goal: goal(5_000),
    };
    assert_eq!(
        bench.say(start),
        Some(Err(Refusal::Goal(GoalError::BeyondCapacity)))
    );
    assert_eq!(bench.reading().run, None);
}

#[test]
fn tare_and_zero_need_a_steady_load() {
    let mut bench = Bench::new();
    bench.grams = 100.0;
    bench.hold(0.05);
    assert_eq!(bench.say(Command::Tare), Some(Err(Refusal::NotStable)));
    assert_eq!(bench.say(Command::Zero), Some(Err(Refusal::NotStable)));
    bench.hold(1.2);
    assert_eq!(
        bench.say(Command::Zero),
        Some(Err(Refusal::BeyondZeroRange))
    );
    assert_eq!(bench.say(Command::Tare), Some(Ok(())));
    assert!(near(bench.reading().net().unwrap(), 0.0));
    bench.say(Command::SetGoal(goal(30)));
    bench.put(30.0);
    let reading = bench.reading();
    assert!(near(reading.amount.unwrap(), 30.0));
    assert_eq!(reading.verdict, Some(Verdict::On));
    assert_eq!(bench.say(Command::ClearTare), Some(Ok(())));
    assert!(near(bench.reading().net().unwrap(), 130.0));
    bench.put(-125.0);
    assert_eq!(bench.say(Command::Zero), Some(Ok(())));
    assert!(near(bench.reading().gross.unwrap(), 0.0));
    assert!(bench.notices().contains(&Notice::Zeroed));
}

#[test]
fn a_bridge_fault_blanks_the_reading_and_the_run_goes_on_after_it() {
    let mut bench = Bench::new();
    bench.start(Mode::Adding).put(240.0).put(20.0);
    bench.fault(3.0);
    let reading = bench.reading();
    assert_eq!(reading.gross, None);
    assert_eq!(reading.amount, None);
    assert_eq!(reading.phase, Phase::Blocked);
    assert!(reading.faults.contains(Fault::BridgeHighRail));
    assert_eq!(bench.say(Command::Tare), Some(Err(Refusal::Faulty)));
    assert!(bench.portions().is_empty());
    bench.hold(1.0).put(10.0).put(-270.0);
    let portions = bench.portions();
    assert_eq!(portions.len(), 1);
    assert!(near(portions[0].mass, 30.0));
    assert_eq!(
        bench.faults_told(),
        [
            (Fault::BridgeHighRail, true),
            (Fault::BridgeHighRail, false)
        ]
    );
}

#[test]
fn a_knock_beyond_the_range_is_no_fault_and_a_load_is() {
    let mut bench = Bench::new();
    bench.start(Mode::Adding).put(240.0).put(30.0);
    for grams in [1_400.0, -200.0] {
        let held = bench.grams;
        bench.grams = grams;
        bench.hold(0.1);
        assert_eq!(bench.reading().gross, None);
        assert!(bench.reading().faults.is_empty());
        bench.grams = held;
        bench.hold(1.0);
    }
    let held = bench.grams;
    bench.grams = 1_500.0;
    bench.hold(2.0);
    assert!(bench.reading().faults.contains(Fault::Overload));
    assert_eq!(bench.reading().phase, Phase::Blocked);
    bench.grams = held;
    bench.hold(1.0);
    assert!(bench.reading().faults.is_empty());
    bench.put(-270.0);
    assert!(near(bench.portions()[0].mass, 30.0));
}

#[test]
fn without_a_calibration_it_does_not_weigh_and_says_why() {
    let mut bench = Bench::<64>::with(Setup {
        calibration: None,
        ..setup()
    });
    let reading = bench.reading();
    assert_eq!((reading.gross, reading.phase), (None, Phase::Blocked));
    assert!(reading.faults.contains(Fault::Uncalibrated));
    let now = bench.now();
    bench
        .instrument
        .set_calibration(now, setup().calibration.unwrap());
    bench.hold(1.5);
    assert!(near(bench.reading().gross.unwrap(), 0.0));
    assert!(bench.reading().faults.is_empty());
}

#[test]
fn a_fault_of_the_probe_never_stops_weighing() {
    let mut bench = Bench::new();
    bench.start(Mode::Taking).put(500.0).hold(2.0);
    let hot = Temperature::from_millicelsius(-1_500);
    let now = bench.now();
    bench.instrument.take_temperature(
        now,
        Ok(ProbeSample {
            hot,
            cold: Temperature::from_millicelsius(22_000),
        }),
    );
    bench.put(-30.0);
    let now = bench.now();
    bench
        .instrument
        .take_temperature(now, Err(ProbeFault::Open));
    bench.put(-31.0);
    let reading = bench.reading();
    assert_eq!(reading.temperature, None);
    assert!(reading.faults.contains(Fault::ProbeOpen));
    assert!(reading.gross.is_some() && reading.phase != Phase::Blocked);
    let temperatures: Vec<_> = bench.portions().iter().map(|p| p.temperature).collect();
    assert_eq!(temperatures, [Some(hot), None]);
}

#[test]
fn the_wall_clock_dates_portions_and_never_touches_uptime() {
    let mut bench = Bench::new();
    bench.start(Mode::Taking).put(800.0).hold(2.0);
    bench.put(-30.0);
    bench.say(Command::Hello {
        version: Version::CURRENT,
        now: UnixMillis::from_millis(1_800_000_000_000),
    });
    let offset = 1_800_000_000_000 - i64::try_from(bench.now().millis()).unwrap();
    bench.put(-30.0);
    // It steps back by a year.
    let later = bench.now();
    bench.say(Command::SetTime(UnixMillis::from_millis(1_768_000_000_000)));
    assert_eq!(bench.now(), later);
    bench.put(-30.0);
    let portions = bench.portions();
    assert_eq!(portions.len(), 3);
    assert_eq!(portions[0].unix, None);
    let second = portions[1].unix.unwrap().millis();
    assert_eq!(
        second - i64::try_from(portions[1].at.millis()).unwrap(),
        offset
    );
    assert!(portions[2].unix.unwrap().millis() < second);
    assert!(portions.windows(2).all(|pair| pair[0].at < pair[1].at));
}

#[test]
fn what_it_does_not_understand_it_refuses_and_another_version_hears_its_own() {
    let mut bench = Bench::new();
    bench.said.clear();
    let now = bench.now();
    bench
        .instrument
        .take_frame_error(now, FrameError::UnknownMessage { sequence: 77 });
    bench
        .instrument
        .take_frame_error(now, FrameError::OtherVersion { theirs: 2 });
    bench.instrument.take_frame_error(now, FrameError::Corrupt);
    bench.hear();
    assert!(matches!(
        bench.said[0],
        Report::Reply {
            to: 77,
            outcome: Err(Refusal::Unknown)
        }
    ));
    assert!(matches!(bench.said[1], Report::Hello(_)));
}

#[test]
fn replies_come_before_hello_before_news_before_portions_before_readings() {
    let mut bench = Bench::new();
    bench.start(Mode::Taking).put(500.0).hold(2.0);
    bench.listening = false;
    bench.put(-30.0);
    let now = bench.now();
    bench
        .instrument
        .take_temperature(now, Err(ProbeFault::Open));
    bench.say_as(1, Command::ClearTare);
    bench
        .instrument
        .take_frame_error(now, FrameError::OtherVersion { theirs: 9 });
    bench.listening = true;
    bench.said.clear();
    bench.hear();
    let order: Vec<u8> = bench
        .said
        .iter()
        .map(|report| match report {
            Report::Reply { .. } => 0,
            Report::Hello(_) => 1,
            Report::Portion(_) => 3,
            Report::Reading(_) => 4,
            _ => 2,
        })
        .collect();
    assert!(order.is_sorted(), "{order:?}");
    for kind in 0..=4 {
        assert!(order.contains(&kind), "{kind} is missing from {order:?}");
    }
}

#[test]
fn a_run_that_is_stopped_while_food_moves_waits_for_it() {
    let mut bench = Bench::new();
    bench.start(Mode::Taking).put(500.0).hold(2.0);
    bench.grams -= 30.0;
    bench.hold(0.1);
    assert_eq!(bench.say(Command::StopRun), Some(Ok(())));
    assert_eq!(bench.reading().run, Some(RunId(4)));
    bench.hold(2.0);
    assert_eq!(bench.reading().run, None);
    let portions = bench.portions();
    assert_eq!(portions.len(), 1);
    assert!(near(portions[0].mass, 30.0));
}

#[test]
fn a_full_dish_on_the_pan_is_counted_at_the_stop_and_not_again() {
    let mut bench = Bench::new();
    bench.start(Mode::Adding).put(240.0).put(30.0);
    bench.say(Command::StopRun);
    bench.hold(1.0);
    let start = Command::StartRun {
        run: RunId(5),
        mode: Mode::Adding,
        goal: goal(30),
    };
    bench.say(start);
    bench.hold(1.0).put(-270.0).hold(1.0);
    let portions = bench.portions();
    assert_eq!(portions.len(), 1);
    assert!(near(portions[0].mass, 30.0));
}

#[test]
fn a_verdict_that_could_be_either_is_doubted() {
    use evenhand_protocol::report::Doubts;
    let mut bench = Bench::new();
    bench.start(Mode::Taking).put(500.0).hold(2.0);
    bench.put(-31.01).hold(1.0).put(-30.0);
    let portions = bench.portions();
    assert!(portions[0].doubts.contains(Doubts::STRADDLES_LIMIT));
    assert!(!portions[1].doubts.contains(Doubts::STRADDLES_LIMIT));
}

#[test]
fn lamps_and_buzzer_follow_the_portion() {
    let mut bench = Bench::new();
    bench.start(Mode::Adding).put(240.0).put(20.0);
    let signals = bench.instrument.signals(bench.now());
    assert!(signals.short && !signals.on && !signals.heavy && !signals.buzzer);
    bench.put(10.0);
    assert!(bench.instrument.signals(bench.now()).on);
    bench.put(5.0);
    assert!(bench.instrument.signals(bench.now()).heavy);
    bench.fault(1.0);
    let lit = bench.instrument.signals(bench.now());
    assert!(lit.short == lit.on && lit.on == lit.heavy);
}
