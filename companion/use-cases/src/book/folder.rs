//! The whole book as a folder of plain files: formulas and menus, each a file of its own, in
//! an order and under names that stay, so that version control shows what changed and no more.
//!
//! ```text
//! formulas/tideline-loaf.toml     a formula, by its name
//! menus/every-day.toml            the menu for every day
//! menus/from-2026-07-01.toml      the menu for every day that is in force from that date
//! menus/only-2026-05-08.toml      the menu of that day alone
//! goods/goods.toml                what the kitchen buys; counts are the record's, not the book's
//! pictures/tideline-loaf.toml     the pictures of that name, which lie beside it
//! pictures/tideline-loaf-1.jpg    one of them
//! ```
//!
//! As tables formulas and menus end in `.csv`. A TOML file is the text as somebody wrote it,
//! comments too.

use super::pictures::{PictureError, read_picture};
use super::{BookError, ENDING, FOLDER, files_in, pages, read, stem_of, text_of};
use crate::prep::{MENUS, ONLY, menu_name};
use evenhand_kitchen::book::{PictureList, Pictured, StagedFormula, picture_key};
use evenhand_kitchen::prep::{Board, FileError, GoodsList, WrittenMenu};
use evenhand_kitchen::units::InputError;
use evenhand_kitchen::{expected, problem};
use evenhand_store::{KeptPicture, Store, StoreError};
use jiff::civil::Date;
use jiff::tz::TimeZone;
use std::collections::BTreeMap;
use std::fmt;
use std::path::{Path, PathBuf};

/// The folder of the list of goods, and what the list is called.
const GOODS: &str = "goods";
/// The folder of pictures beside them.
const PICTURES: &str = "pictures";
/// What pictures' files end in.
const IMAGES: [&str; 3] = ["jpg", "jpeg", "png"];
const TABLE: &str = "csv";

/// The form of the files.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Form {
    /// As it was written, with its comments.
    Toml,
    /// Tables for a spreadsheet.
    Csv,
}

/// Why a folder is neither written nor read. Then nothing of it is.
#[derive(Debug, thiserror::Error)]
pub enum FolderError {
    /// The book does not answer.
    #[error(transparent)]
    Book(#[from] BookError),
    /// The store does not answer.
    #[error(transparent)]
    Store(#[from] StoreError),
    /// A picture that is none, or is not there.
    #[error("{0}")]
    Picture(Box<PictureError>),
    /// A menu in TOML that makes no sense.
    #[error("{path}: {error}")]
    Menu {
        /// Which file.
        path: PathBuf,
        /// What is wrong with it.
        error: FileError,
    },
    /// A list of goods in TOML that makes no sense.
    #[error("{path}: {error}")]
    Goods {
        /// Which file.
        path: PathBuf,
        /// What is wrong with it.
        error: FileError,
    },
    /// A table, or a file's name, that makes no sense.
    #[error("{path}: {error}")]
    Refused {
        /// Which file.
        path: PathBuf,
        /// What is wrong with it.
        error: InputError,
    },
    /// Two files say different things of one.
    #[error("{first} and {second} are both {what} and differ; keep one of the two")]
    Twice {
        /// Of what.
        what: TwiceWritten,
        /// One file.
        first: PathBuf,
        /// The other.
        second: PathBuf,
    },
    /// None of the book's folders is in the folder, or nothing is in them.
    #[error(
        "{0}: no formula and no menu is in it, no list of goods and no list of pictures; they are \
         expected in its folders formulas, menus, goods and pictures, in files that end in .toml, \
         and tables in .csv"
    )]
    Empty(PathBuf),
}

/// What two files both say, and not alike.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum TwiceWritten {
    /// A formula of this name.
    Formula(String),
    /// The menu for this day.
    Menu(Date),
    /// The menu for every day, from the same date.
    DailyMenu,
    /// What the kitchen buys: there is one list of it.
    Goods,
    /// The list of the pictures of this.
    Pictures(String),
}

impl fmt::Display for TwiceWritten {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Formula(name) => write!(f, "the formula {name:?}"),
            Self::Menu(day) => write!(f, "the menu for {day}"),
            Self::DailyMenu => f.write_str("the menu for every day from the same date"),
            Self::Goods => f.write_str("the list of goods"),
            Self::Pictures(of) => write!(f, "lists of the pictures of {of:?}"),
        }
    }
}

impl From<PictureError> for FolderError {
    fn from(error: PictureError) -> Self {
        Self::Picture(Box::new(error))
    }
}

