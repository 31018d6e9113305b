//! `evenhand dish`.

use super::amounts::{GoalArguments, ModeArguments, UnitArguments};
use super::output::Telling;
use super::words::{bad_input, say};
use super::{Data, Failure, figures, output};
use clap::{Args, Subcommand};
use evenhand_kitchen::dish::{Dish, DishName};
use evenhand_kitchen::melt::MeltClock;
use evenhand_kitchen::moment::show_date_and_time;
use evenhand_kitchen::units::{CostPerMass, Grams, MassUnit};
use evenhand_protocol::Mode;
use evenhand_words::Language;
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp};
use serde_json::{Value, json};

#[derive(Debug, Subcommand)]
pub(super) enum DishCommand {
    /// Put a dish on the list, or change it from now on.
    Add(AddArguments),
    /// The dishes on the list.
    List(ListArguments),
    /// Give a dish another name; what was portioned of it stays its own.
    Rename {
        /// The dish's name.
        name: String,
        /// Its name from now on.
        new: String,
        #[command(flatten)]
        telling: Telling,
    },
    /// What a dish was called and weighed before.
    History {
        /// The dish's name.
        name: String,
        /// One JSON object a line, weights in grams.
        #[arg(long)]
        json: bool,
    },
    /// Set how long a dish's scoops may be out of the cold, or take the limit off.
    Melt {
        /// The dish's name.
        name: String,
        /// How long: "6 min"; "off" for no limit.
        limit: String,
        #[command(flatten)]
        telling: Telling,
    },
    /// Take a dish off the list; what was portioned of it stays on record.
    Retire {
        /// The dish's name.
        name: String,
        #[command(flatten)]
        telling: Telling,
    },
}

