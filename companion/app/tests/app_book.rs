//! The kitchen's own book by touch: what the screens ask for, what goes on
//! record, and what they say of it.

use crate::app_left_in_english::{LANGUAGES, left_in_english, sources};
use crate::app_samples;
use crate::app_screens::{
    SIZES, all_words, harness, is_large_enough_to_touch, is_whole, stands_clear,
};
use eframe::egui::{Pos2, Theme, Vec2, vec2};
use egui_kittest::kittest::{NodeT, Queryable};
use egui_kittest::{Harness, Node};
use evenhand_app::book::{BookField, BookPage, BookWish};
use evenhand_app::controller::Controller;
use evenhand_app::intent::Intent;
use evenhand_app::picture::write_picture;
use evenhand_app::service::ServiceWish;
use evenhand_app::state::{Screen, State};
use evenhand_app::{Language, shell, theme};
use evenhand_kitchen::batch::{BatchId, Entry, Mark, NamedAs, Slot, What, Yielded};
use evenhand_kitchen::book::{Stage, StagedFormula};
use evenhand_kitchen::brine::{MeatWater, Thickness};
use evenhand_kitchen::dish::DishName;
use evenhand_kitchen::heat::{HeatLog, Kept, LogName, LogPoint};
use evenhand_kitchen::plate::Component;
use evenhand_kitchen::ratio::Ingredient;
use evenhand_kitchen::units::parse_volume;
use evenhand_kitchen::uptake::{Bath, Cut, IntoBath, OutOfBath, SaltKnown, Shape};
use evenhand_protocol::{Goal, Mass, Mode, Temperature, Tolerance};
use evenhand_store::{DataFolder, Store};
use evenhand_use_cases::book::{doughs, find, keep};
use evenhand_use_cases::demo;
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp};
use std::path::Path;
use std::time::{Duration, Instant};
use tempfile::TempDir;

/// Longer than anything here takes on a busy machine.
const PATIENCE: Duration = Duration::from_secs(60);

/// The program with a hand that touches what it shows.
struct Kitchen {
    controller: Controller,
    folder: TempDir,
}

fn data(folder: &Path) -> DataFolder {
    DataFolder::choose(Some(folder)).unwrap()
}

impl Kitchen {
    fn new() -> Self {
        let folder = tempfile::tempdir().unwrap();
        Self::with(folder)
    }

    fn with(folder: TempDir) -> Self {
        Self::at(folder, TimeZone::UTC)
    }

    fn at(folder: TempDir, zone: TimeZone) -> Self {
        let controller = Controller::open(data(folder.path()), zone, Vec::new(), || {}).unwrap();
        Self { controller, folder }
    }

    fn store(&self) -> Store {
        Store::open(&data(self.folder.path())).unwrap()
    }

    fn state(&self) -> &State {
        self.controller.state()
    }

    fn lines(&self) -> &[String] {
        &self.state().book.sheet.lines
    }

    /// Touches what is called so, and has carried out what that asks for.
    #[track_caller]
    fn touches(&mut self, label: &str) {
        let state = self.state().clone();
        let mut harness = Harness::builder()
            .with_size(vec2(1280.0, 800.0))
            .with_theme(Theme::Light)
            .with_context_setup(theme::install)
            .build_ui_state(
                |ui, (state, asked): &mut (State, Vec<Intent>)| {
                    let more = shell::show(ui, state);
                    asked.extend(more);
                },
                (state, Vec::new()),
            );
        harness.get_by_label(label).click();
        harness.run();
        let (_, asked) = harness.into_state();
        assert_ne!(asked, [], "{label} asks for nothing");
        for intent in asked {
            self.controller.carry_out(intent);
        }
    }

    /// Opens a field by touch, types, and enters.
    #[track_caller]
    fn types(&mut self, label: &str, text: &str) {
        self.touches(label);
        self.writes(text);
        assert_eq!(self.state().complaint, None, "{label}: {text}");
    }

    fn writes(&mut self, text: &str) {
        let typed = BookWish::Type(text.to_owned());
        self.controller.carry_out(Intent::Book(typed));
        self.controller.carry_out(Intent::Book(BookWish::Enter));
    }

    #[track_caller]
    fn until(&mut self, what: &str, is: impl Fn(&State) -> bool) {
        let begun = Instant::now();
        loop {
            self.controller.take_in();
            if is(self.controller.state()) {
                return;
            }
            assert!(
                begun.elapsed() < PATIENCE,
                "never {what}: {:?} {:#?}",
                self.state().complaint,
                self.state().book
            );
            std::thread::sleep(Duration::from_millis(2));
        }
    }

    /// Speaks another language; what the worker said in the one before is asked for again.
    fn speaks(&mut self, language: Language) {
        let before = self.lines().to_vec();
        let page = self.state().book.page;
        let again = matches!(page, BookPage::Counts | BookPage::Plate)
            && self.state().language != language
            && self.state().screen == Screen::Book
            && !before.is_empty();
        self.controller.speak(language);
        if again {
            self.until("said anew", |state| state.book.sheet.lines != before);
        }
    }

    #[track_caller]
    fn says(&mut self, words: &str) {
        let what = format!("{words:?} said");
        self.until(&what, |state| {
            let sheet = &state.book.sheet;
            let said = sheet.lines.iter().chain(&sheet.loud);
            said.chain([&sheet.prompt, &sheet.heading])
                .any(|line| line.contains(words))
        });
    }

    #[track_caller]
    fn complains(&self, words: &str) {
        let complaint = self.state().complaint.as_deref().unwrap_or_default();
        assert!(complaint.contains(words), "{complaint:?}");
    }

    /// Sets up a kilogram of chicken breast, 30 mm, in two litres with 120 g.
    fn chicken(&mut self) {
        self.controller.carry_out(Intent::Go(Screen::Mix));
        self.touches("Timed brine, marinade");
        self.touches("Put a piece in");
        self.types("Cut: not said, Cut", "chicken breast");
        self.types("Weight: not said, Weight", "1kg");
        self.types("Thickest part: not said, Thickest part", "30");
        self.touches("What it is: not said, What it is");
        self.touches("its water in per cent: Something else, its water in per cent");
        self.writes("75");
        self.types("Water of the bath: not said, Water of the bath", "2000");
        self.types("Salt of the bath: not said, Salt of the bath", "120");
    }
}

/// Three batches of the same, weighed out after five hours with their bath
/// tried: by hand 1.857 % of salt and 5 % of gain each.
fn three_soaks(store: &mut Store, now: Timestamp) {
    for day in 1..=3 {
        let at = now
            .checked_sub(SignedDuration::from_hours(24 * day))
            .unwrap();
        let into = IntoBath::new(
            Cut::new("cut", "chicken breast").unwrap(),
            Mass::from_grams(1_000),
            (Shape::Slab, Thickness::parse("thickness", "30").unwrap()),
            &MeatWater::parse("kind", "75").unwrap(),
            Bath::new(Mass::from_grams(2_000), Mass::from_grams(120), vec![]).unwrap(),
            Temperature::from_millicelsius(4_000),
        )
        .unwrap();
        let out = OutOfBath {
            mass: Mass::from_grams(1_050),
            salt: SaltKnown::BathAfter {
                percent_of_solution: 4.9,
                within: 0.1,
                mass: None,
            },
        };
        let id = store.begin_batch(at).unwrap();
        let into = Box::new(into);
        let what = What::IntoBath { into };
        store.add_to_batch(id, &Entry { at, what }).unwrap();
        let at = at.checked_add(SignedDuration::from_hours(5)).unwrap();
        let what = What::OutOfBath { out };
        store.add_to_batch(id, &Entry { at, what }).unwrap();
    }
}

