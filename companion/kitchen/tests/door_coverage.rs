//! What an opened door does lies within what was learned from marks as often as is said: a short
//! version of `examples/DOOR_HOLDS.md`.

#[path = "../examples/door_holds/ovens.rs"]
mod ovens;

use evenhand_kitchen::heat::Surroundings;
use ovens::{Asked, JUDGING, TUNING, ask};

fn asked(openings: usize, ovens: u64) -> Vec<Asked> {
    let families = TUNING.iter().chain(&JUDGING);
    families
        .flat_map(|family| {
            (0..ovens).map(move |nth| ask(family, openings, Surroundings::UNKNOWN, 7_300 + nth))
        })
        .filter(|it| it.told)
        .collect()
}

// Of 20 at a true 80 of 100, fewer than 12 come up once in a hundred such tests (binomial).
#[test]
fn the_next_opening_does_what_the_last_three_did() {
    let told = asked(3, 8);
    assert!(told.len() >= 10, "{}", told.len());
    for held in [|it: &Asked| it.enters, |it: &Asked| it.sure] {
        let share = told.iter().filter(|it| held(it)).count() as f64 / told.len() as f64;
        assert!(share >= 0.6, "{share:.2} of {}", told.len());
    }
}

#[test]
fn two_openings_tell_nothing() {
    assert!(asked(2, 4).is_empty());
}
