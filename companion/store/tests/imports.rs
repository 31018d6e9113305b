//! A great many weighings at once: everything that is kept up with a portion
//! is there afterwards as if they had come one by one.

use evenhand_kitchen::cook::Cook;
use evenhand_kitchen::dish::DishName;
use evenhand_kitchen::portion::TimeSource;
use evenhand_kitchen::service::{DayBegins, ServiceCalendar};
use evenhand_kitchen::weighings_file::Weighing;
use evenhand_protocol::{Goal, Mass, Mode, Tolerance};
use evenhand_store::{By, DataFolder, Group, Imported, Query, Store, StoreError};
use jiff::Timestamp;
use jiff::tz::TimeZone;
use std::collections::BTreeMap;

/// Eight dishes and five cooks interleaved, 700 portions a day.
fn mixed_line(count: i64) -> Vec<Weighing> {
    line_of(count, 700)
}

/// The same with so many a day, over five hours.
fn line_of(count: i64, a_day: i64) -> Vec<Weighing> {
    let goal = Goal::new(
        Mass::from_grams(30),
        Tolerance::symmetric(Mass::from_grams(1)),
    )
    .unwrap();
    (0..count)
        .map(|n| Weighing {
            dish: DishName::new("dish", &format!("Dish {}", n % 8)).unwrap(),
            cook: Some(
                Cook::new("cook", ["AB", "CD", "EF", "GH", "IJ"][(n % 5) as usize]).unwrap(),
            ),
            mass: Mass::from_milligrams(29_000 + n * 37 % 2_000),
            goal,
            mode: Mode::Adding,
            time: Timestamp::from_second(
                1_750_000_000 + n / a_day * 86_400 + n % a_day * (17_500 / a_day),
            )
            .unwrap(),
        })
        .collect()
}

fn bring_in(store: &mut Store, weighings: &[Weighing]) -> Imported {
    let calendar = ServiceCalendar::new(TimeZone::UTC, DayBegins::default());
    let now = "2026-05-08T12:00:00Z".parse().unwrap();
    store
        .import(
            weighings.iter().cloned().map(Ok::<_, StoreError>),
            weighings.len() as u64,
            &calendar,
            now,
        )
        .unwrap()
}

fn tallied(store: &mut Store) -> (usize, i64) {
    let tallies = store.tallies(By::Dish, &TimeZone::UTC, None, None).unwrap();
    tallies.iter().fold((0, 0), |(n, total), tally| {
        (
            n + tally.spread.all.n(),
            total + tally.spread.all.total().micrograms(),
        )
    })
}

fn schema(store: &Store) -> Vec<String> {
    let raw = rusqlite::Connection::open(store.path()).unwrap();
    let mut select = raw
        .prepare("SELECT coalesce(sql, name) FROM sqlite_schema ORDER BY name")
        .unwrap();
    select
        .query_map([], |row| row.get(0))
        .unwrap()
        .collect::<Result<_, _>>()
        .unwrap()
}

#[test]
fn many_at_once_are_kept_up_like_one_by_one() {
    let folder = tempfile::tempdir().unwrap();
    let mut store = Store::open(&DataFolder::choose(Some(folder.path())).unwrap()).unwrap();
    let weighings = mixed_line(12_000);
    let before = schema(&store);
    let imported = bring_in(&mut store, &weighings);
    assert_eq!((imported.added, imported.already), (12_000, 0));
    assert_eq!(schema(&store), before);
    let portions = store.portions(&Query::default()).unwrap();
    assert_eq!(portions.len(), 12_000);
    assert!(
        portions
            .iter()
            .all(|portion| portion.time_source == TimeSource::Imported)
    );
    let summed: i64 = weighings.iter().map(|w| w.mass.micrograms()).sum();
    assert_eq!(tallied(&mut store), (12_000, summed));
    assert_eq!(store.examine().unwrap().findings, []);
    let again = bring_in(&mut store, &weighings);
    assert_eq!((again.added, again.already), (0, 12_000));
    // What comes later is noted as ever.
    let later = bring_in(&mut store, &mixed_line(12_050));
    assert_eq!((later.added, later.already), (50, 12_000));
    assert_eq!(tallied(&mut store).0, 12_050);
    assert_eq!(store.examine().unwrap().findings, []);
}

#[test]
fn of_equal_weighings_each_is_brought_in_once() {
    let folder = tempfile::tempdir().unwrap();
    let mut store = Store::open(&DataFolder::choose(Some(folder.path())).unwrap()).unwrap();
    let one = mixed_line(1);
    let two = [one.clone(), one.clone()].concat();
    let three = [two.clone(), one.clone()].concat();
    for (weighings, added, already) in [(&one, 1, 0), (&two, 1, 1), (&two, 0, 2), (&three, 1, 2)] {
        let imported = bring_in(&mut store, weighings);
        assert_eq!((imported.added, imported.already), (added, already));
    }
}

