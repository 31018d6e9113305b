//! At most one steady service in twenty has anything false said of it, and a
//! drift is seen: a short version of `FALSE-ALARMS.md`.

#[path = "../examples/false_alarms/worlds.rs"]
mod worlds;

use evenhand_kitchen::statistics::{
    Conclusion, ConclusionKind, DishCourse, FEWEST_PORTIONS, FalseAlarmRate, conclude,
};
use worlds::{Fate, Hand, World, random};

const WORLD: World = World {
    hand: Hand::Laplace,
    alike: 0.2,
    night: 0.2,
    night_of_first: None,
    before: 10,
    portions: 40,
    dishes: 1,
    hands: 1,
    varied: false,
    fate: Fate::Steady,
};

fn told(world: &World, services: u64, seed: u64) -> Vec<Vec<Conclusion>> {
    (0..services)
        .map(|run| {
            let service = world.service(&mut random(seed, run));
            conclude(&service.courses(), FalseAlarmRate::ONE_IN_TWENTY)
                .into_iter()
                .next()
                .unwrap()
        })
        .collect()
}

fn any(world: &World, services: u64, seed: u64) -> usize {
    (0..services)
        .filter(|run| {
            let service = world.service(&mut random(seed, *run));
            conclude(&service.courses(), FalseAlarmRate::ONE_IN_TWENTY)
                .iter()
                .any(|said| !said.is_empty())
        })
        .count()
}

// Of 150 services at a rate of 1 in 20, more than 15 come up once in 200 such tests
// (binomial).
#[test]
fn a_steady_service_is_left_in_peace() {
    for (seed, world) in (7_001..).zip([
        WORLD,
        World {
            alike: 0.4,
            portions: 20,
            hand: Hand::Gamma,
            ..WORLD
        },
        World {
            alike: 0.4,
            before: 0,
            portions: 60,
            ..WORLD
        },
        World {
            alike: 0.0,
            before: 0,
            hand: Hand::Contaminated,
            ..WORLD
        },
        World {
            dishes: 6,
            portions: 30,
            hand: Hand::GammaLight,
            ..WORLD
        },
        World {
            varied: true,
            before: 4,
            ..WORLD
        },
        // Two hands share each night, their levels half a spread apart.
        World {
            hands: 2,
            night: 0.5,
            dishes: 3,
            portions: 50,
            ..WORLD
        },
    ]) {
        let false_alarms = any(&world, 150, seed);
        assert!(false_alarms <= 15, "{false_alarms} of 150 in {world:?}");
    }
}

// Of 150 at a true 1 in 2, fewer than 60 come up once in 200.
#[test]
fn a_drift_by_one_spread_over_thirty_portions_is_seen_by_the_thirtieth() {
    for (seed, alike, night) in [(7_101, 0.0, 0.1), (7_102, 0.2, 0.1), (7_103, 0.0, 0.2)] {
        let drift = World {
            hand: Hand::Normal,
            alike,
            night,
            portions: 30,
            fate: Fate::Drift {
                after: 0,
                rise: 1.0,
                over: 30,
            },
            ..WORLD
        };
        let told = told(&drift, 150, seed);
        let seen = told.iter().filter(|said| !said.is_empty()).count();
        assert!(
            seen >= 60,
            "seen in {seen} of 150, alike {alike}, nights {night}"
        );
        // What is said is that it grew heavier.
        let left: Vec<&Conclusion> = told
            .iter()
            .flatten()
            .filter(|said| said.kind == ConclusionKind::LeftUsual)
            .collect();
        assert!(left.len() > 50 && left.iter().all(|said| said.up));
    }
}

#[test]
fn each_kind_of_change_is_told_as_what_it_is() {
    for (seed, kind, fate) in [
        (7_201, ConclusionKind::OffUsual, Fate::Off { by: 1.5 }),
        (
            7_202,
            ConclusionKind::Moved,
            Fate::Step { after: 20, by: 2.0 },
        ),
        (
            7_203,
            ConclusionKind::EvennessOffUsual,
            Fate::Uneven { times: 2.5 },
        ),
    ] {
        let told = told(&World { fate, ..WORLD }, 60, seed);
        let of_kind: Vec<&Conclusion> = told
            .iter()
            .flatten()
            .filter(|said| said.kind == kind)
            .collect();
        assert!(of_kind.len() > 40, "{kind:?}: {} of 60", of_kind.len());
        let wrong_way = of_kind.iter().filter(|said| !said.up).count();
        assert_eq!(wrong_way, 0, "{kind:?}");
    }
    // A step is dated to about where it was.
    let told = told(
        &World {
            fate: Fate::Step { after: 20, by: 2.0 },
            ..WORLD
        },
        60,
        7_204,
    );
    let mut places: Vec<usize> = told
        .iter()
        .flatten()
        .filter(|said| said.kind == ConclusionKind::Moved)
        .filter_map(|said| said.since)
        .collect();
    places.sort_unstable();
    assert!((18..=22).contains(&places[places.len() / 2]), "{places:?}");
}

#[test]
fn nothing_is_said_of_what_cannot_be_known() {
    let rate = FalseAlarmRate::ONE_IN_TWENTY;
    let climbing: Vec<f64> = (0..FEWEST_PORTIONS - 1).map(|n| n as f64).collect();
    let same = vec![0.25; 60];
    for tonight in [&climbing[..], &same[..], &[]] {
        let course = DishCourse {
            tonight,
            before: &[],
        };
        assert_eq!(conclude(&[course], rate), [Vec::new()]);
    }
    assert!(conclude(&[], rate).is_empty());
}
