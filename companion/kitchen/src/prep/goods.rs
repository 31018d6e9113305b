//! What a kitchen buys: goods by supplier, in packs, and what each is for. A list of its own:
//! menus come and go, goods stay.

mod draft;

pub use draft::{GoodsDraft, GoodsKey, GoodsPlace, GoodsRefused, NewUse};

use super::file::{FileError, LONGEST_NAME, TIME_OF_DAY, WEEKDAYS, field, weekday};
use super::order::InHand;
use crate::portion::Struck;
use crate::toml_text;
use crate::units::{Amount, InputError, Measure, Money, mass_positive};
use crate::units::{Reason, typed};
use crate::written_name;
use crate::written_table::{self, ReadAs, TableOf};
use evenhand_protocol::Mass;
use jiff::civil::{Date, Time, Weekday};
use jiff::tz::TimeZone;
use jiff::{Timestamp, ToSpan};
use serde::{Deserialize, Serialize};

/// An order is placed at most so many days before its delivery.
const MOST_DAYS_BEFORE: u8 = 14;

const TABLE: TableOf = TableOf {
    field: "goods",
    longer: problem!("longer-than-goods"),
    headings: problem!("no-goods-headings"),
    longest: 1_000_000,
};

/// Who goods come from.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Supplier {
    /// The name.
    pub name: String,
    /// The days of the week on which it delivers; none where the list does not say.
    pub delivers: Vec<Weekday>,
    /// When a delivery comes.
    pub at: Option<Time>,
    /// Until when an order for a delivery is taken: so many days before it, at that time.
    pub order_by: Option<(u8, Time)>,
}

/// A delivery that can still be ordered.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct NextDelivery {
    /// Its day.
    pub day: Date,
    /// The day of the one after it.
    pub next: Date,
    /// Until when it can be ordered; `None` where the list does not say.
    pub order_by: Option<Timestamp>,
}

impl Supplier {
    /// The next delivery that can still be ordered at a moment. Where the list does not say until
    /// when, that is the one after today's. `None` where no delivery days are written.
    #[must_use]
    pub fn next_delivery(&self, now: Timestamp, zone: &TimeZone) -> Option<NextDelivery> {
        let today = now.to_zoned_datetime(zone.clone()).date();
        let days = |from: Date| {
            (0..=i32::from(MOST_DAYS_BEFORE) + 14)
                .filter_map(move |ahead| from.checked_add(ahead.days()).ok())
                .filter(|day| self.delivers.contains(&day.weekday()))
        };
        let (day, order_by) = days(today)
            .map(|day| (day, self.order_by_of(day, zone)))
            .find(|(day, order_by)| match order_by {
                Some(by) => *by > now,
                None => *day > today,
            })?;
        let next = days(day.tomorrow().ok()?).next()?;
        Some(NextDelivery {
            day,
            next,
            order_by,
        })
    }

    fn order_by_of(&self, delivery: Date, zone: &TimeZone) -> Option<Timestamp> {
        let (before, time) = self.order_by?;
        let day = delivery.checked_sub(i32::from(before).days()).ok()?;
        zone.to_timestamp(day.to_datetime(time)).ok()
    }

    /// Whether what is delivered on a day is there for the service that opens then.
    #[must_use]
    pub fn comes_before(&self, opens: Time) -> bool {
        self.at.is_none_or(|at| at < opens)
    }
}

/// What goods are for.
#[derive(Debug, Clone, PartialEq)]
pub enum UsedFor {
    /// Portions of a dish.
    Dish {
        /// The dish.
        dish: String,
        /// How much a portion takes, as bought; by the weight that is served and the yield on
        /// record where the list does not say.
        takes: Option<Amount>,
    },
    /// Batches of a preparation.
    Batch {
        /// The preparation.
        preparation: String,
        /// How much a batch takes, as bought.
        takes: Amount,
    },
    /// Guests, whatever they eat.
    Cover {
        /// How much a guest takes, as bought.
        takes: Amount,
    },
}

