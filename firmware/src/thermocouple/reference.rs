//! How the reference functions and their inverses are evaluated.
//!
//! Degrees Celsius and millivolts, the units of the published coefficients.

/// The term `height * exp(narrowness * (t - centre)^2)` that type K adds to its
/// polynomial above 0 °C.
pub(super) struct Bump {
    pub height: f64,
    pub narrowness: f64,
    pub centre: f64,
}

/// One stretch of a reference function, temperature to voltage.
pub(super) struct Forward {
    pub up_to: f64,
    pub coefficients: &'static [f64],
    pub bump: Option<Bump>,
}

/// One stretch of a published inverse, voltage to temperature.
pub(super) struct Inverse {
    pub up_to_millivolts: f64,
    pub coefficients: &'static [f64],
}

/// One type of thermocouple.
pub(super) struct Tables {
    /// Where the reference function begins.
    pub lowest: f64,
    pub forward: &'static [Forward],
    /// Where the published inverse begins.
    pub inverse_lowest: f64,
    pub inverse_lowest_millivolts: f64,
    pub inverse: &'static [Inverse],
}

/// Steps of Newton's method on the reference function after the published
/// inverse: the first leaves less than 0.1 m°C of its error, the second nothing
/// that matters.
const NEWTON_STEPS: u8 = 2;

/// The published ends of the inverse are rounded or cut to the microvolt.
const ROUNDING_MILLIVOLTS: f64 = 0.001;
/// What that rounding, and rounding to nanovolts, may come to in temperature.
const ROUNDING_CELSIUS: f64 = 0.001;

/// A polynomial and its derivative, by Horner's scheme.
const fn polynomial(coefficients: &[f64], x: f64) -> (f64, f64) {
    let (mut value, mut slope) = (0.0, 0.0);
    let mut left = coefficients;
    while let [rest @ .., coefficient] = left {
        (value, slope) = (value * x + *coefficient, slope * x + value);
        left = rest;
    }
    (value, slope)
}

/// e to the power of a number that is zero or less, here and not from the
/// library so that it can be worked out when the program is compiled: the
/// series of a 256th of it, squared eight times.
const fn exponential(power: f64) -> f64 {
    // Less than this is nothing beside a nanovolt.
    if power < -60.0 {
        return 0.0;
    }
    let part = power / 256.0;
    let (mut sum, mut term, mut n) = (1.0, 1.0, 1.0);
    while n < 16.0 {
        term = term * part / n;
        sum += term;
        n += 1.0;
    }
    let mut doublings = 0;
    while doublings < 8 {
        sum *= sum;
        doublings += 1;
    }
    sum
}

impl Tables {
    /// Where the reference function ends.
    pub const fn highest(&self) -> f64 {
        match self.forward {
            [.., last] => last.up_to,
            [] => self.lowest,
        }
    }

    /// The reference function and its slope; `None` outside its range.
    pub fn forward(&self, celsius: f64) -> Option<(f64, f64)> {
        if !(self.lowest..=self.highest()).contains(&celsius) {
            return None;
        }
        self.extended(celsius)
    }

    /// The same, carried a little beyond its ends by the outermost stretches.
    pub const fn extended(&self, celsius: f64) -> Option<(f64, f64)> {
        let mut left = self.forward;
        while let [stretch, rest @ ..] = left {
            if celsius <= stretch.up_to || rest.is_empty() {
                let (value, slope) = polynomial(stretch.coefficients, celsius);
                let Some(bump) = &stretch.bump else {
                    return Some((value, slope));
                };
                let off = celsius - bump.centre;
                let term = bump.height * exponential(bump.narrowness * off * off);
                return Some((value + term, slope + 2.0 * bump.narrowness * off * term));
            }
            left = rest;
        }
        None
    }

    /// The published inverse alone; `None` outside its range.
    pub fn published_inverse(&self, millivolts: f64) -> Option<f64> {
        let lowest = self.inverse_lowest_millivolts - ROUNDING_MILLIVOLTS;
        let highest = self.inverse.last()?.up_to_millivolts + ROUNDING_MILLIVOLTS;
        if !(lowest..=highest).contains(&millivolts) {
            return None;
        }
        let stretch = self
            .inverse
            .iter()
            .find(|stretch| millivolts <= stretch.up_to_millivolts)
            .or(self.inverse.last())?;
        Some(polynomial(stretch.coefficients, millivolts).0)
    }

    /// The temperature at which the reference function has this value; `None`
    /// outside the range of the published inverse.
    pub fn inverse(&self, millivolts: f64) -> Option<f64> {
        let mut celsius = self.published_inverse(millivolts)?;
        for _ in 0..NEWTON_STEPS {
            let (value, slope) = self.extended(celsius)?;
            if slope > 0.0 {
                celsius -= (value - millivolts) / slope;
            }
        }
        let lowest = self.inverse_lowest - ROUNDING_CELSIUS;
        let highest = self.highest() + ROUNDING_CELSIUS;
        (lowest..=highest).contains(&celsius).then_some(celsius)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_exponential_is_the_library_s() {
        for n in 0..=6_000_i32 {
            let power = -f64::from(n) / 100.0;
            let apart = exponential(power) / power.exp() - 1.0;
            assert!(apart.abs() < 1e-12, "{power}: {apart}");
        }
        assert_eq!(exponential(-61.0), 0.0);
    }
}
