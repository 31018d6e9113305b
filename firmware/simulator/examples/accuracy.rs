//! How true recorded portions are, over many seeds of each shipped scenario.
//!
//! ```text
//! cargo run --release -p evenhand-simulator --example accuracy -- FIRST LAST [SCENARIO]
//! ```
//!
//! SCENARIO is a file, or the name of one that ships; without it, all that ship.

use evenhand_simulator::desk::{Comparison, run};
use evenhand_simulator::scenario::{SHIPPED, Scenario, ScenarioError};
use std::path::Path;

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let [first, last, rest @ ..] = arguments.as_slice() else {
        return Err("give the first and the last seed, and a scenario if you like".into());
    };
    let seeds = first.parse::<u64>()?..=last.parse::<u64>()?;
    println!(
        "| scenario | runs | portions | missed | invented | rms g | 99 % within g | worst g | over 0.1 g |"
    );
    println!("| --- | --- | --- | --- | --- | --- | --- | --- | --- |");
    let names: Vec<&str> = match rest {
        [] => SHIPPED.iter().map(|(name, _)| *name).collect(),
        some => some.iter().map(String::as_str).collect(),
    };
    for name in names {
        measure(name, &open(name)?, seeds.clone());
    }
    Ok(())
}

fn open(name: &str) -> Result<Scenario, ScenarioError> {
    if Path::new(name).exists() {
        Scenario::load(Path::new(name))
    } else {
        Scenario::shipped(name)
    }
}

fn measure(name: &str, scenario: &Scenario, seeds: std::ops::RangeInclusive<u64>) {
    let (mut runs, mut missed, mut invented) = (0, 0, 0);
    let mut errors = Vec::new();
    for seed in seeds {
        let (instrument, desk) = run(scenario, seed);
        let compared = Comparison::of(&instrument, &desk);
        runs += 1;
        missed += compared.missed.len();
        invented += compared.invented.len();
        let worst = compared.worst().grams();
        if worst > 0.1 || !compared.missed.is_empty() || !compared.invented.is_empty() {
            eprintln!("{name}, seed {seed}: worst {worst:.3} g");
            for truth in &compared.missed {
                eprintln!(
                    "  missed {} at {:.2} s: {:.3} g",
                    truth.number,
                    seconds(truth.at_micros),
                    truth.mass.grams()
                );
            }
            for portion in &compared.invented {
                eprintln!(
                    "  invented at {:.2} s: {:.3} g",
                    seconds(portion.at.millis() * 1_000),
                    portion.mass.grams()
                );
            }
            for (truth, portion) in &compared.both {
                let error = (portion.mass - truth.mass).grams();
                if error.abs() > 0.1 {
                    eprintln!(
                        "  {} at {:.2} s: off by {error:.3} g",
                        truth.number,
                        seconds(truth.at_micros)
                    );
                }
            }
            if std::env::var_os("NOTICES").is_some() {
                for (at, notice) in desk.notices() {
                    eprintln!("  {:8.2} s {notice:?}", seconds(at.millis() * 1_000));
                }
            }
        }
        errors.extend(compared.errors().map(|error| error.abs().grams()));
    }
    errors.sort_by(f64::total_cmp);
    let n = errors.len();
    let rms = (errors.iter().map(|error| error * error).sum::<f64>() / n.max(1) as f64).sqrt();
    let at = |share: f64| {
        let place = ((n as f64 * share).ceil() as usize).saturating_sub(1);
        errors.get(place).copied().unwrap_or(f64::NAN)
    };
    let over = errors.iter().filter(|error| **error > 0.1).count();
    println!(
        "| {name} | {runs} | {} | {missed} | {invented} | {rms:.3} | {:.3} | {:.3} | {over} |",
        n + missed,
        at(0.99),
        at(1.0),
    );
}

fn seconds(micros: u64) -> f64 {
    micros as f64 / 1e6
}
