//! When will it be there?
//!
//! A falling oven, a cooling pan and the core of a joint follow what surrounds
//! them, and that in turn follows something farther off. [`forecast`] weighs
//! every such body ([`body`]) by how well it explains the readings
//! ([`posterior`]); so unknown rates, unknown surroundings and surroundings
//! that wander end up in the width of the interval and not in a hidden guess.
//! Where something may have changed ([`change`]), three suppositions are weighed
//! by what was seen since: one course goes on, it was disturbed in passing (a
//! door was open), a new one began; a marker begins a new one. Each fit is then
//! held against the log itself, as adaptive conformal prediction does: what it
//! would have said of the last reading at seven earlier moments, from a quarter of
//! the log on, scales what it says now, each side by how far it was off on that
//! side (after I. Gibbs and E. Candès, Adaptive conformal inference under
//! distribution shift, 2021, from memory; here with a prior, since seven are few).
//! What this oven did on earlier mornings ([`Habit`]) is put beside it. Where no
//! body explains what is seen, that is said.

mod body;
mod change;
mod core;
mod posterior;
mod readings;
mod thaw;

use self::body::Course as Along;
use self::posterior::{Arrival, Fit, Guess, Posterior};
use self::readings::{Readings, hours};
use super::log::{HeatLog, LogPoint};
use evenhand_protocol::Temperature;
use jiff::{SignedDuration, Timestamp};
use std::cell::OnceCell;

/// How often the truth should lie within an interval: eight times in ten.
pub const CONFIDENCE: f64 = 0.8;

/// Standard doubt about an earlier morning, as a share of the time remaining.
const HABIT_DOUBT: f64 = 0.1;
/// By how much the two together are wider than either's doubt says: an oven that
/// radiates slows down in a way that no fit has.
const RADIATES: f64 = 1.15;
/// Standard doubt about any fit, as a share of the time remaining.
const MODEL_DOUBT: f64 = 0.01;
/// The same where the body is a core of a regular shape, which no joint is.
const CORE_DOUBT: f64 = 0.015;
/// By how much a single exponential that explains all that was seen is narrower than
/// that: it has no unlikeness of its own.
const PLAIN_NARROWER: f64 = 0.6;
/// The same of bricks after a change: their face goes on evening out with what is
/// behind it.
const RAKED_DOUBT: f64 = 0.08;
/// From this temperature on the wet face of a joint may give off about as much
/// heat as it takes, which nothing below it shows, °C; and by what share of the
/// time left that may delay it. Estimates.
const STALLS: f64 = 78.0;
const STALLED: f64 = 0.1;
/// What goes in cold is colder than this, °C.
const PUT_IN: f64 = 30.0;
/// Each side of an interval as a share of what the fit says, beside what the log
/// itself says of it. Chosen on made-up kitchens, as the one below is.
const OF_THE_FIT: f64 = 0.95;
/// What went in cold may come sooner than a fit to it says: a door that was open
/// looks like a colder oven, and food conducts the better the warmer it is. By how
/// much the early side is longer for it.
const SOONER: f64 = 1.7;
/// The least change that counts as moving, in noises of one reading.
const LEAST_MOVE: f64 = 6.0;
/// The least change that counts as moving, °C.
const LEAST_DEGREES: f64 = 0.5;
/// The least probability of getting there at all at which a time is told.
const LIKELY_ENOUGH: f64 = 0.5;
/// Below this probability it is said not to come.
const HARDLY: f64 = 0.03;
/// A cold store may be as cold as this, °C.
const COLD_STORE: f64 = 0.0;
/// Above this radiation counts, °C.
const RADIANT: f64 = 130.0;
/// What was said of the surroundings may have changed unsaid: how often.
const UNSAID: f64 = 0.2;

/// A room nobody spoke of, °C: an estimate.
const ROOM: f64 = 22.0;
/// An oven nobody spoke of, °C, give or take: an estimate.
const OVEN: (f64, f64) = (150.0, 20.0);
/// What something warms toward is known badly beyond this, °C.
const VAGUE: f64 = 6.0;
/// How many times as much as passing disturbances have cost so far they may
/// cost from now on.
const RECURS: f64 = 3.0;

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

