//! A sheet: lines of four weights, set on as many pages of A4 as they take. The
//! same lines go to the command line and to a screen.

use crate::colours;
use crate::printing::{A4, HEIGHT, blank, text};

/// How a line of a sheet is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Weight {
    /// What the sheet is about.
    Title,
    /// What the lines below are about.
    Heading,
    /// What there is to know.
    Text,
    /// Where it comes from.
    Small,
}

const MARGIN: f32 = 42.0;

impl Weight {
    /// Size in points, characters a line, the space after a line and before the
    /// first, and whether it is strong.
    const fn look(self) -> (f32, usize, f32, f32, bool) {
        match self {
            Self::Title => (20.0, 44, 24.0, 14.0, true),
            Self::Heading => (11.5, 80, 15.0, 10.0, true),
            Self::Text => (9.5, 104, 12.5, 0.0, false),
            Self::Small => (7.5, 132, 10.0, 2.0, false),
        }
    }
}

/// The sheet as drawings of A4, one a page; `foot` is what stands at the foot
/// of one, by its number and how many there are.
#[must_use]
pub fn pages(lines: &[(Weight, String)], foot: impl Fn(usize, usize) -> String) -> Vec<String> {
    let blank = || blank(A4);
    let mut pages = Vec::new();
    let (mut page, mut y) = (blank(), MARGIN);
    for (weight, words) in lines {
        let (size, wide, step, before, strong) = weight.look();
        y += before;
        for line in textwrap::wrap(
            &words.replace("degC", "\u{b0}C").replace("degF", "\u{b0}F"),
            wide,
        ) {
            if y + step > HEIGHT - MARGIN {
                pages.push(std::mem::replace(&mut page, blank()));
                y = MARGIN;
            }
            y += step;
            page = page.add(text(MARGIN, y, size, strong, line));
        }
    }
    pages.push(page);
    let of = pages.len();
    pages
        .into_iter()
        .enumerate()
        .map(|(nth, page)| {
            let foot = text(MARGIN, HEIGHT - 24.0, 7.5, false, foot(nth + 1, of))
                .set("fill", colours::SOFT_INK.css());
            page.add(foot).to_string()
        })
        .collect()
}
