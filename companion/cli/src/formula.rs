//! `evenhand formula`.

mod page;
mod pictures;

use super::fields::at_flag;
use super::import::read_as_words;
use super::output::Telling;
use super::words::{bad_input, failed, say};
use super::{Data, Failure, output, written};
use clap::{ArgGroup, Args, Subcommand};
use evenhand_kitchen::batch::{Batch, Mark};
use evenhand_kitchen::book::{Counts, Seen, Size, StagedFormula, Trials, Weighing};
use evenhand_kitchen::units::TemperatureUnit;
use evenhand_kitchen::units::{
    Grams, InputError, Ratio, format_temperature, mass_positive, parse_percent,
};
use evenhand_protocol::Mass;
use evenhand_use_cases::book;
use evenhand_words::Language;
use serde_json::{Value, json};
use std::io::Write;
use std::path::PathBuf;

#[derive(Debug, Subcommand)]
pub(super) enum FormulaCommand {
    /// The formulas in the kitchen's own book.
    List {
        /// One JSON object a line.
        #[arg(long)]
        json: bool,
    },
    /// Put a formula's file into the book, once it makes sense.
    Keep(KeepArguments),
    /// A formula as it is kept.
    Show {
        /// The formula's name.
        name: String,
        /// As a table, comma-separated; `formula keep FILE.csv` reads it back.
        #[arg(long, conflicts_with = "json")]
        csv: bool,
        /// One JSON object.
        #[arg(long)]
        json: bool,
    },
    /// Take a formula out of the book; its file is moved, not deleted.
    Remove(RemoveArguments),
    /// What to weigh for so many pieces, so much of one thing or so much of it all.
    Weigh(WeighArguments),
    /// What the good batches of one title share, and what seems to have made them good.
    Share(ShareArguments),
    /// The page for whoever takes a dish over: what, how, by when, held to what, what to watch.
    Page(page::PageArguments),
    /// Keep a picture of a dish, a formula or a preparation, for its page.
    Picture(pictures::PictureArguments),
    /// The pictures that are kept.
    Pictures(pictures::PicturesArguments),
    /// Take a picture off.
    PictureOff(pictures::PictureOffArguments),
}

#[derive(Debug, Args)]
pub(super) struct KeepArguments {
    /// The file: TOML with name, [[base]], [[other]] and [[stage]], or a table in a .csv.
    file: PathBuf,
    /// Write over the formula of that name.
    #[arg(long)]
    force: bool,
    #[command(flatten)]
    telling: Telling,
}

#[derive(Debug, Args)]
pub(super) struct RemoveArguments {
    /// The formula's name.
    name: String,
    #[command(flatten)]
    telling: Telling,
}

/// How much is to be made.
#[derive(Debug, Args)]
#[command(group = ArgGroup::new("size").required(true).args(["base", "total", "pieces", "of"]))]
pub(super) struct SizeArguments {
    /// So much of the base in all, stages included: the flour of a dough.
    #[arg(long, value_name = "MASS", allow_hyphen_values = true)]
    base: Option<String>,
    /// So much of everything together.
    #[arg(long, value_name = "MASS", allow_hyphen_values = true)]
    total: Option<String>,
    /// So many pieces.
    #[arg(long, value_name = "COUNT", requires = "each")]
    pieces: Option<u32>,
    /// What each piece weighs when it is divided.
    #[arg(
        long,
        value_name = "MASS",
        requires = "pieces",
        allow_hyphen_values = true
    )]
    each: Option<String>,
    /// How much of it is lost before it is divided, in per cent.
    #[arg(
        long,
        value_name = "PERCENT",
        requires = "pieces",
        allow_hyphen_values = true
    )]
    lost: Option<String>,
    /// All there is of this ingredient or stage.
    #[arg(long, value_name = "NAME", requires = "mass")]
    of: Option<String>,
    /// How much there is of it.
    #[arg(long, value_name = "MASS", requires = "of", allow_hyphen_values = true)]
    mass: Option<String>,
}

