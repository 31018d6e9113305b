//! What became of everything that happened at the pan.

use super::{Comparison, Desk};
use crate::instrument::SimulatedInstrument;
use crate::truth::TruePortion;
use evenhand_protocol::report::Doubts;
use evenhand_protocol::{CapturedPortion, Fault, Goal, Mass, Notice, Uptime};

/// Seeds on which thresholds may be tuned. Figures are reported on others.
pub const TUNING_SEEDS: core::ops::RangeInclusive<u64> = 1..=1_000;
/// A record is right within this, or within [`WITHIN_PERCENT`] of the target.
const WITHIN: Mass = Mass::from_milligrams(100);
const WITHIN_PERCENT: i64 = 2;
/// A reason is given at most so long before a portion was begun, in
/// milliseconds.
const BEFORE_MS: u64 = 1_000;
/// A part that waits for its rest waits for up to twenty seconds.
const AFTER_MS: u64 = 25_000;

/// How many of the portions and tastes of a run ended in which way.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Ledger {
    /// Portions that were made.
    pub made: usize,
    /// Recorded right, with no doubt about the mass.
    pub right: usize,
    /// Recorded right, and doubted.
    pub right_doubted: usize,
    /// Recorded wrong, and doubted.
    pub wrong_doubted: usize,
    /// Recorded wrong, with no doubt.
    pub wrong_silent: usize,
    /// Not recorded, with a reason.
    pub refused: usize,
    /// Not recorded, and nothing said.
    pub unseen: usize,
    /// Records of portions that were never made, doubted.
    pub invented_doubted: usize,
    /// The same with no doubt.
    pub invented_silent: usize,
    /// Tastes that nothing was said of, neither a notice nor a doubt.
    pub tastes_unsaid: usize,
    /// Tastes.
    pub tastes: usize,
    /// Records with an uncertainty that covers the truth (k = 2).
    pub covered: usize,
}

/// Whether something speaks against the mass; the verdict alone is another
/// matter.
#[must_use]
pub fn is_doubted(portion: &CapturedPortion) -> bool {
    portion.doubts.0 & !Doubts::STRADDLES_LIMIT.0 != 0
}

/// Whether a mass is so far out that it is wrong.
#[must_use]
pub fn is_wrong(error: Mass, goal: Goal) -> bool {
    let share = goal.target().fraction(WITHIN_PERCENT, 100);
    error.abs() > share.unwrap_or(Mass::ZERO).max(WITHIN)
}

/// Whether a notice gives a reason why something was not counted.
const fn is_reason(notice: Notice) -> bool {
    matches!(
        notice,
        Notice::LiftedUnsettled
            | Notice::LiftedEmpty
            | Notice::Unaccounted(_)
            | Notice::FoundOnPan(_)
            | Notice::FilledWhileTaken(_)
            | Notice::TinBack(_)
    )
}

impl Ledger {
    /// What became of a run's portions.
    #[must_use]
    pub fn of(instrument: &SimulatedInstrument, desk: &Desk) -> Self {
        let compared = Comparison::of(instrument, desk);
        let mut ledger = Self {
            made: instrument.truth().len(),
            tastes: instrument.world().tastes().len(),
            ..Self::default()
        };
        for (truth, record) in &compared.both {
            let error = record.mass - truth.mass;
            let (wrong, doubted) = (is_wrong(error, record.goal), is_doubted(record));
            *match (wrong, doubted) {
                (false, false) => &mut ledger.right,
                (false, true) => &mut ledger.right_doubted,
                (true, true) => &mut ledger.wrong_doubted,
                (true, false) => &mut ledger.wrong_silent,
            } += 1;
            let covers = record.uncertainty.is_some_and(|u| error.abs() <= u);
            ledger.covered += usize::from(covers);
        }
        let neighbour = |at: u64| {
            compared.both.iter().any(|(truth, record)| {
                is_doubted(record)
                    && truth.at_micros.abs_diff(at) <= AFTER_MS * 1_000
                    && is_wrong(record.mass - truth.mass, record.goal)
            })
        };
        for truth in &compared.missed {
            let said = reason(desk, truth.begun_micros, truth.at_micros)
                || neighbour(truth.at_micros)
                || compared
                    .invented
                    .iter()
                    .any(|record| is_doubted(record) && near(record.at, truth));
            *if said {
                &mut ledger.refused
            } else {
                &mut ledger.unseen
            } += 1;
        }
        for record in &compared.invented {
            *if is_doubted(record) {
                &mut ledger.invented_doubted
            } else {
                &mut ledger.invented_silent
            } += 1;
        }
        for taste in instrument.world().tastes() {
            let doubted = desk.portions().iter().any(|record| {
                is_doubted(record) && within(record.at, taste.at_micros, taste.at_micros)
            });
            if !doubted && !reason(desk, taste.at_micros, taste.at_micros) {
                ledger.tastes_unsaid += 1;
            }
        }
        ledger
    }

