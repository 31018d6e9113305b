//! Prints how forecasts did in made-up kitchens, family by family, as the table
//! of `FORECASTS.md`: `cargo run -p evenhand-kitchen --release --example
//! forecast_coverage`. `tuning`, `second`, `judging` and `fresh` ask in the worlds
//! that the figures were chosen on; a number says in how many; any other word, which family.

#[path = "../tests/forecast_worlds/mod.rs"]
mod forecast_worlds;

use forecast_worlds::{fresh, judging, later, reported, score, second, tuning};

fn main() {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let said = |word: &str| words.iter().any(|w| w == word);
    let (families, mut seeds) = if said("tuning") {
        (&tuning::FAMILIES, tuning::SEEDS)
    } else if said("second") {
        (&second::FAMILIES, second::SEEDS)
    } else if said("judging") {
        (&judging::FAMILIES, judging::SEEDS)
    } else if said("fresh") {
        (&fresh::FAMILIES, fresh::SEEDS)
    } else if said("reported") {
        (&reported::FAMILIES, reported::SEEDS)
    } else {
        (&later::FAMILIES, later::SEEDS)
    };
    if let Some(many) = words.iter().find_map(|word| word.parse::<u64>().ok()) {
        seeds.end = seeds.end.min(seeds.start + many);
    }
    let only = words.iter().find(|word| {
        !["tuning", "second", "judging", "fresh", "reported"].contains(&word.as_str())
            && word.parse::<u64>().is_err()
    });
    println!(
        "| family | asks | answered | held | answered, after the last event | held | said never | \
         late | early | median width after it | errors' spread after it |"
    );
    println!("| --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- |");
    for (stream, family) in families.iter().enumerate() {
        if only.is_some_and(|only| !family.name.contains(only.as_str())) {
            continue;
        }
        let score = score(family, stream as u64, seeds.clone());
        let share = |part: usize, of: usize| 100.0 * part as f64 / of.max(1) as f64;
        println!(
            "| {} | {} | {:.0} % | {:.0} % | {:.0} % | {:.0} % | {} | {} | {} | {:.2} | {:.2} |",
            family.name,
            score.asked,
            share(score.answered, score.asked),
            share(score.held, score.answered),
            share(score.answered_after, score.asked_after),
            share(score.held_after, score.answered_after),
            score.said_never,
            score.answered - score.held - score.came_before,
            score.came_before,
            score.width(),
            score.spread(),
        );
    }
}
