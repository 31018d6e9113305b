//! The command line: one file a command, over the same library as the screens.
//!
//! Exit status: 0 done, and where something was judged, within its limit; 2 bad
//! input; 3 judged and over its limit, or not ready; 4 judged and not to be said
//! to be within (not finished, too close, the record does not tell); 1 anything
//! else. What was asked for goes
//! to standard output, everything else to standard error, errors as a sentence
//! that says what to do. With `--json` an error is followed by a line for machines,
//! the same in every language: `{"error":{"code":"unknown-tin","fields":{"tin":"12"}}}`.
#![forbid(unsafe_code)]

mod amounts;
mod argument_error;
mod batch;
mod book;
mod book_error;
mod brine;
mod cure;
mod demo;
mod dish;
mod doubt;
mod dough;
mod export;
mod failure;
mod fields;
mod figures;
mod formula;
mod gather;
mod handover;
mod heat;
mod import;
mod input;
mod keeping;
mod lot;
mod output;
mod period;
mod place;
mod portion;
mod ports;
mod prep;
mod scale;
mod scale_error;
mod screens;
mod service;
mod shown;
mod simulate;
mod spread;
mod spread_table;
mod status_line;
mod store_error;
mod strike;
mod tin;
mod uptake;
mod vessel;
mod words;
mod written;
mod yields;

use clap::{CommandFactory, Parser, Subcommand};
use evenhand_kitchen::units::for_terminal;
use evenhand_link::Endpoint;
use evenhand_store::{DataFolder, Store};
use evenhand_words::Language;
pub(crate) use failure::Failure;
pub use screens::{NoScreens, NotShown, Opening, Screens};
use std::ffi::OsString;
use std::io::Write as _;
use std::path::PathBuf;
use std::process::ExitCode;
use words::{bad_input, failed, say};

/// A bench scale's desktop: portions to an exact weight, kept and told.
#[derive(Debug, Parser)]
#[command(name = "evenhand", version)]
struct Arguments {
    /// Keep everything in this folder instead of the platform's own.
    #[arg(long, global = true, value_name = "DIR", env = "EVENHAND_DATA")]
    data: Option<PathBuf>,
    /// Speak this language: en, es or fr. Without it, screens open in the one chosen on them;
    /// else the system's is spoken, and English where that is none of these.
    #[arg(long, global = true, value_name = "LANGUAGE")]
    language: Option<Language>,
    #[command(flatten)]
    place: place::PlaceArguments,
    #[command(subcommand)]
    command: Option<Command>,
}

#[derive(Debug, Subcommand)]
enum Command {
    /// Portion without a screen, until the count, the scenario's end or Ctrl-C.
    Portion(Box<portion::PortionArguments>),
    /// How even the portions are, and what was given away.
    Spread(spread::SpreadArguments),
    /// Write every portion on record to a file.
    Export(export::ExportArguments),
    /// Bring in earlier weighings from a table: all of them or none, and none twice.
    Import(import::ImportArguments),
    /// Copy the store to a file, and read the copy back.
    Backup(keeping::BackupArguments),
    /// Put a copy back in the store's place, and set aside what was there.
    Restore(keeping::RestoreArguments),
    /// Read every row of the store: nothing missing, nothing changed, or exactly what.
    Check(keeping::CheckArguments),
    /// Several desktops, one record: tell the others through a shared folder, and take what they
    /// told, each once.
    Gather(gather::GatherArguments),
    /// The dishes.
    #[command(subcommand)]
    Dish(dish::DishCommand),
    /// The tins and batches that dishes are portioned from.
    #[command(subcommand)]
    Tin(tin::TinCommand),
    /// Services: their orders, and how even each dish was.
    #[command(subcommand)]
    Service(service::ServiceCommand),
    /// What became of a tin, fish or cut: lost by name, portioned, left.
    #[command(subcommand)]
    Yield(yields::YieldCommand),
    /// Strike a portion out, or let it count again.
    Strike(strike::StrikeArguments),
    /// Undo the portion made last.
    Undo(strike::UndoArguments),
    /// Batches of anything mixed or cured: what was weighed, what is due, how it came out.
    #[command(subcommand)]
    Batch(Box<batch::BatchCommand>),
    /// Strengths of brine, what to weigh for one, putting one right, telling one by weight.
    #[command(subcommand)]
    Brine(brine::BrineCommand),
    /// The kitchen's own book of formulas: what to weigh, and what good batches share.
    #[command(subcommand)]
    Formula(formula::FormulaCommand),
    /// The whole book, formulas and menus, as a folder of plain files for version control.
    #[command(subcommand)]
    Book(book::BookCommand),
    /// How warm a dough is mixed, and the water for it.
    #[command(subcommand)]
    Dough(Box<dough::DoughCommand>),
    /// Curing agents: ingoing nitrite against its limit, and the dose.
    #[command(subcommand)]
    Cure(Box<cure::CureCommand>),
    /// Logs of temperature: kept, against a limit, and when they reach a band.
    #[command(subcommand)]
    Heat(Box<heat::HeatCommand>),
    /// Lots: one food through all its steps, each hold against its limit, on one sheet.
    #[command(subcommand)]
    Lot(lot::LotCommand),
    /// The prep clock: a menu worked backward from service.
    #[command(subcommand)]
    Prep(Box<prep::PrepCommand>),
    /// The scale itself: calibrate it, try it with a known weight, what was found before.
    #[command(subcommand)]
    Scale(scale::ScaleCommand),
    /// Serve the simulated bench on a pseudo-terminal.
    Simulate(simulate::SimulateArguments),
    /// A made-up night to look at, in a folder of its own.
    Demo(demo::DemoArguments),
    /// The serial ports that a scale may be on.
    Ports(ports::PortsArguments),
}

