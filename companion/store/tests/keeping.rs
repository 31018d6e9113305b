//! Copies, restores, moved files, rot and gaps: each test shows that the fault
//! happened, and then that nothing was lost or believed.

use evenhand_kitchen::dish::DishName;
use evenhand_protocol::report::{Capabilities, Doubts};
use evenhand_protocol::{
    CapturedPortion, DeviceId, Epoch, Goal, Hello, Mass, Mode, PortionId, RunId, Temperature,
    Tolerance, UnixMillis, Uptime, Version,
};
use evenhand_store::{
    By, DataFolder, Finding, NewRun, Query, Recorded, RefusedPortion, Store, StoreError, restore,
};
use jiff::Timestamp;
use jiff::tz::TimeZone;
use std::fs;
use std::path::{Path, PathBuf};
use tempfile::TempDir;

const DEVICE: DeviceId = DeviceId(0xa1);

fn second(second: i64) -> Timestamp {
    Timestamp::from_second(second).unwrap()
}

fn id(number: u32) -> PortionId {
    PortionId {
        device: DEVICE,
        epoch: Epoch(3),
        number,
    }
}

fn goal() -> Goal {
    Goal::new(
        Mass::from_grams(30),
        Tolerance::symmetric(Mass::from_grams(1)),
    )
    .unwrap()
}

fn captured(number: u32, run: RunId) -> CapturedPortion {
    CapturedPortion {
        id: id(number),
        run,
        at: Uptime::from_millis(1_000 * u64::from(number)),
        unix: Some(UnixMillis::from_millis(1_000 * i64::from(number))),
        mode: Mode::Adding,
        mass: Mass::from_milligrams(30_000 + i64::from(number)),
        goal: goal(),
        temperature: None,
        replaces: None,
        doubts: Doubts::NONE,
        uncertainty: None,
        left: None,
        chain_link: None,
    }
}

fn data(folder: &TempDir) -> DataFolder {
    DataFolder::choose(Some(folder.path())).unwrap()
}

struct Kitchen {
    folder: TempDir,
    store: Store,
    run: RunId,
}

fn kitchen(portions: u32) -> Kitchen {
    let folder = tempfile::tempdir().unwrap();
    let mut store = Store::open(&data(&folder)).unwrap();
    let dish = DishName::new("dish", "Samphire").unwrap();
    store
        .set_dish(&dish, goal(), Mode::Adding, None, second(1))
        .unwrap();
    let new = NewRun {
        dish,
        goal: goal(),
        mode: Mode::Adding,
        cook: None,
        tin: None,
    };
    let run = store.begin_run(&new, second(2)).unwrap().id;
    let mut kitchen = Kitchen { folder, store, run };
    for number in 1..=portions {
        kitchen.comes(number);
    }
    kitchen
}

impl Kitchen {
    fn comes(&mut self, number: u32) {
        let recorded = self
            .store
            .record(&captured(number, self.run), None, second(9_000));
        assert!(matches!(recorded, Ok(Recorded::New { .. })), "{recorded:?}");
    }
}

fn portions(store: &Store) -> usize {
    store.portions(&Query::default()).unwrap().len()
}

fn portions_in(folder: &TempDir) -> usize {
    portions(&Store::open(&data(folder)).unwrap())
}

#[cfg(unix)]
fn inode(path: &Path) -> u64 {
    use std::os::unix::fs::MetadataExt;
    fs::metadata(path).unwrap().ino()
}

/// What lies in a folder apart from the store and what SQLite keeps beside it.
fn strays(folder: &TempDir) -> Vec<String> {
    let store = "evenhand.sqlite3";
    let mut names: Vec<_> = fs::read_dir(folder.path())
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .filter(|name| name != store && !name.starts_with(&format!("{store}-")))
        .collect();
    names.sort();
    names
}

/// A copy of three portions, and a kitchen that holds five.
fn copy_and_kitchen() -> (TempDir, PathBuf, Kitchen) {
    let elsewhere = tempfile::tempdir().unwrap();
    let copy = elsewhere.path().join("copy.sqlite3");
    kitchen(3).store.backup(&copy).unwrap();
    (elsewhere, copy, kitchen(5))
}

