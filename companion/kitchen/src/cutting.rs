//! Cutting a slab into pieces of one weight, and what the last cuts say of the
//! next.

use crate::statistics::{Confidence, Interval, Sample, mean_interval};
use evenhand_protocol::Mass;

/// The most pieces that a slab is cut into.
pub const MOST_PIECES: u32 = 500;

/// Why a slab gives no pieces.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum CutError {
    /// The ends weigh as much as the slab, or more.
    #[error("the ends put aside weigh as much as the slab or more: weigh both again")]
    NothingBetween,
    /// A mass is not above zero.
    #[error("{0} must be a mass above zero")]
    NotAboveZero(&'static str),
    /// Not one whole piece fits.
    #[error("what is left between the ends is less than one piece")]
    NoPiece,
    /// More pieces than [`MOST_PIECES`].
    #[error("that would be more than {MOST_PIECES} pieces: check the two masses")]
    TooMany,
}

/// A slab to be cut.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Slab {
    /// As weighed.
    pub whole: Mass,
    /// Ends put aside, as weighed or estimated.
    pub ends: Mass,
}

/// How to cut it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct CutPlan {
    /// How many pieces.
    pub pieces: u32,
    /// What each weighs when all are alike.
    pub each: Mass,
    /// What is left over when each is as asked; with the ends put aside.
    pub rest: Mass,
}

impl Slab {
    fn between(self) -> Result<Mass, CutError> {
        if self.whole <= Mass::ZERO {
            return Err(CutError::NotAboveZero("the slab"));
        }
        let between = self.whole - self.ends.max(Mass::ZERO);
        if between <= Mass::ZERO {
            return Err(CutError::NothingBetween);
        }
        Ok(between)
    }

    /// As many whole pieces of `each` as it gives, the rest put aside.
    ///
    /// # Errors
    /// [`CutError`].
    pub fn pieces_of(self, each: Mass) -> Result<CutPlan, CutError> {
        if each <= Mass::ZERO {
            return Err(CutError::NotAboveZero("a piece"));
        }
        let between = self.between()?;
        let pieces = between.micrograms() / each.micrograms();
        if pieces == 0 {
            return Err(CutError::NoPiece);
        }
        let pieces = u32::try_from(pieces)
            .ok()
            .filter(|pieces| *pieces <= MOST_PIECES)
            .ok_or(CutError::TooMany)?;
        Ok(CutPlan {
            pieces,
            each,
            rest: between - each.times(i64::from(pieces)),
        })
    }

    /// So many pieces, all alike, with nothing over.
    ///
    /// # Errors
    /// [`CutError`].
    pub fn in_pieces(self, pieces: u32) -> Result<CutPlan, CutError> {
        if pieces == 0 {
            return Err(CutError::NoPiece);
        }
        if pieces > MOST_PIECES {
            return Err(CutError::TooMany);
        }
        let between = self.between()?;
        let each = Mass::from_micrograms(between.micrograms() / i64::from(pieces));
        if each <= Mass::ZERO {
            return Err(CutError::NoPiece);
        }
        Ok(CutPlan {
            pieces,
            each,
            rest: between - each.times(i64::from(pieces)),
        })
    }
}

/// How many of the last pieces the next cut's correction leans on.
const LAST: usize = 12;
/// Fewest pieces that a correction is given on (common practice, no source).
pub const FEWEST_TO_CORRECT: usize = 5;

/// What the last pieces, or scoops, say of the next one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Correction {
    /// Too few to say.
    TooFew(usize),
    /// They lie about what was meant, as far as so few can show.
    None {
        /// Where the true offset lies.
        offset: Interval<Mass>,
    },
    /// They came out heavier (positive) or lighter than meant: cut the next
    /// by so much less (or more).
    Cut {
        /// To add to the next piece; negative to cut thinner.
        by: Mass,
        /// Where the true offset lies.
        offset: Interval<Mass>,
        /// How many pieces it leans on.
        pieces: usize,
    },
}

impl Correction {
    /// From the last pieces' masses, each less what was meant, in order. Told
    /// only where an interval of 95 % leaves out nought, so a hand that is right
    /// is left alone nineteen times in twenty.
    #[must_use]
    pub fn after(offsets: &[Mass]) -> Self {
        let last = &offsets[offsets.len().saturating_sub(LAST)..];
        if last.len() < FEWEST_TO_CORRECT {
            return Self::TooFew(last.len());
        }
        let sample: Sample = last.iter().copied().collect();
        let (Some(offset), Some(mean)) = (
            mean_interval(&sample, Confidence::NINETY_FIVE),
            sample.mean(),
        ) else {
            return Self::TooFew(last.len());
        };
        if offset.holds(&Mass::ZERO) {
            Self::None { offset }
        } else {
            Self::Cut {
                by: -mean,
                offset,
                pieces: last.len(),
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const fn g(grams: i64) -> Mass {
        Mass::from_grams(grams)
    }

    // Worked by hand: 2 400 g less 150 g of ends is 2 250 g: twelve of 180 g and 90 g
    // over, or twelve of 187.5 g.
    #[test]
    fn a_slab_with_its_ends_aside() {
        let slab = Slab {
            whole: g(2_400),
            ends: g(150),
        };
        let of = slab.pieces_of(g(180)).unwrap();
        assert_eq!((of.pieces, of.rest), (12, g(90)));
        let even = slab.in_pieces(12).unwrap();
        assert_eq!(even.each, Mass::from_milligrams(187_500));
        for plan in [of, even, slab.in_pieces(7).unwrap()] {
            assert_eq!(
                plan.each.times(i64::from(plan.pieces)) + plan.rest + slab.ends,
                slab.whole
            );
        }
        assert_eq!(slab.pieces_of(g(2_300)), Err(CutError::NoPiece));
        assert_eq!(slab.pieces_of(g(1)), Err(CutError::TooMany));
        assert_eq!(slab.in_pieces(0), Err(CutError::NoPiece));
        let all_ends = Slab {
            whole: g(100),
            ends: g(100),
        };
        assert_eq!(all_ends.in_pieces(2), Err(CutError::NothingBetween));
    }

    #[test]
    fn the_last_pieces_correct_the_next() {
        // Mean +6 g, standard deviation 2: 2.365 x 2 / sqrt(8) = 1.7 g either way.
        let heavy = [4, 8, 6, 4, 8, 6, 6, 6].map(g);
        let Correction::Cut { by, pieces, .. } = Correction::after(&heavy) else {
            panic!("six grams over are not seen");
        };
        assert_eq!((by, pieces), (g(-6), 8));
        let about = [-3, 3, -2, 2, 0, 1].map(g);
        assert!(matches!(Correction::after(&about), Correction::None { .. }));
        assert_eq!(Correction::after(&heavy[..4]), Correction::TooFew(4));
        // What was cut long ago is forgotten.
        let mut mended = [9; 20].map(g).to_vec();
        mended.extend([-1, 1].iter().cycle().take(12).copied().map(g));
        assert!(matches!(
            Correction::after(&mended),
            Correction::None { .. }
        ));
    }
}
