//! A batch on record, from the first weighing to the last mark.

use evenhand_kitchen::batch::{
    Batch, BatchError, Claimed, Comparison, CuringWay, Entry, Hindrance, Judging, LossTarget, Mark,
    NamedAs, ReadyNitrite, Schedule, ShareOf, Slot, What,
};
use evenhand_kitchen::cure::{Contents, CuringAgent, Method, NitriteFraction, PickUp, Ppm};
use evenhand_kitchen::heat::Outcome;
use evenhand_kitchen::limits::Limits;
use evenhand_kitchen::ratio::{Ingredient, Part, RatioError};
use evenhand_protocol::{Mass, Temperature};
use jiff::{SignedDuration, Timestamp};
use proptest::prelude::*;

fn hour(hours: i64) -> Timestamp {
    let begin: Timestamp = "2025-03-03T18:00:00Z".parse().unwrap();
    begin + SignedDuration::from_hours(hours)
}

fn entry(hours: i64, what: What) -> Entry {
    Entry {
        at: hour(hours),
        what,
    }
}

fn weighed(slot: u32, grams: i64) -> What {
    What::Weighed {
        slot: Slot(slot),
        mass: Mass::from_grams(grams),
        temperature: None,
    }
}

fn named(slot: u32, name: &str) -> What {
    What::Named {
        slot: Slot(slot),
        ingredient: NamedAs(Ingredient::plain(name).unwrap()),
    }
}

fn agent() -> CuringAgent {
    let nitrite = NitriteFraction::new("n", 0.0625).unwrap();
    CuringAgent::from_label("curing salt", Contents::SodiumNitrite, nitrite).unwrap()
}

fn batch(entries: impl IntoIterator<Item = What>) -> Batch {
    Batch::from_entries(
        entries
            .into_iter()
            .enumerate()
            .map(|(hours, what)| entry(hours as i64, what)),
    )
    .unwrap()
}

#[test]
fn weighed_first_and_named_later() {
    let batch = batch([
        weighed(0, 500),
        weighed(1, 800),
        weighed(1, 100),
        named(1, "water"),
        named(0, "soy beans"),
        What::Titled {
            title: "soy milk".to_owned(),
        },
    ]);
    assert_eq!(batch.title(), Some("soy milk"));
    assert_eq!(batch.total(), Mass::from_grams(1400));
    let in_it: Vec<(String, i64)> = batch
        .weighed_in()
        .iter()
        .map(|slot| {
            (
                slot.ingredient.as_ref().unwrap().to_string(),
                slot.mass.micrograms() / 1_000_000,
            )
        })
        .collect();
    assert_eq!(
        in_it,
        [("soy beans".to_owned(), 500), ("water".to_owned(), 900)]
    );
    assert_eq!(batch.free_slot(), Slot(2));
}

#[test]
fn as_last_time_but_five_per_cent_more_water_is_one_step() {
    let last = batch([
        weighed(0, 500),
        named(0, "soy beans"),
        weighed(1, 900),
        named(1, "water"),
    ]);
    let next = last.as_formula().unwrap().with_more("water", 5.0).unwrap();
    assert_eq!(next.items()[1].part(), Part::Parts(945.0));
    let nameless = batch([weighed(0, 500), weighed(1, 900), named(1, "water")]);
    assert!(matches!(
        nameless.as_formula(),
        Err(RatioError::Nameless(_))
    ));
}

#[test]
fn nothing_is_rewritten_only_struck() {
    let mut batch = batch([weighed(0, 500), weighed(1, 90), named(1, "salt")]);
    assert!(matches!(
        batch.add(entry(
            9,
            What::Struck {
                line: 1,
                reason: "a slip".to_owned()
            }
        )),
        Err(BatchError::Line { line: 2, .. })
    ));
    for line in [2, 1] {
        batch
            .add(entry(
                9,
                What::Struck {
                    line,
                    reason: "a slip of the hand".to_owned(),
                },
            ))
            .unwrap();
    }
    assert_eq!(batch.total(), Mass::from_grams(500));
    assert_eq!(batch.entries().count(), 5);
    // The number is not used again for something else.
    assert_eq!(batch.free_slot(), Slot(2));
    for (line, problem) in [(1, "already"), (3, "itself"), (40, "no such line")] {
        let error = batch
            .add(entry(
                9,
                What::Struck {
                    line,
                    reason: "x".to_owned(),
                },
            ))
            .unwrap_err();
        assert!(error.to_string().contains(problem), "{error}");
    }
    assert!(matches!(
        batch.add(entry(
            9,
            What::Struck {
                line: 0,
                reason: " ".to_owned()
            }
        )),
        Err(BatchError::Empty("reason"))
    ));
    assert!(batch.add(entry(9, weighed(0, -501))).is_err());
    assert!(matches!(
        batch.add(entry(9, named(7, "salt"))),
        Err(BatchError::NoSuchSlot(7))
    ));
}

