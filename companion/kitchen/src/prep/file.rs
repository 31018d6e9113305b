//! A board as a TOML text: what a kitchen writes down once for a menu.

use super::batches::further_batch;
use super::board::{Board, BoardError, Instead};
use super::calendar::{Hours, Resource, ResourceError};
use super::keeping::{Keeping, KeepingError};
use super::step::{InBand, Need, Progress, Step, Takes, TakesError, TickedBy};
use super::supply::{BatchOf, Needs};
use super::who::Hand;
use crate::toml_text;
use crate::units::{Reason, typed};
use crate::units::{excerpt, parse_temperature};
use crate::written_name;
use jiff::civil::{Date, Time, Weekday};
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Span, SpanRelativeTo, Timestamp};
use serde::de::Error as _;
use serde::{Deserialize, Deserializer, Serialize};
use std::collections::{BTreeMap, HashMap};

/// Why a menu text was refused. Nothing of a refused text is used.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum FileError {
    /// It is not TOML, or a field is missing, unknown or of the wrong kind.
    #[error("the menu file cannot be read: {0}")]
    Syntax(String),
    /// The same of a list of goods.
    #[error("the list of goods cannot be read: {0}")]
    Goods(String),
    /// A field's value makes no sense.
    #[error(
        "{}: {field} is '{}'; {}",
        excerpt(place),
        excerpt(value),
        expected.in_english()
    )]
    Field {
        /// Where.
        place: String,
        /// The field.
        field: &'static str,
        /// Its value.
        value: String,
        /// What was expected.
        expected: Box<Reason>,
    },
    /// A step's time makes no sense.
    #[error("step '{}': {error}", excerpt(step))]
    Takes {
        /// The step.
        step: String,
        /// Why.
        error: TakesError,
    },
    /// How long a batch keeps makes no sense.
    #[error("{preparation}: {error}")]
    Keeping {
        /// The preparation.
        preparation: String,
        /// Why.
        error: KeepingError,
    },
    /// A resource makes no sense.
    #[error(transparent)]
    Resource(#[from] ResourceError),
    /// The board does not hang together.
    #[error(transparent)]
    Board(#[from] BoardError),
}

impl FileError {
    /// Why, as what is wrong with something typed.
    #[must_use]
    pub fn reason(&self) -> Reason {
        match self {
            Self::Syntax(why) | Self::Goods(why) => problem!("not-toml", why = typed(why)),
            Self::Field { place, field, .. } => {
                problem!("makes-no-sense", key = field, place = typed(place))
            }
            Self::Takes { error, .. } => error.reason(),
            Self::Keeping { error, .. } => error.reason(),
            Self::Resource(error) => error.reason(),
            Self::Board(error) => error.reason(),
        }
    }
}

/// The longest name in a menu, in characters.
pub(super) const LONGEST_NAME: usize = 80;

/// A name in one spelling, short enough for a line.
fn name<'de, D: Deserializer<'de>>(from: D) -> Result<String, D::Error> {
    let text = String::deserialize(from)?;
    written_name::name("name", &text, LONGEST_NAME, "turbot: cut").map_err(D::Error::custom)
}

fn name_if_any<'de, D: Deserializer<'de>>(from: D) -> Result<Option<String>, D::Error> {
    name(from).map(Some)
}

fn names<'de, D: Deserializer<'de>>(from: D) -> Result<Vec<String>, D::Error> {
    Vec::<String>::deserialize(from)?
        .iter()
        .map(|text| {
            written_name::name("name", text, LONGEST_NAME, "celery").map_err(D::Error::custom)
        })
        .collect()
}

fn names_if_any<'de, D: Deserializer<'de>>(from: D) -> Result<Option<Vec<String>>, D::Error> {
    names(from).map(Some)
}

/// The longest that a source is cited, in characters.
pub(super) const LONGEST_SOURCE: usize = 160;

fn source_if_any<'de, D: Deserializer<'de>>(from: D) -> Result<Option<String>, D::Error> {
    let text = String::deserialize(from)?;
    written_name::name("source", &text, LONGEST_SOURCE, "the kitchen's own")
        .map(Some)
        .map_err(D::Error::custom)
}

#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Menu {
    pub(super) opens: String,
    /// When service ends; past midnight where not after `opens`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) closes: Option<String>,
    /// How long before it is due each dish is to be ready, where the day allows it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) spare: Option<String>,
    /// The first and the last date of the menu.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) from: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) until: Option<String>,
    /// Days of the week with service, as "fri"; every day, when left out.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) days: Option<Vec<String>>,
    #[serde(default)]
    pub(super) resource: Vec<ResourceEntry>,
    pub(super) preparation: Vec<PreparationEntry>,
}

