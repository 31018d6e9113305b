//! The tables of a scenario file, as they are written there. What each field
//! means, its unit and its default are described in `firmware/simulator/SCENARIOS.md`.

use super::Range;
use serde::Deserialize;

#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct File {
    pub(super) title: String,
    #[serde(default = "one")]
    pub(super) seed: u64,
    pub(super) mode: ModeName,
    pub(super) dish: String,
    pub(super) goal: GoalTable,
    pub(super) portions: Portions,
    #[serde(default)]
    pub(super) cook: Cook,
    #[serde(default)]
    pub(super) dishes: Option<Dishes>,
    #[serde(default)]
    pub(super) tin: Option<Tin>,
    #[serde(default)]
    pub(super) cell: Cell,
    #[serde(default)]
    pub(super) converter: Converter,
    #[serde(default)]
    pub(super) surroundings: Surroundings,
    #[serde(default)]
    pub(super) probe: Option<Probe>,
    #[serde(default)]
    pub(super) event: Vec<Event>,
}

const fn one() -> u64 {
    1
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub(super) enum ModeName {
    Adding,
    Taking,
}

#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct GoalTable {
    pub(super) target_grams: f64,
    pub(super) tolerance_grams: Option<f64>,
    pub(super) below_grams: Option<f64>,
    pub(super) above_grams: Option<f64>,
}

#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Portions {
    pub(crate) count: Option<u32>,
    pub(crate) mean_grams: Option<f64>,
    pub(crate) spread_grams: Option<f64>,
    pub(crate) masses_grams: Option<Vec<f64>>,
}

#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct Cook {
    pub(crate) start_after_seconds: Range,
    pub(crate) seconds_a_portion: Range,
    pub(crate) pieces: Range,
    pub(crate) watches: bool,
    pub(crate) reaction_seconds: Range,
    pub(crate) patience_seconds: f64,
    pub(crate) settle_seconds: Range,
    pub(crate) second_thoughts: f64,
    pub(crate) dish_returned: f64,
    pub(crate) double_lift: f64,
    pub(crate) splashes: f64,
    pub(crate) gives_up_seconds: f64,
    pub(crate) minds_lamps: bool,
    pub(crate) waits_for_room: bool,
    pub(crate) takes_back: f64,
    pub(crate) dribbles: f64,
    pub(crate) dribble_grams_a_second: Range,
    pub(crate) still_hand: f64,
    pub(crate) spoon_left: f64,
    pub(crate) returned_lighter: f64,
    pub(crate) half_portions: f64,
    pub(crate) tastes: f64,
    pub(crate) taste_grams: Range,
    pub(crate) refill_mid_scoop: f64,
    pub(crate) slides: f64,
    pub(crate) pulls: f64,
    pub(crate) starts_at_once: bool,
}

impl Default for Cook {
    fn default() -> Self {
        Self {
            start_after_seconds: Range::new(1.0, 3.0),
            seconds_a_portion: Range::new(6.0, 12.0),
            pieces: Range::new(2.0, 5.0),
            watches: true,
            reaction_seconds: Range::new(0.25, 0.6),
            patience_seconds: 20.0,
            settle_seconds: Range::new(1.5, 2.5),
            second_thoughts: 0.0,
            dish_returned: 0.0,
            double_lift: 0.0,
            splashes: 0.0,
            gives_up_seconds: 120.0,
            minds_lamps: true,
            waits_for_room: true,
            takes_back: 0.0,
            dribbles: 0.0,
            dribble_grams_a_second: Range::new(0.5, 3.0),
            still_hand: 0.0,
            spoon_left: 0.0,
            returned_lighter: 0.0,
            half_portions: 0.0,
            tastes: 0.0,
            taste_grams: Range::new(2.0, 5.0),
            refill_mid_scoop: 0.0,
            slides: 0.0,
            pulls: 0.0,
            starts_at_once: false,
        }
    }
}

#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Dishes {
    pub(crate) grams: Range,
}

