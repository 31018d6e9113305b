//! An oven as a step sees it: stretches of time in which its temperature is in
//! the step's band.
//!
//! An oven that only falls enters a band once and leaves it once: entering is
//! a not-before, leaving is a deadline. What opening the door or lighting it
//! again does is a course of its own, with its own stretches. Where they come
//! from (a forecast, marks in a log) is not this module's business.

use jiff::{SignedDuration, Timestamp};

/// A moment that is forecast.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Expected {
    /// Hardly before this.
    pub early: Timestamp,
    /// Most likely.
    pub likely: Timestamp,
    /// Hardly after this; `None` where it may never come.
    pub late: Option<Timestamp>,
}

impl Expected {
    /// A moment that is known.
    #[must_use]
    pub const fn known(at: Timestamp) -> Self {
        Self {
            early: at,
            likely: at,
            late: Some(at),
        }
    }
}

/// A stretch in which the oven is in the band.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct BandStretch {
    /// When it enters.
    pub enters: Expected,
    /// When it leaves; `None` where it stays.
    pub leaves: Option<Expected>,
}

impl BandStretch {
    /// The part of it that holds across the forecast's whole interval: from
    /// the late end of entering to the early end of leaving.
    #[must_use]
    pub fn sure(&self) -> Option<(Timestamp, Option<Timestamp>)> {
        let from = self.enters.late?;
        match self.leaves {
            Some(leaves) if leaves.early <= from => None,
            leaves => Some((from, leaves.map(|l| l.early))),
        }
    }
}

/// What is done to the oven.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum OvenAction {
    /// The door is opened for so long.
    OpenDoor(SignedDuration),
    /// It is lit again.
    Relight,
}

/// Another course that the oven can be made to take.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Course {
    /// What makes it take it.
    pub action: OvenAction,
    /// Its stretches in the band then.
    pub stretches: Vec<BandStretch>,
}

/// Something that took so long before: from how long to how long it does eight times in ten.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Lasts {
    /// Hardly shorter.
    pub least: SignedDuration,
    /// Most likely.
    pub likely: SignedDuration,
    /// Hardly longer.
    pub most: SignedDuration,
}

impl Expected {
    /// So long after a moment.
    fn after(moment: Timestamp, lasts: Lasts) -> Self {
        let more = |by| moment.checked_add(by).unwrap_or(Timestamp::MAX);
        Self {
            early: more(lasts.least),
            likely: more(lasts.likely),
            late: Some(more(lasts.most)),
        }
    }
}

impl Course {
    /// It is lit now, enters the band so long after and leaves it so long after.
    #[must_use]
    pub fn lit(enters: Lasts, leaves: Lasts, now: Timestamp) -> Self {
        Self {
            action: OvenAction::Relight,
            stretches: vec![BandStretch {
                enters: Expected::after(now, enters),
                leaves: Some(Expected::after(now, leaves)),
            }],
        }
    }
}

/// When an oven suits a step.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct OvenTimes {
    /// As it goes, nothing done to it.
    pub stretches: Vec<BandStretch>,
    /// What else can be done, the least trouble first.
    pub courses: Vec<Course>,
}

/// What can be done to an oven now, and when the step can then be done.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Otherwise {
    /// What is done.
    pub action: OvenAction,
    /// The earliest that the step can then begin and be sure.
    pub from: Timestamp,
    /// When it must then be done.
    pub until: Option<Timestamp>,
}

/// What a cook should know of a step and its oven.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum OvenAdvice {
    /// It fits as the oven goes: begin from `from`, be done by `until`
    /// (`None`: the oven stays in its band).
    Fits {
        /// The earliest that it can begin and be sure.
        from: Timestamp,
        /// When it must be done, to be sure.
        until: Option<Timestamp>,
        /// What brings a stretch where this one is missed, or an opened door
        /// one that is sooner by so much that it is worth it; where something
        /// does.
        otherwise: Option<Otherwise>,
    },
    /// It must begin now to be done in the band.
    NowOrNotToday {
        /// The latest that it can begin.
        latest: Timestamp,
    },
    /// It fits only if something is done to the oven.
    Only {
        /// What.
        action: OvenAction,
        /// The earliest that it can then begin.
        from: Timestamp,
        /// When it must then be done.
        until: Option<Timestamp>,
    },
    /// Not today, whatever is done.
    No,
}

/// No more than this to the latest start is "now".
const NOW: SignedDuration = SignedDuration::from_mins(10);
/// Nobody opens an oven's door for less.
const WORTH_A_DOOR: SignedDuration = SignedDuration::from_mins(15);

impl OvenTimes {
    /// The parts of the stretches that hold across the forecast's interval and
    /// are long enough, from `now` on.
    pub(super) fn sure(
        stretches: &[BandStretch],
        needed: SignedDuration,
        now: Timestamp,
    ) -> Vec<(Timestamp, Option<Timestamp>)> {
        stretches
            .iter()
            .filter_map(BandStretch::sure)
            .map(|(from, to)| (from.max(now), to))
            .filter(|(from, to)| to.is_none_or(|to| to.duration_since(*from) >= needed))
            .collect()
    }

    /// What a cook should know of a step that takes `needed`.
    #[must_use]
    pub fn advice(&self, needed: SignedDuration, now: Timestamp) -> OvenAdvice {
        let sure = Self::sure(&self.stretches, needed, now);
        let alone = sure.first().map(|(from, _)| *from);
        let by_course = self.courses.iter().find_map(|course| {
            let (from, until) = *Self::sure(&course.stretches, needed, now).first()?;
            let worth_it = match course.action {
                OvenAction::OpenDoor(_) => {
                    alone.is_none_or(|alone| alone.duration_since(from) >= WORTH_A_DOOR)
                }
                OvenAction::Relight => true,
            };
            let action = course.action;
            worth_it.then_some(Otherwise {
                action,
                from,
                until,
            })
        });
        match sure[..] {
            [(from, Some(until))]
                if by_course.is_none()
                    && from <= now
                    && until.duration_since(now) - needed <= NOW =>
            {
                OvenAdvice::NowOrNotToday {
                    latest: until.checked_sub(needed).unwrap_or(now),
                }
            }
            [(from, until), ..] => OvenAdvice::Fits {
                from,
                until,
                otherwise: by_course,
            },
            [] => match by_course {
                Some(Otherwise {
                    action,
                    from,
                    until,
                }) => OvenAdvice::Only {
                    action,
                    from,
                    until,
                },
                None => OvenAdvice::No,
            },
        }
    }
}
