//! Pans in a cold store that keep or miss the cooling limits by so many
//! minutes: every pan of a family is made slower or quicker until it does.
//!
//! [`TUNED`] is what the call for action was chosen on, [`JUDGED`] what it is
//! reported on: other equations, and other seeds.

use super::pans::{LIMITS, Pan};
use super::{Draw, Probe, Truth};

/// A course by how slow the pan is; 1 is what was drawn.
type Course = Box<dyn Fn(f64) -> Truth>;

/// A kind of pan.
#[derive(Clone, Copy)]
pub struct Kind {
    pub name: &'static str,
    /// The store, °C, and what becomes of a pan in it.
    pub make: fn(&mut Draw) -> (f64, Course),
}

const fn kind(name: &'static str, make: fn(&mut Draw) -> (f64, Course)) -> Kind {
    Kind { name, make }
}

pub const TUNED: [Kind; 4] = [
    kind("two exponentials in a wave", waved),
    kind("relay and 1.15th power", relayed),
    kind("thick, one part in another", nested),
    kind("stirred once", stirred),
];

pub const JUDGED: [Kind; 10] = [
    kind("one exponential", one),
    kind("two exponentials", two),
    kind("cycling fridge", cycling),
    kind("evaporating pan", evaporating),
    kind("natural convection", convecting),
    kind("lid on", lid_on),
    kind("lid off", lid_off),
    kind("store warmed by the pan", warmed),
    kind("core of a slab", slab),
    kind("store door in service", door),
];

pub const TUNED_SEEDS: u64 = 10_000;
pub const JUDGED_SEEDS: u64 = 830_000;

/// Minutes to spare of good pans, minutes late of bad ones.
pub const MARGINS: [(f64, f64); 3] = [(5.0, 10.0), (10.0, 20.0), (20.0, 50.0)];

/// Minutes to spare at the limit that is kept worse; negative where it is
/// missed.
fn spare(truth: &Truth) -> f64 {
    let began = truth.reaches(57.0).unwrap_or(0.0);
    LIMITS
        .iter()
        .map(|(level, within)| truth.reaches(*level).map_or(-1e3, |at| began + within - at))
        .fold(f64::INFINITY, f64::min)
}

/// A pan of a kind that has so many minutes to spare.
pub fn pan(kind: Kind, draw: &mut Draw, margin: f64) -> Pan {
    loop {
        let (store, course) = (kind.make)(draw);
        let (mut quick, mut slow) = (0.15_f64.ln(), 8.0_f64.ln());
        for _ in 0..14 {
            let middle = f64::midpoint(quick, slow);
            if spare(&course(middle.exp())) > margin {
                quick = middle;
            } else {
                slow = middle;
            }
        }
        let truth = course(quick.exp());
        if (spare(&truth) - margin).abs() > 1.0 {
            continue;
        }
        let told = (draw.unit() < 0.5).then_some((store + draw.normal(), 2.0));
        let probe = Probe {
            every: draw.one_of(&[0.5, 1.0, 2.0, 5.0]),
            noise: draw.scale(0.03, 0.25),
            step: draw.one_of(&[0.0, 0.1, 0.25]),
        };
        return Pan { truth, probe, told };
    }
}

const STEP: f64 = 0.25;
const LENGTH: f64 = 520.0;

fn stepped<const N: usize>(from: [f64; N], change: impl Fn(f64, &[f64; N]) -> [f64; N]) -> Truth {
    Truth::stepped(STEP, LENGTH, from, change)
}

fn waved(draw: &mut Draw) -> (f64, Course) {
    let (store, from, tau) = (draw.between(0.5, 3.5), draw.between(62.0, 92.0), 80.0);
    let (share, ratio) = (draw.between(-0.15, 0.25), draw.between(4.0, 12.0));
    let (swing, wave) = (draw.between(0.0, 1.0), draw.between(0.15, 0.5));
    let course = move |slow: f64| {
        Truth::of(STEP, LENGTH, |t| {
            let t1 = t / (tau * slow);
            let fall = (1.0 - share) * (-t1).exp() + share * (-ratio * t1).exp();
            store + (from - store) * fall + swing / (1.0 + wave * tau * slow) * (wave * t).sin()
        })
    };
    (store, Box::new(course))
}

fn relayed(draw: &mut Draw) -> (f64, Course) {
    let (store, from) = (draw.between(0.5, 3.0), draw.between(60.0, 93.0));
    let (link, swing, wave) = (
        draw.between(2.0, 12.0),
        draw.between(0.3, 1.2),
        draw.between(0.2, 0.6),
    );
    let course = move |slow: f64| {
        stepped([from, from], |t, s| {
            let air = store + swing * (wave * t).sin().signum();
            let off = s[1] - air;
            [
                link * (s[1] - s[0]) / (80.0 * slow),
                2.0 * (link * (s[0] - s[1]) - off * (off.abs() / 30.0).powf(0.15)) / (80.0 * slow),
            ]
        })
    };
    (store, Box::new(course))
}

fn nested(draw: &mut Draw) -> (f64, Course) {
    let (store, from) = (draw.between(0.5, 3.5), draw.between(62.0, 92.0));
    let link = draw.scale(1.0, 4.0);
    let course = move |slow: f64| {
        stepped([from, from, from], |_, s| {
            [
                2.0 * link * (s[1] - s[0]) / (60.0 * slow),
                link * (s[0] + s[2] - 2.0 * s[1]) / (60.0 * slow),
                (link * (s[1] - s[2]) - (s[2] - store)) / (60.0 * slow),
            ]
        })
    };
    (store, Box::new(course))
}

