//! A kitchen's own limits in place of the published ones.

use super::{
    Begins, CoolingStage, Demand, Hold, Limit, Limits, Region, Side, Source, Standing, put,
};
use crate::cure::{Asked, CountedAs, Method, NitriteLimit, Ppm};
use crate::probe::{Chain, Probe, ProbeDoubt, ProbeError};
use crate::toml_text;
use crate::units::excerpt;
use evenhand_protocol::Temperature;
use jiff::SignedDuration;
use serde::Deserialize;

/// Why a limits file was refused. Nothing of a refused file is used, and
/// nothing is judged without it.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum LocalError {
    /// It is not TOML, or a field is missing, unknown or of the wrong kind.
    #[error("the limits file cannot be read: {0}")]
    Syntax(String),
    /// A figure makes no sense.
    #[error(
        "limit '{}': {field} is {}, expected {expected}",
        excerpt(limit),
        excerpt(value)
    )]
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
    /// A field that this kind of limit has no use for: it would be passed over
    /// in silence.
    #[error(
        "limit '{}': a {kind} limit has no {field}; take it out, or choose another kind",
        excerpt(limit)
    )]
    Unused {
        /// The limit's name.
        limit: String,
        /// The kind.
        kind: &'static str,
        /// The field.
        field: &'static str,
    },
    /// The probe's uncertainty makes no sense.
    #[error("probe-within-celsius: {0}")]
    Probe(ProbeError),
    /// What the probe is made of makes no sense.
    #[error("probe: {0}")]
    Chain(ProbeError),
    /// The probe is said twice.
    #[error("probe-within-celsius and [probe] both say how far the probe may be out; take one out")]
    ProbeTwice,
    /// Two limits of one name.
    #[error("limit '{}' stands twice in the file", excerpt(.0))]
    Twice(String),
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    #[serde(default)]
    region: Region,
    #[serde(rename = "probe-within-celsius")]
    within: Option<f64>,
    probe: Option<Chain>,
    #[serde(default)]
    limit: Vec<LimitText>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct LimitText {
    name: String,
    about: Option<String>,
    source: String,
    section: Option<String>,
    kind: Kind,
    celsius: Option<f64>,
    from_celsius: Option<f64>,
    begins_at_most: Option<f64>,
    begins_at_least: Option<f64>,
    hours: Option<f64>,
    minutes: Option<f64>,
    seconds: Option<f64>,
    within_hours: Option<f64>,
    days: Option<u32>,
    percent: Option<f64>,
    method: Option<Method>,
    ppm: Option<f64>,
    ppm_low: Option<f64>,
    ppm_high: Option<f64>,
    #[serde(default)]
    stage: Vec<StageText>,
    #[serde(default)]
    or: Vec<Alternative>,
}

#[derive(Deserialize, Clone, Copy, PartialEq, Eq)]
#[serde(rename_all = "kebab-case")]
enum Kind {
    Cooling,
    WarmedWithin,
    CooledWithin,
    AtMost,
    AtLeast,
    TimeOnly,
    Days,
    Frozen,
    Cooked,
    SaltInWater,
    Nitrite,
    Rule,
}

#[derive(Deserialize, Clone, Copy)]
#[serde(deny_unknown_fields)]
struct StageText {
    celsius: f64,
    hours: f64,
}

#[derive(Deserialize, Clone, Copy)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct Alternative {
    celsius: f64,
    hours: Option<f64>,
    minutes: Option<f64>,
    seconds: Option<f64>,
    solid_at: Option<f64>,
}

