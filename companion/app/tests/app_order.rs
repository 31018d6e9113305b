//! What to order by touch: goods made and brought in, counted, ordered and printed; and files that
//! are really dropped on the window.

use crate::app_samples;
use eframe::egui::{DroppedFile, Theme, vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;
use evenhand_app::controller::Controller;
use evenhand_app::intent::Intent;
use evenhand_app::order::{OrderPage, OrderWish};
use evenhand_app::state::{Screen, State};
use evenhand_app::{Language, shell, theme};
use evenhand_kitchen::prep::{GoodsList, GoodsPlace, GoodsTold, WrittenMenu};
use evenhand_kitchen::units::{Amount, Measure};
use evenhand_store::{DataFolder, Store};
use jiff::tz::TimeZone;
use jiff::{Timestamp, ToSpan};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::{Duration, Instant};
use tempfile::TempDir;

/// Longer than anything here takes on a busy machine.
const PATIENCE: Duration = Duration::from_secs(120);

/// Service every day, and a batch for each, so that no hour or day of the test matters.
const MENU: &str = r#"
opens = "18:00"
closes = "22:00"
[[resource]]
name = "hands"
places = 2
[[preparation]]
name = "pickled shallots"
step = [{ name = "pickle", takes = "20 min", needs = "hands" }]
"#;

/// What comes without delivery days is ordered for the next service.
const GOODS: &str = r#"
# What the kitchen buys.
[[supplier]]
name = "Quay House"
delivers = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"]
at = "09:30"
[[goods]]
name = "shallots"
supplier = "Lower Field"
pack = "2.5 kg"
price = "6.50 EUR"
for = [{ batch = "pickled shallots", takes = "1.8 kg" }]
[[goods]]
name = "butter"
supplier = "Quay House"
pack = "250 g"
for = [{ per_cover = "15 g" }]
"#;

#[derive(Debug)]
struct File(PathBuf);

impl DroppedFile for File {
    fn path(&self) -> &Path {
        &self.0
    }

    fn bytes(&self) -> Result<Vec<u8>, String> {
        std::fs::read(&self.0).map_err(|error| error.to_string())
    }
}

type Hand = Harness<'static, (State, Vec<Intent>)>;

/// The program with a hand that touches what it shows and drops files on it.
struct Kitchen {
    controller: Controller,
    folder: TempDir,
    hand: Hand,
}

fn data(folder: &Path) -> DataFolder {
    DataFolder::choose(Some(folder)).unwrap()
}

impl Kitchen {
    fn with(goods: Option<&str>) -> Self {
        let folder = tempfile::tempdir().unwrap();
        let mut store = Store::open(&data(folder.path())).unwrap();
        let then = Timestamp::now().checked_sub(2400.hours()).unwrap();
        store.keep_menu(None, MENU, then).unwrap();
        if let Some(goods) = goods {
            store.keep_goods(goods, then).unwrap();
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
        Self {
            controller,
            folder,
            hand,
        }
    }

    fn store(&self) -> Store {
        Store::open(&data(self.folder.path())).unwrap()
    }

    fn state(&self) -> &State {
        self.controller.state()
    }

    fn carry_out(&mut self) {
        let asked = std::mem::take(&mut self.hand.state_mut().1);
        assert_ne!(asked, [], "nothing is asked for");
        for intent in asked {
            self.controller.carry_out(intent);
        }
    }

    /// Touches what is called so, and has carried out what that asks for.
    #[track_caller]
    fn touches(&mut self, label: &str) {
        *self.hand.state_mut() = (self.controller.state().clone(), Vec::new());
        self.hand.run();
        self.hand.get_by_label(label).click();
        self.hand.run();
        self.carry_out();
    }

    /// Drops a file on the window.
    #[track_caller]
    fn drops(&mut self, path: &Path) {
        *self.hand.state_mut() = (self.controller.state().clone(), Vec::new());
        self.hand.run();
        let file = Arc::new(File(path.to_owned()));
        self.hand.input_mut().dropped_files.push(file);
        self.hand.step();
        self.carry_out();
    }

    fn writes(&mut self, text: &str) {
        for wish in [OrderWish::Type(text.to_owned()), OrderWish::Enter] {
            self.controller.carry_out(Intent::Order(wish));
        }
    }

    #[track_caller]
    fn field(&mut self, caption: &str) {
        let fields = &self.state().order.sheet.fields;
        let field = fields.iter().find(|field| field.caption == caption);
        let Some(field) = field else {
            panic!("no {caption} among {fields:#?}");
        };
        let label = format!("{caption}: {}, {caption}", field.value);
        self.touches(&label);
    }

    #[track_caller]
    fn row(&mut self, name: &str) {
        let rows = &self.state().order.sheet.rows;
        let row = rows.iter().find(|row| row.name.contains(name));
        let Some(row) = row else {
            panic!("no {name} among {rows:#?}");
        };
        let label = if row.about.is_empty() {
            row.name.clone()
        } else {
            format!("{}: {}", row.name, row.about)
        };
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
                "never {what}: {:?} {:#?} {:#?}",
                self.state().complaint,
                self.state().order,
                self.state().menus
            );
            std::thread::sleep(Duration::from_millis(2));
        }
    }

    #[track_caller]
    fn says(&mut self, words: &str) {
        let what = format!("{words:?} said");
        self.until(&what, |state| {
            let (order, menus) = (&state.order.sheet, &state.menus.sheet);
            let said = order.lines.iter().chain(&order.loud).chain(&menus.loud);
            said.chain([&order.prompt, &order.heading])
                .chain(order.fields.iter().map(|field| &field.value))
                .any(|line| line.contains(words))
        });
    }

    fn asks_what_to_order(&mut self) {
        self.controller.carry_out(Intent::Go(Screen::Order));
        self.until("worked out", |state| !state.order.sheet.rows.is_empty());
    }

    fn told(&self, goods: &str) -> Vec<GoodsTold> {
        let told = self.store().told_goods(goods).unwrap();
        told.into_iter().map(|(_, what)| what).collect()
    }
}