/// Where the store is, opened when it is first needed.
#[derive(Debug, Clone)]
struct Data {
    /// What was said, by `--data` or the environment.
    asked: Option<PathBuf>,
    /// Whether what is kept comes from a simulated scale.
    simulated: bool,
    /// The language of whoever asks.
    language: Language,
}

/// A store that is only asked.
struct Asked {
    // Closed before its folder is removed: fields are dropped in this order.
    store: Store,
    _empty: Option<tempfile::TempDir>,
}

impl From<Store> for Asked {
    fn from(store: Store) -> Self {
        Self {
            store,
            _empty: None,
        }
    }
}

impl Data {
    const fn new(asked: Option<PathBuf>, language: Language) -> Self {
        Self {
            asked,
            simulated: false,
            language,
        }
    }

    /// For a scale there: what a simulated one makes never goes to the
    /// kitchen's own record, unless `--data` says where.
    fn of_scale(&self, place: &Endpoint) -> Self {
        Self {
            simulated: matches!(place, Endpoint::Simulated { .. }),
            ..self.clone()
        }
    }

    fn folder(&self) -> Result<DataFolder, Failure> {
        let asked = self.asked.as_deref();
        Ok(if self.simulated {
            DataFolder::choose_for_simulated(asked)?
        } else {
            DataFolder::choose(asked)?
        })
    }

    /// The store, made where there is none.
    fn store(&self) -> Result<Store, Failure> {
        Ok(Store::open(&self.folder()?)?)
    }

    /// The store, to read what is on record: in a folder that was named there
    /// must be one, else the name was mistyped.
    fn existing(&self) -> Result<Store, Failure> {
        match self.asked {
            Some(_) => Ok(Store::open_existing(&self.folder()?)?),
            None => self.store(),
        }
    }

    /// The store, for a question that can be asked before anything is on
    /// record: where there is none, an empty one that is gone with the answer.
    fn existing_or_empty(&self) -> Result<Asked, Failure> {
        let folder = self.folder()?;
        if folder.has_store() {
            return Ok(Store::open_existing(&folder)?.into());
        }
        if self.asked.is_some() {
            let there = for_terminal(&folder.path().display().to_string());
            eprintln!(
                "{}",
                say!(self.language, "answered-as-empty", folder = there)
            );
        }
        let empty =
            tempfile::tempdir().map_err(|error| bad_input!("no-passing-folder", why = &error))?;
        Ok(Asked {
            store: Store::open(&DataFolder::choose(Some(empty.path()))?)?,
            _empty: Some(empty),
        })
    }

    /// Says where a simulated scale's portions go.
    fn tell_simulated(&self) -> Result<(), Failure> {
        if self.simulated {
            let folder = self.folder()?.path().display().to_string();
            eprintln!(
                "{}",
                say!(self.language, "scale-simulated", folder = folder)
            );
        }
        Ok(())
    }
}

/// The command line as it is described to `clap`: what manual pages and completions are
/// made from.
#[must_use]
pub fn command() -> clap::Command {
    Arguments::command()
}

/// Runs the program on its arguments; `screens` opens the desktop app.
pub fn run(arguments: impl IntoIterator<Item = OsString>, screens: &dyn Screens) -> ExitCode {
    let arguments: Vec<OsString> = arguments.into_iter().collect();
    let for_machines = arguments.iter().any(|argument| argument == "--json");
    let arguments = match Arguments::try_parse_from(&arguments) {
        Ok(arguments) => arguments,
        Err(error) => {
            let language = words::spoken(argument_error::language(&arguments));
            // Help and version are no errors and go to standard output.
            if language.is_english() || !error.use_stderr() {
                let _ = error.print();
            } else {
                let words = argument_error::words(language, &error);
                eprintln!("evenhand: {}", for_terminal(&words));
            }
            if for_machines && error.use_stderr() {
                let error = argument_error::said(&error).fields();
                eprintln!("{}", serde_json::json!({ "error": error }));
            }
            return ExitCode::from(u8::try_from(error.exit_code()).unwrap_or(2));
        }
    };
    let language = words::spoken(arguments.language);
    match dispatch(arguments, language, screens) {
        Ok(()) => ExitCode::SUCCESS,
        // Whoever read the output has gone: nothing is left to say to them.
        Err(Failure::OutputClosed) => ExitCode::SUCCESS,
        Err(failure) => {
            // Whoever read this may have gone too.
            let mut told = std::io::stderr().lock();
            let words = for_terminal(&failure.in_words(language));
            let _ = writeln!(told, "evenhand: {words}");
            if for_machines {
                let _ = writeln!(told, "{}", failure.fields());
            }
            failure.exit_code()
        }
    }
}

