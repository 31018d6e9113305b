//! `evenhand cure`.

use super::fields::at_flag;
use super::heat::in_force;
use super::scale_error::ScaleArguments;
use super::{Data, Failure, output};
use crate::failure::Spoken;
use crate::words::{bad_input, say};
use clap::{Args, Subcommand};
use evenhand_kitchen::cure::{
    AgentRefusal, Amounts, CAUTION, Contents, Curing, CuringAgent, Ingoing, Method,
    NitriteFraction, PickUp, Ppm, TooSmall, Verdict, weighable,
};
use evenhand_kitchen::limits::Limits;
use evenhand_kitchen::units::{Grams, InputError, mass_positive};
use evenhand_protocol::Mass;
use evenhand_use_cases::limits::source_words;
use evenhand_use_cases::mixing::cure::{
    agent_refusal_words, agent_words, also_words, caution, dose_refusal_words, ingoing_words,
    limit_words, method_words, name_refusal_words, reckoning_words, too_small_words,
};
use evenhand_words::Language;
use serde_json::{Map, Value, json};

/// The flags at which the domain's fields are typed.
const FLAGS: &[(&str, &str)] = &[
    ("method", "--method"),
    ("meat", "--meat"),
    ("pickle", "--water"),
    ("pickup", "--pickup"),
    ("agent", "--agent"),
    ("contents", "--contents"),
    ("scale uncertainty", "--scale-within"),
    ("target", "--ppm"),
    ("skin on", "--skin-on with --method"),
    ("dose", "--ppm"),
];

#[derive(Debug, Subcommand)]
pub(super) enum CureCommand {
    /// Ingoing nitrite of what was weighed, against its limit.
    Ppm(PpmArguments),
    /// How much of a curing agent brings so much ingoing nitrite.
    Dose(DoseArguments),
    /// The limits and their sources.
    Limits {
        /// One JSON object a line.
        #[arg(long)]
        json: bool,
    },
}

/// How the meat is cured.
#[derive(Debug, Args)]
pub(super) struct MethodArguments {
    /// How: comminuted, pumped, immersion-pickup, immersion-equilibrium, dry, bacon-pumped,
    /// bacon-immersion-pickup, bacon-immersion-equilibrium or bacon-dry.
    #[arg(long, value_name = "NAME")]
    method: Option<String>,
    /// The raw weight of the meat.
    #[arg(long, value_name = "MASS", allow_hyphen_values = true)]
    meat: Option<String>,
    /// The pickle's water, where there is a pickle.
    #[arg(long, value_name = "MASS", allow_hyphen_values = true)]
    water: Option<String>,
    /// The pickle's salt.
    #[arg(long, value_name = "MASS", allow_hyphen_values = true)]
    salt: Option<String>,
    /// The pickle's sugar and whatever else is in it.
    #[arg(long, value_name = "MASS", allow_hyphen_values = true)]
    sugar: Option<String>,
    /// The share of its raw weight that the meat takes up of the pickle, pumped or soaked, in per cent.
    #[arg(long, value_name = "PERCENT", allow_hyphen_values = true)]
    pickup: Option<String>,
    /// Bacon with its skin on.
    #[arg(long)]
    skin_on: bool,
    #[command(flatten)]
    pub(super) scale: ScaleArguments,
}

/// How the meat is cured, and with what.
#[derive(Debug, Args)]
struct CuringArguments {
    #[command(flatten)]
    method: MethodArguments,
    /// How much of the agent is sodium nitrite, from its label: 6.25% or 0.0625.
    #[arg(long, value_name = "PART", allow_hyphen_values = true)]
    nitrite_fraction: String,
    /// The same, read from the label a second time, where it is an unusual one.
    #[arg(long, value_name = "PART", allow_hyphen_values = true)]
    nitrite_fraction_again: Option<String>,
    /// What the label says is in the agent: sodium-nitrite, potassium-nitrite, nitrate,
    /// nitrite-and-nitrate or vegetable. Only sodium nitrite alone is worked out, and taken where
    /// nothing is said.
    #[arg(long, value_name = "KIND")]
    contents: Option<String>,
    /// One JSON object.
    #[arg(long)]
    json: bool,
}

#[derive(Debug, Args)]
pub(super) struct PpmArguments {
    #[command(flatten)]
    curing: CuringArguments,
    /// How much of the curing agent.
    #[arg(long, value_name = "MASS", allow_hyphen_values = true)]
    agent: String,
}

