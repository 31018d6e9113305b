//! `evenhand heat watch`.

use super::super::place::{PlaceArguments, scenario};
use super::super::portion::{LOOK_EVERY, give_up, interrupts, link_failure, speed, wake_up};
use super::super::{Data, Failure, output};
use super::check::{alarm, outlook_json};
use super::forecast::forecast_json;
use super::limits::in_force;
use super::log::words;
use crate::words::{bad_input, failed, say};
use clap::Args;
use crossbeam_channel::Receiver;
use evenhand_kitchen::heat::{Alarm, Kept, LogName, Marker, Sampling};
use evenhand_kitchen::limits::{CAUTION, Limits};
use evenhand_kitchen::moment::show_time_to_the_second;
use evenhand_link::live::{LinkState, LiveScale};
use evenhand_link::{Dial, Endpoint, Link, Pace, SimulatedDial};
use evenhand_protocol::Temperature;
use evenhand_store::Store;
use evenhand_use_cases::heat::{
    HeatNow, Recorder, follow, forecast_words, limit_record_words, outlook_words, probes,
    record_words,
};
use evenhand_use_cases::limits::{caution, source_words};
use evenhand_words::Language;
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp};
use serde_json::json;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::time::{Duration, Instant};

/// How often to work out where a log is going.
const AHEAD_EVERY: SignedDuration = SignedDuration::from_mins(1);
/// How long a probe that is not heard of is waited for before it counts as
/// silent, on this computer's clock.
const SILENT: Duration = Duration::from_secs(3);

#[derive(Debug, Args)]
pub(crate) struct WatchArguments {
    /// The log to record into; once more for each further probe of the instrument.
    #[arg(long, value_name = "NAME", required = true)]
    name: Vec<String>,
    #[command(flatten)]
    place: PlaceArguments,
    /// A word at the beginning: "fire out".
    #[arg(long, value_name = "TEXT")]
    marker: Option<String>,
    /// End after so long by the log's own clock: "20 min"; else at Ctrl-C.
    #[arg(long = "for", value_name = "TIME", allow_hyphen_values = true)]
    lasting: Option<String>,
    /// How fast the simulated bench runs, in its seconds a second; with --for as fast as it can if
    /// not said.
    #[arg(
        long,
        value_name = "X",
        requires = "simulated",
        allow_hyphen_values = true
    )]
    speed: Option<String>,
    /// One JSON object a line: each reading kept, and where the log is going.
    #[arg(long)]
    json: bool,
}

pub(super) fn run(data: &Data, arguments: &WatchArguments) -> Result<(), Failure> {
    let names = arguments
        .name
        .iter()
        .map(|name| LogName::new("--name", name))
        .collect::<Result<Vec<_>, _>>()?;
    for (place, name) in names.iter().enumerate() {
        if names[..place].iter().any(|other| other.key() == name.key()) {
            return Err(bad_input!("heat-name-twice", name = name.as_str()));
        }
    }
    let marker = arguments
        .marker
        .as_deref()
        .map(|text| words("--marker", text))
        .transpose()?;
    let lasting = match &arguments.lasting {
        None => None,
        Some(text) => match text.trim().parse::<SignedDuration>() {
            Ok(lasting) if lasting.is_positive() => Some(lasting),
            _ => {
                return Err(bad_input!("heat-no-length-for", text = format!("{text:?}")));
            }
        },
    };
    let pace = match (&arguments.speed, lasting) {
        (Some(text), _) => speed("--speed", text)?,
        (None, Some(_)) => Pace::Unbounded,
        // Without an end it would run away.
        (None, None) => Pace::REAL,
    };
    let place = arguments
        .place
        .place(|| scenario("--scenario", "saltmarsh-parfait"))?
        .ok_or_else(|| bad_input!("heat-place-needed"))?;
    let data = &data.of_scale(&place);
    data.tell_simulated()?;
    let limits = in_force(data)?;
    let (wake, woken) = crossbeam_channel::bounded(1);
    let interrupts = interrupts(wake.clone())?;
    let mut watching = Watching {
        store: data.store()?,
        names,
        recorders: Vec::new(),
        limits,
        marker,
        lasting,
        json: arguments.json,
        language: data.language,
        zone: TimeZone::system(),
        begun: None,
        last: None,
        ahead: None,
        said: Vec::new(),
        trouble: None,
    };
    let dial: Box<dyn Dial> = match place {
        Endpoint::Simulated { scenario, seed } => {
            let dial = SimulatedDial::new(*scenario, seed, pace);
            match lasting.and_then(|lasting| Duration::try_from(lasting).ok()) {
                Some(lasting) => Box::new(dial.lasting(lasting)),
                None => Box::new(dial),
            }
        }
        port @ Endpoint::Port(_) => port.dial(pace),
    };
    let link = Link::open(dial, data.store()?, None, move || wake_up(&wake)).map_err(|error| {
        let why = error.to_string();
        failed!("heat-no-link", why = why)
    })?;
    let outcome = watching.follow(&link, &woken, &interrupts);
    link.close();
    let closed = watching.close();
    outcome.and(closed)
}

