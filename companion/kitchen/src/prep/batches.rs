//! A preparation that is made in several batches for one service: each batch is steps of its own,
//! with its own place on hands and oven, ticked by itself.
//!
//! The first batch bears the preparation's name, the others its name and their number:
//! `necks`, `necks (2)`.

use super::board::{Board, StepRef};
use super::step::Progress;
use petgraph::graph::NodeIndex;
use std::collections::HashMap;

/// No more batches of a preparation than this are planned for one service.
pub const MOST_BATCHES: u32 = 20;

/// What the `nth` batch of a preparation is called, from 1.
#[must_use]
pub fn batch_name(preparation: &str, nth: u32) -> String {
    match nth {
        0 | 1 => preparation.to_owned(),
        _ => format!("{preparation} ({nth})"),
    }
}

/// The preparation and the number of a batch beyond the first by its name: `necks (2)`.
pub(super) fn further_batch(name: &str) -> Option<(&str, u32)> {
    let (preparation, number) = name.trim().strip_suffix(')')?.rsplit_once(" (")?;
    let nth: u32 = number.parse().ok()?;
    // One spelling each: 2, not 02 or +2.
    let plain = number == nth.to_string();
    (plain && (2..=MOST_BATCHES).contains(&nth)).then_some((preparation, nth))
}

impl Board {
    /// Makes a preparation in so many batches, up to [`MOST_BATCHES`]: what waits for it waits for
    /// all of them. Batches that are there already stay as they are; what is not made in batches
    /// is left as it is.
    pub fn make_batches(&mut self, preparation: &str, batches: u32) {
        if !self.batches().any(|(name, _)| name == preparation) {
            return;
        }
        for nth in self.batches_of(preparation) + 1..=batches.min(MOST_BATCHES) {
            self.add_batch(preparation, nth);
        }
    }

    /// How many batches of a preparation are on the board, one or more.
    #[must_use]
    pub fn batches_of(&self, preparation: &str) -> u32 {
        self.made_in.get(preparation).copied().unwrap_or(1)
    }

    /// The names of the batches of a preparation on the board, the first first.
    pub fn batch_names(&self, preparation: &str) -> impl Iterator<Item = String> {
        (1..=self.batches_of(preparation)).map(move |nth| batch_name(preparation, nth))
    }

    /// The preparation that a name on the board is of, and the number of its batch; the name
    /// itself and 1 where it is no further batch.
    #[must_use]
    pub fn batch_of<'a>(&self, name: &'a str) -> (&'a str, u32) {
        let there = |preparation: &str, nth| {
            let same = |(name, most): (&String, &u32)| {
                name.eq_ignore_ascii_case(preparation) && nth <= *most
            };
            self.made_in.iter().any(same)
        };
        match further_batch(name) {
            Some((preparation, nth)) if there(preparation, nth) => (preparation, nth),
            _ => (name, 1),
        }
    }

    /// Adds the batch that a name, or a step's full name, is of, where the board makes it in
    /// batches and has not so many: `necks (2): roast`. Names in any case.
    pub fn add_batch_named(&mut self, name: &str) {
        let Some((wanted, nth)) = further_batch(name.split(": ").next().unwrap_or(name)) else {
            return;
        };
        let known =
            |(name, _): (&str, _)| name.eq_ignore_ascii_case(wanted).then(|| name.to_owned());
        let preparation = self.batches().find_map(known);
        if let Some(preparation) = preparation {
            self.make_batches(&preparation, nth);
        }
    }

    /// The board without one batch of a preparation, by its name.
    #[must_use]
    pub fn without_batch(&self, name: &str) -> Self {
        let mut board = self.clone();
        board.leave_out(|preparation| preparation == name);
        board
    }

    fn add_batch(&mut self, preparation: &str, nth: u32) {
        let first: Vec<NodeIndex> = self
            .graph
            .node_indices()
            .filter(|i| self.graph[*i].preparation == preparation)
            .collect();
        let mut added: HashMap<NodeIndex, NodeIndex> = HashMap::new();
        for i in &first {
            let mut step = self.graph[*i].clone();
            step.preparation = batch_name(preparation, nth);
            step.progress = Progress::Waiting;
            let new = self.graph.add_node(step);
            self.said_as_of(*i, new);
            self.nth_batch.insert(new, nth);
            added.insert(*i, new);
        }
        for edge in self.graph.edge_indices() {
            let Some((from, to)) = self.graph.edge_endpoints(edge) else {
                continue;
            };
            match (added.get(&from), added.get(&to)) {
                (None, None) => {}
                (new_from, new_to) => {
                    let (from, to) = (new_from.unwrap_or(&from), new_to.unwrap_or(&to));
                    self.graph.update_edge(*from, *to, ());
                }
            }
        }
        self.made_in.insert(preparation.to_owned(), nth);
    }

    /// The number of the batch that a step is of, and how many there are of its preparation.
    pub(super) fn nth_of(&self, step: StepRef) -> (u32, u32) {
        let nth = self.nth_batch.get(&NodeIndex::new(step.0)).copied();
        let nth = nth.unwrap_or(1);
        let name = self.step(step).map_or("", |step| step.preparation.as_str());
        let preparation = if nth == 1 {
            name
        } else {
            self.batch_of(name).0
        };
        (nth, self.batches_of(preparation).max(nth))
    }
}
