//! How a spreadsheet wrote a table: what stands between its values, decimal commas, and a
//! byte order mark. A kitchen whose numbers have decimal commas has semicolons between values.

use crate::units::InputError;
use crate::units::Reason;
use std::borrow::Cow;
use std::io::Cursor;

/// UTF-8's byte order mark, which spreadsheets put before the first heading.
pub(crate) const BYTE_ORDER_MARK: &[u8] = b"\xef\xbb\xbf";

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

    pub(crate) const fn byte(self) -> u8 {
        match self {
            Self::Comma => b',',
            Self::Semicolon => b';',
            Self::Tab => b'\t',
        }
    }

    /// Whether a comma within a value may be a decimal one.
    pub(crate) fn leaves_commas(self) -> bool {
        self != Self::Comma
    }

    /// The separator that makes all the headings named out of the first line; a
    /// comma where none does.
    pub(crate) fn of_headings<'n>(
        first: &[u8],
        named: impl Iterator<Item = &'n str> + Clone,
    ) -> Self {
        let mut headings = csv::StringRecord::new();
        Self::ALL
            .into_iter()
            .find(|separator| {
                split(first, *separator, &mut headings).is_ok()
                    && named
                        .clone()
                        .all(|named| headings.iter().any(|heading| heading == named))
            })
            .unwrap_or_default()
    }
}

/// How a table was read.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct ReadAs {
    /// What stood between its values.
    pub separator: Separator,
    /// Whether a byte order mark stood before it.
    pub byte_order_mark: bool,
    /// How many numbers had a decimal comma.
    pub decimal_commas: usize,
}

impl ReadAs {
    /// How a table with these headings is to be read, and the table without its
    /// byte order mark, each line ended in one way, so that lines are counted
    /// as one sees them.
    fn of(table: &str, headings: &[&str]) -> (Self, String) {
        let marked = table.as_bytes().starts_with(BYTE_ORDER_MARK);
        let table = table
            .trim_start_matches('\u{feff}')
            .replace("\r\n", "\n")
            .replace('\r', "\n");
        let first = table.lines().next().unwrap_or_default();
        let read_as = Self {
            separator: Separator::of_headings(first.as_bytes(), headings.iter().copied()),
            byte_order_mark: marked,
            decimal_commas: 0,
        };
        (read_as, table)
    }

    /// A number as it is read everywhere, its decimal comma counted.
    pub(crate) fn number<'t>(&mut self, text: &'t str) -> Cow<'t, str> {
        let commas = self.separator.leaves_commas();
        self.decimal_commas += usize::from(commas && has_decimal_comma(text));
        decimal(text, commas)
    }

    /// As [`ReadAs::number`], of words of which several may be numbers.
    pub(crate) fn numbers(&mut self, text: &str) -> String {
        let words: Vec<Cow<'_, str>> = text.split(' ').map(|word| self.number(word)).collect();
        words.join(" ")
    }
}

/// What a table is of, as its errors name it.
pub(crate) struct TableOf {
    /// The field: `menu`.
    pub(crate) field: &'static str,
    /// That it is longer than one is.
    pub(crate) longer: Reason,
    /// That its headings are others.
    pub(crate) headings: Reason,
    /// More bytes than this are none.
    pub(crate) longest: usize,
}

/// Opens a table: how it is read, and the rows below its headings. `rows` says how strict
/// they are; the separator is put in.
///
/// # Errors
/// One that is too long, and one with other headings.
pub(crate) fn open(
    table: &str,
    headings: &[&str],
    of: &TableOf,
    rows: &mut csv::ReaderBuilder,
) -> Result<(ReadAs, csv::Reader<Cursor<String>>), InputError> {
    if table.len() > of.longest {
        return Err(InputError::new(
            of.field,
            &format!("{} bytes", table.len()),
            of.longer.clone(),
            expected!("most-bytes", most = of.longest),
        ));
    }
    let (read_as, table) = ReadAs::of(table, headings);
    let mut reader = rows
        .delimiter(read_as.separator.byte())
        .from_reader(Cursor::new(table));
    let found = reader.headers().cloned().unwrap_or_default();
    if !has_headings(&found, headings) {
        let found: String = found.iter().collect::<Vec<_>>().join(",");
        return Err(InputError::new(
            "line 1",
            &found,
            of.headings.clone(),
            expected!("headings", names = headings.join(",")),
        ));
    }
    Ok((read_as, reader))
}

/// Whether a row's values are the headings; a spreadsheet may put empty ones after them.
fn has_headings(found: &csv::StringRecord, headings: &[&str]) -> bool {
    let mut found: Vec<&str> = found.iter().map(str::trim).collect();
    while found.len() > headings.len() && found.last() == Some(&"") {
        found.pop();
    }
    found == headings
}

/// Splits a line into its values.
pub(crate) fn split(
    line: &[u8],
    separator: Separator,
    into: &mut csv::StringRecord,
) -> csv::Result<()> {
    // Where nothing is quoted the separators alone tell.
    if !line.contains(&b'"')
        && let Ok(text) = std::str::from_utf8(line)
    {
        into.clear();
        for value in text.split(char::from(separator.byte())) {
            into.push_field(value.trim());
        }
        return Ok(());
    }
    let mut reader = csv::ReaderBuilder::new()
        .delimiter(separator.byte())
        .has_headers(false)
        .trim(csv::Trim::All)
        .buffer_capacity(line.len().max(1))
        .from_reader(line);
    into.clear();
    reader.read_record(into)?;
    Ok(())
}

/// A number with a point in it, where a comma may stand for one.
pub(crate) fn decimal(text: &str, commas: bool) -> Cow<'_, str> {
    if commas && has_decimal_comma(text) {
        text.replace(',', ".").into()
    } else {
        text.into()
    }
}

/// Whether a number has one comma, after digits and before digits, and no point.
pub(crate) fn has_decimal_comma(text: &str) -> bool {
    let Some((before, after)) = text.split_once(',') else {
        return false;
    };
    before.ends_with(|c: char| c.is_ascii_digit())
        && after.starts_with(|c: char| c.is_ascii_digit())
        && !after.contains(',')
        && !text.contains('.')
}
