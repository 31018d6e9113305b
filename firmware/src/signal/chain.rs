//! All of the signal chain in one.

use super::corrections::Corrections;
use super::drift::Drift;
use super::filter::{Estimate, Filter, Limits, Scale};
use super::gravity::Place;
use super::line::Line;
#[cfg(feature = "careful")]
use super::unrest::Unrest;
use super::zero::Zero;
use super::{Calibration, Settings, Weight};
use crate::sensor::Counts;
use evenhand_protocol::{Fault, Mass, Refusal, Temperature, Uptime};

/// Counts in, weights out.
#[derive(Debug, Clone)]
pub struct Chain {
    settings: Settings,
    calibration: Option<Calibration>,
    limits: Limits,
    filter: Filter,
    zero: Zero,
    drift: Drift,
    pub(super) corrections: Corrections,
    /// The calibration in whole numbers.
    line: Option<Line>,
    /// The load from the calibrated zero, corrected.
    load: Mass,
    /// The load of one count.
    count: Mass,
    /// Max + 9 e, above which nothing is shown.
    most: Mass,
    /// -(2 % of Max + 1 e), below which something is wrong.
    least: Mass,
    held: bool,
    last_at: Option<Uptime>,
    pub(super) estimate: Option<Estimate>,
    #[cfg(feature = "careful")]
    unrest: Unrest,
}

impl Chain {
    /// A gap between samples of more than this starts the mean again.
    const GAP_MILLIS: u64 = 500;

    /// A chain that has seen no sample yet.
    #[must_use]
    // Out of line: 132 bytes less of the emulated board's flash.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub fn new(settings: Settings, calibration: Option<Calibration>) -> Self {
        let line = calibration.as_ref().map(Calibration::in_whole_numbers);
        let limits = limits(&settings, line.as_ref());
        Self {
            most: settings.capacity + settings.verification_interval.times(9),
            least: -(settings.part_of_capacity(2) + settings.verification_interval),
            count: count(line.as_ref()),
            line,
            limits,
            settings,
            calibration,
            filter: Filter::new(&limits),
            zero: Zero::new(&settings),
            drift: Drift::new(),
            corrections: Corrections::NONE,
            load: Mass::ZERO,
            held: false,
            last_at: None,
            estimate: None,
            #[cfg(feature = "careful")]
            unrest: Unrest::new(),
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
        let line = calibration.in_whole_numbers();
        self.limits = limits(&self.settings, Some(&line));
        self.filter.limit(&self.limits);
        self.count = count(Some(&line));
        self.line = Some(line);
        self.corrections.calibrated(&calibration);
        self.calibration = Some(calibration);
        self.zero = Zero::new(&self.settings);
        self.drift = Drift::new();
    }

    /// Sets where the scale stands. With a calibration that knows where it
    /// was made, the difference of gravity is taken off. Without the feature
    /// `calibration` none knows it.
    pub fn set_place(&mut self, place: Option<Place>) {
        self.corrections.set_place(place, self.calibration.as_ref());
    }

    /// Tells the bridge's temperature; `None` where it is not known. It
    /// matters only with a compensation and a calibration that knows its own
    /// temperature, and so with the feature `calibration`.
    pub fn set_bridge_temperature(&mut self, temperature: Option<Temperature>) {
        self.corrections.set_temperature(temperature);
    }

