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
/// Rows of eight points; one is sent at a time, which takes three
/// milliseconds, so that no conversion is missed.
const BANDS: u8 = 8;

/// The display and what is on its way to it.
pub struct Display<I> {
    chip: Option<Ssd1306<I2CInterface<I>, DisplaySize128x64, BasicMode>>,
    screen: Screen,
    frame: Frame,
    /// The next band to send.
    band: u8,
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
            band: BANDS,
            drawn_at: None,
        }
    }

    /// Draws what has changed, a band at a time. A display that stops
    /// answering is left alone.
    pub fn poll<const PLACES: usize>(&mut self, now: Uptime, instrument: &Instrument<PLACES>) {
        let Some(chip) = &mut self.chip else {
            return;
        };
        if self.band < BANDS {
            let top = self.band * 8;
            let sent = chip
                .set_draw_area((0, top), (128, top + 8))
                .and_then(|()| chip.draw(&self.frame.band(usize::from(self.band))));
            self.band += 1;
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
            self.band = 0;
        }
    }
}
