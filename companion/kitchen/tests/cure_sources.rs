//! Nitrite against worked examples from outside the project, each with where
//! it was read. The handbook's own examples were not to be had; its formulas
//! were, quoted, and worked examples by people who follow it.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use evenhand_kitchen::cure::{
    Amounts, Contents, Curing, CuringAgent, Method, NitriteFraction, PickUp, Ppm,
};
use evenhand_protocol::Mass;

fn agent(percent: f64) -> CuringAgent {
    let nitrite = NitriteFraction::new("nitrite", percent / 100.0).unwrap();
    CuringAgent::from_label("curing agent", Contents::SodiumNitrite, nitrite).unwrap()
}

fn grams(grams: f64) -> Mass {
    Mass::from_fractional_grams(grams).unwrap()
}

fn meat(mass: f64) -> Amounts {
    Amounts {
        meat: Some(grams(mass)),
        ..Amounts::default()
    }
}

fn pickle(mass: f64, pick_up: f64) -> Amounts {
    Amounts {
        pickle: Some(grams(mass)),
        pick_up: Some(PickUp::from_percent("pickup", pick_up).unwrap()),
        ..Amounts::default()
    }
}

fn ppm(method: Method, amounts: Amounts, percent: f64, weighed: f64) -> f64 {
    Curing::new(method, amounts)
        .unwrap()
        .ingoing(&agent(percent), grams(weighed), Mass::ZERO)
        .unwrap()
        .ppm
        .value()
}

// A forum's worked example of the handbook's pumped formula (its page 19, "lb nitrite x % pump x 1,000,000 / lb pickle",
// read): water 1000 g, salt 110 g, sugar 124 g, agent 32 g of 5.88 %, pumped at 10 %: 148.6256 ppm.
#[test]
fn pumped() {
    let found = ppm(
        Method::Pumped,
        pickle(1000.0 + 110.0 + 124.0, 10.0),
        5.88,
        32.0,
    );
    assert!((found - 148.6256).abs() < 5e-5, "{found}");
}

// Another (read): 100 lb of pickle that may hold 0.06 lb of pure nitrite for bacon pumped to 20 %, 120 ppm.
#[test]
fn pumped_bacon_dose() {
    let found = ppm(Method::BaconPumped, pickle(99.94, 20.0), 100.0, 0.06);
    assert!((found - 120.0).abs() < 1e-9, "{found}");
    let curing = Curing::new(Method::BaconPumped, pickle(99.94, 20.0)).unwrap();
    let dose = curing
        .dose(&agent(100.0), Ppm::new("t", 120.0).unwrap())
        .unwrap();
    assert!((dose.grams() - 0.06).abs() < 1e-6);
}

// A published sheet of the pumped formula (read): 3 oz of 6.25 % agent, 10 % pump, over the weight of a gallon of
// water, 8.33 lb, "140 ppm". It leaves the agent out of the pickle's weight; with it in, as here, 137.6.
#[test]
fn pumped_with_the_agent_in_the_pickle_or_out() {
    let (ounces_3, gallon) = (3.0 / 16.0, 8.33);
    let found = ppm(
        Method::Pumped,
        pickle(gallon - ounces_3, 10.0),
        6.25,
        ounces_3,
    );
    assert!((found - 140.7).abs() < 0.05, "{found}");
    let found = ppm(Method::Pumped, pickle(gallon, 10.0), 6.25, ounces_3);
    assert!((found - 137.6).abs() < 0.05, "{found}");
}

// The handbook's page 22, method two (quoted, read): "lb nitrite x 1,000,000 / (green weight of meat block + lb pickle)".
// Four ounces of 6.25 % agent in 8.33 lb of water over 10 lb of meat, worked by hand.
#[test]
fn immersion_to_equilibrium() {
    let amounts = Amounts {
        meat: Some(grams(10.0)),
        pickle: Some(grams(8.33)),
        ..Amounts::default()
    };
    let found = ppm(Method::ImmersionEquilibrium, amounts, 6.25, 0.25);
    assert!((found - 0.015_625e6 / 18.58).abs() < 1e-9, "{found}");
}

// Comminuted: one ounce of 6.25 % agent in 25 lb of meat is the customary 156 ppm (read, several pages), which is
// 156.25; over the limit by a quarter of a part, where the custom rounds.
#[test]
fn comminuted_and_its_custom() {
    let found = ppm(
        Method::Comminuted,
        meat(25.0 * 453.592_37),
        6.25,
        28.349_523_125,
    );
    assert!((found - 156.25).abs() < 1e-4, "{found}");
    // 1 g of pure nitrite in 5 kg is 200 ppm; 0.75 g is 150 ppm (a worked page, read).
    assert!((ppm(Method::Comminuted, meat(5000.0), 100.0, 1.0) - 200.0).abs() < 1e-9);
    assert!((ppm(Method::Comminuted, meat(5000.0), 100.0, 0.75) - 150.0).abs() < 1e-9);
    // 30 g of a 0.6 % agent to a kilogram is 0.18 g of nitrite (the same page).
    assert!((ppm(Method::Comminuted, meat(1000.0), 0.6, 30.0) - 180.0).abs() < 1e-9);
}

// Dry cure, handbook page 24 formula as worked on a page (read): 7.8 g of 6.25 % agent to a kilogram is 487.5 ppm, and
// 3.2 g is the most for bacon (200 ppm).
#[test]
fn dry_cure() {
    assert!((ppm(Method::DryCure, meat(1000.0), 6.25, 7.8) - 487.5).abs() < 1e-9);
    let bacon = Curing::new(Method::BaconDryCure, meat(1000.0)).unwrap();
    let dose = bacon
        .dose(&agent(6.25), Ppm::new("t", 200.0).unwrap())
        .unwrap();
    assert!((dose.grams() - 3.2).abs() < 1e-6);
    // 0.70 g to a pound of 454 g is 96 ppm (a page working the same formula, read).
    assert!((ppm(Method::BaconDryCure, meat(454.0), 6.25, 0.70) - 96.0).abs() < 0.5);
}

// 9 CFR 424.21(c) and 424.22(b) as listed on pages that quote the handbook (read): 156, 200, 625; bacon 120, 200; kept
// refrigerated at least 120; bacon with its skin on a tenth less.
#[test]
fn limits() {
    use evenhand_kitchen::cure::{Limit, USUAL_MINIMUM};
    for (method, most) in [
        (Method::Comminuted, 156.0),
        (Method::Pumped, 200.0),
        (Method::ImmersionPickUp, 200.0),
        (Method::ImmersionEquilibrium, 200.0),
        (Method::DryCure, 625.0),
        (Method::BaconPumped, 120.0),
        (Method::BaconImmersionPickUp, 120.0),
        (Method::BaconImmersionEquilibrium, 120.0),
        (Method::BaconDryCure, 200.0),
    ] {
        assert_eq!(Limit::of(method).at_most.value(), most, "{method}");
    }
    assert_eq!(USUAL_MINIMUM.at_most.value(), 120.0);
}
