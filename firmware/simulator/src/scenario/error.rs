//! Why a scenario was refused.

use std::path::PathBuf;

/// Why a scenario was refused.
#[derive(Debug, thiserror::Error)]
pub enum ScenarioError {
    /// The file cannot be read.
    #[error("the scenario {} cannot be read: {source}", path.display())]
    Unreadable {
        /// The file.
        path: PathBuf,
        /// What the system says.
        source: std::io::Error,
    },
    /// It is not TOML, a field is unknown, missing or of another kind.
    #[error("{}the scenario is not in the form expected:\n{}", named(path), source.to_string().trim_end())]
    Form {
        /// The file, where it came from one.
        path: Option<PathBuf>,
        /// Line, column, and what was expected there.
        source: Box<toml::de::Error>,
    },
    /// A value makes no sense.
    #[error("{}`{field}` is {value}; expected {expected}", named(path))]
    Value {
        /// The file, where it came from one.
        path: Option<PathBuf>,
        /// The field, with its table: `goal.target_grams`.
        field: String,
        /// What it holds.
        value: String,
        /// What would make sense.
        expected: String,
    },
    /// No scenario of this name ships with the program.
    #[error(
        "there is no scenario called `{name}`; there are {}",
        crate::scenario::shipped_names()
    )]
    NotShipped {
        /// The name.
        name: String,
    },
}

fn named(path: &Option<PathBuf>) -> String {
    path.as_ref()
        .map(|path| format!("{}: ", path.display()))
        .unwrap_or_default()
}

impl ScenarioError {
    /// The same error, found in a file.
    pub(crate) fn in_file(self, file: PathBuf) -> Self {
        match self {
            Self::Form { source, .. } => Self::Form {
                path: Some(file),
                source,
            },
            Self::Value {
                field,
                value,
                expected,
                ..
            } => Self::Value {
                path: Some(file),
                field,
                value,
                expected,
            },
            other => other,
        }
    }
}
