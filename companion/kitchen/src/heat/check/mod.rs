//! A log against a limit.
//!
//! A reading says what was at its moment, not between. Where the moment of a
//! crossing lies between two readings, both ends are carried along: the answer
//! is *kept* or *broken* only when it is so at either end, and *cannot tell*
//! otherwise, with the reason.
//!
//! A probe may be out by its own uncertainty (k = 2), most of it the same all
//! through a log. So the whole log is judged three times: as it was read, and
//! with every reading as far up and as far down as the probe may be out. What
//! comes out the same three times is the answer; what does not is *too close
//! to say*.

mod cooling;
mod finding;
mod hold;
mod within;

pub(super) use cooling::under_way;
pub use finding::{Finding, Found, HoldFound, Solid, Took, beside, time_beside};

use super::log::HeatLog;
use crate::limits::{Begins, Demand, Limit, Side};
use evenhand_protocol::Temperature;
use jiff::{SignedDuration, Timestamp};

/// How a log stands against a limit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Outcome {
    /// Every reading is within the limit, and no gap hides anything.
    Kept,
    /// The limit was passed.
    Broken,
    /// The limit's time is not up yet.
    Running,
    /// The log does not say.
    CannotTell,
    /// The probe's own uncertainty is larger than what is left.
    TooClose,
    /// No answer, but something to be said beside it.
    Noted,
}

impl Outcome {
    /// The words for it.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Kept => "within the limit",
            Self::Broken => "over the limit",
            Self::Running => "within the limit so far, not finished",
            Self::CannotTell => "the log cannot tell",
            Self::TooClose => "too close to say",
            Self::Noted => "to be noted",
        }
    }

    /// The one of several that a whole check comes to: broken before what
    /// cannot be told before what is not finished, kept only where all is.
    /// `None` where nothing was answered.
    #[must_use]
    pub fn worst(outcomes: impl IntoIterator<Item = Self>) -> Option<Self> {
        outcomes
            .into_iter()
            .filter(|outcome| *outcome != Self::Noted)
            .max_by_key(|outcome| outcome.rank())
    }

    const fn rank(self) -> u8 {
        match self {
            Self::Noted => 0,
            Self::Kept => 1,
            Self::Running => 2,
            Self::CannotTell => 3,
            Self::TooClose => 4,
            Self::Broken => 5,
        }
    }
}

/// Checks a whole log against a limit; one finding for each thing that the
/// limit asks, then what is to be said beside them. An empty log, and a limit
/// that no thermometer answers, give one finding that says so.
#[must_use]
pub fn check(log: &HeatLog, limit: &Limit) -> Vec<Finding> {
    if !limit.demand.is_of_heat() {
        return vec![Finding::new(Outcome::CannotTell, Found::NotOfHeat)];
    }
    if log.points().is_empty() {
        return vec![Finding::new(Outcome::CannotTell, Found::Empty)];
    }
    let mut findings = answers(log, limit);
    if let Some(doubt) = log.doubt {
        let by = doubt.within();
        let down = Temperature::from_millicelsius(-by.millicelsius());
        let (low, high) = (
            answers(&log.shifted(down), limit),
            answers(&log.shifted(by), limit),
        );
        let is_hold = matches!(limit.demand, Demand::Frozen(_) | Demand::Cooked(_));
        for (finding, (low, high)) in findings.iter_mut().zip(low.iter().zip(&high)) {
            finding.outcome = in_doubt([finding.outcome, low.outcome, high.outcome], is_hold);
            finding.doubt = Some(doubt);
        }
    }
    // Food that is hot through and through is said once, not once a stage.
    if findings.len() > 1
        && findings
            .iter()
            .all(|finding| matches!(finding.found, Found::NotStarted { .. }))
    {
        findings.truncate(1);
    }
    if let Demand::Cooling { from, stages } = &limit.demand {
        findings.extend(cooling::notes(log, *from, stages));
    }
    let gaps = log.gaps();
    if !gaps.is_empty() {
        let total = gaps
            .iter()
            .map(|gap| gap.to.duration_since(gap.from))
            .fold(SignedDuration::ZERO, |a, b| a + b);
        findings.push(Finding::new(
            Outcome::Noted,
            Found::Gaps {
                count: gaps.len(),
                total,
            },
        ));
    }
    findings
}

/// What three outcomes come to: as read, and with the probe out either way.
fn in_doubt(outcomes: [Outcome; 3], is_hold: bool) -> Outcome {
    let [as_read, low, high] = outcomes;
    if as_read == low && as_read == high {
        as_read
    } else if outcomes.contains(&Outcome::CannotTell) {
        Outcome::CannotTell
    } else if !is_hold && !outcomes.contains(&Outcome::Broken) {
        // Reached or not reached yet, with time left either way.
        Outcome::Running
    } else {
        Outcome::TooClose
    }
}

