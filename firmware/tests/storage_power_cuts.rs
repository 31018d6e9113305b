//! A day's work in flash, with the power cut at every single write and erase.

use crate::storage_flash::{CUTS, Flash, PAGE};
use evenhand_firmware::outbox::{Outbox, Unnamed};
use evenhand_firmware::remembered::Remembered;
use evenhand_firmware::sensor::Counts;
use evenhand_firmware::signal::{Calibration, Point};
use evenhand_firmware::storage::{FlashStore, Layout, LayoutError, Persistence, StorageError};
use evenhand_firmware::thermocouple::Kind;
use evenhand_protocol::report::Doubts;
use evenhand_protocol::{
    CapturedPortion, ChainLink, DeviceId, Epoch, Goal, Mass, Mode, PortionId, RunId, Temperature,
    Tolerance, UnixMillis, Uptime,
};
use std::collections::BTreeMap;

const DEVICE: DeviceId = DeviceId(0xE5);
const PLACES: usize = 12;
const RECORD_PAGES: usize = 2;
const PORTION_PAGES: usize = 4;
const ACKNOWLEDGED_PAGES: usize = 2;

fn layout() -> Layout {
    let records = (RECORD_PAGES * PAGE) as u32;
    let portions = records + (PORTION_PAGES * PAGE) as u32;
    Layout {
        records: 0..records,
        portions: records..portions,
        acknowledged: portions..portions + (ACKNOWLEDGED_PAGES * PAGE) as u32,
    }
}

fn flash() -> Flash {
    Flash::new(RECORD_PAGES + PORTION_PAGES + ACKNOWLEDGED_PAGES)
}

fn goal(grams: i64) -> Goal {
    Goal::new(
        Mass::from_grams(grams),
        Tolerance::symmetric(Mass::from_grams(1)),
    )
    .unwrap()
}

fn calibration(step: u32) -> Calibration {
    Calibration::from_points(&[
        Point::exact(Mass::ZERO, Counts(84_000 + step as i32)),
        Point::exact(Mass::from_grams(1_000), Counts(2_181_000 + step as i32)),
    ])
    .unwrap()
}

fn remembered(step: u32) -> Remembered {
    let mut remembered = Remembered::NOTHING;
    remembered.goal = Some(goal(20 + i64::from(step % 50)));
    remembered.mode = if step.is_multiple_of(2) {
        Mode::Adding
    } else {
        Mode::Taking
    };
    remembered.run = Some(RunId(step));
    remembered.own_runs = step / 3;
    remembered.zero = Mass::from_milligrams(-100 + i64::from(step));
    remembered.set_probe(Kind::ALL[step as usize % 8]);
    remembered
}

fn unnamed(step: u32) -> Unnamed {
    Unnamed {
        run: RunId(step / 10),
        at: Uptime::from_millis(u64::from(step) * 12_000),
        unix: (!step.is_multiple_of(4))
            .then(|| UnixMillis::from_millis(1_900_000_000_000 + i64::from(step) * 12_000)),
        mode: Mode::Taking,
        mass: Mass::from_milligrams(29_500 + i64::from(step) * 7),
        goal: goal(30),
        temperature: Some(Temperature::from_millicelsius(4_000 + step as i32)),
        replaces: None,
        doubts: Doubts::NONE,
        uncertainty: Some(Mass::from_milligrams(40)),
        left: Some(Mass::from_grams(900)),
    }
}

/// The n-th oldest that waits.
fn waits<const N: usize>(outbox: &Outbox<N>, place: usize) -> Option<PortionId> {
    outbox.ids().nth(place)
}

/// One thing that happens in the day.
#[derive(Debug, Clone, Copy)]
enum Act {
    Capture,
    /// The desktop acknowledges the n-th oldest that waits.
    Acknowledge(usize),
    Settings,
    Calibrate,
    Clock,
    SwitchOff,
}

