//! What a limit asks for.

use crate::cure::{Method, NitriteLimit};
use evenhand_protocol::Temperature;
use jiff::SignedDuration;

/// Which side of a temperature is asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// At or below.
    AtMost,
    /// At or above.
    AtLeast,
}

impl Side {
    /// Whether a temperature is on the side that is asked for.
    #[must_use]
    pub fn keeps(self, temperature: Temperature, limit: Temperature) -> bool {
        match self {
            Self::AtMost => temperature <= limit,
            Self::AtLeast => temperature >= limit,
        }
    }

    /// The words for it.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::AtMost => "at most",
            Self::AtLeast => "at least",
        }
    }
}

/// One stage of cooling: down to a temperature within a time from the start of
/// the first stage.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct CoolingStage {
    /// Must be at or below this
    pub to: Temperature,
    /// this long after the start of cooling.
    pub within: SignedDuration,
}

/// A hold at a temperature for a time.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Hold {
    /// The temperature to stay at or beyond.
    pub at: Temperature,
    /// How long without a break; zero for an instant.
    pub lasting: SignedDuration,
    /// Where the hold counts only once the food is solid: it must have been
    /// frozen at or below this until then. No thermometer shows that; somebody
    /// looks, and puts the word "solid" at that moment of the log.
    pub solid_at: Option<Temperature>,
}

impl Hold {
    /// A hold with nothing else to it.
    #[must_use]
    pub const fn new(at: Temperature, lasting: SignedDuration) -> Self {
        Self {
            at,
            lasting,
            solid_at: None,
        }
    }
}

/// How warm food must be when time alone begins to count.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Begins {
    /// At or below this,
    pub at_most: Temperature,
    /// or, where the limit allows it, at or above this.
    pub or_at_least: Option<Temperature>,
}

/// What a limit asks for.
#[derive(Debug, Clone, PartialEq)]
pub enum Demand {
    /// Cooling in stages from a temperature downward.
    Cooling {
        /// The clock starts when the food falls below this.
        from: Temperature,
        /// The stages, in order.
        stages: Vec<CoolingStage>,
    },
    /// To reach a hold within a time.
    Within {
        /// Which side of the hold's temperature.
        side: Side,
        /// What is to be reached, and for how long it is to last.
        hold: Hold,
        /// How long it may take.
        within: SignedDuration,
        /// The clock starts when the food leaves this; the log's first reading
        /// where the limit names no temperature.
        from: Option<Temperature>,
    },
    /// At or below a temperature, always.
    AtMost(Temperature),
    /// At or above a temperature, always.
    AtLeast(Temperature),
    /// Out of temperature control for no longer than this.
    TimeOnly {
        /// How long.
        within: SignedDuration,
        /// And never above this, where the limit has a ceiling.
        never_above: Option<Temperature>,
        /// How warm it must be at the start, where the limit says.
        begins: Option<Begins>,
    },
    /// Kept for no more than so many days, the first of them counted.
    Days {
        /// How many.
        days: u32,
        /// Kept at or below this the while.
        at_most: Temperature,
    },
    /// Frozen: at or below any one of these for its time.
    Frozen(Vec<Hold>),
    /// Cooked: core at or above any one of these for its time.
    Cooked(Vec<Hold>),
    /// Salt in the water of the food, per cent of salt and water together.
    SaltInWater {
        /// At least so much.
        at_least: f64,
    },
    /// Nitrite going into meat.
    Nitrite {
        /// By which way of curing.
        method: Method,
        /// How much.
        limit: NitriteLimit,
    },
    /// A rule without a figure that a thermometer or a scale shows.
    Rule,
}

impl Demand {
    /// Whether a log of temperatures can answer it.
    #[must_use]
    pub const fn is_of_heat(&self) -> bool {
        !matches!(
            self,
            Self::SaltInWater { .. } | Self::Nitrite { .. } | Self::Rule
        )
    }

