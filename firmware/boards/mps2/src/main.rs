//! The Evenhand firmware on an emulated Cortex-M4F board (Arm AN386, which QEMU
//! calls `mps2-an386`).
//!
//! The drivers, the signal chain and the portion logic are those of the real
//! instrument. What is emulated besides the processor are the two converters:
//! their models sit behind the drivers' pins and bus, and the second serial
//! port brings them the world in batches ([`evenhand_simulator::feed`]), each
//! answered when the firmware has worked through it. Simulated time is what
//! the feed says; nothing here waits for the wall's clock.
//!
//! | port | is |
//! | --- | --- |
//! | UART 0 | the link to the desktop program (`protocol/WIRE.md`) |
//! | UART 1 | the feed |
//! | semihosting | the log, in defmt frames |
#![no_std]
#![no_main]

#[cfg(feature = "canary")]
mod canary;
mod counter;
mod interrupts;
mod outgoing;
mod stack;
mod stop;
mod uart;

use counter::Timed;
use defmt_semihosting as _;
use evenhand_firmware::drivers::hx711::{self, Hx711};
use evenhand_firmware::drivers::max31855::{Max31855, Version};
use evenhand_firmware::station::Station;
use evenhand_protocol::{Envelope, Phase, Reader, Uptime, frame};
use evenhand_simulator::chips::{BridgeClock, BridgeData, Chips, ModelDelay, ProbeBus};
use evenhand_simulator::feed::{Batch, Effort, Fed, Feed, Outputs, POLLS, Start, Work};
use outgoing::Outgoing;
use uart::Ports;

/// Unacknowledged portions that the board keeps.
const PLACES: usize = 32;

/// The instrument with its drivers, and the models behind them.
type Bench<'a> = Station<
    Timed<Hx711<BridgeData<&'a Chips>, BridgeClock<&'a Chips>, ModelDelay<&'a Chips>>>,
    Timed<Max31855<ProbeBus<&'a Chips>>>,
    PLACES,
>;

#[cortex_m_rt::entry]
fn main() -> ! {
    cortex_m::interrupt::disable();
    if let Some(core) = cortex_m::Peripherals::take() {
        stack::guard(core.MPU);
        counter::start(core.SYST);
    }
    // SAFETY: the only call.
    let ports = unsafe { Ports::take() };
    let mut board = Board {
        ports,
        feed: Reader::new(),
        to_host: Outgoing::new(),
        to_world: Outgoing::new(),
        answers: 0,
        answer: None,
    };
    #[cfg(feature = "canary")]
    canary::sing();
    defmt::info!("waiting for a world");
    let mut start = board.first_start();
    loop {
        defmt::info!("device {} epoch {}", start.device.0, start.epoch.0);
        start = board.run(&start);
    }
}

/// What lasts from one start of the instrument to the next.
struct Board {
    ports: Ports,
    feed: Reader<Feed>,
    to_host: Outgoing,
    to_world: Outgoing,
    /// Answers given to the feed.
    answers: u16,
    /// The answer still to be given.
    answer: Option<Fed>,
}

/// One turn of the loop that the board is in once the instrument is made: all
/// that weighs, portions, and talks. By its name `scripts/target-panics` finds
/// it and shows that nothing it leads to can panic. Gives the next start, where
/// one was told.
// SAFETY: no other symbol has this name.
#[unsafe(export_name = "evenhand_turn")]
#[inline(never)]
fn turn<'a>(
    board: &mut Board,
    chips: &'a Chips,
    station: &mut Bench<'a>,
    effort: &mut Effort,
) -> Option<Start> {
    board.ports.awake();
    board.exchange(station, chips.clock.micros(), &mut effort.frames);
    match board.next_feed() {
        Some(Feed::Start(start)) => return Some(start),
        Some(Feed::Batch(batch)) => board.work_through(&batch, chips, station, effort),
        None => board.ports.sleep(),
    }
    None
}

