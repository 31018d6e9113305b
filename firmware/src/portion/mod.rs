//! Weights to portions, hands free.
