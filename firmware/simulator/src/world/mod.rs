//! The physical model: a cook, a kitchen, a load cell and a probe, tick by
//! tick.
//!
//! A tick is an eighth of a conversion at 80 a second. Everything that chance
//! decides comes from the seed and is drawn apart from anything the instrument
//! does: the instrument's cues make the cook act sooner or later, never
//! otherwise.

mod act;
mod cell;
mod converter;
mod cook;
mod events;
mod force;
mod hand;
mod hysteresis;
mod pan;
mod probe;
mod script;
mod surroundings;

pub use cook::Cue;

use crate::chips::{BridgeTrouble, ProbeTrouble, ProbeWord};
use crate::practice::HandMove;
use crate::random::{Draws, Stream};
use crate::scenario::{Scenario, Vessels};
use crate::truth::{TruePortion, TrueTaste};
use cell::Cell;
use converter::Converter;
use cook::Cook;
use evenhand_protocol::{Mass, Temperature};
use events::Events;
use hand::HandWork;
use pan::Pan;
use probe::Probe;
use surroundings::Surroundings;

/// How long the bench goes on after the cook is done, in seconds.
const TAIL_SECONDS: f64 = 4.0;

/// A tin that drips over the pan's edge, drop by drop.
#[derive(Debug)]
struct Drips {
    a_second: f64,
    next: f64,
    draws: Draws,
}

impl Drips {
    /// A drop, in grams.
    const DROP: f64 = 0.05;
    /// With less on the pan there is no tin.
    const TIN: f64 = 50.0;

    fn new(scenario: &Scenario, seed: u64) -> Self {
        let mut draws = Draws::new(seed, Stream::Drips);
        let grams_an_hour = match &scenario.vessels {
            Vessels::Tin(tin) => tin.drips_grams_an_hour.draw(&mut draws),
            Vessels::Dishes(_) => 0.0,
        };
        let a_second = grams_an_hour / 3_600.0 / Self::DROP;
        Self {
            a_second,
            next: draws.wait(a_second),
            draws,
        }
    }

    fn fall(&mut self, now: f64, pan: &mut Pan) {
        if now < self.next {
            return;
        }
        self.next = now + self.draws.wait(self.a_second);
        if pan.mass().grams() > Self::TIN {
            let drop = Mass::from_fractional_grams(-Self::DROP).unwrap_or(Mass::ZERO);
            pan.put(now, 0.02, drop);
        }
    }
}

/// One conversion's worth of the world.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Moment {
    /// When the conversion ends, in microseconds since the beginning.
    pub at_micros: u64,
    /// From one conversion to the next, in microseconds.
    pub period_micros: u32,
    /// What the bridge converter makes of it at gain 128, in counts.
    pub counts: i32,
    /// What ails the bridge converter.
    pub bridge: BridgeTrouble,
    /// The thermocouple converter's word.
    pub probe_word: ProbeWord,
    /// What ails the probe.
    pub probe: ProbeTrouble,
    /// Whether the link's cable is in.
    pub link_up: bool,
    /// Whether the instrument has power.
    pub powered: bool,
}

/// What a first calibration with two true masses finds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct FirstCalibration {
    /// Counts with an empty pan.
    pub zero_counts: i32,
    /// Counts with `mass` on it.
    pub span_counts: i32,
    /// The mass of the second point.
    pub mass: Mass,
    /// The temperature at which it was done.
    pub temperature: Temperature,
}

/// The world around and under the pan.
#[derive(Debug)]
pub struct World {
    ticks: u64,
    conversions: u64,
    tick_seconds: f64,
    pan: Pan,
    cell: Cell,
    converter: Converter,
    surroundings: Surroundings,
    cook: Cook,
    hand: HandWork,
    events: Events,
    probe: Probe,
    calibration: FirstCalibration,
    drips: Drips,
}

impl World {
    /// The world of a scenario, with everything that it leaves open drawn from
    /// the seed.
    #[must_use]
    pub fn new(scenario: &Scenario, seed: u64) -> Self {
        let mut draws = Draws::new(seed, Stream::Cell);
        let table = &scenario.cell;
        let resonance = table.resonance_hertz.draw(&mut draws);
        let damping = table.damping.draw(&mut draws);
        let cell = Cell::new(table, seed, &mut draws);
        let converter = Converter::new(&scenario.converter, table, seed, &mut draws);
        let tick_seconds = f64::from(converter.period_micros) / 1e6 / f64::from(converter.ticks);
        let grams = table
            .calibration_grams
            .unwrap_or(table.capacity_grams / 2.0);
        // The weight is not quite what it is taken for.
        let off = table
            .calibration_weight_ppm
            .draw(&mut Draws::new(seed, Stream::Calibration))
            / 1e6;
        let calibration = FirstCalibration {
            zero_counts: converter.calm(cell.calm(0.0)),
            span_counts: converter.calm(cell.calm(grams * (1.0 + off))),
            mass: Mass::from_fractional_grams(grams).unwrap_or(Mass::ZERO),
            temperature: Temperature::from_celsius(table.calibration_celsius)
                .unwrap_or(Temperature::ABSOLUTE_ZERO),
        };
        let surroundings = Surroundings::new(&scenario.surroundings, seed);
        Self {
            ticks: 0,
            conversions: 0,
            tick_seconds,
            pan: Pan::new(resonance, damping, table.moving_grams, tick_seconds),
            drips: Drips::new(scenario, seed),
            probe: Probe::new(scenario.probe.as_ref(), surroundings.celsius(0.0), seed),
            cell,
            converter,
            surroundings,
            cook: Cook::new(scenario, seed),
            hand: HandWork::new(seed),
            events: Events::new(&scenario.events, seed),
            calibration,
        }
    }

