//! The menus on record: which is in force, keeping one, and the files that they are written in.

use super::PrepError;
use crate::book::files_in_either_form;
use evenhand_kitchen::prep::{
    Board, FileError, GoodsList, MenuChanges, MenuDraft, MenuPlace, WrittenMenu, serves_on,
};
use evenhand_kitchen::units::InputError;
use evenhand_kitchen::written_table::ReadAs;
use evenhand_store::{Store, StoreError};
use jiff::civil::Date;
use jiff::tz::TimeZone;
use jiff::{Timestamp, ToSpan};
use std::path::{Path, PathBuf};

/// The folder of menus' files in the data folder.
pub const MENUS: &str = "menus";

/// The folder of files of goods in the data folder.
pub const GOODS: &str = "goods";

const EVERY_DAY: &str = "every-day";
const FROM: &str = "from-";
/// What the name of a menu's file begins with that is for one day alone.
pub(crate) const ONLY: &str = "only-";

/// How many days ahead a menu is looked for that is not in force yet.
const LOOKED_AHEAD: i32 = 366;

/// A menu that is in force on some day.
#[derive(Debug, Clone)]
pub struct MenuOnRecord {
    /// The day that it is for alone; for every day, if none.
    pub day: Option<Date>,
    /// Its text.
    pub text: String,
    /// What it says, or why it cannot be read.
    pub menu: Result<WrittenMenu, FileError>,
    /// Whether it is the one in force today.
    pub in_force: bool,
}

/// The menus on record, those for every day first.
///
/// # Errors
/// Where the store cannot be read.
pub fn menus(store: &Store, today: Date) -> Result<Vec<MenuOnRecord>, StoreError> {
    let in_force = store.menu(today)?;
    let mut all: Vec<MenuOnRecord> = store
        .menus()?
        .into_iter()
        .map(|(day, text)| MenuOnRecord {
            menu: WrittenMenu::from_toml(&text),
            day,
            text,
            in_force: false,
        })
        .collect();
    let own = all.iter().position(|known| known.day == Some(today));
    let of_every_day =
        |known: &MenuOnRecord| known.day.is_none() && in_force.as_ref() == Some(&known.text);
    if let Some(nth) = own.or_else(|| all.iter().position(of_every_day))
        && let Some(found) = all.get_mut(nth)
    {
        // Where no menu covers a day, the one that was kept last is looked at; it is over.
        let (from, until) = found
            .menu
            .as_ref()
            .ok()
            .and_then(|menu| menu.period().ok())
            .unwrap_or_default();
        found.in_force =
            from.is_none_or(|from| from <= today) && until.is_none_or(|until| today <= until);
    }
    Ok(all)
}

/// What was kept.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct KeptMenu {
    /// The day that it is for alone; for every day, if none.
    pub day: Option<Date>,
    /// How many steps it has.
    pub steps: usize,
    /// The first day from today on with service by it; none within a year, where others cover
    /// all its days.
    pub in_force_from: Option<Date>,
    /// How it differs from what was in force on that day before; `None` where nothing was.
    pub changes: Option<MenuChanges>,
}

/// A menu that was checked whole, so that it can be kept.
#[derive(Debug, Clone)]
pub struct MenuToKeep {
    day: Option<Date>,
    text: String,
    menu: WrittenMenu,
    steps: usize,
}

impl MenuToKeep {
    /// Checks a menu's text, for one day alone or for every day: one that cannot be laid out
    /// is not kept.
    ///
    /// # Errors
    /// [`FileError`], naming the place, the field, the value and what was expected.
    pub fn new(
        day: Option<Date>,
        text: String,
        today: Date,
        zone: &TimeZone,
    ) -> Result<Self, FileError> {
        let menu = WrittenMenu::from_toml(&text)?;
        let board = Board::from_menu(&text, day.unwrap_or(today), zone.clone())?;
        Ok(Self {
            day,
            text,
            menu,
            steps: board.steps().count(),
        })
    }

