// The HX711 at two pins, after its data sheet, as the simulated bench has it in
// firmware/simulator/src/chips/hx711.rs: the same rules in another language.
import { GPIOPinState } from 'rp2040js';

const BITS = 24;
/// A clock high for longer than this powers it down.
const POWER_DOWN_NANOS = 60e3;
/// Conversions until its output is valid again.
const SETTLING = 4;
/// By pulses of a read: what the next conversions are worth beside channel A at gain 128.
const GAINS = new Map([[25, 1], [26, 0], [27, 0.5]]);
const HIGHEST = 0x7fffff;
const LOWEST = -0x800000;

export class BridgeConverter {
  constructor(chip, data, clock) {
    this.chip = chip;
    this.data = chip.mcu.gpio[data];
    this.trouble = 'none';
    this.powered = true;
    this.settling = SETTLING - 1;
    this.word = null;
    this.pulses = 0;
    this.gain = 1;
    this.last = 0;
    this.counters = { conversions: 0, reads: 0, torn: 0, powerDowns: 0 };
    this.powerDown = chip.sim.clock.createAlarm(() => {
      this.powered = false;
      this.word = null;
      this.counters.powerDowns += 1;
      this.#show();
    });
    let high = false;
    chip.mcu.gpio[clock].addListener((state) => {
      const now = state === GPIOPinState.High;
      if (now === high) return;
      high = now;
      if (high) this.#rise();
      else this.#fall();
    });
    this.#show();
  }

  /// Conversions to come, each [nanoseconds, counts].
  schedule(conversions) {
    for (const [at, counts] of conversions) this.chip.at(at, () => this.#convert(counts));
  }

  #convert(counts) {
    if (!this.powered || this.trouble === 'silent') return;
    if (this.settling > 0) {
      this.settling -= 1;
      return;
    }
    this.counters.conversions += 1;
    if (this.trouble !== 'frozen') this.last = Math.round(counts * this.gain);
    let value = this.last;
    if (this.trouble === 'high-rail') value = HIGHEST;
    if (this.trouble === 'low-rail') value = LOWEST;
    if (this.trouble === 'all-ones') value = -1;
    value = Math.max(LOWEST, Math.min(HIGHEST, value));
    if (this.pulses > 0 && this.pulses < 25) this.counters.torn += 1;
    this.word = value & 0xffffff;
    this.pulses = 0;
    this.#show();
  }

  #rise() {
    this.powerDown.schedule(POWER_DOWN_NANOS);
    if (!this.powered || this.word === null) return;
    this.pulses += 1;
    if (this.pulses === 25) this.counters.reads += 1;
    this.#show();
  }

  #fall() {
    this.powerDown.cancel();
    if (!this.powered) {
      this.powered = true;
      this.settling = SETTLING - 1;
      this.gain = 1;
      this.pulses = 0;
    } else if (this.word !== null && this.pulses > BITS) {
      const gain = GAINS.get(this.pulses) ?? this.gain;
      if (gain !== this.gain) this.settling = SETTLING - 1;
      this.gain = gain;
    }
    this.#show();
  }

  /// The data line: low when ready, the bits highest first, and high again.
  #show() {
    let high = true;
    if (this.trouble === 'data-low') high = false;
    else if (this.word !== null && this.pulses === 0) high = false;
    else if (this.word !== null && this.pulses <= BITS) high = ((this.word >> (BITS - this.pulses)) & 1) === 1;
    this.data.setInputValue(high);
  }

  setTrouble(trouble) {
    this.trouble = trouble;
    this.#show();
  }
}
