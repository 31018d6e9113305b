//! What is said of portions, services and the book in each language, in the made-up kitchen.

use crate::at_saltmarsh::Kitchen;
use crate::in_three_languages::{Faults, OTHERS, all_of, findings};
use std::path::Path;

/// What the made-up kitchen calls its own, and what stands as it is in every language.
const NAMES: &[&str] = &[
    "Buckthorn parfait",
    "Hogget neck, celeriac",
    "Hogget neck",
    "hogget neck",
    "Potato dough",
    "Potted shrimp, toast",
    "Potted shrimp",
    "Gnudi",
    "Celeriac",
    "Stock, reduced",
    "Bread",
    "Oatcake",
    "Estuary loaf",
    "Smoked eel",
    "Sea trout",
    "Saltmarsh",
    "undone",
    "lot 57",
    "evenhand service show",
    "OIML R 76-1",
    "--data",
    "MO",
    // Arguments and fields as they are written.
    "FILE",
    "LINE",
    "NAME",
    "LIMIT",
    "TITLE",
    "name:",
    "name\u{a0}:",
    "limits:",
    "or off",
    "u off",
    "ou off",
    // Files and folders.
    "taken-out",
    "out.csv",
    // What the system says besides.
    "(os error 2)",
];

/// The made-up kitchen on an evening of its own, the same in every run.
fn demo() -> Kitchen {
    let kitchen = Kitchen::new();
    kitchen.words(&["demo", "--no-screens", "--at", "2026-05-02T16:00"]);
    kitchen
}

fn copied(from: &Path, to: &Path) {
    std::fs::create_dir_all(to).unwrap();
    for entry in std::fs::read_dir(from).unwrap() {
        let entry = entry.unwrap();
        let to = to.join(entry.file_name());
        if entry.file_type().unwrap().is_dir() {
            copied(&entry.path(), &to);
        } else {
            std::fs::copy(entry.path(), to).unwrap();
        }
    }
}

/// Without times of day: what happens now has another in each run.
fn timeless(text: &str) -> String {
    // After midnight, too: `00:12:08`, `16:02`; not `23:`, a number before a colon.
    let is_time = |word: &str| {
        word.contains(':')
            && word
                .split(':')
                .all(|part| part.len() == 2 && part.bytes().all(|letter| letter.is_ascii_digit()))
    };
    text.lines()
        .map(|line| {
            line.split(' ')
                .filter(|word| !is_time(word))
                .collect::<Vec<_>>()
                .join(" ")
                + "\n"
        })
        .collect()
}

/// Without figures: a simulated bench that runs as fast as it can is read at other moments
/// each time.
fn without_figures(text: &str) -> String {
    text.chars()
        .filter(|letter| !letter.is_ascii_digit())
        .collect()
}

/// A command that changes the store, in each language on a copy of it.
fn does(faults: &Faults, kitchen: &Kitchen, names: &[&str], arguments: &[&str]) {
    done(faults, kitchen, names, arguments, timeless);
}

fn done(
    faults: &Faults,
    kitchen: &Kitchen,
    names: &[&str],
    arguments: &[&str],
    cleared: impl Fn(&str) -> String,
) {
    let run = |language| {
        let copy = Kitchen::new();
        copied(kitchen.0.path(), copy.0.path());
        let folder = copy.0.path().display().to_string();
        let arguments: Vec<String> = arguments
            .iter()
            .map(|argument| argument.replace("FOLDER", &folder))
            .collect();
        let arguments: Vec<&str> = arguments.iter().map(String::as_str).collect();
        cleared(&all_of(&copy, language, &arguments).replace(&folder, ""))
    };
    let english = run("en");
    assert!(!english.is_empty(), "{arguments:?} says nothing");
    for language in OTHERS {
        faults.add(
            arguments,
            language,
            &findings(&english, &run(language), names),
        );
    }
}

