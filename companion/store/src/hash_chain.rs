//! Portions read one by one in the order of their making: each as it was
//! written, and each as the one made after it says.

use super::columns::{Reads, device_from, device_to};
use super::examination::{Finding, TOLD};
use super::imports::ELSEWHERE;
use super::{Sql, StoreError, checksum};
use evenhand_protocol::report::{Capabilities, Doubts};
use evenhand_protocol::{
    CapturedPortion, ChainLink, DeviceId, Epoch, Mass, PortionId, RunId, Temperature, Uptime,
};
use rusqlite::types::ValueRef;
use rusqlite::{Connection, OptionalExtension, Row};
use std::collections::{BTreeMap, HashMap};
use std::path::Path;

/// How many portions of an instrument bear witness to each other.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Chain {
    /// The instrument.
    pub device: DeviceId,
    /// How many stand in its hash chain.
    pub linked: u64,
    /// How many do not: it makes none, or made none then, or told an older
    /// program.
    pub unlinked: u64,
}

/// What came as a portion and was refused, by device, epoch and number: it is
/// part of the chain all the same.
pub(super) type Refused = BTreeMap<(u64, u32, u32), CapturedPortion>;

/// What was found in the portions' rows.
#[derive(Debug, Default)]
pub(super) struct Read {
    pub(super) portions: u64,
    pub(super) chains: Vec<Chain>,
    pub(super) findings: Vec<Finding>,
}

/// A portion in a chain.
#[derive(Debug, Clone, Copy)]
struct Link {
    id: PortionId,
    link: ChainLink,
    /// Of what reads here; none where that cannot be a portion.
    digest: Option<u64>,
    /// Whether the row reads as it was written, and so whether a finding of it
    /// is still to be told.
    whole: bool,
}

impl Link {
    /// How many positions are left out between this one and a later one;
    /// `None` where that is not later.
    fn left_out_until(&self, later: &Self) -> Option<u32> {
        later
            .link
            .position
            .checked_sub(self.link.position)?
            .checked_sub(1)
    }

    fn is_told_by(&self, later: &Self) -> bool {
        self.digest == Some(later.link.previous)
    }
}

/// What of a chain lies within one start of an instrument.
#[derive(Debug, Clone, Copy)]
struct Stretch {
    start: i64,
    first: Link,
    last: Link,
}

/// The columns of [`OF_PORTION`](checksum::OF_PORTION) and those behind them.
const BEHIND: &str = "chain_position, chain_previous, checksum, seq";
const COLUMNS: usize = checksum::PORTION_COLUMNS;

/// Reads every portion.
pub(super) fn read(
    connection: &Connection,
    path: &Path,
    refused: &Refused,
) -> Result<Read, StoreError> {
    let starts = numbers(connection, "SELECT id, device, epoch FROM start").at(path)?;
    let runs = numbers(connection, "SELECT seq, id, 0 FROM run").at(path)?;
    let mut reader = Reader {
        path,
        runs: &runs,
        refused,
        read: Read::default(),
        chains: BTreeMap::new(),
        stretches: BTreeMap::new(),
        now: None,
    };
    let mut select = connection
        .prepare(&format!(
            "SELECT {}, {BEHIND} FROM portion ORDER BY start, number",
            checksum::OF_PORTION
        ))
        .at(path)?;
    let mut rows = select.query([]).at(path)?;
    while let Some(row) = rows.next().at(path)? {
        let columns = Columns::of(row).at(path)?;
        let start = columns.of_portion[0].unwrap_or_default();
        let (device, epoch) = starts.get(&start).copied().unwrap_or_default();
        let id = PortionId {
            device: device_from(device),
            epoch: Epoch(Reads(path).unsigned32(epoch, "epoch")?),
            number: Reads(path).unsigned32(columns.of_portion[1].unwrap_or_default(), "number")?,
        };
        reader.take(start, id, &columns);
    }
    reader.end_start();
    let stretches = std::mem::take(&mut reader.stretches);
    for (device, stretches) in stretches {
        join(connection, path, DeviceId(device), stretches, &mut reader)?;
    }
    let Reader {
        mut read, chains, ..
    } = reader;
    read.chains = chains.into_values().collect();
    Ok(read)
}

fn numbers(connection: &Connection, statement: &str) -> rusqlite::Result<HashMap<i64, (i64, i64)>> {
    connection
        .prepare(statement)?
        .query_map([], |row| Ok((row.get(0)?, (row.get(1)?, row.get(2)?))))?
        .collect()
}