#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Tin {
    pub(crate) grams: Range,
    pub(crate) filled_grams: Range,
    #[serde(default = "forty")]
    pub(crate) refill_below_grams: f64,
    #[serde(default)]
    pub(crate) refill: Refill,
    #[serde(default = "none")]
    pub(crate) drips_grams_an_hour: Range,
}

const fn none() -> Range {
    Range::fixed(0.0)
}

const fn forty() -> f64 {
    40.0
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub(crate) enum Refill {
    #[default]
    NewTin,
    TopUp,
}

#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct Cell {
    pub(crate) capacity_grams: f64,
    pub(crate) millivolts_per_volt: Range,
    pub(crate) zero_offset_percent: Range,
    pub(crate) nonlinearity_percent: Range,
    pub(crate) hysteresis_percent: Range,
    pub(crate) creep_percent: Range,
    pub(crate) creep_minutes: Range,
    pub(crate) zero_drift_percent: Range,
    pub(crate) span_drift_percent: Range,
    pub(crate) off_centre_percent: Range,
    pub(crate) wander_grams: Range,
    pub(crate) resonance_hertz: Range,
    pub(crate) damping: Range,
    pub(crate) calibration_grams: Option<f64>,
    pub(crate) calibration_celsius: f64,
    pub(crate) calibration_weight_ppm: Range,
    pub(crate) moving_grams: Option<f64>,
    pub(crate) warm_up_grams: Range,
    pub(crate) warm_up_minutes: Range,
    pub(crate) heat_grams: Range,
    pub(crate) heat_minutes: Range,
}

impl Default for Cell {
    fn default() -> Self {
        Self {
            capacity_grams: 2_000.0,
            millivolts_per_volt: Range::new(0.9, 1.1),
            zero_offset_percent: Range::new(-2.0, 2.0),
            nonlinearity_percent: Range::new(-0.02, 0.02),
            hysteresis_percent: Range::new(0.0, 0.01),
            creep_percent: Range::new(0.0, 0.05),
            creep_minutes: Range::new(5.0, 10.0),
            zero_drift_percent: Range::new(-0.05, 0.05),
            span_drift_percent: Range::new(-0.02, 0.02),
            off_centre_percent: Range::new(0.0, 0.02),
            wander_grams: Range::new(0.0, 0.2),
            resonance_hertz: Range::new(25.0, 60.0),
            damping: Range::new(0.02, 0.06),
            calibration_grams: None,
            calibration_celsius: 22.0,
            calibration_weight_ppm: Range::fixed(0.0),
            moving_grams: None,
            warm_up_grams: Range::fixed(0.0),
            warm_up_minutes: Range::new(5.0, 20.0),
            heat_grams: Range::fixed(0.0),
            heat_minutes: Range::new(2.0, 10.0),
        }
    }
}

#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct Converter {
    pub(crate) samples_a_second: u32,
    pub(crate) rate_error_percent: Range,
    pub(crate) noise_nanovolts: Option<Range>,
    pub(crate) excitation_volts: f64,
    pub(crate) flicker_nanovolts: Range,
    pub(crate) nonlinearity_ppm: Range,
    pub(crate) bursts_a_minute: f64,
    pub(crate) burst_grams: Range,
}

impl Default for Converter {
    fn default() -> Self {
        Self {
            samples_a_second: 80,
            rate_error_percent: Range::new(-3.0, 3.0),
            noise_nanovolts: None,
            excitation_volts: 5.0,
            flicker_nanovolts: Range::fixed(0.0),
            nonlinearity_ppm: Range::fixed(0.0),
            bursts_a_minute: 0.0,
            burst_grams: Range::new(0.5, 5.0),
        }
    }
}

