//! The link to an instrument, in one test program: each takes a while to link.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod link;
mod live_scale;
mod session;
