//! `evenhand formula picture`, `pictures` and `picture-off`.

use crate::fields::at_flag;
use crate::output::Telling;
use crate::words::say;
use crate::{Data, Failure, output};
use clap::Args;
use evenhand_kitchen::book::{PictureId, Pictured, picture_key};
use evenhand_store::KeptPicture;
use evenhand_use_cases::book::{add_picture, dimensions, picture_words};
use evenhand_words::Language;
use jiff::Timestamp;
use serde_json::{Value, json};
use std::path::PathBuf;

#[derive(Debug, Args)]
pub(in super::super) struct PictureArguments {
    /// The dish, the formula or the preparation of the menu.
    name: String,
    /// The picture: PNG or JPEG, as a phone makes it.
    file: PathBuf,
    /// What stands under it.
    #[arg(long, value_name = "WORDS", default_value = "")]
    caption: String,
    #[command(flatten)]
    telling: Telling,
}

#[derive(Debug, Args)]
pub(in super::super) struct PicturesArguments {
    /// Of this dish, formula or preparation alone.
    name: Option<String>,
    /// One JSON object a line.
    #[arg(long)]
    json: bool,
}

#[derive(Debug, Args)]
pub(in super::super) struct PictureOffArguments {
    /// The picture's number, as `formula pictures` lists it.
    picture: i64,
    #[command(flatten)]
    telling: Telling,
}

pub(super) fn add(data: &Data, arguments: &PictureArguments) -> Result<(), Failure> {
    let flags = [("name", "NAME"), ("caption", "--caption")];
    let pictured = Pictured::new(&arguments.name, &arguments.caption)
        .map_err(|error| at_flag(&error, &flags))?;
    let mut store = data.store()?;
    let folder = data.folder()?;
    let kept = add_picture(
        folder.path(),
        &mut store,
        &pictured,
        &arguments.file,
        Timestamp::now(),
    )?;
    arguments.telling.tell(
        &say!(
            data.language,
            "picture-kept",
            picture = kept.id.to_string(),
            of = kept.pictured.of()
        ),
        &fields(&kept),
    )
}

pub(super) fn list(
    data: &Data,
    arguments: &PicturesArguments,
    language: Language,
) -> Result<(), Failure> {
    let key = arguments.name.as_deref().map(picture_key);
    let pictures = data.existing()?.pictures(key.as_deref())?;
    output::nothing_yet(
        pictures.is_empty(),
        arguments.json,
        &say!(language, "picture-nothing-yet"),
    )?;
    for kept in &pictures {
        if arguments.json {
            output::json(&fields(kept))?;
        } else {
            output::line(&format!(
                "{}: {}",
                kept.pictured.of(),
                picture_words(language, kept)
            ))?;
        }
    }
    Ok(())
}

pub(super) fn take_off(data: &Data, arguments: &PictureOffArguments) -> Result<(), Failure> {
    let id = PictureId(arguments.picture);
    data.existing()?.take_picture_off(id, Timestamp::now())?;
    arguments.telling.tell(
        &say!(data.language, "picture-off", picture = id.to_string()),
        &json!({ "picture": id.0, "taken_off": true }),
    )
}

/// A picture for machines, without itself.
pub(super) fn fields(kept: &KeptPicture) -> Value {
    let size = dimensions(&kept.image);
    json!({
        "picture": kept.id.0,
        "of": kept.pictured.of(),
        "caption": kept.pictured.caption(),
        "width": size.map(|(width, _)| width),
        "height": size.map(|(_, height)| height),
        "bytes": kept.image.len(),
        "added": kept.added,
    })
}
