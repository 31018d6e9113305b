//! When will it be there?
//!
//! A falling oven, a cooling pan and the core of a joint all go toward their
//! surroundings, fast at first and slowly at the end. [`forecast`] weighs every
//! such curve by how well it fits what was measured, recent readings most, and
//! by how likely its surroundings are; so an unknown rate and unknown
//! surroundings end up in the width of the interval and not in a hidden guess.
//! What this oven did on earlier mornings ([`Habit`]) is put beside it.
//!
//! No oven is one exponential: bricks feed the air, radiation goes with the
//! fourth power. The interval is widened by a share of the time that remains
//! for that ([`MODEL_DOUBT`]), tuned on simulated ovens of another kind of model
//! and reported on others (`tests/forecast.rs`).

use super::log::{HeatLog, LogPoint};
use evenhand_protocol::Temperature;
use jiff::{SignedDuration, Timestamp};

/// How often the truth should lie within an interval: eight times in ten.
pub const CONFIDENCE: f64 = 0.8;

/// Standard doubt about the model itself, as a share of the time remaining.
const MODEL_DOUBT: f64 = 0.16;
/// The same when earlier mornings of the same oven agree with this one.
const HABIT_DOUBT: f64 = 0.08;
/// Reading noise that no fit may go below, °C: half the step of a common
/// thermocouple converter and a little flicker.
const NOISE_FLOOR: f64 = 0.25;
/// The least change since the last turn that counts as moving, thousandths of
/// a °C: six times the noise floor.
const LEAST_MOVE: i32 = 1_500;
/// The most readings that a fit looks at; more are thinned evenly.
const MOST_POINTS: usize = 160;
/// Readings close in time err together, so many count as few.
const MOST_INDEPENDENT: f64 = 30.0;

/// A band of temperature to work in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Band {
    low: Temperature,
    high: Temperature,
}

/// A forecast was asked for with nonsense.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum ForecastError {
    /// The band's lower end is above its upper end.
    #[error("the band's lower end is above its upper end")]
    BandReversed,
    /// The spread of the surroundings is not from 0.1 to 100 °C.
    #[error("the surroundings' spread is outside 0.1 to 100 degC")]
    SurroundingsSpread,
}

impl Band {
    /// 204 to 216 °C (400 to 420 °F), what a fire-heated oven is let fall to
    /// before a loaf goes in (common practice, no source).
    pub const BREAD_OVEN: Self = Self {
        low: Temperature::from_millicelsius(204_000),
        high: Temperature::from_millicelsius(216_000),
    };

    /// A band; both ends may be one temperature.
    ///
    /// # Errors
    /// [`ForecastError::BandReversed`].
    pub fn new(low: Temperature, high: Temperature) -> Result<Self, ForecastError> {
        if low > high {
            return Err(ForecastError::BandReversed);
        }
        Ok(Self { low, high })
    }

    /// The lower end.
    #[must_use]
    pub const fn low(self) -> Temperature {
        self.low
    }

    /// The upper end.
    #[must_use]
    pub const fn high(self) -> Temperature {
        self.high
    }
}

/// What the temperature goes toward, as far as it is known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Surroundings {
    celsius: f64,
    spread: f64,
}

impl Surroundings {
    /// Surroundings of about this, give or take (one standard deviation) so
    /// many °C.
    ///
    /// # Errors
    /// [`ForecastError::SurroundingsSpread`] outside 0.1 to 100 °C.
    pub fn about(at: Temperature, give_or_take_celsius: f64) -> Result<Self, ForecastError> {
        if !(0.1..=100.0).contains(&give_or_take_celsius) {
            return Err(ForecastError::SurroundingsSpread);
        }
        Ok(Self {
            celsius: at.celsius(),
            spread: give_or_take_celsius,
        })
    }

    /// A warm kitchen nobody measured: 25 °C, give or take 10 (an estimate).
    pub const KITCHEN: Self = Self {
        celsius: 25.0,
        spread: 10.0,
    };
}

/// What the same thing did before: whole logs of earlier mornings.
#[derive(Debug, Clone, Default)]
pub struct Habit {
    mornings: Vec<Vec<(f64, f64)>>,
}

