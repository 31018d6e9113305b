//! Vessels of known volume, and one being filled.

use super::view::{VesselRow, VesselView};
use super::{Obstacle, Refusal, Scene, VesselStep};
use crate::figures;
use crate::words::{Language, say};
use evenhand_kitchen::brine::{
    Doubt, Filling, KnownVessel, SugarKnown, VesselMaterial, VesselName,
};
use evenhand_kitchen::ratio::in_service;
use evenhand_protocol::Mass;
use evenhand_store::Store;
use evenhand_use_cases::mixing::brine::brine_error_words;
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
        step: VesselStep,
        scene: &Scene,
        store: &mut Store,
        now: Timestamp,
    ) -> Result<bool, Refusal> {
        let look = super::mixer::steady(scene)?;
        match (step, self.empty) {
            (VesselStep::Empty, _) => {
                if look.mass < Mass::from_grams(5) {
                    return Err(Obstacle::NothingOn.into());
                }
                self.empty = Some(look.mass);
                Ok(false)
            }
            (VesselStep::Full, None) => Err(Obstacle::EmptyFirst.into()),
            (VesselStep::Full, Some(empty)) => {
                let temperature = scene.probe.ok_or(Obstacle::ProbeInWater)?;
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

fn row(vessel: &KnownVessel, language: Language) -> VesselRow {
    let filling = &vessel.filling;
    let grams = |mass| figures::grams(mass, Mass::from_milligrams(100), language);
    let known = filling
        .vessel()
        .and_then(|vessel| Ok((vessel.volume()?, vessel.uncertainty())));
    let (water, at) = (
        grams(filling.water),
        figures::celsius(filling.temperature, language),
    );
    VesselRow {
        name: vessel.name.to_string(),
        volume: known.map_or_else(
            |error| brine_error_words(language, &error, SugarKnown::None),
            |(volume, within)| {
                say!(
                    language,
                    "vessels-volume",
                    volume = format!("{:.0}", volume.millilitres()),
                    within = language.figure(format!("{:.1}", within.grams())),
                )
                .into_owned()
            },
        ),
        about: match filling.empty {
            Some(empty) => say!(
                language,
                "vessels-about-empty",
                empty = grams(empty),
                water = water,
                at = at,
            ),
            None => say!(language, "vessels-about", water = water, at = at),
        }
        .into_owned(),
    }
}

pub(super) fn view(
    known: &[KnownVessel],
    filling: Option<&BeingFilled>,
    language: Language,
) -> VesselView {
    VesselView {
        known: known.iter().map(|vessel| row(vessel, language)).collect(),
        filling: filling.map(|filling| filling.name.to_string()),
        material: filling.map_or_else(String::new, |filling| {
            match filling.material {
                VesselMaterial::Steel => say!(language, "vessels-steel"),
                VesselMaterial::Glass => say!(language, "vessels-glass"),
                VesselMaterial::Plastic => say!(language, "vessels-plastic"),
            }
            .into_owned()
        }),
        prompt: match filling.map(|filling| filling.empty) {
            None => say!(language, "vessels-what-for"),
            Some(None) => say!(language, "vessels-put-empty"),
            Some(Some(empty)) => {
                let empty = figures::grams(empty, Mass::from_milligrams(100), language);
                say!(language, "vessels-fill", empty = empty)
            }
        }
        .into_owned(),
        has_empty: filling.is_some_and(|filling| filling.empty.is_some()),
    }
}
