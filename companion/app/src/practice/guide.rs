//! The guided first minutes: what to do next, and how it is known to be done.

use crate::bench_view::{PortionState, PortionView, RunView};
use crate::mixing::Page;
use crate::state::{Screen, State};
use crate::words::{Language, say};
use evenhand_link::Table;
use evenhand_protocol::Verdict;
use evenhand_simulator::practice::Vessel;
use std::borrow::Cow;

/// One step. It is done by doing it, and by nothing else; the steps keep nobody from
/// doing something else meanwhile.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Step {
    /// A dish is put on.
    DishOn,
    /// It is filled to its target and lifted off.
    FirstPortion,
    /// The portion is undone.
    Undo,
    /// One is made too heavy.
    TooMuch,
    /// The run is stopped.
    StopRun,
    /// The strengths of brines are opened.
    OpenBrine,
    /// One goes onto the scale.
    WeighBrine,
    /// Water and salt are poured to their targets.
    WaterAndSalt,
    /// That was all.
    Ended,
}

impl Step {
    /// Where it begins.
    pub const FIRST: Self = Self::DishOn;
    /// In order.
    pub const ALL: [Self; 9] = [
        Self::DishOn,
        Self::FirstPortion,
        Self::Undo,
        Self::TooMuch,
        Self::StopRun,
        Self::OpenBrine,
        Self::WeighBrine,
        Self::WaterAndSalt,
        Self::Ended,
    ];

    /// Its number, from 1.
    #[must_use]
    pub fn number(self) -> usize {
        Self::ALL.iter().take_while(|step| **step != self).count() + 1
    }

    /// The one after.
    #[must_use]
    pub fn next(self) -> Option<Self> {
        Self::ALL.get(self.number()).copied()
    }

    /// Whether it is done by now.
    #[must_use]
    pub fn is_done(self, state: &State, table: &Table) -> bool {
        let run = state.bench.run.as_ref();
        let has = |is: fn(&PortionView) -> bool| {
            run.is_some_and(|run: &RunView| run.portions.iter().any(is))
        };
        match self {
            Self::DishOn => table.vessel == Some(Vessel::Dish) && run.is_some(),
            Self::FirstPortion => {
                has(|portion| portion.counts() && portion.verdict() == Verdict::On)
            }
            Self::Undo => has(|portion| matches!(portion.standing, PortionState::Struck(_))),
            Self::TooMuch => has(|portion| portion.counts() && portion.verdict() == Verdict::Heavy),
            Self::StopRun => state.bench.running().is_none(),
            Self::OpenBrine => state.screen == Screen::Mix && state.mix.page == Page::Brine,
            Self::WeighBrine => state.screen == Screen::Mix && state.mix.page == Page::Pouring,
            // The salt goes by the water, so it is right when both are.
            Self::WaterAndSalt => {
                let pouring = state.mix.pouring.as_ref();
                let salt = pouring.and_then(|pouring| pouring.lines.get(1));
                salt.is_some_and(|line| line.verdict == Some(Verdict::On))
            }
            Self::Ended => false,
        }
    }

    /// What to do, in one sentence.
    pub(crate) fn words(self, language: Language) -> Cow<'static, str> {
        match self {
            Self::DishOn => say!(language, "guide-dish-on"),
            Self::FirstPortion => say!(language, "guide-first-portion"),
            Self::Undo => {
                let button = say!(language, "button-undo-last");
                say!(language, "guide-undo", button = button.as_ref())
            }
            Self::TooMuch => say!(language, "guide-too-much"),
            Self::StopRun => {
                let button = say!(language, "button-stop-run");
                say!(language, "guide-stop-run", button = button.as_ref())
            }
            Self::OpenBrine => {
                let mix = say!(language, "rail-mix");
                let button = say!(language, "start-brine");
                say!(
                    language,
                    "guide-open-brine",
                    mix = mix.as_ref(),
                    button = button.as_ref()
                )
            }
            Self::WeighBrine => {
                let button = say!(language, "brine-mix-this");
                let weigh = say!(language, "mixing-onto-the-scale");
                say!(
                    language,
                    "guide-weigh-brine",
                    button = button.as_ref(),
                    weigh = weigh.as_ref()
                )
            }
            Self::WaterAndSalt => say!(language, "guide-water-and-salt"),
            Self::Ended => say!(language, "guide-ended"),
        }
    }
}
