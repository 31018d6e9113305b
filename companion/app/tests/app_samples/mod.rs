//! Saltmarsh's bench in the states that matter, each reached by what an
//! instrument would send.
#![allow(dead_code, reason = "each test file uses its own part")]

use evenhand_app::Language;
use evenhand_app::live;
use evenhand_app::state::{DishTile, Places, PortTile, Screen, Setup, State, TinChoice, Undone};
use evenhand_kitchen::dish::DishName;
use evenhand_kitchen::portion::{RecordedPortion, StrikeReason, Struck, TimeSource};
use evenhand_kitchen::run::Run;
use evenhand_kitchen::service::DoubtedSpread;
use evenhand_kitchen::spread::Spread;
use evenhand_kitchen::tin::{Tin, TinId};
use evenhand_link::live::{LinkState, LiveRun, LiveScale, LiveTin, Now};
use evenhand_protocol::fault::FaultSet;
use evenhand_protocol::report::{Capabilities, Doubts};
use evenhand_protocol::{
    DeviceId, Epoch, Fault, Goal, Hello, Mass, Mode, Notice, Phase, PortionId, Reading, Report,
    RunId, Temperature, Tolerance, Uptime, Verdict, Version,
};
use jiff::{Timestamp, ToSpan, tz::TimeZone};
use std::cell::Cell;
use std::time::{Duration, Instant};

pub const RUN: RunId = RunId(7);
pub const DEVICE: DeviceId = DeviceId(0x5A17);
pub const PORT: &str = "/dev/ttyACM0";

pub fn mg(milligrams: i64) -> Mass {
    Mass::from_milligrams(milligrams)
}

pub fn goal(target: i64, tolerance: i64) -> Goal {
    Goal::new(mg(target), Tolerance::symmetric(mg(tolerance))).unwrap()
}

pub fn now() -> Now {
    Now {
        steady: Instant::now(),
        wall: "2026-03-14T19:42:00Z".parse().unwrap(),
    }
}

pub fn id(number: u32) -> PortionId {
    PortionId {
        device: DEVICE,
        epoch: Epoch(1),
        number,
    }
}

/// A reading with 512.3 g on the pan, probe at 4.2 °C, nothing going on.
pub fn reading() -> Reading {
    Reading {
        at: Uptime::from_millis(60_000),
        gross: Some(mg(512_300)),
        tare: Mass::ZERO,
        stable: true,
        amount: None,
        verdict: None,
        phase: Phase::Weighing,
        run: None,
        temperature: Some(Temperature::from_millicelsius(4_230)),
        faults: FaultSet::EMPTY,
        unsent: 0,
        lost: 0,
    }
}

/// A reading with so much food in a dish of 182 g.
pub fn filling(milligrams: i64, goal: Goal) -> Reading {
    Reading {
        gross: Some(mg(182_000 + milligrams)),
        tare: mg(182_000),
        stable: false,
        amount: Some(mg(milligrams)),
        verdict: Some(goal.judge(mg(milligrams))),
        phase: Phase::Filling,
        run: Some(RUN),
        ..reading()
    }
}

pub fn hello() -> Hello {
    Hello {
        version: Version::CURRENT,
        device: DEVICE,
        epoch: Epoch(1),
        at: Uptime::from_millis(0),
        capabilities: Capabilities::PORTIONS.union(Capabilities::PROBE),
        capacity: Mass::from_grams(3_000),
        interval: mg(100),
        outbox: 64,
        verification_interval: Some(Mass::from_grams(1)),
    }
}

/// A bench linked, with this reading just come.
pub fn linked(now: Now, reading: Reading) -> LiveScale {
    let mut bench = LiveScale::new();
    bench.link_is(LinkState::Linked {
        port: PORT.to_owned(),
        device: DEVICE,
    });
    bench.take_report(&Report::Hello(hello()), now);
    bench.take_report(&Report::Reading(reading), now);
    bench
}

/// Shrimp portions as a person makes them, in milligrams: one short, one heavy.
pub const SHRIMP: [i64; 14] = [
    30_200, 29_600, 30_700, 30_100, 28_500, 30_900, 30_300, 29_900, 30_400, 31_900, 30_600, 29_700,
    30_200, 30_500,
];

pub fn portion(number: u32, mass: Mass, goal: Goal, now: Now) -> RecordedPortion {
    RecordedPortion {
        id: id(number),
        run: RUN,
        dish: Some(DishName::new("dish", "Brown shrimp").unwrap()),
        mode: Mode::Adding,
        mass,
        goal,
        time: now.wall - (i64::from(40 - number.min(40)) * 20).seconds(),
        time_source: TimeSource::Instrument,
        temperature: None,
        doubts: Doubts::NONE,
        uncertainty: None,
        left: None,
        cost: None,
        struck: None,
        replaces: None,
        replaced_by: None,
    }
}

