//! The hash chain of portions, against SHA-256's own examples, Python's library
//! and by changing every field of one.

use evenhand_protocol::report::Doubts;
use evenhand_protocol::*;
use proptest::prelude::*;
use sha2::{Digest, Sha256};

fn hex(bytes: &[u8]) -> String {
    bytes.iter().map(|byte| format!("{byte:02x}")).collect()
}

/// The library reckons SHA-256 as the standard's examples have it: "abc" and the message of 448
/// bits are those of FIPS 180-2, appendix B (which FIPS 180-4 took over as NIST's example
/// files), the million of "a" is its third, the empty message NIST's. From memory.
#[test]
fn sha_256_is_that_of_the_standard() {
    let two_blocks = b"abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq";
    for (message, digest) in [
        (
            &b""[..],
            "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855",
        ),
        (
            b"abc",
            "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad",
        ),
        (
            two_blocks,
            "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1",
        ),
        (
            &[b'a'; 1_000_000],
            "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0",
        ),
    ] {
        assert_eq!(hex(&Sha256::digest(message)), digest);
    }
}

fn portion(number: u32, chain_link: ChainLink) -> CapturedPortion {
    CapturedPortion {
        id: PortionId {
            device: DeviceId(0x0123_4567_89AB_CDEF),
            epoch: Epoch(34_935),
            number,
        },
        run: RunId(9),
        at: Uptime::from_millis(u64::from(number) * 9_000),
        unix: None,
        mode: Mode::Taking,
        mass: Mass::from_milligrams(30_000 + i64::from(number)),
        goal: Goal::new(
            Mass::from_grams(30),
            Tolerance::symmetric(Mass::from_grams(1)),
        )
        .unwrap(),
        temperature: Some(Temperature::from_millicelsius(3_900)),
        replaces: None,
        doubts: Doubts::NONE,
        uncertainty: Some(Mass::from_milligrams(310)),
        left: Some(Mass::from_grams(900)),
        chain_link: Some(chain_link),
    }
}

/// The golden frames' digests were reckoned by `hashlib` of Python, over bytes written by hand.
#[test]
fn the_golden_chain_holds() {
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("golden-frames.json");
    let cases: serde_json::Value =
        serde_json::from_str(&std::fs::read_to_string(path).unwrap()).unwrap();
    let chain: Vec<CapturedPortion> = cases
        .as_array()
        .unwrap()
        .iter()
        .filter(|case| {
            let name = case["name"].as_str().unwrap();
            name.starts_with("portion") && name.contains("of a hash chain")
        })
        .map(|case| serde_json::from_value(case["message"]["Portion"].clone()).unwrap())
        .collect();
    let links: Vec<_> = chain
        .iter()
        .map(|portion| portion.chain_link.unwrap())
        .collect();
    assert_eq!(links.len(), 3);
    assert_eq!(links[0], ChainLink::FIRST);
    assert_eq!(chain[0].next_link(), Some(links[1]));
    let after_two_lost = chain[1]
        .next_link()
        .unwrap()
        .after_one_lost()
        .after_one_lost();
    assert_eq!(after_two_lost, links[2]);
}

#[test]
fn every_field_is_part_of_the_digest_but_the_wall_clock() {
    let made = portion(7, ChainLink::FIRST);
    let digest = made.digest();
    assert!(digest.is_some());
    let dated = CapturedPortion {
        unix: Some(UnixMillis::from_millis(1_900_000_000_000)),
        ..made
    };
    assert_eq!(dated.digest(), digest);
    let changes: [fn(&mut CapturedPortion); 17] = [
        |p| p.id.device = DeviceId(1),
        |p| p.id.epoch = Epoch(1),
        |p| p.id.number = 8,
        |p| p.run = RunId(10),
        |p| p.at = Uptime::from_millis(1),
        |p| p.mode = Mode::Adding,
        |p| p.mass += Mass::from_micrograms(1),
        |p| p.goal = goal(31, p.goal.tolerance().below, p.goal.tolerance().above),
        |p| p.goal = goal(30, Mass::from_grams(2), p.goal.tolerance().above),
        |p| p.goal = goal(30, p.goal.tolerance().below, Mass::from_grams(2)),
        |p| p.temperature = None,
        |p| p.replaces = Some(1),
        |p| p.doubts = Doubts::MAYBE_TWO,
        |p| p.uncertainty = None,
        |p| p.left = None,
        |p| p.chain_link = Some(ChainLink::FIRST.after_one_lost()),
        |p| {
            p.chain_link = Some(ChainLink {
                position: 1,
                previous: 1,
            });
        },
    ];
    for (nth, change) in changes.iter().enumerate() {
        let mut changed = made;
        change(&mut changed);
        assert_ne!(changed, made, "{nth}");
        assert_ne!(changed.digest(), digest, "{nth}");
    }
}

fn goal(grams: i64, below: Mass, above: Mass) -> Goal {
    Goal::new(Mass::from_grams(grams), Tolerance { below, above }).unwrap()
}

proptest! {
    /// However long a chain and whatever is in it, a change of one portion's mass is seen at the
    /// next, and nowhere else.
    #[test]
    fn a_change_is_seen_by_the_next_portion(
        masses in proptest::collection::vec(1_i64..1_000_000_000, 3..40),
        place in 0_usize..40,
        by in 1_i64..1_000,
    ) {
        let mut chain = Vec::new();
        let mut link = ChainLink::FIRST;
        for (number, mass) in (1..).zip(masses) {
            let made = CapturedPortion {
                mass: Mass::from_micrograms(mass),
                ..portion(number, link)
            };
            link = made.next_link().unwrap();
            chain.push(made);
        }
        let place = place % (chain.len() - 1);
        chain[place].mass += Mass::from_micrograms(by);
        let broken: Vec<usize> = (0..chain.len() - 1)
            .filter(|at| chain[*at].next_link() != chain[at + 1].chain_link)
            .collect();
        prop_assert_eq!(broken, [place]);
    }
}
