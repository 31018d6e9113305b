//! Whether the values of a scenario make sense.

use super::tables::{
    Cell, Converter, Cook, Dishes, Event, EventKind, File, GoalTable, Medium, ModeName, Portions,
    Probe, Surroundings, Tin,
};
use super::{Range, ScenarioError};
use evenhand_protocol::{Goal, Mass, Mode, Tolerance};

/// A value's name, what it is, and what would do.
fn refuse(
    field: impl Into<String>,
    value: impl ToString,
    expected: impl Into<String>,
) -> ScenarioError {
    ScenarioError::Value {
        path: None,
        field: field.into(),
        value: value.to_string(),
        expected: expected.into(),
    }
}

/// That a number lies within limits.
fn number(field: &str, value: f64, low: f64, high: f64) -> Result<(), ScenarioError> {
    if (low..=high).contains(&value) {
        Ok(())
    } else {
        Err(refuse(
            field,
            value,
            format!("a number from {low} to {high}"),
        ))
    }
}

/// That both ends of a range lie within limits and are in order.
fn range(field: &str, value: Range, low: f64, high: f64) -> Result<(), ScenarioError> {
    let within = low..=high;
    if within.contains(&value.low) && within.contains(&value.high) && value.low <= value.high {
        Ok(())
    } else {
        Err(refuse(
            field,
            value,
            format!("a number from {low} to {high}, or [low, high] of such numbers in order"),
        ))
    }
}

fn mass(field: &str, grams: f64) -> Result<Mass, ScenarioError> {
    Mass::from_fractional_grams(grams)
        .ok_or_else(|| refuse(field, grams, "a number of grams that fits"))
}

impl File {
    pub(super) fn mode(&self) -> Mode {
        match self.mode {
            ModeName::Adding => Mode::Adding,
            ModeName::Taking => Mode::Taking,
        }
    }

    pub(super) fn goal(&self) -> Result<Goal, ScenarioError> {
        let GoalTable {
            target_grams,
            tolerance_grams,
            below_grams,
            above_grams,
        } = self.goal;
        number(
            "goal.target_grams",
            target_grams,
            0.1,
            self.cell.capacity_grams,
        )?;
        let tolerance = match (tolerance_grams, below_grams, above_grams) {
            (Some(both), None, None) => {
                number("goal.tolerance_grams", both, 0.0, target_grams)?;
                Tolerance::symmetric(mass("goal.tolerance_grams", both)?)
            }
            (None, Some(below), Some(above)) => {
                number("goal.below_grams", below, 0.0, target_grams)?;
                number("goal.above_grams", above, 0.0, self.cell.capacity_grams)?;
                Tolerance {
                    below: mass("goal.below_grams", below)?,
                    above: mass("goal.above_grams", above)?,
                }
            }
            _ => {
                return Err(refuse(
                    "goal",
                    "neither or both",
                    "either tolerance_grams, or below_grams and above_grams",
                ));
            }
        };
        Goal::new(mass("goal.target_grams", target_grams)?, tolerance)
            .map_err(|error| refuse("goal", format!("refused: {error}"), "a sensible goal"))
    }

    pub(super) fn check(&self) -> Result<(), ScenarioError> {
        if self.title.trim().is_empty() {
            return Err(refuse("title", "empty", "a line that says what this is"));
        }
        if self.dish.trim().is_empty() {
            return Err(refuse("dish", "empty", "the name of a dish"));
        }
        let capacity = self.cell.capacity_grams;
        cell(&self.cell)?;
        self.portions.check(capacity)?;
        cook(&self.cook)?;
        match (self.mode, &self.dishes, &self.tin) {
            (ModeName::Adding, Some(dishes), None) => dishes.check(capacity)?,
            (ModeName::Adding, None, _) => {
                return Err(refuse("dishes", "missing", "a table [dishes] when adding"));
            }
            (ModeName::Adding, _, Some(_)) => {
                return Err(refuse("tin", "there", "no table [tin] when adding"));
            }
            (ModeName::Taking, None, Some(tin)) => tin.check(capacity)?,
            (ModeName::Taking, _, None) => {
                return Err(refuse("tin", "missing", "a table [tin] when taking"));
            }
            (ModeName::Taking, Some(_), _) => {
                return Err(refuse("dishes", "there", "no table [dishes] when taking"));
            }
        }
        converter(&self.converter)?;
        surroundings(&self.surroundings, capacity)?;
        if let Some(probe) = &self.probe {
            check_probe(probe)?;
        }
        for (index, event) in self.event.iter().enumerate() {
            check_event(index, event, capacity)?;
        }
        Ok(())
    }
}

