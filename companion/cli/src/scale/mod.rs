//! `evenhand scale`: calibration, the morning's test, settings, and the
//! history of all that.

mod conversation;
mod health;
mod history;
mod weights;

use super::place::{self, PlaceArguments};
use super::portion::speed;
use super::words::{bad_input, failed, say};
use super::{Data, Failure, figures, output};
use clap::{Args, Subcommand};
use conversation::Conversation;
use evenhand_kitchen::units::{Grams, InputError, MassUnit};
use evenhand_kitchen::{expected, problem};
use evenhand_link::{Endpoint, Pace, Request};
use evenhand_protocol::{
    CalibrationMade, KnownWeight, Mass, PointTaken, ProbeType, SelfTestOutcome, Setting,
};
use evenhand_use_cases::scale_test::{sentence, still_to_try, still_to_try_words, weights_to_ask};
use evenhand_words::Language;
pub(super) use history::test_json;
use serde_json::json;
use weights::WeightArguments;

#[derive(Debug, Subcommand)]
pub(super) enum ScaleCommand {
    /// Calibrate the scale with known weights, step by step.
    Calibrate(CalibrateArguments),
    /// Try the scale with known weights: the morning's test.
    Try(TryArguments),
    /// Calibrations and tests on record, the oldest first.
    History(history::HistoryArguments),
    /// Set what the scale keeps: where it stands, which probe it has.
    Set(SetArguments),
    /// How the scale itself is: its rate, noise, faults, restarts and flash.
    Doctor(At),
    /// Have the scale send again what it still holds of portions that were recorded before: for a
    /// record that was lost.
    Recall(At),
}

#[derive(Debug, Args)]
pub(super) struct At {
    #[command(flatten)]
    place: PlaceArguments,
    /// How fast the simulated bench runs, in its seconds a second; as fast as it can if not said.
    #[arg(
        long,
        value_name = "X",
        requires = "simulated",
        allow_hyphen_values = true
    )]
    speed: Option<String>,
    /// One JSON object a line, weights in grams.
    #[arg(long)]
    json: bool,
}

impl At {
    fn place(&self) -> Result<(Endpoint, Pace), Failure> {
        let pace = match &self.speed {
            Some(text) => speed("--speed", text)?,
            None => Pace::Unbounded,
        };
        let made = || place::scenario("--scenario", "saltmarsh-shrimp-taking");
        let place = self
            .place
            .place(made)?
            .ok_or_else(|| bad_input!("portion-no-scale"))?;
        Ok((place, pace))
    }
}

#[derive(Debug, Args)]
pub(super) struct CalibrateArguments {
    #[command(flatten)]
    weights: WeightArguments,
    #[command(flatten)]
    at: At,
}

#[derive(Debug, Args)]
pub(super) struct TryArguments {
    #[command(flatten)]
    weights: WeightArguments,
    #[command(flatten)]
    at: At,
}

#[derive(Debug, Args)]
pub(super) struct SetArguments {
    /// Latitude of the place in degrees, south negative, for the pull of the earth: 52.5.
    #[arg(
        long,
        value_name = "DEGREES",
        allow_hyphen_values = true,
        requires = "height"
    )]
    latitude: Option<String>,
    /// Height of the place above the sea, in metres: 40.
    #[arg(
        long,
        value_name = "METRES",
        allow_hyphen_values = true,
        requires = "latitude"
    )]
    height: Option<String>,
    /// The probe's thermocouple type, a letter: K, T, J, N, E, S, R or B.
    #[arg(long, value_name = "TYPE")]
    probe: Option<String>,
    #[command(flatten)]
    at: At,
}

pub(super) fn run(data: &Data, command: ScaleCommand) -> Result<(), Failure> {
    match command {
        ScaleCommand::Calibrate(arguments) => calibrate(data, &arguments),
        ScaleCommand::Try(arguments) => try_out(data, &arguments),
        ScaleCommand::History(arguments) => history::run(data, &arguments),
        ScaleCommand::Set(arguments) => set(data, &arguments),
        ScaleCommand::Doctor(at) => health::doctor(data, &at),
        ScaleCommand::Recall(at) => health::recall(data, &at),
    }
}

fn grams(language: Language, mass: Mass) -> String {
    figures::mass(language, mass, MassUnit::Gram)
}

/// A mass finer than the scale's own interval: `+0.034 g`.
fn fine(language: Language, mass: Mass) -> String {
    language.figure(format!("{:.3} g", mass.grams()))
}

/// A number to a tenth: counts of the converter.
fn tenth(language: Language, number: f64) -> String {
    language.figure(format!("{number:.1}"))
}

fn calibrate(data: &Data, arguments: &CalibrateArguments) -> Result<(), Failure> {
    let weights = arguments.weights.weights()?;
    let (place, pace) = arguments.at.place()?;
    let mut talk = Conversation::open(data, place, pace)?;
    let language = data.language;
    talk.say(&say!(language, "scale-before"));
    talk.ask(Request::BeginCalibration)?;
    let points = std::iter::once(KnownWeight::NOTHING).chain(weights);
    let mut taken: Vec<PointTaken> = Vec::new();
    for point in points {
        let step = if point == KnownWeight::NOTHING {
            say!(language, "scale-take-off")
        } else {
            let mass = grams(language, point.mass);
            say!(language, "scale-put-on", mass = mass)
        };
        let done = talk
            .place(&step, point.mass)
            .and_then(|()| talk.ask(Request::TakePoint(point)));
        if let Err(failure) = done {
            // The old calibration stays; that the scale hears so is a courtesy.
            let _ = talk.ask(Request::CancelCalibration);
            return Err(failure);
        }
        let last = talk.await_point(taken.len() + 1)?;
        if arguments.at.json {
            output::json(&json!({
                "point": taken.len() + 1,
                "load_grams": Grams(last.load),
                "limit_grams": Grams(point.limit),
                "counts": last.millicounts as f64 / 1e3,
                "noise_counts": f64::from(last.noise_millicounts) / 1e3,
            }))?;
        } else {
            let counts = tenth(language, last.millicounts as f64 / 1e3);
            output::line(&format!(
                "{:>10}  {}",
                grams(language, last.load),
                say!(language, "scale-counts", counts = counts)
            ))?;
        }
        taken.push(last);
    }
    let finished = talk.ask(Request::FinishCalibration);
    if finished.is_err() {
        let _ = talk.ask(Request::CancelCalibration);
    }
    finished?;
    let made = talk.await_made()?;
    talk.place_nothing();
    talk.close();
    tell_made(language, &made, arguments.at.json)
}

