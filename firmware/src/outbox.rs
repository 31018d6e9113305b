//! Captured portions, kept until they are acknowledged.
