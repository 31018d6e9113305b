//! One command of the program in a folder of its own.

use serde_json::Value;
use std::path::Path;
use std::process::{Command, Stdio};

/// Its exit status, what it wrote and what it complained of.
pub fn run(folder: &Path, words: &[&str]) -> (i32, String, String) {
    let output = Command::new(env!("CARGO_BIN_EXE_evenhand"))
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
