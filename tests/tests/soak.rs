//! A week's portions at speed, through the whole program: the counts are right,
//! memory stays as it was, and the store grows by what a portion takes.

use evenhand_tests::busy_table::ADDING;
use evenhand_tests::process::{evenhand, resident_kilobytes};
use std::fs;
use std::io::{BufRead, BufReader};
use std::process::{Command, Stdio};

/// Seven nights of three hundred.
const PORTIONS: usize = 2_100;
/// From here on memory stays as it was: the simulated scale is in the same
/// process and keeps its last thousand portions, which fill up first.
const FULL: usize = 1_200;
/// What memory may grow by from then on, in kilobytes: the run's own
/// dots are kept for the screen, at well under a kilobyte each.
const GROWTH: u64 = 4_096;

#[test]
fn a_week() {
    let folder = tempfile::tempdir().unwrap();
    let data = folder.path().join("data");
    let file = folder.path().join("week.toml");
    fs::write(&file, ADDING.scenario(PORTIONS, "")).unwrap();
    let mut program = Command::new(evenhand().unwrap())
        .arg("--data")
        .arg(&data)
        .args(["portion", "--simulated", "--scenario"])
        .arg(&file)
        .args([
            "--dish",
            ADDING.dish,
            "--target",
            "62g",
            "--tolerance",
            "2g",
        ])
        .args(["--adding", "--count", &PORTIONS.to_string(), "--json"])
        .stdin(Stdio::null())
        .stdout(Stdio::piped())
        .spawn()
        .unwrap();
    let lines = BufReader::new(program.stdout.take().unwrap()).lines();
    let (mut early, mut late) = (0, 0);
    for (place, line) in lines.enumerate() {
        line.unwrap();
        // When the summary comes the program may be gone.
        let Some(kilobytes) = resident_kilobytes(program.id()) else {
            break;
        };
        let most = if place < FULL { &mut early } else { &mut late };
        *most = kilobytes.max(*most);
    }
    assert!(program.wait().unwrap().success());

    let reckoning = ADDING.reckoning(&data, PORTIONS).unwrap();
    assert_eq!(reckoning.true_portions, PORTIONS);
    assert!(reckoning.is_clean(), "{reckoning:?}");
    assert!(early > 0 && late > 0);
    assert!(late < early + GROWTH, "{early} kB early, {late} kB late");

    let store: u64 = fs::read_dir(&data)
        .unwrap()
        .map(|entry| entry.unwrap().metadata().unwrap().len())
        .sum();
    println!(
        "{PORTIONS} portions: {early} kB up to portion {FULL}, {late} kB after it; \
         store {store} bytes, {} a portion",
        store / PORTIONS as u64
    );
}
