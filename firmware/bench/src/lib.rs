//! The simulated bench: a physical model of load and temperature, and models
//! of the chips that read it.
#![cfg_attr(not(feature = "std"), no_std)]
#![forbid(unsafe_code)]
