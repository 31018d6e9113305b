//! Percentiles, with the method named.

use super::{OutOfRange, Sample, mass};
use evenhand_protocol::Mass;

/// How a percentile between two ordered values is found. There is no single
/// right way (Hyndman and Fan, The American Statistician 50 (1996) 361), so a
/// figure names its own.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum PercentileMethod {
    /// The place is p(N + 1): Hyndman and Fan's sixth, the e-Handbook's own
    /// (7.2.6.2).
    #[default]
    PlusOne,
    /// The place is 1 + p(N − 1): Hyndman and Fan's seventh, most spreadsheets'
    /// and numpy's.
    MinusOne,
}

impl PercentileMethod {
    /// The method's name, to stand beside a figure.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::PlusOne => "p(N+1), Hyndman-Fan 6",
            Self::MinusOne => "1+p(N-1), Hyndman-Fan 7",
        }
    }
}

/// The mass below which a fraction of the portions lie; `None` of an empty
/// sample.
///
/// # Errors
/// [`OutOfRange`] where the fraction is not between 0 and 1.
pub fn percentile(
    sample: &Sample,
    fraction: f64,
    method: PercentileMethod,
) -> Result<Option<Mass>, OutOfRange> {
    if !(0.0..=1.0).contains(&fraction) {
        return Err(OutOfRange {
            field: "percentile",
            value: fraction,
            expected: "a fraction from 0 to 1",
        });
    }
    let mut ordered = sample.grams().to_vec();
    ordered.sort_by(f64::total_cmp);
    let Some(last) = ordered.len().checked_sub(1) else {
        return Ok(None);
    };
    let n = ordered.len() as f64;
    let place = match method {
        PercentileMethod::PlusOne => fraction * (n + 1.0),
        PercentileMethod::MinusOne => 1.0 + fraction * (n - 1.0),
    }
    .clamp(1.0, n);
    let below = place.floor() as usize - 1;
    let above = (below + 1).min(last);
    let share = place - place.floor();
    Ok(Some(mass(
        ordered[below] + share * (ordered[above] - ordered[below]),
    )))
}
