//! A lot through all its steps, held against its limits, and one sheet of it.

use crate::demand::demand_words;
use crate::heat::{finding_words, probe_words};
use crate::input::input_error_words;
use crate::limits::{caution, source_words};
use crate::mixing::batch::{hindrance_words, outcome_words};
use crate::mixing::cure::ingoing_words;
use crate::plain_files;
use crate::printing::{self, A4, PageError};
use crate::record::store_error_words;
use crate::sheet::{self, Weight};
use crate::words::say;
use evenhand_kitchen::batch::{Batch, BatchId, Claimed, Hindrance, Judging};
use evenhand_kitchen::cure::Ingoing;
use evenhand_kitchen::heat::{Gap, HeatLog, Outcome};
use evenhand_kitchen::limits::{Limit, Limits};
use evenhand_kitchen::lot::{Lot, LotError, LotStep, StepFound, whole};
use evenhand_kitchen::moment::show_date_and_time;
use evenhand_kitchen::probe::Probe;
use evenhand_kitchen::units::excerpt;
use evenhand_protocol::Mass;
use evenhand_store::{Store, StoreError};
use evenhand_words::Language;
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp, ZonedDateTime};
use std::io;
use std::path::{Path, PathBuf};

/// The folder of lots in the data folder.
pub const FOLDER: &str = "lots";

