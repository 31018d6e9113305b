//! `evenhand import`.

use super::failure::{Said, Spoken};
use super::words::{bad_input, said, say};
use super::{Data, Failure, figures, output};
use clap::Args;
use evenhand_kitchen::cook::Cook;
use evenhand_kitchen::dish::DishName;
use evenhand_kitchen::moment::show_date_and_time_to_the_second;
use evenhand_kitchen::units::{
    Grams, InputError, MassUnit, excerpt, mass_not_negative, mass_positive,
};
use evenhand_kitchen::weighings_file::{
    BadLine, BadReason, Columns, Defaults, FileError, LONGEST_LINE, Line, Preview, Weighing,
    Weighings, preview,
};
use evenhand_kitchen::written_table::ReadAs;
use evenhand_protocol::{Mass, Mode, Tolerance};
use evenhand_store::Store;
use evenhand_words::Language;
use jiff::Timestamp;
use jiff::tz::TimeZone;
use serde_json::json;
use std::borrow::Cow;
use std::collections::HashMap;
use std::fs::File;
use std::io::{Read, Seek};
use std::path::PathBuf;

/// How many lines a preview shows, and how many bad ones are listed.
const SHOWN: usize = 20;

/// How long a line is, about: to guess how many there are.
const BYTES_A_LINE: u64 = 40;

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
        InputError::new(
            "--units",
            error.value(),
            error.problem().clone(),
            error.expected().clone(),
        )
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
        .map_err(|error| bad_input!("import-unread", file = named.to_string(), why = &error))?;
    let about = file
        .metadata()
        .map_or(0, |about| about.len() / BYTES_A_LINE);
    let unread = |error: FileError| {
        bad_input!(
            "import-refused",
            file = named.to_string(),
            why = file_refused(error),
        )
    };
    if arguments.preview {
        let known = known(&data.existing_or_empty()?.store)?;
        let file = read_twice(file).map_err(|error| unread(error.into()))?;
        let held = preview(file, &columns, &defaults, &known, SHOWN).map_err(unread)?;
        show(data.language, &held, arguments.json)?;
        if held.bad.is_empty() {
            return Ok(());
        }
        let refused = Refused {
            good: held.weighings,
            count: held.bad_lines,
            first: held.bad,
        };
        return Err(refused.failure());
    }
    let mut store = data.store()?;
    let known = known(&store)?;
    let calendar = store.service_calendar(defaults.zone.clone())?;
    let lines = Weighings::open(file, &columns, &defaults, &known).map_err(unread)?;
    let imported = store.import(usable(lines, unread), about, &calendar, defaults.now)?;
    if arguments.json {
        return output::json(&json!({
            "added": imported.added,
            "already": imported.already,
        }));
    }
    output::line(&say!(
        data.language,
        "import-done",
        count = imported.added,
        already = imported.already.to_string()
    ))
}

/// A file that can be read a second time: what comes through a pipe is put
/// into one that is gone with the program.
fn read_twice(mut file: File) -> std::io::Result<File> {
    if file.stream_position().is_ok() {
        return Ok(file);
    }
    let mut held = tempfile::tempfile()?;
    std::io::copy(&mut file, &mut held)?;
    held.rewind()?;
    Ok(held)
}

/// The weighings of a file up to the first line that cannot be used; then what
/// is wrong with it and with every other such line.
fn usable<R: Read>(
    lines: Weighings<'_, R>,
    unread: impl Fn(FileError) -> Failure,
) -> impl Iterator<Item = Result<Weighing, Failure>> {
    let mut refused = Refused::default();
    let mut lines = lines;
    std::iter::from_fn(move || {
        for line in &mut lines {
            match line {
                Err(error) => return Some(Err(unread(error))),
                Ok(Line::Bad(bad)) => refused.bad(bad),
                Ok(Line::Weighing(_, weighing)) => {
                    refused.good += 1;
                    if refused.count == 0 {
                        return Some(Ok(weighing));
                    }
                }
            }
        }
        (refused.count > 0).then(|| Err(refused.failure()))
    })
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

/// Why a line cannot be used.
fn bad_reason(reason: &BadReason) -> Spoken {
    let refused = |reason: &str, values: usize, headings: usize| {
        said!(
            "import-line-refused",
            reason = reason,
            values = values.to_string(),
            headings = headings.to_string(),
        )
        .into()
    };
    match reason {
        BadReason::TooLong => refused("too-long", LONGEST_LINE, 0),
        BadReason::NotUtf8 => refused("not-utf8", 0, 0),
        BadReason::NoRow => refused("no-row", 0, 0),
        BadReason::NeverClosed => refused("never-closed", 0, 0),
        BadReason::TooManyValues { values, headings } => refused("too-many", *values, *headings),
        BadReason::Value(error) => error.clone().into(),
    }
}

/// Why a file as a whole cannot be used.
fn file_refused(error: FileError) -> Said {
    let (reason, what, there) = match error {
        FileError::Table(error) => ("table", error.to_string().into(), String::new()),
        FileError::NotUtf8 => ("not-utf8", Spoken::from(""), String::new()),
        FileError::Read(error) => ("read", Spoken::from(&error), String::new()),
        FileError::NoHeading { named, headings } => (
            "no-heading",
            format!("{named:?}").into(),
            excerpt(&headings.join(", ")).into_owned(),
        ),
        FileError::TwoHeadings(named) => {
            ("two-headings", format!("{named:?}").into(), String::new())
        }
    };
    said!(
        "import-file-refused",
        reason = reason,
        what = what,
        there = there,
    )
}

/// Lines that cannot be used, and how many can.
#[derive(Debug, Default)]
struct Refused {
    good: usize,
    count: usize,
    /// The first of them.
    first: Vec<BadLine>,
}

impl Refused {
    fn bad(&mut self, bad: BadLine) {
        self.count += 1;
        if self.first.len() < SHOWN {
            self.first.push(bad);
        }
    }

    fn failure(&self) -> Failure {
        let mut lines: Vec<Said> = self
            .first
            .iter()
            .map(|bad| {
                let line = bad.line.to_string();
                said!(
                    "import-bad-line",
                    line = line,
                    why = bad_reason(&bad.reason)
                )
            })
            .collect();
        if self.count > self.first.len() {
            let more = self.count - self.first.len();
            lines.push(said!("import-more", count = more.to_string()));
        }
        bad_input!(
            "import-bad-lines",
            count = self.count,
            all = (self.count + self.good).to_string(),
            lines = Spoken::Below(lines),
        )
    }
}

fn more(language: Language, count: usize) -> Cow<'static, str> {
    say!(language, "import-more", count = count.to_string())
}