// By hand: 120 g over 2000 g and 750 g of water are 32.73 g in the piece in the
// end, 3.27 % of its raw weight.
#[test]
fn a_piece_goes_in_by_touch_and_what_is_not_known_is_said() {
    let mut kitchen = Kitchen::new();
    kitchen.chicken();
    kitchen.says("comes to 3.3 % of salt");
    kitchen.types("Core to come to: not said, Core to come to", "1.6");
    kitchen.says("weigh 3 more batches in and out");
    kitchen.types("Told for after: not said, Told for after", "5");
    kitchen.says("What it gains is not known yet: weigh 3 more batches");
    assert_eq!(kitchen.store().batches().unwrap().len(), 0);
    kitchen.touches("Put it in");
    kitchen.until("on record", |state| {
        state.book.page == BookPage::OutOfBath && state.book.sheet.lines.len() > 2
    });
    let (id, batch) = kitchen.store().batches().unwrap().remove(0);
    let (into, _) = batch.in_bath().unwrap();
    assert_eq!(id, BatchId(1));
    assert_eq!(into.mass, Mass::from_grams(1_000));
    assert!((into.ends_at().0.percent() - 3.2727).abs() < 1e-3);
    assert_eq!(batch.title(), Some("chicken breast"));
    // Its list of what lies in a bath leads there again.
    kitchen.touches("Back");
    kitchen.until("listed", |state| state.book.sheet.rows.len() == 1);
    assert_eq!(kitchen.state().book.sheet.rows[0].name, "chicken breast");
}

// Out at 1050 g the bath is 2070 g; at 4.9 % it has 101.43 g left, so 18.57 g
// went in: 1.9 % of the raw weight, and 5 % of gain.
#[test]
fn it_comes_out_with_its_weight_and_its_bath() {
    let folder = tempfile::tempdir().unwrap();
    let mut store = Store::open(&data(folder.path())).unwrap();
    let now = Timestamp::now();
    let at = now.checked_sub(SignedDuration::from_hours(5)).unwrap();
    three_soaks(&mut store, at);
    let batch = store.batches().unwrap().remove(0).1;
    let into = batch.in_bath().unwrap().0.clone();
    let id = store.begin_batch(at).unwrap();
    let into = Box::new(into);
    let what = What::IntoBath { into };
    store.add_to_batch(id, &Entry { at, what }).unwrap();
    drop(store);
    let mut kitchen = Kitchen::with(folder);
    kitchen
        .controller
        .carry_out(Intent::Book(BookWish::Show(BookPage::Pieces)));
    kitchen.until("listed", |state| state.book.sheet.rows.len() == 1);
    kitchen
        .controller
        .carry_out(Intent::Book(BookWish::Piece(id)));
    kitchen.says("After 5 h 00 min it has gained 5.0 %");
    kitchen.types("Core to come to: not said, Core to come to", "1.6");
    kitchen.says("Out at ");
    // Spanish and French cooks write a comma.
    kitchen.controller.speak(Language::French);
    kitchen
        .controller
        .carry_out(Intent::Book(BookWish::Ask(BookField::BathAfter)));
    kitchen.writes("4,9");
    kitchen.controller.speak(Language::English);
    assert_eq!(kitchen.state().complaint, None);
    // What cannot be is refused with what was expected, and leaves no trace.
    kitchen.types("Weight, drained: not said, Weight, drained", "100");
    kitchen.touches("It is out");
    kitchen.until("refused", |state| state.complaint.is_some());
    kitchen.complains("half to twice");
    kitchen.touches("Weight, drained: 100 g, Weight, drained");
    kitchen.writes("heavy");
    kitchen.complains("“heavy” cannot be used: write a weight above zero");
    assert!(kitchen.store().batch(id).unwrap().soak().is_none());
    kitchen.writes("1050");
    kitchen.touches("It is out");
    kitchen.says("gained 50.0 g, 5.0 % of its raw weight");
    let soak = kitchen.store().batch(id).unwrap().soak().unwrap();
    assert!((soak.salt().unwrap().share.percent() - 1.857).abs() < 1e-3);
    assert!(
        kitchen
            .lines()
            .iter()
            .any(|line| line.contains("18.6 g of salt went in")),
        "{:?}",
        kitchen.lines()
    );
}

#[test]
fn a_bath_that_cannot_be_is_refused_with_its_field() {
    let mut kitchen = Kitchen::new();
    kitchen.chicken();
    kitchen.types("Salt of the bath: 120 g, Salt of the bath", "0");
    kitchen.says("Salt of the bath: there must be some");
    // 150 g of soy at 16 % and 65 % water with 350 g of water: 24 g over 447.5
    // and 525 g of water are 12.96 g, 1.9 % of 700 g.
    kitchen.types("Weight: 1000 g, Weight", "700");
    kitchen.types("Water of the bath: 2000 g, Water of the bath", "350");
    kitchen.touches("Sauces, pastes: none, Sauces, pastes");
    for text in ["soy sauce", "150", "16", "65"] {
        kitchen.writes(text);
        assert_eq!(kitchen.state().complaint, None);
    }
    kitchen.says("comes to 1.9 % of salt");
}

/// Draws a screen to be looked at, where somebody wants to.
fn picture(name: &str, state: &State, [width, height]: [u32; 2]) {
    if let Some(folder) = std::env::var_os("EVENHAND_PICTURES") {
        let path = Path::new(&folder).join(format!("book-{name}-{width}x{height}.png"));
        write_picture(&path, [width, height], state).unwrap();
    }
}

#[track_caller]
fn looks(name: &str, kitchen: &mut Kitchen) {
    let mut data = written_in_the_book(&kitchen.store());
    // Where its files are.
    data.push(kitchen.folder.path().display().to_string());
    data.push("formulas/taken-out/tideline-loaf.toml".to_owned());
    for plate in kitchen.store().plates().unwrap() {
        let on_it = plate.components.iter().map(Component::name);
        data.extend(on_it.map(str::to_owned));
        data.push(plate.name);
    }
    for language in LANGUAGES {
        kitchen.speaks(language);
        let mut state = kitchen.state().clone();
        state.bench = app_samples::in_language(language, app_samples::idle).bench;
        if language != Language::English {
            // Said when it was refused, in the language of that moment.
            state.complaint = None;
        }
        for size in SIZES {
            let pixels = [size.x as u32, size.y as u32];
            picture(&format!("{name}-{}", language.code()), &state, pixels);
            let harness = harness(state.clone(), size);
            let at = format!("{name} in {language:?} at {size}");
            stands_clear(&harness, size, &at);
            is_whole(&harness, &at);
            is_large_enough_to_touch(&harness, &at);
            assert!(!all_words(&harness).is_empty());
            if language == Language::Stretched {
                let left = left_in_english(&harness, &data);
                assert!(left.is_empty(), "{at}: {left:#?}");
            }
        }
    }
    kitchen.speaks(Language::English);
}

/// What cooks wrote in the kitchens of these tests, what a source is called, and symbols.
fn written_in_the_book(store: &Store) -> Vec<String> {
    let mut data = sources();
    for (_, batch) in store.batches().unwrap() {
        data.extend(batch.title().map(str::to_owned));
        let weighed = batch.weighed_in().into_iter();
        data.extend(weighed.filter_map(|slot| Some(slot.ingredient?.name().to_owned())));
        data.extend(batch.yielded().iter().map(|out| out.name().to_owned()));
    }
    let dishes = store.dishes().unwrap().into_iter();
    data.extend(dishes.map(|dish| dish.name.as_str().to_owned()));
    // Names of the made-up kitchen's menu stand in quotes.
    let menu = demo::SALTMARSH_MENU.split('"').skip(1).step_by(2);
    data.extend(menu.map(str::to_owned));
    data.extend(
        [
            "chicken breast, tideline loaf, flour, water, salt, levain",
            "everything loaf, seed, loaf, first build, second build",
            "the oven's left side runs hot: turn the trays",
            "Saltmarsh neck, lot, brine, smoke, walk-in, neck core, torn.toml, lots, pdf, cold-holding, cook-roast",
            "fold it gently from every side, bake it dark, then let it cool, mix until it lets go",
        ]
        .map(str::to_owned),
    );
    data
}

