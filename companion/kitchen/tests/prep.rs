//! The prep clock against a published critical-path example, and the days of
//! the demo kitchen.

use evenhand_kitchen::prep::*;
use jiff::civil::date;
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp};

const START: Timestamp = Timestamp::UNIX_EPOCH;

fn hours(h: i64) -> SignedDuration {
    SignedDuration::from_hours(h)
}

fn step(name: &str, length: SignedDuration) -> Step {
    Step {
        preparation: String::from("example"),
        name: name.to_owned(),
        takes: Takes::work(length, length).unwrap(),
        needs: vec![],
        in_service: false,
        not_before: None,
        progress: Progress::Waiting,
    }
}

// F. S. Hillier and G. J. Lieberman, Introduction to Operations Research, the construction
// project example of the chapter on PERT/CPM: activities A to N, durations in weeks, total 44
// weeks, critical path A B C E F J L N, slacks D 4, G 4, H 4, I 2, K 1, M 4 (from memory; the
// network and the durations were recalled and the slacks agree with them).
#[test]
fn the_textbook_project() {
    let activities: [(&str, i64, &[&str], i64); 14] = [
        ("A", 2, &[], 0),
        ("B", 4, &["A"], 0),
        ("C", 10, &["B"], 0),
        ("D", 6, &["C"], 4),
        ("E", 4, &["C"], 0),
        ("F", 5, &["E"], 0),
        ("G", 7, &["D"], 4),
        ("H", 9, &["E", "G"], 4),
        ("I", 7, &["C"], 2),
        ("J", 8, &["F", "I"], 0),
        ("K", 4, &["J"], 1),
        ("L", 5, &["J"], 0),
        ("M", 2, &["H"], 4),
        ("N", 6, &["K", "L"], 0),
    ];
    // One hour here is one week there.
    let mut board = Board::new(START + hours(44), TimeZone::UTC, vec![]).unwrap();
    for (name, length, after, _) in activities {
        let added = board.add(step(name, hours(length))).unwrap();
        for on in after {
            board
                .wait(added, board.find("example", on).unwrap())
                .unwrap();
        }
    }
    let plan = board.plan(START);
    assert_eq!(plan.late_by, None);
    for (name, _, _, slack) in activities {
        let reference = board.find("example", name).unwrap();
        let planned = plan.steps.iter().find(|s| s.step == reference).unwrap();
        assert_eq!(planned.slack, hours(slack), "slack of {name}");
    }
    let chain: String = plan
        .chain
        .iter()
        .map(|s| board.step(*s).unwrap().name.as_str())
        .collect();
    assert_eq!(chain, "ABCEFJLN");
    // An hour less until service makes all of it an hour late.
    board.service = START + hours(43);
    assert_eq!(board.plan(START).late_by, Some(hours(1)));
}

const MENU: &str = r#"
opens = "18:00"

[[resource]]
name = "hands"
places = 2
from = "10:00"
to = "23:00"

[[resource]]
name = "oven"
places = 1

[[preparation]]
name = "hogget neck"
[[preparation.step]]
name = "into the brine"
takes = "40 min"
needs = "hands"
[[preparation.step]]
name = "brine"
rests = "3 days to 4 days"
[[preparation.step]]
name = "braise"
takes = "4 h to 5 h"
needs = "oven"
[[preparation.step]]
name = "cut in equal pieces"
takes = "30 min"
needs = "hands"

[[preparation]]
name = "oatcakes"
[[preparation.step]]
name = "mix"
takes = "30 min"
needs = "hands"
[[preparation.step]]
name = "overnight in the cold"
rests = "10 h to 18 h"
[[preparation.step]]
name = "bake"
takes = "50 min"
needs = "oven"

[[preparation]]
name = "fish"
[[preparation.step]]
name = "wash and beard"
takes = "1 h 30 min"
needs = "hands"
not_before = "15:30"
"#;

fn at(text: &str) -> Timestamp {
    format!("2026-05-{text}:00Z").parse().unwrap()
}

fn menu() -> Board {
    Board::from_menu(MENU, date(2026, 5, 8), TimeZone::UTC).unwrap()
}

