//! What a review found, in sentences.

use super::DishNight;
use evenhand_kitchen::portion::RecordedPortion;
use evenhand_kitchen::service::{
    AdviceBasis, DishReview, FailedTest, Place, PutRight, ServiceCalendar,
};
use evenhand_kitchen::statistics::{Interval, PercentileMethod, RunRule, Signal};
use evenhand_kitchen::tin::Tin;
use evenhand_kitchen::units::{MassUnit, format_mass};
use evenhand_kitchen::yield_flow::YieldFlow;
use evenhand_protocol::{Mass, Verdict};
use jiff::Timestamp;
use jiff::civil::Date;

/// A day as people say it: `Sat 16 May 2026`.
#[must_use]
pub fn day(day: Date) -> String {
    day.strftime("%a %-d %b %Y").to_string()
}

/// A purchase: `cut 22, lot 56`.
#[must_use]
pub fn tin(tin: &Tin) -> String {
    let mut words = format!("{} {}", tin.kind.word(), tin.id);
    if !tin.label.is_empty() {
        words += &format!(", {}", tin.label);
    }
    words
}

/// A part of a purchase as a share of what was bought: `15.7 %`.
#[must_use]
pub fn share(flow: &YieldFlow, part: Mass) -> String {
    flow.share(part).map_or_else(
        || "not known".to_owned(),
        |share| format!("{:.1} %", share.fraction() * 100.0),
    )
}

/// Grams as they are told of portions: a tenth, below 10 g a hundredth.
#[must_use]
pub fn grams(mass: Mass) -> String {
    if mass.abs() < Mass::from_grams(10) {
        format!("{:.2} g", tidy(mass.grams(), 0.005))
    } else {
        format_mass(mass, MassUnit::Gram)
    }
}

/// Grams with a sign: `+0.31 g`.
#[must_use]
pub fn signed(mass: Mass) -> String {
    let grams = tidy(mass.grams(), 0.005);
    format!("{grams:+.2} g")
}

fn tidy(value: f64, least: f64) -> f64 {
    if value.abs() < least { 0.0 } else { value }
}

fn between(interval: &Interval<Mass>) -> String {
    let low = grams(interval.low);
    format!("{} to {}", low.trim_end_matches(" g"), grams(interval.high))
}

/// How even: `mean 30.6 g (30.5 to 30.8 g), spread 0.62 g (0.53 to 0.75 g)`.
#[must_use]
pub fn evenness(review: &DishReview) -> String {
    let spread = &review.spread;
    let mean = spread.mean().map_or_else(String::new, grams);
    let (Some(mean_in), Some(deviation), Some(deviation_in)) =
        (&review.mean, spread.standard_deviation(), &review.deviation)
    else {
        return format!("One portion of {mean}.");
    };
    let mut words = format!(
        "Mean {mean} ({}), spread {} ({}).",
        between(mean_in),
        grams(deviation),
        between(deviation_in),
    );
    if let Some(separated) = &review.separated {
        words += &match separated.hand {
            Some(hand) => format!(
                " The scale's own share of that is {}, the hand's {}.",
                grams(separated.scale),
                grams(hand)
            ),
            None => " The scale's own scatter hides the hand's.".to_owned(),
        };
    }
    let warning = review.enough.words();
    if !warning.is_empty() {
        words += &format!(" ({warning}.)");
    }
    words
}

/// `Nine in ten lie between 29.6 g and 31.9 g, the middle is 30.5 g`, with the
/// method.
#[must_use]
pub fn percentiles(review: &DishReview) -> Option<String> {
    let [low, middle, high] = review.percentiles?;
    Some(format!(
        "5 % lie below {}, half below {}, 95 % below {} (percentiles by {}).",
        grams(low),
        grams(middle),
        grams(high),
        PercentileMethod::PlusOne.name()
    ))
}

/// What was short and heavy, and what the heavy ones gave away.
#[must_use]
pub fn cost(review: &DishReview) -> String {
    let spread = &review.spread;
    let mut words = format!(
        "{} of {} short, {} heavy; {} given away above the target",
        spread.count(Verdict::Short),
        spread.n(),
        spread.count(Verdict::Heavy),
        grams(spread.given_away()),
    );
    if let Some(money) = spread.given_away_money() {
        words += &format!(", {money}");
        if spread.costed() < spread.n() {
            words += &format!(" for the {} whose cost is known", spread.costed());
        }
    } else if spread.costed() == 0 {
        words += "; its cost is not on record";
    }
    words + "."
}

