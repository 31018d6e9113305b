//! A run of portions out of a tin, from counts to captured portions: what the
//! instrument does, without drivers, line or desktop.
//!
//! ```text
//! cargo run -p evenhand-firmware --example portion_run
//! ```

use evenhand_firmware::portion::{Event, PortionSettings, Portioning};
use evenhand_firmware::sensor::Counts;
use evenhand_firmware::signal::{Calibration, CalibrationError, Chain, Point, Settings};
use evenhand_protocol::{Goal, Mass, Mode, Tolerance, Uptime};

const COUNTS_PER_GRAM: f64 = 2_097.0;
const ZERO: i32 = 84_000;

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let mut chain = Chain::new(Settings::BENCH_1KG, Some(calibration()?));
    let goal = Goal::new(
        Mass::from_grams(30),
        Tolerance::symmetric(Mass::from_grams(1)),
    )
    .map_err(|error| error.to_string())?;
    let mut portioning = Portioning::new(Mode::Taking, goal, PortionSettings::BENCH);
    let mut number = 0;
    // What lies on the pan, and for how many conversions (80 a second).
    let pan = [
        (0.0, 160),
        (600.0, 200),
        (570.2, 200),
        (540.9, 200),
        (508.2, 200),
    ];
    let mut conversion = 0_u64;
    for (grams, conversions) in pan {
        for _ in 0..conversions {
            conversion += 1;
            let at = Uptime::from_millis(conversion * 25 / 2);
            // A ripple of some counts, as every converter has.
            let ripple = [0, 13, -9, 4, -12, 7][(conversion % 6) as usize];
            let counts = Counts(ZERO + (grams * COUNTS_PER_GRAM) as i32 + ripple);
            let weight = chain.take(at, counts).map_err(|fault| fault.sentence())?;
            for event in &portioning.take(&weight) {
                match event {
                    Event::Notice(notice) => println!("{:>6} ms  {notice:?}", at.millis()),
                    Event::Portion(draft) => {
                        // A portion that corrects an earlier one is no new one.
                        number += 1;
                        portioning.numbered(Some(number));
                        println!(
                            "{:>6} ms  portion {number}: {:.2} g, {}{}",
                            at.millis(),
                            draft.mass.grams(),
                            goal.judge(draft.mass),
                            draft
                                .replaces
                                .map_or(String::new(), |earlier| format!(", corrects {earlier}")),
                        );
                    }
                }
            }
        }
    }
    Ok(())
}

fn calibration() -> Result<Calibration, CalibrationError> {
    let span = Counts(ZERO + (1_000.0 * COUNTS_PER_GRAM) as i32);
    Calibration::from_points(&[
        Point::exact(Mass::ZERO, Counts(ZERO)),
        Point::exact(Mass::from_grams(1_000), span),
    ])
}
