//! `evenhand brine`.

use super::doubt::DoubtArguments;
use super::fields::at_flag;
use super::{Data, Failure, output, uptake, vessel};
use crate::words::say;
use clap::{ArgGroup, Args, Subcommand};
use evenhand_kitchen::brine::{
    Amount, BRINE_HEAT, Basis, CONCENTRATIVE, Checked, Composition, Correction, Density, Doubt,
    DoubtOf, EXPANSION, Freezing, GIVE_OR_TAKE, HEATS, Iced, MeatWater, PercentOfSolution,
    PercentOfWater, Recipe, SUGAR_MODEL, Salometer, SharedPercent, StandingBrine, Strength,
    SugarKnown, SugarPercent, TIME_RULE, Thickness, TimeEstimate, VOLUMETRIC, Vessel,
    VesselMaterial, VesselName, check, dry_salting, equilibrium_brine, time_by_thickness,
};
use evenhand_kitchen::units::{
    Grams, InputError, MassUnit, Volume, format_mass, mass_not_negative, mass_positive,
    parse_temperature, parse_volume,
};
use evenhand_protocol::{Mass, Temperature};
use evenhand_use_cases::limits::publication_words;
use evenhand_words::Language;
use jiff::SignedDuration;
use serde_json::{Map, Value, json};

/// The flags at which the domain's fields are typed.
const FLAGS: &[(&str, &str)] = &[
    ("temperature", "--at"),
    ("density", "--density"),
    ("basis", "--basis"),
    ("salt, per cent of water", "--strength"),
    ("salt, per cent of solution", "--strength"),
    ("salt", "--strength"),
    ("sugar", "--sugar"),
    ("water", "--water"),
    ("brine", "--brine"),
    ("volume", "--volume"),
    ("ice", "--ice"),
    ("water's temperature", "--water-at"),
    ("ice's temperature", "--ice-at"),
    ("room", "--room"),
    ("target", "--to"),
    ("meat", "--meat"),
    ("net mass", "--net"),
    ("net mass of water", "--vessel-water"),
    ("volume uncertainty", "--vessel-within"),
    ("scale uncertainty", "--scale-within"),
    ("level uncertainty", "--level-within"),
    ("probe uncertainty", "--probe-within"),
    ("material", "--material"),
];

#[derive(Debug, Subcommand)]
pub(super) enum BrineCommand {
    /// One way of saying a strength in all the others.
    Convert(ConvertArguments),
    /// What to weigh for a brine.
    Mix(MixArguments),
    /// Put a brine right that is too weak, too strong or had ice melt in it.
    Correct(CorrectArguments),
    /// Tell the strength by weighing a vessel full of brine.
    Weigh(Box<WeighArguments>),
    /// Salt for meat in water, or for meat rubbed dry, with all of the salt shared out in the end.
    Share(ShareArguments),
    /// Weigh meat or fish into a brine or a marinade; when its core is at so much salt.
    In(Box<uptake::InArguments>),
    /// Weigh it out again, with what is known of the bath or its salt.
    Out(uptake::OutArguments),
    /// What a batch in its bath comes to, by the kitchen's own batches.
    Expect(uptake::ExpectArguments),
    /// Vessels of known volume, to tell a brine's strength with.
    #[command(subcommand)]
    Vessel(vessel::VesselCommand),
}

#[derive(Debug, Args)]
#[command(group = ArgGroup::new("strength_said").required(true).args(["of_water", "of_solution", "salometer", "density"]))]
pub(super) struct ConvertArguments {
    /// Salt over water, in per cent.
    #[arg(long, value_name = "PERCENT", allow_hyphen_values = true)]
    of_water: Option<String>,
    /// Salt over the whole brine, in per cent.
    #[arg(long, value_name = "PERCENT", allow_hyphen_values = true)]
    of_solution: Option<String>,
    /// Salometer degrees.
    #[arg(long, value_name = "DEGREES", allow_hyphen_values = true)]
    salometer: Option<String>,
    /// Density in kg/m3, measured at the temperature of --at.
    #[arg(long, value_name = "KGM3", allow_hyphen_values = true, requires = "at")]
    density: Option<String>,
    /// The temperature of the density, measured or asked for [default for asking: 20degC].
    #[arg(long, value_name = "TEMP", allow_hyphen_values = true)]
    at: Option<String>,
    /// One JSON object.
    #[arg(long)]
    json: bool,
}

