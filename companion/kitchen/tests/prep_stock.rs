//! Batches that feed services: what is in stock, by age, and when a new batch
//! is made. Held against examples worked by hand and against a reference that
//! follows every single portion.

use evenhand_kitchen::prep::*;
use jiff::civil::{Date, date};
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp, ToSpan};
use proptest::prelude::*;

const DAY: i64 = 24;

/// So many hours after midnight before the first service.
fn at(hours: i64) -> Timestamp {
    "2026-05-04T00:00:00Z".parse::<Timestamp>().unwrap() + SignedDuration::from_hours(hours)
}

/// The day of service `nth`, from 0.
fn day(nth: i64) -> Date {
    date(2026, 5, 4).checked_add(nth.days()).unwrap()
}

fn made(nth: i64, ready: i64, portions: u32, keeps: Option<i64>) -> MadeBatch {
    MadeBatch {
        of: day(nth),
        ready: at(ready),
        portions,
        use_by: keeps.map(|hours| at(ready + hours)),
        gone: None,
    }
}

/// A service from 18:00 to 22:00.
fn service(nth: i64, taken: Taken) -> TakenBy {
    TakenBy {
        day: day(nth),
        opened: at(nth * DAY + 18),
        over: at(nth * DAY + 22),
        taken,
    }
}

fn portions(lots: &[InStock]) -> Vec<(Date, u32)> {
    lots.iter().map(|lot| (lot.of, lot.portions)).collect()
}

// By hand. 24 portions are ready on Monday at 16:00 and keep three days, to Thursday 16:00; 20
// more on Wednesday at 16:00, to Saturday. Monday takes 8 of the first (16 left), Tuesday 8 (8
// left), Wednesday 10: the last 8 of the first and 2 of the second, whose 18 are left. With 5
// taken on Wednesday 3 of the first are left, which on Friday are past Thursday 16:00.
#[test]
fn the_oldest_goes_first_and_what_is_past_its_keeping_is_named() {
    let batches = [
        made(0, 16, 24, Some(72)),
        made(2, 2 * DAY + 16, 20, Some(72)),
    ];
    let took = |wednesday| {
        [8, 8, wednesday]
            .into_iter()
            .enumerate()
            .map(|(nth, n)| service(i64::try_from(nth).unwrap(), Taken::Portions(n)))
            .collect::<Vec<_>>()
    };
    let tuesday = BatchStock::at(&batches, &took(10), at(DAY + 23));
    assert_eq!(portions(&tuesday.known), [(day(0), 8)]);
    let thursday = BatchStock::at(&batches, &took(10), at(3 * DAY + 10));
    assert_eq!(portions(&thursday.known), [(day(2), 18)]);
    assert_eq!(portions(&thursday.past), []);
    let friday = BatchStock::at(&batches, &took(5), at(4 * DAY + 10));
    assert_eq!(portions(&friday.known), [(day(2), 20)]);
    assert_eq!(portions(&friday.past), [(day(0), 3)]);
    assert_eq!(
        friday.portions(),
        20,
        "what is past its keeping is no stock"
    );
    // Told to be gone, it is named no more.
    let mut gone = batches;
    gone[0].gone = Some(at(4 * DAY + 9));
    assert_eq!(BatchStock::at(&gone, &took(5), at(4 * DAY + 10)).past, []);
}

#[test]
fn what_a_service_took_is_never_guessed() {
    let batches = [made(0, 16, 24, Some(96))];
    let unknown = [service(0, Taken::Portions(6)), service(1, Taken::NotKnown)];
    let stock = BatchStock::at(&batches, &unknown, at(2 * DAY));
    assert_eq!(stock.portions(), 0);
    assert_eq!(portions(&stock.unsure), [(day(0), 18)], "at most");
    assert_eq!(stock.unsure_since, Some(day(1)));
    // Counted, it is known again.
    let counted = [unknown[0], unknown[1], service(2, Taken::Left(5))];
    let stock = BatchStock::at(&batches, &counted, at(3 * DAY));
    assert_eq!((stock.portions(), stock.unsure_since), (5, None));
    // More was served than was made: the rest is told, and nothing is below nought.
    let more = [service(0, Taken::Portions(30))];
    let stock = BatchStock::at(&batches, &more, at(DAY));
    assert_eq!((stock.portions(), stock.beyond), (0, 6));
    // Of no known keeping: no stock.
    let open = BatchStock::at(&[made(0, 16, 24, None)], &[], at(DAY));
    assert_eq!(open.portions(), 0);
    assert_eq!(portions(&open.no_keeping), [(day(0), 24)]);
}

