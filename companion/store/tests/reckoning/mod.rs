//! Portions, corrections and strikes beside a plain reckoning of the same events.

use evenhand_kitchen::dish::DishName;
use evenhand_kitchen::portion::StrikeReason;
use evenhand_protocol::report::Doubts;
use evenhand_protocol::{
    CapturedPortion, DeviceId, Epoch, Goal, Mass, Mode, PortionId, RunId, Tolerance, UnixMillis,
    Uptime,
};
use evenhand_store::{By, DataFolder, NewRun, Query, Recorded, RefusedPortion, Store, StoreError};
use jiff::Timestamp;
use jiff::tz::TimeZone;
use std::collections::BTreeMap;
use tempfile::TempDir;

pub const NUMBERS: u32 = 12;

pub fn second(second: i64) -> Timestamp {
    Timestamp::from_second(second).unwrap()
}

pub fn id(number: u32) -> PortionId {
    PortionId {
        device: DeviceId(7),
        epoch: Epoch(1),
        number,
    }
}

pub fn captured(number: u32, run: RunId, replaces: Option<u32>) -> CapturedPortion {
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

pub fn store_with_runs() -> (TempDir, Store, [RunId; 2]) {
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
pub enum Event {
    Comes {
        number: u32,
        run: usize,
        corrects: Option<u32>,
    },
    Struck(u32),
    Undone,
    Lifted(u32),
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

/// What counts is what the reckoning says after each event; at the end record, spread, sums and
/// check agree.
pub fn agree(events: impl IntoIterator<Item = Event>) {
    let (_folder, mut store, runs) = store_with_runs();
    let mut reckoning = Reckoning::default();
    let reason = StrikeReason::new("reason", "dropped").unwrap();
    let at = second(9_000);
    for event in events {
        match event {
            Event::Comes {
                number,
                run,
                corrects,
            } => {
                let came = store
                    .record(&captured(number, runs[run], corrects), None, at)
                    .unwrap();
                let senseless = corrects.is_some_and(|earlier| {
                    earlier >= number || reckoning.0.get(&earlier).is_some_and(|e| e.run != run)
                });
                match reckoning.0.get(&number) {
                    _ if corrects.is_some_and(|earlier| earlier >= number) => {
                        assert_eq!(came, Recorded::Refused(RefusedPortion::SenselessCorrection));
                    }
                    Some(known) if known.run == run => {
                        assert_eq!(came, Recorded::Already);
                    }
                    Some(_) => {
                        assert_eq!(came, Recorded::Refused(RefusedPortion::Clash));
                    }
                    None if senseless => {
                        assert_eq!(came, Recorded::Refused(RefusedPortion::SenselessCorrection))
                    }
                    None => {
                        assert!(matches!(came, Recorded::New { .. }), "{:?}", came);
                        reckoning.0.insert(
                            number,
                            Known {
                                run,
                                corrects,
                                struck: false,
                                undone: false,
                            },
                        );
                    }
                }
            }
            Event::Struck(number) => {
                let done = store.strike(id(number), &reason, at);
                match reckoning.0.get_mut(&number) {
                    None => assert!(matches!(done, Err(StoreError::UnknownPortion(_)))),
                    Some(known) if known.struck => {
                        assert!(matches!(done, Err(StoreError::StruckAlready(_))));
                    }
                    Some(known) => {
                        assert!(done.is_ok());
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
                        assert_eq!(undone.id, id(last));
                        let known = reckoning.0.get_mut(&last).unwrap();
                        (known.struck, known.undone) = (true, true);
                    }
                    (Err(StoreError::NothingToUndo), None) => {}
                    (done, last) => panic!("{done:?} of {last:?}"),
                }
            }
            Event::Lifted(number) => {
                let done = store.lift_strike(id(number), at);
                match reckoning.0.get_mut(&number).filter(|known| known.struck) {
                    Some(known) => {
                        assert!(done.is_ok());
                        (known.struck, known.undone) = (false, false);
                    }
                    None => assert!(done.is_err()),
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
        assert_eq!(&counting, &reckoning.counting());
    }
    let n = reckoning.counting().len();
    assert_eq!(store.spread(&Query::default()).unwrap().n(), n);
    let tallies = store.tallies(By::Dish, &TimeZone::UTC, None, None).unwrap();
    assert_eq!(
        tallies
            .iter()
            .map(|tally| tally.spread.all.n())
            .sum::<usize>(),
        n
    );
    let examined = store.examine().unwrap();
    assert!(examined.is_sound(), "{:?}", examined.findings);
    assert_eq!(examined.portions, reckoning.0.len() as u64);
}
