//! Whether the sums that are kept are those of their portions.

use super::{Counter, GroupKey, HIGH, block_of};
use crate::{Sql, StoreError};
use evenhand_kitchen::spread::Spread;
use evenhand_protocol::Mass;
use rusqlite::{Connection, Row, Rows};
use std::collections::{BTreeSet, HashMap, HashSet};
use std::path::Path;

/// The sums that are not those of their portions, by when their block begins
/// and by dish, 0 for none; at most `told`. Those that are to be reckoned again
/// anyway are left out, and so is money: what a purchase costs on a plate is
/// reckoned from its portions each time.
///
/// The portions are read once, in order of time, and held a block at a time.
pub(crate) fn wrong(
    connection: &Connection,
    path: &Path,
    told: usize,
) -> Result<BTreeSet<(i64, i64)>, StoreError> {
    let stale = connection
        .prepare("SELECT block FROM stale_block")
        .and_then(|mut select| select.query_map([], |row| row.get(0))?.collect())
        .at(path)?;
    let mut select = connection
        .prepare(
            "SELECT block, dish, cook, NULL, n, sum, squares_high, squares_low, short, on_target,
                    heavy, given_away, lightest, heaviest, doubt FROM tally
             UNION ALL
             SELECT block, dish, NULL, tin, n, sum, squares_high, squares_low, short, on_target,
                    heavy, given_away, lightest, heaviest, doubt FROM tally_of_tin
             ORDER BY block",
        )
        .at(path)?;
    let mut held = Held {
        kept: select.query([]).at(path)?,
        path,
        ahead: None,
        stale,
        wrong: BTreeSet::new(),
        told,
    };
    held.read()?;
    let (mut block, mut counted) = (i64::MIN, HashMap::new());
    Counter::new(connection, path).each(i64::MIN..i64::MAX, |portion| {
        let of = block_of(portion.time);
        if of != block {
            held.compare(block, &counted)?;
            counted.clear();
            block = of;
        }
        for place in [
            GroupKey::Cook(portion.cook.cloned()),
            GroupKey::Tin(portion.tin),
        ] {
            let doubt = portion.reliance.to_column();
            let spread: &mut Spread = counted.entry((portion.dish, place, doubt)).or_default();
            spread.add(portion.mass, portion.goal, None);
        }
        Ok(())
    })?;
    held.compare(block, &counted)?;
    held.compare(i64::MAX, &HashMap::new())?;
    Ok(held.wrong)
}

/// What is kept, in order of the blocks.
struct Held<'s> {
    kept: Rows<'s>,
    path: &'s Path,
    /// The next sum.
    ahead: Option<Sum>,
    stale: HashSet<i64>,
    wrong: BTreeSet<(i64, i64)>,
    told: usize,
}

struct Sum {
    block: i64,
    dish: i64,
    place: GroupKey,
    doubt: i64,
    figures: Figures,
}

impl Held<'_> {
    fn read(&mut self) -> Result<(), StoreError> {
        self.ahead = match self.kept.next().at(self.path)? {
            Some(row) => Some(Sum::read(row).at(self.path)?),
            None => None,
        };
        Ok(())
    }

    /// Holds what is kept up to this block against what was counted of it.
    fn compare(
        &mut self,
        block: i64,
        counted: &HashMap<(i64, GroupKey, i64), Spread>,
    ) -> Result<(), StoreError> {
        let mut kept: HashMap<(i64, GroupKey, i64), Figures> = HashMap::new();
        while let Some(sum) = self.ahead.take_if(|sum| sum.block <= block) {
            if sum.block < block {
                self.is_wrong(sum.block, sum.dish);
            } else {
                kept.entry((sum.dish, sum.place, sum.doubt))
                    .or_default()
                    .add(&sum.figures);
            }
            self.read()?;
        }
        for (key, spread) in counted {
            if kept.remove(key) != Some(Figures::of(spread)) {
                self.is_wrong(block, key.0);
            }
        }
        for (dish, _, _) in kept.into_keys() {
            self.is_wrong(block, dish);
        }
        Ok(())
    }

    fn is_wrong(&mut self, block: i64, dish: i64) {
        if self.wrong.len() < self.told && !self.stale.contains(&block) {
            self.wrong.insert((block, dish));
        }
    }
}

/// As wide as anything that could stand in the columns adds up to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
struct Figures {
    /// Count, sum, sum of squares, short, on, heavy and given away.
    sums: [i128; 7],
    /// The lightest and the heaviest.
    ends: Option<(i128, i128)>,
}

impl Figures {
    fn of(spread: &Spread) -> Self {
        let sums = spread.sums();
        let mass = |mass: Mass| i128::from(mass.micrograms());
        Self {
            sums: [
                sums.n as i128,
                sums.sum,
                sums.squares,
                sums.short as i128,
                sums.on as i128,
                sums.heavy as i128,
                mass(sums.given_away),
            ],
            ends: sums
                .lightest
                .zip(sums.heaviest)
                .map(|(least, most)| (mass(least), mass(most))),
        }
    }

    fn add(&mut self, other: &Self) {
        for (sum, more) in self.sums.iter_mut().zip(other.sums) {
            *sum = sum.saturating_add(more);
        }
        self.ends = match (self.ends, other.ends) {
            (Some(one), Some(two)) => Some((one.0.min(two.0), one.1.max(two.1))),
            (ends, None) | (None, ends) => ends,
        };
    }
}

impl Sum {
    fn read(row: &Row<'_>) -> rusqlite::Result<Self> {
        let number = |place: usize| row.get::<_, i64>(place).map(i128::from);
        let tin: Option<i64> = row.get(3)?;
        let place = match (row.get::<_, Option<String>>(2)?, tin) {
            (Some(cook), _) => {
                GroupKey::Cook(Some(cook.as_str().into()).filter(|_| !cook.is_empty()))
            }
            (None, tin) => GroupKey::Tin(tin.filter(|tin| *tin != 0)),
        };
        Ok(Self {
            block: row.get(0)?,
            dish: row.get(1)?,
            place,
            doubt: row.get(14)?,
            figures: Figures {
                sums: [
                    number(4)?,
                    number(5)?,
                    number(6)? * HIGH + number(7)?,
                    number(8)?,
                    number(9)?,
                    number(10)?,
                    number(11)?,
                ],
                ends: Some((number(12)?, number(13)?)),
            },
        })
    }
}
