//! A fourth set of worlds, in watts and kilograms: food of a thickness with a
//! conductivity, ovens that radiate, water that evaporates by its mass, a store
//! with a duty cycle. It was reported on before [`reported`](super::reported)
//! was; what scales the intervals was then chosen on it too.

use super::judging::{by_enthalpy, course, enthalpy, first};
use super::{Draw, Probe, Truth, World};

/// Seeds of these worlds.
pub const SEEDS: std::ops::Range<u64> = 1_300_000..1_300_040;

families!();

/// Of a wet food: W/(m K), J/(m³ K) (round figures of lean meat, from memory).
const CONDUCTS: f64 = 0.48;
const HOLDS: f64 = 3.6e6;
/// Of radiation, W/(m² K⁴), and heat of evaporation, J/kg.
const RADIATES: f64 = 5.67e-8;
const EVAPORATES: f64 = 2.35e6;
/// Psychrometer's constant, hPa/K, and J/(m³ K) of water.
const PSYCHROMETER: f64 = 0.66;
const WATER: f64 = 4.18e6;

fn world(draw: &mut Draw, truth: Truth, level: f64, around: f64) -> World {
    let give = draw.between(1.0, 4.0);
    let told = around + give * draw.normal();
    World {
        truth,
        probe: Probe {
            every: draw.one_of(&[0.4, 1.0, 1.0, 2.5]),
            noise: draw.scale(0.04, 0.25),
            step: draw.one_of(&[0.0, 0.1, 0.2]),
        },
        level,
        told: (draw.unit() < 0.5).then_some((told, give)),
        events: Vec::new(),
        earlier: Vec::new(),
    }
}

/// Saturation pressure, hPa (Antoine's equation for water, from memory).
fn pressure(celsius: f64) -> f64 {
    1.333 * 10_f64.powf(8.071 - 1730.6 / (233.4 + celsius))
}

fn fourth_power(celsius: f64) -> f64 {
    (celsius + 273.15).powi(4)
}

/// A part of a temperature difference that is left: cooled by air, or warmed by
/// the room.
fn one(draw: &mut Draw) -> World {
    let warms = draw.unit() < 0.25;
    let (from, around) = if warms {
        (draw.between(1.0, 6.0), draw.between(19.0, 27.0))
    } else {
        (draw.between(40.0, 92.0), draw.between(-4.0, 24.0))
    };
    let minutes = draw.scale(25.0, 180.0);
    let left = draw.between(0.2, 0.55);
    let truth = Truth::of(0.1, 3.0 * minutes, |t| {
        around + (from - around) * (-t / minutes).exp()
    });
    world(draw, truth, around + (from - around) * left, around)
}

/// Stock in a pot of iron.
fn two(draw: &mut Draw) -> World {
    let (from, around) = (draw.between(70.0, 98.0), draw.between(2.0, 24.0));
    let (stock, iron) = (
        draw.between(2.0, 15.0) * 4_180.0,
        draw.between(2.0, 8.0) * 500.0,
    );
    let (inner, outer) = (draw.scale(10.0, 60.0), draw.scale(2.0, 8.0));
    let cold = from - draw.between(0.0, 25.0);
    let truth = Truth::stepped(0.05, 2_500.0, [from, cold], |_, s| {
        let across = inner * (s[0] - s[1]);
        [
            -60.0 * (across + 0.4 * outer * (s[0] - around)) / stock,
            60.0 * (across - outer * (s[1] - around)) / iron,
        ]
    });
    let left = draw.between(0.2, 0.5);
    world(draw, truth, around + (from - around) * left, around)
}

