//! Why a wish came to nothing: a code with its fields, and its sentence.

use super::recipe_draft::MOST_LINES;
use super::{Field, Said};
use crate::words::{Language, say};
use evenhand_kitchen::batch::{AimError, BatchError};
use evenhand_kitchen::brine::SugarKnown;
use evenhand_kitchen::cure::{AgentRefusal, DoseRefusal, Method, NameRefusal};
use evenhand_kitchen::ratio::{MixError, NotReady, PouringError, RatioError};
use evenhand_kitchen::units::InputError;
use evenhand_store::StoreError;
use evenhand_use_cases::limits::LimitsError;
use evenhand_use_cases::mixing::{batch, brine, cure, mix};
use evenhand_use_cases::record::{limits_error_words, store_error_words};
use std::fmt;
use std::sync::Arc;

/// Why nothing is judged by limits.
#[derive(Debug, Clone)]
pub enum NoLimits {
    /// They were not read yet.
    NotRead,
    /// The kitchen's own file cannot be used.
    Broken(Arc<LimitsError>),
}

impl NoLimits {
    pub(super) fn in_words(&self, language: Language) -> String {
        match self {
            Self::NotRead => say!(language, "mixing-limits-not-read").into_owned(),
            // It stands within a sentence of another.
            Self::Broken(error) => limits_error_words(language, error)
                .trim_end_matches('.')
                .to_owned(),
        }
    }
}

/// What stands in the way of a wish, where the domain has no word for it.
#[derive(Debug, Clone, PartialEq)]
pub enum Obstacle {
    /// Portions are being made on the scale.
    Portioning,
    /// Another mix is under way.
    AnotherMix,
    /// The scale moves or is not heard.
    NotSteady,
    /// Nothing more than is on record rests on the scale.
    NothingMore,
    /// Nothing stands on the scale.
    NothingOn,
    /// Nothing was weighed yet.
    NothingWeighed,
    /// For one to be more of the other there must be two.
    OnlyOneThing,
    /// The ratio has as many ingredients as a screen holds.
    TooMany,
    /// It has that ingredient already.
    ThereAlready(String),
    /// Nobody said how much of it.
    HowMuch(String),
    /// That is no amount of it.
    NoAmount {
        /// Of which ingredient.
        name: String,
        /// What was typed.
        text: String,
    },
    /// There is no ingredient in the ratio.
    NoIngredient,
    /// A curing agent is in what is to be mixed again.
    AgentInIt,
    /// The agent's packet was not read.
    NoPacket,
    /// The agent's fraction was not read.
    NoFraction,
    /// Nobody said how much nitrite.
    NoPpm,
    /// Nobody said how much the meat takes up.
    NoPickUp,
    /// A fraction that may be one of one.
    LowFraction(String),
    /// Nobody said how strong the brine is to be.
    NoStrength,
    /// A time beyond the calendar.
    BeyondCalendar,
    /// No title was written.
    NoTitle,
    /// No batch of this title is named through.
    NotNamedThrough(String),
    /// The book is another by now.
    BookChanged,
    /// The mix is done, or was put aside.
    NotUnderWay,
    /// No batch is chosen.
    NoBatch,
    /// The batch has no title.
    Untitled,
    /// The probe is needed in the brine.
    ProbeInBrine,
    /// The probe is needed in the water.
    ProbeInWater,
    /// The vessel was not weighed empty.
    EmptyFirst,
}

/// Why a wish came to nothing.
#[derive(Debug)]
pub enum Refusal {
    /// The store.
    Store(StoreError),
    /// A mix on record cannot be gone on with.
    Aim(AimError),
    /// A line was not taken into a batch.
    Batch(BatchError),
    /// A curing agent cannot be reckoned with.
    Agent(AgentRefusal),
    /// There is no dose for that.
    Dose(DoseRefusal),
    /// A name.
    Name(NameRefusal),
    /// A ratio that is none.
    Ratio(RatioError),
    /// A step of the mix.
    Mix(MixError),
    /// A step on the scale.
    Pouring(PouringError),
    /// The mix is not done.
    NotReady(Vec<NotReady>),
    /// The agent weighed is not the amount worked out.
    Disagrees(String),
    /// There are no limits to judge by.
    NoLimits(NoLimits),
    /// No limit is in force for that way of curing.
    NoLimit(Method),
    /// What was typed cannot be used.
    Typed {
        /// In which field.
        field: Field,
        /// What was typed.
        text: String,
    },
    /// An amount that makes no sense, which nobody typed just now.
    Input(InputError),
    /// Anything else.
    Obstacle(Obstacle),
}

impl Refusal {
    /// As a sentence of a language.
    #[must_use]
    pub fn in_words(&self, language: Language) -> String {
        match self {
            Self::Batch(error) => batch::batch_error_words(language, error),
            Self::Store(error) => store_error_words(language, error),
            Self::Aim(error) => batch::aim_error_words(language, error),
            Self::Agent(refusal) => cure::agent_refusal_words(language, refusal),
            Self::Dose(refusal) => cure::dose_refusal_words(language, refusal),
            Self::Name(refusal) => cure::name_refusal_words(language, *refusal),
            Self::Ratio(error) => mix::ratio_error_words(language, error),
            Self::Mix(error) => mix::mix_error_words(language, error)
                .unwrap_or_else(|| say!(language, "mixing-no-such-amount").into_owned()),
            Self::Pouring(error) => mix::walk_error_words(language, error)
                .unwrap_or_else(|| say!(language, "mixing-no-such-amount").into_owned()),
            Self::NotReady(reasons) => {
                let why: Vec<String> = reasons
                    .iter()
                    .map(|reason| mix::not_ready_words(language, reason))
                    .collect();
                say!(language, "mixing-not-ready", why = why.join("; ")).into_owned()
            }
            Self::Disagrees(words) => words.clone(),
            Self::NoLimits(none) => none.in_words(language),
            Self::NoLimit(method) => cure::no_limit_words(language, *method),
            Self::Typed { field, text } => typed(language, *field, text),
            Self::Input(error) => brine::brine_error_words(language, error, SugarKnown::None),
            Self::Obstacle(obstacle) => obstacle.in_words(language),
        }
    }
}

