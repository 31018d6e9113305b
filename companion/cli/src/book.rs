//! `evenhand book`.

use super::output::Telling;
use super::words::{bad_input, failed, say};
use super::{Data, Failure, written};
use clap::{Args, Subcommand, ValueEnum};
use evenhand_kitchen::book::picture_key;
use evenhand_use_cases::book::{Against, Form, book_as_files, read_book};
use jiff::Timestamp;
use jiff::tz::TimeZone;
use serde_json::json;
use std::io::Write;
use std::path::{Path, PathBuf};

#[derive(Debug, Subcommand)]
pub(super) enum BookCommand {
    /// Write every formula, menu and picture and the list of goods into a folder, each as a file of
    /// its own.
    Export(ExportArguments),
    /// Bring in the formulas, menus, goods and pictures of a folder: all of them or none.
    Import(ImportArguments),
}

#[derive(Debug, Clone, Copy, ValueEnum)]
enum FormOfFiles {
    /// As somebody wrote it, comments too.
    Toml,
    /// Tables for a spreadsheet.
    Csv,
}

#[derive(Debug, Args)]
pub(super) struct ExportArguments {
    /// The folder, made where it is not there; `formulas`, `menus`, `goods` and `pictures` come into
    /// it.
    folder: PathBuf,
    /// The form of formulas, menus and goods.
    #[arg(long, value_enum, default_value_t = FormOfFiles::Toml)]
    form: FormOfFiles,
    /// Write over files that say something else.
    #[arg(long)]
    force: bool,
    #[command(flatten)]
    telling: Telling,
}

#[derive(Debug, Args)]
pub(super) struct ImportArguments {
    /// The folder that `formulas`, `menus`, `goods` and `pictures` are in, as `book export` writes it.
    folder: PathBuf,
    /// Write over formulas that say something else, and put other pictures in the place of those
    /// of the same name.
    #[arg(long)]
    force: bool,
    #[command(flatten)]
    telling: Telling,
}

pub(super) fn run(data: &Data, command: BookCommand) -> Result<(), Failure> {
    match command {
        BookCommand::Export(arguments) => export(data, &arguments),
        BookCommand::Import(arguments) => import(data, &arguments),
    }
}

fn made(folder: &Path) -> Result<(), Failure> {
    std::fs::create_dir_all(folder).map_err(|error| {
        failed!(
            "folder-cannot-be-made",
            path = folder.display().to_string(),
            why = &error,
        )
    })
}

fn write(data: &Data, path: &Path, bytes: &[u8]) -> Result<(), Failure> {
    written::to_file(data, "FOLDER", path, true, |file| file.write_all(bytes))
}

fn export(data: &Data, arguments: &ExportArguments) -> Result<(), Failure> {
    let form = match arguments.form {
        FormOfFiles::Toml => Form::Toml,
        FormOfFiles::Csv => Form::Csv,
    };
    let asked = data.existing_or_empty()?;
    let files = book_as_files(data.folder()?.path(), &asked.store, form)?;
    if files.is_empty() {
        // A folder that was mistyped holds no formulas either.
        data.existing()?;
        return Err(bad_input!("book-nothing"));
    }
    let mut changed = Vec::new();
    for file in &files {
        let path = arguments.folder.join(&file.place);
        let there = std::fs::read(&path).ok();
        if there.as_deref() == Some(file.bytes.as_slice()) {
            continue;
        }
        if there.is_some() && !arguments.force {
            return Err(written::already_there("FOLDER", &path));
        }
        changed.push((path, file));
    }
    for (path, file) in &changed {
        if let Some(folder) = path.parent() {
            made(folder)?;
        }
        write(data, path, &file.bytes)?;
    }
    let others = others(
        &arguments.folder,
        &files.iter().map(|f| f.place.clone()).collect::<Vec<_>>(),
    );
    let language = data.language;
    let mut lines = vec![say!(
        language,
        "book-written",
        written = changed.len().to_string(),
        all = files.len().to_string(),
        path = arguments.folder.display().to_string()
    )];
    for other in &others {
        let path = other.display().to_string();
        lines.push(say!(language, "book-not-of-it", path = path));
    }
    arguments.telling.tell(
        &lines.join("\n"),
        &json!({
            "files": files.iter().map(|file| file.place.display().to_string()).collect::<Vec<_>>(),
            "written": changed.len(),
            "not_of_the_book": others.iter().map(|it| it.display().to_string()).collect::<Vec<_>>(),
        }),
    )
}

