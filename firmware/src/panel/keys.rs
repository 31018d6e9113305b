//! Two buttons, or a knob with a push, as keys.

use evenhand_protocol::Uptime;

/// What a hand asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Key {
    /// A step up.
    More,
    /// A step down.
    Less,
    /// Both buttons, let go again; or the knob, pushed.
    Both,
    /// Both buttons, held; or the knob.
    BothHeld,
}

/// A button that is held begins to repeat after so long.
const REPEAT_AFTER_MS: u64 = 600;
/// And repeats so often.
const REPEAT_EVERY_MS: u64 = 120;
/// Both held for so long is [`Key::BothHeld`].
const HOLD_MS: u64 = 800;
/// A second finger comes down within so long of the first.
const TOGETHER_MS: u64 = 120;

/// Turns two debounced buttons into keys. A single press counts when the other
/// button has not followed it at once, or when it is let go before that.
#[derive(Debug, Clone, Default)]
pub struct Keys {
    /// Which is down alone and since when: true for more.
    alone: Option<(bool, Uptime)>,
    /// When the next repeat is due; `None` before the press itself counted.
    next: Option<Uptime>,
    both_since: Option<Uptime>,
    /// Both were held and that was told: nothing until both are up.
    spent: bool,
}

impl Keys {
    /// No button down.
    #[must_use]
    pub const fn new() -> Self {
        Self {
            alone: None,
            next: None,
            both_since: None,
            spent: false,
        }
    }

    /// Takes the buttons as they are now; gives a key where one is due.
    pub fn poll(&mut self, now: Uptime, less: bool, more: bool) -> Option<Key> {
        match (less, more) {
            (true, true) => {
                self.alone = None;
                self.next = None;
                let since = *self.both_since.get_or_insert(now);
                if self.spent || now.since(since) < HOLD_MS {
                    return None;
                }
                self.spent = true;
                Some(Key::BothHeld)
            }
            (false, false) => {
                let both = self.both_since.take().is_some();
                let tapped = self.alone.take().filter(|_| self.next.is_none());
                self.next = None;
                let spent = core::mem::take(&mut self.spent);
                if both {
                    return (!spent).then_some(Key::Both);
                }
                tapped.map(|(more, _)| single(more))
            }
            // The second finger has not come up yet.
            _ if self.both_since.is_some() => None,
            _ => self.single(now, more),
        }
    }

    fn single(&mut self, now: Uptime, more: bool) -> Option<Key> {
        let since = match self.alone {
            Some((which, since)) if which == more => since,
            _ => {
                self.alone = Some((more, now));
                self.next = None;
                now
            }
        };
        let (due, then) = match self.next {
            None => (
                since.plus_millis(TOGETHER_MS),
                since.plus_millis(REPEAT_AFTER_MS),
            ),
            Some(next) => (next, next.plus_millis(REPEAT_EVERY_MS)),
        };
        if now < due {
            return None;
        }
        self.next = Some(then);
        Some(single(more))
    }
}

const fn single(more: bool) -> Key {
    if more { Key::More } else { Key::Less }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::vec::Vec;

    /// The keys from buttons that are down in these stretches of milliseconds.
    fn keys(less: &[(u64, u64)], more: &[(u64, u64)]) -> Vec<Key> {
        let mut keys = Keys::new();
        let down = |stretches: &[(u64, u64)], millis| {
            stretches
                .iter()
                .any(|(from, to)| (*from..*to).contains(&millis))
        };
        (0..4_000)
            .step_by(5)
            .filter_map(|millis| {
                let now = Uptime::from_millis(millis);
                keys.poll(now, down(less, millis), down(more, millis))
            })
            .collect()
    }

    #[test]
    fn a_tap_is_one_step_short_or_long() {
        assert_eq!(keys(&[], &[(100, 150)]), [Key::More]);
        assert_eq!(keys(&[(100, 500)], &[]), [Key::Less]);
    }

    #[test]
    fn a_held_button_repeats() {
        // 2 s: the press, and from 0.6 s on every 0.12 s.
        let held = keys(&[], &[(100, 2_100)]);
        assert!(held.iter().all(|key| *key == Key::More));
        assert!((12..=14).contains(&held.len()), "{}", held.len());
    }

    #[test]
    fn both_together_are_no_steps() {
        assert_eq!(keys(&[(100, 400)], &[(160, 420)]), [Key::Both]);
        assert_eq!(keys(&[(100, 1_500)], &[(160, 1_520)]), [Key::BothHeld]);
        // Held for ever is told once.
        assert_eq!(keys(&[(100, 3_900)], &[(100, 3_900)]), [Key::BothHeld]);
    }

    #[test]
    fn one_after_the_other_are_two_steps() {
        assert_eq!(keys(&[(100, 200)], &[(400, 500)]), [Key::Less, Key::More]);
    }
}
