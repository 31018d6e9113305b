//! A look at every row: nothing missing, nothing changed, or exactly what.

use super::columns::device_from;
use super::dishes::dish_name;
use super::hash_chain::{self, Chain, Refused};
use super::{Sql, Store, StoreError, checksum, columns, pictures, tallies};
use evenhand_kitchen::book::PictureId;
use evenhand_kitchen::dish::DishName;
use evenhand_protocol::{CapturedPortion, DeviceId, Epoch, PortionId};
use jiff::Timestamp;
use rusqlite::{Connection, OptionalExtension, Row};
use std::path::Path;

/// How many findings of one kind are told.
pub(super) const TOLD: usize = 100;

/// Something in a store that is not as it was written, or not there.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Finding {
    /// The file's structure is damaged; what SQLite says of it.
    Structure(String),
    /// A row says that it belongs to one that is not there.
    Orphan {
        /// The table that holds the row.
        table: String,
    },
    /// A portion does not read as it was written.
    PortionChanged(PortionId),
    /// A strike of this portion does not read as it was written.
    StrikeChanged(PortionId),
    /// A portion is not as its instrument made it, by what the portion made
    /// next carries of it; or that is not.
    NotAsMade {
        /// The portion.
        portion: PortionId,
        /// The portion made next.
        said_by: PortionId,
    },
    /// A portion carries nothing of the one before, and those before it do: it
    /// is none of its instrument's, or was changed.
    Unlinked(PortionId),
    /// A portion's position in the hash chain is not behind that of the one
    /// before.
    Misplaced(PortionId),
    /// Portions that an instrument made in earlier starts and that are not
    /// here: lost, or recorded on another computer or by an older program.
    MissingBefore {
        /// The portion made after them.
        before: PortionId,
        /// How many, with those that the instrument had no place for.
        many: u32,
    },
    /// Portions that the instrument made and had no place for; it told them as
    /// lost at the time.
    GivenUp {
        /// The portion made after them.
        before: PortionId,
        /// How many.
        many: u32,
    },
    /// An instrument began its hash chain anew: its memory was lost, or could
    /// not be read; or it is a simulated one without a memory of its own.
    BegunAgain {
        /// The first portion of such a chain, that of the highest epoch.
        with: PortionId,
        /// How often.
        times: u32,
    },
    /// Two portions say that they were made after the same one: the
    /// instrument's memory could not keep the first of them, or that one is
    /// none of its own.
    Forked {
        /// The portion before both.
        after: PortionId,
        /// The one.
        one: PortionId,
        /// The other, of another start.
        other: PortionId,
    },
    /// Portions that an instrument numbered and that are not here, between
    /// others that are: lost, or recorded on another computer.
    Missing {
        /// The instrument.
        device: DeviceId,
        /// Which start of it.
        epoch: Epoch,
        /// The first number missing.
        first: u32,
        /// The last number missing.
        last: u32,
    },
    /// A portion is linked with one that it cannot correct or be corrected by.
    SenselessCorrection(PortionId),
    /// A picture, or what is said of it, does not read as it was written.
    PictureChanged(PictureId),
    /// A sum kept for reviews is not that of its portions.
    WrongSum {
        /// What was portioned; `None` of runs begun elsewhere.
        dish: Option<DishName>,
        /// When the 32 days that it is of began.
        from: Timestamp,
    },
}

impl Finding {
    /// Whether the store is not what was written or made; a gap alone may be
    /// another computer's portions, and what the instrument itself lost is no
    /// damage here.
    #[must_use]
    pub const fn is_damage(&self) -> bool {
        !matches!(
            self,
            Self::Missing { .. }
                | Self::MissingBefore { .. }
                | Self::GivenUp { .. }
                | Self::BegunAgain { .. }
                | Self::Forked { .. }
        )
    }
}

