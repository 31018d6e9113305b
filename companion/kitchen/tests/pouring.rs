//! A mix walked through by the scale alone.

use evenhand_kitchen::batch::{Aim, AimError, Batch, Entry, NamedAs, Slot, What};
use evenhand_kitchen::cure::{Contents, CuringAgent, Method, NitriteFraction};
use evenhand_kitchen::limits::Limits;
use evenhand_kitchen::ratio::{
    Awaited, Capture, Caught, Closeness, CureGuard, Formula, Ingredient, Mix, MixError, Notice,
    PourEvent, Pouring, PouringError, ScaleLook,
};
use evenhand_protocol::{Mass, Uptime};
use jiff::Timestamp;

fn plain(name: &str) -> Ingredient {
    Ingredient::plain(name).unwrap()
}

fn grams(grams: f64) -> Mass {
    Mass::from_fractional_grams(grams).unwrap()
}

const LEAST: Mass = Mass::from_milligrams(500);

/// A scale that a test puts things on.
struct Bench {
    pouring: Pouring,
    millis: u64,
    on: f64,
    steps: Vec<PourEvent>,
}

impl Bench {
    fn new(mix: Mix, takes: Option<f64>) -> Self {
        let pouring = Pouring::new(mix, LEAST, Some(grams(15_000.0)), takes.map(grams));
        Self {
            pouring,
            millis: 0,
            on: 0.0,
            steps: Vec::new(),
        }
    }

    fn brine(takes: Option<f64>) -> Self {
        let formula = Formula::of_water(
            plain("water"),
            vec![(plain("salt"), 8.0), (plain("sugar"), 4.0)],
        )
        .unwrap();
        Self::new(Mix::new(formula, close(), None).unwrap(), takes)
    }

    fn look(&mut self, stable: bool) {
        self.millis += 100;
        let look = ScaleLook {
            at: Uptime::from_millis(self.millis),
            mass: grams(self.on),
            stable,
        };
        self.steps.extend(self.pouring.take(look).unwrap());
    }

    /// Pours within a second and waits for so long.
    fn pour(&mut self, grams: f64, rests_millis: u64) {
        for _ in 0..10 {
            self.on += grams / 10.0;
            self.look(false);
        }
        for _ in 0..rests_millis / 100 {
            self.look(true);
        }
    }

    fn poured(&self) -> Vec<(usize, f64)> {
        self.steps
            .iter()
            .filter_map(|step| match step {
                PourEvent::Poured { item, mass } => Some((*item, mass.grams())),
                _ => None,
            })
            .collect()
    }
}

fn close() -> Closeness {
    Closeness::new(0.5, Mass::from_milligrams(300)).unwrap()
}

fn target(bench: &Bench, item: usize) -> f64 {
    bench.pouring.mix().target(item).unwrap().grams()
}

#[test]
fn nothing_is_touched_between_vessel_and_the_last_ingredient() {
    let mut bench = Bench::brine(None);
    assert_eq!(bench.pouring.stage(), &Awaited::Vessel);
    bench.pour(812.4, 2_000);
    assert_eq!(bench.pouring.stage(), &Awaited::Pouring(0));
    assert_eq!(bench.pouring.vessel(), grams(812.4));
    // The first is poured in two goes; nothing says how much it should be.
    bench.pour(1_200.0, 2_000);
    assert_eq!(bench.pouring.stage(), &Awaited::Pouring(0));
    bench.pour(800.0, 4_500);
    assert_eq!(bench.pouring.stage(), &Awaited::Pouring(1));
    assert!((target(&bench, 1) - 160.0).abs() < 1e-6);
    bench.pour(90.0, 8_000);
    assert_eq!(
        bench.pouring.stage(),
        &Awaited::Pouring(1),
        "short never goes on"
    );
    bench.pour(70.2, 1_700);
    assert_eq!(bench.pouring.stage(), &Awaited::Pouring(2));
    bench.pour(80.0, 1_700);
    assert_eq!(bench.pouring.stage(), &Awaited::Finished);
    let poured = bench.poured();
    assert_eq!(poured.len(), 3);
    assert!((poured[1].1 - 160.2).abs() < 1e-6, "{poured:?}");
    assert_eq!(bench.pouring.mix().ready(), Ok(()));
}

