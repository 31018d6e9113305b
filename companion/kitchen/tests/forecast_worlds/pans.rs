//! Pans that cool from hot to cold: do they keep both limits, and what was
//! said of them while something could still be done?

use super::{Draw, Probe, Truth, log, moment, surroundings};
use evenhand_kitchen::heat::{Alarm, Habit, outlook};
use evenhand_kitchen::limits::Limits;

/// One pan.
pub struct Pan {
    pub truth: Truth,
    pub probe: Probe,
    pub told: Option<(f64, f64)>,
}

/// US FDA Food Code 2022, 3-501.14(A): from 57 degC to 21 within 2 h, to 5
/// within 6 h; °C and minutes.
pub const LIMITS: [(f64, f64); 2] = [(21.0, 120.0), (5.0, 360.0)];

/// What came of it.
#[derive(Debug, Clone, Copy)]
pub struct Verdict {
    /// Whether it keeps both stages.
    pub keeps: bool,
    /// The first call for action, minutes before the limit it was about.
    pub called: Option<f64>,
    /// The same of "too close to say", before any call.
    pub close: Option<f64>,
    /// Whether it was ever to be watched.
    pub watched: bool,
}

impl Pan {
    /// Some pans in a cold store, the one told and the other not; some of them
    /// too thick to keep the limits, some left in the kitchen.
    pub fn draw(draw: &mut Draw) -> Self {
        let store = draw.between(0.5, 4.0);
        let kitchen = draw.between(18.0, 26.0);
        let left = draw.unit() < 0.15;
        let around = if left { kitchen } else { store };
        let tau = draw.scale(45.0, 220.0);
        let (share, ratio) = (draw.between(-0.15, 0.25), draw.between(4.0, 12.0));
        let from = draw.between(62.0, 92.0);
        let (swing, period) = (draw.between(0.0, 1.5), draw.between(10.0, 40.0));
        let wave = std::f64::consts::TAU / period;
        let truth = Truth::of(0.5, 460.0, |t| {
            around
                + (from - around)
                    * ((1.0 - share) * (-t / tau).exp() + share * (-t * ratio / tau).exp())
                + swing / (1.0 + wave * tau) * (wave * t).sin()
        });
        let told = (draw.unit() < 0.5).then_some((around + draw.normal(), 2.0));
        Self {
            truth,
            probe: Probe {
                every: draw.one_of(&[1.0, 3.0]),
                noise: draw.scale(0.04, 0.25),
                step: draw.one_of(&[0.0, 0.1, 0.25]),
            },
            told,
        }
    }

    /// Asked every so many minutes until both limits are kept or passed.
    pub fn watch(&self, draw: &mut Draw, every: f64) -> Verdict {
        let limits = Limits::food_code();
        let limit = limits.named("cooling").unwrap();
        let began = self.truth.reaches(57.0).unwrap();
        let keeps = LIMITS.iter().all(|(level, within)| {
            self.truth
                .reaches(*level)
                .is_some_and(|at| at <= began + within)
        });
        let points = self.probe.sees(&self.truth, draw);
        let mut verdict = Verdict {
            keeps,
            called: None,
            close: None,
            watched: false,
        };
        let mut at = began + 5.0;
        while at < began + 360.0 {
            let seen = &points[..points.partition_point(|p| p.0 <= at)];
            let now = moment(seen.last().unwrap().0);
            let all = outlook(
                &log(seen),
                limit,
                surroundings(self.told),
                &Habit::default(),
                now,
            );
            let left = |alarm| {
                let loud = all.iter().find(|o| o.alarm == alarm)?;
                Some(loud.deadline?.duration_since(now).as_secs_f64() / 60.0)
            };
            verdict.called = left(Alarm::Act);
            verdict.close = verdict.close.or(left(Alarm::Close));
            verdict.watched |= left(Alarm::Look).is_some();
            let over = all.iter().any(|o| o.alarm == Alarm::Over);
            if verdict.called.is_some() || over || all.is_empty() {
                break;
            }
            at += every;
        }
        verdict
    }
}
