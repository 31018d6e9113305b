//! Three desktops that gather in any order hold what one desktop would that was told all of
//! it: the reference is the store itself, told the same events one after the other.
use evenhand_kitchen::batch::{BatchId, Entry, Slot, What};
use evenhand_kitchen::book::Pictured;
use evenhand_kitchen::brine::{Doubt, Filling, VesselMaterial, VesselName};
use evenhand_kitchen::cook::Cook;
use evenhand_kitchen::dish::DishName;
use evenhand_kitchen::heat::{Amendment, Correction, HeatLog, LogName, LogPoint, Marker};
use evenhand_kitchen::portion::StrikeReason;
use evenhand_kitchen::prep::{GoodsTold, Happened};
use evenhand_kitchen::service::{CookFigures, DayBegins, ServiceCalendar};
use evenhand_kitchen::tin::{TinId, TinKind};
use evenhand_kitchen::units::{CostPerMass, Money};
use evenhand_kitchen::weighings_file::Weighing;
use evenhand_kitchen::yield_flow::Loss;
use evenhand_protocol::report::Doubts;
use evenhand_protocol::{
    CapturedPortion, DeviceId, Epoch, Goal, Mass, Mode, PortionId, RunId, SelfTest, Temperature,
    Tolerance, UnixMillis, Uptime,
};
use evenhand_store::{
    By, DataFolder, Gathering, InstrumentMoment, NewRun, NewTin, PlainFile, Query, Store,
    StoreError,
};
use jiff::civil::{Date, date};
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp};
use proptest::prelude::*;
use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::path::Path;
use tempfile::TempDir;

const DAY: Date = date(2026, 5, 8);
const DISHES: [&str; 3] = ["Samphire", "Brown shrimp", "Oyster"];

fn dish(n: usize) -> DishName {
    DishName::new("dish", DISHES[n % DISHES.len()]).unwrap()
}

fn grams(grams: i64) -> Mass {
    Mass::from_grams(grams)
}

fn goal(target: i64) -> Goal {
    Goal::new(grams(target), Tolerance::symmetric(grams(1))).unwrap()
}

/// Something that happens at one desktop.
#[derive(Debug, Clone)]
enum Event {
    Dish(usize, i64, Option<i64>),
    Retired(usize),
    Run(usize, usize, bool),
    Ended,
    Goal(i64),
    Portion(i64),
    Corrected(i64),
    Struck(usize),
    Lifted(usize),
    Tin(usize),
    TinClosed(usize),
    Yield(usize, i64),
    YieldStruck(usize),
    Covers(u32),
    Left(usize, u32),
    Out(usize, i32),
    Menu(u8, bool),
    Tick(u8, bool),
    Goods(u8),
    Counted(u32),
    TakenBack(bool),
    Melt(usize, i64),
    Batch,
    BatchWeighed(usize, i64, bool),
    BatchStruck(usize),
    Heat(i64),
    HeatMarked,
    HeatCorrected,
    Day(u8),
    Figures(bool),
    FirstOrder,
    Tested(i64),
    Vessel(i64),
    Picture(u8),
    PictureOff,
    Imported(i64),
    File(u8),
    Gather,
}

