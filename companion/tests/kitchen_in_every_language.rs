//! What is said of heat, batches, brines, cures, lots and prep in each language.

use crate::at_saltmarsh::Kitchen;
use crate::in_three_languages::Faults;
use evenhand_kitchen::brine;
use evenhand_kitchen::limits::Limits;

const LOG: &str = "time,celsius\n2026-05-01T18:00:00Z,75\n2026-05-01T18:05:00Z,68\n\
    2026-05-01T18:10:00Z,62\n2026-05-01T18:15:00Z,57\n2026-05-01T18:20:00Z,52.5\n\
    2026-05-01T18:25:00Z,48.4\n2026-05-01T18:30:00Z,44.8\n2026-05-01T18:35:00Z,41.7\n\
    2026-05-01T18:40:00Z,39\n2026-05-01T18:45:00Z,36.6\n2026-05-01T20:10:00Z,30\n\
    2026-05-01T20:15:00Z,62\n2026-05-01T20:20:00Z,61\n";

/// A kitchen with one log on record, a marker in it and two corrections.
fn with_a_log() -> Kitchen {
    let kitchen = Kitchen::new();
    let log = kitchen.file("stock.csv", LOG);
    for arguments in [
        &["heat", "log", "--name", "Stock", "--in", &log][..],
        &[
            "heat",
            "mark",
            "loaded",
            "--name",
            "Stock",
            "--at",
            "2026-05-01T18:02Z",
        ],
        &["heat", "aim", "--name", "Stock", "--limit", "cooling"],
        &[
            "heat",
            "correct",
            "--name",
            "Stock",
            "--from",
            "2026-05-01T18:30Z",
            "--to",
            "2026-05-01T18:31Z",
            "--add",
            "1.5degC",
            "--reason",
            "R1",
        ],
        &[
            "heat",
            "correct",
            "--name",
            "Stock",
            "--from",
            "2026-05-01T18:40Z",
            "--to",
            "2026-05-01T18:41Z",
            "--leave-out",
            "--reason",
            "R2",
        ],
        &["heat", "correct", "--lift", "2"],
    ] {
        kitchen.words(arguments);
    }
    kitchen
}

