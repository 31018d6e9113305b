//! "Eight times in ten" of salt, of when the core is there and of gains held against made-up
//! kitchens. What was chosen (the spreads that are looked through, the doubt of
//! what evens out) was chosen on [`TUNING`] alone.

use crate::uptake_kitchens::{Kitchen, seconds};
use evenhand_kitchen::units::Ratio;
use evenhand_kitchen::uptake::{Middle, OwnSoaks, When};
use jiff::SignedDuration;
use rand_chacha::ChaCha8Rng;
use rand_core::{Rng, SeedableRng};

const PLAIN: Kitchen = Kitchen {
    name: "plain slabs",
    speed: 2.5,
    cuts: 0.3,
    batches: 0.2,
    wild: false,
    falls: 0.0,
    like: 1.0,
    misjudged: 0.05,
    film: 1e6,
    takes: 0.97,
    misread: 0.05,
    gain: (0.07, 0.02, 0.006),
    by_strength: 0.0,
};

const TUNING: [Kitchen; 4] = [
    PLAIN,
    Kitchen {
        name: "two speeds",
        speed: 4.0,
        batches: 0.35,
        ..PLAIN
    },
    Kitchen {
        name: "fish, slow, cuts alike",
        speed: 0.9,
        cuts: 0.1,
        batches: 0.15,
        gain: (0.04, 0.01, 0.004),
        ..PLAIN
    },
    Kitchen {
        name: "never stirred, not all water takes salt",
        film: 12.0,
        takes: 0.88,
        speed: 3.5,
        gain: (0.02, 0.05, 0.01),
        by_strength: 0.002,
        ..PLAIN
    },
];

const KITCHENS: [Kitchen; 5] = [
    Kitchen {
        name: "fillets, slow, cuts alike",
        speed: 1.2,
        cuts: 0.15,
        batches: 0.22,
        gain: (0.035, 0.015, 0.005),
        ..PLAIN
    },
    Kitchen {
        name: "salt slows itself down",
        speed: 5.0,
        falls: 0.1,
        batches: 0.25,
        by_strength: -0.004,
        ..PLAIN
    },
    Kitchen {
        name: "salted from the edges as well, thickness misjudged",
        like: 1.5,
        misjudged: 0.12,
        gain: (0.09, 0.03, 0.012),
        ..PLAIN
    },
    Kitchen {
        name: "hardly stirred, not all water takes salt",
        film: 30.0,
        takes: 0.9,
        speed: 3.0,
        batches: 0.25,
        by_strength: 0.003,
        ..PLAIN
    },
    Kitchen {
        name: "cuts far apart, wild batches, strength misread",
        speed: 2.0,
        cuts: 0.5,
        wild: true,
        misread: 0.08,
        gain: (0.05, 0.04, 0.01),
        ..PLAIN
    },
];

#[derive(Default)]
struct Held {
    held: u32,
    asked: u32,
    widths: Vec<f64>,
}

impl Held {
    /// Held to what is shown, a hundredth of a per cent.
    fn ask(&mut self, expected: Middle, truth: f64) {
        const SHOWN: f64 = 0.000_05;
        self.count(
            expected.from.fraction() - SHOWN <= truth && truth <= expected.to.fraction() + SHOWN,
        );
        self.widths
            .push((expected.to.fraction() - expected.from.fraction()) / 2.0);
    }

    fn count(&mut self, held: bool) {
        self.asked += 1;
        self.held += u32::from(held);
    }

    fn share(&self) -> f64 {
        f64::from(self.held) / f64::from(self.asked.max(1))
    }

    fn width(&mut self) -> f64 {
        self.widths.sort_by(f64::total_cmp);
        self.widths
            .get(self.widths.len() / 2)
            .copied()
            .unwrap_or(0.0)
    }
}

#[derive(Default)]
struct Tally {
    salt: Held,
    time: Held,
    gain: Held,
}