#[test]
fn a_list_of_goods_is_made_by_touch_and_what_to_order_of_it_is_counted_and_ordered() {
    let mut kitchen = Kitchen::with(None);
    kitchen.controller.carry_out(Intent::Go(Screen::Order));
    kitchen.until("told that no list is there", |state| {
        let loud = state.order.sheet.loud.as_deref();
        loud.is_some_and(|why| why.contains("No list"))
    });
    kitchen.touches("What we buy");
    kitchen.until("an empty list", |state| {
        state.order.sheet.prompt == "No goods are on the list yet."
    });
    kitchen.touches("+ goods");
    kitchen.writes("shallots");
    kitchen.writes("Lower Field");
    // An amount without its unit is none; the unit is touched.
    kitchen.writes("2.5");
    let complaint = kitchen.state().complaint.clone().unwrap_or_default();
    assert!(complaint.contains("then its unit"), "{complaint}");
    kitchen.touches("2.5 kg");
    assert_eq!(kitchen.state().complaint, None);
    kitchen.says("What it is for is not said");
    kitchen.touches("+ batch");
    kitchen.touches("pickled shallots");
    kitchen.writes("1.8 kg");
    kitchen.touches("Back");
    kitchen.touches("Back");
    // Whoever goods come from is a supplier; its days are touched.
    let label = "no delivery days are said: Lower Field, no delivery days are said";
    kitchen.touches(label);
    kitchen.field("Delivers on");
    for day in ["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"] {
        kitchen.touches(day);
    }
    kitchen.touches("Back");
    kitchen.touches("Back");
    kitchen.touches("Keep it");
    kitchen.says("The list is kept.");
    let text = kitchen.store().goods().unwrap().unwrap();
    let list = GoodsList::from_toml(&text).unwrap();
    assert_eq!(
        list.goods("shallots").unwrap().pack,
        Amount::new(Measure::Mass, 2_500.0)
    );
    assert_eq!(list.supplier("Lower Field").unwrap().delivers.len(), 7);
    kitchen.touches("Back");
    kitchen.until("worked out", |state| state.order.sheet.rows.len() == 1);
    kitchen.row("Lower Field");
    // What is not known says what would make it known.
    assert!(
        kitchen.state().order.sheet.rows[0]
            .about
            .contains("count what is in hand"),
        "{:#?}",
        kitchen.state().order.sheet
    );
    kitchen.row("shallots");
    kitchen.field("In hand, as bought");
    kitchen.writes("3 l");
    let complaint = kitchen.state().complaint.clone().unwrap_or_default();
    assert!(complaint.contains("or in packs"), "{complaint}");
    // A number alone may be packs or kilos: it is asked, and nothing is put down.
    kitchen.writes("0.5");
    let complaint = kitchen.state().complaint.clone().unwrap_or_default();
    assert!(complaint.contains("or in packs"), "{complaint}");
    let entry = kitchen.state().order.entry.clone().unwrap();
    assert_eq!(
        entry.hint,
        "0.5 of what? Touch it: in packs that is 1.25 kg."
    );
    assert_eq!(entry.picks, ["0.5 packs", "0.5 kg", "0.5 g"]);
    assert_eq!(kitchen.told("shallots"), []);
    kitchen.touches("0.5 packs");
    kitchen.until("counted", |state| {
        state.order.sheet.fields[0].value == "1.25 kg"
    });
    kitchen.field("In hand, as bought");
    kitchen.writes("0.5");
    kitchen.touches("0.5 kg");
    kitchen.until("counted again", |state| {
        state.order.sheet.fields[0].value == "500 g"
    });
    let amount = Amount::new(Measure::Mass, 500.0);
    assert_eq!(kitchen.told("shallots")[1], GoodsTold::Counted { amount });
    kitchen.touches("Back");
    let order = kitchen.state().order.sheet.clone();
    assert!(
        order.lines[0].contains("To last for"),
        "what it lasts for is said: {order:#?}"
    );
}

