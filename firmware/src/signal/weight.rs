//! What the signal chain makes of the load, sample by sample.

use evenhand_protocol::{Mass, Uptime};

/// The load at one moment, as the portion logic sees it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Weight {
    /// When.
    pub at: Uptime,
    /// The best estimate of everything on the pan, zero and drift taken off;
    /// not rounded.
    pub gross: Mass,
    /// Whether the load is in stable equilibrium.
    pub stable: bool,
    /// Standard uncertainty of `gross` from noise, as estimated from the
    /// samples it is the mean of.
    pub noise: Mass,
    /// Whether the load has been level for a moment, half as long as a stable
    /// one; so has every stable one. Who cannot wait is weighed by this, with a
    /// doubt.
    pub calm: bool,
}
