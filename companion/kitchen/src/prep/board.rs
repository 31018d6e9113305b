//! Everything that must be done before a service.

use super::calendar::{Resource, Stretch};
use super::oven::OvenTimes;
use super::step::{InBand, Progress, Step, TickedBy};
use super::supply::BatchOf;
use super::who::Hand;
use crate::units::excerpt;
use crate::units::{Reason, typed};
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp};
use petgraph::Direction;
use petgraph::algo::{has_path_connecting, toposort};
use petgraph::graph::{DiGraph, NodeIndex};
use std::collections::{BTreeMap, HashMap};

/// A step on a board.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct StepRef(pub(super) usize);

/// When steps count as done that were left out.
pub(super) const LEFT_OUT: Timestamp = Timestamp::MIN;

/// Why a board does not hang together.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum BoardError {
    /// A step needs something that is not there.
    #[error(
        "step '{step}' needs '{}', which is not among the resources",
        excerpt(resource)
    )]
    NoSuchResource {
        /// The step.
        step: String,
        /// What it needs.
        resource: String,
    },
    /// A step needs more places than a resource has.
    #[error("step '{step}' needs {places} places of '{resource}', which has {has}")]
    TooManyPlaces {
        /// The step.
        step: String,
        /// What it needs.
        resource: String,
        /// How many.
        places: u32,
        /// How many there are.
        has: u32,
    },
    /// A service closes before it opens.
    #[error("the service closes before it opens")]
    ClosesBeforeItOpens,
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

impl BoardError {
    /// Why, as what is wrong with something typed.
    #[must_use]
    pub fn reason(&self) -> Reason {
        match self {
            Self::NoSuchResource { resource, .. } => {
                problem!("no-such-resource", resource = typed(resource))
            }
            Self::TooManyPlaces {
                resource,
                places,
                has,
                ..
            } => problem!(
                "too-many-places",
                resource = typed(resource),
                places = places,
                has = has
            ),
            Self::ClosesBeforeItOpens => problem!("closes-before-opens"),
            Self::Ring(_) => problem!("waits-for-itself"),
            Self::NoSuchStep => problem!("no-such-step"),
            Self::ResourceTwice(name) => problem!("resource-twice", name = typed(name)),
        }
    }
}

/// More places of a resource for a while: a fourth pair of hands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Extra {
    /// The resource, by name.
    pub resource: String,
    /// How many more places.
    pub places: u32,
    /// From then
    pub from: Timestamp,
    /// to then.
    pub to: Timestamp,
}

/// What can be had in place of a preparation.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Instead {
    /// A dish to serve in its place that needs no work of this board.
    pub fallback: Option<String>,
    /// It can be bought in.
    pub buy_in: bool,
}

