//! What a test of the scale with a known weight found, in words.

use evenhand_kitchen::units::{MassUnit, format_mass};
use evenhand_protocol::{Mass, SelfTest, SelfTestOutcome};

/// What was found, held against the limit in service:
/// `Pass. 500.0 g reads 500.034 g: 0.034 g too much, known to 0.330 g (k = 2). It may be
/// 1.000 g out in service (OIML R 76-1, 3.5.2).`
#[must_use]
pub fn sentence(test: &SelfTest) -> String {
    let error = test.error();
    let side = if error.is_negative() {
        "too little"
    } else {
        "too much"
    };
    let (word, advice) = match test.outcome() {
        SelfTestOutcome::Pass => ("Pass.", ""),
        SelfTestOutcome::Doubtful => (
            "Not certain.",
            " Try it again: the uncertainty reaches over the limit.",
        ),
        SelfTestOutcome::Fail => ("Fail.", " Calibrate it before service."),
    };
    format!(
        "{word} {} reads {}: {} {side}, known to {} (k = 2). It may be {} out in service \
         (OIML R 76-1, 3.5.2).{advice}",
        format_mass(test.known, MassUnit::Gram),
        fine(test.indicated),
        fine(error.abs()),
        fine(test.uncertainty),
        fine(test.limit),
    )
}

/// A mass finer than the scale's own interval: `0.034 g`.
fn fine(mass: Mass) -> String {
    format!("{:.3} g", mass.grams())
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
            sentence(&test(500_040)),
            "Pass. 500.0 g reads 500.040 g: 0.040 g too much, known to 0.330 g (k = 2). It may be \
             1.000 g out in service (OIML R 76-1, 3.5.2)."
        );
        let doubtful = sentence(&test(500_900));
        assert!(doubtful.starts_with("Not certain. "), "{doubtful}");
        assert!(doubtful.contains("Try it again"), "{doubtful}");
        let fail = sentence(&test(498_000));
        assert!(fail.starts_with("Fail. "), "{fail}");
        assert!(fail.contains("2.000 g too little"), "{fail}");
        assert!(fail.ends_with("Calibrate it before service."), "{fail}");
    }
}
