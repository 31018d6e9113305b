//! All of the instrument behind one state machine.
//!
//! It takes what drivers and the line bring in (conversions, temperatures,
//! faults, commands) and gives reports one by one, most urgent first, and the
//! lamps. Time comes in with every call; it never goes back.

use crate::calibrating::{Calibrator, Scale};
use crate::drivers::Tally;
use crate::health::Health;
use crate::outbox::{Outbox, Unnamed};
use crate::portion::{Draft, Event, Events, PortionSettings, Portioning};
use crate::recalling::Recaller;
use crate::remembered::Remembered;
use crate::sensor::{BridgeFault, Counts, ProbeFault, ProbeSample};
use crate::signal::{
    Between, Budget, Calibration, CellFigures, Chain, Placement, Settings, Tare, Weight,
};
use crate::signals::{Indication, Signaller, Signals};
use crate::thermocouple::Kind;
#[cfg(feature = "hash-chain")]
use evenhand_protocol::CapturedPortion;
#[cfg(feature = "calibration")]
use evenhand_protocol::StartReason;
use evenhand_protocol::fault::FaultSet;
use evenhand_protocol::report::{Capabilities, Doubts};
use evenhand_protocol::{
    Command, DeviceId, Envelope, Epoch, Fault, FrameError, Goal, Hello, Mass, Mode, Notice, Phase,
    ProbeType, Reading, Refusal, Report, RunId, Setting, Temperature, UnixMillis, Uptime, Verdict,
    Version,
};
use heapless::Deque;

/// A reading is sent at least so often.
const READING_MS: u64 = 100;
/// A run that is to end waits at most so long for food on the move to settle.
const STOP_MS: u64 = 1_500;
/// A load outside the range for less is a knock or a rebound: it blanks the
/// reading and is no fault yet.
const KNOCK_MS: u64 = 500;
/// A load that was not stable for so long will not come to rest by itself.
const RESTLESS_MS: u64 = 5_000;
/// It rests when it has been stable for so long.
const REST_MS: u64 = 200;
/// Answers kept until they can be sent. The desktop asks again what is not
/// answered.
const REPLIES: usize = 4;
/// The bit that numbers of runs begun without a desktop have.
const OWN_RUN: u32 = 1 << 31;
/// Notices and changes of faults kept until they can be sent.
const NEWS: usize = 16;

/// Older desktops are not told the verification interval.
const VERIFICATION_INTERVAL_SINCE: Version = Version { major: 1, minor: 3 };
/// Nor where a portion stands in the hash chain.
#[cfg(feature = "hash-chain")]
const CHAIN_LINK_SINCE: Version = Version { major: 1, minor: 5 };

/// What every instrument of this build can do.
const ALWAYS: Capabilities = if cfg!(feature = "hash-chain") {
    Capabilities::PORTIONS.union(Capabilities::HASH_CHAIN)
} else {
    Capabilities::PORTIONS
};

/// What makes one instrument.
#[derive(Debug, Clone)]
pub struct Setup {
    /// Which instrument it is.
    pub device: DeviceId,
    /// Which of its starts this is.
    pub epoch: Epoch,
    /// What kind of scale it is.
    pub settings: Settings,
    /// Its calibration; without one it does not weigh.
    pub calibration: Option<Calibration>,
    /// How finely it looks at portions.
    pub portion: PortionSettings,
    /// What it can do.
    pub capabilities: Capabilities,
    /// What it knew before the power went; [`Remembered::NOTHING`] without a
    /// memory.
    pub remembered: Remembered,
    /// What its load cell's data sheet says, for the uncertainty of portions.
    pub figures: CellFigures,
}

/// Something that is told once.
#[derive(Debug, Clone, Copy)]
enum News {
    Notice(Notice),
    Fault(Fault, bool),
}

/// A run of portions.
#[derive(Debug, Clone)]
struct Run {
    id: RunId,
    portioning: Portioning,
    /// It is to end when the load has settled, at this moment at the latest.
    ends: Option<Uptime>,
    /// When the load that the next portion differs from was weighed.
    since: Uptime,
    /// The dish that was tared last.
    dish: Mass,
    /// Portions captured in it, corrections apart.
    count: u32,
}

