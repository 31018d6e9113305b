//! Portions out of the memory, one at a time, each until it is acknowledged
//! once more.

use evenhand_protocol::{CapturedPortion, PortionId, Refusal, Uptime};

/// One that is not acknowledged is sent again after so long.
const RESEND_MS: u64 = 500;

/// Where it stands.
#[derive(Debug, Clone)]
enum State {
    /// Nobody has asked.
    Idle,
    /// The next one is wanted from the memory: that after this number, or the
    /// oldest.
    Wanted(Option<u32>),
    /// One is sent until it is acknowledged.
    Sending {
        number: u32,
        portion: CapturedPortion,
        sent: Option<Uptime>,
    },
}

/// What is sent again, and how much was.
#[derive(Debug, Clone)]
pub(crate) struct Recaller {
    state: State,
    count: u32,
    /// Whether there is a memory to ask: it has been seen to answer.
    has_memory: bool,
}

impl Recaller {
    pub(crate) const fn new() -> Self {
        Self {
            state: State::Idle,
            count: 0,
            has_memory: false,
        }
    }

    /// There is a memory that keeps acknowledged portions.
    pub(crate) const fn has_memory(&mut self) {
        self.has_memory = true;
    }

    /// Begins with the oldest.
    pub(crate) fn begin(&mut self) -> Result<(), Refusal> {
        if !self.has_memory {
            return Err(Refusal::Unknown);
        }
        self.state = State::Wanted(None);
        self.count = 0;
        Ok(())
    }

    pub(crate) fn give_up(&mut self) {
        self.state = State::Idle;
    }

    /// After which number the next one is wanted, where one is.
    pub(crate) const fn wanted(&self) -> Option<Option<u32>> {
        match self.state {
            State::Wanted(after) => Some(after),
            State::Idle | State::Sending { .. } => None,
        }
    }

    /// The next one came from the memory, or there is none: then how many were
    /// sent.
    pub(crate) fn take(&mut self, next: Option<(u32, CapturedPortion)>) -> Option<u32> {
        match next {
            Some((number, portion)) => {
                self.state = State::Sending {
                    number,
                    portion,
                    sent: None,
                };
                None
            }
            None => {
                self.state = State::Idle;
                Some(self.count)
            }
        }
    }

    pub(crate) fn acknowledge(&mut self, id: PortionId) {
        if let State::Sending {
            number, portion, ..
        } = &self.state
            && portion.id == id
        {
            self.count = self.count.saturating_add(1);
            self.state = State::Wanted(Some(*number));
        }
    }

    /// What is to be sent now.
    pub(crate) fn next(&mut self, now: Uptime) -> Option<CapturedPortion> {
        let State::Sending { portion, sent, .. } = &mut self.state else {
            return None;
        };
        if sent.is_some_and(|sent| now.since(sent) < RESEND_MS) {
            return None;
        }
        *sent = Some(now);
        Some(*portion)
    }
}
