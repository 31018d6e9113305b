//! Each line of a batch's record, in words.

use super::cure::method_words;
use super::mix::ingredient_words;
use super::{celsius, figure, grams, short};
use crate::times;
use crate::words::say;
use evenhand_kitchen::batch::{Entry, NamedAs, What};
use evenhand_kitchen::uptake::{OutOfBath, SaltKnown};
use evenhand_protocol::Mass;
use evenhand_words::Language;
use jiff::tz::TimeZone;

/// What a line says, without its time.
#[must_use]
pub fn line_words(language: Language, entry: &Entry, zone: &TimeZone) -> String {
    match &entry.what {
        What::Titled { title } => say!(language, "batch-wrote-titled", title = title.as_str()),
        What::Weighed {
            slot,
            mass,
            temperature,
        } => {
            let way = if mass.is_negative() { "back" } else { "in" };
            let mass = grams(language, mass.abs());
            match temperature {
                Some(at) => say!(
                    language,
                    "batch-wrote-weighed-at",
                    item = slot.0.to_string(),
                    mass = mass,
                    way = way,
                    at = celsius(language, *at)
                ),
                None => say!(
                    language,
                    "batch-wrote-weighed",
                    item = slot.0.to_string(),
                    mass = mass,
                    way = way
                ),
            }
        }
        What::Named {
            slot,
            ingredient: NamedAs(ingredient),
        } => say!(
            language,
            "batch-wrote-named",
            item = slot.0.to_string(),
            name = ingredient_words(language, ingredient)
        ),
        What::TakenOut { mass } => {
            say!(
                language,
                "batch-wrote-taken-out",
                mass = grams(language, *mass)
            )
        }
        What::Planned { plan } => {
            let at = |moment| times::day_and_time(language, moment, zone);
            let (into, due) = (at(plan.into_brine()), at(plan.due()));
            match plan.every() {
                Some(every) => say!(
                    language,
                    "batch-wrote-planned-turned",
                    into = into,
                    due = due,
                    every = super::batch::span_words(language, every)
                ),
                None => say!(language, "batch-wrote-planned", into = into, due = due),
            }
        }
        What::Aimed { .. } => say!(language, "batch-wrote-aimed"),
        What::AsYouGo { vessel } => {
            say!(
                language,
                "batch-wrote-as-you-go",
                vessel = grams(language, *vessel)
            )
        }
        What::PutAside => say!(language, "batch-wrote-put-aside"),
        What::Turned => say!(language, "batch-wrote-turned"),
        What::CameOut => say!(language, "batch-wrote-came-out"),
        What::ToLose { target } => say!(
            language,
            "batch-wrote-to-lose",
            percent = figure(language, target.percent(), 1),
            green = grams(language, target.green()),
            down = grams(language, target.down_to())
        ),
        What::CuredBy { way, reason } => {
            let method = method_words(language, way.method);
            match reason {
                Some(reason) => say!(
                    language,
                    "batch-wrote-cured-for",
                    method = method,
                    reason = reason.as_str()
                ),
                None => say!(language, "batch-wrote-cured", method = method),
            }
        }
        What::Vouched { slot, packet } => say!(
            language,
            "batch-wrote-packet",
            item = slot.0.to_string(),
            packet = packet.as_str()
        ),
        What::Reweighed { mass } => {
            say!(
                language,
                "batch-wrote-reweighed",
                mass = grams(language, *mass)
            )
        }
        What::Stored { temperature } => {
            say!(
                language,
                "batch-wrote-stored",
                at = celsius(language, *temperature)
            )
        }
        What::DoughMixed { dough } => say!(
            language,
            "batch-wrote-dough",
            rise = figure(language, dough.rise(), 1).replace('-', "\u{2212}")
        ),
        What::IntoBath { into } => say!(
            language,
            "batch-wrote-into-bath",
            mass = grams(language, into.mass),
            cut = into.cut.name(),
            strength = figure(language, into.bath.strength().percent(), 1),
            at = celsius(language, into.at)
        ),
        What::OutOfBath { out } => return out_words(language, out),
        What::Yielded { out } => {
            let (name, mass) = (out.name(), grams(language, out.mass()));
            match out.density() {
                Some(density) => say!(
                    language,
                    "batch-wrote-yielded-dense",
                    name = name,
                    mass = mass,
                    density = figure(language, density, 3)
                ),
                None => say!(language, "batch-wrote-yielded", name = name, mass = mass),
            }
        }
        What::Noted { text } => say!(language, "batch-wrote-noted", text = text.as_str()),
        What::Tasted { mark, note } => say!(
            language,
            "batch-wrote-tasted",
            mark = mark.value().to_string(),
            note = note.as_str()
        ),
        What::Ready { nitrite: None } => say!(language, "batch-wrote-ready"),
        What::Ready {
            nitrite: Some(nitrite),
        } => say!(
            language,
            "batch-wrote-ready-nitrite",
            ppm = short(language, nitrite.ppm.value(), 1),
            most = short(language, nitrite.at_most.value(), 1),
            method = method_words(language, nitrite.method)
        ),
        What::Struck { line, reason } => say!(
            language,
            "batch-wrote-struck",
            line = line.to_string(),
            reason = reason.as_str()
        ),
    }
    .into_owned()
}

fn out_words(language: Language, out: &OutOfBath) -> String {
    let mass = grams(language, out.mass);
    let percent = |value: f64| short(language, value, 2);
    match out.salt {
        SaltKnown::Nothing => say!(language, "batch-wrote-out-of-bath", mass = mass),
        SaltKnown::BathAfter {
            percent_of_solution,
            within,
            mass: bath,
        } => {
            let bath =
                bath.map_or_else(|| String::from("none"), |bath: Mass| grams(language, bath));
            say!(
                language,
                "batch-wrote-out-bath-after",
                mass = mass,
                strength = percent(percent_of_solution),
                within = percent(within),
                bath = bath
            )
        }
        SaltKnown::InThePiece {
            percent: salt,
            within,
        } => say!(
            language,
            "batch-wrote-out-salt",
            mass = mass,
            salt = percent(salt),
            within = percent(within)
        ),
    }
    .into_owned()
}
