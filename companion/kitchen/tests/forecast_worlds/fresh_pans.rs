//! Pans that calls for action were looked at on when it was chosen how long
//! after cooling began none is made: nine kinds, each stretched in time so that
//! it keeps both cooling limits with a margin asked for, or misses one of them
//! by it.

use super::pans::Pan;
use super::{Draw, Probe, Truth};

/// Seeds of these pans.
pub const SEEDS: std::ops::Range<u64> = 900_000..900_200;

/// Minutes to spare at the limit it comes nearest to; below zero it is late.
pub const MARGINS: [f64; 8] = [-60.0, -30.0, -15.0, -5.0, 5.0, 15.0, 30.0, 50.0];

/// One kind: a name and its course in a time of its own.
pub type Kind = (&'static str, fn(&mut Draw) -> (Truth, f64));

pub const KINDS: [Kind; 9] = [
    ("one exponential", one),
    ("two lumps", two),
    ("cycling fridge", cycling),
    ("evaporating pan", evaporating),
    ("natural convection", convection),
    ("core of a thick pan", slab),
    ("lid taken off early", |d| lid(d, 1.0, 1.7)),
    ("lid put on early", |d| lid(d, 1.7, 1.0)),
    ("store warmed by the pan", loaded),
];

/// A pan of a kind that has so many minutes to spare; `None` where this one
/// never gets to 5 °C.
pub fn pan(kind: Kind, margin: f64, draw: &mut Draw) -> Option<Pan> {
    let (truth, around) = kind.1(draw);
    stretched(truth, margin).map(|truth| Pan {
        truth,
        told: (draw.unit() < 0.5).then_some((around + draw.normal(), 2.0)),
        probe: Probe {
            every: draw.one_of(&[0.5, 1.0, 2.5]),
            noise: draw.scale(0.04, 0.25),
            step: draw.one_of(&[0.0, 0.1, 0.25]),
        },
    })
}

/// The same course, faster or slower, so that the nearer of the two limits (US
/// FDA Food Code 2022, 3-501.14(A)) is met with so many minutes to spare.
pub fn stretched(mut truth: Truth, margin: f64) -> Option<Truth> {
    let began = truth.reaches(57.0)?;
    let (first, second) = (truth.reaches(21.0)? - began, truth.reaches(5.0)? - began);
    truth.step *= ((120.0 - margin) / first).min((360.0 - margin) / second);
    Some(truth)
}

const LENGTH: f64 = 1_500.0;

fn store(draw: &mut Draw) -> (f64, f64) {
    (draw.between(60.0, 90.0), draw.between(0.5, 3.7))
}

fn one(draw: &mut Draw) -> (Truth, f64) {
    let (from, air) = store(draw);
    let at = move |t: f64| air + (from - air) * (-t / 80.0).exp();
    (Truth::of(0.25, LENGTH, at), air)
}

/// A pot that a heavy bottom keeps warm, the probe in the food.
fn two(draw: &mut Draw) -> (Truth, f64) {
    let (from, air) = store(draw);
    let (link, heavy) = (draw.between(0.6, 5.0), draw.between(0.1, 0.6));
    let truth = Truth::stepped(0.1, LENGTH, [from, from], |_, [food, bottom]| {
        let flow = link * (food - bottom);
        [
            (0.4 * (air - food) - flow) / 60.0,
            (flow + 0.6 * (air - bottom)) / heavy / 60.0,
        ]
    });
    (truth, air)
}

/// A compressor that runs by the clock.
fn cycling(draw: &mut Draw) -> (Truth, f64) {
    let (from, air) = store(draw);
    let (swing, period) = (draw.between(0.5, 2.5), draw.between(12.0, 40.0));
    let truth = Truth::stepped(0.1, LENGTH, [from], |t, [c]| {
        let side = if (t / period).fract() < 0.5 {
            -1.0
        } else {
            1.0
        };
        [(air + side * swing - c) / 80.0]
    });
    (truth, air)
}

/// By the difference of vapour pressures (Magnus' equation, from memory).
fn evaporating(draw: &mut Draw) -> (Truth, f64) {
    let (from, air) = store(draw);
    let wet = draw.between(0.1, 1.0);
    let pressure = |c: f64| 0.61 * (17.6 * c / (243.0 + c)).exp();
    let truth = Truth::stepped(0.1, LENGTH, [from], |_, [c]| {
        let vapour = (pressure(*c) - 0.8 * pressure(air)).max(0.0);
        [(air - c - wet * vapour) / 80.0]
    });
    (truth, air)
}

fn convection(draw: &mut Draw) -> (Truth, f64) {
    let (from, air) = store(draw);
    let power = draw.between(1.1, 1.3);
    let truth = Truth::stepped(0.1, LENGTH, [from], |_, [c]| {
        let off = (c - air).max(0.0);
        [-30.0 * (off / 30.0).powf(power) / 80.0]
    });
    (truth, air)
}

/// The middle of a plate of eight cells (explicit finite volumes).
fn slab(draw: &mut Draw) -> (Truth, f64) {
    let (from, air) = store(draw);
    let biot = draw.scale(0.3, 4.0);
    let truth = Truth::stepped(0.2, LENGTH, [from; 8], |_, c| {
        let mut by = [0.0; 8];
        for i in 0..8 {
            let inward = if i == 0 { 0.0 } else { c[i - 1] - c[i] };
            let outward = if i == 7 {
                (air - c[7]) / (0.5 + 8.0 / biot)
            } else {
                c[i + 1] - c[i]
            };
            by[i] = (inward + outward) * 0.4;
        }
        by
    });
    (truth, air)
}

/// The pace changes while it is between 50 and 40 °C.
fn lid(draw: &mut Draw, before: f64, after: f64) -> (Truth, f64) {
    let (from, air) = store(draw);
    let at = draw.between(40.0, 50.0);
    let truth = Truth::stepped(0.1, LENGTH, [from], |_, [c]| {
        let speed = if *c > at { before } else { after };
        [speed * (air - c) / 100.0]
    });
    (truth, air)
}

fn loaded(draw: &mut Draw) -> (Truth, f64) {
    let (from, air) = store(draw);
    let (load, back) = (draw.between(0.02, 0.12), draw.between(0.1, 0.4));
    let truth = Truth::stepped(0.1, LENGTH, [from, air], |_, [c, near]| {
        [
            (near - c) / 70.0,
            back * (air - near) + load * back * (c - near),
        ]
    });
    (truth, air)
}
