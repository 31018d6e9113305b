//! `evenhand prep`.

mod made_for;
mod order;
mod par;
mod plan;
mod tell;
mod week;

use super::{Data, Failure};
use crate::failure::Spoken;
use crate::words::bad_input;
use clap::Subcommand;
use evenhand_kitchen::moment::{DayEdge, has_come, read_day, read_moment};
use evenhand_use_cases::prep::PrepError;
use evenhand_words::Language;
use jiff::civil::{Date, Time};
use jiff::{Timestamp, ZonedDateTime};

/// What was typed at an option cannot be used, for a reason in words.
fn refused(field: &str, why: impl Fn(Language) -> String) -> Failure {
    bad_input!("prep-refused", field = field, why = Spoken::each(why))
}

#[derive(Debug, Subcommand)]
pub(super) enum PrepCommand {
    /// A menu worked backward from service.
    Plan(plan::PlanArguments),
    /// The day's list as a page of text, to print.
    List(plan::ListArguments),
    /// A week as a table: what is made each day, and what comes from stock.
    Week(week::WeekArguments),
    /// Keep a menu, or show the one in force.
    Menu(tell::MenuArguments),
    /// Tell that a step is begun, done, or not done after all.
    Tick(tell::TickArguments),
    /// Tell that a step cannot begin before a time: a late delivery.
    Delay(tell::DelayArguments),
    /// From covers expected: portions to have ready, food to start with, food to order.
    Par(par::ParArguments),
    /// What to order of each supplier, in packs, until the delivery after the next; as PDF.
    Order(order::OrderArguments),
    /// Keep the list of what the kitchen buys, or show it.
    Goods(order::GoodsArguments),
    /// Put down how much of something is in hand, as bought.
    Count(order::CountArguments),
    /// Put down how many packs of something were ordered.
    Ordered(order::OrderedArguments),
    /// What was ordered; take an order back that was put down by mistake, or put it back.
    Orders(order::OrdersArguments),
    /// A label for each tub of a batch: made, ready, use by, lot and allergens; as PDF or PNG.
    Label(made_for::LabelArguments),
    /// Tell that what was left of a batch is gone: thrown out, or used otherwise.
    Gone(made_for::GoneArguments),
    /// Put down how many guests a service had, or is expected to have.
    Covers(par::CoversArguments),
    /// Put down how many portions of a dish a service left.
    Left(par::LeftArguments),
}

pub(super) fn run(data: &Data, command: PrepCommand, language: Language) -> Result<(), Failure> {
    match command {
        PrepCommand::Plan(arguments) => plan::run(data, &arguments, language),
        PrepCommand::List(arguments) => plan::list(data, &arguments, language),
        PrepCommand::Week(arguments) => week::run(data, &arguments, language),
        PrepCommand::Label(arguments) => made_for::label(data, &arguments, language),
        PrepCommand::Gone(arguments) => made_for::gone(data, &arguments),
        PrepCommand::Menu(arguments) => tell::menu(data, &arguments),
        PrepCommand::Tick(arguments) => tell::tick(data, &arguments),
        PrepCommand::Delay(arguments) => tell::delay(data, &arguments),
        PrepCommand::Par(arguments) => par::run(data, &arguments, language),
        PrepCommand::Order(arguments) => order::run(data, &arguments, language),
        PrepCommand::Goods(arguments) => order::goods(data, &arguments),
        PrepCommand::Count(arguments) => order::count(data, &arguments),
        PrepCommand::Ordered(arguments) => order::ordered(data, &arguments),
        PrepCommand::Orders(arguments) => order::orders(data, &arguments),
        PrepCommand::Covers(arguments) => par::covers(data, &arguments),
        PrepCommand::Left(arguments) => par::left(data, &arguments),
    }
}

impl From<PrepError> for Failure {
    fn from(error: PrepError) -> Self {
        match error {
            PrepError::Store(error) => error.into(),
            PrepError::NoMenu(day) => bad_input!("prep-no-menu", day = day.to_string()),
            error if error.is_bad_input() => Self::Input(error.to_string()),
            error => Self::Other(error.to_string()),
        }
    }
}

/// A day of service.
fn day(flag: &str, text: &str) -> Result<Date, Failure> {
    Ok(read_day(flag, text, &ZonedDateTime::now())?)
}

/// A moment; a time of day alone is one on `on`, the service's day. Now, if not
/// said.
fn moment(flag: &str, text: Option<&str>, on: Date) -> Result<Timestamp, Failure> {
    moment_to(flag, text, on, DayEdge::Begin)
}

/// As [`moment`], where a day alone stands for this end of it.
fn moment_to(
    flag: &str,
    text: Option<&str>,
    on: Date,
    edge: DayEdge,
) -> Result<Timestamp, Failure> {
    let now = ZonedDateTime::now();
    let Some(text) = text else {
        return Ok(now.timestamp());
    };
    let zone = now.time_zone();
    let of_service = is_time_alone(text)
        .then(|| zone.to_timestamp(on.to_datetime(Time::midnight())).ok())
        .flatten()
        .map(|begin| begin.to_zoned_datetime(zone.clone()));
    let today = of_service.as_ref().unwrap_or(&now);
    Ok(read_moment(flag, text, today, edge)?)
}

/// Whether a text is a time of day without its day.
fn is_time_alone(text: &str) -> bool {
    text.trim().chars().all(|c| c.is_ascii_digit() || c == ':')
}

/// As [`moment`], of something that has happened.
fn past_moment(flag: &str, text: Option<&str>, on: Date) -> Result<Timestamp, Failure> {
    let at = moment(flag, text, on)?;
    Ok(has_come(
        flag,
        text.unwrap_or_default(),
        at,
        Timestamp::now(),
    )?)
}

/// A count.
fn whole(flag: &str, text: &str, what: &'static str) -> Result<u32, Failure> {
    match text.trim().parse() {
        Ok(count) if count <= 100_000 => Ok(count),
        _ => Err(bad_input!(
            "prep-no-whole",
            what = what,
            flag = flag,
            text = format!("{text:?}")
        )),
    }
}
