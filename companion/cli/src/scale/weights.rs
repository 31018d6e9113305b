//! Known weights, as they are written on a command line.

use crate::Failure;
use clap::Args;
use evenhand_firmware::signal::WeightClass;
use evenhand_kitchen::units::{InputError, mass_not_negative, mass_positive};
use evenhand_kitchen::{expected, problem};
use evenhand_protocol::KnownWeight;

/// Known weights and how well they are known.
#[derive(Debug, Args)]
pub(super) struct WeightArguments {
    /// A known weight, with its unit: 200g. Several for a calibration, and for a test at half the
    /// capacity and at a portion's size; the lightest first.
    #[arg(
        long = "weight",
        value_name = "MASS",
        required = true,
        allow_hyphen_values = true
    )]
    weights: Vec<String>,
    /// The weights' class after OIML R 111-1: E2, F1, F2, M1, M2 or M3.
    #[arg(
        long,
        value_name = "CLASS",
        default_value = "M1",
        conflicts_with = "within"
    )]
    class: String,
    /// How far each weight may be out, where it has no class: 20mg.
    #[arg(long, value_name = "MASS", allow_hyphen_values = true)]
    within: Option<String>,
}

impl WeightArguments {
    /// The weights.
    pub(super) fn weights(&self) -> Result<Vec<KnownWeight>, Failure> {
        let class = class("--class", &self.class)?;
        let within = self
            .within
            .as_ref()
            .map(|text| mass_not_negative("--within", text))
            .transpose()?;
        self.weights
            .iter()
            .map(|text| {
                let mass = mass_positive("--weight", text)?;
                let limit = match within {
                    Some(within) => within,
                    None => class.permissible_error(mass).ok_or_else(|| {
                        InputError::new(
                            "--weight",
                            text,
                            problem!("no-class-weight"),
                            expected!("class-weight"),
                        )
                    })?,
                };
                Ok(KnownWeight { mass, limit })
            })
            .collect()
    }
}

fn class(field: &str, text: &str) -> Result<WeightClass, InputError> {
    Ok(match text.trim().to_ascii_uppercase().as_str() {
        "E2" => WeightClass::E2,
        "F1" => WeightClass::F1,
        "F2" => WeightClass::F2,
        "M1" => WeightClass::M1,
        "M2" => WeightClass::M2,
        "M3" => WeightClass::M3,
        _ => {
            return Err(InputError::new(
                field,
                text,
                problem!("no-weight-class"),
                expected!("weight-class"),
            ));
        }
    })
}
