//! The last 352 KiB of the board's flash.

use embedded_storage::nor_flash::{
    ErrorType, MultiwriteNorFlash, NorFlash, NorFlashError, NorFlashErrorKind, ReadNorFlash,
};
use evenhand_firmware::storage::{FlashStore, Layout, LayoutError};
use evenhand_protocol::DeviceId;

/// Where the flash lies in the processor's memory (RP2040 data sheet, 2.2.1,
/// from memory).
const MAPPED_AT: usize = 0x1000_0000;
/// Where this part begins in the flash; `memory.x` keeps the program out of it.
const BEGIN: u32 = 2 * 1024 * 1024 - SIZE;
const SIZE: u32 = 2 * PORTIONS_END - RECORDS_END;
/// What is erased at once.
const SECTOR: u32 = 4_096;
/// What is programmed at once.
const PAGE: usize = 256;

const RECORDS_END: u32 = 8 * SECTOR;
/// 40 sectors hold 1 000 portions of the longest kind, one of them always free
/// (`firmware/tests/storage_thousand.rs` fills them).
const PORTIONS_END: u32 = RECORDS_END + 40 * SECTOR;

/// Eight sectors for records, and as many for acknowledged portions as for those
/// that wait.
const LAYOUT: Layout = Layout {
    records: 0..RECORDS_END,
    portions: RECORDS_END..PORTIONS_END,
    acknowledged: PORTIONS_END..SIZE,
};

/// The flash store of this board.
pub fn flash_store() -> Result<FlashStore<Flash>, LayoutError> {
    FlashStore::new(Flash, LAYOUT)
}

/// The board's number: its flash chip's own.
pub fn device() -> DeviceId {
    let mut id = [0; 8];
    // SAFETY: one core runs, without DMA, and with interrupts masked nothing
    // reads the flash meanwhile; the second stage of the boot is a sound one.
    cortex_m::interrupt::free(|_| unsafe { rp2040_flash::flash::flash_unique_id(&mut id, true) });
    DeviceId(u64::from_be_bytes(id))
}

/// The part of the flash that is the flash store's.
#[derive(Debug)]
pub struct Flash;

/// Why the flash was not touched.
#[derive(Debug, Clone, Copy)]
pub enum Refused {
    /// Not on the boundary of a word or a sector.
    NotAligned,
    /// Beyond the flash store's part.
    OutOfBounds,
}

impl NorFlashError for Refused {
    fn kind(&self) -> NorFlashErrorKind {
        match self {
            Self::NotAligned => NorFlashErrorKind::NotAligned,
            Self::OutOfBounds => NorFlashErrorKind::OutOfBounds,
        }
    }
}

fn check(offset: u32, length: usize, unit: usize) -> Result<(), Refused> {
    let begin = offset as usize;
    if !begin.is_multiple_of(unit) || !length.is_multiple_of(unit) {
        return Err(Refused::NotAligned);
    }
    let end = begin.checked_add(length).ok_or(Refused::OutOfBounds)?;
    if end > SIZE as usize {
        return Err(Refused::OutOfBounds);
    }
    Ok(())
}

impl ErrorType for Flash {
    type Error = Refused;
}

impl ReadNorFlash for Flash {
    const READ_SIZE: usize = 1;

    fn read(&mut self, offset: u32, bytes: &mut [u8]) -> Result<(), Refused> {
        check(offset, bytes.len(), 1)?;
        let begin = MAPPED_AT + (BEGIN + offset) as usize;
        for (place, byte) in bytes.iter_mut().enumerate() {
            // SAFETY: the range was checked to lie in the flash, which is
            // mapped to be read byte by byte; volatile, because it changes by
            // other ways than this memory's.
            *byte =
                unsafe { core::ptr::with_exposed_provenance::<u8>(begin + place).read_volatile() };
        }
        Ok(())
    }

    fn capacity(&self) -> usize {
        SIZE as usize
    }
}

impl NorFlash for Flash {
    const WRITE_SIZE: usize = 4;
    const ERASE_SIZE: usize = SECTOR as usize;

    fn erase(&mut self, from: u32, to: u32) -> Result<(), Refused> {
        let length = to.checked_sub(from).ok_or(Refused::OutOfBounds)?;
        check(from, length as usize, SECTOR as usize)?;
        let mut sector = from;
        // Sector by sector, so that interrupts wait for one at most.
        while sector < to {
            // SAFETY: one core runs, without DMA, and with interrupts masked
            // nothing reads the flash meanwhile; the sector is the flash store's.
            cortex_m::interrupt::free(|_| unsafe {
                rp2040_flash::flash::flash_range_erase(BEGIN + sector, SECTOR, true);
            });
            sector += SECTOR;
        }
        Ok(())
    }

    fn write(&mut self, offset: u32, bytes: &[u8]) -> Result<(), Refused> {
        check(offset, bytes.len(), Self::WRITE_SIZE)?;
        let mut done = 0;
        while done < bytes.len() {
            let at = offset as usize + done;
            let within = at % PAGE;
            let count = (PAGE - within).min(bytes.len() - done);
            // What is not written stays: programming only clears bits.
            let mut page = [0xFF; PAGE];
            let (Some(place), Some(part)) = (
                page.get_mut(within..within + count),
                bytes.get(done..done + count),
            ) else {
                return Err(Refused::OutOfBounds);
            };
            place.copy_from_slice(part);
            let address = BEGIN + (at - within) as u32;
            // SAFETY: as for an erase; the page lies in RAM and the address is
            // that of a page of the flash store's part.
            cortex_m::interrupt::free(|_| unsafe {
                rp2040_flash::flash::flash_range_program(address, &page, true);
            });
            done += count;
        }
        Ok(())
    }
}

// A word may be cleared further without an erase, as in any NOR flash whose
// data sheet does not forbid it.
impl MultiwriteNorFlash for Flash {}
