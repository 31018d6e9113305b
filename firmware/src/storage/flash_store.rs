//! Records and portions in flash.

use super::blocking::{Blocking, at_once, pages};
use crate::remembered::Remembered;
use crate::signal::Calibration;
use core::ops::Range;
use embedded_storage::nor_flash::MultiwriteNorFlash;
use evenhand_protocol::{CapturedPortion, ChainLink, Epoch, PortionId};
use sequential_storage::cache::{Cache, Uncached};
use sequential_storage::map::{MapConfig, MapStorage};
use sequential_storage::queue::{QueueConfig, QueueStorage};
use serde::{Serialize, de::DeserializeOwned};

/// Where in the flash what is kept, in bytes from its beginning.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Layout {
    /// Calibration, settings and the number of starts: at least two pages.
    pub records: Range<u32>,
    /// Portions not yet acknowledged: at least two pages.
    pub portions: Range<u32>,
    /// The last acknowledged portions, for a desktop that lost its record: at
    /// least two pages, or none.
    pub acknowledged: Range<u32>,
}

/// Why a layout does not fit a flash.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub enum LayoutError {
    /// [`Layout::records`] does not lie on two or more whole pages of the
    /// flash.
    Records,
    /// [`Layout::portions`] does not lie on two or more whole pages of the
    /// flash.
    Portions,
    /// [`Layout::acknowledged`] is not empty and does not lie on two or more
    /// whole pages of the flash.
    Acknowledged,
    /// They overlap.
    Overlap,
}

impl core::fmt::Display for LayoutError {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(match self {
            Self::Records => "the records must lie on two or more whole pages of the flash",
            Self::Portions => "the portions must lie on two or more whole pages of the flash",
            Self::Acknowledged => {
                "the acknowledged portions must lie on two or more whole pages of the flash"
            }
            Self::Overlap => "the parts of the layout overlap",
        })
    }
}

impl core::error::Error for LayoutError {}

/// Why something could not be read or kept.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub enum StorageError {
    /// The flash refused.
    Flash,
    /// There is no place left.
    Full,
    /// What the flash holds makes no sense and could not be mended.
    Corrupt,
    /// The value does not fit the place made for it.
    TooLong,
}

impl core::fmt::Display for StorageError {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(match self {
            Self::Flash => "the flash refused to be read or written",
            Self::Full => "the flash has no place left",
            Self::Corrupt => "what the flash holds makes no sense",
            Self::TooLong => "a record is longer than its place",
        })
    }
}

impl core::error::Error for StorageError {}

/// The records, by their key in flash.
#[derive(Debug, Clone, Copy)]
#[repr(u8)]
enum Record {
    Starts = 0,
    Calibration = 1,
    Remembered = 2,
    Clock = 3,
    Wear = 4,
    Chain = 5,
}

/// The layout of a record's bytes. A record of another one is not read: a
/// scale that forgets is better than one that misremembers.
const FORM: u8 = 1;

/// What to do after a look at an item of a queue.
enum Walk {
    On,
    End,
    RemoveAndEnd,
}

/// The longest record or portion, with its key and rounded up to the largest
/// word of a flash.
const LONGEST: usize = 320;

/// A buffer as flash controllers want it.
#[repr(align(4))]
struct Buffer([u8; LONGEST]);

/// What outlives a power cut, on a flash.
#[derive(Debug)]
pub struct FlashStore<F> {
    flash: F,
    layout: Layout,
    /// Pages erased since it was opened.
    erases: u32,
}

type Records<'f, F> = MapStorage<u8, Blocking<'f, F>, Cache<Uncached, Uncached, Uncached, u8>>;
type Portions<'f, F> = QueueStorage<Blocking<'f, F>, Cache<Uncached, Uncached, Uncached>>;