#[test]
fn what_is_ordered_is_put_down_by_one_touch_and_printed() {
    let mut kitchen = Kitchen::with(Some(GOODS));
    kitchen.asks_what_to_order();
    kitchen.touches("PDF to print");
    kitchen.says("Written to ");
    let mut files = std::fs::read_dir(kitchen.folder.path()).unwrap();
    let pdf = files.find_map(|it| {
        let path = it.unwrap().path();
        (path.extension()? == "pdf").then_some(path)
    });
    let text = std::fs::read(pdf.unwrap()).unwrap();
    assert!(text.starts_with(b"%PDF"));
    kitchen.row("Lower Field");
    kitchen.row("shallots");
    kitchen.field("In hand, as bought");
    kitchen.writes("0");
    kitchen.until("a number of packs", |state| {
        state.order.sheet.prompt.starts_with("1 x 2.5 kg")
    });
    kitchen.touches("Back");
    // Lower Field has no delivery days: it is asked when they come.
    kitchen.touches("All is ordered");
    kitchen.writes("2020-01-01");
    let complaint = kitchen.state().complaint.clone().unwrap_or_default();
    assert!(complaint.contains("from today on"), "{complaint}");
    let comes = Timestamp::now()
        .to_zoned_datetime(TimeZone::UTC)
        .date()
        .saturating_add(2.days());
    kitchen.writes(&comes.to_string());
    kitchen.until("ordered", |state| {
        let rows = &state.order.sheet.rows;
        rows.iter()
            .any(|row| row.name.starts_with("none: shallots"))
    });
    assert_eq!(
        kitchen.told("shallots")[1],
        GoodsTold::Ordered { packs: 1, comes }
    );
    // Of a supplier with delivery days it is asked once more, and nothing is put down unasked.
    kitchen.asks_what_to_order();
    kitchen.row("Quay House");
    kitchen.row("butter");
    kitchen.field("Packs ordered");
    kitchen.writes("4");
    kitchen.says("4 packs on their way");
}