#[derive(Debug, Args)]
#[command(group = ArgGroup::new("how_much").required(true).args(["volume", "water", "brine"]))]
pub(super) struct MixArguments {
    /// So much brine by volume: 5l.
    #[arg(long, value_name = "VOLUME", allow_hyphen_values = true)]
    volume: Option<String>,
    /// As much as so much water makes: 5kg.
    #[arg(long, value_name = "MASS", allow_hyphen_values = true)]
    water: Option<String>,
    /// So much brine by weight: 5kg.
    #[arg(long, value_name = "MASS", allow_hyphen_values = true)]
    brine: Option<String>,
    /// Salt in per cent, of what --basis says.
    #[arg(long, value_name = "PERCENT", allow_hyphen_values = true)]
    strength: String,
    /// water: per cent over the water. solution: per cent over the whole brine.
    #[arg(long, value_name = "water|solution")]
    basis: String,
    /// Sugar in per cent, of the same.
    #[arg(long, value_name = "PERCENT", allow_hyphen_values = true)]
    sugar: Option<String>,
    /// How much of the water goes in as ice.
    #[arg(long, value_name = "MASS", allow_hyphen_values = true)]
    ice: Option<String>,
    /// How warm the rest of the water is, to tell whether the ice melts.
    #[arg(
        long,
        value_name = "TEMP",
        allow_hyphen_values = true,
        requires = "ice"
    )]
    water_at: Option<String>,
    /// How cold the ice is; out of a freezer well below 0.
    #[arg(
        long,
        value_name = "TEMP",
        default_value = "0degC",
        allow_hyphen_values = true
    )]
    ice_at: String,
    /// The brine's temperature, for its volume.
    #[arg(
        long,
        value_name = "TEMP",
        default_value = "20degC",
        allow_hyphen_values = true
    )]
    at: String,
    /// One JSON object, weights in grams.
    #[arg(long)]
    json: bool,
}

#[derive(Debug, Args)]
pub(super) struct CorrectArguments {
    /// How much brine there is: 4kg.
    #[arg(long, value_name = "MASS", allow_hyphen_values = true)]
    brine: String,
    /// How strong it is, in per cent of what --basis says; before any ice.
    #[arg(long, value_name = "PERCENT", allow_hyphen_values = true)]
    strength: String,
    /// How strong it should be, in per cent of the same.
    #[arg(long, value_name = "PERCENT", allow_hyphen_values = true)]
    to: String,
    /// water: per cent over the water. solution: per cent over the whole brine.
    #[arg(long, value_name = "water|solution")]
    basis: String,
    /// How much ice was added, all of it counted as melted.
    #[arg(long, value_name = "MASS", allow_hyphen_values = true)]
    ice: Option<String>,
    /// How much the vessel takes in all.
    #[arg(long, value_name = "MASS", allow_hyphen_values = true)]
    room: Option<String>,
    /// One JSON object, weights in grams.
    #[arg(long)]
    json: bool,
}

#[derive(Debug, Args)]
#[command(group = ArgGroup::new("vessel").required(true).args(["vessel_volume", "vessel_water", "known_vessel"]))]
pub(super) struct WeighArguments {
    /// A vessel on record, by its name; `evenhand brine vessel list` lists them.
    #[arg(long = "vessel", value_name = "NAME")]
    known_vessel: Option<String>,
    /// The vessel's volume, filled the same way: 1l.
    #[arg(long, value_name = "VOLUME", allow_hyphen_values = true)]
    vessel_volume: Option<String>,
    /// To within how much that is known (k = 2) [default: 0.2 % of it].
    #[arg(
        long,
        value_name = "VOLUME",
        allow_hyphen_values = true,
        requires = "vessel_volume"
    )]
    vessel_within: Option<String>,
    /// Instead: how much fresh water the vessel held on this scale.
    #[arg(
        long,
        value_name = "MASS",
        allow_hyphen_values = true,
        requires = "vessel_water_at"
    )]
    vessel_water: Option<String>,
    /// How warm that water was.
    #[arg(
        long,
        value_name = "TEMP",
        allow_hyphen_values = true,
        requires = "vessel_water"
    )]
    vessel_water_at: Option<String>,
    /// What the vessel is made of: steel, glass or plastic [default: steel].
    #[arg(long, value_name = "MATERIAL", conflicts_with = "known_vessel")]
    material: Option<String>,
    /// How much brine it holds now.
    #[arg(long, value_name = "MASS", allow_hyphen_values = true)]
    net: String,
    /// How warm the brine is.
    #[arg(long, value_name = "TEMP", allow_hyphen_values = true)]
    at: String,
    /// Sugar in per cent of the whole brine: 0 where nothing but salt is dissolved in it,
    /// `unknown` where nobody knows. Has to be said.
    #[arg(long, value_name = "PERCENT", allow_hyphen_values = true)]
    sugar: Option<String>,
    /// To within how many per cent of the whole brine the sugar is known (k = 2).
    #[arg(
        long,
        value_name = "PERCENT",
        default_value = "0.2",
        allow_hyphen_values = true
    )]
    sugar_within: String,
    #[command(flatten)]
    doubt: DoubtArguments,
    /// One JSON object.
    #[arg(long)]
    json: bool,
}

