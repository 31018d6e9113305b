//! The worlds that the forecast's figures were chosen on: closed forms and
//! small sets of equations.

use super::{Draw, Family, Probe, Truth, World};

/// Seeds of these worlds.
pub const SEEDS: std::ops::Range<u64> = 0..60;

pub const FAMILIES: [Family; 15] = [
    Family {
        name: "one exponential",
        smooth: true,
        make: one,
    },
    Family {
        name: "two exponentials",
        smooth: true,
        make: two,
    },
    Family {
        name: "cycling fridge",
        smooth: true,
        make: cycling,
    },
    Family {
        name: "evaporating pan",
        smooth: true,
        make: evaporating,
    },
    Family {
        name: "core of a slab",
        smooth: true,
        make: slab,
    },
    Family {
        name: "core of a cylinder",
        smooth: true,
        make: cylinder,
    },
    Family {
        name: "thawing",
        smooth: false,
        make: thawing,
    },
    Family {
        name: "joint that stalls",
        smooth: false,
        make: stalling,
    },
    Family {
        name: "door opened three times",
        smooth: false,
        make: door,
    },
    Family {
        name: "raked out",
        smooth: false,
        make: raked,
    },
    Family {
        name: "lid off",
        smooth: false,
        make: lid_off,
    },
    Family {
        name: "lid on",
        smooth: false,
        make: lid_on,
    },
    Family {
        name: "into an ice bath",
        smooth: false,
        make: ice_bath,
    },
    Family {
        name: "fridge, unsaid",
        smooth: false,
        make: fridge_unsaid,
    },
    Family {
        name: "fourth morning",
        smooth: false,
        make: fourth_morning,
    },
];

fn probe(draw: &mut Draw) -> Probe {
    Probe {
        every: draw.one_of(&[0.5, 1.0, 2.0]),
        noise: draw.scale(0.03, 0.3),
        step: draw.one_of(&[0.0, 0.1, 0.25]),
    }
}

fn maybe(draw: &mut Draw, told: f64, give: f64) -> Option<(f64, f64)> {
    let off = give * draw.normal();
    (draw.unit() < 0.6).then_some((told + off, give))
}

fn plain(truth: Truth, level: f64, told: Option<(f64, f64)>, draw: &mut Draw) -> World {
    World {
        truth,
        probe: probe(draw),
        level,
        told,
        events: Vec::new(),
        earlier: Vec::new(),
    }
}

fn one(draw: &mut Draw) -> World {
    let (from, toward, tau) = (
        draw.between(60.0, 95.0),
        draw.one_of(&[3.0, 20.0]) + draw.between(-2.0, 2.0),
        draw.scale(30.0, 150.0),
    );
    let level = toward + (from - toward) * draw.between(0.12, 0.6);
    let told = maybe(draw, toward, 1.5);
    let truth = Truth::of(0.1, 5.0 * tau, |t| {
        toward + (from - toward) * (-t / tau).exp()
    });
    plain(truth, level, told, draw)
}

fn two(draw: &mut Draw) -> World {
    let (from, toward, tau) = (
        draw.between(200.0, 300.0),
        draw.between(15.0, 40.0),
        draw.scale(60.0, 400.0),
    );
    let (share, ratio) = (draw.between(-0.3, 0.5), draw.between(2.5, 8.0));
    let level = toward + (from - toward) * draw.between(0.2, 0.6);
    let told = maybe(draw, toward, 3.0);
    let truth = Truth::of(0.25, 5.0 * tau, |t| {
        toward
            + (from - toward)
                * ((1.0 - share) * (-t / tau).exp() + share * (-t * ratio / tau).exp())
    });
    plain(truth, level, told, draw)
}

fn cycling(draw: &mut Draw) -> World {
    let (from, mean, tau) = (
        draw.between(50.0, 90.0),
        draw.between(2.0, 5.0),
        draw.scale(40.0, 140.0),
    );
    let (swing, period, phase) = (
        draw.between(1.0, 3.0),
        draw.between(12.0, 45.0),
        draw.between(0.0, std::f64::consts::TAU),
    );
    let level = mean + (from - mean) * draw.between(0.12, 0.5);
    let told = maybe(draw, mean, 1.5);
    let truth = Truth::stepped(0.1, 5.0 * tau, [from], |t, [c]| {
        let around = mean + swing * (std::f64::consts::TAU * t / period + phase).sin();
        [(around - c) / tau]
    });
    plain(truth, level, told, draw)
}

/// Saturation pressure of water, hPa, by the Magnus form.
fn vapour(c: f64) -> f64 {
    6.11 * (17.6 * c / (243.0 + c)).exp()
}

