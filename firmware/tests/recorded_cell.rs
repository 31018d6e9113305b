//! A calibration of a real load cell that was recorded: its bend is taken out, and loads that it
//! was not calibrated with come out as near as its own scatter lets them.
//!
//! NIST Statistical Reference Datasets, linear regression, "Pontius" (P. Pontius, NIST, load cell
//! calibration): deflection under twenty loads from 150,000 to 3,000,000 units, twice (read in a
//! public program that quotes it). Its certified quadratic has the constant 0.673565789473684E-03
//! and a residual standard deviation of 0.205177424076185E-03 (from memory; numpy's
//! `polyfit(load, deflection, 2)` on the figures below gives both to 12 places).
//!
//! A unit of load is a milligram here, and a millionth of deflection one count: a 3 kg cell.

use evenhand_firmware::sensor::Counts;
use evenhand_firmware::signal::{Calibration, Point};
use evenhand_protocol::Mass;

const FIRST: [i32; 20] = [
    110_190, 219_560, 329_490, 438_990, 548_030, 656_940, 765_620, 874_870, 982_920, 1_091_460,
    1_200_010, 1_308_220, 1_415_990, 1_523_990, 1_631_940, 1_739_470, 1_846_460, 1_953_920,
    2_061_280, 2_168_440,
];
const SECOND: [i32; 20] = [
    110_520, 220_180, 329_390, 438_860, 547_980, 657_390, 765_960, 874_740, 983_000, 1_091_500,
    1_200_040, 1_308_180, 1_416_130, 1_524_080, 1_631_590, 1_739_650, 1_846_960, 1_954_450,
    2_061_770, 2_168_290,
];
/// The certified constant: the empty cell.
const EMPTY: i32 = 674;
/// The certified residual standard deviation, as grams of load near the middle (over 0.7226
/// counts a milligram, by the certified quadratic's slope there).
const SCATTER_GRAMS: f64 = 0.2840;

fn load(step: usize) -> Mass {
    Mass::from_milligrams(150_000 * (step as i64 + 1))
}

/// The empty cell and these steps of the first series.
fn calibrated(steps: &[usize]) -> Calibration {
    let mut points = vec![Point::exact(Mass::ZERO, Counts(EMPTY))];
    points.extend(
        steps
            .iter()
            .map(|step| Point::exact(load(*step), Counts(FIRST[*step]))),
    );
    Calibration::from_points(&points).unwrap()
}

/// What the loads of the second series come out as, less what they were, in grams.
fn errors(calibration: &Calibration) -> Vec<f64> {
    SECOND
        .iter()
        .enumerate()
        .map(|(step, counts)| {
            let found = calibration.mass_of(f64::from(*counts) - calibration.zero_counts());
            (found - load(step)).grams()
        })
        .collect()
}

fn root_mean_square(errors: &[f64]) -> f64 {
    (errors.iter().map(|e| e * e).sum::<f64>() / errors.len() as f64).sqrt()
}

#[test]
fn a_recorded_cell_is_weighed_as_near_as_it_scatters() {
    let straight = errors(&calibrated(&[19]));
    let curved = errors(&calibrated(&[3, 7, 11, 15, 19]));
    // The cell bends: by the certified quadratic 7.11E-03 of deflection in the middle, 9.8 g.
    let bend = straight.iter().map(|e| e.abs()).fold(0.0, f64::max);
    assert!((9.0..10.5).contains(&bend), "{bend}");
    // Five weights leave the cell's own scatter, and what their own scatter adds.
    let left = root_mean_square(&curved);
    assert!(left < 1.5 * SCATTER_GRAMS, "{left}");
    let worst = curved.iter().map(|e| e.abs()).fold(0.0, f64::max);
    assert!(worst < 3.5 * SCATTER_GRAMS, "{worst}");
}

/// The uncertainty of a calibration by a cell that scatters says so.
#[test]
fn the_scatter_is_in_the_uncertainty() {
    let steps: Vec<usize> = (1..20).step_by(2).collect();
    let calibration = calibrated(&steps);
    let said = 2.0 * calibration.standard_uncertainty(load(9)).grams();
    assert!(
        (0.3 * SCATTER_GRAMS..2.0 * SCATTER_GRAMS).contains(&said),
        "{said}"
    );
    assert!((calibration.residual().grams() / SCATTER_GRAMS) < 3.0);
}
