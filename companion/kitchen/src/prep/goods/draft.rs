//! A list of goods being written: each thing is checked as it is said, and all of it before it
//! is kept.

use super::{
    AMOUNT, Amount, FileError, Goods, GoodsEntry, GoodsList, LONGEST_NAME, MOST_DAYS_BEFORE,
    SupplierEntry, TIME_OF_DAY, UseEntry, Written, written_name,
};
use crate::units::Reason;
use crate::units::{InputError, Money, mass_positive};
use jiff::civil::{Time, Weekday};

/// The days of the week as a list writes them.
const DAYS: [(&str, Weekday); 7] = [
    ("mon", Weekday::Monday),
    ("tue", Weekday::Tuesday),
    ("wed", Weekday::Wednesday),
    ("thu", Weekday::Thursday),
    ("fri", Weekday::Friday),
    ("sat", Weekday::Saturday),
    ("sun", Weekday::Sunday),
];

/// A thing of a list of goods, by its number among its like.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum GoodsPlace {
    /// A supplier.
    Supplier(usize),
    /// Goods.
    Goods(usize),
    /// One thing that goods are for.
    Use(usize, usize),
}

/// What can be said of a thing of a list of goods.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum GoodsKey {
    /// What it is called.
    Name,
    /// The days on which a supplier delivers.
    Delivers,
    /// When a delivery comes.
    At,
    /// Until what time an order is taken.
    OrderBy,
    /// How many days before the delivery that is.
    DaysBefore,
    /// Who goods come from.
    Supplier,
    /// What a pack holds.
    Pack,
    /// What a pack costs.
    Price,
    /// What a piece weighs.
    Piece,
    /// What goods are for, at all.
    For,
    /// The dish that they are for.
    Dish,
    /// The preparation that they are for.
    Batch,
    /// How much a portion or a batch takes.
    Takes,
    /// How much a guest takes.
    PerCover,
}

/// What goods are newly for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum NewUse {
    /// Portions of a dish, by its name.
    Dish,
    /// Batches of a preparation, by its name.
    Batch,
    /// Guests, by how much each takes.
    Cover,
}

/// Why a list as a whole cannot be kept, and where that is said.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{error}")]
pub struct GoodsRefused {
    /// Why.
    pub error: FileError,
    /// The thing and what is said of it, where one can be named.
    pub at: Option<(GoodsPlace, GoodsKey)>,
}

/// A list of goods being written.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct GoodsDraft {
    written: Written,
}

fn key_of(field: &str, place: GoodsPlace) -> GoodsKey {
    match (field, place) {
        ("delivers", _) => GoodsKey::Delivers,
        ("at", _) => GoodsKey::At,
        ("order_by", _) => GoodsKey::OrderBy,
        ("days_before", _) => GoodsKey::DaysBefore,
        ("supplier", GoodsPlace::Goods(_)) => GoodsKey::Supplier,
        ("pack", _) => GoodsKey::Pack,
        ("price", _) => GoodsKey::Price,
        ("piece", _) => GoodsKey::Piece,
        ("for", _) => GoodsKey::For,
        ("dish", _) => GoodsKey::Dish,
        ("batch", _) => GoodsKey::Batch,
        ("takes", _) => GoodsKey::Takes,
        ("per_cover", _) => GoodsKey::PerCover,
        _ => GoodsKey::Name,
    }
}

fn refused_at(place: GoodsPlace, error: FileError) -> GoodsRefused {
    let at = match &error {
        FileError::Field { field, .. } => Some((place, key_of(field, place))),
        _ => None,
    };
    GoodsRefused { error, at }
}

fn same(one: &str, other: &str) -> bool {
    one.to_lowercase() == other.to_lowercase()
}

impl GoodsDraft {
    /// An empty one.
    #[must_use]
    pub fn new() -> Self {
        Self::default()
    }

    /// One that says what a list does. Whoever goods come from is one of its suppliers.
    #[must_use]
    pub fn of(list: &GoodsList) -> Self {
        let mut draft = Self {
            written: list.written.clone(),
        };
        for goods in &list.goods {
            draft.know_supplier(&goods.supplier);
        }
        draft
    }

