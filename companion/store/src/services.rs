//! Services and the kitchen's settings on record.

use super::columns::{Reads, time_to};
use super::dishes::dish_name;
use super::{Sql, Store, StoreError};
use evenhand_kitchen::dish::DishName;
use evenhand_kitchen::plate::{self, Component, Plate, Plates};
use evenhand_kitchen::service::{CookFigures, DayBegins, Service, ServiceCalendar};
use jiff::Timestamp;
use jiff::civil::Date;
use jiff::tz::TimeZone;
use rusqlite::{OptionalExtension, Row, Transaction, params};
use std::collections::BTreeMap;
use std::path::Path;

const DAY_BEGINS: &str = "day_begins";
pub(super) const MADE_UP_NIGHT: &str = "made_up_night";
const COOK_FIGURES: &str = "cook_figures";
pub(super) const PLATES: &str = "plates";
/// Which dish each name in the plates meant when they were kept.
pub(super) const DISHES_OF_PLATES: &str = "dishes_of_plates";

impl Store {
    /// Puts on record when a service's first order came; a later saying goes
    /// before an earlier one.
    ///
    /// # Errors
    /// [`StoreError::OrdersReversed`], or where the store cannot be written.
    pub fn open_service(
        &mut self,
        day: Date,
        first_order: Timestamp,
    ) -> Result<Service, StoreError> {
        self.set_service(day, Some(first_order), None)
    }

    /// Puts on record when a service's last order came; a later saying goes
    /// before an earlier one.
    ///
    /// # Errors
    /// [`StoreError::OrdersReversed`], or where the store cannot be written.
    pub fn close_service(
        &mut self,
        day: Date,
        last_order: Timestamp,
    ) -> Result<Service, StoreError> {
        self.set_service(day, None, Some(last_order))
    }

    fn set_service(
        &mut self,
        day: Date,
        first: Option<Timestamp>,
        last: Option<Timestamp>,
    ) -> Result<Service, StoreError> {
        let known = self.service(day)?;
        let service = Service {
            day,
            first_order: first.or(known.and_then(|known| known.first_order)),
            last_order: last.or(known.and_then(|known| known.last_order)),
        };
        if service.lasted().is_some_and(|lasted| lasted.is_negative()) {
            return Err(StoreError::OrdersReversed(day));
        }
        self.write(|transaction, path| {
            transaction
                .execute(
                    "INSERT INTO service (day, first_order, last_order) VALUES (?1, ?2, ?3)
                     ON CONFLICT (day) DO UPDATE SET first_order = ?2, last_order = ?3",
                    params![
                        day.to_string(),
                        service.first_order.map(time_to),
                        service.last_order.map(time_to)
                    ],
                )
                .at(path)
        })?;
        Ok(service)
    }

    /// The service of a day, where anything was said of it.
    ///
    /// # Errors
    /// Where the store cannot be read.
    pub fn service(&self, day: Date) -> Result<Option<Service>, StoreError> {
        self.connection
            .query_row(
                "SELECT day, first_order, last_order FROM service WHERE day = ?1",
                [day.to_string()],
                |row| Ok(read(row, &self.path)),
            )
            .optional()
            .map_err(|error| self.sql(error))?
            .transpose()
    }

    /// The days on which anything was portioned, the latest first, at most
    /// `most` of them, none after `until`.
    ///
    /// # Errors
    /// Where the store cannot be read.
    pub fn service_days(
        &self,
        calendar: &ServiceCalendar,
        until: Option<Date>,
        most: usize,
    ) -> Result<Vec<Date>, StoreError> {
        let mut before = until.map_or(Timestamp::MAX, |day| calendar.span(day).1);
        let mut days = Vec::new();
        let mut latest = self
            .connection
            .prepare_cached("SELECT max(time) FROM portion WHERE time < ?1")
            .map_err(|error| self.sql(error))?;
        while days.len() < most {
            let time: Option<i64> = latest
                .query_row([time_to(before)], |row| row.get(0))
                .map_err(|error| self.sql(error))?;
            let Some(time) = time else {
                break;
            };
            let day = calendar.day_of(Reads(&self.path).time(time)?);
            days.push(day);
            before = calendar.span(day).0;
        }
        Ok(days)
    }

