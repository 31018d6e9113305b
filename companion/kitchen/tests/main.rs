//! The kitchen's domain as its users have it, in one test program: each takes a while to link.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod aim_coverage;
mod batch;
mod brine_sources;
mod cure_sources;
mod delivery_coverage;
mod door_coverage;
mod dough_coverage;
mod false_alarms;
mod forecast;
mod forecast_coverage;
mod forecast_worlds;
mod heat;
mod heat_log;
mod heat_sources;
mod job_shop;
mod long_values;
mod order_coverage;
mod oven_marks;
mod par_coverage;
mod pouring;
mod prep;
mod prep_days;
mod prep_shared;
mod prep_stock;
mod prep_who;
mod ratio;
mod recorded_mug;
mod spread;
mod statistics;
mod trials_coverage;
mod uptake_coverage;
mod uptake_kitchens;
mod yields_coverage;
