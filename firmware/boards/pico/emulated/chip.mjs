// The RP2040 and its flash chip: power, start, the ROM's functions, resets.
import { readFileSync } from 'node:fs';
import { Simulator } from 'rp2040js';
import { decodeBlock, isUF2Block, UF2Flags } from 'uf2';

/// Where the flash lies in the processor's memory, and how much of it there is.
const MAPPED_AT = 0x1000_0000;
export const FLASH_BYTES = 2 * 1024 * 1024;
/// The vector table lies behind the second stage of the boot.
const VECTORS = MAPPED_AT + 0x100;
/// The chip's number among the families of UF2 (the format's list, from memory).
const FAMILY = 0xe48bff56;
const CYCLE_NANOS = 8;
/// What the RAM holds at power-on, so that what was ever written shows.
const PAINT = 0xa5;
const RAM_BYTES = 256 * 1024;
/// Typical times of such a flash chip (from memory of data sheets).
const ERASE_SECTOR_NANOS = 45e6;
const PROGRAM_PAGE_NANOS = 0.4e6;
const SECTOR = 4096;
const PAGE = 256;
/// The application interrupt and reset control register: a reset is asked for.
const AIRCR = 0xd0c;
const RESET_ASKED = 0x05fa0004;
/// The flash controller's registers, and reading the chip's own number.
const DR0 = 0x60;
const READ_UNIQUE_ID = 0x4b;
const UNIQUE_ID_DUMMIES = 4;
/// The ring oscillator's random bit.
const RANDOMBIT = 0x1c;

/// The power went, in the middle of what the flash did or between two instructions.
export class PowerCut extends Error {}

/// A flash chip, which keeps what it holds when the power goes.
export class Flash {
  constructor(uniqueId) {
    this.bytes = new Uint8Array(FLASH_BYTES).fill(0xff);
    this.uniqueId = uniqueId;
    /// How often each sector was erased.
    this.erases = new Uint32Array(FLASH_BYTES / SECTOR);
    this.calls = 0;
    /// The power goes in the middle of this call, after this part of it.
    this.cut = null;
    /// It refuses to be changed, as at its life's end.
    this.worn = false;
  }

  /// Takes a UF2 file as the chip's boot loader does: blocks for this chip, each to its place.
  load(path) {
    const file = readFileSync(path);
    let blocks = 0;
    for (let at = 0; at < file.length; at += 512) {
      const block = file.subarray(at, at + 512);
      if (block.length < 512 || !isUF2Block(block)) throw new Error(`${path} is no UF2 file at ${at}`);
      const { flags, flashAddress, payload, boardFamily, totalBlocks, blockNumber } = decodeBlock(block);
      if (!(flags & UF2Flags.familyIDPresent) || boardFamily !== FAMILY) throw new Error(`${path}: block ${blockNumber} is for another chip`);
      const offset = flashAddress - MAPPED_AT;
      if (offset < 0 || offset + payload.length > FLASH_BYTES || blockNumber !== blocks || payload.length !== PAGE) throw new Error(`${path}: block ${blockNumber} goes nowhere`);
      // The boot loader erases a sector when the first block of it comes.
      if (offset % SECTOR === 0) this.bytes.fill(0xff, offset, offset + SECTOR);
      this.bytes.set(payload, offset);
      blocks += 1;
      if (blocks === totalBlocks) return blocks;
    }
    throw new Error(`${path} ends early`);
  }

  /// How much of a call is done before the power goes: all of it, or part.
  part(length) {
    this.calls += 1;
    if (this.cut === null || this.cut.call !== this.calls) return length;
    return Math.min(length, Math.floor(length * this.cut.part));
  }
}

