//! `evenhand batch`.

mod yields;

use super::cure::{self, MethodArguments};
use super::fields::{self, happened};
use super::heat::in_force;
use super::output::Telling;
use super::{Data, Failure, output, store_error};
use crate::failure::Spoken;
use crate::words::{bad_input, say};
use clap::{ArgGroup, Args, Subcommand};
use evenhand_kitchen::batch::{
    Batch, BatchId, Claimed, Comparison, CuringWay, Due, Entry, Judging, LossTarget, Mark, NamedAs,
    STORE_STEP, Schedule, ShareOf, Slot, Task, WeighedIn, What, due_with,
};
use evenhand_kitchen::moment::{DayEdge, read_moment, show_date_and_time};
use evenhand_kitchen::ratio::Ingredient;
use evenhand_kitchen::units::{
    Grams, InputError, MassUnit, excerpt, format_mass, mass_positive, parse_mass, parse_percent,
    parse_span, parse_temperature,
};
use evenhand_protocol::Mass;
use evenhand_use_cases::heat::finding_words;
use evenhand_use_cases::limits;
use evenhand_use_cases::mixing::batch::{
    batch_error_words, loss_words, mark_words, outcome_words, span_words,
};
use evenhand_use_cases::mixing::batch_line::line_words;
use evenhand_use_cases::mixing::cure::{caution, ingoing_words, name_refusal_words};
use evenhand_use_cases::mixing::mix::{ingredient_words, ratio_error_words};
use evenhand_words::Language;
use jiff::tz::TimeZone;
use jiff::{Timestamp, ZonedDateTime};
use serde_json::{Map, Value, json};
use std::borrow::Cow;

#[derive(Debug, Subcommand)]
pub(super) enum BatchCommand {
    /// Begin a batch.
    Begin {
        /// What it is: batches of one title are compared.
        #[arg(long, value_name = "TEXT")]
        title: Option<String>,
        #[command(flatten)]
        when: WhenArguments,
        #[command(flatten)]
        telling: Telling,
    },
    /// The batches, the one begun last first.
    List {
        /// Only those of this title.
        #[arg(long, value_name = "TEXT")]
        title: Option<String>,
        /// One JSON object a line.
        #[arg(long)]
        json: bool,
    },
    /// All that is on record of a batch.
    Show {
        /// The batch's number.
        batch: String,
        /// One JSON object.
        #[arg(long)]
        json: bool,
    },
    /// Note that something was weighed in; what it is can be said later.
    Weigh(WeighArguments),
    /// Say what something is that was weighed in.
    Name(NameArguments),
    /// Say what the batch is.
    Title(TextArguments),
    /// Write a word down.
    Note(TextArguments),
    /// Note how it tasted.
    Taste(TasteArguments),
    /// Say when it is due out, and how often it is to be turned.
    Plan(PlanArguments),
    /// Note that it was turned, or looked at.
    Turned(LineArguments),
    /// Note that it came out.
    Out(LineArguments),
    /// Say how much it is to lose in drying.
    Dry(DryArguments),
    /// Note what it weighs now, drying.
    Reweigh(ReweighArguments),
    /// Note how warm its cold store is.
    Store(StoreArguments),
    /// Note what the packet of a plain ingredient says, so that it is known to have no nitrite.
    Packet(PacketArguments),
    /// Mark it ready for the next step, judged by its record: a curing agent in it is held against its
    /// limit, by what was weighed.
    Ready(ReadyArguments),
    /// Strike a line out.
    Strike(StrikeArguments),
    /// What is due with every batch, soonest first.
    Due {
        /// One JSON object a line.
        #[arg(long)]
        json: bool,
    },
    /// Batches of one title side by side.
    Compare(CompareArguments),
    /// Note what came out of it, strained, pressed or steeped.
    Yield(yields::YieldArguments),
    /// Batches of one title by what came out of one ingredient, what usually does, in one picture.
    Yields(yields::YieldsArguments),
    /// What to weigh to make one again, as it was or a little changed.
    Again(AgainArguments),
}

/// When it happened.
#[derive(Debug, Args)]
pub(super) struct WhenArguments {
    /// When, where it was not just now: 2026-05-01T18:30.
    #[arg(long, value_name = "TIME")]
    at: Option<String>,
}

/// Which batch, and when.
#[derive(Debug, Args)]
pub(super) struct LineArguments {
    /// The batch's number.
    batch: String,
    #[command(flatten)]
    when: WhenArguments,
    #[command(flatten)]
    telling: Telling,
}

