//! Mixing by weight from the vessel to the record: the screens' state, the
//! link and the store, on a simulated instrument that a hand pours onto.

use evenhand_app::Opening;
use evenhand_app::controller::Controller;
use evenhand_app::intent::Intent;
use evenhand_app::mixing::{
    CaptureView, Field, MixView, Page, PouringView, Said, VesselStep, Wish,
};
use evenhand_app::state::Screen;
use evenhand_kitchen::batch::{Batch, What};
use evenhand_kitchen::brine::{Strength, VesselName};
use evenhand_kitchen::cure::{Contents, Method};
use evenhand_kitchen::ratio::Form;
use evenhand_link::{Dial, Hand, Pace, SimulatedDial};
use evenhand_protocol::{Mass, Verdict};
use evenhand_simulator::scenario::Scenario;
use evenhand_store::{DataFolder, Store};
use jiff::tz::TimeZone;
use std::io::{BufRead, BufReader};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};
use tempfile::TempDir;

/// Longer than anything here takes on a busy machine.
const PATIENCE: Duration = Duration::from_secs(20);
/// The simulated bench's seconds in one of ours.
const SPEED: f64 = 25.0;

/// A bench where nobody portions: only the hand puts things on it.
fn scenario(capacity_grams: u32, probe_celsius: f64) -> Scenario {
    Scenario::from_toml(&format!(
        r#"
title = "Saltmarsh: mixing"
mode = "adding"
dish = "Nothing portioned"
[goal]
target_grams = 100
tolerance_grams = 5
[portions]
masses_grams = [100]
[dishes]
grams = 200
[cell]
capacity_grams = {capacity_grams}
[surroundings]
celsius = [18, 26]
extractor_grams = [0.1, 0.3]
[probe]
[[probe.medium]]
at_seconds = 0
celsius = {probe_celsius}
"#
    ))
    .unwrap()
}

struct Kitchen {
    controller: Controller,
    hand: Hand,
    folder: PathBuf,
    owned: Option<TempDir>,
}

impl Kitchen {
    fn new(capacity_grams: u32, probe_celsius: f64, seed: u64) -> Self {
        let folder = tempfile::tempdir().unwrap();
        let kitchen = Self::of(folder.path(), capacity_grams, probe_celsius, seed);
        Self {
            owned: Some(folder),
            ..kitchen
        }
    }

    /// As it is when the program was started and nobody touched it yet.
    fn opened(folder: &Path, capacity_grams: u32, probe_celsius: f64, seed: u64) -> Self {
        let mut controller =
            Controller::open(data(folder), TimeZone::UTC, Vec::new(), || {}).unwrap();
        let dial = SimulatedDial::new(
            scenario(capacity_grams, probe_celsius),
            seed,
            Pace::Times(SPEED),
        );
        let hand = dial.hand().unwrap();
        controller.seek(Opening::at(dial));
        Self {
            controller,
            hand,
            folder: folder.to_owned(),
            owned: None,
        }
    }

    fn of(folder: &Path, capacity_grams: u32, probe_celsius: f64, seed: u64) -> Self {
        let mut kitchen = Self::opened(folder, capacity_grams, probe_celsius, seed);
        kitchen.controller.carry_out(Intent::Go(Screen::Mix));
        kitchen.until("a steady scale", |kitchen| {
            kitchen.controller.state().bench.mass.stable == Some(true)
        });
        kitchen
    }

    fn view(&self) -> &MixView {
        &self.controller.state().mix
    }

    fn pouring(&self) -> &PouringView {
        self.view().pouring.as_ref().expect("a mix on the scale")
    }

    fn capture(&self) -> &CaptureView {
        self.view().capture.as_ref().expect("weighing as one goes")
    }

    fn wish(&mut self, wish: Wish) {
        self.controller.carry_out(Intent::Mix(wish));
    }

    /// Wishes, and expects that nothing stands in the way.
    #[track_caller]
    fn does(&mut self, wish: Wish) {
        self.wish(wish.clone());
        assert_eq!(self.controller.state().complaint, None, "{wish:?}");
    }

    /// Wishes, and returns why that came to nothing.
    #[track_caller]
    fn refused(&mut self, wish: Wish) -> String {
        self.wish(wish.clone());
        self.controller
            .state()
            .complaint
            .clone()
            .unwrap_or_else(|| panic!("{wish:?} was not refused"))
    }

    #[track_caller]
    fn types(&mut self, field: Field, text: &str) {
        self.does(Wish::Ask(field));
        self.does(Wish::Type(text.to_owned()));
        self.does(Wish::Enter);
    }

    #[track_caller]
    fn ingredient(&mut self, name: &str, number: &str) {
        self.does(Wish::Ask(Field::NewName));
        self.does(Wish::Type(name.to_owned()));
        self.does(Wish::Enter);
        self.does(Wish::Type(number.to_owned()));
        self.does(Wish::Enter);
        assert_eq!(self.view().entry, None);
    }

    #[track_caller]
    fn until(&mut self, what: &str, is: impl Fn(&Self) -> bool) {
        let begun = Instant::now();
        loop {
            self.controller.take_in();
            if is(self) {
                return;
            }
            assert!(
                begun.elapsed() < PATIENCE,
                "never {what}: {:?} {:#?}",
                self.controller.state().complaint,
                self.view()
            );
            std::thread::sleep(Duration::from_millis(2));
        }
    }

    /// So much more comes onto the scale.
    fn add(&self, grams: f64) {
        let mass = Mass::from_fractional_grams(grams).unwrap();
        self.hand.place(self.hand.holds() + mass);
    }

    fn on_it(&self) -> f64 {
        self.hand.holds().grams()
    }

    /// Waits until the scale is steady with what was put on it.
    #[track_caller]
    fn rests(&mut self, grams: f64) {
        self.until("at rest", |kitchen| {
            let mass = &kitchen.controller.state().bench.mass;
            let near = mass
                .shown
                .is_some_and(|shown| (shown.grams() - grams).abs() < grams * 0.002 + 5.0);
            near && mass.stable == Some(true)
        });
    }

    fn prompt_is(&mut self, prompt: &str) {
        self.until(prompt, |kitchen| kitchen.pouring().prompt == prompt);
    }

    #[track_caller]
    fn vessel(&mut self, grams: f64) {
        self.prompt_is("Put the vessel on");
        self.add(grams);
        self.until("begun", |kitchen| !kitchen.pouring().awaits_vessel);
    }

    /// A cook who watches the screen and nothing else: pours most of what is
    /// lacking, then little by little, and stops within a smallest step of the
    /// target. Returns what truly went in.
    #[track_caller]
    fn pour_to_target(&mut self, name: &str) -> f64 {
        let adding = format!("Add {name}");
        self.until(&adding, |kitchen| {
            kitchen.pouring().prompt.starts_with(&adding)
        });
        let before = self.on_it();
        loop {
            let pouring = self.pouring();
            let Some(goal) = pouring.goal.filter(|_| pouring.prompt.contains(name)) else {
                // It went on by itself.
                return self.on_it() - before;
            };
            let lacking = (goal.target() - pouring.so_far.unwrap_or(Mass::ZERO)).grams();
            if lacking <= 0.1 {
                return self.on_it() - before;
            }
            self.add_and_rest(if lacking > 8.0 {
                lacking * 0.9
            } else {
                lacking
            });
        }
    }

    /// Puts so much more on and waits until the screen shows it at rest: as
    /// much more as was put on, or, where that cannot be told from what stood
    /// there before, after ten of the bench's seconds.
    #[track_caller]
    fn add_and_rest(&mut self, grams: f64) {
        let shown = |kitchen: &Self| {
            let mass = &kitchen.controller.state().bench.mass;
            mass.shown
                .filter(|_| mass.stable == Some(true))
                .map(Mass::grams)
        };
        self.until("at rest before", |kitchen| shown(kitchen).is_some());
        let expected = shown(self).unwrap() + grams;
        self.add(grams);
        let close = (0.3 + 0.002 * grams.abs()).min(0.6 * grams.abs());
        let begun = Instant::now();
        let long = Duration::from_secs_f64(10.0 / SPEED);
        self.until("at rest", |kitchen| {
            shown(kitchen)
                .is_some_and(|shown| (shown - expected).abs() <= close || begun.elapsed() >= long)
        });
    }

    fn store(&self) -> Store {
        Store::open(&data(&self.folder)).unwrap()
    }

    fn only_batch(&self) -> Batch {
        let batches = self.store().batches().unwrap();
        assert_eq!(batches.len(), 1);
        batches.into_iter().next().unwrap().1
    }
}

fn data(folder: impl AsRef<Path>) -> DataFolder {
    DataFolder::choose(Some(folder.as_ref())).unwrap()
}

fn grams_of(batch: &Batch, name: &str) -> f64 {
    batch
        .weighed_in()
        .iter()
        .filter(|slot| {
            slot.ingredient
                .as_ref()
                .is_some_and(|other| other.name() == name)
        })
        .map(|slot| slot.mass.grams())
        .sum()
}

