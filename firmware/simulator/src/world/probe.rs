//! The probe: what it stands in, how slowly it follows, what its converter
//! makes of it.

use crate::chips::ProbeWord;
use crate::random::{Draws, Stream};
use crate::scenario;
use evenhand_protocol::Temperature;
use std::f64::consts::TAU;

/// A probe with its converter.
#[derive(Debug)]
pub(super) struct Probe {
    table: Option<scenario::Probe>,
    lag_seconds: f64,
    junction_above_room: f64,
    junction_error: f64,
    noise: Draws,
    tip: f64,
    /// What a hand has put it into, in place of what the scenario says.
    stuck_into: Option<f64>,
}

impl Probe {
    pub(super) fn new(table: Option<&scenario::Probe>, room: f64, seed: u64) -> Self {
        let mut draws = Draws::new(seed, Stream::Probe);
        let mut draw = |pick: fn(&scenario::Probe) -> scenario::Range, otherwise: f64| {
            table.map_or(otherwise, |table| pick(table).draw(&mut draws))
        };
        Self {
            lag_seconds: draw(|table| table.lag_seconds, 2.0),
            junction_above_room: draw(|table| table.junction_above_room_celsius, 3.0),
            junction_error: draw(|table| table.junction_error_celsius, 0.0),
            table: table.cloned(),
            noise: draws,
            tip: room,
            stuck_into: None,
        }
    }

    /// The word after so many seconds of work and `step` seconds after the
    /// last one.
    pub(super) fn word(&mut self, worked: f64, room: f64, step: f64) -> ProbeWord {
        let (medium, lag) = self.medium(worked, room);
        self.tip += (medium - self.tip) * -(-step / lag).exp_m1();
        let cold = room + self.junction_above_room;
        let noise = 0.05 * self.noise.normal();
        let temperature =
            |celsius| Temperature::from_celsius(celsius).unwrap_or(Temperature::ABSOLUTE_ZERO);
        // Beyond the reference function, which no scenario can reach but by the
        // converter's own error, it says nothing sensible either.
        ProbeWord::type_k(
            temperature(self.tip + noise),
            temperature(cold),
            temperature(cold + self.junction_error),
        )
        .unwrap_or_default()
    }

    pub(super) fn tip(&self) -> Temperature {
        Temperature::from_celsius(self.tip).unwrap_or(Temperature::ABSOLUTE_ZERO)
    }

    /// A hand puts it into something of this temperature, in degrees Celsius; or out of it.
    pub(super) const fn put_into(&mut self, celsius: Option<f64>) {
        self.stuck_into = celsius;
    }

    /// What the probe stands in, and how slowly it follows there.
    fn medium(&self, worked: f64, room: f64) -> (f64, f64) {
        if let Some(celsius) = self.stuck_into {
            return (celsius, self.lag_seconds);
        }
        let mut celsius = room;
        let mut lag = self.lag_seconds;
        for medium in self.table.iter().flat_map(|table| &table.medium) {
            let since = worked - medium.at_seconds;
            if since < 0.0 {
                break;
            }
            let there = if medium.over_seconds > 0.0 {
                (since / medium.over_seconds).min(1.0)
            } else {
                1.0
            };
            let swing = medium.swing_celsius * (TAU * since / medium.swing_seconds).sin();
            celsius += (medium.celsius - celsius) * there + swing * there;
            lag = medium.lag_seconds.unwrap_or(self.lag_seconds);
        }
        (celsius, lag)
    }
}