#[test]
fn every_screen_of_a_soak_is_whole_and_large_enough() {
    let folder = tempfile::tempdir().unwrap();
    let now = Timestamp::now();
    three_soaks(&mut Store::open(&data(folder.path())).unwrap(), now);
    let mut kitchen = Kitchen::with(folder);
    kitchen.controller.carry_out(Intent::Go(Screen::Mix));
    looks("start", &mut kitchen);
    kitchen.chicken();
    looks("into-bath-open", &mut kitchen);
    kitchen.types("Told for after: not said, Told for after", "5");
    kitchen.types("Core to come to: not said, Core to come to", "1.6");
    kitchen.says("Out at ");
    looks("into-bath", &mut kitchen);
    kitchen
        .controller
        .carry_out(Intent::Book(BookWish::Show(BookPage::Kind)));
    looks("kind", &mut kitchen);
    kitchen.touches("Back");
    kitchen.says("Out at ");
    kitchen
        .controller
        .carry_out(Intent::Book(BookWish::Ask(BookField::SauceSalt)));
    looks("typing", &mut kitchen);
    kitchen.controller.carry_out(Intent::Book(BookWish::Leave));
    kitchen.touches("Put it in");
    kitchen.until("in", |state| state.book.page == BookPage::OutOfBath);
    kitchen.says("Out at ");
    looks("out-of-bath", &mut kitchen);
    kitchen.touches("Back");
    kitchen.until("listed", |state| state.book.sheet.rows.len() == 1);
    looks("pieces", &mut kitchen);
}

/// A loaf of 100 % flour, 70 % water and 2 % salt, with a levain of 5 % starter
/// at 100 % and 10 % each of flour and water, written by touch.
fn writes_a_loaf(kitchen: &mut Kitchen) {
    kitchen.controller.carry_out(Intent::Go(Screen::Mix));
    kitchen.touches("Formulas, dough water");
    kitchen.touches("A new one");
    kitchen.writes("tideline loaf");
    for (name, percent) in [("flour", "90"), ("water", "70"), ("salt", "2")] {
        kitchen.touches("per cent of the base: + ingredient, per cent of the base");
        kitchen.writes(name);
        kitchen.writes(percent);
        assert_eq!(kitchen.state().complaint, None);
    }
}

// By hand: 100 + 70 + 2 = 172 % in all. Eight pieces of 500 g are 4000 g, of
// which 100/172 is flour: 2325.6 g; salt 46.5 g, water 1627.9 g. The levain: 5 %
// starter is 2.5 % flour and 2.5 % water, so 12.5 % of the flour is beforehand.
#[test]
fn a_formula_is_written_scaled_and_kept_by_touch() {
    let mut kitchen = Kitchen::new();
    writes_a_loaf(&mut kitchen);
    kitchen.says("Base: it comes to 90 %");
    kitchen.touches("flour, base: 90 %, flour, base");
    kitchen.types("Per cent of the base: 90 %, Per cent of the base", "100");
    kitchen.touches("Back");
    kitchen.says("Water 70 % of the base, 172 % in all");
    kitchen.touches("starter, soaker: + stage, starter, soaker");
    kitchen.writes("levain");
    kitchen.types("Starter: not said, Starter", "5");
    for name in ["flour", "water"] {
        kitchen.types(&format!("{name}: none, {name}"), "10");
    }
    kitchen.touches("Back");
    kitchen.says("12.5 % of the base is in what is made beforehand");
    kitchen.says("not in the book yet");
    kitchen.touches("Into the book");
    kitchen.says("This is how it stands in the book");
    let kept = find(kitchen.folder.path(), "Tideline loaf").unwrap();
    assert!((kept.total().percent() - 172.0).abs() < 1e-9);
    assert!((kept.hydration().percent() - 70.0).abs() < 1e-9);
    assert!((kept.base_in_stages().percent() - 12.5).abs() < 1e-9);
    kitchen.touches("How much");
    kitchen.says("By the base, all is not said: write a weight");
    kitchen.types("Step of the scale: 0.1 g, Step of the scale", "1");
    kitchen.types("Pieces: not said, Pieces", "8");
    kitchen.types("Each weighs: not said, Each weighs", "500");
    kitchen.says("47 g salt");
    kitchen.says("4000 g in all, 2326 g of it the base");
    // All there is of one thing, and what the scale is too coarse for.
    kitchen.types("So much there is: not said, So much there is", "50");
    kitchen.says("1 g salt");
    // A stage that takes more than there is cannot be kept, nor does it harm
    // what is kept.
    kitchen.touches("Back");
    kitchen.touches("made beforehand: levain, made beforehand");
    kitchen.types("water: 10 %, water", "80");
    kitchen.touches("Back");
    kitchen.says("It cannot be kept yet");
    let again = find(kitchen.folder.path(), "tideline loaf").unwrap();
    assert_eq!(again, kept);
}

// The trade's arithmetic, from memory: three times the dough less flour, room
// and friction: 3 x 25 - 20 - 22 - 12 = 21 degrees. The dough came out at 26.
#[test]
fn the_water_of_a_dough_is_known_once_one_was_measured() {
    let mut kitchen = Kitchen::new();
    writes_a_loaf(&mut kitchen);
    kitchen.touches("flour, base: 90 %, flour, base");
    kitchen.types("Per cent of the base: 90 %, Per cent of the base", "100");
    kitchen.touches("Back");
    kitchen.touches("Into the book");
    kitchen.says("This is how it stands in the book");
    kitchen.touches("Dough water");
    kitchen.says("By the base, all is not said");
    kitchen.touches("How much to make: not said, How much to make");
    kitchen.types("By the base, all: not said, By the base, all", "1kg");
    kitchen.touches("Dough water");
    kitchen.types("Flour is at: not said, Flour is at", "20");
    kitchen.says("Say how warm the dough is to be");
    kitchen.types("Dough wanted at: not said, Dough wanted at", "25");
    kitchen.says("Not known yet: no dough of this name was measured");
    kitchen.types("Room, by rule: not said, Room, by rule", "22");
    kitchen.types("Friction, by rule: not said, Friction, by rule", "12");
    kitchen.says("Water at 21.0 \u{b0}C, by the trade's arithmetic");
    kitchen.types("Water was at: not said, Water was at", "21");
    kitchen.types("Dough came out at: not said, Dough came out at", "26");
    kitchen.touches("It came out so");
    kitchen.says("to the one dough that was measured");
    let measured = doughs(&kitchen.store(), "tideline loaf").unwrap();
    assert_eq!(measured.len(), 1);
    looks("water", &mut kitchen);
}

#[test]
fn every_screen_of_a_formula_is_whole_and_large_enough() {
    let mut kitchen = Kitchen::new();
    kitchen.controller.carry_out(Intent::Go(Screen::Mix));
    kitchen.touches("Formulas, dough water");
    looks("formulas-none", &mut kitchen);
    writes_a_loaf(&mut kitchen);
    looks("formula-refused", &mut kitchen);
    kitchen.touches("flour, base: 90 %, flour, base");
    looks("ingredient", &mut kitchen);
    kitchen.types("Per cent of the base: 90 %, Per cent of the base", "100");
    kitchen.touches("Back");
    kitchen.touches("starter, soaker: + stage, starter, soaker");
    kitchen.writes("levain");
    kitchen.types("Starter: not said, Starter", "5");
    looks("stage", &mut kitchen);
    kitchen.touches("Back");
    kitchen.touches("Into the book");
    kitchen.says("This is how it stands in the book");
    looks("formula", &mut kitchen);
    kitchen.touches("How much");
    kitchen.types("By the base, all: not said, By the base, all", "1kg");
    looks("amounts", &mut kitchen);
    kitchen.touches("Back");
    kitchen.touches("Back");
    kitchen.until("listed", |state| state.book.sheet.rows.len() == 1);
    looks("formulas", &mut kitchen);
}

