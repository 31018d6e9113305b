//! `evenhand tin`.

use super::amounts::UnitArguments;
use super::output::Telling;
use super::words::say;
use super::{Data, Failure, figures, output};
use clap::{Args, Subcommand};
use evenhand_kitchen::dish::DishName;
use evenhand_kitchen::tin::{PortionsPossible, Tin, TinId, TinKind, label};
use evenhand_kitchen::units::{Grams, InputError, MassUnit, Money, mass_positive};
use evenhand_kitchen::{expected, problem};
use evenhand_store::{NewTin, Store};
use evenhand_use_cases::review::words::money;
use evenhand_words::Language;
use jiff::Timestamp;
use serde_json::{Value, json};

#[derive(Debug, Subcommand)]
pub(super) enum TinCommand {
    /// Open a tin: from now on its dish is portioned from it.
    Open(OpenArguments),
    /// The tins, the one opened last first.
    List(ListArguments),
    /// Note that a tin is used up or thrown out.
    Close {
        /// The tin's number.
        tin: String,
        #[command(flatten)]
        telling: Telling,
    },
}

#[derive(Debug, Args)]
pub(super) struct OpenArguments {
    /// What is portioned from it.
    #[arg(long, value_name = "NAME")]
    dish: String,
    /// Its food as bought, without the tin: 500g.
    #[arg(long, value_name = "MASS", allow_hyphen_values = true)]
    net: String,
    /// What was paid for it: "90 EUR".
    #[arg(long, value_name = "MONEY", allow_hyphen_values = true)]
    price: Option<String>,
    /// What it is: tin, fish, cut or batch.
    #[arg(long, value_name = "KIND", default_value = "tin")]
    kind: String,
    /// What is written on it: lot, supplier, date.
    #[arg(long, value_name = "TEXT", default_value = "")]
    label: String,
    #[command(flatten)]
    telling: Telling,
}

#[derive(Debug, Args)]
pub(super) struct ListArguments {
    #[command(flatten)]
    unit: UnitArguments,
    /// One JSON object a line, weights in grams.
    #[arg(long)]
    json: bool,
}

pub(super) fn run(data: &Data, command: TinCommand) -> Result<(), Failure> {
    match command {
        TinCommand::Open(arguments) => open(data, arguments),
        TinCommand::List(arguments) => list(data, &arguments),
        TinCommand::Close { tin, telling } => {
            let id = tin_id("TIN", &tin)?;
            let mut store = data.existing()?;
            store.tin(id)?;
            let tin = store.close_tin(id, Timestamp::now())?;
            telling.tell(
                &words(data.language, &store, &tin, MassUnit::Gram)?,
                &tin_json(&store, &tin)?,
            )
        }
    }
}

fn open(data: &Data, arguments: OpenArguments) -> Result<(), Failure> {
    let kind = kind("--kind", &arguments.kind)?;
    let new = NewTin {
        kind,
        dish: DishName::new("--dish", &arguments.dish)?,
        label: label("--label", &arguments.label)?,
        net: mass_positive("--net", &arguments.net)?,
        price: arguments
            .price
            .as_ref()
            .map(|price| Money::parse("--price", price))
            .transpose()?,
    };
    let mut store = data.store()?;
    let tin = store.open_tin(&new, Timestamp::now())?;
    arguments.telling.tell(
        &words(data.language, &store, &tin, MassUnit::Gram)?,
        &tin_json(&store, &tin)?,
    )
}

fn list(data: &Data, arguments: &ListArguments) -> Result<(), Failure> {
    let unit = arguments.unit.unit()?;
    let store = data.existing()?;
    let tins = store.tins()?;
    output::nothing_yet(
        tins.is_empty(),
        arguments.json,
        &say!(data.language, "tin-nothing-yet"),
    )?;
    for tin in tins {
        if arguments.json {
            output::json(&tin_json(&store, &tin)?)?;
        } else {
            output::line(&words(data.language, &store, &tin, unit)?)?;
        }
    }
    Ok(())
}

fn tin_json(store: &Store, tin: &Tin) -> Result<Value, Failure> {
    let flow = store.yield_flow(tin.id)?;
    Ok(json!({
        "tin": tin.id.0,
        "kind": tin.kind.word(),
        "dish": tin.dish.as_str(),
        "label": tin.label,
        "net_grams": Grams(tin.net),
        "taken_grams": Grams(flow.portioned),
        "lost_grams": Grams(flow.lost_in_all()),
        "left_grams": Grams(flow.left_or_reckoned()),
        "price": tin.price.map(|price| price.to_string()),
        "opened": tin.opened,
        "closed": tin.closed,
    }))
}

/// `tin 1: shrimp, 380.0 g of 500.0 g left, 12 to 13 portions, 90.00 EUR, lot 12`
fn words(language: Language, store: &Store, tin: &Tin, unit: MassUnit) -> Result<String, Failure> {
    let mass = |mass| figures::mass(language, mass, unit);
    let flow = store.yield_flow(tin.id)?;
    let left = match tin.closed {
        Some(_) => say!(language, "tin-bought", mass = mass(tin.net)),
        None => {
            let dish = store.known_dish(&tin.dish)?;
            say!(
                language,
                "tin-left",
                left = mass(flow.left_or_reckoned()),
                net = mass(tin.net),
                possible = possible(language, flow.portions_possible(dish.goal))
            )
        }
    };
    let mut words = format!("{}, {left}", tin_words(language, tin));
    if let Some(price) = tin.price {
        words += &format!(", {}", money(language, price));
    }
    if !tin.label.is_empty() {
        words += &format!(", {}", tin.label);
    }
    Ok(words)
}

/// A purchase by its kind, its number and its dish: `tin 1: shrimp`.
pub(super) fn tin_words(language: Language, tin: &Tin) -> String {
    say!(
        language,
        "tin-line",
        kind = tin.kind.word(),
        id = tin.id.to_string(),
        dish = tin.dish.as_str()
    )
    .into_owned()
}

/// How many portions can still be made: `12 to 13 portions`.
pub(super) fn possible(language: Language, possible: PortionsPossible) -> String {
    if possible.fewest == possible.most {
        say!(language, "possible", count = possible.most)
    } else {
        say!(
            language,
            "possible-range",
            fewest = possible.fewest.to_string(),
            most = possible.most.to_string()
        )
    }
    .into_owned()
}

/// Reads a tin's number.
pub(super) fn tin_id(field: &str, text: &str) -> Result<TinId, InputError> {
    text.trim().parse().map(TinId).map_err(|_| {
        InputError::new(
            field,
            text,
            problem!("no-tin-number"),
            expected!("tin-number"),
        )
    })
}

fn kind(field: &str, text: &str) -> Result<TinKind, InputError> {
    TinKind::ALL
        .into_iter()
        .find(|kind| kind.word() == text.trim())
        .ok_or_else(|| InputError::new(field, text, problem!("not-bought"), expected!("bought")))
}
