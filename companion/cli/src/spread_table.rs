//! The spread, as a table and as JSON.

use super::figures;
use super::words::say;
use evenhand_kitchen::dish::DishName;
use evenhand_kitchen::service::{DoubtCounts, DoubtedSpread, WeightDoubt};
use evenhand_kitchen::spread::Spread;
use evenhand_kitchen::statistics::Difference;
use evenhand_kitchen::units::{Grams, MassUnit, Ratio};
use evenhand_protocol::{Mass, Verdict};
use evenhand_use_cases::review::words::{self, money};
use evenhand_words::Language;
use serde::Serialize;
use std::borrow::Cow;

/// The spread for machines: masses in grams, shares as fractions of one.
#[derive(Debug, Serialize)]
pub(super) struct SpreadJson {
    pub(super) dish: Option<String>,
    /// A cook as the kitchen's setting allows to show.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) cook: Option<String>,
    /// The hour of the clock.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) hour: Option<i8>,
    /// The tin's number; `null` for portions from none on record.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) tin: Option<Option<i64>>,
    pub(super) n: usize,
    mean_grams: Option<Grams>,
    standard_deviation_grams: Option<Grams>,
    coefficient_of_variation: Option<Ratio>,
    min_grams: Option<Grams>,
    max_grams: Option<Grams>,
    short: Ratio,
    on: Ratio,
    heavy: Ratio,
    total_grams: Grams,
    given_away_grams: Grams,
    given_away_money: Option<f64>,
    currency: Option<&'static str>,
    /// How many of the portions had a known cost.
    costed: usize,
    /// A cook's mean less that of all the others together.
    #[serde(skip_serializing_if = "Option::is_none")]
    against_others: Option<AgainstOthersJson>,
}

#[derive(Debug, Serialize)]
struct AgainstOthersJson {
    difference_grams: Grams,
    /// Where the true difference lies.
    low_grams: Grams,
    high_grams: Grams,
    /// How sure, so that all parts' comparisons together err once in twenty.
    confidence: f64,
}

impl SpreadJson {
    pub(super) fn of(dish: Option<&DishName>, spread: &Spread) -> Self {
        let money = spread.given_away_money();
        Self {
            dish: dish.map(ToString::to_string),
            cook: None,
            hour: None,
            tin: None,
            n: spread.n(),
            mean_grams: spread.mean().map(Grams),
            standard_deviation_grams: spread.standard_deviation().map(Grams),
            coefficient_of_variation: spread.coefficient_of_variation(),
            min_grams: spread.lightest().map(Grams),
            max_grams: spread.heaviest().map(Grams),
            short: spread.share(Verdict::Short),
            on: spread.share(Verdict::On),
            heavy: spread.share(Verdict::Heavy),
            total_grams: Grams(spread.total()),
            given_away_grams: Grams(spread.given_away()),
            given_away_money: money.map(|money| money.millionths() as f64 / 1e6),
            currency: money.map(|money| money.currency().code()),
            costed: spread.costed(),
            against_others: None,
        }
    }

    pub(super) fn put_against_others(&mut self, apart: Option<&Difference>) {
        self.against_others = apart.map(|apart| AgainstOthersJson {
            difference_grams: Grams(apart.difference),
            low_grams: Grams(apart.interval.low),
            high_grams: Grams(apart.interval.high),
            confidence: apart.interval.confidence.fraction(),
        });
    }
}

/// How many portions are in doubt, for machines.
#[derive(Debug, Serialize)]
pub(super) struct InDoubtJson {
    failed_test: usize,
    maybe_two: usize,
    taken_off_pan: usize,
    instrument: usize,
    /// Weights that can be relied on, so near a limit that the verdict could be either.
    straddling: usize,
}

impl InDoubtJson {
    pub(super) const fn of(doubts: &DoubtCounts) -> Self {
        Self {
            failed_test: doubts.of(WeightDoubt::FailedTest),
            maybe_two: doubts.of(WeightDoubt::MaybeTwo),
            taken_off_pan: doubts.of(WeightDoubt::TakenOffPan),
            instrument: doubts.of(WeightDoubt::Instrument),
            straddling: doubts.straddling,
        }
    }
}

/// A spread for machines with what is in doubt of it, the doubt first.
#[derive(Debug, Serialize)]
pub(super) struct DoubtedJson {
    in_doubt: InDoubtJson,
    /// The figures of those portions only whose weight can be relied on.
    relied_on: SpreadJson,
    #[serde(flatten)]
    pub(super) all: SpreadJson,
}

impl DoubtedJson {
    pub(super) fn of(dish: Option<&DishName>, spread: &DoubtedSpread) -> Self {
        Self {
            in_doubt: InDoubtJson::of(&spread.doubts),
            relied_on: SpreadJson::of(dish, &spread.relied),
            all: SpreadJson::of(dish, &spread.all),
        }
    }
}

