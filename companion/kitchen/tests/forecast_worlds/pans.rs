//! Pans that cool from hot to cold: do they keep both limits, and what was
//! said of them while something could still be done? This is the one judge of
//! calls on cooling pans.
//!
//! Every pan of a kind is made slower or quicker until it keeps or misses the
//! limits by so many minutes. [`CHOSEN_ON`] are the kinds that the call was
//! chosen on, [`JUDGED`] those that it is reported on: other equations, and
//! other seeds.

use super::{Draw, Probe, Truth, log, moment, surroundings};
use evenhand_kitchen::heat::{Alarm, Habit, outlook};
use evenhand_kitchen::limits::Limits;

/// One pan.
pub struct Pan {
    pub truth: Truth,
    pub probe: Probe,
    pub told: Option<(f64, f64)>,
}

/// US FDA Food Code 2022, 3-501.14(A): from 57 degC to 21 within 2 h, to 5
/// within 6 h; °C and minutes.
pub const LIMITS: [(f64, f64); 2] = [(21.0, 120.0), (5.0, 360.0)];

/// What came of it.
#[derive(Debug, Clone, Copy)]
pub struct Verdict {
    /// Whether it keeps both stages.
    pub keeps: bool,
    /// The first call for action, minutes before the limit it was about.
    pub called: Option<f64>,
    /// The same of "too close to say", before any call.
    pub close: Option<f64>,
    /// Whether it was ever to be watched.
    pub watched: bool,
}

impl Pan {
    /// Asked every so many minutes until both limits are kept or passed.
    pub fn watch(&self, draw: &mut Draw, every: f64) -> Verdict {
        let limits = Limits::food_code();
        let limit = limits.named("cooling").unwrap();
        let began = self.truth.reaches(57.0).unwrap();
        let keeps = LIMITS.iter().all(|(level, within)| {
            self.truth
                .reaches(*level)
                .is_some_and(|at| at <= began + within)
        });
        let points = self.probe.sees(&self.truth, draw);
        let mut verdict = Verdict {
            keeps,
            called: None,
            close: None,
            watched: false,
        };
        let mut at = began + 5.0;
        while at < began + 360.0 {
            let seen = &points[..points.partition_point(|p| p.0 <= at)];
            let now = moment(seen.last().unwrap().0);
            let all = outlook(
                &log(seen),
                limit,
                surroundings(self.told),
                &Habit::default(),
                now,
            );
            let left = |alarm| {
                let loud = all.iter().find(|o| o.alarm == alarm)?;
                Some(loud.deadline?.duration_since(now).as_secs_f64() / 60.0)
            };
            verdict.called = left(Alarm::Act);
            verdict.close = verdict.close.or(left(Alarm::Close));
            verdict.watched |= left(Alarm::Look).is_some();
            let over = all.iter().any(|o| o.alarm == Alarm::Over);
            if verdict.called.is_some() || over || all.is_empty() {
                break;
            }
            at += every;
        }
        verdict
    }
}

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

pub const CHOSEN_ON: [Kind; 13] = [
    kind("two exponentials in a wave", waved),
    kind("relay and 1.15th power", relayed),
    kind("thick, one part in another", nested),
    kind("stirred once", stirred),
    kind("one exponential in its own time", |d| own_time(d, own_one)),
    kind("pot with a heavy bottom", |d| own_time(d, heavy_bottom)),
    kind("compressor by the clock", |d| own_time(d, by_the_clock)),
    kind("evaporating, by Magnus", |d| own_time(d, magnus)),
    kind("1.1th to 1.3th power", |d| own_time(d, powered)),
    kind("core of a thick pan", |d| own_time(d, thick)),
    kind("lid taken off early", |d| own_time(d, |d| lid(d, 1.0, 1.7))),
    kind("lid put on early", |d| own_time(d, |d| lid(d, 1.7, 1.0))),
    kind("air warmed by the pan", |d| own_time(d, loaded)),
];

