//! What is taken off a load besides the zero.

use super::compensation::{Creep, CreepCompensation, TemperatureCompensation};
use super::filter::PARTS;
use super::gravity::Place;
use super::ratio::scaled;
use super::{Calibration, Chain};
use evenhand_protocol::{Mass, Temperature};

/// What is taken off a load besides the zero.
#[derive(Debug, Clone)]
pub(super) struct Corrections {
    creep: Option<Creep>,
    compensation: Option<TemperatureCompensation>,
    /// The bridge's.
    temperature: Option<Temperature>,
    /// By what gravity's difference from the calibration's place multiplies.
    gravity: f64,
    place: Option<Place>,
}

impl Corrections {
    pub(super) const NONE: Self = Self {
        creep: None,
        compensation: None,
        temperature: None,
        gravity: 1.0,
        place: None,
    };

    /// The scale stands elsewhere.
    pub(super) fn set_place(&mut self, place: Option<Place>, calibration: Option<&Calibration>) {
        self.place = place;
        if let Some(calibration) = calibration {
            self.calibrated(calibration);
        }
    }

    pub(super) const fn set_temperature(&mut self, temperature: Option<Temperature>) {
        self.temperature = temperature;
    }

    /// The scale weighs by another calibration.
    pub(super) fn calibrated(&mut self, calibration: &Calibration) {
        self.gravity = match (self.place, calibration.place()) {
            (Some(here), Some(there)) => here.gravity().correction(there.gravity()),
            _ => 1.0,
        };
    }

    pub(super) fn correct(
        &mut self,
        mut load: Mass,
        calibration: Option<&Calibration>,
        elapsed_millis: u64,
    ) -> Mass {
        let Some(calibration) = calibration else {
            return load;
        };
        if let (Some(compensation), Some(now), Some(then)) = (
            &self.compensation,
            self.temperature,
            calibration.temperature(),
        ) {
            load = compensation.correct(load, now, then);
        }
        if self.gravity != 1.0 {
            load = scaled(load, self.gravity);
        }
        match &mut self.creep {
            Some(creep) => creep.take_off(load, elapsed_millis),
            None => load,
        }
    }
}

/// A settled mean of the counts, to make a calibration from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SettledCounts {
    /// The mean.
    pub mean: f64,
    /// Its standard uncertainty from noise, in counts.
    pub uncertainty: f64,
}

/// With the feature `calibration`.
impl Chain {
    /// Sets how zero and span follow the bridge's temperature; `None` leaves
    /// both as they are.
    pub fn set_temperature_compensation(&mut self, compensation: Option<TemperatureCompensation>) {
        self.corrections.compensation = compensation;
    }

    /// Sets how the cell creeps; begins as a scale that has long been empty.
    pub fn set_creep_compensation(&mut self, compensation: Option<CreepCompensation>) {
        self.corrections.creep = compensation.map(Creep::new);
    }

    /// The counts at the moment, where they are settled: what a calibration is
    /// made from.
    #[must_use]
    pub fn settled_counts(&self) -> Option<SettledCounts> {
        self.estimate
            .filter(|estimate| estimate.stable)
            .map(|estimate| SettledCounts {
                mean: estimate.mean as f64 / PARTS as f64,
                uncertainty: f64::from(estimate.uncertainty) / PARTS as f64,
            })
    }
}