fn batch(portions: u32, keeps: Option<i64>) -> BatchOf {
    BatchOf {
        portions,
        keeps: keeps
            .map(|h| Keeping::new(SignedDuration::from_hours(h), "the kitchen's own").unwrap()),
        date_marked: false,
        dish: String::from("neck"),
        needs: Needs::OnRecord,
        allergens: None,
        portioned_ahead: false,
    }
}

fn coming(batch: &BatchOf, nth: i64, needed: Result<u32, NeedNotKnown>) -> Coming {
    let keeps = |k: &Keeping| k.use_by(at(nth * DAY), None, &TimeZone::UTC).at;
    Coming {
        day: day(nth),
        needed,
        until: at(nth * DAY + 22),
        own: Own::default(),
        use_by: batch.keeps.as_ref().map(keeps),
    }
}

// By hand: a batch of 24 that keeps three days, 8 portions a service, nothing in stock. Monday's
// batch feeds Monday, Tuesday and Wednesday (8, 16, 24); Thursday needs a new one.
#[test]
fn a_batch_of_24_feeds_three_services_of_8() {
    let of = batch(24, Some(72));
    let week: Vec<Coming> = (0..7).map(|nth| coming(&of, nth, Ok(8))).collect();
    let supply = of.supply(&BatchStock::default(), &week);
    let makes: Vec<u32> = supply
        .iter()
        .map(|s| s.make.map_or(0, |(n, _)| n))
        .collect();
    assert_eq!(makes, [1, 0, 0, 1, 0, 0, 1]);
    let stock: Vec<u32> = supply.iter().map(Supply::in_stock).collect();
    assert_eq!(stock, [0, 16, 8, 0, 16, 8, 0]);
    // Keeping two days, what is left on Wednesday is no stock.
    let of = batch(24, Some(48));
    let week: Vec<Coming> = (0..4).map(|nth| coming(&of, nth, Ok(8))).collect();
    let makes = of.supply(&BatchStock::default(), &week);
    let makes: Vec<bool> = makes.iter().map(|s| s.make.is_some()).collect();
    assert_eq!(makes, [true, false, true, false]);
}

#[test]
fn where_it_is_not_known_a_batch_is_made_and_the_reason_said() {
    let of = batch(24, Some(96));
    let known = BatchStock::at(&[made(0, 1, 24, Some(96))], &[], at(2));
    let services = [
        coming(&of, 0, Ok(4)),
        coming(&of, 1, Err(NeedNotKnown::Covers)),
        coming(&of, 2, Ok(4)),
    ];
    let whys: Vec<_> = of
        .supply(&known, &services)
        .into_iter()
        .map(|s| s.make)
        .collect();
    let needs = NeedNotKnown::Covers;
    assert_eq!(
        whys,
        [
            None,
            Some((1, WhyMade::NeedNotKnown { needs })),
            Some((1, WhyMade::StockNotKnown { since: day(1) })),
        ]
    );
    let of = batch(24, None);
    let unknown = BatchStock::at(&[made(0, 1, 24, None)], &[], at(2));
    let why = of.supply(&unknown, &[coming(&of, 0, Ok(4))])[0].make;
    assert_eq!(why, Some((1, WhyMade::KeepingNotKnown)));
    // None needed, none made; begun, it is made; 50 need three of 24.
    let one = |needed, own| {
        let of = batch(24, Some(48));
        let service = Coming {
            own,
            ..coming(&of, 0, Ok(needed))
        };
        of.supply(&BatchStock::default(), &[service])[0].make
    };
    let own = |begun, finished| Own { begun, finished };
    assert_eq!(one(0, own(0, 0)), None);
    assert_eq!(one(0, own(1, 0)), Some((1, WhyMade::Begun)));
    assert_eq!(one(50, own(0, 0)), Some((3, WhyMade::Short)));
    // Of three, one is begun: three are still to be made. One is finished: two are.
    assert_eq!(one(50, own(1, 0)), Some((3, WhyMade::Short)));
    assert_eq!(one(50, own(3, 0)), Some((3, WhyMade::Begun)));
    assert_eq!(one(50, own(0, 1)), Some((2, WhyMade::Short)));
}

