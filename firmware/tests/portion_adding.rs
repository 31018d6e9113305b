//! Filling dishes: what each disturbance leads to.

use crate::portion_pan::{Pan, everywhere, goal, grams};
use evenhand_firmware::portion::{PortionSettings, Portioning};
use evenhand_protocol::report::Doubts;
use evenhand_protocol::{Mode, Notice, Phase};

fn adding(story: impl Fn(&mut Pan)) {
    everywhere(Mode::Adding, goal(30.0, 1.0), story);
}

/// A dish goes on and is filled.
fn fill(pan: &mut Pan, dish: f64, food: f64) {
    pan.put(dish).hold(1.0).add(food);
}

#[test]
fn a_dish_is_tared_filled_and_counted_when_lifted() {
    adding(|pan| {
        fill(pan, 240.0, 30.2);
        assert!(pan.drafts.is_empty(), "not before it is lifted");
        pan.lift().hold(1.0);
        pan.expect(&[30.2]);
        assert_eq!(
            pan.phases,
            [
                Phase::AwaitDish,
                Phase::DishSettling,
                Phase::Filling,
                Phase::AwaitDish
            ]
        );
    });
}

#[test]
fn dishes_from_five_grams_to_a_kilogram() {
    for dish in [5.0, 8.0, 12.0, 40.0, 310.0, 1_000.0] {
        adding(|pan| {
            fill(pan, dish, 29.5);
            pan.lift().hold(1.0);
            fill(pan, dish, 30.5);
            pan.lift().hold(1.0);
            pan.expect(&[29.5, 30.5]);
        });
    }
}

#[test]
fn food_in_several_spoonfuls_is_one_portion() {
    adding(|pan| {
        fill(pan, 240.0, 12.0);
        pan.add(9.0).add(6.5).add(2.0).lift().hold(1.0);
        pan.expect(&[29.5]);
    });
}

#[test]
fn too_much_is_spooned_out_again() {
    adding(|pan| {
        fill(pan, 240.0, 38.0);
        pan.spoon(7.6).lift().hold(1.0);
        pan.expect(&[30.4]);
    });
}

#[test]
fn a_slow_dribble_is_food_from_its_first_drop() {
    adding(|pan| {
        pan.put(240.0).hold(0.8);
        pan.change(30.0, 60.0).hold(0.7).lift().hold(1.0);
        pan.expect(&[30.0]);
    });
    adding(|pan| {
        pan.put(240.0).hold(0.8);
        // The chain has learnt to take the dribble for noise and settles later.
        pan.change(28.0, 300.0).hold(2.0).lift().hold(1.5);
        pan.expect(&[28.0]);
    });
}

#[test]
fn a_hand_leans_on_the_pan() {
    adding(|pan| {
        fill(pan, 240.0, 15.0);
        pan.lean(3.0, 900.0).hold(1.0).add(15.1);
        pan.lean(1.2, 70.0).hold(1.0).lift().hold(1.0);
        pan.expect(&[30.1]);
    });
}

#[test]
fn a_hand_heavier_than_the_scale_leans_on_the_pan() {
    adding(|pan| {
        fill(pan, 240.0, 15.0);
        pan.lean(2.0, 6_000.0).hold(1.0).add(15.1);
        pan.lift().hold(1.0);
        pan.expect(&[30.1]);
    });
}

#[test]
fn a_hand_rests_dead_still_and_leaves() {
    adding(|pan| {
        fill(pan, 240.0, 30.1);
        pan.rest_hand(1.2, 420.0).hold(1.0).lift().hold(1.0);
        fill(pan, 240.0, 29.9);
        pan.rest_hand(2.0, 18.0).hold(1.0).lift().hold(1.0);
        pan.expect(&[30.1, 29.9]);
    });
}

#[test]
fn a_hand_rests_while_the_dish_is_tared() {
    adding(|pan| {
        pan.put(240.0);
        pan.rest_hand(1.5, 300.0).hold(1.0);
        pan.add(30.3).lift().hold(1.0);
        pan.expect(&[30.3]);
    });
}

#[test]
fn a_hand_at_rest_from_under_which_the_dish_is_lifted_is_not_food() {
    adding(|pan| {
        fill(pan, 240.0, 30.0);
        pan.force(1.0, |_| 500.0);
        pan.lift().hold(1.0);
        pan.expect(&[]);
        assert_eq!(pan.notified(|n| *n == Notice::LiftedUnsettled), 1);
        // Set down again it goes on.
        pan.put(270.0).hold(1.0).lift().hold(1.0);
        pan.expect(&[30.0]);
    });
}

