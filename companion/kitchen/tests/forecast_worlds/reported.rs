//! A fifth set of worlds, that the report's table is printed on: coefficients of
//! natural convection that fall with the difference, water that goes through a
//! film of air by Lewis' relation, pans of two nodes, ovens under a controller
//! that overshoots, fronts of thaw, a joint whose face is fed from within.
//! Written after the intervals were chosen on [`tuning`](super::tuning),
//! [`second`](super::second), [`judging`](super::judging) and
//! [`fresh`](super::fresh).

use super::judging::{course, first};
use super::{Draw, Probe, Truth, World};

/// Seeds of these worlds. Twenty before them were looked at first, after which the
/// middles of what goes in cold were doubted more.
pub const SEEDS: std::ops::Range<u64> = 1_700_020..1_700_060;

families!();

/// Two in five say what it stands in, and err as they say.
fn world(draw: &mut Draw, truth: Truth, level: f64, around: f64) -> World {
    let give = draw.between(1.5, 5.0);
    let told = around + give * draw.normal();
    World {
        truth,
        probe: Probe {
            every: draw.one_of(&[0.25, 0.5, 1.0, 1.5, 3.0]),
            noise: draw.scale(0.03, 0.3),
            step: draw.one_of(&[0.0, 0.1, 0.25]),
        },
        level,
        told: (draw.unit() < 0.4).then_some((told, give)),
        events: Vec::new(),
        earlier: Vec::new(),
    }
}

/// Saturation pressure, hPa (A. L. Buck, 1981, from memory).
fn pressure(celsius: f64) -> f64 {
    6.1121 * ((18.678 - celsius / 234.5) * (celsius / (257.14 + celsius))).exp()
}

/// Of water vapour over water, kg/m³, by the ideal gas.
fn vapour(celsius: f64) -> f64 {
    100.0 * pressure(celsius) / 461.5 / (celsius + 273.15)
}

/// Of natural convection over a flat face, W/(m² K): 1.3 times the cube root of the
/// difference, with a draught of its own (round figure, from memory).
fn convects(off: f64, draught: f64) -> f64 {
    draught + 1.3 * off.abs().cbrt()
}

fn radiates(celsius: f64, around: f64) -> f64 {
    0.92 * 5.67e-8 * ((celsius + 273.15).powi(4) - (around + 273.15).powi(4))
}

/// W/m² that a wet face loses: Lewis' relation turns its coefficient of heat into
/// one of mass (1.1 kJ/(m³ K) of moist air, 2.4 MJ/kg).
fn wet_loss(celsius: f64, around: f64, draught: f64, free: f64) -> f64 {
    let by = convects(celsius - around, draught);
    let film = by / 1_100.0 * (vapour(celsius) - 0.45 * vapour(around)).max(0.0);
    by * (celsius - around) + radiates(celsius, around) + free * 2.4e6 * film
}

fn one(draw: &mut Draw) -> World {
    let minutes = draw.scale(15.0, 320.0);
    let (from, around) = match (draw.unit() * 3.0) as u32 {
        0 => (draw.between(55.0, 88.0), draw.between(0.0, 6.0)),
        1 => (draw.between(180.0, 290.0), draw.between(18.0, 32.0)),
        _ => (draw.between(0.0, 8.0), draw.between(36.0, 66.0)),
    };
    let left = draw.between(0.16, 0.6);
    let truth = Truth::of(0.1, 3.0 * minutes, |t| {
        around + (from - around) * (-t / minutes).exp()
    });
    world(draw, truth, around + (from - around) * left, around)
}

