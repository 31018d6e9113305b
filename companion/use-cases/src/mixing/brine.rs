//! Brine in words: strengths, what was told by weight, putting it right.

use super::{celsius, figure, grams};
use crate::limits::publication_words;
use crate::words::say;
use evenhand_kitchen::brine::{Checked, Correction, DoubtOf, Freezing, SUGAR_MODEL, SugarKnown};
use evenhand_kitchen::units::InputError;
use evenhand_words::Language;

/// What the cold does to a brine first, and where.
#[must_use]
pub fn freezing_words(language: Language, freezing: Freezing) -> String {
    let at = celsius(language, freezing.temperature());
    match freezing {
        Freezing::Ice(_) => say!(language, "brine-ice-below", at = at),
        Freezing::Salt(_) => say!(language, "brine-salt-below", at = at),
    }
    .into_owned()
}

/// How a standing brine is put right.
#[must_use]
pub fn correction_words(language: Language, correction: &Correction) -> String {
    let grams = |mass| grams(language, mass);
    match *correction {
        Correction::None => say!(language, "brine-there-already"),
        Correction::AddSalt { salt, makes } => say!(
            language,
            "brine-add-salt",
            mass = grams(salt),
            makes = grams(makes),
        ),
        Correction::AddWater { water, makes } => say!(
            language,
            "brine-add-water",
            mass = grams(water),
            makes = grams(makes),
        ),
        Correction::ReplaceWithSalt { each } => {
            say!(language, "brine-replace-with-salt", mass = grams(each))
        }
        Correction::ReplaceWithWater { each } => {
            say!(language, "brine-replace-with-water", mass = grams(each))
        }
    }
    .into_owned()
}

/// What a brine's weight told, line by line: the strength both ways with its
/// uncertainty, what most of that is from, and how sugar was reckoned.
#[must_use]
pub fn told_words(language: Language, checked: &Checked) -> Vec<String> {
    let composition = checked.composition;
    let of = match checked.budget.first().map(|part| part.of) {
        Some(DoubtOf::NetMass) => "net-mass",
        Some(DoubtOf::Vessel) => "vessel",
        Some(DoubtOf::Level) => "level",
        Some(DoubtOf::Temperature) => "temperature",
        Some(DoubtOf::Sugar) => "sugar",
        Some(DoubtOf::SugarModel) => "sugar-model",
        Some(DoubtOf::Tables) => "tables",
        Some(DoubtOf::Expansion) => "expansion",
        None => "nothing",
    };
    let mut words = vec![
        say!(
            language,
            "brine-told-of-solution",
            percent = figure(language, composition.salt_of_solution(), 2),
            within = figure(language, checked.of_solution_uncertainty.percent(), 2),
        )
        .into_owned(),
        say!(
            language,
            "brine-told-of-water",
            percent = figure(language, composition.salt_of_water(), 2),
            within = figure(language, checked.of_water_uncertainty.percent(), 2),
        )
        .into_owned(),
        say!(
            language,
            "brine-doubt",
            of = say!(language, "brine-doubt-of", of = of),
            middle = figure(language, checked.expansion.millionths, 0),
            half = figure(language, checked.expansion.half_width, 0),
        )
        .into_owned(),
    ];
    if composition.is_sugared() {
        words.push(
            say!(
                language,
                "brine-sugared",
                percent = figure(language, composition.sugar_of_solution(), 2),
                source = publication_words(language, SUGAR_MODEL),
            )
            .into_owned(),
        );
    }
    words
}

/// Per cent of the water.
#[must_use]
pub fn of_water_words(language: Language, percent: &str) -> String {
    say!(language, "brine-of-water", percent = percent).into_owned()
}

/// Per cent of the whole.
#[must_use]
pub fn of_solution_words(language: Language, percent: &str) -> String {
    say!(language, "brine-of-solution", percent = percent).into_owned()
}

/// Why a strength cannot be told or put right: by the field that stands in the
/// way, and by what is known of sugar.
#[must_use]
pub fn brine_error_words(language: Language, error: &InputError, sugar: SugarKnown) -> String {
    // What was measured comes with its unit, a temperature in that of the sums.
    let value = language.figure(
        error
            .value()
            .replace("degC", "°C")
            .replace("kg/m3", "kg/m³"),
    );
    match (error.field(), sugar) {
        ("sugar", SugarKnown::Unsaid) => say!(language, "brine-sugar-unsaid"),
        ("sugar", SugarKnown::Unknown) => say!(language, "brine-sugar-unknown"),
        ("sugar", _) => {
            let percent = leading_percent(&value);
            say!(language, "brine-too-sweet", value = percent)
        }
        ("net mass", _) => say!(language, "brine-no-brine"),
        ("vessel", _) => say!(language, "brine-no-vessel"),
        ("temperature", _) => say!(language, "brine-temperature", value = value),
        ("density", _) => say!(language, "brine-density", value = value),
        ("salt", _) => {
            let percent = leading_percent(&value);
            say!(language, "brine-salt", value = percent)
        }
        ("target", _) => say!(language, "brine-target-zero"),
        _ => say!(language, "brine-cannot", why = error.to_string()),
    }
    .into_owned()
}

/// A per cent without what it is of.
fn leading_percent(value: &str) -> String {
    value
        .split_once('%')
        .map_or_else(|| value.to_owned(), |(number, _)| format!("{number}%"))
}