impl Habit {
    /// Adds an earlier morning. Only its longest unbroken stretch of steady
    /// rise or fall is used; a log without one adds nothing.
    pub fn learn(&mut self, log: &HeatLog) {
        let best = unbroken(log)
            .map(|run| {
                let falling = steady(run, |a, b| a >= b - 1.0);
                let rising = steady(run, |a, b| a <= b + 1.0);
                if span(falling) > span(rising) {
                    falling
                } else {
                    rising
                }
            })
            .max_by_key(|run| span(run));
        if let Some(run) = best
            && let Some(first) = run.first()
            && run.len() >= 3
        {
            self.mornings.push(
                run.iter()
                    .map(|p| (hours(p.at, first.at), p.temperature.celsius()))
                    .collect(),
            );
        }
    }

    /// How many mornings are known.
    #[must_use]
    pub fn mornings(&self) -> usize {
        self.mornings.len()
    }
}

/// A moment that is not known exactly.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct When {
    /// As likely before as after this.
    pub likely: Timestamp,
    /// The early end of the interval.
    pub early: Timestamp,
    /// The late end; `None` where it may never come.
    pub late: Option<Timestamp>,
}

/// What can be said.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Forecast {
    /// It is on its way.
    Coming {
        /// When it enters the band.
        enters: When,
        /// When it leaves at the other side; `None` where it likely stays.
        leaves: Option<When>,
    },
    /// It is in the band now.
    Inside {
        /// When it leaves; `None` where it likely stays.
        leaves: Option<When>,
    },
    /// It moves away from the band, or stops short of it.
    NotComing,
    /// There is too little to say.
    Unknown(Why),
}

/// Why nothing can be said.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Why {
    /// Fewer than five readings since the last turn or gap.
    TooFewReadings,
    /// The last reading is older than the log's longest step.
    Silent,
    /// It hardly moves.
    Still,
}

impl Why {
    /// The sentence for a cook.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::TooFewReadings => "Too few readings yet to say.",
            Self::Silent => "The probe has been silent: no forecast.",
            Self::Still => "It hardly moves: no forecast.",
        }
    }
}

fn hours(at: Timestamp, zero: Timestamp) -> f64 {
    at.duration_since(zero).as_secs_f64() / 3600.0
}

fn span(run: &[LogPoint]) -> SignedDuration {
    match (run.first(), run.last()) {
        (Some(a), Some(b)) => b.at.duration_since(a.at),
        _ => SignedDuration::ZERO,
    }
}

/// The stretches of a log between gaps.
fn unbroken(log: &HeatLog) -> impl Iterator<Item = &[LogPoint]> {
    log.points().chunk_by(|a, b| !log.is_gap(a, b))
}

/// The longest stretch in which each reading follows the one before as asked.
fn steady(run: &[LogPoint], follows: impl Fn(f64, f64) -> bool) -> &[LogPoint] {
    run.chunk_by(|a, b| follows(a.temperature.celsius(), b.temperature.celsius()))
        .max_by_key(|part| span(part))
        .unwrap_or_default()
}

/// The readings since the last turn: from the highest (falling) or lowest
/// (rising) of the last unbroken stretch.
fn since_turn(run: &[LogPoint]) -> &[LogPoint] {
    let Some(last) = run.last() else { return run };
    let by = |p: &&LogPoint| p.temperature;
    let place = |p: Option<&LogPoint>| {
        p.and_then(|p| run.iter().rposition(|q| q == p))
            .unwrap_or(0)
    };
    let highest = place(run.iter().max_by_key(by));
    let lowest = place(run.iter().min_by_key(by));
    let drop = run[highest].temperature.millicelsius() - last.temperature.millicelsius();
    let rise = last.temperature.millicelsius() - run[lowest].temperature.millicelsius();
    if drop >= rise {
        &run[highest..]
    } else {
        &run[lowest..]
    }
}

/// One curve, as the hours it takes to a temperature; `None` for never.
struct Weighed {
    hours: Option<f64>,
    weight: f64,
}

/// Readings of the fit: hours before the last (negative), °C.
struct Readings(Vec<(f64, f64)>);