/// What something is.
#[derive(Debug, Args)]
#[command(group = ArgGroup::new("ingredient").args(["name", "agent"]))]
pub(super) struct IngredientArguments {
    /// A plain ingredient.
    #[arg(long, value_name = "NAME")]
    name: Option<String>,
    /// A curing agent with sodium nitrite alone, by what is on its packet.
    #[arg(long, value_name = "NAME", requires = "nitrite_fraction")]
    agent: Option<String>,
    /// How much of it is sodium nitrite, from its label: 6.25% or 0.0625.
    #[arg(
        long,
        value_name = "PART",
        requires = "agent",
        allow_hyphen_values = true
    )]
    nitrite_fraction: Option<String>,
    /// The same, read from the label a second time, where it is an unusual one.
    #[arg(
        long,
        value_name = "PART",
        requires = "nitrite_fraction",
        allow_hyphen_values = true
    )]
    nitrite_fraction_again: Option<String>,
}

#[derive(Debug, Args)]
pub(super) struct WeighArguments {
    #[command(flatten)]
    line: LineArguments,
    /// How much; below zero where some was taken back out.
    #[arg(long, value_name = "MASS", allow_hyphen_values = true)]
    mass: String,
    #[command(flatten)]
    ingredient: IngredientArguments,
    /// More of the item of this number, which `show` shows.
    #[arg(long, value_name = "N", conflicts_with = "ingredient")]
    item: Option<u32>,
    /// How warm it was.
    #[arg(long, value_name = "TEMP", allow_hyphen_values = true)]
    temperature: Option<String>,
}

#[derive(Debug, Args)]
pub(super) struct NameArguments {
    #[command(flatten)]
    line: LineArguments,
    /// The item's number, which `show` shows.
    #[arg(long, value_name = "N")]
    item: u32,
    #[command(flatten)]
    ingredient: IngredientArguments,
}

#[derive(Debug, Args)]
pub(super) struct TextArguments {
    #[command(flatten)]
    line: LineArguments,
    /// The text.
    text: String,
}

#[derive(Debug, Args)]
pub(super) struct TasteArguments {
    #[command(flatten)]
    line: LineArguments,
    /// From 1, never again, over 5, as it should be, to 9, the best yet.
    #[arg(long, value_name = "1-9")]
    mark: u8,
    /// What it was like.
    #[arg(long, value_name = "TEXT", default_value = "")]
    note: String,
}

#[derive(Debug, Args)]
#[command(group = ArgGroup::new("out").required(true).args(["due", "lasting"]))]
pub(super) struct PlanArguments {
    #[command(flatten)]
    line: LineArguments,
    /// When it is due out: 2026-05-03T18:30.
    #[arg(long, value_name = "TIME")]
    due: Option<String>,
    /// Or how long it stays in: 3d, 36h.
    #[arg(long = "for", value_name = "SPAN")]
    lasting: Option<String>,
    /// How often it is to be turned or looked at: 12h.
    #[arg(long, value_name = "SPAN")]
    every: Option<String>,
}

#[derive(Debug, Args)]
pub(super) struct DryArguments {
    #[command(flatten)]
    line: LineArguments,
    /// How much of its first weight it is to lose, in per cent.
    #[arg(long, value_name = "PERCENT", allow_hyphen_values = true)]
    loss: String,
    /// What it weighed at first, where that is not all that was weighed in.
    #[arg(long, value_name = "MASS", allow_hyphen_values = true)]
    green: Option<String>,
}

#[derive(Debug, Args)]
pub(super) struct ReweighArguments {
    #[command(flatten)]
    line: LineArguments,
    /// What it weighs now.
    #[arg(long, value_name = "MASS", allow_hyphen_values = true)]
    mass: String,
}

#[derive(Debug, Args)]
pub(super) struct StoreArguments {
    #[command(flatten)]
    line: LineArguments,
    /// How warm it is.
    #[arg(long, value_name = "TEMP", allow_hyphen_values = true)]
    temperature: String,
}

#[derive(Debug, Args)]
pub(super) struct PacketArguments {
    #[command(flatten)]
    line: LineArguments,
    /// The item's number, which `show` shows.
    #[arg(long, value_name = "N")]
    item: u32,
    /// What the packet says is in it; nitrite and nitrate are not.
    text: String,
}

