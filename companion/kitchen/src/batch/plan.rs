//! A batch in time: in, turned, out.

use super::{Batch, BatchId};
use crate::units::InputError;
use jiff::{SignedDuration, Timestamp};

/// When a batch goes in and is due out, and how often it is to be turned or
/// looked at in between.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(try_from = "OnRecord", into = "OnRecord")]
pub struct Schedule {
    into: Timestamp,
    due: Timestamp,
    every: Option<SignedDuration>,
}

#[derive(serde::Serialize, serde::Deserialize)]
struct OnRecord {
    into: Timestamp,
    due: Timestamp,
    every_seconds: Option<i64>,
}

impl TryFrom<OnRecord> for Schedule {
    type Error = InputError;
    fn try_from(record: OnRecord) -> Result<Self, InputError> {
        Self::new(
            record.into,
            record.due,
            record.every_seconds.map(SignedDuration::from_secs),
        )
    }
}

impl From<Schedule> for OnRecord {
    fn from(plan: Schedule) -> Self {
        Self {
            into: plan.into,
            due: plan.due,
            every_seconds: plan.every.map(|every| every.as_secs()),
        }
    }
}

/// What is to be done with a batch.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Task {
    /// Turn it, or look at it.
    Turn,
    /// Take it out.
    TakeOut,
}

impl Task {
    /// Its words.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Turn => "turn",
            Self::TakeOut => "take out",
        }
    }
}

/// A task and its time.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Due {
    /// What.
    pub task: Task,
    /// When.
    pub at: Timestamp,
    /// How long until then; below zero where that is past.
    pub left: SignedDuration,
}

impl Due {
    /// Whether its time is past.
    #[must_use]
    pub fn is_overdue(&self) -> bool {
        self.left.is_negative()
    }
}

impl core::fmt::Display for Due {
    /// `take out in 1 d 4 h`, `turn overdue by 3 h 20 min`.
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        let task = self.task.words();
        if self.is_overdue() {
            write!(f, "{task}: overdue by {}", span(self.left.abs()))
        } else if self.left.as_mins() == 0 {
            write!(f, "{task} now")
        } else {
            write!(f, "{task} in {}", span(self.left))
        }
    }
}

/// What is due with any of the batches, the soonest first.
#[must_use]
pub fn due_with<'b>(
    batches: impl IntoIterator<Item = &'b (BatchId, Batch)>,
    now: Timestamp,
) -> Vec<(BatchId, &'b Batch, Due)> {
    let mut all: Vec<_> = batches
        .into_iter()
        .flat_map(|(id, batch)| batch.due(now).into_iter().map(move |due| (*id, batch, due)))
        .collect();
    all.sort_by_key(|(id, _, due)| (due.at, id.0));
    all
}

/// A span in its two largest units: `2 d 4 h`, `3 h 20 min`, `12 min`.
#[must_use]
pub fn span(duration: SignedDuration) -> String {
    let minutes = duration.abs().as_mins();
    let (days, hours, minutes) = (minutes / 1440, minutes / 60 % 24, minutes % 60);
    match (days, hours, minutes) {
        (0, 0, 0) => "less than a minute".to_owned(),
        (0, 0, minutes) => format!("{minutes} min"),
        (0, hours, 0) => format!("{hours} h"),
        (0, hours, minutes) => format!("{hours} h {minutes} min"),
        (days, 0, _) => format!("{days} d"),
        (days, hours, _) => format!("{days} d {hours} h"),
    }
}

