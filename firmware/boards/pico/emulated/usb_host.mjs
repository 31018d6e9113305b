// The other end of the USB cable: a host that asks for the device's descriptors, sets it
// up and passes the bytes of its serial port.
//
// The package has a host of its own, which expects whole descriptors in one packet; the
// board sends them eight bytes at a time.

/// A request follows the last one's end after a pause, as on a real bus: sent at once, it
/// is seen together with that end, and the device's address is taken late.
const PAUSE_NANOS = 3e6;
const CONTROL_PACKET = 8;
const GET_DESCRIPTOR = 0x06;
const [DEVICE, CONFIGURATION, STRING] = [1, 2, 3];
const ENDPOINT = 5;
const BULK = 2;
const DTR = 1;
const LINE_STATE_J = 1 << 2;

export class UsbHost {
  constructor(chip) {
    this.chip = chip;
    this.usb = chip.mcu.usbCtrl;
    this.strings = {};
    this.configuredAt = null;
    this.fromDevice = [];
    this.toDevice = [];
    this.room = 0;
    this.request = null;
    this.waiting = [];
    this.open = false;
    this.bulkIn = this.bulkOut = null;
    // After a reset the idle bus is at J; the package leaves its state at SE0, at which the
    // workaround for the chip's erratum E5 waits for ever.
    this.usb.onUSBEnabled = () => {
      this.usb.sieStatus |= LINE_STATE_J;
      this.usb.resetDevice();
    };
    this.usb.onResetReceived = () => this.#setUp();
    this.usb.onEndpointWrite = (endpoint, bytes) => {
      if (endpoint === 0) this.#answered(bytes);
      else if (endpoint === this.bulkIn) this.fromDevice.push(...bytes);
    };
    this.usb.onEndpointRead = (endpoint, size) => {
      if (endpoint === 0) return;
      this.room = size;
      this.outEndpoint = endpoint;
      this.feed();
    };
  }

  /// A program opens the serial port or closes it.
  setOpen(open) {
    this.open = open;
    if (this.configuredAt !== null) this.#tellOpen();
  }

  #tellOpen() {
    const { open } = this;
    this.#ask([0x21, 0x22, open ? DTR : 0, 0, 0, 0, 0, 0], 0, () => {});
  }

  send(bytes) {
    this.toDevice.push(...bytes);
    this.feed();
  }

  feed() {
    if (this.configuredAt === null || this.room === 0 || this.toDevice.length === 0) return;
    const bytes = new Uint8Array(this.toDevice.splice(0, Math.min(this.room, 64)));
    this.room = 0;
    this.usb.endpointReadDone(this.outEndpoint, bytes);
  }

  #setUp() {
    this.configuredAt = null;
    this.request = null;
    this.waiting = [];
    this.#ask([0x00, 0x05, 1, 0, 0, 0, 0, 0], 0, () => {});
    this.#descriptor(DEVICE, 0, 18, (device) => {
      this.vendor = device[8] | (device[9] << 8);
      this.productNumber = device[10] | (device[11] << 8);
      const names = { manufacturer: device[14], product: device[15], serial: device[16] };
      this.#descriptor(CONFIGURATION, 0, 9, (head) => {
        this.#descriptor(CONFIGURATION, 0, head[2] | (head[3] << 8), (all) => this.#endpoints(all));
        for (const [name, index] of Object.entries(names)) {
          if (index === 0) continue;
          this.#descriptor(STRING, index, 255, (string) => {
            this.strings[name] = Buffer.from(string.slice(2)).toString('utf16le');
          });
        }
        this.#ask([0x00, 0x09, 1, 0, 0, 0, 0, 0], 0, () => {
          this.configuredAt = this.chip.nanos;
          if (this.open) this.#tellOpen();
          this.feed();
        });
      });
    });
  }

  #endpoints(bytes) {
    for (let at = 0; at < bytes.length && bytes[at] > 0; at += bytes[at]) {
      if (bytes[at + 1] !== ENDPOINT || (bytes[at + 3] & 3) !== BULK) continue;
      if (bytes[at + 2] & 0x80) this.bulkIn = bytes[at + 2] & 15;
      else this.bulkOut = bytes[at + 2] & 15;
    }
  }

  #descriptor(kind, index, length, then) {
    this.#ask([0x80, GET_DESCRIPTOR, index, kind, kind === STRING ? 9 : 0, kind === STRING ? 4 : 0, length & 255, length >> 8], length, then);
  }

  #ask(setup, length, then) {
    this.waiting.push({ setup, length, then, got: [] });
    this.#next();
  }

  #next() {
    if (this.request !== null || this.waiting.length === 0) return;
    this.request = this.waiting.shift();
    const { setup } = this.request;
    this.chip.sim.clock.createAlarm(() => this.usb.sendSetupPacket(new Uint8Array(setup))).schedule(PAUSE_NANOS);
  }

  #answered(bytes) {
    const { request } = this;
    if (request === null) return;
    if (request.length > 0) {
      request.got.push(...bytes);
      if (bytes.length === CONTROL_PACKET && request.got.length < request.length) return;
      this.usb.endpointReadDone(0, new Uint8Array());
    }
    this.request = null;
    request.then(request.got);
    this.#next();
  }
}
