//! A named log of one probe.

use crate::probe::{Probe, ProbeDoubt};
use evenhand_protocol::Temperature;
use jiff::{SignedDuration, Timestamp};
use std::collections::BTreeSet;

/// One reading.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct LogPoint {
    /// When.
    pub at: Timestamp,
    /// How hot.
    pub temperature: Temperature,
}

/// A word put at a moment: "fire out", "loaded".
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Marker {
    /// When.
    pub at: Timestamp,
    /// What.
    pub text: String,
}

/// A stretch without readings, longer than the log allows for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Gap {
    /// The last reading before it.
    pub from: Timestamp,
    /// The first after it.
    pub to: Timestamp,
}

/// Why a reading was not taken into a log.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum LogError {
    /// It is older than the one before it.
    #[error("the time {at} goes back behind {before}: expected times that only go on")]
    Backward {
        /// Its time.
        at: Timestamp,
        /// The one before.
        before: Timestamp,
    },
    /// It has the time of the one before and another temperature.
    #[error("the time {at} stands twice with different temperatures")]
    Twice {
        /// The time.
        at: Timestamp,
    },
    /// No kitchen probe can have read this.
    #[error("{celsius} degC at {at} is outside -100 to 1400 degC, which no kitchen probe reads")]
    Absurd {
        /// Its time.
        at: Timestamp,
        /// Its value.
        celsius: String,
    },
}

impl LogError {
    /// A name for it that does not change.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::Backward { .. } => "backward",
            Self::Twice { .. } => "twice",
            Self::Absurd { .. } => "absurd",
        }
    }
}

/// Readings of one probe, in order of time, with gaps that stay gaps.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct HeatLog {
    /// What was measured: "oven", "pan of stock".
    pub name: String,
    /// The longest step between readings that still counts as unbroken.
    pub longest_step: SignedDuration,
    points: Vec<LogPoint>,
    /// Readings that nothing leads to: the probe read nothing before them.
    breaks: BTreeSet<Timestamp>,
    broken: bool,
    /// Words at moments.
    pub markers: Vec<Marker>,
    /// How far the probe may be out, where that is known.
    pub doubt: Option<ProbeDoubt>,
}

impl HeatLog {
    /// The longest unbroken step unless another is set: ten minutes.
    pub const USUAL_STEP: SignedDuration = SignedDuration::from_mins(10);

    /// An empty log.
    #[must_use]
    pub fn new(name: impl Into<String>) -> Self {
        Self {
            name: name.into(),
            longest_step: Self::USUAL_STEP,
            points: Vec::new(),
            breaks: BTreeSet::new(),
            broken: false,
            markers: Vec::new(),
            doubt: None,
        }
    }

    /// Adds a reading. The same reading again is taken once.
    ///
    /// # Errors
    /// [`LogError`]: the reading is not added.
    pub fn push(&mut self, point: LogPoint) -> Result<(), LogError> {
        let celsius = point.temperature.celsius();
        if !(-100.0..=1400.0).contains(&celsius) {
            return Err(LogError::Absurd {
                at: point.at,
                celsius: celsius.to_string(),
            });
        }
        if let Some(last) = self.points.last() {
            if point == *last {
                return Ok(());
            }
            if point.at == last.at {
                return Err(LogError::Twice { at: point.at });
            }
            if point.at < last.at {
                return Err(LogError::Backward {
                    at: point.at,
                    before: last.at,
                });
            }
        }
        if std::mem::take(&mut self.broken) && !self.points.is_empty() {
            self.breaks.insert(point.at);
        }
        self.points.push(point);
        Ok(())
    }

    /// Takes a probe's own uncertainty into what is judged: a chain's where it
    /// is the largest over the readings.
    pub fn doubted_by(&mut self, probe: Option<Probe>) {
        let farthest = self
            .points
            .iter()
            .map(|p| p.temperature)
            .max_by_key(|t| t.millicelsius().unsigned_abs())
            .unwrap_or(Temperature::from_millicelsius(0));
        // A chain was checked when it was read.
        self.doubt = probe.and_then(|probe| probe.doubt(farthest).ok());
    }

    /// Nothing was read here: a gap lies before the next reading, however
    /// short.
    pub const fn break_here(&mut self) {
        self.broken = true;
    }

    /// Whether a gap lies just before a reading though it may be a short one.
    #[must_use]
    pub fn follows_break(&self, point: &LogPoint) -> bool {
        self.breaks.contains(&point.at)
    }

    /// The part of the log from one moment up to, but without, another, with
    /// its gaps and markers.
    #[must_use]
    pub fn between(&self, from: Timestamp, to: Timestamp) -> Self {
        let within = |at: Timestamp| at >= from && at < to;
        Self {
            name: self.name.clone(),
            longest_step: self.longest_step,
            doubt: self.doubt,
            points: self
                .points
                .iter()
                .filter(|p| within(p.at))
                .copied()
                .collect(),
            breaks: self
                .breaks
                .iter()
                .filter(|at| within(**at))
                .copied()
                .collect(),
            broken: self.broken,
            markers: self
                .markers
                .iter()
                .filter(|m| within(m.at))
                .cloned()
                .collect(),
        }
    }

    /// The same with every reading off by as much, as a probe is that reads
    /// wrong. For judging only: what comes out was never measured.
    #[must_use]
    pub(super) fn shifted(&self, by: Temperature) -> Self {
        let mut log = self.clone();
        for point in &mut log.points {
            point.temperature = Temperature::from_millicelsius(
                point
                    .temperature
                    .millicelsius()
                    .saturating_add(by.millicelsius()),
            );
        }
        log
    }

    /// The readings, oldest first.
    #[must_use]
    pub fn points(&self) -> &[LogPoint] {
        &self.points
    }

    /// The gaps.
    #[must_use]
    pub fn gaps(&self) -> Vec<Gap> {
        self.steps()
            .filter(|(a, b)| self.is_gap(a, b))
            .map(|(a, b)| Gap {
                from: a.at,
                to: b.at,
            })
            .collect()
    }

    /// Each reading with the one after it.
    pub(super) fn steps(&self) -> impl Iterator<Item = (&LogPoint, &LogPoint)> {
        self.points.iter().zip(self.points.iter().skip(1))
    }

    /// Whether two neighbouring readings lie too far apart to say what was
    /// between.
    #[must_use]
    pub fn is_gap(&self, a: &LogPoint, b: &LogPoint) -> bool {
        b.at.duration_since(a.at) > self.longest_step || self.follows_break(b)
    }
}
