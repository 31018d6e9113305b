//! A portion, for people and for machines.

use super::figures;
use super::words::say;
use evenhand_kitchen::moment::show_time_to_the_second;
use evenhand_kitchen::portion::RecordedPortion;
use evenhand_kitchen::units::{Grams, MassUnit};
use evenhand_protocol::report::Doubts;
use evenhand_protocol::{Mass, Verdict};
use evenhand_words::Language;
use jiff::Timestamp;
use jiff::tz::TimeZone;
use serde::Serialize;

/// A portion for machines: one line of `portion --json`.
#[derive(Debug, Serialize)]
pub(super) struct PortionJson {
    id: String,
    grams: Grams,
    verdict: &'static str,
    at: Timestamp,
    dish: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    temperature_celsius: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    uncertainty_grams: Option<Grams>,
    /// The uncertainty reaches over a limit: the verdict could be either.
    straddles_limit: bool,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    doubts: Vec<&'static str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    replaces: Option<String>,
    /// Why it was struck out.
    #[serde(skip_serializing_if = "Option::is_none")]
    struck: Option<String>,
}

impl PortionJson {
    pub(super) fn of(portion: &RecordedPortion) -> Self {
        Self {
            id: portion.id.to_string(),
            grams: Grams(portion.mass),
            verdict: portion.verdict().word(),
            at: portion.time,
            dish: portion.dish.as_ref().map(ToString::to_string),
            temperature_celsius: portion.temperature.map(|t| t.celsius()),
            uncertainty_grams: portion.uncertainty.map(Grams),
            straddles_limit: portion.straddles_limit(),
            doubts: doubt_words(portion.doubts),
            replaces: portion.replaces.map(|id| id.to_string()),
            struck: portion
                .struck
                .as_ref()
                .map(|struck| struck.reason.as_str().to_owned()),
        }
    }
}

const STRADDLES: &str = "straddles-limit";

/// The doubts in one word each.
pub(super) fn doubt_words(doubts: Doubts) -> Vec<&'static str> {
    [
        (Doubts::MAYBE_TWO, "maybe-two"),
        (Doubts::STRADDLES_LIMIT, STRADDLES),
        (Doubts::TAKEN_OFF_PAN, "taken-off-pan"),
        (Doubts::HASTY, "hasty"),
        (Doubts::TOUCHED, "touched"),
        (Doubts::MAYBE_CHANGED, "maybe-changed"),
        (doubts.unknown(), "unknown"),
    ]
    .into_iter()
    .filter(|(doubt, _)| *doubt != Doubts::NONE && doubts.contains(*doubt))
    .map(|(_, word)| word)
    .collect()
}

/// A verdict in one or two words.
pub(super) fn verdict_words(language: Language, verdict: Verdict) -> String {
    say!(language, "portion-verdict", verdict = verdict.word()).into_owned()
}

/// A portion for people, on one line:
/// `18:03:21  30.2 g  on     +0.2 g`.
pub(super) fn portion_words(
    language: Language,
    portion: &RecordedPortion,
    unit: MassUnit,
    zone: &TimeZone,
) -> String {
    let off = portion.mass - portion.goal.target();
    let size = figures::mass(language, off.abs(), unit);
    // What rounds to nothing has no sign worth telling.
    let nothing = !size.contains(|c: char| ('1'..='9').contains(&c));
    let sign = if off < Mass::ZERO && !nothing {
        "-"
    } else {
        "+"
    };
    let mut words = format!(
        "{}  {:>10}  {:<5}  {sign}{size}",
        show_time_to_the_second(portion.time, zone),
        figures::mass(language, portion.mass, unit),
        verdict_words(language, portion.verdict()),
    );
    if let Some(uncertainty) = portion.uncertainty {
        let within = language.figure(format!("{:.2} g", uncertainty.grams()));
        words += &format!("  {}", say!(language, "portion-known-to", within = within));
    }
    if portion.straddles_limit() {
        words += &format!(", {}", say!(language, "portion-either"));
    }
    if let Some(earlier) = portion.replaces {
        let number = earlier.number.to_string();
        words += &format!("  {}", say!(language, "portion-corrects", number = number));
    }
    for doubt in doubt_words(portion.doubts) {
        // Said above, by the mass.
        if doubt == STRADDLES {
            continue;
        }
        words += &format!("  ({})", say!(language, "portion-doubt", doubt = doubt));
    }
    if let Some(struck) = &portion.struck {
        let reason = struck.reason.as_str();
        words += &format!("  {}", say!(language, "portion-struck", reason = reason));
    }
    words
}
