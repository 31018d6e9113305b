//! Whole scenarios of the simulated bench through the instrument: what it
//! captures is what truly was, portion by portion.

use evenhand_firmware::instrument::{Instrument, Setup};
use evenhand_firmware::portion::PortionSettings;
use evenhand_firmware::remembered::Remembered;
use evenhand_firmware::sensor::{BridgeFault, Counts};
use evenhand_firmware::signal::{Calibration, CellFigures, Point, Settings};
use evenhand_protocol::report::Capabilities;
use evenhand_protocol::{
    CapturedPortion, Command, DeviceId, Envelope, Epoch, Mass, Report, RunId, Uptime,
};
use evenhand_simulator::chips::BridgeTrouble;
use evenhand_simulator::scenario::Scenario;
use evenhand_simulator::world::{Cue, World};
use std::collections::BTreeMap;

/// What the instrument said of one scenario, and what was true.
struct Outcome {
    portions: Vec<CapturedPortion>,
    truth: Vec<Mass>,
    told: Vec<String>,
}

fn play(scenario: &Scenario, seed: u64) -> Outcome {
    let mut world = World::new(scenario, seed);
    let first = world.first_calibration();
    let calibration = Calibration::from_points(&[
        Point::exact(Mass::ZERO, Counts(first.zero_counts)),
        Point::exact(first.mass, Counts(first.span_counts)),
    ])
    .unwrap();
    let mut instrument = Instrument::<64>::new(Setup {
        device: DeviceId(1),
        epoch: Epoch(1),
        settings: Settings {
            capacity: scenario.capacity(),
            ..Settings::BENCH_1KG
        },
        calibration: Some(calibration),
        portion: PortionSettings::BENCH,
        capabilities: Capabilities::default(),
        remembered: Remembered::NOTHING,
        figures: CellFigures::TYPICAL_1KG,
    });
    let mut sequence = 0;
    let mut send = |instrument: &mut Instrument<64>, at, message| {
        sequence += 1;
        instrument.take_command(at, Envelope { sequence, message });
    };
    let mut counted: BTreeMap<u32, CapturedPortion> = BTreeMap::new();
    let mut order: Vec<u32> = Vec::new();
    let mut told = Vec::new();
    let mut started = false;
    let mut after = 0;
    while !world.is_over() || after < 40 {
        if world.is_over() {
            after += 1;
        }
        let reading = instrument.reading(Uptime::from_millis(0));
        let moment = world.next(Cue {
            running: reading.run.is_some(),
            steady: reading.stable,
        });
        let at = Uptime::from_millis(moment.at_micros / 1_000);
        if !moment.powered {
            continue;
        }
        match moment.bridge {
            BridgeTrouble::None => instrument.take_counts(at, Counts(moment.counts)),
            _ => instrument.take_bridge_fault(at, BridgeFault::Timeout),
        }
        if !started && at.millis() > 1_500 {
            started = true;
            let start = Command::StartRun {
                run: RunId(1),
                mode: scenario.mode(),
                goal: scenario.goal(),
            };
            send(&mut instrument, at, start);
        }
        if started && world.is_over() && after == 20 {
            send(&mut instrument, at, Command::StopRun);
        }
        while let Some(report) = instrument.next_report(at) {
            match report {
                Report::Portion(portion) => {
                    send(&mut instrument, at, Command::Acknowledge(portion.id));
                    if counted.contains_key(&portion.id.number) {
                        continue;
                    }
                    match portion.replaces {
                        Some(old) => {
                            counted.remove(&old).expect("it replaces one that counts");
                            let place = order.iter_mut().find(|n| **n == old).unwrap();
                            *place = portion.id.number;
                        }
                        None => order.push(portion.id.number),
                    }
                    counted.insert(portion.id.number, portion);
                    told.push(format!(
                        "{} #{} {} {:?} {:?}",
                        at.millis(),
                        portion.id.number,
                        portion.mass.grams(),
                        portion.replaces,
                        portion.doubts
                    ));
                }
                Report::Notice { notice, .. } => told.push(format!("{} {notice:?}", at.millis())),
                Report::Fault { fault, present, .. } => {
                    told.push(format!("{} {fault:?} {present}", at.millis()));
                }
                _ => {}
            }
        }
    }
    Outcome {
        portions: order.iter().map(|number| counted[number]).collect(),
        truth: world.truth().iter().map(|portion| portion.mass).collect(),
        told,
    }
}

/// How a number of nights went.
#[derive(Debug, Default)]
struct Nights {
    portions: usize,
    /// Nights on which there were more or fewer portions than were made.
    miscounted: Vec<String>,
    /// Portions off by a tenth of a gram or more, on the other nights.
    off: Vec<String>,
}

fn nights(name: &str, seeds: core::ops::Range<u64>) -> Nights {
    let scenario = Scenario::shipped(name).unwrap();
    let mut nights = Nights::default();
    for seed in seeds {
        let outcome = play(&scenario, seed);
        nights.portions += outcome.truth.len();
        if outcome.portions.len() != outcome.truth.len() {
            nights.miscounted.push(format!(
                "seed {seed}: made {}, counted {}\n{}",
                outcome.truth.len(),
                outcome.portions.len(),
                outcome.told.join("\n")
            ));
            continue;
        }
        for (number, (got, truth)) in (1..).zip(outcome.portions.iter().zip(&outcome.truth)) {
            let error = (got.mass - *truth).grams();
            if error.abs() >= 0.1 {
                nights.off.push(format!(
                    "seed {seed}, portion {number}: true {:.3} g, off by {error:.3} g",
                    truth.grams()
                ));
            }
        }
    }
    nights
}

/// Every portion counted once, and all but `share` in a thousand within a tenth
/// of a gram.
#[track_caller]
fn check(nights: &Nights, share: usize) {
    assert!(nights.portions >= 100);
    assert_eq!(nights.miscounted, Vec::<String>::new());
    assert!(
        nights.off.len() * 1_000 <= nights.portions * share,
        "{} of {} portions: {:#?}",
        nights.off.len(),
        nights.portions,
        nights.off
    );
}

// A cell still creeps for seconds after a full tin was set down: some first portions of a
// tin are a tenth of a gram light.
const CREEP: usize = 5;
// What was taken or splashed between two shocks was never in equilibrium by itself, and
// a hand that leaned for seconds stays in the cell for some more.
const SHOCKS: usize = 15;

#[test]
fn shrimp_out_of_a_tin() {
    check(&nights("saltmarsh-shrimp-taking", 200..210), CREEP);
}

#[test]
fn hogget_neck_into_dishes() {
    check(&nights("saltmarsh-hogget-neck-adding", 200..210), 0);
}

#[test]
fn parfait() {
    check(&nights("saltmarsh-parfait", 200..210), 0);
}

#[test]
fn a_rough_night_adding() {
    check(&nights("rough-night", 200..210), SHOCKS);
}

#[test]
fn a_rough_night_taking() {
    check(&nights("rough-night-taking", 200..210), SHOCKS);
}
