//! A mix walked through with the scale alone, hands free.

use super::scale::Rest;
use super::{Approach, Mix, MixError, ScaleLook};
use crate::cure::{CuringAgent, NitriteFraction};
use evenhand_protocol::{Mass, Uptime, Verdict};

/// How long a pour rests on its target before the pouring goes on, in
/// milliseconds. This and the waits below are choices of ours: as short as a
/// look up at the screen, and longer where going on may be wrong.
const ON: u64 = 1_500;
/// The same where nothing says yet how much it should be: the cook may be
/// fetching more.
const OPEN: u64 = 4_000;
/// The same over the target: the cook may be spooning some out.
const OVER: u64 = 6_000;
/// How long something is on before it is being poured, and no touch of the hand.
const COMING: u64 = 500;
/// How long a vessel rests before it is taken as the vessel.
const VESSEL: u64 = 1_000;
/// The least that is taken for a vessel.
const LIGHTEST_VESSEL: Mass = Mass::from_grams(5);

/// What the pouring waits for.
#[derive(Debug, Clone, PartialEq)]
pub enum Awaited {
    /// For the vessel to stand on the scale.
    Vessel,
    /// For this item to be poured.
    Pouring(usize),
    /// This item comes next and something stands in its way.
    Held(usize, MixError),
    /// For nothing: every item is on its target. Another can be chosen still.
    Finished,
}

/// What just happened.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PourEvent {
    /// A vessel stands on the scale.
    VesselOn(Mass),
    /// So much of an item went in, less than nothing where it came out.
    Poured {
        /// Which item.
        item: usize,
        /// How much.
        mass: Mass,
    },
    /// The scale started anew in the middle of a pour: what went in between
    /// its last rest and now is not known.
    StartedAnew,
    /// Every item is on its target.
    Finished,
}

/// Why the cook's wish could not be carried out.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum PouringError {
    /// Nothing was seen of the scale yet, or it moves.
    #[error("the scale is not steady: let it come to rest first")]
    NotSteady,
    /// Something came onto the scale while an item was held back.
    #[error(
        "{:+.1} g came onto the scale before the label was confirmed: put it right first, then go on",
        .0.grams()
    )]
    ChangedMeanwhile(Mass),
    /// Something came onto the scale since the last weighing on record, and it
    /// may be a curing agent that is not all in yet.
    #[error(
        "what came on may be {0}: say what it is; where nobody knows, put the mix aside and begin again, \
         with new meat"
    )]
    MayBeAgent(CuringAgent),
    /// Nothing was poured that could have been something else.
    #[error("nothing was poured yet that could be something else")]
    NothingPoured,
    /// A curing agent, which is never taken for anything else.
    #[error("a curing agent is not exchanged for anything else: begin again, with new meat")]
    Agent,
    /// The mix refused it.
    #[error(transparent)]
    Mix(#[from] MixError),
}

/// A mix, walked through by what the scale shows: each pour ends by itself
/// when it has come to rest on its target, the next begins where it ended (so
/// nothing is tared by hand), and any other ingredient can be chosen in
/// between.
#[derive(Debug, Clone, PartialEq)]
pub struct Pouring {
    mix: Mix,
    stage: Awaited,
    rest: Rest,
    look: Option<ScaleLook>,
    /// Where the pour under way began.
    from: Mass,
    vessel: Mass,
    capacity: Option<Mass>,
    vessel_takes: Option<Mass>,
    wanted: Option<usize>,
    rebase: bool,
    approach: Option<Approach>,
    rested: Option<u64>,
    last: Option<(usize, Mass)>,
    least: Mass,
    /// What the scale is to show where a mix on record is gone on with: the
    /// vessel as it was, with all that is on record.
    expected: Option<Mass>,
    /// Whether what came on meanwhile was said to be the curing agent, whose
    /// label is still to be read.
    claimed: bool,
    /// Since when something has been on that was not taken over yet.
    coming: Option<Uptime>,
}

