//! The domain's names for fields, as the flags they were typed at.

use super::Failure;
use evenhand_kitchen::moment::read_past_moment;
use evenhand_kitchen::units::InputError;
use jiff::{Timestamp, ZonedDateTime};

/// An error of the domain, named by the flag that held the value.
pub(super) fn at_flag(error: &InputError, flags: &[(&str, &str)]) -> Failure {
    let flag = flags
        .iter()
        .find(|(field, _)| *field == error.field())
        .map_or(error.field(), |(_, flag)| flag);
    let error = error.clone().at(flag);
    if error.value().is_empty() {
        Failure::Unsaid(error)
    } else {
        Failure::Typed(error)
    }
}

/// When something happened: at the moment that is said at this flag, or now.
pub(super) fn happened(flag: &str, at: Option<&str>) -> Result<Timestamp, Failure> {
    Ok(match at {
        Some(text) => read_past_moment(flag, text, &ZonedDateTime::now())?,
        None => Timestamp::now(),
    })
}
