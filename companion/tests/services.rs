//! Services, yields, renamed dishes and tallies: in the store and as they are
//! run.

use evenhand_kitchen::cook::Cook;
use evenhand_kitchen::dish::DishName;
use evenhand_kitchen::portion::StrikeReason;
use evenhand_kitchen::service::{DayBegins, ServiceCalendar};
use evenhand_kitchen::spread::Spread;
use evenhand_kitchen::tin::TinKind;
use evenhand_kitchen::units::{CostPerMass, Money};
use evenhand_protocol::report::Doubts;
use evenhand_protocol::{
    CapturedPortion, DeviceId, Epoch, Goal, Mass, Mode, PortionId, RunId, SelfTest, Tolerance,
    UnixMillis, Uptime,
};
use evenhand_store::{
    By, DataFolder, InstrumentMoment, NewRun, NewTin, Query, Store, StoreError, Tally,
};
use jiff::Timestamp;
use jiff::tz::TimeZone;
use serde_json::Value;
use std::process::{Command, Stdio};
use tempfile::TempDir;

pub(super) fn name(name: &str) -> DishName {
    DishName::new("dish", name).unwrap()
}

pub(super) fn at(text: &str) -> Timestamp {
    text.parse().unwrap()
}

pub(super) fn goal() -> Goal {
    Goal::new(
        Mass::from_grams(30),
        Tolerance::symmetric(Mass::from_grams(1)),
    )
    .unwrap()
}

pub(super) struct Kitchen {
    folder: TempDir,
    pub(super) store: Store,
    number: u32,
}

impl Kitchen {
    pub(super) fn new() -> Self {
        let folder = tempfile::tempdir().unwrap();
        let store = Store::open(&DataFolder::choose(Some(folder.path())).unwrap()).unwrap();
        Self {
            folder,
            store,
            number: 0,
        }
    }

    /// The same folder, with no connection to its store.
    fn without_the_store_open(mut self) -> Self {
        let aside = self.folder.path().join("another");
        self.store = Store::open(&DataFolder::choose(Some(&aside)).unwrap()).unwrap();
        self
    }

    fn open_again(&mut self) {
        self.store = Store::open(&DataFolder::choose(Some(self.folder.path())).unwrap()).unwrap();
    }

    pub(super) fn begin(&mut self, dish: &str, cook: Option<&str>) -> RunId {
        self.store
            .set_dish(
                &name(dish),
                goal(),
                Mode::Taking,
                None,
                at("2026-01-01T00:00Z"),
            )
            .unwrap();
        let new = NewRun {
            dish: name(dish),
            goal: goal(),
            mode: Mode::Taking,
            cook: cook.map(|cook| Cook::new("cook", cook).unwrap()),
            tin: None,
        };
        self.store
            .begin_run(&new, at("2026-01-01T00:00Z"))
            .unwrap()
            .id
    }

    pub(super) fn portion(
        &mut self,
        run: RunId,
        time: &str,
        milligrams: i64,
        replaces: Option<u32>,
    ) -> PortionId {
        self.doubted(run, at(time), milligrams, replaces, Doubts::NONE)
    }

    pub(super) fn doubted(
        &mut self,
        run: RunId,
        time: Timestamp,
        milligrams: i64,
        replaces: Option<u32>,
        doubts: Doubts,
    ) -> PortionId {
        self.number += 1;
        let id = PortionId {
            device: DeviceId(7),
            epoch: Epoch(1),
            number: self.number,
        };
        let captured = CapturedPortion {
            id,
            run,
            at: Uptime::from_millis(u64::from(self.number) * 1000),
            unix: Some(UnixMillis::from_millis(time.as_millisecond())),
            mode: Mode::Taking,
            mass: Mass::from_milligrams(milligrams),
            goal: goal(),
            temperature: None,
            replaces,
            doubts,
            uncertainty: None,
            left: None,
            chain_link: None,
        };
        self.store.record(&captured, None, time).unwrap();
        id
    }

    /// A test of the scale with a known 500 g.
    pub(super) fn scale_test(&mut self, time: &str, indicated: i64) {
        let of = InstrumentMoment {
            device: DeviceId(7),
            epoch: Epoch(1),
            at: Uptime::from_millis(at(time).as_millisecond() as u64),
        };
        let test = SelfTest {
            known: Mass::from_grams(500),
            indicated: Mass::from_milligrams(indicated),
            limit: Mass::from_grams(1),
            uncertainty: Mass::from_milligrams(100),
        };
        self.store.record_test(of, &test, at(time)).unwrap();
    }

    fn tallies(&mut self, from: Option<&str>) -> Vec<Tally> {
        self.store
            .tallies(By::Hour, &TimeZone::UTC, from.map(at), None)
            .unwrap()
    }

    /// The tallies together, beside the portions counted one by one.
    #[track_caller]
    fn assert_tallies_agree(&mut self) {
        let mut together = Spread::new();
        for tally in self.tallies(None) {
            together.merge(&tally.spread.all);
        }
        assert_eq!(together, self.store.spread(&Query::default()).unwrap());
    }

    pub(super) fn run(&self, arguments: &[&str]) -> (i32, String, String) {
        let output = Command::new(env!("CARGO_BIN_EXE_evenhand"))
            .env("LC_ALL", "C")
            .args(arguments)
            .env("EVENHAND_DATA", self.folder.path())
            .env("TZ", "UTC")
            .stdin(Stdio::null())
            .output()
            .unwrap();
        (
            output.status.code().unwrap_or(-1),
            String::from_utf8(output.stdout).unwrap(),
            String::from_utf8(output.stderr).unwrap(),
        )
    }

    #[track_caller]
    pub(super) fn done(&self, arguments: &[&str]) -> String {
        let (code, out, err) = self.run(arguments);
        assert_eq!(code, 0, "{arguments:?}: {err}");
        out
    }

    #[track_caller]
    pub(super) fn json(&self, arguments: &[&str]) -> Vec<Value> {
        self.done(arguments)
            .lines()
            .map(|line| serde_json::from_str(line).unwrap())
            .collect()
    }