impl Portions {
    fn check(&self, capacity: f64) -> Result<(), ScenarioError> {
        match (
            self.count,
            self.mean_grams,
            self.spread_grams,
            &self.masses_grams,
        ) {
            (Some(count), Some(mean), Some(spread), None) => {
                number("portions.count", f64::from(count), 1.0, 100_000.0)?;
                number("portions.mean_grams", mean, 0.1, capacity)?;
                number("portions.spread_grams", spread, 0.0, mean / 4.0)
            }
            (None, None, None, Some(masses)) if !masses.is_empty() => {
                masses.iter().enumerate().try_for_each(|(index, grams)| {
                    number(
                        &format!("portions.masses_grams[{index}]"),
                        *grams,
                        0.1,
                        capacity,
                    )
                })
            }
            _ => Err(refuse(
                "portions",
                "neither or both",
                "either count, mean_grams and spread_grams, or a list masses_grams",
            )),
        }
    }
}

impl Dishes {
    fn check(&self, capacity: f64) -> Result<(), ScenarioError> {
        range("dishes.grams", self.grams, 1.0, capacity)
    }
}

impl Tin {
    fn check(&self, capacity: f64) -> Result<(), ScenarioError> {
        range("tin.grams", self.grams, 1.0, capacity)?;
        range("tin.filled_grams", self.filled_grams, 1.0, capacity)?;
        number(
            "tin.refill_below_grams",
            self.refill_below_grams,
            0.0,
            self.filled_grams.low,
        )?;
        range(
            "tin.drips_grams_an_hour",
            self.drips_grams_an_hour,
            0.0,
            36_000.0,
        )?;
        if self.grams.high + self.filled_grams.high > capacity {
            return Err(refuse(
                "tin.filled_grams",
                self.filled_grams,
                format!("tin and filling together within the capacity of {capacity} g"),
            ));
        }
        Ok(())
    }
}

fn cell(cell: &Cell) -> Result<(), ScenarioError> {
    number("cell.capacity_grams", cell.capacity_grams, 10.0, 200_000.0)?;
    range(
        "cell.millivolts_per_volt",
        cell.millivolts_per_volt,
        0.1,
        3.5,
    )?;
    range(
        "cell.zero_offset_percent",
        cell.zero_offset_percent,
        -20.0,
        20.0,
    )?;
    range(
        "cell.nonlinearity_percent",
        cell.nonlinearity_percent,
        -1.0,
        1.0,
    )?;
    range(
        "cell.hysteresis_percent",
        cell.hysteresis_percent,
        -1.0,
        1.0,
    )?;
    range("cell.creep_percent", cell.creep_percent, -1.0, 1.0)?;
    range("cell.creep_minutes", cell.creep_minutes, 0.1, 1_000.0)?;
    range(
        "cell.zero_drift_percent",
        cell.zero_drift_percent,
        -5.0,
        5.0,
    )?;
    range(
        "cell.span_drift_percent",
        cell.span_drift_percent,
        -5.0,
        5.0,
    )?;
    range("cell.off_centre_percent", cell.off_centre_percent, 0.0, 1.0)?;
    range("cell.wander_grams", cell.wander_grams, 0.0, 100.0)?;
    range("cell.resonance_hertz", cell.resonance_hertz, 2.0, 200.0)?;
    range("cell.damping", cell.damping, 0.005, 0.9)?;
    range(
        "cell.calibration_weight_ppm",
        cell.calibration_weight_ppm,
        -10_000.0,
        10_000.0,
    )?;
    range("cell.warm_up_grams", cell.warm_up_grams, -100.0, 100.0)?;
    range("cell.warm_up_minutes", cell.warm_up_minutes, 0.1, 600.0)?;
    range("cell.heat_grams", cell.heat_grams, -100.0, 100.0)?;
    range("cell.heat_minutes", cell.heat_minutes, 0.1, 600.0)?;
    if let Some(grams) = cell.moving_grams {
        number("cell.moving_grams", grams, 1.0, 100_000.0)?;
    }
    if let Some(grams) = cell.calibration_grams {
        number("cell.calibration_grams", grams, 1.0, cell.capacity_grams)?;
    }
    number(
        "cell.calibration_celsius",
        cell.calibration_celsius,
        -10.0,
        60.0,
    )
}

