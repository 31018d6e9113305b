//! Where the European Union has a figure of its own for time and temperature.

use super::{Demand, Hold, Limit, Source, Standing};
use evenhand_protocol::Temperature;
use jiff::SignedDuration;

/// Limits in the place of the Food Code's of the same name.
pub(super) fn eu() -> Vec<Limit> {
    let hold = |celsius: i32, hours: i64| {
        Hold::new(
            Temperature::from_millicelsius(celsius * 1_000),
            SignedDuration::from_hours(hours),
        )
    };
    vec![Limit {
        name: String::from("raw-fish-freezing"),
        about: String::from(
            "fish to be eaten raw or nearly so, frozen against parasites in all its parts; farmed \
             fish on a feed that can carry none is exempt, and so is fish from waters shown to be free",
        ),
        demand: Demand::Frozen(vec![hold(-20, 24), hold(-35, 15)]),
        allowance: SignedDuration::ZERO,
        source: Source {
            document: String::from("Regulation (EC) No 853/2004"),
            section: String::from("annex III, section VIII, chapter III, D"),
            standing: Standing::FromMemory,
        },
    }]
}
