//! A simulated NOR flash: the part of a board's chip that outlives a power
//! cut, in memory or in a file.
//!
//! As in a real one, a write can only clear bits, words are written whole, and
//! only an erase of a whole sector sets bits again. An operation in which the
//! power goes is left half done: some words are written, the one in hand reads
//! as neither the old nor the new, and the bits of a sector that was being
//! erased have risen only here and there.

use embedded_storage::nor_flash::{
    ErrorType, MultiwriteNorFlash, NorFlash, NorFlashError, NorFlashErrorKind, ReadNorFlash,
};
use evenhand_firmware::storage::Layout;
use std::fs::{File, OpenOptions, TryLockError};
use std::io::{Read, Seek, SeekFrom, Write};
use std::path::{Path, PathBuf};

/// What is erased at once, in bytes.
pub const SECTOR: usize = 4_096;
/// What is written at once, in bytes.
pub const WORD: usize = 4;
/// All of it, in bytes: as much as the board with flash sets aside.
pub const SIZE: usize = 88 * SECTOR;

/// How many portions wait in it at most until they are acknowledged.
pub const PLACES: usize = 1_000;

/// Where the records lie, where the portions that wait, and where the last ones
/// that were acknowledged.
pub const LAYOUT: Layout = Layout {
    records: 0..(8 * SECTOR) as u32,
    portions: (8 * SECTOR) as u32..(48 * SECTOR) as u32,
    acknowledged: (48 * SECTOR) as u32..SIZE as u32,
};

/// The first bytes of a file that holds a flash.
const MARK: [u8; 16] = *b"Evenhand flash 1";
/// Where in the file the flash itself begins.
const HEAD: usize = 64;

/// Which instrument a flash is built into. Its calibration is worth nothing to
/// another.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct BuiltInto {
    /// The instrument's number.
    pub device: u64,
    /// What its load cell reads with an empty pan, in counts.
    pub zero_counts: i32,
    /// What it reads with its calibration's weight, in counts.
    pub span_counts: i32,
}

impl BuiltInto {
    fn head(self) -> [u8; HEAD] {
        let mut head = [0; HEAD];
        let parts: [&[u8]; 4] = [
            &MARK,
            &self.device.to_be_bytes(),
            &self.zero_counts.to_be_bytes(),
            &self.span_counts.to_be_bytes(),
        ];
        for (place, byte) in head.iter_mut().zip(parts.concat()) {
            *place = byte;
        }
        head
    }
}

/// Why a file cannot be a flash.
#[derive(Debug, thiserror::Error)]
pub enum FlashFileError {
    /// The system refused.
    #[error("the flash {} cannot be read or written: {why}", path.display())]
    System {
        /// The file.
        path: PathBuf,
        /// The system's reason.
        why: std::io::Error,
    },
    /// Another program has it.
    #[error("the flash {} is in use: another simulated instrument has it", .0.display())]
    InUse(PathBuf),
    /// It is longer or shorter.
    #[error(
        "the flash {} has {bytes} bytes; a simulated instrument's has {}",
        path.display(), HEAD + SIZE
    )]
    Size {
        /// The file.
        path: PathBuf,
        /// Its length.
        bytes: u64,
    },
    /// It is something else.
    #[error(
        "{} holds something else than a simulated instrument's flash; \
         name another file, or one that is not there yet",
        .0.display()
    )]
    Content(PathBuf),
    /// It belongs to another instrument.
    #[error(
        "the flash {} is that of another simulated instrument; \
         start it with the seed and the load cell that it was made with",
        .0.display()
    )]
    OtherInstrument(PathBuf),
}

/// Why an operation failed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FlashTrouble {
    /// The power is gone.
    NoPower,
    /// Not on the boundary of a word or a sector.
    NotAligned,
    /// Beyond its end.
    OutOfBounds,
    /// The file behind it could not be written.
    File,
}

impl NorFlashError for FlashTrouble {
    fn kind(&self) -> NorFlashErrorKind {
        match self {
            Self::NotAligned => NorFlashErrorKind::NotAligned,
            Self::OutOfBounds => NorFlashErrorKind::OutOfBounds,
            Self::NoPower | Self::File => NorFlashErrorKind::Other,
        }
    }
}

