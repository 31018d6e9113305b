//! A sheet: lines of four weights, set on as many pages of A4 as they take, with
//! pictures where there are any. The same lines go to the command line and to a
//! screen.

use crate::colours;
use crate::printing::{A4, HEIGHT, WIDTH, blank, picture_name, text};
use svg::Document;
use svg::node::element::Image;

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

/// A picture on a sheet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Picture {
    /// How wide it is, in pixels.
    pub width: u32,
    /// How tall it is, in pixels.
    pub height: u32,
    /// What stands under it; empty where nothing does.
    pub caption: String,
}

const MARGIN: f32 = 42.0;
const INNER: f32 = WIDTH - 2.0 * MARGIN;
const FOOT: f32 = HEIGHT - MARGIN;
/// What is left free around a picture.
const GAP: f32 = 14.0;
/// Beside lines a picture is at most this wide and tall, the larger first: 65 by
/// 70 mm, 42 by 42 mm.
const BESIDE: [(f32, f32); 2] = [(184.0, 198.0), (120.0, 120.0)];
/// Below them, at most this tall: 60 mm, three in a row.
const BELOW: f32 = 170.0;
const IN_A_ROW: usize = 3;
/// How far a space before a line moves it to the right.
const INDENT: f32 = 5.0;
/// Beside a picture lines are held shorter than their letters need on average.
const SPARE: f32 = 0.93;

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

    /// Characters of a line that is `width` points wide.
    fn characters(self, width: f32) -> usize {
        let (_, wide, ..) = self.look();
        if width >= INNER {
            wide
        } else {
            ((wide as f32 * width / INNER * SPARE) as usize).max(8)
        }
    }
}

/// Words where they stand.
struct Placed {
    page: usize,
    at: (f32, f32),
    weight: Weight,
    words: String,
}

/// Lines that were set.
struct Lines {
    placed: Vec<Placed>,
    /// On which page the last word of each line stands.
    pages: Vec<usize>,
    /// Where the last page ends.
    end: f32,
}

impl Lines {
    /// Sets lines; `beside` is how wide and tall is left free at the top right
    /// of the first page.
    fn set(lines: &[(Weight, String)], beside: (f32, f32)) -> Self {
        let (mut page, mut y) = (0, MARGIN);
        let (mut placed, mut pages) = (Vec::new(), Vec::new());
        for (weight, words) in lines {
            let (_, _, step, before, _) = weight.look();
            y += before;
            let free = if page == 0 && beside.1 > 0.0 && y < MARGIN + beside.1 {
                INNER - beside.0 - GAP
            } else {
                INNER
            };
            // What a line is indented by, its further lines are too.
            let written = with_degree_signs(words);
            let line = written.trim_start_matches(' ');
            let indent = INDENT * (written.len() - line.len()) as f32;
            for line in textwrap::wrap(line, weight.characters(free - indent)) {
                if y + step > FOOT {
                    page += 1;
                    y = MARGIN;
                }
                y += step;
                placed.push(Placed {
                    page,
                    at: (MARGIN + indent, y),
                    weight: *weight,
                    words: line.into_owned(),
                });
            }
            pages.push(page);
        }
        Self {
            placed,
            pages,
            end: y,
        }
    }
}

/// Words with the units of temperatures as paper and screens write them, and not as
/// the command line does.
#[must_use]
pub fn with_degree_signs(words: &str) -> String {
    words.replace("degC", "\u{b0}C").replace("degF", "\u{b0}F")
}

/// A picture where it stands, with its caption.
struct Hung<'p> {
    page: usize,
    place: usize,
    picture: &'p Picture,
    at: (f32, f32),
    size: (f32, f32),
}

impl Picture {
    /// As large as it gets in that much room, its sides in proportion.
    fn fitted(&self, room: (f32, f32)) -> (f32, f32) {
        let (width, height) = (self.width.max(1) as f32, self.height.max(1) as f32);
        let by = (room.0 / width).min(room.1 / height);
        (width * by, height * by)
    }

