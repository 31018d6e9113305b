//! From the live bench to what the bench screen shows.

use super::bench_view::{
    BenchView, Can, LinkView, MassView, Of, PortionState, PortionView, ProbeView, RunView,
    SpreadView, TinView, Tone,
};
use super::figures;
use super::words::{Language, say};
use evenhand_kitchen::moment::show_time;
use evenhand_kitchen::portion::RecordedPortion;
use evenhand_kitchen::service::{DoubtedSpread, FailedTest};
use evenhand_kitchen::tin::PortionsPossible;
use evenhand_kitchen::units::MassUnit;
use evenhand_link::live::{LinkState, LiveRun, LiveScale, Now};
use evenhand_protocol::fault::FaultSet;
use evenhand_protocol::report::Capabilities;
use evenhand_protocol::{Fault, Mass, Mode, Notice, Phase, Reading, Temperature, Verdict};
use evenhand_use_cases::instrument;
use jiff::Timestamp;
use jiff::tz::TimeZone;
use std::borrow::Cow;
use std::time::Duration;

/// How long a notice stands on the screen.
const NOTICE: Duration = Duration::from_secs(8);

/// The step that is shown before the instrument has said its own.
const USUAL_INTERVAL: Mass = Mass::from_milligrams(100);

/// What the bench screen shows of the bench as it stands now. `today` is the
/// spread of today's portions, where the store could tell it; `failed_tests` are the
/// tests of the scale that cast doubt on portions.
#[must_use]
pub fn view(
    bench: &LiveScale,
    now: Now,
    (today, failed_tests): (Option<&DoubtedSpread>, &[FailedTest]),
    zone: &TimeZone,
    language: Language,
) -> BenchView {
    let reading = bench.reading(now.steady);
    let interval = bench
        .hello()
        .map(|hello| hello.interval)
        .filter(|interval| *interval > Mass::ZERO)
        .unwrap_or(USUAL_INTERVAL);
    let run = bench.run();
    BenchView {
        link: link(bench, reading, language),
        mass: mass(bench, now, reading, interval, language),
        prompt: reading.map_or_else(String::new, |reading| {
            prompt(reading, language).into_owned()
        }),
        notice: notice(bench, now, language),
        refused: refused(bench),
        run: run.map(|live| run_view((live, failed_tests), reading, interval, zone, language)),
        probe: probe(bench, reading, language),
        today: today.map(spread_view),
        capacity: bench.hello().map(|hello| hello.capacity),
        can: can(reading, run),
    }
}

/// When what is shown will change though nothing is heard: a reading grows
/// stale, a notice has stood long enough.
#[must_use]
pub fn changes_in(bench: &LiveScale, now: Now) -> Option<Duration> {
    let stale = bench
        .stale_at(now.steady)
        .map(|at| at.saturating_duration_since(now.steady));
    let notice = latest_notice(bench, now)
        .map(|(_, age)| NOTICE.saturating_sub(age) + Duration::from_millis(1));
    match (stale, notice) {
        (Some(stale), Some(notice)) => Some(stale.min(notice)),
        (stale, notice) => stale.or(notice),
    }
}

