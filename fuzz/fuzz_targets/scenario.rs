//! Scenario files: refused with a reason, or a bench that can be built and run.
#![no_main]

use evenhand_simulator::instrument::SimulatedInstrument;
use evenhand_simulator::scenario::Scenario;
use libfuzzer_sys::fuzz_target;

fuzz_target!(|text: &str| {
    match Scenario::from_toml(text) {
        Ok(scenario) => {
            let mut instrument = SimulatedInstrument::new(&scenario, 1);
            instrument.advance_to(2_000_000);
            let _ = instrument.receive();
        }
        Err(error) => assert!(!error.to_string().is_empty()),
    }
});
