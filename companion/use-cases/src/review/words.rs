//! What a review found, in sentences.

use super::{DishNight, Night};
use crate::costs::Days;
use crate::times;
use crate::words::say;
use evenhand_kitchen::dish::DishName;
use evenhand_kitchen::plate::{NoPlateCost, Plate, PlateCost};
use evenhand_kitchen::portion::RecordedPortion;
use evenhand_kitchen::service::{
    AdviceBasis, Assumptions, DishReview, DoubtCounts, FailedTest, Finding, LeadDoubt, NoAdvice,
    PutRight, SavingKind, ServiceCalendar, ShortRemedy, Side, WeightDoubt,
};
use evenhand_kitchen::spread::Spread;
use evenhand_kitchen::statistics::{
    AimError, ConclusionKind, Enough, FEWEST_PORTIONS, FEWEST_SERVICES, FEWEST_TO_AIM, HeldBy,
    Interval, LightSide, PercentileMethod,
};
use evenhand_kitchen::tin::Tin;
use evenhand_kitchen::units::{MassUnit, Money, format_mass};
use evenhand_kitchen::yield_flow::{Destination, Loss, YieldFlow};
use evenhand_protocol::{Mass, Verdict};
use evenhand_words::Language;
use jiff::Timestamp;
use std::borrow::Cow;

/// A purchase: `cut 22, lot 56`.
#[must_use]
pub fn tin(language: Language, tin: &Tin) -> String {
    let (kind, id) = (tin.kind.word(), tin.id.to_string());
    if tin.label.is_empty() {
        say!(language, "review-purchase", kind = kind, id = id)
    } else {
        let label = tin.label.as_str();
        say!(
            language,
            "review-purchase-labelled",
            kind = kind,
            id = id,
            label = label
        )
    }
    .into_owned()
}

/// Where a part of a purchase went: `portioned`.
#[must_use]
pub fn part(language: Language, part: Destination) -> String {
    let code = match part {
        Destination::Lost(Loss::Trim) => "trim",
        Destination::Lost(Loss::Cook) => "cook",
        Destination::Lost(Loss::Press) => "press",
        Destination::Lost(Loss::Spill) => "spill",
        Destination::Lost(Loss::Tasting) => "tasting",
        Destination::Portioned => "portioned",
        Destination::Left => "left",
        Destination::ShouldBeLeft => "should-be-left",
        Destination::Unaccounted => "unaccounted",
    };
    say!(language, "review-part", part = code).into_owned()
}

fn not_known(language: Language) -> String {
    say!(language, "review-not-known").into_owned()
}

/// A part of a purchase as a share of what was bought: `15.7 %`.
#[must_use]
pub fn share(language: Language, flow: &YieldFlow, part: Mass) -> String {
    flow.share(part).map_or_else(
        || not_known(language),
        |share| percent(language, share.fraction()),
    )
}

/// A share in per cent, to a tenth: `15.7 %`.
#[must_use]
pub fn percent(language: Language, share: f64) -> String {
    language.figure(format!("{:.1} %", share * 100.0))
}

/// Grams as they are told of portions: a tenth, below 10 g a hundredth.
#[must_use]
pub fn grams(language: Language, mass: Mass) -> String {
    language.figure(if mass.abs() < Mass::from_grams(10) {
        format!("{:.2} g", tidy(mass.grams(), 0.005))
    } else {
        format_mass(mass, MassUnit::Gram)
    })
}

/// Grams, or that they are not known.
#[must_use]
pub fn grams_if_known(language: Language, mass: Option<Mass>) -> String {
    mass.map_or_else(|| not_known(language), |mass| grams(language, mass))
}

/// Grams with a sign: `+0.31 g`.
#[must_use]
pub fn signed(language: Language, mass: Mass) -> String {
    let grams = tidy(mass.grams(), 0.005);
    language.figure(format!("{grams:+.2} g"))
}

/// An amount of money: `4.50 EUR`.
#[must_use]
pub fn money(language: Language, money: Money) -> String {
    language.figure(money.to_string())
}

fn tidy(value: f64, least: f64) -> f64 {
    if value.abs() < least { 0.0 } else { value }
}

