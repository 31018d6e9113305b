//! The conversation with an instrument, byte by byte.

use evenhand_link::{Conversation, Heard, Session, Ticket, Unmet};
use evenhand_protocol::fault::FaultSet;
use evenhand_protocol::frame::{self, MAX_FRAME};
use evenhand_protocol::report::Capabilities;
use evenhand_protocol::{
    Command, DeviceId, Envelope, Epoch, Hello, Mass, Message, Phase, Reader, Reading, Report,
    UnixMillis, Uptime, Version,
};
use proptest::prelude::*;
use std::time::{Duration, Instant};

const WALL: UnixMillis = UnixMillis::from_millis(1_000);

fn framed<M: Message>(sequence: u16, message: M) -> Vec<u8> {
    let mut bytes = [0; MAX_FRAME];
    let length = frame::encode(&Envelope { sequence, message }, &mut bytes).unwrap();
    bytes[..length].to_vec()
}

fn hello(epoch: u32) -> Report {
    Report::Hello(Hello {
        version: Version::CURRENT,
        device: DeviceId(1),
        epoch: Epoch(epoch),
        at: Uptime::from_millis(10),
        capabilities: Capabilities::PORTIONS,
        capacity: Mass::from_grams(1_000),
        interval: Mass::from_milligrams(100),
        outbox: 64,
        verification_interval: Some(Mass::from_grams(1)),
    })
}

fn reading(at: u64) -> Report {
    Report::Reading(Reading {
        at: Uptime::from_millis(at),
        gross: None,
        tare: Mass::ZERO,
        stable: false,
        amount: None,
        verdict: None,
        phase: Phase::Weighing,
        run: None,
        temperature: None,
        faults: FaultSet::EMPTY,
        unsent: 0,
        lost: 0,
    })
}

/// What the session would send, as an instrument reads it.
fn sent(session: &mut Session) -> Vec<Envelope<Command>> {
    let mut reader = Reader::<Command>::new();
    let bytes = session.take_out();
    bytes
        .iter()
        .filter_map(|byte| reader.push(*byte))
        .map(Result::unwrap)
        .collect()
}

fn linked(now: Instant) -> Session {
    let mut session = Session::new(now, 7);
    session.tick(now, WALL);
    session.bytes(&framed(0, hello(1)), now);
    // Called once more, for the hello may have been its own at its start.
    session.tick(now, WALL);
    session.bytes(&framed(1, hello(1)), now);
    session.take_heard();
    session.take_out();
    assert_eq!(session.standing(), Conversation::Linked(DeviceId(1)));
    session
}

#[test]
fn the_first_word_is_who_calls_and_what_time_it_is() {
    let now = Instant::now();
    let mut session = Session::new(now, 7);
    session.tick(now, WALL);
    let first = Envelope {
        sequence: 7,
        message: Command::Hello {
            version: Version::CURRENT,
            now: WALL,
        },
    };
    assert_eq!(sent(&mut session), [first]);
    // Not again at once, but again.
    session.tick(now + Duration::from_millis(100), WALL);
    assert!(sent(&mut session).is_empty());
    session.tick(now + Duration::from_millis(500), WALL);
    assert_eq!(sent(&mut session).len(), 1);
}

/// The scale is plugged in while the program calls: the call before its start is lost, and its
/// own hello comes without being asked.
#[test]
fn an_instrument_that_starts_while_it_is_called_hears_the_time() {
    let now = Instant::now();
    let mut session = Session::new(now, 7);
    session.tick(now, WALL);
    // The witness: the call went where nobody heard it.
    assert_eq!(sent(&mut session).len(), 1);
    let unasked = |number| match hello(1) {
        Report::Hello(hello) => framed(
            number,
            Report::Hello(Hello {
                verification_interval: None,
                ..hello
            }),
        ),
        _ => Vec::new(),
    };
    session.bytes(&unasked(0), now);
    session.tick(now, WALL);
    let [call] = sent(&mut session)[..] else {
        panic!("it is called once");
    };
    assert!(matches!(call.message, Command::Hello { now: WALL, .. }));
    session.bytes(&framed(1, hello(1)), now);
    let told = session
        .take_heard()
        .into_iter()
        .find_map(|heard| match heard {
            Heard::Hello(hello) => hello.verification_interval,
            _ => None,
        });
    assert_eq!(told, Some(Mass::from_grams(1)));
    // The answer to that is not answered.
    session.tick(now, WALL);
    assert!(sent(&mut session).is_empty());
}

