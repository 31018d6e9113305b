//! Faults between the real programs, with the true masses known: how many
//! portions come out wrong, lost or doubled. The table that it prints is kept in
//! `FAULTS.md`, and every count in it must be zero.

#![cfg(target_os = "linux")]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use evenhand_protocol::{Envelope, Fault, Report, Uptime, frame};
use evenhand_simulator::faulty_link::{LinkTroubles, PerMillion};
use evenhand_tests::busy_table::{
    ADDING, Reckoning, TAKING, Way, on_record, recorded_times, serve, serve_with,
};
use evenhand_tests::power_cuts::{CutReckoning, Life};
use evenhand_tests::process::{Running, evenhand, resident_kilobytes};
use evenhand_tests::relay::{Pulls, Relay};
use jiff::Timestamp;
use jiff::tz::TimeZone;
use nix::sys::signal::{Signal, kill};
use nix::sys::termios::{SetArg, cfmakeraw, tcgetattr, tcsetattr};
use nix::unistd::{Pid, ttyname};
use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::{Rng, SeedableRng};
use std::fs;
use std::io::Write;
use std::path::Path;
use std::process::{Command, Output, Stdio};
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::{Mutex, MutexGuard, PoisonError};
use std::time::{Duration, Instant};
use tempfile::TempDir;

/// The bench's seconds in one of ours.
const SPEED: u32 = 12;

/// Two at a time, however many threads the tests have: each has two processes that work
/// against the clock, and mostly wait for it.
fn seat() -> MutexGuard<'static, ()> {
    static SEATS: [Mutex<()>; 2] = [Mutex::new(()), Mutex::new(())];
    static NEXT: AtomicUsize = AtomicUsize::new(0);
    let turn = NEXT.fetch_add(1, Ordering::Relaxed) % SEATS.len();
    SEATS[turn].lock().unwrap_or_else(PoisonError::into_inner)
}

/// Prints a row of the table, and holds it to all zeros.
fn row(what: &str, how_much: &str, reckonings: &[Reckoning]) {
    let sum = |count: fn(&Reckoning) -> usize| reckonings.iter().map(count).sum::<usize>();
    println!(
        "| {what} | {how_much} | {} | {} | {} | {} |",
        sum(|r| r.true_portions),
        sum(|r| r.wrong),
        sum(|r| r.lost),
        sum(|r| r.doubled)
    );
    for reckoning in reckonings {
        assert!(reckoning.is_clean(), "{what}: {reckoning:?}");
    }
}

fn text(path: &Path) -> String {
    path.display().to_string()
}

/// Portions until the count is reached, and says so at its end.
fn to_the_end(way: &Way, data: &Path, port: &str, portions: usize) {
    let mut program = Running::start(way.portion(&text(data), port, portions)).unwrap();
    let mut last = String::new();
    while let Some(line) = program.line().unwrap() {
        last = line;
    }
    assert!(program.wait().unwrap(), "{last}");
    assert!(last.contains("\"lost\":0"), "{last}");
}

#[test]
fn a_terrible_line() {
    let _seat = seat();
    // One byte in a hundred meets something.
    let each = PerMillion(2_500);
    let troubles = LinkTroubles {
        lost: each,
        spoilt: each,
        doubled: each,
        swapped: each,
        ..LinkTroubles::NONE
    };
    let portions = 50;
    let (mut frames, mut spoilt, mut reckonings) = (0, 0, Vec::new());
    for (way, seed) in [(ADDING, 31), (TAKING, 32)] {
        let folder = TempDir::new().unwrap();
        let data = folder.path().join("data");
        let (_bench, port) =
            serve(folder.path(), &way.scenario(portions, ""), seed, SPEED).unwrap();
        let end = folder.path().join("port");
        let relay = Relay::lay(&port, &end, troubles, Pulls::Never, seed).unwrap();
        to_the_end(&way, &data, &relay.path(), portions);
        let carried = relay.take_away().unwrap();
        frames += carried.frames;
        spoilt += carried.spoilt;
        reckonings.push(way.reckoning(&data, portions).unwrap());
    }
    assert!(frames >= 10_000, "only {frames} frames");
    assert!(
        spoilt > frames / 10,
        "only {spoilt} of {frames} were spoilt"
    );
    row(
        "1 % of the bytes lost, flipped, doubled or swapped",
        &format!("{frames} frames, {spoilt} spoilt"),
        &reckonings,
    );
}

