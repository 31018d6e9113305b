//! Behind the service screen: reads the store and puts together what is shown.

use super::{
    DishView, Everything, FlowView, Look, MeanSpread, MoneyView, ServiceSpread, ServiceView,
    ServiceWish, Stretch, StruckDot,
};
use crate::figures::{celsius, verdict};
use crate::live::possible;
use crate::words::{Language, say};
use crate::worker::{Coming, Once};
use evenhand_kitchen::dish::DishName;
use evenhand_kitchen::portion::RecordedPortion;
use evenhand_kitchen::service::{
    Assumptions, DishRecord, DishReview, Dot, Dots, DoubtedSpread, PutRight, ServiceCalendar,
};
use evenhand_kitchen::spread::Spread;
use evenhand_kitchen::tin::Tin;
use evenhand_kitchen::yield_flow::YieldFlow;
use evenhand_protocol::{PortionId, Verdict};
use evenhand_store::{By, DataFolder, Store, StoreError};
use evenhand_use_cases::costs;
use evenhand_use_cases::review::{DishNight, Night, words};
use evenhand_use_cases::times;
use jiff::Timestamp;
use jiff::civil::Date;
use jiff::tz::TimeZone;
use std::borrow::Cow;
use std::sync::Arc;
use std::time::Duration;

/// How many savings are told.
const SAVINGS: usize = 4;

/// Over how many days every gram is told.
const WEEK: u16 = 7;

/// How soon to look again whether everything has been read.
const SOON: Duration = Duration::from_millis(50);

/// Puts together what the service screen shows.
pub struct Reviewer {
    zone: TimeZone,
    folder: DataFolder,
    language: Language,
    night: Option<Night>,
    view: ServiceView,
    reading: Once<Dots>,
}

impl Reviewer {
    /// A reviewer of the store in a folder, in local time of `zone`.
    #[must_use]
    pub fn new(folder: DataFolder, zone: TimeZone) -> Self {
        Self {
            zone,
            folder,
            language: Language::default(),
            night: None,
            view: ServiceView::default(),
            reading: Once::default(),
        }
    }

    /// Tells what is shown in this language from the next look on.
    pub const fn speak(&mut self, language: Language) {
        self.language = language;
    }

    /// What is shown.
    #[must_use]
    pub const fn view(&self) -> &ServiceView {
        &self.view
    }

    /// How soon something may have come that was waited for.
    #[must_use]
    pub fn changes_in(&self) -> Option<Duration> {
        self.reading.goes_on().then_some(SOON)
    }

    /// Takes in what was read meanwhile. Returns whether anything was.
    pub fn take_in(&mut self) -> bool {
        match self.reading.take() {
            Coming::NotYet => false,
            Coming::Done(dots) => {
                if let Some(dots) = dots {
                    self.view.everything.dots = Some(Arc::new(dots));
                }
                true
            }
        }
    }

    /// Looks at the service looked at before, or at the latest.
    ///
    /// # Errors
    /// Where the store cannot be read.
    pub fn reload(&mut self, store: &mut Store) -> Result<(), StoreError> {
        let calendar = store.service_calendar(self.zone.clone())?;
        let day = match &self.night {
            Some(night) => Some(night.service.day),
            None => store.service_days(&calendar, None, 1)?.first().copied(),
        };
        match day {
            Some(day) => self.show(store, &calendar, day),
            None => Ok(()),
        }
    }

    /// Reads the service looked at again after something in it changed; what is
    /// looked at stays.
    ///
    /// # Errors
    /// Where the store cannot be read.
    pub fn refresh(&mut self, store: &mut Store) -> Result<(), StoreError> {
        let (window, span, picked) = (self.view.window, self.view.span, self.view.picked);
        self.reload(store)?;
        self.view.window = window;
        if span.is_some() {
            self.carry_out(ServiceWish::Span(span), store)?;
        }
        if picked.is_some() {
            self.carry_out(ServiceWish::Pick(picked), store)?;
        }
        Ok(())
    }

