//! The colours of the screens, against published measures of legibility.

use eframe::egui::Color32;
use evenhand_app::theme;
use evenhand_protocol::Verdict;
use palette::color_difference::{Ciede2000, Wcag21RelativeContrast};
use palette::{FromColor, Lab, LinSrgb, Srgb};

const VERDICTS: [Verdict; 3] = [Verdict::Short, Verdict::On, Verdict::Heavy];

fn srgb(colour: Color32) -> Srgb<f32> {
    assert_eq!(
        colour.a(),
        255,
        "a see-through colour has no contrast of its own"
    );
    Srgb::new(colour.r(), colour.g(), colour.b()).into_format()
}

fn contrast(one: Color32, other: Color32) -> f32 {
    srgb(one).relative_contrast(srgb(other))
}

/// WCAG 2.2, success criterion 1.4.6: at least 7 to 1 for text.
#[test]
fn words_stand_out_as_much_as_the_strictest_level_asks() {
    let mut pairs = vec![
        ("ink on paper", theme::INK, theme::PAPER),
        ("ink on surface", theme::INK, theme::SURFACE),
        ("captions on paper", theme::SOFT_INK, theme::PAPER),
        ("captions on surface", theme::SOFT_INK, theme::SURFACE),
        ("ink on a call for a look", theme::INK, theme::ATTENTION),
        ("words on a stop", theme::ON_DARK, theme::STOP),
        ("words on the rail", theme::ON_DARK, theme::SLATE),
        ("figures on the band", theme::INK, theme::BAND),
    ];
    for verdict in VERDICTS {
        let colours = theme::verdict(verdict);
        pairs.push((verdict.word(), colours.ink, colours.fill));
    }
    for (name, ink, ground) in pairs {
        let ratio = contrast(ink, ground);
        assert!(ratio >= 7.0, "{name}: {ratio:.2} to 1");
    }
}

/// WCAG 2.2, success criterion 1.4.11: at least 3 to 1 for the parts of a
/// picture or control that carry meaning.
#[test]
fn shapes_and_edges_stand_out() {
    for verdict in VERDICTS {
        let mark = theme::verdict(verdict).mark;
        for (name, ground) in [
            ("paper", theme::PAPER),
            ("surface", theme::SURFACE),
            ("band", theme::BAND),
        ] {
            let ratio = contrast(mark, ground);
            assert!(ratio >= 3.0, "{verdict} on {name}: {ratio:.2} to 1");
        }
    }
    for ground in [theme::PAPER, theme::SURFACE] {
        let ratio = contrast(theme::EDGE, ground);
        assert!(ratio >= 3.0, "edge of a button: {ratio:.2} to 1");
    }
}

/// Full colour blindness of the three kinds, as matrices on linear sRGB:
/// Machado, Oliveira and Fernandes, "A Physiologically-based Model for
/// Simulation of Color Vision Deficiency", IEEE TVCG 15 (2009), table 1,
/// severity 1.0.
const BLINDNESS: [(&str, [[f32; 3]; 3]); 3] = [
    (
        "protanopia",
        [
            [0.152_286, 1.052_583, -0.204_868],
            [0.114_503, 0.786_281, 0.099_216],
            [-0.003_882, -0.048_116, 1.051_998],
        ],
    ),
    (
        "deuteranopia",
        [
            [0.367_322, 0.860_646, -0.227_968],
            [0.280_085, 0.672_501, 0.047_413],
            [-0.011_820, 0.042_940, 0.968_881],
        ],
    ),
    (
        "tritanopia",
        [
            [1.255_528, -0.076_749, -0.178_779],
            [-0.078_411, 0.930_809, 0.147_602],
            [0.004_733, 0.691_367, 0.303_900],
        ],
    ),
];

fn seen(colour: Color32, [red, green, blue]: [[f32; 3]; 3]) -> Lab {
    let linear: LinSrgb<f32> = srgb(colour).into_linear();
    let row = |row: [f32; 3]| {
        (row[0] * linear.red + row[1] * linear.green + row[2] * linear.blue).clamp(0.0, 1.0)
    };
    Lab::from_color(LinSrgb::new(row(red), row(green), row(blue)))
}

/// A difference of 20 in CIEDE2000 (CIE 142-2001) is seen at a glance; about 1
/// is just noticeable side by side (common practice, no source).
#[test]
fn verdicts_stay_apart_for_every_kind_of_colour_blindness() {
    const NONE: [[f32; 3]; 3] = [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]];
    for (kind, matrix) in BLINDNESS.into_iter().chain([("none", NONE)]) {
        for (nth, one) in VERDICTS.into_iter().enumerate() {
            for other in VERDICTS.into_iter().skip(nth + 1) {
                for part in ["fill", "mark"] {
                    let of = |verdict| {
                        let colours = theme::verdict(verdict);
                        seen(
                            if part == "fill" {
                                colours.fill
                            } else {
                                colours.mark
                            },
                            matrix,
                        )
                    };
                    let apart = of(one).difference(of(other));
                    assert!(
                        apart >= 20.0,
                        "{part} of {one} and {other} are {apart:.1} apart with {kind}"
                    );
                }
            }
        }
    }
}