#[derive(Debug, Args)]
pub(super) struct WeighArguments {
    /// The formula's name.
    name: String,
    #[command(flatten)]
    size: SizeArguments,
    /// The step that the scale shows.
    #[arg(
        long,
        value_name = "MASS",
        default_value = "1g",
        allow_hyphen_values = true
    )]
    step: String,
    /// One JSON object.
    #[arg(long)]
    json: bool,
}

#[derive(Debug, Args)]
pub(super) struct ShareArguments {
    /// The batches' title.
    title: String,
    /// What shares are of, once for each: the flours of a dough, the beans of a milk.
    #[arg(long, value_name = "NAME", required = true)]
    base: Vec<String>,
    /// The least mark of a good batch, from 1 to 9.
    #[arg(long, value_name = "MARK", default_value_t = 6)]
    mark: u8,
    /// Put what they share into the book under this name.
    #[arg(long, value_name = "NAME")]
    keep: Option<String>,
    /// Write over the formula of that name.
    #[arg(long, requires = "keep")]
    force: bool,
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
    ("step", "--step"),
    ("mark", "--mark"),
    ("formula", "--keep"),
];

fn flag(error: InputError) -> Failure {
    at_flag(&error, FLAGS)
}

/// The book's own errors: what was asked for is bad input, a file or record that
/// does not answer is not.
pub(super) fn failed(error: book::BookError) -> Failure {
    match error {
        book::BookError::Input(error) => flag(error),
        error => error.into(),
    }
}

impl SizeArguments {
    pub(super) fn size(&self) -> Result<Size, Failure> {
        let mass = |flag: &str, text: &Option<String>| {
            text.as_ref()
                .map(|text| mass_positive(flag, text))
                .transpose()
        };
        if let Some(mass) = mass("--base", &self.base)? {
            return Ok(Size::Base(mass));
        }
        if let Some(mass) = mass("--total", &self.total)? {
            return Ok(Size::Total(mass));
        }
        if let (Some(count), Some(each)) = (self.pieces, mass("--each", &self.each)?) {
            let lost = self
                .lost
                .as_ref()
                .map_or(Ok(0.0), |text| parse_percent("--lost", text))?;
            return Ok(Size::Pieces {
                count,
                each,
                lost: Ratio::new(lost / 100.0).unwrap_or_default(),
            });
        }
        match (&self.of, mass("--mass", &self.mass)?) {
            (Some(name), Some(mass)) => Ok(Size::Of {
                name: name.clone(),
                mass,
            }),
            _ => Err(bad_input!("formula-how-much")),
        }
    }
}

pub(super) fn run(data: &Data, command: FormulaCommand, language: Language) -> Result<(), Failure> {
    match command {
        FormulaCommand::List { json } => list(data, json, language),
        FormulaCommand::Keep(arguments) => {
            let (formula, read_as) = book::read_as(&arguments.file).map_err(failed)?;
            let path = keep(data, &formula, "FILE", arguments.force)?;
            let mut said = say!(
                language,
                "formula-kept",
                name = formula.name(),
                path = path.display().to_string()
            )
            .into_owned();
            if let Some(read_as) = read_as {
                said += &format!("\n{}", read_as_words(language, read_as, "number"));
            }
            arguments.telling.tell(&said, &fields(&formula))
        }
        FormulaCommand::Show { name, csv, json } => {
            let formula = find(data, &name)?;
            if csv {
                output::line(formula.to_csv()?.trim_end())
            } else if json {
                output::json(&fields(&formula))
            } else {
                output::line(formula.to_toml()?.trim_end())
            }
        }
        FormulaCommand::Remove(arguments) => {
            let path = book::take_out(data.folder()?.path(), &arguments.name).map_err(failed)?;
            let file = path.display().to_string();
            arguments.telling.tell(
                &say!(
                    language,
                    "formula-out",
                    name = arguments.name.trim(),
                    file = file.as_str()
                ),
                &json!({ "formula": arguments.name.trim(), "file": file }),
            )
        }
        FormulaCommand::Weigh(arguments) => weigh(data, &arguments, language),
        FormulaCommand::Share(arguments) => share(data, &arguments, language),
        FormulaCommand::Page(arguments) => page::run(data, &arguments, language),
        FormulaCommand::Picture(arguments) => pictures::add(data, &arguments),
        FormulaCommand::Pictures(arguments) => pictures::list(data, &arguments, language),
        FormulaCommand::PictureOff(arguments) => pictures::take_off(data, &arguments),
    }
}

