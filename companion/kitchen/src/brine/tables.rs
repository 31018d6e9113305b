//! The published tables the brine figures lean on, and nothing else.
//!
//! Between two lines of a table the value is the straight line between them,
//! which is monotone wherever the table is. The tables are close enough that a
//! smooth curve would differ from it by less than the last digit printed.

use crate::source::Publication;
use interp::{InterpMode, interp};

/// Density at 20 °C and freezing point of sodium chloride in water.
pub const CONCENTRATIVE: Publication = Publication::read(
    "CRC Handbook of Chemistry and Physics, 102nd ed. (2021), Concentrative Properties of Aqueous \
     Solutions, sodium chloride and sucrose",
);

/// Density of sodium chloride in water, 0 to 100 °C.
pub const VOLUMETRIC: Publication = Publication::read(
    "Rogers and Pitzer, J. Phys. Chem. Ref. Data 11 (1982) 15, as tabulated in the CRC Handbook of \
     Chemistry and Physics, Volumetric Properties of Aqueous Sodium Chloride Solutions",
);

/// What water holds of salt, by temperature.
pub const SOLUBILITY: Publication = Publication::read(
    "Salt Institute, Chemical and Physical Properties of Salt, Solubility of Salt at Various Temperatures",
);

/// The salometer's scale.
pub const SALOMETER: Publication = Publication::read(
    "The Salometer and How to Use It: degrees are per cent of saturation, 26.395 % salt at 60 degF",
);

/// Density of water.
pub const WATER: Publication = Publication::read(
    "Tanaka et al., Metrologia 38 (2001) 301, density of water between 0 and 40 degC",
);

/// Molar mass of sodium chloride, g/mol, as in [`CONCENTRATIVE`].
pub(super) const SALT_MOLAR_MASS: f64 = 58.443;

/// Per cent of solution, and density at 20 °C in kg/m³ ([`CONCENTRATIVE`]; the
/// first line is water by [`WATER`]). The same digits are printed in Poradnik
/// fizykochemiczny, WNT, Warsaw 1974, but for its 1012.2 at 2 %, which its own
/// column of kilograms of salt per cubic metre (20.250) contradicts.
const PERCENT: [f64; 32] = [
    0.0, 0.5, 1.0, 1.5, 2.0, 2.5, 3.0, 3.5, 4.0, 4.5, 5.0, 6.0, 7.0, 8.0, 9.0, 10.0, 11.0, 12.0,
    13.0, 14.0, 15.0, 16.0, 17.0, 18.0, 19.0, 20.0, 21.0, 22.0, 23.0, 24.0, 25.0, 26.0,
];
const DENSITY_AT_20: [f64; 32] = [
    998.207, 1001.8, 1005.3, 1008.9, 1012.5, 1016.0, 1019.6, 1023.2, 1026.8, 1030.4, 1034.0,
    1041.3, 1048.6, 1055.9, 1063.3, 1070.7, 1078.1, 1085.7, 1093.2, 1100.8, 1108.5, 1116.2, 1124.0,
    1131.9, 1139.8, 1147.8, 1155.8, 1164.0, 1172.1, 1180.4, 1188.7, 1197.2,
];

/// Degrees below 0 °C at which ice first forms ([`CONCENTRATIVE`] up to 23 %,
/// then the eutectic point of [`SOLUBILITY`]).
const ICE_PERCENT: [f64; 30] = [
    0.0,
    0.5,
    1.0,
    1.5,
    2.0,
    2.5,
    3.0,
    3.5,
    4.0,
    4.5,
    5.0,
    6.0,
    7.0,
    8.0,
    9.0,
    10.0,
    11.0,
    12.0,
    13.0,
    14.0,
    15.0,
    16.0,
    17.0,
    18.0,
    19.0,
    20.0,
    21.0,
    22.0,
    23.0,
    EUTECTIC_PERCENT,
];
const ICE_BELOW_ZERO: [f64; 30] = [
    0.0, 0.30, 0.59, 0.89, 1.19, 1.49, 1.79, 2.10, 2.41, 2.73, 3.05, 3.70, 4.38, 5.08, 5.81, 6.56,
    7.35, 8.18, 9.04, 9.94, 10.89, 11.89, 12.94, 14.04, 15.22, 16.46, 17.78, 19.18, 20.67, 21.12,
];

/// The strength that freezes last, per cent of solution.
pub(super) const EUTECTIC_PERCENT: f64 = 23.31;

/// Temperature in °C and the most salt brine holds, per cent of solution. The
/// page prints °F with °C rounded from it; here the °C column.
const SATURATED_AT: [f64; 19] = [
    -21.11, -17.78, -12.22, -6.67, -1.1, 0.0, 0.1, 4.44, 10.0, 15.56, 21.11, 26.67, 37.78, 51.67,
    65.56, 79.44, 93.33, 100.0, 104.44,
];
const SATURATED_PERCENT: [f64; 19] = [
    23.31, 23.83, 24.7, 25.53, 26.16, 26.29, 26.31, 26.33, 26.36, 26.395, 26.45, 26.52, 26.68,
    26.92, 27.21, 27.62, 27.91, 28.12, 28.29,
];

