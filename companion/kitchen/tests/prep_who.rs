//! Who does what, against a day worked by hand and what must hold on any day.

use evenhand_kitchen::prep::*;
use jiff::Timestamp;
use jiff::civil::date;
use jiff::tz::TimeZone;
use proptest::prelude::*;
use std::fmt::Write;

fn board(menu: &str) -> Result<Board, FileError> {
    Board::from_menu(menu, date(2026, 5, 8), TimeZone::UTC)
}

fn now() -> Timestamp {
    "2026-05-08T09:00:00Z".parse().unwrap()
}

fn by(board: &Board, full: &str) -> Vec<String> {
    let plan = board.plan(now());
    let who = board.who(&plan, now());
    let step = board.named(full).unwrap();
    who.get(&step)
        .map_or_else(Vec::new, |done| done.hands.clone())
}

const MENU: &str = r#"
opens = "12:00"
[[resource]]
name = "hands"
places = 3
who = [{ name = "Ana", skills = ["pastry"] }, { name = "Bo" }]
[[resource]]
name = "oven"
places = 1
[[preparation]]
name = "tart"
[[preparation.step]]
name = "dough"
takes = "1 h"
needs = "hands"
skill = "pastry"
[[preparation.step]]
name = "rest"
rests = "30 min to 3 h"
[[preparation.step]]
name = "line"
takes = "30 min"
needs = "hands"
skill = "pastry"
[[preparation]]
name = "soup"
[[preparation.step]]
name = "cut"
takes = "1 h 30 min"
needs = { hands = 2 }
[[preparation.step]]
name = "boil"
takes = "1 h"
needs = "oven"
"#;

// By hand: only Ana makes pastry, so both pastry steps are hers; the soup needs two, and while she
// is at the dough Bo and the third pair of hands, which has no name, do it. The oven is nobody's.
#[test]
fn who_can_do_it_is_kept_for_it() {
    let board = board(MENU).unwrap();
    assert_eq!(by(&board, "tart: dough"), ["Ana"]);
    assert_eq!(by(&board, "tart: line"), ["Ana"]);
    assert_eq!(by(&board, "soup: cut"), ["Bo", "hands 3"]);
    assert_eq!(by(&board, "soup: boil"), Vec::<String>::new());
    let names: Vec<_> = board.hands().map(|hand| hand.name.as_str()).collect();
    assert_eq!(names, ["Ana", "Bo", "hands 3"]);
}

// Four hours of pastry from nine to noon, and one who makes it: an hour late, though two more
// hands are free all along. With a second who makes it the day is made.
#[test]
fn a_skill_is_shared_as_hands_are() {
    let menu = MENU.replace("places = 3", "places = 4").replace("[[preparation]]\nname = \"soup\"", "[[preparation]]\nname = \"rolls\"\n[[preparation.step]]\nname = \"shape\"\ntakes = \"2 h 30 min\"\nneeds = \"hands\"\nskill = \"pastry\"\n[[preparation]]\nname = \"soup\"");
    // From nine to noon there are three hours for four hours of pastry.
    assert!(board(MENU).unwrap().plan(now()).late_by.is_none());
    let late = board(&menu).unwrap().plan(now()).late_by;
    assert_eq!(late, Some(jiff::SignedDuration::from_hours(1)));
    // A second who can makes the day.
    let two = menu.replace(
        "{ name = \"Bo\" }",
        "{ name = \"Bo\", skills = [\"pastry\"] }",
    );
    assert!(board(&two).unwrap().plan(now()).late_by.is_none());
}

#[test]
fn a_menu_with_hands_that_make_no_sense_is_refused() {
    for (was, is, says) in [
        ("places = 3", "places = 1", "no more names than places"),
        ("name = \"Bo\"", "name = \"ana\"", "no other has"),
        ("name = \"Bo\"", "name = \" \"", "empty"),
        (
            "skill = \"pastry\"",
            "skill = \"sushi\"",
            "skill is 'sushi'",
        ),
        ("skills = [\"pastry\"]", "skills = [\"\"]", "empty"),
    ] {
        assert!(MENU.contains(was));
        let error = board(&MENU.replace(was, is)).unwrap_err().to_string();
        assert!(error.contains(says), "{is}: {error}");
    }
}