#[derive(Debug, Args)]
pub(super) struct ShareArguments {
    /// The meat, without bone.
    #[arg(long, value_name = "MASS", allow_hyphen_values = true)]
    meat: String,
    /// The water; leave it out to rub the meat dry.
    #[arg(long, value_name = "MASS", allow_hyphen_values = true)]
    water: Option<String>,
    /// Salt in per cent of the meat, or of meat and water together.
    #[arg(long, value_name = "PERCENT", allow_hyphen_values = true)]
    salt: String,
    /// The piece at its thickest in millimetres, for a rule of thumb of the time.
    #[arg(long, value_name = "MM", allow_hyphen_values = true)]
    thickness: Option<String>,
    /// What the meat is, for the water in it: pork-loin; or its water in per cent.
    #[arg(long, value_name = "KIND|PERCENT", requires = "water")]
    kind: Option<String>,
    /// One JSON object, weights in grams.
    #[arg(long)]
    json: bool,
}

pub(super) fn run(data: &Data, command: BrineCommand, language: Language) -> Result<(), Failure> {
    match command {
        BrineCommand::Convert(arguments) => convert(language, &arguments),
        BrineCommand::Mix(arguments) => mix(language, &arguments),
        BrineCommand::Correct(arguments) => correct(language, &arguments),
        BrineCommand::Weigh(arguments) => weigh(data, &arguments),
        BrineCommand::Share(arguments) => share(language, &arguments),
        BrineCommand::In(arguments) => uptake::weigh_in(data, &arguments, language),
        BrineCommand::Out(arguments) => uptake::weigh_out(data, &arguments, language),
        BrineCommand::Expect(arguments) => uptake::expect(data, &arguments, language),
        BrineCommand::Vessel(command) => vessel::run(data, command),
    }
}

fn flag(error: InputError) -> Failure {
    at_flag(&error, FLAGS)
}

fn rounded(value: f64, decimals: i32) -> f64 {
    let scale = 10f64.powi(decimals);
    (value * scale).round() / scale
}

/// A strength in every way of saying it.
fn strength_fields(strength: Strength) -> Map<String, Value> {
    let freezing = strength.freezing();
    let mut fields = Map::new();
    for (name, value) in [
        (
            "salt_percent_of_water",
            json!(rounded(strength.of_water().percent(), 4)),
        ),
        (
            "salt_percent_of_solution",
            json!(rounded(strength.of_solution().percent(), 4)),
        ),
        (
            "salometer_degrees",
            json!(rounded(strength.salometer().degrees(), 3)),
        ),
        (
            "freezing_c",
            json!(rounded(freezing.temperature().celsius(), 2)),
        ),
        (
            "freezing_what",
            json!(match freezing {
                Freezing::Ice(_) => "ice",
                Freezing::Salt(_) => "salt",
            }),
        ),
    ] {
        fields.insert(name.to_owned(), value);
    }
    fields
}

fn convert(language: Language, arguments: &ConvertArguments) -> Result<(), Failure> {
    let at = match &arguments.at {
        Some(text) => parse_temperature("--at", text)?,
        None => Temperature::from_millicelsius(20_000),
    };
    let strength = if let Some(text) = &arguments.of_water {
        Strength::from(PercentOfWater::parse("--of-water", text)?)
    } else if let Some(text) = &arguments.of_solution {
        Strength::from(PercentOfSolution::parse("--of-solution", text)?)
    } else if let Some(text) = &arguments.salometer {
        Strength::from(Salometer::parse("--salometer", text)?)
    } else {
        let density = Density::parse(
            "--density",
            arguments.density.as_deref().unwrap_or_default(),
        )?;
        Strength::from_density(density, at).map_err(flag)?
    };
    let density = strength.density(at).map_err(flag)?;
    if arguments.json {
        let mut fields = strength_fields(strength);
        fields.insert(
            "density_kg_m3".to_owned(),
            json!(rounded(density.kg_per_m3(), 2)),
        );
        fields.insert("density_at_c".to_owned(), json!(at.celsius()));
        fields.insert(
            "density_source".to_owned(),
            json!(format!("{CONCENTRATIVE}; by temperature {VOLUMETRIC}")),
        );
        return output::json(&fields);
    }
    let degrees = figure(language, strength.salometer().degrees(), 1);
    output::line(&format!(
        "{}\n{}\n{}\n{}\n{}",
        of_water(language, strength.of_water().percent()),
        of_solution(language, strength.of_solution().percent()),
        say!(language, "brine-salometer", degrees = degrees),
        say!(
            language,
            "brine-density-at",
            density = figure(language, density.kg_per_m3(), 1),
            at = figure(language, at.celsius(), 1)
        ),
        freezing_words(language, strength.freezing())
    ))
}