impl FolderError {
    /// Whether what was asked, or a file, is at fault.
    #[must_use]
    pub fn is_bad_input(&self) -> bool {
        match self {
            Self::Store(error) => error.is_bad_input(),
            Self::Book(BookError::Store(error)) => error.is_bad_input(),
            Self::Picture(error) => error.is_bad_input(),
            _ => true,
        }
    }
}

/// A file of the folder.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FileOfBook {
    /// Its place in the folder.
    pub place: PathBuf,
    /// What is in it: text, or a picture as JPEG.
    pub bytes: Vec<u8>,
}

/// Every formula and menu, the list of goods and every picture as files, in the order of their
/// places.
///
/// # Errors
/// [`FolderError`], naming what in the book cannot be read; what was asked is answered whole.
pub fn book_as_files(
    data: &Path,
    store: &Store,
    form: Form,
) -> Result<Vec<FileOfBook>, FolderError> {
    let mut files = Vec::new();
    let ending = match form {
        Form::Toml => ENDING,
        Form::Csv => TABLE,
    };
    for (path, formula) in formulas(data)? {
        let place = free(&files, FOLDER, &stem_of(formula.name()), ending);
        let refused = |error| BookError::Refused {
            path: path.clone(),
            error,
        };
        let text = match form {
            Form::Toml => text_of(&path)?,
            Form::Csv => formula.to_csv().map_err(refused)?,
        };
        let bytes = text.into_bytes();
        files.push(FileOfBook { place, bytes });
    }
    for (day, menu) in store.menus()? {
        let path = PathBuf::from(day.map_or_else(
            || String::from("the menu for every day"),
            |day| format!("the menu for {day}"),
        ));
        let written = read_menu(&path, &menu)?;
        let stem = menu_name(day, &written).map_err(|error| FolderError::Menu {
            path: path.clone(),
            error,
        })?;
        let text = match form {
            Form::Toml => menu,
            Form::Csv => written
                .to_csv()
                .map_err(|error| FolderError::Refused { path, error })?,
        };
        let place = free(&files, MENUS, &stem, ending);
        let bytes = text.into_bytes();
        files.push(FileOfBook { place, bytes });
    }
    if let Some(list) = store.goods()? {
        let text = match form {
            Form::Toml => list,
            Form::Csv => {
                let path = PathBuf::from("the list of goods");
                let wrong = |error| FolderError::Goods {
                    path: path.clone(),
                    error,
                };
                let list = GoodsList::from_toml(&list).map_err(wrong)?;
                list.to_csv()
                    .map_err(|error| FolderError::Refused { path, error })?
            }
        };
        files.push(FileOfBook {
            place: free(&files, GOODS, GOODS, ending),
            bytes: text.into_bytes(),
        });
    }
    pictures_as_files(store, &mut files)?;
    files.sort_by(|a, b| a.place.cmp(&b.place));
    Ok(files)
}

/// Pictures by name, each with the list of its name.
fn pictures_as_files(store: &Store, files: &mut Vec<FileOfBook>) -> Result<(), FolderError> {
    let mut by_name: BTreeMap<String, Vec<KeptPicture>> = BTreeMap::new();
    for kept in store.pictures(None)? {
        by_name.entry(kept.pictured.key()).or_default().push(kept);
    }
    for pictures in by_name.into_values() {
        let Some(first) = pictures.first() else {
            continue;
        };
        let of = first.pictured.of().to_owned();
        let place = free(files, PICTURES, &stem_of(&of), ENDING);
        let stem = place
            .file_stem()
            .unwrap_or_default()
            .to_string_lossy()
            .into_owned();
        let mut list = PictureList {
            of,
            files: Vec::new(),
        };
        for (nth, kept) in pictures.into_iter().enumerate() {
            let file = format!("{stem}-{}.{}", nth + 1, IMAGES[0]);
            files.push(FileOfBook {
                place: Path::new(PICTURES).join(&file),
                bytes: kept.image,
            });
            list.files.push((file, kept.pictured));
        }
        let refused = |error| FolderError::Refused {
            path: place.clone(),
            error,
        };
        let bytes = list.to_toml().map_err(refused)?.into_bytes();
        files.push(FileOfBook { place, bytes });
    }
    Ok(())
}

