//! A peer of another minor version is understood as far as both know, in both
//! directions, and one of another major version is refused in words. The rule
//! is "How a message gains a field" in WIRE.md.

use evenhand_protocol::frame::{MAX_FRAME, encode};
use evenhand_protocol::report::{Capabilities, Doubts};
use evenhand_protocol::*;
use proptest::prelude::*;
use serde::{Deserialize, Serialize};

/// A report as version 1.2 had it, read as a program of 1.2 reads it.
#[derive(Debug, PartialEq, Serialize, Deserialize)]
enum OldReport {
    Hello(OldHello),
}

/// A hello as version 1.2 had it. Do not bring this up to date: it is that reader.
#[derive(Debug, PartialEq, Serialize, Deserialize)]
struct OldHello {
    version: (u8, u8),
    device: u64,
    epoch: u32,
    at: u64,
    capabilities: u32,
    capacity: i64,
    interval: i64,
    outbox: u16,
}

/// A portion as versions up to 1.4 had it. Do not bring this up to date: it is that reader.
#[derive(Debug, PartialEq, Serialize, Deserialize)]
struct OldPortion {
    id: (u64, u32, u32),
    run: u32,
    at: u64,
    unix: Option<i64>,
    mode: u8,
    mass: i64,
    goal: (i64, i64, i64),
    temperature: Option<i32>,
    replaces: Option<u32>,
    doubts: u32,
    uncertainty: Option<i64>,
    left: Option<i64>,
}

/// A program of 1.2 takes a payload only if nothing is left of it.
fn read_by_1_2(payload: &[u8]) -> Option<OldReport> {
    match postcard::take_from_bytes(payload) {
        Ok((report, [])) => Some(report),
        _ => None,
    }
}

/// A hello with one field more than this version knows, as a 1.4 may have it.
#[derive(Serialize)]
enum NewReport {
    Hello(Hello, Option<u32>),
}

fn bytes_of(value: &impl Serialize) -> Vec<u8> {
    let mut buffer = [0; 100];
    postcard::to_slice(value, &mut buffer).unwrap().to_vec()
}

fn hello(verification_interval: Option<Mass>) -> Hello {
    Hello {
        version: Version::CURRENT,
        device: DeviceId(0xA1),
        epoch: Epoch(7),
        at: Uptime::from_millis(1_234_567),
        capabilities: Capabilities::PORTIONS.union(Capabilities::PROBE),
        capacity: Mass::from_grams(1_000),
        interval: Mass::from_milligrams(100),
        outbox: 64,
        verification_interval,
    }
}

fn old_hello() -> OldReport {
    OldReport::Hello(OldHello {
        version: (Version::CURRENT.major, Version::CURRENT.minor),
        device: 0xA1,
        epoch: 7,
        at: 1_234_567,
        capabilities: 3,
        capacity: 1_000_000_000,
        interval: 100_000,
        outbox: 64,
    })
}

fn write(report: Report) -> Vec<u8> {
    let mut out = [0; MAX_FRAME];
    let envelope = Envelope {
        sequence: 5,
        message: report,
    };
    let length = encode(&envelope, &mut out).unwrap();
    let mut reader = Reader::<Report>::new();
    for byte in &out[..length] {
        let _ = reader.push(*byte);
    }
    reader.payload().to_vec()
}

fn read(payload: &[u8]) -> Result<Report, FrameError> {
    let mut raw = vec![1, b'R', 5, 0];
    raw.extend(payload);
    raw.extend(
        crc::Crc::<u32>::new(&crc::CRC_32_ISCSI)
            .checksum(&raw)
            .to_le_bytes(),
    );
    let mut stuffed = vec![0; cobs::max_encoding_length(raw.len()) + 1];
    cobs::encode(&raw, &mut stuffed);
    let mut reader = Reader::new();
    let got = stuffed.iter().find_map(|byte| reader.push(*byte)).unwrap();
    got.map(|envelope| envelope.message)
}

#[test]
fn an_old_reader_takes_what_a_new_writer_tells_it() {
    // What an instrument says to a desktop of 1.2: the field that came with 1.3 is not told.
    assert_eq!(
        read_by_1_2(&write(Report::Hello(hello(None)))),
        Some(old_hello())
    );
    // And why it must not tell it: that reader would take none of it.
    let told = write(Report::Hello(hello(Some(Mass::from_grams(1)))));
    assert_eq!(read_by_1_2(&told), None);
}

#[test]
fn a_new_reader_takes_what_an_old_writer_says() {
    let old = bytes_of(&old_hello());
    let got = read(&old).unwrap();
    assert_eq!(got, Report::Hello(hello(None)));
    // It says of itself that the interval was not told, and takes the coarser one.
    let Report::Hello(got) = got else {
        unreachable!("compared above")
    };
    let coarsest = VerificationInterval::coarsest(Mass::from_milligrams(100));
    assert_eq!(got.verification(), coarsest);
    assert!(!got.verification().is_told());
}

#[test]
fn this_reader_takes_what_a_later_writer_says() {
    let known = hello(Some(Mass::from_grams(1)));
    for more in [Some(70_000), None] {
        let later = bytes_of(&NewReport::Hello(known, more));
        assert_eq!(read(&later), Ok(Report::Hello(known)), "{more:?}");
    }
}

