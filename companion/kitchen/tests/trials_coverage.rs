//! "Chance alone looks like this" held against batches in which nothing that was
//! varied changes the mark, and the other way about: how often a real effect is
//! seen.

use evenhand_kitchen::batch::{Batch, Entry, Mark, NamedAs, Slot, What};
use evenhand_kitchen::book::{Seen, Trials};
use evenhand_kitchen::ratio::Ingredient;
use evenhand_protocol::Mass;
use jiff::Timestamp;
use rand_chacha::ChaCha8Rng;
use rand_core::SeedableRng;
use rand_distr::{Distribution, Normal};

const NAMES: [&str; 4] = ["beans", "water", "salt", "lemon"];

/// A batch with these shares of a kilogram of beans, and its mark.
fn batch(shares: [f64; 3], mark: u8) -> Batch {
    let at = Timestamp::UNIX_EPOCH;
    let masses = [
        1000.0,
        shares[0] * 1000.0,
        shares[1] * 1000.0,
        shares[2] * 1000.0,
    ];
    let mut entries = Vec::new();
    for (slot, (name, grams)) in NAMES.iter().zip(masses).enumerate() {
        let slot = Slot(u32::try_from(slot).unwrap());
        entries.push(What::Weighed {
            slot,
            mass: Mass::from_fractional_grams(grams).unwrap(),
            temperature: None,
        });
        entries.push(What::Named {
            slot,
            ingredient: NamedAs(Ingredient::plain(name).unwrap()),
        });
    }
    entries.push(What::Tasted {
        mark: Mark::new("mark", mark).unwrap(),
        note: String::new(),
    });
    Batch::from_entries(entries.into_iter().map(|what| Entry { at, what })).unwrap()
}

/// How often something stands out of `batches` batches, and how often it is
/// water that does; `effect` is how many marks the mark changes by with one
/// spread more of water.
fn stands(batches: usize, effect: f64, coarse: bool, seed: u64) -> (f64, f64) {
    const SERIES: u32 = 600;
    let mut rng = ChaCha8Rng::seed_from_u64(seed);
    let unit = Normal::new(0.0, 1.0).unwrap();
    let (mut any, mut water) = (0_u32, 0_u32);
    for _ in 0..SERIES {
        let series: Vec<Batch> = (0..batches)
            .map(|_| {
                let z = [(); 3].map(|()| unit.sample(&mut rng));
                let shares = [
                    1.8 * (1.0 + 0.05 * z[0]),
                    0.02 * (1.0 + 0.10 * z[1]),
                    0.03 * (1.0 + 0.15 * z[2]),
                ];
                let taste = 5.0 + effect * z[0] + unit.sample(&mut rng);
                // A cook who says only "again", "as it should be" and "better".
                let taste = if coarse {
                    (taste / 3.0).round() * 3.0
                } else {
                    taste
                };
                batch(shares, taste.round().clamp(1.0, 9.0) as u8)
            })
            .collect();
        let trials = Trials::new(&series, &["beans".to_owned()]).unwrap();
        if let Seen::Stands { ingredient, .. } = trials.changed_the_mark() {
            any += 1;
            water += u32::from(ingredient == "water");
        }
    }
    (
        f64::from(any) / f64::from(SERIES),
        f64::from(water) / f64::from(SERIES),
    )
}

// Of 600 series one in twenty has a standard error of 0.9 in a hundred: 0.05 and three of them is 0.077.
#[test]
fn where_nothing_matters_something_stands_out_of_one_series_in_twenty_at_most() {
    for batches in [5, 7, 8, 12, 20] {
        for coarse in [false, true] {
            let (any, _) = stands(batches, 0.0, coarse, 11);
            println!("no effect, {batches} batches, coarse marks {coarse}: {any:.3}");
            assert!(any <= 0.077, "{batches}, {coarse}: {any}");
        }
    }
}

// An effect of two marks to a spread against one mark of chance: the correlation is 0.89.
#[test]
fn a_plain_effect_is_seen_with_eight_batches_and_by_its_name() {
    for (batches, least) in [(8, 0.6), (12, 0.9)] {
        let (any, water) = stands(batches, 2.0, false, 12);
        println!("plain effect, {batches} batches: {any:.3} seen, {water:.3} as water");
        assert!(water >= least, "{batches}: {water}");
        assert!(any - water <= 0.03, "{batches}: {any} {water}");
    }
}

#[test]
fn the_good_ones_share_what_they_share_and_the_rest_is_not_known() {
    let series = [
        batch([1.80, 0.020, 0.030], 7),
        batch([1.90, 0.020, 0.030], 8),
        batch([2.40, 0.040, 0.030], 2),
    ];
    let trials = Trials::new(&series, &["beans".to_owned()]).unwrap();
    let least = Mark::new("mark", 7).unwrap();
    // By hand: 180 and 190 % are 185 %, with a standard deviation of 7.07.
    let shared = trials.shared(least);
    let water = shared
        .iter()
        .find(|shared| shared.ingredient == "water")
        .unwrap();
    assert!((water.mean.percent() - 185.0).abs() < 1e-6);
    assert!((water.spread.unwrap().percent() - 7.071).abs() < 0.001);
    assert_eq!(water.batches, 2);
    assert_eq!(trials.changed_the_mark(), Seen::NotKnownYet { more: 2 });
    let formula = trials.formula("bean milk", least).unwrap();
    assert!((formula.hydration().percent() - 185.0).abs() < 1e-6);
    assert!(
        trials
            .formula("bean milk", Mark::new("mark", 9).unwrap())
            .is_err()
    );
    // What never varied is what teaches most.
    assert_eq!(
        trials
            .next(least, &trials.changed_the_mark())
            .unwrap()
            .ingredient,
        "lemon"
    );
    assert!(Trials::new(&series, &["rye".to_owned()]).is_err());
}
