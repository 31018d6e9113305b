//! What a table of weighings holds, before anything of it is brought in.

use super::{BadLine, Columns, Defaults, FileError, Line, Separator, Weighing, Weighings};
use crate::dish::{Dish, DishName};
use std::collections::{BTreeMap, HashMap};
use std::io::{Read, Seek};

/// From how many standard deviations on a weighing is odd: among ten thousand
/// of a normal law fewer than one lies as far.
const ODD: f64 = 4.0;
/// Among fewer weighings of a dish none is called odd.
const FEW: u64 = 8;
/// How many dishes' weighings are held against each other.
const DISHES: usize = 1_000;
/// How many different masses of a dish are told apart. Where there are more,
/// those within a step are counted as one, and the step is doubled until there
/// are fewer: of a normal law it is then below a hundredth of its standard
/// deviation.
const MASSES: usize = 2_048;

/// What a file holds. Of its lines no more are held than are to be shown.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Preview {
    /// The first weighings.
    pub first: Vec<Weighing>,
    /// How many there are.
    pub weighings: usize,
    /// What stood between the values.
    pub separator: Separator,
    /// Whether the file began with a byte order mark.
    pub byte_order_mark: bool,
    /// How many masses were written with a decimal comma.
    pub decimal_commas: usize,
    /// The first lines that cannot be used.
    pub bad: Vec<BadLine>,
    /// How many there are of them.
    pub bad_lines: usize,
    /// The weighings that lie farthest from the others of their dish, the
    /// farthest first.
    pub odd: Vec<Odd>,
    /// How many lie far from the others of their dish.
    pub odd_weighings: usize,
    /// How many weighings are of a dish beyond the first thousand, and were
    /// held against no others.
    pub not_compared: usize,
}

/// A weighing that lies far from the others of its dish.
#[derive(Debug, Clone, PartialEq)]
pub struct Odd {
    /// The line of the file.
    pub line: u64,
    /// What it says.
    pub weighing: Weighing,
    /// By how many standard deviations it lies above the others; negative
    /// below.
    pub deviations: f64,
}

/// Reads a table of weighings twice, from where it stands: for what it holds,
/// and for the weighings that lie far from the others of their dish. Of the
/// lines themselves `shown` of a kind are held. `known` as for
/// [`Weighings::open`].
///
/// The standard deviation is that of a normal law with the same median distance
/// from the median, so that the odd ones don't widen it (1.4826 times that
/// distance; Huber, Robust Statistics, from memory).
///
/// # Errors
/// [`FileError`] where the file as a whole cannot be used. A line that cannot
/// be used is no error but a [`BadLine`].
pub fn preview(
    mut file: impl Read + Seek,
    columns: &Columns,
    defaults: &Defaults,
    known: &HashMap<String, Vec<Dish>>,
    shown: usize,
) -> Result<Preview, FileError> {
    let begin = file.stream_position()?;
    let mut lines = Weighings::open(&mut file, columns, defaults, known)?;
    let mut held = Preview {
        separator: lines.separator,
        byte_order_mark: lines.byte_order_mark,
        ..Preview::default()
    };
    let mut masses: HashMap<DishName, Masses> = HashMap::new();
    for line in &mut lines {
        match line? {
            Line::Weighing(_, weighing) => {
                held.weighings += 1;
                let micrograms = weighing.mass.micrograms();
                let more = masses.len() < DISHES;
                if let Some(of_dish) = masses.get_mut(&weighing.dish) {
                    of_dish.add(micrograms);
                } else if more {
                    let of_dish = masses.entry(weighing.dish.clone()).or_default();
                    of_dish.add(micrograms);
                } else {
                    held.not_compared += 1;
                }
                if held.first.len() < shown {
                    held.first.push(weighing);
                }
            }
            Line::Bad(bad) => {
                held.bad_lines += 1;
                if held.bad.len() < shown {
                    held.bad.push(bad);
                }
            }
        }
    }
    held.decimal_commas = lines.decimal_commas;
    let laws: HashMap<DishName, Law> = masses
        .into_iter()
        .filter_map(|(dish, masses)| masses.law().map(|law| (dish, law)))
        .collect();
    if laws.is_empty() {
        return Ok(held);
    }
    file.seek(std::io::SeekFrom::Start(begin))?;
    for line in Weighings::open(&mut file, columns, defaults, known)? {
        let Line::Weighing(line, weighing) = line? else {
            continue;
        };
        let Some(law) = laws.get(&weighing.dish) else {
            continue;
        };
        let deviations = (weighing.mass.micrograms() as f64 - law.middle) / law.deviation;
        if deviations.abs() > ODD {
            held.odd_weighings += 1;
            let place = held
                .odd
                .partition_point(|odd| odd.deviations.abs() >= deviations.abs());
            if place < shown {
                held.odd.truncate(shown - 1);
                held.odd.insert(
                    place,
                    Odd {
                        line,
                        weighing,
                        deviations,
                    },
                );
            }
        }
    }
    Ok(held)
}

