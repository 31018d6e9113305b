//! What can be wrong with the instrument, and what to do about it.

use postcard::experimental::max_size::MaxSize;
use serde::{Deserialize, Serialize};

/// A condition that makes the instrument's figures worth less, or nothing.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize, MaxSize,
)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub enum Fault {
    /// The bridge converter gave no conversion in time.
    BridgeTimeout,
    /// The bridge converter reads the upper end of its range.
    BridgeHighRail,
    /// The bridge converter reads the lower end of its range.
    BridgeLowRail,
    /// The bridge converter repeats one value without any noise.
    BridgeFrozen,
    /// The bridge converter lost step with its clock; it was restarted.
    BridgeOutOfStep,
    /// More lies on the pan than the scale may weigh.
    Overload,
    /// The pan pulls upward, or something that was zeroed away is gone.
    NegativeLoad,
    /// The zero has wandered further than may be tracked or set.
    ZeroOutOfRange,
    /// No usable calibration is stored.
    Uncalibrated,
    /// The probe's circuit is open.
    ProbeOpen,
    /// The probe is shorted to ground.
    ProbeShortToGround,
    /// The probe is shorted to the supply.
    ProbeShortToSupply,
    /// The probe's converter does not answer, or answers nonsense.
    ProbeSilent,
    /// The probe reads outside what its kind can measure.
    ProbeOutOfRange,
    /// More portions were captured than could be kept until acknowledged.
    PortionsLost,
    /// The stored settings cannot be read or written.
    StorageFailed,
    /// From version 1.3. The scale's own noise is larger than it can average
    /// away: it cannot count.
    TooNoisy,
    /// From version 1.3. The load has not come to rest for some seconds.
    Restless,
}

impl Fault {
    /// Every fault, in the order of the wire format.
    pub const ALL: [Self; 18] = [
        Self::BridgeTimeout,
        Self::BridgeHighRail,
        Self::BridgeLowRail,
        Self::BridgeFrozen,
        Self::BridgeOutOfStep,
        Self::Overload,
        Self::NegativeLoad,
        Self::ZeroOutOfRange,
        Self::Uncalibrated,
        Self::ProbeOpen,
        Self::ProbeShortToGround,
        Self::ProbeShortToSupply,
        Self::ProbeSilent,
        Self::ProbeOutOfRange,
        Self::PortionsLost,
        Self::StorageFailed,
        Self::TooNoisy,
        Self::Restless,
    ];

