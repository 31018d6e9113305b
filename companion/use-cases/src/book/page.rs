//! The page for whoever takes a dish over: what it is, how it is made, by when,
//! held to what, and what to watch, from formula, menu and record.

use super::pictures::{dimensions, pictures_of};
use super::{BookError, doughs, find};
use crate::limits::{caution, limit_words, source_words};
use crate::prep::{PrepError, PrepNow, PrepQuestion, length, needs, service_day};
use crate::printing::{self, A4, PageError};
use crate::sheet::{self, Weight};
use crate::times;
use crate::words::say;
use evenhand_kitchen::batch::Batch;
use evenhand_kitchen::book::{Counts, Lean, Size, StagedFormula, Weighing};
use evenhand_kitchen::dish::{Dish, DishName};
use evenhand_kitchen::limits::{Limit, Limits};
use evenhand_kitchen::prep::Progress;
use evenhand_kitchen::service::ServiceCalendar;
use evenhand_kitchen::units::{MassUnit, Ratio, TemperatureUnit, format_mass, format_temperature};
use evenhand_protocol::{Mass, Temperature};
use evenhand_store::{KeptPicture, Query, Store, StoreError};
use evenhand_words::Language;
use jiff::civil::Date;
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp};
use std::collections::BTreeMap;
use std::path::Path;
use std::sync::Arc;

/// How many services back the record is looked at.
const SERVICES: usize = 12;
/// The last doughs that count.
const DOUGHS: usize = 8;
/// A dough that is further off than this was too warm or too cold, K: what
/// bakers hold to; common practice, no source.
const OFF: f64 = 1.5;
/// Tastings of this mark and below are told.
const POOR: u8 = 4;
const NOTES: usize = 3;

/// Why there is no page.
#[derive(Debug, thiserror::Error)]
pub enum PageRefused {
    /// The book does not answer.
    #[error(transparent)]
    Book(#[from] BookError),
    /// The record does not answer.
    #[error(transparent)]
    Store(#[from] StoreError),
    /// The menu does not answer.
    #[error(transparent)]
    Prep(#[from] PrepError),
    /// Nothing has that name.
    #[error(
        "NAME: {name:?} is no dish, no formula and in no menu; the book: {}{}",
        super::in_the_book(there),
        super::not_understood(broken)
    )]
    Unknown {
        /// The name.
        name: String,
        /// What the book has.
        there: Vec<String>,
        /// Files that could not be read, one of which it may be.
        broken: Vec<BookError>,
    },
    /// The formula names a limit that is not in force.
    #[error("limits: {name:?} is not in force; known are {known}")]
    NoSuchLimit {
        /// The name.
        name: String,
        /// Those that are.
        known: String,
    },
}

/// A step of the menu, with its clock.
#[derive(Debug, Clone, PartialEq)]
pub struct StepClock {
    /// What to do.
    pub name: String,
    /// When to begin.
    pub begin: Option<Timestamp>,
    /// How long it takes.
    pub takes: SignedDuration,
    /// What it needs.
    pub needs: Option<String>,
}

/// What to watch, from what went wrong.
#[derive(Debug, Clone, PartialEq)]
pub enum Watch {
    /// Portions are usually heavier, or lighter, than they are to be.
    Portions(Lean),
    /// Doughs came out too warm or too cold.
    Doughs {
        /// How many too warm,
        warm: usize,
        /// and too cold,
        cold: usize,
        /// of so many.
        of: usize,
    },
    /// There is usually more, or less, of something than the formula says.
    Share {
        /// Of what.
        ingredient: String,
        /// By how much of what the formula says.
        lean: Lean,
    },
    /// Somebody did not like it.
    Tasted {
        /// When.
        on: Date,
        /// The mark.
        mark: u8,
        /// What it was like.
        note: String,
    },
}

/// All that the page says.
#[derive(Debug, Clone)]
pub struct TakeOver {
    /// What it is about.
    pub name: String,
    /// The dish, where there is one of the name.
    pub dish: Option<Dish>,
    /// Its formula, with what to weigh.
    pub formula: Option<(StagedFormula, Weighing)>,
    /// The service whose clocks these are.
    pub day: Option<Date>,
    /// Its steps in the menu, in order.
    pub steps: Vec<StepClock>,
    /// Pictures that the kitchen gave of it.
    pub pictures: Vec<KeptPicture>,
    /// The limits that apply.
    pub limits: Vec<Limit>,
    /// What to watch.
    pub watch: Vec<Watch>,
    /// Services, doughs and batches that were looked at for it.
    pub looked_at: (usize, usize, usize),
}

/// What is asked for.
#[derive(Debug, Clone)]
pub struct TakeOverQuestion<'q> {
    /// The dish, formula or preparation.
    pub name: &'q str,
    /// How much of the formula's base is weighed.
    pub base: Mass,
    /// The scale's step.
    pub step: Mass,
    /// The service; the next one, where nothing is said.
    pub day: Option<Date>,
    /// The moment.
    pub now: Timestamp,
    /// The kitchen's time.
    pub zone: &'q TimeZone,
    /// In which language.
    pub language: Language,
}

