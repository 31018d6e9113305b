//! A flash that waits, behind the traits of one that does not.

use core::pin::pin;
use core::task::{Context, Poll, Waker};
use embedded_storage::nor_flash::{
    MultiwriteNorFlash, NorFlash, NorFlashError, NorFlashErrorKind, ReadNorFlash,
};
use embedded_storage_async::nor_flash as asynchronous;

/// A flash whose calls return when they are done.
#[derive(Debug)]
pub(super) struct Blocking<'f, F>(pub(super) &'f mut F);

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
        self.0.read(offset, bytes).map_err(failed)
    }

    fn capacity(&self) -> usize {
        self.0.capacity()
    }
}

impl<F: NorFlash> asynchronous::NorFlash for Blocking<'_, F> {
    const WRITE_SIZE: usize = F::WRITE_SIZE;
    const ERASE_SIZE: usize = F::ERASE_SIZE;

    async fn erase(&mut self, from: u32, to: u32) -> Result<(), Failed> {
        self.0.erase(from, to).map_err(failed)
    }

    async fn write(&mut self, offset: u32, bytes: &[u8]) -> Result<(), Failed> {
        self.0.write(offset, bytes).map_err(failed)
    }
}

impl<F: MultiwriteNorFlash> asynchronous::MultiwriteNorFlash for Blocking<'_, F> {}

/// The outcome of a future over [`Blocking`], which never has to wait. `None`
/// where it did all the same.
pub(super) fn at_once<T>(future: impl Future<Output = T>) -> Option<T> {
    match pin!(future).poll(&mut Context::from_waker(Waker::noop())) {
        Poll::Ready(outcome) => Some(outcome),
        Poll::Pending => None,
    }
}
