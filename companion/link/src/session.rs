//! The conversation with an instrument, without a port, a clock or a store.
//!
//! Bytes and times go in; bytes to send and what was heard come out. Memory is
//! bounded: one frame being read, one command under way and a short queue.

use super::Ticket;
use evenhand_protocol::frame::{self, MAX_FRAME};
use evenhand_protocol::reader::SequenceWatch;
use evenhand_protocol::{
    CapturedPortion, Command, DeviceId, Envelope, Epoch, FrameError, Hello, PortionId, Reader,
    Refusal, Report, UnixMillis, Uptime, Version,
};
use std::collections::VecDeque;
use std::time::{Duration, Instant};

/// How often to call until the instrument answers.
const CALL_EVERY: Duration = Duration::from_millis(400);
/// How long to wait for an answer before saying that there is none.
const CALL_PATIENCE: Duration = Duration::from_secs(2);
/// How long without a whole frame before the instrument counts as silent. Ten
/// readings a second come.
const SILENCE: Duration = Duration::from_secs(3);
/// How long to wait for a reply before sending the command again.
const RESEND_EVERY: Duration = Duration::from_millis(300);
/// How long to wait for a reply at all.
const REPLY_PATIENCE: Duration = Duration::from_secs(4);
/// How many commands may wait their turn.
const QUEUE: usize = 16;

/// How the conversation stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Conversation {
    /// Calling; no answer yet.
    Calling,
    /// Called for a while; nothing comes at all.
    Silent,
    /// Called for a while; what comes is not ours.
    NotOurs,
    /// The peer speaks another major version; the conversation is over.
    OtherVersion(u8),
    /// What comes is what a desktop sends.
    DesktopAtOtherEnd,
    /// Linked.
    Linked(DeviceId),
}

/// Why a command was not carried out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Unmet {
    /// The instrument refused.
    Refused(Refusal),
    /// The instrument is linked and does not reply.
    NoReply,
    /// The link went before the reply came.
    LinkLost,
    /// Too many commands wait already.
    TooMany,
}

/// What was heard.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Heard {
    /// The instrument said who it is: it answered the call, or it restarted.
    Hello(Hello),
    /// A reading, a notice or a fault.
    Report(Report),
    /// A portion, to be recorded and then acknowledged.
    Portion(CapturedPortion),
    /// A command was answered, or will not be.
    Answer(Ticket, Result<(), Unmet>),
}

#[derive(Debug, Clone, Copy)]
struct UnderWay {
    ticket: Ticket,
    command: Command,
    sequence: u16,
    first_sent: Instant,
    last_sent: Instant,
}

/// One conversation, from the opening of a port to its end.
#[derive(Debug)]
pub struct Session {
    reader: Reader<Report>,
    watch: SequenceWatch,
    sequence: u16,
    standing: Conversation,
    /// Since when it has been calling.
    calling_since: Instant,
    last_call: Option<Instant>,
    last_heard: Instant,
    /// Whether anything came since it has been calling, ours or not.
    noise: bool,
    start: Option<(DeviceId, Epoch)>,
    uptime: Uptime,
    queue: VecDeque<(Ticket, Command)>,
    under_way: Option<UnderWay>,
    heard: Vec<Heard>,
    out: Vec<u8>,
    corrupt: u32,
    unknown: u32,
    last_unknown: Vec<u8>,
}

impl Session {
    /// A conversation that begins now. `sequence` is the number of the first
    /// frame: one that the program before this is unlikely to have used last,
    /// so that the instrument does not take a new command for a repeated one.
    #[must_use]
    pub fn new(now: Instant, sequence: u16) -> Self {
        Self {
            reader: Reader::new(),
            watch: SequenceWatch::default(),
            sequence,
            standing: Conversation::Calling,
            calling_since: now,
            last_call: None,
            last_heard: now,
            noise: false,
            start: None,
            uptime: Uptime::default(),
            queue: VecDeque::new(),
            under_way: None,
            heard: Vec::new(),
            // One zero before the first frame ends whatever was cut before.
            out: vec![0],
            corrupt: 0,
            unknown: 0,
            last_unknown: Vec::new(),
        }
    }

    /// How the conversation stands.
    #[must_use]
    pub const fn standing(&self) -> Conversation {
        self.standing
    }

