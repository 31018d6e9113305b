//! A cable between two programs that spoils what it carries, or is pulled at a
//! chosen moment: a pseudo-terminal of its own, under a name that stays.

use evenhand_protocol::{Command, Message, Reader, Report};
use evenhand_simulator::faulty_link::{FaultyLink, LinkTroubles};
use nix::errno::Errno;
use nix::fcntl::{FcntlArg, FdFlag, OFlag, fcntl};
use nix::sys::termios::{SetArg, cfmakeraw, tcgetattr, tcsetattr};
use nix::unistd::{read, ttyname, write};
use serialport::TTYPort;
use std::collections::BTreeMap;
use std::fmt::Debug;
use std::io::{self, ErrorKind, Read, Write};
use std::os::fd::OwnedFd;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex, PoisonError};
use std::thread::JoinHandle;
use std::time::{Duration, Instant};

/// How long a pulled cable stays out.
const OUT_FOR: Duration = Duration::from_millis(250);
/// How long the other end gets to read what was written before the cable goes.
const READ_BEFORE: Duration = Duration::from_millis(30);

/// When the cable is pulled.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Pulls {
    /// Never.
    Never,
    /// Twice for every kind of message, in either direction: once before the
    /// last byte of the first such message passes, once after that of the next;
    /// from the first portion on.
    AtEveryKind,
}

/// What a cable has carried so far.
#[derive(Debug, Clone, Default)]
pub struct Carried {
    /// Sound frames that came out of it at the desktop's end, by kind.
    pub to_desktop: BTreeMap<String, u64>,
    /// Sound frames that came out of it at the instrument's end, by kind.
    pub to_instrument: BTreeMap<String, u64>,
    /// Frames that were put in at either end.
    pub frames: u64,
    /// Frames that came out spoilt.
    pub spoilt: u64,
    /// Where the cable was pulled: direction, kind and moment.
    pub pulls: Vec<String>,
}

/// A cable, as long as it lives.
#[derive(Debug)]
pub struct Relay {
    path: PathBuf,
    stop: Arc<AtomicBool>,
    carried: Arc<Mutex<Carried>>,
    thread: Option<JoinHandle<io::Result<()>>>,
}

impl Relay {
    /// Lays a cable from the instrument at the port `bench` to a port that is
    /// named `path` from now on.
    ///
    /// # Errors
    /// Where the system gives no pseudo-terminal, or the name cannot be made.
    pub fn lay(
        bench: &str,
        path: &Path,
        troubles: LinkTroubles,
        pulls: Pulls,
        seed: u64,
    ) -> io::Result<Self> {
        let end = DesktopEnd::open(path)?;
        let stop = Arc::new(AtomicBool::new(false));
        let carried = Arc::new(Mutex::new(Carried::default()));
        let mut cable = Cable {
            bench: bench.to_owned(),
            path: path.to_owned(),
            pulls,
            carried: carried.clone(),
            out: Way::new("to the desktop", FaultyLink::new(troubles, seed)),
            back: Way::new(
                "to the instrument",
                FaultyLink::new(troubles, seed ^ 0xBAC4),
            ),
        };
        let stopped = stop.clone();
        let thread = std::thread::spawn(move || {
            cable.carry(end, &stopped).inspect_err(|error| {
                // Whoever waits at one of its ends sees why nothing comes.
                eprintln!("the cable is broken: {error}");
            })
        });
        Ok(Self {
            path: path.to_owned(),
            stop,
            carried,
            thread: Some(thread),
        })
    }

    /// The name of its port at the desktop's end.
    #[must_use]
    pub fn path(&self) -> String {
        self.path.display().to_string()
    }

    /// What it has carried so far.
    #[must_use]
    pub fn carried(&self) -> Carried {
        self.carried
            .lock()
            .unwrap_or_else(PoisonError::into_inner)
            .clone()
    }

    /// Takes it away.
    ///
    /// # Errors
    /// What went wrong while it carried.
    pub fn take_away(mut self) -> io::Result<Carried> {
        self.end()?;
        Ok(self.carried())
    }

    fn end(&mut self) -> io::Result<()> {
        self.stop.store(true, Ordering::Relaxed);
        match self.thread.take().map(JoinHandle::join) {
            None => Ok(()),
            Some(Ok(result)) => result,
            Some(Err(_)) => Err(io::Error::other("the relay panicked")),
        }
    }
}

