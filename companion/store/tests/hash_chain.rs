//! The hash chain of portions: what was changed, left out or put in is named,
//! and what an instrument itself lost is told apart from it. Each test shows
//! that the fault happened: the row's own checksum is right again, or wrong.

use evenhand_kitchen::dish::DishName;
use evenhand_protocol::report::{Capabilities, Doubts};
use evenhand_protocol::{
    CapturedPortion, ChainLink, DeviceId, Epoch, Goal, Hello, Mass, Mode, PortionId, RunId,
    Temperature, Tolerance, UnixMillis, Uptime, Version,
};
use evenhand_store::{Chain, DataFolder, Finding, NewRun, Recorded, Store, StoreError, restore};
use jiff::Timestamp;
use proptest::prelude::*;
use rusqlite::Connection;
use rusqlite::types::Value;
use sha2::{Digest, Sha256};
use tempfile::TempDir;

const DEVICE: DeviceId = DeviceId(0xFFFF_0000_0000_00A1);

fn second(second: i64) -> Timestamp {
    Timestamp::from_second(second).unwrap()
}

fn id(epoch: u32, number: u32) -> PortionId {
    PortionId {
        device: DEVICE,
        epoch: Epoch(epoch),
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

/// An instrument that makes a chain.
struct Instrument {
    run: RunId,
    epoch: u32,
    number: u32,
    link: ChainLink,
}

impl Instrument {
    fn new(run: RunId) -> Self {
        Self {
            run,
            epoch: 3,
            number: 0,
            link: ChainLink::FIRST,
        }
    }

    fn makes(&mut self) -> CapturedPortion {
        self.number += 1;
        let made = CapturedPortion {
            id: id(self.epoch, self.number),
            run: self.run,
            at: Uptime::from_millis(1_000 * u64::from(self.number)),
            unix: Some(UnixMillis::from_millis(1_000 * i64::from(self.number))),
            mode: Mode::Taking,
            mass: Mass::from_milligrams(30_000 + i64::from(self.number)),
            goal: goal(),
            temperature: Some(Temperature::from_millicelsius(3_000)),
            replaces: None,
            doubts: Doubts::NONE,
            uncertainty: Some(Mass::from_milligrams(200)),
            left: Some(Mass::from_grams(900)),
            chain_link: Some(self.link),
        };
        self.link = made.next_link().unwrap();
        made
    }

    fn make(&mut self, many: u32) -> Vec<CapturedPortion> {
        (0..many).map(|_| self.makes()).collect()
    }

    fn restarts(&mut self) {
        self.epoch += 1;
        self.number = 0;
    }
}

struct Kitchen {
    folder: TempDir,
    store: Store,
    scale: Instrument,
}

fn data(folder: &TempDir) -> DataFolder {
    DataFolder::choose(Some(folder.path())).unwrap()
}

fn kitchen() -> Kitchen {
    let folder = tempfile::tempdir().unwrap();
    let mut store = Store::open(&data(&folder)).unwrap();
    let dish = DishName::new("dish", "Samphire").unwrap();
    store
        .set_dish(&dish, goal(), Mode::Taking, None, second(1))
        .unwrap();
    let new = NewRun {
        dish,
        goal: goal(),
        mode: Mode::Taking,
        cook: None,
        tin: None,
    };
    let run = store.begin_run(&new, second(2)).unwrap().id;
    Kitchen {
        folder,
        store,
        scale: Instrument::new(run),
    }
}

impl Kitchen {
    fn records(&mut self, portions: &[CapturedPortion]) {
        for portion in portions {
            let recorded = self.store.record(portion, None, second(9_000));
            assert!(matches!(recorded, Ok(Recorded::New { .. })), "{recorded:?}");
        }
    }

    fn findings(&self) -> Vec<Finding> {
        self.store.examine().unwrap().findings
    }

    /// By a hand that has the file.
    fn by_hand(&self, sql: &str) {
        let raw = Connection::open(self.store.path()).unwrap();
        raw.execute_batch(
            "DROP TRIGGER IF EXISTS portion_is_not_rewritten;
             DROP TRIGGER IF EXISTS portion_is_kept;",
        )
        .unwrap();
        raw.execute_batch(sql).unwrap();
    }

    /// Undoes layout 20.
    fn without_what_gathering_needs(&self) {
        let raw = Connection::open(self.store.path()).unwrap();
        let names = |select: &str| -> Vec<String> {
            raw.prepare(select)
                .unwrap()
                .query_map([], |row| row.get(0))
                .unwrap()
                .map(Result::unwrap)
                .collect()
        };
        for trigger in names(
            "SELECT name FROM sqlite_schema WHERE type = 'trigger'
             AND (sql LIKE '%INTO change%' OR sql LIKE '%INTO lifting%'
                  OR name = 'heat_told_is_not_rewritten')",
        ) {
            raw.execute_batch(&format!("DROP TRIGGER {trigger}"))
                .unwrap();
        }
        for table in names(
            "SELECT m.name FROM sqlite_schema m, pragma_table_info(m.name) c
             WHERE m.type = 'table' AND c.name = 'stamp' AND m.name NOT IN
                 ('overruled', 'plain_file', 'lifting', 'setting')",
        ) {
            raw.execute_batch(&format!(
                "DROP INDEX {table}_stamp; {}ALTER TABLE {table} DROP COLUMN stamp;",
                match table.as_str() {
                    "heat_told" => "DROP INDEX heat_told_in_order;",
                    _ => "",
                }
            ))
            .unwrap();
        }
        raw.execute_batch(
            "DROP INDEX dish_born;
             ALTER TABLE batch_line DROP COLUMN about;
             ALTER TABLE setting DROP COLUMN since;
             ALTER TABLE setting DROP COLUMN stamp;
             ALTER TABLE service DROP COLUMN first_stamp;
             ALTER TABLE service DROP COLUMN last_stamp;
             ALTER TABLE vessel DROP COLUMN retired_stamp;
             ALTER TABLE dish DROP COLUMN retired_stamp;
             ALTER TABLE dish DROP COLUMN born;
             ALTER TABLE dish DROP COLUMN said_name;
             ALTER TABLE dish DROP COLUMN name_stamp;
             ALTER TABLE run DROP COLUMN goal_stamp;
             DROP TABLE desk; DROP TABLE change; DROP TABLE gathered_portion; DROP TABLE journal;
             DROP TABLE waiting; DROP TABLE overruled; DROP TABLE gathering; DROP TABLE lifting;
             DROP TABLE plain_file;
             CREATE TRIGGER heat_told_is_not_rewritten BEFORE UPDATE OF level ON heat_told
             BEGIN SELECT RAISE(ABORT, 'what was told is never rewritten'); END;",
        )
        .unwrap();
    }

    /// Makes the checksum of every row right, reckoned here by what `checksum.rs` says of it.
    fn checksums_made_right(&self) {
        let raw = Connection::open(self.store.path()).unwrap();
        let rows: Vec<(i64, Vec<Value>)> = raw
            .prepare(
                "SELECT seq, start, number, run, mode, mass, target, below, above, uptime, time,
                     time_source, temperature, doubts, uncertainty, left_on_pan, corrects,
                     recorded, chain_position, chain_previous FROM portion",
            )
            .unwrap()
            .query_map([], |row| {
                Ok((
                    row.get(0)?,
                    (1..20).map(|at| row.get(at)).collect::<Result<_, _>>()?,
                ))
            })
            .unwrap()
            .map(Result::unwrap)
            .collect();
        for (seq, mut columns) in rows {
            if columns[17] == Value::Null {
                columns.truncate(17);
            }
            let mut hash = Sha256::new();
            hash.update(b"portion");
            for column in columns {
                match column {
                    Value::Null => hash.update([0]),
                    Value::Integer(number) => {
                        hash.update([1]);
                        hash.update(number.to_be_bytes());
                    }
                    other => panic!("{other:?}"),
                }
            }
            let whole = hash.finalize();
            let sum = i64::from_be_bytes(whole[..8].try_into().unwrap());
            raw.execute(
                "UPDATE portion SET checksum = ?1 WHERE seq = ?2",
                [sum, seq],
            )
            .unwrap();
        }
    }
}

fn not_as_made(epoch: u32, number: u32) -> Finding {
    Finding::NotAsMade {
        portion: id(epoch, number),
        said_by: id(epoch, number + 1),
    }
}

#[test]
fn what_an_instrument_made_is_sound_over_its_starts() {
    let mut kitchen = kitchen();
    for _ in 0..3 {
        let made = kitchen.scale.make(4);
        kitchen.records(&made);
        kitchen.scale.restarts();
    }
    let found = kitchen.store.examine().unwrap();
    assert_eq!(found.findings, []);
    assert_eq!(found.portions, 12);
    let chain = Chain {
        device: DEVICE,
        linked: 12,
        unlinked: 0,
    };
    assert_eq!(found.chains, [chain]);
}

/// Only the chain can find it: the row's checksum was made right again.
#[test]
fn one_field_changed_with_its_checksum_is_found_by_name() {
    for change in [
        "mode = 0",
        "mass = mass + 1",
        "target = target + 1",
        "below = below - 1",
        "above = above + 1",
        "uptime = uptime + 1",
        "temperature = temperature - 1000",
        "temperature = NULL",
        "doubts = 1",
        "uncertainty = uncertainty - 1",
        "left_on_pan = NULL",
        "corrects = 1",
    ] {
        let mut kitchen = kitchen();
        let made = kitchen.scale.make(5);
        kitchen.records(&made);
        kitchen.by_hand(&format!("UPDATE portion SET {change} WHERE number = 3"));
        // The witness that it was changed.
        assert_eq!(
            kitchen.findings(),
            [Finding::PortionChanged(id(3, 3))],
            "{change}"
        );
        kitchen.checksums_made_right();
        let found = kitchen.store.examine().unwrap();
        assert_eq!(found.findings, [not_as_made(3, 3)], "{change}");
        assert!(!found.is_sound());
        assert!(matches!(
            kitchen.store.check(),
            Err(StoreError::Damaged { .. })
        ));
    }
}

#[test]
fn a_backup_and_what_is_restored_from_it_say_what_was_changed() {
    let mut kitchen = kitchen();
    let made = kitchen.scale.make(5);
    kitchen.records(&made);
    kitchen.by_hand("UPDATE portion SET mass = mass + 500000 WHERE number = 2");
    kitchen.checksums_made_right();
    let copy = kitchen.folder.path().join("copy.sqlite3");
    let backed_up = kitchen.store.backup(&copy).unwrap();
    assert_eq!(backed_up.findings, [not_as_made(3, 2)]);
    let elsewhere = tempfile::tempdir().unwrap();
    let restored = restore(&data(&elsewhere), &copy, second(10_000)).unwrap();
    assert_eq!(restored.examination.findings, [not_as_made(3, 2)]);
}

#[test]
fn a_run_that_was_given_another_number_is_found() {
    let mut kitchen = kitchen();
    let made = kitchen.scale.make(3);
    kitchen.records(&made);
    kitchen.by_hand("UPDATE run SET id = id + 1");
    assert_eq!(kitchen.findings(), [not_as_made(3, 1), not_as_made(3, 2)]);
}

#[test]
fn a_link_that_was_changed_contradicts_both_neighbours() {
    let mut kitchen = kitchen();
    let made = kitchen.scale.make(5);
    kitchen.records(&made);
    kitchen.by_hand("UPDATE portion SET chain_previous = chain_previous + 1 WHERE number = 3");
    assert_eq!(kitchen.findings(), [Finding::PortionChanged(id(3, 3))]);
    kitchen.checksums_made_right();
    assert_eq!(kitchen.findings(), [not_as_made(3, 2), not_as_made(3, 3)]);
    // And one that was taken away.
    kitchen.by_hand(
        "UPDATE portion SET chain_previous = NULL, chain_position = NULL WHERE number = 3",
    );
    kitchen.checksums_made_right();
    assert_eq!(kitchen.findings(), [Finding::Unlinked(id(3, 3))]);
}

#[test]
fn a_row_that_was_taken_away_is_named() {
    let mut kitchen = kitchen();
    let made = kitchen.scale.make(4);
    kitchen.records(&made);
    kitchen.scale.restarts();
    let made = kitchen.scale.make(3);
    kitchen.records(&made);
    kitchen.by_hand("DELETE FROM portion WHERE number = 2 AND start = 1");
    let missing = Finding::Missing {
        device: DEVICE,
        epoch: Epoch(3),
        first: 2,
        last: 2,
    };
    assert_eq!(kitchen.findings(), std::slice::from_ref(&missing));
    // The last of a start leaves no gap in the numbers.
    kitchen.by_hand("DELETE FROM portion WHERE number = 4 AND start = 1");
    let before = Finding::MissingBefore {
        before: id(4, 1),
        many: 1,
    };
    assert_eq!(kitchen.findings(), [before.clone(), missing]);
    assert_eq!(
        before.to_string(),
        "1 portion made before portion ffff0000000000a1-00000004-1 is not here: lost, or recorded \
         on another computer or by an older program"
    );
    // And with its numbers closed up again it is found all the same.
    kitchen.by_hand("UPDATE portion SET number = number - 1 WHERE start = 1 AND number > 2");
    kitchen.checksums_made_right();
    let found = kitchen.findings();
    assert!(found.contains(&not_as_made(3, 1)), "{found:?}");
}

#[test]
fn two_rows_that_changed_places_are_found() {
    let mut kitchen = kitchen();
    let made = kitchen.scale.make(6);
    kitchen.records(&made);
    kitchen.by_hand(
        "UPDATE portion SET number = 100 WHERE number = 3;
         UPDATE portion SET number = 3 WHERE number = 4;
         UPDATE portion SET number = 4 WHERE number = 100;",
    );
    kitchen.checksums_made_right();
    let found = kitchen.store.examine().unwrap();
    assert!(!found.is_sound());
    assert_eq!(
        found.findings,
        [
            not_as_made(3, 2),
            Finding::Misplaced(id(3, 4)),
            not_as_made(3, 4)
        ]
    );
}

#[test]
fn two_masses_that_changed_places_are_found() {
    let mut kitchen = kitchen();
    let made = kitchen.scale.make(6);
    kitchen.records(&made);
    kitchen.by_hand(
        "UPDATE portion SET mass = 30004000 WHERE number = 2;
         UPDATE portion SET mass = 30002000 WHERE number = 4;",
    );
    kitchen.checksums_made_right();
    assert_eq!(kitchen.findings(), [not_as_made(3, 2), not_as_made(3, 4)]);
}

#[test]
fn what_the_instrument_had_no_place_for_is_no_edit() {
    let mut kitchen = kitchen();
    let mut made = kitchen.scale.make(2);
    kitchen.scale.link = kitchen.scale.link.after_one_lost().after_one_lost();
    made.extend(kitchen.scale.make(2));
    kitchen.records(&made);
    let found = kitchen.store.examine().unwrap();
    let given_up = Finding::GivenUp {
        before: id(3, 3),
        many: 2,
    };
    assert_eq!(found.findings, [given_up]);
    assert!(found.is_sound());
    // With one of them changed as well it is an edit.
    kitchen.by_hand("UPDATE portion SET mass = mass + 1 WHERE number = 2");
    kitchen.checksums_made_right();
    assert_eq!(kitchen.findings(), [not_as_made(3, 2)]);
}

#[test]
fn a_memory_that_was_lost_or_refused_is_no_edit() {
    let mut kitchen = kitchen();
    let made = kitchen.scale.make(3);
    kitchen.records(&made);
    // Flash that could not be written: the start after it knows nothing of portions 2 and 3.
    kitchen.scale.restarts();
    kitchen.scale.link = made[0].next_link().unwrap();
    let again = kitchen.scale.make(2);
    kitchen.records(&again);
    let forked = Finding::Forked {
        after: id(3, 1),
        one: id(3, 2),
        other: id(4, 1),
    };
    assert_eq!(kitchen.findings(), std::slice::from_ref(&forked));
    // Flash that was wiped.
    kitchen.scale.restarts();
    kitchen.scale.link = ChainLink::FIRST;
    let anew = kitchen.scale.make(2);
    kitchen.records(&anew);
    let found = kitchen.store.examine().unwrap();
    assert_eq!(
        found.findings,
        [
            Finding::BegunAgain {
                with: id(5, 1),
                times: 1,
            },
            forked
        ]
    );
    assert!(found.is_sound());
}

#[test]
fn an_instrument_without_a_memory_begins_a_chain_with_each_start() {
    let mut kitchen = kitchen();
    let hello = Hello {
        version: Version::CURRENT,
        device: DEVICE,
        epoch: Epoch(3),
        at: Uptime::from_millis(0),
        capabilities: Capabilities::PORTIONS.union(Capabilities::HASH_CHAIN),
        capacity: Mass::from_grams(3_000),
        interval: Mass::from_milligrams(100),
        outbox: 64,
        verification_interval: Some(Mass::from_grams(1)),
    };
    kitchen.store.meet(&hello, second(100)).unwrap();
    for _ in 0..3 {
        let made = kitchen.scale.make(2);
        kitchen.records(&made);
        kitchen.scale.restarts();
        kitchen.scale.link = ChainLink::FIRST;
    }
    assert_eq!(kitchen.findings(), []);
}

#[test]
fn what_was_refused_is_part_of_the_chain() {
    let mut kitchen = kitchen();
    let mut made = kitchen.scale.make(2);
    let absurd = CapturedPortion {
        mass: Mass::from_grams(9_000_000_000),
        ..kitchen.scale.makes()
    };
    kitchen.scale.link = absurd.next_link().unwrap();
    let refused = kitchen.store.record(&absurd, None, second(9_000)).unwrap();
    assert!(matches!(refused, Recorded::Refused(_)));
    made.extend(kitchen.scale.make(2));
    kitchen.records(&made);
    assert_eq!(kitchen.findings(), []);
    // It bears witness to the one before it.
    kitchen.by_hand("UPDATE portion SET mass = mass + 1 WHERE number = 2");
    kitchen.checksums_made_right();
    assert_eq!(kitchen.findings(), [not_as_made(3, 2)]);
}

#[test]
fn an_old_instrument_makes_no_chain() {
    let mut kitchen = kitchen();
    let made: Vec<_> = kitchen
        .scale
        .make(3)
        .into_iter()
        .map(|portion| CapturedPortion {
            chain_link: None,
            ..portion
        })
        .collect();
    kitchen.records(&made);
    let found = kitchen.store.examine().unwrap();
    assert_eq!(found.findings, []);
    let chain = Chain {
        device: DEVICE,
        linked: 0,
        unlinked: 3,
    };
    assert_eq!(found.chains, [chain]);
    // The witness that nothing tells there what was changed with its checksum.
    kitchen.by_hand("UPDATE portion SET mass = mass + 1 WHERE number = 2");
    kitchen.checksums_made_right();
    assert_eq!(kitchen.findings(), []);
}

/// What an older program recorded stands in no chain, also where it overtook what came late.
#[test]
fn a_store_of_an_older_layout_goes_on_with_a_chain() {
    let mut kitchen = kitchen();
    let made = kitchen.scale.make(6);
    kitchen.records(&[made[0], made[1], made[3]]);
    kitchen.by_hand("UPDATE portion SET chain_position = NULL, chain_previous = NULL;");
    kitchen.checksums_made_right();
    kitchen.without_what_gathering_needs();
    kitchen.by_hand(
        "DROP INDEX heat_told_of_kind;
         ALTER TABLE heat_told DROP COLUMN of_limit;
         DROP TABLE goods_taken_back;
         DROP TABLE goods_event;
         DROP TABLE goods_list;
         DROP TABLE picture_off;
         DROP TABLE picture;
         DROP TABLE gone_out;
         ALTER TABLE portion DROP COLUMN chain_position;
         ALTER TABLE portion DROP COLUMN chain_previous;
         CREATE TRIGGER portion_is_kept BEFORE DELETE ON portion
         BEGIN SELECT RAISE(ABORT, 'a portion on record is never deleted'); END;
         CREATE TRIGGER portion_is_not_rewritten BEFORE UPDATE OF mass ON portion
         BEGIN SELECT RAISE(ABORT, 'a portion on record is never rewritten'); END;
         PRAGMA user_version = 12;",
    );
    let Kitchen { folder, store, .. } = kitchen;
    drop(store);
    let store = Store::open(&data(&folder)).unwrap();
    assert!(folder.path().join("evenhand.layout-12.sqlite3").exists());
    let mut kitchen = Kitchen {
        folder,
        store,
        scale: Instrument::new(RunId(0)),
    };
    let found = kitchen.store.examine().unwrap();
    assert_eq!(found.chains[0].unlinked, 3);
    assert_eq!(found.chains[0].linked, 0);
    kitchen.records(&[made[2], made[4], made[5]]);
    let found = kitchen.store.examine().unwrap();
    assert_eq!(found.findings, []);
    assert_eq!((found.chains[0].linked, found.chains[0].unlinked), (3, 3));
    kitchen.by_hand("UPDATE portion SET mass = mass + 1 WHERE number = 5");
    kitchen.checksums_made_right();
    assert_eq!(kitchen.findings(), [not_as_made(3, 5)]);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    /// In whatever order portions of several starts arrive, and however often: sound while one is
    /// on its way, and one that is changed is named.
    #[test]
    fn any_order_of_arrival_is_one_chain(
        lengths in proptest::collection::vec(0_u32..6, 1..5),
        order in proptest::collection::vec(any::<prop::sample::Index>(), 0..60),
        changed in any::<prop::sample::Index>(),
    ) {
        let mut kitchen = kitchen();
        let mut made = Vec::new();
        for length in lengths {
            made.extend(kitchen.scale.make(length));
            kitchen.scale.restarts();
        }
        if made.is_empty() {
            return Ok(());
        }
        for one in order {
            kitchen.store.record(one.get(&made), None, second(9_000)).unwrap();
        }
        // Some are on their way: nothing is wrong with those that are here.
        prop_assert!(kitchen.store.examine().unwrap().is_sound());
        for one in &made {
            kitchen.store.record(one, None, second(9_000)).unwrap();
        }
        prop_assert_eq!(kitchen.findings(), []);
        let last = made.len() - 1;
        if last > 0 {
            let at = changed.index(last);
            let portion = made[at].id;
            kitchen.by_hand(&format!(
                "UPDATE portion SET mass = mass + 1 WHERE number = {} AND start =
                     (SELECT id FROM start WHERE epoch = {})",
                portion.number, portion.epoch.0
            ));
            kitchen.checksums_made_right();
            let said_by = made[at + 1].id;
            prop_assert_eq!(kitchen.findings(), [Finding::NotAsMade { portion, said_by }]);
        }
    }
}
