//! What the sums of mixing found, in words: one place for every face that
//! speaks the team's languages.
//!
//! 1. [`cure`]: limits on nitrite, doses, agents and names;
//! 2. [`mix`]: ratios, and a mix on the scale;
//! 3. [`brine`]: strengths told by weight, and put right;
//! 4. [`batch`]: what is on record, due and in the way;
//! 5. [`batch_line`]: each line of that record;
//! 6. [`yields`]: what came out of batches that were pressed or strained.

pub mod batch;
pub mod batch_line;
pub mod brine;
pub mod cure;
pub mod mix;
pub mod yields;

use evenhand_protocol::{Mass, Temperature};
use evenhand_words::Language;

/// A number with so many decimals and the language's mark.
fn figure(language: Language, value: f64, decimals: usize) -> String {
    language.figure(format!("{value:.decimals$}"))
}

/// A mass in grams to a tenth, with its unit.
fn grams(language: Language, mass: Mass) -> String {
    language.figure(format!("{:.1} g", mass.grams()))
}

/// A number with no more decimals than it needs, at most so many.
fn short(language: Language, value: f64, most: usize) -> String {
    let text = format!("{value:.most$}");
    let text = if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.')
    } else {
        &text
    };
    language.figure(text)
}

/// A temperature to a tenth of a degree, with a true minus sign.
fn celsius(language: Language, temperature: Temperature) -> String {
    let tenths = format!("{:.1} °C", temperature.celsius());
    language.figure(tenths.replace('-', "\u{2212}"))
}