#[test]
fn the_handover_and_trials_are_whole_and_large_enough() {
    let folder = tempfile::tempdir().unwrap();
    let now = Timestamp::now();
    demo::make(
        &mut Store::open(&data(folder.path())).unwrap(),
        7,
        &TimeZone::UTC,
        now,
    )
    .unwrap();
    let mut kitchen = Kitchen::with(folder);
    kitchen.controller.carry_out(Intent::Go(Screen::Mix));
    looks("start-full", &mut kitchen);
    kitchen.touches("Handover, counts");
    kitchen.until("counted", |state| !state.book.sheet.lines.is_empty());
    looks("counts", &mut kitchen);
    kitchen
        .controller
        .carry_out(Intent::Book(BookWish::Show(BookPage::Titles)));
    kitchen.until("listed", |state| {
        let fields = &state.book.sheet.fields;
        fields.iter().any(|field| field.value == "Estuary loaf")
    });
    looks("titles", &mut kitchen);
    kitchen.touches("Estuary loaf");
    kitchen.says("Touch what the shares are to be of");
    for name in ["bread flour", "dark rye"] {
        kitchen.touches(&format!("touch for base: {name}, touch for base"));
        kitchen.until("chosen", |state| {
            let fields = &state.book.sheet.fields;
            fields
                .iter()
                .any(|field| field.value == name && field.chosen)
        });
    }
    // Of both flours, as the loaf has them: 85 and 15 %.
    kitchen.says("dark rye 15 %");
    looks("trials", &mut kitchen);
}

/// Everything that is said in a list that is longer than its place, page by page by the big
/// buttons beside it; each page is looked at.
fn gone_through(state: &State, size: Vec2, name: &str) -> Vec<String> {
    let mut harness = harness(state.clone(), size);
    harness.run();
    let mut said = Vec::new();
    for page in 0.. {
        let at = format!("{name}, page {page} at {size}");
        stands_clear(&harness, size, &at);
        is_whole(&harness, &at);
        is_large_enough_to_touch(&harness, &at);
        said.extend(all_words(&harness));
        let pages = |node: &Node<'_>| node.accesskit_node().is_disabled();
        let open: Vec<Node<'_>> = harness
            .get_all_by_label("Further down")
            .filter(|node| !pages(node))
            .collect();
        match open.first() {
            Some(button) => button.click(),
            None => break,
        }
        harness.run();
        assert!(page < 40, "{at}: there is always more");
    }
    said
}

#[test]
fn a_long_book_is_gone_through_to_its_last_formula() {
    let folder = tempfile::tempdir().unwrap();
    let names: Vec<String> = (1..=23).map(|nth| format!("loaf {nth:02}")).collect();
    for name in &names {
        let text = format!(
            "name = '{name}'\n[[base]]\nname = 'flour'\npercent = 100\n\
             [[other]]\nname = 'water'\npercent = 70\n"
        );
        let formula = StagedFormula::from_toml(&text).unwrap();
        keep(folder.path(), &formula, false).unwrap();
    }
    let mut kitchen = Kitchen::with(folder);
    kitchen.controller.carry_out(Intent::Go(Screen::Mix));
    kitchen.touches("Formulas, dough water");
    kitchen.until("listed", |state| state.book.sheet.rows.len() == 23);
    looks("formulas-many", &mut kitchen);
    let mut state = kitchen.state().clone();
    state.bench = app_samples::idle().bench;
    for size in SIZES {
        // The last is not in sight at first, so there is something to be gone through.
        let first = all_words(&harness(state.clone(), size));
        assert!(!first.iter().any(|words| words.starts_with("loaf 23")));
        let said = gone_through(&state, size, "formulas");
        for name in &names {
            let row = said.iter().any(|words| words.starts_with(name.as_str()));
            assert!(row, "{name} at {size}: {said:#?}");
        }
    }
}

/// Forty ingredients, the most that a formula has, and what is to be weighed of them.
#[test]
fn a_long_formula_is_gone_through_to_its_last_ingredient() {
    let folder = tempfile::tempdir().unwrap();
    let mut text = "name = 'everything loaf'\n".to_owned();
    text += "[[base]]\nname = 'flour'\npercent = 100\n";
    for nth in 2..=40 {
        text += &format!("[[other]]\nname = 'seed {nth:02}'\npercent = 1\n");
    }
    let formula = StagedFormula::from_toml(&text).unwrap();
    keep(folder.path(), &formula, false).unwrap();
    let mut kitchen = Kitchen::with(folder);
    kitchen.controller.carry_out(Intent::Go(Screen::Mix));
    kitchen.touches("Formulas, dough water");
    kitchen.until("listed", |state| state.book.sheet.rows.len() == 1);
    kitchen
        .controller
        .carry_out(Intent::Book(BookWish::Formula(Some(0))));
    looks("formula-long", &mut kitchen);
    let look = |kitchen: &Kitchen, what: &str, last: &str| {
        let mut state = kitchen.state().clone();
        state.bench = app_samples::idle().bench;
        for size in SIZES {
            let first = all_words(&harness(state.clone(), size));
            assert!(!first.iter().any(|words| words.contains(last)), "{what}");
            let said = gone_through(&state, size, what);
            for nth in 2..=40 {
                let name = format!("seed {nth:02}");
                let there = said.iter().any(|words| words.contains(&name));
                assert!(there, "{name} of {what} at {size}");
            }
            assert!(said.iter().any(|words| words.contains(last)), "{what}");
        }
    };
    look(&kitchen, "the formula", "+ stage");
    kitchen.touches("How much");
    kitchen.types("By the base, all: not said, By the base, all", "10kg");
    kitchen.says("100.0 g seed 40");
    looks("amounts-long", &mut kitchen);
    // By hand: 100 and 39 times 1 % of ten kilograms.
    look(&kitchen, "what to weigh", "13900.0 g in all");
}

/// A loaf whose levain is built twice, begun from what is on the screen of a new formula.
fn writes_two_builds(kitchen: &mut Kitchen) {
    writes_a_loaf(kitchen);
    kitchen.touches("flour, base: 90 %, flour, base");
    kitchen.types("Per cent of the base: 90 %, Per cent of the base", "100");
    kitchen.touches("Back");
    // The later build is written first, as a baker thinks of it.
    for (stage, taken) in [("levain", "10"), ("first build", "4")] {
        kitchen.touches("starter, soaker: + stage, starter, soaker");
        kitchen.writes(stage);
        if stage == "first build" {
            kitchen.types("Starter: not said, Starter", "2");
        }
        for name in ["flour", "water"] {
            kitchen.types(&format!("{name}: none, {name}"), taken);
        }
        kitchen.touches("Back");
    }
}

