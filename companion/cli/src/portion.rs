//! `evenhand portion`.

use super::amounts::{GoalArguments, ModeArguments, UnitArguments};
use super::place::PlaceArguments;
use super::shown::{PortionJson, portion_words};
use super::spread_table::{DoubtedJson, doubted_lines};
use super::status_line::StatusLine;
use super::tin::tin_id;
use super::words::{bad_input, failed, say};
use super::written::{already_there, may_be_written, to_file};
use super::{Data, Failure, NotShown, Screens, figures, output};
use clap::Args;
use crossbeam_channel::{Receiver, Sender};
use evenhand_kitchen::cook::Cook;
use evenhand_kitchen::dish::DishName;
use evenhand_kitchen::melt::{Melt, MeltClock};
use evenhand_kitchen::moment::show_time;
use evenhand_kitchen::service::{DoubtedSpread, FailedTest};
use evenhand_kitchen::units::MassUnit;
use evenhand_link::live::{LinkState, LiveRun, LiveScale};
use evenhand_link::{Endpoint, Link, Pace, Request, Ticket, made_bench};
use evenhand_protocol::{Goal, Mass, Mode, PortionId, Tolerance, Verdict};
use evenhand_store::{NewRun, Query, Store};
use evenhand_use_cases::instrument;
use evenhand_use_cases::melt::melt_clock;
use evenhand_words::Language;
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp};
use serde::Serialize;
use std::collections::HashSet;
use std::path::PathBuf;
use std::sync::Arc;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::time::{Duration, Instant};

/// How long to wait for an instrument that does not answer at first.
const FIRST_PATIENCE: Duration = Duration::from_secs(6);
/// How long the end of the run may take.
const END_PATIENCE: Duration = Duration::from_secs(6);
/// How often to look when nothing wakes.
pub(super) const LOOK_EVERY: Duration = Duration::from_millis(200);

#[derive(Debug, Args)]
pub(super) struct PortionArguments {
    /// What is portioned.
    #[arg(long, value_name = "NAME")]
    dish: String,
    #[command(flatten)]
    goal: GoalArguments,
    /// End when so many portions count.
    #[arg(long, value_name = "N", allow_hyphen_values = true)]
    count: Option<String>,
    #[command(flatten)]
    mode: ModeArguments,
    #[command(flatten)]
    place: PlaceArguments,
    /// How fast the simulated bench runs, in its seconds a second; as fast as it can if not said.
    #[arg(
        long,
        value_name = "X",
        requires = "simulated",
        allow_hyphen_values = true
    )]
    speed: Option<String>,
    /// The cook's initials.
    #[arg(long, value_name = "XX")]
    cook: Option<String>,
    /// The number of the tin it is portioned from; else the dish's open tin.
    #[arg(long, value_name = "N")]
    tin: Option<String>,
    #[command(flatten)]
    unit: UnitArguments,
    /// One JSON object a line for each portion, and one for the summary.
    #[arg(long)]
    json: bool,
    /// Write a picture of the bench screen, as it stood towards the end, to this PNG file.
    #[arg(long, value_name = "FILE")]
    picture: Option<PathBuf>,
    /// Write the picture over a file that is there.
    #[arg(long, requires = "picture")]
    force: bool,
}

/// Everything that was asked, checked.
struct Asked<'a> {
    run: NewRun,
    count: Option<usize>,
    place: Endpoint,
    pace: Pace,
    unit: MassUnit,
    json: bool,
    data: Data,
    screens: &'a dyn Screens,
    picture: Option<PathBuf>,
    force: bool,
}

#[derive(Serialize)]
struct SummaryJson {
    summary: SummaryFields,
}

#[derive(Serialize)]
struct SummaryFields {
    #[serde(flatten)]
    spread: DoubtedJson,
    run: u32,
    /// Portions that the instrument could not keep.
    lost: u32,
    /// How long the scoops were out of the cold, where the dish has a limit.
    melt: Option<MeltJson>,
}

