//! How soon after a step the scale has a stable reading, how true that is, and how often it
//! is fooled: this filter beside a moving average, a median and a low-pass on the same
//! signals.
//!
//! ```text
//! cargo run -p evenhand-firmware --release --example settle [-- FIRST_SEED TRIALS HOURS [quick]]
//! ```
//!
//! `quick` leaves out the rivals and what many settings cost and save.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

#[path = "../../tests/signal_kitchen/mod.rs"]
mod kitchen;
mod rivals;

use evenhand_firmware::sensor::Counts;
use evenhand_firmware::signal::{Calibration, Chain, Point, Settings};
use evenhand_protocol::{Mass, Uptime};
use kitchen::{Hand, Kind, Kitchen, Pan, RATE, WHITE, counts, millis};
use rivals::{Biquad, Kalman, Median, Rest, Window};

/// A filter under test: a sample in grams goes in, a load and whether it is stable come out.
trait Method {
    fn take(&mut self, index: u64, felt: f64) -> (f64, bool);
}

struct Ours(Chain);

impl Ours {
    fn new() -> Self {
        Self::with(Settings::BENCH_1KG)
    }

    fn with(settings: Settings) -> Self {
        let calibration = Calibration::from_points(&[
            Point::exact(Mass::ZERO, Counts(counts(0.0))),
            Point::exact(Mass::from_grams(1_000), Counts(counts(1_000.0))),
        ])
        .unwrap();
        Self(Chain::new(
            Settings {
                initial_zero: false,
                zero_tracking: false,
                ..settings
            },
            Some(calibration),
        ))
    }
}

impl Method for Ours {
    fn take(&mut self, index: u64, felt: f64) -> (f64, bool) {
        self.0
            .take(Uptime::from_millis(millis(index)), Counts(counts(felt)))
            .map_or((f64::NAN, false), |w| (w.gross.grams(), w.stable))
    }
}

