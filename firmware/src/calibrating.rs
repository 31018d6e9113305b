//! A calibration under way, and what is told of it and of a test.

use crate::signal::calibration::CalibrationError;
use crate::signal::chain::SettledCounts;
use crate::signal::uncertainty::COVERAGE_FACTOR;
use crate::signal::{Calibration, KnownLoad, Point};
use evenhand_protocol::{
    Calibrating, CalibrationMade, KnownWeight, Mass, PointTaken, Refusal, Report, SelfTest,
    SelfTestRefusal, Uptime,
};
use heapless::Vec;

/// How a calibration stands is told so often while it goes on.
const TELL_MS: u64 = 500;
/// And for so long after its end.
const AFTER_MS: u64 = 3_000;
/// A test's result is told so many times, so far apart.
const TEST_TIMES: u8 = 3;
const TEST_MS: u64 = 200;

/// The points taken so far.
#[derive(Debug, Clone)]
pub(crate) struct Calibrator {
    points: Vec<Point, { Calibration::MOST_POINTS }>,
    made: Option<CalibrationMade>,
    changed: Uptime,
    told: Option<Uptime>,
}

impl Calibrator {
    pub(crate) const fn new(now: Uptime) -> Self {
        Self {
            points: Vec::new(),
            made: None,
            changed: now,
            told: None,
        }
    }

    /// Takes a point, where the load has settled.
    pub(crate) fn take(
        &mut self,
        now: Uptime,
        known: KnownWeight,
        capacity: Mass,
        settled: Option<SettledCounts>,
    ) -> Result<(), Refusal> {
        if self.made.is_some() {
            return Err(Refusal::NotCalibrating);
        }
        if known.mass.is_negative() || known.limit.is_negative() {
            return Err(Refusal::Calibration(CalibrationError::NegativeLoad));
        }
        if known.mass > capacity {
            return Err(Refusal::Test(SelfTestRefusal::TooHeavy));
        }
        let settled = settled.ok_or(Refusal::NotStable)?;
        let point = Point::measured(&KnownLoad::within(known.mass, known.limit), settled);
        match self.points.last_mut() {
            Some(last) if last.load == point.load => *last = point,
            _ => self
                .points
                .push(point)
                .map_err(|_| Refusal::Calibration(CalibrationError::TooManyPoints))?,
        }
        self.change(now);
        Ok(())
    }

    /// The calibration that the points make.
    pub(crate) fn finish(&mut self, now: Uptime) -> Result<Calibration, Refusal> {
        if self.made.is_some() {
            return Err(Refusal::NotCalibrating);
        }
        let calibration = Calibration::from_points(&self.points).map_err(Refusal::Calibration)?;
        let heaviest = self.points.iter().map(|point| point.load).max();
        let heaviest = heaviest.unwrap_or(Mass::ZERO);
        self.made = Some(CalibrationMade {
            points: calibration.points(),
            millicounts_per_gram: thousandths(calibration.counts_per_gram()),
            heaviest,
            nonlinearity: calibration.nonlinearity(),
            residual: calibration.residual(),
            uncertainty: calibration
                .standard_uncertainty(heaviest)
                .times(COVERAGE_FACTOR),
        });
        self.change(now);
        Ok(calibration)
    }

    fn change(&mut self, now: Uptime) {
        self.changed = now;
        self.told = None;
    }

    /// What is to be told now, if anything is.
    pub(crate) fn report(&mut self, now: Uptime) -> Option<Report> {
        let due = self.told.is_none_or(|told| now.since(told) >= TELL_MS);
        due.then(|| {
            self.told = Some(now);
            Report::Calibration {
                at: self.changed,
                standing: Calibrating {
                    points: u8::try_from(self.points.len()).unwrap_or(u8::MAX),
                    last: self.points.last().map(|point| PointTaken {
                        load: point.load,
                        millicounts: thousandths(point.counts),
                        noise_millicounts: u32::try_from(thousandths(point.counts_uncertainty))
                            .unwrap_or(u32::MAX),
                    }),
                    made: self.made,
                },
            }
        })
    }

    /// Whether it is finished and was told for long enough.
    pub(crate) fn is_over(&self, now: Uptime) -> bool {
        self.made.is_some() && now.since(self.changed) > AFTER_MS
    }
}

fn thousandths(value: f64) -> i64 {
    libm::round(value * 1e3) as i64
}

/// A test's result, told a few times.
#[derive(Debug, Clone)]
pub(crate) struct Tested {
    at: Uptime,
    test: SelfTest,
    told: u8,
}

impl Tested {
    pub(crate) const fn new(at: Uptime, test: SelfTest) -> Self {
        Self { at, test, told: 0 }
    }

    /// What is to be told now, if anything is.
    pub(crate) fn report(&mut self, now: Uptime) -> Option<Report> {
        let due = self.told < TEST_TIMES && now.since(self.at) >= u64::from(self.told) * TEST_MS;
        due.then(|| {
            self.told += 1;
            Report::Tested {
                at: self.at,
                test: self.test,
            }
        })
    }
}
