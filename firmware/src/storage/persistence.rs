//! A flash store kept in step with an instrument.

use super::flash_store::{FlashStore, StorageError};
use crate::instrument::Instrument;
use crate::outbox::Outbox;
use crate::remembered::Remembered;
use crate::signal::Calibration;
use embedded_storage::nor_flash::MultiwriteNorFlash;
use evenhand_protocol::{CapturedPortion, ChainLink, Epoch, PortionId, UnixMillis, Uptime};
use heapless::Vec;

/// After the flash refused, it is asked again after so long.
const TRY_AGAIN_MS: u64 = 10_000;

/// Erases after which the wear is put on record anew.
const WEAR_STEP: u32 = 16;

/// What an instrument starts from.
#[derive(Debug, Clone, PartialEq)]
pub struct BootState {
    /// Which of its starts this is.
    pub epoch: Epoch,
    /// Its calibration, where a sound one is on record.
    pub calibration: Option<Calibration>,
    /// Its settings.
    pub remembered: Remembered,
    /// Whether anything could not be read or written: the instrument says so
    /// as a fault.
    pub failed: bool,
}

/// Keeps a flash store in step with an instrument that keeps at most `PLACES`
/// portions.
#[derive(Debug)]
pub struct Persistence<F, const PLACES: usize = 64> {
    flash_store: FlashStore<F>,
    /// This start, where it is counted.
    start: Option<Epoch>,
    /// The instrument's changes that are on record.
    seen: Option<u32>,
    remembered: Option<Remembered>,
    calibration: Option<Calibration>,
    clock: Option<(Epoch, i64)>,
    /// How the hash chain goes on after the last portion taken off record.
    chain: Option<ChainLink>,
    /// The portions on record, in the order of the outbox.
    portions: Vec<PortionId, PLACES>,
    /// The number of the last acknowledged portion on record; `None` before it
    /// was looked for.
    last_acknowledged: Option<u32>,
    /// Erases before this start, and those of them all that are on record.
    worn_before: u32,
    wear: u32,
    retry_at: Option<Uptime>,
    failed: bool,
}

impl<F: MultiwriteNorFlash, const PLACES: usize> Persistence<F, PLACES> {
    /// Opens a flash store and counts the start. `unlike_any` is a random number:
    /// the first start's name, and that of one which the flash does not let be
    /// counted.
    pub fn wake(mut flash_store: FlashStore<F>, unlike_any: u32) -> (Self, BootState) {
        let mut failed = false;
        let mut or_failed = |failing: bool| failed |= failing;
        let calibration = flash_store.calibration();
        or_failed(calibration.is_err());
        let remembered = flash_store.remembered();
        or_failed(remembered.is_err());
        let clock = flash_store.clock();
        or_failed(clock.is_err());
        let chain = flash_store.chain();
        or_failed(chain.is_err());
        let (calibration, remembered, clock, chain) = (
            calibration.ok().flatten(),
            remembered.ok().flatten(),
            clock.ok().flatten(),
            chain.ok().flatten(),
        );
        let wear = flash_store.wear().ok().flatten().unwrap_or(0);
        let counted = flash_store.count_start(unlike_any);
        let mut persistence = Self {
            flash_store,
            start: counted.ok(),
            seen: None,
            remembered,
            calibration,
            clock,
            chain,
            portions: Vec::new(),
            last_acknowledged: None,
            worn_before: wear,
            wear,
            retry_at: None,
            failed,
        };
        let counted = match counted {
            // Whatever of the records could be read is written anew.
            Err(error) if spoilt(error) => {
                persistence.renew_records(Epoch(unlike_any & 0x7FFF_FFFF))
            }
            Ok(start) => persistence.look_through().map(|()| start),
            counted => counted,
        };
        let epoch = counted.unwrap_or_else(|_| {
            persistence.failed = true;
            Epoch(unlike_any | 0x8000_0000)
        });
        let failed = persistence.failed;
        let boot_state = BootState {
            epoch,
            calibration,
            remembered: remembered.unwrap_or_default(),
            failed,
        };
        (persistence, boot_state)
    }

    /// Gives an outbox back what was on record in it, oldest first. To be
    /// called once, before anything is captured.
    ///
    /// # Errors
    /// [`StorageError`] where the flash cannot be read, or holds more than the
    /// outbox; what was read is there.
    pub fn restore(&mut self, outbox: &mut Outbox<PLACES>) -> Result<(), StorageError> {
        let Self {
            flash_store,
            portions,
            clock,
            chain,
            ..
        } = self;
        let mut full = false;
        let read = flash_store.portions(|portion| {
            // A write that was cut short and made again leaves two.
            if !portions.contains(&portion.id) {
                full |= !outbox.restore(&portion) || portions.push(portion.id).is_err();
            }
        });
        if let Some((epoch, wall)) = *clock {
            outbox.date(epoch, wall);
        }
        if let Some(next) = *chain {
            outbox.continue_from(next);
        }
        read.and(if full {
            Err(StorageError::Full)
        } else {
            Ok(())
        })
    }