fn converter(converter: &Converter) -> Result<(), ScenarioError> {
    if ![10, 80].contains(&converter.samples_a_second) {
        return Err(refuse(
            "converter.samples_a_second",
            converter.samples_a_second,
            "10 or 80",
        ));
    }
    range(
        "converter.rate_error_percent",
        converter.rate_error_percent,
        -10.0,
        10.0,
    )?;
    if let Some(noise) = converter.noise_nanovolts {
        range("converter.noise_nanovolts", noise, 0.0, 1e6)?;
    }
    number(
        "converter.excitation_volts",
        converter.excitation_volts,
        1.0,
        10.0,
    )?;
    range(
        "converter.flicker_nanovolts",
        converter.flicker_nanovolts,
        0.0,
        1e6,
    )?;
    range(
        "converter.nonlinearity_ppm",
        converter.nonlinearity_ppm,
        -1_000.0,
        1_000.0,
    )?;
    number(
        "converter.bursts_a_minute",
        converter.bursts_a_minute,
        0.0,
        60.0,
    )?;
    range("converter.burst_grams", converter.burst_grams, 0.0, 1e4)?;
    Ok(())
}

fn cook(cook: &Cook) -> Result<(), ScenarioError> {
    range(
        "cook.start_after_seconds",
        cook.start_after_seconds,
        0.0,
        3_600.0,
    )?;
    range(
        "cook.seconds_a_portion",
        cook.seconds_a_portion,
        1.0,
        3_600.0,
    )?;
    range("cook.pieces", cook.pieces, 1.0, 20.0)?;
    range("cook.reaction_seconds", cook.reaction_seconds, 0.0, 60.0)?;
    number("cook.patience_seconds", cook.patience_seconds, 0.1, 3_600.0)?;
    range("cook.settle_seconds", cook.settle_seconds, 0.0, 60.0)?;
    number("cook.gives_up_seconds", cook.gives_up_seconds, 0.1, 3_600.0)?;
    range(
        "cook.dribble_grams_a_second",
        cook.dribble_grams_a_second,
        0.05,
        100.0,
    )?;
    range("cook.taste_grams", cook.taste_grams, 0.1, 1_000.0)?;
    for (field, share) in [
        ("cook.second_thoughts", cook.second_thoughts),
        ("cook.dish_returned", cook.dish_returned),
        ("cook.double_lift", cook.double_lift),
        ("cook.splashes", cook.splashes),
        ("cook.takes_back", cook.takes_back),
        ("cook.dribbles", cook.dribbles),
        ("cook.still_hand", cook.still_hand),
        ("cook.spoon_left", cook.spoon_left),
        ("cook.returned_lighter", cook.returned_lighter),
        ("cook.half_portions", cook.half_portions),
        ("cook.tastes", cook.tastes),
        ("cook.refill_mid_scoop", cook.refill_mid_scoop),
        ("cook.slides", cook.slides),
        ("cook.pulls", cook.pulls),
    ] {
        number(field, share, 0.0, 1.0)?;
    }
    Ok(())
}

