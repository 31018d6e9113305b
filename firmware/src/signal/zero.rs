//! Where zero is: set at start, set on demand, and followed while it drifts.
//!
//! The limits are those of OIML R 76-1 (4.5, from memory): setting on demand
//! and tracking together move the zero by no more than 4 % of Max (±2 % here),
//! the initial setting by no more than 20 % (±2 % here), tracking by no more
//! than 0.5 d a second.
//!
//! The initial setting takes far less than it may, because power comes back in
//! the middle of service with a dish on the pan: zeroed away, it would leave
//! every later load below zero until somebody had a hand free to set the zero.

use super::Settings;
use evenhand_protocol::{Mass, Refusal, Uptime};

/// The zero, as an offset in mass from the calibrated zero.
#[derive(Debug, Clone, Copy)]
pub(super) struct Zero {
    /// Where the initial setting put it.
    initial: Mass,
    /// What tracking and setting added.
    now: Mass,
    started: bool,
    /// Since when the load has been stable near zero.
    near_since: Option<Uptime>,
    last_step: Option<Uptime>,
    /// How far from the calibrated zero the initial setting may go, and how far from there
    /// setting and tracking may.
    range: Mass,
    /// The empty pan lies beyond what tracking may reach.
    out: bool,
}

impl Zero {
    /// How long the empty pan must have been still before tracking begins.
    const PATIENCE_MILLIS: u64 = 2_000;

    pub(super) fn new(settings: &Settings) -> Self {
        Self {
            range: settings.part_of_capacity(2),
            initial: Mass::ZERO,
            now: Mass::ZERO,
            started: false,
            near_since: None,
            last_step: None,
            out: false,
        }
    }

    /// Begins from a zero that was known before.
    pub(super) fn begin_at(&mut self, offset: Mass) {
        if offset.abs() <= self.range {
            self.now = offset;
        }
    }

    /// Whether the empty pan lies beyond what tracking may reach.
    pub(super) const fn is_out(&self) -> bool {
        self.out
    }

    /// The offset to take off.
    pub(super) const fn offset(&self) -> Mass {
        self.now
    }

    /// Takes the first stable load that is near enough, and belongs to no portion, as zero:
    /// the scale may have been started with something on the pan. Returns whether it did.
    pub(super) fn start(&mut self, load: Mass, held: bool, settings: &Settings) -> bool {
        if self.started || held || !settings.initial_zero || load.abs() > self.range {
            return false;
        }
        self.started = true;
        self.initial = load;
        self.now = load;
        true
    }

    /// Takes a load (from the calibrated zero) as the zero.
    pub(super) fn set(&mut self, load: Mass) -> Result<(), Refusal> {
        if (load - self.initial).abs() <= self.range {
            self.now = load;
        } else if load.abs() <= self.range {
            // What stood on the pan at start was zeroed away and is now gone: begin again
            // from the calibrated zero.
            self.initial = Mass::ZERO;
            self.now = load;
        } else {
            return Err(Refusal::BeyondZeroRange);
        }
        self.started = true;
        self.near_since = None;
        self.out = false;
        Ok(())
    }

    /// Follows a slow drift of the empty pan.
    pub(super) fn track(
        &mut self,
        at: Uptime,
        load: Mass,
        stable: bool,
        held: bool,
        settings: &Settings,
    ) {
        let error = load - self.now;
        let near = stable && !held && error.abs().times(2) <= settings.interval;
        if !near || !settings.zero_tracking {
            self.near_since = None;
            self.last_step = None;
            return;
        }
        let since = *self.near_since.get_or_insert(at);
        let last = *self.last_step.get_or_insert(at);
        if at.since(since) < Self::PATIENCE_MILLIS {
            self.last_step = Some(at);
            return;
        }
        let most = settings.slow_change(at.since(last));
        let next = self.now + error.limited(most);
        self.out = (next - self.initial).abs() > self.range;
        if !self.out {
            self.now = next;
        }
        self.last_step = Some(at);
    }
}
