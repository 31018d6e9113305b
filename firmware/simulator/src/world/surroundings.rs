//! What the kitchen does to the bench: steps on the floor, chopping, the
//! extractor, mains hum, hands that lean, bumps, warmth.

use super::force::Force;
use super::pan::Pan;
use crate::random::{Draws, Stream};
use crate::scenario;
use std::f64::consts::TAU;

/// The moving mass of the pan, and the mass at which the size of a shock is
/// stated, in grams.
const PAN_GRAMS: f64 = 100.0;
const SHAKEN_GRAMS: f64 = 500.0;

/// What happens at random, so many times a minute.
#[derive(Debug)]
struct Recurring {
    draws: Draws,
    a_second: f64,
    next: f64,
}

impl Recurring {
    fn new(seed: u64, stream: Stream, a_minute: f64) -> Self {
        let mut draws = Draws::new(seed, stream);
        let a_second = a_minute / 60.0;
        let next = draws.wait(a_second);
        Self {
            draws,
            a_second,
            next,
        }
    }

    /// Whether it is due; then the next one is drawn.
    fn due(&mut self, seconds: f64) -> bool {
        let due = seconds >= self.next;
        if due {
            self.next += self.draws.wait(self.a_second);
        }
        due
    }
}

/// The kitchen around the bench.
#[derive(Debug)]
pub(super) struct Surroundings {
    table: scenario::Surroundings,
    celsius: f64,
    warming_a_second: f64,
    hum_hertz: f64,
    hum_grams: f64,
    hum_phase: f64,
    extractor_hertz: f64,
    extractor_grams: f64,
    extractor_phase: f64,
    footfalls: Recurring,
    chopping: Recurring,
    leans: Recurring,
    bumps: Recurring,
    contacts: Recurring,
    sway_hertz: f64,
    sway_grams: f64,
    sway_phase: f64,
}

impl Surroundings {
    pub(super) fn new(table: &scenario::Surroundings, seed: u64) -> Self {
        let mut draws = Draws::new(seed, Stream::Surroundings);
        let mut contacts = Recurring::new(seed, Stream::Contacts, table.contacts_a_minute);
        Self {
            sway_hertz: table.sway_hertz.draw(&mut contacts.draws),
            sway_grams: table.sway_grams.draw(&mut contacts.draws),
            sway_phase: contacts.draws.between(0.0, TAU),
            celsius: table.celsius.draw(&mut draws),
            warming_a_second: table.warming_celsius_an_hour.draw(&mut draws) / 3600.0,
            hum_hertz: table.mains_hertz.draw(&mut draws),
            hum_grams: table.hum_grams.draw(&mut draws),
            hum_phase: draws.between(0.0, TAU),
            extractor_hertz: table.extractor_hertz.draw(&mut draws),
            extractor_grams: table.extractor_grams.draw(&mut draws),
            extractor_phase: draws.between(0.0, TAU),
            footfalls: Recurring::new(seed, Stream::Footfalls, table.footfalls_a_minute),
            chopping: Recurring::new(seed, Stream::Chopping, table.chopping_a_minute),
            leans: Recurring::new(seed, Stream::Leans, table.leans_a_minute),
            bumps: Recurring::new(seed, Stream::Bumps, table.bumps_a_minute),
            contacts,
            table: table.clone(),
        }
    }

    /// The air's temperature.
    pub(super) fn celsius(&self, seconds: f64) -> f64 {
        self.celsius + self.warming_a_second * seconds
    }

    /// The extractor's shaking and the table's sway, in grams.
    pub(super) fn shaking(&self, seconds: f64) -> f64 {
        // It swells and sinks, as two fans that are not quite in step do.
        let swell = 0.75 + 0.25 * (TAU * 0.15 * seconds).sin();
        self.extractor_grams
            * swell
            * (TAU * self.extractor_hertz * seconds + self.extractor_phase).sin()
            + self.sway_grams * (TAU * self.sway_hertz * seconds + self.sway_phase).sin()
    }

