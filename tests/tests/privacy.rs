//! What the program asks of the system: no network, no program of its own
//! accord, and nothing outside its folder.

use evenhand_tests::process::evenhand;
use std::fs;
use std::path::Path;
use std::process::{Command, Stdio};

/// The system calls that a command of the program makes in a folder, by strace.
fn asked_for(folder: &Path, calls: &str, arguments: &[&str]) -> String {
    let log = folder.join("calls");
    let output = Command::new("strace")
        .args(["-f", "-qq", "-e", &format!("trace={calls}"), "-o"])
        .arg(&log)
        .arg(evenhand().unwrap())
        .arg("--data")
        .arg(folder.join("data"))
        .args(arguments)
        .current_dir(folder)
        .stdin(Stdio::null())
        .output()
        .expect("strace is there");
    assert!(
        output.status.success(),
        "{}",
        String::from_utf8_lossy(&output.stderr)
    );
    fs::read_to_string(log).unwrap()
}

/// A night's portions, a spread, a copy of everything.
const COMMANDS: [&[&str]; 5] = [
    &[
        "portion",
        "--simulated",
        "--dish",
        "Shrimp",
        "--target",
        "30g",
        "--tolerance",
        "1g",
        "--taking",
        "--count",
        "3",
    ],
    &["ports"],
    &["brine", "convert", "--of-water", "10%"],
    &["export", "--format", "csv", "--out", "portions.csv"],
    &["gather", "."],
];

#[test]
fn no_command_opens_a_socket_to_the_network() {
    let folder = tempfile::tempdir().unwrap();
    for arguments in COMMANDS {
        let calls = asked_for(
            folder.path(),
            "socket,socketpair,connect,bind,sendto",
            arguments,
        );
        for call in calls.lines() {
            assert!(
                !call.contains("AF_INET") && !call.contains("AF_NETLINK"),
                "{arguments:?}: {call}"
            );
        }
    }
}

#[test]
fn no_command_starts_another_program() {
    let folder = tempfile::tempdir().unwrap();
    for arguments in COMMANDS {
        let calls = asked_for(folder.path(), "execve", arguments);
        assert_eq!(
            calls
                .lines()
                .filter(|call| call.contains("execve("))
                .count(),
            1,
            "{arguments:?}: {calls}"
        );
    }
}

/// The check above would see one.
#[test]
fn a_socket_would_be_seen() {
    let folder = tempfile::tempdir().unwrap();
    let log = folder.path().join("calls");
    let status = Command::new("strace")
        .args(["-f", "-qq", "-e", "trace=socket", "-o"])
        .arg(&log)
        .args(["bash", "-c", "exec 3<>/dev/tcp/127.0.0.1/9 || true"])
        .stderr(Stdio::null())
        .status()
        .expect("strace is there");
    assert!(status.success());
    assert!(fs::read_to_string(log).unwrap().contains("AF_INET"));
}

/// A dish may be called anything; a spreadsheet must not calculate with it.
#[test]
fn a_name_that_is_a_formula_is_text_in_a_spreadsheet() {
    let folder = tempfile::tempdir().unwrap();
    let data = folder.path().join("data");
    let run = |arguments: &[&str]| {
        let output = Command::new(evenhand().unwrap())
            .arg("--data")
            .arg(&data)
            .args(arguments)
            .current_dir(folder.path())
            .stdin(Stdio::null())
            .output()
            .unwrap();
        assert!(
            output.status.success(),
            "{}",
            String::from_utf8_lossy(&output.stderr)
        );
    };
    // OWASP, "CSV Injection" (from memory): cells that begin with these are formulas.
    for (place, first) in ["=", "+", "-", "@"].iter().enumerate() {
        let dish = format!("{first}HYPERLINK(\"x\")");
        let dish = format!("--dish={dish}");
        let seed = place.to_string();
        run(&[
            "portion",
            "--simulated",
            "--seed",
            &seed,
            &dish,
            "--target",
            "30g",
            "--tolerance",
            "1g",
            "--taking",
            "--count",
            "1",
        ]);
    }
    run(&["export", "--format", "csv", "--out", "portions.csv"]);
    let text = fs::read(folder.path().join("portions.csv")).unwrap();
    let mut cells = 0;
    for row in csv::Reader::from_reader(text.as_slice()).records() {
        for cell in &row.unwrap() {
            let number = cell.parse::<f64>().is_ok();
            assert!(
                number || !cell.starts_with(['=', '+', '-', '@', '\t', '\r']),
                "{cell:?}"
            );
            cells += usize::from(cell.contains("HYPERLINK"));
        }
    }
    assert_eq!(cells, 4, "{}", String::from_utf8_lossy(&text));
}