impl Pouring {
    /// Begins to pour a mix. `least` is the smallest change that
    /// counts as a pour; `capacity` the most the scale takes, vessel and all;
    /// `vessel_takes` the most of the mix the vessel holds.
    #[must_use]
    pub const fn new(
        mix: Mix,
        least: Mass,
        capacity: Option<Mass>,
        vessel_takes: Option<Mass>,
    ) -> Self {
        Self {
            mix,
            stage: Awaited::Vessel,
            rest: Rest(None),
            look: None,
            from: Mass::ZERO,
            vessel: Mass::ZERO,
            capacity,
            vessel_takes,
            wanted: None,
            rebase: false,
            approach: None,
            rested: None,
            last: None,
            least,
            expected: None,
            claimed: false,
            coming: None,
        }
    }

    /// Goes on with a mix that was begun before in a vessel of that weight. It
    /// waits for the scale to show the vessel with what is in it; where it
    /// shows something else, the cook has to say what that is.
    #[must_use]
    pub fn resumed(
        mix: Mix,
        least: Mass,
        capacity: Option<Mass>,
        vessel_takes: Option<Mass>,
        vessel: Mass,
    ) -> Self {
        let expected = Some(vessel + mix.in_the_vessel());
        Self {
            expected,
            vessel,
            ..Self::new(mix, least, capacity, vessel_takes)
        }
    }

    /// Whether it waits for the vessel of a mix that was begun before.
    #[must_use]
    pub fn is_resuming(&self) -> bool {
        self.stage == Awaited::Vessel && self.expected.is_some()
    }

    /// How much more the steady scale shows than is on record of a mix that was
    /// begun before, less than nothing where it is less; `None` where it is the
    /// same, and once it goes on.
    #[must_use]
    pub fn came_meanwhile(&self) -> Option<Mass> {
        let look = self.look.filter(|look| look.stable)?;
        let came = look.mass - self.expected.filter(|_| self.is_resuming())?;
        (came.abs() >= self.least).then_some(came)
    }

    /// The most of the mix that the vessel holds, where that is known.
    #[must_use]
    pub const fn vessel_takes(&self) -> Option<Mass> {
        self.vessel_takes
    }

    /// The mix.
    #[must_use]
    pub const fn mix(&self) -> &Mix {
        &self.mix
    }

    /// What it waits for.
    #[must_use]
    pub const fn stage(&self) -> &Awaited {
        &self.stage
    }

    /// The vessel's own weight; nothing where there is none.
    #[must_use]
    pub const fn vessel(&self) -> Mass {
        self.vessel
    }

    /// What there is room for in the vessel and on the scale, where that is
    /// known.
    #[must_use]
    pub fn room(&self) -> Option<Mass> {
        let scale = self.capacity.map(|capacity| capacity - self.vessel);
        match (scale, self.vessel_takes) {
            (Some(scale), Some(takes)) => Some(scale.min(takes)),
            (one, other) => one.or(other),
        }
    }

    /// The live approach of the pour under way.
    #[must_use]
    pub const fn approach(&self) -> Option<Approach> {
        match self.stage {
            Awaited::Pouring(_) => self.approach,
            _ => None,
        }
    }

    /// The item that the cook chose, while the scale comes to rest.
    #[must_use]
    pub const fn wanted(&self) -> Option<usize> {
        self.wanted
    }

    /// In how many milliseconds it goes on by itself if nothing moves.
    #[must_use]
    pub fn goes_on_in(&self) -> Option<u64> {
        if !self.something_came() {
            return None;
        }
        Some(self.wait()?.saturating_sub(self.rested?))
    }

    /// Whether something is being poured that is not taken over yet: more has
    /// been on for a while than where the pour began.
    #[must_use]
    pub fn is_coming(&self) -> bool {
        let looked = self.look.zip(self.coming);
        looked
            .is_some_and(|(look, since)| look.at.millis().saturating_sub(since.millis()) >= COMING)
    }

    fn something_came(&self) -> bool {
        self.look
            .is_some_and(|look| (look.mass - self.from).abs() >= self.least)
    }