/// Moles of salt per kilogram of water, °C, and specific volume in cm³/g
/// ([`VOLUMETRIC`]).
const MOLALITY: [f64; 9] = [0.1, 0.25, 0.5, 0.75, 1.0, 2.0, 3.0, 4.0, 5.0];
const CELSIUS: [f64; 6] = [0.0, 10.0, 20.0, 25.0, 30.0, 40.0];
const SPECIFIC_VOLUME: [[f64; 9]; 6] = [
    [
        0.995732, 0.989259, 0.978889, 0.968991, 0.959525, 0.925426, 0.896292, 0.870996, 0.848646,
    ],
    [
        0.995998, 0.989781, 0.979804, 0.970256, 0.961101, 0.927905, 0.899262, 0.874201, 0.851958,
    ],
    [
        0.997620, 0.991564, 0.981833, 0.972505, 0.963544, 0.930909, 0.902565, 0.877643, 0.855469,
    ],
    [
        0.998834, 0.992832, 0.983185, 0.973932, 0.965038, 0.932590, 0.904339, 0.879457, 0.857301,
    ],
    [
        1.000279, 0.994319, 0.984735, 0.975539, 0.966694, 0.934382, 0.906194, 0.881334, 0.859185,
    ],
    [
        1.003796, 0.997883, 0.988374, 0.979243, 0.970455, 0.938287, 0.910145, 0.885276, 0.863108,
    ],
];

/// Density of air-free water at one atmosphere in kg/m³, 0 to 40 °C
/// ([`WATER`]).
pub(super) fn water_density(celsius: f64) -> f64 {
    const A1: f64 = -3.983_035;
    const A2: f64 = 301.797;
    const A3: f64 = 522_528.9;
    const A4: f64 = 69.348_81;
    const A5: f64 = 999.974_950;
    let from_densest = celsius + A1;
    A5 * (1.0 - from_densest * from_densest * (celsius + A2) / (A3 * (celsius + A4)))
}

/// Density of brine at 20 °C in kg/m³, by per cent of solution. Beyond the
/// last line, up to saturation, the last straight line goes on.
pub(super) fn brine_density_at_20(percent: f64) -> f64 {
    interp(&PERCENT, &DENSITY_AT_20, percent, &InterpMode::Extrapolate)
}

/// Density of brine in kg/m³ at 0 to 40 °C by [`VOLUMETRIC`] alone, from parts
/// of salt per part of water.
///
/// What is interpolated is the apparent specific volume of the dissolved salt:
/// along the square root of molality, and along a falling exponential of
/// temperature, where it is nearly straight. Above 5 mol/kg (22.6 %) the last
/// straight line goes on.
pub(super) fn volumetric_density(salt_per_water: f64, celsius: f64) -> f64 {
    if salt_per_water <= 0.0 {
        return water_density(celsius);
    }
    let root = (salt_per_water / SALT_MOLAR_MASS * 1e3).sqrt();
    let roots = MOLALITY.map(f64::sqrt);
    let mut apparent = [0.0; CELSIUS.len()];
    for ((row, &t), apparent) in SPECIFIC_VOLUME.iter().zip(&CELSIUS).zip(&mut apparent) {
        let water = 1e3 / water_density(t);
        let mut along = [0.0; MOLALITY.len()];
        for ((&volume, &molality), along) in row.iter().zip(&MOLALITY).zip(&mut along) {
            let salt = molality * SALT_MOLAR_MASS / 1e3;
            *along = (volume * (1.0 + salt) - water) / salt;
        }
        *apparent = interp(&roots, &along, root, &InterpMode::Extrapolate);
    }
    // From one ten degrees to the next the table's steps shrink by the same seven tenths.
    let settled = |celsius: f64| -(-celsius / 29.0).exp();
    let apparent = interp(
        &CELSIUS.map(settled),
        &apparent,
        settled(celsius),
        &InterpMode::FirstLast,
    );
    (1.0 + salt_per_water) / (1e3 / water_density(celsius) + salt_per_water * apparent) * 1e3
}

/// Degrees below 0 °C at which ice first forms, up to the eutectic strength.
pub(super) fn ice_below_zero(percent: f64) -> f64 {
    interp(
        &ICE_PERCENT,
        &ICE_BELOW_ZERO,
        percent,
        &InterpMode::FirstLast,
    )
}

/// The most salt brine holds at a temperature, per cent of solution.
pub(super) fn saturated_percent(celsius: f64) -> f64 {
    interp(
        &SATURATED_AT,
        &SATURATED_PERCENT,
        celsius,
        &InterpMode::FirstLast,
    )
}

/// The temperature in °C below which brine of that strength, beyond the
/// eutectic one, lets salt fall out.
pub(super) fn salt_falls_out_below(percent: f64) -> f64 {
    interp(
        &SATURATED_PERCENT,
        &SATURATED_AT,
        percent,
        &InterpMode::FirstLast,
    )
}
