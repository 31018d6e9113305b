//! What a check found, and how it is said.

use super::Outcome;
use crate::limits::{Begins, Hold, Side, both_units};
use crate::probe::ProbeDoubt;
use core::fmt::{self, Write as _};
use evenhand_protocol::Temperature;
use jiff::{SignedDuration, Timestamp};

/// One thing found: how it stands, and what was measured against which figure.
/// It is shown as a sentence.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Finding {
    /// How it stands.
    pub outcome: Outcome,
    /// What was measured.
    pub found: Found,
    /// The probe's own uncertainty, where it is known and was taken into the
    /// outcome.
    pub doubt: Option<ProbeDoubt>,
}

impl Finding {
    pub(super) const fn new(outcome: Outcome, found: Found) -> Self {
        Self {
            outcome,
            found,
            doubt: None,
        }
    }
}

/// How long something took, between the two readings that are surest.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Took {
    /// It got there.
    Reached {
        /// It took this long at least,
        shortest: SignedDuration,
        /// and at most this; `None` where the log does not show the start.
        longest: Option<SignedDuration>,
    },
    /// It is not there.
    NotYet {
        /// This long at least,
        shortest: SignedDuration,
        /// and at most this; `None` where the log does not show the start.
        longest: Option<SignedDuration>,
        /// The last reading.
        last: Temperature,
    },
    /// It was warmed again, or cooled again, before the time was up.
    BrokenOff {
        /// After this long at least.
        shortest: SignedDuration,
    },
}

/// Whether food was seen to be solid, where a hold asks for it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Solid {
    /// The hold does not ask.
    NotAsked,
    /// Nobody put the word "solid" into the log.
    NotSaid,
    /// Somebody did.
    Said,
    /// Somebody did, but it was not as cold as it should have been until then.
    TooWarm,
}

/// One hold of several that would do.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct HoldFound {
    /// What is asked.
    pub hold: Hold,
    /// The longest unbroken stretch.
    pub longest: SignedDuration,
    /// Whether its temperature was reached at all.
    pub reached: bool,
    /// Whether it was seen to be solid.
    pub solid: Solid,
    /// Whether it was held as asked.
    pub met: bool,
}

/// What was measured against which figure.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Found {
    /// There are no readings.
    Empty,
    /// No thermometer answers this limit.
    NotOfHeat,
    /// The clock has not started.
    NotStarted {
        /// Which side of it the food still is.
        side: Side,
        /// The temperature at which it starts.
        from: Temperature,
    },
    /// A stage of cooling; of several descents the worst.
    Stage {
        /// From this
        from: Temperature,
        /// to this
        to: Temperature,
        /// within this.
        allowed: SignedDuration,
        /// How long it took.
        took: Took,
        /// Which descent of the log, from 1 up,
        descent: usize,
        /// of how many.
        of: usize,
    },
    /// Something to be reached within a time.
    Within {
        /// On which side
        side: Side,
        /// of what.
        hold: Hold,
        /// How long it may take.
        allowed: SignedDuration,
        /// How long it took.
        took: Took,
        /// Where it got there, how long it stayed.
        held: SignedDuration,
    },
    /// The reading furthest out.
    Furthest {
        /// On which side
        side: Side,
        /// of what.
        limit: Temperature,
        /// The reading.
        furthest: Temperature,
        /// The longest that it may have been beyond the limit without a break.
        beyond: SignedDuration,
        /// How long it may be beyond.
        allowance: SignedDuration,
    },
    /// Time out of control.
    Out {
        /// So far.
        out: SignedDuration,
        /// How long it may be.
        allowed: SignedDuration,
    },
    /// How warm it was at the start.
    Began {
        /// The first reading.
        first: Temperature,
        /// What was asked.
        begins: Begins,
    },
    /// Days kept.
    Days {
        /// So long.
        kept: SignedDuration,
        /// Of so many, the first counted.
        days: u32,
    },
    /// Holds of which one is enough.
    Held {
        /// On which side.
        side: Side,
        /// Each of them.
        holds: Vec<HoldFound>,
    },
    /// It warmed again while it was to cool.
    Rewarmed {
        /// Above this.
        above: Temperature,
        /// As far as this,
        highest: Temperature,
        /// at this moment.
        at: Timestamp,
        /// Whether it stayed so long that the cooling clock began anew.
        restarted: bool,
    },
    /// Stretches without readings.
    Gaps {
        /// How many.
        count: usize,
        /// How long together.
        total: SignedDuration,
    },
}