    /// Keeps it.
    ///
    /// # Errors
    /// Where the store cannot be written, or read.
    pub fn keep(
        self,
        store: &mut Store,
        now: Timestamp,
        zone: &TimeZone,
    ) -> Result<KeptMenu, StoreError> {
        let today = store.service_calendar(zone.clone())?.day_of(now);
        let before = store.menus()?;
        store.keep_menu(self.day, &self.text, now)?;
        let in_force_from = self.first_day(store, today)?;
        let changes = match in_force_from {
            Some(first) => {
                let just_before = now.checked_sub(1.milliseconds()).unwrap_or(now);
                store
                    .menu_at(first, just_before)?
                    .filter(|it| before.iter().any(|(_, known)| known == it))
                    .and_then(|before| WrittenMenu::from_toml(&before).ok())
                    .map(|before| self.menu.changes_from(&before))
            }
            None => None,
        };
        Ok(KeptMenu {
            day: self.day,
            steps: self.steps,
            in_force_from,
            changes,
        })
    }

    /// The first day from today on with service by it.
    fn first_day(&self, store: &Store, today: Date) -> Result<Option<Date>, StoreError> {
        // It was read before.
        let serves = |day| serves_on(&self.text, day).unwrap_or_default();
        if let Some(day) = self.day {
            return Ok(Some(day).filter(|day| serves(*day)));
        }
        for ahead in 0..LOOKED_AHEAD {
            let Ok(day) = today.checked_add(ahead.days()) else {
                break;
            };
            if serves(day) && store.menu(day)?.as_ref() == Some(&self.text) {
                return Ok(Some(day));
            }
        }
        Ok(None)
    }
}

