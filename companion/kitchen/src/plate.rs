//! What a plate costs: its components with what is lost on the way to it, at
//! the weights really served.

use crate::dish::DishName;
use crate::toml_text;
use crate::units::{CostPerMass, Currency, InputError, Money, excerpt, fraction, mass_positive};
use crate::units::{Reason, typed};
use crate::written_name;
use evenhand_protocol::Mass;
use serde::{Deserialize, Serialize};

/// The longest name of a plate or of something on it, in characters.
const LONGEST: usize = 60;

/// One thing on a plate.
#[derive(Debug, Clone, PartialEq)]
pub enum Component {
    /// A dish that is portioned on the scale: its weight and its cost are those
    /// of the portions.
    Portioned(DishName),
    /// Something of a fixed weight.
    Fixed {
        /// Its name.
        name: String,
        /// What of it is served.
        weight: Mass,
        /// What it costs as bought.
        cost: CostPerMass,
        /// How much of what is bought can be served; above 0 to 1.
        yielded: f64,
        /// How much of what could be served is thrown out all the same; 0 to
        /// below 1.
        wasted: f64,
    },
}

/// A plate as it goes out.
#[derive(Debug, Clone, PartialEq)]
pub struct Plate {
    /// Its name.
    pub name: String,
    /// What the guest pays, where it was entered.
    pub price: Option<Money>,
    /// What is on it.
    pub components: Vec<Component>,
}

/// Plates to be changed one by one: their order is that in which they were made.
///
/// ```
/// use evenhand_kitchen::plate::{Component, FixedText, Plates};
///
/// let mut plates = Plates::default();
/// let plate = plates.plate("PLATE", "Hogget neck, celeriac").unwrap();
/// let celeriac = FixedText { name: "Celeriac", weight: "120 g", cost: "2.40 EUR/kg", ..FixedText::default() };
/// plate.put(Component::fixed(&celeriac).unwrap());
/// let text = plates.written().unwrap();
/// assert_eq!(evenhand_kitchen::plate::read(&text).unwrap(), plates.all());
/// ```
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Plates(Vec<Plate>);

impl Plates {
    /// These plates.
    #[must_use]
    pub const fn new(plates: Vec<Plate>) -> Self {
        Self(plates)
    }

    /// All of them.
    #[must_use]
    pub fn all(&self) -> &[Plate] {
        &self.0
    }

    /// The plate of that name, upper or lower case; a new one with nothing on it where
    /// there is none. `field` says where the name was typed, for the error.
    ///
    /// # Errors
    /// An empty name, one that is too long, over several lines, or with control
    /// characters.
    pub fn plate(&mut self, field: &str, name: &str) -> Result<&mut Plate, InputError> {
        let name = written_name::name(field, name, LONGEST, "Hogget neck, celeriac")?;
        let place = self.place(&name).unwrap_or_else(|| {
            self.0.push(Plate {
                name,
                price: None,
                components: Vec::new(),
            });
            self.0.len() - 1
        });
        Ok(&mut self.0[place])
    }

    /// Whether a plate has that name.
    #[must_use]
    pub fn has(&self, name: &str) -> bool {
        self.place(name).is_some()
    }

    /// Takes the plate of that name out; `false` where there is none.
    pub fn take_out(&mut self, name: &str) -> bool {
        let place = self.place(name);
        if let Some(place) = place {
            self.0.remove(place);
        }
        place.is_some()
    }

    fn place(&self, name: &str) -> Option<usize> {
        let key = name.trim().to_lowercase();
        self.0
            .iter()
            .position(|plate| plate.name.to_lowercase() == key)
    }

    /// As [`read`] reads them.
    ///
    /// # Errors
    /// Where the text cannot be written.
    pub fn written(&self) -> Result<String, PlatesError> {
        let text = PlatesText {
            plate: self.0.iter().map(PlateText::of).collect(),
        };
        toml::to_string(&text).map_err(|error| PlatesError::Syntax(error.to_string()))
    }
}

/// How a dish was really served.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Served {
    /// The mean portion.
    pub weight: Mass,
    /// What a gram on the plate costs, every loss laid on it; `None` where that
    /// is not on record.
    pub cost: Option<CostPerMass>,
}