    /// The same without the scenario's cook: what happens is done by
    /// [`World::act`], and the bench is never over.
    #[must_use]
    pub fn by_hand(scenario: &Scenario, seed: u64) -> Self {
        Self {
            cook: Cook::absent(scenario, seed),
            ..Self::new(scenario, seed)
        }
    }

    /// A hand does this as soon as it has done what it was told before.
    pub fn act(&mut self, hand_move: HandMove) {
        self.hand.will(hand_move);
    }

    /// Goes on to the end of the next conversion, with what the instrument
    /// shows meanwhile.
    pub fn next(&mut self, cue: Cue) -> Moment {
        for _ in 0..self.converter.ticks {
            self.tick(cue);
        }
        self.conversions += 1;
        let period = f64::from(self.converter.period_micros) / 1e6;
        let now = self.seconds();
        self.cell.wander(period);
        let celsius = self.surroundings.celsius(now);
        let worked = self.cook.began_work().map_or(0.0, |began| now - began);
        Moment {
            at_micros: self.micros(),
            period_micros: self.converter.period_micros,
            counts: self.converter.convert(),
            bridge: self.events.bridge(),
            probe_word: self.probe.word(worked, celsius, period),
            probe: self.events.probe(),
            link_up: self.events.link_up(),
            powered: self.events.powered(),
        }
    }

    fn tick(&mut self, cue: Cue) {
        self.ticks += 1;
        let now = self.seconds();
        // A dead instrument shows nothing.
        let cue = if self.events.powered() {
            cue
        } else {
            Cue::default()
        };
        self.cook.work(now, self.tick_seconds, cue, &mut self.pan);
        self.hand.work(now, &mut self.pan, &mut self.probe);
        let began = self.cook.began_work();
        self.events
            .happen(now, began, self.cook.portion(), &mut self.pan);
        if let Some(began) = began {
            self.surroundings.happen(now - began, now, &mut self.pan);
            self.drips.fall(now, &mut self.pan);
        }
        let load = self.pan.load(now) + self.surroundings.shaking(now);
        let celsius = self.surroundings.celsius(now);
        let felt = self
            .cell
            .respond(load, self.pan.off_centre, celsius, self.tick_seconds);
        self.converter.take(felt + self.surroundings.hum(now), now);
    }

    /// Somebody besides the cook puts a mass on the pan, or takes it off,
    /// within so many seconds.
    pub(crate) fn put(&mut self, mass: Mass, over_seconds: f64) {
        let now = self.seconds();
        // Never within less than a tick: nothing comes on in no time.
        self.pan.put(now, over_seconds.max(self.tick_seconds), mass);
    }

    /// Whether the power is to go in one of the next writes to the flash.
    pub(crate) const fn awaits_cut_in_write(&self) -> bool {
        self.events.awaits_cut_in_write()
    }

    /// The power went in a write to the flash.
    pub(crate) fn cut_in_write(&mut self) {
        let now = self.seconds();
        self.events.cut_in_write(now);
    }

    fn seconds(&self) -> f64 {
        self.ticks as f64 * self.tick_seconds
    }

    /// What a first calibration of this scale found.
    #[must_use]
    pub const fn first_calibration(&self) -> FirstCalibration {
        self.calibration
    }

    /// Standard deviation of one conversion's noise, as a mass.
    #[must_use]
    pub fn noise(&self) -> Mass {
        Mass::from_fractional_grams(self.converter.noise_grams()).unwrap_or(Mass::MAX)
    }

    /// Everything that truly lies on the pan (or is just being put there).
    #[must_use]
    pub fn load(&self) -> Mass {
        self.pan.mass()
    }

    /// The probe's true temperature, at its tip.
    #[must_use]
    pub fn probe_tip(&self) -> Temperature {
        self.probe.tip()
    }

    /// The portions that the cook has finished, as they really are.
    #[must_use]
    pub fn truth(&self) -> &[TruePortion] {
        self.cook.truth()
    }

    /// What was tasted, and is no portion.
    #[must_use]
    pub fn tastes(&self) -> &[TrueTaste] {
        self.cook.tastes()
    }

    /// When the last conversion ended, in microseconds since the beginning.
    #[must_use]
    pub fn micros(&self) -> u64 {
        self.conversions * u64::from(self.converter.period_micros)
    }

    /// Whether the link's cable is in.
    #[must_use]
    pub fn link_is_up(&self) -> bool {
        self.events.link_up()
    }

    /// Whether the cook is done, and a little more.
    #[must_use]
    pub fn is_over(&self) -> bool {
        self.cook
            .done_at()
            .is_some_and(|done| self.seconds() >= done + TAIL_SECONDS)
    }
}
