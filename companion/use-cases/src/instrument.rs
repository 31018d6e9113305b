//! What the instrument and the link to it report, in words for a cook.

use crate::words::say;
use evenhand_kitchen::units::{MassUnit, format_mass};
use evenhand_link::Unmet;
use evenhand_link::live::{LinkState, NotDone, Trouble, TroubleKind};
use evenhand_protocol::report::Doubts;
use evenhand_protocol::{
    CalibrationError, Fault, GoalError, Notice, Phase, Refusal, SelfTestRefusal, Version,
};
use evenhand_store::RefusedPortion;
use evenhand_words::Language;
use std::borrow::Cow;

/// Words in a language.
pub type Words = Cow<'static, str>;

/// What the instrument waits for, as a prompt in few words.
#[must_use]
pub fn prompt(language: Language, phase: Phase) -> Words {
    match phase {
        Phase::Weighing => say!(language, "prompt-weighing"),
        Phase::AwaitDish => say!(language, "prompt-await-dish"),
        Phase::DishSettling => say!(language, "prompt-dish-settling"),
        Phase::Filling => say!(language, "prompt-filling"),
        Phase::AwaitTin => say!(language, "prompt-await-tin"),
        Phase::TinSettling => say!(language, "prompt-tin-settling"),
        Phase::Ready => say!(language, "prompt-ready"),
        Phase::Spooning => say!(language, "prompt-spooning"),
        Phase::TinAway => say!(language, "prompt-tin-away"),
        Phase::Blocked => say!(language, "prompt-blocked"),
        _ => say!(language, "prompt-unknown"),
    }
}

/// A notice, as a sentence.
#[must_use]
pub fn notice(language: Language, notice: Notice, unit: MassUnit) -> Words {
    let mass = |mass| language.figure(format_mass(mass, unit));
    match notice {
        Notice::RunStarted(_) => say!(language, "notice-run-started"),
        Notice::RunStopped(_) => say!(language, "notice-run-stopped"),
        Notice::DishTared(dish) => say!(language, "notice-dish-tared", mass = mass(dish)),
        Notice::DishReturned(number) => {
            say!(
                language,
                "notice-dish-returned",
                number = number.to_string()
            )
        }
        Notice::LiftedUnsettled => say!(language, "notice-lifted-unsettled"),
        Notice::LiftedEmpty => say!(language, "notice-lifted-empty"),
        Notice::Refilled(by) => say!(language, "notice-refilled", mass = mass(by)),
        Notice::TinAway => say!(language, "notice-tin-away"),
        Notice::TinBack(change) if change.is_negative() => {
            say!(language, "notice-tin-back-lighter", mass = mass(-change))
        }
        Notice::TinBack(change) => {
            say!(language, "notice-tin-back-heavier", mass = mass(change))
        }
        Notice::Unaccounted(by) => say!(language, "notice-unaccounted", mass = mass(by)),
        Notice::FilledWhileTaken(by) => {
            say!(language, "notice-filled-while-taken", mass = mass(by))
        }
        Notice::Zeroed => say!(language, "notice-zeroed"),
        Notice::FoundOnPan(load) => say!(language, "notice-found-on-pan", mass = mass(load)),
        Notice::Recalled(portions) => {
            say!(language, "notice-recalled", portions = portions)
        }
        _ => say!(language, "notice-unknown"),
    }
}

/// The doubts about a portion, each as a sentence.
#[must_use]
pub fn doubts(language: Language, doubts: Doubts) -> Vec<Words> {
    let mut sentences = Vec::new();
    let mut tell = |doubt: Doubts, words: fn(Language) -> Words| {
        if doubt != Doubts::NONE && doubts.contains(doubt) {
            sentences.push(words(language));
        }
    };
    tell(Doubts::MAYBE_TWO, |l| say!(l, "doubt-maybe-two"));
    tell(Doubts::STRADDLES_LIMIT, |l| {
        say!(l, "doubt-straddles-limit")
    });
    tell(Doubts::TAKEN_OFF_PAN, |l| say!(l, "doubt-taken-off-pan"));
    tell(Doubts::HASTY, |l| say!(l, "doubt-hasty"));
    tell(Doubts::TOUCHED, |l| say!(l, "doubt-touched"));
    tell(Doubts::MAYBE_CHANGED, |l| say!(l, "doubt-maybe-changed"));
    tell(doubts.unknown(), |l| say!(l, "doubt-unknown"));
    sentences
}

