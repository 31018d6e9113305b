//! `evenhand scale doctor` and `evenhand scale recall`: how the instrument itself
//! is, and what it still holds.

use super::{At, grams, output};
use crate::scale::conversation::Conversation;
use crate::{Data, Failure};
use evenhand_link::Request;
use evenhand_protocol::{Diagnosis, Mass, StartReason};
use serde_json::json;

/// Samples that the instrument's history holds: no longer mean is to be had.
const MOST_SAMPLES: f64 = 128.0;
/// A steady reading's noise may be a tenth of the display interval, as a standard
/// uncertainty (`Settings::BENCH_1KG` in the firmware).
const OF_INTERVAL: f64 = 0.1;
/// Erases that a page of serial NOR flash is made for (from memory of data
/// sheets).
const PAGE_LIFE: f64 = 100_000.0;

/// What the cell and the converter can do together.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Reach {
    /// A step of the display is steady after so many seconds of noise's mean.
    In(f64),
    /// No mean that the instrument takes is quiet enough; this step would do.
    OnlyFrom(f64),
}

/// How soon a step of `interval` grams is steady with `noise` grams a sample at
/// `rate` samples a second.
fn reach(noise: f64, rate: f64, interval: f64) -> Reach {
    let samples = (noise / (OF_INTERVAL * interval)).powi(2).max(1.0);
    if samples <= MOST_SAMPLES {
        Reach::In(samples / rate)
    } else {
        Reach::OnlyFrom(noise / (OF_INTERVAL * MOST_SAMPLES.sqrt()))
    }
}

pub(super) fn doctor(data: &Data, at: &At) -> Result<(), Failure> {
    let (place, pace) = at.place()?;
    let mut talk = Conversation::open(data, place, pace)?;
    talk.ask(Request::Diagnose)?;
    let told = talk.await_diagnosis()?;
    let interval = talk.interval();
    talk.close();
    if at.json {
        return output::json(&json!({ "diagnosis": told, "noise_grams": noise_grams(&told) }));
    }
    for line in lines(&told, interval) {
        output::line(&line)?;
    }
    Ok(())
}

fn noise_grams(told: &Diagnosis) -> Option<f64> {
    let gram = told.millicounts_per_gram.filter(|gram| *gram > 0)?;
    Some(f64::from(told.noise_millicounts?) / f64::from(gram))
}

fn lines(told: &Diagnosis, interval: Option<Mass>) -> Vec<String> {
    let rate = told.rate_millihertz.map(|rate| f64::from(rate) / 1e3);
    let mut lines = vec![match rate {
        Some(rate) => format!("rate: {rate:.1} conversions a second, {} since it started", told.conversions),
        None => "rate: not known: too few conversions have come without a gap; wait ten seconds and ask again".to_owned(),
    }];
    lines.push(match (noise_grams(told), told.noise_millicounts) {
        (Some(noise), _) => format!("noise: {noise:.3} g a conversion (standard deviation)"),
        (None, Some(noise)) => format!(
            "noise: {:.1} counts a conversion (standard deviation); in grams it is known once the scale is calibrated",
            f64::from(noise) / 1e3
        ),
        (None, None) => "noise: not known: too few conversions have come".to_owned(),
    });
    if let (Some(noise), Some(rate), Some(interval)) = (noise_grams(told), rate, interval)
        && rate > 0.0
    {
        lines.push(match reach(noise, rate, interval.grams()) {
            Reach::In(seconds) => format!(
                "this cell on this board: {} in {seconds:.1} s of quiet, by its noise",
                grams(interval)
            ),
            Reach::OnlyFrom(step) => format!(
                "this cell on this board cannot weigh to {}: its noise allows {step:.1} g; \
                 use a smaller load cell, or feed it more voltage",
                grams(interval)
            ),
        });
    }
    lines.push(format!(
        "bridge converter: {} faults, {} of them time-outs; {} restarts; {} reads dropped as doubtful",
        told.bridge_faults, told.bridge_timeouts, told.bridge_restarts, told.doubtful_reads
    ));
    lines.push(format!("probe: {} faults", told.probe_faults));
    lines.push(
        match told.start {
            StartReason::Watchdog => "last start: by its watchdog, because no conversions came",
            StartReason::Program => {
                "last start: by its own program, after something that should not be"
            }
            StartReason::Power => "last start: the power came",
            _ => "last start: by power, reset button or its own program; it cannot tell which",
        }
        .to_owned(),
    );
    if told.flash_pages > 0 {
        let mean = f64::from(told.flash_erases) / f64::from(told.flash_pages);
        lines.push(format!(
            "flash: {} erases of {} pages, {:.2} % of what they are made for",
            told.flash_erases,
            told.flash_pages,
            100.0 * mean / PAGE_LIFE
        ));
    }
    lines
}

pub(super) fn recall(data: &Data, at: &At) -> Result<(), Failure> {
    let (place, pace) = at.place()?;
    let mut talk = Conversation::open(data, place, pace)?;
    let seen = talk.notices_seen();
    talk.ask(Request::Recall)?;
    let many = talk.await_recalled(seen)?;
    talk.close();
    if at.json {
        output::json(&json!({ "sent_again": many }))
    } else {
        output::line(&format!(
            "{many} portions that the scale still held were sent again; those that were not on record are now"
        ))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 90 nV rms at 80 a second on a 1 kg cell of 1 mV/V at 5 V, so 5 uV a gram:
    /// 0.018 g a sample (hardware-notes/parts.md, from memory of data sheets).
    /// The same on a 5 kg cell at 3.2 V, 0.64 uV a gram, is 0.14 g.
    #[test]
    fn a_small_cell_reaches_a_tenth_of_a_gram_and_a_large_one_on_low_voltage_does_not() {
        let Reach::In(seconds) = reach(0.018, 80.0, 0.1) else {
            panic!("0.1 g can be had");
        };
        assert!((seconds - 3.24 / 80.0).abs() < 1e-9, "{seconds}");
        let Reach::OnlyFrom(step) = reach(0.14, 80.0, 0.1) else {
            panic!("0.1 g cannot be had");
        };
        assert!((0.12..0.13).contains(&step), "{step}");
    }
}
