//! How much of meat and fish is water, which salt shares itself out over.

use crate::source::Publication;
use crate::units::{InputError, parse_percent};

/// What one line of the table stands on.
const FSIS: Publication = Publication::read(
    "USDA Food Safety and Inspection Service, Water in Meat and Poultry (raw), the range an estimate",
);
const MUSCLE: Publication = Publication::read(
    "USDA Food Safety and Inspection Service, Water in Meat and Poultry: muscle is approximately \
     75 % water, the range an estimate",
);
const RECALLED: Publication = Publication::from_memory(
    "USDA FoodData Central, raw, the range over cuts and animals an estimate",
);

/// Raw meat or fish and the water in it, in per cent of its mass.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct MeatWater {
    /// What it is, as it is typed.
    pub name: &'static str,
    /// The middle.
    pub percent: f64,
    /// Give or take, in percentage points.
    pub give_or_take: f64,
    /// Where that comes from.
    pub source: Publication,
}

const fn line(
    name: &'static str,
    percent: f64,
    give_or_take: f64,
    source: Publication,
) -> MeatWater {
    MeatWater {
        name,
        percent,
        give_or_take,
        source,
    }
}

/// The table.
pub const MEAT_WATER: [MeatWater; 13] = [
    line("lean-muscle", 75.0, 2.0, MUSCLE),
    line("lean-beef", 73.0, 2.0, FSIS),
    line("beef-brisket", 71.0, 4.0, FSIS),
    line("ground-beef", 60.0, 6.0, FSIS),
    line("chicken-whole", 66.0, 3.0, FSIS),
    line("chicken-breast-with-skin", 69.0, 3.0, FSIS),
    line("chicken-leg-with-skin", 66.0, 3.0, FSIS),
    line("pork-loin", 71.0, 4.0, RECALLED),
    line("pork-belly", 42.0, 12.0, RECALLED),
    line("turkey-breast", 74.0, 2.0, RECALLED),
    line("duck-breast", 66.0, 10.0, RECALLED),
    line("oily-fish", 68.0, 6.0, RECALLED),
    line("white-fish", 80.0, 3.0, RECALLED),
];

impl MeatWater {
    /// The line of a name, or a number of per cent that was measured or read
    /// off a label, taken as exact.
    ///
    /// # Errors
    /// A name that the table has not, or a share outside 20 to 90 per cent.
    pub fn parse(field: &str, text: &str) -> Result<Self, InputError> {
        let typed = text.trim();
        if let Some(found) = MEAT_WATER
            .iter()
            .find(|line| line.name.eq_ignore_ascii_case(typed))
        {
            return Ok(*found);
        }
        if !typed.starts_with(|c: char| c.is_ascii_digit()) {
            let names: Vec<_> = MEAT_WATER.iter().map(|line| line.name).collect();
            return Err(InputError::new(
                field,
                text,
                problem!("no-such-meat"),
                expected!("kind-of-meat", names = names.join(", ")),
            ));
        }
        let value = parse_percent(field, typed)?;
        if !(20.0..=90.0).contains(&value) {
            return Err(InputError::new(
                field,
                text,
                problem!("no-share-of-water"),
                expected!("share-of-water"),
            ));
        }
        Ok(line(
            "as said",
            value,
            0.0,
            Publication {
                title: "put in by this kitchen",
                standing: crate::source::Standing::Local,
            },
        ))
    }

    /// Parts of water, from the least to the most.
    #[must_use]
    pub fn range(&self) -> (f64, f64) {
        (
            (self.percent - self.give_or_take) / 100.0,
            (self.percent + self.give_or_take) / 100.0,
        )
    }
}

impl core::fmt::Display for MeatWater {
    /// `pork-loin: 71 ± 4 % water, source`.
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        write!(f, "{}: {:.0} ", self.name, self.percent)?;
        if self.give_or_take > 0.0 {
            write!(f, "\u{b1} {:.0} ", self.give_or_take)?;
        }
        write!(f, "% water, {}", self.source)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    // USDA FSIS, Water in Meat and Poultry (read): eye of round 73 %, whole brisket 71 %, ground
    // beef 85 % lean 64 % and 73 % lean 56 %, whole fryer 66 %, white meat with skin 69 %, dark 66 %.
    #[test]
    fn the_page_of_the_inspection_service_lies_within_its_lines() {
        for (name, percent) in [
            ("lean-beef", 73.0),
            ("beef-brisket", 71.0),
            ("ground-beef", 64.0),
            ("ground-beef", 56.0),
            ("chicken-whole", 66.0),
            ("chicken-breast-with-skin", 69.0),
            ("chicken-leg-with-skin", 66.0),
            ("lean-muscle", 75.0),
        ] {
            let line = MeatWater::parse("--kind", name).unwrap();
            assert!(
                (line.percent - percent).abs() <= line.give_or_take,
                "{line}"
            );
        }
    }

    #[test]
    fn a_number_is_taken_and_nonsense_refused() {
        let said = MeatWater::parse("--kind", "73%").unwrap();
        assert_eq!(said.range(), (0.73, 0.73));
        assert_eq!(
            MeatWater::parse("--kind", "Pork-Loin").unwrap().percent,
            71.0
        );
        for text in ["7.3%", "95", "dragon", ""] {
            assert_eq!(
                MeatWater::parse("--kind", text).unwrap_err().field(),
                "--kind"
            );
        }
    }
}
