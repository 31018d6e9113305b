//! The morning's test of the scale: which known weights it asks for, and what one of them
//! found, in words.

use crate::words::say;
use evenhand_kitchen::dish::Dish;
use evenhand_kitchen::units::{MassUnit, format_mass};
use evenhand_protocol::{Mass, SelfTest, SelfTestOutcome, TestWeights};
use evenhand_words::Language;

/// The weights to test a scale of this capacity and display interval with: about half the
/// capacity, and about a portion of the lightest of these dishes.
#[must_use]
pub fn weights_to_ask(capacity: Mass, interval: Mass, dishes: &[Dish]) -> TestWeights {
    let lightest = dishes
        .iter()
        .map(|dish| &dish.goal)
        .min_by_key(|goal| goal.target());
    TestWeights::to_ask(capacity, interval, lightest)
}

/// Those of the weights asked for that no tried weight stands in for, the lightest first. One
/// of up to twice the mass, or down to half of it, stands in: the next of a set.
#[must_use]
pub fn still_to_try(asked: TestWeights, tried: &[Mass]) -> Vec<Mass> {
    let stands_in = |wanted: Mass| {
        tried
            .iter()
            .any(|mass| mass.times(2) >= wanted && *mass <= wanted.times(2))
    };
    asked
        .portion
        .into_iter()
        .chain([asked.heavy])
        .filter(|wanted| !stands_in(*wanted))
        .collect()
}

/// What is still to be tried, as a sentence; `None` where that is nothing.
#[must_use]
pub fn still_to_try_words(
    language: Language,
    asked: TestWeights,
    tried: &[Mass],
) -> Option<String> {
    let weight = |mass| language.figure(format_mass(mass, MassUnit::Gram));
    let words = match *still_to_try(asked, tried) {
        [] => return None,
        [mass] if Some(mass) == asked.portion => {
            say!(language, "also-try-portion", mass = weight(mass))
        }
        [mass] => say!(language, "also-try-heavy", mass = weight(mass)),
        [portion, heavy, ..] => say!(
            language,
            "also-try-both",
            portion = weight(portion),
            heavy = weight(heavy)
        ),
    };
    Some(words.into_owned())
}

/// What was found, held against the limit in service:
/// `Pass. 500.0 g reads 500.034 g: 0.034 g too much, known to 0.330 g (k = 2). It may be
/// 1.000 g out in service (OIML R 76-1, 3.5.2).`
#[must_use]
pub fn sentence(language: Language, test: &SelfTest) -> String {
    let error = test.error();
    let known = language.figure(format_mass(test.known, MassUnit::Gram));
    let fine = |mass| fine(mass, language);
    let found = if error.is_negative() {
        say!(
            language,
            "found-too-little",
            known = known,
            indicated = fine(test.indicated),
            error = fine(error.abs()),
            uncertainty = fine(test.uncertainty),
            limit = fine(test.limit)
        )
    } else {
        say!(
            language,
            "found-too-much",
            known = known,
            indicated = fine(test.indicated),
            error = fine(error.abs()),
            uncertainty = fine(test.uncertainty),
            limit = fine(test.limit)
        )
    };
    match test.outcome() {
        SelfTestOutcome::Pass => say!(language, "found-pass", found = found),
        SelfTestOutcome::Doubtful => say!(language, "found-doubtful", found = found),
        SelfTestOutcome::Fail => say!(language, "found-fail", found = found),
    }
    .into_owned()
}

/// A mass finer than the scale's own interval: `0.034 g`.
fn fine(mass: Mass, language: Language) -> String {
    language.figure(format!("{:.3} g", mass.grams()))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A cell of 3 kg and portions of 30 g, with a set of weights of 1, 2 and 5 and their tens.
    #[test]
    fn a_morning_is_tested_at_half_the_capacity_and_at_the_portion() {
        let grams = Mass::from_grams;
        let asked = TestWeights {
            heavy: grams(1_000),
            portion: Some(grams(20)),
        };
        for (tried, left) in [
            (&[][..], &[20, 1_000][..]),
            (&[500], &[20]),
            (&[20], &[1_000]),
            (&[50], &[20, 1_000]),
            (&[10, 2_000], &[]),
        ] {
            let tried: Vec<_> = tried.iter().map(|mass| grams(*mass)).collect();
            let left: Vec<_> = left.iter().map(|mass| grams(*mass)).collect();
            assert_eq!(still_to_try(asked, &tried), left, "{tried:?}");
            let words = still_to_try_words(Language::English, asked, &tried);
            assert_eq!(words.is_none(), left.is_empty(), "{tried:?}");
        }
        assert_eq!(
            still_to_try_words(Language::English, asked, &[grams(1_000)]).as_deref(),
            Some(
                "Try 20.0 g too: about the lightest portion. A scale may be right at half its \
                  capacity and wrong there."
            )
        );
    }

    // OIML R 76-1, 3.5.2, from memory: with e = 1 g, 1 g at 500 g in service.
    #[test]
    fn what_was_found_is_said_with_its_limit() {
        let test = |indicated| SelfTest {
            known: Mass::from_grams(500),
            indicated: Mass::from_milligrams(indicated),
            limit: Mass::from_grams(1),
            uncertainty: Mass::from_milligrams(330),
        };
        assert_eq!(
            sentence(Language::English, &test(500_040)),
            "Pass. 500.0 g reads 500.040 g: 0.040 g too much, known to 0.330 g (k = 2). It may be \
             1.000 g out in service (OIML R 76-1, 3.5.2)."
        );
        let doubtful = sentence(Language::English, &test(500_900));
        assert!(doubtful.starts_with("Not certain. "), "{doubtful}");
        assert!(doubtful.contains("Try it again"), "{doubtful}");
        let fail = sentence(Language::English, &test(498_000));
        assert!(fail.starts_with("Fail. "), "{fail}");
        assert!(fail.contains("2.000 g too little"), "{fail}");
        assert!(fail.ends_with("Calibrate it before service."), "{fail}");
    }
}
