//! The words of the command line, and the language that they are said in.

use evenhand_words::Language;

evenhand_words::catalogue! {
    pub(crate) WORDS:
    "heat"
}

/// Says a message of the command line: `say!(language, "heat-watched-for", ...)`.
macro_rules! say {
    ($language:expr, $($message:tt)+) => {
        evenhand_words::say!($crate::words::WORDS, $language, $($message)+)
    };
}
pub(crate) use say;

/// The language that was asked for, else the first of the system's that there
/// are words in, else English.
pub(crate) fn spoken(asked: Option<Language>) -> Language {
    let system = || sys_locale::get_locales().find_map(|locale| Language::of_locale(&locale));
    asked.or_else(system).unwrap_or_default()
}
