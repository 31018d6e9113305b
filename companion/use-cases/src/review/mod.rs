//! A service reviewed: what the screens, the command line and the page for the
//! wall tell of it.
//!
//! 1. [`Night`]: gathered from the store;
//! 2. [`words`]: told in sentences, the same wherever they stand;
//! 3. [`page`]: one printable page, as SVG, PDF or PNG.

pub mod page;
pub mod words;

use evenhand_kitchen::dish::DishName;
use evenhand_kitchen::portion::RecordedPortion;
use evenhand_kitchen::service::{Assumptions, DishReview, FailedTest, Service, ServiceCalendar};
use evenhand_kitchen::spread::Spread;
use evenhand_kitchen::tin::Tin;
use evenhand_kitchen::yield_flow::YieldFlow;
use evenhand_store::{Query, Store, StoreError};
use jiff::civil::Date;
use std::collections::BTreeMap;

/// How many services a night is laid beside, itself among them.
pub const SERVICES: usize = 11;

/// A service and everything that is told of it.
#[derive(Debug, Clone, PartialEq)]
pub struct Night {
    /// The service.
    pub service: Service,
    /// Each dish with a portion that counts, in the order they were begun.
    pub dishes: Vec<DishNight>,
    /// What was supposed.
    pub assumptions: Assumptions,
}

/// One dish of a night.
#[derive(Debug, Clone, PartialEq)]
pub struct DishNight {
    /// The dish; `None` for portions of runs begun elsewhere.
    pub dish: Option<DishName>,
    /// Its portions that count, in order of time.
    pub portions: Vec<RecordedPortion>,
    /// Its portions that were struck out, in order of time: in no figure.
    pub struck: Vec<RecordedPortion>,
    /// What they come to.
    pub review: DishReview,
    /// The failed tests of the scale that cast doubt on any of them.
    pub failed_tests: Vec<FailedTest>,
    /// The spread of each service before, the earliest first, up to ten.
    pub before: Vec<(Date, Spread)>,
    /// What the dish was portioned from that night, and what became of it.
    pub yields: Vec<(Tin, YieldFlow)>,
}

impl DishNight {
    /// The dish's name, or what stands for it.
    #[must_use]
    pub fn name(&self) -> &str {
        self.dish
            .as_ref()
            .map_or("Portions of runs begun elsewhere", DishName::as_str)
    }
}

impl Night {
    /// Gathers a service and the ten before it.
    ///
    /// # Errors
    /// Where the store cannot be read, or its tallies written.
    pub fn gather(
        store: &mut Store,
        calendar: &ServiceCalendar,
        day: Date,
        assumptions: Assumptions,
    ) -> Result<Self, StoreError> {
        let service = store.service(day)?.unwrap_or(Service {
            day,
            first_order: None,
            last_order: None,
        });
        let mut dishes: BTreeMap<Option<DishName>, Vec<RecordedPortion>> = BTreeMap::new();
        for portion in of_day(store, calendar, day, None)? {
            dishes
                .entry(portion.dish.clone())
                .or_default()
                .push(portion);
        }
        let mut before = before(store, calendar, day)?;
        let findings = store.scale_findings()?;
        let mut gathered = Vec::new();
        for (dish, mut all) in dishes {
            all.sort_by_key(|portion| portion.time);
            let (portions, others): (Vec<_>, Vec<_>) =
                all.into_iter().partition(RecordedPortion::counts);
            let struck = others
                .into_iter()
                .filter(|portion| portion.struck.is_some())
                .collect();
            let before = before.remove(&dish).unwrap_or_default();
            let last = match before.last() {
                None => None,
                Some((since, _)) => {
                    let portions = of_day(store, calendar, *since, dish.clone())?;
                    Some((*since, portions))
                }
            };
            let last = last.as_ref().map(|(since, portions)| {
                let of_dish: Vec<_> = portions
                    .iter()
                    .filter(|portion| portion.dish == dish && portion.counts())
                    .collect();
                (*since, of_dish)
            });
            let last = last.as_ref().map(|(since, of)| (*since, of.as_slice()));
            let Some(review) = DishReview::of(&portions, last, &assumptions) else {
                continue;
            };
            gathered.push(DishNight {
                yields: yields(store, &portions)?,
                failed_tests: FailedTest::touching(&findings, &portions),
                dish,
                portions,
                struck,
                review,
                before,
            });
        }
        gathered.sort_by_key(|dish| dish.portions.first().map(|portion| portion.time));
        Ok(Self {
            service,
            dishes: gathered,
            assumptions,
        })
    }

    /// All dishes together: count, and what was given away. Means of several
    /// dishes together say nothing.
    #[must_use]
    pub fn together(&self) -> Spread {
        let mut together = Spread::new();
        for dish in &self.dishes {
            together.merge(&dish.review.spread);
        }
        together
    }
}

/// The portions of one service, those that count no more among them.
fn of_day(
    store: &Store,
    calendar: &ServiceCalendar,
    day: Date,
    dish: Option<DishName>,
) -> Result<Vec<RecordedPortion>, StoreError> {
    let (from, to) = calendar.span(day);
    store.portions(&Query {
        dish,
        from: Some(from),
        to: Some(to),
        run: None,
    })
}

type ByDish = BTreeMap<Option<DishName>, Vec<(Date, Spread)>>;

/// The spread of each dish in each of the ten services before.
fn before(store: &mut Store, calendar: &ServiceCalendar, day: Date) -> Result<ByDish, StoreError> {
    let days = store.service_days(calendar, Some(day), SERVICES)?;
    let mut found = ByDish::new();
    let Some(first) = days.last() else {
        return Ok(found);
    };
    let (from, to) = (calendar.span(*first).0, calendar.span(day).0);
    for tally in store.tallies(Some(from), Some(to))? {
        if tally.spread.n() == 0 {
            continue;
        }
        let of = calendar.day_of(tally.from);
        let services = found.entry(tally.dish.as_deref().cloned()).or_default();
        match services.iter_mut().find(|(day, _)| *day == of) {
            Some((_, spread)) => spread.merge(&tally.spread),
            None => services.push((of, tally.spread)),
        }
    }
    for services in found.values_mut() {
        services.sort_by_key(|(day, _)| *day);
    }
    Ok(found)
}

/// What the portions were made from, by their runs.
fn yields(
    store: &Store,
    portions: &[RecordedPortion],
) -> Result<Vec<(Tin, YieldFlow)>, StoreError> {
    let mut runs: Vec<_> = portions.iter().map(|portion| portion.run).collect();
    runs.dedup();
    let mut tins = Vec::new();
    for run in runs {
        if let Some(tin) = store.run(run)?.and_then(|run| run.tin)
            && !tins.contains(&tin)
        {
            tins.push(tin);
        }
    }
    tins.into_iter()
        .map(|tin| Ok((store.tin(tin)?, store.yield_flow(tin)?)))
        .collect()
}
