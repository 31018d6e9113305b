//! An instrument in memory that does as the test says: the instrument's own
//! outbox and frames, without a load.
#![forbid(unsafe_code)]
#![allow(
    missing_docs,
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "for tests alone; each reads what it needs of it"
)]

use evenhand_firmware::outbox::{Outbox, Unnamed};
use evenhand_link::live::{LinkState, Now};
use evenhand_link::{Dial, Line, LineEnd};
use evenhand_protocol::fault::FaultSet;
use evenhand_protocol::report::{Capabilities, Doubts};
use evenhand_protocol::{
    CapturedPortion, Command, DeviceId, Envelope, Epoch, Goal, Hello, Mass, Message, Mode, Notice,
    Phase, Reader, Reading, Refusal, Report, RunId, UnixMillis, Uptime, Version, frame,
};
use jiff::{SignedDuration, Timestamp};
use std::collections::VecDeque;
use std::sync::{Arc, Mutex};
use std::time::{Duration, Instant};

pub const DEVICE: DeviceId = DeviceId(0xe1);

/// What is at the other end of the line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Peer {
    /// An instrument.
    Instrument,
    /// Nothing.
    Nobody,
    /// Something that sends text.
    Babbler,
    /// An instrument of this major version.
    Version(u8),
    /// What is sent comes back.
    Echo,
}

/// What a test can see and do at the far end.
pub struct Bench {
    pub peer: Peer,
    pub plugged: bool,
    pub over: bool,
    /// Whether acknowledgements arrive.
    pub hears_acknowledgements: bool,
    /// Bytes of noise before each frame.
    pub noise: Vec<u8>,
    pub run: Option<RunId>,
    pub refuse: Option<Refusal>,
    /// How many commands of each kind were carried out (not only heard).
    pub carried_out: Vec<Command>,
    pub heard: Vec<Command>,
    pub replies: bool,
    /// How far the wall's clock stands off.
    pub wall_step: SignedDuration,
    pub sent_portions: usize,
    pub dialled: usize,
    device: DeviceId,
    epoch: u32,
    outbox: Outbox,
    goal: Goal,
    unix: Option<i64>,
    started: Duration,
    passed: Duration,
    last_reading: Duration,
    last_command: Option<u16>,
    reader: Reader<Command>,
    sequence: u16,
    to_desktop: VecDeque<u8>,
    base: (Instant, Timestamp),
}

impl Bench {
    fn uptime(&self) -> Uptime {
        let passed = self.passed.saturating_sub(self.started);
        Uptime::from_millis(u64::try_from(passed.as_millis()).unwrap())
    }

    /// Captures a portion of so many milligrams.
    pub fn capture(&mut self, milligrams: i64) {
        self.capture_correction(milligrams, None);
    }

    pub fn capture_correction(&mut self, milligrams: i64, replaces: Option<u32>) {
        let at = self.uptime();
        let portion = Unnamed {
            run: self.run.expect("no run is going on"),
            at,
            unix: self
                .unix
                .map(|unix| UnixMillis::from_millis(unix + at.millis() as i64)),
            mode: Mode::Taking,
            mass: Mass::from_milligrams(milligrams),
            goal: self.goal,
            temperature: None,
            replaces,
            doubts: Doubts::NONE,
            uncertainty: None,
            left: None,
        };
        self.outbox.keep(portion).expect("the outbox is full");
    }

    /// Pulls the power and gives it back: run, time and portions are gone.
    pub fn restart(&mut self, says_hello: bool) {
        self.epoch += 1;
        self.outbox = Outbox::new(self.device, Epoch(self.epoch));
        self.run = None;
        self.unix = None;
        self.last_command = None;
        self.started = self.passed;
        self.to_desktop.clear();
        if says_hello {
            let hello = self.hello();
            self.send(Report::Hello(hello));
        }
    }

    /// Another instrument is plugged in at the same port.
    pub fn replaced_by(&mut self, device: DeviceId) {
        self.device = device;
        self.restart(true);
    }

    /// Sends a portion that is in no outbox.
    pub fn send_portion(&mut self, portion: CapturedPortion) {
        self.sent_portions += 1;
        self.send(Report::Portion(portion));
    }

