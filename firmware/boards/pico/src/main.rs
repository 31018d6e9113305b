//! The Evenhand instrument on an RP2040 board with USB and 2 MiB of flash.
//!
//! **Not tried on real hardware yet.** The very image that is flashed is run on
//! an emulator of the chip (`emulated/README.md` says what that shows and what
//! it cannot); everything in it that is not pins is the same library that runs
//! on the host.
//!
//! | pins | are |
//! | --- | --- |
//! | GP2, GP3 | the bridge converter's data and clock |
//! | GP4, GP5 | the display's data and clock (I2C 0), optional |
//! | GP6, GP7 | the buttons: less, more; to ground |
//! | GP10, GP11, GP12 | the lamps: short, on, heavy |
//! | GP13 | the buzzer |
//! | GP15 | nothing: the USB of early chips needs it (RP2040 erratum E5) |
//! | GP16, GP17, GP18 | the probe converter's data out, select, clock (SPI 0) |
//!
//! One loop does everything and waits for nothing, but for the flash while it
//! erases a page, and sleeps a millisecond between two turns. The watchdog is
//! fed only while conversions come.
#![no_std]
#![no_main]

mod bounded_i2c;
mod display;
mod idle;
mod link;
mod storage;

use bounded_i2c::BoundedI2c;
use cortex_m_rt::{ExceptionFrame, exception};
use defmt_rtt as _;
use display::Display;
use embedded_hal::digital::{OutputPin, PinState};
use embedded_hal::spi::MODE_0;
use embedded_hal_bus::spi::ExclusiveDevice;
use evenhand_firmware::drivers::hx711::EitherRate;
use evenhand_firmware::drivers::max31855::{Max31855, Version};
use evenhand_firmware::instrument::Setup;
use evenhand_firmware::panel::{Button, Keys, Panel};
use evenhand_firmware::portion::PortionSettings;
use evenhand_firmware::signal::{CellFigures, Settings};
use evenhand_firmware::signals::Signals;
use evenhand_firmware::station::Station;
use evenhand_firmware::storage::Persistence;
use evenhand_firmware::watch::{Watch, Watchdog};
use evenhand_protocol::report::Capabilities;
use evenhand_protocol::{StartReason, Uptime};
use idle::Idle;
use link::Link;
use rp2040_hal as hal;

use hal::fugit::{MicrosDurationU32, RateExtU32};
use hal::gpio::{FunctionI2C, FunctionSpi, Pins, PullUp};
use hal::{Clock, I2C, Sio, Spi, Timer, pac};

/// The second stage of the boot, for the flash chip that such boards carry.
#[unsafe(link_section = ".boot2")]
#[used]
static BOOT2: [u8; 256] = rp2040_boot2::BOOT_LOADER_W25Q080;

/// The crystal of such boards, in hertz.
const CRYSTAL: u32 = 12_000_000;
/// Unacknowledged portions that the board keeps: several busy nights.
const PLACES: usize = 1_000;
/// The watchdog's own time: longer than the flash takes to erase a page.
const WATCHDOG: MicrosDurationU32 = MicrosDurationU32::millis(4_000);
/// Without a conversion or a fault told for so long the board starts anew.
const PATIENCE_MILLIS: u64 = 5_000;
/// Bits of chance for a start's name.
const CHANCE_BITS: u32 = 32;

/// The chip's watchdog.
struct Dog(hal::Watchdog);

impl Watchdog for Dog {
    fn feed(&mut self) {
        self.0.feed();
    }
}