/// The formulas of the book in the order of their names, each with its file.
fn formulas(data: &Path) -> Result<Vec<(PathBuf, StagedFormula)>, BookError> {
    let mut known: BTreeMap<String, (PathBuf, StagedFormula)> = BTreeMap::new();
    for page in pages(data)? {
        let formula = page.formula?;
        let name = formula.name().to_lowercase();
        if let Some((first, _)) = known.get(&name) {
            return Err(BookError::Twice {
                name: formula.name().to_owned(),
                first: first.clone(),
                second: page.path,
            });
        }
        known.insert(name, (page.path, formula));
    }
    Ok(known.into_values().collect())
}

/// A place that no file has yet: two names may differ only in what a file's cannot show.
fn free(files: &[FileOfBook], folder: &str, stem: &str, ending: &str) -> PathBuf {
    let place = |stem: &str| Path::new(folder).join(format!("{stem}.{ending}"));
    let taken = |place: &PathBuf| files.iter().any(|file| file.place == *place);
    first_free(|n| place(&numbered(stem, n)), taken)
}

/// The stem itself, then with a number.
fn numbered(stem: &str, n: u32) -> String {
    if n == 1 {
        stem.to_owned()
    } else {
        format!("{stem}-{n}")
    }
}

fn first_free(place: impl Fn(u32) -> PathBuf, taken: impl Fn(&PathBuf) -> bool) -> PathBuf {
    let mut n = 1;
    while taken(&place(n)) && n < u32::MAX {
        n += 1;
    }
    place(n)
}

fn read_menu(path: &Path, text: &str) -> Result<WrittenMenu, FolderError> {
    let table = path.extension().is_some_and(|ending| ending == TABLE);
    if table {
        WrittenMenu::from_csv(text).map_err(|error| FolderError::Refused {
            path: path.to_owned(),
            error,
        })
    } else {
        WrittenMenu::from_toml(text).map_err(|error| FolderError::Menu {
            path: path.to_owned(),
            error,
        })
    }
}

/// How something read stands to what is there.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Against {
    /// It is not there.
    New,
    /// It is there and says something else.
    Changes,
    /// It is there as it is.
    AsItIs,
}

/// A formula of a folder.
#[derive(Debug, Clone)]
pub struct FormulaRead {
    /// Its name.
    pub name: String,
    /// The file that it was read from.
    pub from: PathBuf,
    /// The book's file for it.
    pub to: PathBuf,
    /// Its text in TOML.
    pub text: String,
    /// How it stands to the book.
    pub against: Against,
}

/// A menu of a folder.
#[derive(Debug, Clone)]
pub struct MenuRead {
    /// The day that it is for; for every day, if none.
    pub day: Option<Date>,
    /// The file that it was read from.
    pub from: PathBuf,
    /// Its text in TOML.
    pub text: String,
    /// How it stands to the menus on record.
    pub against: Against,
}

/// The list of goods of a folder.
#[derive(Debug, Clone)]
pub struct GoodsRead {
    /// The file that it was read from.
    pub from: PathBuf,
    /// How many goods are on it.
    pub goods: usize,
    /// Its text in TOML.
    pub text: String,
    /// How it stands to the list on record.
    pub against: Against,
}

/// The pictures of one name in a folder.
#[derive(Debug, Clone)]
pub struct PicturesRead {
    /// What they are of.
    pub of: String,
    /// The list that they were read by.
    pub from: PathBuf,
    /// Each, made ready to be kept.
    pub pictures: Vec<(Pictured, Vec<u8>)>,
    /// How they stand to those on record.
    pub against: Against,
}

/// What is in a folder, read whole and held against what there is.
#[derive(Debug, Clone)]
pub struct BookRead {
    /// Formulas, in the order of their files.
    pub formulas: Vec<FormulaRead>,
    /// Menus, likewise.
    pub menus: Vec<MenuRead>,
    /// What the kitchen buys, where a list of it is there.
    pub goods: Option<GoodsRead>,
    /// Pictures, likewise.
    pub pictures: Vec<PicturesRead>,
    /// Pictures that no list names, which are not read.
    pub not_named: Vec<PathBuf>,
}

/// Reads a folder as [`book_as_files`] writes it, and changes nothing.
///
/// # Errors
/// [`FolderError`], naming the file and in it the line.
pub fn read_book(
    folder: &Path,
    data: &Path,
    store: &Store,
    zone: &TimeZone,
) -> Result<BookRead, FolderError> {
    let (pictures, not_named) = pictures_in(folder, store)?;
    let read = BookRead {
        formulas: formulas_in(folder, data)?,
        menus: menus_in(folder, store, zone)?,
        goods: goods_in(folder, store)?,
        pictures,
        not_named,
    };
    let none = read.formulas.is_empty() && read.menus.is_empty() && read.pictures.is_empty();
    if none && read.goods.is_none() {
        return Err(FolderError::Empty(folder.to_owned()));
    }
    Ok(read)
}