#[test]
fn bumps_count_nothing_and_change_nothing() {
    for (peak, hertz) in [(20.0, 1.0), (20.0, 2.3), (8.0, 4.0), (3.0, 12.0)] {
        for dish in [6.0, 240.0] {
            adding(|pan| {
                pan.bump(peak, hertz).hold(0.8);
                pan.put(dish).hold(1.0).bump(peak, hertz).hold(1.0);
                pan.add(30.0).bump(peak, hertz).hold(1.0).lift().hold(0.1);
                pan.bump(peak, hertz).hold(1.0);
                pan.expect(&[30.0]);
            });
        }
    }
}

#[test]
fn a_grip_before_the_lift_does_not_unsettle() {
    adding(|pan| {
        fill(pan, 240.0, 30.0);
        pan.lean(0.5, 120.0).lift().hold(1.0);
        pan.expect(&[30.0]);
        // One that does not tremble, on a portion that is short.
        fill(pan, 240.0, 27.0);
        pan.force(0.25, |_| 14.0).lift().hold(1.0);
        pan.expect(&[30.0, 27.0]);
    });
}

#[test]
fn another_hand_on_the_pan_does_not_unsettle_a_portion_that_is_right() {
    adding(|pan| {
        fill(pan, 240.0, 30.0);
        pan.lean(2.5, 400.0).lift().hold(1.0);
        pan.expect(&[30.0]);
    });
}

#[test]
fn lifted_before_it_is_steady_is_counted_by_a_moment_of_calm_and_doubted() {
    adding(|pan| {
        fill(pan, 240.0, 18.0);
        pan.force(0.3, |time| 60.0 * (time * 10.0).sin().abs());
        pan.change(12.0, 0.1).hold(0.3);
        pan.lift().hold(1.0);
        pan.expect(&[30.0]);
        assert!(pan.drafts[0].1.doubts.contains(Doubts::HASTY));
    });
}

#[test]
fn lifted_unsettled_and_set_down_again_it_goes_on() {
    adding(|pan| {
        pan.put(240.0).hold(1.0);
        pan.force(0.3, |time| 60.0 * (time * 10.0).sin().abs());
        pan.change(30.0, 0.1)
            .force(0.25, |time| 0.5 * (time * 40.0).sin())
            .lift()
            .hold(2.0);
        pan.expect(&[]);
        assert_eq!(pan.notified(|n| *n == Notice::LiftedUnsettled), 1);
        pan.put(270.0).hold(1.0).lift().hold(1.0);
        pan.expect(&[30.0]);
    });
}

#[test]
fn lifted_empty_is_not_counted() {
    adding(|pan| {
        pan.put(240.0).hold(1.0).lift().hold(1.0);
        fill(pan, 240.0, 12.0);
        pan.spoon(12.0).lift().hold(1.0);
        pan.expect(&[]);
        assert_eq!(pan.notified(|n| *n == Notice::LiftedEmpty), 2);
    });
}

#[test]
fn a_lift_that_wobbles_counts_once() {
    adding(|pan| {
        fill(pan, 240.0, 30.0);
        // Half up and down again, all the way up and down again, then away.
        pan.change(-150.0, 0.2).change(150.0, 0.2).hold(1.0);
        pan.lift().hold(0.2).put(270.0).hold(1.0);
        pan.lift().hold(1.0);
        pan.expect(&[30.0]);
        assert_eq!(pan.drafts.len(), 1);
        assert_eq!(pan.notified(|n| matches!(n, Notice::DishReturned(_))), 0);
    });
}

#[test]
fn a_dish_put_back_unchanged_counts_nothing() {
    adding(|pan| {
        fill(pan, 240.0, 30.0);
        pan.lift().hold(3.0).put(270.0).hold(1.0).lift().hold(2.0);
        pan.put(270.0).hold(1.0).lift().hold(1.0);
        pan.expect(&[30.0]);
        assert_eq!(pan.drafts.len(), 1);
        assert_eq!(pan.notified(|n| *n == Notice::DishReturned(1)), 2);
    });
}

#[test]
fn a_dish_put_back_and_changed_corrects_its_portion() {
    adding(|pan| {
        fill(pan, 240.0, 27.0);
        pan.lift().hold(3.0).put(267.0).hold(1.0).add(2.7);
        pan.lift().hold(1.0);
        pan.expect(&[29.7]);
        // And once more, the other way.
        pan.put(269.7).hold(1.0).spoon(1.5).lift().hold(1.0);
        pan.expect(&[28.2]);
        assert_eq!(pan.drafts.len(), 3);
        fill(pan, 240.0, 30.0);
        pan.lift().hold(1.0);
        pan.expect(&[28.2, 30.0]);
    });
}

