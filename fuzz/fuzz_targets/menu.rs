//! A menu's file: refused with a reason, or a board that can be planned.
#![no_main]

use evenhand_kitchen::prep::Board;
use jiff::Timestamp;
use jiff::civil::date;
use jiff::tz::TimeZone;
use libfuzzer_sys::fuzz_target;

fuzz_target!(|text: &str| {
    if let Ok(board) = Board::from_menu(text, date(2026, 5, 8), TimeZone::UTC) {
        let _ = board.plan(Timestamp::UNIX_EPOCH);
    }
});
