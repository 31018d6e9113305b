//! A third set of worlds: conduction through bricks and joints by finite
//! volumes, thawing by enthalpies, thermostats with a relay, evaporation by
//! vapour pressure; other equations, ranges, noise and sampling than those of
//! [`tuning`](super::tuning) and [`second`](super::second). It was reported on
//! first; the restart, the passing disturbances and the replay were then chosen
//! on its first sixteen seeds too.

use super::{Draw, Probe, Truth, World};

/// Seeds of these worlds.
pub const SEEDS: std::ops::Range<u64> = 500_000..500_080;

families!();

fn probe(draw: &mut Draw) -> Probe {
    Probe {
        every: draw.one_of(&[1.0 / 3.0, 0.5, 1.0, 2.0, 5.0]),
        noise: draw.scale(0.03, 0.35),
        step: draw.one_of(&[0.0, 0.05, 0.1, 0.25, 0.5]),
    }
}

/// Two cooks in five say what it stands in, within a degree or three.
fn world(draw: &mut Draw, truth: Truth, level: f64, around: f64) -> World {
    let give = draw.between(1.0, 3.0);
    let told = around + give * draw.normal();
    World {
        truth,
        probe: probe(draw),
        level,
        told: (draw.unit() < 0.4).then_some((told, give)),
        events: Vec::new(),
        earlier: Vec::new(),
    }
}

/// A course of as many parts as a state has, of which `seen` is read.
pub fn course(
    step: f64,
    length: f64,
    mut state: Vec<f64>,
    seen: impl Fn(&[f64]) -> f64,
    mut change: impl FnMut(f64, &[f64], &mut [f64]),
) -> Truth {
    let n = (length / step) as usize;
    let mut by = vec![0.0; state.len()];
    let celsius = (0..=n)
        .map(|i| {
            let celsius = seen(&state);
            change(i as f64 * step, &state, &mut by);
            for (value, by) in state.iter_mut().zip(&by) {
                *value += by * step;
            }
            celsius
        })
        .collect();
    Truth { step, celsius }
}

pub fn first(state: &[f64]) -> f64 {
    state[0]
}

/// A pan that cools, or one in three times something cold in a warm bath.
fn one(draw: &mut Draw) -> World {
    let (from, around) = if draw.unit() < 0.33 {
        (draw.between(2.0, 10.0), draw.between(54.0, 85.0))
    } else {
        (draw.between(50.0, 96.0), draw.between(-1.0, 26.0))
    };
    let tau = draw.scale(35.0, 260.0);
    let level = around + (from - around) * draw.between(0.14, 0.5);
    let truth = Truth::of(0.1, 4.5 * tau, |t| {
        around + (from - around) * (-t / tau).exp()
    });
    world(draw, truth, level, around)
}

fn two(draw: &mut Draw) -> World {
    let (from, around) = if draw.unit() < 0.5 {
        (draw.between(60.0, 95.0), draw.between(1.0, 25.0))
    } else {
        (draw.between(150.0, 310.0), draw.between(16.0, 36.0))
    };
    let (tau, ratio) = (draw.scale(60.0, 350.0), draw.between(3.0, 9.0));
    let share = draw.between(-0.25, 0.5);
    let level = around + (from - around) * draw.between(0.18, 0.5);
    let truth = Truth::of(0.2, 5.0 * tau, |t| {
        let slow = (1.0 - share) * (-t / tau).exp();
        around + (from - around) * (slow + share * (-ratio * t / tau).exp())
    });
    world(draw, truth, level, around)
}