/// Something that is bought.
#[derive(Debug, Clone, PartialEq)]
pub struct Goods {
    /// What it is.
    pub name: String,
    /// Who it comes from.
    pub supplier: String,
    /// What a pack holds; whole packs are ordered.
    pub pack: Amount,
    /// What a pack costs.
    pub price: Option<Money>,
    /// What a piece weighs, of goods in pieces.
    pub piece: Option<Mass>,
    /// What it is for.
    pub uses: Vec<UsedFor>,
}

impl Goods {
    /// An amount in what the pack is counted in; `None` for one that cannot be said in it.
    #[must_use]
    pub fn in_packs_measure(&self, amount: Amount) -> Option<Amount> {
        match (amount.measure(), self.pack.measure(), self.piece) {
            (measure, packed, _) if measure == packed => Some(amount),
            (Measure::Mass, Measure::Pieces, Some(piece)) => Some(Amount::new(
                Measure::Pieces,
                amount.number() / piece.grams(),
            )),
            _ => None,
        }
    }
}

/// What was told of goods in hand.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(tag = "what", rename_all = "kebab-case")]
pub enum GoodsTold {
    /// So much was there, as bought.
    Counted {
        /// How much.
        amount: Amount,
    },
    /// So many packs were ordered.
    Ordered {
        /// How many.
        packs: u32,
        /// The day that they come.
        comes: Date,
    },
}

/// An order of goods as it was put down.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PlacedOrder {
    /// What the record calls it.
    pub number: u32,
    /// The goods, by their name in small letters.
    pub goods: String,
    /// When it was put down.
    pub at: Timestamp,
    /// How many packs.
    pub packs: u32,
    /// The day that they come.
    pub comes: Date,
    /// When and why it was taken back, where it was: it stays on record and counts no more.
    pub taken_back: Option<Struck>,
}

/// What is in hand of goods as bought, by what was told.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Counted {
    /// The last count, and when that was.
    pub count: Option<(Amount, Timestamp)>,
    /// How many services opened since.
    pub services_since: usize,
    /// Packs ordered that come after now.
    pub on_the_way: u32,
    /// What that comes to.
    pub in_hand: InHand,
}

impl Goods {
    /// What is in hand by what was told, in the order told, at a moment. `opened` is when services
    /// opened of late: what one took since the count is not known. What is ordered is there from
    /// `comes` on.
    #[must_use]
    pub fn in_hand(
        &self,
        told: &[(Timestamp, GoodsTold)],
        opened: &[Timestamp],
        comes: impl Fn(Date) -> Timestamp,
        now: Timestamp,
    ) -> Counted {
        let none = Amount::new(self.pack.measure(), 0.0);
        let count = told
            .iter()
            .filter_map(|(at, what)| match what {
                GoodsTold::Counted { amount } => Some((self.in_packs_measure(*amount)?, *at)),
                GoodsTold::Ordered { .. } => None,
            })
            .max_by_key(|(_, at)| *at);
        let since = |at: Timestamp| opened.iter().filter(|o| (at..=now).contains(*o)).count();
        let services_since = count.map_or(0, |(_, at)| since(at));
        let (mut least, mut most) = match count {
            Some((amount, _)) if services_since == 0 => (amount, Some(amount)),
            Some((amount, _)) => (none, Some(amount)),
            None => (none, None),
        };
        let mut on_the_way = 0u32;
        for (_, what) in told {
            let GoodsTold::Ordered { packs, comes: day } = what else {
                continue;
            };
            let at = comes(*day);
            if count.is_some_and(|(_, counted)| at <= counted) {
                continue;
            }
            let amount = self.pack.times(f64::from(*packs));
            let more = |to: Amount| Amount::new(to.measure(), to.number() + amount.number());
            if at > now {
                on_the_way = on_the_way.saturating_add(*packs);
            }
            if at > now || since(at) == 0 {
                least = more(least);
            }
            most = most.map(more);
        }
        Counted {
            count,
            services_since,
            on_the_way,
            in_hand: InHand { least, most },
        }
    }
}

