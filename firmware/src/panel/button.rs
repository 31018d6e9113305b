//! One button, without its bounce.

use embedded_hal::digital::InputPin;
use evenhand_protocol::Uptime;

/// A contact bounces for a few milliseconds, a worn or wet one for ten (common
/// practice, no source); this is twice that, and no hand is as quick.
const SETTLE_MS: u64 = 20;

/// A button to ground, its input pulled up.
#[derive(Debug)]
pub struct Button<P> {
    pin: P,
    pressed: bool,
    /// Since when the pin has said otherwise.
    other_since: Option<Uptime>,
}

impl<P: InputPin> Button<P> {
    /// A button that is not pressed.
    pub const fn new(pin: P) -> Self {
        Self {
            pin,
            pressed: false,
            other_since: None,
        }
    }

    /// Looks at the pin and says whether the button is pressed: what the pin
    /// has said for 20 ms without a break. A pin that cannot be read changes
    /// nothing. Call it every few milliseconds.
    pub fn poll(&mut self, now: Uptime) -> bool {
        match self.pin.is_low() {
            Ok(low) if low != self.pressed => {
                let since = *self.other_since.get_or_insert(now);
                if now.since(since) >= SETTLE_MS {
                    self.pressed = low;
                    self.other_since = None;
                }
            }
            Ok(_) => self.other_since = None,
            Err(_) => {}
        }
        self.pressed
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use core::convert::Infallible;
    use std::cell::Cell;
    use std::rc::Rc;

    #[derive(Clone, Default)]
    struct Pin(Rc<Cell<bool>>);

    impl embedded_hal::digital::ErrorType for Pin {
        type Error = Infallible;
    }

    impl InputPin for Pin {
        fn is_high(&mut self) -> Result<bool, Infallible> {
            Ok(!self.0.get())
        }
        fn is_low(&mut self) -> Result<bool, Infallible> {
            Ok(self.0.get())
        }
    }

    /// How often a button is seen to change while its contact does what `low`
    /// says, millisecond by millisecond.
    fn changes(low: impl Fn(u64) -> bool) -> usize {
        let pin = Pin::default();
        let mut button = Button::new(pin.clone());
        let mut before = false;
        let mut changes = 0;
        for millis in 0..1_000 {
            pin.0.set(low(millis));
            let pressed = button.poll(Uptime::from_millis(millis));
            changes += usize::from(pressed != before);
            before = pressed;
        }
        changes
    }

    #[test]
    fn a_press_is_one_press_however_it_bounces() {
        // 12 ms of chatter at either end of a press from 100 to 400 ms.
        let bouncing = |millis: u64| match millis {
            100..112 | 400..412 => millis.is_multiple_of(3),
            112..400 => true,
            _ => false,
        };
        assert_eq!(changes(bouncing), 2);
    }

    #[test]
    fn a_spark_is_no_press() {
        assert_eq!(changes(|millis| millis % 50 < 15), 0);
    }

    #[test]
    fn a_quick_tap_is_one() {
        assert_eq!(changes(|millis| (300..340).contains(&millis)), 2);
    }
}
