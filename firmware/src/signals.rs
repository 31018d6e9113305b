//! The verdict for eyes and ears: three lamps side by side and a buzzer.
//!
//! The lamps are told apart by place as well as by colour: short on the left,
//! on target in the middle, heavy on the right. The sounds are told apart by
//! rhythm, because a kitchen is loud and one buzzer has one pitch.
//!
//! | sound | rhythm (ms) |
//! | --- | --- |
//! | target reached | one tick: 60 |
//! | heavy | three: 80, pause 80 |
//! | captured | short and long: 60, pause 60, 200 |
//! | look here (not counted, doubtful, cannot weigh) | two long: 400, pause 200 |

use evenhand_protocol::{Uptime, Verdict};

/// What a board puts on its pins.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Signals {
    /// The left lamp: short.
    pub short: bool,
    /// The middle lamp: on target.
    pub on: bool,
    /// The right lamp: heavy.
    pub heavy: bool,
    /// The buzzer.
    pub buzzer: bool,
}

/// What the lamps show.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Indication {
    /// Nothing to judge: dark.
    #[default]
    Dark,
    /// The live verdict, and whether the load is steady.
    Live(Verdict, bool),
    /// A fault stops weighing: all three blink together.
    Blocked,
}

/// A rhythm: sound and silence by turns, in milliseconds, sound first.
type Rhythm = &'static [u16];

const REACHED: Rhythm = &[60];
const HEAVY: Rhythm = &[80, 80, 80, 80, 80];
const CAPTURED: Rhythm = &[60, 60, 200];
const ATTENTION: Rhythm = &[400, 200, 400];

/// A verdict must hold for so long before it sounds, so that a spoon's push
/// does not chatter.
const HOLD_MS: u64 = 120;
/// The lamps show a captured portion's verdict for so long.
const AFTERGLOW_MS: u64 = 1_500;
/// Half of the period in which all lamps blink.
const BLINK_MS: u64 = 500;

/// Turns what happens into lamps and sounds. Depends on the times it is given
/// and on nothing else.
#[derive(Debug, Clone, Default)]
pub struct Signaller {
    indication: Indication,
    since: Uptime,
    /// The verdict that was last told by sound in this portion.
    told: Option<Verdict>,
    captured: Option<(Verdict, Uptime)>,
    sound: Option<(Rhythm, Uptime)>,
}

impl Signaller {
    /// Dark and silent.
    #[must_use]
    pub const fn new() -> Self {
        Self {
            indication: Indication::Dark,
            since: Uptime::from_millis(0),
            told: None,
            captured: None,
            sound: None,
        }
    }

    /// Takes what is to be shown from now on.
    pub fn show(&mut self, now: Uptime, indication: Indication) {
        let verdict = |indication| match indication {
            Indication::Live(verdict, _) => Some(verdict),
            Indication::Dark | Indication::Blocked => None,
        };
        if indication == Indication::Blocked && self.indication != Indication::Blocked {
            self.sound = Some((ATTENTION, now));
        }
        if core::mem::discriminant(&indication) != core::mem::discriminant(&self.indication)
            || verdict(indication) != verdict(self.indication)
        {
            self.since = now;
        }
        self.indication = indication;
        match indication {
            Indication::Live(verdict, steady) => {
                // A push of the spoon reads heavy; a steady load that does is.
                let sure =
                    now.since(self.since) >= HOLD_MS && (steady || verdict != Verdict::Heavy);
                if sure && self.told != Some(verdict) {
                    self.told = Some(verdict);
                    match verdict {
                        Verdict::Short => {}
                        Verdict::On => self.sound = Some((REACHED, now)),
                        Verdict::Heavy => self.sound = Some((HEAVY, now)),
                    }
                }
            }
            Indication::Dark | Indication::Blocked => self.told = None,
        }
    }

    /// A portion was captured.
    pub fn captured(&mut self, now: Uptime, verdict: Verdict) {
        self.captured = Some((verdict, now));
        self.told = None;
        self.sound = Some((CAPTURED, now));
    }

    /// Something was not counted or is in doubt.
    pub fn attention(&mut self, now: Uptime) {
        self.sound = Some((ATTENTION, now));
    }

