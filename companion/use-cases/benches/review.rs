//! How soon a review tells its first figures, over a year at 300 portions a day
//! and over a million portions; beside SQLite's own aggregate and, where
//! `EVENHAND_BENCH_PYTHON` names a Python that has polars, beside polars, on
//! the same figures in the same run. Figures that are no times are printed as lines
//! that begin with `figure:`, for `scripts/measure`.
//!
//! `cargo bench -p evenhand-use-cases --bench review`
#![allow(clippy::unwrap_used, missing_docs)]

use criterion::{Criterion, criterion_group, criterion_main};
use evenhand_kitchen::cook::Cook;
use evenhand_kitchen::dish::DishName;
use evenhand_kitchen::service::{Assumptions, DayBegins, ServiceCalendar};
use evenhand_kitchen::spread::Spread;
use evenhand_kitchen::weighings_file::Weighing;
use evenhand_protocol::{Goal, Mass, Mode, Tolerance};
use evenhand_store::{By, DataFolder, Store, StoreError, Tally};
use evenhand_use_cases::review::Night;
use jiff::Timestamp;
use jiff::tz::TimeZone;
use std::collections::BTreeMap;
use std::hint::black_box;
use std::io::Write;
use std::path::Path;
use std::process::Command;
use std::time::{Duration, Instant};
use tempfile::TempDir;

/// 2016-01-01T17:00:00Z.
const BEGAN: i64 = 1_451_667_600;
const A_DAY: usize = 300;
/// One pixel a column on a wide screen.
const COLUMNS: usize = 1_920;

/// Four dishes, three cooks, 300 portions from five to eleven each day.
fn weighings(count: usize) -> Vec<Weighing> {
    let dishes: Vec<(DishName, Goal)> = [
        ("Shrimp", 30),
        ("Neck", 180),
        ("Parfait", 55),
        ("Dough", 42),
    ]
    .into_iter()
    .map(|(name, target)| {
        let tolerance = Tolerance::symmetric(Mass::from_grams(1));
        (
            DishName::new("dish", name).unwrap(),
            Goal::new(Mass::from_grams(target), tolerance).unwrap(),
        )
    })
    .collect();
    let cooks = ["MO", "ZE", "AK"].map(|cook| Cook::new("cook", cook).unwrap());
    // A sequence of Weyl's: even, and the same in every run.
    let noise = |nth: usize| (nth as u64).wrapping_mul(0x9E37_79B9_7F4A_7C15) >> 44;
    (0..count)
        .map(|nth| {
            let (day, within) = (nth / A_DAY, nth % A_DAY);
            let (dish, goal) = &dishes[within * 4 / A_DAY];
            Weighing {
                dish: dish.clone(),
                cook: Some(cooks[(day + within * 4 / A_DAY) % 3].clone()),
                mass: goal.target() + Mass::from_micrograms(noise(nth) as i64 * 2 - 1_000_000),
                goal: *goal,
                mode: Mode::Adding,
                time: Timestamp::from_second(BEGAN + day as i64 * 86_400 + within as i64 * 72)
                    .unwrap(),
            }
        })
        .collect()
}

fn calendar() -> ServiceCalendar {
    ServiceCalendar::new(TimeZone::UTC, DayBegins::default())
}

fn by_dish(store: &mut Store) -> BTreeMap<String, Spread> {
    store
        .tallies(By::Dish, &TimeZone::UTC, None, None)
        .unwrap()
        .into_iter()
        .map(|tally| (tally.dish.unwrap().to_string(), tally.spread.all))
        .collect()
}

fn by_hour(store: &mut Store) -> Vec<Tally> {
    store.tallies(By::Hour, &TimeZone::UTC, None, None).unwrap()
}

/// The same figures by SQLite alone.
fn by_sql(connection: &rusqlite::Connection) -> Vec<(String, i64, f64)> {
    connection
        .prepare_cached(
            "SELECT d.name, count(*), avg(p.mass),
                    avg(CAST(p.mass AS REAL) * p.mass) - avg(p.mass) * avg(p.mass),
                    sum(p.mass < p.target - p.below), sum(p.mass > p.target + p.above),
                    sum(max(0, p.mass - p.target)), min(p.mass), max(p.mass)
             FROM portion p JOIN run r ON r.seq = p.run JOIN dish d ON d.id = r.dish
             WHERE NOT EXISTS (SELECT 1 FROM strike k WHERE k.portion = p.seq AND k.lifted IS NULL)
               AND p.replaced_by IS NULL
             GROUP BY d.id ORDER BY d.name",
        )
        .unwrap()
        .query_map([], |row| Ok((row.get(0)?, row.get(1)?, row.get(2)?)))
        .unwrap()
        .collect::<Result<_, _>>()
        .unwrap()
}