#[test]
fn a_curing_agent_is_never_taken_for_salt() {
    let mut batch = batch([weighed(0, 5000), named(0, "loin"), weighed(1, 12)]);
    let curing = What::Named {
        slot: Slot(1),
        ingredient: NamedAs(Ingredient::curing(agent())),
    };
    let limits = Limits::food_code();
    let by = judging(&limits);
    // A batch with something nameless could hold anything.
    assert!(matches!(
        batch.ready(hour(5), &by).unwrap_err(),
        BatchError::NotReady(all) if all == [Hindrance::Nameless(1)]
    ));
    batch.add(entry(5, curing)).unwrap();
    assert!(matches!(
        batch.add(entry(6, named(1, "salt"))),
        Err(BatchError::Renamed { .. })
    ));
    let error = batch.ready(hour(6), &by).unwrap_err();
    assert!(error.to_string().contains("not reckoned"), "{error}");
    batch.add(entry(6, cured(Method::DryCure))).unwrap();
    let ingoing = batch.ready(hour(7), &by).unwrap().unwrap();
    // 12 g of 6.25 % in 5 kg, worked by hand.
    assert!((ingoing.ppm.value() - 150.0).abs() < 1e-9, "{ingoing}");
    assert!(batch.is_ready());
    // More of anything, and it is to be reckoned anew.
    batch.add(entry(8, weighed(1, 48))).unwrap();
    assert!(!batch.is_ready());
    let error = batch.ready(hour(9), &by).unwrap_err();
    assert!(
        error.to_string().contains("over the limit: 750.0 ppm"),
        "{error}"
    );
    assert!(!batch.is_ready());
}

fn judging(limits: &Limits) -> Judging<'_> {
    Judging {
        limits,
        scale: Mass::ZERO,
        longest_step: SignedDuration::from_hours(4),
        claimed: Claimed::default(),
    }
}

fn cured(method: Method) -> What {
    cured_because(method, None)
}

fn cured_because(method: Method, reason: Option<&str>) -> What {
    What::CuredBy {
        way: CuringWay {
            method,
            meat: vec![],
            pick_up: None,
            skin_on: false,
        },
        reason: reason.map(str::to_owned),
    }
}

fn curing(slot: u32) -> What {
    What::Named {
        slot: Slot(slot),
        ingredient: NamedAs(Ingredient::curing(agent())),
    }
}

/// Pork of 5 kg with 52 g of agent: 650 ppm, over 625 for dry cure and 156.25 for comminuted.
fn overdosed() -> Batch {
    batch([
        weighed(0, 5000),
        named(0, "pork"),
        weighed(1, 52),
        curing(1),
    ])
}

