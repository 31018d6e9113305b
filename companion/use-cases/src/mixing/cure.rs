//! Curing in words. No caution, figure or source of a limit is left out in any
//! language; documents keep their titles.

use super::{figure, short};
use crate::limits::source_words;
use crate::words::say;
use evenhand_kitchen::cure::{
    AgentRefusal, Asked, CountedAs, CuringAgent, DoseRefusal, Ingoing, Method, NameRefusal,
    NitriteFraction, NitriteLimit, Ppm, Stated, TooSmall, Verdict,
};
use evenhand_protocol::VerificationInterval;
use evenhand_words::Language;

/// The mark that a curing agent carries wherever it is shown.
#[must_use]
pub fn mark(language: Language) -> String {
    say!(language, "cure-mark").into_owned()
}

/// A curing agent by its mark and name, without its fraction.
#[must_use]
pub fn marked(language: Language, agent: &CuringAgent) -> String {
    format!("{} {}", mark(language), agent.name())
}

/// A curing agent by its mark, name and fraction.
#[must_use]
pub fn agent_words(language: Language, agent: &CuringAgent) -> String {
    say!(
        language,
        "cure-agent",
        mark = mark(language),
        name = agent.name(),
        fraction = fraction_words(language, agent.nitrite()),
    )
    .into_owned()
}

/// How much of an agent is nitrite.
#[must_use]
pub fn fraction_words(language: Language, fraction: NitriteFraction) -> String {
    let percent = short(language, fraction.parts() * 100.0, 4);
    say!(language, "cure-fraction", percent = percent).into_owned()
}

/// A way of curing.
#[must_use]
pub fn method_words(language: Language, method: Method) -> String {
    say!(language, "cure-method", method = method.name()).into_owned()
}

/// How a way of curing is reckoned.
#[must_use]
pub fn reckoning_words(language: Language, method: Method) -> String {
    let sum = match (method.asks_meat(), method.asks_pickle()) {
        (true, true) => "together",
        (true, false) => "meat",
        (false, _) => "pick-up",
    };
    say!(language, "cure-reckoning", sum = sum).into_owned()
}

/// What stands beside every answer about a curing agent.
#[must_use]
pub fn caution(language: Language) -> String {
    say!(language, "cure-caution").into_owned()
}

/// What the rule asks of this way besides.
#[must_use]
pub fn also_words(language: Language, method: Method) -> Option<String> {
    match method {
        Method::BaconPumped => Some(say!(language, "cure-also-bacon-pumped").into_owned()),
        _ => None,
    }
}

/// The caution, with what the rule asks of this way besides.
#[must_use]
pub fn caution_of(language: Language, method: Method) -> String {
    let caution = caution(language);
    match also_words(language, method) {
        Some(also) => format!("{also} {caution}"),
        None => caution,
    }
}

/// A figure in parts per million with no more decimals than it needs, up to two.
fn plain(language: Language, ppm: Ppm) -> String {
    short(language, ppm.value(), 2)
}

/// What may go in, without what may be found in the end.
fn ingoing_limit(language: Language, limit: &NitriteLimit) -> String {
    let asked = match limit.asked {
        Asked::AtMost(most) => {
            say!(language, "cure-at-most", most = plain(language, most)).into_owned()
        }
        Asked::Level { level, low, high } => say!(
            language,
            "cure-level",
            level = plain(language, level),
            low = plain(language, low),
            high = plain(language, high),
        )
        .into_owned(),
    };
    let counted = say!(
        language,
        "cure-counted",
        counted = counted_as(limit.counted_as),
        asked = asked,
        sodium = plain(language, limit.at_most()),
    )
    .into_owned();
    match limit.stated {
        None => counted,
        Some(Stated::QuarterOunce) => {
            say!(language, "cure-stated-quarter-ounce", limit = counted).into_owned()
        }
    }
}

const fn counted_as(counted: CountedAs) -> &'static str {
    match counted {
        CountedAs::SodiumNitrite => "sodium",
        CountedAs::NitriteIon => "ion",
    }
}

