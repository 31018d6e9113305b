//! Earlier weighings out of a table: which column holds what, and every line
//! that cannot be used, with why.

use crate::cook::Cook;
use crate::dish::{Dish, DishName};
use crate::units::{InputError, MassUnit, parse_mass};
use evenhand_protocol::{Goal, Mass, Mode, Tolerance};
use jiff::Timestamp;
use jiff::civil::DateTime;
use jiff::tz::{AmbiguousOffset, TimeZone};
use std::collections::HashMap;
use std::io::Read;

/// The heaviest portion that is taken for one: 100 kg. What is heavier was
/// written in another unit.
const HEAVIEST: Mass = Mass::from_grams(100_000);

/// Before this there was nothing to weigh with: a time before it is a clock
/// that was never set.
const EARLIEST: i64 = 946_684_800; // 2000-01-01T00:00:00Z

/// What a column can hold.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Field {
    /// When the portion was made; needed.
    Time,
    /// The food in it; needed.
    Mass,
    /// What was portioned.
    Dish,
    /// By whom, in initials.
    Cook,
    /// What it should have weighed.
    Target,
}

impl Field {
    /// Every field.
    pub const ALL: [Self; 5] = [Self::Time, Self::Mass, Self::Dish, Self::Cook, Self::Target];

    /// Its word.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Time => "time",
            Self::Mass => "mass",
            Self::Dish => "dish",
            Self::Cook => "cook",
            Self::Target => "target",
        }
    }
}

/// Which column holds which field, by its heading.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Columns(Vec<(Field, String)>);

impl Columns {
    /// Reads `time=WHEN,mass=WEIGHT,dish=DISH`. `field` says where it was
    /// typed, for the error.
    ///
    /// # Errors
    /// Anything else, a field named twice, or time or mass not named.
    pub fn parse(field: &str, text: &str) -> Result<Self, InputError> {
        const EXPECTED: &str = "write which heading holds what, such as \
             time=When,mass=Weight,dish=Dish,cook=Cook,target=Target; time and mass are needed";
        let wrong = |problem: String| InputError::new(field, text, problem, EXPECTED);
        let mut columns: Vec<(Field, String)> = Vec::new();
        for part in text.split(',') {
            let (word, heading) = part
                .split_once('=')
                .ok_or_else(|| wrong(format!("has {part:?} without a =")))?;
            let known = Field::ALL
                .into_iter()
                .find(|field| field.word() == word.trim())
                .ok_or_else(|| wrong(format!("names {word:?}, which is no field")))?;
            if columns.iter().any(|(field, _)| *field == known) {
                return Err(wrong(format!("names {} twice", known.word())));
            }
            columns.push((known, heading.trim().to_owned()));
        }
        for needed in [Field::Time, Field::Mass] {
            if !columns.iter().any(|(field, _)| *field == needed) {
                return Err(wrong(format!("does not name {}", needed.word())));
            }
        }
        Ok(Self(columns))
    }
}

/// What holds for lines that do not say it themselves.
#[derive(Debug, Clone)]
pub struct Defaults {
    /// The unit of masses written as bare numbers.
    pub unit: MassUnit,
    /// The dish, where there is no column for it.
    pub dish: Option<DishName>,
    /// The target of dishes that are not on record.
    pub target: Option<Mass>,
    /// The tolerance of targets that are not on record.
    pub tolerance: Tolerance,
    /// How portions of dishes that are not on record were made.
    pub mode: Mode,
    /// The zone of times without an offset.
    pub zone: TimeZone,
    /// The time now: nothing was weighed after it.
    pub now: Timestamp,
}

/// A weighing made elsewhere.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Weighing {
    /// What was portioned.
    pub dish: DishName,
    /// By whom, where it is said.
    pub cook: Option<Cook>,
    /// The food in it; above zero.
    pub mass: Mass,
    /// What it should have weighed.
    pub goal: Goal,
    /// How it was made.
    pub mode: Mode,
    /// When it was made.
    pub time: Timestamp,
}

/// A line that cannot be used.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BadLine {
    /// The line of the file, from 1; the headings are line 1.
    pub line: u64,
    /// Why, naming the field, the value and what was expected.
    pub reason: String,
}

