//! `evenhand scale doctor` and `evenhand scale recall`: how the instrument itself
//! is, and what it still holds.

use super::{At, grams, output, tenth};
use crate::scale::conversation::Conversation;
use crate::words::say;
use crate::{Data, Failure};
use evenhand_link::Request;
use evenhand_protocol::{Diagnosis, Mass, StartReason};
use evenhand_words::Language;
use serde_json::json;
use std::borrow::Cow;

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
    for line in lines(data.language, &told, interval) {
        output::line(&line)?;
    }
    Ok(())
}

fn noise_grams(told: &Diagnosis) -> Option<f64> {
    let gram = told.millicounts_per_gram.filter(|gram| *gram > 0)?;
    Some(f64::from(told.noise_millicounts?) / f64::from(gram))
}

fn lines(language: Language, told: &Diagnosis, interval: Option<Mass>) -> Vec<Cow<'static, str>> {
    let rate = told.rate_millihertz.map(|rate| f64::from(rate) / 1e3);
    let mut lines = vec![match rate {
        Some(rate) => say!(
            language,
            "doctor-rate",
            rate = tenth(language, rate),
            count = told.conversions.to_string()
        ),
        None => say!(language, "doctor-rate-not-known"),
    }];
    lines.push(match (noise_grams(told), told.noise_millicounts) {
        (Some(noise), _) => {
            let noise = language.figure(format!("{noise:.3}"));
            say!(language, "doctor-noise", noise = noise)
        }
        (None, Some(noise)) => {
            let noise = tenth(language, f64::from(noise) / 1e3);
            say!(language, "doctor-noise-counts", noise = noise)
        }
        (None, None) => say!(language, "doctor-noise-not-known"),
    });
    if let (Some(noise), Some(rate), Some(interval)) = (noise_grams(told), rate, interval)
        && rate > 0.0
    {
        let step = grams(language, interval);
        lines.push(match reach(noise, rate, interval.grams()) {
            Reach::In(seconds) => {
                let seconds = tenth(language, seconds);
                say!(language, "doctor-reach", step = step, seconds = seconds)
            }
            Reach::OnlyFrom(allowed) => {
                let allowed = tenth(language, allowed);
                say!(language, "doctor-no-reach", step = step, allowed = allowed)
            }
        });
    }
    lines.push(say!(
        language,
        "doctor-bridge",
        faults = told.bridge_faults.to_string(),
        timeouts = told.bridge_timeouts.to_string(),
        restarts = told.bridge_restarts.to_string(),
        reads = told.doubtful_reads.to_string()
    ));
    let faults = told.probe_faults.to_string();
    lines.push(say!(language, "doctor-probe", faults = faults));
    let why = match told.start {
        StartReason::Watchdog => "watchdog",
        StartReason::Program => "program",
        StartReason::Power => "power",
        _ => "unknown",
    };
    lines.push(say!(language, "doctor-start", why = why));
    if told.flash_pages > 0 {
        let mean = f64::from(told.flash_erases) / f64::from(told.flash_pages);
        lines.push(say!(
            language,
            "doctor-flash",
            erases = told.flash_erases.to_string(),
            pages = told.flash_pages.to_string(),
            share = language.figure(format!("{:.2}", 100.0 * mean / PAGE_LIFE))
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
        let count = many.to_string();
        output::line(&say!(data.language, "doctor-recalled", count = count))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use evenhand_protocol::Uptime;

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

    /// What an instrument has measured, and before it has: as many lines in every language,
    /// none the same.
    #[test]
    fn what_is_found_is_said_in_every_language() {
        let nothing_yet = Diagnosis {
            at: Uptime::from_millis(60_000),
            rate_millihertz: None,
            noise_millicounts: None,
            millicounts_per_gram: None,
            conversions: 12,
            bridge_faults: 0,
            bridge_timeouts: 0,
            bridge_restarts: 0,
            doubtful_reads: 0,
            probe_faults: 0,
            start: StartReason::Power,
            stack_free: None,
            flash_pages: 0,
            flash_erases: 0,
        };
        let measured = Diagnosis {
            rate_millihertz: Some(80_000),
            noise_millicounts: Some(38_000),
            millicounts_per_gram: Some(2_097_000),
            flash_pages: 88,
            flash_erases: 3,
            ..nothing_yet
        };
        let interval = Some(Mass::from_milligrams(100));
        for (told, many) in [(nothing_yet, 5), (measured, 7)] {
            let english = lines(Language::English, &told, interval);
            assert_eq!(english.len(), many, "{english:?}");
            for language in [Language::Spanish, Language::French] {
                let other = lines(language, &told, interval);
                assert_eq!(other.len(), many, "{other:?}");
                for (one, other) in english.iter().zip(&other) {
                    assert_ne!(one, other);
                }
            }
        }
    }
}