/// One finding for each thing that a limit asks, in an order that is the same
/// for every log.
fn answers(log: &HeatLog, limit: &Limit) -> Vec<Finding> {
    let always = |at: Temperature, side| always(log, at, side, limit.allowance);
    match &limit.demand {
        Demand::Cooling { from, stages } => cooling::answers(log, *from, stages),
        Demand::Within {
            side,
            hold,
            within,
            from,
        } => vec![within::answer(log, *side, *hold, *within, *from)],
        Demand::AtMost(most) => vec![always(*most, Side::AtMost)],
        Demand::AtLeast(least) => vec![always(*least, Side::AtLeast)],
        Demand::TimeOnly {
            within,
            never_above,
            begins,
        } => {
            let mut all = vec![time_only(log, *within)];
            all.extend(begins.and_then(|begins| began(log, begins)));
            all.extend(never_above.map(|ceiling| always(ceiling, Side::AtMost)));
            all
        }
        Demand::Days { days, at_most } => {
            let mut all = vec![kept_days(log, *days)];
            all.push(always(*at_most, Side::AtMost));
            all
        }
        Demand::Frozen(holds) => vec![hold::answer(log, holds, Side::AtMost)],
        Demand::Cooked(holds) => vec![hold::answer(log, holds, Side::AtLeast)],
        Demand::SaltInWater { .. } | Demand::Nitrite { .. } | Demand::Rule => Vec::new(),
    }
}

fn always(log: &HeatLog, limit: Temperature, side: Side, allowance: SignedDuration) -> Finding {
    let points = log.points();
    let furthest = points
        .iter()
        .map(|p| p.temperature)
        .reduce(|a, b| match side {
            Side::AtMost => a.max(b),
            Side::AtLeast => a.min(b),
        })
        .unwrap_or_default();
    // The longest stretch beyond: from reading to reading beyond it surely, and possibly from the
    // last reading within it to the next.
    let (mut surely, mut possibly) = (SignedDuration::ZERO, SignedDuration::ZERO);
    let mut last_kept: Option<Timestamp> = None;
    let mut first_beyond: Option<Timestamp> = None;
    for point in points {
        let since = |start: Option<Timestamp>| {
            start.map_or(SignedDuration::ZERO, |start| point.at.duration_since(start))
        };
        if side.keeps(point.temperature, limit) {
            if first_beyond.is_some() {
                possibly = possibly.max(since(last_kept.or(first_beyond)));
            }
            (last_kept, first_beyond) = (Some(point.at), None);
        } else {
            first_beyond = first_beyond.or(Some(point.at));
            surely = surely.max(since(first_beyond));
            possibly = possibly.max(since(last_kept.or(first_beyond)));
        }
    }
    let gaps = !log.gaps().is_empty();
    let outcome = if side.keeps(furthest, limit) {
        if gaps {
            Outcome::CannotTell
        } else {
            Outcome::Kept
        }
    } else if allowance.is_zero() || surely > allowance {
        Outcome::Broken
    } else if gaps || possibly > allowance {
        Outcome::CannotTell
    } else {
        Outcome::Kept
    };
    Finding::new(
        outcome,
        Found::Furthest {
            side,
            limit,
            furthest,
            beyond: possibly,
            allowance,
        },
    )
}

/// How long a log is, from its first reading to its last.
fn length(log: &HeatLog) -> SignedDuration {
    match (log.points().first(), log.points().last()) {
        (Some(first), Some(last)) => last.at.duration_since(first.at),
        _ => SignedDuration::ZERO,
    }
}

fn time_only(log: &HeatLog, allowed: SignedDuration) -> Finding {
    let out = length(log);
    Finding::new(
        if out > allowed {
            Outcome::Broken
        } else {
            Outcome::Running
        },
        Found::Out { out, allowed },
    )
}

/// How warm it was when time alone began to count.
fn began(log: &HeatLog, begins: Begins) -> Option<Finding> {
    let first = log.points().first()?.temperature;
    let kept = first <= begins.at_most || begins.or_at_least.is_some_and(|hot| first >= hot);
    Some(Finding::new(
        if kept { Outcome::Kept } else { Outcome::Broken },
        Found::Began { first, begins },
    ))
}

/// The first day counts as a whole one however late it was made, so the hour
/// decides within the last day, and a log does not know the kitchen's midnight.
fn kept_days(log: &HeatLog, days: u32) -> Finding {
    let kept = length(log);
    let whole = |days: u32| SignedDuration::from_hours(24 * i64::from(days));
    Finding::new(
        if kept >= whole(days) {
            Outcome::Broken
        } else if kept > whole(days.saturating_sub(1)) {
            Outcome::CannotTell
        } else {
            Outcome::Running
        },
        Found::Days { kept, days },
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use Outcome::{Broken, CannotTell, Kept, Noted, Running, TooClose};

    #[test]
    fn one_breach_outweighs_everything() {
        assert_eq!(Outcome::worst([Kept, Kept]), Some(Kept));
        assert_eq!(Outcome::worst([Kept, Running]), Some(Running));
        assert_eq!(Outcome::worst([Kept, Broken, CannotTell]), Some(Broken));
        assert_eq!(Outcome::worst([TooClose, Running]), Some(TooClose));
        assert_eq!(Outcome::worst([Noted, Kept]), Some(Kept));
        assert_eq!(Outcome::worst([Noted]), None);
    }

    #[test]
    fn what_differs_by_the_probe_is_too_close() {
        assert_eq!(in_doubt([Kept, Kept, Kept], false), Kept);
        assert_eq!(in_doubt([Kept, Kept, Broken], false), TooClose);
        assert_eq!(in_doubt([Broken, Kept, Broken], false), TooClose);
        assert_eq!(in_doubt([Broken, Broken, Broken], false), Broken);
        assert_eq!(in_doubt([Running, Kept, Running], false), Running);
        assert_eq!(in_doubt([Kept, Running, Kept], true), TooClose);
        assert_eq!(in_doubt([Kept, CannotTell, Kept], false), CannotTell);
    }
}
