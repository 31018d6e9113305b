//! Prints `AIM-COVERAGE.md`: how often the aim by a share of short portions keeps to
//! that share, and how many short portions the aim by cost says there will be.
//!
//! ```text
//! cargo run --release -p evenhand-kitchen --example aim_coverage > companion/kitchen/AIM-COVERAGE.md
//! ```
//!
//! With `tuning` after `--`, on the seed that the constants were chosen with.
#![allow(clippy::unwrap_used, missing_docs)]

mod hands;

use evenhand_kitchen::statistics::{
    Aim, AimBy, AimError, FEWEST_TO_AIM, HeldBy, Sample, ShortCost, aim,
};
use evenhand_protocol::{Goal, Mass, Tolerance};
use hands::{Hand, REPORTING, TUNING, random};

const TUNING_SEED: u64 = 1;
const REPORTING_SEED: u64 = 20_261_129;
const PORTIONS: [usize; 8] = [10, 15, 20, 30, 50, 100, 119, 200];
const NIGHTS: u64 = 800;
/// One in forty.
const SHARE: f64 = 0.025;

/// 100 g, no less than 99, as heavy as you like; the hand's spread is 1 g.
fn goal() -> Goal {
    let tolerance = Tolerance {
        below: Mass::from_grams(1),
        above: Mass::from_grams(500),
    };
    Goal::new(Mass::from_grams(100), tolerance).unwrap()
}

fn night(hand: Hand, portions: usize, seed: u64, run: u64) -> Sample {
    let mut random = random(seed, run);
    (0..portions)
        .map(|_| Mass::from_fractional_grams(100.0 + hand.draw(&mut random)).unwrap())
        .collect()
}

/// The true share of short portions where the mean is brought to the aim. To go on as
/// it is leaves the hand where it truly is.
fn short(hand: Hand, found: &Aim) -> f64 {
    let mean = if found.held_by == HeldBy::AsItIs {
        100.0 + hand.mean()
    } else {
        found.aim.grams()
    };
    hand.below(hand.mean() + 99.0 - mean)
}

fn header(first: &str) {
    let columns = PORTIONS.map(|n| format!("{n} portions"));
    println!("\n| {first} | {} |", columns.join(" | "));
    println!("|---|{}", "---:|".repeat(columns.len()));
}

fn by_share(hands: &[Hand], seed: u64) {
    header("per cent of nights, and the aim above the lightest in spreads");
    for hand in hands {
        let cells = PORTIONS.map(|portions| {
            let (mut kept, mut above) = (0, 0.0);
            for run in 0..NIGHTS {
                let sample = night(*hand, portions, seed, run);
                let found = aim(goal(), &sample, AimBy::Share(SHARE), Mass::ZERO).unwrap();
                kept += u64::from(short(*hand, &found) <= SHARE);
                above += found.aim.grams() - 99.0;
            }
            format!(
                "{:.1} ({:.1})",
                100.0 * kept as f64 / NIGHTS as f64,
                above / NIGHTS as f64
            )
        });
        println!("| {} | {} |", hand.name(), cells.join(" | "));
    }
}

fn by_cost(hands: &[Hand], seed: u64) {
    header("said, and true, per cent short");
    let cost = AimBy::Cost(ShortCost {
        food_per_gram: 0.02,
        short_portion: 0.5,
    });
    for hand in hands {
        let cells = PORTIONS.map(|portions| {
            let (mut said, mut truly) = (0.0, 0.0);
            for run in 0..NIGHTS {
                let sample = night(*hand, portions, seed, run);
                let found = aim(goal(), &sample, cost, Mass::ZERO).unwrap();
                said += found.short_share;
                truly += short(*hand, &found);
            }
            let mean = |sum: f64| 100.0 * sum.max(0.0) / NIGHTS as f64;
            format!("{:.1}, {:.1}", mean(said), mean(truly))
        });
        println!("| {} | {} |", hand.name(), cells.join(" | "));
    }
}

fn main() {
    if std::env::args().any(|argument| argument == "tuning") {
        by_share(&TUNING, TUNING_SEED);
        return;
    }
    let few = night(Hand::Normal, FEWEST_TO_AIM - 1, 1, 0);
    assert_eq!(
        aim(goal(), &few, AimBy::Share(SHARE), Mass::ZERO).unwrap_err(),
        AimError::TooFew(FEWEST_TO_AIM - 1)
    );
    let all: Vec<Hand> = TUNING.into_iter().chain(REPORTING).collect();
    println!("# What an aim keeps\n");
    println!(
        "Printed by `cargo run --release -p evenhand-kitchen --example aim_coverage`; not written by hand.\n"
    );
    println!(
        "The aim by share is to keep short portions at one in forty or fewer in 95 of 100 nights. A hand that is told to go on as it is does so. The first figure is in how many nights it truly did, the second how far above the lightest allowed it lies. {NIGHTS} nights a figure: one of 95.0 is known to ± 1.5. Under {FEWEST_TO_AIM} portions, five among them, no aim is given. The constants were chosen on the first five hands with seed {TUNING_SEED}; all is of another seed, and the others are of other hands."
    );
    println!("\n## By share");
    by_share(&all, REPORTING_SEED);
    println!(
        "\nWhat cannot be: whatever the shape of the portions, no bound keeps one in forty with 95 of 100 below 119 portions, as so many often have none of the lightest fortieth among them (0.975^118 is more than 0.05). Below that the aim leans on the shape: it is checked for skewness and tails, of which a few portions show little, so that hands with heavy tails or skewed to the light side are kept in 82 to 96 of 100 nights rather than 95 (57 to 88 without the check). From 119 on, what does not look normal is held to a bound of any shape as well, and nearly all are kept. A normal hand pays for the check with half a spread at ten portions, and a fifth at a hundred."
    );
    println!("\n## By cost\n");
    println!(
        "Food at 0.02 a gram, a short portion at 0.50. What the aim says will be short, and what truly is, on average. Where portions are skewed to the light side more are short than is said, up to twice as many of ten portions; where they are skewed to the heavy side, fewer."
    );
    by_cost(&all, REPORTING_SEED);
}
