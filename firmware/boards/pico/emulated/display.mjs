// The SSD1306, a display of 128 by 64 points on I2C, as far as its horizontal addressing
// mode goes (data sheet 10.1.3 to 10.1.5, from memory).
const ADDRESS = 0x3c;
const WIDTH = 128;
const PAGES = 8;
/// A byte on the bus at 400 kHz: eight bits and an acknowledgement.
const BYTE_NANOS = 22_500;
/// How many bytes follow a command.
const ARGUMENTS = new Map([[0x20, 1], [0x21, 2], [0x22, 2], [0x81, 1], [0x8d, 1], [0xa8, 1], [0xd3, 1], [0xd5, 1], [0xd9, 1], [0xda, 1], [0xdb, 1]]);

export class Display {
  constructor(chip, bus, trouble) {
    this.points = new Uint8Array(WIDTH * PAGES);
    this.on = false;
    this.columns = [0, WIDTH - 1];
    this.pages = [0, PAGES - 1];
    this.at = [0, 0];
    /// 'absent': nothing answers; 'hung': its lines hang, nothing is ever done.
    this.trouble = trouble;
    this.bytes = 0;
    const i2c = chip.mcu.i2c[bus];
    const soon = (what) => chip.sim.clock.createAlarm(what).schedule(BYTE_NANOS);
    let control = null;
    let command = [];
    const unlessHung = (what) => {
      if (this.trouble !== 'hung') soon(what);
    };
    i2c.onStart = () => unlessHung(() => i2c.completeStart());
    i2c.onStop = () => unlessHung(() => i2c.completeStop());
    i2c.onConnect = (address) => {
      control = null;
      unlessHung(() => i2c.completeConnect(address === ADDRESS && this.trouble !== 'absent'));
    };
    i2c.onWriteByte = (byte) => {
      this.bytes += 1;
      if (control === null) control = byte;
      else if (control & 0x40) this.#point(byte);
      else {
        command.push(byte);
        if (command.length > (ARGUMENTS.get(command[0]) ?? 0)) {
          this.#obey(command);
          command = [];
        }
      }
      unlessHung(() => i2c.completeWrite(true));
    };
  }

  #obey([command, first, last]) {
    if (command === 0xaf) this.on = true;
    if (command === 0xae) this.on = false;
    if (command === 0x21) this.columns = [first, last];
    if (command === 0x22) this.pages = [first, last];
    if (command === 0x21 || command === 0x22) this.at = [this.columns[0], this.pages[0]];
  }

  #point(byte) {
    let [column, page] = this.at;
    this.points[page * WIDTH + column] = byte;
    column += 1;
    if (column > this.columns[1]) {
      column = this.columns[0];
      page = page === this.pages[1] ? this.pages[0] : page + 1;
    }
    this.at = [column, page];
  }

  /// The picture, a line of dots and hashes for each row.
  rows() {
    return Array.from({ length: 8 * PAGES }, (_, row) =>
      Array.from({ length: WIDTH }, (_, column) => ((this.points[(row >> 3) * WIDTH + column] >> (row & 7)) & 1 ? '#' : '.')).join(''));
  }
}
