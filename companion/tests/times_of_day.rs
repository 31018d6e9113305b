//! Every flag that takes a moment takes it as a person writes it.

use crate::at_saltmarsh::Kitchen;
use jiff::civil::Date;
use jiff::tz::TimeZone;
use jiff::{Timestamp, ToSpan};

const MENU: &str = r#"
opens = "23:50"
closes = "23:58"
[[resource]]
name = "hands"
places = 2
[[preparation]]
name = "necks"
batch = { portions = 24, keeps = "4 days", source = "recipe", needs = 8 }
[[preparation.step]]
name = "roast"
takes = "20 min"
"#;

fn today() -> Date {
    Timestamp::now().to_zoned_datetime(TimeZone::UTC).date()
}

/// A kitchen with a menu, a log and a batch of today and yesterday.
fn kitchen() -> (Kitchen, String) {
    let kitchen = Kitchen::new();
    let menu = kitchen.file("menu.toml", MENU);
    kitchen.words(&["prep", "menu", "--keep", &menu]);
    let yesterday = today().yesterday().unwrap();
    let mut log = String::from("time,celsius\n");
    for half_hour in 0..96_i64 {
        let at = yesterday.at(0, 0, 0, 0) + (30 * half_hour).minutes();
        log.push_str(&format!("{at}Z,3.5\n"));
    }
    let log = kitchen.file("cold.csv", &log);
    kitchen.words(&["heat", "log", "--name", "cold store", "--in", &log]);
    let begin = ["batch", "begin", "--title", "neck", "--at", "yesterday"];
    let batch = kitchen.json(&begin)["batch"].to_string();
    (kitchen, batch)
}

/// How a moment is written, and which one it is; each has come at whatever hour the test runs.
fn moments_past(on: Date) -> [(String, Timestamp); 3] {
    let yesterday = on.yesterday().unwrap();
    let at = |day: Date, hour, minute| {
        let local = day.at(hour, minute, 0, 0);
        TimeZone::UTC.to_timestamp(local).unwrap()
    };
    // The last full hour is never later than the service, whose day ends within an hour of it.
    let hour = Timestamp::now().to_zoned_datetime(TimeZone::UTC).hour();
    [
        (format!("{hour:02}:00"), at(on, hour, 0)),
        ("yesterday 22:10".to_owned(), at(yesterday, 22, 10)),
        (format!("{yesterday}T21:05"), at(yesterday, 21, 5)),
    ]
}

/// The same of a moment that may be still to come.
fn moments(on: Date) -> [(String, Timestamp); 3] {
    let afternoon = on.at(15, 30, 0, 0);
    let [_, evening, dated] = moments_past(on);
    let afternoon = TimeZone::UTC.to_timestamp(afternoon).unwrap();
    [("15:30".to_owned(), afternoon), evening, dated]
}

/// Runs it on one day throughout: where midnight came meanwhile, once more.
fn on_one_day(test: impl Fn(Date)) {
    let before = today();
    let ended = std::panic::catch_unwind(std::panic::AssertUnwindSafe(|| test(before)));
    if today() != before {
        test(today());
    } else if let Err(trouble) = ended {
        std::panic::resume_unwind(trouble);
    }
}

/// What is told comes back as the moment that was meant.
#[test]
fn what_is_told_at_a_time_is_on_record_at_that_time() {
    on_one_day(|day| {
        for (text, moment) in moments_past(day) {
            let (kitchen, batch) = kitchen();
            let told: Timestamp = moment;
            let of = |arguments: &[&str], field: &str| -> Timestamp {
                let answer = kitchen.json(arguments);
                answer[field].as_str().unwrap().parse().unwrap()
            };
            let service = ["--for", "today"];
            let tick = ["prep", "tick", "necks: roast", "--at", &text];
            assert_eq!(
                of(&[&tick[..], &service].concat(), "at"),
                told,
                "tick {text}"
            );
            let delay = ["prep", "delay", "necks: roast", "--until", &text];
            let until = of(&[&delay[..], &service].concat(), "not_before");
            assert_eq!(until, told, "delay {text}");
            let gone = ["prep", "gone", "necks", "--at", &text];
            assert_eq!(
                of(&[&gone[..], &service].concat(), "gone_at"),
                told,
                "gone {text}"
            );
            let label = ["prep", "label", "necks", "--at", &text];
            assert_eq!(
                of(&[&label[..], &service].concat(), "ready"),
                told,
                "label {text}"
            );
            let mark = [
                "heat",
                "mark",
                "fire out",
                "--name",
                "cold store",
                "--at",
                &text,
            ];
            assert_eq!(of(&mark, "at"), told, "mark {text}");
            let weigh = [
                "batch", "weigh", &batch, "--mass", "1kg", "--name", "neck", "--at", &text,
            ];
            kitchen.words(&weigh);
            let show = kitchen.words(&["batch", "show", &batch, "--json"]);
            assert!(show.contains(&told.to_string()), "batch {text}: {show}");
            // A lot's file too: the step ends then.
            let lot = format!(
                "title = 'neck'\n[[step]]\nname = 'chill'\nfrom = '{} 12:00'\nto = '{text}'\nlog = 'cold store'\n",
                "yesterday"
            );
            let lot = kitchen.file("lot.toml", &lot);
            let found = kitchen.judged(&["lot", "check", &lot], 4);
            let to: Timestamp = found["steps"][0]["to"].as_str().unwrap().parse().unwrap();
            assert_eq!(to, told, "lot {text}");
        }
    });
}

