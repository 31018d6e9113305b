// Runs the board's UF2 file on an emulator of its chip, with models of what is wired to it.
//
// Reads one JSON object a line and answers each with one, so that whoever asks owns the
// time and the world: tests/src/flashed_board.rs.
//
//   {"flash": PATH}            takes a UF2 file into the flash, as the boot loader does
//   {"on": {}}                 power; the clock of what follows is at nought
//   {"run": {"until": MICROS, ...}}
//   {"cut": {"calls": N, "part": 0..1}}
//                              the power goes in the middle of the Nth call from now that
//                              changes the flash
//   {"off": {}}                the power goes between two instructions
//   {"look": {}}               the display, the RAM that was used, the flash's wear
import { createInterface } from 'node:readline';
import { BridgeConverter } from './bridge_converter.mjs';
import { Chip, Flash, PowerCut } from './chip.mjs';
import { Display } from './display.mjs';
import { ProbeConverter } from './probe_converter.mjs';
import { UsbHost } from './usb_host.mjs';

/// The wiring, as in hardware-notes/wiring.md.
const PINS = { bridgeData: 2, bridgeClock: 3, lamps: [10, 11, 12, 13], less: 6, more: 7, select: 17 };
const DISPLAY_BUS = 0;
const SERIAL = [0xe6, 0x60, 0x41, 0x04, 0x03, 0x3a, 0x7b, 0x21];

const flash = new Flash(SERIAL);
let board = null;
let state = 1;
/// A start's chance: a linear congruential generator, seeded by whoever asks.
const chance = () => {
  state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
  return state >>> 17;
};

class Board {
  constructor(display) {
    this.display_trouble = display;
    this.resets = 0;
    this.trouble = { bridge: 'none', probe: 'none' };
    this.word = 0;
    this.open = false;
    this.ahead = [];
    this.#start(0);
  }

  #start(at) {
    this.chip = new Chip(flash, chance, at);
    this.bridge = new BridgeConverter(this.chip, PINS.bridgeData, PINS.bridgeClock);
    this.bridge.setTrouble(this.trouble.bridge);
    this.probe = new ProbeConverter(this.chip, PINS.select);
    this.display = new Display(this.chip, DISPLAY_BUS, this.display_trouble);
    this.host = new UsbHost(this.chip);
    if (this.open) this.host.setOpen(true);
    for (const pin of [PINS.less, PINS.more]) this.chip.mcu.gpio[pin].setInputValue(true);
    this.bridge.schedule(this.ahead.filter(([nanos]) => nanos > at));
  }

  run({ until, conversions = [], bridge, probe, word, usb = [], open, less, more }) {
    if (bridge !== undefined) this.trouble.bridge = bridge;
    if (probe !== undefined) this.trouble.probe = probe;
    if (word !== undefined) this.word = word;
    if (open !== undefined && open !== this.open) {
      this.open = open;
      this.host.setOpen(open);
    }
    const scheduled = conversions.map(([micros, counts]) => [micros * 1e3, counts]);
    this.ahead = [...this.ahead.filter(([nanos]) => nanos > this.chip.nanos), ...scheduled];
    this.bridge.setTrouble(this.trouble.bridge);
    this.bridge.schedule(scheduled);
    this.host.send(usb);
    const from = [];
    for (;;) {
      this.probe.trouble = this.trouble.probe;
      this.probe.word = this.word;
      if (less !== undefined) this.chip.mcu.gpio[PINS.less].setInputValue(!less);
      if (more !== undefined) this.chip.mcu.gpio[PINS.more].setInputValue(!more);
      this.chip.run(until * 1e3);
      from.push(...this.host.fromDevice.splice(0));
      if (!this.chip.resetAsked) break;
      this.resets += 1;
      this.#start(this.chip.nanos);
    }
    return {
      micros: Math.floor(this.chip.nanos / 1e3),
      usb: from,
      lamps: PINS.lamps.map((pin) => this.chip.mcu.gpio[pin].outputValue),
      configured: this.host.configuredAt === null ? null : Math.floor(this.host.configuredAt / 1e3),
      resets: this.resets,
    };
  }

  look() {
    const { strings, vendor, productNumber } = this.host;
    return {
      display: { on: this.display.on, rows: this.display.rows(), bytes: this.display.bytes },
      ram: this.chip.ram(),
      usb: { ...strings, vendor, productNumber },
      bridge: this.bridge.counters,
      erases: Object.fromEntries([...flash.erases.entries()].filter(([, count]) => count > 0)),
      flashCalls: flash.calls,
      complaints: this.chip.complaints,
    };
  }
}

function answer(message) {
  const [[what, how]] = Object.entries(message);
  switch (what) {
    case 'flash':
      return { blocks: flash.load(how) };
    case 'on':
      state = how.chance ?? state;
      board = new Board(how.display ?? 'none');
      return {};
    case 'run':
      if (board === null) throw new Error('no power');
      try {
        return board.run(how);
      } catch (error) {
        if (!(error instanceof PowerCut)) throw error;
        const micros = Math.floor(board.chip.nanos / 1e3);
        flash.cut = null;
        board = null;
        return { micros, usb: [], lamps: [false, false, false, false], configured: null, resets: 0, cut: true };
      }
    case 'cut':
      flash.cut = { call: flash.calls + how.calls, part: how.part };
      return {};
    case 'worn':
      flash.worn = how;
      return {};
    case 'off':
      board = null;
      return {};
    case 'look':
      return board.look();
    default:
      throw new Error(`what is ${what}?`);
  }
}

for await (const line of createInterface({ input: process.stdin })) {
  let said;
  try {
    said = answer(JSON.parse(line));
  } catch (error) {
    said = { error: String(error?.stack ?? error) };
  }
  process.stdout.write(`${JSON.stringify(said)}\n`);
}