/// The melt clock when the run ended.
#[derive(Serialize)]
struct MeltJson {
    out_seconds: i64,
    limit_seconds: i64,
    over_seconds: i64,
}

pub(super) fn run(
    data: &Data,
    screens: &dyn Screens,
    arguments: &PortionArguments,
) -> Result<(), Failure> {
    let unit = arguments.unit.unit()?;
    let count = arguments.count.as_deref().map(count).transpose()?;
    let pace = match &arguments.speed {
        Some(text) => speed("--speed", text)?,
        None => Pace::Unbounded,
    };
    let cook = arguments
        .cook
        .as_ref()
        .map(|cook| Cook::new("--cook", cook))
        .transpose()?;
    let name = DishName::new("--dish", &arguments.dish)?;
    // What is written wrongly is said before a store is made.
    if !arguments.goal.is_empty() {
        arguments.goal.goal(Some(any_goal()?))?;
    }
    // Whatever scenario it is, it is a simulated scale.
    let data = &arguments.place.data(data);
    if let Some(path) = &arguments.picture {
        may_be_written(data, "--picture", path)?;
        if path.symlink_metadata().is_ok() && !arguments.force {
            return Err(already_there("--picture", path));
        }
    }
    data.tell_simulated()?;
    let mut store = data.store()?;
    let known = store.dish(&name)?;
    if known.is_none() && arguments.goal.is_empty() {
        // Says which dishes there are.
        store.known_dish(&name)?;
    }
    let goal = arguments.goal.goal(known.as_ref().map(|dish| dish.goal))?;
    let mode = arguments.mode.mode(known.as_ref().map(|dish| dish.mode))?;
    let made = || {
        made_bench(name.as_str(), mode, goal, count)
            .map_err(|error| bad_input!("portion-target", why = error.to_string()))
    };
    let place = arguments
        .place
        .place(made)?
        .ok_or_else(|| bad_input!("portion-no-scale"))?;
    fits_scenario(data.language, &place, mode, goal)?;
    let name = match known {
        Some(dish) => dish.name,
        None => {
            store
                .set_dish(&name, goal, mode, None, Timestamp::now())?
                .name
        }
    };
    let tin = match &arguments.tin {
        Some(text) => Some(tin_id("--tin", text)?),
        None => store.tin_in_use(&name)?.map(|tin| tin.id),
    };
    let run = NewRun {
        dish: name,
        goal,
        mode,
        cook,
        tin,
    };
    portion(
        store,
        Asked {
            run,
            count,
            place,
            pace,
            unit,
            json: arguments.json,
            data: data.clone(),
            screens,
            picture: arguments.picture.clone(),
            force: arguments.force,
        },
    )
}

/// A goal that only stands in for one that is not known yet: any tolerance fits
/// it.
fn any_goal() -> Result<Goal, Failure> {
    Goal::new(Mass::MAX, Tolerance::symmetric(Mass::ZERO))
        .map_err(|error| bad_input!("goal-senseless", why = error))
}

fn count(text: &str) -> Result<usize, Failure> {
    match text.trim().parse() {
        Ok(count) if count > 0 => Ok(count),
        _ => Err(bad_input!("portion-count", value = format!("{text:?}"))),
    }
}

/// Reads how fast a simulated bench is to run.
pub(super) fn speed(field: &str, text: &str) -> Result<Pace, Failure> {
    match text.trim().parse::<f64>() {
        Ok(speed) if (0.01..=10_000.0).contains(&speed) => Ok(Pace::Times(speed)),
        _ => Err(bad_input!(
            "portion-speed",
            field = field,
            value = format!("{text:?}"),
        )),
    }
}