/// A compressor that runs a share of each period, through air and an evaporator.
fn cycling(draw: &mut Draw) -> World {
    let (from, mean) = (draw.between(48.0, 88.0), draw.between(1.5, 5.0));
    let (period, duty) = (draw.between(9.0, 28.0), draw.between(0.2, 0.75));
    let (swing, minutes) = (draw.between(3.0, 9.0), draw.scale(40.0, 150.0));
    let lag = draw.between(2.0, 6.0);
    let truth = Truth::stepped(0.1, 4.0 * minutes, [from, mean], |t, s| {
        let runs = if (t / period).fract() < duty {
            1.0
        } else {
            0.0
        };
        let coil = mean + swing * (duty - runs);
        [
            (s[1] - s[0]) / minutes,
            (coil - s[1]) / lag + 0.003 * (s[0] - s[1]),
        ]
    });
    let left = draw.between(0.15, 0.5);
    world(draw, truth, mean + (from - mean) * left, mean)
}

/// Heat that water loses, W/m²: by air, by radiation and by its own vapour where
/// a share of the surface is free.
fn loses(celsius: f64, around: f64, takes: f64, free: f64) -> f64 {
    let vapour = (pressure(celsius) - 0.5 * pressure(around)).max(0.0);
    takes * (celsius - around)
        + 0.9 * RADIATES * (fourth_power(celsius) - fourth_power(around))
        + takes * free * vapour / PSYCHROMETER
}

fn evaporating(draw: &mut Draw) -> World {
    let (from, around) = (draw.between(76.0, 95.0), draw.between(18.0, 27.0));
    let (deep, takes) = (draw.between(0.03, 0.12), draw.between(4.0, 9.0));
    let free = draw.between(0.2, 0.9);
    let level = draw.between(around + 12.0, 52.0);
    let truth = Truth::stepped(0.1, 1_500.0, [from], |_, s| {
        [-60.0 * loses(s[0], around, takes, free) / (deep * WATER)]
    });
    world(draw, truth, level, around)
}

const CELLS: usize = 11;

/// Change a minute of layers from the middle to the face, `deep` metres, with
/// what the face takes in W/m² (`shape` 0 a plate, 1 a cylinder).
fn layers(shape: i32, deep: f64, s: &[f64], takes: f64, by: &mut [f64]) {
    let thick = deep / CELLS as f64;
    let area = |i: usize| (i as f64 * thick).powi(shape);
    for i in 0..CELLS {
        let volume = HOLDS * (area(i) + area(i + 1)) / 2.0 * thick;
        let inward = if i == 0 {
            0.0
        } else {
            area(i) * CONDUCTS * (s[i - 1] - s[i]) / thick
        };
        let outward = if i + 1 == CELLS {
            area(CELLS) * takes
        } else {
            area(i + 1) * CONDUCTS * (s[i + 1] - s[i]) / thick
        };
        by[i] = 60.0 * (inward + outward) / volume;
    }
}

/// By radiation mostly.
fn roasting(draw: &mut Draw, shape: i32, deep: f64) -> World {
    let (from, oven) = (draw.between(3.0, 15.0), draw.between(120.0, 210.0));
    let (air, black) = (draw.between(3.0, 12.0), draw.between(0.5, 0.95));
    let level = draw.between(50.0, 72.0);
    let truth = course(0.02, 600.0, vec![from; CELLS], first, |_, s, by| {
        let face = s[CELLS - 1];
        let takes =
            air * (oven - face) + black * RADIATES * (fourth_power(oven) - fourth_power(face));
        layers(shape, deep, s, takes, by);
    });
    world(draw, truth, level, oven)
}

fn slab(draw: &mut Draw) -> World {
    let deep = draw.between(0.014, 0.035);
    roasting(draw, 0, deep)
}

fn cylinder(draw: &mut Draw) -> World {
    let deep = draw.between(0.02, 0.05);
    roasting(draw, 1, deep)
}