/// The figures of a limit, and what may be found in the finished food.
#[must_use]
pub fn limit_words(language: Language, limit: &NitriteLimit) -> String {
    let ingoing = ingoing_limit(language, limit);
    match limit.finished_at_most {
        None => ingoing,
        Some(most) => say!(
            language,
            "cure-finished",
            limit = ingoing,
            most = plain(language, most),
        )
        .into_owned(),
    }
}

/// A limit with its source.
#[must_use]
pub fn limit_by_words(language: Language, limit: &NitriteLimit) -> String {
    say!(
        language,
        "cure-limit-by",
        limit = limit_words(language, limit),
        source = source_words(language, &limit.source),
    )
    .into_owned()
}

/// That nothing says how much may go in.
#[must_use]
pub fn no_limit_words(language: Language, method: Method) -> String {
    let method = method_words(language, method);
    say!(language, "cure-no-limit", method = method).into_owned()
}

/// What was found against which limit, by which source.
#[must_use]
pub fn ingoing_words(language: Language, ingoing: &Ingoing) -> String {
    let limit = &ingoing.limit;
    let found = say!(
        language,
        "cure-found",
        counted = counted_as(limit.counted_as),
        ppm = language.figure(ingoing.figure()),
        ion = figure(language, limit.counted(ingoing.ppm).value(), 1),
    );
    let against = say!(
        language,
        "cure-against",
        limit = ingoing_limit(language, limit),
        method = method_words(language, ingoing.method),
        source = source_words(language, &limit.source),
    );
    let within = || {
        say!(
            language,
            "cure-within",
            found = &*found,
            against = &*against
        )
    };
    let said = match (ingoing.verdict, &limit.usual_minimum) {
        (Verdict::OverLimit, _) => {
            say!(language, "cure-over", found = &*found, against = &*against)
        }
        (Verdict::UnderRequired, _) => {
            say!(language, "cure-under", found = &*found, against = &*against)
        }
        (Verdict::TooCloseToLimit, _) => say!(
            language,
            "cure-close",
            found = &*found,
            doubt = figure(language, ingoing.doubt.value(), 1),
            against = &*against,
        ),
        (Verdict::UnderUsualMinimum, Some(usual)) => say!(
            language,
            "cure-under-usual",
            found = &*found,
            usual = plain(language, usual.ppm),
            source = source_words(language, &usual.source),
            against = &*against,
        ),
        (Verdict::UnderUsualMinimum, None) | (Verdict::WithinLimit, _) => within(),
    };
    let Some((other, ppm)) = ingoing.other_way else {
        return said.into_owned();
    };
    let method = method_words(language, other);
    let reckoned = figure(language, ppm.value(), 1);
    if ppm > limit.at_most() {
        say!(
            language,
            "cure-other-way-over",
            said = &*said,
            method = method,
            ppm = reckoned,
        )
    } else {
        say!(
            language,
            "cure-other-way",
            said = &*said,
            method = method,
            ppm = reckoned,
        )
    }
    .into_owned()
}

/// So much of an agent for a kilogram, given per cent of what the sum is of.
#[must_use]
pub fn dose_words(language: Language, agent: &CuringAgent, percent: f64, of: Method) -> String {
    let what = match (of.asks_meat(), of.asks_pickle()) {
        (true, true) => "together",
        (true, false) => "meat",
        (false, _) => "water",
    };
    say!(
        language,
        "cure-dose",
        dose = figure(language, percent * 10.0, 3),
        agent = agent_words(language, agent),
        what = what,
    )
    .into_owned()
}

/// A dose, with the least that the scale weighs of it.
#[must_use]
pub fn least_words(
    language: Language,
    dose: &str,
    too_small: &TooSmall,
    interval: VerificationInterval,
) -> String {
    let least = figure(language, too_small.least.grams(), 1);
    let said = say!(language, "cure-dose-least", dose = dose, least = least);
    match untold_words(language, interval) {
        None => said.into_owned(),
        Some(untold) => format!("{said} ({untold})"),
    }
}

/// What to say beside a figure that follows from an interval which the scale
/// did not tell.
#[must_use]
pub fn untold_words(language: Language, interval: VerificationInterval) -> Option<String> {
    (!interval.is_told()).then(|| {
        let mass = super::grams(language, interval.mass());
        say!(language, "cure-untold", interval = mass).into_owned()
    })
}

