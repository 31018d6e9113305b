//! How good the scale, the level and the probe are, as flags.

use super::scale_error::ScaleArguments;
use clap::Args;
use evenhand_kitchen::brine::Doubt;
use evenhand_kitchen::ratio::ScaleError;
use evenhand_kitchen::units::{InputError, mass_not_negative, parse_temperature_difference};
use evenhand_protocol::{Mass, VerificationInterval};
use evenhand_words::Language;

#[derive(Debug, Args)]
pub(super) struct DoubtArguments {
    #[command(flatten)]
    scale: ScaleArguments,
    /// To within how much of it the vessel is filled alike (k = 2), as a weight of water.
    #[arg(
        long,
        value_name = "MASS",
        default_value = "2g",
        allow_hyphen_values = true
    )]
    level_within: String,
    /// To within how much the probe is good (k = 2).
    #[arg(
        long,
        value_name = "TEMP",
        default_value = "1degC",
        allow_hyphen_values = true
    )]
    probe_within: String,
}

/// What is taken where nothing is said of the scale: usual for a kitchen scale of class III.
const USUAL: ScaleError = ScaleError::InService(VerificationInterval::told(Mass::from_grams(1)));

impl DoubtArguments {
    /// As the domain has it, for weighings of so much. Where nothing is said of
    /// the scale, it is one of class III with a verification interval of 1 g.
    pub(super) fn doubt(&self, load: Mass) -> Result<Doubt, InputError> {
        Ok(Doubt {
            mass: self.scale.error()?.unwrap_or(USUAL).at(load),
            level: mass_not_negative("--level-within", &self.level_within)?,
            temperature: parse_temperature_difference("--probe-within", &self.probe_within)?,
        })
    }

    /// What to say of the scale beside the result.
    pub(super) fn note(&self, language: Language) -> Result<Option<String>, InputError> {
        self.scale.note(language)
    }
}
