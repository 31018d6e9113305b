//! The frames of `golden-frames.json`, which were made by `evenhand_wire.py` from
//! the tables of WIRE.md: byte stuffing, varints and checksum written there by
//! hand. Here they are held against this crate, message by message and both
//! ways, and against the examples in WIRE.md.

use evenhand_protocol::frame::{MAX_FRAME, MAX_PAYLOAD, PAYLOAD_ROOM, encode};
use evenhand_protocol::{Command, Envelope, FrameError, Message, Reader, Report, Version};
use serde::Deserialize;
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

/// One row of the file.
#[derive(Debug, Deserialize)]
struct Case {
    name: String,
    /// The version that it came with; `later` for what this one does not know.
    since: String,
    kind: char,
    sequence: u16,
    /// What it says, where that is known here.
    message: Option<serde_json::Value>,
    /// The payload, where it is of a later version and so made by hand.
    payload: Option<String>,
    unknown: Option<String>,
    other_major: Option<u8>,
    frame: String,
}

fn beside(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join(name)
}

fn cases() -> Vec<Case> {
    let text = std::fs::read_to_string(beside("golden-frames.json")).unwrap();
    serde_json::from_str(&text).unwrap()
}

fn bytes(hex: &str) -> Vec<u8> {
    (0..hex.len())
        .step_by(2)
        .map(|at| u8::from_str_radix(&hex[at..at + 2], 16).unwrap())
        .collect()
}

fn hex(bytes: &[u8]) -> String {
    bytes.iter().map(|byte| format!("{byte:02x}")).collect()
}

/// The payload of a frame that has no block of 254 bytes.
fn payload(frame: &[u8]) -> Vec<u8> {
    let mut raw = Vec::new();
    let mut at = 0;
    while frame[at] != 0 {
        let next = at + usize::from(frame[at]);
        raw.extend(&frame[at + 1..next]);
        raw.push(0);
        at = next;
    }
    raw.pop();
    raw[4..raw.len() - 4].to_vec()
}

fn hold<M>(case: &Case)
where
    M: Message + Copy + PartialEq + std::fmt::Debug + for<'de> Deserialize<'de>,
{
    let name = &case.name;
    let frame = bytes(&case.frame);
    let mut reader = Reader::<M>::new();
    let mut got = frame.iter().filter_map(|byte| reader.push(*byte));
    let read = got.next().expect("a frame closes with a zero");
    assert_eq!(got.next(), None, "{name}");
    let sequence = case.sequence;
    match (&case.message, &case.unknown, case.other_major) {
        (Some(message), None, None) => {
            let message: M = serde_json::from_value(message.clone()).expect(name);
            let envelope = Envelope { sequence, message };
            assert_eq!(read, Ok(envelope), "reading: {name}");
            // What a later version adds can be read and not written.
            if case.payload.is_none() {
                let mut out = [0; MAX_FRAME];
                let length = encode(&envelope, &mut out).unwrap();
                assert_eq!(hex(&out[..length]), case.frame, "writing: {name}");
            }
        }
        (None, Some(unknown), None) => {
            assert_eq!(read, Err(FrameError::UnknownMessage { sequence }), "{name}");
            assert_eq!(&hex(reader.payload()), unknown, "kept: {name}");
        }
        (None, None, Some(theirs)) => {
            assert_eq!(read, Err(FrameError::OtherVersion { theirs }), "{name}");
        }
        _ => panic!("{name} says none of message, unknown and other_major, or several"),
    }
}

#[test]
fn every_golden_frame_is_written_and_read_so() {
    let cases = cases();
    for case in &cases {
        match case.kind {
            'R' => hold::<Report>(case),
            'C' => hold::<Command>(case),
            other => panic!("{}: no kind is called {other}", case.name),
        }
    }
    let written = cases.iter().filter(|case| case.payload.is_none()).count();
    assert!(written > 90, "{written} of {}", cases.len());
}

/// The numbers that a payload may have in one place, by what the reader takes.
fn known<M: Message>(head: &[u8], tail: usize) -> BTreeSet<u8> {
    (0..0x80)
        .filter(|number| {
            let mut raw = vec![1, M::KIND, 0, 0];
            raw.extend(head);
            raw.push(*number);
            // Zeros are valid fields of every kind.
            raw.resize(raw.len() + tail, 0);
            raw.extend(
                crc::Crc::<u32>::new(&crc::CRC_32_ISCSI)
                    .checksum(&raw)
                    .to_le_bytes(),
            );
            let mut stuffed = vec![0; cobs::max_encoding_length(raw.len()) + 1];
            cobs::encode(&raw, &mut stuffed);
            let mut reader = Reader::<M>::new();
            matches!(
                stuffed.iter().find_map(|byte| reader.push(*byte)),
                Some(Ok(_))
            )
        })
        .collect()
}