impl Drop for Relay {
    fn drop(&mut self) {
        // Whoever wanted to know took it away.
        let _ = self.end();
    }
}

/// The desktop's end of a cable: a pseudo-terminal whose slave the program opens.
#[derive(Debug)]
pub struct DesktopEnd {
    master: OwnedFd,
}

impl DesktopEnd {
    /// A port that is named `name` from now on.
    ///
    /// # Errors
    /// Where the system gives no pseudo-terminal, or the name cannot be made.
    pub fn open(name: &Path) -> io::Result<Self> {
        let pair = nix::pty::openpty(None, None)?;
        let mut settings = tcgetattr(&pair.slave)?;
        cfmakeraw(&mut settings);
        tcsetattr(&pair.slave, SetArg::TCSANOW, &settings)?;
        let slave = ttyname(&pair.slave)?;
        // A program started meanwhile must not keep the cable in.
        for fd in [&pair.master, &pair.slave] {
            fcntl(fd, FcntlArg::F_SETFD(FdFlag::FD_CLOEXEC))?;
        }
        let flags = OFlag::from_bits_retain(fcntl(&pair.master, FcntlArg::F_GETFL)?);
        fcntl(&pair.master, FcntlArg::F_SETFL(flags | OFlag::O_NONBLOCK))?;
        match std::fs::remove_file(name) {
            Err(error) if error.kind() != ErrorKind::NotFound => return Err(error),
            _ => std::os::unix::fs::symlink(slave, name)?,
        }
        Ok(Self {
            master: pair.master,
        })
    }

    /// What the program has written by now.
    ///
    /// # Errors
    /// Where the pseudo-terminal fails.
    pub fn read(&self) -> io::Result<Vec<u8>> {
        let mut bytes = [0; 4096];
        match read(&self.master, &mut bytes) {
            Ok(count) => Ok(bytes[..count].to_vec()),
            // Nothing there, or nobody has it open.
            Err(Errno::EAGAIN | Errno::EINTR | Errno::EIO) => Ok(Vec::new()),
            Err(error) => Err(error.into()),
        }
    }

    /// Writes to the program.
    ///
    /// # Errors
    /// Where the pseudo-terminal fails.
    pub fn write(&self, bytes: &[u8]) -> io::Result<()> {
        match write(&self.master, bytes) {
            // What does not go in is lost, as on a wire that nobody reads.
            Ok(_) | Err(Errno::EAGAIN | Errno::EINTR | Errno::EIO) => Ok(()),
            Err(error) => Err(error.into()),
        }
    }
}

/// One direction.
struct Way {
    name: &'static str,
    link: FaultyLink,
    /// Times each kind was waited for and pulled at.
    pulled: BTreeMap<String, u8>,
}

impl Way {
    fn new(name: &'static str, link: FaultyLink) -> Self {
        Self {
            name,
            link,
            pulled: BTreeMap::new(),
        }
    }
}

struct Cable {
    bench: String,
    path: PathBuf,
    pulls: Pulls,
    carried: Arc<Mutex<Carried>>,
    out: Way,
    back: Way,
}

impl Cable {
    fn carry(&mut self, mut end: DesktopEnd, stop: &AtomicBool) -> io::Result<()> {
        let begun = Instant::now();
        let mut port = open(&self.bench)?;
        let mut heard = Readers::default();
        while !stop.load(Ordering::Relaxed) {
            let now = begun.elapsed().as_micros() as u64;
            let from_bench = come(&mut port)?;
            let from_desk = end.read()?;
            let (bytes, pull) = self.pass_out(now, &from_bench, &mut heard);
            end.write(&bytes)?;
            let (bytes, pull_back) = self.pass_back(now, &from_desk, &mut heard);
            // The bench may be gone for good; then nothing more can be lost.
            let _ = port.write_all(&bytes);
            if pull || pull_back {
                std::thread::sleep(READ_BEFORE);
                // The system soon gives the terminal's number to somebody else.
                std::fs::remove_file(&self.path)?;
                drop((end, port));
                std::thread::sleep(OUT_FOR);
                end = DesktopEnd::open(&self.path)?;
                port = open(&self.bench)?;
                heard = Readers::default();
            }
        }
        Ok(())
    }

