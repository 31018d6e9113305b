//! An instrument that loses its power in the middle of service.

use crate::storage_flash::{CUTS, Cut, Flash, PAGE};
use evenhand_firmware::instrument::{Instrument, Setup};
use evenhand_firmware::portion::PortionSettings;
use evenhand_firmware::sensor::Counts;
use evenhand_firmware::signal::{Calibration, CellFigures, Point, Settings};
use evenhand_firmware::storage::{FlashStore, Layout, Persistence};
use evenhand_protocol::report::Capabilities;
use evenhand_protocol::{
    CapturedPortion, Command, DeviceId, Envelope, Epoch, Fault, Goal, Mass, Mode, Notice, Phase,
    Refusal, Report, RunId, Tolerance, UnixMillis, Uptime, Version,
};

const NOON: i64 = 1_900_000_000_000;

struct Bench {
    instrument: Instrument<16>,
    persistence: Persistence<Flash, 16>,
    millis: u64,
    grams: f64,
    sequence: u16,
    /// Whether anybody is at the other end of the line.
    cable: bool,
    portions: Vec<CapturedPortion>,
    notices: Vec<Notice>,
    replies: Vec<Result<(), Refusal>>,
    step: i32,
}

impl Bench {
    fn wake(mut flash: Flash, grams: f64) -> Self {
        flash.power_up();
        let page = PAGE as u32;
        let layout = Layout {
            records: 0..4 * page,
            portions: 4 * page..12 * page,
            acknowledged: 12 * page..16 * page,
        };
        let (mut persistence, boot_state) =
            Persistence::wake(FlashStore::new(flash, layout).unwrap(), 3);
        let mut instrument = Instrument::new(Setup {
            device: DeviceId(0xB0),
            epoch: boot_state.epoch,
            settings: Settings::BENCH_1KG,
            calibration: boot_state.calibration,
            portion: PortionSettings::BENCH,
            capabilities: Capabilities::KEEPS_PORTIONS,
            remembered: boot_state.remembered,
            figures: CellFigures::TYPICAL_1KG,
        });
        persistence.start(Uptime::from_millis(0), &mut instrument);
        Self {
            instrument,
            persistence,
            millis: 0,
            grams,
            sequence: 0,
            cable: false,
            portions: Vec::new(),
            notices: Vec::new(),
            replies: Vec::new(),
            step: 0,
        }
    }

    fn now(&self) -> Uptime {
        Uptime::from_millis(self.millis)
    }

    fn hold(&mut self, seconds: f64) -> &mut Self {
        for _ in 0..(seconds * 80.0) as u32 {
            self.millis += 12;
            self.step += 1;
            // A ripple of some counts, so that nothing looks frozen.
            let ripple = [0, 13, -9, 4, -12, 7][self.step as usize % 6];
            let counts = 84_000 + (self.grams * 2_097.0) as i32 + ripple;
            let now = self.now();
            self.instrument.take_counts(now, Counts(counts));
            self.persistence.keep(now, &mut self.instrument);
            self.listen();
        }
        self
    }

    fn listen(&mut self) {
        while self.cable
            && let Some(report) = self.instrument.next_report(self.now())
        {
            if let Report::Portion(portion) = report {
                if self.portions.iter().all(|known| known.id != portion.id) {
                    self.portions.push(portion);
                }
                self.say(Command::Acknowledge(portion.id));
            } else if let Report::Notice { notice, .. } = report {
                self.notices.push(notice);
            } else if let Report::Reply { outcome, .. } = report {
                self.replies.push(outcome);
            }
        }
    }

    fn say(&mut self, message: Command) {
        self.sequence += 1;
        let sequence = self.sequence;
        let now = self.now();
        self.instrument
            .take_command(now, Envelope { sequence, message });
    }

    fn hello(&mut self, wall: i64) {
        self.cable = true;
        self.say(Command::Hello {
            version: Version::CURRENT,
            now: UnixMillis::from_millis(wall),
        });
    }

    fn take_out(&mut self, grams: f64) -> &mut Self {
        for _ in 0..10 {
            self.grams -= grams / 10.0;
            self.hold(0.025);
        }
        self.hold(1.6)
    }

    fn power_off(self) -> Flash {
        self.persistence.into_flash_store().into_flash()
    }
}

fn calibrated() -> Bench {
    let mut bench = Bench::wake(Flash::new(16), 0.0);
    assert!(bench.instrument.faults().contains(Fault::Uncalibrated));
    let calibration = Calibration::from_points(&[
        Point::exact(Mass::ZERO, Counts(84_000)),
        Point::exact(Mass::from_grams(1_000), Counts(84_000 + 2_097_000)),
    ])
    .unwrap();
    bench
        .instrument
        .set_calibration(Uptime::from_millis(0), calibration);
    bench.hold(1.5);
    bench
}

fn begin(bench: &mut Bench, mode: Mode) {
    let goal = Goal::new(
        Mass::from_grams(30),
        Tolerance::symmetric(Mass::from_grams(1)),
    )
    .unwrap();
    bench.say(Command::StartRun {
        run: RunId(12),
        mode,
        goal,
    });
    bench.hold(1.0);
}

