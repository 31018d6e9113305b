//! The desktop screens, as the command line asks for them.

use evenhand_app::picture::{portioning_screen, write_picture};
use evenhand_app::state::Screen;
use evenhand_app::{Options, SimulatedBench};
use evenhand_cli::{NotShown, Opening, Screens};
use evenhand_link::live::LiveScale;
use evenhand_store::Store;
use jiff::tz::TimeZone;
use std::path::Path;

/// The size of a picture, in pixels.
const PICTURE: [u32; 2] = [1280, 800];

/// The desktop screens.
pub(crate) struct Desktop;

impl Screens for Desktop {
    fn open(&self, opening: Opening) -> Result<(), NotShown> {
        let options = Options {
            first: if opening.at_review {
                Screen::Service
            } else {
                Screen::Bench
            },
            folder: opening.folder,
            language: opening.language,
            place: opening.place.map(evenhand_app::Opening::of),
            simulated: SimulatedBench::shipped(),
        };
        evenhand_app::run(options).map_err(|error| NotShown::Failed(error.to_string()))
    }

    fn picture(
        &self,
        path: &Path,
        live: &LiveScale,
        store: &Store,
        zone: &TimeZone,
    ) -> Result<(), NotShown> {
        let screen = portioning_screen(live, store, zone);
        write_picture(path, PICTURE, &screen).map_err(|error| NotShown::Failed(error.to_string()))
    }
}
