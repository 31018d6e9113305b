//! How good the scale, the level and the probe are, as flags.

use clap::Args;
use evenhand_kitchen::brine::Doubt;
use evenhand_kitchen::units::{InputError, mass_not_negative, parse_temperature_difference};

#[derive(Debug, Args)]
pub(super) struct DoubtArguments {
    /// To within how much the scale is good (k = 2).
    #[arg(
        long,
        value_name = "MASS",
        default_value = "1g",
        allow_hyphen_values = true
    )]
    scale_within: String,
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

impl DoubtArguments {
    /// As the domain has it.
    pub(super) fn doubt(&self) -> Result<Doubt, InputError> {
        Ok(Doubt {
            mass: mass_not_negative("--scale-within", &self.scale_within)?,
            level: mass_not_negative("--level-within", &self.level_within)?,
            temperature: parse_temperature_difference("--probe-within", &self.probe_within)?,
        })
    }
}
