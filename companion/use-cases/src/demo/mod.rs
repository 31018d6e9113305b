//! A made-up kitchen to look at: Saltmarsh, a made-up place of eight tables by an
//! estuary. Last night's service with ten before it is on record, and today is
//! as far as the hour of opening makes it.
//!
//! The night has three things in it worth finding. The cook on the shrimp tired
//! after nine: portions grew heavier and less even. The dough of the first hour
//! was weighed on a scale that read 3 % too much: the morning's test with a known
//! weight had failed, nobody read it, and the scale was put right at four.
//! And two parfaits were scooped after midnight, which belong to the night
//! before.
//!
//! The book has a loaf with its trials and doughs; a brine's soaks, the milk of beans and what
//! was handed over are on record, too.
//!
//! Seed, day and time zone fix every portion.

mod book;
mod today;

use evenhand_kitchen::cook::Cook;
use evenhand_kitchen::dish::DishName;
use evenhand_kitchen::portion::StrikeReason;
use evenhand_kitchen::ratio::in_service;
use evenhand_kitchen::tin::{TinId, TinKind};
use evenhand_kitchen::units::{CostPerMass, InputError, Money};
use evenhand_kitchen::yield_flow::Loss;
use evenhand_protocol::report::Doubts;
use evenhand_protocol::{
    CalibrationMade, CapturedPortion, DeviceId, Epoch, Goal, GoalError, Mass, Mode, PortionId,
    RunId, SelfTest, Temperature, Tolerance, UnixMillis, Uptime, VerificationInterval,
};
use evenhand_store::{InstrumentMoment, NewRun, NewTin, Store, StoreError};
use jiff::civil::Date;
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp, ToSpan};
use rand_chacha::ChaCha8Rng;
use rand_core::SeedableRng;
use rand_distr::{Distribution, Normal};

/// The menu of Saltmarsh, as [`Store::keep_menu`] takes one.
pub const SALTMARSH_MENU: &str = include_str!("saltmarsh.toml");

/// How many days before the night each service was, the night last. Saltmarsh is
/// closed now and then.
const DAYS_BEFORE: [i32; 11] = [14, 11, 10, 9, 8, 7, 4, 3, 2, 1, 0];

/// From the second service on the shrimp is portioned to 30 g, before to 28 g under
/// another name.
const SHRIMP_CHANGED: usize = 1;

/// From the fourth service on a dish is off the menu.
const RETIRED_FROM: usize = 3;

/// What goes out at Saltmarsh.
const PLATES: &str = include_str!("plates.toml");
const SHRIMP: &str = "Potted shrimp";
const SHRIMP_BEFORE: &str = "Shrimp pot";
const NECK: &str = "Hogget neck";
const PARFAIT: &str = "Buckthorn parfait";
const DOUGH: &str = "Potato dough";
const RETIRED: &str = "Gnudi";

/// How much too much the scale read until it was put right on the night.
const READ_TOO_MUCH: f64 = 0.03;

/// The bench scale of the kitchen, in its only start.
const SCALE: DeviceId = DeviceId(0x5a17);
/// As [`SCALE`].
const START: Epoch = Epoch(1);

/// The known weight that the mornings' tests are made with, in grams.
const KNOWN: f64 = 500.0;
/// The scale's verification step: an unverified one's is supposed.
const VERIFICATION: VerificationInterval = VerificationInterval::told(Mass::from_grams(1));

/// Why the night could not be made.
#[derive(Debug, thiserror::Error)]
pub enum DemoError {
    /// The store.
    #[error(transparent)]
    Store(#[from] StoreError),
    /// The store holds something else already.
    #[error(
        "the folder holds portions already, and a made-up night does not belong among them; \
         choose an empty one with --data DIR"
    )]
    NotEmpty,
    /// A figure of the night's own that makes no sense.
    #[error("the made-up night does not hold together: {0}")]
    Senseless(String),
}

impl From<InputError> for DemoError {
    fn from(error: InputError) -> Self {
        Self::Senseless(error.to_string())
    }
}