// What a person types never makes an overdose pass: not another weight, not another way of curing.
#[test]
fn the_record_judges_and_not_the_typist() {
    let limits = Limits::food_code();
    let claiming = |meat: i64| Judging {
        claimed: Claimed {
            meat: Some(Mass::from_grams(meat)),
            pickle: None,
        },
        ..judging(&limits)
    };
    let mut pork = overdosed();
    pork.add(entry(5, cured(Method::DryCure))).unwrap();
    let error = pork.ready(hour(6), &judging(&limits)).unwrap_err();
    assert!(error.to_string().contains("650.0 ppm"), "{error}");
    // 6 kg would make 541.7 ppm of it, which dry cure allows.
    let error = pork.ready(hour(6), &claiming(6000)).unwrap_err();
    assert!(
        error
            .to_string()
            .contains("6000.0 g was said, 5000.0 g was weighed"),
        "{error}"
    );
    let said_right = pork.ready(hour(6), &claiming(5010)).unwrap_err();
    assert!(said_right.to_string().contains("650.0 ppm"), "{said_right}");
    assert!(!pork.is_ready());

    // The way is bound when it is first said; another needs a reason, which stays.
    let other = pork.add(entry(7, cured(Method::Comminuted))).unwrap_err();
    assert!(matches!(
        other,
        BatchError::OtherWay {
            was: Method::DryCure,
            now: Method::Comminuted
        }
    ));
    for empty in [None, Some("  ")] {
        assert!(
            pork.add(entry(7, cured_because(Method::Comminuted, empty)))
                .is_err()
        );
    }
    assert_eq!(pork.way().unwrap().method, Method::DryCure);
    pork.add(entry(
        7,
        cured_because(Method::Comminuted, Some("it was minced after all")),
    ))
    .unwrap();
    assert!(pork.entries().any(|(entry, struck)| !struck
        && matches!(&entry.what, What::CuredBy { reason: Some(why), .. } if why.contains("minced"))));
    assert!(pork.ready(hour(8), &judging(&limits)).is_err());
    // Saying the same again needs no reason.
    pork.add(entry(9, cured(Method::Comminuted))).unwrap();
}

// A second agent is counted with the first: 5 g and 5 g in 5 kg are 125 ppm, not 62.5.
#[test]
fn all_the_agent_counts() {
    let limits = Limits::food_code();
    let mut two = batch([
        weighed(0, 5000),
        named(0, "pork"),
        weighed(1, 5),
        curing(1),
        weighed(2, 5),
        curing(2),
        cured(Method::DryCure),
    ]);
    let ingoing = two.ready(hour(9), &judging(&limits)).unwrap().unwrap();
    assert!((ingoing.ppm.value() - 125.0).abs() < 1e-9, "{ingoing}");
}

// A line that was written by another hand with other figures than the record's is refused.
#[test]
fn a_ready_line_has_the_records_own_figure() {
    let mut pork = overdosed();
    pork.add(entry(5, cured(Method::DryCure))).unwrap();
    let ready = |ppm: f64| What::Ready {
        nitrite: Some(ReadyNitrite {
            method: Method::DryCure,
            ppm: Ppm::new("t", ppm).unwrap(),
            at_most: Ppm::new("t", 625.0).unwrap(),
        }),
    };
    assert!(pork.add(entry(6, ready(541.7))).is_err());
    assert!(pork.add(entry(6, ready(650.0))).is_err());
    assert!(!pork.is_ready());
}

// Everyday names of curing agents that are not known by name, on something entered as plain: 24 g to 1 kg of meat. All
// are invented or everyday words that say nothing.
#[test]
fn what_could_be_a_curing_agent_is_asked_about() {
    let limits = Limits::food_code();
    let with = |name: &str, milligrams: i64| {
        batch([
            weighed(0, 1000),
            named(0, "pork"),
            weighed(1, 20),
            named(1, "salt"),
            What::Weighed {
                slot: Slot(2),
                mass: Mass::from_milligrams(milligrams),
                temperature: None,
            },
            named(2, name),
        ])
    };
    for name in [
        "the pink stuff",
        "number one",
        "butcher's salt",
        "Gewürzsalz",
        "sel du chef",
        "rub",
    ] {
        let mut asked = with(name, 2_400);
        let error = asked.ready(hour(7), &judging(&limits)).unwrap_err();
        assert!(
            matches!(&error, BatchError::NotReady(all) if matches!(all.as_slice(), [Hindrance::Unknown { slot: 2, .. }])),
            "{name}: {error}"
        );
        // Somebody reads the packet, and what it says stays on record.
        let vouched = What::Vouched {
            slot: Slot(2),
            packet: "salt, pepper, bay".to_owned(),
        };
        asked.add(entry(8, vouched)).unwrap();
        asked.ready(hour(9), &judging(&limits)).unwrap();
        // Another name, and it is asked again.
        asked.add(entry(10, named(2, "the other jar"))).unwrap();
        assert!(asked.ready(hour(11), &judging(&limits)).is_err());
    }
    for (name, milligrams, passes) in [
        ("black pepper", 2_400, true),
        ("honey", 40_000, true),
        // 0.05 % and 5 % of a kilogram, and just beyond either.
        ("jar", 490, true),
        ("jar", 510, false),
        ("jar", 49_900, false),
        ("jar", 50_100, true),
    ] {
        let ready = with(name, milligrams).ready(hour(7), &judging(&limits));
        assert_eq!(ready.is_ok(), passes, "{name} {milligrams}: {ready:?}");
    }
    let empty = What::Vouched {
        slot: Slot(2),
        packet: " ".to_owned(),
    };
    assert!(with("jar", 600).add(entry(8, empty)).is_err());
}