fn between(language: Language, interval: &Interval<Mass>) -> String {
    let low = grams(language, interval.low);
    say!(
        language,
        "review-interval",
        low = low.trim_end_matches(" g"),
        high = grams(language, interval.high)
    )
    .into_owned()
}

/// How even: `mean 30.6 g (30.5 to 30.8 g), spread 0.62 g (0.53 to 0.75 g)`.
#[must_use]
pub fn evenness(language: Language, review: &DishReview) -> String {
    let grams = |mass| grams(language, mass);
    let between = |interval| between(language, interval);
    let spread = &review.relied;
    let mean = spread.mean().map_or_else(String::new, grams);
    let (Some(mean_in), Some(deviation), Some(deviation_in)) =
        (&review.mean, spread.standard_deviation(), &review.deviation)
    else {
        return say!(language, "review-one-portion", mean = mean).into_owned();
    };
    let mut said = vec![say!(
        language,
        "review-evenness",
        mean = mean,
        mean_in = between(mean_in),
        spread = grams(deviation),
        spread_in = between(deviation_in),
    )];
    if let Some(separated) = &review.separated {
        said.push(match separated.hand {
            Some(hand) => say!(
                language,
                "review-hand",
                scale = grams(separated.scale),
                hand = grams(hand)
            ),
            None => say!(language, "review-hand-hidden"),
        });
    }
    said.extend(match review.enough {
        Enough::None => Some(say!(language, "review-sample-none")),
        Enough::Small => Some(say!(language, "review-sample-small")),
        Enough::Some => Some(say!(language, "review-sample-some")),
        Enough::Plenty => None,
    });
    said.join(" ")
}

/// `5 % lie below 29.6 g, half below 30.5 g`, with the method.
#[must_use]
pub fn percentiles(language: Language, review: &DishReview) -> Option<String> {
    let [low, middle, high] = review.percentiles?;
    let said = say!(
        language,
        "review-percentiles",
        low = grams(language, low),
        middle = grams(language, middle),
        high = grams(language, high),
        method = PercentileMethod::PlusOne.name()
    );
    Some(said.into_owned())
}

/// What was short and heavy, and what the heavy ones gave away; where weights are in
/// doubt, without them first.
#[must_use]
pub fn cost(language: Language, review: &DishReview) -> String {
    if review.doubts.weights() == 0 {
        return cost_of(language, &review.spread);
    }
    say!(
        language,
        "review-cost-both",
        relied = cost_of(language, &review.relied),
        all = cost_of(language, &review.spread)
    )
    .into_owned()
}

fn cost_of(language: Language, spread: &Spread) -> String {
    let (short, heavy) = (spread.count(Verdict::Short), spread.count(Verdict::Heavy));
    let given = grams(language, spread.given_away());
    let n = spread.n();
    match spread.given_away_money() {
        Some(of) if spread.costed() < n => say!(
            language,
            "review-cost-part",
            short = short,
            n = n,
            heavy = heavy,
            given = given,
            money = money(language, of),
            costed = spread.costed()
        ),
        Some(of) => say!(
            language,
            "review-cost-money",
            short = short,
            n = n,
            heavy = heavy,
            given = given,
            money = money(language, of)
        ),
        None if spread.costed() == 0 => say!(
            language,
            "review-cost-not-known",
            short = short,
            n = n,
            heavy = heavy,
            given = given
        ),
        None => say!(
            language,
            "review-cost",
            short = short,
            n = n,
            heavy = heavy,
            given = given
        ),
    }
    .into_owned()
}

/// The dish's usual weight, and tonight beside it.
#[must_use]
pub fn usual(language: Language, review: &DishReview) -> String {
    let Some(usual) = &review.usual else {
        return say!(
            language,
            "review-usual-not-known",
            portions = FEWEST_PORTIONS,
            services = FEWEST_SERVICES
        )
        .into_owned();
    };
    say!(
        language,
        "review-usual",
        mean = grams(language, usual.mean),
        services = usual.services,
        within = grams(language, usual.night_to_night),
        tonight = signed(language, usual.tonight),
    )
    .into_owned()
}