    /// When a service's day begins.
    ///
    /// # Errors
    /// Where the store cannot be read.
    pub fn day_begins(&self) -> Result<DayBegins, StoreError> {
        match self.setting(DAY_BEGINS)? {
            None => Ok(DayBegins::default()),
            Some(text) => DayBegins::parse(DAY_BEGINS, &text)
                .map_err(|_| Reads(&self.path).senseless("setting for the day's beginning")),
        }
    }

    /// Sets when a service's day begins.
    ///
    /// # Errors
    /// Where the store cannot be written.
    pub fn set_day_begins(&mut self, begins: DayBegins, now: Timestamp) -> Result<(), StoreError> {
        self.set_setting(DAY_BEGINS, &begins.to_string(), now)
    }

    /// The calendar of a kitchen in `zone`, with its day's beginning.
    ///
    /// # Errors
    /// Where the store cannot be read.
    pub fn service_calendar(&self, zone: TimeZone) -> Result<ServiceCalendar, StoreError> {
        Ok(ServiceCalendar::new(zone, self.day_begins()?))
    }

    /// Whose figures are shown to whom.
    ///
    /// # Errors
    /// Where the store cannot be read.
    pub fn cook_figures(&self) -> Result<CookFigures, StoreError> {
        match self.setting(COOK_FIGURES)? {
            None => Ok(CookFigures::default()),
            Some(text) => CookFigures::parse(COOK_FIGURES, &text)
                .map_err(|_| Reads(&self.path).senseless("setting for the cooks' figures")),
        }
    }

    /// Sets whose figures are shown to whom.
    ///
    /// # Errors
    /// Where the store cannot be written.
    pub fn set_cook_figures(
        &mut self,
        setting: CookFigures,
        now: Timestamp,
    ) -> Result<(), StoreError> {
        self.set_setting(COOK_FIGURES, setting.word(), now)
    }

    /// The plates on record, their dishes as they are called now; none where none were
    /// put there.
    ///
    /// # Errors
    /// Where the store cannot be read.
    pub fn plates(&self) -> Result<Vec<Plate>, StoreError> {
        let Some(text) = self.setting(PLATES)? else {
            return Ok(Vec::new());
        };
        let plates =
            plate::read(&text).map_err(|_| Reads(&self.path).senseless("text of plates"))?;
        let meant: BTreeMap<String, i64> = match self.setting(DISHES_OF_PLATES)? {
            None => BTreeMap::new(),
            Some(kept) => serde_json::from_str(&kept)
                .map_err(|_| Reads(&self.path).senseless("dishes of plates"))?,
        };
        self.named_now(plates, &meant)
    }

    /// Plates with their dishes as they are called now, whatever name they go by.
    ///
    /// # Errors
    /// Where the store cannot be read.
    pub fn plates_named_now(&self, plates: Vec<Plate>) -> Result<Vec<Plate>, StoreError> {
        self.named_now(plates, &BTreeMap::new())
    }

    fn named_now(
        &self,
        mut plates: Vec<Plate>,
        meant: &BTreeMap<String, i64>,
    ) -> Result<Vec<Plate>, StoreError> {
        for component in plates.iter_mut().flat_map(|plate| &mut plate.components) {
            let Component::Portioned(name) = component else {
                continue;
            };
            let now = match meant.get(&name.key()) {
                Some(id) => self.dish_called(*id)?,
                None => self.dish(name)?.map(|dish| dish.name),
            };
            if let Some(now) = now {
                *name = now;
            }
        }
        Ok(plates)
    }

    /// What a dish is called now.
    fn dish_called(&self, id: i64) -> Result<Option<DishName>, StoreError> {
        self.connection
            .query_row("SELECT name FROM dish WHERE id = ?1", [id], |row| {
                row.get(0)
            })
            .optional()
            .map_err(|error| self.sql(error))?
            .map(|name| dish_name(name, &self.path))
            .transpose()
    }

