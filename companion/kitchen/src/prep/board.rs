//! Everything that must be done before a service.

use super::calendar::Resource;
use super::step::{InBand, Progress, Step, TickedBy};
use jiff::Timestamp;
use jiff::tz::TimeZone;
use petgraph::algo::toposort;
use petgraph::graph::{DiGraph, NodeIndex};
use std::collections::HashMap;

/// A step on a board.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct StepRef(pub(super) usize);

/// Why a board does not hang together.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum BoardError {
    /// A step needs something that is not there.
    #[error("step '{step}' needs '{resource}', which is not among the resources")]
    NoSuchResource {
        /// The step.
        step: String,
        /// What it needs.
        resource: String,
    },
    /// Steps wait for each other in a ring.
    #[error("step '{0}' waits, through others, for itself")]
    Ring(String),
    /// The step is not on this board.
    #[error("there is no such step on the board")]
    NoSuchStep,
    /// Two resources have one name.
    #[error("resource '{0}' stands twice")]
    ResourceTwice(String),
}

/// What must be done before a service: steps, what waits for what, and what
/// they share.
#[derive(Debug, Clone)]
pub struct Board {
    pub(super) graph: DiGraph<Step, ()>,
    pub(super) resources: Vec<Resource>,
    pub(super) ticked_by: HashMap<NodeIndex, TickedBy>,
    pub(super) in_band: HashMap<NodeIndex, InBand>,
    /// Of steps that a later service waits for.
    later: HashMap<NodeIndex, Timestamp>,
    /// When service opens: everything is done by then.
    pub service: Timestamp,
    /// The kitchen's own time.
    pub zone: TimeZone,
}

impl Board {
    /// An empty board.
    ///
    /// # Errors
    /// [`BoardError::ResourceTwice`].
    pub fn new(
        service: Timestamp,
        zone: TimeZone,
        resources: Vec<Resource>,
    ) -> Result<Self, BoardError> {
        for (place, resource) in resources.iter().enumerate() {
            if resources[..place].iter().any(|r| r.name == resource.name) {
                return Err(BoardError::ResourceTwice(resource.name.clone()));
            }
        }
        Ok(Self {
            graph: DiGraph::new(),
            resources,
            ticked_by: HashMap::new(),
            in_band: HashMap::new(),
            later: HashMap::new(),
            service,
            zone,
        })
    }

    /// Adds a step.
    ///
    /// # Errors
    /// [`BoardError::NoSuchResource`].
    pub fn add(&mut self, step: Step) -> Result<StepRef, BoardError> {
        if let Some(resource) = &step.needs
            && !self.resources.iter().any(|r| r.name == *resource)
        {
            return Err(BoardError::NoSuchResource {
                step: step.name,
                resource: resource.clone(),
            });
        }
        Ok(StepRef(self.graph.add_node(step).index()))
    }

    /// Makes a step wait for another.
    ///
    /// # Errors
    /// [`BoardError::NoSuchStep`]; [`BoardError::Ring`] where the other already
    /// waits for this one, and the board is left as it was.
    pub fn wait(&mut self, step: StepRef, on: StepRef) -> Result<(), BoardError> {
        self.step(step)?;
        self.step(on)?;
        let edge = self
            .graph
            .update_edge(NodeIndex::new(on.0), NodeIndex::new(step.0), ());
        if toposort(&self.graph, None).is_err() {
            self.graph.remove_edge(edge);
            return Err(BoardError::Ring(self.step(step)?.name.clone()));
        }
        Ok(())
    }

    /// A step.
    ///
    /// # Errors
    /// [`BoardError::NoSuchStep`].
    pub fn step(&self, step: StepRef) -> Result<&Step, BoardError> {
        self.graph
            .node_weight(NodeIndex::new(step.0))
            .ok_or(BoardError::NoSuchStep)
    }

    /// The step of a preparation by its name.
    #[must_use]
    pub fn find(&self, preparation: &str, name: &str) -> Option<StepRef> {
        self.graph
            .node_indices()
            .find(|i| {
                let step = &self.graph[*i];
                step.preparation == preparation && step.name == name
            })
            .map(|i| StepRef(i.index()))
    }

