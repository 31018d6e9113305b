//! Type T: copper against copper-nickel.

use super::super::reference::{Forward, Inverse, Tables};

pub(in super::super) const TABLES: Tables = Tables {
    lowest: -270.0,
    forward: &[
        Forward {
            up_to: 0.0,
            coefficients: &[
                0.0,
                0.038_748_106_364,
                4.419_443_434_7e-5,
                1.184_432_310_5e-7,
                2.003_297_355_4e-8,
                9.013_801_955_9e-10,
                2.265_115_659_3e-11,
                3.607_115_420_5e-13,
                3.849_393_988_3e-15,
                2.821_352_192_5e-17,
                1.425_159_477_9e-19,
                4.876_866_228_6e-22,
                1.079_553_927e-24,
                1.394_502_706_2e-27,
                7.979_515_392_7e-31,
            ],
            bump: None,
        },
        Forward {
            up_to: 400.0,
            coefficients: &[
                0.0,
                0.038_748_106_364,
                3.329_222_788e-5,
                2.061_824_340_4e-7,
                -2.188_225_684_6e-9,
                1.099_688_092_8e-11,
                -3.081_575_877_2e-14,
                4.547_913_529e-17,
                -2.751_290_167_3e-20,
            ],
            bump: None,
        },
    ],
    inverse_lowest: -200.0,
    inverse_lowest_millivolts: -5.603,
    inverse: &[
        Inverse {
            up_to_millivolts: 0.0,
            coefficients: &[
                0.0,
                25.949_192,
                -0.213_169_67,
                0.790_186_92,
                0.425_277_77,
                0.133_044_73,
                0.020_241_446,
                0.001_266_817_1,
            ],
        },
        Inverse {
            up_to_millivolts: 20.872,
            coefficients: &[
                0.0,
                25.928,
                -0.760_296_1,
                0.046_377_91,
                -0.002_165_394,
                6.048_144e-5,
                -7.293_422e-7,
            ],
        },
    ],
};
