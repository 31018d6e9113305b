//! Any sequence of portions among any disturbances: what comes out is what
//! went in, within a tenth of a gram, through the chain with its noise.

use crate::portion_pan::{Pan, goal};
use evenhand_protocol::Mode;
use proptest::prelude::*;
use proptest::test_runner::RngSeed;

/// The same cases every time, unless the environment chooses others.
fn seed() -> RngSeed {
    match ProptestConfig::default().rng_seed {
        RngSeed::Random => RngSeed::Fixed(20_260),
        chosen @ RngSeed::Fixed(_) => chosen,
    }
}

/// What may happen between and within portions without changing any.
#[derive(Debug, Clone, Copy)]
enum Disturbance {
    Nothing,
    Lean(f64, f64),
    Rest(f64, f64),
    Bump(f64, f64),
    Wait(f64),
    Blind(f64),
}

fn disturbance() -> impl Strategy<Value = Disturbance> {
    prop_oneof![
        3 => Just(Disturbance::Nothing),
        2 => (0.3..4.0, 50.0..2_500.0).prop_map(|(s, g)| Disturbance::Lean(s, g)),
        1 => (0.6..1.5, 5.0..700.0).prop_map(|(s, g)| Disturbance::Rest(s, g)),
        2 => (1.0..20.0, 1.0..4.0).prop_map(|(g, hz)| Disturbance::Bump(g, hz)),
        1 => (1.0..40.0).prop_map(Disturbance::Wait),
        1 => (0.5..5.0).prop_map(Disturbance::Blind),
    ]
}

fn disturb(pan: &mut Pan, disturbance: Disturbance) {
    match disturbance {
        Disturbance::Nothing => pan,
        Disturbance::Lean(seconds, heaviest) => pan.lean(seconds, heaviest).hold(1.2),
        Disturbance::Rest(seconds, force) => pan.rest_hand(seconds, force).hold(1.5),
        Disturbance::Bump(peak, hertz) => pan.bump(peak, hertz).hold(1.2),
        Disturbance::Wait(seconds) => pan.hold(seconds),
        Disturbance::Blind(seconds) => pan.blind(seconds, 0.0).hold(1.2),
    };
}

/// One dish: its mass, the shares of its food, how it is lifted, what happens
/// on the way.
#[derive(Debug, Clone)]
struct Dish {
    mass: f64,
    food: Vec<f64>,
    on_empty_pan: Disturbance,
    on_empty_dish: Disturbance,
    on_full_dish: Disturbance,
    leave: Leave,
}

#[derive(Debug, Clone, Copy)]
enum Leave {
    Lifted,
    Gripped,
    Wobbled,
    /// Lifted, put back and lifted again.
    Returned,
    /// Put back and corrected by so much.
    Corrected(f64),
    /// Swapped for the next dish in an instant.
    Swapped,
}

