//! The prep clock: a day, or four, worked backward from service.
//!
//! A [`Board`] is what must be done before service: preparations made of
//! [`Step`]s that wait for each other, share [`Resource`]s and take their time.
//! [`Board::plan`] lays it out as late as it will go (food is best fresh), says
//! what to do now and what will be late, and names the chain that decides.
//!
//! Two views are kept apart. The *latest start* and the slack come from the
//! critical path method alone (J. E. Kelley and M. R. Walker, 1959): no plan
//! can start a step later. The *start by* also shares hands and ovens, one
//! after another in order of urgency; sharing is a rule of thumb (the best
//! sharing is a hard problem), so it may be earlier than it strictly must be,
//! and is never later.

mod board;
mod calendar;
mod file;
mod par;
mod plan;
mod record;
mod step;
mod what_if;

pub use board::{Board, BoardError, StepRef};
pub use calendar::{Hours, Resource, ResourceError};
pub use file::{FileError, serves_on};
pub use par::{Par, ParError, ParQuestion, PastService, Yield, par};
pub use plan::{Plan, PlannedStep, Standing};
pub use record::{By, Event, Happened, SeenBatch, SeenRun};
pub use step::{InBand, Progress, Step, Takes, TakesError, TickedBy};
pub use what_if::WhatIfError;