/// A row of a portion.
struct Columns {
    of_portion: [Option<i64>; COLUMNS],
    position: Option<i64>,
    previous: Option<i64>,
    seq: i64,
    whole: bool,
}

impl Columns {
    fn of(row: &Row<'_>) -> rusqlite::Result<Self> {
        // Only rot puts anything but a whole number or nothing there.
        let mut odd = false;
        let mut next = 0;
        let mut take = || -> rusqlite::Result<Option<i64>> {
            let value = match row.get_ref(next)? {
                ValueRef::Integer(number) => Some(number),
                ValueRef::Null => None,
                _ => {
                    odd = true;
                    None
                }
            };
            next += 1;
            Ok(value)
        };
        let mut of_portion = [None; COLUMNS];
        for column in &mut of_portion {
            *column = take()?;
        }
        let (position, previous, sum, seq) = (take()?, take()?, take()?, take()?);
        let whole = sum == Some(checksum::of_portion(&of_portion, position.zip(previous)));
        Ok(Self {
            of_portion,
            position,
            previous,
            seq: seq.unwrap_or_default(),
            whole: whole && !odd && position.is_some() == previous.is_some(),
        })
    }

    fn link(&self) -> Option<ChainLink> {
        Some(ChainLink {
            position: u32::try_from(self.position?).ok()?,
            previous: self.previous?.cast_unsigned(),
        })
    }

    /// The portion as its instrument made it, but for the wall's clock.
    fn portion(
        &self,
        id: PortionId,
        runs: &HashMap<i64, (i64, i64)>,
        path: &Path,
    ) -> Option<CapturedPortion> {
        let reads = Reads(path);
        let [
            _,
            _,
            run,
            mode,
            mass,
            target,
            below,
            above,
            uptime,
            _,
            _,
            temperature,
            doubts,
            uncertainty,
            left,
            corrects,
            _,
        ] = self.of_portion;
        let optional32 = |column: Option<i64>| column.map(u32::try_from).transpose().ok();
        Some(CapturedPortion {
            id,
            run: RunId(u32::try_from(runs.get(&run?)?.0).ok()?),
            at: Uptime::from_millis(u64::try_from(uptime?).ok()?),
            unix: None,
            mode: reads.mode(mode?).ok()?,
            mass: Mass::from_micrograms(mass?),
            goal: reads.goal(target?, below?, above?).ok()?,
            temperature: temperature
                .map(i32::try_from)
                .transpose()
                .ok()?
                .map(Temperature::from_millicelsius),
            replaces: optional32(corrects)?,
            doubts: Doubts(u32::try_from(doubts?).ok()?),
            uncertainty: uncertainty.map(Mass::from_micrograms),
            left: left.map(Mass::from_micrograms),
            chain_link: self.link(),
        })
    }
}

struct Reader<'a> {
    path: &'a Path,
    runs: &'a HashMap<i64, (i64, i64)>,
    refused: &'a Refused,
    read: Read,
    chains: BTreeMap<u64, Chain>,
    /// By device.
    stretches: BTreeMap<u64, Vec<Stretch>>,
    now: Option<InStart>,
}

/// Where the reading is within a start.
struct InStart {
    start: i64,
    last_id: PortionId,
    /// The last portion, where it is linked.
    before: Option<Link>,
    stretch: Option<Stretch>,
    /// The row recorded first of those that are linked.
    first_linked: Option<i64>,
}