#[test]
fn heat_is_said_in_every_language() {
    let all = Faults::default();
    let names = ["Stock", "stock.csv", "stock", "R1", "R2"];
    let kitchen = with_a_log();
    let log = kitchen.file("stock.csv", LOG);
    let bad = kitchen.file("bad.csv", "time,celsius\nnow,3\n");
    let folder = kitchen.0.path().display().to_string();
    let limits: Vec<String> = Limits::food_code()
        .iter()
        .map(|limit| limit.name.clone())
        .collect();
    let mut known: Vec<&str> = limits.iter().map(String::as_str).collect();
    known.sort_by_key(|name| std::cmp::Reverse(name.len()));
    let names: Vec<&str> = [folder.as_str()]
        .into_iter()
        .chain(names)
        .chain(known)
        .chain([
            "limits.toml",
            "probe-within-celsius",
            "[probe]",
            "time,celsius",
            "type =",
            "class =",
            "converter-celsius",
            "cold-junction-celsius",
        ])
        .collect();
    for limit in &limits {
        all.speaks(
            &kitchen,
            &names,
            &[
                "heat",
                "check",
                "--log",
                &log,
                "--limit",
                limit,
                "--probe-within",
                "1.5degC",
            ],
        );
    }
    let at = ["--at", "2026-05-01T18:50Z"];
    for arguments in [
        &["heat", "log"][..],
        &["heat", "log", "--name", "Stock"],
        &["heat", "limits"],
        &[
            "heat",
            "probe",
            "--type",
            "K",
            "--class",
            "2",
            "--converter",
            "0.25degC",
            "--cold-junction",
            "2degC",
        ],
        &["heat", "probe"],
        &["heat", "check", "--name", "Stock", at[0], at[1]],
        &[
            "heat",
            "check",
            "--name",
            "Stock",
            at[0],
            at[1],
            "--organism",
            "listeria-meat",
            "--reference",
            "70degC",
            "--z",
            "7.5degC",
            "--z-source",
            "Z1",
        ],
        &[
            "heat", "forecast", "--name", "Stock", "--from", "20degC", "--to", "25degC", at[0],
            at[1],
        ],
        &[
            "heat", "forecast", "--log", &log, "--from", "50degC", "--to", "55degC", at[0], at[1],
        ],
        // What cannot be.
        &["heat", "aim", "--name", "Stock", "--limit", "freshness"],
        &["heat", "check", "--log", &log],
        &["heat", "check", "--log", &bad, "--limit", "cooling"],
        &[
            "heat", "check", "--log", &log, "--limit", "cooling", "--back", "long",
        ],
        &[
            "heat",
            "check",
            "--log",
            &log,
            "--limit",
            "cooling",
            "--organism",
            "mould",
        ],
        &[
            "heat",
            "check",
            "--log",
            &log,
            "--limit",
            "cooling",
            "--probe-within",
            "50degC",
        ],
        &["heat", "check", "--name", "Nobody", "--limit", "cooling"],
        &[
            "heat", "forecast", "--log", &log, "--from", "50degC", "--to", "20degC",
        ],
        &[
            "heat",
            "correct",
            "--name",
            "Stock",
            "--from",
            "2026-05-01",
            "--to",
            "2026-05-02",
            "--reason",
            "R3",
        ],
        &[
            "heat",
            "correct",
            "--name",
            "Stock",
            "--from",
            "2026-05-02",
            "--to",
            "2026-05-01",
            "--reason",
            "R3",
            "--leave-out",
        ],
        &["heat", "correct", "--lift", "first"],
        &["heat", "correct", "--lift", "99"],
        &["heat", "watch", "--name", "Stock", "--name", "stock"],
        &["heat", "watch", "--name", "Stock"],
        &[
            "heat",
            "watch",
            "--name",
            "Stock",
            "--for",
            "long",
            "--simulated",
        ],
    ] {
        let mut names = names.clone();
        names.extend([
            "Z1",
            "R3",
            "Nobody",
            "nowhere.csv",
            "celsius",
            "listeria-meat",
            "listeria-fatty-beef",
            "salmonella-beef",
            "Listeria monocytogenes",
        ]);
        all.speaks(&kitchen, &names, arguments);
    }
    for arguments in [
        &[
            "heat",
            "mark",
            "loaded",
            "--name",
            "Stock",
            "--at",
            "2026-05-01T18:02Z",
        ][..],
        &["heat", "aim", "--name", "Stock", "--limit", "cooling"],
        &[
            "heat", "aim", "--name", "Stock", "--from", "204degC", "--to", "216degC",
        ],
        &[
            "heat",
            "correct",
            "--name",
            "Stock",
            "--from",
            "2026-05-01T18:30Z",
            "--to",
            "2026-05-01T18:31Z",
            "--add",
            "1.5degC",
            "--reason",
            "R1",
        ],
        &["heat", "correct", "--lift", "1"],
        &["heat", "log", "--name", "Other", "--in", &log],
    ] {
        all.does(with_a_log, &[&names[..], &["Other"]].concat(), arguments);
    }
    for arguments in [
        &["heat", "log"][..],
        &["heat", "limits"],
        &["heat", "check", "--log", &log, "--limit", "cooling"],
        &[
            "heat", "forecast", "--log", &log, "--from", "50degC", "--to", "55degC",
        ],
    ] {
        all.tells_machines(&kitchen, arguments);
    }
}

/// The words of a command, between spaces.
fn split(command: &str) -> Vec<&str> {
    command.split_whitespace().collect()
}

/// A kitchen in which these commands were carried out.
fn after(commands: &[&str]) -> Kitchen {
    let kitchen = Kitchen::new();
    for command in commands {
        kitchen.words(&split(command));
    }
    kitchen
}

/// Names of the kitchen's own, which stay as they are.
const OWN: [&str; 9] = ["B1", "B2", "N1", "N2", "R1", "J1", "T1", "D1", "L1"];

