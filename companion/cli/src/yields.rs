//! `evenhand yield`.

use super::amounts::UnitArguments;
use super::output::Telling;
use super::service::{DayArguments, day_to_show};
use super::tin::{possible, tin_id, tin_words};
use super::words::{bad_input, say};
use super::{Data, Failure, figures, output};
use clap::{Args, Subcommand};
use evenhand_kitchen::cutting::{Correction, CutError, FEWEST_TO_CORRECT, MOST_PIECES, Slab};
use evenhand_kitchen::dish::DishName;
use evenhand_kitchen::moment::show_date_and_time;
use evenhand_kitchen::tin::Tin;
use evenhand_kitchen::units::{Grams, MassUnit, mass_not_negative, mass_positive};
use evenhand_kitchen::yield_flow::{Destination, Loss, YieldFlow};
use evenhand_protocol::Mass;
use evenhand_store::Store;
use evenhand_use_cases::costs;
use evenhand_use_cases::review::words;
use evenhand_words::Language;
use jiff::Timestamp;
use jiff::tz::TimeZone;
use serde_json::json;
use std::borrow::Cow;

#[derive(Debug, Subcommand)]
pub(super) enum YieldCommand {
    /// Note a loss: trim, cook, press, spill or tasting.
    Lose {
        /// The number of the tin, fish or cut.
        tin: String,
        /// Which loss.
        loss: String,
        /// How much: 420g.
        #[arg(allow_hyphen_values = true)]
        mass: String,
        #[command(flatten)]
        telling: Telling,
    },
    /// Note what is left, as weighed.
    Left {
        /// The number of the tin, fish or cut.
        tin: String,
        /// How much: 85g.
        #[arg(allow_hyphen_values = true)]
        mass: String,
        #[command(flatten)]
        telling: Telling,
    },
    /// What became of a purchase, from whole to trimmed to portioned.
    Show(ShowArguments),
    /// Every gram of some days: bought, on plates, lost by name, left, not accounted for.
    Days {
        #[command(flatten)]
        day: DayArguments,
        /// How many days up to that one, 1 to 366.
        #[arg(long, value_name = "COUNT", default_value_t = 7, value_parser = clap::value_parser!(u16).range(1..=366))]
        days: u16,
        #[command(flatten)]
        unit: UnitArguments,
        #[command(flatten)]
        telling: Telling,
    },
    /// How to cut a slab into pieces, its ends put aside.
    Cut(CutArguments),
    /// Strike out a line that was wrong; it stays on record and counts no more.
    Strike {
        /// The line's number.
        line: String,
        #[command(flatten)]
        telling: Telling,
    },
}

#[derive(Debug, Args)]
pub(super) struct CutArguments {
    /// The slab, as weighed: 2.4kg.
    #[arg(allow_hyphen_values = true)]
    slab: String,
    /// The ends put aside: 150g; otherwise none.
    #[arg(long, value_name = "MASS", allow_hyphen_values = true)]
    ends: Option<String>,
    /// What a piece should weigh; otherwise the dish's target.
    #[arg(long, value_name = "MASS", allow_hyphen_values = true)]
    each: Option<String>,
    /// So many pieces, all alike.
    #[arg(long, value_name = "COUNT", conflicts_with = "each")]
    pieces: Option<u32>,
    /// The dish: its last pieces say how the next cut is to be corrected.
    #[arg(long, value_name = "NAME")]
    dish: Option<String>,
    #[command(flatten)]
    telling: Telling,
}

#[derive(Debug, Args)]
pub(super) struct ShowArguments {
    /// The number of the tin, fish or cut.
    tin: String,
    #[command(flatten)]
    unit: UnitArguments,
    #[command(flatten)]
    telling: Telling,
}

