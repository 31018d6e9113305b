//! A figure that a scenario fixes, or leaves to be drawn.

use crate::random::Draws;
use serde::de::{self, Deserialize, Deserializer, SeqAccess, Visitor};

/// `3.5` fixes a figure; `[2, 5]` has it drawn evenly from 2 to 5.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Range {
    pub(crate) low: f64,
    pub(crate) high: f64,
}

impl Range {
    pub(crate) const fn new(low: f64, high: f64) -> Self {
        Self { low, high }
    }

    pub(crate) const fn fixed(value: f64) -> Self {
        Self {
            low: value,
            high: value,
        }
    }

    pub(crate) fn draw(self, draws: &mut Draws) -> f64 {
        draws.between(self.low, self.high)
    }
}

impl std::fmt::Display for Range {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        if self.low == self.high {
            write!(f, "{}", self.low)
        } else {
            write!(f, "[{}, {}]", self.low, self.high)
        }
    }
}

impl<'de> Deserialize<'de> for Range {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct NumberOrPair;

        impl<'de> Visitor<'de> for NumberOrPair {
            type Value = Range;

            fn expecting(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                f.write_str("a number, or [low, high] to be drawn from")
            }

            fn visit_f64<E: de::Error>(self, value: f64) -> Result<Range, E> {
                Ok(Range::fixed(value))
            }

            fn visit_i64<E: de::Error>(self, value: i64) -> Result<Range, E> {
                Ok(Range::fixed(value as f64))
            }

            fn visit_u64<E: de::Error>(self, value: u64) -> Result<Range, E> {
                Ok(Range::fixed(value as f64))
            }

            fn visit_seq<A: SeqAccess<'de>>(self, mut seq: A) -> Result<Range, A::Error> {
                let missing = |place| de::Error::invalid_length(place, &self);
                let low = seq.next_element()?.ok_or_else(|| missing(0))?;
                let high = seq.next_element()?.ok_or_else(|| missing(1))?;
                if seq.next_element::<f64>()?.is_some() {
                    return Err(missing(3));
                }
                Ok(Range { low, high })
            }
        }

        deserializer.deserialize_any(NumberOrPair)
    }
}
