//! `evenhand import`.

use super::spread_table::counted;
use super::{Data, Failure, output};
use clap::Args;
use evenhand_kitchen::cook::Cook;
use evenhand_kitchen::dish::DishName;
use evenhand_kitchen::moment::show_date_and_time_to_the_second;
use evenhand_kitchen::units::{
    Grams, InputError, MassUnit, format_mass, mass_not_negative, mass_positive,
};
use evenhand_kitchen::weighings_file::{Columns, Defaults, Weighing, WeighingsFile, read};
use evenhand_protocol::{Mass, Mode, Tolerance};
use evenhand_store::Store;
use jiff::Timestamp;
use jiff::tz::TimeZone;
use serde_json::json;
use std::collections::HashMap;
use std::fs::File;
use std::path::PathBuf;

/// How many lines a preview shows, and how many bad ones are listed.
const SHOWN: usize = 20;

#[derive(Debug, Args)]
pub(super) struct ImportArguments {
    /// A table, comma-separated, with headings in its first line.
    #[arg(value_name = "FILE")]
    file: PathBuf,
    /// Which heading holds what: time=When,mass=Weight,dish=Dish,cook=Cook,target=Target.
    #[arg(long, value_name = "MAP")]
    map: String,
    /// The unit of weights written as bare numbers: g, kg, oz or lb.
    #[arg(long, value_name = "UNIT")]
    units: String,
    /// The dish, where no column holds it.
    #[arg(long, value_name = "NAME")]
    dish: Option<String>,
    /// The target of dishes that are not on record.
    #[arg(long, value_name = "MASS", allow_hyphen_values = true)]
    target: Option<String>,
    /// The tolerance, to either side, of targets that are not on record.
    #[arg(
        long,
        value_name = "MASS",
        default_value = "1g",
        allow_hyphen_values = true
    )]
    tolerance: String,
    /// Show what would be brought in, and bring nothing in.
    #[arg(long)]
    preview: bool,
    /// One JSON object a line, weights in grams.
    #[arg(long)]
    json: bool,
}

pub(super) fn run(data: &Data, arguments: &ImportArguments) -> Result<(), Failure> {
    let columns = Columns::parse("--map", &arguments.map)?;
    let unit: MassUnit = arguments.units.parse().map_err(|error: InputError| {
        InputError::new("--units", error.value(), error.problem(), error.expected())
    })?;
    let defaults = Defaults {
        unit,
        dish: arguments
            .dish
            .as_ref()
            .map(|name| DishName::new("--dish", name))
            .transpose()?,
        target: arguments
            .target
            .as_ref()
            .map(|target| mass_positive("--target", target))
            .transpose()?,
        tolerance: Tolerance::symmetric(mass_not_negative("--tolerance", &arguments.tolerance)?),
        mode: Mode::Adding,
        zone: TimeZone::system(),
        now: Timestamp::now(),
    };
    let named = arguments.file.display();
    let file = File::open(&arguments.file)
        .map_err(|error| Failure::Input(format!("FILE: {named} cannot be read: {error}")))?;
    let mut store = data.store()?;
    let known = known(&store)?;
    let held = read(file, &columns, &defaults, &known)
        .map_err(|error| Failure::Input(format!("FILE: {named}: {error}")))?;
    if arguments.preview {
        preview(&held, arguments.json)?;
    }
    if !held.bad.is_empty() {
        return Err(refusal(&held));
    }
    if arguments.preview {
        return Ok(());
    }
    let calendar = store.service_calendar(defaults.zone.clone())?;
    let imported = store.import(&held.weighings, &calendar, defaults.now)?;
    if arguments.json {
        return output::json(&json!({
            "added": imported.added,
            "already": imported.already,
        }));
    }
    output::line(&format!(
        "{} added, {} on record already.",
        counted(imported.added, "portion"),
        imported.already
    ))
}

/// Every dish on record with its versions, also by its former names.
fn known(store: &Store) -> Result<HashMap<String, Vec<evenhand_kitchen::dish::Dish>>, Failure> {
    let mut known = HashMap::new();
    for dish in store.dishes()? {
        let versions = store.dish_versions(&dish.name)?;
        for (former, _) in store.former_names(&dish.name)? {
            known
                .entry(former.key())
                .or_insert_with(|| versions.clone());
        }
        known.insert(dish.name.key(), versions);
    }
    Ok(known)
}

fn refusal(held: &WeighingsFile) -> Failure {
    let mut words = format!(
        "FILE: {} of {} cannot be used, so nothing was brought in",
        counted(held.bad.len(), "line"),
        held.bad.len() + held.weighings.len(),
    );
    for bad in held.bad.iter().take(SHOWN) {
        words += &format!("\n  line {}: {}", bad.line, bad.reason);
    }
    if held.bad.len() > SHOWN {
        words += &format!("\n  and {} more", held.bad.len() - SHOWN);
    }
    Failure::Input(words)
}

fn preview(held: &WeighingsFile, as_json: bool) -> Result<(), Failure> {
    for weighing in held.weighings.iter().take(SHOWN) {
        if as_json {
            output::json(&json!({
                "time": weighing.time,
                "dish": weighing.dish.as_str(),
                "grams": Grams(weighing.mass),
                "target_grams": Grams(weighing.goal.target()),
                "cook": weighing.cook.as_ref().map(Cook::initials),
            }))?;
        } else {
            output::line(&words(weighing))?;
        }
    }
    let odd = held.odd();
    if as_json {
        return output::json(&json!({
            "separator": held.separator.word(),
            "byte_order_mark": held.byte_order_mark,
            "decimal_commas": held.decimal_commas,
            "weighings": held.weighings.len(),
            "odd": odd.iter().take(SHOWN).map(|odd| json!({
                "line": odd.line,
                "standard_deviations": odd.deviations,
            })).collect::<Vec<_>>(),
        }));
    }
    if held.weighings.len() > SHOWN {
        output::line(&format!("and {} more", held.weighings.len() - SHOWN))?;
    }
    let mut read_as = format!("Read with a {} between values", held.separator.word());
    if held.decimal_commas > 0 {
        read_as += &format!(
            ", {} with a decimal comma",
            counted(held.decimal_commas, "weight")
        );
    }
    if held.byte_order_mark {
        read_as += ", after a byte order mark";
    }
    output::line(&format!("{read_as}."))?;
    if !odd.is_empty() {
        output::line(&format!(
            "{} far from the others of the same dish:",
            counted(odd.len(), "weight")
        ))?;
    }
    for odd in odd.iter().take(SHOWN) {
        if let Some(weighing) = held.weighings.get(odd.place) {
            output::line(&format!(
                "  line {}: {}, {:.1} standard deviations {}",
                odd.line,
                words(weighing),
                odd.deviations.abs(),
                if odd.deviations < 0.0 {
                    "below"
                } else {
                    "above"
                }
            ))?;
        }
    }
    output::line(&format!(
        "{} would be brought in; nothing was.",
        counted(held.weighings.len(), "portion")
    ))
}

fn words(weighing: &Weighing) -> String {
    let mass = |mass: Mass| format_mass(mass, MassUnit::Gram);
    let cook = weighing
        .cook
        .as_ref()
        .map_or_else(String::new, |cook| format!(", {cook}"));
    format!(
        "{} UTC  {:>10} of {}  {}{cook}",
        show_date_and_time_to_the_second(weighing.time, &TimeZone::UTC),
        mass(weighing.mass),
        mass(weighing.goal.target()),
        weighing.dish
    )
}
