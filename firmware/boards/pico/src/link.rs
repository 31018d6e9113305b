//! The line to the desktop: a USB serial port.

use evenhand_firmware::drivers::{Bridge, Probe};
use evenhand_firmware::station::Station;
use evenhand_protocol::DeviceId;
use evenhand_protocol::frame::MAX_FRAME;
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

/// The serial port, with the frame on its way out.
pub struct Link<'b> {
    device: UsbDevice<'b, UsbBus>,
    port: SerialPort<'b, UsbBus>,
    frame: [u8; MAX_FRAME],
    length: usize,
    sent: usize,
}

impl<'b> Link<'b> {
    /// A port on the bus.
    pub fn new(bus: &'b UsbBusAllocator<UsbBus>, device: DeviceId) -> Self {
        let port = SerialPort::new(bus);
        let words = StringDescriptors::default()
            .manufacturer("Evenhand")
            .product("Bench scale and probe");
        let mut builder = UsbDeviceBuilder::new(bus, NUMBERS).device_class(USB_CLASS_CDC);
        // Words that do not fit are left out; the port works without.
        builder = match builder.strings(&[words]) {
            Ok(builder) => builder,
            Err(_) => UsbDeviceBuilder::new(bus, NUMBERS).device_class(USB_CLASS_CDC),
        };
        defmt::debug!("usb for {}", device.0);
        Self {
            device: builder.build(),
            port,
            frame: [0; MAX_FRAME],
            length: 0,
            sent: 0,
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
        // Nobody is there: what is to be told waits in the instrument.
        if self.device.state() != UsbDeviceState::Configured {
            self.length = 0;
            self.sent = 0;
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