#[test]
fn another_dish_of_just_that_weight_is_another_dish() {
    adding(|pan| {
        fill(pan, 240.0, 30.0);
        pan.lift().hold(3.0);
        fill(pan, 270.0, 29.6);
        pan.lift().hold(1.0);
        pan.expect(&[30.0, 29.6]);
    });
}

#[test]
fn a_counted_dish_emptied_on_the_pan_is_replaced_by_the_next() {
    adding(|pan| {
        fill(pan, 240.0, 33.0);
        pan.lift().hold(2.0).put(273.0).hold(1.0).spoon(33.0);
        pan.lift().hold(1.0);
        fill(pan, 240.0, 30.0);
        pan.lift().hold(1.0);
        pan.expect(&[30.0]);
    });
}

#[test]
fn a_dish_tipped_out_and_set_down_empty_is_a_new_dish() {
    adding(|pan| {
        for food in [30.0, 29.5, 30.6] {
            fill(pan, 240.0, food);
            pan.lift().hold(2.0);
        }
        pan.expect(&[30.0, 29.5, 30.6]);
    });
}

#[test]
fn dishes_swapped_in_an_instant() {
    adding(|pan| {
        fill(pan, 240.0, 30.0);
        pan.lift();
        fill(pan, 310.0, 29.5);
        pan.change(-339.5, 0.1).change(238.0, 0.1).hold(1.0);
        pan.add(30.4).lift().hold(1.0);
        pan.expect(&[30.0, 29.5, 30.4]);
    });
}

#[test]
fn dishes_swapped_under_a_hand_that_leans() {
    adding(|pan| {
        fill(pan, 240.0, 31.6);
        pan.lean(0.6, 500.0);
        pan.load = 0.0;
        pan.force(0.6, |time| 400.0 + 40.0 * (time * 20.0).sin());
        pan.load = 250.0;
        pan.lean(0.6, 500.0).hold(1.0);
        pan.add(29.5).lift().hold(1.0);
        pan.expect(&[31.6, 29.5]);
    });
}

#[test]
fn the_next_dish_is_set_beside_the_full_one() {
    adding(|pan| {
        fill(pan, 240.0, 30.0);
        pan.put(310.0).hold(1.0).change(-270.0, 0.2).hold(1.0);
        pan.add(29.5).put(60.0).hold(1.0).change(-339.5, 0.2);
        pan.hold(1.0).add(30.5).lift().hold(1.0);
        pan.expect(&[30.0, 29.5, 30.5]);
    });
}

#[test]
fn a_splash_beside_the_dish_is_not_in_it() {
    adding(|pan| {
        fill(pan, 240.0, 30.0);
        pan.change(2.0, 0.1).hold(1.0);
        pan.change(-270.0, 0.2).hold(1.0);
        pan.expect(&[30.0]);
        // The splash stays; the next dish is tared with it.
        pan.put(240.0).hold(1.0).add(29.8);
        pan.change(-269.8, 0.2).hold(1.0);
        pan.expect(&[30.0, 29.8]);
    });
}

#[test]
fn a_splash_on_a_pan_that_shakes_is_taken_off_later() {
    adding(|pan| {
        fill(pan, 240.0, 30.0);
        pan.change(2.0, 0.1).hold(1.0);
        pan.change(-270.0, 0.2);
        // The table is jolted, and sways in more than one way.
        pan.force(3.0, |seconds| {
            4.0 * ((25.0 * seconds).sin() + (14.0 * seconds).sin())
        });
        pan.expect(&[32.0]);
        pan.hold(1.5);
        pan.expect(&[30.0]);
        // The next dish is tared with the splash, and nothing is corrected twice.
        pan.put(240.0).hold(1.0).add(29.8);
        pan.change(-269.8, 0.2).hold(1.0);
        pan.expect(&[30.0, 29.8]);
    });
}

#[test]
fn a_splash_found_after_an_interruption_makes_no_second_portion() {
    adding(|pan| {
        fill(pan, 240.0, 30.0);
        pan.change(0.8, 0.1).hold(1.0);
        pan.blind(3.0, -270.0).hold(1.5);
        assert_eq!(pan.drafts.len(), 1);
    });
}

