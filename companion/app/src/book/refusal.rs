//! Why a wish on the book's screens came to nothing.

use super::BookField;
use super::entry::code;
use crate::words::{Language, say};
use crate::worker::NoWorker;
use evenhand_kitchen::units::InputError;
use evenhand_store::StoreError;
use evenhand_use_cases::book::{BookError, book_error_words, book_refused_words};
use evenhand_use_cases::handover::HandoverError;
use evenhand_use_cases::limits::LimitsError;
use evenhand_use_cases::lots::{LotsError, lots_error_words};
use evenhand_use_cases::prep::{self, PrepError};
use evenhand_use_cases::record::{limits_error_words, store_error_words};
use evenhand_use_cases::uptake::{UptakeError, uptake_error_words};
use std::fmt;

/// What stands in the way, where the domain has no word for it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BookObstacle {
    /// Something is not said yet.
    NotSaid(BookField),
    /// Nothing of that batch lies in a bath.
    NotInBath,
    /// No dish is there to be counted.
    NoDish,
    /// The lot is no longer there.
    NoLot,
    /// Nothing is chosen that shares are of.
    NoBase,
    /// Nothing that went into these batches has a name.
    NothingNamed,
}

/// Why a wish came to nothing.
#[derive(Debug)]
pub enum BookRefusal {
    /// The store.
    Store(StoreError),
    /// What was typed cannot be used.
    Typed {
        /// In which field.
        field: BookField,
        /// What was typed.
        text: String,
    },
    /// A moment at which nothing can have happened.
    Moment(InputError),
    /// A soak that cannot be.
    Soak(InputError),
    /// A formula, its size or its dough that cannot be.
    Formula(InputError),
    /// The book's folder.
    Book(BookError),
    /// The menu.
    Prep(Box<PrepError>),
    /// More portions taken back than went out.
    Count(InputError),
    /// The kitchen's own limits.
    Limits(LimitsError),
    /// The page for tomorrow.
    Page(String),
    /// A lot's file, or the folder of lots.
    Lots(Box<LotsError>),
    /// The page of a lot.
    LotPage(String),
    /// The worker has ended.
    NoWorker(NoWorker),
    /// Anything else.
    Obstacle(BookObstacle),
}

impl BookRefusal {
    /// As a sentence of a language.
    #[must_use]
    pub fn in_words(&self, language: Language) -> String {
        match self {
            Self::Store(error) => store_error_words(language, error),
            Self::Typed { field, text } => {
                let (name, expected) = (caption(language, *field), expected(language, *field));
                if text.is_empty() {
                    say!(
                        language,
                        "book-typed-nothing",
                        name = name,
                        expected = expected
                    )
                } else {
                    say!(
                        language,
                        "book-typed",
                        name = name,
                        text = text.as_str(),
                        expected = expected
                    )
                }
                .into_owned()
            }
            Self::Moment(error) => moment_words(language, error),
            Self::Soak(error) => uptake_error_words(language, error),
            Self::Formula(error) => book_error_words(language, error),
            Self::Book(error) => book_refused_words(language, error),
            Self::Prep(error) => prep::error_words(language, error),
            Self::Count(error) => {
                say!(language, "counts-refused", count = error.value().to_owned()).into_owned()
            }
            Self::Limits(error) => limits_error_words(language, error),
            Self::Page(why) => {
                say!(language, "counts-not-written", why = why.as_str()).into_owned()
            }
            Self::Lots(error) => format!("{}.", lots_error_words(language, error)),
            Self::LotPage(why) => {
                say!(language, "lots-not-written", why = why.as_str()).into_owned()
            }
            Self::NoWorker(none) => none.in_words(language),
            Self::Obstacle(obstacle) => match obstacle {
                BookObstacle::NotSaid(field) => {
                    let (name, expected) = (caption(language, *field), expected(language, *field));
                    say!(
                        language,
                        "book-typed-nothing",
                        name = name,
                        expected = expected
                    )
                }
                BookObstacle::NotInBath => say!(language, "soak-not-in-bath"),
                BookObstacle::NoDish => say!(language, "counts-no-dish"),
                BookObstacle::NoLot => say!(language, "lots-no-lot"),
                BookObstacle::NoBase => say!(language, "formula-no-base"),
                BookObstacle::NothingNamed => say!(language, "yields-nothing-named"),
            }
            .into_owned(),
        }
    }
}