#[test]
fn services_and_the_spread_are_said_in_every_language() {
    let faults = Faults::default();
    let kitchen = demo();
    for arguments in [
        &["service", "show"][..],
        &["service", "show", "--unit", "oz", "--below-promise"],
        &["service", "show", "--day", "2026-04-30"],
        &["service", "show", "--day", "2026-01-01"],
        &["service", "list", "--most", "3"],
        &["service", "settings"],
        &["service", "plates"],
        &["spread"],
        &["spread", "--by", "hour", "--dish", "potted shrimp"],
        &["spread", "--by", "tin", "--day", "2026-05-01"],
        &["spread", "--by", "cook", "--cook", "MO"],
        &["spread", "--from", "2020-01-01", "--to", "2020-01-02"],
        // What cannot be.
        &["spread", "--dish", "nobody's"],
        &["spread", "--from", "2026-05-02", "--to", "2026-05-01"],
        &["spread", "--unit", "stone"],
        &["spread", "--report", "wall.doc"],
        &["spread", "--report", "wall.pdf", "--day", "2026-01-01"],
        &["service", "plates", "nowhere.toml"],
        &["service", "close", "--day", "2026-04-30"],
        &[
            "service",
            "close",
            "--day",
            "2026-04-30",
            "--last-order",
            "2026-05-01T22:00",
        ],
    ] {
        faults.speaks(&kitchen, NAMES, arguments);
    }
    for arguments in [
        &[
            "service",
            "open",
            "--day",
            "2026-05-02",
            "--first-order",
            "18:30",
        ][..],
        &[
            "service",
            "close",
            "--day",
            "2026-05-02",
            "--last-order",
            "22:45",
        ],
        &[
            "service",
            "close",
            "--day",
            "2026-05-01",
            "--last-order",
            "18:00",
        ],
        &["service", "settings", "--cook-figures", "hidden"],
        &[
            "service",
            "out",
            "potted shrimp",
            "2",
            "--day",
            "2026-05-01",
        ],
        &["service", "ready", "gnudi", "1", "--day", "2026-05-01"],
        &["spread", "--report", "FOLDER/wall.svg"],
    ] {
        does(&faults, &kitchen, NAMES, arguments);
    }
    kitchen.words(&["service", "settings", "--cook-figures", "hidden"]);
    faults.speaks(&kitchen, NAMES, &["service", "settings"]);
    faults.speaks(&kitchen, NAMES, &["spread", "--by", "cook"]);
    for arguments in [&["service", "show"][..], &["service", "list"], &["spread"]] {
        faults.tells_machines(&kitchen, arguments);
    }
}

#[test]
fn what_is_handed_over_is_said_in_every_language() {
    let faults = Faults::default();
    let kitchen = demo();
    // What the kitchen wrote itself stays as it is.
    let handover = kitchen.json(&["service", "handover"]);
    let own: Vec<String> = ["steps", "due", "notes"]
        .iter()
        .flat_map(|part| handover[part].as_array().unwrap())
        .flat_map(|row| row.as_object().unwrap().values())
        .flat_map(|value| match value {
            serde_json::Value::Array(of) => of.clone(),
            other => vec![other.clone()],
        })
        .filter_map(|value| value.as_str().map(str::to_owned))
        .filter(|words| words.contains(' ') || words.len() > 3)
        .collect();
    let names: Vec<&str> = own
        .iter()
        .map(String::as_str)
        .chain(NAMES.iter().copied())
        .collect();
    faults.speaks(&kitchen, &names, &["service", "handover"]);
}