    /// Carries out a wish, but for striking out and counting again, which
    /// change the record: that is for whoever owns the store.
    ///
    /// # Errors
    /// Where the store cannot be read.
    pub fn carry_out(&mut self, wish: ServiceWish, store: &mut Store) -> Result<(), StoreError> {
        let calendar = store.service_calendar(self.zone.clone())?;
        match wish {
            ServiceWish::Earlier => {
                if let Some(day) = self.neighbour(store, &calendar, false)? {
                    self.show(store, &calendar, day)?;
                }
            }
            ServiceWish::Later => {
                if let Some(day) = self.neighbour(store, &calendar, true)? {
                    self.show(store, &calendar, day)?;
                }
            }
            ServiceWish::Dish(nth) => {
                if nth < self.view.dishes.len() {
                    self.view.chosen = nth;
                    self.view.window = None;
                    if matches!(self.view.look, Look::Dishes | Look::Everything) {
                        self.view.look = Look::Night;
                    }
                    self.forget_picked();
                }
            }
            ServiceWish::Look(look) => {
                self.view.look = look;
                self.view.window = None;
                self.forget_picked();
                if look == Look::Everything {
                    self.read_everything(store, calendar.zone())?;
                }
                if look == Look::Money {
                    self.count_money(store, &calendar)?;
                }
            }
            ServiceWish::Span(span) => {
                self.forget_picked();
                self.view.span = span;
                if let Some(span) = span {
                    self.view.told = self.told_of_span(span, &calendar);
                }
            }
            ServiceWish::Window(window) => self.view.window = window,
            ServiceWish::Step(later) => {
                if let Some(id) = self.beside(later) {
                    self.carry_out(ServiceWish::Pick(Some(id)), store)?;
                }
            }
            ServiceWish::AskWhy(wanted) => {
                let can = self.view.picked.is_some() && !self.view.picked_is_struck;
                self.view.why = (wanted && can).then(String::new);
            }
            ServiceWish::Reason(reason) => {
                if self.view.why.is_some() {
                    self.view.why = Some(reason);
                }
            }
            ServiceWish::StrikeOut | ServiceWish::CountAgain | ServiceWish::Plates => {}
            ServiceWish::Evidence(shown) => self.view.evidence = shown,
            ServiceWish::BelowPromise(may) => {
                self.view.below_promise = may;
                self.refresh(store)?;
            }
            ServiceWish::Pick(id) => {
                self.forget_picked();
                let found = self.in_order().find(|portion| Some(portion.id) == id);
                if let Some(portion) = found.cloned() {
                    self.keep_in_sight(portion.time);
                    self.view.picked_is_struck = portion.struck.is_some();
                    self.view.told = told_of_portion(self.language, &portion, &calendar);
                    let doubts = self.chosen().into_iter().flat_map(|dish| {
                        dish.failed_tests.iter().filter_map(|failed| {
                            words::portion_in_doubt(self.language, failed, &portion, &calendar)
                        })
                    });
                    let doubts: Vec<_> = doubts.collect();
                    self.view.told.extend(doubts);
                    self.view.picked = id;
                }
            }
        }
        Ok(())
    }

    /// The chosen dish's portions in order of time, struck ones among them.
    fn in_order(&self) -> impl Iterator<Item = &RecordedPortion> {
        let mut all: Vec<&RecordedPortion> = self
            .chosen()
            .into_iter()
            .flat_map(|dish| dish.portions.iter().chain(&dish.struck))
            .collect();
        all.sort_by_key(|portion| portion.time);
        all.into_iter()
    }

    /// The portion after or before the one looked at.
    fn beside(&self, later: bool) -> Option<PortionId> {
        let all: Vec<&RecordedPortion> = self.in_order().collect();
        let place = self
            .view
            .picked
            .and_then(|id| all.iter().position(|portion| portion.id == id));
        let next = match place {
            Some(place) if later => place.saturating_add(1).min(all.len().saturating_sub(1)),
            Some(place) => place.saturating_sub(1),
            None => {
                let from = self.view.window.map_or(Timestamp::MIN, |shown| shown.from);
                all.iter().position(|portion| portion.time >= from)?
            }
        };
        all.get(next).map(|portion| portion.id)
    }

    /// Moves what is shown to where this moment is.
    fn keep_in_sight(&mut self, at: Timestamp) {
        if let Some(shown) = self.view.window
            && !(shown.from..=shown.to).contains(&at)
        {
            let half = shown.length() / 2;
            let ends = at.checked_sub(half).ok().zip(at.checked_add(half).ok());
            self.view.window = ends.map(|(from, to)| Stretch { from, to });
        }
    }

