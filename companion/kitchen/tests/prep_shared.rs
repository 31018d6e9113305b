//! What is shared in a day: hands and the oven at once, an oven that only
//! falls, service, an order that stays, and days that cannot be made. Each day
//! is small enough to be worked by hand, and is, beside the check.

use evenhand_kitchen::prep::*;
use jiff::civil::date;
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp};

fn at(text: &str) -> Timestamp {
    format!("2026-05-08T{text}:00Z").parse().unwrap()
}

fn mins(minutes: i64) -> SignedDuration {
    SignedDuration::from_mins(minutes)
}

fn board(menu: &str) -> Board {
    Board::from_menu(menu, date(2026, 5, 8), TimeZone::UTC).unwrap()
}

fn of(plan: &Plan, board: &Board, name: &str) -> PlannedStep {
    plan.of(board.named(name).unwrap()).unwrap().clone()
}

/// Two pots of stock want both hands and the oven for an hour each, a sauce one
/// hand and no oven.
const STOCKS: &str = r#"
opens = "18:00"
[[resource]]
name = "hands"
places = 2
[[resource]]
name = "oven"
places = 1
[[preparation]]
name = "dark stock"
fallback = "white stock"
[[preparation.step]]
name = "roast and turn"
takes = "1 h"
needs = { hands = 2, oven = 1 }
[[preparation]]
name = "fish stock"
buy_in = true
[[preparation.step]]
name = "roast and turn"
takes = "1 h"
needs = ["hands", "hands", "oven"]
[[preparation]]
name = "sauce"
[[preparation.step]]
name = "whisk"
takes = "30 min"
needs = "hands"
"#;

// Two hours of both hands, half an hour of one: 150 minutes. From 15:30 it goes, from 15:40 it is ten
// minutes late, though each step alone has more than an hour to spare.
#[test]
fn two_hands_and_the_oven_at_once() {
    let board = board(STOCKS);
    assert_eq!(board.plan(at("15:30")).late_by, None);
    let plan = board.plan(at("15:40"));
    assert_eq!(plan.late_by, Some(mins(10)));
    assert_eq!(plan.gap, SignedDuration::ZERO);
    let trouble = board.trouble(&plan, at("15:40")).unwrap();
    assert_eq!(trouble.short_of[0].resource, "hands");
    assert_eq!(trouble.short_of[0].late_by_even_so, None);
    // A third hand for the sauce beside a stock makes it; so does each of the rest.
    assert!(
        trouble
            .mends
            .iter()
            .any(|m| matches!(m, Mend::MorePlaces(e) if e.resource == "hands"
                && e.to.duration_since(e.from) <= mins(45)))
    );
    for mend in [
        Mend::Swap {
            preparation: "dark stock".into(),
            fallback: "white stock".into(),
        },
        Mend::BuyIn {
            preparation: "fish stock".into(),
        },
        Mend::Drop {
            preparation: "sauce".into(),
        },
        Mend::Later(mins(10)),
    ] {
        assert!(trouble.mends.contains(&mend), "{mend:?}");
    }
    let late: Vec<_> = plan.dishes.iter().filter(|d| d.late_by.is_some()).collect();
    assert_eq!(late.len(), 1, "one dish is off, not all");
    assert_eq!(late[0].ready, at("18:10"));
}

// Service runs 18:00 to 22:00 and hands serve. A dessert is due at 21:00: what says that it can be
// done in service begins at 20:40 at the latest, what does not by 17:40.
#[test]
fn hands_serve_while_service_runs() {
    let menu = |in_service: bool| {
        format!(
            r#"
opens = "18:00"
closes = "22:00"
[[resource]]
name = "hands"
places = 1
serves = true
[[preparation]]
name = "tart"
due = "21:00"
[[preparation.step]]
name = "slice"
takes = "20 min"
needs = "hands"
in_service = {in_service}
"#
        )
    };
    let latest = |in_service| {
        let board = board(&menu(in_service));
        of(&board.plan(at("12:00")), &board, "tart: slice").latest
    };
    assert_eq!(latest(true), at("20:40"));
    assert_eq!(latest(false), at("17:40"));
    // After opening it is too late for the one: it waits for the end of service.
    let board = board(&menu(false));
    let plan = board.plan(at("18:30"));
    assert_eq!(
        plan.late_by,
        Some(mins(80)),
        "22:20 is 80 minutes after 21:00"
    );
}