/// A shell round a middle, each with its ice.
fn thawing(draw: &mut Draw) -> World {
    let (from, around) = (draw.between(-20.0, -14.0), draw.between(3.0, 22.0));
    let latent = draw.between(180.0, 270.0);
    let (across, outer) = (draw.scale(0.4, 3.0), draw.scale(0.15, 0.6));
    let level = around * draw.between(0.3, 0.6);
    let start = vec![enthalpy(from, latent); 2];
    let truth = course(
        0.5,
        9_000.0,
        start,
        |s| by_enthalpy(s[0], latent),
        |_, s, by| {
            let (middle, shell) = (by_enthalpy(s[0], latent), by_enthalpy(s[1], latent));
            by[0] = 0.1 * across * (shell - middle);
            by[1] = 0.1 * (outer * (around - shell) - across * (shell - middle));
        },
    );
    world(draw, truth, level, around)
}

/// A joint whose face gives off water by kilograms, through a crust that grows
/// with what is gone.
fn stalling(draw: &mut Draw) -> World {
    let (from, oven) = (draw.between(4.0, 10.0), draw.between(105.0, 135.0));
    let (deep, takes) = (draw.between(0.025, 0.05), draw.between(10.0, 22.0));
    let (water, crust) = (draw.between(0.8, 2.5), draw.between(3.0, 12.0));
    let level = draw.between(80.0, 92.0);
    let mut start = vec![from; CELLS];
    start.push(0.0);
    let truth = course(0.04, 1_800.0, start, first, |_, s, by| {
        let (face, gone) = (s[CELLS - 1], s[CELLS]);
        let dry = gone / water;
        let gives = takes * (pressure(face) - 20.0).max(0.0)
            / PSYCHROMETER
            / EVAPORATES
            / (1.0 + crust * dry * dry);
        let heat = (takes + 5.0) * (oven - face) - gives * EVAPORATES;
        layers(0, deep, &s[..CELLS], heat, by);
        by[CELLS] = 60.0 * gives;
    });
    world(draw, truth, level, oven)
}

/// A plate in an oven of air and walls whose door is opened three times.
fn door(draw: &mut Draw) -> World {
    let (from, oven) = (draw.between(5.0, 15.0), draw.between(140.0, 220.0));
    let (deep, takes) = (draw.between(0.01, 0.025), draw.between(12.0, 25.0));
    let level = draw.between(55.0, 75.0);
    let (first_at, between) = (draw.between(4.0, 9.0), draw.between(5.0, 9.0));
    let opened = [0.0, 1.0, 2.0].map(|nth| first_at + nth * between * draw.between(0.9, 1.1));
    let length = draw.between(0.5, 2.5);
    let mut start = vec![from; CELLS];
    start.extend([oven, oven]);
    let truth = course(0.01, 300.0, start, first, |t, s, by| {
        let (face, air, wall) = (s[CELLS - 1], s[CELLS], s[CELLS + 1]);
        let open = opened.iter().any(|at| t >= *at && t < at + length);
        let heat =
            takes * (air - face) + 0.8 * RADIATES * (fourth_power(wall) - fourth_power(face));
        layers(0, deep, &s[..CELLS], heat, by);
        by[CELLS] = (wall - air) / 2.0 + if open { (30.0 - air) / 0.7 } else { 0.0 };
        by[CELLS + 1] = (oven - wall) / 8.0 - (wall - air) / 40.0;
    });
    World {
        events: opened.to_vec(),
        ..world(draw, truth, level, oven)
    }
}

/// Three exponentials once the fire is out.
fn raked(draw: &mut Draw) -> World {
    let (fire, room) = (draw.between(310.0, 390.0), draw.between(16.0, 34.0));
    let at = draw.between(15.0, 50.0);
    let (quick, middle, slow) = (
        draw.scale(5.0, 15.0),
        draw.scale(40.0, 90.0),
        draw.scale(400.0, 900.0),
    );
    let (a, b) = (draw.between(0.08, 0.2), draw.between(0.05, 0.15));
    let level = draw.between(203.0, 218.0);
    let truth = Truth::of(0.25, at + 3.0 * slow, |t| {
        let past = (t - at).max(0.0);
        let fall = a * (-past / quick).exp()
            + b * (-past / middle).exp()
            + (1.0 - a - b) * (-past / slow).exp();
        room + (fire - room) * fall
    });
    World {
        events: vec![at],
        ..world(draw, truth, level, room)
    }
}

