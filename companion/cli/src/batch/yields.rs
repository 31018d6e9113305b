//! `evenhand batch yield` and `yields`: what came out of what went in.

use super::{LineArguments, add};
use crate::fields::at_flag;
use crate::words::{bad_input, say};
use crate::{Data, Failure, output, written};
use clap::Args;
use evenhand_kitchen::batch::{Batch, Mark, What, Yielded, Yields};
use evenhand_kitchen::units::{Grams, Ratio, mass_positive, parse_volume};
use evenhand_use_cases::mixing::yields::yields_words;
use evenhand_use_cases::yield_picture;
use evenhand_words::Language;
use jiff::tz::TimeZone;
use serde_json::{Map, Value, json};
use std::io::Write;
use std::path::PathBuf;

#[derive(Debug, Args)]
pub(in super::super) struct YieldArguments {
    #[command(flatten)]
    line: LineArguments,
    /// What came out: milk, stock, pulp.
    #[arg(long, value_name = "NAME")]
    name: String,
    /// What it weighs.
    #[arg(long, value_name = "MASS", allow_hyphen_values = true)]
    mass: String,
    /// The room it takes, where that was measured: 3l.
    #[arg(long, value_name = "VOLUME", allow_hyphen_values = true)]
    volume: Option<String>,
}

#[derive(Debug, Args)]
pub(in super::super) struct YieldsArguments {
    /// The title.
    title: String,
    /// What everything is told over: beans.
    #[arg(long, value_name = "NAME")]
    of: String,
    /// Draw them into this file, .svg or .png.
    #[arg(long, value_name = "FILE")]
    picture: Option<PathBuf>,
    /// Write over a file that is there.
    #[arg(long, requires = "picture")]
    force: bool,
    /// One JSON object.
    #[arg(long)]
    json: bool,
}

pub(super) fn note(data: &Data, arguments: &YieldArguments) -> Result<(), Failure> {
    let mass = mass_positive("--mass", &arguments.mass)?;
    let volume = arguments
        .volume
        .as_ref()
        .map(|text| parse_volume("--volume", text))
        .transpose()?;
    let flags = [
        ("name", "--name"),
        ("mass", "--mass"),
        ("volume", "--volume"),
    ];
    let out =
        Yielded::new(&arguments.name, mass, volume).map_err(|error| at_flag(&error, &flags))?;
    add(data, &arguments.line, What::Yielded { out })
}

pub(super) fn yields(
    data: &Data,
    arguments: &YieldsArguments,
    language: Language,
) -> Result<(), Failure> {
    let mut batches = data.existing()?.batches_titled(&arguments.title)?;
    if batches.is_empty() {
        return Err(bad_input!(
            "batch-no-such-title",
            title = format!("{:?}", arguments.title)
        ));
    }
    batches.sort_by_key(|(id, batch)| (batch.begun(), id.0));
    let batches: Vec<Batch> = batches.into_iter().map(|(_, batch)| batch).collect();
    let found = Yields::new(&batches, &arguments.of)
        .map_err(|error| at_flag(&error, &[("base", "--of")]))?;
    if let Some(path) = &arguments.picture {
        let zone = TimeZone::system();
        let about = (arguments.title.as_str(), arguments.of.as_str());
        let ending = path
            .extension()
            .map(|ending| ending.to_string_lossy().to_lowercase());
        let bytes = match ending.as_deref() {
            Some("svg") => yield_picture::svg(language, about, &found, &zone).into_bytes(),
            Some("png") => yield_picture::png(language, about, &found, &zone)
                .map_err(|error| Failure::Other(error.to_string()))?,
            _ => {
                return Err(bad_input!(
                    "batch-no-picture-kind",
                    path = path.display().to_string()
                ));
            }
        };
        written::to_file(data, "--picture", path, arguments.force, |file| {
            file.write_all(&bytes)
        })?;
        let path = path.display().to_string();
        eprintln!("{}", say!(language, "batch-picture-written", path = path));
    }
    if arguments.json {
        return output::json(&fields(&found));
    }
    output::line(&yields_words(language, &found, &arguments.of).join("\n"))
}

fn rounded(ratio: Ratio) -> f64 {
    (ratio.fraction() * 1e6).round() / 1e6
}

fn fields(found: &Yields) -> Value {
    let usual: Map<String, Value> = found
        .names
        .iter()
        .map(|name| {
            let usual = found.usual(name).map(|usual| {
                json!({
                    "mean": rounded(usual.mean),
                    "from": rounded(usual.from),
                    "to": rounded(usual.to),
                    "batches": usual.batches,
                })
            });
            (name.clone(), json!(usual))
        })
        .collect();
    json!({
        "left_out": found.left_out,
        "usual": usual,
        "batches": found.rows.iter().map(|row| {
            let out: Map<String, Value> = found
                .names
                .iter()
                .zip(row.out.iter().zip(&row.densities))
                .map(|(name, (out, density))| {
                    (name.clone(), json!({"of_base": out.map(rounded), "density_kg_l": density}))
                })
                .collect();
            json!({
                "begun": row.begun,
                "base_grams": Grams(row.base),
                "in_of_base": rounded(row.into),
                "out": out,
                "lost_of_base": rounded(row.lost),
                "more_than_went_in": row.more_than_went_in,
                "mark": row.mark.map(Mark::value),
            })
        }).collect::<Vec<_>>(),
    })
}
