//! What lies on the pan, what presses on it, and how it rings.

use super::force::{Force, smooth};
use evenhand_protocol::Mass;
use std::f64::consts::TAU;

/// A mass that comes on or goes off within a moment.
#[derive(Debug, Clone)]
struct Change {
    from: f64,
    over: f64,
    mass: Mass,
}

/// The pan.
#[derive(Debug)]
pub(super) struct Pan {
    resting: Mass,
    changes: Vec<Change>,
    forces: Vec<Force>,
    ringing: Ringing,
    empty: f64,
    damping: f64,
    moving: Option<f64>,
    slowed: f64,
    tick: f64,
    /// How far off the centre the load stands, from 0 to 1.
    pub(super) off_centre: f64,
}

impl Pan {
    /// A pan that rings at so many hertz when it is empty; `moving` is its own
    /// mass in grams, where the load on it slows it down.
    pub(super) fn new(resonance_hertz: f64, damping: f64, moving: Option<f64>, tick: f64) -> Self {
        Self {
            resting: Mass::ZERO,
            changes: Vec::new(),
            forces: Vec::new(),
            ringing: Ringing::new(resonance_hertz, damping, tick),
            empty: resonance_hertz,
            damping,
            moving,
            slowed: 1.0,
            tick,
            off_centre: 0.0,
        }
    }

    /// A mass comes on (or, negative, goes off) from a time within so many
    /// seconds.
    pub(super) fn put(&mut self, from: f64, over: f64, mass: Mass) {
        self.changes.push(Change { from, over, mass });
    }

    /// Something presses.
    pub(super) fn press(&mut self, force: Force) {
        self.forces.push(force);
    }

    /// Whether somebody's hand is in the cook's way.
    pub(super) fn is_leaned_on(&self) -> bool {
        self.forces.iter().any(|force| force.in_the_way)
    }

    /// Everything that lies on it once every change is over.
    pub(super) fn mass(&self) -> Mass {
        self.resting + self.changes.iter().map(|change| change.mass).sum()
    }

    /// What the load cell feels at a time, in grams; to be called tick by tick.
    pub(super) fn load(&mut self, seconds: f64) -> f64 {
        self.changes.retain(|change| {
            let over = seconds >= change.from + change.over;
            if over {
                self.resting += change.mass;
            }
            !over
        });
        self.forces.retain(|force| !force.is_over(seconds));
        let coming: f64 = self
            .changes
            .iter()
            .map(|change| change.mass.grams() * smooth((seconds - change.from) / change.over))
            .sum();
        self.slow_down(self.resting.grams() + coming);
        let pressing: f64 = self.forces.iter().map(|force| force.at(seconds)).sum();
        self.ringing.step(self.resting.grams() + coming + pressing)
    }
}

impl Pan {
    /// A heavier load on the same spring rings more slowly: by the root of the
    /// mass.
    fn slow_down(&mut self, load: f64) {
        let Some(moving) = self.moving else { return };
        let slowed = (moving / (moving + load.max(0.0))).sqrt();
        if (slowed / self.slowed - 1.0).abs() > 0.01 {
            self.slowed = slowed;
            let now = Ringing::new(self.empty * slowed, self.damping, self.tick);
            self.ringing.matrix = now.matrix;
        }
    }
}

/// A mass on a spring: the pan on the load cell's beam. Solved exactly for a
/// load that is constant over one tick.
#[derive(Debug)]
struct Ringing {
    position: f64,
    speed: f64,
    matrix: [[f64; 2]; 2],
}

impl Ringing {
    fn new(hertz: f64, damping: f64, tick: f64) -> Self {
        let natural = TAU * hertz;
        let decay = damping * natural;
        let damped = natural * (1.0 - damping * damping).sqrt();
        let shrink = (-decay * tick).exp();
        let (sin, cos) = (damped * tick).sin_cos();
        Self {
            position: 0.0,
            speed: 0.0,
            matrix: [
                [shrink * (cos + decay / damped * sin), shrink * sin / damped],
                [
                    -shrink * natural * natural / damped * sin,
                    shrink * (cos - decay / damped * sin),
                ],
            ],
        }
    }

    fn step(&mut self, load: f64) -> f64 {
        let [[a, b], [c, d]] = self.matrix;
        let away = self.position - load;
        let position = load + a * away + b * self.speed;
        self.speed = c * away + d * self.speed;
        self.position = position;
        position
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const TICK: f64 = 1.0 / 640.0;

    #[test]
    fn a_load_rings_about_its_mass_and_comes_to_rest_on_it() {
        let mut pan = Pan::new(30.0, 0.03, None, TICK);
        pan.put(0.0, TICK, Mass::from_grams(100));
        let loads: Vec<f64> = (0..1920).map(|n| pan.load(f64::from(n) * TICK)).collect();
        let highest = loads.iter().copied().fold(0.0, f64::max);
        // A step on a lightly damped spring overshoots by exp(-pi z / sqrt(1 - z2)).
        let overshoot = 100.0 * (1.0 + (-std::f64::consts::PI * 0.03_f64).exp());
        assert!((highest - overshoot).abs() < 2.0, "{highest} {overshoot}");
        assert!((loads[1919] - 100.0).abs() < 1e-3);
        assert_eq!(pan.mass(), Mass::from_grams(100));
    }

    #[test]
    fn masses_add_up_to_the_last_microgram() {
        let mut pan = Pan::new(40.0, 0.05, None, TICK);
        for n in 0..300 {
            pan.put(f64::from(n) * 0.01, 0.1, Mass::from_micrograms(1_234_567));
            pan.put(f64::from(n) * 0.01, 0.2, Mass::from_micrograms(-1_234_566));
        }
        for n in 0..4_000 {
            pan.load(f64::from(n) * TICK);
        }
        assert_eq!(pan.mass(), Mass::from_micrograms(300));
        assert_eq!(pan.resting, Mass::from_micrograms(300));
    }
}
