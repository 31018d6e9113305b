//! `evenhand heat check`.

use super::super::{Data, Failure, output};
use super::limits::{LocalArguments, named};
use super::source::SourceArguments;
use super::{at_flag, temperature};
use crate::words::{bad_input, say};
use clap::Args;
use evenhand_kitchen::heat::{
    Alarm, Lethality, LogReductions, ORGANISMS, Organism, Outcome, Outlook, Reference,
    Surroundings, check, lethality, log_reductions,
};
use evenhand_kitchen::limits::{CAUTION, Demand};
use evenhand_kitchen::probe::{Probe, ProbeDoubt};
use evenhand_kitchen::units::parse_temperature_difference;
use evenhand_use_cases::demand::{about_words, demand_words};
use evenhand_use_cases::heat::{
    ahead, finding_words, forecast_error_words, lethality_error_words, limit_record_words,
    outlook_words, probe_error_words, probe_words, track_records,
};
use evenhand_use_cases::limits::{caution, publication_words, source_words};
use evenhand_use_cases::mixing::batch::outcome_words;
use evenhand_words::Language;
use jiff::SignedDuration;
use serde_json::{Value, json};

#[derive(Debug, Args)]
pub(crate) struct CheckArguments {
    /// Which limit: `evenhand heat limits` lists them; else the one that the log is watched for.
    #[arg(long, value_name = "NAME")]
    limit: Option<String>,
    #[command(flatten)]
    source: SourceArguments,
    /// How far back a log on record is looked at: "24 h"; a day, or a month for freezing.
    #[arg(long, value_name = "TIME", allow_hyphen_values = true)]
    back: Option<String>,
    #[command(flatten)]
    local: LocalArguments,
    /// What it stands in, for where it is going; a warm kitchen if not said.
    #[arg(long, value_name = "TEMP", allow_hyphen_values = true)]
    toward: Option<String>,
    /// Count lethality at this temperature too; needs --z and --z-source.
    #[arg(long, value_name = "TEMP", requires_all = ["z", "z_source"])]
    reference: Option<String>,
    /// Degrees that change the rate tenfold: 10degC, 18degF.
    #[arg(long, value_name = "DIFFERENCE", requires = "reference")]
    z: Option<String>,
    /// Where the reference temperature and z come from.
    #[arg(long, value_name = "TEXT", requires = "reference")]
    z_source: Option<String>,
    /// Count log reductions of an organism too: salmonella-beef, listeria-meat or
    /// listeria-fatty-beef.
    #[arg(long, value_name = "NAME")]
    organism: Option<String>,
    /// How far the probe may be out (k = 2): 1degC. Else what the limits file says;
    /// `evenhand heat probe` works it out.
    #[arg(long, value_name = "DIFFERENCE", allow_hyphen_values = true)]
    probe_within: Option<String>,
    /// One JSON object.
    #[arg(long)]
    json: bool,
}

