//! A flash that waits, behind the traits of one that does not.

use core::pin::pin;
use core::task::{Context, Poll, Waker};
use embedded_storage::nor_flash::{
    MultiwriteNorFlash, NorFlash, NorFlashError, NorFlashErrorKind, ReadNorFlash,
};
use embedded_storage_async::nor_flash as asynchronous;

/// A flash whose calls return when they are done.
#[derive(Debug)]
pub(super) struct Blocking<'f, F> {
    pub(super) flash: &'f mut F,
    /// Pages erased so far.
    pub(super) erases: &'f mut u32,
}

/// The flash's own error, for the asynchronous traits.
#[derive(Debug)]
pub(super) struct Failed(NorFlashErrorKind);

impl asynchronous::NorFlashError for Failed {
    fn kind(&self) -> asynchronous::NorFlashErrorKind {
        match self.0 {
            NorFlashErrorKind::NotAligned => asynchronous::NorFlashErrorKind::NotAligned,
            NorFlashErrorKind::OutOfBounds => asynchronous::NorFlashErrorKind::OutOfBounds,
            _ => asynchronous::NorFlashErrorKind::Other,
        }
    }
}

fn failed<E: NorFlashError>(error: E) -> Failed {
    Failed(error.kind())
}

impl<F: ReadNorFlash> asynchronous::ErrorType for Blocking<'_, F> {
    type Error = Failed;
}

impl<F: ReadNorFlash> asynchronous::ReadNorFlash for Blocking<'_, F> {
    const READ_SIZE: usize = F::READ_SIZE;

    async fn read(&mut self, offset: u32, bytes: &mut [u8]) -> Result<(), Failed> {
        self.flash.read(offset, bytes).map_err(failed)
    }

    fn capacity(&self) -> usize {
        self.flash.capacity()
    }
}

impl<F: NorFlash> asynchronous::NorFlash for Blocking<'_, F> {
    const WRITE_SIZE: usize = F::WRITE_SIZE;
    const ERASE_SIZE: usize = F::ERASE_SIZE;

    async fn erase(&mut self, from: u32, to: u32) -> Result<(), Failed> {
        *self.erases = self.erases.saturating_add(pages::<F>(from, to));
        self.flash.erase(from, to).map_err(failed)
    }

    async fn write(&mut self, offset: u32, bytes: &[u8]) -> Result<(), Failed> {
        self.flash.write(offset, bytes).map_err(failed)
    }
}

impl<F: MultiwriteNorFlash> asynchronous::MultiwriteNorFlash for Blocking<'_, F> {}

/// How many pages lie there.
pub(super) fn pages<F: NorFlash>(from: u32, to: u32) -> u32 {
    let page = u32::try_from(F::ERASE_SIZE).unwrap_or(u32::MAX).max(1);
    to.saturating_sub(from) / page
}

/// The outcome of a future over [`Blocking`], which never has to wait. `None`
/// where it did all the same.
pub(super) fn at_once<T>(future: impl Future<Output = T>) -> Option<T> {
    match pin!(future).poll(&mut Context::from_waker(Waker::noop())) {
        Poll::Ready(outcome) => Some(outcome),
        Poll::Pending => None,
    }
}
