//! A thread that looks at something and publishes what it sees where that differs. It sleeps
//! until it is told something, is nudged, or something changes by itself.

use super::Thread;
use crossbeam_channel::{Receiver, Sender, TrySendError, bounded, select, unbounded};
use std::io;
use std::sync::{Arc, Mutex, PoisonError};
use std::time::Duration;

/// What is looked at.
pub(crate) trait Looking: Send + 'static {
    /// What it can be told.
    type Told: Send + 'static;
    /// What is seen of it.
    type Seen: PartialEq + Send + Sync + 'static;

    /// Takes in what it was told; a look follows.
    fn take_in(&mut self, told: Self::Told);

    /// Looks; returns what is seen, and how long until that changes by itself.
    fn look(&mut self) -> (Self::Seen, Duration);

    /// Something new was published.
    fn published(&self, _seen: &Self::Seen) {}

    /// Nobody can tell it anything any more.
    fn end(&mut self) {}
}

/// A way to make a thread look again. Never blocks.
#[derive(Debug, Clone)]
pub struct Nudge(Sender<()>);

impl Nudge {
    /// Has it look again soon; one look covers any number of nudges.
    pub fn nudge(&self) {
        match self.0.try_send(()) {
            Ok(()) | Err(TrySendError::Full(()) | TrySendError::Disconnected(())) => {}
        }
    }
}

/// The thread's handle.
#[derive(Debug)]
pub(crate) struct Publisher<T, S> {
    looks: Sender<()>,
    tells: Option<Sender<T>>,
    seen: Arc<Mutex<Arc<S>>>,
    _thread: Thread,
}

impl<T: Send + 'static, S: PartialEq + Send + Sync + 'static> Publisher<T, S> {
    /// Starts looking; `first` is seen until then. `changed` is called, from the thread, when
    /// what is seen has changed.
    pub(crate) fn start(
        name: &str,
        mut looking: impl Looking<Told = T, Seen = S>,
        first: S,
        changed: impl Fn() + Send + 'static,
    ) -> io::Result<Self> {
        let (looks, looked) = bounded(1);
        let (tells, told) = unbounded();
        let seen = Arc::new(Mutex::new(Arc::new(first)));
        let publishing = Arc::clone(&seen);
        let thread = Thread::start(name, move || {
            loop {
                let wait = publish(&mut looking, &publishing, &changed);
                match sleep(&looked, &told, wait) {
                    Wake::Look => {}
                    Wake::Told(told) => looking.take_in(told),
                    Wake::End => return looking.end(),
                }
            }
        })?;
        Ok(Self {
            looks,
            tells: Some(tells),
            seen,
            _thread: thread,
        })
    }

    /// A way to make it look again.
    pub(crate) fn nudge(&self) -> Nudge {
        Nudge(self.looks.clone())
    }

    /// Tells it something.
    pub(crate) fn tell(&self, told: T) {
        if let Some(tells) = &self.tells {
            // It ends only when this handle does.
            let _ = tells.send(told);
        }
    }

    /// What was seen last.
    pub(crate) fn seen(&self) -> Arc<S> {
        Arc::clone(&self.seen.lock().unwrap_or_else(PoisonError::into_inner))
    }

    /// Has it end after what it does now, without waiting for that.
    pub(crate) fn close(&mut self) {
        self.tells = None;
    }
}

fn publish<L: Looking>(
    looking: &mut L,
    seen: &Mutex<Arc<L::Seen>>,
    changed: &impl Fn(),
) -> Duration {
    let (now, wait) = looking.look();
    let mut before = seen.lock().unwrap_or_else(PoisonError::into_inner);
    if **before == now {
        return wait;
    }
    let now = Arc::new(now);
    *before = Arc::clone(&now);
    drop(before);
    looking.published(&now);
    changed();
    wait
}

enum Wake<T> {
    Look,
    Told(T),
    End,
}

fn sleep<T>(looked: &Receiver<()>, told: &Receiver<T>, wait: Duration) -> Wake<T> {
    select! {
        recv(looked) -> looked => match looked {
            Ok(()) => Wake::Look,
            // What it is told still comes; its end ends the thread.
            Err(_) => told.recv().map_or(Wake::End, Wake::Told),
        },
        recv(told) -> told => told.map_or(Wake::End, Wake::Told),
        default(wait) => Wake::Look,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Half of what it was told last; says to whoever listens what became of it.
    struct Half {
        told: u32,
        became: Sender<&'static str>,
    }

    impl Looking for Half {
        type Told = u32;
        type Seen = u32;

        fn take_in(&mut self, told: u32) {
            self.told = told;
            let _ = self.became.send("told");
        }

        fn look(&mut self) -> (u32, Duration) {
            let _ = self.became.send("looked");
            (self.told / 2, Duration::MAX)
        }

        fn published(&self, _: &u32) {
            let _ = self.became.send("published");
        }

        fn end(&mut self) {
            let _ = self.became.send("ended");
        }
    }

    fn half() -> (Publisher<u32, u32>, Receiver<&'static str>) {
        let (became, heard) = unbounded();
        let changed = became.clone();
        let looking = Half { told: 0, became };
        let half = Publisher::start("test", looking, 0, move || {
            let _ = changed.send("changed");
        });
        (half.unwrap(), heard)
    }

    #[test]
    fn only_what_differs_is_published() {
        let (half, heard) = half();
        assert_eq!(heard.recv(), Ok("looked"));
        half.tell(7);
        let all: Vec<_> = heard.iter().take(4).collect();
        assert_eq!(all, ["told", "looked", "published", "changed"]);
        assert_eq!(*half.seen(), 3);
        // Six halves the same as seven.
        half.tell(6);
        half.nudge().nudge();
        drop(half);
        let rest: Vec<_> = heard.iter().collect();
        assert!(rest.contains(&"told"), "{rest:?}");
        assert!(!rest.contains(&"published"), "{rest:?}");
        assert!(!rest.contains(&"changed"), "{rest:?}");
    }

    #[test]
    fn what_it_was_told_is_carried_out_before_it_ends_though_nudges_are_about() {
        let (mut half, heard) = half();
        let _nudge = half.nudge();
        for number in 1..=20 {
            half.tell(number);
        }
        half.close();
        drop(half);
        let all: Vec<_> = heard.iter().collect();
        assert_eq!(all.iter().filter(|what| **what == "told").count(), 20);
        assert_eq!(all.last(), Some(&"ended"));
    }
}
