//! Spoonfuls out of a tin: what each disturbance leads to.

use crate::portion_pan::{Pan, everywhere, goal, grams};
use evenhand_protocol::report::Doubts;
use evenhand_protocol::{Mass, Mode, Notice, Phase};

/// A tin of so many grams stands on the pan, out of which 30 g portions go.
fn taking(tin: f64, story: impl Fn(&mut Pan)) {
    everywhere(Mode::Taking, goal(30.0, 1.0), |pan| {
        pan.put(tin).hold(2.5);
        story(pan);
    });
}

fn refills(pan: &Pan) -> Vec<f64> {
    pan.notices
        .iter()
        .filter_map(|notice| match notice {
            Notice::Refilled(mass) => Some(mass.grams()),
            _ => None,
        })
        .collect()
}

#[track_caller]
fn expect_refills(pan: &Pan, expected: &[f64]) {
    let got = refills(pan);
    assert!(
        got.len() == expected.len() && got.iter().zip(expected).all(|(a, b)| (a - b).abs() < 1.0),
        "refilled {expected:?}, told {got:?}"
    );
}

#[test]
fn each_spoonful_is_a_portion() {
    taking(800.0, |pan| {
        pan.spoon(30.2).spoon(29.1).hold(3.0).spoon(31.4);
        pan.expect(&[30.2, 29.1, 31.4]);
        assert_eq!(pan.drafts.len(), 3, "each was captured once");
        let left: Vec<f64> = pan
            .drafts
            .iter()
            .map(|(_, draft)| draft.left.unwrap().grams())
            .collect();
        assert!((left[0] - 769.8).abs() < 0.1 && (left[2] - 709.3).abs() < 0.1);
        assert!(pan.phases.starts_with(&[
            Phase::AwaitTin,
            Phase::TinSettling,
            Phase::Ready,
            Phase::Spooning,
            Phase::Ready
        ]));
    });
}

#[test]
fn spoonfuls_in_quick_succession() {
    taking(900.0, |pan| {
        let made: Vec<f64> = (0..20).map(|n| 29.0 + 0.11 * f64::from(n)).collect();
        for mass in &made {
            pan.force(0.3, |time| 150.0 * (time * 11.0).sin().abs());
            pan.change(-mass, 0.2).hold(0.8);
        }
        pan.expect(&made);
    });
}

#[test]
fn a_spoon_that_pushes_and_leaves_with_nothing() {
    taking(600.0, |pan| {
        pan.force(2.0, |time| 200.0 * (time * 6.0).sin().abs());
        pan.hold(1.5).spoon(30.0);
        pan.expect(&[30.0]);
    });
}

#[test]
fn a_refill_is_no_negative_portion() {
    taking(200.0, |pan| {
        pan.spoon(30.0).spoon(30.5).change(400.0, 1.5).hold(4.0);
        pan.spoon(29.5);
        pan.expect(&[30.0, 30.5, 29.5]);
        expect_refills(pan, &[400.0]);
    });
}

#[test]
fn a_refill_poured_in_parts_is_told_once() {
    taking(200.0, |pan| {
        pan.spoon(30.0).hold(21.0);
        for _ in 0..4 {
            pan.change(60.0, 0.8).hold(1.0);
        }
        pan.hold(4.0).spoon(30.4);
        pan.expect(&[30.0, 30.4]);
        expect_refills(pan, &[240.0]);
    });
}

#[test]
fn a_refill_and_a_spoonful_right_after_it() {
    taking(200.0, |pan| {
        pan.change(300.0, 1.0).hold(1.0).spoon(30.0);
        pan.expect(&[30.0]);
        expect_refills(pan, &[300.0]);
    });
}

#[test]
fn a_hand_leans_on_the_tin() {
    taking(700.0, |pan| {
        pan.lean(4.0, 900.0).hold(1.0).spoon(30.0);
        pan.lean(0.6, 80.0).hold(1.0).spoon(29.3);
        pan.lean(2.0, 8_000.0).hold(1.0).spoon(30.1);
        pan.expect(&[30.0, 29.3, 30.1]);
    });
}

#[test]
fn a_hand_rests_dead_still_and_leaves() {
    for force in [400.0, 75.0, 31.0, 20.0, 9.0] {
        taking(700.0, |pan| {
            pan.hold(2.0).rest_hand(1.4, force).hold(1.5);
            pan.spoon(30.0);
            pan.rest_hand(1.4, force).hold(1.5);
            pan.spoon(29.4);
            pan.expect(&[30.0, 29.4]);
        });
    }
}

