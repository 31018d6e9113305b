//! The bench as it stands now, from what comes in.

use evenhand_kitchen::dish::DishName;
use evenhand_kitchen::portion::{RecordedPortion, StrikeReason, Struck, TimeSource};
use evenhand_kitchen::run::Run;
use evenhand_kitchen::tin::{Tin, TinId};
use evenhand_link::live::{LinkState, LiveRun, LiveScale, LiveTin, Now};
use evenhand_protocol::fault::FaultSet;
use evenhand_protocol::report::{Capabilities, Doubts};
use evenhand_protocol::{
    DeviceId, Epoch, Fault, Goal, Hello, Mass, Mode, Notice, Phase, PortionId, Reading, Report,
    RunId, Tolerance, Uptime, Verdict, Version,
};
use jiff::Timestamp;
use std::time::Instant;

fn goal() -> Goal {
    Goal::new(
        Mass::from_grams(30),
        Tolerance::symmetric(Mass::from_grams(1)),
    )
    .unwrap()
}

fn run() -> Run {
    Run {
        id: RunId(7),
        dish: Some(DishName::new("dish", "brown shrimp").unwrap()),
        goal: goal(),
        mode: Mode::Taking,
        cook: None,
        tin: Some(TinId(1)),
        started: Timestamp::UNIX_EPOCH,
        ended: None,
    }
}

fn tin() -> LiveTin {
    LiveTin {
        tin: Tin {
            id: TinId(1),
            kind: evenhand_kitchen::tin::TinKind::Tin,
            dish: DishName::new("dish", "brown shrimp").unwrap(),
            label: String::new(),
            net: Mass::from_grams(500),
            price: None,
            opened: Timestamp::UNIX_EPOCH,
            closed: None,
        },
        taken: Mass::from_grams(100),
    }
}

fn id(number: u32) -> PortionId {
    PortionId {
        device: DeviceId(1),
        epoch: Epoch(1),
        number,
    }
}

fn portion(number: u32, grams: i64) -> RecordedPortion {
    RecordedPortion {
        id: id(number),
        run: RunId(7),
        dish: run().dish,
        mode: Mode::Taking,
        mass: Mass::from_grams(grams),
        goal: goal(),
        time: Timestamp::UNIX_EPOCH,
        time_source: TimeSource::Instrument,
        temperature: None,
        doubts: Doubts::NONE,
        uncertainty: None,
        left: None,
        cost: None,
        struck: None,
        replaces: None,
        replaced_by: None,
    }
}

fn reading(milligrams: i64) -> Reading {
    Reading {
        at: Uptime::from_millis(0),
        gross: Some(Mass::from_milligrams(milligrams)),
        tare: Mass::ZERO,
        stable: false,
        amount: Some(Mass::from_milligrams(milligrams)),
        verdict: None,
        phase: Phase::Spooning,
        run: Some(RunId(7)),
        temperature: None,
        faults: FaultSet::EMPTY.with(Fault::ProbeOpen, true),
        unsent: 3,
        lost: 2,
    }
}

fn linked() -> (LiveScale, Now) {
    let now = Now {
        steady: Instant::now(),
        wall: Timestamp::UNIX_EPOCH,
    };
    let mut bench = LiveScale::new();
    bench.link_is(LinkState::Linked {
        port: "COM7".to_owned(),
        device: DeviceId(1),
    });
    (bench, now)
}

#[test]
fn a_reading_is_live_until_it_is_stale_or_the_link_is_gone() {
    let (mut bench, now) = linked();
    bench.take_report(&Report::Reading(reading(22_500)), now);
    assert_eq!(bench.reading(now.steady), Some(&reading(22_500)));
    assert!(bench.faults(now.steady).contains(Fault::ProbeOpen));
    assert_eq!((bench.unsent(), bench.lost()), (3, 2));

    let stale = bench.stale_at(now.steady).unwrap();
    assert!(stale > now.steady);
    assert_eq!(bench.reading(stale), None);
    assert_eq!(bench.stale_at(stale), None);
    assert_eq!(bench.faults(stale), FaultSet::EMPTY);
    assert!(bench.last_reading().is_some());

    bench.link_is(LinkState::Lost {
        port: "COM7".to_owned(),
    });
    assert_eq!(bench.reading(now.steady), None);
}

