//! Which services are fed from stock, and for which a new batch is made.

use super::keeping::Keeping;
use super::stock::{BatchStock, InStock};
use jiff::Timestamp;
use jiff::civil::Date;

/// A batch of a preparation, as the menu says.
#[derive(Debug, Clone, PartialEq)]
pub struct BatchOf {
    /// How many portions it makes.
    pub portions: u32,
    /// How long it keeps once finished; `None` where the menu does not say.
    pub keeps: Option<Keeping>,
    /// Whether date marking applies: cold, ready to eat, kept over a day.
    pub date_marked: bool,
    /// The dish whose portions it becomes.
    pub dish: String,
    /// How many portions a service needs.
    pub needs: Needs,
    /// The allergens in it, where they were entered.
    pub allergens: Option<Vec<String>>,
    /// Whether portioning is a step of it: then captured portions are what was
    /// made, not what was served.
    pub portioned_ahead: bool,
}

/// How many portions of a preparation a service needs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Needs {
    /// As past services had them, for the covers expected.
    OnRecord,
    /// So many for each cover expected.
    PerCover(f64),
    /// So many, whatever the covers.
    Portions(u32),
}

/// Why nobody knows how many portions a service needs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum NeedNotKnown {
    /// No covers are expected on record.
    Covers,
    /// No such dish is on record.
    Dish,
    /// No past service of the dish is on record with its covers.
    Past,
}

/// How far a service's own batches have come.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Own {
    /// Batches that are begun and not finished.
    pub begun: u32,
    /// Batches that are finished: they are in the stock.
    pub finished: u32,
}

/// A service to come.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Coming {
    /// Its day.
    pub day: Date,
    /// How many portions it still needs.
    pub needed: Result<u32, NeedNotKnown>,
    /// Until when its portions must keep: when it closes, where that is known.
    pub until: Timestamp,
    /// How far its own batches have come.
    pub own: Own,
    /// When a batch that is still to be made must be used by, reckoned as made
    /// when the service's day begins: no later than it will be.
    pub use_by: Option<Timestamp>,
}

/// Why a batch is made.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "kebab-case", tag = "why")]
pub enum WhyMade {
    /// The stock that keeps falls short.
    Short,
    /// How much is needed is not known.
    NeedNotKnown {
        /// Why not.
        needs: NeedNotKnown,
    },
    /// How much is in stock is not known since a service.
    StockNotKnown {
        /// The service.
        since: Date,
    },
    /// How long it keeps is not known.
    KeepingNotKnown,
    /// Somebody began it.
    Begun,
}

/// How a service comes by its portions.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Supply {
    /// Its day.
    pub day: Date,
    /// How many portions it needs.
    pub needed: Result<u32, NeedNotKnown>,
    /// What is in stock for it and keeps so long, before it takes any.
    pub stock: Vec<InStock>,
    /// How many batches are still to be made for it, those that are begun among
    /// them, and why; `None` where it is fed from stock.
    pub make: Option<(u32, WhyMade)>,
    /// How far its own batches have come; those that are finished are in the stock.
    pub own: Own,
    /// Portions that it still lacks where the batches that it was to have came to
    /// less than they should have.
    pub short: u32,
}

impl Supply {
    /// How many batches are still to be begun for it.
    #[must_use]
    pub fn to_begin(&self) -> u32 {
        let open = self.make.map_or(0, |(batches, _)| batches);
        open.saturating_sub(self.own.begun)
    }

    /// Portions in stock for it.
    #[must_use]
    pub fn in_stock(&self) -> u32 {
        self.stock
            .iter()
            .map(|lot| lot.portions)
            .fold(0, u32::saturating_add)
    }
}

impl BatchOf {
    /// How each service comes by its portions. `services` are in order.
    #[must_use]
    pub fn supply(&self, stock: &BatchStock, services: &[Coming]) -> Vec<Supply> {
        let mut stock = stock.clone();
        services
            .iter()
            .map(|service| self.feed(&mut stock, service))
            .collect()
    }

    /// How one service comes by its portions, of what is in stock after those before it; what
    /// it takes and what is made for it goes into the stock. Menus may differ in what a batch
    /// makes from one service to the next.
    pub fn feed(&self, stock: &mut BatchStock, service: &Coming) -> Supply {
        let keeps: Vec<InStock> = stock
            .known
            .iter()
            .filter(|lot| lot.keeps_at(service.until))
            .copied()
            .collect();
        let portions = |lots: &mut dyn Iterator<Item = &InStock>| {
            lots.map(|lot| lot.portions).fold(0, u32::saturating_add)
        };
        // What has no keeping feeds its own service alone.
        let own = |lot: &&InStock| service.own.finished > 0 && lot.of == service.day;
        let of_no_keeping = portions(&mut stock.no_keeping.iter().filter(own));
        let there = portions(&mut keeps.iter()).saturating_add(of_no_keeping);
        let others = portions(&mut keeps.iter().filter(|lot| lot.of != service.day));
        let Own { begun, finished } = service.own;
        let a_batch = self.portions.max(1);
        // A batch that came to a little less than it should have is told, and not made again.
        let wanted = match service.needed {
            Ok(needed) if finished > 0 && there >= needed => 0,
            Ok(needed) if finished == 0 => needed.saturating_sub(there).div_ceil(a_batch),
            Ok(needed) => {
                let batches = needed.saturating_sub(others).div_ceil(a_batch);
                batches.saturating_sub(finished)
            }
            Err(_) => u32::from(finished == 0),
        };
        let why = match service.needed {
            _ if begun > 0 && wanted <= begun => Some(WhyMade::Begun),
            _ if wanted == 0 => None,
            Err(needs) => Some(WhyMade::NeedNotKnown { needs }),
            Ok(_) => Some(match stock.unsure_since {
                Some(since) if stock.unsure.iter().any(|lot| lot.keeps_at(service.until)) => {
                    WhyMade::StockNotKnown { since }
                }
                _ if self.keeps.is_none() && !stock.no_keeping.is_empty() => {
                    WhyMade::KeepingNotKnown
                }
                _ => WhyMade::Short,
            }),
        };
        let make = why.map(|why| (wanted.max(begun), why));
        let coming = make.map_or(0, |(batches, _)| batches.saturating_mul(self.portions));
        if coming > 0 {
            stock.add(InStock {
                of: service.day,
                ready: service.until,
                use_by: Some(service.use_by.unwrap_or(service.until).max(service.until)),
                portions: coming,
            });
        }
        let short = match service.needed {
            Ok(needed) => {
                stock.draw(needed.saturating_sub(of_no_keeping), service.until);
                needed.saturating_sub(there.saturating_add(coming))
            }
            Err(_) => {
                stock.lose_sight(service.day);
                0
            }
        };
        Supply {
            day: service.day,
            needed: service.needed,
            stock: keeps,
            make,
            own: service.own,
            short: if finished > 0 { short } else { 0 },
        }
    }
}