#[test]
fn a_hand_rests_on_a_tin_that_was_just_put_down() {
    everywhere(Mode::Taking, goal(30.0, 1.0), |pan| {
        pan.put(600.0).rest_hand(1.0, 35.0).hold(2.0).spoon(30.0);
        pan.expect(&[30.0]);
    });
}

#[test]
fn bumps_count_nothing_and_change_nothing() {
    for (peak, hertz) in [(20.0, 1.0), (20.0, 2.3), (8.0, 4.0), (3.0, 12.0)] {
        taking(500.0, |pan| {
            pan.bump(peak, hertz).hold(0.8).spoon(30.0);
            pan.bump(peak, hertz).hold(0.8).spoon(29.2);
            pan.expect(&[30.0, 29.2]);
        });
    }
}

#[test]
fn a_tin_knocked_from_below_was_not_away() {
    taking(200.0, |pan| {
        pan.hold(1.0).spoon(27.9).hold(1.0);
        // The cook takes the rest, and something knocks the tin up as it settles.
        pan.spoon(2.1);
        pan.force(0.06, |_| -400.0).hold(1.5);
        pan.expect(&[30.0]);
        assert_eq!(
            pan.notified(|n| matches!(n, Notice::TinBack(_) | Notice::TinAway)),
            0
        );
    });
}

#[test]
fn a_spoonful_in_two_parts_is_one_portion() {
    taking(500.0, |pan| {
        // Less than half first, and more than half first.
        pan.hold(1.0).spoon(11.0).spoon(19.2).hold(25.0);
        pan.spoon(18.0).spoon(11.7).hold(25.0);
        pan.expect(&[30.2, 29.7]);
    });
}

#[test]
fn a_little_that_comes_back_corrects_the_portion() {
    taking(500.0, |pan| {
        pan.spoon(34.0).hold(1.0).change(3.6, 0.1).hold(1.5);
        pan.expect(&[30.4]);
        assert_eq!(pan.drafts[1].1.replaces, Some(1));
        pan.hold(1.0).change(0.4, 0.1).hold(1.5);
        pan.expect(&[30.0]);
        pan.spoon(29.0);
        pan.expect(&[30.0, 29.0]);
        assert!(refills(pan).is_empty());
    });
}

#[test]
fn a_little_more_corrects_a_short_portion_at_once() {
    taking(500.0, |pan| {
        pan.spoon(25.0).spoon(4.7);
        pan.expect(&[29.7]);
        assert_eq!(pan.drafts.len(), 2);
    });
}

#[test]
fn a_little_more_after_a_full_portion_waits_to_be_the_next() {
    taking(500.0, |pan| {
        // The start of the next portion.
        pan.spoon(30.0).spoon(12.0).spoon(17.5);
        pan.expect(&[30.0, 29.5]);
        // Six grams that make the last one worse are a taste as likely as a part of it.
        pan.spoon(6.0).hold(6.0);
        pan.expect(&[30.0, 29.5]);
        let (_, last) = pan.drafts.last().unwrap();
        assert!(last.doubts.contains(Doubts::MAYBE_CHANGED), "{last:?}");
        assert_eq!(pan.notified(|n| matches!(n, Notice::Unaccounted(_))), 1);
    });
}

#[test]
fn a_spoonful_put_back_and_taken_anew_counts_once() {
    taking(500.0, |pan| {
        pan.spoon(38.0).hold(1.0).change(37.5, 0.3).hold(1.5);
        pan.spoon(30.0);
        pan.expect(&[30.5]);
        assert!(refills(pan).is_empty());
    });
    taking(500.0, |pan| {
        pan.spoon(30.0).hold(1.0).change(30.0, 0.3).hold(1.5);
        pan.spoon(30.1).hold(1.0).spoon(29.0);
        pan.expect(&[30.1, 29.0]);
    });
}

#[test]
fn most_of_a_spoonful_falls_back_and_is_taken_again() {
    taking(500.0, |pan| {
        pan.spoon(30.0).change(20.0, 0.1).hold(1.0).spoon(18.5);
        pan.expect(&[28.5]);
        assert!(refills(pan).is_empty());
    });
    // Or stays in the tin: what went out is what is still out.
    taking(500.0, |pan| {
        pan.spoon(30.0).change(20.0, 0.1).hold(22.0);
        pan.expect(&[10.0]);
    });
}

