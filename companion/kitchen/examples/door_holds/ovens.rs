//! Made-up ovens whose door is opened: a face, what is behind it in layers, and a probe that reads
//! some of the air.

use evenhand_kitchen::heat::{
    AfterDoor, Band, DOOR_OPEN, DOOR_SHUT, Door, HeatLog, LogPoint, Marker, Surroundings, mornings,
};
use evenhand_protocol::Temperature;
use jiff::{SignedDuration, Timestamp};
use rand_chacha::ChaCha8Rng;
use rand_core::SeedableRng;
use rand_distr::{Distribution, LogNormal, Normal, Uniform};

const ROOM: f64 = 21.0;
/// Steps of a minute.
const FINE: u32 = 10;

/// How ovens of a family are made.
#[derive(Clone, Copy)]
pub struct Family {
    #[allow(dead_code)] // Not every program that shares these ovens prints them.
    pub name: &'static str,
    /// Layers behind the face.
    pub layers: (u32, u32),
    /// Share a minute that the face and the layer behind it even out by.
    pub evens: (f64, f64),
    /// Of a layer's heat as a multiple of the face's.
    pub heavier: (f64, f64),
    /// Share a minute that the face loses to the room with the door shut, and that the last layer
    /// does.
    pub loses: (f64, f64),
    pub seeps: (f64, f64),
    /// The share of what it loses by radiation at 300 °C.
    pub radiates: f64,
    /// Share a minute that the face loses more with the door open.
    pub door: (f64, f64),
    /// How much the door differs from day to day: the spread of a logarithm.
    pub differs: f64,
    /// How much of the probe is air, which stands between face and room while the door is open.
    pub air: (f64, f64),
    /// Minutes that the door is open.
    pub open: (f64, f64),
    /// Minutes that a mark is late by, at most.
    pub late: f64,
    /// Minutes between readings, and their noise, °C.
    pub reads: (u32, f64),
    /// Minutes from the fire's end until the door is opened.
    pub after_fire: (f64, f64),
    /// °C at the fire's end.
    pub hot: (f64, f64),
}

const PLAIN: Family = Family {
    name: "face and bricks",
    layers: (1, 1),
    evens: (0.02, 0.05),
    heavier: (3.0, 5.0),
    loses: (0.004, 0.008),
    seeps: (0.0005, 0.0015),
    radiates: 0.0,
    door: (0.03, 0.09),
    differs: 0.25,
    air: (0.0, 0.0),
    open: (6.0, 20.0),
    late: 0.0,
    reads: (1, 0.4),
    after_fire: (170.0, 200.0),
    hot: (330.0, 420.0),
};

/// What the way of learning was made on.
pub const TUNING: [Family; 1] = [PLAIN];

/// What it is judged on.
pub const JUDGING: [Family; 6] = [
    Family {
        name: "probe in the air",
        air: (0.3, 0.7),
        ..PLAIN
    },
    Family {
        name: "thick bricks that radiate",
        layers: (6, 10),
        evens: (0.06, 0.15),
        heavier: (0.8, 1.2),
        loses: (0.008, 0.02),
        seeps: (0.001, 0.004),
        radiates: 0.6,
        door: (0.05, 0.15),
        air: (0.1, 0.3),
        ..PLAIN
    },
    Family {
        name: "thin steel",
        evens: (0.05, 0.1),
        heavier: (0.5, 1.0),
        loses: (0.004, 0.008),
        seeps: (0.001, 0.002),
        radiates: 0.4,
        door: (0.03, 0.06),
        open: (3.0, 10.0),
        air: (0.2, 0.5),
        after_fire: (60.0, 100.0),
        ..PLAIN
    },
    Family {
        name: "marks up to 2 min late",
        layers: (2, 4),
        evens: (0.04, 0.1),
        heavier: (1.0, 2.0),
        radiates: 0.3,
        late: 2.0,
        ..PLAIN
    },
    Family {
        name: "read every 5 min, noise 1 degC",
        layers: (2, 4),
        evens: (0.04, 0.1),
        heavier: (1.0, 2.0),
        radiates: 0.3,
        reads: (5, 1.0),
        ..PLAIN
    },
    Family {
        name: "opened soon after the fire",
        layers: (3, 6),
        evens: (0.04, 0.1),
        heavier: (1.0, 1.5),
        radiates: 0.5,
        after_fire: (60.0, 120.0),
        ..PLAIN
    },
];

fn draw(dice: &mut ChaCha8Rng, (low, high): (f64, f64)) -> f64 {
    if low < high {
        Uniform::new(low, high).map_or(low, |it| it.sample(dice))
    } else {
        low
    }
}