pub fn run(dish: &str, mode: Mode, goal: Goal, started: Timestamp) -> Run {
    Run {
        id: RUN,
        dish: Some(DishName::new("dish", dish).unwrap()),
        goal,
        mode,
        cook: None,
        tin: None,
        started,
        ended: None,
    }
}

pub fn shrimp_portions(now: Now, goal: Goal) -> Vec<RecordedPortion> {
    (1..)
        .zip(SHRIMP)
        .map(|(number, mass)| portion(number, mg(mass), goal, now))
        .collect()
}

/// A shrimp run into dishes with these portions.
pub fn shrimp_run(now: Now, goal: Goal, portions: Vec<RecordedPortion>) -> LiveRun {
    LiveRun::new(
        run("Brown shrimp", Mode::Adding, goal, now.wall),
        None,
        portions,
    )
}

pub fn dishes() -> Vec<DishTile> {
    [
        ("Brown shrimp", 30_000, 1_000, Mode::Taking),
        ("Hogget neck", 180_000, 6_000, Mode::Adding),
        ("Sorrel parfait", 45_000, 2_000, Mode::Taking),
        ("Barley sourdough", 850_000, 8_000, Mode::Adding),
        ("Samphire salad, staff", 120_000, 10_000, Mode::Adding),
    ]
    .into_iter()
    .map(|(name, target, tolerance, mode)| DishTile {
        name: DishName::new("dish", name).unwrap(),
        goal: goal(target, tolerance),
        mode,
    })
    .collect()
}

pub fn today(now: Now, goal: Goal) -> Spread {
    let mut spread = Spread::of(&shrimp_portions(now, goal));
    for mass in SHRIMP {
        spread.add(mg(mass + 150), goal, None);
    }
    spread
}

thread_local! {
    static LANGUAGE: Cell<Language> = const { Cell::new(Language::English) };
}

/// What `made` makes, with the words of a language.
pub fn in_language<T>(language: Language, made: impl FnOnce() -> T) -> T {
    LANGUAGE.set(language);
    let made = made();
    LANGUAGE.set(Language::English);
    made
}

/// The whole state around a bench.
pub fn state(bench: &LiveScale, now: Now) -> State {
    let spread = DoubtedSpread::of(today(now, goal(30_000, 1_000)), None, false);
    let language = LANGUAGE.get();
    State {
        language,
        bench: live::view(bench, now, (Some(&spread), &[]), &TimeZone::UTC, language),
        dishes: dishes(),
        clock: "19:42".to_owned(),
        ..State::at_start()
    }
}

/// A shrimp run with its portions and this much in the dish.
pub fn filling_state(milligrams: i64) -> State {
    let now = now();
    let goal = goal(30_000, 1_000);
    let mut bench = linked(now, filling(milligrams, goal));
    bench.run_is(Some(shrimp_run(now, goal, shrimp_portions(now, goal))));
    state(&bench, now)
}

/// Two of its weights are in doubt.
pub fn in_doubt() -> State {
    let now = now();
    let goal = goal(30_000, 1_000);
    let mut portions = shrimp_portions(now, goal);
    for portion in portions.iter_mut().take(2) {
        portion.doubts = Doubts::MAYBE_TWO;
    }
    let mut bench = linked(now, filling(18_400, goal));
    bench.run_is(Some(shrimp_run(now, goal, portions)));
    state(&bench, now)
}

pub fn short() -> State {
    filling_state(18_400)
}

pub fn nearly() -> State {
    filling_state(28_700)
}

pub fn on() -> State {
    filling_state(30_200)
}

pub fn heavy() -> State {
    filling_state(32_600)
}

pub fn unplugged() -> State {
    let now = now();
    let mut bench = LiveScale::new();
    bench.link_is(LinkState::NoPort {
        port: PORT.to_owned(),
    });
    state(&bench, now)
}

pub fn other_version() -> State {
    let now = now();
    let mut bench = LiveScale::new();
    bench.link_is(LinkState::OtherVersion {
        port: PORT.to_owned(),
        theirs: 2,
    });
    state(&bench, now)
}

pub fn idle() -> State {
    let now = now();
    state(&linked(now, reading()), now)
}