#[test]
fn a_clean_pan_that_shakes_corrects_nothing() {
    adding(|pan| {
        fill(pan, 240.0, 30.0);
        pan.lift();
        pan.force(3.0, |seconds| 4.0 * (75.0 * seconds).sin());
        pan.hold(1.5);
        assert_eq!(pan.drafts.len(), 1);
        pan.expect(&[30.0]);
    });
}

#[test]
fn a_crumb_on_the_empty_pan_is_in_no_portion() {
    adding(|pan| {
        // It might be a dish of paper until the dish stands on it, and it stays.
        pan.change(1.4, 0.1).hold(2.0).put(240.0).hold(1.0);
        pan.add(30.0).change(-270.0, 0.2).hold(1.0);
        pan.expect(&[30.0]);
        pan.change(240.0, 0.2).hold(1.0);
        pan.add(30.0).change(-270.0, 0.2).hold(1.0);
        pan.expect(&[30.0, 30.0]);
    });
}

#[test]
fn food_before_the_tare_is_known_by_the_dishes_before() {
    adding(|pan| {
        for food in [30.0, 30.3, 29.8] {
            fill(pan, 240.0, food);
            pan.lift().hold(1.0);
        }
        pan.put(240.0).change(9.0, 0.2).hold(1.0).add(21.2);
        pan.lift().hold(1.0);
        pan.expect(&[30.0, 30.3, 29.8, 30.2]);
    });
}

#[test]
fn a_heavier_dish_is_not_taken_for_a_known_one_with_food() {
    adding(|pan| {
        for food in [30.0, 30.3, 29.8] {
            fill(pan, 240.0, food);
            pan.lift().hold(1.0);
        }
        fill(pan, 262.0, 30.0);
        pan.lift().hold(1.0);
        pan.expect(&[30.0, 30.3, 29.8, 30.0]);
    });
}

#[test]
fn a_goal_changed_in_the_run_judges_from_then_on() {
    adding(|pan| {
        fill(pan, 240.0, 30.0);
        pan.lift().hold(1.0);
        pan.put(240.0).hold(1.0);
        pan.machine.set_goal(goal(100.0, 2.0));
        pan.add(99.0).lift().hold(1.0);
        pan.expect(&[30.0, 99.0]);
        assert_eq!(pan.machine.goal(), goal(100.0, 2.0));
    });
}

#[test]
fn a_full_dish_on_the_pan_counts_when_the_run_ends() {
    adding(|pan| {
        fill(pan, 240.0, 30.0);
        pan.finish();
        pan.expect(&[30.0]);
        pan.hold(1.0).lift().hold(1.0);
        pan.expect(&[30.0]);
    });
}

#[test]
fn a_portion_hardly_begun_does_not_count_when_the_run_ends() {
    adding(|pan| {
        fill(pan, 240.0, 6.0);
        pan.finish();
        pan.expect(&[]);
    });
}

#[test]
fn an_interruption_changes_nothing_where_the_dish_stays() {
    adding(|pan| {
        fill(pan, 240.0, 20.0);
        pan.blind(12.0, 0.0).hold(1.0).add(10.0);
        pan.lift().hold(1.0);
        pan.expect(&[30.0]);
    });
}

#[test]
fn what_was_lifted_during_an_interruption_is_not_counted() {
    adding(|pan| {
        fill(pan, 240.0, 24.0);
        pan.blind(3.0, -264.0).hold(1.0);
        pan.expect(&[]);
        assert_eq!(pan.notified(|n| *n == Notice::LiftedUnsettled), 1);
        fill(pan, 240.0, 30.0);
        pan.lift().hold(1.0);
        pan.expect(&[30.0]);
    });
}

#[test]
fn an_interruption_while_food_goes_in() {
    adding(|pan| {
        pan.put(240.0).hold(1.0);
        pan.blind(2.0, 20.0).lean(6.0, 80.0).add(10.0);
        pan.lift().hold(1.0);
        pan.expect(&[30.0]);
    });
}

#[test]
fn what_was_right_before_a_short_interruption_and_left_is_counted() {
    adding(|pan| {
        fill(pan, 240.0, 30.0);
        pan.blind(3.0, -270.0).hold(1.0);
        fill(pan, 240.0, 29.5);
        pan.blind(60.0, -269.5).hold(1.0);
        pan.expect(&[30.0]);
    });
}