/// Three batches: two mixed and tasted, one cured, planned, drying and cold.
fn with_batches() -> Kitchen {
    after(&[
        "batch begin --title B1 --at 2026-03-03T18:00",
        "batch weigh 1 --mass 500g --name N1 --at 2026-03-03T18:00",
        "batch weigh 1 --mass 900g --name N2 --temperature 18degC --at 2026-03-03T18:01",
        "batch weigh 1 --mass -10g --item 1 --at 2026-03-03T18:02",
        "batch taste 1 --mark 5 --note T1 --at 2026-03-03T19:00",
        "batch yield 1 --name L1 --mass 700g --volume 0.7l --at 2026-03-03T19:30",
        "batch begin --title B1 --at 2026-03-04T18:00",
        "batch weigh 2 --mass 500g --name N1 --at 2026-03-04T18:00",
        "batch weigh 2 --mass 1kg --name N2 --at 2026-03-04T18:00",
        "batch begin --title B2 --at 2026-03-05T18:00",
        "batch weigh 3 --mass 2kg --name pork --at 2026-03-05T18:00",
        "batch weigh 3 --mass 12g --agent D1 --nitrite-fraction 6.25% --at 2026-03-05T18:01",
        "batch weigh 3 --mass 3g --at 2026-03-05T18:02",
        "batch plan 3 --for 10d --every 12h --at 2026-03-05T18:05",
        "batch turned 3 --at 2026-03-06T18:00",
        "batch dry 3 --loss 30 --at 2026-03-06T18:00",
        "batch reweigh 3 --mass 1.9kg --at 2026-03-08T18:00",
        "batch store 3 --temperature 3degC --at 2026-03-06T18:00",
        "batch store 3 --temperature 7degC --at 2026-03-06T22:00",
        "batch note 3 T1 --at 2026-03-06T18:00",
        "batch strike 3 --line 12 --reason R1 --at 2026-03-07T18:00",
    ])
}

#[test]
fn batches_are_said_in_every_language() {
    let all = Faults::default();
    let names = [&OWN[..], &["pork", "water=5"]].concat();
    let kitchen = with_batches();
    for command in [
        "batch list",
        "batch list --title none-of-it",
        "batch show 1",
        "batch show 3",
        "batch due",
        "batch compare B1",
        "batch compare B1 --of N1",
        "batch again 1 --more N2=5 --amount N1=1kg",
        "batch again 3 --total 1kg",
        "batch yields B1 --of N1",
        // What cannot be.
        "batch show first",
        "batch show 99",
        "batch compare B9",
        "batch compare B1 --of pork",
        "batch again 1 --more N2 --amount N1=1kg",
        "batch again 1 --amount pork=1kg",
        "batch again 1 --amount N1=0g",
        "batch name 3 --item 2",
        "batch name 3 --item 2 --name pink-salt",
        "batch weigh 1 --mass 5g --item 9",
        "batch weigh 1 --mass 5 --name N1",
        "batch weigh 1 --mass 5stone --name N1",
        "batch weigh 1 --mass -5kg --item 1",
        "batch weigh 1 --mass 5g --agent D1 --nitrite-fraction 30%",
        "batch weigh 1 --mass 5g --name N1 --at 2100-01-01",
        "batch weigh 1 --mass 5g --name N1 --temperature 5",
        "batch plan 1 --for 10000000d",
        "batch plan 1 --for long",
        "batch plan 1 --due 2026-03-01 --at 2026-03-02",
        "batch dry 1 --loss 90",
        "batch taste 1 --mark 12",
        "batch strike 1 --line 99 --reason R1",
        "batch ready 1 --method dry",
        "batch ready 3",
        "batch ready 3 --method dry --meat 1kg",
        "batch yields B9 --of N1",
        "batch yields B1 --of pork",
        "batch yields B1 --of N1 --picture picture.txt",
    ] {
        let names = [
            &names[..],
            &["B9", "picture.txt", "pink-salt", "BATCH", "TITLE"],
        ]
        .concat();
        all.speaks(&kitchen, &names, &split(command));
    }
    for command in [
        "batch begin --title B2",
        "batch taste 2 --mark 9 --note T1",
        "batch turned 3",
        "batch out 3",
        "batch ready 2",
        "batch plan 2 --for 3d --at 2026-03-04T18:00",
    ] {
        all.does(with_batches, &names, &split(command));
    }
    all.speaks(&Kitchen::new(), &names, &split("batch begin --at tomorrow"));
    for command in [
        "batch list",
        "batch show 3",
        "batch due",
        "batch compare B1",
    ] {
        all.tells_machines(&kitchen, &split(command));
    }
}