#[test]
fn two_spoonfuls_at_once_are_one_doubtful_portion() {
    taking(500.0, |pan| {
        pan.spoon(59.0).spoon(30.0);
        pan.expect(&[59.0, 30.0]);
        assert!(pan.drafts[0].1.doubts.contains(Doubts::MAYBE_TWO));
        assert!(!pan.drafts[1].1.doubts.contains(Doubts::MAYBE_TWO));
    });
}

#[test]
fn far_too_much_is_no_portion() {
    taking(700.0, |pan| {
        pan.spoon(260.0).spoon(30.0);
        pan.expect(&[30.0]);
        assert_eq!(pan.notified(|n| matches!(n, Notice::Unaccounted(_))), 1);
    });
}

#[test]
fn a_taste_is_unaccounted_for() {
    taking(500.0, |pan| {
        pan.spoon(6.0).hold(25.0).spoon(30.0);
        pan.expect(&[30.0]);
        assert_eq!(pan.notified(|n| matches!(n, Notice::Unaccounted(_))), 1);
    });
}

#[test]
fn the_tin_is_lifted_and_put_back() {
    taking(500.0, |pan| {
        pan.spoon(30.0).hold(1.0).lift().hold(4.0).put(470.0);
        pan.hold(2.0).spoon(29.6);
        pan.expect(&[30.0, 29.6]);
        assert_eq!(pan.notified(|n| *n == Notice::TinAway), 1);
        assert_eq!(
            pan.notified(|n| matches!(n, Notice::TinBack(change) if change.abs() < grams(0.5))),
            1
        );
        assert!(pan.phases.contains(&Phase::TinAway));
    });
}

#[test]
fn a_portion_taken_off_the_pan_is_doubted() {
    taking(500.0, |pan| {
        pan.lift().hold(8.0).put(469.7).hold(2.0).spoon(30.0);
        pan.expect(&[30.3, 30.0]);
        assert!(pan.drafts[0].1.doubts.contains(Doubts::TAKEN_OFF_PAN));
    });
}

#[test]
fn a_tin_that_comes_back_much_lighter_or_heavier() {
    taking(500.0, |pan| {
        pan.lift().hold(8.0).put(300.0).hold(2.0).spoon(30.0);
        pan.lift().hold(8.0).put(900.0).hold(2.0).spoon(30.4);
        pan.expect(&[30.0, 30.4]);
        assert_eq!(pan.notified(|n| matches!(n, Notice::Unaccounted(_))), 1);
        expect_refills(pan, &[630.0]);
    });
}

#[test]
fn tins_are_swapped_in_an_instant() {
    taking(400.0, |pan| {
        pan.spoon(30.0);
        let old = pan.load;
        pan.change(-old, 0.15)
            .hold(0.05)
            .change(850.0, 0.15)
            .hold(2.0);
        pan.spoon(30.4);
        let old = pan.load;
        pan.change(-old, 0.15)
            .hold(0.05)
            .change(310.0, 0.15)
            .hold(2.0);
        pan.spoon(29.6);
        pan.expect(&[30.0, 30.4, 29.6]);
        assert!(pan.drafts.iter().all(|(_, d)| d.doubts == Doubts::NONE));
    });
}

#[test]
fn the_last_piece_leaves_an_empty_pan() {
    everywhere(Mode::Taking, goal(100.0, 5.0), |pan| {
        pan.put(298.0).hold(2.5);
        pan.change(-101.0, 0.3)
            .hold(1.2)
            .change(-98.5, 0.3)
            .hold(1.2);
        pan.change(-98.5, 0.3).hold(1.2);
        pan.expect(&[101.0, 98.5, 98.5]);
        // The next block is no refill and no portion.
        pan.put(410.0).hold(2.5).change(-99.0, 0.3).hold(1.2);
        pan.expect(&[101.0, 98.5, 98.5, 99.0]);
    });
}

#[test]
fn an_empty_tin_that_weighs_a_portion_is_no_portion_when_it_comes_back() {
    taking(60.5, |pan| {
        pan.spoon(30.5)
            .hold(2.0)
            .lift()
            .hold(2.0)
            .put(30.0)
            .hold(2.0);
        pan.change(300.0, 1.0).hold(4.0).spoon(29.7);
        pan.expect(&[30.5, 29.7]);
    });
}

