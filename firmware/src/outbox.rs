//! Captured portions, kept until they are acknowledged.

use core::num::NonZeroU32;
#[cfg(feature = "hash-chain")]
use evenhand_protocol::ChainLink;
use evenhand_protocol::report::Doubts;
use evenhand_protocol::{
    CapturedPortion, DeviceId, Epoch, Goal, Mass, Mode, PortionId, RunId, Temperature, UnixMillis,
    Uptime,
};
use heapless::Vec;

/// Portions sent and not yet acknowledged, at most.
const IN_FLIGHT: usize = 4;
/// A portion that is not acknowledged is sent again after so long.
const RESEND_MS: u32 = 500;

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

/// A portion as it is kept: a target has little memory, and an option of a
/// number takes twice the number's place.
#[derive(Debug, Clone)]
struct Kept {
    at: Uptime,
    /// [`NONE`] where unknown.
    unix: i64,
    mass: Mass,
    goal: Goal,
    /// [`NONE`] where there is none.
    left: i64,
    /// In micrograms; the largest means none.
    uncertainty: u32,
    /// In thousandths of a degree; the smallest means none.
    temperature: i32,
    epoch: Epoch,
    number: u32,
    /// Its position in the hash chain; 0 where it stands in none.
    #[cfg(feature = "hash-chain")]
    position: u32,
    #[cfg(feature = "hash-chain")]
    previous: u64,
    run: RunId,
    replaces: Option<NonZeroU32>,
    doubts: Doubts,
    /// When it was sent, in milliseconds that wrap.
    sent_at: u32,
    sent: bool,
    mode: Mode,
}

/// No value, in a place that holds none so far from zero.
const NONE: i64 = i64::MIN;

impl Kept {
    fn new(epoch: Epoch, number: u32, portion: &Unnamed) -> Self {
        Self {
            epoch,
            at: portion.at,
            unix: portion.unix.map_or(NONE, UnixMillis::millis),
            mass: portion.mass,
            goal: portion.goal,
            left: portion.left.map_or(NONE, Mass::micrograms),
            uncertainty: portion.uncertainty.map_or(u32::MAX, |uncertainty| {
                u32::try_from(uncertainty.micrograms().max(0))
                    .map_or(u32::MAX - 1, |micrograms| micrograms.min(u32::MAX - 1))
            }),
            temperature: portion
                .temperature
                .map_or(i32::MIN, Temperature::millicelsius),
            number,
            #[cfg(feature = "hash-chain")]
            position: 0,
            #[cfg(feature = "hash-chain")]
            previous: ChainLink::START,
            run: portion.run,
            replaces: portion.replaces.and_then(NonZeroU32::new),
            doubts: portion.doubts,
            sent_at: 0,
            sent: false,
            mode: portion.mode,
        }
    }

    const fn id(&self, device: DeviceId) -> PortionId {
        PortionId {
            device,
            epoch: self.epoch,
            number: self.number,
        }
    }

    fn named(&self, device: DeviceId) -> CapturedPortion {
        CapturedPortion {
            id: self.id(device),
            run: self.run,
            at: self.at,
            unix: (self.unix != NONE).then(|| UnixMillis::from_millis(self.unix)),
            mode: self.mode,
            mass: self.mass,
            goal: self.goal,
            temperature: (self.temperature != i32::MIN)
                .then(|| Temperature::from_millicelsius(self.temperature)),
            replaces: self.replaces.map(NonZeroU32::get),
            doubts: self.doubts,
            uncertainty: (self.uncertainty != u32::MAX)
                .then(|| Mass::from_micrograms(i64::from(self.uncertainty))),
            left: (self.left != NONE).then(|| Mass::from_micrograms(self.left)),
            #[cfg(feature = "hash-chain")]
            chain_link: (self.position != 0).then_some(ChainLink {
                position: self.position,
                previous: self.previous,
            }),
            #[cfg(not(feature = "hash-chain"))]
            chain_link: None,
        }
    }

    #[cfg(feature = "hash-chain")]
    const fn linked(self, link: ChainLink) -> Self {
        Self {
            position: link.position,
            previous: link.previous,
            ..self
        }
    }
}

/// Portions in the order of their capture. Numbers go up from 1 without gaps
/// in each start: a portion that cannot be kept gets none. Acknowledgements may
/// come in any order, more than once, or never. Portions of earlier starts may
/// be among them, where a flash has kept them.
#[derive(Debug, Clone)]
pub struct Outbox<const PLACES: usize = 64> {
    device: DeviceId,
    epoch: Epoch,
    last_number: u32,
    lost: u32,
    /// That of the next portion.
    #[cfg(feature = "hash-chain")]
    link: ChainLink,
    kept: Vec<Kept, PLACES>,
}

