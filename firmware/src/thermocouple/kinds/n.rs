//! Type N: nickel-chromium-silicon against nickel-silicon.

use super::super::reference::{Forward, Inverse, Tables};

pub(in super::super) const TABLES: Tables = Tables {
    lowest: -270.0,
    forward: &[
        Forward {
            up_to: 0.0,
            coefficients: &[
                0.0,
                0.026_159_105_962,
                1.095_748_422_8e-5,
                -9.384_111_155_4e-8,
                -4.641_203_975_9e-11,
                -2.630_335_771_6e-12,
                -2.265_343_800_3e-14,
                -7.608_930_079_1e-17,
                -9.341_966_783_5e-20,
            ],
            bump: None,
        },
        Forward {
            up_to: 1300.0,
            coefficients: &[
                0.0,
                0.025_929_394_601,
                1.571_014_188e-5,
                4.382_562_723_7e-8,
                -2.526_116_979_4e-10,
                6.431_181_933_9e-13,
                -1.006_347_151_9e-15,
                9.974_533_899_2e-19,
                -6.086_324_560_7e-22,
                2.084_922_933_9e-25,
                -3.068_219_615_1e-29,
            ],
            bump: None,
        },
    ],
    inverse_lowest: -200.0,
    inverse_lowest_millivolts: -3.99,
    inverse: &[
        Inverse {
            up_to_millivolts: 0.0,
            coefficients: &[
                0.0,
                38.436_847,
                1.101_048_5,
                5.222_931_2,
                7.206_052_5,
                5.848_858_6,
                2.775_491_6,
                0.770_751_66,
                0.115_826_65,
                0.007_313_886_8,
            ],
        },
        Inverse {
            up_to_millivolts: 20.613,
            coefficients: &[
                0.0,
                38.6896,
                -1.082_67,
                0.047_020_5,
                -2.121_69e-6,
                -1.172_72e-4,
                5.3928e-6,
                -7.981_56e-8,
            ],
        },
        Inverse {
            up_to_millivolts: 47.513,
            coefficients: &[
                19.724_85,
                33.009_43,
                -0.391_515_9,
                0.009_855_391,
                -1.274_371e-4,
                7.767_022e-7,
            ],
        },
    ],
};