/// What a kitchen buys.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct GoodsList {
    /// The suppliers of whom anything is written.
    pub suppliers: Vec<Supplier>,
    /// The goods, in the order of the list.
    pub goods: Vec<Goods>,
    written: Written,
}

#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Written {
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    supplier: Vec<SupplierEntry>,
    #[serde(default)]
    goods: Vec<GoodsEntry>,
}

#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct SupplierEntry {
    name: String,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    delivers: Vec<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    at: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    order_by: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    days_before: Option<u8>,
    #[serde(skip)]
    line: Option<u64>,
}

#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct GoodsEntry {
    name: String,
    supplier: String,
    pack: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    price: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    piece: Option<String>,
    #[serde(rename = "for")]
    uses: Vec<UseEntry>,
    #[serde(skip)]
    line: Option<u64>,
}

#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct UseEntry {
    #[serde(skip_serializing_if = "Option::is_none")]
    dish: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    batch: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    takes: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    per_cover: Option<String>,
    #[serde(skip)]
    line: Option<u64>,
}

/// Where something of a list stands: its line in a table, else its name.
fn place(line: Option<u64>, name: &str) -> String {
    line.map_or_else(|| name.to_owned(), |line| format!("line {line}"))
}

fn name(place: &str, of: &'static str, text: &str) -> Result<String, FileError> {
    let read = written_name::name(of, text, LONGEST_NAME, "hogget neck").ok();
    field(read, place, of, text, expected!("name-of-file"))
}

const AMOUNT: Reason = expected!("amount-of-pack");

impl SupplierEntry {
    fn read(&self) -> Result<Supplier, FileError> {
        let place = place(self.line, &self.name);
        let time = |of, text: &Option<String>| {
            let text = text.as_deref();
            text.map(|text| {
                field(
                    text.trim().parse::<Time>().ok(),
                    &place,
                    of,
                    text,
                    TIME_OF_DAY,
                )
            })
            .transpose()
        };
        let delivers = self
            .delivers
            .iter()
            .map(|day| field(weekday(day.trim()), &place, "delivers", day, WEEKDAYS))
            .collect::<Result<Vec<_>, _>>()?;
        let order_by = time("order_by", &self.order_by)?;
        if let (None, Some(before)) = (order_by, self.days_before) {
            return field(
                None,
                &place,
                "days_before",
                &before.to_string(),
                expected!("days-before"),
            );
        }
        let before = self.days_before.unwrap_or(1);
        let before = field(
            (before <= MOST_DAYS_BEFORE).then_some(before),
            &place,
            "days_before",
            &before.to_string(),
            expected!("days-before"),
        )?;
        Ok(Supplier {
            name: name(&place, "supplier", &self.name)?,
            delivers,
            at: time("at", &self.at)?,
            order_by: order_by.map(|time| (before, time)),
        })
    }
}

impl GoodsEntry {
    fn read(&self) -> Result<Goods, FileError> {
        let place = place(self.line, &self.name);
        let pack = Amount::parse("pack", &self.pack).ok();
        let price = self.price.as_deref().map(|text| {
            let price = Money::parse("price", text).ok();
            field(price, &place, "price", text, expected!("price-of-pack"))
        });
        let piece = self.piece.as_deref().map(|text| {
            let mass = mass_positive("piece", text).ok();
            field(mass, &place, "piece", text, expected!("piece"))
        });
        let goods = Goods {
            name: name(&place, "goods", &self.name)?,
            supplier: name(&place, "supplier", &self.supplier)?,
            pack: field(pack, &place, "pack", &self.pack, AMOUNT)?,
            price: price.transpose()?,
            piece: piece.transpose()?,
            uses: Vec::new(),
        };
        if let (Some(piece), true) = (&self.piece, goods.pack.measure() != Measure::Pieces) {
            return field(None, &place, "piece", piece, expected!("piece"));
        }
        if self.uses.is_empty() {
            return field(None, &place, "for", "", expected!("for"));
        }
        let uses = self.uses.iter().map(|one| one.read(&place, &goods));
        let uses = uses.collect::<Result<Vec<_>, _>>()?;
        Ok(Goods { uses, ..goods })
    }
}