    /// Starts an instrument from what is on record: gives it its portions back
    /// and says whether the flash failed.
    pub fn start(&mut self, now: Uptime, instrument: &mut Instrument<PLACES>) {
        self.failed |= self.restore(instrument.outbox_mut()).is_err();
        instrument.storage_failed(now, self.failed);
        if self.flash_store.keeps_acknowledged() {
            instrument.keeps_acknowledged();
        }
        self.seen = None;
    }

    /// Puts on record what has changed. Call it after every poll and before
    /// anything is sent; it looks at the flash only when there is something to
    /// write, and may then take as long as the flash needs to erase a page. A
    /// flash that refuses is asked again after ten seconds; the instrument
    /// tells the fault meanwhile, and weighs on.
    pub fn keep(&mut self, now: Uptime, instrument: &mut Instrument<PLACES>) {
        self.recall(now, instrument);
        let waits = self.retry_at.is_some_and(|at| now < at);
        if waits || self.seen == Some(instrument.changes()) {
            return;
        }
        let changes = instrument.changes();
        instrument.take_flash(self.flash_store.pages(), self.worn());
        let kept = self
            .keep_portions(instrument.outbox())
            .and_then(|()| self.keep_clock(instrument.clock()))
            .and_then(|()| self.keep_remembered(&instrument.remembered()))
            .and_then(|()| match instrument.chain().calibration() {
                Some(calibration) => self.keep_calibration(calibration),
                None => Ok(()),
            })
            .and_then(|()| self.keep_wear());
        match kept {
            Ok(()) => {
                self.seen = Some(changes);
                self.retry_at = None;
                instrument.storage_failed(now, false);
            }
            Err(error) => {
                #[cfg(feature = "defmt")]
                defmt::warn!("flash {}", error);
                #[cfg(not(feature = "defmt"))]
                let _ = error;
                self.retry_at = Some(now.plus_millis(TRY_AGAIN_MS));
                instrument.storage_failed(now, true);
            }
        }
    }

    /// Pages erased over all its life.
    const fn worn(&self) -> u32 {
        self.worn_before.saturating_add(self.flash_store.erases())
    }

    fn keep_wear(&mut self) -> Result<(), StorageError> {
        let worn = self.worn();
        if worn.saturating_sub(self.wear) >= WEAR_STEP {
            self.write(|flash_store| flash_store.set_wear(worn))?;
            self.wear = worn;
        }
        Ok(())
    }

    /// Blanks the records and puts all that is known of them on record anew.
    fn renew_records(&mut self, start: Epoch) -> Result<Epoch, StorageError> {
        self.flash_store.erase_records()?;
        self.flash_store.set_starts(start)?;
        self.start = Some(start);
        if let Some(calibration) = &self.calibration {
            self.flash_store.set_calibration(calibration)?;
        }
        if let Some(remembered) = &self.remembered {
            self.flash_store.set_remembered(remembered)?;
        }
        if let Some((epoch, wall)) = self.clock {
            self.flash_store.set_clock(epoch, wall)?;
        }
        if let Some(next) = self.chain {
            self.flash_store.set_chain(next)?;
        }
        if self.wear > 0 {
            self.flash_store.set_wear(self.wear)?;
        }
        Ok(start)
    }

    /// Sees that every record is there. In a flash that was spoilt one that is
    /// written may take others with it; then all are put on fresh pages.
    fn look_through(&mut self) -> Result<(), StorageError> {
        let Some(start) = self.start else {
            return Ok(());
        };
        match self.all_there() {
            Ok(true) => Ok(()),
            Ok(false) => self.renew_records(start).map(drop),
            Err(error) if spoilt(error) => self.renew_records(start).map(drop),
            Err(error) => Err(error),
        }
    }

    fn all_there(&mut self) -> Result<bool, StorageError> {
        Ok(self.flash_store.calibration()? == self.calibration
            && self.flash_store.remembered()? == self.remembered
            && self.flash_store.clock()? == self.clock
            && self.flash_store.chain()? == self.chain)
    }

    /// Writes a record; where the flash is spoilt, on fresh pages.
    fn write(
        &mut self,
        record: impl Fn(&mut FlashStore<F>) -> Result<(), StorageError>,
    ) -> Result<(), StorageError> {
        match (record(&mut self.flash_store), self.start) {
            (Err(error), Some(start)) if spoilt(error) => {
                self.renew_records(start)?;
                record(&mut self.flash_store)
            }
            (written, _) => written,
        }
    }

    /// Puts on record what an outbox holds, and takes off what it no longer
    /// does. What is new goes first. Where the flash is spoilt, all of it is
    /// put on fresh pages.
    ///
    /// # Errors
    /// [`StorageError`] where not all of it could be done.
    pub fn keep_portions(&mut self, outbox: &Outbox<PLACES>) -> Result<(), StorageError> {
        match self.keep_changes(outbox) {
            Err(StorageError::Corrupt) => {
                self.flash_store.erase_portions()?;
                self.portions.clear();
                self.keep_changes(outbox)
            }
            kept => kept,
        }
    }