#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct ResourceEntry {
    #[serde(deserialize_with = "name")]
    pub(super) name: String,
    pub(super) places: usize,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) from: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) to: Option<String>,
    /// Days of the week on which it does not work.
    #[serde(default)]
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub(super) closed: Vec<String>,
    /// It does nothing else while service runs.
    #[serde(default)]
    #[serde(skip_serializing_if = "is_false")]
    pub(super) serves: bool,
    /// Its hands by name, as far as they have one.
    #[serde(default)]
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub(super) who: Vec<HandEntry>,
}

#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct HandEntry {
    /// A name or a mark.
    #[serde(deserialize_with = "name")]
    pub(super) name: String,
    /// What it can do beyond what everybody can.
    #[serde(default, deserialize_with = "names")]
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub(super) skills: Vec<String>,
}

impl ResourceEntry {
    fn hands(&self, others: &[ResourceEntry]) -> Result<Vec<Hand>, FileError> {
        let wrong = |name, value: &str, expected| FileError::Field {
            place: self.name.clone(),
            field: name,
            value: value.to_owned(),
            expected: Box::new(expected),
        };
        if self.who.len() > self.places {
            return Err(wrong(
                "who",
                &self.who.len().to_string(),
                expected!("hands-at-most"),
            ));
        }
        let mut hands = Vec::new();
        for entry in &self.who {
            let all = others.iter().flat_map(|other| &other.who);
            if all
                .filter(|known| known.name.eq_ignore_ascii_case(&entry.name))
                .count()
                > 1
            {
                return Err(wrong("who.name", &entry.name, expected!("name-once")));
            }
            hands.push(Hand {
                name: entry.name.clone(),
                skills: entry.skills.clone(),
            });
        }
        Ok(hands)
    }
}

/// What the places of a resource are called that have a skill.
fn skilled(resource: &str, skill: &str) -> String {
    format!("{resource} ({skill})")
}

#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct PreparationEntry {
    #[serde(deserialize_with = "name")]
    pub(super) name: String,
    /// When it is due; when service opens, when left out.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) due: Option<String>,
    /// When it is better done.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) preferred: Option<String>,
    /// What to serve in its place.
    #[serde(default, deserialize_with = "name_if_any")]
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) fallback: Option<String>,
    /// It can be bought in.
    #[serde(default)]
    #[serde(skip_serializing_if = "is_false")]
    pub(super) buy_in: bool,
    /// It is made in batches that may feed several services.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) batch: Option<BatchEntry>,
    pub(super) step: Vec<StepEntry>,
}

#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct BatchEntry {
    /// How many portions it makes.
    pub(super) portions: u32,
    /// How long it keeps once finished.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) keeps: Option<String>,
    /// Where that comes from.
    #[serde(default, deserialize_with = "source_if_any")]
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) source: Option<String>,
    /// The dish whose portions it becomes; the preparation's name, when left out.
    #[serde(default, deserialize_with = "name_if_any")]
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) dish: Option<String>,
    /// Portions that a service needs.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) needs: Option<u32>,
    /// Or portions for each cover.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) per_cover: Option<f64>,
    /// Date marking applies to it: cold, ready to eat, kept over a day.
    #[serde(default = "yes")]
    #[serde(skip_serializing_if = "is_true")]
    pub(super) date_marked: bool,
    /// What is in it that people may be allergic to.
    #[serde(default, deserialize_with = "names_if_any")]
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) allergens: Option<Vec<String>>,
}