#[test]
fn a_cable_pulled_at_every_kind_of_message() {
    let _seat = seat();
    let portions = 30;
    let (mut pulls, mut reckonings) = (Vec::new(), Vec::new());
    for (way, seed) in [(ADDING, 41), (TAKING, 42)] {
        let folder = TempDir::new().unwrap();
        let data = folder.path().join("data");
        let (_bench, port) =
            serve(folder.path(), &way.scenario(portions, ""), seed, SPEED).unwrap();
        let end = folder.path().join("port");
        let relay = Relay::lay(&port, &end, LinkTroubles::NONE, Pulls::AtEveryKind, seed).unwrap();
        to_the_end(&way, &data, &relay.path(), portions);
        pulls.extend(relay.take_away().unwrap().pulls);
        reckonings.push(way.reckoning(&data, portions).unwrap());
    }
    for wanted in [
        "before Portion to the desktop",
        "after Portion to the desktop",
        "before Reading to the desktop",
        "before Reply to the desktop",
        "before Hello to the desktop",
        "before Acknowledge to the instrument",
        "after Acknowledge to the instrument",
        "before StartRun to the instrument",
        "before Hello to the instrument",
    ] {
        assert!(
            pulls.iter().any(|pull| pull == wanted),
            "{wanted}: {pulls:?}"
        );
    }
    row(
        "cable pulled before and after each kind of message",
        &format!("{} pulls", pulls.len()),
        &reckonings,
    );
}

/// Numbers without a pattern, the same every time.
fn chance(seed: u64) -> ChaCha8Rng {
    ChaCha8Rng::seed_from_u64(seed)
}

/// From `least` up to, without, `below`.
fn among(chance: &mut ChaCha8Rng, least: u64, below: u64) -> u64 {
    least + chance.next_u64() % (below - least)
}

#[test]
fn killed_two_hundred_times() {
    let _seat = seat();
    const KILLS: usize = 200;
    let portions = 60;
    let folder = TempDir::new().unwrap();
    let data = folder.path().join("data");
    // Slow enough that the kills fall between the first portion and the last.
    let (_bench, port) = serve(folder.path(), &TAKING.scenario(portions, ""), 51, 6).unwrap();
    let mut chance = chance(51);
    let mut kills = 0;
    while kills < KILLS {
        let mut program = Running::start(TAKING.portion(&text(&data), &port, portions)).unwrap();
        std::thread::sleep(Duration::from_millis(among(&mut chance, 20, 520)));
        program.kill().unwrap();
        kills += 1;
    }
    to_the_end(&TAKING, &data, &port, portions);
    row(
        "program killed (SIGKILL) at random moments",
        &format!("{kills} kills"),
        &[TAKING.reckoning(&data, portions).unwrap()],
    );
}

/// Cuts of the instrument's power at random moments of a run of so many
/// seconds, half of them in a write to its flash, as events of a scenario.
fn power_cuts(chance: &mut ChaCha8Rng, cuts: u32, seconds: u64) -> String {
    let kinds = ["power-cut", "power-cut-in-write"];
    kinds
        .iter()
        .cycle()
        .take(cuts as usize)
        .map(|kind| {
            let at = among(chance, 4_000, 1_000 * seconds);
            let lasts = among(chance, 50, 8_000);
            format!(
                "[[event]]\nkind = \"{kind}\"\nat_seconds = {}\nfor_seconds = {}\n",
                at as f64 / 1e3,
                lasts as f64 / 1e3
            )
        })
        .collect()
}

/// Portions at a port, more than the cook will make.
fn portions_without_end(way: &Way, data: &Path, port: &str) -> Running {
    Running::start(way.portion(&text(data), port, 10_000)).unwrap()
}

