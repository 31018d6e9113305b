//! `evenhand prep par`, `covers` and `left`.

use super::super::heat::in_force;
use super::super::output::Telling;
use super::super::{Data, Failure, output};
use super::{day, whole};
use crate::words::{bad_input, say};
use clap::Args;
use evenhand_kitchen::dish::DishName;
use evenhand_kitchen::limits::Limits;
use evenhand_kitchen::prep::{AsBought, KnownYield, ParQuestion, PastService, Stock, Yield, par};
use evenhand_kitchen::units::{Grams, mass_positive};
use evenhand_protocol::Mass;
use evenhand_store::Store;
use evenhand_use_cases::prep::{
    ParTold, PrepError, PrepNow, PrepQuestion, open_stock, par_words, past_of_weekday,
    past_services, portion_as_served, recent_purchases,
};
use evenhand_words::Language;
use jiff::civil::Date;
use jiff::tz::TimeZone;
use jiff::{Timestamp, ToSpan};
use serde_json::json;

#[derive(Debug, Args)]
pub(crate) struct ParArguments {
    /// The dish.
    #[arg(long, value_name = "NAME")]
    dish: String,
    /// The day of service.
    #[arg(long = "for", value_name = "DATE")]
    day: String,
    /// Guests expected; what was put down for the day, if not said, else as many as on that
    /// weekday before.
    #[arg(long, value_name = "N", allow_hyphen_values = true)]
    covers: Option<String>,
    /// Portions a guest, in place of what past services say: 0.6.
    #[arg(long, value_name = "X", allow_hyphen_values = true)]
    per_cover: Option<String>,
    /// The yield from bought to ready, in place of what recent purchases say: 0.45.
    #[arg(long = "yield", value_name = "X", allow_hyphen_values = true)]
    yields: Option<String>,
    /// Portions that yesterday left, in place of what was put down.
    #[arg(long, value_name = "N", allow_hyphen_values = true)]
    left: Option<String>,
    /// Food in hand as bought, in place of what the open tin holds: 2kg.
    #[arg(long, value_name = "MASS", allow_hyphen_values = true)]
    in_hand: Option<String>,
    /// Food in hand trimmed and cooked, ready to portion, in place of what the open tin holds: 500g.
    #[arg(long, value_name = "MASS", allow_hyphen_values = true)]
    ready_in_hand: Option<String>,
    /// One JSON object, weights in grams.
    #[arg(long)]
    json: bool,
}

fn fraction(flag: &str, text: &str, most: f64) -> Result<f64, Failure> {
    match text.trim().parse::<f64>() {
        Ok(value) if value > 0.0 && value <= most => Ok(value),
        _ => Err(bad_input!(
            "prep-no-share",
            flag = flag,
            text = format!("{text:?}"),
            most = most.to_string()
        )),
    }
}

pub(super) fn run(
    data: &Data,
    arguments: &ParArguments,
    language: Language,
) -> Result<(), Failure> {
    let name = DishName::new("--dish", &arguments.dish)?;
    let on = day("--for", &arguments.day)?;
    let said = arguments
        .covers
        .as_deref()
        .map(|text| whole("--covers", text, "guests"))
        .transpose()?;
    let per_cover = arguments
        .per_cover
        .as_deref()
        .map(|text| fraction("--per-cover", text, 100.0))
        .transpose()?;
    let said_yield = arguments
        .yields
        .as_deref()
        .map(|text| fraction("--yield", text, 1.0))
        .transpose()?;
    let store = data.existing()?;
    let dish = store.known_dish(&name)?;
    let zone = TimeZone::system();
    let foretold = match said {
        Some(covers) => Some(covers),
        None => store.covers(on)?,
    };
    let of_weekday = match foretold {
        Some(_) => None,
        None => past_of_weekday(&store, &dish.name, on, on, &zone)?,
    };
    let by_weekday = of_weekday.is_some();
    let (covers, past) = match (foretold, of_weekday) {
        (Some(covers), _) => (covers, past_services(&store, &dish.name, on, &zone)?),
        (None, Some(known)) => (known.covers, known.past),
        (None, None) => {
            return Err(bad_input!("prep-covers-unknown", day = on.to_string()));
        }
    };
    let past = match per_cover {
        // One service as said: nothing is known of how evenings differ.
        Some(share) => vec![PastService {
            covers: 1_000,
            portions: (share * 1_000.0).round() as u32,
        }],
        None => past,
    };
    let served = portion_as_served(&store, &dish.name, on, &zone)?;
    let target = served.map_or(dish.goal.target(), |(mean, _)| mean);
    let (yields, purchases) = match said_yield {
        Some(fraction) => (Yield::new(fraction).ok().map(KnownYield::said), 0),
        None => {
            let purchases = recent_purchases(&store, &dish.name)?;
            let known = KnownYield::of_purchases(&purchases)
                .map_err(|error| Failure::Other(error.to_string()))?;
            (known, purchases.len())
        }
    };
    let yesterday = on.saturating_sub(1.day());
    let left = match &arguments.left {
        Some(text) => whole("--left", text, "portions")?,
        None => store.left_over(yesterday, &dish.name)?.unwrap_or(0),
    };
    let stock = stock(&store, &dish.name, arguments)?;
    let answer = par(&ParQuestion {
        covers,
        past: &past,
        target,
        yields,
        stock,
        left,
    })
    .map_err(|error| Failure::Input(format!("{error}; --per-cover says how many")))?;
    let likely = |known: Option<AsBought>| known.map(|k| Grams(k.likely));
    let most = |known: Option<AsBought>| known.and_then(|k| k.most).map(Grams);
    let start_by = first_start(&store, &in_force(data)?, &dish.name, on);
    if arguments.json {
        return output::json(&json!({
            "dish": dish.name.as_str(),
            "service": on,
            "covers": covers,
            "covers_by_weekday": by_weekday,
            "portion_grams": Grams(target),
            "portions_weighed": served.map_or(0, |(_, count)| count),
            "portions_likely": answer.likely,
            "portions_margin": answer.margin,
            "portions_ready": answer.ready,
            "portions_left": left,
            "portions_to_make": answer.to_make,
            "yield": yields.map(|known| known.likely.fraction()),
            "yield_low": yields.and_then(|known| known.low).map(Yield::fraction),
            "ready_in_hand_grams": Grams(stock.ready),
            "wanted_ready_grams": Grams(answer.wanted_ready),
            "start_with_grams": likely(answer.to_start),
            "start_with_at_most_grams": most(answer.to_start),
            "in_hand_grams": Grams(stock.as_bought),
            "order_grams": likely(answer.to_order),
            "order_at_most_grams": most(answer.to_order),
            "start_by": start_by,
            "past_services": if per_cover.is_some() { 0 } else { past.len() },
            "purchases": purchases,
        }));
    }
    let told = ParTold {
        answer,
        dish: dish.name.as_str(),
        on,
        covers,
        left,
        yields,
        purchases,
        stock,
        start_by,
        said: per_cover.is_some(),
        services: past.len(),
        by_weekday,
        portion: (target, served.map_or(0, |(_, count)| count)),
    };
    par_words(language, &told, &zone)
        .iter()
        .try_for_each(|words| output::line(words))
}

