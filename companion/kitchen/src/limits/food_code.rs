//! The United States' model Food Code, edition 2022, and what goes with it.
//!
//! The Code itself was not to be had. Most of its sections were read where a
//! state adopts them with the same figures, which is *quoted*: Delaware (16
//! Del. Admin. Code, by an edition before 2022), Washington (WAC 246-215, by
//! that of 2009 and the one in force from 2022), Minnesota (4626), Florida's
//! list of violations (by an edition with 17 s for 155 degF) and South Carolina
//! (61-25). What was not found there is *from memory*.
//!
//! The Code gives Fahrenheit first; the Celsius figures here are the Code's own
//! rounded ones (135 degF is 57 degC, 41 degF is 5 degC, 70 degF is 21 degC).

use super::{Begins, CoolingStage, Demand, Hold, Limit, Side, Source, Standing};
use evenhand_protocol::Temperature;
use jiff::SignedDuration;

const DOCUMENT: &str = "US FDA Food Code 2022";

const fn tenths(celsius: i32) -> Temperature {
    Temperature::from_millicelsius(celsius * 100)
}

const fn celsius(degrees: i32) -> Temperature {
    Temperature::from_millicelsius(degrees * 1_000)
}

const fn hours(hours: i64) -> SignedDuration {
    SignedDuration::from_hours(hours)
}

const fn seconds(seconds: i64) -> SignedDuration {
    SignedDuration::from_secs(seconds)
}

fn from_memory(name: &str, section: &str, demand: Demand, about: &str) -> Limit {
    Limit {
        name: name.to_owned(),
        about: about.to_owned(),
        demand,
        allowance: SignedDuration::ZERO,
        source: Source {
            document: DOCUMENT.to_owned(),
            section: section.to_owned(),
            standing: Standing::FromMemory,
        },
    }
}

/// A limit whose figures were read where a state adopts the section.
fn quoted(name: &str, section: &str, state: &str, demand: Demand, about: &str) -> Limit {
    let mut limit = from_memory(name, section, demand, about);
    limit.source.document = format!("{DOCUMENT} as adopted by {state}");
    limit.source.standing = Standing::Quoted;
    limit
}

/// A figure of the guide for fish, which 3-502.12 leans on.
fn guide(name: &str, standing: Standing, demand: Demand, about: &str) -> Limit {
    let mut limit = from_memory(name, "chapter 13", demand, about);
    limit.source.document = String::from("US FDA, Fish and Fishery Products Hazards and Controls");
    limit.source.standing = standing;
    limit
}

const DELAWARE: &str = "Delaware (16 Del. Admin. Code)";
const DELAWARE_WASHINGTON: &str = "Delaware (16 Del. Admin. Code) and Washington (WAC 246-215)";
const WASHINGTON_MINNESOTA: &str = "Washington (WAC 246-215) and Minnesota (4626)";
const FLORIDA: &str = "Florida";
const SOUTH_CAROLINA: &str = "South Carolina (61-25)";

/// Whole roasts: tenths of a °C and seconds (3-401.11(B)).
const ROAST: [(i32, i64); 17] = [
    (544, 112 * 60),
    (550, 89 * 60),
    (561, 56 * 60),
    (572, 36 * 60),
    (578, 28 * 60),
    (589, 18 * 60),
    (600, 12 * 60),
    (611, 8 * 60),
    (622, 5 * 60),
    (628, 4 * 60),
    (639, 134),
    (650, 85),
    (661, 54),
    (672, 34),
    (683, 22),
    (694, 14),
    (700, 0),
];

/// Every limit that is not on nitrite.
pub(super) fn limits() -> Vec<Limit> {
    let mut all = cooling_and_holding();
    all.extend(cooking());
    all.extend(fish());
    all.extend(receiving_and_rules());
    all
}

