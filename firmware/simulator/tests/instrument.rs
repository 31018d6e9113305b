//! The simulated instrument: the same bytes from the same seed, cables and
//! power that go, and a host that comes back.

use evenhand_protocol::{Command, Epoch, Fault, Mass, Notice, Phase, PortionId};
use evenhand_simulator::desk::{Comparison, Desk};
use evenhand_simulator::faulty_link::{FaultyLink, LinkTroubles, PerMillion};
use evenhand_simulator::feed::{BATCH, Batch, Effort, Fed, Feed, Outputs, Start};
use evenhand_simulator::feeder::Feeder;
use evenhand_simulator::history::What;
use evenhand_simulator::instrument::SimulatedInstrument;
use evenhand_simulator::scenario::Scenario;

const EXCHANGE: u64 = 10_000;

/// Three quiet dough balls, and what a test adds.
fn dough(extra: &str) -> Scenario {
    Scenario::from_toml(&format!(
        r#"
        title = "Three dough balls"
        mode = "adding"
        dish = "Dough ball"
        [goal]
        target_grams = 62
        tolerance_grams = 2
        [portions]
        masses_grams = [61.5, 62.25, 63]
        [dishes]
        grams = [110, 150]
        {extra}
        "#
    ))
    .unwrap()
}

/// Runs to the end, or to a time, and gives every byte that came.
fn run(instrument: &mut SimulatedInstrument, desk: &mut Desk, until: u64) -> Vec<u8> {
    let mut all = Vec::new();
    while !instrument.is_over() && instrument.micros() < until {
        let now = instrument.micros() + EXCHANGE;
        instrument.advance_to(now);
        let bytes = instrument.receive();
        instrument.send(&desk.talk(now, &bytes));
        all.extend(bytes);
    }
    all
}

fn desk_for(scenario: &Scenario) -> Desk {
    Desk::new(scenario.mode(), scenario.goal())
}

/// Another desk takes what the instrument has kept.
fn hear_out(instrument: &mut SimulatedInstrument, scenario: &Scenario) -> Desk {
    let mut desk = desk_for(scenario);
    for _ in 0..300 {
        let now = instrument.micros() + EXCHANGE;
        instrument.advance_to(now);
        let bytes = instrument.receive();
        instrument.send(&desk.talk(now, &bytes));
    }
    desk
}

#[test]
fn the_same_seed_gives_the_same_bytes() {
    let scenario = Scenario::shipped("rough-night").unwrap();
    let bytes = |seed| {
        run(
            &mut SimulatedInstrument::new(&scenario, seed),
            &mut desk_for(&scenario),
            60_000_000,
        )
    };
    let first = bytes(5);
    assert!(first.len() > 20_000);
    assert!(first == bytes(5));
    assert!(first != bytes(6));
}

#[test]
fn time_may_go_in_any_steps() {
    let scenario = dough("");
    let bytes = |step: u64| {
        let mut instrument = SimulatedInstrument::new(&scenario, 3);
        let mut all = Vec::new();
        for n in 1..=3_000_000 / step {
            instrument.advance_to(n * step);
            all.extend(instrument.receive());
        }
        all
    };
    assert_eq!(bytes(1_000), bytes(1_000_000));
}

#[test]
fn the_cook_waits_for_a_run_and_the_firmware_outlives_the_host() {
    let scenario = dough("");
    let mut instrument = SimulatedInstrument::new(&scenario, 4);
    instrument.advance_to(30_000_000);
    assert!(instrument.truth().is_empty());
    assert_eq!(instrument.reading().unwrap().phase, Phase::Weighing);

    let mut first = desk_for(&scenario);
    while instrument.truth().is_empty() {
        let until = instrument.micros() + 100_000;
        run(&mut instrument, &mut first, until);
    }
    drop(first);
    // Nobody listens until the cook is done; then another host comes.
    while !instrument.is_over() {
        instrument.advance_to(instrument.micros() + EXCHANGE);
        let _ = instrument.receive();
    }
    let second = hear_out(&mut instrument, &scenario);
    let masses: Vec<Mass> = second
        .portions()
        .iter()
        .map(|portion| portion.mass)
        .collect();
    assert!(masses.len() >= 2, "{masses:?}");
    for (truth, mass) in instrument.truth().iter().rev().zip(masses.iter().rev()) {
        assert!((*mass - truth.mass).abs() < Mass::from_milligrams(100));
    }
}