impl<F: MultiwriteNorFlash> FlashStore<F> {
    /// A flash store on a flash.
    ///
    /// # Errors
    /// [`LayoutError`] where the layout does not fit the flash.
    pub fn new(flash: F, layout: Layout) -> Result<Self, LayoutError> {
        let capacity = u32::try_from(flash.capacity()).unwrap_or(u32::MAX);
        let two_pages = |range: &Range<u32>| {
            range.end <= capacity
                && range.start < range.end
                && (range.end - range.start) as usize >= 2 * F::ERASE_SIZE
        };
        if !two_pages(&layout.records)
            || MapConfig::<Blocking<'_, F>>::try_new(layout.records.clone()).is_err()
        {
            return Err(LayoutError::Records);
        }
        if !two_pages(&layout.portions)
            || QueueConfig::<Blocking<'_, F>>::try_new(layout.portions.clone()).is_err()
        {
            return Err(LayoutError::Portions);
        }
        let kept = &layout.acknowledged;
        if !kept.is_empty()
            && (!two_pages(kept) || QueueConfig::<Blocking<'_, F>>::try_new(kept.clone()).is_err())
        {
            return Err(LayoutError::Acknowledged);
        }
        let apart = |one: &Range<u32>, other: &Range<u32>| {
            one.is_empty() || other.is_empty() || one.end <= other.start || other.end <= one.start
        };
        if !apart(&layout.records, &layout.portions)
            || !apart(&layout.records, kept)
            || !apart(&layout.portions, kept)
        {
            return Err(LayoutError::Overlap);
        }
        Ok(Self {
            flash,
            layout,
            erases: 0,
        })
    }

    /// The flash.
    pub const fn flash_mut(&mut self) -> &mut F {
        &mut self.flash
    }

    /// The flash back.
    pub fn into_flash(self) -> F {
        self.flash
    }

    /// Counts a start and gives its number, which is on record by then: one
    /// more than the last. Where none is on record it is `unlike_any`, a random
    /// number, without its top bit: a flash that was wiped must not name its
    /// starts as it did before.
    ///
    /// # Errors
    /// [`StorageError`] where it could not be put on record. It must not be
    /// used then.
    pub fn count_start(&mut self, unlike_any: u32) -> Result<Epoch, StorageError> {
        let last: Option<u32> = self.read(Record::Starts)?;
        // The top half belongs to starts that could not be counted.
        let next = last.map_or(unlike_any, |last| last.wrapping_add(1)) & 0x7FFF_FFFF;
        self.set_starts(Epoch(next))?;
        Ok(Epoch(next))
    }

    /// Puts the number of this start on record.
    pub(super) fn set_starts(&mut self, epoch: Epoch) -> Result<(), StorageError> {
        self.write(Record::Starts, &epoch.0)
    }

    /// Blanks the records' pages.
    pub(super) fn erase_records(&mut self) -> Result<(), StorageError> {
        self.erase(self.layout.records.clone())
    }

    /// Blanks the portions' pages.
    pub(super) fn erase_portions(&mut self) -> Result<(), StorageError> {
        self.erase(self.layout.portions.clone())
    }

    fn erase(&mut self, Range { start, end }: Range<u32>) -> Result<(), StorageError> {
        self.erases = self.erases.saturating_add(pages::<F>(start, end));
        self.flash
            .erase(start, end)
            .map_err(|_| StorageError::Flash)
    }

    /// The pages of its layout.
    pub fn pages(&self) -> u16 {
        let Layout {
            records,
            portions,
            acknowledged,
        } = &self.layout;
        let all = [records, portions, acknowledged]
            .into_iter()
            .fold(0_u32, |sum, part| {
                sum.saturating_add(pages::<F>(part.start, part.end))
            });
        u16::try_from(all).unwrap_or(u16::MAX)
    }

    /// Pages erased since it was opened.
    pub const fn erases(&self) -> u32 {
        self.erases
    }

    /// Pages erased over all its life, by what was put on record last.
    ///
    /// # Errors
    /// [`StorageError`] where the flash cannot be read.
    pub fn wear(&mut self) -> Result<Option<u32>, StorageError> {
        self.read(Record::Wear)
    }

    /// Puts on record how many pages were erased over all its life.
    ///
    /// # Errors
    /// [`StorageError`] where that could not be done; the old number stays.
    pub fn set_wear(&mut self, erases: u32) -> Result<(), StorageError> {
        self.write(Record::Wear, &erases)
    }

    /// The calibration on record, where there is a sound one.
    ///
    /// # Errors
    /// [`StorageError`] where the flash cannot be read.
    pub fn calibration(&mut self) -> Result<Option<Calibration>, StorageError> {
        let calibration: Option<Calibration> = self.read(Record::Calibration)?;
        Ok(calibration.and_then(|calibration| calibration.checked().ok()))
    }

    /// Puts a calibration on record.
    ///
    /// # Errors
    /// [`StorageError`] where that could not be done; the old one stays.
    pub fn set_calibration(&mut self, calibration: &Calibration) -> Result<(), StorageError> {
        self.write(Record::Calibration, calibration)
    }

    /// The settings on record.
    ///
    /// # Errors
    /// [`StorageError`] where the flash cannot be read.
    pub fn remembered(&mut self) -> Result<Option<Remembered>, StorageError> {
        self.read(Record::Remembered)
    }

    /// Puts settings on record.
    ///
    /// # Errors
    /// [`StorageError`] where that could not be done; the old ones stay.
    pub fn set_remembered(&mut self, remembered: &Remembered) -> Result<(), StorageError> {
        self.write(Record::Remembered, remembered)
    }

    /// The wall's clock minus the uptime in milliseconds, and the start in
    /// which that was so.
    ///
    /// # Errors
    /// [`StorageError`] where the flash cannot be read.
    pub fn clock(&mut self) -> Result<Option<(Epoch, i64)>, StorageError> {
        self.read(Record::Clock)
    }

    /// Puts the clock of a start on record.
    ///
    /// # Errors
    /// [`StorageError`] where that could not be done; the old one stays.
    pub fn set_clock(&mut self, epoch: Epoch, wall: i64) -> Result<(), StorageError> {
        self.write(Record::Clock, &(epoch, wall))
    }

    /// The link in the hash chain that comes after the last portion taken off
    /// record, where that is known.
    ///
    /// # Errors
    /// [`StorageError`] where the flash cannot be read.
    pub fn chain(&mut self) -> Result<Option<ChainLink>, StorageError> {
        self.read(Record::Chain)
    }

    /// Puts on record how the hash chain goes on after a portion that is to be
    /// taken off.
    ///
    /// # Errors
    /// [`StorageError`] where that could not be done; the old link stays.
    pub fn set_chain(&mut self, next: ChainLink) -> Result<(), StorageError> {
        self.write(Record::Chain, &next)
    }

    /// Puts a portion on record, after all that are there, and sees that it is.
    ///
    /// # Errors
    /// [`StorageError`] where that could not be done; it is not there then, or
    /// not readable.
    pub fn push_portion(&mut self, portion: &CapturedPortion) -> Result<(), StorageError> {
        self.push(self.layout.portions.clone(), portion, false)?;
        let mut there = false;
        self.portions(|read| there |= read == *portion)?;
        there.then_some(()).ok_or(StorageError::Corrupt)
    }

    /// Hands every portion on record to `take`, oldest first. What is not a
    /// portion of this program's form is passed over.
    ///
    /// # Errors
    /// [`StorageError`] where the flash cannot be read.
    pub fn portions(&mut self, mut take: impl FnMut(CapturedPortion)) -> Result<(), StorageError> {
        self.walk(self.layout.portions.clone(), |portion| {
            take(portion);
            Walk::On
        })
    }

    /// The portion of this name on record, where there is one.
    ///
    /// # Errors
    /// [`StorageError`] where the flash cannot be read.
    pub fn portion(&mut self, id: PortionId) -> Result<Option<CapturedPortion>, StorageError> {
        let mut found = None;
        self.walk(self.layout.portions.clone(), |portion: CapturedPortion| {
            if portion.id != id {
                return Walk::On;
            }
            found = Some(portion);
            Walk::End
        })?;
        Ok(found)
    }

    /// Takes a portion off record. One that is not there is passed over.
    ///
    /// # Errors
    /// [`StorageError`] where that could not be done.
    pub fn remove_portion(&mut self, id: PortionId) -> Result<(), StorageError> {
        self.walk(self.layout.portions.clone(), |portion: CapturedPortion| {
            if portion.id == id {
                Walk::RemoveAndEnd
            } else {
                Walk::On
            }
        })
    }

    /// Whether it keeps acknowledged portions.
    #[must_use]
    pub fn keeps_acknowledged(&self) -> bool {
        !self.layout.acknowledged.is_empty()
    }

    /// Puts a portion among the acknowledged ones, under a number that goes up
    /// from each to the next; the oldest page of them goes where there is no
    /// place. Does nothing without a place for them.
    ///
    /// # Errors
    /// [`StorageError`] where that could not be done.
    pub fn push_acknowledged(
        &mut self,
        number: u32,
        portion: &CapturedPortion,
    ) -> Result<(), StorageError> {
        if !self.keeps_acknowledged() {
            return Ok(());
        }
        let range = self.layout.acknowledged.clone();
        match self.push(range.clone(), &(number, portion), true) {
            // They are copies of what is on record elsewhere.
            Err(StorageError::Corrupt | StorageError::Full) => {
                self.erase(range.clone())?;
                self.push(range, &(number, portion), true)
            }
            pushed => pushed,
        }
    }

    /// The first acknowledged portion of a higher number than `after`, or the
    /// oldest, with its number; `None` where there is none.
    ///
    /// # Errors
    /// [`StorageError`] where the flash cannot be read.
    pub fn acknowledged_after(
        &mut self,
        after: Option<u32>,
    ) -> Result<Option<(u32, CapturedPortion)>, StorageError> {
        let mut found = None;
        if self.keeps_acknowledged() {
            self.walk(
                self.layout.acknowledged.clone(),
                |kept: (u32, CapturedPortion)| {
                    if after.is_some_and(|after| kept.0 <= after) {
                        return Walk::On;
                    }
                    found = Some(kept);
                    Walk::End
                },
            )?;
        }
        Ok(found)
    }

    /// The highest number of an acknowledged portion.
    ///
    /// # Errors
    /// [`StorageError`] where the flash cannot be read.
    pub fn last_acknowledged(&mut self) -> Result<Option<u32>, StorageError> {
        let mut last = None;
        if self.keeps_acknowledged() {
            self.walk(
                self.layout.acknowledged.clone(),
                |(number, _): (u32, CapturedPortion)| {
                    last = last.max(Some(number));
                    Walk::On
                },
            )?;
        }
        Ok(last)
    }

    fn push<T: Serialize>(
        &mut self,
        range: Range<u32>,
        value: &T,
        over_the_oldest: bool,
    ) -> Result<(), StorageError> {
        let mut buffer = Buffer([0; LONGEST]);
        let length = form(value, &mut buffer.0)?;
        let bytes = buffer.0.get(..length).ok_or(StorageError::TooLong)?;
        let mut queue = self.queue(range)?;
        at_once(queue.push(bytes, over_the_oldest))
            .ok_or(StorageError::Flash)?
            .map_err(plain)
    }

    /// Looks at every item of a queue, oldest first.
    fn walk<T: DeserializeOwned>(
        &mut self,
        range: Range<u32>,
        mut look: impl FnMut(T) -> Walk,
    ) -> Result<(), StorageError> {
        let mut buffer = Buffer([0; LONGEST]);
        let mut queue = self.queue(range)?;
        let walk = async {
            let mut items = queue.iter().await?;
            while let Some(item) = items.next(&mut buffer.0).await? {
                match of_older_form(&item).map_or(Walk::On, &mut look) {
                    Walk::On => {}
                    Walk::End => break,
                    Walk::RemoveAndEnd => {
                        item.pop().await?;
                        break;
                    }
                }
            }
            Ok(())
        };
        at_once(walk).ok_or(StorageError::Flash)?.map_err(plain)
    }

    fn read<T: DeserializeOwned>(&mut self, record: Record) -> Result<Option<T>, StorageError> {
        let mut buffer = Buffer([0; LONGEST]);
        let mut map = self.map()?;
        let item = at_once(map.fetch_item::<&[u8]>(&mut buffer.0, &(record as u8)))
            .ok_or(StorageError::Flash)?
            .map_err(plain)?;
        Ok(item.and_then(of_form))
    }

    fn write<T: Serialize>(&mut self, record: Record, value: &T) -> Result<(), StorageError> {
        let mut bytes = [0; LONGEST];
        let length = form(value, &mut bytes)?;
        let bytes = bytes.get(..length).ok_or(StorageError::TooLong)?;
        let mut buffer = Buffer([0; LONGEST]);
        let mut map = self.map()?;
        at_once(map.store_item(&mut buffer.0, &(record as u8), &bytes))
            .ok_or(StorageError::Flash)?
            .map_err(plain)?;
        // In a flash that was spoilt it may have been written over something.
        let read = at_once(map.fetch_item::<&[u8]>(&mut buffer.0, &(record as u8)))
            .ok_or(StorageError::Flash)?
            .map_err(plain)?;
        (read == Some(bytes))
            .then_some(())
            .ok_or(StorageError::Corrupt)
    }

    fn map(&mut self) -> Result<Records<'_, F>, StorageError> {
        let config =
            MapConfig::try_new(self.layout.records.clone()).map_err(|_| StorageError::Flash)?;
        Ok(MapStorage::new(
            Blocking {
                flash: &mut self.flash,
                erases: &mut self.erases,
            },
            config,
            Cache::new_uncached(),
        ))
    }