#[derive(Debug, Args)]
pub(super) struct DoseArguments {
    #[command(flatten)]
    curing: CuringArguments,
    /// How much ingoing nitrite.
    #[arg(long, value_name = "PPM", allow_hyphen_values = true)]
    ppm: String,
}

fn flag(error: InputError) -> Failure {
    at_flag(&error, FLAGS)
}

impl CuringArguments {
    fn agent(&self) -> Result<CuringAgent, Failure> {
        agent(
            "curing agent",
            self.contents.as_deref(),
            &self.nitrite_fraction,
            self.nitrite_fraction_again.as_deref(),
        )
    }
}

/// A curing agent by its label. Its contents are sodium nitrite where nothing
/// else was said.
pub(super) fn agent(
    name: &str,
    contents: Option<&str>,
    fraction: &str,
    again: Option<&str>,
) -> Result<CuringAgent, Failure> {
    let contents = match contents {
        Some(text) => text.parse().map_err(flag)?,
        None => Contents::SodiumNitrite,
    };
    let nitrite = NitriteFraction::parse("--nitrite-fraction", fraction)?;
    let again = again
        .map(|again| NitriteFraction::parse("--nitrite-fraction-again", again))
        .transpose()?;
    match again {
        Some(again) => CuringAgent::read_again(name, contents, nitrite, again),
        None => CuringAgent::from_label(name, contents, nitrite),
    }
    .map_err(|refusal| {
        let why = Spoken::each(|language| {
            language.english_or(&refusal, |language| agent_refusal_words(language, &refusal))
        });
        match refusal {
            AgentRefusal::Name(refusal) => {
                let why = Spoken::each(|language| {
                    language.english_or(&refusal, |language| name_refusal_words(language, refusal))
                });
                bad_input!("cure-agent-refused", why = why)
            }
            AgentRefusal::UnusualFraction(_) | AgentRefusal::ReadDifferently { .. } => {
                bad_input!("cure-fraction-refused", why = why)
            }
            _ => bad_input!("cure-contents-refused", why = why),
        }
    })
}

impl MethodArguments {
    /// The way of curing, where it was said.
    pub(super) fn method(&self) -> Result<Option<Method>, Failure> {
        self.method
            .as_ref()
            .map(|name| name.parse().map_err(flag))
            .transpose()
    }

    /// The share that the meat takes up, where it was said.
    pub(super) fn pick_up(&self) -> Result<Option<PickUp>, Failure> {
        Ok(self
            .pickup
            .as_ref()
            .map(|text| PickUp::parse("--pickup", text))
            .transpose()?)
    }

    /// Whether it was said that the skin is on.
    pub(super) const fn skin_on(&self) -> bool {
        self.skin_on
    }

    /// What was typed, whole or in part.
    pub(super) fn amounts(&self) -> Result<Amounts, Failure> {
        let positive = |name: &str, text: &Option<String>| {
            text.as_ref()
                .map(|text| mass_positive(name, text))
                .transpose()
        };
        let water = positive("--water", &self.water)?;
        let salt = positive("--salt", &self.salt)?.unwrap_or(Mass::ZERO);
        let sugar = positive("--sugar", &self.sugar)?.unwrap_or(Mass::ZERO);
        Ok(Amounts {
            meat: positive("--meat", &self.meat)?,
            pickle: water.map(|water| water + salt + sugar),
            pick_up: self.pick_up()?,
            skin_on: self.skin_on,
        })
    }

    fn curing(&self, limits: &Limits) -> Result<Curing, Failure> {
        let method = self.method()?.ok_or_else(|| {
            let names: Vec<&str> = Method::ALL.iter().map(|method| method.name()).collect();
            bad_input!("cure-method-needed", names = names.join(", "))
        })?;
        let limit = limits.nitrite(method).ok_or_else(|| {
            let method = Spoken::each(|language| method_words(language, method));
            bad_input!("cure-no-limit", method = method)
        })?;
        Curing::new(method, self.amounts()?, &limit).map_err(flag)
    }

    /// To within how much the scale weighs so much, where it was said.
    pub(super) fn within(&self, load: Mass) -> Result<Option<Mass>, Failure> {
        Ok(self.scale.error()?.map(|error| error.at(load)))
    }
}

