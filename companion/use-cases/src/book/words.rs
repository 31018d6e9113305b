//! The book's answers in words, line by line.

use super::{BookError, DoughWater};
use crate::record::{file, store_error_words, why};
use crate::words::say;
use evenhand_kitchen::batch::Mark;
use evenhand_kitchen::book::{Next, STARTER, Seen, Shared, StagedFormula, Trials, Weighing};
use evenhand_kitchen::dough::{LEAST_FOR_SPREAD, Rise, WARMEST_WATER, WaterFor};
use evenhand_kitchen::units::{
    InputError, MassUnit, Ratio, TemperatureUnit, format_mass, format_temperature,
};
use evenhand_protocol::{Mass, Temperature};
use evenhand_words::Language;
use std::borrow::Cow;

fn mass(language: Language, mass: Mass) -> String {
    language.figure(format_mass(mass, MassUnit::Gram))
}

fn celsius(language: Language, at: Temperature) -> String {
    language.figure(format_temperature(at, TemperatureUnit::Celsius))
}

/// A mass in whole steps of the scale, without digits that it does not show.
fn in_steps(language: Language, mass: Mass, step: Mass) -> String {
    let digits = match step.micrograms() {
        whole if whole % 1_000_000 == 0 => 0,
        tenths if tenths % 100_000 == 0 => 1,
        hundredths if hundredths % 10_000 == 0 => 2,
        _ => 3,
    };
    language.figure(format!("{:.digits$} g", mass.rounded_to(step).grams()))
}

/// Degrees apart, to a tenth.
fn degrees(language: Language, kelvin: f64) -> String {
    language.figure(format!("{kelvin:.1}"))
}

/// Per cent to two decimals, without zeros that say nothing.
fn percent(language: Language, ratio: Ratio) -> String {
    let text = format!("{:.2}", ratio.percent());
    language.figure(text.trim_end_matches('0').trim_end_matches('.'))
}

/// What a bowl's line is called: the ripe starter by the language's word, unless
/// an ingredient is called so.
fn line_name<'n>(language: Language, formula: &StagedFormula, name: &'n str) -> Cow<'n, str> {
    let is_ingredient = formula.ingredients().iter().any(|it| it.name() == name);
    if name == STARTER && !is_ingredient {
        say!(language, "book-starter").into_owned().into()
    } else {
        name.into()
    }
}

/// What to weigh, bowl by bowl, and what the scale is too coarse for.
#[must_use]
pub fn weighing_words(
    language: Language,
    formula: &StagedFormula,
    weighing: &Weighing,
    step: Mass,
) -> Vec<String> {
    let mut lines = Vec::new();
    for bowl in &weighing.bowls {
        let total = in_steps(language, bowl.total(), step);
        lines.push(
            match &bowl.stage {
                Some(name) => say!(language, "book-stage", name = name.as_str(), total = total),
                None => say!(language, "book-last-bowl", total = total),
            }
            .into_owned(),
        );
        for line in &bowl.lines {
            lines.push(format!(
                "  {}",
                say!(
                    language,
                    "book-line",
                    mass = in_steps(language, line.weigh, step),
                    name = line_name(language, formula, &line.name),
                    percent = percent(language, line.of_base),
                )
            ));
        }
    }
    lines.push(
        say!(
            language,
            "book-sum",
            total = in_steps(language, weighing.total, step),
            base = in_steps(language, weighing.base, step),
            hydration = percent(language, formula.hydration()),
        )
        .into_owned(),
    );
    if let Some((count, each)) = weighing.pieces {
        lines.push(
            say!(
                language,
                "book-pieces",
                count = count,
                each = mass(language, each)
            )
            .into_owned(),
        );
    }
    for line in weighing.too_coarse() {
        lines.push(
            say!(
                language,
                "book-too-coarse",
                name = line_name(language, formula, &line.name),
                step = in_steps(language, step, step),
                off = format!("{:.0}", line.off().percent().abs()),
            )
            .into_owned(),
        );
    }
    lines
}

/// The water for a dough: what to do first, then how sure it is.
#[must_use]
pub fn water_words(language: Language, water: &DoughWater, coldest: Temperature) -> Vec<String> {
    match water {
        DoughWater::NotKnownYet => vec![say!(language, "dough-not-known-yet").into_owned()],
        DoughWater::ByRule { at } => {
            let key = if at.celsius() < 0.0 {
                say!(language, "dough-by-rule-ice", at = celsius(language, *at))
            } else {
                say!(language, "dough-by-rule", at = celsius(language, *at))
            };
            vec![key.into_owned()]
        }
        DoughWater::Balanced { water, rise } => {
            let mut lines = vec![
                match water {
                    WaterFor::Water { at } => {
                        say!(language, "dough-water", at = celsius(language, *at))
                    }
                    WaterFor::Ice { ice, water } => say!(
                        language,
                        "dough-ice",
                        ice = in_steps(language, *ice, Mass::from_grams(1)),
                        water = in_steps(language, *water, Mass::from_grams(1)),
                        coldest = celsius(language, coldest),
                    ),
                    WaterFor::TooCold { at } => say!(
                        language,
                        "dough-too-cold",
                        at = celsius(language, *at),
                        warmest = celsius(language, WARMEST_WATER),
                    ),
                    WaterFor::TooWarm => say!(language, "dough-too-warm"),
                }
                .into_owned(),
            ];
            lines.extend(rise_words(language, *rise));
            lines
        }
    }
}