/// A pot of water and its wall, that from a moment on is cooled otherwise: W/m²
/// by the wall's and the water's temperature.
fn turned(
    draw: &mut Draw,
    room: f64,
    before: impl Fn(f64) -> f64,
    after: impl Fn(f64) -> f64,
    floor: f64,
) -> World {
    let (from, deep) = (draw.between(70.0, 94.0), draw.between(0.04, 0.1));
    let at = draw.between(10.0, 40.0);
    let truth = Truth::stepped(0.05, 3_000.0, [from, from], |t, s| {
        let lost = if t < at { before(s[1]) } else { after(s[1]) };
        let across = 600.0 * (s[0] - s[1]);
        [
            -60.0 * across / (deep * WATER),
            60.0 * (across - lost) / 12_000.0,
        ]
    });
    let there = truth.at(at);
    let level = floor + (there - floor) * draw.between(0.2, 0.55);
    World {
        events: vec![at],
        told: Some((room + 1.5 * draw.normal(), 2.0)),
        ..world(draw, truth, level, room)
    }
}

fn lid_off(draw: &mut Draw) -> World {
    let (room, takes) = (draw.between(18.0, 27.0), draw.between(5.0, 10.0));
    let free = draw.between(0.15, 0.6);
    turned(
        draw,
        room,
        move |c| loses(c, room, takes, 0.0),
        move |c| loses(c, room, takes, free),
        room + 3.0,
    )
}

fn lid_on(draw: &mut Draw) -> World {
    let (room, takes) = (draw.between(18.0, 27.0), draw.between(5.0, 10.0));
    let free = draw.between(0.15, 0.6);
    turned(
        draw,
        room,
        move |c| loses(c, room, takes, free),
        move |c| loses(c, room, takes, 0.0),
        room + 3.0,
    )
}

fn ice_bath(draw: &mut Draw) -> World {
    let (room, takes) = (draw.between(18.0, 27.0), draw.between(5.0, 10.0));
    let (ice, water) = (draw.between(0.0, 2.0), draw.between(80.0, 250.0));
    turned(
        draw,
        room,
        move |c| loses(c, room, takes, 0.0),
        move |c| water * (c - ice),
        ice + 1.0,
    )
}

fn fridge_unsaid(draw: &mut Draw) -> World {
    let (room, takes) = (draw.between(18.0, 27.0), draw.between(6.0, 12.0));
    let (store, blows) = (draw.between(1.0, 5.0), draw.between(1.0, 2.5));
    turned(
        draw,
        room,
        move |c| loses(c, room, takes, 0.0),
        move |c| blows * loses(c, store, takes, 0.0),
        store + 1.0,
    )
}

/// A face, bricks and what is behind them, on three mornings and on a fourth of
/// 15 % more or less time.
fn fourth_morning(draw: &mut Draw) -> World {
    let (minutes, room) = (draw.scale(20.0, 50.0), draw.between(16.0, 34.0));
    let (heavy, behind) = (draw.between(2.0, 6.0), draw.between(0.02, 0.08));
    let open = draw.between(0.2, 0.6);
    let morning = |draw: &mut Draw, differs: f64| {
        let from = draw.between(270.0, 310.0);
        let minutes = minutes * differs;
        Truth::stepped(0.2, 1_500.0, [from, from * 0.97], move |_, s| {
            let hot = (fourth_power(s[0]) - fourth_power(room)) / 4e8;
            [
                (s[1] - s[0] - 0.1 * open * (s[0] - room) - 0.3 * open * hot) / minutes,
                (s[0] - s[1] - behind * (s[1] - room)) / heavy / minutes,
            ]
        })
    };
    let mut world = {
        let differs = draw.one_of(&[0.85, 1.15]);
        let truth = morning(draw, differs);
        let level = draw.between(198.0, 216.0);
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
