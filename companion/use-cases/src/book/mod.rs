//! The kitchen's own book: formulas as plain files in the data folder, the doughs
//! that were mixed to them, and pictures of what they make.
//!
//! A formula is a file of its own, so that the folder can be copied, edited by
//! hand and kept under version control. A file that makes no sense is named
//! wherever the book is read; it never hides the others.

mod folder;
mod page;
mod pictures;
mod words;

use crate::plain_files;
use evenhand_kitchen::batch::{BatchId, Entry, What};
use evenhand_kitchen::book::{Size, StagedFormula};
use evenhand_kitchen::dough::{Going, MixedDough, Rise, WaterFor, water_by_rule};
use evenhand_kitchen::units::InputError;
use evenhand_kitchen::written_table::ReadAs;
use evenhand_kitchen::{expected, problem};
use evenhand_protocol::Temperature;
use evenhand_store::{Store, StoreError};
use jiff::Timestamp;
use std::io::{self, Write as _};
use std::path::{Path, PathBuf};

pub(crate) use folder::in_either_form as files_in_either_form;
pub use folder::{
    Against, BookRead, FileOfBook, FolderError, Form, FormulaRead, GoodsRead, MenuRead,
    PicturesRead, TwiceWritten, book_as_files, read_book,
};
pub use page::{
    PageRefused, StepClock, TakeOver, TakeOverQuestion, Watch, page_pdf, page_words, picture_words,
};
pub use pictures::{
    LONGEST_SIDE, PictureError, Ready, add_picture, dimensions, pictures_of, read_picture, ready,
};
pub use words::{
    book_error_words, book_refused_words, rose_words, trials_words, water_words, weighing_words,
};

/// The folder of formulas in the data folder.
pub const FOLDER: &str = "formulas";
/// What formulas' files end in.
const ENDING: &str = "toml";

