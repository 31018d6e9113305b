//! Menus, what happened to their steps, covers, and what a service left.

use super::columns::{Reads, from_json, time_to};
use super::{Query, Sql, Store, StoreError};
use evenhand_kitchen::batch::What;
use evenhand_kitchen::dish::DishName;
use evenhand_kitchen::prep::{By, Event, HandName, Happened, SeenBatch, SeenRun, menu_period};
use jiff::Timestamp;
use jiff::civil::Date;
use rusqlite::{OptionalExtension, params};
use std::collections::BTreeMap;

/// What was told of a step. Layouts before say nothing of who, and pass over it.
#[derive(serde::Serialize, serde::Deserialize)]
struct Told {
    #[serde(flatten)]
    what: Happened,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    who: Option<HandName>,
}

/// A menu as it was kept.
struct Kept {
    /// The day that it is for; for every day, if none.
    day: Option<Date>,
    since: i64,
    menu: String,
}

impl Kept {
    fn covers(&self, day: Date) -> bool {
        menu_period(&self.menu).is_ok_and(|(from, until)| {
            from.is_none_or(|from| from <= day) && until.is_none_or(|until| day <= until)
        })
    }
}

/// The menu in force on a day, of those that were kept; the one that was kept last first.
fn in_force(kept: &[Kept], day: Date) -> Option<String> {
    let own = kept.iter().find(|kept| kept.day == Some(day));
    let every_day = || kept.iter().filter(|kept| kept.day.is_none());
    let mut written_anew = Vec::new();
    let mut covering = None;
    if own.is_none() {
        for menu in every_day() {
            // What cannot be read is told by whoever reads it.
            let Ok((from, _)) = menu_period(&menu.menu) else {
                covering = Some(menu);
                break;
            };
            if !written_anew.contains(&from) && menu.covers(day) {
                covering = Some(menu);
                break;
            }
            written_anew.push(from);
        }
    }
    own.or(covering)
        .or_else(|| every_day().next())
        .map(|kept| kept.menu.clone())
}

impl Store {
    /// Keeps a menu for a day, or for every day that has none of its own.
    ///
    /// # Errors
    /// Where the store cannot be written.
    pub fn keep_menu(
        &mut self,
        day: Option<Date>,
        menu: &str,
        now: Timestamp,
    ) -> Result<(), StoreError> {
        self.write(|transaction, path| {
            transaction
                .execute(
                    "INSERT INTO prep_menu (day, since, menu) VALUES (?1, ?2, ?3)",
                    params![day.map(|day| day.to_string()), time_to(now), menu],
                )
                .at(path)
        })?;
        Ok(())
    }

    /// The menu for a day: its own, else the one for every day that is in force on it, else
    /// the one for every day that was kept last.
    ///
    /// Menus for every day may follow each other by their `from` and `until`. On a day that
    /// several cover, the one that was kept last counts. One that was kept with the same
    /// `from` as another is that menu written anew, and takes its place altogether.
    ///
    /// # Errors
    /// Where the store cannot be read.
    pub fn menu(&self, day: Date) -> Result<Option<String>, StoreError> {
        let kept = self.kept_menus(Some(day))?;
        Ok(in_force(&kept, day))
    }

    /// The menu for a day as it stood at a moment; where none was kept by then, the
    /// first that was kept after.
    ///
    /// # Errors
    /// Where the store cannot be read.
    pub fn menu_at(&self, day: Date, at: Timestamp) -> Result<Option<String>, StoreError> {
        let at = time_to(at);
        let (by_then, mut after): (Vec<Kept>, Vec<Kept>) = self
            .kept_menus(Some(day))?
            .into_iter()
            .partition(|kept| kept.since <= at);
        after.reverse();
        Ok(in_force(&by_then, day).or_else(|| {
            let own = after.iter().find(|kept| kept.day.is_some());
            let covers = |kept: &&Kept| kept.covers(day);
            own.or_else(|| after.iter().find(covers))
                .or_else(|| after.first())
                .map(|kept| kept.menu.clone())
        }))
    }

    /// Every menu that is in force on some day: those for every day by their `from`, then
    /// those of one day by that.
    ///
    /// # Errors
    /// Where the store cannot be read.
    pub fn menus(&self) -> Result<Vec<(Option<Date>, String)>, StoreError> {
        let mut known: BTreeMap<(Option<Date>, Option<Date>), String> = BTreeMap::new();
        for kept in self.kept_menus(None)? {
            let from = match kept.day {
                None => menu_period(&kept.menu).map_or(None, |(from, _)| from),
                Some(_) => None,
            };
            known.entry((kept.day, from)).or_insert(kept.menu);
        }
        Ok(known
            .into_iter()
            .map(|((day, _), menu)| (day, menu))
            .collect())
    }