pub(super) fn run(data: &Data, command: YieldCommand) -> Result<(), Failure> {
    match command {
        YieldCommand::Lose {
            tin,
            loss,
            mass,
            telling,
        } => {
            let tin = tin_id("TIN", &tin)?;
            let loss = Loss::parse("LOSS", &loss)?;
            let mass = mass_positive("MASS", &mass)?;
            let mut store = data.existing()?;
            store.note_yield(tin, Some(loss), mass, Timestamp::now())?;
            told(
                data.language,
                &store,
                &store.tin(tin)?,
                (MassUnit::Gram, telling),
            )
        }
        YieldCommand::Left { tin, mass, telling } => {
            let tin = tin_id("TIN", &tin)?;
            let mass = mass_not_negative("MASS", &mass)?;
            let mut store = data.existing()?;
            store.note_yield(tin, None, mass, Timestamp::now())?;
            told(
                data.language,
                &store,
                &store.tin(tin)?,
                (MassUnit::Gram, telling),
            )
        }
        YieldCommand::Strike { line, telling } => {
            let number: i64 = line
                .trim()
                .parse()
                .map_err(|_| bad_input!("yield-line-number", value = format!("{line:?}")))?;
            data.existing()?.strike_yield(number, Timestamp::now())?;
            telling.tell(
                &say!(data.language, "yield-struck", line = number.to_string()),
                &json!({ "line": number, "struck": true }),
            )
        }
        YieldCommand::Days {
            day,
            days,
            unit,
            telling,
        } => {
            let unit = unit.unit()?;
            let store = data.existing()?;
            let calendar = store.service_calendar(TimeZone::system())?;
            let last = day_to_show(&store, &calendar, &day)?;
            let told = costs::of_days(&store, &calendar, last, days)?;
            if telling.is_json() {
                output::json(&days_json(&told))
            } else {
                tell_days(data.language, &told, unit)
            }
        }
        YieldCommand::Cut(arguments) => cut(data, &arguments),
        YieldCommand::Show(arguments) => {
            let unit = arguments.unit.unit()?;
            let store = data.existing()?;
            let tin = store.tin(tin_id("TIN", &arguments.tin)?)?;
            told(data.language, &store, &tin, (unit, arguments.telling))
        }
    }
}

fn days_json(days: &costs::Days) -> serde_json::Value {
    let ledger = &days.ledger;
    let losses: serde_json::Map<String, serde_json::Value> = Loss::ALL
        .into_iter()
        .map(|loss| {
            (
                format!("{}_grams", loss.word()),
                json!(Grams(ledger.lost(loss))),
            )
        })
        .collect();
    json!({
        "first": days.first.to_string(),
        "last": days.last.to_string(),
        "purchases": ledger.purchases,
        "not_weighed": ledger.not_weighed,
        "bought_grams": Grams(ledger.bought),
        "portioned_grams": Grams(ledger.portioned),
        "lost": losses,
        "left_weighed_grams": Grams(ledger.left_weighed),
        "left_by_record_grams": Grams(ledger.left_by_record),
        "unaccounted_grams": Grams(ledger.unaccounted),
        "from_no_purchase_grams": Grams(ledger.from_no_purchase),
    })
}

/// A loss with its name: `lost to trim`.
fn lost(language: Language, loss: Loss) -> String {
    let loss = words::part(language, Destination::Lost(loss));
    say!(language, "yield-lost", loss = loss).into_owned()
}

fn tell_days(language: Language, days: &costs::Days, unit: MassUnit) -> Result<(), Failure> {
    let ledger = &days.ledger;
    output::line(&say!(
        language,
        "yield-days",
        first = days.first.to_string(),
        last = days.last.to_string(),
        count = ledger.purchases
    ))?;
    let row = |name: &str, mass: Mass| {
        let share = if ledger.bought > Mass::ZERO {
            language.figure(format!(
                "{:.1}%",
                mass.grams() / ledger.bought.grams() * 100.0
            ))
        } else {
            String::new()
        };
        output::line(&format!(
            "  {name:<24}  {:>12}  {share:>6}",
            figures::mass(language, mass, unit)
        ))
    };
    row(&say!(language, "yield-bought"), ledger.bought)?;
    row(&say!(language, "yield-portioned"), ledger.portioned)?;
    for loss in Loss::ALL {
        if ledger.lost(loss) > Mass::ZERO {
            row(&lost(language, loss), ledger.lost(loss))?;
        }
    }
    row(&say!(language, "yield-left-weighed"), ledger.left_weighed)?;
    if ledger.not_weighed > 0 {
        row(
            &say!(language, "yield-left-by-record"),
            ledger.left_by_record,
        )?;
    }
    row(&say!(language, "yield-unaccounted"), ledger.unaccounted)?;
    if ledger.not_weighed > 0 {
        let words = say!(language, "yield-not-weighed", count = ledger.not_weighed);
        output::line(&format!("  {words}"))?;
    }
    if ledger.from_no_purchase > Mass::ZERO {
        let mass = figures::mass(language, ledger.from_no_purchase, unit);
        let words = say!(language, "yield-from-none", mass = mass);
        output::line(&format!("  {words}"))?;
    }
    Ok(())
}