// An older record has a name that is refused today: it is read as it was written, and does not pass.
#[test]
fn an_older_records_plain_name_is_read_and_hinders() {
    let line = r#"{"at":"2025-03-03T20:00:00Z","what":"named","slot":1,"ingredient":{"plain":"Pökelsalz"}}"#;
    let line: Entry = serde_json::from_str(line).unwrap();
    let mut old = batch([weighed(0, 5000), named(0, "pork"), weighed(1, 52)]);
    old.add(line).unwrap();
    let error = old
        .ready(hour(9), &judging(&Limits::food_code()))
        .unwrap_err();
    assert!(
        matches!(&error, BatchError::NotReady(all) if matches!(all.as_slice(), [Hindrance::CalledCuring { slot: 1, .. }])),
        "{error}"
    );
}

// Where two things could be the meat, it is asked which; what was said stays, and the rest is the pickle.
#[test]
fn which_is_the_meat_is_asked_and_kept() {
    let limits = Limits::food_code();
    let mut ham = batch([
        weighed(0, 4000),
        named(0, "leg"),
        weighed(1, 1000),
        named(1, "belly"),
        weighed(2, 5000),
        named(2, "water"),
        weighed(3, 32),
        curing(3),
        cured(Method::ImmersionEquilibrium),
    ]);
    let error = ham.ready(hour(9), &judging(&limits)).unwrap_err();
    assert!(error.to_string().contains("which is the meat"), "{error}");
    let way = CuringWay {
        method: Method::ImmersionEquilibrium,
        meat: vec![Slot(0), Slot(1)],
        pick_up: None,
        skin_on: false,
    };
    ham.add(entry(
        9,
        What::CuredBy {
            way: way.clone(),
            reason: Some("both are".to_owned()),
        },
    ))
    .unwrap();
    let ingoing = ham.ready(hour(10), &judging(&limits)).unwrap().unwrap();
    // 2 g of nitrite in 10 032 g, worked by hand.
    assert!(
        (ingoing.ppm.value() - 2e6 / 10_032.0).abs() < 1e-9,
        "{ingoing}"
    );
    let nowhere = CuringWay {
        meat: vec![Slot(9)],
        ..way
    };
    assert!(
        ham.add(entry(
            11,
            What::CuredBy {
                way: nowhere,
                reason: Some("x".to_owned())
            }
        ))
        .is_err()
    );
}

// 3-501.16(A)(2): 5 degC or less. A kitchen's own file may allow a while beyond.
#[test]
fn a_cold_store_over_its_limit_hinders() {
    let stored = |celsius: f64| What::Stored {
        temperature: Temperature::from_celsius(celsius).unwrap(),
    };
    let published = Limits::food_code();
    let mut warm = batch([
        stored(4.0),
        stored(9.0),
        stored(4.0),
        weighed(0, 500),
        named(0, "salt"),
    ]);
    let error = warm.ready(hour(9), &judging(&published)).unwrap_err();
    assert!(error.to_string().contains("9.0 degC"), "{error}");
    let allowing = |minutes: i64| {
        Limits::in_force(Some(&format!(
            "[[limit]]\nname='cold-holding'\nkind='at-most'\ncelsius=5\nminutes={minutes}\nsource='ours'\n"
        )))
        .unwrap()
    };
    // An hour before and an hour after it was cold: beyond for up to two hours, for none at least.
    let cannot_tell = allowing(60);
    assert_eq!(
        warm.store_check(&cannot_tell, SignedDuration::from_hours(4))[0].outcome,
        Outcome::CannotTell
    );
    let two_hours = allowing(120);
    warm.ready(hour(9), &judging(&two_hours)).unwrap();
    let mut longer = batch([
        stored(4.0),
        stored(9.0),
        stored(9.0),
        stored(9.0),
        weighed(0, 500),
        named(0, "salt"),
    ]);
    assert!(longer.ready(hour(9), &judging(&allowing(119))).is_err());
}

