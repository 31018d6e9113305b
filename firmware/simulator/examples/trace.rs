//! A stretch of a scenario, reading by reading: the true load beside what the
//! instrument makes of it.
//!
//! ```text
//! cargo run --release -p evenhand-simulator --example trace -- SCENARIO SEED FROM TO
//! ```
//!
//! SCENARIO is the name of one that ships; FROM and TO are seconds.

use evenhand_simulator::desk::Desk;
use evenhand_simulator::instrument::SimulatedInstrument;
use evenhand_simulator::scenario::Scenario;

/// Microseconds from one exchange with the desktop to the next, as in
/// `desk::run`.
const STEP: u64 = 10_000;
/// Exchanges from one line to the next.
const LINE: u64 = 5;

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let [name, seed, from, to] = arguments.as_slice() else {
        return Err("give a scenario, a seed, and two times in seconds".into());
    };
    let scenario = Scenario::shipped(name)?;
    let (from, to): (f64, f64) = (from.parse()?, to.parse()?);
    let mut instrument = SimulatedInstrument::new(&scenario, seed.parse()?);
    let mut desk = Desk::new(scenario.mode(), scenario.goal());
    let mut told = 0;
    println!("    time      true g     gross g  stable  amount g  phase");
    while !instrument.is_over() && instrument.micros() as f64 / 1e6 <= to {
        let now = instrument.micros() + STEP;
        instrument.advance_to(now);
        let bytes = instrument.receive();
        instrument.send(&desk.talk(now, &bytes));
        let seconds = now as f64 / 1e6;
        if seconds < from {
            told = desk.notices().len();
            continue;
        }
        for (at, notice) in &desk.notices()[told..] {
            println!("  {:8.3} {notice:?}", at.millis() as f64 / 1e3);
        }
        told = desk.notices().len();
        if !(now / STEP).is_multiple_of(LINE) {
            continue;
        }
        let Some(reading) = instrument.reading() else {
            println!("{seconds:8.2}  no power");
            continue;
        };
        let grams = |mass: Option<evenhand_protocol::Mass>| {
            mass.map_or("-".to_owned(), |mass| format!("{:.3}", mass.grams()))
        };
        println!(
            "{seconds:8.2} {:>11.3} {:>11} {:>7} {:>9}  {:?}",
            instrument.world().load().grams(),
            grams(reading.gross),
            if reading.stable { "yes" } else { "" },
            grams(reading.amount),
            reading.phase,
        );
    }
    Ok(())
}
