//! What becomes of every portion on the hard scenarios: counted right, doubted,
//! refused with a reason, or wrong in silence.
//!
//! ```text
//! cargo run --release -p evenhand-simulator --example ledger -- FIRST LAST [report | SCENARIO...]
//! ```
//!
//! `report` is the scenarios that nothing was tuned on; they refuse the seeds that
//! something was.
//! With `SAY=1` every case that is wrong in silence is told on stderr, with `SAY=all`
//! every doubt as well.

use evenhand_protocol::Mass;
use evenhand_simulator::desk::{Comparison, Desk, Ledger, TUNING_SEEDS, is_doubted, is_wrong, run};
use evenhand_simulator::instrument::SimulatedInstrument;
use evenhand_simulator::scenario::{HARD, REPORT, Scenario};
use std::ops::RangeInclusive;

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let [first, last, rest @ ..] = arguments.as_slice() else {
        return Err("give the first and the last seed, and a scenario if you like".into());
    };
    let seeds = first.parse::<u64>()?..=last.parse::<u64>()?;
    println!(
        "| scenario | made | right | right, doubted | wrong, doubted | refused with a reason | wrong in silence | unseen | invented in silence | U covers |"
    );
    println!("| --- | --- | --- | --- | --- | --- | --- | --- | --- | --- |");
    let names: Vec<&str> = match rest {
        [] => HARD.iter().map(|(name, _)| *name).collect(),
        [report] if report == "report" => REPORT.iter().map(|(name, _)| *name).collect(),
        some => some.iter().map(String::as_str).collect(),
    };
    let mut all = Ledger::default();
    for name in names {
        let ledger = measure(name, seeds.clone())?;
        row(name, &ledger);
        all = all.and(ledger);
    }
    row("all", &all);
    println!(
        "\nwrong in silence: {} of {}; missed: {} of {}; doubted: {} of {}; tastes unsaid: {} of {}",
        all.silent(),
        all.made,
        all.missed(),
        all.made,
        all.doubted(),
        all.made,
        all.tastes_unsaid,
        all.tastes
    );
    Ok(())
}

fn row(name: &str, ledger: &Ledger) {
    println!(
        "| {name} | {} | {} | {} | {} | {} | {} | {} | {} | {:.1} % |",
        ledger.made,
        ledger.right,
        ledger.right_doubted,
        ledger.wrong_doubted + ledger.invented_doubted,
        ledger.refused,
        ledger.wrong_silent,
        ledger.unseen,
        ledger.invented_silent,
        100.0 * ledger.covered as f64 / ledger.matched().max(1) as f64,
    );
}

fn measure(name: &str, seeds: RangeInclusive<u64>) -> Result<Ledger, Box<dyn std::error::Error>> {
    let scenario = Scenario::shipped(name)?;
    let for_report = REPORT.iter().any(|(report, _)| *report == name);
    let mut sum = Ledger::default();
    for seed in seeds {
        if for_report && TUNING_SEEDS.contains(&seed) {
            return Err(format!("{name} is for reports, and seed {seed} for tuning").into());
        }
        let (instrument, desk) = run(&scenario, seed);
        let ledger = Ledger::of(&instrument, &desk);
        let told = std::env::var("SAY").unwrap_or_default();
        if !told.is_empty() && (ledger.silent() > 0 || told == "all") {
            say(name, seed, &instrument, &desk, told == "all");
        }
        sum = sum.and(ledger);
    }
    Ok(sum)
}

fn say(name: &str, seed: u64, instrument: &SimulatedInstrument, desk: &Desk, doubts: bool) {
    eprintln!("{name}, seed {seed}");
    let compared = Comparison::of(instrument, desk);
    for (truth, record) in &compared.both {
        let error = record.mass - truth.mass;
        let silent = is_wrong(error, record.goal) && !is_doubted(record);
        let far = error.abs() > Mass::from_milligrams(90);
        if silent || doubts && (is_doubted(record) || far) {
            eprintln!(
                "  {} at {:.2} s: {:.3} g for {:.3} g, doubts {:#b}",
                truth.number,
                truth.at_micros as f64 / 1e6,
                record.mass.grams(),
                truth.mass.grams(),
                record.doubts.0
            );
        }
    }
    for truth in &compared.missed {
        eprintln!(
            "  missed {} at {:.2} s: {:.3} g",
            truth.number,
            truth.at_micros as f64 / 1e6,
            truth.mass.grams()
        );
    }
    for record in &compared.invented {
        eprintln!(
            "  invented at {:.2} s: {:.3} g",
            record.at.millis() as f64 / 1e3,
            record.mass.grams()
        );
    }
}
