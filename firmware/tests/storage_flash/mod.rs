//! A NOR flash in memory that loses its power at a chosen operation.

use embedded_storage::nor_flash::{
    ErrorType, MultiwriteNorFlash, NorFlash, NorFlashError, NorFlashErrorKind, ReadNorFlash,
};

/// Bytes in a page: small, so that a short day erases often.
pub const PAGE: usize = 512;
/// Bytes in a word.
pub const WORD: usize = 4;

/// How far the operation gets in which the power goes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Cut {
    /// Nothing of it happens.
    Before,
    /// The first half of its bytes happens.
    Half,
    /// The first half of its words, and of the next some bits only: a word
    /// that was being written reads as neither.
    TornWord,
    /// All of it happens, and nobody hears.
    After,
}

pub const CUTS: [Cut; 4] = [Cut::Before, Cut::Half, Cut::TornWord, Cut::After];

#[derive(Debug, PartialEq, Eq)]
pub enum Trouble {
    NoPower,
    Misused,
}

impl NorFlashError for Trouble {
    fn kind(&self) -> NorFlashErrorKind {
        NorFlashErrorKind::Other
    }
}

/// Writes only clear bits; only an erase sets them.
#[derive(Debug, Clone)]
pub struct Flash {
    pub bytes: Vec<u8>,
    /// Writes and erases so far.
    pub operations: u32,
    pub erases: Vec<u32>,
    pub written: u64,
    /// The operation in which the power goes.
    pub cut: Option<(u32, Cut)>,
    pub powered: bool,
}

impl Flash {
    pub fn new(pages: usize) -> Self {
        Self {
            bytes: vec![0xFF; pages * PAGE],
            operations: 0,
            erases: vec![0; pages],
            written: 0,
            cut: None,
            powered: true,
        }
    }

    /// The power comes back.
    pub fn power_up(&mut self) {
        self.powered = true;
        self.cut = None;
    }

    /// Counts an operation and says whether the power goes in it.
    fn operate(&mut self) -> Result<Option<Cut>, Trouble> {
        if !self.powered {
            return Err(Trouble::NoPower);
        }
        let cut = self.cut.filter(|(at, _)| *at == self.operations);
        self.operations += 1;
        if cut.is_some() {
            self.powered = false;
        }
        Ok(cut.map(|(_, cut)| cut))
    }
}

impl ErrorType for Flash {
    type Error = Trouble;
}

impl ReadNorFlash for Flash {
    const READ_SIZE: usize = WORD;

    fn read(&mut self, offset: u32, bytes: &mut [u8]) -> Result<(), Trouble> {
        if !self.powered {
            return Err(Trouble::NoPower);
        }
        let from = offset as usize;
        let place = self.bytes.get(from..from + bytes.len());
        bytes.copy_from_slice(place.ok_or(Trouble::Misused)?);
        Ok(())
    }

    fn capacity(&self) -> usize {
        self.bytes.len()
    }
}

impl NorFlash for Flash {
    const WRITE_SIZE: usize = WORD;
    const ERASE_SIZE: usize = PAGE;

    fn erase(&mut self, from: u32, to: u32) -> Result<(), Trouble> {
        let (from, to) = (from as usize, to as usize);
        if !from.is_multiple_of(PAGE) || !to.is_multiple_of(PAGE) || to > self.bytes.len() {
            return Err(Trouble::Misused);
        }
        let cut = self.operate()?;
        let done = match cut {
            Some(Cut::Before) => 0,
            Some(Cut::Half | Cut::TornWord) => (to - from) / 2,
            Some(Cut::After) | None => to - from,
        };
        self.bytes[from..from + done].fill(0xFF);
        if cut == Some(Cut::TornWord) {
            // Some bits of the rest have risen already.
            for byte in &mut self.bytes[from + done..to] {
                *byte |= 0xA5;
            }
        }
        self.erases[from / PAGE] += 1;
        match cut {
            Some(_) => Err(Trouble::NoPower),
            None => Ok(()),
        }
    }

    fn write(&mut self, offset: u32, bytes: &[u8]) -> Result<(), Trouble> {
        let from = offset as usize;
        if !from.is_multiple_of(WORD)
            || !bytes.len().is_multiple_of(WORD)
            || from + bytes.len() > self.bytes.len()
        {
            return Err(Trouble::Misused);
        }
        let cut = self.operate()?;
        let done = match cut {
            Some(Cut::Before) => 0,
            Some(Cut::Half) => bytes.len() / 2,
            Some(Cut::TornWord) => bytes.len() / WORD / 2 * WORD,
            Some(Cut::After) | None => bytes.len(),
        };
        for (place, byte) in self.bytes[from..].iter_mut().zip(&bytes[..done]) {
            *place &= byte;
        }
        if cut == Some(Cut::TornWord) {
            for (place, byte) in self.bytes[from + done..]
                .iter_mut()
                .zip(&bytes[done..])
                .take(WORD)
            {
                *place &= byte | 0x5A;
            }
        }
        self.written += done as u64;
        match cut {
            Some(_) => Err(Trouble::NoPower),
            None => Ok(()),
        }
    }
}

impl MultiwriteNorFlash for Flash {}
