//! What a cook asks for. The screens only say so; carrying it out is
//! somebody else's.

use super::book::BookWish;
use super::kitchen::KitchenIntent;
use super::known_weights::WeightWish;
use super::menus::MenuWish;
use super::mixing::Wish;
use super::order::OrderWish;
use super::practice::PracticeWish;
use super::service::ServiceWish;
use super::sound::{Cue, SoundChoice};
use super::state::{Screen, TinChoice};
use super::telling::TellWish;
use super::words::Language;
use evenhand_kitchen::dish::DishName;
use evenhand_protocol::{Mass, Mode, PortionId};
use std::path::PathBuf;

/// One wish.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Intent {
    /// Show another screen.
    Go(Screen),
    /// Bring the controls back, which go while nobody touches.
    ComeNear,
    /// Take what is on the pan as tare.
    Tare,
    /// Weigh gross again.
    ClearTare,
    /// Take the empty pan as zero.
    Zero,
    /// Strike out the portion made last.
    UndoLast,
    /// Count this portion again, which was undone.
    PutBack(PortionId),
    /// Stop the run.
    StopRun,
    /// Start a run of this dish at once, as its settings say.
    StartDish(DishName),
    /// Choose a dish to set up.
    ChooseDish(DishName),
    /// Set up a dish that is new.
    NewDish,
    /// The new dish's name is now this.
    NameDish(String),
    /// The new dish has its name; go on to its goal.
    DishNamed,
    /// Portions are made this way.
    ChooseMode(Mode),
    /// Something that can be set up or down by this much.
    Adjust(Quantity, Mass),
    /// Take from this tin.
    ChooseTin(TinChoice),
    /// Start the run that was set up (keeping the dish, where it is new).
    StartRun,
    /// Use the goal that was set up in the run going on.
    ChangeGoal,
    /// Pick a portion of the run to strike out.
    PickPortion(PortionId),
    /// List what was captured since the list was opened.
    ListNewer,
    /// The reason is this.
    Reason(String),
    /// Strike the picked portion out with the reason.
    StrikeOut,
    /// Count the picked portion again.
    CountAgain,
    /// Something on the service screen.
    Service(ServiceWish),
    /// Something of the kitchen's clocks: heat, prep, melt.
    Kitchen(KitchenIntent),
    /// Something told of a step that was at another time than now.
    Tell(TellWish),
    /// Show only what this pair of hands does; `None` for everybody.
    ShowHand(Option<String>),
    /// Look which ports there are.
    LookForPorts,
    /// The instrument is on this port.
    UsePort(String),
    /// Use a simulated bench, by its place in the list.
    UseSimulated(usize),
    /// Speak this language from now on.
    Speak(Language),
    /// Let this be heard from now on.
    Sound(SoundChoice),
    /// Copy what is kept into this folder.
    BackUp(PathBuf),
    /// Play this tone, to try it.
    TryTone(Cue),
    /// Something with known weights.
    Weights(WeightWish),
    /// Something on the mixing screens.
    Mix(Wish),
    /// Something on the book's screens.
    Book(BookWish),
    /// Something on the screens of menus.
    Menus(MenuWish),
    /// Something on the screens of what to order.
    Order(OrderWish),
    /// Something at the practice bench.
    Practice(PracticeWish),
}

/// What can be adjusted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Quantity {
    /// The target.
    Target,
    /// The tolerance, to either side.
    Tolerance,
    /// The food in a new tin.
    NewTin,
}
