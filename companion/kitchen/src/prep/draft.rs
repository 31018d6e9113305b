//! A menu being written: each thing is checked as it is said, and all of it before it is kept.

use super::board::BoardError;
use super::calendar::ResourceError;
use super::file::{
    BatchEntry, DATE, FileError, HandEntry, LENGTH, LONGEST_NAME, LONGEST_SOURCE, MOST_PORTIONS,
    MOST_SPARE, Menu, NeedsEntry, PreparationEntry, ResourceEntry, StepEntry, TIME_OF_DAY,
    WEEKDAYS, WhenEntry, length, range, weekday,
};
use super::keeping::{Keeping, KeepingError};
use super::step::{Need, Takes};
use super::table::{WrittenMenu, written};
use crate::heat::LogName;
use crate::units::Reason;
use crate::units::{InputError, parse_temperature};
use crate::written_name;
use jiff::SignedDuration;
use jiff::civil::{Date, Time};

/// A thing of a menu, by its number among its like.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum MenuPlace {
    /// The menu itself.
    Menu,
    /// A resource.
    Resource(usize),
    /// A pair of hands of a resource.
    Hand(usize, usize),
    /// A preparation and its batch.
    Preparation(usize),
    /// A step of a preparation.
    Step(usize, usize),
}

/// What can be said of a thing of a menu.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum MenuKey {
    /// What it is called.
    Name,
    /// When service opens.
    Opens,
    /// When service closes.
    Closes,
    /// How long before it is due each dish is to be ready.
    Spare,
    /// The first date of a menu; from when a resource works.
    From,
    /// The last date.
    Until,
    /// The days of the week with service.
    Days,
    /// How many places a resource has.
    Places,
    /// Until when a resource works.
    To,
    /// The days of the week on which it does not.
    Closed,
    /// Whether it does nothing else while service runs.
    Serves,
    /// What a pair of hands can do beyond what everybody can.
    Skills,
    /// When a preparation is due.
    Due,
    /// When it is better done.
    Preferred,
    /// What to serve in its place.
    Fallback,
    /// Whether it can be bought in.
    BuyIn,
    /// How many portions a batch makes.
    Portions,
    /// How long it keeps.
    Keeps,
    /// Where that comes from.
    Source,
    /// The dish that a batch becomes.
    Dish,
    /// How many portions a service needs.
    PerService,
    /// How many portions a cover needs.
    PerCover,
    /// Whether date marking applies.
    DateMarked,
    /// What is in it that people may be allergic to.
    Allergens,
    /// How long a step's work takes.
    Takes,
    /// How long a step rests.
    Rests,
    /// The resources that a step needs.
    Needs,
    /// What its hands must be able to do.
    Skill,
    /// Whether hands that serve may do it.
    InService,
    /// Before when it cannot begin.
    NotBefore,
    /// The steps that it waits for.
    After,
    /// The dish whose portions tick it.
    PortionsOf,
    /// How many of them.
    PortionsDone,
    /// The title of the batch that ticks it.
    BatchTitle,
    /// The heat log that must be in a band.
    Log,
    /// The lower end of the band.
    LogFrom,
    /// The upper end.
    LogTo,
}

/// Why a menu as a whole cannot be kept, and where that is said.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{error}")]
pub struct MenuRefused {
    /// Why.
    pub error: FileError,
    /// The thing and what is said of it, where one can be named.
    pub at: Option<(MenuPlace, MenuKey)>,
}

/// How a menu differs from another, preparation by preparation, by their names.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct MenuChanges {
    /// Preparations that the other does not have.
    pub added: Vec<String>,
    /// Preparations that only the other has.
    pub removed: Vec<String>,
    /// Preparations that are written otherwise.
    pub changed: Vec<String>,
    /// Whether the times of service, or the days with service, are others.
    pub times: bool,
    /// Whether the resources are others.
    pub resources: bool,
}

impl WrittenMenu {
    /// How it differs from another.
    #[must_use]
    pub fn changes_from(&self, before: &Self) -> MenuChanges {
        let (new, old) = (self.menu(), before.menu());
        let of = |menu: &Menu, name: &str| {
            let found = menu.preparation.iter().find(|known| known.name == name);
            found.cloned()
        };
        let mut changes = MenuChanges {
            times: (&new.opens, &new.closes, &new.spare, &new.days)
                != (&old.opens, &old.closes, &old.spare, &old.days),
            resources: new.resource != old.resource,
            ..MenuChanges::default()
        };
        for preparation in &new.preparation {
            let name = preparation.name.clone();
            match of(old, &name) {
                None => changes.added.push(name),
                Some(before) if before != *preparation => changes.changed.push(name),
                Some(_) => {}
            }
        }
        let gone = |known: &&PreparationEntry| of(new, &known.name).is_none();
        let names = old.preparation.iter().filter(gone);
        changes.removed = names.map(|known| known.name.clone()).collect();
        changes
    }
}

/// A menu being written. What is in it need not hang together yet.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct MenuDraft(Menu);

fn refused(key: &str, text: &str, expected: Reason) -> InputError {
    InputError::new(key, text, problem!("not-usable"), expected)
}

fn none_if_empty(text: &str) -> Option<&str> {
    Some(text).filter(|text| !text.is_empty())
}

fn time(key: &str, text: &str) -> Result<String, InputError> {
    let time: Time = text.parse().map_err(|_| refused(key, text, TIME_OF_DAY))?;
    Ok(time.strftime("%H:%M").to_string())
}

fn date(key: &str, text: &str) -> Result<String, InputError> {
    let date: Date = text.parse().map_err(|_| refused(key, text, DATE))?;
    Ok(date.to_string())
}

fn name(key: &str, text: &str) -> Result<String, InputError> {
    written_name::name(key, text, LONGEST_NAME, "hogget neck")
}

fn whole(key: &str, text: &str, most: u32) -> Result<u32, InputError> {
    let number = text.parse().ok().filter(|it| (1..=most).contains(it));
    number.ok_or_else(|| refused(key, text, expected!("from-to", low = 1, high = most)))
}

