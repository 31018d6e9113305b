//! The melt clock of a run: since its first scoop left the cold.

use evenhand_kitchen::melt::MeltClock;
use evenhand_link::live::LiveRun;
use evenhand_store::{Store, StoreError};

/// The clock of a run, from its first scoop since they last went back into the
/// cold. `None` where its dish has no limit, or no such portion.
///
/// # Errors
/// Where the store cannot be read.
pub fn melt_clock(store: &Store, live: &LiveRun) -> Result<Option<MeltClock>, StoreError> {
    let Some(dish) = &live.run.dish else {
        return Ok(None);
    };
    let Some(limit) = store.melt_limit(dish)? else {
        return Ok(None);
    };
    let cold = store.last_in_cold(live.run.id)?;
    // A corrected portion's first weighing was the moment that it left the cold; a struck one
    // did too.
    let scoops = live.portions().iter().map(|portion| portion.time);
    // A limit on record was checked when it was set.
    Ok(MeltClock::of_run(scoops, cold, limit).ok().flatten())
}
