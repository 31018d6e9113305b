//! A whole instrument on a simulated bench: the real firmware, its real
//! drivers, modelled chips and a modelled world.
//!
//! Power cuts are the scenario's. What the firmware holds in memory is gone
//! then; what it has put into its [flash](crate::flash) is what it starts from
//! when the power is back.

use crate::chips::{BridgeClock, BridgeData, Chips, ModelDelay, ProbeBus};
use crate::feed::{POLLS, Start};
use crate::flash::{BuiltInto, FlashFileError, LAYOUT, PLACES, SimulatedFlash};
use crate::history::{Happening, What};
use crate::practice::HandMove;
use crate::random::{Draws, Stream};
use crate::scenario::Scenario;
use crate::start;
use crate::truth::TruePortion;
use crate::world::{Cue, Moment, World};
use evenhand_firmware::drivers::hx711::{Config, Hx711};
use evenhand_firmware::drivers::max31855::{Max31855, Version};
use evenhand_firmware::instrument::Setup;
use evenhand_firmware::station::Station;
use evenhand_firmware::storage::{FlashStore, LayoutError, Persistence};
use evenhand_protocol::frame::MAX_FRAME;
use evenhand_protocol::report::Capabilities;
use evenhand_protocol::{CapturedPortion, Epoch, Fault, Mass, Phase, PortionId, Reading, Uptime};
use std::collections::{BTreeSet, VecDeque};
use std::path::Path;
use std::rc::Rc;

/// The power goes at the latest in the write after so many others.
const WRITES_BEFORE_CUT: f64 = 3.0;

type Handle = Rc<Chips>;
type Bridge = Hx711<BridgeData<Handle>, BridgeClock<Handle>, ModelDelay<Handle>>;
type Probe = Max31855<ProbeBus<Handle>>;

/// The instrument while it has power.
#[derive(Debug)]
struct Powered {
    chips: Handle,
    station: Station<Bridge, Probe, PLACES>,
    persistence: Persistence<SimulatedFlash, PLACES>,
    /// The portions that were on record in the flash when it was last looked
    /// at.
    kept: BTreeSet<PortionId>,
    /// The instrument's changes by then.
    seen: Option<u32>,
    /// Whether it has shown since a power cut that it weighs.
    trusted: bool,
    /// When it got power, in microseconds of the bench's time.
    since: u64,
}

impl Powered {
    fn new(
        start: &Start,
        since: u64,
        flash_store: FlashStore<SimulatedFlash>,
        first: bool,
    ) -> Self {
        let chips = Rc::new(Chips::default());
        let config = if start.rate < 40 {
            Config::slow()
        } else {
            Config::fast()
        };
        let bridge = Hx711::new(
            BridgeData::new(Rc::clone(&chips)),
            BridgeClock::new(Rc::clone(&chips)),
            ModelDelay::new(Rc::clone(&chips)),
            config,
        );
        let probe = Max31855::new(ProbeBus::new(Rc::clone(&chips)), Version::K);
        let (mut persistence, boot_state) = Persistence::wake(flash_store, start.epoch.0);
        // One that was never calibrated since comes as it left the workshop.
        let fresh = start.setup();
        let setup = Setup {
            epoch: boot_state.epoch,
            calibration: boot_state.calibration.or(fresh.calibration),
            capabilities: fresh.capabilities.union(Capabilities::KEEPS_PORTIONS),
            remembered: boot_state.remembered,
            ..fresh
        };
        let mut station: Station<Bridge, Probe, PLACES> = Station::new(bridge, probe, setup);
        persistence.start(Uptime::default(), station.instrument_mut());
        let kept = station.instrument().outbox().ids().collect();
        Self {
            station,
            persistence,
            kept,
            seen: None,
            trusted: first,
            chips,
            since,
        }
    }