/// What is said of a dish, within the service's rate of false alarms.
#[must_use]
pub fn findings(language: Language, review: &DishReview, calendar: &ServiceCalendar) -> String {
    if review.relied.n() < FEWEST_PORTIONS {
        return say!(language, "review-too-few", portions = FEWEST_PORTIONS).into_owned();
    }
    if review.findings.is_empty() {
        return say!(language, "review-steady").into_owned();
    }
    let told: Vec<String> = review
        .findings
        .iter()
        .map(|found| finding(language, found, calendar))
        .collect();
    format!("{}.", times::capital(&told.join("; ")))
}

/// One finding: `grew heavier from about 21:10: 0.62 g over the usual on average`.
#[must_use]
pub fn finding(language: Language, found: &Finding, calendar: &ServiceCalendar) -> String {
    let conclusion = &found.conclusion;
    let way = if conclusion.up { "up" } else { "down" };
    let by = conclusion
        .size
        .and_then(Mass::from_fractional_grams)
        .map_or_else(String::new, |mass| grams(language, mass.abs()));
    let since = || {
        found.since.map_or_else(String::new, |time| {
            let time = calendar.clock(time);
            format!(" {}", say!(language, "finding-since", time = time))
        })
    };
    match conclusion.kind {
        ConclusionKind::LeftUsual => {
            let seen = found.seen_at.map_or_else(String::new, |time| {
                let time = calendar.clock(time);
                format!(", {}", say!(language, "finding-seen", time = time))
            });
            say!(
                language,
                "finding-grew",
                way = way,
                since = since(),
                by = by,
                seen = seen
            )
        }
        ConclusionKind::OffUsual => say!(language, "finding-off-usual", way = way, by = by),
        ConclusionKind::Moved => {
            say!(
                language,
                "finding-moved",
                by = by,
                way = way,
                since = since()
            )
        }
        ConclusionKind::EvennessOffUsual => match conclusion.size {
            None => say!(language, "finding-uneven", way = way),
            Some(times) => {
                let times = language.figure(format!("{times:.2}"));
                say!(language, "finding-uneven-times", way = way, times = times)
            }
        },
        ConclusionKind::EvennessMoved => say!(language, "finding-uneven-later", way = way),
    }
    .into_owned()
}

/// The rate that everything said of the service keeps to.
#[must_use]
pub fn false_alarms(language: Language, assumptions: &Assumptions) -> String {
    let services = format!("{:.0}", 1.0 / assumptions.false_alarms.fraction());
    say!(language, "review-false-alarms", services = services).into_owned()
}

/// How many of the weights are in doubt, for what reasons: the sentence before both
/// figures.
#[must_use]
pub fn in_doubt(language: Language, doubts: &DoubtCounts, n: usize) -> Option<String> {
    let mut said = Vec::new();
    if doubts.weights() > 0 {
        said.push(say!(
            language,
            "doubt-count",
            count = doubts.weights(),
            n = n,
            reasons = reasons(language, doubts)
        ));
    }
    said.extend(straddling(language, doubts));
    (!said.is_empty()).then(|| said.join(" "))
}

fn straddling(language: Language, doubts: &DoubtCounts) -> Option<Cow<'static, str>> {
    let count = doubts.straddling;
    (count > 0).then(|| match doubts.weights() {
        0 => say!(language, "doubt-straddling", count = count),
        _ => say!(language, "doubt-straddling-more", count = count),
    })
}

/// Why weights are in doubt, and how many for each reason.
fn reasons(language: Language, doubts: &DoubtCounts) -> String {
    let reasons: Vec<_> = WeightDoubt::ALL
        .into_iter()
        .map(|doubt| (doubt, doubts.of(doubt)))
        .filter(|(_, count)| *count > 0)
        .map(|(doubt, count)| match doubt {
            WeightDoubt::FailedTest => say!(language, "doubt-failed-test", count = count),
            WeightDoubt::MaybeTwo => say!(language, "doubt-two-portions", count = count),
            WeightDoubt::TakenOffPan => say!(language, "doubt-off-pan", count = count),
            WeightDoubt::Instrument => say!(language, "doubt-instrument", count = count),
        })
        .collect();
    reasons.join(", ")
}