#[test]
fn an_over_pour_brings_the_others_up_and_says_whether_it_fits() {
    let mut bench = Bench::brine(Some(2_300.0));
    bench.pour(800.0, 2_000);
    bench.pour(2_000.0, 4_500);
    bench.pour(180.0, 3_000);
    assert_eq!(
        bench.pouring.stage(),
        &Awaited::Pouring(1),
        "over waits longer"
    );
    bench.pour(0.0, 6_500);
    // 180 g of salt at 8 % of water calls for 2250 g of water and 90 g of sugar: 2520 g in all.
    assert_eq!(bench.pouring.stage(), &Awaited::Pouring(0));
    assert!((target(&bench, 0) - 2_250.0).abs() < 1e-6);
    let notices = bench.pouring.mix().notices();
    assert!(
        notices.iter().any(|notice| matches!(
            notice,
            Notice::Grown { item: 1, total, .. } if (total.grams() - 2_520.0).abs() < 1e-6
        )),
        "{notices:?}"
    );
    assert!(
        notices
            .iter()
            .any(|notice| matches!(notice, Notice::NoRoom { room, .. } if *room == grams(2_300.0))),
        "{notices:?}"
    );
}

#[test]
fn out_of_order_twice_and_taken_for_something_else() {
    let mut bench = Bench::brine(None);
    bench.pour(800.0, 2_000);
    // Sugar first, then the rest.
    bench.pouring.choose(2).unwrap();
    bench.look(true);
    assert_eq!(bench.pouring.stage(), &Awaited::Pouring(2));
    bench.pour(40.0, 4_500);
    assert!((target(&bench, 0) - 1_000.0).abs() < 1e-6);
    assert_eq!(bench.pouring.stage(), &Awaited::Pouring(0));
    // This was salt, not water.
    bench.pour(79.8, 1_000);
    bench.pouring.that_was(1).unwrap();
    assert_eq!(bench.pouring.stage(), &Awaited::Pouring(1));
    bench.pour(0.0, 2_000);
    assert_eq!(bench.pouring.stage(), &Awaited::Pouring(0));
    bench.pour(1_000.0, 2_000);
    assert_eq!(bench.pouring.stage(), &Awaited::Finished);
    // Sugar again: the others go up, and adding the missing water and salt ends it.
    bench.pouring.choose(2).unwrap();
    bench.look(true);
    bench.pour(10.0, 7_000);
    assert_eq!(bench.pouring.stage(), &Awaited::Pouring(0));
    bench.pour(250.0, 2_000);
    bench.pour(20.2, 2_000);
    assert_eq!(bench.pouring.stage(), &Awaited::Finished);
    let mix = bench.pouring.mix();
    let all: Vec<f64> = (0..3).map(|item| mix.poured(item).grams()).collect();
    for (found, expected) in all.iter().zip([1_250.0, 100.0, 50.0]) {
        assert!((found - expected).abs() < 0.01, "{all:?}");
    }
    // What went on record adds up to the same.
    for (item, total) in all.iter().enumerate() {
        let sum: f64 = bench
            .poured()
            .iter()
            .filter(|(other, _)| *other == item)
            .map(|(_, grams)| grams)
            .sum();
        assert!((sum - total).abs() < 1e-6);
    }
}

#[test]
fn what_was_taken_over_already_can_still_be_something_else() {
    let mut bench = Bench::brine(None);
    bench.pour(800.0, 2_000);
    bench.pour(100.0, 4_500);
    assert_eq!(bench.pouring.stage(), &Awaited::Pouring(1));
    let steps = bench.pouring.that_was(1).unwrap();
    assert_eq!(steps.len(), 2);
    assert_eq!(bench.pouring.mix().poured(0), Mass::ZERO);
    assert_eq!(bench.pouring.mix().poured(1), grams(100.0));
    assert!((target(&bench, 0) - 1_250.0).abs() < 1e-6);
}

#[test]
fn a_vessel_lifted_in_between_and_a_scale_that_started_anew() {
    let mut bench = Bench::brine(None);
    bench.pour(800.0, 2_000);
    bench.pour(500.0, 1_000);
    let there = bench.on;
    // Carried to the tap.
    bench.on = 0.0;
    for _ in 0..80 {
        bench.look(true);
    }
    assert_eq!(bench.pouring.stage(), &Awaited::Pouring(0));
    bench.on = there;
    bench.pour(500.0, 500);
    // The power goes: its clock begins again, and its zero is another.
    bench.millis = 0;
    bench.on += 3.0;
    bench.look(true);
    assert!(bench.steps.contains(&PourEvent::StartedAnew));
    assert_eq!(bench.pouring.mix().poured(0), grams(1_000.0));
    bench.look(true);
    bench.pour(1_000.0, 4_500);
    assert_eq!(bench.pouring.mix().poured(0), grams(2_000.0));
    assert_eq!(bench.pouring.stage(), &Awaited::Pouring(1));
}