fn dispatch(
    arguments: Arguments,
    language: Language,
    screens: &dyn Screens,
) -> Result<(), Failure> {
    let data = Data::new(arguments.data, language);
    let asked = arguments.language;
    if arguments.command.is_some() && arguments.place.is_given() {
        return Err(bad_input!("place-belongs-after"));
    }
    match arguments.command {
        None => open_screens(screens, &data, &arguments.place, asked, false),
        Some(Command::Portion(arguments)) => portion::run(&data, screens, &arguments),
        Some(Command::Spread(arguments)) => spread::run(&data, &arguments),
        Some(Command::Export(arguments)) => export::run(&data, &arguments),
        Some(Command::Import(arguments)) => import::run(&data, &arguments),
        Some(Command::Backup(arguments)) => keeping::backup(&data, &arguments),
        Some(Command::Restore(arguments)) => keeping::restore(&data, &arguments),
        Some(Command::Check(arguments)) => keeping::check(&data, &arguments),
        Some(Command::Gather(arguments)) => gather::run(&data, &arguments),
        Some(Command::Dish(command)) => dish::run(&data, command),
        Some(Command::Tin(command)) => tin::run(&data, command),
        Some(Command::Service(command)) => service::run(&data, command, language),
        Some(Command::Yield(command)) => yields::run(&data, command),
        Some(Command::Strike(arguments)) => strike::run(&data, &arguments),
        Some(Command::Undo(arguments)) => strike::undo(&data, &arguments),
        Some(Command::Batch(command)) => batch::run(&data, *command, language),
        Some(Command::Brine(command)) => brine::run(&data, command, language),
        Some(Command::Formula(command)) => formula::run(&data, command, language),
        Some(Command::Book(command)) => book::run(&data, command),
        Some(Command::Dough(command)) => dough::run(&data, *command),
        Some(Command::Cure(command)) => cure::run(&data, *command),
        Some(Command::Heat(command)) => heat::run(&data, *command),
        Some(Command::Lot(command)) => lot::run(&data, command),
        Some(Command::Prep(command)) => prep::run(&data, *command, language),
        Some(Command::Scale(command)) => scale::run(&data, command),
        Some(Command::Simulate(arguments)) => simulate::run(&data, &arguments),
        Some(Command::Demo(arguments)) => match demo::run(&data, &arguments)? {
            Some(folder) => open_screens(
                screens,
                &Data::new(Some(folder.path().to_owned()), language),
                &place::PlaceArguments::default(),
                asked,
                true,
            ),
            None => Ok(()),
        },
        Some(Command::Ports(arguments)) => ports::run(&data, &arguments),
    }
}

/// Opens the screens.
fn open_screens(
    screens: &dyn Screens,
    data: &Data,
    place: &place::PlaceArguments,
    language: Option<Language>,
    at_review: bool,
) -> Result<(), Failure> {
    let made = || place::scenario("--scenario", "saltmarsh-shrimp-taking");
    let data = place.data(data);
    let place = place.place(made)?;
    data.tell_simulated()?;
    screens
        .open(Opening {
            folder: data.folder()?,
            place,
            language,
            at_review,
        })
        .map_err(|why| match why {
            NotShown::NoScreens => failed!("no-screens"),
            NotShown::Failed(why) => Failure::Other(why),
        })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_arguments_are_put_together_soundly() {
        Arguments::command().debug_assert();
    }

    /// Commands without `--json`, and why.
    const WITHOUT_JSON: &[(&str, &str)] = &[
        ("evenhand export", "its --format says csv or json"),
        ("evenhand simulate", "serves a port until it is stopped"),
    ];

    fn without_json(command: &clap::Command, path: &str, found: &mut Vec<String>) {
        let path = format!("{path} {}", command.get_name());
        for below in command.get_subcommands() {
            without_json(below, &path, found);
        }
        let json = command
            .get_arguments()
            .any(|argument| argument.get_long() == Some("json"));
        if !command.has_subcommands() && !json {
            found.push(path.trim().to_owned());
        }
    }

    #[test]
    fn every_command_tells_machines_what_it_tells_people() {
        let mut found = Vec::new();
        without_json(&Arguments::command(), "", &mut found);
        let mut reasoned: Vec<_> = WITHOUT_JSON.iter().map(|(path, _)| *path).collect();
        found.sort_unstable();
        reasoned.sort_unstable();
        assert_eq!(found, reasoned);
    }
}