/// What one component comes to.
#[derive(Debug, Clone, PartialEq)]
pub struct ComponentCost {
    /// Its name.
    pub name: String,
    /// What of it is served.
    pub weight: Mass,
    /// What a gram of it costs on the plate.
    pub cost: CostPerMass,
    /// What it costs on a plate.
    pub money: Money,
}

/// What a plate costs.
#[derive(Debug, Clone, PartialEq)]
pub struct PlateCost {
    /// Every component, the dearest first.
    pub components: Vec<ComponentCost>,
    /// All together.
    pub cost: Money,
    /// The price less that, where a price was entered.
    pub margin: Option<Money>,
    /// The cost as a share of the price.
    pub share_of_price: Option<f64>,
}

/// Why a plate's cost is not known.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum NoPlateCost {
    /// A portioned dish has no portions on record.
    #[error("{0}: no portions on record; portion some, or ask for another service")]
    NotServed(String),
    /// A portioned dish's cost is not known.
    #[error("{0}: its cost is not known; open a tin with --price, or set the dish's --cost")]
    NoCost(String),
    /// Costs in several currencies.
    #[error("{0}: its cost is in another currency than the rest of the plate")]
    Currency(String),
    /// No components.
    #[error("the plate has no components")]
    Empty,
}

/// Something of a fixed weight on a plate, as it is typed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct FixedText<'t> {
    /// Its name.
    pub name: &'t str,
    /// What of it is served: `120 g`.
    pub weight: &'t str,
    /// What it costs as bought: `2.40 EUR/kg`.
    pub cost: &'t str,
    /// How much of what is bought can be served: `75%`; all of it where not said.
    pub yielded: Option<&'t str>,
    /// How much of that is thrown out all the same: `10%`; none where not said.
    pub waste: Option<&'t str>,
}

impl Plate {
    /// The currency that its price, or what is on it, is in; `None` where none is said.
    #[must_use]
    pub fn currency(&self) -> Option<Currency> {
        let of_what_is_on_it = self
            .components
            .iter()
            .find_map(|component| match component {
                Component::Fixed { cost, .. } => Some(cost.for_kilogram().currency()),
                Component::Portioned(_) => None,
            });
        self.price.map(Money::currency).or(of_what_is_on_it)
    }

    /// Puts something on it, in place of what has the same name.
    pub fn put(&mut self, component: Component) {
        match self.place(component.name()) {
            Some(place) => self.components[place] = component,
            None => self.components.push(component),
        }
    }

    /// Takes the component of that name off; `false` where there is none.
    pub fn take_off(&mut self, name: &str) -> bool {
        let place = self.place(name);
        if let Some(place) = place {
            self.components.remove(place);
        }
        place.is_some()
    }

    /// What has that name, upper or lower case.
    fn place(&self, name: &str) -> Option<usize> {
        let key = name.trim().to_lowercase();
        self.components
            .iter()
            .position(|component| component.name().to_lowercase() == key)
    }

    /// What it costs, given how its dishes were served.
    ///
    /// # Errors
    /// [`NoPlateCost`], by the name of what is missing.
    pub fn cost(
        &self,
        served: impl Fn(&DishName) -> Option<Served>,
    ) -> Result<PlateCost, NoPlateCost> {
        let mut components = self
            .components
            .iter()
            .map(|component| component.cost(&served))
            .collect::<Result<Vec<_>, _>>()?;
        let currency = components
            .first()
            .ok_or(NoPlateCost::Empty)?
            .money
            .currency();
        let mut cost = Money::from_millionths(0, currency);
        for component in &components {
            cost = cost
                .plus(component.money)
                .ok_or_else(|| NoPlateCost::Currency(component.name.clone()))?;
        }
        components.sort_by_key(|component| core::cmp::Reverse(component.money.millionths()));
        let margin = match self.price {
            None => None,
            Some(price) => Some(
                price
                    .plus(Money::from_millionths(-cost.millionths(), currency))
                    .ok_or_else(|| NoPlateCost::Currency("the price".to_owned()))?,
            ),
        };
        let share_of_price = self
            .price
            .filter(|price| price.millionths() > 0)
            .map(|price| cost.millionths() as f64 / price.millionths() as f64);
        Ok(PlateCost {
            components,
            cost,
            margin,
            share_of_price,
        })
    }
}