fn cured(meat_grams: f64, agent_percent: f64) -> Bench {
    let nitrite = NitriteFraction::new("nitrite", 0.0625).unwrap();
    let agent =
        CuringAgent::from_label("Saltmarsh cure", Contents::SodiumNitrite, nitrite).unwrap();
    let formula = Formula::parts(vec![
        (plain("belly"), 100.0),
        (plain("salt"), 2.0),
        (Ingredient::curing(agent), agent_percent),
    ])
    .unwrap();
    let guard = CureGuard {
        method: Method::BaconDryCure,
        limit: Limits::food_code().nitrite(Method::BaconDryCure).unwrap(),
        meat: vec![0],
        pickle: vec![],
        pick_up: None,
        skin_on: false,
    };
    let mut bench = Bench::new(Mix::new(formula, close(), Some(guard)).unwrap(), None);
    bench.pour(500.0, 2_000);
    bench.pour(meat_grams, 4_500);
    bench.pour(meat_grams * 0.02, 2_000);
    bench
}

#[test]
fn a_curing_agent_waits_for_its_label_and_an_empty_hand() {
    let read = NitriteFraction::new("nitrite", 0.0625).unwrap();
    // 0.24 % of a 6.25 % agent is 150 ppm; 7.2 g for 3 kg.
    let mut bench = cured(3_000.0, 0.24);
    assert!(matches!(
        bench.pouring.stage(),
        Awaited::Held(2, MixError::NotConfirmed(_))
    ));
    // Poured before the label was read: not counted, and not passed over either.
    bench.pour(7.2, 2_000);
    assert_eq!(bench.pouring.mix().poured(2), Mass::ZERO);
    assert!(matches!(
        bench.pouring.confirm_label(read),
        Err(PouringError::ChangedMeanwhile(_))
    ));
    bench.pour(-7.2, 1_000);
    let other = NitriteFraction::new("nitrite", 0.5).unwrap();
    assert!(bench.pouring.confirm_label(other).is_err());
    bench.pouring.confirm_label(read).unwrap();
    assert_eq!(bench.pouring.stage(), &Awaited::Pouring(2));
    // Too much of it never goes on by itself.
    bench.pour(30.0, 20_000);
    assert_eq!(bench.pouring.stage(), &Awaited::Pouring(2));
    bench.pouring.go_on_now().unwrap();
    let mix = bench.pouring.mix();
    assert!(mix.ready().is_err());
    assert!(
        mix.notices()
            .iter()
            .any(|notice| matches!(notice, Notice::CannotBeUndone { item: 2, .. }))
    );
    assert!(matches!(
        bench.pouring.that_was(1),
        Err(PouringError::Agent)
    ));
}

/// The lines that a mix leaves on record, as the store reads them back.
fn on_record(aim: &Aim, steps: &[PourEvent]) -> Batch {
    let aimed = What::Aimed { aim: aim.clone() };
    let weighed = steps.iter().filter_map(|step| match *step {
        PourEvent::Poured { item, mass } => Some(What::Weighed {
            slot: Slot(u32::try_from(item).unwrap()),
            mass,
            temperature: None,
        }),
        _ => None,
    });
    Batch::from_entries(std::iter::once(aimed).chain(weighed).map(|what| {
        let text = serde_json::to_string(&what).unwrap();
        let value: serde_json::Value = serde_json::from_str(&text).unwrap();
        let what: What = serde_json::from_value(value).unwrap();
        Entry {
            at: Timestamp::UNIX_EPOCH,
            what,
        }
    }))
    .unwrap()
}

/// The same mix after the program was stopped, as its record has it, and the
/// scale as it stands there.
fn stopped(bench: &Bench, aim: &Aim) -> Bench {
    let batch = on_record(aim, &bench.steps);
    let aim = batch.under_way().expect("under way").clone();
    let mix = aim
        .mix(&batch, close(), Some(&Limits::food_code()))
        .unwrap();
    Bench {
        pouring: Pouring::resumed(mix, LEAST, Some(grams(15_000.0)), None, aim.vessel()),
        millis: 0,
        on: bench.on,
        steps: Vec::new(),
    }
}

