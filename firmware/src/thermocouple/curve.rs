//! A reference function in whole numbers, for a processor without double
//! precision.
//!
//! The function and its slope at knots 16.384 °C apart are worked out when the
//! program is compiled, from the published coefficients; between two knots runs
//! the cubic that has both values and both slopes. Over the range of each
//! type's inverse it is within 1 m°C of the reference function (0.4 m°C for a type K);
//! a test says so at every twentieth of a degree.

use super::emf::Emf;
use super::reference::Tables;
use super::{Kind, OutOfRange, kinds};
use evenhand_protocol::Temperature;

/// Millidegrees from one knot to the next: 2 to this power.
const STEP_POWER: u32 = 14;
/// From one knot to the next.
const STEP: i32 = 1 << STEP_POWER;
/// Parts of a nanovolt that values are kept in.
const PARTS: i64 = 16;

/// The function at one temperature.
#[derive(Debug, Clone, Copy)]
struct Knot {
    /// Sixteenths of a nanovolt.
    value: i32,
    /// How many more a whole step further if it went on straight.
    slope: i32,
}

/// A type's reference function and its inverse, over the range of the inverse
/// ([`Kind::range`]).
#[derive(Debug)]
pub struct Curve {
    /// Millidegrees where the range begins.
    lowest: i32,
    /// Millidegrees from there to the end of the range.
    span: i32,
    /// Millidegrees from the first knot to where the range begins.
    before: i32,
    /// The knot at 0 °C, where two stretches of most functions meet, and by how
    /// much the slope of a type N jumps there.
    zero: usize,
    jump: i32,
    knots: &'static [Knot],
}

/// Millidegrees at the first knot, a whole number of steps from 0 °C.
const fn first(tables: &Tables) -> i32 {
    nearest(tables.inverse_lowest * 1e3).div_euclid(STEP) * STEP
}

/// How many knots a range takes: one at or beyond its end.
const fn count(tables: &Tables) -> usize {
    let millidegrees = nearest(tables.highest() * 1e3) - first(tables);
    millidegrees as usize / STEP as usize + 2
}

const fn nearest(number: f64) -> i32 {
    (if number < 0.0 {
        number - 0.5
    } else {
        number + 0.5
    }) as i32
}

const fn slope(tables: &Tables, celsius: f64) -> i32 {
    match tables.extended(celsius) {
        Some((_, slope)) => nearest(slope * 1e3 * PARTS as f64 * STEP as f64),
        None => 0,
    }
}

const fn knots<const COUNT: usize>(tables: &Tables) -> [Knot; COUNT] {
    let mut knots = [Knot { value: 0, slope: 0 }; COUNT];
    let mut place = 0;
    while place < COUNT {
        let celsius = (first(tables) as f64 + (place as f64) * (STEP as f64)) / 1e3;
        if let Some((millivolts, _)) = tables.extended(celsius) {
            knots[place] = Knot {
                value: nearest(millivolts * 1e6 * PARTS as f64),
                slope: slope(tables, celsius),
            };
        }
        place += 1;
    }
    knots
}

macro_rules! curve {
    ($kind:ident) => {{
        const TABLES: &Tables = &kinds::$kind::TABLES;
        static KNOTS: [Knot; count(TABLES)] = knots(TABLES);
        static CURVE: Curve = Curve {
            lowest: nearest(TABLES.inverse_lowest * 1e3),
            span: nearest((TABLES.highest() - TABLES.inverse_lowest) * 1e3),
            before: nearest(TABLES.inverse_lowest * 1e3) - first(TABLES),
            zero: (-first(TABLES) / STEP) as usize,
            // On the other side of 0 °C.
            jump: slope(TABLES, 1e-9) - slope(TABLES, 0.0),
            knots: &KNOTS,
        };
        &CURVE
    }};
}

impl Kind {
    /// The type's reference function in whole numbers. Where the type is known
    /// when the program is compiled, only that one's is in the image.
    #[must_use]
    #[inline]
    pub const fn curve(self) -> &'static Curve {
        match self {
            Self::K => curve!(k),
            Self::T => curve!(t),
            Self::J => curve!(j),
            Self::N => curve!(n),
            Self::E => curve!(e),
            Self::S => curve!(s),
            Self::R => curve!(r),
            Self::B => curve!(b),
        }
    }
}

