//! Prints how calls to act on a cooling pan did, by the minutes the pan has to
//! spare, as the second table of `FORECASTS.md`: `cargo run -p evenhand-kitchen
//! --release --example stretched_pans`. `tuning` watches two older kinds of pans;
//! a number says how many seeds.

#[path = "../tests/forecast_worlds/mod.rs"]
mod forecast_worlds;

use forecast_worlds::fresh_pans::{KINDS, MARGINS, SEEDS, pan, stretched};
use forecast_worlds::{Draw, judging, pans};

/// One pan watched: kind, margin, minutes before the limit it was called at, and
/// first told to be too close to say.
type Watched = (&'static str, f64, Option<f64>, Option<f64>);

fn main() {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let tuning = words.iter().any(|word| word == "tuning");
    let many = words.iter().find_map(|word| word.parse().ok()).unwrap_or(6);
    let first = if tuning { 0 } else { SEEDS.start };
    let watch = |margin: f64| -> Vec<Watched> {
        let mut all = Vec::new();
        for seed in first..first + many {
            for (stream, kind) in KINDS.iter().enumerate() {
                let mut draw = Draw::new(seed, 300 + stream as u64);
                let (name, pan) = if tuning {
                    let (name, mut pan) = if stream % 2 == 0 {
                        ("first tuning", pans::Pan::draw(&mut draw))
                    } else {
                        ("second tuning", judging::pan(&mut draw))
                    };
                    let Some(truth) = stretched(pan.truth, margin) else {
                        continue;
                    };
                    pan.truth = truth;
                    (name, pan)
                } else {
                    match pan(*kind, margin, &mut draw) {
                        Some(pan) => (kind.0, pan),
                        None => continue,
                    }
                };
                let verdict = pan.watch(&mut draw, 10.0);
                all.push((name, margin, verdict.called, verdict.close));
            }
        }
        all
    };
    let (early, late) = MARGINS.split_at(MARGINS.len() / 2);
    let all: Vec<Watched> = std::thread::scope(|scope| {
        let other = scope.spawn(|| early.iter().flat_map(|m| watch(*m)).collect::<Vec<_>>());
        let mut own: Vec<Watched> = late.iter().flat_map(|m| watch(*m)).collect();
        own.extend(other.join().unwrap_or_default());
        own
    });
    println!(
        "| minutes to spare | pans | called | called 15 minutes before or earlier | median notice, minutes | too close and no call |"
    );
    println!("| --- | --- | --- | --- | --- | --- |");
    for margin in MARGINS {
        row(&format!("{margin}"), all.iter().filter(|w| w.1 == margin));
    }
    println!(
        "\n| kind | pans | called | called 15 minutes before or earlier | median notice, minutes | too close and no call |"
    );
    println!("| --- | --- | --- | --- | --- | --- |");
    let tuned = ["first tuning", "second tuning"];
    for kind in KINDS.iter().map(|kind| kind.0).chain(tuned) {
        let of = |w: &&Watched| w.0 == kind;
        row(
            &format!("{kind}, keeps both"),
            all.iter().filter(of).filter(|w| w.1 > 0.0),
        );
        row(
            &format!("{kind}, does not"),
            all.iter().filter(of).filter(|w| w.1 < 0.0),
        );
    }
}

fn row<'a>(name: &str, pans: impl Iterator<Item = &'a Watched>) {
    let pans: Vec<_> = pans.collect();
    let mut notice: Vec<f64> = pans.iter().filter_map(|w| w.2).collect();
    notice.sort_by(f64::total_cmp);
    let in_time = notice.iter().filter(|left| **left >= 15.0).count();
    if !pans.is_empty() {
        println!(
            "| {name} | {} | {} | {in_time} | {} | {} |",
            pans.len(),
            notice.len(),
            notice
                .get(notice.len() / 2)
                .map_or_else(|| String::from("none"), |left| format!("{left:.0}")),
            pans.iter()
                .filter(|w| w.2.is_none() && w.3.is_some())
                .count()
        );
    }
}
