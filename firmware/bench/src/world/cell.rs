//! The load cell: what its bridge makes of a load.

use crate::random::{Draws, Stream};
use crate::scenario;

/// The temperature at which zero and span are what they were at calibration
/// is the scenario's; the drifts are stated per this many degrees.
const PER_DEGREES: f64 = 10.0;

/// One load cell, drawn within its data sheet's limits.
#[derive(Debug)]
pub(super) struct Cell {
    capacity: f64,
    nonlinearity: f64,
    hysteresis: f64,
    creep: f64,
    creep_seconds: f64,
    zero_drift: f64,
    span_drift: f64,
    off_centre: f64,
    reference_celsius: f64,
    wander_per_root_second: f64,
    walk: Draws,
    /// States that move.
    creeping: f64,
    lean: f64,
    last_load: f64,
    wander: f64,
}

impl Cell {
    pub(super) fn new(table: &scenario::Cell, seed: u64, draws: &mut Draws) -> Self {
        let percent = |range: scenario::Range, draws: &mut Draws| range.draw(draws) / 100.0;
        Self {
            capacity: table.capacity_grams,
            nonlinearity: percent(table.nonlinearity_percent, draws),
            hysteresis: percent(table.hysteresis_percent, draws),
            creep: percent(table.creep_percent, draws),
            creep_seconds: table.creep_minutes.draw(draws) * 60.0,
            zero_drift: percent(table.zero_drift_percent, draws),
            span_drift: percent(table.span_drift_percent, draws),
            off_centre: percent(table.off_centre_percent, draws),
            reference_celsius: table.calibration_celsius,
            // A random walk that has gone so far in an hour (standard deviation).
            wander_per_root_second: table.wander_grams.draw(draws) / 3600.0_f64.sqrt(),
            walk: Draws::new(seed, Stream::Walk),
            creeping: 0.0,
            lean: 0.0,
            last_load: 0.0,
            wander: 0.0,
        }
    }

    /// What an unhurried calibration sees: the load with its nonlinearity and
    /// nothing else, in grams.
    pub(super) fn calm(&self, load: f64) -> f64 {
        let part = load / self.capacity;
        // A parabola through nought and capacity, at its highest in between.
        load + self.nonlinearity * self.capacity * 4.0 * part * (1.0 - part)
    }

    /// What it makes of a load in grams, `tick` seconds after the last one.
    pub(super) fn respond(&mut self, load: f64, off_centre: f64, celsius: f64, tick: f64) -> f64 {
        self.creeping += (self.creep * load - self.creeping) * (tick / self.creep_seconds).min(1.0);
        // Hysteresis: the error leans the way the load last went, and turns
        // round over a third of the capacity.
        let moved = load - self.last_load;
        self.last_load = load;
        let turn = (moved.abs() / (self.capacity / 3.0)).min(1.0);
        self.lean += (-moved.signum() - self.lean) * turn;
        let warmer = (celsius - self.reference_celsius) / PER_DEGREES;
        self.calm(load) * (1.0 + self.span_drift * warmer)
            + load * self.off_centre * off_centre
            + self.creeping
            + self.hysteresis * self.capacity * 0.5 * self.lean
            + self.zero_drift * self.capacity * warmer
            + self.wander
    }

    /// Lets the zero wander for so many seconds.
    pub(super) fn wander(&mut self, seconds: f64) {
        self.wander += self.walk.normal() * self.wander_per_root_second * seconds.sqrt();
    }
}
