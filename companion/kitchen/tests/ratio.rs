//! Mixing on the scale: in the order of the book, and in every other.

use evenhand_kitchen::cure::{Contents, CuringAgent, Method, NitriteFraction};
use evenhand_kitchen::limits::Limits;
use evenhand_kitchen::ratio::{
    Approach, Closeness, CureGuard, Formula, Ingredient, Mix, MixError, NotReady, Notice, Part,
};
use evenhand_protocol::{Mass, Verdict};
use proptest::prelude::*;

fn plain(name: &str) -> Ingredient {
    Ingredient::plain(name).unwrap()
}

fn grams(grams: f64) -> Mass {
    Mass::from_fractional_grams(grams).unwrap()
}

/// One per cent of each target, on a scale good to a tenth of a gram.
fn close() -> Closeness {
    Closeness::new(1.0, Mass::from_milligrams(100)).unwrap()
}

fn brine() -> Mix {
    let formula = Formula::of_water(
        plain("water"),
        vec![(plain("salt"), 8.0), (plain("sugar"), 4.0)],
    )
    .unwrap();
    Mix::new(formula, close(), None).unwrap()
}

/// A pour on a scale that shows `reading` before it: chosen, watched, settled.
fn pour_live(mix: &mut Mix, item: usize, reading: &mut f64, add: f64) -> Approach {
    mix.choose(item, grams(*reading)).unwrap();
    mix.observe(grams(*reading + add * 0.4), false).unwrap();
    *reading += add;
    let approach = mix.observe(grams(*reading), true).unwrap();
    mix.move_on().unwrap();
    approach
}

#[test]
fn the_scale_walks_through_the_rest() {
    let mut mix = brine();
    // A bucket of 650 g stands on the scale and was never tared.
    let mut reading = 650.0;
    mix.set_amount(0, grams(5000.0)).unwrap();
    assert_eq!(mix.total(), Some(grams(5600.0)));
    let approach = pour_live(&mut mix, 0, &mut reading, 5010.0);
    assert_eq!(
        approach,
        Approach::Pouring {
            item: 0,
            so_far: grams(5010.0),
            target: Some(grams(5000.0)),
            verdict: Some(Verdict::On),
            total_if_left: Some(grams(5611.2)),
        }
    );
    assert_eq!(mix.next(), Some(1));
    assert_eq!(mix.target(1), Some(grams(400.8)));
    pour_live(&mut mix, 1, &mut reading, 400.8);
    pour_live(&mut mix, 2, &mut reading, 200.4);
    assert_eq!(mix.next(), None);
    assert_eq!(mix.ready(), Ok(()));
    assert_eq!(mix.in_the_vessel(), grams(5611.2));
}

#[test]
fn a_pinch_that_counts_as_on_opens_no_kilogram_again() {
    let formula = Formula::of_water(
        plain("water"),
        vec![(plain("salt"), 2.5), (plain("pepper"), 0.24)],
    )
    .unwrap();
    // Half a per cent, on a scale good to three of its steps of 0.1 g.
    let close = Closeness::new(0.5, Mass::from_milligrams(300)).unwrap();
    let with = |salt: f64, pepper: f64| {
        let mut mix = Mix::new(formula.clone(), close, None).unwrap();
        let mut reading = 0.0;
        for (item, mass) in [(0, 3212.0), (1, salt), (2, pepper)] {
            pour_live(&mut mix, item, &mut reading, mass);
        }
        mix
    };
    // 0.05 g too much of 7.71 g is 0.6 %: less than the scale can tell.
    let mix = with(80.3, 7.76);
    assert_eq!(mix.next(), None);
    assert_eq!(mix.ready(), Ok(()));
    // 0.6 g of 7.71 g is an over-pour: the water and the salt follow.
    let mix = with(80.3, 8.31);
    assert_eq!(mix.next(), Some(0));
    assert!(mix.is_short(1));
    // Two that are a little over do not ask for more by each other.
    let mix = with(80.6, 7.76);
    assert_eq!(mix.next(), None);
    // One over by more than counts as on is what the rest is held against.
    let mix = with(81.0, 7.76);
    assert_eq!(mix.next(), Some(0));
    assert!(!mix.is_short(2));
}

#[test]
fn the_first_pour_can_set_the_size() {
    let mut mix = brine();
    assert_eq!(mix.target(1), None);
    let mut reading = 0.0;
    let approach = pour_live(&mut mix, 0, &mut reading, 3217.0);
    assert!(matches!(
        approach,
        Approach::Pouring {
            target: None,
            verdict: None,
            ..
        }
    ));
    assert_eq!(mix.target(1), Some(grams(257.36)));
    assert_eq!(mix.target(2), Some(grams(128.68)));
}

