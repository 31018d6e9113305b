//! What the app remembers from one day to the next: where the scale was, the
//! language, what is heard.

use super::sound::SoundChoice;
use super::words::{Language, say};
use evenhand_store::DataFolder;
use serde::{Deserialize, Deserializer, Serialize, Serializer};
use std::path::PathBuf;

/// The file within the data folder.
const FILE: &str = "app.toml";

/// What is remembered.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
pub struct Remembered {
    /// The serial port that was chosen last.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub port: Option<String>,
    /// The language that was chosen last, by its code.
    #[serde(
        default,
        skip_serializing_if = "Option::is_none",
        serialize_with = "language_code",
        deserialize_with = "language_of_code"
    )]
    pub language: Option<Language>,
    /// What is heard.
    #[serde(default, skip_serializing_if = "is_usual")]
    pub sound: SoundChoice,
}

fn is_usual(choice: &SoundChoice) -> bool {
    *choice == SoundChoice::default()
}

fn language_code<S: Serializer>(
    language: &Option<Language>,
    serializer: S,
) -> Result<S::Ok, S::Error> {
    language.map(Language::code).serialize(serializer)
}

/// A code that this version does not know counts as none.
fn language_of_code<'de, D: Deserializer<'de>>(
    deserializer: D,
) -> Result<Option<Language>, D::Error> {
    let code = Option::<String>::deserialize(deserializer)?;
    Ok(code.as_deref().and_then(Language::of_locale))
}

/// Why it could not be kept.
#[derive(Debug, thiserror::Error)]
#[error("the choice could not be kept for next time in {path}: {why}", path = path.display())]
pub struct NotKept {
    path: PathBuf,
    why: String,
}

impl NotKept {
    /// As a sentence on the screen.
    pub(crate) fn in_words(&self, language: Language) -> String {
        let path = self.path.display().to_string();
        say!(
            language,
            "settings-not-kept",
            path = path,
            why = self.why.as_str()
        )
        .into_owned()
    }
}

impl Remembered {
    /// What was kept in a folder; nothing where there is nothing that can be
    /// read: it only saves a choice.
    #[must_use]
    pub fn read(folder: &DataFolder) -> Self {
        std::fs::read_to_string(folder.path().join(FILE))
            .ok()
            .and_then(|text| toml::from_str(&text).ok())
            .unwrap_or_default()
    }

    /// Keeps it in a folder.
    ///
    /// # Errors
    /// Where the file cannot be written.
    pub fn keep(&self, folder: &DataFolder) -> Result<(), NotKept> {
        let path = folder.path().join(FILE);
        let failed = |why: String| NotKept {
            path: path.clone(),
            why,
        };
        let text = toml::to_string(self).map_err(|error| failed(error.to_string()))?;
        std::fs::write(&path, text).map_err(|error| failed(error.to_string()))
    }
}