    /// Checks it whole.
    ///
    /// # Errors
    /// [`GoodsRefused`]: what is wrong first, and where.
    pub fn written(&self) -> Result<GoodsList, GoodsRefused> {
        for (n, entry) in self.written.supplier.iter().enumerate() {
            let read = entry.read();
            read.map_err(|error| refused_at(GoodsPlace::Supplier(n), error))?;
        }
        for (n, entry) in self.written.goods.iter().enumerate() {
            for (u, one) in entry.uses.iter().enumerate() {
                let alone = GoodsEntry {
                    uses: vec![one.clone()],
                    ..entry.clone()
                };
                alone.read().map_err(|error| {
                    let of_use = match &error {
                        FileError::Field { field, .. } => {
                            matches!(*field, "dish" | "batch" | "takes" | "per_cover")
                        }
                        _ => false,
                    };
                    let place = if of_use {
                        GoodsPlace::Use(n, u)
                    } else {
                        GoodsPlace::Goods(n)
                    };
                    refused_at(place, error)
                })?;
            }
            let read = entry.read();
            read.map_err(|error| refused_at(GoodsPlace::Goods(n), error))?;
        }
        GoodsList::of(self.written.clone()).map_err(|error| {
            let at = match &error {
                FileError::Field { field, value, .. } => self.second(field, value),
                _ => None,
            };
            GoodsRefused { error, at }
        })
    }

    /// Where something stands that is there already.
    fn second(&self, field: &str, value: &str) -> Option<(GoodsPlace, GoodsKey)> {
        let name = |text: &str| same(text, value);
        Some(match field {
            "supplier" => {
                let nth = self
                    .written
                    .supplier
                    .iter()
                    .rposition(|it| name(&it.name))?;
                (GoodsPlace::Supplier(nth), GoodsKey::Name)
            }
            "goods" => {
                let nth = self.written.goods.iter().rposition(|it| name(&it.name))?;
                (GoodsPlace::Goods(nth), GoodsKey::Name)
            }
            _ => {
                let by_yield =
                    |it: &UseEntry| it.takes.is_none() && it.dish.as_deref().is_some_and(name);
                let goods = &self.written.goods;
                let n = goods.iter().rposition(|it| it.uses.iter().any(by_yield))?;
                let u = goods.get(n)?.uses.iter().rposition(by_yield)?;
                (GoodsPlace::Use(n, u), GoodsKey::Takes)
            }
        })
    }

    /// The suppliers.
    pub fn suppliers(&self) -> impl Iterator<Item = &str> {
        self.written.supplier.iter().map(|it| it.name.as_str())
    }

    /// The goods, each with who it comes from.
    pub fn goods(&self) -> impl Iterator<Item = (&str, &str)> {
        let goods = self.written.goods.iter();
        goods.map(|it| (it.name.as_str(), it.supplier.as_str()))
    }

    /// How many things goods are for.
    #[must_use]
    pub fn uses(&self, goods: usize) -> usize {
        self.written.goods.get(goods).map_or(0, |it| it.uses.len())
    }

    /// Which kind of thing goods are for.
    #[must_use]
    pub fn kind_of(&self, goods: usize, used: usize) -> Option<NewUse> {
        let used = self.written.goods.get(goods)?.uses.get(used)?;
        Some(match (&used.dish, &used.batch) {
            (Some(_), _) => NewUse::Dish,
            (_, Some(_)) => NewUse::Batch,
            _ => NewUse::Cover,
        })
    }

