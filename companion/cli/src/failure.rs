//! Why a command could not be carried out.

use super::words::{WORDS, said};
use super::{input, store_error};
use evenhand_kitchen::units::InputError;
use evenhand_link::live::LinkState;
use evenhand_protocol::GoalError;
use evenhand_store::StoreError;
use evenhand_use_cases::input::unsaid_words;
use evenhand_use_cases::instrument;
use evenhand_use_cases::limits::LimitsError;
use evenhand_use_cases::record::{limits_error_words, why};
use evenhand_words::{Language, Value};
use serde_json::{Map, json};
use std::io;
use std::process::ExitCode;

/// Why a command could not be carried out, as a sentence that says what to do.
#[derive(Debug, thiserror::Error)]
pub(crate) enum Failure {
    /// A message of the command line.
    #[error("{}", .1.in_words(Language::English))]
    Said(Kind, Said),
    /// What was typed in cannot be used, in words.
    #[error("{0}")]
    Input(String),
    /// Anything else, in words.
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
    /// What is needed was not typed in, by the domain's word.
    #[error("{}", unsaid_words(Language::English, .0))]
    Unsaid(InputError),
    /// The store did not do as asked.
    #[error(transparent)]
    Store(#[from] StoreError),
    /// There are no limits to judge by.
    #[error(transparent)]
    Limits(#[from] LimitsError),
    /// There is no link to the scale, or none any more.
    #[error("{}", instrument::link(Language::English, .0))]
    Link(Box<LinkState>),
    /// The output cannot be written.
    #[error("the output cannot be written: {0}")]
    Output(io::Error),
    /// Whoever read the output is gone.
    #[error("the output was closed")]
    OutputClosed,
}

/// What a message of the command line is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Kind {
    /// What was typed in cannot be used.
    Input,
    /// Anything else.
    Other,
}

impl Failure {
    /// 2 for bad input, 3 over a limit, 4 not to be said to be within one, 1 for
    /// anything else.
    pub(crate) fn exit_code(&self) -> ExitCode {
        match self {
            Self::Said(Kind::Input, _)
            | Self::Input(_)
            | Self::Typed(_)
            | Self::Unsaid(_)
            | Self::Limits(_) => ExitCode::from(2),
            Self::Store(error) if error.is_bad_input() => ExitCode::from(2),
            Self::Said(Kind::Other, _)
            | Self::Link(_)
            | Self::Store(_)
            | Self::Other(_)
            | Self::Output(_) => ExitCode::FAILURE,
            Self::OverLimit(_) => ExitCode::from(3),
            Self::NotWithin(_) => ExitCode::from(4),
            Self::OutputClosed => ExitCode::SUCCESS,
        }
    }

    /// An error of the output itself.
    pub(crate) fn output(error: io::Error) -> Self {
        if error.kind() == io::ErrorKind::BrokenPipe {
            Self::OutputClosed
        } else {
            Self::Output(error)
        }
    }

    /// As a sentence of a language.
    pub(crate) fn in_words(&self, language: Language) -> String {
        match self {
            Self::Said(_, said) => said.in_words(language),
            other => other.said(language).in_words(language),
        }
    }

    /// For machines: `{"error":{"code":"unknown-tin","fields":{"tin":"12"}}}`.
    pub(crate) fn fields(&self) -> serde_json::Value {
        json!({ "error": self.said(Language::English).fields() })
    }

    /// Why there are no limits to judge by.
    pub(crate) fn limits_words(language: Language, error: &LimitsError) -> String {
        language.english_or(error, |language| limits_error_words(language, error))
    }

    fn said(&self, language: Language) -> Said {
        match self {
            Self::Said(_, said) => said.clone(),
            Self::Typed(error) => input::said(language, error),
            Self::Unsaid(error) => input::unsaid(language, error),
            Self::Store(error) => store_error::said(language, error),
            Self::Limits(error) => Said::coded("limits", Self::limits_words(language, error)),
            Self::Link(state) => Said::coded(
                "link",
                format!(
                    "{} {}",
                    instrument::link(language, state),
                    instrument::link_remedy(language, state)
                ),
            )
            .with("state", link_code(state)),
            Self::Output(error) => said!("output-failed", why = error),
            Self::OutputClosed => said!("output-closed"),
            Self::Input(words) => Said::coded("input", words.clone()),
            Self::Other(words) => Said::coded("other", words.clone()),
            Self::OverLimit(words) => Said::coded("over-limit", words.clone()),
            Self::NotWithin(words) => Said::coded("not-within", words.clone()),
        }
    }
}

/// What is said of a failure: to people in words, to machines as a code and its fields.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Said {
    code: &'static str,
    parts: Vec<(&'static str, Spoken)>,
    /// Where no message of the command line says it.
    words: Option<String>,
}

/// What a message speaks of.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Spoken {
    /// A figure, a name or other words, or a number that a plural depends on.
    Value(Value<'static>),
    /// What the system said of a file or a port.
    System {
        english: String,
        kind: io::ErrorKind,
        number: Option<i32>,
    },
    /// Why a target and its tolerance make no sense.
    Goal(GoalError),
    /// Something typed in that cannot be used.
    Typed(InputError),
    /// Messages one after the other.
    All(Vec<Said>),
    /// Messages below it, a line each.
    Below(Vec<Said>),
    /// Words of the domain or the use cases, in each language.
    Each(Vec<(Language, String)>),
}

impl From<InputError> for Spoken {
    fn from(error: InputError) -> Self {
        Self::Typed(error)
    }
}

impl From<Said> for Spoken {
    fn from(said: Said) -> Self {
        Self::All(vec![said])
    }
}

impl Spoken {
    /// Words that are said elsewhere, in whichever language they are wanted.
    pub(crate) fn each(words: impl Fn(Language) -> String) -> Self {
        let all = Language::ALL.into_iter().chain([Language::Stretched]);
        Self::Each(all.map(|language| (language, words(language))).collect())
    }