pub(super) fn run(data: &Data, arguments: &CheckArguments) -> Result<(), Failure> {
    let language = data.language;
    let limits = arguments.local.limits(data)?;
    // A month covers the week that freezing takes.
    let widest = arguments
        .back()?
        .unwrap_or(SignedDuration::from_hours(24 * 30));
    let limit = arguments.limit.as_deref();
    let limit = limit
        .map(|name| named(&limits, "--limit", name))
        .transpose()?;
    let source = arguments.source.read(data, widest)?;
    let aim = match &source.name {
        Some(name) => data.existing()?.heat_aim(name)?,
        None => None,
    };
    let limit = match (limit, aim.as_ref().and_then(|aim| aim.limit.as_deref())) {
        (Some(limit), _) => limit,
        (None, Some(name)) => named(&limits, "--limit", name)?,
        (None, None) => {
            return Err(bad_input!("heat-limit-needed"));
        }
    };
    let around = match &arguments.toward {
        Some(text) => {
            Surroundings::about(temperature("--toward", text)?, 2.0).map_err(|error| {
                at_flag("--toward", error.code(), |language| {
                    forecast_error_words(language, error)
                })
            })?
        }
        None => aim.unwrap_or_default().surroundings(),
    };
    let day = SignedDuration::from_hours(24);
    let log = if source.name.is_some()
        && arguments.back.is_none()
        && !matches!(limit.demand, Demand::Frozen(_))
    {
        let from = source.now.checked_sub(day).unwrap_or(source.now);
        source.log.between(from, jiff::Timestamp::MAX)
    } else {
        source.log.clone()
    };
    let mut log = log;
    let probe = match arguments.probe_within()? {
        Some(doubt) => Some(Probe::Within(doubt)),
        None => limits.probe(),
    };
    log.doubted_by(probe);
    let findings = check(&log, limit);
    let worst = Outcome::worst(findings.iter().map(|finding| finding.outcome));
    let ahead = ahead(&source.log, limit, around, probe, source.now);
    // A file of readings has no record of what was told of it.
    let record = match &source.name {
        Some(_) => Some(track_records(&data.existing()?)?.limits),
        None => None,
    };
    let counted = arguments.lethality(&log)?;
    let reductions = arguments.log_reductions(&log)?;
    let stretch = log.points().first().zip(log.points().last());
    if arguments.json {
        let list: Vec<Value> = findings
            .iter()
            .map(|f| {
                json!({
                    "outcome": f.outcome,
                    "code": f.found.code(),
                    "measured": f.to_string(),
                })
            })
            .collect();
        output::as_far_as_read(output::json(&json!({
            "outcome": worst,
            "limit": limit.name,
            "limit_figures": limit.demand.to_string(),
            "probe_within_celsius": log.doubt.map(|doubt| doubt.within().celsius()),
            "probe": probe_words(Language::English, &log, probe),
            "about": limit.about,
            "limit_source": limit.source.to_string(),
            "from": stretch.map(|(first, _)| first.at),
            "to": stretch.map(|(_, last)| last.at),
            "findings": list,
            "outlook": ahead.iter().map(outlook_json).collect::<Vec<_>>(),
            "outlooks_seen_out": record.map(|record| record.counted),
            "outlooks_held": record.map(|record| record.held),
            "lethality": counted.as_ref().map(|(reference, sum)| json!({
                "equivalent_minutes": sum.equivalent_minutes,
                "reference_celsius": reference.at.celsius(),
                "z_celsius": reference.z_celsius(),
                "source": reference.source,
                "not_counted_minutes": sum.not_counted.as_secs() / 60,
            })),
            "log_reductions": reductions.as_ref().map(|(organism, found)| json!({
                "organism": organism.name,
                "log10": found.log10,
                "d_minutes": organism.d_minutes(),
                "reference_celsius": organism.at().celsius(),
                "z_celsius": organism.z_celsius(),
                "source": organism.source.to_string(),
                "not_counted_minutes": found.not_counted.as_secs() / 60,
            })),
            "gaps": log.gaps().len(),
            "corrections": source.corrections,
            "caution": CAUTION,
        })))?;
        return judged(language, worst, &limit.name);
    }
    let tell = || {
        output::line(&say!(
            language,
            "heat-about",
            name = limit.name.as_str(),
            about = about_words(language, limit)
        ))?;
        let said = |label: &str, words: &str| output::line(&format!("  {label:12} {words}"));
        said(
            &say!(language, "heat-label-limit"),
            &demand_words(language, &limit.demand),
        )?;
        if let Some((first, last)) = stretch {
            said(
                &say!(language, "heat-label-readings"),
                &say!(
                    language,
                    "heat-readings",
                    from = first.at.to_string(),
                    to = last.at.to_string()
                ),
            )?;
        }
        for finding in &findings {
            said(
                &outcome_label(language, finding.outcome),
                &finding_words(language, finding),
            )?;
        }
        said(
            &say!(language, "heat-label-probe"),
            &probe_words(language, &log, probe),
        )?;
        for ahead in &ahead {
            said(
                &alarm(language, ahead.alarm),
                &outlook_words(language, ahead),
            )?;
        }
        if let Some(record) = record
            && ahead.iter().any(|ahead| ahead.expected.is_some())
        {
            said(
                &say!(language, "heat-label-record"),
                &limit_record_words(language, record),
            )?;
        }
        let figure = |value: f64, decimals: usize| language.figure(format!("{value:.decimals$}"));
        let gaps = |not_counted: SignedDuration| (not_counted.as_secs() / 60).to_string();
        if let Some((reference, sum)) = &counted {
            said(
                &say!(language, "heat-label-lethality"),
                &say!(
                    language,
                    "heat-lethality",
                    minutes = figure(sum.equivalent_minutes, 2),
                    at = figure(reference.at.celsius(), 1),
                    z = figure(reference.z_celsius(), 1),
                    source = reference.source.as_str(),
                    gaps = gaps(sum.not_counted)
                ),
            )?;
        }
        if let Some((organism, found)) = &reductions {
            said(
                &say!(language, "heat-label-reduction"),
                &say!(
                    language,
                    "heat-reduction",
                    log = figure(found.log10, 1),
                    organism = say!(
                        language,
                        "heat-organism",
                        name = organism.name,
                        written = organism.about
                    ),
                    d = figure(organism.d_minutes(), 2),
                    at = figure(organism.at().celsius(), 1),
                    z = figure(organism.z_celsius(), 1),
                    source = publication_words(language, organism.source),
                    gaps = gaps(found.not_counted)
                ),
            )?;
        }
        if source.corrections > 0 {
            said(
                &say!(language, "heat-label-corrected"),
                &say!(language, "heat-corrections", count = source.corrections),
            )?;
        }
        said(
            &say!(language, "heat-label-limit-from"),
            &source_words(language, &limit.source),
        )?;
        output::line(&caution(language))
    };
    output::as_far_as_read(tell())?;
    judged(language, worst, &limit.name)
}