/// Files in the book's folders that were not written by this.
fn others(folder: &Path, places: &[PathBuf]) -> Vec<PathBuf> {
    let mut found = Vec::new();
    for part in ["formulas", "menus", "goods", "pictures"] {
        let Ok(entries) = std::fs::read_dir(folder.join(part)) else {
            continue;
        };
        for entry in entries.flatten() {
            let place = Path::new(part).join(entry.file_name());
            let ours = place
                .extension()
                .is_some_and(|ending| ending == "toml" || ending == "csv" || ending == "jpg");
            if ours && !places.contains(&place) {
                found.push(folder.join(place));
            }
        }
    }
    found.sort();
    found
}

const fn against(against: Against) -> &'static str {
    match against {
        Against::New => "new",
        Against::Changes => "changed",
        Against::AsItIs => "as it was",
    }
}

/// The word of a message for it.
const fn against_code(against: Against) -> &'static str {
    match against {
        Against::New => "new",
        Against::Changes => "changed",
        Against::AsItIs => "same",
    }
}

fn import(data: &Data, arguments: &ImportArguments) -> Result<(), Failure> {
    let mut store = data.store()?;
    let book = data.folder()?;
    let read = read_book(&arguments.folder, book.path(), &store, &TimeZone::system())?;
    let differs = read
        .formulas
        .iter()
        .find(|formula| formula.against == Against::Changes);
    if let (Some(differs), false) = (differs, arguments.force) {
        return Err(bad_input!(
            "book-differs",
            path = differs.from.display().to_string(),
            name = format!("{:?}", differs.name),
        ));
    }
    let other_pictures = read
        .pictures
        .iter()
        .find(|pictures| pictures.against == Against::Changes);
    if let (Some(differs), false) = (other_pictures, arguments.force) {
        return Err(bad_input!(
            "book-other-pictures",
            path = differs.from.display().to_string(),
            of = format!("{:?}", differs.of),
        ));
    }
    let language = data.language;
    let now = Timestamp::now();
    let mut lines = Vec::new();
    for formula in &read.formulas {
        if formula.against != Against::AsItIs {
            if let Some(folder) = formula.to.parent() {
                made(folder)?;
            }
            write(data, &formula.to, formula.text.as_bytes())?;
        }
        lines.push(say!(
            language,
            "book-formula-is",
            name = formula.name.as_str(),
            against = against_code(formula.against)
        ));
    }
    for menu in &read.menus {
        if menu.against != Against::AsItIs {
            store.keep_menu(menu.day, &menu.text, now)?;
        }
        let file = menu.from.file_stem().unwrap_or_default().to_string_lossy();
        lines.push(say!(
            language,
            "book-menu-is",
            name = file,
            against = against_code(menu.against)
        ));
    }
    if let Some(goods) = &read.goods {
        if goods.against != Against::AsItIs {
            store.keep_goods(&goods.text, now)?;
        }
        lines.push(say!(
            language,
            "book-goods-are",
            count = goods.goods,
            against = against_code(goods.against)
        ));
    }
    for pictures in &read.pictures {
        if pictures.against != Against::AsItIs {
            store.put_pictures(&picture_key(&pictures.of), &pictures.pictures, now)?;
        }
        lines.push(say!(
            language,
            "book-pictures-are",
            name = pictures.of.as_str(),
            against = against_code(pictures.against)
        ));
    }
    for path in &read.not_named {
        let path = path.display().to_string();
        lines.push(say!(language, "book-not-named", path = path));
    }
    arguments.telling.tell(
        &lines.join("\n"),
        &json!({
            "formulas": read.formulas.iter().map(|it| json!({
                "formula": it.name,
                "file": it.from.display().to_string(),
                "is": against(it.against),
            })).collect::<Vec<_>>(),
            "menus": read.menus.iter().map(|it| json!({
                "for": it.day,
                "file": it.from.display().to_string(),
                "is": against(it.against),
            })).collect::<Vec<_>>(),
            "goods": read.goods.as_ref().map(|it| json!({
                "file": it.from.display().to_string(),
                "count": it.goods,
                "is": against(it.against),
            })),
            "pictures": read.pictures.iter().map(|it| json!({
                "of": it.of,
                "file": it.from.display().to_string(),
                "count": it.pictures.len(),
                "is": against(it.against),
            })).collect::<Vec<_>>(),
            "not_named": read.not_named.iter().map(|it| it.display().to_string()).collect::<Vec<_>>(),
        }),
    )
}