    /// Puts on record what has changed; the portions that are there for the
    /// first time. `None` where the power went in it.
    fn keep(&mut self, now: Uptime) -> Option<Vec<CapturedPortion>> {
        let instrument = self.station.instrument_mut();
        self.persistence.keep(now, instrument);
        if !self.persistence.vault_mut().flash_mut().is_powered() {
            return None;
        }
        if instrument.faults().contains(Fault::StorageFailed) {
            return Some(Vec::new());
        }
        if self.seen.replace(instrument.changes()) == Some(instrument.changes()) {
            return Some(Vec::new());
        }
        let known = &self.kept;
        let new: Vec<CapturedPortion> = instrument
            .outbox()
            .iter()
            .filter(|portion| !known.contains(&portion.id))
            .collect();
        self.kept = instrument.outbox().ids().collect();
        Some(new)
    }
}

/// The instrument of a scenario. Time goes on only with
/// [`SimulatedInstrument::advance_to`], as fast as the caller likes; the same
/// scenario, seed and bytes from the host at the same times give the same
/// bytes.
///
/// ```
/// use evenhand_simulator::instrument::SimulatedInstrument;
/// use evenhand_simulator::scenario::Scenario;
/// let scenario = Scenario::shipped("saltmarsh-shrimp-taking")?;
/// let mut instrument = SimulatedInstrument::new(&scenario, 1);
/// instrument.advance_to(2_000_000);
/// assert!(!instrument.receive().is_empty()); // it says hello and reads out
/// assert!(instrument.truth().is_empty()); // the cook waits for a run to begin
/// # Ok::<(), evenhand_simulator::scenario::ScenarioError>(())
/// ```
#[derive(Debug)]
pub struct SimulatedInstrument {
    world: World,
    start: Start,
    /// Its flash store while it has no power.
    flash_store: Option<FlashStore<SimulatedFlash>>,
    powered: Option<Box<Powered>>,
    /// Whether it ever had power.
    started: bool,
    draws: Draws,
    history: Vec<Happening>,
    moment: Option<Moment>,
    /// How often the firmware ran since the moment began.
    polls: u32,
    now: u64,
    link_up: bool,
    from_host: VecDeque<u8>,
    to_host: Vec<u8>,
    reading: Option<Reading>,
}

impl SimulatedInstrument {
    /// The instrument of a scenario, in its first epoch, with the device
    /// number that belongs to the seed and a blank flash.
    #[must_use]
    pub fn new(scenario: &Scenario, seed: u64) -> Self {
        Self::in_epoch(scenario, seed, Epoch(1))
    }

    /// The same with another first epoch, less than 2^31. Whoever keeps
    /// portions for longer than one simulation must see to it that no epoch of
    /// a seed comes twice, as an instrument does that keeps its flash.
    #[must_use]
    pub fn in_epoch(scenario: &Scenario, seed: u64, epoch: Epoch) -> Self {
        Self::on(SimulatedFlash::blank(), scenario, seed, epoch)
    }

    /// The same at a bench without the scenario's cook: what happens there is
    /// done by [`SimulatedInstrument::act`].
    #[must_use]
    pub fn by_hand(scenario: &Scenario, seed: u64, epoch: Epoch) -> Self {
        Self {
            world: World::by_hand(scenario, seed),
            ..Self::in_epoch(scenario, seed, epoch)
        }
    }

    /// The same with a flash that is kept in a file and made where it is not
    /// there. It goes on from what the flash holds; `epoch` is the first one of
    /// a blank flash.
    ///
    /// # Errors
    /// [`FlashFileError`] where the file cannot be used, or is that of another
    /// seed or load cell.
    pub fn on_flash_in(
        path: &Path,
        scenario: &Scenario,
        seed: u64,
        epoch: Epoch,
    ) -> Result<Self, FlashFileError> {
        let world = World::new(scenario, seed);
        let start = start::start(scenario, &world, seed, epoch);
        let built_into = BuiltInto {
            device: start.device.0,
            zero_counts: start.calibration_zero,
            span_counts: start.calibration_span,
        };
        let flash = SimulatedFlash::in_file(path, built_into)?;
        Ok(Self::on(flash, scenario, seed, epoch))
    }