#[test]
fn brines_are_said_in_every_language() {
    let all = Faults::default();
    let kitchen = after(&[
        "brine vessel fill J1 --water 997.16g --at 20degC --empty 400g",
        "brine vessel fill N1 --water 997.16g --at 20degC",
        "batch begin --title B1",
    ]);
    let mut kinds: Vec<&str> = brine::MEAT_WATER.iter().map(|kind| kind.name).collect();
    kinds.sort_by_key(|name| std::cmp::Reverse(name.len()));
    let names = [
        &OWN[..],
        &["BATCH", "steel", "glass", "plastic"],
        &["escriba water", "écrivez water"],
        &kinds,
    ]
    .concat();
    for command in [
        "brine convert --of-water 10",
        "brine convert --of-solution 26",
        "brine mix --water 5kg --strength 8 --basis water",
        "brine mix --volume 5l --strength 10 --basis solution --sugar 3",
        "brine mix --brine 10kg --strength 6 --basis solution --sugar 3 --ice 2kg",
        "brine mix --water 5kg --strength 8 --basis water --ice 1kg --water-at 20degC",
        "brine mix --water 5kg --strength 8 --basis water --ice 4kg --water-at 10degC",
        "brine correct --brine 4kg --strength 6 --to 6 --basis solution --ice 1kg",
        "brine correct --brine 4kg --strength 6 --to 3 --basis solution --room 4kg",
        "brine correct --brine 4kg --strength 3 --to 6 --basis solution --room 4kg",
        "brine correct --brine 4kg --strength 6 --to 6 --basis water",
        "brine correct --brine 4kg --strength 6 --to 3 --basis water",
        "brine weigh --vessel J1 --net 1069.66g --at 20degC --sugar 0",
        "brine weigh --vessel-volume 1l --net 1069.66g --at 20degC --sugar 3 --scale-d 1g",
        "brine share --meat 2kg --water 1kg --salt 3 --kind lean-beef --thickness 40",
        "brine share --meat 2kg --water 1kg --salt 3",
        "brine vessel list",
        // What cannot be.
        "brine convert --density 1.07 --at 20degC",
        "brine convert --density 1070 --at -2degC",
        "brine convert --density 1070 --at warm",
        "brine mix --water 0kg --strength 8 --basis water",
        "brine mix --water 5 --strength 8 --basis water",
        "brine mix --water 1,5kg --strength 8 --basis water",
        "brine mix --volume 1gal --strength 8 --basis water",
        "brine mix --volume 5l --strength 8 --basis percent",
        "brine mix --volume 5l --strength 8 --basis water --at 80degC",
        "brine mix --water 5kg --strength 8 --basis water --ice 6kg",
        "brine mix --water 5kg --strength 8 --basis water --sugar 60",
        "brine correct --brine 1kg --strength 6 --to 0 --basis water",
        "brine correct --brine 1kg --strength 6 --to 3 --basis water --room 900g",
        "brine weigh --vessel J9 --net 1069.66g --at 20degC --sugar 0",
        "brine weigh --vessel J1 --net 1070g --at 20degC",
        "brine weigh --vessel J1 --net 1070g --at 20degC --sugar unknown",
        "brine weigh --vessel-volume 1l --net 1070g --at 20degC --material wood",
        "brine share --meat 1kg --salt 0.06",
        "brine share --meat 10kg --water 100g --salt 3",
        "brine share --meat 1kg --salt 2 --thickness 0",
        "brine share --meat 2kg --water 1kg --salt 3 --kind dragon",
        "brine expect 1 --core 1.6%",
        "brine expect 9 --core 1.6%",
    ] {
        all.speaks(&kitchen, &names, &split(command));
    }
    let vessel = || after(&["brine vessel fill J1 --water 997.16g --at 20degC"]);
    all.does(vessel, &names, &split("brine vessel retire J1"));
    all.does(
        vessel,
        &names,
        &split("brine vessel fill J1 --water 1kg --at 4degC --material glass"),
    );
    all.speaks(
        &after(&["batch begin --title B1"]),
        &names,
        &split("brine vessel list"),
    );
    for command in [
        "brine convert --of-water 10",
        "brine mix --water 5kg --strength 8 --basis water",
        "brine weigh --vessel-volume 1l --net 1069.66g --at 20degC --sugar 3 --scale-d 1g",
        "brine vessel list",
    ] {
        all.tells_machines(&kitchen, &split(command));
    }
}