impl Found {
    /// A name for it that does not change.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::Empty => "empty",
            Self::NotOfHeat => "not-of-heat",
            Self::NotStarted { .. } => "not-started",
            Self::Stage { .. } => "stage",
            Self::Within { .. } => "within",
            Self::Furthest { .. } => "furthest",
            Self::Out { .. } => "out",
            Self::Began { .. } => "began",
            Self::Days { .. } => "days",
            Self::Held { .. } => "held",
            Self::Rewarmed { .. } => "rewarmed",
            Self::Gaps { .. } => "gaps",
        }
    }
}

/// Both units, with as many decimals as keep a reading on its own side of a
/// limit: 56.99 is never printed as 57.0 beside a limit of 57.
#[must_use]
pub fn beside(reading: Temperature, limit: Temperature) -> String {
    let mut text = format!("{:.3}", reading.celsius());
    for decimals in 1..=2 {
        let rounded = format!("{:.decimals$}", reading.celsius());
        let printed = rounded.parse().ok().and_then(Temperature::from_celsius);
        if printed.is_some_and(|printed| printed.cmp(&limit) == reading.cmp(&limit)) {
            text = rounded;
            break;
        }
    }
    // A whole degree of Fahrenheit is coarser than what is compared.
    format!("{text} degC ({:.1} degF)", reading.fahrenheit())
}

fn time(d: SignedDuration) -> String {
    let minutes = (d.as_secs() + 30).div_euclid(60);
    format!("{} h {:02} min", minutes / 60, minutes % 60)
}

/// A time beside another, with seconds where minutes would hide the difference.
#[must_use]
pub fn time_beside(d: SignedDuration, limit: SignedDuration) -> String {
    let minutes = |d: SignedDuration| (d.as_secs() + 30).div_euclid(60);
    let rounded = SignedDuration::from_mins(minutes(d));
    if !limit.is_zero() && limit < SignedDuration::from_mins(3) {
        return format!("{} s", d.as_secs());
    }
    if rounded.cmp(&limit) == d.cmp(&limit) {
        return time(d);
    }
    let s = d.as_secs();
    format!("{} h {:02} min {:02} s", s / 3_600, s / 60 % 60, s % 60)
}

/// The two ends of how long something took, as one where they look the same.
fn span(
    shortest: SignedDuration,
    longest: Option<SignedDuration>,
    limit: SignedDuration,
) -> String {
    let least = time_beside(shortest, limit);
    match longest.map(|longest| time_beside(longest, limit)) {
        Some(most) if most == least => least,
        Some(most) => format!("between {least} and {most}"),
        None => format!("at least {least}"),
    }
}

impl Finding {
    fn stage(
        &self,
        f: &mut fmt::Formatter<'_>,
        (from, to): (Temperature, Temperature),
        allowed: SignedDuration,
        took: Took,
        (descent, of): (usize, usize),
    ) -> fmt::Result {
        let (from, target, limit) = (both_units(from), both_units(to), time(allowed));
        match took {
            Took::Reached { shortest, longest } => {
                if self.outcome == Outcome::CannotTell {
                    f.write_str(if longest.is_none() {
                        "The log does not show when cooling began: "
                    } else {
                        "Readings lie too far apart to tell: "
                    })?;
                }
                write!(
                    f,
                    "from {from} down to {target} took {}, limit {limit}",
                    span(shortest, longest, allowed)
                )?;
            }
            Took::NotYet {
                shortest,
                longest,
                last,
            } => {
                if self.outcome == Outcome::CannotTell {
                    f.write_str("The start of cooling is not exact: ")?;
                }
                write!(
                    f,
                    "{} after {}, not yet at {target}, limit {limit}",
                    beside(last, to),
                    span(shortest, longest, allowed)
                )?;
            }
            Took::BrokenOff { shortest } => write!(
                f,
                "warmed again {} after it fell below {from}, before it was at {target} and before its {limit} were up",
                time_beside(shortest, allowed)
            )?,
        }
        if of > 1 {
            write!(
                f,
                " (the worst of {of} coolings in the log, number {descent})"
            )?;
        }
        Ok(())
    }

