//! Reads a bit-clocked bridge converter through its driver.
//!
//! The pins here are a model's; on a board they are the HAL's own, and nothing
//! else differs.
//!
//! ```text
//! cargo run -p evenhand-firmware --example read_bridge
//! ```

use evenhand_firmware::drivers::Bridge;
use evenhand_firmware::drivers::hx711::{Config, Hx711};
use evenhand_simulator::chips::Chips;

fn main() {
    let chips = Chips::default();
    let mut bridge = Hx711::new(
        chips.bridge_data(),
        chips.bridge_clock(),
        chips.delay(),
        Config::fast(),
    );
    // The world: 80 conversions a second of a load that grows.
    let period_micros = 12_500;
    for conversion in 1..=80_u64 {
        let counts = 84_000 + 1_000 * i32::try_from(conversion).unwrap_or(0);
        chips
            .bridge
            .schedule(conversion * period_micros * 1_000, counts);
        for quarter in 0..4 {
            let now = conversion * period_micros + quarter * period_micros / 4;
            chips.clock.set_micros(now);
            match bridge.poll(chips.clock.micros()) {
                Ok(counts) => println!("{now:>8} us  {} counts", counts.0),
                Err(nb::Error::WouldBlock) => {}
                Err(nb::Error::Other(fault)) => println!("{now:>8} us  {fault:?}"),
            }
        }
    }
}