/// Taking parfait out of an entered tin of 2 kg.
pub fn taking() -> State {
    let now = now();
    let goal = goal(45_000, 2_000);
    let mut bench = linked(
        now,
        Reading {
            gross: Some(mg(1_612_400)),
            stable: false,
            amount: Some(mg(44_300)),
            verdict: Some(Verdict::On),
            phase: Phase::Spooning,
            run: Some(RUN),
            temperature: Some(Temperature::from_millicelsius(-17_900)),
            ..reading()
        },
    );
    let portions: Vec<_> = (1..)
        .zip([45_600, 44_100, 46_200, 42_400, 45_000, 44_800])
        .map(|(number, mass)| RecordedPortion {
            mode: Mode::Taking,
            ..portion(number, mg(mass), goal, now)
        })
        .collect();
    let taken = portions.iter().map(|portion| portion.mass).sum();
    let tin = LiveTin {
        tin: Tin {
            id: TinId(1),
            kind: evenhand_kitchen::tin::TinKind::Tin,
            dish: DishName::new("dish", "Sorrel parfait").unwrap(),
            label: String::new(),
            net: Mass::from_grams(2_000),
            price: None,
            opened: now.wall,
            closed: None,
        },
        taken,
    };
    bench.run_is(Some(LiveRun::new(
        run("Sorrel parfait", Mode::Taking, goal, now.wall),
        Some(tin),
        portions,
    )));
    state(&bench, now)
}

pub fn faulty(fault: Fault, reading: Reading) -> State {
    let now = now();
    let goal = goal(30_000, 1_000);
    let stops = fault.stops_weighing();
    let mut bench = linked(
        now,
        Reading {
            gross: if stops { None } else { reading.gross },
            amount: if stops { None } else { reading.amount },
            verdict: if stops { None } else { reading.verdict },
            phase: if stops { Phase::Blocked } else { reading.phase },
            faults: FaultSet::EMPTY.with(fault, true),
            ..reading
        },
    );
    bench.run_is(Some(shrimp_run(now, goal, shrimp_portions(now, goal))));
    state(&bench, now)
}

pub fn overload() -> State {
    faulty(Fault::Overload, filling(0, goal(30_000, 1_000)))
}

pub fn probe_open() -> State {
    faulty(
        Fault::ProbeOpen,
        Reading {
            temperature: None,
            ..filling(12_100, goal(30_000, 1_000))
        },
    )
}

/// The last reading came two seconds before `now`.
pub fn stale() -> State {
    let then = now();
    let goal = goal(30_000, 1_000);
    let mut bench = linked(then, filling(18_400, goal));
    bench.run_is(Some(shrimp_run(then, goal, shrimp_portions(then, goal))));
    let now = Now {
        steady: then.steady + Duration::from_secs(2),
        wall: then.wall + 2.seconds(),
    };
    state(&bench, now)
}

/// Portion 5 was struck out; the dish is off.
pub fn struck() -> State {
    let now = now();
    let goal = goal(30_000, 1_000);
    let mut bench = linked(
        now,
        Reading {
            gross: Some(Mass::ZERO),
            phase: Phase::AwaitDish,
            run: Some(RUN),
            ..reading()
        },
    );
    let mut portions = shrimp_portions(now, goal);
    if let Some(fifth) = portions.get_mut(4) {
        fifth.struck = Some(Struck {
            reason: StrikeReason::new("reason", "Fell or spilled").unwrap(),
            at: now.wall,
        });
    }
    bench.run_is(Some(shrimp_run(now, goal, portions)));
    state(&bench, now)
}

/// Between portions of a shrimp run, in this phase, with 1612.4 g on the pan.
pub fn between(phase: Phase) -> State {
    let now = now();
    let goal = goal(30_000, 1_000);
    let mut bench = linked(
        now,
        Reading {
            gross: Some(mg(1_612_400)),
            phase,
            run: Some(RUN),
            ..reading()
        },
    );
    bench.run_is(Some(shrimp_run(now, goal, shrimp_portions(now, goal))));
    state(&bench, now)
}

/// Nobody has touched the screen for a while.
pub fn far(state: State) -> State {
    State { far: true, ..state }
}

/// Portion 14, the last, was just undone.
pub fn last_struck() -> State {
    let now = now();
    let goal = goal(30_000, 1_000);
    let mut bench = linked(
        now,
        Reading {
            gross: Some(Mass::ZERO),
            phase: Phase::AwaitDish,
            run: Some(RUN),
            ..reading()
        },
    );
    let mut portions = shrimp_portions(now, goal);
    if let Some(last) = portions.last_mut() {
        last.struck = Some(Struck {
            reason: StrikeReason::new("reason", "undone").unwrap(),
            at: now.wall,
        });
    }
    bench.run_is(Some(shrimp_run(now, goal, portions)));
    State {
        undone: Some(Undone {
            id: id(14),
            number: 14,
            mass: "30.5 g".to_owned(),
            portions: 14,
        }),
        ..state(&bench, now)
    }
}

