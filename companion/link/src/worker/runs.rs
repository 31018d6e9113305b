//! Keeping the instrument in the run that is wanted.
//!
//! What is wanted is a state, not a command: an instrument that was unplugged
//! in the middle comes back without a run and is put into it again, and a run
//! that was to end while the cable was out is ended when it is back.

use super::{Purpose, Ticket, Worker};
use crate::live::{LiveRun, LiveTin, NotDone, Now};
use crate::session::Unmet;
use evenhand_kitchen::run::Run;
use evenhand_protocol::{Command, Goal, Mode, RunId};
use evenhand_store::{NewRun, Query, StoreError};

/// The run that the instrument is to be in.
#[derive(Debug, Clone, Copy)]
pub(super) struct Wanted {
    pub(super) run: RunId,
    pub(super) mode: Mode,
    pub(super) goal: Goal,
    /// End it when so many portions count.
    pub(super) count: Option<usize>,
    /// Who wants to know that it began.
    pub(super) announce: Option<Ticket>,
}

/// The run that is to end.
#[derive(Debug, Clone, Copy)]
pub(super) struct Stopping {
    pub(super) run: RunId,
    /// Whether the instrument said that it will end it.
    pub(super) promised: bool,
    /// Who wants to know that it ended.
    pub(super) announce: Option<Ticket>,
}

impl Worker {
    /// The instrument's own run, by a reading since it last said who it is.
    fn run_at_instrument(&self) -> Option<Option<RunId>> {
        let open = self.open.as_ref()?;
        let (_, reading) = self.bench.last_reading()?;
        (open.reading_seen && self.bench.link().is_linked()).then_some(reading.run)
    }

    /// Brings the instrument's run and the wanted one together.
    pub(super) fn settle_runs(&mut self, now: Now) {
        let Some(at_instrument) = self.run_at_instrument() else {
            return;
        };
        if let Some((ticket, request)) = self.first.take() {
            self.take_request(ticket, request);
        }
        if self
            .open
            .as_ref()
            .is_none_or(|open| open.session.is_asking())
        {
            return;
        }
        if let Some(stopping) = self.stopping {
            if at_instrument != Some(stopping.run) {
                self.run_stopped(now);
            } else if !stopping.promised {
                self.ask_for(Purpose::StopRun, Command::StopRun);
            }
        } else if let Some(wanted) = self.wanted {
            if at_instrument == Some(wanted.run) {
                self.run_started();
            } else {
                self.ask_for(
                    Purpose::StartRun,
                    Command::StartRun {
                        run: wanted.run,
                        mode: wanted.mode,
                        goal: wanted.goal,
                    },
                );
            }
        } else if let Some(run) = at_instrument {
            self.adopt_run(run);
        }
    }

    /// Begins a run, or goes on with the one that the instrument is in.
    pub(super) fn start_run(
        &mut self,
        ticket: Ticket,
        new: &NewRun,
        resume: bool,
        count: Option<usize>,
        now: Now,
    ) -> Result<(), StoreError> {
        let going_on = if resume { self.resumable(new)? } else { None };
        let run = match going_on {
            Some(run) => run,
            None => {
                if let Some(before) = self.wanted.take() {
                    self.store.end_run(before.run, now.wall)?;
                }
                self.store.begin_run(new, now.wall)?
            }
        };
        self.stopping = None;
        self.wanted = Some(Wanted {
            run: run.id,
            mode: run.mode,
            goal: run.goal,
            count,
            announce: Some(ticket),
        });
        self.show_run(run)?;
        self.stop_at_count();
        Ok(())
    }

    /// The run that the instrument is in, where it is the one asked for.
    fn resumable(&self, new: &NewRun) -> Result<Option<Run>, StoreError> {
        let Some(Some(at_instrument)) = self.run_at_instrument() else {
            return Ok(None);
        };
        Ok(self.store.run(at_instrument)?.filter(|run| {
            run.ended.is_none()
                && run.dish.as_ref() == Some(&new.dish)
                && (run.goal, run.mode) == (new.goal, new.mode)
                && (new.cook.is_none() || run.cook == new.cook)
                && (new.tin.is_none() || run.tin == new.tin)
        }))
    }

