//! The coefficients of each letter-designated type.
//!
//! Source: NIST Standard Reference Database 60, ITS-90 Thermocouple Database
//! (after NIST Monograph 175, 1993), a work of the US government and free of
//! copyright. Put here by a program from the data of the PyPI package
//! thermocouple-its90 1.0.2, never typed; the reference functions are equal,
//! digit for digit, to those in the PyPI package `thermocouples_reference` 0.20.
//! Where the published ranges of two inverse polynomials overlap (types R and
//! S), the one that starts higher, which is also the closer one, begins at its
//! own lower end.

pub(super) mod b;
pub(super) mod e;
pub(super) mod j;
pub(super) mod k;
pub(super) mod n;
pub(super) mod r;
pub(super) mod s;
pub(super) mod t;
