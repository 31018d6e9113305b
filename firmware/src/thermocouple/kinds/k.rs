//! Type K: nickel-chromium against nickel-aluminium.

use super::super::reference::{Bump, Forward, Inverse, Tables};

pub(in super::super) const TABLES: Tables = Tables {
    lowest: -270.0,
    forward: &[
        Forward {
            up_to: 0.0,
            coefficients: &[
                0.0,
                0.039_450_128_025,
                2.362_237_359_8e-5,
                -3.285_890_678_4e-7,
                -4.990_482_877_7e-9,
                -6.750_905_917_3e-11,
                -5.741_032_742_8e-13,
                -3.108_887_289_4e-15,
                -1.045_160_936_5e-17,
                -1.988_926_687_8e-20,
                -1.632_269_748_6e-23,
            ],
            bump: None,
        },
        Forward {
            up_to: 1372.0,
            coefficients: &[
                -0.017_600_413_686,
                0.038_921_204_975,
                1.855_877_003_2e-5,
                -9.945_759_287_4e-8,
                3.184_094_571_9e-10,
                -5.607_284_488_9e-13,
                5.607_505_905_9e-16,
                -3.202_072_000_3e-19,
                9.715_114_715_2e-23,
                -1.210_472_127_5e-26,
            ],
            bump: Some(Bump {
                height: 0.118_597_6,
                narrowness: -1.183_432e-4,
                centre: 126.9686,
            }),
        },
    ],
    inverse_lowest: -200.0,
    inverse_lowest_millivolts: -5.891,
    inverse: &[
        Inverse {
            up_to_millivolts: 0.0,
            coefficients: &[
                0.0,
                25.173_462,
                -1.166_287_8,
                -1.083_363_8,
                -0.897_735_4,
                -0.373_423_77,
                -0.086_632_643,
                -0.010_450_598,
                -5.192_057_7e-4,
            ],
        },
        Inverse {
            up_to_millivolts: 20.644,
            coefficients: &[
                0.0,
                25.083_55,
                0.078_601_06,
                -0.250_313_1,
                0.083_152_7,
                -0.012_280_34,
                9.804_036e-4,
                -4.413_03e-5,
                1.057_734e-6,
                -1.052_755e-8,
            ],
        },
        Inverse {
            up_to_millivolts: 54.886,
            coefficients: &[
                -131.8058,
                48.302_22,
                -1.646_031,
                0.054_647_31,
                -9.650_715e-4,
                8.802_193e-6,
                -3.110_81e-8,
            ],
        },
    ],
};