impl From<GoalError> for DemoError {
    fn from(error: GoalError) -> Self {
        Self::Senseless(error.to_string())
    }
}

/// What was made.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct MadeUp {
    /// The day of the last service.
    pub night: Date,
    /// How many portions it and the ten before it have.
    pub portions: usize,
}

/// The night that is looked at, at a moment: the service before that of the day.
///
/// # Errors
/// Where the store cannot be read, or where there is no day before.
pub fn night_before(store: &Store, zone: &TimeZone, now: Timestamp) -> Result<Date, DemoError> {
    store
        .service_calendar(zone.clone())?
        .day_of(now)
        .checked_sub(1.day())
        .map_err(|error| DemoError::Senseless(error.to_string()))
}

/// Puts last night, the ten services before it and today up to `now` on record in an
/// empty store, in local time of `zone`.
///
/// # Errors
/// [`DemoError::NotEmpty`], or where the store cannot be written.
pub fn make(
    store: &mut Store,
    seed: u64,
    zone: &TimeZone,
    now: Timestamp,
) -> Result<MadeUp, DemoError> {
    if !store.dishes()?.is_empty() {
        return Err(DemoError::NotEmpty);
    }
    let night = night_before(store, zone, now)?;
    let days: Vec<Date> = DAYS_BEFORE
        .iter()
        .map(|before| night.saturating_sub(before.days()))
        .collect();
    store.set_made_up_night(seed, now)?;
    let mut maker = Maker {
        first: days.first().copied().unwrap_or(night),
        night,
        store,
        random: ChaCha8Rng::seed_from_u64(seed),
        tests: {
            // Of their own, so that no portion hangs on how often the scale was tried.
            let mut random = ChaCha8Rng::seed_from_u64(seed);
            random.set_stream(1);
            random
        },
        zone: zone.clone(),
        number: 0,
        made: Vec::new(),
    };
    for (nth, day) in days.into_iter().enumerate() {
        maker.service(nth, day)?;
    }
    maker.strikes()?;
    let portions = maker.made.len();
    let random = ChaCha8Rng::seed_from_u64(seed);
    today::make(store, random, zone, night, now)?;
    store.set_plates(PLATES, now)?;
    store.reckon_stale_tallies(zone)?;
    Ok(MadeUp { night, portions })
}

/// A portion that was made.
struct Made {
    id: PortionId,
    at: Timestamp,
    dish: &'static str,
}

/// A stretch of work on one dish by one cook.
struct Stint {
    dish: &'static str,
    cook: &'static str,
    mode: Mode,
    target: f64,
    tolerance: f64,
    tin: Option<TinId>,
    /// Local hour and minute of the day that the stint begins and ends; hours
    /// past 24 are after midnight.
    from: (i64, i64),
    to: (i64, i64),
    count: u32,
    /// Mean of what is meant, and spread, in grams.
    aim: f64,
    spread: f64,
    /// From this local time on the mean climbs by so much an hour and the
    /// spread is so many times wider.
    tires: Option<((i64, i64), f64, f64)>,
    /// What the scale makes of a gram.
    reads: f64,
    /// The food's temperature.
    celsius: Option<f64>,
}

struct Maker<'s> {
    store: &'s mut Store,
    /// The days of the first service and of the last.
    first: Date,
    night: Date,
    random: ChaCha8Rng,
    tests: ChaCha8Rng,
    zone: TimeZone,
    number: u32,
    made: Vec<Made>,
}

