//! Why a command could not be carried out.

use evenhand_kitchen::units::InputError;
use evenhand_store::StoreError;
use evenhand_use_cases::limits::LimitsError;
use evenhand_words::Language;
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
    /// What was typed in cannot be used, by the domain's word.
    #[error(transparent)]
    Typed(#[from] InputError),
    /// The store did not do as asked.
    #[error(transparent)]
    Store(#[from] StoreError),
    /// There are no limits to judge by.
    #[error(transparent)]
    Limits(#[from] LimitsError),
    /// Whoever read the output is gone.
    #[error("the output was closed")]
    OutputClosed,
}

impl Failure {
    /// 2 for bad input, 3 over a limit, 4 not to be said to be within one, 1 for
    /// anything else.
    pub(crate) fn exit_code(&self) -> ExitCode {
        match self {
            Self::Input(_) | Self::Typed(_) | Self::Limits(_) => ExitCode::from(2),
            Self::Store(error) if error.is_bad_input() => ExitCode::from(2),
            Self::Store(_) | Self::Other(_) => ExitCode::FAILURE,
            Self::OverLimit(_) => ExitCode::from(3),
            Self::NotWithin(_) => ExitCode::from(4),
            Self::OutputClosed => ExitCode::SUCCESS,
        }
    }

    /// As a sentence of a language.
    pub(crate) fn in_words(&self, _language: Language) -> String {
        self.to_string()
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