/// A number with so many decimals and the language's mark.
fn figure(language: Language, value: f64, decimals: usize) -> String {
    language.figure(format!("{value:.decimals$}"))
}

fn of_water(language: Language, percent: f64) -> String {
    let percent = figure(language, percent, 2);
    say!(language, "brine-of-water", percent = percent).into_owned()
}

fn of_solution(language: Language, percent: f64) -> String {
    let percent = figure(language, percent, 2);
    say!(language, "brine-of-solution", percent = percent).into_owned()
}

/// A strength in the convention that was said.
fn in_words(language: Language, strength: Strength, basis: Basis) -> String {
    match basis {
        Basis::Water => of_water(language, strength.of_water().percent()),
        Basis::Solution => of_solution(language, strength.of_solution().percent()),
    }
}

fn freezing_words(language: Language, freezing: Freezing) -> String {
    let what = match freezing {
        Freezing::Ice(_) => "ice",
        Freezing::Salt(_) => "salt",
    };
    let at = figure(language, freezing.temperature().celsius(), 1);
    say!(language, "brine-freezing", what = what, at = at).into_owned()
}

/// Reads a strength in its convention, with sugar in the same.
fn composition(strength: &str, basis: Basis, sugar: Option<&str>) -> Result<Composition, Failure> {
    let sugar = match sugar {
        Some(text) => SugarPercent::parse("--sugar", text)?,
        None => SugarPercent::NONE,
    };
    match basis {
        Basis::Water => {
            Composition::of_water(PercentOfWater::parse("--strength", strength)?, sugar)
        }
        Basis::Solution => {
            Composition::of_solution(PercentOfSolution::parse("--strength", strength)?, sugar)
        }
    }
    .map_err(flag)
}

fn basis(text: &str) -> Result<Basis, Failure> {
    text.parse().map_err(flag)
}

fn grams(language: Language, mass: Mass) -> String {
    language.figure(format_mass(mass, MassUnit::Gram))
}

fn mix(language: Language, arguments: &MixArguments) -> Result<(), Failure> {
    let at = parse_temperature("--at", &arguments.at)?;
    let basis = basis(&arguments.basis)?;
    let composition = composition(&arguments.strength, basis, arguments.sugar.as_deref())?;
    let amount = if let Some(text) = &arguments.volume {
        Amount::Volume(parse_volume("--volume", text)?, at)
    } else if let Some(text) = &arguments.water {
        Amount::Water(mass_positive("--water", text)?)
    } else {
        Amount::Brine(mass_positive(
            "--brine",
            arguments.brine.as_deref().unwrap_or_default(),
        )?)
    };
    let recipe = Recipe::new(composition, amount).map_err(flag)?;
    let volume = recipe.volume(at).map_err(flag)?;
    let brine = recipe.brine();
    let ice = match &arguments.ice {
        Some(text) => mass_not_negative("--ice", text)?,
        None => Mass::ZERO,
    };
    let iced = match &arguments.water_at {
        Some(text) => Some(
            recipe
                .iced(
                    ice,
                    parse_temperature("--water-at", text)?,
                    parse_temperature("--ice-at", &arguments.ice_at)?,
                )
                .map_err(flag)?,
        ),
        None => None,
    };
    let (recipe, ice) = recipe.with_ice(ice).map_err(flag)?;
    if arguments.json {
        let mut fields = Map::new();
        for (name, value) in [
            ("salt_grams", json!(Grams(recipe.salt))),
            ("sugar_grams", json!(Grams(recipe.sugar))),
            ("water_grams", json!(Grams(recipe.water))),
            ("ice_grams", json!(Grams(ice))),
            ("brine_grams", json!(Grams(brine))),
            ("volume_litres", json!(rounded(volume.litres(), 4))),
            ("volume_at_c", json!(at.celsius())),
            (
                "salt_percent_of_water",
                json!(rounded(composition.salt_of_water(), 4)),
            ),
            (
                "salt_percent_of_solution",
                json!(rounded(composition.salt_of_solution(), 4)),
            ),
            (
                "sugar_percent_of_water",
                json!(rounded(composition.sugar_of_water(), 4)),
            ),
            (
                "sugar_percent_of_solution",
                json!(rounded(composition.sugar_of_solution(), 4)),
            ),
            (
                "density_kg_m3",
                json!(rounded(
                    composition.density(at).map_err(flag)?.kg_per_m3(),
                    2
                )),
            ),
        ] {
            fields.insert(name.to_owned(), value);
        }
        if !composition.is_sugared() {
            fields.extend(strength_fields(composition.strength()));
        }
        if let Some(iced) = &iced {
            for (name, value) in [
                ("ice_melted_grams", json!(Grams(iced.melted))),
                ("ice_left_grams", json!(Grams(iced.left))),
                ("ends_at_c", json!(rounded(iced.ends_at.celsius(), 2))),
                ("ends_within_c", json!(GIVE_OR_TAKE)),
                (
                    "liquid_salt_percent_of_water",
                    json!(rounded(iced.liquid.of_water().percent(), 4)),
                ),
                ("heats_source", json!(format!("{HEATS}; {BRINE_HEAT}"))),
            ] {
                fields.insert(name.to_owned(), value);
            }
        }
        return output::json(&fields);
    }
    let grams = |mass| grams(language, mass);
    let mut words = vec![say!(language, "brine-water", mass = grams(recipe.water)).into_owned()];
    if ice > Mass::ZERO {
        words.push(say!(language, "brine-ice", mass = grams(ice)).into_owned());
    }
    words.push(say!(language, "brine-salt", mass = grams(recipe.salt)).into_owned());
    if composition.is_sugared() {
        words.push(say!(language, "brine-sugar", mass = grams(recipe.sugar)).into_owned());
    }
    words.push(
        say!(
            language,
            "brine-makes-in-all",
            mass = grams(brine),
            volume = language.figure(volume.to_string()),
            at = figure(language, at.celsius(), 1),
            of_water = figure(language, composition.salt_of_water(), 2),
            of_solution = figure(language, composition.salt_of_solution(), 2)
        )
        .into_owned(),
    );
    if composition.is_sugared() {
        let source = publication_words(language, SUGAR_MODEL);
        words.push(say!(language, "brine-volume-by", source = source).into_owned());
    } else {
        words.push(freezing_words(language, composition.strength().freezing()));
    }
    if ice > Mass::ZERO {
        words.push(iced.map_or_else(
            || say!(language, "brine-ice-unknown").into_owned(),
            |iced| ice_words(language, &iced, &arguments.ice_at, composition.is_sugared()),
        ));
    }
    output::line(&words.join("\n"))
}

