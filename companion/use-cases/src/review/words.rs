//! What a review found, in sentences.

use super::{DishNight, Night};
use evenhand_kitchen::portion::RecordedPortion;
use evenhand_kitchen::service::{
    AdviceBasis, Assumptions, DishReview, FailedTest, Finding, LeadDoubt, NoAdvice, Place,
    PutRight, SavingKind, ServiceCalendar, ShortRemedy, WeightDoubt,
};
use evenhand_kitchen::spread::Spread;
use evenhand_kitchen::statistics::{
    AimError, ConclusionKind, FEWEST_PORTIONS, FEWEST_SERVICES, HeldBy, Interval, LightSide,
    PercentileMethod,
};
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
    let spread = &review.relied;
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

/// The dish's usual weight, and tonight beside it.
#[must_use]
pub fn usual(review: &DishReview) -> String {
    let Some(usual) = &review.usual else {
        return format!(
            "Its usual weight is not known yet: that takes {FEWEST_PORTIONS} portions tonight and \
             {FEWEST_SERVICES} services before with as many."
        );
    };
    format!(
        "Usually {} over {} services, nights within {} of that 19 times in 20; tonight {}.",
        grams(usual.mean),
        usual.services,
        grams(usual.night_to_night),
        signed(usual.tonight),
    )
}

/// What is said of a dish, within the service's rate of false alarms.
#[must_use]
pub fn findings(review: &DishReview, calendar: &ServiceCalendar) -> String {
    if review.relied.n() < FEWEST_PORTIONS {
        return format!("Too few portions to call it steady or not: {FEWEST_PORTIONS} are needed.");
    }
    if review.findings.is_empty() {
        return "Steady, as far as can be told: nothing stands out.".to_owned();
    }
    let told: Vec<String> = review
        .findings
        .iter()
        .map(|found| finding(found, calendar))
        .collect();
    format!("{}.", capital(&told.join("; ")))
}

/// One finding: `grew heavier from about 21:10: 0.62 g over the usual on average`.
#[must_use]
pub fn finding(found: &Finding, calendar: &ServiceCalendar) -> String {
    let conclusion = &found.conclusion;
    let (weight, even) = if conclusion.up {
        ("heavier", "less even")
    } else {
        ("lighter", "more even")
    };
    let by = conclusion
        .size
        .and_then(Mass::from_fractional_grams)
        .map_or_else(String::new, |mass| grams(mass.abs()));
    let at = |time: Option<Timestamp>| time.map(|time| calendar.clock(time));
    match conclusion.kind {
        ConclusionKind::LeftUsual => {
            let since = at(found.since).map_or_else(String::new, |at| format!(" from about {at}"));
            let seen =
                at(found.seen_at).map_or_else(String::new, |at| format!(", to be seen by {at}"));
            let over = if conclusion.up { "over" } else { "under" };
            format!("grew {weight}{since}: {by} {over} the usual on average{seen}")
        }
        ConclusionKind::OffUsual => format!("{weight} than usual by {by}"),
        ConclusionKind::Moved => {
            let since = at(found.since).map_or_else(String::new, |at| format!("from about {at} "));
            format!("{since}{by} {weight} than before")
        }
        ConclusionKind::EvennessOffUsual => conclusion.size.map_or_else(
            || format!("{even} than usual"),
            |times| format!("{even} than usual: spread {times:.2} times as wide"),
        ),
        ConclusionKind::EvennessMoved => format!("{even} towards the end"),
    }
}

/// The rate that everything said of the service keeps to.
#[must_use]
pub fn false_alarms(assumptions: &Assumptions) -> String {
    format!(
        "Of steady services, at most 1 in {:.0} has anything false said of it, all dishes together.",
        1.0 / assumptions.false_alarms.fraction()
    )
}

fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().chain(letters).collect()
    })
}