/// What a fault is, as a sentence.
#[must_use]
pub fn fault(language: Language, fault: Fault) -> Words {
    match fault {
        Fault::BridgeTimeout => say!(language, "fault-bridge-timeout"),
        Fault::BridgeHighRail => say!(language, "fault-bridge-high-rail"),
        Fault::BridgeLowRail => say!(language, "fault-bridge-low-rail"),
        Fault::BridgeFrozen => say!(language, "fault-bridge-frozen"),
        Fault::BridgeOutOfStep => say!(language, "fault-bridge-out-of-step"),
        Fault::Overload => say!(language, "fault-overload"),
        Fault::NegativeLoad => say!(language, "fault-negative-load"),
        Fault::ZeroOutOfRange => say!(language, "fault-zero-out-of-range"),
        Fault::Uncalibrated => say!(language, "fault-uncalibrated"),
        Fault::ProbeOpen => say!(language, "fault-probe-open"),
        Fault::ProbeShortToGround => say!(language, "fault-probe-short-to-ground"),
        Fault::ProbeShortToSupply => say!(language, "fault-probe-short-to-supply"),
        Fault::ProbeSilent => say!(language, "fault-probe-silent"),
        Fault::ProbeOutOfRange => say!(language, "fault-probe-out-of-range"),
        Fault::PortionsLost => say!(language, "fault-portions-lost"),
        Fault::StorageFailed => say!(language, "fault-storage-failed"),
        Fault::TooNoisy => say!(language, "fault-too-noisy"),
        Fault::Restless => say!(language, "fault-restless"),
        _ => unknown_fault(language),
    }
}

/// That there is a fault which this version does not name.
#[must_use]
pub fn unknown_fault(language: Language) -> Words {
    say!(language, "fault-unknown")
}

/// What to do about a fault, as a sentence.
#[must_use]
pub fn remedy(language: Language, fault: Fault) -> Words {
    match fault {
        Fault::BridgeTimeout => say!(language, "remedy-bridge-timeout"),
        Fault::BridgeHighRail | Fault::BridgeLowRail => say!(language, "remedy-bridge-rail"),
        Fault::BridgeFrozen => say!(language, "remedy-bridge-frozen"),
        Fault::BridgeOutOfStep => say!(language, "remedy-bridge-out-of-step"),
        Fault::Overload => say!(language, "remedy-overload"),
        Fault::NegativeLoad => say!(language, "remedy-negative-load"),
        Fault::ZeroOutOfRange => say!(language, "remedy-zero-out-of-range"),
        Fault::Uncalibrated => say!(language, "remedy-uncalibrated"),
        Fault::ProbeOpen => say!(language, "remedy-probe-open"),
        Fault::ProbeShortToGround | Fault::ProbeShortToSupply => {
            say!(language, "remedy-probe-short")
        }
        Fault::ProbeSilent => say!(language, "remedy-probe-silent"),
        Fault::ProbeOutOfRange => say!(language, "remedy-probe-out-of-range"),
        Fault::PortionsLost => say!(language, "remedy-portions-lost"),
        Fault::StorageFailed => say!(language, "remedy-storage-failed"),
        Fault::TooNoisy => say!(language, "remedy-too-noisy"),
        Fault::Restless => say!(language, "remedy-restless"),
        _ => Cow::Borrowed(""),
    }
}

/// A fault and what to do about it.
#[must_use]
pub fn fault_and_remedy(language: Language, which: Fault) -> String {
    let words = format!("{} {}", fault(language, which), remedy(language, which));
    words.trim_end().to_owned()
}

/// How things stand with the instrument, as a sentence.
#[must_use]
pub fn link(language: Language, state: &LinkState) -> Words {
    match state {
        LinkState::NoneChosen => say!(language, "link-none-chosen"),
        LinkState::NoPort { port } => say!(language, "link-no-port", port = port),
        LinkState::NotAllowed { port } => say!(language, "link-not-allowed", port = port),
        LinkState::Busy { port } => say!(language, "link-busy", port = port),
        LinkState::PortFailed { port, why } => {
            say!(language, "link-port-failed", port = port, why = why)
        }
        LinkState::Calling { port } => say!(language, "link-calling", port = port),
        LinkState::Silent { port } => say!(language, "link-silent", port = port),
        LinkState::NotOurs { port } => say!(language, "link-not-ours", port = port),
        LinkState::OtherVersion { port, theirs } => say!(
            language,
            "link-other-version",
            port = port,
            theirs = theirs.to_string(),
            ours = Version::CURRENT.major.to_string()
        ),
        LinkState::DesktopAtOtherEnd { port } => {
            say!(language, "link-desktop-at-other-end", port = port)
        }
        LinkState::Linked { port, .. } => say!(language, "link-linked", port = port),
        LinkState::OtherInstrument { port, known, found } => say!(
            language,
            "link-other-instrument",
            port = port,
            found = format!("{:016x}", found.0),
            known = format!("{:016x}", known.0)
        ),
        LinkState::Lost { port } => say!(language, "link-lost", port = port),
        LinkState::ScenarioOver => say!(language, "link-scenario-over"),
        LinkState::NoBench { why } => say!(language, "link-no-bench", why = why),
    }
}

