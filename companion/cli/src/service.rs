//! `evenhand service`.

use super::amounts::UnitArguments;
use super::failure::Said;
use super::output::Telling;
use super::spread_table::{InDoubtJson, SpreadJson, doubted_rows};
use super::words::{bad_input, failed, said, say};
use super::{Data, Failure, handover, output};
use clap::{Args, Subcommand};
use evenhand_kitchen::dish::DishName;
use evenhand_kitchen::moment::{DayEdge, read_day, read_moment};
use evenhand_kitchen::plate::{Component, FixedText, Plate, Plates, PlatesError};
use evenhand_kitchen::service::{
    Advice, AdviceBasis, Assumptions, CookFigures, DayBegins, FailedTest, Finding, LeadDoubt,
    PutRight, SavingKind, Service, ServiceCalendar, ShortRemedy,
};
use evenhand_kitchen::statistics::{ConclusionKind, HeldBy, Interval, LightSide, PercentileMethod};
use evenhand_kitchen::units::{Grams, InputError, Money, excerpt};
use evenhand_kitchen::{expected, problem};
use evenhand_protocol::Mass;
use evenhand_store::Store;
use evenhand_use_cases::costs;
use evenhand_use_cases::review::{self, DishNight, Night};
use evenhand_words::Language;
use jiff::civil::{Date, Time};
use jiff::tz::TimeZone;
use jiff::{Timestamp, ToSpan, ZonedDateTime};
use serde_json::{Value, json};
use std::path::{Path, PathBuf};

#[derive(Debug, Subcommand)]
pub(super) enum ServiceCommand {
    /// Note when the first order came.
    Open {
        #[command(flatten)]
        day: DayArguments,
        /// When: 18:30, 2026-05-01T18:30; otherwise now.
        #[arg(long, value_name = "TIME")]
        first_order: Option<String>,
        #[command(flatten)]
        telling: Telling,
    },
    /// Note when the last order came.
    Close {
        #[command(flatten)]
        day: DayArguments,
        /// When: 22:45, 00:20 (after midnight); otherwise now.
        #[arg(long, value_name = "TIME")]
        last_order: Option<String>,
        #[command(flatten)]
        telling: Telling,
    },
    /// A service: its orders, and each dish's portions.
    Show(ShowArguments),
    /// Note how many portions of a dish stand ready when the service opens, left by the one before.
    Ready(handover::ReadyArguments),
    /// Count portions of a dish as gone out; what is ready goes down by them.
    Out(handover::OutArguments),
    /// One page for whoever takes over: dishes ready and out, who is where, what is for tomorrow.
    Handover(handover::HandoverArguments),
    /// What plates cost at the weights really served.
    Plates(PlatesArguments),
    /// Make a plate, or change one thing on it: its price, a dish, something of a fixed weight.
    Plate(PlateArguments),
    /// The services on record, the latest first.
    List {
        /// At most so many.
        #[arg(long, value_name = "COUNT", default_value_t = 30)]
        most: usize,
        /// One JSON object a line.
        #[arg(long)]
        json: bool,
    },
    /// When a service's day begins, and whose figures are shown to whom.
    Settings {
        /// The time at which a day begins: what is portioned before belongs to the evening before.
        #[arg(long, value_name = "TIME")]
        day_begins: Option<String>,
        /// own: a cook's own figures, the rest together; hidden: each cook's, with names hidden.
        #[arg(long, value_name = "SETTING")]
        cook_figures: Option<String>,
        /// As one JSON object.
        #[arg(long)]
        json: bool,
    },
}

#[derive(Debug, Clone, Args)]
pub(super) struct DayArguments {
    /// The service's day: 2026-05-01, today, yesterday; otherwise the one now.
    #[arg(long, value_name = "DAY")]
    pub(super) day: Option<String>,
}

impl DayArguments {
    /// The day said, if one was.
    pub(super) fn said(&self, calendar: &ServiceCalendar) -> Result<Option<Date>, InputError> {
        let Some(text) = &self.day else {
            return Ok(None);
        };
        // Until its day ends, the service that began yesterday evening is today's.
        let now = Timestamp::now();
        let noon = calendar.day_of(now).at(12, 0, 0, 0);
        let at_noon = noon
            .to_zoned_datetime(calendar.zone().clone())
            .unwrap_or_else(|_| now.to_zoned_datetime(calendar.zone().clone()));
        Ok(Some(read_day("--day", text, &at_noon)?))
    }
}