/// What becomes of the ice.
fn ice_words(language: Language, iced: &Iced, ice_at: &str, sugared: bool) -> String {
    let at = say!(
        language,
        "brine-ends-at",
        at = figure(language, iced.ends_at.celsius() + 0.0, 0),
        within = figure(language, GIVE_OR_TAKE, 0)
    );
    let said = if iced.left > Mass::ZERO {
        say!(
            language,
            "brine-ice-stays",
            left = grams(language, iced.left),
            at = at,
            liquid = of_water(language, iced.liquid.of_water().percent())
        )
    } else {
        say!(language, "brine-ice-melts", at = at)
    };
    let mut words = say!(language, "brine-ice-counted", said = said, ice_at = ice_at).into_owned();
    if sugared {
        words += &format!("\n{}", say!(language, "brine-sugar-cooling"));
    }
    let by = say!(
        language,
        "brine-heats-by",
        source = publication_words(language, HEATS),
        brine = publication_words(language, BRINE_HEAT)
    );
    format!("{words}\n{by}")
}

fn strength(field: &str, text: &str, basis: Basis) -> Result<Strength, Failure> {
    Ok(match basis {
        Basis::Water => PercentOfWater::parse(field, text)?.into(),
        Basis::Solution => PercentOfSolution::parse(field, text)?.into(),
    })
}