// By hand: the first build is 2 + 4 + 4 = 10 % of the flour, the second 10 + 10 with all of
// the first, 30 %; of 1000 g of flour these are 100 and 300 g.
#[test]
fn a_stage_is_renamed_and_goes_into_another_by_touch() {
    let mut kitchen = Kitchen::new();
    writes_two_builds(&mut kitchen);
    kitchen.touches("made beforehand: first build, made beforehand");
    kitchen.touches("Goes into: final mix, Goes into");
    looks("goes-into", &mut kitchen);
    kitchen.touches("levain");
    assert_eq!(kitchen.state().book.page, BookPage::Stage);
    kitchen.touches("Back");
    // What goes into it can no longer take it in: that would go round in a circle.
    kitchen.touches("made beforehand: levain, made beforehand");
    kitchen.touches("Goes into: final mix, Goes into");
    let into: Vec<String> = {
        let fields = &kitchen.state().book.sheet.fields;
        fields.iter().map(|field| field.value.clone()).collect()
    };
    assert_eq!(into, ["final mix"]);
    kitchen.touches("Back");
    kitchen.types("Stage: levain, Stage", "second build");
    kitchen.says("first build goes whole into it");
    looks("stage-of-two", &mut kitchen);
    kitchen.touches("Back");
    kitchen.touches("Into the book");
    kitchen.says("This is how it stands in the book");
    let kept = find(kitchen.folder.path(), "tideline loaf").unwrap();
    let names: Vec<&str> = kept.stages().iter().map(Stage::name).collect();
    assert_eq!(names, ["first build", "second build"]);
    let made: Vec<&str> = kept.made_for(&kept.stages()[1]).collect();
    assert_eq!(made, ["first build"]);
    kitchen.touches("How much");
    kitchen.types("Step of the scale: 0.1 g, Step of the scale", "1");
    kitchen.types("By the base, all: not said, By the base, all", "1kg");
    kitchen.says("first build (made beforehand), 100 g");
    kitchen.says("second build (made beforehand), 300 g");
    // And out of it again.
    kitchen.touches("Back");
    kitchen.touches("made beforehand: first build, made beforehand");
    kitchen.touches("Goes into: second build, Goes into");
    kitchen.touches("final mix");
    kitchen.touches("Back");
    kitchen.touches("Into the book");
    kitchen.says("This is how it stands in the book");
    let kept = find(kitchen.folder.path(), "tideline loaf").unwrap();
    assert!(
        kept.stages()
            .iter()
            .all(|stage| kept.made_for(stage).count() == 0)
    );
}

#[test]
fn how_it_is_done_and_what_it_is_held_to_are_written_by_touch() {
    let mut kitchen = Kitchen::new();
    writes_two_builds(&mut kitchen);
    kitchen.touches("How it is done: not said, How it is done");
    kitchen.says("Nothing is written yet");
    // As long as a sentence may be, and one letter more.
    let fold = "fold it gently from every side, ".chars().cycle();
    let longest: String = fold.take(199).chain(['!']).collect();
    for sentence in ["bake it dark", "mix until it lets go", &longest] {
        kitchen.touches("+ sentence");
        kitchen.writes(sentence);
        assert_eq!(kitchen.state().complaint, None, "{sentence}");
    }
    kitchen.touches("+ sentence");
    kitchen.writes(&format!("{longest}!"));
    kitchen.complains("one sentence of at most 200 letters");
    kitchen
        .controller
        .carry_out(Intent::Book(BookWish::Type(longest.clone())));
    looks("how-typing", &mut kitchen);
    kitchen.controller.carry_out(Intent::Book(BookWish::Leave));
    looks("how", &mut kitchen);
    // The first is done last; what stands there is written on at, not lost.
    kitchen.touches("1. bake it dark");
    kitchen.touches("Later");
    kitchen.touches("Later");
    kitchen.says("Sentence 3 of 3");
    looks("work", &mut kitchen);
    kitchen.touches("bake it dark");
    let entry = kitchen.state().book.entry.clone();
    assert_eq!(entry.map(|entry| entry.text).unwrap(), "bake it dark");
    kitchen.writes("bake it dark, then let it cool");
    kitchen.touches("Back");
    kitchen.touches(&format!("2. {longest}"));
    kitchen.touches("Take it out");
    kitchen.touches("Back");
    kitchen.touches("Limits that apply: none, Limits that apply");
    kitchen.until("listed", |state| !state.book.sheet.fields.is_empty());
    let field = |kitchen: &Kitchen, words: &str| {
        let fields = &kitchen.state().book.sheet.fields;
        fields.iter().find(|field| field.value == words).cloned()
    };
    let cold = field(&kitchen, "Cold holding").unwrap();
    kitchen.controller.carry_out(Intent::Book(cold.wish));
    assert!(field(&kitchen, "Cold holding").unwrap().chosen);
    // Where it comes from stands beside it.
    kitchen.says("Cold holding: US FDA Food Code 2022");
    looks("limits", &mut kitchen);
    kitchen.touches("Back");
    looks("formula-whole", &mut kitchen);
    kitchen.touches("Into the book");
    kitchen.says("This is how it stands in the book");
    let kept = find(kitchen.folder.path(), "tideline loaf").unwrap();
    assert_eq!(
        kept.how(),
        ["mix until it lets go", "bake it dark, then let it cool"]
    );
    assert_eq!(kept.limits(), ["cold-holding"]);
}

/// The middle of what is called so, at a size.
fn middle_of(state: &State, size: Vec2, label: &str) -> Pos2 {
    let harness = harness(state.clone(), size);
    harness.get_by_label(label).rect().center()
}

#[test]
fn a_formula_leaves_the_book_after_it_was_asked_for_once() {
    let mut kitchen = Kitchen::new();
    writes_two_builds(&mut kitchen);
    // What is not in the book cannot be taken out of it.
    let remove = |kitchen: &Kitchen| {
        let foot = &kitchen.state().book.sheet.foot;
        foot.iter()
            .find(|foot| foot.words == "Out of the book")
            .unwrap()
            .enabled
    };
    assert!(!remove(&kitchen));
    kitchen.touches("Into the book");
    kitchen.says("This is how it stands in the book");
    assert!(remove(&kitchen));
    let file = kitchen.folder.path().join("formulas/tideline-loaf.toml");
    let text = std::fs::read_to_string(&file).unwrap();
    let before = kitchen.state().clone();
    kitchen.touches("Out of the book");
    assert_eq!(kitchen.state().book.page, BookPage::Remove);
    looks("remove", &mut kitchen);
    // A glove that touches twice, or drips, takes nothing out.
    for size in SIZES {
        let at = middle_of(&before, size, "Out of the book");
        let confirm = "Yes, take \u{201c}tideline loaf\u{201d} out of the book";
        let place = harness(kitchen.state().clone(), size)
            .get_by_label(confirm)
            .rect();
        assert!(place.distance_to_pos(at) > 200.0, "{at} and {place}");
    }
    kitchen.touches("Leave it in the book");
    assert!(file.exists());
    // Under another name it would stand beside; what is taken out is what is kept.
    kitchen.types("Name: tideline loaf, Name", "ebb loaf");
    kitchen.says("it is kept beside \u{201c}tideline loaf\u{201d}");
    kitchen.touches("Out of the book");
    kitchen.touches("Yes, take \u{201c}tideline loaf\u{201d} out of the book");
    kitchen.says("\u{201c}tideline loaf\u{201d} is out of the book");
    looks("removed", &mut kitchen);
    kitchen.until("gone", |state| state.book.sheet.rows.is_empty());
    assert!(find(kitchen.folder.path(), "tideline loaf").is_err());
    let moved = kitchen
        .folder
        .path()
        .join("formulas/taken-out/tideline-loaf.toml");
    assert_eq!(std::fs::read_to_string(moved).unwrap(), text);
}

fn add_dishes(store: &mut Store, count: usize) {
    let goal = Goal::new(
        Mass::from_grams(120),
        Tolerance::symmetric(Mass::from_grams(5)),
    )
    .unwrap();
    for nth in 1..=count {
        let dish = DishName::new("dish", &format!("plate {nth:02}")).unwrap();
        store
            .set_dish(&dish, goal, Mode::Adding, None, Timestamp::now())
            .unwrap();
    }
}

/// What a dish's tile says: how many are ready, and how many went out.
fn tile(state: &State, dish: &str) -> Option<String> {
    let fields = &state.book.sheet.fields;
    let tile = fields.iter().find(|field| field.value.starts_with(dish))?;
    Some(format!("{}; {}", tile.value, tile.caption))
}