/// Portions whose weight is in doubt, and both figures: with them and without.
#[must_use]
pub fn doubts(language: Language, review: &DishReview) -> Option<String> {
    let doubts = &review.doubts;
    let mut said = Vec::new();
    if doubts.weights() > 0 {
        let figures = |spread: &Spread| {
            say!(
                language,
                "doubt-figures",
                mean = grams_if_known(language, spread.mean()),
                spread = grams_if_known(language, spread.standard_deviation())
            )
        };
        said.push(say!(
            language,
            "doubt-weights",
            count = doubts.weights(),
            n = review.spread.n(),
            reasons = reasons(language, doubts),
            all = figures(&review.spread),
            relied = figures(&review.relied),
        ));
    }
    said.extend(straddling(language, doubts));
    (!said.is_empty()).then(|| said.join(" "))
}

/// What is in no figure: struck out, or corrected.
#[must_use]
pub fn left_out(language: Language, review: &DishReview) -> Option<String> {
    let out = &review.left_out;
    if out.struck + out.corrected == 0 {
        return None;
    }
    let said = if out.topped_up > 0 {
        say!(
            language,
            "review-left-out-topped",
            struck = out.struck,
            corrected = out.corrected,
            topped = out.topped_up
        )
    } else {
        say!(
            language,
            "review-left-out",
            struck = out.struck,
            corrected = out.corrected
        )
    };
    Some(said.into_owned())
}

/// What comes first of a dish, in one sentence: what was wrong, and what to do.
#[must_use]
pub fn lead(language: Language, dish: &DishNight, calendar: &ServiceCalendar) -> String {
    let review = &dish.review;
    let name = dish.name();
    let n = review.spread.n();
    let aim = match &review.advice {
        Ok(advice) => {
            let target = review.goal.target();
            let aim = grams(language, advice.aim.aim);
            if advice.aim.aim < target {
                let promised = grams(language, target);
                say!(language, "lead-aim-below", aim = aim, promised = promised).into_owned()
            } else {
                say!(language, "lead-aim", aim = aim).into_owned()
            }
        }
        Err(why) => no_advice(language, why),
    };
    match dish.lead.doubt {
        Some(LeadDoubt::ScaleOff {
            over,
            put_right,
            portions,
        }) => {
            let percent = percent(language, over.fraction().abs());
            let way = if over.fraction() < 0.0 { "down" } else { "up" };
            return match put_right {
                None => say!(
                    language,
                    "lead-scale",
                    dish = name,
                    percent = percent,
                    way = way,
                    count = portions,
                    n = n
                ),
                Some(PutRight::Calibrated(at)) => say!(
                    language,
                    "lead-scale-calibrated",
                    dish = name,
                    percent = percent,
                    way = way,
                    time = calendar.clock(at),
                    count = portions,
                    n = n,
                    aim = aim
                ),
                Some(PutRight::Passed(at)) => say!(
                    language,
                    "lead-scale-passed",
                    dish = name,
                    percent = percent,
                    way = way,
                    time = calendar.clock(at),
                    count = portions,
                    n = n,
                    aim = aim
                ),
            }
            .into_owned();
        }
        Some(LeadDoubt::Far { portions }) => {
            return say!(
                language,
                "lead-far",
                dish = name,
                count = portions,
                n = n,
                aim = aim
            )
            .into_owned();
        }
        Some(LeadDoubt::Weights { portions }) => {
            return say!(
                language,
                "lead-weights",
                dish = name,
                count = portions,
                n = n,
                aim = aim
            )
            .into_owned();
        }
        None => {}
    }
    let aim = match &dish.lead.finding {
        Some(found) if dish.lead.off.is_some() => {
            let finding = finding(language, found, calendar);
            format!("{finding}; {aim}")
        }
        _ => aim,
    };
    if let Some(off) = dish.lead.off {
        return say!(
            language,
            "lead-off",
            dish = name,
            count = off.portions,
            n = off.of,
            way = off.verdict.word(),
            by = grams(language, off.by),
            aim = aim
        )
        .into_owned();
    }
    match &dish.lead.finding {
        Some(found) => say!(
            language,
            "lead-finding",
            dish = name,
            finding = finding(language, found, calendar),
            aim = aim
        ),
        None if review.relied.n() < FEWEST_PORTIONS => {
            say!(language, "lead-plain", dish = name, aim = aim)
        }
        None => say!(language, "lead-steady", dish = name, aim = aim),
    }
    .into_owned()
}