/// A length of time as a menu writes it: `3 days`, `1 h 30 min`.
fn length_words(length: SignedDuration) -> String {
    let seconds = length.as_secs();
    let (days, hours) = (seconds / 86_400, seconds / 3_600);
    let (minutes, seconds_left) = (seconds / 60 % 60, seconds % 60);
    if seconds % 86_400 == 0 && days > 0 {
        return if days == 1 {
            String::from("1 day")
        } else {
            format!("{days} days")
        };
    }
    let mut parts = Vec::new();
    if hours > 0 {
        parts.push(format!("{hours} h"));
    }
    if minutes > 0 || (hours == 0 && seconds_left == 0) {
        parts.push(format!("{minutes} min"));
    }
    if seconds_left > 0 {
        parts.push(format!("{seconds_left} s"));
    }
    parts.join(" ")
}

/// A range of a step's time: `40 min to 1 h`.
fn range_words(
    key: &str,
    text: &str,
    made: fn(SignedDuration, SignedDuration) -> Result<Takes, super::TakesError>,
) -> Result<String, InputError> {
    let (least, most) = range(text).ok_or_else(|| refused(key, text, LENGTH))?;
    made(least, most).map_err(|error| InputError::new(key, text, error.reason(), LENGTH))?;
    Ok(if least == most {
        length_words(least)
    } else {
        format!("{} to {}", length_words(least), length_words(most))
    })
}

fn temperature(key: &str, text: &str) -> Result<String, InputError> {
    parse_temperature(key, text)?;
    Ok(text.to_owned())
}

/// Puts a value into a list, or takes it out.
fn turn(list: &mut Vec<String>, value: String) {
    if list.contains(&value) {
        list.retain(|known| *known != value);
    } else {
        list.push(value);
    }
}

const DAYS: [&str; 7] = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"];

/// Days of the week in their order.
fn in_order(list: &mut [String]) {
    list.sort_by_key(|day| DAYS.iter().position(|known| known == day));
}

impl MenuDraft {
    /// One that says nothing yet.
    #[must_use]
    pub fn new() -> Self {
        Self::default()
    }

    /// One that says what a menu says.
    #[must_use]
    pub fn of(menu: &WrittenMenu) -> Self {
        Self(menu.menu().clone())
    }

    /// One that begins as a copy: it says the same but for its dates.
    #[must_use]
    pub fn copy_of(menu: &WrittenMenu) -> Self {
        let mut copy = menu.menu().clone();
        copy.from = None;
        copy.until = None;
        Self(copy)
    }

    /// The menu, where it hangs together.
    ///
    /// # Errors
    /// [`MenuRefused`] with what is wrong first, and where.
    pub fn written(&self) -> Result<WrittenMenu, MenuRefused> {
        WrittenMenu::of_menu(self.0.clone()).map_err(|error| MenuRefused {
            at: self.place_of(&error),
            error,
        })
    }

    /// The names of its resources, in their order.
    pub fn resources(&self) -> impl Iterator<Item = &str> {
        self.0.resource.iter().map(|known| known.name.as_str())
    }

    /// The names of the hands of a resource.
    pub fn hands(&self, resource: usize) -> impl Iterator<Item = &str> {
        let hands = self.0.resource.get(resource).map(|known| &known.who);
        hands.into_iter().flatten().map(|known| known.name.as_str())
    }

    /// The names of its preparations, in their order.
    pub fn preparations(&self) -> impl Iterator<Item = &str> {
        self.0.preparation.iter().map(|known| known.name.as_str())
    }

    /// The names of a preparation's steps.
    pub fn steps(&self, preparation: usize) -> impl Iterator<Item = &str> {
        let steps = self.0.preparation.get(preparation).map(|known| &known.step);
        steps.into_iter().flatten().map(|known| known.name.as_str())
    }

    /// Whether a preparation is made in batches.
    #[must_use]
    pub fn has_batch(&self, preparation: usize) -> bool {
        let known = self.0.preparation.get(preparation);
        known.is_some_and(|known| known.batch.is_some())
    }

    /// Every skill that any hands have, each once.
    #[must_use]
    pub fn skills(&self) -> Vec<String> {
        let hands = self.0.resource.iter().flat_map(|known| &known.who);
        each_once(hands.flat_map(|hand| &hand.skills))
    }

    /// Every allergen that is named in it, each once.
    #[must_use]
    pub fn allergens(&self) -> Vec<String> {
        let batches = self.0.preparation.iter().flat_map(|known| &known.batch);
        each_once(batches.flat_map(|batch| batch.allergens.iter().flatten()))
    }

    fn step(&self, preparation: usize, step: usize) -> Option<&StepEntry> {
        self.0.preparation.get(preparation)?.step.get(step)
    }

    fn step_mut(&mut self, preparation: usize, step: usize) -> Option<&mut StepEntry> {
        self.0.preparation.get_mut(preparation)?.step.get_mut(step)
    }

    fn hand_mut(&mut self, resource: usize, hand: usize) -> Option<&mut HandEntry> {
        self.0.resource.get_mut(resource)?.who.get_mut(hand)
    }

    /// What is said of a thing, as the menu writes it; `None` where nothing is.
    #[must_use]
    pub fn said(&self, place: MenuPlace, key: MenuKey) -> Option<String> {
        let menu = &self.0;
        match place {
            MenuPlace::Menu => match key {
                MenuKey::Opens => none_if_empty(&menu.opens).map(str::to_owned),
                MenuKey::Closes => menu.closes.clone(),
                MenuKey::Spare => menu.spare.clone(),
                MenuKey::From => menu.from.clone(),
                MenuKey::Until => menu.until.clone(),
                _ => None,
            },
            MenuPlace::Resource(nth) => {
                let resource = menu.resource.get(nth)?;
                match key {
                    MenuKey::Name => Some(resource.name.clone()),
                    MenuKey::Places => (resource.places > 0).then(|| resource.places.to_string()),
                    MenuKey::From => resource.from.clone(),
                    MenuKey::To => resource.to.clone(),
                    _ => None,
                }
            }
            MenuPlace::Hand(resource, nth) => {
                let hand = menu.resource.get(resource)?.who.get(nth)?;
                (key == MenuKey::Name).then(|| hand.name.clone())
            }
            MenuPlace::Preparation(nth) => {
                let preparation = menu.preparation.get(nth)?;
                let batch = preparation.batch.as_ref();
                match key {
                    MenuKey::Name => Some(preparation.name.clone()),
                    MenuKey::Due => preparation.due.clone(),
                    MenuKey::Preferred => preparation.preferred.clone(),
                    MenuKey::Fallback => preparation.fallback.clone(),
                    MenuKey::Portions => batch.map(|batch| batch.portions.to_string()),
                    MenuKey::Keeps => batch?.keeps.clone(),
                    MenuKey::Source => batch?.source.clone(),
                    MenuKey::Dish => batch?.dish.clone(),
                    MenuKey::PerService => batch?.needs.map(|it| it.to_string()),
                    MenuKey::PerCover => batch?.per_cover.map(|it| it.to_string()),
                    _ => None,
                }
            }
            MenuPlace::Step(preparation, nth) => {
                let step = self.step(preparation, nth)?;
                let when = step.when.as_ref();
                match key {
                    MenuKey::Name => Some(step.name.clone()),
                    MenuKey::Takes => step.takes.clone(),
                    MenuKey::Rests => step.rests.clone(),
                    MenuKey::Skill => step.skill.clone(),
                    MenuKey::NotBefore => step.not_before.clone(),
                    MenuKey::PortionsOf => step.portions_of.clone(),
                    MenuKey::PortionsDone => step.portions.map(|it| it.to_string()),
                    MenuKey::BatchTitle => step.batch.clone(),
                    MenuKey::Log => when.map(|when| when.log.clone()),
                    MenuKey::LogFrom => none_if_empty(&when?.from).map(str::to_owned),
                    MenuKey::LogTo => none_if_empty(&when?.to).map(str::to_owned),
                    _ => None,
                }
            }
        }
    }

