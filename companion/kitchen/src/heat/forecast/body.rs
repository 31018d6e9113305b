//! A body that follows what surrounds it, as a linear filter.
//!
//! The probe's temperature follows a near temperature at one rate; the near
//! one follows a far one at another, with random pushes of a given size:
//!
//! dT = −k₁ (T − E) dt, dE = −k₂ (E − M) dt + q dW, M constant.
//!
//! A hot face over deep bricks, a compressor that cycles and one plain
//! exponential are all special cases. The filter is R. E. Kalman's, Journal of
//! Basic Engineering 82 (1960) 35 (from memory), with the transition and the
//! noise of the pushes in closed form.
//!
//! The [`core`](super::core) of something that went in cold all through hardly
//! moves at first and has a form of its own.

use super::core::Core;
use super::readings::{Bin, Readings};

/// Two rates and the size of the pushes, or a core.
#[derive(Debug, Clone, Copy)]
pub(super) struct Body {
    /// Of the probe toward its near surroundings, 1/h.
    pub near: f64,
    /// What those do.
    pub far: Far,
}

/// What the near surroundings do.
#[derive(Debug, Clone, Copy)]
pub(super) enum Far {
    /// They are the far ones: one plain exponential.
    Same,
    /// They follow the far ones at a rate, 1/h, and are pushed, °C/√h.
    Followed { rate: f64, pushes: f64 },
    /// The probe is in a core that went in so many hours before the last
    /// reading.
    Core { shape: &'static Core, since: f64 },
}

/// What is known of probe, near and far surroundings: means and covariances.
#[derive(Debug, Clone, Copy)]
pub(super) struct State {
    pub mean: [f64; 3],
    pub cov: [[f64; 3]; 3],
}

/// One step in time.
#[derive(Debug, Clone, Copy)]
pub(super) struct TimeStep {
    /// Shares of probe, near and far in the probe after it.
    probe: [f64; 3],
    /// Share of the near in itself.
    near: f64,
    noise: [f64; 3],
}

impl Body {
    pub fn step(&self, hours: f64) -> TimeStep {
        let still = |stays: f64| TimeStep {
            probe: [stays, 0.0, 1.0 - stays],
            near: 1.0,
            noise: [0.0; 3],
        };
        let a = (-self.near * hours).exp();
        let (far, pushes) = match self.far {
            Far::Same => return still(a),
            // Of a core the state is that at the beginning, and stays it.
            Far::Core { shape, since } => {
                return still(1.0 - shape.gone(self.near * (since + hours).max(0.0)));
            }
            Far::Followed { rate, pushes } => (rate, pushes),
        };
        let b = (-far * hours).exp();
        let gain = self.near / (self.near - far);
        let c = gain * (b - a);
        let noise = if pushes == 0.0 {
            [0.0; 3]
        } else {
            let square = pushes * pushes;
            let aa = (1.0 - a * a) / (2.0 * self.near);
            let bb = (1.0 - b * b) / (2.0 * far);
            let ab = (1.0 - a * b) / (self.near + far);
            [
                square * gain * gain * (aa - 2.0 * ab + bb).max(0.0),
                square * gain * (bb - ab),
                square * bb,
            ]
        };
        TimeStep {
            probe: [a, c, 1.0 - a - c],
            near: b,
            noise,
        }
    }
}

impl State {
    /// Before the first reading: far surroundings known to `far.1`, the near
    /// ones somewhere between them and the probe, give or take `near`.
    pub fn begin(first: &Bin, far: (f64, f64), near: f64, noise: f64) -> Self {
        let v = far.1 * far.1;
        Self {
            mean: [first.celsius, f64::midpoint(first.celsius, far.0), far.0],
            cov: [
                [first.variance * noise, 0.0, 0.0],
                [0.0, 0.25 * v + near * near, 0.5 * v],
                [0.0, 0.5 * v, v],
            ],
        }
    }

    /// Something happens to the probe and to what is near it, by about so many °C.
    pub fn kick(&mut self, by: f64) {
        self.cov[0][0] += 0.25 * by * by;
        self.cov[1][1] += 4.0 * by * by;
    }

    pub fn advance(&mut self, step: &TimeStep) {
        let [a, c, r] = step.probe;
        let b = step.near;
        let m = self.mean;
        self.mean = [
            a * m[0] + c * m[1] + r * m[2],
            b * m[1] + (1.0 - b) * m[2],
            m[2],
        ];
        let p = &self.cov;
        let row = |j: usize| a * p[0][j] + c * p[1][j] + r * p[2][j];
        let (t0, t1, t2) = (row(0), row(1), row(2));
        let s = 1.0 - b;
        let (e1, e2) = (b * p[1][1] + s * p[2][1], b * p[1][2] + s * p[2][2]);
        let tt = a * t0 + c * t1 + r * t2 + step.noise[0];
        let te = b * t1 + s * t2 + step.noise[1];
        let ee = b * e1 + s * e2 + step.noise[2];
        self.cov = [[tt, te, t2], [te, ee, e2], [t2, e2, p[2][2]]];
    }

