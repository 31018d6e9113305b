//! The faulty cable does what it says, the same way each time.

use evenhand_simulator::faulty_link::{FaultyLink, LinkTroubles, PerMillion};
use proptest::prelude::*;

const BYTES: usize = 20_000;

fn through(troubles: LinkTroubles, seed: u64) -> Vec<u8> {
    let mut link = FaultyLink::new(troubles, seed);
    let bytes: Vec<u8> = (0..BYTES).map(|n| (n % 251) as u8).collect();
    link.send(0, &bytes);
    link.receive(u64::MAX)
}

/// That a count is a share of all bytes, within four standard deviations of a
/// binomial draw.
fn share(count: usize, of: f64) {
    let (n, count) = (BYTES as f64, count as f64);
    let sd = (n * of * (1.0 - of)).sqrt();
    assert!(
        (count - n * of).abs() < 4.0 * sd,
        "{count} of {n}, not {of}"
    );
}

#[test]
fn without_troubles_everything_arrives() {
    let sent: Vec<u8> = (0..BYTES).map(|n| (n % 251) as u8).collect();
    assert_eq!(through(LinkTroubles::NONE, 1), sent);
}

#[test]
fn each_trouble_comes_as_often_as_asked() {
    let sent: Vec<u8> = (0..BYTES).map(|n| (n % 251) as u8).collect();
    let lossy = through(
        LinkTroubles {
            lost: PerMillion(50_000),
            ..LinkTroubles::NONE
        },
        2,
    );
    share(BYTES - lossy.len(), 0.05);
    let doubled = through(
        LinkTroubles {
            doubled: PerMillion(50_000),
            ..LinkTroubles::NONE
        },
        3,
    );
    share(doubled.len() - BYTES, 0.05);
    let spoilt = through(
        LinkTroubles {
            spoilt: PerMillion(50_000),
            ..LinkTroubles::NONE
        },
        4,
    );
    let wrong: Vec<u8> = sent
        .iter()
        .zip(&spoilt)
        .map(|(a, b)| a ^ b)
        .filter(|d| *d != 0)
        .collect();
    share(wrong.len(), 0.05);
    assert!(wrong.iter().all(|difference| difference.count_ones() == 1));
    let swapped = through(
        LinkTroubles {
            swapped: PerMillion(20_000),
            ..LinkTroubles::NONE
        },
        5,
    );
    let (mut a, mut b) = (sent.clone(), swapped.clone());
    let moved = sent.iter().zip(&swapped).filter(|(a, b)| a != b).count();
    // A swap moves two; now and then three in a row change places.
    assert!((600..=1_000).contains(&moved), "{moved}");
    a.sort_unstable();
    b.sort_unstable();
    let lost_at_the_end = a.len() - b.len();
    assert!(lost_at_the_end <= 1);
}

#[test]
fn a_delay_holds_back_and_keeps_the_order() {
    let mut link = FaultyLink::new(
        LinkTroubles {
            delayed: PerMillion(1_000_000),
            delay_micros: 1_000,
            ..LinkTroubles::NONE
        },
        1,
    );
    link.send(500, &[1, 2]);
    link.send(900, &[3]);
    assert!(link.receive(1_499).is_empty());
    assert_eq!(link.receive(1_500), [1, 2]);
    assert_eq!(link.receive(2_000), [3]);
}

#[test]
fn a_pulled_cable_carries_nothing() {
    let mut link = FaultyLink::new(LinkTroubles::NONE, 1);
    link.send(0, &[1]);
    link.set_up(false);
    link.send(1, &[2]);
    link.set_up(true);
    link.send(2, &[3]);
    assert_eq!(link.receive(9), [3]);
}

proptest! {
    #[test]
    fn the_seed_decides_and_not_the_pieces(seed: u64, bytes: Vec<u8>, cut in 0_usize..200) {
        let mut whole = FaultyLink::new(LinkTroubles::BAD, seed);
        let mut pieces = FaultyLink::new(LinkTroubles::BAD, seed);
        whole.send(0, &bytes);
        let cut = cut.min(bytes.len());
        pieces.send(0, &bytes[..cut]);
        pieces.send(0, &bytes[cut..]);
        prop_assert_eq!(whole.receive(u64::MAX), pieces.receive(u64::MAX));
    }
}