#[derive(Debug, Args)]
pub(super) struct ReadyArguments {
    #[command(flatten)]
    line: LineArguments,
    /// The number of an item that is meat, where more than one can be; once for each.
    #[arg(long, value_name = "N", requires = "method")]
    meat_item: Vec<u32>,
    /// Why it is cured another way than was said before.
    #[arg(long, value_name = "TEXT", requires = "method")]
    reason: Option<String>,
    #[command(flatten)]
    method: MethodArguments,
}

#[derive(Debug, Args)]
pub(super) struct StrikeArguments {
    #[command(flatten)]
    line: LineArguments,
    /// The line's number, which `show` shows.
    #[arg(long = "line", value_name = "N")]
    struck: u32,
    /// Why.
    #[arg(long, value_name = "TEXT")]
    reason: String,
}

#[derive(Debug, Args)]
pub(super) struct CompareArguments {
    /// The title.
    title: String,
    /// Shares of this ingredient instead of the whole.
    #[arg(long, value_name = "NAME")]
    of: Option<String>,
    /// One JSON object a line.
    #[arg(long)]
    json: bool,
}

#[derive(Debug, Args)]
#[command(group = ArgGroup::new("size").required(true).args(["amount", "total"]))]
pub(super) struct AgainArguments {
    /// The batch's number.
    batch: String,
    /// More of one ingredient, in per cent of what it was: water=5, or less: water=-5.
    #[arg(long, value_name = "NAME=PERCENT", allow_hyphen_values = true)]
    more: Vec<String>,
    /// How much there is to be of one ingredient: water=2kg.
    #[arg(long, value_name = "NAME=MASS")]
    amount: Option<String>,
    /// Or of all together.
    #[arg(long, value_name = "MASS", allow_hyphen_values = true)]
    total: Option<String>,
    /// One JSON object a line.
    #[arg(long)]
    json: bool,
}

pub(super) fn run(data: &Data, command: BatchCommand, language: Language) -> Result<(), Failure> {
    match command {
        BatchCommand::Begin {
            title,
            when,
            telling,
        } => begin(data, title, &when, telling),
        BatchCommand::List { title, json } => list(data, title.as_deref(), json),
        BatchCommand::Show { batch, json } => show(data, &batch, json, language),
        BatchCommand::Weigh(arguments) => weigh(data, &arguments),
        BatchCommand::Name(arguments) => {
            let ingredient = arguments
                .ingredient
                .ingredient()?
                .ok_or_else(|| bad_input!("batch-what-needed"))?;
            let what = What::Named {
                slot: Slot(arguments.item),
                ingredient: NamedAs(ingredient),
            };
            add(data, &arguments.line, what)
        }
        BatchCommand::Title(arguments) => add(
            data,
            &arguments.line,
            What::Titled {
                title: arguments.text,
            },
        ),
        BatchCommand::Note(arguments) => add(
            data,
            &arguments.line,
            What::Noted {
                text: arguments.text,
            },
        ),
        BatchCommand::Taste(arguments) => {
            let what = What::Tasted {
                mark: Mark::new("--mark", arguments.mark)?,
                note: arguments.note,
            };
            add(data, &arguments.line, what)
        }
        BatchCommand::Plan(arguments) => plan(data, &arguments),
        BatchCommand::Turned(line) => add(data, &line, What::Turned),
        BatchCommand::Out(line) => add(data, &line, What::CameOut),
        BatchCommand::Dry(arguments) => dry(data, &arguments),
        BatchCommand::Reweigh(arguments) => {
            let mass = mass_positive("--mass", &arguments.mass)?;
            add(data, &arguments.line, What::Reweighed { mass })
        }
        BatchCommand::Store(arguments) => {
            let temperature = parse_temperature("--temperature", &arguments.temperature)?;
            add(data, &arguments.line, What::Stored { temperature })
        }
        BatchCommand::Packet(arguments) => {
            let what = What::Vouched {
                slot: Slot(arguments.item),
                packet: arguments.text,
            };
            add(data, &arguments.line, what)
        }
        BatchCommand::Ready(arguments) => ready(data, &arguments),
        BatchCommand::Strike(arguments) => {
            let what = What::Struck {
                line: arguments.struck,
                reason: arguments.reason,
            };
            add(data, &arguments.line, what)
        }
        BatchCommand::Due { json } => due(data, json),
        BatchCommand::Compare(arguments) => compare(data, &arguments),
        BatchCommand::Yield(arguments) => yields::note(data, &arguments),
        BatchCommand::Yields(arguments) => yields::yields(data, &arguments, language),
        BatchCommand::Again(arguments) => again(data, &arguments),
    }
}

