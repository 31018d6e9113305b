//! A great many weighings at once: everything that is kept up with a portion
//! is there afterwards as if they had come one by one.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use evenhand_kitchen::cook::Cook;
use evenhand_kitchen::dish::DishName;
use evenhand_kitchen::portion::TimeSource;
use evenhand_kitchen::service::{DayBegins, ServiceCalendar};
use evenhand_kitchen::weighings_file::Weighing;
use evenhand_protocol::{Goal, Mass, Mode, Tolerance};
use evenhand_store::{DataFolder, Query, Store};
use jiff::Timestamp;
use jiff::tz::TimeZone;

/// Eight dishes and five cooks interleaved, 700 portions a day.
fn mixed_line(count: i64) -> Vec<Weighing> {
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
            time: Timestamp::from_second(1_750_000_000 + n / 700 * 86_400 + n % 700 * 25).unwrap(),
        })
        .collect()
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
    let calendar = ServiceCalendar::new(TimeZone::UTC, DayBegins::default());
    let weighings = mixed_line(12_000);
    let before = schema(&store);
    let now = "2026-05-08T12:00:00Z".parse().unwrap();
    let imported = store.import(&weighings, &calendar, now).unwrap();
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
    let tallies = store.tallies(None, None).unwrap();
    let n: usize = tallies.iter().map(|tally| tally.spread.n()).sum();
    let total: i64 = tallies
        .iter()
        .map(|tally| tally.spread.total().micrograms())
        .sum();
    assert_eq!((n, total), (12_000, summed));
    assert_eq!(store.examine().unwrap().findings, []);
    let again = store.import(&weighings, &calendar, now).unwrap();
    assert_eq!((again.added, again.already), (0, 12_000));
    // What comes later is noted as ever.
    let later = store.import(&mixed_line(12_050), &calendar, now).unwrap();
    assert_eq!(later.added, 50);
    let tallies = store.tallies(None, None).unwrap();
    let n: usize = tallies.iter().map(|tally| tally.spread.n()).sum();
    assert_eq!(n, 12_050);
}