impl UseEntry {
    fn read(&self, of: &str, goods: &Goods) -> Result<UsedFor, FileError> {
        let place = place(self.line, of);
        let amount = |of: &'static str, text: &str| {
            let amount = field(Amount::parse(of, text).ok(), &place, of, text, AMOUNT)?;
            field(
                goods.in_packs_measure(amount),
                &place,
                of,
                text,
                expected!("amount-of-pack"),
            )
        };
        let takes = self.takes.as_deref().map(|text| amount("takes", text));
        match (&self.dish, &self.batch, &self.per_cover) {
            (Some(dish), None, None) => {
                let takes = takes.transpose()?;
                let weighed = Amount::new(Measure::Mass, 1.0);
                if takes.is_none() && goods.in_packs_measure(weighed).is_none() {
                    return field(None, &place, "takes", "", expected!("amount-of-pack"));
                }
                Ok(UsedFor::Dish {
                    dish: name(&place, "dish", dish)?,
                    takes,
                })
            }
            (None, Some(batch), None) => {
                let preparation = name(&place, "batch", batch)?;
                let takes = takes.unwrap_or_else(|| {
                    field(None, &place, "takes", "", expected!("amount-of-pack"))
                })?;
                Ok(UsedFor::Batch { preparation, takes })
            }
            (None, None, Some(each)) => match &self.takes {
                Some(takes) => field(None, &place, "takes", takes, expected!("for")),
                None => Ok(UsedFor::Cover {
                    takes: amount("per_cover", each)?,
                }),
            },
            _ => field(None, &place, "for", "none or several", expected!("for")),
        }
    }
}

impl GoodsList {
    /// Reads a list's TOML.
    ///
    /// # Errors
    /// [`FileError`] naming the place, the field, the value and what was expected.
    pub fn from_toml(text: &str) -> Result<Self, FileError> {
        let written: Written =
            toml::from_str(text).map_err(|error| FileError::Goods(toml_text::why(text, &error)))?;
        Self::of(written)
    }

    fn of(written: Written) -> Result<Self, FileError> {
        let suppliers = written.supplier.iter().map(SupplierEntry::read);
        let suppliers = suppliers.collect::<Result<Vec<_>, _>>()?;
        let goods = written.goods.iter().map(GoodsEntry::read);
        let goods = goods.collect::<Result<Vec<_>, _>>()?;
        let same = |one: &str, other: &str| one.to_lowercase() == other.to_lowercase();
        for (n, (entry, supplier)) in written.supplier.iter().zip(&suppliers).enumerate() {
            if suppliers
                .iter()
                .take(n)
                .any(|it| same(&it.name, &supplier.name))
            {
                let place = place(entry.line, &entry.name);
                return field(
                    None,
                    &place,
                    "supplier",
                    &entry.name,
                    expected!("name-once"),
                );
            }
        }
        let mut by_yield: Vec<&str> = Vec::new();
        for (n, (entry, one)) in written.goods.iter().zip(&goods).enumerate() {
            let place = place(entry.line, &entry.name);
            if goods.iter().take(n).any(|it| same(&it.name, &one.name)) {
                return field(None, &place, "goods", &entry.name, expected!("name-once"));
            }
            for used in &one.uses {
                let UsedFor::Dish { dish, takes: None } = used else {
                    continue;
                };
                if by_yield.iter().any(|it| same(it, dish)) {
                    return field(None, &place, "dish", dish, expected!("takes-beside"));
                }
                by_yield.push(dish);
            }
        }
        let mut written = written;
        for entry in &mut written.supplier {
            entry.line = None;
        }
        for entry in &mut written.goods {
            entry.line = None;
            for used in &mut entry.uses {
                used.line = None;
            }
        }
        Ok(Self {
            suppliers,
            goods,
            written,
        })
    }

