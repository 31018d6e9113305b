//! Masses that lie far from all the others.

use super::sample::Sample;
use evenhand_protocol::Mass;

/// What makes the median distance from the median a standard deviation, where masses are
/// normally spread: 1 over the normal 75th percentile.
const NORMAL: f64 = 1.482_602_218_505_602;

/// How many such deviations from the median are far (common practice, no source: a normal
/// hand never gets there, one whose tails are those of Student's t with 4 degrees with one
/// portion in some 2 500).
const FAR: f64 = 10.0;

/// Fewest masses of which any is called far.
const FEWEST: usize = 10;

/// The masses so far from the middle that one slip alone may have made them, in their order:
/// a weighing that was no portion moves a mean and a spread as much as many portions do, but
/// hardly a median. None where more than half are alike.
#[must_use]
pub fn far_from_the_others(sample: &Sample) -> Vec<Mass> {
    let grams = sample.grams();
    let Some(middle) = median(grams.iter().copied()).filter(|_| grams.len() >= FEWEST) else {
        return Vec::new();
    };
    let distance = |gram: &f64| (gram - middle).abs();
    let limit = median(grams.iter().map(distance)).unwrap_or(0.0) * NORMAL * FAR;
    if limit <= 0.0 {
        return Vec::new();
    }
    grams
        .iter()
        .filter(|gram| distance(gram) > limit)
        .map(|gram| super::mass(*gram))
        .collect()
}

fn median(values: impl Iterator<Item = f64>) -> Option<f64> {
    let mut ordered: Vec<f64> = values.collect();
    ordered.sort_by(f64::total_cmp);
    let upper = *ordered.get(ordered.len() / 2)?;
    if ordered.len() % 2 == 1 {
        return Some(upper);
    }
    Some(f64::midpoint(ordered[ordered.len() / 2 - 1], upper))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn far(grams: &[i64]) -> Vec<Mass> {
        let masses = grams.iter().map(|grams| Mass::from_grams(*grams));
        far_from_the_others(&masses.collect())
    }

    // Worked by hand: the median of 96 to 105 with one more is 100 or 101, the median distance
    // from it 3 g, which makes 4.45 g a deviation and 44.5 g far.
    #[test]
    fn one_slip_is_far_and_a_hand_that_spreads_is_not() {
        let even: Vec<i64> = (96..=105).collect();
        assert_eq!(far(&even), []);
        let with = |gram| far(&[&even[..], &[gram]].concat());
        assert_eq!(with(145), []);
        assert_eq!(with(146), [Mass::from_grams(146)]);
        assert_eq!(with(40), [Mass::from_grams(40)]);
        // Too few, or all alike: nothing to hold it against.
        assert_eq!(far(&[100, 101, 99, 400]), []);
        assert_eq!(far(&[100; 12]), []);
    }
}
