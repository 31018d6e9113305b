//! What a log was found to be against its limit, in words.

use super::words::bound;
use crate::times::hours;
use crate::words::say;
use evenhand_kitchen::heat::{
    Finding, Found, HoldFound, Outcome, Solid, Took, beside, time_beside,
};
use evenhand_kitchen::limits::{Hold, Side, both_units};
use evenhand_protocol::Temperature;
use evenhand_words::Language;
use jiff::SignedDuration;

/// What was measured against which figure, as a sentence.
#[must_use]
pub fn finding_words(language: Language, finding: &Finding) -> String {
    let said = match &finding.found {
        Found::Empty => return say!(language, "finding-empty").into_owned(),
        Found::NotOfHeat => return say!(language, "finding-not-of-heat").into_owned(),
        Found::NotStarted { side, from } => {
            return say!(
                language,
                "finding-not-started",
                side = code(*side),
                from = both(language, *from)
            )
            .into_owned();
        }
        Found::Stage {
            from,
            to,
            allowed,
            took,
            descent,
            of,
        } => {
            let said = stage(language, finding.outcome, (*from, *to), *allowed, *took);
            if *of > 1 {
                say!(
                    language,
                    "finding-worst",
                    said = said,
                    of = of.to_string(),
                    number = descent.to_string()
                )
                .into_owned()
            } else {
                said
            }
        }
        Found::Within {
            side,
            hold,
            allowed,
            took,
            held,
        } => within(
            language,
            finding.outcome,
            (*side, *hold),
            *allowed,
            (*took, *held),
        ),
        Found::Furthest {
            side,
            limit,
            furthest,
            beyond,
            allowance,
        } => furthest_words(language, (*side, *limit), *furthest, (*beyond, *allowance)),
        Found::Out { out, allowed } => say!(
            language,
            "finding-out",
            out = time_beside(*out, *allowed),
            allowed = hours(*allowed)
        )
        .into_owned(),
        Found::Began { first, begins } => {
            let first = reading(language, *first, begins.at_most);
            let at_most = limit_words(language, Side::AtMost, begins.at_most);
            match begins.or_at_least {
                None => say!(language, "finding-began", first = first, bound = at_most),
                Some(hot) => say!(
                    language,
                    "finding-began-or",
                    first = first,
                    bound = at_most,
                    hot = limit_words(language, Side::AtLeast, hot)
                ),
            }
            .into_owned()
        }
        Found::Days { kept, days } => {
            let kept = language.figure(format!("{:.1}", kept.as_secs_f64() / 86_400.0));
            let said = say!(
                language,
                "finding-days",
                kept = kept,
                days = days.to_string()
            );
            if finding.outcome == Outcome::CannotTell {
                say!(language, "finding-days-end", said = &*said).into_owned()
            } else {
                said.into_owned()
            }
        }
        Found::Held { side, holds } => held(language, *side, holds),
        Found::Rewarmed {
            above,
            highest,
            at,
            restarted,
        } => say!(
            language,
            "finding-rewarmed",
            clock = if *restarted { "anew" } else { "on" },
            above = both(language, *above),
            highest = reading(language, *highest, *above),
            at = at.to_string()
        )
        .into_owned(),
        Found::Gaps { count, total } => say!(
            language,
            "finding-gaps",
            count = *count,
            total = hours(*total)
        )
        .into_owned(),
    };
    let said = match finding.doubt {
        Some(doubt) if doubt.within().millicelsius() != 0 => say!(
            language,
            "finding-probe",
            said = said,
            within = language.figure(doubt.to_string())
        )
        .into_owned(),
        _ => said,
    };
    format!("{said}.")
}

const fn code(side: Side) -> &'static str {
    match side {
        Side::AtLeast => "at-least",
        Side::AtMost => "at-most",
    }
}

/// A limit's temperature in both units, as its source prints them.
fn both(language: Language, limit: Temperature) -> String {
    language.figure(both_units(limit))
}

fn limit_words(language: Language, side: Side, limit: Temperature) -> String {
    bound(language, side, both(language, limit))
}

/// A reading beside a limit, never rounded over it.
fn reading(language: Language, reading: Temperature, limit: Temperature) -> String {
    language.figure(beside(reading, limit))
}

/// The two ends of how long something took, as one where they look the same.
fn span(
    language: Language,
    shortest: SignedDuration,
    longest: Option<SignedDuration>,
    limit: SignedDuration,
) -> String {
    let least = time_beside(shortest, limit);
    match longest.map(|longest| time_beside(longest, limit)) {
        Some(most) if most == least => least,
        Some(most) => say!(language, "finding-span", least = least, most = most).into_owned(),
        None => say!(language, "finding-at-least", least = least).into_owned(),
    }
}