const fn yes() -> bool {
    true
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "as serde calls it")]
const fn is_true(said: &bool) -> bool {
    *said
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "as serde calls it")]
const fn is_false(said: &bool) -> bool {
    !*said
}

/// More portions than this are a slip.
pub(super) const MOST_PORTIONS: u32 = 10_000;

impl BatchEntry {
    fn read(&self, entry: &PreparationEntry) -> Result<BatchOf, FileError> {
        let place = &entry.name;
        let count = |name, value: u32| {
            field(
                (1..=MOST_PORTIONS).contains(&value).then_some(value),
                place,
                name,
                &value.to_string(),
                expected!("portions-of-batch"),
            )
        };
        let keeps = match (&self.keeps, &self.source) {
            (None, None) => None,
            (Some(text), source) => {
                let lasts = field(length(text), place, "batch.keeps", text, expected!("keeps"))?;
                let keeping = Keeping::new(lasts, source.as_deref().unwrap_or_default());
                Some(keeping.map_err(|error| FileError::Keeping {
                    preparation: place.clone(),
                    error,
                })?)
            }
            (None, Some(source)) => {
                return Err(FileError::Field {
                    place: place.clone(),
                    field: "batch.source",
                    value: source.clone(),
                    expected: Box::new(expected!("keeps-beside")),
                });
            }
        };
        let needs = match (self.needs, self.per_cover) {
            (None, None) => Needs::OnRecord,
            (Some(portions), None) => Needs::Portions(count("batch.needs", portions)?),
            (None, Some(share)) => Needs::PerCover(field(
                (share > 0.0 && share <= 100.0).then_some(share),
                place,
                "batch.per_cover",
                &share.to_string(),
                expected!("per-cover"),
            )?),
            (Some(portions), Some(_)) => {
                return Err(FileError::Field {
                    place: place.clone(),
                    field: "batch.needs",
                    value: portions.to_string(),
                    expected: Box::new(expected!("needs-or-cover")),
                });
            }
        };
        let dish = self.dish.as_deref().unwrap_or(place).trim();
        let of_dish = |step: &StepEntry| {
            let known = step.portions_of.as_deref();
            known.is_some_and(|known| known.trim().eq_ignore_ascii_case(dish))
        };
        Ok(BatchOf {
            portions: count("batch.portions", self.portions)?,
            keeps,
            date_marked: self.date_marked,
            dish: dish.to_owned(),
            needs,
            allergens: self.allergens.clone(),
            portioned_ahead: entry.step.iter().any(of_dish),
        })
    }
}

#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct StepEntry {
    #[serde(deserialize_with = "name")]
    pub(super) name: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) takes: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) rests: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) needs: Option<NeedsEntry>,
    /// What the hands must be able to do; everybody can, when left out.
    #[serde(default, deserialize_with = "name_if_any")]
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) skill: Option<String>,
    /// Hands that serve may do it while service runs.
    #[serde(default)]
    #[serde(skip_serializing_if = "is_false")]
    pub(super) in_service: bool,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) not_before: Option<String>,
    /// Names of steps of the same preparation, or "preparation: step". The
    /// step before, when left out.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) after: Option<Vec<String>>,
    /// The dish whose portions tick this step.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) portions_of: Option<String>,
    /// How many portions make it done.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) portions: Option<u32>,
    /// The title of the batch that ticks this step.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) batch: Option<String>,
    /// The heat log that must be in a band.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) when: Option<WhenEntry>,
}

/// `"oven"`, `["hands", "oven"]` or `{ hands = 2, oven = 1 }`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(untagged)]
pub(super) enum NeedsEntry {
    One(String),
    Several(Vec<String>),
    Counted(BTreeMap<String, u32>),
}

