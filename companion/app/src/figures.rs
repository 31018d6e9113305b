//! Figures as words.

use super::words::{Language, say};
use evenhand_protocol::{Goal, Mass, Mode, Temperature, Tolerance, Verdict};
use std::borrow::Cow;

/// Decimals of a gram that a smallest step calls for: 1 for 0.1 g, 0 for 1 g.
/// At most 3.
#[must_use]
pub fn decimals(interval: Mass) -> usize {
    let micrograms = interval.micrograms().max(1);
    [1_000_000, 100_000, 10_000]
        .iter()
        .position(|unit| micrograms % unit == 0)
        .unwrap_or(3)
}

/// A mass in grams without its unit, rounded to the interval, with a true
/// minus sign, the language's decimal mark and never a negative zero.
#[must_use]
pub fn bare(mass: Mass, interval: Mass, language: Language) -> String {
    let rounded = mass.rounded_to(interval);
    let digits = format!("{:.*}", decimals(interval), rounded.abs().grams());
    language.figure(if rounded.is_negative() {
        format!("\u{2212}{digits}")
    } else {
        digits
    })
}

/// A mass in grams with its unit.
#[must_use]
pub fn grams(mass: Mass, interval: Mass, language: Language) -> String {
    format!("{} g", bare(mass, interval, language))
}

/// A tolerance: `± 1.0 g`, or `−0.5 / +1.5 g` where its sides differ.
#[must_use]
pub fn tolerance(tolerance: Tolerance, interval: Mass, language: Language) -> String {
    if tolerance.below == tolerance.above {
        format!("± {}", grams(tolerance.below, interval, language))
    } else {
        format!(
            "\u{2212}{} / +{}",
            bare(tolerance.below, interval, language),
            grams(tolerance.above, interval, language)
        )
    }
}

/// A goal: `30.0 g ± 1.0 g`.
#[must_use]
pub fn goal(goal: Goal, interval: Mass, language: Language) -> String {
    format!(
        "{} {}",
        grams(goal.target(), interval, language),
        tolerance(goal.tolerance(), interval, language)
    )
}

/// What a portion still lacks, or has too much: `4.2 g to go`, `1.3 g too
/// much`; within the tolerance by how much it is off: `+0.3 g`. The verdict is
/// told apart from the mass because that may be rounded for show.
#[must_use]
pub fn distance(
    goal: Goal,
    mass: Mass,
    verdict: Verdict,
    interval: Mass,
    language: Language,
) -> Cow<'static, str> {
    let off = (mass - goal.target()).rounded_to(interval);
    let grams = |mass| grams(mass, interval, language);
    match verdict {
        Verdict::Short => say!(language, "distance-to-go", mass = grams(-off)),
        Verdict::Heavy => say!(language, "distance-too-much", mass = grams(off)),
        Verdict::On if off == Mass::ZERO => say!(language, "distance-exact"),
        Verdict::On if off.is_negative() => grams(off).into(),
        Verdict::On => format!("+{}", grams(off)).into(),
    }
}

/// A temperature to a tenth of a degree Celsius.
#[must_use]
pub fn celsius(temperature: Temperature, language: Language) -> String {
    let tenths = (f64::from(temperature.millicelsius()) / 100.0).round() / 10.0;
    // A rounded value just below zero is zero, without a sign.
    let tenths = if tenths == 0.0 { 0.0 } else { tenths };
    language.figure(if tenths < 0.0 {
        format!("\u{2212}{:.1} °C", -tenths)
    } else {
        format!("{tenths:.1} °C")
    })
}

/// A verdict in a word.
#[must_use]
pub fn verdict(verdict: Verdict, language: Language) -> Cow<'static, str> {
    match verdict {
        Verdict::Short => say!(language, "verdict-short"),
        Verdict::On => say!(language, "verdict-on"),
        Verdict::Heavy => say!(language, "verdict-heavy"),
    }
}

/// How portions are made, in the words of the screens.
#[must_use]
pub fn mode(mode: Mode, language: Language) -> Cow<'static, str> {
    match mode {
        Mode::Adding => say!(language, "mode-adding"),
        Mode::Taking => say!(language, "mode-taking"),
    }
}

/// So many portions.
#[must_use]
pub fn portions(count: usize, language: Language) -> Cow<'static, str> {
    say!(language, "portions", count = count)
}

#[cfg(test)]
mod tests {
    use super::*;

    const TENTH: Mass = Mass::from_milligrams(100);
    const ENGLISH: Language = Language::English;

    #[test]
    fn decimals_follow_the_smallest_step() {
        for (milligrams, expected) in [(1_000, 0), (5_000, 0), (500, 1), (100, 1), (20, 2), (5, 3)]
        {
            assert_eq!(
                decimals(Mass::from_milligrams(milligrams)),
                expected,
                "{milligrams}"
            );
        }
    }

    #[test]
    fn nothing_is_ever_minus_nought() {
        assert_eq!(bare(Mass::from_milligrams(-40), TENTH, ENGLISH), "0.0");
        assert_eq!(
            bare(Mass::from_milligrams(-60), TENTH, ENGLISH),
            "\u{2212}0.1"
        );
        assert_eq!(
            celsius(Temperature::from_millicelsius(-40), ENGLISH),
            "0.0 °C"
        );
        assert_eq!(
            celsius(Temperature::from_millicelsius(-18_200), ENGLISH),
            "\u{2212}18.2 °C"
        );
    }

    #[test]
    fn the_distance_says_which_way() {
        let goal = Goal::new(
            Mass::from_grams(30),
            Tolerance::symmetric(Mass::from_grams(1)),
        )
        .unwrap();
        let at = |milligrams| {
            let mass = Mass::from_milligrams(milligrams);
            distance(goal, mass, goal.judge(mass), TENTH, ENGLISH)
        };
        assert_eq!(at(25_800), "4.2 g to go");
        assert_eq!(at(29_700), "\u{2212}0.3 g");
        assert_eq!(at(30_020), "exact");
        assert_eq!(at(30_600), "+0.6 g");
        assert_eq!(at(32_300), "2.3 g too much");
    }

    #[test]
    fn the_decimal_mark_is_the_languages() {
        let goal = Goal::new(
            Mass::from_grams(30),
            Tolerance::symmetric(Mass::from_grams(1)),
        )
        .unwrap();
        assert_eq!(
            super::goal(goal, TENTH, Language::Spanish),
            "30,0 g ± 1,0 g"
        );
        let mass = Mass::from_milligrams(25_800);
        let far = |language| distance(goal, mass, Verdict::Short, TENTH, language);
        assert_eq!(far(Language::Spanish), "faltan 4,2 g");
        assert_eq!(far(Language::French), "manque 4,2 g");
        let cold = Temperature::from_millicelsius(-18_200);
        assert_eq!(celsius(cold, Language::French), "\u{2212}18,2 °C");
    }
}
