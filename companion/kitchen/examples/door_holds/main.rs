//! How often what an opened door does is as it was learned from marks:
//! `cargo run --release -p evenhand-kitchen --example door_holds`. The table is kept in
//! `DOOR_HOLDS.md`.

#[path = "ovens.rs"]
mod ovens;

use evenhand_kitchen::heat::Surroundings;
use ovens::{Asked, Family, JUDGING, TUNING, ask};

fn row(family: &Family, openings: usize, room: (&str, Surroundings), ovens: u64) {
    let seed = 160_000 + 1_000 * openings as u64;
    let told: Vec<Asked> = (0..ovens)
        .map(|nth| ask(family, openings, room.1, seed + nth))
        .filter(|it| it.told)
        .collect();
    let count = told.len() as f64;
    let share = |of: &dyn Fn(&Asked) -> bool| {
        100.0 * told.iter().filter(|it| of(it)).count() as f64 / count
    };
    let mean = |of: &dyn Fn(&Asked) -> f64| told.iter().map(of).sum::<f64>() / count;
    println!(
        "| {} | {} | {openings} | {} of {ovens} | {:.0} % | {:.0} % | {:.0} % | {:.0} min | {:.0} min |",
        family.name,
        room.0,
        told.len(),
        share(&|it| it.enters),
        share(&|it| it.leaves),
        share(&|it| it.sure),
        mean(&|it| it.wide),
        mean(&|it| it.length),
    );
}

fn main() {
    println!(
        "| ovens | how warm the kitchen is | openings marked | told | entered within | left within | in its band all along | interval of entering | stretch |"
    );
    println!("| --- | --- | --- | --- | --- | --- | --- | --- | --- |");
    for family in TUNING.iter().chain(&JUDGING) {
        for openings in [3, 5] {
            row(family, openings, ("said", Surroundings::KITCHEN), 80);
        }
    }
    for family in TUNING.iter().chain(&JUDGING) {
        row(family, 3, ("not said", Surroundings::UNKNOWN), 40);
    }
}
