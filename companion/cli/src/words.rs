//! The words of the command line, and the language that they are said in.

use evenhand_words::Language;

evenhand_words::catalogue! {
    pub(crate) WORDS:
    "arguments", "batch", "brine", "cure", "dish", "dough", "failure", "formula", "heat", "keeping", "lot", "portion", "prep", "scale", "service", "spread"
}

/// Says a message of the command line: `say!(language, "heat-watched-for", ...)`.
macro_rules! say {
    ($language:expr, $($message:tt)+) => {
        evenhand_words::say!($crate::words::WORDS, $language, $($message)+)
    };
}

/// A message to be said later, with its key as a code and its values as fields for machines:
/// `said!("unknown-tin", tin = 12)`.
macro_rules! said {
    ($key:literal $(, $name:ident = $value:expr)* $(,)?) => {
        $crate::failure::Said::new(
            $key,
            vec![$((stringify!($name), $crate::failure::Spoken::from($value))),*],
        )
    };
}

/// What was typed in cannot be used: `bad_input!("period-reversed")`.
macro_rules! bad_input {
    ($($message:tt)+) => {
        $crate::failure::Failure::Said(
            $crate::failure::Kind::Input,
            $crate::words::said!($($message)+),
        )
    };
}

/// Anything else that failed: `failed!("output-closed")`.
macro_rules! failed {
    ($($message:tt)+) => {
        $crate::failure::Failure::Said(
            $crate::failure::Kind::Other,
            $crate::words::said!($($message)+),
        )
    };
}

pub(crate) use {bad_input, failed, said, say};

/// The language that was asked for, else the first of the system's that there
/// are words in, else English.
pub(crate) fn spoken(asked: Option<Language>) -> Language {
    let system = || sys_locale::get_locales().find_map(|locale| Language::of_locale(&locale));
    asked.or_else(system).unwrap_or_default()
}
