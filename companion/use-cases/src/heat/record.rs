//! How often what was foretold came: a forecast's own record.

use super::HeatNow;
use crate::words::say;
use evenhand_kitchen::heat::{LogName, TOLD_EVERY, ToldInterval};
use evenhand_store::{Store, StoreError, TrackRecord};
use evenhand_words::Language;
use jiff::{SignedDuration, Timestamp};

/// How many of the last intervals are looked at.
const LAST: u32 = 60;

/// Sees out the intervals told of a log, puts the one told now on record, and
/// returns how often the last ones held. One interval of a log is kept in ten
/// minutes, and one alike for as long as nothing came of it in that time.
///
/// # Errors
/// [`StoreError::UnknownHeatLog`], or where the store cannot be read or
/// written.
pub fn follow(
    store: &mut Store,
    name: &LogName,
    standing: &HeatNow,
    now: Timestamp,
) -> Result<TrackRecord, StoreError> {
    let open = store.open_told(name)?;
    if let Some((_, first)) = open.first() {
        // From the reading before it on.
        let from = first
            .at
            .checked_sub(SignedDuration::from_mins(30))
            .unwrap_or(Timestamp::MIN);
        let log = store.heat_log(name, from, now)?.corrected();
        for (id, told) in open {
            if let Some(came) = told.came(&log, now) {
                store.told_came(id, came, now)?;
            }
        }
    }
    let band = standing
        .aim
        .as_ref()
        .and_then(|aim| aim.band().ok().flatten());
    if let (Some(forecast), Some(band), Some(here)) =
        (standing.forecast, band, standing.log.points().last())
        && let Some(told) = ToldInterval::of(forecast, band, here.temperature, here.at)
    {
        let last = store.last_told(name)?;
        let due = last.is_none_or(|last| told.at.duration_since(last.at) >= TOLD_EVERY);
        if due {
            store.keep_told(name, &told)?;
        }
    }
    store.track_record(LAST)
}

/// How often the last intervals held.
///
/// # Errors
/// Where the store cannot be read.
pub fn track_record(store: &Store) -> Result<TrackRecord, StoreError> {
    store.track_record(LAST)
}

/// The record in a sentence.
#[must_use]
pub fn record_words(language: Language, record: TrackRecord) -> String {
    let TrackRecord { counted, held } = record;
    if counted == 0 {
        return say!(language, "record-none").into_owned();
    }
    say!(language, "record-held", counted = counted, held = held).into_owned()
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;
    use evenhand_kitchen::heat::{Aim, Band, HeatLog, Kept, LogPoint};
    use evenhand_protocol::Temperature;
    use evenhand_store::DataFolder;

    fn moment(minutes: i64) -> Timestamp {
        Timestamp::from_second(1_800_000_000 + minutes * 60).unwrap()
    }

    /// An exponential toward 20 degC read every minute, asked every five: its
    /// intervals are kept ten minutes apart and seen out when it is there.
    #[test]
    fn what_was_told_is_kept_and_seen_out() {
        let folder = tempfile::tempdir().unwrap();
        let mut store = Store::open(&DataFolder::choose(Some(folder.path())).unwrap()).unwrap();
        let name = LogName::new("name", "pan of stock").unwrap();
        let log = store
            .open_heat_log(&name, HeatLog::USUAL_STEP, moment(0))
            .unwrap();
        let celsius = Temperature::from_millicelsius;
        let band = Band::new(celsius(40_000), celsius(45_000)).unwrap();
        let aim = Aim::band_of(band, None);
        store.aim_heat(&name, &aim, moment(0)).unwrap();
        assert_eq!(
            record_words(Language::English, track_record(&store).unwrap()),
            "No interval of this kitchen has been seen out yet."
        );
        let mut record = TrackRecord::default();
        let mut asked = 0;
        for minute in 0..120_i64 {
            let celsius = 20.0 + 70.0 * (-(minute as f64) / 60.0).exp();
            let point = LogPoint {
                at: moment(minute),
                temperature: Temperature::from_celsius(celsius).unwrap(),
            };
            let kept = Kept {
                point,
                after_gap: false,
            };
            store.keep_heat(log, &[kept]).unwrap();
            if minute % 5 == 0 {
                let now = moment(minute);
                let standing = HeatNow::of(&store, &name, None, now).unwrap();
                record = follow(&mut store, &name, &standing, now).unwrap();
                asked += 1;
            }
        }
        // 45 degC is passed at 60 ln(70/25) = 61.8 minutes: at most one interval in ten of them.
        assert!(
            asked == 24 && (2..=7).contains(&record.counted),
            "{record:?}"
        );
        assert!(record.held >= 1 && record.held <= record.counted);
        assert!(store.open_told(&name).unwrap().is_empty());
        assert!(
            record_words(Language::English, record)
                .contains(&format!("{} intervals", record.counted))
        );
    }
}
