//! The `evenhand` program.
#![forbid(unsafe_code)]

use std::process::ExitCode;

fn main() -> ExitCode {
    evenhand::cli::run(std::env::args_os())
}
