//! What the record refuses, in words that say what to do on a command line.

use super::failure::Said;
use super::words::{said, say};
use evenhand_store::StoreError;
use evenhand_use_cases::mixing::batch::batch_error_words;
use evenhand_words::Language;

/// For people in words, for machines as a code with its fields.
pub(crate) fn said(language: Language, error: &StoreError) -> Said {
    use StoreError as E;
    match error {
        E::NoPlace => said!("store-no-place"),
        E::Folder { path, why } => {
            said!("store-folder", path = path.display().to_string(), why = why,)
        }
        E::NoStore { folder } => said!("store-none", folder = folder.display().to_string()),
        E::Moved { path } => said!("store-moved", path = path.display().to_string()),
        E::AfterRestore {
            path,
            why,
            set_aside,
        } => said!(
            "store-after-restore",
            path = path.display().to_string(),
            why = reason(language, why),
            there = if set_aside.is_some() { "yes" } else { "no" },
            aside = set_aside
                .as_ref()
                .map(|aside| aside.display().to_string())
                .unwrap_or_default(),
        ),
        E::Newer { path, found, known } => said!(
            "store-newer",
            path = path.display().to_string(),
            found = found.to_string(),
            known = known.to_string(),
        ),
        E::NotOurs { path } => said!("store-not-ours", path = path.display().to_string()),
        E::Damaged { path, why } => said!(
            "store-damaged",
            path = path.display().to_string(),
            why = reason(language, why),
        ),
        E::Backup { path, why } => said!(
            "store-backup",
            path = path.display().to_string(),
            why = reason(language, why),
        ),
        E::ReadOnly { path } => said!("store-read-only", path = path.display().to_string()),
        E::Full { path } => said!("store-full", path = path.display().to_string()),
        E::Busy { path } => said!("store-busy", path = path.display().to_string()),
        E::MadeUpNight => said!("store-made-up-night"),
        E::Gathering => said!("store-gathering"),
        E::Journal { path, why } => said!(
            "store-journal",
            path = path.display().to_string(),
            why = why,
        ),
        E::Disk { path, why } => said!(
            "store-disk",
            path = path.display().to_string(),
            why = reason(language, why),
        ),
        E::Senseless { path, what } => said!(
            "store-senseless",
            path = path.display().to_string(),
            what = *what,
        ),
        E::Sql { path, why, code } => said!(
            "store-sql",
            path = path.display().to_string(),
            why = reason(language, why),
            code = code.to_string(),
        ),
        asked => unknown(language, asked),
    }
}

/// What was asked for is not on record, or cannot be done to it.
fn unknown(language: Language, error: &StoreError) -> Said {
    use StoreError as E;
    match error {
        E::UnknownDish { name, known } => said!(
            "unknown-dish",
            name = quoted(name),
            any = any(known),
            known = listed(known),
        ),
        E::UnknownTin(tin) => said!("unknown-tin", tin = tin.as_str()),
        E::TinOfOtherDish { tin, holds, asked } => said!(
            "tin-of-other-dish",
            tin = tin.to_string(),
            holds = holds.as_str(),
            asked = asked.as_str(),
        ),
        E::NameTaken(name) => said!("name-taken", name = quoted(name)),
        E::OrdersReversed(day) => said!("orders-reversed", day = day.to_string()),
        E::UnknownYieldLine(line) => {
            said!("unknown-yield-line", line = line.to_string())
        }
        E::UnknownPicture(picture) => {
            said!("unknown-picture", picture = picture.to_string())
        }
        E::UnknownBatch(batch) => said!("unknown-batch", batch = batch.as_str()),
        E::UnknownVessel { name, known } => said!(
            "unknown-vessel",
            name = quoted(name),
            any = any(known),
            known = listed(known),
        ),
        E::UnknownHeatLog { name, known } => said!(
            "unknown-heat-log",
            name = quoted(name),
            any = any(known),
            known = listed(known),
        ),
        E::HeatOverlaps { at } => said!("heat-overlaps", at = at.to_string()),
        E::UnknownHeatCorrection(number) => {
            said!("unknown-heat-correction", number = number.to_string())
        }
        E::UnknownPortion(portion) => {
            said!("unknown-portion", portion = portion.as_str())
        }
        E::StruckAlready(portion) => said!("struck-already", portion = portion.as_str()),
        E::NotStruck(portion) => said!("not-struck", portion = portion.as_str()),
        E::UnknownOrder(number) => said!("unknown-order", number = number.to_string()),
        E::OrderIsSo { number, taken_back } => said!(
            "order-is-so",
            number = number.to_string(),
            is = if *taken_back {
                "taken-back"
            } else {
                "put-down"
            }
        ),
        E::NothingToUndo => said!("nothing-to-undo"),
        E::Vessel(error) => super::input::said(language, error),
        E::Batch(error) => Said::coded(
            "batch",
            language.english_or(error, |language| batch_error_words(language, error)),
        ),
        E::Heat(error) => log_error(error),
        other => Said::coded("store", other.to_string()),
    }
}

/// Why a reading cannot follow those on record.
fn log_error(error: &evenhand_kitchen::heat::LogError) -> Said {
    use evenhand_kitchen::heat::LogError as E;
    match error {
        E::Backward { at, before } => said!(
            "log-backward",
            at = at.to_string(),
            before = before.to_string(),
        ),
        E::Twice { at } => said!("log-twice", at = at.to_string()),
        E::Absurd { at, celsius } => said!(
            "log-absurd",
            at = at.to_string(),
            celsius = celsius.as_str(),
        ),
    }
}

