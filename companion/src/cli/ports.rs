//! `evenhand ports`.

use super::{Failure, output};
use crate::link::SerialDial;

pub(super) fn run() -> Result<(), Failure> {
    let ports = SerialDial::list();
    if ports.is_empty() {
        eprintln!("evenhand: this computer has no serial port now; plug the scale in");
    }
    for port in ports {
        output::line(&port)?;
    }
    Ok(())
}
