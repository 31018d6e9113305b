//! The desktop app.
//!
//! One direction only: the [`state::State`] goes in, the screens draw it, and
//! what the cook asks for comes out as [`intent::Intent`]s. Nothing is decided
//! while drawing, so every screen can be tested as a function.
//!
//! Behind the screens, the [`controller`] carries out what is asked for, and the
//! [`watcher`] looks at the bench and asks for a new picture when, and only
//! when, something on it changes.
//!
//! To add a screen: write `screens/NAME.rs` with
//! `pub fn show(ui, place, &State) -> Vec<Intent>`; give it a
//! [`state::Screen`] variant and what it shows as plain data in
//! [`state::State`]; name it in `screens::show` and, where it is one of the
//! large items on the left, in `screens::RAIL`; add what it can ask for to
//! [`intent::Intent`]. Sizes are in units of [`theme::Scale`], words are
//! painted with [`text::label`] so that they can be read aloud and tested.
//! What a screen says stands in `words/FEATURE/LANGUAGE.ftl` and is said with
//! `say!(language, "key")`, in the language that the state names.
#![forbid(unsafe_code)]

pub mod bench_view;
pub mod book;
mod calm;
pub mod controller;
pub mod far_mode;
pub mod figures;
pub mod heat_view;
pub mod intent;
pub mod kept;
pub mod kitchen;
pub mod known_weights;
pub mod layout;
pub mod live;
pub mod melt_view;
pub mod menus;
pub mod mixing;
pub mod order;
pub mod picture;
pub mod practice;
pub mod prep_view;
mod remembered;
pub mod screens;
pub mod service;
pub mod shell;
pub mod sound;
pub mod state;
pub mod telling;
pub mod text;
pub mod theme;
pub mod timeline_view;
pub mod today;
mod typed_field;
pub mod watcher;
pub mod week_view;
pub mod widgets;
mod window;
mod words;
mod worker;

pub use window::run;
pub use words::Language;

use evenhand_kitchen::dish::DishName;
use evenhand_kitchen::units::InputError;
use evenhand_link::{Dial, Endpoint, Pace};
use evenhand_protocol::GoalError;
use evenhand_simulator::scenario::{SHIPPED, Scenario, ScenarioError};
use evenhand_store::{DataFolder, NewRun, StoreError};
use evenhand_use_cases::instrument;
use std::io;
use words::say;

/// How the app is opened.
pub struct Options {
    /// The screen to open at.
    pub first: state::Screen,
    /// The language; else the one that was chosen last, or the system's.
    pub language: Option<Language>,
    /// Where everything is kept.
    pub folder: DataFolder,
    /// Where the scale is; else where it was last, or where the cook says.
    pub place: Option<Opening>,
    /// The simulated benches that the cook can choose.
    pub simulated: Vec<SimulatedBench>,
}

/// A simulated bench to choose.
#[derive(Debug, Clone, PartialEq)]
pub struct SimulatedBench {
    /// What it is called.
    pub title: String,
    /// Where it is.
    pub place: Endpoint,
}

impl SimulatedBench {
    /// The ones that ship.
    #[must_use]
    pub fn shipped() -> Vec<Self> {
        SHIPPED
            .iter()
            .filter_map(|(name, _)| Scenario::shipped(name).ok())
            .map(|scenario| Self {
                title: scenario.title().to_owned(),
                place: Endpoint::Simulated {
                    seed: scenario.seed(),
                    scenario: Box::new(scenario),
                },
            })
            .collect()
    }
}

/// A place where a scale is.
pub struct Opening {
    /// How to reach it.
    pub dial: Box<dyn Dial>,
    /// A run to begin as soon as it answers; its dish is put on the list
    /// where it is not.
    pub at_once: Option<NewRun>,
}

impl Opening {
    /// A place as a person says it. On a simulated bench its own dish is
    /// portioned at once, in its own time.
    #[must_use]
    pub fn of(place: Endpoint) -> Self {
        let at_once = match &place {
            Endpoint::Port(_) => None,
            // A scenario whose dish has no name that can be kept waits for the cook.
            Endpoint::Simulated { scenario, .. } => DishName::new("dish", scenario.dish())
                .ok()
                .map(|dish| NewRun {
                    dish,
                    goal: scenario.goal(),
                    mode: scenario.mode(),
                    cook: None,
                    tin: None,
                }),
        };
        Self {
            dial: place.dial(Pace::REAL),
            at_once,
        }
    }

    /// A place where nothing begins by itself.
    #[must_use]
    pub fn at(dial: impl Dial + 'static) -> Self {
        Self {
            dial: Box::new(dial),
            at_once: None,
        }
    }
}

/// Why the app could not do something.
#[derive(Debug, thiserror::Error)]
pub enum AppError {
    /// The store.
    #[error(transparent)]
    Store(#[from] StoreError),
    /// Something typed in.
    #[error(transparent)]
    Input(#[from] InputError),
    /// A goal that cannot be.
    #[error("this cannot be: {0}")]
    Goal(#[from] GoalError),
    /// Something of the mixing screens.
    #[error(transparent)]
    Mixing(#[from] mixing::Refusal),
    /// Something of the book's screens.
    #[error(transparent)]
    Book(#[from] book::BookRefusal),
    /// Something of the screens of menus.
    #[error(transparent)]
    Menus(#[from] menus::MenusRefusal),
    /// Something of the screens of what to order.
    #[error(transparent)]
    Order(#[from] order::OrderRefusal),
    /// The practice bench.
    #[error(transparent)]
    Practice(#[from] ScenarioError),
    /// A choice that is lost when the program ends.
    #[error(transparent)]
    NotKept(#[from] remembered::NotKept),
    /// The system gave no thread.
    #[error("the system gives no thread: {0}")]
    NoThread(io::Error),
    /// There is no window to be had.
    #[error(
        "no window can be opened here: {0}; on a machine without a display use the commands that `evenhand help` lists"
    )]
    Window(String),
}

impl AppError {
    /// As a sentence on the screen.
    fn in_words(&self, language: Language) -> String {
        match self {
            Self::Goal(why) => {
                let why = instrument::goal(language, *why);
                say!(language, "setup-cannot-be", why = why).into_owned()
            }
            Self::NotKept(not_kept) => not_kept.in_words(language),
            Self::NoThread(why) => {
                say!(language, "settings-no-thread", why = why.to_string()).into_owned()
            }
            Self::Mixing(refusal) => controller::sentence(&refusal.in_words(language)),
            Self::Book(refusal) => controller::sentence(&refusal.in_words(language)),
            Self::Menus(refusal) => controller::sentence(&refusal.in_words(language)),
            Self::Order(refusal) => controller::sentence(&refusal.in_words(language)),
            // What the store and an entry field say of themselves.
            Self::Store(_) | Self::Input(_) | Self::Practice(_) | Self::Window(_) => {
                controller::sentence(&self.to_string())
            }
        }
    }
}
