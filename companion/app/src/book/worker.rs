//! What the book's screens ask of the record, answered beside the thread that
//! draws.

use super::BookRefusal;
use crossbeam_channel::{Receiver, Sender, unbounded};
use evenhand_kitchen::batch::BatchId;
use evenhand_kitchen::uptake::{IntoBath, OutOfBath, Soak};
use evenhand_store::Store;
use evenhand_use_cases::uptake::{self, Asked, InBath};
use jiff::Timestamp;
use std::collections::VecDeque;
use std::io;
use std::mem::discriminant;
use std::thread::JoinHandle;

/// Something asked of the record, or for it.
#[derive(Debug)]
pub(super) enum Question {
    /// The pieces that lie in a bath.
    Pieces,
    /// What is expected of one.
    Soak(Box<IntoBath>, Asked),
    /// Put one on record.
    PutIn(Box<IntoBath>, Timestamp),
    /// Put on record that one came out.
    TakeOut(BatchId, OutOfBath, Timestamp),
}

impl Question {
    /// Whether it puts something on record, so that it must never be left out.
    const fn changes(&self) -> bool {
        matches!(self, Self::PutIn(..) | Self::TakeOut(..))
    }
}

/// An answer.
#[derive(Debug)]
pub(super) enum Answer {
    Pieces(Vec<InBath>),
    Soak(uptake::Answer),
    WentIn(InBath),
    CameOut(Box<Soak>),
}

/// The thread's handle.
#[derive(Debug)]
pub(super) struct Worker {
    questions: Option<Sender<(u64, Question)>>,
    answers: Receiver<(u64, Result<Answer, BookRefusal>)>,
    asked: u64,
    thread: Option<JoinHandle<()>>,
}

impl Worker {
    /// Starts the thread. `changed` is called, from it, after each answer.
    pub(super) fn start(store: Store, changed: impl Fn() + Send + 'static) -> io::Result<Self> {
        let (questions, asked) = unbounded();
        let (answered, answers) = unbounded();
        let thread = std::thread::Builder::new()
            .name("evenhand-book".to_owned())
            .spawn(move || work(store, &asked, &answered, &changed))?;
        Ok(Self {
            questions: Some(questions),
            answers,
            asked: 0,
            thread: Some(thread),
        })
    }

    /// Asks; the answer comes with this number. `None` where nobody answers any
    /// more.
    pub(super) fn ask(&mut self, question: Question) -> Option<u64> {
        self.asked += 1;
        let questions = self.questions.as_ref()?;
        questions.send((self.asked, question)).ok()?;
        Some(self.asked)
    }

    /// The next answer, where there is one.
    pub(super) fn answer(&self) -> Option<(u64, Result<Answer, BookRefusal>)> {
        self.answers.try_recv().ok()
    }
}

impl Drop for Worker {
    fn drop(&mut self) {
        self.questions = None;
        if let Some(thread) = self.thread.take() {
            // What was put on record is on the disk.
            let _ = thread.join();
        }
    }
}

fn work(
    mut store: Store,
    asked: &Receiver<(u64, Question)>,
    answered: &Sender<(u64, Result<Answer, BookRefusal>)>,
    changed: &impl Fn(),
) {
    let mut waiting: VecDeque<(u64, Question)> = VecDeque::new();
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
        if answered
            .send((number, answer(&mut store, question)))
            .is_err()
        {
            return;
        }
        changed();
    }
}

fn answer(store: &mut Store, question: Question) -> Result<Answer, BookRefusal> {
    Ok(match question {
        Question::Pieces => Answer::Pieces(uptake::in_baths(store)?),
        Question::Soak(into, asked) => {
            Answer::Soak(uptake::ask(&uptake::own_soaks(store)?, &into, asked))
        }
        Question::PutIn(into, since) => {
            let id = uptake::put_in(store, None, &into, since)?;
            let into = *into;
            Answer::WentIn(InBath { id, into, since })
        }
        Question::TakeOut(id, out, at) => {
            Answer::CameOut(Box::new(uptake::take_out(store, id, out, at)?))
        }
    })
}