#[test]
fn due_turned_and_out() {
    let plan = Schedule::new(hour(0), hour(48), Some(SignedDuration::from_hours(24))).unwrap();
    let mut necks = batch([What::Planned { plan }]);
    let words = |batch: &Batch, now: i64| -> Vec<String> {
        batch
            .due(hour(now))
            .iter()
            .map(ToString::to_string)
            .collect()
    };
    assert_eq!(words(&necks, 23), ["turn in 1 h", "take out in 1 d 1 h"]);
    necks.add(entry(25, What::Turned)).unwrap();
    assert_eq!(words(&necks, 50), ["take out: overdue by 2 h"]);
    necks.add(entry(51, What::CameOut)).unwrap();
    assert_eq!(words(&necks, 90), Vec::<String>::new());
    assert_eq!(necks.came_out(), Some(hour(51)));
}

#[test]
fn drying_is_weighed_again() {
    let target = LossTarget::new(Mass::from_grams(1520), 30.0).unwrap();
    let mut coppa = batch([What::ToLose { target }]);
    assert!(coppa.loss().is_none());
    for (day, grams) in [(7, 1380), (14, 1196), (30, 1060)] {
        coppa
            .add(entry(
                day * 24,
                What::Reweighed {
                    mass: Mass::from_grams(grams),
                },
            ))
            .unwrap();
    }
    assert!(coppa.loss().unwrap().is_down());
}

// US FDA Food Code 3-501.16(A)(2), as in Delaware's Food Code (read): food held cold "at 5 degC (41 degF) or less".
#[test]
fn the_cold_store_is_held_against_the_food_code() {
    let stored = |celsius: f64| What::Stored {
        temperature: Temperature::from_celsius(celsius).unwrap(),
    };
    let step = SignedDuration::from_hours(1);
    let limits = Limits::food_code();
    let kept = batch([stored(3.0), stored(5.0), stored(4.2)]);
    assert_eq!(kept.store_check(&limits, step)[0].outcome, Outcome::Kept);
    let broken = batch([stored(3.0), stored(5.1), stored(4.2)]);
    assert_eq!(
        broken.store_check(&limits, step)[0].outcome,
        Outcome::Broken
    );
    // Readings too far apart hide what was between them.
    assert_eq!(
        kept.store_check(&limits, SignedDuration::from_mins(59))[0].outcome,
        Outcome::CannotTell
    );
    assert!(batch([weighed(0, 1)]).store_check(&limits, step).is_empty());
}

fn tasted(mark: u8) -> What {
    What::Tasted {
        mark: Mark::new("mark", mark).unwrap(),
        note: format!("a {mark}"),
    }
}

#[test]
fn side_by_side_against_the_mark() {
    let of = |beans: i64, water: i64, mark: Option<u8>| {
        let mut entries = vec![
            weighed(0, beans),
            named(0, "soy beans"),
            weighed(1, water),
            named(1, "Water"),
        ];
        entries.extend(mark.map(tasted));
        batch(entries)
    };
    let batches = [
        of(500, 900, Some(5)),
        of(500, 1000, Some(8)),
        of(400, 900, None),
    ];
    let comparison = Comparison::new(&batches, ShareOf::Ingredient("soy beans".to_owned()));
    assert_eq!(comparison.ingredients, ["soy beans", "Water"]);
    let shares: Vec<f64> = comparison
        .rows
        .iter()
        .map(|row| row.shares[1].unwrap().percent())
        .collect();
    assert_eq!(shares, [180.0, 200.0, 225.0]);
    let points: Vec<(f64, u8)> = comparison
        .against_mark("water")
        .unwrap()
        .iter()
        .map(|(share, mark)| (share.percent(), mark.value()))
        .collect();
    assert_eq!(points, [(180.0, 5), (200.0, 8)]);
    assert_eq!(comparison.best(), Some(1));
    assert!(comparison.against_mark("milk").is_err());
    assert_eq!(Comparison::new([], ShareOf::Total).best(), None);
}

