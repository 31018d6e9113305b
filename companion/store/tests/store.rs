//! What the store keeps, through its public face.

use evenhand_kitchen::cook::Cook;
use evenhand_kitchen::dish::DishName;
use evenhand_kitchen::instrument_clock::InstrumentClock;
use evenhand_kitchen::portion::{RecordedPortion, StrikeReason, TimeSource};
use evenhand_kitchen::run::Run;
use evenhand_kitchen::units::{CostPerMass, Money};
use evenhand_protocol::report::{Capabilities, Doubts};
use evenhand_protocol::{
    CapturedPortion, DeviceId, Epoch, Goal, Hello, Mass, Mode, PortionId, RunId, Temperature,
    Tolerance, UnixMillis, Uptime, Verdict, Version,
};
use evenhand_store::{
    ClockStep, DataFolder, KnownInstrument, NewRun, NewTin, Query, Recorded, RefusedPortion, Store,
    StoreError,
};
use jiff::{SignedDuration, Timestamp};
use tempfile::TempDir;

fn second(second: i64) -> Timestamp {
    Timestamp::from_second(second).unwrap()
}

fn goal() -> Goal {
    Goal::new(
        Mass::from_grams(30),
        Tolerance::symmetric(Mass::from_grams(1)),
    )
    .unwrap()
}

fn name(name: &str) -> DishName {
    DishName::new("dish", name).unwrap()
}

fn id(number: u32) -> PortionId {
    PortionId {
        device: DeviceId(0xa1b2_c3d4_e5f6_0718),
        epoch: Epoch(u32::MAX),
        number,
    }
}

fn captured(number: u32, run: RunId, milligrams: i64) -> CapturedPortion {
    CapturedPortion {
        id: id(number),
        run,
        at: Uptime::from_millis(1_000 * u64::from(number)),
        unix: Some(UnixMillis::from_millis(
            1_000_000 + 1_000 * i64::from(number),
        )),
        mode: Mode::Taking,
        mass: Mass::from_milligrams(milligrams),
        goal: goal(),
        temperature: Some(Temperature::from_millicelsius(3_250)),
        replaces: None,
        doubts: Doubts::STRADDLES_LIMIT,
        uncertainty: Some(Mass::from_milligrams(40)),
        left: Some(Mass::from_grams(470)),
        chain_link: None,
    }
}

struct Kitchen {
    folder: TempDir,
    store: Store,
    run: Run,
}

fn data(folder: &TempDir) -> DataFolder {
    DataFolder::choose(Some(folder.path())).unwrap()
}

fn kitchen() -> Kitchen {
    let folder = tempfile::tempdir().unwrap();
    let mut store = Store::open(&data(&folder)).unwrap();
    let shrimp = name("Brown shrimp");
    store
        .set_dish(&shrimp, goal(), Mode::Taking, None, second(10))
        .unwrap();
    let tin = NewTin {
        kind: evenhand_kitchen::tin::TinKind::Tin,
        dish: shrimp.clone(),
        label: "lot 12".to_owned(),
        net: Mass::from_grams(500),
        price: Some(Money::parse("price", "90 EUR").unwrap()),
    };
    let tin = store.open_tin(&tin, second(20)).unwrap();
    let new = NewRun {
        dish: shrimp,
        goal: goal(),
        mode: Mode::Taking,
        cook: Some(Cook::new("cook", "mo").unwrap()),
        tin: Some(tin.id),
    };
    let run = store.begin_run(&new, second(30)).unwrap();
    Kitchen { folder, store, run }
}

impl Kitchen {
    fn record(&mut self, captured: &CapturedPortion) -> Recorded {
        self.store.record(captured, None, second(5_000)).unwrap()
    }

    fn fresh(&mut self, captured: &CapturedPortion) -> RecordedPortion {
        match self.record(captured) {
            Recorded::New { portion, .. } => *portion,
            other => panic!("not recorded anew: {other:?}"),
        }
    }

