//! Why something typed cannot be used, and what to write instead: a code that
//! does not change, with what belongs to it.
//!
//! The sentences are in `words/reasons` in each language, for whoever says them.
//! The English file is what a reason says of itself in a log.

use super::error::shown;
use core::fmt::Display;
use std::collections::HashMap;
use std::sync::LazyLock;

/// What each reason says of itself, by its key.
static ENGLISH: LazyLock<HashMap<&'static str, &'static str>> = LazyLock::new(|| {
    include_str!("../../words/reasons/en.ftl")
        .lines()
        .filter_map(|line| line.split_once(" = "))
        .collect()
});

/// What is wrong with something typed, or what to write instead. Made by
/// [`problem!`](crate::problem) and [`expected!`](crate::expected).
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Reason {
    key: &'static str,
    parts: Vec<(&'static str, Part)>,
}

/// What belongs to a reason: a figure, a name, or another reason.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Part {
    /// A figure or a name.
    Plain(String),
    /// What somebody wrote, said in quotes.
    Typed(String),
    /// Why a part of it cannot be used.
    Reason(Box<Reason>),
}

/// What somebody wrote, as a part of a reason.
pub fn typed(text: impl Into<String>) -> Part {
    Part::Typed(text.into())
}

impl<T: Display> From<T> for Part {
    fn from(value: T) -> Self {
        Self::Plain(value.to_string())
    }
}

impl From<Reason> for Part {
    fn from(reason: Reason) -> Self {
        Self::Reason(Box::new(reason))
    }
}

impl Part {
    fn in_english(&self) -> String {
        match self {
            Self::Plain(text) => text.clone(),
            Self::Typed(text) => shown(text),
            Self::Reason(reason) => reason.in_english(),
        }
    }

    /// The same for machines: as it was written, and a reason by its code.
    #[must_use]
    pub fn value(&self) -> &str {
        match self {
            Self::Plain(text) | Self::Typed(text) => text,
            Self::Reason(reason) => reason.code(),
        }
    }
}

impl Reason {
    /// For [`problem!`](crate::problem) and [`expected!`](crate::expected),
    /// whose keys a test holds together with the sentences.
    #[doc(hidden)]
    #[must_use]
    pub const fn of(key: &'static str, parts: Vec<(&'static str, Part)>) -> Self {
        Self { key, parts }
    }

    /// Its code, which does not change.
    #[must_use]
    pub fn code(&self) -> &'static str {
        self.key.split_once('-').map_or(self.key, |(_, code)| code)
    }

    /// What belongs to it, by name.
    #[must_use]
    pub fn parts(&self) -> &[(&'static str, Part)] {
        &self.parts
    }

    /// The key of its sentence: the code after `problem-` or `expected-`.
    #[must_use]
    pub const fn key(&self) -> &'static str {
        self.key
    }

    /// What it says of itself, in English, for logs.
    #[must_use]
    pub fn in_english(&self) -> String {
        let sentence = ENGLISH.get(self.key).copied().unwrap_or(self.key);
        let parts = self.parts.iter();
        parts.fold(sentence.to_owned(), |said, (name, part)| {
            said.replace(&format!("{{ ${name} }}"), &part.in_english())
        })
    }
}

/// What is wrong with something typed: `problem!("no-unit")`,
/// `problem!("too-long", longest = 40)`. The code's sentence is
/// `problem-no-unit` in `kitchen/words/reasons`.
#[macro_export]
macro_rules! problem {
    ($code:literal $(, $name:ident = $value:expr)* $(,)?) => {
        $crate::units::Reason::of(
            concat!("problem-", $code),
            vec![$((stringify!($name), $crate::units::Part::from($value))),*],
        )
    };
}

/// What to write instead, as [`problem!`] says what is wrong.
#[macro_export]
macro_rules! expected {
    ($code:literal $(, $name:ident = $value:expr)* $(,)?) => {
        $crate::units::Reason::of(
            concat!("expected-", $code),
            vec![$((stringify!($name), $crate::units::Part::from($value))),*],
        )
    };
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_reason_says_itself_with_its_parts() {
        let reason = problem!(
            "mass-that",
            why = problem!("other-mass-unit", unit = typed("ml"))
        );
        assert_eq!(reason.code(), "mass-that");
        assert_eq!(
            reason.in_english(),
            "has a mass that has the unit \"ml\", which is no mass known here"
        );
        assert_eq!(
            expected!("at-most", most = 3).in_english(),
            "write at most 3"
        );
    }

    /// What is read line by line here has no plurals and goes over no lines.
    #[test]
    fn every_sentence_is_one_line() {
        assert!(ENGLISH.len() > 400, "{}", ENGLISH.len());
        for line in include_str!("../../words/reasons/en.ftl").lines() {
            let reason = line.starts_with("problem-") || line.starts_with("expected-");
            assert!(reason || line.is_empty() || line.starts_with('#'), "{line}");
            assert!(!line.contains("->"), "{line}");
        }
    }
}
