//! Prints how forecasts did in made-up kitchens, family by family:
//! `cargo run -p evenhand-kitchen --release --example forecast_coverage`, with
//! `tuning` for the worlds that the figures were chosen on.

#[path = "../tests/forecast_worlds/mod.rs"]
mod forecast_worlds;

use forecast_worlds::{Draw, judging, pans, score, tuning};

fn main() {
    let tuned = std::env::args().any(|word| word == "tuning");
    let (families, seeds) = if tuned {
        (&tuning::FAMILIES[..], tuning::SEEDS)
    } else {
        (&judging::FAMILIES[..], judging::SEEDS)
    };
    let only = std::env::args().skip(1).find(|word| word != "tuning");
    println!(
        "{:25} {:>5} {:>9} {:>6} {:>12} {:>6} {:>7} {:>6} {:>6}",
        "family", "asks", "answered", "held", "after events", "never", "before", "width", "spread"
    );
    for (stream, family) in families.iter().enumerate() {
        if only
            .as_ref()
            .is_some_and(|only| !family.name.contains(only.as_str()))
        {
            continue;
        }
        let score = score(family, stream as u64, seeds.clone());
        let share = |part: usize, of: usize| 100.0 * part as f64 / of.max(1) as f64;
        println!(
            "{:25} {:5} {:7.0} % {:4.0} % {:5.0}% {:4.0} % {:6} {:7} {:6.3} {:6.3}",
            family.name,
            score.asked,
            share(score.answered, score.asked),
            share(score.held, score.answered),
            share(score.answered_after, score.asked_after),
            share(score.held_after, score.answered_after),
            score.said_never,
            score.came_before,
            score.width(),
            score.spread(),
        );
    }
    if only.is_none_or(|only| only == "pans") {
        watched(seeds);
    }
}

fn watched(seeds: std::ops::Range<u64>) {
    let (mut keep, mut falsely, mut break_it, mut in_time) = (0, 0, 0, 0);
    for seed in seeds {
        let mut draw = Draw::new(seed, 99);
        let pan = pans::Pan::draw(&mut draw);
        let verdict = pan.watch(&mut draw, 10.0);
        if verdict.keeps {
            keep += 1;
            falsely += usize::from(verdict.called.is_some());
        } else {
            break_it += 1;
            in_time += usize::from(verdict.called.is_some_and(|left| left >= 15.0));
        }
    }
    println!(
        "pans in a cold store that keep both limits: {keep}, called to act on {falsely}; that do \
         not: {break_it}, called to act on at least 15 min before the limit {in_time}"
    );
}