pub const JUDGED: [Kind; 12] = [
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
    kind("film of water, two nodes", film),
    kind("fan that comes on and goes off", fan),
];

/// Kinds that the calls were looked at on last of all.
pub const LATER: [Kind; 8] = [
    kind("wet tray, 4/3rd power and film", wet_tray),
    kind("skin that forms", skinned),
    kind("beside another hot pan", stacked),
    kind("a while in the kitchen first", kitchen_first),
    kind("core of a cylinder", cylinder),
    kind("1.2th to 1.4th power, two nodes", powered_nodes),
    kind("store that was just loaded", just_loaded),
    kind("radiating, in a still store", still_store),
];

pub const CHOSEN_ON_SEEDS: u64 = 10_000;
pub const JUDGED_SEEDS: u64 = 2_600_000;
pub const LATER_SEEDS: u64 = 4_200_000;

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

/// A pan of a kind that has so many minutes to spare, or misses by as many.
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

/// Stock in a pan of steel: what it gives off goes through a film of air by
/// Lewis' relation, and the film is the thinner the hotter it is.
fn film(draw: &mut Draw) -> (f64, Course) {
    let (air, from) = store(draw);
    let (across, free) = (draw.between(2.0, 6.0), draw.between(0.1, 0.8));
    let vapour = |c: f64| pressure(c) / (c + 273.15);
    let course = move |slow: f64| {
        stepped([from, from], |_, s| {
            let off = s[1] - air;
            let by = 0.4 + 0.6 * (off.abs() / 30.0).cbrt();
            let wet = 450.0 * free * (vapour(s[1]) - 0.8 * vapour(air)).max(0.0);
            [
                across * (s[1] - s[0]) / (75.0 * slow),
                (across * (s[0] - s[1]) - by * (off + wet)) / (20.0 * slow),
            ]
        })
    };
    (air, Box::new(course))
}

/// A store whose fan runs for some minutes and stands for some.
fn fan(draw: &mut Draw) -> (f64, Course) {
    let (air, from) = store(draw);
    let (runs, stands) = (draw.between(4.0, 20.0), draw.between(2.0, 15.0));
    let (still, share) = (draw.between(0.5, 0.85), draw.unit());
    let course = move |slow: f64| {
        stepped([from], |t, s| {
            let at = (t + share * (runs + stands)) % (runs + stands);
            let by = if at < runs { 1.0 } else { still };
            [-by * (s[0] - air) / (75.0 * slow)]
        })
    };
    (air, Box::new(course))
}

/// A shallow tray: natural convection by the 4/3rd power, and water through the same
/// film.
fn wet_tray(draw: &mut Draw) -> (f64, Course) {
    let (air, from) = store(draw);
    let (free, humid) = (draw.between(0.05, 1.0), draw.between(0.6, 0.95));
    let (draught, bottom) = (draw.between(0.2, 1.0), draw.between(0.0, 1.0));
    let course = move |slow: f64| {
        stepped([from], |_, s| {
            let off = s[0] - air;
            let by = draught + (off.abs() / 25.0).cbrt();
            let wet = 0.6 * free * (pressure(s[0]) - humid * pressure(air)).max(0.0);
            [-(by * (off + wet) + bottom * off) / (120.0 * slow)]
        })
    };
    (air, Box::new(course))
}

/// Gives off water until a skin has formed.
fn skinned(draw: &mut Draw) -> (f64, Course) {
    let (air, from) = store(draw);
    let (wet, forms) = (draw.between(0.2, 1.2), draw.between(10.0, 60.0));
    let course = move |slow: f64| {
        stepped([from], |t, s| {
            let open = wet * (-t / forms).exp();
            let gives = open * (pressure(s[0]) - 0.8 * pressure(air)).max(0.0);
            [-(s[0] - air + gives) / (80.0 * slow)]
        })
    };
    (air, Box::new(course))
}