    fn forget_picked(&mut self) {
        self.view.span = None;
        self.view.picked = None;
        self.view.picked_is_struck = false;
        self.view.why = None;
        self.view.told.clear();
    }

    fn chosen(&self) -> Option<&DishNight> {
        self.night.as_ref()?.dishes.get(self.view.chosen)
    }

    /// The day of the service before or after the one looked at.
    fn neighbour(
        &self,
        store: &Store,
        calendar: &ServiceCalendar,
        after: bool,
    ) -> Result<Option<Date>, StoreError> {
        let Some(night) = &self.night else {
            return Ok(None);
        };
        let day = night.service.day;
        if after {
            let from = calendar.span(day).1;
            return Ok(store
                .first_portion_since(from)?
                .map(|time| calendar.day_of(time)));
        }
        let days = store.service_days(calendar, Some(day), 2)?;
        Ok(days.into_iter().find(|found| *found < day))
    }

    fn show(
        &mut self,
        store: &mut Store,
        calendar: &ServiceCalendar,
        day: Date,
    ) -> Result<(), StoreError> {
        let supposed = Assumptions {
            below_promise: self.view.below_promise,
            ..Assumptions::default()
        };
        let night = Night::gather(store, calendar, day, supposed)?;
        let name = self.chosen().map(|dish| dish.name().to_owned());
        self.night = Some(night);
        let earlier = self.neighbour(store, calendar, false)?.is_some();
        let later = self.neighbour(store, calendar, true)?.is_some();
        let Some(night) = &self.night else {
            return Ok(());
        };
        let dishes: Vec<DishView> = night
            .dishes
            .iter()
            .map(|dish| dish_view(self.language, dish, day, calendar))
            .collect();
        let none_counts = words::none_counts(self.language, night);
        self.view = ServiceView {
            title: times::capital(&times::day_of_year(self.language, day)),
            summary: summary(self.language, night, calendar),
            earlier,
            later,
            look: self.view.look,
            chosen: dishes
                .iter()
                .position(|dish| Some(&dish.name) == name.as_ref())
                .unwrap_or(0),
            dishes,
            none_counts,
            window: None,
            span: None,
            told: Vec::new(),
            picked: None,
            picked_is_struck: false,
            why: None,
            evidence: self.view.evidence,
            below_promise: self.view.below_promise,
            money: MoneyView::default(),
            everything: std::mem::take(&mut self.view.everything),
            ahead: calendar
                .zone()
                .to_offset(calendar.span(day).0)
                .seconds()
                .into(),
        };
        if self.view.look == Look::Money {
            self.count_money(store, calendar)?;
        }
        Ok(())
    }

    /// What plates cost at the weights of the service looked at, what would save most,
    /// and every gram of the seven days up to it.
    fn count_money(&mut self, store: &Store, calendar: &ServiceCalendar) -> Result<(), StoreError> {
        let Some(night) = &self.night else {
            return Ok(());
        };
        let plates = store.plates()?;
        let costs = costs::of_plates(night, &plates);
        let days = costs::of_days(store, calendar, night.service.day, WEEK)?;
        self.view.money = MoneyView {
            plates: plates
                .iter()
                .zip(&costs)
                .map(|(plate, cost)| words::plate(self.language, plate, cost))
                .collect(),
            savings: words::savings(self.language, night, SAVINGS),
            week: words::days(self.language, &days),
        };
        Ok(())
    }

    /// The figures at once, from the tallies; the dots when they have been
    /// read.
    fn read_everything(&mut self, store: &mut Store, zone: &TimeZone) -> Result<(), StoreError> {
        let mut dishes = store.tallies(By::Dish, zone, None, None)?;
        dishes.sort_by(|one, other| one.dish.cmp(&other.dish));
        self.view.everything = Everything {
            figures: dishes
                .iter()
                .map(|tally| figures(self.language, tally.dish.as_ref(), &tally.spread))
                .collect(),
            dots: None,
        };
        let folder = self.folder.clone();
        let read = move || {
            let store = Store::open(&folder).ok()?;
            store.dots(Timestamp::UNIX_EPOCH, Timestamp::MAX).ok()
        };
        self.reading = Once::begin("reading every portion", read, || ());
        Ok(())
    }

