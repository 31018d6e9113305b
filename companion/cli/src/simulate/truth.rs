//! What really happens at a simulated bench, in a file beside it.

use evenhand_kitchen::units::Grams;
use evenhand_protocol::CapturedPortion;
use evenhand_simulator::history::{Happening, What};
use evenhand_simulator::instrument::SimulatedInstrument;
use evenhand_simulator::truth::TruePortion;
use serde::Serialize;
use std::fs::{File, OpenOptions};
use std::io::{self, Write};
use std::path::Path;

/// A line of the file: a JSON object.
#[derive(Debug, Serialize)]
struct Line {
    at_seconds: f64,
    #[serde(flatten)]
    what: Words,
}

#[derive(Debug, Serialize)]
#[serde(tag = "happened", rename_all = "kebab-case")]
enum Words {
    PowerOn {
        epoch: u32,
    },
    PowerOff {
        in_write: bool,
    },
    Waiting(InFlash),
    Kept(InFlash),
    Portion {
        number: u32,
        begun_seconds: f64,
        grams: Grams,
        dish_grams: Option<Grams>,
        corrected: bool,
    },
    Over,
}

/// A portion that is in the flash.
#[derive(Debug, Serialize)]
struct InFlash {
    id: String,
    uptime_seconds: f64,
    grams: Grams,
}

impl InFlash {
    fn of(portion: &CapturedPortion) -> Self {
        Self {
            id: portion.id.to_string(),
            uptime_seconds: portion.at.millis() as f64 / 1e3,
            grams: Grams(portion.mass),
        }
    }
}

/// Writes down what happens, line by line, at the end of a file.
#[derive(Debug)]
pub(super) struct Truth {
    file: File,
    portions: usize,
    last: Option<TruePortion>,
    over: bool,
}

impl Truth {
    /// Goes on with a file, which is made where it is not there.
    pub(super) fn open(path: &Path) -> io::Result<Self> {
        let file = OpenOptions::new().create(true).append(true).open(path)?;
        Ok(Self {
            file,
            portions: 0,
            last: None,
            over: false,
        })
    }

    /// Writes down what happened since the last time.
    pub(super) fn tell(&mut self, instrument: &mut SimulatedInstrument) -> io::Result<()> {
        for happening in instrument.take_history() {
            self.line(happening.at_micros, words(&happening))?;
        }
        // Only the last one is ever corrected.
        if let (Some(last), Some(now)) = (
            self.last,
            instrument.truth().get(self.portions.wrapping_sub(1)),
        ) && last != *now
        {
            self.last = Some(*now);
            self.portion(*now)?;
        }
        while let Some(portion) = instrument.truth().get(self.portions).copied() {
            self.portions += 1;
            self.last = Some(portion);
            self.portion(portion)?;
        }
        if instrument.is_over() && !self.over {
            self.over = true;
            self.line(instrument.micros(), Words::Over)?;
        }
        Ok(())
    }

    fn portion(&mut self, portion: TruePortion) -> io::Result<()> {
        let words = Words::Portion {
            number: portion.number,
            begun_seconds: seconds(portion.begun_micros),
            grams: Grams(portion.mass),
            dish_grams: portion.dish.map(Grams),
            corrected: portion.corrected,
        };
        self.line(portion.at_micros, words)
    }

    fn line(&mut self, at_micros: u64, what: Words) -> io::Result<()> {
        let line = Line {
            at_seconds: seconds(at_micros),
            what,
        };
        let mut text = serde_json::to_string(&line)?;
        text.push('\n');
        // At once, so that whoever is killed leaves no half line.
        self.file.write_all(text.as_bytes())
    }
}

fn words(happening: &Happening) -> Words {
    match happening.what {
        What::PowerOn(epoch) => Words::PowerOn { epoch: epoch.0 },
        What::PowerOff { in_write } => Words::PowerOff { in_write },
        What::Waiting(portion) => Words::Waiting(InFlash::of(&portion)),
        What::Kept(portion) => Words::Kept(InFlash::of(&portion)),
    }
}

fn seconds(micros: u64) -> f64 {
    micros as f64 / 1e6
}