    /// Says something of a thing; with nothing in it, that it is not said.
    ///
    /// # Errors
    /// What cannot be used, with what is expected; the draft stays as it was.
    pub fn say(&mut self, place: MenuPlace, key: MenuKey, text: &str) -> Result<(), InputError> {
        let text = text.trim();
        match place {
            MenuPlace::Menu => self.say_of_menu(key, text),
            MenuPlace::Resource(nth) => self.say_of_resource(nth, key, text),
            MenuPlace::Hand(resource, nth) => {
                let name = name("who", text)?;
                let mut others = self.0.resource.iter().enumerate().flat_map(|(r, known)| {
                    let of_it = known.who.iter().enumerate();
                    of_it.filter_map(move |(w, hand)| {
                        ((r, w) != (resource, nth)).then_some(&hand.name)
                    })
                });
                if others.any(|other| other.eq_ignore_ascii_case(&name)) {
                    return Err(taken("who", text));
                }
                if let Some(hand) = self.hand_mut(resource, nth) {
                    hand.name = name;
                }
                Ok(())
            }
            MenuPlace::Preparation(nth) => self.say_of_preparation(nth, key, text),
            MenuPlace::Step(preparation, nth) => self.say_of_step(preparation, nth, key, text),
        }
    }

    fn say_of_menu(&mut self, key: MenuKey, text: &str) -> Result<(), InputError> {
        let said = none_if_empty(text);
        let menu = &mut self.0;
        match key {
            MenuKey::Opens => menu.opens = time("opens", text)?,
            MenuKey::Closes => menu.closes = said.map(|it| time("closes", it)).transpose()?,
            MenuKey::From => menu.from = said.map(|it| date("from", it)).transpose()?,
            MenuKey::Until => menu.until = said.map(|it| date("until", it)).transpose()?,
            MenuKey::Spare => {
                let spare = |text: &str| {
                    let possible = SignedDuration::ZERO..=MOST_SPARE;
                    let length = length(text).filter(|length| possible.contains(length));
                    length
                        .map(length_words)
                        .ok_or_else(|| refused("spare", text, expected!("spare")))
                };
                menu.spare = said.map(spare).transpose()?;
            }
            _ => {}
        }
        Ok(())
    }

    fn say_of_resource(&mut self, nth: usize, key: MenuKey, text: &str) -> Result<(), InputError> {
        let said = none_if_empty(text);
        if key == MenuKey::Name {
            let name = name("resource", text)?;
            self.free("resource", &name, Some(nth), Self::resources)?;
            let Some(resource) = self.0.resource.get_mut(nth) else {
                return Ok(());
            };
            let before = std::mem::replace(&mut resource.name, name.clone());
            for step in self.0.preparation.iter_mut().flat_map(|it| &mut it.step) {
                let mut all = step.needs.as_ref().map_or_else(Vec::new, NeedsEntry::needs);
                for need in all.iter_mut().filter(|need| need.resource == before) {
                    need.resource.clone_from(&name);
                }
                step.needs = in_one_form(all);
            }
            return Ok(());
        }
        let Some(resource) = self.0.resource.get_mut(nth) else {
            return Ok(());
        };
        match key {
            MenuKey::Places => resource.places = whole("places", text, 1_000)? as usize,
            MenuKey::From => resource.from = said.map(|it| time("from", it)).transpose()?,
            MenuKey::To => resource.to = said.map(|it| time("to", it)).transpose()?,
            _ => {}
        }
        Ok(())
    }

    fn say_of_preparation(
        &mut self,
        nth: usize,
        key: MenuKey,
        text: &str,
    ) -> Result<(), InputError> {
        let said = none_if_empty(text);
        if key == MenuKey::Name {
            let name = name("preparation", text)?;
            self.free("preparation", &name, Some(nth), Self::preparations)?;
            return self.renaming(|menu| {
                if let Some(preparation) = menu.preparation.get_mut(nth) {
                    preparation.name = name;
                }
            });
        }
        let Some(preparation) = self.0.preparation.get_mut(nth) else {
            return Ok(());
        };
        match key {
            MenuKey::Due => preparation.due = said.map(|it| time("due", it)).transpose()?,
            MenuKey::Preferred => {
                preparation.preferred = said.map(|it| time("preferred", it)).transpose()?;
            }
            MenuKey::Fallback => {
                preparation.fallback = said.map(|it| name("fallback", it)).transpose()?;
            }
            MenuKey::Portions => {
                let portions = whole("batch.portions", text, MOST_PORTIONS)?;
                let batch = preparation.batch.get_or_insert_with(|| BatchEntry {
                    date_marked: true,
                    ..BatchEntry::default()
                });
                batch.portions = portions;
            }
            _ => {
                if let Some(batch) = &mut preparation.batch {
                    say_of_batch(batch, key, said)?;
                }
            }
        }
        Ok(())
    }

