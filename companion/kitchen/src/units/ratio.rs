//! A ratio of two like quantities.

/// A ratio of two like quantities, such as a share or a coefficient of
/// variation; 1 is the whole. May be any finite number.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default, serde::Serialize)]
#[serde(transparent)]
pub struct Ratio(f64);

impl Ratio {
    /// Nothing.
    pub const ZERO: Self = Self(0.0);
    /// The whole.
    pub const ONE: Self = Self(1.0);

    /// A ratio, or `None` where the number is not finite.
    #[must_use]
    pub fn new(value: f64) -> Option<Self> {
        value.is_finite().then_some(Self(value))
    }

    /// So many of so many; zero of zero is zero.
    #[must_use]
    pub fn of(part: usize, whole: usize) -> Self {
        if whole == 0 {
            return Self::ZERO;
        }
        Self(part as f64 / whole as f64)
    }

    /// As a fraction of one.
    #[must_use]
    pub const fn fraction(self) -> f64 {
        self.0
    }

    /// In per cent.
    #[must_use]
    pub fn percent(self) -> f64 {
        self.0 * 100.0
    }
}

impl core::fmt::Display for Ratio {
    /// In per cent, one decimal unless a precision is given: `12.5%`.
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        write!(f, "{:.*}%", f.precision().unwrap_or(1), self.percent())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_share_of_nothing_is_nothing() {
        assert_eq!(Ratio::of(0, 0), Ratio::ZERO);
        assert_eq!(Ratio::of(1, 8).to_string(), "12.5%");
        assert_eq!(Ratio::new(f64::NAN), None);
    }
}