#[test]
fn closed_days_are_kept() {
    // The oven works on no Friday: what is baked for Friday's service is baked on Thursday.
    let board = board(
        r#"
opens = "18:00"
[[resource]]
name = "oven"
places = 1
closed = ["fri"]
[[preparation]]
name = "bread"
[[preparation.step]]
name = "bake"
takes = "1 h"
needs = "oven"
"#,
    );
    let thursday: Timestamp = "2026-05-07T09:00:00Z".parse().unwrap();
    let bake = of(&board.plan(thursday), &board, "bread: bake");
    assert_eq!(bake.latest, "2026-05-07T23:00:00Z".parse().unwrap());
    // On Friday it is too late: Saturday at midnight, done at one, is seven hours late.
    assert_eq!(board.plan(at("09:00")).late_by, Some(mins(7 * 60)));
}

const BAKES: &str = r#"
opens = "18:00"
[[resource]]
name = "oven"
places = 1
[[preparation]]
name = "meat"
[[preparation.step]]
name = "roast"
takes = "40 min"
needs = "oven"
[[preparation]]
name = "bread"
[[preparation.step]]
name = "bake"
takes = "25 min"
needs = "oven"
[[preparation]]
name = "fruit"
[[preparation.step]]
name = "dry"
takes = "2 h"
needs = "oven"
"#;

fn stretch(from: &str, to: &str, unsure: i64) -> BandStretch {
    let around = |text: &str| Expected {
        early: at(text) - mins(unsure),
        likely: at(text),
        late: Some(at(text) + mins(unsure)),
    };
    BandStretch {
        enters: around(from),
        leaves: Some(around(to)),
    }
}

fn oven_times(stretches: Vec<BandStretch>) -> OvenTimes {
    OvenTimes {
        stretches,
        courses: Vec::new(),
    }
}

// The oven falls: roasting heat 9:00 to 10:30, bread's 10:25 to 11:05, warm from 11:00 on. The menu's
// order is not the fall's.
#[test]
fn work_orders_itself_down_the_fall() {
    let mut board = board(BAKES);
    let set = |board: &mut Board, name: &str, from, to| {
        let step = board.named(name).unwrap();
        let times = oven_times(vec![stretch(from, to, 5)]);
        board.set_oven_times(step, times).unwrap();
    };
    set(&mut board, "fruit: dry", "11:00", "17:00");
    set(&mut board, "bread: bake", "10:25", "11:05");
    set(&mut board, "meat: roast", "09:00", "10:30");
    let plan = board.plan(at("08:00"));
    assert!(plan.is_possible());
    let [meat, bread, fruit] =
        ["meat: roast", "bread: bake", "fruit: dry"].map(|name| of(&plan, &board, name));
    assert!(meat.done_by <= bread.start_by && bread.done_by <= fruit.start_by);
    // The bread goes in from 10:30, the late end of entering, and is out by 11:00, the early end of
    // leaving: 10:35 at the latest.
    assert_eq!((bread.earliest, bread.latest), (at("10:30"), at("10:35")));
    let times = oven_times(vec![stretch("10:25", "11:05", 5)]);
    assert_eq!(
        times.advice(mins(25), at("08:00")),
        OvenAdvice::Fits {
            from: at("10:30"),
            until: Some(at("11:00")),
            otherwise: None
        }
    );
    assert_eq!(
        times.advice(mins(25), at("10:33")),
        OvenAdvice::NowOrNotToday {
            latest: at("10:35")
        }
    );
    assert_eq!(times.advice(mins(25), at("10:40")), OvenAdvice::No);
}