fn planned(board: &Board, now: Timestamp, preparation: &str, name: &str) -> PlannedStep {
    let reference = board.find(preparation, name).unwrap();
    board
        .plan(now)
        .steps
        .into_iter()
        .find(|s| s.step == reference)
        .unwrap()
}

#[test]
fn necks_start_days_before_and_within_working_hours() {
    let board = menu();
    let now = at("04T12:00");
    let neck = planned(&board, now, "hogget neck", "into the brine");
    // Cut by 18:00, so 17:30; braise five hours, so 12:30; brine three days, so the 5th at
    // 12:30; 40 minutes of hands before.
    assert_eq!(neck.latest, at("05T11:50"));
    assert_eq!(neck.slack, at("05T11:50").duration_since(now));
    let by = neck.start_by.unwrap();
    assert!(by <= neck.latest);
    assert!(by >= at("05T10:00"), "hands begin at ten: {by}");
    assert_eq!(neck.standing, StepState::Next);
    assert_eq!(board.plan(now).late_by, None);
}

#[test]
fn one_oven_bakes_one_thing_at_a_time() {
    let board = menu();
    let now = at("04T12:00");
    let braise = planned(&board, now, "hogget neck", "braise");
    let bake = planned(&board, now, "oatcakes", "bake");
    let (a, b) = (
        (braise.start_by.unwrap(), braise.done_by.unwrap()),
        (bake.start_by.unwrap(), bake.done_by.unwrap()),
    );
    assert!(a.1 <= b.0 || b.1 <= a.0, "{a:?} {b:?}");
}

#[test]
fn the_board_says_what_is_now_next_and_late() {
    let mut board = menu();
    // Half past eleven on the 5th: the necks must go in now.
    assert_eq!(
        planned(&board, at("05T11:50"), "hogget neck", "into the brine").standing,
        StepState::Now
    );
    // An hour later it is too late for three days of brine.
    let late = board.plan(at("05T12:50"));
    assert_eq!(late.late_by, Some(hours(1)));
    assert_eq!(
        planned(&board, at("05T12:50"), "hogget neck", "into the brine").standing,
        StepState::Late
    );
    // Done in time, the brine is under way.
    let into = board.find("hogget neck", "into the brine").unwrap();
    let brine = board.find("hogget neck", "brine").unwrap();
    board
        .set_progress(into, Progress::Done(at("05T11:00")))
        .unwrap();
    board
        .set_progress(brine, Progress::Begun(at("05T11:00")))
        .unwrap();
    let now = at("06T12:00");
    assert_eq!(
        planned(&board, now, "hogget neck", "brine").standing,
        StepState::UnderWay
    );
    assert_eq!(
        planned(&board, now, "hogget neck", "braise").standing,
        StepState::Later
    );
}

#[test]
fn fish_an_hour_late_still_fits_two_hours_do_not() {
    let mut board = menu();
    let now = at("08T15:00");
    let cut = board.find("fish", "wash and beard").unwrap();
    for name in ["into the brine", "brine", "braise", "cut in equal pieces"] {
        let s = board.find("hogget neck", name).unwrap();
        board.set_progress(s, Progress::Done(now)).unwrap();
    }
    for name in ["mix", "overnight in the cold", "bake"] {
        let s = board.find("oatcakes", name).unwrap();
        board.set_progress(s, Progress::Done(now)).unwrap();
    }
    assert_eq!(
        planned(&board, now, "fish", "wash and beard").slack,
        SignedDuration::from_hours(1)
    );
    board.set_not_before(cut, Some(at("08T16:30"))).unwrap();
    assert_eq!(board.plan(now).late_by, None);
    board.set_not_before(cut, Some(at("08T17:30"))).unwrap();
    assert_eq!(board.plan(now).late_by, Some(hours(1)));
    assert_eq!(board.plan(now).chain, [cut]);
}

