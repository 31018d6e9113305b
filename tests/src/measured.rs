//! What benchmarks have found, for tables: times as criterion keeps them, and
//! other figures from the lines that programs print of them.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

/// Why there is no table.
#[derive(Debug, thiserror::Error)]
pub enum Missing {
    /// A time that no benchmark has left.
    #[error("no time is kept at {path}: run its benchmark first ({reason})", path = path.display())]
    Time {
        /// Where it should be.
        path: PathBuf,
        /// What the system or the file's reader said.
        reason: String,
    },
    /// A figure that no line tells.
    #[error("no line tells `figure: {of} | {name} | ...`")]
    Figure {
        /// Of what.
        of: String,
        /// Which one.
        name: String,
    },
    /// A line that is no figure.
    #[error(
        "line {line}, `{text}`: a figure is `figure: OF | NAME | NUMBER UNIT`, one line for each name"
    )]
    Line {
        /// Its place, from 1.
        line: usize,
        /// What it says.
        text: String,
    },
}

/// A time that a benchmark found: median seconds a piece of work.
///
/// # Errors
/// [`Missing::Time`] where the benchmark was not run.
pub fn median(criterion: &Path, group: &str, bench: &str) -> Result<f64, Missing> {
    // A slash would be a folder; criterion writes it as an underscore.
    let path = [group, bench, "new"]
        .iter()
        .fold(criterion.to_owned(), |path, name| {
            path.join(name.replace('/', "_"))
        })
        .join("estimates.json");
    let missing = |reason: String| Missing::Time {
        path: path.clone(),
        reason,
    };
    let text = std::fs::read_to_string(&path).map_err(|error| missing(error.to_string()))?;
    let kept: serde_json::Value =
        serde_json::from_str(&text).map_err(|error| missing(error.to_string()))?;
    kept["median"]["point_estimate"]
        .as_f64()
        .map(|nanoseconds| nanoseconds / 1e9)
        .ok_or_else(|| missing("it names no median".to_owned()))
}

/// Figures that programs have printed.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Figures {
    of: BTreeMap<String, BTreeMap<String, (f64, String)>>,
}

impl Figures {
    /// Takes the lines that begin with `figure:`; others say something else.
    ///
    /// # Errors
    /// [`Missing::Line`] for a line that cannot be read, and for a figure that
    /// comes twice.
    pub fn read(text: &str) -> Result<Self, Missing> {
        let mut figures = Self::default();
        for (nth, line) in text.lines().enumerate() {
            let Some(told) = line.strip_prefix("figure:") else {
                continue;
            };
            let wrong = || Missing::Line {
                line: nth + 1,
                text: line.to_owned(),
            };
            let parts: Vec<&str> = told.split('|').map(str::trim).collect();
            let [of, name, value] = parts[..] else {
                return Err(wrong());
            };
            let (number, unit) = value.split_once(' ').ok_or_else(wrong)?;
            let number: f64 = number.parse().map_err(|_| wrong())?;
            let known = figures
                .of
                .entry(of.to_owned())
                .or_default()
                .insert(name.to_owned(), (number, unit.to_owned()));
            if known.is_some() {
                return Err(wrong());
            }
        }
        Ok(figures)
    }

    /// What figures there are of: scenarios, sizes of store.
    pub fn subjects(&self) -> impl Iterator<Item = &str> {
        self.of.keys().map(String::as_str)
    }

    /// The names of all the figures of something, in order of the alphabet.
    pub fn names(&self, of: &str) -> impl Iterator<Item = &str> {
        self.of
            .get(of)
            .into_iter()
            .flat_map(|names| names.keys().map(String::as_str))
    }

    /// A figure, in the unit that its line gives.
    ///
    /// # Errors
    /// [`Missing::Figure`] where no line told it.
    pub fn value(&self, of: &str, name: &str) -> Result<f64, Missing> {
        self.of
            .get(of)
            .and_then(|names| names.get(name))
            .map(|(value, _)| *value)
            .ok_or_else(|| Missing::Figure {
                of: of.to_owned(),
                name: name.to_owned(),
            })
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn figures_are_found_among_other_lines() {
        let figures = Figures::read(
            "Benchmarking\nfigure: a year | file | 14 MiB\nfigure: a year | import | 2.5 s\n",
        )
        .unwrap();
        assert_eq!(figures.value("a year", "import").unwrap(), 2.5);
        assert_eq!(
            figures.names("a year").collect::<Vec<_>>(),
            ["file", "import"]
        );
        assert!(figures.value("a year", "export").is_err());
    }

    #[test]
    fn what_is_no_figure_is_refused_by_its_line() {
        for text in [
            "figure: a year | file",
            "figure: a year | file | many MiB",
            "figure: a | b | 1 s\nfigure: a | b | 2 s",
        ] {
            assert!(matches!(Figures::read(text), Err(Missing::Line { .. })));
        }
    }

    #[test]
    fn a_benchmark_that_was_not_run_has_no_time() {
        let folder = tempfile::tempdir().unwrap();
        assert!(median(folder.path(), "a frame", "no dot").is_err());
        let kept = folder.path().join("a frame/1_2/new");
        std::fs::create_dir_all(&kept).unwrap();
        std::fs::write(
            kept.join("estimates.json"),
            r#"{"median":{"point_estimate":2500000.0}}"#,
        )
        .unwrap();
        assert_eq!(median(folder.path(), "a frame", "1/2").unwrap(), 0.0025);
    }
}
