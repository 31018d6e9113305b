//! How well the scale weighs, as flags.

use clap::Args;
use evenhand_kitchen::ratio::{ScaleError, untold};
use evenhand_kitchen::units::{InputError, mass_not_negative, mass_positive};
use evenhand_protocol::VerificationInterval;
use evenhand_use_cases::mixing::cure::untold_words;
use evenhand_words::Language;

#[derive(Debug, Args)]
pub(super) struct ScaleArguments {
    /// To within how much the scale is good (k = 2), where that is known.
    #[arg(
        long,
        value_name = "MASS",
        conflicts_with_all = ["scale_e", "scale_d"],
        allow_hyphen_values = true
    )]
    scale_within: Option<String>,
    /// The scale's verification interval, the e on its plate: it is taken to be good to what OIML R 76-1 permits
    /// in service in class III.
    #[arg(
        long,
        value_name = "MASS",
        conflicts_with = "scale_d",
        allow_hyphen_values = true
    )]
    scale_e: Option<String>,
    /// The step of the scale's display, its d, where no e is known: e is then taken as ten of them.
    #[arg(long, value_name = "MASS", allow_hyphen_values = true)]
    scale_d: Option<String>,
}

impl ScaleArguments {
    /// What was said of the scale; `None` where nothing was.
    pub(super) fn error(&self) -> Result<Option<ScaleError>, InputError> {
        if let Some(text) = &self.scale_within {
            let within = mass_not_negative("--scale-within", text)?;
            return Ok(Some(ScaleError::Within(within)));
        }
        Ok(self.interval()?.map(ScaleError::InService))
    }

    fn interval(&self) -> Result<Option<VerificationInterval>, InputError> {
        Ok(match (&self.scale_e, &self.scale_d) {
            (Some(text), _) => Some(VerificationInterval::told(mass_positive(
                "--scale-e",
                text,
            )?)),
            (None, Some(text)) => Some(VerificationInterval::coarsest(mass_positive(
                "--scale-d",
                text,
            )?)),
            (None, None) => None,
        })
    }

    /// What to say where the interval was not told.
    pub(super) fn note(&self, language: Language) -> Result<Option<String>, InputError> {
        let Some(interval) = self.interval()? else {
            return Ok(None);
        };
        Ok(if language.is_english() {
            untold(interval)
        } else {
            untold_words(language, interval)
        })
    }

    /// The flag that the scale's error comes from.
    pub(super) const fn flag(&self) -> &'static str {
        match (&self.scale_e, &self.scale_d) {
            (Some(_), _) => "--scale-e",
            (None, Some(_)) => "--scale-d",
            (None, None) => "--scale-within",
        }
    }
}