// By hand: 40 are needed and a batch is 24, so two are made. The first came to 20: with the second
// that is 44. It came to 10: with the second that is 34, 6 short; and a third is not made for them.
// It came to 41, all at once: no second.
#[test]
fn a_batch_that_came_to_less_is_told_and_not_made_again() {
    let of = batch(24, Some(48));
    let after = |portions| {
        let stock = BatchStock::at(&[made(0, 1, portions, Some(48))], &[], at(2));
        let service = Coming {
            own: Own {
                begun: 0,
                finished: 1,
            },
            ..coming(&of, 0, Ok(40))
        };
        let supply = of.supply(&stock, &[service]).remove(0);
        (supply.make.map(|(n, _)| n), supply.short)
    };
    assert_eq!(after(20), (Some(1), 0));
    assert_eq!(after(10), (Some(1), 6));
    assert_eq!(after(41), (None, 0));
    // Of a keeping that nobody knows, it feeds its own service.
    let of = batch(24, None);
    let stock = BatchStock::at(&[made(0, 1, 24, None)], &[], at(2));
    let own = Own {
        begun: 0,
        finished: 1,
    };
    let service = Coming {
        own,
        ..coming(&of, 0, Ok(20))
    };
    let supply = of.supply(&stock, &[service]).remove(0);
    assert_eq!((supply.make, supply.short), (None, 0));
}

const MENU: &str = r#"
opens = "18:00"
closes = "22:00"
[[resource]]
name = "hands"
places = 1
[[preparation]]
name = "necks"
[preparation.batch]
portions = 24
keeps = "4 days"
source = "the kitchen's own"
per_cover = 0.5
allergens = ["celery"]
[[preparation.step]]
name = "into the brine"
takes = "30 min"
needs = "hands"
[[preparation.step]]
name = "brine"
rests = "2 days"
batch = "neck brine"
[[preparation.step]]
name = "roast"
takes = "3 h"
"#;

fn menu(text: &str) -> Result<Board, FileError> {
    Board::from_menu(text, date(2026, 5, 8), TimeZone::UTC)
}

#[test]
fn a_menu_says_what_a_batch_comes_to() {
    let board = menu(MENU).unwrap();
    let (name, batch) = board.batches().next().unwrap();
    assert_eq!(
        (name, batch.dish.as_str(), batch.portions),
        ("necks", "necks", 24)
    );
    assert_eq!(batch.needs, Needs::PerCover(0.5));
    let keeps = batch.keeps.as_ref().unwrap();
    assert_eq!(
        (keeps.lasts(), keeps.source()),
        (SignedDuration::from_hours(96), "the kitchen's own")
    );
    for (was, is, says) in [
        ("portions = 24", "portions = 0", "batch.portions is '0'"),
        (
            "keeps = \"4 days\"",
            "keeps = \"long\"",
            "batch.keeps is 'long'",
        ),
        ("keeps = \"4 days\"", "keeps = \"400 days\"", "366 days"),
        ("source = \"the kitchen's own\"", "", "no source"),
        ("keeps = \"4 days\"", "", "batch.source"),
        ("per_cover = 0.5", "per_cover = 0.0", "batch.per_cover"),
        ("per_cover = 0.5", "per_cover = 0.5\nneeds = 3", "not both"),
    ] {
        assert!(MENU.contains(was));
        let error = menu(&MENU.replace(was, is)).unwrap_err().to_string();
        assert!(
            error.contains("necks") && error.contains(says),
            "{is}: {error}"
        );
    }
}

fn told(at: &str, step: &str, what: Happened) -> Event {
    Event {
        at: at.parse().unwrap(),
        step: format!("necks: {step}"),
        what,
        by: By::Hand,
        who: None,
    }
}

