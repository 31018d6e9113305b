//! Today at Saltmarsh, as far as it has come: the cold store and the smokehouse on
//! their probes, what lies in cure and press, and the day's plan with what is done.

use super::{DemoError, SALTMARSH_MENU, grams};
use evenhand_kitchen::batch::{Entry, Mark, NamedAs, Schedule, Slot, What};
use evenhand_kitchen::heat::{Aim, Band, HeatLog, Kept, LogName, LogPoint, Marker};
use evenhand_kitchen::prep::{Board, GoodsTold, Happened};
use evenhand_kitchen::ratio::Ingredient;
use evenhand_kitchen::units::{Amount, Measure};
use evenhand_protocol::Temperature;
use evenhand_store::Store;
use jiff::civil::Date;
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp, ToSpan};
use rand_chacha::ChaCha8Rng;
use rand_distr::{Distribution, Normal};
use std::f64::consts::TAU;

/// What Saltmarsh buys.
const GOODS: &str = include_str!("goods.toml");

/// Guests expected from today on; of the later days nobody knows yet.
const EXPECTED: [u32; 8] = [38, 41, 44, 46, 52, 54, 40, 36];

/// What was in hand after the night, as bought, in grams. The potatoes nobody counted.
const COUNTED: [(&str, f64); 3] = [
    ("brown shrimp, peeled", 2_000.0),
    ("hogget neck", 14_000.0),
    ("butter", 3_000.0),
];

/// For how many days from today on the plan is made and followed.
const DAYS_PLANNED: i32 = 5;

/// How early a plan is looked at: no step of the menu begins longer before service.
const EARLIEST: SignedDuration = SignedDuration::from_hours(24 * 6);

/// How far ahead of its plan the kitchen is: nothing hangs by a minute.
const AHEAD: SignedDuration = SignedDuration::from_mins(45);

/// How far a kitchen probe's reading scatters, in °C (k = 1).
const PROBE_NOISE: f64 = 0.08;

pub(super) fn make(
    store: &mut Store,
    mut random: ChaCha8Rng,
    zone: &TimeZone,
    night: Date,
    now: Timestamp,
) -> Result<(), DemoError> {
    // A stream of its own, so that the portions do not hang on the hour.
    random.set_stream(2);
    let mut day = Day {
        store,
        random,
        zone,
        night,
        now,
    };
    day.cold_store()?;
    day.cooling_pan()?;
    day.smokehouse()?;
    day.batches()?;
    super::book::make(&mut day)?;
    day.plan()?;
    day.order()
}

pub(super) struct Day<'s> {
    pub(super) store: &'s mut Store,
    random: ChaCha8Rng,
    zone: &'s TimeZone,
    /// The day of last night's service.
    pub(super) night: Date,
    now: Timestamp,
}

