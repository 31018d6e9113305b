//! "Eight doughs in ten come out within" held against doughs that are made up:
//! mixers, rooms and hands of several kinds, none of which the balance knows.
//! The physics of the made-up doughs is not the program's: flour's specific heat
//! differs, the room takes its share while the dough is mixed, and the kneading
//! differs from one day to the next.

use evenhand_kitchen::dough::{Going, MixedDough, Rise, WaterFor};
use evenhand_protocol::{Mass, Temperature};
use rand_chacha::ChaCha8Rng;
use rand_core::{Rng, SeedableRng};
use rand_distr::{Distribution, LogNormal, Normal, Uniform};

/// One kind of kitchen.
struct Kitchen {
    name: &'static str,
    /// Flour's true specific heat, kJ/(kg K).
    flour_heat: f64,
    /// Of the way from the mixture's temperature to the room's, how much a dough
    /// goes while it is mixed.
    room_takes: f64,
    /// What kneading adds, K, and how much that differs from day to day.
    kneading: (f64, f64),
    /// Whether a long knead now and then makes the rises lean to one side.
    leans: bool,
    /// The room from day to day, °C.
    room: (f64, f64),
}

const KITCHENS: [Kitchen; 5] = [
    Kitchen {
        name: "by hand, even room",
        flour_heat: 1.8,
        room_takes: 0.1,
        kneading: (1.5, 0.5),
        leans: false,
        room: (22.0, 1.0),
    },
    Kitchen {
        name: "spiral mixer, warm room",
        flour_heat: 1.9,
        room_takes: 0.15,
        kneading: (7.0, 1.0),
        leans: false,
        room: (27.0, 2.0),
    },
    Kitchen {
        name: "small mixer, cold room",
        flour_heat: 1.65,
        room_takes: 0.25,
        kneading: (10.0, 1.5),
        leans: false,
        room: (14.0, 2.5),
    },
    Kitchen {
        name: "several hands, some knead long",
        flour_heat: 1.8,
        room_takes: 0.15,
        kneading: (4.0, 1.0),
        leans: true,
        room: (23.0, 3.0),
    },
    Kitchen {
        name: "open door, room that swings",
        flour_heat: 1.7,
        room_takes: 0.3,
        kneading: (3.0, 0.7),
        leans: false,
        room: (20.0, 6.0),
    },
];

/// A probe held into a dough, K.
const PROBE: f64 = 0.3;

impl Kitchen {
    fn mixed(&self, going: &Going, water_at: f64, ice: f64, rng: &mut ChaCha8Rng) -> f64 {
        let flour = going.flour.grams() * self.flour_heat;
        let water = going.water.grams() - ice;
        let takes = flour + going.water.grams() * 4.19;
        let balance =
            (flour * going.flour_at.celsius() + water * 4.19 * water_at - ice * 334.0) / takes;
        let room = Normal::new(self.room.0, self.room.1).unwrap().sample(rng);
        let (mean, spread) = self.kneading;
        let kneading = if self.leans {
            // A log-normal of that mean and spread.
            let squared = (1.0 + (spread / mean).powi(2)).ln();
            LogNormal::new(mean.ln() - squared / 2.0, squared.sqrt())
                .unwrap()
                .sample(rng)
        } else {
            Normal::new(mean, spread).unwrap().sample(rng)
        };
        balance + (room - balance) * self.room_takes + kneading
    }
}

fn celsius(degrees: f64) -> Temperature {
    Temperature::from_celsius(degrees).unwrap()
}

/// How often the interval holds after so many measured doughs, and its median
/// half width, K.
fn holds(kitchen: &Kitchen, measured: usize, seed: u64) -> (f64, f64) {
    let mut rng = ChaCha8Rng::seed_from_u64(seed);
    let probe = Normal::new(0.0, PROBE).unwrap();
    let (mut held, mut asked) = (0_u32, 0_u32);
    let mut widths = Vec::new();
    for _ in 0..1_500 {
        let mut past: Vec<MixedDough> = Vec::new();
        let wanted = 24.0;
        for n in 0..=measured {
            let flour_at = kitchen.room.0 + Uniform::new(-2.0, 2.0).unwrap().sample(&mut rng);
            let going = Going::new(
                Mass::from_grams(i64::from(4_000 + rng.next_u32() % 8_000)),
                celsius(flour_at),
                Mass::from_grams(i64::from(3_000 + rng.next_u32() % 4_000)),
                None,
            )
            .unwrap();
            let rise = Rise::of(&past);
            // The first doughs are mixed by a guess, the rest as they were told.
            let guess = rise.map_or(5.0, |rise| rise.kelvin);
            let (water_at, ice) = match going
                .water_for(celsius(wanted), guess, celsius(12.0))
                .unwrap()
            {
                WaterFor::Water { at } => (at.celsius(), 0.0),
                WaterFor::Ice { ice, .. } => (12.0, ice.grams()),
                WaterFor::TooCold { .. } => (43.0, 0.0),
                WaterFor::TooWarm => (12.0, going.water.grams()),
            };
            let came_out = kitchen.mixed(&going, water_at, ice, &mut rng);
            if n == measured {
                let within = rise.and_then(|rise| rise.give_or_take).unwrap();
                asked += 1;
                held += u32::from((came_out - wanted).abs() <= within);
                widths.push(within);
                break;
            }
            let seen = came_out + probe.sample(&mut rng);
            past.push(
                MixedDough::new(
                    going,
                    celsius(water_at),
                    Mass::from_fractional_grams(ice).unwrap(),
                    celsius(seen),
                )
                .unwrap(),
            );
        }
    }
    widths.sort_by(f64::total_cmp);
    (f64::from(held) / f64::from(asked), widths[widths.len() / 2])
}

// Of 1500 doughs eight tenths have a standard error of 1.0 in a hundred: 75 to 90 is the band that an
// interval which says eight in ten is held to, on every kind of kitchen and after few doughs and many.
#[test]
fn eight_doughs_in_ten_come_out_as_said() {
    for kitchen in &KITCHENS {
        for measured in [3, 5, 10, 20] {
            let (held, width) = holds(kitchen, measured, 7);
            println!(
                "{:<32} {measured:>2} measured: {held:.3}, within {width:.1} K",
                kitchen.name
            );
            assert!(
                (0.75..=0.90).contains(&held),
                "{}, {measured}: {held}",
                kitchen.name
            );
        }
    }
}
