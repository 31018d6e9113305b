//! What the screens of menus ask of the record and of files, answered beside the thread that
//! draws.

use super::MenusRefusal;
use crate::worker;
use evenhand_kitchen::dish::DishName;
use evenhand_kitchen::prep::{Board, Happened, WrittenMenu};
use evenhand_store::Store;
use evenhand_use_cases::limits;
use evenhand_use_cases::plain_files::write_whole;
use evenhand_use_cases::prep::{
    KeptMenu, Label, MENUS, MadeFor, MenuOnRecord, MenuToKeep, PrepError, menu_and_text_of_file,
    menu_files, menu_name, menus, service_day,
};
use evenhand_words::Language;
use jiff::Timestamp;
use jiff::civil::Date;
use jiff::tz::TimeZone;
use std::io;
use std::path::{Path, PathBuf};

/// Something asked.
#[derive(Debug)]
pub(super) enum Question {
    /// The menus on record, and what else is known by name.
    List(Timestamp),
    /// The menu in force on a day, to be copied.
    Copy(Date),
    /// Keep a menu, for one day alone or for every day.
    /// A menu keeps the remarks of the text that it was made from.
    Keep(Option<Date>, Box<WrittenMenu>, String, Timestamp),
    /// The files to bring one in from.
    Files,
    /// Read one of them.
    Import(PathBuf),
    /// Write a menu into the folder, in both forms.
    Export(Option<Date>, Box<WrittenMenu>),
    /// What is made in batches for the service of a day, or for the next one.
    Labels(Option<Date>, Timestamp),
    /// What was left of the batch for a day, by its last step, is gone.
    Gone(Date, String, Timestamp),
    /// So many portions of a dish were left by the service of a day.
    Left(Date, String, u32, Timestamp),
    /// Write the labels of one as PDF, or one label as PNG.
    Print(Box<Label>, Paper, Language),
}

/// What labels are written on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Paper {
    /// So many pages.
    Pdf(u32),
    /// One picture.
    Png,
}

impl worker::Question for Question {
    fn changes(&self) -> bool {
        matches!(
            self,
            Self::Keep(..) | Self::Export(..) | Self::Print(..) | Self::Gone(..) | Self::Left(..)
        )
    }
}

/// What is on record.
#[derive(Debug)]
pub(super) struct OnRecord {
    pub(super) today: Date,
    pub(super) menus: Vec<MenuOnRecord>,
    /// The names of heat logs.
    pub(super) logs: Vec<String>,
    /// The names of dishes.
    pub(super) dishes: Vec<String>,
}

/// An answer.
#[derive(Debug)]
pub(super) enum Answer {
    List(OnRecord),
    Copy(Box<WrittenMenu>, String),
    Kept(KeptMenu, Box<WrittenMenu>, String),
    Files(Vec<PathBuf>),
    Imported(PathBuf, Box<WrittenMenu>, String),
    Written(Vec<PathBuf>),
    Labels(Date, Vec<Label>),
    /// What was told of a batch is on record.
    Told,
}

/// The thread that answers.
pub(super) type Worker = worker::Worker<Question, Result<Answer, MenusRefusal>>;

/// Starts the thread. `changed` is called, from it, after each answer.
pub(super) fn start(
    mut store: Store,
    zone: TimeZone,
    changed: impl Fn() + Send + 'static,
) -> io::Result<Worker> {
    let answers = move |question| answer(&mut store, &zone, question);
    Worker::start("evenhand-menus", answers, changed)
}