    /// Frames that were sent and never came.
    #[must_use]
    pub const fn missed(&self) -> u32 {
        self.watch.missed
    }

    /// Frames that came damaged, noise between frames included.
    #[must_use]
    pub const fn corrupt(&self) -> u32 {
        self.corrupt
    }

    /// Whole frames whose message this program does not know, of an instrument
    /// that speaks a later minor version: they were skipped.
    #[must_use]
    pub const fn unknown(&self) -> u32 {
        self.unknown
    }

    /// The payload of the last of them; empty where there was none.
    #[must_use]
    pub fn last_unknown(&self) -> &[u8] {
        &self.last_unknown
    }

    /// Takes bytes that came. What was heard is then in
    /// [`Session::take_heard`].
    pub fn bytes(&mut self, bytes: &[u8], now: Instant) {
        self.noise |= !bytes.is_empty();
        for byte in bytes {
            if self.is_over() {
                return;
            }
            match self.reader.push(*byte) {
                None => {}
                Some(Ok(envelope)) => self.frame(envelope, now),
                Some(Err(FrameError::OtherVersion { theirs })) => {
                    self.standing = Conversation::OtherVersion(theirs);
                    self.give_up_commands(Unmet::LinkLost);
                }
                Some(Err(FrameError::WrongDirection)) if !self.is_linked() => {
                    self.standing = Conversation::DesktopAtOtherEnd;
                }
                // Crosstalk beside an instrument that answers.
                Some(Err(FrameError::WrongDirection)) => {}
                // A whole frame of a newer minor version: skipped, but heard and kept.
                Some(Err(FrameError::UnknownMessage { .. })) => {
                    self.last_heard = now;
                    self.unknown = self.unknown.saturating_add(1);
                    self.last_unknown.clear();
                    self.last_unknown.extend_from_slice(self.reader.payload());
                }
                Some(Err(_)) => self.corrupt = self.corrupt.saturating_add(1),
            }
        }
    }

    fn frame(&mut self, envelope: Envelope<Report>, now: Instant) {
        self.watch.take(envelope.sequence);
        self.last_heard = now;
        match envelope.message {
            Report::Hello(hello) => {
                let start = (hello.device, hello.epoch);
                if self.start != Some(start) {
                    // It may have said so by itself as it started, and not have heard the call
                    // before: then it does not know the time, nor what this end reads.
                    self.last_call = None;
                }
                if self.start.is_some_and(|known| known != start) {
                    // It restarted, or another took its place: it does not know the command
                    // under way.
                    self.watch.restart();
                    self.give_up_commands(Unmet::LinkLost);
                }
                self.start = Some(start);
                self.uptime = hello.at;
                self.standing = Conversation::Linked(hello.device);
                self.heard.push(Heard::Hello(hello));
            }
            // Until a hello came it is not known whose these are.
            _ if self.start.is_none() => {}
            Report::Portion(portion) => self.heard.push(Heard::Portion(portion)),
            Report::Reply { to, outcome } => {
                if let Some(under_way) = self.under_way.filter(|command| command.sequence == to) {
                    self.under_way = None;
                    let outcome = outcome.map_err(Unmet::Refused);
                    self.heard.push(Heard::Answer(under_way.ticket, outcome));
                }
            }
            Report::Reading(reading) => {
                if reading.at < self.uptime {
                    // It restarted and its hello was missed.
                    self.call_again(now);
                    return;
                }
                self.uptime = reading.at;
                if let Some((device, _)) = self.start {
                    self.standing = Conversation::Linked(device);
                }
                self.heard.push(Heard::Report(envelope.message));
            }
            report => self.heard.push(Heard::Report(report)),
        }
    }

    /// Takes what was heard since the last time.
    pub fn take_heard(&mut self) -> Vec<Heard> {
        core::mem::take(&mut self.heard)
    }