/// The chip with power. Another one is made for each start.
export class Chip {
  constructor(flash, chance, startedAt) {
    this.flash = flash;
    this.chance = chance;
    /// On the clock of the power supply.
    this.startedAt = startedAt;
    this.functions = new Map();
    this.unknownCalls = new Set();
    this.resetAsked = false;
    this.sim = new Simulator();
    const mcu = (this.mcu = this.sim.rp2040);
    this.complaints = [];
    mcu.logger = {
      debug() {},
      info() {},
      warn: () => {},
      error: (part, words) => this.complaints.push(`${part}: ${words}`),
    };
    // The emulator's reset wipes its flash: put the chip's in after it.
    mcu.flash.fill(0xff);
    mcu.flash.set(flash.bytes);
    mcu.sram.fill(PAINT);
    this.#putRom();
    this.#wakeMasked();
    this.#watchResets();
    this.#putFlashController();
    this.#putChance();
    mcu.core.VTOR = VECTORS;
    mcu.core.SP = mcu.readUint32(VECTORS);
    mcu.core.PC = mcu.readUint32(VECTORS + 4) & ~1;
  }

  get nanos() {
    return this.startedAt + this.sim.clock.nanos;
  }

  /// Does something at a moment of the power supply's clock.
  at(nanos, what) {
    this.sim.clock.createAlarm(what).schedule(Math.max(0, nanos - this.nanos));
  }

  /// Runs until then, or until a reset.
  run(until) {
    const { core } = this.mcu;
    const { clock } = this.sim;
    const end = until - this.startedAt;
    while (clock.nanos < end && !this.resetAsked) {
      if (core.waiting) {
        const next = clock.nextAlarm === null ? end : clock.nextAlarm.nanos;
        clock.tick(Math.max(CYCLE_NANOS, Math.min(end, next) - clock.nanos));
      } else {
        clock.tick(core.executeInstruction() * CYCLE_NANOS);
      }
    }
  }

  /// How much of the RAM was never written, and how much of its top was: the stack.
  ram() {
    const { sram } = this.mcu;
    let longest = 0;
    let below = RAM_BYTES;
    for (let at = 0, run = 0; at < RAM_BYTES; at++) {
      run = sram[at] === PAINT ? run + 1 : 0;
      if (run > longest) {
        longest = run;
        below = at + 1;
      }
    }
    return { stack: RAM_BYTES - below, statics: below - longest, free: longest };
  }