fn event() -> impl Strategy<Value = Event> {
    use Event as E;
    prop_oneof![
        1 => (0..3usize, 20..40i64, proptest::option::of(1..9i64))
            .prop_map(|(d, t, c)| E::Dish(d, t, c)),
        1 => (0..3usize).prop_map(E::Retired),
        3 => (0..3usize, 0..2usize, any::<bool>()).prop_map(|(d, c, t)| E::Run(d, c, t)),
        1 => Just(E::Ended),
        1 => (20..40i64).prop_map(E::Goal),
        12 => (27..33i64).prop_map(E::Portion),
        2 => (27..33i64).prop_map(E::Corrected),
        4 => (0..40usize).prop_map(E::Struck),
        4 => (0..40usize).prop_map(E::Lifted),
        1 => (0..3usize).prop_map(E::Tin),
        1 => (0..5usize).prop_map(E::TinClosed),
        1 => (0..5usize, 1..50i64).prop_map(|(t, m)| E::Yield(t, m)),
        1 => (0..5usize).prop_map(E::YieldStruck),
        1 => (1..60u32).prop_map(E::Covers),
        1 => (0..3usize, 0..9u32).prop_map(|(d, n)| E::Left(d, n)),
        1 => (0..3usize, 1..9i32).prop_map(|(d, n)| E::Out(d, n)),
        1 => (0..4u8, any::<bool>()).prop_map(|(m, d)| E::Menu(m, d)),
        3 => (0..4u8, any::<bool>()).prop_map(|(s, d)| E::Tick(s, d)),
        1 => (0..4u8).prop_map(E::Goods),
        1 => (1..9u32).prop_map(E::Counted),
        1 => any::<bool>().prop_map(E::TakenBack),
        1 => (0..3usize, 60..900i64).prop_map(|(d, s)| E::Melt(d, s)),
        1 => Just(E::Batch),
        3 => (0..4usize, 1..500i64, any::<bool>()).prop_map(|(b, m, n)| E::BatchWeighed(b, m, n)),
        1 => (0..4usize).prop_map(E::BatchStruck),
        3 => (-2_000..8_000i64).prop_map(E::Heat),
        1 => Just(E::HeatMarked),
        1 => Just(E::HeatCorrected),
        1 => (2..7u8).prop_map(E::Day),
        1 => any::<bool>().prop_map(E::Figures),
        1 => Just(E::FirstOrder),
        1 => (199_900..200_100i64).prop_map(E::Tested),
        1 => (900..1_100i64).prop_map(E::Vessel),
        1 => (0..4u8).prop_map(E::Picture),
        1 => Just(E::PictureOff),
        1 => (27..33i64).prop_map(E::Imported),
        1 => (0..4u8).prop_map(E::File),
        6 => Just(E::Gather),
    ]
}

/// One desktop, and what it needs to know to say the same as another.
struct Desk {
    store: Store,
    _folder: TempDir,
    device: u64,
    run: Option<RunId>,
    last: Option<u32>,
}

impl Desk {
    fn new(device: u64) -> Self {
        let folder = tempfile::tempdir().unwrap();
        Self {
            store: Store::open(&DataFolder::choose(Some(folder.path())).unwrap()).unwrap(),
            _folder: folder,
            device,
            run: None,
            last: None,
        }
    }

    fn gather(&mut self, shared: &Path, at: Timestamp) -> usize {
        let gathered = self.store.gather(shared, Gathering::Both, at).unwrap();
        assert!(gathered.torn.is_empty() && gathered.newer.is_empty());
        assert_eq!(gathered.clashes, 0);
        assert!(!gathered.renumbered);
        gathered.taken + gathered.told
    }
}

/// The runs of the three, as the one calls them.
type Runs = BTreeMap<RunId, RunId>;

fn moment(n: usize) -> Timestamp {
    "2026-05-08T10:00:00Z".parse::<Timestamp>().unwrap()
        + SignedDuration::from_secs(10 * i64::try_from(n).unwrap())
}

fn captured(desk: u64, number: u32, run: RunId, milligrams: i64, at: Timestamp) -> CapturedPortion {
    CapturedPortion {
        id: PortionId {
            device: DeviceId(desk),
            epoch: Epoch(1),
            number,
        },
        run,
        at: Uptime::from_millis(u64::from(number) * 1_000),
        unix: Some(UnixMillis::from_millis(at.as_millisecond())),
        mode: Mode::Taking,
        mass: Mass::from_milligrams(milligrams),
        goal: goal(30),
        temperature: None,
        replaces: None,
        doubts: Doubts::NONE,
        uncertainty: None,
        left: None,
        chain_link: None,
    }
}

/// The `n`th portion on record here, in an order that is the same everywhere.
fn nth_portion(store: &Store, n: usize) -> Option<PortionId> {
    let mut ids: Vec<PortionId> = store
        .portions(&Query::default())
        .unwrap()
        .into_iter()
        .map(|portion| portion.id)
        // Of what was imported the numbers are each store's own.
        .filter(|id| id.device.0 <= 3)
        .collect();
    ids.sort_by_key(|id| (id.device.0, id.number));
    (!ids.is_empty()).then(|| ids[n % ids.len()])
}

fn nth_tin(store: &Store, n: usize) -> Option<TinId> {
    let tins = store.tins().unwrap();
    (!tins.is_empty()).then(|| tins[n % tins.len()].id)
}

/// The tin of the one that was opened at the same moment.
fn same_tin(here: &Store, tin: TinId, there: &Store) -> TinId {
    let opened = here.tin(tin).unwrap().opened;
    let tins = there.tins().unwrap();
    tins.iter().find(|tin| tin.opened == opened).unwrap().id
}