/// What changed since the service before, by intervals.
#[must_use]
pub fn change(review: &DishReview) -> String {
    let Some(change) = &review.change else {
        return "Nothing to lay it beside: no service before had it.".to_owned();
    };
    let since = day(change.since);
    let (Some(mean), Some(spread)) = (&change.mean, &change.spread) else {
        return format!("Too few portions to lay beside {since}.");
    };
    let mean = if mean.is_real() {
        format!(
            "{} by {} ({})",
            if mean.difference.is_negative() {
                "lighter"
            } else {
                "heavier"
            },
            grams(mean.difference.abs()),
            signed_between(&mean.interval)
        )
    } else {
        format!(
            "no change of the mean to be seen ({})",
            signed_between(&mean.interval)
        )
    };
    let ends = format!(
        "{:.2} to {:.2} times",
        spread.interval.low, spread.interval.high
    );
    let spread = match (spread.is_real(), spread.ratio > 1.0) {
        (false, _) => format!("no change of the spread to be seen ({ends})"),
        (true, true) => format!(
            "less even: spread {:.2} times as wide ({ends})",
            spread.ratio
        ),
        (true, false) => format!(
            "more even: spread {:.2} times as wide ({ends})",
            spread.ratio
        ),
    };
    format!("Since {since}: {mean}; {spread}.")
}

fn signed_between(interval: &Interval<Mass>) -> String {
    let low = signed(interval.low);
    format!(
        "{} to {}",
        low.trim_end_matches(" g"),
        signed(interval.high)
    )
}

/// Drift through the night, by its interval with the chance beside it.
#[must_use]
pub fn drift(review: &DishReview) -> Option<String> {
    let drift = review.drift.as_ref()?;
    let ends = signed_between(&drift.interval);
    let chance = if drift.chance < 0.001 {
        "by chance alone in under one night of 1000".to_owned()
    } else {
        format!("by chance alone in {:.1} % of nights", drift.chance * 100.0)
    };
    Some(if drift.is_real() {
        format!(
            "Drift {} an hour ({ends}; {chance}).",
            signed(drift.per_hour)
        )
    } else {
        format!("No drift to be seen: {ends} an hour.")
    })
}

/// Which run rules were broken, how often, and when first.
#[must_use]
pub fn signals(review: &DishReview, calendar: &ServiceCalendar) -> String {
    let Some(chart) = &review.chart else {
        return "Too few portions for a chart.".to_owned();
    };
    if chart.signals.is_empty() {
        return "No run rule was broken.".to_owned();
    }
    let mut rules: Vec<RunRule> = chart.signals.iter().map(|signal| signal.rule).collect();
    rules.sort_unstable();
    rules.dedup();
    let told: Vec<String> = rules
        .into_iter()
        .map(|rule| {
            let of: Vec<&Signal> = chart
                .signals
                .iter()
                .filter(|signal| signal.rule == rule)
                .collect();
            let first = of
                .first()
                .and_then(|signal| review.times.get(signal.place))
                .map_or_else(String::new, |time| format!(" at {}", calendar.clock(*time)));
            match of.len() {
                1 => format!("{}{first}", rule.words()),
                many => format!("{}, {many} times, first{first}", rule.words()),
            }
        })
        .collect();
    format!("Out of the ordinary: {}.", told.join("; "))
}

/// Capability against the tolerance.
#[must_use]
pub fn capability(review: &DishReview) -> Option<String> {
    let capability = review.capability.as_ref()?;
    Some(format!(
        "Capability Cp {:.2} ({:.2} to {:.2}), Cpk {:.2} ({:.2} to {:.2}); at 1 the spread \
         would just fit the tolerance.",
        capability.cp,
        capability.cp_interval.low,
        capability.cp_interval.high,
        capability.cpk,
        capability.cpk_interval.low,
        capability.cpk_interval.high,
    ))
}

/// What to aim at tomorrow, with what it supposes.
#[must_use]
pub fn advice(review: &DishReview) -> String {
    let advice = match &review.advice {
        Ok(advice) => advice,
        Err(why) => return format!("No advice: {why}."),
    };
    let aim = &advice.aim;
    let mut words = format!(
        "Aim at {}: then about {:.1} % short and {:.1} % heavy",
        grams(aim.aim),
        aim.short_share * 100.0,
        aim.heavy_share * 100.0
    );
    match advice.basis {
        AdviceBasis::Cost {
            short_portion,
            currency,
            food_again,
            ..
        } => {
            let again = if food_again {
                ", its food again"
            } else {
                ", as said"
            };
            words += &format!(
                ", the least cost if a short one costs {short_portion:.2} {}{again}.",
                currency.code()
            );
        }
        AdviceBasis::Share(share) => {
            words += &format!(
                ", as {:.1} % short is allowed where no cost is known.",
                share * 100.0
            );
        }
    }
    if let Some(saving) = advice.saving {
        words += &format!(
            " A spread narrower by {} saves {saving} a month",
            grams(advice.narrower_by)
        );
        if let Some(rate) = advice.saving_a_gram()
            && advice.narrower_by != Mass::from_grams(1)
        {
            words += &format!(" (a rate of {rate} for each gram)");
        }
        let n = u32::try_from(review.spread.n()).unwrap_or(u32::MAX);
        words += &format!(
            ", at {} portions ({} services like this one).",
            advice.portions_a_month,
            advice.portions_a_month / n.max(1)
        );
    }
    if review
        .chart
        .as_ref()
        .is_some_and(|chart| !chart.signals.is_empty())
    {
        words += " The night was not steady, so this is rough.";
    }
    words
}

