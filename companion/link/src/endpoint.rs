//! Where an instrument may be, as a person says it.

use super::simulated::{Pace, SimulatedDial};
use super::{Dial, SerialDial};
use evenhand_simulator::scenario::Scenario;

/// Where the instrument is.
#[derive(Debug, Clone, PartialEq)]
pub enum Endpoint {
    /// At a serial port, by its path or name.
    Port(String),
    /// On the simulated bench.
    Simulated {
        /// What happens there.
        scenario: Box<Scenario>,
        /// What fixes everything that the scenario leaves open.
        seed: u64,
    },
}

impl Endpoint {
    /// How to reach it; a simulated bench runs at `pace`.
    #[must_use]
    pub fn dial(self, pace: Pace) -> Box<dyn Dial> {
        match self {
            Self::Port(port) => Box::new(SerialDial::new(port)),
            Self::Simulated { scenario, seed } => {
                Box::new(SimulatedDial::new(*scenario, seed, pace))
            }
        }
    }
}