    /// Says who it is, so many times.
    pub fn say_hello(&mut self, times: usize) {
        for _ in 0..times {
            let hello = self.hello();
            self.send(Report::Hello(hello));
        }
    }

    pub fn unsent(&self) -> usize {
        self.outbox.len()
    }

    pub fn notice(&mut self, notice: Notice) {
        let at = self.uptime();
        self.send(Report::Notice { at, notice });
    }

    fn hello(&self) -> Hello {
        Hello {
            version: Version::CURRENT,
            device: self.device,
            epoch: Epoch(self.epoch),
            at: self.uptime(),
            capabilities: Capabilities::PORTIONS,
            capacity: Mass::from_grams(1_000),
            interval: Mass::from_milligrams(100),
            outbox: 64,
            verification_interval: Some(Mass::from_grams(1)),
        }
    }

    fn send<M: Message>(&mut self, message: M) {
        let mut bytes = [0; frame::MAX_FRAME];
        let sequence = self.sequence;
        self.sequence = sequence.wrapping_add(1);
        let length = frame::encode(&Envelope { sequence, message }, &mut bytes).unwrap();
        self.to_desktop.extend(&self.noise);
        if let Peer::Version(major) = self.peer {
            let changed = with_major(&bytes[..length], major);
            self.to_desktop.extend(changed);
        } else {
            self.to_desktop.extend(&bytes[..length]);
        }
        // A line holds only so much.
        while self.to_desktop.len() > 20_000 {
            self.to_desktop.pop_front();
        }
    }

    fn pass(&mut self, by: Duration) {
        self.passed += by;
        match self.peer {
            Peer::Nobody | Peer::Echo => {}
            Peer::Babbler => self.to_desktop.extend(b"login: "),
            Peer::Instrument | Peer::Version(_) => {
                let now = self.uptime();
                while let Some(portion) = self.outbox.next(now) {
                    self.sent_portions += 1;
                    self.send(Report::Portion(portion));
                }
                if self.passed - self.last_reading >= Duration::from_millis(100) {
                    self.last_reading = self.passed;
                    let reading = self.reading();
                    self.send(Report::Reading(reading));
                }
            }
        }
    }

    fn reading(&self) -> Reading {
        Reading {
            at: self.uptime(),
            gross: Some(Mass::from_grams(500)),
            tare: Mass::ZERO,
            stable: true,
            amount: None,
            verdict: None,
            phase: Phase::Ready,
            run: self.run,
            temperature: None,
            faults: FaultSet::EMPTY,
            unsent: u16::try_from(self.outbox.len()).unwrap(),
            lost: 0,
        }
    }

    fn take(&mut self, bytes: &[u8]) {
        if self.peer == Peer::Echo {
            self.to_desktop.extend(bytes);
        }
        if self.peer != Peer::Instrument {
            return;
        }
        for byte in bytes {
            if let Some(Ok(envelope)) = self.reader.push(*byte) {
                self.obey(envelope);
            }
        }
    }

    fn obey(&mut self, envelope: Envelope<Command>) {
        let command = envelope.message;
        self.heard.push(command);
        match command {
            Command::Hello { now, .. } => {
                self.unix = Some(now.millis() - self.uptime().millis() as i64);
                self.last_command = None;
                let hello = self.hello();
                self.send(Report::Hello(hello));
                return;
            }
            Command::Acknowledge(id) => {
                if self.hears_acknowledgements {
                    self.outbox.acknowledge(id);
                }
                return;
            }
            _ => {}
        }
        if self.last_command != Some(envelope.sequence) && self.refuse.is_none() {
            self.last_command = Some(envelope.sequence);
            self.carried_out.push(command);
            match command {
                Command::StartRun { run, goal, .. } => {
                    self.run = Some(run);
                    self.goal = goal;
                }
                Command::StopRun => self.run = None,
                Command::SetTime(now) => {
                    self.unix = Some(now.millis() - self.uptime().millis() as i64);
                }
                _ => {}
            }
        }
        if self.replies {
            let outcome = self.refuse.map_or(Ok(()), Err);
            self.send(Report::Reply {
                to: envelope.sequence,
                outcome,
            });
        }
    }
}

