//! Any bytes at all in the flash, and a sound flash with some bytes changed: an
//! instrument starts from it, with what can be read, or says that something
//! cannot; and what it keeps from then on it has after the next start.
#![no_main]

use evenhand_firmware::outbox::{Outbox, Unnamed};
use evenhand_firmware::remembered::Remembered;
use evenhand_firmware::sensor::Counts;
use evenhand_firmware::signal::{Calibration, Point};
use evenhand_firmware::storage::{FlashStore, Persistence};
use evenhand_protocol::report::Doubts;
use evenhand_protocol::{
    DeviceId, Epoch, Goal, Mass, Mode, PortionId, RunId, Tolerance, UnixMillis, Uptime,
};
use evenhand_simulator::flash::{LAYOUT, SIZE, SimulatedFlash};
use libfuzzer_sys::fuzz_target;
use std::sync::LazyLock;

const DEVICE: DeviceId = DeviceId(0xE5);

fn portion(number: u32) -> Unnamed {
    let goal = Goal::new(
        Mass::from_grams(30),
        Tolerance::symmetric(Mass::from_grams(1)),
    )
    .expect("a goal");
    Unnamed {
        run: RunId(7),
        at: Uptime::from_millis(u64::from(number) * 9_000),
        unix: Some(UnixMillis::from_millis(1_900_000_000_000)),
        mode: Mode::Taking,
        mass: Mass::from_milligrams(29_500 + i64::from(number)),
        goal,
        temperature: None,
        replaces: None,
        doubts: Doubts::NONE,
        uncertainty: Some(Mass::from_milligrams(40)),
        left: Some(Mass::from_grams(900)),
    }
}

fn calibration(offset: i32) -> Calibration {
    Calibration::from_points(&[
        Point::exact(Mass::ZERO, Counts(84_000 + offset)),
        Point::exact(Mass::from_grams(1_000), Counts(2_181_000 + offset)),
    ])
    .expect("two points")
}

/// The flash of an instrument that has worked for a while.
static SOUND: LazyLock<Vec<u8>> = LazyLock::new(|| {
    let flash_store = FlashStore::new(SimulatedFlash::blank(), LAYOUT).expect("the layout fits");
    let (mut persistence, boot_state) = Persistence::<_, 64>::wake(flash_store, 1);
    let mut outbox = Outbox::<64>::new(DEVICE, boot_state.epoch);
    persistence.keep_calibration(&calibration(0)).expect("room");
    persistence
        .keep_clock(Some((boot_state.epoch, 1_900_000_000_000)))
        .expect("room");
    for number in 1..300 {
        let mut remembered = Remembered::NOTHING;
        remembered.own_runs = number;
        persistence.keep_remembered(&remembered).expect("room");
        outbox.keep(portion(number));
        persistence.keep_portions(&outbox).expect("room");
        // A desktop is there but for the last few.
        if number < 290 {
            outbox.acknowledge(PortionId {
                device: DEVICE,
                epoch: boot_state.epoch,
                number,
            });
            persistence.keep_portions(&outbox).expect("room");
        }
    }
    persistence.into_flash_store().into_flash().bytes().to_vec()
});

fn image(bytes: &[u8]) -> Vec<u8> {
    match bytes.split_first() {
        Some((kind, rest)) if kind % 2 == 0 => {
            // The first half in the records, the other in the portions.
            let mut image = vec![0xFF; SIZE];
            let (records, portions) = rest.split_at(rest.len() / 2);
            for (part, bytes) in [(LAYOUT.records, records), (LAYOUT.portions, portions)] {
                let part = part.start as usize..part.end as usize;
                for (place, byte) in image[part].iter_mut().zip(bytes) {
                    *place = *byte;
                }
            }
            image
        }
        Some((_, rest)) => {
            let mut image = SOUND.clone();
            for change in rest.chunks_exact(4) {
                // All of the parts are in reach, in steps of a word and a half.
                let place = usize::from(u16::from_be_bytes([change[0], change[1]])) * 6 % SIZE;
                match change[2] % 4 {
                    0 => image[place] = change[3],
                    1 => image[place] &= change[3],
                    2 => image[place] ^= change[3],
                    _ => {
                        let end = (place + usize::from(change[3]) * 16).min(SIZE);
                        image[place..end].fill(0xFF);
                    }
                }
            }
            image
        }
        None => vec![0xFF; SIZE],
    }
}

fuzz_target!(|bytes: &[u8]| {
    let flash = SimulatedFlash::of_bytes(&image(bytes));
    let flash_store = FlashStore::new(flash, LAYOUT).expect("the layout fits");
    let (mut persistence, boot_state) = Persistence::<_, 64>::wake(flash_store, 0x5EED);
    let mut outbox = Outbox::<64>::new(DEVICE, boot_state.epoch);
    let restored = persistence.restore(&mut outbox);
    let waiting: Vec<_> = outbox.iter().collect();
    assert!(restored.is_ok() || waiting.len() <= 64);

    // A desktop takes all that waits; then it works on.
    for portion in &waiting {
        outbox.acknowledge(portion.id);
    }
    outbox.keep(portion(1));
    let mut remembered = Remembered::NOTHING;
    remembered.own_runs = 4_711;
    persistence
        .keep_portions(&outbox)
        .expect("portions are kept");
    persistence
        .keep_calibration(&calibration(5))
        .expect("the calibration is kept");
    persistence
        .keep_remembered(&remembered)
        .expect("the settings are kept");
    persistence
        .keep_clock(Some((boot_state.epoch, 1_900_000_000_000)))
        .expect("the clock is kept");
    let mine = outbox.iter().last().expect("it has just been kept");

    let flash_store = persistence.into_flash_store();
    let (mut persistence, again) = Persistence::<_, 64>::wake(flash_store, 0xFEED);
    assert!(!again.failed);
    assert_ne!(again.epoch, boot_state.epoch);
    assert_ne!(again.epoch, Epoch(0x8000_FEED));
    assert_eq!(again.calibration, Some(calibration(5)));
    assert_eq!(again.remembered, remembered);
    let mut outbox = Outbox::<64>::new(DEVICE, again.epoch);
    persistence.restore(&mut outbox).expect("portions are read");
    assert!(outbox.iter().any(|portion| portion.id == mine.id));
});
