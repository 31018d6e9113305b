//! What is typed wrong is refused in each language, with no English in it, and
//! machines are told by which code.

use crate::at_saltmarsh::Kitchen;
use crate::in_three_languages::Faults;

/// Commands with something wrong in them, and the codes of what is wrong and of
/// what to write instead.
const WRONG: &[(&str, &str, &str)] = &[
    (
        "brine convert --salometer 130",
        "above-saturation",
        "salometer",
    ),
    (
        "brine convert --salometer ten",
        "no-number-first",
        "degrees",
    ),
    (
        "brine convert --of-water 80",
        "above-saturation",
        "salt-of-water",
    ),
    (
        "brine convert --of-solution -1",
        "negative",
        "salt-of-solution",
    ),
    (
        "brine convert --density 1.07 --at 20degC",
        "grams-per-cm3",
        "density",
    ),
    (
        "brine convert --density 1400 --at 20degC",
        "more-than-saturated",
        "density-at",
    ),
    (
        "brine convert --density 1070 --at 80degC",
        "too-warm-for-density",
        "density-temperatures",
    ),
    (
        "brine mix --strength 8 --basis both --volume 5l",
        "no-basis",
        "basis",
    ),
    (
        "brine mix --strength 8 --basis water --volume 5",
        "no-unit",
        "volume",
    ),
    (
        "brine mix --strength 8 --basis water --volume 5gal",
        "two-sizes",
        "gallon",
    ),
    (
        "brine mix --strength 8 --basis water --water 5ml",
        "other-mass-unit",
        "mass",
    ),
    (
        "brine mix --strength 8 --basis water --water 1,5kg",
        "comma",
        "mass",
    ),
    (
        "brine share --meat 1kg --salt 40",
        "too-salty",
        "shared-salt",
    ),
    (
        "brine share --meat 1kg --salt 2 --thickness wide",
        "no-number-first",
        "millimetres",
    ),
    (
        "brine share --meat 1kg --salt 2 --thickness 900",
        "no-thickness",
        "thickness",
    ),
    (
        "brine share --meat 1kg --water 1kg --salt 2 --kind unicorn",
        "no-such-meat",
        "kind-of-meat",
    ),
    (
        "brine correct --brine 4kg --strength 8 --to 6 --basis water --room 1kg",
        "too-little-room",
        "vessels-room",
    ),
    (
        "cure ppm --nitrite-fraction 6.25 --agent 5g --method dry --meat 1kg",
        "over-one",
        "percent-or-fraction",
    ),
    (
        "cure ppm --nitrite-fraction 6.25% --agent 5g --method boiled --meat 1kg",
        "no-method",
        "one-of",
    ),
    (
        "cure ppm --nitrite-fraction 6.25% --agent 5g --method dry",
        "missing-for",
        "meat-needed",
    ),
    (
        "cure dose --nitrite-fraction 6.25% --ppm 1% --method dry --meat 1kg",
        "ppm-in-percent",
        "ppm",
    ),
    (
        "scale set --latitude 95 --height 40",
        "no-latitude",
        "latitude",
    ),
    (
        "scale set --latitude 52 --height deep",
        "no-height",
        "height",
    ),
    (
        "yield cut 2.4kg --pieces 3 --ends 30stone",
        "other-mass-unit",
        "mass",
    ),
    ("tin open --dish Shrimp --net 0g", "zero", "mass-above-zero"),
    ("dish add Shrimp --target 30", "no-unit", "mass"),
    (
        "dish add Shrimp --target 30g --tolerance -1g",
        "negative",
        "mass-or-none",
    ),
    ("service plate Evening --price 26", "no-currency", "money"),
    (
        "service plate Evening --component Celeriac --weight 120g --cost 2.40EUR",
        "no-mass-of-price",
        "cost",
    ),
    ("service show --day 2026-02-30", "no-day", "day"),
];