    #[track_caller]
    fn refused(&self, arguments: &[&str], sentence: &str) {
        let (code, _, err) = self.run(arguments);
        assert_eq!(code, 2, "{arguments:?}: {err}");
        assert!(err.contains(sentence), "{arguments:?}: {err}");
    }
}

#[test]
fn tallies_follow_strikes_corrections_and_undoing() {
    let mut kitchen = Kitchen::new();
    let run = kitchen.begin("Shrimp", Some("MO"));
    let other = kitchen.begin("Parfait", None);
    let first = kitchen.portion(run, "2026-05-01T18:10Z", 30_100, None);
    kitchen.portion(run, "2026-05-01T18:50Z", 31_900, None);
    kitchen.portion(other, "2026-05-01T18:55Z", 28_000, None);
    kitchen.assert_tallies_agree();
    let number = kitchen.number;
    kitchen.portion(other, "2026-05-01T19:05Z", 29_500, Some(number));
    kitchen.assert_tallies_agree();
    // The correction undone: what it corrected, in another half hour, counts again.
    kitchen
        .store
        .undo_last(None, at("2026-05-01T19:06Z"))
        .unwrap();
    kitchen.assert_tallies_agree();
    let reason = StrikeReason::new("reason", "fell").unwrap();
    kitchen
        .store
        .strike(first, &reason, at("2026-05-01T19:07Z"))
        .unwrap();
    kitchen.assert_tallies_agree();
    kitchen
        .store
        .lift_strike(first, at("2026-05-01T19:08Z"))
        .unwrap();
    kitchen.assert_tallies_agree();
    // A first cost is also that of what was portioned before.
    let cost = CostPerMass::parse("cost", "1800 EUR/kg").unwrap();
    kitchen
        .store
        .set_dish(
            &name("shrimp"),
            goal(),
            Mode::Taking,
            Some(cost),
            at("2026-06-01T00:00Z"),
        )
        .unwrap();
    kitchen.assert_tallies_agree();
    let costed = |tallies: &[Tally]| tallies.iter().any(|tally| tally.spread.all.costed() > 0);
    assert!(costed(&kitchen.tallies(None)));
    let n =
        |tallies: Vec<Tally>| -> usize { tallies.iter().map(|tally| tally.spread.all.n()).sum() };
    let from = at("2026-05-01T18:30Z");
    let counted = kitchen.store.portions(&Query::default()).unwrap();
    let counted = counted
        .iter()
        .filter(|portion| portion.counts() && portion.time >= from);
    assert_eq!(
        n(kitchen.tallies(Some("2026-05-01T18:30Z"))),
        counted.count()
    );
}

#[test]
fn a_renamed_and_retired_dish_keeps_its_history() {
    let mut kitchen = Kitchen::new();
    let run = kitchen.begin("Shrimp pot", None);
    kitchen.portion(run, "2026-05-01T18:10Z", 30_100, None);
    kitchen.done(&["dish", "rename", "shrimp pot", "Potted shrimp"]);
    kitchen.done(&["dish", "add", "Potted shrimp", "--target", "28g"]);
    kitchen.done(&["dish", "retire", "SHRIMP POT"]);
    let spread = kitchen.json(&["spread", "--dish", "Shrimp pot", "--json"]);
    assert_eq!(spread[0]["dish"], "Potted shrimp");
    assert_eq!(spread[0]["n"], 1);
    let history = kitchen.json(&["dish", "history", "Shrimp pot", "--json"]);
    assert_eq!(history.len(), 2);
    assert_eq!(history[0]["target_grams"], 30.0);
    assert_eq!(history[1]["target_grams"], 28.0);
    assert_eq!(history[1]["former_names"][0]["name"], "Shrimp pot");
    assert!(history[1]["retired"].is_string());
    // Another dish may take the old name; then it is that dish's.
    kitchen.begin("Shrimp pot", None);
    let spread = kitchen.json(&["spread", "--dish", "Shrimp pot", "--json"]);
    assert_eq!(spread[0]["n"], 0);
    kitchen.refused(
        &["dish", "rename", "Shrimp pot", "potted SHRIMP"],
        "there is a dish \"potted SHRIMP\" already",
    );
}

#[test]
fn a_service_runs_past_midnight() {
    let mut kitchen = Kitchen::new();
    let run = kitchen.begin("Shrimp", None);
    kitchen.portion(run, "2026-05-01T22:10Z", 30_100, None);
    kitchen.portion(run, "2026-05-02T00:40Z", 30_300, None);
    kitchen.portion(run, "2026-05-02T18:40Z", 30_300, None);
    kitchen.done(&[
        "service",
        "open",
        "--day",
        "2026-05-01",
        "--first-order",
        "18:30",
    ]);
    kitchen.done(&[
        "service",
        "close",
        "--day",
        "2026-05-01",
        "--last-order",
        "00:45",
    ]);
    let service = &kitchen.json(&["service", "show", "--day", "2026-05-01", "--json"])[0];
    assert_eq!(service["first_order"], "2026-05-01T18:30:00Z");
    assert_eq!(service["last_order"], "2026-05-02T00:45:00Z");
    assert_eq!(service["dishes"][0]["n"], 2);
    let list = kitchen.json(&["service", "list", "--json"]);
    assert_eq!(
        list.iter()
            .map(|service| (
                service["day"].as_str().unwrap(),
                service["portions"].as_u64().unwrap()
            ))
            .collect::<Vec<_>>(),
        [("2026-05-02", 1), ("2026-05-01", 2)]
    );
    kitchen.refused(
        &[
            "service",
            "close",
            "--day",
            "2026-05-01",
            "--last-order",
            "17:00",
        ],
        "the last order of 2026-05-01 would be before its first one",
    );
    kitchen.refused(
        &[
            "service",
            "open",
            "--day",
            "2026-05-03",
            "--first-order",
            "2026-05-01T19:00",
        ],
        "is in the service of 2026-05-01, not of 2026-05-03",
    );
    // A day that begins at midnight ends there.
    kitchen.done(&["service", "settings", "--day-begins", "00:00"]);
    let service = &kitchen.json(&["service", "show", "--day", "2026-05-02", "--json"])[0];
    assert_eq!(service["dishes"][0]["n"], 2);
    kitchen.refused(
        &["service", "settings", "--cook-figures", "ranked"],
        "--cook-figures: \"ranked\" is no setting for the cooks' figures; write own",
    );
}