#[test]
fn a_restore_is_refused_while_a_program_has_the_store() {
    let (_elsewhere, copy, mut kitchen) = copy_and_kitchen();
    let error = restore(&data(&kitchen.folder), &copy, second(10_000)).unwrap_err();
    assert!(matches!(error, StoreError::Busy { .. }), "{error}");
    // The running program goes on, into the file that is there.
    kitchen.comes(6);
    assert_eq!(strays(&kitchen.folder), [] as [&str; 0]);
    let Kitchen { folder, store, .. } = kitchen;
    drop(store);
    assert_eq!(portions_in(&folder), 6);
}

#[test]
fn a_restore_takes_the_place_in_one_step_and_names_what_was_there() {
    let (_elsewhere, copy, kitchen) = copy_and_kitchen();
    let Kitchen { folder, store, .. } = kitchen;
    drop(store);
    let restored = restore(&data(&folder), &copy, second(10_000)).unwrap();
    assert_eq!(restored.examination.portions, 3);
    assert_eq!(restored.examination.findings, []);
    assert_eq!(portions_in(&folder), 3);
    let aside = restored.set_aside.unwrap();
    assert_eq!(
        strays(&folder),
        [aside.file_name().unwrap().to_str().unwrap()]
    );
    // What was set aside is a whole store of its own, and goes back as one.
    let back = restore(&data(&folder), &aside, second(10_000)).unwrap();
    assert_eq!(back.examination.portions, 5);
    assert_eq!(portions_in(&folder), 5);
}

#[test]
fn a_damaged_copy_changes_nothing() {
    let (_elsewhere, copy, kitchen) = copy_and_kitchen();
    let Kitchen { folder, store, .. } = kitchen;
    drop(store);
    let mut bytes = fs::read(&copy).unwrap();
    let page = bytes.len() / 2 / 4096 * 4096;
    bytes[page..page + 4096].fill(0xa5);
    fs::write(&copy, &bytes).unwrap();
    let before = fs::read(data(&folder).file()).unwrap();
    let error = restore(&data(&folder), &copy, second(10_000)).unwrap_err();
    assert!(matches!(error, StoreError::Damaged { .. }), "{error}");
    assert_eq!(fs::read(data(&folder).file()).unwrap(), before);
    assert_eq!(strays(&folder), [] as [&str; 0]);
}

#[test]
fn a_damaged_store_is_set_aside_as_it_is() {
    let (_elsewhere, copy, kitchen) = copy_and_kitchen();
    let Kitchen { folder, store, .. } = kitchen;
    drop(store);
    let file = data(&folder).file();
    let spoilt = vec![0x5a; 20_000];
    fs::write(&file, &spoilt).unwrap();
    let witness = Store::open(&data(&folder)).unwrap_err();
    assert!(matches!(witness, StoreError::Damaged { .. }), "{witness}");
    let restored = restore(&data(&folder), &copy, second(10_000)).unwrap();
    assert_eq!(portions_in(&folder), 3);
    assert_eq!(fs::read(restored.set_aside.unwrap()).unwrap(), spoilt);
}

/// Does something as a user who may not read what is not theirs, also where
/// the tests run as one who may read anything.
#[cfg(target_os = "linux")]
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

#[cfg(target_os = "linux")]
#[test]
fn a_store_that_cannot_be_read_is_not_taken_for_a_damaged_one() {
    use std::os::unix::fs::PermissionsExt;
    let (elsewhere, copy, kitchen) = copy_and_kitchen();
    let Kitchen { folder, store, .. } = kitchen;
    drop(store);
    let file = data(&folder).file();
    let allow = |path: &Path, mode| {
        fs::set_permissions(path, fs::Permissions::from_mode(mode)).unwrap();
    };
    let before = inode(&file);
    allow(&file, 0o000);
    allow(folder.path(), 0o777);
    allow(elsewhere.path(), 0o777);
    allow(&copy, 0o666);
    let (witness, error) = as_nobody(|| {
        (
            fs::File::open(&file).unwrap_err(),
            restore(&data(&folder), &copy, second(10_000)).unwrap_err(),
        )
    });
    allow(&file, 0o600);
    assert_eq!(witness.kind(), std::io::ErrorKind::PermissionDenied);
    assert!(matches!(error, StoreError::ReadOnly { .. }), "{error}");
    assert_eq!(inode(&file), before);
    assert_eq!(portions_in(&folder), 5);
    assert_eq!(strays(&folder), [] as [&str; 0]);
}

