//! `evenhand dough`.

use super::fields::{at_flag, happened};
use super::formula::{SizeArguments, find};
use super::{Data, Failure, output};
use crate::words::{bad_input, say};
use clap::{Args, Subcommand};
use evenhand_kitchen::batch::BatchId;
use evenhand_kitchen::book::StagedFormula;
use evenhand_kitchen::dough::{MixedDough, WaterFor};
use evenhand_kitchen::units::{
    Grams, InputError, mass_not_negative, parse_temperature, parse_temperature_difference,
};
use evenhand_protocol::{Mass, Temperature};
use evenhand_use_cases::book::{self, DoughToMix, DoughWater};
use serde_json::{Value, json};

#[derive(Debug, Subcommand)]
pub(super) enum DoughCommand {
    /// How warm the water has to be, and how much of it ice.
    Water(WaterArguments),
    /// Note how warm a dough came out, so that the next one's water is known better.
    Mixed(MixedArguments),
}

/// What goes into the dough.
#[derive(Debug, Args)]
pub(super) struct IntoArguments {
    /// The formula's name in the book.
    name: String,
    #[command(flatten)]
    size: SizeArguments,
    /// How warm the flour is.
    #[arg(long, value_name = "TEMP", allow_hyphen_values = true)]
    flour_at: String,
    /// How warm what was made beforehand is, where the formula has stages.
    #[arg(long, value_name = "TEMP", allow_hyphen_values = true)]
    before_at: Option<String>,
}

#[derive(Debug, Args)]
pub(super) struct WaterArguments {
    #[command(flatten)]
    into: IntoArguments,
    /// How warm the dough is to be; as the formula says, where this is left out.
    #[arg(long, value_name = "TEMP", allow_hyphen_values = true)]
    dough_at: Option<String>,
    /// How cold the coldest water at hand is.
    #[arg(
        long,
        value_name = "TEMP",
        default_value = "15degC",
        allow_hyphen_values = true
    )]
    coldest: String,
    /// How warm the room is: with --friction, until a dough was measured.
    #[arg(
        long,
        value_name = "TEMP",
        requires = "friction",
        allow_hyphen_values = true
    )]
    room: Option<String>,
    /// What mixing adds by the trade's arithmetic, such as 12degC.
    #[arg(
        long,
        value_name = "DEGREES",
        requires = "room",
        allow_hyphen_values = true
    )]
    friction: Option<String>,
    /// One JSON object.
    #[arg(long)]
    json: bool,
}

#[derive(Debug, Args)]
pub(super) struct MixedArguments {
    #[command(flatten)]
    into: IntoArguments,
    /// How warm the water was.
    #[arg(long, value_name = "TEMP", allow_hyphen_values = true)]
    water_at: String,
    /// How much of it was ice.
    #[arg(
        long,
        value_name = "MASS",
        default_value = "0g",
        allow_hyphen_values = true
    )]
    ice: String,
    /// How warm the dough came out.
    #[arg(long, value_name = "TEMP", allow_hyphen_values = true)]
    dough_at: String,
    /// The batch that it is; without it a new one is begun.
    #[arg(long, value_name = "NUMBER")]
    batch: Option<i64>,
    /// When, where it was not just now: 2026-05-01T18:30.
    #[arg(long, value_name = "TIME")]
    at: Option<String>,
    /// One JSON object.
    #[arg(long)]
    json: bool,
}

/// The flags at which the domain's fields are typed.
const FLAGS: &[(&str, &str)] = &[
    ("base", "--base"),
    ("total", "--total"),
    ("pieces", "--pieces"),
    ("each", "--each"),
    ("lost", "--lost"),
    ("of", "--of"),
    ("flour's temperature", "--flour-at"),
    ("temperature of what was made beforehand", "--before-at"),
    ("dough's temperature", "--dough-at"),
    ("water's temperature", "--water-at"),
    ("coldest water", "--coldest"),
    ("ice", "--ice"),
    ("friction", "--friction"),
];

fn flag(error: InputError) -> Failure {
    at_flag(&error, FLAGS)
}

impl IntoArguments {
    fn dough(
        &self,
        wanted: Option<Temperature>,
        coldest: Temperature,
    ) -> Result<DoughToMix, Failure> {
        Ok(DoughToMix {
            size: self.size.size()?,
            flour_at: parse_temperature("--flour-at", &self.flour_at)?,
            before_at: self
                .before_at
                .as_ref()
                .map(|text| parse_temperature("--before-at", text))
                .transpose()?,
            wanted,
            coldest,
            by_rule: None,
        })
    }
}

