//! Menus by touch: made from nothing, copied, edited, brought in and kept; and labels of tubs.

use crate::app_samples;
use eframe::egui::{Theme, vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;
use evenhand_app::controller::Controller;
use evenhand_app::intent::Intent;
use evenhand_app::menus::{MenuPage, MenuWish};
use evenhand_app::state::{Screen, State};
use evenhand_app::{Language, shell, theme};
use evenhand_kitchen::dish::DishName;
use evenhand_kitchen::prep::{Happened, MenuPlace, WrittenMenu};
use evenhand_protocol::{Goal, Mass, Mode, Tolerance};
use evenhand_store::{DataFolder, Store};
use jiff::civil::Date;
use jiff::tz::TimeZone;
use jiff::{Timestamp, ToSpan};
use std::path::Path;
use std::time::{Duration, Instant};
use tempfile::TempDir;

/// Longer than anything here takes on a busy machine.
const PATIENCE: Duration = Duration::from_secs(60);

/// The menu that says most of what can be said, as MENU.md writes it.
fn written_out() -> WrittenMenu {
    let page = include_str!("../../MENU.md");
    let (_, rest) = page.split_once("```toml\n").unwrap();
    let (menu, _) = rest.split_once("```").unwrap();
    WrittenMenu::from_toml(menu).unwrap()
}

/// Two dishes at six every day, one made in batches.
const SMALL: &str = r#"
opens = "18:00"
closes = "23:00"
[[resource]]
name = "hands"
places = 2
[[preparation]]
name = "potted shrimp"
[[preparation.step]]
name = "spice the butter"
takes = "25 min"
needs = "hands"
[[preparation.step]]
name = "pot and seal"
takes = "45 min"
needs = "hands"
after = ["spice the butter"]
[[preparation]]
name = "hogget neck"
batch = { portions = 20, keeps = "3 days", source = "the kitchen's own", needs = 8, allergens = ["celery"] }
[[preparation.step]]
name = "braise"
takes = "3 h"
"#;

type Hand = Harness<'static, (State, Vec<Intent>)>;

/// The program with a hand that touches what it shows.
struct Kitchen {
    controller: Controller,
    folder: TempDir,
    hand: Hand,
}

fn data(folder: &Path) -> DataFolder {
    DataFolder::choose(Some(folder)).unwrap()
}

impl Kitchen {
    /// With a menu kept long ago, where there is one.
    fn with(menu: Option<&str>) -> Self {
        let folder = tempfile::tempdir().unwrap();
        let mut store = Store::open(&data(folder.path())).unwrap();
        if let Some(menu) = menu {
            let then = Timestamp::now().checked_sub(2400.hours()).unwrap();
            store.keep_menu(None, menu, then).unwrap();
        }
        drop(store);
        let controller =
            Controller::open(data(folder.path()), TimeZone::UTC, Vec::new(), || {}).unwrap();
        let hand = Harness::builder()
            .with_size(vec2(1280.0, 800.0))
            .with_theme(Theme::Light)
            .with_context_setup(theme::install)
            .build_ui_state(
                |ui, (state, asked): &mut (State, Vec<Intent>)| {
                    let more = shell::show(ui, state);
                    asked.extend(more);
                },
                (controller.state().clone(), Vec::new()),
            );
        let mut kitchen = Self {
            controller,
            folder,
            hand,
        };
        kitchen.controller.carry_out(Intent::Go(Screen::Menus));
        kitchen.until("listed", |state| {
            let sheet = &state.menus.sheet;
            sheet.rows.len() == usize::from(menu.is_some())
        });
        kitchen
    }

    fn store(&self) -> Store {
        Store::open(&data(self.folder.path())).unwrap()
    }

    fn state(&self) -> &State {
        self.controller.state()
    }

    /// The day of the service calendar that it is.
    fn today(&self) -> Date {
        let calendar = self.store().service_calendar(TimeZone::UTC).unwrap();
        calendar.day_of(Timestamp::now())
    }

    /// Touches what is called so, and has carried out what that asks for.
    #[track_caller]
    fn touches(&mut self, label: &str) {
        *self.hand.state_mut() = (self.controller.state().clone(), Vec::new());
        self.hand.run();
        self.hand.get_by_label(label).click();
        self.hand.run();
        let asked = std::mem::take(&mut self.hand.state_mut().1);
        assert_ne!(asked, [], "{label} asks for nothing");
        for intent in asked {
            self.controller.carry_out(intent);
        }
    }

    fn writes(&mut self, text: &str) {
        for wish in [MenuWish::Type(text.to_owned()), MenuWish::Enter] {
            self.controller.carry_out(Intent::Menus(wish));
        }
    }

    /// Touches a field by its caption, whatever it says, and types.
    #[track_caller]
    fn types(&mut self, caption: &str, text: &str) {
        self.field(caption);
        self.writes(text);
        assert_eq!(self.state().complaint, None, "{caption}: {text}");
    }

    /// Touches the field of a caption.
    #[track_caller]
    fn field(&mut self, caption: &str) {
        let fields = &self.state().menus.sheet.fields;
        let field = fields.iter().find(|field| field.caption == caption);
        let Some(field) = field else {
            panic!("no {caption} among {fields:#?}");
        };
        let label = format!("{caption}: {}, {caption}", field.value);
        self.touches(&label);
    }

    #[track_caller]
    fn row(&mut self, name: &str) {
        let rows = &self.state().menus.sheet.rows;
        let row = rows.iter().find(|row| row.name == name);
        let Some(row) = row else {
            panic!("no {name} among {rows:#?}");
        };
        let label = format!("{}: {}", row.name, row.about);
        self.touches(&label);
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
                self.state().menus
            );
            std::thread::sleep(Duration::from_millis(2));
        }
    }

    #[track_caller]
    fn says(&mut self, words: &str) {
        let what = format!("{words:?} said");
        self.until(&what, |state| {
            let sheet = &state.menus.sheet;
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

    /// Adds a step with its time, as the fields come one after the other.
    #[track_caller]
    fn step(&mut self, name: &str, least: &str, most: &str) {
        self.touches("+ step");
        for text in [name, least, most] {
            self.writes(text);
            assert_eq!(self.state().complaint, None, "{name}: {text}");
        }
    }

    #[track_caller]
    fn needs(&mut self, names: &[&str]) {
        self.field("Needs");
        for name in names {
            self.touches(&format!("not needed: {name}, not needed"));
        }
        self.touches("Back");
    }
}

#[test]
fn a_whole_menu_is_made_by_touch_from_nothing() {
    let mut kitchen = Kitchen::with(None);
    kitchen.touches("A new menu");
    kitchen.touches("everything is entered: Nothing, everything is entered");
    kitchen.writes("1800");
    kitchen.types("Service closes", "23");
    kitchen.types("Ready so long before", "45");
    // The last date is asked for after the first.
    kitchen.types("First date", "2026-05-01");
    kitchen.writes("2026-06-30");
    kitchen.field("Days with service");
    for day in ["Mon", "Tue"] {
        kitchen.touches(day);
    }
    kitchen.touches("Back");

    kitchen.field("Hands, ovens, places");
    kitchen.touches("+ hands or oven");
    kitchen.writes("hands");
    kitchen.writes("3");
    kitchen.types("Works from", "9");
    kitchen.types("Works until", "2330");
    kitchen.field("Serves in service");
    for (name, skill) in [("MO", Some("fish")), ("ZE", None)] {
        kitchen.touches("+ a name");
        kitchen.writes(name);
        if let Some(skill) = skill {
            kitchen.touches("+ skill");
            kitchen.writes(skill);
        }
        kitchen.touches("Back");
    }
    kitchen.touches("Back");
    kitchen.touches("+ hands or oven");
    kitchen.writes("oven");
    kitchen.writes("1");
    kitchen.field("Days off");
    kitchen.touches("Mon");
    kitchen.touches("Back");
    kitchen.touches("Back");
    kitchen.touches("Back");

    kitchen.touches("+ preparation");
    kitchen.writes("bream");
    kitchen.types("Served in its place", "potted shrimp");
    kitchen.step("delivery", "10", "");
    kitchen.types("Comes at, not before", "1430");
    kitchen.touches("Back");
    kitchen.step("scale and fillet", "40", "1 h");
    kitchen.needs(&["hands"]);
    kitchen.field("Whose hands");
    kitchen.touches("fish");
    kitchen.touches("Back");
    kitchen.touches("Back");
    kitchen.touches("Back");

    kitchen.touches("+ preparation");
    kitchen.writes("hogget neck");
    kitchen.types("Made in batches", "40");
    kitchen.types("Keeps", "3");
    kitchen.writes("the kitchen's own");
    kitchen.types("Or portions a cover", "0.6");
    kitchen.types("Dish, if called otherwise", "Hogget");
    kitchen.field("Allergens");
    kitchen.touches("+ allergen");
    kitchen.writes("celery");
    kitchen.touches("Back");
    kitchen.touches("Back");
    kitchen.step("braise", "3 h", "");
    kitchen.needs(&["hands", "oven"]);
    kitchen.touches("Back");
    // What rests is typed as work at first, and then said to rest.
    kitchen.step("chill in its stock", "10 h", "");
    kitchen.types("Rests", "10 h");
    kitchen.writes("2 d");
    kitchen.types("Done by the batch", "Hogget neck");
    kitchen.touches("Back");
    kitchen.touches("Back");

    kitchen.touches("+ preparation");
    kitchen.writes("pickled shallots");
    kitchen.types("Made in batches", "60");
    kitchen.types("Keeps", "14");
    kitchen.writes("the kitchen's own");
    kitchen.types("Portions a service", "12");
    kitchen.field("Date marking applies");
    kitchen.touches("Back");
    kitchen.step("pickle", "20", "");
    kitchen.needs(&["hands"]);
    kitchen.touches("Back");
    kitchen.touches("Back");

    kitchen.touches("+ preparation");
    kitchen.writes("oatcakes");
    kitchen.types("Due, if not at opening", "19.30");
    kitchen.types("Better done by", "19");
    kitchen.field("Can be bought in");
    kitchen.step("mix", "15", "");
    kitchen.needs(&["hands"]);
    kitchen.touches("Back");
    kitchen.step("bake", "25", "");
    kitchen.needs(&["hands", "oven"]);
    kitchen.types("Waits for the heat log", "oven");
    kitchen.writes("180");
    kitchen.writes("220");
    kitchen.touches("Back");
    kitchen.step("portion", "20", "");
    kitchen.needs(&["hands"]);
    kitchen.field("May be done in service");
    kitchen.types("Done by portions of", "Oatcakes");
    kitchen.writes("24");
    kitchen.field("Waits for");
    kitchen.touches("oatcakes: bake, oatcakes");
    kitchen.touches("bream: scale and fillet, bream");
    kitchen.touches("Back");
    kitchen.touches("Back");
    kitchen.touches("Back");

    kitchen.touches("Keep it");
    kitchen.says("Kept");
    let (day, kept) = kitchen.store().menus().unwrap().remove(0);
    assert_eq!(day, None);
    let kept = WrittenMenu::from_toml(&kept).unwrap();
    assert_eq!(
        kept.to_toml().unwrap(),
        written_out().to_toml().unwrap(),
        "as MENU.md writes it"
    );
    assert_eq!(kept, written_out());
}

/// What the plan makes of the day's steps, by name.
fn planned(state: &State) -> Vec<String> {
    state.prep.rows.iter().map(|row| row.name.clone()).collect()
}

#[test]
fn a_step_of_another_name_and_length_is_kept_and_the_plan_of_the_day_follows() {
    let mut kitchen = Kitchen::with(Some(SMALL));
    let has = |state: &State, name: &str| planned(state).iter().any(|row| row.contains(name));
    kitchen.until("planned", |state| has(state, "spice the butter"));
    kitchen.row("For every day");
    kitchen.row("potted shrimp");
    kitchen.row("spice the butter");
    kitchen.types("Name", "mace the butter");
    kitchen.types("Takes, as work", "35");
    kitchen.writes("");
    kitchen.touches("Back");
    // What waited for it waits for it under its new name.
    let about = &kitchen.state().menus.sheet.rows[1].about;
    assert!(about.contains("after mace the butter"), "{about}");
    kitchen.touches("Back");
    kitchen.touches("Keep it");
    kitchen.says("Kept; in force from");
    kitchen.says("Changed: potted shrimp.");
    kitchen.until("planned anew", |state| {
        has(state, "mace the butter") && !has(state, "spice the butter")
    });
    let today = kitchen.today();
    let menu = kitchen.store().menu(today).unwrap().unwrap();
    assert!(
        menu.contains(r#"takes = "35 min""#) && menu.contains(r#"after = ["mace the butter"]"#),
        "{menu}"
    );
}

#[test]
fn what_cannot_be_is_refused_at_its_field_and_the_draft_stays() {
    let mut kitchen = Kitchen::with(Some(SMALL));
    kitchen.row("For every day");
    kitchen.types("Service opens", "1730");
    kitchen.field("Service closes");
    kitchen.writes("2561");
    kitchen.complains("Service closes: “2561” cannot be used; write a time of day");
    // It is still there to be typed rightly.
    assert!(kitchen.state().menus.entry.is_some());
    kitchen.writes("2230");
    assert_eq!(kitchen.state().complaint, None);
    // What only the whole shows: a step that needs what is not there.
    kitchen.row("potted shrimp");
    kitchen.row("pot and seal");
    kitchen.field("Waits for");
    kitchen.touches("potted shrimp: spice the butter, potted shrimp");
    kitchen.touches("Back");
    kitchen.touches("Back");
    kitchen.touches("+ step");
    kitchen.writes("chill");
    kitchen.controller.carry_out(Intent::Menus(MenuWish::Leave));
    kitchen.touches("Back");
    kitchen.touches("Back");
    kitchen.says("potted shrimp: chill: Takes, as work is not said");
    kitchen.touches("Keep it");
    kitchen.complains("say how long it takes, or how long it rests");
    let menu = kitchen.store().menus().unwrap();
    assert_eq!(menu.len(), 1, "nothing was kept");
    assert_eq!(menu[0].1, SMALL);
    // It leads to the step, which is mended, and then the whole is kept.
    kitchen.touches("Show it");
    assert_eq!(kitchen.state().menus.page, MenuPage::Step(0, 2));
    kitchen.types("Rests", "3 h");
    kitchen.writes("");
    for _ in 0..2 {
        kitchen.touches("Back");
    }
    kitchen.touches("Keep it");
    kitchen.says("Its times or days are others.");
    let menu = kitchen.store().menu(kitchen.today()).unwrap().unwrap();
    assert!(menu.contains(r#"opens = "17:30""#) && menu.contains(r#"closes = "22:30""#));
    assert!(menu.contains(r#"rests = "3 h""#), "{menu}");
}

#[test]
fn last_weeks_menu_is_the_beginning_of_another_with_dates_of_its_own() {
    let mut kitchen = Kitchen::with(Some(SMALL));
    let today = kitchen.today();
    let later = today.checked_add(30.days()).unwrap();
    kitchen.touches("A new menu");
    let about = kitchen.state().menus.sheet.fields[2].caption.clone();
    kitchen.touches(&format!("{about}: Last week's, {about}"));
    kitchen.until("copied", |state| state.menus.entry.is_some());
    kitchen.writes(&later.to_string());
    kitchen.writes("");
    kitchen.row("hogget neck");
    kitchen.touches("Take out");
    kitchen.says("Its step goes with it");
    kitchen.touches("Take out");
    // Leaving asks, and staying leaves it as it was.
    kitchen.touches("Prep screen");
    kitchen.says("What was changed is lost unless it is kept.");
    assert_eq!(kitchen.state().screen, Screen::Menus);
    kitchen.touches("Go on writing");
    kitchen.touches("Back");
    kitchen.touches("Keep it");
    kitchen.until("listed", |state| state.menus.sheet.rows.len() == 2);
    let store = kitchen.store();
    assert_eq!(store.menu(today).unwrap().unwrap(), SMALL);
    let copied = WrittenMenu::from_toml(&store.menu(later).unwrap().unwrap()).unwrap();
    assert_eq!(copied.period().unwrap(), (Some(later), None));
    let changes = copied.changes_from(&WrittenMenu::from_toml(SMALL).unwrap());
    assert_eq!(changes.removed, ["hogget neck"]);
    assert_eq!((changes.added.len(), changes.changed.len()), (0, 0));
}

#[test]
fn what_is_dropped_is_lost_only_after_it_was_asked() {
    let mut kitchen = Kitchen::with(Some(SMALL));
    kitchen.row("For every day");
    kitchen.types("Service opens", "1730");
    kitchen.touches("Bench screen");
    kitchen.touches("Drop the changes");
    assert_eq!(kitchen.state().screen, Screen::Bench);
    assert_eq!(kitchen.store().menus().unwrap()[0].1, SMALL);
    // Nothing changed, nothing asked.
    kitchen.controller.carry_out(Intent::Go(Screen::Menus));
    kitchen.until("listed", |state| state.menus.sheet.rows.len() == 1);
    kitchen.row("For every day");
    kitchen.touches("Bench screen");
    assert_eq!(kitchen.state().screen, Screen::Bench);
}

#[test]
fn a_menu_goes_into_files_and_comes_back_from_either() {
    let mut kitchen = Kitchen::with(Some(SMALL));
    kitchen.row("For every day");
    kitchen.touches("Into files");
    kitchen.says("every-day.csv");
    let folder = kitchen.folder.path().join("menus");
    let expected = WrittenMenu::from_toml(SMALL).unwrap();
    let toml = std::fs::read_to_string(folder.join("every-day.toml")).unwrap();
    assert_eq!(WrittenMenu::from_toml(&toml).unwrap(), expected);
    std::fs::write(folder.join("broken.toml"), "opens = 18\n").unwrap();
    kitchen.touches("Back");
    for (nth, name) in ["broken.toml", "every-day.toml", "every-day.csv"]
        .into_iter()
        .enumerate()
    {
        kitchen.controller.carry_out(Intent::Go(Screen::Menus));
        kitchen.touches("From a file");
        kitchen.until("files are listed", |state| {
            let rows = &state.menus.sheet.rows;
            rows.len() == 3 && rows.get(nth).is_some_and(|row| row.name == name)
        });
        kitchen.row(name);
        if name == "broken.toml" {
            kitchen.until("refused", |state| state.complaint.is_some());
            kitchen.complains("broken.toml");
            assert_eq!(kitchen.state().menus.page, MenuPage::Files);
            continue;
        }
        kitchen.says("It is not kept yet.");
        kitchen.touches("Keep it");
        kitchen.says("Kept");
        let menu = kitchen.store().menu(kitchen.today()).unwrap().unwrap();
        assert_eq!(WrittenMenu::from_toml(&menu).unwrap(), expected, "{name}");
        kitchen.touches("Back");
    }
    // As one that is dropped on the window.
    let path = folder.join("every-day.csv");
    kitchen
        .controller
        .carry_out(Intent::Menus(MenuWish::ImportFile(path)));
    kitchen.says("every-day.csv. It is not kept yet.");
}

#[test]
fn a_tub_gets_its_label_on_paper_and_as_a_picture() {
    let mut kitchen = Kitchen::with(Some(SMALL));
    let (today, now) = (kitchen.today(), Timestamp::now());
    let begun = now.checked_sub(4.hours()).unwrap();
    let mut store = kitchen.store();
    for (what, at) in [(Happened::Begun, begun), (Happened::Done, now)] {
        store
            .tell_step(today, "hogget neck: braise", at, what, now)
            .unwrap();
    }
    kitchen.controller.carry_out(Intent::Go(Screen::Week));
    kitchen.touches("Labels");
    kitchen
        .controller
        .carry_out(Intent::Menus(MenuWish::LabelsOf(today)));
    kitchen.until("labels are listed", |state| {
        state.menus.sheet.rows.len() == 1
    });
    kitchen.row("hogget neck");
    kitchen.says("Allergens: celery");
    kitchen.says("Use by ");
    kitchen.says("source: the kitchen's own");
    kitchen.touches("PNG of one");
    let stem = format!("label-hogget-neck-{today}");
    kitchen.says(&format!("{stem}.png"));
    kitchen.types("Tubs", "3");
    kitchen.touches("PDF to print");
    kitchen.says(&format!("{stem}.pdf"));
    let read = |ending: &str| {
        let path = kitchen.folder.path().join(format!("{stem}.{ending}"));
        std::fs::read(path).unwrap()
    };
    assert!(read("png").starts_with(b"\x89PNG"));
    assert!(read("pdf").starts_with(b"%PDF"));
    kitchen.field("Tubs");
    kitchen.writes("201");
    kitchen.complains("write a whole number from 1 to 200");
    kitchen.controller.carry_out(Intent::Menus(MenuWish::Leave));

    // What the service left of it is put down, and that it is gone, once that was asked.
    let dish = DishName::new("dish", "hogget neck").unwrap();
    let grams = |g| Mass::from_grams(g);
    let goal = Goal::new(grams(150), Tolerance::symmetric(grams(5))).unwrap();
    store
        .set_dish(&dish, goal, Mode::Adding, None, now)
        .unwrap();
    kitchen.types("Left after service", "5");
    kitchen.until("put down", |state| {
        state.menus.page == MenuPage::Labels && !state.menus.sheet.rows.is_empty()
    });
    assert_eq!(store.left_over(today, &dish).unwrap(), Some(5));
    kitchen.row("hogget neck");
    kitchen.touches("It is gone");
    let gone = |store: &Store| {
        let told = store.told_steps(today).unwrap();
        told.iter().any(|event| event.what == Happened::Gone)
    };
    assert!(!gone(&store));
    kitchen.touches("It is gone");
    kitchen.until("gone", |state| {
        state.menus.page == MenuPage::Labels && !state.menus.sheet.rows.is_empty()
    });
    assert!(gone(&store));
}

/// Every screen of a menu that says most of what can be said, in each of the languages.
pub(crate) fn screens(languages: &[Language]) -> Vec<(&'static str, Vec<State>)> {
    let menu = written_out().to_toml().unwrap();
    let mut kitchen = Kitchen::with(Some(&menu));
    let mut all = Vec::new();
    let mut look = |name, kitchen: &mut Kitchen| {
        let states = languages.iter().map(|language| {
            kitchen.controller.speak(*language);
            let mut state = kitchen.state().clone();
            state.bench = app_samples::in_language(*language, app_samples::idle).bench;
            state.clock = "09:40".to_owned();
            state
        });
        all.push((name, states.collect()));
        kitchen.controller.speak(Language::English);
    };
    look("list", &mut kitchen);
    kitchen.touches("A new menu");
    look("start", &mut kitchen);
    kitchen.controller.carry_out(Intent::Go(Screen::Menus));
    kitchen.touches("From a file");
    look("files", &mut kitchen);
    kitchen.controller.carry_out(Intent::Go(Screen::Menus));
    kitchen
        .controller
        .carry_out(Intent::Menus(MenuWish::Open(0)));
    for (name, page) in [
        ("menu", MenuPage::Menu),
        ("days", MenuPage::Days(MenuPlace::Menu)),
        ("preparation", MenuPage::Preparation(3)),
        ("batch", MenuPage::Batch(1)),
        ("allergens", MenuPage::Allergens(1)),
        ("step", MenuPage::Step(3, 1)),
        ("needs", MenuPage::Needs(3, 1)),
        ("skill", MenuPage::Skill(0, 1)),
        ("after", MenuPage::After(3, 2)),
        ("resources", MenuPage::Resources),
        ("resource", MenuPage::Resource(0)),
        ("hand", MenuPage::Hand(0, 0)),
    ] {
        kitchen
            .controller
            .carry_out(Intent::Menus(MenuWish::Show(page)));
        look(name, &mut kitchen);
    }
    let step = MenuPage::Step(3, 1);
    kitchen
        .controller
        .carry_out(Intent::Menus(MenuWish::Show(step)));
    kitchen.field("Takes, as work");
    let typed = MenuWish::Type("40".to_owned());
    kitchen.controller.carry_out(Intent::Menus(typed));
    look("typing", &mut kitchen);
    kitchen.writes("");
    kitchen.controller.carry_out(Intent::Menus(MenuWish::Leave));
    kitchen.types("Takes, as work", "30");
    kitchen.writes("");
    let ask = MenuWish::AskToRemove(MenuPlace::Preparation(1));
    kitchen.controller.carry_out(Intent::Menus(ask));
    look("taking out", &mut kitchen);
    kitchen.touches("Leave it in");
    kitchen
        .controller
        .carry_out(Intent::Menus(MenuWish::Need(3, 1, "oven".to_owned())));
    kitchen
        .controller
        .carry_out(Intent::Menus(MenuWish::Remove(MenuPlace::Resource(1))));
    kitchen
        .controller
        .carry_out(Intent::Menus(MenuWish::Show(MenuPage::Menu)));
    look("refused", &mut kitchen);
    kitchen.touches("Bench screen");
    look("leaving", &mut kitchen);
    kitchen.touches("Drop the changes");
    kitchen.controller.carry_out(Intent::Go(Screen::Menus));
    kitchen.until("listed", |state| state.menus.sheet.rows.len() == 1);
    kitchen
        .controller
        .carry_out(Intent::Menus(MenuWish::Open(0)));
    kitchen.types("Service closes", "2230");
    kitchen.touches("Keep it");
    kitchen.says("Kept");
    look("kept", &mut kitchen);
    let labels = MenuWish::Show(MenuPage::Labels);
    kitchen.controller.carry_out(Intent::Menus(labels));
    kitchen.until("labels", |state| state.menus.sheet.rows.len() == 2);
    look("labels", &mut kitchen);
    kitchen
        .controller
        .carry_out(Intent::Menus(MenuWish::LabelOf(0)));
    look("label", &mut kitchen);
    all
}

/// What of it is data: the names in the menu.
pub(crate) fn named() -> Vec<String> {
    let menu = written_out().to_toml().unwrap();
    menu.split('"')
        .skip(1)
        .step_by(2)
        .map(str::to_owned)
        .collect()
}