/// Five kilograms of water and 8 % of it salt, for six kilograms of necks,
/// poured by what the screen says. By the hand's own true masses the strength
/// is within 0.1 % of the target's (8 % of water, give or take 0.008): what the
/// app shows of itself is not asked.
#[test]
fn a_three_day_brine_for_six_kilograms_of_necks_to_a_thousandth_of_its_strength() {
    for seed in [1, 2, 3] {
        let mut kitchen = Kitchen::new(8_000, 3.5, seed);
        kitchen.does(Wish::RecipeDraft(Form::OfWater));
        kitchen.ingredient("salt", "8");
        kitchen.types(Field::Title, "Neck brine");
        kitchen.types(Field::Amount(0), "5000");
        kitchen.does(Wish::Closer);
        kitchen.does(Wish::Closer);
        kitchen.does(Wish::Closer);
        assert_eq!(kitchen.view().recipe_draft.closeness, "within 0.1 %");
        assert_eq!(
            kitchen.view().recipe_draft.verdict,
            Ok("5400.0 g in all".to_owned())
        );
        kitchen.does(Wish::Weigh);
        kitchen.vessel(940.0);
        let water = kitchen.pour_to_target("water");
        let salt = kitchen.pour_to_target("salt");
        kitchen.prompt_is("All in");

        let strength = Strength::of(
            Mass::from_fractional_grams(salt).unwrap(),
            Mass::from_fractional_grams(water).unwrap(),
        )
        .unwrap();
        let off = strength.of_water().percent() / 8.0 - 1.0;
        println!(
            "seed {seed}: {:.4} % of water, {:+.3} % of the target",
            strength.of_water().percent(),
            off * 100.0
        );
        assert!(off.abs() <= 0.001, "seed {seed}: {off:+.5}");

        let finish = kitchen.pouring().finish.clone().unwrap();
        assert_eq!(finish.not_ready, Vec::<String>::new());
        let told: f64 = finish
            .found
            .iter()
            .find_map(|line| line.strip_prefix("Brine: salt ")?.split_once(" % of water"))
            .and_then(|(percent, _)| percent.parse().ok())
            .unwrap_or_else(|| panic!("{finish:?}"));
        assert!((told - 8.0).abs() <= 0.01, "{finish:?}");
        kitchen.does(Wish::Finish);
        assert_eq!(kitchen.view().page, Page::Batch);
        kitchen.types(Field::DueIn, "3");
        kitchen.does(Wish::Type("24".to_owned()));
        kitchen.does(Wish::Enter);

        let batch = kitchen.only_batch();
        assert!(batch.is_ready());
        assert_eq!(batch.title(), Some("Neck brine"));
        assert!((grams_of(&batch, "water") - water).abs() < 5.0);
        assert!((grams_of(&batch, "salt") - salt).abs() < 0.5);
        // The probe's temperature is on record beside each weighing.
        let warmest = batch
            .weighed_in()
            .iter()
            .map(|slot| slot.temperature.unwrap().celsius())
            .fold(0.0, f64::max);
        assert!((warmest - 3.5).abs() < 1.0, "{warmest}");
        let plan = batch.plan().unwrap();
        assert_eq!(plan.due().duration_since(plan.into_brine()).as_hours(), 72);
        let due: Vec<String> = batch
            .due(
                plan.into_brine()
                    .checked_add(jiff::SignedDuration::from_hours(97))
                    .unwrap(),
            )
            .iter()
            .map(ToString::to_string)
            .collect();
        assert_eq!(
            due,
            ["turn: overdue by 3 d 1 h", "take out: overdue by 1 d 1 h"]
        );
        let words: Vec<&str> = kitchen
            .view()
            .due
            .iter()
            .map(|row| row.due.as_str())
            .collect();
        assert!(
            words[0].starts_with("Turn in 23 h") || words[0] == "Turn in 1 d.",
            "{words:?}"
        );
    }
}

/// Sets up a dry cure of belly, 2.5 % salt, by an agent of 2.08 %.
fn belly(kitchen: &mut Kitchen, method: Method, ppm: &str) {
    kitchen.does(Wish::SketchCure(method));
    kitchen.types(Field::Rename(0), "belly");
    kitchen.ingredient("salt", "2.5");
    kitchen.types(Field::AgentName, "Saltmarsh cure");
    kitchen.types(Field::Fraction, "2.08");
    kitchen.types(Field::Ppm, ppm);
    kitchen.types(Field::Title, "Belly");
}

const AGENT: &str = "\u{25c6} NITRITE Saltmarsh cure";

/// 150 ppm of ingoing nitrite on the raw weight is 7.2 g of a 2.08 % agent a
/// kilogram (USDA FSIS Directive 7620.3, read as quoted: nitrite x 1000000 /
/// raw weight), against at most 200 ppm for dry-cured bacon.
#[test]
fn a_nitrite_cure_is_dosed_and_checked_by_weight() {
    let mut kitchen = Kitchen::new(5_000, 3.0, 5);
    belly(&mut kitchen, Method::BaconDryCure, "150");
    let cure = kitchen.view().recipe_draft.cure.clone().unwrap();
    let dose = cure.dose.unwrap();
    assert!(dose.starts_with("7.212 g of \u{25c6} NITRITE"), "{dose}");
    assert!(
        cure.limit.starts_with("at most 200 ppm of sodium nitrite")
            && cure.limit.contains("9 CFR 424.22(b)"),
        "{}",
        cure.limit
    );
    assert!(cure.caution.contains("poisonous"), "{}", cure.caution);
    assert!(kitchen.view().recipe_draft.lines[2].curing);

    kitchen.does(Wish::Weigh);
    kitchen.vessel(350.0);
    // The meat is whatever there is of it.
    kitchen.until("meat", |kitchen| {
        kitchen.pouring().prompt.starts_with("Add belly")
    });
    kitchen.add(3_212.0);
    kitchen.until("salt", |kitchen| kitchen.pouring().prompt == "Add salt");
    kitchen.pour_to_target("salt");

    // The agent waits for its label; salt went in before and is another thing.
    kitchen.until("held", |kitchen| kitchen.pouring().label.is_some());
    assert_eq!(kitchen.pouring().prompt, format!("Stop: {AGENT}"));
    // Nothing on the screen says what is to be read from the packet.
    let words = format!("{:?}", kitchen.pouring());
    assert!(!words.contains("2.08"), "{words}");
    kitchen.does(Wish::Ask(Field::LabelAgain));
    kitchen.does(Wish::Type("0.5".to_owned()));
    let why = kitchen.refused(Wish::Enter);
    assert!(
        why.contains("0.5 % nitrite") && why.contains("2.08 % nitrite"),
        "{why}"
    );
    kitchen.does(Wish::Type("2.08".to_owned()));
    kitchen.does(Wish::Enter);
    let agent = kitchen.pour_to_target(AGENT);
    kitchen.prompt_is("All in");

    let ppm = agent * 0.0208 * 1e6 / 3_212.0;
    assert!((ppm - 150.0).abs() < 150.0 * 0.05, "{ppm}");
    let finish = kitchen.pouring().finish.clone().unwrap();
    assert_eq!(finish.not_ready, Vec::<String>::new());
    for words in [
        "they agree",
        "at most 200 ppm of sodium nitrite for bacon-dry by USDA",
        "Nitrite is poisonous",
    ] {
        assert!(
            finish.found.iter().any(|line| line.contains(words)),
            "{words}: {finish:#?}"
        );
    }
    kitchen.does(Wish::Finish);
    let batch = kitchen.only_batch();
    assert!(batch.is_ready());
    let nitrite = batch
        .entries()
        .find_map(|(entry, _)| match entry.what {
            What::Ready { nitrite } => nitrite,
            _ => None,
        })
        .unwrap();
    assert!((nitrite.ppm.value() - ppm).abs() < 5.0, "{nitrite:?} {ppm}");
    assert_eq!(nitrite.at_most.value(), 200.0);
    let agents: Vec<_> = batch
        .weighed_in()
        .into_iter()
        .filter_map(|slot| slot.ingredient?.agent().cloned())
        .collect();
    assert_eq!(agents.len(), 1);
    assert!((agents[0].nitrite().parts() - 0.0208).abs() < 1e-12);
    // It cannot be mixed again without the packet in the hand.
    let why = kitchen.refused(Wish::Again);
    assert!(why.contains("packet"), "{why}");
}

