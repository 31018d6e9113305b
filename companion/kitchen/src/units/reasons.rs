//! What is wrong with something typed in and what to write instead, each by a
//! code that does not change, for whoever says it in another language.

/// What is wrong, by its code; `{}` stands for a figure or a name.
pub(super) const PROBLEMS: &[(&str, &str)] = &[
    ("empty", "is empty"),
    ("no-number-first", "does not begin with a number"),
    (
        "comma",
        "has a comma, which may stand for a decimal point or for thousands",
    ),
    ("not-a-number", "is not a number"),
    ("no-number", "is no number"),
    ("too-large", "is too large"),
    ("no-unit", "has no unit"),
    (
        "other-mass-unit",
        "has the unit {}, which is no mass known here",
    ),
    (
        "other-volume-unit",
        "has the unit {}, which is no volume known here",
    ),
    (
        "other-temperature-unit",
        "has the unit {}, which is no temperature known here",
    ),
    ("two-sizes", "is in {}, which comes in two sizes"),
    ("not-a-mass-unit", "is not a unit of mass"),
    ("not-a-temperature-unit", "is not a unit of temperature"),
    (
        "not-ounces",
        "has something other than ounces behind the pounds",
    ),
    (
        "part-of-a-pound",
        "has a part of a pound and ounces behind it",
    ),
    ("pound-of-ounces", "has a pound or more of ounces"),
    ("negative", "is negative"),
    ("zero", "is zero"),
    ("not-above-zero", "is not above zero"),
    (
        "other-than-percent",
        "has {} where only a per cent sign may be",
    ),
    (
        "fraction-or-percent",
        "is a fraction of one, or very few per cent without their sign",
    ),
    ("unit-behind", "has {} behind its number"),
    (
        "over-one",
        "is a fraction over 1, or a per cent without its sign",
    ),
    (
        "whole-or-percent",
        "is the whole of it, or one per cent without its sign",
    ),
    ("no-span", "is no span of time"),
    ("no-span-of-days", "is no span of days, hours and minutes"),
    ("absolute-zero", "is below absolute zero"),
    (
        "too-cold-for-a-kitchen",
        "is colder than liquid nitrogen, the coldest thing in a kitchen",
    ),
    (
        "too-hot-for-a-probe",
        "is hotter than any probe for food tells",
    ),
    ("no-difference", "is no difference of temperatures"),
    ("no-day", "is no day of the calendar"),
    ("before-2000", "is before the year 2000"),
    ("to-come", "is still to come"),
    ("beyond-calendar", "is beyond the calendar"),
    ("no-time-of-day", "has no time of day"),
    ("no-time", "is no time"),
    (
        "skipped",
        "does not exist: the clocks are put forward over it",
    ),
    (
        "twice",
        "happens twice, as the clocks are put back: add {} for the first or {} for the second",
    ),
    ("many-lines", "goes over several lines"),
    ("control-characters", "has control characters in it"),
    ("too-long", "is longer than {} characters"),
    ("no-loss", "is no loss of water"),
    ("no-mark", "is no mark"),
    ("not-after-in", "is not after {}, when it goes in"),
    ("long-after-in", "is {} after it goes in"),
    ("too-often", "is too often"),
    ("no-density", "would make it {} kg/l, which no food is"),
    ("in-no-batch", "is in none of these batches"),
    (
        "no-yield",
        "is in none of these batches together with something that came out",
    ),
    ("not-in-it", "is not in it"),
    ("leaves-nothing", "leaves nothing of it"),
    ("whatever-there-is", "is whatever there is of it"),
    ("beyond-held", "is beyond what can be held"),
    ("no-size", "has no size of its own"),
    ("syrup", "makes a syrup, not a brine"),
    (
        "above-saturation-beside",
        "is above saturation of the {} % of water beside it",
    ),
    ("above-saturation", "is above saturation"),
    ("grams-per-cm3", "looks like grams per cubic centimetre"),
    ("denser-than-metal", "is denser than any metal"),
    ("below-freezing", "is below the freezing point of water"),
    (
        "too-warm-for-density",
        "is too warm to tell strength by density; let it cool",
    ),
    (
        "too-cold-for-strength",
        "is too cold for {} % of solution to stay dissolved",
    ),
    ("less-than-water", "is less than without any salt"),
    ("more-than-saturated", "is more than saturated brine"),
    ("too-salty", "is more than any cured food is eaten with"),
    ("too-little-water", "is too little to dissolve {} g of salt"),
    ("no-thickness", "is no thickness of a piece of meat"),
    ("no-water-temperature", "is no water's"),
    ("no-ice-temperature", "is no ice's"),
    ("no-temperature", "is no temperature"),
    ("salt-falls-out", "makes it so cold that salt falls out"),
    ("no-such-meat", "is not in the table of meats"),
    (
        "no-share-of-water",
        "is no share of water in raw meat or fish",
    ),
    ("more-ice-than-water", "is more than the recipe has water"),
    ("too-little-room", "is less than the {} g of brine there is"),
    ("not-by-water", "cannot be reached by adding water"),
    ("no-basis", "is no convention for strength"),
    (
        "not-all-dissolves",
        "does not all dissolve in {} g of water",
    ),
    ("no-material", "is no material known here"),
    ("as-large-as-vessel", "is as large as the vessel"),
    (
        "sugar-unsaid",
        "is not said, and the density of a brine with anything but salt in it says nothing about salt",
    ),
    ("sugar-unknown", "makes the density say nothing about salt"),
    ("fraction-over-one", "is a fraction over 1"),
    ("no-contents", "is no kind of curing agent known here"),
    (
        "two-ways",
        "can be reckoned two ways whose answers differ much",
    ),
    ("no-method", "is no way of curing known here"),
    ("no-pick-up", "is no share of the raw weight"),
    ("no-gain", "is no gain on {} g"),
    ("no-ppm", "is no number of parts in a million"),
    ("ppm-in-percent", "is in per cent"),
    ("not-bacon", "is not bacon"),
    ("missing-for", "is missing for {}"),
    ("scale-useless", "is beyond any use"),
    ("no-dough-mass", "is no mass that a kitchen weighs"),
    ("not-said", "is not said"),
    ("said-of-nothing", "is said of nothing"),
    ("below-nothing", "is below nothing"),
    ("ice-not-water", "is ice"),
    (
        "ice-not-part",
        "is below nothing or more than there is water",
    ),
    (
        "no-mixing",
        "is {} K from what went in, which no mixing does",
    ),
    ("no-mixers", "is no mixer's"),
    ("not-in-a-dough", "is nothing's that goes into a dough"),
    ("no-sauce", "is no sauce's or paste's"),
    ("not-with-its-salt", "does not go with its salt"),
    ("no-name-with-mass", "has no name with its mass"),
    ("not-understood", "is not understood"),
    ("salt-twice", "says its salt twice"),
    (
        "neither-salt-nor-water",
        "has something that is neither salt nor water",
    ),
    ("same-twice", "says the same twice"),
    ("no-salt-said", "does not say its salt"),
    ("no-salt", "has no salt in it"),
    ("more-than-dissolves", "is more than dissolves"),
    ("no-shape", "is none"),
    ("no-uncertainty", "is no uncertainty"),
    ("no-salts-share", "is no salt's share"),
    ("not-that-bath", "is not what a bath of {} g becomes"),
    ("gave-salt", "would mean that the piece gave salt away"),
    (
        "too-much-salt",
        "would mean more salt in the piece than it can take out of that bath",
    ),
    (
        "no-bath-temperature",
        "is no brine's in a cold store or on a bench",
    ),
    ("not-after-it-went-in", "is not after it went in"),
    (
        "out-of-another-bath",
        "came out of a bath that {} g went into",
    ),
    ("not-initials", "is not initials"),
    ("not-portion-id", "is no portion's id"),
    ("no-time-of-day-here", "is no time of day"),
    ("after-noon", "is after noon"),
    ("not-cooks-setting", "is no setting for the cooks' figures"),
    ("no-currency", "has no currency"),
    (
        "other-currency",
        "has the currency {}, which ISO 4217 does not list",
    ),
    ("no-mass-of-price", "does not say for what mass"),
    ("no-price", "is no price for a mass above zero"),
    ("map-without-equals", "has {} without a ="),
    ("map-lacks", "does not name {}"),
    (
        "dish-not-on-record",
        "is a dish that is not on record, so its target is not known",
    ),
    ("far-from-target", "is {} times its target of {} g"),
    ("above-100-kg", "is above 100 kg"),
    ("no-date-with-time", "is no date with a time of day"),
    ("no-such-offset", "has an offset that no clock has"),
    (
        "skipped-here",
        "was skipped that night when clocks were put forward",
    ),
    ("in-future", "lies in the future"),
    ("no-loss-here", "is no loss known here"),
    ("no-latitude", "is no latitude"),
    ("no-height", "is no height on land"),
    ("no-class-weight", "is no weight of a class"),
    ("no-weight-class", "is no class of test weights"),
    ("no-services", "is no number of services in a month"),
    ("no-tin-number", "is no tin's number"),
    ("not-bought", "is nothing that is bought"),
    ("missing", "is missing"),
    ("out-of-range", "is out of range"),
    ("of-portioned-dish", "is given for the portioned dish {}"),
    ("formula-too-long", "is longer than a formula"),
    ("not-understood-here", "is not understood: {}"),
    ("not-a-hundred", "is not a hundred"),
    ("formula-too-few", "are too few or too many for a formula"),
    ("not-in-formula", "is not in the formula"),
    ("twice-here", "is there twice"),
    ("no-share", "is no share"),
    ("no-scale-step", "is no step of a scale"),
    ("pieces-none", "are none or too many"),
    ("mark-not-reached", "is reached by none of these batches"),
];