#[test]
fn a_pulled_cable_loses_bytes_and_no_portion() {
    let scenario = dough(
        "[[event]]\nkind = \"cable-pull\"\nat_portion = 2\nafter_seconds = 1\nfor_seconds = 8",
    );
    let mut instrument = SimulatedInstrument::new(&scenario, 4);
    let mut desk = desk_for(&scenario);
    let mut out = 0;
    while !instrument.is_over() {
        let until = instrument.micros() + EXCHANGE;
        let bytes = run(&mut instrument, &mut desk, until);
        if !instrument.link_is_up() {
            out += 1;
            // The last exchange before the pull may still be on its way.
            assert!(out == 1 || bytes.is_empty());
        }
    }
    assert!((750..=850).contains(&out), "{out}");
    let portions = desk.portions();
    assert_eq!(portions.len(), 3);
    for (truth, portion) in instrument.truth().iter().zip(&portions) {
        assert!((portion.mass - truth.mass).abs() < Mass::from_milligrams(100));
    }
}

#[test]
fn a_power_cut_begins_a_new_epoch_and_the_run_goes_on() {
    let scenario = dough("[[event]]\nkind = \"power-cut\"\nat_portion = 2\nfor_seconds = 5");
    let mut instrument = SimulatedInstrument::in_epoch(&scenario, 4, Epoch(40));
    let mut desk = desk_for(&scenario);
    let mut dark = 0;
    while !instrument.is_over() {
        let until = instrument.micros() + EXCHANGE;
        run(&mut instrument, &mut desk, until);
        dark += u32::from(instrument.reading().is_none());
    }
    assert!((490..=510).contains(&dark), "{dark}");
    assert_eq!(desk.epochs(), [Epoch(40), Epoch(41)]);
    // The instrument knows its run, and the cook waits for it.
    let portions = desk.portions();
    assert_eq!(portions.len(), 3);
    assert_eq!(
        portions.iter().map(|p| p.id.epoch.0).collect::<Vec<_>>(),
        [40, 41, 41]
    );
    assert_eq!(
        portions.iter().map(|p| p.id.number).collect::<Vec<_>>(),
        [1, 1, 2]
    );
}

/// Nobody listens, the power goes three times, also in the middle of a write;
/// then a host comes and hears of everything that was ever kept.
#[test]
fn what_was_kept_outlives_power_cuts() {
    let mut in_writes = 0;
    for seed in 1..=8 {
        let scenario = dough(
            "[[event]]\nkind = \"power-cut-in-write\"\nat_seconds = 3\nfor_seconds = 2
             [[event]]\nkind = \"power-cut\"\nat_seconds = 14\nfor_seconds = 3",
        );
        let mut instrument = SimulatedInstrument::in_epoch(&scenario, seed, Epoch(70));
        let mut first = desk_for(&scenario);
        while instrument.reading().is_none_or(|now| now.run.is_none()) {
            let until = instrument.micros() + EXCHANGE;
            run(&mut instrument, &mut first, until);
        }
        while !instrument.is_over() {
            instrument.advance_to(instrument.micros() + EXCHANGE);
            let _ = instrument.receive();
        }
        let history = instrument.take_history();
        let kept: Vec<PortionId> = history
            .iter()
            .filter_map(|happening| match happening.what {
                What::Kept(portion) => Some(portion.id),
                _ => None,
            })
            .collect();
        let starts: Vec<Epoch> = history
            .iter()
            .filter_map(|happening| match happening.what {
                What::PowerOn(epoch) => Some(epoch),
                _ => None,
            })
            .collect();
        in_writes += history
            .iter()
            .filter(|happening| happening.what == What::PowerOff { in_write: true })
            .count();
        assert!(starts.len() >= 2, "{starts:?}");
        assert!(starts.windows(2).all(|two| two[1].0 == two[0].0 + 1));

        let second = hear_out(&mut instrument, &scenario);
        let told: Vec<PortionId> = second.portions().iter().map(|portion| portion.id).collect();
        assert_eq!(told, kept, "seed {seed}");
        let compared = Comparison::of(&instrument, &second);
        assert!(compared.invented.is_empty(), "{:?}", compared.invented);
        assert!(compared.worst() < Mass::from_milligrams(100), "seed {seed}");
    }
    assert!(in_writes >= 4, "{in_writes}");
}

/// That every portion was recorded, within 0.1 g.
fn recorded_true(instrument: &SimulatedInstrument, desk: &Desk) {
    let compared = Comparison::of(instrument, desk);
    assert!(compared.missed.is_empty(), "{:?}", compared.missed);
    assert!(compared.invented.is_empty(), "{:?}", compared.invented);
    assert!(
        compared.worst() <= Mass::from_milligrams(100),
        "{:?}",
        compared.worst()
    );
}

/// Every fourth frame of sixty bytes is spoilt.
const TERRIBLE: LinkTroubles = LinkTroubles {
    lost: PerMillion(1_000),
    spoilt: PerMillion(1_000),
    doubled: PerMillion(1_000),
    swapped: PerMillion(1_000),
    delayed: PerMillion(1_000),
    delay_micros: 100_000,
};

