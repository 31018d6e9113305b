//! The last three seconds in twentieths of a second.
//!
//! Fast enough for a table that sways, and slow enough that little is left of what
//! rings: each is a mean with the weights of a triangle, twice as wide as they are
//! apart, because a plain one would leave a slow beat of what rings nearly twenty times
//! a second.

/// Twentieths of a second that are kept.
pub(super) const KEPT: usize = 64;

/// Most samples in one, at 320 a second.
const MOST: usize = 16;

/// Means of a twentieth of a second each, in counts. At less than forty samples a
/// second it is a sample each.
#[derive(Debug, Clone)]
pub(super) struct Twentieths {
    /// Below [`KEPT`]: where the newest is.
    head: usize,
    len: usize,
    /// The sum of as many of the newest samples as one has, what those sums add up to in
    /// the next one, and how many there are.
    running: i32,
    sum: i64,
    count: u16,
    newest: [i32; MOST],
    /// The sample before, and the sum of the squares of what each is beyond the one before.
    last: i32,
    steps: f32,
    means: [f32; KEPT],
    roughness: [f32; KEPT],
}

impl Twentieths {
    pub(super) const fn new() -> Self {
        Self {
            head: 0,
            len: 0,
            running: 0,
            sum: 0,
            count: 0,
            newest: [0; MOST],
            last: 0,
            steps: 0.0,
            means: [0.0; KEPT],
            roughness: [0.0; KEPT],
        }
    }

    /// Forgets all.
    pub(super) const fn clear(&mut self) {
        self.len = 0;
    }

    /// How many there are, at most [`KEPT`].
    pub(super) const fn len(&self) -> usize {
        self.len
    }

    /// Takes a sample; gives whether there is a new mean. `block` is how many
    /// samples are in a tenth of a second.
    pub(super) fn take(&mut self, sample: i32, block: u16) -> bool {
        let whole = (block / 2).clamp(1, MOST as u16);
        // The samples of 24 bits that are replaced one after the other; sixteen at most.
        if let Some(oldest) = self.newest.get_mut(usize::from(self.count)) {
            self.running = self.running.wrapping_add(sample.wrapping_sub(*oldest));
            *oldest = sample;
        }
        self.sum = self.sum.wrapping_add(i64::from(self.running));
        self.count = self.count.wrapping_add(1);
        let step = sample.wrapping_sub(self.last) as f32;
        self.last = sample;
        self.steps += step * step;
        if self.count < whole {
            return false;
        }
        let mean = self.sum as f32 / (f32::from(self.count) * f32::from(self.count));
        let roughness = self.steps / 2.0 / f32::from(self.count);
        self.sum = 0;
        self.count = 0;
        self.steps = 0.0;
        self.head = self.head.wrapping_add(1) % KEPT;
        if let (Some(place), Some(rough)) = (
            self.means.get_mut(self.head),
            self.roughness.get_mut(self.head),
        ) {
            *place = mean;
            *rough = roughness;
        }
        self.len = self.len.wrapping_add(1).min(KEPT);
        true
    }

    /// The mean so many before the newest.
    pub(super) fn mean(&self, before: usize) -> f32 {
        self.means.get(self.place(before)).copied().unwrap_or(0.0)
    }

    /// The variance of its samples as successive ones show it, in counts squared.
    pub(super) fn roughness(&self, before: usize) -> f32 {
        self.roughness
            .get(self.place(before))
            .copied()
            .unwrap_or(0.0)
    }

    const fn place(&self, before: usize) -> usize {
        self.head.wrapping_add(KEPT).wrapping_sub(before) % KEPT
    }
}