/// Whether the simulated cook works in the way asked for; says so where the
/// cook makes portions of another size.
fn fits_scenario(
    language: Language,
    place: &Endpoint,
    mode: Mode,
    goal: Goal,
) -> Result<(), Failure> {
    let Endpoint::Simulated { scenario, .. } = place else {
        return Ok(());
    };
    if scenario.mode() != mode {
        let (asked, is) = match mode {
            Mode::Adding => ("--adding", "--taking"),
            Mode::Taking => ("--taking", "--adding"),
        };
        return Err(bad_input!(
            "portion-other-mode",
            asked = asked,
            title = format!("{:?}", scenario.title()),
            is = is,
        ));
    }
    if goal.judge(scenario.goal().target()) != Verdict::On {
        let grams = |goal: Goal| figures::mass(language, goal.target(), MassUnit::Gram);
        let words = say!(
            language,
            "portion-other-size",
            title = format!("{:?}", scenario.title()),
            makes = grams(scenario.goal()),
            asked = grams(goal)
        );
        eprintln!("{words}");
    }
    Ok(())
}

/// Portions until the count, the scenario's end or Ctrl-C.
fn portion(store: Store, plan: Asked<'_>) -> Result<(), Failure> {
    let known = store
        .portions(&Query {
            dish: Some(plan.run.dish.clone()),
            ..Query::default()
        })?
        .iter()
        .map(|portion| portion.id)
        .collect();
    let (wake, woken) = crossbeam_channel::bounded(1);
    let interrupts = interrupts(wake.clone())?;
    let start = Request::StartRun {
        run: plan.run.clone(),
        resume: true,
        count: plan.count,
    };
    let dial = plan.place.dial(plan.pace);
    let link = Link::open(dial, store, Some(start), move || wake_up(&wake))
        .map_err(|error| failed!("portion-no-link", why = &error))?;
    let mut teller = Teller {
        unit: plan.unit,
        json: plan.json,
        data: plan.data.clone(),
        zone: TimeZone::system(),
        known,
        said: Said::default(),
        status: StatusLine::new(plan.data.language),
        melting: None,
        worth_a_picture: None,
    };
    let bench = follow(
        &link,
        (&woken, &interrupts),
        plan.data.language,
        &mut teller,
    );
    teller.status.clear();
    link.close();
    let bench = bench?;
    teller.summary(&bench)?;
    if let Some(path) = &plan.picture {
        let bench = teller.worth_a_picture.as_ref().unwrap_or(&bench);
        let store = plan.data.store()?;
        let failed = |why: String| failed!("portion-picture-failed", why = why);
        // Drawn where nothing lies, then put in its place whole.
        let beside = tempfile::tempdir().map_err(|error| failed(error.to_string()))?;
        let drawn = beside.path().join("picture.png");
        plan.screens
            .picture(&drawn, bench, &store, &TimeZone::system())
            .map_err(|why| match why {
                NotShown::NoScreens => failed(say!(plan.data.language, "no-picture").into_owned()),
                NotShown::Failed(why) => failed(why),
            })?;
        to_file(&plan.data, "--picture", path, plan.force, |file| {
            std::io::copy(&mut std::fs::File::open(&drawn)?, file).map(drop)
        })?;
    }
    Ok(())
}

/// Wakes whoever waits; one waking is enough for several reasons.
pub(super) fn wake_up(wake: &Sender<()>) {
    let _ = wake.try_send(());
}

/// Counts how often the person asked to end.
pub(super) fn interrupts(wake: Sender<()>) -> Result<Arc<AtomicUsize>, Failure> {
    let interrupts = Arc::new(AtomicUsize::new(0));
    let counted = Arc::clone(&interrupts);
    ctrlc::set_handler(move || {
        counted.fetch_add(1, Ordering::Relaxed);
        wake_up(&wake);
    })
    .map_err(|error| failed!("portion-no-interrupts", why = error.to_string()))?;
    Ok(interrupts)
}

