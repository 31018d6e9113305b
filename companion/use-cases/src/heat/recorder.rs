//! Recording a probe into a named log.

use evenhand_kitchen::heat::{HeatLog, Kept, LogName, LogPoint, Sampler, Sampling};
use evenhand_protocol::{Reading, Temperature};
use evenhand_store::{HeatLogId, Store, StoreError};
use jiff::{SignedDuration, Timestamp};

/// How long a probe may say nothing before it is a gap. A converter that is
/// asked too early says nothing once, and nothing was missed.
const SILENCE: SignedDuration = SignedDuration::from_secs(5);

/// What every probe of the instrument reads, in their order. The present link
/// carries one.
#[must_use]
pub fn probes(reading: &Reading) -> Vec<Option<Temperature>> {
    vec![reading.temperature]
}

/// Records one probe into one log. What is kept is on the disk when
/// [`Recorder::take`] returns; after a restart a new recorder goes on where the
/// record ends.
#[derive(Debug)]
pub struct Recorder {
    name: LogName,
    log: HeatLogId,
    sampler: Sampler,
    /// Kept, and not on the disk yet because the store failed.
    waiting: Vec<Kept>,
    heard: Option<Timestamp>,
}

impl Recorder {
    /// Opens a log, or begins it.
    ///
    /// # Errors
    /// Where the store cannot be read or written.
    pub fn open(
        store: &mut Store,
        name: LogName,
        rule: Sampling,
        now: Timestamp,
    ) -> Result<Self, StoreError> {
        let log = store.open_heat_log(&name, HeatLog::USUAL_STEP, now)?;
        let last = store
            .heat_logs()?
            .into_iter()
            .find(|listed| listed.id == log)
            .and_then(|listed| listed.last);
        Ok(Self {
            name,
            log,
            sampler: Sampler::after(rule, last),
            waiting: Vec::new(),
            heard: None,
        })
    }

    /// The log's name.
    #[must_use]
    pub const fn name(&self) -> &LogName {
        &self.name
    }

    /// The latest reading, kept or not.
    #[must_use]
    pub fn latest(&self) -> Option<LogPoint> {
        self.sampler.latest()
    }

    /// Takes in what the probe reads at a moment, or that it reads nothing.
    /// Returns what was put on record. Where the store fails, what is kept
    /// waits and is put on record the next time.
    ///
    /// # Errors
    /// [`StoreError::Heat`] for a moment before the last one (a clock was set
    /// back): the reading is left aside and the record goes on when the clock
    /// has caught up; or where the store cannot be written.
    pub fn take(
        &mut self,
        store: &mut Store,
        at: Timestamp,
        temperature: Option<Temperature>,
    ) -> Result<Vec<Kept>, StoreError> {
        // To the record's own millisecond, so that a restart finds what it wrote.
        let at = Timestamp::from_millisecond(at.as_millisecond()).unwrap_or(at);
        match temperature {
            Some(temperature) => {
                self.heard = Some(at);
                let kept = self.sampler.take(LogPoint { at, temperature })?;
                self.waiting.extend(kept);
            }
            None => {
                let silent = self
                    .heard
                    .is_some_and(|heard| at.duration_since(heard) > SILENCE);
                if silent {
                    self.heard = None;
                    self.waiting.extend(self.sampler.break_off());
                }
            }
        }
        self.write(store)
    }

    /// Puts the last reading on record at the end.
    ///
    /// # Errors
    /// Where the store cannot be written.
    pub fn close(mut self, store: &mut Store) -> Result<Vec<Kept>, StoreError> {
        self.waiting.extend(self.sampler.break_off());
        self.write(store)
    }

    fn write(&mut self, store: &mut Store) -> Result<Vec<Kept>, StoreError> {
        store.keep_heat(self.log, &self.waiting)?;
        Ok(std::mem::take(&mut self.waiting))
    }
}