/// Waits until the cook of a bench is done and nothing that is owed is missing from the
/// record, and ends the program then. What happened is read anew each time, as it goes on.
fn after_the_cook(mut program: Running, data: &Path, lives: impl Fn() -> Vec<Life>) {
    let begun = Instant::now();
    loop {
        let lives = lives();
        let over = lives.last().is_some_and(Life::is_over);
        if over {
            let reckoning = CutReckoning::of(&lives, &on_record(data).unwrap()).unwrap();
            if reckoning.reckoning.lost == 0 {
                break;
            }
        }
        assert!(
            begun.elapsed() < Duration::from_secs(300),
            "{}",
            if over {
                "what is owed is never recorded"
            } else {
                "the cook never ends"
            }
        );
        std::thread::sleep(Duration::from_millis(200));
    }
    program.interrupt().unwrap();
    while program.line().unwrap().is_some() {}
    assert!(program.wait().unwrap());
}

/// A row for cuts of the instrument's power, with what they cost.
fn row_of_cuts(what: &str, cuts: &str, reckonings: &[CutReckoning]) {
    let sum = |count: fn(&CutReckoning) -> usize| reckonings.iter().map(count).sum::<usize>();
    let short = sum(|r| r.cut_short);
    let totals: Vec<Reckoning> = reckonings.iter().map(|r| r.reckoning).collect();
    row(
        what,
        &format!("{cuts}; portions cut short: {short}"),
        &totals,
    );
}

/// The instrument loses its power and starts from its flash. Its portions are
/// those that were captured; one that was under way, or was made in the dark,
/// may go uncounted, and how many did stands in the row.
#[test]
fn power_cuts_of_the_instrument() {
    let _seat = seat();
    let portions = 36;
    let (mut cuts, mut in_writes, mut reckonings) = (0, 0, Vec::new());
    for (way, seed) in [(ADDING, 111), (TAKING, 112)] {
        let folder = TempDir::new().unwrap();
        let data = folder.path().join("data");
        let truth = folder.path().join("truth");
        let events = power_cuts(&mut chance(seed), 32, 8 * portions as u64);
        let (_bench, port) = serve_with(
            folder.path(),
            &way.scenario(portions, &events),
            seed,
            SPEED,
            &["--truth", &text(&truth)],
        )
        .unwrap();
        after_the_cook(portions_without_end(&way, &data, &port), &data, || {
            vec![Life::read(&truth, false).unwrap()]
        });
        let life = Life::read(&truth, false).unwrap();
        cuts += life.cuts();
        in_writes += life.cuts_in_writes();
        reckonings.push(CutReckoning::of(&[life], &on_record(&data).unwrap()).unwrap());
    }
    assert!(cuts >= 40, "only {cuts} cuts");
    assert!(in_writes >= 12, "only {in_writes} in a write");
    row_of_cuts(
        "instrument's power cut at random moments",
        &format!("{cuts} cuts, {in_writes} of them in a write to its flash"),
        &reckonings,
    );
}

/// The same by the end of the program that is the instrument, whose flash is a
/// file.
#[test]
fn the_instrument_killed() {
    let _seat = seat();
    const LIVES: usize = 16;
    let (mut kills, mut reckonings) = (0, Vec::new());
    for (way, seed) in [(ADDING, 121), (TAKING, 122)] {
        let folder = TempDir::new().unwrap();
        let within = |name: &str| folder.path().join(name);
        let (data, flash, end) = (within("data"), within("flash"), within("port"));
        let scenario = way.scenario(12, "");
        let mut chance = chance(seed);
        let mut program = None;
        let mut lives = Vec::new();
        for number in 0..=LIVES {
            let truth = within(&format!("truth-{number}"));
            let (mut bench, port) = serve_with(
                folder.path(),
                &scenario,
                seed,
                SPEED,
                &["--flash", &text(&flash), "--truth", &text(&truth)],
            )
            .unwrap();
            // The port is where it was, as a board's is.
            let next = within("next-port");
            std::os::unix::fs::symlink(&port, &next).unwrap();
            fs::rename(&next, &end).unwrap();
            let portioning = program
                .take()
                .unwrap_or_else(|| portions_without_end(&way, &data, &text(&end)));
            if number < LIVES {
                program = Some(portioning);
                std::thread::sleep(Duration::from_millis(among(&mut chance, 900, 4_000)));
                bench.kill().unwrap();
                kills += 1;
            } else {
                after_the_cook(portioning, &data, || {
                    let last = Life::read(&truth, false).unwrap();
                    lives.iter().cloned().chain([last]).collect()
                });
            }
            lives.push(Life::read(&truth, number < LIVES).unwrap());
        }
        reckonings.push(CutReckoning::of(&lives, &on_record(&data).unwrap()).unwrap());
    }
    row_of_cuts(
        "instrument killed (SIGKILL) at random moments, its flash in a file",
        &format!("{kills} kills"),
        &reckonings,
    );
}