#[test]
fn an_order_put_down_by_mistake_is_taken_back_and_put_back_by_touch() {
    let mut kitchen = Kitchen::with(Some(GOODS));
    kitchen.asks_what_to_order();
    kitchen.row("Quay House");
    kitchen.row("butter");
    for packs in ["4", "7"] {
        kitchen.field("Packs ordered");
        kitchen.writes(packs);
        kitchen.until("put down", |state| state.order.entry.is_none());
        kitchen.until("on its way", |state| {
            let way = &state.order.sheet.fields[1].value;
            way.starts_with(if packs == "4" { "4 packs" } else { "11 packs" })
        });
    }
    let packs = |kitchen: &Kitchen| -> Vec<u32> {
        let told = kitchen.told("butter").into_iter();
        told.filter_map(|told| match told {
            GoodsTold::Ordered { packs, .. } => Some(packs),
            GoodsTold::Counted { .. } => None,
        })
        .collect()
    };
    assert_eq!(packs(&kitchen), [4, 7]);
    kitchen.touches("Ordered so far");
    // Asked, and left as it is.
    kitchen.row("For ");
    kitchen.says("Take this order back?");
    kitchen.says("The supplier is not told");
    kitchen.touches("Leave it");
    assert_eq!(packs(&kitchen), [4, 7]);
    // The last one is first.
    assert!(
        kitchen.state().order.sheet.rows[0]
            .about
            .contains("7 x 250 g"),
        "{:#?}",
        kitchen.state().order.sheet.rows
    );
    kitchen.row("For ");
    kitchen.touches("Put down by mistake");
    kitchen.until("taken back", |state| {
        state.order.sheet.rows[0].about.starts_with("Taken back")
    });
    assert_eq!(packs(&kitchen), [4]);
    let orders = kitchen.store().placed_orders(Some("butter")).unwrap();
    let reasons: Vec<_> = orders
        .iter()
        .map(|it| it.taken_back.as_ref().map(|it| it.reason.as_str()))
        .collect();
    assert_eq!(reasons, [Some("Put down by mistake"), None]);
    kitchen.touches("Back");
    kitchen.says("4 packs on their way");
    kitchen.touches("Ordered so far");
    kitchen.row("For ");
    kitchen.says("Does this order count after all?");
    kitchen.touches("It counts");
    kitchen.until("put back", |state| {
        state.order.sheet.rows[0].about.starts_with("Put down")
    });
    assert_eq!(packs(&kitchen), [4, 7]);
}

#[test]
fn a_list_dropped_on_the_window_is_brought_in_in_either_form_or_refused_in_words() {
    let mut kitchen = Kitchen::with(None);
    let folder = kitchen.folder.path().join("elsewhere");
    std::fs::create_dir_all(&folder).unwrap();
    let file = |name: &str, text: &str| {
        let path = folder.join(name);
        std::fs::write(&path, text).unwrap();
        path
    };
    let list = GoodsList::from_toml(GOODS).unwrap();
    let toml = file("goods.toml", GOODS);
    let table = file("goods.csv", &list.to_csv().unwrap());
    let broken = file("broken.toml", &GOODS.replace("2.5 kg", "a sack"));
    kitchen.controller.carry_out(Intent::Go(Screen::Order));
    for (language, says) in [
        (Language::English, "write an amount in the measure"),
        (Language::Spanish, "escriba una cantidad en la medida"),
        (Language::French, "écrivez une quantité dans la mesure"),
    ] {
        kitchen.controller.speak(language);
        kitchen.drops(&broken);
        kitchen.until("refused", |state| {
            let why = state.complaint.as_deref().unwrap_or_default();
            why.contains("a sack") && why.contains("broken.toml") && why.contains(says)
        });
        assert_eq!(kitchen.state().order.page, OrderPage::Suppliers);
    }
    kitchen.controller.speak(Language::English);
    for path in [&table, &toml] {
        kitchen.drops(path);
        kitchen.says("It is not kept yet.");
        assert_eq!(kitchen.state().order.page, OrderPage::Goods);
        // Another cannot be dropped over it.
        kitchen.drops(&toml);
        kitchen.until("refused", |state| {
            let why = state.complaint.as_deref().unwrap_or_default();
            why.contains("keep it or leave it first")
        });
        kitchen.touches("Keep it");
        kitchen.says("The list is kept.");
        kitchen.controller.carry_out(Intent::Go(Screen::Order));
    }
    // What was not changed keeps its remarks.
    let text = kitchen.store().goods().unwrap().unwrap();
    assert_eq!(text, GOODS);
}

