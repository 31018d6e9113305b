//! `evenhand prep order`, `goods`, `count` and `ordered`.

use super::super::heat::{in_force, text_of};
use super::super::import::read_as_words;
use super::super::output::Telling;
use super::super::written::PdfArguments;
use super::super::{Data, Failure, output};
use super::{day, moment, past_moment, refused, whole};
use crate::words::{bad_input, say};
use clap::Args;
use evenhand_kitchen::portion::StrikeReason;
use evenhand_kitchen::prep::{Goods, GoodsList, GoodsTold, PlacedOrder};
use evenhand_kitchen::units::Amount;
use evenhand_store::Store;
use evenhand_use_cases::input::input_error_words;
use evenhand_use_cases::prep::{
    OrderError, OrderLine, OrderQuestion, OrderSheet, Remedies, amount_words, file_error_words,
    goods_on_record, goods_text, missing_words, order_csv, order_pdf, order_words,
    placed_order_words,
};
use evenhand_words::Language;
use jiff::tz::TimeZone;
use jiff::{Timestamp, ZonedDateTime};
use serde_json::{Value, json};
use std::path::PathBuf;

impl From<OrderError> for Failure {
    fn from(error: OrderError) -> Self {
        match error {
            OrderError::Prep(error) => error.into(),
            error => Self::Input(error.to_string()),
        }
    }
}

#[derive(Debug, Args)]
pub(crate) struct OrderArguments {
    /// Only what comes from this supplier.
    #[arg(long, value_name = "NAME")]
    supplier: Option<String>,
    /// How many days what comes from a supplier without delivery days is to last.
    #[arg(long, value_name = "N", default_value = "1")]
    days: String,
    /// As if it were this time; now, if not said.
    #[arg(long, value_name = "TIME")]
    at: Option<String>,
    #[command(flatten)]
    print: PdfArguments,
    /// As a table, comma-separated; amounts in grams, millilitres or pieces.
    #[arg(long, conflicts_with = "json")]
    csv: bool,
    /// One JSON object; amounts in grams, millilitres or pieces.
    #[arg(long)]
    json: bool,
}

pub(super) fn run(
    data: &Data,
    arguments: &OrderArguments,
    language: Language,
) -> Result<(), Failure> {
    let days: i32 = match arguments.days.trim().parse() {
        Ok(days) if (1..=14).contains(&days) => days,
        _ => {
            return Err(bad_input!(
                "prep-no-days",
                text = format!("{:?}", arguments.days)
            ));
        }
    };
    let now = moment("--at", arguments.at.as_deref(), ZonedDateTime::now().date())?;
    let zone = TimeZone::system();
    let question = OrderQuestion {
        supplier: arguments.supplier.as_deref(),
        days,
        now,
        zone: &zone,
        language,
    };
    let sheet = OrderSheet::of(&data.existing()?, &question, &in_force(data)?)?;
    arguments.print.write(data, "The order sheet", || {
        order_pdf(language, &sheet, Remedies::Typed, &zone)
    })?;
    if arguments.csv {
        return output::line(order_csv(&sheet)?.trim_end());
    }
    if arguments.json {
        return output::json(&json!({
            "at": sheet.at,
            "suppliers": sheet.suppliers.iter().map(|order| json!({
                "supplier": order.name,
                "order_by": order.delivery.and_then(|it| it.order_by),
                "delivery": order.delivery.map(|it| it.day),
                "delivery_after": order.delivery.map(|it| it.next),
                "services": order.services,
                "services_after_it_comes": order.after,
                "cost": order.cost.map(|it| it.to_string()),
                "lines": order.lines.iter().map(line_json).collect::<Vec<_>>(),
            })).collect::<Vec<_>>(),
        }));
    }
    output::sheet(&order_words(language, &sheet, Remedies::Typed, &zone))
}

fn line_json(line: &OrderLine) -> Value {
    let number = |amount: Option<Amount>| amount.map(Amount::number);
    json!({
        "goods": line.goods.name,
        "pack": line.goods.pack.to_string(),
        "packs": line.packs.number(),
        "packs_from": line.packs.from,
        "packs_to": line.packs.to,
        "left_over": number(line.packs.over),
        "likely": number(line.need.likely),
        "enough": number(line.need.enough),
        "at_least": number(Some(line.need.at_least)),
        "likely_after_it_comes": number(line.after.likely),
        "enough_after_it_comes": number(line.after.enough),
        "in_hand_least": number(Some(line.in_hand.least)),
        "in_hand_most": number(line.in_hand.most),
        "packs_on_the_way": line.counted.on_the_way,
        "runs_out_before_it_comes": line.runs_out,
        "cost": line.cost.map(|it| it.to_string()),
        "to_know": line
            .missing
            .iter()
            .map(|it| missing_words(Language::English, it, &line.goods.name, Remedies::Typed))
            .collect::<Vec<_>>(),
    })
}

