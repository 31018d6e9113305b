//! A calibration in whole numbers, as the chain weighs by it.

#[cfg(feature = "calibration")]
mod bend;
#[cfg(not(feature = "calibration"))]
#[path = "line/straight.rs"]
mod bend;

pub(super) use bend::Bend;

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
        straight + self.bend.at(from_zero, self.span)
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