#[hal::entry]
fn main() -> ! {
    // Both are given once, and this is the first and only place that asks.
    let (Some(mut pac), Some(_core)) = (pac::Peripherals::take(), pac::CorePeripherals::take())
    else {
        restart();
    };
    let start = if pac.WATCHDOG.reason().read().timer().bit_is_set() {
        StartReason::Watchdog
    } else {
        StartReason::Unknown
    };
    let mut watchdog = hal::Watchdog::new(pac.WATCHDOG);
    let Ok(clocks) = hal::clocks::init_clocks_and_plls(
        CRYSTAL,
        pac.XOSC,
        pac.CLOCKS,
        pac.PLL_SYS,
        pac.PLL_USB,
        &mut pac.RESETS,
        &mut watchdog,
    ) else {
        restart();
    };
    let mut timer = Timer::new(pac.TIMER, &mut pac.RESETS, &clocks);
    watchdog.start(WATCHDOG);
    let chance = chance(pac.ROSC);
    let sio = Sio::new(pac.SIO);
    let pins = Pins::new(
        pac.IO_BANK0,
        pac.PADS_BANK0,
        sio.gpio_bank0,
        &mut pac.RESETS,
    );

    let bridge = EitherRate::new(
        pins.gpio2.into_pull_up_input(),
        pins.gpio3.into_push_pull_output_in_state(PinState::Low),
        timer,
    );
    let spi = Spi::<_, _, _, 8>::new(
        pac.SPI0,
        (
            // Not wired: the probe's converter only speaks.
            pins.gpio19.into_function::<FunctionSpi>(),
            pins.gpio16.into_function::<FunctionSpi>(),
            pins.gpio18.into_function::<FunctionSpi>(),
        ),
    )
    .init(
        &mut pac.RESETS,
        clocks.peripheral_clock.freq(),
        1.MHz(),
        MODE_0,
    );
    let select = pins.gpio17.into_push_pull_output_in_state(PinState::High);
    let spi = match ExclusiveDevice::new(spi, select, timer) {
        Ok(spi) => spi,
        Err(never) => match never {},
    };
    let probe = Max31855::new(spi, Version::K);

    let i2c = I2C::i2c0(
        pac.I2C0,
        pins.gpio4.reconfigure::<FunctionI2C, PullUp>(),
        pins.gpio5.reconfigure::<FunctionI2C, PullUp>(),
        400.kHz(),
        &mut pac.RESETS,
        clocks.system_clock.freq(),
    );
    let mut display = Display::new(BoundedI2c::new(i2c, timer));

    let mut lamps = (
        pins.gpio10.into_push_pull_output(),
        pins.gpio11.into_push_pull_output(),
        pins.gpio12.into_push_pull_output(),
        pins.gpio13.into_push_pull_output(),
    );
    let mut less = Button::new(pins.gpio6.into_pull_up_input());
    let mut more = Button::new(pins.gpio7.into_pull_up_input());
    let mut keys = Keys::new();
    let mut panel = Panel::new();

    let device = storage::device();
    let flash_store = match storage::flash_store() {
        Ok(flash_store) => flash_store,
        Err(error) => {
            // The layout is fixed at build time: this image was built wrongly.
            defmt::error!("layout {}", error);
            restart();
        }
    };
    let (mut persistence, boot_state) = Persistence::<_, PLACES>::wake(flash_store, chance);
    defmt::info!("device {} epoch {}", device.0, boot_state.epoch.0);
    let mut station: Station<_, _, PLACES> = Station::new(
        bridge,
        probe,
        Setup {
            device,
            epoch: boot_state.epoch,
            settings: Settings::BENCH_1KG,
            calibration: boot_state.calibration,
            portion: PortionSettings::BENCH,
            capabilities: Capabilities::PROBE
                .union(Capabilities::KEEPS_PORTIONS)
                .union(Capabilities::SIGNALS),
            remembered: boot_state.remembered,
            figures: CellFigures::TYPICAL_1KG,
        },
    );
    persistence.start(Uptime::default(), station.instrument_mut());
    station.instrument_mut().take_board(start, None);

    let bus = link::bus(
        pac.USBCTRL_REGS,
        pac.USBCTRL_DPRAM,
        clocks.usb_clock,
        &mut pac.RESETS,
    );
    let serial = link::serial_number(device);
    let mut link = Link::new(&bus, &serial);
    let Some(alarm) = timer.alarm_0() else {
        restart();
    };
    let mut idle = Idle::new(alarm);
    let mut watch = Watch::new(Dog(watchdog), PATIENCE_MILLIS);
    loop {
        let micros = timer.get_counter().ticks();
        let now = Uptime::from_millis(micros / 1_000);
        station.poll(micros);
        link.receive(&mut station);
        // Before anything of it is sent: a reply promises what is on record.
        persistence.keep(now, station.instrument_mut());
        link.send(micros, &mut station);
        if let Some(key) = keys.poll(now, less.poll(now), more.poll(now)) {
            panel.press(now, station.instrument_mut(), key);
        }
        let signals = station.signals(micros);
        show(&mut lamps, signals);
        display.poll(now, station.instrument());
        watch.see(now, station.progress());
        idle.sleep();
    }
}

/// Puts lamps and buzzer on their pins, which cannot fail.
fn show<A, B, C, D>((short, on, heavy, buzzer): &mut (A, B, C, D), signals: Signals)
where
    A: OutputPin,
    B: OutputPin,
    C: OutputPin,
    D: OutputPin,
{
    let _ = short.set_state(signals.short.into());
    let _ = on.set_state(signals.on.into());
    let _ = heavy.set_state(signals.heavy.into());
    let _ = buzzer.set_state(signals.buzzer.into());
}

/// A number that hardly any other start has, from the ring oscillator's jitter.
fn chance(oscillator: pac::ROSC) -> u32 {
    let ring = hal::rosc::RingOscillator::new(oscillator).initialize();
    (0..CHANCE_BITS).fold(0, |bits, _| {
        // Bits taken in a row are alike: some time passes between two.
        cortex_m::asm::delay(1_000);
        bits << 1 | u32::from(ring.get_random_bit())
    })
}

/// Starts anew. A cook has a working scale again at once, with its calibration
/// and the portions that were on record.
fn restart() -> ! {
    cortex_m::peripheral::SCB::sys_reset()
}

#[panic_handler]
fn panic(info: &core::panic::PanicInfo) -> ! {
    match info.location() {
        Some(place) => defmt::error!("stopped at {=str}:{=u32}", place.file(), place.line()),
        None => defmt::error!("stopped"),
    }
    restart()
}

// SAFETY: the handler only reads the frame that the core has stacked, logs and
// resets; it returns to nothing that could be half done.
#[exception]
unsafe fn HardFault(frame: &ExceptionFrame) -> ! {
    defmt::error!("hard fault at {=u32:#x}", frame.pc());
    restart()
}