/// Air by a thermostat's relay, warmed by the pan that stands in it.
fn cycling(draw: &mut Draw) -> World {
    let (from, set) = (draw.between(52.0, 85.0), draw.between(2.0, 4.5));
    let (tau, band) = (draw.scale(45.0, 160.0), draw.between(0.8, 2.5));
    let (cools, warms) = (draw.between(0.2, 0.8), draw.between(0.1, 0.3));
    let level = set + (from - set) * draw.between(0.15, 0.5);
    let mut on = draw.unit() < 0.5;
    let truth = course(0.1, 5.0 * tau, vec![from, set], first, |_, s, by| {
        if s[1] > set + band {
            on = true;
        } else if s[1] < set - band {
            on = false;
        }
        by[0] = (s[1] - s[0]) / tau;
        by[1] = if on { -cools } else { warms } + 0.002 * (s[0] - s[1]);
    });
    world(draw, truth, level, set)
}

/// Saturation pressure of water in hPa (O. Tetens, 1930, from memory).
fn pressure(celsius: f64) -> f64 {
    6.107_8 * 10_f64.powf(7.5 * celsius / (237.3 + celsius))
}

/// Heat that a free surface loses beside what it loses dry, in degrees.
fn evaporation(celsius: f64, around: f64, humidity: f64, wet: f64) -> f64 {
    wet * (pressure(celsius) - humidity * pressure(around)).max(0.0)
}

/// Natural convection, which grows with the fourth root of the difference.
fn evaporating(draw: &mut Draw) -> World {
    let (from, around) = (draw.between(78.0, 97.0), draw.between(17.0, 29.0));
    let (tau, wet) = (draw.scale(70.0, 280.0), draw.between(0.04, 0.16));
    let humidity = draw.between(0.3, 0.7);
    let level = draw.between(around + 13.0, 58.0);
    let truth = course(0.1, 7.0 * tau, vec![from], first, |_, s, by| {
        let off = s[0] - around;
        let dry = off * (off.abs() / 40.0).powf(0.25);
        by[0] = -(dry + evaporation(s[0], around, humidity, wet)) / tau;
    });
    world(draw, truth, level, around)
}

/// Change of a plate's (`shape` 0) or a cylinder's (1) cells from the middle to
/// the face by finite volumes, half width 1, a Fourier number of 1 in so many
/// minutes.
fn conduction(shape: i32, c: &[f64], around: f64, biot: f64, minutes: f64, by: &mut [f64]) {
    let n = c.len();
    let cells = n as f64;
    let area = |i: usize| (i as f64 / cells).powi(shape);
    for i in 0..n {
        let volume = (area(i) + area(i + 1)) / 2.0;
        let inward = if i == 0 {
            0.0
        } else {
            area(i) * (c[i - 1] - c[i])
        };
        let outward = if i + 1 < n {
            area(i + 1) * (c[i + 1] - c[i])
        } else {
            (around - c[i]) / (0.5 + cells / biot)
        };
        by[i] = (inward + outward) / volume * cells * cells / minutes;
    }
}

const CELLS: usize = 14;

/// A step at which explicit conduction is stable.
fn stable(minutes: f64) -> f64 {
    (0.2 * minutes / (CELLS * CELLS) as f64).min(0.25)
}

/// The middle, or next to it: nobody hits it.
fn slab(draw: &mut Draw) -> World {
    let (from, oven) = (draw.between(3.0, 16.0), draw.between(95.0, 190.0));
    let (biot, minutes) = (draw.scale(1.0, 20.0), draw.scale(140.0, 500.0));
    let level = draw.between(52.0, 74.0);
    let place = draw.one_of(&[0, 0, 1, 2]);
    let truth = course(
        stable(minutes),
        2.5 * minutes,
        vec![from; CELLS],
        |s| s[place],
        |_, s, by| conduction(0, s, oven, biot, minutes, by),
    );
    world(draw, truth, level, oven)
}

