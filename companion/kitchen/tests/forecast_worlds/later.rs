//! A sixth set of worlds, that the report's table is printed on: probes that read
//! every ten seconds to two minutes in tenths of a degree, ovens that heat up, relays
//! with a least run, balls and cylinders that thaw by their heat content beside lumps
//! and beside plateaus of any length, bricks in layers that grow inward. Written after
//! the intervals were chosen on the five others; see [`SEEDS`].

use super::judging::{course, first};
use super::{Draw, Probe, Truth, World};

/// Seeds of these worlds. Others were looked at first, forty for what thaws and 14 to 16
/// for eight more families; the ends of an interval of thawing, how narrow one is where a
/// plain exponential explains all, and the doubt about bricks were then chosen.
pub const SEEDS: std::ops::Range<u64> = 3_200_000..3_200_100;

families!();

/// One in two says what it stands in, and errs as it says.
fn world(draw: &mut Draw, truth: Truth, level: f64, around: f64) -> World {
    let give = draw.between(1.0, 3.0);
    let told = around + give * draw.normal();
    World {
        truth,
        probe: Probe {
            every: draw.one_of(&[1.0 / 6.0, 0.5, 1.0, 2.0]),
            noise: draw.scale(0.02, 0.2),
            step: 0.1,
        },
        level,
        told: (draw.unit() < 0.5).then_some((told, give)),
        events: Vec::new(),
        earlier: Vec::new(),
    }
}

/// Of water, hPa (J. A. Goff's curve in the short form of D. Sonntag, 1990, from
/// memory: Magnus' with 17.62 and 243.12).
fn pressure(celsius: f64) -> f64 {
    6.112 * (17.62 * celsius / (243.12 + celsius)).exp()
}

fn one(draw: &mut Draw) -> World {
    let (from, around) = match (draw.unit() * 3.0) as u32 {
        0 => (draw.between(60.0, 98.0), draw.between(0.0, 25.0)),
        1 => (draw.between(0.0, 22.0), draw.between(52.0, 90.0)),
        _ => (draw.between(220.0, 320.0), draw.between(15.0, 35.0)),
    };
    let minutes = draw.scale(20.0, 240.0);
    let left = draw.between(0.12, 0.55);
    let truth = Truth::of(0.1, 3.0 * minutes, |t| {
        around + (from - around) * (-t / minutes).exp()
    });
    world(draw, truth, around + (from - around) * left, around)
}

fn two(draw: &mut Draw) -> World {
    let (from, around) = if draw.unit() < 0.7 {
        (draw.between(60.0, 96.0), draw.between(0.0, 25.0))
    } else {
        (draw.between(0.0, 20.0), draw.between(55.0, 90.0))
    };
    let (minutes, ratio) = (draw.scale(40.0, 250.0), draw.between(2.5, 12.0));
    let share = draw.between(-0.3, 0.45);
    let left = draw.between(0.15, 0.5);
    let truth = Truth::of(0.1, 5.0 * minutes, |t| {
        let slow = (1.0 - share) * (-t / minutes).exp();
        around + (from - around) * (slow + share * (-ratio * t / minutes).exp())
    });
    world(draw, truth, around + (from - around) * left, around)
}

/// A relay that stays as it is for some minutes at least, on air that the coil cools
/// late.
fn cycling(draw: &mut Draw) -> World {
    let (from, set) = (draw.between(50.0, 92.0), draw.between(1.5, 4.5));
    let (minutes, least) = (draw.scale(40.0, 160.0), draw.between(3.0, 12.0));
    let (cold, warm) = (draw.between(4.0, 14.0), draw.between(4.0, 14.0));
    let lag = draw.between(2.0, 8.0);
    let (mut runs, mut since) = (draw.unit() < 0.5, 0.0);
    let truth = course(
        0.1,
        6.0 * minutes,
        vec![from, set, set],
        first,
        |t, s, by| {
            if t - since > least && runs != (s[1] > set) {
                runs = !runs;
                since = t;
            }
            let coil = if runs { set - cold } else { set + warm };
            by[0] = (s[1] - s[0]) / minutes;
            by[1] = (s[2] - s[1]) / lag + 0.002 * (s[0] - s[1]);
            by[2] = (coil - s[2]) / lag;
        },
    );
    let left = draw.between(0.15, 0.5);
    world(draw, truth, set + (from - set) * left, set)
}

