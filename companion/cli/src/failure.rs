//! Why a command could not be carried out.

use evenhand_kitchen::units::InputError;
use evenhand_store::StoreError;
use evenhand_use_cases::limits::LimitsError;
use std::io;
use std::process::ExitCode;

/// Why a command could not be carried out, as a sentence that says what to do.
#[derive(Debug, thiserror::Error)]
pub(crate) enum Failure {
    /// What was typed in cannot be used.
    #[error("{0}")]
    Input(String),
    /// Anything else.
    #[error("{0}")]
    Other(String),
    /// What was judged is over its limit, or not ready. The answer itself was
    /// given.
    #[error("{0}")]
    OverLimit(String),
    /// What was judged is not over its limit and cannot be said to be within:
    /// not finished, too close, or the record does not tell. The answer itself
    /// was given.
    #[error("{0}")]
    NotWithin(String),
    /// Whoever read the output is gone.
    #[error("the output was closed")]
    OutputClosed,
}

impl Failure {
    /// 2 for bad input, 3 over a limit, 4 not to be said to be within one, 1 for
    /// anything else.
    pub(crate) fn exit_code(&self) -> ExitCode {
        match self {
            Self::Input(_) => ExitCode::from(2),
            Self::Other(_) => ExitCode::FAILURE,
            Self::OverLimit(_) => ExitCode::from(3),
            Self::NotWithin(_) => ExitCode::from(4),
            Self::OutputClosed => ExitCode::SUCCESS,
        }
    }

    /// An error of the output itself.
    pub(crate) fn output(error: &io::Error) -> Self {
        if error.kind() == io::ErrorKind::BrokenPipe {
            Self::OutputClosed
        } else {
            Self::Other(format!("the output cannot be written: {error}"))
        }
    }
}

impl From<InputError> for Failure {
    fn from(error: InputError) -> Self {
        Self::Input(error.to_string())
    }
}

impl From<LimitsError> for Failure {
    fn from(error: LimitsError) -> Self {
        Self::Input(error.to_string())
    }
}

impl From<StoreError> for Failure {
    fn from(error: StoreError) -> Self {
        if error.is_bad_input() {
            Self::Input(error.to_string())
        } else {
            Self::Other(error.to_string())
        }
    }
}
