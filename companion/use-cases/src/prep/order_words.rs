//! The order sheet in lines, as a table, and as a page.

use super::order::{Missing, OrderLine, OrderSheet, SupplierOrder, Use};
use crate::printing::{self, A4, PageError};
use crate::sheet::{self, Weight};
use crate::times;
use crate::words::say;
use evenhand_kitchen::portion::Struck;
use evenhand_kitchen::prep::{ENOUGH_NIGHTS, Goods, PlacedOrder, UsedFor, Yield};
use evenhand_kitchen::units::{Amount, InputError, MassUnit, Measure, format_mass, typed};
use evenhand_kitchen::{expected, problem};
use evenhand_protocol::Mass;
use evenhand_words::Language;
use jiff::civil::Date;
use jiff::tz::TimeZone;

/// An amount in words: `2.5 kg`, `12 pieces`.
#[must_use]
pub fn amount_words(language: Language, amount: Amount) -> String {
    if amount.measure() != Measure::Pieces {
        return amount.to_string();
    }
    let words = amount.to_string();
    let number = words.split(' ').next().unwrap_or_default();
    let count = if amount.number() == 1.0 { 1 } else { 2 };
    say!(language, "order-pieces", count = count, number = number).into_owned()
}

/// A number of portions or guests, which are whole.
fn whole(number: f64) -> String {
    format!("{:.0}", (number - 1e-9).ceil())
}

/// One beside the other.
fn joined(language: Language, parts: &[impl AsRef<str>]) -> String {
    let mut parts = parts.iter().map(AsRef::as_ref);
    let first = parts.next().unwrap_or_default().to_owned();
    parts.fold(first, |one, more| {
        say!(language, "order-and", one = one, more = more).into_owned()
    })
}

fn mass_words(mass: Mass) -> String {
    format_mass(mass, MassUnit::Gram)
}

/// How what would make something known is told.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Remedies {
    /// With the command to type.
    Typed,
    /// In words alone: on a screen it is done by touch.
    InWords,
}

/// An order as it was put down: how much for when, when that was, and whether it was taken back.
/// `goods` is as the list has it now.
#[must_use]
pub fn placed_order_words(
    language: Language,
    order: &PlacedOrder,
    goods: Option<&Goods>,
    zone: &TimeZone,
) -> String {
    let name = goods.map_or(order.goods.as_str(), |it| it.name.as_str());
    let pack = goods.map_or_else(|| "?".to_owned(), |it| amount_words(language, it.pack));
    let words = say!(
        language,
        "order-placed",
        packs = order.packs.to_string(),
        pack = pack,
        goods = name,
        day = times::day(language, order.comes),
        at = times::day_and_time(language, order.at, zone)
    );
    match &order.taken_back {
        Some(struck) => format!("{words}. {}", taken_back_words(language, struck, zone)),
        None => words.into_owned(),
    }
}

/// That an order was taken back, when and why.
#[must_use]
pub fn taken_back_words(language: Language, struck: &Struck, zone: &TimeZone) -> String {
    say!(
        language,
        "order-taken-back",
        at = times::day_and_time(language, struck.at, zone),
        reason = struck.reason.as_str()
    )
    .into_owned()
}

/// All of it, line by line.
#[must_use]
pub fn order_words(
    language: Language,
    sheet: &OrderSheet,
    remedies: Remedies,
    zone: &TimeZone,
) -> Vec<(Weight, String)> {
    let at = times::day_and_time(language, sheet.at, zone);
    let mut lines = vec![(
        Weight::Title,
        say!(language, "order-title", at = at).into_owned(),
    )];
    let today = sheet.at.to_zoned_datetime(zone.clone()).date();
    for supplier in &sheet.suppliers {
        lines.push((Weight::Heading, supplier_words(language, supplier, zone)));
        lines.push((Weight::Small, lasts_words(language, supplier)));
        for line in &supplier.lines {
            lines.push((Weight::Text, packs_words(language, line)));
            let why = line_words(language, line, remedies, today, zone);
            lines.extend(why.into_iter().map(|words| (Weight::Small, words)));
        }
        if let Some(cost) = supplier.cost {
            let total = say!(language, "order-total", cost = cost.to_string());
            lines.push((Weight::Text, total.into_owned()));
        }
    }
    lines.push((Weight::Small, say!(language, "order-basis").into_owned()));
    lines
}

