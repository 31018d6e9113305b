//! The batch of a preparation for one service, as far as it is on record.

use super::supply::OnRecord;
use super::{PrepError, PrepQuestion};
use evenhand_kitchen::batch::BatchId;
use evenhand_kitchen::prep::{BatchOf, By, Event, Happened, OfPreparation, TickedBy, batch_name};
use evenhand_store::Store;
use evenhand_words::Language;
use jiff::Timestamp;
use jiff::civil::Date;
use jiff::tz::TimeZone;

/// Why there is no such batch.
#[derive(Debug, thiserror::Error)]
pub enum MadeForError {
    /// The menu or the record.
    #[error(transparent)]
    Prep(#[from] PrepError),
    /// The menu does not make it in batches.
    #[error("{wanted:?} is not made in batches by the menu for {day}; these are: {known}")]
    NotInBatches {
        /// What was asked for.
        wanted: String,
        /// The day.
        day: Date,
        /// What is made in batches.
        known: String,
    },
}

/// A preparation's batch for a service.
#[derive(Debug, Clone)]
pub struct MadeFor {
    /// The preparation, as the menu writes it.
    pub preparation: String,
    /// The day of the service.
    pub day: Date,
    /// Which of the batches for that service, from 1.
    pub nth: u32,
    /// What the menu says of a batch.
    pub batch: BatchOf,
    /// How far it has come.
    pub standing: OfPreparation,
    /// When its first step was begun or done, where that was told or seen.
    pub made: Option<Timestamp>,
    /// The full name of its last step.
    pub last_step: String,
    /// Batches on record that ticked steps of it.
    pub recorded: Vec<BatchId>,
}

impl MadeFor {
    /// Finds it by the preparation's name in any case; `necks (2)` is the second batch for that
    /// service.
    ///
    /// # Errors
    /// [`MadeForError`].
    pub fn of(
        store: &Store,
        day: Date,
        preparation: &str,
        now: Timestamp,
        zone: &TimeZone,
    ) -> Result<Self, MadeForError> {
        let question = PrepQuestion {
            day,
            menu: None,
            covers: None,
            days_ahead: 0,
            what_if: &[],
            now,
            zone,
            language: Language::English,
            unwanted: None,
        };
        let record = OnRecord::read(store, &question)?;
        let wanted = preparation.trim();
        let found = record
            .board_of(day, wanted)?
            .ok_or(PrepError::NoMenu(day))?;
        let known = |(name, batch): (&str, &BatchOf)| (name.to_owned(), batch.clone());
        let (of, nth) = found.board.batch_of(wanted);
        let Some((preparation, batch)) = found
            .board
            .batches()
            .find(|(name, _)| name.eq_ignore_ascii_case(of))
            .map(known)
        else {
            let names: Vec<&str> = found.board.batches().map(|(name, _)| name).collect();
            return Err(MadeForError::NotInBatches {
                wanted: wanted.to_owned(),
                day,
                known: if names.is_empty() {
                    String::from("none")
                } else {
                    names.join(", ")
                },
            });
        };
        let name = batch_name(&preparation, nth);
        let mut recorded = Vec::new();
        let mut last_step = String::new();
        let mut first_step = None;
        for (step, known) in found.board.steps().filter(|(_, s)| s.preparation == name) {
            last_step = known.full_name();
            first_step.get_or_insert_with(|| last_step.clone());
            let Some(TickedBy::Batch { title }) = found.board.ticker(step) else {
                continue;
            };
            let begun = found.events.iter().find(|event| {
                event.by == By::Bench && event.what == Happened::Begun && event.step == last_step
            });
            if let Some(begun) = begun {
                let all = store.batches_titled(title).map_err(PrepError::from)?;
                let mine = all.iter().filter(|(_, it)| it.begun() == Some(begun.at));
                recorded.extend(mine.map(|(id, _)| *id));
            }
        }
        let standing = found.board.of_preparation(&name);
        // What a later step implies has no time of its own.
        let of_first = |event: &&Event| {
            let was = matches!(event.what, Happened::Begun | Happened::Done);
            was && first_step
                .as_ref()
                .is_some_and(|first| first.eq_ignore_ascii_case(&event.step))
        };
        let made = match standing {
            OfPreparation::Open => None,
            _ => found
                .events
                .iter()
                .filter(of_first)
                .map(|event| event.at)
                .min(),
        };
        Ok(Self {
            standing,
            made,
            preparation,
            day,
            nth,
            batch,
            last_step,
            recorded,
        })
    }

    /// What tells it from others: the day of its service, with its number where it is not the
    /// first for that, and the numbers of its batches on record.
    #[must_use]
    pub fn lot(&self) -> String {
        let service = batch_name(&self.day.to_string(), self.nth);
        if self.recorded.is_empty() {
            return service;
        }
        let numbers: Vec<String> = self.recorded.iter().map(|id| id.to_string()).collect();
        format!("{service} / {}", numbers.join(" "))
    }

    /// When it was finished by, if it was.
    #[must_use]
    pub fn ready(&self, by: Timestamp) -> Option<Timestamp> {
        match self.standing {
            OfPreparation::Finished { ready, .. } if ready <= by => Some(ready),
            _ => None,
        }
    }
}
