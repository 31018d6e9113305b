//! Linear least squares with one to three parameters.
//!
//! Whatever their number there is room for three, and one piece of code: on a
//! small processor one of each would be four kilobytes more. Rows are filled
//! up with zeros, which change no sum.

use core::cmp::Ordering;

/// The most parameters.
pub(super) const TERMS: usize = 3;

pub(super) type Vector = [f64; TERMS];
pub(super) type Matrix = [Vector; TERMS];

/// One equation: the row of the design matrix, the value, the value's standard
/// deviation, and two more of its parts.
pub(super) struct Equation {
    /// Zero beyond the number of parameters.
    pub(super) row: Vector,
    pub(super) value: f64,
    /// What it is weighted with.
    pub(super) deviation: f64,
    /// The part of the deviation that is its own.
    pub(super) own: f64,
    /// The part that it has in common with all the others.
    pub(super) common: f64,
}

impl Equation {
    /// What it weighs.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn weight(&self) -> f64 {
        1.0 / (self.deviation * self.deviation)
    }
}

/// A solution of weighted least squares.
pub(super) struct Fit {
    pub(super) parameters: Vector,
    /// The inverse of the weighted normal matrix.
    inverse: Matrix,
    /// Weighted sum of squared residuals over the degrees of freedom; zero
    /// where there are none.
    reduced: f64,
}

impl Fit {
    /// Solves the equations for so many parameters, at most [`TERMS`]. `None`
    /// where they do not determine them.
    pub(super) fn of(equations: &[Equation], parameters: usize) -> Option<Self> {
        let freedom = equations.len().checked_sub(parameters)?;
        let mut normal = [[0.0; TERMS]; TERMS];
        for equation in equations {
            add_outer(&mut normal, &equation.row, equation.weight());
        }
        let mut fit = Self {
            parameters: [0.0; TERMS],
            inverse: inverse(normal, parameters)?,
            reduced: 0.0,
        };
        fit.parameters = fit.of_values(equations, |equation| equation.value);
        if freedom > 0 {
            let squares: f64 = equations
                .iter()
                .map(|equation| {
                    let residual =
                        (equation.value - dot(&equation.row, &fit.parameters)) / equation.deviation;
                    residual * residual
                })
                .sum();
            fit.reduced = squares / freedom as f64;
        }
        Some(fit)
    }

    /// How the parameters would change if every value had its common part more:
    /// the solution is linear in the values.
    pub(super) fn of_common(&self, equations: &[Equation]) -> Vector {
        self.of_values(equations, |equation| equation.common)
    }

    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn of_values(&self, equations: &[Equation], value: fn(&Equation) -> f64) -> Vector {
        let mut right = [0.0; TERMS];
        for equation in equations {
            let weight = equation.weight();
            for (sum, part) in right.iter_mut().zip(&equation.row) {
                *sum += weight * part * value(equation);
            }
        }
        product(&self.inverse, &right)
    }

    /// Covariance of the parameters where the deviations are only relative and
    /// the scatter of the residuals says how large they are (JCGM 100, H.3).
    pub(super) fn covariance_from_scatter(&self) -> Matrix {
        self.inverse_times(self.reduced)
    }

    /// Covariance from the equations' own deviations, other than those that
    /// they were weighted with, and what the scatter of the residuals shows
    /// beyond the weights.
    pub(super) fn covariance(&self, equations: &[Equation]) -> Matrix {
        let mut covariance = self.inverse_times((self.reduced - 1.0).max(0.0));
        for equation in equations {
            let mut gain = product(&self.inverse, &equation.row);
            let weight = equation.weight();
            for g in &mut gain {
                *g = *g * weight * equation.own;
            }
            add_outer(&mut covariance, &gain, 1.0);
        }
        covariance
    }

    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn inverse_times(&self, factor: f64) -> Matrix {
        let mut matrix = self.inverse;
        for entry in matrix.as_flattened_mut() {
            *entry *= factor;
        }
        matrix
    }
}

#[cfg_attr(target_pointer_width = "32", inline(never))]
pub(super) fn dot(a: &Vector, b: &Vector) -> f64 {
    a.iter().zip(b).map(|(x, y)| x * y).sum()
}

#[cfg_attr(target_pointer_width = "32", inline(never))]
fn product(matrix: &Matrix, vector: &Vector) -> Vector {
    let mut product = [0.0; TERMS];
    for (entry, row) in product.iter_mut().zip(matrix) {
        *entry = dot(row, vector);
    }
    product
}