#[test]
fn a_later_step_closes_what_it_implies() {
    let mut board = menu(MENU).unwrap();
    let roast = "2026-05-08T14:00:00Z";
    let begun = [told(roast, "roast", Happened::Begun)];
    board.replay(&begun);
    let of = |board: &Board, step: &str| {
        board
            .step(board.find("necks", step).unwrap())
            .unwrap()
            .progress
    };
    let at: Timestamp = roast.parse().unwrap();
    assert_eq!(of(&board, "into the brine"), Progress::Done(at));
    assert_eq!(of(&board, "brine"), Progress::Done(at));
    assert_eq!(of(&board, "roast"), Progress::Begun(at));
    assert_eq!(
        board.of_preparation("necks"),
        OfPreparation::Begun { since: at }
    );
    // Taken back, what it implied is open again.
    let mut board = menu(MENU).unwrap();
    board.replay(&[
        begun[0].clone(),
        told("2026-05-08T14:05:00Z", "roast", Happened::Undone),
    ]);
    assert_eq!(board.of_preparation("necks"), OfPreparation::Open);
    // What somebody says is not done is not.
    let mut board = menu(MENU).unwrap();
    board.replay(&[
        begun[0].clone(),
        told("2026-05-08T14:05:00Z", "brine", Happened::Undone),
    ]);
    assert_eq!(of(&board, "brine"), Progress::Waiting);
    // All done: finished, when the last was.
    let mut board = menu(MENU).unwrap();
    board.replay(&[
        told("2026-05-06T09:00:00Z", "into the brine", Happened::Done),
        told("2026-05-08T17:00:00Z", "roast", Happened::Done),
    ]);
    assert_eq!(
        board.of_preparation("necks"),
        OfPreparation::Finished {
            since: "2026-05-06T09:00:00Z".parse().unwrap(),
            ready: "2026-05-08T17:00:00Z".parse().unwrap(),
        }
    );
}

#[test]
fn a_finished_batch_closes_its_step_and_what_comes_before() {
    let mut board = menu(MENU).unwrap();
    // The brine's latest beginning is Wednesday 15:00: begun a day before that, it is seen by
    // when it came out.
    let batch = SeenBatch {
        title: String::from("Neck brine"),
        begun: "2026-05-05T10:00:00Z".parse().unwrap(),
        done: Some("2026-05-08T09:00:00Z".parse().unwrap()),
    };
    let events = board.sightings(&[], std::slice::from_ref(&batch));
    board.replay(&events);
    let open: Vec<_> = board
        .steps()
        .filter(|(_, step)| !matches!(step.progress, Progress::Done(_)))
        .map(|(_, step)| step.name.clone())
        .collect();
    assert_eq!(open, ["roast"]);
    let early = SeenBatch {
        done: Some("2026-05-05T20:00:00Z".parse().unwrap()),
        ..batch
    };
    assert!(
        menu(MENU).unwrap().sightings(&[], &[early]).is_empty(),
        "another service's"
    );
}

// One pair of hands, a roast of three hours in an oven of its own, and two more batches: each is
// begun when the hands are free, ticked by itself, and the plate waits for all of them.
#[test]
fn three_batches_are_steps_of_their_own() {
    let plate = "[[preparation]]\nname = \"plate\"\n[[preparation.step]]\nname = \"lay\"\n\
                 takes = \"10 min\"\nneeds = \"hands\"\nafter = [\"necks: roast\"]\n";
    let oven = "[[resource]]\nname = \"oven\"\nplaces = 1\n";
    let text = MENU
        .replace("[[preparation]]", &format!("{oven}[[preparation]]"))
        .replace("takes = \"3 h\"", "takes = \"3 h\"\nneeds = \"oven\"")
        + plate;
    let mut board = menu(&text).unwrap();
    board.make_batches("necks", 3);
    board.make_batches("necks", 2);
    assert_eq!(board.batches_of("necks"), 3, "what is there stays");
    board.make_batches("plate", 2);
    assert_eq!(board.batches_of("plate"), 1, "it is not made in batches");
    let now = "2026-05-05T06:00:00Z".parse().unwrap();
    let plan = board.plan(now);
    assert!(plan.is_possible(), "{plan:#?}");
    let time = |of: &str, step: &str| {
        let planned = plan.of(board.find(of, step).unwrap()).unwrap();
        (planned.start_by.unwrap(), planned.done_by.unwrap())
    };
    let names: Vec<String> = board.batch_names("necks").collect();
    assert_eq!(names, ["necks", "necks (2)", "necks (3)"]);
    for step in ["into the brine", "roast"] {
        let spans: Vec<_> = names.iter().map(|name| time(name, step)).collect();
        let apart = spans.windows(2).all(|two| two[0].1 <= two[1].0);
        assert!(
            apart,
            "{step}: one after another, the first first: {spans:?}"
        );
    }
    let last = names.iter().map(|name| time(name, "roast").1).max();
    assert!(last.unwrap() <= time("plate", "lay").0);
    // Two batches of nine hours of roasting that must begin after ten are too many for one oven,
    // and one batch fewer is what mends the day.
    let late = "2026-05-08T10:00:00Z".parse().unwrap();
    let mut day = menu(&text.replace("2 days", "2 days to 3 days")).unwrap();
    day.make_batches("necks", 3);
    let at = "2026-05-06T09:00:00Z";
    let brined = |name: &str| Event {
        step: format!("{name}: into the brine"),
        ..told(at, "", Happened::Done)
    };
    let unknown = day.replay(&[brined("necks"), brined("NECKS (2)"), brined("necks (3)")]);
    assert_eq!(unknown, Vec::<String>::new());
    let plan = day.plan(late);
    let trouble = day.trouble(&plan, late).unwrap();
    let dropped = Mend::Drop {
        preparation: String::from("necks (3)"),
    };
    assert!(trouble.mends.contains(&dropped), "{trouble:#?}");
    // Left off as a whole, no batch of it is left.
    assert!(day.without("necks").plan(late).is_possible());
}