#[test]
fn days_with_portions_are_found_without_reading_every_portion() {
    let mut kitchen = Kitchen::new();
    let run = kitchen.begin("Shrimp", None);
    for day in ["2026-05-01", "2026-05-03", "2026-05-09"] {
        kitchen.portion(run, &format!("{day}T19:00Z"), 30_000, None);
        kitchen.portion(run, &format!("{day}T20:00Z"), 30_000, None);
    }
    let calendar = ServiceCalendar::new(TimeZone::UTC, DayBegins::default());
    let days = |until: Option<&str>, most| {
        kitchen
            .store
            .service_days(&calendar, until.map(|day| day.parse().unwrap()), most)
            .unwrap()
            .iter()
            .map(ToString::to_string)
            .collect::<Vec<_>>()
    };
    assert_eq!(days(None, 2), ["2026-05-09", "2026-05-03"]);
    assert_eq!(days(Some("2026-05-08"), 9), ["2026-05-03", "2026-05-01"]);
}

#[test]
fn a_neck_is_followed_from_bone_to_plate() {
    let mut kitchen = Kitchen::new();
    kitchen
        .store
        .set_dish(
            &name("Hogget neck"),
            goal(),
            Mode::Adding,
            None,
            at("2026-01-01T00:00Z"),
        )
        .unwrap();
    let tin = NewTin {
        kind: TinKind::Cut,
        dish: name("Hogget neck"),
        label: "lot 4".to_owned(),
        net: Mass::from_grams(10_000),
        price: Some(Money::parse("price", "120 EUR").unwrap()),
    };
    let tin = kitchen
        .store
        .open_tin(&tin, at("2026-05-01T09:00Z"))
        .unwrap()
        .id
        .to_string();
    kitchen.done(&["yield", "lose", &tin, "trim", "2kg"]);
    kitchen.done(&["yield", "lose", &tin, "cook", "3kg"]);
    kitchen.done(&["yield", "lose", &tin, "spill", "9kg"]);
    kitchen.done(&["yield", "strike", "3"]);
    kitchen.done(&["yield", "left", &tin, "4.9kg"]);
    let flow = &kitchen.json(&["yield", "show", &tin, "--json"])[0];
    assert_eq!(flow["kind"], "cut");
    assert_eq!(flow["lost"]["trim_grams"], 2000.0);
    assert_eq!(flow["lost"]["spill_grams"], 0.0);
    assert_eq!(flow["ready_grams"], 5000.0);
    assert_eq!(flow["unaccounted_grams"], 100.0);
    assert_eq!(flow["cost_as_bought"], "12.00 EUR/kg");
    // 120 EUR over what reaches plates or is left: 10 kg less 5 kg lost by name and 100 g
    // that nobody accounts for.
    assert_eq!(flow["cost_as_portioned"], "24.49 EUR/kg");
    assert_eq!(flow["portions_possible_fewest"], 158);
    kitchen.refused(
        &["yield", "lose", &tin, "magic", "1g"],
        "LOSS: \"magic\" is no loss known here; write trim, cook, press, spill or tasting",
    );
    kitchen.refused(
        &["yield", "lose", &tin, "trim", "0g"],
        "MASS: \"0g\" is zero",
    );
    kitchen.refused(&["yield", "strike", "3"], "there is no line 3");
    kitchen.refused(&["yield", "show", "99"], "there is no tin 99");
    assert!(matches!(
        kitchen
            .store
            .strike_yield(3, at("2026-05-01T10:00Z"))
            .unwrap_err(),
        StoreError::UnknownYieldLine(3)
    ));
}

const TABLE: &str = "\u{feff}When,Who,What,Weight,Aim\r\n\
    2026-04-01 18:30:05,mo,Gnudi,41.2,40\r\n\
    2026-04-01 18:30:05,mo,Gnudi,41.2,40\r\n\
    2026-04-02T00:10:00+00:00,,Gnudi,39.9g,40\r\n\
    2026-04-01 19:00,ze,\"Shrimp, mussels\",30.25,\r\n";
const MAP: &str = "time=When,cook=Who,dish=What,mass=Weight,target=Aim";

impl Kitchen {
    fn table(&self, text: &str) -> String {
        let path = self.folder.path().join("earlier.csv");
        std::fs::write(&path, text).unwrap();
        path.display().to_string()
    }

    fn import(&self, file: &str, more: &[&str]) -> Vec<Value> {
        let mut arguments = vec!["import", file, "--map", MAP, "--units", "g", "--json"];
        arguments.extend(more);
        self.json(&arguments)
    }
}

#[test]
fn earlier_weighings_are_brought_in_once() {
    let mut kitchen = Kitchen::new();
    kitchen.begin("Shrimp, mussels", None);
    let file = kitchen.table(TABLE);
    let preview = kitchen.import(&file, &["--preview"]);
    assert_eq!(preview.len(), 5);
    assert_eq!(preview[4]["separator"], "comma");
    assert_eq!(preview[4]["byte_order_mark"], true);
    assert_eq!(preview[3]["target_grams"], 30.0);
    assert_eq!(kitchen.store.portions(&Query::default()).unwrap().len(), 0);
    assert_eq!(kitchen.import(&file, &[])[0]["added"], 4);
    let again = &kitchen.import(&file, &[])[0];
    assert_eq!((&again["added"], &again["already"]), (&0.into(), &4.into()));
    // A longer table adds what is new in it; a third equal line is another portion.
    let longer = format!("{TABLE}\r\n2026-04-01 18:30:05,mo,gnudi,41.2,40\r\n");
    let longer = &kitchen.import(&kitchen.table(&longer), &[])[0];
    assert_eq!(
        (&longer["added"], &longer["already"]),
        (&1.into(), &4.into())
    );
    let spread = kitchen.json(&["spread", "--dish", "gnudi", "--json"]);
    assert_eq!(spread[0]["n"], 4);
    assert_eq!(spread[0]["mean_grams"], 40.875);
    // What was weighed after midnight is of the same service.
    let service = &kitchen.json(&["service", "show", "--day", "2026-04-01", "--json"])[0];
    assert_eq!(service["dishes"].as_array().unwrap().len(), 2);
    kitchen.assert_tallies_agree();
}