fn evaporating(draw: &mut Draw) -> World {
    let (from, around) = (draw.between(75.0, 98.0), draw.between(16.0, 28.0));
    let (minutes, wet) = (draw.scale(80.0, 300.0), draw.between(0.1, 1.1));
    let (power, humid) = (draw.between(1.0, 1.3), draw.between(0.3, 0.7));
    let level = draw.between(around + 12.0, 56.0);
    let truth = Truth::stepped(0.1, 2_500.0, [from], |_, s| {
        let off = (s[0] - around).max(0.0);
        let damp = (pressure(s[0]) - humid * pressure(around)).max(0.0) / 0.66 / 1.6;
        [-(30.0 * (off / 30.0).powf(power) + wet * damp) / minutes]
    });
    world(draw, truth, level, around)
}

const CELLS: usize = 12;

/// Layers of a plate, a cylinder or a ball: change a minute, the face taking `takes`.
fn layered(shape: i32, minutes: f64, s: &[f64], takes: f64, by: &mut [f64]) {
    let n = CELLS as f64;
    let area = |i: usize| (i as f64 / n).powi(shape);
    let power = f64::from(shape + 1);
    for i in 0..CELLS {
        let volume = (((i + 1) as f64 / n).powf(power) - (i as f64 / n).powf(power)) / power;
        let inward = if i == 0 {
            0.0
        } else {
            area(i) * n * (s[i - 1] - s[i])
        };
        let outward = if i + 1 == CELLS {
            takes
        } else {
            area(i + 1) * n * (s[i + 1] - s[i])
        };
        by[i] = (inward + outward) / volume / minutes;
    }
}

fn stable(minutes: f64, shape: i32) -> f64 {
    (0.2 * minutes / (CELLS * CELLS) as f64 / f64::from(shape + 1)).min(0.1)
}

/// In an oven that still heats up when it goes in, or does not.
fn roasting(draw: &mut Draw, shape: i32) -> World {
    let (from, oven) = (draw.between(2.0, 20.0), draw.between(100.0, 220.0));
    let (biot, minutes) = (draw.scale(1.0, 30.0), draw.scale(150.0, 450.0));
    let level = draw.between(48.0, 74.0);
    let (colder, heats) = (draw.one_of(&[0.0, 0.0, 30.0]), draw.between(4.0, 10.0));
    let truth = course(
        stable(minutes, shape),
        4.0 * minutes,
        vec![from; CELLS],
        first,
        |t, s, by| {
            let air = oven - colder * (-t / heats).exp();
            let takes = biot * (air - s[CELLS - 1]) / (1.0 + 0.5 * biot / CELLS as f64);
            layered(shape, minutes, s, takes, by);
        },
    );
    world(draw, truth, level, oven)
}

fn slab(draw: &mut Draw) -> World {
    roasting(draw, 0)
}

fn cylinder(draw: &mut Draw) -> World {
    roasting(draw, 1)
}

/// One in three a lump, one in three a cylinder or a ball in ten layers by heat content
/// (temperatures in between by a table of apparent heat), one in three a plateau of
/// any length between two exponentials.
fn thawing(draw: &mut Draw) -> World {
    let (from, around) = (draw.between(-24.0, -12.0), draw.between(2.5, 23.0));
    let level = around * draw.between(0.25, 0.65);
    let freezes = draw.between(-1.8, -0.4);
    match (draw.unit() * 3.0) as u32 {
        0 => {
            let (minutes, ice) = (draw.scale(15.0, 90.0), draw.between(85.0, 150.0));
            let truth = Truth::stepped(0.2, 400.0 * minutes, [from, 0.0], |_, [c, gone]| {
                let flow = (around - c) / minutes;
                if *c >= freezes && *gone < ice {
                    [0.0, flow]
                } else if *c < freezes {
                    [flow, 0.0]
                } else {
                    [flow / 1.75, 0.0]
                }
            });
            world(draw, truth, level, around)
        }
        1 => {
            let shape = draw.one_of(&[1, 2]);
            let (minutes, biot) = (draw.scale(80.0, 300.0), draw.scale(0.3, 8.0));
            let (ice, better) = (draw.between(85.0, 140.0), draw.between(2.0, 3.5));
            // Heat content over a degree of frozen food; ice goes over a degree and a half.
            let celsius = move |h: f64| {
                if h < 0.0 {
                    freezes - 1.5 + h
                } else if h < ice {
                    freezes - 1.5 + 1.5 * (h / ice).powf(0.4)
                } else {
                    freezes + (h - ice) / 1.75
                }
            };
            let n = CELLS as f64;
            let area = move |i: usize| (i as f64 / n).powi(shape);
            let power = f64::from(shape + 1);
            let truth = course(
                stable(minutes, shape) / better,
                150.0 * minutes,
                vec![from - freezes + 1.5; CELLS],
                move |s| celsius(s[0]),
                move |_, s, by| {
                    let c: [f64; CELLS] = std::array::from_fn(|i| celsius(s[i]));
                    let eases = |i: usize| if c[i] < freezes - 0.3 { better } else { 1.0 };
                    for i in 0..CELLS {
                        let volume =
                            (((i + 1) as f64 / n).powf(power) - (i as f64 / n).powf(power)) / power;
                        let inward = if i == 0 {
                            0.0
                        } else {
                            area(i) * n * f64::midpoint(eases(i), eases(i - 1)) * (c[i - 1] - c[i])
                        };
                        let outward = if i + 1 == CELLS {
                            (around - c[i]) / (1.0 / biot + 0.5 / n / eases(i))
                        } else {
                            area(i + 1)
                                * n
                                * f64::midpoint(eases(i), eases(i + 1))
                                * (c[i + 1] - c[i])
                        };
                        by[i] = (inward + outward) / volume / minutes;
                    }
                },
            );
            world(draw, truth, level, around)
        }
        _ => {
            let minutes = draw.scale(10.0, 60.0);
            let (stands, slower) = (draw.scale(2.0, 15.0), draw.between(1.2, 4.0));
            let end = minutes * (((freezes - from) / 0.1).ln() + stands);
            let truth = Truth::of(0.2, end + 6.0 * slower * minutes, |t| {
                if t < end {
                    freezes + (from - freezes) * (-t / minutes).exp()
                } else {
                    around + (freezes - around) * (-(t - end) / slower / minutes).exp()
                }
            });
            world(draw, truth, level, around)
        }
    }
}