impl Kind {
    const fn name(self) -> &'static str {
        match self {
            Self::Cooling => "cooling",
            Self::WarmedWithin => "warmed-within",
            Self::CooledWithin => "cooled-within",
            Self::AtMost => "at-most",
            Self::AtLeast => "at-least",
            Self::TimeOnly => "time-only",
            Self::Days => "days",
            Self::Frozen => "frozen",
            Self::Cooked => "cooked",
            Self::SaltInWater => "salt-in-water",
            Self::Nitrite => "nitrite",
            Self::Rule => "rule",
        }
    }

    /// The fields that it reads.
    const fn fields(self) -> &'static [&'static str] {
        match self {
            Self::Cooling => &["celsius", "stage"],
            Self::WarmedWithin | Self::CooledWithin => &[
                "celsius",
                "from-celsius",
                "hours",
                "minutes",
                "seconds",
                "within-hours",
            ],
            Self::AtMost | Self::AtLeast => &["celsius", "hours", "minutes", "seconds"],
            Self::TimeOnly => &["celsius", "hours", "begins-at-most", "begins-at-least"],
            Self::Days => &["celsius", "days"],
            Self::Frozen | Self::Cooked => &["celsius", "hours", "minutes", "seconds", "or"],
            Self::SaltInWater => &["percent"],
            Self::Nitrite => &["method", "ppm", "ppm-low", "ppm-high"],
            Self::Rule => &[],
        }
    }
}

/// The limits in force with a file of this text.
pub(super) fn read(toml: &str) -> Result<Limits, LocalError> {
    let file: File =
        toml::from_str(toml).map_err(|error| LocalError::Syntax(toml_text::why(toml, &error)))?;
    let mut in_force = Limits::published(file.region);
    in_force.probe = match (file.within, file.probe) {
        (Some(_), Some(_)) => return Err(LocalError::ProbeTwice),
        (Some(within), None) => Some(Probe::Within(
            ProbeDoubt::new(within).map_err(LocalError::Probe)?,
        )),
        (None, Some(chain)) => Some(Probe::of_chain(chain).map_err(LocalError::Chain)?),
        (None, None) => None,
    };
    let mut names: Vec<String> = Vec::new();
    for entry in file.limit {
        let limit = entry.limit()?;
        let name = limit.name.to_lowercase();
        if names.contains(&name) {
            return Err(LocalError::Twice(limit.name));
        }
        names.push(name);
        put(&mut in_force.limits, limit);
    }
    Ok(in_force)
}

/// Reads one entry's figures, so that each error names the limit.
struct Figures<'e> {
    name: &'e str,
}

impl Figures<'_> {
    fn wrong(&self, field: &'static str, value: String, expected: &'static str) -> LocalError {
        LocalError::Figure {
            limit: self.name.to_owned(),
            field,
            value,
            expected,
        }
    }

    fn missing_or(value: Option<f64>) -> String {
        value.map_or_else(|| String::from("missing"), |v| v.to_string())
    }

    fn degrees(&self, field: &'static str, value: Option<f64>) -> Result<Temperature, LocalError> {
        value
            .filter(|c| (-80.0..=300.0).contains(c))
            .and_then(Temperature::from_celsius)
            .ok_or_else(|| self.wrong(field, Self::missing_or(value), "-80 to 300 degC"))
    }

    fn time(
        &self,
        field: &'static str,
        value: Option<f64>,
        unit: f64,
    ) -> Result<SignedDuration, LocalError> {
        match value {
            Some(t) if t > 0.0 && t * unit <= 3_600_000.0 => {
                Ok(SignedDuration::from_millis((t * unit * 1_000.0) as i64))
            }
            other => Err(self.wrong(
                field,
                Self::missing_or(other),
                "above zero, at most 1000 hours",
            )),
        }
    }

    /// How long a hold lasts: said in one unit; `seconds = 0` is an instant.
    fn lasting(
        &self,
        hours: Option<f64>,
        minutes: Option<f64>,
        seconds: Option<f64>,
    ) -> Result<SignedDuration, LocalError> {
        match (hours, minutes, seconds) {
            (None, None, Some(0.0)) => Ok(SignedDuration::ZERO),
            (None, None, seconds) => self.time("seconds", seconds, 1.0),
            (None, minutes, None) => self.time("minutes", minutes, 60.0),
            (hours, None, None) => self.time("hours", hours, 3_600.0),
            _ => Err(self.wrong(
                "hours, minutes or seconds",
                String::from("said in two units"),
                "one of them",
            )),
        }
    }

    fn ppm(&self, field: &'static str, value: Option<f64>) -> Result<Ppm, LocalError> {
        value
            .filter(|ppm| *ppm > 0.0 && *ppm <= 1_000.0)
            .and_then(|ppm| Ppm::new(field, ppm).ok())
            .ok_or_else(|| {
                self.wrong(
                    field,
                    Self::missing_or(value),
                    "above 0, at most 1000 ppm of sodium nitrite",
                )
            })
    }
}