    /// How long the pour as it stands has to rest; `None` where it never ends
    /// by itself.
    fn wait(&self) -> Option<u64> {
        let (Awaited::Pouring(item), Some(Approach::Pouring { verdict, .. })) =
            (&self.stage, self.approach)
        else {
            return None;
        };
        let agent = self.mix.formula().items()[*item].ingredient().agent();
        match (verdict, agent) {
            (Some(Verdict::On), _) => Some(ON),
            (None, _) => Some(OPEN),
            // Too much of a curing agent is the cook's to say.
            (Some(Verdict::Heavy), None) => Some(OVER),
            (Some(Verdict::Heavy), Some(_)) | (Some(Verdict::Short), _) => None,
        }
    }

    // What the scale shows.

    /// Takes in a look at the scale; says what happened by it.
    ///
    /// # Errors
    /// More taken out than was in: the mix is as it was, and the pour stays
    /// open.
    pub fn take(&mut self, look: ScaleLook) -> Result<Vec<PourEvent>, MixError> {
        let mut steps = Vec::new();
        if self.look.is_some_and(|before| look.at < before.at) {
            self.started_anew(&mut steps)?;
        }
        self.look = Some(look);
        self.coming = match self.stage {
            Awaited::Pouring(_) if look.mass - self.from >= self.least => {
                self.coming.or(Some(look.at))
            }
            _ => None,
        };
        match self.stage {
            Awaited::Vessel => {
                self.rested = self.rest.take(look, self.least);
                let is_it = match self.expected {
                    None => look.mass >= LIGHTEST_VESSEL,
                    Some(expected) => (look.mass - expected).abs() < self.least,
                };
                if is_it && self.rested.is_some_and(|rested| rested >= VESSEL) {
                    let vessel = match self.expected {
                        None => look.mass,
                        Some(_) => self.vessel,
                    };
                    steps.push(PourEvent::VesselOn(vessel));
                    self.vessel_is(vessel)?;
                    self.go_on(look, &mut steps);
                }
            }
            Awaited::Pouring(item) => {
                if self.rebase {
                    if look.stable {
                        self.rebase = false;
                        self.begin(item, look);
                    }
                    return Ok(steps);
                }
                self.approach = Some(self.mix.observe(look.mass, look.stable)?);
                if self.approach == Some(Approach::VesselOff) {
                    self.rest.clear();
                    self.rested = None;
                    return Ok(steps);
                }
                self.rested = self.rest.take(look, self.least);
                if self.rested.is_none() {
                    return Ok(steps);
                }
                if let Some(wanted) = self.wanted.take() {
                    self.take_over(item, &mut steps)?;
                    self.begin(wanted, look);
                } else if self.goes_on_in() == Some(0) {
                    self.take_over(item, &mut steps)?;
                    self.go_on(look, &mut steps);
                }
            }
            Awaited::Held(..) | Awaited::Finished => {
                if look.stable
                    && let Some(wanted) = self.wanted.take()
                {
                    self.begin(wanted, look);
                }
            }
        }
        Ok(steps)
    }

    /// The scale lost power: its readings before and after may not compare, so
    /// the pour is taken over as it last rested and begins anew.
    fn started_anew(&mut self, steps: &mut Vec<PourEvent>) -> Result<(), MixError> {
        self.rest.clear();
        self.coming = None;
        if let Awaited::Pouring(item) = self.stage {
            self.take_over(item, steps)?;
            self.rebase = true;
            steps.push(PourEvent::StartedAnew);
        }
        Ok(())
    }

    fn vessel_is(&mut self, vessel: Mass) -> Result<(), MixError> {
        self.vessel = vessel;
        self.mix
            .set_room(self.room().filter(|room| *room > Mass::ZERO))
    }

