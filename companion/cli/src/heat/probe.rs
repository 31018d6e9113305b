//! `evenhand heat probe`.

use super::super::{Data, Failure, output};
use super::limits::LocalArguments;
use super::{at_flag, temperature};
use crate::words::{bad_input, say};
use clap::Args;
use evenhand_kitchen::probe::{Chain, Probe, ProbeError, TOLERANCES};
use evenhand_kitchen::units::parse_temperature_difference;
use evenhand_use_cases::heat::probe_error_words;
use evenhand_use_cases::limits::{FILE, publication_words};
use serde_json::json;

#[derive(Debug, Args)]
pub(crate) struct ProbeArguments {
    /// The thermocouple's type, T, K, N or J; else what the limits file says.
    #[arg(long = "type", value_name = "LETTER", requires_all = ["class", "converter", "cold_junction"])]
    kind: Option<String>,
    /// Its tolerance class, 1 or 2.
    #[arg(long, value_name = "1|2", requires = "kind")]
    class: Option<u8>,
    /// How far the converter may be out, by its maker: 0.25degC.
    #[arg(
        long,
        value_name = "DIFFERENCE",
        requires = "kind",
        allow_hyphen_values = true
    )]
    converter: Option<String>,
    /// How far its cold junction may be out, by its maker: 2degC.
    #[arg(
        long,
        value_name = "DIFFERENCE",
        requires = "kind",
        allow_hyphen_values = true
    )]
    cold_junction: Option<String>,
    /// The temperature measured: the tolerance grows with it.
    #[arg(
        long,
        value_name = "TEMP",
        default_value = "57degC",
        allow_hyphen_values = true
    )]
    at: String,
    #[command(flatten)]
    local: LocalArguments,
    /// One JSON object.
    #[arg(long)]
    json: bool,
}

pub(super) fn run(data: &Data, arguments: &ProbeArguments) -> Result<(), Failure> {
    let at = temperature("--at", &arguments.at)?;
    let language = data.language;
    let wrong = |error: ProbeError| {
        let flags = "--type, --class, --converter, --cold-junction";
        at_flag(flags, error.code(), |language| {
            probe_error_words(language, &error)
        })
    };
    let probe = match arguments.chain()? {
        Some(chain) => Some(Probe::of_chain(chain).map_err(wrong)?),
        None => arguments.local.limits(data)?.probe(),
    };
    let Some(probe) = probe else {
        return Err(bad_input!("heat-probe-needed"));
    };
    let doubt = probe.doubt(at).map_err(wrong)?;
    let chain = match probe {
        Probe::Chain(chain) => Some(chain),
        Probe::Within(_) => None,
    };
    if arguments.json {
        return output::json(&json!({
            "within_celsius": doubt.within().celsius(),
            "coverage_factor": 2,
            "at_celsius": at.celsius(),
            "chain": chain,
            "source": chain.map(|_| TOLERANCES.to_string()),
        }));
    }
    output::line(&say!(
        language,
        "heat-probe-good",
        within = language.figure(doubt.to_string()),
        at = language.figure(format!("{:.1}", at.celsius()))
    ))?;
    match chain {
        Some(chain) => {
            output::line(&say!(
                language,
                "heat-probe-chain",
                kind = chain.thermocouple.to_string(),
                class = chain.class.to_string(),
                converter = language.figure(chain.converter.to_string()),
                junction = language.figure(chain.cold_junction.to_string()),
                source = publication_words(language, TOLERANCES)
            ))?;
            output::line(&say!(language, "heat-probe-in-file", file = FILE))?;
            output::line(&format!(
                "[probe]\ntype = \"{}\"\nclass = {}\n\
                 converter-celsius = {:?}\ncold-junction-celsius = {:?}",
                chain.thermocouple.to_string().to_lowercase(),
                chain.class,
                chain.converter,
                chain.cold_junction
            ))
        }
        None => output::line(&say!(language, "heat-probe-by-file")),
    }
}

impl ProbeArguments {
    fn chain(&self) -> Result<Option<Chain>, Failure> {
        let (Some(kind), Some(class), Some(converter), Some(cold_junction)) =
            (&self.kind, self.class, &self.converter, &self.cold_junction)
        else {
            return Ok(None);
        };
        Ok(Some(Chain {
            thermocouple: kind.parse().map_err(|error: ProbeError| {
                at_flag("--type", error.code(), |language| {
                    probe_error_words(language, &error)
                })
            })?,
            class,
            converter: parse_temperature_difference("--converter", converter)?.celsius(),
            cold_junction: parse_temperature_difference("--cold-junction", cold_junction)?
                .celsius(),
        }))
    }
}