/// A list of what the kitchen buys:
///
/// [[supplier]]s with name, delivers (["tue", "fri"]), at, order_by and days_before; [[goods]] with
/// name, supplier, pack ("2.5 kg", "5 l", "12 pieces"), price, piece and for: what they are for,
/// [{ dish = "Bream" }], [{ batch = "pickled shallots", takes = "1.8 kg" }] or
/// [{ per_cover = "15 g" }]. A dish has takes, too, or goes by what is served and the yield on
/// record.
#[derive(Debug, Args)]
pub(crate) struct GoodsArguments {
    /// Keep the list in this file; MENU.md, beside the README, says how one is written. A name
    /// that ends in .csv is a table, as --csv writes it.
    #[arg(long, value_name = "FILE")]
    keep: Option<PathBuf>,
    /// Show it as a table, comma-separated; --keep FILE.csv reads it back.
    #[arg(long, conflicts_with_all = ["keep", "json"])]
    csv: bool,
    #[command(flatten)]
    telling: Telling,
}

pub(super) fn goods(data: &Data, arguments: &GoodsArguments) -> Result<(), Failure> {
    let Some(path) = &arguments.keep else {
        let store = data.existing()?;
        let list = goods_on_record(&store)?;
        if arguments.csv {
            return output::line(list.to_csv()?.trim_end());
        }
        let text = store.goods()?.unwrap_or_default();
        return arguments
            .telling
            .tell(text.trim_end(), &json!({ "goods_toml": text }));
    };
    let keep = format!("--keep: {}", path.display());
    let (text, read_as) = goods_text(path, text_of("--keep", path)?)
        .map_err(|error| refused(&keep, |language| input_error_words(language, &error)))?;
    let read = read_as.map_or_else(String::new, |read_as| {
        format!("\n{}", read_as_words(data.language, read_as, "number"))
    });
    let list = GoodsList::from_toml(&text)
        .map_err(|error| refused(&keep, |language| file_error_words(language, &error)))?;
    data.store()?.keep_goods(&text, Timestamp::now())?;
    let goods = list.goods.len();
    arguments.telling.tell(
        &format!(
            "{}{read}",
            say!(data.language, "prep-goods-kept", goods = goods.to_string())
        ),
        &json!({ "goods": goods }),
    )
}

#[derive(Debug, Args)]
pub(crate) struct CountArguments {
    /// The goods, by their name in the list.
    goods: String,
    /// How much is there as bought, what is open left out: "7.5 kg", "12 pieces",
    /// "3 packs", "0".
    #[arg(allow_hyphen_values = true)]
    amount: String,
    /// When that was: 15:30 today, 2026-05-07T16:30; now, if not said.
    #[arg(long, value_name = "TIME")]
    at: Option<String>,
    #[command(flatten)]
    telling: Telling,
}

fn listed(store: &Store, name: &str) -> Result<Goods, Failure> {
    let list = goods_on_record(store)?;
    list.goods(name).cloned().ok_or_else(|| {
        let known: Vec<&str> = list.goods.iter().map(|it| it.name.as_str()).collect();
        bad_input!(
            "prep-not-listed",
            name = format!("{name:?}"),
            known = known.join(", ")
        )
    })
}

pub(super) fn count(data: &Data, arguments: &CountArguments) -> Result<(), Failure> {
    let at = past_moment("--at", arguments.at.as_deref(), ZonedDateTime::now().date())?;
    let mut store = data.store()?;
    let goods = listed(&store, &arguments.goods)?;
    let said = goods.amount_of(&arguments.amount);
    let amount = match said {
        Ok(amount) => amount,
        Err(_) => Amount::parse_or_none("AMOUNT", &arguments.amount)?,
    };
    if goods.in_packs_measure(amount).is_none() {
        return Err(bad_input!(
            "prep-other-measure",
            text = format!("{:?}", arguments.amount),
            pack = goods.pack.to_string()
        ));
    }
    store.tell_goods(
        &goods.name,
        at,
        GoodsTold::Counted { amount },
        Timestamp::now(),
    )?;
    arguments.telling.tell(
        &say!(
            data.language,
            "prep-in-hand",
            goods = goods.name.as_str(),
            amount = amount_words(data.language, amount)
        ),
        &json!({ "goods": goods.name, "measure": amount.measure(), "in_hand": amount.number() }),
    )
}