fn correct(language: Language, arguments: &CorrectArguments) -> Result<(), Failure> {
    let basis = basis(&arguments.basis)?;
    let brine = mass_positive("--brine", &arguments.brine)?;
    let now = strength("--strength", &arguments.strength, basis)?;
    let wanted = strength("--to", &arguments.to, basis)?;
    let mut standing = StandingBrine::new(brine, now).map_err(flag)?;
    if let Some(text) = &arguments.ice {
        standing = standing
            .with_melted_ice(mass_not_negative("--ice", text)?)
            .map_err(flag)?;
    }
    let room = arguments
        .room
        .as_ref()
        .map(|text| mass_positive("--room", text))
        .transpose()?;
    let correction = standing.corrected_to(wanted, room).map_err(flag)?;
    let (action, take_out, salt, water, makes) = match correction {
        Correction::None => ("none", Mass::ZERO, Mass::ZERO, Mass::ZERO, standing.mass()),
        Correction::AddSalt { salt, makes } => ("add-salt", Mass::ZERO, salt, Mass::ZERO, makes),
        Correction::AddWater { water, makes } => {
            ("add-water", Mass::ZERO, Mass::ZERO, water, makes)
        }
        Correction::ReplaceWithSalt { each } => {
            ("replace-with-salt", each, each, Mass::ZERO, standing.mass())
        }
        Correction::ReplaceWithWater { each } => (
            "replace-with-water",
            each,
            Mass::ZERO,
            each,
            standing.mass(),
        ),
    };
    if arguments.json {
        let mut fields = strength_fields(wanted);
        for (name, value) in [
            ("action", json!(action)),
            ("take_out_grams", json!(Grams(take_out))),
            ("salt_grams", json!(Grams(salt))),
            ("water_grams", json!(Grams(water))),
            ("brine_grams", json!(Grams(makes))),
            (
                "now_salt_percent_of_water",
                json!(rounded(standing.strength().of_water().percent(), 4)),
            ),
            (
                "now_salt_percent_of_solution",
                json!(rounded(standing.strength().of_solution().percent(), 4)),
            ),
        ] {
            fields.insert(name.to_owned(), value);
        }
        return output::json(&fields);
    }
    let grams = |mass| grams(language, mass);
    let now = say!(
        language,
        "brine-now",
        mass = grams(standing.mass()),
        strength = in_words(language, standing.strength(), basis)
    );
    let action = match correction {
        Correction::None => say!(language, "brine-there-already"),
        Correction::AddSalt { salt, .. } => say!(language, "brine-stir-in", mass = grams(salt)),
        Correction::AddWater { water, .. } => {
            say!(language, "brine-pour-in", mass = grams(water))
        }
        Correction::ReplaceWithSalt { each } => {
            say!(language, "brine-replace", with = "salt", mass = grams(each))
        }
        Correction::ReplaceWithWater { each } => {
            say!(
                language,
                "brine-replace",
                with = "water",
                mass = grams(each)
            )
        }
    };
    let makes = say!(
        language,
        "brine-makes",
        mass = grams(makes),
        strength = in_words(language, wanted, basis)
    );
    output::line(&format!("{now}\n{action}\n{makes}"))
}

fn vessel_of(data: &Data, arguments: &WeighArguments, doubt: Doubt) -> Result<Vessel, Failure> {
    if let Some(name) = &arguments.known_vessel {
        let name = VesselName::new("--vessel", name)?;
        return Ok(data.existing()?.known_vessel(&name)?.filling.vessel()?);
    }
    let material: VesselMaterial = match &arguments.material {
        Some(text) => text.parse().map_err(flag)?,
        None => VesselMaterial::default(),
    };
    if let Some(text) = &arguments.vessel_volume {
        let volume = parse_volume("--vessel-volume", text)?;
        let within = match &arguments.vessel_within {
            Some(text) => parse_volume("--vessel-within", text)?,
            None => Volume::from_millilitres("--vessel-within", volume.millilitres() * 0.002)?,
        };
        return Vessel::of_volume(volume, within, material).map_err(flag);
    }
    let net = mass_positive(
        "--vessel-water",
        arguments.vessel_water.as_deref().unwrap_or_default(),
    )?;
    let at = parse_temperature(
        "--vessel-water-at",
        arguments.vessel_water_at.as_deref().unwrap_or_default(),
    )?;
    Vessel::filled_with_water(net, at, material, doubt).map_err(|error| {
        at_flag(
            &error,
            &[
                ("temperature", "--vessel-water-at"),
                ("net mass of water", "--vessel-water"),
            ],
        )
    })
}

