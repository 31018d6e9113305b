//! The line to the desktop: a USB serial port.

use core::fmt::Write;
use evenhand_firmware::drivers::{Bridge, Probe};
use evenhand_firmware::station::Station;
use evenhand_protocol::DeviceId;
use evenhand_protocol::frame::MAX_FRAME;
use heapless::String;
use rp2040_hal::clocks::UsbClock;
use rp2040_hal::pac;
use rp2040_hal::usb::UsbBus;
use usb_device::bus::UsbBusAllocator;
use usb_device::device::{
    StringDescriptors, UsbDevice, UsbDeviceBuilder, UsbDeviceState, UsbVidPid,
};
use usbd_serial::{SerialPort, USB_CLASS_CDC};

/// For boards that one builds for oneself: the numbers that pid.codes keeps for
/// tests (from memory). Whoever hands boards on needs numbers of their own.
const NUMBERS: UsbVidPid = UsbVidPid(0x1209, 0x0001);

/// The chip's own USB.
pub fn bus(
    registers: pac::USBCTRL_REGS,
    memory: pac::USBCTRL_DPRAM,
    clock: UsbClock,
    resets: &mut pac::RESETS,
) -> UsbBusAllocator<UsbBus> {
    UsbBusAllocator::new(UsbBus::new(registers, memory, clock, true, resets))
}

/// The device's number as the USB's serial number: 16 hexadecimal digits, as in
/// the identities of its portions.
pub fn serial_number(device: DeviceId) -> String<16> {
    let mut text = String::new();
    // Sixteen digits fit.
    let _ = write!(text, "{:016x}", device.0);
    text
}

/// The serial port, with the frame on its way out.
pub struct Link<'b> {
    device: UsbDevice<'b, UsbBus>,
    port: SerialPort<'b, UsbBus>,
    frame: [u8; MAX_FRAME],
    length: usize,
    sent: usize,
    /// Whether a program at the other end has the port open.
    open: bool,
}

impl<'b> Link<'b> {
    /// A port on the bus, of the device with this serial number.
    pub fn new(bus: &'b UsbBusAllocator<UsbBus>, serial: &'b str) -> Self {
        let port = SerialPort::new(bus);
        let words = StringDescriptors::default()
            .manufacturer("Evenhand")
            .product("Bench scale and probe")
            .serial_number(serial);
        let mut builder = UsbDeviceBuilder::new(bus, NUMBERS).device_class(USB_CLASS_CDC);
        // Words that do not fit are left out; the port works without.
        builder = match builder.strings(&[words]) {
            Ok(builder) => builder,
            Err(_) => UsbDeviceBuilder::new(bus, NUMBERS).device_class(USB_CLASS_CDC),
        };
        Self {
            device: builder.build(),
            port,
            frame: [0; MAX_FRAME],
            length: 0,
            sent: 0,
            open: false,
        }
    }

    /// Takes what came.
    pub fn receive<B: Bridge, P: Probe, const PLACES: usize>(
        &mut self,
        station: &mut Station<B, P, PLACES>,
    ) {
        self.device.poll(&mut [&mut self.port]);
        let mut bytes = [0; 64];
        while let Ok(count) = self.port.read(&mut bytes) {
            if count == 0 {
                break;
            }
            for byte in bytes.iter().take(count) {
                station.receive(*byte);
            }
        }
    }

    /// Sends what is to be sent, as far as it goes at once.
    pub fn send<B: Bridge, P: Probe, const PLACES: usize>(
        &mut self,
        micros: u64,
        station: &mut Station<B, P, PLACES>,
    ) {
        // Nobody is there: what is to be told waits in the instrument, and what is
        // not told is not stale when somebody comes.
        let open = self.device.state() == UsbDeviceState::Configured && self.port.dtr();
        if open != self.open {
            self.open = open;
            self.sent = 0;
            // A zero ends what was cut short when the port was closed.
            self.frame[0] = 0;
            self.length = usize::from(open);
        }
        if !open {
            return;
        }
        loop {
            while let Some(rest) = self.frame.get(self.sent..self.length)
                && !rest.is_empty()
            {
                match self.port.write(rest) {
                    Ok(count) if count > 0 => self.sent += count,
                    _ => return,
                }
            }
            self.sent = 0;
            self.length = station.transmit(micros, &mut self.frame);
            if self.length == 0 {
                return;
            }
        }
    }
}