#[derive(Debug, Args)]
pub(super) struct ShowArguments {
    #[command(flatten)]
    day: DayArguments,
    /// What a short portion costs: "1.50 EUR"; otherwise its food again.
    #[arg(long, value_name = "MONEY", allow_hyphen_values = true)]
    short_cost: Option<String>,
    /// How many services a month are supposed, 1 to 62.
    #[arg(long, value_name = "COUNT")]
    services_a_month: Option<String>,
    /// Let an aim lie below the target, which the guest is promised.
    #[arg(long)]
    below_promise: bool,
    #[command(flatten)]
    unit: UnitArguments,
    /// As one JSON object, weights in grams.
    #[arg(long)]
    json: bool,
}

#[derive(Debug, Args)]
pub(super) struct PlatesArguments {
    /// A TOML file of plates: components with weights, costs, yields and waste; otherwise those on record.
    file: Option<PathBuf>,
    /// Put the file's plates on record, in place of those there.
    #[arg(long, requires = "file")]
    keep: bool,
    #[command(flatten)]
    day: DayArguments,
    /// One JSON object a line for each plate, then one with what would save most.
    #[arg(long)]
    json: bool,
}

#[derive(Debug, Args)]
pub(super) struct PlateArguments {
    /// The plate's name; a new one where none is called so.
    name: String,
    /// What the guest pays: "26 EUR"; none to have none.
    #[arg(long, value_name = "MONEY", allow_hyphen_values = true)]
    price: Option<String>,
    /// Put a dish on it that is portioned: its weight and cost are those of its portions.
    #[arg(long, value_name = "DISH")]
    dish: Option<String>,
    /// Put something of a fixed weight on it, in place of what is called so.
    #[arg(long, value_name = "NAME", requires = "weight", requires = "cost")]
    component: Option<String>,
    /// What of the component is served: 120g.
    #[arg(
        long,
        value_name = "MASS",
        requires = "component",
        allow_hyphen_values = true
    )]
    weight: Option<String>,
    /// What the component costs as bought: "2.40 EUR/kg".
    #[arg(
        long,
        value_name = "COST",
        requires = "component",
        allow_hyphen_values = true
    )]
    cost: Option<String>,
    /// How much of what is bought can be served: 75%; all of it, when not said.
    #[arg(
        long = "yield",
        value_name = "SHARE",
        requires = "component",
        allow_hyphen_values = true
    )]
    yielded: Option<String>,
    /// How much of that is thrown out all the same: 10%; none, when not said.
    #[arg(
        long,
        value_name = "SHARE",
        requires = "component",
        allow_hyphen_values = true
    )]
    waste: Option<String>,
    /// Take a dish or a component off it.
    #[arg(long, value_name = "NAME")]
    take_off: Option<String>,
    /// Take the whole plate off the record.
    #[arg(long, conflicts_with_all = ["price", "dish", "component", "take_off"])]
    remove: bool,
    #[command(flatten)]
    telling: Telling,
}