    fn counting(&self) -> Vec<u32> {
        let portions = self.store.portions(&Query::default()).unwrap();
        portions
            .iter()
            .filter(|p| p.counts())
            .map(|p| p.id.number)
            .collect()
    }
}

#[test]
fn a_portion_reads_back_as_it_was_captured() {
    let mut kitchen = kitchen();
    let run = kitchen.run.id;
    let recorded = kitchen.fresh(&captured(1, run, 30_250));
    let Kitchen { folder, store, .. } = kitchen;
    drop(store);
    let store = Store::open(&data(&folder)).unwrap();
    let portions = store.portions(&Query::default()).unwrap();
    assert_eq!(portions, vec![recorded.clone()]);
    assert_eq!(
        recorded,
        RecordedPortion {
            id: id(1),
            run,
            dish: Some(name("brown shrimp")),
            mode: Mode::Taking,
            mass: Mass::from_milligrams(30_250),
            goal: goal(),
            time: second(1_001),
            time_source: TimeSource::Instrument,
            temperature: Some(Temperature::from_millicelsius(3_250)),
            doubts: Doubts::STRADDLES_LIMIT,
            uncertainty: Some(Mass::from_milligrams(40)),
            left: Some(Mass::from_grams(470)),
            cost: Some(CostPerMass::parse("cost", "180 EUR/kg").unwrap()),
            struck: None,
            replaces: None,
            replaced_by: None,
        }
    );
}

#[test]
fn a_portion_is_recorded_once_however_often_it_comes() {
    let mut kitchen = kitchen();
    let run = kitchen.run.id;
    let portion = captured(1, run, 30_000);
    kitchen.fresh(&portion);
    for _ in 0..3 {
        assert_eq!(kitchen.record(&portion), Recorded::Already);
    }
    // Also through another opening of the same store.
    let mut other = Store::open(&data(&kitchen.folder)).unwrap();
    assert_eq!(
        other.record(&portion, None, second(0)).unwrap(),
        Recorded::Already
    );
    // The same number in another start of the instrument is another portion.
    let mut restarted = portion;
    restarted.id.epoch = Epoch(1);
    kitchen.fresh(&restarted);
    assert_eq!(kitchen.store.portions(&Query::default()).unwrap().len(), 2);
}

#[test]
fn another_portion_under_a_known_identity_is_not_taken_for_a_repetition() {
    let mut kitchen = kitchen();
    let run = kitchen.run.id;
    kitchen.fresh(&captured(1, run, 30_000));
    let other = captured(1, run, 31_000);
    assert_eq!(
        kitchen.record(&other),
        Recorded::Refused(RefusedPortion::Clash)
    );
    assert_eq!(
        kitchen.record(&other),
        Recorded::Refused(RefusedPortion::Clash)
    );
    let portion = kitchen.store.portion(id(1)).unwrap();
    assert_eq!(portion.mass, Mass::from_grams(30));
}

#[test]
fn a_portion_to_a_senseless_goal_is_kept_as_evidence_and_hides_nothing() {
    let mut kitchen = kitchen();
    let run = kitchen.run.id;
    kitchen.fresh(&captured(1, run, 30_000));
    let mut senseless = captured(2, run, 30_000);
    // Only the wire can make such a goal.
    senseless.goal = serde_json::from_value(serde_json::json!({
        "target": 0, "tolerance": {"below": 0, "above": 0}
    }))
    .unwrap();
    let refused = Recorded::Refused(RefusedPortion::SenselessGoal);
    assert_eq!(kitchen.record(&senseless), refused);
    assert_eq!(kitchen.counting(), [1]);
}

