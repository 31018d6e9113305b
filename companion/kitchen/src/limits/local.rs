//! A kitchen's own limits in place of the published ones.

use super::{CoolingStage, Demand, Hold, Limit, Limits, Source, Standing};
use evenhand_protocol::Temperature;
use jiff::SignedDuration;
use serde::Deserialize;

/// Why a settings file with local limits was refused. Nothing of a refused
/// file is used.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum LocalError {
    /// It is not TOML, or a field is missing, unknown or of the wrong kind.
    #[error("the limits file cannot be read: {0}")]
    Syntax(String),
    /// A figure makes no sense.
    #[error("limit '{limit}': {field} is {value}, expected {expected}")]
    Figure {
        /// The limit's name.
        limit: String,
        /// The field.
        field: &'static str,
        /// Its value.
        value: String,
        /// What was expected.
        expected: &'static str,
    },
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    limit: Vec<Entry>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Entry {
    name: String,
    about: Option<String>,
    source: String,
    section: Option<String>,
    kind: Kind,
    celsius: Option<f64>,
    hours: Option<f64>,
    seconds: Option<f64>,
    #[serde(default)]
    stage: Vec<Stage>,
}

#[derive(Deserialize, Clone, Copy)]
#[serde(rename_all = "kebab-case")]
enum Kind {
    Cooling,
    AtMost,
    AtLeast,
    TimeOnly,
    Frozen,
    Cooked,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Stage {
    celsius: f64,
    hours: f64,
}

impl Limits {
    /// These limits with those of a TOML text put in the place of the ones of
    /// the same name, or added.
    ///
    /// ```
    /// use evenhand_kitchen::limits::Limits;
    /// let limits = Limits::food_code().with_local(r#"
    ///     [[limit]]
    ///     name = "cold-holding"
    ///     kind = "at-most"
    ///     celsius = 4
    ///     source = "Estuary county food rules, 2025"
    /// "#).unwrap();
    /// let limit = limits.named("cold-holding").unwrap();
    /// assert!(limit.source.to_string().contains("Estuary county"));
    /// ```
    ///
    /// # Errors
    /// [`LocalError`] for a text that is not such a file, or a figure outside
    /// −80 to 300 °C, or a time not above zero and up to 1 000 hours.
    pub fn with_local(mut self, toml: &str) -> Result<Self, LocalError> {
        let file: File = toml::from_str(toml).map_err(|e| LocalError::Syntax(e.to_string()))?;
        for entry in file.limit {
            let limit = entry.limit()?;
            match self
                .limits
                .iter_mut()
                .find(|l| l.name.eq_ignore_ascii_case(&limit.name))
            {
                Some(place) => *place = limit,
                None => self.limits.push(limit),
            }
        }
        Ok(self)
    }
}

impl Entry {
    fn limit(self) -> Result<Limit, LocalError> {
        let name = self.name.trim().to_owned();
        let wrong = |field, value: String, expected| LocalError::Figure {
            limit: name.clone(),
            field,
            value,
            expected,
        };
        if name.is_empty() || self.source.trim().is_empty() {
            return Err(wrong(
                "name or source",
                String::from("empty"),
                "a name, and where the limit comes from",
            ));
        }
        let degrees = |field, value: Option<f64>| match value {
            Some(c) if (-80.0..=300.0).contains(&c) => Temperature::from_celsius(c)
                .ok_or_else(|| wrong(field, c.to_string(), "-80 to 300 degC")),
            other => Err(wrong(
                field,
                other.map_or(String::from("missing"), |c| c.to_string()),
                "-80 to 300 degC",
            )),
        };
        let time = |field, value: Option<f64>, unit: f64| match value {
            Some(t) if t > 0.0 && t * unit <= 3_600_000.0 => {
                Ok(SignedDuration::from_millis((t * unit * 1_000.0) as i64))
            }
            other => Err(wrong(
                field,
                other.map_or(String::from("missing"), |t| t.to_string()),
                "above zero, at most 1000 hours",
            )),
        };
        let hold = || -> Result<Hold, LocalError> {
            Ok(Hold {
                at: degrees("celsius", self.celsius)?,
                lasting: match (self.hours, self.seconds) {
                    (None, Some(0.0)) => SignedDuration::ZERO,
                    (None, seconds) => time("seconds", seconds, 1.0)?,
                    (hours, _) => time("hours", hours, 3_600.0)?,
                },
            })
        };
        let demand = match self.kind {
            Kind::Cooling => {
                if self.stage.is_empty() {
                    return Err(wrong(
                        "stage",
                        String::from("missing"),
                        "at least one stage",
                    ));
                }
                Demand::Cooling {
                    from: degrees("celsius", self.celsius)?,
                    stages: self
                        .stage
                        .iter()
                        .map(|s| {
                            Ok(CoolingStage {
                                to: degrees("stage.celsius", Some(s.celsius))?,
                                within: time("stage.hours", Some(s.hours), 3_600.0)?,
                            })
                        })
                        .collect::<Result<_, LocalError>>()?,
                }
            }
            Kind::AtMost => Demand::AtMost(degrees("celsius", self.celsius)?),
            Kind::AtLeast => Demand::AtLeast(degrees("celsius", self.celsius)?),
            Kind::TimeOnly => Demand::TimeOnly {
                within: time("hours", self.hours, 3_600.0)?,
                never_above: self
                    .celsius
                    .map(|c| degrees("celsius", Some(c)))
                    .transpose()?,
            },
            Kind::Frozen => Demand::Frozen(vec![hold()?]),
            Kind::Cooked => Demand::Cooked(hold()?),
        };
        Ok(Limit {
            about: self.about.unwrap_or_else(|| name.clone()),
            source: Source {
                document: self.source,
                section: self.section.unwrap_or_else(|| String::from("whole")),
                standing: Standing::Local,
            },
            demand,
            name,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_local_limit_stands_in_the_published_ones_place() {
        let before = Limits::food_code();
        let after = before
            .clone()
            .with_local(
                "[[limit]]\nname = 'cooling'\nkind = 'cooling'\ncelsius = 63\nsource = 'Estuary county'\n\
                 [[limit.stage]]\ncelsius = 8\nhours = 1.5\n",
            )
            .unwrap();
        assert_eq!(before.iter().count(), after.iter().count());
        let limit = after.named("COOLING").unwrap();
        assert_eq!(limit.source.standing, Standing::Local);
        assert!(matches!(&limit.demand, Demand::Cooling { stages, .. } if stages.len() == 1));
    }

    #[test]
    fn nonsense_is_refused_by_field_and_value() {
        let refuse = |text: &str| Limits::food_code().with_local(text).unwrap_err();
        assert_eq!(
            refuse("[[limit]]\nname='x'\nkind='at-most'\ncelsius=900\nsource='y'\n"),
            LocalError::Figure {
                limit: "x".into(),
                field: "celsius",
                value: "900".into(),
                expected: "-80 to 300 degC"
            }
        );
        assert!(matches!(
            refuse("[[limit]]\nname='x'\nkind='at-most'\nsource='y'\nfahrenheit=41\n"),
            LocalError::Syntax(_)
        ));
        assert!(matches!(
            refuse("[[limit]]\nname='x'\nkind='cooling'\ncelsius=60\nsource='y'\n"),
            LocalError::Figure { field: "stage", .. }
        ));
        assert!(matches!(
            refuse("[[limit]]\nname='x'\nkind='time-only'\nhours=-1\nsource='y'\n"),
            LocalError::Figure { field: "hours", .. }
        ));
    }
}