/// What is told as having happened at a time that is still to come was meant otherwise.
#[test]
fn what_is_still_to_come_has_not_happened() {
    let (kitchen, batch) = kitchen();
    let now = Timestamp::now();
    let to_come = (now + 2.hours()).to_string();
    // Its service has not begun by then, so that nothing but the hour is wrong.
    let day = today().tomorrow().unwrap().to_string();
    let of = ["--for", &day, "--at", &to_come];
    kitchen.words(&["prep", "tick", "necks: roast", "--for", &day]);
    for told in [
        [&["prep", "tick", "necks: roast"][..], &of].concat(),
        [&["prep", "gone", "necks"][..], &of].concat(),
        [
            &["heat", "mark", "fire out", "--name", "cold store"][..],
            &of[2..],
        ]
        .concat(),
        [&["batch", "turned", &batch][..], &of[2..]].concat(),
    ] {
        let refused = kitchen.refused(&told);
        assert!(
            refused.contains("--at") && refused.contains("is still to come"),
            "{told:?}: {refused}"
        );
    }
    let listed = kitchen.words(&["heat", "log", "--name", "cold store"]);
    assert!(!listed.contains("fire out"), "{listed}");
}

/// What is asked as of a time is answered, and what is no time is refused by its flag.
#[test]
fn what_is_asked_as_of_a_time_is_answered() {
    on_one_day(|day| {
        let (kitchen, batch) = kitchen();
        let cold = ["--name", "cold store"];
        let flags: Vec<(Vec<&str>, &str)> = vec![
            (vec!["prep", "plan", "--for", "today"], "--at"),
            (vec!["prep", "list", "--for", "today"], "--at"),
            (vec!["prep", "week"], "--at"),
            (
                vec!["heat", "check", "--limit", "cold-holding", cold[0], cold[1]],
                "--at",
            ),
            (vec!["heat", "log", cold[0], cold[1]], "--from"),
            (vec!["heat", "log", cold[0], cold[1]], "--to"),
            (
                vec!["batch", "plan", &batch, "--at", "yesterday 01:00"],
                "--due",
            ),
            (vec!["batch", "turned", &batch], "--at"),
        ];
        for (command, flag) in &flags {
            let asked = match command[1] {
                "turned" => moments_past(day),
                _ => moments(day),
            };
            for (text, _) in asked {
                let (status, words) = kitchen.told(&[&command[..], &[flag, &text]].concat());
                // 0, 3 and 4 are answers; 2 is what was not understood.
                assert!(
                    [0, 3, 4].contains(&status),
                    "{command:?} {flag} {text}: {words}"
                );
            }
            for nonsense in ["25:00", "noonish", "2026-02-30T10:00"] {
                let refused = kitchen.refused(&[&command[..], &[flag, nonsense]].concat());
                assert!(refused.contains(flag), "{command:?} {nonsense}: {refused}");
            }
        }
        // The plan is as of that time: 15:30 is eight hours and twenty minutes before it opens.
        let plan = kitchen.words(&["prep", "plan", "--for", "today", "--at", "15:30"]);
        assert!(plan.contains("in 8 h 20"), "{plan}");
        for (text, moment) in moments_past(day) {
            let correct = [
                "heat",
                "correct",
                cold[0],
                cold[1],
                "--from",
                "yesterday 20:00",
                "--to",
                &text,
                "--leave-out",
                "--reason",
                "door open",
            ];
            kitchen.words(&correct);
            let readings = kitchen.words(&["heat", "log", cold[0], cold[1]]);
            assert!(!readings.is_empty(), "{moment}");
        }
    });
}

// A step of a service is done before it is over, and begun no longer before it than the longest
// rest: else somebody wrote another day than was meant.
#[test]
fn what_has_nothing_to_do_with_the_service_is_refused() {
    let (kitchen, _) = kitchen();
    let friday = ["--for", "2026-05-08"];
    for (command, flag, text, says) in [
        (
            "tick",
            "--at",
            "2025-05-08T15:30",
            "earlier than the service it is for",
        ),
        (
            "tick",
            "--at",
            "2026-05-09T15:30",
            "later than the service it is for",
        ),
        (
            "delay",
            "--until",
            "2026-04-01",
            "earlier than the service it is for",
        ),
        (
            "delay",
            "--until",
            "2026-05-08T23:59",
            "later than the service it is for",
        ),
    ] {
        let told = [&["prep", command, "necks: roast", flag, text][..], &friday].concat();
        let refused = kitchen.refused(&told);
        assert!(
            refused.contains(flag)
                && refused.contains(says)
                && refused.contains("2026-05-08 23:50"),
            "{text}: {refused}"
        );
    }
    // Nothing of it was put down.
    let plan = [
        "prep",
        "plan",
        "--at",
        "2026-05-08T10:00",
        "--days-ahead",
        "0",
    ];
    let plan = kitchen.json(&[&plan[..], &friday].concat());
    assert_eq!(plan["steps"][0]["standing"], "next");
}

/// A time of day alone is one on the day of service. Where that service would have opened by then
/// it may be meant of today: that is asked, and either is written.
#[test]
fn a_time_after_a_service_to_come_has_opened_is_asked_back() {
    let (kitchen, _) = kitchen();
    for what in ["plan", "list"] {
        let asked = [
            "prep",
            what,
            "--for",
            "tomorrow",
            "--days-ahead",
            "0",
            "--at",
        ];
        let why = kitchen.refused(&[&asked[..], &["23:55"]].concat());
        assert!(why.contains("write \"today 23:55\" for today"), "{why}");
        for at in ["today 23:55", "09:00", "tomorrow 23:55"] {
            kitchen.words(&[&asked[..], &[at]].concat());
        }
    }
}