/// Which services an order is to last for, and which of them its packs are for.
#[must_use]
pub fn lasts_words(language: Language, order: &SupplierOrder) -> String {
    let day = |day: &Date| times::day(language, *day);
    let first_and_last = |days: &[Date]| days.first().map(day).zip(days.last().map(day));
    let Some((first, last)) = first_and_last(&order.services) else {
        return say!(language, "order-lasts-none").into_owned();
    };
    let lasts = say!(
        language,
        "order-lasts",
        count = order.services.len(),
        first = first,
        last = last
    );
    let before = order.services.len().saturating_sub(order.after.len());
    let more = match first_and_last(&order.after) {
        _ if before == 0 => return lasts.into_owned(),
        Some((first, last)) => say!(
            language,
            "order-lasts-after",
            before = before,
            count = order.after.len(),
            first = first,
            last = last
        ),
        None => say!(language, "order-lasts-none-after", before = before),
    };
    format!("{lasts} {more}")
}

/// Who it is ordered of, by when, and when it comes.
#[must_use]
pub fn supplier_words(language: Language, order: &SupplierOrder, zone: &TimeZone) -> String {
    let supplier = order.name.as_str();
    let Some(delivery) = order.delivery else {
        return say!(language, "order-supplier-no-days", supplier = supplier).into_owned();
    };
    let day = times::day(language, delivery.day);
    match delivery.order_by {
        Some(by) => say!(
            language,
            "order-supplier",
            supplier = supplier,
            by = times::day_and_time(language, by, zone),
            day = day
        ),
        None => say!(
            language,
            "order-supplier-no-time",
            supplier = supplier,
            day = day
        ),
    }
    .into_owned()
}

/// How many packs of a line, plainly marked where that is not known.
#[must_use]
pub fn packs_words(language: Language, line: &OrderLine) -> String {
    let goods = line.goods.name.as_str();
    let pack = amount_words(language, line.goods.pack);
    let (from, to) = (line.packs.from, line.packs.to);
    let words = match to {
        Some(0) => say!(language, "order-packs-none", goods = goods),
        Some(to) if to == from => say!(
            language,
            "order-packs",
            packs = to.to_string(),
            pack = pack,
            goods = goods
        ),
        Some(to) => say!(
            language,
            "order-packs-range",
            from = from.to_string(),
            to = to.to_string(),
            pack = pack,
            goods = goods
        ),
        None if from > 0 => say!(
            language,
            "order-packs-from",
            from = from.to_string(),
            pack = pack,
            goods = goods
        ),
        None => say!(language, "order-packs-unknown", pack = pack, goods = goods),
    };
    let mark = if line.packs.number().is_some() {
        "[ ]"
    } else {
        "[?]"
    };
    let words = format!("{mark} {words}");
    match line.cost.filter(|cost| cost.millionths() > 0) {
        Some(cost) => say!(
            language,
            "order-cost",
            line = words,
            cost = cost.to_string()
        )
        .into_owned(),
        None => words,
    }
}

/// What a line says beside its packs: what is needed and in hand, what for, and what would make
/// known what is not.
#[must_use]
pub fn line_words(
    language: Language,
    line: &OrderLine,
    remedies: Remedies,
    today: Date,
    zone: &TimeZone,
) -> Vec<String> {
    let amount = |amount| amount_words(language, amount);
    let mut all: Vec<String> = Vec::new();
    if line.runs_out {
        all.push(say!(language, "order-runs-out").into_owned());
    }
    let mut need = match (line.need.likely, line.need.enough) {
        (Some(_), Some(enough)) if enough.number() == 0.0 => {
            say!(language, "order-need-nothing").into_owned()
        }
        (Some(likely), Some(enough)) if likely == enough => {
            say!(language, "order-need-exactly", amount = amount(enough)).into_owned()
        }
        (Some(likely), Some(enough)) => say!(
            language,
            "order-need",
            likely = amount(likely),
            enough = amount(enough)
        )
        .into_owned(),
        (Some(likely), None) => {
            say!(language, "order-need-likely", likely = amount(likely)).into_owned()
        }
        _ if line.need.at_least.number() > 0.0 => say!(
            language,
            "order-need-at-least",
            least = amount(line.need.at_least)
        )
        .into_owned(),
        _ => String::new(),
    };
    if line.after != line.need {
        let after = match (line.after.likely, line.after.enough) {
            (_, Some(enough)) if enough.number() == 0.0 => {
                Some(say!(language, "order-after-nothing"))
            }
            (Some(likely), Some(enough)) if likely == enough => Some(say!(
                language,
                "order-after-exactly",
                amount = amount(enough)
            )),
            (Some(likely), Some(enough)) => Some(say!(
                language,
                "order-after",
                likely = amount(likely),
                enough = amount(enough)
            )),
            (Some(likely), None) => Some(say!(
                language,
                "order-after-likely",
                likely = amount(likely)
            )),
            _ => None,
        };
        if let Some(after) = after {
            need.push(' ');
            need += &after;
        }
    }
    let hand = hand_words(language, line, today, zone);
    if !need.is_empty() {
        need.push(' ');
    }
    need += &hand;
    if let Some(over) = line.packs.over.filter(|_| line.packs.from > 0) {
        need.push(' ');
        need += &say!(language, "order-over", over = amount(over));
    }
    all.push(need);
    all.extend(line.uses.iter().map(|used| use_words(language, used)));
    let what: Vec<String> = line
        .missing
        .iter()
        .map(|missing| missing_words(language, missing, &line.goods.name, remedies))
        .collect();
    if !what.is_empty() {
        all.push(say!(language, "order-know", what = joined(language, &what)).into_owned());
    }
    all
}