fn start(bench: &mut Bench) {
    begin(bench, Mode::Taking);
    bench.grams = 800.0;
    bench.hold(2.0);
}

#[test]
fn what_was_portioned_before_the_cut_is_sent_after_it_and_the_run_goes_on() {
    let mut bench = calibrated();
    start(&mut bench);
    bench.take_out(30.0).take_out(29.5).take_out(30.4);
    assert_eq!(bench.instrument.outbox().len(), 3);
    let flash = bench.power_off();

    // The tin stands on the pan when the power comes back.
    let mut bench = Bench::wake(flash, 710.1);
    bench.hold(2.0);
    assert!(bench.instrument.faults().is_empty());
    let reading = bench.instrument.reading(bench.now());
    assert_eq!(reading.run, Some(RunId(12)));
    assert_eq!(reading.phase, Phase::Ready);
    assert!((reading.gross.unwrap().grams() - 710.1).abs() < 0.1);
    bench.take_out(31.0);
    bench.hello(NOON);
    bench.hold(3.0);
    let told: Vec<(Epoch, u32, i64)> = bench
        .portions
        .iter()
        .map(|portion| {
            let tenths = portion.mass.rounded_to(Mass::from_milligrams(100));
            (
                portion.id.epoch,
                portion.id.number,
                tenths.micrograms() / 100_000,
            )
        })
        .collect();
    assert_eq!(
        told,
        [
            (Epoch(3), 1, 300),
            (Epoch(3), 2, 295),
            (Epoch(3), 3, 304),
            (Epoch(4), 1, 310)
        ]
    );
    assert!(bench.instrument.outbox().is_empty());
    // Acknowledged is acknowledged, over another cut too.
    let bench = Bench::wake(bench.power_off(), 679.1);
    assert!(bench.instrument.outbox().is_empty());
}

/// When adding, nobody can tell food from dish in what the power left on the
/// pan: it is not counted, the cook is told, and the next dish is.
#[test]
fn what_stands_on_the_pan_when_the_power_comes_back_is_no_empty_dish() {
    let mut bench = calibrated();
    begin(&mut bench, Mode::Adding);
    // A dish of 240 g with the first half of a portion.
    let mut bench = Bench::wake(bench.power_off(), 255.0);
    bench.hold(2.0);
    bench.cable = true;
    bench.hold(0.1);
    let found: Vec<Mass> = bench
        .notices
        .iter()
        .filter_map(|notice| match notice {
            Notice::FoundOnPan(load) => Some(*load),
            _ => None,
        })
        .collect();
    assert_eq!(found.len(), 1);
    assert!((found[0].grams() - 255.0).abs() < 0.1);
    // The other half goes on; then the next dish, from its beginning.
    for grams in [270.0, 0.0, 250.0, 280.2, 0.0] {
        bench.grams = grams;
        bench.hold(2.0);
    }
    let told: Vec<f64> = bench.portions.iter().map(|p| p.mass.grams()).collect();
    assert_eq!(told.len(), 1, "{told:?}");
    assert!((told[0] - 30.2).abs() < 0.1, "{told:?}");
}

/// A flash that lost everything: the portions' names are others than before.
#[test]
fn a_wiped_flash_does_not_name_portions_as_before() {
    let names = |unlike_any| {
        let page = PAGE as u32;
        let layout = Layout {
            records: 0..4 * page,
            portions: 4 * page..12 * page,
            acknowledged: 0..0,
        };
        let flash_store = FlashStore::new(Flash::new(12), layout).unwrap();
        let (persistence, first) = Persistence::<_, 16>::wake(flash_store, unlike_any);
        let (_, second) = Persistence::<_, 16>::wake(persistence.into_flash_store(), 5);
        [first.epoch, second.epoch]
    };
    assert_eq!(names(0x1234_5678), [Epoch(0x1234_5678), Epoch(0x1234_5679)]);
    // The top bit is for starts that could not be counted.
    assert_eq!(names(0xF000_0000), [Epoch(0x7000_0000), Epoch(0x7000_0001)]);
    assert_eq!(names(u32::MAX), [Epoch(0x7FFF_FFFF), Epoch(0)]);
}

#[test]
fn a_portion_made_before_anybody_told_the_time_gets_its_true_time() {
    let mut bench = calibrated();
    start(&mut bench);
    bench.take_out(30.0);
    let captured = bench.instrument.outbox().iter().next().unwrap();
    assert_eq!(captured.unix, None);
    bench.hold(60.0);
    let told_at = bench.millis;
    bench.hello(NOON);
    bench.hold(1.0);
    let portion = bench.portions[0];
    let ago = i64::try_from(told_at - portion.at.millis()).unwrap();
    assert_eq!(portion.unix, Some(UnixMillis::from_millis(NOON - ago)));
    assert!(ago > 50_000);
}

