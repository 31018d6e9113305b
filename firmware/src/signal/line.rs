//! A calibration in whole numbers, as the chain weighs by it.

use super::filter::PARTS;
use super::whole::product;
use evenhand_protocol::Mass;

/// From parts of a count to mass: straight from the empty pan to the heaviest
/// load and on beyond both, and what the curve bends away from that.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Line {
    /// The empty pan, in [`PARTS`] of a count.
    pub(super) zero: i64,
    /// From there to the heaviest load, in the same; not zero.
    pub(super) span: i64,
    /// The heaviest load; above zero.
    pub(super) heaviest: Mass,
    #[cfg(feature = "calibration")]
    pub(super) bend: Bend,
}

impl Line {
    /// The load under which the bridge gives this mean, in [`PARTS`] of a
    /// count.
    pub(super) fn mass_of(&self, mean: i64) -> Mass {
        let from_zero = mean.saturating_sub(self.zero);
        // What fits in no mass is beyond every limit on either side.
        let straight = self.heaviest.fraction(from_zero, self.span);
        let straight = straight.unwrap_or(Mass::MAX);
        #[cfg(feature = "calibration")]
        let straight = straight + self.bend.at(from_zero, self.span);
        straight
    }

    /// The load that one count stands for, whichever way the cell is wired.
    pub(super) fn mass_of_one_count(&self) -> Mass {
        let mass = self.heaviest.fraction(PARTS, self.span);
        mass.unwrap_or(Mass::MAX).abs()
    }

    /// A mass as so many [`PARTS`] of a count.
    pub(super) fn parts_of(&self, mass: Mass) -> i64 {
        let parts = mass.fraction(self.span, self.heaviest.micrograms());
        parts.unwrap_or(Mass::MAX).abs().micrograms()
    }

    /// So many [`PARTS`] of a count as a mass, by the mass of a count; rounded
    /// up.
    pub(super) fn mass_of_parts(parts: u32, count: Mass) -> Mass {
        let whole = product(i64::from(parts), count.micrograms());
        Mass::from_micrograms(whole.saturating_add(PARTS - 1) / PARTS)
    }
}

/// How far a curve is from the straight line, in micrograms by the part x of
/// the span: a (x² - x) + b (x³ - x) within the span, straight on beyond it.
#[cfg(feature = "calibration")]
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Bend {
    pub(super) square: i64,
    pub(super) cube: i64,
}

#[cfg(feature = "calibration")]
impl Bend {
    /// Parts of the span that x is taken in: 2 to this power.
    const POWER: u32 = 24;

    fn at(self, from_zero: i64, span: i64) -> Mass {
        if self.square == 0 && self.cube == 0 {
            return Mass::ZERO;
        }
        const ONE: i64 = 1 << Bend::POWER;
        let part = |number: i64, x: i64| product(number, x) >> Self::POWER;
        // A load of a hundred spans is beyond every limit.
        let x = product(from_zero, ONE).checked_div(span).unwrap_or(0);
        let inside = x.clamp(0, ONE);
        let beyond = x.clamp(-100 * ONE, 100 * ONE).saturating_sub(inside);
        let square = part(inside, inside);
        let cube = part(square, inside);
        let value = part(self.square, square.saturating_sub(inside))
            .saturating_add(part(self.cube, cube.saturating_sub(inside)));
        let slope = part(self.square, product(2, inside).saturating_sub(ONE))
            .saturating_add(part(self.cube, product(3, square).saturating_sub(ONE)));
        Mass::from_micrograms(value.saturating_add(part(slope, beyond)))
    }
}
