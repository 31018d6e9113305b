//! The colours that the screens and the printed page share.
//!
//! The fills of the three verdicts differ in lightness as well as hue, so that
//! they stay apart for every common kind of colour blindness.

/// An opaque sRGB colour.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Colour(&'static str);

impl Colour {
    /// As CSS and SVG write it: `#10161b`.
    #[must_use]
    pub const fn css(self) -> &'static str {
        self.0
    }

    /// Red, green and blue. A colour of this module that is not written with
    /// six hexadecimal digits does not compile where it is used as a constant.
    #[must_use]
    pub const fn rgb(self) -> [u8; 3] {
        let text = self.0.as_bytes();
        assert!(text.len() == 7 && text[0] == b'#', "a colour is #rrggbb");
        [
            digit(text[1]) * 16 + digit(text[2]),
            digit(text[3]) * 16 + digit(text[4]),
            digit(text[5]) * 16 + digit(text[6]),
        ]
    }
}

const fn digit(letter: u8) -> u8 {
    let value = if letter.is_ascii_digit() {
        letter - b'0'
    } else {
        letter.wrapping_sub(b'a').saturating_add(10)
    };
    assert!(value < 16, "a colour is written with 0 to 9 and a to f");
    value
}

/// Words and figures.
pub const INK: Colour = Colour("#10161b");
/// What came out of a batch, by its place: far apart in lightness.
pub const CAME_OUT: [Colour; 4] = [
    Colour("#00382a"),
    Colour("#3f8f6f"),
    Colour("#bce3d2"),
    Colour("#b44400"),
];
/// What went into a batch and did not come out.
pub const NOT_OUT: Colour = Colour("#f6ddcf");
/// Captions.
pub const SOFT_INK: Colour = Colour("#3f4952");
/// Faint divisions that carry no meaning alone.
pub const FAINT: Colour = Colour("#d9dad6");
/// The tolerance band behind dots and marker.
pub const BAND: Colour = Colour("#bce3d2");
/// A short portion's mark on a light surface.
pub const SHORT: Colour = Colour("#1666cc");
/// The mark of a portion within tolerance on a light surface.
pub const ON: Colour = Colour("#00382a");
/// A heavy portion's mark on a light surface.
pub const HEAVY: Colour = Colour("#b44400");

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn digits_become_red_green_and_blue() {
        assert_eq!(INK.rgb(), [0x10, 0x16, 0x1b]);
        assert_eq!(BAND.rgb(), [188, 227, 210]);
    }
}