const PIECE: &str = "brine in --cut N1 --mass 1kg --thickness 20 --kind oily-fish --water 2kg \
    --salt 120g --at 2026-05-01T09:00";

#[test]
fn what_a_piece_takes_up_is_said_in_every_language() {
    let all = Faults::default();
    let names = [&OWN[..], &["oily-fish", "BATCH"]].concat();
    all.does(Kitchen::new, &names, &split(PIECE));
    let asked = format!("{PIECE} --core 1.6% --for 5h");
    all.does(Kitchen::new, &names, &split(&asked));
    let known: Vec<String> = (1..=3)
        .flat_map(|batch| {
            let out = format!(
                "brine out {batch} --mass 1050g --at 2026-05-01T14:00 --bath-after 4.9% --within 0.1"
            );
            [PIECE.to_owned(), out]
        })
        .collect();
    let known: Vec<&str> = known.iter().map(String::as_str).collect();
    let kitchen = after(&[&known[..], &[PIECE]].concat());
    for command in [
        "brine expect 4 --core 1.6% --for 5h",
        "brine out 4 --mass 100g --at 2026-05-01T14:00",
        "brine out 4 --mass 1.05kg --at 2026-05-01T14:00 --bath-after 6.5%",
        "brine out 4 --mass 1.05kg --at 2026-05-01T14:00 --bath-after 4.9% --bath-mass 20kg",
        "brine out 4 --mass 1.05kg --at 2026-05-01T08:00",
        "brine out 1 --mass 1.05kg --at 2026-05-01T18:00",
    ] {
        all.speaks(&kitchen, &names, &split(command));
    }
    for command in [
        "brine out 1 --mass 1050g --at 2026-05-01T14:00 --bath-after 4.9% --within 0.1",
        "brine out 1 --mass 1050g --at 2026-05-01T14:00",
    ] {
        all.does(|| after(&[PIECE]), &names, &split(command));
    }
    all.tells_machines(&kitchen, &split("brine expect 4 --core 1.6% --for 5h"));
}

#[test]
fn cures_are_said_in_every_language() {
    let all = Faults::default();
    let kitchen = after(&["batch begin --title B1"]);
    let methods: Vec<&str> = evenhand_kitchen::cure::Method::ALL
        .into_iter()
        .map(|method| method.name())
        .rev()
        .collect();
    let contents = [
        "nitrite-and-nitrate",
        "sodium-nitrite",
        "potassium-nitrite",
        "vegetable",
    ];
    let names = [&OWN[..], &methods, &contents, &["◆"]].concat();
    for command in [
        "cure limits",
        "cure ppm --nitrite-fraction 6.25% --agent 5g --method dry --meat 2kg",
        "cure ppm --nitrite-fraction 6.25% --agent 50g --method dry --meat 2kg",
        "cure ppm --nitrite-fraction 6.25% --agent 4g --method bacon-pumped --water 1kg \
         --pickup 10% --contents sodium-nitrite",
        "cure ppm --nitrite-fraction 6.25% --agent 5g --method comminuted --meat 2kg \
         --scale-d 1g",
        "cure dose --nitrite-fraction 6.25% --ppm 150 --method comminuted --meat 2kg",
        "cure dose --nitrite-fraction 6.25% --ppm 150 --method comminuted --meat 200g \
         --scale-d 1g",
        // What cannot be.
        "cure dose --nitrite-fraction 6.25% --ppm 900 --method dry --meat 2kg",
        "cure dose --nitrite-fraction 6.25% --ppm 0 --method dry --meat 2kg",
        "cure dose --nitrite-fraction 6.25% --ppm 1% --method dry --meat 2kg",
        "cure ppm --nitrite-fraction 30% --agent 5g --method dry --meat 2kg",
        "cure ppm --nitrite-fraction 6.25 --agent 5g --method dry --meat 2kg",
        "cure ppm --nitrite-fraction 6.25% --agent 5g --method dry --meat 2kg \
         --contents nitrate",
        "cure ppm --nitrite-fraction 6.25% --agent 5g --method dry --meat 2kg \
         --contents herbs",
        "cure ppm --nitrite-fraction 6.25% --agent 5g --method dry",
        "cure ppm --nitrite-fraction 6.25% --agent 5g --method smoke --meat 2kg",
        "cure ppm --nitrite-fraction 6.25% --agent 5g --meat 2kg",
    ] {
        all.speaks(&kitchen, &names, &split(command));
    }
    for command in [
        "cure limits",
        "cure ppm --nitrite-fraction 6.25% --agent 12g --method dry --meat 2kg",
    ] {
        all.tells_machines(&kitchen, &split(command));
    }
}

