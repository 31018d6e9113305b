//! An instrument's own clock laid against the wall's.

use crate::portion::TimeSource;
use evenhand_protocol::{CapturedPortion, DeviceId, Epoch, UnixMillis, Uptime};
use jiff::{SignedDuration, Timestamp};

/// What the wall's clock said when an instrument's clock said something, in
/// one start of that instrument.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct InstrumentClock {
    device: DeviceId,
    epoch: Epoch,
    uptime: Uptime,
    wall: Timestamp,
}

impl InstrumentClock {
    /// The two clocks at one moment.
    #[must_use]
    pub const fn new(device: DeviceId, epoch: Epoch, uptime: Uptime, wall: Timestamp) -> Self {
        Self {
            device,
            epoch,
            uptime,
            wall,
        }
    }

    /// Whether this is the clock of that start of that instrument.
    #[must_use]
    pub fn is_of(&self, device: DeviceId, epoch: Epoch) -> bool {
        self.device == device && self.epoch == epoch
    }

    /// The wall's time at an uptime of the same start; `None` where it is
    /// beyond what a timestamp holds.
    #[must_use]
    pub fn wall_at(&self, uptime: Uptime) -> Option<Timestamp> {
        let millis = i128::from(uptime.millis()) - i128::from(self.uptime.millis());
        let by = SignedDuration::from_millis(i64::try_from(millis).ok()?);
        self.wall.checked_add(by).ok()
    }

    /// When a portion was captured, and how that is known: by the instrument's
    /// own word, else from its uptime where `clock` is of the same start, else
    /// only that it was before `recorded`.
    #[must_use]
    pub fn date(
        clock: Option<&Self>,
        portion: &CapturedPortion,
        recorded: Timestamp,
    ) -> (Timestamp, TimeSource) {
        if let Some(time) = portion.unix.and_then(timestamp) {
            return (time, TimeSource::Instrument);
        }
        clock
            .filter(|clock| clock.is_of(portion.id.device, portion.id.epoch))
            .and_then(|clock| clock.wall_at(portion.at))
            .map_or((recorded, TimeSource::Recorded), |time| {
                (time, TimeSource::Uptime)
            })
    }
}

/// A time from the link, `None` where it is beyond what a timestamp holds.
#[must_use]
pub fn timestamp(unix: UnixMillis) -> Option<Timestamp> {
    Timestamp::from_millisecond(unix.millis()).ok()
}

#[cfg(test)]
mod tests {
    use super::*;
    use evenhand_protocol::report::Doubts;
    use evenhand_protocol::{Goal, Mass, Mode, PortionId, RunId, Tolerance};

    fn portion(unix: Option<i64>) -> CapturedPortion {
        let goal = Goal::new(Mass::from_grams(30), Tolerance::symmetric(Mass::ZERO)).unwrap();
        CapturedPortion {
            id: PortionId {
                device: DeviceId(1),
                epoch: Epoch(2),
                number: 3,
            },
            run: RunId(4),
            at: Uptime::from_millis(5_000),
            unix: unix.map(UnixMillis::from_millis),
            mode: Mode::Adding,
            mass: Mass::from_grams(30),
            goal,
            temperature: None,
            replaces: None,
            doubts: Doubts::NONE,
            uncertainty: None,
            left: None,
            chain_link: None,
        }
    }

    #[test]
    fn the_best_known_time_is_taken() {
        let second = |s| Timestamp::from_second(s).unwrap();
        let clock = |epoch| {
            InstrumentClock::new(
                DeviceId(1),
                Epoch(epoch),
                Uptime::from_millis(7_000),
                second(1_000),
            )
        };
        let recorded = second(2_000);
        let date = |clock: Option<&InstrumentClock>, unix| {
            InstrumentClock::date(clock, &portion(unix), recorded)
        };
        assert_eq!(
            date(Some(&clock(2)), Some(900_000)),
            (second(900), TimeSource::Instrument)
        );
        assert_eq!(
            date(Some(&clock(2)), None),
            (second(998), TimeSource::Uptime)
        );
        assert_eq!(
            date(Some(&clock(9)), None),
            (recorded, TimeSource::Recorded)
        );
        assert_eq!(date(None, None), (recorded, TimeSource::Recorded));
        // A time no calendar holds is not believed.
        assert_eq!(date(None, Some(i64::MAX)), (recorded, TimeSource::Recorded));
    }
}
