//! What came out of batches that were soaked, steeped, pressed or strained, in words.

use super::batch::mark_words;
use super::figure;
use crate::words::say;
use evenhand_kitchen::batch::Yields;
use evenhand_kitchen::units::Ratio;
use evenhand_words::Language;

/// Each batch, then what usually comes out, line by line. `of` is what everything is told over.
#[must_use]
pub fn yields_words(language: Language, found: &Yields, of: &str) -> Vec<String> {
    let share = |ratio: Ratio| figure(language, ratio.fraction(), 2);
    let mut lines = Vec::new();
    for row in &found.rows {
        let came = found.names.iter().zip(row.out.iter().zip(&row.densities));
        let out: Vec<String> = came
            .filter_map(|(name, (out, density))| {
                let out = share((*out)?);
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
        lines.push(
            say!(
                language,
                "batch-yields-row",
                of = of,
                into = share(row.into),
                out = out.join(", "),
                lost = share(row.lost),
                mark = mark
            )
            .into_owned(),
        );
        if row.more_than_went_in {
            let more = say!(language, "batch-yields-more-than-went-in");
            lines.push(format!("  {more}"));
        }
    }
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