#[cfg(unix)]
#[test]
fn nothing_is_called_recorded_in_a_file_that_lies_elsewhere_now() {
    let mut kitchen = kitchen(2);
    let file = data(&kitchen.folder).file();
    let moved = kitchen.folder.path().join("moved.sqlite3");
    let before = inode(&file);
    fs::rename(&file, &moved).unwrap();
    assert_eq!(inode(&moved), before);
    let run = kitchen.run;
    let error = kitchen
        .store
        .record(&captured(3, run), None, second(9_000))
        .unwrap_err();
    assert!(matches!(error, StoreError::Moved { .. }), "{error}");
    // Another in its place is no better.
    fs::write(&file, b"").unwrap();
    let error = kitchen
        .store
        .record(&captured(3, run), None, second(9_000))
        .unwrap_err();
    assert!(matches!(error, StoreError::Moved { .. }), "{error}");
    // Back in its place, it goes on.
    fs::rename(&moved, &file).unwrap();
    kitchen.comes(3);
    assert_eq!(portions(&kitchen.store), 3);
}

#[cfg(unix)]
#[test]
fn a_log_that_is_deleted_under_way_loses_nothing() {
    let mut kitchen = kitchen(4);
    let file = data(&kitchen.folder).file();
    let log = PathBuf::from(format!("{}-wal", file.display()));
    assert!(fs::metadata(&log).unwrap().len() > 0);
    fs::remove_file(&log).unwrap();
    let run = kitchen.run;
    let error = kitchen
        .store
        .record(&captured(5, run), None, second(9_000))
        .unwrap_err();
    assert!(matches!(error, StoreError::Moved { .. }), "{error}");
    // All that was acknowledged is in the one file.
    let copy = kitchen.folder.path().join("alone.sqlite3");
    fs::copy(&file, &copy).unwrap();
    let alone = rusqlite::Connection::open(&copy).unwrap();
    let n: i64 = alone
        .query_row("SELECT count(*) FROM portion", [], |row| row.get(0))
        .unwrap();
    assert_eq!(n, 4);
}

#[test]
fn after_a_checkpoint_the_one_file_holds_everything() {
    let kitchen = kitchen(22);
    let copied = |name: &str| {
        let copy = kitchen.folder.path().join(name);
        fs::copy(kitchen.store.path(), &copy).unwrap();
        let alone = rusqlite::Connection::open(&copy).unwrap();
        alone
            .query_row("SELECT count(*) FROM portion", [], |row| {
                row.get::<_, i64>(0)
            })
            .unwrap_or(0)
    };
    assert!(copied("before.sqlite3") < 22, "the log was no use here");
    assert!(kitchen.store.checkpoint().unwrap());
    assert_eq!(copied("after.sqlite3"), 22);
}

#[test]
fn a_missing_number_is_named_and_is_no_damage() {
    let mut kitchen = kitchen(3);
    for number in [6, 8] {
        kitchen.comes(number);
    }
    let found = kitchen.store.examine().unwrap();
    let missing = |first, last| Finding::Missing {
        device: DEVICE,
        epoch: Epoch(3),
        first,
        last,
    };
    assert_eq!(found.findings, [missing(4, 5), missing(7, 7)]);
    assert!(found.is_sound());
    assert_eq!(
        found.findings[0].to_string(),
        "portions 00000000000000a1-00000003-4 to 00000000000000a1-00000003-5 are not here: lost, \
         or recorded on another computer"
    );
}

