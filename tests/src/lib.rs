//! End-to-end tests and checks against published sources.
#![forbid(unsafe_code)]