impl TakeOver {
    /// Gathers it.
    ///
    /// # Errors
    /// [`PageRefused`].
    pub fn gather(
        data: &Path,
        store: &Store,
        limits: &Limits,
        question: &TakeOverQuestion<'_>,
    ) -> Result<Self, PageRefused> {
        let dish = DishName::new("NAME", question.name)
            .ok()
            .map(|name| store.dish(&name))
            .transpose()?
            .flatten();
        let (formula, there) = match find(data, question.name) {
            Ok(formula) => (Some(formula), Default::default()),
            Err(BookError::NotThere { there, broken, .. }) => (None, (there, broken)),
            Err(error) => return Err(error.into()),
        };
        let day = match question.day {
            Some(day) => day,
            None => service_day(store, question.now, question.zone)?,
        };
        let steps = steps(store, limits, day, question)?;
        if dish.is_none() && formula.is_none() && steps.is_empty() {
            return Err(PageRefused::Unknown {
                name: question.name.trim().to_owned(),
                there: there.0,
                broken: there.1,
            });
        }
        let mut held_to = Vec::new();
        for name in formula.iter().flat_map(|formula| formula.limits()) {
            held_to.push(limits.named(name).cloned().ok_or_else(|| {
                let known: Vec<&str> = limits.iter().map(|limit| limit.name.as_str()).collect();
                PageRefused::NoSuchLimit {
                    name: name.clone(),
                    known: known.join(", "),
                }
            })?);
        }
        let calendar = store.service_calendar(question.zone.clone())?;
        let mut watch = Vec::new();
        let services = match &dish {
            Some(dish) => portions(store, &calendar, dish, &mut watch)?,
            None => 0,
        };
        let mut batches = store.batches_titled(question.name)?;
        batches.sort_by_key(|(id, batch)| (batch.begun(), id.0));
        let batches: Vec<Batch> = batches.into_iter().map(|(_, batch)| batch).collect();
        let mut mixed = 0;
        if let Some(formula) = &formula {
            if let Some(wanted) = formula.ends_at() {
                mixed = off_doughs(store, formula.name(), wanted, &mut watch)?;
            }
            shares(formula, &batches, &mut watch);
        }
        tastings(&batches, question.zone, &mut watch);
        let formula = formula
            .map(|formula| {
                let weighing = formula.weigh(&Size::Base(question.base), question.step)?;
                Ok::<_, BookError>((formula, weighing))
            })
            .transpose()?;
        let name = formula
            .as_ref()
            .map(|(formula, _)| formula.name().to_owned())
            .or_else(|| dish.as_ref().map(|dish| dish.name.as_str().to_owned()))
            .unwrap_or_else(|| question.name.trim().to_owned());
        let mut names = vec![question.name.to_owned(), name.clone()];
        if let Some(dish) = &dish {
            names.push(dish.name.as_str().to_owned());
            let former = store.former_names(&dish.name)?;
            names.extend(former.iter().map(|(name, _)| name.as_str().to_owned()));
        }
        let pictures = pictures_of(store, names.iter().map(String::as_str))?;
        Ok(Self {
            name,
            pictures,
            dish,
            formula,
            day: (!steps.is_empty()).then_some(day),
            steps,
            limits: held_to,
            watch,
            looked_at: (services, mixed, batches.len()),
        })
    }
}