/// The instrument, without drivers and line. `PLACES` is how many
/// unacknowledged portions it keeps.
#[derive(Debug, Clone)]
// In this order the fields in use are in reach of short instructions: 388 bytes of the emulated
// board's image.
// In this order of fields: 420 bytes less of the emulated board's flash.
#[repr(C)]
pub struct Instrument<const PLACES: usize = 64> {
    device: DeviceId,
    epoch: Epoch,
    capabilities: Capabilities,
    portion: PortionSettings,
    tare: Tare,
    goal: Option<Goal>,
    weight: Option<Weight>,
    temperature: Option<Temperature>,
    faults: FaultSet,
    signaller: Signaller,
    /// Wall clock minus uptime, in milliseconds.
    wall: Option<i64>,
    last_command: Option<(u16, Command, Result<(), Refusal>)>,
    replies: Deque<(u16, Result<(), Refusal>), REPLIES>,
    hello_due: bool,
    /// The version that is spoken with the desktop.
    link: Version,
    news: Deque<(Uptime, News), NEWS>,
    /// Since when the load has been outside the range.
    out_since: Option<Uptime>,
    /// When the load was last at rest, and since when it has been stable.
    rested: Option<Uptime>,
    stable_since: Option<Uptime>,
    read_at: Option<Uptime>,
    shown: (Phase, Option<Verdict>, FaultSet),
    /// Where the zero was when the portion logic last heard of it.
    zero: Mass,
    changes: u32,
    figures: CellFigures,
    remembered: Remembered,
    calibrator: Calibrator,
    recaller: Recaller,
    health: Health,
    /// Whether a desktop's hello has come.
    #[cfg(feature = "hash-chain")]
    greeted: bool,
    run: Option<Run>,
    chain: Chain,
    outbox: Outbox<PLACES>,
}

