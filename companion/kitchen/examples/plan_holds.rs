//! How often a plan holds where work takes longer or shorter than the menu says:
//! `cargo run --release -p evenhand-kitchen --example plan_holds`.
//!
//! 200 made-up days that can be made, each lived through 50 times. What a step of work takes is
//! drawn afresh: the menu's time multiplied by a skewed (log-normal) factor. On days of the second
//! kind the oven only falls, and when it enters and leaves a band is drawn afresh, too. The tables
//! are kept in `PLAN_HOLDS.md`.

use evenhand_kitchen::prep::{
    BandStretch, Board, Expected, Hours, Need, OvenTimes, Plan, Progress, Resource, Step, StepRef,
    Takes,
};
use jiff::civil::time;
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp};
use rand_chacha::ChaCha8Rng;
use rand_core::{Rng, SeedableRng};
use rand_distr::{Distribution, LogNormal, StandardNormal};
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
/// Pairs of hands, and places of the oven.
const PLACES: [usize; 2] = [3, 1];
/// Bands down the fall of an oven: minutes at which it most likely enters and leaves each.
const BANDS: [(f64, f64); 3] = [(40.0, 190.0), (150.0, 330.0), (290.0, 520.0)];
/// Half of the forecast's interval, which holds eight times in ten, as a share of the time until
/// then.
const HALF_INTERVAL: f64 = 0.12;
/// So many standard deviations are half of an interval that holds eight times in ten.
const EIGHT_IN_TEN: f64 = 1.2816;

fn below(dice: &mut ChaCha8Rng, most: i64) -> i64 {
    i64::from(dice.next_u32()) % most
}

/// A day, and by step which band it is baked in.
struct Drawn {
    board: Board,
    bands: BTreeMap<StepRef, usize>,
}

impl Drawn {
    fn without_bands(board: Board) -> Self {
        Self {
            board,
            bands: BTreeMap::new(),
        }
    }
}

/// What the plan is told of the oven.
#[derive(Clone, Copy)]
enum Forecast {
    WithItsInterval,
    LikelyAlone,
}

impl Drawn {
    fn foretell(&mut self, forecast: Forecast, now: Timestamp) -> Result<(), Box<dyn Error>> {
        let moment = |minutes: f64| -> Result<Timestamp, jiff::Error> {
            now.checked_add(SignedDuration::from_secs((minutes * 60.0) as i64))
        };
        let expected = |likely: f64| -> Result<Expected, jiff::Error> {
            let half = match forecast {
                Forecast::WithItsInterval => likely * HALF_INTERVAL,
                Forecast::LikelyAlone => 0.0,
            };
            Ok(Expected {
                early: moment(likely - half)?,
                likely: moment(likely)?,
                late: Some(moment(likely + half)?),
            })
        };
        for (step, band) in &self.bands {
            let (enters, leaves) = BANDS[*band];
            let stretch = BandStretch {
                enters: expected(enters)?,
                leaves: Some(expected(leaves)?),
            };
            let times = OvenTimes {
                stretches: vec![stretch],
                courses: Vec::new(),
            };
            self.board.set_oven_times(*step, times)?;
        }
        Ok(())
    }
}

/// A day of five or six dishes with hands that come at half past eight and an oven that only
/// falls: some steps need two pairs of hands, some hands and oven at once, most dishes are baked in
/// one of its bands.
fn day_of_an_oven(dice: &mut ChaCha8Rng, service: Timestamp) -> Result<Drawn, Box<dyn Error>> {
    let hours = Some(Hours {
        from: time(8, 30, 0, 0),
        to: time(17, 0, 0, 0),
    });
    let resources = vec![
        Resource::new("hands", PLACES[0], hours)?,
        Resource::new("oven", PLACES[1], None)?,
    ];
    let mut drawn = Drawn::without_bands(Board::new(service, TimeZone::UTC, resources)?);
    for dish in 0..5 + below(dice, 2) {
        let mut before: Option<StepRef> = None;
        let baked = below(dice, 4) > 0;
        let band = below(dice, 3) as usize;
        for nth in 0..3 {
            let minutes = SignedDuration::from_mins(10 + 5 * below(dice, 6));
            let hands = |places| Need {
                resource: "hands".to_owned(),
                places,
            };
            let in_band = baked && nth == 1;
            let needs = match below(dice, 4) {
                0 if in_band => vec![hands(1), Need::one("oven")],
                _ if in_band => vec![Need::one("oven")],
                0 => vec![hands(2)],
                _ => vec![hands(1)],
            };
            let step = drawn.board.add(Step {
                preparation: format!("dish {dish}"),
                name: format!("step {nth}"),
                takes: Takes::work(minutes, minutes)?,
                needs,
                in_service: true,
                not_before: None,
                progress: Progress::Waiting,
            })?;
            if let Some(before) = before {
                drawn.board.wait(step, before)?;
            }
            if in_band {
                drawn.bands.insert(step, band);
            }
            before = Some(step);
        }
    }
    Ok(drawn)
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
    /// Resources by their place among [`PLACES`], with how many of their places.
    needs: Vec<(usize, usize)>,
    before: Option<usize>,
    band: Option<usize>,
}