    /// Takes the pour under way over as it last rested, where there is one
    /// worth it.
    fn take_over(&mut self, item: usize, steps: &mut Vec<PourEvent>) -> Result<(), MixError> {
        let before = self.mix.poured(item);
        let moved = self
            .look
            .is_some_and(|look| (look.mass - self.from).abs() >= self.least);
        if !moved {
            self.mix.leave_off();
            return Ok(());
        }
        match self.mix.move_on() {
            Ok(_) => {
                let mass = self.mix.poured(item) - before;
                if mass != Mass::ZERO {
                    self.last = Some((item, mass));
                    steps.push(PourEvent::Poured { item, mass });
                }
                Ok(())
            }
            Err(MixError::NothingChosen | MixError::NotSettled) => {
                self.mix.leave_off();
                Ok(())
            }
            Err(error) => Err(error),
        }
    }

    /// Goes on with the next item that is short.
    fn go_on(&mut self, look: ScaleLook, steps: &mut Vec<PourEvent>) {
        match self.mix.next() {
            Some(next) => self.begin(next, look),
            None => {
                self.stage = Awaited::Finished;
                steps.push(PourEvent::Finished);
            }
        }
    }

    fn begin(&mut self, item: usize, look: ScaleLook) {
        self.from = look.mass;
        self.rest.clear();
        self.rested = None;
        self.approach = None;
        self.stage = match self.mix.choose(item, look.mass) {
            Ok(()) => {
                self.approach = self.mix.observe(look.mass, look.stable).ok();
                Awaited::Pouring(item)
            }
            Err(error) => Awaited::Held(item, error),
        };
    }

    // What the cook wishes.

    /// There is no vessel, or it stands there already as it is to be counted
    /// off: begin with what the scale shows now.
    ///
    /// # Errors
    /// A scale that is not steady; more on it than is on record of a mix that
    /// was begun before, where that may be a curing agent.
    pub fn begin_as_it_stands(&mut self) -> Result<Vec<PourEvent>, PouringError> {
        let look = self.steady()?;
        let more = self.came_meanwhile().is_some_and(|came| came > Mass::ZERO);
        if let (true, Some((item, agent))) = (more, self.agent())
            && self.mix.is_short(item)
        {
            return Err(PouringError::MayBeAgent(agent));
        }
        let mut steps = Vec::new();
        if self.stage == Awaited::Vessel {
            let vessel = look.mass - self.mix.in_the_vessel();
            self.vessel_is(vessel.max(Mass::ZERO))?;
            self.go_on(look, &mut steps);
        }
        Ok(steps)
    }

    fn agent(&self) -> Option<(usize, CuringAgent)> {
        let mut items = self.mix.formula().items().iter().enumerate();
        items.find_map(|(item, line)| Some((item, line.ingredient().agent()?.clone())))
    }

    fn steady(&self) -> Result<ScaleLook, PouringError> {
        self.look
            .filter(|look| look.stable)
            .ok_or(PouringError::NotSteady)
    }

    /// Pours another item next, in any order, also one that was poured before;
    /// the pour under way ends when the scale comes to rest.
    ///
    /// # Errors
    /// No such item.
    pub fn choose(&mut self, item: usize) -> Result<(), PouringError> {
        if item >= self.mix.formula().items().len() {
            return Err(MixError::NoSuchItem(item).into());
        }
        self.wanted = Some(item);
        Ok(())
    }

    /// Ends the pour under way without waiting, over or short as it is.
    ///
    /// # Errors
    /// A scale that is not steady, nothing being poured.
    pub fn go_on_now(&mut self) -> Result<Vec<PourEvent>, PouringError> {
        let look = self.steady()?;
        let Awaited::Pouring(item) = self.stage else {
            return Err(MixError::NothingChosen.into());
        };
        let mut steps = Vec::new();
        self.take_over(item, &mut steps)?;
        match self.next_after(item) {
            Some(next) => self.begin(next, look),
            None => {
                self.stage = Awaited::Finished;
                steps.push(PourEvent::Finished);
            }
        }
        Ok(steps)
    }

    /// The next item that is short, the one just left last of all.
    fn next_after(&self, item: usize) -> Option<usize> {
        let count = self.mix.formula().items().len();
        (1..=count)
            .map(|on| (item + on) % count)
            .find(|&other| self.mix.is_short(other))
    }

