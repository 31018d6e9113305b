//! The second set of worlds that the figures of the forecast were chosen on.
//! Cores are solved by finite differences with any Biot number,
//! ice melts from the face inward, ovens have bricks; ranges, noise and sampling
//! differ from those of [`tuning`](super::tuning).

use super::{Draw, Probe, Truth, World};

/// Seeds of these worlds.
pub const SEEDS: std::ops::Range<u64> = 100_000..100_080;

families!();

fn world(draw: &mut Draw, truth: Truth, level: f64, around: f64, give: f64) -> World {
    let told = around + give * draw.normal();
    World {
        truth,
        probe: probe(draw),
        level,
        told: (draw.unit() < 0.5).then_some((told, give)),
        events: Vec::new(),
        earlier: Vec::new(),
    }
}

fn probe(draw: &mut Draw) -> Probe {
    Probe {
        every: draw.one_of(&[0.25, 0.75, 1.5, 3.0]),
        noise: draw.scale(0.05, 0.4),
        step: draw.one_of(&[0.0, 0.0625, 0.1, 0.5]),
    }
}

fn one(draw: &mut Draw) -> World {
    let (from, around) = (draw.between(45.0, 99.0), draw.between(0.0, 28.0));
    let tau = draw.scale(40.0, 220.0);
    let level = around + (from - around) * draw.between(0.15, 0.55);
    let truth = Truth::of(0.1, 4.0 * tau, |t| {
        around + (from - around) * (-t / tau).exp()
    });
    world(draw, truth, level, around, 2.0)
}

/// A pot with a heavy bottom: two lumps.
fn two(draw: &mut Draw) -> World {
    let (from, around) = (draw.between(70.0, 260.0), draw.between(15.0, 30.0));
    let tau = draw.scale(50.0, 200.0);
    let (mass, link) = (draw.between(0.3, 3.0), draw.between(0.5, 3.0));
    let level = around + (from - around) * draw.between(0.2, 0.55);
    let truth = Truth::stepped(0.1, 12.0 * tau, [from, from], |_, [face, deep]| {
        let flow = link * (deep - face);
        [(flow - (face - around)) / tau, -flow / mass / tau]
    });
    world(draw, truth, level, around, 2.0)
}

/// A compressor between two temperatures of the air.
fn cycling(draw: &mut Draw) -> World {
    let (from, mean) = (draw.between(55.0, 80.0), draw.between(2.0, 5.0));
    let (tau, swing) = (draw.scale(50.0, 160.0), draw.between(1.0, 3.5));
    let (period, duty) = (draw.between(15.0, 50.0), draw.between(0.3, 0.6));
    let level = mean + (from - mean) * draw.between(0.15, 0.5);
    let truth = Truth::stepped(0.1, 5.0 * tau, [from], |t, [c]| {
        let on = (t / period).fract() < duty;
        let air = mean
            + if on {
                -swing * (1.0 - duty)
            } else {
                swing * duty
            };
        [(air - c) / tau]
    });
    world(draw, truth, level, mean, 1.5)
}

/// Evaporation by the difference of the vapour pressures (Antoine's equation
/// for water), beside convection and radiation.
fn evaporating(draw: &mut Draw) -> World {
    let pressure = |c: f64| 10_f64.powf(8.071 - 1730.6 / (233.4 + c));
    let (from, around) = (draw.between(80.0, 98.0), draw.between(18.0, 30.0));
    let (tau, wet) = (draw.scale(80.0, 300.0), draw.between(0.05, 0.2));
    let level = draw.between(around + 14.0, 55.0);
    let truth = Truth::stepped(0.1, 6.0 * tau, [from], |_, [c]| {
        let lost = wet * (pressure(*c) - 0.4 * pressure(around));
        let hot = (c + 273.15).powi(4) - (around + 273.15).powi(4);
        [(around - c - lost - 3e-9 * hot) / tau]
    });
    world(draw, truth, level, around, 2.0)
}

/// Cells from the middle to the face; `shape` 0 for a plate, 1 for a cylinder.
const CELLS: usize = 16;

