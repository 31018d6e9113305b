//! How an instrument on a simulated bench starts.

use crate::feed::Start;
use crate::scenario::Scenario;
use crate::world::World;
use evenhand_protocol::{DeviceId, Epoch};

/// The device numbers of simulated instruments begin with these four letters
/// in ASCII, so that no real instrument's is ever one of them.
const SIMULATED: u64 = (u32::from_be_bytes(*b"SIMU") as u64) << 32;

/// The start of a scenario's instrument, calibrated as it was first.
pub(crate) fn start(scenario: &Scenario, world: &World, seed: u64, epoch: Epoch) -> Start {
    let calibration = world.first_calibration();
    Start {
        device: DeviceId(SIMULATED | seed & 0xFFFF_FFFF),
        epoch,
        calibration_zero: calibration.zero_counts,
        calibration_span: calibration.span_counts,
        calibration_micrograms: calibration.mass.micrograms(),
        capacity_micrograms: scenario.capacity().micrograms(),
        rate: u8::try_from(scenario.converter.samples_a_second).unwrap_or(u8::MAX),
    }
}

/// The same instrument's start after so many earlier ones.
pub(crate) fn again(start: &Start, earlier: u32) -> Start {
    Start {
        epoch: Epoch(start.epoch.0.wrapping_add(earlier)),
        ..start.clone()
    }
}