impl Schedule {
    /// In at one time, due at another, turned every so often in between.
    ///
    /// # Errors
    /// Due before in, more than two years on, or turned more often than every
    /// minute.
    pub fn new(
        into: Timestamp,
        due: Timestamp,
        every: Option<SignedDuration>,
    ) -> Result<Self, InputError> {
        let lasting = due.duration_since(into);
        if lasting <= SignedDuration::ZERO {
            return Err(InputError::new(
                "due",
                &due.to_string(),
                problem!("not-after-in", into = into),
                expected!("later"),
            ));
        }
        if lasting > SignedDuration::from_hours(2 * 366 * 24) {
            return Err(InputError::new(
                "due",
                &due.to_string(),
                problem!("long-after-in", span = span(lasting)),
                expected!("two-years"),
            ));
        }
        if let Some(every) = every
            && every < SignedDuration::from_mins(1)
        {
            return Err(InputError::new(
                "every",
                &format!("{} s", every.as_secs()),
                problem!("too-often"),
                expected!("a-minute"),
            ));
        }
        Ok(Self { into, due, every })
    }

    /// When it goes in.
    #[must_use]
    pub const fn into_brine(&self) -> Timestamp {
        self.into
    }

    /// When it is due out.
    #[must_use]
    pub const fn due(&self) -> Timestamp {
        self.due
    }

    /// How often it is to be turned.
    #[must_use]
    pub const fn every(&self) -> Option<SignedDuration> {
        self.every
    }

    /// What is to be done, soonest first: the next turn, while one is due
    /// before it comes out, and taking it out.
    #[must_use]
    pub fn due_at(&self, last_turned: Option<Timestamp>, now: Timestamp) -> Vec<Due> {
        let due = |task, at: Timestamp| Due {
            task,
            at,
            left: at.duration_since(now),
        };
        let turn = self.every.and_then(|every| {
            let from = last_turned.unwrap_or(self.into).max(self.into);
            from.checked_add(every).ok()
        });
        let mut tasks = Vec::with_capacity(2);
        if let Some(turn) = turn
            && turn < self.due
        {
            tasks.push(due(Task::Turn, turn));
        }
        tasks.push(due(Task::TakeOut, self.due));
        tasks
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(text: &str) -> Timestamp {
        text.parse().unwrap()
    }

    #[test]
    fn turns_come_before_it_is_out_and_overdue_is_said() {
        let plan = Schedule::new(
            at("2025-03-03T18:00:00Z"),
            at("2025-03-05T18:00:00Z"),
            Some(SignedDuration::from_hours(24)),
        )
        .unwrap();
        let words = |last: Option<&str>, now: &str| -> Vec<String> {
            plan.due_at(last.map(at), at(now))
                .iter()
                .map(ToString::to_string)
                .collect()
        };
        assert_eq!(
            words(None, "2025-03-04T10:40:00Z"),
            ["turn in 7 h 20 min", "take out in 1 d 7 h"]
        );
        assert_eq!(
            words(None, "2025-03-04T21:20:00Z"),
            ["turn: overdue by 3 h 20 min", "take out in 20 h 40 min"]
        );
        // Turned late: the next turn would be after it is out.
        assert_eq!(
            words(Some("2025-03-04T21:20:00Z"), "2025-03-05T17:48:00Z"),
            ["take out in 12 min"]
        );
        assert_eq!(
            words(Some("2025-03-04T21:20:00Z"), "2025-03-07T19:00:00Z"),
            ["take out: overdue by 2 d 1 h"]
        );
        assert_eq!(
            words(Some("2025-03-04T21:20:00Z"), "2025-03-05T18:00:00Z"),
            ["take out now"]
        );
    }

    #[test]
    fn senseless_plans_are_refused() {
        let (into, due) = (at("2025-03-03T18:00:00Z"), at("2025-03-05T18:00:00Z"));
        assert_eq!(Schedule::new(due, into, None).unwrap_err().field(), "due");
        assert_eq!(Schedule::new(into, into, None).unwrap_err().field(), "due");
        assert_eq!(
            Schedule::new(into, due, Some(SignedDuration::ZERO))
                .unwrap_err()
                .field(),
            "every"
        );
        assert!(Schedule::new(into, at("2035-03-05T18:00:00Z"), None).is_err());
    }
}
