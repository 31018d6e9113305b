//! The newest samples, kept so that a mean over any stretch costs nothing.

/// Most samples that a mean is taken over.
pub(super) const CAPACITY: usize = 128;
const SIZE: usize = CAPACITY + 1;

/// Running sums of the samples, and running sums of those.
///
/// Sums wrap together and only their differences are used, so they stay exact
/// for ever: 128 samples of 24 bits are 31, and a triangle over them 37.
///
/// The small fields come first, here and in all that holds this: a processor
/// reaches what is near the beginning with half the code.
#[derive(Debug, Clone)]
pub(super) struct History {
    /// Below [`SIZE`].
    head: usize,
    len: usize,
    /// The entry after sample i is the sum of all samples up to it.
    sums: [i32; SIZE],
    /// The same of `sums`.
    doubles: [i64; SIZE],
}

impl History {
    pub(super) const fn new() -> Self {
        Self {
            sums: [0; SIZE],
            doubles: [0; SIZE],
            head: 0,
            len: 0,
        }
    }

    /// Samples held, at most [`CAPACITY`].
    pub(super) const fn len(&self) -> usize {
        self.len
    }

    pub(super) fn clear(&mut self) {
        self.len = 0;
    }

    /// Takes a sample of 24 bits.
    pub(super) fn push(&mut self, sample: i32) {
        let (sum, double) = self.entry(0);
        let sum = sum.wrapping_add(sample);
        let next = self.head.wrapping_add(1);
        self.head = if next >= SIZE { 0 } else { next };
        if let (Some(place), Some(double_place)) = (
            self.sums.get_mut(self.head),
            self.doubles.get_mut(self.head),
        ) {
            *place = sum;
            *double_place = double.wrapping_add(i64::from(sum));
        }
        self.len = self.len.wrapping_add(1).min(CAPACITY);
    }

    /// Takes back the newest `count` samples.
    pub(super) fn pop(&mut self, count: usize) {
        let count = count.min(self.len);
        self.head = self.back(count);
        self.len = self.len.saturating_sub(count);
    }

    /// The place `count` entries before the head; `count` is at most [`CAPACITY`].
    fn back(&self, count: usize) -> usize {
        let place = self.head.wrapping_sub(count);
        if self.head >= count {
            place
        } else {
            place.wrapping_add(SIZE)
        }
    }

    /// Both sums `count` entries before the head. There always are such: the
    /// head is below [`SIZE`], and so is every place before it.
    // Out of line: 8 bytes less of the emulated board's flash.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn entry(&self, count: usize) -> (i32, i64) {
        debug_assert!(count <= CAPACITY);
        let place = self.back(count);
        match (self.sums.get(place), self.doubles.get(place)) {
            (Some(sum), Some(double)) => (*sum, *double),
            _ => (0, 0),
        }
    }

    /// The sum of `count` samples that end `skip` before the newest.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub(super) fn sum(&self, skip: usize, count: usize) -> i64 {
        let (now, _) = self.entry(skip);
        let (start, _) = self.entry(skip.wrapping_add(count));
        i64::from(now.wrapping_sub(start))
    }

    /// A sum weighted by a triangle that rises over `half` samples and falls
    /// over as many, ends `skip` before the newest, and weighs `half`² in all.
    /// A tone of period p leaves about (p / (π half))² of itself in the mean, a
    /// plain mean of the same length p / (2π half).
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub(super) fn triangle(&self, skip: usize, half: usize) -> i64 {
        let middle = skip.wrapping_add(half);
        let (_, now) = self.entry(skip);
        let (_, turn) = self.entry(middle);
        let (_, start) = self.entry(middle.wrapping_add(half));
        now.wrapping_sub(turn.wrapping_mul(2)).wrapping_add(start)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::vec::Vec;

    #[test]
    fn sums_and_triangles_are_those_of_the_samples() {
        let mut history = History::new();
        let samples: Vec<i32> = (0..1_000)
            .map(|i: i64| ((i * i * 7_919) % 10_007 - 5_000) as i32)
            .collect();
        for sample in &samples {
            history.push(*sample);
        }
        let newest = |skip: usize, i: usize| i64::from(samples[samples.len() - 1 - skip - i]);
        for (skip, count) in [(0, 128), (0, 1), (3, 8), (64, 64), (127, 1)] {
            let plain: i64 = (0..count).map(|i| newest(skip, i)).sum();
            assert_eq!(history.sum(skip, count), plain);
        }
        for (skip, half) in [(0, 64), (0, 1), (32, 32), (5, 12)] {
            let weighted: i64 = (0..2 * half - 1)
                .map(|i| newest(skip, i) * (i + 1).min(2 * half - 1 - i) as i64)
                .sum();
            assert_eq!(history.triangle(skip, half), weighted);
        }
    }

    #[test]
    fn a_sample_taken_back_leaves_no_trace() {
        let mut plain = History::new();
        let mut other = History::new();
        for i in 0..200 {
            plain.push(i);
            other.push(i);
            if i % 7 == 0 {
                other.push(1 << 20);
                other.push(-5);
                other.pop(2);
            }
        }
        assert_eq!(plain.sum(0, 100), other.sum(0, 100));
        assert_eq!(plain.triangle(2, 40), other.triangle(2, 40));
    }

    #[test]
    fn sums_that_wrap_stay_exact() {
        let mut history = History::new();
        history.sums = [i32::MAX - 10; SIZE];
        history.doubles = [i64::MIN + 3; SIZE];
        for i in 0..300 {
            history.push(8_000_000 + i);
        }
        assert_eq!(history.sum(0, 2), 16_000_000 + 299 + 298);
        assert_eq!(history.triangle(0, 1), 8_000_299);
    }
}
