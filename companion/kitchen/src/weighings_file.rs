//! Earlier weighings out of a table: which column holds what, and every line
//! that cannot be used, with why.

mod preview;

pub use crate::written_table::Separator;
pub use preview::{Odd, Preview, preview};

use crate::cook::Cook;
use crate::dish::{Dish, DishName};
use crate::units::{InputError, MassUnit, excerpt, parse_mass};
use crate::units::{Reason, typed};
use crate::written_table::{BYTE_ORDER_MARK, decimal, has_decimal_comma, split};
use evenhand_protocol::{Goal, GoalError, Mass, Mode, Tolerance};
use jiff::Timestamp;
use jiff::civil::DateTime;
use jiff::fmt::temporal::{DateTimeParser, Pieces};
use jiff::tz::{AmbiguousOffset, Disambiguation, TimeZone};
use std::collections::HashMap;
use std::io::{BufRead, BufReader, Read};

/// The heaviest portion that is taken for one: 100 kg. What is heavier was
/// written in another unit.
const HEAVIEST: Mass = Mass::from_grams(100_000);

/// How many times its target a portion may weigh, and how many times less:
/// beyond, it is another unit or another column.
const FAR: f64 = 10.0;

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
        const EXPECTED: Reason = expected!("map");
        let wrong = |problem: Reason| InputError::new(field, text, problem, EXPECTED);
        let mut columns: Vec<(Field, String)> = Vec::new();
        for part in text.split(',') {
            let (word, heading) = part
                .split_once('=')
                .ok_or_else(|| wrong(problem!("map-without-equals", part = typed(part))))?;
            let known = Field::ALL
                .into_iter()
                .find(|field| field.word() == word.trim())
                .ok_or_else(|| wrong(problem!("names-no-field", word = typed(word))))?;
            if columns.iter().any(|(field, _)| *field == known) {
                return Err(wrong(problem!("names-twice", key = known.word())));
            }
            columns.push((known, heading.trim().to_owned()));
        }
        for needed in [Field::Time, Field::Mass] {
            if !columns.iter().any(|(field, _)| *field == needed) {
                return Err(wrong(problem!("map-lacks", column = needed.word())));
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
    /// Why.
    pub reason: BadReason,
}

/// Why a line cannot be used.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum BadReason {
    /// It is longer than any row of a table.
    #[error("is longer than {LONGEST_LINE} bytes; write each row on one line")]
    TooLong,
    /// It is in another encoding.
    #[error("is not UTF-8 text; save the table as UTF-8")]
    NotUtf8,
    /// It is no row.
    #[error("cannot be read as a row of a table")]
    NoRow,
    /// A value goes over its end.
    #[error(
        "has a quotation mark that is never closed, or a value over two lines; write each row on \
         one line"
    )]
    NeverClosed,
    /// It has more values than there are headings.
    #[error(
        "has {values} values and the table has {headings} headings, so they would stand in the \
         wrong columns; put a value with a separator in it, such as \"30,1\", in quotes"
    )]
    TooManyValues {
        /// How many it has.
        values: usize,
        /// How many headings the table has.
        headings: usize,
    },
    /// A value makes no sense.
    #[error(transparent)]
    Value(#[from] InputError),
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
    #[error("there is no heading {named:?}; the file has {}", excerpt(&headings.join(", ")))]
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

/// One line of a table of weighings.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Line {
    /// What it says, after its number in the file.
    Weighing(u64, Weighing),
    /// It cannot be used.
    Bad(BadLine),
}

/// A table of weighings, read line by line: of the file only the line is held.
#[derive(Debug)]
pub struct Weighings<'d, R> {
    lines: Lines<R>,
    defaults: &'d Defaults,
    known: &'d HashMap<String, Vec<Dish>>,
    separator: Separator,
    byte_order_mark: bool,
    decimal_commas: usize,
    /// Which value of a line holds each field.
    places: [Option<usize>; Field::ALL.len()],
    headings: usize,
    values: csv::StringRecord,
    dishes: Spellings<'d>,
}

/// How many spellings of dishes' names are remembered.
const SPELLINGS: usize = 1_000;