#[test]
fn a_correction_counts_instead_of_what_it_corrects() {
    let mut kitchen = kitchen();
    let run = kitchen.run.id;
    kitchen.fresh(&captured(1, run, 33_000));
    let corrects = |number, replaces, milligrams| CapturedPortion {
        replaces: Some(replaces),
        ..captured(number, run, milligrams)
    };
    let second_time = kitchen.fresh(&corrects(2, 1, 31_500));
    assert_eq!(second_time.replaces, Some(id(1)));
    assert_eq!(kitchen.counting(), [2]);
    // Corrected again, and said of the first: it is about the latest.
    let third_time = kitchen.fresh(&corrects(3, 1, 30_000));
    assert_eq!(third_time.replaces, Some(id(2)));
    assert_eq!(kitchen.counting(), [3]);
    let spread = kitchen.store.spread(&Query::default()).unwrap();
    assert_eq!((spread.n(), spread.mean()), (1, Some(Mass::from_grams(30))));
    // A correction of what this store has never seen counts by itself.
    kitchen.fresh(&corrects(9, 8, 30_000));
    assert_eq!(kitchen.counting(), [3, 9]);
}

#[test]
fn corrections_that_overtake_what_they_correct_find_it_when_it_comes() {
    let corrects = |number, replaces, run| CapturedPortion {
        replaces: Some(replaces),
        ..captured(number, run, 31_000)
    };
    // 2 and 3 both correct 1, 4 corrects 3: whatever the order, one counts.
    for order in [
        [1, 2, 3, 4],
        [4, 3, 2, 1],
        [2, 3, 4, 1],
        [3, 1, 4, 2],
        [4, 2, 1, 3],
    ] {
        let mut kitchen = kitchen();
        let run = kitchen.run.id;
        for number in order {
            match number {
                1 => kitchen.fresh(&captured(1, run, 30_000)),
                2 | 3 => kitchen.fresh(&corrects(number, 1, run)),
                _ => kitchen.fresh(&corrects(number, 3, run)),
            };
        }
        assert_eq!(kitchen.counting(), [4], "in the order {order:?}");
    }
}

#[test]
fn undoing_a_correction_lets_what_it_corrected_count_again() {
    let mut kitchen = kitchen();
    let run = kitchen.run.id;
    kitchen.fresh(&captured(1, run, 30_000));
    let corrects = |number, replaces| CapturedPortion {
        replaces: Some(replaces),
        ..captured(number, run, 31_000)
    };
    kitchen.fresh(&corrects(2, 1));
    let undone = kitchen.store.undo_last(Some(run), second(6_000)).unwrap();
    assert_eq!((undone.id, undone.counts()), (id(2), false));
    assert_eq!(kitchen.counting(), [1]);
    // The dish comes back once more.
    kitchen.fresh(&corrects(3, 2));
    assert_eq!(kitchen.counting(), [3]);
    // Taking back the undo does not make the dish count twice.
    kitchen.store.lift_strike(id(2), second(7_000)).unwrap();
    assert_eq!(kitchen.counting(), [3]);
}

#[test]
fn undo_goes_back_one_by_one_and_deletes_nothing() {
    let mut kitchen = kitchen();
    let run = kitchen.run.id;
    for number in 1..=3 {
        kitchen.fresh(&captured(number, run, 30_000));
    }
    assert_eq!(
        kitchen.store.undo_last(None, second(6_000)).unwrap().id,
        id(3)
    );
    assert_eq!(
        kitchen.store.undo_last(None, second(6_000)).unwrap().id,
        id(2)
    );
    assert_eq!(kitchen.counting(), [1]);
    kitchen.store.undo_last(None, second(6_000)).unwrap();
    let error = kitchen.store.undo_last(None, second(6_000)).unwrap_err();
    assert!(matches!(error, StoreError::NothingToUndo));
    assert_eq!(kitchen.store.portions(&Query::default()).unwrap().len(), 3);
}

