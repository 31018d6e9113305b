//! `evenhand brine in`, `out` and `expect`: weighed in, weighed out.

use super::fields::{at_flag, happened};
use super::output::Telling;
use super::{Data, Failure};
use crate::words::{bad_input, say};
use clap::{ArgGroup, Args};
use evenhand_kitchen::batch::BatchId;
use evenhand_kitchen::brine::{MeatWater, PercentOfSolution, SharedPercent, Thickness};
use evenhand_kitchen::units::{
    Grams, InputError, Ratio, mass_not_negative, mass_positive, parse_percent, parse_span,
    parse_temperature,
};
use evenhand_kitchen::uptake::{
    Bath, Cut, IntoBath, Labelled, Middle, OutOfBath, PUBLISHED, SaltKnown, When,
};
use evenhand_protocol::Mass;
use evenhand_use_cases::uptake::{self, Answer, Asked, UptakeError};
use evenhand_words::Language;
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp};
use serde_json::{Value, json};

/// What is asked of a piece.
#[derive(Debug, Args)]
pub(super) struct AskedArguments {
    /// When its core comes to so much salt, in per cent of the raw weight: 1.6%.
    #[arg(long, value_name = "PERCENT", allow_hyphen_values = true)]
    core: Option<String>,
    /// What it comes to after so long: 5h.
    #[arg(long = "for", value_name = "SPAN")]
    lasting: Option<String>,
}

#[derive(Debug, Args)]
#[command(group = ArgGroup::new("salty").required(true).multiple(true).args(["salt", "with"]))]
pub(super) struct InArguments {
    /// What it is: batches of one cut are told together.
    #[arg(long, value_name = "NAME")]
    cut: String,
    /// What all of it weighs.
    #[arg(long, value_name = "MASS", allow_hyphen_values = true)]
    mass: String,
    /// One piece where it is thickest, in millimetres; a long round one's diameter.
    #[arg(long, value_name = "MM", allow_hyphen_values = true)]
    thickness: String,
    /// slab for flat pieces, cylinder for long round ones.
    #[arg(long, default_value = "slab")]
    shape: String,
    /// What the meat or fish is, for the water in it: pork-loin; or its water in per cent.
    #[arg(long, value_name = "KIND|PERCENT")]
    kind: String,
    /// The bath's water.
    #[arg(
        long,
        value_name = "MASS",
        default_value = "0g",
        allow_hyphen_values = true
    )]
    water: String,
    /// The bath's salt.
    #[arg(long, value_name = "MASS", allow_hyphen_values = true)]
    salt: Option<String>,
    /// A sauce or paste in it, by its label; once for each: "soy sauce=150g,salt=16%,water=65%".
    #[arg(long, value_name = "LABEL")]
    with: Vec<String>,
    /// How warm it lies.
    #[arg(
        long = "held-at",
        value_name = "TEMP",
        default_value = "4degC",
        allow_hyphen_values = true
    )]
    held_at: String,
    #[command(flatten)]
    asked: AskedArguments,
    /// The batch that it is; without it a new one is begun, titled by its cut.
    #[arg(long, value_name = "NUMBER", conflicts_with = "only_ask")]
    batch: Option<i64>,
    /// Put nothing on record: only ask.
    #[arg(long)]
    only_ask: bool,
    /// When it goes in, where that is not just now: 2026-05-01T09:00.
    #[arg(long, value_name = "TIME")]
    at: Option<String>,
    #[command(flatten)]
    telling: Telling,
}

#[derive(Debug, Args)]
pub(super) struct OutArguments {
    /// The batch's number.
    batch: i64,
    /// What all of it weighs, drained.
    #[arg(long, value_name = "MASS", allow_hyphen_values = true)]
    mass: String,
    /// How strong the stirred bath is afterwards, in per cent of solution.
    #[arg(long, value_name = "PERCENT", conflicts_with = "salt_in_piece")]
    bath_after: Option<String>,
    /// What the bath weighs afterwards, where it was weighed.
    #[arg(long, value_name = "MASS", requires = "bath_after")]
    bath_mass: Option<String>,
    /// Or the salt of the minced piece by a meter or a laboratory, in per cent.
    #[arg(long, value_name = "PERCENT")]
    salt_in_piece: Option<String>,
    /// Within how many percentage points either of them is known (k = 2).
    #[arg(long, value_name = "POINTS", default_value = "0.2")]
    within: String,
    /// When it came out, where that is not just now.
    #[arg(long, value_name = "TIME")]
    at: Option<String>,
    #[command(flatten)]
    telling: Telling,
}

