//! Vessels of known volume, and one being filled.

use super::view::{VesselRow, VesselView};
use super::{Refusal, Scene, Step};
use crate::figures;
use crate::words::Language;
use evenhand_kitchen::brine::{Doubt, Filling, KnownVessel, VesselMaterial, VesselName};
use evenhand_kitchen::ratio::in_service;
use evenhand_protocol::Mass;
use evenhand_store::Store;
use jiff::Timestamp;

/// A vessel being filled.
#[derive(Debug)]
pub(super) struct BeingFilled {
    name: VesselName,
    material: VesselMaterial,
    empty: Option<Mass>,
}

impl BeingFilled {
    pub(super) fn new(name: &str) -> Result<Self, Refusal> {
        Ok(Self {
            name: VesselName::new("name", name)?,
            material: VesselMaterial::Steel,
            empty: None,
        })
    }

    pub(super) const fn other_material(&mut self) {
        self.material = match self.material {
            VesselMaterial::Steel => VesselMaterial::Glass,
            VesselMaterial::Glass => VesselMaterial::Plastic,
            VesselMaterial::Plastic => VesselMaterial::Steel,
        };
    }

    /// The vessel stands on the scale; `true` once it is on record.
    pub(super) fn weigh(
        &mut self,
        step: Step,
        scene: &Scene,
        store: &mut Store,
        now: Timestamp,
    ) -> Result<bool, Refusal> {
        let look = super::mixer::steady(scene)?;
        match (step, self.empty) {
            (Step::Empty, _) => {
                if look.mass < Mass::from_grams(5) {
                    return Err(Refusal::new("nothing stands on the scale"));
                }
                self.empty = Some(look.mass);
                Ok(false)
            }
            (Step::Full, None) => Err(Refusal::new("weigh it empty first")),
            (Step::Full, Some(empty)) => {
                let temperature = scene.probe.ok_or_else(|| {
                    Refusal::new(
                        "put the probe in the water: how warm it is decides how much room it takes",
                    )
                })?;
                let filling = Filling {
                    at: now,
                    water: look.mass - empty,
                    temperature,
                    material: self.material,
                    doubt: Doubt {
                        mass: in_service(scene.verification, look.mass),
                        ..Doubt::COMMON
                    },
                    empty: Some(empty),
                };
                store.set_vessel(&self.name, &filling)?;
                Ok(true)
            }
        }
    }
}

fn row(vessel: &KnownVessel) -> VesselRow {
    let filling = &vessel.filling;
    let tenth = Mass::from_milligrams(100);
    let known = filling
        .vessel()
        .and_then(|vessel| Ok((vessel.volume()?, vessel.uncertainty())));
    VesselRow {
        name: vessel.name.to_string(),
        volume: known.map_or_else(
            |error| error.to_string(),
            |(volume, within)| {
                format!(
                    "{:.0} ml, give or take {:.1}",
                    volume.millilitres(),
                    within.grams()
                )
            },
        ),
        about: format!(
            "{}{} of water at {}",
            filling.empty.map_or_else(String::new, |empty| format!(
                "{} empty, ",
                figures::grams(empty, tenth, Language::English)
            )),
            figures::grams(filling.water, tenth, Language::English),
            figures::celsius(filling.temperature, Language::English)
        ),
    }
}

pub(super) fn view(known: &[KnownVessel], filling: Option<&BeingFilled>) -> VesselView {
    VesselView {
        known: known.iter().map(row).collect(),
        filling: filling.map(|filling| filling.name.to_string()),
        material: filling
            .map_or("", |filling| match filling.material {
                VesselMaterial::Steel => "Steel",
                VesselMaterial::Glass => "Glass",
                VesselMaterial::Plastic => "Plastic",
            })
            .to_owned(),
        prompt: match filling.map(|filling| filling.empty) {
            None => {
                "A vessel filled with water once tells the strength of any brine by its weight."
                    .to_owned()
            }
            Some(None) => "Put it on the scale, empty and dry, then Empty.".to_owned(),
            Some(Some(empty)) => format!(
                "{} empty. Fill it with fresh water to where brine will be filled, put the probe in, then Full.",
                figures::grams(empty, Mass::from_milligrams(100), Language::English)
            ),
        },
        has_empty: filling.is_some_and(|filling| filling.empty.is_some()),
    }
}
