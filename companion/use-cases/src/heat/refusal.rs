//! Why what was asked of a log cannot be, in words.

use crate::words::say;
use evenhand_kitchen::heat::{
    CorrectionError, ForecastError, LethalityError, LogError, TableError,
};
use evenhand_kitchen::probe::ProbeError;
use evenhand_kitchen::units::excerpt;
use evenhand_words::Language;

/// Why a band or what surrounds it is none.
#[must_use]
pub fn forecast_error_words(language: Language, error: ForecastError) -> String {
    match error {
        ForecastError::BandReversed => say!(language, "heat-refused-band"),
        ForecastError::SurroundingsSpread => say!(language, "heat-refused-spread"),
    }
    .into_owned()
}

/// Why a probe is none.
#[must_use]
pub fn probe_error_words(language: Language, error: &ProbeError) -> String {
    let (what, value) = match error {
        ProbeError::Type(text) => ("type", format!("{text:?}")),
        ProbeError::Part {
            part: "converter",
            celsius,
        } => ("converter", celsius.to_string()),
        ProbeError::Part { celsius, .. } => ("cold-junction", celsius.to_string()),
        ProbeError::Within(celsius) => ("within", celsius.to_string()),
        ProbeError::Class(class) => ("class", class.to_string()),
    };
    let value = language.figure(value);
    say!(language, "heat-refused-probe", what = what, value = value).into_owned()
}

/// Why lethality is not counted.
#[must_use]
pub fn lethality_error_words(language: Language, error: &LethalityError) -> String {
    match error {
        LethalityError::BadZ(z) => say!(
            language,
            "heat-refused-z",
            value = language.figure(z.to_string())
        ),
        LethalityError::NoSource => say!(language, "heat-refused-z-source"),
    }
    .into_owned()
}

/// Why a correction is none.
#[must_use]
pub fn correction_error_words(language: Language, error: &CorrectionError) -> String {
    match error {
        CorrectionError::Reversed { from, to } => say!(
            language,
            "heat-refused-reversed",
            to = to.to_string(),
            from = from.to_string()
        ),
        CorrectionError::NoReason => say!(language, "heat-refused-no-reason"),
        CorrectionError::TooMuch(value) => say!(
            language,
            "heat-refused-too-much",
            value = language.figure(value.as_str())
        ),
    }
    .into_owned()
}

/// Why a table of readings, or a line of it, was refused.
#[must_use]
pub fn table_error_words(language: Language, error: &TableError) -> String {
    match error {
        TableError::Header(header) => say!(
            language,
            "heat-table-header",
            value = excerpt(header).into_owned()
        )
        .into_owned(),
        TableError::Field {
            line, field, value, ..
        } => say!(
            language,
            "heat-table-field",
            line = line.to_string(),
            field = *field,
            value = excerpt(value).into_owned()
        )
        .into_owned(),
        TableError::Line { line, .. } => {
            say!(language, "heat-table-line", line = line.to_string()).into_owned()
        }
        TableError::Reading { line, error } => say!(
            language,
            "heat-table-reading",
            line = line.to_string(),
            why = log_error_words(language, error)
        )
        .into_owned(),
        TableError::Empty => say!(language, "heat-table-empty").into_owned(),
    }
}

fn log_error_words(language: Language, error: &LogError) -> String {
    match error {
        LogError::Backward { at, before } => say!(
            language,
            "heat-reading-backward",
            at = at.to_string(),
            before = before.to_string()
        ),
        LogError::Twice { at } => say!(language, "heat-reading-twice", at = at.to_string()),
        LogError::Absurd { at, celsius } => say!(
            language,
            "heat-reading-absurd",
            value = language.figure(celsius.as_str()),
            at = at.to_string()
        ),
    }
    .into_owned()
}

#[cfg(test)]
mod tests {
    use super::*;
    use jiff::Timestamp;

    #[track_caller]
    fn same(domain: impl ToString, said: impl Fn(Language) -> String) {
        let english = said(Language::English);
        assert_eq!(english, domain.to_string());
        for language in [Language::Spanish, Language::French] {
            assert_ne!(said(language), english);
        }
    }

    /// The domain's own words, for logs, are the English ones.
    #[test]
    fn a_refusal_is_the_same_in_english_and_another_in_every_other_language() {
        let at = Timestamp::UNIX_EPOCH;
        for error in [
            ForecastError::BandReversed,
            ForecastError::SurroundingsSpread,
        ] {
            same(error, |language| forecast_error_words(language, error));
        }
        for error in [
            ProbeError::Type("X".to_owned()),
            ProbeError::Part {
                part: "converter",
                celsius: 21.5,
            },
            ProbeError::Part {
                part: "cold junction",
                celsius: 21.5,
            },
            ProbeError::Within(40.0),
            ProbeError::Class(3),
        ] {
            same(&error, |language| probe_error_words(language, &error));
        }
        for error in [LethalityError::BadZ(1.5), LethalityError::NoSource] {
            same(&error, |language| lethality_error_words(language, &error));
        }
        for error in [
            CorrectionError::Reversed { from: at, to: at },
            CorrectionError::NoReason,
            CorrectionError::TooMuch("60.5".to_owned()),
        ] {
            same(&error, |language| correction_error_words(language, &error));
        }
        let reading = |error| TableError::Reading { line: 3, error };
        for error in [
            TableError::Header("at,value".to_owned()),
            TableError::Field {
                line: 2,
                field: "time",
                value: "now".to_owned(),
                expected: "a date and time with its offset, as 2026-05-01T10:40:00Z",
            },
            TableError::Field {
                line: 2,
                field: "celsius",
                value: "warm".to_owned(),
                expected: "a plain number in the header's unit",
            },
            reading(LogError::Backward { at, before: at }),
            reading(LogError::Twice { at }),
            reading(LogError::Absurd {
                at,
                celsius: "2000.5".to_owned(),
            }),
            TableError::Empty,
        ] {
            same(&error, |language| table_error_words(language, &error));
        }
    }
}