/// A menu of steps: minutes, hands, and whether it asks for the skill.
fn random_menu(hands: usize, skilled: usize, steps: &[(u32, u32, bool)]) -> String {
    let mut menu =
        format!("opens = \"20:00\"\n[[resource]]\nname = \"hands\"\nplaces = {hands}\nwho = [");
    for nth in 0..hands {
        let skills = if nth < skilled {
            ", skills = [\"fish\"]"
        } else {
            ""
        };
        write!(menu, "{{ name = \"h{nth}\"{skills} }},").unwrap();
    }
    menu += "]\n";
    for (nth, (minutes, needs, skill)) in steps.iter().enumerate() {
        let places = (*needs).min(u32::try_from(hands).unwrap());
        if nth % 2 == 0 {
            writeln!(menu, "[[preparation]]\nname = \"p{nth}\"").unwrap();
        }
        writeln!(
            menu,
            "[[preparation.step]]\nname = \"s{nth}\"\ntakes = \"{minutes} min\"\nneeds = {{ hands = {places} }}"
        )
        .unwrap();
        if *skill && skilled > 0 {
            writeln!(menu, "skill = \"fish\"").unwrap();
        }
    }
    menu
}

/// Whether any way of giving out the steps exists, by trying all of them.
fn can_be_given(
    jobs: &[(Timestamp, Timestamp, usize, bool)],
    hands: usize,
    skilled: usize,
) -> bool {
    fn rest(
        jobs: &[(Timestamp, Timestamp, usize, bool)],
        given: &mut Vec<u32>,
        hands: usize,
        skilled: usize,
    ) -> bool {
        let nth = given.len();
        let Some((from, to, places, skill)) = jobs.get(nth) else {
            return true;
        };
        let busy = jobs
            .iter()
            .zip(&*given)
            .filter(|((f, t, ..), _)| f < to && from < t)
            .fold(0_u32, |all, (_, mask)| all | mask);
        (0_u32..1 << hands).any(|mask| {
            let fits = mask.count_ones() as usize == *places
                && mask & busy == 0
                && (!skill || mask & ((1 << skilled) - 1) != 0);
            fits && {
                given.push(mask);
                let found = rest(jobs, given, hands, skilled);
                given.truncate(nth);
                found
            }
        })
    }
    rest(jobs, &mut Vec::new(), hands, skilled)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(80))]

    // Nobody does two things at once, and what asks for the skill has somebody with it. Somebody is
    // missing only where there is no way at all to give out the steps whole.
    #[test]
    fn nobody_is_in_two_places(
        hands in 1_usize..5,
        skilled in 0_usize..3,
        steps in prop::collection::vec((5_u32..120, 1_u32..3, any::<bool>()), 1..12),
    ) {
        let board = board(&random_menu(hands, skilled.min(hands), &steps)).unwrap();
        let plan = board.plan(now());
        let who = board.who(&plan, now());
        prop_assert_eq!(who.len(), steps.len());
        let span = |step: &StepRef| {
            let planned = plan.of(*step).unwrap();
            (planned.start_by.unwrap(), planned.done_by.unwrap())
        };
        let mut jobs: Vec<_> = who
            .keys()
            .map(|step| {
                let needs = &board.step(*step).unwrap().needs;
                (span(step).0, span(step).1, needs[0].places as usize, needs.len() > 1)
            })
            .collect();
        jobs.sort();
        let whole = who.values().all(|done| done.missing == 0);
        prop_assert_eq!(whole, can_be_given(&jobs, hands, skilled.min(hands)));
        for (step, done) in &who {
            let needs = &board.step(*step).unwrap().needs;
            prop_assert_eq!(done.hands.len() + done.missing as usize, needs[0].places as usize);
            if needs.len() > 1 && done.missing == 0 {
                let able = |name: &String| {
                    board.hands().any(|hand| hand.name == *name && hand.skills == ["fish"])
                };
                prop_assert!(done.hands.iter().any(able));
            }
            let (from, to) = span(step);
            for (other, others) in &who {
                let (other_from, other_to) = span(other);
                if other != step && from < other_to && other_from < to {
                    prop_assert!(!done.hands.iter().any(|hand| others.hands.contains(hand)));
                }
            }
        }
    }
}