#[derive(Clone)]
struct Oven {
    /// The face and the layers behind it, °C.
    nodes: Vec<f64>,
    evens: f64,
    heavier: f64,
    loses: f64,
    seeps: f64,
    radiates: f64,
    air: f64,
    /// The air, °C.
    breath: f64,
}

impl Oven {
    fn of(family: &Family, dice: &mut ChaCha8Rng) -> Self {
        let layers = draw(
            dice,
            (
                f64::from(family.layers.0),
                f64::from(family.layers.1) + 0.99,
            ),
        );
        Self {
            nodes: vec![ROOM; layers as usize + 1],
            evens: draw(dice, family.evens),
            heavier: draw(dice, family.heavier),
            loses: draw(dice, family.loses),
            seeps: draw(dice, family.seeps),
            radiates: family.radiates,
            air: draw(dice, family.air),
            breath: ROOM,
        }
    }

    /// Bricks are the colder the deeper they lie.
    fn fired(&self, hot: f64) -> Self {
        let mut fired = self.clone();
        let count = fired.nodes.len() as f64;
        for (depth, node) in fired.nodes.iter_mut().enumerate() {
            *node = ROOM + (hot - ROOM) * (1.0 - 0.25 * depth as f64 / count);
        }
        fired.breath = hot;
        fired
    }

    fn pass(&mut self, minutes: f64, door: f64) {
        let steps = (minutes * f64::from(FINE)).round() as u32;
        let dt = 1.0 / f64::from(FINE);
        let kelvin = |celsius: f64| celsius + 273.15;
        let hot = kelvin(300.0).powi(4) - kelvin(ROOM).powi(4);
        for _ in 0..steps {
            let face = self.nodes[0];
            let by_radiation = (kelvin(face).powi(4) - kelvin(ROOM).powi(4)) / hot * (300.0 - ROOM);
            let drives = (1.0 - self.radiates) * (face - ROOM) + self.radiates * by_radiation;
            let mut change = vec![0.0; self.nodes.len()];
            change[0] -= (self.loses + door) * drives;
            for nth in 0..self.nodes.len() - 1 {
                // Between layers of one kind as between them; the face is a thin one.
                let flow = self.evens * (self.nodes[nth + 1] - self.nodes[nth]);
                change[nth] += flow / if nth == 0 { 1.0 } else { self.heavier };
                change[nth + 1] -= flow / self.heavier;
            }
            let last = self.nodes.len() - 1;
            change[last] -= self.seeps * (self.nodes[last] - ROOM);
            for (node, change) in self.nodes.iter_mut().zip(change) {
                *node += dt * change;
            }
            let air = if door > 0.0 {
                f64::midpoint(face, ROOM)
            } else {
                self.nodes[0]
            };
            // The air follows within two minutes.
            self.breath += dt * 0.5 * (air - self.breath);
        }
    }

    fn reads(&self) -> f64 {
        (1.0 - self.air) * self.nodes[0] + self.air * self.breath
    }
}

fn at(day: usize, minutes: f64) -> Timestamp {
    let begun: Timestamp = "2026-05-04T05:00:00Z"
        .parse()
        .unwrap_or(Timestamp::UNIX_EPOCH);
    begun + SignedDuration::from_secs(day as i64 * 86_400 + (minutes * 60.0).round() as i64)
}

fn push(log: &mut HeatLog, at: Timestamp, celsius: f64) {
    let temperature = Temperature::from_millicelsius((celsius * 1e3).round() as i32);
    let _ = log.push(LogPoint { at, temperature });
}

fn mark(log: &mut HeatLog, at: Timestamp, text: &str) {
    log.markers.push(Marker {
        at,
        text: text.to_owned(),
    });
}

/// What came of one morning on which the plan was asked.
#[allow(dead_code)] // Not every program that shares these ovens reports all.
pub struct Asked {
    /// Whether anything was said.
    pub told: bool,
    /// Whether it entered, and left, within the interval.
    pub enters: bool,
    pub leaves: bool,
    /// Whether it was in the band all along the stretch that holds across the interval.
    pub sure: bool,
    /// Minutes of that stretch, and from the early to the late end of entering.
    pub length: f64,
    pub wide: f64,
}

const MORNING: u32 = 420;