// The dough lies cold since ten; at most 18 hours make it four in the morning. An oven that is lit
// at ten then comes six hours late, and no plan can help it; an oven that is always hot is used by
// four.
#[test]
fn a_rest_is_kept_within_its_most_where_the_oven_allows() {
    let over = |menu: &str| {
        let mut board = Board::from_menu(menu, date(2026, 5, 8), TimeZone::UTC).unwrap();
        let mix = board.find("oatcakes", "mix").unwrap();
        let rest = board.find("oatcakes", "overnight in the cold").unwrap();
        let begun = at("07T10:00");
        board.set_progress(mix, Progress::Done(begun)).unwrap();
        board.set_progress(rest, Progress::Begun(begun)).unwrap();
        planned(&board, at("07T12:00"), "oatcakes", "overnight in the cold").over_rest
    };
    assert_eq!(over(MENU), None);
    let oven = "name = \"oven\"\nplaces = 1\n";
    let lit = MENU.replace(oven, &format!("{oven}from = \"10:00\"\nto = \"23:00\"\n"));
    assert_ne!(lit, MENU);
    // Baked on the same evening from eight on, after ten hours at least.
    assert_eq!(over(&lit), None);
    let late = lit.replace("10 h to 18 h", "14 h to 18 h");
    assert_ne!(late, lit);
    assert_eq!(over(&late), Some(hours(6)));
}

#[test]
fn rings_and_nonsense_are_refused() {
    let mut board = Board::new(START + hours(10), TimeZone::UTC, vec![]).unwrap();
    let a = board.add(step("a", hours(1))).unwrap();
    let b = board.add(step("b", hours(1))).unwrap();
    board.wait(b, a).unwrap();
    assert_eq!(board.wait(a, b), Err(BoardError::Ring("a".into())));
    assert_eq!(board.wait(a, a), Err(BoardError::Ring("a".into())));
    assert_eq!(board.plan(START).late_by, None);
    assert!(Takes::work(hours(2), hours(1)).is_err());
    assert!(Takes::rest(hours(-1), hours(1)).is_err());
    assert!(Takes::rest(hours(1), hours(24 * 31)).is_err());
    assert!(Resource::new("oven", 0, None).is_err());
    let refuse = |from: &str, to: &str| {
        Board::from_menu(&MENU.replace(from, to), date(2026, 5, 8), TimeZone::UTC)
            .unwrap_err()
            .to_string()
    };
    assert!(refuse("40 min", "forty").contains("forty"));
    assert!(refuse("needs = \"oven\"", "needs = \"kiln\"").contains("kiln"));
    assert!(refuse("18:00", "six").contains("six"));
    assert!(refuse("name = \"mix\"", "name = \"mix\"\nafter = [\"sift\"]").contains("sift"));
    assert!(refuse("to = \"23:00\"\n", "").contains("or neither"));
}

/// No plan ever books more than there are places, starts a step later than the
/// critical path allows, or outside working hours.
#[test]
fn sharing_keeps_its_promises() {
    let board = menu();
    let plan = board.plan(at("04T12:00"));
    let by = |needs: &str| -> Vec<(Timestamp, Timestamp)> {
        plan.steps
            .iter()
            .filter(|s| {
                let known = &board.step(s.step).unwrap().needs;
                known.iter().any(|n| n.resource == needs)
            })
            .map(|s| (s.start_by.unwrap(), s.done_by.unwrap()))
            .collect()
    };
    for (needs, places) in [("hands", 2), ("oven", 1)] {
        let booked = by(needs);
        for (from, _) in &booked {
            let at_once = booked.iter().filter(|(f, t)| f <= from && t > from).count();
            assert!(at_once <= places, "{needs}");
        }
    }
    for (from, to) in by("hands") {
        let (from, to) = (
            from.to_zoned_datetime(TimeZone::UTC).time(),
            to.to_zoned_datetime(TimeZone::UTC).time(),
        );
        assert!(from >= jiff::civil::time(10, 0, 0, 0) && to <= jiff::civil::time(23, 0, 0, 0));
    }
    for s in &plan.steps {
        assert!(s.start_by.unwrap() <= s.latest);
    }
}

const SATURDAY: &str = r#"
opens = "18:00"
days = ["fri", "sat", "sun"]

[[resource]]
name = "hands"
places = 1

[[preparation]]
name = "fish"
[[preparation.step]]
name = "delivery"
takes = "10 min"
not_before = "15:30"
[[preparation.step]]
name = "wash and beard"
takes = "60 min"
needs = "hands"
portions_of = "Mussels"
portions = 3

[[preparation]]
name = "oatcakes"
[[preparation.step]]
name = "bake"
takes = "25 min"
when = { log = "oven", from = "400degF", to = "420degF" }