/// What to write instead, by its code; `{}` stands for a figure or a name.
pub(super) const WANTED: &[(&str, &str)] = &[
    ("mass", "write a mass with g, kg, oz or lb, such as 30g"),
    ("mass-unit", "write g, kg, oz or lb"),
    (
        "pounds",
        "write whole pounds and less than 16 ounces, such as 1lb4oz",
    ),
    ("mass-above-zero", "it must be above zero, such as 30g"),
    ("mass-or-none", "it must be zero or more, such as 1g"),
    ("above-zero", "it must be above zero"),
    ("zero-or-more", "it must be zero or more"),
    ("percent", "write a number of per cent, such as 10 or 10%"),
    (
        "percent-with-sign",
        "write per cent with their sign, such as 6% or 0.06%",
    ),
    (
        "percent-or-fraction",
        "write a per cent with its sign or a fraction of one, such as 6.25% or 0.0625",
    ),
    (
        "span",
        "write days, hours and minutes, such as 3d, 36h or 2d 12h",
    ),
    ("volume", "write a volume with ml, cl, dl or l, such as 5l"),
    ("volume-range", "it must be above zero and at most 10000 l"),
    (
        "gallon",
        "write usgal for the United States gallon (3.785 l) or impgal for the imperial one (4.546 l); likewise qt, pt and floz",
    ),
    (
        "temperature",
        "write a temperature with degC or degF, such as 54degC",
    ),
    ("temperature-unit", "write degC or degF"),
    (
        "day",
        "write a day: 2026-05-01, today, yesterday or tomorrow",
    ),
    (
        "moment",
        "write a time of today (18:30), a day (2026-05-01, today, yesterday), a day and a time (yesterday 22:10, 2026-05-01T18:30), or all with its offset (2026-05-01T18:30+02:00)",
    ),
    ("name", "write a name of 1 to {} characters, such as {}"),
    ("words", "write words of at most {} characters"),
    (
        "loss",
        "it must be above 0 and below 80 per cent of the first weight",
    ),
    (
        "mark",
        "it must be from 1 (never again) over 5 (as it should be) to 9 (the best yet)",
    ),
    ("later", "it must be later"),
    ("two-years", "it must be within two years"),
    ("a-minute", "it must be a minute or more"),
    ("what-came-out", "write what came out weighs"),
    (
        "measure-again",
        "read the measure again, and weigh without the vessel",
    ),
    (
        "weigh-what-came-out",
        "weigh what came out, such as with `batch yield`; in them are {}",
    ),
    ("ingredients-are", "they have {}"),
    ("ingredient-has", "it has {}"),
    ("above-minus-hundred", "it must be above -100 per cent"),
    ("one-with-a-number", "change one that has a number"),
    ("kitchen-mass", "it must be a mass a kitchen can have"),
    (
        "weigh-meat-and-water",
        "weigh the meat and the water; the rest follows",
    ),
    ("sugar-range", "it must be from 0 to 67 per cent"),
    ("sugar-most", "it must be at most 40 % of solution"),
    (
        "salt-most",
        "salt must be at most 35.86 % of the water, which is saturation at 60 degF",
    ),
    (
        "salt-of-water-most",
        "it must be at most 35.86 % of the water, which is saturation at 60 degF",
    ),
    ("density", "write kilograms per cubic metre, such as 1070"),
    (
        "density-temperatures",
        "it must be from 0 to 40 degC, which is what the density tables cover",
    ),
    ("brine-holds", "there brine holds at most {} % of solution"),
    ("shared-salt", "it must be above 0 and at most 15 per cent"),
    ("more-water-or-dry", "use more water, or salt the meat dry"),
    ("thickness", "it must be above 0 and at most 500 mm"),
    ("degrees-between", "it must be from {} to {} degC"),
    ("less-ice", "put in less ice, or warmer water"),
    ("kind-of-meat", "write its water in per cent, or one of {}"),
    ("share-of-water", "it must be from 20 to 90 per cent"),
    ("grams-most", "it must be at most {} g"),
    ("vessels-room", "it must be what the vessel takes in all"),
    (
        "basis",
        "write water (salt over water) or solution (salt over the whole brine)",
    ),
    ("material", "write steel, glass or plastic"),
    ("well-below", "it must be well below {}"),
    (
        "say-sugar",
        "say how many per cent of the brine is sugar, or 0 where nothing but salt is dissolved in it: no sugar, syrup, phosphate or curing agent",
    ),
    (
        "label-fraction",
        "read it from the label, such as 6.25% or 0.0625",
    ),
    (
        "contents",
        "write sodium-nitrite, potassium-nitrite, nitrate, nitrite-and-nitrate or vegetable",
    ),
    ("one-of", "write one of {}"),
    (
        "pick-up",
        "it must be above 0 and at most 100 per cent of the raw weight",
    ),
    (
        "gain",
        "it must be above the raw weight and at most twice that",
    ),
    ("ppm-range", "it must be from 0 to 1000000 ppm"),
    ("ppm", "write a number of parts per million, such as 120"),
    ("bacon-rule", "the rule for skin is one for bacon"),
    ("meat-needed", "the raw weight of the meat is needed"),
    (
        "pickle-needed",
        "the weight of the water, salt and sugar is needed",
    ),
    (
        "pick-up-needed",
        "the share of its raw weight that the meat takes up is needed",
    ),
    ("kitchen-scale", "it must be that of a kitchen scale"),
    ("another-size", "write another size"),
    (
        "measure-stages",
        "the formula has stages; measure how warm they are",
    ),
    ("no-stages", "the formula has no stages; leave it out"),
    ("how-much", "write how much of it there is"),
    (
        "coldest-water",
        "write how cold the water at hand is, 0 degC or more",
    ),
    (
        "water-not-ice",
        "write one from 0 to 100 degC; what is ice is said apart",
    ),
    (
        "part-of-water",
        "it is part of the water, of which there is {} g",
    ),
    ("dough-again", "measure again, or put right what went in"),
    ("friction", "write a difference from -20 to 40 degC"),
    ("look-again", "look at the temperatures again"),
    ("dough-degrees", "write one from -30 to 60 degC"),
    ("goes-in", "write how much of it goes in"),
    (
        "label-salt",
        "write the salt of its label in per cent, above 0 and at most 50",
    ),
    (
        "salt-and-water",
        "salt and water together are at most 100 per cent of it",
    ),
    (
        "as-its-label",
        "write it as its label has it: NAME=150g,salt=16%,water=65%, or sodium=6.4% for the salt",
    ),
    (
        "write-the-salt",
        "write the salt, or sauces and pastes with the salt of their labels",
    ),
    (
        "more-water",
        "use more water; salting dry is not reckoned by this",
    ),
    (
        "shape",
        "write slab for a flat piece or cylinder for a long round one",
    ),
    (
        "points",
        "write within how many percentage points it is known, above 0 and at most 10",
    ),
    ("salt-percent", "write one from 0 to 26.395 per cent"),
    (
        "bath-alone",
        "weigh the bath without its vessel, or leave its mass out",
    ),
    (
        "try-stirred",
        "try the bath again, stirred, and say what went into it",
    ),
    ("try-again", "try it again, and say what went into the bath"),
    ("weight-before", "write what it weighs before it goes in"),
    ("bath-degrees", "write one from -3 to 30 degC"),
    ("when-out", "write when it came out"),
    (
        "same-pieces",
        "weigh the same pieces without their vessel; half to twice as much is possible",
    ),
    ("initials", "write one to four letters, such as MO"),
    (
        "portion-id",
        "write it as it is listed, such as 00000000000000a1-00000001-17",
    ),
    (
        "reason",
        "say why, in 1 to 200 characters, such as \"dropped\"",
    ),
    (
        "day-begins",
        "write a time from 00:00 to 12:00, such as 04:00",
    ),
    (
        "cooks-setting",
        "write own (a cook's own, the rest together) or hidden (each, names hidden)",
    ),
    (
        "money",
        "write an amount and a currency's ISO 4217 code, such as 4.50 EUR",
    ),
    (
        "cost",
        "write an amount, a currency's ISO 4217 code and the mass it buys, such as 1800 EUR/kg",
    ),
    (
        "map",
        "write which heading holds what, such as time=When,mass=Weight,dish=Dish,cook=Cook,target=Target; time and mass are needed",
    ),
    ("dish-column", "name its column in --map, or give --dish"),
    (
        "target-column",
        "give --target, name its column in --map, or add the dish first",
    ),
    (
        "reach-of-target",
        "a portion weighs from a tenth of its target to {} times as much; check --units and the columns",
    ),
    (
        "target-and-tolerance",
        "give a target above zero and a --tolerance below it",
    ),
    (
        "portion-mass",
        "a portion weighs more than nothing and at most 100 kg; check --units",
    ),
    (
        "local-time",
        "write a local time (2026-05-01 18:30:05) or one with its offset (2026-05-01T18:30:05+02:00)",
    ),
    ("loss-here", "write trim, cook, press, spill or tasting"),
    ("latitude", "write degrees from -90 to 90, such as 52.5"),
    ("height", "write whole metres from -500 to 9000, such as 40"),
    (
        "class-weight",
        "a weight of a class is 1, 2, 5, 10, 20, 50 g and so on up to 20 kg; for another say how far it may be out: --within 20mg",
    ),
    ("weight-class", "write E2, F1, F2, M1, M2 or M3"),
    ("services", "write a whole number from 1 to 62"),
    (
        "tin-number",
        "write the number that `evenhand tin list` shows",
    ),
    ("bought", "write tin, fish, cut or batch"),
    (
        "leave-plate-out",
        "leave it out: weight and cost are those of its portions",
    ),
    ("dish-or-name", "give a component a dish or a name"),
    ("served", "write what is served of it, such as 120g"),
    (
        "as-bought",
        "write what it costs as bought, such as 2.40 EUR/kg",
    ),
    ("above-none-to-all", "write above 0% to 100%"),
    ("none-to-below-all", "write 0% to below 100%"),
    (
        "formula-file",
        "write name, how, limits, [[base]], [[other]] and [[stage]] as a formula has them",
    ),
    (
        "base-hundred",
        "what the shares are of comes to 100 per cent in all: the flours of a dough, stages included",
    ),
    ("own-name", "give each a name of its own"),
    (
        "scale-step",
        "write the step that the scale shows, such as 1 g",
    ),
    ("lower-mark", "taste and mark one, or write a lower mark"),
    ("one-or-more", "write one or more of {}"),
];

