//! Why something that was asked of the link was not done.

use super::LinkState;
use crate::Unmet;

/// Why something that was asked of the link was not done.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum NotDone {
    /// No instrument is linked; how things stand with it.
    NotLinked(LinkState),
    /// There is no run to end.
    NoRun,
    /// The instrument did not do it.
    Unmet(Unmet),
    /// The store did not; what it said.
    Store(String),
}