/// Tells what happens until the run is over; gives the bench as it was then.
fn follow(
    link: &Link,
    (woken, interrupts): (&Receiver<()>, &AtomicUsize),
    language: Language,
    teller: &mut Teller,
) -> Result<Arc<LiveScale>, Failure> {
    let begun = Instant::now();
    let mut was_linked = false;
    let mut ending: Option<(Instant, Option<Ticket>)> = None;
    loop {
        // A timeout is as good as a waking: something may be due.
        let _ = woken.recv_timeout(LOOK_EVERY);
        let bench = link.live();
        teller.tell(&bench)?;
        if let Some((_, reading)) = bench.last_reading()
            && reading.verdict == Some(evenhand_protocol::Verdict::On)
        {
            teller.worth_a_picture = Some(Arc::clone(&bench));
        }
        was_linked |= bench.link().is_linked();
        if let Some((number, Err(why))) = bench.answer()
            && number == FIRST
        {
            let why = instrument::not_done(language, why);
            return Err(failed!("portion-cannot-begin", why = why));
        }
        if !link.is_running() {
            return Err(failed!("portion-link-broke"));
        }
        if *bench.link() == LinkState::ScenarioOver {
            return Ok(bench);
        }
        if !was_linked {
            give_up(bench.link(), begun)?;
        } else if bench.link().is_final() {
            return Err(link_failure(bench.link()));
        }
        let ended = bench.run().is_some_and(|live| live.run.ended.is_some());
        match ending {
            None if ended => return Ok(bench),
            None => {
                if interrupts.load(Ordering::Relaxed) > 0 {
                    if !was_linked {
                        return Ok(bench);
                    }
                    ending = Some((Instant::now(), link.ask(Request::StopRun)));
                }
            }
            Some((since, _)) => {
                let all = ended && bench.unsent() == 0;
                let impatient = interrupts.load(Ordering::Relaxed) > 1;
                if all || impatient || since.elapsed() > END_PATIENCE {
                    return Ok(bench);
                }
            }
        }
    }
}

/// The ticket of the first request of a link.
const FIRST: u64 = 0;

/// Whether to give up on an instrument that was never linked.
pub(super) fn give_up(state: &LinkState, begun: Instant) -> Result<(), Failure> {
    let at_once = match state {
        LinkState::NoPort { .. }
        | LinkState::NotAllowed { .. }
        | LinkState::Busy { .. }
        | LinkState::PortFailed { .. } => true,
        state => state.is_final(),
    };
    let waiting = matches!(state, LinkState::NoneChosen | LinkState::Calling { .. });
    if at_once || (!waiting && begun.elapsed() > FIRST_PATIENCE) {
        return Err(link_failure(state));
    }
    Ok(())
}

pub(super) fn link_failure(state: &LinkState) -> Failure {
    Failure::Link(Box::new(state.clone()))
}

/// The melt clock at a run's end, or at its last portion while it goes on.
fn melt(store: &Store, live: &LiveRun) -> Result<Option<MeltJson>, Failure> {
    let Some(clock) = melt_clock(store, live)? else {
        return Ok(None);
    };
    let last = live.portions().iter().map(|portion| portion.time).max();
    let now = live.run.ended.max(last).unwrap_or(live.run.started);
    Ok(Some(MeltJson {
        out_seconds: clock.out(now).as_secs(),
        limit_seconds: clock.limit().as_secs(),
        over_seconds: match clock.stands(now) {
            Melt::Left(_) => 0,
            Melt::Over(over) => over.as_secs(),
        },
    }))
}

/// What was said already, to say each thing once.
#[derive(Default)]
struct Said {
    portions: usize,
    notices: u64,
    link: Option<LinkState>,
    store_trouble: Option<instrument::Words>,
    clock_trouble: Option<instrument::Words>,
    faults: Vec<evenhand_protocol::Fault>,
    resumed: bool,
    /// That the scoops have been out for longer than their limit.
    melted: bool,
}

