//! A search that ends at its next decision once its answer is no longer wanted.

use super::effort::Unwanted;
use aries_solver::backtrack::{Backtrack, DecLvl};
use aries_solver::core::IntCst;
use aries_solver::core::state::{Conflict, Explainer};
use aries_solver::model::Model;
use aries_solver::prelude::{Solution, Solver};
use aries_solver::solver::parallel::signals::InputSignal;
use aries_solver::solver::search::{Brancher, Decision, SearchControl, default_brancher};
use aries_solver::solver::stats::Stats;

/// Has a solver end what it searches for, as it does when its effort ends, once that is unwanted.
pub(super) fn end_when_unwanted(solver: &mut Solver<String>, unwanted: Unwanted) {
    let end = solver.input_stream().sender;
    let interrupt = move || {
        // The solver that listens is the one that asks.
        let _ = end.send(InputSignal::Interrupt);
    };
    solver.set_brancher(Asking {
        decides: default_brancher(),
        unwanted,
        interrupt: std::sync::Arc::new(interrupt),
    });
}

/// Decides as the solver does, and asks before each decision.
struct Asking {
    decides: Brancher<String>,
    unwanted: Unwanted,
    interrupt: std::sync::Arc<dyn Fn() + Send + Sync>,
}

impl Backtrack for Asking {
    fn save_state(&mut self) -> DecLvl {
        self.decides.save_state()
    }

    fn num_saved(&self) -> u32 {
        self.decides.num_saved()
    }

    fn restore_last(&mut self) {
        self.decides.restore_last();
    }
}

impl SearchControl<String> for Asking {
    fn next_decision(&mut self, stats: &Stats, model: &Model<String>) -> Option<Decision> {
        if (self.unwanted)() {
            // It is read once this decision is propagated.
            (self.interrupt)();
        }
        self.decides.next_decision(stats, model)
    }

    fn import_vars(&mut self, model: &Model<String>) {
        self.decides.import_vars(model);
    }

    fn new_assignment_found(&mut self, objective_value: IntCst, assignment: &Solution) {
        self.decides
            .new_assignment_found(objective_value, assignment);
    }

    fn pre_save_state(&mut self, model: &Model<String>) {
        self.decides.pre_save_state(model);
    }

    fn pre_conflict_analysis(&mut self, model: &Model<String>) {
        self.decides.pre_conflict_analysis(model);
    }

    fn conflict(
        &mut self,
        clause: &Conflict,
        model: &Model<String>,
        explainer: &mut dyn Explainer,
        backtrack_level: DecLvl,
    ) {
        self.decides
            .conflict(clause, model, explainer, backtrack_level);
    }

    fn clone_to_box(&self) -> Brancher<String> {
        Box::new(Self {
            decides: self.decides.clone_to_box(),
            unwanted: self.unwanted.clone(),
            interrupt: self.interrupt.clone(),
        })
    }
}