impl NeedsEntry {
    pub(super) fn needs(&self) -> Vec<Need> {
        match self {
            Self::One(name) => vec![Need::one(written_name::one_spelling(name))],
            Self::Several(names) => {
                let mut counted: BTreeMap<String, u32> = BTreeMap::new();
                for name in names {
                    *counted.entry(written_name::one_spelling(name)).or_default() += 1;
                }
                counted
                    .into_iter()
                    .map(|(name, places)| Need {
                        resource: name,
                        places,
                    })
                    .collect()
            }
            Self::Counted(counted) => counted
                .iter()
                .map(|(name, places)| Need {
                    resource: written_name::one_spelling(name),
                    places: *places,
                })
                .collect(),
        }
    }
}

#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct WhenEntry {
    pub(super) log: String,
    pub(super) from: String,
    pub(super) to: String,
}

pub(super) fn field<T>(
    parsed: Option<T>,
    place: &str,
    field: &'static str,
    value: &str,
    expected: Reason,
) -> Result<T, FileError> {
    parsed.ok_or_else(|| FileError::Field {
        place: place.to_owned(),
        field,
        value: value.to_owned(),
        expected: Box::new(expected),
    })
}

/// More than a day's work before it is due is no spare time.
pub(super) const MOST_SPARE: SignedDuration = SignedDuration::from_hours(12);

pub(super) fn length(text: &str) -> Option<SignedDuration> {
    let span: Span = text.trim().parse().ok()?;
    span.to_duration(SpanRelativeTo::days_are_24_hours()).ok()
}

/// "20 min", or "2 days to 3 days".
pub(super) fn range(text: &str) -> Option<(SignedDuration, SignedDuration)> {
    match text.split_once(" to ") {
        Some((least, most)) => Some((length(least)?, length(most)?)),
        None => length(text).map(|one| (one, one)),
    }
}

/// A day of the week by its first three letters.
pub(super) fn weekday(text: &str) -> Option<Weekday> {
    match text.to_lowercase().as_str() {
        "mon" => Some(Weekday::Monday),
        "tue" => Some(Weekday::Tuesday),
        "wed" => Some(Weekday::Wednesday),
        "thu" => Some(Weekday::Thursday),
        "fri" => Some(Weekday::Friday),
        "sat" => Some(Weekday::Saturday),
        "sun" => Some(Weekday::Sunday),
        _ => None,
    }
}

pub(super) const WEEKDAYS: Reason = expected!("weekdays");
pub(super) const DATE: Reason = expected!("date-of-menu");
pub(super) const TIME_OF_DAY: Reason = expected!("time-of-day");
pub(super) const LENGTH: Reason = expected!("length");

pub(super) fn read(toml: &str) -> Result<Menu, FileError> {
    toml::from_str(toml).map_err(|error| FileError::Syntax(toml_text::why(toml, &error)))
}

/// Whether a menu text has service on a date: within its `from` and `until`, on
/// one of its `days`; every day, where it says nothing.
///
/// # Errors
/// [`FileError`] as for [`Board::from_menu`].
pub fn serves_on(toml: &str, on: Date) -> Result<bool, FileError> {
    let menu: Menu = read(toml)?;
    menu.open_on(on)
}

/// From which date and until which a menu text is in force, where it says so.
///
/// # Errors
/// [`FileError`] for a text that is no menu, or a date that is none.
pub fn menu_period(toml: &str) -> Result<(Option<Date>, Option<Date>), FileError> {
    read(toml)?.period()
}

impl Board {
    /// Reads a menu text for a service on a date, in the kitchen's time zone.
    ///
    /// `opens` and `not_before` are times of day on that date.
    ///
    /// ```
    /// use evenhand_kitchen::prep::Board;
    /// use jiff::{civil::date, tz::TimeZone};
    /// let board = Board::from_menu(r#"
    ///     opens = "18:00"
    ///     [[resource]]
    ///     name = "hands"
    ///     places = 3
    ///     [[preparation]]
    ///     name = "necks"
    ///     [[preparation.step]]
    ///     name = "into the brine"
    ///     takes = "30 min"
    ///     needs = "hands"
    ///     [[preparation.step]]
    ///     name = "brine"
    ///     rests = "2 days to 3 days"
    /// "#, date(2026, 5, 8), TimeZone::UTC).unwrap();
    /// assert_eq!(board.steps().count(), 2);
    /// ```
    ///
    /// # Errors
    /// [`FileError`] naming the place, the field, the value and what was
    /// expected.
    pub fn from_menu(toml: &str, on: Date, zone: TimeZone) -> Result<Self, FileError> {
        Self::of_menu(&read(toml)?, on, zone)
    }