#[test]
fn one_bit_that_turns_in_a_mass_is_found_by_name() {
    let Kitchen { folder, store, .. } = kitchen(5);
    assert_eq!(store.examine().unwrap().findings, []);
    drop(store);
    let file = data(&folder).file();
    let mut bytes = fs::read(&file).unwrap();
    // Portion 3's mass, 30 003 000 ug, as SQLite writes an integer.
    let mass = 30_003_000_u32.to_be_bytes();
    let at = bytes
        .windows(4)
        .position(|four| four == mass)
        .expect("the mass is in the file");
    bytes[at + 3] ^= 1;
    fs::write(&file, &bytes).unwrap();
    let store = Store::open(&data(&folder)).unwrap();
    let read = store.portion(id(3)).unwrap();
    assert_eq!(read.mass, Mass::from_micrograms(30_003_001));
    let found = store.examine().unwrap();
    assert_eq!(found.findings, [Finding::PortionChanged(id(3))]);
    assert!(store.check().is_err());
}

#[test]
fn a_sum_that_is_not_that_of_its_portions_is_found() {
    let kitchen = kitchen(5);
    let Kitchen {
        folder, mut store, ..
    } = kitchen;
    let of_all = |store: &mut Store| {
        let tallies = store.tallies(By::Dish, &TimeZone::UTC, None, None);
        tallies.unwrap().swap_remove(0).spread.all
    };
    let as_written = of_all(&mut store);
    assert_eq!(store.examine().unwrap().findings, []);
    let raw = rusqlite::Connection::open(data(&folder).file()).unwrap();
    let of_samphire = Finding::WrongSum {
        dish: Some(DishName::new("dish", "Samphire").unwrap()),
        // The portions were made within the first seconds of 1970.
        from: "1969-11-30T00:00:00.001Z".parse().unwrap(),
    };
    for column in [
        "n",
        "sum",
        "squares_high",
        "squares_low",
        "short",
        "on_target",
        "heavy",
        "lightest",
        "heaviest",
        "given_away",
    ] {
        for table in ["tally", "tally_of_tin"] {
            let changed = |by: i64| {
                raw.execute(
                    &format!("UPDATE {table} SET {column} = {column} + {by}"),
                    [],
                )
                .unwrap()
            };
            assert_eq!(changed(1), 1, "{table}.{column}");
            // The witness: what is asked of the record comes out otherwise.
            if table == "tally" {
                assert_ne!(of_all(&mut store), as_written, "{column}");
            }
            let found = store.examine().unwrap().findings;
            assert_eq!(
                found,
                std::slice::from_ref(&of_samphire),
                "{table}.{column}"
            );
            changed(-1);
        }
    }
    // A sum put to those in doubt, which its portions are not.
    for table in ["tally", "tally_of_tin"] {
        let doubt = |of: i64| raw.execute(&format!("UPDATE {table} SET doubt = {of}"), []);
        assert_eq!(doubt(4).unwrap(), 1, "{table}");
        let found = store.examine().unwrap().findings;
        assert_eq!(found, std::slice::from_ref(&of_samphire), "{table}");
        doubt(0).unwrap();
    }
    assert_eq!(store.examine().unwrap().findings, []);
}

#[test]
fn a_sum_without_portions_and_portions_without_a_sum_are_found() {
    let mut kitchen = kitchen(5);
    kitchen
        .store
        .tallies(By::Dish, &TimeZone::UTC, None, None)
        .unwrap();
    let raw = rusqlite::Connection::open(kitchen.store.path()).unwrap();
    let of = |from: &str| Finding::WrongSum {
        dish: Some(DishName::new("dish", "Samphire").unwrap()),
        from: from.parse().unwrap(),
    };
    // A block of 32 days later, in which nobody weighed anything.
    assert_eq!(
        raw.execute("UPDATE tally SET block = block + 1", [])
            .unwrap(),
        1
    );
    assert_eq!(
        kitchen.store.examine().unwrap().findings,
        [of("1969-11-30T00:00:00.001Z"), of("1970-02-02T00:00:00Z")]
    );
}