#[test]
fn too_much_salt_brings_the_others_up_and_may_not_fit() {
    let mut mix = brine();
    mix.set_amount(0, grams(5000.0)).unwrap();
    mix.set_room(Some(grams(6000.0))).unwrap();
    mix.pour(0, grams(5000.0)).unwrap();
    mix.pour(1, grams(480.0)).unwrap();
    assert_eq!(mix.target(0), Some(grams(6000.0)));
    assert_eq!(mix.target(2), Some(grams(240.0)));
    let notices = mix.notices();
    assert!(notices.contains(&Notice::Grown {
        item: 1,
        name: "salt".to_owned(),
        total: grams(6720.0)
    }));
    assert!(notices.contains(&Notice::NoRoom {
        total: grams(6720.0),
        room: grams(6000.0)
    }));
    let reasons = mix.ready().unwrap_err();
    assert!(
        reasons
            .iter()
            .any(|reason| matches!(reason, NotReady::Notice(Notice::NoRoom { .. })))
    );
    // Taking some of the salt back out, before anything is stirred, puts it right.
    mix.pour(1, grams(-80.0)).unwrap();
    mix.pour(2, grams(200.0)).unwrap();
    assert_eq!(mix.ready(), Ok(()));
}

#[test]
fn a_stirred_mix_shrinks_as_a_whole() {
    let mut mix = brine();
    mix.set_amount(0, grams(5000.0)).unwrap();
    mix.pour(0, grams(5000.0)).unwrap();
    mix.pour(1, grams(500.0)).unwrap();
    mix.take_out(grams(1100.0)).unwrap();
    assert_eq!(mix.poured(0), grams(4000.0));
    assert_eq!(mix.poured(1), grams(400.0));
    assert_eq!(mix.target(0), Some(grams(5000.0)));
    assert!(mix.take_out(grams(4401.0)).is_err());
    assert!(mix.take_out(grams(-1.0)).is_err());
}

#[test]
fn a_lifted_vessel_is_no_pour() {
    let mut mix = brine();
    mix.choose(0, grams(650.0)).unwrap();
    mix.observe(grams(2650.0), true).unwrap();
    // The cook lifts the bucket off and puts it back.
    assert_eq!(mix.observe(Mass::ZERO, true), Ok(Approach::VesselOff));
    mix.observe(grams(2650.0), true).unwrap();
    mix.move_on().unwrap();
    assert_eq!(mix.poured(0), grams(2000.0));
    assert_eq!(mix.observe(grams(1.0), true), Err(MixError::NothingChosen));
}

#[test]
fn nothing_unsettled_is_taken_over() {
    let mut mix = brine();
    mix.choose(0, Mass::ZERO).unwrap();
    mix.observe(grams(900.0), false).unwrap();
    assert_eq!(mix.move_on(), Err(MixError::NotSettled));
    mix.observe(grams(1000.0), true).unwrap();
    mix.observe(grams(1020.0), false).unwrap();
    // Choosing the next takes over what had settled.
    mix.choose(1, grams(1000.0)).unwrap();
    assert_eq!(mix.poured(0), grams(1000.0));
    mix.leave_off();
    assert_eq!(mix.move_on(), Err(MixError::NothingChosen));
}

#[test]
fn there_may_not_be_enough() {
    let mut mix = brine();
    mix.set_available(2, Some(grams(150.0))).unwrap();
    mix.set_amount(0, grams(5000.0)).unwrap();
    assert_eq!(
        mix.notices(),
        [Notice::NotEnough {
            item: 2,
            name: "sugar".to_owned(),
            needed: grams(200.0),
            available: grams(150.0)
        }]
    );
}

#[test]
fn meat_and_water_are_what_they_are() {
    let formula = Formula::of_meat_and_water(
        plain("hogget neck"),
        plain("water"),
        vec![(plain("salt"), 2.0)],
    )
    .unwrap();
    let mut mix = Mix::new(formula, close(), None).unwrap();
    mix.pour(0, grams(6000.0)).unwrap();
    assert_eq!(mix.target(2), None);
    mix.pour(1, grams(4000.0)).unwrap();
    assert_eq!(mix.target(2), Some(grams(200.0)));
    // Salt overdone is made good with water.
    mix.pour(2, grams(220.0)).unwrap();
    assert_eq!(mix.target(0), Some(grams(6000.0)));
    assert_eq!(mix.target(1), Some(grams(5000.0)));
    assert_eq!(mix.total(), Some(grams(11_220.0)));
}

