//! What an instrument knows of its work and is to know again after a power cut.

use crate::signal::Place;
use crate::thermocouple::Kind;
use evenhand_protocol::{Goal, Mass, Mode, RunId};
use serde::{Deserialize, Serialize};

/// Settings and state that outlive a power cut.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Remembered {
    /// What a portion should weigh, where that was ever said.
    pub goal: Option<Goal>,
    /// How portions are made.
    pub mode: Mode,
    /// The run going on.
    pub run: Option<RunId>,
    /// How many runs the instrument has begun by itself, without a desktop.
    pub own_runs: u32,
    /// Where the zero is, from the calibrated zero.
    pub zero: Mass,
    /// The probe's type: its place in [`Kind::ALL`].
    probe: u8,
    /// Where the scale stands, where that was said.
    pub place: Option<Place>,
}

impl Remembered {
    /// An instrument that has never been used.
    pub const NOTHING: Self = Self {
        goal: None,
        mode: Mode::Adding,
        run: None,
        own_runs: 0,
        zero: Mass::ZERO,
        probe: 0,
        place: None,
    };

    /// The probe's thermocouple type; K where none was set.
    #[must_use]
    pub fn probe(&self) -> Kind {
        Kind::ALL
            .get(usize::from(self.probe))
            .copied()
            .unwrap_or_default()
    }

    /// Sets the probe's thermocouple type.
    pub fn set_probe(&mut self, kind: Kind) {
        let place = Kind::ALL.iter().position(|one| *one == kind).unwrap_or(0);
        self.probe = u8::try_from(place).unwrap_or(0);
    }
}

impl Default for Remembered {
    fn default() -> Self {
        Self::NOTHING
    }
}