#[test]
fn a_strike_keeps_its_reason_and_can_be_lifted() {
    let mut kitchen = kitchen();
    let run = kitchen.run.id;
    kitchen.fresh(&captured(1, run, 30_000));
    let reason = StrikeReason::new("--reason", "fell on the floor").unwrap();
    let struck = kitchen.store.strike(id(1), &reason, second(6_000)).unwrap();
    let strike = struck.struck.unwrap();
    assert_eq!(
        (strike.reason.as_str(), strike.at),
        ("fell on the floor", second(6_000))
    );
    let again = kitchen
        .store
        .strike(id(1), &reason, second(6_001))
        .unwrap_err();
    assert!(matches!(again, StoreError::StruckAlready(_)));
    assert!(kitchen.counting().is_empty());
    assert!(
        kitchen
            .store
            .lift_strike(id(1), second(6_002))
            .unwrap()
            .counts()
    );
    let none = kitchen.store.lift_strike(id(1), second(6_003)).unwrap_err();
    assert!(matches!(none, StoreError::NotStruck(_)));
    let unknown = kitchen
        .store
        .strike(id(77), &reason, second(0))
        .unwrap_err();
    assert!(matches!(unknown, StoreError::UnknownPortion(_)));
}

#[test]
fn food_that_was_struck_out_is_gone_from_the_tin_and_undone_food_is_not() {
    let mut kitchen = kitchen();
    let (run, tin) = (kitchen.run.id, kitchen.run.tin.unwrap());
    let taken = |kitchen: &Kitchen| kitchen.store.taken_from(tin).unwrap();
    for number in 1..=3 {
        kitchen.fresh(&captured(number, run, 30_000));
    }
    kitchen.fresh(&CapturedPortion {
        replaces: Some(3),
        ..captured(4, run, 31_000)
    });
    assert_eq!(taken(&kitchen), Mass::from_grams(91));
    let reason = StrikeReason::new("--reason", "dropped").unwrap();
    kitchen.store.strike(id(1), &reason, second(6_000)).unwrap();
    assert_eq!(taken(&kitchen), Mass::from_grams(91));
    kitchen.store.undo_last(None, second(6_000)).unwrap();
    assert_eq!(taken(&kitchen), Mass::from_grams(90));
}

#[test]
fn a_portion_of_a_run_begun_elsewhere_is_kept_without_a_dish() {
    let mut kitchen = kitchen();
    let foreign = RunId(kitchen.run.id.0.wrapping_add(1));
    let portion = kitchen.fresh(&captured(1, foreign, 30_000));
    assert_eq!((portion.dish, portion.run), (None, foreign));
    let run = kitchen.store.run(foreign).unwrap().unwrap();
    assert_eq!((run.dish, run.goal), (None, goal()));
}

#[test]
fn portions_keep_their_order_when_the_clock_steps_back() {
    let mut kitchen = kitchen();
    let run = kitchen.run.id;
    let at = |number, unix| CapturedPortion {
        unix: Some(UnixMillis::from_millis(unix)),
        ..captured(number, run, 30_000)
    };
    kitchen.record(&at(1, 3_600_000));
    match kitchen.record(&at(2, 1_800_000)) {
        Recorded::New { stepped_back, .. } => {
            assert_eq!(stepped_back, Some(SignedDuration::from_mins(30)));
        }
        other => panic!("{other:?}"),
    }
    // Came late: number 4 was recorded before number 3.
    kitchen.record(&at(4, 1_802_000));
    kitchen.record(&at(3, 1_801_000));
    assert_eq!(kitchen.counting(), [1, 2, 3, 4]);
    let steps = kitchen.store.clock_steps().unwrap();
    assert_eq!(
        steps,
        [ClockStep {
            at: second(1_800),
            by: SignedDuration::from_mins(-30)
        }]
    );
}

#[test]
fn a_time_is_taken_from_the_best_source_there_is() {
    let mut kitchen = kitchen();
    let run = kitchen.run.id;
    let undated = |number| CapturedPortion {
        unix: None,
        ..captured(number, run, 30_000)
    };
    let clock = InstrumentClock::new(
        id(1).device,
        id(1).epoch,
        Uptime::from_millis(10_000),
        second(2_000),
    );
    let mut time = |captured: &CapturedPortion, clock: Option<&InstrumentClock>| match kitchen
        .store
        .record(captured, clock, second(9_000))
        .unwrap()
    {
        Recorded::New { portion, .. } => (portion.time, portion.time_source),
        other => panic!("{other:?}"),
    };
    assert_eq!(
        time(&undated(1), Some(&clock)),
        (second(1_991), TimeSource::Uptime)
    );
    assert_eq!(
        time(&undated(2), None),
        (second(9_000), TimeSource::Recorded)
    );
}