/// How far a cook's mean lies from that of the others, by an interval.
pub(super) fn against_others_line(language: Language, apart: &Difference) -> String {
    let grams = |mass: Mass| language.figure(format!("{:+.2}", mass.grams()));
    let confidence = format!("{:.1}", apart.interval.confidence.fraction() * 100.0);
    let interval = say!(
        language,
        "spread-interval",
        difference = grams(apart.difference),
        confidence = language.figure(confidence),
        low = grams(apart.interval.low),
        high = grams(apart.interval.high),
    );
    let told = if apart.is_real() {
        interval
    } else {
        say!(language, "spread-no-difference", interval = interval)
    };
    format!("  {:<24}  {told}", say!(language, "spread-others"))
}

/// The spread of a part of a dish's portions, line by line: what is in doubt first, and
/// where anything is, the figures without it beside those with it.
pub(super) fn doubted_lines(
    language: Language,
    dish: Option<&DishName>,
    part: &str,
    spread: &DoubtedSpread,
    unit: MassUnit,
) -> Vec<String> {
    let mut lines = vec![heading(language, dish, part)];
    lines.extend(
        words::in_doubt(language, &spread.doubts, spread.all.n()).map(|doubt| format!("  {doubt}")),
    );
    lines.extend(doubted_rows(language, spread, unit));
    lines
}

/// The figures of [`doubted_lines`] alone.
pub(super) fn doubted_rows(
    language: Language,
    spread: &DoubtedSpread,
    unit: MassUnit,
) -> Vec<String> {
    let with = rows(language, &spread.all, unit);
    if spread.doubts.weights() == 0 {
        return with
            .into_iter()
            .map(|(name, value)| format!("  {name:<24}  {value}"))
            .collect();
    }
    let mut without = rows(language, &spread.relied, unit);
    without.retain(|(name, _)| with.iter().any(|(of, _)| of == name));
    let not_known = say!(language, "spread-not-known");
    let find = |name: &str| {
        let found = without.iter().find(|(of, _)| *of == name);
        found.map_or(&*not_known, |(_, value)| value.as_str())
    };
    let (head, without_them) = (
        say!(language, "spread-with").into_owned(),
        say!(language, "spread-without"),
    );
    let table: Vec<_> = std::iter::once((Words::Borrowed(""), &*without_them, head))
        .chain(with.into_iter().map(|(name, value)| {
            let found = find(&name);
            (name, found, value)
        }))
        .collect();
    let wide = table
        .iter()
        .map(|(_, without, _)| without.chars().count())
        .max()
        .unwrap_or_default();
    table
        .into_iter()
        .map(|(name, without, with)| format!("  {name:<24}  {without:<wide$}  {with}"))
        .collect()
}

fn heading(language: Language, dish: Option<&DishName>, part: &str) -> String {
    let name = dish.map_or_else(
        || say!(language, "spread-elsewhere").into_owned(),
        ToString::to_string,
    );
    if part.is_empty() {
        name
    } else {
        format!("{name}, {part}")
    }
}

type Words = Cow<'static, str>;

/// The figures by name.
fn rows(language: Language, spread: &Spread, unit: MassUnit) -> Vec<(Words, String)> {
    let not_known = || say!(language, "spread-not-known").into_owned();
    let mass = |mass: Option<Mass>| {
        mass.map_or_else(not_known, |mass| figures::mass(language, mass, unit))
    };
    // A deviation is small beside the masses it is of.
    let deviation = |deviation: Option<Mass>| match (deviation, unit) {
        (Some(deviation), MassUnit::Gram) => language.figure(format!("{:.2} g", deviation.grams())),
        (deviation, _) => mass(deviation),
    };
    let share = |verdict| {
        say!(
            language,
            "spread-share",
            share = language.figure(spread.share(verdict).to_string()),
            count = spread.count(verdict)
        )
        .into_owned()
    };
    let mut rows = vec![
        (say!(language, "spread-portions"), spread.n().to_string()),
        (say!(language, "spread-mean"), mass(spread.mean())),
    ];
    if spread.n() != 1 {
        let variation = spread
            .coefficient_of_variation()
            .map_or_else(not_known, |cv| language.figure(format!("{cv:.2}")));
        rows.extend([
            (
                say!(language, "spread-deviation"),
                deviation(spread.standard_deviation()),
            ),
            (say!(language, "spread-variation"), variation),
        ]);
    }
    rows.extend([
        (say!(language, "spread-lightest"), mass(spread.lightest())),
        (say!(language, "spread-heaviest"), mass(spread.heaviest())),
        (say!(language, "spread-short"), share(Verdict::Short)),
        (say!(language, "spread-on"), share(Verdict::On)),
        (say!(language, "spread-heavy"), share(Verdict::Heavy)),
        (
            say!(language, "spread-given-away"),
            given_away(language, spread, unit),
        ),
    ]);
    rows
}

fn given_away(language: Language, spread: &Spread, unit: MassUnit) -> String {
    let grams = figures::mass(language, spread.given_away(), unit);
    match spread.given_away_money() {
        None => grams,
        Some(given) if spread.costed() == spread.n() => {
            format!("{grams}, {}", money(language, given))
        }
        Some(given) => say!(
            language,
            "spread-money-known",
            grams = grams,
            money = money(language, given),
            count = spread.costed()
        )
        .into_owned(),
    }
}
