//! Where masses lie on the approach track.

use evenhand_app::widgets::approach_track::Approach;
use evenhand_protocol::{Goal, Mass, Tolerance};

fn mg(milligrams: i64) -> Mass {
    Mass::from_milligrams(milligrams)
}

fn goals() -> Vec<Goal> {
    [
        (30_000, 1_000, 1_000),
        (180_000, 6_000, 6_000),
        (850_000, 0, 15_000),
        (45_000, 0, 0),
        (10_000, 9_000, 2_000),
        (500, 100, 100),
    ]
    .into_iter()
    .map(|(target, below, above)| {
        let tolerance = Tolerance {
            below: mg(below),
            above: mg(above),
        };
        Goal::new(mg(target), tolerance).unwrap()
    })
    .collect()
}

#[test]
fn more_food_never_moves_the_marker_back() {
    for goal in goals() {
        let track = Approach::of(goal);
        let top = goal.target().micrograms() / 1_000 * 3;
        let mut last = -1.0;
        for step in 0..=600 {
            let at = track.place(mg(top * step / 600));
            assert!((0.0..=1.0).contains(&at), "{goal:?}: {at}");
            assert!(at >= last, "{goal:?}: {at} after {last}");
            last = at;
        }
    }
}

#[test]
fn the_band_and_some_room_on_either_side_are_on_the_track() {
    for goal in goals() {
        let track = Approach::of(goal);
        let (from, to) = track.band();
        let target = track.place(goal.target());
        assert!(from <= target && target <= to, "{goal:?}");
        assert!(from > 0.0 && to < 0.97, "{goal:?}: {from} to {to}");
        assert_eq!(track.place(Mass::ZERO), 0.0);
        assert!(!track.is_off(goal.heaviest()));
        assert!(track.is_off(goal.target().times(10)));
    }
}

#[test]
fn near_the_target_a_gram_is_longer_than_far_from_it() {
    let shrimp = goals().remove(0);
    let track = Approach::of(shrimp);
    let far = track.place(mg(6_000)) - track.place(mg(5_000));
    let near = track.place(mg(30_500)) - track.place(mg(29_500));
    assert!(near > 5.0 * far, "{near} against {far}");
    assert!((near / far - track.magnification()).abs() < 0.01);
    // The lens opens only just before the band, and joins without a jump.
    let joint = track.place(mg(26_000));
    assert!((joint - track.magnified_from()).abs() < 1e-6);
}

#[test]
fn a_wide_tolerance_needs_no_lens() {
    let wide = Goal::new(mg(10_000), Tolerance::symmetric(mg(4_000))).unwrap();
    let track = Approach::of(wide);
    assert_eq!(track.magnified_from(), 0.0);
    assert_eq!(track.magnification(), 1.0);
}