fn same_batch(here: &Store, batch: BatchId, there: &Store) -> BatchId {
    let begun = |store: &Store, id| {
        let batch = store.batch(id).unwrap();
        batch.entries().next().map(|(entry, _)| entry.at)
    };
    let at = begun(here, batch);
    let batches = there.batches().unwrap();
    batches
        .iter()
        .find(|(id, _)| begun(there, *id) == at)
        .unwrap()
        .0
}

fn log() -> LogName {
    LogName::new("name", "Walk-in").unwrap()
}

/// Does the same at a desktop and at the one that is told all of it. What the desktop can do
/// by what it knows and the one refuses, since it knows more, changes nothing there.
fn happens(event: &Event, at: Timestamp, desk: &mut Desk, one: &mut Store, runs: &mut Runs) {
    let here = &mut desk.store;
    match event {
        Event::Dish(d, target, cost) => {
            let cost = cost.map(|c| {
                CostPerMass::per_kilogram(Money::parse("cost", &format!("{c} EUR")).unwrap())
            });
            for store in [here, one] {
                store
                    .set_dish(&dish(*d), goal(*target), Mode::Taking, cost, at)
                    .unwrap();
            }
        }
        Event::Retired(d) => {
            if here.retire_dish(&dish(*d), at).is_ok() {
                let _ = one.retire_dish(&dish(*d), at);
            }
        }
        Event::Run(d, cook, from_tin) => {
            let Ok(known) = here.known_dish(&dish(*d)) else {
                return;
            };
            let tin = here
                .tins()
                .unwrap()
                .into_iter()
                .find(|tin| *from_tin && tin.dish == known.name)
                .map(|tin| tin.id);
            let mut new = NewRun {
                dish: known.name,
                goal: goal(30),
                mode: Mode::Taking,
                cook: Some(Cook::new("cook", ["AB", "CD"][*cook]).unwrap()),
                tin,
            };
            let run = here.begin_run(&new, at).unwrap().id;
            new.tin = tin.map(|tin| same_tin(here, tin, one));
            runs.insert(run, one.begin_run(&new, at).unwrap().id);
            desk.run = Some(run);
            desk.last = None;
        }
        Event::Ended => {
            let Some(run) = desk.run.take() else { return };
            here.end_run(run, at).unwrap();
            one.end_run(runs[&run], at).unwrap();
        }
        Event::Goal(target) => {
            let Some(run) = desk.run else { return };
            here.set_run_goal(run, goal(*target)).unwrap();
            one.set_run_goal(runs[&run], goal(*target)).unwrap();
        }
        Event::Portion(mass) | Event::Corrected(mass) => {
            let Some(run) = desk.run else { return };
            let corrects = matches!(event, Event::Corrected(_))
                .then_some(desk.last)
                .flatten();
            let number = u32::try_from(at.duration_since(moment(0)).as_secs()).unwrap() + 1;
            let mut portion = captured(desk.device, number, run, mass * 1_000, at);
            portion.replaces = corrects;
            here.record(&portion, None, at).unwrap();
            portion.run = runs[&run];
            one.record(&portion, None, at).unwrap();
            desk.last = Some(number);
        }
        Event::Struck(n) => {
            let Some(id) = nth_portion(here, *n) else {
                return;
            };
            let reason = StrikeReason::new("reason", &format!("dropped at {at}")).unwrap();
            if here.strike(id, &reason, at).is_ok() {
                let _ = one.strike(id, &reason, at);
            }
        }
        Event::Lifted(n) => {
            let Some(id) = nth_portion(here, *n) else {
                return;
            };
            if here.lift_strike(id, at).is_ok() {
                let _ = one.lift_strike(id, at);
            }
        }
        Event::Tin(d) => {
            let Ok(known) = here.known_dish(&dish(*d)) else {
                return;
            };
            let tin = NewTin {
                kind: TinKind::ALL[0],
                dish: known.name,
                label: format!("lot of {at}"),
                net: grams(900),
                price: Some(Money::parse("price", "18 EUR").unwrap()),
            };
            here.open_tin(&tin, at).unwrap();
            one.open_tin(&tin, at).unwrap();
        }
        Event::TinClosed(n) => {
            let Some(tin) = nth_tin(here, *n) else { return };
            let there = same_tin(here, tin, one);
            here.close_tin(tin, at).unwrap();
            one.close_tin(there, at).unwrap();
        }
        Event::Yield(n, mass) => {
            let Some(tin) = nth_tin(here, *n) else { return };
            let there = same_tin(here, tin, one);
            here.note_yield(tin, Some(Loss::Trim), grams(*mass), at)
                .unwrap();
            one.note_yield(there, Some(Loss::Trim), grams(*mass), at)
                .unwrap();
        }
        Event::YieldStruck(n) => {
            let Some(tin) = nth_tin(here, *n) else { return };
            let there = same_tin(here, tin, one);
            let lines = here.yield_lines(tin).unwrap();
            let Some(line) = lines.first() else { return };
            let same = one.yield_lines(there).unwrap();
            let same = same.iter().find(|other| other.at == line.at).unwrap().id;
            if here.strike_yield(line.id, at).is_ok() {
                let _ = one.strike_yield(same, at);
            }
        }
        Event::Covers(n) => {
            for store in [here, one] {
                store.note_covers(DAY, *n, at).unwrap();
            }
        }
        Event::Left(d, n) => {
            if here.note_left_over(DAY, &dish(*d), *n, at).is_ok() {
                one.note_left_over(DAY, &dish(*d), *n, at).unwrap();
            }
        }
        Event::Out(d, n) => {
            if here.count_out(DAY, &dish(*d), *n, at).is_ok() {
                one.count_out(DAY, &dish(*d), *n, at).unwrap();
            }
        }
        Event::Menu(m, of_day) => {
            let day = of_day.then_some(DAY);
            for store in [here, one] {
                store.keep_menu(day, &format!("# menu {m}\n"), at).unwrap();
            }
        }
        Event::Tick(step, done) => {
            let what = if *done {
                Happened::Done
            } else {
                Happened::Undone
            };
            for store in [here, one] {
                store
                    .tell_step(DAY, &format!("step {step}"), at, what, at)
                    .unwrap();
            }
        }
        Event::Goods(n) => {
            for store in [here, one] {
                store.keep_goods(&format!("# goods {n}\n"), at).unwrap();
            }
        }
        Event::Counted(packs) => {
            let told = || GoodsTold::Ordered {
                packs: *packs,
                comes: DAY,
            };
            for store in [here, one] {
                store.tell_goods("flour", at, told(), at).unwrap();
            }
        }
        Event::TakenBack(back) => {
            let orders = here.placed_orders(None).unwrap();
            let Some(last) = orders.first() else { return };
            let same = one.placed_orders(None).unwrap();
            let same = same
                .iter()
                .find(|other| other.at == last.at)
                .unwrap()
                .number;
            let reason = StrikeReason::new("reason", &format!("twice, at {at}")).unwrap();
            if *back {
                if here.take_back_orders(&[last.number], &reason, at).is_ok() {
                    let _ = one.take_back_orders(&[same], &reason, at);
                }
            } else if here.put_orders_back(&[last.number], at).is_ok() {
                let _ = one.put_orders_back(&[same], at);
            }
        }
        Event::Melt(d, seconds) => {
            let limit = Some(SignedDuration::from_secs(*seconds));
            if here.set_melt_limit(&dish(*d), limit, at).is_ok() {
                one.set_melt_limit(&dish(*d), limit, at).unwrap();
            }
        }
        Event::Batch => {
            let titled = Entry {
                at,
                what: What::Titled {
                    title: "Brine".to_owned(),
                },
            };
            for store in [here, one] {
                let id = store.begin_batch(at).unwrap();
                store.add_to_batch(id, &titled).unwrap();
            }
        }
        Event::BatchWeighed(n, mass, new) => {
            let batches = here.batches().unwrap();
            if batches.is_empty() {
                return;
            }
            let (id, batch) = &batches[n % batches.len()];
            let there = same_batch(here, *id, one);
            // What is weighed again is named by its first weighing.
            let free = batch.free_slot();
            let slot = if *new || free.0 == 0 { free } else { Slot(0) };
            let weighed = |slot| Entry {
                at,
                what: What::Weighed {
                    slot,
                    mass: grams(*mass),
                    temperature: None,
                },
            };
            here.add_to_batch(*id, &weighed(slot)).unwrap();
            let slot = if slot == free {
                one.batch(there).unwrap().free_slot()
            } else {
                let first = batch.entries().find_map(|(entry, _)| match entry.what {
                    What::Weighed { slot: Slot(0), .. } => Some(entry.at),
                    _ => None,
                });
                let same = one.batch(there).unwrap();
                let same = same.entries().find_map(|(entry, _)| match entry.what {
                    What::Weighed { slot, .. } if Some(entry.at) == first => Some(slot),
                    _ => None,
                });
                same.unwrap()
            };
            one.add_to_batch(there, &weighed(slot)).unwrap();
        }
        Event::BatchStruck(n) => {
            let batches = here.batches().unwrap();
            if batches.is_empty() {
                return;
            }
            let (id, batch) = &batches[n % batches.len()];
            let there = same_batch(here, *id, one);
            let line = batch.entries().count() - 1;
            let last = batch.entries().last().unwrap().0.at;
            let struck = |line: usize| Entry {
                at,
                what: What::Struck {
                    line: u32::try_from(line).unwrap(),
                    reason: "spilt".to_owned(),
                },
            };
            if here.add_to_batch(*id, &struck(line)).is_ok() {
                let same = one.batch(there).unwrap();
                let line = same
                    .entries()
                    .position(|(entry, _)| entry.at == last)
                    .unwrap();
                let _ = one.add_to_batch(there, &struck(line));
            }
        }
        Event::Heat(millicelsius) => {
            let point = LogPoint {
                at,
                temperature: Temperature::from_millicelsius(i32::try_from(*millicelsius).unwrap()),
            };
            let mut of = HeatLog::new("Walk-in");
            of.push(point).unwrap();
            for store in [here, one] {
                let id = store
                    .open_heat_log(&log(), SignedDuration::from_mins(5), moment(0))
                    .unwrap();
                store.import_heat(id, &of).unwrap();
            }
        }
        Event::HeatMarked => {
            let marker = Marker {
                at,
                text: format!("door open at {at}"),
            };
            if here.mark_heat(&log(), &marker, at).is_ok() {
                one.mark_heat(&log(), &marker, at).unwrap();
            }
        }
        Event::HeatCorrected => {
            let by = Amendment::Add(Temperature::from_millicelsius(500));
            let correction = Correction::new(moment(0), at, by, "in ice water").unwrap();
            if here.correct_heat(&log(), &correction, at).is_ok() {
                one.correct_heat(&log(), &correction, at).unwrap();
            }
        }
        Event::Day(hour) => {
            let begins = DayBegins::parse("day", &format!("0{hour}:00")).unwrap();
            for store in [here, one] {
                store.set_day_begins(begins, at).unwrap();
            }
        }
        Event::Figures(own) => {
            let words = if *own {
                CookFigures::Hidden
            } else {
                CookFigures::default()
            };
            for store in [here, one] {
                store.set_cook_figures(words, at).unwrap();
            }
        }
        Event::FirstOrder => {
            for store in [here, one] {
                store.open_service(DAY, at).unwrap();
            }
        }
        Event::Tested(milligrams) => {
            let of = InstrumentMoment {
                device: DeviceId(desk.device),
                epoch: Epoch(1),
                at: Uptime::from_millis(u64::try_from(at.as_millisecond()).unwrap()),
            };
            let test = SelfTest {
                known: grams(200),
                indicated: Mass::from_milligrams(*milligrams),
                limit: Mass::from_milligrams(50),
                uncertainty: Mass::from_milligrams(5),
            };
            for store in [here, one] {
                store.record_test(of, &test, at).unwrap();
            }
        }
        Event::Vessel(water) => {
            let filling = Filling {
                at,
                water: grams(*water),
                temperature: Temperature::from_millicelsius(18_000),
                material: VesselMaterial::Steel,
                doubt: Doubt {
                    mass: grams(1),
                    level: Mass::from_milligrams(100),
                    temperature: Temperature::from_millicelsius(500),
                },
                empty: None,
            };
            let name = VesselName::new("vessel", "Tall jug").unwrap();
            for store in [here, one] {
                store.set_vessel(&name, &filling).unwrap();
            }
        }
        Event::Picture(n) => {
            let pictured = Pictured::new("Oyster", &format!("plate {n}")).unwrap();
            for store in [here, one] {
                store.add_picture(&pictured, &[*n, 0xff], at).unwrap();
            }
        }
        Event::PictureOff => {
            let shown = here.pictures(None).unwrap();
            let Some(first) = shown.first() else { return };
            let same = one.pictures(None).unwrap();
            here.take_picture_off(first.id, at).unwrap();
            if let Some(same) = same.iter().find(|other| other.added == first.added) {
                one.take_picture_off(same.id, at).unwrap();
            }
        }
        Event::Imported(mass) => {
            let weighing = || Weighing {
                time: moment(0) - SignedDuration::from_hours(24 + mass),
                mass: grams(*mass),
                dish: dish(0),
                cook: None,
                goal: goal(30),
                mode: Mode::Taking,
            };
            let calendar = ServiceCalendar::new(TimeZone::UTC, DayBegins::default());
            for store in [here, one] {
                store
                    .import([Ok::<_, StoreError>(weighing())], 1, &calendar, at)
                    .unwrap();
            }
        }
        Event::File(n) => {
            let file = PlainFile {
                name: format!("formulas/{}.toml", n % 2),
                text: format!("# at {at}\n"),
            };
            for store in [here, one] {
                store.note_plain_file(&file, at).unwrap();
            }
        }
        Event::Gather => {}
    }
}