fn curing_salt() -> (Ingredient, NitriteFraction) {
    let nitrite = NitriteFraction::new("nitrite", 0.0625).unwrap();
    let agent = CuringAgent::from_label("curing salt", Contents::SodiumNitrite, nitrite).unwrap();
    (Ingredient::curing(agent), nitrite)
}

/// Loin, 2.5 % salt and a curing agent for 150 ppm, rubbed dry.
fn dry_cure(method: Method) -> Mix {
    let formula = Formula::parts(vec![
        (plain("loin"), 100.0),
        (plain("salt"), 2.5),
        (curing_salt().0, 0.24),
    ])
    .unwrap();
    let guard = CureGuard {
        method,
        limit: Limits::food_code().nitrite(method).unwrap(),
        meat: vec![0],
        pickle: vec![],
        pick_up: None,
        skin_on: false,
    };
    Mix::new(formula, close(), Some(guard)).unwrap()
}

#[test]
fn a_curing_agent_waits_for_its_label_and_its_meat() {
    let mut mix = dry_cure(Method::DryCure);
    assert!(matches!(
        mix.choose(2, Mass::ZERO),
        Err(MixError::NotConfirmed(_))
    ));
    assert!(matches!(
        mix.pour(2, grams(1.0)),
        Err(MixError::NotConfirmed(_))
    ));
    let other = NitriteFraction::new("nitrite", 0.05).unwrap();
    assert!(matches!(
        mix.confirm_label(other),
        Err(MixError::OtherLabel { .. })
    ));
    mix.confirm_label(curing_salt().1).unwrap();
    assert!(matches!(
        mix.choose(2, Mass::ZERO),
        Err(MixError::TargetUnknown(_))
    ));
    // 2.4 g on a scale good to 0.1 g is good enough; for 500 g of meat it is not.
    mix.pour(0, grams(500.0)).unwrap();
    assert!(matches!(
        mix.choose(2, Mass::ZERO),
        Err(MixError::TooSmall(_))
    ));
    mix.pour(0, grams(1500.0)).unwrap();
    mix.choose(2, Mass::ZERO).unwrap();
    mix.observe(grams(4.8), true).unwrap();
    mix.move_on().unwrap();
    mix.pour(1, grams(50.0)).unwrap();
    assert_eq!(mix.ready(), Ok(()));
    let ingoing = mix.ingoing().unwrap();
    assert!((ingoing.ppm.value() - 150.0).abs() < 1e-9);
    assert!(matches!(
        mix.pour(2, grams(-1.0)),
        Err(MixError::CannotTakeBack(_))
    ));
}

#[test]
fn too_much_of_a_curing_agent_cannot_be_undone() {
    let mut mix = dry_cure(Method::BaconDryCure);
    mix.confirm_label(curing_salt().1).unwrap();
    mix.pour(0, grams(2000.0)).unwrap();
    mix.set_available(0, Some(grams(2000.0))).unwrap();
    mix.pour(1, grams(50.0)).unwrap();
    mix.pour(2, grams(8.0)).unwrap();
    let reasons = mix.ready().unwrap_err();
    let words: Vec<String> = reasons.iter().map(ToString::to_string).collect();
    assert!(
        words
            .iter()
            .any(|w| w.starts_with("over the limit: 250.0 ppm")),
        "{words:?}"
    );
    assert!(
        words
            .iter()
            .any(|w| w == "it takes 3333.3 g of loin, there is 2000.0 g"),
        "{words:?}"
    );
    let notices: Vec<String> = mix.notices().iter().map(ToString::to_string).collect();
    assert!(
        notices
            .iter()
            .any(|n| n == "curing salt is 3.20 g over and cannot be taken back out"),
        "{notices:?}"
    );
    // With that much more meat it would be right again.
    mix.set_available(0, None).unwrap();
    mix.pour(0, grams(1333.4)).unwrap();
    mix.pour(1, grams(33.4)).unwrap();
    assert_eq!(mix.ready(), Ok(()));
}

