//! A rotary encoder.

use embedded_hal::digital::InputPin;

/// A quadrature encoder with a click every four quarter steps, both contacts
/// open at rest.
///
/// Each contact may bounce as it likes: while one bounces the other stands
/// still, so the count goes a quarter forward and back and comes to the same;
/// only a whole turn from click to click counts. A step that skips a state is
/// counted as none.
#[derive(Debug)]
pub struct Knob<A, B> {
    a: A,
    b: B,
    state: u8,
    quarters: i8,
}

/// Quarter steps from one state (old in the higher bits) to the next; the order
/// one way round is 11, 01, 00, 10.
const QUARTERS: [i8; 16] = [0, 1, -1, 0, -1, 0, 0, 1, 1, 0, 0, -1, 0, -1, 1, 0];

impl<A: InputPin, B: InputPin> Knob<A, B> {
    /// A knob at rest.
    pub const fn new(a: A, b: B) -> Self {
        Self {
            a,
            b,
            state: 0b11,
            quarters: 0,
        }
    }

    /// Looks at the contacts: 1 for a click one way (contact A opens last),
    /// -1 for the other, 0 for none. Call it every millisecond or so.
    pub fn poll(&mut self) -> i8 {
        let (Ok(a), Ok(b)) = (self.a.is_high(), self.b.is_high()) else {
            return 0;
        };
        let state = u8::from(a) << 1 | u8::from(b);
        let place = usize::from(self.state << 2 | state);
        self.state = state;
        let quarter = QUARTERS.get(place).copied().unwrap_or(0);
        self.quarters = self.quarters.saturating_add(quarter);
        if state != 0b11 {
            return 0;
        }
        // At rest: three quarters or four are a click, less was none.
        let click = match self.quarters {
            3.. => 1,
            ..=-3 => -1,
            _ => 0,
        };
        self.quarters = 0;
        click
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use core::convert::Infallible;
    use std::cell::Cell;
    use std::rc::Rc;
    use std::vec::Vec;

    #[derive(Clone)]
    struct Contact(Rc<Cell<bool>>);

    impl embedded_hal::digital::ErrorType for Contact {
        type Error = Infallible;
    }

    impl InputPin for Contact {
        fn is_high(&mut self) -> Result<bool, Infallible> {
            Ok(self.0.get())
        }
        fn is_low(&mut self) -> Result<bool, Infallible> {
            Ok(!self.0.get())
        }
    }

    /// The clicks that a sequence of states makes; each is looked at once.
    fn clicks(states: impl IntoIterator<Item = u8>) -> i32 {
        let (a, b) = (
            Contact(Rc::new(Cell::new(true))),
            Contact(Rc::new(Cell::new(true))),
        );
        let mut knob = Knob::new(a.clone(), b.clone());
        states
            .into_iter()
            .map(|state| {
                a.0.set(state & 0b10 != 0);
                b.0.set(state & 0b01 != 0);
                i32::from(knob.poll())
            })
            .sum()
    }

    const TURN: [u8; 4] = [0b01, 0b00, 0b10, 0b11];

    #[test]
    fn a_turn_counts_clicks_either_way() {
        let five = TURN.iter().copied().cycle().take(20);
        let one_way = clicks(five);
        assert_eq!(one_way.abs(), 5);
        let back: Vec<u8> = [0b10, 0b00, 0b01, 0b11].repeat(5);
        assert_eq!(clicks(back), -one_way);
    }

    #[test]
    fn bounce_at_every_edge_makes_no_click_more() {
        let mut states = Vec::new();
        let mut last = 0b11;
        for state in TURN.iter().copied().cycle().take(40) {
            // Seven times back and forth before it stays.
            for _ in 0..7 {
                states.extend([state, last]);
            }
            states.push(state);
            last = state;
        }
        assert_eq!(clicks(states).abs(), 10);
    }

    #[test]
    fn a_knob_shaken_between_two_clicks_counts_none() {
        assert_eq!(clicks([0b01, 0b00, 0b01, 0b11].repeat(9)), 0);
        assert_eq!(clicks([0b10, 0b11].repeat(50)), 0);
    }

    #[test]
    fn a_jump_over_a_state_counts_nothing() {
        // A jump over two states says nothing of the direction; two quarters alone are no click.
        assert_eq!(clicks([0b01, 0b00, 0b11]), 0);
        assert_eq!(clicks([0b00, 0b11, 0b00, 0b11]), 0);
    }
}