impl ForecastError {
    /// A name for it that does not change.
    #[must_use]
    pub const fn code(self) -> &'static str {
        match self {
            Self::BandReversed => "band-reversed",
            Self::SurroundingsSpread => "surroundings-spread",
        }
    }
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
    told: Option<(f64, f64)>,
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
            told: Some((at.celsius(), give_or_take_celsius)),
        })
    }

    /// About how warm they are: what was said, or a room, °C.
    pub(super) fn middle(self) -> f64 {
        self.told.map_or(ROOM, |(celsius, _)| celsius)
    }

    /// A warm kitchen nobody measured: 25 °C, give or take 10 (an estimate).
    pub const KITCHEN: Self = Self {
        told: Some((25.0, 10.0)),
    };

    /// Nobody said: a room, a cold store, a freezer, ice, an oven.
    pub const UNKNOWN: Self = Self { told: None };

    /// The guesses to weigh against each other. What was said is doubted a
    /// little: a pan is moved to the cold store without a word.
    fn guesses(self, here: f64, range: f64, falling: bool) -> Vec<Guess> {
        let way = if falling { -range } else { range };
        let far = Guess {
            weight: 0.4,
            celsius: here + way,
            spread: 20.0 + 2.0 * range,
        };
        let place = |weight, celsius, spread| Guess {
            weight,
            celsius,
            spread,
        };
        // A room, a cold store or ice, a freezer; an oven, a bath: estimates of what stands in a
        // kitchen.
        let mut guesses = if falling {
            vec![
                place(0.3, 22.0, 5.0),
                place(0.25, 3.0, 2.5),
                place(0.05, -18.0, 4.0),
                far,
            ]
        } else {
            vec![
                place(0.15, 22.0, 5.0),
                place(0.1, 4.0, 2.5),
                place(0.25, 150.0, 50.0),
                place(0.1, 70.0, 15.0),
                far,
            ]
        };
        if let Some((celsius, spread)) = self.told {
            for guess in &mut guesses {
                guess.weight *= UNSAID;
            }
            // Radiation falls faster than the excess: what a hot face seems to go toward lies
            // above the room, for black bricks at 230 °C by almost half of the excess.
            let excess = if falling && here > RADIANT {
                here - celsius
            } else {
                0.0
            };
            guesses.push(place(
                1.0 - UNSAID,
                celsius + 0.2 * excess,
                spread.hypot(0.2 * excess),
            ));
        }
        guesses
    }
}