/// The operation in which the power goes.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Cut {
    /// How many writes and erases come before it.
    after: usize,
    /// How much of it is done by then, from 0 to 1.
    share: f64,
}

/// The flash.
#[derive(Debug)]
pub struct SimulatedFlash {
    bytes: Vec<u8>,
    file: Option<File>,
    cut: Option<Cut>,
    powered: bool,
}

impl SimulatedFlash {
    /// A blank one in memory.
    #[must_use]
    pub fn blank() -> Self {
        Self::of_bytes(&[])
    }

    /// One in memory that begins with these bytes, as many as it has place for;
    /// the rest is blank.
    #[must_use]
    pub fn of_bytes(bytes: &[u8]) -> Self {
        let mut all = vec![0xFF; SIZE];
        for (place, byte) in all.iter_mut().zip(bytes) {
            *place = *byte;
        }
        Self {
            bytes: all,
            file: None,
            cut: None,
            powered: true,
        }
    }

    /// One that is kept in a file, which is made where it is not there.
    ///
    /// # Errors
    /// [`FlashFileError`] where the file cannot be used, or is not this
    /// instrument's.
    pub fn in_file(path: &Path, built_into: BuiltInto) -> Result<Self, FlashFileError> {
        let system = |why| FlashFileError::System {
            path: path.to_owned(),
            why,
        };
        let exists = path.try_exists().map_err(system)?;
        if !exists {
            make(path, built_into).map_err(system)?;
        }
        let mut file = OpenOptions::new()
            .read(true)
            .write(true)
            .open(path)
            .map_err(system)?;
        match file.try_lock() {
            Ok(()) => {}
            Err(TryLockError::WouldBlock) => return Err(FlashFileError::InUse(path.to_owned())),
            Err(TryLockError::Error(why)) => return Err(system(why)),
        }
        let length = file.metadata().map_err(system)?.len();
        let mut bytes = Vec::new();
        if length == (HEAD + SIZE) as u64 {
            file.read_to_end(&mut bytes).map_err(system)?;
        } else {
            // What is too long is not read whole to find out what it is.
            let mut head = [0; MARK.len()];
            let whole = file.read_exact(&mut head).is_ok();
            return Err(if whole && head == MARK {
                FlashFileError::Size {
                    path: path.to_owned(),
                    bytes: length,
                }
            } else {
                FlashFileError::Content(path.to_owned())
            });
        }
        let Some((head, flash)) = bytes.split_at_checked(HEAD) else {
            return Err(FlashFileError::Content(path.to_owned()));
        };
        if !head.starts_with(&MARK) {
            return Err(FlashFileError::Content(path.to_owned()));
        }
        if head != built_into.head() {
            return Err(FlashFileError::OtherInstrument(path.to_owned()));
        }
        Ok(Self {
            file: Some(file),
            ..Self::of_bytes(flash)
        })
    }

    /// Every byte of it.
    #[must_use]
    pub fn bytes(&self) -> &[u8] {
        &self.bytes
    }

    /// Whether it has power.
    #[must_use]
    pub const fn is_powered(&self) -> bool {
        self.powered
    }

    /// The power comes back.
    pub const fn power_up(&mut self) {
        self.powered = true;
        self.cut = None;
    }

    /// The power will go in a write or an erase: after so many others, when
    /// this share of it (0 to 1) is done.
    pub const fn cut_power_in_operation(&mut self, after: usize, share: f64) {
        self.cut = Some(Cut {
            after,
            share: share.clamp(0.0, 1.0),
        });
    }

    /// Whether the power is going to go in an operation.
    #[must_use]
    pub const fn awaits_cut(&self) -> bool {
        self.cut.is_some()
    }

    /// Begins an operation of so many bytes: how many of them are done before
    /// the power goes; all of them where it does not.
    fn begin(&mut self, length: usize) -> Result<usize, FlashTrouble> {
        if !self.powered {
            return Err(FlashTrouble::NoPower);
        }
        match &mut self.cut {
            None => Ok(length),
            Some(cut) if cut.after > 0 => {
                cut.after -= 1;
                Ok(length)
            }
            Some(cut) => {
                let done = (length as f64 * cut.share) as usize;
                self.cut = None;
                self.powered = false;
                Ok(done.min(length))
            }
        }
    }

