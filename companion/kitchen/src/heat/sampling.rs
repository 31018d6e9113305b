//! Which readings of a probe are worth keeping.
//!
//! A probe is read ten times a second, and most readings say what the ones
//! before said. A reading is kept when the temperature leaves the straight line
//! that the readings since the last kept one lie along, and now and then in any
//! case, so that a gap is seen as a gap. Drawn from kept reading to kept
//! reading, a log then passes every reading that was looked at within
//! [`Sampling::within`].

use super::log::{LogError, LogPoint};
use jiff::SignedDuration;

/// The rule.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sampling {
    within: f64,
    every: SignedDuration,
    least: SignedDuration,
}

/// A rule of sampling made no sense.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum SamplingError {
    /// The departure is not from 0.05 to 20 °C.
    #[error("the departure is {0} degC, expected 0.05 to 20 degC")]
    Within(f64),
    /// The time is not from five seconds to five minutes.
    #[error("a reading would be kept every {0:#}, expected 5 s to 5 min")]
    Every(SignedDuration),
}

impl Sampling {
    /// For a kitchen: within 0.4 °C, which is more than the flicker of a
    /// quarter-degree converter, and at least once a minute.
    pub const KITCHEN: Self = Self {
        within: 0.4,
        every: SignedDuration::from_secs(60),
        least: SignedDuration::from_secs(1),
    };

    /// A rule: the line may miss a reading by so many °C, and a reading is
    /// kept at least so often. Readings less than a second apart are not looked
    /// at.
    ///
    /// # Errors
    /// [`SamplingError`] outside 0.05 to 20 °C or 5 s to 5 min.
    pub fn new(within_celsius: f64, every: SignedDuration) -> Result<Self, SamplingError> {
        if !(0.05..=20.0).contains(&within_celsius) {
            return Err(SamplingError::Within(within_celsius));
        }
        if every < SignedDuration::from_secs(5) || every > SignedDuration::from_mins(5) {
            return Err(SamplingError::Every(every));
        }
        Ok(Self {
            within: within_celsius,
            every,
            ..Self::KITCHEN
        })
    }

    /// By how much the line between kept readings may miss one, °C.
    #[must_use]
    pub const fn within(&self) -> f64 {
        self.within
    }

    /// The longest time between kept readings while the probe reads.
    #[must_use]
    pub const fn every(&self) -> SignedDuration {
        self.every
    }
}

/// A reading to keep.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Kept {
    /// The reading.
    pub point: LogPoint,
    /// Nothing was read just before it: no line leads to it.
    pub after_gap: bool,
}

/// Picks the readings to keep, one probe's, in order of time.
#[derive(Debug, Clone, PartialEq)]
pub struct Sampler {
    rule: Sampling,
    kept: Option<LogPoint>,
    held: Option<LogPoint>,
    /// The slopes, °C a second, of lines from the kept reading that miss none
    /// since by more than the rule allows.
    slopes: (f64, f64),
    gap: bool,
}

impl Sampler {
    /// Begins with nothing.
    #[must_use]
    pub const fn new(rule: Sampling) -> Self {
        Self {
            rule,
            kept: None,
            held: None,
            slopes: (f64::NEG_INFINITY, f64::INFINITY),
            gap: false,
        }
    }

    /// Goes on after a restart: `last` is the last reading on record.
    #[must_use]
    pub const fn after(rule: Sampling, last: Option<LogPoint>) -> Self {
        let mut sampler = Self::new(rule);
        sampler.kept = last;
        sampler
    }

    /// The latest reading looked at, kept or not.
    #[must_use]
    pub fn latest(&self) -> Option<LogPoint> {
        self.held.or(self.kept)
    }

    /// Takes in a reading; returns those to keep now, at most two: the last
    /// before a silence and the first after it.
    ///
    /// # Errors
    /// [`LogError::Backward`] for a reading older than one before it; it is
    /// left aside.
    pub fn take(&mut self, point: LogPoint) -> Result<Vec<Kept>, LogError> {
        let Some(kept) = self.kept else {
            return Ok(vec![self.keep(point)]);
        };
        let latest = self.latest().unwrap_or(kept);
        if point.at < latest.at {
            return Err(LogError::Backward {
                at: point.at,
                before: latest.at,
            });
        }
        let since = point.at.duration_since(latest.at);
        if since < self.rule.least {
            return Ok(Vec::new());
        }
        if self.gap || since > self.rule.every + self.rule.every {
            let mut keep: Vec<Kept> = self.break_off().into_iter().collect();
            self.gap = true;
            keep.push(self.keep(point));
            return Ok(keep);
        }
        let length = point.at.duration_since(kept.at);
        let slope = slope(kept, point, 0.0);
        let on_line = (self.slopes.0..=self.slopes.1).contains(&slope);
        if on_line && length <= self.rule.every {
            self.hold(kept, point);
            return Ok(Vec::new());
        }
        let Some(corner) = self.held.take() else {
            return Ok(vec![self.keep(point)]);
        };
        let keep = self.keep(corner);
        self.hold(corner, point);
        Ok(vec![keep])
    }

    /// The probe reads nothing: the next reading follows a gap. Returns the
    /// last one before it, where it was not kept yet. Also for the end of a
    /// log.
    pub fn break_off(&mut self) -> Option<Kept> {
        let last = self.held.take().map(|held| self.keep(held));
        self.gap = self.kept.is_some();
        last
    }

    fn keep(&mut self, point: LogPoint) -> Kept {
        self.kept = Some(point);
        self.held = None;
        self.slopes = (f64::NEG_INFINITY, f64::INFINITY);
        Kept {
            point,
            after_gap: std::mem::take(&mut self.gap),
        }
    }

    fn hold(&mut self, kept: LogPoint, point: LogPoint) {
        let (low, high) = self.slopes;
        self.slopes = (
            low.max(slope(kept, point, -self.rule.within)),
            high.min(slope(kept, point, self.rule.within)),
        );
        self.held = Some(point);
    }
}

/// °C a second from one reading to another moved by so much.
fn slope(from: LogPoint, to: LogPoint, moved: f64) -> f64 {
    let seconds = to.at.duration_since(from.at).as_secs_f64();
    (to.temperature.celsius() + moved - from.temperature.celsius()) / seconds
}