/// A sentence with why it cannot be told, where it cannot.
fn unsure(language: Language, outcome: Outcome, why: &'static str, said: String) -> String {
    if outcome == Outcome::CannotTell {
        say!(language, "finding-unsure", why = why, said = said).into_owned()
    } else {
        said
    }
}

fn stage(
    language: Language,
    outcome: Outcome,
    (from, to): (Temperature, Temperature),
    allowed: SignedDuration,
    took: Took,
) -> String {
    let (start, target, limit) = (both(language, from), both(language, to), hours(allowed));
    match took {
        Took::Reached { shortest, longest } => {
            let why = longest.map_or("no-cooling-start", |_| "far-apart");
            let said = say!(
                language,
                "finding-took",
                from = start,
                to = target,
                took = span(language, shortest, longest, allowed),
                limit = limit
            );
            unsure(language, outcome, why, said.into_owned())
        }
        Took::NotYet {
            shortest,
            longest,
            last,
        } => {
            let said = say!(
                language,
                "finding-not-yet",
                last = reading(language, last, to),
                took = span(language, shortest, longest, allowed),
                to = target,
                limit = limit
            );
            unsure(language, outcome, "start", said.into_owned())
        }
        Took::BrokenOff { shortest } => say!(
            language,
            "finding-warmed-early",
            after = time_beside(shortest, allowed),
            from = start,
            to = target,
            limit = limit
        )
        .into_owned(),
    }
}

fn within(
    language: Language,
    outcome: Outcome,
    (side, hold): (Side, Hold),
    allowed: SignedDuration,
    (took, held): (Took, SignedDuration),
) -> String {
    let target = limit_words(language, side, hold.at);
    let limit = hours(allowed);
    match took {
        Took::Reached { shortest, longest } => {
            let why = longest.map_or("no-start", |_| "far-apart");
            let said = say!(
                language,
                "finding-reached",
                to = target,
                took = span(language, shortest, longest, allowed),
                limit = limit
            );
            let said = unsure(language, outcome, why, said.into_owned());
            if hold.lasting.is_zero() {
                return said;
            }
            say!(
                language,
                "finding-reached-held",
                said = said,
                held = time_beside(held, hold.lasting),
                asked = time_beside(hold.lasting, hold.lasting)
            )
            .into_owned()
        }
        Took::NotYet {
            shortest,
            longest,
            last,
        } => say!(
            language,
            "finding-not-yet-bound",
            last = reading(language, last, hold.at),
            took = span(language, shortest, longest, allowed),
            to = target,
            limit = limit
        )
        .into_owned(),
        Took::BrokenOff { shortest } => say!(
            language,
            "finding-given-up",
            after = time_beside(shortest, allowed),
            to = target,
            limit = limit
        )
        .into_owned(),
    }
}

fn furthest_words(
    language: Language,
    (side, limit): (Side, Temperature),
    furthest: Temperature,
    (beyond, allowance): (SignedDuration, SignedDuration),
) -> String {
    let said = say!(
        language,
        "finding-furthest",
        furthest = reading(language, furthest, limit),
        bound = limit_words(language, side, limit)
    );
    let time = time_beside(beyond, allowance);
    if beyond.is_zero() {
        said.into_owned()
    } else if allowance.is_zero() {
        say!(language, "finding-beyond", said = &*said, time = time).into_owned()
    } else {
        say!(
            language,
            "finding-beyond-allowed",
            said = &*said,
            time = time,
            allowed = hours(allowance)
        )
        .into_owned()
    }
}

fn held(language: Language, side: Side, holds: &[HoldFound]) -> String {
    // What was met says it all; else each of them, as far as it came.
    let met = holds.iter().find(|found| found.met);
    let shown: Vec<&HoldFound> = met.map_or_else(|| holds.iter().collect(), |found| vec![found]);
    shown
        .into_iter()
        .map(|found| one_hold(language, side, found))
        .reduce(|one, other| say!(language, "finding-or", one = one, other = other).into_owned())
        .unwrap_or_default()
}

