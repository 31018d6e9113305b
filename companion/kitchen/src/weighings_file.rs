//! Earlier weighings out of a table: which column holds what, and every line
//! that cannot be used, with why.

use crate::cook::Cook;
use crate::dish::{Dish, DishName};
use crate::units::{InputError, MassUnit, parse_mass};
use evenhand_protocol::{Goal, Mass, Mode, Tolerance};
use jiff::civil::DateTime;
use jiff::tz::{AmbiguousOffset, TimeZone};
use jiff::{Timestamp, ZonedDateTime};
use std::collections::HashMap;
use std::io::Read;

/// The heaviest portion that is taken for one: 100 kg. What is heavier was
/// written in another unit.
const HEAVIEST: Mass = Mass::from_grams(100_000);

/// How many times its target a portion may weigh, and how many times less:
/// beyond, it is another unit or another column.
const FAR: f64 = 10.0;

/// UTF-8's byte order mark.
const BYTE_ORDER_MARK: &[u8] = b"\xef\xbb\xbf";

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

/// What stands between the values of a line.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Separator {
    /// A comma.
    #[default]
    Comma,
    /// A semicolon, where the comma is for decimals.
    Semicolon,
    /// A tabulator.
    Tab,
}

impl Separator {
    /// Every separator, the usual one first.
    pub const ALL: [Self; 3] = [Self::Comma, Self::Semicolon, Self::Tab];

    /// Its word.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Comma => "comma",
            Self::Semicolon => "semicolon",
            Self::Tab => "tab",
        }
    }

    const fn byte(self) -> u8 {
        match self {
            Self::Comma => b',',
            Self::Semicolon => b';',
            Self::Tab => b'\t',
        }
    }
}

/// A weighing that lies far from the others of its dish.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Odd {
    /// The line of the file.
    pub line: u64,
    /// Which of the file's weighings.
    pub place: usize,
    /// By how many standard deviations it lies above the others; negative below.
    pub deviations: f64,
}

/// What a file holds.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct WeighingsFile {
    /// The lines that can be used, in the file's order.
    pub weighings: Vec<Weighing>,
    /// The line of the file of each of them.
    pub lines: Vec<u64>,
    /// What stood between the values.
    pub separator: Separator,
    /// Whether the file began with a byte order mark.
    pub byte_order_mark: bool,
    /// How many masses were written with a decimal comma.
    pub decimal_commas: usize,
    /// Every line that cannot be used.
    pub bad: Vec<BadLine>,
}

/// From how many standard deviations on a weighing is odd: among ten thousand
/// of a normal law fewer than one lies as far.
const ODD: f64 = 4.0;
/// Among fewer weighings of a dish none is called odd.
const FEW: usize = 8;

impl WeighingsFile {
    /// The weighings that lie far from the others of their dish, the farthest
    /// first. The standard deviation is that of a normal law with the same
    /// median distance from the median, so that the odd ones don't widen it
    /// (1.4826 times that distance; Huber, Robust Statistics, from memory).
    #[must_use]
    pub fn odd(&self) -> Vec<Odd> {
        let mut by_dish: HashMap<&DishName, Vec<usize>> = HashMap::new();
        for (place, weighing) in self.weighings.iter().enumerate() {
            by_dish.entry(&weighing.dish).or_default().push(place);
        }
        let mut odd = Vec::new();
        for places in by_dish.into_values().filter(|places| places.len() >= FEW) {
            let grams = |place: usize| {
                self.weighings
                    .get(place)
                    .map_or(0.0, |weighing| weighing.mass.micrograms() as f64)
            };
            let middle = median(places.iter().map(|place| grams(*place)).collect());
            let distance = median(
                places
                    .iter()
                    .map(|place| (grams(*place) - middle).abs())
                    .collect(),
            );
            let deviation = 1.4826 * distance;
            if deviation <= 0.0 {
                continue;
            }
            for place in places {
                let deviations = (grams(place) - middle) / deviation;
                if deviations.abs() > ODD {
                    odd.push(Odd {
                        line: self.lines.get(place).copied().unwrap_or_default(),
                        place,
                        deviations,
                    });
                }
            }
        }
        odd.sort_by(|one, other| {
            other
                .deviations
                .abs()
                .total_cmp(&one.deviations.abs())
                .then(one.line.cmp(&other.line))
        });
        odd
    }
}