/// A day: two calibrations, settings that change, portions that wait for a
/// desktop that comes and goes, acknowledgements out of order, three starts.
fn day() -> Vec<Act> {
    let mut acts = vec![Act::Calibrate, Act::Settings];
    for round in 0..3 {
        acts.push(Act::Clock);
        for _ in 0..9 {
            acts.push(Act::Capture);
        }
        acts.extend([Act::Acknowledge(1), Act::Acknowledge(0), Act::Settings]);
        for _ in 0..9 {
            acts.extend([
                Act::Capture,
                Act::Acknowledge(2),
                Act::Settings,
                Act::Acknowledge(0),
            ]);
        }
        acts.push(if round == 1 {
            Act::Calibrate
        } else {
            Act::Settings
        });
        acts.push(Act::SwitchOff);
    }
    acts
}

/// What a test knows apart from the flash.
#[derive(Default)]
struct Truth {
    epochs: Vec<Epoch>,
    /// Portions that were said to be on record and are not acknowledged.
    waiting: Vec<CapturedPortion>,
    /// What the desktop has on record, with how often it came first.
    desktop: BTreeMap<PortionId, u32>,
    /// The same portions as they came, by their position in the hash chain.
    chain: BTreeMap<u32, CapturedPortion>,
    captured: Vec<PortionId>,
    /// The portion whose capture the power cut off.
    doubtful: Option<CapturedPortion>,
    /// The acknowledged portion that the power kept from being noted.
    maybe_noted: Option<PortionId>,
    /// Portions all acknowledged at once when the power went.
    again: Vec<CapturedPortion>,
    settings: Vec<Remembered>,
    calibrations: Vec<Calibration>,
}

impl Truth {
    /// The desktop records a portion once, however often it comes.
    fn record(&mut self, portion: CapturedPortion, step: u32) {
        self.desktop.entry(portion.id).or_insert(step);
        let link = portion.chain_link.unwrap();
        let there = *self.chain.entry(link.position).or_insert(portion);
        assert_eq!(there.id, portion.id, "two portions at one position");
    }

    /// What the desktop has is one chain from its start, over every power cut.
    fn is_one_chain(&self) -> bool {
        let mut next = Some(ChainLink::FIRST);
        self.chain.values().all(|portion| {
            let follows = portion.chain_link == next;
            next = portion.next_link();
            follows
        })
    }
}

struct Bench {
    persistence: Persistence<Flash, PLACES>,
    outbox: Outbox<PLACES>,
}

/// Power comes: what is on record must be the old state or the new.
fn boot(mut flash: Flash, truth: &mut Truth) -> Bench {
    flash.power_up();
    let flash_store = FlashStore::new(flash, layout()).unwrap();
    let (mut persistence, boot_state) = Persistence::<_, PLACES>::wake(flash_store, 99);
    assert!(!boot_state.failed);
    assert!(
        truth.epochs.iter().all(|epoch| *epoch < boot_state.epoch),
        "{:?} is not after {:?}",
        boot_state.epoch,
        truth.epochs
    );
    truth.epochs.push(boot_state.epoch);

    let mut outbox = Outbox::new(DEVICE, boot_state.epoch);
    persistence.restore(&mut outbox).unwrap();
    let there: Vec<CapturedPortion> = outbox.iter().collect();
    for portion in &there {
        let like = |known: &CapturedPortion| {
            // A portion may have been dated since.
            CapturedPortion {
                unix: portion.unix,
                ..*known
            } == *portion
        };
        let known = truth.waiting.iter().any(like)
            || truth.doubtful.as_ref().is_some_and(like)
            || truth.maybe_noted == Some(portion.id)
            || truth.again.iter().any(like);
        assert!(known, "{portion:?} is neither old nor new");
    }
    for portion in &truth.waiting {
        let times = there.iter().filter(|one| one.id == portion.id).count();
        assert_eq!(times, 1, "{portion:?}");
    }
    if let Some(portion) = truth.doubtful.take()
        && there.iter().any(|one| one.id == portion.id)
    {
        truth.captured.push(portion.id);
        truth.waiting.push(portion);
    }
    if let Some(id) = truth.maybe_noted.take()
        && let Some(portion) = there.iter().find(|one| one.id == id)
    {
        truth.waiting.push(*portion);
    }

    // The last said to be on record, or the one that was being written.
    let of_the_last_two = |n: usize| n.saturating_sub(2)..n;
    let settings = &truth.settings[of_the_last_two(truth.settings.len())];
    assert!(
        settings.contains(&boot_state.remembered)
            || truth.settings.len() < 2 && boot_state.remembered == Remembered::NOTHING,
        "{:?}",
        boot_state.remembered
    );
    let calibrations = &truth.calibrations[of_the_last_two(truth.calibrations.len())];
    match boot_state.calibration {
        Some(calibration) => assert!(calibrations.contains(&calibration)),
        None => assert!(truth.calibrations.len() < 2),
    }
    Bench {
        persistence,
        outbox,
    }
}