    /// Writes it as TOML; reading it gives the same list.
    ///
    /// # Errors
    /// None that a list can cause; what the writer reports is handed on.
    pub fn to_toml(&self) -> Result<String, InputError> {
        toml::to_string(&self.written).map_err(|error| cannot_be_written(&error.to_string()))
    }

    /// The supplier of that name, in any case, where anything is written of it.
    #[must_use]
    pub fn supplier(&self, name: &str) -> Option<&Supplier> {
        let known = |it: &&Supplier| it.name.to_lowercase() == name.to_lowercase();
        self.suppliers.iter().find(known)
    }

    /// The goods of that name, in any case.
    #[must_use]
    pub fn goods(&self, name: &str) -> Option<&Goods> {
        let name = written_name::one_spelling(name).to_lowercase();
        self.goods.iter().find(|it| it.name.to_lowercase() == name)
    }
}

fn cannot_be_written(why: &str) -> InputError {
    InputError::new(
        "goods",
        "",
        problem!("cannot-be-written", why = typed(why.to_string())),
        expected!("tell-maintainer"),
    )
}

/// The columns of a table. A line with goods says one thing that they are for; what it says of
/// the pack may stand on the first line alone. A line without goods is of the supplier.
const HEADINGS: [&str; 13] = [
    "supplier",
    "delivers",
    "at",
    "order_by",
    "days_before",
    "goods",
    "pack",
    "price",
    "piece",
    "dish",
    "batch",
    "takes",
    "per_cover",
];

/// The columns with amounts: of a pack, its price, a piece, a portion or batch, and a guest.
const MEASURED: [usize; 5] = [6, 7, 8, 11, 12];

impl GoodsList {
    /// Reads a list's table, as [`GoodsList::to_csv`] writes it.
    ///
    /// # Errors
    /// What is refused is named by its line, with what was expected.
    pub fn from_csv(table: &str) -> Result<Self, InputError> {
        Self::from_csv_as(table).map(|(list, _)| list)
    }

    /// As [`GoodsList::from_csv`], with how the table was read.
    ///
    /// # Errors
    /// As for [`GoodsList::from_csv`].
    pub fn from_csv_as(table: &str) -> Result<(Self, ReadAs), InputError> {
        let (mut read_as, mut reader) =
            written_table::open(table, &HEADINGS, &TABLE, &mut csv::ReaderBuilder::new())?;
        let mut written = Written::default();
        for row in reader.records() {
            let row = row.map_err(|error| {
                let line = error.position().map_or(0, csv::Position::line);
                InputError::new(
                    &format!("line {line}"),
                    "",
                    problem!("no-line-of-table"),
                    expected!("columns", count = HEADINGS.len()),
                )
            })?;
            let line = row.position().map_or(0, csv::Position::line);
            let row: csv::StringRecord = row
                .iter()
                .enumerate()
                .map(|(place, cell)| {
                    if MEASURED.contains(&place) {
                        read_as.numbers(cell)
                    } else {
                        cell.to_owned()
                    }
                })
                .collect();
            add_row(&mut written, &row, line)?;
        }
        let list = Self::of(written).map_err(|error| match error {
            FileError::Field {
                place,
                field,
                value,
                expected,
            } => {
                let problem = problem!("senseless-as", given = typed(value), key = field);
                InputError::new(&place, "", problem, *expected)
            }
            other => InputError::new("goods", "", other.reason(), expected!("see-page-goods")),
        })?;
        Ok((list, read_as))
    }