/// Explicit finite differences of the conduction equation in a plate or a
/// cylinder of half width 1, `minutes` to a Fourier number of 1, with a surface
/// that takes heat at a Biot number.
fn core(shape: i32, from: f64, around: f64, biot: f64, minutes: f64, length: f64) -> Truth {
    let cells = CELLS as f64;
    let step = (0.2 / (cells * cells) * minutes).min(0.25);
    let inner = |i: usize| (i as f64 / cells).powi(shape);
    Truth::stepped(step, length, [from; CELLS], |_, c| {
        let mut change = [0.0; CELLS];
        for i in 0..CELLS {
            let middle = ((i as f64 + 0.5) / cells).powi(shape);
            let inward = if i == 0 {
                0.0
            } else {
                inner(i) * (c[i - 1] - c[i])
            };
            let outward = if i + 1 == CELLS {
                (around - c[i]) / (0.5 + cells / biot) * inner(CELLS) / 1.0
            } else {
                inner(i + 1) * (c[i + 1] - c[i])
            };
            change[i] = (inward + outward) / middle * cells * cells / minutes;
        }
        change
    })
}

fn oven_core(draw: &mut Draw, shape: i32) -> World {
    let (from, oven) = (draw.between(3.0, 18.0), draw.between(90.0, 180.0));
    let (biot, minutes) = (draw.scale(0.8, 15.0), draw.scale(150.0, 600.0));
    let level = draw.between(52.0, 74.0);
    let truth = core(shape, from, oven, biot, minutes, 2.0 * minutes);
    world(draw, truth, level, oven, 5.0)
}

fn slab(draw: &mut Draw) -> World {
    oven_core(draw, 0)
}

fn cylinder(draw: &mut Draw) -> World {
    oven_core(draw, 1)
}

/// The core of something that melts from the face inward: its plateau ends when
/// the front arrives.
fn thawing(draw: &mut Draw) -> World {
    let (from, around) = (draw.between(-20.0, -12.0), draw.between(2.0, 22.0));
    let (tau, plateau) = (draw.scale(25.0, 90.0), draw.scale(60.0, 400.0));
    let level = around * draw.between(0.4, 0.7);
    let truth = Truth::of(0.25, 6.0 * tau + plateau + 6.0 * tau, |t| {
        let frozen = -1.2 + (from + 1.2) * (-t / tau).exp();
        let end = 3.0 * tau + plateau;
        if t < end {
            frozen + 0.3 * t / end
        } else {
            let at = -1.2 + (from + 1.2) * (-end / tau).exp() + 0.3;
            around + (at - around) * (-(t - end) / tau / 1.5).exp()
        }
    });
    world(draw, truth, level, around, 2.0)
}

/// A wet surface at the wet bulb that dries as its water goes.
fn stalling(draw: &mut Draw) -> World {
    let (oven, wet) = (draw.between(100.0, 125.0), draw.between(60.0, 70.0));
    let (tau, water) = (draw.scale(50.0, 120.0), draw.between(90.0, 160.0));
    let level = draw.between(84.0, 94.0);
    let truth = Truth::stepped(
        0.25,
        20.0 * tau,
        [6.0, 6.0, water],
        |_, [core, face, left]| {
            let dry = 1.0 - (left / water * 3.0).clamp(0.0, 1.0);
            let around = wet + (oven - wet) * dry;
            [
                1.5 * (face - core) / tau,
                (2.5 * (around - face) + 0.5 * (core - face)) / tau,
                -(oven - wet) * (1.0 - dry) / tau,
            ]
        },
    );
    world(draw, truth, level, oven, 4.0)
}

/// The core in an oven whose door is opened three times.
fn door(draw: &mut Draw) -> World {
    let (oven, tau) = (draw.between(140.0, 220.0), draw.scale(25.0, 80.0));
    let level = draw.between(58.0, 75.0);
    let opened = [0.15, 0.3, 0.45].map(|at| at * tau * draw.between(0.8, 1.2));
    let length = draw.between(1.0, 4.0);
    let truth = Truth::stepped(0.05, 8.0 * tau, [8.0, oven], |t, [core, air]| {
        let open = opened.iter().any(|at| t >= *at && t < at + length);
        let toward = if open { 60.0 } else { oven };
        [(air - core) / tau, (toward - air) / 2.5]
    });
    World {
        events: opened.to_vec(),
        ..world(draw, truth, level, oven, 5.0)
    }
}

/// Bricks under a fire that is raked out: three lumps.
fn raked(draw: &mut Draw) -> World {
    let at = draw.between(15.0, 45.0);
    let fire = draw.between(310.0, 360.0);
    let (fast, slow) = (draw.scale(10.0, 25.0), draw.scale(40.0, 90.0));
    let (mass, room) = (draw.between(3.0, 7.0), draw.between(18.0, 34.0));
    let level = draw.between(200.0, 220.0);
    let state = [fire, fire * 0.85, fire * 0.75];
    let truth = Truth::stepped(0.1, 1500.0, state, |t, [air, face, deep]| {
        let heat = if t < at { (fire - air) / 3.0 } else { 0.0 };
        [
            heat + (face - air) / fast - 0.1 * (air - room) / fast,
            (air - face) / slow + (deep - face) / slow - 0.05 * (face - room) / slow,
            (face - deep) / slow / mass,
        ]
    });
    World {
        events: vec![at],
        ..world(draw, truth, level, room, 5.0)
    }
}

