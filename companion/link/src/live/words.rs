//! What the instrument reports, in words for a cook.

use evenhand_kitchen::units::{MassUnit, format_mass};
use evenhand_protocol::report::Doubts;
use evenhand_protocol::{Notice, Phase};

/// What the instrument waits for, as a prompt in few words.
#[must_use]
pub const fn phase_prompt(phase: Phase) -> &'static str {
    match phase {
        Phase::Weighing => "Weighing",
        Phase::AwaitDish => "Put an empty dish on",
        Phase::DishSettling => "Hold still: taking the dish's weight",
        Phase::Filling => "Fill, then lift the dish off",
        Phase::AwaitTin => "Put the tin on",
        Phase::TinSettling => "Hold still: taking the tin's weight",
        Phase::Ready => "Take a portion",
        Phase::Spooning => "Hands off: weighing what was taken",
        Phase::TinAway => "Put the tin back",
        Phase::Blocked => "Cannot weigh",
        _ => "Weighing; this program is older than the scale",
    }
}

/// A notice, as a sentence.
#[must_use]
pub fn notice_sentence(notice: Notice, unit: MassUnit) -> String {
    let mass = |mass| format_mass(mass, unit);
    match notice {
        Notice::RunStarted(_) => "The run has begun.".to_owned(),
        Notice::RunStopped(_) => "The run has ended.".to_owned(),
        Notice::DishTared(dish) => {
            format!("The dish weighs {}; its weight is taken off.", mass(dish))
        }
        Notice::DishReturned(number) => format!(
            "Dish {number} is back and was counted already; lifting it again corrects it and counts none."
        ),
        Notice::LiftedUnsettled => {
            "The dish went before it was steady and was not counted; put it back to count it."
                .to_owned()
        }
        Notice::LiftedEmpty => "The dish went empty; nothing was counted.".to_owned(),
        Notice::Refilled(by) => format!("The tin was filled up by {}.", mass(by)),
        Notice::TinAway => "The tin is off the scale.".to_owned(),
        Notice::TinBack(change) if change.is_negative() => {
            format!("The tin is back, {} lighter.", mass(-change))
        }
        Notice::TinBack(change) => format!("The tin is back, {} heavier.", mass(change)),
        Notice::Unaccounted(by) => format!(
            "{} left the tin at once, which is no portion; it was not counted.",
            mass(by)
        ),
        Notice::FilledWhileTaken(by) => format!(
            "The tin became {} heavier while a spoon was in it; what was taken meanwhile was not counted.",
            mass(by)
        ),
        Notice::Zeroed => "The scale has set its zero.".to_owned(),
        Notice::FoundOnPan(load) => format!(
            "The scale was without power, and {} is on it: that is not counted. Clear the scale \
             and begin that portion anew.",
            mass(load)
        ),
        _ => "The scale said something that this program is too old to know.".to_owned(),
    }
}

/// The doubts about a portion, each as a sentence.
#[must_use]
pub fn doubt_sentences(doubts: Doubts) -> Vec<&'static str> {
    [
        (
            Doubts::MAYBE_TWO,
            "So much was taken at once that it may be two portions.",
        ),
        (
            Doubts::STRADDLES_LIMIT,
            "Its uncertainty reaches over a limit, so the verdict could be either.",
        ),
        (
            Doubts::TAKEN_OFF_PAN,
            "It was taken while the tin was off the scale.",
        ),
        (
            Doubts::HASTY,
            "It was weighed in a moment of calm that was too short to be steady.",
        ),
        (
            Doubts::TOUCHED,
            "The load changed by itself meanwhile, as if something touched the pan.",
        ),
        (
            Doubts::MAYBE_CHANGED,
            "Something came or went afterwards that may or may not belong to it.",
        ),
        (
            doubts.unknown(),
            "The scale doubts it for a reason that this program is too old to know.",
        ),
    ]
    .into_iter()
    .filter(|(doubt, _)| *doubt != Doubts::NONE && doubts.contains(*doubt))
    .map(|(_, sentence)| sentence)
    .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use evenhand_protocol::Mass;

    #[test]
    fn a_lighter_tin_is_said_without_a_minus() {
        let notice = Notice::TinBack(Mass::from_grams(-12));
        assert_eq!(
            notice_sentence(notice, MassUnit::Gram),
            "The tin is back, 12.0 g lighter."
        );
    }

    #[test]
    fn each_doubt_has_its_sentence() {
        assert!(doubt_sentences(Doubts::NONE).is_empty());
        let all = Doubts::MAYBE_TWO
            .union(Doubts::STRADDLES_LIMIT)
            .union(Doubts::TAKEN_OFF_PAN)
            .union(Doubts::HASTY)
            .union(Doubts::TOUCHED)
            .union(Doubts::MAYBE_CHANGED);
        assert_eq!(doubt_sentences(all).len(), 6);
        let of_a_later_version = Doubts(1 << 31);
        assert_eq!(
            doubt_sentences(of_a_later_version),
            ["The scale doubts it for a reason that this program is too old to know."]
        );
    }
}
