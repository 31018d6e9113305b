//! What a log is watched for.

use super::forecast::{Band, ForecastError, Surroundings};
use evenhand_protocol::Temperature;

/// What a log is watched for: an oven for a band to bake in, a pan for a limit.
#[derive(Debug, Clone, PartialEq, Eq, Default, serde::Serialize, serde::Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Aim {
    /// The band to reach, low and high, thousandths of a °C.
    #[serde(
        rename = "band_millicelsius",
        default,
        skip_serializing_if = "Option::is_none"
    )]
    band: Option<(Temperature, Temperature)>,
    /// The limit to keep, by its name.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub limit: Option<String>,
    /// What it goes toward, where somebody knows, thousandths of a °C.
    #[serde(
        rename = "toward_millicelsius",
        default,
        skip_serializing_if = "Option::is_none"
    )]
    pub toward: Option<Temperature>,
}

impl Aim {
    /// For a band.
    #[must_use]
    pub const fn band_of(band: Band, toward: Option<Temperature>) -> Self {
        Self {
            band: Some((band.low(), band.high())),
            limit: None,
            toward,
        }
    }

    /// For a limit.
    #[must_use]
    pub const fn limit_of(limit: String, toward: Option<Temperature>) -> Self {
        Self {
            band: None,
            limit: Some(limit),
            toward,
        }
    }

    /// The band, where one is aimed at.
    ///
    /// # Errors
    /// [`ForecastError::BandReversed`] where the record holds nonsense.
    pub fn band(&self) -> Result<Option<Band>, ForecastError> {
        self.band
            .map(|(low, high)| Band::new(low, high))
            .transpose()
    }

    /// What it goes toward: what was said, give or take 2 °C, else
    /// nothing known.
    #[must_use]
    pub fn surroundings(&self) -> Surroundings {
        self.toward
            .and_then(|toward| Surroundings::about(toward, 2.0).ok())
            .unwrap_or(Surroundings::UNKNOWN)
    }
}