#[test]
fn portions_are_found_by_dish_run_and_time() {
    let mut kitchen = kitchen();
    let shrimp_run = kitchen.run.id;
    let dough = name("Dough");
    kitchen
        .store
        .set_dish(&dough, goal(), Mode::Adding, None, second(40))
        .unwrap();
    let new = NewRun {
        dish: dough.clone(),
        goal: goal(),
        mode: Mode::Adding,
        cook: None,
        tin: None,
    };
    let dough_run = kitchen.store.begin_run(&new, second(50)).unwrap().id;
    for (number, run) in [(1, shrimp_run), (2, shrimp_run), (3, dough_run)] {
        kitchen.fresh(&captured(number, run, 30_000));
    }
    let found = |query: Query| -> Vec<u32> {
        let portions = kitchen.store.portions(&query).unwrap();
        portions.iter().map(|portion| portion.id.number).collect()
    };
    assert_eq!(
        found(Query {
            dish: Some(name("DOUGH")),
            ..Query::default()
        }),
        [3]
    );
    assert_eq!(
        found(Query {
            run: Some(shrimp_run),
            ..Query::default()
        }),
        [1, 2]
    );
    assert_eq!(
        found(Query {
            from: Some(second(1_002)),
            ..Query::default()
        }),
        [2, 3]
    );
    assert_eq!(
        found(Query {
            to: Some(second(1_002)),
            ..Query::default()
        }),
        [1]
    );
    let unknown = Query {
        dish: Some(name("parfait")),
        ..Query::default()
    };
    let error = kitchen.store.portions(&unknown).unwrap_err();
    assert_eq!(
        error.to_string(),
        "there is no dish \"parfait\"; known are \"Brown shrimp\", \"Dough\""
    );
}

#[test]
fn a_dish_changes_from_now_on_and_keeps_its_past() {
    let mut kitchen = kitchen();
    let shrimp = name("brown shrimp");
    let run = kitchen.run.id;
    kitchen.fresh(&captured(1, run, 30_000));
    let heavier = Goal::new(
        Mass::from_grams(40),
        Tolerance::symmetric(Mass::from_grams(2)),
    )
    .unwrap();
    let changed = kitchen
        .store
        .set_dish(&shrimp, heavier, Mode::Taking, None, second(100))
        .unwrap();
    assert_eq!((changed.goal, changed.since), (heavier, second(100)));
    let same = kitchen
        .store
        .set_dish(&shrimp, heavier, Mode::Taking, None, second(200))
        .unwrap();
    assert_eq!(same.since, second(100));
    let portion = kitchen.store.portion(id(1)).unwrap();
    assert_eq!((portion.goal, portion.verdict()), (goal(), Verdict::On));

    kitchen.store.retire_dish(&shrimp, second(300)).unwrap();
    assert_eq!(
        kitchen.store.dish(&shrimp).unwrap().unwrap().retired,
        Some(second(300))
    );
    assert_eq!(kitchen.store.portions(&Query::default()).unwrap().len(), 1);
    let back = kitchen
        .store
        .set_dish(&shrimp, heavier, Mode::Taking, None, second(400))
        .unwrap();
    assert_eq!(back.retired, None);
}