/// A jar in a bath or in the cold, its probe in the middle: two nodes in a row.
fn two(draw: &mut Draw) -> World {
    let (from, around) = if draw.unit() < 0.5 {
        (draw.between(4.0, 20.0), draw.between(58.0, 85.0))
    } else {
        (draw.between(65.0, 95.0), draw.between(0.0, 24.0))
    };
    let minutes = draw.scale(25.0, 180.0);
    let (share, across) = (draw.between(0.3, 3.0), draw.scale(1.0, 8.0));
    let ahead = from + (around - from) * draw.between(0.0, 0.3);
    let truth = Truth::stepped(
        0.02 * minutes / across,
        9.0 * minutes,
        [from, ahead],
        |_, s| {
            [
                across * (s[1] - s[0]) / minutes,
                (share * across * (s[0] - s[1]) + (1.0 + share) * (around - s[1])) / minutes,
            ]
        },
    );
    let left = draw.between(0.2, 0.5);
    world(draw, truth, around + (from - around) * left, around)
}

/// Air that falls while the compressor runs and rises while it does not, each at
/// its own pace, and that runs the longer the warmer the pan is.
fn cycling(draw: &mut Draw) -> World {
    let (from, mean) = (draw.between(50.0, 90.0), draw.between(1.0, 4.5));
    let (period, swing) = (draw.between(10.0, 45.0), draw.between(1.0, 4.0));
    let (minutes, drifts) = (draw.scale(35.0, 170.0), draw.between(0.0, 0.4));
    let mut phase = draw.unit();
    let truth = course(0.1, 5.0 * minutes, vec![from], first, |_, s, by| {
        phase += 0.1 / (period * (1.0 + drifts * (s[0] - mean) / from));
        let at = phase.fract();
        let saw = if at < 0.35 {
            1.0 - at / 0.175
        } else {
            (at - 0.35) / 0.325 - 1.0
        };
        by[0] = (mean + swing * saw - s[0]) / minutes;
    });
    let left = draw.between(0.15, 0.5);
    world(draw, truth, mean + (from - mean) * left, mean)
}

/// A pan that loses its water through a film of air, and what it holds with it.
fn evaporating(draw: &mut Draw) -> World {
    let (from, around) = (draw.between(74.0, 97.0), draw.between(16.0, 30.0));
    let (deep, draught) = (draw.between(0.025, 0.14), draw.between(0.5, 5.0));
    let free = draw.between(0.3, 1.0);
    let level = draw.between(around + 10.0, 55.0);
    let truth = Truth::stepped(0.1, 2_000.0, [from, deep], |_, s| {
        let whole = wet_loss(s[0], around, draught, free);
        let dry = wet_loss(s[0], around, draught, 0.0);
        // The side and the bottom lose half of what is dry.
        [
            -60.0 * (whole + 0.5 * dry) / (s[1] * 4.1e6),
            -60.0 * (whole - dry) / 2.4e9,
        ]
    });
    world(draw, truth, level, around)
}

const CELLS: usize = 10;

/// Change a minute by conduction from the middle out, `shape` 0 a plate, 1 a
/// cylinder, 2 a ball; meat that conducts the better the warmer it is. `takes` is
/// what the face takes, in units of conduction through the half width a degree.
fn conducts(shape: i32, minutes: f64, s: &[f64], takes: f64, by: &mut [f64]) {
    let n = CELLS as f64;
    let area = |i: usize| (i as f64 / n).powi(shape);
    let power = f64::from(shape + 1);
    let through = |i: usize| {
        let warm = 1.0 + 0.0025 * f64::midpoint(s[i], s[i + 1]);
        area(i + 1) * warm * (s[i + 1] - s[i]) * n
    };
    for (i, by) in by.iter_mut().enumerate().take(CELLS) {
        let volume = (((i + 1) as f64 / n).powf(power) - (i as f64 / n).powf(power)) / power;
        let inward = if i == 0 { 0.0 } else { -through(i - 1) };
        let outward = if i + 1 == CELLS { takes } else { through(i) };
        *by = (inward + outward) / volume / minutes;
    }
}

/// An oven under a controller, which overshoots and swings about what it is set to.
fn controlled(draw: &mut Draw, set: f64) -> impl Fn(f64) -> f64 + use<> {
    let (over, dies) = (draw.between(0.0, 20.0), draw.between(10.0, 40.0));
    let (swing, period) = (draw.between(1.0, 8.0), draw.between(5.0, 16.0));
    move |t| {
        let wave = (std::f64::consts::TAU * t / period).sin();
        set + over * (-t / dies).exp() * wave + swing * wave
    }
}