fn rise_words(language: Language, rise: Rise) -> [String; 2] {
    [
        say!(
            language,
            "dough-rise",
            doughs = rise.doughs,
            kelvin = degrees(language, rise.kelvin),
        )
        .into_owned(),
        match rise.give_or_take {
            Some(kelvin) => say!(
                language,
                "dough-give-or-take",
                kelvin = degrees(language, kelvin),
            ),
            None => say!(
                language,
                "dough-few",
                more = LEAST_FOR_SPREAD.saturating_sub(rise.doughs),
            ),
        }
        .into_owned(),
    ]
}

/// What a dough that was measured says by itself.
#[must_use]
pub fn rose_words(language: Language, kelvin: f64) -> String {
    say!(language, "dough-rose", kelvin = degrees(language, kelvin)).into_owned()
}

/// What batches of one thing have shown.
#[must_use]
pub fn trials_words(language: Language, trials: &Trials, least: Mark) -> Vec<String> {
    let good = trials.good_count(least);
    let mut lines = vec![
        say!(
            language,
            "trials-count",
            count = trials.count(),
            good = good,
            mark = least.value(),
        )
        .into_owned(),
    ];
    if trials.left_out() > 0 {
        lines.push(say!(language, "trials-left-out", count = trials.left_out()).into_owned());
    }
    for shared in trials.shared(least) {
        lines.push(format!("  {}", shared_words(language, &shared, good)));
    }
    let seen = trials.changed_the_mark();
    lines.push(match &seen {
        Seen::NotKnownYet { more } => {
            say!(language, "trials-not-known-yet", more = *more).into_owned()
        }
        Seen::Nothing => say!(language, "trials-nothing").into_owned(),
        Seen::Stands {
            ingredient,
            more_is_better,
            chance,
        } => {
            let chance = language.figure(format!("{:.1}", *chance * 100.0));
            if *more_is_better {
                say!(
                    language,
                    "trials-more-better",
                    name = ingredient.as_str(),
                    chance = chance,
                )
            } else {
                say!(
                    language,
                    "trials-less-better",
                    name = ingredient.as_str(),
                    chance = chance,
                )
            }
            .into_owned()
        }
    });
    if let Some(next) = trials.next(least, &seen) {
        lines.push(next_words(language, &next));
    }
    lines
}

fn shared_words(language: Language, shared: &Shared, good: usize) -> String {
    match shared.spread {
        Some(spread) => say!(
            language,
            "trials-shared",
            name = shared.ingredient.as_str(),
            mean = percent(language, shared.mean),
            spread = percent(language, spread),
            batches = shared.batches,
            good = good,
        ),
        None => say!(
            language,
            "trials-shared-once",
            name = shared.ingredient.as_str(),
            mean = percent(language, shared.mean),
            batches = shared.batches,
            good = good,
        ),
    }
    .into_owned()
}

fn next_words(language: Language, next: &Next) -> String {
    say!(
        language,
        "trials-next",
        name = next.ingredient.as_str(),
        to = percent(language, next.to),
        from = percent(language, next.from),
    )
    .into_owned()
}

/// Why the book does not answer, for a screen.
#[must_use]
pub fn book_refused_words(language: Language, error: &BookError) -> String {
    match error {
        BookError::Unreadable { path, error } => say!(
            language,
            "book-unreadable",
            path = path.display().to_string(),
            why = why(language, error)
        ),
        BookError::Refused { path, error } => match error.field().strip_prefix("line ") {
            Some(line) => say!(
                language,
                "book-file-line",
                file = file(path),
                line = line.split(',').next().unwrap_or(line).to_owned(),
                value = error.value().to_owned()
            ),
            None => say!(
                language,
                "book-file-refused",
                file = file(path),
                why = book_error_words(language, error)
            ),
        },
        BookError::Twice {
            name,
            first,
            second,
        } => say!(
            language,
            "book-twice",
            name = name.as_str(),
            first = file(first),
            second = file(second)
        ),
        BookError::NotThere { name, .. } => {
            say!(language, "book-not-there", name = name.as_str())
        }
        BookError::There { name, path } => say!(
            language,
            "book-is-there",
            name = name.as_str(),
            file = file(path)
        ),
        BookError::Unwritable { path, error } => say!(
            language,
            "book-unwritable",
            path = path.display().to_string(),
            why = why(language, error)
        ),
        BookError::Store(error) => return store_error_words(language, error),
        BookError::Input(error) => return book_error_words(language, error),
    }
    .into_owned()
}

/// Why a formula, its size or its dough cannot be: the field, what was there,
/// what was expected.
#[must_use]
pub fn book_error_words(language: Language, error: &InputError) -> String {
    let field = error.field();
    let code = match field {
        "base" => "base",
        "formula" => "formula",
        "ingredients" | "ingredient" => "ingredients",
        "mark" => "mark",
        "ice" => "ice",
        "dough's temperature" | "ends_at" => "dough",
        "temperature of what was made beforehand" => "before",
        "flour's temperature" | "water's temperature" | "coldest water" => "warm",
        _ if field.ends_with(", percent") => "percent",
        _ if field.starts_with("stage") || field.starts_with("starter") => "stage",
        // Stages that take more of an ingredient than there is.
        _ if error.value().ends_with('%') => "stage",
        _ => "other",
    };
    let name = match field {
        "flour's temperature" => say!(language, "book-refused-name", field = "flour"),
        "water's temperature" | "coldest water" => {
            say!(language, "book-refused-name", field = "water")
        }
        _ => field.trim_end_matches(", percent").to_owned().into(),
    };
    let value = language.figure(error.value().replace("degC", "\u{b0}C"));
    say!(
        language,
        "book-refused",
        field = code,
        name = name,
        value = value
    )
    .into_owned()
}
