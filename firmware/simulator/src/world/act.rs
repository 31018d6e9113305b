//! The single things a cook does.

use super::force::Force;
use evenhand_protocol::Mass;

/// One thing a cook does; every figure in it is drawn before the work begins,
/// so that waiting for the instrument changes when things happen and never
/// what happens.
#[derive(Debug, Clone)]
pub(super) enum Act {
    /// The next portion begins.
    Begin { number: u32 },
    /// Waits until the instrument is in a run.
    AwaitRun,
    /// Waits until nobody leans on the pan.
    AwaitRoom,
    /// Waits.
    Pause { seconds: f64 },
    /// Waits until the instrument says that the load is steady, and reacts.
    AwaitSteady { reaction: f64, unwatched: f64 },
    /// A mass comes on, or (negative) goes off.
    Put { over: f64, mass: Mass },
    /// Everything that is on the pan is lifted off.
    Clear { over: f64 },
    /// Food leaves that is no portion.
    Taste { mass: Mass },
    /// Where the load stands now, off the centre.
    Stand { off_centre: f64 },
    /// Something presses; the force's time counts from now.
    Press(Force),
    /// The portion is finished.
    Count {
        number: u32,
        mass: Mass,
        dish: Option<Mass>,
    },
    /// A finished portion is another mass now.
    Correct { number: u32, mass: Mass },
    /// Waits until so long after the portion's beginning.
    KeepPace { seconds: f64 },
}
