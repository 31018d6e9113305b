//! Arguments that cannot be read, in words and as a code.
//!
//! In English `clap` says this itself; the other languages have messages of their own, made of
//! the same kinds and values.

use super::failure::Said;
use super::words::{said, say};
use clap::error::{ContextKind, ContextValue, ErrorKind};
use evenhand_words::Language;
use std::error::Error as _;
use std::ffi::OsString;

/// What cannot be read, as a code with its fields.
pub(super) fn said(error: &clap::Error) -> Said {
    let part = |kind| error.get(kind).map(plain).unwrap_or_default();
    let argument = || part(ContextKind::InvalidArg);
    let alike = |kind| {
        if error.get(kind).is_some() {
            "some"
        } else {
            "none"
        }
    };
    match error.kind() {
        ErrorKind::MissingRequiredArgument => said!("argument-missing", arguments = argument()),
        ErrorKind::UnknownArgument => said!(
            "argument-unknown",
            argument = argument(),
            alike = alike(ContextKind::SuggestedArg),
            suggested = part(ContextKind::SuggestedArg),
        ),
        ErrorKind::InvalidValue if part(ContextKind::InvalidValue).is_empty() => {
            said!("argument-without-value", argument = argument())
        }
        ErrorKind::InvalidValue => said!(
            "argument-value",
            argument = argument(),
            value = format!("{:?}", part(ContextKind::InvalidValue)),
            any = alike(ContextKind::ValidValue),
            values = part(ContextKind::ValidValue),
        ),
        ErrorKind::ValueValidation => said!(
            "argument-value-refused",
            argument = argument(),
            value = format!("{:?}", part(ContextKind::InvalidValue)),
            why = error.source().map(ToString::to_string).unwrap_or_default(),
        ),
        ErrorKind::ArgumentConflict => said!(
            "argument-conflict",
            argument = argument(),
            other = part(ContextKind::PriorArg),
        ),
        ErrorKind::TooManyValues | ErrorKind::TooFewValues | ErrorKind::WrongNumberOfValues => {
            said!("argument-count", argument = argument())
        }
        ErrorKind::InvalidSubcommand => said!(
            "argument-command-unknown",
            command = format!("{:?}", part(ContextKind::InvalidSubcommand)),
            alike = alike(ContextKind::SuggestedSubcommand),
            suggested = part(ContextKind::SuggestedSubcommand),
        ),
        ErrorKind::MissingSubcommand | ErrorKind::DisplayHelpOnMissingArgumentOrSubcommand => {
            said!(
                "argument-command-missing",
                values = part(ContextKind::ValidSubcommand),
            )
        }
        _ => said!("argument-other"),
    }
}

/// A value of the error without its colours.
fn plain(value: &ContextValue) -> String {
    match value {
        ContextValue::Strings(values) => values.join(", "),
        ContextValue::StyledStrs(values) => values
            .iter()
            .map(ToString::to_string)
            .collect::<Vec<_>>()
            .join(", "),
        other => other.to_string(),
    }
}

/// In words, with how the command is written.
pub(super) fn words(language: Language, error: &clap::Error) -> String {
    let mut words = said(error).in_words(language);
    if let Some(usage) = error.get(ContextKind::Usage) {
        let usage = plain(usage);
        let usage = usage.trim_start_matches("Usage:").trim();
        let usage = say!(language, "argument-usage", usage = usage);
        words += &format!("\n\n{usage}");
    }
    format!("{words}\n\n{}", say!(language, "argument-help"))
}

/// The language that is asked for in arguments that cannot be read.
pub(super) fn language(arguments: &[OsString]) -> Option<Language> {
    let mut arguments = arguments.iter().filter_map(|argument| argument.to_str());
    while let Some(argument) = arguments.next() {
        if argument == "--language" {
            return arguments.next()?.parse().ok();
        }
        if let Some(language) = argument.strip_prefix("--language=") {
            return language.parse().ok();
        }
    }
    None
}

#[cfg(test)]
mod tests {
    use super::*;
    use clap::CommandFactory;

    fn refused(arguments: &[&str]) -> clap::Error {
        crate::Arguments::command()
            .try_get_matches_from(arguments)
            .unwrap_err()
    }

    #[test]
    fn what_cannot_be_read_is_said_in_each_language_and_coded_in_none() {
        for (arguments, code, spanish) in [
            (
                &["evenhand", "dish", "add"][..],
                "argument-missing",
                "falta <NAME>: escríbalo también",
            ),
            (
                &["evenhand", "dish", "list", "--grams"],
                "argument-unknown",
                "--grams no se conoce aquí",
            ),
            (
                &["evenhand", "spread", "--by", "week"],
                "argument-value",
                "--by <BY> no puede ser \"week\"; escriba uno de dish, cook, hour, tin",
            ),
            (
                &["evenhand", "dish", "list", "--unit"],
                "argument-without-value",
                "--unit <UNIT> necesita un valor",
            ),
            (
                &["evenhand", "strike", "1", "--lift", "--reason", "x"],
                "argument-conflict",
                "--lift y --reason <TEXT> no van juntos; quite uno",
            ),
            (
                &["evenhand", "dsh"],
                "argument-command-unknown",
                "\"dsh\" no es una orden; una conocida es dish",
            ),
        ] {
            let error = refused(arguments);
            let said = said(&error);
            assert_eq!(said.fields()["code"], code, "{error}");
            assert_eq!(said.in_words(Language::Spanish), spanish, "{error}");
            let french = words(Language::French, &error);
            assert!(french.contains("--help"), "{french}");
            assert!(!french.contains("For more"), "{french}");
        }
    }

    #[test]
    fn the_language_is_found_where_the_rest_cannot_be_read() {
        let found = |arguments: &[&str]| {
            let arguments: Vec<OsString> = arguments.iter().map(OsString::from).collect();
            language(&arguments)
        };
        assert_eq!(found(&["x", "--language", "es"]), Some(Language::Spanish));
        assert_eq!(found(&["--language=fr"]), Some(Language::French));
        assert_eq!(found(&["--language"]), None);
        assert_eq!(found(&["dish"]), None);
    }
}