/// A second pan that is larger cools beside it and warms the air between.
fn stacked(draw: &mut Draw) -> (f64, Course) {
    let (air, from) = store(draw);
    let (by, larger) = (draw.between(0.05, 0.25), draw.between(1.0, 2.5));
    let course = move |slow: f64| {
        stepped([from, from], |_, s| {
            let between = air + by * (s[1] - air);
            [
                -(s[0] - between) / (70.0 * slow),
                -(s[1] - air) / (70.0 * larger * slow),
            ]
        })
    };
    (air, Box::new(course))
}

/// In the kitchen for some minutes, then in the store.
fn kitchen_first(draw: &mut Draw) -> (f64, Course) {
    let (air, from) = store(draw);
    let (at, room) = (draw.between(5.0, 30.0), draw.between(18.0, 26.0));
    let power = draw.between(1.0, 1.25);
    let course = move |slow: f64| {
        stepped([from], |t, s| {
            let off = (s[0] - if t < at { room } else { air }).max(0.0);
            [-30.0 * (off / 30.0).powf(power) / (75.0 * slow)]
        })
    };
    (air, Box::new(course))
}

/// Eight rings from the middle to the face.
fn cylinder(draw: &mut Draw) -> (f64, Course) {
    let (air, from) = store(draw);
    let biot = draw.scale(0.4, 8.0);
    let course = move |slow: f64| {
        stepped([from; 8], |_, s| {
            let k = 8.0 * 8.0 / (480.0 * slow);
            std::array::from_fn(|i| {
                let at = i as f64;
                let inward = if i == 0 { 0.0 } else { at * (s[i - 1] - s[i]) };
                let outward = if i == 7 {
                    8.0 * (air - s[7]) / (0.5 + 8.0 / biot)
                } else {
                    (at + 1.0) * (s[i + 1] - s[i])
                };
                k * (inward + outward) / (at + 0.5)
            })
        })
    };
    (air, Box::new(course))
}

fn powered_nodes(draw: &mut Draw) -> (f64, Course) {
    let (air, from) = store(draw);
    let (power, across) = (draw.between(1.2, 1.4), draw.between(1.5, 10.0));
    let course = move |slow: f64| {
        stepped([from, from], |_, s| {
            let off = (s[1] - air).max(0.0);
            let out = 30.0 * (off / 30.0).powf(power);
            [
                across * (s[1] - s[0]) / (65.0 * slow),
                (across * (s[0] - s[1]) - out) / (15.0 * slow),
            ]
        })
    };
    (air, Box::new(course))
}

/// Air that was warmed when the store was loaded, and a compressor that brings it back.
fn just_loaded(draw: &mut Draw) -> (f64, Course) {
    let (air, from) = store(draw);
    let (warmer, back) = (draw.between(3.0, 12.0), draw.between(15.0, 70.0));
    let (swing, period) = (draw.between(0.3, 1.5), draw.between(10.0, 30.0));
    let course = move |slow: f64| {
        stepped([from], |t, s| {
            let wave = swing * (std::f64::consts::TAU * t / period).sin();
            let air = air + warmer * (-t / back).exp() + wave;
            [-(s[0] - air) / (75.0 * slow)]
        })
    };
    (air, Box::new(course))
}

/// By radiation and the 5/4th power.
fn still_store(draw: &mut Draw) -> (f64, Course) {
    let (air, from) = store(draw);
    let shines = draw.between(0.2, 0.8);
    let fourth = |c: f64| (c + 273.15).powi(4);
    let course = move |slow: f64| {
        stepped([from], |_, s| {
            let off = (s[0] - air).max(0.0);
            let radiates = (fourth(s[0]) - fourth(air)) / 9e7;
            let convects = off * (off / 30.0).powf(0.25);
            [-(shines * radiates + (1.0 - shines) * convects) / (75.0 * slow)]
        })
    };
    (air, Box::new(course))
}

