//! Portions at a busy table whose true masses are known, and what is on record
//! of them afterwards.

use crate::process::Running;
use jiff::Timestamp;
use serde_json::Value;
use std::path::{Path, PathBuf};

/// A dish with its target and tolerance, and what stands on the pan.
#[derive(Debug, Clone, Copy)]
pub struct Way {
    /// `adding` or `taking`.
    pub mode: &'static str,
    /// What is portioned.
    pub dish: &'static str,
    /// In grams.
    pub target: f64,
    /// In grams, to either side.
    pub tolerance: f64,
    /// The scenario's table of the dishes or of the tin.
    pub vessel: &'static str,
}

/// Dough into baskets.
pub const ADDING: Way = Way {
    mode: "adding",
    dish: "Dough basket",
    target: 62.0,
    tolerance: 2.0,
    vessel: "[dishes]\ngrams = [110, 150]",
};

/// Shrimp out of a tin.
pub const TAKING: Way = Way {
    mode: "taking",
    dish: "Shrimp",
    target: 30.0,
    tolerance: 1.0,
    vessel: "[tin]\ngrams = [85, 95]\nfilled_grams = [995, 1005]",
};

impl Way {
    /// The true masses in grams: spread over one and a half tolerances to
    /// either side, in an order without a pattern.
    #[must_use]
    pub fn masses(&self, portions: usize) -> Vec<f64> {
        let last = (portions.max(2) - 1) as f64;
        (0..portions)
            .map(|i| {
                let off = (i * 37 % portions) as f64 / last - 0.5;
                ((self.target + 3.0 * self.tolerance * off) * 1000.0).round() / 1000.0
            })
            .collect()
    }

    /// The scenario, with noise and bumps, and with events in addition.
    #[must_use]
    pub fn scenario(&self, portions: usize, events: &str) -> String {
        let Self {
            mode,
            dish,
            target,
            tolerance,
            vessel,
        } = self;
        let masses = self.masses(portions);
        format!(
            r#"
title = "Saltmarsh: {dish} at a busy table"
mode = "{mode}"
dish = "{dish}"

[goal]
target_grams = {target}
tolerance_grams = {tolerance}

[portions]
masses_grams = {masses:?}

{vessel}

[surroundings]
celsius = [22, 28]
hum_grams = [0.05, 0.3]
extractor_grams = [0.1, 0.3]
footfalls_a_minute = 2
footfall_grams = [1, 10]
bumps_a_minute = 2

{events}
"#
        )
    }

    /// The arguments for `evenhand` to portion so many at a port.
    #[must_use]
    pub fn portion(&self, data: &str, port: &str, portions: usize) -> Vec<String> {
        [
            "--data",
            data,
            "portion",
            "--port",
            port,
            "--dish",
            self.dish,
            "--target",
            &format!("{}g", self.target),
            "--tolerance",
            &format!("{}g", self.tolerance),
            &format!("--{}", self.mode),
            "--count",
            &portions.to_string(),
            "--json",
        ]
        .map(str::to_owned)
        .to_vec()
    }

    /// Holds what is on record in `data` against the true masses, in order.
    ///
    /// # Errors
    /// Where it cannot be read.
    pub fn reckoning(&self, data: &Path, portions: usize) -> Result<Reckoning, String> {
        Ok(Reckoning::of(
            &standing(data, None)?,
            &self.masses(portions),
        ))
    }

    /// The same for what is on record of this dish, where there are others.
    ///
    /// # Errors
    /// Where it cannot be read.
    pub fn reckoning_of_dish(&self, data: &Path, portions: usize) -> Result<Reckoning, String> {
        let record = standing(data, Some(self.dish))?;
        Ok(Reckoning::of(&record, &self.masses(portions)))
    }
}

/// The simulated bench on a pseudo-terminal, serving a scenario; and its port.
///
/// # Errors
/// Where it cannot be started.
pub fn serve(
    folder: &Path,
    scenario: &str,
    seed: u64,
    speed: u32,
) -> Result<(Running, String), String> {
    serve_with(folder, scenario, seed, speed, &[])
}