impl LimitText {
    /// The fields that were written.
    fn written(&self) -> impl Iterator<Item = &'static str> {
        [
            ("celsius", self.celsius.is_some()),
            ("from-celsius", self.from_celsius.is_some()),
            ("begins-at-most", self.begins_at_most.is_some()),
            ("begins-at-least", self.begins_at_least.is_some()),
            ("hours", self.hours.is_some()),
            ("minutes", self.minutes.is_some()),
            ("seconds", self.seconds.is_some()),
            ("within-hours", self.within_hours.is_some()),
            ("days", self.days.is_some()),
            ("percent", self.percent.is_some()),
            ("method", self.method.is_some()),
            ("ppm", self.ppm.is_some()),
            ("ppm-low", self.ppm_low.is_some()),
            ("ppm-high", self.ppm_high.is_some()),
            ("stage", !self.stage.is_empty()),
            ("or", !self.or.is_empty()),
        ]
        .into_iter()
        .filter_map(|(field, is_written)| is_written.then_some(field))
    }

    fn limit(self) -> Result<Limit, LocalError> {
        let name = match (self.kind, self.method) {
            // One limit for a way of curing, whatever it is called in the file.
            (Kind::Nitrite, Some(method)) => format!("nitrite-{method}"),
            _ => self.name.trim().to_owned(),
        };
        let figures = Figures { name: &name };
        if name.is_empty() || self.source.trim().is_empty() {
            return Err(figures.wrong(
                "name or source",
                String::from("empty"),
                "a name, and where the limit comes from",
            ));
        }
        if self.kind != Kind::Nitrite && name.to_lowercase().starts_with("nitrite-") {
            return Err(figures.wrong(
                "kind",
                self.kind.name().to_owned(),
                "nitrite, for a name that begins so",
            ));
        }
        if let Some(field) = self.written().find(|f| !self.kind.fields().contains(f)) {
            return Err(LocalError::Unused {
                limit: name.clone(),
                kind: self.kind.name(),
                field,
            });
        }
        let source = Source {
            document: self.source.trim().to_owned(),
            section: self
                .section
                .clone()
                .unwrap_or_else(|| String::from("whole")),
            standing: Standing::Local,
        };
        let demand = self.demand(&figures, &source)?;
        // For a limit that is always to be kept, how long it may be passed.
        let said = self.hours.is_some() || self.minutes.is_some() || self.seconds.is_some();
        let allowance = if said && matches!(self.kind, Kind::AtMost | Kind::AtLeast) {
            figures.lasting(self.hours, self.minutes, self.seconds)?
        } else {
            SignedDuration::ZERO
        };
        Ok(Limit {
            allowance,
            about: self.about.unwrap_or_else(|| name.clone()),
            source,
            demand,
            name,
        })
    }

    fn demand(&self, figures: &Figures<'_>, source: &Source) -> Result<Demand, LocalError> {
        let celsius = |value| figures.degrees("celsius", value);
        Ok(match self.kind {
            Kind::Cooling => Demand::Cooling {
                from: celsius(self.celsius)?,
                stages: self.stages(figures)?,
            },
            Kind::WarmedWithin => self.within(figures, Side::AtLeast)?,
            Kind::CooledWithin => self.within(figures, Side::AtMost)?,
            Kind::AtMost => Demand::AtMost(celsius(self.celsius)?),
            Kind::AtLeast => Demand::AtLeast(celsius(self.celsius)?),
            Kind::TimeOnly => Demand::TimeOnly {
                within: figures.time("hours", self.hours, 3_600.0)?,
                never_above: self.celsius.map(|c| celsius(Some(c))).transpose()?,
                begins: self.begins(figures)?,
            },
            Kind::Days => Demand::Days {
                days: self
                    .days
                    .filter(|days| (1..=366).contains(days))
                    .ok_or_else(|| {
                        figures.wrong(
                            "days",
                            self.days
                                .map_or_else(|| String::from("missing"), |d| d.to_string()),
                            "1 to 366",
                        )
                    })?,
                at_most: celsius(self.celsius)?,
            },
            Kind::Frozen => Demand::Frozen(self.holds(figures)?),
            Kind::Cooked => Demand::Cooked(self.holds(figures)?),
            Kind::SaltInWater => Demand::SaltInWater {
                at_least: self
                    .percent
                    .filter(|p| *p > 0.0 && *p <= 26.0)
                    .ok_or_else(|| {
                        figures.wrong(
                            "percent",
                            Figures::missing_or(self.percent),
                            "above 0, at most 26",
                        )
                    })?,
            },
            Kind::Nitrite => self.nitrite(figures, source)?,
            Kind::Rule => Demand::Rule,
        })
    }

    fn stages(&self, figures: &Figures<'_>) -> Result<Vec<CoolingStage>, LocalError> {
        if self.stage.is_empty() {
            return Err(figures.wrong("stage", String::from("missing"), "at least one stage"));
        }
        let stages = self
            .stage
            .iter()
            .map(|s| {
                Ok(CoolingStage {
                    to: figures.degrees("stage.celsius", Some(s.celsius))?,
                    within: figures.time("stage.hours", Some(s.hours), 3_600.0)?,
                })
            })
            .collect::<Result<Vec<_>, LocalError>>()?;
        let from = figures.degrees("celsius", self.celsius)?;
        let mut before = (from, SignedDuration::ZERO);
        for stage in &stages {
            if stage.to >= before.0 || stage.within <= before.1 {
                return Err(figures.wrong(
                    "stage",
                    format!("{} degC within {:?}", stage.to.celsius(), stage.within),
                    "stages that go down from the start and on in time",
                ));
            }
            before = (stage.to, stage.within);
        }
        Ok(stages)
    }

    fn within(&self, figures: &Figures<'_>, side: Side) -> Result<Demand, LocalError> {
        let said = self.hours.is_some() || self.minutes.is_some() || self.seconds.is_some();
        Ok(Demand::Within {
            side,
            hold: Hold::new(
                figures.degrees("celsius", self.celsius)?,
                if said {
                    figures.lasting(self.hours, self.minutes, self.seconds)?
                } else {
                    SignedDuration::ZERO
                },
            ),
            within: figures.time("within-hours", self.within_hours, 3_600.0)?,
            from: self
                .from_celsius
                .map(|c| figures.degrees("from-celsius", Some(c)))
                .transpose()?,
        })
    }

    fn begins(&self, figures: &Figures<'_>) -> Result<Option<Begins>, LocalError> {
        if self.begins_at_most.is_none() && self.begins_at_least.is_some() {
            return Err(figures.wrong(
                "begins-at-most",
                String::from("missing"),
                "how cold it is at the start; begins-at-least is the other way",
            ));
        }
        self.begins_at_most
            .map(|c| {
                Ok(Begins {
                    at_most: figures.degrees("begins-at-most", Some(c))?,
                    or_at_least: self
                        .begins_at_least
                        .map(|c| figures.degrees("begins-at-least", Some(c)))
                        .transpose()?,
                })
            })
            .transpose()
    }

    /// The first alternative stands in the limit itself, the others as `or`.
    fn holds(&self, figures: &Figures<'_>) -> Result<Vec<Hold>, LocalError> {
        let mut holds = vec![Hold::new(
            figures.degrees("celsius", self.celsius)?,
            figures.lasting(self.hours, self.minutes, self.seconds)?,
        )];
        for or in &self.or {
            let mut hold = Hold::new(
                figures.degrees("or.celsius", Some(or.celsius))?,
                figures.lasting(or.hours, or.minutes, or.seconds)?,
            );
            if let Some(solid) = or.solid_at {
                if self.kind != Kind::Frozen {
                    return Err(LocalError::Unused {
                        limit: figures.name.to_owned(),
                        kind: self.kind.name(),
                        field: "or.solid-at",
                    });
                }
                hold.solid_at = Some(figures.degrees("or.solid-at", Some(solid))?);
            }
            holds.push(hold);
        }
        Ok(holds)
    }

    fn nitrite(&self, figures: &Figures<'_>, source: &Source) -> Result<Demand, LocalError> {
        let method = self.method.ok_or_else(|| {
            figures.wrong(
                "method",
                String::from("missing"),
                "a way of curing, such as dry",
            )
        })?;
        let ppm = figures.ppm("ppm", self.ppm)?;
        let asked = match (self.ppm_low, self.ppm_high) {
            (None, None) => Asked::AtMost(ppm),
            (low, high) => {
                let (low, high) = (figures.ppm("ppm-low", low)?, figures.ppm("ppm-high", high)?);
                if !(low <= ppm && ppm <= high) {
                    return Err(figures.wrong(
                        "ppm-low and ppm-high",
                        format!("{} and {}", low.value(), high.value()),
                        "one on either side of ppm",
                    ));
                }
                Asked::Level {
                    level: ppm,
                    low,
                    high,
                }
            }
        };
        Ok(Demand::Nitrite {
            method,
            limit: NitriteLimit {
                asked,
                counted_as: CountedAs::SodiumNitrite,
                finished_at_most: None,
                usual_minimum: None,
                stated: None,
                source: source.clone(),
            },
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn limits(text: &str) -> Limits {
        Limits::in_force(Some(text)).unwrap()
    }

    fn refused(text: &str) -> LocalError {
        Limits::in_force(Some(text)).unwrap_err()
    }

    #[test]
    fn a_local_limit_stands_in_the_published_ones_place() {
        let before = Limits::food_code();
        let after = limits(
            "[[limit]]\nname = 'cooling'\nkind = 'cooling'\ncelsius = 63\nsource = 'Estuary county'\n\
             [[limit.stage]]\ncelsius = 8\nhours = 1.5\n",
        );
        assert_eq!(before.iter().count(), after.iter().count());
        let limit = after.named("COOLING").unwrap();
        assert_eq!(limit.source.standing, Standing::Local);
        assert!(matches!(&limit.demand, Demand::Cooling { stages, .. } if stages.len() == 1));
        // Every other limit is as it was published.
        for limit in before.iter().filter(|limit| limit.name != "cooling") {
            assert_eq!(after.named(&limit.name), Some(limit));
        }
    }

    #[test]
    fn every_form_can_be_said() {
        let after = limits(
            "region = 'eu'\n\
             [[limit]]\nname='reheating'\nkind='warmed-within'\ncelsius=75\nseconds=30\nwithin-hours=1\nfrom-celsius=8\nsource='s'\n\
             [[limit]]\nname='salad'\nkind='cooled-within'\ncelsius=8\nwithin-hours=2\nsource='s'\n\
             [[limit]]\nname='cook'\nkind='cooked'\ncelsius=70\nminutes=2\nsource='s'\n\
             [[limit.or]]\ncelsius=75\nseconds=30\n\
             [[limit]]\nname='fish'\nkind='frozen'\ncelsius=-20\nhours=24\nsource='s'\n\
             [[limit.or]]\ncelsius=-35\nhours=15\nsolid-at=-35\n\
             [[limit]]\nname='buffet'\nkind='time-only'\nhours=2\ncelsius=20\nbegins-at-most=8\nbegins-at-least=63\nsource='s'\n\
             [[limit]]\nname='cold'\nkind='at-most'\ncelsius=8\nsource='s'\n\
             [[limit]]\nname='hot'\nkind='at-least'\ncelsius=63\nsource='s'\n\
             [[limit]]\nname='opened'\nkind='days'\ndays=3\ncelsius=5\nsource='s'\n\
             [[limit]]\nname='roe'\nkind='salt-in-water'\npercent=4.5\nsource='s'\n\
             [[limit]]\nname='ours'\nkind='nitrite'\nmethod='dry'\nppm=150\nsource='s'\n\
             [[limit]]\nname='tags'\nkind='rule'\nabout='keep them'\nsource='s'\n",
        );
        let figures = |name: &str| after.named(name).unwrap().demand.to_string();
        for (name, shown) in [
            (
                "reheating",
                "at least 75 degC (167 degF) for 30 s, reached within 1 h of leaving 8 degC (46 degF)",
            ),
            (
                "salad",
                "at most 8 degC (46 degF) for an instant, reached within 2 h of being made",
            ),
            (
                "cook",
                "at least 70 degC (158 degF) for 120 s; or 75 degC (167 degF) for 30 s",
            ),
            (
                "fish",
                "at most -20 degC (-4 degF) for 24 h; or -35 degC (-31 degF) until solid, then -35 degC (-31 degF) for 15 h",
            ),
            (
                "buffet",
                "at most 2 h, beginning at 8 degC (46 degF) or below or 63 degC (145 degF) or above, never above 20 degC (68 degF)",
            ),
            ("cold", "at most 8 degC (46 degF)"),
            ("hot", "at least 63 degC (145 degF)"),
            (
                "opened",
                "at most 3 days at 5 degC (41 degF) or below, the first counted",
            ),
            ("roe", "at least 4.5 % of salt in the food's water"),
            ("nitrite-dry", "at most 150 ppm of sodium nitrite"),
        ] {
            assert_eq!(figures(name), shown, "{name}");
        }
        assert_eq!(after.region(), Region::Eu);
        assert_eq!(
            after.nitrite(Method::DryCure).unwrap().at_most().value(),
            150.0
        );
        assert_eq!(after.named("ours"), None);
        // The others keep the region's figure.
        let pumped = after.nitrite(Method::Pumped).unwrap();
        assert_eq!(pumped.counted_as, CountedAs::NitriteIon);
    }

    #[test]
    fn nonsense_is_refused_by_field_and_value() {
        assert_eq!(
            refused("[[limit]]\nname='x'\nkind='at-most'\ncelsius=900\nsource='y'\n"),
            LocalError::Figure {
                limit: "x".into(),
                field: "celsius",
                value: "900".into(),
                expected: "-80 to 300 degC"
            }
        );
        assert!(matches!(
            refused("[[limit]]\nname='x'\nkind='at-most'\nsource='y'\nfahrenheit=41\n"),
            LocalError::Syntax(_)
        ));
        assert!(matches!(
            refused("region = 'mars'\n"),
            LocalError::Syntax(_)
        ));
        for (text, at) in [
            ("kind='cooling'\ncelsius=60", "stage"),
            ("kind='time-only'\nhours=-1", "hours"),
            ("kind='at-least'", "celsius"),
            (
                "kind='cooked'\ncelsius=60\nhours=1\nminutes=1",
                "hours, minutes or seconds",
            ),
            ("kind='days'\ncelsius=5\ndays=0", "days"),
            ("kind='salt-in-water'\npercent=40", "percent"),
            ("kind='nitrite'\nmethod='dry'\nppm=0", "ppm"),
            (
                "kind='nitrite'\nmethod='dry'\nppm=120\nppm-low=130\nppm-high=140",
                "ppm-low and ppm-high",
            ),
            (
                "kind='cooling'\ncelsius=57\n[[limit.stage]]\ncelsius=60\nhours=1",
                "stage",
            ),
        ] {
            let (fields, stage) = text
                .split_once("\n[[")
                .map_or((text, String::new()), |(a, b)| (a, format!("\n[[{b}")));
            let error = refused(&format!(
                "[[limit]]\nname='x'\nsource='y'\n{fields}{stage}\n"
            ));
            assert!(
                matches!(error, LocalError::Figure { field, .. } if field == at),
                "{text}: {error}"
            );
        }
    }

    // A figure that is passed over would be a limit that its writer believes in.
    #[test]
    fn a_field_that_would_do_nothing_is_refused() {
        assert_eq!(
            refused("[[limit]]\nname='x'\nkind='at-most'\ncelsius=4\ndays=2\nsource='y'\n"),
            LocalError::Unused {
                limit: "x".into(),
                kind: "at-most",
                field: "days"
            }
        );
        assert_eq!(
            refused(
                "[[limit]]\nname='x'\nkind='at-most'\ncelsius=4\nsource='y'\n\
                 [[limit]]\nname='X'\nkind='at-most'\ncelsius=5\nsource='y'\n"
            ),
            LocalError::Twice("X".into())
        );
        assert!(matches!(
            refused("[[limit]]\nname='nitrite-dry'\nkind='at-most'\ncelsius=4\nsource='y'\n"),
            LocalError::Figure { field: "kind", .. }
        ));
    }
}
