//! What a sample costs the signal chain, on the host. Instructions a sample on the target are
//! counted apart.
#![allow(missing_docs, clippy::unwrap_used)]

#[path = "../tests/signal_kitchen/mod.rs"]
mod kitchen;

use criterion::{Criterion, Throughput, criterion_group, criterion_main};
use evenhand_firmware::sensor::Counts;
use evenhand_firmware::signal::{Calibration, Chain, Point, Settings};
use evenhand_protocol::{Mass, Uptime};
use kitchen::{Kind, Kitchen, counts, millis};
use std::hint::black_box;

fn chain() -> Chain {
    let calibration = Calibration::from_points(&[
        Point::exact(Mass::ZERO, Counts(counts(0.0))),
        Point::exact(Mass::from_grams(1_000), Counts(counts(1_000.0))),
    ])
    .unwrap();
    Chain::new(Settings::BENCH_1KG, Some(calibration))
}

fn samples(c: &mut Criterion) {
    let mut group = c.benchmark_group("chain");
    for (name, kind) in [
        ("white noise", Kind::White),
        ("whole kitchen", Kind::Kitchen),
    ] {
        let mut kitchen = Kitchen::new(kind, 1_000);
        let minute: Vec<i32> = (0..4_800)
            .map(|i| counts(kitchen.feel(if i / 400 % 2 == 0 { 200.0 } else { 230.0 })))
            .collect();
        group.throughput(Throughput::Elements(minute.len() as u64));
        group.bench_function(name, |b| {
            b.iter(|| {
                let mut chain = chain();
                for (i, counts) in minute.iter().enumerate() {
                    let at = Uptime::from_millis(millis(i as u64));
                    black_box(chain.take(at, Counts(*counts)).ok());
                }
            });
        });
    }
    group.finish();
}

criterion_group!(benches, samples);
criterion_main!(benches);