#[derive(Debug, Args)]
pub(crate) struct OrderedArguments {
    /// The goods, by their name in the list.
    goods: String,
    /// How many packs.
    #[arg(allow_hyphen_values = true)]
    packs: String,
    /// The day that they come.
    #[arg(long = "for", value_name = "DATE")]
    day: String,
    #[command(flatten)]
    telling: Telling,
}

pub(super) fn ordered(data: &Data, arguments: &OrderedArguments) -> Result<(), Failure> {
    let comes = day("--for", &arguments.day)?;
    let packs = whole("PACKS", &arguments.packs, "packs")?;
    let now = Timestamp::now();
    let mut store = data.store()?;
    let goods = listed(&store, &arguments.goods)?;
    store.tell_goods(&goods.name, now, GoodsTold::Ordered { packs, comes }, now)?;
    arguments.telling.tell(
        &say!(
            data.language,
            "prep-ordered",
            goods = goods.name.as_str(),
            packs = packs.to_string(),
            pack = amount_words(data.language, goods.pack),
            day = comes.to_string()
        ),
        &json!({ "goods": goods.name, "packs": packs, "for": comes }),
    )
}

/// What was ordered, as it was put down. An order that was put down by mistake, or does not come,
/// is taken back with the reason: it stays on record and counts no more.
#[derive(Debug, Args)]
pub(crate) struct OrdersArguments {
    /// Only of these goods, by their name in the list.
    goods: Option<String>,
    /// Take the order of this number back.
    #[arg(
        long,
        value_name = "NUMBER",
        requires = "reason",
        conflicts_with = "put_back"
    )]
    take_back: Option<String>,
    /// Why it is taken back.
    #[arg(long, value_name = "TEXT", requires = "take_back")]
    reason: Option<String>,
    /// Let the order of this number count again.
    #[arg(long, value_name = "NUMBER")]
    put_back: Option<String>,
    #[command(flatten)]
    telling: Telling,
}

pub(super) fn orders(data: &Data, arguments: &OrdersArguments) -> Result<(), Failure> {
    let language = data.language;
    let number = |flag: &str, text: &str| -> Result<u32, Failure> {
        let text = text.trim();
        text.parse().map_err(|_| {
            bad_input!(
                "prep-no-order-number",
                flag = flag,
                text = format!("{text:?}")
            )
        })
    };
    let mut store = data.existing()?;
    let now = Timestamp::now();
    if let (Some(text), Some(reason)) = (&arguments.take_back, &arguments.reason) {
        let reason = StrikeReason::new("--reason", reason)?;
        store.take_back_orders(&[number("--take-back", text)?], &reason, now)?;
    }
    if let Some(text) = &arguments.put_back {
        store.put_orders_back(&[number("--put-back", text)?], now)?;
    }
    let list = goods_on_record(&store)?;
    let goods = arguments.goods.as_deref();
    let goods = goods.map(|name| listed(&store, name)).transpose()?;
    let orders = store.placed_orders(goods.as_ref().map(|it| it.name.as_str()))?;
    let zone = TimeZone::system();
    let lines: Vec<String> = orders
        .iter()
        .map(|order| {
            let goods = list.goods(&order.goods);
            let words = placed_order_words(language, order, goods, &zone);
            format!("{:>5}  {words}", order.number)
        })
        .collect();
    let words = if lines.is_empty() {
        say!(language, "prep-no-orders").into_owned()
    } else {
        lines.join("\n")
    };
    let each = |order: &PlacedOrder| {
        json!({
            "order": order.number,
            "goods": order.goods,
            "packs": order.packs,
            "for": order.comes,
            "put_down": order.at,
            "taken_back": order.taken_back.as_ref().map(|it| it.at),
            "reason": order.taken_back.as_ref().map(|it| it.reason.as_str()),
        })
    };
    let all: Vec<Value> = orders.iter().map(each).collect();
    arguments.telling.tell(&words, &json!({ "orders": all }))
}