  // The package brings no boot ROM. Its table's look-up and every function that it hands
  // out are a breakpoint and a return; what they do is done here, after the chip's data
  // sheet (2.8.3, from memory).
  #putRom() {
    const { mcu } = this;
    const rom = new Uint16Array(8 * 1024);
    const stub = (at, number) => {
      rom[at >> 1] = 0xbe00 | number;
      rom[(at >> 1) + 1] = 0x4770;
    };
    rom[0x14 >> 1] = rom[0x16 >> 1] = 0x200;
    rom[0x18 >> 1] = 0x101;
    stub(0x100, 0);
    mcu.bootrom.set(new Uint32Array(rom.buffer));
    const names = [];
    const address = (name) => {
      if (!this.functions.has(name)) {
        names.push(name);
        const at = 0x120 + 4 * names.length;
        stub(at, names.length);
        this.functions.set(name, at | 1);
        mcu.bootrom.set(new Uint32Array(rom.buffer));
      }
      return this.functions.get(name);
    };
    mcu.onBreak = (number) => {
      const { registers } = mcu.core;
      if (number === 0) {
        registers[0] = address(String.fromCharCode(registers[1] & 255, (registers[1] >> 8) & 255));
      } else {
        this.#call(names[number - 1], registers);
      }
    };
  }

  #call(name, registers) {
    const { mcu } = this;
    switch (name) {
      case 'C4': // copy
      case 'MC':
        for (let i = 0; i < registers[2]; i++) mcu.writeUint8(registers[0] + i, mcu.readUint8(registers[1] + i));
        return;
      case 'S4': // set
      case 'MS':
        for (let i = 0; i < registers[2]; i++) mcu.writeUint8(registers[0] + i, registers[1] & 255);
        return;
      case 'RE':
        return this.#erase(registers[0] & 0xffffff, registers[1]);
      case 'RP':
        return this.#program(registers[0] & 0xffffff, registers[1], registers[2]);
      case 'L3': // leading zeros
        registers[0] = Math.clz32(registers[0]);
        return;
      case 'T3': // trailing zeros
        registers[0] = registers[0] === 0 ? 32 : 31 - Math.clz32(registers[0] & -registers[0]);
        return;
      case 'P3': { // bits set
        let count = 0;
        for (let bits = registers[0] >>> 0; bits; bits &= bits - 1) count++;
        registers[0] = count;
        return;
      }
      case 'IF': // connect the flash, leave its reading, flush its cache, begin to read it again
      case 'EX':
      case 'FC':
      case 'CX':
        return;
      default:
        // What is not there must not seem to be: whoever runs this hears of it.
        this.complaints.push(`ROM: ${name} is not modelled`);
    }
  }

  #erase(offset, length) {
    for (let at = offset; at < offset + length; at += SECTOR) {
      const done = this.flash.part(SECTOR);
      if (!this.flash.worn) this.#change(at, (bytes) => bytes.fill(0xff, 0, done), SECTOR);
      if (done < SECTOR) throw new PowerCut();
      this.flash.erases[at / SECTOR] += 1;
      this.sim.clock.tick(ERASE_SECTOR_NANOS);
    }
  }

  #program(offset, from, length) {
    for (let at = 0; at < length; at += PAGE) {
      const done = this.flash.part(PAGE);
      const change = (bytes) => {
        for (let i = 0; i < done; i++) bytes[i] &= this.mcu.readUint8(from + at + i);
      };
      if (!this.flash.worn) this.#change(offset + at, change, PAGE);
      if (done < PAGE) throw new PowerCut();
      this.sim.clock.tick(PROGRAM_PAGE_NANOS);
    }
  }

  #change(offset, change, length) {
    change(this.flash.bytes.subarray(offset, offset + length));
    this.mcu.flash.set(this.flash.bytes.subarray(offset, offset + length), offset);
  }

  // A masked interrupt ends a sleep and is not taken (Armv6-M Architecture Reference
  // Manual, B1.5.17, from memory). The package takes it.
  #wakeMasked() {
    const { core } = this.mcu;
    const check = core.checkForInterrupts.bind(core);
    core.checkForInterrupts = () => {
      if (!(core.waiting && core.PM)) return check();
      return (core.pendingInterrupts & core.enabledInterrupts) !== 0;
    };
  }

  #watchResets() {
    const { ppb } = this.mcu;
    const write = ppb.writeUint32.bind(ppb);
    ppb.writeUint32 = (offset, value) => {
      if (offset === AIRCR && (value & RESET_ASKED) === RESET_ASKED) this.resetAsked = true;
      else write(offset, value);
    };
    const watchdog = this.mcu.peripherals[0x40058];
    watchdog.onWatchdogTrigger = () => (this.resetAsked = true);
  }

  #putFlashController() {
    const controller = this.mcu.peripherals[0x18000];
    const [read, write] = [controller.readUint32.bind(controller), controller.writeUint32.bind(controller)];
    let answer = [];
    controller.writeUint32 = (offset, value) => {
      if (offset === DR0 && (value & 255) === READ_UNIQUE_ID) answer = [...new Array(UNIQUE_ID_DUMMIES).fill(0), ...this.flash.uniqueId];
      else write(offset, value);
    };
    controller.readUint32 = (offset) => (offset === DR0 && answer.length > 0 ? answer.shift() : read(offset));
  }

  #putChance() {
    const ring = this.mcu.peripherals[0x40060];
    const read = ring.readUint32.bind(ring);
    ring.readUint32 = (offset) => (offset === RANDOMBIT ? this.chance() & 1 : offset === 0x18 ? 0x8000_0000 : read(offset));
  }
}