fn show(language: Language, held: &Preview, as_json: bool) -> Result<(), Failure> {
    for weighing in &held.first {
        if as_json {
            output::json(&json!({
                "time": weighing.time,
                "dish": weighing.dish.as_str(),
                "grams": Grams(weighing.mass),
                "target_grams": Grams(weighing.goal.target()),
                "cook": weighing.cook.as_ref().map(Cook::initials),
            }))?;
        } else {
            output::line(&words(language, weighing))?;
        }
    }
    if as_json {
        return output::json(&json!({
            "separator": held.separator.word(),
            "byte_order_mark": held.byte_order_mark,
            "decimal_commas": held.decimal_commas,
            "weighings": held.weighings,
            "odd_weighings": held.odd_weighings,
            "odd": held.odd.iter().map(|odd| json!({
                "line": odd.line,
                "standard_deviations": odd.deviations,
            })).collect::<Vec<_>>(),
            "not_compared": held.not_compared,
        }));
    }
    if held.weighings > held.first.len() {
        output::line(&more(language, held.weighings - held.first.len()))?;
    }
    let read_as = ReadAs {
        separator: held.separator,
        byte_order_mark: held.byte_order_mark,
        decimal_commas: held.decimal_commas,
    };
    output::line(&read_as_words(language, read_as, "weight"))?;
    if held.odd_weighings > 0 {
        output::line(&say!(language, "import-odd", count = held.odd_weighings))?;
    }
    for odd in &held.odd {
        let told = say!(
            language,
            "import-odd-line",
            line = odd.line.to_string(),
            words = words(language, &odd.weighing),
            deviations = language.figure(format!("{:.1}", odd.deviations.abs())),
            side = if odd.deviations < 0.0 {
                "below"
            } else {
                "above"
            }
        );
        output::line(&format!("  {told}"))?;
    }
    if held.odd_weighings > held.odd.len() {
        let words = more(language, held.odd_weighings - held.odd.len());
        output::line(&format!("  {words}"))?;
    }
    if held.not_compared > 0 {
        output::line(&say!(
            language,
            "import-not-compared",
            count = held.not_compared
        ))?;
    }
    output::line(&say!(language, "import-would", count = held.weighings))
}

fn words(language: Language, weighing: &Weighing) -> String {
    let mass = |mass: Mass| figures::mass(language, mass, MassUnit::Gram);
    let cook = weighing
        .cook
        .as_ref()
        .map_or_else(String::new, |cook| format!(", {cook}"));
    let masses = say!(
        language,
        "import-weighing",
        mass = format!("{:>10}", mass(weighing.mass)),
        target = mass(weighing.goal.target())
    );
    format!(
        "{}  {masses}  {}{cook}",
        show_date_and_time_to_the_second(weighing.time, &TimeZone::system()),
        weighing.dish
    )
}

/// How a table was read; `what` had the decimal commas: `weight` or `number`.
pub(super) fn read_as_words(language: Language, read_as: ReadAs, what: &str) -> String {
    let commas = if read_as.decimal_commas > 0 {
        say!(
            language,
            "read-as-commas",
            count = read_as.decimal_commas,
            what = what
        )
    } else {
        Cow::Borrowed("")
    };
    say!(
        language,
        "read-as",
        separator = read_as.separator.word(),
        commas = commas,
        mark = if read_as.byte_order_mark { "yes" } else { "no" }
    )
    .into_owned()
}
