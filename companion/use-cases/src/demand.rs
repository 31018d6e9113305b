//! What a limit asks, in words.

use crate::mixing::cure;
use crate::words::say;
use evenhand_kitchen::limits::{
    Begins, CoolingStage, Demand, Hold, Limit, Limits, Region, Side, both_units,
};
use evenhand_protocol::Temperature;
use evenhand_words::Language;
use jiff::SignedDuration;

/// The figures of a limit: `from 57 degC (135 degF), to 21 degC (70 degF)
/// within 2 h`.
#[must_use]
pub fn demand_words(language: Language, demand: &Demand) -> String {
    let both = |at| both(language, at);
    match demand {
        Demand::Cooling { from, stages } => say!(
            language,
            "demand-cooling",
            from = both(*from),
            stages = stages
                .iter()
                .map(|stage| stage_words(language, *stage))
                .collect::<String>()
        ),
        Demand::Within {
            side,
            hold,
            within,
            from,
        } => say!(
            language,
            "demand-within",
            side = code(*side),
            hold = hold_words(language, *hold),
            time = lasting(language, *within),
            start = from.map_or("made", |_| "left"),
            from = from.map_or_else(String::new, both)
        ),
        Demand::AtMost(at) => say!(language, "bound-at-most", limit = both(*at)),
        Demand::AtLeast(at) => say!(language, "bound-at-least", limit = both(*at)),
        Demand::TimeOnly {
            within,
            never_above,
            begins,
        } => return time_only(language, *within, *never_above, *begins),
        Demand::Days { days, at_most } => say!(
            language,
            "demand-days",
            days = days.to_string(),
            at = both(*at_most)
        ),
        Demand::Frozen(holds) => return any_of(language, Side::AtMost, holds),
        Demand::Cooked(holds) => return any_of(language, Side::AtLeast, holds),
        Demand::SaltInWater { at_least } => say!(
            language,
            "demand-salt",
            percent = language.figure(at_least.to_string())
        ),
        Demand::Nitrite { limit, .. } => return cure::limit_words(language, limit),
        Demand::Rule => say!(language, "demand-rule"),
    }
    .into_owned()
}

/// What a limit is about: a published one in the words of the language, the
/// kitchen's own as it was written.
#[must_use]
pub fn about_words(language: Language, limit: &Limit) -> String {
    if let Demand::Nitrite { method, .. } = &limit.demand
        && limit.about == format!("nitrite going into meat: {method}")
    {
        let method = cure::method_words(language, *method);
        return say!(language, "limit-about-nitrite", method = method).into_owned();
    }
    let published = |limits: Limits| {
        limits
            .named(&limit.name)
            .is_some_and(|published| published.about == limit.about)
    };
    let name = if published(Limits::food_code()) {
        limit.name.as_str()
    } else if published(Limits::published(Region::Eu)) {
        "raw-fish-freezing-eu"
    } else {
        "own"
    };
    say!(
        language,
        "limit-about",
        name = name,
        written = limit.about.as_str()
    )
    .into_owned()
}

const fn code(side: Side) -> &'static str {
    match side {
        Side::AtLeast => "at-least",
        Side::AtMost => "at-most",
    }
}

fn both(language: Language, at: Temperature) -> String {
    language.figure(both_units(at))
}

/// A limit's time: in the largest unit that shows it whole.
fn lasting(language: Language, time: SignedDuration) -> String {
    match time.as_secs() {
        0 => say!(language, "demand-an-instant").into_owned(),
        s if s % 3_600 == 0 => format!("{} h", s / 3_600),
        s if s % 60 == 0 && s > 120 => format!("{} min", s / 60),
        s => format!("{s} s"),
    }
}

fn stage_words(language: Language, stage: CoolingStage) -> String {
    // The comma begins the words, and the space before the next is the file's.
    say!(
        language,
        "demand-stage",
        to = both(language, stage.to),
        time = lasting(language, stage.within)
    )
    .into_owned()
}

fn hold_words(language: Language, hold: Hold) -> String {
    let said = say!(
        language,
        "demand-hold",
        at = both(language, hold.at),
        time = lasting(language, hold.lasting)
    )
    .into_owned();
    match hold.solid_at {
        None => said,
        Some(solid) => say!(
            language,
            "demand-hold-solid",
            solid = both(language, solid),
            hold = said
        )
        .into_owned(),
    }
}

fn time_only(
    language: Language,
    within: SignedDuration,
    never_above: Option<Temperature>,
    begins: Option<Begins>,
) -> String {
    let mut said = say!(language, "demand-time", time = lasting(language, within)).into_owned();
    if let Some(begins) = begins {
        let at = both(language, begins.at_most);
        said = match begins.or_at_least {
            None => say!(language, "demand-begins", said = said, at = at),
            Some(hot) => say!(
                language,
                "demand-begins-or",
                said = said,
                at = at,
                hot = both(language, hot)
            ),
        }
        .into_owned();
    }
    match never_above {
        None => said,
        Some(ceiling) => say!(
            language,
            "demand-never-above",
            said = said,
            at = both(language, ceiling)
        )
        .into_owned(),
    }
}

fn any_of(language: Language, side: Side, holds: &[Hold]) -> String {
    let holds = holds
        .iter()
        .map(|hold| hold_words(language, *hold))
        .reduce(|one, other| say!(language, "finding-or", one = one, other = other).into_owned())
        .unwrap_or_default();
    say!(language, "demand-any-of", side = code(side), holds = holds).into_owned()
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    /// The domain's own words, for logs and for machines, are the English ones.
    #[test]
    fn a_limit_is_the_same_in_english_and_another_in_every_other_language() {
        let solid = Demand::Frozen(vec![Hold {
            at: Temperature::from_millicelsius(-20_000),
            lasting: SignedDuration::from_hours(24),
            solid_at: Some(Temperature::from_millicelsius(-35_000)),
        }]);
        let own = Limit {
            name: "our-freezing".to_owned(),
            about: "what we freeze".to_owned(),
            demand: solid,
            ..Limits::food_code().named("cooling").unwrap().clone()
        };
        let published = Limits::food_code();
        let european = Limits::published(Region::Eu);
        for limit in published.iter().chain(european.iter()).chain([&own]) {
            let figures = demand_words(Language::English, &limit.demand);
            assert_eq!(figures, limit.demand.to_string());
            assert_eq!(about_words(Language::English, limit), limit.about);
            for language in [Language::Spanish, Language::French] {
                assert_ne!(demand_words(language, &limit.demand), figures);
                let own_words = about_words(language, limit) == limit.about;
                assert_eq!(own_words, limit.name == own.name, "{}", limit.name);
            }
        }
    }
}