/// That a test of the scale failed, and what that says of the portions: what
/// was measured, against which limit, how many portions came after or before.
#[must_use]
pub fn failed_test(
    failed: &FailedTest,
    review: &DishReview,
    calendar: &ServiceCalendar,
) -> Vec<String> {
    let n = review.spread.n();
    let now = review.times.last().map(|time| calendar.day_of(*time));
    // A time of another service's day is told with its day.
    let when = |at: Timestamp| match calendar.day_of(at) {
        of if Some(of) == now => calendar.clock(at),
        of => format!("{} on {}", calendar.clock(at), day(of)),
    };
    let test = &failed.test;
    let found = format!(
        "at {} a known {} read {}, {} out, where {} is the limit in service (OIML R 76-1, 3.5.2)",
        when(failed.time),
        grams(test.known),
        grams(test.indicated),
        signed(test.error()),
        grams(test.limit),
    );
    let mut lines = Vec::new();
    if failed.after > 0 {
        let right = match failed.put_right {
            Some(PutRight::Calibrated(at)) => {
                format!("before the scale was calibrated at {}", when(at))
            }
            Some(PutRight::Passed(at)) => format!("before a test that passed at {}", when(at)),
            None => "and nothing on record has put the scale right since".to_owned(),
        };
        let shown = review.goal.target();
        let food = failed.food_in(shown).map_or_else(String::new, |food| {
            format!(
                " If the fault grows with the load, {} shown was {} of food.",
                grams(shown),
                grams(food)
            )
        });
        lines.push(format!(
            "{} of {n} weighed after a test that failed, {right}: {found}.{food}",
            failed.after
        ));
    }
    if failed.before > 0 {
        let good = match failed.last_good {
            Some(at) => format!("and after the last good one, at {}", when(at)),
            None => "and no good one before it is on record".to_owned(),
        };
        let (which, found) = if failed.after > 0 {
            ("that test", String::new())
        } else {
            ("a test that failed", format!(": {found}"))
        };
        lines.push(format!(
            "{} of {n} weighed before {which} {good}{found}. \
             Which of them the fault reached is not known.",
            failed.before
        ));
    }
    lines
}

/// That figures may hold what was weighed around a failed test, where nobody
/// counted the portions.
#[must_use]
pub fn failed_in_figures(failed: &FailedTest, calendar: &ServiceCalendar) -> String {
    let of = calendar.day_of(failed.time);
    format!(
        "a test of the scale failed at {} on {} ({}); what was weighed around it is in these \
         figures as the scale showed it: see evenhand service show --day {of}",
        calendar.clock(failed.time),
        day(of),
        measured(failed),
    )
}

/// What a failed test measured, against which limit.
fn measured(failed: &FailedTest) -> String {
    let test = &failed.test;
    format!(
        "{} read {}, {} out; limit {}",
        grams(test.known),
        grams(test.indicated),
        signed(test.error()),
        grams(test.limit),
    )
}

/// What a failed test says of one portion; `None` where it says nothing.
#[must_use]
pub fn portion_in_doubt(
    failed: &FailedTest,
    portion: &RecordedPortion,
    calendar: &ServiceCalendar,
) -> Option<String> {
    let side = match failed.place_of(portion)? {
        Place::Before => "before",
        Place::After => "after",
    };
    Some(format!(
        "Weighed {side} a test that failed ({}: {}).",
        calendar.clock(failed.time),
        measured(failed)
    ))
}

/// What casts doubt on a dish's portions, a sentence or two a line.
#[must_use]
pub fn failed_tests(dish: &DishNight, calendar: &ServiceCalendar) -> Vec<String> {
    dish.failed_tests
        .iter()
        .flat_map(|failed| failed_test(failed, &dish.review, calendar))
        .collect()
}

/// What a cook needs of a dish, one sentence a line, what matters most first.
#[must_use]
pub fn in_short(dish: &DishNight, calendar: &ServiceCalendar) -> Vec<String> {
    let review = &dish.review;
    let mut lines = failed_tests(dish, calendar);
    lines.extend([
        advice(review),
        evenness(review),
        cost(review),
        change(review),
    ]);
    lines.extend(drift(review));
    lines.push(signals(review, calendar));
    lines
}

/// Everything of a dish, one sentence a line.
#[must_use]
pub fn all(dish: &DishNight, calendar: &ServiceCalendar) -> Vec<String> {
    let review = &dish.review;
    let mut lines = failed_tests(dish, calendar);
    lines.push(evenness(review));
    lines.extend(percentiles(review));
    lines.push(cost(review));
    lines.push(change(review));
    lines.extend(drift(review));
    lines.push(signals(review, calendar));
    lines.extend(capability(review));
    lines.push(advice(review));
    lines
}