#[test]
fn lots_are_said_in_every_language() {
    let all = Faults::default();
    let kitchen = with_a_log();
    let text = "title = 'L1'\n[[step]]\nname = 'N1'\nfrom = '2026-05-01T18:00:00Z'\n\
        to = '2026-05-01T20:00:00Z'\nlog = 'Stock'\nlimit = 'cooling'\n\
        [[step]]\nname = 'N2'\nfrom = '2026-05-01T20:20:00Z'\nto = '2026-05-01T20:40:00Z'\n";
    let lot = kitchen.file("lot.toml", text);
    let names = [
        &OWN[..],
        &[
            "Stock",
            "cooling",
            "limits.toml",
            "probe-within-celsius",
            "[probe]",
        ],
    ]
    .concat();
    let folder = kitchen.0.path().display().to_string();
    let names = [&[folder.as_str(), "lot.toml"], &names[..]].concat();
    let limits: Vec<String> = Limits::food_code()
        .iter()
        .map(|limit| limit.name.clone())
        .collect();
    let mut known: Vec<&str> = limits.iter().map(String::as_str).collect();
    known.sort_by_key(|name| std::cmp::Reverse(name.len()));
    let names = [&known[..], &names].concat();
    all.speaks(&kitchen, &names, &["lot", "check", &lot]);
    for (old, new) in [
        ("title = 'L1'", "title = ''"),
        ("limit = 'cooling'", "limit = 'freshness'"),
        ("log = 'Stock'\n", ""),
        ("to = '2026-05-01T20:00:00Z'", "to = '2026-05-01T17:00:00Z'"),
        ("to = '2026-05-01T20:00:00Z'", "to = '2026-05-01T20:30:00Z'"),
        ("to = '2026-05-01T20:00:00Z'\n", ""),
    ] {
        let lot = kitchen.file("lot.toml", &text.replacen(old, new, 1));
        let names = [&names[..], &["freshness", "title"]].concat();
        all.speaks(&kitchen, &names, &["lot", "check", &lot]);
    }
    let lot = kitchen.file("lot.toml", text);
    all.tells_machines(&kitchen, &["lot", "check", &lot]);
}

const MENU: &str = "opens = '18:00'\ncloses = '22:00'\ndays = ['fri']\n[[resource]]\nname = 'R1'\n\
    places = 2\n[[preparation]]\nname = 'N1'\n\
    step = [{ name = 'T1', takes = '1 h', needs = 'R1' }]\n[[preparation]]\nname = 'N2'\n\
    batch = { portions = 60, keeps = '14 days', source = 'L1', needs = 12 }\n\
    step = [{ name = 'T2', takes = '20 min', needs = 'R1' }]\n";