/// A message that is added and forgotten in the file is found here: every number that the reader
/// knows, in every list of WIRE.md, is in a golden frame.
#[test]
fn every_variant_has_a_golden_frame() {
    let payloads = |kind| -> Vec<Vec<u8>> {
        let of = cases().into_iter().filter(move |case| case.kind == kind);
        of.filter(|case| case.message.is_some())
            .map(|case| payload(&bytes(&case.frame)))
            .collect()
    };
    let (reports, commands) = (payloads('R'), payloads('C'));
    let seen = |all: &[Vec<u8>], head: &[u8], skip: usize| -> BTreeSet<u8> {
        all.iter()
            .filter(|payload| payload.starts_with(head))
            // A time of so many bytes lies between.
            .map(|payload| {
                let mut at = head.len();
                for _ in 0..skip {
                    at += payload[at..]
                        .iter()
                        .position(|byte| byte & 0x80 == 0)
                        .unwrap()
                        + 1;
                }
                payload[at]
            })
            .collect()
    };
    const ZEROS: usize = 40;
    assert_eq!(
        known::<Report>(&[], ZEROS),
        seen(&reports, &[], 0),
        "reports"
    );
    assert_eq!(
        known::<Command>(&[], ZEROS),
        seen(&commands, &[], 0),
        "commands"
    );
    assert_eq!(
        known::<Report>(&[3, 0], ZEROS),
        seen(&reports, &[3], 1),
        "notices"
    );
    assert_eq!(
        known::<Report>(&[4, 0], ZEROS),
        seen(&reports, &[4], 1),
        "faults"
    );
    let refusals: Vec<_> = reports
        .iter()
        .filter(|payload| payload[0] == 5)
        .map(|payload| payload[payload.len().min(3)..].to_vec())
        .collect();
    // to, of one byte in the frame for success and of two in those of refusals; 1; the refusal.
    let refusals: Vec<_> = refusals
        .into_iter()
        .filter(|rest| rest.first() == Some(&1))
        .collect();
    assert_eq!(
        known::<Report>(&[5, 0, 1], ZEROS),
        seen(&refusals, &[1], 0),
        "refusals"
    );
    for (refusal, name) in [(4, "goal"), (9, "calibration"), (10, "test")] {
        assert_eq!(
            known::<Report>(&[5, 0, 1, refusal], ZEROS),
            seen(&refusals, &[1, refusal], 0),
            "{name}"
        );
    }
    assert_eq!(
        known::<Command>(&[14], ZEROS),
        seen(&commands, &[14], 0),
        "settings"
    );
    assert_eq!(
        known::<Command>(&[14, 0], 0),
        seen(&commands, &[14, 0], 0),
        "probe types"
    );
    // A reading with nothing known before the phase: number, time, and six fields of a byte.
    let phases: BTreeSet<u8> = cases()
        .iter()
        .filter_map(|case| match serde_json::from_value(case.message.clone()?) {
            Ok(Report::Reading(reading)) => Some(reading.phase as u8),
            _ => None,
        })
        .collect();
    assert_eq!(
        known::<Report>(&[1, 0, 0, 0, 0, 0, 0], ZEROS),
        phases,
        "phases"
    );
}

/// The bound that the types give is the length of the longest message there is, to the byte.
#[test]
fn the_longest_message_is_as_long_as_the_bound() {
    let longest = cases()
        .iter()
        .map(|case| payload(&bytes(&case.frame)).len())
        .max();
    assert_eq!(longest, Some(MAX_PAYLOAD));
    const { assert!(MAX_PAYLOAD <= PAYLOAD_ROOM) };
}

/// Each example of WIRE.md, `NAME: HEX` in a block marked `frame`, is a golden frame.
#[test]
fn the_examples_of_wire_md_are_golden_frames() {
    let text = std::fs::read_to_string(beside("WIRE.md")).unwrap();
    let golden: Vec<(String, String)> = cases()
        .into_iter()
        .map(|case| (case.name, case.frame))
        .collect();
    let mut examples = 0;
    for block in text.split("```frame\n").skip(1) {
        let (name, bytes) = block.split("```").next().unwrap().split_once(':').unwrap();
        let bytes: String = bytes.split_whitespace().collect();
        let of = golden.iter().find(|(known, _)| known == name);
        assert_eq!(of.map(|(_, frame)| frame), Some(&bytes), "{name}");
        examples += 1;
    }
    assert!(examples >= 3, "{examples} examples");
    let version = Version::CURRENT;
    for figure in [
        format!("# The wire format, version {version}"),
        format!("| payload | 1 to {PAYLOAD_ROOM} |"),
        format!("the longest of version {version} has {MAX_PAYLOAD} bytes"),
    ] {
        assert!(text.contains(&figure), "WIRE.md does not say {figure:?}");
    }
    // The versions named in the file are those of the golden frames.
    for case in cases() {
        assert!(["1.0", "1.1", "1.2", "1.3", "1.4", "1.5", "later"].contains(&case.since.as_str()));
    }
}

/// The file is what the independent writer makes of it, and its reader agrees.
#[test]
fn the_python_reader_agrees() {
    let run = std::process::Command::new("python3")
        .arg("-B")
        .arg(beside("evenhand_wire.py"))
        .arg("check")
        .arg(beside("golden-frames.json"))
        .output()
        .expect("python3 is needed for this test: scripts/install-missing faults");
    assert!(
        run.status.success(),
        "{}{}",
        String::from_utf8_lossy(&run.stdout),
        String::from_utf8_lossy(&run.stderr)
    );
}
