//! A cable that loses, spoils and delays what it carries, the same way each
//! time.

use crate::random::{Draws, Stream};
use std::collections::VecDeque;

/// A share in parts of a million, from 0 to 1 000 000; more is as good as all.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct PerMillion(pub u32);

/// How often what goes wrong, each a share of the bytes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct LinkTroubles {
    /// Bytes lost.
    pub lost: PerMillion,
    /// Bytes in which one bit turns.
    pub spoilt: PerMillion,
    /// Bytes that come twice.
    pub doubled: PerMillion,
    /// Bytes that change places with the next one.
    pub swapped: PerMillion,
    /// Bytes before which everything stops for `delay_micros`.
    pub delayed: PerMillion,
    /// How long a delay lasts, in microseconds.
    pub delay_micros: u64,
}

impl LinkTroubles {
    /// A cable without fault.
    pub const NONE: Self = Self {
        lost: PerMillion(0),
        spoilt: PerMillion(0),
        doubled: PerMillion(0),
        swapped: PerMillion(0),
        delayed: PerMillion(0),
        delay_micros: 0,
    };

    /// One byte in four hundred meets something: most frames of sixty bytes
    /// pass, one in eight does not.
    pub const BAD: Self = Self {
        lost: PerMillion(500),
        spoilt: PerMillion(500),
        doubled: PerMillion(500),
        swapped: PerMillion(500),
        delayed: PerMillion(500),
        delay_micros: 50_000,
    };
}

/// One direction of a faulty cable. Put bytes in with [`FaultyLink::send`] and
/// take out what has arrived by a time with [`FaultyLink::receive`]; two of
/// them make a cable.
///
/// What goes wrong depends only on the seed and on the bytes' order, not on
/// when they come or in how many pieces.
///
/// ```
/// use evenhand_simulator::faulty_link::{FaultyLink, LinkTroubles, PerMillion};
/// let half = PerMillion(500_000);
/// let mut link = FaultyLink::new(LinkTroubles { lost: half, ..LinkTroubles::NONE }, 7);
/// link.send(0, &[1; 1000]);
/// let arrived = link.receive(0).len();
/// assert!((400..600).contains(&arrived));
/// ```
#[derive(Debug, Clone)]
pub struct FaultyLink {
    troubles: LinkTroubles,
    draws: Draws,
    /// Arrival times and bytes, in order.
    under_way: VecDeque<(u64, u8)>,
    /// A byte that waits to change places with the next.
    held: Option<u8>,
    /// Nothing arrives before this.
    not_before: u64,
    up: bool,
}

impl FaultyLink {
    /// A cable with these troubles, decided by a seed.
    #[must_use]
    pub fn new(troubles: LinkTroubles, seed: u64) -> Self {
        Self {
            troubles,
            draws: Draws::new(seed, Stream::Link),
            under_way: VecDeque::new(),
            held: None,
            not_before: 0,
            up: true,
        }
    }

    /// Pulls the cable out (`false`) or puts it in. What is under way when it
    /// is pulled is lost, and so is everything sent until it is in again.
    pub fn set_up(&mut self, up: bool) {
        if !up {
            self.under_way.clear();
            self.held = None;
        }
        self.up = up;
    }

    /// Sends bytes at a time in microseconds.
    pub fn send(&mut self, now_micros: u64, bytes: &[u8]) {
        for byte in bytes {
            self.send_one(now_micros, *byte);
        }
    }

    fn send_one(&mut self, now: u64, byte: u8) {
        // Every byte takes the same draws, so that one trouble's share leaves
        // the others where they were.
        let [lost, spoilt, doubled, swapped, delayed] = [
            self.troubles.lost,
            self.troubles.spoilt,
            self.troubles.doubled,
            self.troubles.swapped,
            self.troubles.delayed,
        ]
        .map(|PerMillion(parts)| self.draws.chance(f64::from(parts) / 1e6));
        let bit = self.draws.whole(0.0, 7.0);
        if !self.up || lost {
            return;
        }
        if delayed {
            self.not_before = self
                .not_before
                .max(now.saturating_add(self.troubles.delay_micros));
        }
        let byte = if spoilt { byte ^ 1 << bit } else { byte };
        if swapped && self.held.is_none() {
            self.held = Some(byte);
            return;
        }
        let at = self.not_before.max(now);
        self.under_way.push_back((at, byte));
        if doubled {
            self.under_way.push_back((at, byte));
        }
        if let Some(earlier) = self.held.take() {
            self.under_way.push_back((at, earlier));
        }
    }

    /// Takes out what has arrived by a time in microseconds.
    pub fn receive(&mut self, now_micros: u64) -> Vec<u8> {
        let mut arrived = Vec::new();
        while let Some((_, byte)) = self.under_way.pop_front_if(|(at, _)| *at <= now_micros) {
            arrived.push(byte);
        }
        arrived
    }
}