impl Component {
    /// Something of a fixed weight, as it was typed.
    ///
    /// # Errors
    /// A name, weight, cost, yield or waste that is none, by its field.
    pub fn fixed(text: &FixedText<'_>) -> Result<Self, InputError> {
        let share = |field: &'static str, text: Option<&str>, otherwise: f64, expected: Reason| {
            let Some(text) = text else {
                return Ok(otherwise);
            };
            let share = fraction(field, text)?;
            let sensible = match field {
                "yield" => share > 0.0 && share <= 1.0,
                _ => (0.0..1.0).contains(&share),
            };
            if sensible {
                Ok(share)
            } else {
                Err(InputError::new(
                    field,
                    text,
                    problem!("out-of-range"),
                    expected,
                ))
            }
        };
        Ok(Self::Fixed {
            name: written_name::name("name", text.name, LONGEST, "Celeriac")?,
            weight: mass_positive("weight", text.weight)?,
            cost: CostPerMass::parse("cost", text.cost)?,
            yielded: share("yield", text.yielded, 1.0, expected!("above-none-to-all"))?,
            wasted: share("waste", text.waste, 0.0, expected!("none-to-below-all"))?,
        })
    }

    /// Its name; that of the dish where it is portioned.
    #[must_use]
    pub fn name(&self) -> &str {
        match self {
            Self::Portioned(dish) => dish.as_str(),
            Self::Fixed { name, .. } => name,
        }
    }

    fn cost(
        &self,
        served: impl Fn(&DishName) -> Option<Served>,
    ) -> Result<ComponentCost, NoPlateCost> {
        match self {
            Self::Portioned(dish) => {
                let name = dish.as_str().to_owned();
                let served = served(dish).ok_or_else(|| NoPlateCost::NotServed(name.clone()))?;
                let cost = served
                    .cost
                    .ok_or_else(|| NoPlateCost::NoCost(name.clone()))?;
                Ok(ComponentCost {
                    name,
                    weight: served.weight,
                    cost,
                    money: cost.of(served.weight),
                })
            }
            Self::Fixed {
                name,
                weight,
                cost,
                yielded,
                wasted,
            } => {
                let bought = cost.for_kilogram();
                let on_plate = bought.millionths() as f64 / (yielded * (1.0 - wasted));
                let cost = CostPerMass::per_kilogram(Money::from_millionths(
                    on_plate.round() as i64,
                    bought.currency(),
                ));
                Ok(ComponentCost {
                    name: name.clone(),
                    weight: *weight,
                    cost,
                    money: cost.of(*weight),
                })
            }
        }
    }
}

/// Why a text of plates was refused. Nothing of a refused text is used.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum PlatesError {
    /// It is not TOML, or a field is missing, unknown or of the wrong kind.
    #[error("the plates cannot be read: {0}")]
    Syntax(String),
    /// A value makes no sense.
    #[error("plate {:?}: {error}", excerpt(place))]
    Value {
        /// Which plate.
        place: String,
        /// What is wrong.
        error: InputError,
    },
}

#[derive(Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
struct PlatesText {
    #[serde(default)]
    plate: Vec<PlateText>,
}

#[derive(Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
struct PlateText {
    name: String,
    price: Option<String>,
    #[serde(default)]
    component: Vec<ComponentText>,
}

impl PlateText {
    fn of(plate: &Plate) -> Self {
        Self {
            name: plate.name.clone(),
            price: plate.price.map(Money::in_full),
            component: plate.components.iter().map(ComponentText::of).collect(),
        }
    }
}

impl ComponentText {
    fn of(component: &Component) -> Self {
        match component {
            Component::Portioned(dish) => Self {
                dish: Some(dish.as_str().to_owned()),
                ..Self::default()
            },
            Component::Fixed {
                name,
                weight,
                cost,
                yielded,
                wasted,
            } => {
                let share = |share: f64| format!("{:.9}%", share * 100.0);
                Self {
                    dish: None,
                    name: Some(name.clone()),
                    weight: Some(format!("{} g", weight.grams())),
                    cost: Some(format!("{}/kg", cost.for_kilogram().in_full())),
                    yielded: (*yielded < 1.0).then(|| share(*yielded)),
                    waste: (*wasted > 0.0).then(|| share(*wasted)),
                }
            }
        }
    }
}