/// What to do about it, as a sentence, for a program that gives up; empty
/// where there is nothing to do.
#[must_use]
pub fn link_remedy(language: Language, state: &LinkState) -> Words {
    match state {
        LinkState::NoneChosen => say!(language, "link-none-chosen-do"),
        LinkState::NoPort { .. } => say!(language, "link-no-port-do"),
        LinkState::NotAllowed { .. } => say!(language, "link-not-allowed-do"),
        LinkState::Busy { .. } => say!(language, "link-busy-do"),
        LinkState::PortFailed { .. } => say!(language, "link-port-failed-do"),
        LinkState::Calling { .. } => say!(language, "link-calling-do"),
        LinkState::Silent { .. } => say!(language, "link-silent-do"),
        LinkState::NotOurs { .. } => say!(language, "link-not-ours-do"),
        LinkState::OtherVersion { theirs, .. } if *theirs > Version::CURRENT.major => {
            say!(language, "link-other-version-newer-do")
        }
        LinkState::OtherVersion { .. } => say!(language, "link-other-version-older-do"),
        LinkState::DesktopAtOtherEnd { .. } => say!(language, "link-desktop-at-other-end-do"),
        LinkState::Linked { .. } => Cow::Borrowed(""),
        LinkState::OtherInstrument { .. } => say!(language, "link-other-instrument-do"),
        LinkState::Lost { .. } => say!(language, "link-lost-do"),
        LinkState::ScenarioOver => say!(language, "link-scenario-over-do"),
        LinkState::NoBench { .. } => say!(language, "link-no-bench-do"),
    }
}

/// How things stand, what to do about it and what happens by itself, in
/// sentences, for a program that stays.
#[must_use]
pub fn link_and_remedy(language: Language, state: &LinkState) -> String {
    let promise = match state {
        LinkState::NoPort { .. } | LinkState::Busy { .. } => {
            say!(language, "link-looked-for-again")
        }
        LinkState::Silent { .. } => say!(language, "link-called-again"),
        _ => Cow::Borrowed(""),
    };
    let sentences = [link(language, state), link_remedy(language, state), promise];
    let said: Vec<&str> = sentences
        .iter()
        .map(AsRef::as_ref)
        .filter(|sentence| !sentence.is_empty())
        .collect();
    said.join(" ")
}

/// What is wrong at the desktop's end, in sentences.
#[must_use]
pub fn trouble(language: Language, trouble: &Trouble) -> Words {
    match &trouble.kind {
        TroubleKind::TooFast => say!(language, "trouble-too-fast"),
        TroubleKind::Refused(why) => {
            say!(
                language,
                "trouble-scale",
                why = refused_portion(language, *why)
            )
        }
        TroubleKind::Store(why) => say!(language, "trouble-store", why = why),
        TroubleKind::ClockBack(by) => {
            let by = by.round(jiff::Unit::Second).unwrap_or(*by);
            say!(language, "trouble-clock-back", by = format!("{by:#}"))
        }
    }
}

fn refused_portion(language: Language, why: RefusedPortion) -> Words {
    match why {
        RefusedPortion::Clash => say!(language, "portion-clash"),
        RefusedPortion::SenselessGoal => say!(language, "portion-senseless-goal"),
        RefusedPortion::SenselessCorrection => say!(language, "portion-senseless-correction"),
        RefusedPortion::BeyondCapacity => say!(language, "portion-beyond-capacity"),
        RefusedPortion::SenselessUncertainty => {
            say!(language, "portion-senseless-uncertainty")
        }
        RefusedPortion::SenselessTemperature => {
            say!(language, "portion-senseless-temperature")
        }
        RefusedPortion::OtherInstrument => say!(language, "portion-other-instrument"),
    }
}

