//! A spring that lags behind its load.

/// How many elements make one spring.
const ELEMENTS: usize = 16;
/// The widest element's play, as a share of the capacity: a whole cycle just
/// turns it round. Even widths up to there give small loops that are narrower
/// in proportion to their size, as springs have them (Rayleigh's law).
const WIDEST: f64 = 0.5;

/// Hysteresis as a sum of play operators (Prandtl and Ishlinskii's model):
/// each element follows the load and lags by up to its own width. Like a real
/// spring it remembers where the load turned round, and a small load that comes
/// and goes closes its own small loop.
#[derive(Debug, Clone)]
pub(super) struct Hysteresis {
    elements: [Element; ELEMENTS],
    weight: f64,
}

#[derive(Debug, Clone, Copy)]
struct Element {
    width: f64,
    follows: f64,
}

impl Hysteresis {
    /// A spring whose loading and unloading lie `difference` grams apart in
    /// the middle of a whole cycle to `capacity`, at rest with no load.
    pub(super) fn new(difference: f64, capacity: f64) -> Self {
        let elements = std::array::from_fn(|place| Element {
            width: WIDEST * capacity * (place + 1) as f64 / ELEMENTS as f64,
            follows: 0.0,
        });
        // In the middle, on the way down, an element has turned round by twice
        // its width, or by half the capacity if that is less.
        let turned: f64 = elements
            .iter()
            .map(|element| (2.0 * element.width).min(capacity / 2.0))
            .sum();
        Self {
            elements,
            weight: difference / turned,
        }
    }

    /// The error at a load in grams.
    pub(super) fn follow(&mut self, load: f64) -> f64 {
        let lag: f64 = self
            .elements
            .iter_mut()
            .map(|element| {
                element.follows = element
                    .follows
                    .clamp(load - element.width, load + element.width);
                load - element.follows
            })
            .sum();
        -lag * self.weight
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn go(spring: &mut Hysteresis, from: i32, to: i32) -> f64 {
        let step = if to > from { 1 } else { -1 };
        let mut load = from;
        while load != to {
            load += step;
            spring.follow(f64::from(load));
        }
        spring.follow(f64::from(to))
    }

    #[test]
    fn a_whole_cycle_is_as_wide_as_asked() {
        let mut spring = Hysteresis::new(0.4, 2_000.0);
        let up = go(&mut spring, 0, 1_000);
        go(&mut spring, 1_000, 2_000);
        let down = go(&mut spring, 2_000, 1_000);
        assert!((down - up - 0.4).abs() < 1e-9, "{up} {down}");
    }

    #[test]
    fn a_small_loop_closes() {
        let mut spring = Hysteresis::new(0.4, 2_000.0);
        go(&mut spring, 0, 1_500);
        let before = go(&mut spring, 1_500, 800);
        go(&mut spring, 800, 1_100);
        let after = go(&mut spring, 1_100, 800);
        assert!((after - before).abs() < 1e-9);
    }
}
