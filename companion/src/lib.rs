//! The desktop side of the Evenhand bench scale.
#![forbid(unsafe_code)]
