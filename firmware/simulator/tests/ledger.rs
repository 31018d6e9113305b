//! What becomes of every portion in kitchens that are hard to weigh in. The
//! figures over many seeds are in `LEDGER.md`; here a few seeds hold what must
//! never break. No threshold of the firmware was tuned on them.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use evenhand_simulator::desk::{Ledger, TUNING_SEEDS, run};
use evenhand_simulator::scenario::Scenario;

const SEEDS: [u64; 2] = [2_001, 2_002];

fn ledger(name: &str) -> Ledger {
    let scenario = Scenario::shipped(name).unwrap();
    SEEDS.into_iter().fold(Ledger::default(), |sum, seed| {
        assert!(!TUNING_SEEDS.contains(&seed), "{seed} was tuned on");
        let (instrument, desk) = run(&scenario, seed);
        sum.and(Ledger::of(&instrument, &desk))
    })
}

#[test]
fn where_nothing_is_amiss_every_portion_is_right_and_hardly_one_is_doubted() {
    for name in ["calm-adding", "calm-taking"] {
        let ledger = ledger(name);
        assert_eq!(
            ledger.right + ledger.right_doubted,
            ledger.made,
            "{ledger:?}"
        );
        assert!(ledger.doubted() * 50 <= ledger.made, "{name}: {ledger:?}");
        assert!(ledger.covered * 100 >= ledger.matched() * 95, "{ledger:?}");
    }
}

#[test]
fn a_cell_of_five_kilograms_on_a_low_voltage_counts() {
    for name in ["five-kilograms", "five-kilograms-low"] {
        let ledger = ledger(name);
        assert!(ledger.missed() * 100 <= ledger.made, "{name}: {ledger:?}");
        assert!(ledger.silent() * 50 <= ledger.made, "{name}: {ledger:?}");
    }
}

#[test]
fn a_cook_who_waits_half_a_second_is_counted_or_told_and_never_believed() {
    let ledger = ledger("half-second-adding");
    assert_eq!(ledger.silent(), 0, "{ledger:?}");
    // The fault happened: nothing of it was ever steady.
    assert_eq!(ledger.right, 0, "{ledger:?}");
    assert!(ledger.right_doubted * 2 >= ledger.made, "{ledger:?}");
}

#[test]
fn a_bench_that_sways_says_that_it_cannot_count() {
    for name in ["sway-adding", "sway-taking"] {
        let ledger = ledger(name);
        // The fault happened: nothing could be counted.
        assert!(ledger.refused > 0, "{name}: {ledger:?}");
        assert_eq!(ledger.silent(), 0, "{name}: {ledger:?}");
    }
}

#[test]
fn what_is_tasted_is_said() {
    let ledger = ledger("tastes");
    assert!(ledger.tastes > 0);
    assert!(ledger.tastes_unsaid * 20 <= ledger.tastes, "{ledger:?}");
}