#[test]
fn one_line_that_cannot_be_used_takes_back_all() {
    let folder = tempfile::tempdir().unwrap();
    let mut store = Store::open(&DataFolder::choose(Some(folder.path())).unwrap()).unwrap();
    let before = schema(&store);
    let calendar = ServiceCalendar::new(TimeZone::UTC, DayBegins::default());
    let now = "2026-05-08T12:00:00Z".parse().unwrap();
    let mut given = 0;
    let broken = mixed_line(20_000).into_iter().map(|weighing| {
        given += 1;
        match given {
            15_001 => Err(StoreError::NothingToUndo),
            _ => Ok(weighing),
        }
    });
    let refused = store.import(broken, 20_000, &calendar, now);
    assert!(matches!(refused, Err(StoreError::NothingToUndo)));
    // It had come so far.
    assert_eq!(given, 15_001);
    assert_eq!(schema(&store), before);
    assert!(store.portions(&Query::default()).unwrap().is_empty());
    assert!(store.dishes().unwrap().is_empty());
    assert_eq!(store.examine().unwrap().findings, []);
}

/// Weighings in no order of time, over so many services that runs are let go
/// on the way.
#[test]
fn weighings_out_of_order_make_the_same_runs() {
    let weighings = line_of(12_000, 40);
    let mut shuffled = weighings.clone();
    shuffled.reverse();
    shuffled.rotate_left(6_000);
    let runs = |weighings: &[Weighing]| {
        let folder = tempfile::tempdir().unwrap();
        let mut store = Store::open(&DataFolder::choose(Some(folder.path())).unwrap()).unwrap();
        bring_in(&mut store, weighings);
        let raw = rusqlite::Connection::open(store.path()).unwrap();
        let count: i64 = raw
            .query_row("SELECT count(*) FROM run", [], |row| row.get(0))
            .unwrap();
        let tallied = tallied(&mut store);
        (count, tallied)
    };
    let (in_order, tallied_in_order) = runs(&weighings);
    assert!(in_order > 10_000, "{in_order} runs");
    assert_eq!(runs(&shuffled), (in_order, tallied_in_order));
}

/// Where clocks change within a block, and for a time that begins and ends
/// within one, hours are those of the wall.
#[test]
fn hours_are_those_of_the_clock_on_the_wall_whatever_it_does() {
    let folder = tempfile::tempdir().unwrap();
    let mut store = Store::open(&DataFolder::choose(Some(folder.path())).unwrap()).unwrap();
    let weighings = line_of(8_000, 40);
    bring_in(&mut store, &weighings);
    let moment = |text: &str| Some(text.parse::<Timestamp>().unwrap());
    for zone in ["UTC", "Europe/Lisbon", "Asia/Kathmandu", "America/St_Johns"] {
        let zone = TimeZone::get(zone).unwrap();
        for (from, to) in [
            (None, None),
            (moment("2025-08-03T11:30:07Z"), None),
            (
                moment("2025-08-03T11:30:07Z"),
                moment("2025-11-30T20:00:01Z"),
            ),
            (
                moment("2025-08-03T11:30:07Z"),
                moment("2025-08-03T12:00:00Z"),
            ),
            (
                moment("2025-08-03T11:30:07Z"),
                moment("2025-08-03T11:30:07Z"),
            ),
        ] {
            let mut counted: BTreeMap<(String, i8), (usize, i64)> = BTreeMap::new();
            for weighing in &weighings {
                if from.is_none_or(|from| weighing.time >= from)
                    && to.is_none_or(|to| weighing.time < to)
                {
                    let hour = zone.to_datetime(weighing.time).hour();
                    let of = counted.entry((weighing.dish.key(), hour)).or_default();
                    of.0 += 1;
                    of.1 += weighing.mass.micrograms();
                }
            }
            let tallied: BTreeMap<(String, i8), (usize, i64)> = store
                .tallies(By::Hour, &zone, from, to)
                .unwrap()
                .into_iter()
                .map(|tally| {
                    let Group::Hour(hour) = tally.part else {
                        panic!("{:?}", tally.part)
                    };
                    (
                        (tally.dish.unwrap().key(), hour),
                        (tally.spread.all.n(), tally.spread.all.total().micrograms()),
                    )
                })
                .collect();
            assert_eq!(tallied, counted, "{zone:?} {from:?} {to:?}");
        }
    }
    assert_eq!(store.examine().unwrap().findings, []);
}