/// Why a lot could not be judged.
#[derive(Debug, thiserror::Error)]
pub enum LotsError {
    /// Its text makes no sense.
    #[error(transparent)]
    Lot(#[from] LotError),
    /// A log or a batch is not on record, or the record cannot be read.
    #[error(transparent)]
    Store(#[from] StoreError),
    /// Its file, or the folder of lots, cannot be read.
    #[error("{path} cannot be read: {error}")]
    Unreadable {
        /// Which.
        path: PathBuf,
        /// Why.
        error: io::Error,
    },
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
    /// The log, where it was held to a limit, and what is known of its probe.
    log: Option<(HeatLog, Option<Probe>)>,
}

/// The batch that a lot was cured in.
#[derive(Debug, Clone)]
pub struct CuredIn {
    /// Its number.
    pub id: BatchId,
    /// What is on record of it.
    pub batch: Batch,
    /// Ingoing nitrite against its limit, where there is an agent.
    pub ingoing: Option<Ingoing>,
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
    let log = log
        .filter(|_| limit.is_some())
        .map(|log| (log, limits.probe()));
    Ok(StepNow {
        step: step.clone(),
        limit,
        found,
        corrections,
        log,
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
        ingoing,
        hindered,
        batch,
    })
}

/// The longest step between two notes of a batch's cold store that is no gap.
const STORE_STEP: SignedDuration = SignedDuration::from_hours(24);

/// The mark before a step: whether it is within its limit.
pub fn mark_words(language: Language, outcome: Option<Outcome>) -> String {
    let outcome = match outcome {
        Some(Outcome::Kept) => "kept",
        Some(Outcome::Broken) => "broken",
        Some(Outcome::Running) => "running",
        Some(Outcome::CannotTell) => "cannot-tell",
        Some(Outcome::TooClose) => "too-close",
        Some(Outcome::Noted) => "noted",
        None => "no-limit",
    };
    say!(language, "lots-mark", outcome = outcome).into_owned()
}

fn lasting(length: SignedDuration) -> String {
    let minutes = (length.as_secs() + 30) / 60;
    if minutes < 120 {
        format!("{minutes} min")
    } else {
        format!("{} h {} min", minutes / 60, minutes % 60)
    }
}

fn gap(language: Language, gap: &Gap, zone: &TimeZone) -> String {
    say!(
        language,
        "lots-gap",
        from = show_date_and_time(gap.from, zone),
        to = show_date_and_time(gap.to, zone),
        lasting = lasting(gap.to.duration_since(gap.from))
    )
    .into_owned()
}

/// How a lot stands, in a sentence.
#[must_use]
pub fn stands_words(language: Language, now: &LotNow, zone: &TimeZone) -> String {
    let outcome = now.outcome.map_or_else(
        || say!(language, "lots-no-limit-held").into_owned(),
        |outcome| outcome_words(language, outcome),
    );
    let at = show_date_and_time(now.at, zone);
    say!(language, "lots-as-on-record", at = at, outcome = outcome).into_owned()
}

/// What is said where no lot is written down.
#[must_use]
pub fn no_lots_words(language: Language) -> String {
    say!(language, "lots-none-there", folder = FOLDER).into_owned()
}

/// The lot in lines: the same on the sheet, the command line and a screen.
#[must_use]
pub fn lot_words(language: Language, now: &LotNow, zone: &TimeZone) -> Vec<(Weight, String)> {
    let mut lines = vec![
        (Weight::Title, now.lot.title.clone()),
        (Weight::Text, stands_words(language, now, zone)),
    ];
    if let Some(cured) = &now.cured {
        cured_words(language, cured, &mut lines);
    }
    let between = now.lot.between();
    for (place, step) in now.steps.iter().enumerate() {
        step_words(language, step, zone, &mut lines);
        for (_, time) in between.iter().filter(|(after, _)| *after == place) {
            let gap = gap(language, time, zone);
            lines.push((
                Weight::Text,
                say!(language, "lots-between", gap = gap).into_owned(),
            ));
        }
    }
    lines.push((Weight::Small, caution(language)));
    lines
}

fn cured_words(language: Language, cured: &CuredIn, lines: &mut Vec<(Weight, String)>) {
    let title = cured.batch.title().map_or_else(
        || say!(language, "lots-no-title").into_owned(),
        str::to_owned,
    );
    let number = cured.id.to_string();
    lines.push((
        Weight::Heading,
        say!(language, "lots-batch", number = number, title = title).into_owned(),
    ));
    for slot in cured.batch.weighed_in() {
        let name = slot.ingredient.as_ref().map_or_else(
            || say!(language, "lots-not-named").into_owned(),
            |ingredient| ingredient.name().to_owned(),
        );
        let mass = language.figure(format!("{:.1} g", slot.mass.grams()));
        lines.push((Weight::Text, format!("{mass} {name}")));
    }
    lines.extend(cured.ingoing.iter().map(|ingoing| {
        let words = language.english_or(ingoing, |language| ingoing_words(language, ingoing));
        (Weight::Text, words)
    }));
    for hindrance in &cured.hindered {
        let why = language.english_or(hindrance, |language| hindrance_words(language, hindrance));
        lines.push((
            Weight::Text,
            say!(language, "lots-not-ready", why = why).into_owned(),
        ));
    }
}

fn step_words(
    language: Language,
    now: &StepNow,
    zone: &TimeZone,
    lines: &mut Vec<(Weight, String)>,
) {
    let step = &now.step;
    let to = step.to.map_or_else(
        || say!(language, "lots-going-on").into_owned(),
        |to| show_date_and_time(to, zone),
    );
    let heading = say!(
        language,
        "lots-step",
        mark = mark_words(language, now.found.outcome),
        step = step.name.as_str(),
        from = show_date_and_time(step.from, zone),
        to = to
    );
    lines.push((Weight::Heading, heading.into_owned()));
    let limit = match &now.limit {
        Some(limit) => say!(
            language,
            "lots-limit",
            name = limit.name.as_str(),
            demand = demand_words(language, &limit.demand)
        ),
        None => say!(language, "lots-held-to-none"),
    };
    lines.push((Weight::Text, limit.into_owned()));
    let read = match &step.log {
        Some(log) => say!(language, "lots-read-by", log = log.as_str()),
        None => say!(language, "lots-read-by-nothing"),
    };
    lines.push((Weight::Text, read.into_owned()));
    for finding in &now.found.findings {
        let found = say!(
            language,
            "lots-found",
            mark = mark_words(language, Some(finding.outcome)),
            found = finding_words(language, finding)
        );
        lines.push((Weight::Text, found.into_owned()));
    }
    for time in &now.found.unread {
        let gap = gap(language, time, zone);
        lines.push((
            Weight::Text,
            say!(language, "lots-not-read", gap = gap).into_owned(),
        ));
    }
    if now.corrections > 0 {
        let count = now.corrections.to_string();
        lines.push((
            Weight::Text,
            say!(language, "lots-corrections", count = count).into_owned(),
        ));
    }
    if let Some(limit) = &now.limit {
        let source = source_words(language, &limit.source);
        let mut small = say!(language, "lots-limit-from", source = source).into_owned();
        if let Some((log, probe)) = &now.log {
            small = format!("{small} {}", probe_words(language, log, *probe));
        }
        lines.push((Weight::Small, small));
    }
}

/// A lot in the folder, as it stands or why it cannot be told.
#[derive(Debug)]
pub struct ListedLot {
    /// Its file.
    pub path: PathBuf,
    /// How it stands.
    pub lot: Result<LotNow, LotsError>,
}

impl ListedLot {
    /// What its file is called.
    #[must_use]
    pub fn file(&self) -> String {
        self.path
            .file_name()
            .map_or_else(String::new, |name| name.to_string_lossy().into_owned())
    }
}

/// The lots in the data folder, by their files' names. One that makes no sense is
/// among them and hides no other.
///
/// # Errors
/// [`LotsError::Unreadable`] of the folder; one that is not there has none.
pub fn in_folder(
    store: &Store,
    data: &Path,
    limits: &Limits,
    now: &ZonedDateTime,
) -> Result<Vec<ListedLot>, LotsError> {
    let folder = data.join(FOLDER);
    let mut paths =
        plain_files::in_folder(&folder, &["toml"]).map_err(|error| LotsError::Unreadable {
            path: folder.clone(),
            error,
        })?;
    paths.sort();
    Ok(paths
        .into_iter()
        .map(|path| ListedLot {
            lot: in_file(store, limits, &path, now),
            path,
        })
        .collect())
}

fn in_file(
    store: &Store,
    limits: &Limits,
    path: &Path,
    now: &ZonedDateTime,
) -> Result<LotNow, LotsError> {
    let text = std::fs::read_to_string(path).map_err(|error| LotsError::Unreadable {
        path: path.to_owned(),
        error,
    })?;
    LotNow::of(store, limits, Lot::read(&text, now)?, now.timestamp())
}

/// Why a lot is not judged.
#[must_use]
pub fn lots_error_words(language: Language, error: &LotsError) -> String {
    match error {
        LotsError::Lot(error) => lot_error_words(language, error),
        LotsError::Store(error) => {
            language.english_or(error, |language| store_error_words(language, error))
        }
        LotsError::Unreadable { path, error } => say!(
            language,
            "lots-file-unreadable",
            path = path.display().to_string(),
            why = crate::record::why(language, error)
        )
        .into_owned(),
        LotsError::UnknownLimit { step, limit, known } => say!(
            language,
            "lots-unknown-limit",
            step = step.as_str(),
            limit = limit.as_str(),
            known = known.as_str()
        )
        .into_owned(),
    }
}

fn lot_error_words(language: Language, error: &LotError) -> String {
    let short = |step: &str| excerpt(step).into_owned();
    match error {
        LotError::Syntax(why) => say!(language, "lots-unreadable", why = why.as_str()),
        LotError::Field { step, error } => say!(
            language,
            "lots-field",
            step = short(step),
            why = input_error_words(language, error)
        ),
        LotError::Empty(what) => say!(language, "lots-empty", what = *what),
        LotError::NoSteps => say!(language, "lots-no-steps"),
        LotError::Backward(step) => say!(language, "lots-backward", step = short(step)),
        LotError::Open(step) => say!(language, "lots-open", step = short(step)),
        LotError::Overlaps { step, before } => say!(
            language,
            "lots-overlaps",
            step = short(step),
            before = short(before)
        ),
        LotError::NoLog(step) => say!(language, "lots-no-log", step = short(step)),
    }
    .into_owned()
}

/// The lot's sheet as drawings of A4, one a page.
#[must_use]
pub fn sheets(language: Language, now: &LotNow, zone: &TimeZone) -> Vec<String> {
    sheet::pages(&lot_words(language, now, zone), |nth, of| {
        say!(
            language,
            "lots-page",
            title = now.lot.title.as_str(),
            nth = nth.to_string(),
            of = of.to_string()
        )
        .into_owned()
    })
}

/// The lot's sheet as PDF.
///
/// # Errors
/// [`PageError`] where a page cannot be set.
pub fn pdf(language: Language, now: &LotNow, zone: &TimeZone) -> Result<Vec<u8>, PageError> {
    printing::pdf(A4, &now.lot.title, &sheets(language, now, zone))
}