pub(super) fn run(data: &Data, command: ServiceCommand, language: Language) -> Result<(), Failure> {
    let mut store = match &command {
        ServiceCommand::Settings {
            day_begins: None,
            cook_figures: None,
            ..
        }
        | ServiceCommand::Close { .. }
        | ServiceCommand::List { .. }
        | ServiceCommand::Show(_)
        | ServiceCommand::Ready(_)
        | ServiceCommand::Out(_)
        | ServiceCommand::Handover(_)
        | ServiceCommand::Plates(_) => data.existing()?,
        // What a kitchen may tell before its first portion.
        ServiceCommand::Plate(_)
        | ServiceCommand::Open { .. }
        | ServiceCommand::Settings { .. } => data.store()?,
    };
    let calendar = store.service_calendar(TimeZone::system())?;
    match command {
        ServiceCommand::Open {
            day,
            first_order,
            telling,
        } => {
            let (day, at) = when(&day, "--first-order", first_order.as_deref(), &calendar)?;
            let service = store.open_service(day, at)?;
            telling.tell(
                &words(language, &service, &calendar),
                &orders_json(&service),
            )
        }
        ServiceCommand::Close {
            day,
            last_order,
            telling,
        } => {
            let (day, at) = when(&day, "--last-order", last_order.as_deref(), &calendar)?;
            let service = store.close_service(day, at)?;
            telling.tell(
                &words(language, &service, &calendar),
                &orders_json(&service),
            )
        }
        ServiceCommand::Show(arguments) => show(&mut store, &calendar, &arguments, language),
        ServiceCommand::Ready(arguments) => {
            handover::ready(data, &mut store, &calendar, &arguments)
        }
        ServiceCommand::Out(arguments) => handover::out(data, &mut store, &calendar, &arguments),
        ServiceCommand::Handover(arguments) => {
            handover::handover(data, &store, &calendar, &arguments, language)
        }
        ServiceCommand::Plates(arguments) => plates(&mut store, &calendar, &arguments, language),
        ServiceCommand::Plate(arguments) => plate(&mut store, &arguments, language),
        ServiceCommand::List { most, json } => list(&store, &calendar, (most, json), language),
        ServiceCommand::Settings {
            day_begins,
            cook_figures,
            json,
        } => {
            if let Some(text) = day_begins {
                store.set_day_begins(DayBegins::parse("--day-begins", &text)?, Timestamp::now())?;
            }
            if let Some(text) = cook_figures {
                store.set_cook_figures(
                    CookFigures::parse("--cook-figures", &text)?,
                    Timestamp::now(),
                )?;
            }
            let (begins, figures) = (store.day_begins()?, store.cook_figures()?);
            if json {
                return output::json(&json!({
                    "day_begins": begins.to_string(),
                    "cook_figures": figures.word(),
                }));
            }
            let begins = begins.to_string();
            output::line(&say!(language, "service-day-begins", time = begins))?;
            let setting = match figures {
                CookFigures::Own => "own",
                CookFigures::Hidden => "hidden",
            };
            output::line(&say!(language, "service-cooks", setting = setting))
        }
    }
}

/// The service's day and the order's moment: a bare time of day is on that
/// service's day, after midnight where it comes before the day begins.
fn when(
    day: &DayArguments,
    field: &str,
    text: Option<&str>,
    calendar: &ServiceCalendar,
) -> Result<(Date, Timestamp), Failure> {
    let now = ZonedDateTime::now();
    let said = day.said(calendar)?;
    let Some(text) = text else {
        return Ok(match said {
            Some(day) if day != calendar.day_of(now.timestamp()) => {
                return Err(bad_input!(
                    "service-say-when",
                    field = field,
                    day = day.to_string(),
                ));
            }
            _ => (calendar.day_of(now.timestamp()), now.timestamp()),
        });
    };
    let at = match text.trim().parse::<Time>() {
        Ok(time) if text.len() <= 5 => {
            let day = said.unwrap_or_else(|| calendar.day_of(now.timestamp()));
            let date = if time < calendar.begins().time() {
                day.saturating_add(1.day())
            } else {
                day
            };
            calendar
                .zone()
                .to_ambiguous_timestamp(date.to_datetime(time))
                .compatible()
                .map_err(|_| {
                    bad_input!("service-beyond", field = field, value = format!("{text:?}"))
                })?
        }
        _ => read_moment(field, text, &now, DayEdge::Begin)?,
    };
    let of = calendar.day_of(at);
    match said {
        Some(day) if day != of => Err(bad_input!(
            "service-other-day",
            field = field,
            value = format!("{text:?}"),
            of = of.to_string(),
            day = day.to_string(),
        )),
        _ => Ok((of, at)),
    }
}

/// `service 2026-05-01: first order 18:32, last order 22:41`
fn words(language: Language, service: &Service, calendar: &ServiceCalendar) -> String {
    let clock = |at: Timestamp| calendar.clock(at);
    let first = service
        .first_order
        .map(|at| say!(language, "service-first-order", time = clock(at)));
    let last = service
        .last_order
        .map(|at| say!(language, "service-last-order", time = clock(at)));
    let orders: Vec<_> = [first, last].into_iter().flatten().collect();
    let day = service.day.to_string();
    if orders.is_empty() {
        say!(language, "service-day", day = day)
    } else {
        let orders = orders.join(", ");
        say!(language, "service-day-orders", day = day, orders = orders)
    }
    .into_owned()
}

fn orders_json(service: &Service) -> Value {
    json!({
        "day": service.day.to_string(),
        "first_order": service.first_order,
        "last_order": service.last_order,
    })
}

/// The service on record of that day, or an empty one.
fn service_of(store: &Store, day: Date) -> Result<Service, Failure> {
    Ok(store.service(day)?.unwrap_or(Service {
        day,
        first_order: None,
        last_order: None,
    }))
}

