//! The handle on the link's thread.

use super::request::{Request, Ticket};
use super::worker::Worker;
use super::{Dial, Hand, PracticeHand};
use crate::live::LiveScale;
use crossbeam_channel::{Sender, TrySendError};
use evenhand_store::Store;
use std::io;
use std::sync::atomic::{AtomicBool, AtomicU64, Ordering};
use std::sync::{Arc, Mutex, PoisonError};
use std::thread::JoinHandle;

/// How many requests may wait for the link's thread.
const WAITING: usize = 16;

/// What the thread and its handle share.
#[derive(Debug, Default)]
pub(super) struct Shared {
    bench: Mutex<Arc<LiveScale>>,
    pub(super) stop: AtomicBool,
}

impl Shared {
    pub(super) fn publish(&self, bench: LiveScale) {
        // Only whole values are ever put in, so a poisoned lock loses nothing.
        *self.bench.lock().unwrap_or_else(PoisonError::into_inner) = Arc::new(bench);
    }
}

/// The link to one instrument. Dropping it ends the thread; what the
/// instrument has not been told is recorded stays with it.
#[derive(Debug)]
pub struct Link {
    requests: Sender<(Ticket, Request)>,
    shared: Arc<Shared>,
    thread: Option<JoinHandle<()>>,
    next: AtomicU64,
    hand: Option<Hand>,
    practice: Option<PracticeHand>,
}

impl Link {
    /// Opens the link: from now on the thread calls the instrument, and calls
    /// again when it goes. `first`, if given, is asked as soon as the
    /// instrument is linked. `wake` is called from the thread after each
    /// change of the bench.
    ///
    /// # Errors
    /// Where the system gives no thread.
    pub fn open(
        dial: Box<dyn Dial>,
        store: Store,
        first: Option<Request>,
        wake: impl Fn() + Send + 'static,
    ) -> io::Result<Self> {
        let (requests, asked) = crossbeam_channel::bounded(WAITING);
        let shared = Arc::new(Shared::default());
        let first = first.map(|request| (Ticket(0), request));
        let (hand, practice) = (dial.hand(), dial.practice_hand());
        let for_thread = Arc::clone(&shared);
        let thread = std::thread::Builder::new()
            .name("evenhand-link".to_owned())
            .spawn(move || {
                Worker::new(dial, store, first, asked, for_thread, Box::new(wake)).run();
            })?;
        Ok(Self {
            requests,
            shared,
            thread: Some(thread),
            next: AtomicU64::new(1),
            hand,
            practice,
        })
    }

    /// The bench as it stands now.
    #[must_use]
    pub fn live(&self) -> Arc<LiveScale> {
        let bench = self
            .shared
            .bench
            .lock()
            .unwrap_or_else(PoisonError::into_inner);
        Arc::clone(&bench)
    }

    /// The hand at the bench, where that is a simulated one.
    #[must_use]
    pub const fn hand(&self) -> Option<&Hand> {
        self.hand.as_ref()
    }

    /// The hand that does everything there, where it is a practice bench.
    #[must_use]
    pub const fn practice_hand(&self) -> Option<&PracticeHand> {
        self.practice.as_ref()
    }

    /// Asks for something; the answer comes in [`LiveScale::answer`] under the
    /// ticket. `None` where too many requests wait already.
    pub fn ask(&self, request: Request) -> Option<Ticket> {
        let ticket = Ticket(self.next.fetch_add(1, Ordering::Relaxed));
        match self.requests.try_send((ticket, request)) {
            Ok(()) => Some(ticket),
            Err(TrySendError::Full(_) | TrySendError::Disconnected(_)) => None,
        }
    }

    /// Whether the thread is still there.
    #[must_use]
    pub fn is_running(&self) -> bool {
        self.thread
            .as_ref()
            .is_some_and(|thread| !thread.is_finished())
    }

    /// Ends the thread and waits for it.
    pub fn close(mut self) {
        self.end();
    }

    fn end(&mut self) {
        self.shared.stop.store(true, Ordering::Relaxed);
        if let Some(thread) = self.thread.take() {
            // A thread that panicked has ended too; its portions are with the
            // instrument or in the store.
            let _ = thread.join();
        }
    }
}

impl Drop for Link {
    fn drop(&mut self) {
        self.end();
    }
}