struct Watching {
    store: Store,
    names: Vec<LogName>,
    recorders: Vec<Recorder>,
    limits: Limits,
    marker: Option<String>,
    lasting: Option<SignedDuration>,
    json: bool,
    language: Language,
    zone: TimeZone,
    begun: Option<Timestamp>,
    /// The moment of the last reading taken in, and when that was here.
    last: Option<(Timestamp, Instant)>,
    /// When it was last worked out where the logs are going.
    ahead: Option<Timestamp>,
    /// What was said of each log last: the loudest alarm and the words.
    said: Vec<Option<(Alarm, String)>>,
    /// Which log is not recorded, and why.
    trouble: Option<(String, String)>,
}

impl Watching {
    fn follow(
        &mut self,
        link: &Link,
        woken: &Receiver<()>,
        interrupts: &AtomicUsize,
    ) -> Result<(), Failure> {
        let began = Instant::now();
        let mut was_linked = false;
        loop {
            let _ = woken.recv_timeout(LOOK_EVERY);
            let bench = link.live();
            was_linked |= bench.link().is_linked();
            self.look(&bench)?;
            let over = match (self.lasting, self.begun, self.last) {
                (Some(lasting), Some(begun), Some((last, _))) => {
                    last.duration_since(begun) >= lasting
                }
                _ => false,
            };
            if over
                || interrupts.load(Ordering::Relaxed) > 0
                || *bench.link() == LinkState::ScenarioOver
            {
                return Ok(());
            }
            if !link.is_running() {
                return Err(failed!("heat-link-broke"));
            }
            if !was_linked {
                give_up(bench.link(), began)?;
            } else if bench.link().is_final() {
                return Err(link_failure(bench.link()));
            }
        }
    }

    fn look(&mut self, bench: &LiveScale) -> Result<(), Failure> {
        let (Some((_, reading)), Some(at)) = (bench.last_reading(), bench.last_reading_at()) else {
            return Ok(());
        };
        if self.last.is_some_and(|(last, _)| last == at) {
            // Nothing new: after a while that is a silence, on this computer's own clock.
            let silent = self
                .last
                .is_some_and(|(_, here)| here.elapsed() > SILENT && !bench.link().is_linked());
            if silent {
                let none = vec![None; self.names.len()];
                self.take(Timestamp::now(), &none)?;
            }
            return Ok(());
        }
        let read = probes(reading);
        if read.len() < self.names.len() {
            return Err(bad_input!(
                "heat-probes",
                names = self.names.len(),
                probes = read.len()
            ));
        }
        self.last = Some((at, Instant::now()));
        if self.begun.is_none() {
            self.begin(at)?;
        }
        self.take(at, &read)?;
        if self
            .ahead
            .is_none_or(|ahead| at.duration_since(ahead) >= AHEAD_EVERY)
        {
            self.ahead = Some(at);
            self.tell_ahead(at)?;
        }
        Ok(())
    }

    fn begin(&mut self, at: Timestamp) -> Result<(), Failure> {
        self.begun = Some(at);
        for name in &self.names {
            let recorder = Recorder::open(&mut self.store, name.clone(), Sampling::KITCHEN, at)?;
            if let Some(text) = &self.marker {
                let marker = Marker {
                    at,
                    text: text.clone(),
                };
                self.store.mark_heat(name, &marker, at)?;
            }
            self.recorders.push(recorder);
            self.said.push(None);
        }
        Ok(())
    }

