//! Type J: iron against copper-nickel.

use super::super::reference::{Forward, Inverse, Tables};

pub(in super::super) const TABLES: Tables = Tables {
    lowest: -210.0,
    forward: &[
        Forward {
            up_to: 760.0,
            coefficients: &[
                0.0,
                0.050_381_187_815,
                3.047_583_693e-5,
                -8.568_106_572e-8,
                1.322_819_529_5e-10,
                -1.705_295_833_7e-13,
                2.094_809_069_7e-16,
                -1.253_839_533_6e-19,
                1.563_172_569_7e-23,
            ],
            bump: None,
        },
        Forward {
            up_to: 1200.0,
            coefficients: &[
                296.456_256_81,
                -1.497_612_778_6,
                0.003_178_710_392_4,
                -3.184_768_670_1e-6,
                1.572_081_900_4e-9,
                -3.069_136_905_6e-13,
            ],
            bump: None,
        },
    ],
    inverse_lowest: -210.0,
    inverse_lowest_millivolts: -8.095,
    inverse: &[
        Inverse {
            up_to_millivolts: 0.0,
            coefficients: &[
                0.0,
                19.528_268,
                -1.228_618_5,
                -1.075_217_8,
                -0.590_869_33,
                -0.172_567_13,
                -0.028_131_513,
                -0.002_396_337,
                -8.382_332_1e-5,
            ],
        },
        Inverse {
            up_to_millivolts: 42.919,
            coefficients: &[
                0.0,
                19.784_25,
                -0.200_120_4,
                0.010_369_69,
                -2.549_687e-4,
                3.585_153e-6,
                -5.344_285e-8,
                5.099_89e-10,
            ],
        },
        Inverse {
            up_to_millivolts: 69.553,
            coefficients: &[
                -3_113.581_87,
                300.543_684,
                -9.947_732_3,
                0.170_276_63,
                -0.001_430_334_68,
                4.738_860_84e-6,
            ],
        },
    ],
};