/// The formula of that name in the book.
pub(super) fn find(data: &Data, name: &str) -> Result<StagedFormula, Failure> {
    book::find(data.folder()?.path(), name).map_err(failed)
}

/// Writes a formula into the book, whole or not at all.
fn keep(
    data: &Data,
    formula: &StagedFormula,
    field: &str,
    force: bool,
) -> Result<PathBuf, Failure> {
    let folder = data.folder()?;
    let path = book::file_of(folder.path(), formula.name());
    let text = formula.to_toml()?;
    // Another file may hold the name already: two of one name are never both right.
    let other = book::another_of_that_name(folder.path(), formula.name()).map_err(failed)?;
    if let Some(other) = other {
        return Err(bad_input!(
            "formula-there",
            field = field,
            name = format!("{:?}", formula.name()),
            path = other.display().to_string(),
        ));
    }
    if let Some(folder) = path.parent() {
        std::fs::create_dir_all(folder).map_err(|error| {
            failed!(
                "folder-cannot-be-made",
                path = folder.display().to_string(),
                why = &error,
            )
        })?;
    }
    written::to_file(data, field, &path, force, |file| {
        file.write_all(text.as_bytes())
    })?;
    Ok(path)
}

fn list(data: &Data, json: bool, language: Language) -> Result<(), Failure> {
    let pages = book::pages(data.folder()?.path()).map_err(failed)?;
    output::nothing_yet(
        pages.is_empty(),
        json,
        &say!(language, "formula-nothing-yet"),
    )?;
    for page in pages {
        match (&page.formula, json) {
            (Ok(formula), true) => output::json(&fields(formula))?,
            (Ok(formula), false) => {
                let water = format!("{:.0}", formula.hydration().percent());
                let stages = formula.stages().len();
                let words = match formula.ends_at() {
                    None => say!(
                        language,
                        "formula-line",
                        name = formula.name(),
                        water = water,
                        stages = stages
                    ),
                    Some(at) => say!(
                        language,
                        "formula-line-mixed",
                        name = formula.name(),
                        water = water,
                        stages = stages,
                        temperature =
                            language.figure(format_temperature(at, TemperatureUnit::Celsius))
                    ),
                };
                output::line(&words)?;
            }
            (Err(error), true) => output::json(&json!({
                "file": page.path.display().to_string(),
                "not_understood": error.to_string(),
            }))?,
            (Err(error), false) => {
                let why = language
                    .english_or(error, |language| book::book_refused_words(language, error));
                output::line(&say!(language, "formula-not-understood", why = why))?;
            }
        }
    }
    Ok(())
}

fn rounded(value: f64) -> f64 {
    (value * 1e6).round() / 1e6
}

/// A formula for machines; shares in per cent of the base.
fn fields(formula: &StagedFormula) -> Value {
    let ingredients = formula.ingredients();
    json!({
        "formula": formula.name(),
        "ends_at_c": formula.ends_at().map(|at| at.celsius()),
        "hydration_percent": rounded(formula.hydration().percent()),
        "base_in_stages_percent": rounded(formula.base_in_stages().percent()),
        "total_percent": rounded(formula.total().percent()),
        "ingredients": ingredients.iter().map(|ingredient| json!({
            "name": ingredient.name(),
            "percent": rounded(ingredient.share().percent()),
            "is_base": ingredient.counts() == Counts::Base,
        })).collect::<Vec<_>>(),
        "stages": formula.stages().iter().map(|stage| json!({
            "name": stage.name(),
            "made": formula.made_for(stage).collect::<Vec<_>>(),
            "starter_percent": stage.starter().map(|starter| rounded(starter.share().percent())),
            "takes": formula.taken_by(stage).map(|(name, share)| json!({
                "name": name,
                "percent": rounded(share.percent()),
            })).collect::<Vec<_>>(),
        })).collect::<Vec<_>>(),
    })
}