    fn say_of_step(
        &mut self,
        preparation: usize,
        nth: usize,
        key: MenuKey,
        text: &str,
    ) -> Result<(), InputError> {
        let said = none_if_empty(text);
        if key == MenuKey::Name {
            let name = name("step", text)?;
            self.free("step", &name, Some(nth), |it| it.steps(preparation))?;
            return self.renaming(|menu| {
                let known = menu.preparation.get_mut(preparation);
                if let Some(step) = known.and_then(|known| known.step.get_mut(nth)) {
                    step.name = name;
                }
            });
        }
        let Some(step) = self.step_mut(preparation, nth) else {
            return Ok(());
        };
        match key {
            MenuKey::Takes => {
                step.takes = Some(range_words("takes", text, Takes::work)?);
                step.rests = None;
            }
            MenuKey::Rests => {
                step.rests = Some(range_words("rests", text, Takes::rest)?);
                step.takes = None;
            }
            MenuKey::Skill => step.skill = said.map(|it| name("skill", it)).transpose()?,
            MenuKey::NotBefore => {
                step.not_before = said.map(|it| time("not_before", it)).transpose()?;
            }
            MenuKey::PortionsOf => {
                step.portions_of = said.map(|it| name("portions_of", it)).transpose()?;
                if step.portions_of.is_none() {
                    step.portions = None;
                }
            }
            MenuKey::PortionsDone => {
                let portions = said.map(|it| whole("portions", it, MOST_PORTIONS));
                step.portions = portions.transpose()?;
            }
            MenuKey::BatchTitle => step.batch = said.map(|it| name("batch", it)).transpose()?,
            MenuKey::Log => match said {
                None => step.when = None,
                Some(text) => {
                    let log = LogName::new("when.log", text)?;
                    let when = step.when.get_or_insert_with(WhenEntry::default);
                    when.log = log.to_string();
                }
            },
            MenuKey::LogFrom | MenuKey::LogTo => {
                let at = temperature("when", text)?;
                if let Some(when) = &mut step.when {
                    if key == MenuKey::LogFrom {
                        when.from = at;
                    } else {
                        when.to = at;
                    }
                }
            }
            _ => {}
        }
        Ok(())
    }

