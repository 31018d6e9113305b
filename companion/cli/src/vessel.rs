//! `evenhand brine vessel`.

use super::doubt::DoubtArguments;
use super::fields::at_flag;
use super::output::Telling;
use super::{Data, Failure, output};
use crate::words::say;
use clap::{Args, Subcommand};
use evenhand_kitchen::brine::{Filling, KnownVessel, VesselName};
use evenhand_kitchen::units::{
    Grams, InputError, MassUnit, format_mass, mass_positive, parse_temperature,
};
use evenhand_words::Language;
use jiff::Timestamp;
use serde_json::{Map, Value, json};

/// The flags at which the domain's fields are typed.
const FLAGS: &[(&str, &str)] = &[
    ("temperature", "--at"),
    ("net mass of water", "--water"),
    ("empty vessel", "--empty"),
    ("scale uncertainty", "--scale-within"),
    ("level uncertainty", "--level-within"),
    ("probe uncertainty", "--probe-within"),
    ("material", "--material"),
];

#[derive(Debug, Subcommand)]
pub(super) enum VesselCommand {
    /// Find a vessel's volume by the water that it holds, and keep it under a name.
    Fill(Box<FillArguments>),
    /// The vessels in use.
    List {
        /// One JSON object a line.
        #[arg(long)]
        json: bool,
    },
    /// Take a vessel out of use; what was measured with it stays.
    Retire {
        /// Its name.
        name: String,
        #[command(flatten)]
        telling: Telling,
    },
}

#[derive(Debug, Args)]
pub(super) struct FillArguments {
    /// Its name.
    name: String,
    /// How much fresh water it holds, filled to where the brine will be filled to.
    #[arg(long, value_name = "MASS", allow_hyphen_values = true)]
    water: String,
    /// How warm that water is.
    #[arg(long, value_name = "TEMP", allow_hyphen_values = true)]
    at: String,
    /// What the vessel is made of: steel, glass or plastic.
    #[arg(long, value_name = "MATERIAL", default_value = "steel")]
    material: String,
    /// What the empty vessel weighs.
    #[arg(long, value_name = "MASS", allow_hyphen_values = true)]
    empty: Option<String>,
    #[command(flatten)]
    doubt: DoubtArguments,
    /// One JSON object.
    #[arg(long)]
    json: bool,
}

fn flag(error: InputError) -> Failure {
    at_flag(&error, FLAGS)
}

pub(super) fn run(data: &Data, command: VesselCommand) -> Result<(), Failure> {
    match command {
        VesselCommand::Fill(arguments) => fill(data, &arguments),
        VesselCommand::List { json } => {
            let vessels = data.existing()?.vessels()?;
            output::nothing_yet(
                vessels.is_empty(),
                json,
                &say!(data.language, "vessel-none"),
            )?;
            for vessel in vessels {
                show(data.language, &vessel, json)?;
            }
            Ok(())
        }
        VesselCommand::Retire { name, telling } => {
            let name = VesselName::new("NAME", &name)?;
            data.existing()?.retire_vessel(&name, Timestamp::now())?;
            telling.tell(
                &say!(data.language, "vessel-out-of-use", name = name.as_str()),
                &json!({ "vessel": name.as_str(), "in_use": false }),
            )
        }
    }
}

fn fill(data: &Data, arguments: &FillArguments) -> Result<(), Failure> {
    let name = VesselName::new("NAME", &arguments.name)?;
    let water = mass_positive("--water", &arguments.water)?;
    let filling = Filling {
        at: Timestamp::now(),
        water,
        temperature: parse_temperature("--at", &arguments.at)?,
        material: arguments.material.parse().map_err(flag)?,
        doubt: arguments.doubt.doubt(water)?,
        empty: arguments
            .empty
            .as_ref()
            .map(|text| mass_positive("--empty", text))
            .transpose()?,
    };
    filling.vessel().map_err(flag)?;
    let mut store = data.store()?;
    store.set_vessel(&name, &filling)?;
    show(data.language, &store.known_vessel(&name)?, arguments.json)
}

fn show(language: Language, known: &KnownVessel, as_json: bool) -> Result<(), Failure> {
    let filling = &known.filling;
    let vessel = filling.vessel()?;
    let volume = vessel.volume()?;
    let within = vessel.uncertainty();
    if as_json {
        let mut fields = Map::new();
        let rounded = |value: f64| (value * 1e3).round() / 1e3;
        for (name, value) in [
            ("vessel", json!(known.name.as_str())),
            ("volume_ml", json!(rounded(volume.millilitres()))),
            ("volume_at_c", json!(20.0)),
            ("volume_ml_uncertainty", json!(rounded(within.grams()))),
            ("coverage_factor", json!(2)),
            ("water_grams", json!(Grams(filling.water))),
            ("water_at_c", json!(filling.temperature.celsius())),
            ("material", json!(filling.material)),
            ("filled", json!(filling.at.to_string())),
        ] {
            fields.insert(name.to_owned(), value);
        }
        fields.insert(
            "empty_grams".to_owned(),
            filling
                .empty
                .map_or(Value::Null, |empty| json!(Grams(empty))),
        );
        return output::json(&fields);
    }
    let figure = |value: f64| language.figure(format!("{value:.1}"));
    let grams = |mass| language.figure(format_mass(mass, MassUnit::Gram));
    let name = known.name.as_str();
    let (volume, within) = (figure(volume.millilitres()), figure(within.grams()));
    let water = grams(filling.water);
    let at = figure(filling.temperature.celsius());
    output::line(&match filling.empty {
        None => say!(
            language,
            "vessel-shown",
            name = name,
            volume = volume,
            within = within,
            water = water,
            at = at
        ),
        Some(empty) => say!(
            language,
            "vessel-shown-empty",
            name = name,
            volume = volume,
            within = within,
            water = water,
            at = at,
            empty = grams(empty)
        ),
    })
}