fn answer(store: &mut Store, zone: &TimeZone, question: Question) -> Result<Answer, MenusRefusal> {
    Ok(match question {
        Question::List(now) => {
            let today = store.service_calendar(zone.clone())?.day_of(now);
            Answer::List(OnRecord {
                menus: menus(store, today)?,
                logs: store
                    .heat_logs()?
                    .iter()
                    .map(|log| log.name.to_string())
                    .collect(),
                dishes: store
                    .dishes_in_use()?
                    .iter()
                    .map(|dish| dish.name.to_string())
                    .collect(),
                today,
            })
        }
        Question::Copy(day) => {
            let text = store.menu(day)?.ok_or(PrepError::NoMenu(day))?;
            let menu = WrittenMenu::from_toml(&text);
            let menu = menu.map_err(|error| PrepError::Menu { day, error })?;
            Answer::Copy(Box::new(menu), text)
        }
        Question::Keep(day, menu, before, now) => {
            let today = store.service_calendar(zone.clone())?.day_of(now);
            let refused = |words: &dyn std::fmt::Display| MenusRefusal::Menu(words.to_string());
            let text = menu
                .to_toml_like(&before)
                .map_err(|error| refused(&error))?;
            let checked = MenuToKeep::new(day, text.clone(), today, zone);
            let checked = checked.map_err(|error| refused(&error))?;
            Answer::Kept(checked.keep(store, now, zone)?, menu, text)
        }
        Question::Files => Answer::Files(menu_files(folder_of(store)).map_err(MenusRefusal::File)?),
        Question::Import(path) => {
            let (menu, text) = menu_and_text_of_file(&path).map_err(MenusRefusal::File)?;
            Answer::Imported(path, Box::new(menu), text)
        }
        Question::Export(day, menu) => Answer::Written(export(folder_of(store), day, &menu)?),
        Question::Labels(day, now) => {
            let day = match day {
                Some(day) => day,
                None => service_day(store, now, zone)?,
            };
            Answer::Labels(day, labels(store, zone, day, now)?)
        }
        Question::Gone(day, last_step, now) => {
            store.tell_step(day, &last_step, now, Happened::Gone, now)?;
            Answer::Told
        }
        Question::Left(day, dish, portions, now) => {
            let dish = DishName::new("dish", &dish)
                .map_err(|error| MenusRefusal::Made(error.to_string()))?;
            store.note_left_over(day, &dish, portions, now)?;
            Answer::Told
        }
        Question::Print(label, paper, language) => {
            let folder = folder_of(store);
            let not_written =
                |why: &dyn std::fmt::Display| MenusRefusal::NotWritten(why.to_string());
            let (bytes, ending) = match paper {
                Paper::Pdf(tubs) => (label.pdf(language, tubs, zone), "pdf"),
                Paper::Png => (label.png(language, zone), "png"),
            };
            let bytes = bytes.map_err(|why| not_written(&why))?;
            let path = folder.join(format!("{}.{ending}", label.file_stem()));
            write_whole(&path, &bytes).map_err(|why| not_written(&why))?;
            Answer::Written(vec![path])
        }
    })
}

/// Where what is kept beside the store lies.
fn folder_of(store: &Store) -> &Path {
    store.path().parent().unwrap_or_else(|| Path::new(""))
}

fn export(
    data: &Path,
    day: Option<Date>,
    menu: &WrittenMenu,
) -> Result<Vec<PathBuf>, MenusRefusal> {
    let not_written = |why: &dyn std::fmt::Display| MenusRefusal::NotWritten(why.to_string());
    let stem = menu_name(day, menu).map_err(|why| not_written(&why))?;
    let mut written = Vec::new();
    for (ending, text) in [("toml", menu.to_toml()), ("csv", menu.to_csv())] {
        let text = text.map_err(|why| not_written(&why))?;
        let path = data.join(MENUS).join(format!("{stem}.{ending}"));
        write_whole(&path, text.as_bytes()).map_err(|why| not_written(&why))?;
        written.push(path);
    }
    Ok(written)
}

/// What is made in batches for a service, by the menu of its day.
fn labels(
    store: &Store,
    zone: &TimeZone,
    day: Date,
    now: Timestamp,
) -> Result<Vec<Label>, MenusRefusal> {
    let Some(menu) = store.menu(day)? else {
        return Ok(Vec::new());
    };
    let board = Board::from_menu(&menu, day, zone.clone())
        .map_err(|error| PrepError::Menu { day, error })?;
    let limits = limits::in_force(folder_of(store)).map_err(MenusRefusal::Limits)?;
    let mut labels = Vec::new();
    for (name, _) in board.batches() {
        let made = MadeFor::of(store, day, name, now, zone)?;
        labels.push(Label::of(made, &limits, now, zone));
    }
    Ok(labels)
}