#[derive(Deserialize, Serialize, Default)]
#[serde(deny_unknown_fields)]
struct ComponentText {
    dish: Option<String>,
    name: Option<String>,
    weight: Option<String>,
    cost: Option<String>,
    #[serde(rename = "yield")]
    yielded: Option<String>,
    waste: Option<String>,
}

/// Reads plates from TOML.
///
/// ```
/// let plates = evenhand_kitchen::plate::read(r#"
/// [[plate]]
/// name = "Hogget neck, celeriac"
/// price = "26 EUR"
///
/// [[plate.component]]
/// dish = "Hogget neck"        # weight and cost are those of its portions
///
/// [[plate.component]]
/// name = "Celeriac"
/// weight = "120 g"
/// cost = "2.40 EUR/kg"
/// yield = "75%"             # of what is bought; all of it, when left out
/// waste = "10%"             # of what could be served; none, when left out
/// "#).unwrap();
/// assert_eq!(plates[0].components.len(), 2);
/// ```
///
/// # Errors
/// [`PlatesError`], naming plate, field and value.
pub fn read(text: &str) -> Result<Vec<Plate>, PlatesError> {
    let text: PlatesText =
        toml::from_str(text).map_err(|error| PlatesError::Syntax(toml_text::why(text, &error)))?;
    let mut plates = Plates::default();
    for text in text.plate {
        let plate = plate(text)?;
        if plates.has(&plate.name) {
            return Err(PlatesError::Value {
                place: plate.name.clone(),
                error: InputError::new(
                    "name",
                    &plate.name,
                    problem!("two-plates"),
                    expected!("plate-own-name"),
                ),
            });
        }
        plates.0.push(plate);
    }
    Ok(plates.0)
}

fn plate(text: PlateText) -> Result<Plate, PlatesError> {
    let place = text.name.clone();
    let name = written_name::name("name", &text.name, LONGEST, "Hogget neck, celeriac").map_err(
        |error| PlatesError::Value {
            place: place.clone(),
            error,
        },
    )?;
    let price = text
        .price
        .map(|price| Money::parse("price", &price))
        .transpose()
        .map_err(|error| PlatesError::Value {
            place: place.clone(),
            error,
        })?;
    let components = text
        .component
        .into_iter()
        .map(|component| {
            self::component(component).map_err(|error| PlatesError::Value {
                place: place.clone(),
                error,
            })
        })
        .collect::<Result<_, _>>()?;
    Ok(Plate {
        name,
        price,
        components,
    })
}