#[test]
fn a_faulty_link_loses_no_portion_and_records_none_twice() {
    let scenario = Scenario::shipped("saltmarsh-parfait").unwrap();
    for seed in [1_001, 1_002] {
        let mut instrument = SimulatedInstrument::new(&scenario, seed);
        let mut desk = desk_for(&scenario);
        let mut to_desk = FaultyLink::new(TERRIBLE, seed);
        let mut to_instrument = FaultyLink::new(TERRIBLE, seed + 1);
        while !instrument.is_over() {
            let now = instrument.micros() + EXCHANGE;
            instrument.advance_to(now);
            to_desk.send(now, &instrument.receive());
            to_instrument.send(now, &desk.talk(now, &to_desk.receive(now)));
            instrument.send(&to_instrument.receive(now));
        }
        assert!(desk.broken() > 20, "{}", desk.broken());
        assert!(desk.repeats() > 0, "an acknowledgement was lost");
        recorded_true(&instrument, &desk);
    }
}

#[test]
fn a_cook_who_looks_at_no_lamp_is_recorded_too() {
    let scenario = dough("[cook]\nwatches = false\nsettle_seconds = [1.5, 2]");
    let mut instrument = SimulatedInstrument::new(&scenario, 8);
    let mut desk = desk_for(&scenario);
    run(&mut instrument, &mut desk, u64::MAX);
    recorded_true(&instrument, &desk);
}

#[test]
fn ten_conversions_a_second_are_slow_and_as_true() {
    let scenario = dough("[converter]\nsamples_a_second = 10");
    let mut instrument = SimulatedInstrument::new(&scenario, 8);
    let mut desk = desk_for(&scenario);
    run(&mut instrument, &mut desk, u64::MAX);
    recorded_true(&instrument, &desk);
}

// The converter's own error is its 0.25 and 0.0625 degC steps, half of each, and
// the wire's noise of 0.05 degC; where its straight line is steeper than the
// thermocouple's curve a step is worth more degrees.
#[test]
fn the_probe_reads_what_it_stands_in_along_its_whole_range() {
    for celsius in [-30.0, 1.5, 62.0, 180.0, 350.0, 900.0] {
        let scenario = dough(&format!(
            "[cook]\nstart_after_seconds = 60\n[probe]\njunction_error_celsius = 0\nlag_seconds = 1\n[[probe.medium]]\nat_seconds = 0\ncelsius = {celsius}"
        ));
        let mut instrument = SimulatedInstrument::new(&scenario, 8);
        run(&mut instrument, &mut desk_for(&scenario), 20_000_000);
        let read = instrument.reading().unwrap().temperature.unwrap();
        let off = read.celsius() - instrument.world().probe_tip().celsius();
        assert!(off.abs() < 0.35, "{celsius}: off by {off}");
        assert!(
            (read.celsius() - celsius).abs() < 0.35,
            "{celsius}: {}",
            read.celsius()
        );
    }
}

#[test]
fn each_trouble_of_the_chips_is_told_and_goes_again() {
    for (kind, fault) in [
        ("bridge-silent", Fault::BridgeTimeout),
        ("bridge-high-rail", Fault::BridgeHighRail),
        ("bridge-low-rail", Fault::BridgeLowRail),
        ("bridge-frozen", Fault::BridgeFrozen),
        ("bridge-all-ones", Fault::BridgeOutOfStep),
        // Pulses too many choose the input that is not connected.
        ("bridge-sparks", Fault::BridgeFrozen),
        ("bridge-stalls", Fault::BridgeOutOfStep),
        ("bridge-pin-error", Fault::BridgeTimeout),
        ("probe-open", Fault::ProbeOpen),
        ("probe-short-to-ground", Fault::ProbeShortToGround),
        ("probe-short-to-supply", Fault::ProbeShortToSupply),
        ("probe-bus-error", Fault::ProbeSilent),
        ("probe-data-low", Fault::ProbeSilent),
        ("probe-data-high", Fault::ProbeSilent),
    ] {
        let scenario = dough(&format!(
            "[cook]\nstart_after_seconds = 60\n[[event]]\nkind = \"{kind}\"\nat_seconds = 3\nfor_seconds = 4"
        ));
        let mut instrument = SimulatedInstrument::new(&scenario, 2);
        let mut desk = desk_for(&scenario);
        let holds =
            |instrument: &SimulatedInstrument| instrument.reading().unwrap().faults.contains(fault);
        run(&mut instrument, &mut desk, 2_500_000);
        assert!(!holds(&instrument), "{kind} before");
        let mut seen = false;
        while instrument.micros() < 8_000_000 {
            let until = instrument.micros() + EXCHANGE;
            run(&mut instrument, &mut desk, until);
            seen |= holds(&instrument);
        }
        assert!(seen, "{kind} was not told");
        run(&mut instrument, &mut desk, 12_000_000);
        assert!(!holds(&instrument), "{kind} went");
        assert!(
            instrument.reading().unwrap().faults.is_empty(),
            "{kind} left nothing"
        );
    }
}