    /// How far a reading is from what was expected, and the variance of that.
    pub fn surprise(&self, bin: &Bin, noise: f64) -> (f64, f64) {
        (
            bin.celsius - self.mean[0],
            self.cov[0][0] + bin.variance * noise,
        )
    }

    pub fn learn(&mut self, (off, variance): (f64, f64)) {
        let [p0, p1, p2] = self.cov[0];
        for (i, p) in [p0, p1, p2].into_iter().enumerate() {
            self.mean[i] += p / variance * off;
        }
        let column = [p0, p1, p2];
        for i in 0..3 {
            for j in 0..3 {
                self.cov[i][j] -= column[i] * column[j] / variance;
            }
        }
    }

    /// The probe after a step: mean and variance.
    pub fn probe_after(&self, step: &TimeStep) -> (f64, f64) {
        let f = step.probe;
        let mean = f[0] * self.mean[0] + f[1] * self.mean[1] + f[2] * self.mean[2];
        let mut variance = step.noise[0];
        for i in 0..3 {
            for j in 0..3 {
                variance += f[i] * f[j] * self.cov[i][j];
            }
        }
        (mean, variance.max(0.0))
    }
}

/// Logarithm of the density of a surprise, without the constant.
pub(super) fn log_density((off, variance): (f64, f64)) -> f64 {
    -0.5 * (variance.ln() + off * off / variance)
}

/// What the readings say of a body.
#[derive(Debug, Clone, Copy)]
pub(super) struct Seen {
    /// After the last reading, and the logarithm of the likelihood of all.
    pub last: (State, f64),
    /// The same at the readings that were asked about, or at the first.
    pub splits: [(State, f64); SPLITS],
}

/// How many readings on the way the state is wanted at too.
pub(super) const SPLITS: usize = 8;

/// What happens to a body while it is read.
#[derive(Debug, Clone, Copy)]
pub(super) struct Course<'a> {
    pub readings: &'a Readings,
    /// The bins before which it was disturbed.
    pub kicks: &'a [usize],
    /// How much by, °C.
    pub kick: f64,
    /// The bins at which the state is wanted too.
    pub splits: [usize; SPLITS],
}

/// Runs a body along the readings.
pub(super) fn run(
    body: Body,
    along: Course<'_>,
    begin: impl Fn(&Bin) -> State,
    noise: f64,
) -> Option<Seen> {
    let readings = along.readings;
    let first = readings.bins.first()?;
    let mut state = begin(first);
    if let Far::Core { .. } = body.far {
        return core(body, along, state, noise);
    }
    let mut log = 0.0;
    let mut product = 1.0;
    let (mut before, mut length) = (first.hours, f64::NAN);
    let mut step = body.step(0.0);
    let mut splits = [(state, 0.0); SPLITS];
    let mut kicks = along.kicks.iter().peekable();
    for (nth, bin) in readings.bins.iter().enumerate().skip(1) {
        let dt = bin.hours - before;
        before = bin.hours;
        if (dt - length).abs() > 1e-9 || length.is_nan() {
            length = dt;
            step = body.step(dt);
        }
        if kicks.next_if_eq(&&nth).is_some() {
            state.kick(along.kick);
        }
        state.advance(&step);
        let (off, variance) = state.surprise(bin, noise);
        log -= 0.5 * off * off / variance;
        product *= variance;
        if !(1e-200..1e200).contains(&product) {
            log -= 0.5 * product.ln();
            product = 1.0;
        }
        state.learn((off, variance));
        for (split, at) in splits.iter_mut().zip(along.splits) {
            if nth == at {
                *split = (state, log - 0.5 * product.ln());
            }
        }
    }
    log -= 0.5 * product.ln();
    log.is_finite().then_some(Seen {
        last: (state, log),
        splits,
    })
}

/// The same of a core: each reading is seen from its beginning.
fn core(body: Body, along: Course<'_>, mut state: State, noise: f64) -> Option<Seen> {
    let mut log = 0.0;
    let mut splits = [(state, 0.0); SPLITS];
    for (nth, bin) in along.readings.bins.iter().enumerate().skip(1) {
        let [a, _, r] = body.step(bin.hours).probe;
        let p = &state.cov;
        let (c0, c2) = (a * p[0][0] + r * p[2][0], a * p[0][2] + r * p[2][2]);
        let variance = a * c0 + r * c2 + bin.variance * noise;
        let off = bin.celsius - a * state.mean[0] - r * state.mean[2];
        log += log_density((off, variance));
        let gain = [c0 / variance, 0.0, c2 / variance];
        let column = [c0, 0.0, c2];
        for i in [0, 2] {
            state.mean[i] += gain[i] * off;
            for j in [0, 2] {
                state.cov[i][j] -= gain[i] * column[j];
            }
        }
        for (split, at) in splits.iter_mut().zip(along.splits) {
            if nth == at {
                *split = (state, log);
            }
        }
    }
    log.is_finite().then_some(Seen {
        last: (state, log),
        splits,
    })
}