impl<'d, R: Read> Weighings<'d, R> {
    /// Reads the headings. `known` are the dishes on record by
    /// [`DishName::key`], each with its versions in order of time.
    ///
    /// # Errors
    /// [`FileError`] where the file cannot be used.
    pub fn open(
        file: R,
        columns: &Columns,
        defaults: &'d Defaults,
        known: &'d HashMap<String, Vec<Dish>>,
    ) -> Result<Self, FileError> {
        let mut lines = Lines::of(file);
        while lines.next()? && lines.line.is_empty() {}
        let mut first = lines.line.as_slice();
        if first.starts_with(&[0xff, 0xfe]) || first.starts_with(&[0xfe, 0xff]) {
            return Err(FileError::NotUtf8);
        }
        // Spreadsheets put a byte order mark before the first heading.
        let byte_order_mark = first.starts_with(BYTE_ORDER_MARK);
        if byte_order_mark {
            first = first.get(BYTE_ORDER_MARK.len()..).unwrap_or_default();
        }
        let named = columns.0.iter().map(|(_, named)| named.as_str());
        let separator = Separator::of_headings(first, named);
        let mut values = csv::StringRecord::new();
        split(first, separator, &mut values)?;
        let headings: Vec<String> = values.iter().map(str::to_owned).collect();
        let mut places = [None; Field::ALL.len()];
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
            if let Some(of_field) = places.get_mut(*field as usize) {
                *of_field = Some(place);
            }
        }
        Ok(Self {
            lines,
            defaults,
            known,
            separator,
            byte_order_mark,
            decimal_commas: 0,
            places,
            headings: headings.len(),
            values,
            dishes: Spellings::default(),
        })
    }

    fn read_line(&mut self) -> Line {
        let line = self.lines.number;
        let bad = |reason: BadReason| Line::Bad(BadLine { line, reason });
        if self.lines.too_long {
            return bad(BadReason::TooLong);
        }
        if let Err(error) = split(&self.lines.line, self.separator, &mut self.values) {
            return bad(if matches!(error.kind(), csv::ErrorKind::Utf8 { .. }) {
                BadReason::NotUtf8
            } else {
                BadReason::NoRow
            });
        }
        if let Some(reason) = misshapen(
            &self.lines.line,
            self.separator,
            &self.values,
            self.headings,
        ) {
            return bad(reason);
        }
        match self.weighing() {
            Ok((weighing, with_comma)) => {
                self.decimal_commas += usize::from(with_comma);
                Line::Weighing(line, weighing)
            }
            Err(error) => bad(error.into()),
        }
    }

    /// A weighing, and whether its mass was written with a decimal comma.
    fn weighing(&mut self) -> Result<(Weighing, bool), InputError> {
        let (values, places, defaults) = (&self.values, &self.places, self.defaults);
        let get = |field: Field| -> Option<&str> {
            places
                .get(field as usize)
                .copied()
                .flatten()
                .map(|place| values.get(place).unwrap_or(""))
        };
        let time = time(get(Field::Time).unwrap_or(""), defaults)?;
        let written = get(Field::Mass).unwrap_or("");
        let commas = self.separator.leaves_commas();
        let with_comma = commas && has_decimal_comma(written);
        let mass = mass("mass", &decimal(written, commas), defaults.unit)?;
        let (dish, versions) = match (get(Field::Dish), &defaults.dish) {
            (Some(text), _) => self.dishes.named(text, self.known)?,
            (None, Some(dish)) => self.dishes.named(dish.as_str(), self.known)?,
            (None, None) => {
                return Err(InputError::new(
                    "dish",
                    "",
                    problem!("not-said"),
                    expected!("dish-column"),
                ));
            }
        };
        let cook = get(Field::Cook)
            .filter(|text| !text.is_empty())
            .map(|text| Cook::new("cook", text))
            .transpose()?;
        let since = versions.partition_point(|version| version.since <= time);
        let on_record = versions.get(since.saturating_sub(1));
        let said = get(Field::Target)
            .filter(|text| !text.is_empty())
            .map(|text| self::mass("target", &decimal(text, commas), defaults.unit))
            .transpose()?;
        let goal = match (said, on_record, defaults.target) {
            (Some(target), Some(dish), _) if dish.goal.target() != target => {
                goal(target, dish.goal.tolerance())?
            }
            (_, Some(dish), _) => dish.goal,
            (Some(target), None, _) | (None, None, Some(target)) => {
                goal(target, defaults.tolerance)?
            }
            (None, None, None) => {
                return Err(InputError::new(
                    "target",
                    dish.as_str(),
                    problem!("dish-not-on-record"),
                    expected!("target-column"),
                ));
            }
        };
        near_target(mass, goal, written)?;
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
}