// Two batches of 24 weighed into one brine after the other, and of portions 30 of 24 and 24: what
// the bench sees goes to the first and then to the second.
#[test]
fn what_the_bench_sees_ticks_one_batch_after_the_other() {
    let text = MENU.replace(
        "takes = \"3 h\"",
        "takes = \"3 h\"\nportions_of = \"necks\"\nportions = 24",
    );
    let mut board = menu(&text).unwrap();
    board.make_batches("necks", 2);
    let seen = |begun: &str, done: Option<&str>| SeenBatch {
        title: String::from("neck brine"),
        begun: begun.parse().unwrap(),
        done: done.map(|at| at.parse().unwrap()),
    };
    let second = seen("2026-05-06T10:00:00Z", None);
    let first = seen("2026-05-06T08:00:00Z", Some("2026-05-08T09:00:00Z"));
    let noon: Timestamp = "2026-05-08T12:00:00Z".parse().unwrap();
    let run = SeenRun {
        dish: String::from("necks"),
        portions: (0..30)
            .map(|n| noon + SignedDuration::from_mins(n))
            .collect(),
        ended: None,
    };
    let events = board.sightings(&[run], &[second, first]);
    let of = |step: &str| -> Vec<(Happened, Timestamp)> {
        let of_it = events.iter().filter(|event| event.step == step);
        of_it.map(|event| (event.what, event.at)).collect()
    };
    let at = |text: &str| text.parse::<Timestamp>().unwrap();
    assert_eq!(
        of("necks: brine"),
        [
            (Happened::Begun, at("2026-05-06T08:00:00Z")),
            (Happened::Done, at("2026-05-08T09:00:00Z"))
        ]
    );
    assert_eq!(
        of("necks (2): brine"),
        [(Happened::Begun, at("2026-05-06T10:00:00Z"))]
    );
    assert_eq!(
        of("necks: roast"),
        [
            (Happened::Begun, noon),
            (Happened::Done, at("2026-05-08T12:23:00Z"))
        ]
    );
    assert_eq!(
        of("necks (2): roast"),
        [(Happened::Begun, at("2026-05-08T12:24:00Z"))]
    );
}

#[test]
fn no_preparation_bears_the_name_of_anothers_batch() {
    let twin = "[[preparation]]\nname = \"necks (2)\"\n[[preparation.step]]\nname = \"x\"\n\
                takes = \"1 min\"\n";
    let error = menu(&format!("{MENU}{twin}")).unwrap_err().to_string();
    assert!(
        error.contains("necks (2)") && error.contains("further batch"),
        "{error}"
    );
}