#[test]
fn food_added_during_a_short_interruption_is_in_the_dish() {
    adding(|pan| {
        fill(pan, 240.0, 20.0);
        pan.blind(2.0, 10.0).hold(1.0).lift().hold(1.0);
        pan.expect(&[30.0]);
    });
}

#[test]
fn food_added_after_a_short_interruption_is_in_the_dish_however_long_it_takes() {
    adding(|pan| {
        pan.put(240.0).hold(1.0);
        pan.blind(3.0, 0.0);
        for _ in 0..15 {
            pan.add(2.0).hold(0.1);
        }
        pan.hold(1.0).lift().hold(1.0);
        pan.expect(&[30.0]);
    });
}

#[test]
fn a_tare_asked_for_begins_the_portion_anew() {
    adding(|pan| {
        fill(pan, 240.0, 20.0);
        let weight = pan.last.unwrap();
        assert!(pan.machine.tare(&weight));
        pan.add(30.0).lift().hold(1.0);
        pan.expect(&[30.0]);
    });
}

#[test]
fn a_zero_set_in_the_run_moves_nothing() {
    let mut pan = Pan::new(Mode::Adding, goal(30.0, 1.0), None);
    fill(&mut pan, 12.0, 20.0);
    // From here on every weight is lighter by what was on the pan.
    pan.machine.zeroed(grams(32.0));
    pan.load -= 32.0;
    pan.hold(1.0).add(10.0);
    pan.change(-42.0, 0.2).hold(1.0);
    pan.expect(&[30.0]);
}

#[test]
fn the_uncertainty_covers_noise_and_placement() {
    adding(|pan| {
        fill(pan, 240.0, 30.0);
        pan.lift().hold(1.0);
        let draft = pan.drafts[0].1;
        assert!(draft.uncertainty >= grams(0.04) && draft.uncertainty < grams(0.1));
    });
}

#[test]
fn at_ten_conversions_a_second() {
    for seed in 1..6 {
        let mut pan = Pan::slow(Mode::Adding, goal(30.0, 1.0), seed);
        pan.hold(4.0);
        for (dish, food) in [(240.0, 30.0), (12.0, 29.5), (310.0, 30.6)] {
            pan.put(dish).hold(3.0).add(food).hold(3.0);
            pan.lean(1.5, 600.0).hold(3.0).lift().hold(3.0);
        }
        pan.put(240.0).hold(3.0).add(29.0).hold(3.0);
        pan.change(-269.0, 0.2)
            .hold(0.3)
            .change(250.0, 0.2)
            .hold(3.0);
        pan.add(30.0).hold(3.0).lift().hold(3.0);
        pan.expect(&[30.0, 29.5, 30.6, 29.0, 30.0]);
    }
}

/// The power was away within a run.
#[test]
fn what_is_on_the_pan_when_the_power_comes_back_is_not_counted() {
    let resumed = |story: &dyn Fn(&mut Pan)| {
        adding(|pan| {
            pan.machine =
                Portioning::resumed(Mode::Adding, goal(30.0, 1.0), PortionSettings::BENCH);
            story(pan);
        });
    };
    let found = |pan: &Pan| pan.notified(|n| matches!(n, Notice::FoundOnPan(_)));
    // A dish half full, filled up and lifted: the next one counts.
    resumed(&|pan| {
        pan.load = 255.0;
        pan.hold(1.5).add(15.0).lean(1.0, 400.0).hold(1.0);
        assert_eq!(pan.machine.phase(), Phase::DishSettling);
        pan.lift().hold(1.0);
        fill(pan, 250.0, 30.1);
        pan.lift().hold(1.0);
        pan.expect(&[30.1]);
        assert_eq!(found(pan), 1);
    });
    // Nothing on the pan: nothing to wait for.
    resumed(&|pan| {
        fill(pan, 240.0, 29.8);
        pan.lift().hold(1.0);
        pan.expect(&[29.8]);
        assert_eq!(found(pan), 0);
    });
    // A fault comes while it waits.
    resumed(&|pan| {
        pan.load = 255.0;
        pan.hold(1.5).blind(2.0, 0.0).hold(1.0).lift().hold(1.0);
        fill(pan, 240.0, 29.8);
        pan.lift().hold(1.0);
        pan.expect(&[29.8]);
    });
    // The cook says that it is an empty dish.
    resumed(&|pan| {
        pan.load = 240.0;
        pan.hold(1.5);
        let weight = pan.last.unwrap();
        assert!(pan.machine.tare(&weight));
        pan.add(30.3).lift().hold(1.0);
        pan.expect(&[30.3]);
    });
}