fn weigh(data: &Data, arguments: &WeighArguments) -> Result<(), Failure> {
    let net = mass_positive("--net", &arguments.net)?;
    let doubt = arguments.doubt.doubt(net)?;
    let vessel = vessel_of(data, arguments, doubt)?;
    let at = parse_temperature("--at", &arguments.at)?;
    let sugar = match arguments.sugar.as_deref() {
        None => SugarKnown::Unsaid,
        Some("unknown") => SugarKnown::Unknown,
        Some(text) => {
            let sugar = SugarPercent::parse("--sugar", text)?;
            if sugar == SugarPercent::NONE {
                SugarKnown::None
            } else {
                SugarKnown::OfSolution {
                    sugar,
                    within: SugarPercent::parse("--sugar-within", &arguments.sugar_within)?,
                }
            }
        }
    };
    let checked = check(&vessel, net, at, sugar, doubt).map_err(|error| {
        // A density that cannot be follows from what was weighed.
        at_flag(
            &error,
            &[&[("density", "--net gives a density that")], FLAGS].concat(),
        )
    })?;
    if arguments.json {
        return weigh_json(&checked, at, arguments.doubt.note(Language::English)?);
    }
    let language = data.language;
    let composition = checked.composition;
    let within = |said: String, within: f64| {
        let within = figure(language, within, 2);
        say!(language, "brine-within", said = said, within = within).into_owned()
    };
    let density = say!(
        language,
        "brine-density-within",
        density = figure(language, checked.density.kg_per_m3(), 1),
        within = figure(language, checked.density_uncertainty.kg_per_m3(), 1),
        at = figure(language, at.celsius(), 1)
    );
    let most = checked
        .budget
        .first()
        .map_or("nothing", |part| doubt_code(part.of));
    let mut words = vec![
        within(
            of_solution(language, composition.salt_of_solution()),
            checked.of_solution_uncertainty.percent(),
        ),
        within(
            of_water(language, composition.salt_of_water()),
            checked.of_water_uncertainty.percent(),
        ),
        density.into_owned(),
        say!(language, "brine-most-doubt", of = most).into_owned(),
        say!(language, "brine-give-or-take").into_owned(),
    ];
    if composition.is_sugared() {
        let sugared = say!(
            language,
            "brine-sugared",
            percent = figure(language, composition.sugar_of_solution(), 2),
            source = publication_words(language, SUGAR_MODEL)
        );
        words.push(sugared.into_owned());
    }
    words.extend(arguments.doubt.note(language)?);
    let growth = say!(
        language,
        "brine-growth",
        middle = figure(language, checked.expansion.millionths, 0),
        half = figure(language, checked.expansion.half_width, 0),
        source = publication_words(language, EXPANSION)
    );
    words.push(growth.into_owned());
    output::line(&words.join("\n"))
}

const fn doubt_code(of: DoubtOf) -> &'static str {
    match of {
        DoubtOf::NetMass => "net-mass",
        DoubtOf::Vessel => "vessel",
        DoubtOf::Level => "level",
        DoubtOf::Temperature => "temperature",
        DoubtOf::Sugar => "sugar",
        DoubtOf::SugarModel => "sugar-model",
        DoubtOf::Tables => "tables",
        DoubtOf::Expansion => "expansion",
    }
}

fn weigh_json(checked: &Checked, at: Temperature, note: Option<String>) -> Result<(), Failure> {
    let composition = checked.composition;
    let budget: Vec<Value> = checked
        .budget
        .iter()
        .map(|part| json!({"of": part.of, "standard_uncertainty_percent_of_solution": rounded(part.moves.percent(), 5)}))
        .collect();
    let mut fields = Map::new();
    for (name, value) in [
        (
            "salt_percent_of_solution",
            json!(rounded(composition.salt_of_solution(), 4)),
        ),
        (
            "salt_percent_of_solution_uncertainty",
            json!(rounded(checked.of_solution_uncertainty.percent(), 4)),
        ),
        (
            "salt_percent_of_water",
            json!(rounded(composition.salt_of_water(), 4)),
        ),
        (
            "salt_percent_of_water_uncertainty",
            json!(rounded(checked.of_water_uncertainty.percent(), 4)),
        ),
        (
            "sugar_percent_of_solution",
            json!(rounded(composition.sugar_of_solution(), 4)),
        ),
        ("scale_note", json!(note)),
        (
            "density_kg_m3",
            json!(rounded(checked.density.kg_per_m3(), 2)),
        ),
        (
            "density_kg_m3_uncertainty",
            json!(rounded(checked.density_uncertainty.kg_per_m3(), 2)),
        ),
        ("density_at_c", json!(at.celsius())),
        ("coverage_factor", json!(2)),
        ("vessel_expansion_ppm_per_c", json!(checked.expansion)),
        ("budget", Value::Array(budget)),
    ] {
        fields.insert(name.to_owned(), value);
    }
    if !composition.is_sugared() {
        let strength = composition.strength();
        fields.insert(
            "salometer_degrees".to_owned(),
            json!(rounded(strength.salometer().degrees(), 3)),
        );
        fields.insert(
            "freezing_c".to_owned(),
            json!(rounded(strength.freezing().temperature().celsius(), 2)),
        );
    }
    output::json(&fields)
}