    /// What is said of a thing; `None` where nothing is.
    #[must_use]
    pub fn said(&self, place: GoodsPlace, key: GoodsKey) -> Option<String> {
        let written = &self.written;
        match place {
            GoodsPlace::Supplier(n) => {
                let it = written.supplier.get(n)?;
                match key {
                    GoodsKey::Name => Some(it.name.clone()),
                    GoodsKey::At => it.at.clone(),
                    GoodsKey::OrderBy => it.order_by.clone(),
                    GoodsKey::DaysBefore => it.days_before.map(|days| days.to_string()),
                    GoodsKey::Delivers => (!it.delivers.is_empty()).then(|| it.delivers.join(" ")),
                    _ => None,
                }
            }
            GoodsPlace::Goods(n) => {
                let it = written.goods.get(n)?;
                let some = |text: &String| (!text.is_empty()).then(|| text.clone());
                match key {
                    GoodsKey::Name => Some(it.name.clone()),
                    GoodsKey::Supplier => some(&it.supplier),
                    GoodsKey::Pack => some(&it.pack),
                    GoodsKey::Price => it.price.clone(),
                    GoodsKey::Piece => it.piece.clone(),
                    _ => None,
                }
            }
            GoodsPlace::Use(n, u) => {
                let it = written.goods.get(n)?.uses.get(u)?;
                match key {
                    GoodsKey::Dish => it.dish.clone(),
                    GoodsKey::Batch => it.batch.clone(),
                    GoodsKey::Takes => it.takes.clone(),
                    GoodsKey::PerCover => it.per_cover.clone(),
                    _ => None,
                }
            }
        }
    }

    /// Says something of a thing, checked by itself; nothing takes back what may be left out.
    ///
    /// # Errors
    /// [`InputError`]: what was expected; the draft is as it was.
    pub fn say(&mut self, place: GoodsPlace, key: GoodsKey, text: &str) -> Result<(), InputError> {
        let text = text.trim();
        let said = (!text.is_empty()).then(|| text.to_owned());
        let must =
            |expected: Reason| InputError::new("goods", text, problem!("not-said"), expected);
        match (place, key) {
            (GoodsPlace::Supplier(n), GoodsKey::Name) => {
                let name = self.new_supplier_name(text, Some(n))?;
                if let Some(it) = self.written.supplier.get_mut(n) {
                    let before = std::mem::replace(&mut it.name, name.clone());
                    for goods in &mut self.written.goods {
                        if same(&goods.supplier, &before) {
                            goods.supplier.clone_from(&name);
                        }
                    }
                }
            }
            (GoodsPlace::Supplier(n), GoodsKey::At | GoodsKey::OrderBy) => {
                let time = said.map(|text| one_time(&text)).transpose()?;
                if let Some(it) = self.written.supplier.get_mut(n) {
                    if key == GoodsKey::At {
                        it.at = time;
                    } else {
                        // So many days before stands beside it alone.
                        it.days_before = it.days_before.filter(|_| time.is_some());
                        it.order_by = time;
                    }
                }
            }
            (GoodsPlace::Supplier(n), GoodsKey::DaysBefore) => {
                let days = said
                    .map(|text| {
                        let days = text.parse().ok().filter(|days| *days <= MOST_DAYS_BEFORE);
                        days.ok_or_else(|| {
                            let expected = expected!("whole-days");
                            InputError::new(
                                "days_before",
                                &text,
                                problem!("no-such-number"),
                                expected,
                            )
                        })
                    })
                    .transpose()?;
                if let Some(it) = self.written.supplier.get_mut(n) {
                    it.days_before = days;
                }
            }
            (GoodsPlace::Goods(n), GoodsKey::Name) => {
                let name = self.new_goods_name(text, Some(n))?;
                if let Some(it) = self.written.goods.get_mut(n) {
                    it.name = name;
                }
            }
            (GoodsPlace::Goods(n), GoodsKey::Supplier) => {
                let name = name_of("supplier", text)?;
                let name = self.know_supplier(&name);
                if let Some(it) = self.written.goods.get_mut(n) {
                    it.supplier = name;
                }
            }
            (GoodsPlace::Goods(n), GoodsKey::Pack) => {
                let pack = said.ok_or_else(|| must(AMOUNT))?;
                Amount::parse("pack", &pack)?;
                if let Some(it) = self.written.goods.get_mut(n) {
                    it.pack = pack;
                }
            }
            (GoodsPlace::Goods(n), GoodsKey::Price) => {
                if let Some(price) = &said {
                    Money::parse("price", price)?;
                }
                if let Some(it) = self.written.goods.get_mut(n) {
                    it.price = said;
                }
            }
            (GoodsPlace::Goods(n), GoodsKey::Piece) => {
                if let Some(piece) = &said {
                    mass_positive("piece", piece)?;
                }
                if let Some(it) = self.written.goods.get_mut(n) {
                    it.piece = said;
                }
            }
            (GoodsPlace::Use(n, u), key) => {
                let said = match (key, said) {
                    (GoodsKey::Dish, Some(text)) => Some(name_of("dish", &text)?),
                    (GoodsKey::Batch, Some(text)) => Some(name_of("batch", &text)?),
                    (GoodsKey::Dish | GoodsKey::Batch, None) => {
                        return Err(must(expected!("a-name")));
                    }
                    (GoodsKey::PerCover, None) => return Err(must(AMOUNT)),
                    (_, Some(text)) => {
                        Amount::parse("takes", &text)?;
                        Some(text)
                    }
                    (_, None) => None,
                };
                let goods = self.written.goods.get_mut(n);
                if let Some(it) = goods.and_then(|goods| goods.uses.get_mut(u)) {
                    match key {
                        GoodsKey::Dish => it.dish = said,
                        GoodsKey::Batch => it.batch = said,
                        GoodsKey::Takes => it.takes = said,
                        GoodsKey::PerCover => it.per_cover = said,
                        _ => {}
                    }
                }
            }
            _ => {}
        }
        Ok(())
    }