impl Readings {
    fn of(run: &[LogPoint]) -> Option<Self> {
        let last = run.last()?;
        let step = run.len().div_ceil(MOST_POINTS).max(1);
        // Thinned from the end, so that the last reading stays.
        let mut points: Vec<(f64, f64)> = run
            .iter()
            .rev()
            .step_by(step)
            .map(|p| (hours(p.at, last.at), p.temperature.celsius()))
            .collect();
        points.reverse();
        Some(Self(points))
    }

    fn length(&self) -> f64 {
        self.0.first().map_or(0.0, |p| -p.0)
    }

    /// Degrees an hour over the last third, by least squares.
    fn pace(&self) -> f64 {
        let from = -self.length() / 3.0;
        let late: Vec<_> = self.0.iter().filter(|p| p.0 >= from).collect();
        let n = late.len() as f64;
        let (mx, my) = late
            .iter()
            .fold((0.0, 0.0), |(x, y), p| (x + p.0 / n, y + p.1 / n));
        let (xx, xy) = late.iter().fold((0.0, 0.0), |(xx, xy), p| {
            (xx + (p.0 - mx).powi(2), xy + (p.0 - mx) * (p.1 - my))
        });
        if xx > 0.0 { xy / xx } else { 0.0 }
    }

    /// Every curve on a grid of rates and surroundings, weighed, as the time it
    /// takes to reach each target from the last reading.
    ///
    /// A curve is one exponential toward its surroundings, or two: a slow one
    /// and a fast one that dies away (a hot face over deep bricks), or that
    /// holds back at first (the core of a joint).
    fn weigh(&self, around: Surroundings, targets: &[f64]) -> Vec<Vec<Weighed>> {
        let length = self.length();
        let rates: Vec<f64> = (0..=RATES)
            .map(|step| {
                SLOWEST * (FASTEST / SLOWEST).powf(f64::from(step) / f64::from(RATES)) / length
            })
            .collect();
        let sums = Sums::of(&self.0, &rates, length);
        let mut curves = Vec::new();
        for slow in 0..rates.len() {
            for place in -8..=8 {
                let off = f64::from(place) / 3.0;
                let toward = around.celsius + off * around.spread;
                let mut add = |fast: Option<usize>| {
                    let Some((curve, log)) = sums.fit(&rates, slow, fast, toward) else {
                        return;
                    };
                    curves.push((curve, log - 0.5 * off * off));
                };
                add(None);
                for fast in slow + 2..rates.len() {
                    add(Some(fast));
                }
            }
        }
        let best = curves.iter().fold(f64::NEG_INFINITY, |m, c| c.1.max(m));
        // What fits worse than one in a million of the best changes nothing.
        curves.retain(|c| c.1 > best - 14.0);
        targets
            .iter()
            .map(|target| {
                curves
                    .iter()
                    .map(|(curve, log)| Weighed {
                        hours: curve.reaches(*target),
                        weight: (log - best).exp(),
                    })
                    .collect()
            })
            .collect()
    }
}

/// Rates on the grid, the first and the last in units of one over the length of
/// the readings.
const RATES: u16 = 36;
const SLOWEST: f64 = 0.02;
const FASTEST: f64 = 24.0;

/// toward + a e^(−rate h) + b e^(−faster h), h hours after the last reading.
struct Curve {
    toward: f64,
    size: f64,
    rate: f64,
    fast_size: f64,
    fast_rate: f64,
}

impl Curve {
    fn at(&self, hours: f64) -> f64 {
        self.toward
            + self.size * (-self.rate * hours).exp()
            + self.fast_size * (-self.fast_rate * hours).exp()
    }

    /// Hours until the curve is at a level for the first time, by bisection;
    /// `None` where it stays on its side.
    fn reaches(&self, level: f64) -> Option<f64> {
        let side = |hours: f64| self.at(hours) > level;
        let here = side(0.0);
        let mut late = 0.05 / self.rate;
        // Twelve time constants on, what is left is a few millionths.
        while side(late) == here {
            late *= 2.0;
            if late * self.rate > 12.0 {
                return None;
            }
        }
        let mut early = 0.0;
        for _ in 0..40 {
            let middle = f64::midpoint(early, late);
            if side(middle) == here {
                early = middle;
            } else {
                late = middle;
            }
        }
        Some(late)
    }
}