/// What is supposed, as far as it was said.
pub(super) fn assumptions(
    short_cost: Option<&str>,
    services_a_month: Option<&str>,
) -> Result<Assumptions, InputError> {
    let mut assumptions = Assumptions::default();
    if let Some(text) = short_cost {
        assumptions.short_portion = Some(Money::parse("--short-cost", text)?);
    }
    if let Some(text) = services_a_month {
        assumptions.services_a_month = text
            .parse()
            .ok()
            .filter(|count| (1..=62).contains(count))
            .ok_or_else(|| {
            InputError::new(
                "--services-a-month",
                text,
                problem!("no-services"),
                expected!("services"),
            )
        })?;
    }
    Ok(assumptions)
}

/// The day said, else the latest one with a portion.
pub(super) fn day_to_show(
    store: &Store,
    calendar: &ServiceCalendar,
    day: &DayArguments,
) -> Result<Date, Failure> {
    match day.said(calendar)? {
        Some(day) => Ok(day),
        None => store
            .service_days(calendar, None, 1)?
            .first()
            .copied()
            .ok_or_else(|| failed!("service-no-portions")),
    }
}

fn show(
    store: &mut Store,
    calendar: &ServiceCalendar,
    arguments: &ShowArguments,
    language: Language,
) -> Result<(), Failure> {
    let unit = arguments.unit.unit()?;
    let day = day_to_show(store, calendar, &arguments.day)?;
    let supposed = Assumptions {
        below_promise: arguments.below_promise,
        ..assumptions(
            arguments.short_cost.as_deref(),
            arguments.services_a_month.as_deref(),
        )?
    };
    let night = Night::gather(store, calendar, day, supposed)?;
    let service = night.service;
    if arguments.json {
        let dishes: Vec<_> = night.dishes.iter().map(dish_json).collect();
        let mut told = orders_json(&service);
        told["dishes"] = json!(dishes);
        told["false_alarm_rate"] = json!(supposed.false_alarms.fraction());
        told["savings"] = savings_json(&night);
        let none_counts = night.none_counts.iter().map(|(dish, portions)| {
            json!({ "dish": dish.as_ref().map(DishName::as_str), "portions": portions })
        });
        told["none_counts"] = json!(none_counts.collect::<Vec<_>>());
        return output::json(&told);
    }
    output::line(&words(language, &service, calendar))?;
    let none_counts = review::words::none_counts(language, &night);
    for line in &none_counts {
        output::line(line)?;
    }
    if night.dishes.is_empty() && none_counts.is_empty() {
        output::line(&say!(language, "service-none-for-it"))?;
    }
    for dish in &night.dishes {
        output::line("")?;
        let mut sentences = review::words::all(language, dish, calendar).into_iter();
        if let Some(lead) = sentences.next() {
            output::line(&lead)?;
        }
        output::line(dish.name())?;
        // What casts doubt on the figures comes before them.
        let doubts = review::words::casting_doubt(language, dish, calendar).len();
        for sentence in sentences.by_ref().take(doubts) {
            output::line(&format!("  {sentence}"))?;
        }
        for line in doubted_rows(language, &dish.review.doubted(), unit) {
            output::line(&line)?;
        }
        for sentence in sentences {
            output::line(&format!("  {sentence}"))?;
        }
    }
    tell_savings(&night, language)?;
    if !night.dishes.is_empty() {
        output::line("")?;
        output::line(&review::words::false_alarms(language, &supposed))?;
    }
    Ok(())
}

/// How many savings are told.
const SAVINGS: usize = 6;

const fn saving_word(kind: SavingKind) -> &'static str {
    match kind {
        SavingKind::OneGram => "one gram less",
        SavingKind::AimAsAdvised { .. } => "mean to the aim",
        SavingKind::Narrower { .. } => "narrower spread",
        SavingKind::Unaccounted { .. } => "not accounted for",
    }
}

/// What would save money, the most first.
fn savings_json(night: &Night) -> Value {
    let savings = night.savings().into_iter().map(|saving| {
        json!({
            "dish": night.dishes.get(saving.dish).map(DishNight::name),
            "what": saving_word(saving.kind),
            "by_grams": match saving.kind {
                SavingKind::OneGram => Grams(Mass::from_grams(1)),
                SavingKind::AimAsAdvised { by } | SavingKind::Narrower { by } => Grams(by),
                SavingKind::Unaccounted { mass } => Grams(mass),
            },
            "a_month": saving.a_month.to_string(),
        })
    });
    json!(savings.collect::<Vec<_>>())
}