impl Maker<'_> {
    fn local(&self, day: Date, hour: i64, minute: i64) -> Result<Timestamp, DemoError> {
        let day = if hour >= 24 {
            day.saturating_add(1.day())
        } else {
            day
        };
        let time = day
            .at(0, 0, 0, 0)
            .saturating_add((hour % 24).hours().minutes(minute));
        self.zone
            .to_ambiguous_timestamp(time)
            .compatible()
            .map_err(|error| DemoError::Senseless(error.to_string()))
    }

    fn normal(&mut self, mean: f64, spread: f64) -> Result<f64, DemoError> {
        Normal::new(mean, spread)
            .map(|normal| normal.sample(&mut self.random))
            .map_err(|error| DemoError::Senseless(error.to_string()))
    }

    fn dish(
        &mut self,
        name: &str,
        target: f64,
        tolerance: f64,
        mode: Mode,
        cost: Option<&str>,
        at: Timestamp,
    ) -> Result<(), DemoError> {
        let cost = cost
            .map(|cost| CostPerMass::parse("cost", cost))
            .transpose()?;
        let name = DishName::new("dish", name)?;
        self.store
            .set_dish(&name, goal(target, tolerance)?, mode, cost, at)?;
        Ok(())
    }

    fn buy(
        &mut self,
        kind: TinKind,
        dish: &str,
        label: String,
        net: f64,
        price: &str,
        at: Timestamp,
    ) -> Result<TinId, DemoError> {
        let tin = NewTin {
            kind,
            dish: DishName::new("dish", dish)?,
            label,
            net: grams(net)?,
            price: Some(Money::parse("price", price)?),
        };
        Ok(self.store.open_tin(&tin, at)?.id)
    }

    fn service(&mut self, nth: usize, day: Date) -> Result<(), DemoError> {
        let night = day == self.night;
        let early = nth < SHRIMP_CHANGED;
        let morning = self.local(day, 9, 0)?;
        let shrimp = if early { SHRIMP_BEFORE } else { SHRIMP };
        if nth == 0 {
            self.dish(SHRIMP_BEFORE, 28.0, 1.0, Mode::Taking, None, morning)?;
            self.dish(NECK, 180.0, 6.0, Mode::Adding, None, morning)?;
            self.dish(
                PARFAIT,
                55.0,
                3.0,
                Mode::Adding,
                Some("7.50 EUR/kg"),
                morning,
            )?;
            self.dish(DOUGH, 42.0, 1.5, Mode::Adding, Some("3.20 EUR/kg"), morning)?;
            self.dish(
                RETIRED,
                40.0,
                2.0,
                Mode::Adding,
                Some("4.00 EUR/kg"),
                morning,
            )?;
        }
        if nth == SHRIMP_CHANGED {
            let (old, new) = (
                DishName::new("dish", SHRIMP_BEFORE)?,
                DishName::new("dish", SHRIMP)?,
            );
            self.store.rename_dish(&old, &new, morning)?;
            self.dish(SHRIMP, 30.0, 1.0, Mode::Taking, None, morning)?;
        }
        if nth == RETIRED_FROM {
            self.store
                .retire_dish(&DishName::new("dish", RETIRED)?, morning)?;
        }
        self.known_weights(day)?;
        let lot = format!("lot {}", 40 + day.day());
        let tin = self.buy(
            TinKind::Tin,
            shrimp,
            lot.clone(),
            2_200.0,
            "396 EUR",
            morning,
        )?;
        let cut = self.buy(TinKind::Cut, NECK, lot, 14_000.0, "161 EUR", morning)?;
        let trimmed = self.local(day, 10, 20)?;
        let trim = self.normal(2_300.0, 90.0)?;
        let cooked = self.normal(2_750.0, 80.0)?;
        self.store
            .note_yield(cut, Some(Loss::Trim), grams(trim)?, trimmed)?;
        self.store.note_yield(
            cut,
            Some(Loss::Cook),
            grams(cooked)?,
            self.local(day, 17, 40)?,
        )?;

        let stint = |dish, cook, mode, target, tolerance| Stint {
            dish,
            cook,
            mode,
            target,
            tolerance,
            tin: None,
            from: (18, 30),
            to: (22, 50),
            count: 0,
            aim: target,
            spread: tolerance / 3.0,
            tires: None,
            reads: 1.0,
            celsius: None,
        };
        let dough = stint(DOUGH, "ZE", Mode::Adding, 42.0, 1.5);
        let mut stints = vec![
            Stint {
                from: (15, 0),
                to: (16, 0),
                count: 52,
                aim: 42.1,
                spread: 0.55,
                reads: if night { 1.0 + READ_TOO_MUCH } else { 1.0 },
                ..dough
            },
            Stint {
                from: (16, 5),
                to: (17, 10),
                count: 56,
                aim: 42.1,
                spread: 0.55,
                ..stint(DOUGH, "ZE", Mode::Adding, 42.0, 1.5)
            },
        ];
        let target = if early { 28.0 } else { 30.0 };
        stints.push(Stint {
            tin: Some(tin),
            from: (18, 32),
            to: (20, 25),
            count: 28,
            aim: target + 0.15,
            spread: 0.42,
            celsius: Some(4.0),
            ..stint(shrimp, "MO", Mode::Taking, target, 1.0)
        });
        stints.push(Stint {
            tin: Some(tin),
            from: (20, 31),
            to: (22, 52),
            count: 36,
            aim: target + 0.25,
            spread: 0.48,
            tires: night.then_some(((21, 0), 0.9, 3.2)),
            celsius: Some(4.5),
            ..stint(shrimp, "AK", Mode::Taking, target, 1.0)
        });
        stints.push(Stint {
            tin: Some(cut),
            from: (18, 45),
            to: (22, 25),
            count: 46,
            aim: 181.4,
            spread: 2.3,
            celsius: Some(62.0),
            ..stint(NECK, "ZE", Mode::Adding, 180.0, 6.0)
        });
        stints.push(Stint {
            from: (19, 40),
            to: (23, 20),
            count: 60,
            aim: 55.6,
            spread: 1.15,
            celsius: Some(-11.0),
            ..stint(PARFAIT, "MO", Mode::Adding, 55.0, 3.0)
        });
        if night {
            stints.push(Stint {
                from: (24, 8),
                to: (24, 14),
                count: 2,
                aim: 56.0,
                spread: 1.2,
                ..stint(PARFAIT, "MO", Mode::Adding, 55.0, 3.0)
            });
        }
        if nth < RETIRED_FROM {
            stints.push(Stint {
                from: (17, 15),
                to: (17, 50),
                count: 30,
                aim: 40.3,
                spread: 0.8,
                ..stint(RETIRED, "AK", Mode::Adding, 40.0, 2.0)
            });
        }
        for stint in stints {
            self.work(day, &stint)?;
        }
        self.close(day, tin, cut)
    }

    /// The scale is tried each morning and after the last order. On the night
    /// it read too much in the morning, was calibrated after the first hour's
    /// dough, and tried again.
    fn known_weights(&mut self, day: Date) -> Result<(), DemoError> {
        if day != self.night {
            self.tried(day, (9, 5), 1.0)?;
        } else {
            self.tried(day, (9, 5), 1.0 + READ_TOO_MUCH)?;
            let at = self.local(day, 16, 2)?;
            let made = CalibrationMade {
                points: 4,
                millicounts_per_gram: 429_496_000,
                heaviest: grams(1_000.0)?,
                nonlinearity: Mass::from_milligrams(30),
                residual: Mass::from_milligrams(8),
                uncertainty: Mass::from_milligrams(40),
            };
            self.store.record_calibration(self.moment(at)?, &made, at)?;
            self.tried(day, (16, 4), 1.0)?;
        }
        self.tried(day, (24, 30), 1.0)
    }

    fn tried(
        &mut self,
        day: Date,
        (hour, minute): (i64, i64),
        reads: f64,
    ) -> Result<(), DemoError> {
        let at = self.local(day, hour, minute)?;
        let known = grams(KNOWN)?;
        let noise = Normal::new(0.0, 0.03)
            .map(|normal| normal.sample(&mut self.tests))
            .map_err(|error| DemoError::Senseless(error.to_string()))?;
        let test = SelfTest {
            known,
            indicated: grams(((KNOWN * reads + noise) * 100.0).round() / 100.0)?,
            limit: in_service(VERIFICATION, known),
            uncertainty: Mass::from_milligrams(60),
        };
        let moment = self.moment(at)?;
        self.store.record_test(moment, &test, at)?;
        Ok(())
    }

    /// The scale's own clock runs since the first service's morning.
    fn moment(&self, at: Timestamp) -> Result<InstrumentMoment, DemoError> {
        let since = at.duration_since(self.local(self.first, 9, 0)?).as_millis();
        Ok(InstrumentMoment {
            device: SCALE,
            epoch: START,
            at: Uptime::from_millis(u64::try_from(since).unwrap_or(0)),
        })
    }

    /// What is left is weighed, and the orders noted.
    fn close(&mut self, day: Date, tin: TinId, cut: TinId) -> Result<(), DemoError> {
        let late = self.local(day, 23, 40)?;
        let tasted = self.normal(14.0, 2.0)?.max(5.0);
        self.store
            .note_yield(tin, Some(Loss::Tasting), grams(tasted)?, late)?;
        if day == self.night {
            self.store
                .note_yield(tin, Some(Loss::Spill), grams(31.0)?, late)?;
        }
        for (purchase, unseen) in [(tin, 6.0), (cut, 60.0)] {
            let unseen = self.normal(unseen, unseen / 4.0)?.max(0.0);
            let left = self.store.yield_flow(purchase)?.should_be_left().grams() - unseen;
            self.store
                .note_yield(purchase, None, grams(left.max(0.0).round())?, late)?;
            self.store.close_tin(purchase, late)?;
        }
        let first = self.local(day, 18, 31)?;
        let last = self.local(day, 23, 5)?;
        self.store.open_service(day, first)?;
        self.store.close_service(day, last)?;
        let covers: f64 = Normal::new(44.0, 4.0)
            .map(|normal| normal.sample(&mut self.tests))
            .map_err(|error| DemoError::Senseless(error.to_string()))?;
        let covers = covers.round().clamp(30.0, 56.0) as u32;
        self.store.note_covers(day, covers, last)?;
        Ok(())
    }

    fn work(&mut self, day: Date, stint: &Stint) -> Result<(), DemoError> {
        let from = self.local(day, stint.from.0, stint.from.1)?;
        let to = self.local(day, stint.to.0, stint.to.1)?;
        let goal = goal(stint.target, stint.tolerance)?;
        let run = NewRun {
            dish: DishName::new("dish", stint.dish)?,
            goal,
            mode: stint.mode,
            cook: Some(Cook::new("cook", stint.cook)?),
            tin: stint.tin,
        };
        let run = self.store.begin_run(&run, from)?.id;
        let seconds = to.duration_since(from).as_secs_f64();
        let pace = seconds / f64::from(stint.count.max(1));
        // How this hand happens to aim today.
        let today = self.normal(0.0, stint.spread / 5.0)?;
        let tires = match stint.tires {
            None => None,
            Some(((hour, minute), drift, wider)) => {
                Some((self.local(day, hour, minute)?, drift, wider))
            }
        };
        let mut left = 2_150.0;
        let mut portions = Vec::new();
        for nth in 0..stint.count {
            let jitter = self.normal(0.0, pace / 6.0)?;
            let since = (pace * (f64::from(nth) + 0.5) + jitter).clamp(0.0, seconds - 1.0);
            let at = from + SignedDuration::from_secs_f64(since);
            let (mut mean, mut spread) = (stint.aim + today, stint.spread);
            if let Some((when, drift, wider)) = tires
                && at > when
            {
                mean += drift * at.duration_since(when).as_secs_f64() / 3_600.0;
                spread *= wider;
            }
            let shown = self.normal(mean, spread)? * stint.reads;
            left -= shown;
            portions.push((at, shown, left));
        }
        portions.sort_by_key(|(at, ..)| *at);
        let captured = portions
            .into_iter()
            .map(|(at, shown, left)| self.captured(run, stint, goal, at, shown, left))
            .collect::<Result<Vec<_>, _>>()?;
        self.store.record_all(&captured, to)?;
        Ok(self.store.end_run(run, to)?)
    }

    fn captured(
        &mut self,
        run: RunId,
        stint: &Stint,
        goal: Goal,
        at: Timestamp,
        shown: f64,
        left: f64,
    ) -> Result<CapturedPortion, DemoError> {
        self.number += 1;
        let id = PortionId {
            device: SCALE,
            epoch: START,
            number: self.number,
        };
        self.made.push(Made {
            id,
            at,
            dish: stint.dish,
        });
        // The bench scale reads to 0.01 g.
        let mass = grams((shown.max(1.0) * 100.0).round() / 100.0)?;
        Ok(CapturedPortion {
            id,
            run,
            at: Uptime::from_millis(u64::from(self.number) * 20_000),
            unix: Some(UnixMillis::from_millis(at.as_millisecond())),
            mode: stint.mode,
            mass,
            goal,
            temperature: stint.celsius.and_then(Temperature::from_celsius),
            replaces: None,
            doubts: Doubts::NONE,
            uncertainty: Some(Mass::from_milligrams(40)),
            left: match stint.mode {
                Mode::Taking => Some(grams(left.max(0.0))?),
                Mode::Adding => None,
            },
            chain_link: None,
        })
    }

    /// One shrimp pot of the night fell, one parfait was tasted.
    fn strikes(&mut self) -> Result<(), DemoError> {
        let night = self.local(self.night, 18, 0)?;
        for (dish, nth, reason) in [(SHRIMP, 40, "Fell or spilled"), (PARFAIT, 11, "Tasted")] {
            let struck = self
                .made
                .iter()
                .filter(|made| made.dish == dish && made.at > night)
                .nth(nth)
                .map(|made| (made.id, made.at));
            if let Some((id, at)) = struck {
                let reason = StrikeReason::new("reason", reason)?;
                self.store
                    .strike(id, &reason, at + SignedDuration::from_secs(20))?;
            }
        }
        Ok(())
    }
}