/// Weighted sums over the readings that every fit on the grid is made of.
struct Sums {
    total: f64,
    y: f64,
    yy: f64,
    e: Vec<f64>,
    ye: Vec<f64>,
    ee: Vec<Vec<f64>>,
    independent: f64,
    length: f64,
}

impl Sums {
    fn of(readings: &[(f64, f64)], rates: &[f64], length: f64) -> Self {
        // Old readings count less: what it does now tells more of what it will do.
        let weights: Vec<f64> = readings.iter().map(|(h, _)| (h / length).exp()).collect();
        let powers: Vec<Vec<f64>> = rates
            .iter()
            .map(|rate| readings.iter().map(|(h, _)| (-rate * h).exp()).collect())
            .collect();
        let sum = |f: &dyn Fn(usize) -> f64| -> f64 {
            weights.iter().enumerate().map(|(i, w)| w * f(i)).sum()
        };
        let total = sum(&|_| 1.0);
        let squares: f64 = weights.iter().map(|w| w * w).sum();
        Self {
            total,
            y: sum(&|i| readings[i].1),
            yy: sum(&|i| readings[i].1 * readings[i].1),
            e: powers.iter().map(|p| sum(&|i| p[i])).collect(),
            ye: powers
                .iter()
                .map(|p| sum(&|i| readings[i].1 * p[i]))
                .collect(),
            ee: powers
                .iter()
                .map(|p| powers.iter().map(|q| sum(&|i| p[i] * q[i])).collect())
                .collect(),
            independent: (total * total / squares).min(MOST_INDEPENDENT),
            length,
        }
    }

    /// Least squares for the sizes at given rates and surroundings, with the
    /// logarithm of its likelihood; `None` for a curve no body follows.
    fn fit(
        &self,
        rates: &[f64],
        slow: usize,
        fast: Option<usize>,
        toward: f64,
    ) -> Option<(Curve, f64)> {
        let excess = self.yy - 2.0 * toward * self.y + toward * toward * self.total;
        let onto = |i: usize| self.ye[i] - toward * self.e[i];
        let (size, fast_size, explained) = match fast {
            None => {
                let size = onto(slow) / self.ee[slow][slow];
                (size, 0.0, size * onto(slow))
            }
            Some(fast) => {
                let (a, b, c) = (
                    self.ee[slow][slow],
                    self.ee[slow][fast],
                    self.ee[fast][fast],
                );
                let determinant = a * c - b * b;
                if determinant <= 1e-12 * a * c {
                    return None;
                }
                let size = (onto(slow) * c - onto(fast) * b) / determinant;
                let fast_size = (onto(fast) * a - onto(slow) * b) / determinant;
                (size, fast_size, size * onto(slow) + fast_size * onto(fast))
            }
        };
        let fast_rate = fast.map_or(0.0, |fast| rates[fast]);
        // At the first reading the fast part may hold back at most what the slow part gives.
        let back = fast_size.abs() * ((fast_rate - rates[slow]) * self.length).exp();
        if fast_size * size < 0.0 && back.is_finite() && back > size.abs() {
            return None;
        }
        let variance = (excess - explained).max(0.0) / self.total + NOISE_FLOOR * NOISE_FLOOR;
        // One more size to choose is paid for as in the Bayesian information criterion
        // (G. Schwarz, Annals of Statistics 6 (1978) 461).
        let price = if fast.is_some() {
            0.5 * self.independent.ln()
        } else {
            0.0
        };
        let log = -0.5 * self.independent * variance.ln() - price;
        Some((
            Curve {
                toward,
                size,
                rate: rates[slow],
                fast_size,
                fast_rate,
            },
            log,
        ))
    }
}

/// A time to go, in hours: middle and ends.
#[derive(Clone, Copy)]
struct ToGo {
    likely: f64,
    early: f64,
    late: Option<f64>,
}