/// Lives the day on a flash, with power coming back after every cut. Returns
/// the flash and what is true.
fn live(flash: Flash) -> (Flash, Truth) {
    let mut truth = Truth::default();
    let mut flash = Some(flash);
    let mut bench: Option<Bench> = None;
    let mut step = 0;
    for act in day() {
        step += 1;
        let mut alive = match bench.take() {
            Some(bench) => bench,
            None => boot_until_it_stays(&mut flash, &mut truth),
        };
        let Bench {
            persistence,
            outbox,
        } = &mut alive;
        let mut keep = |outbox: &Outbox<PLACES>| persistence.keep_portions(outbox);
        let kept: Result<(), StorageError> = match act {
            Act::Capture => {
                let number = outbox.keep(unnamed(step));
                let portion = outbox.iter().last().filter(|_| number.is_some()).unwrap();
                let kept = keep(outbox);
                if kept.is_ok() {
                    truth.captured.push(portion.id);
                    truth.waiting.push(portion);
                } else {
                    truth.doubtful = Some(portion);
                }
                kept
            }
            Act::Acknowledge(place) => match waits(outbox, place) {
                None => Ok(()),
                Some(id) => {
                    let portion = outbox.iter().nth(place).unwrap();
                    truth.record(portion, step);
                    outbox.acknowledge(id);
                    let kept = keep(outbox);
                    truth.waiting.retain(|portion| portion.id != id);
                    if kept.is_err() {
                        truth.maybe_noted = Some(id);
                    }
                    kept
                }
            },
            Act::Settings => {
                truth.settings.push(remembered(step));
                persistence.keep_remembered(&remembered(step))
            }
            Act::Calibrate => {
                truth.calibrations.push(calibration(step));
                persistence.keep_calibration(&calibration(step))
            }
            Act::Clock => persistence.keep_clock(Some((
                *truth.epochs.last().unwrap(),
                1_900_000_000_000 + i64::from(step),
            ))),
            Act::SwitchOff => {
                flash = Some(alive.persistence.into_flash_store().into_flash());
                continue;
            }
        };
        match kept {
            Ok(()) => bench = Some(alive),
            Err(error) => {
                // Only a cut makes it fail, and it is told as what it is.
                assert_eq!(error, StorageError::Flash);
                let cut = alive.persistence.into_flash_store().into_flash();
                assert!(!cut.powered);
                flash = Some(cut);
            }
        }
    }
    // In the evening all that waits is sent; the power may go then, too.
    let mut flash = loop {
        let mut evening = match bench.take() {
            Some(bench) => bench,
            None => boot_until_it_stays(&mut flash, &mut truth),
        };
        let waiting: Vec<CapturedPortion> = evening.outbox.iter().collect();
        for portion in waiting {
            truth.record(portion, step);
            evening.outbox.acknowledge(portion.id);
        }
        let noted = evening.persistence.keep_portions(&evening.outbox);
        let left = evening.persistence.into_flash_store().into_flash();
        if noted.is_ok() {
            break left;
        }
        assert!(!left.powered);
        // What the desktop has may come once more.
        truth.again = core::mem::take(&mut truth.waiting);
        flash = Some(left);
    };
    flash.power_up();
    let mut flash_store = FlashStore::new(flash, layout()).unwrap();
    let mut left = 0;
    flash_store.portions(|_| left += 1).unwrap();
    assert_eq!(left, 0, "what was acknowledged is not sent again");
    (flash_store.into_flash(), truth)
}