fn rests(bench: &mut Bench) {
    bench.pour(0.0, 2_000);
}

#[test]
fn a_mix_that_was_stopped_between_two_pours_goes_on_where_it_was() {
    let mut bench = Bench::brine(None);
    bench.pour(812.4, 2_000);
    let aim = Aim::of(bench.pouring.mix(), 0.5, bench.pouring.vessel(), None);
    bench.pour(2_000.0, 4_500);
    bench.pour(160.0, 2_000);
    assert_eq!(bench.pouring.stage(), &Awaited::Pouring(2), "in the middle");

    let mut again = stopped(&bench, &aim);
    rests(&mut again);
    assert_eq!(again.pouring.stage(), &Awaited::Pouring(2));
    assert_eq!(again.pouring.vessel(), grams(812.4));
    assert_eq!(again.pouring.mix().poured(0), grams(2_000.0));
    assert!((target(&again, 2) - 80.0).abs() < 1e-6);
    again.pour(80.0, 2_000);
    assert_eq!(again.pouring.stage(), &Awaited::Finished);
    assert_eq!(again.poured().len(), 1, "nothing is counted twice");
    assert_eq!(again.pouring.mix().ready(), Ok(()));
}

#[test]
fn what_came_on_while_the_program_was_stopped_is_asked_about_and_never_guessed() {
    let mut bench = Bench::brine(None);
    bench.pour(812.4, 2_000);
    let aim = Aim::of(bench.pouring.mix(), 0.5, bench.pouring.vessel(), None);
    bench.pour(2_000.0, 4_500);
    // Half of the salt is in when it stops; the other half goes in unseen.
    bench.pour(80.0, 500);
    assert!(bench.poured().iter().all(|(item, _)| *item == 0));
    bench.on += 80.0;

    let mut again = stopped(&bench, &aim);
    rests(&mut again);
    assert_eq!(again.pouring.stage(), &Awaited::Vessel, "it waits");
    assert_eq!(again.pouring.came_meanwhile(), Some(grams(160.0)));
    again.pouring.that_was(1).unwrap();
    rests(&mut again);
    assert_eq!(again.poured(), [(1, 160.0)]);
    assert_eq!(again.pouring.stage(), &Awaited::Pouring(2));

    // Where nobody knows, it counts for nothing, and the pour begins there.
    let mut unknown = stopped(&bench, &aim);
    rests(&mut unknown);
    unknown.pouring.begin_as_it_stands().unwrap();
    rests(&mut unknown);
    assert_eq!(unknown.pouring.stage(), &Awaited::Pouring(1));
    assert_eq!(unknown.pouring.mix().poured(1), Mass::ZERO);

    // Without the vessel nothing begins by itself.
    let mut empty = stopped(&bench, &aim);
    empty.on = 0.0;
    rests(&mut empty);
    assert_eq!(empty.pouring.stage(), &Awaited::Vessel);
    assert!(matches!(
        empty.pouring.that_was(1),
        Err(PouringError::NothingPoured)
    ));
}

#[test]
fn a_curing_agent_that_may_be_in_already_is_never_passed_over() {
    let mut bench = cured(3_000.0, 0.24);
    let aim = Aim::of(bench.pouring.mix(), 0.5, bench.pouring.vessel(), None);
    let read = NitriteFraction::new("nitrite", 0.0625).unwrap();
    bench.pouring.confirm_label(read).unwrap();
    bench.pour(3.2, 500);
    assert_eq!(bench.pouring.mix().poured(2), Mass::ZERO, "in the middle");

    let mut again = stopped(&bench, &aim);
    rests(&mut again);
    assert_eq!(again.pouring.came_meanwhile(), Some(grams(3.2)));
    assert!(matches!(
        again.pouring.begin_as_it_stands(),
        Err(PouringError::MayBeAgent(_))
    ));
    // It counts as the agent once its packet was read again.
    again.pouring.that_was(2).unwrap();
    assert!(matches!(
        again.pouring.stage(),
        Awaited::Held(2, MixError::NotConfirmed(_))
    ));
    again.pouring.confirm_label(read).unwrap();
    assert_eq!(again.pouring.stage(), &Awaited::Pouring(2));
    again.pour(4.0, 2_000);
    assert_eq!(again.pouring.stage(), &Awaited::Finished);
    assert!((again.pouring.mix().poured(2).grams() - 7.2).abs() < 1e-6);
    assert_eq!(again.pouring.mix().ready(), Ok(()));

    // Without a limit in force nothing goes on.
    let batch = on_record(&aim, &bench.steps);
    assert_eq!(
        aim.mix(&batch, close(), None),
        Err(AimError::NoLimit(Method::BaconDryCure))
    );
}

