//! Lethality: the heat that reached a core, as minutes at a reference
//! temperature.
//!
//! F = ∫ 10^((T − Tref) / z) dt (C. O. Ball; general method of Bigelow, 1920; as
//! in the process-lethality tables of the USDA FSIS Appendix A guidance and in
//! food-engineering texts). A figure to compare with a process that somebody
//! licensed has set; it says nothing of the food by itself.

use super::log::HeatLog;
use crate::source::Publication;
use evenhand_protocol::Temperature;
use jiff::SignedDuration;

/// What lethality is counted against: both figures belong to an organism and a
/// food, and are the user's to give, with their source.
#[derive(Debug, Clone, PartialEq)]
pub struct Reference {
    /// The reference temperature.
    pub at: Temperature,
    /// Degrees Celsius that change the rate tenfold.
    z: f64,
    /// Where both come from.
    pub source: String,
}

/// Why lethality was not computed.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum LethalityError {
    /// z is not a plausible figure.
    #[error("z is {0} degC, expected 3 to 30 degC")]
    BadZ(f64),
    /// No source was given.
    #[error("the source of z and of the reference temperature is empty: name it")]
    NoSource,
}

impl LethalityError {
    /// A name for it that does not change.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::BadZ(_) => "z",
            Self::NoSource => "no-source",
        }
    }
}

impl Reference {
    /// A reference.
    ///
    /// # Errors
    /// [`LethalityError`] where z is not from 3 to 30 °C or the source is empty.
    pub fn new(
        at: Temperature,
        z_celsius: f64,
        source: impl Into<String>,
    ) -> Result<Self, LethalityError> {
        let source = source.into();
        if !(3.0..=30.0).contains(&z_celsius) {
            return Err(LethalityError::BadZ(z_celsius));
        }
        if source.trim().is_empty() {
            return Err(LethalityError::NoSource);
        }
        Ok(Self {
            at,
            z: z_celsius,
            source,
        })
    }

    /// Degrees Celsius that change the rate tenfold.
    #[must_use]
    pub const fn z_celsius(&self) -> f64 {
        self.z
    }

    /// Minutes at the reference temperature that one minute here is worth.
    #[must_use]
    pub fn rate(&self, temperature: Temperature) -> f64 {
        10f64.powf((temperature.celsius() - self.at.celsius()) / self.z)
    }
}

/// What was counted.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lethality {
    /// Minutes at the reference temperature.
    pub equivalent_minutes: f64,
    /// Time that lies in gaps of the log and was counted as nothing.
    pub not_counted: SignedDuration,
}

/// Integrates a log, temperature going straight from reading to reading; gaps
/// count as nothing.
#[must_use]
pub fn lethality(log: &HeatLog, reference: &Reference) -> Lethality {
    let mut minutes = 0.0;
    let mut not_counted = SignedDuration::ZERO;
    for (a, b) in log.steps() {
        let step = b.at.duration_since(a.at);
        if log.is_gap(a, b) {
            not_counted += step;
            continue;
        }
        let (first, last) = (reference.rate(a.temperature), reference.rate(b.temperature));
        // The exact integral of an exponential between two ends; its limit for equal ends.
        let mean = if (last / first - 1.0).abs() < 1e-9 {
            first
        } else {
            (last - first) / (last / first).ln()
        };
        minutes += mean * step.as_secs_f64() / 60.0;
    }
    Lethality {
        equivalent_minutes: minutes,
        not_counted,
    }
}

/// How fast heat kills an organism in a food: D and z with their source. The
/// figures hold for the food they were measured in; salt, fat and dryness make
/// organisms harder to kill.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Organism {
    /// Its name on the command line: short, lower case.
    pub name: &'static str,
    /// What it is, in what food.
    pub about: &'static str,
    /// The temperature that D is for.
    at: Temperature,
    /// Minutes there that leave a tenth.
    d_minutes: f64,
    /// Degrees Celsius that change D tenfold.
    z_celsius: f64,
    /// Where both come from.
    pub source: Publication,
}

/// The organisms that log reductions can be counted for.
pub const ORGANISMS: [Organism; 3] = [
    Organism {
        name: "salmonella-beef",
        about: "Salmonella in cooked and roast beef",
        at: Temperature::from_millicelsius(60_000),
        // 6.5 log10 in 12 minutes at 140 degF, tenfold faster each 10 degF.
        d_minutes: 12.0 / 6.5,
        z_celsius: 10.0 / 1.8,
        source: Publication::quoted(
            "USDA FSIS, Compliance Guidelines for Meeting Lethality Performance Standards, Appendix A \
             (June 1999), time for 6.5 log10 of Salmonella, and the table's own slope",
        ),
    },
    Organism {
        name: "listeria-meat",
        about: "Listeria monocytogenes in meat, by the 70 degC for 2 min of European guidance",
        at: Temperature::from_millicelsius(70_000),
        d_minutes: 2.0 / 6.0,
        z_celsius: 7.5,
        source: Publication::from_memory(
            "6 log10 in 2 min at 70 degC, quoted in New Zealand MPI Technical Paper 2016/05; z of 7.5 \
             degC",
        ),
    },
    Organism {
        name: "listeria-fatty-beef",
        about: "Listeria monocytogenes Scott A in fatty ground beef",
        at: Temperature::from_millicelsius(62_778),
        d_minutes: 1.2,
        z_celsius: 11.4 / 1.8,
        source: Publication::read(
            "Journal of Food Protection 54 (1991) 756, abstract: D at 145 degF 1.2 min, z 11.4 degF in \
             fatty beef",
        ),
    },
];

impl Organism {
    /// The one of a name, in any case.
    #[must_use]
    pub fn named(name: &str) -> Option<Self> {
        ORGANISMS
            .into_iter()
            .find(|organism| organism.name.eq_ignore_ascii_case(name.trim()))
    }

    /// The temperature that D is for.
    #[must_use]
    pub const fn at(&self) -> Temperature {
        self.at
    }

    /// Minutes there that leave a tenth.
    #[must_use]
    pub const fn d_minutes(&self) -> f64 {
        self.d_minutes
    }

    /// Degrees Celsius that change D tenfold.
    #[must_use]
    pub const fn z_celsius(&self) -> f64 {
        self.z_celsius
    }
}

/// How many tenfold steps down a log brought an organism.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LogReductions {
    /// The steps: 6.5 leaves one in three million.
    pub log10: f64,
    /// Time that lies in gaps of the log and was counted as nothing.
    pub not_counted: SignedDuration,
}

/// Counts a whole log, on its way up and down too: below the reference
/// temperature every minute counts for less, not for nothing.
#[must_use]
pub fn log_reductions(log: &HeatLog, organism: &Organism) -> LogReductions {
    let reference = Reference {
        at: organism.at,
        z: organism.z_celsius,
        source: organism.source.title.to_owned(),
    };
    let counted = lethality(log, &reference);
    LogReductions {
        log10: counted.equivalent_minutes / organism.d_minutes,
        not_counted: counted.not_counted,
    }
}
