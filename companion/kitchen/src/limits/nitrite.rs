//! The published limits on nitrite going into meat.

use super::{Demand, Limit, Region, Source, Standing};
use crate::cure::{Asked, CountedAs, Method, NitriteLimit, Ppm, Stated, UsualMinimum};
use jiff::SignedDuration;

const HANDBOOK: &str =
    "USDA FSIS Directive 7620.3, Processing Inspectors' Calculations Handbook (1995)";

fn quoted(document: &str, section: &str) -> Source {
    Source {
        document: document.to_owned(),
        section: section.to_owned(),
        standing: Standing::Quoted,
    }
}

/// The limit for every way of curing.
pub(super) fn limits(region: Region) -> Vec<Limit> {
    Method::ALL
        .into_iter()
        .map(|method| {
            let limit = match region {
                Region::Us => us(method),
                Region::Eu => eu(),
            };
            Limit {
                name: format!("nitrite-{method}"),
                about: format!("nitrite going into meat: {method}"),
                allowance: SignedDuration::ZERO,
                source: limit.source.clone(),
                demand: Demand::Nitrite { method, limit },
            }
        })
        .collect()
}

fn us(method: Method) -> NitriteLimit {
    let ppm = Ppm::published;
    let (asked, stated) = match method {
        // The regulation states the dose; the handbook works with 156.
        Method::Comminuted => (Asked::AtMost(ppm(156.25)), Some(Stated::QuarterOunce)),
        Method::Pumped | Method::ImmersionPickUp | Method::ImmersionEquilibrium => {
            (Asked::AtMost(ppm(200.0)), None)
        }
        Method::DryCure => (Asked::AtMost(ppm(625.0)), None),
        // What is pumped into bacon is required, not a ceiling. What counts as 120 ppm is 5 % of
        // it, what a dose may be off in weighing here; inspection is said to allow 20 % (a page by
        // an inspector, read), which is not used.
        Method::BaconPumped => (
            Asked::Level {
                level: ppm(120.0),
                low: ppm(114.0),
                high: ppm(126.0),
            },
            None,
        ),
        Method::BaconImmersionPickUp | Method::BaconImmersionEquilibrium => {
            (Asked::AtMost(ppm(120.0)), None)
        }
        Method::BaconDryCure => (Asked::AtMost(ppm(200.0)), None),
    };
    let section = if method.is_bacon() {
        "9 CFR 424.22(b)"
    } else {
        "9 CFR 424.21(c)"
    };
    NitriteLimit {
        asked,
        counted_as: CountedAs::SodiumNitrite,
        // 9 CFR 424.21(c): at most 200 ppm of nitrite in the finished food, but for bacon (from memory).
        finished_at_most: (!method.is_bacon()).then(|| ppm(200.0)),
        usual_minimum: Some(UsualMinimum {
            ppm: ppm(120.0),
            source: quoted(HANDBOOK, "page 12"),
        }),
        stated,
        source: quoted(HANDBOOK, section),
    }
}

/// Regulation (EC) No 1333/2008, annex II, part E, categories 08.3.1 and 08.3.2
/// as amended by Regulation (EU) 2023/2108: 80 mg/kg of nitrite ion added, 45
/// left over. Meat sterilised to Fo above 3 has 55 and 25; traditionally cured
/// products (08.3.4) have limits of their own on what is left over.
fn eu() -> NitriteLimit {
    NitriteLimit {
        asked: Asked::AtMost(Ppm::published(80.0)),
        counted_as: CountedAs::NitriteIon,
        finished_at_most: Some(Ppm::published(45.0)),
        usual_minimum: None,
        stated: None,
        source: Source {
            document: String::from(
                "Regulation (EC) No 1333/2008, annex II, as amended by Regulation (EU) 2023/2108",
            ),
            section: String::from(
                "08.3.1 and 08.3.2; sterilised and traditionally cured products have other figures, \
                 not worked out here",
            ),
            standing: Standing::FromMemory,
        },
    }
}
