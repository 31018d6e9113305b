//! Spans of time as people write them.

use super::InputError;
use super::Reason;
use jiff::{SignedDuration, Span, SpanRelativeTo};

const EXPECTED: Reason = expected!("span");

/// Reads a span of time above zero: `3d`, `36h`, `2d 12h`, `45 min`. A day is 24
/// hours, whatever the clocks do in the night.
///
/// # Errors
/// No span, one of months or years, or one that is not above zero; `field` is named.
pub fn parse_span(field: &str, text: &str) -> Result<SignedDuration, InputError> {
    let wrong = |problem: Reason| InputError::new(field, text, problem, EXPECTED);
    let span: Span = text
        .trim()
        .parse()
        .map_err(|_| wrong(problem!("no-span")))?;
    let duration = span
        .to_duration(SpanRelativeTo::days_are_24_hours())
        .map_err(|_| wrong(problem!("no-span-of-days")))?;
    if duration <= SignedDuration::ZERO {
        return Err(wrong(problem!("not-above-zero")));
    }
    Ok(duration)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn days_are_of_24_hours() {
        let hours = |text| parse_span("--for", text).map(|span| span.as_hours());
        assert_eq!(hours("3d"), Ok(72));
        assert_eq!(hours(" 36h "), Ok(36));
        assert_eq!(hours("2d 12h"), Ok(60));
    }

    #[test]
    fn what_is_no_span_is_refused() {
        for bad in ["", "0h", "-1d", "soon", "3", "1 month"] {
            assert!(parse_span("--for", bad).is_err(), "{bad}");
        }
    }
}
