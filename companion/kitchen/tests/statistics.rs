//! Statistics against scipy and against worked examples of the NIST/SEMATECH
//! e-Handbook of Statistical Methods.
//!
//! scipy's values come from `reference/statistics.py`, which says how to run
//! it. The e-Handbook's examples are from memory: whoever has the page at hand
//! should confirm them.

#![allow(clippy::unwrap_used)]

use evenhand_kitchen::statistics::*;
use evenhand_protocol::{Goal, Mass, Tolerance};
use jiff::Timestamp;

/// e-Handbook 7.2.6.2, twelve gauge measurements (from memory).
const GAUGE: [f64; 12] = [
    95.1772, 95.1567, 95.1937, 95.1959, 95.1442, 95.0610, 95.1591, 95.1195, 95.1065, 95.0925,
    95.1990, 95.1682,
];
const EARLY: [f64; 8] = [30.2, 29.8, 30.5, 30.1, 29.6, 30.9, 30.3, 30.0];
const LATE: [f64; 9] = [31.4, 30.2, 32.0, 30.9, 31.7, 29.9, 32.3, 31.1, 30.6];

fn g(grams: f64) -> Mass {
    Mass::from_fractional_grams(grams).unwrap()
}

fn sample(grams: &[f64]) -> Sample {
    grams.iter().map(|x| g(*x)).collect()
}

/// Masses are kept to the microgram, so that is the closest agreement to ask.
fn near(ours: Mass, theirs: f64) {
    assert!(
        (ours.grams() - theirs).abs() < 2e-6,
        "{} against {theirs}",
        ours.grams()
    );
}

fn close(ours: f64, theirs: f64, tolerance: f64) {
    assert!((ours - theirs).abs() < tolerance, "{ours} against {theirs}");
}

// scipy.stats.t.interval and chi2.ppf.
#[test]
fn intervals_agree_with_scipy() {
    let s = sample(&GAUGE);
    let mean = mean_interval(&s, Confidence::NINETY_FIVE).unwrap();
    near(mean.low, 95.119_609_764_167_98);
    near(mean.high, 95.175_973_569_165_35);
    let spread = standard_deviation_interval(&s, Confidence::NINETY_FIVE).unwrap();
    near(spread.low, 0.031_420_956_130_314_18);
    near(spread.high, 0.075_309_593_303_389_92);
}

// numpy.percentile, methods "weibull" (Hyndman-Fan 6) and "linear" (7); the first is also the
// e-Handbook's own answer, 95.1981.
#[test]
fn percentiles_agree_with_the_handbook_and_numpy() {
    let s = sample(&GAUGE);
    let at = |method| percentile(&s, 0.9, method).unwrap().unwrap();
    near(at(PercentileMethod::PlusOne), 95.198_07);
    near(at(PercentileMethod::MinusOne), 95.195_68);
    assert!(percentile(&s, 1.1, PercentileMethod::PlusOne).is_err());
    assert!(percentile(&s, f64::NAN, PercentileMethod::PlusOne).is_err());
    assert_eq!(
        percentile(&sample(&[]), 0.5, PercentileMethod::PlusOne),
        Ok(None)
    );
    near(
        percentile(&s, 0.0, PercentileMethod::PlusOne)
            .unwrap()
            .unwrap(),
        95.0610,
    );
}