/// The middle of some numbers; zero of none.
fn median(mut numbers: Vec<f64>) -> f64 {
    numbers.sort_unstable_by(f64::total_cmp);
    let half = numbers.len() / 2;
    let at = |place: usize| numbers.get(place).copied().unwrap_or_default();
    match numbers.len() {
        0 => 0.0,
        n if n % 2 == 1 => at(half),
        _ => f64::midpoint(at(half - 1), at(half)),
    }
}

/// Why a file as a whole cannot be used.
#[derive(Debug, thiserror::Error)]
pub enum FileError {
    /// It cannot be read as a table.
    #[error("the file cannot be read as a table: {0}")]
    Table(#[from] csv::Error),
    /// It is in another encoding.
    #[error("the file is UTF-16; save the table as UTF-8")]
    NotUtf8,
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
    if bytes.starts_with(&[0xff, 0xfe]) || bytes.starts_with(&[0xfe, 0xff]) {
        return Err(FileError::NotUtf8);
    }
    // Spreadsheets put a byte order mark before the first heading.
    let byte_order_mark = bytes.starts_with(BYTE_ORDER_MARK);
    if byte_order_mark {
        bytes.drain(..BYTE_ORDER_MARK.len());
    }
    let separator = separator(&bytes, columns);
    let mut reader = csv::ReaderBuilder::new()
        .delimiter(separator.byte())
        .flexible(true)
        .trim(csv::Trim::All)
        .from_reader(bytes.as_slice());
    let headings: Vec<String> = reader.headers()?.iter().map(str::to_owned).collect();
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
    let mut held = WeighingsFile {
        separator,
        byte_order_mark,
        ..WeighingsFile::default()
    };
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
        if let Some(reason) = misshapen(&record, headings.len()) {
            held.bad.push(BadLine { line, reason });
            continue;
        }
        let get = |field: Field| {
            places
                .get(&field)
                .map(|place| record.get(*place).unwrap_or("").trim())
        };
        let comma_is_decimal = separator != Separator::Comma;
        match weighing(get, defaults, known, comma_is_decimal) {
            Ok((weighing, with_comma)) => {
                held.weighings.push(weighing);
                held.lines.push(line);
                held.decimal_commas += usize::from(with_comma);
            }
            Err(error) => held.bad.push(BadLine {
                line,
                reason: error.to_string(),
            }),
        }
    }
}

/// The separator that makes all the headings named out of the first line; a
/// comma where none does.
fn separator(bytes: &[u8], columns: &Columns) -> Separator {
    Separator::ALL
        .into_iter()
        .find(|separator| {
            let mut reader = csv::ReaderBuilder::new()
                .delimiter(separator.byte())
                .trim(csv::Trim::All)
                .from_reader(bytes);
            reader.headers().is_ok_and(|headings| {
                columns
                    .0
                    .iter()
                    .all(|(_, named)| headings.iter().any(|heading| heading == named))
            })
        })
        .unwrap_or_default()
}

/// Why a line is no row of the table, where it is none.
fn misshapen(record: &csv::StringRecord, headings: usize) -> Option<String> {
    if record.len() > headings {
        return Some(format!(
            "has {} values and the table has {headings} headings, so they would stand in the \
             wrong columns; put a value with a separator in it, such as \"30,1\", in quotes",
            record.len()
        ));
    }
    let broken = record
        .iter()
        .position(|value| value.contains(['\n', '\r']))?;
    Some(format!(
        "has a line break within its value {}: a quotation mark that is never closed, or a value \
         over two lines; write each row on one line",
        broken + 1
    ))
}