    fn of_each(all: &[(Language, String)], language: Language) -> &str {
        all.iter()
            .find(|(of, _)| *of == language)
            .map_or("", |(_, words)| words)
    }
}

impl From<GoalError> for Spoken {
    fn from(error: GoalError) -> Self {
        Self::Goal(error)
    }
}

impl From<String> for Spoken {
    fn from(text: String) -> Self {
        Self::Value(Value::from(text))
    }
}

impl From<&str> for Spoken {
    fn from(text: &str) -> Self {
        Self::from(text.to_owned())
    }
}

impl From<&io::Error> for Spoken {
    fn from(error: &io::Error) -> Self {
        Self::System {
            english: error.to_string(),
            kind: error.kind(),
            number: error.raw_os_error(),
        }
    }
}

/// Numbers that a plural depends on.
macro_rules! numbers {
    ($($number:ty),+) => {$(
        impl From<$number> for Spoken {
            fn from(number: $number) -> Self {
                Self::Value(Value::from(number))
            }
        }
    )+};
}
numbers!(usize, u64, u32, i64);

impl Spoken {
    fn value(&self, language: Language) -> Value<'_> {
        match self {
            Self::Value(value) => value.clone(),
            Self::Goal(error) => Value::from(instrument::goal(language, *error)),
            Self::Typed(error) => Value::from(input::said(language, error).in_words(language)),
            Self::Below(said) => Value::from(
                said.iter()
                    .map(|said| format!("\n  {}", said.in_words(language)))
                    .collect::<String>(),
            ),
            Self::All(said) => Value::from(
                said.iter()
                    .map(|said| said.in_words(language))
                    .collect::<String>(),
            ),
            Self::Each(all) => Value::from(Self::of_each(all, language)),
            Self::System { english, .. } if language.is_english() => Value::from(english.as_str()),
            Self::System { kind, number, .. } => {
                let error =
                    number.map_or_else(|| io::Error::from(*kind), io::Error::from_raw_os_error);
                Value::from(why(language, &error))
            }
        }
    }

    fn field(&self) -> serde_json::Value {
        match self {
            Self::Value(Value::Number(number)) => json!(number.value),
            Self::Value(Value::String(text)) => json!(text),
            Self::Value(_) => serde_json::Value::Null,
            Self::System { english, .. } => json!(english),
            Self::Goal(error) => json!(error.to_string()),
            Self::Typed(error) => input::said(Language::English, error).fields(),
            Self::All(said) | Self::Below(said) => said.iter().map(Said::fields).collect(),
            Self::Each(all) => json!(Self::of_each(all, Language::English)),
        }
    }
}

impl Said {
    /// A message of the command line; its key is the code, what it speaks of the fields.
    pub(crate) const fn new(code: &'static str, parts: Vec<(&'static str, Spoken)>) -> Self {
        Self {
            code,
            parts,
            words: None,
        }
    }

    /// Words that were made elsewhere.
    pub(crate) const fn coded(code: &'static str, words: String) -> Self {
        Self {
            code,
            parts: Vec::new(),
            words: Some(words),
        }
    }

    /// With a field for machines.
    pub(crate) fn with(mut self, name: &'static str, value: impl Into<Spoken>) -> Self {
        self.parts.push((name, value.into()));
        self
    }

    /// For people.
    pub(crate) fn in_words(&self, language: Language) -> String {
        match &self.words {
            Some(words) => words.clone(),
            None => {
                let of: Vec<_> = self
                    .parts
                    .iter()
                    .map(|(name, part)| (*name, part.value(language)))
                    .collect();
                WORDS.say(language, self.code, &of).into_owned()
            }
        }
    }

    /// For machines.
    pub(crate) fn fields(&self) -> serde_json::Value {
        let fields: Map<_, _> = self
            .parts
            .iter()
            .map(|(name, part)| ((*name).to_owned(), part.field()))
            .collect();
        json!({ "code": self.code, "fields": fields })
    }
}

/// How the link stands, in one word.
const fn link_code(state: &LinkState) -> &'static str {
    match state {
        LinkState::NoneChosen => "none-chosen",
        LinkState::NoPort { .. } => "no-port",
        LinkState::NotAllowed { .. } => "not-allowed",
        LinkState::Busy { .. } => "busy",
        LinkState::PortFailed { .. } => "port-failed",
        LinkState::Calling { .. } => "calling",
        LinkState::Silent { .. } => "silent",
        LinkState::NotOurs { .. } => "not-ours",
        LinkState::OtherVersion { .. } => "other-version",
        LinkState::DesktopAtOtherEnd { .. } => "desktop-at-other-end",
        LinkState::Linked { .. } => "linked",
        LinkState::OtherInstrument { .. } => "other-instrument",
        LinkState::Lost { .. } => "lost",
        LinkState::ScenarioOver => "scenario-over",
        LinkState::NoBench { .. } => "no-bench",
    }
}