/// The largest file of plates that is read.
const MOST_BYTES: u64 = 1_000_000;

/// Why a file of plates makes no sense.
fn plates_refused(error: PlatesError) -> Said {
    match error {
        PlatesError::Syntax(why) => said!("service-plates-unread", why = why),
        PlatesError::Value { place, error } => said!(
            "service-plate-value",
            plate = format!("{:?}", excerpt(&place)),
            why = error,
        ),
    }
}

/// A file's text, and the plates in it.
fn read_plates(file: &Path) -> Result<(String, Vec<Plate>), Failure> {
    let named = file.display();
    let unreadable = |error: std::io::Error| {
        bad_input!(
            "service-file-unread",
            file = named.to_string(),
            why = &error
        )
    };
    let size = std::fs::metadata(file).map_err(unreadable)?.len();
    if size > MOST_BYTES {
        return Err(bad_input!(
            "service-file-long",
            file = named.to_string(),
            size = size.to_string(),
            most = MOST_BYTES.to_string(),
        ));
    }
    let text = std::fs::read_to_string(file).map_err(unreadable)?;
    let plates = evenhand_kitchen::plate::read(&text).map_err(|error| {
        bad_input!(
            "service-file-unread",
            file = named.to_string(),
            why = plates_refused(error),
        )
    })?;
    Ok((text, plates))
}

fn plates(
    store: &mut Store,
    calendar: &ServiceCalendar,
    arguments: &PlatesArguments,
    language: Language,
) -> Result<(), Failure> {
    let plates = match &arguments.file {
        Some(file) => {
            let (text, plates) = read_plates(file)?;
            if arguments.keep {
                store.set_plates(&text, Timestamp::now())?;
                let count = plates.len();
                eprintln!("{}", say!(language, "service-plates-kept", count = count));
            }
            store.plates_named_now(plates)?
        }
        None => store.plates()?,
    };
    if plates.is_empty() {
        return Err(bad_input!("service-no-plates"));
    }
    let day = day_to_show(store, calendar, &arguments.day)?;
    let night = Night::gather(store, calendar, day, Assumptions::default())?;
    for (plate, cost) in plates.iter().zip(costs::of_plates(&night, &plates)) {
        if arguments.json {
            output::json(&match &cost {
                Err(why) => json!({ "plate": plate.name, "not_known": why.to_string() }),
                Ok(cost) => json!({
                    "plate": plate.name,
                    "cost": cost.cost.to_string(),
                    "price": plate.price.map(|price| price.to_string()),
                    "margin": cost.margin.map(|margin| margin.to_string()),
                    "cost_share_of_price": cost.share_of_price,
                    "components": cost.components.iter().map(|component| json!({
                        "name": component.name,
                        "grams": Grams(component.weight),
                        "cost_on_plate": component.cost.to_string(),
                        "cost": component.money.to_string(),
                    })).collect::<Vec<_>>(),
                }),
            })?;
            continue;
        }
        match &cost {
            Err(_) => {
                for line in review::words::plate(language, plate, &cost) {
                    output::line(&line)?;
                }
            }
            Ok(cost) => {
                let money = |money| review::words::money(language, money);
                let all = money(cost.cost);
                let told = match (plate.price, cost.margin, cost.share_of_price) {
                    (Some(price), Some(margin), Some(share)) => say!(
                        language,
                        "service-plate-price",
                        cost = all,
                        price = money(price),
                        margin = money(margin),
                        share = review::words::percent(language, share)
                    )
                    .into_owned(),
                    _ => all,
                };
                output::line(&format!("{}: {told}", plate.name))?;
                for component in &cost.components {
                    let rate = language.figure(component.cost.to_string());
                    output::line(&format!(
                        "  {:<24}  {:>10}  {:>10}  {}",
                        component.name,
                        review::words::grams(language, component.weight),
                        money(component.money),
                        say!(language, "service-plate-rate", rate = rate),
                    ))?;
                }
            }
        }
    }
    if arguments.json {
        return output::json(&json!({
            "day": night.service.day.to_string(),
            "savings": savings_json(&night),
        }));
    }
    tell_savings(&night, language)
}