    /// Refuses a name that another of the same kind has.
    fn free<'a, I: Iterator<Item = &'a str>>(
        &'a self,
        key: &str,
        name: &str,
        but: Option<usize>,
        known: impl Fn(&'a Self) -> I,
    ) -> Result<(), InputError> {
        let mut others = known(self).enumerate().filter(|(nth, _)| Some(*nth) != but);
        if others.any(|(_, known)| known.eq_ignore_ascii_case(name)) {
            return Err(taken(key, name));
        }
        Ok(())
    }

    /// Changes names of steps, and what waits for them goes on waiting for the same.
    fn renaming(&mut self, change: impl FnOnce(&mut Menu)) -> Result<(), InputError> {
        let all = self.0.preparation.iter().enumerate();
        let waiting: Vec<((usize, usize), Vec<Waits>)> = all
            .flat_map(|(p, known)| (0..known.step.len()).map(move |s| (p, s)))
            .filter_map(|at| Some((at, self.waits(at)?)))
            .collect();
        change(&mut self.0);
        for (at, waits) in waiting {
            let after: Vec<String> = waits
                .into_iter()
                .map(|waits| match waits {
                    Waits::For(on) => self.step_words(at.0, on),
                    Waits::Unknown(text) => text,
                })
                .collect();
            if let Some(step) = self.step_mut(at.0, at.1) {
                step.after = Some(after);
            }
        }
        Ok(())
    }

    /// How a step of `preparation` names another that it waits for.
    fn step_words(&self, preparation: usize, (p, s): (usize, usize)) -> String {
        let name = self.step(p, s).map_or("", |step| step.name.as_str());
        let of = self.0.preparation.get(p).map_or("", |it| it.name.as_str());
        if p == preparation && !name.contains(": ") {
            name.to_owned()
        } else {
            format!("{of}: {name}")
        }
    }

    /// The step of a full name.
    fn step_named(&self, full: &str) -> Option<(usize, usize)> {
        let mut all = self.0.preparation.iter().enumerate().flat_map(|(p, of)| {
            let steps = of.step.iter().enumerate();
            steps.map(move |(s, step)| ((p, s), format!("{}: {}", of.name, step.name)))
        });
        all.find_map(|(at, known)| (known == full).then_some(at))
    }

    /// A step of a name without its preparation's, of which something is so.
    fn step_called(&self, name: &str, is: impl Fn((usize, usize)) -> bool) -> Option<MenuPlace> {
        let mut all = self.0.preparation.iter().enumerate().flat_map(|(p, of)| {
            let steps = of.step.iter().enumerate();
            steps.filter_map(move |(s, step)| (step.name == name).then_some((p, s)))
        });
        all.find(|at| is(*at)).map(|(p, s)| MenuPlace::Step(p, s))
    }

    fn waits(&self, (p, s): (usize, usize)) -> Option<Vec<Waits>> {
        let of = &self.0.preparation.get(p)?.name;
        let after = self.step(p, s)?.after.as_ref()?;
        Some(
            after
                .iter()
                .map(|text| {
                    let text = written_name::one_spelling(text);
                    let full = if text.contains(": ") {
                        text.clone()
                    } else {
                        format!("{of}: {text}")
                    };
                    self.step_named(&full)
                        .map_or(Waits::Unknown(text), Waits::For)
                })
                .collect(),
        )
    }

    /// The steps that a step is said to wait for; `None` where nothing is said, so that it
    /// waits for the step before it.
    #[must_use]
    pub fn waits_for(&self, preparation: usize, step: usize) -> Option<Vec<(usize, usize)>> {
        let known = self.waits((preparation, step))?.into_iter();
        Some(
            known
                .filter_map(|waits| match waits {
                    Waits::For(on) => Some(on),
                    Waits::Unknown(_) => None,
                })
                .collect(),
        )
    }

    /// It waits for another step, or no longer.
    pub fn turn_waits(&mut self, (preparation, step): (usize, usize), on: (usize, usize)) {
        let mut waits = self.waits_for(preparation, step).unwrap_or_default();
        if waits.contains(&on) {
            waits.retain(|known| *known != on);
        } else {
            waits.push(on);
        }
        let after = waits.into_iter().map(|on| self.step_words(preparation, on));
        let after = after.collect();
        if let Some(step) = self.step_mut(preparation, step) {
            step.after = Some(after);
        }
    }

    /// It waits for no step, or, unsaid again, for the step before it.
    pub fn wait_for_none(&mut self, preparation: usize, step: usize, none: bool) {
        if let Some(step) = self.step_mut(preparation, step) {
            step.after = none.then(Vec::new);
        }
    }

    /// Whether something is so that is either so or not.
    #[must_use]
    pub fn is(&self, place: MenuPlace, key: MenuKey) -> bool {
        let menu = &self.0;
        match (place, key) {
            (MenuPlace::Resource(nth), MenuKey::Serves) => {
                menu.resource.get(nth).is_some_and(|known| known.serves)
            }
            (MenuPlace::Preparation(nth), MenuKey::BuyIn) => {
                menu.preparation.get(nth).is_some_and(|known| known.buy_in)
            }
            (MenuPlace::Preparation(nth), MenuKey::DateMarked) => menu
                .preparation
                .get(nth)
                .and_then(|known| known.batch.as_ref())
                .is_some_and(|batch| batch.date_marked),
            (MenuPlace::Step(p, s), MenuKey::InService) => {
                self.step(p, s).is_some_and(|step| step.in_service)
            }
            _ => false,
        }
    }

    /// It is the other way round.
    pub fn turn(&mut self, place: MenuPlace, key: MenuKey) {
        let menu = &mut self.0;
        let said = match (place, key) {
            (MenuPlace::Resource(nth), MenuKey::Serves) => {
                menu.resource.get_mut(nth).map(|known| &mut known.serves)
            }
            (MenuPlace::Preparation(nth), MenuKey::BuyIn) => {
                menu.preparation.get_mut(nth).map(|known| &mut known.buy_in)
            }
            (MenuPlace::Preparation(nth), MenuKey::DateMarked) => menu
                .preparation
                .get_mut(nth)
                .and_then(|known| known.batch.as_mut())
                .map(|batch| &mut batch.date_marked),
            (MenuPlace::Step(p, s), MenuKey::InService) => {
                self.step_mut(p, s).map(|step| &mut step.in_service)
            }
            _ => None,
        };
        if let Some(said) = said {
            *said = !*said;
        }
    }

    /// What is said in a list: days, skills, allergens. `None` where nothing is said.
    #[must_use]
    pub fn listed(&self, place: MenuPlace, key: MenuKey) -> Option<&[String]> {
        let menu = &self.0;
        let list = match (place, key) {
            (MenuPlace::Menu, MenuKey::Days) => menu.days.as_ref(),
            (MenuPlace::Resource(nth), MenuKey::Closed) => {
                menu.resource.get(nth).map(|known| &known.closed)
            }
            (MenuPlace::Hand(resource, nth), MenuKey::Skills) => {
                let resource = menu.resource.get(resource);
                resource
                    .and_then(|known| known.who.get(nth))
                    .map(|hand| &hand.skills)
            }
            (MenuPlace::Preparation(nth), MenuKey::Allergens) => menu
                .preparation
                .get(nth)?
                .batch
                .as_ref()?
                .allergens
                .as_ref(),
            _ => None,
        };
        list.map(Vec::as_slice)
    }

    /// Puts a value into a list, or takes it out.
    ///
    /// # Errors
    /// A value that can be none of the list.
    pub fn turn_listed(
        &mut self,
        place: MenuPlace,
        key: MenuKey,
        value: &str,
    ) -> Result<(), InputError> {
        let day = |key: &str| {
            let day = value.trim().to_lowercase();
            let known = weekday(&day).is_some();
            known
                .then_some(day)
                .ok_or_else(|| refused(key, value, WEEKDAYS))
        };
        match (place, key) {
            (MenuPlace::Menu, MenuKey::Days) => {
                let day = day("days")?;
                let every = || DAYS.map(str::to_owned).to_vec();
                let days = self.0.days.get_or_insert_with(every);
                turn(days, day);
                in_order(days);
                if days.len() == DAYS.len() {
                    self.0.days = None;
                }
            }
            (MenuPlace::Resource(nth), MenuKey::Closed) => {
                let day = day("closed")?;
                if let Some(resource) = self.0.resource.get_mut(nth) {
                    turn(&mut resource.closed, day);
                    in_order(&mut resource.closed);
                }
            }
            (MenuPlace::Hand(resource, nth), MenuKey::Skills) => {
                let skill = name("skills", value)?;
                if let Some(hand) = self.hand_mut(resource, nth) {
                    turn(&mut hand.skills, skill);
                }
            }
            (MenuPlace::Preparation(nth), MenuKey::Allergens) => {
                let allergen = name("allergens", value)?;
                let preparation = self.0.preparation.get_mut(nth);
                if let Some(batch) = preparation.and_then(|known| known.batch.as_mut()) {
                    let list = batch.allergens.get_or_insert_with(Vec::new);
                    turn(list, allergen);
                    if list.is_empty() {
                        batch.allergens = None;
                    }
                }
            }
            _ => {}
        }
        Ok(())
    }

    /// No allergen is in a batch, or, unsaid again, nobody has entered any.
    pub fn no_allergens(&mut self, preparation: usize, none: bool) {
        let known = self.0.preparation.get_mut(preparation);
        if let Some(batch) = known.and_then(|known| known.batch.as_mut()) {
            batch.allergens = none.then(Vec::new);
        }
    }

    /// What a step needs.
    #[must_use]
    pub fn needs(&self, preparation: usize, step: usize) -> Vec<Need> {
        let step = self.step(preparation, step);
        let needs = step.and_then(|step| step.needs.as_ref());
        needs.map(NeedsEntry::needs).unwrap_or_default()
    }

    /// A step needs so many places of a resource.
    pub fn need(&mut self, preparation: usize, step: usize, resource: &str, places: u32) {
        let mut needs = self.needs(preparation, step);
        needs.retain(|need| need.resource != resource);
        if places > 0 {
            needs.push(Need {
                resource: resource.to_owned(),
                places,
            });
        }
        if let Some(step) = self.step_mut(preparation, step) {
            step.needs = in_one_form(needs);
        }
    }

    /// Adds a resource with one place; returns its number.
    ///
    /// # Errors
    /// A name that is none, or that another has.
    pub fn add_resource(&mut self, text: &str) -> Result<usize, InputError> {
        let name = name("resource", text)?;
        self.free("resource", &name, None, Self::resources)?;
        self.0.resource.push(ResourceEntry {
            name,
            places: 1,
            ..ResourceEntry::default()
        });
        Ok(self.0.resource.len() - 1)
    }

    /// Adds a pair of hands to a resource; returns its number.
    ///
    /// # Errors
    /// A name that is none, or that another has.
    pub fn add_hand(&mut self, resource: usize, text: &str) -> Result<usize, InputError> {
        let nth = self.hands(resource).count();
        if let Some(known) = self.0.resource.get_mut(resource) {
            known.who.push(HandEntry::default());
        }
        let named = self.say(MenuPlace::Hand(resource, nth), MenuKey::Name, text);
        if named.is_err()
            && let Some(known) = self.0.resource.get_mut(resource)
        {
            known.who.pop();
        }
        named.map(|()| nth)
    }

    /// Adds a preparation; returns its number.
    ///
    /// # Errors
    /// A name that is none, or that another has.
    pub fn add_preparation(&mut self, text: &str) -> Result<usize, InputError> {
        let name = name("preparation", text)?;
        self.free("preparation", &name, None, Self::preparations)?;
        self.0.preparation.push(PreparationEntry {
            name,
            ..PreparationEntry::default()
        });
        Ok(self.0.preparation.len() - 1)
    }

    /// Adds a step to a preparation, as its last; returns its number.
    ///
    /// # Errors
    /// A name that is none, or that another step of it has.
    pub fn add_step(&mut self, preparation: usize, text: &str) -> Result<usize, InputError> {
        let name = name("step", text)?;
        self.free("step", &name, None, |it| it.steps(preparation))?;
        let Some(known) = self.0.preparation.get_mut(preparation) else {
            return Err(refused("preparation", text, expected!("step-name")));
        };
        known.step.push(StepEntry {
            name,
            ..StepEntry::default()
        });
        Ok(known.step.len() - 1)
    }

    /// A preparation is no longer made in batches.
    pub fn no_batch(&mut self, preparation: usize) {
        if let Some(known) = self.0.preparation.get_mut(preparation) {
            known.batch = None;
        }
    }

    /// Takes a thing out. What waited for a step of it no longer does.
    pub fn remove(&mut self, place: MenuPlace) {
        let gone = |(p, s): (usize, usize)| match place {
            MenuPlace::Preparation(nth) => p == nth,
            MenuPlace::Step(of, nth) => (p, s) == (of, nth),
            _ => false,
        };
        let all: Vec<(usize, usize)> = (0..self.0.preparation.len())
            .flat_map(|p| (0..self.steps(p).count()).map(move |s| (p, s)))
            .collect();
        for (p, s) in all {
            let waits = self.waits_for(p, s).unwrap_or_default();
            for on in waits.iter().filter(|on| gone(**on)) {
                self.turn_waits((p, s), *on);
            }
            if waits.iter().any(|on| gone(*on))
                && let Some(step) = self.step_mut(p, s)
                && step.after.as_ref().is_some_and(Vec::is_empty)
            {
                step.after = None;
            }
        }
        match place {
            MenuPlace::Menu => {}
            MenuPlace::Resource(nth) if nth < self.0.resource.len() => {
                self.0.resource.remove(nth);
            }
            MenuPlace::Hand(resource, nth) => {
                if let Some(known) = self.0.resource.get_mut(resource)
                    && nth < known.who.len()
                {
                    known.who.remove(nth);
                }
            }
            MenuPlace::Preparation(nth) if nth < self.0.preparation.len() => {
                self.0.preparation.remove(nth);
            }
            MenuPlace::Step(preparation, nth) => {
                if let Some(known) = self.0.preparation.get_mut(preparation)
                    && nth < known.step.len()
                {
                    known.step.remove(nth);
                }
            }
            MenuPlace::Resource(_) | MenuPlace::Preparation(_) => {}
        }
    }

    /// Moves a step before the one above it, or after the one below; returns its number then.
    pub fn move_step(&mut self, preparation: usize, step: usize, up: bool) -> usize {
        let Some(known) = self.0.preparation.get_mut(preparation) else {
            return step;
        };
        let to = if up {
            step.checked_sub(1)
        } else {
            Some(step + 1)
        };
        match to.filter(|to| (*to).max(step) < known.step.len()) {
            Some(to) => {
                known.step.swap(step, to);
                to
            }
            None => step,
        }
    }

    /// What a refusal of the whole speaks of.
    fn place_of(&self, error: &FileError) -> Option<(MenuPlace, MenuKey)> {
        let resource = |name: &str| {
            let nth = self.resources().position(|known| known == name);
            nth.map(MenuPlace::Resource)
        };
        let preparation = |name: &str| {
            let nth = self.preparations().position(|known| known == name);
            nth.map(MenuPlace::Preparation)
        };
        let step = |full: &str| self.step_named(full).map(|(p, s)| MenuPlace::Step(p, s));
        match error {
            FileError::Syntax(_) | FileError::Goods(_) => None,
            FileError::Takes { step: full, .. } => {
                let at = step(full)?;
                let rests = self.said(at, MenuKey::Rests).is_some();
                Some((
                    at,
                    if rests {
                        MenuKey::Rests
                    } else {
                        MenuKey::Takes
                    },
                ))
            }
            FileError::Keeping {
                preparation: name,
                error,
            } => {
                let key = match error {
                    KeepingError::Length(_) => MenuKey::Keeps,
                    KeepingError::NoSource => MenuKey::Source,
                };
                Some((preparation(name)?, key))
            }
            FileError::Resource(ResourceError::Places { name, .. }) => {
                Some((resource(name)?, MenuKey::Places))
            }
            FileError::Resource(ResourceError::NeverOpen(name)) => {
                Some((resource(name)?, MenuKey::Closed))
            }
            FileError::Board(error) => match error {
                BoardError::NoSuchResource { step, resource }
                | BoardError::TooManyPlaces { step, resource, .. } => {
                    let needs = |(p, s): (usize, usize)| {
                        let needs = self.needs(p, s);
                        needs.iter().any(|need| need.resource == *resource)
                    };
                    Some((self.step_called(step, needs)?, MenuKey::Needs))
                }
                BoardError::Ring(step) => {
                    let waits = |(p, s): (usize, usize)| self.waits_for(p, s).is_some();
                    Some((self.step_called(step, waits)?, MenuKey::After))
                }
                BoardError::ResourceTwice(name) => Some((resource(name)?, MenuKey::Name)),
                BoardError::ClosesBeforeItOpens => Some((MenuPlace::Menu, MenuKey::Closes)),
                BoardError::NoSuchStep => None,
            },
            FileError::Field {
                place,
                field,
                value,
                ..
            } => {
                let menu = || (place == "menu").then_some(MenuPlace::Menu);
                Some(match *field {
                    "opens" => (menu()?, MenuKey::Opens),
                    "closes" => (menu()?, MenuKey::Closes),
                    "spare" => (menu()?, MenuKey::Spare),
                    "until" => (menu()?, MenuKey::Until),
                    "days" => (menu()?, MenuKey::Days),
                    "from" => (menu().or_else(|| resource(place))?, MenuKey::From),
                    "from, to" => {
                        let at = resource(place)?;
                        let from = self.said(at, MenuKey::From).is_some();
                        (at, if from { MenuKey::To } else { MenuKey::From })
                    }
                    "to" => (resource(place)?, MenuKey::To),
                    "closed" => (resource(place)?, MenuKey::Closed),
                    "who" => (resource(place)?, MenuKey::Places),
                    "who.name" => {
                        let MenuPlace::Resource(nth) = resource(place)? else {
                            return None;
                        };
                        let hand = self.hands(nth).position(|known| known == value)?;
                        (MenuPlace::Hand(nth, hand), MenuKey::Name)
                    }
                    "due" => (preparation(place)?, MenuKey::Due),
                    "preferred" => (preparation(place)?, MenuKey::Preferred),
                    "batch.portions" => (preparation(place)?, MenuKey::Portions),
                    "batch.keeps" => (preparation(place)?, MenuKey::Keeps),
                    "batch.source" => (preparation(place)?, MenuKey::Source),
                    "batch.needs" => (preparation(place)?, MenuKey::PerService),
                    "batch.per_cover" => (preparation(place)?, MenuKey::PerCover),
                    "takes, rests" | "takes" => (step(place)?, MenuKey::Takes),
                    "rests" => (step(place)?, MenuKey::Rests),
                    "not_before" => (step(place)?, MenuKey::NotBefore),
                    "after" => (step(place)?, MenuKey::After),
                    "skill" => (step(place)?, MenuKey::Skill),
                    "batch" => (step(place)?, MenuKey::BatchTitle),
                    "portions" => (step(place)?, MenuKey::PortionsDone),
                    "when.from" => (step(place)?, MenuKey::LogFrom),
                    "when.to" => (step(place)?, MenuKey::LogTo),
                    "name" => (step(place)?, MenuKey::Name),
                    _ => return None,
                })
            }
        }
    }
}

/// What a step is said to wait for.
enum Waits {
    For((usize, usize)),
    /// A name that no step has.
    Unknown(String),
}

fn taken(key: &str, text: &str) -> InputError {
    InputError::new(
        key,
        text,
        problem!("there-already"),
        expected!("name-of-own"),
    )
}

fn each_once<'a>(names: impl Iterator<Item = &'a String>) -> Vec<String> {
    let mut known: Vec<String> = names.cloned().collect();
    known.sort();
    known.dedup();
    known
}

