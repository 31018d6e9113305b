//! How often what was foretold came: a forecast's own record.

use super::HeatNow;
use crate::words::say;
use evenhand_kitchen::heat::{LogName, TOLD_EVERY, ToldInterval, ToldOf};
use evenhand_store::{Store, StoreError, TrackRecord};
use evenhand_words::Language;
use jiff::{SignedDuration, Timestamp};

/// How many of the last intervals are looked at.
const LAST: u32 = 60;

/// How often the last of what was told came: of bands, and of limits.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Records {
    /// Of intervals for entering a band.
    pub bands: TrackRecord,
    /// Of whether a limit is met, and when.
    pub limits: TrackRecord,
}

/// Sees out what was told of a log, puts what is told now on record, and returns
/// how often the last of it came true. One interval of a log's band, and one of
/// each level of its limit, is kept in ten minutes, and one alike for as long as
/// nothing came of it in that time.
///
/// # Errors
/// [`StoreError::UnknownHeatLog`], or where the store cannot be read or
/// written.
pub fn follow(
    store: &mut Store,
    name: &LogName,
    standing: &HeatNow,
    now: Timestamp,
) -> Result<Records, StoreError> {
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
    for told in told_now(standing) {
        let last = store.last_told(name, told.of, told.level)?;
        let due = last.is_none_or(|last| told.at.duration_since(last.at) >= TOLD_EVERY);
        if due {
            store.keep_told(name, &told)?;
        }
    }
    track_records(store)
}

/// What is told of a log as it stands.
fn told_now(standing: &HeatNow) -> Vec<ToldInterval> {
    let Some(here) = standing.log.points().last() else {
        return Vec::new();
    };
    let band = standing
        .aim
        .as_ref()
        .and_then(|aim| aim.band().ok().flatten());
    let of_band = match (standing.forecast, band) {
        (Some(forecast), Some(band)) => ToldInterval::of(forecast, band, here.temperature, here.at),
        _ => None,
    };
    let outlooks = standing.limit.iter().flat_map(|(_, outlooks)| outlooks);
    of_band
        .into_iter()
        .chain(outlooks.filter_map(|one| ToldInterval::of_outlook(one, here.temperature, here.at)))
        .collect()
}

/// How often the last of what was told came true.
///
/// # Errors
/// Where the store cannot be read.
pub fn track_records(store: &Store) -> Result<Records, StoreError> {
    Ok(Records {
        bands: store.track_record(ToldOf::Band, LAST)?,
        limits: store.track_record(ToldOf::Limit, LAST)?,
    })
}

/// The record of intervals in a sentence.
#[must_use]
pub fn record_words(language: Language, record: TrackRecord) -> String {
    let TrackRecord { counted, held } = record;
    if counted == 0 {
        return say!(language, "record-none").into_owned();
    }
    say!(language, "record-held", counted = counted, held = held).into_owned()
}

/// The record of what was said of limits in a sentence.
#[must_use]
pub fn limit_record_words(language: Language, record: TrackRecord) -> String {
    let TrackRecord { counted, held } = record;
    if counted == 0 {
        return say!(language, "record-limit-none").into_owned();
    }
    say!(
        language,
        "record-limit-held",
        counted = counted,
        held = held
    )
    .into_owned()
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;
    use evenhand_kitchen::heat::{Aim, Band, HeatLog, Kept, LogPoint};
    use evenhand_kitchen::limits::Limits;
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
            record_words(Language::English, track_records(&store).unwrap().bands),
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
                record = follow(&mut store, &name, &standing, now).unwrap().bands;
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
    /// A pan that cools toward 2 degC and is watched for the cooling limit: said to be in time,
    /// and it is; one so slow that it is said to be late, and it is.
    #[test]
    fn what_was_told_of_a_limit_has_a_record_of_its_own() {
        for (minutes, in_time) in [(40.0, true), (150.0, false)] {
            let folder = tempfile::tempdir().unwrap();
            let mut store = Store::open(&DataFolder::choose(Some(folder.path())).unwrap()).unwrap();
            let name = LogName::new("name", "pan of stock").unwrap();
            let log = store
                .open_heat_log(&name, HeatLog::USUAL_STEP, moment(0))
                .unwrap();
            let mut aim = Aim::default();
            aim.limit = Some("cooling".to_owned());
            store.aim_heat(&name, &aim, moment(0)).unwrap();
            let limits = Limits::food_code();
            let (mut records, mut said_in_time, mut said_late) = (Records::default(), 0, 0);
            for minute in 0..180_i64 {
                let celsius = 2.0 + 68.0 * (-(minute as f64) / minutes).exp();
                let point = LogPoint {
                    at: moment(minute),
                    temperature: Temperature::from_celsius(celsius).unwrap(),
                };
                let kept = Kept {
                    point,
                    after_gap: false,
                };
                store.keep_heat(log, &[kept]).unwrap();
                if minute % 10 == 0 {
                    let now = moment(minute);
                    let standing = HeatNow::of(&store, &name, Some(&limits), now).unwrap();
                    for (_, outlooks) in standing.limit.iter() {
                        for outlook in outlooks {
                            let here = standing.log.points().last().unwrap().temperature;
                            match ToldInterval::of_outlook(outlook, here, now) {
                                Some(told) if told.when.late.is_some() => said_in_time += 1,
                                Some(_) => said_late += 1,
                                None => {}
                            }
                        }
                    }
                    records = follow(&mut store, &name, &standing, now).unwrap();
                }
            }
            assert_eq!(records.bands, TrackRecord::default());
            assert!(records.limits.counted >= 1, "{records:?}");
            assert_eq!(records.limits.held, records.limits.counted);
            // 21 degC is there after 40 ln(68/19) = 51 minutes or after 150 ln(68/19) = 191, of
            // 120 that it may take.
            assert_eq!(
                in_time,
                said_in_time > said_late,
                "{said_in_time} {said_late}"
            );
        }
    }
}