/// Runs a script where a small file system can be mounted that nobody else
/// sees: as root, or as the root of a namespace of its own.
fn in_own_mounts(script: &str) -> Output {
    let mut unshare = Command::new("timeout");
    unshare.args(["300", "unshare", "--mount"]);
    if !nix::unistd::geteuid().is_root() {
        unshare.args(["--user", "--map-root-user"]);
    }
    unshare
        .args(["sh", "-euc", script])
        .stdin(Stdio::null())
        .output()
        .expect("timeout, of coreutils, is there")
}

/// A scenario portioned on a file system of its own, to which `break_it`
/// happens after some portions and `mend_it` after the program has ended over
/// that; what the program said of it.
fn on_a_file_system(
    name: &str,
    way: &Way,
    seed: u64,
    break_it: &str,
    mend_it: &str,
) -> (String, Reckoning) {
    let portions = 24;
    let folder = TempDir::new().unwrap();
    let (_bench, port) = serve(folder.path(), &way.scenario(portions, ""), seed, SPEED).unwrap();
    let mount = folder.path().join(name);
    fs::create_dir(&mount).unwrap();
    let data = mount.join("data");
    let copy = folder.path().join("copy");
    let mut words = vec![text(&evenhand().unwrap())];
    words.extend(way.portion(&text(&data), &port, portions));
    let portion = words
        .iter()
        .map(|word| format!("'{word}'"))
        .collect::<Vec<_>>()
        .join(" ");
    let (mount, data, copy_text) = (text(&mount), text(&data), text(&copy));
    let put_in = |words: &str| {
        words
            .replace("{mount}", &mount)
            .replace("{said}", &format!("{copy_text}.said"))
    };
    let (break_it, mend_it) = (put_in(break_it), put_in(mend_it));
    let script = format!(
        "mount -t tmpfs -o size=4m none '{mount}'
         portion() {{ exec {portion}; }}
         (portion) >'{copy_text}.lines' 2>'{copy_text}.said' & pid=$!
         until [ $(wc -l <'{copy_text}.lines') -ge 6 ]; do sleep 0.1; done
         {break_it}
         if wait $pid; then echo 'it took no notice' >&2; exit 1; fi
         {mend_it}
         # What was weighed meanwhile waits in the scale, and comes now.
         (portion) >/dev/null & pid=$!
         sleep 20
         kill $pid
         wait $pid || true
         cp -r '{data}' '{copy_text}'"
    );
    let output = in_own_mounts(&script);
    let said = fs::read_to_string(folder.path().join("copy.said")).unwrap_or_default();
    assert!(
        output.status.success(),
        "{}\n{}\nit said: {said}",
        String::from_utf8_lossy(&output.stdout),
        String::from_utf8_lossy(&output.stderr)
    );
    (said, way.reckoning(&copy, portions).unwrap())
}