    /// The hum on the wires, as if it were grams.
    pub(super) fn hum(&self, seconds: f64) -> f64 {
        let turn = TAU * self.hum_hertz * seconds + self.hum_phase;
        let harmonics = (2.0 * turn).sin() + (3.0 * turn).sin();
        self.hum_grams * (turn.sin() + self.table.hum_harmonics * harmonics)
    }

    /// What begins by itself at a time since the work began; forces begin at
    /// `now`, the model's own time.
    pub(super) fn happen(&mut self, worked: f64, now: f64, pan: &mut Pan) {
        // A table that moves pushes by the mass that it moves; the figures are those of
        // [`SHAKEN_GRAMS`].
        let shock = if self.table.shock_grows_with_load {
            (pan.mass().grams() + PAN_GRAMS) / SHAKEN_GRAMS
        } else {
            1.0
        };
        if self.footfalls.due(worked) {
            let grams = self.table.footfall_grams.draw(&mut self.footfalls.draws) * shock;
            let lasts = self.footfalls.draws.between(1.0, 4.0);
            footfalls(now, lasts, grams, &mut self.footfalls.draws, pan);
        }
        if self.chopping.due(worked) {
            let grams = self.table.chopping_grams.draw(&mut self.chopping.draws) * shock;
            let lasts = self.chopping.draws.between(2.0, 5.0);
            chopping(now, lasts, grams, &mut self.chopping.draws, pan);
        }
        if self.leans.due(worked) {
            let draws = &mut self.leans.draws;
            let grams = self.table.lean_grams.draw(draws);
            let lasts = self.table.lean_seconds.draw(draws);
            pan.press(lean(now, lasts, grams, draws));
        }
        if self.contacts.due(worked) {
            // An apron leans on, a cable pulls: lightly, smoothly, and hardly moving.
            let draws = &mut self.contacts.draws;
            let sign = if draws.chance(0.3) { -1.0 } else { 1.0 };
            let grams = sign * self.table.contact_grams.draw(draws);
            let lasts = self.table.contact_seconds.draw(draws);
            let unrest = draws.between(0.0, 0.03);
            pan.press(Force::press(now, lasts, grams, unrest, draws));
        }
        if self.bumps.due(worked) {
            let draws = &mut self.bumps.draws;
            pan.press(bump(now, self.table.bump_grams.draw(draws), draws));
        }
    }
}

/// Somebody walks by: one to two and a half steps a second.
pub(super) fn footfalls(now: f64, lasts: f64, grams: f64, draws: &mut Draws, pan: &mut Pan) {
    strikes(now, lasts, grams, (1.0, 2.5), draws, pan);
}

/// Somebody chops on the same table: two to four cuts a second.
pub(super) fn chopping(now: f64, lasts: f64, grams: f64, draws: &mut Draws, pan: &mut Pan) {
    strikes(now, lasts, grams, (2.0, 4.0), draws, pan);
}

fn strikes(now: f64, lasts: f64, grams: f64, hertz: (f64, f64), draws: &mut Draws, pan: &mut Pan) {
    let pace = draws.between(hertz.0, hertz.1);
    let table_hertz = draws.between(8.0, 15.0);
    let mut at = now;
    while at < now + lasts {
        // A strike rings for 0.2 to 0.5 s, three time constants.
        let decay = draws.between(0.2, 0.5) / 3.0;
        let peak = grams * draws.between(0.6, 1.0);
        pan.press(Force::ring(at, peak, table_hertz, decay));
        at += draws.between(0.9, 1.1) / pace;
    }
}

/// A hand leans on the pan and is never quite still.
pub(super) fn lean(now: f64, lasts: f64, grams: f64, draws: &mut Draws) -> Force {
    let unrest = draws.between(0.03, 0.15);
    let mut hand = Force::press(now, lasts, grams, unrest, draws);
    hand.in_the_way = true;
    hand
}

/// Something knocks against the pan.
pub(super) fn bump(now: f64, grams: f64, draws: &mut Draws) -> Force {
    let sign = if draws.chance(0.3) { -1.0 } else { 1.0 };
    Force::knock(now, draws.between(0.02, 0.08), sign * grams)
}
