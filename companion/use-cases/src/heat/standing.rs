//! How a log stands now.

use evenhand_kitchen::heat::{
    Aim, Forecast, Habit, HeatLog, LogName, Outlook, Surroundings, forecast, mornings, outlook,
};
use evenhand_kitchen::limits::{Demand, Limit, Limits};
use evenhand_kitchen::probe::Probe;
use evenhand_store::{Store, StoreError};
use jiff::{SignedDuration, Timestamp};

/// How far a log is looked back at for earlier mornings.
pub const LOOK_BACK: SignedDuration = SignedDuration::from_hours(24 * 21);

/// How a log stands now: what is going on, where it is going, and what was
/// counted in.
#[derive(Debug, Clone)]
pub struct HeatNow {
    /// All that was looked at of it, [`LOOK_BACK`], with corrections.
    pub whole: HeatLog,
    /// The last half day of that.
    pub log: HeatLog,
    /// What it is watched for.
    pub aim: Option<Aim>,
    /// When it reaches and leaves the band aimed at.
    pub forecast: Option<Forecast>,
    /// Where it is going by the limit aimed at, which is named.
    pub limit: Option<(Limit, Vec<Outlook>)>,
    /// Earlier mornings that were looked at.
    pub habit: Habit,
    /// Corrections in force.
    pub corrections: usize,
    /// What is known of the probe.
    pub probe: Option<Probe>,
}

impl HeatNow {
    /// Works it out at a moment. Without limits, because the kitchen's own
    /// cannot be used, nothing is judged.
    ///
    /// # Errors
    /// [`StoreError::UnknownHeatLog`], or where the store cannot be read.
    pub fn of(
        store: &Store,
        name: &LogName,
        limits: Option<&Limits>,
        now: Timestamp,
    ) -> Result<Self, StoreError> {
        let from = now.checked_sub(LOOK_BACK).unwrap_or(Timestamp::MIN);
        let stored = store.heat_log(name, from, now)?;
        let aim = store.heat_aim(name)?;
        let whole = stored.corrected();
        let (mut log, habit) = mornings(&whole, now);
        let probe = limits.and_then(Limits::probe);
        log.doubted_by(probe);
        let around = aim.clone().unwrap_or_default().surroundings();
        let band = aim.as_ref().and_then(|aim| aim.band().ok().flatten());
        let limit = aim
            .as_ref()
            .and_then(|aim| aim.limit.as_deref())
            .and_then(|name| limits?.named(name))
            .map(|limit| {
                let ahead = going(&log, &habit, &whole, limit, around, probe, now);
                (limit.clone(), ahead)
            });
        Ok(Self {
            forecast: band.map(|band| forecast(&log, band, around, &habit, now)),
            corrections: stored
                .corrections
                .iter()
                .filter(|c| c.lifted.is_none())
                .count(),
            whole,
            log,
            aim,
            limit,
            habit,
            probe,
        })
    }
}

/// Where a log is going by a limit: by what goes on now, and over all of it where the limit
/// asks for days in the cold.
#[must_use]
pub fn ahead(
    log: &HeatLog,
    limit: &Limit,
    around: Surroundings,
    probe: Option<Probe>,
    now: Timestamp,
) -> Vec<Outlook> {
    let (mut today, habit) = mornings(log, now);
    today.doubted_by(probe);
    going(&today, &habit, log, limit, around, probe, now)
}

/// The same, with what goes on now already told from the `whole` of the log.
fn going(
    today: &HeatLog,
    habit: &Habit,
    whole: &HeatLog,
    limit: &Limit,
    around: Surroundings,
    probe: Option<Probe>,
    now: Timestamp,
) -> Vec<Outlook> {
    if let Demand::Frozen(_) = limit.demand {
        let mut whole = whole.clone();
        whole.doubted_by(probe);
        return outlook(&whole, limit, around, habit, now);
    }
    outlook(today, limit, around, habit, now)
}
