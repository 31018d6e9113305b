//! One command of the program in a folder of its own.

use serde_json::Value;
use std::path::Path;
use std::process::{Command, Stdio};

/// Its exit status, what it wrote and what it complained of.
pub fn run(folder: &Path, words: &[&str]) -> (i32, String, String) {
    let output = Command::new(env!("CARGO_BIN_EXE_evenhand"))
        .env("LC_ALL", "C")
        .arg("--data")
        .arg(folder)
        .args(words)
        .stdin(Stdio::null())
        .output()
        .unwrap();
    (
        output.status.code().unwrap_or(-1),
        String::from_utf8(output.stdout).unwrap(),
        String::from_utf8(output.stderr).unwrap(),
    )
}

/// What it answers to `--json`; it must succeed.
pub fn json(folder: &Path, words: &[&str]) -> Value {
    let (code, out, err) = run(folder, &[words, &["--json"]].concat());
    assert_eq!(code, 0, "{words:?}: {err}");
    serde_json::from_str(&out).unwrap()
}

/// What it wrote; it must succeed.
pub fn said(folder: &Path, words: &[&str]) -> String {
    let (code, out, err) = run(folder, words);
    assert_eq!(code, 0, "{words:?}: {err}");
    out
}

/// It must refuse what it was given, and say so of this.
pub fn refused(folder: &Path, words: &[&str], by: &str) {
    let (code, _, err) = run(folder, words);
    assert_eq!(code, 2, "{words:?}: {err}");
    assert!(err.contains(by), "{words:?}: {err}");
}

/// A number of its answer, to within so much.
pub fn near(value: &Value, expected: f64, within: f64) {
    let found = value
        .as_f64()
        .unwrap_or_else(|| panic!("{value} is no number"));
    assert!(
        (found - expected).abs() <= within,
        "{found}, expected {expected}"
    );
}
