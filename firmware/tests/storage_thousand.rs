//! A thousand portions that nobody came for, in the flash that the RP2040 board
//! sets aside, and the last thousand that somebody did come for.

use embedded_storage::nor_flash::{
    ErrorType, MultiwriteNorFlash, NorFlash, NorFlashError, NorFlashErrorKind, ReadNorFlash,
};
use evenhand_firmware::outbox::{Outbox, Unnamed};
use evenhand_firmware::storage::{FlashStore, Layout, Persistence, StorageError};
use evenhand_protocol::report::Doubts;
use evenhand_protocol::{
    ChainLink, DeviceId, Epoch, Goal, Mass, Mode, RunId, Temperature, Tolerance, UnixMillis, Uptime,
};

/// As in `firmware/boards/pico/src/storage.rs` and `main.rs`.
const SECTOR: u32 = 4_096;
const PLACES: usize = 1_000;
const LAYOUT: Layout = Layout {
    records: 0..8 * SECTOR,
    portions: 8 * SECTOR..48 * SECTOR,
    acknowledged: 48 * SECTOR..88 * SECTOR,
};
const DEVICE: DeviceId = DeviceId(u64::MAX);

/// A NOR flash of 4 KiB sectors: writes clear bits, erases set them.
struct Flash(Vec<u8>);

impl Flash {
    fn new() -> Self {
        Self(vec![0xFF; 88 * SECTOR as usize])
    }
}

#[derive(Debug)]
struct Misused;

impl NorFlashError for Misused {
    fn kind(&self) -> NorFlashErrorKind {
        NorFlashErrorKind::Other
    }
}

impl ErrorType for Flash {
    type Error = Misused;
}

impl ReadNorFlash for Flash {
    const READ_SIZE: usize = 1;

    fn read(&mut self, offset: u32, bytes: &mut [u8]) -> Result<(), Misused> {
        let from = offset as usize;
        bytes.copy_from_slice(self.0.get(from..from + bytes.len()).ok_or(Misused)?);
        Ok(())
    }

    fn capacity(&self) -> usize {
        self.0.len()
    }
}

impl NorFlash for Flash {
    const WRITE_SIZE: usize = 4;
    const ERASE_SIZE: usize = SECTOR as usize;

    fn erase(&mut self, from: u32, to: u32) -> Result<(), Misused> {
        self.0[from as usize..to as usize].fill(0xFF);
        Ok(())
    }

    fn write(&mut self, offset: u32, bytes: &[u8]) -> Result<(), Misused> {
        for (place, byte) in self.0[offset as usize..].iter_mut().zip(bytes) {
            *place &= byte;
        }
        Ok(())
    }
}

impl MultiwriteNorFlash for Flash {}

/// The longest portion there is, as bytes; of this number in its run.
fn longest(number: u32) -> Unnamed {
    Unnamed {
        run: RunId(u32::MAX - number),
        at: Uptime::from_millis(u64::MAX),
        unix: Some(UnixMillis::from_millis(i64::MAX)),
        mode: Mode::Taking,
        mass: Mass::MAX,
        goal: Goal::new(
            Mass::MAX,
            Tolerance::symmetric(Mass::MAX - Mass::from_grams(1)),
        )
        .expect("a goal, however senseless"),
        temperature: Some(Temperature::from_millicelsius(i32::MAX)),
        replaces: Some(u32::MAX),
        doubts: Doubts(u32::MAX),
        uncertainty: Some(Mass::MAX),
        left: Some(Mass::MAX),
    }
}

fn keep(
    persistence: &mut Persistence<Flash, PLACES>,
    outbox: &Outbox<PLACES>,
) -> Result<(), StorageError> {
    persistence.keep_portions(outbox)
}

/// An outbox far on in its hash chain, where positions are the longest.
fn far_on(epoch: Epoch) -> Outbox<PLACES> {
    let mut outbox = Outbox::new(DEVICE, epoch);
    outbox.continue_from(ChainLink {
        position: u32::MAX - 5_000,
        previous: u64::MAX,
    });
    outbox
}

/// Fills it until it says that it is full: the announced number fits, of the
/// longest portions too, and comes back whole after a power cut.
#[test]
fn as_many_portions_fit_as_are_announced() {
    let flash_store = FlashStore::new(Flash::new(), LAYOUT).unwrap();
    let (mut persistence, boot_state) = Persistence::<_, PLACES>::wake(flash_store, 7);
    let mut outbox = far_on(boot_state.epoch);
    for number in 0..PLACES as u32 {
        assert!(outbox.keep(longest(number)).is_some(), "{number}");
    }
    keep(&mut persistence, &outbox).unwrap();
    // The next one has no place, and is told as lost.
    assert_eq!(outbox.keep(longest(0)), None);
    assert_eq!(outbox.lost(), 1);

    let (mut again, boot_state) = Persistence::<_, PLACES>::wake(persistence.into_flash_store(), 8);
    let mut restored: Outbox<PLACES> = Outbox::new(DEVICE, boot_state.epoch);
    again.restore(&mut restored).unwrap();
    assert!(restored.iter().eq(outbox.iter()));
    assert_eq!(restored.len(), PLACES);
}

/// And the flash store itself says `Full` only well after them.
#[test]
fn the_flash_is_full_after_the_announced_number_and_says_so() {
    let mut flash_store = FlashStore::new(Flash::new(), LAYOUT).unwrap();
    let epoch = flash_store.count_start(7).unwrap();
    let mut outbox = far_on(epoch);
    outbox.keep(longest(0)).unwrap();
    let mut portion = outbox.iter().next().unwrap();
    let mut fitted = 0;
    let full = loop {
        portion.id.number = u32::MAX - fitted;
        // Without the look at every one that is there, which takes its time.
        match flash_store.push_portion(&portion) {
            Ok(()) => fitted += 1,
            Err(error) => break error,
        }
        assert!(fitted < 5_000);
    };
    assert_eq!(full, StorageError::Full);
    assert!(fitted as usize >= PLACES, "{fitted} fitted");
}

/// A desktop that lost its record gets the last thousand back, the oldest of
/// them first and each once, whatever was acknowledged before them.
#[test]
fn the_last_thousand_acknowledged_ones_are_still_there() {
    let flash_store = FlashStore::new(Flash::new(), LAYOUT).unwrap();
    let (mut persistence, boot_state) = Persistence::<_, PLACES>::wake(flash_store, 7);
    let mut outbox = far_on(boot_state.epoch);
    let all = 2_500;
    for number in 0..all {
        outbox.keep(longest(number)).unwrap();
        keep(&mut persistence, &outbox).unwrap();
        let id = outbox.ids().next().unwrap();
        outbox.acknowledge(id);
        keep(&mut persistence, &outbox).unwrap();
        if number == 1_200 {
            let (again, _) = Persistence::<_, PLACES>::wake(persistence.into_flash_store(), 8);
            persistence = again;
        }
    }
    let mut after = None;
    let mut numbers = Vec::new();
    while let Some((number, portion)) = persistence.vault_mut().acknowledged_after(after).unwrap() {
        after = Some(number);
        numbers.push(portion.id.number);
    }
    assert!(numbers.len() >= 1_000, "{}", numbers.len());
    // The witness that older ones went: it is a ring.
    assert!(numbers.len() < all as usize);
    let first = all - numbers.len() as u32 + 1;
    assert!(numbers.iter().copied().eq(first..=all));
}
