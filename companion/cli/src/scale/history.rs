//! `evenhand scale history`.

use crate::words::say;
use crate::{Data, Failure, output};
use clap::Args;
use evenhand_kitchen::moment::show_date_and_time;
use evenhand_kitchen::units::Grams;
use evenhand_protocol::{CalibrationMade, SelfTest};
use evenhand_use_cases::scale_test::sentence;
use jiff::tz::TimeZone;
use serde_json::{Value, json};

#[derive(Debug, Args)]
pub(crate) struct HistoryArguments {
    /// One JSON object a line, weights in grams.
    #[arg(long)]
    json: bool,
}

pub(super) fn run(data: &Data, arguments: &HistoryArguments) -> Result<(), Failure> {
    let language = data.language;
    let store = data.existing()?;
    let zone = TimeZone::system();
    let mut lines: Vec<(jiff::Timestamp, Value, String)> = Vec::new();
    for recorded in store.scale_calibrations()? {
        let mut fields = json!({ "calibration": made_json(&recorded.made) });
        fields["at"] = json!(recorded.time);
        fields["scale"] = json!(format!("{:016x}", recorded.device.0));
        let words = say!(
            language,
            "scale-calibrated",
            points = recorded.made.points.to_string(),
            uncertainty = super::fine(language, recorded.made.uncertainty),
            heaviest = super::grams(language, recorded.made.heaviest)
        );
        lines.push((recorded.time, fields, words.into_owned()));
    }
    for recorded in store.scale_tests()? {
        let mut fields = test_json(&recorded.test);
        fields["at"] = json!(recorded.time);
        fields["scale"] = json!(format!("{:016x}", recorded.device.0));
        lines.push((recorded.time, fields, sentence(language, &recorded.test)));
    }
    lines.sort_by_key(|(time, ..)| *time);
    output::nothing_yet(
        lines.is_empty(),
        arguments.json,
        &say!(language, "scale-history-empty"),
    )?;
    for (time, fields, words) in lines {
        if arguments.json {
            output::json(&fields)?;
        } else {
            output::line(&format!("{}  {words}", show_date_and_time(time, &zone)))?;
        }
    }
    Ok(())
}

pub(crate) fn test_json(test: &SelfTest) -> Value {
    json!({ "test": {
        "outcome": test.outcome().word(),
        "known_grams": Grams(test.known),
        "indicated_grams": Grams(test.indicated),
        "error_grams": Grams(test.error()),
        "uncertainty_grams": Grams(test.uncertainty),
        "limit_grams": Grams(test.limit),
        "limit_source": "OIML R 76-1, 3.5.2: maximum permissible error in service",
    }})
}

pub(super) fn made_json(made: &CalibrationMade) -> Value {
    json!({
        "points": made.points,
        "counts_per_gram": made.millicounts_per_gram as f64 / 1e3,
        "heaviest_grams": Grams(made.heaviest),
        "nonlinearity_grams": Grams(made.nonlinearity),
        "residual_grams": Grams(made.residual),
        "uncertainty_grams": Grams(made.uncertainty),
    })
}