    /// Whether a supplier delivers on a day of the week, Monday being the first.
    #[must_use]
    pub fn delivers(&self, supplier: usize, day: usize) -> bool {
        let day = DAYS.get(day);
        let known = self.written.supplier.get(supplier).zip(day);
        known.is_some_and(|(it, day)| listed(it, *day))
    }

    /// A supplier delivers on a day of the week, or no longer.
    pub fn turn_delivers(&mut self, supplier: usize, day: usize) {
        let known = self.written.supplier.get_mut(supplier);
        let Some((it, day)) = known.zip(DAYS.get(day)) else {
            return;
        };
        let is = listed(it, *day);
        it.delivers = DAYS
            .iter()
            .filter(|known| (*known == day) != listed(it, **known))
            .map(|(word, _)| (*word).to_owned())
            .collect();
        debug_assert_ne!(is, listed(it, *day));
    }

    fn new_supplier_name(&self, text: &str, of: Option<usize>) -> Result<String, InputError> {
        let name = name_of("supplier", text)?;
        let mut others = self.written.supplier.iter().enumerate();
        if others.any(|(n, it)| Some(n) != of && same(&it.name, &name)) {
            return Err(taken("supplier", text));
        }
        Ok(name)
    }

    fn new_goods_name(&self, text: &str, of: Option<usize>) -> Result<String, InputError> {
        let name = name_of("goods", text)?;
        let mut others = self.written.goods.iter().enumerate();
        if others.any(|(n, it)| Some(n) != of && same(&it.name, &name)) {
            return Err(taken("goods", text));
        }
        Ok(name)
    }

    /// The supplier of a name, in the spelling of the list; a new one where there is none.
    fn know_supplier(&mut self, name: &str) -> String {
        let known = self.written.supplier.iter().find(|it| same(&it.name, name));
        if let Some(known) = known {
            return known.name.clone();
        }
        self.written.supplier.push(SupplierEntry {
            name: name.to_owned(),
            ..SupplierEntry::default()
        });
        name.to_owned()
    }

    /// Adds a supplier; returns its number.
    ///
    /// # Errors
    /// A name that is none, or is there already.
    pub fn add_supplier(&mut self, text: &str) -> Result<usize, InputError> {
        let name = self.new_supplier_name(text, None)?;
        self.know_supplier(&name);
        Ok(self.written.supplier.len() - 1)
    }

    /// Adds goods of a supplier; returns their number. What a pack holds and what they are for
    /// is to be said before the list can be kept.
    ///
    /// # Errors
    /// As for [`Self::add_supplier`].
    pub fn add_goods(&mut self, text: &str, supplier: &str) -> Result<usize, InputError> {
        let name = self.new_goods_name(text, None)?;
        self.written.goods.push(GoodsEntry {
            name,
            supplier: supplier.to_owned(),
            ..GoodsEntry::default()
        });
        Ok(self.written.goods.len() - 1)
    }