#[test]
fn a_newer_reading_replaces_the_one_before() {
    let (mut bench, now) = linked();
    bench.run_is(Some(LiveRun::new(run(), None, Vec::new())));
    for milligrams in [10_000, 22_500] {
        bench.take_report(&Report::Reading(reading(milligrams)), now);
    }
    let approach = bench.approach(now.steady).unwrap();
    assert_eq!(approach.to_go, Mass::from_milligrams(7_500));
    assert_eq!(approach.verdict, Verdict::Short);
    assert!((approach.share.fraction() - 0.75).abs() < 1e-12);
}

#[test]
fn portions_of_the_run_are_counted_once_and_corrected() {
    let (mut bench, _) = linked();
    bench.run_is(Some(LiveRun::new(run(), Some(tin()), vec![portion(1, 30)])));
    bench.portion_recorded(&portion(2, 36));
    bench.portion_recorded(&portion(2, 36));
    let of_another_run = RecordedPortion {
        run: RunId(8),
        ..portion(9, 99)
    };
    bench.portion_recorded(&of_another_run);
    let live = bench.run().unwrap();
    assert_eq!((live.count(), live.last().unwrap().id), (2, id(2)));
    assert_eq!(live.spread().heaviest(), Some(Mass::from_grams(36)));
    // 500 g less 100 g from before and 36 g now; 30 g was on record already.
    assert_eq!(live.tin.as_ref().unwrap().left(), Mass::from_grams(364));

    let correction = RecordedPortion {
        replaces: Some(id(2)),
        ..portion(3, 31)
    };
    bench.portion_recorded(&correction);
    let live = bench.run().unwrap();
    assert_eq!((live.count(), live.portions().len()), (2, 3));
    assert_eq!(live.portion(id(2)).unwrap().replaced_by, Some(id(3)));
    assert_eq!(live.spread().heaviest(), Some(Mass::from_grams(31)));
    let tin = live.tin.as_ref().unwrap();
    assert_eq!(tin.left(), Mass::from_grams(369));
    assert_eq!(tin.possible(&live.run).on_target, 12);
}

#[test]
fn a_struck_out_portion_is_kept_and_does_not_count() {
    let struck = RecordedPortion {
        struck: Some(Struck {
            reason: StrikeReason::undone(),
            at: Timestamp::UNIX_EPOCH,
        }),
        ..portion(2, 45)
    };
    let live = LiveRun::new(run(), None, vec![portion(1, 30), struck]);
    assert_eq!((live.count(), live.portions().len()), (1, 2));
    assert_eq!(live.last().unwrap().id, id(1));
}

#[test]
fn notices_are_bounded_and_newest_last() {
    let (mut bench, now) = linked();
    for run in 0..1_000 {
        let notice = Notice::RunStarted(RunId(run));
        bench.take_report(
            &Report::Notice {
                at: Uptime::from_millis(0),
                notice,
            },
            now,
        );
    }
    assert!(bench.notices().count() <= 32);
    let last = bench.notices().next_back().unwrap();
    assert_eq!(last.notice, Notice::RunStarted(RunId(999)));
}

#[test]
fn a_change_is_counted_and_no_change_is_not() {
    let (mut bench, _) = linked();
    let before = bench.changes();
    let same = bench.link().clone();
    bench.link_is(same);
    assert_eq!(bench.changes(), before);
    bench.link_is(LinkState::Lost {
        port: "COM7".to_owned(),
    });
    assert_eq!(bench.changes(), before + 1);
}

/// A 2 kg scale asks for 1 kg, and for the next lighter weight of a set than a 30 g portion.
#[test]
fn the_scale_says_which_weights_test_it() {
    let mut scale = LiveScale::new();
    assert_eq!(scale.test_weights(Some(&goal())), None);
    let hello = Report::Hello(Hello {
        version: Version::CURRENT,
        device: DeviceId(1),
        epoch: Epoch(1),
        at: Uptime::from_millis(10),
        capabilities: Capabilities::PORTIONS,
        capacity: Mass::from_grams(2_000),
        interval: Mass::from_milligrams(100),
        outbox: 64,
        verification_interval: Some(Mass::from_grams(1)),
    });
    let now = Now {
        steady: Instant::now(),
        wall: Timestamp::UNIX_EPOCH,
    };
    scale.take_report(&hello, now);
    let asked = scale.test_weights(Some(&goal())).unwrap();
    assert_eq!(asked.heavy, Mass::from_grams(1_000));
    assert_eq!(asked.portion, Some(Mass::from_grams(20)));
}