/// A cut may fall into the start itself.
fn boot_until_it_stays(flash: &mut Option<Flash>, truth: &mut Truth) -> Bench {
    let mut flash = flash.take().unwrap_or_else(self::flash);
    if let Some((at, _)) = flash.cut
        && at >= flash.operations
    {
        let mut trial = flash.clone();
        let flash_store = FlashStore::new(&mut trial, layout()).unwrap();
        let (_, boot_state) = Persistence::<_, PLACES>::wake(flash_store, 7);
        if trial.powered {
            // Not in this start: keep the cut for later.
            let cut = flash.cut;
            let mut bench = boot(flash, truth);
            bench.persistence.vault_mut().flash_mut().cut = cut;
            return bench;
        }
        // Cut while it was counted: it says so, and its name is a random one.
        assert!(boot_state.failed);
        assert_eq!(boot_state.epoch, Epoch(0x8000_0007));
        flash = trial;
    }
    boot(flash, truth)
}

#[test]
fn a_day_without_a_cut_is_on_record_to_the_last_portion() {
    let (flash, truth) = live(flash());
    assert_eq!(truth.captured.len(), 54);
    assert!(
        truth
            .captured
            .iter()
            .all(|id| truth.desktop.contains_key(id))
    );
    assert_eq!(truth.chain.len(), 54);
    assert!(truth.is_one_chain());
    assert_eq!(
        truth.epochs,
        [Epoch(99), Epoch(100), Epoch(101), Epoch(102)]
    );
    // The day is long enough to erase every page.
    assert!(
        flash.erases.iter().all(|erases| *erases >= 1),
        "{:?}",
        flash.erases
    );
    assert!(flash.operations > 300, "{}", flash.operations);
}

#[test]
fn a_cut_at_any_write_or_erase_leaves_the_old_state_or_the_new() {
    let (whole, _) = live(flash());
    for cut in CUTS {
        for at in 0..whole.operations {
            let mut flash = flash();
            flash.cut = Some((at, cut));
            let (_, truth) = live(flash);
            for id in &truth.captured {
                assert!(
                    truth.desktop.contains_key(id),
                    "{id} is lost, cut {cut:?} at {at}"
                );
            }
            // At most the one portion that was being written never was.
            assert!(
                truth.desktop.len() >= 53,
                "{} portions, cut {cut:?} at {at}",
                truth.desktop.len()
            );
            assert_eq!(truth.desktop.len(), truth.captured.len());
            assert_eq!(truth.chain.len(), truth.desktop.len());
            assert!(truth.is_one_chain(), "cut {cut:?} at {at}");
        }
    }
}

#[test]
fn a_flash_full_of_noise_is_no_calibration() {
    for fill in [0x00, 0x5A, 0xA5] {
        let mut flash = flash();
        flash.bytes.fill(fill);
        let flash_store = FlashStore::new(flash, layout()).unwrap();
        let (mut persistence, boot_state) = Persistence::<_, PLACES>::wake(flash_store, 5);
        assert_eq!(boot_state.calibration, None);
        assert_eq!(boot_state.remembered, Remembered::NOTHING);
        let mut outbox: Outbox<PLACES> = Outbox::new(DEVICE, boot_state.epoch);
        let _ = persistence.restore(&mut outbox);
        assert!(outbox.is_empty());
    }
}

