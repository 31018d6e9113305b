//! Between the domain's types and the store's columns.

use super::StoreError;
use evenhand_kitchen::portion::TimeSource;
use evenhand_kitchen::units::{CostPerMass, Currency, Money};
use evenhand_protocol::{DeviceId, Goal, Mass, Mode, Tolerance};
use jiff::Timestamp;
use std::path::Path;

pub(super) const fn device_to(device: DeviceId) -> i64 {
    device.0.cast_signed()
}

pub(super) const fn device_from(column: i64) -> DeviceId {
    DeviceId(column.cast_unsigned())
}

pub(super) fn time_to(time: Timestamp) -> i64 {
    time.as_millisecond()
}

pub(super) const fn mode_to(mode: Mode) -> i64 {
    match mode {
        Mode::Adding => 0,
        Mode::Taking => 1,
    }
}

pub(super) const fn source_to(source: TimeSource) -> i64 {
    match source {
        // Of what no instrument sent the identity says so.
        TimeSource::Instrument | TimeSource::Imported => 0,
        TimeSource::Uptime => 1,
        TimeSource::Recorded => 2,
    }
}

pub(super) fn money_to(money: Option<Money>) -> (Option<i64>, Option<&'static str>) {
    (
        money.map(Money::millionths),
        money.map(|money| money.currency().code()),
    )
}

/// Reads what the columns hold; what could not have been written is an error
/// that names it, never a guess.
#[derive(Debug, Clone, Copy)]
pub(super) struct Reads<'p>(pub(super) &'p Path);

impl Reads<'_> {
    pub(super) fn senseless(self, what: &'static str) -> StoreError {
        StoreError::Senseless {
            path: self.0.to_owned(),
            what,
        }
    }

    pub(super) fn time(self, column: i64) -> Result<Timestamp, StoreError> {
        Timestamp::from_millisecond(column).map_err(|_| self.senseless("time"))
    }

    pub(super) fn time_or_none(self, column: Option<i64>) -> Result<Option<Timestamp>, StoreError> {
        column.map(|column| self.time(column)).transpose()
    }

    pub(super) fn mode(self, column: i64) -> Result<Mode, StoreError> {
        match column {
            0 => Ok(Mode::Adding),
            1 => Ok(Mode::Taking),
            _ => Err(self.senseless("mode")),
        }
    }

    pub(super) fn source(self, column: i64) -> Result<TimeSource, StoreError> {
        match column {
            0 => Ok(TimeSource::Instrument),
            1 => Ok(TimeSource::Uptime),
            2 => Ok(TimeSource::Recorded),
            _ => Err(self.senseless("time source")),
        }
    }

    pub(super) fn goal(self, target: i64, below: i64, above: i64) -> Result<Goal, StoreError> {
        let tolerance = Tolerance {
            below: Mass::from_micrograms(below),
            above: Mass::from_micrograms(above),
        };
        Goal::new(Mass::from_micrograms(target), tolerance).map_err(|_| self.senseless("goal"))
    }

    pub(super) fn money(
        self,
        amount: Option<i64>,
        currency: Option<String>,
    ) -> Result<Option<Money>, StoreError> {
        match (amount, currency) {
            (None, _) | (_, None) => Ok(None),
            (Some(amount), Some(code)) => Currency::from_code(&code)
                .map(|currency| Some(Money::from_millionths(amount, currency)))
                .ok_or_else(|| self.senseless("currency")),
        }
    }

    pub(super) fn cost(
        self,
        amount: Option<i64>,
        currency: Option<String>,
    ) -> Result<Option<CostPerMass>, StoreError> {
        Ok(self.money(amount, currency)?.map(CostPerMass::per_kilogram))
    }

    pub(super) fn unsigned32(self, column: i64, what: &'static str) -> Result<u32, StoreError> {
        u32::try_from(column).map_err(|_| self.senseless(what))
    }
}

/// Reads what is kept as JSON. By way of a plain value, since another crate of a
/// build may have `serde_json` keep numbers as text, which a tagged form does
/// not read.
pub(super) fn from_json<T: serde::de::DeserializeOwned>(text: &str) -> serde_json::Result<T> {
    let value: serde_json::Value = serde_json::from_str(text)?;
    serde_json::from_value(value)
}
