//! Frames survive the line, and the line's garbage does not survive the reader.

use evenhand_protocol::frame::{MAX_FRAME, encode};
use evenhand_protocol::reader::SequenceWatch;
use evenhand_protocol::*;
use proptest::prelude::*;

fn frame<M: Message>(sequence: u16, message: M) -> Vec<u8> {
    let mut out = [0; MAX_FRAME];
    let length = encode(&Envelope { sequence, message }, &mut out).unwrap();
    out[..length].to_vec()
}

fn read<M: Message>(bytes: &[u8]) -> Vec<Result<Envelope<M>, FrameError>> {
    let mut reader = Reader::new();
    bytes.iter().filter_map(|b| reader.push(*b)).collect()
}

fn stuffed(raw: &[u8]) -> Vec<u8> {
    let mut out = vec![0; cobs::max_encoding_length(raw.len()) + 1];
    let length = cobs::encode(raw, &mut out);
    out.truncate(length + 1);
    out
}

fn goal() -> Goal {
    Goal::new(
        Mass::from_grams(30),
        Tolerance::symmetric(Mass::from_grams(1)),
    )
    .unwrap()
}

fn portion(number: u32, micrograms: i64) -> Report {
    Report::Portion(CapturedPortion {
        id: PortionId {
            device: DeviceId(u64::MAX),
            epoch: Epoch(u32::MAX),
            number,
        },
        run: RunId(u32::MAX),
        at: Uptime::from_millis(u64::MAX),
        unix: Some(UnixMillis::from_millis(i64::MIN)),
        mode: Mode::Taking,
        mass: Mass::from_micrograms(micrograms),
        goal: goal(),
        temperature: Some(Temperature::from_millicelsius(i32::MIN)),
        replaces: Some(u32::MAX),
        doubts: report::Doubts(u32::MAX),
        uncertainty: Some(Mass::from_micrograms(i64::MIN)),
        left: Some(Mass::from_micrograms(i64::MIN)),
        chain_link: None,
    })
}

// The bytes of WIRE.md, worked out by hand from that file but for the checksum.
#[test]
fn a_tare_command_is_these_bytes() {
    let bytes = frame(0x0201, Command::Tare);
    // Raw: 01 43 01 02 | 01 | crc32c; no zero among the first five, so COBS
    // puts the whole in one block when the checksum has no zero either.
    assert_eq!(bytes[1..6], [0x01, 0x43, 0x01, 0x02, 0x01]);
    assert_eq!(*bytes.last().unwrap(), 0);
    assert_eq!(bytes.len(), 1 + 9 + 1);
}

// WIRE.md, version 1.1: command 10, then 500 g and 25 mg in micrograms as zigzag varints, which are
// 1 000 000 000 and 50 000: seven bits a byte, low first.
#[test]
fn a_known_weight_is_these_bytes() {
    let weight = KnownWeight {
        mass: Mass::from_grams(500),
        limit: Mass::from_milligrams(25),
    };
    let bytes = frame(0x0201, Command::TakePoint(weight));
    assert_eq!(
        bytes[1..14],
        [
            1, 0x43, 1, 2, 10, 0x80, 0x94, 0xEB, 0xDC, 0x03, 0xD0, 0x86, 0x03
        ]
    );
}

#[test]
fn what_came_with_version_1_1_comes_through() {
    let most = Mass::from_micrograms(i64::MIN);
    let reports = [
        Report::Calibration {
            at: Uptime::from_millis(u64::MAX),
            standing: Calibrating {
                points: u8::MAX,
                last: Some(PointTaken {
                    load: most,
                    millicounts: i64::MIN,
                    noise_millicounts: u32::MAX,
                }),
                made: Some(CalibrationMade {
                    points: u8::MAX,
                    millicounts_per_gram: i64::MIN,
                    heaviest: most,
                    nonlinearity: most,
                    residual: most,
                    uncertainty: most,
                }),
            },
        },
        Report::Tested {
            at: Uptime::from_millis(u64::MAX),
            test: SelfTest {
                known: most,
                indicated: most,
                limit: most,
                uncertainty: most,
            },
        },
        Report::Reply {
            to: u16::MAX,
            outcome: Err(Refusal::Test(SelfTestRefusal::AnotherLoad)),
        },
    ];
    for message in reports {
        let sequence = 7;
        let got = read::<Report>(&frame(sequence, message));
        assert_eq!(got, [Ok(Envelope { sequence, message })]);
    }
}

