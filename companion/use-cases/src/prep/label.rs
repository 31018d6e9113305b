//! A label for a tub: what it is, when it was made and is to be used by, from which lot.

use super::{MadeFor, date_marking, length};
use crate::book::stem_of;
use crate::limits::{caution, source_words};
use crate::printing::{self, A7_ACROSS, PageError, blank, text};
use crate::sheet::with_degree_signs;
use crate::times;
use crate::words::say;
use evenhand_kitchen::limits::{Demand, Limit, Limits, both_units};
use evenhand_kitchen::moment::show_time;
use evenhand_kitchen::prep::{OfPreparation, UseBy, date_mark_ends};
use evenhand_words::Language;
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp};

/// What a label says.
#[derive(Debug, Clone)]
pub struct Label {
    /// The batch.
    pub made: MadeFor,
    /// When it was finished; `None` where it is not yet.
    pub ready: Option<Timestamp>,
    /// When it is to be used by; `None` where that is not known.
    pub use_by: Option<UseBy>,
    /// The limit on how many days it is kept, and when it ends; where it applies.
    pub mark: Option<(Limit, Timestamp)>,
}

/// How a line of a label is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Line {
    /// What it is.
    Name,
    /// When it is to be used by.
    UseBy,
    /// What else is to be read.
    Text,
    /// Where it comes from.
    Small,
}

impl Label {
    /// The label of a batch as it stands at a moment.
    #[must_use]
    pub fn of(made: MadeFor, limits: &Limits, now: Timestamp, zone: &TimeZone) -> Self {
        let ready = made.ready(now);
        let marking = date_marking(limits).filter(|_| made.batch.date_marked);
        let use_by = ready.and_then(|ready| {
            let keeps = made.batch.keeps.as_ref()?;
            Some(keeps.use_by(ready, marking.map(|(days, _)| days), zone))
        });
        let mark = ready.and_then(|ready| {
            let (days, limit) = marking?;
            Some((limit.clone(), date_mark_ends(ready, days, zone)?))
        });
        Self {
            made,
            ready,
            use_by,
            mark,
        }
    }

    /// What it says, line by line. `tub` is which of how many.
    #[must_use]
    pub fn lines(
        &self,
        language: Language,
        tub: (u32, u32),
        zone: &TimeZone,
    ) -> Vec<(Line, String)> {
        let at = |moment: Timestamp| {
            let day = moment.to_zoned_datetime(zone.clone()).date();
            let day = times::day_of_year(language, day);
            say!(
                language,
                "label-moment",
                day = day,
                time = show_time(moment, zone)
            )
            .into_owned()
        };
        let batch = &self.made.batch;
        let mut lines = vec![(Line::Name, self.made.preparation.clone())];
        let mut tell =
            |line, words: std::borrow::Cow<'_, str>| lines.push((line, words.into_owned()));
        tell(
            Line::UseBy,
            match self.use_by {
                None => say!(language, "label-use-by-not-known"),
                Some(UseBy {
                    at: by,
                    by_date_mark: true,
                }) => say!(
                    language,
                    "label-use-by-end-of",
                    day = last_day(language, by, zone)
                ),
                Some(UseBy { at: by, .. }) => say!(language, "label-use-by", by = at(by)),
            },
        );
        tell(
            Line::Text,
            match (self.made.made, self.made.standing) {
                (Some(made), _) => say!(language, "label-made", at = at(made)),
                (None, OfPreparation::Open) => say!(language, "label-not-begun"),
                (None, _) => say!(language, "label-made-not-known"),
            },
        );
        tell(
            Line::Text,
            match self.ready {
                Some(ready) => say!(language, "label-ready", at = at(ready)),
                None => say!(language, "label-not-ready"),
            },
        );
        let lot = self.made.lot();
        tell(
            Line::Text,
            match tub {
                (_, 0 | 1) => say!(language, "label-lot", lot = lot),
                (nth, of) => say!(language, "label-lot-tub", lot = lot, nth = nth, of = of),
            },
        );
        tell(
            Line::Text,
            match batch.allergens.as_deref() {
                None => say!(language, "label-allergens-not-entered"),
                Some([]) => say!(language, "label-allergens-none"),
                Some(some) => say!(language, "label-allergens", allergens = some.join(", ")),
            },
        );
        tell(
            Line::Small,
            match &batch.keeps {
                None => say!(language, "label-keeps-not-known"),
                Some(keeps) => {
                    let lasts = keeping_length(keeps.lasts());
                    say!(
                        language,
                        "label-keeps",
                        length = lasts,
                        source = keeps.source()
                    )
                }
            },
        );
        match &self.mark {
            Some((limit, ends)) => {
                let Demand::Days { days, at_most } = limit.demand else {
                    return lines;
                };
                let words = say!(
                    language,
                    "label-mark",
                    days = days,
                    temperature = both_units(at_most),
                    day = last_day(language, *ends, zone),
                    source = source_words(language, &limit.source)
                );
                tell(Line::Small, words);
            }
            None if !batch.date_marked => tell(Line::Small, say!(language, "label-mark-left-out")),
            None => {}
        }
        tell(Line::Small, caution(language).into());
        lines
    }

    /// What its file is called, without its ending: `label-hogget-neck-2026-05-08`.
    #[must_use]
    pub fn file_stem(&self) -> String {
        let made = &self.made;
        format!("label-{}-{}", stem_of(&made.preparation), made.day)
    }

    /// One tub's label as SVG, on A7 across.
    #[must_use]
    pub fn svg(&self, language: Language, tub: (u32, u32), zone: &TimeZone) -> String {
        let lines = self.lines(language, tub, zone);
        // Smaller until all of it has room: nothing is left off a label.
        let mut size = 1.0;
        loop {
            let (drawing, fits) = draw(&lines, size);
            if fits || size < 0.4 {
                return drawing;
            }
            size *= 0.94;
        }
    }

