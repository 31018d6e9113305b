//! What a test of the scale with a known weight found, in words.

use crate::words::say;
use evenhand_kitchen::units::{MassUnit, format_mass};
use evenhand_protocol::{Mass, SelfTest, SelfTestOutcome};
use evenhand_words::Language;

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