// In its band for another 17 minutes, a bake of 25: there is no time for it, whatever is left until
// service; with the door opened there is.
#[test]
fn leaving_the_band_is_a_deadline() {
    let mut board = board(BAKES);
    let bread = board.named("bread: bake").unwrap();
    let now = at("10:48");
    let mut times = oven_times(vec![stretch("10:25", "11:05", 0)]);
    board.set_oven_times(bread, times.clone()).unwrap();
    let plan = board.plan(now);
    assert!(!plan.is_possible());
    assert!(of(&plan, &board, "bread: bake").no_time);
    assert_eq!(plan.late_by, None, "nothing else is late");
    let door = OvenAction::OpenDoor(mins(12));
    times.courses.push(Course {
        action: door,
        stretches: vec![stretch("12:00", "12:30", 0)],
    });
    assert_eq!(
        times.advice(mins(25), now),
        OvenAdvice::Only {
            action: door,
            from: at("12:00"),
            until: Some(at("12:30"))
        }
    );
    // Earlier, while there is time: where the oven is missed the door brings it once more only if
    // that is sooner.
    let otherwise = |times: &OvenTimes| match times.advice(mins(25), at("08:00")) {
        OvenAdvice::Fits { otherwise, .. } => otherwise,
        other => panic!("{other:?}"),
    };
    assert_eq!(otherwise(&times), None);
    let mut sooner = times.clone();
    sooner.courses[0].stretches = vec![stretch("09:10", "09:40", 0)];
    assert_eq!(
        otherwise(&sooner),
        Some(Otherwise {
            action: door,
            from: at("09:10"),
            until: Some(at("09:40"))
        })
    );
    board.set_oven_times(bread, times).unwrap();
    assert_eq!(
        of(&board.plan(now), &board, "bread: bake").start_by,
        Some(at("12:05"))
    );
}

// Four jobs of an hour for one pair of hands before 18:00, in any order. Told at noon and again
// later, with one of them done or a delivery late, the rest keep their order; only what must
// move moves.
#[test]
fn the_order_stays_where_nothing_forces_another() {
    let mut text = String::from("opens = \"18:00\"\n[[resource]]\nname = \"hands\"\nplaces = 1\n");
    for name in ["a", "b", "c", "d"] {
        text.push_str(&format!(
            "[[preparation]]\nname = \"{name}\"\n[[preparation.step]]\nname = \"do\"\n\
             takes = \"1 h\"\nneeds = \"hands\"\n"
        ));
    }
    let mut board = board(&text);
    let first = board.plan(at("12:00"));
    let order = |plan: &Plan| -> Vec<StepRef> {
        let open = |s: &&PlannedStep| s.start_by.is_some();
        plan.steps.iter().filter(open).map(|s| s.step).collect()
    };
    let was = order(&first);
    board
        .set_progress(was[0], Progress::Done(at("13:00")))
        .unwrap();
    let second = board.plan_after(at("13:00"), Some(&first));
    assert_eq!(order(&second), was[1..]);
    assert!(second.turned.is_empty());
    // The second of them cannot begin before four: three hours are left from 15:00, so it must
    // come after one other at least, and comes after one only.
    board.set_not_before(was[1], Some(at("16:00"))).unwrap();
    let third = board.plan_after(at("15:00"), Some(&second));
    assert_eq!(third.late_by, None);
    assert_eq!(order(&third), [was[2], was[1], was[3]]);
    assert_eq!(
        third.turned,
        [Turned {
            first: was[2],
            second: was[1]
        }]
    );
}

// A hundred dishes of thirty steps by three pairs of hands: no search, but a schedule that can be
// followed and a bound. Each dish alone takes 60 minutes, and 3000 steps of 2 minutes by three are
// 2000 minutes: the bound is known by hand.
#[test]
fn three_thousand_steps_are_told_with_a_bound() {
    let mut text = String::from("opens = \"18:00\"\n[[resource]]\nname = \"hands\"\nplaces = 3\n");
    for dish in 0..100 {
        text.push_str(&format!("[[preparation]]\nname = \"{dish}\"\n"));
        for step in 0..30 {
            text.push_str(&format!(
                "[[preparation.step]]\nname = \"{step}\"\ntakes = \"2 min\"\nneeds = \"hands\"\n"
            ));
        }
    }
    let board = board(&text);
    let plan = board.plan(at("17:00"));
    let late = plan.late_by.unwrap();
    let least = late - plan.gap;
    assert_eq!(least, mins(2_000 - 60));
    assert!(late >= least && late <= least + mins(10), "{late}");
    // It can be followed: never more than three at once.
    let mut changes: Vec<(Timestamp, i32)> = plan
        .steps
        .iter()
        .flat_map(|s| [(s.start_by.unwrap(), 1), (s.done_by.unwrap(), -1)])
        .collect();
    changes.sort_unstable();
    let mut at_once = 0;
    for (_, change) in changes {
        at_once += change;
        assert!(at_once <= 3);
    }
}

