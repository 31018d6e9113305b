//! From the live bench to what the bench screen shows.

use super::bench_view::{
    BenchView, Can, LinkView, MassView, PortionView, ProbeView, RunView, SpreadView, Standing,
    TinView, Tone,
};
use evenhand_kitchen::moment::show_time;
use evenhand_kitchen::portion::RecordedPortion;
use evenhand_kitchen::spread::Spread;
use evenhand_kitchen::units::MassUnit;
use evenhand_link::live::{
    LinkState, LiveRun, LiveScale, Now, doubt_sentences, notice_sentence, phase_prompt,
};
use evenhand_protocol::fault::FaultSet;
use evenhand_protocol::report::Capabilities;
use evenhand_protocol::{Fault, Mass, Mode, Notice, Phase, Reading, Temperature, Verdict};
use jiff::tz::TimeZone;
use std::time::Duration;

/// How long a notice stands on the screen.
const NOTICE: Duration = Duration::from_secs(8);

/// The step that is shown before the instrument has said its own.
const USUAL_INTERVAL: Mass = Mass::from_milligrams(100);

/// What the bench screen shows of the bench as it stands now. `today` is the
/// spread of today's portions, where the store could tell it.
#[must_use]
pub fn view(bench: &LiveScale, now: Now, today: Option<&Spread>, zone: &TimeZone) -> BenchView {
    let reading = bench.reading(now.steady);
    let interval = bench
        .hello()
        .map(|hello| hello.interval)
        .filter(|interval| *interval > Mass::ZERO)
        .unwrap_or(USUAL_INTERVAL);
    let run = bench.run();
    BenchView {
        link: link(bench, reading),
        mass: mass(bench, now, reading, interval),
        prompt: reading.map_or_else(String::new, prompt),
        notice: notice(bench, now),
        run: run.map(|live| run_view(live, reading, interval, zone)),
        probe: probe(bench, reading),
        today: today.map(spread_view),
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

fn link(bench: &LiveScale, reading: Option<&Reading>) -> LinkView {
    let say = |tone, words: String| LinkView { tone, words };
    let state = bench.link();
    if !state.is_linked() {
        let words = format!("{} {}", state.sentence(), state.remedy());
        let tone = match state {
            LinkState::Calling { .. } => Tone::Quiet,
            state if state.is_final() => Tone::Stop,
            _ => Tone::Attention,
        };
        return say(tone, words.trim_end().to_owned());
    }
    let Some(reading) = reading else {
        return if bench.last_reading().is_some() {
            say(
                Tone::Attention,
                "The scale has gone quiet. See that it has power and that its cable sits well."
                    .to_owned(),
            )
        } else {
            say(
                Tone::Quiet,
                "The scale is linked; its first reading is on the way.".to_owned(),
            )
        };
    };
    let fault_words = |fault: Fault| format!("{} {}", fault.sentence(), fault.remedy());
    if let Some(fault) = reading.faults.iter().find(|fault| fault.stops_weighing()) {
        return say(Tone::Stop, fault_words(fault));
    }
    if let Some(trouble) = bench.store_trouble() {
        return say(Tone::Stop, trouble.sentence.clone());
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
        let words =
            "The scale tells a fault that this program is too old to know: look at the scale.";
        return say(Tone::Attention, words.to_owned());
    }
    if let Some(trouble) = bench.clock_trouble() {
        return say(Tone::Attention, trouble.sentence.clone());
    }
    say(Tone::Quiet, state.sentence())
}

fn mass(bench: &LiveScale, now: Now, reading: Option<&Reading>, interval: Mass) -> MassView {
    let blank = |caption: &str| MassView {
        caption: caption.to_owned(),
        shown: None,
        interval,
        stable: None,
        verdict: None,
    };
    let Some(reading) = reading else {
        return blank("No reading");
    };
    let Some(net) = reading.net() else {
        return blank("Cannot weigh");
    };
    let approach = bench
        .approach(now.steady)
        .filter(|_| reading.phase != Phase::Weighing);
    let (caption, shown) = match (approach, reading.phase) {
        (Some(approach), Phase::Filling | Phase::DishSettling | Phase::AwaitDish) => {
            ("In the dish", approach.amount)
        }
        (Some(approach), _) => ("Taken out", approach.amount),
        (None, _) if reading.tare == Mass::ZERO => ("On the pan", net),
        (None, _) => ("Net", net),
    };
    MassView {
        caption: caption.to_owned(),
        shown: Some(shown.rounded_to(interval)),
        interval,
        stable: Some(reading.stable),
        verdict: approach.map(|approach| approach.verdict),
    }
}

fn prompt(reading: &Reading) -> String {
    let words = match (reading.phase, reading.verdict) {
        // Without a run there is nothing to wait for, and a fault is told above.
        (Phase::Weighing | Phase::Blocked, _) => "",
        (Phase::Filling, Some(Verdict::Short)) => "Add food",
        (Phase::Filling, Some(Verdict::Heavy)) => "Take some out",
        (Phase::Filling, Some(Verdict::On)) if reading.stable => "Lift the dish off",
        (Phase::Filling, Some(Verdict::On)) => "Hands off",
        (phase, _) => phase_prompt(phase),
    };
    words.to_owned()
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

fn notice(bench: &LiveScale, now: Now) -> Option<String> {
    latest_notice(bench, now).map(|(notice, _)| notice_sentence(notice, MassUnit::Gram))
}

fn run_view(live: &LiveRun, reading: Option<&Reading>, interval: Mass, zone: &TimeZone) -> RunView {
    RunView {
        going_on: live.run.ended.is_none(),
        dish: live
            .run
            .dish
            .as_ref()
            .map_or_else(|| "A run begun elsewhere".to_owned(), ToString::to_string),
        mode: live.run.mode,
        goal: live.run.goal,
        portions: (1..)
            .zip(live.portions())
            .map(|(number, portion)| portion_view(number, portion, zone))
            .collect(),
        spread: spread_view(live.spread()),
        tin: tin(live, reading, interval),
    }
}

fn portion_view(number: u32, portion: &RecordedPortion, zone: &TimeZone) -> PortionView {
    let standing = match (&portion.struck, portion.replaced_by) {
        (Some(struck), _) => Standing::Struck(struck.reason.as_str().to_owned()),
        (None, Some(_)) => Standing::Corrected,
        (None, None) => Standing::Counts,
    };
    let doubts = doubt_sentences(portion.doubts);
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

fn spread_view(spread: &Spread) -> SpreadView {
    SpreadView {
        count: spread.n(),
        mean: spread.mean(),
        deviation: spread.standard_deviation(),
    }
}

fn tin(live: &LiveRun, reading: Option<&Reading>, interval: Mass) -> Option<TinView> {
    if let Some(tin) = &live.tin {
        return Some(TinView {
            caption: "Left in the tin",
            left: Some(tin.left()),
            portions: Some(tin.possible(&live.run).to_string()),
        });
    }
    // A tin that nobody entered: what stands on the pan is all that is known, and the empty
    // tin's own weight is in it.
    (live.run.mode == Mode::Taking).then(|| TinView {
        caption: "Tin and food",
        left: reading
            .and_then(|reading| reading.gross)
            .map(|gross| gross.rounded_to(interval)),
        portions: None,
    })
}

fn probe(bench: &LiveScale, reading: Option<&Reading>) -> ProbeView {
    let Some(reading) = reading else {
        return ProbeView::Unknown;
    };
    if let Some((fault, short)) = probe_fault(reading.faults) {
        return ProbeView::Fault {
            short: short.to_owned(),
            words: fault.sentence().to_owned(),
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

fn probe_fault(faults: FaultSet) -> Option<(Fault, &'static str)> {
    [
        (Fault::ProbeOpen, "unplugged"),
        (Fault::ProbeShortToGround, "shorted"),
        (Fault::ProbeShortToSupply, "shorted"),
        (Fault::ProbeSilent, "no answer"),
        (Fault::ProbeOutOfRange, "out of range"),
    ]
    .into_iter()
    .find(|(fault, _)| faults.contains(*fault))
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
    }
}
