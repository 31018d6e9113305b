//! A calibration under way, and what is told of it and of a test.

use super::Scale;
use crate::signal::calibration::CalibrationError;
use crate::signal::uncertainty::COVERAGE_FACTOR;
use crate::signal::{Calibration, Chain, KnownLoad, Place, Point, SettledCounts, self_test};
use evenhand_protocol::{
    Calibrating, CalibrationMade, Command, KnownWeight, Mass, PointTaken, Refusal, Report,
    SelfTest, SelfTestRefusal, Setting, Temperature, Uptime,
};
use heapless::Vec;

/// How a calibration stands is told so often while it goes on.
const TELL_MS: u64 = 500;
/// And for so long after its end.
const AFTER_MS: u64 = 3_000;
/// A test's result is told so many times, so far apart.
const TEST_TIMES: u8 = 3;
const TEST_MS: u64 = 200;

/// The calibration under way and the last test, where there are any.
#[derive(Debug, Clone)]
pub(crate) struct Calibrator {
    under_way: Option<UnderWay>,
    tested: Option<Tested>,
    /// Of the probe's converter, and so of the box and the cell in it.
    box_temperature: Option<Temperature>,
}

impl Calibrator {
    pub(crate) const fn new() -> Self {
        Self {
            under_way: None,
            tested: None,
            box_temperature: None,
        }
    }

    /// Takes the temperature of the probe's converter, which sits in the box,
    /// beside the cell.
    pub(crate) fn take_box_temperature(
        &mut self,
        temperature: Option<Temperature>,
        chain: &mut Chain,
    ) {
        self.box_temperature = temperature;
        chain.set_bridge_temperature(temperature);
    }

    /// The place that a setting tells.
    pub(crate) fn place_of(setting: Setting) -> Result<Option<Place>, Refusal> {
        match setting {
            Setting::Place {
                latitude_millidegrees,
                height_metres,
            } => Place::new(latitude_millidegrees, height_metres)
                .map(Some)
                .map_err(|_| Refusal::Setting),
            Setting::NoPlace => Ok(None),
            _ => Err(Refusal::Unknown),
        }
    }

    /// Carries a command out; gives the calibration that was finished by it,
    /// to weigh by.
    pub(crate) fn carry_out(
        &mut self,
        now: Uptime,
        command: Command,
        scale: Scale<'_>,
    ) -> Result<Option<Calibration>, Refusal> {
        match command {
            Command::BeginCalibration if scale.in_run => return Err(Refusal::Running),
            Command::BeginCalibration => self.under_way = Some(UnderWay::new(now)),
            Command::TakePoint(known) => self.under_way()?.take(
                now,
                known,
                scale.chain.settings().capacity,
                scale.chain.settled_counts(),
            )?,
            Command::FinishCalibration => {
                let mut calibration = self.under_way()?.finish(now)?;
                if let Some(temperature) = self.box_temperature {
                    calibration = calibration.at_temperature(temperature);
                }
                if let Some(place) = scale.place {
                    calibration = calibration.at_place(place);
                }
                return Ok(Some(calibration));
            }
            Command::CancelCalibration => self.give_up(),
            Command::TestWeight(known) => self.tested = Some(Tested::new(now, known, scale)?),
            _ => return Err(Refusal::Unknown),
        }
        Ok(None)
    }

    fn under_way(&mut self) -> Result<&mut UnderWay, Refusal> {
        self.under_way.as_mut().ok_or(Refusal::NotCalibrating)
    }

    /// Gives up the calibration under way.
    pub(crate) fn give_up(&mut self) {
        self.under_way = None;
    }

    /// How a calibration stands, or what a test found, where that is to be
    /// told now.
    pub(crate) fn report(&mut self, now: Uptime) -> Option<Report> {
        if self.under_way.as_ref().is_some_and(|one| one.is_over(now)) {
            self.under_way = None;
        }
        let under_way = self.under_way.as_mut();
        under_way
            .and_then(|one| one.report(now))
            .or_else(|| self.tested.as_mut().and_then(|one| one.report(now)))
    }
}

/// The points taken so far.
#[derive(Debug, Clone)]
struct UnderWay {
    points: Vec<Point, { Calibration::MOST_POINTS }>,
    made: Option<CalibrationMade>,
    changed: Uptime,
    told: Option<Uptime>,
}

impl UnderWay {
    const fn new(now: Uptime) -> Self {
        Self {
            points: Vec::new(),
            made: None,
            changed: now,
            told: None,
        }
    }

    /// Takes a point, where the load has settled.
    fn take(
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
    fn finish(&mut self, now: Uptime) -> Result<Calibration, Refusal> {
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
    fn report(&mut self, now: Uptime) -> Option<Report> {
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
    fn is_over(&self, now: Uptime) -> bool {
        self.made.is_some() && now.since(self.changed) > AFTER_MS
    }
}

fn thousandths(value: f64) -> i64 {
    libm::round(value * 1e3) as i64
}

/// A test's result, told a few times.
#[derive(Debug, Clone)]
struct Tested {
    at: Uptime,
    test: SelfTest,
    told: u8,
}

impl Tested {
    /// Compares what lies on the scale with a known weight.
    fn new(at: Uptime, known: KnownWeight, scale: Scale<'_>) -> Result<Self, Refusal> {
        if scale.in_run {
            return Err(Refusal::Running);
        }
        let weight = scale.weight.ok_or(Refusal::Faulty)?;
        let calibration = scale.chain.calibration().ok_or(Refusal::Faulty)?;
        let test = self_test::compare(
            &KnownLoad::within(known.mass, known.limit),
            &weight,
            calibration,
            scale.figures,
            scale.chain.settings(),
            scale.goal,
        )
        .map_err(Refusal::Test)?;
        Ok(Self { at, test, told: 0 })
    }

    /// What is to be told now, if anything is.
    fn report(&mut self, now: Uptime) -> Option<Report> {
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