#[test]
fn a_cure_over_the_limit_is_refused_before_it_is_weighed_and_after() {
    let mut kitchen = Kitchen::new(5_000, 3.0, 6);
    // As it is asked for: 9 CFR 424.22(b) by FSIS Directive 7620.3, at most 200 ppm for dry-cured bacon.
    belly(&mut kitchen, Method::BaconDryCure, "250");
    let dose = kitchen
        .view()
        .recipe_draft
        .cure
        .clone()
        .unwrap()
        .dose
        .unwrap_err();
    assert!(
        dose.contains("over the limit") && dose.contains("9 CFR 424.22(b)"),
        "{dose}"
    );
    let why = kitchen.refused(Wish::Weigh);
    assert!(why.contains("at most 200 ppm"), "{why}");
    assert!(kitchen.view().pouring.is_none());
    // A mixture with nitrate is refused in words of its own.
    kitchen.types(Field::Ppm, "150");
    kitchen.does(Wish::AgentContents(Contents::NitriteAndNitrate));
    let why = kitchen.refused(Wish::Weigh);
    assert!(why.contains("nitrite and nitrate together"), "{why}");
    kitchen.does(Wish::AgentContents(Contents::SodiumNitrite));

    // As it is poured: 45 g where 21.6 g were worked out.
    kitchen.does(Wish::Weigh);
    kitchen.vessel(350.0);
    kitchen.until("meat", |kitchen| {
        kitchen.pouring().prompt.starts_with("Add belly")
    });
    kitchen.add(3_000.0);
    kitchen.pour_to_target("salt");
    kitchen.until("held", |kitchen| kitchen.pouring().label.is_some());
    kitchen.types(Field::LabelAgain, "2.08");
    kitchen.until("agent", |kitchen| {
        kitchen.pouring().prompt == format!("Add {AGENT}")
    });
    kitchen.add(45.0);
    kitchen.until("over", |kitchen| {
        kitchen.pouring().verdict == Some(Verdict::Heavy)
    });
    assert!(
        kitchen.pouring().aside.starts_with("It cannot be undone"),
        "{}",
        kitchen.pouring().aside
    );
    // It never goes on by itself. Others cannot be taken for it either.
    let expected = kitchen.on_it();
    kitchen.rests(expected);
    let why = kitchen.refused(Wish::ThatWas(1));
    assert!(why.contains("curing agent"), "{why}");
    kitchen.does(Wish::GoOn);
    let notices = kitchen.pouring().notices.clone();
    assert!(
        notices
            .iter()
            .any(|notice| notice.contains("cannot be taken back out")),
        "{notices:#?}"
    );
    // There is no more belly to be had: it is put away, and on record as not ready.
    let why = kitchen.refused(Wish::Finish);
    assert!(why.starts_with("Not ready"), "{why}");
    kitchen.does(Wish::Abandon);
    let batch = kitchen.only_batch();
    assert!(!batch.is_ready());
    let note = batch
        .entries()
        .filter_map(|(entry, _)| match &entry.what {
            What::Noted { text } => Some(text.clone()),
            _ => None,
        })
        .last()
        .unwrap();
    assert!(note.contains("not ready"), "{note}");
    assert!(kitchen.view().batch.clone().unwrap().lines[0].contains("Not marked ready"));
}

#[test]
fn a_dose_too_small_for_the_scale_is_refused_with_a_way_out() {
    let mut kitchen = Kitchen::new(5_000, 3.0, 7);
    belly(&mut kitchen, Method::DryCure, "150");
    kitchen.does(Wish::Weigh);
    kitchen.vessel(350.0);
    kitchen.until("meat", |kitchen| {
        kitchen.pouring().prompt.starts_with("Add belly")
    });
    kitchen.add(400.0);
    kitchen.pour_to_target("salt");
    kitchen.until("held", |kitchen| kitchen.pouring().label.is_some());
    kitchen.types(Field::LabelAgain, "2.08");
    let label = kitchen.pouring().label.clone().unwrap();
    assert!(!label.can_confirm);
    for words in ["Dissolve", "times the batch"] {
        assert!(label.words.contains(words), "{}", label.words);
    }
}

#[test]
fn over_poured_out_of_order_and_taken_for_another_thing() {
    let mut kitchen = Kitchen::new(6_000, 20.0, 8);
    kitchen.does(Wish::RecipeDraft(Form::Parts));
    kitchen.ingredient("vinegar", "4");
    kitchen.ingredient("sugar", "2");
    kitchen.ingredient("salt", "1");
    kitchen.does(Wish::Weigh);
    kitchen.vessel(400.0);
    // Sugar first, by its key.
    kitchen.does(Wish::Choose(1));
    kitchen.until("sugar", |kitchen| {
        kitchen.pouring().prompt.starts_with("Add sugar")
    });
    kitchen.add(200.0);
    kitchen.until("vinegar", |kitchen| {
        kitchen.pouring().prompt == "Add vinegar"
    });
    assert!((kitchen.pouring().goal.unwrap().target().grams() - 400.0).abs() < 1.5);
    // What the cook took for vinegar was salt, and too much of it.
    kitchen.add(130.0);
    let expected = kitchen.on_it();
    kitchen.rests(expected);
    kitchen.until("seen", |kitchen| {
        kitchen
            .pouring()
            .so_far
            .is_some_and(|mass| mass > Mass::from_grams(129))
    });
    kitchen.does(Wish::Mistaken);
    kitchen.does(Wish::ThatWas(2));
    kitchen.until("over", |kitchen| kitchen.pouring().prompt == "salt: over");
    assert!(
        kitchen.pouring().aside.contains("makes 910")
            || kitchen.pouring().aside.contains("makes 909"),
        "{}",
        kitchen.pouring().aside
    );
    assert!(
        kitchen.pouring().aside.contains("there is room for 5600"),
        "{}",
        kitchen.pouring().aside
    );
    // Left so: it goes on by itself, and the others are more now.
    kitchen.until("vinegar", |kitchen| {
        kitchen.pouring().prompt == "Add vinegar"
    });
    assert!((kitchen.pouring().goal.unwrap().target().grams() - 520.0).abs() < 3.0);
    assert!(
        kitchen
            .pouring()
            .notices
            .iter()
            .any(|notice| notice.starts_with("Salt went over")),
        "{:?}",
        kitchen.pouring().notices
    );
    kitchen.pour_to_target("vinegar");
    // Sugar a second time, up to the new target.
    kitchen.pour_to_target("sugar");
    kitchen.prompt_is("All in");
    kitchen.does(Wish::Finish);
    let batch = kitchen.only_batch();
    for (name, grams) in [("vinegar", 520.0), ("sugar", 260.0), ("salt", 130.0)] {
        let found = grams_of(&batch, name);
        assert!((found - grams).abs() < grams * 0.01, "{name} {found}");
    }
}

/// Names the folder to the program that is killed.
const KILLED_IN: &str = "EVENHAND_TEST_MIX_KILLED_IN";

/// Water in, and half of the salt: the program that is killed. It says so and
/// goes on until it is.
fn is_killed_with_half_of_the_salt_in(folder: &Path) -> ! {
    let mut kitchen = Kitchen::of(folder, 8_000, 20.0, 4);
    kitchen.does(Wish::RecipeDraft(Form::OfWater));
    kitchen.ingredient("salt", "8");
    kitchen.types(Field::Title, "Neck brine");
    kitchen.types(Field::Amount(0), "2000");
    kitchen.does(Wish::Weigh);
    kitchen.vessel(800.0);
    kitchen.pour_to_target("water");
    kitchen.until("salt", |kitchen| {
        kitchen.pouring().prompt.starts_with("Add salt")
    });
    kitchen.add(80.0);
    kitchen.until("half of the salt", |kitchen| {
        kitchen
            .pouring()
            .so_far
            .is_some_and(|mass| (mass.grams() - 80.0).abs() < 1.0)
    });
    println!("IN THE MIDDLE {}", kitchen.on_it());
    loop {
        kitchen.controller.take_in();
        std::thread::yield_now();
    }
}

/// The program is killed outright, with half of the salt in the vessel and
/// nothing of it on record; it goes on where it was, asks what came on, and the
/// brine comes out as the hand's own true masses say.
#[cfg(unix)]
#[test]
fn a_mix_that_the_program_was_killed_in_goes_on() {
    use std::os::unix::process::ExitStatusExt;

    if let Some(folder) = std::env::var_os(KILLED_IN) {
        is_killed_with_half_of_the_salt_in(Path::new(&folder));
    }
    let folder = tempfile::tempdir().unwrap();
    let mut program = Command::new(std::env::current_exe().unwrap())
        .args([
            "a_mix_that_the_program_was_killed_in_goes_on",
            "--nocapture",
        ])
        .env(KILLED_IN, folder.path())
        .stdout(Stdio::piped())
        .spawn()
        .unwrap();
    let lines = BufReader::new(program.stdout.take().unwrap()).lines();
    let said = lines
        .map(Result::unwrap)
        .find_map(|line| Some(line.split_once("IN THE MIDDLE ")?.1.to_owned()))
        .expect("the program came to the middle of the mix");
    program.kill().unwrap();
    assert_eq!(program.wait().unwrap().signal(), Some(9), "it was killed");
    let on_it: f64 = said.trim().parse().unwrap();

    // In the middle: the water is on record, nothing of the salt, and no end.
    {
        let batches = Store::open(&data(&folder)).unwrap().batches().unwrap();
        let (_, batch) = batches.first().expect("a batch on record");
        assert_eq!(batch.weighed_in().len(), 1);
        let water = grams_of(batch, "water");
        assert!((water - 2_000.0).abs() < 20.0, "{water}");
        assert!(on_it - 800.0 - water > 70.0, "salt that is not on record");
        assert!(!batch.is_ready());
    }

    let mut kitchen = Kitchen::opened(folder.path(), 8_000, 20.0, 4);
    assert_eq!(
        kitchen.controller.state().screen,
        Screen::Mix,
        "it is offered"
    );
    let unfinished = kitchen.view().unfinished.clone().expect("offered");
    assert_eq!(unfinished.title, "Neck brine");
    assert!(
        unfinished.about.starts_with("1 of 2 weighed at "),
        "{unfinished:?}"
    );
    kitchen.add(on_it);
    kitchen.rests(on_it);
    kitchen.does(Wish::Resume(unfinished.id));
    kitchen.until("asked", |kitchen| kitchen.pouring().came_meanwhile);
    assert!(
        kitchen.pouring().aside.contains("more than is on record"),
        "{}",
        kitchen.pouring().aside
    );
    kitchen.does(Wish::ThatWas(1));
    kitchen.pour_to_target("salt");
    kitchen.prompt_is("All in");
    let salt = kitchen.on_it() - 800.0 - grams_of(&kitchen.only_batch(), "water");
    kitchen.does(Wish::Finish);
    let batch = kitchen.only_batch();
    assert!(batch.is_ready());
    assert!((salt - 160.0).abs() < 2.0, "{salt}");
    assert!((grams_of(&batch, "salt") - salt).abs() < 1.0);
    assert_eq!(kitchen.view().unfinished, None);
}