/// Where the masses of a dish lie, in micrograms.
struct Law {
    middle: f64,
    deviation: f64,
}

/// How often each mass of a dish came.
#[derive(Debug, Default)]
struct Masses {
    /// By the mass in steps.
    counts: BTreeMap<i64, u64>,
    /// A step is two to the power of this, in micrograms.
    step: u32,
}

impl Masses {
    fn add(&mut self, micrograms: i64) {
        *self.counts.entry(micrograms >> self.step).or_default() += 1;
        while self.counts.len() > MASSES {
            self.step += 1;
            let finer = std::mem::take(&mut self.counts);
            for (place, count) in finer {
                *self.counts.entry(place >> 1).or_default() += count;
            }
        }
    }

    /// `None` where there are few, or half of them are the same.
    fn law(&self) -> Option<Law> {
        let middle_of = |place: i64| {
            let step = (1_i64 << self.step) as f64;
            place as f64 * step + (step - 1.0) / 2.0
        };
        let masses: Vec<(f64, u64)> = self
            .counts
            .iter()
            .map(|(place, count)| (middle_of(*place), *count))
            .collect();
        if masses.iter().map(|(_, count)| count).sum::<u64>() < FEW {
            return None;
        }
        let middle = median(&masses);
        let mut distances: Vec<(f64, u64)> = masses
            .iter()
            .map(|(mass, count)| ((mass - middle).abs(), *count))
            .collect();
        distances.sort_unstable_by(|one, other| one.0.total_cmp(&other.0));
        let deviation = 1.4826 * median(&distances);
        (deviation > 0.0).then_some(Law { middle, deviation })
    }
}