#[test]
fn one_bad_line_keeps_everything_out() {
    let kitchen = Kitchen::new();
    let rows = [
        (
            "yesterday,mo,Gnudi,41.2,40",
            "line 6: time: \"yesterday\" is no date with a time of day",
        ),
        (
            "2026-04-01,mo,Gnudi,41.2,40",
            "line 6: time: \"2026-04-01\" is no date with a time of day",
        ),
        ("2926-04-01 18:00,mo,Gnudi,41.2,40", "lies in the future"),
        (
            "1970-01-01 00:00:01,mo,Gnudi,41.2,40",
            "is before the year 2000",
        ),
        (
            "2026-04-01 18:00,mo,Gnudi,-2,40",
            "mass: \"-2\" is not above zero",
        ),
        (
            "2026-04-01 18:00,mo,Gnudi,\"41,2\",40",
            "mass: \"41,2\" has a comma",
        ),
        (
            "2026-04-01 18:00,mo,Gnudi,nan,40",
            "mass: \"nan\" does not begin with a number",
        ),
        ("2026-04-01 18:00,mo,Gnudi,412000,40", "is above 100 kg"),
        ("2026-04-01 18:00,mo,Gnudi,,40", "mass: \"\" is empty"),
        (
            "2026-04-01 18:00,M. O.,Gnudi,41,40",
            "cook: \"M. O.\" is not initials",
        ),
        ("2026-04-01 18:00,mo,,41,40", "dish: \"\" is empty"),
        (
            "2026-04-01 18:00,mo,Other,41,",
            "target: \"Other\" is a dish that is not on record",
        ),
        ("2026-04-01 18:00,mo,Other,41,0.5", "target: \"0.5 g\""),
        ("2026-04-01 18:00", "mass: \"\" is empty"),
    ];
    for (row, reason) in rows {
        let text = TABLE.replace("30.25,", "30.25,40");
        let file = kitchen.table(&format!("{text}{row}\r\n"));
        let arguments = ["import", &file, "--map", MAP, "--units", "g"];
        kitchen.refused(&arguments, reason);
        kitchen.refused(
            &arguments,
            "1 line of 5 cannot be used, so nothing was brought in",
        );
    }
    assert!(
        kitchen
            .store
            .portions(&Query::default())
            .unwrap()
            .is_empty()
    );
    assert!(kitchen.store.dishes().unwrap().is_empty());
    let file = kitchen.table(TABLE);
    let import =
        |map, units| ["import", file.as_str(), "--map", map, "--units", units].map(str::to_owned);
    for (map, units, reason) in [
        ("time=When", "g", "--map: \"time=When\" does not name mass"),
        (
            "time=When,mass=Grams",
            "g",
            "there is no heading \"Grams\"; the file has When, Who",
        ),
        ("time=When,mass", "g", "has \"mass\" without a ="),
        ("time=When,mass=Weight,time=Who", "g", "names time twice"),
        (MAP, "stone", "--units: \"stone\" is not a unit of mass"),
    ] {
        let arguments = import(map, units);
        kitchen.refused(&arguments.each_ref().map(String::as_str), reason);
    }
    kitchen.refused(
        &["import", "not-there.csv", "--map", MAP, "--units", "g"],
        "cannot be read",
    );
}

#[test]
fn a_backup_is_read_back_and_put_back() {
    let mut kitchen = Kitchen::new();
    let run = kitchen.begin("Shrimp", Some("MO"));
    kitchen.portion(run, "2026-05-01T18:10Z", 30_100, None);
    let copy = kitchen.folder.path().join("copy.sqlite3");
    let copied = copy.display().to_string();
    let backup = kitchen.json(&["backup", &copied, "--json"]);
    assert_eq!(backup[0]["portions"], 1);
    let (code, _, err) = kitchen.run(&["backup", &copied]);
    assert_eq!(code, 1);
    assert!(
        err.contains("there is a file of that name already"),
        "{err}"
    );
    kitchen.portion(run, "2026-05-01T18:20Z", 30_300, None);
    // A program has the store open: it would go on with the old file.
    let (code, _, err) = kitchen.run(&["restore", &copied]);
    assert_eq!(code, 1);
    assert!(err.contains("another program"), "{err}");
    assert_eq!(kitchen.store.portions(&Query::default()).unwrap().len(), 2);
    let mut kitchen = kitchen.without_the_store_open();
    let restored = &kitchen.json(&["restore", &copied, "--json"])[0];
    assert_eq!(restored["portions"], 1);
    let aside = restored["set_aside"].as_str().unwrap();
    let restored = &kitchen.json(&["restore", aside, "--json"])[0];
    assert_eq!(restored["portions"], 2);
    kitchen.open_again();
    kitchen.assert_tallies_agree();
}