impl Day<'_> {
    /// A local time of a day that lies so many days after the night.
    pub(super) fn at(&self, days: i32, hour: i8, minute: i8) -> Result<Timestamp, DemoError> {
        let day = self.night.saturating_add(days.days());
        self.zone
            .to_ambiguous_timestamp(day.at(hour, minute, 0, 0))
            .compatible()
            .map_err(|error| DemoError::Senseless(error.to_string()))
    }

    fn noise(&mut self) -> Result<f64, DemoError> {
        Normal::new(0.0, PROBE_NOISE)
            .map(|normal| normal.sample(&mut self.random))
            .map_err(|error| DemoError::Senseless(error.to_string()))
    }

    /// A log from one moment to another, not past now, of what lies on a curve of °C
    /// over hours.
    fn record(
        &mut self,
        name: &str,
        (from, to): (Timestamp, Timestamp),
        step: SignedDuration,
        curve: impl Fn(f64) -> f64,
    ) -> Result<LogName, DemoError> {
        let name = LogName::new("log", name)?;
        let log = self.store.open_heat_log(&name, HeatLog::USUAL_STEP, from)?;
        let mut readings = Vec::new();
        let mut at = from;
        while at <= to.min(self.now) {
            let hours = at.duration_since(from).as_secs_f64() / 3_600.0;
            let celsius = curve(hours) + self.noise()?;
            let temperature = Temperature::from_celsius((celsius * 10.0).round() / 10.0)
                .ok_or_else(|| DemoError::Senseless(format!("{celsius} is no temperature")))?;
            readings.push(Kept {
                point: LogPoint { at, temperature },
                after_gap: readings.is_empty(),
            });
            at += step;
        }
        self.store.keep_heat(log, &readings)?;
        Ok(name)
    }

    /// Two nights and a day: the compressor's swing, and a door that is opened often
    /// while service runs.
    fn cold_store(&mut self) -> Result<(), DemoError> {
        let from = self.at(-1, 18, 0)?;
        let name = self.record(
            "cold store",
            (from, self.now),
            SignedDuration::from_mins(5),
            |hours| {
                let swing = 0.5 * (TAU * hours / 0.7).sin();
                let in_service = if (hours % 24.0) < 4.5 { 0.5 } else { 0.0 };
                2.8 + swing + in_service
            },
        )?;
        let aim = Aim::limit_of("cold-holding".to_owned(), None);
        Ok(self.store.aim_heat(&name, &aim, from)?)
    }

    /// Last night's braise, cooled in ice water and then in the cold store.
    fn cooling_pan(&mut self) -> Result<(), DemoError> {
        let from = self.at(0, 23, 20)?;
        let until = from + SignedDuration::from_mins(230);
        let name = self.record(
            "hogget braise",
            (from, until),
            SignedDuration::from_mins(1),
            |hours| 2.5 + 85.0 * (-hours / 0.75).exp(),
        )?;
        let aim = Aim::limit_of("cooling".to_owned(), None);
        self.store.aim_heat(&name, &aim, from)?;
        let marker = Marker {
            at: from + SignedDuration::from_mins(2),
            text: "into ice water".to_owned(),
        };
        Ok(self.store.mark_heat(&name, &marker, marker.at)?)
    }

    /// Lit at half past twelve, yesterday and today; out at half past four.
    fn smokehouse(&mut self) -> Result<(), DemoError> {
        let step = SignedDuration::from_mins(1);
        let mut lit = None;
        for days in [0, 1] {
            let from = self.at(days, 12, 30)?;
            if from > self.now {
                break;
            }
            let until = self.at(days, 16, 30)?;
            lit = Some(self.record("smokehouse", (from, until), step, |hours| {
                16.0 + 59.0 * (1.0 - (-hours / 0.6).exp())
            })?);
        }
        let Some(name) = lit else { return Ok(()) };
        let low = Temperature::from_celsius(65.0);
        let high = Temperature::from_celsius(80.0);
        let (Some(low), Some(high)) = (low, high) else {
            return Ok(());
        };
        let band = Band::new(low, high).map_err(|e| DemoError::Senseless(e.to_string()))?;
        Ok(self
            .store
            .aim_heat(&name, &Aim::band_of(band, None), self.at(0, 12, 30)?)?)
    }

    /// Two batches of the pressed cucumber's brine that can be compared, and a side of
    /// trout that lies in its cure.
    fn batches(&mut self) -> Result<(), DemoError> {
        let cucumber = "Cucumber brine";
        let earlier = [("water", 2_000.0), ("cider vinegar", 400.0), ("salt", 84.0)];
        let later = [("water", 2_000.0), ("cider vinegar", 400.0), ("salt", 96.0)];
        self.batch(cucumber, self.at(-6, 10, 15)?, &earlier, |day| {
            let taste = tasted(5, "a little flat")?;
            Ok(vec![(day.at(-6, 16, 40)?, taste)])
        })?;
        self.batch(cucumber, self.at(0, 10, 5)?, &later, |day| {
            let taste = tasted(7, "crisper; keep the salt here")?;
            Ok(vec![(day.at(0, 16, 50)?, taste)])
        })?;
        let trout = [
            ("trout side", 1_240.0),
            ("salt", 43.4),
            ("sugar", 21.7),
            ("dill seed", 6.2),
        ];
        let into = self.at(0, 11, 0)?;
        self.batch("Cured trout", into, &trout, |day| {
            let turns = SignedDuration::from_hours(12);
            let plan = Schedule::new(into, day.at(2, 11, 0)?, Some(turns))?;
            let cold = Temperature::from_millicelsius(3_100);
            Ok(vec![
                (into, What::Planned { plan }),
                (into, What::Stored { temperature: cold }),
                (day.at(0, 23, 0)?, What::Turned),
                (day.at(1, 11, 5)?, What::Turned),
                (day.at(1, 23, 0)?, What::Turned),
            ])
        })
    }

    /// One batch with what was weighed in, and what came of it up to now.
    pub(super) fn batch(
        &mut self,
        title: &str,
        at: Timestamp,
        weighed: &[(&str, f64)],
        after: impl FnOnce(&Self) -> Result<Vec<(Timestamp, What)>, DemoError>,
    ) -> Result<(), DemoError> {
        let mut lines = vec![(
            at,
            What::Titled {
                title: title.to_owned(),
            },
        )];
        for (slot, (name, mass)) in (0..).map(Slot).zip(weighed) {
            let ingredient =
                Ingredient::plain(name).map_err(|error| DemoError::Senseless(error.to_string()))?;
            lines.push((
                at,
                What::Weighed {
                    slot,
                    mass: grams(*mass)?,
                    temperature: None,
                },
            ));
            lines.push((
                at,
                What::Named {
                    slot,
                    ingredient: NamedAs(ingredient),
                },
            ));
        }
        lines.extend(after(self)?);
        if at > self.now {
            return Ok(());
        }
        let batch = self.store.begin_batch(at)?;
        for (at, what) in lines {
            if at <= self.now {
                self.store.add_to_batch(batch, &Entry { at, what })?;
            }
        }
        Ok(())
    }

    /// The guests expected, what is bought of it and what was in hand after the night.
    fn order(&mut self) -> Result<(), DemoError> {
        for (days, covers) in (1..).zip(EXPECTED) {
            let day = self.night.saturating_add(days.days());
            self.store.note_covers(day, covers, self.now)?;
        }
        self.store.keep_goods(GOODS, self.at(-14, 9, 10)?)?;
        let counted = self.at(0, 23, 50)?.min(self.now);
        for (goods, grams) in COUNTED {
            let amount = Amount::new(Measure::Mass, grams);
            let what = GoodsTold::Counted { amount };
            self.store.tell_goods(goods, counted, what, self.now)?;
        }
        Ok(())
    }

    /// The menu, and every step of the coming services that a plan would have had begun
    /// or done by now.
    fn plan(&mut self) -> Result<(), DemoError> {
        self.store
            .keep_menu(None, SALTMARSH_MENU, self.at(-14, 9, 0)?)?;
        for days in 1..=DAYS_PLANNED {
            let day = self.night.saturating_add(days.days());
            let board = Board::from_menu(SALTMARSH_MENU, day, self.zone.clone())
                .map_err(|error| DemoError::Senseless(error.to_string()))?;
            let early = board.service.checked_sub(EARLIEST).unwrap_or(self.now);
            for planned in board.plan(early).steps {
                let (Some(begun), Some(done)) = (planned.start_by, planned.done_by) else {
                    continue;
                };
                let (begun, done) = (begun - AHEAD, done - AHEAD);
                let (at, what) = if done <= self.now {
                    (done, Happened::Done)
                } else if begun <= self.now {
                    (begun, Happened::Begun)
                } else {
                    continue;
                };
                let name = board
                    .step(planned.step)
                    .map_err(|error| DemoError::Senseless(error.to_string()))?
                    .full_name();
                self.store.tell_step(day, &name, at, what, at)?;
            }
        }
        Ok(())
    }
}

