//! A thread that answers what screens ask of the record, beside the one that draws.

use crossbeam_channel::{Receiver, Sender, unbounded};
use std::collections::VecDeque;
use std::io;
use std::mem::discriminant;
use std::thread::JoinHandle;

/// Something asked of the record, or for it.
pub(crate) trait Question: Send + 'static {
    /// Whether it puts something on record, so that it must never be left out.
    fn changes(&self) -> bool;
}

/// The thread's handle.
#[derive(Debug)]
pub(crate) struct Worker<Q, A> {
    questions: Option<Sender<(u64, Q)>>,
    answers: Receiver<(u64, A)>,
    asked: u64,
    thread: Option<JoinHandle<()>>,
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
        let thread = std::thread::Builder::new()
            .name(name.to_owned())
            .spawn(move || work(&asked, &answered, &mut answer, &changed))?;
        Ok(Self {
            questions: Some(questions),
            answers,
            asked: 0,
            thread: Some(thread),
        })
    }

    /// Asks; the answer comes with this number. `None` where nobody answers any more.
    pub(crate) fn ask(&mut self, question: Q) -> Option<u64> {
        self.asked += 1;
        let questions = self.questions.as_ref()?;
        questions.send((self.asked, question)).ok()?;
        Some(self.asked)
    }

    /// The next answer, where there is one.
    pub(crate) fn answer(&self) -> Option<(u64, A)> {
        self.answers.try_recv().ok()
    }
}

impl<Q, A> Drop for Worker<Q, A> {
    fn drop(&mut self) {
        self.questions = None;
        if let Some(thread) = self.thread.take() {
            // What was put on record is on the disk.
            let _ = thread.join();
        }
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