/// Standard normal quantile of the upper end: 0.9.
const NORMAL_UPPER: f64 = 1.281_551_565_544_6;

fn quantiles(mut curves: Vec<Weighed>) -> Option<ToGo> {
    // "Never" comes after any time.
    curves.sort_by(|a, b| {
        a.hours
            .unwrap_or(f64::INFINITY)
            .total_cmp(&b.hours.unwrap_or(f64::INFINITY))
    });
    let total: f64 = curves.iter().map(|c| c.weight).sum();
    let at = |share: f64| {
        let mut sum = 0.0;
        curves
            .iter()
            .find(|c| {
                sum += c.weight;
                sum >= share * total
            })
            .and_then(|c| c.hours)
    };
    let side = (1.0 - CONFIDENCE) / 2.0;
    Some(ToGo {
        likely: at(0.5)?,
        early: at(side)?,
        late: at(1.0 - side),
    })
}

/// Hours that an earlier morning took from one temperature to another.
fn took(morning: &[(f64, f64)], from: f64, to: f64) -> Option<f64> {
    let passes = |level: f64| {
        morning.windows(2).find_map(|w| {
            let ((h0, a), (h1, b)) = (w[0], w[1]);
            let within = (a - level) * (b - level) <= 0.0 && a != b;
            within.then(|| h0 + (h1 - h0) * (level - a) / (b - a))
        })
    };
    let time = passes(to)? - passes(from)?;
    (time > 0.0).then_some(time)
}

/// What earlier mornings say, corrected by today's pace beside theirs: the
/// logarithm of the hours to go and its standard doubt.
fn by_habit(habit: &Habit, readings: &Readings, target: f64) -> Option<(f64, f64)> {
    let (first, last) = (readings.0.first()?, readings.0.last()?);
    let guesses: Vec<f64> = habit
        .mornings
        .iter()
        .filter_map(|morning| {
            let to_go = took(morning, last.1, target)?;
            // Today's pace over the same degrees, where that morning saw them too.
            let so_far = took(morning, first.1, last.1);
            let ratio = so_far.map_or(1.0, |theirs| (readings.length() / theirs).clamp(0.25, 4.0));
            Some(to_go.ln() + 0.8 * ratio.ln())
        })
        .collect();
    let n = guesses.len() as f64;
    if guesses.is_empty() {
        return None;
    }
    let mean = guesses.iter().sum::<f64>() / n;
    let scatter = if guesses.len() > 1 {
        guesses.iter().map(|g| (g - mean).powi(2)).sum::<f64>() / (n - 1.0)
    } else {
        // One morning says nothing of how mornings differ: a fifth, an estimate.
        0.04
    };
    Some((
        mean,
        (scatter * (1.0 + 1.0 / n) + HABIT_DOUBT.powi(2)).sqrt(),
    ))
}

fn to_go(curves: Vec<Weighed>, habit: &Habit, readings: &Readings, target: f64) -> Option<ToGo> {
    let fitted = quantiles(curves);
    let habitual = by_habit(habit, readings, target);
    let likely = fitted.map(|f| f.likely).filter(|h| *h > 0.0);
    match (likely, fitted, habitual) {
        (Some(likely), Some(fit), Some((mean, doubt))) => {
            let half = fit.late.map_or(1.0, |late| (late / likely).ln().abs());
            let lower = (likely / fit.early.max(likely * 0.05)).ln().abs();
            let own = (half.max(lower) / NORMAL_UPPER).hypot(MODEL_DOUBT);
            let (a, b) = (own.powi(-2), doubt.powi(-2));
            let middle = (likely.ln() * a + mean * b) / (a + b);
            // Where the two disagree by more than they admit, believe neither's narrowness.
            let apart = (likely.ln() - mean).abs() / own.hypot(doubt);
            let wide = NORMAL_UPPER * (a + b).powf(-0.5) * apart.max(1.0);
            Some(ToGo {
                likely: middle.exp(),
                early: (middle - wide).exp(),
                late: Some((middle + wide).exp()),
            })
        }
        (None, _, Some((mean, doubt))) => Some(ToGo {
            likely: mean.exp(),
            early: (mean - NORMAL_UPPER * doubt).exp(),
            late: Some((mean + NORMAL_UPPER * doubt).exp()),
        }),
        (_, Some(fit), None) => {
            let model = NORMAL_UPPER * MODEL_DOUBT * fit.likely.abs();
            Some(ToGo {
                likely: fit.likely,
                early: fit.likely - (fit.likely - fit.early).hypot(model),
                late: fit
                    .late
                    .map(|late| fit.likely + (late - fit.likely).hypot(model)),
            })
        }
        _ => None,
    }
}