fn hand_words(
    language: Language,
    line: &OrderLine,
    today: jiff::civil::Date,
    zone: &TimeZone,
) -> String {
    let amount = |amount| amount_words(language, amount);
    let hand = line.in_hand;
    let mut words = match (line.counted.count, hand.most) {
        (Some((_, at)), Some(most)) => {
            let at = times::near(language, at, today, zone);
            if most == hand.least {
                say!(language, "order-hand", amount = amount(most), at = at)
            } else {
                say!(
                    language,
                    "order-hand-old",
                    least = amount(hand.least),
                    most = amount(most),
                    at = at
                )
            }
        }
        _ if hand.least.number() > 0.0 => {
            say!(language, "order-hand-open", amount = amount(hand.least))
        }
        _ => say!(language, "order-hand-none"),
    }
    .into_owned();
    if line.counted.on_the_way > 0 {
        words.push(' ');
        words += &say!(
            language,
            "order-on-the-way",
            packs = line.counted.on_the_way
        );
    }
    words
}

fn use_words(language: Language, used: &Use) -> String {
    let amount = |amount| amount_words(language, amount);
    let unknown = |name: &str| say!(language, "order-for-unknown", name = name).into_owned();
    match (&used.of, used.wanted) {
        (UsedFor::Batch { preparation, takes }, Some((batches, _))) => say!(
            language,
            "order-for-batch",
            name = preparation.as_str(),
            count = batches as u64,
            amount = amount(*takes)
        )
        .into_owned(),
        (UsedFor::Batch { preparation, takes }, None) => say!(
            language,
            "order-for-batch-unknown",
            name = preparation.as_str(),
            amount = amount(*takes)
        )
        .into_owned(),
        (UsedFor::Cover { takes }, Some((likely, _))) => say!(
            language,
            "order-for-cover",
            likely = whole(likely),
            amount = amount(*takes)
        )
        .into_owned(),
        (UsedFor::Cover { takes }, None) => {
            say!(language, "order-for-cover-unknown", amount = amount(*takes)).into_owned()
        }
        (UsedFor::Dish { dish, .. }, None) => unknown(dish),
        (UsedFor::Dish { dish, takes }, Some((likely, enough))) => {
            let mut parts = vec![match enough {
                Some(enough) => say!(
                    language,
                    "order-for-dish",
                    dish = dish.as_str(),
                    likely = whole(likely),
                    enough = whole(enough),
                    nights = used.nights.to_string()
                ),
                None => say!(
                    language,
                    "order-for-dish-one",
                    dish = dish.as_str(),
                    likely = whole(likely)
                ),
            }];
            if used.ready > 0 {
                parts.push(say!(
                    language,
                    "order-for-ready",
                    count = used.ready.to_string()
                ));
            }
            if let Some(takes) = takes {
                parts.push(say!(language, "order-for-takes", amount = amount(*takes)));
            }
            match used.portion {
                Some((mass, 0)) => {
                    parts.push(say!(language, "order-for-target", mass = mass_words(mass)));
                }
                Some((mass, count)) => parts.push(say!(
                    language,
                    "order-for-portion",
                    mass = mass_words(mass),
                    count = count.to_string()
                )),
                None => {}
            }
            if used.open.ready > Mass::ZERO && used.portion.is_some() {
                let mass = mass_words(used.open.ready);
                parts.push(say!(language, "order-for-ready-food", mass = mass));
            }
            if let Some((yields, count)) = used.yields {
                let said = |it: Yield| format!("{:.2}", it.fraction());
                let likely = said(yields.likely);
                parts.push(match yields.low {
                    Some(low) => say!(
                        language,
                        "order-for-yield",
                        likely = likely,
                        count = count.to_string(),
                        low = said(low)
                    ),
                    None => say!(
                        language,
                        "order-for-yield-likely",
                        likely = likely,
                        count = count
                    ),
                });
            }
            joined(language, &parts)
        }
    }
}

