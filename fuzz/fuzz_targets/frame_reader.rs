//! Any bytes at all, at either end of the link: no panic, and whatever came
//! before, two sound frames in a row after it are both read but for the first,
//! which garbage may have run into.
#![no_main]

use evenhand_protocol::{Command, Envelope, Fault, Message, Reader, Report, Uptime, frame};
use libfuzzer_sys::fuzz_target;

fn survives<M: Message + PartialEq + Copy + core::fmt::Debug>(bytes: &[u8], message: M) {
    let mut reader = Reader::<M>::new();
    for byte in bytes {
        let _ = reader.push(*byte);
    }
    let mut got = Vec::new();
    for sequence in 0..2 {
        let mut out = [0; frame::MAX_FRAME];
        let length = frame::encode(&Envelope { sequence, message }, &mut out).expect("fits");
        got.extend(out[..length].iter().filter_map(|byte| reader.push(*byte)));
    }
    assert_eq!(
        got.last(),
        Some(&Ok(Envelope {
            sequence: 1,
            message
        }))
    );
}

fuzz_target!(|bytes: &[u8]| {
    survives(bytes, Command::Tare);
    survives(
        bytes,
        Report::Fault {
            at: Uptime::from_millis(1),
            fault: Fault::BridgeTimeout,
            present: true,
        },
    );
});