impl core::fmt::Display for Finding {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        match self {
            Self::Structure(why) => write!(f, "the file's structure is damaged ({why})"),
            Self::Orphan { table } => {
                write!(f, "a row of {table} belongs to one that is not there")
            }
            Self::PortionChanged(id) => {
                write!(f, "portion {id} does not read as it was written")
            }
            Self::StrikeChanged(id) => {
                write!(
                    f,
                    "a strike of portion {id} does not read as it was written"
                )
            }
            Self::NotAsMade { portion, said_by } => write!(
                f,
                "portion {portion} is not as the scale made it, by what the next one, {said_by}, \
                 carries of it"
            ),
            Self::Unlinked(id) => write!(
                f,
                "portion {id} carries nothing of the one before it, as those before it do"
            ),
            Self::Misplaced(id) => {
                write!(
                    f,
                    "portion {id} stands at the wrong place in its scale's chain"
                )
            }
            Self::MissingBefore { before, many } => write!(
                f,
                "{} made before portion {before} {} not here: lost, or recorded on another computer \
                 or by an older program",
                portions(*many),
                if *many == 1 { "is" } else { "are" }
            ),
            Self::GivenUp { before, many } => write!(
                f,
                "the scale itself had no place for {} made before portion {before}",
                portions(*many)
            ),
            Self::BegunAgain { with, times } => {
                write!(f, "the scale began its chain anew with portion {with}")?;
                if *times > 1 {
                    write!(f, ", and {} times before", times - 1)?;
                }
                f.write_str(": its memory was lost, or could not be read")
            }
            Self::Forked { after, one, other } => write!(
                f,
                "portions {one} and {other} both follow portion {after}: the scale's memory could \
                 not keep the first, or it is not the scale's own"
            ),
            Self::Missing {
                device,
                epoch,
                first,
                last,
            } => {
                let id = |number| PortionId {
                    device: *device,
                    epoch: *epoch,
                    number,
                };
                if first == last {
                    write!(f, "portion {} is not here", id(*first))?;
                } else {
                    write!(f, "portions {} to {} are not here", id(*first), id(*last))?;
                }
                f.write_str(": lost, or recorded on another computer")
            }
            Self::SenselessCorrection(id) => {
                write!(f, "portion {id} is linked with one that it cannot correct")
            }
            Self::PictureChanged(id) => {
                write!(f, "picture {id} does not read as it was written")
            }
            Self::WrongSum { dish, from } => write!(
                f,
                "the sum kept of {} for the 32 days from {from} is not that of the portions",
                dish.as_ref()
                    .map_or("runs begun elsewhere", DishName::as_str)
            ),
        }
    }
}

fn portions(many: u32) -> String {
    match many {
        1 => "1 portion".to_owned(),
        many => format!("{many} portions"),
    }
}

/// What a look at every row found.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Examination {
    /// How many portions were read.
    pub portions: u64,
    /// Of each instrument, how many of them bear witness to each other.
    pub chains: Vec<Chain>,
    /// What was found; at most a hundred of a kind. Empty where every row
    /// reads as it was written and no number is missing.
    pub findings: Vec<Finding>,
}

impl Examination {
    /// Whether everything reads as it was written.
    #[must_use]
    pub fn is_sound(&self) -> bool {
        !self.findings.iter().any(Finding::is_damage)
    }
}

impl Store {
    /// Reads every row: whether the file's structure is whole, each row reads
    /// as it was written, each portion as the one made next says that it was
    /// made, corrections lead somewhere, sums are those of their
    /// portions, and no number is missing between others.
    ///
    /// # Errors
    /// Where the store cannot be read at all.
    pub fn examine(&self) -> Result<Examination, StoreError> {
        examine(&self.connection, &self.path)
    }

    /// As [`Store::examine`], for whoever only wants to know whether it is
    /// sound.
    ///
    /// # Errors
    /// [`StoreError::Damaged`] with the first thing found.
    pub fn check(&self) -> Result<(), StoreError> {
        let found = self.examine()?.findings;
        let damage: Vec<_> = found.iter().filter(|found| found.is_damage()).collect();
        let Some(first) = damage.first() else {
            return Ok(());
        };
        let more = match damage.len() - 1 {
            0 => String::new(),
            more => format!(", and {more} more; `evenhand check` lists them"),
        };
        Err(StoreError::Damaged {
            path: self.path.clone(),
            why: format!("{first}{more}"),
        })
    }
}

pub(super) fn examine(connection: &Connection, path: &Path) -> Result<Examination, StoreError> {
    let mut found = Examination::default();
    if let Err(error) = super::backup::check(connection, path, "quick_check") {
        let StoreError::Damaged { why, .. } = error else {
            return Err(error);
        };
        found.findings.push(Finding::Structure(why));
        return Ok(found);
    }
    let refused = refused(connection).at(path)?;
    let findings = &mut found.findings;
    findings.extend(
        all(connection, "PRAGMA foreign_key_check", |row| {
            Ok(Finding::Orphan { table: row.get(0)? })
        })
        .at(path)?,
    );
    let read = hash_chain::read(connection, path, &refused)?;
    findings.extend(read.findings);
    (found.portions, found.chains) = (read.portions, read.chains);
    findings.extend(
        all(
            connection,
            &format!(
                "SELECT s.device, s.epoch, p.number
                 FROM strike k JOIN portion p ON p.seq = k.portion JOIN start s ON s.id = p.start
                 WHERE k.checksum IS NOT strike_checksum({})",
                of("k", checksum::OF_STRIKE)
            ),
            |row| id(row).map(Finding::StrikeChanged),
        )
        .at(path)?,
    );
    findings.extend(
        all(
            connection,
            "SELECT s.device, s.epoch, p.number FROM portion p JOIN start s ON s.id = p.start
             LEFT JOIN portion earlier ON earlier.seq = p.replaces
             LEFT JOIN portion later ON later.seq = p.replaced_by
             WHERE p.corrects >= p.number
                OR (p.replaces IS NOT NULL AND (earlier.start, earlier.run) IS NOT (p.start, p.run))
                OR (p.replaced_by IS NOT NULL AND (later.start, later.run) IS NOT (p.start, p.run))
                OR earlier.number >= p.number OR later.number <= p.number",
            |row| id(row).map(Finding::SenselessCorrection),
        )
        .at(path)?,
    );
    findings.extend(
        pictures::changed(connection)
            .at(path)?
            .into_iter()
            .take(TOLD)
            .map(Finding::PictureChanged),
    );
    findings.extend(wrong_sums(connection, path)?);
    findings.extend(missing(connection, path, &refused)?);
    Ok(found)
}