    pub(super) fn of_menu(menu: &Menu, on: Date, zone: TimeZone) -> Result<Self, FileError> {
        let moment = |place: &str, name, text: &str| -> Result<Timestamp, FileError> {
            let time: Option<Time> = text.parse().ok();
            let moment = time.and_then(|t| zone.to_timestamp(on.to_datetime(t)).ok());
            field(moment, place, name, text, TIME_OF_DAY)
        };
        menu.open_on(on)?;
        let mut resources = menu
            .resource
            .iter()
            .map(|r| {
                let time = |name, text: &str| -> Result<Time, FileError> {
                    field(text.parse().ok(), &r.name, name, text, TIME_OF_DAY)
                };
                let hours = match (&r.from, &r.to) {
                    (Some(from), Some(to)) => Some(Hours {
                        from: time("from", from)?,
                        to: time("to", to)?,
                    }),
                    (None, None) => None,
                    _ => {
                        return Err(FileError::Field {
                            place: r.name.clone(),
                            field: "from, to",
                            value: String::from("one alone"),
                            expected: Box::new(expected!("from-and-to")),
                        });
                    }
                };
                let closed = r
                    .closed
                    .iter()
                    .map(|day| field(weekday(day), &r.name, "closed", day, WEEKDAYS))
                    .collect::<Result<Vec<_>, _>>()?;
                let resource = Resource::new(r.name.clone(), r.places, hours)?.closed_on(closed)?;
                Ok(if r.serves {
                    resource.serving()
                } else {
                    resource
                })
            })
            .collect::<Result<Vec<_>, FileError>>()?;
        // Hands with a skill are shared as such, too.
        let mut hands = Vec::new();
        for (entry, resource) in menu.resource.iter().zip(resources.clone()) {
            let named = entry.hands(&menu.resource)?;
            let mut skills: Vec<&String> = named.iter().flat_map(|hand| &hand.skills).collect();
            skills.sort();
            skills.dedup();
            for skill in skills {
                let able = named
                    .iter()
                    .filter(|hand| hand.skills.contains(skill))
                    .count();
                let mut shared = Resource::new(skilled(&entry.name, skill), able, resource.hours)?;
                shared.closed.clone_from(&resource.closed);
                shared.serves = resource.serves;
                resources.push(shared);
            }
            hands.push((entry, resource.places(), named));
        }
        let mut board = Self::new(
            moment("menu", "opens", &menu.opens)?,
            zone.clone(),
            resources,
        )?;
        for (entry, places, named) in hands {
            if !named.is_empty() {
                board.set_hands(&entry.name, named, places);
            }
        }
        if let Some(closes) = &menu.closes {
            let mut at = moment("menu", "closes", closes)?;
            if at <= board.service {
                let next = on.tomorrow().ok().and_then(|next| {
                    let time: Time = closes.parse().ok()?;
                    zone.to_timestamp(next.to_datetime(time)).ok()
                });
                at = field(next, "menu", "closes", closes, TIME_OF_DAY)?;
            }
            board.set_closing(at)?;
        }
        let mut known = HashMap::new();
        for preparation in &menu.preparation {
            if let Some((of, _)) = further_batch(&preparation.name)
                && let Some(other) = menu.preparation.iter().find(|other| other.name == of)
                && other.batch.is_some()
            {
                return Err(FileError::Field {
                    place: preparation.name.clone(),
                    field: "name",
                    value: preparation.name.clone(),
                    expected: Box::new(expected!("name-of-no-further-batch")),
                });
            }
            for entry in &preparation.step {
                let place = format!("{}: {}", preparation.name, entry.name);
                let step = Step {
                    preparation: preparation.name.clone(),
                    name: entry.name.clone(),
                    takes: entry.takes(&place)?,
                    needs: entry.needs(&place, &menu.resource)?,
                    in_service: entry.in_service,
                    not_before: entry
                        .not_before
                        .as_deref()
                        .map(|text| moment(&place, "not_before", text))
                        .transpose()?,
                    progress: Progress::Waiting,
                };
                let added = board.add(step)?;
                if let Some(skill) = &entry.skill {
                    board.set_skill(added, skill);
                }
                if let Some(by) = entry.ticked_by(&place)? {
                    board.tick_by(added, by)?;
                }
                if let Some(when) = &entry.when {
                    board.wait_for_band(added, when.band(&place)?)?;
                }
                if known.insert(place.clone(), added).is_some() {
                    return Err(FileError::Field {
                        place,
                        field: "name",
                        value: entry.name.clone(),
                        expected: Box::new(expected!("name-once")),
                    });
                }
            }
            let time_of = |name, text: &Option<String>| {
                text.as_deref()
                    .map(|text| moment(&preparation.name, name, text))
                    .transpose()
            };
            let due = match (time_of("due", &preparation.due)?, &preparation.due) {
                (Some(due), Some(text)) if due < board.service => {
                    // A service that runs past midnight has dishes due past midnight.
                    let next = due.checked_add(SignedDuration::from_hours(24)).ok();
                    let within = next.filter(|next| board.closing().is_some_and(|c| *next <= c));
                    Some(field(
                        within,
                        &preparation.name,
                        "due",
                        text,
                        expected!("within-service"),
                    )?)
                }
                (due, _) => due,
            };
            if !preparation.step.is_empty() {
                board.set_due(
                    &preparation.name,
                    due,
                    time_of("preferred", &preparation.preferred)?,
                )?;
            }
            if let Some(batch) = &preparation.batch {
                board.set_batch(&preparation.name, batch.read(preparation)?);
            }
            if preparation.fallback.is_some() || preparation.buy_in {
                board.set_instead(
                    &preparation.name,
                    Instead {
                        fallback: preparation.fallback.clone(),
                        buy_in: preparation.buy_in,
                    },
                );
            }
        }
        for preparation in &menu.preparation {
            let mut previous: Option<&str> = None;
            for entry in &preparation.step {
                let place = format!("{}: {}", preparation.name, entry.name);
                let afters = entry
                    .after
                    .clone()
                    .unwrap_or_else(|| previous.map(str::to_owned).into_iter().collect());
                for after in afters {
                    let after = written_name::one_spelling(&after);
                    let full = if after.contains(": ") {
                        after.clone()
                    } else {
                        format!("{}: {after}", preparation.name)
                    };
                    let on = field(
                        known.get(&full).copied(),
                        &place,
                        "after",
                        &after,
                        expected!("step-name"),
                    )?;
                    let step = field(
                        known.get(&place).copied(),
                        &place,
                        "name",
                        &entry.name,
                        expected!("step-name"),
                    )?;
                    board.wait(step, on)?;
                }
                previous = Some(&entry.name);
            }
        }
        if let Some(text) = &menu.spare {
            let possible = SignedDuration::ZERO..=MOST_SPARE;
            board.set_spare(field(
                length(text).filter(|spare| possible.contains(spare)),
                "menu",
                "spare",
                text,
                expected!("spare"),
            )?);
        }
        Ok(board)
    }
}