/// A weighing, and whether its mass was written with a decimal comma.
fn weighing<'r>(
    get: impl Fn(Field) -> Option<&'r str>,
    defaults: &Defaults,
    known: &HashMap<String, Vec<Dish>>,
    comma_is_decimal: bool,
) -> Result<(Weighing, bool), InputError> {
    let time = time(get(Field::Time).unwrap_or(""), defaults)?;
    let written = get(Field::Mass).unwrap_or("");
    let with_comma = comma_is_decimal && has_decimal_comma(written);
    let decimal = |text: &str| match comma_is_decimal && has_decimal_comma(text) {
        true => text.replace(',', "."),
        false => text.to_owned(),
    };
    let mass = mass("mass", &decimal(written), defaults.unit)?;
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
        .map(|text| self::mass("target", &decimal(text), defaults.unit))
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
    near_target(mass, goal, get(Field::Mass).unwrap_or(""))?;
    let weighing = Weighing {
        mode: on_record.map_or(defaults.mode, |dish| dish.mode),
        dish,
        cook,
        mass,
        goal,
        time,
    };
    Ok((weighing, with_comma))
}

/// Whether a number has one comma, after digits and before digits, and no point.
fn has_decimal_comma(text: &str) -> bool {
    let Some((before, after)) = text.split_once(',') else {
        return false;
    };
    before.ends_with(|c: char| c.is_ascii_digit())
        && after.starts_with(|c: char| c.is_ascii_digit())
        && !after.contains(',')
        && !text.contains('.')
}

/// That a mass is in reach of its target; what is not was written in another
/// unit or stands in another column.
fn near_target(mass: Mass, goal: Goal, written: &str) -> Result<(), InputError> {
    let times = mass.micrograms() as f64 / goal.target().micrograms() as f64;
    if (1.0 / FAR..=FAR).contains(&times) {
        return Ok(());
    }
    Err(InputError::new(
        "mass",
        written,
        format!(
            "is {times:.3} times its target of {} g",
            goal.target().grams()
        ),
        format!(
            "a portion weighs from a tenth of its target to {FAR} times as much; check --units and \
             the columns"
        ),
    ))
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
    let wrong = |problem: &'static str| {
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
    // A zone in brackets counts only where it is known, and fits the offset.
    if text.contains('[') {
        return text
            .parse::<ZonedDateTime>()
            .map_err(|_| {
                wrong("names a zone that is not known here, or that does not fit its offset")
            })
            .and_then(|zoned| believable(zoned.timestamp(), defaults, wrong));
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
            if matches!(ambiguous.offset(), AmbiguousOffset::Fold { .. }) {
                return Err(wrong(
                    "came twice that night, when clocks were put back; only its offset tells which",
                ));
            }
            ambiguous
                .compatible()
                .map_err(|_| wrong("is beyond the calendar"))?
        }
    };
    believable(time, defaults, wrong)
}