fn methods() -> Vec<(&'static str, Box<dyn Method>)> {
    let mut methods: Vec<(&'static str, Box<dyn Method>)> =
        vec![("this chain", Box::new(Ours::new()))];
    if !is_quick() {
        methods.extend(rivals(Rest::USUAL));
    }
    methods
}

fn is_quick() -> bool {
    std::env::args().any(|argument| argument == "quick")
}

fn rivals(rest: Rest) -> Vec<(&'static str, Box<dyn Method>)> {
    vec![
        ("moving average", Box::new(Window::plain(32, rest))),
        ("median", Box::new(Median::new(rest))),
        ("low-pass", Box::new(Biquad::new(rest))),
        ("Hann, 64", Box::new(Window::hann(64, rest))),
        ("Blackman, 160", Box::new(Window::blackman(160, rest))),
        ("Kalman and GLR", Box::new(Kalman::new(rest))),
    ]
}

fn quantile(sorted: &[f64], q: f64) -> f64 {
    if sorted.is_empty() {
        return f64::NAN;
    }
    sorted[((sorted.len() - 1) as f64 * q).round() as usize]
}

struct Settled {
    samples: f64,
    error: f64,
}

/// The signal of one trial.
struct Signal {
    /// The felt loads, and for each the load that a perfect filter could know.
    samples: Vec<(f64, f64)>,
    /// Samples before the step.
    lead: usize,
    /// Samples after the step until 0.4 s have passed without a shock of more than 0.05 g:
    /// when somebody who sees the shocks would read the scale.
    calm: f64,
}

fn steps(kind: Kind, seed: u64) -> Signal {
    let mut kitchen = Kitchen::new(kind, seed);
    let before = kitchen.dice.between(0.0, 600.0);
    let size = kitchen.dice.about(0.5, 250.0);
    let after = if kitchen.dice.between(0.0, 1.0) < 0.5 && before > size {
        before - size
    } else {
        before + size
    };
    let lead = (RATE * (25.0 + kitchen.dice.between(0.0, 5.0))) as usize;
    let (mut quiet, mut calm) = (0, f64::NAN);
    let samples = (0..lead + (30.0 * RATE) as usize)
        .map(|i| {
            let load = if i < lead { before } else { after };
            let felt = kitchen.feel(load);
            quiet = if i < lead || kitchen.shaken().abs() > 0.05 {
                0
            } else {
                quiet + 1
            };
            if quiet == 32 && calm.is_nan() {
                calm = (i - lead + 1) as f64;
            }
            (felt, load + kitchen.slow())
        })
        .collect();
    Signal {
        samples,
        lead,
        calm,
    }
}

/// The first stable reading after the step that is nearer to the new load than to the old:
/// whoever portions knows that something moved.
/// A dish or a spoonful set down within 0.08 to 0.2 s on a springy pan. The step's moment is
/// when the hand has let go.
fn set_down(seed: u64) -> Signal {
    let mut kitchen = Kitchen::new(Kind::White, seed);
    let before = kitchen.dice.between(0.0, 600.0);
    let size = kitchen.dice.about(0.5, 250.0);
    let after = before + size;
    let over = kitchen.dice.between(0.08, 0.2);
    let mut pan = Pan::new(&mut kitchen.dice, before);
    let start = 400;
    let lead = start + (over * RATE).ceil() as usize;
    let samples = (0..lead + 800)
        .map(|i| {
            let felt = pan.convert(|part| {
                let time = (i as f64 - start as f64 + part) / RATE;
                let x = (time / over).clamp(0.0, 1.0);
                before + size * x * x * (3.0 - 2.0 * x)
            });
            (kitchen.feel(felt), if i < start { before } else { after })
        })
        .collect();
    Signal {
        samples,
        lead,
        calm: 32.0,
    }
}

fn settle(method: &mut dyn Method, signal: &Signal) -> Option<Settled> {
    let old = signal.samples[0].1;
    for (i, (felt, truth)) in signal.samples.iter().enumerate() {
        let (load, stable) = method.take(i as u64, *felt);
        if i >= signal.lead && stable && (load - truth).abs() < (load - old).abs() {
            return Some(Settled {
                samples: (i - signal.lead + 1) as f64,
                error: load - truth,
            });
        }
    }
    None
}

/// What a table comes to in one row: this chain's own figures, and for each
/// method how many times the oracle's samples it took.
struct Row {
    median: f64,
    most: f64,
    rms: f64,
    worst: f64,
    ratios: Vec<f64>,
}

fn table(name: &str, first: u64, trials: u64, make: impl Fn(u64) -> Signal) -> Row {
    let mut row: Option<Row> = None;
    let mut calm: Vec<f64> = (first..first + trials)
        .map(|seed| make(seed).calm)
        .collect();
    calm.sort_by(f64::total_cmp);
    println!(
        "\n{name}; who sees the shocks waits {:.0} (median), {:.0} (95 %)",
        quantile(&calm, 0.5),
        quantile(&calm, 0.95)
    );
    println!(
        "{:16} {:>7} {:>7} {:>9} {:>9} {:>9} {:>8} {:>6}",
        "", "median", "95 %", "rms g", "worst g", "over .1g", "oracle", "ratio"
    );
    for m in 0..methods().len() {
        let mut samples = Vec::new();
        let mut errors = Vec::new();
        let mut never = 0;
        let (label, _) = methods()[m];
        for seed in first..first + trials {
            let signal = make(seed);
            let mut method = methods().swap_remove(m).1;
            match settle(method.as_mut(), &signal) {
                Some(s) => {
                    samples.push(s.samples);
                    errors.push(s.error);
                }
                None => never += 1,
            }
        }
        samples.sort_by(f64::total_cmp);
        let rms = (errors.iter().map(|e| e * e).sum::<f64>() / errors.len() as f64).sqrt();
        let worst = errors.iter().fold(0.0_f64, |w, e| w.max(e.abs()));
        let over = errors.iter().filter(|e| e.abs() > 0.1).count();
        let oracle = (WHITE / rms).powi(2);
        let median = quantile(&samples, 0.5);
        println!(
            "{label:16} {median:7.0} {:7.0} {rms:9.4} {worst:9.4} {over:9} {oracle:8.1} {:6.2}{}",
            quantile(&samples, 0.95),
            median / oracle,
            if never > 0 {
                format!("  never stable in {never}")
            } else {
                String::new()
            }
        );
        row.get_or_insert_with(|| Row {
            median,
            most: quantile(&samples, 0.95),
            rms,
            worst,
            ratios: Vec::new(),
        })
        .ratios
        .push(median / oracle);
    }
    row.expect("there are methods")
}

/// The rows as Markdown, each method's samples in units of the oracle's.
fn summary(rows: &[(&str, Row)]) {
    println!(
        "\n| signal | samples, median | 95 % | error, rms g | worst g | {} |",
        {
            let names: Vec<String> = methods()
                .iter()
                .map(|(name, _)| format!("{name} / oracle"))
                .collect();
            names.join(" | ")
        }
    );
    println!("|{}", " --- |".repeat(5 + methods().len()));
    for (name, row) in rows {
        let ratios: Vec<String> = row.ratios.iter().map(|ratio| tidy(*ratio)).collect();
        println!(
            "| {name} | {:.0} | {:.0} | {:.4} | {:.3} | {} |",
            row.median,
            row.most,
            row.rms,
            row.worst,
            ratios.join(" | ")
        );
    }
}

/// Two or three figures are all that a ratio of so many trials is good for.
fn tidy(ratio: f64) -> String {
    match ratio {
        ratio if ratio < 2.0 => format!("{ratio:.2}"),
        ratio if ratio < 10.0 => format!("{ratio:.1}"),
        ratio => format!("{ratio:.0}"),
    }
}

/// An hour of one load.
#[derive(Default)]
struct Hour {
    false_captures: u64,
    worst: f64,
    stable: u64,
    samples: u64,
    leans: u64,
}

/// Watches a load that does not change for an hour: how often is the reading called stable
/// when it is more than 0.1 g off?
fn watch(method: &mut dyn Method, kind: Kind, hands: Option<bool>, seed: u64) -> Hour {
    let mut hour = Hour::default();
    let mut kitchen = Kitchen::new(kind, seed);
    let mut was_wrong = false;
    let load = 312.0;
    let mut hand: Option<Hand> = None;
    let mut next_hand = kitchen.dice.wait(6.0) + 5.0;
    for i in 0..(3_600.0 * RATE) as u64 {
        let time = kitchen.time();
        let mut extra = 0.0;
        if let Some(tremor) = hands {
            if hand.as_ref().is_none_or(|h| h.ends() < time) && time > next_hand {
                let h = Hand::new(&mut kitchen.dice, time, tremor);
                next_hand = h.ends() + kitchen.dice.wait(6.0);
                hand = Some(h);
                hour.leans += 1;
            }
            if let Some(h) = &hand {
                extra = h.at(time);
            }
        }
        let felt = kitchen.feel(load + extra);
        let (reading, stable) = method.take(i, felt);
        if i < 10 * RATE as u64 {
            continue;
        }
        hour.samples += 1;
        hour.stable += u64::from(stable);
        let error = (reading - load - kitchen.slow()).abs();
        let wrong = stable && error > 0.1;
        if stable {
            hour.worst = hour.worst.max(error);
        }
        hour.false_captures += u64::from(wrong && !was_wrong);
        was_wrong = wrong;
    }
    hour
}

fn still(kind: Kind, name: &str, hands: Option<bool>, first: u64, hours: u64) {
    println!("\n{name}");
    println!(
        "{:16} {:>12} {:>12} {:>14}",
        "", "false/hour", "worst g", "stable time"
    );
    for m in 0..methods().len() {
        let (label, _) = methods()[m];
        let mut sum = Hour::default();
        for seed in first..first + hours {
            let mut method = methods().swap_remove(m).1;
            let hour = watch(method.as_mut(), kind, hands, seed);
            sum.false_captures += hour.false_captures;
            sum.worst = sum.worst.max(hour.worst);
            sum.stable += hour.stable;
            sum.samples += hour.samples;
            sum.leans += hour.leans;
        }
        println!(
            "{label:16} {:12.2} {:12.3} {:13.1}%{}",
            sum.false_captures as f64 / hours as f64,
            sum.worst,
            100.0 * sum.stable as f64 / sum.samples as f64,
            if sum.leans > 0 {
                format!("  {:.0} leans an hour", sum.leans as f64 / hours as f64)
            } else {
                String::new()
            }
        );
    }
}

/// What a shorter or longer wait costs and saves.
fn trade(first: u64, trials: u64, hours: u64) {
    println!(
        "\nthe wait (ms, after a crisp change and after a longer motion) against false captures"
    );
    println!(
        "{:>4} {:>5} {:>12} {:>9} {:>22} {:>17}",
        "", "", "white median", "set down", "false in 1000 leans", "footfall, false/h"
    );
    for (settle, motion) in [(200, 300), (300, 450), (400, 600), (500, 750), (600, 900)] {
        let settings = Settings {
            settle_millis: settle,
            settle_after_motion_millis: motion,
            ..Settings::BENCH_1KG
        };
        let median = |make: &dyn Fn(u64) -> Signal| {
            let mut samples: Vec<f64> = (first..first + trials)
                .filter_map(|seed| wait(settings, &make(seed)))
                .collect();
            samples.sort_by(f64::total_cmp);
            quantile(&samples, 0.5)
        };
        let white = median(&|seed| steps(Kind::White, seed));
        let down = median(&set_down);
        let (mut wrong, mut leans) = (0, 0);
        let mut footfall = 0;
        for seed in first..first + hours {
            let mut method = Ours::with(settings);
            let run = watch(&mut method, Kind::White, Some(false), seed);
            wrong += run.false_captures;
            leans += run.leans;
            let mut method = Ours::with(settings);
            footfall += watch(&mut method, Kind::Footfall, None, seed).false_captures;
        }
        println!(
            "{settle:4} {motion:5} {white:12.0} {down:9.0} {:22.2} {:17.2}",
            wrong as f64 * 1e3 / leans as f64,
            footfall as f64 / hours as f64
        );
    }
}

/// The tail of the wait against false captures, for every method with a strict and a lax rule
/// of rest: what is never stable within 30 s waits for 30 s.
fn curve(first: u64, trials: u64, hours: u64) {
    println!(
        "\n| method | rest: g, ms | white, median ms | footfall, 95 % s | chopping, 95 % s | never, of {} | false an hour: smooth hands | trembling | footfall |",
        2 * trials
    );
    println!("|{}", " --- |".repeat(9));
    type Make = Box<dyn Fn() -> Box<dyn Method>>;
    let mut rows: Vec<(String, Make)> = Vec::new();
    for (settle, motion) in [(300, 450), (400, 600), (600, 900)] {
        let settings = Settings {
            settle_millis: settle,
            settle_after_motion_millis: motion,
            ..Settings::BENCH_1KG
        };
        rows.push((
            format!("this chain | {settle} and {motion} ms"),
            Box::new(move || Box::new(Ours::with(settings))),
        ));
    }
    for m in 0..rivals(Rest::USUAL).len() {
        for (within, samples) in [(0.03, 8), (0.03, 16), (0.03, 48), (0.02, 80)] {
            let rest = Rest { within, samples };
            let name = rivals(rest).swap_remove(m).0;
            let millis = samples as f64 * 1_000.0 / RATE;
            rows.push((
                format!("{name} | {within} g, {millis:.0} ms"),
                Box::new(move || rivals(rest).swap_remove(m).1),
            ));
        }
    }
    for (name, make) in rows {
        let mut never = 0;
        let mut waits = |kind: Kind, q: f64| {
            let mut samples: Vec<f64> = (first..first + trials)
                .map(|seed| {
                    let settled = settle(make().as_mut(), &steps(kind, seed));
                    never += u64::from(settled.is_none() && kind != Kind::White);
                    settled.map_or(30.0 * RATE, |settled| settled.samples)
                })
                .collect();
            samples.sort_by(f64::total_cmp);
            quantile(&samples, q) / RATE
        };
        let white = waits(Kind::White, 0.5) * 1e3;
        let (footfall, chopping) = (waits(Kind::Footfall, 0.95), waits(Kind::Chopping, 0.95));
        let fooled = |kind: Kind, hands: Option<bool>| {
            let sum: u64 = (first..first + hours)
                .map(|seed| watch(make().as_mut(), kind, hands, seed).false_captures)
                .sum();
            sum as f64 / hours as f64
        };
        println!(
            "| {name} | {white:.0} | {footfall:.1} | {chopping:.1} | {never} | {:.2} | {:.2} | {:.2} |",
            fooled(Kind::White, Some(false)),
            fooled(Kind::White, Some(true)),
            fooled(Kind::Footfall, None),
        );
    }
}

fn wait(settings: Settings, signal: &Signal) -> Option<f64> {
    settle(&mut Ours::with(settings), signal).map(|settled| settled.samples)
}

/// Seeds that something may be tuned on; figures are reported on others.
const TUNING_SEEDS: std::ops::Range<u64> = 1..1_000;

fn main() {
    let mut args = std::env::args().skip(1).map(|a| a.parse::<u64>().unwrap());
    let first = args.next().unwrap_or(1_000);
    let trials = args.next().unwrap_or(1_000);
    let hours = args.next().unwrap_or(4);
    if TUNING_SEEDS.contains(&first) {
        println!("tuning: these figures are not for a report");
    }
    println!(
        "steps: seeds {first} to {}, a fresh bench for each; an hour at rest: seeds {first} to {}",
        first + trials - 1,
        first + hours - 1
    );
    println!("samples at 80 a second; oracle: (0.02 g / rms error) squared");
    let mut rows: Vec<(&str, Row)> = [
        (Kind::White, "white noise, 0.02 g rms"),
        (Kind::Hum, "50/60 Hz hum, 0.05 to 0.15 g"),
        (Kind::Footfall, "footfall, 1 to 20 g"),
        (Kind::Drift, "slow drift and creep"),
        (Kind::Extractor, "extractor, 10 to 25 Hz, 0.2 to 0.6 g"),
        (Kind::Chopping, "chopping"),
    ]
    .into_iter()
    .map(|(kind, name)| (name, table(name, first, trials, |seed| steps(kind, seed))))
    .collect();
    let name = "set down by hand on a springy pan";
    rows.push((name, table(name, first, trials, set_down)));
    still(Kind::Extractor, "extractor", None, first, hours);
    still(Kind::Footfall, "footfall", None, first, hours);
    still(Kind::Chopping, "chopping", None, first, hours);
    still(Kind::Kitchen, "the whole kitchen", None, first, hours);
    still(
        Kind::White,
        "hands that lean, trembling",
        Some(true),
        first,
        hours,
    );
    still(
        Kind::White,
        "hands that lean, smooth",
        Some(false),
        first,
        hours,
    );
    if !is_quick() {
        trade(first, trials.min(300), hours);
        curve(first, trials.min(200), hours.min(4));
    }
    summary(&rows);
}