fn outcome_label(language: Language, outcome: Outcome) -> String {
    let outcome = match outcome {
        Outcome::Broken => "broken",
        Outcome::Kept => "kept",
        Outcome::Running => "running",
        Outcome::CannotTell => "cannot-tell",
        Outcome::TooClose => "too-close",
        Outcome::Noted => "noted",
    };
    say!(language, "heat-label-outcome", outcome = outcome).into_owned()
}

/// The exit status of a check: nothing but "within" is a success.
fn judged(language: Language, worst: Option<Outcome>, limit: &str) -> Result<(), Failure> {
    let outcome = worst.unwrap_or(Outcome::CannotTell);
    if outcome == Outcome::Kept {
        return Ok(());
    }
    let said = say!(
        language,
        "heat-judged",
        limit = limit,
        outcome = outcome_words(language, outcome)
    )
    .into_owned();
    Err(if outcome == Outcome::Broken {
        Failure::OverLimit(said)
    } else {
        Failure::NotWithin(said)
    })
}

impl CheckArguments {
    fn back(&self) -> Result<Option<SignedDuration>, Failure> {
        self.back
            .as_ref()
            .map(|text| match text.trim().parse::<SignedDuration>() {
                Ok(back) if back.is_positive() => Ok(back),
                _ => Err(bad_input!(
                    "heat-no-length-back",
                    text = format!("{text:?}")
                )),
            })
            .transpose()
    }

    fn probe_within(&self) -> Result<Option<ProbeDoubt>, Failure> {
        self.probe_within
            .as_ref()
            .map(|text| {
                let within = parse_temperature_difference("--probe-within", text)?;
                ProbeDoubt::new(within.celsius()).map_err(|error| {
                    at_flag("--probe-within", error.code(), |language| {
                        probe_error_words(language, &error)
                    })
                })
            })
            .transpose()
    }

    fn log_reductions(
        &self,
        log: &evenhand_kitchen::heat::HeatLog,
    ) -> Result<Option<(Organism, LogReductions)>, Failure> {
        self.organism
            .as_ref()
            .map(|name| {
                let organism = Organism::named(name).ok_or_else(|| {
                    let known: Vec<&str> = ORGANISMS.iter().map(|known| known.name).collect();
                    bad_input!(
                        "heat-organism-unknown",
                        name = format!("{name:?}"),
                        known = known.join(", ")
                    )
                })?;
                Ok((organism, log_reductions(log, &organism)))
            })
            .transpose()
    }

    fn lethality(
        &self,
        log: &evenhand_kitchen::heat::HeatLog,
    ) -> Result<Option<(Reference, Lethality)>, Failure> {
        let (Some(at), Some(z), Some(source)) = (&self.reference, &self.z, &self.z_source) else {
            return Ok(None);
        };
        let z = parse_temperature_difference("--z", z)?;
        let reference = Reference::new(temperature("--reference", at)?, z.celsius(), source.trim())
            .map_err(|error| {
                at_flag("--z, --z-source", error.code(), |language| {
                    lethality_error_words(language, &error)
                })
            })?;
        let sum = lethality(log, &reference);
        Ok(Some((reference, sum)))
    }
}

/// The word before an outlook.
pub(super) fn alarm(language: Language, alarm: Alarm) -> String {
    let alarm = match alarm {
        Alarm::Quiet => "quiet",
        Alarm::Look => "look",
        Alarm::Close => "close",
        Alarm::Act => "act",
        Alarm::Over => "over",
    };
    say!(language, "heat-label-alarm", alarm = alarm).into_owned()
}

pub(super) fn outlook_json(outlook: &Outlook) -> Value {
    json!({
        "alarm": outlook.alarm,
        "deadline": outlook.deadline,
        "expected": outlook.expected.map(super::forecast::when_json),
        "code": outlook.going.code(),
        "sentence": outlook_words(Language::English, outlook),
    })
}