/// A short cylinder: the excess is the product of a plate's and a long
/// cylinder's (A. B. Newman, 1936, from memory).
fn cylinder(draw: &mut Draw) -> World {
    let (from, oven) = (draw.between(3.0, 16.0), draw.between(95.0, 190.0));
    let (biot, minutes) = (draw.scale(1.0, 20.0), draw.scale(200.0, 700.0));
    let length = draw.between(1.2, 4.0);
    let level = draw.between(52.0, 74.0);
    let half = |shape, biot, minutes| {
        course(
            stable(minutes),
            2.5 * minutes,
            vec![1.0; CELLS],
            first,
            move |_, s, by| conduction(shape, s, 0.0, biot, minutes, by),
        )
    };
    let (round, flat) = (
        half(1, biot, minutes),
        half(0, biot * length, minutes * length * length),
    );
    let truth = Truth::of(0.25, 2.5 * minutes, |t| {
        oven + (from - oven) * round.at(t) * flat.at(t)
    });
    world(draw, truth, level, oven)
}

/// Of a food whose water freezes from this down, °C, with its specific heats
/// and its latent heat, kJ/(kg K) and kJ/kg (Q. T. Pham, Food Freezing and
/// Thawing Calculations, from memory: ice is 1 − Tf/T of what can freeze).
const FREEZES: f64 = -1.0;
const THAWED: f64 = 3.6;
const FROZEN: f64 = 2.0;

/// Its temperature by its heat content, counted from where it begins to freeze.
pub fn by_enthalpy(heat: f64, latent: f64) -> f64 {
    if heat >= 0.0 {
        return FREEZES + heat / THAWED;
    }
    let b = FROZEN * FREEZES + latent + heat;
    (b - (b * b - 4.0 * FROZEN * latent * FREEZES).sqrt()) / (2.0 * FROZEN)
}

pub fn enthalpy(celsius: f64, latent: f64) -> f64 {
    FROZEN * (celsius - FREEZES) - latent * (1.0 - FREEZES / celsius)
}

/// A plate that thaws in a cold store or in the kitchen, its frozen part
/// conducting better than the thawed.
fn thawing(draw: &mut Draw) -> World {
    let (from, around) = (
        draw.between(-22.0, -10.0),
        draw.one_of(&[4.0, 10.0, 20.0]) + draw.between(-1.5, 1.5),
    );
    let latent = draw.between(200.0, 260.0);
    let (biot, minutes) = (draw.scale(0.3, 6.0), draw.scale(60.0, 240.0));
    let level = around * draw.between(0.25, 0.6);
    let cells = 8.0;
    let start = vec![enthalpy(from, latent); 8];
    let step = 0.05 * minutes / (cells * cells);
    let truth = course(
        step.min(0.5),
        90.0 * minutes,
        start,
        |s| by_enthalpy(s[0], latent),
        |_, s, by| {
            let c: Vec<f64> = s.iter().map(|h| by_enthalpy(*h, latent)).collect();
            let conducts = |i: usize| if c[i] < FREEZES { 3.0 } else { 1.0 };
            let between =
                |i: usize| 2.0 / (1.0 / conducts(i) + 1.0 / conducts(i + 1)) * (c[i + 1] - c[i]);
            for i in 0..8 {
                let inward = if i == 0 { 0.0 } else { -between(i - 1) };
                let outward = if i < 7 {
                    between(i)
                } else {
                    (around - c[i]) / (0.5 / conducts(i) + cells / biot)
                };
                by[i] = THAWED * (inward + outward) * cells * cells / minutes;
            }
        },
    );
    world(draw, truth, level, around)
}

/// A joint whose wet face gives off what it takes up, less and less as it dries.
fn stalling(draw: &mut Draw) -> World {
    let (oven, tau) = (draw.between(98.0, 125.0), draw.scale(45.0, 130.0));
    let (wet, water) = (draw.between(0.12, 0.25), draw.between(60.0, 140.0));
    let level = draw.between(82.0, 92.0);
    let truth = course(0.2, 25.0 * tau, vec![5.0, 5.0, water], first, |_, s, by| {
        let activity = (2.0 * s[2] / water).clamp(0.0, 1.0);
        let gives = wet * activity * (pressure(s[1]) - 25.0).max(0.0);
        by[0] = 1.5 * (s[1] - s[0]) / tau;
        by[1] = (2.0 * (oven - s[1]) - gives + 0.6 * (s[0] - s[1])) / tau;
        by[2] = -gives / tau;
    });
    world(draw, truth, level, oven)
}