fn evaporating(draw: &mut Draw) -> World {
    let (from, toward, tau) = (
        draw.between(75.0, 96.0),
        draw.between(17.0, 28.0),
        draw.scale(60.0, 240.0),
    );
    let wet = draw.between(0.03, 0.12);
    let level = draw.between(toward + 12.0, 60.0);
    let told = maybe(draw, toward, 2.0);
    let truth = Truth::stepped(0.1, 6.0 * tau, [from], |_, [c]| {
        [(toward - c - wet * (vapour(*c) - 0.5 * vapour(toward))) / tau]
    });
    plain(truth, level, told, draw)
}

fn oven_core(draw: &mut Draw, exact: impl Fn(f64) -> f64) -> World {
    let (from, oven) = (draw.between(4.0, 20.0), draw.between(110.0, 200.0));
    let scale = draw.scale(120.0, 400.0);
    let level = draw.between(50.0, 72.0);
    let told = maybe(draw, oven, 5.0);
    let truth = Truth::of(0.1, 3.0 * scale, |t| {
        oven + (from - oven) * exact(t / scale)
    });
    plain(truth, level, told, draw)
}

/// The middle of a plane wall with a constant surface temperature: F. P.
/// Incropera and D. P. DeWitt, Fundamentals of Heat and Mass Transfer, section
/// 5.5, at an infinite Biot number (from memory).
fn slab(draw: &mut Draw) -> World {
    oven_core(draw, |fourier| {
        if fourier < 0.01 {
            return 1.0;
        }
        (0..20)
            .map(|n| {
                let zeta = (f64::from(n) + 0.5) * std::f64::consts::PI;
                let sign = if n % 2 == 0 { 1.0 } else { -1.0 };
                sign * 2.0 / zeta * (-zeta * zeta * fourier).exp()
            })
            .sum()
    })
}

/// The same of an infinite cylinder; zeros of J₀ and J₁ there, M. Abramowitz
/// and I. A. Stegun, table 9.5 (from memory).
fn cylinder(draw: &mut Draw) -> World {
    const ZEROS: [(f64, f64); 6] = [
        (2.404_826, 0.519_147),
        (5.520_078, -0.340_265),
        (8.653_728, 0.271_452),
        (11.791_534, -0.232_460),
        (14.930_918, 0.206_546),
        (18.071_064, -0.187_729),
    ];
    oven_core(draw, |fourier| {
        if fourier < 0.015 {
            return 1.0;
        }
        ZEROS
            .iter()
            .map(|(zeta, j1)| 2.0 / (zeta * j1) * (-zeta * zeta * fourier).exp())
            .sum()
    })
}

/// A lump that takes its latent heat at −1 °C.
fn thawing(draw: &mut Draw) -> World {
    let (from, toward, tau) = (
        draw.between(-22.0, -15.0),
        draw.one_of(&[4.0, 20.0]) + draw.between(-1.5, 1.5),
        draw.scale(40.0, 120.0),
    );
    let latent = draw.between(90.0, 130.0);
    let level = draw.between(0.3, 0.6) * (toward + 1.0);
    let told = maybe(draw, toward, 1.5);
    let truth = Truth::stepped(0.25, 60.0 * tau, [from, 0.0], |_, [c, melted]| {
        let flow = (toward - c) / tau;
        if *c >= -1.0 && *melted < latent {
            [0.0, flow]
        } else {
            [flow * if *c < -1.0 { 1.8 } else { 1.0 }, 0.0]
        }
    });
    plain(truth, level, told, draw)
}

fn stalling(draw: &mut Draw) -> World {
    let (oven, wet, tau) = (
        draw.between(105.0, 130.0),
        draw.between(62.0, 72.0),
        draw.scale(60.0, 150.0),
    );
    let dries = tau * draw.between(2.0, 4.0);
    let level = draw.between(82.0, 93.0);
    let told = maybe(draw, oven, 4.0);
    let truth = Truth::stepped(0.25, 12.0 * tau, [8.0, 8.0], |t, [core, face]| {
        let dry = 1.0 / (1.0 + (-(t - dries) / (0.2 * tau)).exp());
        let around = wet + (oven - wet) * dry;
        [(face - core) * 2.0 / tau, (around - face) * 3.0 / tau]
    });
    plain(truth, level, told, draw)
}

fn door(draw: &mut Draw) -> World {
    let (from, oven, tau) = (
        draw.between(20.0, 40.0),
        draw.between(190.0, 240.0),
        draw.scale(15.0, 40.0),
    );
    let level = from + (oven - from) * draw.between(0.75, 0.9);
    let opened = [0.4, 0.9, 1.5].map(|at| at * tau * draw.between(0.8, 1.2));
    let length = draw.between(0.5, 2.0);
    let drop = draw.between(0.1, 0.25);
    let told = maybe(draw, oven, 5.0);
    let truth = Truth::stepped(0.05, 8.0 * tau, [from], |t, [c]| {
        let open = opened.iter().any(|at| t >= *at && t < at + length);
        [(oven - c) / tau - if open { drop * (c - 25.0) } else { 0.0 }]
    });
    World {
        events: opened.to_vec(),
        ..plain(truth, level, told, draw)
    }
}