    fn on(flash: SimulatedFlash, scenario: &Scenario, seed: u64, epoch: Epoch) -> Self {
        let world = World::new(scenario, seed);
        Self {
            start: start::start(scenario, &world, seed, epoch),
            world,
            flash_store: flash_store(flash),
            powered: None,
            started: false,
            draws: Draws::new(seed, Stream::Flash),
            history: Vec::new(),
            moment: None,
            polls: 0,
            now: 0,
            link_up: true,
            from_host: VecDeque::new(),
            to_host: Vec::new(),
            reading: None,
        }
    }

    /// Lets time go on to so many microseconds since the beginning. A time that
    /// has passed already changes nothing.
    pub fn advance_to(&mut self, micros: u64) {
        loop {
            let moment = match self.moment {
                Some(moment) => moment,
                None => {
                    self.polls = 0;
                    *self.moment.insert(self.world.next(self.cue()))
                }
            };
            let due = moment.at_micros
                + u64::from(moment.period_micros) * u64::from(self.polls) / u64::from(POLLS);
            if due > micros {
                break;
            }
            if self.polls == 0 {
                self.begin(&moment);
            }
            self.poll(due);
            self.polls += 1;
            if self.polls == POLLS {
                self.moment = None;
            }
        }
        self.now = self.now.max(micros);
    }

    /// A conversion ends: cable, power and chips as they are from now on.
    fn begin(&mut self, moment: &Moment) {
        self.link_up = moment.link_up;
        let began = moment
            .at_micros
            .saturating_sub(u64::from(moment.period_micros));
        if !moment.powered {
            self.lose_power(began, false);
            return;
        }
        if self.powered.is_none() {
            self.power_up(began);
        }
        if self.world.awaits_cut_in_write()
            && let Some(powered) = &mut self.powered
            && !powered.persistence.vault_mut().flash_mut().awaits_cut()
        {
            let after = self.draws.whole(0.0, WRITES_BEFORE_CUT);
            let share = self.draws.between(0.0, 1.0);
            let flash = powered.persistence.vault_mut().flash_mut();
            flash.cut_power_in_operation(after, share);
        }
        let Some(powered) = &mut self.powered else {
            return;
        };
        let chips = &powered.chips;
        chips.bridge.set_trouble(moment.bridge);
        chips.probe.set_trouble(moment.probe);
        chips.probe.set_word(moment.probe_word);
        let at = moment.at_micros.saturating_sub(powered.since);
        chips
            .bridge
            .schedule(at.saturating_mul(1_000), moment.counts);
    }

    /// The power comes.
    fn power_up(&mut self, now: u64) {
        let Some(mut flash_store) = self.flash_store.take() else {
            return;
        };
        flash_store.flash_mut().power_up();
        let first = !core::mem::replace(&mut self.started, true);
        let powered = Powered::new(&self.start, now, flash_store, first);
        let instrument = powered.station.instrument();
        self.history.push(Happening {
            at_micros: now,
            what: What::PowerOn(instrument.hello(Uptime::default()).epoch),
        });
        let waiting = instrument.outbox().iter().map(|portion| Happening {
            at_micros: now,
            what: What::Waiting(portion),
        });
        self.history.extend(waiting);
        self.powered = Some(Box::new(powered));
    }

    /// The power goes.
    fn lose_power(&mut self, now: u64, in_write: bool) {
        self.reading = None;
        if let Some(powered) = self.powered.take() {
            self.flash_store = Some(powered.persistence.into_flash_store());
            self.history.push(Happening {
                at_micros: now,
                what: What::PowerOff { in_write },
            });
        }
    }

