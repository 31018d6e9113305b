//! Reads a thermocouple through its converter's driver; in the middle the probe
//! is pulled out.
//!
//! ```text
//! cargo run -p evenhand-firmware --example read_probe
//! ```

use evenhand_firmware::drivers::Probe;
use evenhand_firmware::drivers::max31855::{Max31855, Version};
use evenhand_simulator::chips::{Chips, ProbeTrouble, ProbeWord};

fn main() {
    let chips = Chips::default();
    let mut probe = Max31855::new(chips.probe_bus(), Version::K);
    for tick in 0..300_u64 {
        let now = tick * 10_000;
        chips.clock.set_micros(now);
        // Quarters of a degree at the tip, sixteenths at the plug: 4 degC and rising, 22 degC.
        let tip = 16 + i32::try_from(tick / 10).unwrap_or(0);
        chips.probe.set_word(ProbeWord::healthy(tip, 22 * 16));
        chips.probe.set_trouble(if (150..200).contains(&tick) {
            ProbeTrouble::Open
        } else {
            ProbeTrouble::None
        });
        match probe.poll(chips.clock.micros()) {
            Ok(sample) => println!(
                "{:>5} ms  tip {:.2} degC, plug {:.2} degC",
                now / 1_000,
                sample.hot.celsius(),
                sample.cold.celsius()
            ),
            Err(nb::Error::WouldBlock) => {}
            Err(nb::Error::Other(fault)) => {
                println!("{:>5} ms  {}", now / 1_000, fault.fault().sentence())
            }
        }
    }
}
