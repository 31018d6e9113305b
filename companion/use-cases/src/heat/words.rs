//! What is known of heat, in words.

use crate::times::{hours, minutes, span};
use crate::words::say;
use evenhand_kitchen::heat::{
    Band, DOOR_OPEN, DOOR_SHUT, Forecast, Going, HoldStage, HoldingNext, LIT, LogName, Outlook,
    Pace, Remedy, When, Why, beside,
};
use evenhand_kitchen::limits::Side;
use evenhand_kitchen::moment::show_time;
use evenhand_protocol::Temperature;
use evenhand_words::Language;
use jiff::SignedDuration;
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

/// Logs that every kitchen has, by the names that they have on record.
pub const USUAL_LOGS: [&str; 4] = ["oven", "pan of stock", "cold store", "core"];

/// A log as it is called in a language: one of [`USUAL_LOGS`] in its words, any
/// other as it was written.
#[must_use]
pub fn log_words(language: Language, name: &LogName) -> String {
    let code = match name.key().as_str() {
        "oven" => "oven",
        "pan of stock" => "stock",
        "cold store" => "store",
        "core" => "core",
        _ => "own",
    };
    say!(language, "heat-log", name = code, written = name.as_str()).into_owned()
}

/// Something that happens to an oven, a pan or a cold store, put into its log
/// as a word.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum UsualMarker {
    /// The fire was raked or turned out.
    FireOut,
    /// Food went in.
    Loaded,
    /// Food was taken out.
    TakenOut,
    /// Food went into the cold.
    IntoTheCold,
}

impl UsualMarker {
    /// All of them, in the order in which they happen.
    pub const ALL: [Self; 4] = [
        Self::FireOut,
        Self::Loaded,
        Self::TakenOut,
        Self::IntoTheCold,
    ];

    /// The word on record: the same whichever language the cook speaks.
    #[must_use]
    pub const fn on_record(self) -> &'static str {
        match self {
            Self::FireOut => "fire out",
            Self::Loaded => "loaded",
            Self::TakenOut => "taken out",
            Self::IntoTheCold => "into the cold",
        }
    }
}

/// A marker of a log as it is said in a language: a usual one, or the word that
/// says that fish is frozen solid, in its words, any other as it was written.
#[must_use]
pub fn marker_words(language: Language, on_record: &str) -> String {
    let code = match on_record.to_lowercase().as_str() {
        "fire out" => "fire-out",
        "loaded" => "loaded",
        "taken out" => "taken-out",
        "into the cold" => "into-the-cold",
        "solid" => "solid",
        DOOR_OPEN => "door-open",
        DOOR_SHUT => "door-shut",
        LIT => "lit",
        _ => "own",
    };
    say!(language, "heat-marker", word = code, written = on_record).into_owned()
}

/// A temperature in both units: `57.0 degC (135 degF)`.
pub(super) fn degrees(language: Language, t: Temperature) -> String {
    let text = format!("{:.1} degC ({:.0} degF)", t.celsius(), t.fahrenheit());
    language.figure(text)
}

/// A reading beside a limit: never on the limit's other side, nor the same as it
/// where it is not.
fn near(language: Language, reading: Temperature, limit: Temperature) -> String {
    let rounded = format!("{:.1}", reading.celsius());
    let printed = rounded.parse().ok().and_then(Temperature::from_celsius);
    if printed.is_some_and(|printed| printed.cmp(&limit) == reading.cmp(&limit)) {
        degrees(language, reading)
    } else {
        language.figure(beside(reading, limit))
    }
}

fn between(language: Language, when: When, zone: &TimeZone) -> String {
    let early = show_time(when.early, zone);
    match when.late {
        Some(late) => say!(
            language,
            "forecast-between",
            early = early,
            late = show_time(late, zone)
        ),
        None => say!(language, "forecast-not-before", early = early),
    }
    .into_owned()
}