fn believable(
    time: Timestamp,
    defaults: &Defaults,
    wrong: impl Fn(&'static str) -> InputError,
) -> Result<Timestamp, InputError> {
    if time > defaults.now {
        return Err(wrong("lies in the future"));
    }
    if time.as_second() < EARLIEST {
        return Err(wrong("is before the year 2000"));
    }
    Ok(time)
}

#[cfg(test)]
mod tests {
    use super::*;

    const MAP: &str = "time=When,mass=Weight,dish=What,target=Aim";

    fn read_in(zone: &str, table: &[u8]) -> WeighingsFile {
        let defaults = Defaults {
            unit: MassUnit::Gram,
            dish: None,
            target: None,
            tolerance: Tolerance::symmetric(Mass::from_grams(1)),
            mode: Mode::Adding,
            zone: TimeZone::get(zone).unwrap(),
            now: "2026-11-01T12:00:00Z".parse().unwrap(),
        };
        let columns = Columns::parse("--map", MAP).unwrap();
        read(table, &columns, &defaults, &HashMap::new()).unwrap()
    }

    fn refused(row: &str) -> String {
        let table = format!("When,Weight,What,Aim\n{row}\n2026-05-01 18:31,30,Gnudi,30\n");
        let held = read_in("Europe/Paris", table.as_bytes());
        let [bad] = &held.bad[..] else {
            panic!("{row}: {held:?}")
        };
        assert_eq!(bad.line, 2, "{row}");
        bad.reason.clone()
    }

    #[test]
    fn what_is_not_understood_is_refused_by_line_and_field() {
        for (row, reason) in [
            // A decimal comma without quotes shifts what follows.
            (
                "2026-05-01 18:30,30,1,Gnudi,30",
                "has 5 values and the table has 4 headings",
            ),
            (
                "2026-05-01 18:30,30100,Gnudi,30",
                "is 1003.333 times its target",
            ),
            ("2026-05-01 18:30,2,Gnudi,30", "is 0.067 times its target"),
            // Clocks were put back on 2025-10-26 at 3:00 to 2:00.
            ("2025-10-26 02:30,30,Gnudi,30", "came twice that night"),
            ("2026-03-29 02:30,30,Gnudi,30", "was skipped that night"),
            (
                "2026-05-01T18:30:00+02:00[Europe/Saltmarsh],30,Gnudi,30",
                "names a zone that is not known here",
            ),
            (
                "2026-05-01T18:30:00+05:00[Europe/Paris],30,Gnudi,30",
                "does not fit its offset",
            ),
        ] {
            let said = refused(row);
            assert!(said.contains(reason), "{row}: {said}");
        }
    }

    #[test]
    fn a_quotation_mark_that_is_never_closed_swallows_nothing_silently() {
        let table = "When,Weight,What,Aim\n2026-05-01 18:30,30,\"Gnudi,30\n\
                     2026-05-01 18:31,30,Gnudi,30\n2026-05-01 18:32,30,Gnudi,30\n";
        let held = read_in("UTC", table.as_bytes());
        assert!(held.weighings.is_empty());
        assert_eq!(held.bad.len(), 1);
        assert!(
            held.bad[0].reason.contains("never closed"),
            "{}",
            held.bad[0].reason
        );
    }

    #[test]
    fn separators_decimal_commas_and_byte_order_marks_are_recognised_and_told() {
        let table = "\u{feff}When;Weight;What;Aim\n2026-05-01 18:30;30,25;Gnudi;30,0\n\
                     2026-05-01 18:31;30;Gnudi;30\n";
        let held = read_in("UTC", table.as_bytes());
        assert_eq!(held.bad, []);
        assert_eq!(
            held.weighings.iter().map(|w| w.mass).collect::<Vec<_>>(),
            [30_250, 30_000].map(Mass::from_milligrams)
        );
        assert_eq!(
            (held.separator, held.byte_order_mark, held.decimal_commas),
            (Separator::Semicolon, true, 1)
        );
        assert_eq!(held.lines, [2, 3]);
    }

    #[test]
    fn the_one_that_lies_far_off_is_told_with_its_line() {
        let mut table = "When,Weight,What,Aim\n".to_owned();
        for second in 0..20 {
            let grams = if second == 7 {
                38.0
            } else {
                30.0 + f64::from(second % 5) / 10.0
            };
            table += &format!("2026-05-01 18:30:{second:02},{grams},Gnudi,30\n");
        }
        let odd = read_in("UTC", table.as_bytes()).odd();
        assert_eq!(odd.len(), 1);
        assert_eq!(odd[0].line, 9);
        // By hand: the median is 30.2 g, the median distance 0.1 g.
        assert!((odd[0].deviations - 7.8 / 0.148_26).abs() < 0.1, "{odd:?}");
    }
}