#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct Surroundings {
    pub(crate) celsius: Range,
    pub(crate) warming_celsius_an_hour: Range,
    pub(crate) mains_hertz: Range,
    pub(crate) hum_grams: Range,
    pub(crate) extractor_hertz: Range,
    pub(crate) extractor_grams: Range,
    pub(crate) footfalls_a_minute: f64,
    pub(crate) footfall_grams: Range,
    pub(crate) chopping_a_minute: f64,
    pub(crate) chopping_grams: Range,
    pub(crate) leans_a_minute: f64,
    pub(crate) lean_grams: Range,
    pub(crate) lean_seconds: Range,
    pub(crate) bumps_a_minute: f64,
    pub(crate) bump_grams: Range,
    pub(crate) contacts_a_minute: f64,
    pub(crate) contact_grams: Range,
    pub(crate) contact_seconds: Range,
    pub(crate) sway_hertz: Range,
    pub(crate) sway_grams: Range,
    pub(crate) shock_grows_with_load: bool,
    pub(crate) hum_harmonics: f64,
}

impl Default for Surroundings {
    fn default() -> Self {
        Self {
            celsius: Range::new(20.0, 28.0),
            warming_celsius_an_hour: Range::new(0.0, 4.0),
            mains_hertz: Range::new(49.9, 50.1),
            hum_grams: Range::new(0.0, 0.3),
            extractor_hertz: Range::new(10.0, 25.0),
            extractor_grams: Range::fixed(0.0),
            footfalls_a_minute: 0.0,
            footfall_grams: Range::new(1.0, 20.0),
            chopping_a_minute: 0.0,
            chopping_grams: Range::new(1.0, 10.0),
            leans_a_minute: 0.0,
            lean_grams: Range::new(50.0, 800.0),
            lean_seconds: Range::new(0.3, 5.0),
            bumps_a_minute: 0.0,
            bump_grams: Range::new(20.0, 300.0),
            contacts_a_minute: 0.0,
            contact_grams: Range::new(0.5, 3.0),
            contact_seconds: Range::new(2.0, 20.0),
            sway_hertz: Range::new(1.0, 3.0),
            sway_grams: Range::fixed(0.0),
            shock_grows_with_load: false,
            hum_harmonics: 0.0,
        }
    }
}

#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Probe {
    #[serde(default = "liquid_lag")]
    pub(crate) lag_seconds: Range,
    #[serde(default = "junction")]
    pub(crate) junction_above_room_celsius: Range,
    #[serde(default = "junction_error")]
    pub(crate) junction_error_celsius: Range,
    pub(crate) medium: Vec<Medium>,
}

const fn liquid_lag() -> Range {
    Range::new(1.0, 3.0)
}

const fn junction() -> Range {
    Range::new(1.0, 5.0)
}

const fn junction_error() -> Range {
    Range::new(-2.0, 2.0)
}

#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Medium {
    pub(crate) at_seconds: f64,
    pub(crate) celsius: f64,
    #[serde(default)]
    pub(crate) over_seconds: f64,
    #[serde(default)]
    pub(crate) swing_celsius: f64,
    #[serde(default = "minutes")]
    pub(crate) swing_seconds: f64,
    #[serde(default)]
    pub(crate) lag_seconds: Option<f64>,
}

const fn minutes() -> f64 {
    300.0
}

#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Event {
    pub(crate) kind: EventKind,
    pub(crate) at_seconds: Option<f64>,
    pub(crate) at_portion: Option<u32>,
    #[serde(default)]
    pub(crate) after_seconds: f64,
    pub(crate) for_seconds: Option<f64>,
    pub(crate) grams: Option<f64>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub(crate) enum EventKind {
    CablePull,
    PowerCut,
    PowerCutInWrite,
    Lean,
    Bump,
    Footfalls,
    Chopping,
    BridgeSilent,
    BridgeHighRail,
    BridgeLowRail,
    BridgeFrozen,
    BridgeDataLow,
    BridgeAllOnes,
    BridgePinError,
    BridgeSparks,
    BridgeStalls,
    ProbeOpen,
    ProbeShortToGround,
    ProbeShortToSupply,
    ProbeShortedWires,
    ProbeBusError,
    ProbeDataLow,
    ProbeDataHigh,
    ProbeFrozen,
}