    fn caption_lines(&self, width: f32) -> Vec<String> {
        if self.caption.is_empty() {
            return Vec::new();
        }
        textwrap::wrap(
            &with_degree_signs(&self.caption),
            Weight::Small.characters(width),
        )
        .into_iter()
        .map(std::borrow::Cow::into_owned)
        .collect()
    }

    /// How tall its caption is, `width` wide.
    fn caption_height(&self, width: f32) -> f32 {
        let (_, _, step, before, _) = Weight::Small.look();
        match self.caption_lines(width).len() {
            0 => 0.0,
            lines => before + step * lines as f32,
        }
    }
}

/// The sheet as drawings of A4, one a page; `foot` is what stands at the foot
/// of one, by its number and how many there are.
#[must_use]
pub fn pages(lines: &[(Weight, String)], foot: impl Fn(usize, usize) -> String) -> Vec<String> {
    illustrated(lines, &[], foot)
}

/// The sheet with pictures: the first beside the lines at the top, the others
/// below them. No line comes to another page for a picture: where the first
/// would push one there, it stands below them too. The drawings name pictures
/// by their place in the list.
#[must_use]
pub fn illustrated(
    lines: &[(Weight, String)],
    pictures: &[Picture],
    foot: impl Fn(usize, usize) -> String,
) -> Vec<String> {
    let mut set = Lines::set(lines, (0.0, 0.0));
    let mut hung = Vec::new();
    let mut below = pictures;
    if let Some((first, others)) = pictures.split_first() {
        for room in BESIDE {
            let size = first.fitted(room);
            let tall = size.1 + first.caption_height(size.0) + GAP;
            let tried = Lines::set(lines, (size.0, tall));
            if tried.pages == set.pages {
                set = tried;
                set.end = if set.pages.last().is_none_or(|page| *page == 0) {
                    set.end.max(MARGIN + tall)
                } else {
                    set.end
                };
                hung.push(Hung {
                    page: 0,
                    place: 0,
                    picture: first,
                    at: (WIDTH - MARGIN - size.0, MARGIN),
                    size,
                });
                below = others;
                break;
            }
        }
    }
    hang_below(&set, pictures.len() - below.len(), below, &mut hung);
    let last = set
        .pages
        .last()
        .copied()
        .into_iter()
        .chain(hung.iter().map(|hung| hung.page))
        .max()
        .unwrap_or(0);
    let mut sheets: Vec<Document> = (0..=last).map(|_| blank(A4)).collect();
    let mut put = |page: usize, node: Box<dyn svg::Node>| {
        if let Some(sheet) = sheets.get_mut(page) {
            svg::Node::append(sheet, node);
        }
    };
    for line in set.placed {
        let (size, .., strong) = line.weight.look();
        put(
            line.page,
            Box::new(text(line.at.0, line.at.1, size, strong, line.words)),
        );
    }
    for Hung {
        page,
        place,
        picture,
        at,
        size,
    } in hung
    {
        let image = Image::new()
            .set("x", at.0)
            .set("y", at.1)
            .set("width", size.0)
            .set("height", size.1)
            .set("href", picture_name(place));
        put(page, Box::new(image));
        let (points, _, step, before, strong) = Weight::Small.look();
        for (nth, line) in picture.caption_lines(size.0).into_iter().enumerate() {
            let y = at.1 + size.1 + before + step * (nth + 1) as f32;
            put(page, Box::new(text(at.0, y, points, strong, line)));
        }
    }
    let of = sheets.len();
    sheets
        .into_iter()
        .enumerate()
        .map(|(nth, page)| {
            let foot = text(MARGIN, HEIGHT - 24.0, 7.5, false, foot(nth + 1, of))
                .set("fill", colours::SOFT_INK.css());
            page.add(foot).to_string()
        })
        .collect()
}