#[test]
fn dishes_tins_and_yields_are_said_in_every_language() {
    let faults = Faults::default();
    let kitchen = demo();
    for arguments in [
        &["dish", "list"][..],
        &["dish", "history", "gnudi"],
        &["tin", "list"],
        &["yield", "show", "1"],
        &["yield", "show", "2"],
        &["yield", "days"],
        &["yield", "cut", "2.4kg", "--ends", "150g", "--each", "100g"],
        &["yield", "cut", "2.4kg", "--dish", "hogget neck"],
        &["yield", "cut", "2.4kg", "--pieces", "1"],
        // What cannot be.
        &["yield", "cut", "2.4kg"],
        &["yield", "cut", "2.4kg", "--ends", "3kg", "--pieces", "4"],
        &["yield", "cut", "100g", "--each", "200g"],
        &["yield", "strike", "first"],
        &["yield", "strike", "9999"],
        &["yield", "show", "9999"],
        &["dish", "melt", "gnudi", "long"],
        &["dish", "melt", "gnudi", "3 s"],
        &["dish", "add", "brawn"],
        &[
            "dish",
            "add",
            "brawn",
            "--target",
            "30g",
            "--tolerance",
            "1g",
        ],
        &[
            "dish",
            "add",
            "brawn",
            "--adding",
            "--target",
            "30g",
            "--tolerance",
            "40g",
        ],
        &["dish", "rename", "gnudi", "potted shrimp"],
        &["strike", "00000000000000a1-00000001-17", "--reason", "R1"],
    ] {
        faults.speaks(&kitchen, &[NAMES, &["brawn", "R1"]].concat(), arguments);
    }
    for arguments in [
        &[
            "dish",
            "add",
            "brawn",
            "--adding",
            "--target",
            "30g",
            "--tolerance",
            "1g",
        ][..],
        &["dish", "rename", "gnudi", "Brawn"],
        &["dish", "retire", "hogget neck"],
        &["dish", "melt", "buckthorn parfait", "6 min"],
        &["dish", "melt", "buckthorn parfait", "off"],
        &[
            "tin",
            "open",
            "--dish",
            "potted shrimp",
            "--net",
            "500g",
            "--price",
            "90 EUR",
        ],
        &[
            "tin", "open", "--dish", "gnudi", "--net", "1kg", "--kind", "fish", "--label", "L1",
        ],
        &["tin", "close", "22"],
        &["yield", "lose", "22", "press", "12g"],
        &["yield", "left", "22", "0g"],
        &["yield", "strike", "3"],
        &["undo"],
    ] {
        does(
            &faults,
            &kitchen,
            &[NAMES, &["brawn", "Brawn", "L1"]].concat(),
            arguments,
        );
    }
    for arguments in [&["dish", "list"][..], &["tin", "list"], &["yield", "days"]] {
        faults.tells_machines(&kitchen, arguments);
    }
}

#[test]
fn keeping_is_said_in_every_language() {
    let faults = Faults::default();
    let kitchen = demo();
    let names = &[NAMES, &["brawn", "When", "Weight", "Dish", "tuna"]].concat();
    let weighings = kitchen.file(
        "weighings.csv",
        "When,Weight,Dish\n2026-05-01T18:30Z,30.1,Gnudi\n2026-05-01T18:31Z,39.9,Gnudi\n",
    );
    let bad = kitchen.file(
        "bad.csv",
        "When,Weight,Dish\n2026-05-01T18:30Z,30.1,Gnudi\n2026-05-01T18:31Z,3,9,9,Gnudi\n\"x,1,Gnudi\n",
    );
    let folder = kitchen.0.path().display().to_string();
    let names: Vec<&str> = names.iter().copied().chain([folder.as_str()]).collect();
    let map = ["--map", "time=When,mass=Weight,dish=Dish", "--units", "g"];
    faults.speaks(&kitchen, &names, &["check"]);
    for file in [&weighings, &bad] {
        let arguments = [&["import", file.as_str()][..], &map, &["--preview"]].concat();
        faults.speaks(&kitchen, &names, &arguments);
    }
    let headings = [
        "--map",
        "time=Whenever,mass=Weight,dish=Dish",
        "--units",
        "g",
    ];
    let wrong = [
        &["import", weighings.as_str()][..],
        &headings,
        &["--preview"],
    ]
    .concat();
    faults.speaks(&kitchen, &[&names[..], &["Whenever"]].concat(), &wrong);
    faults.speaks(
        &kitchen,
        &names,
        &[&["import", "nowhere.csv"][..], &map].concat(),
    );
    faults.speaks(&kitchen, &names, &["restore", "nowhere.sqlite3"]);
    faults.speaks(
        &kitchen,
        &names,
        &["export", "--format", "csv", "--out", &weighings],
    );
    for arguments in [
        &["backup", "FOLDER/copy.sqlite3"][..],
        &["backup", "FOLDER/weighings.csv"],
        &["backup", "FOLDER/data/evenhand.sqlite3"],
        &["export", "--format", "csv", "--out", "FOLDER/out.csv"],
        &[&["import", "FOLDER/weighings.csv"][..], &map].concat(),
        &[&["import", "FOLDER/bad.csv"][..], &map].concat(),
        &["demo", "--no-screens", "--at", "2026-05-02T16:00"],
        &["simulate", "--pty", "--scenario", "nowhere"],
    ] {
        does(&faults, &kitchen, &names, arguments);
    }
    faults.tells_machines(&kitchen, &["check"]);
}

