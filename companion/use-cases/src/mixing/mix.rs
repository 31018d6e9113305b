//! A ratio, and a mix on the scale, in words.

use super::cure::{agent_words, fraction_words, ingoing_words, marked, too_small_words};
use super::{figure, grams, short};
use crate::words::say;
use evenhand_kitchen::ratio::{
    Form, Ingredient, MixError, NotReady, Notice, PouringError, RatioError,
};
use evenhand_protocol::Mass;
use evenhand_words::Language;

/// What the numbers of a ratio are.
#[must_use]
pub fn form_words(language: Language, form: Form) -> String {
    let form = match form {
        Form::Parts => "parts",
        Form::OfWater => "of-water",
        Form::OfTotal => "of-total",
        Form::Bakers => "bakers",
        Form::OfMeatAndWater => "of-meat-and-water",
    };
    say!(language, "ratio-form", form = form).into_owned()
}

/// What the numbers of a dry cure are.
#[must_use]
pub fn of_the_meat(language: Language) -> String {
    say!(language, "ratio-form", form = "of-meat").into_owned()
}

/// An ingredient's name; a curing agent with its mark and fraction.
#[must_use]
pub fn ingredient_words(language: Language, ingredient: &Ingredient) -> String {
    ingredient.agent().map_or_else(
        || ingredient.name().to_owned(),
        |agent| agent_words(language, agent),
    )
}

/// Why something is no ratio.
#[must_use]
pub fn ratio_error_words(language: Language, error: &RatioError) -> String {
    let number = |number: f64| short(language, number, 4);
    match error {
        RatioError::TooFew(_) => say!(language, "ratio-too-few"),
        RatioError::OnlyMeatAndWater => say!(language, "ratio-only-meat-and-water"),
        RatioError::Nameless(item) => {
            say!(language, "ratio-nameless", item = item.to_string())
        }
        RatioError::Twice(name) => say!(language, "ratio-twice", name = name.as_str()),
        RatioError::NoAmount { name, number: of } => say!(
            language,
            "ratio-no-amount",
            name = name.as_str(),
            number = number(*of),
        ),
        RatioError::NothingLeft { rest, left } => say!(
            language,
            "ratio-nothing-left",
            rest = rest.as_str(),
            left = number(*left),
        ),
        RatioError::Flours(sum) => say!(language, "ratio-flours", sum = number(*sum)),
    }
    .into_owned()
}

/// Why a step of a mix was refused; `None` for an amount that makes no sense,
/// which only the face knows the field of.
#[must_use]
pub fn mix_error_words(language: Language, error: &MixError) -> Option<String> {
    let said = match error {
        MixError::NoSuchItem(_) => say!(language, "mix-no-such"),
        MixError::Unguarded(agent) => {
            let agent = marked(language, agent);
            say!(language, "mix-unguarded", agent = agent)
        }
        MixError::WrongGuard(_) => say!(language, "mix-wrong-guard"),
        MixError::NotConfirmed(agent) => {
            let agent = marked(language, agent);
            say!(language, "mix-not-confirmed", agent = agent)
        }
        MixError::OtherLabel { read, expected } => say!(
            language,
            "mix-other-label",
            read = fraction_words(language, *read),
            expected = fraction_words(language, *expected),
        ),
        MixError::TargetUnknown(name) => {
            say!(language, "mix-target-unknown", name = name.as_str())
        }
        MixError::TooSmall(too_small) => return Some(too_small_words(language, too_small)),
        MixError::NothingChosen => say!(language, "mix-nothing-chosen"),
        MixError::NotSettled => say!(language, "mix-not-settled"),
        MixError::NotThere { name, taken, there } => say!(
            language,
            "mix-not-there",
            name = name.as_str(),
            taken = language.figure(format!("{taken:.1} g")),
            there = language.figure(format!("{there:.1} g")),
        ),
        MixError::CannotTakeBack(name) => {
            say!(language, "mix-cannot-take-back", name = name.as_str())
        }
        MixError::Input(_) => return None,
    };
    Some(said.into_owned())
}

/// Why the cook's wish could not be carried out; `None` as for
/// [`mix_error_words`].
#[must_use]
pub fn walk_error_words(language: Language, error: &PouringError) -> Option<String> {
    let said = match error {
        PouringError::NotSteady => say!(language, "walk-not-steady"),
        PouringError::ChangedMeanwhile(mass) => {
            let mass = language.figure(format!("{:+.1} g", mass.grams()));
            say!(language, "walk-changed", mass = mass)
        }
        PouringError::MayBeAgent(agent) => {
            let agent = marked(language, agent);
            say!(language, "walk-may-be-agent", agent = agent)
        }
        PouringError::NothingPoured => say!(language, "walk-nothing-poured"),
        PouringError::Agent => say!(language, "walk-agent"),
        PouringError::Mix(error) => return mix_error_words(language, error),
    };
    Some(said.into_owned())
}

/// What the cook is to know about a mix, with the room that there is for it.
#[must_use]
pub fn notice_words(language: Language, notice: &Notice, room: Option<Mass>) -> String {
    let grams = |mass: Mass| grams(language, mass);
    match notice {
        Notice::Grown { name, total, .. } => match room {
            Some(room) if *total <= room => say!(
                language,
                "notice-grown-room",
                name = name.as_str(),
                total = grams(*total),
                room = grams(room),
            ),
            _ => say!(
                language,
                "notice-grown",
                name = name.as_str(),
                total = grams(*total),
            ),
        },
        Notice::NoRoom { total, room } => say!(
            language,
            "notice-no-room",
            total = grams(*total),
            room = grams(*room),
        ),
        Notice::NotEnough {
            name,
            needed,
            available,
            ..
        } => say!(
            language,
            "notice-not-enough",
            name = name.as_str(),
            needed = grams(*needed),
            available = grams(*available),
        ),
        Notice::CannotBeUndone { name, over_by, .. } => say!(
            language,
            "notice-cannot-be-undone",
            name = name.as_str(),
            over = format!("{} g", figure(language, over_by.grams(), 2)),
        ),
        Notice::Nitrite(ingoing) => return ingoing_words(language, ingoing),
    }
    .into_owned()
}

/// Why a mix is not done.
#[must_use]
pub fn not_ready_words(language: Language, reason: &NotReady) -> String {
    match reason {
        NotReady::Short {
            name,
            missing: Some(missing),
            ..
        } => say!(
            language,
            "not-ready-short",
            name = name.as_str(),
            missing = grams(language, *missing),
        )
        .into_owned(),
        NotReady::Short { name, .. } => {
            say!(language, "not-ready-to-come", name = name.as_str()).into_owned()
        }
        NotReady::Notice(notice) => notice_words(language, notice, None),
    }
}