/// Why the book does not answer.
#[derive(Debug, thiserror::Error)]
pub enum BookError {
    /// The folder or a file cannot be read.
    #[error("{path} cannot be read: {error}")]
    Unreadable {
        /// Which.
        path: PathBuf,
        /// Why.
        error: io::Error,
    },
    /// A file makes no sense.
    #[error("{path}: {error}")]
    Refused {
        /// Which.
        path: PathBuf,
        /// What is wrong with it.
        error: InputError,
    },
    /// Two files are of one name.
    #[error("{first} and {second} are both called {name:?}; rename one of the two")]
    Twice {
        /// The name.
        name: String,
        /// One file.
        first: PathBuf,
        /// The other.
        second: PathBuf,
    },
    /// No formula has that name.
    #[error(
        "formula: {name:?} is not in the book; {}{}",
        in_the_book(there),
        not_understood(broken)
    )]
    NotThere {
        /// What was asked for.
        name: String,
        /// What there is.
        there: Vec<String>,
        /// Files that could not be read, one of which it may be.
        broken: Vec<BookError>,
    },
    /// A formula of that name is there already.
    #[error("{name:?} is in the book already, as {path}")]
    There {
        /// The name.
        name: String,
        /// Its file.
        path: PathBuf,
    },
    /// A file cannot be written.
    #[error("{path} cannot be written: {error}; nothing was changed")]
    Unwritable {
        /// Which.
        path: PathBuf,
        /// Why.
        error: io::Error,
    },
    /// The record does not answer.
    #[error(transparent)]
    Store(#[from] StoreError),
    /// What was asked cannot be answered.
    #[error(transparent)]
    Input(#[from] InputError),
}

/// One file of the book.
#[derive(Debug)]
pub struct Page {
    /// The file.
    pub path: PathBuf,
    /// The formula in it, or why there is none.
    pub formula: Result<StagedFormula, BookError>,
}

/// The plain files of a folder that end in one of these, in no order; none where it is not
/// there.
fn files_in(folder: &Path, endings: &[&str]) -> Result<Vec<PathBuf>, BookError> {
    plain_files::in_folder(folder, endings).map_err(|error| BookError::Unreadable {
        path: folder.to_owned(),
        error,
    })
}

/// Every file of the book, by name. Empty where there is no book yet.
///
/// # Errors
/// The folder is there and cannot be read.
pub fn pages(data: &Path) -> Result<Vec<Page>, BookError> {
    let mut paths = files_in(&data.join(FOLDER), &[ENDING])?;
    paths.sort();
    Ok(paths
        .into_iter()
        .map(|path| Page {
            formula: read(&path),
            path,
        })
        .collect())
}

/// The formula in a file: a table where its name ends in `.csv`, else TOML.
///
/// # Errors
/// It cannot be read, or makes no sense.
pub fn read(path: &Path) -> Result<StagedFormula, BookError> {
    read_as(path).map(|(formula, _)| formula)
}

/// As [`read`], with how a table was read.
///
/// # Errors
/// As for [`read`].
pub fn read_as(path: &Path) -> Result<(StagedFormula, Option<ReadAs>), BookError> {
    let text = text_of(path)?;
    let table = path
        .extension()
        .is_some_and(|ending| ending.eq_ignore_ascii_case("csv"));
    let read = if table {
        StagedFormula::from_csv_as(&text).map(|(formula, read_as)| (formula, Some(read_as)))
    } else {
        StagedFormula::from_toml(&text).map(|formula| (formula, None))
    };
    read.map_err(|error| BookError::Refused {
        path: path.to_owned(),
        error,
    })
}

/// The text in a file.
fn text_of(path: &Path) -> Result<String, BookError> {
    let bytes = std::fs::read(path).map_err(|error| BookError::Unreadable {
        path: path.to_owned(),
        error,
    })?;
    let marked = bytes.starts_with(&[0xff, 0xfe]) || bytes.starts_with(&[0xfe, 0xff]);
    String::from_utf8(bytes).map_err(|_| BookError::Refused {
        path: path.to_owned(),
        error: InputError::new(
            "the file",
            if marked { "UTF-16" } else { "" },
            problem!("no-utf-8"),
            expected!("as-utf-8"),
        ),
    })
}

/// The formula of that name, in any case.
///
/// # Errors
/// There is none, or two; the folder cannot be read. Files that make no sense
/// are named where it may be one of them.
pub fn find(data: &Path, name: &str) -> Result<StagedFormula, BookError> {
    find_with_file(data, name).map(|(_, formula)| formula)
}

fn find_with_file(data: &Path, name: &str) -> Result<(PathBuf, StagedFormula), BookError> {
    let wanted = name.trim().to_lowercase();
    let mut found: Option<(PathBuf, StagedFormula)> = None;
    let mut names = Vec::new();
    let mut broken = Vec::new();
    for page in pages(data)? {
        match page.formula {
            Ok(formula) if formula.name().to_lowercase() == wanted => {
                if let Some((first, _)) = found {
                    return Err(BookError::Twice {
                        name: formula.name().to_owned(),
                        first,
                        second: page.path,
                    });
                }
                found = Some((page.path, formula));
            }
            Ok(formula) => names.push(formula.name().to_owned()),
            Err(error) => broken.push(error),
        }
    }
    found.ok_or_else(|| BookError::NotThere {
        name: name.trim().to_owned(),
        there: names,
        broken,
    })
}

/// For logs, as is all of an error's own text.
fn in_the_book(names: &[String]) -> String {
    if names.is_empty() {
        "there is none yet".to_owned()
    } else {
        format!("it has {}", names.join(", "))
    }
}

fn not_understood(broken: &[BookError]) -> String {
    broken
        .iter()
        .map(|error| format!("; not understood: {error}"))
        .collect()
}

/// The folder beside the book's files that they lie in once they were taken out of the book.
const TAKEN_OUT: &str = "taken-out";

/// Takes the formula of that name, in any case, out of the book. Its file is not deleted: it
/// is moved as it is, and where it lies then is returned.
///
/// # Errors
/// As for [`find`], and a file that cannot be moved; the book is then as it was.
pub fn take_out(data: &Path, name: &str) -> Result<PathBuf, BookError> {
    let (from, formula) = find_with_file(data, name)?;
    let folder = data.join(FOLDER).join(TAKEN_OUT);
    let unwritable = |error| BookError::Unwritable {
        path: folder.clone(),
        error,
    };
    std::fs::create_dir_all(&folder).map_err(unwritable)?;
    let stem = stem_of(formula.name());
    let mut to = folder.join(format!("{stem}.{ENDING}"));
    // What was taken out before stays.
    let mut nth = 2;
    while to.try_exists().map_err(unwritable)? {
        to = folder.join(format!("{stem}-{nth}.{ENDING}"));
        nth += 1;
    }
    std::fs::rename(&from, &to).map_err(unwritable)?;
    Ok(to)
}

/// The file that a formula of that name is kept in.
#[must_use]
pub fn file_of(data: &Path, name: &str) -> PathBuf {
    data.join(FOLDER)
        .join(format!("{}.{ENDING}", stem_of(name)))
}

/// A name as a file's: letters and digits of it, no path.
pub(crate) fn stem_of(name: &str) -> String {
    let mut stem = String::new();
    for character in name.to_lowercase().chars() {
        if character.is_alphanumeric() {
            stem.push(character);
        } else if !stem.ends_with('-') && !stem.is_empty() {
            stem.push('-');
        }
    }
    match stem.trim_end_matches('-') {
        "" => String::from("formula"),
        stem => stem.to_owned(),
    }
}

/// The file of the book that has a formula's name, where it is another than
/// the one that the formula is kept in: two of one name are never both right.
///
/// # Errors
/// The folder is there and cannot be read.
pub fn another_of_that_name(data: &Path, name: &str) -> Result<Option<PathBuf>, BookError> {
    let path = file_of(data, name);
    Ok(pages(data)?
        .into_iter()
        .find(|page| {
            page.path != path
                && page
                    .formula
                    .as_ref()
                    .is_ok_and(|there| there.name().to_lowercase() == name.to_lowercase())
        })
        .map(|page| page.path))
}

/// Writes a formula into the book, whole or not at all; over the one of its
/// name only where `over` says so. Returns its file.
///
/// # Errors
/// One of that name is there, or the file cannot be written.
pub fn keep(data: &Path, formula: &StagedFormula, over: bool) -> Result<PathBuf, BookError> {
    let name = formula.name().to_owned();
    if let Some(path) = another_of_that_name(data, &name)? {
        return Err(BookError::There { name, path });
    }
    let path = file_of(data, &name);
    let text = formula.to_toml()?;
    let unwritable = |error| BookError::Unwritable {
        path: path.clone(),
        error,
    };
    let folder = data.join(FOLDER);
    std::fs::create_dir_all(&folder).map_err(unwritable)?;
    let mut builder = tempfile::Builder::new();
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        // As any new file: what the user's mask leaves of it.
        builder.permissions(std::fs::Permissions::from_mode(0o666));
    }
    let mut file = builder
        .prefix(".evenhand-")
        .tempfile_in(&folder)
        .map_err(unwritable)?;
    file.write_all(text.as_bytes()).map_err(unwritable)?;
    file.as_file().sync_all().map_err(unwritable)?;
    if over {
        file.persist(&path)
            .map_err(|error| unwritable(error.error))?;
    } else {
        file.persist_noclobber(&path).map_err(|error| {
            if error.error.kind() == io::ErrorKind::AlreadyExists {
                BookError::There {
                    name,
                    path: path.clone(),
                }
            } else {
                unwritable(error.error)
            }
        })?;
    }
    Ok(path)
}