impl Curve {
    /// Sixteenths of a nanovolt so many millidegrees above where the range
    /// begins.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn value(&self, offset: i32) -> Option<i32> {
        let offset = offset.checked_add(self.before)?;
        let place = usize::try_from(offset >> STEP_POWER).ok()?;
        let [first, second] = self.knots.get(place..)?.first_chunk()?;
        let jump = if place == self.zero { self.jump } else { 0 };
        let within = i64::from(offset & (STEP - 1));
        // The sums wrap nowhere: values stay below 2^31 / 1.7, and so do the slopes.
        let slope = first.slope.wrapping_add(jump);
        let rise = second.value.wrapping_sub(first.value);
        let bend = slope
            .wrapping_add(second.slope)
            .wrapping_sub(rise.wrapping_mul(2));
        let turn = rise.wrapping_sub(slope).wrapping_sub(bend);
        let part = |number: i32| (i64::from(number).wrapping_mul(within) >> STEP_POWER) as i32;
        let inner = part(bend).wrapping_add(turn);
        let outer = part(inner).wrapping_add(slope);
        Some(part(outer).wrapping_add(first.value))
    }

    /// The voltage with the hot junction at a temperature and the cold one at
    /// 0 °C. `None` outside the range.
    #[must_use]
    pub fn emf(&self, hot: Temperature) -> Option<Emf> {
        let offset = hot.millicelsius().checked_sub(self.lowest)?;
        let within = (0..=self.span).contains(&offset);
        let value = self.value(offset).filter(|_| within)?;
        Some(Emf::from_nanovolts(i64::from(value) / PARTS))
    }

    /// The hot junction's temperature from the voltage with the cold one at
    /// 0 °C. `None` outside the range.
    #[must_use]
    pub fn temperature(&self, emf: Emf) -> Option<Temperature> {
        let wanted = emf.nanovolts().saturating_mul(PARTS);
        // Bit by bit, the last temperature that is not beyond it.
        let mut offset = 0;
        for bit in (0..21).rev() {
            let higher = offset | 1 << bit;
            if higher <= self.span && i64::from(self.value(higher)?) <= wanted {
                offset = higher;
            }
        }
        let apart = |place| Some(wanted.saturating_sub(i64::from(self.value(place)?)));
        let below = apart(offset)?;
        if below < 0 || offset == self.span {
            // Beyond the range. Rounding to a nanovolt may put it there by a millidegree.
            let inside = if below < 0 {
                1
            } else {
                self.span.wrapping_sub(1)
            };
            if below.saturating_abs() > apart(inside)?.saturating_sub(below).saturating_abs() {
                return None;
            }
        } else if apart(offset.wrapping_add(1))?.saturating_neg() < below {
            offset = offset.wrapping_add(1);
        }
        Some(Temperature::from_millicelsius(
            self.lowest.wrapping_add(offset),
        ))
    }

    /// The hot junction's temperature from the voltage measured with the cold
    /// junction at `cold`.
    ///
    /// # Errors
    ///
    /// [`OutOfRange`] as for [`Kind::hot_junction`]; here the cold junction is
    /// to be in the range of the inverse as well.
    pub fn hot_junction(
        &self,
        measured: Emf,
        cold: Temperature,
    ) -> Result<Temperature, OutOfRange> {
        let reference = self.emf(cold).ok_or(OutOfRange::ColdJunction(cold))?;
        let sum = measured + reference;
        self.temperature(sum).ok_or(OutOfRange::Sum(sum))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Against the reference functions in double precision (NIST SRD 60), every 50 m°C of
    /// every range: 1 m°C, and half a one of rounding.
    #[test]
    fn it_is_the_reference_function_within_a_millidegree() {
        for kind in Kind::ALL {
            let curve = kind.curve();
            let range = kind.range();
            let (first, last) = (range.start().millicelsius(), range.end().millicelsius());
            assert_eq!((curve.lowest, curve.span), (first, last - first));
            for millicelsius in (first..=last).step_by(50).chain([last]) {
                let hot = Temperature::from_millicelsius(millicelsius);
                let exact = kind.emf(hot).unwrap();
                let (_, slope) = kind.tables().forward(hot.celsius()).unwrap();
                let off = (curve.emf(hot).unwrap() - exact).millivolts().abs() / slope;
                assert!(off < 1e-3, "{kind:?} at {millicelsius}: {off}");
                let back = curve.temperature(exact).unwrap().millicelsius();
                assert!((back - millicelsius).abs() <= 1, "{kind:?} {millicelsius}");
            }
        }
    }

    #[test]
    fn what_the_reference_function_refuses_is_refused() {
        for kind in Kind::ALL {
            let (curve, range) = (kind.curve(), kind.range());
            for (end, outward) in [(range.start(), -1), (range.end(), 1)] {
                let emf = kind.emf(*end).unwrap();
                // Three microvolts beyond the end.
                let beyond = emf + Emf::from_nanovolts(outward * 3_000);
                assert_eq!(curve.temperature(beyond), None, "{kind:?}");
                assert_eq!(kind.temperature(beyond), None, "{kind:?}");
                let outside = Temperature::from_millicelsius(
                    end.millicelsius() + i32::try_from(outward).unwrap(),
                );
                assert_eq!(curve.emf(outside), None, "{kind:?}");
            }
            for extreme in [i64::MIN, i64::MAX] {
                assert_eq!(curve.temperature(Emf::from_nanovolts(extreme)), None);
            }
            for extreme in [i32::MIN, i32::MAX] {
                assert_eq!(curve.emf(Temperature::from_millicelsius(extreme)), None);
            }
        }
    }
}