#[derive(Debug, Args)]
pub(super) struct ExpectArguments {
    /// The batch's number.
    batch: i64,
    #[command(flatten)]
    asked: AskedArguments,
    #[command(flatten)]
    telling: Telling,
}

/// The flags at which the domain's fields are typed.
const FLAGS: &[(&str, &str)] = &[
    ("shape", "--shape"),
    ("mass", "--mass"),
    ("temperature", "--held-at"),
    ("water", "--water"),
    ("salt", "--salt"),
    ("out", "--at"),
    ("bath after", "--bath-after"),
    ("bath after, within", "--within"),
    ("bath after, mass", "--bath-mass"),
    ("salt in the piece", "--salt-in-piece"),
    ("salt in the piece, within", "--within"),
];

fn flag(error: InputError) -> Failure {
    at_flag(&error, FLAGS)
}

impl AskedArguments {
    fn asked(&self) -> Result<Asked, Failure> {
        Ok(Asked {
            lasting: self
                .lasting
                .as_ref()
                .map(|text| parse_span("--for", text))
                .transpose()?,
            core: self
                .core
                .as_ref()
                .map(|text| SharedPercent::parse("--core", text))
                .transpose()?
                .and_then(|core| Ratio::new(core.percent() / 100.0)),
        })
    }
}

impl InArguments {
    fn piece(&self) -> Result<IntoBath, Failure> {
        let labelled = self
            .with
            .iter()
            .map(|label| Labelled::parse("--with", label))
            .collect::<Result<Vec<_>, _>>()?;
        let salt = self
            .salt
            .as_ref()
            .map_or(Ok(Mass::ZERO), |text| mass_not_negative("--salt", text))?;
        let bath =
            Bath::new(mass_not_negative("--water", &self.water)?, salt, labelled).map_err(flag)?;
        IntoBath::new(
            Cut::new("--cut", &self.cut)?,
            mass_positive("--mass", &self.mass)?,
            (
                self.shape.parse().map_err(flag)?,
                Thickness::parse("--thickness", &self.thickness)?,
            ),
            &MeatWater::parse("--kind", &self.kind)?,
            bath,
            parse_temperature("--held-at", &self.held_at)?,
        )
        .map_err(flag)
    }
}

pub(super) fn weigh_in(
    data: &Data,
    arguments: &InArguments,
    language: Language,
) -> Result<(), Failure> {
    let into = arguments.piece()?;
    let asked = arguments.asked.asked()?;
    let at = happened("--at", arguments.at.as_deref())?;
    if arguments.only_ask {
        let soaks = uptake::own_soaks(&data.existing_or_empty()?.store)?;
        let answer = uptake::ask(&soaks, &into, asked);
        return tell(None, &into, &answer, at, (arguments.telling, language));
    }
    let mut store = data.store()?;
    let answer = uptake::ask(&uptake::own_soaks(&store)?, &into, asked);
    let id = uptake::put_in(&mut store, arguments.batch.map(BatchId), &into, at)?;
    tell(Some(id), &into, &answer, at, (arguments.telling, language))
}

pub(super) fn expect(
    data: &Data,
    arguments: &ExpectArguments,
    language: Language,
) -> Result<(), Failure> {
    let asked = arguments.asked.asked()?;
    let store = data.existing()?;
    let id = BatchId(arguments.batch);
    let batch = store.batch(id)?;
    let (into, since) = batch.in_bath().ok_or_else(|| not_in_bath(id))?;
    let answer = uptake::ask(&uptake::own_soaks(&store)?, into, asked);
    tell(
        Some(id),
        into,
        &answer,
        since,
        (arguments.telling, language),
    )
}

fn not_in_bath(id: BatchId) -> Failure {
    bad_input!("uptake-not-in-bath", number = id.to_string())
}

fn tell(
    id: Option<BatchId>,
    into: &IntoBath,
    answer: &Answer,
    since: Timestamp,
    (telling, language): (Telling, Language),
) -> Result<(), Failure> {
    let zone = TimeZone::system();
    let mut lines = uptake::asked_words(language, into, answer, since, &zone);
    if let Some(id) = id {
        let number = id.to_string();
        lines.insert(
            0,
            say!(language, "batch-number", number = number).into_owned(),
        );
    }
    telling.tell(&lines.join("\n"), &fields(id, into, answer, since))
}

