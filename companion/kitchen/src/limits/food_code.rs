//! The United States' model Food Code, edition 2022.
//!
//! Figures from memory with their section numbers, to be confirmed by whoever
//! has the document, but for those of 3-501.16: they were read in two states'
//! codes that adopt the section with the same temperatures (Delaware, 16
//! Del. Admin. Code 3-501.16, by an edition before 2022, and Washington, WAC
//! 246-215-03525, by that of 2009). The Code gives Fahrenheit first; the Celsius figures here
//! are the Code's own rounded ones (135 degF is 57 degC, 41 degF is 5 degC,
//! 70 degF is 21 degC).

use super::{CoolingStage, Demand, Hold, Limit, Limits, Source, Standing};
use evenhand_protocol::Temperature;
use jiff::SignedDuration;

const DOCUMENT: &str = "US FDA Food Code 2022";

const fn celsius(degrees: i32) -> Temperature {
    Temperature::from_millicelsius(degrees * 1_000)
}

const fn hours(hours: i64) -> SignedDuration {
    SignedDuration::from_secs(hours * 3_600)
}

fn limit(name: &str, about: &str, section: &str, demand: Demand) -> Limit {
    Limit {
        name: name.to_owned(),
        about: about.to_owned(),
        demand,
        source: Source {
            document: DOCUMENT.to_owned(),
            section: section.to_owned(),
            standing: Standing::FromMemory,
        },
    }
}

/// A limit whose figure was read where a state adopts the section.
fn limit_as_adopted(name: &str, about: &str, section: &str, demand: Demand) -> Limit {
    let mut limit = limit(name, about, section, demand);
    limit.source.document =
        format!("{DOCUMENT} as adopted by Delaware (16 Del. Admin. Code) and Washington (WAC)");
    limit.source.standing = Standing::Read;
    limit
}

impl Limits {
    /// The Food Code's limits, nothing of the kitchen's own.
    #[must_use]
    pub fn food_code() -> Self {
        let cooked = |name, about, section, at, seconds| {
            limit(
                name,
                about,
                section,
                Demand::Cooked(Hold {
                    at: celsius(at),
                    lasting: SignedDuration::from_secs(seconds),
                }),
            )
        };
        let limits = vec![
            limit(
                "cooling",
                "cooked food cooling down",
                "3-501.14(A)",
                Demand::Cooling {
                    from: celsius(57),
                    stages: vec![
                        CoolingStage {
                            to: celsius(21),
                            within: hours(2),
                        },
                        CoolingStage {
                            to: celsius(5),
                            within: hours(6),
                        },
                    ],
                },
            ),
            limit_as_adopted(
                "cold-holding",
                "cold food held cold",
                "3-501.16(A)(2)",
                Demand::AtMost(celsius(5)),
            ),
            limit_as_adopted(
                "hot-holding",
                "hot food held hot",
                "3-501.16(A)(1)",
                Demand::AtLeast(celsius(57)),
            ),
            limit(
                "time-only",
                "food under time control without temperature control",
                "3-501.19(B)",
                Demand::TimeOnly {
                    within: hours(4),
                    never_above: None,
                },
            ),
            limit(
                "time-only-cold",
                "cold food under time control that stays cool",
                "3-501.19(C)",
                Demand::TimeOnly {
                    within: hours(6),
                    never_above: Some(celsius(21)),
                },
            ),
            limit(
                "raw-fish-freezing",
                "fish to be served raw or undercooked, frozen against parasites; \
                 the Code exempts some species and farmed fish; its third way, frozen solid at -35 degC \
                 and then 24 h at -20 degC, needs an eye to see that it is solid and is not checked",
                "3-402.11(A)",
                Demand::Frozen(vec![
                    Hold {
                        at: celsius(-20),
                        lasting: hours(168),
                    },
                    Hold {
                        at: celsius(-35),
                        lasting: hours(15),
                    },
                ]),
            ),
            cooked(
                "cook-fish-whole-cut",
                "fish and whole cuts of meat cooked",
                "3-401.11(A)(1)",
                63,
                15,
            ),
            cooked(
                "cook-minced",
                "minced meat and fish cooked",
                "3-401.11(A)(2)",
                68,
                17,
            ),
            cooked(
                "cook-poultry",
                "poultry and stuffed food cooked",
                "3-401.11(A)(3)",
                74,
                0,
            ),
        ];
        Self { limits }
    }
}
