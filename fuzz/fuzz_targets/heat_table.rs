//! Temperature logs from a file: refused with the line, or in order of time.
#![no_main]

use evenhand_kitchen::heat::read_table;
use libfuzzer_sys::fuzz_target;

fuzz_target!(|text: &str| {
    match read_table("log", text) {
        Ok(log) => {
            let times: Vec<_> = log.points().iter().map(|point| point.at).collect();
            assert!(times.windows(2).all(|two| two[0] < two[1]));
        }
        Err(error) => assert!(!error.to_string().is_empty()),
    }
});
