//! The load cell: what its bridge makes of a load.

use super::hysteresis::Hysteresis;
use crate::random::{Draws, Stream};
use crate::scenario;

/// The temperature at which zero and span are what they were at calibration
/// is the scenario's; the drifts are stated per this many degrees.
const PER_DEGREES: f64 = 10.0;

/// A load from which on a vessel stands on the pan, in grams.
const HEATS_FROM: f64 = 20.0;

/// One load cell, drawn within its data sheet's limits.
#[derive(Debug)]
pub(super) struct Cell {
    capacity: f64,
    nonlinearity: f64,
    creep: f64,
    creep_seconds: f64,
    zero_drift: f64,
    span_drift: f64,
    off_centre: f64,
    reference_celsius: f64,
    warm_up: f64,
    warm_up_seconds: f64,
    heat: f64,
    heat_seconds: f64,
    wander_per_root_second: f64,
    walk: Draws,
    /// States that move.
    creeping: f64,
    powered_seconds: f64,
    heated: f64,
    hysteresis: Hysteresis,
    wander: f64,
}

impl Cell {
    pub(super) fn new(table: &scenario::Cell, seed: u64, draws: &mut Draws) -> Self {
        let percent = |range: scenario::Range, draws: &mut Draws| range.draw(draws) / 100.0;
        // Drawn apart, so that a cell of before is the same cell.
        let mut more = Draws::new(seed, Stream::Calibration);
        let nonlinearity = percent(table.nonlinearity_percent, draws);
        let hysteresis = percent(table.hysteresis_percent, draws) * table.capacity_grams;
        Self {
            hysteresis: Hysteresis::new(hysteresis, table.capacity_grams),
            capacity: table.capacity_grams,
            nonlinearity,
            creep: percent(table.creep_percent, draws),
            creep_seconds: table.creep_minutes.draw(draws) * 60.0,
            zero_drift: percent(table.zero_drift_percent, draws),
            span_drift: percent(table.span_drift_percent, draws),
            off_centre: percent(table.off_centre_percent, draws),
            reference_celsius: table.calibration_celsius,
            // A random walk that has gone so far in an hour (standard deviation).
            wander_per_root_second: table.wander_grams.draw(draws) / 3600.0_f64.sqrt(),
            warm_up: table.warm_up_grams.draw(&mut more),
            warm_up_seconds: table.warm_up_minutes.draw(&mut more) * 60.0,
            heat: table.heat_grams.draw(&mut more),
            heat_seconds: table.heat_minutes.draw(&mut more) * 60.0,
            walk: Draws::new(seed, Stream::Walk),
            powered_seconds: 0.0,
            heated: 0.0,
            creeping: 0.0,
            wander: 0.0,
        }
    }

    /// What an unhurried calibration of a cell that never bore a load sees, as
    /// the load goes up from nought: no drift, no creep.
    pub(super) fn calm(&self, load: f64) -> f64 {
        self.bent(load) + self.hysteresis.clone().follow(load)
    }

    /// The load with the cell's nonlinearity: a parabola through nought and
    /// capacity, at its highest in between.
    fn bent(&self, load: f64) -> f64 {
        let part = load / self.capacity;
        load + self.nonlinearity * self.capacity * 4.0 * part * (1.0 - part)
    }

    /// What it makes of a load in grams, `tick` seconds after the last one.
    pub(super) fn respond(&mut self, load: f64, off_centre: f64, celsius: f64, tick: f64) -> f64 {
        self.creeping += (self.creep * load - self.creeping) * (tick / self.creep_seconds).min(1.0);
        self.powered_seconds += tick;
        // A hot or cold vessel that stands over the cell warms or cools it with a lag.
        let under = if load > HEATS_FROM { self.heat } else { 0.0 };
        self.heated += (under - self.heated) * (tick / self.heat_seconds).min(1.0);
        let warming_up = self.warm_up * (-self.powered_seconds / self.warm_up_seconds).exp();
        let warmer = (celsius - self.reference_celsius) / PER_DEGREES;
        self.bent(load) * (1.0 + self.span_drift * warmer)
            + load * self.off_centre * off_centre
            + self.creeping
            + self.hysteresis.follow(load)
            + self.zero_drift * self.capacity * warmer
            + self.wander
            + self.heated
            + warming_up
    }

    /// Lets the zero wander for so many seconds.
    pub(super) fn wander(&mut self, seconds: f64) {
        self.wander += self.walk.normal() * self.wander_per_root_second * seconds.sqrt();
    }
}