#[test]
fn a_menu_dropped_on_the_window_is_brought_in_in_either_form_or_refused_in_words() {
    let mut kitchen = Kitchen::with(None);
    let folder = kitchen.folder.path().join("elsewhere");
    std::fs::create_dir_all(&folder).unwrap();
    let file = |name: &str, text: &str| {
        let path = folder.join(name);
        std::fs::write(&path, text).unwrap();
        path
    };
    let menu = WrittenMenu::from_toml(MENU).unwrap();
    let toml = file("menu.toml", MENU);
    let table = file("menu.csv", &menu.to_csv().unwrap());
    let broken = file("broken.toml", "opens = 18\n");
    kitchen.controller.carry_out(Intent::Go(Screen::Menus));
    for (language, says) in [
        (Language::English, "no such file in TOML"),
        (Language::Spanish, "No es un fichero así en TOML"),
        (Language::French, "pas un tel fichier en TOML"),
    ] {
        kitchen.controller.speak(language);
        kitchen.drops(&broken);
        kitchen.until("refused", |state| {
            let why = state.complaint.as_deref().unwrap_or_default();
            why.contains("broken.toml") && why.contains(says)
        });
    }
    kitchen.controller.speak(Language::English);
    for path in [&table, &toml] {
        kitchen.drops(path);
        kitchen.until("brought in", |state| {
            let loud = state.menus.sheet.loud.as_deref().unwrap_or_default();
            loud.contains("It is not kept yet.")
        });
        kitchen.touches("Keep it");
        kitchen.until("kept", |state| {
            let loud = state.menus.sheet.loud.as_deref().unwrap_or_default();
            loud.contains("Kept")
        });
        kitchen.controller.carry_out(Intent::Go(Screen::Prep));
        kitchen.controller.carry_out(Intent::Go(Screen::Menus));
    }
}

/// Every screen of orders, in each of the languages.
pub(crate) fn screens(languages: &[Language]) -> Vec<(&'static str, Vec<State>)> {
    let mut kitchen = Kitchen::with(Some(GOODS));
    let mut all = Vec::new();
    let mut look = |name, kitchen: &mut Kitchen| {
        let mut states = Vec::new();
        for language in languages {
            kitchen.controller.speak(*language);
            // The sheet is asked for in the language, and comes a little later.
            let heading = kitchen.state().order.sheet.heading.clone();
            kitchen.until("said", |state| {
                state.order.sheet.heading == heading && state.complaint.is_none()
            });
            let mut state = kitchen.state().clone();
            state.bench = app_samples::in_language(*language, app_samples::idle).bench;
            state.clock = "09:40".to_owned();
            states.push(state);
        }
        all.push((name, states));
        kitchen.controller.speak(Language::English);
    };
    kitchen.asks_what_to_order();
    look("suppliers", &mut kitchen);
    kitchen.row("Quay House");
    look("supplier", &mut kitchen);
    kitchen.row("butter");
    look("line", &mut kitchen);
    kitchen.field("In hand, as bought");
    let typed = OrderWish::Type("3".to_owned());
    kitchen.controller.carry_out(Intent::Order(typed));
    look("typing", &mut kitchen);
    kitchen
        .controller
        .carry_out(Intent::Order(OrderWish::Leave));
    kitchen.asks_what_to_order();
    kitchen.row("Quay House");
    kitchen
        .controller
        .carry_out(Intent::Order(OrderWish::AskToOrder));
    look("asking", &mut kitchen);
    kitchen.controller.carry_out(Intent::Order(OrderWish::Stay));
    kitchen
        .controller
        .carry_out(Intent::Order(OrderWish::Show(OrderPage::Goods)));
    kitchen.until("listed", |state| state.order.sheet.rows.len() == 2);
    for (name, page) in [
        ("goods", OrderPage::Goods),
        ("supplier of the list", OrderPage::SupplierOf(0)),
        ("days", OrderPage::Days(0)),
        ("item", OrderPage::Item(0)),
        ("use", OrderPage::Use(1, 0)),
        ("files", OrderPage::Files),
    ] {
        kitchen
            .controller
            .carry_out(Intent::Order(OrderWish::Show(page)));
        look(name, &mut kitchen);
    }
    kitchen
        .controller
        .carry_out(Intent::Order(OrderWish::Show(OrderPage::Goods)));
    let remove = OrderWish::AskToRemove(GoodsPlace::Supplier(0));
    kitchen.controller.carry_out(Intent::Order(remove));
    look("taking out", &mut kitchen);
    let remove = OrderWish::Remove(GoodsPlace::Use(0, 0));
    kitchen.controller.carry_out(Intent::Order(remove));
    look("refused", &mut kitchen);
    kitchen.controller.carry_out(Intent::Go(Screen::Bench));
    look("leaving", &mut kitchen);
    all
}

/// What of it is data: the names in the menu and the list.
pub(crate) fn named() -> Vec<String> {
    [MENU, GOODS]
        .iter()
        .flat_map(|text| text.split('"').skip(1).step_by(2))
        .map(str::to_owned)
        .collect()
}