pub(super) fn run(data: &Data, command: CureCommand) -> Result<(), Failure> {
    let in_force = in_force(data)?;
    match command {
        CureCommand::Ppm(arguments) => ppm(data.language, &in_force, &arguments),
        CureCommand::Dose(arguments) => dose(data.language, &in_force, &arguments),
        CureCommand::Limits { json } => limits(data.language, &in_force, json),
    }
}

fn rounded(value: f64) -> f64 {
    (value * 1e3).round() / 1e3
}

fn fields(arguments: &CuringArguments, ingoing: &Ingoing) -> Map<String, Value> {
    let mut fields = Map::new();
    for (name, value) in [
        ("method", json!(ingoing.method.name())),
        ("reckoning", json!(ingoing.method.reckoning())),
        ("ingoing_nitrite_ppm", json!(rounded(ingoing.ppm.value()))),
        (
            "ingoing_nitrite_ppm_uncertainty",
            json!(rounded(ingoing.doubt.value())),
        ),
        ("limit_ppm", json!(rounded(ingoing.limit.at_most().value()))),
        (
            "required_at_least_ppm",
            json!(ingoing.limit.at_least().map(Ppm::value).map(rounded)),
        ),
        ("limit", json!(ingoing.limit)),
        ("limit_figures", json!(ingoing.limit.to_string())),
        ("limit_source", json!(ingoing.limit.source.to_string())),
        (
            "usual_minimum_ppm",
            json!(
                ingoing
                    .limit
                    .usual_minimum
                    .as_ref()
                    .map(|usual| usual.ppm.value())
            ),
        ),
        (
            "usual_minimum_source",
            json!(
                ingoing
                    .limit
                    .usual_minimum
                    .as_ref()
                    .map(|usual| usual.source.to_string())
            ),
        ),
        ("verdict", json!(ingoing.verdict)),
        ("ready", json!(ingoing.verdict.lets_pass())),
        ("contents_said", json!(arguments.contents.is_some())),
        ("caution", json!(CAUTION)),
    ] {
        fields.insert(name.to_owned(), value);
    }
    if let Some((method, ppm)) = ingoing.other_way {
        fields.insert("other_method".to_owned(), json!(method.name()));
        fields.insert("other_method_ppm".to_owned(), json!(rounded(ppm.value())));
    }
    if let Some(also) = ingoing.method.also() {
        fields.insert("also".to_owned(), json!(also));
    }
    fields
}

fn words(language: Language, arguments: &CuringArguments, ingoing: &Ingoing) -> String {
    let method = ingoing.method;
    let found = language.english_or(ingoing, |language| ingoing_words(language, ingoing));
    let reckoned = say!(
        language,
        "cure-reckoned",
        method = method_words(language, method),
        reckoning = reckoning_words(language, method)
    );
    let mut words = format!("{found}\n{reckoned}");
    if arguments.contents.is_none() {
        words += &format!("\n{}", say!(language, "cure-contents-unsaid"));
    }
    if let Some(also) = also_words(language, method) {
        words += &format!("\n{also}");
    }
    words += &format!("\n{}", caution(language));
    words
}

fn ppm(language: Language, limits: &Limits, arguments: &PpmArguments) -> Result<(), Failure> {
    let agent = arguments.curing.agent()?;
    let curing = arguments.curing.method.curing(limits)?;
    let weighed = mass_positive("--agent", &arguments.agent)?;
    let within = arguments.curing.method.within(weighed)?;
    let within = within.unwrap_or(Mass::ZERO);
    let ingoing = curing.ingoing(&agent, weighed, within).map_err(flag)?;
    output::as_far_as_read(if arguments.curing.json {
        output::json(&fields(&arguments.curing, &ingoing))
    } else {
        output::line(&words(language, &arguments.curing, &ingoing))
    })?;
    judged(language, &ingoing)
}

/// The exit status: what does not let a batch pass is no success.
fn judged(language: Language, ingoing: &Ingoing) -> Result<(), Failure> {
    let method = method_words(language, ingoing.method);
    let said = |verdict: &'static str| {
        say!(language, "cure-verdict", verdict = verdict, method = method).into_owned()
    };
    match ingoing.verdict {
        Verdict::OverLimit => Err(Failure::OverLimit(said("over"))),
        Verdict::UnderRequired => Err(Failure::OverLimit(said("under"))),
        Verdict::TooCloseToLimit => Err(Failure::NotWithin(said("close"))),
        Verdict::UnderUsualMinimum | Verdict::WithinLimit => Ok(()),
    }
}