/// Brine whose first pour, half of the water, is not over: the program that is
/// killed.
fn is_killed_in_the_first_pour(folder: &Path) -> ! {
    let mut kitchen = Kitchen::of(folder, 8_000, 20.0, 4);
    kitchen.does(Wish::RecipeDraft(Form::OfWater));
    kitchen.ingredient("salt", "8");
    kitchen.types(Field::Title, "Neck brine");
    kitchen.types(Field::Amount(0), "2000");
    kitchen.does(Wish::Weigh);
    kitchen.vessel(800.0);
    kitchen.add(1_000.0);
    kitchen.until("half of the water", |kitchen| {
        kitchen
            .pouring()
            .so_far
            .is_some_and(|mass| (mass.grams() - 1_000.0).abs() < 10.0)
    });
    kitchen.until("begun on record", |kitchen| {
        !kitchen.view().batches.is_empty()
    });
    println!("IN THE MIDDLE {}", kitchen.on_it());
    loop {
        kitchen.controller.take_in();
        std::thread::yield_now();
    }
}

/// Beans on record, named, and water that is not taken down yet: the program
/// that is killed.
fn is_killed_as_it_goes(folder: &Path) -> ! {
    let mut kitchen = Kitchen::of(folder, 8_000, 20.0, 4);
    kitchen.does(Wish::Capture);
    kitchen.add(700.0);
    kitchen.until("vessel", |kitchen| !kitchen.capture().awaits_vessel);
    kitchen.add(500.0);
    kitchen.until("taken down", |kitchen| kitchen.capture().lines.len() == 1);
    kitchen.types(Field::SlotName(0), "soy beans");
    pours_without_an_end(kitchen, 900.0)
}

/// The same before anything is taken down.
fn is_killed_before_the_first_is_taken_down(folder: &Path) -> ! {
    let mut kitchen = Kitchen::of(folder, 8_000, 20.0, 4);
    kitchen.does(Wish::Capture);
    kitchen.add(700.0);
    kitchen.until("vessel", |kitchen| !kitchen.capture().awaits_vessel);
    pours_without_an_end(kitchen, 300.0)
}

/// Pours so much and goes on moving the vessel, so that the scale never rests.
fn pours_without_an_end(mut kitchen: Kitchen, grams: f64) -> ! {
    kitchen.until("poured on", |kitchen| {
        kitchen.add(5.0);
        let live = kitchen.capture().live;
        live.is_some_and(|live| live.grams() > grams)
    });
    println!("IN THE MIDDLE {}", kitchen.on_it());
    for sway in [60.0, -60.0].into_iter().cycle() {
        kitchen.add(sway);
        for _ in 0..3 {
            kitchen.controller.take_in();
            std::thread::sleep(Duration::from_millis(1));
        }
    }
    unreachable!("it sways without an end")
}

/// Runs a test of this file as a program of its own and kills it in the middle:
/// what was on its scale.
#[cfg(unix)]
fn killed_in_the_middle(test: &str, folder: &Path) -> f64 {
    use std::os::unix::process::ExitStatusExt;

    let mut program = Command::new(std::env::current_exe().unwrap())
        .args([test, "--nocapture"])
        .env(KILLED_IN, folder)
        .stdout(Stdio::piped())
        .spawn()
        .unwrap();
    let lines = BufReader::new(program.stdout.take().unwrap()).lines();
    let said = lines
        .map(Result::unwrap)
        .find_map(|line| Some(line.split_once("IN THE MIDDLE ")?.1.to_owned()))
        .expect("the program came to the middle");
    program.kill().unwrap();
    assert_eq!(program.wait().unwrap().signal(), Some(9), "it was killed");
    said.trim().parse().unwrap()
}

#[cfg(unix)]
#[test]
fn a_mix_that_the_program_was_killed_in_the_first_pour_of_goes_on() {
    if let Some(folder) = std::env::var_os(KILLED_IN) {
        is_killed_in_the_first_pour(Path::new(&folder));
    }
    let folder = tempfile::tempdir().unwrap();
    let on_it = killed_in_the_middle(
        "a_mix_that_the_program_was_killed_in_the_first_pour_of_goes_on",
        folder.path(),
    );
    // The witness: nothing of it was weighed yet by the record, and it stands there.
    {
        let batches = Store::open(&data(&folder)).unwrap().batches().unwrap();
        assert!(
            batches
                .iter()
                .all(|(_, batch)| batch.weighed_in().is_empty())
        );
        assert!(on_it > 1_700.0, "{on_it}");
    }
    let mut kitchen = Kitchen::opened(folder.path(), 8_000, 20.0, 4);
    assert_eq!(
        kitchen.controller.state().screen,
        Screen::Mix,
        "it is offered"
    );
    let unfinished = kitchen.view().unfinished.clone().expect("offered");
    assert_eq!(unfinished.title, "Neck brine");
    assert!(
        unfinished.about.starts_with("0 of 2 weighed at "),
        "{unfinished:?}"
    );
    kitchen.add(on_it);
    kitchen.rests(on_it);
    kitchen.does(Wish::Resume(unfinished.id));
    kitchen.until("asked", |kitchen| kitchen.pouring().came_meanwhile);
    kitchen.does(Wish::ThatWas(0));
    kitchen.pour_to_target("water");
    kitchen.pour_to_target("salt");
    kitchen.prompt_is("All in");
    kitchen.does(Wish::Finish);
    let batch = kitchen.only_batch();
    let (water, salt) = (grams_of(&batch, "water"), grams_of(&batch, "salt"));
    assert!((water - 2_000.0).abs() < 20.0, "{water}");
    assert!((salt - 160.0).abs() < 2.0, "{salt}");
    assert_eq!(kitchen.view().unfinished, None);
}

#[cfg(unix)]
#[test]
fn what_was_weighed_as_one_goes_when_the_program_was_killed_goes_on() {
    if let Some(folder) = std::env::var_os(KILLED_IN) {
        is_killed_as_it_goes(Path::new(&folder));
    }
    let folder = tempfile::tempdir().unwrap();
    let on_it = killed_in_the_middle(
        "what_was_weighed_as_one_goes_when_the_program_was_killed_goes_on",
        folder.path(),
    );
    // The witness: more stands there than is on record, and nobody said that it is done.
    {
        let batches = Store::open(&data(&folder)).unwrap().batches().unwrap();
        let (_, batch) = batches.first().expect("a batch on record");
        assert_eq!(batch.weighed_in().len(), 1);
        assert!(on_it - 700.0 - grams_of(batch, "soy beans") > 800.0);
        assert!(batch.as_you_go().is_some());
    }
    let mut kitchen = Kitchen::opened(folder.path(), 8_000, 20.0, 4);
    assert_eq!(
        kitchen.controller.state().screen,
        Screen::Mix,
        "it is offered"
    );
    let unfinished = kitchen.view().unfinished.clone().expect("offered");
    assert_eq!(unfinished.title, "Weighing as you go");
    assert!(
        unfinished.about.starts_with("1 weighed at "),
        "{unfinished:?}"
    );
    kitchen.add(3_200.0);
    kitchen.rests(3_200.0);
    kitchen.does(Wish::Resume(unfinished.id));
    kitchen.until("asked", |kitchen| {
        kitchen.capture().came_meanwhile.is_some()
    });
    kitchen.does(Wish::ThatWentIn);
    kitchen.add(100.0);
    kitchen.until("salt", |kitchen| kitchen.capture().lines.len() == 3);
    for (slot, name) in [(1, "water"), (2, "salt")] {
        kitchen.types(Field::SlotName(slot), name);
    }
    kitchen.does(Wish::Finish);
    let batch = kitchen.only_batch();
    for (name, grams) in [("soy beans", 500.0), ("water", 2_000.0), ("salt", 100.0)] {
        let found = grams_of(&batch, name);
        assert!(
            (found - grams).abs() < grams.mul_add(0.01, 1.0),
            "{name} {found}"
        );
    }
    assert_eq!(kitchen.view().unfinished, None);
}

#[cfg(unix)]
#[test]
fn a_first_thing_that_was_not_taken_down_when_the_program_was_killed_is_offered() {
    if let Some(folder) = std::env::var_os(KILLED_IN) {
        is_killed_before_the_first_is_taken_down(Path::new(&folder));
    }
    let folder = tempfile::tempdir().unwrap();
    killed_in_the_middle(
        "a_first_thing_that_was_not_taken_down_when_the_program_was_killed_is_offered",
        folder.path(),
    );
    let mut kitchen = Kitchen::opened(folder.path(), 8_000, 20.0, 4);
    let unfinished = kitchen.view().unfinished.clone().expect("offered");
    assert!(
        unfinished.about.starts_with("0 weighed at "),
        "{unfinished:?}"
    );
    // The same vessel as it stands; then what went in.
    kitchen.add(700.0);
    kitchen.rests(700.0);
    kitchen.does(Wish::Resume(unfinished.id));
    kitchen.until("vessel", |kitchen| !kitchen.capture().awaits_vessel);
    kitchen.add(500.0);
    kitchen.until("taken down", |kitchen| kitchen.capture().lines.len() == 1);
    kitchen.does(Wish::Finish);
    assert_eq!(kitchen.view().unfinished, None);
}

