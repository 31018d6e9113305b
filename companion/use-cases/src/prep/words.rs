//! What a plan says, in words: the same on paper, in a terminal and on a
//! screen.

use super::{PrepNow, length};
use crate::times;
use evenhand_kitchen::prep::{
    DishOutlook, Mend, Need, NotKnown, OvenAction, OvenAdvice, Shortage, Standing, Step, Trouble,
};
use evenhand_words::Language;
use jiff::Timestamp;
use jiff::tz::TimeZone;

/// A time of day in the kitchen's time, with its day where that is not today.
#[must_use]
pub fn moment(at: Timestamp, now: Timestamp, zone: &TimeZone) -> String {
    times::near(
        Language::English,
        at,
        now.to_zoned_datetime(zone.clone()).date(),
        zone,
    )
}

/// How a step stands, in a word.
#[must_use]
pub const fn standing_word(standing: Standing) -> &'static str {
    match standing {
        Standing::Late => "LATE",
        Standing::Now => "NOW",
        Standing::UnderWay => "under way",
        Standing::Next => "next",
        Standing::Later => "later",
        Standing::Done => "done",
    }
}

/// What a step needs: `2 hands, oven`.
#[must_use]
pub fn needs(step: &Step) -> Option<String> {
    let needs: Vec<String> = step.needs.iter().map(Need::to_string).collect();
    (!needs.is_empty()).then(|| needs.join(", "))
}

fn action(action: OvenAction) -> String {
    match action {
        OvenAction::OpenDoor(by) => format!("open the door for {}", length(by)),
        OvenAction::Relight => String::from("light the oven again"),
    }
}

/// What to do about a step and its oven: `begin 10:25, done by 10:47`.
#[must_use]
pub(super) fn oven_advice(advice: OvenAdvice, at: impl Fn(Timestamp) -> String) -> String {
    let within = |from, until: Option<Timestamp>| {
        let until = until.map_or_else(String::new, |until| format!(", done by {}", at(until)));
        format!("begin from {}{until}", at(from))
    };
    match advice {
        OvenAdvice::Fits {
            from,
            until,
            otherwise,
        } => {
            let otherwise =
                otherwise.map_or_else(String::new, |other| format!(", else {}", action(other)));
            format!("{}{otherwise}", within(from, until))
        }
        OvenAdvice::NowOrNotToday { latest } => {
            format!("now, by {} at the latest, or not today", at(latest))
        }
        OvenAdvice::Only {
            action: known,
            from,
            until,
        } => format!("{}: then {}", action(known), within(from, until)),
        OvenAdvice::No => String::from("not sure to stay in it for as long as this takes"),
    }
}

/// A change that makes the day.
#[must_use]
pub fn mend(mend: &Mend, prep: &PrepNow, now: Timestamp, zone: &TimeZone) -> String {
    match mend {
        Mend::Oven {
            step,
            action: known,
        } => {
            let step = prep
                .board
                .step(*step)
                .map_or_else(|_| String::new(), Step::full_name);
            format!("for {step}, {}", action(*known))
        }
        Mend::MorePlaces(extra) => format!(
            "one more of {}, {} to {}",
            extra.resource,
            moment(extra.from, now, zone),
            moment(extra.to, now, zone)
        ),
        Mend::Swap {
            preparation,
            fallback,
        } => format!("serve {fallback} in place of {preparation}"),
        Mend::BuyIn { preparation } => format!("buy {preparation} in"),
        Mend::Drop { preparation } => format!("leave {preparation} off"),
        Mend::Later(by) => format!("open {} later", length(*by)),
    }
}

/// What the day runs out of.
#[must_use]
pub fn shortage(short_of: &[Shortage]) -> String {
    let [first, ..] = short_of else {
        return String::from(
            "More hands would not help: its steps take too long one after another.",
        );
    };
    match first.late_by_even_so {
        None => format!("It runs out of {}.", first.resource),
        Some(late) => format!(
            "It runs out of {}; even with enough it is {} late.",
            first.resource,
            length(late)
        ),
    }
}

/// A dish that is not ready when it is due: `trout is off until 18:40`.
#[must_use]
pub fn dish_off(dish: &DishOutlook, now: Timestamp, zone: &TimeZone) -> Option<String> {
    let late = dish.late_by?;
    Some(format!(
        "{} is off until {}, {} late.",
        dish.preparation,
        moment(dish.ready, now, zone),
        length(late)
    ))
}

/// Everything that is wrong with a day, in the order in which to read it:
/// how late, which dishes, what it runs out of, what would mend it. Empty for
/// a day that can be made.
#[must_use]
pub fn troubles(prep: &PrepNow, now: Timestamp, zone: &TimeZone) -> Vec<String> {
    let plan = &prep.plan;
    let mut lines = Vec::new();
    if let Some(late) = plan.late_by {
        let least = if plan.gap.is_positive() {
            format!(
                " Perhaps less: {} at least.",
                length(late.saturating_sub(plan.gap))
            )
        } else {
            String::new()
        };
        lines.push(format!(
            "LATE: as it stands not all is ready in time; the worst is {} late.{least}",
            length(late)
        ));
        lines.extend(plan.dishes.iter().filter_map(|d| dish_off(d, now, zone)));
    }
    for planned in &plan.steps {
        if planned.standing == Standing::Done {
            continue;
        }
        let Ok(step) = prep.board.step(planned.step) else {
            continue;
        };
        if planned.no_time {
            lines.push(format!(
                "NO TIME: {} does not fit within its hours or its oven.",
                step.full_name()
            ));
        }
    }
    if let Some(trouble) = &prep.trouble {
        if trouble.late_by.is_some() {
            lines.push(shortage(&trouble.short_of));
        }
        if trouble.mends.is_empty() && trouble.not_known.is_empty() {
            lines.push(String::from("No single change mends it."));
        } else if trouble.mends.is_empty() {
            lines.push(String::from("No single change is known to mend it."));
        } else {
            lines.push(String::from("Any one of these mends it:"));
            let each = trouble.mends.iter();
            lines.extend(each.map(|known| format!("  {}", mend(known, prep, now, zone))));
        }
        lines.extend(not_known(trouble, prep));
    }
    lines
}

/// What was not worked out of what would mend a day, by name; `None` where everything was.
#[must_use]
pub fn not_known(trouble: &Trouble, prep: &PrepNow) -> Option<String> {
    let open: Vec<String> = trouble
        .not_known
        .iter()
        .map(|open| match open {
            NotKnown::Shortage(resource) => format!("whether {resource} is what is short"),
            NotKnown::MorePlaces(resource) => format!("one more of {resource}"),
            NotKnown::Oven(step) => {
                let name = prep.board.step(*step).map(Step::full_name);
                format!("the oven for {}", name.unwrap_or_default())
            }
            NotKnown::Without(preparation) => format!("without {preparation}"),
        })
        .collect();
    (!open.is_empty()).then(|| {
        format!(
            "Not known, the plan has too many ways to try: {}.",
            open.join(", ")
        )
    })
}
