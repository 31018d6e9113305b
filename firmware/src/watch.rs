//! What a watchdog is fed by: samples that come, and nothing else.
//!
//! A watchdog that every turn of a loop feeds guards only against a loop that
//! hangs. This one is fed when the bridge has said something new since the
//! last time, or has told a fault of its own in good time: a loop that turns
//! and weighs nothing is started anew.

use evenhand_protocol::Uptime;

/// A watchdog that starts the processor anew when it is not fed in time. A
/// board implements it over its own.
pub trait Watchdog {
    /// Puts off the end.
    fn feed(&mut self);
}

/// Decides when a watchdog is fed.
#[derive(Debug, Clone)]
pub struct Watch<W> {
    dog: W,
    progress: u32,
    /// When there was progress last.
    at: Uptime,
    patience: u64,
}

impl<W: Watchdog> Watch<W> {
    /// A watch over a loop whose progress is counted from 0, which may rest
    /// for so many milliseconds: longer than a converter takes to be found
    /// silent and started again (two seconds is enough).
    pub const fn new(dog: W, patience_millis: u64) -> Self {
        Self {
            dog,
            progress: 0,
            at: Uptime::from_millis(0),
            patience: patience_millis,
        }
    }

    /// Takes how often the bridge has given a conversion or a fault, as
    /// [`Station::progress`](crate::station::Station::progress) counts it.
    /// Feeds the watchdog unless that has stood still for too long. Returns
    /// whether it did.
    pub fn see(&mut self, now: Uptime, progress: u32) -> bool {
        if progress != self.progress {
            self.progress = progress;
            self.at = now;
        }
        let alive = now.since(self.at) <= self.patience;
        if alive {
            self.dog.feed();
        }
        alive
    }

    /// The watchdog.
    pub const fn dog(&self) -> &W {
        &self.dog
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[derive(Default)]
    struct Dog {
        fed: u32,
    }

    impl Watchdog for Dog {
        fn feed(&mut self) {
            self.fed += 1;
        }
    }

    #[test]
    fn it_is_fed_while_samples_come_and_starves_when_they_stop() {
        let mut watch = Watch::new(Dog::default(), 2_000);
        for turn in 0..800_u32 {
            let now = Uptime::from_millis(u64::from(turn) * 13);
            assert!(watch.see(now, turn));
        }
        assert_eq!(watch.dog().fed, 800);
        // The loop turns on, and no sample comes.
        let stopped = 800 * 13;
        let fed = (0..1_000)
            .filter(|turn| watch.see(Uptime::from_millis(stopped + turn * 10), 799))
            .count();
        // 2 s, less the turn in which the last sample came.
        assert!((198..=200).contains(&fed), "{fed}");
        assert!(!watch.see(Uptime::from_millis(60_000), 799));
        // A bridge that speaks again is believed.
        assert!(watch.see(Uptime::from_millis(60_010), 800));
    }
}