fn rounded(ratio: Ratio) -> f64 {
    (ratio.percent() * 1e4).round() / 1e4
}

fn hours(span: SignedDuration) -> f64 {
    (span.as_secs_f64() / 36.0).round() / 100.0
}

fn middle(of: Option<&Middle>) -> Value {
    of.map_or(Value::Null, |of| {
        json!({
            "middle": rounded(of.middle),
            "from": rounded(of.from),
            "to": rounded(of.to),
        })
    })
}

/// The answer for machines; per cents are of the raw weight.
fn fields(id: Option<BatchId>, into: &IntoBath, answer: &Answer, since: Timestamp) -> Value {
    let (end, doubt) = into.ends_at();
    let mut fields = json!({
        "batch": id.map(|id| id.0),
        "cut": into.cut.name(),
        "bath_salt_percent_of_solution": rounded(into.bath.strength()),
        "salt_percent_in_the_end": rounded(end),
        "salt_percent_in_the_end_give_or_take": rounded(doubt),
        "published": PUBLISHED.map(|source| source.to_string()),
    });
    if let Some((lasting, expected)) = &answer.expected {
        fields["after"] = json!({
            "hours": hours(*lasting),
            "gain_percent": middle(expected.gain.as_ref()),
            "salt_percent": middle(expected.salt.as_ref()),
            "water_percent": middle(expected.water.as_ref()),
            "core_salt_percent": middle(expected.core.as_ref()),
            "more_batches_with_salt": expected.more_with_salt,
            "more_batches_weighed": expected.more_weighed,
        });
    }
    if let Some((wanted, when)) = &answer.when {
        let at = |after: SignedDuration| since.checked_add(after).ok().map(|at| at.to_string());
        let mut found = match when {
            When::NotKnownYet { more, published } => json!({
                "code": "not-known-yet",
                "more_batches": more,
                "published_hours_from": published.0.map(hours),
                "published_hours_to": published.1.map(hours),
            }),
            When::Never { ends_at } => {
                json!({"code": "never", "ends_at_percent": rounded(*ends_at)})
            }
            When::After {
                middle,
                from,
                to,
                ends_at,
                salt_then,
            } => json!({
                "code": "after",
                "hours": hours(*middle),
                "hours_from": hours(*from),
                "hours_to": to.map(hours),
                "at": at(*middle),
                "ends_at_percent": rounded(*ends_at),
                "salt_then_percent": rounded(*salt_then),
            }),
        };
        found["core_percent"] = json!(rounded(*wanted));
        fields["when"] = found;
    }
    fields
}

pub(super) fn weigh_out(
    data: &Data,
    arguments: &OutArguments,
    language: Language,
) -> Result<(), Failure> {
    let within = parse_percent("--within", &arguments.within)?;
    let salt = if let Some(text) = &arguments.bath_after {
        SaltKnown::BathAfter {
            percent_of_solution: PercentOfSolution::parse("--bath-after", text)?.percent(),
            within,
            mass: arguments
                .bath_mass
                .as_ref()
                .map(|text| mass_positive("--bath-mass", text))
                .transpose()?,
        }
    } else if let Some(text) = &arguments.salt_in_piece {
        SaltKnown::InThePiece {
            percent: parse_percent("--salt-in-piece", text)?,
            within,
        }
    } else {
        SaltKnown::Nothing
    };
    let at = happened("--at", arguments.at.as_deref())?;
    let out = OutOfBath {
        mass: mass_positive("--mass", &arguments.mass)?,
        salt,
    };
    let id = BatchId(arguments.batch);
    let mut store = data.existing()?;
    let soak = uptake::take_out(&mut store, id, out, at).map_err(|error| match error {
        UptakeError::Store(error) => error.into(),
        UptakeError::Input(error) => flag(error),
        UptakeError::NotInBath(id) => not_in_bath(id),
    })?;
    let found = soak.salt();
    let fields = json!({
        "batch": id.0,
        "cut": soak.into.cut.name(),
        "raw_grams": Grams(soak.into.mass),
        "out_grams": Grams(soak.out.mass),
        "gain_percent": rounded(soak.gain()),
        "hours": hours(soak.lasted),
        "salt_percent": found.map(|found| rounded(found.share)),
        "salt_percent_standard_uncertainty": found.map(|found| rounded(found.uncertainty)),
    });
    arguments
        .telling
        .tell(&uptake::out_words(language, &soak).join("\n"), &fields)
}
