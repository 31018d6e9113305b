//! The spread against NIST's Statistical Reference Datasets, univariate
//! summary statistics.

use evenhand_kitchen::spread::Spread;
use evenhand_kitchen::units::{CostPerMass, Ratio};
use evenhand_protocol::{Goal, Mass, Tolerance, Verdict};

/// A goal that plays no part in the mean and the deviation.
fn any_goal() -> Goal {
    Goal::new(Mass::from_grams(1), Tolerance::symmetric(Mass::ZERO)).unwrap()
}

fn spread_of(masses: impl IntoIterator<Item = Mass>) -> Spread {
    let mut spread = Spread::new();
    for mass in masses {
        spread.add(mass, any_goal(), None);
    }
    spread
}

/// A data set read with one unit of it standing for `unit` grams, so that the
/// microgram is fine enough to hold fourteen of the certified digits. Exact for
/// observations of at most five decimals.
fn set(data: &str, unit: i64) -> Vec<Mass> {
    data.lines()
        .map(|line| (line.parse::<f64>().unwrap() * 1e5).round() as i64)
        .map(|steps| Mass::from_micrograms(steps * 10).times(unit))
        .collect()
}

/// Asserts that a mass is a certified value in its first fourteen digits.
fn certified(got: Mass, value: f64, unit: i64) {
    let got = got.grams() / unit as f64;
    assert!(
        ((got - value) / value).abs() < 1.2e-14,
        "{got:.17} is not the certified {value:.17}"
    );
}

// NumAcc1, NumAcc2, NumAcc3, NumAcc4: mean and standard deviation exact by
// construction (read from a public copy of the sets' descriptions).
#[test]
fn sets_made_to_break_arithmetic_are_exact() {
    let numacc1 = [10_000_001, 10_000_003, 10_000_002].map(Mass::from_grams);
    let spread = spread_of(numacc1);
    assert_eq!(spread.mean(), Some(Mass::from_grams(10_000_002)));
    assert_eq!(spread.standard_deviation(), Some(Mass::from_grams(1)));

    for base in [1, 1_000_000, 10_000_000] {
        let near = |tenths: i64| Mass::from_grams(base) + Mass::from_milligrams(100 * tenths);
        let pairs = std::iter::repeat_n([near(1), near(3)], 500).flatten();
        let spread = spread_of(std::iter::once(near(2)).chain(pairs));
        assert_eq!(spread.n(), 1001);
        assert_eq!(spread.mean(), Some(near(2)), "{base}");
        assert_eq!(
            spread.standard_deviation(),
            Some(Mass::from_milligrams(100)),
            "{base}"
        );
        let cv = spread.coefficient_of_variation().unwrap().fraction();
        assert!(
            (cv * (base as f64 + 0.2) / 0.1 - 1.0).abs() < 1e-15,
            "{base}"
        );
    }
}

// Certified values read from a public copy of the sets' descriptions.
#[test]
fn observed_sets_agree_to_fourteen_digits() {
    for (data, n, unit, mean, deviation) in [
        (
            include_str!("strd/pidigits.dat"),
            5_000,
            10_000_000_000,
            4.534_8,
            2.867_339_060_288_71,
        ),
        (
            include_str!("strd/lew.dat"),
            200,
            1_000_000,
            -177.435,
            277.332_168_044_316,
        ),
        (
            include_str!("strd/lottery.dat"),
            218,
            1_000_000,
            518.958_715_596_330,
            291.699_727_470_969,
        ),
        (
            include_str!("strd/mavro.dat"),
            50,
            100_000_000_000,
            2.001_856,
            0.000_429_123_454_003_053,
        ),
        (
            include_str!("strd/michelso.dat"),
            100,
            1_000_000_000,
            299.852_4,
            0.079_010_547_819_051_8,
        ),
    ] {
        let spread = spread_of(set(data, unit));
        assert_eq!(spread.n(), n);
        certified(spread.mean().unwrap(), mean, unit);
        certified(spread.standard_deviation().unwrap(), deviation, unit);
    }
}

#[test]
fn too_few_portions_have_no_spread() {
    let none = Spread::new();
    assert_eq!(
        (none.mean(), none.standard_deviation(), none.lightest()),
        (None, None, None)
    );
    assert_eq!(none.coefficient_of_variation(), None);
    assert_eq!(none.share(Verdict::On), Ratio::ZERO);
    let one = spread_of([Mass::from_grams(30)]);
    assert_eq!(one.mean(), Some(Mass::from_grams(30)));
    assert_eq!(one.standard_deviation(), None);
    assert_eq!(one.coefficient_of_variation(), None);
}

#[test]
fn masses_beyond_reason_neither_panic_nor_wrap() {
    let spread = spread_of([Mass::MAX, -Mass::MAX, Mass::MAX, Mass::MAX, Mass::MAX]);
    assert_eq!(spread.heaviest(), Some(Mass::MAX));
    assert!(
        spread
            .standard_deviation()
            .is_none_or(|s| s > Mass::from_grams(1_000_000))
    );
}

// Worked by hand: target 30 g ± 1 g; 28.5 short, 29 and 30.5 on, 32 heavy;
// 0.5 + 2 g given away, at 1.80 a gram 4.50.
#[test]
fn what_is_given_away_is_not_set_off_against_short_portions() {
    let goal = Goal::new(
        Mass::from_grams(30),
        Tolerance::symmetric(Mass::from_grams(1)),
    )
    .unwrap();
    let cost = CostPerMass::parse("cost", "1800 EUR/kg").unwrap();
    let mut spread = Spread::new();
    for milligrams in [28_500, 29_000, 30_500, 32_000] {
        spread.add(Mass::from_milligrams(milligrams), goal, Some(cost));
    }
    assert_eq!(spread.given_away(), Mass::from_milligrams(2_500));
    assert_eq!(spread.given_away_money().unwrap().to_string(), "4.50 EUR");
    assert_eq!(
        [Verdict::Short, Verdict::On, Verdict::Heavy].map(|v| spread.count(v)),
        [1, 2, 1]
    );
    assert_eq!(spread.share(Verdict::On).to_string(), "50.0%");
    assert_eq!(spread.total(), Mass::from_grams(120));
    assert_eq!(spread.lightest(), Some(Mass::from_milligrams(28_500)));

    // One portion without a cost: the money covers the others and says so.
    spread.add(Mass::from_grams(40), goal, None);
    assert_eq!(spread.given_away_money().unwrap().to_string(), "4.50 EUR");
    assert_eq!((spread.costed(), spread.n()), (4, 5));
    // One in another currency: no sum at all.
    let dollars = CostPerMass::parse("cost", "2000 USD/kg").unwrap();
    spread.add(Mass::from_grams(40), goal, Some(dollars));
    assert_eq!(spread.given_away_money(), None);
}
