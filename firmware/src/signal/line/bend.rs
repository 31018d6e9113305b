//! How a calibration bends away from a straight line.

use crate::signal::whole::product;
use evenhand_protocol::Mass;

/// How far a curve is from the straight line, in micrograms by the part x of
/// the span: a (x² - x) + b (x³ - x) within the span, straight on beyond it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(in crate::signal) struct Bend {
    square: i64,
    cube: i64,
}

impl Bend {
    /// Parts of the span that x is taken in: 2 to this power.
    const POWER: u32 = 24;

    pub(in crate::signal) const fn of(square: i64, cube: i64) -> Self {
        Self { square, cube }
    }

    pub(super) fn at(self, from_zero: i64, span: i64) -> Mass {
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