/// A vessel put down and taken away again leaves nothing on record; something
/// put in and left unweighed is put aside.
#[test]
fn nothing_is_offered_of_a_vessel_alone() {
    let mut kitchen = Kitchen::new(8_000, 20.0, 6);
    kitchen.does(Wish::Capture);
    kitchen.add(700.0);
    kitchen.until("vessel", |kitchen| !kitchen.capture().awaits_vessel);
    kitchen.does(Wish::Finish);
    assert_eq!(kitchen.view().page, Page::Start);
    assert_eq!(kitchen.view().batches, []);
}

/// Put aside, it is offered no more, and what was weighed stays on record.
#[test]
fn a_mix_that_was_left_can_be_put_aside() {
    let mut kitchen = Kitchen::new(8_000, 20.0, 5);
    kitchen.does(Wish::RecipeDraft(Form::OfWater));
    kitchen.ingredient("salt", "8");
    kitchen.types(Field::Amount(0), "2000");
    kitchen.does(Wish::Weigh);
    kitchen.vessel(800.0);
    kitchen.pour_to_target("water");
    kitchen.until("salt", |kitchen| {
        kitchen.pouring().prompt.starts_with("Add salt")
    });
    let Kitchen {
        controller, owned, ..
    } = kitchen;
    drop(controller);
    let folder = owned.unwrap();

    let mut kitchen = Kitchen::opened(folder.path(), 8_000, 20.0, 5);
    let id = kitchen.view().unfinished.as_ref().expect("offered").id;
    kitchen.does(Wish::PutAside(id));
    assert_eq!(kitchen.view().unfinished, None);
    assert!(kitchen.refused(Wish::Resume(id)).contains("put aside"));
    let water = grams_of(&kitchen.only_batch(), "water");
    assert!((water - 2_000.0).abs() < 20.0, "{water}");
}

#[test]
fn weighed_as_one_goes_named_later_tasted_compared_and_made_again_with_more_water() {
    let mut kitchen = Kitchen::new(6_000, 20.0, 9);
    for (beans, water, mark) in [(500.0, 2_000.0, 5), (500.0, 2_400.0, 8)] {
        kitchen.hand.place(Mass::ZERO);
        kitchen.rests(0.0);
        kitchen.does(Wish::Capture);
        kitchen.add(700.0);
        kitchen.until("vessel", |kitchen| {
            kitchen
                .view()
                .capture
                .as_ref()
                .is_some_and(|view| !view.awaits_vessel)
        });
        for (count, grams) in [(1, beans), (2, water)] {
            kitchen.add(grams);
            kitchen.until("taken down", |kitchen| {
                kitchen
                    .view()
                    .capture
                    .as_ref()
                    .is_some_and(|view| view.lines.len() == count)
            });
        }
        kitchen.types(Field::SlotName(0), "soy beans");
        kitchen.types(Field::SlotName(1), "water");
        kitchen.types(Field::Title, "Soaked beans");
        kitchen.does(Wish::Finish);
        kitchen.does(Wish::Mark(mark));
        kitchen.does(Wish::Type("told by the marks".to_owned()));
        kitchen.does(Wish::Enter);
    }
    kitchen.does(Wish::Compare);
    kitchen.does(Wish::ShareOf);
    kitchen.does(Wish::Plot(1));
    let compare = kitchen.view().compare.clone().unwrap();
    assert_eq!(compare.of, "per cent of soy beans");
    assert_eq!(compare.rows.len(), 2);
    assert!(compare.rows[0].4, "the second is the best");
    let points: Vec<(f64, u8)> = compare
        .points
        .iter()
        .map(|p| (p.share.round(), p.mark))
        .collect();
    assert_eq!(points, [(480.0, 8), (400.0, 5)]);

    // As last time but 5 % more water: one wish, and the scale is asked.
    kitchen.does(Wish::AgainWith(1, 5));
    assert_eq!(kitchen.view().page, Page::Pouring);
    kitchen.until("a vessel", |kitchen| !kitchen.pouring().awaits_vessel);
    kitchen.until("beans", |kitchen| {
        kitchen.pouring().prompt.starts_with("Add soy beans")
    });
    kitchen.add(400.0);
    kitchen.until("water", |kitchen| kitchen.pouring().prompt == "Add water");
    // 2400 g to 500 g, and 5 % more: 5.04 to 1.
    let target = kitchen.pouring().goal.unwrap().target().grams();
    assert!((target - 400.0 * 4.8 * 1.05).abs() < 10.0, "{target}");
    kitchen.does(Wish::Abandon);
}

#[test]
fn a_vessel_is_filled_once_and_tells_a_brine_by_its_weight() {
    // A brine of 10 % of solution is 1070.7 kg/m3 at 20 degC (CRC Handbook of Chemistry and Physics, read), water
    // 998.2 kg/m3 (Kell 1975): a vessel with 2000 g of water holds 2145.2 g of it, buoyancy in air allowed for.
    let mut kitchen = Kitchen::new(6_000, 20.0, 10);
    kitchen.does(Wish::Show(Page::Vessels));
    kitchen.types(Field::VesselName, "Blue jug");
    let why = kitchen.refused(Wish::Fill(VesselStep::Full));
    assert!(why.contains("empty first"), "{why}");
    kitchen.add(412.0);
    kitchen.rests(412.0);
    kitchen.does(Wish::Fill(VesselStep::Empty));
    kitchen.add(2_000.0);
    kitchen.rests(2_412.0);
    kitchen.does(Wish::Fill(VesselStep::Full));
    let vessel = kitchen
        .store()
        .known_vessel(&VesselName::new("name", "blue jug").unwrap())
        .unwrap();
    assert!((vessel.filling.water.grams() - 2_000.0).abs() < 2.0);

    kitchen.hand.place(Mass::ZERO);
    kitchen.does(Wish::Show(Page::Brine));
    kitchen.does(Wish::InVessel(Some(0)));
    kitchen.add(412.0 + 2_145.2);
    kitchen.rests(2_557.2);
    kitchen.does(Wish::Check(VesselStep::Full));
    // Nobody said anything of sugar yet, and then that nobody knows.
    let why = kitchen.view().brine.check.found.clone().unwrap_err();
    assert!(why.contains("Sugar"), "{why}");
    kitchen.does(Wish::SugarUnknown);
    let why = kitchen.view().brine.check.found.clone().unwrap_err();
    assert!(
        why.contains("says nothing about salt") || why.contains("say nothing about salt"),
        "{why}"
    );
    kitchen.types(Field::Sugar, "0");
    let found = kitchen.view().brine.check.found.clone().unwrap();
    let percent: f64 = found[0].split(' ').next().unwrap().parse().unwrap();
    assert!((percent - 10.0).abs() < 0.25, "{found:?}");
    assert!(found[0].contains("give or take"), "{found:?}");
    // Put right: from what was told to 8 % of the water.
    kitchen.types(Field::BrineMass, "4000");
    kitchen.types(Field::CorrectTo, "8");
    let words = kitchen.view().brine.correction.clone().unwrap();
    assert!(words.starts_with("Pour in "), "{words}");
    let water: f64 = words["Pour in ".len()..]
        .split(' ')
        .next()
        .unwrap()
        .parse()
        .unwrap();
    // 4 kg at 11.11 % of water is 400 g of salt in 3600 g: 5000 g of water are wanted.
    assert!((water - 1_400.0).abs() < 120.0, "{words}");
    // Every way of saying it follows.
    kitchen.types(Field::Strength(Said::Salometer), "37.886");
    assert_eq!(kitchen.view().brine.ways[1].1, "10.00 %");
    assert!(
        kitchen.view().brine.freezing.contains("6.6"),
        "{}",
        kitchen.view().brine.freezing
    );
}

#[test]
fn a_dry_cure_is_weighed_again_and_its_cold_store_logged_against_the_limit() {
    let mut kitchen = Kitchen::new(6_000, 7.5, 11);
    kitchen.does(Wish::Capture);
    kitchen.rests(0.0);
    kitchen.does(Wish::AsItStands);
    kitchen.add(1_520.0);
    kitchen.until("taken down", |kitchen| {
        kitchen
            .view()
            .capture
            .as_ref()
            .is_some_and(|view| view.lines.len() == 1)
    });
    kitchen.types(Field::SlotName(0), "loin");
    kitchen.types(Field::Title, "Loin");
    kitchen.does(Wish::Finish);
    kitchen.types(Field::Loss, "30");
    kitchen.hand.place(Mass::from_grams(1_196));
    kitchen.rests(1_196.0);
    kitchen.does(Wish::Reweigh);
    let loss = kitchen.only_batch().loss().unwrap();
    assert!((loss.percent() - 21.3).abs() < 0.3, "{loss}");
    let shown = kitchen.view().batch.clone().unwrap();
    assert!(
        shown
            .lines
            .iter()
            .any(|line| line.starts_with("Drying: 21.")),
        "{shown:?}"
    );

    // 7.5 degC in the store, against at most 5 degC (Food Code 3-501.16(A)(2), as adopted by two states; read).
    kitchen.does(Wish::LogStore);
    let shown = kitchen.view().batch.clone().unwrap();
    assert!(shown.logs_store);
    assert!(
        shown
            .lines
            .iter()
            .any(|line| line.starts_with("Cold store: over the limit")
                && line.contains("limit at most 5 °C")),
        "{:#?}",
        shown.lines
    );
    assert!(
        shown.lines.iter().any(|line| line.contains("3-501.16")),
        "{:#?}",
        shown.lines
    );
    kitchen.does(Wish::LogStore);
    assert!(!kitchen.view().batch.clone().unwrap().logs_store);
}

