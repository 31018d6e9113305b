//! Do intervals hold as often as they say, and calls for action come where they
//! should? On made-up kitchens with seeds that nothing was chosen on, fewer than
//! the example `forecast_coverage` prints; the bounds leave room for their number.

use crate::forecast_worlds::{
    Draw, Score, fresh, judging, later, pans, reported, score, second, tuning,
};

/// Seeds of this test: those of the report are not used up.
const SEEDS: std::ops::Range<u64> = 700_000..700_012;

/// Two and a half standard deviations of a share of so many independent asks;
/// five asks along one course count as two.
fn slack(share: f64, asks: usize) -> f64 {
    let independent = (asks as f64 * 0.4).max(1.0);
    2.5 * (share * (1.0 - share) / independent).sqrt()
}

#[test]
fn tuned_and_judged_on_different_worlds() {
    const {
        assert!(tuning::SEEDS.end <= second::SEEDS.start);
        assert!(second::SEEDS.end <= judging::SEEDS.start);
        assert!(judging::SEEDS.end <= SEEDS.start);
        assert!(SEEDS.end <= fresh::SEEDS.start);
        assert!(fresh::SEEDS.end <= reported::SEEDS.start);
        assert!(reported::SEEDS.end <= later::SEEDS.start);
    }
    let mut at_all = 0;
    for (chosen, reported) in tuning::FAMILIES
        .iter()
        .chain(&second::FAMILIES)
        .chain(&judging::FAMILIES)
        .chain(&fresh::FAMILIES)
        .chain(&reported::FAMILIES)
        .zip(later::FAMILIES.iter().cycle())
    {
        assert_eq!(chosen.name, reported.name);
        let (chosen, reported) = (
            (chosen.make)(&mut Draw::new(1, 0)),
            (reported.make)(&mut Draw::new(1, 0)),
        );
        at_all += usize::from(chosen.truth.celsius[..50] != reported.truth.celsius[..50]);
    }
    assert_eq!(at_all, 5 * later::FAMILIES.len());
}

#[test]
fn an_undisturbed_course_is_answered_and_the_interval_holds() {
    for (stream, family) in judging::FAMILIES.iter().enumerate() {
        if !family.smooth {
            continue;
        }
        let Score {
            asked,
            answered,
            held,
            ..
        } = score(family, stream as u64, SEEDS);
        let share = held as f64 / answered as f64;
        assert!(asked >= 50, "{}: {asked}", family.name);
        assert!(
            answered as f64 >= (0.75 - slack(0.75, asked)) * asked as f64,
            "{}: answered {answered} of {asked}",
            family.name
        );
        assert!(
            share >= 0.75 - slack(0.75, answered),
            "{}: held {held} of {answered}",
            family.name
        );
    }
}

#[test]
fn after_a_change_the_interval_holds_or_nothing_is_said() {
    let mut all = Score::default();
    for (stream, family) in judging::FAMILIES.iter().enumerate() {
        if family.smooth {
            continue;
        }
        let score = score(family, stream as u64, SEEDS.start..SEEDS.start + 5);
        all.answered_after += score.answered_after;
        all.held_after += score.held_after;
        all.asked_after += score.asked_after;
        all.said_never += score.said_never;
    }
    let share = all.held_after as f64 / all.answered_after as f64;
    assert!(all.answered_after >= 60, "{all:?}");
    assert!(share >= 0.75 - slack(0.75, all.answered_after), "{share}");
    // Each of these does come.
    assert!(all.said_never * 20 <= all.asked_after, "{all:?}");
}

/// Pans of every kind that keep the limits by minutes, and that miss them by
/// minutes: at most one of the first is called on, and each of the second is
/// called or cautioned on while a quarter of an hour is left.
#[test]
fn a_few_minutes_to_spare_are_no_call_and_a_few_too_late_no_silence() {
    let (mut good, mut falsely) = (0, 0);
    for (stream, kind) in pans::JUDGED.iter().enumerate() {
        let mut draw = Draw::new(SEEDS.start + 50, stream as u64);
        let margin = draw.between(8.0, 30.0);
        let spared = pans::pan(*kind, &mut draw, margin).watch(&mut draw, 20.0);
        assert!(spared.keeps, "{}", kind.name);
        good += 1;
        falsely += usize::from(spared.called.is_some());
        let late = pans::pan(*kind, &mut draw, -margin).watch(&mut draw, 10.0);
        assert!(!late.keeps, "{}", kind.name);
        let said = late.close.or(late.called);
        assert!(
            said.is_some_and(|left| left >= 15.0),
            "{} {margin}: {late:?}",
            kind.name
        );
    }
    assert!(falsely <= 1, "{falsely} of {good}");
}