[[preparation]]
name = "necks"
[[preparation.step]]
name = "into the brine"
takes = "30 min"
needs = "hands"
batch = "neck brine"
[[preparation.step]]
name = "brine"
rests = "2 days to 3 days"
[[preparation.step]]
name = "roast"
takes = "3 h"
"#;

fn saturday() -> Board {
    Board::from_menu(SATURDAY, date(2026, 5, 9), TimeZone::UTC).unwrap()
}

fn laid_out(board: &Board, now: &str, name: &str) -> PlannedStep {
    let step = board.named(name).unwrap();
    let plan = board.plan(at(now));
    plan.steps.into_iter().find(|p| p.step == step).unwrap()
}

// By hand: the fish comes at 15:30, is there at 15:40 and cut at 16:40; service opens at 18:00, so
// there are 80 minutes to spare. An hour late leaves 20.
#[test]
fn fish_an_hour_late() {
    let mut board = saturday();
    let now = "09T12:00";
    assert_eq!(
        laid_out(&board, now, "fish: wash and beard").slack,
        SignedDuration::from_mins(80)
    );
    let moved = board.what_if("fish +1h", at(now)).unwrap();
    assert_eq!(moved, ["fish: delivery"]);
    assert_eq!(
        laid_out(&board, now, "fish: wash and beard").slack,
        SignedDuration::from_mins(20)
    );
    // Nothing of the oatcakes has a time of its own: it is begun so much later.
    board.what_if("oatcakes: bake + 45 min", at(now)).unwrap();
    assert_eq!(
        laid_out(&board, now, "oatcakes: bake").earliest,
        at("09T12:45")
    );
    for (text, says) in [
        ("fish", "names no time"),
        ("fish +soon", "length of time"),
        ("fish +0 min", "length of time"),
        ("eels +1h", "fish, oatcakes, necks"),
    ] {
        let error = board.what_if(text, at(now)).unwrap_err().to_string();
        assert!(error.contains(says), "{text}: {error}");
    }
}

#[test]
fn what_the_bench_sees_ticks_its_steps_and_a_hand_goes_before_it() {
    let run = |portions: &[&str]| SeenRun {
        dish: "mussels".to_owned(),
        portions: portions.iter().map(|t| at(t)).collect(),
        ended: None,
    };
    let progress = |runs: &[SeenRun], more: &[Event]| {
        let mut board = saturday();
        let mut events = board.sightings(runs, &[]);
        events.extend_from_slice(more);
        assert!(board.replay(&events).is_empty());
        let step = board.named("fish: wash and beard").unwrap();
        board.step(step).unwrap().progress
    };
    let yesterday = run(&["08T16:00", "08T16:01", "08T16:02"]);
    assert_eq!(progress(&[yesterday], &[]), Progress::Waiting);
    let two = run(&["09T16:10", "09T16:11"]);
    assert_eq!(progress(&[two], &[]), Progress::Begun(at("09T16:10")));
    let three = run(&["09T16:10", "09T16:11", "09T16:12"]);
    let done = Progress::Done(at("09T16:12"));
    assert_eq!(progress(std::slice::from_ref(&three), &[]), done);
    let hand = |when: &str| Event {
        at: at(when),
        step: "fish: wash and beard".to_owned(),
        what: Happened::Undone,
        by: By::Hand,
        who: None,
    };
    let undone = progress(std::slice::from_ref(&three), &[hand("09T16:20")]);
    assert_eq!(undone, Progress::Waiting);
    assert_eq!(progress(&[three], &[hand("09T16:00")]), done);
}

#[test]
fn a_batch_ticks_the_service_that_it_is_due_for() {
    // Saturday's necks go into the brine by Thursday 14:30, Sunday's by Friday.
    let sunday = Board::from_menu(SATURDAY, date(2026, 5, 10), TimeZone::UTC).unwrap();
    let mut board = saturday();
    board.and_for(&sunday, "Sun");
    let batch = SeenBatch {
        title: "Neck Brine".to_owned(),
        begun: at("07T14:00"),
        done: Some(at("07T14:20")),
    };
    let events = board.sightings(&[], &[batch]);
    assert!(board.replay(&events).is_empty());
    let progress = |name| board.step(board.named(name).unwrap()).unwrap().progress;
    assert_eq!(
        progress("necks: into the brine"),
        Progress::Done(at("07T14:20"))
    );
    assert_eq!(progress("Sun necks: into the brine"), Progress::Waiting);
}

