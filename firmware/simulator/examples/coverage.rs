//! How often a portion's stated uncertainty (coverage factor 2) covers its true
//! error, over cells drawn anew for every run within their data sheets' ranges.
//!
//! ```text
//! cargo run --release -p evenhand-simulator --example coverage -- FIRST LAST
//! ```
//!
//! Each run is another cell, converter, calibration weight and kitchen. Portions
//! that the instrument doubts by name are counted apart: what their uncertainty
//! should be nobody knows.

use evenhand_protocol::Mass;
use evenhand_simulator::desk::{Comparison, is_doubted, run};
use evenhand_simulator::scenario::{HARD, SHIPPED, Scenario};

/// A cell anywhere within what data sheets of inexpensive single-point cells
/// state, calibrated with a weight of class M1 (OIML R 111-1: 50 ppm), put into
/// every scenario in the place of its own.
const CELL: &str = "
nonlinearity_percent = [-0.02, 0.02]
hysteresis_percent = [0, 0.02]
creep_percent = [0, 0.05]
zero_drift_percent = [-0.05, 0.05]
span_drift_percent = [-0.02, 0.02]
off_centre_percent = [0, 0.02]
calibration_weight_ppm = [-50, 50]
";

/// The scenarios whose difficulty is a cell of its own keep it.
const OWN_CELL: [&str; 4] = [
    "five-kilograms",
    "five-kilograms-low",
    "five-kilograms-tin",
    "slides",
];

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let [first, last] = arguments.as_slice() else {
        return Err("give the first and the last seed".into());
    };
    let seeds = first.parse::<u64>()?..=last.parse::<u64>()?;
    println!(
        "| scenario | cells | portions | covered | first from a tin, covered | median U g | 95 % of errors within g | doubted |"
    );
    println!("| --- | --- | --- | --- | --- | --- | --- | --- |");
    for (name, text) in SHIPPED.iter().chain(HARD) {
        let text = if OWN_CELL.contains(name) {
            (*text).to_owned()
        } else {
            with_cell(text)
        };
        let scenario = Scenario::from_toml(&text)?;
        let mut counted = Counted::default();
        for seed in seeds.clone() {
            let (instrument, desk) = run(&scenario, seed);
            counted.take(&Comparison::of(&instrument, &desk));
        }
        counted.row(name, seeds.clone().count());
    }
    Ok(())
}

/// The scenario with another cell; what it says of the cell itself goes.
fn with_cell(text: &str) -> String {
    let mut kept = String::new();
    let mut in_cell = false;
    for line in text.lines() {
        if line.starts_with('[') {
            in_cell = line.trim() == "[cell]";
        }
        let fixed = ["capacity_grams", "moving_grams", "heat_", "warm_up_"];
        if in_cell && line.trim() != "[cell]" && !fixed.iter().any(|own| line.starts_with(own)) {
            continue;
        }
        kept.push_str(line);
        kept.push('\n');
        if in_cell && line.trim() == "[cell]" {
            kept.push_str(CELL);
        }
    }
    if !text.lines().any(|line| line.trim() == "[cell]") {
        kept.push_str("\n[cell]");
        kept.push_str(CELL);
    }
    kept
}

#[derive(Default)]
struct Counted {
    portions: usize,
    covered: usize,
    firsts: usize,
    firsts_covered: usize,
    doubted: usize,
    stated: Vec<Mass>,
    errors: Vec<Mass>,
}

impl Counted {
    fn take(&mut self, compared: &Comparison) {
        for (truth, record) in &compared.both {
            let Some(stated) = record.uncertainty else {
                continue;
            };
            if is_doubted(record) {
                self.doubted += 1;
                continue;
            }
            let error = (record.mass - truth.mass).abs();
            let covers = error <= stated;
            self.portions += 1;
            self.covered += usize::from(covers);
            if truth.number == 1 && truth.dish.is_none() {
                self.firsts += 1;
                self.firsts_covered += usize::from(covers);
            }
            self.stated.push(stated);
            self.errors.push(error);
        }
    }

    fn row(&mut self, name: &str, cells: usize) {
        let percent = |part: usize, whole: usize| {
            if whole == 0 {
                "-".to_owned()
            } else {
                format!("{:.1} %", 100.0 * part as f64 / whole as f64)
            }
        };
        self.stated.sort();
        self.errors.sort();
        let at = |sorted: &[Mass], share: f64| {
            let place = (sorted.len() as f64 * share) as usize;
            sorted
                .get(place)
                .map_or("-".to_owned(), |mass| format!("{:.3}", mass.grams()))
        };
        println!(
            "| {name} | {cells} | {} | {} | {} | {} | {} | {} |",
            self.portions,
            percent(self.covered, self.portions),
            percent(self.firsts_covered, self.firsts),
            at(&self.stated, 0.5),
            at(&self.errors, 0.95),
            self.doubted
        );
    }
}