#[test]
fn a_menus_times_and_places_are_checked() {
    let refuse = |from: &str, to: &str| {
        let text = STOCKS.replacen(from, to, 1);
        assert_ne!(text, STOCKS);
        Board::from_menu(&text, date(2026, 5, 8), TimeZone::UTC)
            .unwrap_err()
            .to_string()
    };
    assert!(refuse("hands = 2, oven = 1", "hands = 3").contains("3 places of 'hands'"));
    assert!(refuse("hands = 2, oven = 1", "hands = 0").contains("0 places of 'hands'"));
    assert!(refuse("places = 1", "places = 1\nclosed = [\"friday\"]").contains("friday"));
    let never = "places = 1\nclosed = [\"mon\",\"tue\",\"wed\",\"thu\",\"fri\",\"sat\",\"sun\"]";
    assert!(refuse("places = 1", never).contains("closed on every day"));
    assert!(refuse("buy_in = true", "due = \"nine\"").contains("due is 'nine'"));
    let early = refuse("buy_in = true", "due = \"09:00\"");
    assert!(
        early.contains("due is '09:00'") && early.contains("opens"),
        "{early}"
    );
    assert!(refuse("opens", "until = \"2026-13-01\"\nopens").contains("until"));
    let menu = format!("from = \"2026-05-08\"\nuntil = \"2026-05-09\"\n{STOCKS}");
    let open = |day| serves_on(&menu, date(2026, 5, day)).unwrap();
    assert_eq!([7, 8, 9, 10].map(open), [false, true, true, false]);
}

/// So many dishes, each to be cut and cooked.
fn long_day(count: usize) -> Board {
    let mut menu = String::from(
        "opens = \"18:00\"\n[[resource]]\nname = \"oven\"\nplaces = 2\n[[resource]]\nname = \"hands\"\nplaces = 3\n",
    );
    for nth in 0..count {
        let needs = ["hands", "oven"][usize::from(nth % 3 == 0)];
        menu += &format!(
            "[[preparation]]\nname = \"dish {nth}\"\n[[preparation.step]]\nname = \"cut\"\ntakes = \"{} min\"\nneeds = \"hands\"\n[[preparation.step]]\nname = \"cook\"\ntakes = \"{} min\"\nneeds = \"{needs}\"\n",
            5 + 7 * nth % 41,
            5 + 11 * nth % 43,
        );
    }
    board(&menu)
}

// One budget for the plan, each step's latest and what would mend the day: with little of it the
// answer is whole, says what it does not know, and uses no more than it was given.
#[test]
fn what_the_effort_did_not_suffice_for_is_named() {
    let board = long_day(20);
    let (mut open, mut usual, mut late) = (0, 0, 0);
    for now in ["17:00", "16:00", "15:00", "14:30", "14:00", "13:30"].map(at) {
        for units in [0, 4_000, 100_000, Effort::USUAL] {
            let effort = Effort::new(units);
            let plan = board.plan_within(now, None, &effort);
            let trouble = board.trouble_within(&plan, now, &effort);
            assert!(effort.used() <= units);
            let again = Effort::new(units);
            assert_eq!(board.plan_within(now, None, &again), plan);
            assert_eq!(board.trouble_within(&plan, now, &again), trouble);
            let Some(trouble) = trouble else { continue };
            late += 1;
            match units {
                Effort::USUAL => usual += trouble.not_known.len(),
                _ => open += trouble.not_known.len(),
            }
        }
    }
    assert!(late > 4 && open > usual, "{late} late, {open}, {usual}");
}

