//! The instrument without a desktop: keys, display, and what the desktop hears
//! when it comes back.

use evenhand_firmware::instrument::{Instrument, Setup};
use evenhand_firmware::panel::{Frame, Key, Panel, Screen, Shown};
use evenhand_firmware::portion::PortionSettings;
use evenhand_firmware::remembered::Remembered;
use evenhand_firmware::sensor::Counts;
use evenhand_firmware::signal::{Calibration, CellFigures, Point, Settings};
use evenhand_protocol::report::Capabilities;
use evenhand_protocol::{
    CapturedPortion, Command, DeviceId, Envelope, Epoch, Fault, Goal, Mass, Mode, Report, RunId,
    Tolerance, UnixMillis, Uptime, Verdict, Version,
};

struct Bench {
    instrument: Instrument<32>,
    panel: Panel,
    millis: u64,
    grams: f64,
    step: usize,
    captured: u32,
}

impl Bench {
    fn new() -> Self {
        let calibration = Calibration::from_points(&[
            Point::exact(Mass::ZERO, Counts(84_000)),
            Point::exact(Mass::from_grams(1_000), Counts(84_000 + 2_097_000)),
        ])
        .unwrap();
        let mut bench = Self {
            instrument: Instrument::new(Setup {
                device: DeviceId(0x1234_5678_9ABC_DEF0),
                epoch: Epoch(4),
                settings: Settings::BENCH_1KG,
                calibration: Some(calibration),
                portion: PortionSettings::BENCH,
                capabilities: Capabilities::default(),
                remembered: Remembered::NOTHING,
                figures: CellFigures::TYPICAL_1KG,
            }),
            panel: Panel::new(),
            millis: 0,
            grams: 0.0,
            step: 0,
            captured: 0,
        };
        bench.hold(1.5);
        bench
    }

    fn now(&self) -> Uptime {
        Uptime::from_millis(self.millis)
    }

    fn hold(&mut self, seconds: f64) -> &mut Self {
        for _ in 0..(seconds * 80.0) as u32 {
            self.millis += 12;
            self.step += 1;
            let ripple = [0, 13, -9, 4, -12, 7][self.step % 6];
            let counts = 84_000 + (self.grams * 2_097.0) as i32 + ripple;
            let now = self.now();
            self.instrument.take_counts(now, Counts(counts));
        }
        self.captured = self.instrument.outbox().len() as u32;
        self
    }

    fn put(&mut self, grams: f64) -> &mut Self {
        for _ in 0..10 {
            self.grams += grams / 10.0;
            self.hold(0.025);
        }
        self.hold(1.5)
    }

    fn press(&mut self, key: Key) -> &mut Self {
        let now = self.now();
        self.panel.press(now, &mut self.instrument, key);
        self
    }

    fn say(&mut self, message: Command) {
        let now = self.now();
        let sequence = self.step as u16;
        self.instrument
            .take_command(now, Envelope { sequence, message });
    }

    fn shown(&self) -> Shown {
        Shown {
            goal: Panel::goal(&self.instrument),
            mode: self.instrument.remembered().mode,
            reading: self.instrument.reading(self.now()),
            count: self.captured,
            interval: Mass::from_milligrams(100),
        }
    }

    fn picture(&self) -> String {
        let mut frame = Frame::default();
        assert!(Screen::new().show(&mut frame, &self.shown()).unwrap());
        braille(&frame)
    }
}

/// A frame as text: each sign is two points wide and four high (Unicode,
/// Braille Patterns).
fn braille(frame: &Frame) -> String {
    const DOTS: [[u32; 2]; 4] = [[0x01, 0x08], [0x02, 0x10], [0x04, 0x20], [0x40, 0x80]];
    let mut text = String::new();
    for row in 0..16 {
        let line: String = (0..64)
            .map(|column| {
                let mut sign = 0x2800;
                for (y, dots) in DOTS.iter().enumerate() {
                    for (x, dot) in dots.iter().enumerate() {
                        if frame.is_lit(column * 2 + x, row * 4 + y) {
                            sign |= dot;
                        }
                    }
                }
                char::from_u32(sign).unwrap()
            })
            .collect();
        text += line.trim_end_matches('\u{2800}');
        text.push('\n');
    }
    text
}

/// Compares with the picture on record; `EVENHAND_SCREENS=new` writes it anew.
fn is_as_on_record(name: &str, picture: &str) {
    let path = format!(
        "{}/tests/panel_screens/{name}.txt",
        env!("CARGO_MANIFEST_DIR")
    );
    if std::env::var("EVENHAND_SCREENS").is_ok_and(|value| value == "new") {
        std::fs::write(&path, picture).unwrap();
    }
    let on_record = std::fs::read_to_string(&path).unwrap();
    assert!(on_record == picture, "{name} is now\n{picture}");
}

