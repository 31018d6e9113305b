//! What the portion machines take for food, a dish, or nothing at all.

use crate::signal::Weight;
use crate::signal::uncertainty::quadrature;
use evenhand_protocol::{Goal, Mass};

/// How finely the machines look.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct PortionSettings {
    /// The smallest change between two equilibria that is taken for food.
    /// Above what noise and drift do within a portion, below what a cook can
    /// do on purpose.
    pub step: Mass,
    /// The lightest load that is taken for a dish or a tin; less is a crumb
    /// or a drip on the pan.
    pub lightest_dish: Mass,
    /// Standard uncertainty of a difference of two equilibria besides noise:
    /// where on the pan the load stands, creep, and the display's own step.
    pub base_uncertainty: Mass,
}

impl PortionSettings {
    /// For a scale of about a kilogram with a tenth of a gram to read.
    pub const BENCH: Self = Self {
        step: Mass::from_milligrams(150),
        lightest_dish: Mass::from_grams(3),
        base_uncertainty: Mass::from_milligrams(20),
    };

    /// The smallest change that is taken for food, at this weight's noise: six
    /// standard uncertainties, so that noise alone passes for food less than
    /// once in a hundred million equilibria; but a quarter of a very small
    /// target still counts as food where noise allows.
    pub(super) fn step_at(&self, weight: &Weight, goal: Goal) -> Mass {
        let quarter = goal.target().fraction(1, 4).unwrap_or(self.step);
        self.step.min(quarter).max(weight.noise.times(6))
    }

    /// How far the same load may read from itself when it is lifted and set
    /// down elsewhere on the pan: a fixed part for crumbs and drips, and a
    /// thousandth of the load, several times the off-centre error of such
    /// cells (0.02 % of the load, typical).
    pub(super) fn placement(&self, load: Mass) -> Mass {
        self.step.times(2) + load.abs().fraction(1, 1_000).unwrap_or(Mass::ZERO)
    }

    /// How far the content of a dish may differ after it stood somewhere else
    /// and still count as unchanged.
    pub(super) fn unchanged(&self, load: Mass) -> Mass {
        self.step + load.abs().fraction(1, 4_000).unwrap_or(Mass::ZERO)
    }

    /// What a lifted load must have left behind to be called a splash: more
    /// than the pan's own failure to come back to where it was, some hundred
    /// parts in a million for a load of seconds (typical, no source).
    pub(super) fn residue(&self, load: Mass) -> Mass {
        self.step.fraction(1, 3).unwrap_or(self.step)
            + load.abs().fraction(1, 10_000).unwrap_or(Mass::ZERO)
    }

    /// Expanded uncertainty (coverage factor 2) of the difference of two
    /// equilibria with these standard uncertainties from noise, between which
    /// the load went `astray` from both by so much at most; the parts add in
    /// quadrature (JCGM 100:2008, 5.1.2). A force of seconds leaves about a
    /// ten-thousandth of itself in the cell for some seconds more (typical, no
    /// source).
    pub(super) fn expanded(&self, first: Mass, second: Mass, astray: Mass) -> Mass {
        let creep = astray.fraction(1, 10_000).unwrap_or(astray);
        quadrature([first, second, creep, self.base_uncertainty]).times(2)
    }
}

impl Default for PortionSettings {
    fn default() -> Self {
        Self::BENCH
    }
}

/// The shares of a target by which the machines tell a portion from what is
/// none.
pub(super) trait Shares {
    /// A tenth of the target: less in a dish is nothing.
    fn tenth(self) -> Mass;
    /// A quarter of the target: a portion within it is about right.
    fn quarter(self) -> Mass;
    /// A third of the target: more may be a half portion.
    fn third(self) -> Mass;
    /// Two fifths of the target: nobody takes so much out of a portion that is
    /// about right.
    fn two_fifths(self) -> Mass;
    /// Half the target: less is part of a portion, or a correction of one.
    fn half(self) -> Mass;
    /// 1.5 targets.
    fn one_and_a_half(self) -> Mass;
    /// 1.6 targets: as much at once may be two portions.
    fn maybe_two(self) -> Mass;
    /// Four targets: as much at once is no portion.
    fn too_much(self) -> Mass;
    /// Whether a mass may be one portion: from half a target to 1.6 targets.
    fn may_be_one(self, mass: Mass) -> bool;
    /// How far a mass is from the target.
    fn distance(self, mass: Mass) -> Mass;
}

impl Shares for Goal {
    fn tenth(self) -> Mass {
        self.target().fraction(1, 10).unwrap_or(Mass::ZERO)
    }
    fn quarter(self) -> Mass {
        self.target().fraction(1, 4).unwrap_or(Mass::ZERO)
    }
    fn third(self) -> Mass {
        self.target().fraction(1, 3).unwrap_or(Mass::ZERO)
    }
    fn two_fifths(self) -> Mass {
        self.target().fraction(2, 5).unwrap_or(Mass::ZERO)
    }
    fn half(self) -> Mass {
        self.target().fraction(1, 2).unwrap_or(Mass::ZERO)
    }
    fn one_and_a_half(self) -> Mass {
        self.target().fraction(3, 2).unwrap_or(Mass::MAX)
    }
    fn maybe_two(self) -> Mass {
        self.target().fraction(8, 5).unwrap_or(Mass::MAX)
    }
    fn too_much(self) -> Mass {
        self.target().times(4)
    }
    fn may_be_one(self, mass: Mass) -> bool {
        mass >= self.half() && mass < self.maybe_two()
    }
    fn distance(self, mass: Mass) -> Mass {
        (mass - self.target()).abs()
    }
}
