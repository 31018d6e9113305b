//! The simulated flash: what it does to bytes, and the file that it may be kept
//! in.

use embedded_storage::nor_flash::{NorFlash, ReadNorFlash};
use evenhand_protocol::{Epoch, PortionId};
use evenhand_simulator::desk::Desk;
use evenhand_simulator::flash::{BuiltInto, FlashTrouble, SECTOR, SIZE, SimulatedFlash};
use evenhand_simulator::history::{Happening, What};
use evenhand_simulator::instrument::SimulatedInstrument;
use evenhand_simulator::scenario::Scenario;
use std::fs;
use std::path::Path;
use tempfile::TempDir;

const SECTOR_END: u32 = SECTOR as u32;

fn read(flash: &mut SimulatedFlash, offset: u32, length: usize) -> Vec<u8> {
    let mut bytes = vec![0; length];
    flash.read(offset, &mut bytes).unwrap();
    bytes
}

#[test]
fn writes_clear_bits_and_erases_set_them() {
    let mut flash = SimulatedFlash::blank();
    flash.write(8, &[0xF0, 0x0F, 0xAA, 0x55]).unwrap();
    flash.write(8, &[0x3C, 0x3C, 0xFF, 0x00]).unwrap();
    assert_eq!(read(&mut flash, 7, 6), [0xFF, 0x30, 0x0C, 0xAA, 0x00, 0xFF]);
    flash.erase(0, SECTOR_END).unwrap();
    assert!(flash.bytes().iter().all(|byte| *byte == 0xFF));
}

#[test]
fn what_no_flash_can_do_is_refused() {
    let mut flash = SimulatedFlash::blank();
    let end = SIZE as u32;
    assert_eq!(flash.write(2, &[0; 4]), Err(FlashTrouble::NotAligned));
    assert_eq!(flash.write(4, &[0; 3]), Err(FlashTrouble::NotAligned));
    assert_eq!(flash.write(end, &[0; 4]), Err(FlashTrouble::OutOfBounds));
    assert_eq!(flash.erase(4, SECTOR_END), Err(FlashTrouble::NotAligned));
    assert_eq!(flash.erase(SECTOR_END, 0), Err(FlashTrouble::OutOfBounds));
    assert_eq!(
        flash.erase(0, end + SECTOR_END),
        Err(FlashTrouble::OutOfBounds)
    );
    assert_eq!(flash.read(end, &mut [0]), Err(FlashTrouble::OutOfBounds));
    assert_eq!(
        flash.read(u32::MAX, &mut [0; 2]),
        Err(FlashTrouble::OutOfBounds)
    );
    assert!(flash.bytes().iter().all(|byte| *byte == 0xFF));
}

#[test]
fn a_cut_leaves_an_operation_half_done() {
    let mut flash = SimulatedFlash::blank();
    flash.cut_power_in_operation(1, 0.5);
    flash.write(0, &[0; 8]).unwrap();
    assert_eq!(flash.write(16, &[0; 16]), Err(FlashTrouble::NoPower));
    assert_eq!(flash.read(0, &mut [0]), Err(FlashTrouble::NoPower));
    assert_eq!(flash.write(16, &[0; 16]), Err(FlashTrouble::NoPower));
    flash.power_up();
    let mut torn = vec![0; 8];
    torn.extend([0x5A; 4]);
    torn.extend([0xFF; 4]);
    assert_eq!(read(&mut flash, 16, 16), torn);

    flash.cut_power_in_operation(0, 0.25);
    assert_eq!(flash.erase(0, SECTOR_END), Err(FlashTrouble::NoPower));
    flash.power_up();
    let erased = flash.bytes().iter().take_while(|byte| **byte == 0xFF);
    assert!(erased.count() >= SECTOR / 4);

    // All of it was done, and nobody heard.
    let mut flash = SimulatedFlash::blank();
    flash.cut_power_in_operation(0, 1.0);
    assert_eq!(flash.write(0, &[1; 8]), Err(FlashTrouble::NoPower));
    assert_eq!(flash.bytes()[..9], [1, 1, 1, 1, 1, 1, 1, 1, 0xFF]);
}

const MINE: BuiltInto = BuiltInto {
    device: 7,
    zero_counts: 84_000,
    span_counts: 2_181_000,
};