// By hand: seven stand there at opening, two go out, one is taken back: six are ready.
#[test]
fn what_stands_ready_at_opening_is_counted_by_touch() {
    let mut kitchen = Kitchen::new();
    add_dishes(&mut kitchen.store(), 20);
    kitchen.controller.carry_out(Intent::Go(Screen::Mix));
    kitchen.touches("Handover, counts");
    kitchen.says("Nothing was weighed for this service yet");
    kitchen.touches("Ready at opening");
    kitchen.until("listed", |state| state.book.sheet.fields.len() == 20);
    looks("opening", &mut kitchen);
    kitchen.touches("not counted: plate 03, not counted");
    let asked = kitchen.state().book.entry.clone().unwrap();
    assert!(asked.caption.contains("plate 03"), "{asked:?}");
    looks("opening-typing", &mut kitchen);
    for wrong in ["many", "-1", "2.5", "10001"] {
        kitchen.writes(wrong);
        kitchen.complains("write a count from 0 to 10000");
    }
    kitchen.writes("4");
    assert_eq!(kitchen.state().complaint, None);
    kitchen.until("counted", |state| {
        tile(state, "plate 03").as_deref() == Some("plate 03; 4 portions")
    });
    // Counted anew, the later count holds; and none is a count, too.
    for (dish, was, count, is) in [
        ("plate 03", "4 portions", "7", "7 portions"),
        ("plate 01", "not counted", "0", "0 portions"),
    ] {
        kitchen.touches(&format!("{was}: {dish}, {was}"));
        kitchen.writes(count);
        let counted = format!("{dish}; {is}");
        kitchen.until("counted", |state| {
            tile(state, dish).as_ref() == Some(&counted)
        });
    }
    kitchen.touches("Back");
    let shows = |kitchen: &mut Kitchen, words: &str| {
        kitchen.until(words, |state| {
            tile(state, "plate 03").is_some_and(|tile| tile.starts_with(words))
        });
    };
    shows(&mut kitchen, "plate 03: 7");
    assert_eq!(tile(kitchen.state(), "plate 01"), None);
    for ready in ["plate 03: 6; out 1", "plate 03: 5; out 2"] {
        let dish = DishName::new("dish", "plate 03").unwrap();
        kitchen
            .controller
            .carry_out(Intent::Book(BookWish::GoesOut(dish)));
        shows(&mut kitchen, ready);
    }
    kitchen.touches("Take the last back");
    shows(&mut kitchen, "plate 03: 6; out 1");
    // It is on record: the program that is opened again says the same.
    let mut kitchen = Kitchen::with(kitchen.folder);
    kitchen
        .controller
        .carry_out(Intent::Book(BookWish::Show(BookPage::Counts)));
    shows(&mut kitchen, "plate 03: 6; out 1");
}

// By hand: 120 g at 2.40 EUR/kg is 0.288 EUR.
#[test]
fn a_plate_is_made_and_changed_by_touch() {
    let mut kitchen = Kitchen::new();
    add_dishes(&mut kitchen.store(), 2);
    kitchen
        .controller
        .carry_out(Intent::Service(ServiceWish::Plates));
    kitchen.says("No plate is on record yet");
    kitchen.touches("New plate");
    kitchen.writes("Sea beet, neck");
    kitchen.until("made", |state| state.book.sheet.heading == "Sea beet, neck");
    // Nothing has a cost yet, so the currency is typed.
    kitchen.types("The guest pays: no price, The guest pays", "26 EUR");
    let field = |state: &State, value: &str| {
        let mut fields = state.book.sheet.fields.iter();
        fields.any(|field| field.value == value)
    };
    kitchen.until("priced", |state| {
        field(state, "26.00 EUR") && !state.book.sheet.lines.is_empty()
    });
    kitchen.touches("Put something else on");
    kitchen.writes("Celeriac");
    kitchen.writes("120");
    kitchen.writes("2.40");
    assert_eq!(kitchen.state().complaint, None);
    kitchen.until("costed", |state| field(state, "2.4 EUR/kg"));
    kitchen.touches("Back");
    kitchen.says("0.29 EUR");
    let plate = kitchen.store().plates().unwrap().remove(0);
    assert_eq!(plate.price.unwrap().to_string(), "26.00 EUR");
    let Component::Fixed { weight, .. } = &plate.components[0] else {
        panic!("{plate:?}");
    };
    assert_eq!(*weight, Mass::from_grams(120));

    // 120 g at 2.40 EUR/kg of which three quarters are left after peeling, a tenth wasted:
    // 120 / 0.75 / 0.9 = 177.8 g as bought, 0.43 EUR.
    kitchen.touches("120.0 g at 2.40 EUR/kg: Celeriac, 120.0 g at 2.40 EUR/kg");
    for (label, was, text) in [
        ("Can be served of it", "100 %", "75%"),
        ("Thrown out of that", "0 %", "10%"),
    ] {
        kitchen.types(&format!("{label}: {was}, {label}"), text);
    }
    kitchen.touches("Back");
    kitchen.says("0.43 EUR");
    kitchen.touches("Put a dish on");
    kitchen.touches("plate 01");
    let store = kitchen.store();
    let on = || {
        let plates = store.plates().unwrap();
        let components = plates.into_iter().flat_map(|plate| plate.components);
        components
            .map(|it| it.name().to_owned())
            .collect::<Vec<_>>()
    };
    kitchen.until("put on", |_| on() == ["Celeriac", "plate 01"]);
    kitchen.touches("weight and cost of its portions: plate 01, weight and cost of its portions");
    kitchen.touches("Take it off the plate");
    kitchen.until("taken off", |_| on() == ["Celeriac"]);
    kitchen.touches("Take the plate off the record");
    kitchen.says("Take this plate off the record?");
    kitchen.touches("Take the plate off the record");
    kitchen.until("off the record", |_| store.plates().unwrap().is_empty());
    kitchen.says("No plate is on record yet");
}

// By hand: 2400 g less ends of 150 g give 18 pieces of 120 g and 90 g over, or 15 of 150 g.
#[test]
fn a_slab_is_cut_by_touch() {
    let mut kitchen = Kitchen::new();
    add_dishes(&mut kitchen.store(), 2);
    kitchen
        .controller
        .carry_out(Intent::Book(BookWish::Show(BookPage::Cut)));
    kitchen.types("Slab weighs: not said, Slab weighs", "2.4kg");
    kitchen.writes("150");
    kitchen.touches("For the dish: not said, For the dish");
    kitchen.until("listed", |state| state.book.sheet.rows.len() == 2);
    looks("cut-dishes", &mut kitchen);
    kitchen.touches("plate 01");
    kitchen.says("18 pieces of 120 g; 90 g over, beside the ends of 150 g");
    kitchen.says("Only 0 pieces so far: 5 are needed to correct the next cut");
    looks("cut", &mut kitchen);
    kitchen.types("Or so many pieces: not said, Or so many pieces", "15");
    kitchen.says("15 pieces of 150 g; 0 g over");
    kitchen.touches("Or so many pieces: 15, Or so many pieces");
    kitchen.writes("0.5");
    kitchen.complains("write a count from 1 to 500");
    kitchen.controller.carry_out(Intent::Book(BookWish::Leave));
    kitchen.types("Ends put aside: 150 g, Ends put aside", "2500");
    kitchen.says("Weigh both again");
    looks("cut-nothing", &mut kitchen);
}