/// Adds a vector's product with itself, times a weight.
#[cfg_attr(target_pointer_width = "32", inline(never))]
fn add_outer(matrix: &mut Matrix, vector: &Vector, weight: f64) {
    for (row, left) in matrix.iter_mut().zip(vector) {
        for (entry, right) in row.iter_mut().zip(vector) {
            *entry += weight * left * right;
        }
    }
}

/// Gauss and Jordan, with the largest pivot of each column, over the first
/// `size` rows and columns. The rest is to be zero, and stays so.
fn inverse(mut matrix: Matrix, size: usize) -> Option<Matrix> {
    let size = size.min(TERMS);
    let mut inverse = [[0.0; TERMS]; TERMS];
    let mut largest = 0.0_f64;
    for i in 0..size {
        inverse[i][i] = 1.0;
        largest = largest.max(libm::fabs(matrix[i][i]));
    }
    for column in 0..size {
        let mut pivot = column;
        for row in column + 1..size {
            if libm::fabs(matrix[row][column]) > libm::fabs(matrix[pivot][column]) {
                pivot = row;
            }
        }
        let divisor = matrix[pivot][column];
        // A NaN compares with nothing and is refused as well.
        if libm::fabs(divisor).partial_cmp(&(largest * 1e-13)) != Some(Ordering::Greater) {
            return None;
        }
        for matrix in [&mut matrix, &mut inverse] {
            // One by one: rows that may be the same row would be moved by a function of
            // half a kilobyte.
            let entries = matrix.as_flattened_mut();
            for n in 0..TERMS {
                entries.swap(column * TERMS + n, pivot * TERMS + n);
            }
            for entry in &mut matrix[column] {
                *entry /= divisor;
            }
        }
        for row in 0..size {
            if row != column {
                let factor = matrix[row][column];
                for matrix in [&mut matrix, &mut inverse] {
                    let from = matrix[column];
                    for (entry, part) in matrix[row].iter_mut().zip(from) {
                        *entry -= factor * part;
                    }
                }
            }
        }
    }
    Some(inverse)
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::vec::Vec;

    /// JCGM 100:2008, H.3 and Table H.6: calibration of a thermometer. The line's intercept at
    /// 20 °C is -0.1712 with s = 0.0029, its slope 0.00218 with 0.00067, their correlation
    /// -0.930; the correction at 30 °C is -0.1494 with u = 0.0041.
    #[test]
    fn the_thermometer_of_the_guide_is_calibrated_as_it_says() {
        let readings = [
            21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.010, 26.511,
        ];
        let corrections = [
            -0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.160,
        ];
        let equations: Vec<Equation> = readings
            .iter()
            .zip(corrections)
            .map(|(t, b)| Equation {
                row: [1.0, t - 20.0, 0.0],
                value: b,
                deviation: 1.0,
                own: 1.0,
                common: 0.005,
            })
            .collect();
        let fit = Fit::of(&equations, 2).unwrap();
        let covariance = fit.covariance_from_scatter();
        let near = |value: f64, expected: f64, half_digit: f64| {
            assert!((value - expected).abs() <= half_digit, "{value} {expected}");
        };
        near(fit.parameters[0], -0.1712, 0.000_05);
        near(fit.parameters[1], 0.00218, 0.000_005);
        near(covariance[0][0].sqrt(), 0.0029, 0.000_05);
        near(covariance[1][1].sqrt(), 0.00067, 0.000_005);
        let correlation = covariance[0][1] / (covariance[0][0] * covariance[1][1]).sqrt();
        near(correlation, -0.930, 0.000_5);
        let at = [1.0, 10.0, 0.0];
        near(dot(&at, &fit.parameters), -0.1494, 0.000_05);
        let uncertainty = dot(&at, &product(&covariance, &at)).sqrt();
        near(uncertainty, 0.0041, 0.000_05);

        // H.3.6: an error common to all readings moves the intercept by itself and leaves
        // the slope.
        let shifted = fit.of_common(&equations);
        near(shifted[0], 0.005, 1e-12);
        near(shifted[1], 0.0, 1e-12);
    }

    #[test]
    fn equations_that_determine_nothing_are_refused() {
        let equation = |row, value| Equation {
            row,
            value,
            deviation: 1.0,
            own: 1.0,
            common: 0.0,
        };
        let same = |value| equation([1.0, 2.0, 0.0], value);
        assert!(Fit::of(&[same(1.0), same(2.0), same(3.0)], 2).is_none());
        assert!(Fit::of(&[same(1.0)], 2).is_none());
        let nonsense = equation([f64::NAN, 1.0, 0.0], 0.0);
        assert!(Fit::of(&[nonsense, same(1.0)], 2).is_none());
    }
}