impl Surroundings {
    /// The guesses for something that thaws: a cold store, the kitchen, running
    /// water, something warm; estimates of where cooks thaw.
    fn where_it_thaws(self) -> Vec<Guess> {
        let place = |weight, celsius, spread| Guess {
            weight,
            celsius,
            spread,
        };
        let mut guesses = vec![
            place(0.4, 4.0, 2.0),
            place(0.35, 20.0, 4.0),
            place(0.15, 13.0, 5.0),
            place(0.1, 50.0, 20.0),
        ];
        if let Some((celsius, spread)) = self.told {
            for guess in &mut guesses {
                guess.weight *= UNSAID;
            }
            guesses.push(place(1.0 - UNSAID, celsius, spread));
        }
        guesses
    }
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
    /// Fewer than five readings since the last turn, marker or gap.
    TooFewReadings,
    /// The last reading is older than the log's longest step.
    Silent,
    /// It hardly moves.
    Still,
    /// Something has just changed, and too little was seen since.
    Changed,
    /// What was seen would go with too many times, or with none.
    Doubtful,
    /// Water in it has to freeze or thaw on the way, which takes its own time.
    Plateau,
    /// It slows down short of what it stands in, as a wet surface does.
    Stalled,
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
fn by_habit(habit: &Habit, seen: (f64, f64), length: f64, target: f64) -> Option<(f64, f64)> {
    let guesses: Vec<f64> = habit
        .mornings
        .iter()
        .filter_map(|morning| {
            let to_go = took(morning, seen.1, target)?;
            // Today's pace over the same degrees, where that morning saw them too.
            let so_far = took(morning, seen.0, seen.1);
            let ratio = so_far.map_or(1.0, |theirs| (length / theirs).clamp(0.25, 4.0));
            Some(to_go.ln() + ratio.ln())
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

/// A time to go, in hours: middle and ends.
#[derive(Debug, Clone, Copy)]
struct ToGo {
    likely: f64,
    early: f64,
    late: Option<f64>,
}

/// Standard normal quantile of the upper end: 0.9.
const NORMAL_UPPER: f64 = 1.281_551_565_544_6;

/// Beyond a month nothing is worth a clock time.
const LONGEST_HOURS: f64 = 744.0;

/// Where a log is going: everything that can be asked about levels ahead.
#[derive(Debug, Clone)]
pub(super) struct Course<'a> {
    readings: Readings,
    posterior: Posterior,
    habit: &'a Habit,
    told: Option<(f64, f64)>,
    /// The last reading, °C.
    here: f64,
    /// The lowest of the whole unbroken stretch, °C.
    lowest: f64,
    /// The highest of it, °C.
    highest: f64,
    /// Whether it falls.
    falling: bool,
    /// By how much earlier forecasts were off, on the early and the late side.
    stretch: (f64, f64),
    /// Which way earlier forecasts were off, in standard deviations: where it came
    /// sooner than expected this is positive.
    lean: f64,
    /// How likely it is that something changed in the unbroken stretch.
    changed: f64,
    /// The share of the time left by which what disturbed it in passing may
    /// delay it again.
    lost: f64,
    /// Whether it could as well move the other way by what is seen.
    hardly: bool,
}

/// What may have happened, each with its probability.
struct Suppositions {
    fits: Vec<(Fit, f64)>,
    /// The probability that a new course began.
    anew: f64,
    /// By how much to stretch what is expected, below and above.
    stretch: (f64, f64),
    /// Which way earlier forecasts were off, in standard deviations: above is
    /// positive.
    lean: f64,
    /// Time lost to passing disturbances, as a share of the time without it.
    lost: f64,
}

/// How likely it is beforehand that a course which startles nobody begins anew.
const UNSEEN: f64 = 0.05;
/// How likely it is that a change leaves the body what it was: a door was open.
const PASSING: f64 = 0.4;
/// More kicks than this share of the bins are no passing disturbance.
const MOST_KICKED: usize = 3;

/// What was seen, for suppositions about it.
struct Seen<'a> {
    all: &'a Readings,
    /// The bin at which something startling began.
    begun: Option<usize>,
    /// The readings since then, in bins of their own; all, where nothing did.
    since: &'a Readings,
    guesses: &'a dyn Fn(&Readings) -> Vec<Guess>,
}

fn undisturbed(readings: &Readings, guesses: impl Fn(&Readings) -> Vec<Guess>) -> Option<Fit> {
    let along = Along {
        readings,
        kicks: &[],
        kick: 0.0,
        splits: splits(readings.bins.len(), 0),
    };
    Fit::of(along, &guesses(readings))
}

/// Only what came after the last change counts.
fn suppose_anew(seen: &Seen<'_>) -> Suppositions {
    let fit = undisturbed(seen.since, seen.guesses);
    Suppositions {
        fits: fit.map(|fit| (fit, 1.0)).into_iter().collect(),
        anew: f64::from(u8::from(seen.begun.is_some())),
        stretch: (1.0, 1.0),
        lean: 0.0,
        lost: 0.0,
    }
}

/// The bins at which earlier forecasts are replayed, behind one that is given.
fn splits(count: usize, first: usize) -> [usize; body::SPLITS] {
    let mut splits = [0; body::SPLITS];
    for (nth, split) in splits.iter_mut().enumerate() {
        // A quarter of the bins, and so on in tenths.
        let at = count * (15 + 10 * nth) / 100;
        *split = if at >= LEAST_REPLAYED { at } else { 0 };
    }
    splits[0] = first;
    splits
}

/// The fewest bins that a replayed forecast is made of.
const LEAST_REPLAYED: usize = 5;
/// How many earlier forecasts the replayed ones are put beside, and how far those
/// were off: by half the variance that they said. Chosen on made-up kitchens.
const PRIOR_COUNT: f64 = 6.0;
const PRIOR_SQUARE: f64 = 0.5;
/// The most that an end of the interval is moved out or in by, as a factor.
const WIDEST: f64 = 25.0;
const NARROWEST: f64 = 0.9;

/// By how much the lower and the upper side of what is expected are to be wider,
/// by how far earlier forecasts were off.
fn stretch(surprises: &[f64]) -> (f64, f64) {
    let count = surprises.len() as f64;
    let side = |sign: f64| {
        let squares: f64 = surprises
            .iter()
            .map(|z| 2.0 * (z * sign).max(0.0).powi(2))
            .sum();
        ((PRIOR_COUNT * PRIOR_SQUARE + squares) / (PRIOR_COUNT + count))
            .sqrt()
            .clamp(NARROWEST, WIDEST)
    };
    (side(-1.0), side(1.0))
}

/// Which way earlier forecasts were off, in standard deviations, beside as many
/// others that leant nowhere.
fn lean(surprises: &[f64]) -> f64 {
    surprises.iter().sum::<f64>() / (PRIOR_COUNT + surprises.len() as f64)
}

/// Weighs whether one course goes on, was disturbed in passing, or began anew
/// at a bin, by what was seen after that.
fn suppose(seen: &Seen<'_>) -> Suppositions {
    let Seen {
        all,
        begun,
        since,
        guesses,
    } = *seen;
    let finer = begun.map(|_| since);
    let mut fits: Vec<(Fit, f64)> = Vec::new();
    let kicks = begun.map(|_| change::kicks(all)).unwrap_or_default();
    let split = begun.or_else(|| change::likeliest_split(all));
    let passing = !kicks.is_empty() && kicks.len() * MOST_KICKED < all.bins.len();
    let going_on = Fit::of(
        Along {
            readings: all,
            kicks: if passing { &kicks } else { &[] },
            kick: all.range,
            splits: splits(all.bins.len(), split.unwrap_or(0)),
        },
        &guesses(all),
    );
    let Some(at) = split else {
        fits.extend(going_on.map(|fit| (fit, 1.0)));
        let first = fits.first().map(|(fit, _)| fit.surprises.as_slice());
        return Suppositions {
            anew: 0.0,
            stretch: first.map_or((1.0, 1.0), stretch),
            lean: first.map_or(0.0, lean),
            fits,
            lost: 0.0,
        };
    };
    let after = all.from(at);
    let plain = |readings| undisturbed(readings, guesses);
    let fresh = plain(&after);
    let beforehand: f64 = match (begun.is_some(), passing) {
        (false, _) => UNSEEN,
        (true, true) => 1.0 - PASSING,
        (true, false) => 1.0 - UNSEEN,
    };
    let anew = match (&going_on, &fresh) {
        (Some(on), Some(fresh)) => {
            let odds = (fresh.evidence - on.evidence).clamp(-50.0, 50.0).exp() * beforehand
                / (1.0 - beforehand);
            odds / (1.0 + odds)
        }
        (Some(_), None) => {
            if finer.is_some() {
                beforehand
            } else {
                0.0
            }
        }
        (None, _) => 1.0,
    };
    // Hours are counted from the last of the finer bins.
    let ahead = finer.map_or(0.0, |readings| hours(readings.last, all.last));
    if anew < 0.99 {
        fits.extend(going_on.map(|fit| (fit.later(ahead), 1.0 - anew)));
    }
    if anew > 0.01 {
        let finest = match finer {
            Some(readings) if readings.bins.len() > after.bins.len() + 2 => plain(readings),
            _ => fresh.map(|fit| fit.later(ahead)),
        };
        fits.extend(finest.map(|fit| (fit, anew)));
    }
    let total: f64 = fits.iter().map(|f| f.1).sum();
    let stretch = fits
        .iter()
        .fold((0.0, 0.0), |(below, above), (fit, weight)| {
            let (b, a) = stretch(&fit.surprises);
            (below + weight / total * b, above + weight / total * a)
        });
    let lean = fits
        .iter()
        .map(|(fit, weight)| weight / total * lean(&fit.surprises))
        .sum();
    let lost = if passing {
        (1.0 - anew) * change::lost(all, &kicks)
    } else {
        0.0
    };
    Suppositions {
        fits,
        anew,
        stretch,
        lean,
        lost,
    }
}

/// Whether and when a level is reached.
#[derive(Debug, Clone, Copy)]
pub(super) enum Reach {
    /// It likely comes.
    At(When),
    /// It does not come.
    Never,
    /// Not known.
    Unknown(Why),
}

impl<'a> Course<'a> {
    /// # Errors
    /// Why there is none.
    pub(super) fn of(
        log: &HeatLog,
        around: Surroundings,
        habit: &'a Habit,
        now: Timestamp,
    ) -> Result<Self, Why> {
        Self::supposing(log, around, habit, now, suppose)
    }

    /// The same where only what came after the last change counts: quicker, and
    /// with intervals that are too wide or too narrow after a change.
    ///
    /// # Errors
    /// Why there is none.
    pub(super) fn since_last_change(
        log: &HeatLog,
        around: Surroundings,
        habit: &'a Habit,
        now: Timestamp,
    ) -> Result<Self, Why> {
        Self::supposing(log, around, habit, now, suppose_anew)
    }

    fn supposing(
        log: &HeatLog,
        around: Surroundings,
        habit: &'a Habit,
        now: Timestamp,
        suppose: impl Fn(&Seen<'_>) -> Suppositions,
    ) -> Result<Self, Why> {
        let whole = unbroken(log).last().unwrap_or_default();
        let last = whole.last().ok_or(Why::TooFewReadings)?;
        if now.duration_since(last.at) > log.longest_step {
            return Err(Why::Silent);
        }
        let marked = log.markers.iter().map(|m| m.at).filter(|at| *at <= last.at);
        let from = marked
            .max()
            .map_or(0, |at| whole.partition_point(|p| p.at < at));
        let mut run = &whole[from..];
        if run.len() < 5 {
            return Err(Why::TooFewReadings);
        }
        let marked = from > 0;
        let all = Readings::of(run).ok_or(Why::TooFewReadings)?;
        let still = |r: &Readings| r.range < LEAST_DEGREES.max(LEAST_MOVE * r.noise);
        if still(&all) {
            return Err(Why::Still);
        }
        let entire = run.len();
        let mut readings = all.clone();
        // A stretch after a change has finer bins, which may show another.
        while let Some(at) = change::last_change(&readings) {
            run = &run[readings.bins[at].first..];
            if run.len() < 6 {
                return Err(Why::Changed);
            }
            readings = Readings::of(run).ok_or(Why::Changed)?;
        }
        if let Some(at) = change::quickened(&readings) {
            run = &run[readings.bins[at].first..];
            readings = Readings::of(run).ok_or(Why::Changed)?;
        }
        let found = run.len() < entire;
        if still(&readings) {
            return Err(if found || marked {
                Why::Changed
            } else {
                Why::Still
            });
        }
        let (pace, doubt) = readings.pace();
        if pace.abs() < 2.0 * doubt {
            return Err(Why::Still);
        }
        let here = last.temperature.celsius();
        let falling = pace < 0.0;
        let guesses = move |r: &Readings| around.guesses(here, r.range, falling);
        let begun = found.then(|| {
            let first = entire - run.len();
            all.bins.partition_point(|b| b.first <= first).max(1) - 1
        });
        let suppositions = suppose(&Seen {
            all: &all,
            begun,
            since: &readings,
            guesses: &guesses,
        });
        let Suppositions {
            anew,
            stretch,
            lean,
            lost,
            ..
        } = suppositions;
        let posterior = Posterior::of(suppositions.fits).ok_or(Why::TooFewReadings)?;
        let changed = if marked { 1.0 } else { anew };
        let temperatures = || whole.iter().map(|p| p.temperature.celsius());
        Ok(Self {
            posterior,
            readings,
            habit,
            told: around.told,
            here,
            lowest: temperatures().fold(f64::INFINITY, f64::min),
            highest: temperatures().fold(f64::NEG_INFINITY, f64::max),
            falling,
            // Below what was expected is early for what falls.
            stretch: if falling {
                stretch
            } else {
                (stretch.1, stretch.0)
            },
            lean: if falling { -lean } else { lean },
            changed,
            lost: RECURS * lost,
            hardly: pace.abs() < 5.0 * doubt,
        })
    }

    /// Whether a level lies ahead.
    pub(super) fn is_ahead(&self, level: Temperature) -> bool {
        (level.celsius() < self.here) == self.falling && level.celsius() != self.here
    }

    /// Whether a level cannot be reached by a moment even at the pace of now,
    /// which only slows down in one place.
    pub(super) fn is_out_of_reach(&self, level: Temperature, moment: Timestamp) -> bool {
        out_of_reach(&self.readings, self.here, level, moment)
    }

    /// The probability that a level is reached by a moment.
    pub(super) fn by(&self, level: Temperature, moment: Timestamp) -> f64 {
        let until = hours(moment, self.readings.last).max(0.0);
        self.arrival(level.celsius()).within(until)
    }

    /// The same where the fit errs in the pan's disfavour: convection and
    /// evaporation grow with the excess, so that what a pan seems to go toward
    /// lies above what it does go toward. As if this share less of the way were
    /// to go.
    pub(super) fn by_at_best(&self, level: Temperature, moment: Timestamp, eased: f64) -> f64 {
        let until = hours(moment, self.readings.last).max(0.0);
        let level = level.celsius();
        let eased = level + eased * (self.here - level);
        self.arrival(eased).within(until)
    }

    /// Whether a level below cannot be reached by a moment even where the body goes
    /// on at the share of its excess an hour of now, over surroundings as cold as they
    /// may be. Convection and evaporation grow with the excess: the share falls.
    pub(super) fn is_out_of_reach_by_share(&self, level: Temperature, moment: Timestamp) -> bool {
        let coldest = self
            .told
            .map_or(COLD_STORE, |(told, give)| told - 2.0 * give);
        let (pace, doubt) = self.readings.pace();
        let level = level.celsius().max(coldest + 0.1);
        let excess = self.here - coldest;
        if level >= self.here || excess <= 0.0 {
            return false;
        }
        let share = (pace.abs() + 2.0 * doubt) / excess;
        let needs = (excess / (level - coldest)).ln() / share.max(1e-9);
        needs > hours(moment, self.readings.last)
    }

    fn arrival(&self, level: f64) -> Arrival<'_> {
        let length = self.readings.length();
        let longest = LONGEST_HOURS.min(100.0 * length);
        self.posterior
            .arrival(level, self.falling, length / 500.0, longest)
    }

    /// The share of the time left that is enough should it go on toward what was
    /// said of the surroundings, where it seems to go toward something colder: a
    /// door that was open, a wet surface, cold air that has yet to warm.
    fn held_back(&self, level: f64) -> f64 {
        let (far, spread) = self.posterior.far();
        let (told, give) = self.told.unwrap_or(OVEN);
        let vague = self.told.is_some() || spread > VAGUE;
        if self.falling || !vague || far + spread > told - 2.0 * give || level > told {
            return 1.0;
        }
        let middle = f64::midpoint(self.here, level);
        ((far.max(level) - middle) / (told - middle))
            .clamp(0.1, 1.0)
            .sqrt()
    }

    /// When a level ahead is reached.
    pub(super) fn reach(&self, level: Temperature) -> Reach {
        let level = level.celsius();
        let thaws = !self.falling && self.lowest < -3.0 && self.here < 0.5 && level > -1.5;
        let freezes = self.falling && self.here > -2.5 && self.highest > 0.0 && level < -1.5;
        if thaws || freezes {
            return Reach::Unknown(Why::Plateau);
        }
        let side = (1.0 - CONFIDENCE) / 2.0;
        let arrival = self.arrival(level);
        let ever = arrival.ever();
        let of_those = |share: f64| arrival.hours_to(share * ever);
        let fit = (ever >= LIKELY_ENOUGH).then(|| {
            Some(ToGo {
                likely: of_those(0.5)?,
                early: of_those(side)?,
                late: of_those(1.0 - side),
            })
        });
        let fit = fit.flatten().map(|fit| {
            let went_in_cold = !self.falling && self.lowest < PUT_IN;
            let sooner = if went_in_cold { SOONER } else { 1.0 };
            // What was ahead of what was expected all along will be so again.
            let of_the_fit = OF_THE_FIT * (1.0 - PLAIN_NARROWER * self.posterior.plain());
            let (early, late) = (
                of_the_fit * self.stretch.0 * sooner * (1.0 + self.lean.max(0.0)),
                of_the_fit * self.stretch.1 * (1.0 + (-self.lean).max(0.0)),
            );
            let wet = went_in_cold && level >= STALLS;
            let delay = self.lost + if wet { STALLED } else { 0.0 };
            ToGo {
                likely: fit.likely,
                early: fit.likely
                    * (fit.early / fit.likely.max(1e-9)).powf(early)
                    * self.held_back(level),
                late: fit
                    .late
                    .map(|end| fit.likely * (1.0 + delay) + (end - fit.likely) * late),
            }
        });
        let first = self.readings.bins.first().map_or(self.here, |b| b.celsius);
        let habitual = by_habit(
            self.habit,
            (first, self.here),
            self.readings.length(),
            level,
        );
        let bricks = self.falling && self.here > RADIANT;
        let changed = if bricks {
            self.changed * RAKED_DOUBT
        } else {
            0.0
        };
        let doubt = MODEL_DOUBT + CORE_DOUBT * self.posterior.core() + changed;
        if let Some(go) = combined(fit, habitual, doubt) {
            return when(self.readings.last, go).map_or(Reach::Unknown(Why::Doubtful), Reach::At);
        }
        let (far, spread) = self.posterior.far();
        let short = !self.falling
            && self
                .told
                .is_none_or(|(told, give)| far + 2.0 * spread < told - 2.0 * give);
        if short && self.here > 45.0 && self.here < 100.0 {
            return Reach::Unknown(Why::Stalled);
        }
        // At the pace of now, which may be that of a hot face only.
        let ahead = if self.changed > 0.5 { 3.0 } else { 1.0 };
        let within_reach = (level - self.here).abs()
            < self.readings.pace().0.abs() * ahead * self.readings.length();
        if ever < HARDLY && !within_reach {
            Reach::Never
        } else {
            Reach::Unknown(Why::Doubtful)
        }
    }
}

fn out_of_reach(readings: &Readings, here: f64, level: Temperature, moment: Timestamp) -> bool {
    let (pace, doubt) = readings.pace();
    let left = hours(moment, readings.last);
    (level.celsius() - here).abs() > 1.1 * (pace.abs() + 2.0 * doubt) * left
}

/// Whether a level below cannot be reached by a moment at the pace of now, for a
/// log that nothing else can be said of; not where the pace is not known either.
pub(super) fn is_out_of_reach(log: &HeatLog, level: Temperature, moment: Timestamp) -> bool {
    let Some(run) = unbroken(log).last() else {
        return false;
    };
    let marked = log.markers.iter().map(|m| m.at).max();
    let from = marked.map_or(0, |at| run.partition_point(|p| p.at < at));
    match (run.last(), Readings::of(&run[from..])) {
        (Some(last), Some(readings)) if run.len() - from >= 4 => {
            out_of_reach(&readings, last.temperature.celsius(), level, moment)
        }
        _ => false,
    }
}

/// The least warming that counts as thawing, °C: a freezer that cycles is none.
const LEAST_THAW: f64 = 5.0;

/// The answer for something that thaws on the way to a band above freezing;
/// `None` where it does not.
fn through_thawing(
    log: &HeatLog,
    band: Band,
    around: Surroundings,
    now: Timestamp,
) -> Option<Forecast> {
    let whole = unbroken(log).last()?;
    let last = whole.last()?;
    if now.duration_since(last.at) > log.longest_step {
        return None;
    }
    let marked = log.markers.iter().map(|m| m.at).filter(|at| *at <= last.at);
    let from = marked
        .max()
        .map_or(0, |at| whole.partition_point(|p| p.at < at));
    let readings = Readings::of(&whole[from..])?;
    let here = last.temperature.celsius();
    let lowest = whole[from..]
        .iter()
        .map(|p| p.temperature.celsius())
        .fold(f64::INFINITY, f64::min);
    let thaws = lowest < -3.0 && here < 0.5 && here > lowest + LEAST_THAW;
    if !thaws || band.low.celsius() < -1.5 {
        return None;
    }
    let guesses = around.where_it_thaws();
    let to = |level: Temperature| {
        let hours = thaw::hours_to(&readings, &guesses, level.celsius(), thaw::ENDS)?;
        let [early, likely, late] = hours;
        when(
            readings.last,
            ToGo {
                likely,
                early,
                late: Some(late),
            },
        )
    };
    Some(match to(band.low) {
        Some(enters) => Forecast::Coming {
            enters,
            leaves: if band.low == band.high {
                Some(enters)
            } else {
                to(band.high)
            },
        },
        None => Forecast::Unknown(Why::Plateau),
    })
}

fn combined(fit: Option<ToGo>, habitual: Option<(f64, f64)>, model: f64) -> Option<ToGo> {
    let own = |fit: ToGo| {
        let likely = fit.likely.max(1e-4);
        let above = fit.late.map_or(1.0, |late| (late / likely).ln());
        let below = (likely / fit.early.max(likely * 0.05)).ln();
        (above.max(below) / NORMAL_UPPER).hypot(model)
    };
    match (fit, habitual) {
        (Some(fit), Some((mean, doubt))) => {
            let own = own(fit);
            let likely = fit.likely.max(1e-4).ln();
            let (a, b) = (own.powi(-2), doubt.powi(-2));
            let middle = (likely * a + mean * b) / (a + b);
            // Where the two disagree by more than they admit, believe neither's narrowness.
            let apart = (likely - mean).abs() / own.hypot(doubt);
            let wide = NORMAL_UPPER * (a + b).powf(-0.5) * (apart.max(1.0) * RADIATES);
            Some(ToGo {
                likely: middle.exp(),
                early: (middle - wide).exp(),
                late: Some((middle + wide).exp()),
            })
        }
        (None, Some((mean, doubt))) => Some(ToGo {
            likely: mean.exp(),
            early: (mean - NORMAL_UPPER * doubt).exp(),
            late: Some((mean + NORMAL_UPPER * doubt).exp()),
        }),
        (Some(fit), None) => {
            let model = NORMAL_UPPER * model * fit.likely;
            Some(ToGo {
                likely: fit.likely,
                early: fit.likely - (fit.likely - fit.early).hypot(model),
                late: fit
                    .late
                    .map(|late| fit.likely + (late - fit.likely).hypot(model)),
            })
        }
        (None, None) => None,
    }
}

fn when(from: Timestamp, go: ToGo) -> Option<When> {
    let at = |hours: f64| {
        let seconds = (hours * 3600.0).clamp(0.0, LONGEST_HOURS * 3600.0);
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
    let [answer] = forecast_each(log, [band], around, habit, now);
    answer
}

/// The same of several bands: the log is looked at once for all of them.
#[must_use]
pub fn forecast_each<const N: usize>(
    log: &HeatLog,
    bands: [Band; N],
    around: Surroundings,
    habit: &Habit,
    now: Timestamp,
) -> [Forecast; N] {
    let course = OnceCell::new();
    bands.map(|band| {
        through_thawing(log, band, around, now).unwrap_or_else(|| {
            match course.get_or_init(|| Course::of(log, around, habit, now)) {
                Ok(course) => course.through(band),
                Err(why) => Forecast::Unknown(*why),
            }
        })
    })
}

impl Course<'_> {
    /// When it reaches and leaves a band.
    fn through(&self, band: Band) -> Forecast {
        let (near, far) = if self.falling {
            (band.high, band.low)
        } else {
            (band.low, band.high)
        };
        let leaves = || match self.is_ahead(far).then(|| self.reach(far)) {
            Some(Reach::At(when)) => Some(when),
            _ => None,
        };
        if self.here >= band.low.celsius() && self.here <= band.high.celsius() {
            return Forecast::Inside { leaves: leaves() };
        }
        if !self.is_ahead(near) {
            return if self.changed > 0.5 {
                Forecast::Unknown(Why::Changed)
            } else if self.hardly {
                Forecast::Unknown(Why::Still)
            } else {
                Forecast::NotComing
            };
        }
        match self.reach(near) {
            Reach::At(enters) => Forecast::Coming {
                enters,
                leaves: if near == far { Some(enters) } else { leaves() },
            },
            Reach::Never => Forecast::NotComing,
            Reach::Unknown(why) => Forecast::Unknown(why),
        }
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