/// A frame as a peer of another major version would send it: same place of the
/// version, same checksum.
fn with_major(stuffed: &[u8], major: u8) -> Vec<u8> {
    let mut raw = cobs::decode_vec(&stuffed[..stuffed.len() - 1]).unwrap();
    let body = raw.len() - 4;
    raw[0] = major;
    let checksum = crc::Crc::<u32>::new(&crc::CRC_32_ISCSI).checksum(&raw[..body]);
    raw[body..].copy_from_slice(&checksum.to_le_bytes());
    let mut out = cobs::encode_vec(&raw);
    out.push(0);
    out
}

/// The far end, in the hands of the test.
#[derive(Clone)]
pub struct Scripted(Arc<Mutex<Bench>>);

impl Scripted {
    pub fn new(peer: Peer) -> Self {
        let goal = Goal::new(
            Mass::from_grams(1),
            evenhand_protocol::Tolerance::symmetric(Mass::ZERO),
        );
        Self(Arc::new(Mutex::new(Bench {
            peer,
            plugged: true,
            over: false,
            hears_acknowledgements: true,
            noise: Vec::new(),
            run: None,
            refuse: None,
            carried_out: Vec::new(),
            heard: Vec::new(),
            replies: true,
            wall_step: SignedDuration::ZERO,
            sent_portions: 0,
            dialled: 0,
            device: DEVICE,
            epoch: 1,
            outbox: Outbox::new(DEVICE, Epoch(1)),
            goal: goal.unwrap(),
            unix: None,
            started: Duration::ZERO,
            passed: Duration::ZERO,
            last_reading: Duration::ZERO,
            last_command: None,
            reader: Reader::new(),
            sequence: 0,
            to_desktop: VecDeque::new(),
            base: (Instant::now(), Timestamp::from_second(1_000_000).unwrap()),
        })))
    }

    /// Looks at the far end, or does something there.
    pub fn at<T>(&self, work: impl FnOnce(&mut Bench) -> T) -> T {
        work(&mut self.0.lock().unwrap())
    }

    pub fn dial(&self) -> Box<dyn Dial> {
        Box::new(ScriptedDial(self.clone()))
    }
}

struct ScriptedDial(Scripted);

impl Dial for ScriptedDial {
    fn place(&self) -> &str {
        "the test's port"
    }

    fn dial(&mut self) -> Result<Box<dyn Line>, LinkState> {
        self.0.at(|bench| bench.dialled += 1);
        if self.0.at(|bench| bench.plugged) {
            Ok(Box::new(ScriptedLine(self.0.clone())))
        } else {
            Err(LinkState::NoPort {
                port: self.place().to_owned(),
            })
        }
    }
}

/// Every read passes some of the bench's own time, so that tests need not wait
/// for the machine's.
struct ScriptedLine(Scripted);

impl Line for ScriptedLine {
    fn read(&mut self, buffer: &mut [u8], patience: Duration) -> Result<usize, LineEnd> {
        // Leave the test a chance to look.
        std::thread::sleep(Duration::from_micros(200));
        self.0.at(|bench| {
            if bench.over {
                return Err(LineEnd::Over);
            }
            if !bench.plugged {
                return Err(LineEnd::Gone);
            }
            bench.pass(patience);
            let count = buffer.len().min(bench.to_desktop.len());
            for (place, byte) in buffer.iter_mut().zip(bench.to_desktop.drain(..count)) {
                *place = byte;
            }
            Ok(count)
        })
    }

    fn write(&mut self, bytes: &[u8]) -> Result<(), LineEnd> {
        self.0.at(|bench| {
            if !bench.plugged {
                return Err(LineEnd::Gone);
            }
            bench.take(bytes);
            Ok(())
        })
    }

    fn now(&self) -> Option<Now> {
        self.0.at(|bench| {
            let (steady, wall) = bench.base;
            let passed = SignedDuration::try_from(bench.passed).unwrap();
            Some(Now {
                steady: steady + bench.passed,
                wall: wall + passed + bench.wall_step,
            })
        })
    }
}