/// A reason that the store gives, which it has in English for logs.
fn reason(language: Language, why: &str) -> String {
    let known = match why {
        "its parts do not fit together" => say!(language, "why-parts"),
        "it does not begin as one" => say!(language, "why-begins"),
        "it is part of the store itself; choose another" => say!(language, "why-part-of-store"),
        "it is the store itself, not a copy of it" => say!(language, "why-store-itself"),
        "there is no such file" => say!(language, "why-no-such-file"),
        "there is a file of that name already; choose another" => {
            say!(language, "why-there-already")
        }
        "what was to be written breaks a rule that the record keeps" => {
            say!(language, "why-rule")
        }
        "a value is of another kind than the record keeps" => say!(language, "why-kind"),
        "a value is too large to be kept" => say!(language, "why-too-large"),
        "this computer has no memory left for it" => say!(language, "why-memory"),
        "it was interrupted before it was done" => say!(language, "why-interrupted"),
        "the disk that it lies on cannot keep a store; choose a folder on this computer" => {
            say!(language, "why-disk")
        }
        "it lacks a part that this program looks for" => say!(language, "why-lacks"),
        "a figure in it is of another kind than this program writes" => {
            say!(language, "why-figure")
        }
        other => return other.to_owned(),
    };
    known.into_owned()
}

fn any(known: &[String]) -> &'static str {
    if known.is_empty() { "none" } else { "some" }
}

/// What somebody wrote, in quotes.
fn quoted(name: &str) -> String {
    format!("{name:?}")
}

fn listed(known: &[String]) -> String {
    known
        .iter()
        .map(|name| quoted(name))
        .collect::<Vec<_>>()
        .join(", ")
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;
    use std::path::PathBuf;

    /// The log's English and the face's are one.
    #[test]
    fn what_is_said_in_english_is_what_the_log_has() {
        let path = || PathBuf::from("/kitchen/evenhand.sqlite3");
        let name = || "Shrimp".to_owned();
        let errors = [
            StoreError::NoPlace,
            StoreError::NoStore { folder: path() },
            StoreError::Moved { path: path() },
            StoreError::AfterRestore {
                path: path(),
                why: "its parts do not fit together".to_owned(),
                set_aside: None,
            },
            StoreError::AfterRestore {
                path: path(),
                why: "it does not begin as one".to_owned(),
                set_aside: Some(path()),
            },
            StoreError::Newer {
                path: path(),
                found: 9,
                known: 8,
            },
            StoreError::NotOurs { path: path() },
            StoreError::Damaged {
                path: path(),
                why: "its parts do not fit together".to_owned(),
            },
            StoreError::Backup {
                path: path(),
                why: "there is no such file".to_owned(),
            },
            StoreError::ReadOnly { path: path() },
            StoreError::Full { path: path() },
            StoreError::Busy { path: path() },
            StoreError::MadeUpNight,
            StoreError::Gathering,
            StoreError::Journal {
                path: path(),
                why: std::io::Error::from(std::io::ErrorKind::NotFound),
            },
            StoreError::Disk {
                path: path(),
                why: "code 10".to_owned(),
            },
            StoreError::Senseless {
                path: path(),
                what: "time",
            },
            StoreError::Sql {
                path: path(),
                why: "a value is too large to be kept",
                code: 18,
            },
            StoreError::UnknownDish {
                name: name(),
                known: Vec::new(),
            },
            StoreError::UnknownDish {
                name: name(),
                known: vec![name(), name()],
            },
            StoreError::UnknownTin(name()),
            StoreError::TinOfOtherDish {
                tin: 1,
                holds: name(),
                asked: name(),
            },
            StoreError::NameTaken(name()),
            StoreError::OrdersReversed(jiff::civil::date(2026, 5, 1)),
            StoreError::UnknownYieldLine(4),
            StoreError::UnknownBatch(name()),
            StoreError::UnknownVessel {
                name: name(),
                known: Vec::new(),
            },
            StoreError::UnknownHeatLog {
                name: name(),
                known: vec![name()],
            },
            StoreError::HeatOverlaps {
                at: jiff::Timestamp::UNIX_EPOCH,
            },
            StoreError::UnknownHeatCorrection(4),
            StoreError::UnknownPortion(name()),
            StoreError::StruckAlready(name()),
            StoreError::NotStruck(name()),
            StoreError::UnknownOrder(7),
            StoreError::OrderIsSo {
                number: 7,
                taken_back: true,
            },
            StoreError::OrderIsSo {
                number: 7,
                taken_back: false,
            },
            StoreError::NothingToUndo,
        ];
        for error in errors {
            let english = said(Language::English, &error);
            let english_words = english.in_words(Language::English);
            assert_eq!(english_words, error.to_string());
            for language in [Language::Spanish, Language::French] {
                let other = said(language, &error);
                assert_ne!(other.in_words(language), english_words);
                assert_eq!(other.fields()["code"], english.fields()["code"]);
            }
        }
    }

    #[test]
    fn machines_get_the_code_and_its_fields() {
        let error = StoreError::UnknownTin("12".to_owned());
        assert_eq!(
            said(Language::French, &error).fields(),
            json!({ "code": "unknown-tin", "fields": { "tin": "12" } })
        );
    }
}
