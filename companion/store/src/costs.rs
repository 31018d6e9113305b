//! What the food of a run costs, by time.

use super::columns::Reads;
use super::yields::tin_cost;
use super::{Sql, StoreError};
use evenhand_kitchen::units::CostPerMass;
use rusqlite::Connection;
use std::collections::HashMap;
use std::path::Path;
use std::rc::Rc;

/// What a run's food costs, by time: its tin's price as portioned, else its
/// dish's cost as it was, else the first cost its dish had.
#[derive(Debug, Clone)]
pub(super) struct Costs {
    of_tin: Option<CostPerMass>,
    /// Since when, in order.
    of_dish: Rc<[(i64, CostPerMass)]>,
}

impl Costs {
    pub(super) fn at(&self, time: i64) -> Option<CostPerMass> {
        self.of_tin.or_else(|| {
            let since = self.of_dish.partition_point(|(since, _)| *since <= time);
            self.of_dish
                .get(since.saturating_sub(1))
                .map(|(_, cost)| *cost)
        })
    }
}

/// The costs of dishes and of purchases as portioned, each reckoned once.
#[derive(Debug, Default)]
pub(super) struct KnownCosts {
    of_dish: HashMap<i64, Rc<[(i64, CostPerMass)]>>,
    of_tin: HashMap<i64, Option<CostPerMass>>,
}

impl KnownCosts {
    pub(super) fn of(
        &mut self,
        connection: &Connection,
        path: &Path,
        dish: Option<i64>,
        tin: Option<i64>,
    ) -> Result<Costs, StoreError> {
        let of_tin = match tin {
            None => None,
            Some(tin) => match self.of_tin.get(&tin) {
                Some(known) => *known,
                None => {
                    let cost = tin_cost(connection, path, tin)?;
                    self.of_tin.insert(tin, cost);
                    cost
                }
            },
        };
        let dish = dish.unwrap_or_default();
        let of_dish = match self.of_dish.get(&dish) {
            Some(known) => Rc::clone(known),
            None => {
                let costs = of_dish(connection, path, dish)?;
                self.of_dish.insert(dish, Rc::clone(&costs));
                costs
            }
        };
        Ok(Costs { of_tin, of_dish })
    }
}

fn of_dish(
    connection: &Connection,
    path: &Path,
    dish: i64,
) -> Result<Rc<[(i64, CostPerMass)]>, StoreError> {
    let reads = Reads(path);
    let mut select = connection
        .prepare_cached(
            "SELECT since, cost, currency FROM dish_version
             WHERE dish = ?1 AND cost IS NOT NULL ORDER BY since, stamp",
        )
        .at(path)?;
    let mut rows = select.query([dish]).at(path)?;
    let mut costs = Vec::new();
    while let Some(row) = rows.next().at(path)? {
        if let Some(cost) = reads.cost(row.get(1).at(path)?, row.get(2).at(path)?)? {
            costs.push((row.get(0).at(path)?, cost));
        }
    }
    Ok(costs.into())
}