/// What a file holds.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct WeighingsFile {
    /// The lines that can be used, in the file's order, with their places.
    pub weighings: Vec<Weighing>,
    /// Every line that cannot be used.
    pub bad: Vec<BadLine>,
}

/// Why a file as a whole cannot be used.
#[derive(Debug, thiserror::Error)]
pub enum FileError {
    /// It cannot be read as a table.
    #[error("the file cannot be read as a table: {0}")]
    Table(#[from] csv::Error),
    /// It cannot be read at all.
    #[error("the file cannot be read: {0}")]
    Read(#[from] std::io::Error),
    /// A heading that was named is not there.
    #[error("there is no heading {named:?}; the file has {}", headings.join(", "))]
    NoHeading {
        /// What was named.
        named: String,
        /// What the file has.
        headings: Vec<String>,
    },
    /// Two columns have the heading that was named.
    #[error("two columns have the heading {0:?}; give one of them another name")]
    TwoHeadings(String),
}

/// Reads a table of weighings. `known` are the dishes on record by
/// [`DishName::key`], each with its versions in order of time.
///
/// # Errors
/// [`FileError`] where the file as a whole cannot be used. A line that cannot
/// be used is no error but a [`BadLine`].
pub fn read(
    mut file: impl Read,
    columns: &Columns,
    defaults: &Defaults,
    known: &HashMap<String, Vec<Dish>>,
) -> Result<WeighingsFile, FileError> {
    let mut bytes = Vec::new();
    file.read_to_end(&mut bytes)?;
    let mut reader = csv::ReaderBuilder::new()
        .flexible(true)
        .trim(csv::Trim::All)
        .from_reader(bytes.as_slice());
    let headings: Vec<String> = reader
        .headers()?
        .iter()
        // Spreadsheets put a byte order mark before the first heading.
        .map(|heading| heading.trim_start_matches('\u{feff}').to_owned())
        .collect();
    let mut places = HashMap::new();
    for (field, named) in &columns.0 {
        let mut found = headings
            .iter()
            .enumerate()
            .filter(|(_, heading)| *heading == named);
        let Some((place, _)) = found.next() else {
            return Err(FileError::NoHeading {
                named: named.clone(),
                headings,
            });
        };
        if found.next().is_some() {
            return Err(FileError::TwoHeadings(named.clone()));
        }
        places.insert(*field, place);
    }
    let mut held = WeighingsFile::default();
    let mut record = csv::StringRecord::new();
    // A record is said to begin where the one before ended: before the line
    // feed of a CR LF, and before lines that are empty.
    let line_of = |position: &csv::Position| {
        let ends = bytes
            .iter()
            .skip(usize::try_from(position.byte()).unwrap_or(usize::MAX))
            .take_while(|byte| matches!(byte, b'\r' | b'\n'));
        position.line() + ends.filter(|byte| **byte == b'\n').count() as u64
    };
    loop {
        let line = line_of(reader.position());
        match reader.read_record(&mut record) {
            Ok(false) => return Ok(held),
            Ok(true) => {}
            // Bytes that are no text spoil their own line only.
            Err(error) if matches!(error.kind(), csv::ErrorKind::Utf8 { .. }) => {
                held.bad.push(BadLine {
                    line: error.position().map_or(line, line_of),
                    reason: "is not UTF-8 text; save the table as UTF-8".to_owned(),
                });
                continue;
            }
            Err(error) => return Err(error.into()),
        }
        let line = record.position().map_or(line, line_of);
        let get = |field: Field| {
            places
                .get(&field)
                .map(|place| record.get(*place).unwrap_or("").trim())
        };
        match weighing(get, defaults, known) {
            Ok(weighing) => held.weighings.push(weighing),
            Err(error) => held.bad.push(BadLine {
                line,
                reason: error.to_string(),
            }),
        }
    }
}

fn weighing<'r>(
    get: impl Fn(Field) -> Option<&'r str>,
    defaults: &Defaults,
    known: &HashMap<String, Vec<Dish>>,
) -> Result<Weighing, InputError> {
    let time = time(get(Field::Time).unwrap_or(""), defaults)?;
    let mass = mass("mass", get(Field::Mass).unwrap_or(""), defaults.unit)?;
    let dish = match (get(Field::Dish), &defaults.dish) {
        (Some(text), _) => DishName::new("dish", text)?,
        (None, Some(dish)) => dish.clone(),
        (None, None) => {
            return Err(InputError::new(
                "dish",
                "",
                "is not said",
                "name its column in --map, or give --dish",
            ));
        }
    };
    let cook = get(Field::Cook)
        .filter(|text| !text.is_empty())
        .map(|text| Cook::new("cook", text))
        .transpose()?;
    let on_record = known.get(&dish.key()).and_then(|versions| {
        let since = versions.partition_point(|version| version.since <= time);
        versions.get(since.saturating_sub(1))
    });
    let said = get(Field::Target)
        .filter(|text| !text.is_empty())
        .map(|text| self::mass("target", text, defaults.unit))
        .transpose()?;
    let goal = match (said, on_record, defaults.target) {
        (Some(target), Some(dish), _) if dish.goal.target() != target => {
            goal(target, dish.goal.tolerance())?
        }
        (_, Some(dish), _) => dish.goal,
        (Some(target), None, _) | (None, None, Some(target)) => goal(target, defaults.tolerance)?,
        (None, None, None) => {
            return Err(InputError::new(
                "target",
                dish.as_str(),
                "is a dish that is not on record, so its target is not known",
                "give --target, name its column in --map, or add the dish first",
            ));
        }
    };
    Ok(Weighing {
        mode: on_record.map_or(defaults.mode, |dish| dish.mode),
        dish,
        cook,
        mass,
        goal,
        time,
    })
}

fn goal(target: Mass, tolerance: Tolerance) -> Result<Goal, InputError> {
    Goal::new(target, tolerance).map_err(|error| {
        InputError::new(
            "target",
            &format!("{} g", target.grams()),
            error.to_string(),
            "give a target above zero and a --tolerance below it",
        )
    })
}

fn mass(field: &str, text: &str, unit: MassUnit) -> Result<Mass, InputError> {
    let mass = if text.ends_with(|c: char| c.is_ascii_digit() || c == '.') {
        parse_mass(field, &format!("{text}{unit}"))
            .map_err(|error| InputError::new(field, text, error.problem(), error.expected()))?
    } else {
        parse_mass(field, text)?
    };
    let wrong = |problem| {
        InputError::new(
            field,
            text,
            problem,
            "a portion weighs more than nothing and at most 100 kg; check --units",
        )
    };
    if mass <= Mass::ZERO {
        return Err(wrong("is not above zero"));
    }
    if mass > HEAVIEST {
        return Err(wrong("is above 100 kg"));
    }
    Ok(mass)
}

fn time(text: &str, defaults: &Defaults) -> Result<Timestamp, InputError> {
    let wrong = |problem| {
        InputError::new(
            "time",
            text,
            problem,
            "write a local time (2026-05-01 18:30:05) or one with its offset (2026-05-01T18:30:05+02:00)",
        )
    };
    // A date alone would be read as midnight, when nobody weighed anything.
    if text.len() <= "2026-05-01".len() {
        return Err(wrong("is no date with a time of day"));
    }
    let time = match text.parse::<Timestamp>() {
        Ok(time) => time,
        Err(_) => {
            let local: DateTime = text
                .parse()
                .map_err(|_| wrong("is no date with a time of day"))?;
            let ambiguous = defaults.zone.to_ambiguous_timestamp(local);
            if matches!(ambiguous.offset(), AmbiguousOffset::Gap { .. }) {
                return Err(wrong("was skipped that night when clocks were put forward"));
            }
            ambiguous
                .compatible()
                .map_err(|_| wrong("is beyond the calendar"))?
        }
    };
    if time > defaults.now {
        return Err(wrong("lies in the future"));
    }
    if time.as_second() < EARLIEST {
        return Err(wrong("is before the year 2000"));
    }
    Ok(time)
}
