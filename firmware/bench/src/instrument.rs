//! A whole instrument on a simulated bench: the real firmware, its real
//! drivers, modelled chips and a modelled world.

use crate::chips::{BridgeClock, BridgeData, Chips, ModelDelay, ProbeBus};
use crate::feed::{POLLS, Start};
use crate::scenario::Scenario;
use crate::start;
use crate::truth::TruePortion;
use crate::world::{Cue, Moment, World};
use evenhand_firmware::drivers::hx711::{Config, Hx711};
use evenhand_firmware::drivers::max31855::{Max31855, Version};
use evenhand_firmware::station::Station;
use evenhand_protocol::frame::MAX_FRAME;
use evenhand_protocol::{Epoch, Mass, Phase, Reading, Uptime};
use std::collections::VecDeque;
use std::rc::Rc;

type Handle = Rc<Chips>;
type Bridge = Hx711<BridgeData<Handle>, BridgeClock<Handle>, ModelDelay<Handle>>;
type Probe = Max31855<ProbeBus<Handle>>;

/// The instrument while it has power.
#[derive(Debug)]
struct Powered {
    chips: Handle,
    station: Station<Bridge, Probe>,
    /// When it got power, in microseconds of the bench's time.
    since: u64,
}

impl Powered {
    fn new(start: &Start, since: u64) -> Self {
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
        Self {
            station: Station::new(bridge, probe, start.setup()),
            chips,
            since,
        }
    }
}

/// The instrument of a scenario. Time goes on only with
/// [`SimulatedInstrument::advance_to`], as fast as the caller likes; the same
/// scenario, seed and bytes from the host at the same times give the same
/// bytes.
///
/// ```
/// use evenhand_bench::instrument::SimulatedInstrument;
/// use evenhand_bench::scenario::Scenario;
/// let scenario = Scenario::shipped("saltmarsh-roe-taking")?;
/// let mut instrument = SimulatedInstrument::new(&scenario, 1);
/// instrument.advance_to(2_000_000);
/// assert!(!instrument.receive().is_empty()); // it says hello and reads out
/// assert!(instrument.truth().is_empty()); // the cook waits for a run to begin
/// # Ok::<(), evenhand_bench::scenario::ScenarioError>(())
/// ```
#[derive(Debug)]
pub struct SimulatedInstrument {
    world: World,
    start: Start,
    /// How often it got power.
    starts: u32,
    powered: Option<Powered>,
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
    /// number that belongs to the seed.
    #[must_use]
    pub fn new(scenario: &Scenario, seed: u64) -> Self {
        Self::in_epoch(scenario, seed, Epoch(1))
    }

    /// The same with another first epoch. Whoever keeps portions for longer
    /// than one simulation must see to it that no epoch of a seed comes twice,
    /// as an instrument does that counts its starts.
    #[must_use]
    pub fn in_epoch(scenario: &Scenario, seed: u64, epoch: Epoch) -> Self {
        let world = World::new(scenario, seed);
        Self {
            start: start::start(scenario, &world, seed, epoch),
            world,
            starts: 0,
            powered: None,
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
        if !moment.powered {
            self.powered = None;
            self.reading = None;
            return;
        }
        let powered = self.powered.get_or_insert_with(|| {
            let start = start::again(&self.start, self.starts);
            self.starts += 1;
            let since = moment
                .at_micros
                .saturating_sub(u64::from(moment.period_micros));
            Powered::new(&start, since)
        });
        let chips = &powered.chips;
        chips.bridge.set_trouble(moment.bridge);
        chips.probe.set_trouble(moment.probe);
        chips.probe.set_word(moment.probe_word);
        let at = moment.at_micros.saturating_sub(powered.since);
        chips
            .bridge
            .schedule(at.saturating_mul(1_000), moment.counts);
    }

    /// Lets the firmware run once, and the line with it.
    fn poll(&mut self, due: u64) {
        if !self.link_up {
            self.from_host.clear();
        }
        let Some(Powered {
            chips,
            station,
            since,
        }) = &mut self.powered
        else {
            self.from_host.clear();
            return;
        };
        let now = due.saturating_sub(*since);
        chips.clock.set_micros(now);
        station.poll(now);
        for byte in self.from_host.drain(..) {
            station.receive(byte);
        }
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
        self.reading = Some(station.instrument().reading(now));
    }

    /// What the cook sees of it.
    fn cue(&self) -> Cue {
        self.reading.as_ref().map_or(Cue::default(), |reading| Cue {
            running: reading.run.is_some() && reading.phase != Phase::Blocked,
            steady: reading.stable,
        })
    }

    /// Somebody who is not the scenario's cook puts a mass on the pan (or,
    /// below zero, takes it off) within so many seconds from now.
    pub fn put(&mut self, mass: Mass, over_seconds: f64) {
        self.world.put(mass, over_seconds);
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
