//! A kitchen's own limits: refused with a reason, or each with a name.
#![no_main]

use evenhand_kitchen::limits::Limits;
use libfuzzer_sys::fuzz_target;

fuzz_target!(|text: &str| {
    if let Err(error) = Limits::in_force(Some(text)) {
        assert!(!error.to_string().is_empty());
    }
});