    /// Which dishes the names in some plates mean now.
    fn meant_by(&self, plates: &[Plate]) -> Result<BTreeMap<String, i64>, StoreError> {
        let mut meant = BTreeMap::new();
        for component in plates.iter().flat_map(|plate| &plate.components) {
            let Component::Portioned(name) = component else {
                continue;
            };
            let Some(dish) = self.dish(name)? else {
                continue;
            };
            let id = self
                .connection
                .query_row(
                    "SELECT id FROM dish WHERE key = ?1",
                    [dish.name.key()],
                    |row| row.get(0),
                )
                .map_err(|error| self.sql(error))?;
            meant.insert(name.key(), id);
        }
        Ok(meant)
    }

    /// Puts plates on record, in place of those that were there: a text that
    /// [`plate::read`] reads. A dish that is renamed later stays on its plates.
    ///
    /// # Errors
    /// [`StoreError::Senseless`] where the text is none such, or where the store
    /// cannot be written. What was there stays then.
    pub fn set_plates(&mut self, text: &str, now: Timestamp) -> Result<(), StoreError> {
        let Ok(plates) = plate::read(text) else {
            return Err(Reads(&self.path).senseless("text of plates"));
        };
        let meant = serde_json::to_string(&self.meant_by(&plates)?)
            .map_err(|_| Reads(&self.path).senseless("dishes of plates"))?;
        self.write(|transaction, path| {
            set(transaction, path, DISHES_OF_PLATES, &meant, now)?;
            set(transaction, path, PLATES, text, now)
        })?;
        Ok(())
    }

    /// Puts plates on record that were changed one by one, as [`Store::set_plates`] does.
    ///
    /// # Errors
    /// Where they cannot be written.
    pub fn keep_plates(&mut self, plates: &Plates, now: Timestamp) -> Result<(), StoreError> {
        let text = plates
            .written()
            .map_err(|_| Reads(&self.path).senseless("text of plates"))?;
        self.set_plates(&text, now)
    }

    /// The seed of the made-up night that the store holds, if it holds one.
    ///
    /// # Errors
    /// Where the store cannot be read.
    pub fn made_up_night(&self) -> Result<Option<u64>, StoreError> {
        self.setting(MADE_UP_NIGHT)?
            .map(|seed| {
                seed.parse()
                    .map_err(|_| Reads(&self.path).senseless("seed of a made-up night"))
            })
            .transpose()
    }

    /// Notes that the store holds a made-up night.
    ///
    /// # Errors
    /// Where the store cannot be written.
    pub fn set_made_up_night(&mut self, seed: u64, now: Timestamp) -> Result<(), StoreError> {
        self.set_setting(MADE_UP_NIGHT, &seed.to_string(), now)
    }

    fn setting(&self, name: &str) -> Result<Option<String>, StoreError> {
        self.connection
            .query_row("SELECT value FROM setting WHERE name = ?1", [name], |row| {
                row.get(0)
            })
            .optional()
            .map_err(|error| self.sql(error))
    }

    fn set_setting(&mut self, name: &str, value: &str, now: Timestamp) -> Result<(), StoreError> {
        self.write(|transaction, path| set(transaction, path, name, value, now))?;
        Ok(())
    }
}

fn set(
    transaction: &Transaction<'_>,
    path: &Path,
    name: &str,
    value: &str,
    now: Timestamp,
) -> Result<(), StoreError> {
    transaction
        .execute(
            "INSERT INTO setting (name, value, since) VALUES (?1, ?2, ?3)
             ON CONFLICT (name) DO UPDATE SET value = ?2, since = ?3",
            params![name, value, time_to(now)],
        )
        .at(path)?;
    Ok(())
}

fn read(row: &Row<'_>, path: &Path) -> Result<Service, StoreError> {
    let reads = Reads(path);
    let day: String = row.get(0).at(path)?;
    Ok(Service {
        day: day.parse().map_err(|_| reads.senseless("service's day"))?,
        first_order: reads.time_or_none(row.get(1).at(path)?)?,
        last_order: reads.time_or_none(row.get(2).at(path)?)?,
    })
}