    fn within(
        &self,
        f: &mut fmt::Formatter<'_>,
        side: Side,
        hold: Hold,
        allowed: SignedDuration,
        (took, held): (Took, SignedDuration),
    ) -> fmt::Result {
        let target = format!("{} {}", side.words(), both_units(hold.at));
        let limit = time(allowed);
        match took {
            Took::Reached { shortest, longest } => {
                if self.outcome == Outcome::CannotTell {
                    f.write_str(if longest.is_none() {
                        "The log does not show the start: "
                    } else {
                        "Readings lie too far apart to tell: "
                    })?;
                }
                write!(
                    f,
                    "{target} was reached in {}, limit {limit}",
                    span(shortest, longest, allowed)
                )?;
                if !hold.lasting.is_zero() {
                    write!(
                        f,
                        "; held for {} of {}",
                        time_beside(held, hold.lasting),
                        time_beside(hold.lasting, hold.lasting)
                    )?;
                }
                Ok(())
            }
            Took::NotYet {
                shortest,
                longest,
                last,
            } => write!(
                f,
                "{} after {}, not yet {target}, limit {limit}",
                beside(last, hold.at),
                span(shortest, longest, allowed)
            ),
            Took::BrokenOff { shortest } => write!(
                f,
                "given up after {}, before {target} was reached and before its {limit} were up",
                time_beside(shortest, allowed)
            ),
        }
    }
}

fn held(f: &mut fmt::Formatter<'_>, side: Side, holds: &[HoldFound]) -> fmt::Result {
    // What was met says it all; else each of them, as far as it came.
    let met = holds.iter().find(|found| found.met);
    let shown: Vec<&HoldFound> = met.map_or_else(|| holds.iter().collect(), |found| vec![found]);
    for (place, found) in shown.into_iter().enumerate() {
        if place > 0 {
            f.write_str("; or ")?;
        }
        let hold = found.hold;
        write!(f, "{} {}: ", side.words(), both_units(hold.at))?;
        if !found.reached {
            f.write_str("not reached")?;
        } else if hold.lasting.is_zero() {
            f.write_str("reached")?;
        } else {
            write!(
                f,
                "{} unbroken in the log, limit {}",
                time_beside(found.longest, hold.lasting),
                time_beside(hold.lasting, hold.lasting)
            )?;
        }
        if let Some(solid) = hold.solid_at {
            match found.solid {
                Solid::NotAsked => {}
                Solid::NotSaid => f.write_str(
                    " (once it is solid, which nobody put down: put the word \"solid\" at that moment)",
                )?,
                Solid::Said => f.write_str(" (from when it was seen to be solid)")?,
                Solid::TooWarm => write!(
                    f,
                    " (it was not at {} or below until it was seen to be solid)",
                    both_units(solid)
                )?,
            }
        }
    }
    Ok(())
}

