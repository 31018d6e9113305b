//! What the book refuses, in words that say what to do on a command line.

use super::Failure;
use super::failure::{Said, Spoken};
use super::words::{bad_input, said};
use evenhand_kitchen::book::MOST_PICTURES;
use evenhand_use_cases::book::{BookError, FolderError, PageRefused, PictureError, TwiceWritten};

impl From<BookError> for Failure {
    fn from(error: BookError) -> Self {
        match error {
            BookError::Store(error) => error.into(),
            BookError::Input(error) => error.into(),
            BookError::NotThere { .. } | BookError::Refused { .. } => {
                Self::Said(super::failure::Kind::Input, book(error))
            }
            error => Self::Said(super::failure::Kind::Other, book(error)),
        }
    }
}

/// What the book says, as it stands within other sentences.
fn book(error: BookError) -> Said {
    match error {
        BookError::Unreadable { path, error } => said!(
            "book-unreadable",
            path = path.display().to_string(),
            why = &error,
        ),
        BookError::Refused { path, error } => said!(
            "book-refused",
            path = path.display().to_string(),
            why = error,
        ),
        BookError::Twice {
            name,
            first,
            second,
        } => said!(
            "book-twice",
            name = format!("{name:?}"),
            first = first.display().to_string(),
            second = second.display().to_string(),
        ),
        BookError::NotThere {
            name,
            there,
            broken,
        } => said!(
            "book-not-there",
            name = format!("{name:?}"),
            there = in_the_book(&there),
            broken = not_understood(broken),
        ),
        BookError::There { name, path } => said!(
            "book-is-there",
            name = format!("{name:?}"),
            path = path.display().to_string(),
        ),
        BookError::Unwritable { path, error } => said!(
            "book-unwritable",
            path = path.display().to_string(),
            why = &error,
        ),
        BookError::Store(error) => Said::coded("store", error.to_string()),
        BookError::Input(error) => said!("typed", why = error),
    }
}

fn in_the_book(names: &[String]) -> Said {
    said!(
        "book-there",
        any = if names.is_empty() { "none" } else { "some" },
        names = names.join(", "),
    )
}

fn not_understood(broken: Vec<BookError>) -> Spoken {
    Spoken::All(
        broken
            .into_iter()
            .map(|error| said!("book-broken", why = book(error)))
            .collect(),
    )
}

impl From<PictureError> for Failure {
    fn from(error: PictureError) -> Self {
        match error {
            PictureError::Store(error) | PictureError::Book(BookError::Store(error)) => {
                error.into()
            }
            PictureError::Input(error) => error.into(),
            PictureError::Book(error) => Self::Said(super::failure::Kind::Input, book(error)),
            PictureError::Unreadable { path, error } => bad_input!(
                "picture-unreadable",
                path = path.display().to_string(),
                why = &error,
            ),
            PictureError::Refused { path, error } => bad_input!(
                "picture-refused",
                path = path.display().to_string(),
                why = error,
            ),
            PictureError::Unknown { name } => {
                bad_input!("picture-unknown", name = format!("{name:?}"))
            }
            PictureError::There(id) => bad_input!("picture-there", picture = id.to_string()),
            PictureError::TooMany { of } => bad_input!(
                "picture-too-many",
                of = format!("{of:?}"),
                most = MOST_PICTURES.to_string(),
            ),
        }
    }
}

impl From<FolderError> for Failure {
    fn from(error: FolderError) -> Self {
        match error {
            FolderError::Store(error) | FolderError::Book(BookError::Store(error)) => error.into(),
            FolderError::Book(error) => Self::Said(super::failure::Kind::Input, book(error)),
            FolderError::Picture(error) => (*error).into(),
            FolderError::Menu { path, error } | FolderError::Goods { path, error } => bad_input!(
                "book-refused",
                path = path.display().to_string(),
                why = error.to_string(),
            ),
            FolderError::Refused { path, error } => bad_input!(
                "book-refused",
                path = path.display().to_string(),
                why = error,
            ),
            FolderError::Twice {
                what,
                first,
                second,
            } => bad_input!(
                "folder-twice",
                what = twice(what),
                first = first.display().to_string(),
                second = second.display().to_string(),
            ),
            FolderError::Empty(path) => {
                bad_input!("folder-empty", path = path.display().to_string())
            }
        }
    }
}

fn twice(what: TwiceWritten) -> Said {
    let (what, name) = match what {
        TwiceWritten::Formula(name) => ("formula", format!("{name:?}")),
        TwiceWritten::Menu(day) => ("menu", day.to_string()),
        TwiceWritten::DailyMenu => ("daily", String::new()),
        TwiceWritten::Goods => ("goods", String::new()),
        TwiceWritten::Pictures(of) => ("pictures", format!("{of:?}")),
    };
    said!("folder-what", what = what, name = name)
}

impl From<PageRefused> for Failure {
    fn from(error: PageRefused) -> Self {
        match error {
            PageRefused::Book(error) => error.into(),
            PageRefused::Prep(error) => error.into(),
            PageRefused::Store(error) => error.into(),
            PageRefused::Unknown {
                name,
                there,
                broken,
            } => bad_input!(
                "formula-page-unknown",
                name = format!("{name:?}"),
                there = said!(
                    "book-of-book",
                    there = in_the_book(&there),
                    broken = not_understood(broken),
                ),
            ),
            PageRefused::NoSuchLimit { name, known } => bad_input!(
                "formula-page-no-limit",
                name = format!("{name:?}"),
                known = known,
            ),
        }
    }
}
