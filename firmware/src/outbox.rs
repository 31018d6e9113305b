//! Captured portions, kept until they are acknowledged.

use evenhand_protocol::report::Doubts;
use evenhand_protocol::{
    CapturedPortion, DeviceId, Epoch, Goal, Mass, Mode, PortionId, RunId, Temperature, UnixMillis,
    Uptime,
};
use heapless::Vec;

/// Portions sent and not yet acknowledged, at most.
const IN_FLIGHT: usize = 4;
/// A portion that is not acknowledged is sent again after so long.
const RESEND_MS: u64 = 500;

/// A captured portion without the name it gets here.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Unnamed {
    /// The run that it belongs to.
    pub run: RunId,
    /// When it was captured.
    pub at: Uptime,
    /// The same on the wall's clock, where known.
    pub unix: Option<UnixMillis>,
    /// How it was made.
    pub mode: Mode,
    /// The food in it.
    pub mass: Mass,
    /// What it should have weighed.
    pub goal: Goal,
    /// The probe's temperature at capture.
    pub temperature: Option<Temperature>,
    /// The portion that it corrects.
    pub replaces: Option<u32>,
    /// Doubts about it.
    pub doubts: Doubts,
    /// Expanded uncertainty of `mass`, coverage factor 2.
    pub uncertainty: Option<Mass>,
    /// What was left on the pan.
    pub left: Option<Mass>,
}

#[derive(Debug, Clone)]
struct Kept {
    number: u32,
    sent: Option<Uptime>,
    portion: Unnamed,
}

/// Portions in the order of their capture. Numbers go up from 1 without gaps:
/// a portion that cannot be kept gets none. Acknowledgements may come in any
/// order, more than once, or never.
#[derive(Debug, Clone)]
pub struct Outbox<const PLACES: usize = 64> {
    device: DeviceId,
    epoch: Epoch,
    last_number: u32,
    lost: u32,
    kept: Vec<Kept, PLACES>,
}

impl<const PLACES: usize> Outbox<PLACES> {
    /// An empty outbox for one start of an instrument.
    #[must_use]
    pub const fn new(device: DeviceId, epoch: Epoch) -> Self {
        Self {
            device,
            epoch,
            last_number: 0,
            lost: 0,
            kept: Vec::new(),
        }
    }

    /// Keeps a portion and gives its number; `None` where there is no place:
    /// it is lost and counted. The oldest stay.
    pub fn keep(&mut self, portion: Unnamed) -> Option<u32> {
        let number = self.last_number.checked_add(1);
        let kept = number.is_some_and(|number| {
            self.kept
                .push(Kept {
                    number,
                    sent: None,
                    portion,
                })
                .is_ok()
        });
        match number.filter(|_| kept) {
            Some(number) => {
                self.last_number = number;
                Some(number)
            }
            None => {
                self.lost = self.lost.saturating_add(1);
                None
            }
        }
    }

    /// The next portion to send now: the oldest first, a few in flight, each
    /// again after half a second until it is acknowledged.
    pub fn next(&mut self, now: Uptime) -> Option<CapturedPortion> {
        let (device, epoch) = (self.device, self.epoch);
        let kept = self
            .kept
            .iter_mut()
            .take(IN_FLIGHT)
            .find(|kept| kept.sent.is_none_or(|sent| now.since(sent) >= RESEND_MS))?;
        kept.sent = Some(now);
        let Unnamed {
            run,
            at,
            unix,
            mode,
            mass,
            goal,
            temperature,
            replaces,
            doubts,
            uncertainty,
            left,
        } = kept.portion;
        Some(CapturedPortion {
            id: PortionId {
                device,
                epoch,
                number: kept.number,
            },
            run,
            at,
            unix,
            mode,
            mass,
            goal,
            temperature,
            replaces,
            doubts,
            uncertainty,
            left,
        })
    }

    /// A portion is recorded and need not be sent again. One that is not kept
    /// here is passed over.
    pub fn acknowledge(&mut self, id: PortionId) {
        if id.device == self.device && id.epoch == self.epoch {
            self.kept.retain(|kept| kept.number != id.number);
        }
    }

    /// Somebody new listens: everything is sent at once, from the oldest.
    pub fn send_all_again(&mut self) {
        for kept in &mut self.kept {
            kept.sent = None;
        }
    }

    /// Portions kept.
    #[must_use]
    pub fn len(&self) -> usize {
        self.kept.len()
    }

    /// Whether none is kept.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.kept.is_empty()
    }

    /// Portions that could not be kept.
    #[must_use]
    pub const fn lost(&self) -> u32 {
        self.lost
    }
}
