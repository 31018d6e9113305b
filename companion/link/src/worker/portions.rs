//! Portions: on record first, acknowledged then.

use super::Worker;
use crate::live::{Now, Trouble, TroubleKind};
use evenhand_protocol::CapturedPortion;
use evenhand_store::{Recorded, RefusedPortion, StoreError};
use std::time::{Duration, Instant};

/// How long to leave a store alone that failed.
const STORE_PAUSE: Duration = Duration::from_secs(1);

impl Worker {
    pub(super) fn hear_portion(&mut self, captured: &CapturedPortion, now: Now) {
        if self.store_retry.is_some_and(|retry| now.steady < retry) {
            return;
        }
        if !self.portions.allows(now.steady) {
            // Kept by the instrument, and taken when its turn comes.
            self.bench.store_trouble_is(Some(Trouble {
                since: now.wall,
                kind: TroubleKind::TooFast,
            }));
            return;
        }
        let of_another = self
            .bench
            .hello()
            .is_none_or(|hello| hello.device != captured.id.device);
        if of_another {
            // Evidence only, and not acknowledged: whoever captured it has it.
            let why = RefusedPortion::OtherInstrument;
            match self.store.refuse(captured, why, now.wall) {
                Ok(recorded) => self.show(recorded, now),
                Err(error) => self.store_failed(&error, now),
            }
            return;
        }
        let outcome = self.store.record(captured, self.clock.as_ref(), now.wall);
        match outcome {
            Ok(recorded) => {
                self.store_works();
                self.in_log = Some(Instant::now());
                if let Some(open) = &mut self.open {
                    open.session.acknowledge(captured.id);
                }
                self.show(recorded, now);
            }
            // Not acknowledged, so the instrument keeps it and sends it again.
            Err(error) => self.store_failed(&error, now),
        }
    }

    fn show(&mut self, recorded: Recorded, now: Now) {
        match recorded {
            Recorded::New { portion, .. } => {
                self.show_run_of_portion(portion.run);
                self.bench.portion_recorded(&portion);
                self.stop_at_count();
            }
            Recorded::Already => {}
            Recorded::Refused(why) => self.bench.store_trouble_is(Some(Trouble {
                since: now.wall,
                kind: TroubleKind::Refused(why),
            })),
        }
    }

    pub(super) fn store_failed(&mut self, error: &StoreError, now: Now) {
        self.store_retry = now.steady.checked_add(STORE_PAUSE);
        let since = self
            .bench
            .store_trouble()
            .map_or(now.wall, |trouble| trouble.since);
        self.bench.store_trouble_is(Some(Trouble {
            since,
            kind: TroubleKind::Store(error.to_string()),
        }));
    }

    fn store_works(&mut self) {
        if self.store_retry.take().is_some() {
            self.bench.store_trouble_is(None);
        }
    }
}
