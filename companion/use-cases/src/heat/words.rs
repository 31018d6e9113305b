//! A forecast in words.

use crate::words::say;
use evenhand_kitchen::heat::{Band, Forecast, When};
use evenhand_kitchen::moment::show_time;
use evenhand_protocol::Temperature;
use evenhand_words::Language;
use jiff::tz::TimeZone;

/// A band in both units: `204 to 216 °C (399 to 421 °F)`.
#[must_use]
pub fn band_words(language: Language, band: Band) -> String {
    let (low, high) = (band.low(), band.high());
    let celsius = |end: Temperature| format!("{:.0}", end.celsius());
    let fahrenheit = |end: Temperature| format!("{:.0}", end.fahrenheit());
    if low == high {
        return say!(
            language,
            "heat-one-temperature",
            celsius = celsius(low),
            fahrenheit = fahrenheit(low),
        )
        .into_owned();
    }
    say!(
        language,
        "heat-band",
        low = celsius(low),
        high = celsius(high),
        low_fahrenheit = fahrenheit(low),
        high_fahrenheit = fahrenheit(high),
    )
    .into_owned()
}

fn between(when: When, zone: &TimeZone) -> String {
    match when.late {
        Some(late) => format!(
            "between {} and {}",
            show_time(when.early, zone),
            show_time(late, zone)
        ),
        None => format!("not before {}, perhaps never", show_time(when.early, zone)),
    }
}

/// What a forecast says: a sentence to act on, and one that says how sure it
/// is. `here` is the latest reading.
#[must_use]
pub fn forecast_words(
    forecast: Forecast,
    band: Band,
    here: Option<Temperature>,
    zone: &TimeZone,
) -> Vec<String> {
    match forecast {
        Forecast::Coming { enters, leaves } => {
            let side = match here {
                Some(here) if here > band.high() => "Too hot",
                Some(here) if here < band.low() => "Too cold",
                _ => "Not there",
            };
            let mut lines = Vec::new();
            match leaves {
                Some(leaves) => {
                    let stay = leaves.likely.duration_since(enters.likely).as_secs() / 60;
                    lines.push(format!(
                        "{side} until {}; then in the band to {}, likely {stay} minutes.",
                        show_time(enters.likely, zone),
                        show_time(leaves.likely, zone)
                    ));
                    lines.push(format!(
                        "Enters {}; leaves {}.",
                        between(enters, zone),
                        between(leaves, zone)
                    ));
                }
                None => {
                    lines.push(format!(
                        "{side} until {}; then it likely stays in the band.",
                        show_time(enters.likely, zone)
                    ));
                    lines.push(format!("Enters {}.", between(enters, zone)));
                }
            }
            lines
        }
        Forecast::Inside {
            leaves: Some(leaves),
        } => vec![
            format!("In the band now, to {}.", show_time(leaves.likely, zone)),
            format!("Leaves {}.", between(leaves, zone)),
        ],
        Forecast::Inside { leaves: None } => {
            vec![String::from("In the band now, and likely stays.")]
        }
        Forecast::NotComing => {
            vec![String::from("As it goes now it does not come to the band.")]
        }
        Forecast::Unknown(why) => vec![why.words().to_owned()],
    }
}