impl fmt::Display for Finding {
    /// What was measured against which figure, as a sentence.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match &self.found {
            Found::Empty => return f.write_str("The log is empty."),
            Found::NotOfHeat => {
                return f
                    .write_str("No log of temperatures answers this limit; read what it asks.");
            }
            Found::NotStarted { side, from } => {
                let (still, what) = match side {
                    Side::AtLeast => ("at or above", "cooling"),
                    Side::AtMost => ("at or below", "warming"),
                };
                return write!(
                    f,
                    "Still {still} {}: the {what} clock has not started.",
                    both_units(*from)
                );
            }
            Found::Stage {
                from,
                to,
                allowed,
                took,
                descent,
                of,
            } => self.stage(f, (*from, *to), *allowed, *took, (*descent, *of))?,
            Found::Within {
                side,
                hold,
                allowed,
                took,
                held,
            } => self.within(f, *side, *hold, *allowed, (*took, *held))?,
            Found::Furthest {
                side,
                limit,
                furthest,
                beyond,
                allowance,
            } => {
                write!(
                    f,
                    "furthest reading {}, limit {} {}",
                    beside(*furthest, *limit),
                    side.words(),
                    both_units(*limit)
                )?;
                if !beyond.is_zero() {
                    write!(f, "; up to {} beyond it", time_beside(*beyond, *allowance))?;
                    if !allowance.is_zero() {
                        write!(f, ", allowed for {}", time(*allowance))?;
                    }
                }
            }
            Found::Out { out, allowed } => write!(
                f,
                "{} since the log began, limit {}",
                time_beside(*out, *allowed),
                time(*allowed)
            )?,
            Found::Began { first, begins } => {
                write!(
                    f,
                    "{} when it began, limit at most {}",
                    beside(*first, begins.at_most),
                    both_units(begins.at_most)
                )?;
                if let Some(hot) = begins.or_at_least {
                    write!(f, " or at least {}", both_units(hot))?;
                }
            }
            Found::Days { kept, days } => {
                write!(
                    f,
                    "{:.1} days since the log began, limit {days} days, the first counted",
                    kept.as_secs_f64() / 86_400.0
                )?;
                if self.outcome == Outcome::CannotTell {
                    f.write_str(": it depends on the day's end here")?;
                }
            }
            Found::Held { side, holds } => held(f, *side, holds)?,
            Found::Rewarmed {
                above,
                highest,
                at,
                restarted,
            } => {
                write!(
                    f,
                    "warmed again above {}, to {} at {at}",
                    both_units(*above),
                    beside(*highest, *above)
                )?;
                f.write_str(if *restarted {
                    "; the cooling clock began anew"
                } else {
                    "; the cooling clock went on"
                })?;
            }
            Found::Gaps { count, total } => write!(
                f,
                "{} without readings in {count} gap{}",
                time(*total),
                if *count == 1 { "" } else { "s" }
            )?,
        }
        if let Some(doubt) = self.doubt
            && !doubt.within().millicelsius().eq(&0)
        {
            write!(f, "; the probe is good to {doubt} (k = 2)")?;
        }
        f.write_char('.')
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn celsius(celsius: f64) -> Temperature {
        Temperature::from_celsius(celsius).unwrap()
    }

    #[test]
    fn a_figure_never_stands_on_the_wrong_side_of_its_limit() {
        for (reading, limit, shown) in [
            (56.99, 57.0, "56.99 degC"),
            (57.0, 57.0, "57.0 degC"),
            (56.9, 57.0, "56.9 degC"),
            (5.04, 5.0, "5.04 degC"),
            (5.001, 5.0, "5.001 degC"),
            (-20.04, -20.0, "-20.04 degC"),
            (-19.999, -20.0, "-19.999 degC"),
        ] {
            assert!(
                beside(celsius(reading), celsius(limit)).starts_with(shown),
                "{reading}: {}",
                beside(celsius(reading), celsius(limit))
            );
        }
        let hours = SignedDuration::from_hours;
        let two = hours(2);
        assert_eq!(time_beside(two, two), "2 h 00 min");
        assert_eq!(
            time_beside(two + SignedDuration::from_secs(10), two),
            "2 h 00 min 10 s"
        );
        assert_eq!(
            time_beside(two - SignedDuration::from_secs(10), two),
            "1 h 59 min 50 s"
        );
        assert_eq!(time_beside(hours(3), two), "3 h 00 min");
    }
}
