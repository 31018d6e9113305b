//! Portions, corrections and strikes in any order: what counts is what a plain
//! reckoning of the same events says, and every face of the store agrees.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use evenhand_kitchen::dish::DishName;
use evenhand_kitchen::portion::StrikeReason;
use evenhand_protocol::report::Doubts;
use evenhand_protocol::{
    CapturedPortion, DeviceId, Epoch, Goal, Mass, Mode, PortionId, RunId, Tolerance, UnixMillis,
    Uptime,
};
use evenhand_store::{
    By, DataFolder, Finding, NewRun, Query, Recorded, RefusedPortion, Store, StoreError,
};
use jiff::Timestamp;
use jiff::tz::TimeZone;
use proptest::prelude::*;
use std::collections::BTreeMap;
use tempfile::TempDir;

const NUMBERS: u32 = 12;

fn second(second: i64) -> Timestamp {
    Timestamp::from_second(second).unwrap()
}

fn id(number: u32) -> PortionId {
    PortionId {
        device: DeviceId(7),
        epoch: Epoch(1),
        number,
    }
}

fn captured(number: u32, run: RunId, replaces: Option<u32>) -> CapturedPortion {
    CapturedPortion {
        id: id(number),
        run,
        at: Uptime::from_millis(1_000 * u64::from(number)),
        unix: Some(UnixMillis::from_millis(1_000 * i64::from(number))),
        mode: Mode::Taking,
        mass: Mass::from_milligrams(30_000 + i64::from(number)),
        goal: Goal::new(
            Mass::from_grams(30),
            Tolerance::symmetric(Mass::from_grams(1)),
        )
        .unwrap(),
        temperature: None,
        replaces,
        doubts: Doubts::NONE,
        uncertainty: None,
        left: None,
        chain_link: None,
    }
}

fn store_with_runs() -> (TempDir, Store, [RunId; 2]) {
    let folder = tempfile::tempdir().unwrap();
    let mut store = Store::open(&DataFolder::choose(Some(folder.path())).unwrap()).unwrap();
    let dish = DishName::new("dish", "Samphire").unwrap();
    let goal = captured(1, RunId(1), None).goal;
    store
        .set_dish(&dish, goal, Mode::Taking, None, second(1))
        .unwrap();
    let new = NewRun {
        dish,
        goal,
        mode: Mode::Taking,
        cook: None,
        tin: None,
    };
    let runs = [1, 2].map(|at| store.begin_run(&new, second(at)).unwrap().id);
    (folder, store, runs)
}

#[derive(Debug, Clone)]
enum Event {
    Comes {
        number: u32,
        run: usize,
        corrects: Option<u32>,
    },
    Struck(u32),
    Undone,
    Lifted(u32),
}

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

/// What is known of a portion, by nothing but the rule.
#[derive(Debug, Clone, Copy)]
struct Known {
    run: usize,
    corrects: Option<u32>,
    struck: bool,
    undone: bool,
}

#[derive(Debug, Default)]
struct Reckoning(BTreeMap<u32, Known>);

impl Reckoning {
    /// The portion at the beginning of the corrections that lead to this one.
    fn first(&self, number: u32) -> u32 {
        let known = self.0[&number];
        match known.corrects.filter(|earlier| {
            self.0
                .get(earlier)
                .is_some_and(|earlier| earlier.run == known.run)
        }) {
            Some(earlier) => self.first(earlier),
            None => number,
        }
    }

    fn counting(&self) -> Vec<u32> {
        let mut stands: BTreeMap<u32, u32> = BTreeMap::new();
        for (number, known) in &self.0 {
            if !known.undone {
                stands.insert(self.first(*number), *number);
            }
        }
        let mut counting: Vec<u32> = stands
            .into_values()
            .filter(|number| !self.0[number].struck)
            .collect();
        counting.sort_unstable();
        counting
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 32, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn record_spread_sums_and_check_agree(events in prop::collection::vec(event(), 1..30)) {
        let (_folder, mut store, runs) = store_with_runs();
        let mut reckoning = Reckoning::default();
        let reason = StrikeReason::new("reason", "dropped").unwrap();
        let at = second(9_000);
        for event in events {
            match event {
                Event::Comes { number, run, corrects } => {
                    let came = store
                        .record(&captured(number, runs[run], corrects), None, at)
                        .unwrap();
                    let senseless = corrects.is_some_and(|earlier| {
                        earlier >= number
                            || reckoning.0.get(&earlier).is_some_and(|e| e.run != run)
                    });
                    match reckoning.0.get(&number) {
                        _ if corrects.is_some_and(|earlier| earlier >= number) => {
                            prop_assert_eq!(
                                came,
                                Recorded::Refused(RefusedPortion::SenselessCorrection)
                            );
                        }
                        Some(known) if known.run == run => {
                            prop_assert_eq!(came, Recorded::Already);
                        }
                        Some(_) => {
                            prop_assert_eq!(came, Recorded::Refused(RefusedPortion::Clash));
                        }
                        None if senseless => prop_assert_eq!(
                            came,
                            Recorded::Refused(RefusedPortion::SenselessCorrection)
                        ),
                        None => {
                            prop_assert!(matches!(came, Recorded::New { .. }), "{:?}", came);
                            reckoning.0.insert(
                                number,
                                Known { run, corrects, struck: false, undone: false },
                            );
                        }
                    }
                }
                Event::Struck(number) => {
                    let done = store.strike(id(number), &reason, at);
                    match reckoning.0.get_mut(&number) {
                        None => prop_assert!(matches!(done, Err(StoreError::UnknownPortion(_)))),
                        Some(known) if known.struck => {
                            prop_assert!(matches!(done, Err(StoreError::StruckAlready(_))));
                        }
                        Some(known) => {
                            prop_assert!(done.is_ok());
                            known.struck = true;
                        }
                    }
                }
                Event::Undone => {
                    let last = reckoning
                        .counting()
                        .into_iter()
                        .max_by_key(|number| (reckoning.0[number].run, *number));
                    match (store.undo_last(None, at), last) {
                        (Ok(undone), Some(last)) => {
                            prop_assert_eq!(undone.id, id(last));
                            let known = reckoning.0.get_mut(&last).unwrap();
                            (known.struck, known.undone) = (true, true);
                        }
                        (Err(StoreError::NothingToUndo), None) => {}
                        (done, last) => prop_assert!(false, "{:?} of {:?}", done, last),
                    }
                }
                Event::Lifted(number) => {
                    let done = store.lift_strike(id(number), at);
                    match reckoning.0.get_mut(&number).filter(|known| known.struck) {
                        Some(known) => {
                            prop_assert!(done.is_ok());
                            (known.struck, known.undone) = (false, false);
                        }
                        None => prop_assert!(done.is_err()),
                    }
                }
            }
            let portions = store.portions(&Query::default()).unwrap();
            let mut counting: Vec<u32> = portions
                .iter()
                .filter(|portion| portion.counts())
                .map(|portion| portion.id.number)
                .collect();
            counting.sort_unstable();
            prop_assert_eq!(&counting, &reckoning.counting());
        }
        let n = reckoning.counting().len();
        prop_assert_eq!(store.spread(&Query::default()).unwrap().n(), n);
        let tallies = store.tallies(By::Dish, &TimeZone::UTC, None, None).unwrap();
        prop_assert_eq!(tallies.iter().map(|tally| tally.spread.n()).sum::<usize>(), n);
        let examined = store.examine().unwrap();
        prop_assert!(examined.is_sound(), "{:?}", examined.findings);
        prop_assert_eq!(examined.portions, reckoning.0.len() as u64);
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