#[test]
fn the_last_of_many_dishes_goes_out_by_touch() {
    let mut kitchen = Kitchen::new();
    add_dishes(&mut kitchen.store(), 40);
    kitchen
        .controller
        .carry_out(Intent::Book(BookWish::Show(BookPage::Opening)));
    kitchen.until("listed", |state| state.book.sheet.fields.len() == 40);
    for nth in 1..=40 {
        let dish = DishName::new("dish", &format!("plate {nth:02}")).unwrap();
        kitchen
            .controller
            .carry_out(Intent::Book(BookWish::CountAtOpening(dish)));
        kitchen.writes("3");
    }
    kitchen
        .controller
        .carry_out(Intent::Book(BookWish::Show(BookPage::Counts)));
    kitchen.until("all counted", |state| {
        let fields = &state.book.sheet.fields;
        fields.len() == 40 && fields.iter().all(|field| field.value.ends_with(": 3"))
    });
    looks("counts-many", &mut kitchen);
    let mut state = kitchen.state().clone();
    state.bench = app_samples::idle().bench;
    state.screen = Screen::Book;
    for size in SIZES {
        let first = all_words(&harness(state.clone(), size));
        assert!(!first.iter().any(|words| words.contains("plate 40")));
        let said = gone_through(&state, size, "counts");
        for nth in 1..=40 {
            let name = format!("plate {nth:02}: 3");
            assert!(
                said.iter().any(|words| words.contains(&name)),
                "{name} at {size}"
            );
        }
    }
    // The last page's last tile, touched, is what goes out.
    let mut harness = Harness::builder()
        .with_size(SIZES[0])
        .with_theme(Theme::Light)
        .with_context_setup(theme::install)
        .build_ui_state(
            |ui, (state, asked): &mut (State, Vec<Intent>)| {
                let more = shell::show(ui, state);
                asked.extend(more);
            },
            (state, Vec::new()),
        );
    while harness.query_by_label_contains("plate 40").is_none() {
        harness.get_by_label("Further down").click();
        harness.run();
    }
    harness.get_by_label_contains("plate 40").click();
    harness.run();
    let (_, asked) = harness.into_state();
    assert_eq!(asked.len(), 1, "{asked:?}");
    for intent in asked {
        kitchen.controller.carry_out(intent);
    }
    kitchen.until("gone out", |state| {
        tile(state, "plate 40").as_deref() == Some("plate 40: 2; out 1, weighed 0")
    });
}

/// A zone in which it is between noon and one o'clock now, so that no test depends on the hour.
fn zone_at_noon(now: Timestamp) -> TimeZone {
    let hour = now.to_zoned_datetime(TimeZone::UTC).hour();
    TimeZone::fixed(jiff::tz::offset(12 - hour))
}

// By hand: in at 21:30 yesterday and out at 0:30 today is three hours.
#[test]
fn a_piece_that_nobody_told_of_at_once_goes_in_and_out_at_its_time() {
    let now = Timestamp::now();
    let zone = zone_at_noon(now);
    let today = now.to_zoned_datetime(zone.clone()).date();
    let mut kitchen = Kitchen::at(tempfile::tempdir().unwrap(), zone.clone());
    kitchen.chicken();
    // What is still to come has not happened, and what is no time is none.
    kitchen.touches("Went in at: now, Went in at");
    looks("in-at-typing", &mut kitchen);
    for (text, why) in [
        ("21:30", "is still to come. Choose the day first"),
        ("2530", "is no time of day"),
        ("soon", "is no time of day"),
    ] {
        kitchen.writes(text);
        kitchen.complains(why);
    }
    kitchen.controller.carry_out(Intent::Book(BookWish::Leave));
    kitchen.touches("Went in on: today, Went in on");
    // A day alone is no moment.
    kitchen.touches("Went in at: not said, Went in at");
    kitchen.controller.carry_out(Intent::Book(BookWish::Leave));
    let put_in = kitchen.state().book.sheet.foot.last().cloned().unwrap();
    assert!(!put_in.enabled, "{put_in:?}");
    kitchen.types("Went in at: not said, Went in at", "2130");
    kitchen.says("comes to 3.3 % of salt");
    looks("in-yesterday", &mut kitchen);
    // Today it is to come again, and that is said before anything is put on record.
    for _ in 0..6 {
        kitchen
            .controller
            .carry_out(Intent::Book(BookWish::AnotherDay));
    }
    kitchen.says("21:30 is still to come");
    kitchen.controller.carry_out(Intent::Book(BookWish::PutIn));
    assert_eq!(kitchen.store().batches().unwrap().len(), 0);
    looks("in-to-come", &mut kitchen);
    kitchen.touches("Went in on: today, Went in on");
    kitchen.touches("Put it in");
    kitchen.until("on record", |state| state.book.page == BookPage::OutOfBath);
    let in_bath = |kitchen: &Kitchen| kitchen.store().batches().unwrap().remove(0).1;
    let since = in_bath(&kitchen).in_bath().unwrap().1;
    let at = today.yesterday().unwrap().at(21, 30, 0, 0);
    let expected = at.to_zoned_datetime(zone).unwrap().timestamp();
    assert_eq!(since, expected);
    kitchen.types("Weight, drained: not said, Weight, drained", "1050");
    kitchen.types("Came out at: now, Came out at", "0.30");
    let out_at = |state: &State| {
        let fields = &state.book.sheet.fields;
        fields.iter().any(|field| field.value == "00:30")
    };
    assert!(out_at(kitchen.state()));
    looks("out-at", &mut kitchen);
    // Before it went in it cannot have come out.
    kitchen.touches("Came out on: today, Came out on");
    kitchen.touches("It is out");
    kitchen.until("refused", |state| state.complaint.is_some());
    kitchen.complains("It must come out after it went in");
    assert!(in_bath(&kitchen).soak().is_none());
    for _ in 0..6 {
        kitchen
            .controller
            .carry_out(Intent::Book(BookWish::AnotherDay));
    }
    kitchen.touches("It is out");
    kitchen.says("gained 50.0 g");
    let soak = in_bath(&kitchen).soak().unwrap();
    assert_eq!(soak.lasted, SignedDuration::from_hours(3));
    // The next piece goes in now, if nobody says otherwise.
    kitchen
        .controller
        .carry_out(Intent::Book(BookWish::Show(BookPage::IntoBath)));
    let fields = &kitchen.state().book.sheet.fields;
    assert!(fields.iter().any(|field| field.value == "now"));
}

/// Batches of bean milk begun on days one after another, each of 500 g of beans with 3.5 kg of
/// water, with so much milk and 700 g of pulp out of them.
fn bean_milk(store: &mut Store, milk: &[i64]) {
    for (day, milk) in (1..).zip(milk) {
        let at: Timestamp = "2026-05-04T08:00:00Z".parse().unwrap();
        let at = at
            .checked_add(SignedDuration::from_hours(24 * day))
            .unwrap();
        let id = store.begin_batch(at).unwrap();
        let title = "bean milk".to_owned();
        let mut add = |what| store.add_to_batch(id, &Entry { at, what }).unwrap();
        add(What::Titled { title });
        for (slot, (name, grams)) in (0..).map(Slot).zip([("beans", 500), ("water", 3_500)]) {
            add(What::Weighed {
                slot,
                mass: Mass::from_grams(grams),
                temperature: None,
            });
            let ingredient = NamedAs(Ingredient::plain(name).unwrap());
            add(What::Named { slot, ingredient });
        }
        let litres = parse_volume("volume", "3l").unwrap();
        for (name, grams, volume) in [("milk", *milk, Some(litres)), ("pulp", 700, None)] {
            let out = Yielded::new(name, Mass::from_grams(grams), volume).unwrap();
            add(What::Yielded { out });
        }
        add(What::Tasted {
            mark: Mark::new("mark", 5 + (day % 4) as u8).unwrap(),
            note: String::new(),
        });
    }
}

