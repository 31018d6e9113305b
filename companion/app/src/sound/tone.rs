//! The tones, as sound files in memory.

use super::Volume;
use evenhand_protocol::Verdict;
use hound::{SampleFormat, WavSpec, WavWriter};
use std::io::Cursor;

/// Samples a second.
pub const RATE: u32 = 22_050;

/// How long a tone takes to swell and to fade, so that it does not click.
const FADE_MS: u32 = 6;

/// What is told by a tone.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Cue {
    /// One tap on the way to the target, from 0 (far) to [`Cue::STEPS`] less one (near).
    Tap(u8),
    /// The portion that was counted is short.
    Short,
    /// The target is reached; the portion that was counted is on target.
    On,
    /// Too heavy.
    Heavy,
    /// A portion was counted, with this verdict.
    Captured(Verdict),
    /// Something was not counted or not done.
    Refused,
}

/// A stretch of sound, or of silence where it has no pitch: hertz and milliseconds.
type Note = (Option<f32>, u32);

impl Cue {
    /// Steps of the way to the target.
    pub const STEPS: u8 = 8;

    /// Those that can be tried, without the taps between.
    pub const ALL: [Self; 5] = [
        Self::Short,
        Self::On,
        Self::Heavy,
        Self::Captured(Verdict::On),
        Self::Refused,
    ];

    /// The tone of a verdict.
    #[must_use]
    pub const fn of(verdict: Verdict) -> Self {
        match verdict {
            Verdict::Short => Self::Short,
            Verdict::On => Self::On,
            Verdict::Heavy => Self::Heavy,
        }
    }

    /// The name of its file.
    pub(super) fn name(self) -> String {
        match self {
            Self::Tap(step) => format!("tap-{step}"),
            Self::Short => "short".to_owned(),
            Self::On => "on".to_owned(),
            Self::Heavy => "heavy".to_owned(),
            Self::Captured(verdict) => format!("captured-{}", Self::of(verdict).name()),
            Self::Refused => "refused".to_owned(),
        }
    }

    fn notes(self) -> Vec<Note> {
        let sound = |hertz: f32, millis: u32| (Some(hertz), millis);
        let pause = |millis: u32| (None, millis);
        match self {
            // An octave from far to near, in equal steps.
            Self::Tap(step) => {
                let octaves = f32::from(step) / f32::from(Self::STEPS - 1);
                vec![sound(440.0 * octaves.exp2(), 30)]
            }
            Self::Short => vec![sound(587.0, 90), sound(392.0, 160)],
            Self::On => vec![sound(1_047.0, 60)],
            Self::Heavy => vec![
                sound(698.0, 80),
                pause(80),
                sound(698.0, 80),
                pause(80),
                sound(698.0, 80),
            ],
            Self::Captured(verdict) => {
                let mut notes = vec![
                    sound(1_319.0, 60),
                    pause(60),
                    sound(1_319.0, 200),
                    pause(120),
                ];
                notes.extend(Self::of(verdict).notes());
                notes
            }
            Self::Refused => vec![sound(330.0, 400), pause(200), sound(330.0, 400)],
        }
    }

    /// The tone as a WAV file: one channel, 16 bits.
    ///
    /// # Errors
    /// Where the file cannot be made, which only a lack of memory can cause.
    pub fn wav(self, volume: Volume) -> Result<Vec<u8>, hound::Error> {
        let spec = WavSpec {
            channels: 1,
            sample_rate: RATE,
            bits_per_sample: 16,
            sample_format: SampleFormat::Int,
        };
        let mut file = Cursor::new(Vec::new());
        let mut writer = WavWriter::new(&mut file, spec)?;
        for (hertz, millis) in self.notes() {
            let count = RATE * millis / 1_000;
            let fade = (RATE * FADE_MS / 1_000) as f32;
            for nth in 0..count {
                let swell = (nth.min(count - 1 - nth) as f32 / fade).min(1.0);
                let wave = hertz.map_or(0.0, |hertz| {
                    (std::f32::consts::TAU * hertz * nth as f32 / RATE as f32).sin()
                });
                let sample = wave * swell * volume.share() * f32::from(i16::MAX);
                writer.write_sample(sample as i16)?;
            }
        }
        writer.finalize()?;
        Ok(file.into_inner())
    }
}