#[test]
fn a_cost_is_known_from_the_tin_or_else_the_dish() {
    let mut kitchen = kitchen();
    let dough = name("Dough");
    let set = |kitchen: &mut Kitchen, cost: Option<&str>, at| {
        let cost = cost.map(|cost| CostPerMass::parse("cost", cost).unwrap());
        kitchen
            .store
            .set_dish(&name("Dough"), goal(), Mode::Adding, cost, second(at))
            .unwrap();
    };
    set(&mut kitchen, None, 40);
    let new = NewRun {
        dish: dough,
        goal: goal(),
        mode: Mode::Adding,
        cook: None,
        tin: None,
    };
    let run = kitchen.store.begin_run(&new, second(50)).unwrap().id;
    // Captured at 1001 s and 1009 s.
    kitchen.fresh(&captured(1, run, 30_000));
    kitchen.fresh(&captured(9, run, 30_000));
    let cost = |kitchen: &Kitchen, number| {
        let portion = kitchen.store.portion(id(number)).unwrap();
        portion.cost.map(|cost| cost.to_string())
    };
    assert_eq!(cost(&kitchen, 1), None);
    set(&mut kitchen, Some("2 EUR/kg"), 1_005);
    // The first cost known holds for what was made before it was said.
    assert_eq!(cost(&kitchen, 1).as_deref(), Some("2.00 EUR/kg"));
    set(&mut kitchen, Some("3 EUR/kg"), 1_008);
    assert_eq!(cost(&kitchen, 1).as_deref(), Some("2.00 EUR/kg"));
    assert_eq!(cost(&kitchen, 9).as_deref(), Some("3.00 EUR/kg"));
}

#[test]
fn a_tin_belongs_to_its_dish() {
    let mut kitchen = kitchen();
    let dough = name("Dough");
    kitchen
        .store
        .set_dish(&dough, goal(), Mode::Adding, None, second(40))
        .unwrap();
    let tin = kitchen.run.tin;
    let new = NewRun {
        dish: dough.clone(),
        goal: goal(),
        mode: Mode::Adding,
        cook: None,
        tin,
    };
    let error = kitchen.store.begin_run(&new, second(50)).unwrap_err();
    assert_eq!(
        error.to_string(),
        "tin 1 holds Brown shrimp, not Dough; open or choose a tin of Dough"
    );
    let shrimp = name("brown shrimp");
    assert_eq!(
        kitchen.store.tin_in_use(&shrimp).unwrap().unwrap().id,
        tin.unwrap()
    );
    assert_eq!(kitchen.store.tin_in_use(&dough).unwrap(), None);
    let closed = kitchen.store.close_tin(tin.unwrap(), second(60)).unwrap();
    assert_eq!(closed.closed, Some(second(60)));
    assert_eq!(kitchen.store.tin_in_use(&shrimp).unwrap(), None);
}

#[test]
fn an_instrument_is_met_again_under_its_number() {
    let mut kitchen = kitchen();
    let hello = Hello {
        version: Version::CURRENT,
        device: DeviceId(u64::MAX),
        epoch: Epoch(1),
        at: Uptime::from_millis(0),
        capabilities: Capabilities::PORTIONS,
        capacity: Mass::from_grams(5_000),
        interval: Mass::from_milligrams(100),
        outbox: 64,
        verification_interval: Some(Mass::from_grams(1)),
    };
    kitchen.store.meet(&hello, second(100)).unwrap();
    kitchen.store.meet(&hello, second(200)).unwrap();
    let met = KnownInstrument {
        device: DeviceId(u64::MAX),
        first_seen: second(100),
        last_seen: second(200),
    };
    assert_eq!(kitchen.store.instruments().unwrap(), [met]);
}

#[test]
fn two_programs_write_to_one_store_and_nothing_is_lost() {
    let kitchen = kitchen();
    let run = kitchen.run.id;
    let writers: Vec<_> = (0..2u32)
        .map(|writer| {
            let folder = data(&kitchen.folder);
            std::thread::spawn(move || {
                let mut store = Store::open(&folder).unwrap();
                for number in 1..=50 {
                    let mut portion = captured(number, run, 30_000);
                    portion.id.device = DeviceId(u64::from(writer));
                    store.record(&portion, None, second(0)).unwrap();
                }
            })
        })
        .collect();
    for writer in writers {
        writer.join().unwrap();
    }
    assert_eq!(
        kitchen.store.portions(&Query::default()).unwrap().len(),
        100
    );
}

// Files that this program must leave alone.