#[test]
fn the_display_shows_target_mass_count_and_verdict() {
    let mut bench = Bench::new();
    is_as_on_record("weighing", &bench.picture());
    bench.press(Key::BothHeld).hold(1.0);
    is_as_on_record("await-dish", &bench.picture());
    bench.put(120.0);
    bench.put(12.0);
    is_as_on_record("short", &bench.picture());
    bench.put(18.2);
    assert_eq!(bench.shown().reading.verdict, Some(Verdict::On));
    is_as_on_record("on", &bench.picture());
    bench.put(3.0);
    is_as_on_record("heavy", &bench.picture());
    bench.put(2_000.0);
    assert!(bench.instrument.faults().contains(Fault::Overload));
    is_as_on_record("too-much", &bench.picture());
}

#[test]
fn what_has_not_changed_is_not_drawn_again() {
    let mut bench = Bench::new();
    let mut frame = Frame::default();
    let mut screen = Screen::new();
    let mut shown = bench.shown();
    assert!(screen.show(&mut frame, &shown).unwrap());
    shown.reading.at = Uptime::from_millis(9_999);
    assert!(!screen.show(&mut frame, &shown).unwrap());
    bench.press(Key::More);
    assert!(screen.show(&mut frame, &bench.shown()).unwrap());
}

/// A night without a desktop: the target chosen by keys, portions made, and what was made told with
/// its true times when the desktop comes.
#[test]
fn it_portions_alone_and_tells_the_desktop_later_with_true_times() {
    let mut bench = Bench::new();
    for _ in 0..10 {
        bench.press(Key::More);
    }
    // 30 g and ten half grams; taking instead of adding.
    bench.press(Key::Both).press(Key::BothHeld).hold(0.5);
    let run = bench.instrument.reading(bench.now()).run.unwrap();
    assert!(run.0 >= 1 << 31, "{run:?}");
    bench.put(700.0);
    let mut captured_at = Vec::new();
    for grams in [35.0, 34.6, 36.4] {
        bench.put(-grams);
        captured_at.push(bench.millis);
        bench.hold(20.0);
    }
    bench.press(Key::BothHeld);
    assert_eq!(bench.instrument.reading(bench.now()).run, None);

    // An hour later somebody opens the laptop.
    bench.millis += 3_600_000;
    bench.hold(1.0);
    let told = bench.millis;
    let noon = 1_900_000_000_000_i64;
    bench.say(Command::Hello {
        version: Version::CURRENT,
        now: UnixMillis::from_millis(noon),
    });
    let now = bench.now();
    let mut portions: Vec<CapturedPortion> = Vec::new();
    while let Some(report) = bench.instrument.next_report(now) {
        if let Report::Portion(portion) = report {
            portions.push(portion);
            bench.say(Command::Acknowledge(portion.id));
        }
    }
    assert_eq!(portions.len(), 3);
    for ((portion, grams), at) in portions.iter().zip([35.0, 34.6, 36.4]).zip(captured_at) {
        assert!((portion.mass.grams() - grams).abs() < 0.1, "{portion:?}");
        assert_eq!((portion.run, portion.mode), (run, Mode::Taking));
        assert_eq!(portion.goal.target(), Mass::from_grams(35));
        let true_time = noon - i64::try_from(told - portion.at.millis()).unwrap();
        assert_eq!(portion.unix, Some(UnixMillis::from_millis(true_time)));
        // The test's own idea of when: within the second and a half that it waits.
        assert!(at.abs_diff(portion.at.millis()) < 1_600, "{at} {portion:?}");
    }
    assert!(bench.instrument.outbox().is_empty());
}

#[test]
fn two_runs_of_one_s_own_have_two_numbers_and_two_scales_others() {
    let mut bench = Bench::new();
    let mut run = || {
        bench.press(Key::BothHeld);
        let run = bench.instrument.reading(bench.now()).run.unwrap();
        bench.press(Key::BothHeld);
        run
    };
    let (first, second) = (run(), run());
    assert_ne!(first, second);
    assert_eq!(second.0 - first.0, 1);
}

#[test]
fn a_desktop_s_run_is_not_changed_by_the_keys_but_ended() {
    let mut bench = Bench::new();
    let one = Tolerance::symmetric(Mass::from_grams(1));
    let goal = Goal::new(Mass::from_grams(40), one).unwrap();
    bench.say(Command::StartRun {
        run: RunId(77),
        mode: Mode::Adding,
        goal,
    });
    bench.press(Key::More).press(Key::Both);
    let signals = bench.instrument.signals(bench.now());
    assert!(signals.buzzer, "it says that it did not do it");
    assert_eq!(bench.instrument.remembered().goal, Some(goal));
    assert_eq!(bench.instrument.remembered().mode, Mode::Adding);
    bench.press(Key::BothHeld);
    assert_eq!(bench.instrument.reading(bench.now()).run, None);
}

#[test]
fn a_target_beyond_the_scale_is_not_taken() {
    let mut bench = Bench::new();
    let one = Tolerance::symmetric(Mass::from_grams(1));
    bench.say(Command::SetGoal(
        Goal::new(Mass::from_grams(995), one).unwrap(),
    ));
    bench.press(Key::More);
    assert_eq!(
        Panel::goal(&bench.instrument).unwrap().target(),
        Mass::from_grams(995)
    );
}