pub(super) fn tasted(mark: u8, note: &str) -> Result<What, DemoError> {
    Ok(What::Tasted {
        mark: Mark::new("mark", mark)?,
        note: note.to_owned(),
    })
}

#[cfg(test)]
mod tests {
    use super::super::make;
    use super::*;
    use crate::prep::{DAYS_AHEAD, PrepNow, PrepQuestion, service_day};
    use evenhand_kitchen::limits::Limits;
    use evenhand_kitchen::prep::StepState;
    use evenhand_store::DataFolder;

    /// Opened before the smokehouse is lit, while it is hot, just before and in service,
    /// and after midnight; in summer, and on the night that the clocks are put back.
    const OPENED: [&str; 6] = [
        "2026-05-17T07:30:00Z",
        "2026-05-17T14:00:00Z",
        "2026-05-17T17:30:00Z",
        "2026-05-17T20:00:00Z",
        "2026-05-18T00:30:00Z",
        "2026-10-25T09:00:00Z",
    ];

    fn opened(at: &str) -> (tempfile::TempDir, Store, TimeZone, Timestamp) {
        let folder = tempfile::tempdir().unwrap();
        let mut store = Store::open(&DataFolder::choose(Some(folder.path())).unwrap()).unwrap();
        let zone = TimeZone::get("Europe/Lisbon").unwrap();
        let now = at.parse().unwrap();
        make(&mut store, 7, &zone, now).unwrap();
        (folder, store, zone, now)
    }