fn when(from: Timestamp, go: ToGo) -> Option<When> {
    let at = |hours: f64| {
        // Beyond a month nothing is worth a clock time.
        let seconds = (hours * 3600.0).clamp(0.0, 2_678_400.0);
        from.checked_add(SignedDuration::from_millis((seconds * 1000.0) as i64))
            .ok()
    };
    Some(When {
        likely: at(go.likely)?,
        early: at(go.early)?,
        late: match go.late {
            Some(late) => Some(at(late)?),
            None => None,
        },
    })
}

/// When a log's temperature reaches and leaves a band.
#[must_use]
pub fn forecast(
    log: &HeatLog,
    band: Band,
    around: Surroundings,
    habit: &Habit,
    now: Timestamp,
) -> Forecast {
    let Some(whole) = unbroken(log).last() else {
        return Forecast::Unknown(Why::TooFewReadings);
    };
    let run = since_turn(whole);
    let Some(last) = run.last() else {
        return Forecast::Unknown(Why::TooFewReadings);
    };
    if now.duration_since(last.at) > log.longest_step {
        return Forecast::Unknown(Why::Silent);
    }
    let moved = run.first().map_or(0, |first| {
        (first.temperature.millicelsius() - last.temperature.millicelsius()).abs()
    });
    if whole.len() >= 5 && moved < LEAST_MOVE {
        return Forecast::Unknown(Why::Still);
    }
    if run.len() < 5 {
        return Forecast::Unknown(Why::TooFewReadings);
    }
    let Some(readings) = Readings::of(run) else {
        return Forecast::Unknown(Why::TooFewReadings);
    };
    let pace = readings.pace();
    if pace == 0.0 {
        return Forecast::Unknown(Why::Still);
    }
    let (here, low, high) = (
        last.temperature.celsius(),
        band.low.celsius(),
        band.high.celsius(),
    );
    let (near, far) = if pace < 0.0 { (high, low) } else { (low, high) };
    let ahead = |level: f64| (level - here) * pace > 0.0;
    let mut curves = readings.weigh(around, &[near, far]).into_iter();
    let mut reach = |level: f64| {
        let curves = curves.next().unwrap_or_default();
        ahead(level)
            .then(|| to_go(curves, habit, &readings, level))
            .flatten()
            .and_then(|go| when(last.at, go))
    };
    let enters = reach(near);
    let leaves = reach(far);
    if here >= low && here <= high {
        return Forecast::Inside { leaves };
    }
    match enters {
        Some(enters) => Forecast::Coming { enters, leaves },
        None => Forecast::NotComing,
    }
}

/// A log as a forecast wants it: what is going on now, and the same hours of
/// earlier days as [`Habit`].
///
/// The readings of the twelve hours up to `now` are what is going on; each
/// earlier day counts from twelve hours before the same time of day to twelve
/// hours after it, so that it holds what came of it then. Days are of 24 hours.
#[must_use]
pub fn mornings(log: &HeatLog, now: Timestamp) -> (HeatLog, Habit) {
    let half = SignedDuration::from_hours(12);
    let back = |from: Timestamp, by| from.checked_sub(by).unwrap_or(Timestamp::MIN);
    let after = now
        .checked_add(SignedDuration::from_millis(1))
        .unwrap_or(now);
    let mut to = back(now, half);
    let today = log.between(to, after);
    let first = log.points().first().map_or(to, |p| p.at);
    let mut habit = Habit::default();
    while to > first {
        let from = back(to, half + half);
        habit.learn(&log.between(from, to));
        to = from;
    }
    (today, habit)
}