/// Why something that was asked of the link was not done, in sentences.
#[must_use]
pub fn not_done(language: Language, why: &NotDone) -> String {
    let words = match why {
        NotDone::NotLinked(state) => return link_and_remedy(language, state),
        NotDone::NoRun => say!(language, "not-done-no-run"),
        NotDone::Store(why) => say!(language, "not-done-store", why = why),
        NotDone::Unmet(Unmet::Refused(why)) => {
            say!(language, "not-done-refused", why = refusal(language, *why))
        }
        NotDone::Unmet(Unmet::NoReply) => say!(language, "not-done-no-reply"),
        NotDone::Unmet(Unmet::LinkLost) => say!(language, "not-done-link-lost"),
        NotDone::Unmet(Unmet::TooMany) => say!(language, "not-done-too-many"),
    };
    capital(&words)
}

/// With a capital letter at its beginning.
fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters
        .next()
        .into_iter()
        .flat_map(char::to_uppercase)
        .chain(letters)
        .collect()
}

/// Why the instrument refused, without a capital or a stop.
fn refusal(language: Language, why: Refusal) -> Words {
    match why {
        Refusal::NotStable => say!(language, "refusal-not-stable"),
        Refusal::BeyondZeroRange => say!(language, "refusal-beyond-zero-range"),
        Refusal::NegativeTare => say!(language, "refusal-negative-tare"),
        Refusal::Faulty => say!(language, "refusal-faulty"),
        Refusal::Goal(why) => goal(language, why),
        Refusal::NoRun => say!(language, "refusal-no-run"),
        Refusal::Unknown => say!(language, "refusal-unknown"),
        Refusal::Running => say!(language, "refusal-running"),
        Refusal::NotCalibrating => say!(language, "refusal-not-calibrating"),
        Refusal::Calibration(why) => calibration(language, why),
        Refusal::Test(why) => test(language, why),
        Refusal::Setting => say!(language, "refusal-setting"),
        other => Cow::Owned(other.to_string()),
    }
}

/// Why a goal cannot be, without a capital or a stop.
#[must_use]
pub fn goal(language: Language, why: GoalError) -> Words {
    match why {
        GoalError::TargetNotPositive => say!(language, "goal-target-not-positive"),
        GoalError::ToleranceNegative => say!(language, "goal-tolerance-negative"),
        GoalError::ToleranceSwallowsTarget => say!(language, "goal-tolerance-swallows-target"),
        GoalError::BeyondCapacity => say!(language, "goal-beyond-capacity"),
        other => Cow::Owned(other.to_string()),
    }
}

fn calibration(language: Language, why: CalibrationError) -> Words {
    match why {
        CalibrationError::TooFewPoints => say!(language, "calibration-too-few-points"),
        CalibrationError::TooManyPoints => say!(language, "calibration-too-many-points"),
        CalibrationError::NoZero => say!(language, "calibration-no-zero"),
        CalibrationError::NegativeLoad => say!(language, "calibration-negative-load"),
        CalibrationError::NotANumber => say!(language, "calibration-not-a-number"),
        CalibrationError::NoSpan => say!(language, "calibration-no-span"),
        CalibrationError::NotStraight => say!(language, "calibration-not-straight"),
        other => Cow::Owned(other.to_string()),
    }
}