/// Makes or changes one plate on record.
fn plate(store: &mut Store, arguments: &PlateArguments, language: Language) -> Result<(), Failure> {
    let mut plates = Plates::new(store.plates()?);
    let not_there = |field: &str, name: &str| {
        bad_input!(
            "service-plate-not-there",
            field = field.to_owned(),
            name = excerpt(name).into_owned()
        )
    };
    let name = arguments.name.as_str();
    if arguments.remove {
        if !plates.take_out(name) {
            return Err(not_there("NAME", name));
        }
        store.keep_plates(&plates, Timestamp::now())?;
        return arguments.telling.tell(
            &say!(language, "service-plate-removed", plate = name),
            &json!({ "removed": name }),
        );
    }
    if arguments.take_off.is_some() && !plates.has(name) {
        return Err(not_there("NAME", name));
    }
    let plate = plates.plate("NAME", name)?;
    match arguments.price.as_deref() {
        None => {}
        Some("none") => plate.price = None,
        Some(price) => plate.price = Some(Money::parse("--price", price)?),
    }
    if let Some(dish) = &arguments.dish {
        let dish = store.known_dish(&DishName::new("--dish", dish)?)?;
        plate.put(Component::Portioned(dish.name));
    }
    if let (Some(name), Some(weight), Some(cost)) =
        (&arguments.component, &arguments.weight, &arguments.cost)
    {
        plate.put(Component::fixed(&FixedText {
            name,
            weight,
            cost,
            yielded: arguments.yielded.as_deref(),
            waste: arguments.waste.as_deref(),
        })?);
    }
    if let Some(name) = &arguments.take_off
        && !plate.take_off(name)
    {
        return Err(not_there("--take-off", name));
    }
    let on_it: Vec<&str> = plate.components.iter().map(Component::name).collect();
    let price = plate
        .price
        .map(|price| review::words::money(language, price));
    let told = say!(
        language,
        "service-plate-made",
        plate = plate.name.as_str(),
        count = on_it.len(),
        things = on_it.join("; "),
        price = price.unwrap_or_else(|| "-".to_owned())
    );
    let json = json!({
        "plate": plate.name,
        "price": plate.price.map(|price| price.to_string()),
        "components": on_it,
    });
    store.keep_plates(&plates, Timestamp::now())?;
    arguments.telling.tell(&told, &json)
}

fn tell_savings(night: &Night, language: Language) -> Result<(), Failure> {
    let savings = review::words::savings(language, night, SAVINGS);
    if !savings.is_empty() {
        output::line("")?;
        output::line(&say!(language, "service-savings"))?;
        for saving in savings {
            output::line(&format!("  {saving}"))?;
        }
    }
    Ok(())
}

fn interval(interval: &Interval<Mass>) -> Value {
    json!({
        "low_grams": Grams(interval.low),
        "high_grams": Grams(interval.high),
        "confidence": interval.confidence.fraction(),
    })
}

