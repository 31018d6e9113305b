//! A small display at the I2C bus, where there is one.

use embedded_hal::i2c::I2c;
use evenhand_firmware::instrument::Instrument;
use evenhand_firmware::panel::{Frame, Panel, Screen, Shown};
use evenhand_protocol::Uptime;
use ssd1306::command::AddrMode;
use ssd1306::mode::BasicMode;
use ssd1306::prelude::{DisplayRotation, DisplaySize128x64, I2CInterface};
use ssd1306::{I2CDisplayInterface, Ssd1306};

/// The display is drawn anew at most so often.
const EVERY_MS: u64 = 100;
/// The picture goes out in pieces of eight rows by 32 columns, each of which
/// takes less than a millisecond: no conversion is missed, and the USB is never
/// kept waiting so long that two of its requests meet.
const PIECES: u8 = 32;
const PIECES_IN_BAND: u8 = 4;
const COLUMNS: u8 = 32;

/// The display and what is on its way to it.
pub struct Display<I> {
    chip: Option<Ssd1306<I2CInterface<I>, DisplaySize128x64, BasicMode>>,
    screen: Screen,
    frame: Frame,
    /// The next piece to send.
    piece: u8,
    drawn_at: Option<Uptime>,
}

impl<I: I2c> Display<I> {
    /// The display; none where nothing answers.
    pub fn new(bus: I) -> Self {
        let mut chip = Ssd1306::new(
            I2CDisplayInterface::new(bus),
            DisplaySize128x64,
            DisplayRotation::Rotate0,
        );
        let found = chip.init_with_addr_mode(AddrMode::Horizontal).is_ok();
        Self {
            chip: found.then_some(chip),
            screen: Screen::new(),
            frame: Frame::default(),
            piece: PIECES,
            drawn_at: None,
        }
    }

    /// Draws what has changed, a piece at a time. A display that stops
    /// answering is left alone.
    pub fn poll<const PLACES: usize>(&mut self, now: Uptime, instrument: &Instrument<PLACES>) {
        let Some(chip) = &mut self.chip else {
            return;
        };
        if self.piece < PIECES {
            let (band, part) = (self.piece / PIECES_IN_BAND, self.piece % PIECES_IN_BAND);
            let (left, top) = (part * COLUMNS, band * 8);
            let row = self.frame.band(usize::from(band));
            let columns = usize::from(left)..usize::from(left + COLUMNS);
            let sent = match row.get(columns) {
                Some(points) => chip
                    .set_draw_area((left, top), (left + COLUMNS, top + 8))
                    .and_then(|()| chip.draw(points)),
                None => Ok(()),
            };
            self.piece += 1;
            if sent.is_err() {
                self.chip = None;
            }
            return;
        }
        if self.drawn_at.is_some_and(|at| now.since(at) < EVERY_MS) {
            return;
        }
        self.drawn_at = Some(now);
        let shown = Shown {
            goal: Panel::goal(instrument),
            mode: instrument.remembered().mode,
            reading: instrument.reading(now),
            count: instrument.portions_in_run(),
            interval: instrument.chain().settings().interval,
        };
        let Ok(drawn) = self.screen.show(&mut self.frame, &shown);
        if drawn {
            self.piece = 0;
        }
    }
}
