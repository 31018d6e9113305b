//! How far the probe may be out, in words.

use evenhand_kitchen::heat::HeatLog;
use evenhand_kitchen::probe::{Probe, TOLERANCES};

/// What is counted for the probe in what is judged of a log, and where that
/// comes from; or what would make it known.
#[must_use]
pub fn probe_words(log: &HeatLog, probe: Option<Probe>) -> String {
    match (log.doubt, probe) {
        (Some(doubt), Some(Probe::Chain(chain))) => {
            format!("The probe is good to {doubt} (k = 2): {chain}; {TOLERANCES}.")
        }
        (Some(doubt), _) => format!("The probe is good to {doubt} (k = 2), as said."),
        (None, _) => String::from(
            "How far the probe may be out is not known and not counted: say probe-within-celsius, \
             or its type, class, converter and cold junction under [probe], in limits.toml.",
        ),
    }
}
