//! A stretch of time.

use super::Failure;
use super::words::bad_input;
use clap::Args;
use evenhand_kitchen::moment::{DayEdge, read_moment};
use jiff::{Timestamp, ZonedDateTime};

/// From when to when.
#[derive(Debug, Clone, Args)]
pub(super) struct PeriodArguments {
    /// Only what was made at this time or later: 2026-05-01, 2026-05-01T18:30, today.
    #[arg(long, value_name = "TIME")]
    from: Option<String>,
    /// Only what was made before this time; a day is taken whole.
    #[arg(long, value_name = "TIME")]
    to: Option<String>,
}

impl PeriodArguments {
    /// From (inclusive) and to (exclusive), as said.
    pub(super) fn period(
        &self,
        now: &ZonedDateTime,
    ) -> Result<(Option<Timestamp>, Option<Timestamp>), Failure> {
        let read = |field, text: &Option<String>, edge| {
            text.as_ref()
                .map(|text| read_moment(field, text, now, edge))
                .transpose()
        };
        let from = read("--from", &self.from, DayEdge::Begin)?;
        let to = read("--to", &self.to, DayEdge::End)?;
        if let (Some(from), Some(to)) = (from, to)
            && from >= to
        {
            return Err(bad_input!("period-reversed"));
        }
        Ok((from, to))
    }
}