// Closing is asked while a plan is being worked out: the gate is passed only from within the solver's
// questions, and what comes after it makes no decision any more.
#[test]
fn a_plan_in_progress_ends_when_it_is_no_longer_wanted() {
    use std::sync::atomic::{AtomicBool, Ordering};
    use std::sync::mpsc::channel;
    use std::sync::{Arc, Mutex};
    let (began, begun) = channel();
    let (close, closed) = channel::<()>();
    let closed = Mutex::new(closed);
    let gone = Arc::new(AtomicBool::new(false));
    let unwanted: Unwanted = Arc::new({
        let gone = Arc::clone(&gone);
        move || {
            if !gone.swap(true, Ordering::SeqCst) {
                began.send(()).unwrap();
                closed.lock().unwrap().recv().unwrap();
            }
            true
        }
    });
    let planning = std::thread::spawn(move || {
        let effort = Effort::default().while_wanted(unwanted);
        let board = long_day(20);
        let plan = board.plan_within(at("12:50"), None, &effort);
        (effort.used(), plan.steps.len())
    });
    begun.recv().unwrap();
    assert!(!planning.is_finished());
    close.send(()).unwrap();
    let (used, steps) = planning.join().unwrap();
    assert_eq!(steps, 40);
    // The day was stated to the solver, and no more.
    assert!(used < Effort::USUAL / 100, "{used}");
}

// Closing is asked before each decision: a question that takes thousands of them ends at the next.
#[test]
fn a_question_to_the_solver_ends_when_it_is_no_longer_wanted() {
    use std::sync::Arc;
    use std::sync::atomic::{AtomicU64, Ordering};
    /// Well within the first question, which is stated and gets 12 000 decisions.
    const WANTED_FOR: u64 = 200;
    let board = long_day(20);
    let used = |wanted_for: u64| {
        let asked = Arc::new(AtomicU64::new(0));
        let unwanted: Unwanted = Arc::new({
            let asked = Arc::clone(&asked);
            move || asked.fetch_add(1, Ordering::SeqCst) >= wanted_for
        });
        let effort = Effort::default().while_wanted(unwanted);
        let plan = board.plan_within(at("12:50"), None, &effort);
        (
            asked.load(Ordering::SeqCst),
            effort.used(),
            plan.steps.len(),
        )
    };
    let (whole, all, _) = used(u64::MAX);
    assert!(whole > 20 * WANTED_FOR, "it is a long plan: {whole}");
    let (asked, ended, steps) = used(WANTED_FOR);
    assert_eq!(steps, 40, "what comes back is whole");
    assert!(asked < WANTED_FOR + 100, "{asked}");
    assert!(ended < all / 10, "{ended} of {all}");
}

/// Cucumbers are salted, pressed for one to three hours and dressed.
const PRESSED: &str = r#"
opens = "18:00"
[[resource]]
name = "hands"
places = 1
[[preparation]]
name = "cucumber"
[[preparation.step]]
name = "salt"
takes = "20 min"
needs = "hands"
[[preparation.step]]
name = "press"
rests = "1 h to 3 h"
[[preparation.step]]
name = "dress"
takes = "10 min"
needs = "hands"
"#;

// By hand: dressed from 17:50, pressed from 16:50 and salted from 16:30, as much as ten days before
// it: what may rest for three hours alone is not begun days ahead. With another dish that takes the
// hands from 16:40 on, it is salted at 16:20 and pressed for half an hour longer.
#[test]
fn what_may_not_rest_long_is_begun_on_its_day() {
    for days in [0, 1, 4, 10] {
        let now = at("09:00") - SignedDuration::from_hours(24 * days);
        let cucumber = board(PRESSED);
        let plan = cucumber.plan(now);
        let salt = of(&plan, &cucumber, "cucumber: salt");
        assert_eq!(salt.start_by, Some(at("16:30")), "{days} days before");
        assert_eq!((salt.latest, salt.latest_is_proven), (at("16:30"), true));
        let dish = "[[preparation]]\nname = \"soup\"\n[[preparation.step]]\nname = \"simmer\"\n\
                    takes = \"70 min\"\nneeds = \"hands\"\n";
        let two = board(&format!("{PRESSED}{dish}"));
        let plan = two.plan(now);
        let salt = of(&plan, &two, "cucumber: salt");
        assert_eq!(salt.start_by, Some(at("16:20")), "{days} days before");
        assert!(plan.steps.iter().all(|step| step.over_rest.is_none()));
    }
}