fn hold(kitchen: &Kitchen, batches: usize, new_cut: bool, kitchens: u32, seed: u64) -> Tally {
    let mut rng = ChaCha8Rng::seed_from_u64(seed);
    let mut tally = Tally::default();
    for _ in 0..kitchens {
        let cuts = kitchen.cuts(4, &mut rng);
        let mut soaks = Vec::new();
        while soaks.len() < batches {
            let cut = cuts[rng.next_u32() as usize % 3];
            let piece = kitchen.piece(cut, &mut rng);
            let lasting = seconds(&mut rng);
            soaks.extend(kitchen.recorded(&piece, lasting, true, &mut rng));
        }
        let own = OwnSoaks::new(soaks);
        let cut = if new_cut { cuts[3] } else { cuts[0] };
        for n in 0..3 {
            let piece = kitchen.piece(cut, &mut rng);
            let lasting = seconds(&mut rng);
            let of_cut = own.of_cut(&piece.into.cut);
            let expected = of_cut.expected(&piece.into, SignedDuration::from_secs(lasting as i64));
            let wanted = expected.in_the_end.0.fraction() * 0.5;
            let (salt, reached) = kitchen.soaked(&piece, lasting, wanted);
            tally.salt.ask(expected.salt.unwrap(), salt);
            if n == 0 {
                tally
                    .gain
                    .ask(expected.gain.unwrap(), kitchen.gained(&piece, lasting));
            }
            if let When::After {
                from, to, middle, ..
            } = of_cut.when(&piece.into, Ratio::new(wanted).unwrap())
            {
                let reached = reached.unwrap_or(f64::INFINITY);
                let to = to.map_or(f64::INFINITY, |to| to.as_secs_f64());
                tally
                    .time
                    .count(from.as_secs_f64() <= reached && reached <= to);
                tally.time.widths.push(to / middle.as_secs_f64());
            }
        }
    }
    tally
}

fn tell(name: &str, batches: usize, new_cut: bool, tally: &mut Tally) {
    println!(
        "| {name}{} | {batches} | {:.0} %, {:.2} | {:.0} %, {:.1} | {:.0} %, {:.1} |",
        if new_cut { ", a cut never soaked" } else { "" },
        100.0 * tally.salt.share(),
        100.0 * tally.salt.width(),
        100.0 * tally.time.share(),
        tally.time.width(),
        100.0 * tally.gain.share(),
        100.0 * tally.gain.width(),
    );
}

// Prints what was chosen by; two of these kitchens show where it does not hold.
#[test]
fn the_kitchens_that_it_was_chosen_on_are_answered() {
    for kitchen in &TUNING {
        for batches in [3, 15] {
            let mut tally = hold(kitchen, batches, false, 20, 5);
            tell(kitchen.name, batches, false, &mut tally);
            assert!(
                tally.salt.asked >= 15,
                "{}: {}",
                kitchen.name,
                tally.salt.asked
            );
        }
    }
}

// Of 70 kitchens with three askings each, eight tenths have a standard error of 3 in a hundred, up to 4.8 where a
// kitchen's three go together. 68 is four of the former below 80. Over all kitchens 75 to 90 is the band that an
// interval which says eight in ten is held to.
#[test]
fn eight_batches_in_ten_come_out_as_said() {
    let mut shares = [Vec::new(), Vec::new(), Vec::new()];
    for kitchen in &KITCHENS {
        for (batches, new_cut) in [(3, false), (6, false), (15, false), (15, true)] {
            let mut tally = hold(kitchen, batches, new_cut, 70, 2311);
            tell(kitchen.name, batches, new_cut, &mut tally);
            for (all, of) in shares
                .iter_mut()
                .zip([&tally.salt, &tally.time, &tally.gain])
            {
                assert!(of.asked >= 60, "{}: {} asked", kitchen.name, of.asked);
                assert!(
                    of.share() >= 0.68,
                    "{}, {batches}: {}",
                    kitchen.name,
                    of.share()
                );
                all.push(of.share());
            }
        }
    }
    for of in &shares {
        let mean = of.iter().sum::<f64>() / of.len() as f64;
        assert!((0.75..=0.90).contains(&mean), "{mean}");
    }
}
