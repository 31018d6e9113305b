//! An instrument at a serial port.

use super::line::{Dial, Line, LineEnd};
use crate::live::LinkState;
use serialport::{ClearBuffer, ErrorKind, SerialPort};
use std::io;
use std::time::Duration;

/// The speed where a port has one; a USB serial port ignores it.
const BAUD: u32 = 115_200;

/// A serial port by its path or name.
#[derive(Debug, Clone)]
pub struct SerialDial {
    port: String,
}

impl SerialDial {
    /// The port of that path (`/dev/ttyACM0`) or name (`COM7`).
    #[must_use]
    pub fn new(port: impl Into<String>) -> Self {
        Self { port: port.into() }
    }

    /// The ports that this computer has now, USB ones first.
    #[must_use]
    pub fn list() -> Vec<String> {
        let mut ports = serialport::available_ports().unwrap_or_default();
        ports.sort_by_key(|port| {
            let usb = matches!(port.port_type, serialport::SerialPortType::UsbPort(_));
            (!usb, port.port_name.clone())
        });
        ports.into_iter().map(|port| port.port_name).collect()
    }
}

impl Dial for SerialDial {
    fn place(&self) -> &str {
        &self.port
    }

    fn dial(&mut self) -> Result<Box<dyn Line>, LinkState> {
        let port = open(&self.port).map_err(|error| trouble(&self.port, &error))?;
        // What piled up before is of no use; a port that cannot be cleared
        // gives it as noise.
        let _ = port.clear(ClearBuffer::All);
        Ok(Box::new(SerialLine {
            port,
            patience: Duration::ZERO,
        }))
    }
}

#[cfg(unix)]
fn open(path: &str) -> serialport::Result<Box<dyn SerialPort>> {
    let mut port = serialport::new(path, BAUD)
        .timeout(Duration::from_millis(50))
        .open_native()?;
    // The lock on the file, which opening took, keeps a second program off. The
    // terminal's own exclusive mode outlives a program that is killed where
    // the terminal does, as a pseudo-terminal does, and would lock us out.
    port.set_exclusive(false)?;
    Ok(Box::new(port))
}

#[cfg(not(unix))]
fn open(path: &str) -> serialport::Result<Box<dyn SerialPort>> {
    serialport::new(path, BAUD)
        .timeout(Duration::from_millis(50))
        .open()
}

fn trouble(port: &str, error: &serialport::Error) -> LinkState {
    let port = port.to_owned();
    match error.kind() {
        ErrorKind::Io(io::ErrorKind::NotFound) => LinkState::NoPort { port },
        ErrorKind::Io(io::ErrorKind::PermissionDenied) => LinkState::NotAllowed { port },
        ErrorKind::Io(io::ErrorKind::ResourceBusy | io::ErrorKind::WouldBlock) => {
            LinkState::Busy { port }
        }
        ErrorKind::NoDevice if std::path::Path::new(&port).exists() => {
            // The library reports a port that is locked as one that is not there.
            LinkState::Busy { port }
        }
        ErrorKind::NoDevice => LinkState::NoPort { port },
        _ => {
            // The system's words for a file that is no terminal at all.
            let why = match error.to_string() {
                words if words.starts_with("Not a typewriter") => "it is no serial port".to_owned(),
                words if words.contains("Inappropriate ioctl") => "it is no serial port".to_owned(),
                words => words.trim_end_matches('.').to_owned(),
            };
            LinkState::PortFailed { port, why }
        }
    }
}

struct SerialLine {
    port: Box<dyn SerialPort>,
    patience: Duration,
}

impl Line for SerialLine {
    fn read(&mut self, buffer: &mut [u8], patience: Duration) -> Result<usize, LineEnd> {
        if self.patience != patience {
            self.port.set_timeout(patience).map_err(|_| LineEnd::Gone)?;
            self.patience = patience;
        }
        match self.port.read(buffer) {
            Ok(0) => Err(LineEnd::Gone),
            Ok(count) => Ok(count),
            Err(error) if later(&error) => Ok(0),
            Err(_) => Err(LineEnd::Gone),
        }
    }

    fn write(&mut self, bytes: &[u8]) -> Result<(), LineEnd> {
        match self.port.write_all(bytes) {
            Ok(()) => Ok(()),
            Err(error) if later(&error) => Ok(()),
            Err(_) => Err(LineEnd::Gone),
        }
    }
}

/// Whether an error only says that nothing can be done right now.
fn later(error: &io::Error) -> bool {
    matches!(
        error.kind(),
        io::ErrorKind::TimedOut | io::ErrorKind::WouldBlock | io::ErrorKind::Interrupted
    )
}