    /// Lamps and buzzer at this moment.
    #[must_use]
    pub fn signals(&self, now: Uptime) -> Signals {
        let glow = self
            .captured
            .filter(|(_, at)| now.since(*at) < AFTERGLOW_MS)
            .map(|(verdict, _)| verdict);
        let buzzer = self
            .sound
            .is_some_and(|(rhythm, at)| sounds(rhythm, now.since(at)));
        let lit = match (self.indication, glow) {
            (Indication::Blocked, _) => {
                let lit = (now.since(self.since) / BLINK_MS).is_multiple_of(2);
                return Signals {
                    short: lit,
                    on: lit,
                    heavy: lit,
                    buzzer,
                };
            }
            (Indication::Live(verdict, _), _) => Some(verdict),
            (Indication::Dark, glow) => glow,
        };
        Signals {
            short: lit == Some(Verdict::Short),
            on: lit == Some(Verdict::On),
            heavy: lit == Some(Verdict::Heavy),
            buzzer,
        }
    }
}

/// Whether a rhythm sounds so many milliseconds after its start.
fn sounds(rhythm: Rhythm, elapsed: u64) -> bool {
    let mut left = elapsed;
    let mut sound = true;
    for length in rhythm {
        match left.checked_sub(u64::from(*length)) {
            Some(beyond) => left = beyond,
            None => return sound,
        }
        sound = !sound;
    }
    false
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(millis: u64) -> Uptime {
        Uptime::from_millis(millis)
    }

    /// How many times the buzzer starts between two moments.
    fn sounds_between(signaller: &Signaller, from: u64, to: u64) -> usize {
        (from..to)
            .filter(|ms| {
                signaller.signals(at(*ms)).buzzer
                    && (*ms == from || !signaller.signals(at(*ms - 1)).buzzer)
            })
            .count()
    }

    #[test]
    fn each_verdict_has_its_own_lamp() {
        for (verdict, lamps) in [
            (Verdict::Short, (true, false, false)),
            (Verdict::On, (false, true, false)),
            (Verdict::Heavy, (false, false, true)),
        ] {
            let mut signaller = Signaller::new();
            signaller.show(at(0), Indication::Live(verdict, true));
            let got = signaller.signals(at(1));
            assert_eq!((got.short, got.on, got.heavy), lamps);
        }
    }

    #[test]
    fn reaching_the_target_ticks_once_and_heavy_three_times() {
        let mut signaller = Signaller::new();
        signaller.show(at(0), Indication::Live(Verdict::Short, true));
        signaller.show(at(1_000), Indication::Live(Verdict::On, false));
        assert_eq!(sounds_between(&signaller, 0, 1_100), 0);
        signaller.show(at(1_200), Indication::Live(Verdict::On, false));
        assert_eq!(sounds_between(&signaller, 1_200, 3_000), 1);
        signaller.show(at(2_000), Indication::Live(Verdict::On, true));
        assert_eq!(sounds_between(&signaller, 2_000, 3_000), 0);
        signaller.show(at(3_000), Indication::Live(Verdict::Heavy, true));
        signaller.show(at(3_200), Indication::Live(Verdict::Heavy, true));
        assert_eq!(sounds_between(&signaller, 3_200, 5_000), 3);
    }

    #[test]
    fn a_push_of_the_spoon_makes_no_sound() {
        let mut signaller = Signaller::new();
        signaller.show(at(0), Indication::Live(Verdict::Short, true));
        for ms in 1..40 {
            signaller.show(at(ms * 25), Indication::Live(Verdict::Heavy, false));
        }
        assert_eq!(sounds_between(&signaller, 0, 3_000), 0);
    }

    #[test]
    fn a_captured_portion_glows_after_the_dish_is_gone() {
        let mut signaller = Signaller::new();
        signaller.show(at(0), Indication::Live(Verdict::On, true));
        signaller.captured(at(100), Verdict::On);
        signaller.show(at(100), Indication::Dark);
        assert!(signaller.signals(at(1_000)).on);
        assert!(!signaller.signals(at(1_700)).on);
        assert_eq!(sounds_between(&signaller, 100, 2_000), 2);
    }

    #[test]
    fn a_fault_blinks_all_lamps_together() {
        let mut signaller = Signaller::new();
        signaller.show(at(0), Indication::Blocked);
        let lit = signaller.signals(at(10));
        let dark = signaller.signals(at(510));
        assert!(lit.short && lit.on && lit.heavy);
        assert!(!dark.short && !dark.on && !dark.heavy);
    }
}