const GOODS: &str = "[[supplier]]\nname = 'D1'\ndelivers = ['tue', 'fri']\nat = '09:30'\n\
    order_by = '16:00'\n[[goods]]\nname = 'B1'\nsupplier = 'D1'\npack = '500 g'\n\
    price = '11.50 EUR'\nfor = [{ dish = 'N1' }]\n[[goods]]\nname = 'B2'\nsupplier = 'D1'\n\
    pack = '12 pieces'\nfor = [{ batch = 'N2', takes = '3 pieces' }]\n";

fn with_a_menu() -> Kitchen {
    let kitchen = Kitchen::new();
    let menu = kitchen.file("menu.toml", MENU);
    let goods = kitchen.file("goods.toml", GOODS);
    kitchen.words(&["prep", "menu", "--keep", &menu]);
    kitchen.words(&["prep", "goods", "--keep", &goods]);
    kitchen.words(&split("dish add N1 --target 30g --tolerance 1g --adding"));
    kitchen
}

#[test]
fn prep_is_said_in_every_language() {
    let all = Faults::default();
    let names = [
        &OWN[..],
        &[
            "T2",
            "EUR",
            "AMOUNT",
            "GOODS",
            "PREPARATION",
            "COVERS",
            "fish: wash and beard",
            "PORTIONS",
            "STEP",
            "PACKS",
        ],
    ]
    .concat();
    let kitchen = with_a_menu();
    for command in [
        "prep plan --for 2026-05-08 --at 2026-05-08T10:00:00Z",
        "prep plan --for 2026-05-08 --at 2026-05-08T17:30:00Z",
        "prep week --from 2026-05-04 --at 2026-05-04T10:00:00Z",
        "prep order --at 2026-05-07T12:00:00Z",
        "prep par --dish N1 --for 2026-05-08 --covers 40 --per-cover 0.6 --yield 0.5 --in-hand 1kg",
        // What cannot be.
        "prep plan --for someday",
        "prep plan --for 2026-05-08 --days-ahead many",
        "prep plan --for 2026-05-08 --later nothing",
        "prep plan --for 2026-05-08 --covers some",
        "prep plan --for 2026-05-08 --done T9",
        "prep par --dish N1 --for 2026-05-08",
        "prep par --dish N1 --for 2026-05-08 --covers 40 --yield 2",
        "prep par --dish N9 --for 2026-05-08 --covers 40",
        "prep order --days many",
        "prep count B9 1kg",
        "prep count B1 1l",
        "prep ordered B1 some --for 2026-05-08",
        "prep orders --put-back some",
        "prep orders --put-back 77",
        "prep label N2 --for 2026-05-08 --tubs 0",
        "prep gone N2 --for 2026-05-08 --at 2026-05-08T10:00:00Z",
    ] {
        all.speaks(
            &kitchen,
            &[&names[..], &["N9", "T9", "B9"]].concat(),
            &split(command),
        );
    }
    for command in [
        "prep covers 40 --for 2026-05-08",
        "prep left N1 3 --for 2026-05-08",
        "prep count B1 1kg",
        "prep count B2 3pieces",
        "prep ordered B1 2 --for 2026-05-08",
        "prep orders",
        "prep orders --take-back 3 --reason N1",
        "prep orders --put-back 3",
    ] {
        all.does(with_a_menu, &names, &split(command));
    }
    for step in [
        &[
            "prep",
            "tick",
            "N1: T1",
            "--for",
            "2026-05-08",
            "--at",
            "2026-05-08T16:00:00Z",
        ][..],
        &[
            "prep",
            "tick",
            "N1: T1",
            "--for",
            "2026-05-08",
            "--at",
            "2026-05-08T16:00:00Z",
            "--begun",
            "--by",
            "L1",
        ],
        &[
            "prep",
            "delay",
            "N1: T1",
            "--for",
            "2026-05-08",
            "--until",
            "2026-05-08T16:00:00Z",
        ],
    ] {
        all.does(with_a_menu, &names, step);
    }
    all.speaks(
        &after(&["batch begin --title B1"]),
        &names,
        &split("prep plan --for 2026-05-08"),
    );
    for command in [
        "prep plan --for 2026-05-08 --at 2026-05-08T10:00:00Z",
        "prep order --at 2026-05-07T12:00:00Z",
    ] {
        all.tells_machines(&kitchen, &split(command));
    }
}
