//! The converters, over embedded-hal 1.0.