/// In the one form that a menu that was read has them in.
fn in_one_form(mut needs: Vec<Need>) -> Option<NeedsEntry> {
    needs.sort_by(|one, other| one.resource.cmp(&other.resource));
    written(&needs)
}

fn say_of_batch(
    batch: &mut BatchEntry,
    key: MenuKey,
    said: Option<&str>,
) -> Result<(), InputError> {
    match key {
        MenuKey::Keeps => {
            let keeps = |text: &str| {
                const EXPECTED: Reason = expected!("keeps");
                let lasts = length(text).ok_or_else(|| refused("batch.keeps", text, EXPECTED))?;
                // Where it comes from is said beside it.
                Keeping::new(lasts, "said beside it").map_err(|error| {
                    InputError::new("batch.keeps", text, error.reason(), EXPECTED)
                })?;
                Ok::<_, InputError>(length_words(lasts))
            };
            batch.keeps = said.map(keeps).transpose()?;
            if batch.keeps.is_none() {
                batch.source = None;
            }
        }
        MenuKey::Source => {
            let source = |text: &str| {
                written_name::name("batch.source", text, LONGEST_SOURCE, "the kitchen's own")
            };
            batch.source = said.map(source).transpose()?;
        }
        MenuKey::Dish => batch.dish = said.map(|it| name("batch.dish", it)).transpose()?,
        MenuKey::PerService => {
            let needs = said.map(|it| whole("batch.needs", it, MOST_PORTIONS));
            batch.needs = needs.transpose()?;
            if batch.needs.is_some() {
                batch.per_cover = None;
            }
        }
        MenuKey::PerCover => {
            let share = |text: &str| {
                let share: Option<f64> = text.parse().ok();
                share
                    .filter(|share| *share > 0.0 && *share <= 100.0)
                    .ok_or_else(|| refused("batch.per_cover", text, expected!("per-cover")))
            };
            batch.per_cover = said.map(share).transpose()?;
            if batch.per_cover.is_some() {
                batch.needs = None;
            }
        }
        _ => {}
    }
    Ok(())
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    /// Two preparations of which one waits for a step of the other.
    const MENU: &str = r#"
        opens = "18:00"
        from = "2026-05-01"
        [[resource]]
        name = "hands"
        places = 2
        who = [{ name = "MO", skills = ["fish"] }]
        [[preparation]]
        name = "bream"
        [[preparation.step]]
        name = "fillet"
        takes = "40 min"
        needs = "hands"
        skill = "fish"
        [[preparation]]
        name = "oatcakes"
        [[preparation.step]]
        name = "mix"
        takes = "15 min"
        [[preparation.step]]
        name = "bake"
        takes = "25 min"
        after = ["mix", "bream: fillet"]
    "#;

    fn draft() -> MenuDraft {
        MenuDraft::of(&WrittenMenu::from_toml(MENU).unwrap())
    }

    const FILLET: MenuPlace = MenuPlace::Step(0, 0);
    const MIX: MenuPlace = MenuPlace::Step(1, 0);
    const BAKE: MenuPlace = MenuPlace::Step(1, 1);

    #[test]
    fn whatever_is_renamed_is_waited_for_and_needed_as_before() {
        let mut draft = draft();
        let waited = draft.waits_for(1, 1).unwrap();
        assert_eq!(waited, [(1, 0), (0, 0)]);
        draft.say(MIX, MenuKey::Name, "stir").unwrap();
        draft.say(FILLET, MenuKey::Name, "scale, fillet").unwrap();
        draft
            .say(MenuPlace::Preparation(0), MenuKey::Name, "sea bream")
            .unwrap();
        draft
            .say(MenuPlace::Resource(0), MenuKey::Name, "cooks")
            .unwrap();
        assert_eq!(draft.waits_for(1, 1).unwrap(), waited);
        let written = draft.written().unwrap().to_toml().unwrap();
        assert!(
            written.contains(r#"after = ["stir", "sea bream: scale, fillet"]"#),
            "{written}"
        );
        assert!(written.contains(r#"needs = "cooks""#), "{written}");
    }

    #[test]
    fn what_waited_for_a_step_that_is_taken_out_no_longer_does() {
        let mut draft = draft();
        draft.remove(MenuPlace::Preparation(0));
        assert_eq!(draft.waits_for(0, 1).unwrap(), [(0, 0)]);
        draft.remove(MenuPlace::Step(0, 0));
        assert_eq!(draft.waits_for(0, 0), None);
        draft.written().unwrap();
    }

    #[test]
    fn a_slip_is_refused_as_it_is_said_and_the_draft_stays() {
        let mut draft = draft();
        let before = draft.clone();
        for (place, key, text) in [
            (MenuPlace::Menu, MenuKey::Opens, "25:00"),
            (MenuPlace::Menu, MenuKey::Opens, ""),
            (MenuPlace::Menu, MenuKey::Spare, "13 h"),
            (MenuPlace::Menu, MenuKey::From, "2026-02-30"),
            (MenuPlace::Resource(0), MenuKey::Places, "0"),
            (MenuPlace::Preparation(0), MenuKey::Name, "Oatcakes"),
            (MenuPlace::Preparation(0), MenuKey::Portions, "10001"),
            (BAKE, MenuKey::Takes, "1 h to 40 min"),
            (BAKE, MenuKey::Takes, "31 days"),
            (BAKE, MenuKey::Name, "mix"),
            (BAKE, MenuKey::LogFrom, "hot"),
        ] {
            let refused = draft.say(place, key, text).unwrap_err();
            assert_eq!(refused.value(), text, "{refused}");
            assert_eq!(draft, before, "{refused}");
        }
    }

    /// What each thing alone cannot show is found in the whole, with its place.
    #[test]
    fn a_whole_that_does_not_hang_together_is_refused_where_it_is_said() {
        type Spoil = fn(&mut MenuDraft);
        let cases: [(Spoil, MenuPlace, MenuKey); 8] = [
            (
                |it| {
                    it.say(MenuPlace::Menu, MenuKey::Until, "2026-04-01")
                        .unwrap()
                },
                MenuPlace::Menu,
                MenuKey::From,
            ),
            (|it| it.need(1, 1, "oven", 1), BAKE, MenuKey::Needs),
            (|it| it.need(1, 1, "hands", 3), BAKE, MenuKey::Needs),
            (|it| it.turn_waits((1, 0), (1, 1)), MIX, MenuKey::After),
            (
                |it| it.say(FILLET, MenuKey::Skill, "pastry").unwrap(),
                FILLET,
                MenuKey::Skill,
            ),
            (
                |it| assert_eq!(it.add_step(1, "cool"), Ok(2)),
                MenuPlace::Step(1, 2),
                MenuKey::Takes,
            ),
            (
                |it| {
                    let at = MenuPlace::Preparation(0);
                    it.say(at, MenuKey::Portions, "20").unwrap();
                    it.say(at, MenuKey::Keeps, "3 days").unwrap();
                },
                MenuPlace::Preparation(0),
                MenuKey::Source,
            ),
            (
                |it| {
                    it.say(MenuPlace::Resource(0), MenuKey::From, "09:00")
                        .unwrap()
                },
                MenuPlace::Resource(0),
                MenuKey::To,
            ),
        ];
        for (spoil, place, key) in cases {
            let mut draft = draft();
            draft.written().unwrap();
            spoil(&mut draft);
            let refused = draft.written().unwrap_err();
            let ring = matches!(refused.error, FileError::Board(BoardError::Ring(_)));
            let at = refused.at.unwrap();
            // Of a ring any step may be named.
            assert_eq!(
                (at.0, at.1),
                (if ring { at.0 } else { place }, key),
                "{refused}"
            );
        }
    }

    #[test]
    fn lengths_are_written_as_a_cook_says_them() {
        for (typed, written) in [
            ("90 min", "1 h 30 min"),
            ("60 min", "1 h"),
            ("48 h", "2 days"),
            ("24 h", "1 day"),
            ("36 h", "36 h"),
            ("40 min to 60 min", "40 min to 1 h"),
            ("10 h to 2 days", "10 h to 2 days"),
        ] {
            let mut draft = draft();
            draft.say(BAKE, MenuKey::Rests, typed).unwrap();
            assert_eq!(draft.said(BAKE, MenuKey::Rests).unwrap(), written);
            assert_eq!(draft.said(BAKE, MenuKey::Takes), None);
        }
    }

    #[test]
    fn what_changed_is_told_by_preparation() {
        let before = WrittenMenu::from_toml(MENU).unwrap();
        let mut draft = MenuDraft::copy_of(&before);
        assert_eq!(draft.said(MenuPlace::Menu, MenuKey::From), None);
        let changes = draft.written().unwrap().changes_from(&before);
        assert_eq!(changes, MenuChanges::default());
        draft.say(MIX, MenuKey::Takes, "20 min").unwrap();
        draft.remove(MenuPlace::Preparation(0));
        draft.add_preparation("potted shrimp").unwrap();
        draft.say(MenuPlace::Menu, MenuKey::Opens, "17:30").unwrap();
        let changes = draft.written().unwrap().changes_from(&before);
        assert_eq!(changes.added, ["potted shrimp"]);
        assert_eq!(changes.removed, ["bream"]);
        assert_eq!(changes.changed, ["oatcakes"]);
        assert!(changes.times && !changes.resources);
    }
}