/// The plan's steps in its order, each with its step before.
fn steps(drawn: &Drawn, plan: &Plan, now: Timestamp) -> Vec<Lived> {
    let names: BTreeMap<&str, usize> = [("hands", 0), ("oven", 1)].into();
    let mut order: Vec<_> = plan
        .steps
        .iter()
        .filter_map(|planned| Some((planned.start_by?, planned.step)))
        .collect();
    order.sort();
    let mut last: BTreeMap<&str, usize> = BTreeMap::new();
    let mut all = Vec::new();
    for (nth, (start, reference)) in order.iter().enumerate() {
        let Ok(step) = drawn.board.step(*reference) else {
            continue;
        };
        let place = |need: &Need| {
            let resource = names.get(need.resource.as_str())?;
            Some((*resource, need.places as usize))
        };
        all.push(Lived {
            start_by: start.duration_since(now).as_secs_f64() / 60.0,
            needed: step.takes.needed().as_secs_f64() / 60.0,
            rests: step.takes.is_rest(),
            needs: step.needs.iter().filter_map(place).collect(),
            // Each dish's steps follow one another.
            before: last.insert(&step.preparation, nth),
            band: drawn.bands.get(reference).copied(),
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

/// What one life of a day is like: how long work takes, and how much earlier or later than likely
/// the oven falls, in standard deviations.
struct Life<'a> {
    factor: &'a mut dyn FnMut() -> f64,
    falls: f64,
}

impl Life<'_> {
    fn when(&self, likely: f64) -> f64 {
        likely * (1.0 + self.falls * HALF_INTERVAL / EIGHT_IN_TEN)
    }
}

/// Whether all is ready in time, and baked while the oven is in its band, on a day lived through in
/// the plan's order.
fn in_time(steps: &[Lived], begun: Begun, life: Life<'_>) -> bool {
    let mut ends: Vec<f64> = Vec::with_capacity(steps.len());
    // When each place of each resource is free.
    let mut free = PLACES.map(|places| vec![0.0_f64; places]);
    for step in steps {
        let wish = match begun {
            Begun::AsShown => step.start_by,
            Begun::AsSoonAsTheyCan => 0.0,
        };
        let mut from = step.before.map_or(0.0, |before| ends[before]).max(wish);
        let lasts = if step.rests {
            step.needed
        } else {
            step.needed * (life.factor)()
        };
        if let Some(band) = step.band {
            // Whoever bakes looks at the oven and waits until it is there.
            from = from.max(life.when(BANDS[band].0));
        }
        for (resource, places) in &step.needs {
            let known = &mut free[*resource];
            known.sort_by(f64::total_cmp);
            from = from.max(known[*places - 1]);
        }
        let end = from + lasts;
        for (resource, places) in &step.needs {
            free[*resource][..*places].fill(end);
        }
        if step.band.is_some_and(|band| end > life.when(BANDS[band].1)) {
            return false;
        }
        ends.push(end);
    }
    ends.iter().all(|end| *end <= MINUTES as f64)
}

/// Days that can be made, the steps of each by each spare time.
fn days(
    mut draw: impl FnMut() -> Result<Drawn, Box<dyn Error>>,
    forecast: Forecast,
    now: Timestamp,
) -> Result<Vec<Vec<Vec<Lived>>>, Box<dyn Error>> {
    let mut days: Vec<Vec<Vec<Lived>>> = Vec::new();
    let (mut made, mut first) = (0_usize, 0.0);
    while days.len() < DAYS {
        made += 1;
        let mut drawn = draw()?;
        drawn.foretell(Forecast::WithItsInterval, now)?;
        if !drawn.board.plan(now).is_possible() {
            continue;
        }
        drawn.foretell(forecast, now)?;
        let by_spare = SPARES.map(|minutes| {
            drawn.board.set_spare(SignedDuration::from_mins(minutes));
            steps(&drawn, &drawn.board.plan(now), now)
        });
        first += by_spare[0].first().map_or(0.0, |step| step.start_by);
        days.push(by_spare.into());
    }
    println!(
        "{DAYS} days that can be made, of {made}; without spare time the first step is begun {:.0} min after the day begins",
        first / DAYS as f64
    );
    Ok(days)
}

fn table(days: &[Vec<Vec<Lived>>]) -> Result<(), Box<dyn Error>> {
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
                let mut oven = ChaCha8Rng::seed_from_u64(8);
                let mut held = 0_usize;
                for by_spare in days {
                    for _ in 0..LIVES {
                        let falls: f64 = StandardNormal.sample(&mut oven);
                        let life = Life {
                            factor: &mut || factors.sample(&mut dice),
                            falls,
                        };
                        held += usize::from(in_time(&by_spare[column], begun, life));
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

fn main() -> Result<(), Box<dyn Error>> {
    // Eight in the morning: hands have hours.
    let now: Timestamp = "2026-05-08T08:00Z".parse()?;
    let service = now.checked_add(SignedDuration::from_mins(MINUTES))?;
    println!("hands and one oven, whatever its temperature");
    let mut dice = ChaCha8Rng::seed_from_u64(20_260_508);
    let plain = || day(&mut dice, service).map(Drawn::without_bands);
    table(&days(plain, Forecast::WithItsInterval, now)?)?;
    for (forecast, words) in [
        (
            Forecast::WithItsInterval,
            "planned by the forecast's interval",
        ),
        (Forecast::LikelyAlone, "planned by the likely times alone"),
    ] {
        println!("an oven that only falls, hours, two things at once: {words}");
        let mut dice = ChaCha8Rng::seed_from_u64(20_261_130);
        let of_an_oven = || day_of_an_oven(&mut dice, service);
        table(&days(of_an_oven, forecast, now)?)?;
    }
    Ok(())
}