#[derive(Debug, Args)]
pub(super) struct AddArguments {
    /// The dish's name.
    name: String,
    #[command(flatten)]
    goal: GoalArguments,
    #[command(flatten)]
    mode: ModeArguments,
    /// What its food costs: "1800 EUR/kg", "51 USD/oz".
    #[arg(long, value_name = "COST", allow_hyphen_values = true)]
    cost: Option<String>,
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

pub(super) fn run(data: &Data, command: DishCommand) -> Result<(), Failure> {
    match command {
        DishCommand::Add(arguments) => add(data, &arguments),
        DishCommand::List(arguments) => list(data, &arguments),
        DishCommand::Rename { name, new, telling } => {
            let name = DishName::new("NAME", &name)?;
            let new = DishName::new("NEW", &new)?;
            let dish = data
                .existing()?
                .rename_dish(&name, &new, Timestamp::now())?;
            telling.tell(
                &words(data.language, &dish, MassUnit::Gram),
                &dish_json(&dish),
            )
        }
        DishCommand::History { name, json } => history(data, &name, json),
        DishCommand::Melt {
            name,
            limit,
            telling,
        } => melt(data, &name, &limit, telling),
        DishCommand::Retire { name, telling } => {
            let name = DishName::new("NAME", &name)?;
            let mut store = data.existing()?;
            store.retire_dish(&name, Timestamp::now())?;
            let dish = store.known_dish(&name)?;
            telling.tell(
                &words(data.language, &dish, MassUnit::Gram),
                &dish_json(&dish),
            )
        }
    }
}

fn add(data: &Data, arguments: &AddArguments) -> Result<(), Failure> {
    let name = DishName::new("NAME", &arguments.name)?;
    let cost = arguments
        .cost
        .as_ref()
        .map(|cost| CostPerMass::parse("--cost", cost))
        .transpose()?;
    let mut store = data.store()?;
    let known = store.dish(&name)?;
    let goal = arguments.goal.goal(known.as_ref().map(|dish| dish.goal))?;
    let mode = arguments.mode.mode(known.as_ref().map(|dish| dish.mode))?;
    let cost = cost.or(known.and_then(|dish| dish.cost));
    let dish = store.set_dish(&name, goal, mode, cost, Timestamp::now())?;
    arguments.telling.tell(
        &words(data.language, &dish, MassUnit::Gram),
        &dish_json(&dish),
    )
}

fn history(data: &Data, name: &str, json: bool) -> Result<(), Failure> {
    let name = DishName::new("NAME", name)?;
    let store = data.existing()?;
    let former = store.former_names(&name)?;
    for version in store.dish_versions(&name)? {
        if json {
            let mut told = dish_json(&version);
            told["former_names"] = former
                .iter()
                .map(|(name, until)| json!({"name": name.as_str(), "until": until}))
                .collect();
            output::json(&told)?;
        } else {
            output::line(&say!(
                data.language,
                "dish-since",
                time = show_date_and_time(version.since, &TimeZone::system()),
                dish = words(data.language, &version, MassUnit::Gram)
            ))?;
        }
    }
    if !json {
        for (name, until) in former {
            let until = show_date_and_time(until, &TimeZone::system());
            let name = name.as_str();
            output::line(&say!(
                data.language,
                "dish-called",
                name = name,
                time = until
            ))?;
        }
    }
    Ok(())
}

fn melt(data: &Data, name: &str, text: &str, telling: Telling) -> Result<(), Failure> {
    let name = DishName::new("NAME", name)?;
    let limit = if text.trim().eq_ignore_ascii_case("off") {
        None
    } else {
        let limit: SignedDuration = text
            .trim()
            .parse()
            .map_err(|_| bad_input!("dish-melt-unread", value = format!("{text:?}")))?;
        MeltClock::start(Timestamp::UNIX_EPOCH, limit).map_err(|error| {
            bad_input!("dish-melt-refused", seconds = error.0.as_secs().to_string())
        })?;
        Some(limit)
    };
    data.existing()?
        .set_melt_limit(&name, limit, Timestamp::now())?;
    let words = match limit {
        Some(limit) => say!(
            data.language,
            "dish-melt",
            dish = name.as_str(),
            limit = format!("{limit:#}")
        ),
        None => say!(data.language, "dish-no-melt", dish = name.as_str()),
    };
    let fields = json!({
        "name": name.as_str(),
        "melt_limit_seconds": limit.map(|limit| limit.as_secs()),
    });
    telling.tell(&words, &fields)
}

fn list(data: &Data, arguments: &ListArguments) -> Result<(), Failure> {
    let unit = arguments.unit.unit()?;
    let dishes = data.existing()?.dishes()?;
    output::nothing_yet(
        dishes.is_empty(),
        arguments.json,
        &say!(data.language, "dish-nothing-yet"),
    )?;
    for dish in dishes {
        if arguments.json {
            output::json(&dish_json(&dish))?;
        } else {
            output::line(&words(data.language, &dish, unit))?;
        }
    }
    Ok(())
}

fn dish_json(dish: &Dish) -> Value {
    json!({
        "name": dish.name.as_str(),
        "mode": mode_word(dish.mode),
        "target_grams": Grams(dish.goal.target()),
        "below_grams": Grams(dish.goal.tolerance().below),
        "above_grams": Grams(dish.goal.tolerance().above),
        "cost": dish.cost.map(|cost| cost.to_string()),
        "since": dish.since,
        "retired": dish.retired,
    })
}

/// `shrimp: 30.0 g (-1.0 g, +1.0 g), taking, 1800.00 EUR/kg`
fn words(language: Language, dish: &Dish, unit: MassUnit) -> String {
    let mass = |mass| figures::mass(language, mass, unit);
    let tolerance = dish.goal.tolerance();
    let mut words = say!(
        language,
        "dish-line",
        dish = dish.name.as_str(),
        target = mass(dish.goal.target()),
        below = mass(tolerance.below),
        above = mass(tolerance.above),
        mode = mode_word(dish.mode)
    )
    .into_owned();
    if let Some(cost) = dish.cost {
        words += &format!(", {}", language.figure(cost.to_string()));
    }
    if dish.retired.is_some() {
        words += &format!(", {}", say!(language, "dish-off-list"));
    }
    words
}

pub(super) const fn mode_word(mode: Mode) -> &'static str {
    match mode {
        Mode::Adding => "adding",
        Mode::Taking => "taking",
    }
}