/// A core and a face whose water evens out the heat that it takes until too little is
/// left of it.
fn stalling(draw: &mut Draw) -> World {
    let (from, oven) = (draw.between(4.0, 12.0), draw.between(105.0, 135.0));
    let (minutes, dew) = (draw.scale(60.0, 160.0), draw.between(25.0, 45.0));
    let (water, across) = (draw.between(40.0, 120.0), draw.between(1.0, 2.5));
    let level = draw.between(80.0, 92.0);
    let truth = Truth::stepped(
        0.2,
        30.0 * minutes,
        [from, from, water],
        |_, [core, face, left]| {
            let wet = (left / water / 0.5).clamp(0.0, 1.0).sqrt();
            let gives = 0.9 * wet * (pressure(*face) - pressure(dew)).max(0.0) / 0.66 / 4.0;
            [
                across * (face - core) / minutes,
                (2.5 * (oven - face - gives) + 0.7 * across * (core - face)) / minutes,
                -gives / minutes,
            ]
        },
    );
    world(draw, truth, level, oven)
}

fn door(draw: &mut Draw) -> World {
    let (from, oven) = (draw.between(5.0, 25.0), draw.between(140.0, 230.0));
    let (minutes, inner) = (draw.scale(30.0, 90.0), draw.between(1.0, 4.0));
    let level = draw.between(50.0, 80.0);
    let back = draw.between(1.5, 5.0);
    let run = |opened: &[f64], length: f64| {
        Truth::stepped(0.02, 8.0 * minutes, [from, from, oven], |t, s| {
            let open = opened.iter().any(|at| t >= *at && t < at + length);
            let draught = if open { (40.0 - s[2]) / 0.9 } else { 0.0 };
            [
                inner * (s[1] - s[0]) / minutes,
                ((s[2] - s[1]) - inner * (s[1] - s[0])) / minutes,
                (oven - s[2]) / back + draught,
            ]
        })
    };
    let way = run(&[], 0.0).reaches(level).unwrap_or(minutes);
    let opened = [0.2, 0.38, 0.6].map(|at| at * way * draw.between(0.85, 1.15));
    let truth = run(&opened, draw.between(0.5, 3.0));
    World {
        events: opened.to_vec(),
        ..world(draw, truth, level, oven)
    }
}

/// Eight layers of brick, each half as thick again as the one before it.
fn raked(draw: &mut Draw) -> World {
    let (fire, room) = (draw.between(290.0, 410.0), draw.between(16.0, 34.0));
    let (at, minutes) = (draw.between(15.0, 60.0), draw.scale(3.0, 12.0));
    let loses = draw.between(0.02, 0.08);
    let falls = draw.between(0.02, 0.07);
    let level = draw.between(202.0, 218.0);
    let thick: Vec<f64> = (0..8).map(|i| 1.5_f64.powi(i)).collect();
    let start: Vec<f64> = (0..8)
        .map(|i| fire * (1.0 - falls * f64::from(i)))
        .collect();
    let truth = course(0.1, 2_500.0, start, first, |t, s, by| {
        let flow = |i: usize| (s[i + 1] - s[i]) / f64::midpoint(thick[i], thick[i + 1]);
        for i in 0..8 {
            let front = if i == 0 { 0.0 } else { -flow(i - 1) };
            let behind = if i == 7 { 0.0 } else { flow(i) };
            by[i] = (front + behind) / thick[i] / minutes;
        }
        by[0] += if t < at {
            (fire - s[0]) / 3.0
        } else {
            -loses * (s[0] - room) * (1.0 + (s[0] - room) / 400.0) / minutes
        };
    });
    World {
        events: vec![at],
        ..world(draw, truth, level, room)
    }
}