#[test]
fn a_flash_that_is_full_says_so_and_takes_more_when_there_is_place() {
    let flash_store = FlashStore::new(flash(), layout()).unwrap();
    let (mut persistence, boot_state) = Persistence::<_, 64>::wake(flash_store, 5);
    let mut outbox: Outbox<64> = Outbox::new(DEVICE, boot_state.epoch);
    let mut refused = None;
    for step in 0..64 {
        outbox.keep(unnamed(step)).unwrap();
        if let Err(error) = persistence.keep_portions(&outbox) {
            refused = Some(error);
            break;
        }
    }
    assert_eq!(refused, Some(StorageError::Full));
    let ids: Vec<PortionId> = outbox.ids().collect();
    for id in &ids[..ids.len() - 3] {
        outbox.acknowledge(*id);
    }
    persistence.keep_portions(&outbox).unwrap();
    let mut on_record = Vec::new();
    persistence
        .vault_mut()
        .portions(|portion| on_record.push(portion.id))
        .unwrap();
    assert_eq!(on_record, ids[ids.len() - 3..]);
}

#[test]
fn a_layout_that_does_not_fit_is_refused_by_name() {
    let page = PAGE as u32;
    let with = |records, portions, acknowledged| {
        let layout = Layout {
            records,
            portions,
            acknowledged,
        };
        FlashStore::new(flash(), layout).err()
    };
    let layout = |records, portions| with(records, portions, 0..0);
    assert_eq!(layout(0..page, page..3 * page), Some(LayoutError::Records));
    assert_eq!(
        layout(0..2 * page + 4, 3 * page..5 * page),
        Some(LayoutError::Records)
    );
    assert_eq!(
        layout(0..2 * page, 2 * page..90 * page),
        Some(LayoutError::Portions)
    );
    assert_eq!(
        layout(0..3 * page, 2 * page..4 * page),
        Some(LayoutError::Overlap)
    );
    assert_eq!(layout(0..2 * page, 2 * page..4 * page), None);
}

/// What `hardware-notes/flash-wear.md` reckons with.
#[test]
fn three_hundred_portions_a_day_wear_the_flash_as_the_notes_say() {
    // As on the board: four pages of 4 KiB for the portions, scaled down to
    // this flash's page: 32 pages of 512 bytes.
    let layout = Layout {
        records: 0..8 * PAGE as u32,
        portions: 8 * PAGE as u32..40 * PAGE as u32,
        acknowledged: 0..0,
    };
    let flash_store = FlashStore::new(Flash::new(40), layout).unwrap();
    let (mut persistence, boot_state) = Persistence::<_, 64>::wake(flash_store, 5);
    let mut outbox: Outbox<64> = Outbox::new(DEVICE, boot_state.epoch);
    for step in 0..300 * 30 {
        outbox.keep(unnamed(step)).unwrap();
        persistence.keep_portions(&outbox).unwrap();
        let id = waits(&outbox, 0).unwrap();
        outbox.acknowledge(id);
        persistence.keep_portions(&outbox).unwrap();
    }
    let flash = persistence.into_flash_store().into_flash();
    let bytes_a_portion = flash.written as f64 / (300.0 * 30.0);
    // A portion and its acknowledgement, and how the chain goes on.
    assert!(
        (96.0..112.0).contains(&bytes_a_portion),
        "{bytes_a_portion}"
    );
    let most = flash.erases[8..].iter().max().unwrap();
    let least = flash.erases[8..].iter().min().unwrap();
    assert!(most - least <= 1, "worn evenly");
    // Of 16 KiB: 300 portions of some 80 bytes, page ends included, fill 25 KB a day.
    let erases_a_page_a_day = f64::from(*most) / 30.0;
    assert!(
        (1.3..1.8).contains(&erases_a_page_a_day),
        "{erases_a_page_a_day}"
    );
}