/// The pan reads below zero, with a run or without one.
pub fn below_zero(milligrams: i64, running: bool) -> State {
    let now = now();
    let goal = goal(30_000, 1_000);
    let reading = Reading {
        gross: Some(mg(milligrams)),
        phase: if running {
            Phase::DishSettling
        } else {
            Phase::Weighing
        },
        run: running.then_some(RUN),
        ..reading()
    };
    let mut bench = linked(now, reading);
    if running {
        bench.run_is(Some(shrimp_run(now, goal, shrimp_portions(now, goal))));
    }
    state(&bench, now)
}

pub fn noticed() -> State {
    let now = now();
    let goal = goal(30_000, 1_000);
    let mut bench = linked(
        now,
        Reading {
            gross: Some(Mass::ZERO),
            phase: Phase::AwaitDish,
            run: Some(RUN),
            ..reading()
        },
    );
    bench.take_report(
        &Report::Notice {
            at: Uptime::from_millis(1),
            notice: Notice::LiftedUnsettled,
        },
        now,
    );
    bench.run_is(Some(shrimp_run(now, goal, shrimp_portions(now, goal))));
    state(&bench, now)
}

pub fn choosing() -> State {
    State {
        screen: Screen::Dishes,
        ..idle()
    }
}

pub fn setting_up() -> State {
    let tile = dishes().remove(1);
    State {
        screen: Screen::Setup,
        setup: Setup {
            name: tile.name.to_string(),
            dish: Some(tile.name),
            mode: tile.mode,
            target: tile.goal.target(),
            tolerance: tile.goal.tolerance(),
            ..Setup::new_dish()
        },
        ..idle()
    }
}

/// The same for a dish out of a tin, with a new tin.
pub fn setting_up_tin() -> State {
    let mut state = setting_up();
    state.setup.mode = Mode::Taking;
    state.setup.tin = TinChoice::New;
    state.setup.open_tin = Some(mg(412_600));
    state
}

pub fn choosing_port() -> State {
    State {
        screen: Screen::Scale,
        places: Places {
            ports: vec![
                PortTile {
                    path: "/dev/ttyACM0".to_owned(),
                },
                PortTile {
                    path: "/dev/ttyS0".to_owned(),
                },
            ],
            chosen: Some("/dev/ttyACM0".to_owned()),
            simulated: vec![
                "Brown shrimp out of a tin".to_owned(),
                "Hogget neck in equal pieces".to_owned(),
                "Parfait, scooped fast".to_owned(),
            ],
        },
        ..unplugged()
    }
}

pub fn new_dish() -> State {
    State {
        screen: Screen::Naming,
        setup: Setup::new_dish(),
        ..idle()
    }
}

pub fn changing_goal() -> State {
    let state = on();
    State {
        screen: Screen::Goal,
        setup: Setup {
            name: "Brown shrimp".to_owned(),
            ..Setup::new_dish()
        },
        ..state
    }
}

pub fn striking() -> State {
    let mut state = State {
        screen: Screen::Portions,
        ..struck()
    };
    state.strike.portion = Some(id(10));
    state.strike.reason = "Tasted".to_owned();
    state
}

/// Every state with its name.
pub fn all() -> Vec<(&'static str, State)> {
    vec![
        ("unplugged", unplugged()),
        ("other version", other_version()),
        ("idle", idle()),
        ("short", short()),
        ("nearly", nearly()),
        ("on", on()),
        ("heavy", heavy()),
        ("in doubt", in_doubt()),
        ("taking", taking()),
        ("overload", overload()),
        ("probe open", probe_open()),
        ("stale", stale()),
        ("struck", struck()),
        ("noticed", noticed()),
        ("choosing", choosing()),
        ("setting up", setting_up()),
        ("setting up tin", setting_up_tin()),
        ("choosing port", choosing_port()),
        ("new dish", new_dish()),
        ("changing goal", changing_goal()),
        ("striking", striking()),
        ("between dishes", between(Phase::AwaitDish)),
        ("between spoons", between(Phase::Ready)),
        ("dish settling", between(Phase::DishSettling)),
        ("last struck", last_struck()),
        ("below zero", below_zero(-12_300, false)),
    ]
}
