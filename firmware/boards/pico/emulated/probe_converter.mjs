// The MAX31855, which is only ever read: 32 bits while its select is low.
import { GPIOPinState } from 'rp2040js';

/// From power-up until it has something to say, and how long a conversion takes, which a
/// read cuts off.
const POWER_UP_NANOS = 200e6;
const CONVERSION_NANOS = 100e6;
/// The bits of a word that has a fault: any, and then which.
const FAULT = 0x1fff << 18 | 1 << 16;
const FAULTS = { open: 1, 'short-to-ground': 2, 'short-to-supply': 4 };

export class ProbeConverter {
  constructor(chip, select) {
    this.word = 0;
    this.trouble = 'none';
    this.latched = 0;
    let convertingSince = chip.nanos + POWER_UP_NANOS - CONVERSION_NANOS;
    let byte = 4;
    chip.mcu.gpio[select].addListener((state) => {
      if (state === GPIOPinState.Low && byte >= 4) {
        byte = 0;
        if (chip.nanos - convertingSince >= CONVERSION_NANOS && this.trouble !== 'frozen') this.latched = this.#said();
        convertingSince = chip.nanos;
      } else if (state === GPIOPinState.High) {
        byte = 4;
      }
    });
    const spi = chip.mcu.spi[0];
    spi.onTransmit = () => {
      const out = byte < 4 ? (this.latched >>> (24 - 8 * byte)) & 255 : 255;
      byte += 1;
      spi.completeTransmit(out);
    };
  }

  #said() {
    if (this.trouble === 'data-low' || this.trouble === 'bus-error') return 0;
    if (this.trouble === 'data-high') return 0xffffffff;
    // Wires that touch before the tip: no voltage, and no fault.
    const cold = (this.word >> 4) & 0xfff;
    if (this.trouble === 'shorted-wires') return (((cold >> 2) & 0x3fff) << 18) | (cold << 4);
    const fault = FAULTS[this.trouble];
    return fault === undefined ? this.word : (this.word & 0xfff0) | FAULT | fault;
  }
}
