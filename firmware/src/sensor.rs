//! What a driver hands on, and what can be wrong with it.

use evenhand_protocol::{Fault, Temperature};

/// One conversion of the bridge converter, sign-extended from its own width.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Counts(pub i32);

/// Why the bridge gave no counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub enum BridgeFault {
    /// No conversion came within the time that a conversion can take.
    Timeout,
    /// The converter reads the upper end of its range.
    HighRail,
    /// The converter reads the lower end of its range.
    LowRail,
    /// The value has not changed by a single count for longer than noise allows.
    Frozen,
    /// The converter's clock and the driver's lost step, so bits or gain are
    /// not what they should be. The driver has restarted the converter.
    OutOfStep,
    /// A pin or the bus failed.
    Bus,
}

impl BridgeFault {
    /// The fault that the cook is told.
    #[must_use]
    pub const fn fault(self) -> Fault {
        match self {
            Self::Timeout | Self::Bus => Fault::BridgeTimeout,
            Self::HighRail => Fault::BridgeHighRail,
            Self::LowRail => Fault::BridgeLowRail,
            Self::Frozen => Fault::BridgeFrozen,
            Self::OutOfStep => Fault::BridgeOutOfStep,
        }
    }
}

impl core::fmt::Display for BridgeFault {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(match self {
            Self::Timeout => "the bridge converter gave no conversion in time",
            Self::HighRail => "the bridge converter reads the upper end of its range",
            Self::LowRail => "the bridge converter reads the lower end of its range",
            Self::Frozen => "the bridge converter repeats one value without any noise",
            Self::OutOfStep => "the bridge converter lost step with its driver and was restarted",
            Self::Bus => "a pin or the bus of the bridge converter failed",
        })
    }
}

impl core::error::Error for BridgeFault {}

/// One measurement of the probe.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct ProbeSample {
    /// The probe's tip.
    pub hot: Temperature,
    /// The cold junction, at the converter.
    pub cold: Temperature,
}

/// Why the probe gave no temperature.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub enum ProbeFault {
    /// The circuit is open.
    Open,
    /// Shorted to ground.
    ShortToGround,
    /// Shorted to the supply.
    ShortToSupply,
    /// The bus failed, or what came cannot be this converter's answer.
    Silent,
    /// The voltage is outside the reference function's range.
    OutOfRange,
}

impl ProbeFault {
    /// The fault that the cook is told.
    #[must_use]
    pub const fn fault(self) -> Fault {
        match self {
            Self::Open => Fault::ProbeOpen,
            Self::ShortToGround => Fault::ProbeShortToGround,
            Self::ShortToSupply => Fault::ProbeShortToSupply,
            Self::Silent => Fault::ProbeSilent,
            Self::OutOfRange => Fault::ProbeOutOfRange,
        }
    }
}

impl core::fmt::Display for ProbeFault {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(match self {
            Self::Open => "the probe's circuit is open",
            Self::ShortToGround => "the probe is shorted to ground",
            Self::ShortToSupply => "the probe is shorted to the supply",
            Self::Silent => "the probe's converter does not answer, or answers nonsense",
            Self::OutOfRange => "the probe reads outside what its thermocouple can measure",
        })
    }
}

impl core::error::Error for ProbeFault {}