/// What a forecast says: a sentence to act on, and one that says how sure it
/// is. `here` is the latest reading.
#[must_use]
pub fn forecast_words(
    language: Language,
    forecast: Forecast,
    band: Band,
    here: Option<Temperature>,
    zone: &TimeZone,
) -> Vec<String> {
    let at = |moment| show_time(moment, zone);
    let said = match forecast {
        Forecast::Coming { enters, leaves } => {
            let side = match here {
                Some(here) if here > band.high() => "hot",
                Some(here) if here < band.low() => "cold",
                _ => "near",
            };
            let between = |when| between(language, when, zone);
            match leaves {
                Some(leaves) => {
                    let stay = leaves.likely.duration_since(enters.likely);
                    vec![
                        say!(
                            language,
                            "forecast-coming",
                            side = side,
                            enters = at(enters.likely),
                            leaves = at(leaves.likely),
                            stay = minutes(language, stay),
                        ),
                        say!(
                            language,
                            "forecast-enters-leaves",
                            enters = between(enters),
                            leaves = between(leaves),
                        ),
                    ]
                }
                None => vec![
                    say!(
                        language,
                        "forecast-coming-stays",
                        side = side,
                        enters = at(enters.likely)
                    ),
                    say!(language, "forecast-enters", enters = between(enters)),
                ],
            }
        }
        Forecast::Inside {
            leaves: Some(leaves),
        } => vec![
            say!(language, "forecast-inside", leaves = at(leaves.likely)),
            say!(
                language,
                "forecast-leaves",
                leaves = between(language, leaves, zone)
            ),
        ],
        Forecast::Inside { leaves: None } => vec![say!(language, "forecast-inside-stays")],
        Forecast::NotComing => vec![say!(language, "forecast-not-coming")],
        Forecast::Unknown(why) => return vec![why_words(language, why)],
    };
    said.into_iter().map(std::borrow::Cow::into_owned).collect()
}

/// Why there is no forecast, with what would make it known.
#[must_use]
pub fn why_words(language: Language, why: Why) -> String {
    match why {
        Why::TooFewReadings => say!(language, "why-too-few"),
        Why::Silent => say!(language, "why-silent"),
        Why::Still => say!(language, "why-still"),
        Why::Changed => say!(language, "why-changed"),
        Why::Doubtful => say!(language, "why-doubtful"),
        Why::Plateau => say!(language, "why-plateau"),
        Why::Stalled => say!(language, "why-stalled"),
    }
    .into_owned()
}

/// Where a log is going by a limit: what was measured against which figure,
/// and what to do.
#[must_use]
pub fn outlook_words(language: Language, outlook: &Outlook) -> String {
    let degrees = |t| degrees(language, t);
    match outlook.going {
        Going::NotStarted { here, from } => say!(
            language,
            "going-not-started",
            here = degrees(here),
            from = degrees(from)
        )
        .into_owned(),
        Going::Cooling {
            to,
            pace,
            remedy,
            start_seen,
        } => {
            let said = pace_words(language, to, pace, remedy);
            if start_seen {
                said
            } else {
                format!("{said} {}", say!(language, "going-start-unseen"))
            }
        }
        Going::Holding {
            side,
            limit,
            here,
            next,
        } => holding_words(language, side, limit, here, next),
        Going::Out { out, allowed, left } if left.is_negative() => say!(
            language,
            "going-time-up",
            out = hours(out),
            allowed = hours(allowed),
            ago = minutes(language, -left),
        )
        .into_owned(),
        Going::Out { out, allowed, left } => say!(
            language,
            "going-time-left",
            out = hours(out),
            allowed = hours(allowed),
            left = hours(left),
        )
        .into_owned(),
        Going::Hold {
            side,
            at,
            asked,
            here,
            stage,
        } => hold_words(language, (side, at, asked), here, stage),
    }
}

/// On which side of a limit to be.
pub(super) fn bound(language: Language, side: Side, limit: String) -> String {
    match side {
        Side::AtMost => say!(language, "bound-at-most", limit = limit),
        Side::AtLeast => say!(language, "bound-at-least", limit = limit),
    }
    .into_owned()
}

/// What to do about a pan that cools.
fn remedy_words(language: Language, remedy: Remedy) -> String {
    match remedy {
        Remedy::Nothing => return String::new(),
        Remedy::LookAgain => say!(language, "remedy-look-again"),
        Remedy::IceIfItMatters => say!(language, "remedy-ice-if-it-matters"),
        Remedy::Ice => say!(language, "remedy-ice"),
    }
    .into_owned()
}