    fn told_of_span(
        &self,
        (from, to): (Timestamp, Timestamp),
        calendar: &ServiceCalendar,
    ) -> Vec<String> {
        let Some(dish) = self.chosen() else {
            return Vec::new();
        };
        let within = dish
            .portions
            .iter()
            .filter(|portion| portion.time >= from && portion.time < to);
        let failed: Vec<_> = dish
            .failed_tests
            .iter()
            .filter_map(|failed| failed.among(within.clone()))
            .collect();
        let heading = say!(
            self.language,
            "service-span",
            from = calendar.clock(from),
            to = calendar.clock(to)
        )
        .into_owned();
        let record = DishRecord {
            portions: within.collect(),
            before: Vec::new(),
            failed_tests: &dish.failed_tests,
        };
        match DishReview::described(&record, &Assumptions::default()) {
            None => vec![
                heading,
                say!(self.language, "service-span-empty").into_owned(),
            ],
            Some(review) => {
                let mut told = vec![heading];
                told.extend(words::stretch(self.language, &review, &failed, calendar));
                told
            }
        }
    }
}

/// The figures of a dish in a line; where some of its weights are in doubt that comes
/// first, then the figures without them and with them.
fn figures(language: Language, dish: Option<&DishName>, of: &DoubtedSpread) -> String {
    let spread = &of.all;
    let dish = dish.map_or_else(
        || say!(language, "service-elsewhere").into_owned(),
        |dish| dish.as_str().to_owned(),
    );
    let count = spread.n();
    let mean = words::grams_if_known(language, spread.mean());
    let deviation = words::grams_if_known(language, spread.standard_deviation());
    let short = words::percent(language, spread.share(Verdict::Short).fraction());
    let given = words::grams(language, spread.given_away());
    if of.doubts.weights() > 0 {
        let even = |spread: &Spread| {
            say!(
                language,
                "service-evenness",
                mean = words::grams_if_known(language, spread.mean()),
                spread = words::grams_if_known(language, spread.standard_deviation()),
                short = words::percent(language, spread.share(Verdict::Short).fraction())
            )
        };
        let money = spread.given_away_money();
        let money = money.map(|money| words::money(language, money));
        let given = std::iter::once(given).chain(money).collect::<Vec<_>>();
        return say!(
            language,
            "service-figures-doubted",
            dish = dish,
            doubted = of.doubts.weights(),
            count = count,
            relied = even(&of.relied),
            all = even(spread),
            given = given.join(", ")
        )
        .into_owned();
    }
    match spread.given_away_money() {
        None => say!(
            language,
            "service-figures",
            dish = dish,
            count = count,
            mean = mean,
            spread = deviation,
            short = short,
            given = given
        ),
        Some(money) => say!(
            language,
            "service-figures-money",
            dish = dish,
            count = count,
            mean = mean,
            spread = deviation,
            short = short,
            given = given,
            money = words::money(language, money)
        ),
    }
    .into_owned()
}

fn summary(language: Language, night: &Night, calendar: &ServiceCalendar) -> String {
    let together = night.together();
    let mut said = vec![say!(language, "service-summary", count = together.n())];
    said.extend(night.service.first_order.map(|at| {
        let time = calendar.clock(at);
        say!(language, "service-first-order", time = time)
    }));
    said.extend(night.service.last_order.map(|at| {
        let time = calendar.clock(at);
        say!(language, "service-last-order", time = time)
    }));
    said.extend(together.given_away_money().map(|money| {
        let money = words::money(language, money);
        say!(language, "service-given-away", money = money)
    }));
    if !night.none_counts.is_empty() && !night.dishes.is_empty() {
        let dishes = words::none_counts(language, night).join(" ");
        return format!("{}. {dishes}", said.join(", "));
    }
    said.join(", ")
}

fn dish_view(
    language: Language,
    dish: &DishNight,
    day: Date,
    calendar: &ServiceCalendar,
) -> DishView {
    let mut services: Vec<ServiceSpread> = dish
        .before
        .iter()
        .filter_map(|(day, spread)| service_spread(*day, spread))
        .collect();
    services.extend(service_spread(day, &dish.review.doubted()));
    DishView {
        name: dish.name().to_owned(),
        goal: dish.review.goal,
        dots: Arc::new(Dots::new(dish.portions.iter().map(dot).collect())),
        ids: Arc::new(dish.portions.iter().map(|portion| portion.id).collect()),
        struck: Arc::new(dish.struck.iter().filter_map(struck_dot).collect()),
        found: words::in_short(language, dish, calendar),
        changed: words::beside_the_others(language, dish, calendar),
        in_doubt: dish
            .failed_tests
            .iter()
            .map(|failed| (failed.last_good, failed.put_right.map(PutRight::at)))
            .collect(),
        services,
        flows: dish
            .yields
            .iter()
            .map(|(tin, flow)| flow_view(language, tin, flow, dish))
            .collect(),
    }
}

