//! A lot through all its steps, held against its limits, and one sheet of it.

use crate::heat::probe_words;
use crate::printing::{self, A4, PageError};
use crate::sheet::{self, Weight};
use evenhand_kitchen::batch::{Batch, BatchId, Claimed, Hindrance, Judging};
use evenhand_kitchen::heat::{Gap, HeatLog, Outcome};
use evenhand_kitchen::limits::{CAUTION, Limit, Limits};
use evenhand_kitchen::lot::{Lot, LotError, LotStep, StepFound, whole};
use evenhand_kitchen::moment::show_date_and_time;
use evenhand_protocol::Mass;
use evenhand_store::{Store, StoreError};
use evenhand_words::Language;
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp};

/// Why a lot could not be judged.
#[derive(Debug, thiserror::Error)]
pub enum LotsError {
    /// Its text makes no sense.
    #[error(transparent)]
    Lot(#[from] LotError),
    /// A log or a batch is not on record, or the record cannot be read.
    #[error(transparent)]
    Store(#[from] StoreError),
    /// There is no such limit in force.
    #[error("step '{step}': there is no limit '{limit}' in force; known are {known}")]
    UnknownLimit {
        /// The step.
        step: String,
        /// What it names.
        limit: String,
        /// Those in force.
        known: String,
    },
}

/// A step with what was found.
#[derive(Debug, Clone)]
pub struct StepNow {
    /// As it was written down.
    pub step: LotStep,
    /// The limit it is held to.
    pub limit: Option<Limit>,
    /// What was found.
    pub found: StepFound,
    /// Corrections that are in the readings.
    pub corrections: usize,
    /// What is counted for the probe, in words.
    probe: Option<String>,
}

/// The batch that a lot was cured in.
#[derive(Debug, Clone)]
pub struct CuredIn {
    /// Its number.
    pub id: BatchId,
    /// What is on record of it.
    pub batch: Batch,
    /// Ingoing nitrite against its limit, in words, where there is an agent.
    pub ingoing: Option<String>,
    /// What stands in the way of its being ready.
    pub hindered: Vec<Hindrance>,
}

impl CuredIn {
    /// Over where a limit is passed, not to be told where something is not
    /// known; `None` where nothing stands in the way.
    fn outcome(&self) -> Option<Outcome> {
        Outcome::worst(self.hindered.iter().map(|hindrance| match hindrance {
            Hindrance::Nitrite(_) | Hindrance::OverAsWritten(_) | Hindrance::ColdStore(_) => {
                Outcome::Broken
            }
            _ => Outcome::CannotTell,
        }))
    }
}

/// A lot as it stands.
#[derive(Debug, Clone)]
pub struct LotNow {
    /// As it was written down.
    pub lot: Lot,
    /// Its steps, in order.
    pub steps: Vec<StepNow>,
    /// The batch it was cured in.
    pub cured: Option<CuredIn>,
    /// What it comes to; `None` where no step is held to a limit.
    pub outcome: Option<Outcome>,
    /// When it was looked at.
    pub at: Timestamp,
}

impl LotNow {
    /// Judges a lot by what is on record.
    ///
    /// # Errors
    /// [`LotsError`].
    pub fn of(store: &Store, limits: &Limits, lot: Lot, now: Timestamp) -> Result<Self, LotsError> {
        let mut steps = Vec::with_capacity(lot.steps.len());
        for step in &lot.steps {
            steps.push(step_now(store, limits, step, now)?);
        }
        let cured = match lot.batch {
            Some(id) => Some(cured(store, limits, id)?),
            None => None,
        };
        let found: Vec<_> = steps.iter().map(|step| step.found.clone()).collect();
        let of_batch = cured.as_ref().and_then(CuredIn::outcome);
        let outcome = Outcome::worst(whole(&found).into_iter().chain(of_batch));
        Ok(Self {
            lot,
            steps,
            cured,
            outcome,
            at: now,
        })
    }
}

fn step_now(
    store: &Store,
    limits: &Limits,
    step: &LotStep,
    now: Timestamp,
) -> Result<StepNow, LotsError> {
    let limit = match &step.limit {
        None => None,
        Some(name) => Some(limits.named(name).cloned().ok_or_else(|| {
            let known: Vec<_> = limits.iter().map(|limit| limit.name.as_str()).collect();
            LotsError::UnknownLimit {
                step: step.name.clone(),
                limit: name.clone(),
                known: known.join(", "),
            }
        })?),
    };
    let mut corrections = 0;
    let log: Option<HeatLog> = match &step.log {
        None => None,
        Some(name) => {
            let stored = store.heat_log(name, step.from, step.to.unwrap_or(now))?;
            corrections = stored
                .corrections
                .iter()
                .filter(|c| c.lifted.is_none())
                .count();
            let mut log = stored.corrected();
            log.doubted_by(limits.probe());
            Some(log)
        }
    };
    let found = step.judge(log.as_ref(), limit.as_ref(), now)?;
    let probe = log
        .filter(|_| limit.is_some())
        .map(|log| probe_words(Language::English, &log, limits.probe()));
    Ok(StepNow {
        step: step.clone(),
        limit,
        found,
        corrections,
        probe,
    })
}

fn cured(store: &Store, limits: &Limits, id: BatchId) -> Result<CuredIn, LotsError> {
    let batch = store.batch(id)?;
    let (ingoing, hindered) = batch.judged(&Judging {
        limits,
        scale: Mass::ZERO,
        longest_step: STORE_STEP,
        claimed: Claimed::default(),
    });
    Ok(CuredIn {
        id,
        ingoing: ingoing.map(|ingoing| ingoing.to_string()),
        hindered,
        batch,
    })
}

/// The longest step between two notes of a batch's cold store that is no gap.
const STORE_STEP: SignedDuration = SignedDuration::from_hours(24);

/// The mark before a step: whether it is within its limit.
#[must_use]
pub const fn mark(outcome: Option<Outcome>) -> &'static str {
    match outcome {
        Some(Outcome::Kept) => "within",
        Some(Outcome::Broken) => "OVER",
        Some(Outcome::Running) => "so far",
        Some(Outcome::CannotTell) => "cannot tell",
        Some(Outcome::TooClose) => "TOO CLOSE",
        Some(Outcome::Noted) => "note",
        None => "no limit",
    }
}

fn lasting(length: SignedDuration) -> String {
    let minutes = (length.as_secs() + 30) / 60;
    if minutes < 120 {
        format!("{minutes} min")
    } else {
        format!("{} h {} min", minutes / 60, minutes % 60)
    }
}

fn gap(gap: &Gap, zone: &TimeZone) -> String {
    format!(
        "{} to {} ({})",
        show_date_and_time(gap.from, zone),
        show_date_and_time(gap.to, zone),
        lasting(gap.to.duration_since(gap.from))
    )
}

/// The lot in lines: the same on the sheet, the command line and a screen.
#[must_use]
pub fn lot_words(now: &LotNow, zone: &TimeZone) -> Vec<(Weight, String)> {
    let mut lines = vec![
        (Weight::Title, now.lot.title.clone()),
        (
            Weight::Text,
            format!(
                "As on record at {}: {}.",
                show_date_and_time(now.at, zone),
                now.outcome
                    .map_or("no step is held to a limit", Outcome::words)
            ),
        ),
    ];
    if let Some(cured) = &now.cured {
        let title = cured.batch.title().unwrap_or("no title");
        lines.push((Weight::Heading, format!("batch {}: {title}", cured.id)));
        for slot in cured.batch.weighed_in() {
            let name = slot
                .ingredient
                .as_ref()
                .map_or_else(|| "not named".to_owned(), |i| i.name().to_owned());
            lines.push((Weight::Text, format!("{:.1} g {name}", slot.mass.grams())));
        }
        lines.extend(
            cured
                .ingoing
                .iter()
                .map(|words| (Weight::Text, words.clone())),
        );
        for words in &cured.hindered {
            lines.push((Weight::Text, format!("not ready: {words}")));
        }
    }
    let between = now.lot.between();
    for (place, step) in now.steps.iter().enumerate() {
        step_words(step, zone, &mut lines);
        for (_, time) in between.iter().filter(|(after, _)| *after == place) {
            lines.push((
                Weight::Text,
                format!(
                    "On the way to the next step, not watched: {}.",
                    gap(time, zone)
                ),
            ));
        }
    }
    lines.push((Weight::Small, CAUTION.to_owned()));
    lines
}

fn step_words(now: &StepNow, zone: &TimeZone, lines: &mut Vec<(Weight, String)>) {
    let step = &now.step;
    let to = step
        .to
        .map_or_else(|| "going on".to_owned(), |to| show_date_and_time(to, zone));
    lines.push((
        Weight::Heading,
        format!(
            "{} \u{2013} {}, {} to {to}",
            mark(now.found.outcome),
            step.name,
            show_date_and_time(step.from, zone),
        ),
    ));
    match &now.limit {
        Some(limit) => lines.push((
            Weight::Text,
            format!("Limit {}: {}.", limit.name, limit.demand),
        )),
        None => lines.push((
            Weight::Text,
            "Held to no limit: nothing is judged.".to_owned(),
        )),
    }
    match &step.log {
        Some(log) => lines.push((Weight::Text, format!("Read by: {log}."))),
        None => lines.push((Weight::Text, "Read by nothing.".to_owned())),
    }
    for finding in &now.found.findings {
        lines.push((
            Weight::Text,
            format!("{}: {finding}", mark(Some(finding.outcome))),
        ));
    }
    for time in &now.found.unread {
        lines.push((Weight::Text, format!("Not read: {}.", gap(time, zone))));
    }
    if now.corrections > 0 {
        lines.push((
            Weight::Text,
            format!(
                "Corrections in force: {}; what was measured stays on record.",
                now.corrections
            ),
        ));
    }
    if let Some(limit) = &now.limit {
        let mut small = format!("Limit from {}.", limit.source);
        if let Some(probe) = &now.probe {
            small = format!("{small} {probe}");
        }
        lines.push((Weight::Small, small));
    }
}

/// The lot's sheet as drawings of A4, one a page.
#[must_use]
pub fn sheets(now: &LotNow, zone: &TimeZone) -> Vec<String> {
    sheet::pages(&lot_words(now, zone), |nth, of| {
        format!("{}, page {nth} of {of}", now.lot.title)
    })
}

/// The lot's sheet as PDF.
///
/// # Errors
/// [`PageError`] where a page cannot be set.
pub fn pdf(now: &LotNow, zone: &TimeZone) -> Result<Vec<u8>, PageError> {
    printing::pdf(A4, &now.lot.title, &sheets(now, zone))
}