fn surroundings(around: &Surroundings, capacity: f64) -> Result<(), ScenarioError> {
    range("surroundings.celsius", around.celsius, -10.0, 60.0)?;
    let warming = around.warming_celsius_an_hour;
    range("surroundings.warming_celsius_an_hour", warming, -30.0, 30.0)?;
    range("surroundings.mains_hertz", around.mains_hertz, 45.0, 65.0)?;
    range("surroundings.hum_grams", around.hum_grams, 0.0, capacity)?;
    range(
        "surroundings.extractor_hertz",
        around.extractor_hertz,
        1.0,
        100.0,
    )?;
    range(
        "surroundings.extractor_grams",
        around.extractor_grams,
        0.0,
        capacity,
    )?;
    for (field, rate) in [
        ("surroundings.footfalls_a_minute", around.footfalls_a_minute),
        ("surroundings.chopping_a_minute", around.chopping_a_minute),
        ("surroundings.leans_a_minute", around.leans_a_minute),
        ("surroundings.bumps_a_minute", around.bumps_a_minute),
        ("surroundings.contacts_a_minute", around.contacts_a_minute),
    ] {
        number(field, rate, 0.0, 60.0)?;
    }
    range(
        "surroundings.footfall_grams",
        around.footfall_grams,
        0.0,
        capacity,
    )?;
    range(
        "surroundings.chopping_grams",
        around.chopping_grams,
        0.0,
        capacity,
    )?;
    range(
        "surroundings.lean_grams",
        around.lean_grams,
        0.0,
        10.0 * capacity,
    )?;
    range("surroundings.lean_seconds", around.lean_seconds, 0.1, 600.0)?;
    range(
        "surroundings.contact_grams",
        around.contact_grams,
        0.0,
        capacity,
    )?;
    range(
        "surroundings.contact_seconds",
        around.contact_seconds,
        0.1,
        600.0,
    )?;
    range("surroundings.sway_hertz", around.sway_hertz, 0.1, 10.0)?;
    range("surroundings.sway_grams", around.sway_grams, 0.0, capacity)?;
    number("surroundings.hum_harmonics", around.hum_harmonics, 0.0, 1.0)?;
    range(
        "surroundings.bump_grams",
        around.bump_grams,
        0.0,
        10.0 * capacity,
    )
}

fn check_probe(probe: &Probe) -> Result<(), ScenarioError> {
    range("probe.lag_seconds", probe.lag_seconds, 0.01, 600.0)?;
    let junction = probe.junction_above_room_celsius;
    range("probe.junction_above_room_celsius", junction, -20.0, 40.0)?;
    range(
        "probe.junction_error_celsius",
        probe.junction_error_celsius,
        -10.0,
        10.0,
    )?;
    let mut before = 0.0;
    for (index, medium) in probe.medium.iter().enumerate() {
        let name = |field: &str| format!("probe.medium[{index}].{field}");
        let Medium {
            at_seconds,
            celsius,
            over_seconds,
            swing_celsius,
            swing_seconds,
            lag_seconds,
        } = *medium;
        number(&name("at_seconds"), at_seconds, before, 1e7)?;
        before = at_seconds;
        number(&name("celsius"), celsius, -200.0, 1_372.0)?;
        number(&name("over_seconds"), over_seconds, 0.0, 1e7)?;
        number(&name("swing_celsius"), swing_celsius, 0.0, 500.0)?;
        number(&name("swing_seconds"), swing_seconds, 0.1, 1e7)?;
        if let Some(lag) = lag_seconds {
            number(&name("lag_seconds"), lag, 0.01, 600.0)?;
        }
    }
    Ok(())
}

fn check_event(index: usize, event: &Event, capacity: f64) -> Result<(), ScenarioError> {
    let name = |field: &str| format!("event[{index}].{field}");
    match (event.at_seconds, event.at_portion) {
        (Some(at), None) => number(&name("at_seconds"), at, 0.0, 1e7)?,
        (None, Some(portion)) => number(&name("at_portion"), f64::from(portion), 1.0, 100_000.0)?,
        _ => {
            return Err(refuse(
                name("at_seconds"),
                "neither or both",
                "either at_seconds or at_portion",
            ));
        }
    }
    number(&name("after_seconds"), event.after_seconds, 0.0, 1e7)?;
    let lasts = !matches!(event.kind, EventKind::Bump);
    match (event.for_seconds, lasts) {
        (Some(seconds), true) => number(&name("for_seconds"), seconds, 0.01, 1e7)?,
        (None, true) => {
            return Err(refuse(
                name("for_seconds"),
                "missing",
                "how long it lasts, in seconds",
            ));
        }
        (Some(seconds), false) => {
            return Err(refuse(
                name("for_seconds"),
                seconds,
                "nothing: a bump has no length",
            ));
        }
        (None, false) => {}
    }
    let presses = matches!(
        event.kind,
        EventKind::Lean | EventKind::Bump | EventKind::Footfalls | EventKind::Chopping
    );
    match (event.grams, presses) {
        (Some(grams), true) => number(&name("grams"), grams, 0.0, 10.0 * capacity),
        (None, true) => Err(refuse(
            name("grams"),
            "missing",
            "how hard it presses, in grams",
        )),
        (Some(grams), false) => Err(refuse(
            name("grams"),
            grams,
            "nothing: this kind of event has no mass",
        )),
        (None, false) => Ok(()),
    }
}
