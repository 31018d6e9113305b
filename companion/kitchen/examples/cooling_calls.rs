//! Prints how often "act now" was called on pans that keep both cooling limits
//! and on pans that do not, as the table of `FORECASTS.md`: `cargo run -p
//! evenhand-kitchen --release --example cooling_calls`. A number says how many
//! pans of each kind and margin; `tuned` asks on the pans that the rule was
//! chosen on.

#[path = "../tests/forecast_worlds/mod.rs"]
mod forecast_worlds;

use forecast_worlds::Draw;
use forecast_worlds::pans::{
    CHOSEN_ON, CHOSEN_ON_SEEDS, JUDGED, JUDGED_SEEDS, LATER, LATER_SEEDS, MARGINS, Verdict, pan,
};

/// Before the limit, that something can still be done.
const ENOUGH: f64 = 15.0;

fn main() {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let tuned = words.iter().any(|w| w == "tuned");
    let each = words.iter().any(|w| w == "each");
    let many = words.iter().find_map(|w| w.parse::<u64>().ok());
    let (kinds, seeds) = if tuned {
        (&CHOSEN_ON[..], CHOSEN_ON_SEEDS)
    } else if words.iter().any(|w| w == "later") {
        (&LATER[..], LATER_SEEDS)
    } else {
        (&JUDGED[..], JUDGED_SEEDS)
    };
    let many = many.unwrap_or(10);
    let jobs: Vec<(usize, usize, bool, u64)> = (0..kinds.len())
        .flat_map(|k| (0..MARGINS.len()).map(move |m| (k, m)))
        .flat_map(|(k, m)| [true, false].map(|good| (k, m, good)))
        .flat_map(|(k, m, good)| (0..many).map(move |seed| (k, m, good, seed)))
        .collect();
    let run = |(k, m, good, seed): &(usize, usize, bool, u64)| {
        let mut draw = Draw::new(seeds + seed, (k * 10 + m * 2 + usize::from(*good)) as u64);
        let (low, high) = MARGINS[*m];
        let margin = draw.between(low, high);
        let pan = pan(kinds[*k], &mut draw, if *good { margin } else { -margin });
        let verdict = pan.watch(&mut draw, 10.0);
        if each && (verdict.keeps == verdict.called.is_some()) {
            eprintln!(
                "{} {} {} {verdict:?} told {:?}",
                kinds[*k].name,
                seed,
                if *good { margin } else { -margin },
                pan.told
            );
        }
        (*k, *m, *good, verdict)
    };
    let (first, second) = jobs.split_at(jobs.len() / 2);
    let all: Vec<(usize, usize, bool, Verdict)> = std::thread::scope(|scope| {
        let other = scope.spawn(|| first.iter().map(run).collect::<Vec<_>>());
        let mut all: Vec<_> = second.iter().map(run).collect();
        all.extend(other.join().unwrap_or_default());
        all
    });
    println!(
        "| pans | keep | called | too close | miss | called | too close | missed | call, min before | caution or call, min before |"
    );
    println!("| --- | --- | --- | --- | --- | --- | --- | --- | --- | --- |");
    for (k, kind) in kinds.iter().enumerate() {
        row(kind.name, all.iter().filter(|a| a.0 == k));
    }
    for (m, (low, high)) in MARGINS.iter().enumerate() {
        row(
            &format!("{low} to {high} min from the limit"),
            all.iter().filter(|a| a.1 == m),
        );
    }
    row("all", all.iter());
}

fn row<'a>(name: &str, of: impl Iterator<Item = &'a (usize, usize, bool, Verdict)>) {
    let (good, bad): (Vec<Verdict>, Vec<Verdict>) = {
        let (good, bad): (Vec<_>, Vec<_>) = of.map(|a| a.3).partition(|v| v.keeps);
        (good, bad)
    };
    let enough = |left: Option<f64>| left.is_some_and(|left| left >= ENOUGH);
    let called = |of: &[Verdict]| of.iter().filter(|v| v.called.is_some()).count();
    let close = |v: &&Verdict| v.called.is_none() && v.close.is_some();
    let in_time = bad.iter().filter(|v| enough(v.called)).count();
    let cautioned = bad
        .iter()
        .filter(|v| !enough(v.called) && enough(v.close))
        .count();
    let median = |of: fn(&Verdict) -> Option<f64>| {
        let mut notice: Vec<f64> = bad.iter().filter_map(of).collect();
        notice.sort_by(f64::total_cmp);
        notice.get(notice.len() / 2).copied().unwrap_or(f64::NAN)
    };
    let (call, first) = (median(|v| v.called), median(|v| v.close.or(v.called)));
    println!(
        "| {name} | {} | {} | {} | {} | {in_time} | {cautioned} | {} | {call:.0} | {first:.0} |",
        good.len(),
        called(&good),
        good.iter().filter(close).count(),
        bad.len(),
        bad.len() - in_time - cautioned,
    );
}