/// Every figure that a store gives, with the numbers that are its own left out.
fn figures(store: &mut Store) -> String {
    let mut all = String::new();
    let mut say =
        |what: &str, said: &dyn std::fmt::Debug| writeln!(all, "{what}: {said:?}").unwrap();
    let mut dishes = store.dishes().unwrap();
    for dish in &mut dishes {
        // One that two took off the list at once is off it since the later moment.
        dish.retired = dish.retired.map(|_| Timestamp::UNIX_EPOCH);
    }
    say("dishes", &dishes);
    for dish in store.dishes().unwrap() {
        for version in store.dish_versions(&dish.name).unwrap() {
            say("version", &(version.since, version.goal, version.cost));
        }
        say("left", &store.left_over(DAY, &dish.name).unwrap());
        say("melt", &store.melt_limit(&dish.name).unwrap());
    }
    let mut portions = store.portions(&Query::default()).unwrap();
    // A run that was imported began before it was put on record.
    portions
        .sort_by_key(|portion| (portion.id.device.0 > 3).then_some((portion.time, portion.mass)));
    for portion in &portions {
        let run = store.run(portion.run).unwrap().unwrap();
        say(
            "portion",
            &(
                &portion.dish,
                portion.mass,
                portion.goal,
                portion.time,
                &portion.cost,
            ),
        );
        say(
            "counts",
            &(
                portion.counts(),
                &portion.struck,
                &run.cook,
                run.started,
                run.ended,
                run.goal,
            ),
        );
        say("tin", &run.tin.map(|tin| store.tin(tin).unwrap().opened));
    }
    say("spread", &store.spread(&Query::default()).unwrap());
    for by in [By::Dish, By::Cook, By::Hour] {
        let mut tallies = store.tallies(by, &TimeZone::UTC, None, None).unwrap();
        // In no order that means anything.
        tallies.sort_by_key(|tally| format!("{tally:?}"));
        say("tallies", &tallies);
    }
    say("cooks", &store.cooks().unwrap());
    for tin in store.tins().unwrap() {
        say(
            "tin",
            &(&tin.label, tin.net, tin.price, tin.opened, tin.closed),
        );
        say("taken", &store.taken_from(tin.id).unwrap());
        for line in store.yield_lines(tin.id).unwrap() {
            say("yield", &(line.loss, line.mass, line.at, line.struck));
        }
    }
    say("covers", &store.covers(DAY).unwrap());
    say("out", &store.gone_out(DAY).unwrap());
    say("menu", &store.menu(DAY).unwrap());
    say("menus", &store.menus().unwrap());
    say("ticks", &store.told_steps(DAY).unwrap());
    say("goods", &store.goods().unwrap());
    say("told goods", &store.told_goods("flour").unwrap());
    for order in store.placed_orders(None).unwrap() {
        say(
            "order",
            &(order.at, order.packs, order.taken_back.is_some()),
        );
    }
    for (_, batch) in store.batches().unwrap() {
        say("batch", &batch.entries().collect::<Vec<_>>());
        say("weighed in", &batch.weighed_in());
    }
    for known in store.heat_logs().unwrap() {
        let log = store
            .heat_log(&known.name, Timestamp::MIN, Timestamp::MAX)
            .unwrap();
        say("log", &(known.name, known.longest_step, known.last));
        say("recorded", &log.recorded);
        say("corrected", &log.corrected());
    }
    say("day", &store.day_begins().unwrap());
    say("figures", &store.cook_figures().unwrap());
    say("service", &store.service(DAY).unwrap());
    say("tests", &store.scale_findings().unwrap());
    say("vessels", &store.vessels().unwrap());
    for picture in store.pictures(None).unwrap() {
        say("picture", &(picture.pictured, picture.image, picture.added));
    }
    say("files", &store.plain_files().unwrap());
    all
}

