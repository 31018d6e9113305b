//! What a reading costs on the wire: bytes and time, beside a line of JSON, a
//! line of comma-separated values, and the same message as MessagePack.
//!
//! `cargo bench -p evenhand-protocol --bench wire` prints the bytes first and
//! then the times. The text forms and MessagePack carry no checksum and no way
//! to find the next message after garbage; the frame carries both.

use criterion::{Criterion, criterion_group, criterion_main};
use evenhand_protocol::fault::FaultSet;
use evenhand_protocol::frame::{MAX_FRAME, encode};
use evenhand_protocol::*;
use std::hint::black_box;

fn reading() -> Reading {
    Reading {
        at: Uptime::from_millis(7_384_120),
        gross: Some(Mass::from_micrograms(948_213_417)),
        tare: Mass::from_micrograms(123_400_118),
        stable: true,
        amount: Some(Mass::from_micrograms(29_871_902)),
        verdict: Some(Verdict::On),
        phase: Phase::Spooning,
        run: Some(RunId(1_177_750_888)),
        temperature: Some(Temperature::from_millicelsius(4_250)),
        faults: FaultSet::EMPTY,
        unsent: 1,
        lost: 0,
    }
}

/// The same figures as a row: the fields in order, exact integers.
type Row = (
    u64,
    Option<i64>,
    i64,
    bool,
    Option<i64>,
    Option<&'static str>,
    &'static str,
    Option<u32>,
    Option<i32>,
    u32,
    u16,
    u32,
);

fn row(r: &Reading) -> Row {
    (
        r.at.millis(),
        r.gross.map(Mass::micrograms),
        r.tare.micrograms(),
        r.stable,
        r.amount.map(Mass::micrograms),
        r.verdict.map(Verdict::word),
        "spooning",
        r.run.map(|run| run.0),
        r.temperature.map(Temperature::millicelsius),
        0,
        r.unsent,
        r.lost,
    )
}

/// The same row, read back.
type OwnRow = (
    u64,
    Option<i64>,
    i64,
    bool,
    Option<i64>,
    Option<String>,
    String,
    Option<u32>,
    Option<i32>,
    u32,
    u16,
    u32,
);

fn frame(message: Reading) -> Vec<u8> {
    let mut out = [0; MAX_FRAME];
    let envelope = Envelope {
        sequence: 40_000,
        message: Report::Reading(message),
    };
    let length = encode(&envelope, &mut out).unwrap_or(0);
    out[..length].to_vec()
}

fn json(r: &Reading) -> Vec<u8> {
    let mut line = serde_json::to_vec(r).unwrap_or_default();
    line.push(b'\n');
    line
}

fn csv_line(r: &Reading) -> Vec<u8> {
    let mut writer = csv::WriterBuilder::new()
        .has_headers(false)
        .from_writer(Vec::with_capacity(128));
    // Writing to memory does not fail; an empty line would show in the bytes.
    let _ = writer.serialize(row(r));
    writer.into_inner().unwrap_or_default()
}

fn message_pack(r: &Reading) -> Vec<u8> {
    rmp_serde::to_vec(r).unwrap_or_default()
}

fn wire(c: &mut Criterion) {
    let reading = reading();
    for (name, bytes) in [
        ("frame", frame(reading)),
        ("message-pack", message_pack(&reading)),
        ("csv", csv_line(&reading)),
        ("json", json(&reading)),
    ] {
        println!("figure: a reading | {name} | {} bytes", bytes.len());
    }

    let mut group = c.benchmark_group("write a reading");
    group.bench_function("frame", |b| {
        let mut out = [0; MAX_FRAME];
        let envelope = Envelope {
            sequence: 1,
            message: Report::Reading(reading),
        };
        b.iter(|| encode(black_box(&envelope), &mut out).map(|n| out[n - 1]));
    });
    group.bench_function("message-pack", |b| {
        b.iter(|| message_pack(black_box(&reading)))
    });
    group.bench_function("csv", |b| b.iter(|| csv_line(black_box(&reading))));
    group.bench_function("json", |b| b.iter(|| json(black_box(&reading))));
    group.finish();

    let mut group = c.benchmark_group("read a reading");
    let bytes = frame(reading);
    group.bench_function("frame", |b| {
        let mut reader = Reader::<Report>::new();
        b.iter(|| bytes.iter().find_map(|byte| reader.push(*black_box(byte))));
    });
    let bytes = message_pack(&reading);
    group.bench_function("message-pack", |b| {
        b.iter(|| rmp_serde::from_slice::<Reading>(black_box(&bytes)));
    });
    let bytes = csv_line(&reading);
    group.bench_function("csv", |b| {
        b.iter(|| {
            csv::ReaderBuilder::new()
                .has_headers(false)
                .from_reader(black_box(bytes.as_slice()))
                .into_deserialize::<OwnRow>()
                .next()
        });
    });
    let bytes = json(&reading);
    group.bench_function("json", |b| {
        b.iter(|| serde_json::from_slice::<Reading>(black_box(&bytes)));
    });
    group.finish();
}

criterion_group!(benches, wire);
criterion_main!(benches);