    /// Writes a list's table; reading it gives the same list.
    ///
    /// # Errors
    /// None that a list can cause; what the writer reports is handed on.
    pub fn to_csv(&self) -> Result<String, InputError> {
        let mut writer = csv::Writer::from_writer(Vec::new());
        let mut rows: Vec<[String; 13]> = vec![HEADINGS.map(str::to_owned)];
        let said = |text: &Option<String>| text.clone().unwrap_or_default();
        for one in &self.written.supplier {
            let mut row: [String; 13] = Default::default();
            row[0].clone_from(&one.name);
            row[1] = one.delivers.join(" ");
            row[2] = said(&one.at);
            row[3] = said(&one.order_by);
            row[4] = one.days_before.map_or_else(String::new, |n| n.to_string());
            rows.push(row);
        }
        for one in &self.written.goods {
            for (n, used) in one.uses.iter().enumerate() {
                let mut row: [String; 13] = Default::default();
                row[5].clone_from(&one.name);
                if n == 0 {
                    row[0].clone_from(&one.supplier);
                    row[6].clone_from(&one.pack);
                    row[7] = said(&one.price);
                    row[8] = said(&one.piece);
                }
                row[9] = said(&used.dish);
                row[10] = said(&used.batch);
                row[11] = said(&used.takes);
                row[12] = said(&used.per_cover);
                rows.push(row);
            }
        }
        rows.iter()
            .try_for_each(|row| writer.write_record(row))
            .map_err(|error| cannot_be_written(&error.to_string()))?;
        let bytes = writer
            .into_inner()
            .map_err(|error| cannot_be_written(&error.to_string()))?;
        String::from_utf8(bytes).map_err(|error| cannot_be_written(&error.to_string()))
    }
}