/// Names of dishes as they were written, with their versions on record.
#[derive(Debug, Default)]
struct Spellings<'d>(HashMap<String, (DishName, &'d [Dish])>);

impl<'d> Spellings<'d> {
    fn named(
        &mut self,
        text: &str,
        known: &'d HashMap<String, Vec<Dish>>,
    ) -> Result<(DishName, &'d [Dish]), InputError> {
        if let Some(spelled) = self.0.get(text) {
            return Ok(spelled.clone());
        }
        let name = DishName::new("dish", text)?;
        let versions = known
            .get(&name.key())
            .map(Vec::as_slice)
            .unwrap_or_default();
        if self.0.len() >= SPELLINGS {
            self.0.clear();
        }
        self.0.insert(text.to_owned(), (name.clone(), versions));
        Ok((name, versions))
    }
}

impl<R: Read> Iterator for Weighings<'_, R> {
    type Item = Result<Line, FileError>;

    fn next(&mut self) -> Option<Self::Item> {
        loop {
            match self.lines.next() {
                Err(error) => return Some(Err(error.into())),
                Ok(false) => return None,
                Ok(true) if self.lines.line.is_empty() && !self.lines.too_long => {}
                Ok(true) => return Some(Ok(self.read_line())),
            }
        }
    }
}

/// The longest line that is read: a row of a table is far shorter.
pub const LONGEST_LINE: usize = 1 << 20;

/// The lines of a file, one at a time, whatever ends them: LF, CR LF or CR.
#[derive(Debug)]
struct Lines<R> {
    file: BufReader<R>,
    /// What it says; nothing of one that is too long.
    line: Vec<u8>,
    too_long: bool,
    /// Which line, from 1.
    number: u64,
    after_return: bool,
}

impl<R: Read> Lines<R> {
    fn of(file: R) -> Self {
        Self {
            file: BufReader::with_capacity(1 << 16, file),
            line: Vec::new(),
            too_long: false,
            number: 0,
            after_return: false,
        }
    }

    /// Reads the next line; `false` where there is none.
    fn next(&mut self) -> std::io::Result<bool> {
        self.line.clear();
        self.too_long = false;
        let mut began = false;
        loop {
            let mut bytes = self.file.fill_buf()?;
            if bytes.is_empty() {
                self.number += u64::from(began);
                return Ok(began);
            }
            // The second half of a CR LF.
            if self.after_return {
                self.after_return = false;
                if bytes.first() == Some(&b'\n') {
                    self.file.consume(1);
                    continue;
                }
            }
            began = true;
            let ends = bytes.iter().position(|byte| matches!(byte, b'\n' | b'\r'));
            if let Some(end) = ends {
                self.after_return = bytes.get(end) == Some(&b'\r');
                bytes = bytes.get(..end).unwrap_or_default();
            }
            let read = bytes.len() + usize::from(ends.is_some());
            if self.line.len() + bytes.len() > LONGEST_LINE {
                self.too_long = true;
                self.line.clear();
            } else if !self.too_long {
                self.line.extend_from_slice(bytes);
            }
            self.file.consume(read);
            if ends.is_some() {
                self.number += 1;
                return Ok(true);
            }
        }
    }
}

/// Why a line is no row of the table, where it is none.
fn misshapen(
    line: &[u8],
    separator: Separator,
    record: &csv::StringRecord,
    headings: usize,
) -> Option<BadReason> {
    if is_open(line, separator) {
        return Some(BadReason::NeverClosed);
    }
    let values = record.len();
    if values > headings {
        return Some(BadReason::TooManyValues { values, headings });
    }
    None
}