/// What must be done before a service: steps, what waits for what, and what
/// they share.
#[derive(Debug, Clone)]
pub struct Board {
    pub(super) graph: DiGraph<Step, ()>,
    pub(super) resources: Vec<Resource>,
    pub(super) ticked_by: HashMap<NodeIndex, TickedBy>,
    pub(super) in_band: HashMap<NodeIndex, InBand>,
    /// Of steps that are not due when service opens.
    due: HashMap<NodeIndex, Timestamp>,
    /// When a preparation's steps are better done.
    preferred: HashMap<NodeIndex, Timestamp>,
    /// How long before it is due a step's dish is to be ready.
    spare: HashMap<NodeIndex, SignedDuration>,
    /// Of steps of another service on this board.
    opens: HashMap<NodeIndex, Timestamp>,
    /// When an oven suits a step.
    pub(super) oven_times: HashMap<NodeIndex, OvenTimes>,
    /// When services run, where that is known.
    pub(super) services: Vec<Stretch>,
    /// More places of a resource for a while.
    pub(super) extra: Vec<Extra>,
    /// What can be had in place of a preparation.
    pub(super) instead: HashMap<String, Instead>,
    /// Preparations that are made in batches.
    batches: BTreeMap<String, BatchOf>,
    /// The hands of resources whose hands are named.
    pub(super) hands: BTreeMap<String, Vec<Hand>>,
    /// The skill that a step asks for.
    pub(super) skills: HashMap<NodeIndex, String>,
    /// Preparations that are made in more than one batch: in how many.
    pub(super) made_in: HashMap<String, u32>,
    /// Of steps of a batch beyond the first, its number.
    pub(super) nth_batch: HashMap<NodeIndex, u32>,
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
            due: HashMap::new(),
            preferred: HashMap::new(),
            spare: HashMap::new(),
            opens: HashMap::new(),
            oven_times: HashMap::new(),
            services: Vec::new(),
            extra: Vec::new(),
            instead: HashMap::new(),
            batches: BTreeMap::new(),
            hands: BTreeMap::new(),
            skills: HashMap::new(),
            made_in: HashMap::new(),
            nth_batch: HashMap::new(),
            service,
            zone,
        })
    }

    /// Adds a step.
    ///
    /// # Errors
    /// [`BoardError::NoSuchResource`], or [`BoardError::TooManyPlaces`] where it
    /// needs none or more than there are.
    pub fn add(&mut self, step: Step) -> Result<StepRef, BoardError> {
        for need in &step.needs {
            match self.resources.iter().find(|r| r.name == need.resource) {
                None => {
                    return Err(BoardError::NoSuchResource {
                        step: step.name.clone(),
                        resource: need.resource.clone(),
                    });
                }
                Some(resource) if resource.places() < need.places || need.places == 0 => {
                    return Err(BoardError::TooManyPlaces {
                        step: step.name.clone(),
                        resource: need.resource.clone(),
                        places: need.places,
                        has: resource.places(),
                    });
                }
                Some(_) => {}
            }
        }
        Ok(StepRef(self.graph.add_node(step).index()))
    }

    /// Makes a step wait for another.
    ///
    /// # Errors
    /// [`BoardError::NoSuchStep`]; [`BoardError::Ring`] where the other already
    /// waits for this one, and the board is left as it was.
    pub fn wait(&mut self, step: StepRef, on: StepRef) -> Result<(), BoardError> {
        let name = &self.step(step)?.name;
        self.step(on)?;
        let (from, to) = (NodeIndex::new(on.0), NodeIndex::new(step.0));
        if has_path_connecting(&self.graph, to, from, None) {
            return Err(BoardError::Ring(name.clone()));
        }
        self.graph.update_edge(from, to, ());
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

    /// Everything of a preparation is due then, not when service opens: a
    /// dessert first asked for at nine. `preferred` is when it is better done.
    ///
    /// # Errors
    /// [`BoardError::NoSuchStep`] where there is no such preparation.
    pub fn set_due(
        &mut self,
        preparation: &str,
        due: Option<Timestamp>,
        preferred: Option<Timestamp>,
    ) -> Result<(), BoardError> {
        let steps: Vec<NodeIndex> = self
            .graph
            .node_indices()
            .filter(|i| self.graph[*i].preparation == preparation)
            .collect();
        if steps.is_empty() {
            return Err(BoardError::NoSuchStep);
        }
        for step in steps {
            self.due.extend(due.map(|due| (step, due)));
            self.preferred.extend(preferred.map(|due| (step, due)));
        }
        Ok(())
    }

    /// Every dish so far is to be ready so long before it is due, where the day allows it.
    /// What cannot be is planned as late as it goes without it; nothing is late by it.
    pub fn set_spare(&mut self, spare: SignedDuration) {
        self.spare = self.graph.node_indices().map(|i| (i, spare)).collect();
    }

    /// What can be had in place of a preparation.
    pub fn set_instead(&mut self, preparation: impl Into<String>, instead: Instead) {
        self.instead.insert(preparation.into(), instead);
    }

    /// What can be served in place of a preparation, where the menu says.
    #[must_use]
    pub fn instead(&self, preparation: &str) -> Option<&Instead> {
        self.instead.get(preparation)
    }

    /// When this service ends. What serves does nothing else until then.
    ///
    /// # Errors
    /// [`BoardError::ClosesBeforeItOpens`].
    pub fn set_closing(&mut self, closes: Timestamp) -> Result<(), BoardError> {
        if closes < self.service {
            return Err(BoardError::ClosesBeforeItOpens);
        }
        self.services = vec![Stretch {
            from: self.service,
            to: closes,
        }];
        Ok(())
    }

    /// A preparation is made in batches.
    pub fn set_batch(&mut self, preparation: impl Into<String>, batch: BatchOf) {
        self.batches.insert(preparation.into(), batch);
    }

    /// Preparations that are made in batches, by name.
    pub fn batches(&self) -> impl Iterator<Item = (&str, &BatchOf)> {
        self.batches
            .iter()
            .map(|(name, batch)| (name.as_str(), batch))
    }

    /// When this service ends, where that was said.
    #[must_use]
    pub fn closing(&self) -> Option<Timestamp> {
        self.services.first().map(|service| service.to)
    }

    /// More places of a resource for a while.
    ///
    /// # Errors
    /// [`BoardError::NoSuchResource`].
    pub fn add_places(&mut self, extra: Extra) -> Result<(), BoardError> {
        if !self.resources.iter().any(|r| r.name == extra.resource) {
            return Err(BoardError::NoSuchResource {
                step: String::from("more places"),
                resource: extra.resource,
            });
        }
        self.extra.push(extra);
        Ok(())
    }

    /// When an oven suits a step, as a forecast says.
    ///
    /// # Errors
    /// [`BoardError::NoSuchStep`].
    pub fn set_oven_times(&mut self, step: StepRef, times: OvenTimes) -> Result<(), BoardError> {
        self.step(step)?;
        self.oven_times.insert(NodeIndex::new(step.0), times);
        Ok(())
    }

    /// The board without a preparation, in all its batches: it is dropped, bought in, or
    /// another dish is served in its place. What waited for it waits no longer.
    #[must_use]
    pub fn without(&self, preparation: &str) -> Self {
        let mut board = self.clone();
        let names: Vec<String> = self.batch_names(preparation).collect();
        board.leave_out(|name| names.iter().any(|known| known == name));
        board
    }

    /// What is not begun of preparations counts as done.
    pub(super) fn leave_out(&mut self, of: impl Fn(&str) -> bool) {
        for step in self.graph.node_weights_mut() {
            if of(&step.preparation) && step.progress == Progress::Waiting {
                step.progress = Progress::Done(LEFT_OUT);
            }
        }
    }

    /// Whether a step was left out with its preparation.
    #[must_use]
    pub fn is_left_out(&self, step: StepRef) -> bool {
        self.step(step)
            .is_ok_and(|step| step.progress == Progress::Done(LEFT_OUT))
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

    /// When an oven suits a step; `None` where nobody can tell, or it needs none.
    #[must_use]
    pub fn oven_times(&self, step: StepRef) -> Option<&OvenTimes> {
        self.oven_times.get(&NodeIndex::new(step.0))
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
        for (resource, hands) in &other.hands {
            let known = self.hands.entry(resource.clone());
            known.or_insert_with(|| hands.clone());
        }
        self.services.extend(&other.services);
        self.extra.extend(other.extra.iter().cloned());
        for (preparation, instead) in &other.instead {
            self.instead
                .insert(format!("{label} {preparation}"), instead.clone());
        }
        for (preparation, batches) in &other.made_in {
            let name = format!("{label} {preparation}");
            self.made_in.insert(name, *batches);
        }
        let mut moved = HashMap::new();
        for i in other.graph.node_indices() {
            let mut step = other.graph[i].clone();
            step.preparation = format!("{label} {}", step.preparation);
            let new = self.graph.add_node(step);
            moved.insert(i, new);
            self.due.insert(new, other.due(i));
            self.opens.insert(new, other.opens(i));
            if let Some(at) = other.preferred(i) {
                self.preferred.insert(new, at);
            }
            self.spare.insert(new, other.spare(i));
            if let Some(times) = other.oven_times.get(&i) {
                self.oven_times.insert(new, times.clone());
            }
            if let Some(by) = other.ticked_by.get(&i) {
                self.ticked_by.insert(new, by.clone());
            }
            if let Some(nth) = other.nth_batch.get(&i) {
                self.nth_batch.insert(new, *nth);
            }
            if let Some(skill) = other.skills.get(&i) {
                self.skills.insert(new, skill.clone());
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

    /// What was said of a step holds of another, too.
    pub(super) fn said_as_of(&mut self, step: NodeIndex, new: NodeIndex) {
        fn also<T: Clone>(of: &mut HashMap<NodeIndex, T>, step: NodeIndex, new: NodeIndex) {
            if let Some(said) = of.get(&step).cloned() {
                of.insert(new, said);
            }
        }
        also(&mut self.ticked_by, step, new);
        also(&mut self.in_band, step, new);
        also(&mut self.due, step, new);
        also(&mut self.preferred, step, new);
        also(&mut self.spare, step, new);
        also(&mut self.opens, step, new);
        also(&mut self.oven_times, step, new);
        also(&mut self.skills, step, new);
    }

    /// When a step must be done at the latest, whatever waits for it.
    pub(super) fn due(&self, step: NodeIndex) -> Timestamp {
        self.due.get(&step).copied().unwrap_or(self.service)
    }

    /// When a step is better done, where that was said.
    pub(super) fn preferred(&self, step: NodeIndex) -> Option<Timestamp> {
        self.preferred.get(&step).copied()
    }

    /// How long before it is due a step's dish is to be ready.
    pub(super) fn spare(&self, step: NodeIndex) -> SignedDuration {
        self.spare.get(&step).copied().unwrap_or_default()
    }

    fn opens(&self, step: NodeIndex) -> Timestamp {
        self.opens.get(&step).copied().unwrap_or(self.service)
    }

    pub(super) fn before(&self, step: NodeIndex) -> impl Iterator<Item = NodeIndex> {
        self.graph.neighbors_directed(step, Direction::Incoming)
    }

    pub(super) fn after(&self, step: NodeIndex) -> impl Iterator<Item = NodeIndex> {
        self.graph.neighbors_directed(step, Direction::Outgoing)
    }

    /// When the service opens that a step is for.
    ///
    /// # Errors
    /// [`BoardError::NoSuchStep`].
    pub fn service_of(&self, step: StepRef) -> Result<Timestamp, BoardError> {
        self.step(step)?;
        Ok(self.opens(NodeIndex::new(step.0)))
    }

    /// When a step must be done at the latest: when service opens, or when its
    /// dish is first asked for.
    ///
    /// # Errors
    /// [`BoardError::NoSuchStep`].
    pub fn due_of(&self, step: StepRef) -> Result<Timestamp, BoardError> {
        self.step(step)?;
        Ok(self.due(NodeIndex::new(step.0)))
    }

    /// Steps in an order in which each comes after those it waits for. A board
    /// has no rings, since [`Board::wait`] lets none in.
    pub(super) fn in_order(&self) -> Vec<NodeIndex> {
        toposort(&self.graph, None).unwrap_or_default()
    }
}