    /// Shows a run with what is on record of it.
    pub(super) fn show_run(&mut self, run: Run) -> Result<(), StoreError> {
        let portions = self.store.portions(&Query {
            run: Some(run.id),
            ..Query::default()
        })?;
        let tin = match run.tin {
            Some(id) => Some(LiveTin {
                tin: self.store.tin(id)?,
                taken: self.store.taken_from(id)?,
            }),
            None => None,
        };
        self.bench.run_is(Some(LiveRun::new(run, tin, portions)));
        Ok(())
    }

    /// Shows the run going on again, after something in it changed.
    pub(super) fn show_run_again(&mut self) -> Result<(), StoreError> {
        let shown = self.bench.run().map(|live| live.run.id);
        if let Some(run) = shown.map(|id| self.store.run(id)).transpose()?.flatten() {
            self.show_run(run)?;
        }
        Ok(())
    }

    /// Takes up a run that the instrument is in, where this store knows it and
    /// no other is wanted: the program was restarted in the middle.
    fn adopt_run(&mut self, id: RunId) {
        if self.considered == Some(id) {
            return;
        }
        self.considered = Some(id);
        let Ok(Some(run)) = self.store.run(id) else {
            return;
        };
        if run.ended.is_none() {
            self.wanted = Some(Wanted {
                run: id,
                mode: run.mode,
                goal: run.goal,
                count: None,
                announce: None,
            });
        }
        // Shown when it can be read; its next portion tries again.
        let _ = self.show_run(run);
    }

    /// Shows the run of a portion where no run is shown yet.
    pub(super) fn show_run_of_portion(&mut self, id: RunId) {
        if self.bench.run().is_none()
            && let Ok(Some(run)) = self.store.run(id)
        {
            let _ = self.show_run(run);
        }
    }

    /// Ends the run where as many portions count as were asked for.
    pub(super) fn stop_at_count(&mut self) {
        if let Some(wanted) = self.wanted
            && let Some(count) = wanted.count
            && let Some(live) = self.bench.run()
            && live.run.id == wanted.run
            && live.count() >= count
        {
            self.stop_run(wanted.announce);
        }
    }

    /// Wants no run any more.
    pub(super) fn stop_run(&mut self, announce: Option<Ticket>) {
        if let Some(wanted) = self.wanted.take() {
            self.stopping = Some(Stopping {
                run: wanted.run,
                promised: false,
                announce,
            });
        }
    }

    /// The instrument will end the run.
    pub(super) fn stop_promised(&mut self) {
        if let Some(stopping) = &mut self.stopping {
            stopping.promised = true;
        }
    }

    /// The instrument does not keep a promise over a restart or a lost link.
    pub(super) fn stop_not_promised(&mut self) {
        if let Some(stopping) = &mut self.stopping {
            stopping.promised = false;
        }
    }

    /// The instrument is in the wanted run.
    fn run_started(&mut self) {
        if let Some(wanted) = &mut self.wanted
            && let Some(ticket) = wanted.announce.take()
        {
            self.bench.answered(ticket.0, Ok(()));
        }
    }

    /// The instrument is out of the run that was to end.
    pub(super) fn run_stopped(&mut self, now: Now) {
        let Some(stopping) = self.stopping.take() else {
            return;
        };
        let ended = self
            .store
            .end_run(stopping.run, now.wall)
            .and_then(|()| self.show_run_again());
        self.empty_log();
        let answer = match ended {
            Ok(()) => Ok(()),
            Err(error) => {
                self.store_failed(&error, now);
                Err(NotDone::Store(error.to_string()))
            }
        };
        if let Some(ticket) = stopping.announce {
            self.bench.answered(ticket.0, answer);
        }
    }

    /// The simulated bench is over, and the run with it.
    pub(super) fn end_run_with_scenario(&mut self, now: Now) {
        let announce = self.wanted.and_then(|wanted| wanted.announce);
        self.stop_run(announce);
        self.run_stopped(now);
    }

    /// The instrument will not have the wanted run.
    pub(super) fn run_refused(&mut self, why: Unmet, now: Now) {
        let Some(wanted) = self.wanted.take() else {
            return;
        };
        if let Err(error) = self
            .store
            .end_run(wanted.run, now.wall)
            .and_then(|()| self.show_run_again())
        {
            self.store_failed(&error, now);
        }
        let ticket = wanted.announce.unwrap_or(Ticket(u64::MAX));
        self.bench.answered(ticket.0, Err(NotDone::Unmet(why)));
    }
}