/// The files of a folder in either form, by name.
pub(crate) fn in_either_form(folder: &Path) -> Result<Vec<PathBuf>, BookError> {
    let mut paths = files_in(folder, &[ENDING, TABLE])?;
    // TOML before CSV of the same stem: it has the comments.
    paths.sort_by_key(|path| {
        let table = path.extension().is_some_and(|ending| ending == TABLE);
        (path.with_extension(""), table)
    });
    Ok(paths)
}

fn formulas_in(folder: &Path, data: &Path) -> Result<Vec<FormulaRead>, FolderError> {
    let there = formulas(data)?;
    let mut found: Vec<(FormulaRead, StagedFormula)> = Vec::new();
    for from in in_either_form(&folder.join(FOLDER))? {
        let formula = read(&from)?;
        let name = formula.name().to_owned();
        let same = |known: &str| known.to_lowercase() == name.to_lowercase();
        if let Some((first, known)) = found.iter().find(|(known, _)| same(&known.name)) {
            if *known == formula {
                continue;
            }
            return Err(FolderError::Twice {
                what: TwiceWritten::Formula(name.clone()),
                first: first.from.clone(),
                second: from,
            });
        }
        let table = from.extension().is_some_and(|ending| ending == TABLE);
        let text = if table {
            formula.to_toml().map_err(|error| BookError::Refused {
                path: from.clone(),
                error,
            })?
        } else {
            text_of(&from)?
        };
        let (to, against) = match there.iter().find(|(_, known)| same(known.name())) {
            None => (None, Against::New),
            // A table says nothing of comments: what it does say is what counts.
            Some((path, known)) if table && *known == formula => (Some(path), Against::AsItIs),
            Some((path, _)) if !table && text_of(path)? == text => (Some(path), Against::AsItIs),
            Some((path, _)) => (Some(path), Against::Changes),
        };
        let taken = |to: &PathBuf| {
            there.iter().any(|(known, _)| known == to)
                || found.iter().any(|(known, _)| known.to == *to)
        };
        let own = |stem: &str| data.join(FOLDER).join(format!("{stem}.{ENDING}"));
        let to = to.cloned().unwrap_or_else(|| {
            let stem = stem_of(&name);
            first_free(|n| own(&numbered(&stem, n)), taken)
        });
        let read = FormulaRead {
            name,
            from,
            to,
            text,
            against,
        };
        found.push((read, formula));
    }
    Ok(found.into_iter().map(|(read, _)| read).collect())
}

fn menus_in(folder: &Path, store: &Store, zone: &TimeZone) -> Result<Vec<MenuRead>, FolderError> {
    let mut there = Vec::new();
    for (day, text) in store.menus()? {
        // One that cannot be read is written over by what can be.
        if let Ok(written) = WrittenMenu::from_toml(&text) {
            let (from, _) = written.period().unwrap_or_default();
            there.push((day, from, text, written));
        }
    }
    let mut found: Vec<(MenuRead, Option<Date>, WrittenMenu)> = Vec::new();
    for path in in_either_form(&folder.join(MENUS))? {
        let said = text_of(&path)?;
        let written = read_menu(&path, &said)?;
        let day = day_of(&path)?;
        let wrong = |error| FolderError::Menu {
            path: path.clone(),
            error,
        };
        let (from, _) = written.period().map_err(wrong)?;
        let table = path.extension().is_some_and(|ending| ending == TABLE);
        let text = if table {
            let refused = |error| FolderError::Refused {
                path: path.clone(),
                error,
            };
            written.to_toml().map_err(refused)?
        } else {
            said
        };
        // As when it is kept by itself.
        let on = day.or(from).unwrap_or(jiff::civil::date(2026, 1, 1));
        Board::from_menu(&text, on, zone.clone()).map_err(wrong)?;
        let key = (day, from.filter(|_| day.is_none()));
        let same = |(read, from, _): &&(MenuRead, Option<Date>, WrittenMenu)| {
            (read.day, from.filter(|_| read.day.is_none())) == key
        };
        if let Some((first, _, known)) = found.iter().find(same) {
            if *known == written {
                continue;
            }
            return Err(FolderError::Twice {
                what: day.map_or(TwiceWritten::DailyMenu, TwiceWritten::Menu),
                first: first.from.clone(),
                second: path,
            });
        }
        let known = there
            .iter()
            .find(|(known, from, ..)| (*known, from.filter(|_| known.is_none())) == key);
        let against = match known {
            None => Against::New,
            Some((.., known)) if table && *known == written => Against::AsItIs,
            Some((.., known, _)) if !table && *known == text => Against::AsItIs,
            Some(_) => Against::Changes,
        };
        let read = MenuRead {
            day,
            from: path,
            text,
            against,
        };
        found.push((read, from, written));
    }
    Ok(found.into_iter().map(|(read, ..)| read).collect())
}

