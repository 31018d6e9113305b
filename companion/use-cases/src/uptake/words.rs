//! Those answers in words, line by line.

use super::Answer;
use crate::times;
use crate::words::say;
use evenhand_kitchen::units::{InputError, MassUnit, Ratio, format_mass};
use evenhand_kitchen::uptake::{Expected, IntoBath, Middle, Soak, When};
use evenhand_protocol::Mass;
use evenhand_words::Language;
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp};

/// Per cent, to a tenth where that is enough and to a hundredth below one.
fn percent(language: Language, ratio: Ratio) -> String {
    let value = ratio.percent();
    let decimals = if value.abs() < 0.995 { 2 } else { 1 };
    language.figure(format!("{:.decimals$}", value + 0.0))
}

fn grams(language: Language, grams: f64) -> String {
    let mass = Mass::from_fractional_grams((grams * 10.0).round() / 10.0).unwrap_or(Mass::ZERO);
    language.figure(format_mass(mass, MassUnit::Gram))
}

/// What is asked about a piece, with what the sum rests on and what it is no
/// judgement of. `since` is when it went in, or goes in.
#[must_use]
pub fn asked_words(
    language: Language,
    into: &IntoBath,
    answer: &Answer,
    since: Timestamp,
    zone: &TimeZone,
) -> Vec<String> {
    let (end, doubt) = into.ends_at();
    let mut lines = vec![
        say!(
            language,
            "uptake-bath",
            strength = percent(language, into.bath.strength()),
            cut = into.cut.name(),
            end = percent(language, end),
            doubt = percent(language, doubt),
        )
        .into_owned(),
    ];
    for part in into.bath.labelled() {
        if !part.water_is_known() {
            lines.push(say!(language, "uptake-water-unsaid", name = part.name()).into_owned());
        }
    }
    if let Some((lasting, expected)) = &answer.expected {
        lines.extend(expected_words(language, *lasting, expected));
    }
    if let Some((wanted, when)) = &answer.when {
        lines.extend(when_words(language, *wanted, when, since, zone));
    }
    lines.push(say!(language, "uptake-caution").into_owned());
    lines
}

fn expected_words(language: Language, lasting: SignedDuration, expected: &Expected) -> Vec<String> {
    let shown = |of: &Middle| [of.middle, of.from, of.to].map(|of| percent(language, of));
    let mut lines = Vec::new();
    match &expected.gain {
        Some(gain) => {
            let [middle, from, to] = shown(gain);
            let span = times::hours(lasting);
            lines.push(
                say!(
                    language,
                    "uptake-gain",
                    span = span,
                    middle = middle,
                    from = from,
                    to = to
                )
                .into_owned(),
            );
        }
        None => lines.push(
            say!(
                language,
                "uptake-gain-not-known",
                more = expected.more_weighed
            )
            .into_owned(),
        ),
    }
    match (&expected.salt, &expected.core, &expected.water) {
        (Some(salt), Some(core), Some(water)) => {
            let [middle, from, to] = shown(salt);
            let [water, waterfrom, waterto] = shown(water);
            lines.push(
                say!(
                    language,
                    "uptake-salt",
                    middle = middle,
                    from = from,
                    to = to,
                    water = water,
                    waterfrom = waterfrom,
                    waterto = waterto
                )
                .into_owned(),
            );
            let [middle, from, to] = shown(core);
            lines.push(
                say!(
                    language,
                    "uptake-core",
                    middle = middle,
                    from = from,
                    to = to
                )
                .into_owned(),
            );
        }
        _ => lines.push(
            say!(
                language,
                "uptake-salt-not-known",
                more = expected.more_with_salt
            )
            .into_owned(),
        ),
    }
    lines
}

fn when_words(
    language: Language,
    wanted: Ratio,
    when: &When,
    since: Timestamp,
    zone: &TimeZone,
) -> Vec<String> {
    let today = since.to_zoned_datetime(zone.clone()).date();
    let at = |after: SignedDuration| {
        since.checked_add(after).map_or_else(
            |_| say!(language, "uptake-for-ever").into_owned(),
            |at| times::near(language, at, today, zone),
        )
    };
    let long = |span: Option<SignedDuration>| {
        span.map_or_else(
            || say!(language, "uptake-for-ever").into_owned(),
            times::hours,
        )
    };
    let wanted = percent(language, wanted);
    match when {
        When::NotKnownYet { more, published } => vec![
            say!(
                language,
                "uptake-when-not-known",
                more = *more,
                wanted = wanted,
                from = long(published.0),
                to = long(published.1)
            )
            .into_owned(),
        ],
        When::Never { ends_at } => vec![
            say!(
                language,
                "uptake-never",
                wanted = wanted,
                end = percent(language, *ends_at)
            )
            .into_owned(),
        ],
        When::After {
            middle,
            from,
            to,
            ends_at,
            salt_then,
        } => {
            let first = match to {
                Some(to) => say!(
                    language,
                    "uptake-out-at",
                    at = at(*middle),
                    wanted = wanted,
                    from = at(*from),
                    to = at(*to)
                ),
                None => say!(
                    language,
                    "uptake-out-at-open",
                    at = at(*middle),
                    wanted = wanted,
                    from = at(*from)
                ),
            };
            let then = say!(
                language,
                "uptake-then",
                salt = percent(language, *salt_then),
                end = percent(language, *ends_at)
            );
            vec![first.into_owned(), then.into_owned()]
        }
    }
}

/// What came out of a bath, and what is known of its salt.
#[must_use]
pub fn out_words(language: Language, soak: &Soak) -> Vec<String> {
    let raw = soak.into.mass.grams();
    let gained = soak.out.mass.grams() - raw;
    let cut = soak.into.cut.name();
    let mass = grams(language, gained.abs());
    let span = times::hours(soak.lasted);
    let share = Ratio::new(gained.abs() / raw).unwrap_or(Ratio::ZERO);
    let share = percent(language, share);
    let mut lines = vec![
        if gained >= 0.0 {
            say!(
                language,
                "uptake-gained",
                cut = cut,
                mass = mass,
                percent = share,
                span = span
            )
        } else {
            say!(
                language,
                "uptake-lost",
                cut = cut,
                mass = mass,
                percent = share,
                span = span
            )
        }
        .into_owned(),
    ];
    lines.push(
        match soak.salt() {
            Some(found) => say!(
                language,
                "uptake-found",
                salt = grams(language, found.share.fraction() * raw),
                doubt = grams(language, 2.0 * found.uncertainty.fraction() * raw),
                percent = percent(language, found.share)
            ),
            None => say!(language, "uptake-not-told"),
        }
        .into_owned(),
    );
    lines.push(say!(language, "uptake-caution").into_owned());
    lines
}

/// Why something of a soak cannot be: the field, what was there, what was
/// expected.
#[must_use]
pub fn uptake_error_words(language: Language, error: &InputError) -> String {
    let code = match error.field() {
        field @ ("salt" | "water" | "temperature" | "out" | "mass") => field,
        "bath after" => "bath-after",
        "bath after, mass" => "bath-mass",
        "salt in the piece" => "in-piece",
        "bath after, within" | "salt in the piece, within" => "within",
        _ => "other",
    };
    let value = language.figure(error.value().replace("degC", "\u{b0}C"));
    say!(language, "uptake-refused", field = code, value = value).into_owned()
}