/// A tray in an oven with a relay, its door opened three times on the way.
fn door(draw: &mut Draw) -> World {
    let (oven, tau) = (draw.between(150.0, 230.0), draw.scale(30.0, 100.0));
    let level = draw.between(60.0, 90.0);
    let way = tau * ((oven - 6.0) / (oven - level)).ln();
    let opened = [0.2, 0.45, 0.75].map(|at| at * way * draw.between(0.85, 1.15));
    let length = draw.between(0.75, 3.0);
    let mut on = true;
    let truth = course(0.05, 8.0 * tau, vec![6.0, 6.0, oven], first, |t, s, by| {
        if s[2] > oven + 4.0 {
            on = false;
        } else if s[2] < oven - 4.0 {
            on = true;
        }
        let open = opened.iter().any(|at| t >= *at && t < at + length);
        by[0] = 4.0 * (s[1] - s[0]) / tau;
        by[1] = (1.3 * (s[2] - s[1]) + 1.0 * (s[0] - s[1])) / tau;
        by[2] = if open {
            (60.0 - s[2]) / 1.5
        } else if on {
            0.08 * (oven + 60.0 - s[2])
        } else {
            -0.01 * (s[2] - 25.0)
        };
    });
    World {
        events: opened.to_vec(),
        ..world(draw, truth, level, oven)
    }
}

/// Bricks under a fire, ten cells deep, that is raked out: the face radiates.
fn raked(draw: &mut Draw) -> World {
    let at = draw.between(20.0, 50.0);
    let fire = draw.between(300.0, 370.0);
    let minutes = draw.scale(300.0, 900.0);
    let (room, loses) = (draw.between(18.0, 36.0), draw.between(0.3, 0.8));
    let level = draw.between(200.0, 222.0);
    let start: Vec<f64> = (0..10)
        .map(|i| fire * (1.0 - 0.04 * f64::from(i)))
        .collect();
    let truth = course(0.1, 1_800.0, start, first, |t, s, by| {
        let k = 100.0 / minutes;
        for i in 0..10 {
            let front = if i == 0 { 0.0 } else { s[i - 1] - s[i] };
            let back = if i == 9 { 0.0 } else { s[i + 1] - s[i] };
            by[i] = k * (front + back);
        }
        by[0] += if t < at {
            (fire - s[0]) / 5.0
        } else {
            let hot = ((s[0] + 273.15) / 500.0).powi(4) - ((room + 273.15) / 500.0).powi(4);
            -k * loses * (0.1 * (s[0] - room) + 20.0 * hot)
        };
    });
    World {
        events: vec![at],
        ..world(draw, truth, level, room)
    }
}

/// A pot that is left alone, and from a moment on loses heat in another way:
/// degrees a minute by its temperature.
fn turned(
    draw: &mut Draw,
    room: f64,
    before: impl Fn(f64) -> f64,
    after: impl Fn(f64, f64) -> f64,
    floor: f64,
) -> World {
    let from = draw.between(68.0, 95.0);
    // Until a share of the way to the room is gone.
    let share = draw.between(0.08, 0.3);
    let until = from - share * (from - room);
    let (mut at, mut celsius) = (0.0, from);
    while celsius > until {
        celsius += 0.1 * before(celsius);
        at += 0.1;
    }
    let level = floor + (celsius - floor) * draw.between(0.2, 0.55);
    let truth = course(0.1, at + 2_500.0, vec![from], first, |t, s, by| {
        by[0] = if t < at {
            before(s[0])
        } else {
            after(s[0], t - at)
        };
    });
    World {
        events: vec![at],
        told: Some((room + draw.normal(), 2.0)),
        ..world(draw, truth, level, room)
    }
}