#[test]
fn a_mix_that_was_put_aside_or_changed_elsewhere_is_not_gone_on_with() {
    let mut bench = Bench::brine(None);
    bench.pour(812.4, 2_000);
    let aim = Aim::of(bench.pouring.mix(), 0.5, bench.pouring.vessel(), None);
    bench.pour(2_000.0, 4_500);
    let add = |batch: &mut Batch, what| {
        let at = Timestamp::UNIX_EPOCH;
        batch.add(Entry { at, what }).unwrap();
    };
    let batch = on_record(&aim, &bench.steps);
    let mut aside = batch.clone();
    add(&mut aside, What::PutAside);
    assert_eq!(aside.under_way(), None);

    let mut other = batch.clone();
    add(
        &mut other,
        What::Weighed {
            slot: Slot(7),
            mass: grams(5.0),
            temperature: None,
        },
    );
    assert_eq!(
        aim.mix(&other, close(), None),
        Err(AimError::SomethingElse(7))
    );
    let mut renamed = batch;
    add(
        &mut renamed,
        What::Named {
            slot: Slot(0),
            ingredient: NamedAs(plain("milk")),
        },
    );
    assert!(matches!(
        aim.mix(&renamed, close(), None),
        Err(AimError::Renamed { slot: 0, .. })
    ));
}

#[test]
fn too_small_a_dose_for_the_scale_is_held_back() {
    let read = NitriteFraction::new("nitrite", 0.0625).unwrap();
    // 0.72 g on a scale good to 0.3 g.
    let mut bench = cured(300.0, 0.24);
    bench.pouring.confirm_label(read).unwrap();
    assert!(
        matches!(
            bench.pouring.stage(),
            Awaited::Held(2, MixError::TooSmall(_))
        ),
        "{:?}",
        bench.pouring.stage()
    );
}

#[test]
fn weighing_as_one_goes_takes_down_every_rest() {
    let mut capture = Capture::new(Mass::from_grams(1));
    let mut millis = 0;
    let mut on = 0.0;
    let mut pour = |capture: &mut Capture, by: f64| {
        let mut caught = Vec::new();
        for step in 0..40 {
            if step < 10 {
                on += by / 10.0;
            }
            millis += 100;
            caught.extend(capture.take(ScaleLook {
                at: Uptime::from_millis(millis),
                mass: grams(on),
                stable: step >= 10,
            }));
        }
        caught
    };
    assert_eq!(pour(&mut capture, 640.0), []);
    assert_eq!(capture.vessel(), Some(grams(640.0)));
    let rounded = |caught: Vec<Caught>| {
        caught
            .into_iter()
            .map(|caught| match caught {
                Caught::Added(mass) => Caught::Added(mass.rounded_to(Mass::from_milligrams(1))),
                Caught::TakenOut(mass) => {
                    Caught::TakenOut(mass.rounded_to(Mass::from_milligrams(1)))
                }
                other => other,
            })
            .collect::<Vec<_>>()
    };
    let added = |grams| vec![Caught::Added(Mass::from_grams(grams))];
    assert_eq!(rounded(pour(&mut capture, 500.0)), added(500));
    assert_eq!(rounded(pour(&mut capture, 1_500.0)), added(1_500));
    // Creep of half a gram is no pour, spooning out is one.
    assert_eq!(pour(&mut capture, 0.5), []);
    assert_eq!(
        rounded(pour(&mut capture, -20.5)),
        [Caught::TakenOut(Mass::from_grams(20))]
    );
    assert_eq!(pour(&mut capture, -2_620.0), [Caught::Lifted]);
    assert_eq!(pour(&mut capture, 2_620.0), [Caught::Back]);
    assert_eq!(rounded(pour(&mut capture, 12.0)), added(12));
}