#[test]
fn damage_is_found_and_a_damaged_copy_never_put_back() {
    let mut kitchen = Kitchen::new();
    let run = kitchen.begin("Shrimp", None);
    for second in 10..59 {
        kitchen.portion(run, &format!("2026-05-01T18:10:{second}Z"), 30_100, None);
    }
    // These came from an instrument without a chain, and that is said.
    let said = kitchen.done(&["check"]);
    assert!(
        said.contains("Scale 0000000000000007 makes no chain of its portions"),
        "{said}"
    );
    let copy = kitchen.folder.path().join("copy.sqlite3");
    let copied = copy.display().to_string();
    kitchen.done(&["backup", &copied]);
    let whole = std::fs::read(&copy).unwrap();
    // A page in the middle overwritten, as by a failing disk.
    let mut broken = whole.clone();
    let middle = broken.len() / 2 / 4096 * 4096;
    broken[middle..middle + 4096].fill(0xA5);
    std::fs::write(&copy, &broken).unwrap();
    let (code, _, err) = kitchen.run(&["restore", &copied]);
    assert_eq!(code, 1);
    assert!(
        err.contains("copy.sqlite3 is damaged or no database"),
        "{err}"
    );
    std::fs::write(
        &copy,
        "not a database at all, only words that fill some space",
    )
    .unwrap();
    assert_eq!(kitchen.run(&["restore", &copied]).0, 1);
    assert_eq!(kitchen.run(&["restore", "not-there.sqlite3"]).0, 1);
    assert_eq!(kitchen.store.portions(&Query::default()).unwrap().len(), 49);

    // The store itself broken: said in plain words, and mended by putting a copy back.
    let elsewhere = Kitchen::new().without_the_store_open();
    std::fs::write(elsewhere.folder.path().join("evenhand.sqlite3"), &broken).unwrap();
    let (code, _, err) = elsewhere.run(&["check"]);
    assert_eq!(code, 1);
    // Which pages lie in the middle decides whether the file's own order or only its rows
    // are spoilt; the remedy is said either way.
    assert!(
        err.contains("put a copy back in its place") || err.contains("evenhand restore FILE"),
        "{err}"
    );
    std::fs::write(&copy, &whole).unwrap();
    let restored = &elsewhere.json(&["restore", &copied, "--json"])[0];
    assert_eq!(restored["portions"], 49);
    assert!(std::path::Path::new(restored["set_aside"].as_str().unwrap()).exists());
    elsewhere.done(&["check"]);
}

#[test]
fn a_page_for_the_wall_is_made_of_a_service() {
    let mut kitchen = Kitchen::new();
    let run = kitchen.begin("Shrimp & <rice>", None);
    for minute in 10..50 {
        let milligrams = 30_000 + (minute * 37) % 900;
        kitchen.portion(run, &format!("2026-05-01T18:{minute}Z"), milligrams, None);
    }
    let path = |name: &str| kitchen.folder.path().join(name);
    for name in ["page.pdf", "page.png", "page.svg"] {
        kitchen.done(&["spread", "--report", path(name).to_str().unwrap()]);
    }
    let bytes = |name| std::fs::read(path(name)).unwrap();
    assert!(bytes("page.pdf").starts_with(b"%PDF-"));
    assert!(bytes("page.png").starts_with(b"\x89PNG\r\n\x1a\n"));
    let svg = String::from_utf8(bytes("page.svg")).unwrap();
    assert!(svg.contains("Service of Fri 1 May 2026"));
    assert!(svg.contains("Shrimp &amp; &lt;rice&gt;"));
    // Every portion has its mark, and the service its mean.
    assert_eq!(svg.matches("<circle").count(), 41);
    for (report, sentence) in [("page.doc", "--report: "), ("page.pdf", "is there already")] {
        kitchen.refused(
            &["spread", "--report", path(report).to_str().unwrap()],
            sentence,
        );
    }
    let there = path("other.pdf");
    let there = there.to_str().unwrap();
    kitchen.refused(
        &["spread", "--report", there, "--day", "2026-05-02"],
        "no portions are on record for the service of 2026-05-02",
    );
    kitchen.refused(&["spread", "--below-promise"], "--report");
    kitchen.refused(
        &["spread", "--report", there, "--services-a-month", "0"],
        "--services-a-month: \"0\" is no number of services in a month",
    );
    kitchen.refused(
        &["spread", "--report", there, "--short-cost", "2"],
        "--short-cost: \"2\" has no currency",
    );
}

/// The page's words as a PDF program finds them, without blanks: letters are
/// set one by one.
fn words_of(pdf: &[u8]) -> String {
    let document = lopdf::Document::load_mem(pdf).unwrap();
    assert_eq!(document.get_pages().len(), 1, "one page");
    unblanked(&document.extract_text(&[1]).unwrap())
}

fn unblanked(text: &str) -> String {
    text.split_whitespace().collect()
}

