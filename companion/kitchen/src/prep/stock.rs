//! What batches made less what was served: portions in stock, by age.
//!
//! Portions are drawn from the oldest batch first. What is not on record is
//! never guessed: where nobody knows what a service took, what there was
//! before counts no more until somebody counts what is left.

use jiff::Timestamp;
use jiff::civil::Date;
use std::collections::VecDeque;

/// A batch that was finished.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct MadeBatch {
    /// The service that it was made for.
    pub of: Date,
    /// When it was finished.
    pub ready: Timestamp,
    /// How many portions it came to.
    pub portions: u32,
    /// When it must be used by; `None` where nobody said how long it keeps.
    pub use_by: Option<Timestamp>,
    /// When what was left of it was told to be gone.
    pub gone: Option<Timestamp>,
}

/// What a past service took.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Taken {
    /// So many portions.
    Portions(u32),
    /// What it took is not on record, but so many portions were left.
    Left(u32),
    /// Nothing is on record.
    NotKnown,
}

/// A service that is over.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct TakenBy {
    /// Its day.
    pub day: Date,
    /// When it opened.
    pub opened: Timestamp,
    /// When it was over.
    pub over: Timestamp,
    /// What it took.
    pub taken: Taken,
}

/// Portions of one batch.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct InStock {
    /// The service that the batch was made for.
    pub of: Date,
    /// When the batch was finished.
    pub ready: Timestamp,
    /// When it must be used by; `None` where nobody said how long it keeps.
    pub use_by: Option<Timestamp>,
    /// How many portions, one or more.
    pub portions: u32,
}

impl InStock {
    /// Whether it still keeps at a moment; not where its keeping is not known.
    #[must_use]
    pub fn keeps_at(&self, at: Timestamp) -> bool {
        self.use_by.is_some_and(|by| by >= at)
    }
}

/// What is in stock of a preparation.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct BatchStock {
    /// What is there, the oldest first: these portions and perhaps more.
    pub known: Vec<InStock>,
    /// What there was when it was lost sight of: at most these portions.
    pub unsure: Vec<InStock>,
    /// The first service whose taking is not on record since.
    pub unsure_since: Option<Date>,
    /// Past its keeping: no stock.
    pub past: Vec<InStock>,
    /// Of a keeping that is not known: no stock.
    pub no_keeping: Vec<InStock>,
    /// Portions that services took and no batch on record had.
    pub beyond: u32,
}

enum Happens<'a> {
    Made(&'a MadeBatch),
    Gone(&'a MadeBatch),
    Took(&'a TakenBy),
}

impl BatchStock {
    /// Works out what is in stock at a moment from what was made and taken
    /// until then.
    #[must_use]
    pub fn at(made: &[MadeBatch], taken: &[TakenBy], now: Timestamp) -> Self {
        let mut order: Vec<(Timestamp, Happens<'_>)> = Vec::new();
        for batch in made {
            order.push((batch.ready, Happens::Made(batch)));
            order.extend(batch.gone.map(|gone| (gone, Happens::Gone(batch))));
        }
        order.extend(
            taken
                .iter()
                .map(|service| (service.over, Happens::Took(service))),
        );
        order.retain(|(at, _)| *at <= now);
        order.sort_by_key(|(at, _)| *at);
        let mut stock = Self::default();
        for (_, happens) in order {
            match happens {
                Happens::Made(batch) => stock.add(InStock {
                    of: batch.of,
                    ready: batch.ready,
                    use_by: batch.use_by,
                    portions: batch.portions,
                }),
                Happens::Gone(batch) => {
                    // Two batches for one service may have been told to be ready together.
                    let it = |lot: &InStock| lot.of == batch.of && lot.ready == batch.ready;
                    if let Some(place) = stock.known.iter().position(it) {
                        stock.known.remove(place);
                    } else if let Some(place) = stock.unsure.iter().position(it) {
                        stock.unsure.remove(place);
                    }
                }
                Happens::Took(service) => stock.take(service),
            }
        }
        let lots = std::mem::take(&mut stock.known);
        for lot in lots {
            match lot.use_by {
                None => stock.no_keeping.push(lot),
                Some(by) if by < now => stock.past.push(lot),
                Some(_) => stock.known.push(lot),
            }
        }
        stock.past.extend(
            stock
                .unsure
                .extract_if(.., |lot| lot.use_by.is_some_and(|by| by < now)),
        );
        stock
    }

    /// How many portions there are at least.
    #[must_use]
    pub fn portions(&self) -> u32 {
        self.known
            .iter()
            .map(|lot| lot.portions)
            .fold(0, u32::saturating_add)
    }

    pub(super) fn add(&mut self, lot: InStock) {
        if lot.portions > 0 {
            let place = self.known.partition_point(|there| there.ready <= lot.ready);
            self.known.insert(place, lot);
        }
    }

    /// What is known may have been taken: it counts no more.
    pub(super) fn lose_sight(&mut self, day: Date) {
        if !self.known.is_empty() {
            self.unsure.append(&mut self.known);
            self.unsure_since = self.unsure_since.or(Some(day));
        }
    }

    /// Takes portions of what keeps at a moment, the oldest first; what was
    /// taken, batch by batch.
    pub(super) fn draw(&mut self, portions: u32, keeps_at: Timestamp) -> Vec<InStock> {
        let mut open = portions;
        let mut drawn = Vec::new();
        for lot in &mut self.known {
            // Of what keeps nobody knows how long, somebody served all the same.
            if lot.use_by.is_some_and(|by| by < keeps_at) {
                continue;
            }
            let some = lot.portions.min(open);
            if some > 0 {
                drawn.push(InStock {
                    portions: some,
                    ..*lot
                });
                lot.portions -= some;
                open -= some;
            }
        }
        self.known.retain(|lot| lot.portions > 0);
        drawn
    }

    fn take(&mut self, service: &TakenBy) {
        match service.taken {
            Taken::Portions(portions) => {
                let drawn: u32 = self
                    .draw(portions, service.opened)
                    .iter()
                    .map(|lot| lot.portions)
                    .sum();
                self.beyond = self.beyond.saturating_add(portions - drawn);
            }
            Taken::Left(left) => self.counted(left, service.opened),
            Taken::NotKnown => self.lose_sight(service.day),
        }
    }

    /// So many portions were counted, of all that keeps at a moment. The oldest
    /// were taken first, so the youngest are what is left.
    fn counted(&mut self, left: u32, keeps_at: Timestamp) {
        let mut lots: VecDeque<InStock> =
            self.unsure.drain(..).chain(self.known.drain(..)).collect();
        self.unsure_since = None;
        lots.make_contiguous().sort_by_key(|lot| lot.ready);
        let mut open = left;
        let mut kept = Vec::new();
        while let Some(lot) = lots.pop_back() {
            if lot.use_by.is_some_and(|by| by < keeps_at) {
                kept.push(lot);
                continue;
            }
            let some = lot.portions.min(open);
            open -= some;
            if some > 0 {
                kept.push(InStock {
                    portions: some,
                    ..lot
                });
            }
        }
        kept.reverse();
        self.known = kept;
    }
}