#[test]
fn a_full_disk() {
    let _seat = seat();
    let (said, reckoning) = on_a_file_system(
        "full",
        &ADDING,
        61,
        // The store frees room when it empties its log; the disk is kept full all the same.
        "for turn in $(seq 300); do
             dd if=/dev/zero of='{mount}/filler' bs=4k oflag=append conv=notrunc 2>/dev/null || true
             sleep 0.1
         done
         kill $pid",
        "rm '{mount}/filler'",
    );
    assert!(said.contains("full"), "{said}");
    row(
        "disk full in the middle, then room again",
        "once",
        &[reckoning],
    );
}

/// A copy is put back on a disk that has no room for it: what was there stays
/// what it was, byte for byte, under its own name.
#[test]
fn a_restore_on_a_full_disk() {
    let _seat = seat();
    let folder = TempDir::new().unwrap();
    let mount = folder.path().join("full");
    fs::create_dir(&mount).unwrap();
    let (mount, evenhand) = (text(&mount), text(&evenhand().unwrap()));
    let copy = text(&folder.path().join("copy.sqlite3"));
    let script = format!(
        "mount -t tmpfs -o size=2m none '{mount}'
         data='{mount}/data'
         run() {{ '{evenhand}' --data \"$data\" \"$@\"; }}
         run dish add Samphire --target 30g --tolerance 1g --adding
         run backup '{copy}'
         run dish add Cockles --target 90g --tolerance 1g --adding
         store=\"$data/evenhand.sqlite3\"
         sha256sum <\"$store\" >'{mount}.before'
         ls \"$data\" >'{mount}.names'
         # Both ways round: no room at all, and room for a part.
         for left in 0 200; do
             rm -f '{mount}/filler'
             dd if=/dev/zero of='{mount}/filler' bs=1k 2>'{mount}.dd' && exit 9
             grep -q 'No space left' '{mount}.dd'
             truncate -s -${{left}}k '{mount}/filler'
             if run restore '{copy}' 2>'{mount}.said'; then echo 'it took no notice' >&2; exit 1; fi
             cat '{mount}.said'
             grep -q 'disk is full' '{mount}.said'
             sha256sum <\"$store\" | cmp - '{mount}.before'
             ls \"$data\" | cmp - '{mount}.names'
         done
         rm '{mount}/filler'
         run check
         run dish list
         run restore '{copy}'
         run dish list"
    );
    let output = in_own_mounts(&script);
    let said = String::from_utf8_lossy(&output.stdout);
    assert!(
        output.status.success(),
        "{said}\n{}",
        String::from_utf8_lossy(&output.stderr)
    );
    // Said when it was added and, with room again, listed; the copy has none.
    assert_eq!(said.matches("Cockles").count(), 2, "{said}");
}

#[test]
fn a_read_only_folder() {
    let _seat = seat();
    let (said, reckoning) = on_a_file_system(
        "locked",
        &TAKING,
        62,
        "kill -KILL $pid; sleep 1; mount -o remount,ro '{mount}'
         (portion) >/dev/null 2>'{said}' & pid=$!
         sleep 40; kill $pid",
        "mount -o remount,rw '{mount}'",
    );
    assert!(
        said.contains("read-only") || said.contains("written"),
        "{said}"
    );
    row(
        "folder read-only in the middle, then writable again",
        "once",
        &[reckoning],
    );
}

#[test]
fn a_clock_that_jumps() {
    let _seat = seat();
    let portions = 40;
    let mut reckonings = Vec::new();
    for (way, seed, zone, jumps) in [
        // In seconds against the true clock.
        (ADDING, 71, "UTC", ["+0", "-3600", "+3600"]),
        (TAKING, 72, "UTC", ["+0", "+3600", "-3600"]),
    ] {
        let folder = TempDir::new().unwrap();
        let data = folder.path().join("data");
        let (_bench, port) =
            serve(folder.path(), &way.scenario(portions, ""), seed, SPEED).unwrap();
        let clock = folder.path().join("clock");
        fs::write(&clock, jumps[0]).unwrap();
        let mut program = Running::start_with(
            way.portion(&text(&data), &port, portions),
            &[
                ("TZ", zone),
                ("LD_PRELOAD", &libfaketime()),
                ("FAKETIME_TIMESTAMP_FILE", &text(&clock)),
                ("FAKETIME_NO_CACHE", "1"),
                // Only the wall's clock jumps; a steady one does not.
                ("DONT_FAKE_MONOTONIC", "1"),
            ],
        )
        .unwrap();
        let mut seen = 0;
        while let Some(line) = program.line().unwrap() {
            seen += 1;
            match seen {
                10 => fs::write(&clock, jumps[1]).unwrap(),
                25 => fs::write(&clock, jumps[2]).unwrap(),
                _ => {}
            }
            assert!(!line.is_empty());
        }
        assert!(program.wait().unwrap());
        reckonings.push(way.reckoning(&data, portions).unwrap());
    }
    row(
        "wall clock stepped an hour back and forward",
        "4 steps",
        &reckonings,
    );
}

/// The clock goes to summer time, and back from it, in the middle of a run.
#[test]
fn summer_time() {
    let _seat = seat();
    let portions = 20;
    let mut reckonings = Vec::new();
    // Central Europe's change-overs of 2026, by the IANA database's rule: at one in
    // the morning UTC on the last Sunday of March and of October.
    for (seed, change, offsets) in [
        (73, "2026-03-29T01:00:00Z", ["+01", "+02"]),
        (74, "2026-10-25T01:00:00Z", ["+02", "+01"]),
    ] {
        let folder = TempDir::new().unwrap();
        let data = folder.path().join("data");
        let (_bench, port) = serve(folder.path(), &ADDING.scenario(portions, ""), seed, 6).unwrap();
        // By so many seconds, which no zone and no doubled hour has a say in: the change
        // comes eighteen seconds after the start, of some thirty.
        let change: Timestamp = change.parse().unwrap();
        let ahead = change.as_second() - 18 - Timestamp::now().as_second();
        let mut program = Running::start_with(
            ADDING.portion(&text(&data), &port, portions),
            &[
                ("TZ", "Europe/Berlin"),
                ("LD_PRELOAD", &libfaketime()),
                ("FAKETIME", &format!("{ahead:+}")),
                ("DONT_FAKE_MONOTONIC", "1"),
            ],
        )
        .unwrap();
        let mut last = String::new();
        while let Some(line) = program.line().unwrap() {
            last = line;
        }
        assert!(program.wait().unwrap(), "{last}");
        // That the clock did change in the middle: portions on either side of it, at
        // either offset.
        let times = recorded_times(&data).unwrap();
        assert_eq!(times.len(), portions);
        let berlin = TimeZone::get("Europe/Berlin").unwrap();
        let seen = |at: &Timestamp| {
            at.to_zoned_datetime(berlin.clone())
                .strftime("%:::z")
                .to_string()
        };
        assert!(times[0] < change, "{times:?}");
        assert!(times[portions - 1] > change, "{times:?}");
        assert_eq!(seen(&times[0]), offsets[0]);
        assert_eq!(seen(&times[portions - 1]), offsets[1]);
        reckonings.push(ADDING.reckoning(&data, portions).unwrap());
    }
    row(
        "summer time begins and ends in the middle",
        "2 changes",
        &reckonings,
    );
}

fn libfaketime() -> String {
    let folder = format!("/usr/lib/{}-linux-gnu/faketime", std::env::consts::ARCH);
    let library = format!("{folder}/libfaketime.so.1");
    assert!(
        Path::new(&library).is_file(),
        "{library} is not there: install faketime"
    );
    library
}

/// Two benches at once, each with a program of its own, on one store.
#[test]
fn two_programs_on_one_store() {
    let _seat = seat();
    let portions = 30;
    let folders = [TempDir::new().unwrap(), TempDir::new().unwrap()];
    let data = folders[0].path().join("data");
    let ways = [ADDING, TAKING];
    let mut benches = Vec::new();
    let mut programs = Vec::new();
    for ((way, folder), seed) in ways.iter().zip(&folders).zip([81, 82]) {
        let (bench, port) = serve(folder.path(), &way.scenario(portions, ""), seed, SPEED).unwrap();
        benches.push(bench);
        programs.push(Running::start(way.portion(&text(&data), &port, portions)).unwrap());
    }
    for program in &mut programs {
        while program.line().unwrap().is_some() {}
        assert!(program.wait().unwrap());
    }
    let reckonings = ways.map(|way| way.reckoning_of_dish(&data, portions).unwrap());
    row(
        "two programs, two instruments, one store",
        "at once",
        &reckonings,
    );
}

/// Another instrument takes over in the middle: its portions are numbered from
/// the start again, and are others.
#[test]
fn a_second_instrument() {
    let _seat = seat();
    let portions = 15;
    let folders = [TempDir::new().unwrap(), TempDir::new().unwrap()];
    let data = folders[0].path().join("data");
    let end = folders[0].path().join("port");
    for (folder, seed) in folders.iter().zip([91, 92]) {
        let (_bench, port) =
            serve(folder.path(), &ADDING.scenario(portions, ""), seed, SPEED).unwrap();
        let relay = Relay::lay(&port, &end, LinkTroubles::NONE, Pulls::Never, seed).unwrap();
        to_the_end(&ADDING, &data, &relay.path(), portions);
    }
    let truth = [ADDING.masses(portions), ADDING.masses(portions)].concat();
    let record = evenhand_tests::busy_table::standing(&data, None).unwrap();
    row(
        "another instrument in the middle",
        "once",
        &[Reckoning::of(&record, &truth)],
    );
}

/// A port that says a great deal: the program's memory stays as it is, it says
/// what is wrong, and it ends when it is asked to.
#[test]
fn a_port_that_floods() {
    let _seat = seat();
    let mut garbage = vec![0; 65_536];
    chance(101).fill_bytes(&mut garbage);
    let mut faults = Vec::new();
    for sequence in 0..1_000 {
        let mut bytes = [0; frame::MAX_FRAME];
        let message = Report::Fault {
            at: Uptime::from_millis(1),
            fault: Fault::BridgeTimeout,
            present: sequence % 2 == 0,
        };
        let length = frame::encode(&Envelope { sequence, message }, &mut bytes).unwrap();
        faults.extend(&bytes[..length]);
    }
    for (what, flood) in [("garbage", garbage), ("sound frames", faults)] {
        let pair = nix::pty::openpty(None, None).unwrap();
        let mut settings = tcgetattr(&pair.slave).unwrap();
        cfmakeraw(&mut settings);
        tcsetattr(&pair.slave, SetArg::TCSANOW, &settings).unwrap();
        let port = text(&ttyname(&pair.slave).unwrap());
        let folder = TempDir::new().unwrap();
        let mut master = fs::File::from(pair.master);
        std::thread::spawn(move || while master.write_all(&flood).is_ok() {});
        // A run that was begun before the flood does not give up on it.
        let mut program = Command::new(evenhand().unwrap())
            .args(TAKING.portion(&text(&folder.path().join("data")), &port, 5))
            .stdin(Stdio::null())
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap();
        let (mut early, mut most) = (0, 0);
        let begun = Instant::now();
        while begun.elapsed() < Duration::from_secs(12) && program.try_wait().unwrap().is_none() {
            std::thread::sleep(Duration::from_millis(250));
            let Some(kilobytes) = resident_kilobytes(program.id()) else {
                break;
            };
            if begun.elapsed() < Duration::from_secs(3) {
                early = early.max(kilobytes);
            }
            most = most.max(kilobytes);
        }
        if program.try_wait().unwrap().is_none() {
            kill(Pid::from_raw(program.id() as i32), Signal::SIGINT).unwrap();
        }
        let output = program.wait_with_output().unwrap();
        let said = String::from_utf8_lossy(&output.stderr);
        assert!(
            early > 0,
            "{what}: it ended before anything could be seen: {said}"
        );
        assert!(
            most < early + 16_384,
            "{what}: {early} kB early, {most} kB later"
        );
        assert!(!said.contains("panicked"), "{what}: {said}");
        println!(
            "| a port that floods: {what} | {early} kB early, {most} kB at most | 0 | 0 | 0 | 0 |"
        );
    }
}