/// The menu's steps for it, by the plan that the screens show.
fn steps(
    store: &Store,
    limits: &Limits,
    day: Date,
    question: &TakeOverQuestion<'_>,
) -> Result<Vec<StepClock>, PageRefused> {
    if store.menu(day)?.is_none() {
        return Ok(Vec::new());
    }
    let asked = PrepQuestion {
        day,
        menu: None,
        days_ahead: 0,
        covers: None,
        what_if: &[],
        now: question.now,
        zone: question.zone,
        language: question.language,
        unwanted: None,
    };
    let prep = PrepNow::of(store, &asked, limits)?;
    let wanted = question.name.trim().to_lowercase();
    Ok(prep
        .plan
        .steps
        .iter()
        .filter_map(|planned| {
            let step = prep.board.step(planned.step).ok()?;
            (step.preparation.to_lowercase() == wanted).then(|| StepClock {
                name: step.name.clone(),
                begin: match step.progress {
                    Progress::Done(_) => None,
                    _ => planned.start_by,
                },
                takes: step.takes.needed(),
                needs: needs(step),
            })
        })
        .collect())
}

/// How its portions lean, by services; how many were looked at.
fn portions(
    store: &Store,
    calendar: &ServiceCalendar,
    dish: &Dish,
    watch: &mut Vec<Watch>,
) -> Result<usize, StoreError> {
    let days = store.service_days(calendar, None, SERVICES)?;
    let Some(first) = days.iter().min() else {
        return Ok(0);
    };
    let of_dish = store.portions(&Query {
        dish: Some(dish.name.clone()),
        from: Some(calendar.span(*first).0),
        ..Query::default()
    })?;
    let mut services: BTreeMap<Date, Vec<f64>> = BTreeMap::new();
    for portion in of_dish.iter().filter(|portion| portion.counts()) {
        let target = portion.goal.target().grams();
        if target > 0.0 {
            services
                .entry(calendar.day_of(portion.time))
                .or_default()
                .push(portion.mass.grams() / target - 1.0);
        }
    }
    let means: Vec<f64> = services
        .values()
        .map(|off| off.iter().sum::<f64>() / off.len() as f64)
        .collect();
    watch.extend(Lean::of(&means).map(Watch::Portions));
    Ok(means.len())
}

fn off_doughs(
    store: &Store,
    title: &str,
    wanted: Temperature,
    watch: &mut Vec<Watch>,
) -> Result<usize, StoreError> {
    let doughs = doughs(store, title)?;
    let last = &doughs[doughs.len().saturating_sub(DOUGHS)..];
    let off = |sign: f64| {
        last.iter()
            .filter(|dough| sign * (dough.dough_at.celsius() - wanted.celsius()) > OFF)
            .count()
    };
    let (warm, cold) = (off(1.0), off(-1.0));
    if warm + cold > 0 {
        watch.push(Watch::Doughs {
            warm,
            cold,
            of: last.len(),
        });
    }
    Ok(last.len())
}

/// Where batches are usually off the formula.
fn shares(formula: &StagedFormula, batches: &[Batch], watch: &mut Vec<Watch>) {
    let same = |a: &str, b: &str| a.to_lowercase() == b.to_lowercase();
    let of = |batch: &Batch, name: &str| -> f64 {
        batch
            .weighed_in()
            .iter()
            .filter(|slot| {
                slot.ingredient
                    .as_ref()
                    .is_some_and(|there| same(there.name(), name))
            })
            .map(|slot| slot.mass.grams())
            .sum()
    };
    let base = |batch: &Batch| -> f64 {
        formula
            .ingredients()
            .iter()
            .filter(|ingredient| ingredient.counts() == Counts::Base)
            .map(|ingredient| of(batch, ingredient.name()))
            .sum()
    };
    for ingredient in formula.ingredients() {
        let figures: Vec<f64> = batches
            .iter()
            .filter_map(|batch| {
                let (base, mass) = (base(batch), of(batch, ingredient.name()));
                (base > 0.0 && mass > 0.0)
                    .then(|| mass / base / ingredient.share().fraction() - 1.0)
            })
            .collect();
        watch.extend(Lean::of(&figures).map(|lean| Watch::Share {
            ingredient: ingredient.name().to_owned(),
            lean,
        }));
    }
}