fn pace_words(language: Language, level: Temperature, pace: Pace, remedy: Remedy) -> String {
    let to = degrees(language, level);
    let minutes = |d| minutes(language, d);
    let remedy = remedy_words(language, remedy);
    match pace {
        Pace::Overdue { by, here } => say!(
            language,
            "going-overdue",
            to = to,
            ago = minutes(by),
            here = near(language, here, level)
        ),
        Pace::InTime { before } => {
            say!(language, "going-in-time", to = to, before = minutes(before))
        }
        Pace::PerhapsLate {
            before,
            latest: Some(latest),
        } => say!(
            language,
            "going-perhaps-late",
            to = to,
            before = minutes(before),
            late = minutes(latest),
            remedy = remedy
        ),
        Pace::PerhapsLate {
            before,
            latest: None,
        } => say!(
            language,
            "going-perhaps-never",
            to = to,
            before = minutes(before),
            remedy = remedy
        ),
        Pace::Late {
            by,
            earliest,
            latest: Some(latest),
        } if earliest.is_positive() => say!(
            language,
            "going-late",
            to = to,
            late = minutes(by),
            early = minutes(earliest),
            latest = minutes(latest),
            remedy = remedy
        ),
        Pace::Late {
            by,
            latest: Some(latest),
            ..
        } => say!(
            language,
            "going-late-or-in-time",
            to = to,
            late = minutes(by),
            latest = minutes(latest),
            remedy = remedy
        ),
        Pace::Late {
            by, latest: None, ..
        } => say!(
            language,
            "going-late-or-never",
            to = to,
            late = minutes(by),
            remedy = remedy
        ),
        Pace::Missed => say!(language, "going-missed", to = to, remedy = remedy),
        Pace::NotEnough { left } => say!(
            language,
            "going-not-enough",
            left = hours(left),
            to = to,
            remedy = remedy
        ),
        Pace::Unknown { why, left } => say!(
            language,
            "going-unknown",
            left = hours(left),
            to = to,
            remedy = remedy,
            why = why_words(language, why)
        ),
    }
    .into_owned()
}

fn holding_words(
    language: Language,
    side: Side,
    limit: Temperature,
    here: Temperature,
    next: HoldingNext,
) -> String {
    let here = near(language, here, limit);
    let bound = bound(language, side, degrees(language, limit));
    let remedy = || match side {
        Side::AtMost => say!(language, "remedy-chill").into_owned(),
        Side::AtLeast => say!(language, "remedy-heat").into_owned(),
    };
    match next {
        HoldingNext::Beyond { up_to } => say!(
            language,
            "going-beyond",
            here = here,
            bound = bound,
            time = hours(up_to),
            remedy = remedy()
        )
        .into_owned(),
        HoldingNext::TooClose { within } => say!(
            language,
            "going-too-close",
            here = here,
            bound = bound,
            within = language.figure(format!("{:.1} degC", within.celsius())),
            remedy = remedy()
        )
        .into_owned(),
        HoldingNext::Passes {
            within,
            remedy: false,
        } => say!(
            language,
            "going-passes",
            here = here,
            bound = bound,
            time = minutes(language, within)
        )
        .into_owned(),
        HoldingNext::Passes {
            within,
            remedy: true,
        } => say!(
            language,
            "going-passes-soon",
            here = here,
            bound = bound,
            time = minutes(language, within),
            remedy = remedy()
        )
        .into_owned(),
        HoldingNext::Unknown(why) => format!(
            "{} {}",
            say!(language, "going-keeps", here = here, bound = bound),
            why_words(language, why)
        ),
        HoldingNext::Keeps => {
            say!(language, "going-keeps", here = here, bound = bound).into_owned()
        }
    }
}