/// Something is done at a moment to a pot of two lumps: other surroundings,
/// another speed.
fn turned(draw: &mut Draw, around: (f64, f64), quicker: f64, told: f64) -> World {
    let (from, tau) = (draw.between(65.0, 92.0), draw.scale(70.0, 220.0));
    let at = tau * draw.between(0.12, 0.4);
    let truth = Truth::stepped(
        0.1,
        at + 8.0 * tau * quicker.recip().max(1.0),
        [from, from],
        |t, [c, wall]| {
            let (toward, speed) = if t < at {
                (around.0, 1.0)
            } else {
                (around.1, quicker)
            };
            [
                3.0 * (wall - c) / tau,
                8.0 * (c - wall) / tau + 5.0 * speed * (toward - wall) / tau,
            ]
        },
    );
    let there = truth.at(at);
    let level = around.1 + (there - around.1) * draw.between(0.2, 0.55);
    World {
        events: vec![at],
        told: Some((told + draw.normal(), 2.0)),
        ..world(draw, truth, level, around.0, 2.0)
    }
}

fn lid_off(draw: &mut Draw) -> World {
    let (room, quicker) = (draw.between(18.0, 30.0), draw.between(1.5, 3.5));
    turned(draw, (room, room), quicker, room)
}

fn lid_on(draw: &mut Draw) -> World {
    let (room, quicker) = (draw.between(18.0, 30.0), draw.between(0.3, 0.7));
    turned(draw, (room, room), quicker, room)
}

fn ice_bath(draw: &mut Draw) -> World {
    let (room, quicker) = (draw.between(18.0, 30.0), draw.between(3.0, 8.0));
    turned(draw, (room, 1.0), quicker, room)
}

fn fridge_unsaid(draw: &mut Draw) -> World {
    let (room, fridge) = (draw.between(18.0, 30.0), draw.between(1.0, 6.0));
    let quicker = draw.between(0.9, 1.6);
    turned(draw, (room, fridge), quicker, room)
}

/// Brick ovens on three mornings and a fourth that is 15 % faster or slower.
fn fourth_morning(draw: &mut Draw) -> World {
    let (slow, mass) = (draw.scale(25.0, 60.0), draw.between(3.0, 8.0));
    let (loss, room) = (draw.between(0.15, 0.35), draw.between(16.0, 36.0));
    let morning = |draw: &mut Draw, differs: f64| {
        let from = draw.between(270.0, 320.0);
        let slow = slow * differs;
        Truth::stepped(0.25, 1200.0, [from, from * 0.95], move |_, [face, deep]| {
            let hot = ((face + 273.15) / 500.0).powi(4) - ((room + 273.15) / 500.0).powi(4);
            [
                ((deep - face) - loss * (face - room) - 15.0 * hot) / slow,
                (face - deep) / slow / mass,
            ]
        })
    };
    let probe = probe(draw);
    let earlier = (0..3)
        .map(|_| {
            let differs = 1.0 + 0.02 * draw.normal();
            let truth = morning(draw, differs);
            probe.sees(&truth, draw)
        })
        .collect();
    let differs = draw.one_of(&[0.85, 1.15]);
    let truth = morning(draw, differs);
    World {
        probe,
        told: None,
        earlier,
        level: draw.between(195.0, 215.0),
        events: Vec::new(),
        truth,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    // Incropera and DeWitt, table 5.1 (from memory): a plate at Bi = 1 has a first root of 0.8603
    // and a first coefficient of 1.1191, a cylinder 1.2558 and 1.2071. At a Fourier number of 1
    // the first term is all there is.
    #[test]
    fn finite_differences_agree_with_the_series() {
        for (shape, root, coefficient) in [(0, 0.8603_f64, 1.1191), (1, 1.2558, 1.2071)] {
            let truth = core(shape, 0.0, 1.0, 1.0, 100.0, 100.0);
            let left = 1.0 - truth.at(100.0);
            let series = coefficient * (-root * root).exp();
            assert!((left / series - 1.0).abs() < 0.02, "{left} {series}");
        }
    }
}