#[test]
fn a_tool_laid_in_the_tin_leaves_with_a_spoonful() {
    for tool in [22.0, 40.0, 150.0] {
        taking(500.0, |pan| {
            pan.spoon(30.0).hold(25.0);
            pan.change(tool, 0.2).hold(8.0);
            pan.force(0.4, |time| 90.0 * (time * 9.0).sin().abs());
            pan.change(-tool - 29.5, 0.2).hold(1.2).spoon(30.3);
            pan.expect(&[30.0, 29.5, 30.3]);
        });
    }
}

#[test]
fn a_tool_laid_in_the_tin_and_taken_out_again() {
    for tool in [12.0, 33.0, 150.0] {
        taking(500.0, |pan| {
            pan.spoon(30.0).hold(25.0);
            pan.change(tool, 0.2).hold(8.0).change(-tool, 0.2).hold(1.2);
            pan.spoon(30.3);
            pan.expect(&[30.0, 30.3]);
        });
    }
}

#[test]
fn steam_and_creep_are_no_portions() {
    taking(900.0, |pan| {
        // Half an hour of steaming, and half an hour of creep up.
        pan.change(-60.0, 1_800.0).spoon(30.0).hold(25.0);
        pan.change(0.6, 1_800.0).spoon(29.4);
        pan.expect(&[30.0, 29.4]);
        assert_eq!(
            pan.notified(|n| matches!(n, Notice::Unaccounted(_) | Notice::Refilled(_))),
            0
        );
    });
}

#[test]
fn an_interruption_makes_no_portion() {
    taking(500.0, |pan| {
        pan.spoon(30.0).blind(5.0, 0.0).hold(1.0).spoon(29.5);
        pan.expect(&[30.0, 29.5]);
        // A tin that was lifted off meanwhile.
        pan.blind(5.0, -440.5)
            .hold(1.0)
            .put(440.5)
            .hold(2.0)
            .spoon(30.2);
        pan.expect(&[30.0, 29.5, 30.2]);
        // A refill meanwhile.
        pan.blind(5.0, 300.0).hold(1.0).spoon(30.6);
        pan.expect(&[30.0, 29.5, 30.2, 30.6]);
        expect_refills(pan, &[300.0]);
    });
}

#[test]
fn a_spoonful_during_an_interruption_is_doubted() {
    taking(500.0, |pan| {
        pan.blind(5.0, -30.0).hold(1.0);
        pan.expect(&[30.0]);
        assert!(pan.drafts[0].1.doubts.contains(Doubts::TAKEN_OFF_PAN));
    });
}

#[test]
fn a_goal_changed_in_the_run_judges_from_then_on() {
    taking(900.0, |pan| {
        pan.spoon(30.0);
        pan.machine.set_goal(goal(100.0, 3.0));
        pan.hold(21.0).spoon(99.0).spoon(101.0);
        pan.expect(&[30.0, 99.0, 101.0]);
    });
}

#[test]
fn the_live_amount_is_what_is_out_of_the_tin() {
    taking(500.0, |pan| {
        assert_eq!(pan.machine.amount(), None);
        pan.change(-20.0, 0.3).hold(0.1);
        let amount = pan.machine.amount().unwrap();
        assert!((amount - grams(20.0)).abs() < grams(0.2), "{amount:?}");
        assert_eq!(pan.machine.dish(), Mass::ZERO);
    });
}

#[test]
fn the_run_ends_with_a_part_taken() {
    taking(500.0, |pan| {
        pan.spoon(30.0).spoon(3.0).finish();
        pan.expect(&[33.0]);
    });
    taking(500.0, |pan| {
        pan.spoon(8.0).finish();
        pan.expect(&[]);
        assert_eq!(pan.notified(|n| matches!(n, Notice::Unaccounted(_))), 1);
    });
}

#[test]
fn at_ten_conversions_a_second() {
    for seed in 1..6 {
        let mut pan = Pan::slow(Mode::Taking, goal(30.0, 1.0), seed);
        pan.hold(4.0).put(500.0).hold(5.0);
        pan.spoon(30.2).hold(3.0).spoon(29.4).hold(3.0);
        pan.lean(1.5, 600.0).hold(3.0).change(300.0, 1.0).hold(6.0);
        pan.spoon(30.6).hold(3.0);
        pan.expect(&[30.2, 29.4, 30.6]);
        expect_refills(&pan, &[300.0]);
    }
}