    /// Ends an operation on these bytes: they are in the file, too.
    fn end(&mut self, from: usize, to: usize) -> Result<(), FlashTrouble> {
        let bytes = self.bytes.get(from..to).unwrap_or_default();
        if let Some(file) = &mut self.file {
            // Word by word, so that a program that is killed leaves it half
            // done as a power cut would.
            let kept = file
                .seek(SeekFrom::Start((HEAD + from) as u64))
                .and_then(|_| {
                    bytes
                        .chunks(WORD * if bytes.len() < SECTOR { 1 } else { 64 })
                        .try_for_each(|words| file.write_all(words))
                });
            if kept.is_err() {
                return Err(FlashTrouble::File);
            }
        }
        if self.powered {
            Ok(())
        } else {
            Err(FlashTrouble::NoPower)
        }
    }
}

/// Makes the file of a blank flash: whole, or not at all.
fn make(path: &Path, built_into: BuiltInto) -> std::io::Result<()> {
    let mut unfinished = path.as_os_str().to_owned();
    unfinished.push(".new");
    let mut bytes = built_into.head().to_vec();
    bytes.resize(HEAD + SIZE, 0xFF);
    let mut file = File::create(&unfinished)?;
    file.write_all(&bytes)?;
    file.sync_all()?;
    std::fs::rename(&unfinished, path)
}

/// Where an operation lies, if it may.
fn place(from: u32, to: u32, unit: usize) -> Result<(usize, usize), FlashTrouble> {
    let (from, to) = (from as usize, to as usize);
    if !from.is_multiple_of(unit) || !to.is_multiple_of(unit) {
        return Err(FlashTrouble::NotAligned);
    }
    if from > to || to > SIZE {
        return Err(FlashTrouble::OutOfBounds);
    }
    Ok((from, to))
}

fn end_of(offset: u32, length: usize) -> Result<u32, FlashTrouble> {
    u32::try_from(length)
        .ok()
        .and_then(|length| offset.checked_add(length))
        .ok_or(FlashTrouble::OutOfBounds)
}

impl ErrorType for SimulatedFlash {
    type Error = FlashTrouble;
}

impl ReadNorFlash for SimulatedFlash {
    const READ_SIZE: usize = 1;

    fn read(&mut self, offset: u32, bytes: &mut [u8]) -> Result<(), FlashTrouble> {
        if !self.powered {
            return Err(FlashTrouble::NoPower);
        }
        let (from, to) = place(offset, end_of(offset, bytes.len())?, 1)?;
        for (byte, kept) in bytes
            .iter_mut()
            .zip(self.bytes.get(from..to).unwrap_or(&[]))
        {
            *byte = *kept;
        }
        Ok(())
    }

    fn capacity(&self) -> usize {
        SIZE
    }
}

impl NorFlash for SimulatedFlash {
    const WRITE_SIZE: usize = WORD;
    const ERASE_SIZE: usize = SECTOR;

    fn erase(&mut self, from: u32, to: u32) -> Result<(), FlashTrouble> {
        let (from, to) = place(from, to, SECTOR)?;
        let done = self.begin(to - from)?;
        for (place, byte) in self.bytes.iter_mut().take(to).skip(from).enumerate() {
            *byte = if place < done {
                0xFF
            } else {
                // Some bits have risen already.
                *byte | 0xA5
            };
        }
        self.end(from, to)
    }

    fn write(&mut self, offset: u32, bytes: &[u8]) -> Result<(), FlashTrouble> {
        let (from, to) = place(offset, end_of(offset, bytes.len())?, WORD)?;
        let done = self.begin(bytes.len())?;
        let whole = done / WORD * WORD;
        let kept = self.bytes.iter_mut().take(to).skip(from);
        for (place, (kept, byte)) in kept.zip(bytes).enumerate() {
            if place < whole {
                *kept &= byte;
            } else if place < whole + WORD && done < bytes.len() {
                // Some bits have fallen already.
                *kept &= byte | 0x5A;
            }
        }
        self.end(from, to)
    }
}

// A word may be cleared further without an erase, as in the boards' chips.
impl MultiwriteNorFlash for SimulatedFlash {}