fn share(language: Language, arguments: &ShareArguments) -> Result<(), Failure> {
    let meat = mass_positive("--meat", &arguments.meat)?;
    let percent = SharedPercent::parse("--salt", &arguments.salt)?;
    let water = arguments
        .water
        .as_ref()
        .map(|text| mass_positive("--water", text))
        .transpose()?;
    let time = arguments
        .thickness
        .as_ref()
        .map(|text| Thickness::parse("--thickness", text).map(time_by_thickness))
        .transpose()?;
    let brine = water
        .map(|water| equilibrium_brine(meat, water, percent))
        .transpose()
        .map_err(flag)?;
    let kind = arguments
        .kind
        .as_ref()
        .map(|text| MeatWater::parse("--kind", text))
        .transpose()?;
    let in_the_meat = brine
        .as_ref()
        .zip(kind.as_ref())
        .map(|(brine, kind)| brine.in_the_meat(kind));
    let salt = match &brine {
        Some(brine) => brine.salt,
        None => dry_salting(meat, percent).map_err(flag)?,
    };
    if arguments.json {
        let mut fields = Map::new();
        fields.insert("salt_grams".to_owned(), json!(Grams(salt)));
        if let Some(brine) = &brine {
            fields.insert(
                "at_first_salt_percent_of_water".to_owned(),
                json!(rounded(brine.at_first.of_water().percent(), 4)),
            );
            fields.insert(
                "in_the_end_salt_percent_of_everything".to_owned(),
                json!(rounded(brine.in_the_end.percent(), 4)),
            );
        }
        if let Some((found, kind)) = in_the_meat.zip(kind) {
            for (name, value) in [
                ("meat_water_percent", json!(kind.percent)),
                ("meat_water_give_or_take", json!(kind.give_or_take)),
                ("meat_water_source", json!(kind.source.to_string())),
                (
                    "in_the_end_salt_percent_of_meat",
                    json!(rounded(found.of_meat, 4)),
                ),
                (
                    "in_the_end_salt_percent_of_meat_from",
                    json!(rounded(found.of_meat_range.0, 4)),
                ),
                (
                    "in_the_end_salt_percent_of_meat_to",
                    json!(rounded(found.of_meat_range.1, 4)),
                ),
                (
                    "in_the_end_salt_percent_of_water",
                    json!(rounded(found.of_water, 4)),
                ),
            ] {
                fields.insert(name.to_owned(), value);
            }
        }
        if let Some(time) = &time {
            for (name, duration) in [
                ("rule_of_thumb_hours_from", time.rule_from),
                ("rule_of_thumb_hours_to", time.rule_to),
                ("evened_out_hours_from", time.even_from),
                ("evened_out_hours_to", time.even_to),
            ] {
                fields.insert(
                    name.to_owned(),
                    json!(rounded(duration.as_secs_f64() / 3600.0, 1)),
                );
            }
            fields.insert(
                "rule_of_thumb_source".to_owned(),
                json!(TIME_RULE.to_string()),
            );
        }
        return output::json(&fields);
    }
    let salt = grams(language, salt);
    let mut words = vec![say!(language, "brine-share-salt", mass = salt).into_owned()];
    if let Some(brine) = &brine {
        let shared = say!(
            language,
            "brine-share",
            strength = of_water(language, brine.at_first.of_water().percent()),
            percent = figure(language, brine.in_the_end.percent(), 2)
        );
        words.push(shared.into_owned());
        match in_the_meat.zip(kind) {
            Some((found, kind)) => {
                let in_meat = say!(
                    language,
                    "brine-in-meat",
                    percent = figure(language, found.of_meat, 2),
                    from = figure(language, found.of_meat_range.0, 2),
                    to = figure(language, found.of_meat_range.1, 2),
                    water = figure(language, found.of_water, 2)
                );
                words.push(in_meat.into_owned());
                words.push(kind_words(language, &kind));
            }
            None => words.push(say!(language, "brine-meat-unknown").into_owned()),
        }
    }
    words.extend(time.map(|time| time_words(language, &time)));
    output::line(&words.join("\n"))
}

/// `pork-loin: 71 ± 4 % water, source`
fn kind_words(language: Language, kind: &MeatWater) -> String {
    let mut percent = format!("{:.0}", kind.percent);
    if kind.give_or_take > 0.0 {
        percent += &format!(" \u{b1} {:.0}", kind.give_or_take);
    }
    say!(
        language,
        "brine-meat-water",
        name = kind.name,
        percent = percent,
        source = publication_words(language, kind.source)
    )
    .into_owned()
}

fn time_words(language: Language, time: &TimeEstimate) -> String {
    let days = |duration: SignedDuration, decimals| {
        figure(language, duration.as_hours() as f64 / 24.0, decimals)
    };
    say!(
        language,
        "brine-time",
        from = days(time.rule_from, 1),
        to = days(time.rule_to, 1),
        source = say!(language, "brine-time-rule"),
        even_from = days(time.even_from, 0),
        even_to = days(time.even_to, 0)
    )
    .into_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The rule of thumb is said as the domain has it.
    #[test]
    fn the_rule_of_thumb_is_the_domains() {
        let said = say!(Language::English, "brine-time-rule");
        assert_eq!(said, TIME_RULE.to_string());
    }
}