impl Reader<'_> {
    /// Tells a finding; of each kind up to as many as are told.
    fn tell(&mut self, finding: Finding) {
        let kind = std::mem::discriminant(&finding);
        let told = self.read.findings.iter();
        if told
            .filter(|known| std::mem::discriminant(*known) == kind)
            .count()
            < TOLD
        {
            self.read.findings.push(finding);
        }
    }

    fn take(&mut self, start: i64, id: PortionId, columns: &Columns) {
        self.read.portions += 1;
        if !columns.whole {
            self.tell(Finding::PortionChanged(id));
        }
        if id.device == ELSEWHERE {
            return;
        }
        if self.now.as_ref().is_none_or(|now| now.start != start) {
            self.end_start();
        }
        self.take_refused_before(id, start);
        let link = columns.link().map(|link| Link {
            id,
            link,
            digest: columns
                .portion(id, self.runs, self.path)
                .and_then(|portion| portion.digest()),
            whole: columns.whole,
        });
        let chain = self.chains.entry(id.device.0).or_insert(Chain {
            device: id.device,
            linked: 0,
            unlinked: 0,
        });
        match link {
            Some(_) => chain.linked += 1,
            None => chain.unlinked += 1,
        }
        // What an older program recorded is not linked, and may have overtaken
        // what came later.
        let after_linked = self
            .now
            .as_ref()
            .is_some_and(|now| now.first_linked.is_some_and(|first| first < columns.seq));
        if link.is_none() && after_linked && columns.whole {
            self.tell(Finding::Unlinked(id));
        }
        self.follow(start, id, link);
        if link.is_some()
            && let Some(now) = &mut self.now
        {
            let first = now.first_linked.unwrap_or(columns.seq);
            now.first_linked = Some(first.min(columns.seq));
        }
    }

    /// What was refused between the last portion and this one.
    fn take_refused_before(&mut self, id: PortionId, start: i64) {
        let from = self
            .now
            .as_ref()
            .map_or(0, |now| now.last_id.number.saturating_add(1));
        self.take_refused(id, from, id.number, start);
    }

    fn take_refused(&mut self, of: PortionId, from: u32, below: u32, start: i64) {
        if from >= below {
            return;
        }
        let key = |number| (of.device.0, of.epoch.0, number);
        let refused: Vec<CapturedPortion> = self
            .refused
            .range(key(from)..key(below))
            .map(|(_, portion)| *portion)
            .collect();
        for portion in refused {
            let link = portion.chain_link.map(|link| Link {
                id: portion.id,
                link,
                digest: portion.digest(),
                whole: true,
            });
            if link.is_some() {
                self.follow(start, portion.id, link);
            }
        }
    }

    /// Goes one portion further within a start.
    fn follow(&mut self, start: i64, id: PortionId, link: Option<Link>) {
        let Some(now) = &mut self.now else {
            self.now = Some(InStart {
                start,
                last_id: id,
                before: link,
                stretch: link.map(|link| Stretch {
                    start,
                    first: link,
                    last: link,
                }),
                first_linked: None,
            });
            return;
        };
        let before = std::mem::replace(&mut now.before, link);
        now.last_id = id;
        let Some(link) = link else {
            return;
        };
        match &mut now.stretch {
            Some(stretch) => stretch.last = link,
            none => {
                *none = Some(Stretch {
                    start,
                    first: link,
                    last: link,
                });
            }
        }
        let Some(before) = before else {
            return;
        };
        let missing = id.number.saturating_sub(before.id.number).saturating_sub(1);
        let finding = match before.left_out_until(&link) {
            None => Some(Finding::Misplaced(id)),
            Some(0) if before.is_told_by(&link) => None,
            Some(many) if before.is_told_by(&link) => Some(Finding::GivenUp { before: id, many }),
            // Said of the numbers already.
            Some(many) if missing > 0 && many >= missing => None,
            Some(_) => Some(Finding::NotAsMade {
                portion: before.id,
                said_by: id,
            }),
        };
        if let Some(finding) = finding
            && before.whole
            && link.whole
        {
            self.tell(finding);
        }
    }

    fn end_start(&mut self) {
        let Some(last) = self.now.as_ref().map(|now| (now.last_id, now.start)) else {
            return;
        };
        let (id, start) = last;
        self.take_refused(id, id.number.saturating_add(1), u32::MAX, start);
        if let Some(stretch) = self.now.take().and_then(|now| now.stretch) {
            self.stretches.entry(id.device.0).or_default().push(stretch);
        }
    }
}