    /// What was poured last was this item and not the one it was taken for; in
    /// a mix that is gone on with, what came on since the last weighing on
    /// record was this item.
    ///
    /// # Errors
    /// Nothing poured, a curing agent on either side, a scale that is not
    /// steady.
    pub fn that_was(&mut self, item: usize) -> Result<Vec<PourEvent>, PouringError> {
        let look = self.steady()?;
        let is_agent = |pouring: &Self, item: usize| {
            pouring
                .mix
                .formula()
                .items()
                .get(item)
                .ok_or(MixError::NoSuchItem(item))
                .map(|item| item.ingredient().agent().is_some())
        };
        if self.is_resuming() {
            let came = self.came_meanwhile().filter(|came| *came > Mass::ZERO);
            let (Some(_), Some(expected)) = (came, self.expected) else {
                return Err(PouringError::NothingPoured);
            };
            self.vessel_is(self.vessel)?;
            self.from = expected;
            self.claimed = is_agent(self, item)?;
            self.take_up(item, look)?;
            return Ok(Vec::new());
        }
        if is_agent(self, item)? {
            return Err(PouringError::Agent);
        }
        let mut steps = Vec::new();
        if let Awaited::Pouring(current) = self.stage
            && self.something_came()
        {
            if is_agent(self, current)? {
                return Err(PouringError::Agent);
            }
            let from = self.from;
            self.mix.leave_off();
            self.mix.choose(item, from)?;
            self.approach = Some(self.mix.observe(look.mass, true)?);
            self.stage = Awaited::Pouring(item);
            self.rest.clear();
            return Ok(steps);
        }
        let (was, mass) = self.last.ok_or(PouringError::NothingPoured)?;
        if is_agent(self, was)? {
            return Err(PouringError::Agent);
        }
        if was == item {
            return Ok(steps);
        }
        self.mix.leave_off();
        self.mix.pour(was, -mass)?;
        self.mix.pour(item, mass)?;
        steps.push(PourEvent::Poured {
            item: was,
            mass: -mass,
        });
        steps.push(PourEvent::Poured { item, mass });
        self.last = Some((item, mass));
        self.go_on(look, &mut steps);
        Ok(steps)
    }

    /// Takes what is on the scale since `from` up as this item.
    fn take_up(&mut self, item: usize, look: ScaleLook) -> Result<(), PouringError> {
        match self.mix.choose(item, self.from) {
            Ok(()) => {
                self.claimed = false;
                self.approach = Some(self.mix.observe(look.mass, look.stable)?);
                self.stage = Awaited::Pouring(item);
                self.rest.clear();
            }
            Err(error @ MixError::NotConfirmed(_)) if self.claimed => {
                self.stage = Awaited::Held(item, error);
            }
            Err(error) => return Err(error.into()),
        }
        Ok(())
    }

    /// The nitrite fraction was read from the packet in the hand; the agent
    /// that was held back can be poured, where nothing came onto the scale
    /// meanwhile.
    ///
    /// # Errors
    /// Another fraction than the mix was worked out for, a scale that is not
    /// steady or shows something else than when the agent was held back.
    pub fn confirm_label(&mut self, read: NitriteFraction) -> Result<(), PouringError> {
        self.mix.confirm_label(read)?;
        if let Awaited::Held(item, _) = self.stage {
            let look = self.steady()?;
            if self.claimed {
                return self.take_up(item, look);
            }
            let came = look.mass - self.from;
            if came.abs() >= self.least {
                return Err(PouringError::ChangedMeanwhile(came));
            }
            self.begin(item, look);
        }
        Ok(())
    }

    /// Some of the whole mix was taken out, stirred well, and the scale shows
    /// what is left.
    ///
    /// # Errors
    /// A scale that is not steady; more on it than before, or less than the
    /// vessel.
    pub fn some_was_taken_out(&mut self) -> Result<Mass, PouringError> {
        let look = self.steady()?;
        let taken = self.from - look.mass;
        self.mix.leave_off();
        self.mix.take_out(taken)?;
        let mut steps = Vec::new();
        self.go_on(look, &mut steps);
        Ok(taken)
    }
}