/// Why there is no dose.
#[must_use]
pub fn dose_refusal_words(language: Language, refusal: &DoseRefusal) -> String {
    let figure = |target: &Ppm| short(language, target.value(), 2);
    let by = |method: &Method, limit: &NitriteLimit| {
        (
            method_words(language, *method),
            limit_words(language, limit),
            source_words(language, &limit.source),
        )
    };
    match refusal {
        DoseRefusal::Nothing { target } => {
            say!(language, "cure-dose-nothing", target = figure(target))
        }
        DoseRefusal::OverLimit {
            target,
            method,
            limit,
        } => {
            let (method, limit, source) = by(method, limit);
            say!(
                language,
                "cure-dose-over",
                target = figure(target),
                method = method,
                limit = limit,
                source = source,
            )
        }
        DoseRefusal::UnderRequired {
            target,
            method,
            limit,
        } => {
            let (method, limit, source) = by(method, limit);
            say!(
                language,
                "cure-dose-under",
                target = figure(target),
                method = method,
                limit = limit,
                source = source,
            )
        }
        DoseRefusal::BeyondAgent { target } => {
            say!(language, "cure-dose-beyond-agent", target = figure(target))
        }
        DoseRefusal::BeyondMass { target } => {
            say!(language, "cure-dose-beyond-mass", target = figure(target))
        }
    }
    .into_owned()
}

/// Why a dose cannot be weighed, and what can be done.
#[must_use]
pub fn too_small_words(language: Language, too_small: &TooSmall) -> String {
    let figure = |value: f64, decimals| figure(language, value, decimals);
    say!(
        language,
        "cure-too-small",
        within = figure(too_small.within.grams(), 3),
        percent = figure(too_small.within.grams() / too_small.dose.grams() * 100.0, 0),
        dose = figure(too_small.dose.grams(), 3),
        least = figure(too_small.least.grams(), 2),
        agent = figure(too_small.dilution.agent.grams(), 2),
        water = figure(too_small.dilution.water.grams(), 1),
        take = figure(too_small.dilution.take.grams(), 2),
        times = too_small.times_the_batch.to_string(),
    )
    .into_owned()
}

/// Why an agent cannot be reckoned with.
#[must_use]
pub fn agent_refusal_words(language: Language, refusal: &AgentRefusal) -> String {
    let fraction = |fraction: &NitriteFraction| fraction_words(language, *fraction);
    match refusal {
        AgentRefusal::Nitrate => say!(language, "cure-nitrate"),
        AgentRefusal::Mixture => say!(language, "cure-mixture"),
        AgentRefusal::Potassium => say!(language, "cure-potassium"),
        AgentRefusal::Vegetable => say!(language, "cure-vegetable"),
        AgentRefusal::UnusualFraction(read) => say!(
            language,
            "cure-unusual",
            fraction = fraction(read),
            low = fraction(&NitriteFraction::USUAL.0),
            high = fraction(&NitriteFraction::USUAL.1),
        ),
        AgentRefusal::ReadDifferently { first, again } => say!(
            language,
            "cure-read-differently",
            first = fraction(first),
            again = fraction(again),
        ),
        AgentRefusal::Name(name) => return name_refusal_words(language, *name),
    }
    .into_owned()
}