#[test]
fn a_message_that_ends_within_a_field_is_never_half_read() {
    for report in [
        Report::Hello(hello(Some(Mass::from_grams(1)))),
        Report::Notice {
            at: Uptime::from_millis(9_000),
            notice: Notice::Refilled(Mass::from_grams(500)),
        },
    ] {
        let whole = write(report);
        for keep in 0..whole.len() {
            let cut = &whole[..keep];
            // The one end that is none: before the field that came later.
            let expected = (cut == write(Report::Hello(hello(None))))
                .then_some(Report::Hello(hello(None)))
                .ok_or(FrameError::UnknownMessage { sequence: 5 });
            // A frame without a payload at all is noise.
            if keep > 0 {
                assert_eq!(read(cut), expected, "{keep} of {report:?}");
            }
        }
    }
}

#[test]
fn peers_speak_the_lower_minor_version() {
    let version = |minor| Version { major: 1, minor };
    assert_eq!(version(3).shared_with(version(1)), Ok(version(1)));
    assert_eq!(version(1).shared_with(version(3)), Ok(version(1)));
    assert_eq!(version(2).shared_with(version(2)), Ok(version(2)));
}

#[test]
fn another_major_version_is_refused_in_words() {
    let newer = FrameError::OtherVersion { theirs: 2 };
    assert_eq!(
        newer.to_string(),
        "the other end speaks version 2 of the link and this end version 1: \
         this end is the older one and needs an update"
    );
    let older = FrameError::OtherVersion { theirs: 0 };
    assert_eq!(
        older.to_string(),
        "the other end speaks version 0 of the link and this end version 1: \
         the other end is the older one and needs an update"
    );
    // The same by the version in a hello.
    let other = Version { major: 2, minor: 0 };
    let refused = Version::CURRENT.shared_with(other).unwrap_err();
    assert_eq!(refused.to_string(), newer.to_string());
}

#[test]
fn bits_of_a_later_version_are_kept_and_told_apart() {
    let doubts = Doubts(1 << 31 | Doubts::STRADDLES_LIMIT.0);
    assert_eq!(doubts.unknown(), Doubts(1 << 31));
    assert!(doubts.contains(Doubts::STRADDLES_LIMIT));
    assert_eq!(Doubts::KNOWN.unknown(), Doubts::NONE);
    let faults: fault::FaultSet = serde_json::from_str("1073741825").unwrap();
    assert_eq!(faults.unknown(), 1 << 30);
    assert!(faults.iter().eq([Fault::BridgeTimeout]) && !faults.is_empty());
}

proptest! {
    /// Whatever a later version appends, the fields known here are read, and a hello's own are
    /// never changed by it.
    #[test]
    fn trailing_bytes_change_nothing(more in proptest::collection::vec(any::<u8>(), 0..60)) {
        let known = Report::Hello(hello(Some(Mass::from_grams(1))));
        let mut payload = write(known);
        payload.extend(more);
        prop_assert_eq!(read(&payload), Ok(known));
    }
}

fn portion(chain_link: Option<ChainLink>) -> CapturedPortion {
    let tolerance = Tolerance::symmetric(Mass::from_grams(1));
    CapturedPortion {
        id: PortionId {
            device: DeviceId(0xA1),
            epoch: Epoch(7),
            number: 3,
        },
        run: RunId(12),
        at: Uptime::from_millis(80_000),
        unix: None,
        mode: Mode::Taking,
        mass: Mass::from_grams(31),
        goal: Goal::new(Mass::from_grams(30), tolerance).unwrap(),
        temperature: Some(Temperature::from_millicelsius(3_500)),
        replaces: None,
        doubts: Doubts::NONE,
        uncertainty: Some(Mass::from_milligrams(300)),
        left: Some(Mass::from_grams(800)),
        chain_link,
    }
}

fn old_portion() -> OldPortion {
    OldPortion {
        id: (0xA1, 7, 3),
        run: 12,
        at: 80_000,
        unix: None,
        mode: 1,
        mass: 31_000_000,
        goal: (30_000_000, 1_000_000, 1_000_000),
        temperature: Some(3_500),
        replaces: None,
        doubts: 0,
        uncertainty: Some(300_000),
        left: Some(800_000_000),
    }
}

const LINK: ChainLink = ChainLink {
    position: 70_000,
    previous: 0x0123_4567_89AB_CDEF,
};

#[test]
fn a_portion_of_an_older_instrument_stands_in_no_chain() {
    // Report 2.
    let old = bytes_of(&(2_u8, old_portion()));
    assert_eq!(read(&old), Ok(Report::Portion(portion(None))));
    assert_eq!(portion(None).digest(), None);
    // The same bytes are written where none is told.
    assert_eq!(write(Report::Portion(portion(None))), old);
}

#[test]
fn a_desktop_of_1_3_or_1_4_takes_a_portion_and_leaves_its_link_alone() {
    let told = write(Report::Portion(portion(Some(LINK))));
    let (old, rest): ((u8, OldPortion), &[u8]) = postcard::take_from_bytes(&told).unwrap();
    assert_eq!(old, (2, old_portion()));
    // The witness that it was told: option, position and digest.
    assert_eq!(rest.len(), 1 + 3 + 9);
}

#[test]
fn a_portion_that_ends_within_its_link_is_never_half_read() {
    let whole = write(Report::Portion(portion(Some(LINK))));
    let without = write(Report::Portion(portion(None)));
    for keep in 1..whole.len() {
        let cut = &whole[..keep];
        let expected = (cut == without)
            .then_some(Report::Portion(portion(None)))
            .ok_or(FrameError::UnknownMessage { sequence: 5 });
        assert_eq!(read(cut), expected, "{keep}");
    }
}
