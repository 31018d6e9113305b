//! One thing that takes a while, beside the thread that draws.

use crossbeam_channel::{Receiver, TryRecvError, bounded};
use std::thread;

/// What is known of it.
#[derive(Debug)]
pub(crate) enum Coming<A> {
    /// It goes on, or nothing was begun.
    NotYet,
    /// It came to this, which is had once; `None` where it came to nothing.
    Done(Option<A>),
}

/// The thread's handle. Nobody waits for its end: a program that ends leaves it.
#[derive(Debug)]
pub(crate) struct Once<A>(Option<Receiver<Option<A>>>);

impl<A> Default for Once<A> {
    /// Nothing is begun.
    fn default() -> Self {
        Self(None)
    }
}

impl<A: Send + 'static> Once<A> {
    /// Begins it; `ended` is called, from its thread, when it has come to something. Where the
    /// system gives no thread, nothing is begun.
    pub(crate) fn begin(
        name: &str,
        work: impl FnOnce() -> Option<A> + Send + 'static,
        ended: impl FnOnce() + Send + 'static,
    ) -> Self {
        let (done, coming) = bounded(1);
        let begun = thread::Builder::new().name(name.to_owned()).spawn(move || {
            // Nobody listens any more where the program has ended.
            let _ = done.send(work());
            ended();
        });
        Self(begun.is_ok().then_some(coming))
    }

    /// Whether it goes on.
    pub(crate) const fn goes_on(&self) -> bool {
        self.0.is_some()
    }

    /// What it came to, once.
    pub(crate) fn take(&mut self) -> Coming<A> {
        match self.0.as_ref().map(Receiver::try_recv) {
            None | Some(Err(TryRecvError::Empty)) => Coming::NotYet,
            Some(Ok(done)) => {
                self.0 = None;
                Coming::Done(done)
            }
            Some(Err(TryRecvError::Disconnected)) => {
                self.0 = None;
                Coming::Done(None)
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Waits for the thread by what it does, not by the clock.
    fn taken<A: Send + 'static>(once: &mut Once<A>) -> Option<A> {
        loop {
            match once.take() {
                Coming::Done(done) => return done,
                Coming::NotYet => std::thread::yield_now(),
            }
        }
    }

    #[test]
    fn what_it_came_to_is_had_once() {
        let mut once = Once::begin("test", || Some(7), || ());
        assert!(once.goes_on());
        assert_eq!(taken(&mut once), Some(7));
        assert!(!once.goes_on());
        assert!(matches!(once.take(), Coming::NotYet));
    }

    #[test]
    fn one_that_breaks_off_is_over() {
        let mut once = Once::<u8>::begin("test", || panic!("on purpose"), || ());
        assert_eq!(taken(&mut once), None);
        assert!(!once.goes_on());
    }
}
