//! How often a plan holds where work takes longer or shorter than the menu says:
//! `cargo run --release -p evenhand-kitchen --example plan_holds`.
//!
//! 200 made-up days that can be made, each lived through 50 times. What a step of work takes is
//! drawn afresh: the menu's time multiplied by a skewed (log-normal) factor. The table
//! is kept in `PLAN_HOLDS.md`.

use evenhand_kitchen::prep::{Board, Need, Plan, Progress, Resource, Step, StepRef, Takes};
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp};
use rand_chacha::ChaCha8Rng;
use rand_core::{Rng, SeedableRng};
use rand_distr::{Distribution, LogNormal};
use std::collections::BTreeMap;
use std::error::Error;

const DAYS: usize = 200;
const LIVES: usize = 50;
/// Minutes from when the day begins to service.
const MINUTES: i64 = 9 * 60;
/// Half of the steps take less than this share of the menu's time.
const MEDIANS: [f64; 2] = [0.85, 1.0];
/// The spread of the factor's logarithm.
const SPREADS: [f64; 3] = [0.1, 0.2, 0.35];
/// Minutes that the menu's `spare` says.
const SPARES: [i64; 5] = [0, 15, 30, 60, 90];

fn below(dice: &mut ChaCha8Rng, most: i64) -> i64 {
    i64::from(dice.next_u32()) % most
}

/// A day of five to eight dishes, three pairs of hands and an oven.
fn day(dice: &mut ChaCha8Rng, service: Timestamp) -> Result<Board, Box<dyn Error>> {
    let resource = |name: &str, places| Resource::new(name, places, None);
    let resources = vec![resource("hands", 3)?, resource("oven", 1)?];
    let mut board = Board::new(service, TimeZone::UTC, resources)?;
    for dish in 0..5 + below(dice, 4) {
        let mut before: Option<StepRef> = None;
        for nth in 0..2 + below(dice, 3) {
            let minutes = SignedDuration::from_mins(10 + 5 * below(dice, 13));
            let (takes, needs) = match below(dice, 5) {
                0 if nth > 0 => (Takes::rest(minutes, minutes * 8)?, vec![]),
                1 => (Takes::work(minutes, minutes)?, vec![Need::one("oven")]),
                _ => (Takes::work(minutes, minutes)?, vec![Need::one("hands")]),
            };
            let step = board.add(Step {
                preparation: format!("dish {dish}"),
                name: format!("step {nth}"),
                takes,
                needs,
                in_service: true,
                not_before: None,
                progress: Progress::Waiting,
            })?;
            if let Some(before) = before {
                board.wait(step, before)?;
            }
            before = Some(step);
        }
    }
    Ok(board)
}

/// A step as it is lived through: minutes.
struct Lived {
    /// When the plan says to begin it.
    start_by: f64,
    needed: f64,
    rests: bool,
    needs: Option<(usize, usize)>,
    before: Option<usize>,
}

/// The plan's steps in its order, each with its step before.
fn steps(board: &Board, plan: &Plan, now: Timestamp) -> Vec<Lived> {
    let places: BTreeMap<&str, (usize, usize)> = [("hands", (0, 3)), ("oven", (1, 1))].into();
    let mut order: Vec<_> = plan
        .steps
        .iter()
        .filter_map(|planned| Some((planned.start_by?, planned.step)))
        .collect();
    order.sort();
    let mut last: BTreeMap<&str, usize> = BTreeMap::new();
    let mut all = Vec::new();
    for (nth, (start, reference)) in order.iter().enumerate() {
        let Ok(step) = board.step(*reference) else {
            continue;
        };
        all.push(Lived {
            start_by: start.duration_since(now).as_secs_f64() / 60.0,
            needed: step.takes.needed().as_secs_f64() / 60.0,
            rests: step.takes.is_rest(),
            needs: step
                .needs
                .first()
                .and_then(|need| places.get(need.resource.as_str()).copied()),
            // Each dish's steps follow one another.
            before: last.insert(&step.preparation, nth),
        });
    }
    all
}

/// When steps are begun, where hands, oven and the step before allow it.
#[derive(Clone, Copy)]
enum Begun {
    AsShown,
    AsSoonAsTheyCan,
}

/// Whether all is ready in time on a day lived through in the plan's order.
fn in_time(steps: &[Lived], begun: Begun, mut factor: impl FnMut() -> f64) -> bool {
    let mut ends: Vec<f64> = Vec::with_capacity(steps.len());
    // When each place of each resource is free.
    let mut free = [vec![0.0_f64; 3], vec![0.0_f64; 1]];
    for step in steps {
        let wish = match begun {
            Begun::AsShown => step.start_by,
            Begun::AsSoonAsTheyCan => 0.0,
        };
        let mut from = step.before.map_or(0.0, |before| ends[before]).max(wish);
        let lasts = if step.rests {
            step.needed
        } else {
            step.needed * factor()
        };
        if let Some((resource, _)) = step.needs {
            let places = &mut free[resource];
            places.sort_by(f64::total_cmp);
            from = from.max(places[0]);
            places[0] = from + lasts;
        }
        ends.push(from + lasts);
    }
    ends.iter().all(|end| *end <= MINUTES as f64)
}

fn main() -> Result<(), Box<dyn Error>> {
    let now = Timestamp::UNIX_EPOCH;
    let service = now.checked_add(SignedDuration::from_mins(MINUTES))?;
    let mut dice = ChaCha8Rng::seed_from_u64(20_260_508);
    // Of each day the steps by each spare time.
    let mut days: Vec<Vec<Vec<Lived>>> = Vec::new();
    let (mut made, mut first) = (0_usize, 0.0);
    while days.len() < DAYS {
        made += 1;
        let mut board = day(&mut dice, service)?;
        if !board.plan(now).is_possible() {
            continue;
        }
        let by_spare = SPARES.map(|minutes| {
            board.set_spare(SignedDuration::from_mins(minutes));
            steps(&board, &board.plan(now), now)
        });
        first += by_spare[0].first().map_or(0.0, |step| step.start_by);
        days.push(by_spare.into());
    }
    println!(
        "{DAYS} days that can be made, of {made}; without spare time the first step is begun {:.0} min after the day begins",
        first / DAYS as f64
    );
    println!(
        "| half take less than | spread | no spare | 15 min | 30 | 60 | 90 | 90, and begun as soon as they can be |"
    );
    println!("| --- | --- | --- | --- | --- | --- | --- | --- |");
    for median in MEDIANS {
        for spread in SPREADS {
            let factors = LogNormal::new(f64::ln(median), spread)?;
            let mut row = format!("| {:.0} % | {spread} |", median * 100.0);
            let shown = (0..SPARES.len()).map(|column| (column, Begun::AsShown));
            for (column, begun) in shown.chain([(SPARES.len() - 1, Begun::AsSoonAsTheyCan)]) {
                let mut dice = ChaCha8Rng::seed_from_u64(7);
                let mut held = 0_usize;
                for by_spare in &days {
                    for _ in 0..LIVES {
                        let draw = || factors.sample(&mut dice);
                        held += usize::from(in_time(&by_spare[column], begun, draw));
                    }
                }
                let share = held as f64 / (DAYS * LIVES) as f64;
                row += &format!(" {:.0} % |", share * 100.0);
            }
            println!("{row}");
        }
    }
    Ok(())
}
