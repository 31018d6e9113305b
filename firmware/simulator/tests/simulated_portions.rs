//! Every shipped scenario through the real firmware: each portion recorded
//! once, within 0.1 g of the true one. No threshold of the firmware was tuned on
//! the seeds used here; `examples/accuracy.rs` gives the figures over many more.

use evenhand_protocol::Mass;
use evenhand_simulator::desk::{Comparison, run};
use evenhand_simulator::scenario::{SHIPPED, Scenario};

const SEEDS: [u64; 3] = [1_001, 1_002, 1_003];
const WITHIN: Mass = Mass::from_milligrams(100);

fn portions_are_true(name: &str) {
    let scenario = Scenario::shipped(name).unwrap();
    for seed in SEEDS.into_iter().chain([scenario.seed()]) {
        let (instrument, desk) = run(&scenario, seed);
        assert_eq!(instrument.truth().len(), scenario.portion_count());
        let compared = Comparison::of(&instrument, &desk);
        assert!(
            compared.missed.is_empty(),
            "{name}, seed {seed}: {:?}",
            compared.missed
        );
        assert!(
            compared.invented.is_empty(),
            "{name}, seed {seed}: {:?}",
            compared.invented
        );
        let worst = compared.worst();
        assert!(worst <= WITHIN, "{name}, seed {seed}: {} g", worst.grams());
        assert!(
            compared
                .both
                .iter()
                .all(|(_, portion)| portion.goal == scenario.goal())
        );
    }
}

#[test]
fn shrimp_out_of_the_tin() {
    portions_are_true("saltmarsh-shrimp-taking");
}

#[test]
fn hogget_neck_on_the_plates() {
    portions_are_true("saltmarsh-hogget-neck-adding");
}

#[test]
fn parfait_scooped_fast() {
    portions_are_true("saltmarsh-parfait");
}

#[test]
fn a_rough_night_adding() {
    portions_are_true("rough-night");
}

#[test]
fn a_rough_night_taking() {
    portions_are_true("rough-night-taking");
}

#[test]
fn every_shipped_scenario_has_its_test() {
    let tested = [
        "saltmarsh-shrimp-taking",
        "saltmarsh-hogget-neck-adding",
        "saltmarsh-parfait",
        "rough-night",
        "rough-night-taking",
    ];
    assert!(SHIPPED.iter().map(|(name, _)| *name).eq(tested));
}