/// Something is done at a moment to a body of one exponential.
fn switched(
    draw: &mut Draw,
    (from, before, tau_before): (f64, f64, f64),
    (after, tau_after): (f64, f64),
    told: Option<(f64, f64)>,
) -> World {
    let at = tau_before * draw.between(0.15, 0.5);
    let turned = before + (from - before) * (-at / tau_before).exp();
    let level = after + (turned - after) * draw.between(0.2, 0.6);
    let truth = Truth::of(0.1, at + 5.0 * tau_after, |t| {
        if t < at {
            before + (from - before) * (-t / tau_before).exp()
        } else {
            after + (turned - after) * (-(t - at) / tau_after).exp()
        }
    });
    World {
        events: vec![at],
        ..plain(truth, level, told, draw)
    }
}

/// Fire held, then raked out: a hot face that falls at once over deep bricks.
fn raked(draw: &mut Draw) -> World {
    let from = draw.between(300.0, 380.0);
    let at = draw.between(20.0, 60.0);
    let (face, deep) = (draw.scale(8.0, 20.0), draw.scale(200.0, 500.0));
    let room = draw.between(20.0, 35.0);
    let bricks = from * draw.between(0.75, 0.9);
    let level = draw.between(204.0, 216.0);
    let told = maybe(draw, room, 5.0);
    let truth = Truth::of(0.25, at + 4.0 * deep, |t| {
        if t < at {
            from - 0.1 * t
        } else {
            let past = t - at;
            let top = from - 0.1 * at;
            room + (bricks - room) * (-past / deep).exp() + (top - bricks) * (-past / face).exp()
        }
    });
    World {
        events: vec![at],
        ..plain(truth, level, told, draw)
    }
}

fn lid_off(draw: &mut Draw) -> World {
    let (room, tau) = (draw.between(18.0, 26.0), draw.scale(120.0, 300.0));
    let (from, faster) = (draw.between(80.0, 95.0), tau * draw.between(0.35, 0.7));
    let told = maybe(draw, room, 2.0);
    switched(draw, (from, room, tau), (room, faster), told)
}

fn lid_on(draw: &mut Draw) -> World {
    let (room, tau) = (draw.between(18.0, 26.0), draw.scale(60.0, 150.0));
    let (from, slower) = (draw.between(80.0, 95.0), tau * draw.between(1.5, 3.0));
    let told = maybe(draw, room, 2.0);
    switched(draw, (from, room, tau), (room, slower), told)
}

fn ice_bath(draw: &mut Draw) -> World {
    let (room, tau) = (draw.between(18.0, 26.0), draw.scale(90.0, 240.0));
    let (from, faster) = (draw.between(70.0, 95.0), draw.scale(12.0, 40.0));
    let told = maybe(draw, room, 2.0);
    switched(draw, (from, room, tau), (0.5, faster), told)
}

fn fridge_unsaid(draw: &mut Draw) -> World {
    let (room, tau) = (draw.between(18.0, 26.0), draw.scale(60.0, 200.0));
    let (from, after) = (draw.between(60.0, 90.0), tau * draw.between(0.7, 1.0));
    let fridge = draw.between(2.0, 5.0);
    switched(draw, (from, room, tau), (fridge, after), Some((room, 2.0)))
}

fn fourth_morning(draw: &mut Draw) -> World {
    let (tau, ratio, share) = (
        draw.scale(200.0, 500.0),
        draw.between(4.0, 8.0),
        draw.between(0.1, 0.3),
    );
    let room = draw.between(18.0, 35.0);
    let probe = probe(draw);
    let morning = |draw: &mut Draw, differs: f64| {
        let from = draw.between(280.0, 310.0);
        let tau = tau * differs;
        Truth::of(0.5, 3.0 * tau, move |t| {
            room + (from - room)
                * ((1.0 - share) * (-t / tau).exp() + share * (-t * ratio / tau).exp())
        })
    };
    let earlier = (0..3)
        .map(|_| {
            let differs = 1.0 + 0.03 * draw.normal();
            let truth = morning(draw, differs);
            probe.sees(&truth, draw)
        })
        .collect();
    let differs = draw.one_of(&[0.85, 1.15]);
    World {
        truth: morning(draw, differs),
        probe,
        level: draw.between(200.0, 220.0),
        told: None,
        events: Vec::new(),
        earlier,
    }
}