fn as_one(events: &[(usize, Event)]) {
    let shared = tempfile::tempdir().unwrap();
    let mut desks: Vec<Desk> = (1..=3).map(Desk::new).collect();
    let mut one = Desk::new(0);
    let mut runs = Runs::new();
    for (n, (desk, event)) in events.iter().enumerate() {
        let desk = &mut desks[*desk];
        if matches!(event, Event::Gather) {
            desk.gather(shared.path(), moment(n));
        } else {
            happens(event, moment(n), desk, &mut one.store, &mut runs);
        }
    }
    let end = moment(events.len());
    for _ in 0..2 {
        for desk in &mut desks {
            desk.gather(shared.path(), end);
        }
    }
    let expected = figures(&mut one.store);
    for desk in &mut desks {
        let found = figures(&mut desk.store);
        if found != expected {
            let differs = found
                .lines()
                .zip(expected.lines())
                .find(|(one, other)| one != other);
            panic!("desk {}: {differs:#?}", desk.device);
        }
        assert!(desk.store.examine().unwrap().is_sound());
        // Nothing is left to say or to hear.
        assert_eq!(desk.gather(shared.path(), end), 0);
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, ..ProptestConfig::default() })]

    #[test]
    fn three_desktops_in_any_order_hold_what_one_would(
        events in proptest::collection::vec((0..3usize, event()), 1..80)
    ) {
        let mut first: Vec<(usize, Event)> = (0..3)
            .map(|d| (0, Event::Dish(d, 30, Some(4))))
            .collect();
        first.extend((0..3).map(|desk| (desk, Event::Gather)));
        first.extend(events);
        as_one(&first);
    }
}