/// Capability against the tolerance.
#[must_use]
pub fn capability(language: Language, review: &DishReview) -> Option<String> {
    let capability = review.capability.as_ref()?;
    let figure = |value: f64| language.figure(format!("{value:.2}"));
    let interval = |interval: &Interval<f64>| {
        say!(
            language,
            "review-interval",
            low = figure(interval.low),
            high = figure(interval.high)
        )
    };
    let said = say!(
        language,
        "review-capability",
        cp = figure(capability.cp),
        cp_in = interval(&capability.cp_interval),
        cpk = figure(capability.cpk),
        cpk_in = interval(&capability.cpk_interval),
    );
    Some(said.into_owned())
}

fn no_advice(language: Language, why: &NoAdvice) -> String {
    let why = match why {
        NoAdvice::ScaleTooCoarse(count, n) => {
            say!(language, "no-aim-coarse", count = *count, n = *n)
        }
        NoAdvice::Aim(AimError::DoesNotFit(misfit)) => say!(
            language,
            "no-aim-misfit",
            spread = grams(language, misfit.spread),
            fits = grams(language, misfit.fits_up_to)
        ),
        NoAdvice::Aim(AimError::TooFew(count)) => say!(
            language,
            "no-aim-too-few",
            count = *count,
            fewest = FEWEST_TO_AIM
        ),
        NoAdvice::Aim(AimError::NoSpread) => say!(language, "no-aim-no-spread"),
        NoAdvice::Aim(AimError::ShortTooCheap) => say!(language, "no-aim-too-cheap"),
        // Of what was asked on the command line.
        NoAdvice::Aim(why @ (AimError::BadPrice(_) | AimError::BadShare(_))) => {
            say!(language, "no-aim-other", why = why.to_string())
        }
    };
    say!(language, "lead-no-aim", why = why).into_owned()
}

/// What to aim at tomorrow, with what it supposes.
#[must_use]
pub fn advice(language: Language, review: &DishReview) -> String {
    let advice = match &review.advice {
        Ok(advice) => advice,
        Err(why) => return format!("{}.", times::capital(&no_advice(language, why))),
    };
    let aim = &advice.aim;
    let basis = match advice.basis {
        AdviceBasis::Cost {
            short_portion,
            currency,
            remedy,
            ..
        } => {
            let cost = language.figure(format!("{short_portion:.2} {}", currency.code()));
            match remedy {
                ShortRemedy::MadeAgain => say!(language, "advice-made-again", cost = cost),
                ShortRemedy::Said => say!(language, "advice-as-said", cost = cost),
            }
        }
        AdviceBasis::ToppedUp => say!(language, "advice-topped-up"),
        AdviceBasis::Share(share) => {
            say!(language, "advice-share", share = percent(language, share))
        }
    };
    let held = match aim.held_by {
        HeldBy::Sought => None,
        HeldBy::Promise if advice.basis == AdviceBasis::ToppedUp => None,
        HeldBy::Promise => Some(say!(language, "advice-promise")),
        HeldBy::AsItIs => Some(say!(language, "advice-as-it-is")),
    };
    let mut said = vec![say!(
        language,
        "advice-aim",
        aim = grams(language, aim.aim),
        short = percent(language, aim.short_share),
        heavy = percent(language, aim.heavy_share),
        basis = basis,
        held = held.unwrap_or_default(),
        n = aim.n
    )];
    let target = review.goal.target();
    if aim.aim < target {
        let by = grams(language, target - aim.aim);
        let promised = grams(language, target);
        said.push(say!(language, "advice-below", by = by, promised = promised));
    }
    said.extend(match aim.light_side {
        LightSide::Like => None,
        LightSide::CutOff => Some(say!(language, "advice-cut-off")),
        LightSide::Longer => Some(say!(language, "advice-longer")),
    });
    if let Some(saving) = advice.saving {
        let n = u32::try_from(review.spread.n()).unwrap_or(u32::MAX);
        let portions = advice.portions_a_month;
        let by = grams(language, advice.narrower_by);
        let saving = money(language, saving);
        said.push(match advice.saving_a_gram() {
            Some(rate) if advice.narrower_by != Mass::from_grams(1) => say!(
                language,
                "advice-saving-rate",
                by = by,
                saving = saving,
                rate = money(language, rate),
                portions = portions,
                services = portions / n.max(1)
            ),
            _ => say!(
                language,
                "advice-saving",
                by = by,
                saving = saving,
                portions = portions,
                services = portions / n.max(1)
            ),
        });
    }
    said.join(" ")
}