fn test(language: Language, why: SelfTestRefusal) -> Words {
    match why {
        SelfTestRefusal::NotStable => say!(language, "test-not-stable"),
        SelfTestRefusal::TooLight => say!(language, "test-too-light"),
        SelfTestRefusal::TooHeavy => say!(language, "test-too-heavy"),
        SelfTestRefusal::TooCoarse => say!(language, "test-too-coarse"),
        SelfTestRefusal::AnotherLoad => say!(language, "test-another-load"),
        other => Cow::Owned(other.to_string()),
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;
    use evenhand_protocol::{DeviceId, Mass};

    #[test]
    fn a_lighter_tin_is_said_without_a_minus() {
        let back = Notice::TinBack(Mass::from_grams(-12));
        let said = |language| notice(language, back, MassUnit::Gram);
        assert_eq!(said(Language::English), "The tin is back, 12.0 g lighter.");
        assert_eq!(
            said(Language::Spanish),
            "La cubeta ha vuelto con 12,0 g menos."
        );
        assert_eq!(
            said(Language::French),
            "Le bac est revenu avec 12,0 g de moins."
        );
    }

    #[test]
    fn each_doubt_has_its_sentence() {
        assert!(doubts(Language::English, Doubts::NONE).is_empty());
        let all = Doubts::MAYBE_TWO
            .union(Doubts::STRADDLES_LIMIT)
            .union(Doubts::TAKEN_OFF_PAN)
            .union(Doubts::HASTY)
            .union(Doubts::TOUCHED)
            .union(Doubts::MAYBE_CHANGED);
        assert_eq!(doubts(Language::English, all).len(), 6);
        let of_a_later_version = Doubts(1 << 31);
        assert_eq!(
            doubts(Language::English, of_a_later_version),
            ["The scale doubts it for a reason that this program is too old to know."]
        );
    }

    /// The instrument's own display says a fault in the protocol's words; the
    /// desktop says the same.
    #[test]
    fn a_fault_is_told_in_the_same_words_at_the_instrument_and_at_the_desktop() {
        for which in Fault::ALL {
            assert_eq!(fault(Language::English, which), which.sentence());
            assert_eq!(remedy(Language::English, which), which.remedy());
        }
    }

    /// Nor does a refusal read otherwise than where a program without words
    /// shows it.
    #[test]
    fn a_refusal_is_told_as_the_protocol_tells_it() {
        let goals = [
            GoalError::TargetNotPositive,
            GoalError::ToleranceNegative,
            GoalError::ToleranceSwallowsTarget,
            GoalError::BeyondCapacity,
        ];
        let calibrations = [
            CalibrationError::TooFewPoints,
            CalibrationError::TooManyPoints,
            CalibrationError::NoZero,
            CalibrationError::NegativeLoad,
            CalibrationError::NotANumber,
            CalibrationError::NoSpan,
            CalibrationError::NotStraight,
        ];
        let tests = [
            SelfTestRefusal::NotStable,
            SelfTestRefusal::TooLight,
            SelfTestRefusal::TooHeavy,
            SelfTestRefusal::TooCoarse,
            SelfTestRefusal::AnotherLoad,
        ];
        let others = [
            Refusal::NotStable,
            Refusal::BeyondZeroRange,
            Refusal::NegativeTare,
            Refusal::Faulty,
            Refusal::NoRun,
            Refusal::Unknown,
            Refusal::Running,
            Refusal::NotCalibrating,
            Refusal::Setting,
        ];
        let all = others
            .into_iter()
            .chain(goals.map(Refusal::Goal))
            .chain(calibrations.map(Refusal::Calibration))
            .chain(tests.map(Refusal::Test));
        for why in all {
            assert_eq!(refusal(Language::English, why), why.to_string());
            let told = not_done(Language::English, &NotDone::Unmet(Unmet::Refused(why)));
            assert_eq!(told, format!("The scale did not do it: {why}."));
        }
    }

    #[test]
    fn what_the_store_says_becomes_a_sentence() {
        let why = NotDone::Store("it was struck out already".to_owned());
        assert_eq!(
            not_done(Language::English, &why),
            "It was struck out already."
        );
    }

    fn states() -> Vec<LinkState> {
        let port = || "COM7".to_owned();
        vec![
            LinkState::NoneChosen,
            LinkState::NoPort { port: port() },
            LinkState::NotAllowed { port: port() },
            LinkState::Busy { port: port() },
            LinkState::PortFailed {
                port: port(),
                why: "it broke".to_owned(),
            },
            LinkState::Calling { port: port() },
            LinkState::Silent { port: port() },
            LinkState::NotOurs { port: port() },
            LinkState::OtherVersion {
                port: port(),
                theirs: 2,
            },
            LinkState::DesktopAtOtherEnd { port: port() },
            LinkState::OtherInstrument {
                port: port(),
                known: DeviceId(1),
                found: DeviceId(2),
            },
            LinkState::Lost { port: port() },
            LinkState::ScenarioOver,
            LinkState::NoBench {
                why: "no file".to_owned(),
            },
        ]
    }

    #[test]
    fn every_state_of_the_link_says_what_and_what_to_do_in_every_language() {
        for language in Language::ALL {
            for state in states() {
                let said = link(language, &state);
                assert!(said.ends_with('.') && said.contains(' '), "{said}");
                let remedy = link_remedy(language, &state);
                assert!(remedy.ends_with('.') && remedy.contains(' '), "{remedy}");
            }
        }
        let gone = LinkState::NoPort {
            port: "COM7".to_owned(),
        };
        assert_eq!(
            link_and_remedy(Language::Spanish, &gone),
            "No existe el puerto COM7. Enchufe y encienda la báscula, o elija otro puerto. Se sigue buscando sola."
        );
    }

    #[test]
    fn the_older_end_is_the_one_to_bring_up_to_date() {
        let remedy = |theirs| {
            let state = LinkState::OtherVersion {
                port: "p".to_owned(),
                theirs,
            };
            link_remedy(Language::English, &state)
        };
        assert!(remedy(2).contains("this program"));
        assert!(remedy(0).contains("firmware"));
    }
}