impl Board {
    /// Waits to be told who it is. What comes over the link before that is
    /// lost, as it would be on an instrument without power.
    fn first_start(&mut self) -> Start {
        loop {
            self.ports.awake();
            while self.ports.host.receive().is_some() {}
            match self.next_feed() {
                Some(Feed::Start(start)) => return start,
                Some(Feed::Batch(_)) => defmt::warn!("fed before the start"),
                None => self.ports.sleep(),
            }
        }
    }

    /// Is an instrument, from one start to the next.
    fn run(&mut self, start: &Start) -> Start {
        let chips = Chips::default();
        let config = if start.rate < 40 {
            hx711::Config::slow()
        } else {
            hx711::Config::fast()
        };
        let bridge = Hx711::new(
            chips.bridge_data(),
            chips.bridge_clock(),
            chips.delay(),
            config,
        );
        let probe = Max31855::new(chips.probe_bus(), Version::K);
        let mut station: Bench<'_> =
            Station::new(Timed::new(bridge), Timed::new(probe), start.setup());
        let mut effort = Effort::default();
        self.answer = Some(Fed {
            micros: 0,
            outputs: Outputs::default(),
            effort,
        });
        loop {
            if let Some(start) = turn(self, &chips, &mut station, &mut effort) {
                return start;
            }
        }
    }

    /// Lets the firmware run through a stretch of simulated time.
    fn work_through<'a>(
        &mut self,
        batch: &Batch,
        chips: &'a Chips,
        station: &mut Bench<'a>,
        effort: &mut Effort,
    ) {
        batch.load(chips);
        let mut now = chips.clock.micros();
        for index in 0..batch.counts.len() {
            let (mut instrument, mut drivers) = (0_u32, 0_u32);
            for poll in 0..POLLS {
                now = batch.poll_at(index, poll);
                chips.clock.set_micros(now);
                let ((), ticks) = counter::time(|| station.poll(now));
                let (bridge, probe) = station.drivers_mut();
                let in_drivers = bridge.take_ticks().saturating_add(probe.take_ticks());
                drivers = drivers.saturating_add(in_drivers);
                instrument = instrument.saturating_add(ticks.saturating_sub(in_drivers));
                self.exchange(station, now, &mut effort.frames);
            }
            effort.instrument.add(instrument);
            effort.drivers.add(drivers);
        }
        effort.stack_used = u32::try_from(stack::used()).unwrap_or(u32::MAX);
        effort.stack_size = u32::try_from(stack::size()).unwrap_or(u32::MAX);
        let reading = station
            .instrument()
            .reading(Uptime::from_millis(now / 1_000));
        let running = reading.run.is_some() && reading.phase != Phase::Blocked;
        self.answer = Some(Fed {
            micros: now,
            outputs: Outputs::of(station.signals(now), reading.stable, running),
            effort: *effort,
        });
    }

    /// Takes what came over the link, and sends what is to be sent.
    fn exchange(&mut self, station: &mut Bench<'_>, now: u64, frames: &mut Work) {
        while let Some(byte) = self.ports.host.receive() {
            station.receive(byte);
        }
        let busy = self.to_host.send(&mut self.ports.host, |out| {
            let (length, ticks) = counter::time(|| station.transmit(now, out));
            if length > 0 {
                frames.add(ticks);
            }
            length
        });
        self.ports.host.wake_when_sent(busy);
    }

    /// The next message of the feed, if it is whole; the last one's answer goes
    /// first.
    fn next_feed(&mut self) -> Option<Feed> {
        let Self {
            answer, answers, ..
        } = self;
        let busy = self.to_world.send(&mut self.ports.world, |out| {
            let Some(message) = answer.take() else {
                return 0;
            };
            let envelope = Envelope {
                sequence: *answers,
                message,
            };
            *answers = answers.wrapping_add(1);
            frame::encode(&envelope, out).unwrap_or(0)
        });
        self.ports.world.wake_when_sent(busy);
        while let Some(byte) = self.ports.world.receive() {
            match self.feed.push(byte) {
                None => {}
                Some(Ok(envelope)) => return Some(envelope.message),
                Some(Err(error)) => defmt::warn!("feed {}", error),
            }
        }
        None
    }
}