#[test]
fn a_board_is_fed_the_same_world() {
    let scenario = dough("[[event]]\nkind = \"power-cut\"\nat_portion = 2\nfor_seconds = 5");
    let mut feeder = Feeder::new(&scenario, 4);
    let mut starts: Vec<Start> = Vec::new();
    let mut batches: Vec<Batch> = Vec::new();
    let mut expected = 0;
    while !feeder.is_over() {
        match feeder.next(8) {
            Feed::Start(start) => {
                starts.push(start);
                expected = 0;
            }
            Feed::Batch(batch) => {
                assert!((1..=8).contains(&batch.counts.len()));
                if expected > 0 {
                    assert_eq!(batch.first_micros, expected, "no gap in time");
                }
                expected = batch.end_micros() + u64::from(batch.period_micros);
                batches.push(batch);
            }
        }
        feeder.answered(&Fed {
            micros: expected,
            outputs: Outputs(Outputs::RUNNING.0 | Outputs::STEADY.0),
            effort: Effort::default(),
        });
    }
    assert_eq!(
        starts.iter().map(|start| start.epoch).collect::<Vec<_>>(),
        [Epoch(1), Epoch(2)]
    );
    assert_eq!(feeder.truth().len(), 3);
    assert_eq!(batches[0].first_micros, u64::from(batches[0].period_micros));
    let mut whole = Feeder::new(&scenario, 4);
    assert!(matches!(whole.next(BATCH), Feed::Start(_)));
    let Feed::Batch(batch) = whole.next(1_000) else {
        panic!("a batch follows the start")
    };
    assert_eq!(batch.counts.len(), BATCH);
    assert_eq!(batch.counts[..8], batches[0].counts[..8]);
}

/// So many shrimp pots, with the cable out from the fifth on, for longer than they take.
fn shrimp_alone(portions: usize) -> Scenario {
    let shipped = include_str!("../scenarios/saltmarsh-shrimp-taking.toml");
    let alone = shipped.replace("count = 30", &format!("count = {portions}"));
    assert_ne!(alone, shipped);
    Scenario::from_toml(&format!(
        "{alone}
         [[event]]
         kind = \"cable-pull\"
         at_portion = 5
         for_seconds = 6000"
    ))
    .unwrap()
}

/// Plugs a desk in and lets it talk for some seconds.
fn plugged_in(instrument: &mut SimulatedInstrument, desk: &mut Desk, seconds: u64) {
    let until = instrument.micros() + seconds * 1_000_000;
    while instrument.micros() < until {
        let now = instrument.micros() + EXCHANGE;
        instrument.advance_to(now);
        let bytes = instrument.receive();
        instrument.send(&desk.talk(now, &bytes));
    }
}

#[test]
fn three_hundred_portions_with_the_desktop_away_are_all_there_and_come_again() {
    let scenario = shrimp_alone(300);
    let mut instrument = SimulatedInstrument::new(&scenario, 5);
    let mut desk = desk_for(&scenario);
    run(&mut instrument, &mut desk, u64::MAX);
    let kept: Vec<PortionId> = instrument
        .take_history()
        .iter()
        .filter_map(|happening| match happening.what {
            What::Kept(portion) => Some(portion.id),
            _ => None,
        })
        .collect();
    // The witness: the cable was out, and far more was weighed than the 64 that
    // an instrument without such a flash keeps.
    assert!(instrument.truth().len() >= 300);
    let unheard = kept.len() - desk.recorded().len();
    assert!(unheard > 250, "{unheard}");

    assert!(!instrument.link_is_up());

    let mut again = Desk::that_listens();
    while !instrument.link_is_up() {
        instrument.advance_to(instrument.micros() + 1_000_000);
    }
    plugged_in(&mut instrument, &mut again, 120);
    let mut all = desk.recorded().clone();
    all.extend(again.recorded());
    assert!(all.keys().copied().eq(kept.iter().copied()), "{unheard}");

    // The record is lost; all of it was acknowledged.
    let mut anew = Desk::that_listens();
    plugged_in(&mut instrument, &mut anew, 10);
    assert_eq!(anew.recorded().len(), 0);
    anew.ask(Command::StopRun);
    anew.ask(Command::Recall);
    plugged_in(&mut instrument, &mut anew, 120);
    assert_eq!(anew.refusals(), []);
    assert_eq!(*anew.recorded(), all);
    let recalled = Notice::Recalled(u32::try_from(all.len()).unwrap());
    assert!(anew.notices().iter().any(|(_, told)| *told == recalled));
}