impl<const PLACES: usize> Instrument<PLACES> {
    /// An instrument that has just started.
    #[must_use]
    // Out of line: 24 bytes less of the emulated board's flash.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub fn new(setup: Setup) -> Self {
        let uncalibrated = setup.calibration.is_none();
        let faults = FaultSet::EMPTY.with(Fault::Uncalibrated, uncalibrated);
        // The instrument has a budget of its own in the place of a fixed part.
        let portion = PortionSettings {
            base_uncertainty: Mass::ZERO,
            ..setup.portion
        };
        let mut remembered = setup.remembered;
        let goal = remembered
            .goal
            .and_then(|goal| goal.checked(setup.settings.capacity).ok());
        remembered.goal = goal;
        let run = remembered.run.zip(goal).map(|(id, goal)| Run {
            id,
            portioning: Portioning::resumed(remembered.mode, goal, portion),
            ends: None,
            since: Uptime::default(),
            dish: Mass::ZERO,
            count: 0,
        });
        remembered.run = run.as_ref().map(|run| run.id);
        let mut chain = Chain::new(setup.settings, setup.calibration);
        chain.set_place(setup.remembered.place);
        chain.begin_at_zero(setup.remembered.zero);
        Self {
            device: setup.device,
            epoch: setup.epoch,
            capabilities: setup.capabilities.union(ALWAYS),
            portion,
            zero: chain.zero_offset(),
            chain,
            tare: Tare::NONE,
            goal,
            weight: None,
            temperature: None,
            faults,
            run,
            outbox: Outbox::new(setup.device, setup.epoch),
            signaller: Signaller::new(),
            wall: None,
            last_command: None,
            replies: Deque::new(),
            hello_due: true,
            link: Version::UNTIL_HELLO,
            news: Deque::new(),
            out_since: None,
            rested: None,
            stable_since: None,
            read_at: None,
            shown: (Phase::Weighing, None, FaultSet::EMPTY),
            remembered,
            changes: 0,
            figures: setup.figures,
            calibrator: Calibrator::new(),
            recaller: Recaller::new(),
            health: Health::new(),
            #[cfg(feature = "hash-chain")]
            greeted: false,
        }
    }

    // ---- what comes in ------------------------------------------------------

    /// A conversion of the bridge came.
    // Out of line: 56 bytes less of the emulated board's flash.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub fn take_counts(&mut self, now: Uptime, counts: Counts) {
        self.bridge_fault(now, None);
        self.health.conversion(now, counts);
        let held = self
            .run
            .as_ref()
            .map_or(self.tare.mass() != Mass::ZERO, |run| {
                !run.portioning.zero_may_follow()
            });
        self.chain.hold_zero(held);
        match self.chain.take(now, counts) {
            Ok(weight) => {
                self.out_since = None;
                let wandered = self.chain.zero_is_out().then_some(Fault::ZeroOutOfRange);
                self.weighing_fault(now, wandered);
                self.follow_zero();
                self.weight = Some(weight);
                self.watch_rest(now, weight.stable);
                if let Some(run) = &mut self.run {
                    let events = run.portioning.take(&weight);
                    self.handle(now, &events);
                }
            }
            Err(fault) => {
                self.weight = None;
                let since = *self.out_since.get_or_insert(now);
                if fault == Fault::Uncalibrated || now.since(since) >= KNOCK_MS {
                    self.weighing_fault(now, Some(fault));
                    self.lose_sight(since);
                }
            }
        }
        self.end_run_if_due(now);
        self.show(now);
    }

    /// The bridge gave no conversion, for this reason.
    pub fn take_bridge_fault(&mut self, now: Uptime, fault: BridgeFault) {
        self.bridge_fault(now, Some(fault.fault()));
        self.health.bridge_fault(fault);
        self.chain.restart_filter();
        self.lose_sight(now);
        self.end_run_if_due(now);
        self.show(now);
    }

    /// The probe gave a temperature, or a reason why not. Weighing goes on
    /// either way.
    pub fn take_temperature(&mut self, now: Uptime, result: Result<ProbeSample, ProbeFault>) {
        const PROBE: [Fault; 5] = [
            Fault::ProbeOpen,
            Fault::ProbeShortToGround,
            Fault::ProbeShortToSupply,
            Fault::ProbeSilent,
            Fault::ProbeOutOfRange,
        ];
        self.temperature = result.as_ref().ok().map(|sample| sample.hot);
        match &result {
            Ok(sample) => self.take_box_temperature(Some(sample.cold)),
            Err(_) => self.health.probe_fault(),
        }
        let fault = result.err().map(ProbeFault::fault);
        self.only_fault_of(now, &PROBE, fault);
    }

    /// The probe's converter told its own temperature, and so that of the box
    /// and the cell in it; or cannot.
    pub fn take_box_temperature(&mut self, temperature: Option<Temperature>) {
        self.calibrator
            .take_box_temperature(temperature, &mut self.chain);
    }

    /// What the bridge's driver has counted.
    pub(crate) const fn take_tally(&mut self, tally: Tally) {
        self.health.tally(tally);
    }

    /// What the board knows of itself: why it started, and how much of its
    /// stack was never used, in bytes.
    #[cfg(feature = "calibration")]
    pub const fn take_board(&mut self, start: StartReason, stack_free: Option<u32>) {
        self.health.board(start, stack_free);
    }

    /// What the memory knows of itself: its pages, and how often one was erased.
    #[cfg(feature = "storage")]
    pub(crate) const fn take_flash(&mut self, pages: u16, erases: u32) {
        self.health.flash(pages, erases);
    }

    /// The bridge converter gives so many conversions a second. Another number
    /// than before makes the filter begin anew.
    pub fn converts_at(&mut self, now: Uptime, rate: u16) {
        let settings = *self.chain.settings();
        if settings.rate == rate {
            return;
        }
        let mut chain = Chain::new(
            Settings { rate, ..settings },
            self.chain.calibration().copied(),
        );
        chain.set_place(self.remembered.place);
        chain.begin_at_zero(self.remembered.zero);
        self.chain = chain;
        self.zero = self.chain.zero_offset();
        self.lose_sight(now);
    }

    /// A command that the drivers behind this instrument cannot carry out.
    #[cfg(feature = "calibration")]
    pub(crate) fn refuse(&mut self, sequence: u16) {
        self.reply(sequence, Err(Refusal::Unknown));
    }

    /// A command came.
    // Out of line: 164 bytes less of the emulated board's flash.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub fn take_command(&mut self, now: Uptime, envelope: Envelope<Command>) {
        let Envelope { sequence, message } = envelope;
        match message {
            Command::Hello { version, now: wall } => {
                // A frame of another major version is never decoded.
                self.link = Version::CURRENT
                    .shared_with(version)
                    .unwrap_or(Version::UNTIL_HELLO);
                #[cfg(feature = "hash-chain")]
                {
                    self.greeted = true;
                }
                self.set_wall(now, wall);
                self.hello_due = true;
                self.read_at = None;
                // Whoever calls begins its numbers anew and has seen nothing.
                self.last_command = None;
                self.outbox.send_all_again();
                return;
            }
            Command::Acknowledge(id) => {
                self.outbox.acknowledge(id);
                self.recaller.acknowledge(id);
                self.changed();
                if self.outbox.is_empty() {
                    self.set_fault(now, Fault::PortionsLost, false);
                }
                return;
            }
            _ => {}
        }
        let outcome = match self.last_command {
            Some((last, command, outcome)) if last == sequence && command == message => outcome,
            _ => self.carry_out(now, message),
        };
        self.last_command = Some((sequence, message, outcome));
        self.reply(sequence, outcome);
        self.show(now);
    }

    /// Something came over the line that was no command.
    pub fn take_frame_error(&mut self, _now: Uptime, error: FrameError) {
        match error {
            FrameError::UnknownMessage { sequence } => {
                self.reply(sequence, Err(Refusal::Unknown));
            }
            // Its own hello tells the other which version speaks here.
            FrameError::OtherVersion { .. } => self.hello_due = true,
            // Noise, or its own echo.
            _ => {}
        }
    }

    // ---- what goes out ------------------------------------------------------

    /// The next report to send, most urgent first: replies, hello, faults and
    /// notices, portions, the reading. `None` where there is nothing to say
    /// now.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub fn next_report(&mut self, now: Uptime) -> Option<Report> {
        self.end_run_if_due(now);
        if let Some((to, outcome)) = self.replies.pop_front() {
            return Some(Report::Reply { to, outcome });
        }
        if core::mem::take(&mut self.hello_due) {
            return Some(Report::Hello(self.hello(now)));
        }
        if let Some((at, news)) = self.news.pop_front() {
            return Some(match news {
                News::Notice(notice) => Report::Notice { at, notice },
                News::Fault(fault, present) => Report::Fault { at, fault, present },
            });
        }
        if let Some(report) = self.calibrator.report(now) {
            return Some(report);
        }
        if let Some(report) = self.health.report(now, &self.chain) {
            return Some(report);
        }
        let portion = self.outbox.next(now).or_else(|| self.recaller.next(now));
        if let Some(portion) = portion {
            #[cfg(feature = "hash-chain")]
            let portion = self.as_told(portion);
            return Some(Report::Portion(portion));
        }
        let reading = self.reading(now);
        let shown = (reading.phase, reading.verdict, reading.faults);
        let due = self
            .read_at
            .is_none_or(|at| now.since(at) >= READING_MS || shown != self.shown);
        due.then(|| {
            self.read_at = Some(now);
            self.shown = shown;
            Report::Reading(reading)
        })
    }

    /// A portion as the desktop takes it. One that has not called yet is told
    /// the link: without it the portion would be recorded without it for good.
    #[cfg(feature = "hash-chain")]
    fn as_told(&self, portion: CapturedPortion) -> CapturedPortion {
        let told = !self.greeted || self.link >= CHAIN_LINK_SINCE;
        CapturedPortion {
            chain_link: portion.chain_link.filter(|_| told),
            ..portion
        }
    }

    /// The state of the bench now.
    #[must_use]
    pub fn reading(&self, now: Uptime) -> Reading {
        let (amount, verdict) = self.amount();
        let weight = self.weight.as_ref();
        Reading {
            at: now,
            gross: weight.map(|weight| weight.gross),
            tare: self
                .run
                .as_ref()
                .map_or(self.tare.mass(), |run| match run.portioning.mode() {
                    Mode::Adding => run.portioning.dish(),
                    Mode::Taking => self.tare.mass(),
                }),
            stable: weight.is_some_and(|weight| weight.stable),
            amount,
            verdict,
            phase: self.phase(),
            run: self.run.as_ref().map(|run| run.id),
            temperature: self.temperature,
            faults: self.faults,
            unsent: u16::try_from(self.outbox.len()).unwrap_or(u16::MAX),
            lost: self.outbox.lost(),
        }
    }

    /// What the instrument says of itself.
    #[must_use]
    pub fn hello(&self, now: Uptime) -> Hello {
        let settings = self.chain.settings();
        Hello {
            version: Version::CURRENT,
            device: self.device,
            epoch: self.epoch,
            at: now,
            capabilities: self.capabilities,
            capacity: settings.capacity,
            interval: settings.interval,
            outbox: u16::try_from(PLACES).unwrap_or(u16::MAX),
            // A desktop of 1.2 refuses a hello with a field that it does not know.
            verification_interval: (self.link >= VERIFICATION_INTERVAL_SINCE)
                .then_some(settings.verification_interval),
        }
    }

    /// Lamps and buzzer at this moment.
    #[must_use]
    pub fn signals(&self, now: Uptime) -> Signals {
        self.signaller.signals(now)
    }

    /// The faults that hold.
    #[must_use]
    pub const fn faults(&self) -> FaultSet {
        self.faults
    }

    /// The signal chain, for a calibration.
    #[must_use]
    pub const fn chain(&self) -> &Chain {
        &self.chain
    }

    /// The portions that wait to be acknowledged.
    #[must_use]
    pub const fn outbox(&self) -> &Outbox<PLACES> {
        &self.outbox
    }

    /// The same, to give it back what was kept over a power cut.
    pub const fn outbox_mut(&mut self) -> &mut Outbox<PLACES> {
        &mut self.outbox
    }

    /// Portions captured in the run going on, corrections apart.
    #[must_use]
    pub fn portions_in_run(&self) -> u32 {
        self.run.as_ref().map_or(0, |run| run.count)
    }

    /// Goes up with every change of what is to outlive a power cut; wraps.
    #[must_use]
    pub const fn changes(&self) -> u32 {
        self.changes
    }

    /// What is to be known again after a power cut, besides the calibration,
    /// the clock and the portions.
    #[must_use]
    pub const fn remembered(&self) -> Remembered {
        self.remembered
    }

    /// The wall's clock minus the uptime, in milliseconds, and the start to
    /// which that belongs; `None` until somebody told the time.
    #[must_use]
    pub fn clock(&self) -> Option<(Epoch, i64)> {
        self.wall.map(|wall| (self.epoch, wall))
    }

    /// A memory keeps acknowledged portions, which can be sent again.
    #[cfg(feature = "storage")]
    pub(crate) const fn keeps_acknowledged(&mut self) {
        self.recaller.has_memory();
    }

    /// After which number the next acknowledged portion is wanted from the
    /// memory, where one is.
    #[cfg(feature = "storage")]
    pub(crate) const fn recalls_after(&self) -> Option<Option<u32>> {
        self.recaller.wanted()
    }

    /// The next acknowledged portion from the memory, with its number; `None`
    /// where there is none left.
    #[cfg(feature = "storage")]
    pub(crate) fn recall_next(&mut self, now: Uptime, next: Option<(u32, CapturedPortion)>) {
        if let Some(count) = self.recaller.take(next) {
            self.notice(now, Notice::Recalled(count));
        }
    }

    /// Weighs by another calibration from now on.
    pub fn set_calibration(&mut self, now: Uptime, calibration: Calibration) {
        self.chain.set_calibration(calibration);
        self.follow_zero();
        self.changed();
        self.lose_sight(now);
        self.set_fault(now, Fault::Uncalibrated, false);
    }

    /// The stored settings could, or could not, be read or written.
    pub fn storage_failed(&mut self, now: Uptime, failed: bool) {
        self.set_fault(now, Fault::StorageFailed, failed);
    }

    // ---- without a desktop --------------------------------------------------

    /// Whether the run going on was begun by a desktop.
    fn is_anothers_run(&self) -> bool {
        self.run.as_ref().is_some_and(|run| run.id.0 & OWN_RUN == 0)
    }

    /// Sets the goal, unless a desktop's run goes on or it is senseless.
    /// Returns whether it did.
    pub fn set_own_goal(&mut self, now: Uptime, goal: Goal) -> bool {
        let Ok(goal) = self.check(goal) else {
            return false;
        };
        if self.is_anothers_run() {
            return false;
        }
        self.set_goal(goal);
        if let Some(run) = &mut self.run {
            run.portioning.set_goal(goal);
        }
        self.show(now);
        true
    }

    /// Sets how the next run of one's own is made; not within a run. Returns
    /// whether it did.
    pub const fn set_own_mode(&mut self, mode: Mode) -> bool {
        if self.run.is_some() {
            return false;
        }
        self.remembered.mode = mode;
        self.changed();
        true
    }

    /// Begins a run without a desktop; not within one. Its number has the top
    /// bit set, which no desktop's has, and is made of the device's and of how
    /// many there were before. Returns whether it did.
    pub fn start_own_run(&mut self, now: Uptime, goal: Goal) -> bool {
        if self.run.is_some() || !self.set_own_goal(now, goal) {
            return false;
        }
        self.remembered.own_runs = self.remembered.own_runs.wrapping_add(1);
        let device = (self.device.0 ^ self.device.0 >> 32) as u32;
        let id = OWN_RUN | (device << 12 & 0x7FFF_F000) | (self.remembered.own_runs & 0xFFF);
        self.start_run(now, RunId(id), self.remembered.mode, goal);
        self.show(now);
        true
    }

    /// Ends the run that goes on, whoever began it.
    pub fn end_own_run(&mut self, now: Uptime) {
        self.end_run(now);
        self.show(now);
    }

    /// Makes the sound that says: look here.
    pub fn attention(&mut self, now: Uptime) {
        self.signaller.attention(now);
    }

    // ---- inside -------------------------------------------------------------

    // Out of line: 148 bytes less of the emulated board's flash.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn carry_out(&mut self, now: Uptime, command: Command) -> Result<(), Refusal> {
        match command {
            // Answered otherwise, before this.
            Command::Hello { .. } | Command::Acknowledge(_) => Ok(()),
            Command::Tare => self.take_tare(),
            Command::ClearTare => {
                self.tare.clear();
                Ok(())
            }
            Command::Zero => self.set_zero(now),
            Command::SetGoal(goal) => {
                let goal = self.check(goal)?;
                self.set_goal(goal);
                if let Some(run) = &mut self.run {
                    run.portioning.set_goal(goal);
                }
                Ok(())
            }
            Command::StartRun { run, mode, goal } => {
                let goal = self.check(goal)?;
                self.set_goal(goal);
                self.start_run(now, run, mode, goal);
                Ok(())
            }
            Command::StopRun => {
                let run = self.run.as_mut().ok_or(Refusal::NoRun)?;
                if run.portioning.unsettled() && self.weight.is_some() {
                    run.ends.get_or_insert(now.plus_millis(STOP_MS));
                } else {
                    self.end_run(now);
                }
                Ok(())
            }
            Command::SetTime(wall) => {
                self.set_wall(now, wall);
                Ok(())
            }
            Command::Set(setting) => self.set(setting),
            #[cfg(feature = "calibration")]
            Command::Diagnose => self.health.ask(),
            #[cfg(feature = "storage")]
            Command::Recall if self.run.is_some() => Err(Refusal::Running),
            #[cfg(feature = "storage")]
            Command::Recall => self.recaller.begin(),
            // The calibration's, or of a later version.
            other => {
                let scale = Scale {
                    chain: &self.chain,
                    figures: &self.figures,
                    weight: self.weight,
                    goal: self.goal.as_ref(),
                    place: self.remembered.place,
                    in_run: self.run.is_some(),
                };
                if let Some(calibration) = self.calibrator.carry_out(now, other, scale)? {
                    self.set_calibration(now, calibration);
                }
                Ok(())
            }
        }
    }

    fn set(&mut self, setting: Setting) -> Result<(), Refusal> {
        match setting {
            // The drivers are not asked there.
            Setting::Probe(_) if !cfg!(feature = "calibration") => return Err(Refusal::Unknown),
            Setting::Probe(kind) => self
                .remembered
                .set_probe(kind_of(kind).ok_or(Refusal::Unknown)?),
            place => {
                self.remembered.place = Calibrator::place_of(place)?;
                self.chain.set_place(self.remembered.place);
            }
        }
        self.changed();
        Ok(())
    }

    fn check(&self, goal: Goal) -> Result<Goal, Refusal> {
        goal.checked(self.chain.settings().capacity)
            .map_err(Refusal::Goal)
    }

    fn take_tare(&mut self) -> Result<(), Refusal> {
        let weight = self.weight.ok_or(Refusal::Faulty)?;
        match &mut self.run {
            Some(run) => {
                if !weight.stable {
                    return Err(Refusal::NotStable);
                }
                if run.portioning.tare(&weight) {
                    Ok(())
                } else {
                    Err(Refusal::NegativeTare)
                }
            }
            None => self.tare.set(&weight),
        }
    }

    fn set_zero(&mut self, now: Uptime) -> Result<(), Refusal> {
        let weight = self.weight.as_mut().ok_or(Refusal::Faulty)?;
        self.chain.zero()?;
        weight.gross = Mass::ZERO;
        self.tare.clear();
        self.follow_zero();
        self.notice(now, Notice::Zeroed);
        Ok(())
    }

    /// The portion logic and the memory hear where the zero went.
    fn follow_zero(&mut self) {
        let zero = self.chain.zero_offset();
        let shift = zero - self.zero;
        if shift == Mass::ZERO {
            return;
        }
        self.zero = zero;
        if let Some(run) = &mut self.run {
            run.portioning.zeroed(shift);
        }
        // A zero that creeps is worth a place in memory once in an interval.
        if (zero - self.remembered.zero).abs() >= self.chain.settings().interval {
            self.remembered.zero = zero;
            self.changed();
        }
    }

    const fn changed(&mut self) {
        self.changes = self.changes.wrapping_add(1);
    }

    const fn set_goal(&mut self, goal: Goal) {
        self.goal = Some(goal);
        self.remembered.goal = Some(goal);
        self.changed();
    }

    fn set_wall(&mut self, now: Uptime, wall: UnixMillis) {
        let uptime = i64::try_from(now.millis()).unwrap_or(i64::MAX);
        self.wall = wall.millis().checked_sub(uptime);
        if let Some(wall) = self.wall {
            self.outbox.date(self.epoch, wall);
        }
        self.changed();
    }

    fn unix(&self, at: Uptime) -> Option<UnixMillis> {
        let uptime = i64::try_from(at.millis()).ok()?;
        self.wall?.checked_add(uptime).map(UnixMillis::from_millis)
    }

    fn start_run(&mut self, now: Uptime, id: RunId, mode: Mode, goal: Goal) {
        if let Some(run) = &mut self.run
            && run.id == id
            && run.portioning.mode() == mode
        {
            run.ends = None;
            run.portioning.set_goal(goal);
            return;
        }
        self.end_run(now);
        self.calibrator.give_up();
        self.recaller.give_up();
        self.run = Some(Run {
            id,
            portioning: Portioning::new(mode, goal, self.portion),
            ends: None,
            since: now,
            dish: Mass::ZERO,
            count: 0,
        });
        self.remembered.run = Some(id);
        self.remembered.mode = mode;
        self.changed();
        self.notice(now, Notice::RunStarted(id));
    }

    fn end_run_if_due(&mut self, now: Uptime) {
        let due = self.run.as_ref().is_some_and(|run| {
            run.ends
                .is_some_and(|ends| now >= ends || !run.portioning.unsettled())
        });
        if due {
            self.end_run(now);
        }
    }

    fn end_run(&mut self, now: Uptime) {
        let Some(run) = &mut self.run else {
            return;
        };
        let id = run.id;
        let events = run.portioning.finish(now);
        self.handle(now, &events);
        self.run = None;
        self.remembered.run = None;
        self.changed();
        self.notice(now, Notice::RunStopped(id));
    }

    /// Keeps and tells what the portion logic has found.
    fn handle(&mut self, now: Uptime, events: &Events) {
        for event in events {
            match *event {
                Event::Notice(notice) => self.notice(now, notice),
                Event::Portion(draft) => self.capture(now, draft),
            }
        }
    }

    fn capture(&mut self, now: Uptime, draft: Draft) {
        let unix = self.unix(draft.at);
        let Some(run) = &mut self.run else {
            return;
        };
        let goal = run.portioning.goal();
        let uncertainty = self.chain.calibration().map_or(draft.uncertainty, |known| {
            uncertainty(&draft, run, known, &self.figures)
        });
        run.since = draft.at;
        let straddles =
            goal.judge(draft.mass - uncertainty) != goal.judge(draft.mass + uncertainty);
        let doubts = if straddles {
            draft.doubts.union(Doubts::STRADDLES_LIMIT)
        } else {
            draft.doubts
        };
        let number = self.outbox.keep(Unnamed {
            run: run.id,
            at: draft.at,
            unix,
            mode: run.portioning.mode(),
            mass: draft.mass,
            goal,
            temperature: self.temperature,
            replaces: draft.replaces,
            doubts,
            uncertainty: Some(uncertainty),
            left: draft.left,
        });
        run.portioning.numbered(number);
        run.count = run.count.saturating_add(draft.replaces.is_none().into());
        self.changed();
        #[cfg(feature = "defmt")]
        defmt::info!("captured {} ug as {}", draft.mass.micrograms(), number);
        if number.is_none() {
            self.set_fault(now, Fault::PortionsLost, true);
            self.signaller.attention(now);
        } else if draft.doubts.contains(Doubts::MAYBE_TWO) {
            self.signaller.attention(now);
        } else {
            self.signaller.captured(now, goal.judge(draft.mass));
        }
    }

    fn notice(&mut self, now: Uptime, notice: Notice) {
        if let Some(run) = &mut self.run {
            match notice {
                Notice::DishTared(dish) => (run.since, run.dish) = (now, dish),
                Notice::Refilled(_) | Notice::TinBack(_) | Notice::DishReturned(_) => {
                    run.since = now;
                }
                _ => {}
            }
        }
        if matches!(
            notice,
            Notice::LiftedUnsettled
                | Notice::Unaccounted(_)
                | Notice::FoundOnPan(_)
                | Notice::FilledWhileTaken(_)
        ) {
            self.signaller.attention(now);
        }
        self.tell(now, News::Notice(notice));
    }

    /// Queues something to be told once. The oldest goes when there is no
    /// place; what a fault is now is in every reading all the same.
    fn tell(&mut self, at: Uptime, news: News) {
        if self.news.is_full() {
            self.news.pop_front();
        }
        let kept = self.news.push_back((at, news));
        debug_assert!(kept.is_ok(), "a place was made");
    }

    fn reply(&mut self, to: u16, outcome: Result<(), Refusal>) {
        if self.replies.is_full() {
            self.replies.pop_front();
        }
        let kept = self.replies.push_back((to, outcome));
        debug_assert!(kept.is_ok(), "a place was made");
    }

    /// Weighing stopped.
    fn lose_sight(&mut self, now: Uptime) {
        self.weight = None;
        self.rested = None;
        if let Some(run) = &mut self.run {
            run.portioning.interrupted(now);
        }
    }

    fn bridge_fault(&mut self, now: Uptime, fault: Option<Fault>) {
        const BRIDGE: [Fault; 5] = [
            Fault::BridgeTimeout,
            Fault::BridgeHighRail,
            Fault::BridgeLowRail,
            Fault::BridgeFrozen,
            Fault::BridgeOutOfStep,
        ];
        self.only_fault_of(now, &BRIDGE, fault);
    }

    /// Says when nothing can be counted, because the load or the scale itself
    /// does not come to rest.
    fn watch_rest(&mut self, now: Uptime, stable: bool) {
        if !stable {
            self.stable_since = None;
        }
        let stable_since = *self.stable_since.get_or_insert(now);
        if self.rested.is_none() || stable && now.since(stable_since) >= REST_MS {
            self.rested = Some(now);
        }
        let noisy = self.chain.is_too_noisy();
        let restless = self
            .rested
            .is_some_and(|rested| now.since(rested) >= RESTLESS_MS);
        self.set_fault(now, Fault::TooNoisy, noisy && restless);
        self.set_fault(now, Fault::Restless, restless && !noisy);
    }

    fn weighing_fault(&mut self, now: Uptime, fault: Option<Fault>) {
        const WEIGHING: [Fault; 4] = [
            Fault::Overload,
            Fault::NegativeLoad,
            Fault::ZeroOutOfRange,
            Fault::Uncalibrated,
        ];
        self.only_fault_of(now, &WEIGHING, fault);
    }

    /// Of a group of faults that exclude each other, this one holds now.
    fn only_fault_of(&mut self, now: Uptime, group: &[Fault], fault: Option<Fault>) {
        for one in group {
            self.set_fault(now, *one, fault == Some(*one));
        }
    }

    fn set_fault(&mut self, now: Uptime, fault: Fault, present: bool) {
        if self.faults.contains(fault) == present {
            return;
        }
        #[cfg(feature = "defmt")]
        defmt::warn!("fault {} present {}", fault, present);
        self.faults = self.faults.with(fault, present);
        self.tell(now, News::Fault(fault, present));
    }

    fn blocked(&self) -> bool {
        self.weight.is_none()
            && (self.faults.stops_weighing() || self.faults.contains(Fault::NegativeLoad))
    }

    fn phase(&self) -> Phase {
        match &self.run {
            _ if self.blocked() => Phase::Blocked,
            Some(run) => run.portioning.phase(),
            None => Phase::Weighing,
        }
    }

    /// Food in the portion being made and the verdict on it. Outside a run
    /// that is what is on the pan without the tare, once there are both a tare
    /// and a goal.
    fn amount(&self) -> (Option<Mass>, Option<Verdict>) {
        let (amount, goal) = match (&self.run, &self.weight) {
            (_, None) => (None, None),
            (Some(run), Some(_)) => (run.portioning.amount(), Some(run.portioning.goal())),
            (None, Some(weight)) => (
                (self.tare.mass() != Mass::ZERO && self.goal.is_some())
                    .then(|| self.tare.net(weight.gross)),
                self.goal,
            ),
        };
        let verdict = goal.and_then(|goal| amount.map(|amount| goal.judge(amount)));
        (amount, verdict)
    }

    /// Brings the lamps up to date.
    fn show(&mut self, now: Uptime) {
        let steady = self.weight.as_ref().is_some_and(|weight| weight.stable);
        let indication = match self.amount().1 {
            _ if self.blocked() => Indication::Blocked,
            Some(verdict) => Indication::Live(verdict, steady),
            None => Indication::Dark,
        };
        self.signaller.show(now, indication);
    }
}