    fn take(&mut self, at: Timestamp, read: &[Option<Temperature>]) -> Result<(), Failure> {
        let mut kept = Vec::new();
        let mut trouble = None;
        for (recorder, temperature) in self.recorders.iter_mut().zip(read) {
            match recorder.take(&mut self.store, at, *temperature) {
                Ok(readings) => {
                    kept.extend(readings.into_iter().map(|k| (recorder.name().clone(), k)));
                }
                // Said once; the record goes on when it can.
                Err(error) => {
                    let why = Failure::from(error).in_words(self.language);
                    trouble = Some((recorder.name().to_string(), why));
                }
            }
        }
        if trouble != self.trouble {
            match &trouble {
                Some((name, why)) => eprintln!(
                    "{}",
                    say!(
                        self.language,
                        "heat-not-recorded",
                        name = name.as_str(),
                        why = why.as_str()
                    )
                ),
                None => eprintln!("{}", say!(self.language, "heat-recorded-again")),
            }
            self.trouble = trouble;
        }
        for (name, kept) in kept {
            self.tell(&name, kept)?;
        }
        Ok(())
    }

    fn tell(&self, name: &LogName, kept: Kept) -> Result<(), Failure> {
        if self.json {
            return output::json(&json!({
                "name": name.as_str(),
                "time": kept.point.at,
                "celsius": kept.point.temperature.celsius(),
                "after_gap": kept.after_gap,
            }));
        }
        let celsius = kept.point.temperature.celsius();
        let celsius = self.language.figure(format!("{celsius:.1}"));
        let name = name.as_str();
        let words = if kept.after_gap {
            say!(
                self.language,
                "heat-kept-after-gap",
                name = name,
                celsius = celsius
            )
        } else {
            say!(self.language, "heat-kept", name = name, celsius = celsius)
        };
        let time = show_time_to_the_second(kept.point.at, &self.zone);
        output::line(&format!("{time}  {words}"))
    }

    /// Says where each log is going, where that differs from what was said.
    fn tell_ahead(&mut self, at: Timestamp) -> Result<(), Failure> {
        for (place, name) in self.names.iter().enumerate() {
            let now = HeatNow::of(&self.store, name, Some(&self.limits), at)?;
            let records = follow(&mut self.store, name, &now, at)?;
            let (loudest, mut lines) = (
                now.limit
                    .iter()
                    .flat_map(|(_, all)| all)
                    .map(|o| o.alarm)
                    .max()
                    .unwrap_or(Alarm::Quiet),
                Vec::new(),
            );
            if let Some((limit, all)) = &now.limit {
                for one in all {
                    lines.push(format!(
                        "{:8} {}",
                        alarm(self.language, one.alarm),
                        outlook_words(self.language, one)
                    ));
                }
                if all.iter().any(|one| one.expected.is_some()) {
                    lines.push(limit_record_words(self.language, records.limits));
                }
                if loudest > Alarm::Quiet {
                    lines.push(
                        say!(
                            self.language,
                            "heat-limit-from",
                            source = source_words(self.language, &limit.source),
                            caution = caution(self.language)
                        )
                        .into_owned(),
                    );
                }
            }
            let band = now.aim.as_ref().and_then(|aim| aim.band().ok().flatten());
            if let (Some(answer), Some(band)) = (now.forecast, band) {
                let here = now.log.points().last().map(|p| p.temperature);
                lines.extend(forecast_words(
                    self.language,
                    answer,
                    band,
                    here,
                    &self.zone,
                ));
                lines.push(record_words(self.language, records.bands));
            }
            let Some(said) = self.said.get_mut(place) else {
                continue;
            };
            let all = lines.join("\n");
            // Minutes that tick by are no news; a louder or quieter alarm is, and any change
            // where something must be done.
            let news = match said {
                None => !all.is_empty(),
                Some((before, words)) => {
                    *before != loudest || (*words != all && loudest >= Alarm::Act)
                }
            };
            let band_news =
                now.forecast.is_some() && said.as_ref().is_none_or(|(_, words)| *words != all);
            if !news && !band_news {
                continue;
            }
            *said = Some((loudest, all));
            if self.json {
                output::json(&json!({
                    "name": name.as_str(),
                    "time": at,
                    "alarm": loudest,
                    "outlook": now.limit.as_ref().map(|(limit, all)| json!({
                        "limit": limit.name,
                        "limit_source": limit.source.to_string(),
                        "ahead": all.iter().map(outlook_json).collect::<Vec<_>>(),
                        "caution": CAUTION,
                    })),
                    "forecast": now.forecast.map(|f| forecast_json(f, now.habit.mornings(), records.bands)),
                }))?;
            } else {
                for line in lines {
                    output::line(&format!("{:10}{line}", ""))?;
                }
            }
        }
        Ok(())
    }

    fn close(&mut self) -> Result<(), Failure> {
        for recorder in std::mem::take(&mut self.recorders) {
            let name = recorder.name().clone();
            for kept in recorder.close(&mut self.store)? {
                self.tell(&name, kept)?;
            }
        }
        Ok(())
    }
}