// scipy.stats.ttest_ind(equal_var=False).confidence_interval and scipy.stats.f.
#[test]
fn comparisons_agree_with_scipy() {
    let (early, late) = (sample(&EARLY), sample(&LATE));
    let d = mean_difference(&early, &late, Confidence::NINETY_FIVE).unwrap();
    near(d.difference, 0.947_222_222_222_226_4);
    close(d.degrees, 12.071_876_144_633_286, 1e-9);
    near(d.interval.low, 0.281_995_703_987_232_06);
    near(d.interval.high, 1.612_448_740_457_220_8);
    assert!(d.is_real());
    // The same where only the sums are at hand; masses are rounded to the microgram there.
    let spread = |grams: &[f64]| {
        let goal = Goal::new(g(30.0), Tolerance::symmetric(g(1.0))).unwrap();
        let mut spread = evenhand_kitchen::spread::Spread::new();
        for mass in grams {
            spread.add(g(*mass), goal, None);
        }
        spread
    };
    let d = spread_difference(&spread(&EARLY), &spread(&LATE), Confidence::NINETY_FIVE).unwrap();
    near(d.interval.low, 0.281_995_703_987_232_06);
    near(d.interval.high, 1.612_448_740_457_220_8);
    assert!(
        spread_difference(
            &spread(&EARLY[..1]),
            &spread(&LATE),
            Confidence::NINETY_FIVE
        )
        .is_none()
    );
    let r = spread_ratio(&early, &late, Confidence::NINETY_FIVE).unwrap();
    close(r.ratio, 1.991_564_703_023_725, 1e-9);
    close(r.interval.low, 0.899_757_762_613_286_2, 1e-6);
    close(r.interval.high, 4.238_133_049_997_004, 1e-6);
    assert!(!r.is_real());
}

// scipy.stats.linregress.
#[test]
fn drift_agrees_with_scipy() {
    let times: Vec<Timestamp> = (0..LATE.len())
        .map(|i| Timestamp::from_second(1_800_000_000 + 900 * i as i64).unwrap())
        .collect();
    let t = trend(&times, &sample(&LATE), Confidence::NINETY_FIVE).unwrap();
    near(t.per_hour, -0.06);
    near(t.interval.low, -1.114_673_974_721_528_8);
    near(t.interval.high, 0.994_673_974_721_530_5);
    close(t.chance, 0.896_775_572_811_667_3, 1e-9);
    assert!(!t.is_real());
    assert!(trend(&times[1..], &sample(&LATE), Confidence::NINETY_FIVE).is_none());
}

// e-Handbook 6.3.2.2, flow rates of ten batches: centre 50.81, mean moving range 1.8778,
// limits 55.8041 and 45.8159 (from memory). The handbook works with the range rounded to four
// decimals, hence the tolerance.
#[test]
fn the_individuals_chart_of_the_handbook() {
    let s = sample(&[49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1]);
    let chart = IndividualsChart::of(&s).unwrap();
    near(chart.centre, 50.81);
    close(chart.mean_range.grams(), 1.8778, 5e-5);
    close(chart.upper.grams(), 55.8041, 5e-4);
    close(chart.lower.grams(), 45.8159, 5e-4);
    // The handbook: "The process is in control, since none of the plotted points fall outside"
    // (from memory).
    assert!(
        !chart
            .signals
            .iter()
            .any(|s| s.rule == RunRule::BeyondThreeSigma)
    );
}

#[test]
fn run_rules_see_what_they_are_made_for() {
    let broken = |grams: &[f64], rule| {
        IndividualsChart::of(&sample(grams))
            .unwrap()
            .signals
            .iter()
            .filter(|s| s.rule == rule)
            .map(|s| s.place)
            .collect::<Vec<_>>()
    };
    let level = [30.0, 30.2, 29.8, 30.1, 29.9, 30.2, 29.8, 30.0, 30.1, 29.9];
    let mut spike = level.to_vec();
    spike.push(33.0);
    spike.extend(level);
    assert_eq!(broken(&spike, RunRule::BeyondThreeSigma), [10]);
    let mut step: Vec<f64> = level.to_vec();
    step.extend(level.iter().map(|x| x + 0.5));
    assert!(broken(&step, RunRule::EightOnOneSide).contains(&17));
    let rising = [30.0, 30.1, 30.2, 30.3, 30.4, 30.5, 30.0];
    assert_eq!(broken(&rising, RunRule::SixRising), [5]);
    assert!(broken(&level, RunRule::BeyondThreeSigma).is_empty());
}

// e-Handbook 6.1.6: limits 8 and 20, mean 16, standard deviation 2 give Cp 1.0 and Cpk 0.6667
// (from memory). Two masses placed at the mean ± sqrt(2) have that mean and deviation.
#[test]
fn capability_of_the_handbook() {
    let goal = Goal::new(g(14.0), Tolerance::symmetric(g(6.0))).unwrap();
    let half = 2.0_f64.sqrt();
    let c = capability(
        &sample(&[16.0 - half, 16.0 + half]),
        goal,
        Confidence::NINETY_FIVE,
    )
    .unwrap();
    close(c.cp, 1.0, 1e-6);
    close(c.cpk, 0.6667, 5e-5);
    // Cpm = 12 / (6 sqrt(4 + 4)), the handbook's formula.
    close(c.cpm, 12.0 / (6.0 * 8.0_f64.sqrt()), 1e-6);
    assert!(c.cp_interval.holds(&c.cp));
}