fn one_hold(language: Language, side: Side, found: &HoldFound) -> String {
    let hold = found.hold;
    let at = limit_words(language, side, hold.at);
    let said = if !found.reached {
        say!(language, "finding-hold-not-reached", bound = at)
    } else if hold.lasting.is_zero() {
        say!(language, "finding-hold-reached", bound = at)
    } else {
        say!(
            language,
            "finding-hold-lasted",
            bound = at,
            longest = time_beside(found.longest, hold.lasting),
            asked = time_beside(hold.lasting, hold.lasting)
        )
    }
    .into_owned();
    let solid = match found.solid {
        Solid::NotAsked => return said,
        Solid::NotSaid => "not-said",
        Solid::Said => "said",
        Solid::TooWarm => "too-warm",
    };
    match hold.solid_at {
        None => said,
        Some(at) => say!(
            language,
            "finding-hold-solid",
            solid = solid,
            said = said,
            at = both(language, at)
        )
        .into_owned(),
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;
    use evenhand_kitchen::limits::Begins;
    use evenhand_kitchen::probe::ProbeDoubt;

    fn celsius(degrees: f64) -> Temperature {
        Temperature::from_celsius(degrees).unwrap()
    }

    fn tooks() -> Vec<Took> {
        let (short, long) = (SignedDuration::from_mins(70), SignedDuration::from_mins(95));
        let last = celsius(30.5);
        let mut all = vec![Took::BrokenOff { shortest: short }];
        for longest in [None, Some(short), Some(long)] {
            let shortest = short;
            all.push(Took::Reached { shortest, longest });
            all.push(Took::NotYet {
                shortest,
                longest,
                last,
            });
        }
        all
    }

    /// Everything that can be found, in every way that its words differ.
    fn all() -> Vec<Found> {
        let (zero, hour) = (SignedDuration::ZERO, SignedDuration::from_hours(1));
        let mut all = vec![
            Found::Empty,
            Found::NotOfHeat,
            Found::Out {
                out: hour,
                allowed: hour * 4,
            },
            Found::Days {
                kept: hour * 60,
                days: 7,
            },
        ];
        for took in tooks() {
            for of in [1, 3] {
                all.push(Found::Stage {
                    from: celsius(57.0),
                    to: celsius(21.0),
                    allowed: hour * 2,
                    took,
                    descent: 1,
                    of,
                });
            }
            for lasting in [zero, SignedDuration::from_secs(15)] {
                all.push(Found::Within {
                    side: Side::AtLeast,
                    hold: Hold::new(celsius(74.0), lasting),
                    allowed: hour * 2,
                    took,
                    held: SignedDuration::from_secs(9),
                });
            }
        }
        for side in [Side::AtLeast, Side::AtMost] {
            all.push(Found::NotStarted {
                side,
                from: celsius(57.0),
            });
            for (beyond, allowance) in [(zero, zero), (hour, zero), (hour, hour / 2)] {
                all.push(Found::Furthest {
                    side,
                    limit: celsius(5.0),
                    furthest: celsius(5.04),
                    beyond,
                    allowance,
                });
            }
        }
        for or_at_least in [None, Some(celsius(57.0))] {
            all.push(Found::Began {
                first: celsius(7.0),
                begins: Begins {
                    at_most: celsius(5.0),
                    or_at_least,
                },
            });
        }
        for restarted in [true, false] {
            all.push(Found::Rewarmed {
                above: celsius(57.0),
                highest: celsius(60.0),
                at: jiff::Timestamp::UNIX_EPOCH,
                restarted,
            });
        }
        for count in [1, 2] {
            all.push(Found::Gaps { count, total: hour });
        }
        for solid in [Solid::NotAsked, Solid::NotSaid, Solid::Said, Solid::TooWarm] {
            let found = |lasting, reached, met| HoldFound {
                hold: Hold {
                    at: celsius(-35.0),
                    lasting,
                    solid_at: (solid != Solid::NotAsked).then(|| celsius(-35.0)),
                },
                longest: hour,
                reached,
                solid,
                met,
            };
            for holds in [
                vec![found(hour * 15, true, false), found(zero, false, false)],
                vec![found(hour, false, false), found(zero, true, true)],
            ] {
                all.push(Found::Held {
                    side: Side::AtMost,
                    holds,
                });
            }
        }
        all
    }

    /// The domain's own words, for logs and for machines, are the English ones.
    #[test]
    fn a_finding_is_the_same_in_english_and_another_in_every_other_language() {
        for found in all() {
            for outcome in [Outcome::Broken, Outcome::CannotTell] {
                for doubt in [None, Some(ProbeDoubt::new(1.5).unwrap())] {
                    let finding = Finding {
                        outcome,
                        found: found.clone(),
                        doubt,
                    };
                    let said = finding_words(Language::English, &finding);
                    assert_eq!(said, finding.to_string());
                    for language in [Language::Spanish, Language::French] {
                        assert_ne!(finding_words(language, &finding), said);
                    }
                }
            }
        }
    }
}