    /// Lets the firmware run once, and the line with it.
    fn poll(&mut self, due: u64) {
        if !self.link_up {
            self.from_host.clear();
        }
        let Some(powered) = &mut self.powered else {
            self.from_host.clear();
            return;
        };
        let now = due.saturating_sub(powered.since);
        powered.chips.clock.set_micros(now);
        powered.station.poll(now);
        for byte in self.from_host.drain(..) {
            powered.station.receive(byte);
        }
        // Before anything of it is sent.
        let Some(kept) = powered.keep(Uptime::from_millis(now / 1_000)) else {
            self.world.cut_in_write();
            self.lose_power(due, true);
            return;
        };
        self.history
            .extend(kept.into_iter().map(|portion| Happening {
                at_micros: due,
                what: What::Kept(portion),
            }));
        let station = &mut powered.station;
        let mut frame = [0; MAX_FRAME];
        loop {
            let length = station.transmit(now, &mut frame);
            if length == 0 {
                break;
            }
            if self.link_up {
                self.to_host.extend_from_slice(&frame[..length]);
            }
        }
        let now = Uptime::from_millis(now / 1_000);
        let reading = station.instrument().reading(now);
        powered.trusted |= reading.stable;
        self.reading = Some(reading);
    }

    /// What the cook sees of it. After a power cut a cook goes on once it
    /// shows a steady load again.
    fn cue(&self) -> Cue {
        let (Some(reading), Some(powered)) = (&self.reading, &self.powered) else {
            return Cue::default();
        };
        Cue {
            running: powered.trusted && reading.run.is_some() && reading.phase != Phase::Blocked,
            steady: reading.stable,
        }
    }

    /// Somebody who is not the scenario's cook puts a mass on the pan (or,
    /// below zero, takes it off) within so many seconds from now.
    pub fn put(&mut self, mass: Mass, over_seconds: f64) {
        self.world.put(mass, over_seconds);
    }

    /// A hand at the bench does this as soon as it has done what it was told before.
    pub fn act(&mut self, hand_move: HandMove) {
        self.world.act(hand_move);
    }

    /// Bytes from the host; lost while the cable is out.
    pub fn send(&mut self, bytes: &[u8]) {
        if self.link_up {
            self.from_host.extend(bytes);
        }
    }

    /// Bytes for the host since the last call.
    #[must_use]
    pub fn receive(&mut self) -> Vec<u8> {
        std::mem::take(&mut self.to_host)
    }

    /// Whether the link's cable is in.
    #[must_use]
    pub const fn link_is_up(&self) -> bool {
        self.link_up
    }

    /// Simulated time, in microseconds since the beginning.
    #[must_use]
    pub const fn micros(&self) -> u64 {
        self.now
    }

    /// What the instrument reads out now; `None` without power.
    #[must_use]
    pub const fn reading(&self) -> Option<&Reading> {
        self.reading.as_ref()
    }

    /// The portions that the cook has finished, as they really are.
    #[must_use]
    pub fn truth(&self) -> &[TruePortion] {
        self.world.truth()
    }

    /// What happened since the last call that neither a cook nor a desktop can
    /// see for certain, in order.
    #[must_use]
    pub fn take_history(&mut self) -> Vec<Happening> {
        std::mem::take(&mut self.history)
    }

    /// The world that it stands in.
    #[must_use]
    pub const fn world(&self) -> &World {
        &self.world
    }

    /// Whether the cook is done.
    #[must_use]
    pub fn is_over(&self) -> bool {
        self.world.is_over()
    }
}

/// The flash store on a flash; the layout fits it.
fn flash_store(flash: SimulatedFlash) -> Option<FlashStore<SimulatedFlash>> {
    let flash_store: Result<_, LayoutError> = FlashStore::new(flash, LAYOUT);
    debug_assert!(flash_store.is_ok(), "the layout is that of the flash");
    flash_store.ok()
}