#[test]
fn the_book_is_said_in_every_language() {
    let faults = Faults::default();
    let kitchen = demo();
    let formula = kitchen.file(
        "brawn.toml",
        "name = 'Brawn'\n[[base]]\nname = 'meat'\npercent = 100\n[[other]]\nname = 'stock'\npercent = 50\n",
    );
    let names = &[
        NAMES,
        &[
            "Brawn",
            "meat",
            "stock",
            "flour",
            "leaven",
            "wholemeal",
            "water",
        ],
    ]
    .concat();
    for arguments in [
        &["formula", "list"][..],
        &["formula", "pictures"],
        // What cannot be.
        &["formula", "show", "Nobody"],
        &["formula", "page", "Nobody"],
        &["formula", "share", "Nobody", "--base", "flour"],
        &["formula", "picture", "Nobody", "nowhere.jpg"],
        &["formula", "picture-off", "99"],
        &["formula", "keep", "nowhere.toml"],
        &["book", "import", "nowhere"],
    ] {
        faults.speaks(&kitchen, &[names, &["Nobody"][..]].concat(), arguments);
    }
    for arguments in [
        &["formula", "keep", formula.as_str()][..],
        &["formula", "remove", "Estuary loaf"],
        &["book", "export", "FOLDER/book"],
        &["book", "export", "FOLDER/book", "--form", "csv"],
        &["book", "import", "FOLDER/data"],
    ] {
        does(&faults, &kitchen, names, arguments);
    }
}

#[test]
fn the_scale_and_portioning_are_said_in_every_language() {
    let faults = Faults::default();
    let kitchen = demo();
    for arguments in [
        &["scale", "history"][..],
        // What cannot be.
        &["scale", "try", "--weight", "200g"],
        &["scale", "set"],
        &["scale", "doctor", "--simulated", "--speed", "fast"],
        &["scale", "doctor", "--simulated", "--scenario", "nowhere"],
        &["scale", "doctor", "--port", "/dev/nowhere"],
        &[
            "portion",
            "--dish",
            "gnudi",
            "--count",
            "none",
            "--simulated",
        ],
        &["portion", "--dish", "gnudi"],
        &["portion", "--dish", "brawn", "--simulated"],
        &[
            "portion",
            "--dish",
            "brawn",
            "--target",
            "30g",
            "--simulated",
        ],
    ] {
        faults.speaks(
            &kitchen,
            &[NAMES, &["brawn", "saltmarsh"]].concat(),
            arguments,
        );
    }
    for arguments in [
        &["scale", "try", "--weight", "200g", "--simulated"][..],
        &[
            "scale",
            "calibrate",
            "--weight",
            "500g",
            "--weight",
            "1kg",
            "--simulated",
        ],
        &["scale", "recall", "--simulated"],
        &["scale", "set", "--probe", "K", "--simulated"],
        &["portion", "--dish", "gnudi", "--count", "3", "--simulated"],
    ] {
        done(&faults, &kitchen, NAMES, arguments, without_figures);
    }
    faults.tells_machines(&kitchen, &["scale", "history"]);
}