/// Files with something wrong in them: the command that reads it, what it is
/// called and what is in it.
const WRONG_FILES: &[(&str, &str, &str)] = &[
    (
        "service plates",
        "two.toml",
        "[[plate]]\nname = \"E1\"\n[[plate.component]]\ndish = \"D1\"\n\
         [[plate]]\nname = \"E1\"\n[[plate.component]]\ndish = \"D1\"\n",
    ),
    (
        "service plates",
        "all.toml",
        "[[plate]]\nname = \"E1\"\n[[plate.component]]\nname = \"C1\"\nweight = \"120g\"\n\
         cost = \"2 EUR/kg\"\nyield = \"150%\"\n",
    ),
    (
        "prep menu --keep",
        "key.csv",
        "what,in,name,key,value\nmenu,,,opens,18:00\nmenu,,,shuts,23:00\n",
    ),
    (
        "prep menu --keep",
        "places.csv",
        "what,in,name,key,value\nmenu,,,opens,18:00\nresource,,R1,places,lots\n",
    ),
    (
        "prep menu --keep",
        "opens.csv",
        "what,in,name,key,value\nmenu,,,opens,late\n",
    ),
    ("prep menu --keep", "headings.csv", "one,two\n1,2\n"),
    (
        "prep menu --keep",
        "takes.toml",
        "opens = \"18:00\"\n[[preparation]]\nname = \"P1\"\n[[preparation.step]]\n\
         name = \"S1\"\ntakes = \"ages\"\n",
    ),
    (
        "prep goods --keep",
        "days.csv",
        "supplier,delivers,at,order_by,days_before,goods,pack,price,piece,dish,batch,takes,\
         per_cover\nS1,mon,07:00,,soon,,,,,,,,\n",
    ),
    (
        "prep goods --keep",
        "pack.csv",
        "supplier,delivers,at,order_by,days_before,goods,pack,price,piece,dish,batch,takes,\
         per_cover\nS1,mon,07:00,,,,,,,,,,\nS1,,,,,G1,six,,,,B1,1 l,\n",
    ),
    (
        "formula keep",
        "base.toml",
        "name = \"L1\"\n[[base]]\nname = \"F1\"\npercent = 90\n\
         [[other]]\nname = \"W1\"\npercent = 70\n",
    ),
    ("formula keep", "field.toml", "name = \"L1\"\nbake = 3\n"),
];

/// Words that are to be typed as they stand, in whichever language that is said.
const TYPED: [&str; 10] = [
    "opens, closes, spare, from, until, days",
    "what,in,name,key,value",
    "2 days to 3 days",
    "days_before",
    "name, how, limits",
    "[[other]]",
    "water (",
    "chicken-whole",
    "-with-skin",
    "solution (",
];

#[test]
fn what_is_wrong_in_a_file_is_refused_in_every_language() {
    let kitchen = Kitchen::new();
    let faults = Faults::default();
    let folder = format!("{}/", kitchen.0.path().display());
    for (command, name, text) in WRONG_FILES {
        let file = kitchen.file(name, text);
        let mut arguments: Vec<&str> = command.split(' ').collect();
        arguments.push(&file);
        let out = kitchen.evenhand(&arguments);
        if out.status.code() != Some(2) {
            let found = format!("ends with {:?}", out.status.code());
            faults.add(&arguments, "en", &[found]);
        }
        let names = [&[folder.as_str(), name][..], &TYPED].concat();
        faults.speaks(&kitchen, &names, &arguments);
    }
}

#[test]
fn what_is_typed_wrong_is_refused_in_every_language() {
    let kitchen = Kitchen::new();
    let faults = Faults::default();
    for (command, problem, expected) in WRONG {
        let arguments: Vec<&str> = command.split(' ').collect();
        faults.speaks(&kitchen, &TYPED, &arguments);
        let out = kitchen.evenhand(&[&arguments[..], &["--json"]].concat());
        let told = String::from_utf8(out.stderr).unwrap();
        for (what, code) in [("problem", problem), ("expected", expected)] {
            let said = format!("\"{what}\":\"{code}\"");
            if !told.contains(&said) {
                faults.add(&arguments, "json", &[format!("has no {said}: {told}")]);
            }
        }
    }
}