fn cut(data: &Data, arguments: &CutArguments) -> Result<(), Failure> {
    let slab = Slab {
        whole: mass_positive("SLAB", &arguments.slab)?,
        ends: match &arguments.ends {
            Some(ends) => mass_not_negative("--ends", ends)?,
            None => Mass::ZERO,
        },
    };
    let (mut each, mut correction) = (None, None);
    if let Some(name) = &arguments.dish {
        let store = data.existing()?;
        let dish = store.known_dish(&DishName::new("--dish", name)?)?;
        each = Some(dish.goal.target());
        correction = Some(costs::correction(&store, &dish.name)?);
    }
    if let Some(text) = &arguments.each {
        each = Some(mass_positive("--each", text)?);
    }
    let plan = match (arguments.pieces, each) {
        (Some(pieces), _) => slab.in_pieces(pieces),
        (None, Some(each)) => slab.pieces_of(each),
        (None, None) => {
            return Err(bad_input!("cut-how-large"));
        }
    }
    .map_err(cut_refused)?;
    let language = data.language;
    let grams = |mass| words::grams(language, mass);
    let signed = |mass| words::signed(language, mass);
    let mut said = say!(
        language,
        "cut-plan",
        count = plan.pieces,
        each = grams(plan.each),
        rest = grams(plan.rest),
        ends = grams(slab.ends)
    )
    .into_owned();
    let mut add = |words: Cow<'_, str>| {
        said.push('\n');
        said.push_str(&words);
    };
    let told = match correction {
        None => serde_json::Value::Null,
        Some(Correction::TooFew(pieces)) => {
            let needed = FEWEST_TO_CORRECT.to_string();
            add(say!(
                language,
                "cut-too-few",
                count = pieces,
                needed = needed
            ));
            json!({ "pieces": pieces })
        }
        Some(Correction::None { offset }) => {
            add(say!(language, "cut-no-correction"));
            json!({ "by_grams": 0.0, "low_grams": Grams(offset.low), "high_grams": Grams(offset.high) })
        }
        Some(Correction::Cut { by, offset, pieces }) => {
            add(say!(
                language,
                "cut-correction",
                was = if by.is_negative() { "over" } else { "under" },
                pieces = pieces.to_string(),
                by = grams(by.abs()),
                low = signed(offset.low),
                high = signed(offset.high)
            ));
            json!({
                "by_grams": Grams(by),
                "low_grams": Grams(offset.low),
                "high_grams": Grams(offset.high),
                "pieces": pieces,
            })
        }
    };
    arguments.telling.tell(
        &said,
        &json!({
            "pieces": plan.pieces,
            "each_grams": Grams(plan.each),
            "over_grams": Grams(plan.rest),
            "ends_grams": Grams(slab.ends),
            "correction": told,
        }),
    )
}

fn cut_refused(error: CutError) -> Failure {
    let (why, what) = match error {
        CutError::NothingBetween => ("ends", ""),
        CutError::NotAboveZero("the slab") => ("zero", "slab"),
        CutError::NotAboveZero(_) => ("zero", "piece"),
        CutError::NoPiece => ("no-piece", ""),
        CutError::TooMany => ("too-many", ""),
    };
    let most = MOST_PIECES.to_string();
    bad_input!("cut-refused", why = why, what = what, most = most)
}

fn told(
    language: Language,
    store: &Store,
    tin: &Tin,
    (unit, telling): (MassUnit, Telling),
) -> Result<(), Failure> {
    if telling.is_json() {
        as_json(store, tin)
    } else {
        tell(language, store, tin, unit)
    }
}