impl WhenArguments {
    fn moment(&self) -> Result<Timestamp, Failure> {
        match &self.at {
            Some(text) => Ok(read_moment(
                "--at",
                text,
                &ZonedDateTime::now(),
                DayEdge::Begin,
            )?),
            None => Ok(Timestamp::now()),
        }
    }

    /// When something happened.
    fn happened(&self) -> Result<Timestamp, Failure> {
        happened("--at", self.at.as_deref())
    }
}

impl IngredientArguments {
    fn ingredient(&self) -> Result<Option<Ingredient>, Failure> {
        if let (Some(name), Some(fraction)) = (&self.agent, &self.nitrite_fraction) {
            let again = self.nitrite_fraction_again.as_deref();
            return Ok(Some(Ingredient::curing(cure::agent(
                name, None, fraction, again,
            )?)));
        }
        self.name
            .as_ref()
            .map(|name| {
                Ingredient::plain(name).map_err(|refusal| {
                    let why = Spoken::each(|language| {
                        language
                            .english_or(&refusal, |language| name_refusal_words(language, refusal))
                    });
                    bad_input!("batch-name-refused", why = why)
                })
            })
            .transpose()
    }
}

fn batch_id(text: &str) -> Result<BatchId, Failure> {
    text.trim()
        .parse()
        .map(BatchId)
        .map_err(|_| bad_input!("batch-no-number", text = quoted(text)))
}

/// What was typed, in quotes; the beginning of it where it is long.
pub(super) fn quoted(text: &str) -> String {
    format!("{:?}", excerpt(text))
}

fn begin(
    data: &Data,
    title: Option<String>,
    when: &WhenArguments,
    telling: Telling,
) -> Result<(), Failure> {
    let at = when.happened()?;
    // What cannot be kept begins no batch.
    let titled = title
        .map(|title| What::Titled { title }.as_kept())
        .transpose()
        .map_err(|error| fields::at_flag(&error, &[("title", "--title")]))?;
    let mut store = data.store()?;
    let id = store.begin_batch(at)?;
    if let Some(what) = titled {
        store.add_to_batch(id, &Entry { at, what })?;
    }
    let batch = store.batch(id)?;
    telling.tell(
        &say!(data.language, "batch-number", number = id.to_string()),
        &summary(id, &batch, Timestamp::now()),
    )
}

/// Says how a batch stands.
fn standing(
    language: Language,
    id: BatchId,
    batch: &Batch,
    telling: Telling,
) -> Result<(), Failure> {
    let now = Timestamp::now();
    telling.tell(&words(language, id, batch, now), &summary(id, batch, now))
}

/// Adds a line and says how the batch stands.
fn add(data: &Data, line: &LineArguments, what: What) -> Result<(), Failure> {
    let id = batch_id(&line.batch)?;
    let at = line.when.happened()?;
    let batch = data.existing()?.add_to_batch(id, &Entry { at, what })?;
    standing(data.language, id, &batch, line.telling)
}

fn weigh(data: &Data, arguments: &WeighArguments) -> Result<(), Failure> {
    let id = batch_id(&arguments.line.batch)?;
    let at = arguments.line.when.happened()?;
    let mass = parse_mass("--mass", &arguments.mass)?;
    let temperature = arguments
        .temperature
        .as_ref()
        .map(|text| parse_temperature("--temperature", text))
        .transpose()?;
    let ingredient = arguments.ingredient.ingredient()?;
    let mut store = data.existing()?;
    let batch = store.batch(id)?;
    let there = batch.weighed_in();
    let known = ingredient.as_ref().and_then(|ingredient| {
        let same = |slot: &&WeighedIn| {
            slot.ingredient
                .as_ref()
                .is_some_and(|other| other.is_same(ingredient))
        };
        there.iter().find(same).map(|slot| slot.slot)
    });
    let slot = match (arguments.item, known) {
        (Some(item), _) => {
            if !there.iter().any(|slot| slot.slot.0 == item) {
                return Err(bad_input!("batch-no-such-item", item = item.to_string()));
            }
            Slot(item)
        }
        (None, Some(known)) => known,
        (None, None) => batch.free_slot(),
    };
    let mut batch = store.add_to_batch(
        id,
        &Entry {
            at,
            what: What::Weighed {
                slot,
                mass,
                temperature,
            },
        },
    )?;
    if let (Some(ingredient), None) = (ingredient, known) {
        batch = store.add_to_batch(
            id,
            &Entry {
                at,
                what: What::Named {
                    slot,
                    ingredient: NamedAs(ingredient),
                },
            },
        )?;
    }
    standing(data.language, id, &batch, arguments.line.telling)
}

