//! From what happens at the bench to what is heard of it. Time is passed in.

use super::tone::Cue;
use crate::bench_view::{BenchView, Of, Tone};
use crate::figures;
use crate::words::Language;
use evenhand_protocol::{PortionId, Verdict};
use jiff::Timestamp;
use std::time::{Duration, Instant};

/// A verdict holds for so long before it is told, so that a spoon's push does not chatter: as
/// the instrument's buzzer does.
const HOLD: Duration = Duration::from_millis(120);

/// How far apart taps are, from far to near, in milliseconds.
const APART: [u64; Cue::STEPS as usize] = [1_000, 840, 700, 570, 450, 340, 240, 160];

/// What of the bench can be heard.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Scene {
    /// The verdict on the portion being made, whether the load is steady, and amount over target.
    live: Option<(Verdict, bool, f64)>,
    /// How many portions the run has, the last of them with its verdict.
    made: Option<(usize, PortionId, Verdict)>,
    /// The last portion in words.
    words: String,
    /// When something was last not counted.
    refused: Option<Timestamp>,
    /// What was asked last and not done, by its number.
    not_done: Option<u64>,
    /// Weighing has stopped.
    stopped: bool,
}

impl Scene {
    /// What of a bench can be heard; `not_done` is the number of what was asked last, where it
    /// was not done.
    #[must_use]
    pub fn of(bench: &BenchView, not_done: Option<u64>, language: Language) -> Self {
        let run = bench.running();
        let last = run.and_then(|run| run.portions.last());
        let mass = &bench.mass;
        let live = match (run, mass.shown, mass.verdict) {
            (Some(run), Some(shown), Some(verdict)) if mass.of == Of::Load => {
                let share = shown.grams() / run.goal.target().grams();
                Some((verdict, mass.stable == Some(true), share))
            }
            _ => None,
        };
        Self {
            live,
            made: run
                .zip(last)
                .map(|(run, last)| (run.portions.len(), last.id, last.verdict())),
            words: last.map_or_else(String::new, |last| {
                let weighed = figures::grams(last.mass, mass.interval, language);
                format!("{weighed}, {}", figures::verdict(last.verdict(), language))
            }),
            refused: bench.refused,
            not_done,
            stopped: bench.link.tone == Tone::Stop,
        }
    }
}

/// What was heard so far.
#[derive(Debug, Default)]
pub struct Listening {
    scene: Option<Scene>,
    /// Since when the live verdict is what it is.
    since: Option<Instant>,
    /// The verdict that was last told in this portion.
    told: Option<Verdict>,
    tapped: Option<Instant>,
    say: Option<String>,
}

impl Listening {
    /// The bench now looks so: what is heard of it.
    pub fn hear(&mut self, scene: Scene, now: Instant) -> Vec<Cue> {
        let Some(before) = self.scene.replace(scene.clone()) else {
            // What was there already is no news.
            self.since = Some(now);
            return Vec::new();
        };
        let mut cues = Vec::new();
        let verdict = |scene: &Scene| scene.live.map(|(verdict, ..)| verdict);
        if verdict(&scene) != verdict(&before) {
            self.since = Some(now);
        }
        if scene.live.is_none() {
            self.told = None;
        }
        if let Some((count, id, verdict)) = scene.made
            && before.made.is_none_or(|(_, last, _)| last != id)
            && count == before.made.map_or(0, |(count, ..)| count) + 1
        {
            self.told = None;
            cues.push(Cue::Captured(verdict));
            self.say = Some(scene.words.clone());
        }
        let refused = scene.refused.is_some() && scene.refused != before.refused;
        let not_done = scene.not_done.is_some() && scene.not_done != before.not_done;
        if refused || not_done || (scene.stopped && !before.stopped) {
            cues.push(Cue::Refused);
        }
        cues.extend(self.still(now));
        cues
    }

    /// Nothing has changed, and time has passed.
    pub fn still(&mut self, now: Instant) -> Vec<Cue> {
        let mut cues = Vec::new();
        let Some((verdict, steady, share)) = self.scene.as_ref().and_then(|scene| scene.live)
        else {
            self.tapped = None;
            return cues;
        };
        let held = self
            .since
            .is_some_and(|since| now.saturating_duration_since(since) >= HOLD);
        // A push of the spoon reads heavy; a steady load that does is.
        if held && (steady || verdict != Verdict::Heavy) && self.told != Some(verdict) {
            self.told = Some(verdict);
            if verdict != Verdict::Short {
                cues.push(Cue::of(verdict));
            }
        }
        if verdict == Verdict::Short && !steady {
            let step = step(share);
            let due = self
                .tapped
                .is_none_or(|at| now.saturating_duration_since(at) >= apart(step));
            if due {
                self.tapped = Some(now);
                cues.push(Cue::Tap(step));
            }
        }
        cues
    }

    /// The portion to be spoken, once.
    pub fn to_say(&mut self) -> Option<String> {
        self.say.take()
    }

    /// How long until something may be heard though nothing changes.
    #[must_use]
    pub fn next_in(&self, now: Instant) -> Option<Duration> {
        let (verdict, steady, share) = self.scene.as_ref()?.live?;
        let to = |from: Option<Instant>, after: Duration| {
            let passed = from.map(|from| now.saturating_duration_since(from));
            passed.map_or(Duration::ZERO, |passed| after.saturating_sub(passed))
        };
        let tap =
            (verdict == Verdict::Short && !steady).then(|| to(self.tapped, apart(step(share))));
        let verdict = (self.told != Some(verdict) && (steady || verdict != Verdict::Heavy))
            .then(|| to(self.since, HOLD));
        [tap, verdict].into_iter().flatten().min()
    }
}

/// Which step of the way an amount over its target is at.
fn step(share: f64) -> u8 {
    (share.clamp(0.0, 1.0) * f64::from(Cue::STEPS)).min(f64::from(Cue::STEPS - 1)) as u8
}

fn apart(step: u8) -> Duration {
    Duration::from_millis(APART.get(usize::from(step)).copied().unwrap_or(160))
}