/// What the kernel says is the most memory this process has held, in MiB.
fn most_memory() -> f64 {
    std::fs::read_to_string("/proc/self/status")
        .ok()
        .and_then(|status| {
            let line = status.lines().find(|line| line.starts_with("VmHWM"))?;
            line.split_whitespace().nth(1)?.parse::<f64>().ok()
        })
        .map_or(f64::NAN, |kibibytes| kibibytes / 1024.0)
}

fn table(path: &Path, weighings: &[Weighing]) {
    let mut file = std::io::BufWriter::new(std::fs::File::create(path).unwrap());
    writeln!(file, "time,dish,mass,target,tolerance").unwrap();
    for weighing in weighings {
        writeln!(
            file,
            "{},{},{},{},{}",
            weighing.time.as_second(),
            weighing.dish,
            weighing.mass.micrograms(),
            weighing.goal.target().micrograms(),
            weighing.goal.tolerance().above.micrograms(),
        )
        .unwrap();
    }
}

fn beside_polars(path: &Path, label: &str) {
    let Ok(python) = std::env::var("EVENHAND_BENCH_PYTHON") else {
        println!("polars: EVENHAND_BENCH_PYTHON is not set, so it was not run");
        return;
    };
    let script = concat!(env!("CARGO_MANIFEST_DIR"), "/benches/review_frames.py");
    let ran = Command::new(python)
        .arg(script)
        .arg(path)
        .arg(label)
        .status()
        .unwrap();
    assert!(ran.success());
}

fn review(criterion: &mut Criterion) {
    for (label, count) in [("a year", 365 * A_DAY), ("a million", 1_000_000)] {
        let folder: TempDir = tempfile::tempdir_in(env!("CARGO_TARGET_TMPDIR")).unwrap();
        let data = DataFolder::choose(Some(folder.path())).unwrap();
        let mut store = Store::open(&data).unwrap();
        let made = weighings(count);
        let began = Instant::now();
        store
            .import(
                made.iter().cloned().map(Ok::<_, StoreError>),
                made.len() as u64,
                &calendar(),
                Timestamp::from_second(BEGAN).unwrap(),
            )
            .unwrap();
        let imported = began.elapsed();
        let began = Instant::now();
        store.reckon_stale_tallies(&TimeZone::UTC).unwrap();
        let tallied = began.elapsed();
        let size = std::fs::metadata(data.file()).unwrap().len();
        println!("figure: {label} | import | {:.3} s", imported.as_secs_f64());
        println!("figure: {label} | tally | {:.3} s", tallied.as_secs_f64());
        println!("figure: {label} | file | {} MiB", size / 1024 / 1024);
        let day = store.service_days(&calendar(), None, 1).unwrap()[0];
        let csv = folder.path().join("weighings.csv");
        table(&csv, &made);
        drop(made);

        let mut group = criterion.benchmark_group(label);
        group
            .sample_size(10)
            .warm_up_time(Duration::from_millis(500))
            .measurement_time(Duration::from_secs(2));
        group.bench_function("open", |bench| {
            bench.iter(|| black_box(Store::open(&data).unwrap()));
        });
        group.bench_function("check of the whole file", |bench| {
            bench.iter(|| store.check().unwrap());
        });
        group.bench_function("first figures of a night and the ten before", |bench| {
            bench.iter(|| {
                let store = Store::open(&data).unwrap();
                black_box(Night::gather(&store, &calendar(), day, Assumptions::default()).unwrap())
            });
        });
        group.bench_function("first figures of everything, by dish", |bench| {
            bench.iter(|| black_box(by_dish(&mut store)));
        });
        group.bench_function("first figures of everything, by hour", |bench| {
            bench.iter(|| black_box(by_hour(&mut store)));
        });
        let connection = rusqlite::Connection::open(data.file()).unwrap();
        group.bench_function("SQLite alone, everything by dish", |bench| {
            bench.iter(|| black_box(by_sql(&connection)));
        });
        // The same figures: counts and means agree.
        for ((name, n, mean), (ours, spread)) in
            by_sql(&connection).into_iter().zip(by_dish(&mut store))
        {
            assert_eq!((name, n), (ours, spread.n() as i64));
            assert!((mean - spread.mean().unwrap().micrograms() as f64).abs() < 1.0);
        }
        let dots = store.dots(Timestamp::UNIX_EPOCH, Timestamp::MAX).unwrap();
        group.bench_function("reading every dot", |bench| {
            bench.iter(|| black_box(store.dots(Timestamp::UNIX_EPOCH, Timestamp::MAX).unwrap()));
        });
        let (from, to) = (dots[0].time, dots[dots.len() - 1].time);
        group.bench_function("a frame's thinning of every dot", |bench| {
            bench.iter(|| black_box(dots.thinned(from, to, COLUMNS)));
        });
        group.finish();
        beside_polars(&csv, label);
        println!("figure: {label} | most memory | {:.0} MiB", most_memory());
    }
}

criterion_group!(benches, review);
criterion_main!(benches);