#[test]
fn the_page_for_the_wall_says_what_the_review_found() {
    let mut kitchen = Kitchen::new();
    let when = at("2026-05-01T09:00Z");
    kitchen
        .store
        .set_dish(&name("Shrimp"), goal(), Mode::Taking, None, when)
        .unwrap();
    let tin = NewTin {
        kind: TinKind::Tin,
        dish: name("Shrimp"),
        label: "lot 4".to_owned(),
        net: Mass::from_grams(5_000),
        price: Some(Money::parse("price", "900 EUR").unwrap()),
    };
    let tin = kitchen.store.open_tin(&tin, when).unwrap().id;
    let new = NewRun {
        dish: name("Shrimp"),
        goal: goal(),
        mode: Mode::Taking,
        cook: None,
        tin: Some(tin),
    };
    let run = kitchen.store.begin_run(&new, when).unwrap().id;
    for day in ["2026-04-29", "2026-04-30", "2026-05-01"] {
        for minute in 10..50 {
            let milligrams = 29_400 + (minute * 37) % 1_900;
            kitchen.portion(run, &format!("{day}T18:{minute}Z"), milligrams, None);
        }
    }
    kitchen.done(&["yield", "lose", &tin.to_string(), "tasting", "40g"]);
    // The scale read 2 % too little until half past six.
    for (moment, indicated) in [("T08:00Z", 490_000), ("T18:30Z", 500_010)] {
        kitchen.scale_test(&format!("2026-05-01{moment}"), indicated);
    }

    // What the review says of the same service.
    let reviewed = &kitchen.json(&["service", "show", "--json"])[0];
    let dish = &reviewed["dishes"][0];
    assert_eq!(dish["n"], 40);
    let share = |of: &str| (dish[of].as_f64().unwrap() * 40.0).round();
    let failed = &dish["review"]["failed_tests"][0];
    assert_eq!(failed["test"]["error_grams"], -10.0);
    assert_eq!(
        (&failed["portions_after"], &failed["portions_before"]),
        (&20.into(), &0.into())
    );
    let told = kitchen.done(&["service", "show"]);
    let sentence = |start: &str| {
        let line = told
            .lines()
            .map(str::trim)
            .find(|line| line.contains(start));
        line.unwrap_or_else(|| panic!("{told}")).to_owned()
    };
    let figures = [
        "Service of Fri 1 May 2026".to_owned(),
        format!("{:.1} g", dish["mean_grams"].as_f64().unwrap()),
        format!(
            "target 30.0 g ± 1.00 g, spread {:.2} g",
            dish["standard_deviation_grams"].as_f64().unwrap()
        ),
        format!("{} short, {} heavy of 40", share("short"), share("heavy")),
        format!(
            "{:.1} g given away",
            dish["given_away_grams"].as_f64().unwrap()
        ),
        format!(
            "Aim at {:.1} g",
            dish["review"]["aim"]["aim_grams"].as_f64().unwrap()
        ),
        "2 before, tonight".to_owned(),
        "tasting 0.8 %".to_owned(),
        format!("tin {tin}, lot 4: 5000.0 g bought"),
        "20 of 40 weighed after a test that failed, before a test that passed at 18:30: at 08:00 \
         a known 500.0 g read 490.0 g, -10.00 g out, where 1.00 g is the limit in service"
            .to_owned(),
        sentence("Its usual weight is not known yet"),
        sentence("20 of 40 weights are in doubt"),
        "Shrimp: the scale read 2.0 % under until 18:30 (20 of 40 portions): aim at 30.0 g."
            .to_owned(),
        sentence("Aim at "),
    ];
    // A plain spread says so too, where the test reaches into the time asked for.
    let remark = |arguments: &[&str]| kitchen.run(arguments).2;
    // The doubt before the figures, and both figures with it.
    let of_the_day = kitchen.done(&["spread", "--day", "2026-05-01"]);
    assert_eq!(
        of_the_day.lines().nth(1).map(str::trim),
        Some("20 of 40 weights are in doubt: 20 around a test of the scale that failed.")
    );
    assert!(of_the_day.contains("without them") && of_the_day.contains("with them"));
    let said = remark(&["spread", "--day", "2026-05-01"]);
    assert!(
        said.contains("a test of the scale failed at 08:00"),
        "{said}"
    );
    assert!(
        said.contains("490.0 g, -10.00 g out; limit 1.00 g"),
        "{said}"
    );
    assert_eq!(remark(&["spread", "--from", "2026-05-01T18:30"]), "");

    let path = |name: &str| kitchen.folder.path().join(name);
    for name in ["page.pdf", "page.svg"] {
        kitchen.done(&["spread", "--report", path(name).to_str().unwrap()]);
    }
    let pdf = std::fs::read(path("page.pdf")).unwrap();
    let printed = words_of(&pdf);
    for figure in &figures {
        assert!(
            printed.contains(&unblanked(figure)),
            "no {figure:?} in {printed}"
        );
    }
    // Vectors stay vectors: nothing on the page is a picture.
    let document = lopdf::Document::load_mem(&pdf).unwrap();
    let pictures = document.objects.values().filter(|object| {
        object
            .as_stream()
            .and_then(|stream| stream.dict.get(b"Subtype"))
            .and_then(|kind| kind.as_name())
            .is_ok_and(|kind| kind == b"Image")
    });
    assert_eq!(pictures.count(), 0);

    let svg = std::fs::read_to_string(path("page.svg")).unwrap();
    assert!(
        svg.contains("\nShrimp\n</text>") && !svg.contains("<image"),
        "{svg}"
    );
}

#[test]
fn the_spread_is_told_by_cook_hour_and_tin() {
    let mut kitchen = Kitchen::new();
    let mo = kitchen.begin("Shrimp", Some("MO"));
    let ze = kitchen.begin("Shrimp", Some("ZE"));
    kitchen.portion(mo, "2026-05-01T23:10Z", 30_000, None);
    kitchen.portion(mo, "2026-05-02T00:10Z", 32_000, None);
    kitchen.portion(ze, "2026-05-01T18:40Z", 28_000, None);
    kitchen.portion(ze, "2026-05-01T18:40:30Z", 29_000, None);
    let hours: Vec<_> = kitchen
        .json(&["spread", "--by", "hour", "--json"])
        .iter()
        .map(|hour| hour["hour"].as_i64().unwrap())
        .collect();
    assert_eq!(hours, [18, 23, 0]);
    // A service is told with what came after midnight.
    let of_day = |day| kitchen.json(&["spread", "--by", "hour", "--day", day, "--json"]);
    assert_eq!(
        (of_day("2026-05-01").len(), of_day("2026-05-02").len()),
        (3, 0)
    );
    let own = kitchen.json(&["spread", "--by", "cook", "--cook", "mo", "--json"]);
    assert_eq!((&own[0]["cook"], &own[0]["n"]), (&"MO".into(), &2.into()));
    assert_eq!(own[1]["cook"], "everybody else");
    // 31 g in the mean against 28.5 g, by an interval.
    let apart = |part: &Value, what: &str| part["against_others"][what].as_f64().unwrap();
    assert!((apart(&own[0], "difference_grams") - 2.5).abs() < 1e-6);
    assert!((apart(&own[1], "difference_grams") + 2.5).abs() < 1e-6);
    assert!(apart(&own[0], "low_grams") < 0.0 && apart(&own[0], "high_grams") > 5.0);
    let nobody = kitchen.done(&["spread", "--by", "cook"]);
    assert!(!nobody.contains("MO") && !nobody.contains("ZE"), "{nobody}");
    kitchen.done(&["service", "settings", "--cook-figures", "hidden"]);
    let hidden = kitchen.json(&["spread", "--by", "cook", "--json"]);
    assert_eq!(hidden[0]["cook"], "cook 1");
    assert_eq!(hidden[0]["n"], 2);
    let tins = kitchen.json(&["spread", "--by", "tin", "--json"]);
    assert_eq!((tins.len(), &tins[0]["tin"]), (1, &Value::Null));
    // A time that cuts a half hour in two is told portion by portion.
    let after = kitchen.json(&[
        "spread",
        "--by",
        "hour",
        "--from",
        "2026-05-01T18:41",
        "--json",
    ]);
    assert_eq!(after.len(), 2);
}