/// Whether a value begins with a quotation mark that the line does not close; a
/// mark within such a value is doubled (RFC 4180, read).
fn is_open(line: &[u8], separator: Separator) -> bool {
    let (mut open, mut at_start, mut just_closed) = (false, true, false);
    for byte in line {
        let closed = just_closed;
        just_closed = false;
        match byte {
            b'"' if open => (open, just_closed) = (false, true),
            b'"' if at_start || closed => open = true,
            _ => {}
        }
        at_start = !open && *byte == separator.byte();
    }
    open
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
        problem!(
            "far-from-target",
            times = format!("{times:.3}"),
            target = goal.target().grams()
        ),
        expected!("reach-of-target", times = FAR),
    ))
}

fn goal_reason(error: GoalError) -> Reason {
    match error {
        GoalError::TargetNotPositive => problem!("target-not-positive"),
        GoalError::ToleranceNegative => problem!("tolerance-negative"),
        GoalError::ToleranceSwallowsTarget => problem!("tolerance-swallows"),
        _ => problem!("beyond-scale"),
    }
}

fn goal(target: Mass, tolerance: Tolerance) -> Result<Goal, InputError> {
    Goal::new(target, tolerance).map_err(|error| {
        InputError::new(
            "target",
            &format!("{} g", target.grams()),
            goal_reason(error),
            expected!("target-and-tolerance"),
        )
    })
}

fn mass(field: &str, text: &str, unit: MassUnit) -> Result<Mass, InputError> {
    let mass = if text.ends_with(|c: char| c.is_ascii_digit() || c == '.') {
        parse_mass(field, &format!("{text}{unit}")).map_err(|error| {
            InputError::new(
                field,
                text,
                error.problem().clone(),
                error.expected().clone(),
            )
        })?
    } else {
        parse_mass(field, text)?
    };
    let wrong = |problem: Reason| InputError::new(field, text, problem, expected!("portion-mass"));
    if mass <= Mass::ZERO {
        return Err(wrong(problem!("not-above-zero")));
    }
    if mass > HEAVIEST {
        return Err(wrong(problem!("above-100-kg")));
    }
    Ok(mass)
}

fn time(text: &str, defaults: &Defaults) -> Result<Timestamp, InputError> {
    let wrong = |problem: Reason| InputError::new("time", text, problem, expected!("local-time"));
    // A date alone would be read as midnight, when nobody weighed anything.
    if text.len() <= "2026-05-01".len() {
        return Err(wrong(problem!("no-date-with-time")));
    }
    let offset = Pieces::parse(text)
        .ok()
        .and_then(|pieces| pieces.to_numeric_offset());
    if offset.is_some_and(|offset| offset.seconds().abs() > FURTHEST_OFFSET) {
        return Err(wrong(problem!("no-such-offset")));
    }
    // A zone in brackets counts only where it is known, and fits the offset; without one, a
    // time that came twice or never is refused as it is below.
    if text.contains('[') {
        return DateTimeParser::new()
            .disambiguation(Disambiguation::Reject)
            .parse_zoned_datetime(text)
            .map_err(|_| wrong(problem!("zone-unknown")))
            .and_then(|zoned| believable(zoned.timestamp(), defaults, wrong));
    }
    let time = match text.parse::<Timestamp>() {
        Ok(time) => time,
        Err(_) => {
            let local: DateTime = text
                .parse()
                .map_err(|_| wrong(problem!("no-date-with-time")))?;
            let ambiguous = defaults.zone.to_ambiguous_timestamp(local);
            if matches!(ambiguous.offset(), AmbiguousOffset::Gap { .. }) {
                return Err(wrong(problem!("skipped-here")));
            }
            if matches!(ambiguous.offset(), AmbiguousOffset::Fold { .. }) {
                return Err(wrong(problem!("came-twice")));
            }
            ambiguous
                .compatible()
                .map_err(|_| wrong(problem!("beyond-calendar")))?
        }
    };
    believable(time, defaults, wrong)
}