// Two services share the pair of hands: both fish are trimmed one after the other on their own
// days, and each is due when its own service opens.
#[test]
fn several_services_stand_on_one_board() {
    let mut board = saturday();
    let sunday = Board::from_menu(SATURDAY, date(2026, 5, 10), TimeZone::UTC).unwrap();
    board.and_for(&sunday, "Sun");
    let now = "06T09:00";
    let first = laid_out(&board, now, "necks: into the brine");
    let second = laid_out(&board, now, "Sun necks: into the brine");
    assert_eq!(first.latest, at("07T14:30"));
    assert_eq!(second.latest, at("08T14:30"));
    assert_eq!(board.plan(at(now)).late_by, None);
    assert_eq!(
        board
            .service_of(board.named("Sun oatcakes: bake").unwrap())
            .unwrap(),
        at("10T18:00")
    );
    assert_eq!(board.bands().count(), 2);
}

#[test]
fn a_menus_new_fields_are_checked() {
    let refuse = |from: &str, to: &str| {
        let text = SATURDAY.replace(from, to);
        assert_ne!(text, SATURDAY);
        Board::from_menu(&text, date(2026, 5, 9), TimeZone::UTC)
            .unwrap_err()
            .to_string()
    };
    assert!(refuse("\"fri\"", "\"friday\"").contains("friday"));
    assert!(refuse("portions = 3", "portions = 0").contains("portions"));
    assert!(refuse("portions_of = \"Mussels\"\n", "").contains("portions_of"));
    assert!(
        refuse(
            "batch = \"neck brine\"",
            "batch = \"x\"\nportions_of = \"y\""
        )
        .contains("batch")
    );
    assert!(refuse("400degF", "430degF").contains("when.from"));
    assert!(refuse("400degF", "hot").contains("when.from is 'hot'"));
    assert!(serves_on(SATURDAY, date(2026, 5, 9)).unwrap());
    assert!(!serves_on(SATURDAY, date(2026, 5, 11)).unwrap(), "a Monday");
}

// A rest passes by itself: the necks went into the brine on Thursday at 14:20, so two days are over
// on Saturday at 14:20 and the roast can begin, whether or not anybody ticked the rest.
#[test]
fn a_rest_begins_by_itself_and_lets_go_after_its_least() {
    let told = |what, when: &str, step: &str| Event {
        at: at(when),
        step: step.to_owned(),
        what,
        by: By::Hand,
        who: None,
    };
    let done = told(Happened::Done, "07T14:20", "necks: into the brine");
    let mut board = saturday();
    board.replay(std::slice::from_ref(&done));
    let rest = board.named("necks: brine").unwrap();
    assert_eq!(
        board.step(rest).unwrap().progress,
        Progress::Begun(at("07T14:20"))
    );
    let standing = |now: &str| laid_out(&board, now, "necks: roast").standing;
    assert_eq!(standing("09T14:00"), StepState::Later);
    assert_ne!(standing("09T14:20"), StepState::Later);
    let mut board = saturday();
    board.replay(&[done, told(Happened::Undone, "07T15:00", "necks: brine")]);
    assert_eq!(board.step(rest).unwrap().progress, Progress::Waiting);
}

/// What a cook copies from the page that says how a menu is written.
#[test]
fn the_example_of_how_a_menu_is_written_is_a_menu() {
    let page = include_str!("../../MENU.md");
    let text = page
        .split_once("```toml\n")
        .and_then(|(_, rest)| rest.split_once("```"))
        .map(|(text, _)| text)
        .unwrap();
    let board = Board::from_menu(text, jiff::civil::date(2026, 5, 8), TimeZone::UTC).unwrap();
    let plan = board.plan("2026-05-07T06:00:00Z".parse().unwrap());
    assert_eq!(plan.late_by, None);
    let bake = board.named("oatcakes: bake").unwrap();
    assert!(plan.of(bake).is_some());
}
