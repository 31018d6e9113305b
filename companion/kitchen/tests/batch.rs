//! A batch on record, from the first weighing to the last mark.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use evenhand_kitchen::batch::{
    Batch, BatchError, Comparison, Entry, LossTarget, Mark, NamedAs, Plan, ShareOf, Slot, What,
};
use evenhand_kitchen::cure::{Amounts, Contents, Curing, CuringAgent, Method, NitriteFraction};
use evenhand_kitchen::heat::Outcome;
use evenhand_kitchen::limits::Limits;
use evenhand_kitchen::ratio::{Ingredient, Part};
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
    assert_eq!(nameless.as_formula().unwrap_err().problem(), "has no name");
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
    // A batch with something nameless could hold anything.
    assert!(matches!(
        batch.ready(hour(5), None),
        Err(BatchError::NotReady(_))
    ));
    batch.add(entry(5, curing)).unwrap();
    assert!(matches!(
        batch.add(entry(6, named(1, "salt"))),
        Err(BatchError::Renamed { .. })
    ));
    let error = batch.ready(hour(6), None).unwrap_err();
    assert!(error.to_string().contains("not reckoned"), "{error}");

    let curing = |meat: i64| {
        Curing::new(
            Method::DryCure,
            Amounts {
                meat: Some(Mass::from_grams(meat)),
                ..Amounts::default()
            },
        )
        .unwrap()
        .ingoing(&agent(), Mass::from_grams(12), Mass::ZERO)
        .unwrap()
    };
    let error = batch.ready(hour(6), Some(&curing(1000))).unwrap_err();
    assert!(
        error.to_string().contains("over the limit: 750.0 ppm"),
        "{error}"
    );
    assert!(!batch.is_ready());
    batch.ready(hour(7), Some(&curing(5000))).unwrap();
    assert!(batch.is_ready());
    // More of anything, and it is to be reckoned anew.
    batch.add(entry(8, weighed(1, 3))).unwrap();
    assert!(!batch.is_ready());
}

#[test]
fn due_turned_and_out() {
    let plan = Plan::new(hour(0), hour(48), Some(SignedDuration::from_hours(24))).unwrap();
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
    let plan = Plan::new(hour(0), hour(48), Some(SignedDuration::from_hours(12))).unwrap();
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
