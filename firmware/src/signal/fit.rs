//! Linear least squares with a few parameters.

use core::cmp::Ordering;

/// One equation: the row of the design matrix, the value, and the value's
/// standard deviation.
pub(super) struct Equation<const N: usize> {
    pub(super) row: [f64; N],
    pub(super) value: f64,
    pub(super) deviation: f64,
}

/// A solution of weighted least squares.
pub(super) struct Fit<const N: usize> {
    pub(super) parameters: [f64; N],
    /// The inverse of the weighted normal matrix.
    inverse: [[f64; N]; N],
    /// Weighted sum of squared residuals over the degrees of freedom; zero
    /// where there are none.
    reduced: f64,
}

impl<const N: usize> Fit<N> {
    /// Solves the equations. `None` where they do not determine the
    /// parameters.
    pub(super) fn of(equations: &[Equation<N>]) -> Option<Self> {
        if equations.len() < N {
            return None;
        }
        let mut normal = [[0.0; N]; N];
        let mut right = [0.0; N];
        for equation in equations {
            let weight = 1.0 / (equation.deviation * equation.deviation);
            add_outer(&mut normal, &equation.row, weight);
            for (sum, part) in right.iter_mut().zip(&equation.row) {
                *sum += weight * part * equation.value;
            }
        }
        let inverse = inverse(normal)?;
        let parameters = product(&inverse, &right);
        let squares: f64 = equations
            .iter()
            .map(|equation| {
                let residual =
                    (equation.value - dot(&equation.row, &parameters)) / equation.deviation;
                residual * residual
            })
            .sum();
        let freedom = equations.len() - N;
        Some(Self {
            parameters,
            inverse,
            reduced: if freedom == 0 {
                0.0
            } else {
                squares / freedom as f64
            },
        })
    }

    /// The parameters that other values of the same equations would give: the
    /// solution is linear in them.
    pub(super) fn of_values(
        &self,
        equations: &[Equation<N>],
        value: impl Fn(usize) -> f64,
    ) -> [f64; N] {
        let mut right = [0.0; N];
        for (n, equation) in equations.iter().enumerate() {
            let weight = 1.0 / (equation.deviation * equation.deviation);
            for (sum, part) in right.iter_mut().zip(&equation.row) {
                *sum += weight * part * value(n);
            }
        }
        product(&self.inverse, &right)
    }

    /// Covariance of the parameters where the deviations are only relative and
    /// the scatter of the residuals says how large they are (JCGM 100, H.3).
    pub(super) fn covariance_from_scatter(&self) -> [[f64; N]; N] {
        self.inverse.map(|row| row.map(|c| c * self.reduced))
    }

    /// Covariance from independent deviations of the values other than those
    /// that the equations were weighted with, and what the scatter of the
    /// residuals shows beyond the weights.
    pub(super) fn covariance(
        &self,
        equations: &[Equation<N>],
        deviation: impl Fn(usize) -> f64,
    ) -> [[f64; N]; N] {
        let unexplained = (self.reduced - 1.0).max(0.0);
        let mut covariance = self.inverse.map(|row| row.map(|c| c * unexplained));
        for (n, equation) in equations.iter().enumerate() {
            let weight = 1.0 / (equation.deviation * equation.deviation);
            let gain = product(&self.inverse, &equation.row).map(|g| g * weight * deviation(n));
            add_outer(&mut covariance, &gain, 1.0);
        }
        covariance
    }
}

pub(super) fn dot<const N: usize>(a: &[f64; N], b: &[f64; N]) -> f64 {
    a.iter().zip(b).map(|(x, y)| x * y).sum()
}

fn product<const N: usize>(matrix: &[[f64; N]; N], vector: &[f64; N]) -> [f64; N] {
    matrix.map(|row| dot(&row, vector))
}

/// Adds a vector's product with itself, times a weight.
fn add_outer<const N: usize>(matrix: &mut [[f64; N]; N], vector: &[f64; N], weight: f64) {
    for (row, left) in matrix.iter_mut().zip(vector) {
        for (entry, right) in row.iter_mut().zip(vector) {
            *entry += weight * left * right;
        }
    }
}

/// Gauss and Jordan, with the largest pivot of each column.
fn inverse<const N: usize>(mut matrix: [[f64; N]; N]) -> Option<[[f64; N]; N]> {
    let mut inverse = [[0.0; N]; N];
    let mut largest = 0.0_f64;
    for i in 0..N {
        inverse[i][i] = 1.0;
        largest = largest.max(libm::fabs(matrix[i][i]));
    }
    for column in 0..N {
        let mut pivot = column;
        for row in column + 1..N {
            if libm::fabs(matrix[row][column]) > libm::fabs(matrix[pivot][column]) {
                pivot = row;
            }
        }
        let size = matrix[pivot][column];
        // A NaN compares with nothing and is refused as well.
        if libm::fabs(size).partial_cmp(&(largest * 1e-13)) != Some(Ordering::Greater) {
            return None;
        }
        matrix.swap(column, pivot);
        inverse.swap(column, pivot);
        let divide = |row: [f64; N]| row.map(|entry| entry / size);
        matrix[column] = divide(matrix[column]);
        inverse[column] = divide(inverse[column]);
        let (from, from_inverse) = (matrix[column], inverse[column]);
        for row in 0..N {
            if row != column {
                let factor = matrix[row][column];
                subtract(&mut matrix[row], &from, factor);
                subtract(&mut inverse[row], &from_inverse, factor);
            }
        }
    }
    Some(inverse)
}

fn subtract<const N: usize>(row: &mut [f64; N], other: &[f64; N], factor: f64) {
    for (entry, part) in row.iter_mut().zip(other) {
        *entry -= factor * part;
    }
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
        let equations: Vec<Equation<2>> = readings
            .iter()
            .zip(corrections)
            .map(|(t, b)| Equation {
                row: [1.0, t - 20.0],
                value: b,
                deviation: 1.0,
            })
            .collect();
        let fit = Fit::of(&equations).unwrap();
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
        let at = [1.0, 10.0];
        near(dot(&at, &fit.parameters), -0.1494, 0.000_05);
        let uncertainty = dot(&at, &product(&covariance, &at)).sqrt();
        near(uncertainty, 0.0041, 0.000_05);

        // H.3.6: an error common to all readings moves the intercept by itself and leaves
        // the slope.
        let shifted = fit.of_values(&equations, |_| 0.005);
        near(shifted[0], 0.005, 1e-12);
        near(shifted[1], 0.0, 1e-12);
    }

    #[test]
    fn equations_that_determine_nothing_are_refused() {
        let same = |value| Equation {
            row: [1.0, 2.0],
            value,
            deviation: 1.0,
        };
        assert!(Fit::of(&[same(1.0), same(2.0), same(3.0)]).is_none());
        assert!(Fit::of(&[same(1.0)]).is_none());
        let nonsense = Equation {
            row: [f64::NAN, 1.0],
            value: 0.0,
            deviation: 1.0,
        };
        assert!(Fit::of(&[nonsense, same(1.0)]).is_none());
    }
}