    /// The menus for every day and for one, or for any; the one that was kept last first.
    fn kept_menus(&self, day: Option<Date>) -> Result<Vec<Kept>, StoreError> {
        let day = day.map(|day| day.to_string());
        let rows: Vec<(Option<String>, i64, String)> = self
            .connection
            .prepare_cached(
                "SELECT day, since, menu FROM prep_menu
                 WHERE ?1 IS NULL OR day IS NULL OR day = ?1 ORDER BY stamp DESC",
            )
            .and_then(|mut select| {
                select
                    .query_map([day], |row| Ok((row.get(0)?, row.get(1)?, row.get(2)?)))?
                    .collect()
            })
            .map_err(|error| self.sql(error))?;
        let reads = Reads(&self.path);
        rows.into_iter()
            .map(|(day, since, menu)| {
                let day = day.map(|day| day.parse()).transpose();
                Ok(Kept {
                    day: day.map_err(|_| reads.senseless("service's day"))?,
                    since,
                    menu,
                })
            })
            .collect()
    }

    /// Puts down what somebody told of a step of a service.
    ///
    /// # Errors
    /// Where the store cannot be written.
    pub fn tell_step(
        &mut self,
        day: Date,
        step: &str,
        at: Timestamp,
        what: Happened,
        now: Timestamp,
    ) -> Result<(), StoreError> {
        let told = Told { what, who: None };
        self.tell(day, step, at, &told, now)
    }

    /// As [`Store::tell_step`], with who did it.
    ///
    /// # Errors
    /// Where the store cannot be written.
    pub fn tell_step_of(
        &mut self,
        day: Date,
        step: &str,
        at: Timestamp,
        (what, who): (Happened, HandName),
        now: Timestamp,
    ) -> Result<(), StoreError> {
        let who = Some(who);
        self.tell(day, step, at, &Told { what, who }, now)
    }

    fn tell(
        &mut self,
        day: Date,
        step: &str,
        at: Timestamp,
        told: &Told,
        now: Timestamp,
    ) -> Result<(), StoreError> {
        self.write(|transaction, path| {
            let what =
                serde_json::to_string(told).map_err(|_| Reads(path).senseless("prep step"))?;
            transaction
                .execute(
                    "INSERT INTO prep_event (day, step, at, what, recorded)
                     VALUES (?1, ?2, ?3, ?4, ?5)",
                    params![day.to_string(), step, time_to(at), what, time_to(now)],
                )
                .at(path)
        })?;
        Ok(())
    }

    /// What was told of a service's steps, in the order told.
    ///
    /// # Errors
    /// Where the store cannot be read.
    pub fn told_steps(&self, day: Date) -> Result<Vec<Event>, StoreError> {
        let rows: Vec<(String, i64, String)> = self
            .connection
            .prepare_cached("SELECT step, at, what FROM prep_event WHERE day = ?1 ORDER BY stamp")
            .and_then(|mut select| {
                select
                    .query_map([day.to_string()], |row| {
                        Ok((row.get(0)?, row.get(1)?, row.get(2)?))
                    })?
                    .collect()
            })
            .map_err(|error| self.sql(error))?;
        let reads = Reads(&self.path);
        rows.into_iter()
            .map(|(step, at, what)| {
                let told: Told = from_json(&what).map_err(|_| reads.senseless("prep step"))?;
                Ok(Event {
                    at: reads.time(at)?,
                    step,
                    what: told.what,
                    by: By::Hand,
                    who: told.who,
                })
            })
            .collect()
    }

    /// The runs with portions that count since a moment, for the steps that
    /// they tick.
    ///
    /// # Errors
    /// Where the store cannot be read.
    pub fn seen_runs(&self, since: Timestamp) -> Result<Vec<SeenRun>, StoreError> {
        let portions = self.portions(&Query {
            from: Some(since),
            ..Query::default()
        })?;
        let mut runs: BTreeMap<u32, SeenRun> = BTreeMap::new();
        for portion in portions.iter().filter(|p| p.counts()) {
            let Some(dish) = &portion.dish else { continue };
            runs.entry(portion.run.0)
                .or_insert_with(|| SeenRun {
                    dish: dish.to_string(),
                    portions: Vec::new(),
                    ended: None,
                })
                .portions
                .push(portion.time);
        }
        for (id, seen) in &mut runs {
            seen.ended = self
                .run(evenhand_protocol::RunId(*id))?
                .and_then(|run| run.ended);
        }
        Ok(runs.into_values().collect())
    }