impl<const PLACES: usize> Outbox<PLACES> {
    /// An empty outbox for one start of an instrument.
    #[must_use]
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub const fn new(device: DeviceId, epoch: Epoch) -> Self {
        Self {
            device,
            epoch,
            last_number: 0,
            lost: 0,
            #[cfg(feature = "hash-chain")]
            link: ChainLink::FIRST,
            kept: Vec::new(),
        }
    }

    /// Keeps a portion and gives its number; `None` where there is no place:
    /// it is lost and counted. The oldest stay.
    pub fn keep(&mut self, portion: Unnamed) -> Option<u32> {
        let number = self.last_number.checked_add(1);
        let kept = number.is_some_and(|number| {
            let kept = Kept::new(self.epoch, number, &portion);
            #[cfg(feature = "hash-chain")]
            let kept = kept.linked(self.link);
            self.kept.push(kept).is_ok()
        });
        match number.filter(|_| kept) {
            Some(number) => {
                self.last_number = number;
                #[cfg(feature = "hash-chain")]
                if let Some(made) = self.kept.last().map(|kept| kept.named(self.device)) {
                    self.continue_after(&made);
                }
                Some(number)
            }
            None => {
                self.lost = self.lost.saturating_add(1);
                #[cfg(feature = "hash-chain")]
                {
                    self.link = self.link.after_one_lost();
                }
                None
            }
        }
    }

    #[cfg(feature = "hash-chain")]
    fn continue_after(&mut self, made: &CapturedPortion) {
        if let Some(next) = made.next_link() {
            self.continue_from(next);
        }
    }

    /// The next portion's link in the hash chain, as a memory has kept it. The
    /// one that stands further on counts, where that of a portion taken back
    /// does. To be called before any is captured.
    #[cfg(feature = "hash-chain")]
    pub const fn continue_from(&mut self, next: ChainLink) {
        if next.position > self.link.position {
            self.link = next;
        }
    }

    /// The next portion to send now: the oldest first, a few in flight, each
    /// again after half a second until it is acknowledged.
    pub fn next(&mut self, now: Uptime) -> Option<CapturedPortion> {
        let device = self.device;
        // Only differences of these count, and they are far less than the wrap.
        let now = (now.millis() & u64::from(u32::MAX)) as u32;
        let kept = self
            .kept
            .iter_mut()
            .take(IN_FLIGHT)
            .find(|kept| !kept.sent || now.wrapping_sub(kept.sent_at) >= RESEND_MS)?;
        kept.sent = true;
        kept.sent_at = now;
        Some(kept.named(device))
    }

    /// A portion is recorded and need not be sent again. One that is not kept
    /// here is passed over.
    pub fn acknowledge(&mut self, id: PortionId) {
        if id.device == self.device {
            self.kept
                .retain(|kept| kept.epoch != id.epoch || kept.number != id.number);
        }
    }

    /// Takes a portion back that was kept over a power cut. To be called
    /// before any is captured, oldest first. Returns whether there was a
    /// place; one of another instrument, or one that is here already, is
    /// passed over.
    pub fn restore(&mut self, portion: &CapturedPortion) -> bool {
        let known = self.ids().any(|id| id == portion.id);
        if portion.id.device != self.device || known {
            return true;
        }
        let unnamed = Unnamed {
            run: portion.run,
            at: portion.at,
            unix: portion.unix,
            mode: portion.mode,
            mass: portion.mass,
            goal: portion.goal,
            temperature: portion.temperature,
            replaces: portion.replaces,
            doubts: portion.doubts,
            uncertainty: portion.uncertainty,
            left: portion.left,
        };
        let kept = Kept::new(portion.id.epoch, portion.id.number, &unnamed);
        #[cfg(feature = "hash-chain")]
        let kept = match portion.chain_link {
            Some(link) => kept.linked(link),
            None => kept,
        };
        #[cfg(feature = "hash-chain")]
        self.continue_after(portion);
        self.kept.push(kept).is_ok()
    }

    /// Dates the portions of one start that were captured before the time was
    /// known. `wall` is the wall's clock minus the uptime, in milliseconds.
    pub fn date(&mut self, epoch: Epoch, wall: i64) {
        for kept in &mut self.kept {
            if kept.epoch == epoch && kept.unix == NONE {
                kept.unix = i64::try_from(kept.at.millis())
                    .ok()
                    .and_then(|at| wall.checked_add(at))
                    .unwrap_or(NONE);
            }
        }
    }

    /// The portions kept, oldest first.
    pub fn iter(&self) -> impl Iterator<Item = CapturedPortion> {
        self.kept.iter().map(|kept| kept.named(self.device))
    }

    /// Which portions are kept, oldest first.
    pub fn ids(&self) -> impl Iterator<Item = PortionId> {
        self.kept.iter().map(|kept| kept.id(self.device))
    }

    /// Somebody new listens: everything is sent at once, from the oldest.
    pub fn send_all_again(&mut self) {
        for kept in &mut self.kept {
            kept.sent = false;
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