pub(super) fn run(data: &Data, command: DoughCommand) -> Result<(), Failure> {
    match command {
        DoughCommand::Water(arguments) => water(data, &arguments),
        DoughCommand::Mixed(arguments) => mixed(data, &arguments),
    }
}

fn water(data: &Data, arguments: &WaterArguments) -> Result<(), Failure> {
    let wanted = arguments
        .dough_at
        .as_ref()
        .map(|text| parse_temperature("--dough-at", text))
        .transpose()?;
    let coldest = parse_temperature("--coldest", &arguments.coldest)?;
    let by_rule = match (&arguments.room, &arguments.friction) {
        (Some(room), Some(friction)) => Some((
            parse_temperature("--room", room)?,
            parse_temperature_difference("--friction", friction)?.celsius(),
        )),
        _ => None,
    };
    let dough = DoughToMix {
        by_rule,
        ..arguments.into.dough(wanted, coldest)?
    };
    let formula = find(data, &arguments.into.name)?;
    let measured = book::doughs(&data.existing()?, formula.name())?;
    let water = book::water(&formula, &dough, &measured).map_err(flag)?;
    if arguments.json {
        return output::json(&water_fields(&formula, &water));
    }
    output::line(&book::water_words(data.language, &water, coldest).join("\n"))
}

fn water_fields(formula: &StagedFormula, water: &DoughWater) -> Value {
    let rounded = |value: f64| (value * 100.0).round() / 100.0;
    let mut fields = match water {
        DoughWater::NotKnownYet => json!({"code": "not-known-yet"}),
        DoughWater::ByRule { at } => {
            json!({"code": "by-rule", "water_c": rounded(at.celsius())})
        }
        DoughWater::Balanced { water, rise } => {
            let mut fields = match water {
                WaterFor::Water { at } => {
                    json!({"code": "water", "water_c": rounded(at.celsius())})
                }
                WaterFor::Ice { ice, water } => json!({
                    "code": "ice",
                    "ice_grams": Grams(*ice),
                    "water_grams": Grams(*water),
                }),
                WaterFor::TooCold { at } => {
                    json!({"code": "too-cold", "water_c": rounded(at.celsius())})
                }
                WaterFor::TooWarm => json!({"code": "too-warm"}),
            };
            fields["rise_kelvin"] = json!(rounded(rise.kelvin));
            fields["rise_give_or_take_kelvin"] = json!(rise.give_or_take.map(rounded));
            fields["doughs_measured"] = json!(rise.doughs);
            fields
        }
    };
    fields["formula"] = json!(formula.name());
    fields
}

fn mixed(data: &Data, arguments: &MixedArguments) -> Result<(), Failure> {
    let dough_at = parse_temperature("--dough-at", &arguments.dough_at)?;
    let water_at = parse_temperature("--water-at", &arguments.water_at)?;
    let ice: Mass = mass_not_negative("--ice", &arguments.ice)?;
    let at = happened("--at", arguments.at.as_deref())?;
    let formula = find(data, &arguments.into.name)?;
    let to_mix = arguments.into.dough(None, water_at)?;
    let going = book::going(&formula, &to_mix).map_err(flag)?;
    let dough = MixedDough::new(going, water_at, ice, dough_at).map_err(flag)?;
    let mut store = data.store()?;
    let batch = arguments.batch.map(BatchId);
    if let Some(id) = batch {
        let batch = store.batch(id)?;
        if batch.title().map(str::to_lowercase) != Some(formula.name().to_lowercase()) {
            let number = id.0.to_string();
            let formula = format!("{:?}", formula.name());
            return Err(match batch.title() {
                Some(title) => bad_input!(
                    "dough-other-batch",
                    number = number,
                    title = format!("{title:?}"),
                    formula = formula
                ),
                None => bad_input!("dough-untitled-batch", number = number, formula = formula),
            });
        }
    }
    let id = book::put_mixed(&mut store, batch, formula.name(), dough, at)?;
    if arguments.json {
        return output::json(&json!({
            "batch": id.0,
            "formula": formula.name(),
            "rise_kelvin": (dough.rise() * 100.0).round() / 100.0,
        }));
    }
    output::line(&say!(
        data.language,
        "dough-mixed",
        number = id.0.to_string(),
        rose = book::rose_words(data.language, dough.rise())
    ))
}
