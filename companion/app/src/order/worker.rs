//! What the screens of what to order ask of the record and of files, answered beside the thread
//! that draws.

use super::OrderRefusal;
use crate::worker;
use evenhand_kitchen::portion::StrikeReason;
use evenhand_kitchen::prep::{GoodsList, GoodsTold, WrittenMenu};
use evenhand_store::Store;
use evenhand_use_cases::limits;
use evenhand_use_cases::plain_files::write_whole;
use evenhand_use_cases::prep::{
    OrderError, OrderQuestion, OrderSheet, Remedies, goods_files, goods_of_file, order_pdf,
};
use evenhand_words::Language;
use jiff::Timestamp;
use jiff::tz::TimeZone;
use std::io;
use std::path::{Path, PathBuf};

/// For how many days what comes without delivery days is to last: as on the command line.
const DAYS: i32 = 1;

/// Something asked.
#[derive(Debug)]
pub(super) enum Question {
    /// What to order now, in words of a language.
    Sheet(Timestamp, Language),
    /// Put down what was told of goods.
    Tell(Vec<(String, GoodsTold)>, Timestamp),
    /// Take orders back with a reason, or put them back where there is none.
    Turn(Vec<u32>, Option<StrikeReason>, Timestamp),
    /// The list of goods on record, and what else is known by name.
    Goods(Timestamp),
    /// Keep a list.
    Keep(String, Timestamp),
    /// The files to bring one in from.
    Files,
    /// Read one of them.
    Import(PathBuf),
    /// Write the sheet as PDF.
    Print(Box<OrderSheet>, Language),
}

impl worker::Question for Question {
    fn changes(&self) -> bool {
        matches!(
            self,
            Self::Tell(..) | Self::Turn(..) | Self::Keep(..) | Self::Print(..)
        )
    }
}

/// What is known by name, to be chosen instead of typed.
#[derive(Debug, Default)]
pub(super) struct Known {
    pub(super) dishes: Vec<String>,
    pub(super) preparations: Vec<String>,
}

/// An answer.
#[derive(Debug)]
pub(super) enum Answer {
    Sheet(Result<OrderSheet, OrderError>),
    Told,
    Goods(Option<(GoodsList, String)>, Known),
    Kept,
    Files(Vec<PathBuf>),
    Imported(PathBuf, GoodsList, String),
    Printed(PathBuf),
}

/// The thread that answers.
pub(super) type Worker = worker::Worker<Question, Result<Answer, OrderRefusal>>;

/// Starts the thread. `changed` is called, from it, after each answer.
pub(super) fn start(
    mut store: Store,
    zone: TimeZone,
    changed: impl Fn() + Send + 'static,
) -> io::Result<Worker> {
    let answers = move |question| answer(&mut store, &zone, question);
    Worker::start("evenhand-order", answers, changed)
}

fn answer(store: &mut Store, zone: &TimeZone, question: Question) -> Result<Answer, OrderRefusal> {
    Ok(match question {
        Question::Sheet(now, language) => {
            let limits = limits::in_force(folder_of(store)).map_err(OrderRefusal::Limits)?;
            let question = OrderQuestion {
                supplier: None,
                days: DAYS,
                now,
                zone,
                language,
            };
            Answer::Sheet(OrderSheet::of(store, &question, &limits))
        }
        Question::Tell(all, now) => {
            for (goods, told) in all {
                store.tell_goods(&goods, now, told, now)?;
            }
            Answer::Told
        }
        Question::Turn(numbers, reason, now) => {
            match reason {
                Some(reason) => store.take_back_orders(&numbers, &reason, now)?,
                None => store.put_orders_back(&numbers, now)?,
            }
            Answer::Told
        }
        Question::Goods(now) => {
            let today = store.service_calendar(zone.clone())?.day_of(now);
            let menu = store.menu(today)?;
            let menu = menu.and_then(|text| WrittenMenu::from_toml(&text).ok());
            let known = Known {
                dishes: store
                    .dishes_in_use()?
                    .iter()
                    .map(|dish| dish.name.to_string())
                    .collect(),
                preparations: menu.map_or_else(Vec::new, |menu| {
                    let draft = evenhand_kitchen::prep::MenuDraft::of(&menu);
                    draft.preparations().map(str::to_owned).collect()
                }),
            };
            let list = match store.goods()? {
                Some(text) => {
                    let list = GoodsList::from_toml(&text).map_err(OrderRefusal::Goods)?;
                    Some((list, text))
                }
                None => None,
            };
            Answer::Goods(list, known)
        }
        Question::Keep(text, now) => {
            GoodsList::from_toml(&text).map_err(OrderRefusal::Goods)?;
            store.keep_goods(&text, now)?;
            Answer::Kept
        }
        Question::Files => {
            Answer::Files(goods_files(folder_of(store)).map_err(OrderRefusal::File)?)
        }
        Question::Import(path) => {
            let (list, text) = goods_of_file(&path).map_err(OrderRefusal::File)?;
            Answer::Imported(path, list, text)
        }
        Question::Print(sheet, language) => {
            let not_written =
                |why: &dyn std::fmt::Display| OrderRefusal::NotWritten(why.to_string());
            let bytes = order_pdf(language, &sheet, Remedies::InWords, zone)
                .map_err(|why| not_written(&why))?;
            let day = sheet.at.to_zoned_datetime(zone.clone()).date();
            let path = folder_of(store).join(format!("order-{day}.pdf"));
            write_whole(&path, &bytes).map_err(|why| not_written(&why))?;
            Answer::Printed(path)
        }
    })
}

/// Where what is kept beside the store lies.
fn folder_of(store: &Store) -> &Path {
    store.path().parent().unwrap_or_else(|| Path::new(""))
}