/// Portions whose weight is in doubt, and both figures: with them and without.
#[must_use]
pub fn doubts(review: &DishReview) -> Option<String> {
    let doubts = &review.doubts;
    let reasons: Vec<String> = WeightDoubt::ALL
        .into_iter()
        .filter(|doubt| doubts.of(*doubt) > 0)
        .map(|doubt| {
            let reason = match doubt {
                WeightDoubt::FailedTest => "around a test of the scale that failed",
                WeightDoubt::MaybeTwo => "that may be two portions",
                WeightDoubt::TakenOffPan => "taken with the tin off the pan",
                WeightDoubt::Instrument => "with something at the pan or a restless bench",
            };
            format!("{} {reason}", doubts.of(doubt))
        })
        .collect();
    let mut said = Vec::new();
    if !reasons.is_empty() {
        let figures = |spread: &Spread| {
            let mean = spread.mean().map_or_else(|| "not known".to_owned(), grams);
            let deviation = spread
                .standard_deviation()
                .map_or_else(|| "not known".to_owned(), grams);
            format!("mean {mean}, spread {deviation}")
        };
        said.push(format!(
            "{} of {} weights are in doubt: {}. With them {}; without them {}, and only these \
             are judged and aimed by.",
            doubts.weights(),
            review.spread.n(),
            reasons.join(", "),
            figures(&review.spread),
            figures(&review.relied),
        ));
    }
    if doubts.straddling > 0 {
        said.push(format!(
            "{} more lie so near a limit that the scale cannot tell on which side.",
            doubts.straddling
        ));
    }
    (!said.is_empty()).then(|| said.join(" "))
}

/// What is in no figure: struck out, or corrected.
#[must_use]
pub fn left_out(review: &DishReview) -> Option<String> {
    let out = &review.left_out;
    if out.struck + out.corrected == 0 {
        return None;
    }
    let mut words = format!(
        "In no figure: {} struck out, {} corrected",
        out.struck, out.corrected
    );
    if out.topped_up > 0 {
        words += &format!(", of these {} topped up from short", out.topped_up);
    }
    Some(words + ".")
}