fn weigh(data: &Data, arguments: &WeighArguments, language: Language) -> Result<(), Failure> {
    let step = mass_positive("--step", &arguments.step)?;
    let size = arguments.size.size()?;
    let formula = find(data, &arguments.name)?;
    let weighing = formula.weigh(&size, step).map_err(flag)?;
    if arguments.json {
        return output::json(&weighing_fields(&formula, &weighing, step));
    }
    output::line(&book::weighing_words(language, &formula, &weighing, step).join("\n"))
}

fn weighing_fields(formula: &StagedFormula, weighing: &Weighing, step: Mass) -> Value {
    json!({
        "formula": formula.name(),
        "base_grams": Grams(weighing.base),
        "total_grams": Grams(weighing.total),
        "step_grams": Grams(step),
        "pieces": weighing.pieces.map(|(count, _)| count),
        "each_grams": weighing.pieces.map(|(_, each)| Grams(each)),
        "bowls": weighing.bowls.iter().map(|bowl| json!({
            "stage": bowl.stage,
            "total_grams": Grams(bowl.total()),
            "lines": bowl.lines.iter().map(|line| json!({
                "name": line.name,
                "percent": rounded(line.of_base.percent()),
                "exact_grams": Grams(line.exact),
                "weigh_grams": Grams(line.weigh),
                "off_percent": rounded(line.off().percent()),
                "too_coarse": line.is_too_coarse(),
            })).collect::<Vec<_>>(),
        })).collect::<Vec<_>>(),
    })
}

fn share(data: &Data, arguments: &ShareArguments, language: Language) -> Result<(), Failure> {
    let least = Mark::new("--mark", arguments.mark)?;
    let batches: Vec<Batch> = data
        .existing()?
        .batches_titled(&arguments.title)?
        .into_iter()
        .map(|(_, batch)| batch)
        .collect();
    if batches.is_empty() {
        return Err(bad_input!(
            "formula-no-batch",
            title = format!("{:?}", arguments.title),
        ));
    }
    let trials = Trials::new(&batches, &arguments.base).map_err(flag)?;
    let kept = arguments
        .keep
        .as_ref()
        .map(|name| -> Result<PathBuf, Failure> {
            let formula = trials.formula(name, least).map_err(flag)?;
            keep(data, &formula, "--keep", arguments.force)
        })
        .transpose()?;
    if arguments.json {
        return output::json(&trials_fields(&trials, least, kept));
    }
    let mut lines = book::trials_words(language, &trials, least);
    if let Some(path) = kept {
        let path = path.display().to_string();
        lines.push(say!(language, "formula-kept-as", path = path).into_owned());
    }
    output::line(&lines.join("\n"))
}

fn trials_fields(trials: &Trials, least: Mark, kept: Option<PathBuf>) -> Value {
    let changed = trials.changed_the_mark();
    let seen = match &changed {
        Seen::NotKnownYet { more } => json!({"code": "not-known-yet", "more_batches": more}),
        Seen::Nothing => json!({"code": "nothing"}),
        Seen::Stands {
            ingredient,
            more_is_better,
            chance,
        } => json!({
            "code": "stands",
            "ingredient": ingredient,
            "more_is_better": more_is_better,
            "chance_percent": rounded(*chance * 100.0),
        }),
    };
    json!({
        "batches": trials.count(),
        "left_out": trials.left_out(),
        "good": trials.good_count(least),
        "mark": least.value(),
        "shared": trials.shared(least).into_iter().map(|shared| json!({
            "name": shared.ingredient,
            "is_base": shared.is_base,
            "mean_percent": rounded(shared.mean.percent()),
            "spread_percent": shared.spread.map(|spread| rounded(spread.percent())),
            "batches": shared.batches,
        })).collect::<Vec<_>>(),
        "changed_the_mark": seen,
        "next": trials.next(least, &changed).map(|next| json!({
            "name": next.ingredient,
            "from_percent": rounded(next.from.percent()),
            "to_percent": rounded(next.to.percent()),
        })),
        "kept": kept.map(|path| path.display().to_string()),
    })
}
