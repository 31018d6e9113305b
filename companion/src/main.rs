//! The `evenhand` program: the command line, and the screens where they are built in.
#![forbid(unsafe_code)]

#[cfg(feature = "app")]
mod desktop;

use std::process::ExitCode;

fn main() -> ExitCode {
    #[cfg(feature = "app")]
    let screens = desktop::Desktop;
    #[cfg(not(feature = "app"))]
    let screens = evenhand_cli::NoScreens;
    evenhand_cli::run(std::env::args_os(), &screens)
}
