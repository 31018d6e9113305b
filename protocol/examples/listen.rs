//! The protocol from another program: says hello, and prints what an instrument
//! answers. Reads from standard input and writes to the file or port named.
//!
//! ```text
//! cargo run -p evenhand-protocol --example listen -- /dev/ttyACM0 < /dev/ttyACM0
//! ```
//!
//! Set the port to raw first: `stty -F /dev/ttyACM0 raw -echo`. For any other
//! language, `protocol/WIRE.md` is all there is to know.

use evenhand_protocol::frame::{self, MAX_FRAME};
use evenhand_protocol::{Command, Envelope, Reader, Report, UnixMillis, Version};
use std::fs::OpenOptions;
use std::io::{Error, Read, Write, stdin};
use std::time::{SystemTime, UNIX_EPOCH};

fn main() -> Result<(), Error> {
    let path = std::env::args()
        .nth(1)
        .ok_or_else(|| Error::other("name the port to write to, such as /dev/ttyACM0"))?;
    let mut port = OpenOptions::new().write(true).open(path)?;
    let wall = SystemTime::now()
        .duration_since(UNIX_EPOCH)
        .map_err(Error::other)?;
    let mut sequence = 1;
    let hello = Command::Hello {
        version: Version::CURRENT,
        now: UnixMillis::from_millis(i64::try_from(wall.as_millis()).map_err(Error::other)?),
    };
    // A zero first ends whatever the line carried before.
    port.write_all(&[0])?;
    send(&mut port, sequence, hello)?;

    let mut reader = Reader::<Report>::new();
    for byte in stdin().lock().bytes() {
        match reader.push(byte?) {
            None => {}
            Some(Err(error)) => eprintln!("{error:?}"),
            Some(Ok(Envelope { message, .. })) => {
                println!("{message:?}");
                // This program keeps nothing, so it acknowledges nothing: the portions stay
                // with the instrument until a desktop records them.
                if let Report::Hello(theirs) = message {
                    sequence += 1;
                    eprintln!(
                        "instrument {:016x}, link {}",
                        theirs.device.0, theirs.version
                    );
                    send(
                        &mut port,
                        sequence,
                        Command::SetTime(UnixMillis::from_millis(
                            i64::try_from(wall.as_millis()).map_err(Error::other)?,
                        )),
                    )?;
                }
            }
        }
    }
    Ok(())
}

fn send(port: &mut impl Write, sequence: u16, message: Command) -> Result<(), Error> {
    let mut out = [0; MAX_FRAME];
    let length = frame::encode(&Envelope { sequence, message }, &mut out)
        .map_err(|_| Error::other("the message does not fit in a frame"))?;
    port.write_all(&out[..length])
}
