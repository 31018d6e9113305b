//! Heat and prep on the command line, through the built program.

use serde_json::Value;
use std::path::Path;
use std::process::{Command, Output};

fn evenhand(arguments: &[&str]) -> Output {
    // Never the data folder of whoever runs the tests.
    let data = tempfile::tempdir().unwrap();
    Command::new(env!("CARGO_BIN_EXE_evenhand"))
        .env("LC_ALL", "C")
        .env("EVENHAND_DATA", data.path())
        .args(arguments)
        .output()
        .unwrap()
}

fn json(arguments: &[&str]) -> Value {
    let out = evenhand(arguments);
    assert!(
        out.status.success(),
        "{}",
        String::from_utf8_lossy(&out.stderr)
    );
    serde_json::from_slice(&out.stdout).unwrap()
}

/// The sentence of an error that is the person's to mend.
fn refused(arguments: &[&str]) -> String {
    let out = evenhand(arguments);
    assert_eq!(out.status.code(), Some(2));
    String::from_utf8(out.stderr).unwrap()
}

fn write(folder: &Path, name: &str, text: &str) -> String {
    let path = folder.join(name);
    std::fs::write(&path, text).unwrap();
    path.display().to_string()
}

/// A pan that falls toward 3 °C with a time constant, a reading every five
/// minutes for six hours and a half.
fn pan(time_constant_minutes: f64) -> String {
    let mut text = String::from("time,celsius\n");
    for reading in 0..78 {
        let minutes = f64::from(reading) * 5.0;
        let celsius = 3.0 + 87.0 * (-minutes / time_constant_minutes).exp();
        let (hour, minute) = (9 + reading * 5 / 60, reading * 5 % 60);
        text.push_str(&format!(
            "2026-05-01T{hour:02}:{minute:02}:00Z,{celsius:.2}\n"
        ));
    }
    text
}

// From 57 to 21 degC takes the time constant times ln(54 / 18) = 1.0986, by Newton's law of
// cooling: 88 minutes at 80, 165 at 150. The limit is 2 h (US FDA Food Code 2022, 3-501.14(A),
// from memory).
#[test]
fn a_log_is_held_against_a_limit() {
    let folder = tempfile::tempdir().unwrap();
    let quick = write(folder.path(), "quick.csv", &pan(80.0));
    let slow = write(folder.path(), "slow.csv", &pan(150.0));
    let answer = json(&[
        "heat", "check", "--limit", "cooling", "--log", &quick, "--json",
    ]);
    assert_eq!(answer["findings"][0]["outcome"], "kept");
    assert!(
        answer["limit_source"]
            .as_str()
            .unwrap()
            .contains("3-501.14(A)")
    );
    // What is over exits with 3, and the answer is given all the same.
    let over = evenhand(&[
        "heat", "check", "--limit", "cooling", "--log", &slow, "--json",
    ]);
    assert_eq!(over.status.code(), Some(3));
    let answer: Value = serde_json::from_slice(&over.stdout).unwrap();
    assert_eq!(answer["findings"][0]["outcome"], "broken");
    assert_eq!(answer["outcome"], "broken");
    for log in [&quick, &slow] {
        let words = evenhand(&["heat", "check", "--limit", "cooling", "--log", log]);
        let words = String::from_utf8(words.stdout).unwrap();
        assert!(words.contains("limit from"));
        assert!(!words.to_lowercase().contains("safe"));
    }
}

/// The exit status where nobody reads: the other end of its output is closed before it
/// begins.
fn unread(arguments: &[&str]) -> Option<i32> {
    let data = tempfile::tempdir().unwrap();
    let (reader, writer) = std::io::pipe().unwrap();
    drop(reader);
    let out = Command::new(env!("CARGO_BIN_EXE_evenhand"))
        .env("LC_ALL", "C")
        .env("EVENHAND_DATA", data.path())
        .args(arguments)
        .stdout(writer)
        .output()
        .unwrap();
    let said = String::from_utf8(out.stderr).unwrap();
    assert!(!said.contains("panicked"), "{said}");
    out.status.code()
}

