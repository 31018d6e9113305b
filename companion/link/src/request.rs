//! What may be asked of the link.

use evenhand_kitchen::portion::StrikeReason;
use evenhand_protocol::{Goal, KnownWeight, PortionId, Setting};
use evenhand_store::NewRun;

/// The number of something asked, to find its answer by.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Ticket(pub u64);

/// What may be asked of the link. Each is answered in
/// [`LiveScale::answer`](crate::live::LiveScale::answer).
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Request {
    /// Begin a run; the one going on ends.
    StartRun {
        /// The run.
        run: NewRun,
        /// Go on with the run that the instrument is in, where it is one of
        /// this store, of the same dish, goal and mode: after a crash.
        resume: bool,
        /// End it when so many portions count.
        count: Option<usize>,
    },
    /// End the run.
    StopRun,
    /// Change the goal of the run going on, from the next portion on.
    SetGoal(Goal),
    /// Take what is on the pan as the tare.
    Tare,
    /// Weigh gross again.
    ClearTare,
    /// Take the empty pan as zero.
    Zero,
    /// Strike a portion out.
    Strike(PortionId, StrikeReason),
    /// Let a struck-out portion count again.
    LiftStrike(PortionId),
    /// Undo the last portion of the run.
    UndoLast,
    /// Begin a calibration.
    BeginCalibration,
    /// This weight, or nothing, lies on the pan: take it as a point as soon as
    /// it is steady.
    TakePoint(KnownWeight),
    /// Make the calibration and weigh by it from now on.
    FinishCalibration,
    /// Give the calibration up.
    CancelCalibration,
    /// This weight lies on the zeroed pan: say how far out the scale is, as
    /// soon as it is steady.
    TestWeight(KnownWeight),
    /// Send every acknowledged portion that is still held once more: this
    /// store lost them.
    Recall,
    /// Say how the instrument itself is.
    Diagnose,
    /// Take the empty pan as zero as soon as it is steady.
    ZeroWhenSteady,
    /// Set a setting of the instrument.
    Set(Setting),
}