    /// Everything that is wrong or missing with nothing said.
    #[must_use]
    pub const fn silent(&self) -> usize {
        self.wrong_silent + self.unseen + self.invented_silent
    }

    /// Doubts about what is right.
    #[must_use]
    pub const fn doubted(&self) -> usize {
        self.right_doubted + self.wrong_doubted + self.invented_doubted
    }

    /// Portions that are not on record, whatever was said.
    #[must_use]
    pub const fn missed(&self) -> usize {
        self.refused + self.unseen
    }

    /// Both together.
    #[must_use]
    pub const fn and(self, other: Self) -> Self {
        Self {
            made: self.made + other.made,
            right: self.right + other.right,
            right_doubted: self.right_doubted + other.right_doubted,
            wrong_doubted: self.wrong_doubted + other.wrong_doubted,
            wrong_silent: self.wrong_silent + other.wrong_silent,
            refused: self.refused + other.refused,
            unseen: self.unseen + other.unseen,
            invented_doubted: self.invented_doubted + other.invented_doubted,
            invented_silent: self.invented_silent + other.invented_silent,
            tastes_unsaid: self.tastes_unsaid + other.tastes_unsaid,
            tastes: self.tastes + other.tastes,
            covered: self.covered + other.covered,
        }
    }

    /// Records laid beside a true portion.
    #[must_use]
    pub const fn matched(&self) -> usize {
        self.right + self.right_doubted + self.wrong_doubted + self.wrong_silent
    }
}

fn reason(desk: &Desk, begun_micros: u64, at_micros: u64) -> bool {
    let told = desk
        .notices()
        .iter()
        .any(|(at, notice)| is_reason(*notice) && within(*at, begun_micros, at_micros));
    told || cannot_count(desk, begun_micros, at_micros)
}

/// Whether the instrument said within that time that it cannot count.
fn cannot_count(desk: &Desk, begun_micros: u64, at_micros: u64) -> bool {
    [Fault::TooNoisy, Fault::Restless]
        .into_iter()
        .any(|fault| held(desk, fault, begun_micros, at_micros))
}

/// Whether a fault held at any moment between two times.
fn held(desk: &Desk, wanted: Fault, begun_micros: u64, at_micros: u64) -> bool {
    let mut since = None;
    for (at, fault, present) in desk.faults() {
        if *fault != wanted {
            continue;
        }
        match (present, since) {
            (true, _) => since = Some(at.millis()),
            (false, Some(from)) => {
                since = None;
                if from <= at_micros / 1_000 && at.millis() >= begun_micros / 1_000 {
                    return true;
                }
            }
            (false, None) => {}
        }
    }
    since.is_some_and(|from| from <= at_micros / 1_000)
}

fn near(at: Uptime, truth: &TruePortion) -> bool {
    within(at, truth.begun_micros, truth.at_micros)
}

fn within(at: Uptime, begun_micros: u64, at_micros: u64) -> bool {
    let from = (begun_micros / 1_000).saturating_sub(BEFORE_MS);
    let to = at_micros / 1_000 + AFTER_MS;
    (from..=to).contains(&at.millis())
}