#[test]
fn a_store_of_a_newer_program_is_refused_and_untouched() {
    let Kitchen { folder, store, .. } = kitchen();
    let path = store.path().to_owned();
    drop(store);
    let raw = rusqlite::Connection::open(&path).unwrap();
    raw.pragma_update(None, "user_version", 1_000).unwrap();
    drop(raw);
    let before = std::fs::read(&path).unwrap();
    let error = Store::open(&data(&folder)).unwrap_err();
    assert!(
        matches!(error, StoreError::Newer { found: 1_000, .. }),
        "{error}"
    );
    let text = error.to_string();
    assert!(
        text.contains("newer version") && text.contains("--data DIR"),
        "{text}"
    );
    assert_eq!(std::fs::read(&path).unwrap(), before);
}

#[test]
fn files_that_are_not_ours_are_refused_and_untouched() {
    let folder = tempfile::tempdir().unwrap();
    let path = data(&folder).file();

    std::fs::write(&path, b"a shopping list, and not a short one: shrimp, dough, salt, kombu, ice...........................................................").unwrap();
    let before = std::fs::read(&path).unwrap();
    let error = Store::open(&data(&folder)).unwrap_err();
    assert!(matches!(error, StoreError::Damaged { .. }), "{error}");
    assert_eq!(std::fs::read(&path).unwrap(), before);

    std::fs::remove_file(&path).unwrap();
    let other = rusqlite::Connection::open(&path).unwrap();
    other
        .execute_batch("CREATE TABLE songs (title TEXT)")
        .unwrap();
    drop(other);
    let before = std::fs::read(&path).unwrap();
    let error = Store::open(&data(&folder)).unwrap_err();
    assert!(matches!(error, StoreError::NotOurs { .. }), "{error}");
    assert_eq!(std::fs::read(&path).unwrap(), before);
}

#[test]
fn a_folder_that_cannot_be_made_is_named() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("file");
    std::fs::write(&file, "").unwrap();
    let inside = DataFolder::choose(Some(&file.join("data"))).unwrap();
    let error = Store::open(&inside).unwrap_err();
    assert!(matches!(error, StoreError::Folder { .. }), "{error}");
    assert!(error.to_string().contains("--data DIR"), "{error}");
}

/// Does something as a user who may not write what is not theirs, also where
/// the tests run as one who may write anything.
#[cfg(unix)]
fn as_nobody<T: Send>(work: impl FnOnce() -> T + Send) -> T {
    std::thread::scope(|scope| {
        let worker = scope.spawn(|| {
            // Of this thread alone.
            nix::unistd::setfsuid(nix::unistd::Uid::from_raw(65_534));
            work()
        });
        worker.join().unwrap()
    })
}

#[cfg(unix)]
#[test]
fn a_store_that_may_not_be_written_is_said_to_be_and_is_untouched() {
    use std::os::unix::fs::PermissionsExt;
    let mut kitchen = kitchen();
    let run = kitchen.run.id;
    kitchen.fresh(&captured(1, run, 30_000));
    let Kitchen { folder, store, .. } = kitchen;
    let path = store.path().to_owned();
    drop(store);
    let before = std::fs::read(&path).unwrap();
    let allow = |path: &std::path::Path, mode| {
        std::fs::set_permissions(path, std::fs::Permissions::from_mode(mode)).unwrap();
    };
    allow(&path, 0o444);
    allow(folder.path(), 0o555);
    let error = as_nobody(|| Store::open(&data(&folder)).unwrap_err());
    allow(folder.path(), 0o755);
    assert!(matches!(error, StoreError::ReadOnly { .. }), "{error}");
    assert!(error.to_string().contains("cannot be written"), "{error}");
    assert_eq!(std::fs::read(&path).unwrap(), before);

    // And a folder in which none can be made.
    let closed = tempfile::tempdir().unwrap();
    allow(closed.path(), 0o555);
    let error = as_nobody(|| Store::open(&data(&closed)).unwrap_err());
    allow(closed.path(), 0o755);
    assert!(matches!(error, StoreError::ReadOnly { .. }), "{error}");
}