/// An oven's door is opened on so many mornings; on the next it is asked what opening it does.
pub fn ask(family: &Family, openings: usize, around: Surroundings, seed: u64) -> Asked {
    let mut dice = ChaCha8Rng::seed_from_u64(seed);
    let made = Oven::of(family, &mut dice);
    let door = draw(&mut dice, family.door);
    let differs = LogNormal::new(0.0, family.differs).unwrap_or_else(|_| unreachable!());
    let noise = Normal::new(0.0, family.reads.1).unwrap_or_else(|_| unreachable!());
    let mut log = HeatLog::new("oven");
    for day in 0..openings {
        let mut oven = made.fired(draw(&mut dice, family.hot));
        let open = draw(&mut dice, family.after_fire).round() as u32;
        let minutes = draw(&mut dice, family.open).round() as u32;
        let door = door * differs.sample(&mut dice);
        let late = (0.0, family.late);
        let marks = [
            (open, DOOR_OPEN, draw(&mut dice, late)),
            (open + minutes, DOOR_SHUT, draw(&mut dice, late)),
        ];
        for minute in 0..MORNING {
            for (marked, word, late) in marks {
                if marked == minute {
                    mark(&mut log, at(day, f64::from(minute) + late), word);
                }
            }
            if minute.is_multiple_of(family.reads.0) {
                let celsius = oven.reads() + noise.sample(&mut dice);
                push(&mut log, at(day, f64::from(minute)), celsius);
            }
            let stands = (open..open + minutes).contains(&minute);
            oven.pass(1.0, if stands { door } else { 0.0 });
        }
    }
    let mut oven = made.fired(draw(&mut dice, family.hot));
    let asked = draw(&mut dice, family.after_fire).round();
    for minute in 0..=asked as u32 {
        if minute.is_multiple_of(family.reads.0) {
            let celsius = oven.reads() + noise.sample(&mut dice);
            push(&mut log, at(openings, f64::from(minute)), celsius);
        }
        oven.pass(1.0, 0.0);
    }
    let now = at(openings, asked);
    let door_of_today = door * differs.sample(&mut dice);
    // A band somewhat below: what it is after an hour and more with the door opened a while.
    let mut after = oven.clone();
    after.pass(draw(&mut dice, family.open), door);
    after.pass(draw(&mut dice, (30.0, 100.0)), 0.0);
    let middle = after.reads();
    let wide = draw(&mut dice, (0.05, 0.1)) * (middle - ROOM);
    let celsius = |it: f64| Temperature::from_millicelsius((it * 1e3) as i32);
    let band = Band::new(celsius(middle - wide), celsius(middle + wide));
    let nothing = Asked {
        told: false,
        enters: false,
        leaves: false,
        sure: false,
        length: 0.0,
        wide: 0.0,
    };
    let Ok(band) = band else { return nothing };
    let known = Door::learn(&log, around);
    let (today, habit) = mornings(&log, now);
    let told = known.opened_now(&today, band, around, &habit, now);
    // Any of those told may be done.
    let Some(done) = told.get((dice_of(&mut dice) * told.len() as f64) as usize) else {
        return nothing;
    };
    judge(oven, *done, band, now, door_of_today)
}

fn dice_of(dice: &mut ChaCha8Rng) -> f64 {
    draw(dice, (0.0, 1.0))
}

/// Follows the oven with its door opened.
fn judge(mut oven: Oven, told: AfterDoor, band: Band, now: Timestamp, door: f64) -> Asked {
    let minutes = |at: Timestamp| at.duration_since(now).as_secs_f64() / 60.0;
    let open = told.open.as_secs_f64() / 60.0;
    oven.pass(open, door);
    let [early, late] = [
        minutes(told.enters.early),
        told.enters.late.map_or(f64::MAX, minutes),
    ];
    let [leave, leave_late] = [
        minutes(told.leaves.early),
        told.leaves.late.map_or(f64::MAX, minutes),
    ];
    let settled = open + 30.0;
    let (mut enters, mut leaves, mut sure) = (None, None, true);
    let mut minute = open;
    while minute < 1_500.0 && leaves.is_none() {
        let celsius = oven.reads();
        let (high, low) = (band.high().celsius(), band.low().celsius());
        if minute >= settled {
            if celsius <= high && enters.is_none() {
                enters = Some(minute);
            }
            if celsius < low {
                leaves = Some(minute);
            }
        }
        if minute >= late && minute <= leave {
            sure &= (low..=high).contains(&celsius);
        }
        oven.pass(0.5, 0.0);
        minute += 0.5;
    }
    // Half a minute is how finely it is looked at.
    let within = |it: Option<f64>, from: f64, to: f64| {
        it.is_some_and(|it| (from - 0.5..=to + 0.5).contains(&it))
    };
    Asked {
        told: true,
        enters: within(enters, early, late),
        // Where it is told only until then, later is as told.
        leaves: within(leaves, leave, leave_late),
        sure,
        length: leave - late,
        wide: late - early,
    }
}
