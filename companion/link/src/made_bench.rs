//! A simulated bench made for what is to be portioned, where no scenario is
//! named.

use evenhand_protocol::{Goal, Mass, Mode};
use evenhand_simulator::scenario::{Scenario, ScenarioError};
use toml::{Table, Value};

/// How many portions the cook makes where no count is asked for.
const PORTIONS: usize = 30;

/// The capacities of the simulated scale, in grams; the smallest that holds
/// what is to be portioned is taken.
const CAPACITIES: [f64; 5] = [2_000.0, 5_000.0, 10_000.0, 30_000.0, 100_000.0];

/// A scenario in which a cook of ordinary skill portions `dish` to `goal`: with
/// a spread that puts about one portion in eight out of tolerance.
///
/// # Errors
/// Where no simulated scale is large enough for the goal.
pub fn made_bench(
    dish: &str,
    mode: Mode,
    goal: Goal,
    count: Option<usize>,
) -> Result<Scenario, ScenarioError> {
    let grams = Mass::grams;
    let (below, above) = (grams(goal.tolerance().below), grams(goal.tolerance().above));
    let target = grams(goal.target());
    // A cook aims at the middle of what is allowed.
    let aim = target + (above - below) / 2.0;
    let band = (below + above).max(target * 0.02);
    // A dish is heavier than most of what goes into it, and a tin holds some
    // thirty portions.
    let vessel = (target * 0.8).clamp(120.0, 3_000.0);
    let filled = (aim * 32.0).min(CAPACITIES[CAPACITIES.len() - 1] / 2.0);
    let load = match mode {
        Mode::Adding => vessel * 1.2 + 2.0 * (aim + band),
        Mode::Taking => vessel * 1.2 + filled,
    };
    let largest = CAPACITIES[CAPACITIES.len() - 1];
    let capacity = CAPACITIES
        .into_iter()
        .find(|capacity| load * 1.1 < *capacity)
        .unwrap_or(largest);

    let mut file = Table::new();
    let mut put = |name: &str, fields: Vec<(&str, Value)>| {
        let table = fields
            .into_iter()
            .map(|(field, value)| (field.to_owned(), value))
            .collect();
        file.insert(name.to_owned(), Value::Table(table));
    };
    let range = |low: f64, high: f64| Value::Array(vec![low.into(), high.into()]);
    put(
        "goal",
        vec![
            ("target_grams", target.into()),
            ("below_grams", below.into()),
            ("above_grams", above.into()),
        ],
    );
    let count = i64::try_from(count.unwrap_or(PORTIONS).max(1)).unwrap_or(i64::MAX);
    put(
        "portions",
        vec![
            ("count", count.into()),
            ("mean_grams", aim.into()),
            ("spread_grams", (band / 3.1).into()),
        ],
    );
    match mode {
        Mode::Adding => put("dishes", vec![("grams", range(vessel, vessel * 1.2))]),
        Mode::Taking => put(
            "tin",
            vec![
                ("grams", range(vessel, vessel * 1.2)),
                ("filled_grams", range(filled * 0.97, filled)),
                ("refill_below_grams", (aim + band).into()),
            ],
        ),
    }
    put("cell", vec![("capacity_grams", capacity.into())]);
    put("surroundings", vec![("extractor_grams", range(0.1, 0.3))]);
    let words = [
        ("title", "A bench made for what is portioned"),
        (
            "mode",
            match mode {
                Mode::Adding => "adding",
                Mode::Taking => "taking",
            },
        ),
        ("dish", dish),
    ];
    for (field, word) in words {
        file.insert(field.to_owned(), word.into());
    }
    Scenario::from_toml(&file.to_string())
}

#[cfg(test)]
mod tests {
    use super::*;
    use evenhand_protocol::Tolerance;

    #[test]
    fn a_bench_can_be_made_for_any_ordinary_portion() {
        for mode in [Mode::Adding, Mode::Taking] {
            for (target, below, above) in [
                (5.0, 0.1, 0.1),
                (30.0, 0.0, 2.0),
                (30.0, 1.0, 1.0),
                (250.0, 5.0, 5.0),
                (1_200.0, 0.0, 0.0),
            ] {
                let grams = |grams| Mass::from_fractional_grams(grams).unwrap();
                let tolerance = Tolerance {
                    below: grams(below),
                    above: grams(above),
                };
                let goal = Goal::new(grams(target), tolerance).unwrap();
                let made = made_bench("shrimp \"A\"", mode, goal, Some(7)).unwrap();
                assert_eq!(
                    (made.mode(), made.goal(), made.portion_count()),
                    (mode, goal, 7)
                );
                assert_eq!(made.dish(), "shrimp \"A\"");
                assert!(made.capacity() > goal.heaviest());
            }
        }
    }
}