// By hand: 500 g of beans with 3.5 kg of water are 8 in; 3 060 g of milk in 3 l and 700 g of pulp
// are 6.12 and 1.4 out, 0.48 lost, 1.02 kg/l. Three batches of 6.12, 6.00 and 6.24 have the mean
// 6.12 and s 0.12; t(0.9; 2) = 1.886 (a table of Student's t, from memory) times 0.12 sqrt(4/3)
// is 0.261. Over 3.5 kg of water the first is 1.14 in, 0.87 and 0.20 out.
#[test]
fn batches_stand_side_by_side_by_what_came_out() {
    let folder = tempfile::tempdir().unwrap();
    bean_milk(
        &mut Store::open(&data(folder.path())).unwrap(),
        &[3_060, 3_000, 3_120],
    );
    let mut kitchen = Kitchen::with(folder);
    kitchen.controller.carry_out(Intent::Go(Screen::Mix));
    kitchen.touches("What came out");
    kitchen.until("listed", |state| state.book.sheet.rows.len() == 1);
    looks("yield-titles", &mut kitchen);
    kitchen.touches("bean milk: 3 batches: milk, pulp");
    kitchen.says("milk: 6.12 of one of beans, over 3 batches; the next lies between 5.86 and 6.38");
    // The latest is told, until another is touched.
    kitchen.says("7 May 26: to one of beans: 8.00 in, milk 6.24 at 1.040 kg/l, pulp 1.40");
    let bars = kitchen.state().book.sheet.bars.clone().unwrap();
    assert_eq!(bars.legend, ["milk", "pulp"]);
    let first = &bars.bars[0];
    for (found, expected) in [(first.into, 8.0), (first.out[0], 6.12), (first.out[1], 1.4)] {
        assert!(
            (found - expected).abs() < 1e-4,
            "{found}, expected {expected}"
        );
    }
    kitchen.touches("1. 5 May 26: 8.00 > 7.52 \u{b7} 6");
    kitchen
        .says("5 May 26: to one of beans: 8.00 in, milk 6.12 at 1.020 kg/l, pulp 1.40; 0.48 lost");
    looks("yields", &mut kitchen);
    // Over the water.
    kitchen.touches("Over: beans");
    kitchen.says("milk: 0.87 of one of water");
    kitchen.touches("Back");
    kitchen.touches("Back");
    assert_eq!(kitchen.state().screen, Screen::Mix);
}

/// More batches than a screen has room for are gone through, and none is shown in part.
#[test]
fn many_batches_are_gone_through_by_big_buttons() {
    let folder = tempfile::tempdir().unwrap();
    let milk: Vec<i64> = (0..20).map(|nth| 2_950 + 10 * nth).collect();
    bean_milk(&mut Store::open(&data(folder.path())).unwrap(), &milk);
    let mut kitchen = Kitchen::with(folder);
    kitchen
        .controller
        .carry_out(Intent::Book(BookWish::Show(BookPage::YieldTitles)));
    kitchen.until("listed", |state| state.book.sheet.rows.len() == 1);
    kitchen.touches("bean milk: 20 batches: milk, pulp");
    kitchen.says("over 20 batches");
    looks("yields-many", &mut kitchen);
}

#[test]
fn where_nothing_came_out_it_is_said_how_it_would() {
    let mut kitchen = Kitchen::new();
    kitchen
        .controller
        .carry_out(Intent::Book(BookWish::Show(BookPage::YieldTitles)));
    kitchen.says("Nothing that came out of a batch is on record yet");
    looks("yields-none", &mut kitchen);
}

/// A neck that was brined in a walk-in at 3.5 degC and smoked to 71 degC; the bag was held to
/// nothing.
fn a_lot(folder: &Path) {
    let mut store = Store::open(&data(folder)).unwrap();
    let begin: Timestamp = "2026-05-02T09:00:00Z".parse().unwrap();
    for (name, curve) in [
        ("walk-in", (|_| 3.5) as fn(f64) -> f64),
        ("neck core", |minute| (40.0 + minute / 3.0).min(71.0)),
    ] {
        let name = LogName::new("name", name).unwrap();
        let log = store
            .open_heat_log(&name, HeatLog::USUAL_STEP, begin)
            .unwrap();
        let kept: Vec<Kept> = (0..=180)
            .step_by(5)
            .map(|minute| Kept {
                point: LogPoint {
                    at: begin + SignedDuration::from_mins(minute),
                    temperature: Temperature::from_celsius(curve(minute as f64)).unwrap(),
                },
                after_gap: false,
            })
            .collect();
        store.keep_heat(log, &kept).unwrap();
    }
    let lots = folder.join("lots");
    std::fs::create_dir(&lots).unwrap();
    let text = "title = 'Saltmarsh neck, lot 12'
        [[step]]
        name = 'brine'
        from = '2026-05-02T09:00:00Z'
        to = '2026-05-02T12:00:00Z'
        log = 'walk-in'
        limit = 'cold-holding'
        [[step]]
        name = 'smoke'
        from = '2026-05-02T12:10:00Z'
        to = '2026-05-02T13:00:00Z'
        log = 'neck core'
        limit = 'cook-roast'
        ";
    std::fs::write(lots.join("neck.toml"), text).unwrap();
    let smoked = text.replace("12:10", "09:00").replace("13:00", "12:00");
    let smoked = smoked.replacen(
        "09:00:00Z'\n        to = '2026-05-02T12:00",
        "08:00:00Z'\n        to = '2026-05-02T08:30",
        1,
    );
    std::fs::write(lots.join("smoked.toml"), smoked.replace("lot 12", "lot 13")).unwrap();
    std::fs::write(lots.join("torn.toml"), "title = 'neck'").unwrap();
}

// US FDA Food Code 2022, 3-501.16(A)(2) (quoted): at most 5 degC; 3-401.11(B) (from memory): a
// whole roast at 70 degC is done in an instant. The neck's core was read until 12:00 only, so
// that nobody saw lot 12 smoked; of lot 13 nobody read the walk-in from 8:00 on.
#[test]
fn a_lot_is_told_step_by_step_and_printed_for_the_inspector() {
    let folder = tempfile::tempdir().unwrap();
    a_lot(folder.path());
    let mut kitchen = Kitchen::with(folder);
    kitchen.controller.carry_out(Intent::Go(Screen::Mix));
    kitchen.touches("Lots");
    kitchen.until("listed", |state| state.book.sheet.rows.len() == 2);
    // One that makes no sense hides no other, and says why.
    kitchen.says("torn.toml: the lot has no steps, expected at least one [[step]].");
    looks("lots", &mut kitchen);
    kitchen.touches("Saltmarsh neck, lot 12: cannot tell: smoke");
    kitchen.says("the log cannot tell");
    kitchen.says("within \u{2013} brine, ");
    kitchen.says("Limit cold-holding: at most 5 \u{b0}C (41 \u{b0}F).");
    kitchen
        .says("furthest reading 3.5 \u{b0}C (38.3 \u{b0}F), limit at most 5 \u{b0}C (41 \u{b0}F).");
    kitchen.says(
        "On the way to the next step, not watched: 2026-05-02 12:00 to 2026-05-02 12:10 (10 min).",
    );
    kitchen.says("Food Code 2022");
    looks("lot", &mut kitchen);
    kitchen.touches("Page for the inspector");
    kitchen.says("lot-neck.pdf");
    let page = std::fs::read(kitchen.folder.path().join("lot-neck.pdf")).unwrap();
    assert!(page.starts_with(b"%PDF"));
    kitchen.touches("Back");
    kitchen.until("listed", |state| state.book.page == BookPage::Lots);
    // A file that is gone meanwhile is no lot.
    kitchen.touches("Saltmarsh neck, lot 13: cannot tell: brine");
    std::fs::remove_file(kitchen.folder.path().join("lots/smoked.toml")).unwrap();
    kitchen.touches("Page for the inspector");
    kitchen.until("refused", |state| state.complaint.is_some());
    kitchen.complains("no longer in the folder");
}

#[test]
fn where_no_lot_is_written_it_is_said_how_one_is() {
    let mut kitchen = Kitchen::new();
    kitchen
        .controller
        .carry_out(Intent::Book(BookWish::Show(BookPage::Lots)));
    kitchen.says("A lot is a file in the folder");
    looks("lots-none", &mut kitchen);
}