fn plan(data: &Data, arguments: &PlanArguments) -> Result<(), Failure> {
    let into = arguments.line.when.moment()?;
    let due = match (&arguments.due, &arguments.lasting) {
        (Some(text), _) => read_moment("--due", text, &ZonedDateTime::now(), DayEdge::Begin)?,
        (None, text) => {
            let text = text.as_deref().unwrap_or_default();
            into.checked_add(parse_span("--for", text)?)
                .map_err(|_| bad_input!("batch-beyond-calendar", text = quoted(text)))?
        }
    };
    if let Some(text) = arguments.due.as_ref().filter(|_| due <= into) {
        let zone = TimeZone::system();
        return Err(bad_input!(
            "batch-due-before",
            text = quoted(text),
            due = show_date_and_time(due, &zone),
            into = show_date_and_time(into, &zone),
        ));
    }
    let every = arguments
        .every
        .as_ref()
        .map(|text| parse_span("--every", text))
        .transpose()?;
    let plan = Schedule::new(into, due, every)
        .map_err(|error| fields::at_flag(&error, &[("due", "--due"), ("every", "--every")]))?;
    add(data, &arguments.line, What::Planned { plan })
}

fn dry(data: &Data, arguments: &DryArguments) -> Result<(), Failure> {
    let id = batch_id(&arguments.line.batch)?;
    let green = match &arguments.green {
        Some(text) => mass_positive("--green", text)?,
        None => data.existing()?.batch(id)?.total(),
    };
    let percent = parse_percent("--loss", &arguments.loss)?;
    let target = LossTarget::new(green, percent).map_err(|error| {
        fields::at_flag(&error, &[("loss", "--loss"), ("first weight", "--green")])
    })?;
    add(data, &arguments.line, What::ToLose { target })
}

/// The way of curing that was said, what was not said now being as it was.
fn way(arguments: &ReadyArguments, was: Option<CuringWay>) -> Result<Option<CuringWay>, Failure> {
    let Some(method) = arguments.method.method()? else {
        return Ok(None);
    };
    let mut way = was
        .filter(|was| was.method == method)
        .unwrap_or_else(|| CuringWay {
            method,
            meat: Vec::new(),
            pick_up: None,
            skin_on: false,
        });
    if !arguments.meat_item.is_empty() {
        way.meat = arguments.meat_item.iter().copied().map(Slot).collect();
    }
    way.pick_up = arguments.method.pick_up()?.or(way.pick_up);
    way.skin_on |= arguments.method.skin_on();
    Ok(Some(way))
}

fn ready(data: &Data, arguments: &ReadyArguments) -> Result<(), Failure> {
    let id = batch_id(&arguments.line.batch)?;
    let at = arguments.line.when.happened()?;
    let limits = in_force(data)?;
    let language = data.language;
    let mut store = data.existing()?;
    let mut batch = store.batch(id)?;
    let was = batch.way();
    if let Some(way) = way(arguments, was.clone())? {
        if batch.agents().is_empty() {
            return Err(bad_input!("batch-no-agent"));
        }
        // Bound to the batch as soon as it is said, whether the batch is ready by it or not.
        if was.as_ref() != Some(&way) {
            let what = What::CuredBy {
                way,
                reason: arguments.reason.clone(),
            };
            batch = store
                .add_to_batch(id, &Entry { at, what })
                .map_err(|error| {
                    if error.is_bad_input() {
                        let why = Spoken::each(|language| {
                            store_error::said(language, &error).in_words(language)
                        });
                        bad_input!("batch-say-reason", why = why)
                    } else {
                        error.into()
                    }
                })?;
        }
    }
    let typed = arguments.method.amounts()?;
    let agent = batch
        .weighed_in()
        .into_iter()
        .filter_map(|slot| slot.ingredient?.agent().map(|_| slot.mass))
        .sum();
    let by = Judging {
        limits: &limits,
        scale: arguments.method.within(agent)?.unwrap_or(Mass::ZERO),
        longest_step: STORE_STEP,
        claimed: Claimed {
            meat: typed.meat,
            pickle: typed.pickle,
        },
    };
    let (entry, ingoing) = batch.ready_line(at, &by).map_err(|error| {
        Failure::OverLimit(
            language.english_or(&error, |language| batch_error_words(language, &error)),
        )
    })?;
    let batch = store.add_to_batch(id, &entry)?;
    if let Some(ingoing) = &ingoing {
        if arguments.line.telling.is_json() {
            let mut fields = summary(id, &batch, Timestamp::now());
            fields.insert("ingoing".to_owned(), json!(ingoing.to_string()));
            fields.insert("caution".to_owned(), json!(evenhand_kitchen::cure::CAUTION));
            return output::json(&fields);
        }
        let found = language.english_or(ingoing, |language| ingoing_words(language, ingoing));
        output::line(&format!("{found}\n{}", caution(language)))?;
    }
    standing(data.language, id, &batch, arguments.line.telling)
}