// scipy.optimize.minimize_scalar over the expected cost.
#[test]
fn the_aim_is_the_cheapest_one() {
    let goal = Goal::new(g(30.0), Tolerance::symmetric(g(1.0))).unwrap();
    let cost = ShortCost {
        food_per_gram: 1.2,
        short_portion: 15.0,
    };
    let aim = aim_by_cost(goal, g(0.8), cost).unwrap();
    close(aim.aim.grams(), 30.530_462_392_455_416, 1e-5);
    close(aim.short_share, 0.027_869_034_457_296_59, 1e-6);
    close(aim.heavy_share, 0.278_628_043_622_623_3, 1e-5);
    let saved = saved_by_tightening(goal, g(0.8), g(0.5), cost, 1000).unwrap();
    close(saved, 727.944_081_651_955_3, 1e-2);
}

// The upper 5 % point of the standard normal is 1.644854 (any table).
#[test]
fn the_aim_for_one_short_in_twenty() {
    let goal = Goal::new(g(30.0), Tolerance::symmetric(g(1.0))).unwrap();
    let aim = aim_by_share(goal, g(0.8), 0.05).unwrap();
    close(aim.aim.grams(), 29.0 + 1.644_854 * 0.8, 2e-6);
    close(aim.short_share, 0.05, 1e-6);
}

#[test]
fn senseless_questions_are_refused() {
    let goal = Goal::new(g(30.0), Tolerance::symmetric(g(1.0))).unwrap();
    let cost = |food, short| ShortCost {
        food_per_gram: food,
        short_portion: short,
    };
    assert_eq!(
        aim_by_cost(goal, Mass::ZERO, cost(1.0, 1.0)),
        Err(AimError::NoSpread)
    );
    assert_eq!(
        aim_by_cost(goal, g(0.8), cost(-1.0, 1.0)),
        Err(AimError::BadPrice("food per gram"))
    );
    assert_eq!(
        aim_by_cost(goal, g(0.8), cost(1.0, f64::NAN)),
        Err(AimError::BadPrice("a short portion"))
    );
    assert_eq!(
        aim_by_cost(goal, g(0.8), cost(10.0, 1.0)),
        Err(AimError::ShortTooCheap)
    );
    assert_eq!(
        aim_by_share(goal, g(0.8), 0.5),
        Err(AimError::BadShare(0.5))
    );
    assert!(Confidence::new(1.0).is_err());
}

#[test]
fn too_little_is_said_to_be_too_little() {
    for grams in [&[][..], &[30.0][..]] {
        let s = sample(grams);
        assert_eq!(s.enough(), Enough::None);
        assert_eq!(s.standard_deviation(), None);
        assert!(mean_interval(&s, Confidence::NINETY_FIVE).is_none());
        assert!(standard_deviation_interval(&s, Confidence::NINETY_FIVE).is_none());
        assert!(IndividualsChart::of(&s).is_none());
        assert!(separate_scale(&s, g(0.02)).is_none());
    }
    assert_eq!(sample(&EARLY).enough(), Enough::Small);
    assert!(!Enough::Small.words().is_empty());
}

// JCGM 100, 5.1.2: independent variances add, so 0.5² = 0.3² + 0.4².
#[test]
fn the_scale_is_taken_out_of_the_spread() {
    let s = sample(&[30.0 - 0.5_f64.sqrt() / 2.0, 30.0 + 0.5_f64.sqrt() / 2.0]);
    near(s.standard_deviation().unwrap(), 0.5);
    near(separate_scale(&s, g(0.3)).unwrap().hand.unwrap(), 0.4);
    assert_eq!(separate_scale(&s, g(0.6)).unwrap().hand, None);
    assert_eq!(separate_scale(&s, g(-0.1)), None);
}