/// What would save most, a line each.
#[must_use]
pub fn savings(language: Language, night: &Night, most: usize) -> Vec<String> {
    night
        .savings()
        .into_iter()
        .take(most)
        .filter_map(|saving| {
            let name = night.dishes.get(saving.dish)?.name();
            let by = |mass| grams(language, mass);
            let a_month = money(language, saving.a_month);
            let said = match saving.kind {
                SavingKind::OneGram => {
                    say!(language, "saving-one-gram", dish = name, saving = a_month)
                }
                SavingKind::AimAsAdvised { by: mass } => say!(
                    language,
                    "saving-to-aim",
                    dish = name,
                    by = by(mass),
                    saving = a_month
                ),
                SavingKind::Narrower { by: mass } => say!(
                    language,
                    "saving-narrower",
                    dish = name,
                    by = by(mass),
                    saving = a_month
                ),
                SavingKind::Unaccounted { mass } => say!(
                    language,
                    "saving-unaccounted",
                    dish = name,
                    by = by(mass),
                    saving = a_month
                ),
            };
            Some(said.into_owned())
        })
        .collect()
}

/// That a test of the scale failed, and what that says of the portions: what
/// was measured, against which limit, how many portions came after or before.
#[must_use]
pub fn failed_test(
    language: Language,
    failed: &FailedTest,
    review: &DishReview,
    calendar: &ServiceCalendar,
) -> Vec<String> {
    let n = review.spread.n();
    let now = review.times.last().map(|time| calendar.day_of(*time));
    // A time of another service's day is told with its day.
    let when = |at: Timestamp| match calendar.day_of(at) {
        of if Some(of) == now => calendar.clock(at),
        of => say!(
            language,
            "failed-when",
            time = calendar.clock(at),
            day = times::day_of_year(language, of)
        )
        .into_owned(),
    };
    let test = &failed.test;
    let found = say!(
        language,
        "failed-found",
        when = when(failed.time),
        known = grams(language, test.known),
        read = grams(language, test.indicated),
        out = signed(language, test.error()),
        limit = grams(language, test.limit),
    );
    let mut lines = Vec::new();
    if failed.after > 0 {
        let right = match failed.put_right {
            Some(PutRight::Calibrated(at)) => {
                say!(language, "failed-calibrated", when = when(at))
            }
            Some(PutRight::Passed(at)) => say!(language, "failed-passed", when = when(at)),
            None => say!(language, "failed-not-right"),
        };
        let mut line = say!(
            language,
            "failed-after",
            count = failed.after,
            n = n,
            right = right,
            found = found.clone()
        )
        .into_owned();
        let shown = review.goal.target();
        if let Some(food) = failed.food_in(shown) {
            let food = say!(
                language,
                "failed-food",
                shown = grams(language, shown),
                food = grams(language, food)
            );
            line = format!("{line} {food}");
        }
        lines.push(line);
    }
    if failed.before > 0 {
        let good = match failed.last_good {
            Some(at) => say!(language, "failed-last-good", when = when(at)),
            None => say!(language, "failed-none-good"),
        };
        let line = if failed.after > 0 {
            say!(
                language,
                "failed-before-too",
                count = failed.before,
                n = n,
                good = good
            )
        } else {
            say!(
                language,
                "failed-before",
                count = failed.before,
                n = n,
                good = good,
                found = found
            )
        };
        lines.push(line.into_owned());
    }
    lines
}

/// That figures may hold what was weighed around a failed test, where nobody
/// counted the portions.
#[must_use]
pub fn failed_in_figures(
    language: Language,
    failed: &FailedTest,
    calendar: &ServiceCalendar,
) -> String {
    let of = calendar.day_of(failed.time);
    say!(
        language,
        "failed-in-figures",
        time = calendar.clock(failed.time),
        day = times::day_of_year(language, of),
        measured = measured(language, failed),
        date = of.to_string()
    )
    .into_owned()
}

/// What a failed test measured, against which limit.
fn measured(language: Language, failed: &FailedTest) -> String {
    let test = &failed.test;
    say!(
        language,
        "failed-measured",
        known = grams(language, test.known),
        read = grams(language, test.indicated),
        out = signed(language, test.error()),
        limit = grams(language, test.limit),
    )
    .into_owned()
}

