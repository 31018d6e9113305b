//! How long a day of forty open steps takes to plan, with what would mend it:
//! `cargo run --release -p evenhand-kitchen --example plan_days`.
//!
//! Families of made-up days that differ in what is shared and in how time is laid out.
//! One line a family and hour: the slowest of its days, and what was left open.

use evenhand_kitchen::prep::{Board, Effort, Need, Progress, Resource, Step, StepRef, Takes};
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp};
use rand_chacha::ChaCha8Rng;
use rand_core::{Rng, SeedableRng};
use std::error::Error;
use std::time::Instant;

const OPEN: usize = 40;
const DAYS: u64 = 8;
const FAMILIES: [&str; 4] = [
    "chains of four, hands and one oven",
    "single steps, one bench",
    "two hands at once, rests",
    "many to one, deliveries",
];

fn below(dice: &mut ChaCha8Rng, most: i64) -> i64 {
    i64::from(dice.next_u32()) % most
}

/// A day whose work is about `load` hours of its busiest resource.
fn day(family: usize, dice: &mut ChaCha8Rng, service: Timestamp) -> Result<Board, Box<dyn Error>> {
    let resource = |name: &str, places| Resource::new(name, places, None);
    let resources = match family {
        1 => vec![resource("bench", 1)?],
        _ => vec![resource("hands", 3)?, resource("oven", 1)?],
    };
    let mut board = Board::new(service, TimeZone::UTC, resources)?;
    let mut made: Vec<StepRef> = Vec::new();
    for nth in 0..OPEN {
        let minutes = SignedDuration::from_mins(5 * (1 + below(dice, 9)));
        let need = |name: &str, places: u32| Need {
            resource: name.to_owned(),
            places,
        };
        let oven = below(dice, 4) == 0;
        let rests = family == 2 && nth % 4 == 2;
        let needs = match family {
            _ if rests => Vec::new(),
            1 => vec![need("bench", 1)],
            2 if oven => vec![need("hands", 2), need("oven", 1)],
            2 => vec![need("hands", 1 + u32::from(below(dice, 2) == 0))],
            _ if oven => vec![need("oven", 1)],
            _ => vec![need("hands", 1)],
        };
        let takes = if rests {
            Takes::rest(minutes, minutes * 4)?
        } else {
            Takes::work(minutes, minutes)?
        };
        let early = service.checked_sub(SignedDuration::from_hours(6))?;
        let delivered = family == 3 && below(dice, 3) == 0;
        let step = board.add(Step {
            preparation: format!("dish {}", nth / 4),
            name: format!("step {}", nth % 4),
            takes,
            needs,
            in_service: true,
            not_before: delivered
                .then(|| early.checked_add(SignedDuration::from_mins(15 * below(dice, 16))))
                .transpose()?,
            progress: Progress::Waiting,
        })?;
        match family {
            0 | 2 if nth % 4 > 0 => board.wait(step, made[nth - 1])?,
            3 if nth % 4 == 3 => {
                for before in &made[nth - 3..nth] {
                    board.wait(step, *before)?;
                }
            }
            _ => {}
        }
        made.push(step);
    }
    Ok(board)
}

fn main() -> Result<(), Box<dyn Error>> {
    let service: Timestamp = "2026-05-08T18:00Z".parse()?;
    println!(
        "| day | hours to service | slowest | late | gap | latest not known | mends not known | units |"
    );
    println!("| --- | --- | --- | --- | --- | --- | --- | --- |");
    for (family, words) in FAMILIES.iter().enumerate() {
        for ahead in [-5, 4, 6, 30] {
            let mut dice = ChaCha8Rng::seed_from_u64(7 + family as u64);
            let now = service.checked_sub(SignedDuration::from_hours(ahead))?;
            let (mut slowest, mut units) = (0.0_f64, 0);
            let (mut late, mut gap, mut open, mut mends) = (0, 0, 0, 0);
            for _ in 0..DAYS {
                let board = day(family, &mut dice, service)?;
                let effort = Effort::default();
                let begun = Instant::now();
                let plan = board.plan_within(now, None, &effort);
                let trouble = board.trouble_within(&plan, now, &effort);
                slowest = slowest.max(begun.elapsed().as_secs_f64());
                units = units.max(effort.used());
                late += u32::from(plan.late_by.is_some());
                gap += u32::from(plan.gap.is_positive());
                open += plan.steps.iter().filter(|s| !s.latest_is_proven).count();
                mends += trouble.map_or(0, |t| t.not_known.len());
            }
            println!(
                "| {words} | {ahead} | {slowest:.2} s | {late} | {gap} | {open} | {mends} | {units} |"
            );
        }
    }
    Ok(())
}