fn link(bench: &LiveScale, reading: Option<&Reading>, language: Language) -> LinkView {
    let say = |tone, words: Cow<'_, str>| LinkView {
        tone,
        words: words.into_owned(),
    };
    let state = bench.link();
    if !state.is_linked() {
        let tone = match state {
            LinkState::Calling { .. } => Tone::Quiet,
            state if state.is_final() => Tone::Stop,
            _ => Tone::Attention,
        };
        return say(tone, instrument::link_and_remedy(language, state).into());
    }
    let Some(reading) = reading else {
        return if bench.last_reading().is_some() {
            say(Tone::Attention, say!(language, "link-quiet"))
        } else {
            say(Tone::Quiet, say!(language, "link-first-reading"))
        };
    };
    let fault_words = |fault| instrument::fault_and_remedy(language, fault).into();
    if let Some(fault) = reading.faults.iter().find(|fault| fault.stops_weighing()) {
        return say(Tone::Stop, fault_words(fault));
    }
    if let Some(trouble) = bench.store_trouble() {
        return say(Tone::Stop, instrument::trouble(language, trouble));
    }
    // The faults that are left, the one that touches portions first.
    let order = |fault: &Fault| match fault {
        Fault::PortionsLost => 0,
        Fault::NegativeLoad | Fault::ZeroOutOfRange => 1,
        _ => 2,
    };
    if let Some(fault) = reading.faults.iter().min_by_key(order) {
        return say(Tone::Attention, fault_words(fault));
    }
    if reading.faults.unknown() != 0 {
        return say(Tone::Attention, instrument::unknown_fault(language));
    }
    if let Some(trouble) = bench.clock_trouble() {
        return say(Tone::Attention, instrument::trouble(language, trouble));
    }
    // What is as it should be needs no line.
    say(Tone::Quiet, Cow::Borrowed(""))
}

fn mass(
    bench: &LiveScale,
    now: Now,
    reading: Option<&Reading>,
    interval: Mass,
    language: Language,
) -> MassView {
    let blank = |caption: Cow<'_, str>| MassView {
        caption: caption.into_owned(),
        shown: None,
        interval,
        stable: None,
        verdict: None,
        of: Of::Load,
    };
    let Some(reading) = reading else {
        return blank(say!(language, "mass-no-reading"));
    };
    let Some(net) = reading.net() else {
        return blank(say!(language, "mass-cannot-weigh"));
    };
    let approach = bench
        .approach(now.steady)
        .filter(|_| reading.phase != Phase::Weighing);
    if approach.is_none()
        && let Some(kept) = kept(bench, reading, interval, language)
    {
        return kept;
    }
    let (caption, shown) = match (approach, reading.phase) {
        (Some(approach), Phase::Filling | Phase::DishSettling | Phase::AwaitDish) => {
            (say!(language, "mass-in-the-dish"), approach.amount)
        }
        (Some(approach), _) => (say!(language, "mass-taken-out"), approach.amount),
        (None, _) if reading.tare == Mass::ZERO => (say!(language, "mass-on-the-pan"), net),
        (None, _) => (say!(language, "mass-net"), net),
    };
    MassView {
        caption: caption.into_owned(),
        shown: Some(shown.rounded_to(interval)),
        interval,
        stable: Some(reading.stable),
        verdict: approach.map(|approach| approach.verdict),
        of: Of::Load,
    }
}

/// The portion captured last, until the next dish or spoon touches.
fn kept(
    bench: &LiveScale,
    reading: &Reading,
    interval: Mass,
    language: Language,
) -> Option<MassView> {
    let waits = matches!(
        reading.phase,
        Phase::AwaitDish | Phase::AwaitTin | Phase::TinSettling | Phase::Ready | Phase::TinAway
    );
    let live = bench.run().filter(|live| live.run.ended.is_none())?;
    if !waits || reading.run != Some(live.run.id) {
        return None;
    }
    let last = live.portions().last()?;
    let number = live.portions().len().to_string();
    let pan = reading.gross?.rounded_to(interval);
    let (caption, of, verdict) = if last.counts() {
        let caption = say!(language, "mass-captured", number = number);
        (
            caption,
            Of::Captured { pan },
            Some(last.goal.judge(last.mass)),
        )
    } else {
        let caption = say!(language, "mass-struck", number = number);
        (caption, Of::Struck { pan }, None)
    };
    Some(MassView {
        caption: caption.into_owned(),
        shown: Some(last.mass.rounded_to(interval)),
        interval,
        stable: None,
        verdict,
        of,
    })
}

