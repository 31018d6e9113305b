//! The firmware as its callers have it, in one test program: each takes a while to link.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod drivers_ads1220;
#[cfg(feature = "async")]
mod drivers_async;
mod drivers_hx711;
mod drivers_hx711_faults;
mod drivers_max31855;
mod drivers_mcp9600;
mod drivers_nau7802;
mod drivers_probe_check;
mod instrument;
mod instrument_calibration;
mod instrument_outbox;
mod instrument_scenarios;
mod instrument_station;
#[cfg(feature = "panel")]
mod panel;
mod portion_adding;
mod portion_pan;
mod portion_property;
mod portion_taking;
#[cfg(feature = "calibration")]
mod recorded_cell;
mod signal_chain;
mod signal_in_a_kitchen;
mod signal_kitchen;
mod signal_metrology;
#[cfg(feature = "storage")]
mod storage_flash;
#[cfg(feature = "storage")]
mod storage_hash_chain;
#[cfg(feature = "storage")]
mod storage_instrument;
#[cfg(feature = "storage")]
mod storage_power_cuts;
#[cfg(feature = "storage")]
mod storage_thousand;
mod thermocouple;