/// What a failed test says of one portion; `None` where it says nothing.
#[must_use]
pub fn portion_in_doubt(
    language: Language,
    failed: &FailedTest,
    portion: &RecordedPortion,
    calendar: &ServiceCalendar,
) -> Option<String> {
    let time = calendar.clock(failed.time);
    let measured = measured(language, failed);
    let said = match failed.place_of(portion)? {
        Side::Before => say!(
            language,
            "failed-portion-before",
            time = time,
            measured = measured
        ),
        Side::After => say!(
            language,
            "failed-portion-after",
            time = time,
            measured = measured
        ),
    };
    Some(said.into_owned())
}

/// What casts doubt on a dish's portions, a sentence or two a line.
#[must_use]
pub fn failed_tests(
    language: Language,
    dish: &DishNight,
    calendar: &ServiceCalendar,
) -> Vec<String> {
    dish.failed_tests
        .iter()
        .flat_map(|failed| failed_test(language, failed, &dish.review, calendar))
        .collect()
}

/// Everything that casts doubt on a dish's figures, which comes before them.
#[must_use]
pub fn casting_doubt(
    language: Language,
    dish: &DishNight,
    calendar: &ServiceCalendar,
) -> Vec<String> {
    let mut lines = failed_tests(language, dish, calendar);
    lines.extend(doubts(language, &dish.review));
    lines.extend(far(language, &dish.review));
    lines
}

/// Weights that lie far from all the others.
fn far(language: Language, review: &DishReview) -> Option<String> {
    let of = &review.far;
    let some: Vec<String> = of
        .iter()
        .take(3)
        .map(|mass| grams(language, *mass))
        .collect();
    (!of.is_empty()).then(|| {
        let weights = some.join(", ");
        say!(language, "doubt-far", count = of.len(), weights = weights).into_owned()
    })
}

/// What a cook needs of a dish, one sentence a line, what matters most first.
#[must_use]
pub fn in_short(language: Language, dish: &DishNight, calendar: &ServiceCalendar) -> Vec<String> {
    let review = &dish.review;
    let mut lines = vec![lead(language, dish, calendar)];
    lines.extend(casting_doubt(language, dish, calendar));
    lines.extend([
        findings(language, review, calendar),
        usual(language, review),
        advice(language, review),
        evenness(language, review),
        cost(language, review),
    ]);
    lines.extend(left_out(language, review));
    lines
}

/// The dishes of a night of which no portion counts any more, a sentence each.
#[must_use]
pub fn none_counts(language: Language, night: &Night) -> Vec<String> {
    let dishes = night.none_counts.iter();
    dishes
        .map(|(dish, portions)| {
            let name = dish
                .as_ref()
                .map_or("Portions of runs begun elsewhere", DishName::as_str);
            say!(language, "none-counts", dish = name, count = *portions).into_owned()
        })
        .collect()
}

/// A dish beside the services before, one sentence a line: what casts doubt on it first.
#[must_use]
pub fn beside_the_others(
    language: Language,
    dish: &DishNight,
    calendar: &ServiceCalendar,
) -> Vec<String> {
    let mut lines = casting_doubt(language, dish, calendar);
    let doubted: Vec<String> = dish
        .before
        .iter()
        .filter(|(_, spread)| spread.doubts.weights() > 0)
        .map(|(day, spread)| {
            let day = times::short_day(language, *day);
            let (doubted, count) = (spread.doubts.weights(), spread.all.n());
            say!(
                language,
                "before-doubted-day",
                day = day,
                doubted = doubted,
                count = count
            )
            .into_owned()
        })
        .collect();
    if !doubted.is_empty() {
        let days = doubted.join("; ");
        lines.push(say!(language, "before-doubted", days = days).into_owned());
    }
    lines.extend([
        findings(language, &dish.review, calendar),
        usual(language, &dish.review),
    ]);
    lines
}

/// Everything of a dish, one sentence a line.
#[must_use]
pub fn all(language: Language, dish: &DishNight, calendar: &ServiceCalendar) -> Vec<String> {
    let mut lines = in_short(language, dish, calendar);
    lines.extend(percentiles(language, &dish.review));
    lines.extend(capability(language, &dish.review));
    lines
}