/// Food in hand as said, or what is open holds.
fn stock(store: &Store, dish: &DishName, arguments: &ParArguments) -> Result<Stock, Failure> {
    let said = |flag, text: &Option<String>| {
        text.as_deref()
            .map(|text| mass_positive(flag, text))
            .transpose()
    };
    let as_bought = said("--in-hand", &arguments.in_hand)?;
    let ready = said("--ready-in-hand", &arguments.ready_in_hand)?;
    if as_bought.is_some() || ready.is_some() {
        return Ok(Stock {
            ready: ready.unwrap_or(Mass::ZERO),
            as_bought: as_bought.unwrap_or(Mass::ZERO),
        });
    }
    Ok(open_stock(store, dish)?)
}

/// When the preparation of the dish's name is to be begun, by the menu on
/// record.
fn first_start(store: &Store, limits: &Limits, dish: &DishName, on: Date) -> Option<Timestamp> {
    let zone = TimeZone::system();
    let question = PrepQuestion {
        day: on,
        menu: None,
        covers: None,
        days_ahead: 0,
        what_if: &[],
        now: Timestamp::now(),
        zone: &zone,
        language: Language::English,
        unwanted: None,
    };
    let prep: Result<PrepNow, PrepError> = PrepNow::of(store, &question, limits);
    let prep = prep.ok()?;
    prep.plan
        .steps
        .iter()
        .filter(|planned| {
            prep.board
                .step(planned.step)
                .is_ok_and(|step| step.preparation.eq_ignore_ascii_case(dish.as_str()))
        })
        .map(|planned| planned.latest)
        .min()
}

#[derive(Debug, Args)]
pub(crate) struct CoversArguments {
    /// Guests.
    #[arg(allow_hyphen_values = true)]
    covers: String,
    /// The day of service.
    #[arg(long = "for", value_name = "DATE")]
    day: String,
    #[command(flatten)]
    telling: Telling,
}

pub(super) fn covers(data: &Data, arguments: &CoversArguments) -> Result<(), Failure> {
    let on = day("--for", &arguments.day)?;
    let covers = whole("COVERS", &arguments.covers, "guests")?;
    data.store()?.note_covers(on, covers, Timestamp::now())?;
    arguments.telling.tell(
        &say!(
            data.language,
            "prep-covers",
            day = on.to_string(),
            covers = covers.to_string()
        ),
        &json!({ "for": on, "covers": covers }),
    )
}

#[derive(Debug, Args)]
pub(crate) struct LeftArguments {
    /// The dish.
    dish: String,
    /// Portions.
    #[arg(allow_hyphen_values = true)]
    portions: String,
    /// The day of the service that left them.
    #[arg(long = "for", value_name = "DATE")]
    day: String,
    #[command(flatten)]
    telling: Telling,
}

pub(super) fn left(data: &Data, arguments: &LeftArguments) -> Result<(), Failure> {
    let on = day("--for", &arguments.day)?;
    let name = DishName::new("DISH", &arguments.dish)?;
    let portions = whole("PORTIONS", &arguments.portions, "portions")?;
    data.store()?
        .note_left_over(on, &name, portions, Timestamp::now())?;
    arguments.telling.tell(
        &say!(
            data.language,
            "prep-left",
            day = on.to_string(),
            portions = portions.to_string(),
            dish = name.as_str()
        ),
        &json!({ "for": on, "dish": name.as_str(), "portions_left": portions }),
    )
}