#[test]
fn what_guards_what_is_checked() {
    let formula = Formula::parts(vec![(plain("loin"), 100.0), (curing_salt().0, 0.24)]).unwrap();
    assert!(matches!(
        Mix::new(formula.clone(), close(), None),
        Err(MixError::Unguarded(_))
    ));
    let guard = |meat: Vec<usize>| CureGuard {
        method: Method::DryCure,
        limit: Limits::food_code().nitrite(Method::DryCure).unwrap(),
        meat,
        pickle: vec![],
        pick_up: None,
        skin_on: false,
    };
    for wrong in [vec![1], vec![7]] {
        assert!(matches!(
            Mix::new(formula.clone(), close(), Some(guard(wrong))),
            Err(MixError::WrongGuard(_))
        ));
    }
    let plain_one = Formula::parts(vec![(plain("loin"), 100.0), (plain("salt"), 2.5)]).unwrap();
    assert!(Mix::new(plain_one, close(), Some(guard(vec![0]))).is_err());
    assert!(matches!(
        brine().pour(9, grams(1.0)),
        Err(MixError::NoSuchItem(9))
    ));
}

/// A guard that names no meat must not let an agent pass unreckoned.
#[test]
fn an_agent_that_cannot_be_reckoned_does_not_pass() {
    let formula = Formula::parts(vec![(plain("loin"), 100.0), (curing_salt().0, 0.24)]).unwrap();
    let guard = CureGuard {
        method: Method::DryCure,
        limit: Limits::food_code().nitrite(Method::DryCure).unwrap(),
        meat: vec![],
        pickle: vec![],
        pick_up: None,
        skin_on: false,
    };
    let mut mix = Mix::new(formula, close(), Some(guard)).unwrap();
    mix.confirm_label(curing_salt().1).unwrap();
    mix.pour(0, grams(2000.0)).unwrap();
    mix.pour(1, grams(4.8)).unwrap();
    assert!(mix.ready().is_err());
}

/// What may be done to a mix.
#[derive(Debug, Clone)]
enum Step {
    Set(usize, f64),
    Pour(usize, f64),
    TakeOut(f64),
}

fn steps(items: usize) -> impl Strategy<Value = Vec<Step>> {
    let item = 0..items;
    prop::collection::vec(
        prop_oneof![
            2 => (item.clone(), 1.0..5000.0).prop_map(|(item, mass)| Step::Set(item, mass)),
            6 => (item, 0.1..3000.0).prop_map(|(item, mass)| Step::Pour(item, mass)),
            1 => (0.0..0.9).prop_map(Step::TakeOut),
        ],
        0..12,
    )
}

fn take(mix: &mut Mix, steps: &[Step]) {
    for step in steps {
        match *step {
            Step::Set(item, mass) => mix.set_amount(item, grams(mass)).unwrap(),
            Step::Pour(item, mass) => mix.pour(item, grams(mass)).unwrap(),
            Step::TakeOut(share) => {
                let out = grams(mix.in_the_vessel().grams() * share);
                mix.take_out(out).unwrap();
            }
        }
    }
}

fn formula_of(parts: &[f64]) -> Formula {
    Formula::parts(
        parts
            .iter()
            .enumerate()
            .map(|(index, &parts)| (plain(&format!("item {index}")), parts))
            .collect(),
    )
    .unwrap()
}

fn exact() -> Closeness {
    Closeness::new(0.0, Mass::ZERO).unwrap()
}

/// Pours what is missing, item after item, until nothing is.
fn finish(mix: &mut Mix) {
    for _ in 0..20 {
        let Some(item) = mix.next() else { return };
        let missing = mix.target(item).unwrap() - mix.poured(item);
        assert!(missing > Mass::ZERO);
        mix.pour(item, missing).unwrap();
    }
    panic!("the mix does not come to an end: {mix:?}");
}

