//! The spread, as a table and as JSON.

use evenhand_kitchen::dish::DishName;
use evenhand_kitchen::service::{DoubtCounts, DoubtedSpread, WeightDoubt};
use evenhand_kitchen::spread::Spread;
use evenhand_kitchen::statistics::Difference;
use evenhand_kitchen::units::{Grams, MassUnit, Money, Ratio, format_mass};
use evenhand_protocol::{Mass, Verdict};
use evenhand_use_cases::review::words;
use evenhand_words::Language;
use serde::Serialize;

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
pub(super) fn against_others_line(apart: &Difference) -> String {
    let grams = |mass: Mass| format!("{:+.2}", mass.grams());
    format!(
        "  {:<24}  {} g, {:.1} % {} to {} g{}",
        "against the others",
        grams(apart.difference),
        apart.interval.confidence.fraction() * 100.0,
        grams(apart.interval.low),
        grams(apart.interval.high),
        if apart.is_real() {
            ""
        } else {
            ": no difference shown"
        }
    )
}

/// The spread of a part of a dish's portions, line by line: what is in doubt first, and
/// where anything is, the figures without it beside those with it.
pub(super) fn doubted_lines(
    dish: Option<&DishName>,
    part: &str,
    spread: &DoubtedSpread,
    unit: MassUnit,
) -> Vec<String> {
    let mut lines = vec![heading(dish, part)];
    lines.extend(
        words::in_doubt(Language::English, &spread.doubts, spread.all.n())
            .map(|doubt| format!("  {doubt}")),
    );
    lines.extend(doubted_rows(spread, unit));
    lines
}

/// The figures of [`doubted_lines`] alone.
pub(super) fn doubted_rows(spread: &DoubtedSpread, unit: MassUnit) -> Vec<String> {
    let with = rows(&spread.all, unit);
    if spread.doubts.weights() == 0 {
        return with
            .into_iter()
            .map(|(name, value)| format!("  {name:<24}  {value}"))
            .collect();
    }
    let mut without = rows(&spread.relied, unit);
    without.retain(|(name, _)| with.iter().any(|(of, _)| of == name));
    let find = |name: &str| {
        let found = without.iter().find(|(of, _)| *of == name);
        found.map_or("not known", |(_, value)| value.as_str())
    };
    let head = ("", "without them", "with them".to_owned());
    let table: Vec<_> = std::iter::once(head)
        .chain(
            with.into_iter()
                .map(|(name, value)| (name, find(name), value)),
        )
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

fn heading(dish: Option<&DishName>, part: &str) -> String {
    let name = dish.map_or("portions of runs begun elsewhere", DishName::as_str);
    if part.is_empty() {
        name.to_owned()
    } else {
        format!("{name}, {part}")
    }
}

/// The figures by name.
fn rows(spread: &Spread, unit: MassUnit) -> Vec<(&'static str, String)> {
    let mass = |mass: Option<Mass>| {
        mass.map_or_else(|| "not known".to_owned(), |mass| format_mass(mass, unit))
    };
    // A deviation is small beside the masses it is of.
    let deviation = |mass: Option<Mass>| match (mass, unit) {
        (Some(mass), MassUnit::Gram) => format!("{:.2} g", mass.grams()),
        (mass, _) => self::mass(mass, unit),
    };
    let share = |verdict| {
        format!(
            "{} ({})",
            spread.share(verdict),
            counted(spread.count(verdict), "portion")
        )
    };
    let mut rows = vec![
        ("portions", spread.n().to_string()),
        ("mean", mass(spread.mean())),
        ("standard deviation", deviation(spread.standard_deviation())),
        (
            "coefficient of variation",
            spread
                .coefficient_of_variation()
                .map_or_else(|| "not known".to_owned(), |cv| format!("{cv:.2}")),
        ),
        ("lightest", mass(spread.lightest())),
        ("heaviest", mass(spread.heaviest())),
        ("short", share(Verdict::Short)),
        ("on", share(Verdict::On)),
        ("heavy", share(Verdict::Heavy)),
        ("given away", given_away(spread, unit)),
    ];
    if spread.n() == 1 {
        rows.retain(|(name, _)| {
            !matches!(*name, "standard deviation" | "coefficient of variation")
        });
    }
    rows
}

fn mass(mass: Option<Mass>, unit: MassUnit) -> String {
    mass.map_or_else(|| "not known".to_owned(), |mass| format_mass(mass, unit))
}

fn given_away(spread: &Spread, unit: MassUnit) -> String {
    let grams = format_mass(spread.given_away(), unit);
    match spread.given_away_money() {
        None => grams,
        Some(money) if spread.costed() == spread.n() => format!("{grams}, {}", money_words(money)),
        Some(money) => format!(
            "{grams}, {} for the {} whose cost is known",
            money_words(money),
            counted(spread.costed(), "portion")
        ),
    }
}

fn money_words(money: Money) -> String {
    money.to_string()
}

/// `1 portion`, `2 portions`.
pub(super) fn counted(count: usize, of: &str) -> String {
    if count == 1 {
        format!("1 {of}")
    } else {
        format!("{count} {of}s")
    }
}
