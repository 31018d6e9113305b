//! Figures as words.

use evenhand_protocol::{Goal, Mass, Mode, Temperature, Tolerance, Verdict};

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
/// minus sign and never a negative zero.
#[must_use]
pub fn bare(mass: Mass, interval: Mass) -> String {
    let rounded = mass.rounded_to(interval);
    let digits = format!("{:.*}", decimals(interval), rounded.abs().grams());
    if rounded.is_negative() {
        format!("\u{2212}{digits}")
    } else {
        digits
    }
}

/// A mass in grams with its unit.
#[must_use]
pub fn grams(mass: Mass, interval: Mass) -> String {
    format!("{} g", bare(mass, interval))
}

/// A tolerance: `± 1.0 g`, or `−0.5 / +1.5 g` where its sides differ.
#[must_use]
pub fn tolerance(tolerance: Tolerance, interval: Mass) -> String {
    if tolerance.below == tolerance.above {
        format!("± {}", grams(tolerance.below, interval))
    } else {
        format!(
            "\u{2212}{} / +{}",
            bare(tolerance.below, interval),
            grams(tolerance.above, interval)
        )
    }
}

/// A goal: `30.0 g ± 1.0 g`.
#[must_use]
pub fn goal(goal: Goal, interval: Mass) -> String {
    format!(
        "{} {}",
        grams(goal.target(), interval),
        tolerance(goal.tolerance(), interval)
    )
}

/// What a portion still lacks, or has too much: `4.2 g to go`, `1.3 g too
/// much`; within the tolerance by how much it is off: `+0.3 g`. The verdict is
/// told apart from the mass because that may be rounded for show.
#[must_use]
pub fn distance(goal: Goal, mass: Mass, verdict: Verdict, interval: Mass) -> String {
    let off = (mass - goal.target()).rounded_to(interval);
    match verdict {
        Verdict::Short => format!("{} to go", grams(-off, interval)),
        Verdict::Heavy => format!("{} too much", grams(off, interval)),
        Verdict::On if off == Mass::ZERO => "exact".to_owned(),
        Verdict::On if off.is_negative() => grams(off, interval),
        Verdict::On => format!("+{}", grams(off, interval)),
    }
}

/// A temperature to a tenth of a degree Celsius.
#[must_use]
pub fn celsius(temperature: Temperature) -> String {
    let tenths = (f64::from(temperature.millicelsius()) / 100.0).round() / 10.0;
    // A rounded value just below zero is zero, without a sign.
    let tenths = if tenths == 0.0 { 0.0 } else { tenths };
    if tenths < 0.0 {
        format!("\u{2212}{:.1} °C", -tenths)
    } else {
        format!("{tenths:.1} °C")
    }
}

/// How portions are made, in the words of the screens.
#[must_use]
pub const fn mode(mode: Mode) -> &'static str {
    match mode {
        Mode::Adding => "into dishes",
        Mode::Taking => "out of a tin",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const TENTH: Mass = Mass::from_milligrams(100);

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
        assert_eq!(bare(Mass::from_milligrams(-40), TENTH), "0.0");
        assert_eq!(bare(Mass::from_milligrams(-60), TENTH), "\u{2212}0.1");
        assert_eq!(celsius(Temperature::from_millicelsius(-40)), "0.0 °C");
        assert_eq!(
            celsius(Temperature::from_millicelsius(-18_200)),
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
            distance(goal, mass, goal.judge(mass), TENTH)
        };
        assert_eq!(at(25_800), "4.2 g to go");
        assert_eq!(at(29_700), "\u{2212}0.3 g");
        assert_eq!(at(30_020), "exact");
        assert_eq!(at(30_600), "+0.6 g");
        assert_eq!(at(32_300), "2.3 g too much");
    }
}