/// What a stretch of a night comes to, a sentence a line: its doubts first.
/// Nothing is concluded of a stretch that was picked by eye.
#[must_use]
pub fn stretch(
    language: Language,
    review: &DishReview,
    failed_tests: &[FailedTest],
    calendar: &ServiceCalendar,
) -> Vec<String> {
    let mut lines: Vec<String> = failed_tests
        .iter()
        .flat_map(|failed| failed_test(language, failed, review, calendar))
        .collect();
    lines.extend(doubts(language, review));
    lines.extend([evenness(language, review), cost(language, review)]);
    lines
}

/// A plate: what it costs, of its price, and what is on it, a line each; the first is its
/// heading.
#[must_use]
pub fn plate(
    language: Language,
    plate: &Plate,
    cost: &Result<PlateCost, NoPlateCost>,
) -> Vec<String> {
    let name = plate.name.as_str();
    let cost = match cost {
        Ok(cost) => cost,
        Err(why) => {
            let why = no_plate_cost(language, why);
            return vec![say!(language, "plate-not-known", plate = name, why = why).into_owned()];
        }
    };
    let all = money(language, cost.cost);
    let mut lines = vec![match (plate.price, cost.margin, cost.share_of_price) {
        (Some(price), Some(margin), Some(share)) => say!(
            language,
            "plate-cost-price",
            plate = name,
            cost = all,
            price = money(language, price),
            margin = money(language, margin),
            share = percent(language, share)
        ),
        _ => say!(language, "plate-cost", plate = name, cost = all),
    }];
    lines.extend(cost.components.iter().map(|component| {
        say!(
            language,
            "plate-component",
            name = component.name.as_str(),
            weight = grams(language, component.weight),
            rate = language.figure(component.cost.to_string()),
            cost = money(language, component.money)
        )
    }));
    lines.into_iter().map(Cow::into_owned).collect()
}

fn no_plate_cost(language: Language, why: &NoPlateCost) -> String {
    match why {
        NoPlateCost::NotServed(dish) => say!(language, "plate-not-served", dish = dish.as_str()),
        NoPlateCost::NoCost(dish) => say!(language, "plate-no-cost", dish = dish.as_str()),
        NoPlateCost::Currency(name) => say!(language, "plate-currency", name = name.as_str()),
        NoPlateCost::Empty => say!(language, "plate-empty"),
    }
    .into_owned()
}

/// Every gram of some days: what was bought, and where it went, a line each; the first is
/// their heading.
#[must_use]
pub fn days(language: Language, days: &Days) -> Vec<String> {
    let ledger = &days.ledger;
    let day = |day| times::short_day_of_year(language, day);
    let mut lines = vec![
        say!(
            language,
            "days-bought",
            first = day(days.first),
            last = day(days.last),
            mass = grams(language, ledger.bought),
            count = ledger.purchases
        )
        .into_owned(),
    ];
    if ledger.purchases > 0 {
        let losses = Loss::ALL
            .into_iter()
            .map(|loss| (Destination::Lost(loss), ledger.lost(loss)))
            .filter(|(_, mass)| *mass > Mass::ZERO);
        let by_record =
            (ledger.not_weighed > 0).then_some((Destination::ShouldBeLeft, ledger.left_by_record));
        let parts = std::iter::once((Destination::Portioned, ledger.portioned))
            .chain(losses)
            .chain([(Destination::Left, ledger.left_weighed)])
            .chain(by_record)
            .chain([(Destination::Unaccounted, ledger.unaccounted)]);
        let parts: Vec<String> = parts
            .map(|(of, mass)| {
                let share = mass.grams() / ledger.bought.grams();
                let share = if share.is_finite() {
                    percent(language, share)
                } else {
                    not_known(language)
                };
                format!("{} {} ({share})", part(language, of), grams(language, mass))
            })
            .collect();
        lines.push(format!("{}.", times::capital(&parts.join(", "))));
    }
    if ledger.not_weighed > 0 {
        lines.push(say!(language, "days-not-weighed", count = ledger.not_weighed).into_owned());
    }
    if ledger.from_no_purchase > Mass::ZERO {
        let mass = grams(language, ledger.from_no_purchase);
        lines.push(say!(language, "days-beside", mass = mass).into_owned());
    }
    lines
}