#[test]
fn marks_are_one_to_nine() {
    for bad in [0, 10] {
        assert!(Mark::new("mark", bad).is_err());
    }
    assert!(serde_json::from_str::<Mark>("10").is_err());
}

#[test]
fn a_line_reads_back_as_it_was_written() {
    let plan = Schedule::new(hour(0), hour(48), Some(SignedDuration::from_hours(12))).unwrap();
    let lines = [
        What::Titled {
            title: "necks".to_owned(),
        },
        What::Weighed {
            slot: Slot(3),
            mass: Mass::from_micrograms(-1),
            temperature: Temperature::from_celsius(3.5),
        },
        named(0, "salt"),
        What::Named {
            slot: Slot(1),
            ingredient: NamedAs(Ingredient::curing(agent())),
        },
        What::TakenOut {
            mass: Mass::from_grams(2),
        },
        What::Planned { plan },
        What::Turned,
        What::CameOut,
        What::ToLose {
            target: LossTarget::new(Mass::from_grams(1), 30.0).unwrap(),
        },
        What::Reweighed {
            mass: Mass::from_grams(3),
        },
        What::Stored {
            temperature: Temperature::from_millicelsius(4200),
        },
        What::Noted {
            text: "smells of the sea".to_owned(),
        },
        tasted(7),
        What::CuredBy {
            way: CuringWay {
                method: Method::BaconPumped,
                meat: vec![Slot(0)],
                pick_up: Some(PickUp::from_percent("p", 12.5).unwrap()),
                skin_on: true,
            },
            reason: Some("pumped after all".to_owned()),
        },
        cured(Method::DryCure),
        What::Vouched {
            slot: Slot(2),
            packet: "salt, sugar".to_owned(),
        },
        What::Ready { nitrite: None },
        What::Struck {
            line: 3,
            reason: "twice".to_owned(),
        },
    ];
    for what in lines {
        let entry = entry(1, what);
        let text = serde_json::to_string(&entry).unwrap();
        // By way of a plain value, as the store does: a build may keep numbers as text.
        let value: serde_json::Value = serde_json::from_str(&text).unwrap();
        let read: Entry = serde_json::from_value(value).unwrap();
        assert_eq!(read, entry, "{text}");
    }
    // A record that somebody changed by hand is refused, not guessed at.
    for bad in [
        r#"{"at":"2025-03-03T18:00:00Z","what":"named","slot":1,"ingredient":{"plain":"pink salt"}}"#,
        r#"{"at":"2025-03-03T18:00:00Z","what":"named","slot":1,"ingredient":{"curing-agent":{"name":"c","nitrite":6.25}}}"#,
        r#"{"at":"2025-03-03T18:00:00Z","what":"tasted","mark":11,"note":""}"#,
        r#"{"at":"2025-03-03T18:00:00Z","what":"melted"}"#,
    ] {
        assert!(serde_json::from_str::<Entry>(bad).is_err(), "{bad}");
    }
}

proptest! {
    // Whatever lines come, in whatever order: what is refused changes nothing, what is taken never leaves less than
    // nothing, and the same lines give the same batch again.
    #[test]
    fn no_line_breaks_it(lines in prop::collection::vec((0u32..4, -500i64..2000, 0u8..6), 0..30)) {
        let mut batch = Batch::new();
        for (index, (slot, grams, kind)) in lines.into_iter().enumerate() {
            let what = match kind {
                0..=2 => weighed(slot, grams),
                3 => named(slot, &format!("thing {slot}")),
                4 => What::TakenOut { mass: Mass::from_grams(grams) },
                _ => What::Struck { line: slot * 3, reason: "a slip".to_owned() },
            };
            let before = batch.clone();
            if batch.add(entry(index as i64, what)).is_err() {
                prop_assert_eq!(&batch, &before);
            }
            prop_assert!(batch.weighed_in().iter().all(|slot| !slot.mass.is_negative()));
        }
        let again = Batch::from_entries(batch.entries().map(|(entry, _)| entry.clone())).unwrap();
        prop_assert_eq!(again, batch);
    }
}