fn grams(grams: f64) -> Result<Mass, DemoError> {
    Mass::from_fractional_grams(grams)
        .ok_or_else(|| DemoError::Senseless(format!("{grams} g is no mass")))
}

fn goal(target: f64, tolerance: f64) -> Result<Goal, DemoError> {
    Ok(Goal::new(
        grams(target)?,
        Tolerance::symmetric(grams(tolerance)?),
    )?)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::review::{Night, words};
    use evenhand_kitchen::service::{Assumptions, WeightDoubt};
    use evenhand_kitchen::spread::Spread;
    use evenhand_store::{DataFolder, Query};
    use evenhand_words::Language;
    use jiff::civil::date;

    const NIGHT: Date = date(2026, 5, 16);

    fn days() -> [Date; 11] {
        DAYS_BEFORE.map(|before| NIGHT.saturating_sub(before.days()))
    }

    fn at(text: &str) -> Timestamp {
        text.parse().unwrap()
    }

    fn night(seed: u64) -> (tempfile::TempDir, Store) {
        let folder = tempfile::tempdir().unwrap();
        let mut store = Store::open(&DataFolder::choose(Some(folder.path())).unwrap()).unwrap();
        let made = make(&mut store, seed, &TimeZone::UTC, at("2026-05-17T10:00:00Z")).unwrap();
        assert_eq!(made.night, NIGHT);
        (folder, store)
    }

    fn of(dish: &str, from: &str, to: &str) -> Query {
        let at = |time: &str| Some(format!("2026-05-16T{time}Z").parse().unwrap());
        Query {
            dish: Some(DishName::new("dish", dish).unwrap()),
            from: at(from),
            to: at(to),
            run: None,
        }
    }

    #[test]
    fn a_seed_fixes_every_portion() {
        let masses = |seed| {
            let (_folder, store) = night(seed);
            let portions = store.portions(&Query::default()).unwrap();
            portions
                .iter()
                .map(|portion| (portion.id, portion.mass, portion.time))
                .collect::<Vec<_>>()
        };
        let one = masses(1);
        assert!(one.len() > 2_900);
        assert_eq!(one, masses(1));
        assert_ne!(one, masses(2));
    }

    #[test]
    fn what_is_hidden_in_the_night_can_be_found_on_any_seed() {
        for seed in 1..4 {
            let (_folder, store) = night(seed);
            let spread = |dish, from, to| store.spread(&of(dish, from, to)).unwrap();
            // Tired after nine: wider by half at least.
            let fresh = spread(SHRIMP, "18:00:00", "21:00:00");
            let tired = spread(SHRIMP, "21:00:00", "23:30:00");
            let wide = |spread: &Spread| spread.standard_deviation().unwrap().grams();
            assert!(wide(&tired) > 1.5 * wide(&fresh), "seed {seed}");
            // The first hour's dough reads heavy by about 3 %.
            let first = spread(DOUGH, "15:00:00", "16:00:00")
                .mean()
                .unwrap()
                .grams();
            let later = spread(DOUGH, "16:00:00", "17:30:00")
                .mean()
                .unwrap()
                .grams();
            assert!(
                (first / later - 1.0 - READ_TOO_MUCH).abs() < 0.012,
                "seed {seed}"
            );
        }
    }

    #[test]
    fn the_review_finds_what_is_hidden_and_little_else() {
        let mut false_alarms = 0;
        for seed in 1..3 {
            let (_folder, store) = night(seed);
            let calendar = store.service_calendar(TimeZone::UTC).unwrap();
            for day in &days()[RETIRED_FROM..] {
                let night = Night::gather(&store, &calendar, *day, Assumptions::default()).unwrap();
                let found = |name: &str| {
                    let dish = night.dishes.iter().find(|dish| dish.name() == name);
                    dish.map(|dish| {
                        (
                            &dish.review,
                            words::lead(Language::English, dish, &calendar),
                        )
                    })
                };
                if *day != NIGHT {
                    let any = night
                        .dishes
                        .iter()
                        .any(|dish| !dish.review.findings.is_empty());
                    false_alarms += usize::from(any);
                    continue;
                }
                // The tired cook: heavier, or less even, late in the night.
                let (shrimp, lead) = found(SHRIMP).unwrap();
                assert!(
                    shrimp.findings.iter().any(|found| found.conclusion.up),
                    "seed {seed}: {lead}"
                );
                // The dough: its doubt first, and the first hour in no advice.
                let (dough, lead) = found(DOUGH).unwrap();
                assert_eq!(dough.doubts.of(WeightDoubt::FailedTest), 52);
                assert_eq!(dough.findings, [], "seed {seed}");
                assert!(
                    lead.starts_with("Potato dough: the scale read 3.0 % over until 16:02"),
                    "{lead}"
                );
                assert!(lead.contains("test it again, then aim at 42"), "{lead}");
            }
        }
        // 14 services with nothing hidden in them, of which one in twenty may err: more than
        // three come up once in 200 such tests.
        assert!(false_alarms <= 3, "{false_alarms} of 14");
    }

    #[test]
    fn the_first_hour_came_after_a_test_that_failed_and_nothing_else_did() {
        for seed in [7] {
            let (_folder, store) = night(seed);
            let calendar = store.service_calendar(TimeZone::UTC).unwrap();
            for day in days() {
                let review = Night::gather(&store, &calendar, day, Assumptions::default()).unwrap();
                for dish in &review.dishes {
                    let touched: Vec<_> = dish
                        .failed_tests
                        .iter()
                        .map(|failed| (failed.before, failed.after))
                        .collect();
                    if day == NIGHT && dish.name() == DOUGH {
                        assert_eq!(touched, [(0, 52)], "seed {seed}");
                        let said =
                            words::failed_tests(Language::English, dish, &calendar).join(" ");
                        let found = "52 of 108 weighed after a test that failed, before the scale \
                                     was calibrated at 16:02: at 09:05 a known 500.0 g read 51";
                        assert!(said.starts_with(found), "{said}");
                        assert!(
                            said.contains("where 1.00 g is the limit in service"),
                            "{said}"
                        );
                    } else {
                        assert!(touched.is_empty(), "seed {seed}, {day}, {}", dish.name());
                    }
                }
            }
        }
    }

    #[test]
    fn it_does_not_go_among_real_portions() {
        let (_folder, mut store) = night(1);
        assert!(matches!(
            make(&mut store, 1, &TimeZone::UTC, at("2026-05-17T10:00:00Z")),
            Err(DemoError::NotEmpty)
        ));
    }
}