/// The same, with more arguments for the bench.
///
/// # Errors
/// Where it cannot be started.
pub fn serve_with(
    folder: &Path,
    scenario: &str,
    seed: u64,
    speed: u32,
    more: &[&str],
) -> Result<(Running, String), String> {
    let file = folder.join("scenario.toml");
    std::fs::write(&file, scenario).map_err(|e| format!("{}: {e}", file.display()))?;
    let (file, seed, speed) = (
        file.display().to_string(),
        seed.to_string(),
        speed.to_string(),
    );
    let mut arguments = vec![
        "simulate",
        "--scenario",
        &file,
        "--pty",
        "--seed",
        &seed,
        "--speed",
        &speed,
    ];
    arguments.extend(more);
    let mut bench = Running::start(arguments)?;
    let port = bench.line()?.ok_or("the bench names no port")?;
    Ok((bench, port))
}

/// What is on record, beside what happened.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Reckoning {
    /// Portions that happened.
    pub true_portions: usize,
    /// Further than 0.1 g from the true mass.
    pub wrong: usize,
    /// Happened and not on record.
    pub lost: usize,
    /// On record more often than they happened.
    pub doubled: usize,
}

impl Reckoning {
    /// Beyond this many grams a portion is wrong.
    pub const WITHIN: f64 = 0.1;

    /// Pairs what is on record with what happened, both in order.
    #[must_use]
    pub fn of(record: &[f64], truth: &[f64]) -> Self {
        Self {
            true_portions: truth.len(),
            wrong: record
                .iter()
                .zip(truth)
                .filter(|(got, truth)| (*got - *truth).abs() > Self::WITHIN)
                .count(),
            lost: truth.len().saturating_sub(record.len()),
            doubled: record.len().saturating_sub(truth.len()),
        }
    }

    /// Whether nothing is wrong, lost or doubled.
    #[must_use]
    pub fn is_clean(&self) -> bool {
        self.wrong + self.lost + self.doubled == 0
    }
}

/// A portion as it is on record.
#[derive(Debug, Clone, PartialEq)]
pub struct Recorded {
    /// Its identity.
    pub id: String,
    /// Its mass, in grams.
    pub grams: f64,
    /// Whether it counts: it was neither corrected nor struck out.
    pub counts: bool,
}

/// Everything on record, as exported.
///
/// # Errors
/// Where the store cannot be exported.
pub fn on_record(data: &Path) -> Result<Vec<Recorded>, String> {
    let recorded = |portion: &Value| {
        Some(Recorded {
            id: portion["id"].as_str()?.to_owned(),
            grams: portion["grams"].as_f64()?,
            counts: portion["counts"].as_bool()?,
        })
    };
    exported(data)?
        .iter()
        .map(|portion| recorded(portion).ok_or_else(|| format!("what is {portion} to mean?")))
        .collect()
}

/// When each portion on record was made, by the program's clock, in order of time.
///
/// # Errors
/// Where the store cannot be exported, or a portion has no time.
pub fn recorded_times(data: &Path) -> Result<Vec<Timestamp>, String> {
    let mut times = exported(data)?
        .iter()
        .map(|portion| {
            let time = portion["at"].as_str().unwrap_or_default();
            time.parse()
                .map_err(|error| format!("the time of {portion}: {error}"))
        })
        .collect::<Result<Vec<Timestamp>, String>>()?;
    times.sort_unstable();
    Ok(times)
}

/// The masses of the portions that count, of one dish or of all, in grams, in
/// the order they were made, as exported.
///
/// # Errors
/// Where the store cannot be exported, or an identity stands in it twice.
pub fn standing(data: &Path, dish: Option<&str>) -> Result<Vec<f64>, String> {
    let all = exported(data)?;
    let mut identities: Vec<_> = all.iter().filter_map(|p| p["id"].as_str()).collect();
    identities.sort_unstable();
    identities.dedup();
    if identities.len() != all.len() {
        return Err(String::from("an identity stands twice, or not at all"));
    }
    all.iter()
        .filter(|portion| portion["counts"] == true)
        .filter(|portion| dish.is_none_or(|dish| portion["dish"] == dish))
        .map(|portion| {
            portion["grams"]
                .as_f64()
                .ok_or_else(|| format!("no grams in {portion}"))
        })
        .collect()
}

fn exported(data: &Path) -> Result<Vec<Value>, String> {
    let out: PathBuf = data.with_extension("export.json");
    let mut export = Running::start([
        "--data",
        &data.display().to_string(),
        "export",
        "--format",
        "json",
        "--out",
        &out.display().to_string(),
    ])?;
    if !export.wait()? {
        return Err(String::from("the export failed"));
    }
    let bytes = std::fs::read(&out).map_err(|e| format!("{}: {e}", out.display()))?;
    std::fs::remove_file(&out).map_err(|e| format!("{}: {e}", out.display()))?;
    serde_json::from_slice(&bytes).map_err(|e| e.to_string())
}
