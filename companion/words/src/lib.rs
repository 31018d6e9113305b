//! What Evenhand says, language by language.
//!
//! Words stand in [Project Fluent](https://projectfluent.org) files in the
//! crate that says them: `words/FEATURE/LANGUAGE.ftl`, such as
//! `words/bench/es.ftl`. [`catalogue!`] embeds a crate's files, [`say!`] says
//! one message. Figures, masses and times come in as words, already formatted;
//! [`Language::figure`] puts in the decimal mark. Only what a plural depends on
//! comes in as a number.
//!
//! To add a language: a variant of [`Language`] and what its functions say of
//! it, a line in [`catalogue!`], and one file a feature. `tests/words.rs` holds
//! all files of a feature together, and the code to them.
#![forbid(unsafe_code)]

mod catalogue;
mod language;
mod stretched;

pub use catalogue::{Catalogue, Source};
pub use fluent_bundle::FluentValue as Value;
pub use language::{Language, UnknownLanguage};

/// Embeds the crate's own words: the features by name, each with a file a
/// language in `words/FEATURE/` beside the crate's `Cargo.toml`.
#[macro_export]
macro_rules! catalogue {
    ($visibility:vis $name:ident: $($feature:literal),+ $(,)?) => {
        /// What this crate says.
        $visibility static $name: std::sync::LazyLock<$crate::Catalogue> =
            std::sync::LazyLock::new(|| {
                $crate::Catalogue::new(&[$(
                    $crate::catalogue!(@source $feature, English, "/en.ftl"),
                    $crate::catalogue!(@source $feature, Spanish, "/es.ftl"),
                    $crate::catalogue!(@source $feature, French, "/fr.ftl"),
                )+])
            });
    };
    (@source $feature:literal, $language:ident, $file:literal) => {
        $crate::Source {
            language: $crate::Language::$language,
            text: include_str!(concat!(
                env!("CARGO_MANIFEST_DIR"), "/words/", $feature, $file
            )),
        }
    };
}

/// Says a message of a catalogue in a language:
/// `say!(WORDS, language, "bench-portions", count = 3)`. The key is a literal,
/// so that a test can hold code and files together.
#[macro_export]
macro_rules! say {
    ($catalogue:expr, $language:expr, $key:literal $(, $name:ident = $value:expr)* $(,)?) => {
        $catalogue.say(
            $language,
            $key,
            &[$((stringify!($name), $crate::Value::from($value))),*],
        )
    };
}