/// What comes first of a dish, in one sentence: what was wrong, and what to do.
#[must_use]
pub fn lead(dish: &DishNight, calendar: &ServiceCalendar) -> String {
    let review = &dish.review;
    let name = dish.name();
    let aim = match &review.advice {
        Ok(advice) => format!("aim at {}", grams(advice.aim.aim)),
        Err(why) => no_advice(why),
    };
    match dish.lead.doubt {
        Some(LeadDoubt::ScaleOff {
            over,
            put_right,
            portions,
        }) => {
            let read = format!(
                "{name}: the scale read {:.1} % {}",
                over.percent().abs(),
                if over.fraction() < 0.0 {
                    "under"
                } else {
                    "over"
                }
            );
            let of = format!("{portions} of {} portions", review.spread.n());
            return match put_right {
                None => format!(
                    "{read} for {of}, and nothing on record has put it right: test it before \
                     anything else."
                ),
                Some(PutRight::Calibrated(at)) => format!(
                    "{read} until {} ({of}): test it again, then {aim}.",
                    calendar.clock(at)
                ),
                Some(PutRight::Passed(at)) => {
                    format!("{read} until {} ({of}): {aim}.", calendar.clock(at))
                }
            };
        }
        Some(LeadDoubt::Weights { portions }) => {
            return format!(
                "{name}: {portions} of {} weights are in doubt; without them, {aim}.",
                review.spread.n()
            );
        }
        None => {}
    }
    match &dish.lead.finding {
        Some(found) => format!("{name}: {}; {aim}.", finding(found, calendar)),
        None if review.relied.n() < FEWEST_PORTIONS => format!("{name}: {aim}."),
        None => format!("{name} was steady: {aim}."),
    }
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

fn no_advice(why: &NoAdvice) -> String {
    match why {
        NoAdvice::Aim(AimError::DoesNotFit(misfit)) => format!(
            "no aim: the spread of {} does not fit this tolerance; it would fit up to {}, or widen \
             the tolerance",
            grams(misfit.spread),
            grams(misfit.fits_up_to)
        ),
        why => format!("no aim: {why}"),
    }
}

/// What to aim at tomorrow, with what it supposes.
#[must_use]
pub fn advice(review: &DishReview) -> String {
    let advice = match &review.advice {
        Ok(advice) => advice,
        Err(why) => return format!("{}.", capital(&no_advice(why))),
    };
    let aim = &advice.aim;
    let mut words = format!(
        "Aim at {}: then about {:.1} % short and {:.1} % heavy",
        grams(aim.aim),
        aim.short_share * 100.0,
        aim.heavy_share * 100.0
    );
    words += &match advice.basis {
        AdviceBasis::Cost {
            short_portion,
            currency,
            remedy,
            ..
        } => format!(
            ", the least cost if a short one costs {short_portion:.2} {}{}",
            currency.code(),
            match remedy {
                ShortRemedy::MadeAgain => ", its food again",
                ShortRemedy::Said => ", as said",
            }
        ),
        AdviceBasis::ToppedUp => {
            ", as short ones are topped up from the tin at the cost of what they lack".to_owned()
        }
        AdviceBasis::Share(share) => format!(
            ", so that with a confidence of 95 % no more than {:.1} % are short",
            share * 100.0
        ),
    };
    words += match aim.held_by {
        HeldBy::Sought => "",
        HeldBy::Promise if advice.basis == AdviceBasis::ToppedUp => "",
        HeldBy::Promise => "; it would pay to go lower, but the guest is promised the target",
        HeldBy::AsItIs => "; no light ones come through, so more would only be given away",
    };
    words += &format!(" (by {} portions).", aim.n);
    match aim.light_side {
        LightSide::Like => {}
        LightSide::CutOff => {
            words += " The light side is cut off, as where light ones are topped up."
        }
        LightSide::Longer => words += " The light side reaches farther than the heavy one.",
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
    words
}

/// What would save most, a line each.
#[must_use]
pub fn savings(night: &Night, most: usize) -> Vec<String> {
    night
        .savings()
        .into_iter()
        .take(most)
        .filter_map(|saving| {
            let name = night.dishes.get(saving.dish)?.name();
            let what = match saving.kind {
                SavingKind::OneGram => "one gram less on each portion".to_owned(),
                SavingKind::AimAsAdvised { by } => {
                    format!("the mean down to the aim, by {}", grams(by))
                }
                SavingKind::Narrower { by } => format!("a spread narrower by {}", grams(by)),
                SavingKind::Unaccounted { mass } => {
                    format!("finding the {} that nobody accounts for", grams(mass))
                }
            };
            Some(format!("{name}: {what}, {} a month.", saving.a_month))
        })
        .collect()
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
    let mut lines = vec![lead(dish, calendar)];
    lines.extend(failed_tests(dish, calendar));
    lines.extend(doubts(review));
    lines.extend([
        findings(review, calendar),
        usual(review),
        advice(review),
        evenness(review),
        cost(review),
    ]);
    lines.extend(left_out(review));
    lines
}

/// Everything of a dish, one sentence a line.
#[must_use]
pub fn all(dish: &DishNight, calendar: &ServiceCalendar) -> Vec<String> {
    let mut lines = in_short(dish, calendar);
    lines.extend(percentiles(&dish.review));
    lines.extend(capability(&dish.review));
    lines
}

/// What a stretch of a night comes to, a sentence a line: its doubts first.
/// Nothing is concluded of a stretch that was picked by eye.
#[must_use]
pub fn stretch(
    review: &DishReview,
    failed_tests: &[FailedTest],
    calendar: &ServiceCalendar,
) -> Vec<String> {
    let mut lines: Vec<String> = failed_tests
        .iter()
        .flat_map(|failed| failed_test(failed, review, calendar))
        .collect();
    lines.extend(doubts(review));
    lines.extend([evenness(review), cost(review)]);
    lines
}
