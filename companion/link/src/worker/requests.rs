//! What is asked of the link, and the answers.

use super::{Request, Ticket, Worker};
use crate::live::{NotDone, Now};
use crate::session::Unmet;
use evenhand_protocol::{Command, Goal, Refusal, SelfTestRefusal};
use evenhand_store::StoreError;
use std::time::{Duration, Instant};

/// What a command to the instrument was for.
#[derive(Debug, Clone, Copy)]
pub(super) enum Purpose {
    /// To be in the wanted run.
    StartRun,
    /// To be out of the run that was to end.
    StopRun,
    /// To know the time.
    Time,
    /// Somebody asked, and is told when it is done.
    Told(Ticket),
    /// Somebody asked for another goal.
    Goal(Ticket, Goal),
    /// Somebody asked for something that needs a steady load, and is told when
    /// it is done: while the load moves it is asked again, until then.
    Steady(Ticket, Command, Instant),
}

/// How long a load may take to come to rest.
const STEADY_PATIENCE: Duration = Duration::from_secs(15);

impl Worker {
    /// Asks the instrument for something.
    pub(super) fn ask_for(&mut self, purpose: Purpose, command: Command) {
        let own = Ticket(self.next_own);
        self.next_own = self.next_own.wrapping_add(1) | 1 << 63;
        if self.stranger.is_none()
            && let Some(open) = &mut self.open
        {
            self.purposes.push((own, purpose));
            open.session.ask(own, command);
        } else if let Purpose::Told(ticket)
        | Purpose::Goal(ticket, _)
        | Purpose::Steady(ticket, ..) = purpose
        {
            self.answer_not_linked(ticket);
        }
    }

    pub(super) fn take_request(&mut self, ticket: Ticket, request: Request) {
        let now = self.now();
        match request {
            Request::StartRun { run, resume, count } => {
                if !self.bench.link().is_linked() {
                    self.answer_not_linked(ticket);
                } else if let Err(error) = self.start_run(ticket, &run, resume, count, now) {
                    let why = NotDone::Store(error.to_string());
                    self.bench.answered(ticket.0, Err(why));
                }
            }
            Request::StopRun => {
                if self.wanted.is_none() {
                    self.bench.answered(ticket.0, Err(NotDone::NoRun));
                } else {
                    self.stop_run(Some(ticket));
                }
            }
            Request::SetGoal(goal) => {
                self.ask_for(Purpose::Goal(ticket, goal), Command::SetGoal(goal))
            }
            Request::Tare => self.ask_for(Purpose::Told(ticket), Command::Tare),
            Request::ClearTare => {
                self.ask_for(Purpose::Told(ticket), Command::ClearTare);
            }
            Request::Zero => self.ask_for(Purpose::Told(ticket), Command::Zero),
            Request::Strike(id, reason) => {
                let done = self.store.strike(id, &reason, now.wall).map(drop);
                self.answer_stored(ticket, done);
            }
            Request::LiftStrike(id) => {
                let done = self.store.lift_strike(id, now.wall).map(drop);
                self.answer_stored(ticket, done);
            }
            Request::BeginCalibration => {
                self.ask_for(Purpose::Told(ticket), Command::BeginCalibration)
            }
            Request::TakePoint(known) => {
                self.ask_when_steady(ticket, Command::TakePoint(known), now);
            }
            Request::FinishCalibration => {
                self.ask_for(Purpose::Told(ticket), Command::FinishCalibration)
            }
            Request::CancelCalibration => {
                self.ask_for(Purpose::Told(ticket), Command::CancelCalibration)
            }
            Request::TestWeight(known) => {
                self.ask_when_steady(ticket, Command::TestWeight(known), now);
            }
            Request::ZeroWhenSteady => {
                self.ask_when_steady(ticket, Command::Zero, now);
            }
            Request::Set(setting) => {
                self.ask_for(Purpose::Told(ticket), Command::Set(setting));
            }
            Request::Recall => self.ask_for(Purpose::Told(ticket), Command::Recall),
            Request::Diagnose => self.ask_for(Purpose::Told(ticket), Command::Diagnose),
            Request::UndoLast => {
                let run = self.bench.run().map(|live| live.run.id);
                let done = self.store.undo_last(run, now.wall).map(drop);
                self.answer_stored(ticket, done);
            }
        }
    }

    fn ask_when_steady(&mut self, ticket: Ticket, command: Command, now: Now) {
        let until = now
            .steady
            .checked_add(STEADY_PATIENCE)
            .unwrap_or(now.steady);
        self.ask_for(Purpose::Steady(ticket, command, until), command);
    }

    pub(super) fn hear_answer(&mut self, own: Ticket, outcome: Result<(), Unmet>, now: Now) {
        let Some(place) = self.purposes.iter().position(|(ticket, _)| *ticket == own) else {
            return;
        };
        let (_, purpose) = self.purposes.swap_remove(place);
        // The instrument's run is known again by the next reading.
        if let (Purpose::StartRun | Purpose::StopRun, Some(open)) = (purpose, &mut self.open) {
            open.reading_seen = false;
        }
        match (purpose, outcome) {
            (Purpose::StartRun, Err(Unmet::Refused(refusal))) => {
                self.run_refused(Unmet::Refused(refusal), now);
            }
            // It may first wait for food on the move: the next readings tell.
            (Purpose::StopRun, Ok(())) => self.stop_promised(),
            (Purpose::StopRun, Err(Unmet::Refused(Refusal::NoRun))) => self.run_stopped(now),
            // Settled by the next reading, or asked for again.
            (Purpose::StartRun | Purpose::StopRun, _) => {}
            // It is told again later.
            (Purpose::Time, _) => {}
            (
                Purpose::Steady(_, command, until),
                Err(Unmet::Refused(Refusal::NotStable | Refusal::Test(SelfTestRefusal::NotStable))),
            ) if now.steady < until => self.ask_for(purpose, command),
            (Purpose::Told(ticket) | Purpose::Steady(ticket, ..), Ok(())) => {
                self.bench.answered(ticket.0, Ok(()));
            }
            (Purpose::Goal(ticket, goal), Ok(())) => self.goal_changed(ticket, goal),
            (
                Purpose::Told(ticket) | Purpose::Goal(ticket, _) | Purpose::Steady(ticket, ..),
                Err(unmet),
            ) => {
                self.bench.answered(ticket.0, Err(NotDone::Unmet(unmet)));
            }
        }
    }

    fn goal_changed(&mut self, ticket: Ticket, goal: Goal) {
        let changed = match &mut self.wanted {
            Some(wanted) => {
                wanted.goal = goal;
                self.store.set_run_goal(wanted.run, goal)
            }
            None => Ok(()),
        };
        self.answer_stored(ticket, changed);
    }

    fn answer_stored(&mut self, ticket: Ticket, done: Result<(), StoreError>) {
        let answer = done
            .and_then(|()| self.show_run_again())
            .map_err(|error| NotDone::Store(error.to_string()));
        self.bench.answered(ticket.0, answer);
    }

    fn answer_not_linked(&mut self, ticket: Ticket) {
        let why = NotDone::NotLinked(self.bench.link().clone());
        self.bench.answered(ticket.0, Err(why));
    }
}