/// Tells what happens, portions on standard output and the rest beside it.
struct Teller {
    unit: MassUnit,
    json: bool,
    data: Data,
    zone: TimeZone,
    /// Portions on record before.
    known: HashSet<PortionId>,
    said: Said,
    status: StatusLine,
    /// How long the scoops have been out of the cold, where their dish has a limit.
    melting: Option<MeltClock>,
    /// The bench when a portion was last on target in it.
    worth_a_picture: Option<Arc<LiveScale>>,
}

impl Teller {
    fn tell(&mut self, bench: &LiveScale) -> Result<(), Failure> {
        self.tell_link(bench.link());
        if let Some(live) = bench.run() {
            self.tell_resumed(live);
            self.tell_portions(live)?;
        }
        self.tell_notices(bench);
        self.tell_troubles(bench);
        self.tell_faults(bench);
        let melting = self.tell_melting(Timestamp::now());
        if !self.json {
            self.status.show(bench, self.unit, melting.as_deref());
        }
        Ok(())
    }

    /// How long the scoops have been out of the cold; said once by itself when their limit
    /// has passed.
    fn tell_melting(&mut self, now: Timestamp) -> Option<String> {
        let clock = self.melting.as_ref()?;
        let language = self.language();
        let span =
            |time: SignedDuration| format!("{:#}", SignedDuration::from_secs(time.as_secs()));
        let (out, limit) = (span(clock.out(now)), span(clock.limit()));
        let (words, over) = match clock.stands(now) {
            Melt::Left(left) => {
                let left = span(left);
                (
                    say!(language, "portion-melting", out = out, left = left),
                    None,
                )
            }
            Melt::Over(over) => {
                let over = span(over);
                let words = say!(
                    language,
                    "portion-melting-over",
                    out = out.as_str(),
                    over = over.as_str()
                );
                let aside = say!(
                    language,
                    "portion-out-over",
                    out = out,
                    limit = limit,
                    over = over
                );
                (words, Some(aside.into_owned()))
            }
        };
        let is_over = over.is_some();
        if let Some(aside) = over
            && !self.said.melted
        {
            self.aside(&aside);
        }
        self.said.melted = is_over;
        Some(words.into_owned())
    }

    fn tell_link(&mut self, state: &LinkState) {
        let was = self.said.link.as_ref();
        let worth = match state {
            LinkState::Linked { .. } => was.is_some_and(|was| !was.is_linked()),
            LinkState::NoneChosen | LinkState::Calling { .. } | LinkState::ScenarioOver => false,
            // The first words about a port that is not there are the error.
            other => was.is_some() && was != Some(other),
        };
        if worth {
            self.aside(&instrument::link_and_remedy(self.language(), state));
        }
        let quiet = matches!(state, LinkState::NoneChosen | LinkState::Calling { .. });
        if !quiet && self.said.link.as_ref() != Some(state) {
            self.said.link = Some(state.clone());
        }
    }

    fn tell_resumed(&mut self, live: &LiveRun) {
        if self.said.resumed {
            return;
        }
        self.said.resumed = true;
        let before = live
            .portions()
            .iter()
            .filter(|portion| self.known.contains(&portion.id))
            .count();
        if before > 0 {
            let words = say!(
                self.language(),
                "portion-resumed",
                time = show_time(live.run.started, &self.zone),
                count = before.to_string()
            );
            self.aside(&words);
        }
    }

    fn tell_portions(&mut self, live: &LiveRun) -> Result<(), Failure> {
        let portions = live.portions();
        for portion in portions.iter().skip(self.said.portions) {
            if self.known.contains(&portion.id) {
                continue;
            }
            self.status.clear();
            if self.json {
                output::json(&PortionJson::of(portion))?;
            } else {
                output::line(&portion_words(
                    self.language(),
                    portion,
                    self.unit,
                    &self.zone,
                ))?;
            }
        }
        if self.said.portions != portions.len() {
            self.melting = melt_clock(&self.data.existing()?, live)?;
        }
        self.said.portions = portions.len();
        Ok(())
    }

