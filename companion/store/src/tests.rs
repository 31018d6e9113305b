//! What needs a hand inside the store to bring about.

use super::{DataFolder, NewRun, Query, Recorded, Store, StoreError};
use evenhand_kitchen::dish::DishName;
use evenhand_protocol::report::Doubts;
use evenhand_protocol::{
    CapturedPortion, DeviceId, Epoch, Goal, Mass, Mode, PortionId, RunId, Tolerance, UnixMillis,
    Uptime,
};
use jiff::Timestamp;

fn goal() -> Goal {
    Goal::new(
        Mass::from_grams(30),
        Tolerance::symmetric(Mass::from_grams(1)),
    )
    .unwrap()
}

fn captured(number: u32, run: RunId) -> CapturedPortion {
    CapturedPortion {
        id: PortionId {
            device: DeviceId(u64::MAX),
            epoch: Epoch(1),
            number,
        },
        run,
        at: Uptime::from_millis(u64::from(number)),
        unix: Some(UnixMillis::from_millis(1_000 * i64::from(number))),
        mode: Mode::Adding,
        mass: Mass::from_grams(30),
        goal: goal(),
        temperature: None,
        replaces: None,
        doubts: Doubts::NONE,
        uncertainty: None,
        left: None,
        chain_link: None,
    }
}

fn store_with_run(folder: &std::path::Path) -> (Store, RunId) {
    let mut store = Store::open(&DataFolder::choose(Some(folder)).unwrap()).unwrap();
    let dish = DishName::new("dish", "dough").unwrap();
    store
        .set_dish(&dish, goal(), Mode::Adding, None, Timestamp::UNIX_EPOCH)
        .unwrap();
    let new = NewRun {
        dish,
        goal: goal(),
        mode: Mode::Adding,
        cook: None,
        tin: None,
    };
    let run = store.begin_run(&new, Timestamp::UNIX_EPOCH).unwrap();
    (store, run.id)
}

#[test]
fn a_full_disk_refuses_what_is_new_and_keeps_what_is_there() {
    let folder = tempfile::tempdir().unwrap();
    let (mut store, run) = store_with_run(folder.path());
    let pages: i64 = store
        .connection
        .pragma_query_value(None, "page_count", |row| row.get(0))
        .unwrap();
    store
        .connection
        .pragma_update(None, "max_page_count", pages + 1)
        .unwrap();

    let mut recorded = 0;
    let error = loop {
        match store.record(&captured(recorded + 1, run), None, Timestamp::UNIX_EPOCH) {
            Ok(outcome) => assert!(matches!(outcome, Recorded::New { .. })),
            Err(error) => break error,
        }
        recorded += 1;
        assert!(recorded < 100_000, "the disk never became full");
    };
    assert!(recorded > 0);
    assert!(matches!(error, StoreError::Full { .. }), "{error}");
    assert!(error.to_string().contains("the disk is full"), "{error}");
    let kept = store.portions(&Query::default()).unwrap();
    assert_eq!(kept.len(), recorded as usize);

    // Room again: the same portion, sent again, is recorded now.
    store
        .connection
        .pragma_update(None, "max_page_count", pages + 1_000)
        .unwrap();
    let again = store.record(&captured(recorded + 1, run), None, Timestamp::UNIX_EPOCH);
    assert!(matches!(again, Ok(Recorded::New { .. })));
}

#[test]
fn what_is_on_record_cannot_be_rewritten_or_deleted() {
    let folder = tempfile::tempdir().unwrap();
    let (mut store, run) = store_with_run(folder.path());
    store
        .record(&captured(1, run), None, Timestamp::UNIX_EPOCH)
        .unwrap();
    store.undo_last(None, Timestamp::UNIX_EPOCH).unwrap();
    for statement in [
        "DELETE FROM portion",
        "UPDATE portion SET mass = 0",
        "UPDATE portion SET time = 0",
        "DELETE FROM strike",
    ] {
        assert!(
            store.connection.execute(statement, []).is_err(),
            "{statement}"
        );
    }
}

#[test]
fn every_portion_is_on_the_disk_when_it_is_recorded() {
    let folder = tempfile::tempdir().unwrap();
    let (store, _) = store_with_run(folder.path());
    let pragma = |name: &str| -> String {
        store
            .connection
            .pragma_query_value(None, name, |row| row.get::<_, rusqlite::types::Value>(0))
            .map(|value| format!("{value:?}"))
            .unwrap()
    };
    assert_eq!(pragma("journal_mode"), "Text(\"wal\")");
    // 2 is FULL: the log is synced after each transaction.
    assert_eq!(pragma("synchronous"), "Integer(2)");
    assert_eq!(pragma("foreign_keys"), "Integer(1)");
}

