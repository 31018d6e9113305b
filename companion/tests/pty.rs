//! The built program on a serial port, which is a pseudo-terminal.

use evenhand_protocol::frame::{self, MAX_FRAME};
use evenhand_protocol::{Command as ToInstrument, Envelope, Fault, Report, Uptime};
use nix::sys::signal::{Signal, kill};
use nix::sys::termios::{SetArg, cfmakeraw, tcgetattr, tcsetattr};
use nix::unistd::{Pid, ttyname};
use serde_json::Value;
use std::collections::BTreeSet;
use std::fs::File;
use std::io::{BufRead, BufReader, Read, Write};
use std::os::fd::OwnedFd;
use std::process::{Child, ChildStdout, Command, Output, Stdio};
use tempfile::TempDir;

fn evenhand(data: &TempDir, arguments: &[&str]) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_evenhand"));
    command.env("LC_ALL", "C");
    command
        .args(arguments)
        .env("EVENHAND_DATA", data.path())
        .stdin(Stdio::null())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped());
    command
}

fn portion<'a>(port: &'a str, more: &[&'a str]) -> Vec<&'a str> {
    let base = [
        "portion",
        "--dish",
        "shrimp",
        "--target",
        "30g",
        "--tolerance",
        "1g",
        "--taking",
        "--json",
        "--port",
        port,
    ];
    [&base, more].concat()
}

/// A child that is ended with the test.
struct Ended(Child);

impl Drop for Ended {
    fn drop(&mut self) {
        let _ = self.0.kill();
        let _ = self.0.wait();
    }
}

/// The simulated bench on a pseudo-terminal, faster than the world.
fn simulate(data: &TempDir, speed: &str) -> (Ended, String) {
    let arguments = [
        "simulate",
        "--scenario",
        "saltmarsh-shrimp-taking",
        "--pty",
        "--seed",
        "5",
        "--speed",
        speed,
    ];
    let mut child = evenhand(data, &arguments).spawn().unwrap();
    let mut path = String::new();
    BufReader::new(child.stdout.take().unwrap())
        .read_line(&mut path)
        .unwrap();
    (Ended(child), path.trim().to_owned())
}

fn text(output: &Output) -> (i32, String, String) {
    (
        output.status.code().unwrap_or(-1),
        String::from_utf8_lossy(&output.stdout).into_owned(),
        String::from_utf8_lossy(&output.stderr).into_owned(),
    )
}

fn next_json(lines: &mut impl Iterator<Item = std::io::Result<String>>) -> Value {
    serde_json::from_str(&lines.next().expect("the output ended").unwrap()).unwrap()
}

fn exported(data: &TempDir) -> Vec<Value> {
    let output = evenhand(data, &["export", "--format", "json", "--out", "-"])
        .output()
        .unwrap();
    serde_json::from_slice(&output.stdout).unwrap()
}

#[test]
fn killed_in_the_middle_it_goes_on_and_every_portion_is_recorded_once() {
    let data = tempfile::tempdir().unwrap();
    let (_bench, port) = simulate(&data, "40");

    let mut child = evenhand(&data, &portion(&port, &[])).spawn().unwrap();
    let out: ChildStdout = child.stdout.take().unwrap();
    let mut lines = BufReader::new(out).lines();
    for _ in 0..4 {
        next_json(&mut lines);
    }
    child.kill().unwrap();
    child.wait().unwrap();
    let before = exported(&data);
    assert!(before.len() >= 4);

    // The scale portions on by itself meanwhile.
    let output = evenhand(&data, &portion(&port, &["--count", "15"]))
        .output()
        .unwrap();
    let (code, out, err) = text(&output);
    assert_eq!(code, 0, "{err}");
    assert!(err.contains("Going on with the run"), "{err}");
    let summary: Value = serde_json::from_str(out.lines().last().unwrap()).unwrap();
    assert_eq!(summary["summary"]["n"].as_u64(), Some(15));

    let rows = exported(&data);
    let numbers: Vec<u64> = rows
        .iter()
        .map(|row| {
            row["id"]
                .as_str()
                .unwrap()
                .rsplit('-')
                .next()
                .unwrap()
                .parse()
                .unwrap()
        })
        .collect();
    let all: Vec<u64> = (1..=numbers.len() as u64).collect();
    assert_eq!(numbers, all, "each once, in order, none missing");
    let runs: BTreeSet<u64> = rows
        .iter()
        .map(|row| row["run"].as_u64().unwrap())
        .collect();
    assert_eq!(runs.len(), 1, "it is one run");
    // What was told before and after the kill is disjoint and together all.
    let told = out.lines().count() - 1;
    assert_eq!(before.len() + told, rows.len());
}

#[test]
fn ctrl_c_ends_the_run_and_tells_its_spread() {
    let data = tempfile::tempdir().unwrap();
    let (_bench, port) = simulate(&data, "40");
    let mut child = evenhand(&data, &portion(&port, &[])).spawn().unwrap();
    let mut lines = BufReader::new(child.stdout.take().unwrap()).lines();
    next_json(&mut lines);
    next_json(&mut lines);
    kill(
        Pid::from_raw(i32::try_from(child.id()).unwrap()),
        Signal::SIGINT,
    )
    .unwrap();
    let last = lines.map(Result::unwrap).last().unwrap();
    assert!(child.wait().unwrap().success());
    let summary: Value = serde_json::from_str(&last).unwrap();
    let counted = exported(&data)
        .iter()
        .filter(|row| row["counts"] == true)
        .count() as u64;
    assert_eq!(summary["summary"]["n"].as_u64(), Some(counted));
    // The scale is free again: a new run begins at once.
    let output = evenhand(&data, &portion(&port, &["--count", "1"]))
        .output()
        .unwrap();
    let (code, _, err) = text(&output);
    assert_eq!(code, 0, "{err}");
    assert!(!err.contains("Going on with the run"), "{err}");
}

#[test]
fn two_programs_do_not_share_a_port() {
    let data = tempfile::tempdir().unwrap();
    let (_bench, port) = simulate(&data, "40");
    let mut first = evenhand(&data, &portion(&port, &[])).spawn().unwrap();
    let mut lines = BufReader::new(first.stdout.take().unwrap()).lines();
    next_json(&mut lines);
    let first = Ended(first);
    let output = evenhand(&data, &portion(&port, &[])).output().unwrap();
    let (code, out, err) = text(&output);
    assert_eq!((code, out.as_str()), (1, ""), "{err}");
    assert!(
        err.contains("Another program is using") && err.contains("Close the other program"),
        "{err}"
    );
    drop(first);
}

// Peers that are not ours.

/// A raw pseudo-terminal whose far end the test holds.
fn far_end() -> (File, OwnedFd, String) {
    let pair = nix::pty::openpty(None, None).unwrap();
    let mut settings = tcgetattr(&pair.slave).unwrap();
    cfmakeraw(&mut settings);
    tcsetattr(&pair.slave, SetArg::TCSANOW, &settings).unwrap();
    let path = ttyname(&pair.slave).unwrap().to_str().unwrap().to_owned();
    (File::from(pair.master), pair.slave, path)
}

/// What the program says of a peer that answers whatever it hears with these
/// bytes.
fn against(answer: Option<Vec<u8>>) -> (i32, String, String) {
    let data = tempfile::tempdir().unwrap();
    let (mut master, slave, path) = far_end();
    let child = evenhand(&data, &portion(&path, &[])).spawn().unwrap();
    if let Some(answer) = answer {
        std::thread::spawn(move || {
            let mut heard = [0; 256];
            // Ends when the other end is closed.
            while master.read(&mut heard).is_ok_and(|count| count > 0) {
                if master.write_all(&answer).is_err() {
                    break;
                }
            }
        });
        let output = child.wait_with_output().unwrap();
        drop(slave);
        text(&output)
    } else {
        text(&child.wait_with_output().unwrap())
    }
}

fn frame_of_report() -> Vec<u8> {
    let report = Report::Fault {
        at: Uptime::from_millis(0),
        fault: Fault::Overload,
        present: true,
    };
    let mut bytes = [0; MAX_FRAME];
    let length = frame::encode(
        &Envelope {
            sequence: 0,
            message: report,
        },
        &mut bytes,
    )
    .unwrap();
    bytes[..length].to_vec()
}

#[test]
fn a_silent_port_is_said_to_be_silent() {
    let (code, out, err) = against(None);
    assert_eq!((code, out.as_str()), (1, ""), "{err}");
    assert!(err.contains("Nothing answers on"), "{err}");
}

#[test]
fn a_peer_that_is_not_ours_is_said_not_to_be() {
    let (code, out, err) = against(Some(b"HTTP/1.1 400 Bad Request\r\n\r\n".to_vec()));
    assert_eq!((code, out.as_str()), (1, ""), "{err}");
    assert!(err.contains("not as an Evenhand instrument"), "{err}");
}

#[test]
fn a_peer_of_another_version_is_refused_with_what_to_do() {
    let report = frame_of_report();
    let mut raw = cobs::decode_vec(&report[..report.len() - 1]).unwrap();
    let body = raw.len() - 4;
    raw[0] = 7;
    let checksum = crc::Crc::<u32>::new(&crc::CRC_32_ISCSI).checksum(&raw[..body]);
    raw[body..].copy_from_slice(&checksum.to_le_bytes());
    let mut other = vec![0];
    other.extend(cobs::encode_vec(&raw));
    other.push(0);
    let (code, out, err) = against(Some(other));
    assert_eq!((code, out.as_str()), (1, ""), "{err}");
    assert!(err.contains("speaks version 7 of the link"), "{err}");
    assert!(
        err.contains("Install a newer version of this program"),
        "{err}"
    );
}

#[test]
fn another_desktop_is_no_instrument() {
    let mut bytes = [0; MAX_FRAME];
    let command = Envelope {
        sequence: 0,
        message: ToInstrument::Tare,
    };
    let length = frame::encode(&command, &mut bytes).unwrap();
    let (code, _, err) = against(Some(bytes[..length].to_vec()));
    assert_eq!(code, 1, "{err}");
    assert!(err.contains("what a desktop program sends"), "{err}");
}
