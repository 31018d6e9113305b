//! Heat, for whoever records or shows it: the recording of a probe, how a log
//! stands now, and the words for it.

mod finding;
mod probe;
mod record;
mod recorder;
mod refusal;
mod standing;
mod words;

pub use finding::finding_words;
pub use probe::probe_words;
pub use record::{Records, follow, limit_record_words, record_words, track_records};
pub use recorder::{Recorder, probes};
pub use refusal::{
    correction_error_words, forecast_error_words, lethality_error_words, probe_error_words,
    table_error_words,
};
pub use standing::{HeatNow, LOOK_BACK, ahead};
pub use words::{
    USUAL_LOGS, UsualMarker, band_words, forecast_words, log_words, marker_words, outlook_words,
    why_words,
};