    /// A label a tub, as the pages of a PDF.
    ///
    /// # Errors
    /// [`PageError`] where a page cannot be set.
    pub fn pdf(
        &self,
        language: Language,
        tubs: u32,
        zone: &TimeZone,
    ) -> Result<Vec<u8>, PageError> {
        let pages: Vec<String> = (1..=tubs)
            .map(|nth| self.svg(language, (nth, tubs), zone))
            .collect();
        printing::pdf(A7_ACROSS, &self.made.preparation, &pages)
    }

    /// One label as PNG.
    ///
    /// # Errors
    /// [`PageError`] where it cannot be drawn.
    pub fn png(&self, language: Language, zone: &TimeZone) -> Result<Vec<u8>, PageError> {
        printing::png(A7_ACROSS, &self.svg(language, (1, 1), zone))
    }
}

/// Days as days, else as any length of time.
fn keeping_length(lasts: SignedDuration) -> String {
    let hours = lasts.as_hours();
    if hours % 24 == 0 && lasts == SignedDuration::from_hours(hours) && hours > 0 {
        format!("{} d", hours / 24)
    } else {
        length(lasts)
    }
}

/// The day that ends at a moment.
fn last_day(language: Language, end: Timestamp, zone: &TimeZone) -> String {
    let within = end.checked_sub(SignedDuration::from_secs(1)).unwrap_or(end);
    times::day_of_year(language, within.to_zoned_datetime(zone.clone()).date())
}

const MARGIN: f32 = 11.0;

impl Line {
    /// Size in points, the step to the next line, the space before, and whether it is strong.
    const fn look(self) -> (f32, f32, f32, bool) {
        match self {
            Self::Name => (22.0, 24.0, 0.0, true),
            Self::UseBy => (17.0, 20.0, 2.0, true),
            Self::Text => (11.0, 14.0, 1.0, false),
            Self::Small => (6.5, 8.0, 1.5, false),
        }
    }
}

/// The drawing, and whether all of it has room.
fn draw(lines: &[(Line, String)], scale: f32) -> (String, bool) {
    let paper = A7_ACROSS;
    let mut page = blank(paper);
    let mut y = MARGIN;
    for (line, words) in lines {
        let (size, step, before, strong) = line.look();
        let (size, step) = (size * scale, step * scale);
        y += before * scale;
        // A letter of these typefaces is about half as wide as tall, the strong ones wider.
        let wide = if strong { 0.62 } else { 0.54 };
        let letters = ((paper.width - 2.0 * MARGIN) / (size * wide)) as usize;
        // A section such as 3-501.17 is not broken.
        let whole = textwrap::Options::new(letters.max(8))
            .word_splitter(textwrap::WordSplitter::NoHyphenation);
        let words = with_degree_signs(words);
        for part in textwrap::wrap(&words, whole) {
            y += step;
            page = page.add(text(MARGIN, y, size, strong, part));
        }
    }
    (page.to_string(), y <= paper.height - MARGIN)
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;
    use evenhand_kitchen::prep::{BatchOf, Keeping, Needs};
    use resvg::tiny_skia::Pixmap;

    fn label(name: &str, allergens: &[&str]) -> Label {
        let since = "2026-05-04T09:30:00Z".parse().unwrap();
        let ready = "2026-05-04T16:00:00Z".parse().unwrap();
        let made = MadeFor {
            preparation: name.to_owned(),
            day: jiff::civil::date(2026, 5, 4),
            nth: 1,
            batch: BatchOf {
                portions: 24,
                keeps: Some(
                    Keeping::new(SignedDuration::from_hours(96), "the kitchen's own").unwrap(),
                ),
                date_marked: true,
                dish: name.to_owned(),
                needs: Needs::Portions(8),
                allergens: Some(allergens.iter().map(|&it| it.to_owned()).collect()),
                portioned_ahead: false,
            },
            standing: OfPreparation::Finished { since, ready },
            made: Some(since),
            last_step: String::new(),
            recorded: vec![],
        };
        Label::of(made, &Limits::food_code(), ready, &TimeZone::UTC)
    }

    /// Nothing runs into the edge, where it would be cut off, however much there is to say, in
    /// any language.
    #[test]
    fn all_of_it_has_room() {
        let many = [
            "celery",
            "mustard",
            "sulphur dioxide and sulphites",
            "cereals with gluten",
            "milk",
        ];
        let long = "hogget neck in its own stock with sea purslane and brown butter";
        for (name, allergens) in [("necks", &many[..1]), (long, &many[..])] {
            for language in [Language::English, Language::Spanish, Language::French] {
                let label = label(name, allergens);
                let lines = label.lines(language, (1, 1), &TimeZone::UTC);
                let png = label.png(language, &TimeZone::UTC).unwrap();
                let picture = Pixmap::decode_png(&png).unwrap();
                let (width, height) = (picture.width(), picture.height());
                let dark = |x: u32, y: u32| picture.pixel(x, y).unwrap().red() < 120;
                let all = (0..width).flat_map(|x| (0..height).map(move |y| (x, y)));
                let inked = all.clone().filter(|(x, y)| dark(*x, *y)).count();
                assert!(inked > 10_000, "{name} in {language:?}: {inked}");
                let edge = |x: u32, y: u32| x < 20 || y < 20 || x >= width - 20 || y >= height - 20;
                let cut = all.filter(|(x, y)| edge(*x, *y)).any(|(x, y)| dark(x, y));
                assert!(!cut, "{name} in {language:?}: {lines:#?}");
            }
        }
    }
}