/// The spread with everything that the review found.
fn dish_json(dish: &DishNight) -> Value {
    let review = &dish.review;
    let mut told = json!(SpreadJson::of(dish.dish.as_ref(), &review.spread));
    let found = json!({
        "mean": review.mean.as_ref().map(interval),
        "standard_deviation": review.deviation.as_ref().map(interval),
        "percentile_method": PercentileMethod::PlusOne.name(),
        "percentile_5_grams": review.percentiles.map(|at| Grams(at[0])),
        "percentile_50_grams": review.percentiles.map(|at| Grams(at[1])),
        "percentile_95_grams": review.percentiles.map(|at| Grams(at[2])),
        "lead": {
            "scale_off": matches!(dish.lead.doubt, Some(LeadDoubt::ScaleOff { .. })),
            "off_target": dish.lead.off.map(|off| json!({
                "verdict": off.verdict.word(),
                "portions": off.portions,
                "of": off.of,
                "by_grams": Grams(off.by),
            })),
            "finding": dish.lead.finding.as_ref().map(finding_json),
        },
        "relied_on": SpreadJson::of(dish.dish.as_ref(), &review.relied),
        "in_doubt": InDoubtJson::of(&review.doubts),
        "far_from_the_others_grams": review.far.iter().map(|mass| Grams(*mass)).collect::<Vec<_>>(),
        "left_out": {
            "struck": review.left_out.struck,
            "corrected": review.left_out.corrected,
            "topped_up": review.left_out.topped_up,
        },
        "usual": review.usual.map(|usual| json!({
            "services": usual.services,
            "mean_grams": Grams(usual.mean),
            "night_to_night_grams": Grams(usual.night_to_night),
            "tonight_grams": Grams(usual.tonight),
        })),
        "findings": review.findings.iter().map(finding_json).collect::<Vec<_>>(),
        "capability": review.capability.map(|capability| json!({
            "cp": capability.cp,
            "cpk": capability.cpk,
            "cpm": capability.cpm,
        })),
        "aim": review.advice.as_ref().ok().map(|advice| json!({
            "aim_grams": Grams(advice.aim.aim),
            "short_share": advice.aim.short_share,
            "heavy_share": advice.aim.heavy_share,
            "held_by": match advice.aim.held_by {
                HeldBy::Sought => "what is supposed",
                HeldBy::Promise => "the promise",
                HeldBy::AsItIs => "the portions as they are",
            },
            "light_side": match advice.aim.light_side {
                LightSide::Like => "like the heavy side",
                LightSide::CutOff => "cut off",
                LightSide::Longer => "longer",
            },
            "portions": advice.aim.n,
            "supposed": supposed_json(advice),
            "narrower_by_grams": Grams(advice.narrower_by),
            "saving_a_month": advice.saving.map(|saving| saving.to_string()),
            "saving_a_month_for_each_gram": advice.saving_a_gram().map(|rate| rate.to_string()),
            "portions_a_month": advice.portions_a_month,
        })),
        "failed_tests": dish.failed_tests.iter().map(failed_json).collect::<Vec<_>>(),
        "no_advice": review.advice.as_ref().err().map(ToString::to_string),
    });
    if let (Some(told), Value::Object(found)) = (told.as_object_mut(), found) {
        told.insert("review".to_owned(), Value::Object(found));
    }
    told
}

fn finding_json(finding: &Finding) -> Value {
    let conclusion = &finding.conclusion;
    json!({
        "what": match conclusion.kind {
            ConclusionKind::LeftUsual => "left the usual weight",
            ConclusionKind::OffUsual => "off the usual weight",
            ConclusionKind::Moved => "moved within the night",
            ConclusionKind::EvennessOffUsual => "evenness off the usual",
            ConclusionKind::EvennessMoved => "evenness moved within the night",
        },
        "up": conclusion.up,
        "size": conclusion.size,
        "since": finding.since,
        "seen_at": finding.seen_at,
        "chance": conclusion.chance,
    })
}

/// What an aim leans on.
fn supposed_json(advice: &Advice) -> Value {
    match advice.basis {
        AdviceBasis::Cost {
            food_per_gram,
            short_portion,
            currency,
            remedy,
        } => json!({
            "food_cost_per_gram": food_per_gram,
            "short_portion_cost": short_portion,
            "short_portion_is_its_food_again": remedy == ShortRemedy::MadeAgain,
            "currency": currency.code(),
        }),
        AdviceBasis::ToppedUp => json!({ "short_portion_is_topped_up": true }),
        AdviceBasis::Share(share) => json!({ "short_share_allowed": share }),
    }
}

fn failed_json(failed: &FailedTest) -> Value {
    let mut told = super::scale::test_json(&failed.test);
    let (calibrated, passed) = match failed.put_right {
        Some(PutRight::Calibrated(at)) => (Some(at), None),
        Some(PutRight::Passed(at)) => (None, Some(at)),
        None => (None, None),
    };
    told["at"] = json!(failed.time);
    told["portions_after"] = json!(failed.after);
    told["portions_before"] = json!(failed.before);
    told["last_good_at"] = json!(failed.last_good);
    told["calibrated_at"] = json!(calibrated);
    told["passed_at"] = json!(passed);
    told
}

fn list(
    store: &Store,
    calendar: &ServiceCalendar,
    (most, json): (usize, bool),
    language: Language,
) -> Result<(), Failure> {
    let days = store.service_days(calendar, None, most)?;
    output::nothing_yet(
        days.is_empty(),
        json,
        &say!(language, "service-nothing-yet"),
    )?;
    for day in days {
        let service = service_of(store, day)?;
        let (from, to) = calendar.span(day);
        let portions = store.dots(from, to)?.len();
        if json {
            let mut told = orders_json(&service);
            told["portions"] = json!(portions);
            output::json(&told)?;
        } else {
            output::line(&say!(
                language,
                "service-listed",
                service = words(language, &service, calendar),
                count = portions
            ))?;
        }
    }
    Ok(())
}
