//! `evenhand ports`.

use super::Failure;
use super::output::Telling;
use clap::Args;
use evenhand_link::SerialDial;
use serde_json::json;

#[derive(Debug, Args)]
pub(super) struct PortsArguments {
    #[command(flatten)]
    telling: Telling,
}

pub(super) fn run(arguments: &PortsArguments) -> Result<(), Failure> {
    let ports = SerialDial::list();
    if ports.is_empty() {
        eprintln!("evenhand: this computer has no serial port now; plug the scale in");
    }
    for port in ports {
        arguments.telling.tell(&port, &json!({ "port": port }))?;
    }
    Ok(())
}
