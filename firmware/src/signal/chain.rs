//! All of the signal chain in one.

use super::filter::{Estimate, Filter, Limits};
use super::zero::Zero;
use super::{Calibration, Settings, Weight};
use crate::sensor::Counts;
use evenhand_protocol::{Fault, Mass, Refusal, Uptime};

/// A settled mean of the counts, for a calibration.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SettledCounts {
    /// The mean.
    pub mean: f64,
    /// Its standard uncertainty from noise, in counts.
    pub uncertainty: f64,
}

/// Counts in, weights out.
#[derive(Debug, Clone)]
pub struct Chain {
    settings: Settings,
    calibration: Option<Calibration>,
    limits: Limits,
    filter: Filter,
    zero: Zero,
    held: bool,
    last_at: Option<Uptime>,
    estimate: Option<Estimate>,
}

impl Chain {
    /// A gap between samples of more than this starts the mean again.
    const GAP_MILLIS: u64 = 500;

    /// A chain that has seen no sample yet.
    #[must_use]
    pub fn new(settings: Settings, calibration: Option<Calibration>) -> Self {
        let limits = limits(&settings, calibration.as_ref());
        let mut filter = Filter::new();
        filter.limit(&limits);
        Self {
            limits,
            settings,
            calibration,
            filter,
            zero: Zero::new(),
            held: false,
            last_at: None,
            estimate: None,
        }
    }

    /// The settings that it works by.
    #[must_use]
    pub const fn settings(&self) -> &Settings {
        &self.settings
    }

    /// The calibration that it works by.
    #[must_use]
    pub const fn calibration(&self) -> Option<&Calibration> {
        self.calibration.as_ref()
    }

    /// Weighs by another calibration from the next sample on. The zero begins
    /// again from the calibrated one.
    pub fn set_calibration(&mut self, calibration: Calibration) {
        self.limits = limits(&self.settings, Some(&calibration));
        self.filter.limit(&self.limits);
        self.calibration = Some(calibration);
        self.zero = Zero::new();
    }

    /// Takes one conversion.
    ///
    /// # Errors
    /// [`Fault::Uncalibrated`] without a calibration, [`Fault::Overload`] above
    /// Max + 9 e, [`Fault::NegativeLoad`] more than 2 % of Max and 1 e below
    /// zero. The chain goes on; the next sample may be good again.
    pub fn take(&mut self, at: Uptime, counts: Counts) -> Result<Weight, Fault> {
        if self
            .last_at
            .is_some_and(|last| at.since(last) > Self::GAP_MILLIS)
        {
            self.filter.restart();
        }
        self.last_at = Some(at);
        let estimate = self.filter.push(i64::from(counts.0), &self.limits);
        self.estimate = Some(estimate);
        let Some(calibration) = &self.calibration else {
            return Err(Fault::Uncalibrated);
        };
        let load = calibration.mass_of(estimate.mean - calibration.zero_counts());
        let started = estimate.stable && self.zero.start(load, &self.settings);
        if !started {
            self.zero
                .track(at, load, estimate.stable, self.held, &self.settings);
        }
        let gross = load - self.zero.offset();
        let capacity = self.settings.capacity;
        let e = self.settings.verification_interval;
        if gross > capacity + e.times(9) {
            return Err(Fault::Overload);
        }
        if gross < -(capacity.fraction(2, 100).unwrap_or(Mass::ZERO) + e) {
            return Err(Fault::NegativeLoad);
        }
        Ok(Weight {
            at,
            gross,
            stable: estimate.stable,
            noise: calibration.mass_of(estimate.uncertainty).abs(),
        })
    }

    /// The counts at the moment, where they are settled: what a calibration is
    /// made from.
    #[must_use]
    pub fn settled_counts(&self) -> Option<SettledCounts> {
        self.estimate
            .filter(|estimate| estimate.stable)
            .map(|estimate| SettledCounts {
                mean: estimate.mean,
                uncertainty: estimate.uncertainty,
            })
    }

    /// Takes the load as zero.
    ///
    /// # Errors
    /// [`Refusal::Faulty`] without a calibration, [`Refusal::NotStable`] while
    /// the load moves, [`Refusal::BeyondZeroRange`] where it is more than 2 %
    /// of Max from both the initial and the calibrated zero.
    pub fn zero(&mut self) -> Result<(), Refusal> {
        let Some(calibration) = &self.calibration else {
            return Err(Refusal::Faulty);
        };
        let Some(estimate) = self.estimate.filter(|estimate| estimate.stable) else {
            return Err(Refusal::NotStable);
        };
        let load = calibration.mass_of(estimate.mean - calibration.zero_counts());
        self.zero.set(load, &self.settings)
    }

    /// While held, the zero does not follow any drift: a dish, a tin or a
    /// portion is on the way.
    pub fn hold_zero(&mut self, held: bool) {
        self.held = held;
    }

    /// Forgets the load, after a fault or a gap. What was learnt of the noise
    /// stays.
    pub fn restart_filter(&mut self) {
        self.filter.restart();
        self.estimate = None;
    }
}

fn limits(settings: &Settings, calibration: Option<&Calibration>) -> Limits {
    let rate = u32::from(settings.rate.max(1));
    let block = settings.block().min(32);
    let samples = |millis: u16| (rate * u32::from(millis) / 1_000).clamp(4, 128) as u16;
    let counts = |mass: Mass| {
        calibration.map(|calibration| libm::fabs(calibration.counts_per_gram()) * mass.grams())
    };
    Limits {
        block,
        fewest: samples(settings.settle_millis),
        fewest_after_motion: samples(settings.settle_after_motion_millis),
        steadiness: counts(settings.steadiness),
        wander: counts(
            settings
                .interval
                .fraction(3, 10)
                .unwrap_or(settings.interval),
        ),
        rough: counts(settings.interval.times(5)),
    }
}