/// Puts a dough that was measured on record: as a line of a batch, or of a new
/// one that is titled by its formula.
///
/// # Errors
/// The record does not answer; there is no such batch.
pub fn put_mixed(
    store: &mut Store,
    batch: Option<BatchId>,
    formula: &str,
    dough: MixedDough,
    at: Timestamp,
) -> Result<BatchId, StoreError> {
    let id = match batch {
        Some(id) => id,
        None => {
            let id = store.begin_batch(at)?;
            let title = formula.to_owned();
            let what = What::Titled { title };
            store.add_to_batch(id, &Entry { at, what })?;
            id
        }
    };
    let what = What::DoughMixed { dough };
    store.add_to_batch(id, &Entry { at, what })?;
    Ok(id)
}

/// The doughs that were measured under a title, the earliest first.
///
/// # Errors
/// The record does not answer.
pub fn doughs(store: &Store, title: &str) -> Result<Vec<MixedDough>, StoreError> {
    let mut batches = store.batches_titled(title)?;
    batches.sort_by_key(|(id, batch)| (batch.begun(), id.0));
    Ok(batches
        .into_iter()
        .filter_map(|(_, batch)| batch.dough())
        .collect())
}

/// What is known of a dough before it is mixed.
#[derive(Debug, Clone)]
pub struct DoughToMix {
    /// How much of it.
    pub size: Size,
    /// How warm the flour is.
    pub flour_at: Temperature,
    /// How warm what was made beforehand is.
    pub before_at: Option<Temperature>,
    /// How warm the dough is to be; as the formula says, where it is `None`.
    pub wanted: Option<Temperature>,
    /// The coldest water at hand.
    pub coldest: Temperature,
    /// The room and the friction that somebody reckons with, in kelvin, for
    /// the trade's arithmetic where no dough was measured yet.
    pub by_rule: Option<(Temperature, f64)>,
}

/// The water for a dough, and what that was found by.
#[derive(Debug, Clone)]
pub enum DoughWater {
    /// By the balance of heat and the kitchen's own doughs.
    Balanced {
        /// The water.
        water: WaterFor,
        /// What mixing and the room add.
        rise: Rise,
    },
    /// By the trade's arithmetic and a friction that somebody said.
    ByRule {
        /// How warm the water is to be. Below 0 °C it is ice that is needed,
        /// and how much is not known.
        at: Temperature,
    },
    /// Nothing was measured and nobody said a friction.
    NotKnownYet,
}