fn grams(language: Language, mass: Mass) -> String {
    language.figure(format_mass(mass, MassUnit::Gram))
}

/// `turn in 7 h 20 min`
fn due_words(language: Language, due: &Due) -> String {
    let task = match due.task {
        Task::Turn => "turn",
        Task::TakeOut => "take-out",
    };
    let when = if due.is_overdue() {
        "overdue"
    } else if due.left.as_mins() == 0 {
        "now"
    } else {
        "in"
    };
    let span = span_words(language, due.left);
    say!(language, "batch-due", task = task, when = when, span = span).into_owned()
}

fn title_words<'b>(language: Language, batch: &'b Batch) -> Cow<'b, str> {
    batch
        .title()
        .map_or_else(|| say!(language, "batch-no-title"), Cow::Borrowed)
}

/// `batch 3: necks, 10200.0 g, ready, turn in 7 h 20 min`
fn words(language: Language, id: BatchId, batch: &Batch, now: Timestamp) -> String {
    let mut parts = vec![title_words(language, batch).into_owned()];
    if batch.total() > Mass::ZERO {
        parts.push(grams(language, batch.total()));
    }
    if batch.is_ready() {
        parts.push(say!(language, "batch-is-ready").into_owned());
    }
    if let Some(loss) = batch.loss() {
        parts.push(loss_words(language, &loss));
    }
    parts.extend(batch.due(now).first().map(|due| due_words(language, due)));
    if batch.came_out().is_some() {
        parts.push(say!(language, "batch-is-out").into_owned());
    }
    if let Some(tasting) = batch.tastings().last() {
        parts.push(mark_words(language, tasting.mark));
    }
    say!(
        language,
        "batch-stands",
        number = id.to_string(),
        parts = parts.join(", ")
    )
    .into_owned()
}

fn item_json(slot: &WeighedIn) -> Value {
    json!({
        "item": slot.slot.0,
        "name": slot.ingredient.as_ref().map(Ingredient::name),
        "curing_agent": slot.ingredient.as_ref().is_some_and(|ingredient| ingredient.agent().is_some()),
        "nitrite_fraction": slot
            .ingredient
            .as_ref()
            .and_then(|ingredient| ingredient.agent())
            .map(|agent| agent.nitrite().parts()),
        "mass_grams": Grams(slot.mass),
        "temperature_c": slot.temperature.map(|temperature| temperature.celsius()),
    })
}

fn summary(id: BatchId, batch: &Batch, now: Timestamp) -> Map<String, Value> {
    let mut fields = Map::new();
    let due: Vec<Value> = batch
        .due(now)
        .iter()
        .map(|due| {
            json!({
                "task": due.task,
                "at": due.at,
                "left_seconds": due.left.as_secs(),
                "overdue": due.is_overdue(),
                "words": due.to_string(),
            })
        })
        .collect();
    let tasting = batch.tastings().into_iter().next_back();
    for (name, value) in [
        ("batch", json!(id.0)),
        ("title", json!(batch.title())),
        ("begun", json!(batch.begun())),
        ("total_grams", json!(Grams(batch.total()))),
        ("items", batch.weighed_in().iter().map(item_json).collect()),
        ("ready", json!(batch.is_ready())),
        ("came_out", json!(batch.came_out())),
        ("due", Value::Array(due)),
        (
            "lost_percent",
            json!(batch.loss().map(|loss| loss.percent())),
        ),
        (
            "loss_to_go_grams",
            json!(batch.loss().map(|loss| Grams(loss.to_go()))),
        ),
        (
            "mark",
            json!(tasting.as_ref().map(|tasting| tasting.mark.value())),
        ),
        ("note", json!(tasting.map(|tasting| tasting.note))),
    ] {
        fields.insert(name.to_owned(), value);
    }
    fields
}