    /// Does what is due by now: calls, sends commands, sends them again, or
    /// gives up. `wall` is this computer's time.
    pub fn tick(&mut self, now: Instant, wall: UnixMillis) {
        if self.is_over() {
            return;
        }
        let since = |then: Instant| now.saturating_duration_since(then);
        if self.is_linked() {
            if since(self.last_heard) > SILENCE {
                self.call_again(now);
            } else if self.last_call.is_none() {
                self.call(now, wall);
            }
        }
        if !self.is_linked() {
            if self.standing == Conversation::Calling && since(self.calling_since) > CALL_PATIENCE {
                self.standing = if self.noise {
                    Conversation::NotOurs
                } else {
                    Conversation::Silent
                };
            }
            if self.standing == Conversation::Silent && self.noise {
                // Something speaks up late: give it time to make sense.
                self.standing = Conversation::Calling;
                self.calling_since = now;
            }
            if self.last_call.is_none_or(|call| since(call) >= CALL_EVERY) {
                self.call(now, wall);
            }
            return;
        }
        match self.under_way {
            Some(command) if since(command.first_sent) > REPLY_PATIENCE => {
                self.under_way = None;
                self.heard
                    .push(Heard::Answer(command.ticket, Err(Unmet::NoReply)));
            }
            Some(mut command) if since(command.last_sent) >= RESEND_EVERY => {
                command.last_sent = now;
                self.under_way = Some(command);
                self.send(command.sequence, command.command);
            }
            Some(_) => {}
            None => {
                if let Some((ticket, command)) = self.queue.pop_front() {
                    let sequence = self.next_sequence();
                    self.under_way = Some(UnderWay {
                        ticket,
                        command,
                        sequence,
                        first_sent: now,
                        last_sent: now,
                    });
                    self.send(sequence, command);
                }
            }
        }
    }

    /// Asks the instrument for something; the answer is heard later under the
    /// ticket.
    pub fn ask(&mut self, ticket: Ticket, command: Command) {
        if !self.is_linked() {
            self.heard.push(Heard::Answer(ticket, Err(Unmet::LinkLost)));
        } else if self.queue.len() >= QUEUE {
            self.heard.push(Heard::Answer(ticket, Err(Unmet::TooMany)));
        } else {
            self.queue.push_back((ticket, command));
        }
    }

    /// Whether a command is under way or waits.
    #[must_use]
    pub fn is_asking(&self) -> bool {
        self.under_way.is_some() || !self.queue.is_empty()
    }

    /// Tells the instrument that a portion is on record.
    pub fn acknowledge(&mut self, id: PortionId) {
        let sequence = self.next_sequence();
        self.send(sequence, Command::Acknowledge(id));
    }

    /// Takes the bytes to be sent.
    pub fn take_out(&mut self) -> Vec<u8> {
        core::mem::take(&mut self.out)
    }

    /// Gives up every command: the line is gone.
    pub fn line_gone(&mut self) {
        self.give_up_commands(Unmet::LinkLost);
    }

    const fn is_linked(&self) -> bool {
        matches!(self.standing, Conversation::Linked(_))
    }

    const fn is_over(&self) -> bool {
        matches!(self.standing, Conversation::OtherVersion(_))
    }

    fn call_again(&mut self, now: Instant) {
        self.standing = Conversation::Calling;
        self.calling_since = now;
        self.last_call = None;
        self.noise = false;
        self.start = None;
        self.uptime = Uptime::default();
        self.watch.restart();
        self.give_up_commands(Unmet::LinkLost);
    }

    fn call(&mut self, now: Instant, wall: UnixMillis) {
        self.last_call = Some(now);
        let sequence = self.next_sequence();
        let version = Version::CURRENT;
        self.send(sequence, Command::Hello { version, now: wall });
    }

    fn give_up_commands(&mut self, why: Unmet) {
        let under_way = self.under_way.take().map(|command| command.ticket);
        let waiting = self.queue.drain(..).map(|(ticket, _)| ticket);
        let answers = under_way.into_iter().chain(waiting);
        self.heard
            .extend(answers.map(|ticket| Heard::Answer(ticket, Err(why))));
    }

    fn next_sequence(&mut self) -> u16 {
        let sequence = self.sequence;
        self.sequence = sequence.wrapping_add(1);
        sequence
    }

    fn send(&mut self, sequence: u16, message: Command) {
        let mut frame = [0; MAX_FRAME];
        // No command is too long for a frame.
        if let Ok(length) = frame::encode(&Envelope { sequence, message }, &mut frame) {
            self.out.extend_from_slice(&frame[..length]);
        }
    }
}