fn prompt(reading: &Reading, language: Language) -> Cow<'static, str> {
    match (reading.phase, reading.verdict) {
        // Without a run there is nothing to wait for, and a fault is told above.
        (Phase::Weighing | Phase::Blocked, _) => Cow::Borrowed(""),
        (Phase::Filling, Some(Verdict::Short)) => say!(language, "prompt-add"),
        (Phase::Filling, Some(Verdict::Heavy)) => say!(language, "prompt-take-out"),
        (Phase::Filling, Some(Verdict::On)) if reading.stable => {
            say!(language, "prompt-lift-off")
        }
        // In few words: they are read from two metres.
        (Phase::Filling, Some(Verdict::On)) | (Phase::Spooning, _) => {
            say!(language, "prompt-hands-off")
        }
        (Phase::Filling, None) => say!(language, "prompt-fill"),
        (Phase::AwaitDish, _) => say!(language, "prompt-dish-on"),
        (Phase::DishSettling | Phase::TinSettling, _) => say!(language, "prompt-hold-still"),
        (Phase::AwaitTin, _) => say!(language, "prompt-tin-on"),
        (Phase::Ready, _) => say!(language, "prompt-take"),
        (Phase::TinAway, _) => say!(language, "prompt-tin-back"),
        (phase, _) => instrument::prompt(language, phase),
    }
}

/// The latest notice that a cook should see, and how long ago it came.
fn latest_notice(bench: &LiveScale, now: Now) -> Option<(Notice, Duration)> {
    let seen = bench.notices().next_back()?;
    let age = Duration::try_from(now.wall.duration_since(seen.at)).unwrap_or(Duration::ZERO);
    let worth = match seen.notice {
        // What the prompt says anyway, or what the cook just asked for.
        Notice::RunStarted(_) | Notice::RunStopped(_) | Notice::DishTared(_) | Notice::TinAway => {
            false
        }
        _ => true,
    };
    (worth && age < NOTICE).then_some((seen.notice, age))
}

/// When something was last not counted.
fn refused(bench: &LiveScale) -> Option<Timestamp> {
    let not_counted = |notice: &Notice| {
        matches!(
            notice,
            Notice::LiftedUnsettled
                | Notice::LiftedEmpty
                | Notice::Unaccounted(_)
                | Notice::FilledWhileTaken(_)
                | Notice::FoundOnPan(_)
        )
    };
    let mut seen = bench.notices().rev();
    seen.find(|seen| not_counted(&seen.notice))
        .map(|seen| seen.at)
}

fn notice(bench: &LiveScale, now: Now, language: Language) -> Option<String> {
    latest_notice(bench, now)
        .map(|(notice, _)| instrument::notice(language, notice, MassUnit::Gram).into_owned())
}

fn run_view(
    (live, failed_tests): (&LiveRun, &[FailedTest]),
    reading: Option<&Reading>,
    interval: Mass,
    zone: &TimeZone,
    language: Language,
) -> RunView {
    RunView {
        going_on: live.run.ended.is_none(),
        dish: live.run.dish.as_ref().map_or_else(
            || say!(language, "run-begun-elsewhere").into_owned(),
            ToString::to_string,
        ),
        mode: live.run.mode,
        goal: live.run.goal,
        portions: (1..)
            .zip(live.portions())
            .map(|(number, portion)| portion_view(number, portion, zone, language))
            .collect(),
        spread: spread_view(&DoubtedSpread::of_portions(live.portions(), failed_tests)),
        tin: tin(live, reading, interval, language),
    }
}

fn portion_view(
    number: u32,
    portion: &RecordedPortion,
    zone: &TimeZone,
    language: Language,
) -> PortionView {
    let standing = match (&portion.struck, portion.replaced_by) {
        (Some(struck), _) => PortionState::Struck(struck.reason.as_str().to_owned()),
        (None, Some(_)) => PortionState::Corrected,
        (None, None) => PortionState::Counts,
    };
    let doubts = instrument::doubts(language, portion.doubts);
    PortionView {
        id: portion.id,
        number,
        mass: portion.mass,
        goal: portion.goal,
        at: show_time(portion.time, zone),
        standing,
        doubt: (!doubts.is_empty()).then(|| doubts.join(" ")),
    }
}