    fn tell_notices(&mut self, bench: &LiveScale) {
        let unsaid = bench.notices_seen().saturating_sub(self.said.notices);
        let kept = bench.notices().count();
        let skip = kept.saturating_sub(usize::try_from(unsaid).unwrap_or(kept));
        for seen in bench.notices().skip(skip) {
            use evenhand_protocol::Notice;
            // What the portions themselves say is not said twice.
            let quiet = matches!(
                seen.notice,
                Notice::RunStarted(_) | Notice::RunStopped(_) | Notice::DishTared(_)
            );
            if !quiet {
                self.aside(&instrument::notice(self.language(), seen.notice, self.unit));
            }
        }
        self.said.notices = bench.notices_seen();
    }

    fn tell_troubles(&mut self, bench: &LiveScale) {
        let store = bench
            .store_trouble()
            .map(|trouble| instrument::trouble(self.language(), trouble));
        if store != self.said.store_trouble {
            match &store {
                Some(words) => self.aside(words),
                None => self.aside(&say!(self.language(), "portion-recorded-again")),
            }
            self.said.store_trouble = store;
        }
        let clock = bench
            .clock_trouble()
            .map(|trouble| instrument::trouble(self.language(), trouble));
        if clock != self.said.clock_trouble {
            if let Some(words) = &clock {
                self.aside(words);
            }
            self.said.clock_trouble = clock;
        }
    }

    fn tell_faults(&mut self, bench: &LiveScale) {
        let Some((_, reading)) = bench.last_reading() else {
            return;
        };
        let faults: Vec<_> = reading.faults.iter().collect();
        for fault in &faults {
            if !self.said.faults.contains(fault) {
                self.aside(&instrument::fault_and_remedy(self.language(), *fault));
            }
        }
        self.said.faults = faults;
    }

    const fn language(&self) -> Language {
        self.data.language
    }

    /// Something to know beside the portions.
    fn aside(&mut self, words: &str) {
        self.status.clear();
        eprintln!("{words}");
    }

    fn summary(&mut self, bench: &LiveScale) -> Result<(), Failure> {
        let Some(live) = bench.run() else {
            return Err(failed!("portion-no-run"));
        };
        let dish = live.run.dish.as_ref();
        let store = self.data.store()?;
        let failed_tests = FailedTest::all(&store.scale_findings()?);
        let spread = DoubtedSpread::of_portions(live.portions(), &failed_tests);
        let melt = melt(&store, live)?;
        self.status.clear();
        if self.json {
            output::json(&SummaryJson {
                summary: SummaryFields {
                    spread: DoubtedJson::of(dish, &spread),
                    run: live.run.id.0,
                    lost: bench.lost(),
                    melt,
                },
            })?;
        } else {
            output::line("")?;
            for line in doubted_lines(self.language(), dish, "", &spread, self.unit) {
                output::line(&line)?;
            }
            if let Some(melt) = melt {
                let span = |seconds| format!("{:#}", SignedDuration::from_secs(seconds));
                let (out, limit) = (span(melt.out_seconds), span(melt.limit_seconds));
                let language = self.language();
                output::line(&if melt.over_seconds > 0 {
                    let over = span(melt.over_seconds);
                    say!(
                        language,
                        "portion-out-over",
                        out = out,
                        limit = limit,
                        over = over
                    )
                } else {
                    say!(language, "portion-out", out = out, limit = limit)
                })?;
            }
        }
        if bench.lost() > 0 {
            let lost = bench.lost();
            self.aside(&say!(self.language(), "portion-lost", count = lost));
        }
        if bench.unsent() > 0 && bench.store_trouble().is_none() {
            let unsent = bench.unsent();
            self.aside(&say!(self.language(), "portion-unsent", count = unsent));
        }
        match (bench.store_trouble(), bench.unsent()) {
            (Some(trouble), 1..) => Err(Failure::Other(
                instrument::trouble(self.language(), trouble).into_owned(),
            )),
            _ => Ok(()),
        }
    }
}