    /// Adds something that goods are for, of a kind, with its name or how much a guest takes;
    /// returns its number.
    ///
    /// # Errors
    /// A name or an amount that is none.
    pub fn add_use(&mut self, goods: usize, kind: NewUse, text: &str) -> Result<usize, InputError> {
        let Some(it) = self.written.goods.get_mut(goods) else {
            return Ok(0);
        };
        it.uses.push(UseEntry::default());
        let nth = it.uses.len() - 1;
        let key = match kind {
            NewUse::Dish => GoodsKey::Dish,
            NewUse::Batch => GoodsKey::Batch,
            NewUse::Cover => GoodsKey::PerCover,
        };
        let place = GoodsPlace::Use(goods, nth);
        if let Err(error) = self.say(place, key, text) {
            self.remove(place);
            return Err(error);
        }
        Ok(nth)
    }

    /// Takes a thing out; with a supplier all goods of it.
    pub fn remove(&mut self, place: GoodsPlace) {
        match place {
            GoodsPlace::Supplier(n) => {
                if n < self.written.supplier.len() {
                    let gone = self.written.supplier.remove(n);
                    self.written
                        .goods
                        .retain(|it| !same(&it.supplier, &gone.name));
                }
            }
            GoodsPlace::Goods(n) => {
                if n < self.written.goods.len() {
                    self.written.goods.remove(n);
                }
            }
            GoodsPlace::Use(n, u) => {
                if let Some(it) = self.written.goods.get_mut(n)
                    && u < it.uses.len()
                {
                    it.uses.remove(u);
                }
            }
        }
    }
}

fn listed(supplier: &SupplierEntry, (word, day): (&str, Weekday)) -> bool {
    let said = |it: &String| it.trim() == word || super::weekday(it.trim()) == Some(day);
    supplier.delivers.iter().any(said)
}

fn name_of(field: &str, text: &str) -> Result<String, InputError> {
    written_name::name(field, text, LONGEST_NAME, "hogget neck")
}

fn taken(field: &str, text: &str) -> InputError {
    InputError::new(
        field,
        text,
        problem!("there-already"),
        expected!("name-of-own"),
    )
}

fn one_time(text: &str) -> Result<String, InputError> {
    match text.parse::<Time>() {
        Ok(_) => Ok(text.to_owned()),
        Err(_) => Err(InputError::new(
            "time",
            text,
            problem!("no-time-of-day-here"),
            TIME_OF_DAY,
        )),
    }
}