#[test]
fn what_no_scale_weighs_is_evidence_and_counts_nowhere() {
    let mut kitchen = kitchen(1);
    let hello = Hello {
        version: Version::CURRENT,
        device: DEVICE,
        epoch: Epoch(3),
        at: Uptime::from_millis(0),
        capabilities: Capabilities::PORTIONS,
        capacity: Mass::from_grams(3_000),
        interval: Mass::from_milligrams(100),
        outbox: 64,
        verification_interval: Some(Mass::from_grams(1)),
    };
    kitchen.store.meet(&hello, second(100)).unwrap();
    let run = kitchen.run;
    let of = |number| captured(number, run);
    let absurd = [
        (
            CapturedPortion {
                mass: Mass::from_grams(9_000_000_000_000),
                ..of(2)
            },
            RefusedPortion::BeyondCapacity,
        ),
        (
            CapturedPortion {
                mass: Mass::from_grams(-3_001),
                ..of(3)
            },
            RefusedPortion::BeyondCapacity,
        ),
        (
            CapturedPortion {
                uncertainty: Some(Mass::from_milligrams(-1)),
                ..of(4)
            },
            RefusedPortion::SenselessUncertainty,
        ),
        (
            CapturedPortion {
                temperature: Some(Temperature::from_millicelsius(2_000_000_000)),
                ..of(5)
            },
            RefusedPortion::SenselessTemperature,
        ),
    ];
    for (portion, why) in absurd {
        let came = kitchen.store.record(&portion, None, second(9_000)).unwrap();
        assert_eq!(came, Recorded::Refused(why));
    }
    assert_eq!(portions(&kitchen.store), 1);
    // Evidence, so not missing.
    kitchen.comes(6);
    assert_eq!(kitchen.store.examine().unwrap().findings, []);
    // A clock that was never set: the portion counts, at a time that can be.
    let now = "2026-05-08T18:00:00Z".parse().unwrap();
    let came = kitchen.store.record(&of(7), None, now).unwrap();
    let Recorded::New { portion, .. } = came else {
        panic!("{came:?}")
    };
    assert_eq!(portion.time, now);
}

#[cfg(unix)]
#[test]
fn only_this_user_reads_what_is_kept() {
    use std::os::unix::fs::PermissionsExt;
    let above = tempfile::tempdir().unwrap();
    let folder = DataFolder::choose(Some(&above.path().join("kept"))).unwrap();
    let store = Store::open(&folder).unwrap();
    let copy = above.path().join("copy.sqlite3");
    store.backup(&copy).unwrap();
    let mode = |path: &Path| fs::metadata(path).unwrap().permissions().mode() & 0o777;
    assert_eq!(mode(folder.path()), 0o700);
    let log = PathBuf::from(format!("{}-wal", folder.file().display()));
    for file in [folder.file(), log, copy] {
        assert_eq!(mode(&file), 0o600, "{}", file.display());
    }
}

#[test]
fn a_folder_without_a_store_stays_one() {
    let folder = tempfile::tempdir().unwrap();
    let mistyped = DataFolder::choose(Some(&folder.path().join("kitchne"))).unwrap();
    let error = Store::open_existing(&mistyped).unwrap_err();
    assert!(matches!(error, StoreError::NoStore { .. }), "{error}");
    assert!(!mistyped.path().exists());
}

#[cfg(unix)]
#[test]
fn the_store_is_known_by_any_name() {
    let Kitchen { folder, store, .. } = kitchen(1);
    let here = data(&folder);
    let elsewhere = tempfile::tempdir().unwrap();
    let name = |name: &str| elsewhere.path().join(name);
    std::os::unix::fs::symlink(here.file(), name("link.csv")).unwrap();
    fs::hard_link(here.file(), name("second-name.csv")).unwrap();
    std::os::unix::fs::symlink(folder.path(), name("folder")).unwrap();
    for path in [
        here.file(),
        name("link.csv"),
        name("second-name.csv"),
        name("folder").join("evenhand.sqlite3-wal"),
        // Not there at this moment.
        folder.path().join("evenhand.sqlite3-journal"),
    ] {
        assert!(here.is_part_of_store(&path), "{}", path.display());
        assert!(store.backup(&path).is_err(), "{}", path.display());
    }
    assert!(!here.is_part_of_store(&folder.path().join("table.csv")));
    assert_eq!(portions(&store), 1);
}