/// Columns of a table by its short name.
fn of(table: &str, columns: &str) -> String {
    let columns: Vec<_> = columns
        .split(',')
        .map(|column| format!("{table}.{}", column.trim()))
        .collect();
    columns.join(", ")
}

fn id(row: &Row<'_>) -> rusqlite::Result<PortionId> {
    Ok(PortionId {
        device: device_from(row.get(0)?),
        epoch: Epoch(row.get(1)?),
        number: row.get(2)?,
    })
}

/// What a statement gives, up to as many as are told.
fn all<T>(
    connection: &Connection,
    statement: &str,
    read: impl Fn(&Row<'_>) -> rusqlite::Result<T>,
) -> rusqlite::Result<Vec<T>> {
    let mut select = connection.prepare(statement)?;
    let mut rows = select.query([])?;
    let mut read_rows = Vec::new();
    while let Some(row) = rows.next()?
        && read_rows.len() < TOLD
    {
        read_rows.push(read(row)?);
    }
    Ok(read_rows)
}

/// Sums that are not those of their portions, apart from those that are to be
/// reckoned again anyway.
fn wrong_sums(connection: &Connection, path: &Path) -> Result<Vec<Finding>, StoreError> {
    let mut dish_of = connection
        .prepare("SELECT name FROM dish WHERE id = ?1")
        .at(path)?;
    tallies::wrong(connection, path, TOLD)?
        .into_iter()
        .map(|(block, dish)| {
            let name: Option<String> = dish_of
                .query_row([dish], |row| row.get(0))
                .optional()
                .at(path)?;
            Ok(Finding::WrongSum {
                dish: name.map(|name| dish_name(name, path)).transpose()?,
                from: columns::Reads(path).time(tallies::begin(block))?,
            })
        })
        .collect()
}

/// Numbers missing below others of one start; what was refused as a portion
/// is not missing.
fn missing(
    connection: &Connection,
    path: &Path,
    refused: &Refused,
) -> Result<Vec<Finding>, StoreError> {
    let gaps = all(
        connection,
        "SELECT s.device, s.epoch, g.before + 1, g.number - 1 FROM (
             SELECT start, number,
                    lag(number, 1, 0) OVER (PARTITION BY start ORDER BY number) AS before
             FROM portion) g
         JOIN start s ON s.id = g.start
         WHERE g.number > g.before + 1",
        |row| {
            Ok((
                device_from(row.get(0)?),
                Epoch(row.get(1)?),
                row.get::<_, u32>(2)?,
                row.get::<_, u32>(3)?,
            ))
        },
    )
    .at(path)?;
    let mut missing = Vec::new();
    for (device, epoch, first, last) in gaps {
        let mut from = first;
        let within = (device.0, epoch.0, first)..=(device.0, epoch.0, last);
        let mut tell = |first: u32, last: u32| {
            if first <= last {
                missing.push(Finding::Missing {
                    device,
                    epoch,
                    first,
                    last,
                });
            }
        };
        for ((_, _, number), _) in refused.range(within) {
            tell(from, number.saturating_sub(1));
            from = number.saturating_add(1);
        }
        tell(from, last);
    }
    Ok(missing)
}

fn refused(connection: &Connection) -> rusqlite::Result<Refused> {
    let mut select = connection.prepare("SELECT came FROM refused")?;
    let came = select.query_map([], |row| row.get::<_, String>(0))?;
    let mut refused = Refused::new();
    for came in came {
        // Evidence of another form is of no portion that could be missing.
        if let Ok(portion) = columns::from_json::<CapturedPortion>(&came?) {
            let id = portion.id;
            refused.insert((id.device.0, id.epoch.0, id.number), portion);
        }
    }
    Ok(refused)
}
