//! The built program in the made-up kitchen.

#![allow(dead_code, reason = "each test uses what it needs of it")]

use serde_json::Value;
use std::process::{Command, Output};

/// A kitchen whose store lies in a folder of its own.
pub struct Kitchen(pub tempfile::TempDir);

impl Kitchen {
    /// An empty one.
    pub fn new() -> Self {
        Self(tempfile::tempdir().unwrap())
    }

    /// Runs the program on this kitchen's store, in UTC and in English where no
    /// language is asked for.
    pub fn evenhand(&self, arguments: &[&str]) -> Output {
        Command::new(env!("CARGO_BIN_EXE_evenhand"))
            .env("TZ", "UTC")
            .env("LC_ALL", "C")
            .arg("--data")
            .arg(self.0.path().join("data"))
            .args(arguments)
            .output()
            .unwrap()
    }

    /// What it says when all is well.
    pub fn words(&self, arguments: &[&str]) -> String {
        let out = self.evenhand(arguments);
        assert!(
            out.status.success(),
            "{arguments:?}: {}",
            String::from_utf8_lossy(&out.stderr)
        );
        String::from_utf8(out.stdout).unwrap()
    }

    /// The one JSON object that it says.
    pub fn json(&self, arguments: &[&str]) -> Value {
        serde_json::from_str(&self.words(&[arguments, &["--json"]].concat())).unwrap()
    }

    /// The answer of something that is judged, and the exit status it comes with: 0 within, 3
    /// over the limit, 4 neither.
    pub fn judged(&self, arguments: &[&str], status: i32) -> Value {
        let (code, words) = self.told(&[arguments, &["--json"]].concat());
        assert_eq!(code, status, "{arguments:?}: {words}");
        serde_json::from_str(&words).unwrap()
    }

    /// The exit status and what was said.
    pub fn told(&self, arguments: &[&str]) -> (i32, String) {
        let out = self.evenhand(arguments);
        (
            out.status.code().unwrap_or(-1),
            String::from_utf8(out.stdout).unwrap(),
        )
    }

    /// The sentence of an error that is the person's to mend.
    pub fn refused(&self, arguments: &[&str]) -> String {
        let out = self.evenhand(arguments);
        assert_eq!(out.status.code(), Some(2), "{arguments:?}");
        assert!(out.stdout.is_empty(), "{arguments:?}");
        String::from_utf8(out.stderr).unwrap()
    }

    /// A file of this text in the kitchen's folder; its path.
    pub fn file(&self, name: &str, text: &str) -> String {
        let path = self.0.path().join(name);
        std::fs::write(&path, text).unwrap();
        path.display().to_string()
    }
}