    /// What happened, as a sentence for a cook.
    #[must_use]
    pub const fn sentence(self) -> &'static str {
        match self {
            Self::BridgeTimeout => "The scale has stopped answering.",
            Self::BridgeHighRail => "The load sensor reads its upper end stop.",
            Self::BridgeLowRail => "The load sensor reads its lower end stop.",
            Self::BridgeFrozen => "The load sensor repeats one value and never moves.",
            Self::BridgeOutOfStep => "The load sensor's readings came out of step.",
            Self::Overload => "There is too much on the pan.",
            Self::NegativeLoad => "The pan is lighter than its zero.",
            Self::ZeroOutOfRange => "The empty pan is too far from zero.",
            Self::Uncalibrated => "This scale has not been calibrated.",
            Self::ProbeOpen => "The probe is unplugged or broken.",
            Self::ProbeShortToGround => "The probe is shorted to ground.",
            Self::ProbeShortToSupply => "The probe is shorted to the supply.",
            Self::ProbeSilent => "The temperature sensor does not answer.",
            Self::ProbeOutOfRange => "The probe reads outside what it can measure.",
            Self::PortionsLost => "Portions were lost: more were made than could be kept.",
            Self::StorageFailed => "The scale cannot read or keep its settings.",
            Self::TooNoisy => "The scale is too noisy to count.",
            Self::Restless => "The load will not come to rest.",
        }
    }

    /// What to do about it, as a sentence for a cook.
    #[must_use]
    pub const fn remedy(self) -> &'static str {
        match self {
            Self::BridgeTimeout => {
                "Unplug the scale, count to five, plug it in again; if it stays, check the load cell's cable."
            }
            Self::BridgeHighRail | Self::BridgeLowRail => {
                "Take everything off the pan; if it stays, check the load cell's cable."
            }
            Self::BridgeFrozen => "Unplug the scale and plug it in again.",
            Self::BridgeOutOfStep => {
                "It restarts by itself and weighs on; if it comes back, look for a loose wire or a pump nearby."
            }
            Self::Overload => "Take some off.",
            Self::NegativeLoad => {
                "Clear what lifts or leans on the pan, then zero the empty scale."
            }
            Self::ZeroOutOfRange => {
                "Empty and wipe the pan, look under it, then zero; if it stays, calibrate."
            }
            Self::Uncalibrated => "Calibrate it with two known weights before you trust it.",
            Self::ProbeOpen => "Plug the probe in; weighing goes on without it.",
            Self::ProbeShortToGround | Self::ProbeShortToSupply => {
                "Dry the plug and look for a crushed cable; weighing goes on without it."
            }
            Self::ProbeSilent => "Weighing goes on without it; check the sensor board's cable.",
            Self::ProbeOutOfRange => "Let the probe come back into its range, or change it.",
            Self::PortionsLost => {
                "Keep the cable in, and count the portions by hand against the list."
            }
            Self::TooNoisy => {
                "Keep phones and hobs away from its wires; if it stays, use a smaller load cell or feed it more voltage."
            }
            Self::Restless => {
                "Let go of the pan; if it stays, something touches it or the table sways: nothing is counted until it rests."
            }
            Self::StorageFailed => "Weighing goes on, but settings are lost at the next power cut.",
        }
    }

    /// Whether weighing must stop while this lasts. A fault of the probe does
    /// not stop it.
    #[must_use]
    pub const fn stops_weighing(self) -> bool {
        matches!(
            self,
            Self::BridgeTimeout
                | Self::BridgeHighRail
                | Self::BridgeLowRail
                | Self::BridgeFrozen
                | Self::BridgeOutOfStep
                | Self::Overload
                | Self::Uncalibrated
        )
    }
}

/// The faults that hold at one moment, as a set.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize, MaxSize)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct FaultSet(u32);

impl FaultSet {
    /// No fault.
    pub const EMPTY: Self = Self(0);

    /// The bit of a fault: its place in [`Fault::ALL`].
    const fn bit(fault: Fault) -> u32 {
        1 << (fault as u32)
    }

    /// This set with a fault added or removed.
    #[must_use]
    pub const fn with(self, fault: Fault, present: bool) -> Self {
        if present {
            Self(self.0 | Self::bit(fault))
        } else {
            Self(self.0 & !Self::bit(fault))
        }
    }

    /// Whether a fault is in the set.
    #[must_use]
    pub const fn contains(self, fault: Fault) -> bool {
        self.0 & Self::bit(fault) != 0
    }

    /// Whether the set is empty.
    #[must_use]
    pub const fn is_empty(self) -> bool {
        self.0 == 0
    }

    /// The faults in the set, in the order of the wire format.
    pub fn iter(self) -> impl Iterator<Item = Fault> {
        Fault::ALL.into_iter().filter(move |f| self.contains(*f))
    }

    /// The bits of faults that this version does not name: the instrument
    /// speaks a later one. They cannot be explained, and must not be taken
    /// for no fault.
    #[must_use]
    pub const fn unknown(self) -> u32 {
        self.0 & !((1 << Fault::ALL.len()) - 1)
    }

    /// Whether any of them stops weighing.
    #[must_use]
    pub fn stops_weighing(self) -> bool {
        self.iter().any(Fault::stops_weighing)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_set_holds_each_fault_apart() {
        for (place, fault) in Fault::ALL.into_iter().enumerate() {
            assert_eq!(fault as usize, place);
            let set = FaultSet::EMPTY.with(fault, true);
            assert!(set.iter().eq([fault]));
            assert!(set.with(fault, false).is_empty());
        }
    }
}