/// A hogget neck of 10 kg at 12 EUR/kg: 2 kg trimmed, 3 kg cooked away, ten portions of
/// 34 to 36 g.
fn a_neck(kitchen: &mut Kitchen) -> String {
    let when = at("2026-05-01T09:00Z");
    kitchen
        .store
        .set_dish(&name("Hogget neck"), goal(), Mode::Adding, None, when)
        .unwrap();
    let cut = NewTin {
        kind: TinKind::Cut,
        dish: name("Hogget neck"),
        label: String::new(),
        net: Mass::from_grams(10_000),
        price: Some(Money::parse("price", "120 EUR").unwrap()),
    };
    let tin = kitchen.store.open_tin(&cut, when).unwrap().id;
    let new = NewRun {
        dish: name("Hogget neck"),
        goal: goal(),
        mode: Mode::Adding,
        cook: None,
        tin: Some(tin),
    };
    let run = kitchen.store.begin_run(&new, when).unwrap().id;
    for minute in 10..20 {
        let milligrams = 34_000 + (minute % 3) * 1_000;
        let time = format!("2026-05-01T18:{minute}Z");
        kitchen.portion(run, &time, milligrams, None);
    }
    kitchen.done(&["yield", "lose", &tin.to_string(), "trim", "2kg"]);
    kitchen.done(&["yield", "lose", &tin.to_string(), "cook", "3kg"]);
    tin.to_string()
}

#[test]
fn what_is_given_away_is_valued_at_what_a_gram_on_the_plate_costs() {
    let mut kitchen = Kitchen::new();
    let tin = a_neck(&mut kitchen);
    // 50 g above ten targets, at 120 EUR over 5 kg.
    let given = |kitchen: &Kitchen| {
        let dish = &kitchen.json(&["spread", "--json"])[0];
        assert!((dish["given_away_grams"].as_f64().unwrap() - 50.0).abs() < 1e-9);
        dish["given_away_money"].as_f64().unwrap()
    };
    let before = given(&kitchen);
    assert!((before - 50.0 * 0.024).abs() < 1e-4, "{before}");
    // A kilogram that nobody accounts for makes every other gram dearer.
    kitchen.done(&["yield", "left", &tin, "3650g"]);
    let after = given(&kitchen);
    assert!((after - 50.0 * 0.030).abs() < 1e-4, "{after}");
    let shown = &kitchen.json(&["service", "show", "--json"])[0];
    let told = shown["dishes"][0]["given_away_money"].as_f64().unwrap();
    assert!((told - after).abs() < 1e-9);
    let lost = shown["savings"].as_array().unwrap();
    assert!(
        lost.iter()
            .any(|saving| saving["what"] == "not accounted for" && saving["by_grams"] == 1000.0),
        "{lost:?}"
    );
}

#[test]
fn every_gram_of_some_days_is_told() {
    let mut kitchen = Kitchen::new();
    let tin = a_neck(&mut kitchen);
    let days = |kitchen: &Kitchen| {
        kitchen.json(&["yield", "days", "--day", "2026-05-03", "--json"])[0].clone()
    };
    let open = days(&kitchen);
    assert_eq!(
        (&open["purchases"], &open["not_weighed"]),
        (&1.into(), &1.into())
    );
    kitchen.done(&["yield", "left", &tin, "3650g"]);
    let told = days(&kitchen);
    let grams = |of: &str| told[of].as_f64().unwrap();
    assert_eq!(told["lost"]["cook_grams"], 3000.0);
    assert_eq!(grams("unaccounted_grams"), 1000.0);
    assert_eq!(
        grams("portioned_grams") + 5_000.0 + grams("left_weighed_grams") + 1_000.0,
        grams("bought_grams")
    );
    // Another week has nothing of it.
    let other = &kitchen.json(&["yield", "days", "--day", "2026-05-20", "--json"])[0];
    assert_eq!(other["purchases"], 0);
}

#[test]
fn a_plate_is_costed_at_the_weights_really_served() {
    let mut kitchen = Kitchen::new();
    a_neck(&mut kitchen);
    let file = kitchen.folder.path().join("plates.toml");
    let text = "[[plate]]\nname = \"Hogget neck, celeriac\"\nprice = \"26 EUR\"\n\
                [[plate.component]]\ndish = \"Hogget neck\"\n\
                [[plate.component]]\nname = \"Celeriac\"\nweight = \"120 g\"\n\
                cost = \"2.40 EUR/kg\"\nyield = \"75%\"\n";
    std::fs::write(&file, text).unwrap();
    let file = file.to_str().unwrap();
    // 35 g at 24 EUR/kg, and 120 g at 3.20 EUR/kg.
    let plate = &kitchen.json(&["service", "plates", file, "--json"])[0];
    assert_eq!(plate["cost"], "1.22 EUR");
    assert_eq!(plate["margin"], "24.78 EUR");
    assert_eq!(plate["components"][0]["grams"], 35.0);
    // Kept, they need no file; what is refused leaves them as they are.
    kitchen.refused(&["service", "plates"], "no plates are on record");
    kitchen.done(&["service", "plates", file, "--keep"]);
    std::fs::write(file, text.replace("75%", "0%")).unwrap();
    kitchen.refused(&["service", "plates", file, "--keep"], "\"0%\"");
    let kept = &kitchen.json(&["service", "plates", "--json"])[0];
    assert_eq!(kept["cost"], "1.22 EUR");
    // A dish that is renamed stays on its plates, also where another takes its name.
    kitchen.done(&["dish", "rename", "Hogget neck", "Neck of hogget"]);
    let renamed = &kitchen.json(&["service", "plates", "--json"])[0];
    assert_eq!(renamed["cost"], "1.22 EUR");
    assert_eq!(renamed["components"][0]["name"], "Neck of hogget");
    kitchen.begin("Hogget neck", None);
    let retaken = &kitchen.json(&["service", "plates", "--json"])[0];
    assert_eq!(retaken["components"], renamed["components"]);
    kitchen.refused(
        &["service", "plates", file],
        "plate \"Hogget neck, celeriac\": yield: \"0%\" is out of range; write above 0% to 100%",
    );
}