/// What would make something known.
#[must_use]
pub fn missing_words(
    language: Language,
    missing: &Missing,
    goods: &str,
    remedies: Remedies,
) -> String {
    let (words, command) = match missing {
        Missing::Dish(dish) => (
            say!(language, "order-know-dish", dish = dish.as_str()),
            Some("evenhand dish add".to_owned()),
        ),
        Missing::Covers(day) => (
            say!(
                language,
                "order-know-covers",
                day = times::day(language, *day)
            ),
            Some(format!("evenhand prep covers N --for {day}")),
        ),
        Missing::Past(dish) => (
            say!(language, "order-know-past", dish = dish.as_str()),
            None,
        ),
        Missing::OneNight(dish) => (
            say!(language, "order-know-one-night", dish = dish.as_str()),
            None,
        ),
        Missing::FewNights(dish, nights) => (
            say!(
                language,
                "order-know-few-nights",
                dish = dish.as_str(),
                nights = *nights,
                more = ENOUGH_NIGHTS.saturating_sub(*nights)
            ),
            None,
        ),
        Missing::Yield(dish) => (
            say!(language, "order-know-yield", dish = dish.as_str()),
            Some("evenhand yield lose".to_owned()),
        ),
        Missing::OneYield(dish) => (
            say!(language, "order-know-one-yield", dish = dish.as_str()),
            None,
        ),
        Missing::Batch(words) => (words.trim_end_matches('.').into(), None),
        Missing::OffMenu(name) => (
            say!(language, "order-know-off-menu", name = name.as_str()),
            None,
        ),
        Missing::NotCounted => (
            say!(language, "order-know-count"),
            Some(format!("evenhand prep count \"{goods}\" AMOUNT")),
        ),
        Missing::OldCount(count) => (
            say!(language, "order-know-count-again", count = *count),
            Some(format!("evenhand prep count \"{goods}\" AMOUNT")),
        ),
    };
    match command.filter(|_| remedies == Remedies::Typed) {
        Some(command) => say!(
            language,
            "order-know-typed",
            what = words.into_owned(),
            command = command
        )
        .into_owned(),
        None => words.into_owned(),
    }
}

/// The sheet as a page to print.
///
/// # Errors
/// [`PageError`] where it cannot be set.
pub fn order_pdf(
    language: Language,
    sheet: &OrderSheet,
    remedies: Remedies,
    zone: &TimeZone,
) -> Result<Vec<u8>, PageError> {
    let lines = order_words(language, sheet, remedies, zone);
    let title = lines.first().map_or("", |(_, words)| words.as_str());
    let pages = sheet::pages(&lines, |page, pages| {
        say!(language, "order-page", page = page, pages = pages).into_owned()
    });
    printing::pdf_in(A4, language, title, &pages)
}

/// The sheet as a table: a line for each of the goods, amounts in grams, millilitres or pieces.
///
/// # Errors
/// None that a sheet can cause; what the writer reports is handed on.
pub fn order_csv(sheet: &OrderSheet) -> Result<String, InputError> {
    let failed = |why: String| {
        InputError::new(
            "order",
            "",
            problem!("cannot-be-written", why = typed(why.to_string())),
            expected!("tell-maintainer"),
        )
    };
    let mut writer = csv::Writer::from_writer(Vec::new());
    let mut rows: Vec<Vec<String>> = vec![
        [
            "supplier",
            "order_by",
            "delivery",
            "goods",
            "pack",
            "packs_from",
            "packs_to",
            "likely",
            "enough",
            "in_hand_least",
            "in_hand_most",
            "cost",
            "to_know",
        ]
        .map(str::to_owned)
        .to_vec(),
    ];
    let number = |amount: Option<Amount>| {
        amount.map_or_else(String::new, |it| format!("{:.1}", it.number()))
    };
    for order in &sheet.suppliers {
        let by = order.delivery.and_then(|it| it.order_by);
        for line in &order.lines {
            let missing = line.missing.iter();
            let missing = missing
                .map(|it| missing_words(Language::English, it, &line.goods.name, Remedies::Typed));
            rows.push(vec![
                order.name.clone(),
                by.map_or_else(String::new, |by| by.to_string()),
                order
                    .delivery
                    .map_or_else(String::new, |it| it.day.to_string()),
                line.goods.name.clone(),
                line.goods.pack.to_string(),
                line.packs.from.to_string(),
                line.packs.to.map_or_else(String::new, |to| to.to_string()),
                number(line.need.likely),
                number(line.need.enough),
                number(Some(line.in_hand.least)),
                number(line.in_hand.most),
                line.cost.map_or_else(String::new, |cost| cost.to_string()),
                missing.collect::<Vec<_>>().join("; "),
            ]);
        }
    }
    rows.iter()
        .try_for_each(|row| writer.write_record(row))
        .map_err(|error| failed(error.to_string()))?;
    let bytes = writer
        .into_inner()
        .map_err(|error| failed(error.to_string()))?;
    String::from_utf8(bytes).map_err(|error| failed(error.to_string()))
}
