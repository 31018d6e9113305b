//! How many portions a second the store takes, each in a transaction of its
//! own that is on the disk before it is acknowledged; and how long a day's
//! spread takes to tell.
//!
//! The disk decides: the store lies in the build's own folder, not in memory.
#![allow(clippy::unwrap_used, missing_docs)]

use criterion::{Criterion, Throughput, criterion_group, criterion_main};
use evenhand_kitchen::dish::DishName;
use evenhand_protocol::report::Doubts;
use evenhand_protocol::{
    CapturedPortion, DeviceId, Epoch, Goal, Mass, Mode, PortionId, RunId, Tolerance, UnixMillis,
    Uptime,
};
use evenhand_store::{DataFolder, NewRun, Query, Recorded, Store};
use jiff::Timestamp;
use std::hint::black_box;
use tempfile::TempDir;

fn goal() -> Goal {
    Goal::new(
        Mass::from_grams(30),
        Tolerance::symmetric(Mass::from_grams(1)),
    )
    .unwrap()
}

fn store() -> (TempDir, Store, RunId) {
    let folder = tempfile::tempdir_in(env!("CARGO_TARGET_TMPDIR")).unwrap();
    let mut store = Store::open(&DataFolder::choose(Some(folder.path())).unwrap()).unwrap();
    let dish = DishName::new("dish", "shrimp").unwrap();
    let at = Timestamp::UNIX_EPOCH;
    store
        .set_dish(&dish, goal(), Mode::Taking, None, at)
        .unwrap();
    let new = NewRun {
        dish,
        goal: goal(),
        mode: Mode::Taking,
        cook: None,
        tin: None,
    };
    let run = store.begin_run(&new, at).unwrap().id;
    (folder, store, run)
}

fn captured(number: u32, run: RunId) -> CapturedPortion {
    CapturedPortion {
        id: PortionId {
            device: DeviceId(1),
            epoch: Epoch(1),
            number,
        },
        run,
        at: Uptime::from_millis(8_000 * u64::from(number)),
        unix: Some(UnixMillis::from_millis(8_000 * i64::from(number))),
        mode: Mode::Taking,
        mass: Mass::from_milligrams(29_000 + i64::from(number % 2_000)),
        goal: goal(),
        temperature: None,
        replaces: None,
        doubts: Doubts::NONE,
        uncertainty: Some(Mass::from_milligrams(40)),
        left: None,
        chain_link: None,
    }
}

fn record(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("store");
    group.throughput(Throughput::Elements(1));
    let (_folder, mut store, run) = store();
    let mut number = 0;
    group.bench_function("record a portion", |bencher| {
        bencher.iter(|| {
            number += 1;
            let recorded = store.record(&captured(number, run), None, Timestamp::UNIX_EPOCH);
            assert!(matches!(recorded, Ok(Recorded::New { .. })));
        });
    });
    group.bench_function("know a repeated portion", |bencher| {
        bencher.iter(|| {
            let recorded = store.record(&captured(1, run), None, Timestamp::UNIX_EPOCH);
            assert_eq!(recorded.unwrap(), Recorded::Already);
        });
    });
    group.finish();
}

fn spread(criterion: &mut Criterion) {
    const PORTIONS: u32 = 1_000;
    let (_folder, mut store, run) = store();
    for number in 1..=PORTIONS {
        store
            .record(&captured(number, run), None, Timestamp::UNIX_EPOCH)
            .unwrap();
    }
    let mut group = criterion.benchmark_group("store");
    group.throughput(Throughput::Elements(u64::from(PORTIONS)));
    group.bench_function("spread of a thousand portions", |bencher| {
        bencher.iter(|| black_box(store.spread(&Query::default()).unwrap()));
    });
    group.finish();
}

criterion_group!(benches, record, spread);
criterion_main!(benches);
