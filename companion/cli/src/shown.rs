//! A portion, for people and for machines.

use evenhand_kitchen::moment::show_time_to_the_second;
use evenhand_kitchen::portion::RecordedPortion;
use evenhand_kitchen::units::{Grams, MassUnit, format_mass};
use evenhand_protocol::Mass;
use evenhand_protocol::report::Doubts;
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

/// A portion for people, on one line:
/// `18:03:21  30.2 g  on     +0.2 g`.
pub(super) fn portion_words(portion: &RecordedPortion, unit: MassUnit, zone: &TimeZone) -> String {
    let off = portion.mass - portion.goal.target();
    let size = format_mass(off.abs(), unit);
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
        format_mass(portion.mass, unit),
        portion.verdict(),
    );
    if let Some(uncertainty) = portion.uncertainty {
        words += &format!("  known to {:.2} g", uncertainty.grams());
    }
    if portion.straddles_limit() {
        words += ", so it could be either";
    }
    if let Some(earlier) = portion.replaces {
        words += &format!("  corrects portion {}", earlier.number);
    }
    for doubt in doubt_words(portion.doubts) {
        // Said above, by the mass.
        if doubt == STRADDLES {
            continue;
        }
        words += &format!("  ({doubt})");
    }
    if let Some(struck) = &portion.struck {
        words += &format!("  struck out: {}", struck.reason.as_str());
    }
    words
}
