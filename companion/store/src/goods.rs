//! What the kitchen buys, and what was told of goods in hand.

use super::columns::{Reads, from_json, time_to};
use super::{Sql, Store, StoreError};
use evenhand_kitchen::portion::{StrikeReason, Struck};
use evenhand_kitchen::prep::{GoodsTold, PlacedOrder};
use jiff::Timestamp;
use rusqlite::{OptionalExtension, params};

impl Store {
    /// Keeps a list of what the kitchen buys, as TOML; it takes the place of the one before.
    ///
    /// # Errors
    /// Where the store cannot be written.
    pub fn keep_goods(&mut self, list: &str, now: Timestamp) -> Result<(), StoreError> {
        self.write(|transaction, path| {
            transaction
                .execute(
                    "INSERT INTO goods_list (since, list) VALUES (?1, ?2)",
                    params![time_to(now), list],
                )
                .at(path)
        })?;
        Ok(())
    }

    /// The list of what the kitchen buys, where one was kept.
    ///
    /// # Errors
    /// Where the store cannot be read.
    pub fn goods(&self) -> Result<Option<String>, StoreError> {
        self.connection
            .query_row(
                "SELECT list FROM goods_list ORDER BY stamp DESC LIMIT 1",
                [],
                |row| row.get(0),
            )
            .optional()
            .map_err(|error| self.sql(error))
    }

    /// Puts down what was told of goods, by their name in any case.
    ///
    /// # Errors
    /// Where the store cannot be written.
    pub fn tell_goods(
        &mut self,
        goods: &str,
        at: Timestamp,
        what: GoodsTold,
        now: Timestamp,
    ) -> Result<(), StoreError> {
        self.write(|transaction, path| {
            let what = serde_json::to_string(&what).map_err(|_| Reads(path).senseless("goods"))?;
            transaction
                .execute(
                    "INSERT INTO goods_event (goods, at, what, recorded) VALUES (?1, ?2, ?3, ?4)",
                    params![goods.to_lowercase(), time_to(at), what, time_to(now)],
                )
                .at(path)
        })?;
        Ok(())
    }

    /// What was told of goods, by their name in any case, in the order told; orders that were
    /// taken back left out.
    ///
    /// # Errors
    /// Where the store cannot be read.
    pub fn told_goods(&self, goods: &str) -> Result<Vec<(Timestamp, GoodsTold)>, StoreError> {
        let told = self.goods_events(Some(goods))?;
        let counts = told.into_iter().filter(|event| event.taken_back.is_none());
        Ok(counts.map(|event| (event.at, event.what)).collect())
    }

    /// Orders of goods, or of all, as they were put down, the last first; those that were taken
    /// back, too.
    ///
    /// # Errors
    /// Where the store cannot be read.
    pub fn placed_orders(&self, goods: Option<&str>) -> Result<Vec<PlacedOrder>, StoreError> {
        let told = self.goods_events(goods)?;
        let orders = told.into_iter().rev().filter_map(|event| match event.what {
            GoodsTold::Ordered { packs, comes } => Some(PlacedOrder {
                number: event.number,
                goods: event.goods,
                at: event.at,
                packs,
                comes,
                taken_back: event.taken_back,
            }),
            GoodsTold::Counted { .. } => None,
        });
        Ok(orders.collect())
    }

    /// Takes orders back: they stay on record with the reason and count no more. All of them or
    /// none.
    ///
    /// # Errors
    /// [`StoreError::UnknownOrder`], [`StoreError::OrderIsSo`], or where the store cannot be
    /// written.
    pub fn take_back_orders(
        &mut self,
        numbers: &[u32],
        reason: &StrikeReason,
        at: Timestamp,
    ) -> Result<(), StoreError> {
        self.turn_orders(numbers, Some(reason), at)
    }

    /// Lets orders count again that were taken back. That they were stays on record.
    ///
    /// # Errors
    /// As for [`Store::take_back_orders`].
    pub fn put_orders_back(&mut self, numbers: &[u32], at: Timestamp) -> Result<(), StoreError> {
        self.turn_orders(numbers, None, at)
    }

    fn turn_orders(
        &mut self,
        numbers: &[u32],
        reason: Option<&StrikeReason>,
        at: Timestamp,
    ) -> Result<(), StoreError> {
        let orders = self.placed_orders(None)?;
        for number in numbers {
            let order = orders.iter().find(|order| order.number == *number);
            let order = order.ok_or(StoreError::UnknownOrder(*number))?;
            if order.taken_back.is_some() == reason.is_some() {
                return Err(StoreError::OrderIsSo {
                    number: *number,
                    taken_back: reason.is_some(),
                });
            }
        }
        self.write(|transaction, path| {
            for number in numbers {
                transaction
                    .execute(
                        "INSERT INTO goods_taken_back (event, at, reason) VALUES (?1, ?2, ?3)",
                        params![number, time_to(at), reason.map(StrikeReason::as_str)],
                    )
                    .at(path)?;
            }
            Ok(())
        })
    }

    /// Everything that was told of goods, or of all, in the order told.
    fn goods_events(&self, goods: Option<&str>) -> Result<Vec<GoodsEvent>, StoreError> {
        type Row = (i64, String, i64, String, Option<i64>, Option<String>);
        let rows: Vec<Row> = self
            .connection
            .prepare_cached(
                "SELECT e.id, e.goods, e.at, e.what, t.at, t.reason
                 FROM goods_event e LEFT JOIN goods_taken_back t ON t.stamp =
                     (SELECT max(stamp) FROM goods_taken_back WHERE event = e.id)
                 WHERE ?1 IS NULL OR e.goods = ?1 ORDER BY e.stamp",
            )
            .and_then(|mut select| {
                let each = |row: &rusqlite::Row<'_>| {
                    Ok((
                        row.get(0)?,
                        row.get(1)?,
                        row.get(2)?,
                        row.get(3)?,
                        row.get(4)?,
                        row.get(5)?,
                    ))
                };
                select
                    .query_map([goods.map(str::to_lowercase)], each)?
                    .collect()
            })
            .map_err(|error| self.sql(error))?;
        let reads = Reads(&self.path);
        rows.into_iter()
            .map(|(id, goods, at, what, turned, reason)| {
                let reason = reason
                    .map(|text| StrikeReason::new("reason", &text))
                    .transpose();
                let reason = reason.map_err(|_| reads.senseless("reason of an order"))?;
                let taken_back = match turned.zip(reason) {
                    Some((at, reason)) => Some(Struck {
                        reason,
                        at: reads.time(at)?,
                    }),
                    None => None,
                };
                Ok(GoodsEvent {
                    number: reads.unsigned32(id, "number of an order")?,
                    goods,
                    at: reads.time(at)?,
                    what: from_json(&what).map_err(|_| reads.senseless("count of goods"))?,
                    taken_back,
                })
            })
            .collect()
    }
}

/// Something told of goods.
struct GoodsEvent {
    number: u32,
    goods: String,
    at: Timestamp,
    what: GoodsTold,
    taken_back: Option<Struck>,
}