fn desk_with_dish(device: u64, shared: &Path) -> Desk {
    let mut desk = Desk::new(device);
    let mut one = Desk::new(0);
    happens(
        &Event::Dish(0, 30, None),
        moment(0),
        &mut desk,
        &mut one.store,
        &mut Runs::new(),
    );
    desk.gather(shared, moment(0));
    desk
}

fn weighs(desk: &mut Desk, at: Timestamp) {
    let mut one = Desk::new(0);
    one.store
        .set_dish(&dish(0), goal(30), Mode::Taking, None, moment(0))
        .unwrap();
    let mut runs = Runs::new();
    happens(
        &Event::Run(0, 0, false),
        at,
        desk,
        &mut one.store,
        &mut runs,
    );
    happens(&Event::Portion(31), at, desk, &mut one.store, &mut runs);
}

fn portions(store: &Store) -> usize {
    store.portions(&Query::default()).unwrap().len()
}

fn journals(shared: &Path) -> Vec<std::path::PathBuf> {
    let mut found: Vec<_> = std::fs::read_dir(shared)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .collect();
    found.sort();
    found
}

/// A file that another program is half done copying: cut anywhere, then whole.
#[test]
fn a_half_copied_journal_is_said_and_taken_when_it_is_whole() {
    let shared = tempfile::tempdir().unwrap();
    let mut pass = desk_with_dish(1, shared.path());
    weighs(&mut pass, moment(1));
    pass.gather(shared.path(), moment(2));
    let journal = journals(shared.path()).remove(0);
    let whole = std::fs::read(&journal).unwrap();
    let cuts = (1..whole.len()).step_by(97).chain([whole.len() - 1]);
    for cut in cuts {
        let mut prep = Desk::new(2);
        let there = tempfile::tempdir().unwrap();
        let copied = there.path().join(journal.file_name().unwrap());
        std::fs::write(&copied, &whole[..cut]).unwrap();
        let ends_at_line = whole[cut - 1] == b'\n';
        let gathered = prep
            .store
            .gather(there.path(), Gathering::Both, moment(3))
            .unwrap();
        assert_eq!(gathered.torn.is_empty(), ends_at_line, "{cut}");
        std::fs::write(&copied, &whole).unwrap();
        let gathered = prep
            .store
            .gather(there.path(), Gathering::Both, moment(4))
            .unwrap();
        assert!(gathered.torn.is_empty() && gathered.waiting == 0, "{cut}");
        assert_eq!(portions(&prep.store), 1, "{cut}");
    }
}

