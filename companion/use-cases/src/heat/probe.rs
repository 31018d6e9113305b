//! How far the probe may be out, in words.

use crate::limits::publication_words;
use crate::words::say;
use evenhand_kitchen::heat::HeatLog;
use evenhand_kitchen::probe::{Probe, TOLERANCES};
use evenhand_words::Language;

/// What is counted for the probe in what is judged of a log, and where that
/// comes from; or what would make it known.
#[must_use]
pub fn probe_words(language: Language, log: &HeatLog, probe: Option<Probe>) -> String {
    match (log.doubt, probe) {
        (Some(doubt), Some(Probe::Chain(chain))) => say!(
            language,
            "probe-chain",
            within = language.figure(doubt.to_string()),
            kind = chain.thermocouple.to_string(),
            class = chain.class.to_string(),
            converter = language.figure(format!("{} degC", chain.converter)),
            junction = language.figure(format!("{} degC", chain.cold_junction)),
            source = publication_words(language, TOLERANCES),
        )
        .into_owned(),
        (Some(doubt), _) => say!(
            language,
            "probe-said",
            within = language.figure(doubt.to_string())
        )
        .into_owned(),
        (None, _) => say!(language, "probe-unknown").into_owned(),
    }
}