// By hand: 35 g at 24 EUR/kg is 0.84; 120 g at 2.40 EUR/kg, three quarters of it served, 0.384.
#[test]
fn a_plate_is_made_one_thing_at_a_time() {
    let mut kitchen = Kitchen::new();
    a_neck(&mut kitchen);
    let plate = |more: &[&'static str]| {
        let mut arguments = vec!["service", "plate", "Hogget neck, celeriac"];
        arguments.extend(more);
        arguments
    };
    kitchen.done(&plate(&["--price", "26 EUR"]));
    kitchen.done(&plate(&["--dish", "hogget NECK"]));
    let celeriac = ["--component", "Celeriac", "--weight", "120g"];
    let refused = [&celeriac[..], &["--cost", "2.40 EUR/kg", "--yield", "0%"]].concat();
    kitchen.refused(&plate(&refused), "yield: \"0%\" is out of range");
    let added = [&celeriac[..], &["--cost", "2.40 EUR/kg", "--yield", "75%"]].concat();
    kitchen.done(&plate(&added));
    let told = kitchen.json(&["service", "plates", "--json"]);
    assert_eq!(told[0]["cost"], "1.22 EUR");
    assert_eq!(told[0]["margin"], "24.78 EUR");
    // What would save most is told last.
    assert!(told[1]["savings"].is_array(), "{told:?}");
    kitchen.refused(&plate(&["--take-off", "Kohlrabi"]), "Kohlrabi is not there");
    kitchen.refused(&plate(&["--dish", "Kohlrabi"]), "Kohlrabi");
    kitchen.refused(&plate(&["--price", "26"]), "has no currency");
    kitchen.done(&plate(&["--take-off", "CELERIAC", "--price", "none"]));
    let told = kitchen.json(&["service", "plates", "--json"]);
    assert_eq!(told[0]["cost"], "0.84 EUR");
    assert_eq!(told[0]["price"], serde_json::Value::Null);
    kitchen.done(&plate(&["--remove"]));
    kitchen.refused(&plate(&["--remove"]), "is not there");
    kitchen.refused(&["service", "plates"], "no plates are on record");
}

#[test]
fn a_slab_is_cut_and_the_last_pieces_correct_the_next() {
    let mut kitchen = Kitchen::new();
    a_neck(&mut kitchen);
    let cut = &kitchen.json(&[
        "yield",
        "cut",
        "2.4kg",
        "--ends",
        "145g",
        "--dish",
        "Hogget neck",
        "--json",
    ])[0];
    assert_eq!(
        (&cut["pieces"], &cut["over_grams"]),
        (&75.into(), &5.0.into())
    );
    assert_eq!(cut["correction"]["by_grams"], -5.0);
    let even = &kitchen.json(&["yield", "cut", "2.4kg", "--pieces", "10", "--json"])[0];
    assert_eq!(even["each_grams"], 240.0);
    kitchen.refused(&["yield", "cut", "2.4kg"], "say what a piece should weigh");
    kitchen.refused(
        &["yield", "cut", "100g", "--ends", "100g", "--pieces", "2"],
        "weigh both again",
    );
}

#[test]
fn what_a_command_did_is_told_to_machines_too() {
    let mut kitchen = Kitchen::new();
    let run = kitchen.begin("Shrimp", None);
    let id = kitchen.portion(run, "2026-05-01T23:10Z", 30_000, None);
    let id = id.to_string();
    // What is asked for, and a field with what it is to say.
    let table: &[(&[&str], &str, Value)] = &[
        (
            &[
                "dish",
                "add",
                "Gnudi",
                "--target",
                "40g",
                "--tolerance",
                "2g",
                "--adding",
            ],
            "target_grams",
            40.0.into(),
        ),
        (
            &["dish", "melt", "Gnudi", "6 min"],
            "melt_limit_seconds",
            360.into(),
        ),
        (
            &["dish", "rename", "Gnudi", "Dumplings"],
            "name",
            "Dumplings".into(),
        ),
        (
            &["tin", "open", "--dish", "Dumplings", "--net", "2kg"],
            "left_grams",
            2000.0.into(),
        ),
        (
            &["yield", "lose", "1", "spill", "100g"],
            "left_grams",
            1900.0.into(),
        ),
        (
            &["yield", "left", "1", "1.8kg"],
            "unaccounted_grams",
            100.0.into(),
        ),
        (&["yield", "strike", "1"], "struck", true.into()),
        (&["tin", "close", "1"], "kind", "tin".into()),
        (&["dish", "retire", "Dumplings"], "name", "Dumplings".into()),
        (
            &[
                "service",
                "open",
                "--day",
                "2026-05-01",
                "--first-order",
                "18:30",
            ],
            "first_order",
            "2026-05-01T18:30:00Z".into(),
        ),
        (
            &[
                "service",
                "close",
                "--day",
                "2026-05-01",
                "--last-order",
                "00:10",
            ],
            "last_order",
            "2026-05-02T00:10:00Z".into(),
        ),
        (
            &["strike", &id, "--reason", "Tasted"],
            "struck",
            "Tasted".into(),
        ),
        (&["strike", &id, "--lift"], "struck", Value::Null),
        (&["undo"], "struck", "undone".into()),
        (
            &["batch", "begin", "--title", "Brine"],
            "title",
            "Brine".into(),
        ),
        (
            &["batch", "weigh", "1", "--mass", "2kg", "--name", "water"],
            "total_grams",
            2000.0.into(),
        ),
        (&["batch", "taste", "1", "--mark", "5"], "mark", 5.into()),
        (
            &["prep", "covers", "24", "--for", "2026-05-01"],
            "covers",
            24.into(),
        ),
        (
            &["prep", "left", "Shrimp", "3", "--for", "2026-05-01"],
            "portions_left",
            3.into(),
        ),
    ];
    for (arguments, field, value) in table {
        let mut arguments = arguments.to_vec();
        arguments.push("--json");
        let told = kitchen.json(&arguments);
        assert_eq!(told.len(), 1, "{arguments:?}");
        assert_eq!(&told[0][*field], value, "{arguments:?}: {}", told[0]);
    }
}