    /// The temperatures that it names, to draw beside a log.
    #[must_use]
    pub fn temperatures(&self) -> Vec<Temperature> {
        match self {
            Self::Cooling { stages, .. } => stages.iter().map(|stage| stage.to).collect(),
            Self::Within { hold, .. } => vec![hold.at],
            Self::AtMost(at) | Self::AtLeast(at) => vec![*at],
            Self::TimeOnly { never_above, .. } => never_above.iter().copied().collect(),
            Self::Days { at_most, .. } => vec![*at_most],
            Self::Frozen(holds) | Self::Cooked(holds) => holds.iter().map(|hold| hold.at).collect(),
            Self::SaltInWater { .. } | Self::Nitrite { .. } | Self::Rule => Vec::new(),
        }
    }
}

/// A limit's temperature in both units, as its source prints them: the
/// Food Code's own pairs are not each other's exact conversion (155 degF
/// stands beside 68 degC, which is 154.4 degF).
#[must_use]
pub fn both_units(limit: Temperature) -> String {
    let fahrenheit = match limit.millicelsius() {
        68_000 => 155.0,
        66_000 => 150.0,
        _ => limit.fahrenheit().round(),
    };
    let celsius = limit.celsius();
    if limit.millicelsius() % 1_000 == 0 {
        format!("{celsius:.0} degC ({fahrenheit:.0} degF)")
    } else {
        format!("{celsius:.1} degC ({fahrenheit:.0} degF)")
    }
}

/// A limit's time: in the largest unit that shows it whole.
fn lasting(time: SignedDuration) -> String {
    let seconds = time.as_secs();
    match seconds {
        0 => String::from("an instant"),
        s if s % 3_600 == 0 => format!("{} h", s / 3_600),
        s if s % 60 == 0 && s > 120 => format!("{} min", s / 60),
        s => format!("{s} s"),
    }
}

impl core::fmt::Display for Hold {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        if let Some(solid) = self.solid_at {
            write!(f, "{} until solid, then ", both_units(solid))?;
        }
        write!(f, "{} for {}", both_units(self.at), lasting(self.lasting))
    }
}

impl core::fmt::Display for Demand {
    /// The figures: `57 degC (135 degF) to 21 degC (70 degF) within 2 h`.
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        match self {
            Self::Cooling { from, stages } => {
                write!(f, "from {}", both_units(*from))?;
                for stage in stages {
                    write!(
                        f,
                        ", to {} within {}",
                        both_units(stage.to),
                        lasting(stage.within)
                    )?;
                }
                Ok(())
            }
            Self::Within {
                side,
                hold,
                within,
                from,
            } => {
                write!(
                    f,
                    "{} {hold}, reached within {}",
                    side.words(),
                    lasting(*within)
                )?;
                match from {
                    Some(from) => write!(f, " of leaving {}", both_units(*from)),
                    None => f.write_str(" of being made"),
                }
            }
            Self::AtMost(at) => write!(f, "at most {}", both_units(*at)),
            Self::AtLeast(at) => write!(f, "at least {}", both_units(*at)),
            Self::TimeOnly {
                within,
                never_above,
                begins,
            } => {
                write!(f, "at most {}", lasting(*within))?;
                if let Some(begins) = begins {
                    write!(f, ", beginning at {} or below", both_units(begins.at_most))?;
                    if let Some(hot) = begins.or_at_least {
                        write!(f, " or {} or above", both_units(hot))?;
                    }
                }
                if let Some(ceiling) = never_above {
                    write!(f, ", never above {}", both_units(*ceiling))?;
                }
                Ok(())
            }
            Self::Days { days, at_most } => write!(
                f,
                "at most {days} days at {} or below, the first counted",
                both_units(*at_most)
            ),
            Self::Frozen(holds) => any_of(f, "at most", holds),
            Self::Cooked(holds) => any_of(f, "at least", holds),
            Self::SaltInWater { at_least } => {
                write!(f, "at least {at_least} % of salt in the food's water")
            }
            Self::Nitrite { limit, .. } => limit.fmt(f),
            Self::Rule => f.write_str("a rule; no log answers it"),
        }
    }
}

fn any_of(f: &mut core::fmt::Formatter<'_>, side: &str, holds: &[Hold]) -> core::fmt::Result {
    write!(f, "{side} ")?;
    for (place, hold) in holds.iter().enumerate() {
        if place > 0 {
            f.write_str("; or ")?;
        }
        write!(f, "{hold}")?;
    }
    Ok(())
}
