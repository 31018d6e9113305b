//! `evenhand ports`.

use super::output::Telling;
use super::words::say;
use super::{Data, Failure};
use clap::Args;
use evenhand_link::SerialDial;
use serde_json::json;

#[derive(Debug, Args)]
pub(super) struct PortsArguments {
    #[command(flatten)]
    telling: Telling,
}

pub(super) fn run(data: &Data, arguments: &PortsArguments) -> Result<(), Failure> {
    let ports = SerialDial::list();
    if ports.is_empty() {
        eprintln!("evenhand: {}", say!(data.language, "no-serial-port"));
    }
    for port in ports {
        arguments.telling.tell(&port, &json!({ "port": port }))?;
    }
    Ok(())
}