/// Expanded uncertainty (coverage factor 2) of a portion, by its budget: the
/// difference of two loads. A draft brings the part from noise.
fn uncertainty(draft: &Draft, run: &Run, calibration: &Calibration, figures: &CellFigures) -> Mass {
    let (first, second) = match (run.portioning.mode(), draft.left) {
        (Mode::Taking, Some(left)) => (left + draft.mass, left),
        _ => (run.dish, run.dish + draft.mass),
    };
    let weight = |gross, at| Weight {
        at,
        gross,
        stable: true,
        noise: Mass::ZERO,
        calm: true,
    };
    // A tin or a dish that was away stands elsewhere on the pan.
    let moved = draft.doubts.contains(Doubts::TAKEN_OFF_PAN)
        || (run.portioning.mode() == Mode::Adding && draft.replaces.is_some());
    let placement = match run.portioning.mode() {
        _ if moved => Placement::Moved,
        Mode::Taking => Placement::Pushed,
        Mode::Adding => Placement::Stayed,
    };
    let between = Between {
        placement,
        pressed: draft.pressed,
    };
    Budget {
        noise: draft.uncertainty.fraction(1, 2).unwrap_or(Mass::MAX),
        ..Budget::of_difference(
            &weight(first, run.since),
            &weight(second, draft.at),
            between,
            calibration,
            figures,
        )
    }
    .expanded()
}

/// `None` for a type of a later version.
pub(crate) const fn kind_of(probe: ProbeType) -> Option<Kind> {
    Some(match probe {
        ProbeType::K => Kind::K,
        ProbeType::T => Kind::T,
        ProbeType::J => Kind::J,
        ProbeType::N => Kind::N,
        ProbeType::E => Kind::E,
        ProbeType::S => Kind::S,
        ProbeType::R => Kind::R,
        ProbeType::B => Kind::B,
        _ => return None,
    })
}