/// Every portion by itself: when it was ready, and until when it keeps.
fn portion_by_portion(batches: &[MadeBatch], taken: &[TakenBy], now: Timestamp) -> Vec<u32> {
    let mut portions: Vec<(Timestamp, Timestamp, bool)> = Vec::new();
    for batch in batches {
        for _ in 0..batch.portions {
            portions.push((batch.ready, batch.use_by.unwrap(), true));
        }
    }
    portions.sort();
    let mut services = taken.to_vec();
    services.sort_by_key(|service| service.over);
    for service in services {
        let Taken::Portions(n) = service.taken else {
            continue;
        };
        for _ in 0..n {
            let next = portions.iter_mut().find(|(ready, by, there)| {
                *there && *ready <= service.over && *by >= service.opened
            });
            if let Some(portion) = next {
                portion.2 = false;
            }
        }
    }
    batches
        .iter()
        .map(|batch| {
            let of = |p: &&(Timestamp, Timestamp, bool)| p.0 == batch.ready && p.2 && p.1 >= now;
            u32::try_from(portions.iter().filter(of).count()).unwrap()
        })
        .collect()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    // Nothing is below nought or from nowhere, and each batch has left what it has portion by
    // portion.
    #[test]
    fn stock_is_as_portion_by_portion(
        batches in prop::collection::vec((0_i64..14, 1_u32..30, 1_i64..120), 0..6),
        takes in prop::collection::vec(0_u32..25, 0..14),
        now in 0_i64..(15 * DAY),
    ) {
        // No two at one moment: each has its own hour, and none that a service has.
        let batches: Vec<MadeBatch> = batches
            .iter()
            .enumerate()
            .map(|(n, (d, portions, keeps))| {
                made(*d, d * DAY + 10 + i64::try_from(n).unwrap(), *portions, Some(*keeps))
            })
            .filter(|batch| batch.ready <= at(now))
            .collect();
        let taken: Vec<TakenBy> = takes
            .iter()
            .enumerate()
            .map(|(nth, n)| service(i64::try_from(nth).unwrap(), Taken::Portions(*n)))
            .filter(|service| service.over <= at(now))
            .collect();
        let stock = BatchStock::at(&batches, &taken, at(now));
        let expected = portion_by_portion(&batches, &taken, at(now));
        for (batch, left) in batches.iter().zip(expected) {
            let found: u32 = stock
                .known
                .iter()
                .filter(|lot| lot.ready == batch.ready)
                .map(|lot| lot.portions)
                .sum();
            prop_assert_eq!(found, left);
        }
        prop_assert!(stock.known.is_sorted_by_key(|lot| lot.ready));
    }

    // Every service has what it needs from stock and what is made for it; nothing is made where
    // the stock was enough, and never a batch more than it lacks. A reference of its own draws
    // the portions down.
    #[test]
    fn every_service_has_enough_and_nothing_is_made_twice(
        size in 1_u32..40,
        keeps in 24_i64..140,
        first in (0_u32..60, 23_i64..100),
        needs in prop::collection::vec(0_u32..70, 1..10),
    ) {
        let of = batch(size, Some(keeps));
        let stock = BatchStock {
            known: (first.0 > 0)
                .then(|| InStock {
                    of: day(-1),
                    ready: at(-8),
                    use_by: Some(at(first.1)),
                    portions: first.0,
                })
                .into_iter()
                .collect(),
            ..BatchStock::default()
        };
        let services: Vec<Coming> = needs
            .iter()
            .enumerate()
            .map(|(nth, n)| coming(&of, i64::try_from(nth).unwrap(), Ok(*n)))
            .collect();
        let supply = of.supply(&stock, &services);
        // (keeps until, portions), the oldest first.
        let mut shelf: Vec<(Timestamp, u32)> = stock.known.iter().map(|l| (l.use_by.unwrap(), l.portions)).collect();
        for (service, found) in services.iter().zip(&supply) {
            let needed = service.needed.unwrap();
            shelf.retain(|(by, _)| *by >= service.until);
            let there: u32 = shelf.iter().map(|(_, n)| n).sum();
            prop_assert_eq!(found.in_stock(), there);
            let batches = found.make.map_or(0, |(n, _)| n);
            prop_assert!(there + batches * size >= needed);
            prop_assert_eq!(batches > 0, there < needed);
            prop_assert!(batches == 0 || there + (batches - 1) * size < needed);
            if batches > 0 {
                shelf.push((service.use_by.unwrap().max(service.until), batches * size));
            }
            let mut open = needed;
            for (_, n) in &mut shelf {
                let some = open.min(*n);
                *n -= some;
                open -= some;
            }
            shelf.retain(|(_, n)| *n > 0);
        }
    }
}