/// The code of a phrase, and what stands where the table has `{}`.
pub(super) fn code_of<'p>(
    table: &'static [(&'static str, &'static str)],
    phrase: &'p str,
) -> Option<(&'static str, Vec<&'p str>)> {
    table
        .iter()
        .find_map(|(code, pattern)| Some((*code, filled(pattern, phrase)?)))
}

/// What fills the gaps of a pattern; `None` where the phrase is another.
fn filled<'p>(pattern: &str, phrase: &'p str) -> Option<Vec<&'p str>> {
    let mut parts = pattern.split("{}");
    let mut rest = phrase.strip_prefix(parts.next()?)?;
    let mut filled = Vec::new();
    let mut parts = parts.peekable();
    while let Some(part) = parts.next() {
        let end = if parts.peek().is_none() {
            rest.len()
                .checked_sub(part.len())
                .filter(|_| rest.ends_with(part))?
        } else {
            rest.find(part)?
        };
        let (value, after) = rest.split_at_checked(end)?;
        filled.push(value);
        rest = after.strip_prefix(part)?;
    }
    rest.is_empty().then_some(filled)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_phrase_has_its_code_and_what_stands_in_it() {
        let reason = code_of(PROBLEMS, "has the unit \"ml\", which is no mass known here");
        assert_eq!(reason, Some(("other-mass-unit", vec!["\"ml\""])));
        assert_eq!(code_of(PROBLEMS, "is empty"), Some(("empty", Vec::new())));
        let twice = "write a name of 1 to 40 characters, such as \"jug\"";
        assert_eq!(
            code_of(WANTED, twice),
            Some(("name", vec!["40", "\"jug\""]))
        );
        assert_eq!(code_of(PROBLEMS, "is empty of sense"), None);
    }

    /// No phrase is found under another's code, and no code stands for two.
    #[test]
    fn every_phrase_has_one_code() {
        for table in [PROBLEMS, WANTED] {
            for (code, pattern) in table {
                let phrase = pattern.replace("{}", "7");
                assert_eq!(code_of(table, &phrase).map(|(code, _)| code), Some(*code));
                let same = table.iter().filter(|(other, _)| other == code).count();
                assert_eq!(same, 1, "{code}");
            }
        }
    }
}
