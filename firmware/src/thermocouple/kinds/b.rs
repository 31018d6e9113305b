//! Type B: platinum-30 % rhodium against platinum-6 % rhodium.

use super::super::reference::{Forward, Inverse, Tables};

pub(in super::super) const TABLES: Tables = Tables {
    lowest: 0.0,
    forward: &[
        Forward {
            up_to: 630.615,
            coefficients: &[
                0.0,
                -2.465_081_834_6e-4,
                5.904_042_117_1e-6,
                -1.325_793_163_6e-9,
                1.566_829_190_1e-12,
                -1.694_452_924e-15,
                6.299_034_709_4e-19,
            ],
            bump: None,
        },
        Forward {
            up_to: 1820.0,
            coefficients: &[
                -3.893_816_862_1,
                0.028_571_747_47,
                -8.488_510_478_5e-5,
                1.578_528_016_4e-7,
                -1.683_534_486_4e-10,
                1.110_979_401_3e-13,
                -4.451_543_103_3e-17,
                9.897_564_082_1e-21,
                -9.379_133_028_9e-25,
            ],
            bump: None,
        },
    ],
    inverse_lowest: 250.0,
    inverse_lowest_millivolts: 0.291,
    inverse: &[
        Inverse {
            up_to_millivolts: 2.431,
            coefficients: &[
                98.423_321,
                699.715,
                -847.653_04,
                1005.2644,
                -833.459_52,
                455.085_42,
                -155.230_37,
                29.886_75,
                -2.474_286,
            ],
        },
        Inverse {
            up_to_millivolts: 13.82,
            coefficients: &[
                213.150_71,
                285.105_04,
                -52.742_887,
                9.916_080_4,
                -1.296_530_3,
                0.111_958_7,
                -0.006_062_519_9,
                1.866_169_6e-4,
                -2.487_858_5e-6,
            ],
        },
    ],
};
