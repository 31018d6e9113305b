//! A hand at the simulated bench.

use evenhand_protocol::Mass;
use std::sync::Arc;
use std::sync::atomic::{AtomicI64, Ordering};

/// A hand that puts known weights on the simulated pan and takes them off.
/// Every clone is the same hand.
#[derive(Debug, Clone, Default)]
pub struct Hand(Arc<AtomicI64>);

impl Hand {
    /// From now on so much lies on the pan that this hand has put there; zero
    /// for nothing.
    pub fn place(&self, mass: Mass) {
        self.0.store(mass.micrograms(), Ordering::Relaxed);
    }

    /// What this hand has put on the pan.
    #[must_use]
    pub fn holds(&self) -> Mass {
        Mass::from_micrograms(self.0.load(Ordering::Relaxed))
    }
}
