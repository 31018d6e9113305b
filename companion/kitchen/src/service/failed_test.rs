//! Portions weighed around a test of the scale that failed.

use crate::portion::RecordedPortion;
use evenhand_protocol::{DeviceId, Mass, SelfTest, SelfTestOutcome};
use jiff::Timestamp;

/// What was found of a scale with known weights, and when.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ScaleFinding {
    /// The scale.
    pub device: DeviceId,
    /// When.
    pub time: Timestamp,
    /// What was found.
    pub found: Found,
}

/// What known weights showed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Found {
    /// A test with one known weight.
    Test(SelfTest),
    /// The scale was calibrated.
    Calibration,
}

/// What ended the doubt that a failed test raised.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PutRight {
    /// The scale was calibrated.
    Calibrated(Timestamp),
    /// A later test passed.
    Passed(Timestamp),
}

impl PutRight {
    /// When that was.
    #[must_use]
    pub const fn at(self) -> Timestamp {
        match self {
            Self::Calibrated(at) | Self::Passed(at) => at,
        }
    }
}

/// A test beyond its limit, and the portions of the same scale that it casts
/// doubt on: those made after it, until the scale was put right, and those made
/// before it, back to the last finding that was good. Which of the earlier ones
/// the fault reached nobody knows.
///
/// A test whose uncertainty reaches over its limit is neither good nor bad and
/// ends nothing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct FailedTest {
    /// The scale.
    pub device: DeviceId,
    /// When the test failed, the first of several in a row.
    pub time: Timestamp,
    /// What it found.
    pub test: SelfTest,
    /// The last test passed, or calibration, before; `None` where none is on
    /// record.
    pub last_good: Option<Timestamp>,
    /// What put it right; `None` while nothing has.
    pub put_right: Option<PutRight>,
    /// How many portions were made before it since `last_good`.
    pub before: usize,
    /// How many portions were made after it until `put_right`.
    pub after: usize,
}

impl FailedTest {
    /// The failed tests, the earliest first, that touch any of the portions
    /// that count. `findings` may be of several scales, in any order.
    #[must_use]
    pub fn touching<'p>(
        findings: &[ScaleFinding],
        portions: impl IntoIterator<Item = &'p RecordedPortion>,
    ) -> Vec<Self> {
        let portions: Vec<_> = portions
            .into_iter()
            .filter(|portion| portion.counts())
            .collect();
        Self::all(findings)
            .into_iter()
            .filter_map(|failed| failed.among(portions.iter().copied()))
            .collect()
    }

    /// Every failed test, the earliest first, with no portions counted.
    /// `findings` may be of several scales, in any order.
    #[must_use]
    pub fn all(findings: &[ScaleFinding]) -> Vec<Self> {
        all_failed(findings)
    }

    /// Whether anything weighed from `from` (inclusive) to `to` (exclusive), or
    /// from an open end on, may be in doubt for it.
    #[must_use]
    pub fn reaches(&self, from: Option<Timestamp>, to: Option<Timestamp>) -> bool {
        let over = match (self.put_right, from) {
            (Some(right), Some(from)) => right.at() <= from,
            _ => false,
        };
        let not_yet = match (self.last_good, to) {
            (Some(good), Some(to)) => to <= good,
            _ => false,
        };
        !over && !not_yet
    }

    /// The same test counted among these portions; `None` where it touches
    /// none of them.
    #[must_use]
    pub fn among<'p>(
        self,
        portions: impl IntoIterator<Item = &'p RecordedPortion>,
    ) -> Option<Self> {
        let (mut before, mut after) = (0, 0);
        for portion in portions {
            match self.place_of(portion) {
                Some(Side::Before) => before += 1,
                Some(Side::After) => after += 1,
                None => {}
            }
        }
        (before + after > 0).then_some(Self {
            before,
            after,
            ..self
        })
    }

    /// Whether it casts doubt on a portion, and from which side.
    #[must_use]
    pub fn place_of(&self, portion: &RecordedPortion) -> Option<Side> {
        self.place_at(portion.id.device, portion.time)
    }

    /// As [`FailedTest::place_of`], of what a scale weighed at a time.
    #[must_use]
    pub fn place_at(&self, device: DeviceId, time: Timestamp) -> Option<Side> {
        if device != self.device {
            return None;
        }
        if time >= self.time {
            let over = self.put_right.is_some_and(|right| time >= right.at());
            (!over).then_some(Side::After)
        } else {
            let good = self.last_good.is_some_and(|good| time < good);
            (!good).then_some(Side::Before)
        }
    }

    /// How much food a reading of `shown` was, if the fault is in proportion to
    /// the load. `None` where that makes no sense.
    #[must_use]
    pub fn food_in(&self, shown: Mass) -> Option<Mass> {
        let food = shown.grams() * self.test.known.grams() / self.test.indicated.grams();
        Mass::from_fractional_grams(food).filter(|food| *food > Mass::ZERO)
    }
}

/// On which side of a failed test a portion lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// Since the last good finding, and before the test.
    Before,
    /// After the test, before the scale was put right.
    After,
}

