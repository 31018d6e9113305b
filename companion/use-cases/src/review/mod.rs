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
use evenhand_kitchen::service::{
    Assumptions, DishRecord, DishReview, DoubtedSpread, FailedTest, Lead, Saving, Service,
    ServiceCalendar, review_service, savings,
};
use evenhand_kitchen::spread::Spread;
use evenhand_kitchen::tin::Tin;
use evenhand_kitchen::units::Money;
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
    /// The dishes of which no portion counts any more, with how many were struck out or
    /// corrected. Nothing else is told of them.
    pub none_counts: Vec<(Option<DishName>, usize)>,
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
    /// What comes first of it.
    pub lead: Lead,
    /// The failed tests of the scale that cast doubt on any of them.
    pub failed_tests: Vec<FailedTest>,
    /// The spread of each service before, the earliest first, up to ten, with and
    /// without what is in doubt.
    pub before: Vec<(Date, DoubtedSpread)>,
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
    /// Where the store cannot be read.
    pub fn gather(
        store: &Store,
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
        let earlier = earlier(store, calendar, day)?;
        let findings = store.scale_findings()?;
        let all_failed = FailedTest::all(&findings);
        let records: Vec<DishRecord<'_>> = dishes
            .iter()
            .map(|(dish, portions)| DishRecord {
                portions: portions.iter().collect(),
                before: earlier
                    .iter()
                    .filter_map(|(day, by_dish)| Some((*day, by_dish.get(dish)?)))
                    .map(|(day, portions)| (day, portions.iter().collect()))
                    .collect(),
                failed_tests: &all_failed,
            })
            .collect();
        let reviews = review_service(&records, &assumptions);
        drop(records);
        let (mut gathered, mut none_counts) = (Vec::new(), Vec::new());
        for ((dish, mut all), review) in dishes.into_iter().zip(reviews) {
            let Some(review) = review else {
                none_counts.push((dish, all.len()));
                continue;
            };
            all.sort_by_key(|portion| portion.time);
            let (portions, others): (Vec<_>, Vec<_>) =
                all.into_iter().partition(RecordedPortion::counts);
            let struck = others
                .into_iter()
                .filter(|portion| portion.struck.is_some())
                .collect();
            let failed_tests = FailedTest::touching(&findings, &portions);
            gathered.push(DishNight {
                yields: yields(store, &portions)?,
                lead: Lead::of(&review, &failed_tests),
                failed_tests,
                before: earlier
                    .iter()
                    .filter_map(|(day, by_dish)| {
                        let portions = by_dish.get(&dish)?;
                        Some((*day, DoubtedSpread::of_portions(portions, &all_failed)))
                    })
                    .filter(|(_, spread)| spread.all.n() > 0)
                    .collect(),
                dish,
                portions,
                struck,
                review,
            });
        }
        gathered.sort_by_key(|dish| dish.portions.first().map(|portion| portion.time));
        Ok(Self {
            service,
            dishes: gathered,
            none_counts,
            assumptions,
        })
    }

    /// What would save money, the most first; each dish by its place.
    #[must_use]
    pub fn savings(&self) -> Vec<Saving> {
        let purchases: Vec<Vec<(Money, YieldFlow)>> = self
            .dishes
            .iter()
            .map(|dish| {
                dish.yields
                    .iter()
                    .filter_map(|(tin, flow)| Some((tin.price?, flow.clone())))
                    .collect()
            })
            .collect();
        let dishes: Vec<_> = self
            .dishes
            .iter()
            .zip(&purchases)
            .map(|(dish, purchases)| (&dish.review, purchases.as_slice()))
            .collect();
        savings(&dishes, &self.assumptions)
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

type Portions = BTreeMap<Option<DishName>, Vec<RecordedPortion>>;

/// The portions of each dish in each of the ten services before, the earliest
/// first.
fn earlier(
    store: &Store,
    calendar: &ServiceCalendar,
    day: Date,
) -> Result<BTreeMap<Date, Portions>, StoreError> {
    let days = store.service_days(calendar, Some(day), SERVICES)?;
    let mut found: BTreeMap<Date, Portions> = BTreeMap::new();
    let Some(first) = days.last() else {
        return Ok(found);
    };
    let all = store.portions(&Query {
        from: Some(calendar.span(*first).0),
        to: Some(calendar.span(day).0),
        ..Query::default()
    })?;
    for portion in all {
        found
            .entry(calendar.day_of(portion.time))
            .or_default()
            .entry(portion.dish.clone())
            .or_default()
            .push(portion);
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