/// One pair of hands boils for 30 minutes, then peels for 20; another dish takes 40 of them.
const WITH_SPARE: &str = r#"
opens = "18:00"
spare = "1 h"
[[resource]]
name = "hands"
places = 1
[[preparation]]
name = "beets"
[[preparation.step]]
name = "boil"
takes = "30 min"
needs = "hands"
[[preparation.step]]
name = "peel"
takes = "20 min"
needs = "hands"
[[preparation]]
name = "sauce"
[[preparation.step]]
name = "reduce"
takes = "40 min"
needs = "hands"
"#;

// 90 minutes of one pair of hands, ready an hour before 18:00: begun at 15:30, one after the other.
// Nothing else changes what is the latest: it is as without the hour.
#[test]
fn dishes_are_ready_their_spare_time_before_they_are_due() {
    let (with, without) = (
        board(WITH_SPARE),
        board(&WITH_SPARE.replace("spare = \"1 h\"\n", "")),
    );
    let early = with.plan(at("12:00"));
    let late = without.plan(at("12:00"));
    let begun = |plan: &Plan| plan.steps.iter().filter_map(|step| step.start_by).min();
    assert_eq!(begun(&early), Some(at("15:30")));
    assert_eq!(begun(&late), Some(at("16:30")), "the witness");
    let ready = early.steps.iter().filter_map(|step| step.done_by).max();
    assert_eq!(ready, Some(at("17:00")));
    for name in ["beets: boil", "beets: peel", "sauce: reduce"] {
        let (early, late) = (of(&early, &with, name), of(&late, &without, name));
        assert_eq!(early.latest, late.latest, "{name}");
        assert_eq!(early.slack, late.slack, "{name}");
    }
}

/// A loaf bakes for 25 minutes in an oven that is in its band from 13:00 to about 15:20, hardly
/// before 13:10 and hardly after 15:00.
const IN_THE_BAND: &str = r#"
opens = "18:00"
spare = "1 h"
[[resource]]
name = "oven"
places = 1
from = "09:00"
to = "16:00"
[[preparation]]
name = "loaf"
[[preparation.step]]
name = "bake"
takes = "25 min"
needs = "oven"
"#;

// By hand: the spare hour holds of the oven's leaving its band and of the oven's hours as it does of
// service. From 14:05 there is no hour to keep: it is baked as soon as it can be, not at the last
// moment, 14:35.
#[test]
fn spare_time_is_kept_before_an_oven_leaves_its_band_and_before_hours_end() {
    let plan = |text: &str, banded: bool, now: &str| {
        let mut board = board(text);
        let bake = board.find("loaf", "bake").unwrap();
        let moment = |early, likely, late| Expected {
            early: at(early),
            likely: at(likely),
            late: Some(at(late)),
        };
        let stretch = BandStretch {
            enters: moment("12:50", "13:00", "13:10"),
            leaves: Some(moment("15:00", "15:20", "15:40")),
        };
        if banded {
            let times = OvenTimes {
                stretches: vec![stretch],
                courses: Vec::new(),
            };
            board.set_oven_times(bake, times).unwrap();
        }
        let plan = board.plan(at(now));
        assert!(plan.is_possible());
        let planned = plan.of(bake).unwrap();
        (planned.done_by.unwrap(), planned.latest)
    };
    let none = IN_THE_BAND.replace("spare = \"1 h\"\n", "");
    assert_eq!(plan(&none, true, "09:00"), (at("15:00"), at("14:35")));
    assert_eq!(plan(IN_THE_BAND, true, "09:00"), (at("14:00"), at("14:35")));
    assert_eq!(plan(IN_THE_BAND, true, "14:05"), (at("14:30"), at("14:35")));
    assert_eq!(plan(&none, false, "09:00").0, at("16:00"));
    assert_eq!(plan(IN_THE_BAND, false, "09:00").0, at("15:00"));
}