/// The time was told, the cable pulled, portions made, the power cut: the clock
/// of that start is on record and dates them.
#[test]
fn portions_keep_their_times_over_a_cut() {
    let mut bench = calibrated();
    start(&mut bench);
    bench.take_out(30.0);
    // Nobody acknowledges; the time comes and goes with the cable.
    let told_at = bench.millis;
    bench.hello(NOON);
    bench.cable = false;
    bench.hold(0.5);
    let mut bench = Bench::wake(bench.power_off(), 770.0);
    bench.hello(NOON + 3_600_000);
    bench.hold(1.0);
    let portion = bench.portions[0];
    let ago = i64::try_from(told_at - portion.at.millis()).unwrap();
    assert_eq!(portion.id.epoch, Epoch(3));
    assert_eq!(portion.unix, Some(UnixMillis::from_millis(NOON - ago)));
}

#[test]
fn a_flash_that_fails_is_told_and_weighing_goes_on() {
    let mut bench = calibrated();
    start(&mut bench);
    let flash = bench.persistence.vault_mut().flash_mut();
    flash.cut = Some((flash.operations, Cut::Before));
    bench.take_out(30.0);
    assert!(bench.instrument.faults().contains(Fault::StorageFailed));
    bench.take_out(30.0);
    assert_eq!(bench.instrument.outbox().len(), 2);
    // It works again: after ten seconds all is on record.
    bench.persistence.vault_mut().flash_mut().power_up();
    bench.hold(12.0);
    assert!(!bench.instrument.faults().contains(Fault::StorageFailed));
    let bench = Bench::wake(bench.power_off(), 740.0);
    assert_eq!(bench.instrument.outbox().len(), 2);
}

/// The power goes at every operation of a portion's capture: it is on record
/// whole or not at all.
#[test]
fn a_brown_out_leaves_no_half_portion() {
    let mut before = calibrated();
    start(&mut before);
    let flash = before.power_off();
    let mut whole = 0;
    for cut in CUTS {
        for later in 0..4 {
            let mut bench = Bench::wake(flash.clone(), 800.0);
            bench.hold(2.0);
            let flash = bench.persistence.vault_mut().flash_mut();
            flash.cut = Some((flash.operations + later, cut));
            bench.take_out(30.0);
            let captured = bench.instrument.outbox().iter().next().unwrap();
            let bench = Bench::wake(bench.power_off(), 770.0);
            match bench.instrument.outbox().iter().collect::<Vec<_>>()[..] {
                [] => {}
                [portion] => {
                    assert_eq!(portion, captured);
                    whole += 1;
                }
                ref more => panic!("{more:?}"),
            }
        }
    }
    assert!((1..16).contains(&whole), "{whole}");
}

#[test]
fn a_desktop_that_lost_its_record_gets_what_was_acknowledged_once_more() {
    let mut bench = calibrated();
    bench.hello(NOON);
    bench.grams = 900.0;
    start(&mut bench);
    for _ in 0..5 {
        bench.take_out(30.0);
    }
    // Within a run it is refused by name.
    bench.replies.clear();
    bench.say(Command::Recall);
    bench.hold(0.1);
    assert_eq!(bench.replies, [Err(Refusal::Running)]);
    bench.say(Command::StopRun);
    bench.hold(2.0);
    let recorded = core::mem::take(&mut bench.portions);
    assert_eq!(recorded.len(), 5);
    assert!(bench.instrument.outbox().is_empty(), "all is acknowledged");

    // The power goes as well; then the desktop's record is lost and it asks.
    let mut bench = Bench::wake(bench.power_off(), 750.0);
    bench.hold(1.5);
    bench.hello(NOON + 3_600_000);
    bench.hold(0.5);
    assert_eq!(bench.portions, [], "nobody asked yet");
    bench.say(Command::Recall);
    bench.hold(2.0);
    assert_eq!(bench.portions, recorded);
    assert_eq!(bench.notices.last(), Some(&Notice::Recalled(5)));
    // Asked again, it gives them again: nothing is used up.
    bench.portions.clear();
    bench.say(Command::Recall);
    bench.hold(2.0);
    assert_eq!(bench.portions, recorded);
}

#[test]
fn an_instrument_without_a_place_for_acknowledged_portions_refuses_to_recall_them() {
    let mut bench = calibrated();
    bench.hello(NOON);
    let flash_store = FlashStore::new(
        Flash::new(16),
        Layout {
            records: 0..4 * PAGE as u32,
            portions: 4 * PAGE as u32..12 * PAGE as u32,
            acknowledged: 0..0,
        },
    )
    .unwrap();
    let setup = |boot_state: evenhand_firmware::storage::BootState| Setup {
        device: DeviceId(0xB0),
        epoch: boot_state.epoch,
        settings: Settings::BENCH_1KG,
        calibration: boot_state.calibration,
        portion: PortionSettings::BENCH,
        capabilities: Capabilities::KEEPS_PORTIONS,
        remembered: boot_state.remembered,
        figures: CellFigures::TYPICAL_1KG,
    };
    let (mut persistence, boot_state) = Persistence::wake(flash_store, 3);
    bench.instrument = Instrument::new(setup(boot_state));
    persistence.start(bench.now(), &mut bench.instrument);
    bench.persistence = persistence;
    bench.replies.clear();
    bench.say(Command::Recall);
    bench.hold(0.1);
    assert_eq!(bench.replies, [Err(Refusal::Unknown)]);
}