fn list(data: &Data, title: Option<&str>, as_json: bool) -> Result<(), Failure> {
    let store = data.existing()?;
    let now = Timestamp::now();
    let batches = match title {
        Some(title) => store.batches_titled(title)?,
        None => store.batches()?,
    };
    output::nothing_yet(
        batches.is_empty(),
        as_json,
        &say!(data.language, "batch-none"),
    )?;
    for (id, batch) in batches {
        if as_json {
            output::json(&summary(id, &batch, now))?;
        } else {
            output::line(&words(data.language, id, &batch, now))?;
        }
    }
    Ok(())
}

fn show(data: &Data, batch: &str, as_json: bool, language: Language) -> Result<(), Failure> {
    let id = batch_id(batch)?;
    let batch = data.existing()?.batch(id)?;
    let now = Timestamp::now();
    let limits = in_force(data)?;
    let findings = batch.store_check(&limits, STORE_STEP);
    if as_json {
        let mut fields = summary(id, &batch, now);
        let lines: Vec<Value> = batch
            .entries()
            .enumerate()
            .map(|(line, (entry, struck))| json!({"line": line, "struck": struck, "entry": entry}))
            .collect();
        let cold: Vec<Value> = findings
            .iter()
            .map(|finding| json!({"outcome": finding.outcome, "sentence": finding.to_string()}))
            .collect();
        fields.insert("lines".to_owned(), Value::Array(lines));
        fields.insert("cold_store".to_owned(), Value::Array(cold));
        return output::json(&fields);
    }
    output::line(&words(language, id, &batch, now))?;
    for slot in batch.weighed_in() {
        let name = slot.ingredient.as_ref().map_or_else(
            || say!(language, "batch-no-name").into_owned(),
            |ingredient| ingredient_words(language, ingredient),
        );
        let item = say!(
            language,
            "batch-item-line",
            item = slot.slot.0.to_string(),
            mass = grams(language, slot.mass),
            name = name
        );
        output::line(&format!("  {item}"))?;
    }
    for due in batch.due(now) {
        output::line(&format!("  {}", due_words(language, &due)))?;
    }
    for finding in &findings {
        let found = say!(
            language,
            "batch-cold-store-found",
            outcome = outcome_words(language, finding.outcome),
            found = finding_words(language, finding)
        );
        output::line(&format!("  {found}"))?;
    }
    if !findings.is_empty() {
        output::line(&format!("  {}", limits::caution(language)))?;
    }
    for tasting in batch.tastings() {
        let mark = mark_words(language, tasting.mark);
        output::line(&format!("  {mark}: {}", tasting.note))?;
    }
    let zone = TimeZone::system();
    for (line, (entry, struck)) in batch.entries().enumerate() {
        let what = line_words(language, entry, &zone);
        let at = show_date_and_time(entry.at, &zone);
        let line = line.to_string();
        let words = if struck {
            say!(
                language,
                "batch-line-struck",
                line = line,
                at = at,
                what = what
            )
        } else {
            say!(
                language,
                "batch-line-on-record",
                line = line,
                at = at,
                what = what
            )
        };
        output::line(&format!("  {words}"))?;
    }
    Ok(())
}

fn due(data: &Data, as_json: bool) -> Result<(), Failure> {
    let now = Timestamp::now();
    let language = data.language;
    let batches = data.existing()?.batches()?;
    let all = due_with(&batches, now);
    output::nothing_yet(
        all.is_empty(),
        as_json,
        &say!(language, "batch-nothing-due"),
    )?;
    for (id, batch, due) in all {
        if as_json {
            let title = title_words(Language::English, batch);
            output::json(&json!({
                "batch": id.0,
                "title": title,
                "task": due.task,
                "at": due.at,
                "left_seconds": due.left.as_secs(),
                "overdue": due.is_overdue(),
                "words": due.to_string(),
            }))?;
        } else {
            output::line(&say!(
                language,
                "batch-due-with",
                number = id.to_string(),
                title = title_words(language, batch),
                due = due_words(language, &due)
            ))?;
        }
    }
    Ok(())
}