    #[test]
    fn at_any_hour_nothing_is_late_and_no_screen_is_empty() {
        for at in OPENED {
            let (_folder, store, zone, now) = opened(at);
            let day = service_day(&store, now, &zone).unwrap();
            let question = PrepQuestion {
                day,
                menu: None,
                covers: None,
                days_ahead: DAYS_AHEAD,
                what_if: &[],
                // It is looked at for a while.
                now: now + SignedDuration::from_mins(15),
                zone: &zone,
                language: evenhand_words::Language::English,
                unwanted: None,
            };
            let prep = PrepNow::of(&store, &question, &Limits::food_code()).unwrap();
            let late: Vec<_> = prep
                .plan
                .steps
                .iter()
                .filter(|step| step.standing == StepState::Late)
                .filter_map(|step| prep.board.step(step.step).ok())
                .map(|step| step.full_name())
                .collect();
            assert_eq!(late, Vec::<String>::new(), "{at}");
            assert_eq!(prep.trouble, None, "{at}");
            assert!(
                prep.plan
                    .steps
                    .iter()
                    .any(|step| step.standing != StepState::Done),
                "{at}"
            );
            assert_eq!(prep.unknown, Vec::<String>::new(), "{at}");
            let logs = store.heat_logs().unwrap();
            assert_eq!(logs.len(), 3, "{at}");
            let batches = store.batches().unwrap();
            assert_eq!(batches.len(), 21, "{at}");
            // Nothing on record lies in the future.
            for log in logs {
                assert!(log.last.unwrap().at <= now, "{at}: {}", log.name);
            }
            for (entry, _) in batches.iter().flat_map(|(_, batch)| batch.entries()) {
                assert!(entry.at <= now, "{at}: {entry:?}");
            }
        }
    }