impl Menu {
    /// Whether there is service on a date.
    fn open_on(&self, on: Date) -> Result<bool, FileError> {
        let (from, until) = self.period()?;
        // Read on every date, so that a slip in them is refused when the menu is kept.
        let days = self
            .days
            .iter()
            .flatten()
            .map(|day| field(weekday(day), "menu", "days", day, WEEKDAYS))
            .collect::<Result<Vec<_>, _>>()?;
        let in_force = from.is_none_or(|from| from <= on) && until.is_none_or(|until| on <= until);
        Ok(in_force && (self.days.is_none() || days.contains(&on.weekday())))
    }

    /// From which date and until which it is in force.
    pub(super) fn period(&self) -> Result<(Option<Date>, Option<Date>), FileError> {
        let date = |name, text: &Option<String>| {
            text.as_deref()
                .map(|text| field(text.parse::<Date>().ok(), "menu", name, text, DATE))
                .transpose()
        };
        let (from, until) = (date("from", &self.from)?, date("until", &self.until)?);
        if let (Some(from), Some(until)) = (from, until)
            && from > until
        {
            return Err(FileError::Field {
                place: String::from("menu"),
                field: "from",
                value: from.to_string(),
                expected: Box::new(expected!("date-of-menu")),
            });
        }
        Ok((from, until))
    }
}