/// Why a time is none, or none that has passed.
fn moment_words(language: Language, error: &InputError) -> String {
    let code = match error.problem().code() {
        code @ ("to-come" | "skipped" | "twice") => code,
        _ => "other",
    };
    let value = error.value().replace('T', " ");
    say!(language, "book-moment", problem = code, value = value).into_owned()
}

/// What a field is called.
pub(super) fn caption(language: Language, field: BookField) -> String {
    say!(language, "book-field", field = code(field)).into_owned()
}

/// What is expected in a field.
fn expected(language: Language, field: BookField) -> String {
    let code = match field {
        BookField::Cut
        | BookField::SauceName
        | BookField::FormulaName
        | BookField::NewIngredient
        | BookField::Rename(_)
        | BookField::NewStage
        | BookField::RenameStage
        | BookField::FreezeAs
        | BookField::PlateName
        | BookField::PartName => "words",
        BookField::PlatePrice => "money",
        BookField::PartCost => "cost",
        BookField::PartYield => "yield",
        BookField::PartWaste => "waste",
        BookField::NewWork | BookField::Work(_) => "sentence",
        BookField::Percent(_) | BookField::Takes(_) | BookField::StarterPercent => "share",
        BookField::WaterIn(_) => "water-in",
        BookField::StarterHydration => "hydration",
        BookField::Pieces => "pieces",
        BookField::AtOpening => "portions",
        BookField::InAt | BookField::OutAt => "time",
        BookField::Lost => "lost",
        BookField::LeastMark => "mark",
        BookField::Friction => "degrees",
        BookField::Base
        | BookField::Total
        | BookField::Each
        | BookField::OfMass
        | BookField::PartWeight
        | BookField::SlabMass
        | BookField::PieceMass
        | BookField::ScaleStep => "mass",
        BookField::CutMass | BookField::SauceMass | BookField::OutMass | BookField::BathMass => {
            "mass"
        }
        BookField::BathWater | BookField::BathSalt | BookField::Ice | BookField::SlabEnds => {
            "mass-or-none"
        }
        BookField::PieceCount => "cut-pieces",
        BookField::Thickness => "thickness",
        BookField::MeatWater => "meat-water",
        BookField::SauceSalt => "sauce-salt",
        BookField::SauceWater => "sauce-water",
        BookField::HeldAt
        | BookField::EndsAt
        | BookField::FlourAt
        | BookField::BeforeAt
        | BookField::DoughAt
        | BookField::Coldest
        | BookField::Room
        | BookField::WaterAt
        | BookField::CameOutAt => "temperature",
        BookField::Core => "core",
        BookField::Lasting => "lasting",
        BookField::BathAfter => "strength",
        BookField::InPiece => "percent",
        BookField::Within => "within",
    };
    say!(language, "book-expected", field = code).into_owned()
}

impl fmt::Display for BookRefusal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.in_words(Language::English))
    }
}

impl std::error::Error for BookRefusal {}

impl From<NoWorker> for BookRefusal {
    fn from(none: NoWorker) -> Self {
        Self::NoWorker(none)
    }
}

impl From<StoreError> for BookRefusal {
    fn from(error: StoreError) -> Self {
        Self::Store(error)
    }
}

impl From<BookObstacle> for BookRefusal {
    fn from(obstacle: BookObstacle) -> Self {
        Self::Obstacle(obstacle)
    }
}

impl From<UptakeError> for BookRefusal {
    fn from(error: UptakeError) -> Self {
        match error {
            UptakeError::Store(error) => Self::Store(error),
            UptakeError::Input(error) => Self::Soak(error),
            UptakeError::NotInBath(_) => Self::Obstacle(BookObstacle::NotInBath),
        }
    }
}

impl From<BookError> for BookRefusal {
    fn from(error: BookError) -> Self {
        match error {
            BookError::Store(error) => Self::Store(error),
            BookError::Input(error) => Self::Formula(error),
            error => Self::Book(error),
        }
    }
}

impl From<HandoverError> for BookRefusal {
    fn from(error: HandoverError) -> Self {
        match error {
            HandoverError::Store(error) => Self::Store(error),
            HandoverError::Prep(error) => Self::Prep(Box::new(error)),
            HandoverError::Input(error) => Self::Count(error),
        }
    }
}