/// A byte that turned on the way is found by its line's checksum and nothing behind it is
/// taken until the file is right.
#[test]
fn a_line_that_was_changed_on_the_way_is_not_taken() {
    let shared = tempfile::tempdir().unwrap();
    let mut pass = desk_with_dish(1, shared.path());
    weighs(&mut pass, moment(1));
    pass.gather(shared.path(), moment(2));
    let journal = journals(shared.path()).remove(0);
    let whole = std::fs::read_to_string(&journal).unwrap();
    assert!(whole.contains("\"mass\":31000000"));
    std::fs::write(
        &journal,
        whole.replace("\"mass\":31000000", "\"mass\":37000000"),
    )
    .unwrap();
    let mut prep = Desk::new(2);
    let gathered = prep
        .store
        .gather(shared.path(), Gathering::OnlyTaken, moment(3))
        .unwrap();
    assert_eq!((gathered.torn.len(), portions(&prep.store)), (1, 0));
    std::fs::write(&journal, whole).unwrap();
    prep.store
        .gather(shared.path(), Gathering::OnlyTaken, moment(4))
        .unwrap();
    assert_eq!(portions(&prep.store), 1);
    assert_eq!(journals(shared.path()).len(), 1, "only looked on");
}

/// The store goes back to what it was before the last evening; what it told in the meantime
/// comes back to it out of its own journal.
#[test]
fn a_store_put_back_from_a_copy_gets_what_it_told_back() {
    let shared = tempfile::tempdir().unwrap();
    let mut pass = desk_with_dish(1, shared.path());
    let copy = shared.path().join("copy.sqlite3");
    pass.store.backup(&copy).unwrap();
    weighs(&mut pass, moment(1));
    pass.gather(shared.path(), moment(2));
    let folder = tempfile::tempdir().unwrap();
    let data = DataFolder::choose(Some(folder.path())).unwrap();
    evenhand_store::restore(&data, &copy, moment(3)).unwrap();
    let mut restored = Store::open(&data).unwrap();
    let gathered = restored
        .gather(shared.path(), Gathering::Both, moment(4))
        .unwrap();
    assert!(gathered.renumbered);
    assert_eq!(portions(&restored), 1);
    // Nothing is taken twice, at either, however often they meet.
    pass.gather(shared.path(), moment(5));
    restored
        .gather(shared.path(), Gathering::Both, moment(6))
        .unwrap();
    let again = restored
        .gather(shared.path(), Gathering::Both, moment(7))
        .unwrap();
    assert_eq!((again.taken, again.told, again.renumbered), (0, 0, false));
    assert_eq!((portions(&pass.store), portions(&restored)), (1, 1));
}

