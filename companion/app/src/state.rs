//! Everything that is on the screen, as plain data.

use super::bench_view::BenchView;
use super::book::BookView;
use super::heat_view::HeatView;
use super::kept::KeptView;
use super::known_weights::WeightFlow;
use super::melt_view::{LossView, MeltView};
use super::menus::MenusView;
use super::mixing::MixView;
use super::order::OrderView;
use super::practice::BenchKind;
use super::prep_view::PrepView;
use super::service::ServiceView;
use super::sound::SoundChoice;
use super::telling::Telling;
use super::words::Language;
use evenhand_kitchen::dish::DishName;
use evenhand_protocol::{Goal, GoalError, Mass, Mode, PortionId, Tolerance};

/// Names the screens, and lists them.
macro_rules! screens {
    ($($(#[$doc:meta])* $screen:ident,)*) => {
        /// Which screen is shown.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
        pub enum Screen {
            $($(#[$doc])* $screen,)*
        }

        impl Screen {
            /// Every one.
            pub const ALL: [Self; [$(stringify!($screen)),*].len()] = [$(Self::$screen),*];
        }
    };
}

screens! {
    /// Weighing.
    Bench,
    /// Choosing a dish to portion.
    Dishes,
    /// Naming a new dish.
    Naming,
    /// Mode, target and tolerance before a run.
    Setup,
    /// Target and tolerance within a run.
    Goal,
    /// The portions of the run, and striking one out.
    Portions,
    /// How even a service was.
    Service,
    /// Choosing where the scale is.
    Scale,
    /// Choosing the language and what is heard.
    Settings,
    /// What is kept on this computer, and its copies.
    Kept,
    /// The scale's test and calibration with known weights.
    Weights,
    /// Ratios, batches, brine and cures; which of them is in [`MixView`].
    Mix,
    /// The kitchen's own book; which of its screens is in [`BookView`].
    Book,
    /// A heat log as a curve.
    Heat,
    /// What a heat log is watched for.
    HeatAim,
    /// What to do before service.
    Prep,
    /// The same, laid out in time.
    Timeline,
    /// The week: what is made when.
    Week,
    /// Menus, and labels; which of their screens is in [`MenusView`].
    Menus,
    /// What to order; which of its screens is in [`OrderView`].
    Order,
    /// What if something of the prep is otherwise.
    WhatIf,
    /// What was done of the prep at another time than now.
    Telling,
}

/// Everything that is on the screen.
#[derive(Debug, Clone, PartialEq)]
pub struct State {
    /// Which screen is shown.
    pub screen: Screen,
    /// The language that it is in.
    pub language: Language,
    /// The bench.
    pub bench: BenchView,
    /// Whether there is a real scale on it.
    pub kind: BenchKind,
    /// The dishes, most recently used first.
    pub dishes: Vec<DishTile>,
    /// What is being set up.
    pub setup: Setup,
    /// What is being struck out.
    pub strike: Strike,
    /// The portion that was undone last, as long as it can be put back with one touch.
    pub undone: Option<Undone>,
    /// The service looked at.
    pub service: ServiceView,
    /// Where a scale may be.
    pub places: Places,
    /// What is done with known weights.
    pub weights: WeightFlow,
    /// What is mixed.
    pub mix: MixView,
    /// The kitchen's own book.
    pub book: BookView,
    /// Menus, and labels.
    pub menus: MenusView,
    /// What to order.
    pub order: OrderView,
    /// Heat logs.
    pub heat: HeatView,
    /// The prep clock.
    pub prep: PrepView,
    /// Whose steps the prep clock shows; everybody's, when not said.
    pub hand: Option<String>,
    /// What is being told of a step that was at another time than now.
    pub telling: Option<Telling>,
    /// How long the scoops of the run are out of the cold.
    pub melt: Option<MeltView>,
    /// What lies on the pan loses so much.
    pub loss: Option<LossView>,
    /// Nobody touches: the run is shown large, without controls.
    pub far: bool,
    /// What is heard, and whether anything here plays and speaks.
    pub sound: SoundView,
    /// What is kept on this computer.
    pub kept: KeptView,
    /// The time of day.
    pub clock: String,
    /// Why the last wish could not be carried out, in words.
    pub complaint: Option<String>,
}

impl State {
    /// At start, before anything is known.
    #[must_use]
    pub fn at_start() -> Self {
        Self {
            screen: Screen::Bench,
            language: Language::default(),
            bench: BenchView::unplugged(Language::default()),
            kind: BenchKind::Real,
            dishes: Vec::new(),
            setup: Setup::new_dish(),
            strike: Strike::default(),
            undone: None,
            service: ServiceView::default(),
            places: Places::default(),
            weights: WeightFlow::default(),
            mix: MixView::default(),
            book: BookView::default(),
            menus: MenusView::default(),
            order: OrderView::default(),
            heat: HeatView::default(),
            prep: PrepView::default(),
            hand: None,
            telling: None,
            melt: None,
            loss: None,
            far: false,
            sound: SoundView::default(),
            kept: KeptView::default(),
            clock: String::new(),
            complaint: None,
        }
    }
}

/// What is heard.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct SoundView {
    /// What was chosen.
    pub choice: SoundChoice,
    /// Whether anything here plays tones.
    pub plays: bool,
    /// Whether anything here speaks.
    pub speaks: bool,
}

/// One dish to choose.
#[derive(Debug, Clone, PartialEq)]
pub struct DishTile {
    /// Its name.
    pub name: DishName,
    /// What a portion should weigh.
    pub goal: Goal,
    /// How portions are made.
    pub mode: Mode,
}

/// A run, or a change of goal, being set up.
#[derive(Debug, Clone, PartialEq)]
pub struct Setup {
    /// The dish; `None` for a new one.
    pub dish: Option<DishName>,
    /// Its name as it is written.
    pub name: String,
    /// How portions are made.
    pub mode: Mode,
    /// The target; above zero.
    pub target: Mass,
    /// The tolerance; not negative.
    pub tolerance: Tolerance,
    /// The tin to take from; used in that mode only.
    pub tin: TinChoice,
    /// What is left in the dish's open tin, where it has one.
    pub open_tin: Option<Mass>,
    /// The food in a new tin; above zero.
    pub new_tin: Mass,
}

/// Which tin a run takes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TinChoice {
    /// None is entered; what is left is not reckoned.
    NotEntered,
    /// The one that is open.
    Open,
    /// A new one.
    New,
}

impl Setup {
    /// For a dish that is not there yet.
    #[must_use]
    pub const fn new_dish() -> Self {
        Self {
            dish: None,
            name: String::new(),
            mode: Mode::Adding,
            target: Mass::from_grams(30),
            tolerance: Tolerance::symmetric(Mass::from_grams(1)),
            tin: TinChoice::NotEntered,
            open_tin: None,
            new_tin: Mass::from_grams(1_000),
        }
    }

    /// The goal, where target and tolerance make sense together.
    ///
    /// # Errors
    /// As for [`Goal::new`].
    pub const fn goal(&self) -> Result<Goal, GoalError> {
        Goal::new(self.target, self.tolerance)
    }
}

/// A portion being struck out.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Strike {
    /// Which portion.
    pub portion: Option<PortionId>,
    /// The reason.
    pub reason: String,
    /// How many of the run's portions are listed: what is captured while the
    /// list is open moves nothing under a finger. All of them, where not said.
    pub listed: Option<usize>,
}

/// A portion that was undone.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Undone {
    /// Which portion.
    pub id: PortionId,
    /// Its number within the run.
    pub number: u32,
    /// Its mass, with the unit.
    pub mass: String,
    /// How many portions the run had then.
    pub portions: usize,
}

/// Where a scale may be.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Places {
    /// The serial ports of this computer, with what is known of each.
    pub ports: Vec<PortTile>,
    /// Where the scale is sought now.
    pub chosen: Option<String>,
    /// The simulated benches to choose from, by their titles.
    pub simulated: Vec<String>,
}

/// One serial port.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PortTile {
    /// Its path or name.
    pub path: String,
}