fn as_json(store: &Store, tin: &Tin) -> Result<(), Failure> {
    let flow = store.yield_flow(tin.id)?;
    let goal = store.known_dish(&tin.dish)?.goal;
    let possible = flow.portions_possible(goal);
    let losses: serde_json::Map<String, serde_json::Value> = Loss::ALL
        .into_iter()
        .map(|loss| {
            (
                format!("{}_grams", loss.word()),
                json!(Grams(flow.lost(loss))),
            )
        })
        .collect();
    let lines: Vec<_> = store
        .yield_lines(tin.id)?
        .into_iter()
        .map(|line| {
            json!({
                "line": line.id,
                "what": line.loss.map_or("left", Loss::word),
                "grams": Grams(line.mass),
                "at": line.at,
                "struck": line.struck,
            })
        })
        .collect();
    output::json(&json!({
        "tin": tin.id.0,
        "kind": tin.kind.word(),
        "dish": tin.dish.as_str(),
        "bought_grams": Grams(flow.bought),
        "lost": losses,
        "trimmed_grams": Grams(flow.trimmed()),
        "ready_grams": Grams(flow.ready()),
        "portioned_grams": Grams(flow.portioned),
        "left_grams": Grams(flow.left_or_reckoned()),
        "left_is_weighed": flow.left.is_some(),
        "unaccounted_grams": flow.unaccounted().map(Grams),
        "portioned_share": flow.portioned_yield(),
        "cost_as_bought": tin.cost().map(|cost| cost.to_string()),
        "cost_as_portioned": cost_as_portioned(tin, &flow),
        "portions_possible_fewest": possible.fewest,
        "portions_possible_most": possible.most,
        "lines": lines,
    }))
}

fn cost_as_portioned(tin: &Tin, flow: &YieldFlow) -> Option<String> {
    Some(flow.cost_as_portioned(tin.price?)?.to_string())
}

fn tell(language: Language, store: &Store, tin: &Tin, unit: MassUnit) -> Result<(), Failure> {
    let flow = store.yield_flow(tin.id)?;
    let goal = store.known_dish(&tin.dish)?.goal;
    let row = |name: &str, mass: Mass| {
        let share = flow
            .share(mass)
            .map_or_else(String::new, |share| language.figure(share.to_string()));
        output::line(&format!(
            "  {name:<22}  {:>12}  {share:>6}",
            figures::mass(language, mass, unit)
        ))
    };
    let label = if tin.label.is_empty() {
        String::new()
    } else {
        format!(", {}", tin.label)
    };
    output::line(&format!("{}{label}", tin_words(language, tin)))?;
    row(&say!(language, "yield-bought"), flow.bought)?;
    for loss in Loss::ALL {
        if flow.lost(loss) > Mass::ZERO {
            row(&lost(language, loss), flow.lost(loss))?;
        }
        if loss == Loss::Trim {
            row(&say!(language, "yield-trimmed"), flow.trimmed())?;
        }
    }
    row(&say!(language, "yield-portioned"), flow.portioned)?;
    match flow.unaccounted() {
        None => row(
            &say!(language, "yield-should-be-left"),
            flow.left_or_reckoned(),
        )?,
        Some(gone) => {
            row(
                &say!(language, "yield-left-weighed"),
                flow.left_or_reckoned(),
            )?;
            row(&say!(language, "yield-unaccounted"), gone)?;
        }
    }
    if let (Some(bought), Some(portioned)) = (tin.cost(), cost_as_portioned(tin, &flow)) {
        let words = say!(
            language,
            "yield-cost",
            bought = language.figure(bought.to_string()),
            portioned = language.figure(portioned)
        );
        output::line(&format!("  {words}"))?;
    }
    let possible = possible(language, flow.portions_possible(goal));
    let words = say!(language, "yield-possible", possible = possible);
    output::line(&format!("  {words}"))?;
    if flow.more_came_out() {
        output::line(&format!("  {}", say!(language, "yield-more")))?;
    }
    for line in store.yield_lines(tin.id)? {
        let number = line.id.to_string();
        let what = words::part(
            language,
            line.loss.map_or(Destination::Left, Destination::Lost),
        );
        let mass = figures::mass(language, line.mass, unit);
        let time = show_date_and_time(line.at, &TimeZone::system());
        let words = if line.struck {
            say!(
                language,
                "yield-line-struck",
                line = number,
                what = what,
                mass = mass,
                time = time
            )
        } else {
            say!(
                language,
                "yield-line",
                line = number,
                what = what,
                mass = mass,
                time = time
            )
        };
        output::line(&format!("  {words}"))?;
    }
    Ok(())
}