/// Cools faster from a moment on for some minutes.
fn stirred(draw: &mut Draw) -> (f64, Course) {
    let (store, from) = (draw.between(0.5, 3.5), draw.between(62.0, 92.0));
    let (at, long, faster) = (
        draw.between(15.0, 80.0),
        draw.between(2.0, 6.0),
        draw.between(1.5, 3.0),
    );
    let course = move |slow: f64| {
        stepped([from], |t, s| {
            let by = if t > at && t < at + long { faster } else { 1.0 };
            [-by * (s[0] - store) / (80.0 * slow)]
        })
    };
    (store, Box::new(course))
}

fn store(draw: &mut Draw) -> (f64, f64) {
    (draw.between(0.0, 3.8), draw.between(59.0, 95.0))
}

fn one(draw: &mut Draw) -> (f64, Course) {
    let (air, from) = store(draw);
    let course = move |slow: f64| {
        Truth::of(STEP, LENGTH, |t| {
            air + (from - air) * (-t / (75.0 * slow)).exp()
        })
    };
    (air, Box::new(course))
}

fn two(draw: &mut Draw) -> (f64, Course) {
    let (air, from) = store(draw);
    let (share, ratio) = (draw.between(-0.25, 0.4), draw.between(3.0, 10.0));
    let course = move |slow: f64| {
        Truth::of(STEP, LENGTH, |t| {
            let t = t / (75.0 * slow);
            air + (from - air) * ((1.0 - share) * (-t).exp() + share * (-ratio * t).exp())
        })
    };
    (air, Box::new(course))
}

/// Air that rises evenly and is cooled at once, as a compressor does.
fn cycling(draw: &mut Draw) -> (f64, Course) {
    let (air, from) = store(draw);
    let (swing, period) = (draw.between(0.5, 2.5), draw.between(8.0, 35.0));
    let course = move |slow: f64| {
        stepped([from], |t, s| {
            let saw = swing * ((t / period).fract() - 0.5);
            [-(s[0] - air - saw) / (75.0 * slow)]
        })
    };
    (air, Box::new(course))
}

/// Tetens, hPa (O. Tetens, 1930, from memory).
fn pressure(celsius: f64) -> f64 {
    6.1078 * (17.269 * celsius / (237.3 + celsius)).exp()
}

fn evaporating(draw: &mut Draw) -> (f64, Course) {
    let (air, from) = store(draw);
    let (wet, humid) = (draw.between(0.03, 0.15), draw.between(0.5, 0.9));
    let course = move |slow: f64| {
        stepped([from], |_, s| {
            let gives = wet * (pressure(s[0]) - humid * pressure(air)).max(0.0);
            [-(s[0] - air + gives) / (90.0 * slow)]
        })
    };
    (air, Box::new(course))
}

/// Convection by the 5/4th power.
fn convecting(draw: &mut Draw) -> (f64, Course) {
    let (air, from) = store(draw);
    let course = move |slow: f64| {
        stepped([from], |_, s| {
            let off = s[0] - air;
            [-off * (off.abs() / 20.0).powf(0.25) / (75.0 * slow)]
        })
    };
    (air, Box::new(course))
}

fn turned(draw: &mut Draw, low: f64, high: f64) -> (f64, Course) {
    let (air, from) = store(draw);
    let (at, by) = (draw.between(15.0, 70.0), draw.between(low, high));
    let course = move |slow: f64| {
        stepped([from], |t, s| {
            let by = if t > at { by } else { 1.0 };
            [-by * (s[0] - air) / (75.0 * slow)]
        })
    };
    (air, Box::new(course))
}

fn lid_on(draw: &mut Draw) -> (f64, Course) {
    turned(draw, 0.6, 0.85)
}

fn lid_off(draw: &mut Draw) -> (f64, Course) {
    turned(draw, 1.2, 1.7)
}

fn warmed(draw: &mut Draw) -> (f64, Course) {
    let (air, from) = store(draw);
    let (by, gone) = (draw.between(0.03, 0.12), draw.between(15.0, 60.0));
    let course = move |slow: f64| {
        stepped([from, air], |_, s| {
            [
                -(s[0] - s[1]) / (70.0 * slow),
                (air + by * (s[0] - air) - s[1]) / gone,
            ]
        })
    };
    (air, Box::new(course))
}

/// Eight layers from the middle to the face.
fn slab(draw: &mut Draw) -> (f64, Course) {
    let (air, from) = store(draw);
    let biot = draw.scale(0.5, 6.0);
    let course = move |slow: f64| {
        stepped([from; 8], |_, s| {
            let k = 8.0 * 8.0 / (260.0 * slow);
            std::array::from_fn(|i| {
                let inward = if i == 0 { 0.0 } else { s[i - 1] - s[i] };
                let outward = if i == 7 {
                    (air - s[7]) / (0.5 + 8.0 / biot)
                } else {
                    s[i + 1] - s[i]
                };
                k * (inward + outward)
            })
        })
    };
    (air, Box::new(course))
}

/// The store's door stands open for minutes, six times.
fn door(draw: &mut Draw) -> (f64, Course) {
    let (air, from) = store(draw);
    let open: [f64; 6] = std::array::from_fn(|_| draw.between(0.0, 340.0));
    let (long, warmer) = (draw.between(2.0, 8.0), draw.between(4.0, 9.0));
    let course = move |slow: f64| {
        stepped([from], |t, s| {
            let warm = open.iter().any(|at| t > *at && t < at + long);
            let air = air + if warm { warmer } else { 0.0 };
            [-(s[0] - air) / (75.0 * slow)]
        })
    };
    (air, Box::new(course))
}