/// Hangs pictures in rows below the last line, on pages of their own where the
/// last one has no room.
fn hang_below<'p>(set: &Lines, first: usize, pictures: &'p [Picture], hung: &mut Vec<Hung<'p>>) {
    let (mut page, mut y) = (set.pages.last().copied().unwrap_or(0), set.end + GAP);
    let width = (INNER - GAP * (IN_A_ROW - 1) as f32) / IN_A_ROW as f32;
    for (nth, row) in pictures.chunks(IN_A_ROW).enumerate() {
        let sizes: Vec<(f32, f32)> = row
            .iter()
            .map(|picture| picture.fitted((width, BELOW)))
            .collect();
        let tall = row
            .iter()
            .zip(&sizes)
            .map(|(picture, size)| size.1 + picture.caption_height(size.0))
            .fold(0.0, f32::max);
        if y + tall > FOOT {
            page += 1;
            y = MARGIN;
        }
        let mut x = MARGIN;
        for (place, (picture, size)) in row.iter().zip(sizes).enumerate() {
            hung.push(Hung {
                page,
                place: first + nth * IN_A_ROW + place,
                picture,
                at: (x, y),
                size,
            });
            x += width + GAP;
        }
        y += tall + GAP;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn foot(nth: usize, of: usize) -> String {
        format!("{nth}/{of}")
    }

    fn many(lines: usize) -> Vec<(Weight, String)> {
        let mut all = vec![(Weight::Title, "tideline loaf".to_owned())];
        // A sentence that is one line across the page and two beside a picture.
        let sentence = "fold it three times, half an hour apart, and let it rest until it holds";
        all.extend((0..lines).map(|nth| (Weight::Text, format!("step {nth}: {sentence}"))));
        all.push((Weight::Text, "LIMIT".to_owned()));
        all
    }

    fn photographs(count: usize) -> Vec<Picture> {
        (0..count)
            .map(|nth| Picture {
                width: 1280,
                height: 960,
                caption: format!("caption {nth}"),
            })
            .collect()
    }

    fn page_of(sheets: &[String], words: &str) -> usize {
        sheets
            .iter()
            .position(|sheet| sheet.contains(words))
            .unwrap_or_else(|| panic!("{words}"))
    }

    /// What belongs to a line above stands to the right of it, its second line too.
    #[test]
    fn indented_lines_stay_indented() {
        let long = format!("    20 g salt, {}", "and stir ".repeat(14));
        let lines = [
            (Weight::Text, "final mix".to_owned()),
            (Weight::Text, long),
            (Weight::Text, "How".to_owned()),
        ];
        let sheet = pages(&lines, foot).concat();
        let indented = format!("x=\"{}\"", MARGIN + 4.0 * INDENT);
        assert_eq!(sheet.matches(&indented).count(), 2, "{sheet}");
        let flush = format!("x=\"{MARGIN}\"");
        // The two others, and the foot.
        assert_eq!(sheet.matches(&flush).count(), 3, "{sheet}");
    }

    /// Whatever there is to say, no line is on a later page than without pictures.
    #[test]
    fn pictures_push_no_line_off_its_page() {
        let mut beside = 0;
        let mut moved = 0;
        for lines in 0..130 {
            let lines = many(lines);
            let plain = pages(&lines, foot);
            for count in [1, 6] {
                let sheets = illustrated(&lines, &photographs(count), foot);
                for (_, line) in &lines {
                    let beginning: String = line.chars().take(20).collect();
                    assert_eq!(page_of(&plain, &beginning), page_of(&sheets, &beginning));
                }
                for nth in 0..count {
                    let name = picture_name(nth);
                    assert!(page_of(&sheets, &name) < sheets.len());
                    assert_eq!(
                        page_of(&sheets, &name),
                        page_of(&sheets, &format!("caption {nth}"))
                    );
                }
                if page_of(&sheets, &picture_name(0)) == 0 {
                    beside += 1;
                } else {
                    moved += 1;
                }
            }
        }
        // Both happened.
        assert!(beside > 50 && moved > 0, "{beside} {moved}");
    }

    #[test]
    fn a_picture_keeps_its_proportions_and_its_bounds() {
        for (width, height) in [(1280, 960), (960, 1280), (1280, 40), (24, 16)] {
            let picture = Picture {
                width,
                height,
                caption: String::new(),
            };
            for room in BESIDE {
                let size = picture.fitted(room);
                assert!(size.0 <= room.0 + 0.01 && size.1 <= room.1 + 0.01);
                let ratio = size.0 / size.1 * height as f32 / width as f32;
                assert!((ratio - 1.0).abs() < 0.001, "{ratio}");
            }
        }
    }
}