impl Goods {
    /// An amount as it is typed of these goods, in the measure of the pack: with its unit, or in
    /// packs, as `3 packs`. A number alone says neither; only nothing is nothing in every unit.
    ///
    /// # Errors
    /// An amount that is none, or in another measure than the pack.
    pub fn amount_of(&self, text: &str) -> Result<Amount, InputError> {
        let text = text.trim();
        let number = |text: &str| {
            let number = text.trim().parse::<f64>().ok();
            number.filter(|it| (0.0..=100_000.0).contains(it))
        };
        let packs = ["packs", "pack"]
            .iter()
            .find_map(|word| number(text.strip_suffix(word)?));
        if let Some(packs) = packs {
            return Ok(self.pack.times(packs));
        }
        if number(text) == Some(0.0) {
            return Ok(self.pack.times(0.0));
        }
        let amount = Amount::parse_or_none("amount", text)?;
        if self.in_packs_measure(amount).is_some() {
            return Ok(amount);
        }
        Err(InputError::new(
            "amount",
            text,
            problem!("other-measure"),
            expected!("as-pack", pack = self.pack),
        ))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_list_is_made_from_nothing_and_edited() {
        let mut draft = GoodsDraft::new();
        let n = draft.add_goods("whole bream", "").unwrap();
        let at = |draft: &GoodsDraft| draft.written().unwrap_err().at.unwrap();
        let place = GoodsPlace::Goods(n);
        // What is missing is asked for one after the other.
        draft.say(place, GoodsKey::Supplier, "Quay House").unwrap();
        assert_eq!(at(&draft), (place, GoodsKey::Pack));
        draft.say(place, GoodsKey::Pack, "5 kg").unwrap();
        assert_eq!(at(&draft), (place, GoodsKey::For));
        draft.add_use(n, NewUse::Dish, "Bream").unwrap();
        let list = draft.written().unwrap();
        assert_eq!(list.goods("Whole Bream").unwrap().supplier, "Quay House");
        draft.turn_delivers(0, 4);
        draft.turn_delivers(0, 1);
        let of = |draft: &GoodsDraft| draft.said(GoodsPlace::Supplier(0), GoodsKey::Delivers);
        assert_eq!(of(&draft).unwrap(), "tue fri");
        draft.turn_delivers(0, 4);
        assert_eq!(of(&draft).unwrap(), "tue");
        // Goods go along with the name of who they come from.
        let supplier = GoodsPlace::Supplier(0);
        draft.say(supplier, GoodsKey::Name, "Low Quay").unwrap();
        assert_eq!(draft.goods().next().unwrap(), ("whole bream", "Low Quay"));
        // Kept and read again it is the same draft.
        let list = draft.written().unwrap();
        let again = GoodsList::from_toml(&list.to_toml().unwrap()).unwrap();
        assert_eq!(GoodsDraft::of(&again), draft);
        draft.remove(supplier);
        assert_eq!(draft, GoodsDraft::new());
    }

    #[test]
    fn what_cannot_be_is_refused_and_the_draft_stays() {
        let mut draft = GoodsDraft::new();
        let n = draft.add_goods("eggs", "Lower Field").unwrap();
        let goods = GoodsPlace::Goods(n);
        draft.say(goods, GoodsKey::Pack, "30 pieces").unwrap();
        draft.add_supplier("Lower Field").unwrap();
        let before = draft.clone();
        for (place, key, text) in [
            (goods, GoodsKey::Pack, "5 boxes"),
            (goods, GoodsKey::Pack, ""),
            (goods, GoodsKey::Price, "31.50"),
            (goods, GoodsKey::Piece, "heavy"),
            (GoodsPlace::Supplier(0), GoodsKey::At, "early"),
            (GoodsPlace::Supplier(0), GoodsKey::DaysBefore, "15"),
        ] {
            draft.say(place, key, text).unwrap_err();
            assert_eq!(draft, before, "{key:?} {text}");
        }
        assert_eq!(
            draft
                .add_goods("Eggs", "")
                .unwrap_err()
                .problem()
                .in_english(),
            "is there already"
        );
        draft.add_use(n, NewUse::Cover, "some").unwrap_err();
        assert_eq!(draft, before);
        // A weight that no pack in pieces can say is wrong at its use.
        let used = draft.add_use(n, NewUse::Dish, "Custard").unwrap();
        let at = draft.written().unwrap_err().at;
        assert_eq!(at, Some((GoodsPlace::Use(n, used), GoodsKey::Takes)));
        let place = GoodsPlace::Use(n, used);
        draft.say(place, GoodsKey::Takes, "1.5 pieces").unwrap();
        draft.written().unwrap();
    }

    #[test]
    fn an_amount_has_its_unit_or_is_in_packs_and_a_number_alone_is_none() {
        let goods = |pack: &str| Goods {
            name: "butter".to_owned(),
            supplier: "Lower Field".to_owned(),
            pack: Amount::parse("pack", pack).unwrap(),
            price: None,
            piece: None,
            uses: Vec::new(),
        };
        let said = |pack: &str, text: &str| goods(pack).amount_of(text).map(Amount::number);
        assert_eq!(said("2.5 kg", "3 packs").unwrap(), 7_500.0);
        assert_eq!(said("2 kg", "1 pack").unwrap(), 2_000.0);
        assert_eq!(said("30 pieces", "0.5 packs").unwrap(), 15.0);
        assert_eq!(said("2 kg", "750 g").unwrap(), 750.0);
        assert_eq!(said("30 pieces", "12 pieces").unwrap(), 12.0);
        assert_eq!(said("5 l", "0").unwrap(), 0.0);
        for text in ["", "-1", "3", "7.5", "-1 packs", "packs", "3 l", "a sack"] {
            said("2 kg", text).unwrap_err();
        }
    }
}