/// The list of goods of a folder, under whatever name; in both forms where they say the same.
fn goods_in(folder: &Path, store: &Store) -> Result<Option<GoodsRead>, FolderError> {
    let mut found: Option<(GoodsRead, GoodsList)> = None;
    for path in in_either_form(&folder.join(GOODS))? {
        let said = text_of(&path)?;
        let wrong = |error| FolderError::Goods {
            path: path.clone(),
            error,
        };
        let refused = |error| FolderError::Refused {
            path: path.clone(),
            error,
        };
        let table = path.extension().is_some_and(|ending| ending == TABLE);
        let (list, text) = if table {
            let list = GoodsList::from_csv(&said).map_err(refused)?;
            let text = list.to_toml().map_err(refused)?;
            (list, text)
        } else {
            (GoodsList::from_toml(&said).map_err(wrong)?, said)
        };
        if let Some((first, known)) = &found {
            if *known == list {
                continue;
            }
            return Err(FolderError::Twice {
                what: TwiceWritten::Goods,
                first: first.from.clone(),
                second: path,
            });
        }
        let against = match store.goods()? {
            None => Against::New,
            Some(known) if !table && known == text => Against::AsItIs,
            // A table says nothing of comments: what it does say is what counts.
            Some(known) if table && GoodsList::from_toml(&known).as_ref() == Ok(&list) => {
                Against::AsItIs
            }
            Some(_) => Against::Changes,
        };
        let read = GoodsRead {
            from: path,
            goods: list.goods.len(),
            text,
            against,
        };
        found = Some((read, list));
    }
    Ok(found.map(|(read, _)| read))
}

/// The pictures of a folder by their lists, and those that no list names.
fn pictures_in(
    folder: &Path,
    store: &Store,
) -> Result<(Vec<PicturesRead>, Vec<PathBuf>), FolderError> {
    let folder = folder.join(PICTURES);
    let mut lists = files_in(&folder, &[ENDING])?;
    lists.sort();
    let mut found: Vec<PicturesRead> = Vec::new();
    let mut not_named = files_in(&folder, &IMAGES)?;
    not_named.sort();
    for from in lists {
        let list =
            PictureList::from_toml(&text_of(&from)?).map_err(|error| FolderError::Refused {
                path: from.clone(),
                error,
            })?;
        let key = picture_key(&list.of);
        if let Some(first) = found.iter().find(|known| picture_key(&known.of) == key) {
            return Err(FolderError::Twice {
                what: TwiceWritten::Pictures(list.of.clone()),
                first: first.from.clone(),
                second: from,
            });
        }
        let mut pictures = Vec::new();
        for (file, pictured) in list.files {
            let path = folder.join(file);
            pictures.push((pictured, read_picture(&path)?.jpeg));
            not_named.retain(|known| *known != path);
        }
        let there = store.pictures(Some(&key))?;
        let same = there.len() == pictures.len()
            && there
                .iter()
                .zip(&pictures)
                .all(|(kept, (pictured, image))| {
                    kept.pictured == *pictured && kept.image == *image
                });
        found.push(PicturesRead {
            of: list.of,
            from,
            pictures,
            against: match there.as_slice() {
                [] => Against::New,
                _ if same => Against::AsItIs,
                _ => Against::Changes,
            },
        });
    }
    Ok((found, not_named))
}

/// The day that a menu's file is for alone, by its name.
fn day_of(path: &Path) -> Result<Option<Date>, FolderError> {
    let stem = path.file_stem().unwrap_or_default().to_string_lossy();
    let Some(day) = stem.strip_prefix(ONLY) else {
        return Ok(None);
    };
    day.parse().map(Some).map_err(|_| FolderError::Refused {
        path: path.to_owned(),
        error: InputError::new(
            "the file's name",
            day,
            problem!("no-date"),
            expected!("only-day"),
        ),
    })
}
