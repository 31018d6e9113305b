//! Payloads under a right header and checksum: what decodes encodes again to
//! what decodes to the same.
#![no_main]

use evenhand_protocol::{Command, Envelope, Message, Reader, Report, frame};
use libfuzzer_sys::fuzz_target;

fn round<M>(payload: &[u8])
where
    M: Message + PartialEq + Copy + core::fmt::Debug,
{
    let Ok((message, _)) = postcard::take_from_bytes::<M>(payload) else {
        return;
    };
    let sent = Envelope {
        sequence: 9,
        message,
    };
    let mut out = [0; frame::MAX_FRAME];
    let length = frame::encode(&sent, &mut out).expect("every message fits in a frame");
    let mut reader = Reader::<M>::new();
    let got = out[..length].iter().find_map(|byte| reader.push(*byte));
    assert_eq!(got, Some(Ok(sent)));
}

fuzz_target!(|payload: &[u8]| {
    round::<Command>(payload);
    round::<Report>(payload);
});