    /// Formula with trials, doughs, uptake, yields and a handover: what a view of each says.
    #[test]
    fn at_any_hour_no_view_of_the_book_is_empty() {
        use crate::book;
        use crate::handover::Handover;
        use crate::uptake;
        use evenhand_kitchen::batch::{Batch, Yields};
        use evenhand_kitchen::book::{Seen, Trials};
        use evenhand_kitchen::dough::Rise;
        use evenhand_kitchen::units::Ratio;
        use evenhand_kitchen::uptake::When;
        for at in OPENED {
            let (folder, store, zone, now) = opened(at);
            let loaf = book::find(folder.path(), "estuary loaf").unwrap();
            let titled = |title: &str| -> Vec<Batch> {
                let all = store.batches_titled(title).unwrap();
                all.into_iter().map(|(_, batch)| batch).collect()
            };
            let base = ["bread flour".to_owned(), "dark rye".to_owned()];
            let trials = Trials::new(&titled(loaf.name()), &base).unwrap();
            assert_eq!(trials.left_out(), 0, "{at}");
            assert!(
                matches!(trials.changed_the_mark(), Seen::Stands { ref ingredient, .. } if ingredient == "water"),
                "{at}: {:?}",
                trials.changed_the_mark()
            );
            let rise = Rise::of(&book::doughs(&store, loaf.name()).unwrap()).unwrap();
            assert_eq!(rise.doughs, 7, "{at}");
            assert!(
                rise.give_or_take.is_some_and(|half| half < 2.0),
                "{at}: {rise:?}"
            );
            assert!((0.0..6.0).contains(&rise.kelvin), "{at}: {rise:?}");
            // What lies in the brine has an interval, and a time.
            let lying = titled("mutton steak");
            let (into, since) = lying.iter().find_map(Batch::in_bath).unwrap();
            assert!(since <= now, "{at}");
            let asked = uptake::Asked {
                lasting: Some(SignedDuration::from_hours(14)),
                core: Ratio::new(0.012),
            };
            let answer = uptake::ask(&uptake::own_soaks(&store).unwrap(), into, asked);
            let (_, expected) = answer.expected.unwrap();
            let (salt, gain) = (expected.salt.unwrap(), expected.gain.unwrap());
            assert!(
                salt.from < salt.to && gain.from < gain.to,
                "{at}: {salt:?} {gain:?}"
            );
            assert!(
                matches!(answer.when, Some((_, When::After { .. }))),
                "{at}: {:?}",
                answer.when
            );
            let milk = Yields::new(&titled("Field bean milk"), "field beans").unwrap();
            assert_eq!((milk.rows.len(), milk.left_out), (4, 0), "{at}");
            assert!(milk.rows.iter().all(|row| !row.more_than_went_in));
            assert!(milk.usual("bean milk").is_some(), "{at}");
            let calendar = store.service_calendar(zone.clone()).unwrap();
            let today = calendar.day_of(now);
            for day in [today, today.yesterday().unwrap()] {
                let limits = Limits::food_code();
                let language = evenhand_words::Language::English;
                let handed =
                    Handover::gather(&store, &limits, &calendar, day, now, language).unwrap();
                assert!(
                    !handed.dishes.is_empty() && !handed.notes.is_empty(),
                    "{at}: {handed:?}"
                );
                assert!(
                    handed.dishes.iter().all(|count| count.ready() >= 0),
                    "{at}: {:?}",
                    handed.dishes
                );
            }
        }
    }

    // 5 degC; 57 to 21 degC in two hours and to 5 degC in six: FDA Food Code 3-501.14 and
    // 3-501.16, from memory.
    #[test]
    fn what_is_watched_keeps_its_limit() {
        let (_folder, store, _zone, now) = opened("2026-05-17T14:00:00Z");
        let readings = |log: &str| {
            let name = LogName::new("log", log).unwrap();
            let stored = store.heat_log(&name, Timestamp::MIN, now).unwrap();
            stored
                .recorded
                .points()
                .iter()
                .map(|point| (point.at, point.temperature.celsius()))
                .collect::<Vec<_>>()
        };
        let cold = readings("cold store");
        assert!(cold.len() > 200);
        assert!(cold.iter().all(|(_, celsius)| *celsius < 4.5));
        let pan = readings("hogget braise");
        let first_below = |limit: f64| pan.iter().find(|(_, celsius)| *celsius < limit).unwrap().0;
        let cooling = |limit| {
            first_below(limit)
                .duration_since(first_below(57.0))
                .as_mins()
        };
        assert!(cooling(21.0) < 120, "{}", cooling(21.0));
        assert!(cooling(5.0) < 360, "{}", cooling(5.0));
    }
}