// `heat check ... | head -1` in a script of the kitchen: over is over, however much was read.
#[test]
fn a_verdict_is_told_by_the_exit_status_though_nobody_reads() {
    let folder = tempfile::tempdir().unwrap();
    let quick = write(folder.path(), "quick.csv", &pan(80.0));
    let slow = write(folder.path(), "slow.csv", &pan(150.0));
    for (log, code) in [(&quick, 0), (&slow, 3)] {
        let check = ["heat", "check", "--limit", "cooling", "--log", log];
        assert_eq!(unread(&check), Some(code), "{log}");
        assert_eq!(unread(&[&check[..], &["--json"]].concat()), Some(code));
    }
    // 7.8 g of an agent of 6.25 % in a kilogram of meat is 487.5 ppm, against 200 at most for
    // bacon cured dry (9 CFR 424.22(b), from memory); 2 g is 125 ppm.
    for (agent, code) in [("7.8g", 3), ("2g", 0)] {
        let ppm = [
            "cure",
            "ppm",
            "--method",
            "bacon-dry",
            "--meat",
            "1kg",
            "--agent",
            agent,
            "--nitrite-fraction",
            "6.25%",
        ];
        assert_eq!(unread(&ppm), Some(code), "{agent}");
        assert_eq!(unread(&[&ppm[..], &["--json"]].concat()), Some(code));
    }
    // What judges nothing succeeds, read or not.
    assert_eq!(unread(&["heat", "limits"]), Some(0));
}

#[test]
fn a_forecast_names_its_interval() {
    let folder = tempfile::tempdir().unwrap();
    let text = pan(80.0);
    let so_far: String = text.lines().take(20).flat_map(|l| [l, "\n"]).collect();
    let log = write(folder.path(), "pan.csv", &so_far);
    let answer = json(&[
        "heat", "forecast", "--log", &log, "--from", "21degC", "--to", "21degC", "--toward",
        "3degC", "--json",
    ]);
    assert_eq!(answer["state"], "coming");
    // 80 min x ln(87 / 18) = 126 min after nine.
    let truth = "2026-05-01T11:06:00Z";
    assert!(answer["enters"]["early"].as_str().unwrap() <= truth);
    assert!(answer["enters"]["late"].as_str().unwrap() >= truth);
}

#[test]
fn a_menu_is_worked_backward() {
    let folder = tempfile::tempdir().unwrap();
    let menu = write(
        folder.path(),
        "menu.toml",
        r#"
        opens = "18:00"
        [[preparation]]
        name = "necks"
        [[preparation.step]]
        name = "into the brine"
        takes = "30 min"
        [[preparation.step]]
        name = "brine"
        rests = "2 days to 3 days"
        [[preparation.step]]
        name = "roast"
        takes = "3 h"
        "#,
    );
    let plan = |at: &str, more: &[&str]| {
        let mut arguments = vec![
            "prep",
            "plan",
            "--for",
            "2026-05-08",
            "--menu",
            &menu,
            "--at",
            at,
            "--json",
        ];
        arguments.extend(more);
        json(&arguments)
    };
    let in_time = plan("2026-05-05T12:00:00Z", &[]);
    assert_eq!(in_time["late_minutes"], 0);
    assert_eq!(in_time["steps"].as_array().unwrap().len(), 3);
    let late = plan("2026-05-08T15:00:00Z", &[]);
    assert_eq!(late["steps"][0]["standing"], "late");
    let done = plan(
        "2026-05-08T12:00:00Z",
        &["--done", "necks: into the brine", "--done", "necks: brine"],
    );
    assert_eq!(done["late_minutes"], 0);
    let what_if = plan(
        "2026-05-08T12:00:00Z",
        &[
            "--done",
            "necks: into the brine",
            "--done",
            "necks: brine",
            "--later",
            "necks: roast=4 h",
        ],
    );
    assert_eq!(what_if["late_minutes"], 60);
}

#[test]
fn nonsense_is_refused_by_flag() {
    let folder = tempfile::tempdir().unwrap();
    let log = write(folder.path(), "pan.csv", &pan(80.0));
    let bad = write(folder.path(), "bad.csv", "time,celsius\nsoon,80\n");
    assert!(refused(&["heat", "check", "--limit", "no", "--log", &log]).contains("--limit"));
    let cooling = ["heat", "check", "--limit", "cooling", "--log"];
    assert!(refused(&[&cooling[..], &["/no/such"]].concat()).contains("--log"));
    assert!(refused(&[&cooling[..], &[&bad]].concat()).contains("line 2"));
    let forecast = ["heat", "forecast", "--log", &log, "--to", "5degC", "--from"];
    assert!(refused(&[&forecast[..], &["21"]].concat()).contains("--from"));
    assert!(refused(&[&forecast[..], &["21degC"]].concat()).contains("lower end"));
    assert!(refused(&["prep", "plan", "--for", "friday", "--menu", &log]).contains("--for"));
    assert!(refused(&["prep", "plan", "--for", "2026-05-08", "--menu", &log]).contains("--menu"));
}