/// The middle of some numbers in order, each with how often it came; zero of
/// none.
fn median(numbers: &[(f64, u64)]) -> f64 {
    let all: u64 = numbers.iter().map(|(_, count)| count).sum();
    let at = |nth: u64| {
        let mut before = 0;
        numbers
            .iter()
            .find(|(_, count)| {
                before += count;
                before > nth
            })
            .map_or(0.0, |(number, _)| *number)
    };
    match all {
        0 => 0.0,
        all if all % 2 == 1 => at(all / 2),
        all => f64::midpoint(at(all / 2 - 1), at(all / 2)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::MassUnit;
    use evenhand_protocol::{Mass, Mode, Tolerance};
    use jiff::tz::TimeZone;
    use std::io::Cursor;

    const MAP: &str = "time=When,mass=Weight,dish=What,target=Aim";

    fn looked_at(table: &str, shown: usize) -> Preview {
        let defaults = Defaults {
            unit: MassUnit::Gram,
            dish: None,
            target: None,
            tolerance: Tolerance::symmetric(Mass::from_grams(1)),
            mode: Mode::Adding,
            zone: TimeZone::UTC,
            now: "2026-11-01T12:00:00Z".parse().unwrap(),
        };
        let columns = Columns::parse("--map", MAP).unwrap();
        preview(
            Cursor::new(table),
            &columns,
            &defaults,
            &HashMap::new(),
            shown,
        )
        .unwrap()
    }

    fn table(rows: impl Iterator<Item = (f64, &'static str)>) -> String {
        let mut table = "When,Weight,What,Aim\n".to_owned();
        for (nth, (grams, dish)) in rows.enumerate() {
            let (minute, second) = (nth / 60 % 60, nth % 60);
            table += &format!("2026-05-01 18:{minute:02}:{second:02},{grams:.6},{dish},30\n");
        }
        table
    }

    #[test]
    fn the_one_that_lies_far_off_is_told_with_its_line() {
        let rows = (0..20).map(|nth| match nth {
            7 => (38.0, "Gnudi"),
            _ => (30.0 + f64::from(nth % 5) / 10.0, "Gnudi"),
        });
        let found = looked_at(&table(rows), 20);
        assert_eq!((found.odd_weighings, found.odd.len()), (1, 1));
        assert_eq!(found.odd[0].line, 9);
        // By hand: the median is 30.2 g, the median distance 0.1 g.
        let by_hand = 7.8 / 0.148_26;
        assert!(
            (found.odd[0].deviations - by_hand).abs() < 1e-9,
            "{found:?}"
        );
    }

    #[test]
    fn each_dish_is_held_against_itself() {
        let of = |nth: u32| f64::from(nth % 5) / 10.0;
        let rows = (0..40).map(|nth| match nth % 2 {
            0 => (30.0 + of(nth), "Gnudi"),
            _ => (90.0 + of(nth), "Cockles"),
        });
        let found = looked_at(&table(rows), 20);
        assert_eq!((found.weighings, found.odd_weighings), (40, 0));
    }

    /// Evenly over 28 g to 32 g, a microgram apart from any other, ten thousand
    /// of them; and eight far off, farther and farther.
    fn very_many() -> String {
        let even = (0..10_000).map(|nth| (28.0 + f64::from(nth * 7_919 % 10_000) * 4e-4, "Gnudi"));
        let far = (0..8).map(|nth| (40.0 + f64::from(nth), "Gnudi"));
        table(even.chain(far))
    }

    #[test]
    fn of_very_many_only_what_is_shown_is_held() {
        let found = looked_at(&very_many(), 3);
        assert_eq!((found.weighings, found.first.len()), (10_008, 3));
        assert_eq!((found.odd_weighings, found.odd.len()), (8, 3));
        let lines: Vec<_> = found.odd.iter().map(|odd| odd.line).collect();
        assert_eq!(lines, [10_009, 10_008, 10_007]);
        // An even law over 4 g has its median in the middle and half of itself
        // within 1 g of it; the eight shift both by less than a thousandth.
        let by_hand = 17.0 / 1.4826;
        let off = found.odd[0].deviations / by_hand - 1.0;
        assert!(off.abs() < 0.005, "{off}");
    }

    #[test]
    fn masses_that_are_all_different_are_counted_in_steps() {
        let mut masses = Masses::default();
        for nth in 0..100_000_i64 {
            masses.add(30_000_000 + nth * 7_919 % 100_003 * 41);
            assert!(masses.counts.len() <= MASSES);
        }
        assert_eq!(masses.counts.values().sum::<u64>(), 100_000);
        assert!(masses.step > 0, "witness: more than can be told apart came");
    }

    #[test]
    fn bad_lines_are_counted_and_the_first_are_held() {
        let mut table = table((0..10).map(|_| (30.0, "Gnudi")));
        table += &"2026-05-01 18:30:00,30,1,Gnudi,30\n".repeat(50);
        let found = looked_at(&table, 20);
        assert_eq!(
            (found.weighings, found.bad_lines, found.bad.len()),
            (10, 50, 20)
        );
        assert_eq!(found.bad[0].line, 12);
    }
}