/// Food in a pot that loses heat otherwise from a moment on.
fn turned(
    draw: &mut Draw,
    room: f64,
    before: impl Fn(f64) -> f64,
    after: impl Fn(f64) -> f64,
    floor: f64,
) -> World {
    let (from, at) = (draw.between(62.0, 97.0), draw.between(10.0, 50.0));
    let (minutes, pot) = (draw.scale(60.0, 200.0), draw.between(0.03, 0.15));
    let across = draw.between(8.0, 30.0);
    let truth = Truth::stepped(0.05, 4_000.0, [from, from], |t, s| {
        let lost = if t < at { before(s[1]) } else { after(s[1]) };
        let flow = across * (s[0] - s[1]);
        [-flow / minutes, (flow - lost) / pot / minutes]
    });
    let there = truth.at(at);
    let level = floor + (there - floor) * draw.between(0.2, 0.6);
    World {
        events: vec![at],
        told: (draw.unit() < 0.7).then_some((room + 1.5 * draw.normal(), 2.0)),
        ..world(draw, truth, level, room)
    }
}

fn damp(celsius: f64, room: f64, wet: f64) -> f64 {
    (celsius - room) + wet * (pressure(celsius) - 0.5 * pressure(room)).max(0.0) / 0.66 / 1.6
}

fn lid_off(draw: &mut Draw) -> World {
    let (room, wet) = (draw.between(17.0, 28.0), draw.between(0.2, 1.0));
    turned(
        draw,
        room,
        move |c| c - room,
        move |c| damp(c, room, wet),
        room + 3.0,
    )
}

fn lid_on(draw: &mut Draw) -> World {
    let (room, wet) = (draw.between(17.0, 28.0), draw.between(0.2, 1.0));
    turned(
        draw,
        room,
        move |c| damp(c, room, wet),
        move |c| c - room,
        room + 3.0,
    )
}

fn ice_bath(draw: &mut Draw) -> World {
    let (room, ice) = (draw.between(17.0, 28.0), draw.between(0.0, 2.5));
    let quicker = draw.between(4.0, 12.0);
    turned(
        draw,
        room,
        move |c| c - room,
        move |c| quicker * (c - ice),
        ice + 1.0,
    )
}

fn fridge_unsaid(draw: &mut Draw) -> World {
    let (room, store) = (draw.between(17.0, 28.0), draw.between(1.0, 5.0));
    let (before, after) = (draw.between(0.7, 1.3), draw.between(0.7, 1.5));
    turned(
        draw,
        room,
        move |c| before * (c - room),
        move |c| after * (c - store),
        store + 1.5,
    )
}

/// An oven that loses a power of its excess, and what lies behind its face.
fn fourth_morning(draw: &mut Draw) -> World {
    let (minutes, room) = (draw.scale(150.0, 500.0), draw.between(16.0, 34.0));
    let (power, deep) = (draw.between(1.0, 1.35), draw.between(0.5, 3.0));
    let morning = |draw: &mut Draw, differs: f64| {
        let from = draw.between(265.0, 315.0);
        let minutes = minutes * differs;
        Truth::stepped(0.2, 4.0 * minutes, [from, from * 0.94], move |_, s| {
            let out = 200.0 * ((s[0] - room).max(0.0) / 200.0).powf(power);
            [
                (4.0 * (s[1] - s[0]) - out) / minutes,
                4.0 * (s[0] - s[1]) / deep / minutes,
            ]
        })
    };
    let mut world = {
        let differs = draw.one_of(&[0.85, 1.15]);
        let truth = morning(draw, differs);
        let level = draw.between(198.0, 218.0);
        world(draw, truth, level, room)
    };
    world.earlier = (0..3)
        .map(|_| {
            let differs = 1.0 + 0.025 * draw.normal();
            let truth = morning(draw, differs);
            world.probe.sees(&truth, draw)
        })
        .collect();
    world.told = None;
    world
}