fn spread_view(doubted: &DoubtedSpread) -> SpreadView {
    let in_doubt = doubted.doubts.weights();
    let relied = &doubted.relied;
    SpreadView {
        count: doubted.all.n(),
        in_doubt,
        mean: relied.mean(),
        deviation: relied.standard_deviation(),
        of_all: (in_doubt > 0).then(|| (doubted.all.mean(), doubted.all.standard_deviation())),
    }
}

fn tin(
    live: &LiveRun,
    reading: Option<&Reading>,
    interval: Mass,
    language: Language,
) -> Option<TinView> {
    if let Some(tin) = &live.tin {
        return Some(TinView {
            caption: say!(language, "tin-left").into_owned(),
            left: Some(tin.left()),
            portions: Some(possible(tin.possible(&live.run), language).into_owned()),
        });
    }
    // A tin that nobody entered: what stands on the pan is all that is known, and the empty
    // tin's own weight is in it.
    (live.run.mode == Mode::Taking).then(|| TinView {
        caption: say!(language, "tin-and-food").into_owned(),
        left: reading
            .and_then(|reading| reading.gross)
            .map(|gross| gross.rounded_to(interval)),
        portions: None,
    })
}

/// How many portions that makes: `36 to 40 portions`.
pub(crate) fn possible(portions: PortionsPossible, language: Language) -> Cow<'static, str> {
    if portions.fewest == portions.most {
        return figures::portions(portions.most as usize, language);
    }
    say!(
        language,
        "tin-portions-between",
        fewest = portions.fewest as usize,
        most = portions.most as usize
    )
}

fn probe(bench: &LiveScale, reading: Option<&Reading>, language: Language) -> ProbeView {
    let Some(reading) = reading else {
        return ProbeView::Unknown;
    };
    if let Some((fault, short)) = probe_fault(reading.faults, language) {
        return ProbeView::Fault {
            short: short.into_owned(),
            words: instrument::fault(language, fault).into_owned(),
        };
    }
    let has_probe = bench
        .hello()
        .is_none_or(|hello| hello.capabilities.contains(Capabilities::PROBE));
    match reading.temperature {
        Some(temperature) => ProbeView::Reads(to_a_tenth(temperature)),
        None if has_probe => ProbeView::Unknown,
        None => ProbeView::Absent,
    }
}

/// Rounded to what is shown, so that nothing is painted again for less.
fn to_a_tenth(temperature: Temperature) -> Temperature {
    let thousandths = temperature.millicelsius();
    let half = if thousandths < 0 { -50 } else { 50 };
    Temperature::from_millicelsius((thousandths.saturating_add(half)) / 100 * 100)
}

fn probe_fault(faults: FaultSet, language: Language) -> Option<(Fault, Cow<'static, str>)> {
    let fault = [
        Fault::ProbeOpen,
        Fault::ProbeShortToGround,
        Fault::ProbeShortToSupply,
        Fault::ProbeSilent,
        Fault::ProbeOutOfRange,
    ]
    .into_iter()
    .find(|fault| faults.contains(*fault))?;
    let short = match fault {
        Fault::ProbeOpen => say!(language, "probe-unplugged"),
        Fault::ProbeSilent => say!(language, "probe-no-answer"),
        Fault::ProbeOutOfRange => say!(language, "probe-out-of-range"),
        _ => say!(language, "probe-shorted"),
    };
    Some((fault, short))
}

// Tare and zero are not withheld while the load moves: the buttons would flicker, and the
// instrument says itself why it cannot.
fn can(reading: Option<&Reading>, run: Option<&LiveRun>) -> Can {
    let weighs = reading.is_some_and(|reading| reading.gross.is_some());
    Can {
        tare: weighs,
        clear_tare: reading.is_some_and(|reading| reading.tare != Mass::ZERO),
        zero: weighs,
        undo: run.is_some_and(|live| live.last().is_some()),
        run: reading.is_some(),
        // The scale knows whether it has one; a run on record may be one that it lost.
        calibrate: reading.is_some_and(|reading| reading.run.is_none()),
    }
}