    /// Takes one conversion.
    ///
    /// # Errors
    /// [`Fault::Uncalibrated`] without a calibration, [`Fault::Overload`] above
    /// Max + 9 e, [`Fault::NegativeLoad`] more than 2 % of Max and 1 e below
    /// zero. The chain goes on; the next sample may be good again.
    // Out of line: 44 bytes less of the emulated board's flash.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub fn take(&mut self, at: Uptime, counts: Counts) -> Result<Weight, Fault> {
        let elapsed = self.last_at.map_or(0, |last| at.since(last));
        if elapsed > Self::GAP_MILLIS {
            self.restart_filter();
        }
        self.last_at = Some(at);
        let estimate = self.filter.push(counts.0, &self.limits);
        #[cfg(feature = "careful")]
        let estimate = self.unrest.take(counts.0, estimate, &self.limits);
        self.estimate = Some(estimate);
        let Some(line) = &self.line else {
            return Err(Fault::Uncalibrated);
        };
        let load = line.mass_of(estimate.mean);
        let load = self
            .corrections
            .correct(load, self.calibration.as_ref(), elapsed);
        self.load = load;
        let started = estimate.stable && self.zero.start(load, self.held, &self.settings);
        if !started {
            self.zero
                .track(at, load, estimate.stable, self.held, &self.settings);
        }
        let gross = load - self.zero.offset();
        self.drift.take(at, gross, estimate.stable, &self.settings);
        if gross > self.most {
            return Err(Fault::Overload);
        }
        if gross < self.least {
            return Err(Fault::NegativeLoad);
        }
        Ok(Weight {
            at,
            gross,
            stable: estimate.stable,
            noise: Line::mass_of_parts(estimate.uncertainty, self.count),
            calm: estimate.calm,
        })
    }

    /// Takes the load as zero.
    ///
    /// # Errors
    /// [`Refusal::Faulty`] without a calibration, [`Refusal::NotStable`] while
    /// the load moves, [`Refusal::BeyondZeroRange`] where it is more than 2 %
    /// of Max from both the initial and the calibrated zero.
    pub fn zero(&mut self) -> Result<(), Refusal> {
        if self.calibration.is_none() {
            return Err(Refusal::Faulty);
        }
        if !self.estimate.is_some_and(|estimate| estimate.stable) {
            return Err(Refusal::NotStable);
        }
        self.zero.set(self.load)
    }

    /// Where the zero is now, from the calibrated zero. It changes when the
    /// zero is set, at start or on demand, and creeps while it is tracked;
    /// whoever remembers a gross load must shift it by the change.
    #[must_use]
    pub const fn zero_offset(&self) -> Mass {
        self.zero.offset()
    }

    /// Begins from a zero that was known before: how far it was from the
    /// calibrated zero. One that is further than the zero may be set is not
    /// believed. The empty pan at start goes before it.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub fn begin_at_zero(&mut self, offset: Mass) {
        self.zero.begin_at(offset);
    }

    /// Whether the empty pan has wandered further than the zero may follow it
    /// (OIML R 76-1, 4.5.1: 4 % of Max in all).
    #[must_use]
    // Out of line: 28 bytes less of the emulated board's flash.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub const fn zero_is_out(&self) -> bool {
        self.zero.is_out()
    }

    /// Whether the scale's own noise is so large that no reading will be stable.
    #[must_use]
    // Out of line: 48 bytes less of the emulated board's flash.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub fn is_too_noisy(&self) -> bool {
        self.filter.is_too_noisy(&self.limits)
    }

    /// How far the resting load has drifted since the start: the sum of all
    /// changes that were too slow to be food (creep, warmth, drying). The
    /// difference of two gross loads less the difference of two drifts is what
    /// was put on or taken off.
    #[must_use]
    pub const fn drift(&self) -> Mass {
        self.drift.drifted()
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
        #[cfg(feature = "careful")]
        self.unrest.restart();
        self.estimate = None;
    }
}

fn limits(settings: &Settings, line: Option<&Line>) -> Limits {
    let rate = u32::from(settings.rate.max(1));
    let block = settings.block().min(32);
    let samples = |millis: u16| (rate.saturating_mul(millis.into()) / 1_000).clamp(4, 128) as u16;
    let scale = line.map(|line| {
        let interval = settings.interval;
        // Three tenths of an interval over the time that it takes to be called stable.
        let wander = interval.fraction(3, 10).unwrap_or(interval);
        Scale::new(
            line.parts_of(settings.steadiness),
            line.parts_of(wander),
            line.parts_of(interval.times(5)),
            line.parts_of(interval.fraction(1, 4).unwrap_or(interval)),
        )
    });
    Limits {
        block,
        fewest: samples(settings.settle_millis),
        fewest_after_motion: samples(settings.settle_after_motion_millis),
        scale,
    }
}

fn count(line: Option<&Line>) -> Mass {
    line.map_or(Mass::ZERO, Line::mass_of_one_count)
}
