//! The words of one crate, parsed once.

use crate::Language;
use crate::stretched::stretched;
use fluent_bundle::concurrent::FluentBundle;
use fluent_bundle::{FluentArgs, FluentResource, FluentValue};
use std::borrow::Cow;
use unic_langid::LanguageIdentifier;

/// The words of one feature in one language.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Source {
    /// The language.
    pub language: Language,
    /// The file's text.
    pub text: &'static str,
}

/// The words of one crate in every language.
///
/// Nothing here fails: what another language lacks is said in English, and
/// what English lacks is said by its key. That neither happens is for the
/// tests.
pub struct Catalogue {
    english: FluentBundle<FluentResource>,
    spanish: FluentBundle<FluentResource>,
    french: FluentBundle<FluentResource>,
    stretched: FluentBundle<FluentResource>,
}

impl Catalogue {
    /// Parses the words.
    #[must_use]
    pub fn new(sources: &[Source]) -> Self {
        Self {
            english: bundle(Language::English, sources),
            spanish: bundle(Language::Spanish, sources),
            french: bundle(Language::French, sources),
            stretched: bundle(Language::Stretched, sources),
        }
    }

    const fn of(&self, language: Language) -> &FluentBundle<FluentResource> {
        match language {
            Language::English => &self.english,
            Language::Spanish => &self.spanish,
            Language::French => &self.french,
            Language::Stretched => &self.stretched,
        }
    }

    /// A message with what it speaks of.
    #[must_use]
    pub fn say(
        &self,
        language: Language,
        key: &'static str,
        of: &[(&'static str, FluentValue<'_>)],
    ) -> Cow<'_, str> {
        let said = |language| {
            let bundle = self.of(language);
            let pattern = bundle.get_message(key)?.value()?;
            let args: FluentArgs<'_> = of.iter().cloned().collect();
            // A message that misses something it speaks of is said without it.
            let mut missed = Vec::new();
            Some(bundle.format_pattern(pattern, Some(&args), &mut missed))
        };
        said(language)
            .or_else(|| said(Language::English))
            .unwrap_or(Cow::Borrowed(key))
    }
}

fn bundle(language: Language, sources: &[Source]) -> FluentBundle<FluentResource> {
    // Every code is well-formed, which a test of plurals shows.
    let locale: LanguageIdentifier = language.worded().code().parse().unwrap_or_default();
    let mut bundle = FluentBundle::new_concurrent(vec![locale]);
    // Marks around what is put in are of use where right-to-left is mixed with left-to-right.
    bundle.set_use_isolating(false);
    if language == Language::Stretched {
        bundle.set_transform(Some(stretched));
    }
    for source in sources {
        if source.language == language.worded() {
            // Of a file that is broken the rest is taken in.
            let resource = match FluentResource::try_new(source.text.to_owned()) {
                Ok(resource) | Err((resource, _)) => resource,
            };
            // A key that is there already keeps its first message.
            let _ = bundle.add_resource(resource);
        }
    }
    bundle
}

#[cfg(test)]
mod tests {
    use super::*;

    fn catalogue() -> Catalogue {
        Catalogue::new(&[
            Source {
                language: Language::English,
                text: "\
left = { $count ->
    [one] { $count } portion of { $dish }
   *[other] { $count } portions of { $dish }
}
only-here = Only here
",
            },
            Source {
                language: Language::Spanish,
                text: "\
left = { $count ->
    [one] { $count } ración de { $dish }
   *[other] { $count } raciones de { $dish }
}
",
            },
            Source {
                language: Language::French,
                text: "\
left = { $count ->
    [one] { $count } portion de { $dish }
   *[other] { $count } portions de { $dish }
}
",
            },
        ])
    }

    fn left(language: Language, count: usize) -> String {
        let of = [("count", count.into()), ("dish", "crème".into())];
        catalogue().say(language, "left", &of).into_owned()
    }

    /// Unicode CLDR, cardinal plurals: French counts 0 and 1 as one, English
    /// and Spanish only 1 (from memory).
    #[test]
    fn each_language_has_its_own_plural() {
        assert_eq!(left(Language::English, 0), "0 portions of crème");
        assert_eq!(left(Language::English, 1), "1 portion of crème");
        assert_eq!(left(Language::Spanish, 0), "0 raciones de crème");
        assert_eq!(left(Language::Spanish, 1), "1 ración de crème");
        assert_eq!(left(Language::French, 0), "0 portion de crème");
        assert_eq!(left(Language::French, 1), "1 portion de crème");
        assert_eq!(left(Language::French, 2), "2 portions de crème");
    }

    /// The name of a dish is the kitchen's own and stays as it is.
    #[test]
    fn only_words_are_stretched() {
        assert_eq!(left(Language::Stretched, 2), "2 pôôrtïïôôns ôôf crème");
    }

    #[test]
    fn what_a_language_lacks_is_said_in_english_and_what_english_lacks_by_its_key() {
        let catalogue = catalogue();
        assert_eq!(
            catalogue.say(Language::French, "only-here", &[]),
            "Only here"
        );
        assert_eq!(catalogue.say(Language::French, "nowhere", &[]), "nowhere");
    }

    /// What is drawn every frame costs no copy where nothing is put in.
    #[test]
    fn a_plain_message_is_borrowed() {
        let catalogue = catalogue();
        assert!(matches!(
            catalogue.say(Language::English, "only-here", &[]),
            Cow::Borrowed(_)
        ));
    }

    #[test]
    fn a_broken_file_loses_only_what_is_broken() {
        let catalogue = Catalogue::new(&[Source {
            language: Language::English,
            text: "whole = Whole\nbroken = { $never\nafter = After\nwhole = Twice\n",
        }]);
        assert_eq!(catalogue.say(Language::English, "whole", &[]), "Whole");
        assert_eq!(catalogue.say(Language::English, "after", &[]), "After");
        assert_eq!(catalogue.say(Language::English, "broken", &[]), "broken");
    }
}