fn tastings(batches: &[Batch], zone: &TimeZone, watch: &mut Vec<Watch>) {
    let mut poor: Vec<Watch> = batches
        .iter()
        .flat_map(Batch::tastings)
        .filter(|tasting| tasting.mark.value() <= POOR && !tasting.note.trim().is_empty())
        .map(|tasting| Watch::Tasted {
            on: tasting.at.to_zoned_datetime(zone.clone()).date(),
            mark: tasting.mark.value(),
            note: tasting.note,
        })
        .collect();
    watch.extend(poor.drain(poor.len().saturating_sub(NOTES)..));
}

fn percent(language: Language, ratio: Ratio) -> String {
    language.figure(format!("{:.0}", ratio.percent().abs()))
}

/// The page in lines, its pictures named.
#[must_use]
pub fn page_words(
    language: Language,
    page: &TakeOver,
    question: &TakeOverQuestion<'_>,
) -> Vec<(Weight, String)> {
    let mut lines = lines(language, page, question);
    if page.pictures.is_empty() {
        return lines;
    }
    lines.push((
        Weight::Heading,
        say!(language, "takeover-pictures").into_owned(),
    ));
    for kept in &page.pictures {
        lines.push((Weight::Text, picture_words(language, kept)));
    }
    lines
}

/// A picture in words: its number, what stands under it and how large it is.
#[must_use]
pub fn picture_words(language: Language, kept: &KeptPicture) -> String {
    let number = kept.id.to_string();
    let caption = kept.pictured.caption();
    match dimensions(&kept.image) {
        Some((width, height)) if caption.is_empty() => say!(
            language,
            "takeover-picture",
            number = number,
            width = width.to_string(),
            height = height.to_string()
        ),
        Some((width, height)) => say!(
            language,
            "takeover-picture-of",
            number = number,
            caption = caption,
            width = width.to_string(),
            height = height.to_string()
        ),
        None => say!(language, "takeover-picture-broken", number = number),
    }
    .into_owned()
}

fn lines(
    language: Language,
    page: &TakeOver,
    question: &TakeOverQuestion<'_>,
) -> Vec<(Weight, String)> {
    let mut lines = vec![(Weight::Title, page.name.clone())];
    if let Some(dish) = &page.dish {
        let grams = |mass| language.figure(format_mass(mass, MassUnit::Gram));
        lines.push((
            Weight::Text,
            say!(
                language,
                "takeover-portion",
                target = grams(dish.goal.target()),
                from = grams(dish.goal.lightest()),
                to = grams(dish.goal.heaviest())
            )
            .into_owned(),
        ));
    }
    if let Some((formula, weighing)) = &page.formula {
        lines.push((
            Weight::Heading,
            say!(language, "takeover-formula").into_owned(),
        ));
        for line in super::weighing_words(language, formula, weighing, question.step) {
            lines.push((Weight::Text, line));
        }
        if let Some(at) = formula.ends_at() {
            let at = language.figure(format_temperature(at, TemperatureUnit::Celsius));
            lines.push((
                Weight::Text,
                say!(language, "takeover-ends-at", at = at).into_owned(),
            ));
        }
        if !formula.how().is_empty() {
            lines.push((Weight::Heading, say!(language, "takeover-how").into_owned()));
            for (nth, how) in formula.how().iter().enumerate() {
                lines.push((Weight::Text, format!("{}. {how}", nth + 1)));
            }
        }
    }
    if let Some(day) = page.day {
        let day_words = times::day_of_year(language, day);
        lines.push((
            Weight::Heading,
            say!(language, "takeover-steps", day = day_words).into_owned(),
        ));
        for step in &page.steps {
            let needs = step
                .needs
                .as_ref()
                .map_or_else(String::new, |needs| format!(" [{needs}]"));
            let takes = length(step.takes);
            lines.push((
                Weight::Text,
                match step.begin {
                    Some(at) => format!(
                        "{}  {} ({takes}){needs}",
                        times::near(language, at, day, question.zone),
                        step.name
                    ),
                    None => {
                        say!(language, "takeover-step-done", step = step.name.as_str()).into_owned()
                    }
                },
            ));
        }
    }
    if !page.limits.is_empty() {
        lines.push((
            Weight::Heading,
            say!(language, "takeover-limits").into_owned(),
        ));
        for limit in &page.limits {
            lines.push((
                Weight::Text,
                format!(
                    "{}: {}",
                    times::capital(&limit_words(language, &limit.name)),
                    limit.demand
                ),
            ));
            lines.push((Weight::Small, source_words(language, &limit.source)));
        }
        lines.push((Weight::Small, caution(language)));
    }
    lines.push((
        Weight::Heading,
        say!(language, "takeover-watch").into_owned(),
    ));
    let (services, doughs, batches) = page.looked_at;
    if page.watch.is_empty() {
        lines.push((
            Weight::Text,
            say!(language, "takeover-nothing").into_owned(),
        ));
    }
    for watch in &page.watch {
        lines.push((Weight::Text, watch_words(language, watch)));
    }
    lines.push((
        Weight::Small,
        say!(
            language,
            "takeover-looked-at",
            services = services,
            doughs = doughs,
            batches = batches
        )
        .into_owned(),
    ));
    lines
}