    /// What is new goes to the end of both, and what is there keeps its order:
    /// one walk along both of them finds what has changed.
    fn keep_changes(&mut self, outbox: &Outbox<PLACES>) -> Result<(), StorageError> {
        let mut place = 0;
        for portion in outbox.iter() {
            while self
                .portions
                .get(place)
                .is_some_and(|known| *known != portion.id)
            {
                self.forget(place)?;
            }
            if place == self.portions.len() {
                self.flash_store.push_portion(&portion)?;
                self.portions
                    .push(portion.id)
                    .map_err(|_| StorageError::Full)?;
            }
            place += 1;
        }
        while place < self.portions.len() {
            self.forget(place)?;
        }
        Ok(())
    }

    /// A portion was acknowledged: how the chain goes on after it is put on
    /// record, and it goes among the acknowledged ones, before it is taken off,
    /// so that a cut in between leaves all of it.
    fn forget(&mut self, place: usize) -> Result<(), StorageError> {
        let Some(gone) = self.portions.get(place).copied() else {
            return Ok(());
        };
        let portion = self.flash_store.portion(gone)?;
        if let Some(next) = portion.as_ref().and_then(CapturedPortion::next_link) {
            self.keep_chain(next)?;
        }
        if self.flash_store.keeps_acknowledged()
            && let Some(mut portion) = portion
        {
            if portion.unix.is_none()
                && let Some((epoch, wall)) = self.clock
                && epoch == gone.epoch
            {
                portion.unix = i64::try_from(portion.at.millis())
                    .ok()
                    .and_then(|at| wall.checked_add(at))
                    .map(UnixMillis::from_millis);
            }
            let last = match self.last_acknowledged {
                Some(last) => last,
                None => self.flash_store.last_acknowledged()?.unwrap_or(0),
            };
            let number = last.saturating_add(1);
            self.flash_store.push_acknowledged(number, &portion)?;
            self.last_acknowledged = Some(number);
        }
        self.flash_store.remove_portion(gone)?;
        self.portions.remove(place);
        Ok(())
    }

    fn keep_chain(&mut self, next: ChainLink) -> Result<(), StorageError> {
        // Acknowledgements come in any order.
        if self
            .chain
            .is_none_or(|known| known.position < next.position)
        {
            self.write(|flash_store| flash_store.set_chain(next))?;
            self.chain = Some(next);
            self.look_through()?;
        }
        Ok(())
    }

    /// Hands the instrument the next of the acknowledged portions, where it is
    /// to send them again.
    fn recall(&mut self, now: Uptime, instrument: &mut Instrument<PLACES>) {
        let Some(after) = instrument.recalls_after() else {
            return;
        };
        match self.flash_store.acknowledged_after(after) {
            Ok(next) => instrument.recall_next(now, next),
            Err(_) => {
                instrument.recall_next(now, None);
                instrument.storage_failed(now, true);
            }
        }
    }

    /// Puts settings on record where they differ from what is.
    ///
    /// # Errors
    /// [`StorageError`] where that could not be done.
    pub fn keep_remembered(&mut self, remembered: &Remembered) -> Result<(), StorageError> {
        if self.remembered != Some(*remembered) {
            self.write(|flash_store| flash_store.set_remembered(remembered))?;
            self.remembered = Some(*remembered);
            self.look_through()?;
        }
        Ok(())
    }

    /// Puts a calibration on record where it differs from what is.
    ///
    /// # Errors
    /// [`StorageError`] where that could not be done.
    pub fn keep_calibration(&mut self, calibration: &Calibration) -> Result<(), StorageError> {
        if self.calibration.as_ref() != Some(calibration) {
            self.write(|flash_store| flash_store.set_calibration(calibration))?;
            self.calibration = Some(*calibration);
            self.look_through()?;
        }
        Ok(())
    }

    /// Puts the clock of a start on record where it is known and differs by
    /// more than a second from what is.
    ///
    /// # Errors
    /// [`StorageError`] where that could not be done.
    pub fn keep_clock(&mut self, clock: Option<(Epoch, i64)>) -> Result<(), StorageError> {
        let Some((epoch, wall)) = clock else {
            return Ok(());
        };
        let near = self
            .clock
            .is_some_and(|(known, then)| known == epoch && then.abs_diff(wall) <= 1_000);
        if !near {
            self.write(|flash_store| flash_store.set_clock(epoch, wall))?;
            self.clock = Some((epoch, wall));
            self.look_through()?;
        }
        Ok(())
    }

    /// The flash store.
    pub const fn vault_mut(&mut self) -> &mut FlashStore<F> {
        &mut self.flash_store
    }

    /// The flash store back.
    pub fn into_flash_store(self) -> FlashStore<F> {
        self.flash_store
    }
}

/// Whether an error says that the records' pages are spoilt. They are never
/// full of what belongs there.
const fn spoilt(error: StorageError) -> bool {
    matches!(error, StorageError::Corrupt | StorageError::Full)
}
