//! The `evenhand` program.
#![forbid(unsafe_code)]

fn main() {}
