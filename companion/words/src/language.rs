//! The languages, and what differs between them besides words.

use std::fmt;
use std::str::FromStr;

/// A language that screens and sentences come in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Language {
    /// English: what is said where another language has no word.
    #[default]
    English,
    /// Spanish.
    Spanish,
    /// French.
    French,
    /// English made longer, with accents: never offered to a cook, for trying
    /// whether screens have room.
    Stretched,
}

impl Language {
    /// The languages that a cook can choose.
    pub const ALL: [Self; 3] = [Self::English, Self::Spanish, Self::French];

    /// Its code by ISO 639-1; for the stretched one a code of private use.
    #[must_use]
    pub const fn code(self) -> &'static str {
        match self {
            Self::English => "en",
            Self::Spanish => "es",
            Self::French => "fr",
            Self::Stretched => "x-stretched",
        }
    }

    /// What it calls itself.
    #[must_use]
    pub const fn own_name(self) -> &'static str {
        match self {
            Self::English => "English",
            Self::Spanish => "Español",
            Self::French => "Français",
            Self::Stretched => "Stretched",
        }
    }

    /// The language whose words are said. Its code names its plural rules too.
    pub(crate) const fn worded(self) -> Self {
        match self {
            Self::Stretched => Self::English,
            language => language,
        }
    }

    /// Whether its words are those that logs have.
    #[must_use]
    pub const fn is_english(self) -> bool {
        matches!(self.worded(), Self::English)
    }

    /// What something says of itself in English, where that is spoken; else the
    /// words that there are for it.
    pub fn english_or(self, english: &impl ToString, words: impl FnOnce(Self) -> String) -> String {
        if self.is_english() {
            english.to_string()
        } else {
            words(self)
        }
    }

    /// The mark between a number's whole part and its decimals, by the Unicode
    /// CLDR's data for the language (from memory). Spanish in Mexico and the
    /// United States takes the point; here a language has one mark.
    #[must_use]
    pub const fn decimal_mark(self) -> char {
        match self {
            Self::English | Self::Stretched => '.',
            Self::Spanish | Self::French => ',',
        }
    }

    /// A figure that was formatted with a decimal point, with this language's
    /// mark instead. Only a point between two digits is one.
    #[must_use]
    pub fn figure(self, formatted: impl Into<String>) -> String {
        let formatted = formatted.into();
        let mark = self.decimal_mark();
        if mark == '.' || !formatted.contains('.') {
            return formatted;
        }
        let letters: Vec<char> = formatted.chars().collect();
        let digit = |nth: Option<usize>| {
            nth.and_then(|nth| letters.get(nth))
                .is_some_and(char::is_ascii_digit)
        };
        letters
            .iter()
            .enumerate()
            .map(|(nth, letter)| match letter {
                '.' if digit(nth.checked_sub(1)) && digit(nth.checked_add(1)) => mark,
                letter => *letter,
            })
            .collect()
    }

    /// The language of a locale's name, such as `es`, `es-MX` or
    /// `fr_CA.UTF-8`; `None` where it is none of these.
    #[must_use]
    pub fn of_locale(locale: &str) -> Option<Self> {
        if locale.eq_ignore_ascii_case(Self::Stretched.code()) {
            return Some(Self::Stretched);
        }
        let code = locale.split(['-', '_', '.', '@']).next()?;
        Self::ALL
            .into_iter()
            .find(|language| language.code().eq_ignore_ascii_case(code))
    }
}

impl fmt::Display for Language {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(self.code())
    }
}

/// A language that Evenhand does not speak.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct UnknownLanguage(String);

impl fmt::Display for UnknownLanguage {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "language: {:?} is none of", self.0)?;
        for (nth, language) in Language::ALL.into_iter().enumerate() {
            let before = if nth == 0 { " " } else { ", " };
            write!(f, "{before}{} ({})", language.code(), language.own_name())?;
        }
        Ok(())
    }
}

impl std::error::Error for UnknownLanguage {}

impl FromStr for Language {
    type Err = UnknownLanguage;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        Self::of_locale(text.trim()).ok_or_else(|| UnknownLanguage(text.to_owned()))
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    #[test]
    fn a_decimal_mark_stands_between_digits_and_nowhere_else() {
        for (language, given, expected) in [
            (Language::English, "30.0 g ± 1.0 g", "30.0 g ± 1.0 g"),
            (Language::Spanish, "30.0 g ± 1.0 g", "30,0 g ± 1,0 g"),
            (
                Language::French,
                "\u{2212}0.5 / +1.5 g",
                "\u{2212}0,5 / +1,5 g",
            ),
            (Language::French, "5 g.", "5 g."),
            (Language::Spanish, ".5", ".5"),
            (Language::Spanish, "", ""),
        ] {
            assert_eq!(language.figure(given), expected);
        }
    }

    #[test]
    fn a_locale_has_its_language_and_an_unknown_one_is_refused_by_name() {
        for (locale, language) in [
            ("es", Language::Spanish),
            ("es-MX", Language::Spanish),
            ("fr_CA.UTF-8", Language::French),
            ("EN_gb@euro", Language::English),
            ("x-stretched", Language::Stretched),
        ] {
            assert_eq!(locale.parse(), Ok(language), "{locale}");
        }
        for locale in ["", "C", "POSIX", "est", "de-DE"] {
            assert_eq!(Language::of_locale(locale), None, "{locale}");
        }
        assert_eq!(
            "de".parse::<Language>().unwrap_err().to_string(),
            "language: \"de\" is none of en (English), es (Español), fr (Français)"
        );
    }
}