impl WhenEntry {
    fn band(&self, place: &str) -> Result<InBand, FileError> {
        let temperature = |name, text: &str| {
            field(
                parse_temperature(name, text).ok(),
                place,
                name,
                text,
                expected!("log-temperature"),
            )
        };
        let (low, high) = (
            temperature("when.from", &self.from)?,
            temperature("when.to", &self.to)?,
        );
        if low > high {
            return Err(FileError::Field {
                place: place.to_owned(),
                field: "when.from",
                value: self.from.clone(),
                expected: Box::new(expected!("log-temperature")),
            });
        }
        Ok(InBand {
            log: self.log.clone(),
            low,
            high,
        })
    }
}

impl StepEntry {
    /// What it needs, with the skill as a need of its own.
    fn needs(&self, place: &str, resources: &[ResourceEntry]) -> Result<Vec<Need>, FileError> {
        let mut needs = self.needs.as_ref().map_or_else(Vec::new, NeedsEntry::needs);
        let Some(skill) = &self.skill else {
            return Ok(needs);
        };
        let known = |need: &Need| resources.iter().any(|r| r.name == need.resource);
        if !needs.iter().all(known) {
            // That is what is told, not what follows from it.
            return Ok(needs);
        }
        let able = resources.iter().find(|resource| {
            let has = |hand: &HandEntry| hand.skills.iter().any(|known| known == skill);
            needs.iter().any(|need| need.resource == resource.name) && resource.who.iter().any(has)
        });
        let able = field(able, place, "skill", skill, expected!("skill"))?;
        needs.push(Need::one(skilled(&able.name, skill)));
        Ok(needs)
    }

    fn ticked_by(&self, place: &str) -> Result<Option<TickedBy>, FileError> {
        let wrong = |name, value: String, expected| FileError::Field {
            place: place.to_owned(),
            field: name,
            value,
            expected: Box::new(expected),
        };
        match (&self.portions_of, self.portions, &self.batch) {
            (Some(_), _, Some(batch)) => Err(wrong(
                "batch",
                batch.clone(),
                expected!("portions-or-batch"),
            )),
            (_, Some(0), _) => Err(wrong(
                "portions",
                String::from("0"),
                expected!("portions-at-least-one"),
            )),
            (None, Some(portions), _) => Err(wrong(
                "portions",
                portions.to_string(),
                expected!("portions-beside"),
            )),
            (Some(dish), wanted, None) => Ok(Some(TickedBy::Portions {
                dish: dish.clone(),
                wanted,
            })),
            (None, None, Some(title)) => Ok(Some(TickedBy::Batch {
                title: title.clone(),
            })),
            (None, None, None) => Ok(None),
        }
    }

    fn takes(&self, place: &str) -> Result<Takes, FileError> {
        let (made, name, text): (fn(_, _) -> _, _, _) = match (&self.takes, &self.rests) {
            (Some(text), None) => (Takes::work, "takes", text),
            (None, Some(text)) => (Takes::rest, "rests", text),
            _ => {
                return Err(FileError::Field {
                    place: place.to_owned(),
                    field: "takes, rests",
                    value: String::from("both or neither"),
                    expected: Box::new(expected!("takes-or-rests")),
                });
            }
        };
        let (least, most) = field(range(text), place, name, text, LENGTH)?;
        made(least, most).map_err(|error| FileError::Takes {
            step: place.to_owned(),
            error,
        })
    }
}