fn component(text: ComponentText) -> Result<Component, InputError> {
    let missing =
        |field: &str, expected: Reason| InputError::new(field, "", problem!("missing"), expected);
    if let Some(dish) = text.dish {
        let stray = [
            ("name", &text.name),
            ("weight", &text.weight),
            ("cost", &text.cost),
            ("yield", &text.yielded),
            ("waste", &text.waste),
        ];
        for (field, value) in stray {
            if let Some(value) = value {
                return Err(InputError::new(
                    field,
                    value.as_str(),
                    problem!("of-portioned-dish", dish = typed(dish)),
                    expected!("leave-plate-out"),
                ));
            }
        }
        return Ok(Component::Portioned(DishName::new("dish", &dish)?));
    }
    Component::fixed(&FixedText {
        name: text
            .name
            .as_deref()
            .ok_or_else(|| missing("name", expected!("dish-or-name")))?,
        weight: text
            .weight
            .as_deref()
            .ok_or_else(|| missing("weight", expected!("served")))?,
        cost: text
            .cost
            .as_deref()
            .ok_or_else(|| missing("cost", expected!("as-bought")))?,
        yielded: text.yielded.as_deref(),
        waste: text.waste.as_deref(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    const TEXT: &str = r#"
[[plate]]
name = "Hogget neck, celeriac"
price = "26 EUR"
[[plate.component]]
dish = "Hogget neck"
[[plate.component]]
name = "Celeriac"
weight = "120 g"
cost = "2.40 EUR/kg"
yield = "75%"
waste = "20%"
"#;

    // Worked by hand: 182 g at 18 EUR/kg is 3.276; celeriac 2.40 / 0.75 / 0.80 = 4 EUR/kg,
    // 120 g of it 0.48. Together 3.756 of 26: 14.4 %.
    #[test]
    fn a_plate_costs_what_was_really_served() {
        let plate = read(TEXT).unwrap().remove(0);
        let served = |grams| {
            move |_: &DishName| {
                Some(Served {
                    weight: Mass::from_grams(grams),
                    cost: CostPerMass::parse("cost", "18 EUR/kg").ok(),
                })
            }
        };
        let cost = plate.cost(served(182)).unwrap();
        assert_eq!(cost.cost.millionths(), 3_756_000);
        assert_eq!(cost.margin.unwrap().to_string(), "22.24 EUR");
        assert!((cost.share_of_price.unwrap() - 3.756 / 26.0).abs() < 1e-12);
        assert_eq!(cost.components[0].name, "Hogget neck");
        // Two grams less on each plate.
        let lighter = plate.cost(served(180)).unwrap();
        assert_eq!(cost.cost.millionths() - lighter.cost.millionths(), 36_000);
        let unknown = plate.cost(|_| None);
        assert_eq!(
            unknown,
            Err(NoPlateCost::NotServed("Hogget neck".to_owned()))
        );
    }

    #[test]
    fn what_is_wrong_is_named() {
        for (from, to, said) in [
            ("26 EUR", "26", "price: \"26\" has no currency"),
            ("120 g", "0 g", "weight"),
            ("75%", "120%", "yield: \"120%\" is out of range"),
            ("75%", "75", "yield"),
            ("20%", "100%", "waste: \"100%\" is out of range"),
            ("cost = \"2.40 EUR/kg\"", "", "cost"),
            (
                "dish = \"Hogget neck\"",
                "dish = \"Hogget neck\"\nweight = \"1 g\"",
                "weight",
            ),
        ] {
            let error = read(&TEXT.replace(from, to)).unwrap_err().to_string();
            assert!(
                error.contains("Hogget neck, celeriac") && error.contains(said),
                "{error}"
            );
        }
        assert!(read("plate = 3").is_err());
        let twice = format!("{TEXT}\n[[plate]]\nname = \"hogget neck, CELERIAC\"");
        let error = read(&twice).unwrap_err().to_string();
        assert!(error.contains("two plates"), "{error}");
        assert!(read("[[plate]]\nname = \" \"").is_err());
    }

    #[test]
    fn plates_are_changed_one_thing_at_a_time() {
        let mut plates = Plates::new(read(TEXT).unwrap());
        // The same name in other letters is the same plate, and the same thing on it.
        let plate = plates.plate("PLATE", "hogget neck, celeriac").unwrap();
        let fixed = |name, weight, yielded| {
            Component::fixed(&FixedText {
                name,
                weight,
                cost: "3.123456 EUR/kg",
                yielded,
                waste: None,
            })
        };
        plate.put(fixed("CELERIAC", "100.5 g", Some("57%")).unwrap());
        plate.put(fixed("Jus", "30 g", None).unwrap());
        assert!(plate.take_off("hogget NECK") && !plate.take_off("hogget NECK"));
        let names: Vec<_> = plate.components.iter().map(Component::name).collect();
        assert_eq!(names, ["CELERIAC", "Jus"]);
        plates.plate("PLATE", "Bare").unwrap();
        assert_eq!(read(&plates.written().unwrap()).unwrap(), plates.all());
        assert!(plates.take_out("bare") && !plates.has("bare") && !plates.take_out("bare"));
        assert!(plates.plate("PLATE", "").is_err());
        // Nothing on record is a text as well.
        assert!(plates.take_out("Hogget neck, celeriac"));
        assert_eq!(read(&plates.written().unwrap()).unwrap(), []);
        let error = fixed("Jus", "30 g", Some("0%")).unwrap_err().to_string();
        assert!(
            error.contains("yield") && error.contains("out of range"),
            "{error}"
        );
    }
}
