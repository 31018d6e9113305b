//! The outbox against a peer that loses what it hears and says.

use evenhand_firmware::outbox::{Outbox, Unnamed};
use evenhand_protocol::report::Doubts;
use evenhand_protocol::{DeviceId, Epoch, Goal, Mass, Mode, PortionId, RunId, Tolerance, Uptime};
use proptest::prelude::*;
use std::collections::BTreeMap;

fn portion(grams: i64) -> Unnamed {
    Unnamed {
        run: RunId(1),
        at: Uptime::from_millis(1),
        unix: None,
        mode: Mode::Adding,
        mass: Mass::from_grams(grams),
        goal: Goal::new(
            Mass::from_grams(30),
            Tolerance::symmetric(Mass::from_grams(1)),
        )
        .unwrap(),
        temperature: None,
        replaces: None,
        doubts: Doubts::NONE,
        uncertainty: None,
        left: None,
    }
}

fn outbox<const PLACES: usize>() -> Outbox<PLACES> {
    Outbox::new(DeviceId(7), Epoch(3))
}

fn at(millis: u64) -> Uptime {
    Uptime::from_millis(millis)
}

#[test]
fn numbers_go_up_from_one_and_the_oldest_goes_first() {
    let mut outbox = outbox::<8>();
    for (number, grams) in (1..=3).zip([30, 31, 29]) {
        assert_eq!(outbox.keep(portion(grams)), Some(number));
    }
    let sent: Vec<u32> = core::iter::from_fn(|| outbox.next(at(0)))
        .map(|portion| portion.id.number)
        .collect();
    assert_eq!(sent, [1, 2, 3]);
}

#[test]
fn a_few_are_in_flight_and_each_is_sent_again_after_half_a_second() {
    let mut outbox = outbox::<8>();
    for grams in 0..8 {
        outbox.keep(portion(grams));
    }
    let mut sent = |now| -> Vec<u32> {
        core::iter::from_fn(|| outbox.next(at(now)))
            .map(|portion| portion.id.number)
            .collect()
    };
    assert_eq!(sent(0), [1, 2, 3, 4]);
    assert_eq!(sent(499), []);
    assert_eq!(sent(500), [1, 2, 3, 4]);
}

#[test]
fn acknowledged_in_any_order() {
    let mut outbox = outbox::<8>();
    for grams in 0..6 {
        outbox.keep(portion(grams));
    }
    let id = |number| PortionId {
        device: DeviceId(7),
        epoch: Epoch(3),
        number,
    };
    outbox.acknowledge(id(2));
    outbox.acknowledge(id(2));
    outbox.acknowledge(id(99));
    outbox.acknowledge(PortionId {
        epoch: Epoch(2),
        ..id(1)
    });
    assert_eq!(outbox.len(), 5);
    let sent: Vec<u32> = core::iter::from_fn(|| outbox.next(at(0)))
        .map(|portion| portion.id.number)
        .collect();
    assert_eq!(sent, [1, 3, 4, 5]);
}

#[test]
fn when_full_the_new_one_is_lost_and_counted_and_leaves_no_gap() {
    let mut outbox = outbox::<2>();
    assert_eq!(outbox.keep(portion(1)), Some(1));
    assert_eq!(outbox.keep(portion(2)), Some(2));
    assert_eq!(outbox.keep(portion(3)), None);
    assert_eq!(outbox.keep(portion(4)), None);
    assert_eq!(outbox.lost(), 2);
    let first = outbox.next(at(0)).unwrap();
    assert_eq!(first.mass, Mass::from_grams(1));
    outbox.acknowledge(first.id);
    assert_eq!(outbox.keep(portion(5)), Some(3));
}

#[test]
fn a_new_listener_gets_everything_at_once() {
    let mut outbox = outbox::<4>();
    outbox.keep(portion(30));
    assert!(outbox.next(at(0)).is_some());
    assert!(outbox.next(at(1)).is_none());
    outbox.send_all_again();
    assert!(outbox.next(at(2)).is_some());
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    /// Whatever share of portions and acknowledgements is lost, as long as
    /// some get through: every portion is recorded once, in the end.
    #[test]
    fn exactly_once_over_a_lossy_line(
        masses in prop::collection::vec(1i64..1_000, 1..40),
        heard in prop::collection::vec(any::<bool>(), 1..50),
        answered in prop::collection::vec(any::<bool>(), 1..50),
    ) {
        let mut outbox = outbox::<16>();
        let mut to_make = masses.iter().copied();
        let mut made = Vec::new();
        let mut recorded: BTreeMap<PortionId, Mass> = BTreeMap::new();
        let mut heard = heard.into_iter().chain([true]).cycle();
        let mut answered = answered.into_iter().chain([true]).cycle();
        let mut now = 0;
        loop {
            now += 100;
            if now % 700 == 0
                && outbox.len() < 16
                && let Some(grams) = to_make.next()
            {
                outbox.keep(portion(grams));
                made.push(Mass::from_grams(grams));
            }
            while let Some(sent) = outbox.next(at(now)) {
                if heard.next().unwrap() {
                    let again = recorded.insert(sent.id, sent.mass);
                    prop_assert!(again.is_none_or(|before| before == sent.mass));
                    if answered.next().unwrap() {
                        outbox.acknowledge(sent.id);
                    }
                }
            }
            if outbox.is_empty() && made.len() == masses.len() {
                break;
            }
            prop_assert!(now < 10_000_000, "it never ends");
        }
        prop_assert_eq!(recorded.into_values().collect::<Vec<_>>(), made);
        prop_assert_eq!(outbox.lost(), 0);
    }
}
