//! Services, yields, renamed dishes and tallies: in the store and as they are
//! run.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use evenhand::store::{DataFolder, NewRun, NewTin, Query, Store, StoreError};
use evenhand_kitchen::cook::Cook;
use evenhand_kitchen::dish::DishName;
use evenhand_kitchen::portion::StrikeReason;
use evenhand_kitchen::service::{DayBegins, ServiceCalendar};
use evenhand_kitchen::spread::Spread;
use evenhand_kitchen::tin::TinKind;
use evenhand_kitchen::units::{CostPerMass, Money};
use evenhand_protocol::report::Doubts;
use evenhand_protocol::{
    CapturedPortion, DeviceId, Epoch, Goal, Mass, Mode, PortionId, RunId, Tolerance, UnixMillis,
    Uptime,
};
use jiff::Timestamp;
use jiff::tz::TimeZone;
use serde_json::Value;
use std::process::{Command, Stdio};
use tempfile::TempDir;

fn name(name: &str) -> DishName {
    DishName::new("dish", name).unwrap()
}

fn at(text: &str) -> Timestamp {
    text.parse().unwrap()
}

fn goal() -> Goal {
    Goal::new(
        Mass::from_grams(30),
        Tolerance::symmetric(Mass::from_grams(1)),
    )
    .unwrap()
}

struct Kitchen {
    folder: TempDir,
    store: Store,
    number: u32,
}

impl Kitchen {
    fn new() -> Self {
        let folder = tempfile::tempdir().unwrap();
        let store = Store::open(&DataFolder::choose(Some(folder.path())).unwrap()).unwrap();
        Self {
            folder,
            store,
            number: 0,
        }
    }

    fn begin(&mut self, dish: &str, cook: Option<&str>) -> RunId {
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

    fn portion(
        &mut self,
        run: RunId,
        time: &str,
        milligrams: i64,
        replaces: Option<u32>,
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
            unix: Some(UnixMillis::from_millis(at(time).as_millisecond())),
            mode: Mode::Taking,
            mass: Mass::from_milligrams(milligrams),
            goal: goal(),
            temperature: None,
            replaces,
            doubts: Doubts(0),
            uncertainty: None,
            left: None,
        };
        self.store.record(&captured, None, at(time)).unwrap();
        id
    }

    /// The tallies together, beside the portions counted one by one.
    #[track_caller]
    fn assert_tallies_agree(&mut self) {
        let mut together = Spread::new();
        for tally in self.store.tallies(None, None).unwrap() {
            together.merge(&tally.spread);
        }
        assert_eq!(together, self.store.spread(&Query::default()).unwrap());
    }

    fn run(&self, arguments: &[&str]) -> (i32, String, String) {
        let output = Command::new(env!("CARGO_BIN_EXE_evenhand"))
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
    fn done(&self, arguments: &[&str]) -> String {
        let (code, out, err) = self.run(arguments);
        assert_eq!(code, 0, "{arguments:?}: {err}");
        out
    }

    #[track_caller]
    fn json(&self, arguments: &[&str]) -> Vec<Value> {
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
    let run = kitchen.begin("Roe", Some("MO"));
    let other = kitchen.begin("Sorbet", None);
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
            &name("roe"),
            goal(),
            Mode::Taking,
            Some(cost),
            at("2026-06-01T00:00Z"),
        )
        .unwrap();
    kitchen.assert_tallies_agree();
    let tallies = kitchen.store.tallies(None, None).unwrap();
    assert_eq!(tallies.len(), 3);
    assert!(tallies.iter().any(|tally| tally.spread.costed() == 1));
    let from = Some(at("2026-05-01T18:30Z"));
    assert_eq!(kitchen.store.tallies(from, None).unwrap().len(), 2);
}

#[test]
fn a_renamed_and_retired_dish_keeps_its_history() {
    let mut kitchen = Kitchen::new();
    let run = kitchen.begin("Roe roll", None);
    kitchen.portion(run, "2026-05-01T18:10Z", 30_100, None);
    kitchen.done(&["dish", "rename", "roe roll", "Trout roe hand roll"]);
    kitchen.done(&["dish", "add", "Trout roe hand roll", "--target", "28g"]);
    kitchen.done(&["dish", "retire", "ROE ROLL"]);
    let spread = kitchen.json(&["spread", "--dish", "Roe roll", "--json"]);
    assert_eq!(spread[0]["dish"], "Trout roe hand roll");
    assert_eq!(spread[0]["n"], 1);
    let history = kitchen.json(&["dish", "history", "Roe roll", "--json"]);
    assert_eq!(history.len(), 2);
    assert_eq!(history[0]["target_grams"], 30.0);
    assert_eq!(history[1]["target_grams"], 28.0);
    assert_eq!(history[1]["former_names"][0]["name"], "Roe roll");
    assert!(history[1]["retired"].is_string());
    // Another dish may take the old name; then it is that dish's.
    kitchen.begin("Roe roll", None);
    let spread = kitchen.json(&["spread", "--dish", "Roe roll", "--json"]);
    assert_eq!(spread[0]["n"], 0);
    kitchen.refused(
        &["dish", "rename", "Roe roll", "trout ROE hand roll"],
        "there is a dish \"trout ROE hand roll\" already",
    );
}

#[test]
fn a_service_runs_past_midnight() {
    let mut kitchen = Kitchen::new();
    let run = kitchen.begin("Roe", None);
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
    let run = kitchen.begin("Roe", None);
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
fn a_rib_is_followed_from_bone_to_plate() {
    let mut kitchen = Kitchen::new();
    kitchen
        .store
        .set_dish(
            &name("Short rib"),
            goal(),
            Mode::Adding,
            None,
            at("2026-01-01T00:00Z"),
        )
        .unwrap();
    let tin = NewTin {
        kind: TinKind::Cut,
        dish: name("Short rib"),
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
    assert_eq!(flow["cost_as_portioned"], "24.00 EUR/kg");
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
