//! A value of a megabyte in whatever a kitchen writes down: it is refused,
//! and what is said of it is short enough to be read.

use evenhand_kitchen::heat::read_table;
use evenhand_kitchen::limits::Limits;
use evenhand_kitchen::lot::Lot;
use evenhand_kitchen::plate;
use evenhand_kitchen::prep::Board;
use jiff::Timestamp;
use jiff::civil::date;
use jiff::tz::TimeZone;

/// As much as some lines of a terminal.
const READABLE: usize = 1_000;

fn long() -> String {
    "x".repeat(1_000_000)
}

#[track_caller]
fn is_short(what: &str, said: &str) {
    // The witness: something was refused, and it says what.
    assert!(!said.is_empty(), "{what}");
    assert!(said.len() < READABLE, "{what}: {} bytes", said.len());
}

#[test]
fn of_a_menu() {
    let long = long();
    let menu = |line: &str| {
        format!(
            "opens = \"18:00\"\n[[preparation]]\nname = \"necks\"\n[[preparation.step]]\n{line}\n"
        )
    };
    for (what, text) in [
        (
            "an opening time",
            format!("opens = \"{long}\"\npreparation = []\n"),
        ),
        ("a field that is unknown", menu(&format!("{long} = 1"))),
        (
            "a name",
            menu(&format!("name = \"{long}\"\ntakes = \"20 min\"")),
        ),
        (
            "a length",
            menu(&format!("name = \"cut\"\ntakes = \"{long}\"")),
        ),
        (
            "a number that is text",
            menu(&format!("name = \"cut\"\nportions = \"{long}\"")),
        ),
        (
            "what it needs",
            menu(&format!(
                "name = \"cut\"\ntakes = \"1 min\"\nneeds = \"{long}\""
            )),
        ),
        (
            "what it comes after",
            menu(&format!(
                "name = \"cut\"\ntakes = \"1 min\"\nafter = [\"{long}\"]"
            )),
        ),
        ("no TOML at all", long.clone()),
    ] {
        let refused = Board::from_menu(&text, date(2026, 5, 8), TimeZone::UTC).unwrap_err();
        is_short(what, &refused.to_string());
    }
}

#[test]
fn of_limits_plates_and_lots() {
    let long = long();
    let limit = format!("[[limit]]\nname = \"{long}\"\nkind = \"{long}\"\n");
    is_short(
        "a limit",
        &Limits::in_force(Some(&limit)).unwrap_err().to_string(),
    );
    let plate = format!("[[plate]]\nname = \"{long}\"\nprice = \"{long}\"\n");
    is_short("a plate", &plate::read(&plate).unwrap_err().to_string());
    let now = Timestamp::UNIX_EPOCH.to_zoned_datetime(TimeZone::UTC);
    let lot = format!("title = \"L\"\n[[step]]\nname = \"{long}\"\nfrom = \"{long}\"\n");
    is_short("a lot", &Lot::read(&lot, &now).unwrap_err().to_string());
}

#[test]
fn of_a_heat_table() {
    let long = long();
    for table in [
        format!("{long}\n"),
        format!("time,celsius\n{long},3\n"),
        format!("time,celsius\n2026-05-01T18:00:00Z,{long}\n"),
    ] {
        is_short(
            "a table",
            &read_table("log", &table).unwrap_err().to_string(),
        );
    }
}

/// A name that a terminal would take for a command is none.
#[test]
fn a_name_in_a_menu_is_letters() {
    let menu = "opens = \"18:00\"\n[[preparation]]\nname = \"neck\\u001b[2Js\"\n\
                [[preparation.step]]\nname = \"cut\"\ntakes = \"20 min\"\n";
    let refused = Board::from_menu(menu, date(2026, 5, 8), TimeZone::UTC).unwrap_err();
    let said = refused.to_string();
    assert!(said.contains("control characters"), "{said}");
    assert!(!said.contains('\u{1b}'), "{said:?}");
}