const fn dot(portion: &RecordedPortion) -> Dot {
    Dot {
        time: portion.time,
        mass: portion.mass,
        goal: portion.goal,
    }
}

fn struck_dot(portion: &RecordedPortion) -> Option<StruckDot> {
    Some(StruckDot {
        id: portion.id,
        dot: dot(portion),
        reason: portion.struck.as_ref()?.reason.as_str().to_owned(),
    })
}

fn service_spread(day: Date, doubted: &DoubtedSpread) -> Option<ServiceSpread> {
    let figures = |spread: &Spread| {
        Some(MeanSpread {
            mean: spread.mean()?,
            deviation: spread.standard_deviation(),
        })
    };
    let in_doubt = doubted.doubts.weights();
    let of_all = figures(&doubted.all)?;
    Some(ServiceSpread {
        day,
        relied: figures(&doubted.relied).unwrap_or(of_all),
        of_all: (in_doubt > 0).then_some(of_all),
        in_doubt,
    })
}

fn flow_view(language: Language, tin: &Tin, flow: &YieldFlow, dish: &DishNight) -> FlowView {
    let mut notes = Vec::new();
    if let (Some(bought), Some(price)) = (tin.cost(), tin.price)
        && let Some(portioned) = flow.cost_as_portioned(price)
    {
        let bought = language.figure(bought.to_string());
        let portioned = language.figure(portioned.to_string());
        notes.push(say!(
            language,
            "service-cost",
            bought = bought,
            portioned = portioned
        ));
    }
    notes.push(say!(
        language,
        "service-possible",
        portions = possible(flow.portions_possible(dish.review.goal), language)
    ));
    if flow.more_came_out() {
        notes.push(say!(language, "service-more-came-out"));
    }
    FlowView {
        title: times::capital(&words::tin(language, tin)),
        bought: flow.bought,
        shares: flow
            .parts()
            .iter()
            .map(|(_, mass)| words::share(language, flow, *mass))
            .collect(),
        parts: flow.parts(),
        notes: notes.into_iter().map(Cow::into_owned).collect(),
    }
}

fn told_of_portion(
    language: Language,
    portion: &RecordedPortion,
    calendar: &ServiceCalendar,
) -> Vec<String> {
    let id: PortionId = portion.id;
    let grams = |mass| words::grams(language, mass);
    let goal = portion.goal;
    let mut told = vec![
        say!(
            language,
            "service-portion",
            mass = grams(portion.mass),
            time = calendar.clock(portion.time),
            verdict = verdict(portion.verdict(), language),
            off = words::signed(language, portion.mass - goal.target())
        ),
        say!(
            language,
            "service-portion-target",
            target = grams(goal.target()),
            low = grams(goal.lightest()),
            high = grams(goal.heaviest())
        ),
    ];
    if let Some(struck) = &portion.struck {
        told.push(say!(
            language,
            "service-portion-struck",
            time = calendar.clock(struck.at),
            reason = struck.reason.as_str()
        ));
    }
    if let Some(uncertainty) = portion.uncertainty {
        let within = grams(uncertainty);
        told.push(say!(language, "service-portion-uncertain", within = within));
    }
    if let Some(temperature) = portion.temperature {
        let temperature = celsius(temperature, language);
        told.push(say!(
            language,
            "service-portion-probe",
            temperature = temperature
        ));
    }
    if let Some(cost) = portion.cost {
        told.push(say!(
            language,
            "service-portion-cost",
            cost = words::money(language, cost.of(portion.mass)),
            given = words::money(language, cost.of(portion.given_away()))
        ));
    }
    told.push(say!(
        language,
        "service-portion-id",
        number = id.number.to_string(),
        id = id.to_string()
    ));
    told.into_iter().map(Cow::into_owned).collect()
}