fn all_failed(findings: &[ScaleFinding]) -> Vec<FailedTest> {
    let mut findings = findings.to_vec();
    findings.sort_by_key(|finding| (finding.device.0, finding.time));
    let mut failed: Vec<FailedTest> = Vec::new();
    for scale in findings.chunk_by(|one, next| one.device == next.device) {
        let mut last_good = None;
        let mut open: Option<FailedTest> = None;
        for finding in scale {
            let right = match finding.found {
                Found::Calibration => PutRight::Calibrated(finding.time),
                Found::Test(test) => match test.outcome() {
                    SelfTestOutcome::Pass => PutRight::Passed(finding.time),
                    SelfTestOutcome::Doubtful => continue,
                    SelfTestOutcome::Fail => {
                        open.get_or_insert(FailedTest {
                            device: finding.device,
                            time: finding.time,
                            test,
                            last_good,
                            put_right: None,
                            before: 0,
                            after: 0,
                        });
                        continue;
                    }
                },
            };
            if let Some(test) = open.take() {
                failed.push(FailedTest {
                    put_right: Some(right),
                    ..test
                });
            }
            last_good = Some(right.at());
        }
        failed.extend(open);
    }
    failed.sort_by_key(|test| test.time);
    failed
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::portion::TimeSource;
    use evenhand_protocol::report::Doubts;
    use evenhand_protocol::{Epoch, Goal, Mode, PortionId, RunId, Tolerance};

    fn at(minute: i64) -> Timestamp {
        Timestamp::from_second(1_800_000_000 + 60 * minute).unwrap()
    }

    fn portion(device: u64, minute: i64) -> RecordedPortion {
        let target = Mass::from_grams(30);
        RecordedPortion {
            id: PortionId {
                device: DeviceId(device),
                epoch: Epoch(1),
                number: minute as u32,
            },
            run: RunId(1),
            dish: None,
            mode: Mode::Taking,
            mass: target,
            goal: Goal::new(target, Tolerance::symmetric(Mass::from_grams(1))).unwrap(),
            time: at(minute),
            time_source: TimeSource::Instrument,
            temperature: None,
            doubts: Doubts(0),
            uncertainty: None,
            left: None,
            cost: None,
            struck: None,
            replaces: None,
            replaced_by: None,
        }
    }

    fn test(minute: i64, indicated: i64) -> ScaleFinding {
        ScaleFinding {
            device: DeviceId(1),
            time: at(minute),
            found: Found::Test(SelfTest {
                known: Mass::from_grams(500),
                indicated: Mass::from_milligrams(indicated),
                limit: Mass::from_grams(1),
                uncertainty: Mass::from_milligrams(100),
            }),
        }
    }

    fn calibration(minute: i64) -> ScaleFinding {
        ScaleFinding {
            found: Found::Calibration,
            ..test(minute, 0)
        }
    }

    fn every_minute() -> Vec<RecordedPortion> {
        (0..100).map(|minute| portion(1, minute)).collect()
    }

    #[test]
    fn what_came_between_a_failed_test_and_its_mending_is_counted() {
        let portions = every_minute();
        let findings = [
            test(10, 500_020),
            test(30, 515_000),
            // Tried again, still out: the same fault.
            test(35, 514_900),
            // Neither good nor bad: ends nothing.
            test(40, 501_050),
            calibration(50),
            test(51, 500_010),
        ];
        let failed = FailedTest::touching(&findings, &portions);
        let [one] = failed[..] else {
            panic!("{failed:?}")
        };
        assert_eq!((one.time, one.before, one.after), (at(30), 20, 20));
        assert_eq!(one.last_good, Some(at(10)));
        assert_eq!(one.put_right, Some(PutRight::Calibrated(at(50))));
        assert_eq!(one.test.error(), Mass::from_grams(15));
        // 515 g shown was 500 g.
        assert_eq!(
            one.food_in(Mass::from_milligrams(51_500)),
            Some(Mass::from_grams(50))
        );
    }

    #[test]
    fn a_time_is_in_doubt_where_it_meets_the_stretch_between_good_findings() {
        let findings = [test(10, 500_000), test(30, 515_000), calibration(50)];
        let one = FailedTest::all(&findings)[0];
        let reaches = |from: Option<i64>, to: Option<i64>| one.reaches(from.map(at), to.map(at));
        assert!(reaches(None, None) && reaches(Some(49), None) && reaches(None, Some(11)));
        assert!(reaches(Some(20), Some(25)));
        assert!(!reaches(Some(50), None) && !reaches(None, Some(10)));
        let lasting = FailedTest::all(&findings[1..2])[0];
        assert!(lasting.reaches(Some(at(99)), None) && lasting.reaches(None, Some(at(1))));
    }

    #[test]
    fn a_fault_that_nobody_mended_lasts() {
        let portions = every_minute();
        let one = FailedTest::touching(&[test(30, 480_000)], &portions)[0];
        assert_eq!((one.before, one.after), (30, 70));
        assert_eq!((one.last_good, one.put_right), (None, None));
    }

    #[test]
    fn good_findings_another_scale_and_struck_portions_are_no_doubt() {
        let portions = every_minute();
        assert!(FailedTest::touching(&[test(30, 500_000)], &portions).is_empty());
        let other: Vec<_> = (0..100).map(|minute| portion(2, minute)).collect();
        assert!(FailedTest::touching(&[test(30, 515_000)], &other).is_empty());
        let mut struck = portion(1, 40);
        struck.struck = Some(crate::portion::Struck {
            reason: crate::portion::StrikeReason::undone(),
            at: at(41),
        });
        assert!(FailedTest::touching(&[test(30, 515_000)], [&struck]).is_empty());
    }

    #[test]
    fn each_fault_has_its_own_portions() {
        let portions = every_minute();
        let findings = [
            calibration(60),
            test(55, 515_000),
            test(5, 515_000),
            test(10, 500_000),
        ];
        let failed = FailedTest::touching(&findings, &portions);
        let counted: Vec<_> = failed.iter().map(|one| (one.before, one.after)).collect();
        assert_eq!(counted, [(5, 5), (45, 5)]);
        assert_eq!(failed[0].put_right, Some(PutRight::Passed(at(10))));
    }
}