/// Report number 100 of a later version, from the golden frames beside WIRE.md: three bytes of it.
#[test]
fn a_report_of_a_later_version_is_kept_and_skipped() {
    let now = Instant::now();
    let mut session = linked(now);
    let unknown = [
        0x04, 0x01, 0x52, 0x3c, 0x07, 0x64, 0x01, 0x02, 0x03, 0xc1, 0x49, 0x02, 0xf2, 0x00,
    ];
    let later = now + Duration::from_secs(2);
    session.bytes(&unknown, later);
    assert_eq!(session.unknown(), 1);
    assert_eq!(session.last_unknown(), [100, 1, 2, 3]);
    assert_eq!(session.corrupt(), 0);
    assert!(session.take_heard().is_empty());
    // It was a sign of life, and what follows is read.
    session.tick(later + Duration::from_secs(2), WALL);
    assert_eq!(session.standing(), Conversation::Linked(DeviceId(1)));
    session.bytes(&framed(10, reading(5_000)), later);
    assert_eq!(session.take_heard().len(), 1);
}

#[test]
fn what_comes_before_the_hello_is_nobodys() {
    let now = Instant::now();
    let mut session = Session::new(now, 0);
    session.bytes(&framed(0, reading(5)), now);
    assert!(session.take_heard().is_empty());
    assert_eq!(session.standing(), Conversation::Calling);
}

#[test]
fn only_one_command_is_under_way_and_each_is_answered_once() {
    let now = Instant::now();
    let mut session = linked(now);
    session.ask(Ticket(1), Command::Tare);
    session.ask(Ticket(2), Command::Zero);
    session.tick(now, WALL);
    let out = sent(&mut session);
    assert_eq!(out.len(), 1);
    let reply = |to| {
        framed(
            1,
            Report::Reply {
                to,
                outcome: Ok(()),
            },
        )
    };
    // An answer to something else changes nothing.
    session.bytes(&reply(out[0].sequence.wrapping_add(9)), now);
    assert!(session.take_heard().is_empty());
    session.bytes(&reply(out[0].sequence), now);
    session.bytes(&reply(out[0].sequence), now);
    assert_eq!(session.take_heard(), [Heard::Answer(Ticket(1), Ok(()))]);
    session.tick(now, WALL);
    assert_eq!(sent(&mut session)[0].message, Command::Zero);
}

#[test]
fn too_many_commands_are_refused_and_not_hoarded() {
    let mut session = linked(Instant::now());
    for ticket in 0..1_000 {
        session.ask(Ticket(ticket), Command::Tare);
    }
    let refused = session.take_heard();
    assert!(refused.len() > 900);
    assert!(
        refused
            .iter()
            .all(|heard| matches!(heard, Heard::Answer(_, Err(Unmet::TooMany))))
    );
}

#[test]
fn a_restarted_instrument_is_called_again_and_owes_no_answer() {
    let now = Instant::now();
    let mut session = linked(now);
    session.ask(Ticket(1), Command::Tare);
    session.tick(now, WALL);
    sent(&mut session);
    session.bytes(&framed(0, hello(2)), now);
    assert!(
        session
            .take_heard()
            .contains(&Heard::Answer(Ticket(1), Err(Unmet::LinkLost)))
    );
    session.tick(now, WALL);
    assert!(matches!(
        sent(&mut session)[0].message,
        Command::Hello { .. }
    ));
    // Its answer to that is no further restart.
    session.bytes(&framed(1, hello(2)), now);
    session.tick(now, WALL);
    assert!(sent(&mut session).is_empty());
}

#[test]
fn an_instrument_that_falls_silent_is_called_again() {
    let now = Instant::now();
    let mut session = linked(now);
    let later = now + Duration::from_secs(4);
    session.tick(later, WALL);
    assert_eq!(session.standing(), Conversation::Calling);
    assert!(matches!(
        sent(&mut session)[0].message,
        Command::Hello { .. }
    ));
    session.tick(later + Duration::from_secs(3), WALL);
    assert_eq!(session.standing(), Conversation::Silent);
}

#[test]
fn a_flood_leaves_nothing_behind() {
    let now = Instant::now();
    let mut session = linked(now);
    let one = framed(1, reading(20));
    for _ in 0..10_000 {
        session.bytes(&one, now);
        assert!(session.take_heard().len() <= 1);
        session.tick(now, WALL);
    }
    assert!(session.take_out().is_empty());
    // Bytes that never end a frame are not kept either: the next frame is read.
    session.bytes(&vec![0x41; 5_000_000], now);
    session.bytes(&[0], now);
    session.bytes(&one, now);
    assert_eq!(session.take_heard().len(), 1);
    assert!(session.corrupt() > 0);
}

proptest! {
    #[test]
    fn no_bytes_break_it_and_a_hello_after_them_is_heard(noise in prop::collection::vec(any::<u8>(), 0..2_000)) {
        let now = Instant::now();
        let mut session = Session::new(now, 0);
        session.bytes(&noise, now);
        session.bytes(&[0], now);
        session.bytes(&framed(0, hello(1)), now);
        prop_assert_eq!(session.standing(), Conversation::Linked(DeviceId(1)));
    }
}