/// The screens in every state that matters, each reached by wishes and by what
/// a scale would show; nothing here takes time.
pub(crate) mod looks {
    use super::{AGENT, data};
    use eframe::egui::{self, Rect, Theme, Vec2, epaint::Shape, vec2};
    use egui_kittest::kittest::{NodeT, Queryable};
    use egui_kittest::{Harness, Node};
    use evenhand_app::Language;
    use evenhand_app::bench_view::BenchView;
    use evenhand_app::intent::Intent;
    use evenhand_app::mixing::{Field, Mixer, Page, Scene, VesselStep, Wish};
    use evenhand_app::picture::write_picture;
    use evenhand_app::state::{Screen, State};
    use evenhand_app::{shell, theme};
    use evenhand_kitchen::batch::{BatchId, Entry, Mark, NamedAs, Schedule, Slot, What};
    use evenhand_kitchen::cure::Method;
    use evenhand_kitchen::ratio::{Form, Ingredient, ScaleLook};
    use evenhand_protocol::{Mass, Temperature, Uptime, VerificationInterval};
    use evenhand_store::Store;
    use jiff::tz::TimeZone;
    use jiff::{SignedDuration, Timestamp};
    use tempfile::TempDir;

    /// A loaf with a fifth of its flour in a build.
    const TIDELINE: &str = r#"
name = "tideline loaf"
[[base]]
name = "bread flour"
percent = 100
[[other]]
name = "water"
percent = 70
[[other]]
name = "salt"
percent = 2
[[stage]]
name = "build"
takes = [{ name = "bread flour", percent = 20 }, { name = "water", percent = 20 }]
"#;

    struct MixingBench {
        language: Language,
        mixer: Mixer,
        store: Store,
        now: Timestamp,
        millis: u64,
        on: f64,
        _folder: TempDir,
    }

    impl MixingBench {
        fn new(language: Language) -> Self {
            let folder = tempfile::tempdir().unwrap();
            let mut bench = Self {
                language,
                mixer: Mixer::new(TimeZone::UTC),
                store: Store::open(&data(&folder)).unwrap(),
                now: "2026-03-14T19:42:00Z".parse().unwrap(),
                millis: 0,
                on: 0.0,
                _folder: folder,
            };
            bench.mixer.speak(language);
            bench.look(true);
            bench
        }

        /// Puts a file into the kitchen's own book, as by hand.
        fn formula(&self, file: &str, text: &str) {
            let folder = self._folder.path().join("formulas");
            std::fs::create_dir_all(&folder).unwrap();
            std::fs::write(folder.join(format!("{file}.toml")), text).unwrap();
        }

        /// The program is started again, with the scale as it is.
        fn starts_again(&mut self) {
            self.mixer = Mixer::new(TimeZone::UTC);
            self.mixer.speak(self.language);
            self.look(true);
            self.wish(Wish::Show(Page::Start));
        }

        fn unheard(&mut self) {
            self.mixer
                .take_in(Scene::unknown(), &mut self.store, self.now)
                .unwrap();
        }

        fn look(&mut self, stable: bool) {
            self.millis += 100;
            let scene = Scene {
                look: Some(ScaleLook {
                    at: Uptime::from_millis(self.millis),
                    mass: Mass::from_fractional_grams(self.on).unwrap(),
                    stable,
                }),
                probe: Some(Temperature::from_millicelsius(3_600)),
                interval: Mass::from_milligrams(100),
                verification: VerificationInterval::told(Mass::from_grams(1)),
                capacity: Some(Mass::from_grams(5_000)),
            };
            self.mixer
                .take_in(scene, &mut self.store, self.now)
                .unwrap();
        }

        fn pour(&mut self, grams: f64, rests_millis: u64) {
            for _ in 0..5 {
                self.on += grams / 5.0;
                self.look(false);
            }
            for _ in 0..rests_millis / 100 {
                self.look(true);
            }
        }

        fn wish(&mut self, wish: Wish) {
            self.mixer
                .carry_out(wish, &mut self.store, self.now)
                .unwrap();
        }

        fn types(&mut self, field: Field, text: &str) {
            self.wish(Wish::Ask(field));
            self.enters(text);
        }

        fn enters(&mut self, text: &str) {
            self.wish(Wish::Type(text.to_owned()));
            self.wish(Wish::Enter);
        }

        fn ingredient(&mut self, name: &str, number: &str) {
            self.types(Field::NewName, name);
            self.enters(number);
        }

        /// A batch from so many hours ago.
        fn batch(
            &mut self,
            title: &str,
            hours: i64,
            masses: &[(&str, i64)],
            mark: Option<(u8, &str)>,
        ) -> BatchId {
            let at = self.now - SignedDuration::from_hours(hours);
            let id = self.store.begin_batch(at).unwrap();
            let mut lines = vec![What::Titled {
                title: title.to_owned(),
            }];
            for (slot, (name, grams)) in (0..).map(Slot).zip(masses) {
                lines.push(What::Weighed {
                    slot,
                    mass: Mass::from_grams(*grams),
                    temperature: None,
                });
                lines.push(What::Named {
                    slot,
                    ingredient: NamedAs(Ingredient::plain(name).unwrap()),
                });
            }
            lines.push(What::Ready { nitrite: None });
            if let Some((mark, note)) = mark {
                lines.push(What::Tasted {
                    mark: Mark::new("mark", mark).unwrap(),
                    note: note.to_owned(),
                });
            }
            for what in lines {
                self.store.add_to_batch(id, &Entry { at, what }).unwrap();
            }
            id
        }

        fn planned(&mut self, id: BatchId, began_hours_ago: i64, lasting: i64) {
            let into = self.now - SignedDuration::from_hours(began_hours_ago);
            let plan = Schedule::new(
                into,
                into + SignedDuration::from_hours(lasting),
                Some(SignedDuration::from_hours(24)),
            )
            .unwrap();
            let line = Entry {
                at: into,
                what: What::Planned { plan },
            };
            self.store.add_to_batch(id, &line).unwrap();
        }

        fn state(&self) -> State {
            State {
                screen: Screen::Mix,
                mix: self.mixer.view(),
                clock: "19:42".to_owned(),
                language: self.language,
                bench: BenchView::unplugged(self.language),
                ..State::at_start()
            }
        }
    }

    fn beans(bench: &mut MixingBench) -> BatchId {
        let mut last = BatchId(0);
        for (hours, beans, water, mark, note) in [
            (400, 500, 1_500, 4, "gritty, too stiff"),
            (300, 500, 1_750, 6, "better, still a little thick"),
            (200, 520, 2_000, 8, "silky"),
            (100, 500, 2_250, 5, "thin"),
        ] {
            last = bench.batch(
                "Soaked beans",
                hours,
                &[("soy beans", beans), ("water", water), ("salt", 5)],
                Some((mark, note)),
            );
        }
        last
    }

    fn brine_walk(language: Language) -> MixingBench {
        let mut bench = MixingBench::new(language);
        bench.wish(Wish::RecipeDraft(Form::OfWater));
        bench.ingredient("salt", "8");
        bench.ingredient("sugar", "4");
        bench.types(Field::Title, "Neck brine");
        bench.wish(Wish::Weigh);
        bench
    }

    fn cure_sketch(language: Language, method: Method, ppm: &str) -> MixingBench {
        let mut bench = MixingBench::new(language);
        bench.wish(Wish::SketchCure(method));
        bench.types(Field::Rename(0), "belly");
        bench.ingredient("salt", "2.5");
        bench.types(Field::AgentName, "Saltmarsh cure");
        bench.types(Field::Fraction, "2.08");
        bench.types(Field::Ppm, ppm);
        bench.types(Field::Title, "Belly");
        bench
    }

    fn cure_walk(language: Language, meat: f64) -> MixingBench {
        let mut bench = cure_sketch(language, Method::BaconDryCure, "150");
        bench.wish(Wish::Weigh);
        bench.pour(350.0, 2_000);
        bench.pour(meat, 4_500);
        bench.pour(meat * 0.025, 2_000);
        bench
    }