fn tell_made(language: Language, made: &CalibrationMade, as_json: bool) -> Result<(), Failure> {
    if as_json {
        return output::json(&json!({ "calibration": history::made_json(made) }));
    }
    output::line(&say!(
        language,
        "scale-made",
        points = made.points.to_string(),
        counts = tenth(language, made.millicounts_per_gram as f64 / 1e3),
        heaviest = grams(language, made.heaviest),
        uncertainty = fine(language, made.uncertainty),
        nonlinearity = fine(language, made.nonlinearity),
        residual = fine(language, made.residual)
    ))
}

/// Each weight on the zeroed scale, the lightest first; then which sizes that leaves untried.
fn try_out(data: &Data, arguments: &TryArguments) -> Result<(), Failure> {
    let mut weights = arguments.weights.weights()?;
    weights.sort_by_key(|weight| weight.mass);
    let (place, pace) = arguments.at.place()?;
    let data = &data.of_scale(&place);
    let mut talk = Conversation::open(data, place, pace)?;
    let language = data.language;
    talk.place(&say!(language, "scale-take-off"), Mass::ZERO)?;
    talk.ask(Request::ZeroWhenSteady)?;
    let mut out = false;
    for weight in &weights {
        let mass = grams(language, weight.mass);
        talk.place(&say!(language, "scale-put-on", mass = mass), weight.mass)?;
        let before = talk.tested();
        talk.ask(Request::TestWeight(*weight))?;
        let test = talk.await_test(before)?;
        if arguments.at.json {
            output::json(&history::test_json(&test))?;
        } else {
            output::line(&sentence(language, &test))?;
        }
        out |= test.outcome() == SelfTestOutcome::Fail;
    }
    talk.place_nothing();
    let sizes = talk.sizes();
    talk.close();
    if let Some((capacity, interval)) = sizes {
        let asked = weights_to_ask(capacity, interval, &data.store()?.dishes_in_use()?);
        let tried: Vec<Mass> = weights.iter().map(|weight| weight.mass).collect();
        if arguments.at.json {
            let left: Vec<Grams> = still_to_try(asked, &tried).into_iter().map(Grams).collect();
            output::json(&json!({ "still_to_try_grams": left }))?;
        } else if let Some(words) = still_to_try_words(language, asked, &tried) {
            output::line(&words)?;
        }
    }
    if out {
        Err(failed!("scale-further-out"))
    } else {
        Ok(())
    }
}

fn set(data: &Data, arguments: &SetArguments) -> Result<(), Failure> {
    let mut settings = Vec::new();
    if let (Some(latitude), Some(height)) = (&arguments.latitude, &arguments.height) {
        settings.push(place_setting(latitude, height)?);
    }
    if let Some(probe) = &arguments.probe {
        settings.push(Setting::Probe(probe_type("--probe", probe)?));
    }
    if settings.is_empty() {
        return Err(bad_input!("scale-nothing-to-set"));
    }
    let (place, pace) = arguments.at.place()?;
    let mut talk = Conversation::open(data, place, pace)?;
    for setting in settings {
        talk.ask(Request::Set(setting))?;
    }
    talk.close();
    if arguments.at.json {
        output::json(&json!({ "set": true }))
    } else {
        output::line(&say!(data.language, "scale-set"))
    }
}

fn place_setting(latitude: &str, height: &str) -> Result<Setting, Failure> {
    let degrees = latitude.trim().parse::<f64>().ok();
    let degrees = degrees.filter(|degrees| (-90.0..=90.0).contains(degrees));
    let degrees = degrees.ok_or_else(|| {
        InputError::new(
            "--latitude",
            latitude,
            problem!("no-latitude"),
            expected!("latitude"),
        )
    })?;
    let metres = height.trim().trim_end_matches('m').trim_end().parse().ok();
    let metres = metres.filter(|metres| (-500..=9_000_i16).contains(metres));
    let height_metres = metres.ok_or_else(|| {
        InputError::new(
            "--height",
            height,
            problem!("no-height"),
            expected!("height"),
        )
    })?;
    Ok(Setting::Place {
        latitude_millidegrees: (degrees * 1e3).round() as i32,
        height_metres,
    })
}

fn probe_type(field: &str, text: &str) -> Result<ProbeType, InputError> {
    Ok(match text.trim() {
        "K" | "k" => ProbeType::K,
        "T" | "t" => ProbeType::T,
        "J" | "j" => ProbeType::J,
        "N" | "n" => ProbeType::N,
        "E" | "e" => ProbeType::E,
        "S" | "s" => ProbeType::S,
        "R" | "r" => ProbeType::R,
        "B" | "b" => ProbeType::B,
        _ => {
            return Err(InputError::new(
                field,
                text,
                problem!("no-thermocouple"),
                expected!("thermocouple"),
            ));
        }
    })
}