fn dish() -> impl Strategy<Value = Dish> {
    (
        prop_oneof![5.0..40.0, 40.0..400.0, 400.0..1_000.0],
        25.0..36.0,
        prop::collection::vec(0.2..1.0, 1..4),
        disturbance(),
        disturbance(),
        disturbance(),
        prop_oneof![
            4 => Just(Leave::Lifted),
            1 => Just(Leave::Gripped),
            1 => Just(Leave::Wobbled),
            1 => Just(Leave::Returned),
            1 => (-4.0..4.0).prop_map(Leave::Corrected),
            2 => Just(Leave::Swapped),
        ],
    )
        .prop_map(
            |(mass, food, shares, on_empty_pan, on_empty_dish, on_full_dish, leave)| {
                let sum: f64 = shares.iter().sum();
                Dish {
                    mass,
                    food: shares.iter().map(|share| food * share / sum).collect(),
                    on_empty_pan,
                    on_empty_dish,
                    on_full_dish,
                    leave,
                }
            },
        )
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 150, rng_seed: seed(), failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn adding(dishes in prop::collection::vec(dish(), 1..7), seed: u64) {
        let mut pan = Pan::new(Mode::Adding, goal(30.0, 1.0), Some(seed));
        let mut made = Vec::new();
        for (place, dish) in dishes.iter().enumerate() {
            if pan.load == 0.0 {
                disturb(&mut pan, dish.on_empty_pan);
                pan.put(dish.mass);
            } else {
                pan.change(dish.mass, 0.15);
            }
            pan.hold(1.5);
            disturb(&mut pan, dish.on_empty_dish);
            for food in &dish.food {
                pan.add(*food);
            }
            disturb(&mut pan, dish.on_full_dish);
            let mut food: f64 = dish.food.iter().sum();
            let full = pan.load;
            match dish.leave {
                Leave::Lifted => { pan.lift().hold(1.3); }
                Leave::Gripped => { pan.lean(0.4, 150.0).lift().hold(1.3); }
                Leave::Wobbled => {
                    pan.change(-full * 0.7, 0.1).change(full * 0.7, 0.15).hold(1.2);
                    pan.lift().hold(1.3);
                }
                Leave::Returned => {
                    pan.lift().hold(2.0).put(full).hold(1.2).lift().hold(1.3);
                }
                Leave::Corrected(by) => {
                    pan.lift().hold(2.0).put(full).hold(1.2);
                    if by > 0.0 { pan.add(by); } else { pan.spoon(-by); }
                    // A change that is smaller than a step is none.
                    food += by;
                    pan.lift().hold(1.3);
                }
                // Two things of one weight swapped in an instant are one thing.
                Leave::Swapped if dishes.get(place + 1).is_some_and(|next| (next.mass - full).abs() > 1.0) => { pan.change(-full, 0.15); pan.load = 0.0; pan.hold(0.05); pan.load = 1e-9; }
                Leave::Swapped => { pan.lift().hold(1.3); }
            }
            if pan.load != 1e-9 { pan.load = 0.0; }
            made.push(food);
        }
        let got = pan.portions();
        prop_assert_eq!(got.len(), made.len(), "made {:?}, counted {:?}; {:?}", made, got, pan.notices);
        for ((got, food), dish) in got.iter().zip(&made).zip(&dishes) {
            // What is corrected by less than a step may stay as it was.
            prop_assert!((got - food).abs() < 0.1 || matches!(dish.leave, Leave::Corrected(by) if by.abs() < 0.6 && (got - food).abs() < 0.7),
                "made {:?}, counted {:?}; {:?}", made, pan.portions(), pan.notices);
        }
    }
}

/// What a cook does at the tin.
#[derive(Debug, Clone, Copy)]
enum Deed {
    Spoon(f64),
    /// In two parts.
    Parts(f64, f64),
    /// A little comes back.
    GiveBack(f64, f64),
    Refill(f64),
    TinAway(f64),
    /// The spoon pushes, and nothing is taken.
    Stir,
}

fn deed() -> impl Strategy<Value = Deed> {
    prop_oneof![
        6 => (24.0..37.0).prop_map(Deed::Spoon),
        1 => (26.0..36.0, 0.25..0.75).prop_map(|(m, s)| Deed::Parts(m, s)),
        1 => (28.0..38.0, 0.6..8.0).prop_map(|(m, b)| Deed::GiveBack(m, b)),
        1 => (100.0..500.0).prop_map(Deed::Refill),
        1 => (1.0..30.0).prop_map(Deed::TinAway),
        1 => Just(Deed::Stir),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 150, rng_seed: seed(), failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn taking(deeds in prop::collection::vec((deed(), disturbance()), 1..12), seed: u64) {
        let mut pan = Pan::new(Mode::Taking, goal(30.0, 1.0), Some(seed));
        pan.put(600.0).hold(2.5);
        let mut made = Vec::new();
        for (deed, disturbance) in &deeds {
            if pan.load < 100.0 {
                pan.change(500.0, 1.0).hold(4.0);
            }
            match *deed {
                Deed::Spoon(mass) => { pan.spoon(mass); made.push(mass); }
                Deed::Parts(mass, share) => {
                    // Soon after a short portion a part would complete that one.
                    pan.hold(21.0);
                    pan.spoon(mass * share).spoon(mass * (1.0 - share));
                    made.push(mass);
                }
                Deed::GiveBack(mass, back) => {
                    pan.spoon(mass).change(back, 0.1).hold(1.2);
                    made.push(mass - back);
                }
                Deed::Refill(mass) => { if pan.load < 1_000.0 { pan.change(mass, 1.0).hold(1.5); } }
                Deed::TinAway(seconds) => {
                    let tin = pan.load;
                    pan.lift().hold(seconds);
                    pan.load = 0.0;
                    pan.put(tin).hold(2.5);
                }
                Deed::Stir => { pan.force(2.0, |time| 160.0 * (time * 7.0).sin().abs()).hold(1.2); }
            }
            disturb(&mut pan, *disturbance);
        }
        pan.finish();
        let got = pan.portions();
        prop_assert_eq!(got.len(), made.len(), "made {:?}, counted {:?}; {:?}", made, got, pan.notices);
        for (got, mass) in got.iter().zip(&made) {
            prop_assert!((got - mass).abs() < 0.1, "made {:?}, counted {:?}; {:?}", made, pan.portions(), pan.notices);
        }
    }
}
