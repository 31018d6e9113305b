//! What came out of batches that were soaked, steeped, pressed or strained, in words.

use super::batch::mark_words;
use super::figure;
use crate::words::say;
use evenhand_kitchen::batch::{YieldRow, Yields};
use evenhand_kitchen::units::Ratio;
use evenhand_words::Language;

/// Each batch, then what usually comes out, line by line. `of` is what everything is told over.
#[must_use]
pub fn yields_words(language: Language, found: &Yields, of: &str) -> Vec<String> {
    let mut lines: Vec<String> = found
        .rows
        .iter()
        .flat_map(|row| row_words(language, found, row, of))
        .collect();
    lines.extend(usual_words(language, found, of));
    lines
}

fn share(language: Language, ratio: Ratio) -> String {
    figure(language, ratio.fraction(), 2)
}

/// One batch, and where more came out of it than went in.
#[must_use]
pub fn row_words(language: Language, found: &Yields, row: &YieldRow, of: &str) -> Vec<String> {
    let came = found.names.iter().zip(row.out.iter().zip(&row.densities));
    let out: Vec<String> = came
        .filter_map(|(name, (out, density))| {
            let out = share(language, (*out)?);
            let density = density.map_or_else(String::new, |density| {
                let density = figure(language, density, 3);
                say!(language, "batch-yields-density", density = density).into_owned()
            });
            Some(format!("{name} {out}{density}"))
        })
        .collect();
    let mark = row.mark.map_or_else(
        || say!(language, "batch-yields-not-tasted").into_owned(),
        |mark| mark_words(language, mark),
    );
    let mut lines = vec![
        say!(
            language,
            "batch-yields-row",
            of = of,
            into = share(language, row.into),
            out = out.join(", "),
            lost = share(language, row.lost),
            mark = mark
        )
        .into_owned(),
    ];
    if row.more_than_went_in {
        let more = say!(language, "batch-yields-more-than-went-in");
        lines.push(format!("  {more}"));
    }
    lines
}

/// What usually comes out, and how many batches were left out of it.
#[must_use]
pub fn usual_words(language: Language, found: &Yields, of: &str) -> Vec<String> {
    let share = |ratio: Ratio| share(language, ratio);
    let mut lines = Vec::new();
    for name in &found.names {
        lines.push(
            match found.usual(name) {
                Some(usual) => say!(
                    language,
                    "batch-yields-usual",
                    name = name.as_str(),
                    mean = share(usual.mean),
                    of = of,
                    batches = usual.batches,
                    from = share(usual.from),
                    to = share(usual.to)
                ),
                None => say!(language, "batch-yields-not-known", name = name.as_str()),
            }
            .into_owned(),
        );
    }
    if found.left_out > 0 {
        let left = found.left_out;
        lines.push(say!(language, "batch-yields-left-out", count = left, of = of).into_owned());
    }
    lines
}