fn compare(data: &Data, arguments: &CompareArguments) -> Result<(), Failure> {
    let batches = data.existing()?.batches_titled(&arguments.title)?;
    if batches.is_empty() {
        return Err(bad_input!(
            "batch-no-such-title",
            title = format!("{:?}", arguments.title)
        ));
    }
    let language = data.language;
    let of = match &arguments.of {
        Some(name) => ShareOf::Ingredient(name.clone()),
        None => ShareOf::Total,
    };
    let comparison = Comparison::new(batches.iter().map(|(_, batch)| batch), of);
    if let Some(name) = &arguments.of {
        comparison
            .against_mark(name)
            .map_err(|error| fields::at_flag(&error, &[("ingredient", "--of")]))?;
    }
    for ((id, _), row) in batches.iter().zip(&comparison.rows) {
        let shares = comparison.ingredients.iter().zip(&row.shares);
        if arguments.json {
            let shares: Map<String, Value> = shares
                .map(|(name, share)| (name.clone(), json!(share.map(|share| share.percent()))))
                .collect();
            output::json(&json!({
                "batch": id.0,
                "begun": row.begun,
                "total_grams": Grams(row.total),
                "percent_of": arguments.of.as_deref().unwrap_or("total"),
                "percent": shares,
                "mark": row.mark.map(Mark::value),
                "note": row.note,
            }))?;
        } else {
            let shares: Vec<String> = shares
                .filter_map(|(name, share)| {
                    let percent = share.as_ref().map(|share| format!("{share:.2}"))?;
                    let percent = language.figure(percent);
                    let name = name.as_str();
                    let said = say!(language, "batch-share", name = name, percent = percent);
                    Some(said.into_owned())
                })
                .collect();
            let mark = row.mark.map_or_else(
                || say!(language, "batch-not-tasted").into_owned(),
                |mark| mark_words(language, mark),
            );
            output::line(&say!(
                language,
                "batch-compared",
                number = id.to_string(),
                shares = shares.join(", "),
                mark = mark
            ))?;
        }
    }
    Ok(())
}

/// `water=5` in its two parts.
fn pair<'t>(field: &str, text: &'t str) -> Result<(&'t str, &'t str), Failure> {
    text.split_once('=')
        .ok_or_else(|| bad_input!("batch-no-equals", flag = field, text = quoted(text)))
}

fn again(data: &Data, arguments: &AgainArguments) -> Result<(), Failure> {
    let id = batch_id(&arguments.batch)?;
    let batch = data.existing()?.batch(id)?;
    let mut formula = batch.as_formula().map_err(|error| {
        let input = InputError::from(error.clone());
        let why = Spoken::each(|language| {
            language.english_or(&input, |language| ratio_error_words(language, &error))
        });
        bad_input!("batch-no-formula", why = why)
    })?;
    for more in &arguments.more {
        let (name, by) = pair("--more", more)?;
        formula = formula
            .with_more(name, parse_percent("--more", by)?)
            .map_err(|error| {
                fields::at_flag(&error, &[("ingredient", "--more"), ("change", "--more")])
            })?;
    }
    let amounts = match (&arguments.amount, &arguments.total) {
        (Some(text), _) => {
            let (name, mass) = pair("--amount", text)?;
            let item = formula
                .find(name)
                .ok_or_else(|| bad_input!("batch-not-in-it", name = quoted(name)))?;
            formula.amounts(item, mass_positive("--amount", mass)?)?
        }
        (None, total) => formula.amounts_of_total(mass_positive(
            "--total",
            total.as_deref().unwrap_or_default(),
        )?)?,
    };
    let language = data.language;
    let curing = formula
        .items()
        .iter()
        .any(|item| item.ingredient().agent().is_some());
    for (item, amount) in formula.items().iter().zip(amounts) {
        if arguments.json {
            output::json(&json!({
                "name": item.ingredient().name(),
                "curing_agent": item.ingredient().agent().is_some(),
                "mass_grams": Grams(amount),
            }))?;
        } else {
            output::line(&format!(
                "{} {}",
                grams(language, amount),
                ingredient_words(language, item.ingredient())
            ))?;
        }
    }
    if curing && !arguments.json {
        let words = say!(language, "batch-again-curing");
        output::line(&format!("{words}\n{}", caution(language)))?;
    }
    Ok(())
}