fn dose(language: Language, limits: &Limits, arguments: &DoseArguments) -> Result<(), Failure> {
    let agent = arguments.curing.agent()?;
    let curing = arguments.curing.method.curing(limits)?;
    let target = Ppm::parse("--ppm", &arguments.ppm)?;
    let dose = curing.dose(&agent, target).map_err(|refusal| {
        let why = Spoken::each(|language| {
            if language.is_english() {
                flag(refusal.clone().into()).in_words(language)
            } else {
                dose_refusal_words(language, &refusal)
            }
        });
        bad_input!("cure-dose-refused", why = why)
    })?;
    let scale = &arguments.curing.method.scale;
    let within = arguments.curing.method.within(dose)?;
    let note = scale.note(language)?;
    let too_small = match within {
        Some(within) => weighable(dose, within).map_err(flag)?.err(),
        None => None,
    };
    let ingoing = curing
        .ingoing(&agent, dose, within.unwrap_or(Mass::ZERO))
        .map_err(flag)?;
    if arguments.curing.json {
        let mut fields = fields(&arguments.curing, &ingoing);
        fields.insert("dose_grams".to_owned(), json!(Grams(dose)));
        fields.insert("scale_checked".to_owned(), json!(within.is_some()));
        if let Some(within) = within {
            fields.insert("scale_within_grams".to_owned(), json!(Grams(within)));
        }
        if let Some(note) = &note {
            let note = scale
                .note(Language::English)?
                .unwrap_or_else(|| note.clone());
            fields.insert("scale_note".to_owned(), json!(note));
        }
        if let Some(too_small) = &too_small {
            fields.extend(too_small_fields(too_small));
        }
        output::json(&fields)?;
    } else if too_small.is_none() {
        let mut text = format!(
            "{}\n{}",
            say!(
                language,
                "cure-weigh",
                mass = language.figure(format!("{:.3}", dose.grams())),
                agent = agent_words(language, &agent)
            ),
            words(language, &arguments.curing, &ingoing)
        );
        if within.is_none() {
            text += &format!("\n{}", say!(language, "cure-scale-unchecked"));
        }
        if let Some(note) = &note {
            text += &format!("\n{note}");
        }
        output::line(&text)?;
    }
    match too_small {
        Some(too_small) => {
            let why = Spoken::each(|language| {
                language.english_or(&too_small, |language| too_small_words(language, &too_small))
            });
            let flag = scale.flag();
            Err(match note {
                None => bad_input!("cure-too-small", flag = flag, why = why),
                Some(note) => {
                    bad_input!("cure-too-small-noted", flag = flag, why = why, note = note)
                }
            })
        }
        None => Ok(()),
    }
}

fn too_small_fields(too_small: &TooSmall) -> Map<String, Value> {
    let mut fields = Map::new();
    for (name, value) in [
        ("ready", json!(false)),
        ("verdict", json!("too-small-for-the-scale")),
        ("least_dose_grams", json!(Grams(too_small.least))),
        (
            "dilution_agent_grams",
            json!(Grams(too_small.dilution.agent)),
        ),
        (
            "dilution_water_grams",
            json!(Grams(too_small.dilution.water)),
        ),
        ("dilution_take_grams", json!(Grams(too_small.dilution.take))),
        ("times_the_batch", json!(too_small.times_the_batch)),
    ] {
        fields.insert(name.to_owned(), value);
    }
    fields
}

fn limits(language: Language, limits: &Limits, as_json: bool) -> Result<(), Failure> {
    for method in Method::ALL {
        let Some(limit) = limits.nitrite(method) else {
            continue;
        };
        if as_json {
            output::json(&json!({
                "method": method.name(),
                "limit_ppm": limit.at_most().value(),
                "limit": limit,
                "figures": limit.to_string(),
                "region": limits.region(),
                "limit_source": limit.source.to_string(),
                "reckoning": method.reckoning(),
            }))?;
        } else {
            output::line(&say!(
                language,
                "cure-limit",
                method = method_words(language, method),
                limit = limit_words(language, &limit),
                source = source_words(language, &limit.source)
            ))?;
        }
    }
    if as_json {
        Ok(())
    } else {
        output::line(&caution(language))
    }
}
