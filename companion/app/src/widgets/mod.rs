//! What the screens are made of, each in its own file.

pub mod approach_track;
pub mod big_button;
pub mod connection_banner;
pub mod figure;
pub mod letter_pad;
pub mod long_list;
pub mod mass_readout;
pub mod melt_clock;
pub mod number_pad;
pub mod pictogram;
pub mod portion_strip;
pub mod shapes;
pub mod stepper;
pub mod temperature_badge;
pub mod verdict_column;