fn lid_off(draw: &mut Draw) -> World {
    let (room, tau) = (draw.between(18.0, 28.0), draw.scale(90.0, 260.0));
    let wet = draw.between(0.06, 0.25);
    turned(
        draw,
        room,
        move |c| -(c - room) / tau,
        move |c, _| -(c - room + evaporation(c, room, 0.5, wet)) / tau,
        room + 4.0,
    )
}

fn lid_on(draw: &mut Draw) -> World {
    let (room, tau) = (draw.between(18.0, 28.0), draw.scale(120.0, 300.0));
    let wet = draw.between(0.06, 0.25);
    turned(
        draw,
        room,
        move |c| -(c - room + evaporation(c, room, 0.5, wet)) / tau,
        move |c, _| -(c - room) / tau,
        room + 4.0,
    )
}

/// A bath that the pot warms at first and that is topped up with ice.
fn ice_bath(draw: &mut Draw) -> World {
    let (room, tau) = (draw.between(18.0, 28.0), draw.scale(100.0, 260.0));
    let (fast, warmed) = (draw.scale(10.0, 45.0), draw.between(1.0, 6.0));
    turned(
        draw,
        room,
        move |c| -(c - room) / tau,
        move |c, t| -(c - 0.5 - warmed * (-t / fast).exp()) / fast,
        1.5,
    )
}

/// A cold store whose air the pot warms a little.
fn fridge_unsaid(draw: &mut Draw) -> World {
    let (room, tau) = (draw.between(18.0, 28.0), draw.scale(70.0, 220.0));
    let (store, faster) = (draw.between(1.0, 5.0), draw.between(0.6, 1.2));
    turned(
        draw,
        room,
        move |c| -(c - room) / tau,
        move |c, _| -0.96 * (c - store) / (tau * faster),
        store + 1.0,
    )
}

/// Bricks ten cells deep on three mornings and on a fourth that takes 15 % more
/// or less time.
fn fourth_morning(draw: &mut Draw) -> World {
    let (minutes, room) = (draw.scale(500.0, 1_200.0), draw.between(16.0, 36.0));
    let loses = draw.between(0.3, 0.8);
    let morning = |draw: &mut Draw, differs: f64| {
        let from = draw.between(265.0, 315.0);
        let k = 100.0 / (minutes * differs);
        let start: Vec<f64> = (0..10)
            .map(|i| from * (1.0 - 0.02 * f64::from(i)))
            .collect();
        course(0.2, 1_500.0, start, first, move |_, s, by| {
            for i in 0..10 {
                let front = if i == 0 { 0.0 } else { s[i - 1] - s[i] };
                let back = if i == 9 { 0.0 } else { s[i + 1] - s[i] };
                by[i] = k * (front + back);
            }
            let hot = ((s[0] + 273.15) / 500.0).powi(4) - ((room + 273.15) / 500.0).powi(4);
            by[0] -= k * loses * (0.1 * (s[0] - room) + 20.0 * hot);
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

    // F. P. Incropera and D. P. DeWitt, table 5.1 (from memory): a plate at Bi = 2 has a first root
    // of 1.0769 and a first coefficient of 1.1785, a cylinder 1.5995 and 1.3384.
    #[test]
    fn finite_volumes_agree_with_the_series() {
        for (shape, root, coefficient) in [(0, 1.0769_f64, 1.1785), (1, 1.5995, 1.3384)] {
            let truth = course(stable(100.0), 80.0, vec![1.0; CELLS], first, |_, s, by| {
                conduction(shape, s, 0.0, 2.0, 100.0, by)
            });
            let series = coefficient * (-root * root * 0.8).exp();
            assert!((truth.at(80.0) / series - 1.0).abs() < 0.03, "{series}");
        }
    }

    #[test]
    fn heat_content_and_temperature_belong_together() {
        for celsius in [-20.0, -5.0, -1.5] {
            let back = by_enthalpy(enthalpy(celsius, 230.0), 230.0);
            assert!((back - celsius).abs() < 1e-9, "{celsius} {back}");
        }
        assert!((by_enthalpy(36.0, 230.0) - 9.0).abs() < 1e-9);
    }
}
