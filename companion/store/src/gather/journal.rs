//! A journal: the lines that one desktop tells the others, in a file of its own.
//!
//! Each line is the CRC-32C of its text in eight hexadecimal digits, a space, the text, which
//! is JSON, and a line feed. The first says what the file is. Lines are only ever put at the
//! end. A line whose end is not there yet, or whose checksum is not its own, is left for the
//! next time with all after it.

use crc::{CRC_32_ISCSI, Crc, Table};
use std::fs::{File, OpenOptions};
use std::io::{self, BufRead, BufReader, Read, Seek, SeekFrom, Write};
use std::path::Path;

const CRC: Crc<u32, Table<16>> = Crc::<u32, Table<16>>::new(&CRC_32_ISCSI);

/// What a journal's file is called behind its desktop and its own number.
pub(super) const ENDING: &str = "evenhand-journal";
/// The version of the lines that this program writes and reads.
pub(super) const FORMAT: i64 = 1;
/// The longest line read: a picture in hexadecimal digits is well below.
const LONGEST: u64 = 64 << 20;

/// Where a reading of a journal stopped.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct Place {
    /// How many bytes were read.
    pub(super) bytes: u64,
    /// Where the last line read begins.
    pub(super) last: u64,
    /// The checksum of that line as it is written.
    pub(super) check: String,
}

/// One line of a journal.
pub(super) struct Line {
    pub(super) text: String,
    /// The place behind it.
    pub(super) behind: Place,
}

/// What a reading found at the end.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum End {
    /// All of the file was read.
    Whole,
    /// What follows is not whole.
    Torn,
}

/// Reads the lines of a journal from a place on.
pub(super) struct Reading {
    file: BufReader<File>,
    at: Place,
    pub(super) end: End,
}

impl Reading {
    /// Opens a journal at a place. One that is not as it was there is read from its beginning.
    pub(super) fn open(path: &Path, from: &Place) -> io::Result<Self> {
        let file = File::open(path)?;
        let mut reading = Self {
            file: BufReader::new(file),
            at: Place::default(),
            end: End::Whole,
        };
        if from.bytes > from.last {
            reading.file.seek(SeekFrom::Start(from.last))?;
            reading.at.bytes = from.last;
            let same = reading.next()?.is_some_and(|line| line.behind == *from);
            if !same {
                reading.file.seek(SeekFrom::Start(0))?;
                reading.at = Place::default();
                reading.end = End::Whole;
            }
        }
        Ok(reading)
    }

    /// Whether it begins at the file's beginning.
    pub(super) fn is_at_start(&self) -> bool {
        self.at.bytes == 0
    }

    /// The next whole line; `None` at the end, or where what follows is not whole.
    pub(super) fn next(&mut self) -> io::Result<Option<Line>> {
        let mut bytes = Vec::new();
        self.file
            .by_ref()
            .take(LONGEST)
            .read_until(b'\n', &mut bytes)?;
        if bytes.is_empty() {
            return Ok(None);
        }
        let Some((check, text)) = parted(&bytes) else {
            self.end = End::Torn;
            return Ok(None);
        };
        let place = Place {
            bytes: self.at.bytes + bytes.len() as u64,
            last: self.at.bytes,
            check,
        };
        self.at = place.clone();
        Ok(Some(Line {
            text,
            behind: place,
        }))
    }
}

/// The checksum and the text of a line, where the one is that of the other.
fn parted(bytes: &[u8]) -> Option<(String, String)> {
    let line = std::str::from_utf8(bytes).ok()?.strip_suffix('\n')?;
    let (check, text) = line.split_once(' ')?;
    (check == check_of(text)).then(|| (check.to_owned(), text.to_owned()))
}

fn check_of(text: &str) -> String {
    format!("{:08x}", CRC.checksum(text.as_bytes()))
}

/// Puts lines at the end of a journal, on the disk when it returns, and tells the place
/// behind the last.
pub(super) fn append(path: &Path, from: &Place, lines: &[String]) -> io::Result<Place> {
    let mut text = Vec::new();
    let mut place = from.clone();
    for line in lines {
        let check = check_of(line);
        place.last = from.bytes + text.len() as u64;
        writeln!(text, "{check} {line}")?;
        place.check = check;
    }
    place.bytes = from.bytes + text.len() as u64;
    let mut options = OpenOptions::new();
    options.append(true).create(true);
    let mut file = options.open(path)?;
    file.write_all(&text)?;
    file.sync_all()?;
    Ok(place)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(path: &Path, from: &Place) -> (Vec<String>, Place, End) {
        let mut reading = Reading::open(path, from).unwrap();
        let mut lines = Vec::new();
        let mut place = from.clone();
        while let Some(line) = reading.next().unwrap() {
            lines.push(line.text);
            place = line.behind;
        }
        (lines, place, reading.end)
    }

    /// The check value of CRC-32C for "123456789", e3069283, is that of the catalogue of
    /// parametrised CRC algorithms (reveng.sourceforge.io), from memory.
    #[test]
    fn the_checksum_is_crc_32c() {
        assert_eq!(check_of("123456789"), "e3069283");
    }

    #[test]
    fn every_cut_leaves_the_rest_for_later() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("one");
        let lines = ["{\"a\":1}".to_owned(), "{\"b\":\"é\"}".to_owned()];
        append(&path, &Place::default(), &lines).unwrap();
        let whole = std::fs::read(&path).unwrap();
        for cut in 0..=whole.len() {
            std::fs::write(&path, &whole[..cut]).unwrap();
            let (first, place, end) = read(&path, &Place::default());
            let ends_at_line = place.bytes == cut as u64;
            assert_eq!(end == End::Whole, ends_at_line, "{cut}");
            std::fs::write(&path, &whole).unwrap();
            let (rest, _, end) = read(&path, &place);
            assert_eq!([first, rest].concat(), lines, "{cut}");
            assert_eq!(end, End::Whole);
        }
    }

    #[test]
    fn a_journal_that_is_another_than_it_was_is_read_again() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("one");
        let place = append(&path, &Place::default(), &["1".to_owned(), "2".to_owned()]).unwrap();
        std::fs::remove_file(&path).unwrap();
        append(&path, &Place::default(), &["3".to_owned(), "4".to_owned()]).unwrap();
        assert_eq!(read(&path, &place).0, ["3", "4"]);
    }
}