/// A course that is drawn in a time of its own, and goes the slower as a whole.
fn own_time(draw: &mut Draw, make: impl Fn(&mut Draw) -> (Truth, f64)) -> (f64, Course) {
    let (truth, air) = make(draw);
    let course = move |slow: f64| Truth {
        step: truth.step * slow,
        celsius: truth.celsius.clone(),
    };
    (air, Box::new(course))
}

/// Minutes of a course in a time of its own.
const OWN_LENGTH: f64 = 1_500.0;

fn hot_and_air(draw: &mut Draw) -> (f64, f64) {
    (draw.between(60.0, 90.0), draw.between(0.5, 3.7))
}

fn own_one(draw: &mut Draw) -> (Truth, f64) {
    let (from, air) = hot_and_air(draw);
    let at = move |t: f64| air + (from - air) * (-t / 80.0).exp();
    (Truth::of(0.25, OWN_LENGTH, at), air)
}

/// A pot that a heavy bottom keeps warm, the probe in the food.
fn heavy_bottom(draw: &mut Draw) -> (Truth, f64) {
    let (from, air) = hot_and_air(draw);
    let (link, heavy) = (draw.between(0.6, 5.0), draw.between(0.1, 0.6));
    let truth = Truth::stepped(0.1, OWN_LENGTH, [from, from], |_, [food, bottom]| {
        let flow = link * (food - bottom);
        [
            (0.4 * (air - food) - flow) / 60.0,
            (flow + 0.6 * (air - bottom)) / heavy / 60.0,
        ]
    });
    (truth, air)
}

/// A compressor that runs by the clock.
fn by_the_clock(draw: &mut Draw) -> (Truth, f64) {
    let (from, air) = hot_and_air(draw);
    let (swing, period) = (draw.between(0.5, 2.5), draw.between(12.0, 40.0));
    let truth = Truth::stepped(0.1, OWN_LENGTH, [from], |t, [c]| {
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
fn magnus(draw: &mut Draw) -> (Truth, f64) {
    let (from, air) = hot_and_air(draw);
    let wet = draw.between(0.1, 1.0);
    let pressure = |c: f64| 0.61 * (17.6 * c / (243.0 + c)).exp();
    let truth = Truth::stepped(0.1, OWN_LENGTH, [from], |_, [c]| {
        let vapour = (pressure(*c) - 0.8 * pressure(air)).max(0.0);
        [(air - c - wet * vapour) / 80.0]
    });
    (truth, air)
}

fn powered(draw: &mut Draw) -> (Truth, f64) {
    let (from, air) = hot_and_air(draw);
    let power = draw.between(1.1, 1.3);
    let truth = Truth::stepped(0.1, OWN_LENGTH, [from], |_, [c]| {
        let off = (c - air).max(0.0);
        [-30.0 * (off / 30.0).powf(power) / 80.0]
    });
    (truth, air)
}

/// The middle of a plate of eight cells (explicit finite volumes).
fn thick(draw: &mut Draw) -> (Truth, f64) {
    let (from, air) = hot_and_air(draw);
    let biot = draw.scale(0.3, 4.0);
    let truth = Truth::stepped(0.2, OWN_LENGTH, [from; 8], |_, c| {
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
    let (from, air) = hot_and_air(draw);
    let at = draw.between(40.0, 50.0);
    let truth = Truth::stepped(0.1, OWN_LENGTH, [from], |_, [c]| {
        let speed = if *c > at { before } else { after };
        [speed * (air - c) / 100.0]
    });
    (truth, air)
}

fn loaded(draw: &mut Draw) -> (Truth, f64) {
    let (from, air) = hot_and_air(draw);
    let (load, back) = (draw.between(0.02, 0.12), draw.between(0.1, 0.4));
    let truth = Truth::stepped(0.1, OWN_LENGTH, [from, air], |_, [c, near]| {
        [
            (near - c) / 70.0,
            back * (air - near) + load * back * (c - near),
        ]
    });
    (truth, air)
}