    fn pass_out(&mut self, now: u64, bytes: &[u8], heard: &mut Readers) -> (Vec<u8>, bool) {
        let (bytes, pull) = pass(
            &mut self.out,
            self.pulls,
            &self.carried,
            now,
            bytes,
            &mut heard.put_in_out,
        );
        let mut carried = self.carried.lock().unwrap_or_else(PoisonError::into_inner);
        count(&bytes, &mut heard.came_out, |kind| match kind {
            Some(kind) => *carried.to_desktop.entry(kind).or_default() += 1,
            None => carried.spoilt += 1,
        });
        (bytes, pull)
    }

    fn pass_back(&mut self, now: u64, bytes: &[u8], heard: &mut Readers) -> (Vec<u8>, bool) {
        let (bytes, pull) = pass(
            &mut self.back,
            self.pulls,
            &self.carried,
            now,
            bytes,
            &mut heard.put_in_back,
        );
        let mut carried = self.carried.lock().unwrap_or_else(PoisonError::into_inner);
        count(&bytes, &mut heard.came_back, |kind| match kind {
            Some(kind) => *carried.to_instrument.entry(kind).or_default() += 1,
            None => carried.spoilt += 1,
        });
        (bytes, pull)
    }
}

/// What is read along the way, before and after the cable.
#[derive(Default)]
struct Readers {
    put_in_out: Reader<Report>,
    came_out: Reader<Report>,
    put_in_back: Reader<Command>,
    came_back: Reader<Command>,
}

/// Lets bytes through one way; what comes out now, and whether the cable is
/// pulled then.
fn pass<M: Message + Debug>(
    way: &mut Way,
    pulls: Pulls,
    carried: &Mutex<Carried>,
    now: u64,
    bytes: &[u8],
    reader: &mut Reader<M>,
) -> (Vec<u8>, bool) {
    let mut through = bytes.len();
    let mut pull = false;
    for (place, byte) in bytes.iter().enumerate() {
        let Some(got) = reader.push(*byte) else {
            continue;
        };
        let mut carried = carried.lock().unwrap_or_else(PoisonError::into_inner);
        carried.frames += 1;
        let Ok(envelope) = got else { continue };
        let kind = name(&envelope.message);
        // A desktop that has never seen its instrument soon gives up, and says
        // so; but a run is started only once.
        let early = !carried.to_desktop.contains_key("Portion") && kind != "StartRun";
        if pulls == Pulls::Never || early {
            continue;
        }
        let times = way.pulled.entry(kind.clone()).or_default();
        *times = times.saturating_add(1);
        let moment = match *times {
            1 => "before",
            2 => "after",
            _ => continue,
        };
        through = if *times == 1 { place } else { place + 1 };
        pull = true;
        carried.pulls.push(format!("{moment} {kind} {}", way.name));
        break;
    }
    way.link.send(now, bytes.get(..through).unwrap_or_default());
    let mut out = way.link.receive(now);
    if pull {
        out.extend(way.link.receive(u64::MAX));
    }
    (out, pull)
}

fn count<M: Message + Debug>(
    bytes: &[u8],
    reader: &mut Reader<M>,
    mut each: impl FnMut(Option<String>),
) {
    for byte in bytes {
        match reader.push(*byte) {
            None => {}
            Some(Ok(envelope)) => each(Some(name(&envelope.message))),
            Some(Err(_)) => each(None),
        }
    }
}

/// The message's own name.
fn name(message: &impl Debug) -> String {
    let words = format!("{message:?}");
    words
        .split(|letter: char| !letter.is_alphanumeric())
        .next()
        .unwrap_or_default()
        .to_owned()
}

fn open(path: &str) -> io::Result<TTYPort> {
    let mut port = serialport::new(path, 115_200)
        .timeout(Duration::from_millis(2))
        .open_native()?;
    port.set_exclusive(false)?;
    Ok(port)
}

fn come(port: &mut TTYPort) -> io::Result<Vec<u8>> {
    let mut bytes = [0; 4096];
    match port.read(&mut bytes) {
        Ok(count) => Ok(bytes[..count].to_vec()),
        Err(error) if error.kind() == ErrorKind::TimedOut => Ok(Vec::new()),
        // The bench is gone: it says nothing more.
        Err(error) if error.kind() == ErrorKind::BrokenPipe => {
            std::thread::sleep(Duration::from_millis(2));
            Ok(Vec::new())
        }
        Err(error) => Err(error),
    }
}