impl fmt::Display for Refusal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.in_words(Language::English))
    }
}

impl std::error::Error for Refusal {}

macro_rules! refusal_of {
    ($($error:ty => $variant:ident),* $(,)?) => {
        $(impl From<$error> for Refusal {
            fn from(error: $error) -> Self {
                Self::$variant(error)
            }
        })*
    };
}

refusal_of!(
    StoreError => Store,
    AimError => Aim,
    BatchError => Batch,
    AgentRefusal => Agent,
    DoseRefusal => Dose,
    NameRefusal => Name,
    RatioError => Ratio,
    MixError => Mix,
    PouringError => Pouring,
    NoLimits => NoLimits,
    InputError => Input,
    Obstacle => Obstacle,
);

impl Obstacle {
    fn in_words(&self, language: Language) -> String {
        match self {
            Self::Portioning => say!(language, "mixing-portioning"),
            Self::AnotherMix => say!(language, "mixing-another-mix"),
            Self::NotSteady => say!(language, "mixing-not-steady"),
            Self::NothingMore => say!(language, "mixing-nothing-more"),
            Self::NothingOn => say!(language, "mixing-nothing-on"),
            Self::NothingWeighed => say!(language, "mixing-nothing-weighed"),
            Self::OnlyOneThing => say!(language, "mixing-only-one-thing"),
            Self::TooMany => say!(language, "mixing-too-many", most = MOST_LINES),
            Self::ThereAlready(name) => {
                say!(language, "mixing-there-already", name = name.as_str())
            }
            Self::HowMuch(name) => say!(language, "mixing-how-much-of", name = name.as_str()),
            Self::NoAmount { name, text } => say!(
                language,
                "mixing-no-amount",
                name = name.as_str(),
                text = text.as_str(),
            ),
            Self::NoIngredient => say!(language, "mixing-no-ingredient"),
            Self::AgentInIt => say!(language, "mixing-agent-in-it"),
            Self::NoPacket => say!(language, "mixing-no-packet"),
            Self::NoFraction => say!(language, "mixing-no-fraction"),
            Self::NoPpm => say!(language, "mixing-no-ppm"),
            Self::NoPickUp => say!(language, "mixing-no-pick-up"),
            Self::LowFraction(text) => {
                let text = language.figure(text.as_str());
                say!(language, "mixing-low-fraction", text = text)
            }
            Self::NoStrength => say!(language, "mixing-no-strength"),
            Self::BeyondCalendar => say!(language, "mixing-beyond-calendar"),
            Self::NoTitle => say!(language, "mixing-no-title"),
            Self::NotNamedThrough(title) => {
                say!(language, "mixing-not-named-through", title = title.as_str())
            }
            Self::BookChanged => say!(language, "mixing-book-changed"),
            Self::NotUnderWay => say!(language, "mixing-not-under-way"),
            Self::NoBatch => say!(language, "mixing-no-batch"),
            Self::Untitled => say!(language, "mixing-untitled"),
            Self::ProbeInBrine => say!(language, "mixing-probe-in-brine"),
            Self::ProbeInWater => say!(language, "mixing-probe-in-water"),
            Self::EmptyFirst => say!(language, "mixing-empty-first"),
        }
        .into_owned()
    }
}

/// What was typed, and what is expected in that field.
fn typed(language: Language, field: Field, text: &str) -> String {
    let code = match field {
        Field::Amount(_) | Field::BrineMass => "mass",
        Field::Fraction | Field::LabelAgain => "fraction",
        Field::Ppm => "ppm",
        Field::PickUp => "pick-up",
        Field::DueIn => "due-in",
        Field::TurnEvery => "turn-every",
        Field::Loss => "loss",
        Field::Change(_) => "change",
        Field::Strength(Said::OfWater) | Field::CorrectTo => "of-water",
        Field::Strength(Said::OfSolution) => "of-solution",
        Field::Strength(Said::Salometer) => "salometer",
        Field::Strength(Said::Density) => "density",
        Field::BrineAt => "temperature",
        Field::Sugar => "sugar",
        Field::Title
        | Field::NewName
        | Field::Rename(_)
        | Field::SlotName(_)
        | Field::AgentName
        | Field::Note
        | Field::Tasting(_)
        | Field::VesselName => "words",
        Field::Number(_) => "number",
    };
    let expected = say!(language, "mixing-expected", field = code);
    if text.trim().is_empty() {
        say!(language, "mixing-typed-nothing", expected = &*expected).into_owned()
    } else {
        // A long text is not repeated in full.
        let text: String = text.chars().take(40).collect();
        say!(language, "mixing-typed", text = text, expected = &*expected,).into_owned()
    }
}