/// A past day goes by the menu as it stood then; what was kept later does not change it.
#[test]
fn a_past_days_menu_is_that_of_then() {
    let folder = tempfile::tempdir().unwrap();
    let mut store = Store::open(&DataFolder::choose(Some(folder.path())).unwrap()).unwrap();
    let at = |day: i8| -> Timestamp { format!("2026-05-{day:02}T12:00:00Z").parse().unwrap() };
    let friday = jiff::civil::date(2026, 5, 8);
    store.keep_menu(None, "old", at(1)).unwrap();
    store.keep_menu(None, "new", at(9)).unwrap();
    let menu_at = |store: &Store, day| store.menu_at(friday, at(day)).unwrap();
    assert_eq!(menu_at(&store, 8).as_deref(), Some("old"));
    assert_eq!(menu_at(&store, 9).as_deref(), Some("new"));
    assert_eq!(store.menu(friday).unwrap().as_deref(), Some("new"));
    // Before any was kept, the first one there is.
    let early = store.menu_at(
        jiff::civil::date(2026, 4, 1),
        "2026-04-01T12:00:00Z".parse().unwrap(),
    );
    assert_eq!(early.unwrap().as_deref(), Some("old"));
    // The day's own goes before the one for every day.
    store.keep_menu(Some(friday), "own", at(7)).unwrap();
    assert_eq!(menu_at(&store, 8).as_deref(), Some("own"));
}

/// Menus for every day follow each other by their dates, in whatever order they were kept.
#[test]
fn the_menu_of_a_day_is_the_one_whose_dates_it_lies_in() {
    let folder = tempfile::tempdir().unwrap();
    let mut store = Store::open(&DataFolder::choose(Some(folder.path())).unwrap()).unwrap();
    let at = |day: i8| -> Timestamp { format!("2026-05-{day:02}T12:00:00Z").parse().unwrap() };
    let menu = |dates: &str, opens: &str| format!("{dates}\nopens = '{opens}'\npreparation = []\n");
    let on = |store: &Store, month: i8, day: i8| {
        let menu = store.menu(jiff::civil::date(2026, month, day)).unwrap();
        menu.map(|menu| menu.split('\'').rev().nth(1).unwrap().to_owned())
    };
    let mut keep = |dates: &str, opens: &str, now: i8| {
        store.keep_menu(None, &menu(dates, opens), at(now)).unwrap();
    };
    keep("until = '2026-06-30'", "18:00", 1);
    keep("from = '2026-07-01'", "19:00", 2);
    // The one of spring is put right after that of summer was kept.
    keep("until = '2026-06-30'", "18:15", 3);
    // A week of its own within the summer.
    keep("from = '2026-08-01'\nuntil = '2026-08-07'", "20:00", 4);
    for (month, day, opens) in [
        (6, 30, "18:15"),
        (7, 1, "19:00"),
        (7, 31, "19:00"),
        (8, 1, "20:00"),
        (8, 7, "20:00"),
        (8, 8, "19:00"),
    ] {
        assert_eq!(
            on(&store, month, day).as_deref(),
            Some(opens),
            "{month} {day}"
        );
    }
    // The summer's written anew, to an end: what it was before does not come back after it.
    let summer = menu("from = '2026-07-01'\nuntil = '2026-09-01'", "19:30");
    store.keep_menu(None, &summer, at(5)).unwrap();
    assert_eq!(on(&store, 9, 1).as_deref(), Some("19:30"));
    let after = store.menu(jiff::civil::date(2026, 9, 2)).unwrap().unwrap();
    assert_eq!(after, summer, "none covers it: the one that was kept last");
    // As it was told then.
    let then = store
        .menu_at(jiff::civil::date(2026, 7, 20), at(4))
        .unwrap();
    assert!(then.unwrap().contains("19:00"));
    let early = store.menu_at(
        jiff::civil::date(2026, 7, 20),
        "2026-04-01T12:00:00Z".parse().unwrap(),
    );
    assert!(
        early.unwrap().unwrap().contains("19:00"),
        "the first kept that covers it"
    );
    let day = jiff::civil::date(2026, 7, 14);
    store
        .keep_menu(Some(day), &menu("", "12:00"), at(6))
        .unwrap();
    assert_eq!(on(&store, 7, 14).as_deref(), Some("12:00"));
    let opens: Vec<(bool, String)> = store
        .menus()
        .unwrap()
        .into_iter()
        .map(|(day, menu)| {
            (
                day.is_some(),
                menu.split('\'').rev().nth(1).unwrap().to_owned(),
            )
        })
        .collect();
    let plain = |of_a_day: bool, opens: &str| (of_a_day, opens.to_owned());
    assert_eq!(
        opens,
        [
            plain(false, "18:15"),
            plain(false, "19:30"),
            plain(false, "20:00"),
            plain(true, "12:00"),
        ]
    );
}