fn roasting(draw: &mut Draw, shape: i32) -> World {
    let (from, oven) = (draw.between(2.0, 18.0), draw.between(85.0, 200.0));
    let (biot, minutes) = (draw.scale(0.8, 12.0), draw.scale(120.0, 420.0));
    let level = draw.between(48.0, (oven - 15.0).min(74.0));
    let air = controlled(draw, oven);
    let step = 0.15 * minutes / (CELLS * CELLS) as f64 / f64::from(shape + 1);
    let truth = course(
        step.min(0.1),
        4.0 * minutes,
        vec![from; CELLS],
        first,
        |t, s, by| {
            let takes = biot * (air(t) - s[CELLS - 1]) / (1.0 + 0.5 * biot / CELLS as f64);
            conducts(shape, minutes, s, takes, by);
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

/// A frozen piece with a front of thaw that goes inward as a plate's does (J.
/// Stefan's, quasi-steady): the middle stays frozen until the front has come.
fn thawing(draw: &mut Draw) -> World {
    let (from, around) = (draw.between(-21.0, -9.0), draw.between(3.0, 21.0));
    let (minutes, biot) = (draw.scale(60.0, 260.0), draw.scale(0.4, 4.0));
    let (latent, freezes) = (draw.between(55.0, 85.0), draw.between(-1.6, -0.4));
    let level = around * draw.between(0.3, 0.6);
    // The middle, and how far the front is from the face.
    let truth = course(0.2, 120.0 * minutes, vec![from, 0.0], first, |_, s, by| {
        let outer = 1.0 / (1.0 / biot + s[1].min(1.0));
        if s[1] < 1.0 {
            let into = 2.5 * (freezes - s[0]) / (1.0 - s[1]).max(0.2);
            by[0] = 1.8 * into / (1.0 - s[1]).max(0.2) / minutes;
            by[1] = ((outer * (around - freezes) - into) / latent / minutes).max(0.0);
        } else {
            by[0] = outer * (around - s[0]) / minutes;
            by[1] = 0.0;
        }
    });
    world(draw, truth, level, around)
}

/// A joint whose face is wet as long as water comes up from within as fast as the
/// air takes it.
fn stalling(draw: &mut Draw) -> World {
    let (from, oven) = (draw.between(3.0, 12.0), draw.between(100.0, 140.0));
    let (minutes, biot) = (draw.scale(120.0, 320.0), draw.between(1.0, 3.5));
    let (damp, deep) = (draw.between(15.0, 120.0), draw.between(0.6, 2.0));
    let level = draw.between(80.0, 91.0);
    let shape = draw.one_of(&[0, 1]);
    let mut start = vec![from; CELLS];
    start.push(0.0);
    let step = 0.15 * minutes / (CELLS * CELLS) as f64 / f64::from(shape + 1);
    let truth = course(step.min(0.1), 20.0 * minutes, start, first, |_, s, by| {
        let face = s[CELLS - 1];
        // A degree's worth of heat a hPa: 1 / (0.66 hPa/K), the psychrometer's.
        let asked = (pressure(face) - damp).max(0.0) / 0.66;
        let comes = 220.0 / (1.0 + s[CELLS] / 40.0 / deep).powf(1.5);
        let gives = asked.min(comes);
        conducts(
            shape,
            minutes,
            &s[..CELLS],
            biot * (oven - face - gives),
            &mut by[..],
        );
        by[CELLS] = gives * biot / minutes;
    });
    world(draw, truth, level, oven)
}

/// A joint in an oven whose door is opened three times on the way, or the falling
/// oven itself, whose air goes out and comes back off its bricks.
fn door(draw: &mut Draw) -> World {
    if draw.unit() < 0.5 {
        return falling_oven(draw);
    }
    let (from, oven) = (draw.between(4.0, 18.0), draw.between(130.0, 210.0));
    let (minutes, biot) = (draw.scale(60.0, 200.0), draw.scale(1.0, 6.0));
    let level = draw.between(52.0, 72.0);
    let step = (0.15 * minutes / (CELLS * CELLS) as f64).min(0.05);
    let back = draw.between(2.0, 6.0);
    let run = |opened: &[f64], length: f64| {
        let mut start = vec![from; CELLS];
        start.push(oven);
        course(step, 4.0 * minutes, start, first, |t, s, by| {
            let open = opened.iter().any(|at| t >= *at && t < at + length);
            let takes = biot * (s[CELLS] - s[CELLS - 1]);
            conducts(0, minutes, &s[..CELLS], takes, &mut by[..]);
            let draught = if open { (50.0 - s[CELLS]) / 1.2 } else { 0.0 };
            by[CELLS] = (oven - s[CELLS]) / back + draught;
        })
    };
    let way = run(&[], 0.0).reaches(level).unwrap_or(minutes);
    let opened = [0.15, 0.35, 0.55].map(|at| at * way * draw.between(0.8, 1.2));
    let length = draw.between(1.0, 4.0);
    let truth = run(&opened, length);
    World {
        events: opened.to_vec(),
        ..world(draw, truth, level, oven)
    }
}

fn falling_oven(draw: &mut Draw) -> World {
    let (from, room) = (draw.between(255.0, 310.0), draw.between(18.0, 32.0));
    let (slow, back) = (draw.scale(250.0, 700.0), draw.between(1.5, 6.0));
    let level = draw.between(198.0, 220.0);
    let way = slow * ((from - room) / (level - room)).ln();
    let opened = [0.15, 0.35, 0.55].map(|at| at * way * draw.between(0.8, 1.2));
    let length = draw.between(0.5, 2.0);
    let drops = draw.between(0.05, 0.15);
    let truth = Truth::stepped(0.05, 3.0 * slow, [from, from], |t, s| {
        let open = opened.iter().any(|at| t >= *at && t < at + length);
        let out = if open { drops * (s[0] - room) } else { 0.0 };
        [
            (s[1] - s[0]) / back - out,
            (room - s[1]) / slow - 0.03 * out,
        ]
    });
    World {
        events: opened.to_vec(),
        ..world(draw, truth, level, room)
    }
}

/// A face, six layers of brick and a floor that is cold, once the fire is out.
fn raked(draw: &mut Draw) -> World {
    let (fire, room) = (draw.between(300.0, 400.0), draw.between(15.0, 32.0));
    let (at, minutes) = (draw.between(15.0, 70.0), draw.scale(20.0, 60.0));
    let (loses, through) = (draw.between(0.05, 0.2), draw.between(0.01, 0.05));
    let falls = draw.between(0.03, 0.09);
    let level = draw.between(203.0, 218.0);
    let start: Vec<f64> = (0..6)
        .map(|i| fire * (1.0 - falls * f64::from(i)))
        .collect();
    let truth = course(0.1, 1_800.0, start, first, |t, s, by| {
        for i in 0..6 {
            let front = if i == 0 { 0.0 } else { s[i - 1] - s[i] };
            let behind = if i == 5 {
                through * (room - s[5])
            } else {
                s[i + 1] - s[i]
            };
            by[i] = (front + behind) / minutes;
        }
        by[0] += if t < at {
            (fire - s[0]) / 4.0
        } else {
            -loses * ((s[0] - room) + radiates(s[0], room) / 20.0) / minutes
        };
    });
    World {
        events: vec![at],
        ..world(draw, truth, level, room)
    }
}

/// A pot of two nodes, food and steel, that from a moment on loses heat otherwise:
/// W/m² by its outer temperature.
fn turned(
    draw: &mut Draw,
    room: f64,
    before: impl Fn(f64) -> f64,
    after: impl Fn(f64) -> f64,
    floor: f64,
) -> World {
    let (from, deep) = (draw.between(66.0, 96.0), draw.between(0.03, 0.09));
    let (at, across) = (draw.between(12.0, 45.0), draw.between(250.0, 900.0));
    let truth = Truth::stepped(0.05, 2_500.0, [from, from - 1.0], |t, s| {
        let lost = if t < at { before(s[1]) } else { after(s[1]) };
        let flow = across * (s[0] - s[1]);
        [
            -60.0 * flow / (deep * 3.9e6),
            60.0 * (flow - lost) / 20_000.0,
        ]
    });
    let there = truth.at(at);
    let level = floor + (there - floor) * draw.between(0.2, 0.55);
    World {
        events: vec![at],
        told: Some((room + 2.0 * draw.normal(), 2.0)),
        ..world(draw, truth, level, room)
    }
}

fn lid_off(draw: &mut Draw) -> World {
    let (room, draught) = (draw.between(17.0, 28.0), draw.between(0.5, 5.0));
    let free = draw.between(0.3, 1.0);
    turned(
        draw,
        room,
        move |c| wet_loss(c, room, draught, 0.0),
        move |c| wet_loss(c, room, draught, free),
        room + 3.5,
    )
}

fn lid_on(draw: &mut Draw) -> World {
    let (room, draught) = (draw.between(17.0, 28.0), draw.between(0.5, 5.0));
    let free = draw.between(0.3, 1.0);
    turned(
        draw,
        room,
        move |c| wet_loss(c, room, draught, free),
        move |c| wet_loss(c, room, draught, 0.0),
        room + 3.5,
    )
}

/// Ice water whose coefficient falls as the pot cools.
fn ice_bath(draw: &mut Draw) -> World {
    let (room, draught) = (draw.between(17.0, 28.0), draw.between(0.5, 5.0));
    let (ice, water) = (draw.between(0.2, 2.0), draw.between(25.0, 80.0));
    turned(
        draw,
        room,
        move |c| wet_loss(c, room, draught, 0.0),
        move |c| water * (c - ice).max(0.0).powf(1.25),
        ice + 1.0,
    )
}

fn fridge_unsaid(draw: &mut Draw) -> World {
    let (room, draught) = (draw.between(17.0, 28.0), draw.between(1.0, 5.0));
    let (store, blows) = (draw.between(0.5, 5.0), draw.between(4.0, 18.0));
    turned(
        draw,
        room,
        move |c| wet_loss(c, room, draught, 0.0),
        move |c| wet_loss(c, store, blows, 0.0),
        store + 1.2,
    )
}

/// Three nodes of an oven on three mornings, and on a fourth that differs by 15 %.
fn fourth_morning(draw: &mut Draw) -> World {
    let (minutes, room) = (draw.scale(25.0, 70.0), draw.between(15.0, 34.0));
    let (heavy, loses) = (draw.between(1.5, 4.0), draw.between(0.05, 0.25));
    let morning = |draw: &mut Draw, differs: f64| {
        let from = draw.between(262.0, 320.0);
        let minutes = minutes * differs;
        let start = [from, from * 0.96, from * 0.9];
        Truth::stepped(0.2, 1_800.0, start, move |_, s| {
            let out = loses * (s[0] - room + radiates(s[0], room) / 25.0);
            [
                (s[1] - s[0] - out) / minutes,
                (s[0] + s[2] - 2.0 * s[1]) / heavy / minutes,
                (s[1] - s[2]) / heavy / 2.0 / minutes,
            ]
        })
    };
    let mut world = {
        let differs = draw.one_of(&[0.85, 1.15]);
        let truth = morning(draw, differs);
        let level = draw.between(197.0, 217.0);
        world(draw, truth, level, room)
    };
    world.earlier = (0..3)
        .map(|_| {
            let differs = 1.0 + 0.02 * draw.normal();
            let truth = morning(draw, differs);
            world.probe.sees(&truth, draw)
        })
        .collect();
    world.told = None;
    world
}