fn hold_words(
    language: Language,
    (side, at, asked): (Side, Temperature, SignedDuration),
    here: Temperature,
    stage: HoldStage,
) -> String {
    let here = degrees(language, here);
    let bound = bound(language, side, degrees(language, at));
    let at = degrees(language, at);
    let minutes = |d| minutes(language, d);
    match stage {
        HoldStage::Lasting { lasted } if lasted >= asked => say!(
            language,
            "going-held",
            bound = bound,
            lasted = span(lasted),
            asked = span(asked)
        )
        .into_owned(),
        HoldStage::Lasting { lasted } => say!(
            language,
            "going-holding",
            bound = bound,
            lasted = span(lasted),
            asked = span(asked),
            left = span(asked - lasted)
        )
        .into_owned(),
        HoldStage::Ahead {
            likely,
            early,
            late: Some(late),
        } => say!(
            language,
            "going-hold-ahead",
            here = here,
            at = at,
            likely = minutes(likely),
            early = minutes(early),
            late = minutes(late),
            asked = span(asked)
        )
        .into_owned(),
        HoldStage::Ahead {
            likely,
            early,
            late: None,
        } => say!(
            language,
            "going-hold-perhaps-never",
            here = here,
            at = at,
            likely = minutes(likely),
            early = minutes(early),
            asked = span(asked)
        )
        .into_owned(),
        HoldStage::Unknown(why) => format!(
            "{} {}",
            say!(language, "going-keeps", here = here, bound = bound),
            why_words(language, why)
        ),
        HoldStage::NotComing => {
            say!(language, "going-hold-not-coming", here = here, at = at).into_owned()
        }
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;
    use evenhand_kitchen::heat::Alarm;

    fn celsius(degrees: i32) -> Temperature {
        Temperature::from_millicelsius(degrees * 1000)
    }

    fn cooling(pace: Pace, remedy: Remedy, start_seen: bool) -> Outlook {
        Outlook {
            alarm: Alarm::Act,
            deadline: None,
            expected: None,
            going: Going::Cooling {
                to: celsius(21),
                pace,
                remedy,
                start_seen,
            },
        }
    }

    // By °F = 1.8 °C + 32, 21 °C is 69.8 °F.
    #[test]
    fn a_pan_that_will_be_late_is_said_with_what_to_do() {
        let mins = SignedDuration::from_mins;
        let pace = Pace::Late {
            by: mins(25),
            earliest: mins(10),
            latest: Some(mins(130)),
        };
        let late = cooling(pace, Remedy::Ice, true);
        for (language, said) in [
            (
                Language::English,
                "At this rate 21.0 degC (70 degF) is reached 25 minutes late (10 minutes to \
                 2 h 10 min): split the pan, ice it.",
            ),
            (
                Language::Spanish,
                "A este ritmo llega a 21,0 degC (70 degF) 25 minutos tarde (de 10 minutos a \
                 2 h 10 min): divida en cubetas y al hielo.",
            ),
            (
                Language::French,
                "À ce train, 21,0 degC (70 degF) est atteint 25 minutes trop tard (de 10 minutes \
                 à 2 h 10 min)\u{a0}: divisez en bacs, sur glace.",
            ),
        ] {
            assert_eq!(outlook_words(language, &late), said);
        }
        let unseen = cooling(Pace::Missed, Remedy::Ice, false);
        let said = outlook_words(Language::English, &unseen);
        assert!(said.ends_with("the true time left is less."), "{said}");
    }

    /// 56.99 beside a limit of 57 is not said to be 57.
    #[test]
    fn a_reading_is_never_said_to_be_the_limit_that_it_is_beyond() {
        let beyond = |here: i32| Outlook {
            alarm: Alarm::Over,
            deadline: None,
            expected: None,
            going: Going::Holding {
                side: Side::AtLeast,
                limit: celsius(57),
                here: Temperature::from_millicelsius(here),
                next: HoldingNext::Beyond {
                    up_to: SignedDuration::from_mins(5),
                },
            },
        };
        let said = outlook_words(Language::English, &beyond(56_990));
        assert!(said.starts_with("56.99 degC"), "{said}");
        let said = outlook_words(Language::French, &beyond(55_900));
        assert!(said.starts_with("55,9 degC"), "{said}");
    }

    /// The word on record is found again whatever case it was written in; a
    /// kitchen's own stays as it is.
    #[test]
    fn usual_logs_and_markers_are_called_by_each_language() {
        let name = |text| LogName::new("name", text).unwrap();
        for (written, spanish, french) in [
            ("Oven", "horno", "four"),
            ("pan of stock", "marmita de fondo", "marmite de fond"),
            ("cold store", "cámara", "chambre froide"),
            ("core", "corazón", "à cœur"),
            ("smoker", "smoker", "smoker"),
        ] {
            assert_eq!(log_words(Language::Spanish, &name(written)), spanish);
            assert_eq!(log_words(Language::French, &name(written)), french);
        }
        for usual in USUAL_LOGS {
            assert_eq!(log_words(Language::English, &name(usual)), usual);
            assert_ne!(log_words(Language::Spanish, &name(usual)), usual);
        }
        for marker in UsualMarker::ALL {
            let word = marker.on_record();
            assert_eq!(marker_words(Language::English, word), word);
            assert_ne!(marker_words(Language::French, word), word);
        }
        assert_eq!(marker_words(Language::Spanish, "Lid off"), "Lid off");
    }
}
