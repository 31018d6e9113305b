//! Portions, corrections and strikes in any order: what counts is what a plain
//! reckoning of the same events says, and every face of the store agrees.

use crate::reckoning::{Event, NUMBERS, agree, captured, id, second, store_with_runs};
use evenhand_store::{DataFolder, Finding, Query, Recorded, RefusedPortion, Store};
use proptest::prelude::*;

fn event() -> impl Strategy<Value = Event> {
    let number = || 1..=NUMBERS;
    prop_oneof![
        6 => (number(), prop_oneof![8 => Just(0_usize), 1 => Just(1)],
              prop_oneof![1 => Just(None), 2 => number().prop_map(Some)])
            .prop_map(|(number, run, corrects)| Event::Comes { number, run, corrects }),
        1 => number().prop_map(Event::Struck),
        2 => Just(Event::Undone),
        1 => number().prop_map(Event::Lifted),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 32, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn record_spread_sums_and_check_agree(events in prop::collection::vec(event(), 1..30)) {
        agree(events);
    }
}

#[test]
fn corrections_in_a_circle_are_refused_kept_as_evidence_and_hang_nothing() {
    let (_folder, mut store, [run, other]) = store_with_runs();
    let mut record = |captured| store.record(&captured, None, second(9_000)).unwrap();
    let refused = Recorded::Refused(RefusedPortion::SenselessCorrection);
    assert_eq!(record(captured(1, run, Some(2))), refused);
    assert!(matches!(
        record(captured(2, run, Some(1))),
        Recorded::New { .. }
    ));
    assert_eq!(record(captured(3, run, Some(3))), refused);
    // Of another run: two dishes are never one.
    assert_eq!(record(captured(4, other, Some(2))), refused);
    let spread = store.spread(&Query::default()).unwrap();
    assert_eq!(spread.n(), 1);
    // What was refused is not missing.
    assert_eq!(store.examine().unwrap().findings, []);
    let raw = rusqlite::Connection::open(store.path()).unwrap();
    let kept: i64 = raw
        .query_row("SELECT count(*) FROM refused", [], |row| row.get(0))
        .unwrap();
    assert_eq!(kept, 3);
}

#[test]
fn a_circle_that_an_earlier_version_recorded_is_found_and_hangs_nothing() {
    let (folder, mut store, [run, _]) = store_with_runs();
    for number in [1, 2] {
        store
            .record(&captured(number, run, None), None, second(9_000))
            .unwrap();
    }
    // As the earlier version left it: each replaces the other.
    let raw = rusqlite::Connection::open(store.path()).unwrap();
    raw.execute_batch(
        "UPDATE portion SET replaces = 2, replaced_by = 2 WHERE number = 1;
         UPDATE portion SET replaces = 1, replaced_by = 1 WHERE number = 2;",
    )
    .unwrap();
    drop(raw);
    drop(store);
    let mut store = Store::open(&DataFolder::choose(Some(folder.path())).unwrap()).unwrap();
    let found = store.examine().unwrap();
    assert_eq!(
        found.findings,
        [
            Finding::SenselessCorrection(id(1)),
            Finding::SenselessCorrection(id(2)),
        ]
    );
    assert!(!found.is_sound());
    assert!(store.check().is_err());
    // The portion that hung the program: recorded, and links what it can.
    let third = store
        .record(&captured(3, run, Some(1)), None, second(9_000))
        .unwrap();
    assert!(matches!(third, Recorded::New { .. }));
    assert_eq!(store.spread(&Query::default()).unwrap().n(), 1);
}