/// What goes into a dough's last bowl at a size.
///
/// # Errors
/// The size or the temperatures make no sense.
pub fn going(formula: &StagedFormula, dough: &DoughToMix) -> Result<Going, InputError> {
    let base = formula.base_at(&dough.size)?;
    Going::of(formula, base, dough.flour_at, dough.before_at)
}

/// The water that makes a dough as warm as wanted.
///
/// # Errors
/// Nobody said how warm; a size or temperatures that make no sense.
pub fn water(
    formula: &StagedFormula,
    dough: &DoughToMix,
    measured: &[MixedDough],
) -> Result<DoughWater, InputError> {
    let wanted = dough.wanted.or(formula.ends_at()).ok_or_else(|| {
        InputError::new(
            "dough's temperature",
            "nothing",
            problem!("not-said"),
            expected!("dough-warmth"),
        )
    })?;
    let going = going(formula, dough)?;
    if let Some(rise) = Rise::of(measured) {
        return Ok(DoughWater::Balanced {
            water: going.water_for(wanted, rise.kelvin, dough.coldest)?,
            rise,
        });
    }
    let Some((room, friction)) = dough.by_rule else {
        return Ok(DoughWater::NotKnownYet);
    };
    let known: Vec<Temperature> = [Some(dough.flour_at), Some(room), dough.before_at]
        .into_iter()
        .flatten()
        .collect();
    water_by_rule(wanted, &known, friction).map(|at| DoughWater::ByRule { at })
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    const LOAF: &str = "name = 'tideline loaf'\n[[base]]\nname = 'flour'\npercent = 100\n\
                        [[other]]\nname = 'water'\npercent = 70\n";

    #[test]
    fn a_broken_file_is_named_and_hides_no_other() {
        let data = tempfile::tempdir().unwrap();
        assert_eq!(pages(data.path()).unwrap().len(), 0);
        assert!(matches!(
            find(data.path(), "loaf"),
            Err(BookError::NotThere { .. })
        ));
        let folder = data.path().join(FOLDER);
        std::fs::create_dir(&folder).unwrap();
        std::fs::write(folder.join("loaf.toml"), LOAF).unwrap();
        std::fs::write(folder.join("broken.toml"), "name = ").unwrap();
        std::fs::write(folder.join("notes.txt"), "no formula").unwrap();
        assert_eq!(
            find(data.path(), "Tideline Loaf").unwrap().name(),
            "tideline loaf"
        );
        let error = find(data.path(), "rye").unwrap_err().to_string();
        assert!(
            error.contains("tideline loaf") && error.contains("broken.toml"),
            "{error}"
        );
        // Two files of one name: which is meant is not for the program to choose.
        std::fs::write(folder.join("second.toml"), LOAF).unwrap();
        assert!(matches!(
            find(data.path(), "tideline loaf"),
            Err(BookError::Twice { .. })
        ));
    }

    #[test]
    fn what_is_taken_out_is_not_lost() {
        let data = tempfile::tempdir().unwrap();
        let folder = data.path().join(FOLDER);
        std::fs::create_dir(&folder).unwrap();
        // Under a name of its own, and with a word that only its text has.
        let text = format!("# from the old oven\n{LOAF}");
        let mut places = Vec::new();
        for _ in 0..2 {
            std::fs::write(folder.join("by-hand.toml"), &text).unwrap();
            places.push(take_out(data.path(), "Tideline LOAF").unwrap());
            assert!(matches!(
                find(data.path(), "tideline loaf"),
                Err(BookError::NotThere { .. })
            ));
            assert_eq!(pages(data.path()).unwrap().len(), 0);
        }
        assert_ne!(places[0], places[1]);
        for place in places {
            assert_eq!(std::fs::read_to_string(place).unwrap(), text);
        }
        assert!(matches!(
            take_out(data.path(), "tideline loaf"),
            Err(BookError::NotThere { .. })
        ));
    }

    #[test]
    fn a_name_never_leads_out_of_the_folder() {
        let data = Path::new("data");
        assert_eq!(
            file_of(data, "Tideline loaf"),
            data.join("formulas/tideline-loaf.toml")
        );
        assert_eq!(
            file_of(data, "../../etc/passwd"),
            data.join("formulas/etc-passwd.toml")
        );
        assert_eq!(file_of(data, "///"), data.join("formulas/formula.toml"));
        assert_eq!(
            file_of(data, "Brioche à tête"),
            data.join("formulas/brioche-à-tête.toml")
        );
    }
}