/// Why a name was refused.
#[must_use]
pub fn name_refusal_words(language: Language, refusal: NameRefusal) -> String {
    match refusal {
        NameRefusal::Empty => say!(language, "cure-name-empty"),
        NameRefusal::Salt => say!(language, "cure-name-salt"),
        NameRefusal::CuringAgent => say!(language, "cure-name-curing"),
    }
    .into_owned()
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;
    use evenhand_kitchen::cure::{Amounts, CAUTION, Contents, Curing, PickUp, weighable};
    use evenhand_kitchen::limits::{Limits, Region};
    use evenhand_protocol::Mass;

    fn agent() -> CuringAgent {
        let nitrite = NitriteFraction::new("nitrite", 0.0625).unwrap();
        CuringAgent::from_label("Saltmarsh cure", Contents::SodiumNitrite, nitrite).unwrap()
    }

    /// Every way of curing by every region's limits.
    fn limits() -> Vec<(Method, NitriteLimit)> {
        [Region::Us, Region::Eu]
            .into_iter()
            .flat_map(|region| {
                let limits = Limits::published(region);
                Method::ALL.map(|method| (method, limits.nitrite(method).unwrap()))
            })
            .collect()
    }

    /// From no agent at all to far too much of it, on a scale that is exact and
    /// on one that is not.
    fn found() -> Vec<Ingoing> {
        let mut found = Vec::new();
        for (method, limit) in limits() {
            let amounts = Amounts {
                meat: Some(Mass::from_grams(1_000)),
                pickle: Some(Mass::from_grams(1_000)),
                pick_up: PickUp::from_percent("pick-up", 10.0).ok(),
                skin_on: false,
            };
            let curing = Curing::new(method, amounts, &limit).unwrap();
            for tenths in [0, 5, 10, 19, 20, 30, 32, 40, 99, 200, 400] {
                for within in [0, 300] {
                    let weighed = Mass::from_milligrams(tenths * 100);
                    let within = Mass::from_milligrams(within);
                    found.push(curing.ingoing(&agent(), weighed, within).unwrap());
                }
            }
        }
        found
    }

    /// The numbers in a sentence, with a point for a comma between digits.
    fn numbers(words: &str) -> Vec<String> {
        let mut numbers: Vec<String> = words
            .replace(',', ".")
            .split(|letter: char| !letter.is_ascii_digit() && letter != '.')
            .map(|number| number.trim_matches('.').to_owned())
            .filter(|number| !number.is_empty())
            .collect();
        numbers.sort();
        numbers
    }

    /// No figure and no source of what was found is lost or changed in any
    /// language; in English it is what the domain says.
    #[test]
    fn no_figure_and_no_source_is_lost_in_a_language() {
        let found = found();
        for verdict in [
            Verdict::OverLimit,
            Verdict::UnderRequired,
            Verdict::TooCloseToLimit,
            Verdict::UnderUsualMinimum,
            Verdict::WithinLimit,
        ] {
            assert!(found.iter().any(|it| it.verdict == verdict), "{verdict:?}");
        }
        for ingoing in &found {
            let english = ingoing.to_string();
            assert_eq!(ingoing_words(Language::English, ingoing), english);
            for language in [Language::Spanish, Language::French] {
                let said = ingoing_words(language, ingoing);
                assert_eq!(numbers(&said), numbers(&english), "{said}");
                let source = &ingoing.limit.source;
                for part in [&source.document, &source.section] {
                    assert!(said.contains(part.as_str()), "{said}");
                }
            }
        }
    }

    #[test]
    fn no_figure_of_a_limit_is_lost_in_a_language() {
        for (method, limit) in limits() {
            let english = format!("{limit}, by {}", limit.source);
            assert_eq!(limit_by_words(Language::English, &limit), english);
            for language in [Language::Spanish, Language::French] {
                let said = limit_by_words(language, &limit);
                assert_eq!(numbers(&said), numbers(&english), "{method}: {said}");
                assert!(said.contains(&limit.source.section), "{said}");
            }
        }
    }

    #[test]
    fn refusals_and_cautions_carry_their_figures_in_every_language() {
        let dose = Mass::from_milligrams(2_885);
        let too_small = weighable(dose, Mass::from_grams(1)).unwrap().unwrap_err();
        let english = too_small.to_string();
        assert_eq!(too_small_words(Language::English, &too_small), english);
        assert_eq!(caution(Language::English), CAUTION);
        let refusals = [
            AgentRefusal::Nitrate,
            AgentRefusal::Mixture,
            AgentRefusal::Potassium,
            AgentRefusal::Vegetable,
        ];
        for refusal in refusals {
            let said = agent_refusal_words(Language::English, &refusal);
            assert_eq!(said, refusal.to_string());
        }
        for language in [Language::Spanish, Language::French] {
            let said = too_small_words(language, &too_small);
            assert_eq!(numbers(&said), numbers(&english), "{said}");
            for refusal in refusals {
                let said = agent_refusal_words(language, &refusal);
                assert_eq!(numbers(&said), numbers(&refusal.to_string()), "{said}");
            }
            let also = caution_of(language, Method::BaconPumped);
            let expected = Method::BaconPumped.also().unwrap();
            assert_eq!(numbers(&also), numbers(expected), "{also}");
        }
    }
}