    /// The batches with a title, for the steps that they tick.
    ///
    /// # Errors
    /// Where the store cannot be read.
    pub fn seen_batches(&self, since: Timestamp) -> Result<Vec<SeenBatch>, StoreError> {
        let batches = self.batches()?;
        Ok(batches
            .iter()
            .filter_map(|(_, batch)| {
                let begun = batch.begun().filter(|begun| *begun >= since)?;
                let done = batch
                    .entries()
                    .filter(|(_, struck)| !struck)
                    .find(|(entry, _)| matches!(entry.what, What::Ready { .. } | What::CameOut))
                    .map(|(entry, _)| entry.at);
                Some(SeenBatch {
                    title: batch.title()?.to_owned(),
                    begun,
                    done,
                })
            })
            .collect())
    }

    /// Puts down how many guests a service had, or is expected to have.
    ///
    /// # Errors
    /// Where the store cannot be written.
    pub fn note_covers(
        &mut self,
        day: Date,
        covers: u32,
        now: Timestamp,
    ) -> Result<(), StoreError> {
        self.write(|transaction, path| {
            transaction
                .execute(
                    "INSERT INTO cover (day, covers, recorded) VALUES (?1, ?2, ?3)",
                    params![day.to_string(), covers, time_to(now)],
                )
                .at(path)
        })?;
        Ok(())
    }

    /// How many guests a service had, or is expected to have, where that was put down.
    ///
    /// # Errors
    /// Where the store cannot be read.
    pub fn covers(&self, day: Date) -> Result<Option<u32>, StoreError> {
        let covers: Option<i64> = self
            .connection
            .query_row(
                "SELECT covers FROM cover WHERE day = ?1 ORDER BY stamp DESC LIMIT 1",
                [day.to_string()],
                |row| row.get(0),
            )
            .optional()
            .map_err(|error| self.sql(error))?;
        covers
            .map(|covers| Reads(&self.path).unsigned32(covers, "number of covers"))
            .transpose()
    }

    /// How many guests recent services had, the latest first, at most `most`,
    /// all before `before`.
    ///
    /// # Errors
    /// Where the store cannot be read.
    pub fn covers_before(&self, before: Date, most: u32) -> Result<Vec<(Date, u32)>, StoreError> {
        let rows: Vec<(String, i64)> = self
            .connection
            .prepare_cached(
                "SELECT day, covers FROM cover c
                 WHERE day < ?1 AND stamp = (SELECT max(stamp) FROM cover WHERE day = c.day)
                 ORDER BY day DESC LIMIT ?2",
            )
            .and_then(|mut select| {
                select
                    .query_map(params![before.to_string(), most], |row| {
                        Ok((row.get(0)?, row.get(1)?))
                    })?
                    .collect()
            })
            .map_err(|error| self.sql(error))?;
        let reads = Reads(&self.path);
        rows.into_iter()
            .map(|(day, covers)| {
                Ok((
                    day.parse().map_err(|_| reads.senseless("service's day"))?,
                    reads.unsigned32(covers, "number of covers")?,
                ))
            })
            .collect()
    }

    /// Puts down how many portions of a dish a service left.
    ///
    /// # Errors
    /// [`StoreError::UnknownDish`], or where the store cannot be written.
    pub fn note_left_over(
        &mut self,
        day: Date,
        dish: &DishName,
        portions: u32,
        now: Timestamp,
    ) -> Result<(), StoreError> {
        self.known_dish(dish)?;
        self.write(|transaction, path| {
            transaction
                .execute(
                    "INSERT INTO left_over (day, dish, portions, recorded)
                     SELECT ?1, id, ?3, ?4 FROM dish WHERE key = ?2",
                    params![day.to_string(), dish.key(), portions, time_to(now)],
                )
                .at(path)
        })?;
        Ok(())
    }

    /// How many portions of a dish a service left, where that was put down.
    ///
    /// # Errors
    /// Where the store cannot be read.
    pub fn left_over(&self, day: Date, dish: &DishName) -> Result<Option<u32>, StoreError> {
        let left: Option<i64> = self
            .connection
            .query_row(
                "SELECT l.portions FROM left_over l JOIN dish d ON d.id = l.dish
                 WHERE l.day = ?1 AND d.key = ?2 ORDER BY l.stamp DESC LIMIT 1",
                [day.to_string(), dish.key()],
                |row| row.get(0),
            )
            .optional()
            .map_err(|error| self.sql(error))?;
        left.map(|left| Reads(&self.path).unsigned32(left, "number of portions"))
            .transpose()
    }
}