/// No clock is further from Coordinated Universal Time: 14 hours, at the Line Islands (IANA
/// time zone database, from memory).
const FURTHEST_OFFSET: i32 = 14 * 3600;

fn believable(
    time: Timestamp,
    defaults: &Defaults,
    wrong: impl Fn(Reason) -> InputError,
) -> Result<Timestamp, InputError> {
    if time > defaults.now {
        return Err(wrong(problem!("in-future")));
    }
    if time.as_second() < EARLIEST {
        return Err(wrong(problem!("before-2000")));
    }
    Ok(time)
}

#[cfg(test)]
mod tests {
    use super::*;

    const MAP: &str = "time=When,mass=Weight,dish=What,target=Aim";

    /// What a table holds.
    #[derive(Debug)]
    struct Held {
        weighings: Vec<Weighing>,
        /// The line of each.
        lines: Vec<u64>,
        bad: Vec<BadLine>,
        separator: Separator,
        byte_order_mark: bool,
        decimal_commas: usize,
    }

    fn read_in(zone: &str, table: &[u8]) -> Held {
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
        let none = HashMap::new();
        let mut read = Weighings::open(table, &columns, &defaults, &none).unwrap();
        let (mut weighings, mut lines, mut bad) = (Vec::new(), Vec::new(), Vec::new());
        for line in &mut read {
            match line.unwrap() {
                Line::Weighing(line, weighing) => {
                    weighings.push(weighing);
                    lines.push(line);
                }
                Line::Bad(line) => bad.push(line),
            }
        }
        Held {
            weighings,
            lines,
            bad,
            separator: read.separator,
            byte_order_mark: read.byte_order_mark,
            decimal_commas: read.decimal_commas,
        }
    }

    fn refused(row: &str) -> String {
        let table = format!("When,Weight,What,Aim\n{row}\n2026-05-01 18:31,30,Gnudi,30\n");
        let held = read_in("Europe/Paris", table.as_bytes());
        let [bad] = &held.bad[..] else {
            panic!("{row}: {held:?}")
        };
        assert_eq!(bad.line, 2, "{row}");
        bad.reason.to_string()
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
            (
                "2025-10-26T02:30:00[Europe/Paris],30,Gnudi,30",
                "came twice or never that night",
            ),
            (
                "2026-03-29T02:30:00[Europe/Paris],30,Gnudi,30",
                "came twice or never that night",
            ),
            (
                "2026-05-01T18:30:00+25:00,30,Gnudi,30",
                "has an offset that no clock has",
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
        assert_eq!(held.lines, [3, 4]);
        assert_eq!(held.bad.len(), 1);
        assert_eq!(held.bad[0].line, 2);
        assert!(
            held.bad[0].reason.to_string().contains("never closed"),
            "{}",
            held.bad[0].reason
        );
    }

    #[test]
    fn a_mark_that_closes_nothing_is_a_letter() {
        for (line, open) in [
            ("\"a\",b", false),
            ("\"a \"\"b\"\"\",c", false),
            ("5\" tart,30", false),
            ("a,\"b", true),
            ("\"a\"\",b", true),
        ] {
            assert_eq!(is_open(line.as_bytes(), Separator::Comma), open, "{line}");
        }
    }

    #[test]
    fn lines_are_numbered_whatever_ends_them_and_a_long_one_is_refused_alone() {
        for end in ["\n", "\r\n", "\r"] {
            let long = "x".repeat(LONGEST_LINE + 1);
            let table = [
                "When,Weight,What,Aim",
                "2026-05-01 18:30,30,Gnudi,30",
                "",
                &long,
                "2026-05-01 18:31,30,Gnudi,30",
            ]
            .join(end);
            let held = read_in("UTC", table.as_bytes());
            assert_eq!(held.lines, [2, 5], "{end:?}");
            assert_eq!(held.bad.len(), 1, "{end:?}");
            assert_eq!(held.bad[0].line, 4);
            assert!(held.bad[0].reason.to_string().len() < 200, "{end:?}");
        }
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
}