    fn queue(&mut self, range: Range<u32>) -> Result<Portions<'_, F>, StorageError> {
        let config = QueueConfig::try_new(range).map_err(|_| StorageError::Flash)?;
        Ok(QueueStorage::new(
            Blocking {
                flash: &mut self.flash,
                erases: &mut self.erases,
            },
            config,
            Cache::new_uncached(),
        ))
    }
}

/// A value as bytes, its form first; how many.
fn form<T: Serialize>(value: &T, out: &mut [u8; LONGEST]) -> Result<usize, StorageError> {
    out[0] = FORM;
    let written = postcard::to_slice(value, &mut out[1..]).map_err(|_| StorageError::TooLong)?;
    Ok(written.len() + 1)
}

/// The value in bytes of this form.
fn of_form<T: DeserializeOwned>(bytes: &[u8]) -> Option<T> {
    let (first, rest) = bytes.split_first()?;
    (*first == FORM)
        .then(|| postcard::from_bytes(rest).ok())
        .flatten()
}

/// As [`of_form`], of something that ends with a portion: it may end before the
/// field that a portion has gained since, which is not told then. As on the
/// wire, that reads as if a zero followed.
fn of_older_form<T: DeserializeOwned>(bytes: &[u8]) -> Option<T> {
    let mut longer = [0; LONGEST + 1];
    longer.get_mut(..bytes.len())?.copy_from_slice(bytes);
    of_form(longer.get(..=bytes.len())?)
}

fn plain<E>(error: sequential_storage::Error<E>) -> StorageError {
    use sequential_storage::Error;
    match error {
        Error::FullStorage => StorageError::Full,
        Error::Storage { .. } => StorageError::Flash,
        Error::BufferTooBig | Error::BufferTooSmall(_) | Error::ItemTooBig => StorageError::TooLong,
        _ => StorageError::Corrupt,
    }
}