proptest! {
    // Whatever was done, once what is missing is poured the ratio holds, to the milligram that counts as on target.
    #[test]
    fn the_ratio_holds_in_the_end(
        parts in prop::collection::vec(0.1f64..100.0, 2..6),
        seed in steps(6),
    ) {
        let mut mix = Mix::new(formula_of(&parts), exact(), None).unwrap();
        let steps: Vec<Step> = seed.into_iter().filter(|step| match step {
            Step::Set(item, _) | Step::Pour(item, _) => *item < parts.len(),
            Step::TakeOut(_) => true,
        }).collect();
        take(&mut mix, &steps);
        if mix.in_the_vessel() == Mass::ZERO && mix.total().is_none() {
            mix.pour(0, grams(100.0)).unwrap();
        }
        finish(&mut mix);
        prop_assert!(mix.ready().is_ok());
        let one = mix.in_the_vessel().grams() / parts.iter().sum::<f64>();
        for (item, &part) in parts.iter().enumerate() {
            let off = (mix.poured(item).grams() - one * part).abs();
            prop_assert!(off <= 1.1e-3 + one * part * 1e-6, "{item}: {off} of {}", one * part);
        }
    }

    // No target is below what is already there, and none falls unless something is taken out or set anew.
    #[test]
    fn targets_only_grow_as_things_are_poured(
        parts in prop::collection::vec(0.1f64..100.0, 2..6),
        pours in prop::collection::vec((0usize..6, 0.1f64..3000.0), 1..12),
    ) {
        let mut mix = Mix::new(formula_of(&parts), exact(), None).unwrap();
        let mut last: Vec<Mass> = vec![Mass::ZERO; parts.len()];
        for (item, mass) in pours {
            mix.pour(item % parts.len(), grams(mass)).unwrap();
            for (item, last) in last.iter_mut().enumerate() {
                let target = mix.target(item).unwrap();
                prop_assert!(target >= mix.poured(item));
                prop_assert!(target >= *last);
                *last = target;
            }
        }
    }

    // The order of pours, and whether one is made in two goes, makes no difference.
    #[test]
    fn order_and_number_of_pours_do_not_matter(
        parts in prop::collection::vec(0.1f64..100.0, 2..6),
        pours in prop::collection::vec((0usize..6, 0.1f64..3000.0), 1..10),
        split in 0.01f64..0.99,
    ) {
        let whole = |mass: f64| grams(mass);
        let mut forward = Mix::new(formula_of(&parts), exact(), None).unwrap();
        let mut backward = forward.clone();
        for (item, mass) in &pours {
            forward.pour(item % parts.len(), whole(*mass)).unwrap();
        }
        for (item, mass) in pours.iter().rev() {
            let first = whole(mass * split);
            backward.pour(item % parts.len(), first).unwrap();
            backward.pour(item % parts.len(), whole(*mass) - first).unwrap();
        }
        prop_assert_eq!(forward.total(), backward.total());
        for item in 0..parts.len() {
            prop_assert_eq!(forward.target(item), backward.target(item));
        }
    }

    // Meat is never asked to grow on account of the salt; salt always ends as its share of meat and water.
    #[test]
    fn meat_and_water_hold_too(
        percent in 0.5f64..6.0,
        meat in 100.0f64..20_000.0,
        water in 100.0f64..20_000.0,
        salt in 0.1f64..3000.0,
        order in Just([0usize, 1, 2]).prop_shuffle(),
    ) {
        let formula = Formula::of_meat_and_water(plain("meat"), plain("water"), vec![(plain("salt"), percent)]).unwrap();
        let mut mix = Mix::new(formula, exact(), None).unwrap();
        let masses = [meat, water, salt].map(grams);
        for item in order {
            mix.pour(item, masses[item]).unwrap();
        }
        prop_assert_eq!(mix.target(0), Some(masses[0]));
        finish(&mut mix);
        let free = mix.poured(0).grams() + mix.poured(1).grams();
        prop_assert!((mix.poured(2).grams() - free * percent / 100.0).abs() < 1.1e-3 + free * 1e-8);
    }

    // Any readings in any order: errors perhaps, never a panic, and never more recorded than was shown.
    #[test]
    fn no_reading_breaks_it(
        readings in prop::collection::vec((any::<i64>(), any::<bool>(), 0usize..4), 0..40),
    ) {
        let mut mix = brine();
        for (reading, settled, item) in readings {
            let reading = Mass::from_micrograms(reading);
            match item {
                3 => drop(mix.move_on()),
                item if settled => drop(mix.choose(item, reading)),
                _ => {}
            }
            drop(mix.observe(reading, settled));
            prop_assert!((0..3).all(|item| !mix.poured(item).is_negative()));
            drop(mix.notices());
            drop(mix.ready());
        }
    }

    // "As last time but so many per cent more" moves that one ingredient against each of the others.
    #[test]
    fn a_change_moves_one_ingredient(
        parts in prop::collection::vec(0.1f64..100.0, 2..6),
        percent in -50.0f64..200.0,
    ) {
        let last = formula_of(&parts);
        let next = last.with_more("item 1", percent).unwrap();
        for (index, (before, after)) in last.items().iter().zip(next.items()).enumerate() {
            let (Part::Parts(before), Part::Parts(after)) = (before.part(), after.part()) else {
                panic!("parts expected")
            };
            let factor = if index == 1 { 1.0 + percent / 100.0 } else { 1.0 };
            prop_assert!((after - before * factor).abs() < 1e-9);
        }
    }
}