    pub(crate) fn all(language: Language) -> Vec<(&'static str, State)> {
        let mut all = Vec::new();
        let mut add = |name, bench: &MixingBench| all.push((name, bench.state()));

        let mut bench = MixingBench::new(language);
        add("start_first_day", &bench);
        beans(&mut bench);
        let necks = bench.batch("Neck brine", 50, &[("water", 5_000), ("salt", 400)], None);
        bench.planned(necks, 50, 72);
        let eggs = bench.batch(
            "Cured eggs",
            51,
            &[("soy sauce", 600), ("mirin", 300)],
            None,
        );
        bench.planned(eggs, 51, 48);
        bench.wish(Wish::Show(Page::Start));
        add("start", &bench);
        bench.wish(Wish::Show(Page::Batches));
        add("batches", &bench);
        bench.wish(Wish::Open(eggs));
        add("batch_overdue", &bench);

        let mut bench = MixingBench::new(language);
        let last = beans(&mut bench);
        bench.wish(Wish::Open(last));
        add("batch_tasted", &bench);
        bench.wish(Wish::Compare);
        bench.wish(Wish::ShareOf);
        bench.wish(Wish::Plot(1));
        add("compare", &bench);
        bench.wish(Wish::Mark(7));
        add("entry_words", &bench);

        let mut bench = MixingBench::new(language);
        bench.wish(Wish::Show(Page::Book));
        add("book_empty", &bench);
        bench.formula("tideline-loaf", TIDELINE);
        bench.formula("marsh-rye", &TIDELINE.replace("tideline loaf", "marsh rye"));
        bench.wish(Wish::Show(Page::Book));
        add("book", &bench);
        bench.wish(Wish::FromBook(2));
        bench.types(Field::Amount(0), "600");
        add("book_bowl", &bench);
        bench.formula("broken", "name = ");
        bench.wish(Wish::Show(Page::Book));
        add("book_broken", &bench);

        let mut bench = MixingBench::new(language);
        let loin = bench.batch("Loin", 500, &[("loin", 1_520), ("salt", 38)], None);
        bench.wish(Wish::Open(loin));
        bench.pour(1_520.0, 500);
        bench.types(Field::Loss, "30");
        bench.pour(-324.0, 500);
        bench.wish(Wish::Reweigh);
        bench.wish(Wish::LogStore);
        add("batch_drying", &bench);

        for (name, form, lines) in [
            (
                "sketch_parts",
                Form::Parts,
                vec![
                    ("rice", "4"),
                    ("vinegar", "1"),
                    ("sugar", "0.5"),
                    ("salt", "0.2"),
                ],
            ),
            (
                "sketch_bakers",
                Form::Bakers,
                vec![("water", "68"), ("salt", "2"), ("yeast", "0.8")],
            ),
            (
                "sketch_meat",
                Form::OfMeatAndWater,
                vec![("salt", "2"), ("sugar", "1")],
            ),
        ] {
            let mut bench = MixingBench::new(language);
            bench.wish(Wish::RecipeDraft(form));
            for (ingredient, number) in lines {
                bench.ingredient(ingredient, number);
            }
            if form == Form::Parts {
                bench.types(Field::Amount(0), "1200");
            }
            add(name, &bench);
        }
        let mut bench = MixingBench::new(language);
        bench.wish(Wish::RecipeDraft(Form::OfTotal));
        bench.wish(Wish::Ask(Field::NewName));
        add("entry_name", &bench);
        bench.enters("salt");
        add("entry_number", &bench);
        bench.wish(Wish::Leave);
        add("sketch_unsaid", &bench);

        let mut bench = MixingBench::new(language);
        bench.wish(Wish::Show(Page::Cure));
        add("cure_methods", &bench);
        add("cure", &cure_sketch(language, Method::BaconDryCure, "150"));
        add(
            "cure_over",
            &cure_sketch(language, Method::BaconDryCure, "250"),
        );
        let mut bench = cure_sketch(language, Method::BaconPumped, "120");
        bench.types(Field::PickUp, "10");
        add("cure_pumped", &bench);
        bench.wish(Wish::Show(Page::RecipeDraft));
        add("cure_ingredients", &bench);

        let mut bench = brine_walk(language);
        add("walk_vessel", &bench);
        bench.pour(640.0, 2_000);
        bench.pour(1_600.0, 1_000);
        add("walk_open", &bench);
        bench.pour(400.0, 4_500);
        bench.pour(90.0, 500);
        add("walk_short", &bench);
        bench.pour(70.1, 300);
        add("walk_on", &bench);
        bench.pour(30.0, 300);
        add("walk_over", &bench);
        bench.wish(Wish::Mistaken);
        add("walk_mistaken", &bench);
        bench.wish(Wish::Mistaken);
        bench.pour(0.0, 7_000);
        add("walk_grown", &bench);
        bench.pour(377.0, 2_000);
        bench.pour(95.1, 2_000);
        add("walk_finished", &bench);

        let mut bench = cure_walk(language, 3_000.0);
        add("walk_label", &bench);
        bench.wish(Wish::Ask(Field::LabelAgain));
        add("entry_label", &bench);
        bench.enters("2.08");
        bench.pour(45.0, 1_000);
        add("walk_agent_over", &bench);
        let mut bench = cure_walk(language, 3_000.0);
        bench.types(Field::LabelAgain, "2.08");
        bench.pour(21.6, 2_000);
        add("walk_cured", &bench);
        let mut bench = cure_walk(language, 400.0);
        bench.types(Field::LabelAgain, "2.08");
        add("walk_too_small", &bench);

        let mut bench = MixingBench::new(language);
        bench.wish(Wish::Capture);
        add("capture_vessel", &bench);
        bench.pour(640.0, 2_000);
        bench.pour(500.0, 2_000);
        bench.pour(1_750.0, 2_000);
        bench.types(Field::SlotName(0), "soy beans");
        bench.pour(12.0, 300);
        add("capture", &bench);

        let mut bench = MixingBench::new(language);
        bench.wish(Wish::Show(Page::Vessels));
        add("vessels_none", &bench);
        bench.types(Field::VesselName, "Blue jug");
        bench.pour(412.0, 500);
        bench.wish(Wish::Fill(VesselStep::Empty));
        add("vessels_filling", &bench);
        bench.pour(2_000.0, 500);
        bench.wish(Wish::Fill(VesselStep::Full));
        add("vessels", &bench);
        bench.wish(Wish::Show(Page::Brine));
        add("brine", &bench);
        bench.wish(Wish::InVessel(Some(0)));
        bench.pour(150.0, 500);
        bench.wish(Wish::Check(VesselStep::Full));
        bench.wish(Wish::SugarUnknown);
        add("brine_refused", &bench);
        bench.types(Field::Sugar, "0");
        bench.types(Field::BrineMass, "4000");
        bench.types(Field::CorrectTo, "8");
        add("brine_told", &bench);
        all.extend(stopped_in(language));
        all
    }

    /// Mixes that the program was stopped in, a scale that is not heard, and
    /// limits that cannot be used.
    fn stopped_in(language: Language) -> Vec<(&'static str, State)> {
        let mut all = Vec::new();
        let mut bench = brine_walk(language);
        bench.pour(640.0, 2_000);
        bench.pour(2_000.0, 4_500);
        bench.unheard();
        all.push(("walk_not_heard", bench.state()));
        bench.starts_again();
        all.push(("start_unfinished", bench.state()));
        let id = bench.mixer.view().unfinished.unwrap().id;
        bench.wish(Wish::Resume(id));
        bench.pour(55.5, 500);
        assert!(bench.mixer.view().pouring.unwrap().came_meanwhile);
        all.push(("walk_resumed_with_more", bench.state()));
        bench.pour(-155.5, 500);
        all.push(("walk_resumed_with_less", bench.state()));

        let mut bench = MixingBench::new(language);
        bench.wish(Wish::Capture);
        bench.pour(640.0, 2_000);
        bench.pour(500.0, 2_000);
        bench.starts_again();
        all.push(("start_unfinished_as_one_goes", bench.state()));
        let id = bench.mixer.view().unfinished.unwrap().id;
        bench.wish(Wish::Resume(id));
        bench.pour(55.5, 500);
        assert!(bench.mixer.view().capture.unwrap().came_meanwhile.is_some());
        all.push(("capture_resumed_with_more", bench.state()));

        let mut bench = MixingBench::new(language);
        let loin = bench.batch("Loin", 500, &[("loin", 1_520), ("salt", 38)], None);
        bench.pour(1_520.0, 500);
        std::fs::write(bench._folder.path().join("limits.toml"), "[[limit]]\n").unwrap();
        bench.wish(Wish::Show(Page::Batches));
        bench.wish(Wish::Open(loin));
        bench.types(Field::Loss, "30");
        all.push(("batch_broken_limits", bench.state()));
        all
    }

    /// Each of the fields asked for, on a cure with a batch chosen.
    pub(crate) fn asking(language: Language, fields: &[Field]) -> Vec<State> {
        let mut bench = cure_sketch(language, Method::BaconDryCure, "150");
        let last = beans(&mut bench);
        bench.wish(Wish::Open(last));
        fields
            .iter()
            .map(|field| {
                bench.wish(Wish::Ask(*field));
                bench.state()
            })
            .collect()
    }

