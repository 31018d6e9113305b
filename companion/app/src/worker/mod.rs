//! Every thread beside the one that draws, in three kinds: a [`Worker`] answers what screens ask
//! of the record, a [`Publisher`] looks at something and publishes what it sees, and a [`Once`]
//! does one thing that takes a while. No other part of the app starts a thread.

mod once;
mod publisher;

pub(crate) use once::{Coming, Once};
pub(crate) use publisher::{Looking, Nudge, Publisher};

use crate::words::{Language, say};
use crossbeam_channel::{Receiver, Sender, unbounded};
use std::collections::VecDeque;
use std::io;
use std::mem::discriminant;
use std::thread::{self, JoinHandle};

/// A thread that ends by itself once nobody can tell it anything any more, and is waited for
/// then. In a handle it is the last field: what it listens to goes first.
#[derive(Debug)]
pub(crate) struct Thread(Option<JoinHandle<()>>);

impl Thread {
    pub(crate) fn start(name: &str, work: impl FnOnce() + Send + 'static) -> io::Result<Self> {
        let thread = thread::Builder::new().name(name.to_owned()).spawn(work)?;
        Ok(Self(Some(thread)))
    }
}

impl Drop for Thread {
    fn drop(&mut self) {
        if let Some(thread) = self.0.take() {
            // What was put on record is on the disk.
            let _ = thread.join();
        }
    }
}

/// The thread that answers has ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[error("nothing answers any more")]
pub struct NoWorker;

impl NoWorker {
    /// As a sentence of a language.
    pub(crate) fn in_words(self, language: Language) -> String {
        say!(language, "book-no-worker").into_owned()
    }
}

/// Something asked of the record, or for it.
pub(crate) trait Question: Send + 'static {
    /// Whether it puts something on record, so that it must never be left out.
    fn changes(&self) -> bool;
}

/// The thread's handle.
#[derive(Debug)]
pub(crate) struct Worker<Q, A> {
    questions: Sender<(u64, Q)>,
    answers: Receiver<(u64, A)>,
    asked: u64,
    _thread: Thread,
}

impl<Q: Question, A: Send + 'static> Worker<Q, A> {
    /// Starts the thread. `changed` is called, from it, after each answer.
    pub(crate) fn start(
        name: &str,
        mut answer: impl FnMut(Q) -> A + Send + 'static,
        changed: impl Fn() + Send + 'static,
    ) -> io::Result<Self> {
        let (questions, asked) = unbounded();
        let (answered, answers) = unbounded();
        let thread = Thread::start(name, move || {
            work(&asked, &answered, &mut answer, &changed);
        })?;
        Ok(Self {
            questions,
            answers,
            asked: 0,
            _thread: thread,
        })
    }

    /// Asks; the answer comes with this number.
    ///
    /// # Errors
    /// Where nobody answers any more.
    pub(crate) fn ask(&mut self, question: Q) -> Result<u64, NoWorker> {
        self.asked += 1;
        self.questions
            .send((self.asked, question))
            .map_err(|_| NoWorker)?;
        Ok(self.asked)
    }

    /// The next answer, where there is one.
    pub(crate) fn answer(&self) -> Option<(u64, A)> {
        self.answers.try_recv().ok()
    }
}

fn work<Q: Question, A>(
    asked: &Receiver<(u64, Q)>,
    answered: &Sender<(u64, A)>,
    answer: &mut impl FnMut(Q) -> A,
    changed: &impl Fn(),
) {
    let mut waiting: VecDeque<(u64, Q)> = VecDeque::new();
    loop {
        if waiting.is_empty() {
            match asked.recv() {
                Ok(question) => waiting.push_back(question),
                Err(_) => return,
            }
        }
        waiting.extend(asked.try_iter());
        let Some((number, question)) = waiting.pop_front() else {
            continue;
        };
        // Of the same question only the latest is waited for.
        let asked_again = waiting
            .iter()
            .any(|(_, later)| discriminant(later) == discriminant(&question));
        if asked_again && !question.changes() {
            continue;
        }
        if answered.send((number, answer(question))).is_err() {
            return;
        }
        changed();
    }
}