#[test]
fn a_file_keeps_it() {
    let folder = TempDir::new().unwrap();
    let path = folder.path().join("flash");
    let mut flash = SimulatedFlash::in_file(&path, MINE).unwrap();
    flash.write(SECTOR_END, &[1, 2, 3, 4]).unwrap();
    let in_use = SimulatedFlash::in_file(&path, MINE).unwrap_err();
    assert!(in_use.to_string().contains("in use"), "{in_use}");
    flash.cut_power_in_operation(0, 0.5);
    assert!(flash.write(0, &[0; 8]).is_err());
    drop(flash);
    let mut flash = SimulatedFlash::in_file(&path, MINE).unwrap();
    assert_eq!(read(&mut flash, SECTOR_END, 4), [1, 2, 3, 4]);
    assert_eq!(read(&mut flash, 0, 5), [0, 0, 0, 0, 0x5A]);
}

#[test]
fn a_file_that_is_no_flash_is_said_to_be_none() {
    let folder = TempDir::new().unwrap();
    let path = folder.path().join("flash");
    drop(SimulatedFlash::in_file(&path, MINE).unwrap());
    let whole = fs::read(&path).unwrap();
    let refused = |bytes: &[u8], built_into| {
        fs::write(&path, bytes).unwrap();
        let error = SimulatedFlash::in_file(&path, built_into).unwrap_err();
        // What it refuses it leaves as it was.
        assert_eq!(fs::read(&path).unwrap(), bytes);
        let words = error.to_string();
        assert!(words.contains(path.to_str().unwrap()), "{words}");
        words
    };
    for (bytes, built_into, says) in [
        (&b""[..], MINE, "something else"),
        (b"a shopping list", MINE, "something else"),
        (&vec![0; whole.len()], MINE, "something else"),
        (&whole[..whole.len() - 1], MINE, "360511 bytes"),
        (&[&whole[..], b"x"].concat(), MINE, "has 360512"),
        (&whole, BuiltInto { device: 8, ..MINE }, "another"),
        (
            &whole,
            BuiltInto {
                span_counts: 1,
                ..MINE
            },
            "load cell",
        ),
    ] {
        let words = refused(bytes, built_into);
        assert!(words.contains(says), "{words}");
    }
    let nowhere = folder.path().join("no/such/folder");
    let error = SimulatedFlash::in_file(&nowhere, MINE).unwrap_err();
    assert!(error.to_string().contains("cannot be read"), "{error}");
}

/// Portions that nobody acknowledged, over the end of the program.
#[test]
fn an_instrument_goes_on_from_a_file() {
    let scenario = Scenario::shipped("saltmarsh-parfait").unwrap();
    let folder = TempDir::new().unwrap();
    let path = folder.path().join("flash");
    let begin = |path: &Path, epoch| {
        SimulatedInstrument::on_flash_in(path, &scenario, 5, Epoch(epoch)).unwrap()
    };
    let ids = |history: &[Happening], waiting: bool| -> Vec<PortionId> {
        history
            .iter()
            .filter_map(|happening| match happening.what {
                What::Kept(portion) if !waiting => Some(portion.id),
                What::Waiting(portion) if waiting => Some(portion.id),
                _ => None,
            })
            .collect()
    };
    let mut instrument = begin(&path, 30);
    let mut desk = Desk::new(scenario.mode(), scenario.goal());
    while instrument.reading().is_none_or(|now| now.run.is_none()) {
        let now = instrument.micros() + 10_000;
        instrument.advance_to(now);
        let bytes = instrument.receive();
        instrument.send(&desk.talk(now, &bytes));
    }
    while instrument.truth().len() < 5 {
        instrument.advance_to(instrument.micros() + 10_000);
    }
    let kept = ids(&instrument.take_history(), false);
    assert!(kept.len() >= 4, "{kept:?}");
    drop(instrument);

    let mut instrument = begin(&path, 90);
    instrument.advance_to(1_000_000);
    let history = instrument.take_history();
    assert_eq!(history[0].what, What::PowerOn(Epoch(31)));
    assert_eq!(ids(&history, true), kept);
    // It knows its run, too.
    assert!(instrument.reading().unwrap().run.is_some());
    drop(instrument);

    let other = SimulatedInstrument::on_flash_in(&path, &scenario, 6, Epoch(1));
    assert!(other.unwrap_err().to_string().contains("seed"));
}
