//! Writes the manual pages and the shells' completions of the command line, as its arguments
//! are, into a folder: `cargo run -p evenhand-cli --example manual -- FOLDER`.
#![forbid(unsafe_code)]

use clap_complete::Shell;
use std::ffi::OsString;
use std::path::PathBuf;
use std::process::ExitCode;

const SHELLS: [Shell; 3] = [Shell::Bash, Shell::Zsh, Shell::Fish];

fn main() -> ExitCode {
    let mut arguments = std::env::args_os().skip(1);
    let (Some(folder), None) = (arguments.next(), arguments.next()) else {
        eprintln!("usage: manual FOLDER");
        return ExitCode::from(2);
    };
    match write(folder) {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("manual: {error}");
            ExitCode::FAILURE
        }
    }
}

fn write(folder: OsString) -> std::io::Result<()> {
    let folder = PathBuf::from(folder);
    std::fs::create_dir_all(&folder)?;
    let mut command = evenhand_cli::command().disable_help_subcommand(true);
    for shell in SHELLS {
        clap_complete::generate_to(shell, &mut command, "evenhand", &folder)?;
    }
    clap_mangen::generate_to(command, &folder)
}