fn add_row(written: &mut Written, row: &csv::StringRecord, line: u64) -> Result<(), InputError> {
    let cell = |place: usize| row.get(place).unwrap_or_default().trim();
    let said = |place: usize| (!cell(place).is_empty()).then(|| cell(place).to_owned());
    let wrong = |place: usize, problem: Reason, expected: Reason| {
        let heading = HEADINGS.get(place).copied().unwrap_or_default();
        Err(InputError::new(
            &format!("line {line}, column {heading}"),
            cell(place),
            problem,
            expected,
        ))
    };
    if (0..HEADINGS.len()).all(|place| said(place).is_none()) {
        return Ok(());
    }
    if said(5).is_none() {
        if let Some(place) = (6..HEADINGS.len()).find(|place| said(*place).is_some()) {
            return wrong(place, problem!("beside-no-goods"), expected!("goods-too"));
        }
        let days_before = match said(4).map(|text| text.parse::<u8>()) {
            None => None,
            Some(Ok(days)) => Some(days),
            Some(Err(_)) => {
                return wrong(4, problem!("no-number-of-days"), expected!("whole-days"));
            }
        };
        written.supplier.push(SupplierEntry {
            name: cell(0).to_owned(),
            delivers: cell(1).split_whitespace().map(str::to_owned).collect(),
            at: said(2),
            order_by: said(3),
            days_before,
            line: Some(line),
        });
        return Ok(());
    }
    if let Some(place) = (1..5).find(|place| said(*place).is_some()) {
        return wrong(
            place,
            problem!("supplier-beside-goods"),
            expected!("supplier-line"),
        );
    }
    let used = UseEntry {
        dish: said(9),
        batch: said(10),
        takes: said(11),
        per_cover: said(12),
        line: Some(line),
    };
    let goods = cell(5);
    let known = written.goods.iter_mut().find(|it| it.name == goods);
    if let Some(known) = known {
        // What is said again must be the same.
        let of_pack = [
            (0, Some(&known.supplier)),
            (6, Some(&known.pack)),
            (7, known.price.as_ref()),
            (8, known.piece.as_ref()),
        ];
        for (place, before) in of_pack {
            if said(place).is_some_and(|now| Some(&now) != before) {
                return wrong(place, problem!("otherwise-above"), expected!("there-alone"));
            }
        }
        known.uses.push(used);
        return Ok(());
    }
    written.goods.push(GoodsEntry {
        name: goods.to_owned(),
        supplier: cell(0).to_owned(),
        pack: cell(6).to_owned(),
        price: said(7),
        piece: said(8),
        uses: vec![used],
        line: Some(line),
    });
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use jiff::civil::date;

    fn example(language: &str) -> &'static str {
        let page = include_str!("../../../MENU.md");
        let (_, goods) = page.split_once("## What the kitchen buys").unwrap();
        let (_, text) = goods.split_once(&format!("```{language}\n")).unwrap();
        text.split_once("```").unwrap().0
    }

    #[test]
    fn the_example_is_a_list_in_either_form() {
        let list = GoodsList::from_toml(example("toml")).unwrap();
        assert_eq!((list.suppliers.len(), list.goods.len()), (2, 4));
        assert_eq!(
            list.goods("Shallots").unwrap().uses,
            [UsedFor::Batch {
                preparation: "pickled shallots".to_owned(),
                takes: Amount::new(Measure::Mass, 1_800.0),
            }]
        );
        let table = list.to_csv().unwrap();
        assert_eq!(GoodsList::from_csv(&table).unwrap(), list, "{table}");
        let again = GoodsList::from_toml(&list.to_toml().unwrap()).unwrap();
        assert_eq!(again, list);
        GoodsList::from_csv(example("csv")).unwrap();
    }

    // As a spreadsheet of Madrid or Paris writes it.
    #[test]
    fn a_table_with_semicolons_and_decimal_commas_is_the_same_list() {
        let headings = HEADINGS.join(",");
        let row = "Quay House,,,,,bream,2.5 kg,41.50 EUR,,Bream,,0.18 kg,";
        let with_commas = format!("{headings}\n{row}\n");
        let list = GoodsList::from_csv(&with_commas).unwrap();
        assert_eq!(list.goods[0].pack, Amount::new(Measure::Mass, 2_500.0));
        let theirs = with_commas.replace(',', ";").replace('.', ",");
        let (read, read_as) = GoodsList::from_csv_as(&format!("\u{feff}{theirs}")).unwrap();
        assert_eq!((read, read_as.decimal_commas), (list, 3));
        assert!(read_as.byte_order_mark);
    }

    // 4 May 2026 is a Monday.
    #[test]
    fn the_next_delivery_is_one_that_can_still_be_ordered() {
        let list = GoodsList::from_toml(example("toml")).unwrap();
        let quay = list.supplier("quay house").unwrap();
        assert_eq!(quay.delivers, [Weekday::Tuesday, Weekday::Friday]);
        let at = |text: &str| {
            let next = quay
                .next_delivery(text.parse().unwrap(), &TimeZone::UTC)
                .unwrap();
            (next.day, next.next, next.order_by.unwrap().to_string())
        };
        let by = |text: &str| text.to_owned();
        assert_eq!(
            at("2026-05-04T15:59:00Z"),
            (
                date(2026, 5, 5),
                date(2026, 5, 8),
                by("2026-05-04T16:00:00Z")
            )
        );
        assert_eq!(
            at("2026-05-04T16:01:00Z"),
            (
                date(2026, 5, 8),
                date(2026, 5, 12),
                by("2026-05-07T16:00:00Z")
            )
        );
    }

    // By hand: 10 pieces on Monday; 2 packs of 5 ordered for Wednesday.
    #[test]
    fn a_count_holds_until_a_service_opens() {
        let goods = Goods {
            name: "eggs".to_owned(),
            supplier: "Lower Field".to_owned(),
            pack: Amount::parse("pack", "5 pieces").unwrap(),
            price: None,
            piece: None,
            uses: Vec::new(),
        };
        let at = |text: &str| -> Timestamp { format!("2026-05-{text}:00Z").parse().unwrap() };
        let amount = Amount::parse("count", "10 pieces").unwrap();
        let told = [
            (at("04T10:00"), GoodsTold::Counted { amount }),
            (
                at("04T10:05"),
                GoodsTold::Ordered {
                    packs: 2,
                    comes: date(2026, 5, 6),
                },
            ),
        ];
        let comes = |day: Date| TimeZone::UTC.to_timestamp(day.at(9, 0, 0, 0)).unwrap();
        let opened = [at("03T18:00"), at("04T18:00"), at("06T18:00")];
        let hand = |now: &str| {
            let counted = goods.in_hand(&told, &opened, comes, at(now));
            let hand = counted.in_hand;
            (
                hand.least.number(),
                hand.most.map(Amount::number),
                counted.on_the_way,
            )
        };
        assert_eq!(hand("04T12:00"), (20.0, Some(20.0), 2));
        // Monday's service took some of the ten.
        assert_eq!(hand("05T12:00"), (10.0, Some(20.0), 2));
        assert_eq!(hand("06T12:00"), (10.0, Some(20.0), 0));
        assert_eq!(hand("07T12:00"), (0.0, Some(20.0), 0));
        let nothing = goods.in_hand(&[], &opened, comes, at("05T12:00"));
        assert_eq!(nothing.in_hand.most, None);
    }

    #[test]
    fn what_is_refused_is_named() {
        let text = example("toml");
        for (from, to, named) in [
            ("delivers = [\"tue\"", "delivers = [\"mardi\"", "delivers"),
            ("order_by = \"16:00\"", "order_by = \"late\"", "order_by"),
            ("days_before = 1", "days_before = 90", "days_before"),
            ("pack = \"5 kg\"", "pack = \"5\"", "pack"),
            ("pack = \"5 kg\"", "pack = \"5 boxes\"", "pack"),
            ("pack = \"5 kg\"", "pack = \"5 l\"", "takes"),
            ("price = \"62.50 EUR\"", "price = \"62.50\"", "price"),
            ("takes = \"1.8 kg\"", "takes = \"1.8 l\"", "takes"),
            ("takes = \"1.8 kg\"", "takes = \"0 kg\"", "takes"),
            ("per_cover = \"15 g\"", "per_cover = \"15 ml\"", "per_cover"),
            ("{ per_cover = \"15 g\" }", "{ }", "for"),
            ("name = \"butter\"", "name = \"shallots\"", "goods"),
            ("name = \"butter\"", "nam = \"butter\"", "nam"),
        ] {
            assert!(text.contains(from), "{from}");
            let error = GoodsList::from_toml(&text.replacen(from, to, 1)).unwrap_err();
            assert!(error.to_string().contains(named), "{to}: {error}");
        }
        let table = example("csv");
        for (from, to, place) in [
            ("5 kg", "5", "line 4"),
            ("tue fri", "tue wen", "line 2"),
            ("1.8 kg", "1.8 l", "line 5"),
            ("supplier,", "from,", "line 1"),
        ] {
            assert!(table.contains(from), "{from}");
            let error = GoodsList::from_csv(&table.replacen(from, to, 1)).unwrap_err();
            assert_eq!(error.field(), place, "{to}: {error}");
        }
    }

    #[test]
    fn a_weight_of_goods_in_pieces_is_said_by_what_one_weighs() {
        let list = GoodsList::from_toml(
            "[[goods]]\nname = 'bream'\nsupplier = 'Quay House'\npack = '6 pieces'\n\
             piece = '450 g'\nfor = [{ dish = 'Bream' }]\n",
        );
        let list = list.unwrap();
        let bream = list.goods("BREAM").unwrap();
        let weighed = Amount::new(Measure::Mass, 2_700.0);
        assert_eq!(bream.in_packs_measure(weighed).unwrap().number(), 6.0);
    }
}