    /// Every step.
    pub fn steps(&self) -> impl Iterator<Item = (StepRef, &Step)> {
        self.graph
            .node_indices()
            .map(|i| (StepRef(i.index()), &self.graph[i]))
    }

    /// Says how far a step has come.
    ///
    /// # Errors
    /// [`BoardError::NoSuchStep`].
    pub fn set_progress(&mut self, step: StepRef, progress: Progress) -> Result<(), BoardError> {
        self.graph
            .node_weight_mut(NodeIndex::new(step.0))
            .ok_or(BoardError::NoSuchStep)?
            .progress = progress;
        Ok(())
    }

    /// A step cannot begin before this: a late delivery, an oven too hot.
    ///
    /// # Errors
    /// [`BoardError::NoSuchStep`].
    pub fn set_not_before(
        &mut self,
        step: StepRef,
        moment: Option<Timestamp>,
    ) -> Result<(), BoardError> {
        self.graph
            .node_weight_mut(NodeIndex::new(step.0))
            .ok_or(BoardError::NoSuchStep)?
            .not_before = moment;
        Ok(())
    }

    /// The bench ticks this step by itself when it sees that done.
    ///
    /// # Errors
    /// [`BoardError::NoSuchStep`].
    pub fn tick_by(&mut self, step: StepRef, by: TickedBy) -> Result<(), BoardError> {
        self.step(step)?;
        self.ticked_by.insert(NodeIndex::new(step.0), by);
        Ok(())
    }

    /// This step waits for a heat log to be in a band.
    ///
    /// # Errors
    /// [`BoardError::NoSuchStep`].
    pub fn wait_for_band(&mut self, step: StepRef, band: InBand) -> Result<(), BoardError> {
        self.step(step)?;
        self.in_band.insert(NodeIndex::new(step.0), band);
        Ok(())
    }

    /// Every step that waits for a heat log to be in a band.
    pub fn bands(&self) -> impl Iterator<Item = (StepRef, &InBand)> {
        self.in_band
            .iter()
            .map(|(i, band)| (StepRef(i.index()), band))
    }

    /// What ticks a step by itself, where something does.
    #[must_use]
    pub fn ticker(&self, step: StepRef) -> Option<&TickedBy> {
        self.ticked_by.get(&NodeIndex::new(step.0))
    }

    /// Adds everything that another service waits for, on another day. Its
    /// preparations are told apart by `label` ("Sun: necks"); resources of one
    /// name are one, with this board's places and hours.
    pub fn and_for(&mut self, other: &Self, label: &str) {
        for resource in &other.resources {
            if !self.resources.iter().any(|r| r.name == resource.name) {
                self.resources.push(resource.clone());
            }
        }
        let mut moved = HashMap::new();
        for i in other.graph.node_indices() {
            let mut step = other.graph[i].clone();
            step.preparation = format!("{label} {}", step.preparation);
            let new = self.graph.add_node(step);
            moved.insert(i, new);
            self.later.insert(new, other.due(i));
            if let Some(by) = other.ticked_by.get(&i) {
                self.ticked_by.insert(new, by.clone());
            }
            if let Some(band) = other.in_band.get(&i) {
                self.in_band.insert(new, band.clone());
            }
        }
        for edge in other.graph.edge_indices() {
            if let Some((from, to)) = other.graph.edge_endpoints(edge)
                && let (Some(from), Some(to)) = (moved.get(&from), moved.get(&to))
            {
                self.graph.update_edge(*from, *to, ());
            }
        }
    }

    /// When a step must be done at the latest, whatever waits for it.
    pub(super) fn due(&self, step: NodeIndex) -> Timestamp {
        self.later.get(&step).copied().unwrap_or(self.service)
    }

    /// When the service opens that a step is for.
    ///
    /// # Errors
    /// [`BoardError::NoSuchStep`].
    pub fn service_of(&self, step: StepRef) -> Result<Timestamp, BoardError> {
        self.step(step)?;
        Ok(self.due(NodeIndex::new(step.0)))
    }

    /// Steps in an order in which each comes after those it waits for. A board
    /// has no rings, since [`Board::wait`] lets none in.
    pub(super) fn in_order(&self) -> Vec<NodeIndex> {
        toposort(&self.graph, None).unwrap_or_default()
    }
}