// At 16:10 there are 110 minutes for 90 of work: ready at 17:40 and not late. At 16:40 it is ten
// minutes late, as it is without spare time.
#[test]
fn no_dish_is_late_by_its_spare_time() {
    let board = board(WITH_SPARE);
    let plan = board.plan(at("16:10"));
    assert_eq!(plan.late_by, None);
    let first = plan.steps.iter().filter_map(|step| step.start_by).min();
    assert_eq!(first, Some(at("16:10")));
    let ready = plan.steps.iter().filter_map(|step| step.done_by).max();
    assert_eq!(ready, Some(at("17:40")));
    assert_eq!(board.plan(at("16:40")).late_by, Some(mins(10)));
}

// A delivery at 16:30 leaves no room for the hour; what does not wait for it keeps it.
#[test]
fn spare_time_is_kept_where_the_day_allows_it() {
    let board = board(&WITH_SPARE.replace("places = 1", "places = 2").replace(
        "name = \"reduce\"",
        "name = \"reduce\"\nnot_before = \"16:30\"",
    ));
    let plan = board.plan(at("12:00"));
    assert_eq!(
        of(&plan, &board, "sauce: reduce").start_by,
        Some(at("16:30"))
    );
    assert_eq!(of(&plan, &board, "beets: peel").done_by, Some(at("17:00")));
}

#[test]
fn a_senseless_spare_time_is_refused_by_name() {
    for spare in ["13 h", "-5 min", "some", "60"] {
        let text = WITH_SPARE.replace("1 h", spare);
        let error = Board::from_menu(&text, date(2026, 5, 8), TimeZone::UTC).unwrap_err();
        let said = error.to_string();
        assert!(said.contains("spare") && said.contains(spare), "{said}");
    }
}

// Forty steps that need two pairs of hands or hands and the oven, with rests of no more than four
// times their least between them, and thirty hours: one step after another they take less, and then
// no rest lasts longer than its least. So every such day can be made, and is told so.
#[test]
fn a_day_with_time_for_one_step_after_another_is_told_as_possible() {
    let mut seed = 2_u32;
    let mut below = |most: u32| {
        // Numerical Recipes' generator: any order of figures will do.
        seed = seed.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
        (seed >> 16) % most
    };
    for day in 0..6 {
        let mut text = String::from(
            "opens = \"18:00\"\n[[resource]]\nname = \"hands\"\nplaces = 3\n\
             [[resource]]\nname = \"oven\"\nplaces = 1\n",
        );
        let mut total = 0;
        for dish in 0..10 {
            text.push_str(&format!("[[preparation]]\nname = \"{dish}\"\n"));
            for nth in 0..4 {
                let minutes = 5 * (1 + below(9));
                total += minutes;
                text.push_str(&format!("[[preparation.step]]\nname = \"{nth}\"\n"));
                text.push_str(&match (nth, below(4)) {
                    (2, _) => format!("rests = \"{minutes} min to {} min\"\n", minutes * 4),
                    (_, 0) => format!(
                        "takes = \"{minutes} min\"\nneeds = [\"hands\", \"hands\", \"oven\"]\n"
                    ),
                    (_, 1) => format!("takes = \"{minutes} min\"\nneeds = \"hands\"\n"),
                    _ => format!("takes = \"{minutes} min\"\nneeds = [\"hands\", \"hands\"]\n"),
                });
            }
        }
        assert!(total < 30 * 60, "day {day}: {total} min");
        let board = board(&text);
        let now = at("18:00") - SignedDuration::from_hours(30);
        let effort = Effort::default();
        let plan = board.plan_within(now, None, &effort);
        assert!(plan.is_possible(), "day {day}: {:?}", plan.late_by);
        assert_eq!(board.trouble_within(&plan, now, &effort), None);
    }
}