fn cooling_and_holding() -> Vec<Limit> {
    let stage = |to, within| CoolingStage {
        to: celsius(to),
        within: hours(within),
    };
    let within_two_hours = |at, lasting| Demand::Within {
        side: Side::AtLeast,
        hold: Hold::new(celsius(at), seconds(lasting)),
        within: hours(2),
        from: Some(celsius(5)),
    };
    vec![
        quoted(
            "cooling",
            "3-501.14(A)",
            DELAWARE_WASHINGTON,
            Demand::Cooling {
                from: celsius(57),
                stages: vec![stage(21, 2), stage(5, 6)],
            },
            "cooked food cooling down",
        ),
        quoted(
            "cooling-from-ambient",
            "3-501.14(B)",
            DELAWARE_WASHINGTON,
            Demand::Within {
                side: Side::AtMost,
                hold: Hold::new(celsius(5), seconds(0)),
                within: hours(4),
                from: None,
            },
            "food made of ingredients at room temperature, from when it is made",
        ),
        quoted(
            "cold-holding",
            "3-501.16(A)(2)",
            DELAWARE_WASHINGTON,
            Demand::AtMost(celsius(5)),
            "cold food held cold",
        ),
        quoted(
            "hot-holding",
            "3-501.16(A)(1)",
            DELAWARE_WASHINGTON,
            Demand::AtLeast(celsius(57)),
            "hot food held hot",
        ),
        quoted(
            "hot-holding-roast",
            "3-501.16(A)(1)",
            DELAWARE_WASHINGTON,
            Demand::AtLeast(celsius(54)),
            "whole roasts cooked by cook-roast, held hot",
        ),
        quoted(
            "reheating",
            "3-403.11(A), (D)",
            DELAWARE,
            within_two_hours(74, 15),
            "food cooked, cooled and reheated to be held hot",
        ),
        quoted(
            "reheating-microwave",
            "3-403.11(B), (D)",
            DELAWARE,
            within_two_hours(74, 120),
            "the same in a microwave oven: stirred or turned, covered, and left covered for 2 min",
        ),
        quoted(
            "reheating-packaged",
            "3-403.11(C), (D)",
            DELAWARE,
            within_two_hours(57, 0),
            "ready-to-eat food packed by an inspected plant, heated to be held hot",
        ),
        quoted(
            "time-only",
            "3-501.19(B)",
            DELAWARE,
            Demand::TimeOnly {
                within: hours(4),
                never_above: None,
                begins: Some(Begins {
                    at_most: celsius(5),
                    or_at_least: Some(celsius(57)),
                }),
            },
            "food under time control without temperature control; marked with the time it is up, by \
             written procedures",
        ),
        quoted(
            "time-only-cold",
            "3-501.19(C)",
            DELAWARE,
            Demand::TimeOnly {
                within: hours(6),
                never_above: Some(celsius(21)),
                begins: Some(Begins {
                    at_most: celsius(5),
                    or_at_least: None,
                }),
            },
            "cold food under time control that stays cool; marked with the time it was taken out and \
             the time it is up, by written procedures",
        ),
        quoted(
            "date-marking",
            "3-501.17",
            "Minnesota (4626)",
            Demand::Days {
                days: 7,
                at_most: celsius(5),
            },
            "ready-to-eat food made here or opened here and kept cold over 24 h, marked with the day",
        ),
    ]
}

fn cooking() -> Vec<Limit> {
    let cooked = |at, lasting| Demand::Cooked(vec![Hold::new(celsius(at), seconds(lasting))]);
    vec![
        quoted(
            "cook-fish-whole-cut",
            "3-401.11(A)(1)",
            "Michigan",
            cooked(63, 15),
            "fish, whole cuts of meat that nothing was put into, and eggs for one order, cooked",
        ),
        quoted(
            "cook-minced",
            "3-401.11(A)(2)",
            FLORIDA,
            Demand::Cooked(vec![
                Hold::new(celsius(68), seconds(17)),
                Hold::new(celsius(63), seconds(180)),
                Hold::new(celsius(66), seconds(60)),
                Hold::new(celsius(70), seconds(0)),
            ]),
            "minced meat and fish, meat mechanically tenderised, and meat injected (pumped with \
             brine), cooked: 155 degF for 17 s or one of the others",
        ),
        from_memory(
            "cook-poultry",
            "3-401.11(A)(3)",
            cooked(74, 0),
            "poultry, stuffed food and stuffing with meat, cooked",
        ),
        quoted(
            "cook-roast",
            "3-401.11(B)",
            FLORIDA,
            Demand::Cooked(
                ROAST
                    .iter()
                    .map(|(at, lasting)| Hold::new(tenths(*at), seconds(*lasting)))
                    .collect(),
            ),
            "whole roasts of beef, pork and lamb, and cured pork such as ham, in an oven as hot as the \
             section asks",
        ),
    ]
}