// RFC 3720, B.4: 32 bytes of zeros have the CRC-32C aa 36 91 8a. The check value that catalogues of
// checksums give is that of the nine digits (from memory).
#[test]
fn the_checksum_is_that_of_rfc_3720() {
    let crc = crc::Crc::<u32>::new(&crc::CRC_32_ISCSI);
    assert_eq!(crc.checksum(b"123456789"), 0xE306_9283);
    assert_eq!(
        crc.checksum(&[0; 32]).to_le_bytes(),
        [0xaa, 0x36, 0x91, 0x8a]
    );
    assert_eq!(
        crc.checksum(&[0xff; 32]).to_le_bytes(),
        [0x43, 0xab, 0xa8, 0x62]
    );
}

#[test]
fn another_major_version_is_named_and_not_decoded() {
    let mut raw = vec![2, b'R', 0, 0, 0xFF, 0xFF, 0xFF];
    let crc = crc::Crc::<u32>::new(&crc::CRC_32_ISCSI).checksum(&raw);
    raw.extend(crc.to_le_bytes());
    let bytes = stuffed(&raw);
    assert_eq!(
        read::<Report>(&bytes),
        [Err(FrameError::OtherVersion { theirs: 2 })]
    );
}

#[test]
fn a_message_from_a_later_minor_version_is_refused_by_number() {
    let mut raw = vec![1, b'C', 9, 0, 100];
    let crc = crc::Crc::<u32>::new(&crc::CRC_32_ISCSI).checksum(&raw);
    raw.extend(crc.to_le_bytes());
    let bytes = stuffed(&raw);
    assert_eq!(
        read::<Command>(&bytes),
        [Err(FrameError::UnknownMessage { sequence: 9 })]
    );
}

#[test]
fn an_own_echo_is_told_from_a_peer() {
    assert_eq!(
        read::<Report>(&frame(1, Command::Zero)),
        [Err(FrameError::WrongDirection)]
    );
}

#[test]
fn missed_and_repeated_frames_are_counted_over_the_wrap() {
    let mut watch = SequenceWatch::default();
    for sequence in [65_533, 65_534, 1, 1, 65_535, 2] {
        watch.take(sequence);
    }
    assert_eq!((watch.missed, watch.repeated), (2, 2));
}

proptest! {
    #[test]
    fn any_portion_comes_through(number: u32, micrograms: i64, sequence: u16) {
        let sent = portion(number, micrograms);
        let got = read::<Report>(&frame(sequence, sent));
        prop_assert_eq!(got, vec![Ok(Envelope { sequence, message: sent })]);
    }

    /// After any garbage, closed by a zero, the next frame is read.
    #[test]
    fn the_reader_finds_its_feet(garbage in proptest::collection::vec(any::<u8>(), 0..2_000)) {
        let mut bytes = garbage;
        bytes.push(0);
        bytes.extend(frame(5, Command::Zero));
        let got = read::<Command>(&bytes);
        prop_assert_eq!(got.last(), Some(&Ok(Envelope { sequence: 5, message: Command::Zero })));
    }

    /// A frame with any one byte changed is never taken for another message.
    #[test]
    fn one_wrong_byte_is_never_a_message(place in 0usize..200, flip in 1u8.., number: u32) {
        let good = frame(3, portion(number, 30_000_000));
        let mut bytes = good.clone();
        let place = place % bytes.len();
        bytes[place] ^= flip;
        bytes.push(0);
        for got in read::<Report>(&bytes) {
            prop_assert!(got.is_err());
        }
    }

    /// A frame cut anywhere is never taken for a message.
    #[test]
    fn a_cut_frame_is_never_a_message(keep in 0usize..200, number: u32) {
        let good = frame(3, portion(number, 30_000_000));
        let keep = keep % (good.len() - 1);
        let mut bytes = good[..keep].to_vec();
        bytes.push(0);
        for got in read::<Report>(&bytes) {
            prop_assert!(got.is_err());
        }
    }
}
