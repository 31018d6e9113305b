//! Portions, corrections and strikes in any order, three bytes each: what counts is what a plain
//! reckoning of the same events says, and record, spread, sums and check agree.
#![no_main]

#[path = "../../companion/store/tests/reckoning/mod.rs"]
#[allow(dead_code)]
mod reckoning;

use libfuzzer_sys::fuzz_target;
use reckoning::{Event, NUMBERS, agree};

/// The kitchen's longest day of mistakes: more tells nothing new and takes long.
const MOST: usize = 40;

fn number(byte: u8) -> u32 {
    u32::from(byte) % NUMBERS + 1
}

fn event(bytes: &[u8]) -> Option<Event> {
    let [kind, what, other] = *bytes else {
        return None;
    };
    Some(match kind % 8 {
        0..=4 => Event::Comes {
            number: number(what),
            run: usize::from(what > 0xF0),
            corrects: (other < 0xC0).then(|| number(other)),
        },
        5 => Event::Struck(number(what)),
        6 => Event::Undone,
        _ => Event::Lifted(number(what)),
    })
}

fuzz_target!(|bytes: &[u8]| agree(bytes.chunks(3).take(MOST).filter_map(event)));