fn fish() -> Vec<Limit> {
    let solid = |at, lasting| Hold {
        at: celsius(at),
        lasting: hours(lasting),
        solid_at: Some(celsius(-35)),
    };
    vec![
        quoted(
            "raw-fish-freezing",
            "3-402.11(A)",
            WASHINGTON_MINNESOTA,
            Demand::Frozen(vec![
                Hold::new(celsius(-20), hours(168)),
                solid(-35, 15),
                solid(-20, 24),
            ]),
            "fish to be served raw or undercooked, frozen against parasites; solid is what an eye sees: \
             put the word \"solid\" at that moment of the log",
        ),
        quoted(
            "raw-fish-exempt",
            "3-402.11(B)",
            WASHINGTON_MINNESOTA,
            Demand::Rule,
            "not frozen against parasites: molluscan shellfish, scallops of the muscle alone, the tunas \
             alalunga, albacares, atlanticus, maccoyii, obesus and thynnus, fish farmed on pelleted \
             feed without live parasites, and fish eggs out of the skein and rinsed",
        ),
        from_memory(
            "raw-fish-records",
            "3-402.12",
            Demand::Rule,
            "temperature and time of the freezing, or the supplier's statement, or for farmed fish the \
             statement on its feed, kept 90 days from when the fish was served",
        ),
        guide(
            "salt-smoked-fish-vacuum",
            Standing::Quoted,
            Demand::SaltInWater { at_least: 3.5 },
            "smoked or salted fish in vacuum or other packing that keeps air out; 3.0 % where it also \
             has 100 to 200 ppm of nitrite",
        ),
        guide(
            "salt-smoked-fish-air",
            Standing::FromMemory,
            Demand::SaltInWater { at_least: 2.5 },
            "smoked fish packed in air; some states ask more (Michigan 3 %, R 285.569.8, read)",
        ),
        guide(
            "salt-roe",
            Standing::FromMemory,
            Demand::SaltInWater { at_least: 5.0 },
            "salted roe, kept refrigerated",
        ),
    ]
}

fn receiving_and_rules() -> Vec<Limit> {
    vec![
        quoted(
            "receiving-cold",
            "3-202.11(A)",
            SOUTH_CAROLINA,
            Demand::AtMost(celsius(5)),
            "cold food as it is delivered, where no other law names another temperature for it",
        ),
        quoted(
            "receiving-hot",
            "3-202.11(D)",
            SOUTH_CAROLINA,
            Demand::AtLeast(celsius(57)),
            "cooked food delivered hot",
        ),
        quoted(
            "receiving-eggs",
            "3-202.11(C)",
            SOUTH_CAROLINA,
            Demand::AtMost(celsius(7)),
            "the air around raw eggs as they are delivered",
        ),
        quoted(
            "receiving-frozen",
            "3-202.11(E)",
            SOUTH_CAROLINA,
            Demand::Rule,
            "food shipped frozen is delivered frozen",
        ),
        from_memory(
            "receiving-shellfish",
            "3-202.11(B), National Shellfish Sanitation Program",
            Demand::AtMost(celsius(10)),
            "live molluscan shellfish as they are delivered; then to 5 degC within 4 h",
        ),
        from_memory(
            "shellfish-tags",
            "3-203.12",
            Demand::Rule,
            "the tag stays on until the container is empty, is marked with the day the last was served, \
             and is kept 90 days in order of that day",
        ),
        quoted(
            "variance",
            "3-502.11",
            "Washington (WAC 246-215-03535)",
            Demand::Rule,
            "a variance from the authority before: curing food, smoking food to preserve it, adding \
             something to preserve it, packing it without air but as vacuum-packing says, tanks of live \
             shellfish, and sprouting seeds",
        ),
        quoted(
            "vacuum-packing",
            "3-502.12",
            "Michigan",
            Demand::Rule,
            "vacuum packing, sous vide and cook-chill need a plan (HACCP) by this section, or a \
             variance",
        ),
    ]
}
