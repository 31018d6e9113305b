//! What a plate costs: its components with what is lost on the way to it, at
//! the weights really served.

use crate::dish::DishName;
use crate::toml_text;
use crate::units::{CostPerMass, InputError, Money, excerpt, fraction, mass_positive};
use evenhand_protocol::Mass;
use serde::Deserialize;

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

impl Plate {
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
    #[error("{}: {error}", excerpt(place))]
    Value {
        /// Which plate and component.
        place: String,
        /// What is wrong.
        error: InputError,
    },
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct PlatesText {
    plate: Vec<PlateText>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct PlateText {
    name: String,
    price: Option<String>,
    component: Vec<ComponentText>,
}

#[derive(Deserialize)]
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
    text.plate.into_iter().map(plate).collect()
}

fn plate(text: PlateText) -> Result<Plate, PlatesError> {
    let place = format!("plate {:?}", text.name);
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
        name: text.name,
        price,
        components,
    })
}

fn component(text: ComponentText) -> Result<Component, InputError> {
    let missing = |field: &str, expected: &str| InputError::new(field, "", "is missing", expected);
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
                    format!("is given for the portioned dish {dish:?}"),
                    "leave it out: weight and cost are those of its portions",
                ));
            }
        }
        return Ok(Component::Portioned(DishName::new("dish", &dish)?));
    }
    let name = text
        .name
        .ok_or_else(|| missing("name", "give a component a dish or a name"))?;
    let weight = text
        .weight
        .ok_or_else(|| missing("weight", "write what is served of it, such as 120g"))?;
    let cost = text
        .cost
        .ok_or_else(|| missing("cost", "write what it costs as bought, such as 2.40 EUR/kg"))?;
    let share = |field: &'static str, text: Option<String>, otherwise: f64, expected: &str| {
        let Some(text) = text else {
            return Ok(otherwise);
        };
        let share = fraction(field, &text)?;
        let sensible = match field {
            "yield" => share > 0.0 && share <= 1.0,
            _ => (0.0..1.0).contains(&share),
        };
        if sensible {
            Ok(share)
        } else {
            Err(InputError::new(field, &text, "is out of range", expected))
        }
    };
    Ok(Component::Fixed {
        name,
        weight: mass_positive("weight", &weight)?,
        cost: CostPerMass::parse("cost", &cost)?,
        yielded: share("yield", text.yielded, 1.0, "write above 0% to 100%")?,
        wasted: share("waste", text.waste, 0.0, "write 0% to below 100%")?,
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
    }
}