/// Puts the stretches of one instrument's starts together.
fn join(
    connection: &Connection,
    path: &Path,
    device: DeviceId,
    mut stretches: Vec<Stretch>,
    reader: &mut Reader<'_>,
) -> Result<(), StoreError> {
    stretches.sort_by_key(|stretch| (stretch.first.link.position, stretch.first.id.epoch));
    let ends: HashMap<u64, usize> = stretches
        .iter()
        .enumerate()
        .filter_map(|(at, stretch)| Some((stretch.last.digest?, at)))
        .collect();
    let mut followed: Vec<Option<PortionId>> = vec![None; stretches.len()];
    let mut beginnings: Vec<PortionId> = Vec::new();
    let mut loose = Vec::new();
    for stretch in &stretches {
        let first = &stretch.first;
        if first.link.previous == ChainLink::START {
            beginnings.push(first.id);
            let many = first.link.position.saturating_sub(1);
            if many > 0 {
                reader.tell(Finding::GivenUp {
                    before: first.id,
                    many,
                });
            }
            continue;
        }
        let Some(at) = ends.get(&first.link.previous).copied() else {
            loose.push(*stretch);
            continue;
        };
        let last = &stretches[at].last;
        match (last.left_out_until(first), followed[at]) {
            (None, _) => reader.tell(Finding::Misplaced(first.id)),
            (Some(_), Some(other)) => reader.tell(Finding::Forked {
                after: last.id,
                one: other,
                other: first.id,
            }),
            (Some(many), None) => {
                if many > 0 {
                    reader.tell(Finding::GivenUp {
                        before: first.id,
                        many,
                    });
                }
                followed[at] = Some(first.id);
            }
        }
    }
    if let [_, again @ .., last] = beginnings.as_slice()
        && keeps_portions(connection, path, device)?
    {
        reader.tell(Finding::BegunAgain {
            with: *last,
            times: u32::try_from(again.len())
                .unwrap_or(u32::MAX)
                .saturating_add(1),
        });
    }
    for Stretch { first, start, .. } in loose {
        if let Some((after, one)) = followed_within(connection, path, reader, &stretches, &first)? {
            reader.tell(Finding::Forked {
                after,
                one,
                other: first.id,
            });
            continue;
        }
        let nearest = (0..stretches.len())
            .filter(|at| stretches[*at].start != start && followed[*at].is_none())
            .filter_map(|at| Some((stretches[at].last.left_out_until(&first)?, at)))
            .min();
        let (many, at) = match nearest {
            // Those that an older program recorded are here.
            None => {
                let unlinked = reader
                    .chains
                    .get(&device.0)
                    .map_or(0, |chain| chain.unlinked);
                let unlinked = u32::try_from(unlinked).unwrap_or(u32::MAX);
                let before = first.link.position.saturating_sub(1);
                (before.saturating_sub(unlinked), None)
            }
            Some((many, at)) => (many, Some(at)),
        };
        let Some(at) = at.filter(|_| many == 0) else {
            if many > 0 {
                reader.tell(Finding::MissingBefore {
                    before: first.id,
                    many,
                });
            }
            continue;
        };
        let last = stretches[at].last;
        followed[at] = Some(first.id);
        if last.whole && first.whole {
            reader.tell(Finding::NotAsMade {
                portion: last.id,
                said_by: first.id,
            });
        }
    }
    Ok(())
}

/// The portion in the midst of a start that another start goes on from, and
/// the one that was there after it.
fn followed_within(
    connection: &Connection,
    path: &Path,
    reader: &Reader<'_>,
    stretches: &[Stretch],
    first: &Link,
) -> Result<Option<(PortionId, PortionId)>, StoreError> {
    let around = stretches.iter().filter(|stretch| {
        stretch.first.link.position < first.link.position
            && stretch.last.link.position >= first.link.position
    });
    for stretch in around {
        let mut select = connection
            .prepare_cached(&format!(
                "SELECT {}, {BEHIND} FROM portion
                 WHERE start = ?1 AND chain_position < ?2 ORDER BY number DESC LIMIT 1",
                checksum::OF_PORTION
            ))
            .at(path)?;
        let columns = select
            .query_row([stretch.start, i64::from(first.link.position)], |row| {
                Columns::of(row)
            })
            .optional()
            .at(path)?;
        let Some(columns) = columns else {
            continue;
        };
        let id = PortionId {
            number: Reads(path).unsigned32(columns.of_portion[1].unwrap_or_default(), "number")?,
            ..stretch.first.id
        };
        let portion = columns.portion(id, reader.runs, path);
        if portion.and_then(|portion| portion.digest()) == Some(first.link.previous) {
            let next = PortionId {
                number: id.number.saturating_add(1),
                ..id
            };
            return Ok(Some((id, next)));
        }
    }
    Ok(None)
}

/// Whether an instrument says that it keeps portions over a power cut; one
/// that does not begins a chain with each start. One that was not met is taken
/// to keep them.
fn keeps_portions(
    connection: &Connection,
    path: &Path,
    device: DeviceId,
) -> Result<bool, StoreError> {
    let capabilities: Option<u32> = connection
        .query_row(
            "SELECT capabilities FROM instrument WHERE device = ?1",
            [device_to(device)],
            |row| row.get(0),
        )
        .optional()
        .at(path)?;
    Ok(capabilities.is_none_or(|bits| Capabilities(bits).contains(Capabilities::KEEPS_PORTIONS)))
}