    fn harness(state: State, size: Vec2) -> Harness<'static, (State, Vec<Intent>)> {
        Harness::builder()
            .with_size(size)
            .with_theme(Theme::Light)
            .with_context_setup(theme::install)
            .build_ui_state(
                |ui, (state, asked): &mut (State, Vec<Intent>)| {
                    asked.extend(shell::show(ui, state));
                },
                (state, Vec::new()),
            )
    }

    const SIZES: [Vec2; 2] = [vec2(1280.0, 800.0), vec2(1920.0, 1080.0)];

    fn role(node: &Node<'_>) -> egui::Role {
        node.accesskit_node().role()
    }

    #[test]
    fn everything_on_the_mixing_screens_fits() {
        use egui::Role;
        let mut wrong = Vec::new();
        for (name, state) in all(Language::English) {
            for size in SIZES {
                let harness = harness(state.clone(), size);
                let window = Rect::from_min_size(egui::Pos2::ZERO, size);
                let leaves: Vec<_> = harness
                    .root()
                    .children_recursive()
                    .filter(|node| {
                        matches!(
                            role(node),
                            Role::Label | Role::Button | Role::Tab | Role::TextInput
                        )
                    })
                    .map(|node| (node, node.rect()))
                    .collect();
                assert!(leaves.len() > 8, "{name}: too little to see");
                for (nth, (node, rect)) in leaves.iter().enumerate() {
                    let label = node.accesskit_node().label();
                    if !window.expand(0.5).contains_rect(*rect) {
                        wrong.push(format!(
                            "{name} at {size}: {label:?} reaches out of the window"
                        ));
                    }
                    if role(node) != Role::Label
                        && (rect.width() < theme::TOUCH - 0.5 || rect.height() < theme::TOUCH - 0.5)
                    {
                        wrong.push(format!(
                            "{name} at {size}: {label:?} is only {}",
                            rect.size()
                        ));
                    }
                    for (other, other_rect) in leaves.iter().skip(nth + 1) {
                        let both = rect.intersect(*other_rect);
                        if both.width() > 1.0 && both.height() > 1.0 {
                            wrong.push(format!(
                                "{name} at {size}: {label:?} and {:?} overlap",
                                other.accesskit_node().label()
                            ));
                        }
                    }
                }
                for clipped in &harness.output().shapes {
                    let Shape::Text(text) = &clipped.shape else {
                        continue;
                    };
                    let painted = text.galley.mesh_bounds.translate(text.pos.to_vec2());
                    if !clipped.clip_rect.is_positive() || !painted.is_positive() {
                        continue;
                    }
                    let words = text.galley.text();
                    if text.galley.elided {
                        wrong.push(format!("{name} at {size}: {words:?} is shortened"));
                    }
                    if !clipped.clip_rect.expand(1.5).contains_rect(painted) {
                        wrong.push(format!("{name} at {size}: {words:?} is cut"));
                    }
                }
            }
        }
        assert!(wrong.is_empty(), "{wrong:#?}");
    }

    // A fifth of the flour and as much water are in the build: 80 parts of flour and 50 of water are left, by hand.
    #[test]
    fn a_bowl_of_the_book_comes_onto_the_scale_in_its_parts() {
        let mut bench = MixingBench::new(Language::English);
        bench.formula("tideline-loaf", TIDELINE);
        bench.formula("broken", "name = ");
        bench.wish(Wish::Show(Page::Book));
        let view = bench.mixer.view();
        let rows: Vec<(&str, Option<&str>)> = view
            .book
            .iter()
            .map(|row| (row.name.as_str(), row.stage.as_deref()))
            .collect();
        assert_eq!(
            rows,
            [("tideline loaf", Some("build")), ("tideline loaf", None)]
        );
        assert!(view.book_trouble[0].contains("broken.toml"), "{view:?}");
        bench.wish(Wish::FromBook(1));
        let view = bench.mixer.view();
        assert_eq!(view.page, Page::RecipeDraft);
        bench.types(Field::Amount(0), "800");
        bench.wish(Wish::Weigh);
        bench.pour(640.0, 2_000);
        let pouring = bench.mixer.view().pouring.unwrap();
        let targets: Vec<(&str, &str)> = pouring
            .lines
            .iter()
            .map(|line| (line.name.as_str(), line.target.as_str()))
            .collect();
        assert_eq!(
            targets,
            [
                ("bread flour", "800.0 g"),
                ("water", "500.0 g"),
                ("salt", "20.0 g"),
                ("build", "400.0 g"),
            ]
        );
    }

    /// A comma is a decimal mark where the language has one, and what is under
    /// way is told in another language from the moment it is chosen.
    #[test]
    fn a_decimal_comma_is_taken_and_the_language_changes_under_way() {
        let mut bench = MixingBench::new(Language::Spanish);
        bench.wish(Wish::RecipeDraft(Form::OfWater));
        bench.ingredient("sal", "2,5");
        bench.types(Field::Amount(0), "1,2kg");
        let recipe_draft = bench.mixer.view().recipe_draft;
        let numbers: Vec<(&str, &str, &str)> = recipe_draft
            .lines
            .iter()
            .map(|line| {
                (
                    line.name.as_str(),
                    line.number.as_str(),
                    line.amount.as_str(),
                )
            })
            .collect();
        // 2.5 % of 1200 g, by hand.
        assert_eq!(
            numbers,
            [("agua", "100 %", "1200,0 g"), ("sal", "2,5 %", "30,0 g")]
        );
        bench.wish(Wish::Weigh);
        bench.pour(640.0, 2_000);
        bench.pour(1_200.0, 4_500);
        let pouring = |bench: &MixingBench| bench.mixer.view().pouring.unwrap();
        assert_eq!(pouring(&bench).prompt, "A\u{f1}ada sal");
        bench.mixer.speak(Language::French);
        assert_eq!(pouring(&bench).prompt, "Ajoutez sal");
        bench.pour(30.0, 3_000);
        // The strength is told though the names are of another language.
        let found = pouring(&bench).finish.unwrap().found;
        assert!(
            found.iter().any(|line| line.contains("2,500 % de l'eau")),
            "{found:?}"
        );
        // In English a comma is no decimal mark, and nothing is guessed.
        let mut bench = MixingBench::new(Language::English);
        bench.wish(Wish::RecipeDraft(Form::OfWater));
        bench.types(Field::NewName, "salt");
        bench.wish(Wish::Type("2,5".to_owned()));
        let refused = bench
            .mixer
            .carry_out(Wish::Enter, &mut bench.store, bench.now)
            .unwrap_err();
        assert!(
            refused.in_words(Language::English).contains("2,5"),
            "{refused}"
        );
    }

    #[test]
    fn keys_and_buttons_do_the_same() {
        let state = |name: &str| {
            all(Language::English)
                .into_iter()
                .find(|(other, _)| *other == name)
                .unwrap()
                .1
        };
        for (name, key, button, wish) in [
            ("walk_short", egui::Key::Enter, "Go on", Wish::GoOn),
            (
                "walk_mistaken",
                egui::Key::Num3,
                "sugar, \u{2013} of 80.0 g",
                Wish::ThatWas(2),
            ),
            (
                "walk_label",
                egui::Key::L,
                "Read the label",
                Wish::Ask(Field::LabelAgain),
            ),
            (
                "walk_finished",
                egui::Key::Enter,
                "Mark it ready",
                Wish::Finish,
            ),
            (
                "capture",
                egui::Key::M,
                "More of the same",
                Wish::MoreOfThat,
            ),
            ("batch_overdue", egui::Key::T, "Turned", Wish::Turned),
        ] {
            let mut pressed = harness(state(name), SIZES[0]);
            pressed.key_press(key);
            pressed.run();
            assert_eq!(pressed.state().1, [Intent::Mix(wish.clone())], "{name}");
            let mut clicked = harness(state(name), SIZES[0]);
            clicked.get_by_label(button).click();
            clicked.run();
            assert_eq!(clicked.state().1, [Intent::Mix(wish)], "{name}");
        }
    }

    /// What no colour is needed for: the mark in words, and what stops work.
    #[test]
    fn a_curing_agent_is_marked_wherever_it_is_shown() {
        for (name, state) in all(Language::English) {
            if ![
                "cure_ingredients",
                "walk_label",
                "walk_agent_over",
                "walk_cured",
            ]
            .contains(&name)
            {
                continue;
            }
            let harness = harness(state, SIZES[0]);
            let marked = harness.root().children_recursive().any(|node| {
                let node = node.accesskit_node();
                node.label()
                    .or_else(|| node.value())
                    .is_some_and(|words| words.contains(AGENT))
            });
            let said: Vec<_> = harness
                .root()
                .children_recursive()
                .filter_map(|node| node.accesskit_node().label())
                .collect();
            assert!(marked, "{name}: {said:?}");
        }
    }

    /// Writes every screen as a picture into the folder that
    /// `EVENHAND_PICTURES` names; checks at least that one can be drawn.
    #[test]
    fn every_screen_can_be_drawn() {
        let folder = tempfile::tempdir().unwrap();
        let named = std::env::var_os("EVENHAND_PICTURES");
        let into = named.as_deref().map_or(folder.path(), std::path::Path::new);
        let all = all(Language::English);
        let drawn = if named.is_some() { all.len() } else { 1 };
        for (name, state) in all.iter().take(drawn) {
            for [width, height] in [[1280, 800], [1920, 1080]] {
                let path = into.join(format!("{name}-{width}.png"));
                write_picture(&path, [width, height], state).unwrap();
                assert!(path.metadata().unwrap().len() > 10_000);
            }
        }
    }
}