/// Why a preparation cannot be taken off the menu of a day.
#[derive(Debug, thiserror::Error)]
pub enum TakeOffError {
    /// The record or the menu does not answer.
    #[error(transparent)]
    Prep(#[from] PrepError),
    /// The menu has nothing of that name.
    #[error("the menu for {day} has no preparation {preparation:?}")]
    NotOnMenu {
        /// The day.
        day: Date,
        /// The name.
        preparation: String,
    },
    /// The menu does not hang together without it.
    #[error("without {preparation} the menu cannot be kept: {error}")]
    Refused {
        /// The preparation.
        preparation: String,
        /// Why.
        error: FileError,
    },
}

impl From<StoreError> for TakeOffError {
    fn from(error: StoreError) -> Self {
        Self::Prep(error.into())
    }
}

/// Keeps the menu in force on a day, for that day alone, without a preparation: it is swapped,
/// bought in or left off.
///
/// # Errors
/// [`TakeOffError`].
pub fn take_off(
    store: &mut Store,
    day: Date,
    preparation: &str,
    now: Timestamp,
    zone: &TimeZone,
) -> Result<KeptMenu, TakeOffError> {
    let text = store.menu(day)?.ok_or(PrepError::NoMenu(day))?;
    let menu = WrittenMenu::from_toml(&text).map_err(|error| PrepError::Menu { day, error })?;
    let mut draft = MenuDraft::of(&menu);
    let nth = draft
        .preparations()
        .position(|name| name == preparation)
        .ok_or_else(|| TakeOffError::NotOnMenu {
            day,
            preparation: preparation.to_owned(),
        })?;
    draft.remove(MenuPlace::Preparation(nth));
    let refused = |error| TakeOffError::Refused {
        preparation: preparation.to_owned(),
        error,
    };
    let written = draft.written().map_err(|it| refused(it.error))?;
    let text = written
        .to_toml_like(&text)
        .map_err(|error| refused(FileError::Syntax(error.to_string())))?;
    let checked = MenuToKeep::new(Some(day), text, day, zone).map_err(refused)?;
    Ok(checked.keep(store, now, zone)?)
}

/// What a menu's file is called, without its ending: `every-day`, `from-2026-07-01`, or
/// `only-2026-05-08` for one day alone.
///
/// # Errors
/// A date that is none; none of a menu that was read.
pub fn menu_name(day: Option<Date>, menu: &WrittenMenu) -> Result<String, FileError> {
    Ok(match (day, menu.period()?) {
        (Some(day), _) => format!("{ONLY}{day}"),
        (None, (Some(from), _)) => format!("{FROM}{from}"),
        (None, (None, _)) => EVERY_DAY.to_owned(),
    })
}

fn is_table(path: &Path) -> bool {
    path.extension()
        .is_some_and(|ending| ending.eq_ignore_ascii_case("csv"))
}

/// A menu's text out of a file's: a table is turned into TOML, with how it was read.
///
/// # Errors
/// What in a table is refused, by its line and column.
pub fn menu_text(path: &Path, text: String) -> Result<(String, Option<ReadAs>), InputError> {
    if is_table(path) {
        let (menu, read_as) = WrittenMenu::from_csv_as(&text)?;
        Ok((menu.to_toml()?, Some(read_as)))
    } else {
        Ok((text, None))
    }
}

/// Why a file gives no menu, or no list of goods.
#[derive(Debug, thiserror::Error)]
pub enum FileRefused {
    /// It cannot be read.
    #[error("{path} cannot be read: {why}")]
    Unreadable {
        /// Which.
        path: PathBuf,
        /// Why.
        why: String,
    },
    /// It is longer than any menu.
    #[error("{path} cannot be read: it has {bytes} bytes, and none has more than {most}")]
    TooLong {
        /// Which.
        path: PathBuf,
        /// How long it is.
        bytes: u64,
        /// How long it may be.
        most: u64,
    },
    /// A table that makes no sense.
    #[error("{path}: {error}")]
    Table {
        /// Which.
        path: PathBuf,
        /// What is wrong with it.
        error: InputError,
    },
    /// TOML that makes no sense.
    #[error("{path}: {error}")]
    Menu {
        /// Which.
        path: PathBuf,
        /// What is wrong with it.
        error: FileError,
    },
}

/// No menu or list of goods is longer, in bytes.
const LONGEST: u64 = 1_000_000;

/// The text of a file, where it can be one's that is short enough.
fn text_of(path: &Path) -> Result<String, FileRefused> {
    let unreadable = |error: &std::io::Error| FileRefused::Unreadable {
        path: path.to_owned(),
        why: error.to_string(),
    };
    let bytes = std::fs::metadata(path)
        .map_err(|error| unreadable(&error))?
        .len();
    if bytes > LONGEST {
        return Err(FileRefused::TooLong {
            path: path.to_owned(),
            bytes,
            most: LONGEST,
        });
    }
    std::fs::read_to_string(path).map_err(|error| unreadable(&error))
}

/// Reads a menu out of a file, in either form.
///
/// # Errors
/// [`FileRefused`].
pub fn menu_of_file(path: &Path) -> Result<WrittenMenu, FileRefused> {
    menu_and_text_of_file(path).map(|(menu, _)| menu)
}

/// As [`menu_of_file`], with its text in TOML: that of the file, remarks and all, where it is
/// TOML.
///
/// # Errors
/// [`FileRefused`].
pub fn menu_and_text_of_file(path: &Path) -> Result<(WrittenMenu, String), FileRefused> {
    let (text, _) = menu_text(path, text_of(path)?).map_err(|error| FileRefused::Table {
        path: path.to_owned(),
        error,
    })?;
    match WrittenMenu::from_toml(&text) {
        Ok(menu) => Ok((menu, text)),
        Err(error) => Err(FileRefused::Menu {
            path: path.to_owned(),
            error,
        }),
    }
}

/// A list of goods' text out of a file's: a table is turned into TOML, with how it was read.
///
/// # Errors
/// What in a table is refused, by its line and column.
pub fn goods_text(path: &Path, text: String) -> Result<(String, Option<ReadAs>), InputError> {
    if is_table(path) {
        let (list, read_as) = GoodsList::from_csv_as(&text)?;
        Ok((list.to_toml()?, Some(read_as)))
    } else {
        Ok((text, None))
    }
}

/// Reads a list of goods out of a file, in either form, with its text in TOML.
///
/// # Errors
/// [`FileRefused`].
pub fn goods_of_file(path: &Path) -> Result<(GoodsList, String), FileRefused> {
    let (text, _) = goods_text(path, text_of(path)?).map_err(|error| FileRefused::Table {
        path: path.to_owned(),
        error,
    })?;
    match GoodsList::from_toml(&text) {
        Ok(list) => Ok((list, text)),
        Err(error) => Err(FileRefused::Menu {
            path: path.to_owned(),
            error,
        }),
    }
}

/// The files in the data folder's folder of goods, by name; none where there is no such folder.
///
/// # Errors
/// Where it is there and cannot be read.
pub fn goods_files(data: &Path) -> Result<Vec<PathBuf>, FileRefused> {
    let folder = data.join(GOODS);
    files_in_either_form(&folder).map_err(|error| FileRefused::Unreadable {
        path: folder,
        why: error.to_string(),
    })
}

/// The files in the data folder's folder of menus, by name; none where there is no such folder.
///
/// # Errors
/// Where it is there and cannot be read.
pub fn menu_files(data: &Path) -> Result<Vec<PathBuf>, FileRefused> {
    let folder = data.join(MENUS);
    files_in_either_form(&folder).map_err(|error| FileRefused::Unreadable {
        path: folder,
        why: error.to_string(),
    })
}