fn watch_words(language: Language, watch: &Watch) -> String {
    let ends = |lean: &Lean| {
        let (low, high) = (percent(language, lean.low), percent(language, lean.high));
        if lean.mean.fraction() < 0.0 {
            (high, low)
        } else {
            (low, high)
        }
    };
    match watch {
        Watch::Portions(lean) => {
            let (from, to) = ends(lean);
            let (mean, of) = (percent(language, lean.mean), lean.of);
            if lean.mean.fraction() > 0.0 {
                say!(
                    language,
                    "takeover-heavy",
                    mean = mean,
                    from = from,
                    to = to,
                    of = of
                )
            } else {
                say!(
                    language,
                    "takeover-light",
                    mean = mean,
                    from = from,
                    to = to,
                    of = of
                )
            }
            .into_owned()
        }
        Watch::Doughs { warm, cold, of } => {
            let mut words = Vec::new();
            if *warm > 0 {
                words.push(
                    say!(language, "takeover-too-warm", count = *warm, of = *of).into_owned(),
                );
            }
            if *cold > 0 {
                words.push(
                    say!(language, "takeover-too-cold", count = *cold, of = *of).into_owned(),
                );
            }
            words.join(" ")
        }
        Watch::Share { ingredient, lean } => {
            let (from, to) = ends(lean);
            let (mean, of) = (percent(language, lean.mean), lean.of);
            let name = ingredient.as_str();
            if lean.mean.fraction() > 0.0 {
                say!(
                    language,
                    "takeover-more",
                    name = name,
                    mean = mean,
                    from = from,
                    to = to,
                    of = of
                )
            } else {
                say!(
                    language,
                    "takeover-less",
                    name = name,
                    mean = mean,
                    from = from,
                    to = to,
                    of = of
                )
            }
            .into_owned()
        }
        Watch::Tasted { on, mark, note } => say!(
            language,
            "takeover-tasted",
            day = times::short_day(language, *on),
            mark = *mark,
            note = note.as_str()
        )
        .into_owned(),
    }
}

/// The page as PDF, with its pictures.
///
/// # Errors
/// [`PageError`] where it cannot be set.
pub fn page_pdf(
    language: Language,
    page: &TakeOver,
    question: &TakeOverQuestion<'_>,
) -> Result<Vec<u8>, PageError> {
    let (sheets, pictures) = drawn(language, page, question);
    printing::pdf_with(A4, language, &page.name, &sheets, &pictures)
}

/// The page's drawings, and the pictures that they name.
fn drawn(
    language: Language,
    page: &TakeOver,
    question: &TakeOverQuestion<'_>,
) -> (Vec<String>, Vec<Arc<Vec<u8>>>) {
    let mut lines = lines(language, page, question);
    let (mut hung, mut images) = (Vec::new(), Vec::new());
    for kept in &page.pictures {
        match dimensions(&kept.image) {
            Some((width, height)) => {
                hung.push(sheet::Picture {
                    width,
                    height,
                    caption: kept.pictured.caption().to_owned(),
                });
                images.push(Arc::new(kept.image.clone()));
            }
            None => lines.push((Weight::Small, picture_words(language, kept))),
        }
    }
    let sheets = sheet::illustrated(&lines, &hung, |nth, of| {
        say!(
            language,
            "takeover-foot",
            name = page.name.as_str(),
            nth = nth,
            of = of
        )
        .into_owned()
    });
    (sheets, images)
}