#[test]
fn of_a_setting_said_at_both_the_later_counts_and_the_other_is_named() {
    let shared = tempfile::tempdir().unwrap();
    let (mut pass, mut prep) = (Desk::new(1), Desk::new(2));
    let begins = |text| DayBegins::parse("day", text).unwrap();
    pass.store
        .set_day_begins(begins("03:00"), moment(1))
        .unwrap();
    prep.store
        .set_day_begins(begins("05:00"), moment(2))
        .unwrap();
    pass.gather(shared.path(), moment(3));
    let gathered = prep
        .store
        .gather(shared.path(), Gathering::Both, moment(4))
        .unwrap();
    assert_eq!(gathered.overruled.len(), 1);
    assert_eq!(gathered.overruled[0].said, "03:00");
    pass.gather(shared.path(), moment(5));
    for store in [&pass.store, &prep.store] {
        assert_eq!(store.day_begins().unwrap(), begins("05:00"));
        assert_eq!(store.overruled().unwrap()[0].said, "03:00");
    }
}

#[test]
fn a_made_up_night_is_never_gathered() {
    let shared = tempfile::tempdir().unwrap();
    let mut desk = Desk::new(1);
    desk.store.set_made_up_night(7, moment(0)).unwrap();
    let refused = desk.store.gather(shared.path(), Gathering::Both, moment(1));
    assert!(matches!(refused, Err(StoreError::MadeUpNight)));
    assert!(journals(shared.path()).is_empty());
}
